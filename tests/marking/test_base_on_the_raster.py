"""The base under lettering, on the pixels: drawn in by the choke or as wide as the ink, letter by letter, never torn.

Ink and base are rasterised by Pillow at 0.01 mm, distances taken by scipy's exact distance transform: neither knows
the polygons that the plates are made by.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
import shapely
from PIL import Image, ImageDraw

from panelart.marking.base import base_under
from panelart.marking.separation import separations
from panelart.model.printing import Thin
from panelart.pipeline import lay_out
from panelart.spec.read import panel_from_text
from tests.effort import some

ndimage = pytest.importorskip("scipy.ndimage")

PER_MM = 100
EDGE = 2.5 / PER_MM
"""Two and a half pixels: what three rasters, of the ink, of the base and of what is drawn in, may be off together."""

WORDS = "UPPER RW*8&"
CASES = [
    # process, cap height, weight, choke: those that were torn, then either side of them
    ("screen-print", 3.5, "medium", None),
    ("screen-print", 4, "medium", None),
    ("digital-print", 2.75, "medium", None),
    ("digital-print", 3, "medium", None),
    ("digital-print", 5, "medium", 0.15),
    ("pad-print", 3, "bold", None),
    ("overlay", 3, "light", None),
    *(("digital-print", 2 + step * 0.05, "medium", 0.15) for step in range(30)),
    *(("screen-print", 2.5 + step * 0.05, "h/8.5", 0.1) for step in range(30)),
]
SPEC = """\
panelart: 1
panel: {{title: T, size: [{width}, 20], sheet: {{material: aluminium, thickness: 2}},
  coat: {{kind: powder, thickness: 0.08, colour: "#2B3036"}}}}
marking: {{process: {process}, ink: {{name: amber, colour: "#F2B84B"}}, viewing_distance: 400,
  lettering: {{cap_height: {cap}, case: upper, font: {{weight: {weight}}}}}, base: {base}}}
