"""The legibility sheet: the panel as its reader sees it, and the words that are likely to be misread, before and after.

Pictures are painted from the same drawings as all others, then seen in perspective and blurred (`drawing/as_seen.py`).
"""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from typing import Final

import numpy as np
from msgspec.structs import replace

from panelart.checks import eyesight
from panelart.checks.misreading import MixUp, Seen, Slip, usual_resolution, worst_first
from panelart.checks.shadows import Look
from panelart.checks.survey import Survey
from panelart.drawing.as_seen import Pixels, View, blurred, seen_through, view_of
from panelart.drawing.layers import PARTS
from panelart.drawing.representation import Drawing, Layer, Raster
from panelart.geometry import Box
from panelart.lettering.outline import bounds
from panelart.model.panel import Sight
from panelart.sheets.legibility import Crop, legibility_page
from panelart.sheets.picture import looked_at
from panelart.writers import png

_DOTS: Final = 2.0
"""Pixels to a standard deviation of the blur, at least: then no pixel is seen."""

_MOST_PER_MM: Final = 16.0
_LEAST_PER_MM: Final = 4.0

CROPS: Final = 12
"""So many words are shown, the likeliest to be misread first."""

_RIM: Final = 8.0
"""Beyond the face, mm: what stands before it is seen there too."""

_AROUND: Final = 0.7
"""Face shown around a word, over its cap height."""


def legibility_sheet(
    survey: Survey, look: Look, sight: Sight, seen: Sequence[Seen], slips: Sequence[Slip], mixed: Sequence[MixUp]
) -> Drawing:
    """The sheet for one place of the eyes and one reader, with the legends and what is misread from there."""
    face = survey.panel.outline.bounds
    view = view_of(look.eye, face.centre)
    scene = _Scene(survey, looked_at(survey, look))
    usual = usual_resolution(seen, sight)
    return legibility_page(
        survey,
        look,
        sight,
        usual,
        whole=_seen(scene, face.grown(_RIM), view, usual),
        crops=tuple(_crop(scene, view, one, said) for one, said in worst_first(seen, slips, mixed)[:CROPS]),
        counts=(len(seen), len({id(slip.words) for slip in slips})),
    )


class _Scene:
    """What is looked at, with the box of each item, so that a word is painted without the rest of the panel."""

    def __init__(self, survey: Survey, layers: tuple[Layer, ...]) -> None:
        self._panel = survey.panel
        self._layers = [
            (layer, [(item, bounds(item.outline).grown(item.width)) for item in layer.items]) for layer in layers
        ]

    def painted(self, page: Box, per_mm: float, *, hardware: bool = True) -> Pixels:
        """A box of it as pixels; without the hardware the face alone, as it is printed."""
        from PIL import Image

        layers = tuple(
            replace(layer, items=tuple(item for item, box in items if box.overlaps(page)))
            for layer, items in self._layers
            if hardware or layer.name != PARTS
        )
        panel = self._panel
        drawing = Drawing(title=panel.title, note="", page=page, trim=panel.outline.bounds, layers=layers)
        with Image.open(BytesIO(png(drawing, per_mm * 25.4))) as image:
            found: Pixels = np.asarray(image.convert("RGB"), dtype=np.uint8)
        return found


def _crop(scene: _Scene, view: View, one: Seen, said: tuple[Slip | MixUp, ...]) -> Crop:
    box = one.words.box.grown(_AROUND * one.words.cap_height)
    before = _raster(scene.painted(box, _MOST_PER_MM, hardware=False), box)
    return Crop(seen=one, said=said, before=before, after=_seen(scene, box, view, one.resolved))


def _seen(scene: _Scene, box: Box, view: View, resolved: float) -> Raster:
    """A box of the face as it is seen: in perspective and blurred, in mm of the view."""
    deviation = eyesight.BLUR * resolved * eyesight.ARCMIN * view.distance
    per_mm = min(max(_DOTS / deviation, _LEAST_PER_MM), _MOST_PER_MM)
    reach = 3.0 * deviation
    page, within = box.grown(reach), view.box(box)
    sharp = seen_through(view, scene.painted(page, per_mm), page, within.grown(reach), per_mm)
    soft = blurred(sharp, deviation * per_mm)
    rim = round(reach * per_mm)
    kept = soft[rim : soft.shape[0] - rim, rim : soft.shape[1] - rim]
    return _raster(np.ascontiguousarray(kept), within)


def _raster(pixels: Pixels, box: Box) -> Raster:
    high, wide = pixels.shape[:2]
    return Raster(width=wide, height=high, pixels=pixels.tobytes(), box=box)
