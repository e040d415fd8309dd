"""The ways the panel is shown: each the drawing that a file of `make` or a sheet carries, as SVG."""

from __future__ import annotations

from typing import Final

from panelart import __version__
from panelart.checks.shadows import hidden_ink, look_from
from panelart.checks.survey import survey
from panelart.drawing.artwork import artwork
from panelart.drawing.blanklayer import blank_layer
from panelart.drawing.cutlayer import cut_layer, mask_layer
from panelart.drawing.layers import CUTOUTS, LEGEND, OUTLINE
from panelart.drawing.representation import Drawing
from panelart.legends.explain import stories
from panelart.messages import Message
from panelart.messages import viewer as said
from panelart.model.layout import Layout
from panelart.model.panel import EYES_APART, EyeRange, Side
from panelart.sheets.build import BuildSheet, build_sheet
from panelart.sheets.picture import panel_picture
from panelart.sheets.places import places_drawing
from panelart.sheets.shadows import shadow_picture
from panelart.viewer.stages import Shown

FINISHED: Final = "finished"


class NoSuchViewError(LookupError):
    """A view that this panel has not."""


def names(layout: Layout) -> tuple[tuple[str, Message], ...]:
    """The views of a panel as (name, words), the finished look first."""
    plates = tuple((f"plate-{ink.slug}", said.view_plate(ink=ink.name)) for ink in layout.panel.marking.inks)
    masks = tuple(
        (f"mask-{side.value}", says)
        for side, says in ((Side.FRONT, said.view_masks_front()), (Side.REAR, said.view_masks_rear()))
        if any(mask.side is side for mask in layout.masks)
    )
    blank = () if layout.blank is None else (("blank", said.view_blank()),)
    return (
        (FINISHED, said.view_finished()),
        ("cut-front", said.view_cutouts_front()),
        ("cut-rear", said.view_cutouts_rear()),
        *plates,
        *blank,
        *masks,
    )


def drawing(layout: Layout, name: str) -> Drawing:
    """The drawing of one view, 1:1 in panel coordinates. Raises NoSuchViewError."""
    if name not in {known for known, _ in names(layout)}:
        raise NoSuchViewError(name)
    if name.startswith("cut-"):
        return cut_layer(layout, Side(name.removeprefix("cut-")))
    if name.startswith("mask-"):
        return mask_layer(layout, Side(name.removeprefix("mask-")))
    if name == "blank" and layout.blank is not None:
        return blank_layer(layout, layout.blank)
    if name.startswith("plate-"):
        return artwork(layout).only(f"{LEGEND}-{name.removeprefix('plate-')}", OUTLINE, CUTOUTS)
    return panel_picture(layout)


def station_pages(layout: Layout) -> tuple[Drawing, ...]:
    """The pages of the build sheet."""
    return build_sheet(BuildSheet(layout=layout, date="", made_by=f"panelart {__version__}"))


def shadows(layout: Layout, *, height: float, aside: float, distance: float, lean: float) -> Drawing:
    """What is hidden from the eyes: mm above and right of the panel's middle, mm off it, degrees the panel leans back.

    Raises ValueError where the eye would not be in front of the face.
    """
    told = layout.panel.operator.eye
    seen = EyeRange(
        distance=distance,
        height=(height, height),
        aside=(aside, aside),
        lean_deg=lean,
        where=layout.panel.where,
        apart=EYES_APART if told is None else told.apart,
    )
    if seen.off_the_face(height) <= 0.0:
        raise ValueError(said.eye_behind_face())
    surveyed = survey(layout)
    look = look_from(layout.panel, seen, height, aside)
    return shadow_picture(surveyed, hidden_ink(surveyed, [look]), look, ranged=False)


def places(shown: Shown, ref: str) -> Drawing | None:
    """The places that the legends of a part could have; None where there was nothing to choose."""
    found = stories(shown.chosen, ref)
    return places_drawing(shown.layout, found) if found else None
