"""The picture of what the hardware hides: the panel with its shadows from one place of the eye, and what is lost."""

from __future__ import annotations

from collections.abc import Sequence

import shapely

from panelart.checks.shadows import HiddenInk, Look, casters
from panelart.checks.survey import Survey
from panelart.drawing.layers import FINDINGS, NOTES, PARTS
from panelart.drawing.representation import Drawing, Item, Layer, Paint
from panelart.drawing.scaling import Scaling
from panelart.geometry import ORIGIN, Box, Point
from panelart.sheets.grounds import shape_of_ground
from panelart.sheets.paper import GREY, HEADING, TEXT, words
from panelart.sheets.picture import MARGIN, picture

HEAD = 14.0
"""Room for the words over the panel, mm."""

SHADOW = Paint(colour="#5B8DEF", opacity=0.38)
LOST = Paint(colour="#E5262B")
LOST_ELSEWHERE = Paint(colour="#F0A020")


def shadow_picture(survey: Survey, hidden: Sequence[HiddenInk], look: Look, *, ranged: bool) -> Drawing:
    """The panel 1:1 with the shadows from one place.

    Ink that is hidden there, wholly or in part, is red; ink hidden only from elsewhere in a range of places
    (`ranged`) is amber. Of levers and sliding caps the shadows at all their positions are drawn.
    """
    panel = survey.panel
    face = panel.outline.bounds
    ground = shapely.intersection(
        shapely.union_all([shadow for body in casters(survey) for shadow in body.shadows(look.eye)]),
        shapely.box(face.left, face.bottom, face.right, face.top),
    )
    lost = [
        Item(
            shape=shape_of_ground(one.piece),
            fill=LOST if shapely.intersection(one.piece, ground).area > 0.0 else LOST_ELSEWHERE,
            label=f"hidden ink of {one.ink.owner}",
        )
        for one in hidden
    ]
    # Drawn beside the bodies, not over them: there the hardware itself is what is seen.
    beside = shapely.difference(ground, shapely.union_all([cover.ground for cover in survey.covers]))
    shade = (
        [] if beside.is_empty else [Item(shape=shape_of_ground(beside), fill=SHADOW, label="shadows of the hardware")]
    )
    page = Box(face.left - MARGIN, face.bottom - MARGIN, face.right + MARGIN, face.top + HEAD)
    seen = f"Shadows from {look}, {look.eye.z:.0f} mm off the face."
    return Drawing(
        title=f"{panel.title}: shadows",
        note=f"{panel.title} seen from the front, with what the hardware hides. {seen}",
        page=page,
        trim=face,
        layers=(
            Layer(name=PARTS, items=picture(survey.layout, Scaling(1.0, ORIGIN))),
            Layer(name=FINDINGS, items=(*shade, *lost)),
            Layer(name=NOTES, items=tuple(_head(panel.title, seen, hidden, face, ranged=ranged))),
        ),
        number=panel.number,
        revision=panel.revision,
        spec=panel.fingerprint,
    )


def _head(title: str, seen: str, hidden: Sequence[HiddenInk], face: Box, *, ranged: bool) -> list[Item]:
    count = len({id(one.ink) for one in hidden})
    if count:
        where = "from somewhere in the range of the eye" if ranged else "from that place"
        told = f"{count} legends and marks are hidden, in red or amber, {where}."
    else:
        clear = "everywhere in the range of the eye" if ranged else "that place"
        told = f"Every letter and mark is clear from {clear}."
    return [
        words(title, Point(face.left, face.top + HEAD - 4.5), height=HEADING, bold=True).item,
        words(f"{seen} {told}", Point(face.left, face.top + HEAD - 9.0), height=TEXT, paint=GREY).item,
    ]
