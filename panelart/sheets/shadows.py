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
from panelart.lettering.outline import bounds
from panelart.messages import Message
from panelart.messages import sheets as said
from panelart.sheets.grounds import shape_of_ground
from panelart.sheets.paper import GREY, HEADING, LINE_PITCH, TEXT, lines_of, paragraph, words
from panelart.sheets.picture import MARGIN, picture

CLEAR = 3.0
"""White between the panel and the words over it, mm."""

SHADOW = Paint(colour="#5B8DEF", opacity=0.38)
ONE_EYE = Paint(colour="#5B8DEF", opacity=0.14)
LOST = Paint(colour="#E5262B")
LOST_ELSEWHERE = Paint(colour="#F0A020")


def shadow_picture(survey: Survey, hidden: Sequence[HiddenInk], look: Look, *, ranged: bool) -> Drawing:
    """The panel 1:1 with the shadows from one place.

    Ink that is hidden there, wholly or in part, is red; ink hidden only from elsewhere in a range of places
    (`ranged`) is amber. Of levers and sliding caps the shadows at all their positions are drawn. What only one of two
    eyes does not see is tinted lighter: it is not hidden.
    """
    panel = survey.panel
    face = panel.outline.bounds
    on_face = shapely.box(face.left, face.bottom, face.right, face.top)
    each = [
        shapely.intersection(
            shapely.union_all([shadow for body in casters(survey) for shadow in body.shadows(eye)]), on_face
        )
        for eye in look.eyes
    ]
    ground, from_one = shapely.intersection_all(each), shapely.union_all(each)
    lost = [
        Item(
            shape=shape_of_ground(one.piece),
            fill=LOST if shapely.intersection(one.piece, ground).area > 0.0 else LOST_ELSEWHERE,
            label=str(said.hidden_ink(owner=one.ink.owner)),
        )
        for one in hidden
    ]
    # Drawn beside the bodies, not over them: there the hardware itself is what is seen.
    bodies = shapely.union_all([cover.ground for cover in survey.covers])
    shade = [
        Item(shape=shape_of_ground(beside), fill=fill, label=str(label))
        for part, fill, label in (
            (shapely.difference(from_one, ground), ONE_EYE, said.shadows_of_one_eye()),
            (ground, SHADOW, said.hardware_shadows()),
        )
        if (beside := shapely.difference(part, bodies)).area > 0.0
    ]
    seen = said.shadows_from(look=look, distance=round(look.eye.z))
    if look.apart > 0.0:
        seen = said.paragraph(sentences=(seen, said.two_eyes(apart=look.apart)))
    head = _head(panel.title, seen, hidden, face, ranged=ranged)
    page = Box(face.left - MARGIN, face.bottom - MARGIN, face.right + MARGIN, _top(head) + MARGIN)
    return Drawing(
        title=str(said.shadows_title(panel=panel.title)),
        note=str(said.paragraph(sentences=(said.shadows_note(panel=panel.title), seen))),
        page=page,
        trim=face,
        layers=(
            Layer(name=PARTS, items=picture(survey.layout, Scaling(1.0, ORIGIN))),
            Layer(name=FINDINGS, items=(*shade, *lost)),
            Layer(name=NOTES, items=tuple(head)),
        ),
        number=panel.number,
        revision=panel.revision,
        spec=panel.fingerprint,
    )


def _head(title: str, seen: Message, hidden: Sequence[HiddenInk], face: Box, *, ranged: bool) -> list[Item]:
    count = len({id(one.ink) for one in hidden})
    if count:
        result = (said.hidden_in_range if ranged else said.hidden_from_here)(count=count)
    else:
        result = said.clear_in_range() if ranged else said.clear_from_here()
    remark = said.paragraph(sentences=(seen, result))
    lines = lines_of(remark, face.width)
    base = face.top + CLEAR + (len(lines) - 1) * TEXT * LINE_PITCH
    named = words(title, Point(face.left, base + TEXT * LINE_PITCH + 1.0), height=HEADING, bold=True)
    return [named.item, *paragraph(remark, Point(face.left, base + TEXT), face.width, paint=GREY)]


def _top(items: Sequence[Item]) -> float:
    return bounds([loop for item in items for loop in item.outline]).top
