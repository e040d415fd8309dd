"""The page that shows what a reader sees of a panel: the whole, and the words likely to be misread."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.checks import eyesight
from panelart.checks.misreading import LIMIT_OF_READING, MixUp, Seen, Slip
from panelart.checks.shadows import Look
from panelart.checks.survey import Survey
from panelart.drawing.layers import NOTES, PARTS
from panelart.drawing.representation import Drawing, Item, Layer, Raster
from panelart.geometry import Box, Point, Vector, rectangle
from panelart.lettering.outline import bounds, shape_of
from panelart.messages import Message
from panelart.messages import sheets_legibility as said
from panelart.model.panel import Sight
from panelart.sheets.paper import GREY, HEADING, LINE_PITCH, MEDIUM, TEXT, paragraph, paragraph_height, rule, words

MARGIN: Final = 8.0
MINIMUM_WIDTH: Final = 184.0

CELL: Final = 88.0
"""A legend with its two pictures and its sentence, mm wide; as many beside each other as there is room for."""

GUTTER: Final = 8.0

SHOWN: Final = (42.0, 13.0)
"""Room for one picture of a legend, mm; both pictures of one are to one scale."""

BETWEEN: Final = 3.0
MOST_ENLARGED: Final = 4.0

CLAUSES: Final = 3
"""Of one legend so many misreadings are told."""

EVEN: Final = 0.1
"""From a tenth on a chance is told in whole percents."""

LENGTH: Final = 50.0
"""The bar, mm on the face."""


class Crop(Struct, frozen=True, kw_only=True):
    """One legend: as it is printed, as it is seen, and what is likely to be misread."""

    seen: Seen
    said: tuple[Slip | MixUp, ...]
    before: Raster
    after: Raster


def legibility_page(
    survey: Survey,
    look: Look,
    sight: Sight,
    resolved: float,
    *,
    whole: Raster,
    crops: Sequence[Crop],
    counts: tuple[int, int],
) -> Drawing:
    """One page, y down from 0 at its head; `counts` are the legends and those that may be misread.

    `resolved` is the angle that the reader resolves on most of the panel, in minutes of arc.
    """
    panel = survey.panel
    width = max(whole.box.width, MINIMUM_WIDTH)
    items = _head(survey, look, sight, resolved, counts, width)
    y = _lowest(items) - 6.0
    picture = _placed(whole, Point((width - whole.box.width) / 2.0, y), 1.0, said.as_seen(panel=panel.title))
    y -= whole.box.height + 4.0
    items += _scale(look, panel.outline.bounds.centre, y)
    y -= 12.0
    pictures = [picture]
    if crops:
        items.append(words(said.worst_words(), Point(0.0, y), height=HEADING, bold=True).item)
        y -= 4.0
    columns = max(int((width + GUTTER) // (CELL + GUTTER)), 1)
    for start in range(0, len(crops), columns):
        foot = y
        for column, crop in enumerate(crops[start : start + columns]):
            shown, told = _cell(survey, crop, Point(column * (CELL + GUTTER), y))
            pictures += shown
            items += told
            foot = min(foot, _lowest(told))
        y = foot - 6.0
    page = Box(-MARGIN, y - MARGIN, width + MARGIN, MARGIN)
    title = str(said.title(panel=panel.title))
    return Drawing(
        title=title,
        note=title,
        page=page,
        trim=page,
        layers=(Layer(name=PARTS, items=tuple(pictures)), Layer(name=NOTES, items=tuple(items))),
        number=panel.number,
        revision=panel.revision,
        spec=panel.fingerprint,
    )


def sentence(survey: Survey, seen: Seen, found: Sequence[Slip | MixUp]) -> Message:
    """A legend, how high it is and looks, and what is likely to be read in its place."""
    return said.misread(legend=_legend(survey, seen), slips=[_slips(survey, seen, found)])


def _legend(survey: Survey, seen: Seen) -> Message:
    return said.legend_seen(
        what=survey.named([seen.words]), height=round(seen.words.cap_height, 2), angle=round(seen.angle, 1)
    )


def _slips(survey: Survey, seen: Seen, found: Sequence[Slip | MixUp]) -> Message:
    if not seen.readable:
        return said.unreadable(size=round(seen.size, 1), limit=LIMIT_OF_READING)
    clauses: list[Message] = []
    for each in found:
        chance = percent(each.chance)
        if isinstance(each, Slip):
            clause = said.slip(character=each.character, taken=each.taken, chance=chance)
        else:
            other = each.other if each.one is seen.words else each.one
            clause = said.mix_up(other=survey.named([other]), chance=chance)
        if clause not in clauses:
            clauses.append(clause)
    return said.slips(slips=clauses[:CLAUSES])


def percent(chance: float) -> float:
    """A chance in percent, to the digit that matters."""
    return round(100.0 * chance, 0 if chance >= EVEN else 1)


def conditions(look: Look, sight: Sight, resolved: float) -> Message:
    """Who reads, from where, in which light."""
    eyes = said.both_eyes() if look.apart > 0.0 else said.one_eye()
    return said.reader(
        acuity=sight.acuity,
        age=sight.age,
        illuminance=sight.illuminance,
        eyes=eyes,
        height=round(look.height),
        aside=round(look.aside),
        distance=round(look.eye.z),
        resolved=round(resolved, 2),
    )


def _head(
    survey: Survey, look: Look, sight: Sight, resolved: float, counts: tuple[int, int], width: float
) -> list[Item]:
    total, misread = counts
    items = [words(said.title(panel=survey.panel.title), Point(0.0, -HEADING), height=HEADING, bold=True).item]
    y = -HEADING - 3.5
    for text in (
        conditions(look, sight, resolved),
        said.misread_count(count=misread, total=total) if misread else said.none_misread(total=total),
        said.how_to_look(),
    ):
        items += paragraph(text, Point(0.0, y), width, paint=GREY)
        y -= paragraph_height(text, width) + TEXT * (LINE_PITCH - 1.0)
    return items


def _scale(look: Look, middle: Point, y: float) -> list[Item]:
    """A bar of 50 mm on the face, and what angle it is seen under at the middle."""
    angle = LENGTH * math.sqrt(float(eyesight.metric(look.eye, middle)[0, 0]))
    bar = [rule(Point(0.0, y), Point(LENGTH, y), width=MEDIUM)]
    bar += [rule(Point(x, y - 1.0), Point(x, y + 1.0), width=MEDIUM) for x in (0.0, LENGTH)]
    text = said.scale_bar(length=LENGTH, angle=round(math.degrees(angle), 1))
    return [*bar, words(text, Point(LENGTH + 3.0, y - TEXT / 2.0), paint=GREY).item]


def _cell(survey: Survey, crop: Crop, at: Point) -> tuple[list[Item], list[Item]]:
    """A legend as printed and as seen, to one scale, hanging from a place, and what is said of it."""
    boxes = (crop.before.box, crop.after.box)
    scale = min(
        MOST_ENLARGED,
        *(room / size for box in boxes for room, size in zip(SHOWN, (box.width, box.height), strict=True)),
    )
    beside = at.moved(Vector(crop.before.box.width * scale + BETWEEN, 0.0))
    pictures = [
        _placed(crop.before, at, scale, said.as_printed(text=crop.seen.words.text)),
        _placed(crop.after, beside, scale, said.as_seen(panel=crop.seen.words.text)),
    ]
    below = at.y - max(box.height for box in boxes) * scale - 1.0
    told = paragraph(_legend(survey, crop.seen), Point(at.x, below), CELL)
    told += paragraph(
        _slips(survey, crop.seen, crop.said), Point(at.x, _lowest(told) - TEXT * (LINE_PITCH - 1.0)), CELL
    )
    return pictures, told


def _placed(picture: Raster, top_left: Point, scale: float, label: Message) -> Item:
    wide, high = picture.box.width * scale, picture.box.height * scale
    box = Box(top_left.x, top_left.y - high, top_left.x + wide, top_left.y)
    return Item(
        shape=shape_of(rectangle(wide, high, box.centre).ccw()), picture=replace(picture, box=box), label=str(label)
    )


def _lowest(items: Sequence[Item]) -> float:
    return bounds([loop for item in items for loop in item.outline]).bottom
