"""Legends that belong together: names of like parts in a row, a column or copies of one item, positions of one control.

A draughtsman sets them alike or not at all. So a group has *ways*, each of which says for every member where it goes:
one side, one end or the middle, as many lines, the same face, one base line in a row. Words that cannot be broken into
as many lines as their fellows count as if they were.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from itertools import pairwise, product
from math import inf

from msgspec.structs import replace

from panelart.legends.candidates import (
    CENTRED,
    FARTHEST,
    OVER_GAP,
    UPRIGHT,
    Candidate,
    Near,
    farther_by,
    offset,
    on_line,
    step_off,
    style_of,
)
from panelart.legends.wanted import EVEN, Wanted, are_near, in_line
from panelart.lettering.setting import line_pitch
from panelart.model.panel import LegendRequest, Marking, Place, Placing

ENDS = ("", CENTRED, "left", "right")
"""How the words of a group may lie to their parts; half way to one end is for words alone."""

IN_LINE = 0.5
"""Parts are meant to be in one row or column where they are off it by no more than this, mm. Our choice."""

FINE = 6
"""Decimals of a millimetre to which lines of like parts are one."""

SHARED_LINES = 4
"""Base lines beyond their own that a group may share with what else is in its rows, the nearest."""

Way = tuple[Candidate, ...]
"""A place for every member of a group, in its order."""

Lines = Mapping[Place, Sequence[float]]
"""Base lines above and below, and edges right and left, that a legend may share."""


def groups(wants: Sequence[Wanted]) -> list[tuple[int, ...]]:
    """The numbers of legends that belong together, at least two in each group, in the order of their first ones.

    Names belong together where their parts are one entry of the catalogue, turned alike, and nothing else was asked for
    one of them, if they are next to each other in a row or a column or come from one item of the spec; positions where
    their controls do, and those of one control in any case.
    """
    return _joined(wants, [*_of_one_control(wants), *_next_to(wants, (0, 1)), *_of_one_item(wants)])


def in_rows(wants: Sequence[Wanted], group: Sequence[int]) -> list[tuple[int, ...]]:
    """The legends of a group by rows: what is left of it when it cannot be set alike as a whole."""
    members = [wants[index] for index in group]
    pairs = [*_of_one_control(members), *_next_to(members, (0,))]
    return [tuple(group[number] for number in row) for row in _joined(members, pairs, alone=True)]


def _joined(wants: Sequence[Wanted], pairs: Iterable[tuple[int, int]], *, alone: bool = False) -> list[tuple[int, ...]]:
    """Legends that pairs lead from one to the other; without those that are in no pair, unless `alone`."""
    root = list(range(len(wants)))

    def find(index: int) -> int:
        while root[index] != index:
            root[index] = root[root[index]]
            index = root[index]
        return index

    for one, other in pairs:
        low, high = sorted((find(one), find(other)))
        root[high] = low
    found: dict[int, list[int]] = {}
    for index in range(len(wants)):
        found.setdefault(find(index), []).append(index)
    return [tuple(members) for members in found.values() if alone or len(members) > 1]


def _kind(want: Wanted) -> Hashable | None:
    """What legends of one group have in common; None for those that go by themselves.

    A name that was asked to lie elsewhere to its part has as many lines as its row all the same.
    """
    asked = want.request
    if asked.guide is not None or (asked.offset is not None and want.kind == "position"):
        return None
    part = want.part
    what = (part.component.name, part.component.changed_in, round(part.turn, 3), want.kind)
    ways = tuple(str(position.direction) for position in part.positions)
    lettering = tuple((one.style, one.font, one.cap_height, one.look) for one in asked.texts)
    said = (lettering, asked.place)
    return (*what, ways if want.kind == "position" else said)


def _alike(wants: Sequence[Wanted]) -> list[list[int]]:
    """Legends of one kind each."""
    found: dict[Hashable, list[int]] = {}
    for index, want in enumerate(wants):
        kind = _kind(want)
        if kind is not None:
            found.setdefault(kind, []).append(index)
    return list(found.values())


def _of_one_control(wants: Sequence[Wanted]) -> Iterator[tuple[int, int]]:
    by_part: dict[str, list[int]] = {}
    for index, want in enumerate(wants):
        if want.kind == "position" and _kind(want) is not None:
            by_part.setdefault(want.part.ref, []).append(index)
    for members in by_part.values():
        yield from pairwise(members)


def _of_one_item(wants: Sequence[Wanted]) -> Iterator[tuple[int, int]]:
    for members in _alike(wants):
        written: dict[Hashable, int] = {}
        for index in members:
            yield written.setdefault(wants[index].request.where, index), index


def _next_to(wants: Sequence[Wanted], axes: Sequence[int]) -> Iterator[tuple[int, int]]:
    """Pairs that are next to each other in a row (axis 0) or a column (axis 1) and not too far apart."""
    for members in _alike(wants):
        for axis in axes:
            for line in in_line(wants, members, axis, IN_LINE):
                for one, other in pairwise(line):
                    if are_near(wants[one], wants[other], axis):
                        yield one, other


def evened(wants: Sequence[Wanted], marking: Marking) -> list[Wanted]:
    """The legends, those of one group with one line pitch: the widest that any of them asks for.

    Of blocks the first texts have one, the second, and so on.
    """
    found = list(wants)
    for group in groups(wants):
        in_line = zip(*(wants[index].request.texts for index in group), strict=True)
        blocks = zip(*(_of_one_pitch(texts, marking) for texts in in_line), strict=True)
        for index, (first, *more) in zip(group, blocks, strict=True):
            found[index] = replace(wants[index], request=replace(first, more=tuple(more)))
    return found


def _of_one_pitch(texts: Sequence[LegendRequest], marking: Marking) -> Sequence[LegendRequest]:
    looks = [style_of(text, marking).look for text in texts]
    pitches = [
        line_pitch(text.text, text.spans) for text, look in zip(texts, looks, strict=True) if look.line_pitch is None
    ]
    if len(set(pitches)) < 2:
        return texts
    widest = max(pitches)
    return [
        replace(text, look=replace(look, line_pitch=widest)) if look.line_pitch is None else text
        for text, look in zip(texts, looks, strict=True)
    ]


# --- ways


def ways_of_names(
    wants: Sequence[Wanted],
    near: Sequence[Sequence[Near]],
    shared: Sequence[Lines],
    placing: Placing,
    *,
    staggered: bool = False,
) -> list[Way]:
    """Every way to set the names of a group: of each member its near places, and lines that it may share.

    With `staggered` also those that have every other name of a row one level farther out.
    """
    own = [has_own_place(want.request) for want in wants]
    picks = _distinct(_picks([_by_manner(places) for places in near], own))
    found = _ways(wants, picks, shared, placing)
    if staggered:
        found += [way for picked in picks for way in _on_two_levels(wants, picked, placing)]
    return found


def _distinct(picks: Iterable[Sequence[Candidate]]) -> list[Sequence[Candidate]]:
    """Each pick once: in most manners a member has one place, which is its first and its last."""
    return list({tuple(map(id, picked)): picked for picked in picks}.values())


def _ways(
    wants: Sequence[Wanted],
    picks: Iterable[Sequence[Candidate]],
    shared: Sequence[Lines],
    placing: Placing,
) -> list[Way]:
    """What was picked, on every line that it may stand on, each way once."""
    found: dict[tuple[object, ...], Way] = {}
    lines = _SharedLines(wants, shared)
    for picked in picks:
        for way in _on_lines(wants, picked, lines, placing):
            found.setdefault(tuple(one.key for one in way), tuple(way))
    return list(found.values())


_Manner = tuple[str, str, tuple[str, ...]]
_Options = Mapping[_Manner, Sequence[Near]]


def _by_manner(near: Iterable[Near]) -> _Options:
    found: dict[_Manner, list[Near]] = {}
    for one in near:
        if one.end in ENDS:
            found.setdefault(one.manner, []).append(one)
    return found


def has_own_place(request: LegendRequest) -> bool:
    """Whether the designer said how the words of a name lie to their part, on whichever side."""
    return request.align is not None or request.offset is not None


def _picks(members: Sequence[_Options], own: Sequence[bool]) -> Iterator[list[Candidate]]:
    """For every manner and number of lines what each member takes; the places that were asked for lead no other."""
    leading = [options for options, asked in zip(members, own, strict=True) if not asked] or members
    for manner in dict.fromkeys(manner for options in leading for manner in options):
        options = [_of_member(member, manner, asked=asked) for member, asked in zip(members, own, strict=True)]
        if all(options):
            yield from _nearest(options)


def _of_member(member: _Options, manner: _Manner, *, asked: bool) -> Sequence[Near]:
    """The places of a member in a manner, or in its own where its place was asked for."""
    return _options(member, _manner_of(member, manner) if asked else manner)


def _nearest(options: Sequence[Sequence[Near]]) -> Iterator[list[Candidate]]:
    """For every number of lines the first and the last place of each member."""
    for lines in sorted({near.lines for each in options for near in each}):
        fitting = [_of_lines(each, lines) for each in options]
        yield [near[0].candidate for near in fitting]
        yield [near[-1].candidate for near in fitting]


def _manner_of(member: _Options, manner: _Manner) -> _Manner:
    """The manner for a member with a place of its own: what was asked of its end, all else as the others have it."""
    side, _, resorts = manner
    ends = dict.fromkeys(end for place, end, _ in member if place == side)
    return next(
        ((side, end, resorts) for end in ends if (side, end, resorts) in member), (side, next(iter(ends), ""), ())
    )


def _options(member: _Options, manner: _Manner) -> Sequence[Near]:
    """The places of one legend in a manner, or in what comes to the same for its words.

    Words as wide as their part have both ends in line when they are centred; those that have no syllables to part are
    set whole.
    """
    side, end, resorts = manner
    for other in (manner, (side, CENTRED, resorts), (side, end, ()), (side, CENTRED, ())):
        if other == manner or _stands_for(other, manner):
            found = member.get(other)
            if found:
                return found
    return ()


def _stands_for(other: _Manner, manner: _Manner) -> bool:
    return other[2] == manner[2] or manner[2] in (("hyphenated",), ("parted",))


def _of_lines(near: Sequence[Near], lines: int) -> list[Near]:
    """The places with as many lines, or nearly as many; more only where the words were written so.

    The first tears least apart, the last is the narrowest.
    """
    counts = [one.lines for one in near]
    wanted = max((count for count in counts if count <= lines), default=min(counts))
    return [one for one in near if one.lines == wanted]


def _on_lines(
    wants: Sequence[Wanted], picked: Sequence[Candidate], shared: _SharedLines, placing: Placing
) -> Iterator[list[Candidate]]:
    """The same words on every line that all on one side may take: as near as all of them may be, then farther out.

    What it costs to stand farther out is paid once for the whole group, as what unlike neighbours cost is.
    """
    sides = {place: _lines_out(wants, picked, shared, place) for place in dict.fromkeys(one.place for one in picked)}
    for step in range(max(len(lines) for lines in sides.values())):
        moved = [
            _out_to(want, candidate, sides[candidate.place], step)
            for want, candidate in zip(wants, picked, strict=True)
        ]
        if all(one is not None for one in moved):
            way = [one for one in moved if one is not None]
            lines = sides[way[0].place]
            further = lines[min(step, len(lines) - 1)] - lines[0] if lines else 0.0
            way[0] = way[0].dearer("farther-off", step_off(further, way[0].setting.cap_height, placing))
            yield way


class _SharedLines:
    """How far out from their parts the lines are that members of a group may share, by side and members."""

    def __init__(self, wants: Sequence[Wanted], shared: Sequence[Lines]) -> None:
        self._wants, self._shared = wants, shared
        self._found: dict[tuple[str, tuple[int, ...]], list[float]] = {}

    def of(self, place: Place, members: Sequence[int]) -> list[float]:
        """Those on one side, the nearest first."""
        asked = place.value, tuple(members)
        if asked not in self._found:
            lines = ((number, line) for number in members for line in self._shared[number].get(place, ()))
            self._found[asked] = sorted({round(_out(self._wants[number], line, place), FINE) for number, line in lines})
        return self._found[asked]


def _lines_out(wants: Sequence[Wanted], picked: Sequence[Candidate], shared: _SharedLines, place: Place) -> list[float]:
    """How far out from their parts lines are that the words on one side may take, the nearest first; [] at corners."""
    if place not in (*UPRIGHT, Place.RIGHT, Place.LEFT):
        return []
    of_side = _leading(wants, picked, place)
    reach = max(_out(wants[number], picked[number].line, place) for number in of_side)
    cap_height = max(picked[number].setting.cap_height for number in of_side)
    farther = [line for line in shared.of(place, of_side) if 0.01 < line - reach <= FARTHEST * cap_height + EVEN]
    return [reach, *farther[:SHARED_LINES]]


def _leading(wants: Sequence[Wanted], picked: Sequence[Candidate], place: Place) -> list[int]:
    """The members on one side, those that the designer moved only where all are."""
    of_side = [number for number, candidate in enumerate(picked) if candidate.place is place]
    return [number for number in of_side if wants[number].request.offset is None] or of_side


def _out(want: Wanted, line: float, place: Place) -> float:
    """How far out from the place of its part a line is."""
    along = line - want.part.at[1 if place in UPRIGHT else 0]
    return along if place in (Place.ABOVE, Place.RIGHT) else -along


def _out_to(
    want: Wanted,
    candidate: Candidate,
    lines: Sequence[float],
    step: int,
    *,
    farthest: float = FARTHEST,
) -> Candidate | None:
    """The same words on a line of their side; None where that is too far from their part."""
    if want.request.offset is not None:
        return offset(candidate, want.request)
    if not lines:
        return candidate
    out = lines[min(step, len(lines) - 1)]
    at = want.part.at[1 if candidate.place in UPRIGHT else 0]
    line = at + out if candidate.place in (Place.ABOVE, Place.RIGHT) else at - out
    if farther_by(candidate, line) > farthest * candidate.setting.cap_height + EVEN:
        return None
    return on_line(candidate, line)


def _on_two_levels(wants: Sequence[Wanted], picked: Sequence[Candidate], placing: Placing) -> Iterator[Way]:
    """Names on one line above or below their parts, every other one of a row over the line of its neighbours."""
    place = picked[0].place
    raised = {index for row in in_line(wants, range(len(wants)), 0, IN_LINE) for index in row[1::2]}
    if place in UPRIGHT and _on_one_line(picked) and raised:
        near = max(_out(want, one.line, place) for want, one in zip(wants, picked, strict=True))
        cap_height = max(one.setting.cap_height for one in picked)
        lines = [near, near + (1.0 + OVER_GAP) * cap_height]
        for levels in (raised, set(range(len(wants))) - raised):
            moved = (
                _out_to(want, one, lines, int(number in levels), farthest=inf)
                for number, (want, one) in enumerate(zip(wants, picked, strict=True))
            )
            yield tuple(_staggered(one, placing) for one in moved if one is not None)


def _on_one_line(picked: Iterable[Candidate]) -> bool:
    return not any("\n" in candidate.setting.text for candidate in picked)


def _staggered(candidate: Candidate, placing: Placing) -> Candidate:
    return replace(candidate, resorts=(*candidate.resorts, ("staggered", placing.staggered)))


def ways_of_positions(
    wants: Sequence[Wanted], near: Sequence[Sequence[Candidate]], shared: Sequence[Lines], placing: Placing
) -> list[Way]:
    """Every way to name the positions of a group of controls: along the throw, or beside it."""
    options = [_by_form(want, places) for want, places in zip(wants, near, strict=True)]
    forms = list(dict.fromkeys(form for each in options for form in each))
    picks = ([each.get(first) or each.get(other) for each in options] for first, other in product(forms, forms))
    whole = ([one for one in picked if one is not None] for picked in picks if all(picked))
    return _ways(wants, whole, shared, placing)


def _by_form(want: Wanted, places: Iterable[Candidate]) -> dict[str, Candidate]:
    """The nearest place in each form; a middle position on a level throw has one form over and one under it."""
    found: dict[str, Candidate] = {}
    for one in places:
        found.setdefault(one.form if want.way is not None or "beside" in one.form else one.place.value, one)
    return found
