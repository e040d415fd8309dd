"""Whose a legend is: nearest to its own part, and set as the legends of its like are."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

import numpy as np
import shapely

from panelart.checks.findings import Bound, Observation
from panelart.checks.mends import moved_apart, other_sides
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey, Words
from panelart.diagnostics import Severity, Where
from panelart.geometry import Box
from panelart.legends.candidates import UPRIGHT
from panelart.legends.groups import groups
from panelart.legends.ownership import Grounds, ground, speaks
from panelart.legends.wanted import SAME_LINE, Wanted, wanted
from panelart.lettering.block import is_tag
from panelart.lettering.breaks import breaks
from panelart.messages import Message
from panelart.messages import checks as said
from panelart.model.panel import Anchor, LegendRequest, Place

FARTHEST = 100.0
"""Ratios of distances are told up to this: nearer than a hundredth is in contact."""


@rule(
    Severity.WARNING,
    says="{subject}: distance to its own part is {measured} × that to {other}; maximum {limit} ×",
    fix="Move the name nearer to its part, or move the other part away.",
    limits=("ownership.maximum",),
    mends=(other_sides,),
)
def legend_ambiguous(survey: Survey) -> Iterator[Observation]:
    """The name of a part is nearer to another part, and seems to belong to it.

    Measured is the distance from the name to its own part over the distance to the nearest other part that is operated
    or read, 100 where it touches that. Each part counts with its scale and the names of its positions, and what lies
    between them; screws and openings do not count.

    Source: MIL-STD-1472E, 5.5.2.2, labels are on or very near their items; that readers assign a name to the nearest
    part is common practice.
    Fix: move the name or the other part.
    Fails: a name 5 mm above its switch and 3 mm below another.
    Passes: a name 2 mm above its switch and 3 mm below another.
    """
    limit = survey.limits["ownership.maximum"]
    areas = _grounds(survey)
    names = [word for word in survey.words if word.kind == "name" and word.owner in areas]
    if len(areas) < 2 or not names:
        return
    grounds = Grounds(areas)
    boxes = np.array([[word.box.left, word.box.bottom, word.box.right, word.box.top] for word in names])
    own = np.array([areas[word.owner] for word in names], dtype=object)
    nearest = grounds.nearest(boxes, [word.owner for word in names], own, 1.0 / limit.value)
    for word, (mine, away, other) in zip(names, nearest, strict=True):
        if mine > ROUNDING and mine > limit.value * away + ROUNDING:
            yield Observation(
                refs=(word.owner, other),
                place=word.box,
                where=word.where,
                subject=survey.named([word]),
                other=survey.part(other),
                measured=min(FARTHEST, mine / max(away, ROUNDING)),
                limit=limit,
                bound=Bound.MAXIMUM,
            )


legend_ambiguous.cases(
    """
    parts:
      - {ref: J1, part: bnc, at: [60, 30], legend: {text: In, place: above, offset: [0, __]}}
      - {ref: J2, part: bnc, at: [60, 60], legend: {text: Out, place: above}}
    """,
    fails="7",
    passes="0",
)


def _grounds(survey: Survey) -> dict[str, shapely.Geometry]:
    """What belongs to each part that speaks: all in front, its openings, its scale, the names of its positions."""
    areas: dict[str, list[shapely.Geometry]] = {part.ref: [] for part in survey.panel.parts if speaks(part)}
    for thing in (*survey.front, *survey.openings):
        if thing.owner in areas:
            areas[thing.owner].append(thing.ground)
    for owner, box in _of_scales(survey):
        if owner in areas:
            areas[owner].append(shapely.box(box.left, box.bottom, box.right, box.top))
    return {ref: ground(own) for ref, own in areas.items() if own}


def _of_scales(survey: Survey) -> Iterator[tuple[str, Box]]:
    """Marks and numerals of scales and names of positions; a line that leads to a name is no part of its owner."""
    yield from ((mark.owner, mark.box) for mark in survey.scale_marks if mark.kind != "leader")
    yield from ((word.owner, word.box) for word in survey.words if word.kind in {"position", "numeral"})


@rule(
    Severity.WARNING,
    says="{subject}: {other}",
    fix="Widen the pitch of the row, shorten the words, or lower the cap height for all of them.",
    mends=(moved_apart, other_sides),
)
def row_unlike(survey: Survey) -> Iterator[Observation]:
    """A name is set in another way than the names of the like parts that it belongs with.

    Names of like parts in a row, a column or the copies of a repeat go on one side, on as many lines, in one face, at
    one end or in the middle. One is set otherwise only where there is no room for all of them in one way. Names for
    which the spec asks for a side, an alignment or lettering of their own are compared among themselves, and one with
    an offset with none.

    Source: MIL-STD-1472E, 5.5.2.3: the same place throughout the equipment; rows set alike are common practice of
    draughtsmen.
    Fix: widen the pitch, shorten the words, or lower the cap height for the whole row.
    Fails: two sockets in a row, of which one has a plate above it and is named on its right.
    Passes: the same sockets with the plate higher up.
    """
    words = {(word.where, word.owner): word for word in survey.words}
    wants = wanted(survey.panel)
    language = survey.panel.marking.styles["name"].look.language
    for group in _set_alike(wants):
        found = [(want, _texts_of(want, words)) for want in (wants[index] for index in group)]
        placed = [_Placed(want, texts, language) for want, texts in found if any(word.kind == "name" for word in texts)]
        for one, other in _unlike(placed) if wants[group[0]].kind == "name" else ():
            word = one.word
            yield Observation(
                refs=(word.owner,), place=word.box, where=word.where, subject=survey.named([word]), other=other
            )


row_unlike.cases(
    """
    parts:
      - {ref: J1, part: bnc, at: [40, 50], legend: Input}
      - {ref: J2, part: bnc, at: [60, 50], legend: Output}
    keepouts:
      - {area: {rectangle: [42, __, 60, 20]}, why: a plate}
      - {area: {rectangle: [0, 20, 160, 20]}, why: a plate}
    """,
    fails="58",
    passes="75",
)


def _set_alike(wants: Sequence[Wanted]) -> Iterator[Sequence[int]]:
    """Legends that are to be set alike: of a group those with one alignment, none of them moved by the designer."""
    for group in groups(wants):
        by_end: dict[Anchor | None, list[int]] = {}
        for index in group:
            if wants[index].request.offset is None:
                by_end.setdefault(wants[index].request.align, []).append(index)
        yield from by_end.values()


def _texts_of(want: Wanted, words: Mapping[tuple[Where, str], Words]) -> list[Words]:
    """The texts of a legend that were placed, from the top; a text of several is read with the others."""
    found = (words.get((one.where, want.part.ref)) for one in want.request.texts)
    return [word for word in found if word is not None]


class _Placed:
    """A name of a group as it is set: its texts from the top, of which most have one."""

    def __init__(self, want: Wanted, texts: Sequence[Words], language: str) -> None:
        self.texts, self.want = texts, want
        self.word = texts[0]
        self.side = "" if self.word.legend.place is None else self.word.legend.place.value
        self.lines = sum(word.text.count("\n") + 1 for word in texts)
        self.most_lines = sum(_most_lines(one, language) for one in want.request.texts)


def _most_lines(request: LegendRequest, language: str) -> int:
    """On how many lines a text may be set, with no number parted from its word."""
    written = request.text
    if "\n" in written:
        return written.count("\n") + 1
    apart = [written[each.at :].split() for each in breaks(written, request.spans, language)]
    return 1 + sum(not is_tag(words[0]) for words in apart if words)


def _unlike(names: Sequence[_Placed]) -> Iterator[tuple[_Placed, Message]]:
    """The names of a group that are set otherwise than most of it, and in what."""
    if not names:
        return
    usual, count = Counter(name.side for name in names).most_common(1)[0]
    others = [name for name in names if name.side != usual]
    yield from ((name, said.side_unlike(count=count, side=name.side, usual=usual)) for name in others)
    alike = [name for name in names if name.side == usual]
    fewer = list(_with_fewer_lines(alike))
    yield from fewer
    if not fewer and usual in _UPRIGHT:
        yield from _off_line(alike)


def _with_fewer_lines(names: Sequence[_Placed]) -> Iterator[tuple[_Placed, Message]]:
    """Names on fewer lines than their fellows that could be on as many."""
    lines = max(name.lines for name in names)
    for name in names:
        if name.lines < min(lines, name.most_lines):
            yield name, said.lines_unlike(count=name.lines, usual=lines)


_UPRIGHT = frozenset(place.value for place in UPRIGHT)


def _off_line(names: Sequence[_Placed]) -> Iterator[tuple[_Placed, Message]]:
    """Names of a row that nearly are on the base line of most; a row that is on two by turns is even."""
    rows: dict[int, list[_Placed]] = {}
    for name in names:
        rows.setdefault(round(name.want.part.at.y / SAME_LINE), []).append(name)
    for row in rows.values():
        row.sort(key=lambda name: name.want.part.at.x)
        lines = [round(_line(name.texts) / SAME_LINE) for name in row]
        usual = Counter(lines).most_common(1)[0][0]
        if len(set(lines[::2])) > 1 or len(set(lines[1::2])) > 1 or len(row) < 3:
            for name, line in zip(row, lines, strict=True):
                by = abs(line - usual) * SAME_LINE
                if SAME_LINE < by <= name.word.cap_height:
                    yield name, said.line_unlike(by=by)


def _line(texts: Sequence[Words]) -> float:
    """The base line nearest to the part: of the last text above it, else of the first."""
    legend = texts[-1].legend if texts[0].legend.place is Place.ABOVE else texts[0].legend
    if legend.setting is None or legend.place is not Place.ABOVE:
        return legend.baseline.y
    return legend.baseline.y + legend.setting.baselines[-1]