texts: [{{text: "{words}", at: [5, 8]}}]
"""


def plates(process: str, cap: float, weight: str, choke: float | None, thin: str = "full"):
    base = f"{{thin: {thin}}}" if choke is None else f"{{choke: {choke}, thin: {thin}}}"
    text = SPEC.format(process=process, cap=cap, weight=weight, base=base, words=WORDS, width=20 + 12 * cap)
    made = separations(lay_out(panel_from_text(text)))
    return made.ink_area("amber"), made.laid_base.ground, made.layout.panel.marking.printing.base


def raster(ground: shapely.Geometry, frame: tuple[float, ...]) -> np.ndarray:
    left, bottom, right, top = frame
    size = (round((right - left) * PER_MM) + 1, round((top - bottom) * PER_MM) + 1)
    image = Image.new("1", size)
    pen = ImageDraw.Draw(image)
    for piece in sorted(shapely.get_parts(ground), key=lambda piece: -piece.area):
        for ring, paint in ((piece.exterior, 1), *((ring, 0) for ring in piece.interiors)):
            pen.polygon([((x - left) * PER_MM, (top - y) * PER_MM) for x, y in ring.coords], fill=paint)
    return np.array(image)


def deep(pixels: np.ndarray) -> np.ndarray:
    """How far each pixel is within, mm."""
    return ndimage.distance_transform_edt(pixels) / PER_MM


def near(pixels: np.ndarray) -> np.ndarray:
    """How far each pixel is from the nearest that is set, mm."""
    return ndimage.distance_transform_edt(~pixels) / PER_MM


def windows(letters: np.ndarray) -> list[tuple[slice, slice]]:
    """Where each letter is, with a margin of which none is ink of its own: distances are those on the whole raster."""
    margin = 4
    return [
        tuple(slice(max(span.start - margin, 0), span.stop + margin) for span in found)
        for found in ndimage.find_objects(letters)
    ]


def narrowest(pixels: np.ndarray, width: float) -> np.ndarray:
    """What of the pixels no disc of a width covers that lies within them."""
    core = deep(pixels) >= width / 2 - EDGE
    return pixels & (near(core) > width / 2 + EDGE) if core.any() else pixels


@pytest.mark.few(9)
@pytest.mark.parametrize(("process", "cap", "weight", "choke"), CASES)
def test_every_letter_has_whole_base(process: str, cap: float, weight: str, choke: float | None) -> None:
    """No base outside the ink less the choke, none missing under it; or as wide as the ink, letter by letter."""
    ink, base, how = plates(process, cap, weight, choke)
    frame = tuple(np.array(ink.bounds) + np.array([-0.5, -0.5, 0.5, 0.5]))
    inked, based = raster(ink, frame), raster(base, frame)
    letters, count = ndimage.label(inked, structure=np.ones((3, 3)))
    assert count == len(WORDS) - 1
    assert not (based & ~inked & (near(inked) > EDGE)).any()
    whole = set()
    for number, window in enumerate(windows(letters), start=1):
        letter = letters[window] == number
        here = based[window] & letter
        drawn_in = deep(letter) > how.choke
        within = not (here & (near(drawn_in) > EDGE)).any() if drawn_in.any() else not here.any()
        meant = drawn_in if within else letter
        missing = meant & (near(here) > EDGE) if here.any() else meant
        assert not missing.any(), f"letter {number}: {missing.sum()} pixels of base missing"
        assert ndimage.label(here, structure=np.ones((3, 3)))[1] == 1, f"letter {number}: its base is in pieces"
        thin = narrowest(here, how.hold)
        specks = ndimage.sum_labels(thin, *ndimage.label(thin)) if thin.any() else []
        assert max(specks, default=0) <= (how.hold * PER_MM) ** 2 / 4, f"letter {number}: base under {how.hold} mm wide"
        whole.add(within)
    # Of a pen of one width all letters are alike.
    assert len(whole) == 1


@pytest.mark.parametrize(("process", "cap", "weight", "choke"), some(CASES[:7], 3))
def test_without_base_under_thin_strokes_no_shreds_are_left(process, cap, weight, choke) -> None:
    ink, base, how = plates(process, cap, weight, choke, thin="none")
    frame = tuple(np.array(ink.bounds) + np.array([-0.5, -0.5, 0.5, 0.5]))
    inked, based = raster(ink, frame), raster(base, frame)
    letters, _ = ndimage.label(inked, structure=np.ones((3, 3)))
    for number, window in enumerate(windows(letters), start=1):
        letter = letters[window] == number
        here = based[window] & letter
        drawn_in = deep(letter) > how.choke
        assert not here.any() or not (drawn_in & (near(here) > EDGE)).any()


def test_a_line_into_a_field_passes_over_in_small_steps() -> None:
    """Along the line's edge the base goes from the ink's edge to the choke with no step of more than a fifth of it."""
    choke, hold = 0.2, 0.1
    ink = shapely.box(0, 0, 6, 6) | shapely.box(5.9, 2.9, 12, 3.15)
    base = base_under([ink], choke=choke, hold=hold, thin=Thin.FULL, free=shapely.box(-9, -9, 99, 99)).ground
    assert base.geom_type == "Polygon"
    assert ink.buffer(1e-9).covers(base)
    assert base.covers(ink.buffer(-choke - 1e-6))
    frame = (-0.5, -0.5, 12.5, 6.5)
    inked, based = raster(ink, frame), raster(base, frame)
    lost = deep(inked) * (near(based) > 0)  # how deep within the ink base is missing
    assert lost.max() <= choke + 2 * EDGE
    # Down the right edge of the field, away from the line: how far the base is drawn in there.
    column = [float(6 - base.intersection(shapely.LineString([(0, y), (6.5, y)])).bounds[2]) for y in
              np.arange(3.16, 5.0, 0.005)]  # fmt: skip
    assert column[-1] == pytest.approx(choke, abs=1e-6)
    assert max(b - a for a, b in pairwise(column)) < 0.6 * choke


def test_a_heavy_stem_beside_hair_lines_is_drawn_in() -> None:
    """A letter of two strokes as a modern roman has them: the hair line full, the stem choked in its middle."""
    ink = shapely.box(0, 0, 1, 5) | shapely.box(0.5, 4.8, 4, 5) | shapely.box(3, 0, 4, 5)
    base = base_under([ink], choke=0.1, hold=0.1, thin=Thin.FULL, free=shapely.box(-9, -9, 99, 99)).ground
    middle = base.intersection(shapely.box(-1, 2, 2, 3)).bounds
    assert (middle[0], middle[2]) == pytest.approx((0.1, 0.9), abs=1e-9)
    hair = base.intersection(shapely.box(1.8, 4, 2.2, 6)).bounds
    assert (hair[1], hair[3]) == pytest.approx((4.8, 5.0), abs=1e-9)
    assert base.geom_type == "Polygon"
