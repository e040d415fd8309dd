"""A component list to the text of a first spec: what is known is written, what is not stays in it as a question."""

from __future__ import annotations

import math
import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from itertools import count
from pathlib import Path
from types import MappingProxyType
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.catalogue import knob
from panelart.diagnostics import Problem, SpecError, Where
from panelart.drafting.arrange import Arranged, Request, arranged
from panelart.drafting.blocks import Fixing, fixing_of
from panelart.drafting.folded import folded, pair, placed_parts
from panelart.drafting.sheet import thickness_for
from panelart.drafting.sizes import rack_size, rack_units
from panelart.lists.account import Fate
from panelart.lists.listed import ComponentList, Item, Weight
from panelart.lists.matching import Matcher
from panelart.lists.wishes import ScaleWish
from panelart.messages import Message, Said
from panelart.messages import component_lists as lists
from panelart.messages import component_lists_account as told
from panelart.messages import drafting as said
from panelart.model.component import Component
from panelart.model.motion import MotionKind, as_written
from panelart.processes.registry import usual
from panelart.source.nodes import Mapping as MappingNode
from panelart.source.nodes import Scalar
from panelart.source.nodes import Sequence as SequenceNode
from panelart.source.problems import Problems
from panelart.source.written import Written, written
from panelart.source.yaml import read
from panelart.spec.members import members

MAX_ROWS_TOLD: Final = 100
"""Rows left out that a draft without parts names; `--left-out` lists all."""

_ON_PANEL: Final = frozenset({Fate.TAKEN, Fate.ASKED, Fate.TO_MEASURE, Fate.NO_PART})
"""Where rows end that are on the panel, or no rows of parts at all."""

_KNOBS: Final = {"pot-m7": "knob-14.5", "encoder-m7": "knob-14.5", "pot-m9": "knob-16", "encoder-m9": "knob-16"}
_KNOB: Final = "knob-21"
"""The knobs taken for shafts whose list names none."""


NO_PLACES: Final[Mapping[str, tuple[float, float]]] = MappingProxyType({})


class Draft(Struct, frozen=True, kw_only=True):
    """A first spec: its text, the arrangement behind it, and the remarks that go with it, the list's own first."""

    arranged: Arranged
    remarks: tuple[str, ...]


class Heading(Struct, frozen=True, kw_only=True):
    """What a list does not say of its panel: `places` are those of an earlier draft by ref, on its face of `size`.

    `alone` says that no other side of the list is drafted with it.
    """

    title: str
    size: tuple[float, float] | None = None
    places: Mapping[str, tuple[float, float]] = NO_PLACES
    hand: str | None = None
    side: str = "front"
    alone: bool = True
    catalogue: tuple[str, ...] = ()


def drafts(listed: ComponentList, heading: Heading, request: Request, folder: Path, matcher: Matcher) -> list[Draft]:
    """First specs for one side of a list, the best first; of a blank panel where no part is known.

    Raises SpecError when the parts do not fit.
    """
    items = [item for item in listed.items if item.side == heading.side]
    remarks = _of_other_side(listed, heading, len(listed.items) - len(items))
    text = spec_text(listed, items, heading, matcher, remarks)
    text = _with_slots(text, items, matcher, _size_asked(heading, request), remarks)
    try:
        wish = None if heading.places else request.wish
        made = arranged(text, listed.file, folder, replace(request, wish=wish, apart=_lone(items, matcher)))
    except SpecError as error:
        raise SpecError([_in_the_list(problem, text, items) for problem in error.problems]) from None
    remarks += _of_titles(made[0])
    remarked = tuple(map(str, (*listed.remarks, *remarks)))
    refs = {_escaped(item.ref) for item in items if item.component is None}
    decided = _decided_frames(items, matcher)
    groups = [(_escaped(name), inside) for name, inside in _grouped(items, matcher) if len(inside) > 1]
    return [_with_open_parts(one, refs, decided, listed.file, remarked, groups) for one in made]


def _of_titles(best: Arranged) -> list[Said]:
    """What is told of titles that make a face larger than its parts need."""
    titles = best.plan.titles
    if titles is None:
        return []
    remark = said.titles_wide(names=titles.names, saving=round(titles.saving))
    return [said.panel_remark(weight=lists.note(), remark=remark)]


def _with_open_parts(
    made: Arranged,
    refs: Collection[str],
    decided: Mapping[str, Sequence[str]],
    file: str,
    remarks: tuple[str, ...],
    groups: Sequence[tuple[str, Sequence[str]]],
) -> Draft:
    """A draft whose parts of these refs are not decided: they are remarks in its text, and their places are kept.

    Like groups are written once.
    """
    found = _open_parts(made.text, refs, file)
    text = _rack_size(folded(_left_open(made.text, found.lines, decided), groups), made.plan.size)
    return Draft(arranged=replace(made, text=text, rooms=found.places), remarks=remarks)


def _of_other_side(listed: ComponentList, heading: Heading, count: int) -> list[Said]:
    """What is told of the parts of the other side."""
    away = "rear" if heading.side == "front" else "front"
    told = heading.alone and count > 0
    return [said.other_side_left_out(file=listed.file, count=count, side=away)] if told else []


class _Open(Struct, frozen=True, kw_only=True):
    """Parts of a draft that are not decided: the lines of the text that they stand on, their places by ref."""

    lines: frozenset[int]
    places: Mapping[str, tuple[float, float]]


def _open_parts(text: str, refs: Collection[str], file: str) -> _Open:
    """Where the parts of these refs, as the spec writes them, stand in its text and on its face.

    Where all parts are such, the key above them is one of the lines: a spec has no empty list of parts.
    """
    top = read(text, file)
    parts = [(node.get("ref"), node) for node in _part_nodes(top)]
    still = {ref.text: node for ref, node in parts if isinstance(ref, Scalar) and ref.text in refs}
    lines = {node.where.line for node in still.values()}
    if len(still) == len(parts):
        lines |= {entry.key.where.line for entry in top.entries if entry.key.text == "parts"}
    places = {ref: at for ref, node in still.items() if (at := pair(node.get("at"))) is not None}
    return _Open(lines=frozenset(lines), places=places)


def _left_open(text: str, lines: Collection[int], decided: Mapping[str, Sequence[str]]) -> str:
    """A draft with these lines as remarks; the room of the parts on them is kept free by the places of the others.

    `decided` are the lines of frames round such parts, each with what is written without them.
    """
    kept: list[str] = []
    for number, line in enumerate(text.splitlines(), start=1):
        if number in lines:
            kept.append(f"{line[: len(line) - len(line.lstrip())]}# {line.lstrip()}")
        else:
            kept += decided.get(line, [line])
    return "".join(f"{line}\n" for line in kept)


def _part_nodes(top: MappingNode) -> Iterator[MappingNode]:
    """The parts of a spec that are written one by one."""
    parts = top.get("parts")
    return (one for one in (parts.items if isinstance(parts, SequenceNode) else ()) if isinstance(one, MappingNode))


def drafted_places(
    text: str, file: str, side: str = ""
) -> tuple[tuple[float, float] | None, dict[str, tuple[float, float]]]:
    """The size of the face of an earlier draft and the places of its parts.

    `side` is the panel of a set. Raises SpecError when it is no spec.
    """
    top = _panel_of(read(text, file), side)
    panel = top.get("panel")
    size = _size_of(panel) if isinstance(panel, MappingNode) else None
    return size, dict(placed_parts(top))


def _size_of(panel: MappingNode) -> tuple[float, float] | None:
    """The size of a face as a draft writes it: two lengths, or rack units; None for any other."""
    size = panel.get("size")
    units = size.get("rack") if isinstance(size, MappingNode) else None
    if isinstance(units, Scalar) and units.text.isdecimal():
        return rack_size(int(units.text))
    return pair(size)


def _rack_size(text: str, size: tuple[float, float]) -> str:
    """A draft that says its size in rack units where it is that of a 19-inch panel."""
    units = rack_units(size)
    return (
        text if units is None else text.replace(f"  size: {written(list(size))}\n", f"  size: {{rack: {units}}}\n", 1)
    )


MAX_SLOTTED: Final = 6
"""The highest rack panel whose slots are in the catalogue, U."""


def _size_asked(heading: Heading, request: Request) -> tuple[float, float] | None:
    """The size of the face where it is given: that of an earlier draft whose places are kept, or the one wished."""
    wish = request.wish
    if heading.places or wish is None or wish.width is None or wish.height is None:
        return heading.size
    return wish.width, wish.height


def _with_slots(
    text: str, items: Sequence[Item], matcher: Matcher, size: tuple[float, float] | None, remarks: list[Said]
) -> str:
    """A draft of a 19-inch panel with the slots by which it is fixed, where the list has none."""
    units = None if size is None else rack_units(size)
    placed = _placed(items, matcher)
    if units is None or units > MAX_SLOTTED or not placed or any(_is_rack(part) for part in placed.values()):
        return text
    ref = next(ref for number in count(1) if (ref := f"H{number}") not in {item.ref for item in items})
    part = f"rack-slots-{units}u"
    remarks.append(said.panel_remark(weight=lists.note(), remark=said.rack_slots_added(ref=ref, part=part)))
    return text.replace("\nparts:\n", f"\nparts:\n  - {{ref: {ref}, part: {part}}}\n", 1)


def _is_rack(part: Component) -> bool:
    """Whether a part stands in the middle of a panel by a standard, as the slots of a rack do."""
    return fixing_of(part) is Fixing.STANDARD


def _panel_of(top: MappingNode, side: str) -> MappingNode:
    """The spec of one panel of a set, with what all share; a spec of one panel as it is. Raises SpecError."""
    problems = Problems()
    found = members(top, problems)
    problems.raise_any()
    return found.get(side, top)


_REF: Final = re.compile(r"  - \{ref: (\"[^\"]*\"|[^,]+),")


def _in_the_list(problem: Problem, text: str, items: Sequence[Item]) -> Problem:
    """A problem of the spec that is not written yet, at the row of the list that its line comes from."""
    lines = text.splitlines()
    line = lines[problem.where.line - 1] if problem.where.line <= len(lines) else ""
    found = _REF.match(line)
    row = next((item.row for item in items if found is not None and written(item.ref) == found[1]), 1)
    return replace(problem, where=Where(problem.where.file, row, 1))


def spec_text(
    listed: ComponentList, items: Sequence[Item], heading: Heading, matcher: Matcher, remarks: list[Said]
) -> str:
    """The text of a spec without places; what had to be taken for granted is added to the remarks."""
    known = [item for item in items if item.component is not None]
    parts = {item.ref: matcher.component(item.component or "") for item in known}
    thickness, remarked = thickness_for(parts)
    remarks += remarked
    blank = not _placed(items, matcher)
    lines = [*_heading_lines(listed), *_panel_lines(heading, thickness), *_left_out_lines(listed, known)]
    lines.append("# parts:" if blank else "parts:")
    groups = _groups(items)
    for name, inside in groups:
        if len(groups) > 1:
            lines.append(f"  # {_one_line(name) or said.not_in_a_group()}")
        for item in inside:
            lines += _part(listed, item, parts.get(item.ref), remarks, heading.places.get(item.ref), matcher)
    lines += _frame_lines(_grouped(items, matcher))
    lines += _language_lines(known)  # a part that is asked about has no legend on the panel yet
    return "\n".join(lines) + "\n"


def _heading_lines(listed: ComponentList) -> list[str]:
    """What a draft is made from, and the questions that the list leaves open."""
    lines = [
        f"# {said.drafted_from(file=listed.file, form=listed.form)}",
        f"# {said.edit_the_draft()}",
    ]
    asked = [remark for remark in listed.remarks if remark.weight is Weight.QUESTION]
    if asked:
        lines += ["#", f"# {said.open_questions()}", *(f"#   {_one_line(str(remark))}" for remark in asked)]
    return lines


def _left_out_lines(listed: ComponentList, known: Sequence[Item]) -> list[str]:
    """The rows that are not on the panel, for a panel without parts: they are all that the list has."""
    away = [row for row in listed.account.rows if row.fate not in _ON_PANEL]
    if known or not away:
        return []
    rows = [told.row_left_out(row.row, row.words, row.kind or row.fate.value, row.why) for row in away[:MAX_ROWS_TOLD]]
    lines = [f"# {said.rows_left_out()}", *(f"#   {_one_line(str(row))}" for row in rows)]
    if len(away) > MAX_ROWS_TOLD:
        lines.append(f"#   {said.more_rows(count=len(away) - MAX_ROWS_TOLD)}")
    return [*lines, ""]


def _panel_lines(heading: Heading, thickness: float) -> list[str]:
    """The panel, its marking and its operator."""
    lines = [
        "panelart: 1",
        "",
        "panel:",
        f"  title: {written(heading.title)}",
        f"  size: {written(list(heading.size or (1000, 1000)))}",
        f"  sheet: {{material: aluminium, thickness: {written(thickness)}}}",
        '  coat: {kind: powder, thickness: 0.08, colour: "#2B3036", name: graphite fine texture}',
        "",
        "marking:",
        f"  process: {usual()}",
        '  ink: {name: white, colour: "#F1F1EC"}',
        "  lettering: {font: plain, cap_height: 3.5, case: upper}",
        "  viewing_distance: 600",
        "",
    ]
    if heading.hand is not None:
        lines += [f"operator: {{hand: {heading.hand}}}", ""]
    if heading.catalogue:
        lines += [f"catalogue: {written(list(heading.catalogue))}", ""]
    return lines


def _frame_lines(grouped: Iterable[tuple[str, Sequence[str]]]) -> list[str]:
    """A frame round each group of two parts or more, those among them that are not decided yet."""
    lines = [_frame_line(name, refs) for name, refs in grouped if len(refs) > 1]
    return ["", "frames:", *lines] if lines else []


def _frame_line(name: str, refs: Sequence[str]) -> str:
    return f"  - {{around: {written(list(refs))}, title: {written(_escaped(name))}}}"


def _decided_frames(items: Sequence[Item], matcher: Matcher) -> dict[str, list[str]]:
    """The line of each frame round parts that are not decided, and the lines of the same frame round the others.

    A frame round nothing cannot be drawn: it waits as a remark, as its parts do.
    """
    known = {item.ref for item in items if item.component is not None}
    framed = [(name, refs) for name, refs in _grouped(items, matcher) if len(refs) > 1]
    found = {
        _frame_line(name, refs): _decided_lines(name, refs, known) for name, refs in framed if not known >= {*refs}
    }
    if known.isdisjoint(ref for _, refs in framed for ref in refs):
        found["frames:"] = []
    return found


def _grouped(items: Sequence[Item], matcher: Matcher) -> list[tuple[str, list[str]]]:
    """The groups by name, with the refs of their parts that stand among the others."""
    parts = _placed(items, matcher)
    return [(name, _members(inside, parts)) for name, inside in _groups(items) if name]


def _decided_lines(name: str, refs: Sequence[str], known: AbstractSet[str]) -> list[str]:
    """The line of a frame round those of its parts that are known, and what is to be added to it."""
    still, waiting = [ref for ref in refs if ref in known], [ref for ref in refs if ref not in known]
    if not still:
        return [f"  # {_frame_line(name, refs).strip()}"]
    return [f"{_frame_line(name, still)}  # {said.frame_grows(refs=waiting)}"]


def _placed(items: Iterable[Item], matcher: Matcher) -> dict[str, Component]:
    """The part for each ref, the likeliest where it is not decided; none where none can be placed."""
    found = {
        item.ref: _candidate(item, matcher) if item.component is None else matcher.component(item.component)
        for item in items
    }
    return {ref: part for ref, part in found.items() if part is not None}


def _candidate(item: Item, matcher: Matcher) -> Component | None:
    """The first candidate that can be placed as it is, and is no fixing of others."""
    parts = (matcher.component(one.name) for one in item.candidates)
    return next((part for part in parts if fixing_of(part) is Fixing.NONE), None)


def _language_lines(items: Iterable[Item]) -> list[str]:
    """The legends of other languages by those of the first."""
    table: dict[str, dict[str, Written]] = {}
    for item in items:
        for code, text in item.legends if item.legend else ():
            table.setdefault(code, {})[_escaped(item.legend)] = _escaped(text)
    lines = [f"  {code}: {written(texts)}" for code, texts in table.items()]
    return ["", "languages:", *lines] if lines else []


def _lone(items: Sequence[Item], matcher: Matcher) -> tuple[tuple[str, ...], ...]:
    """The groups of one part, which get no frame."""
    return tuple(tuple(refs) for _, refs in _grouped(items, matcher) if len(refs) == 1)


def _one_line(text: str) -> str:
    return " ".join(text.split())


def _members(items: Iterable[Item], parts: dict[str, Component]) -> list[str]:
    return [item.ref for item in items if item.ref in parts and fixing_of(parts[item.ref]) is Fixing.NONE]


def _groups(items: Sequence[Item]) -> list[tuple[str, list[Item]]]:
    """The groups in order, by the order asked for and then as listed; names are the same whatever their capitals."""
    found: dict[str, tuple[str, list[Item]]] = {}
    for item in items:
        found.setdefault(item.group.casefold(), (item.group, []))[1].append(item)

    def rank(item: Item) -> tuple[float, int]:
        return (math.inf if item.order is None else item.order, items.index(item))

    ordered = sorted(found.values(), key=lambda group: min(map(rank, group[1])))
    return [(name, sorted(inside, key=rank)) for name, inside in ordered]


def _part(
    listed: ComponentList,
    item: Item,
    part: Component | None,
    remarks: list[Said],
    place: tuple[float, float] | None,
    matcher: Matcher,
) -> list[str]:
    if part is None:
        return _asked(listed, item, place, matcher)
    fields: dict[str, Written] = {"ref": _escaped(item.ref), "part": part.name}
    if place is not None:
        fields["at"] = list(place)
    if item.legend:
        fields["legend"] = _escaped(item.legend)
    asked: list[str] = []
    if item.positions and _angles_known(item, part):
        fields["positions"] = _positions(item, part)
    elif item.positions:
        asked += _asked_angles(listed, item, part)
    fitted = _knob(listed, item, part, remarks)
    if fitted is not None:
        fields["knob"] = fitted
    if item.scale is not None and (part.motion.kind is not MotionKind.TURN or part.motion.swept("linear")):
        fields["scale"] = _scale(item.scale, part, _across(fitted))
    elif item.scale is not None:
        asked.append(f"  # {said.which_sweep(file=listed.file, row=item.row, ref=item.ref, part=part.name)}")
    return [*asked, f"  - {written(fields)}{_remark(item, part)}"]


def _angles_known(item: Item, part: Component) -> bool:
    """Whether the marks of a list's positions can be printed: those of a lever can, and those of one known turn."""
    return part.motion.kind is not MotionKind.TURN or part.motion.angles(len(item.positions)) is not None


def _asked_angles(listed: ComponentList, item: Item, part: Component) -> list[str]:
    """The lines of positions whose angles differ from maker to maker, as a question with the ways it is made."""
    made = tuple(dict.fromkeys(as_written(way) for way in part.motion.made_with(len(item.positions))))
    question = (
        said.which_angles_of(file=listed.file, row=item.row, ref=item.ref, part=part.name, ways=made)
        if made
        else said.which_angles(file=listed.file, row=item.row, ref=item.ref, part=part.name)
    )
    texts = written({"texts": [_escaped(name) for name in item.positions]})
    return [f"  # {question}", f"  # positions: {texts}"]


def _asked(listed: ComponentList, item: Item, place: tuple[float, float] | None, matcher: Matcher) -> list[str]:
    """The lines of a part that is not known: the question, and the likeliest part while room for it is looked for."""
    question = f"  # {_question(listed, item)}"
    legend: dict[str, Written] = {"legend": _escaped(item.legend)} if item.legend else {}
    likeliest = _candidate(item, matcher)
    if likeliest is None:
        return [question, f"  # - {written({'ref': _escaped(item.ref), 'part': '?', **legend})}"]
    at: dict[str, Written] = {"at": list(place)} if place is not None else {}
    fields: dict[str, Written] = {"ref": _escaped(item.ref), "part": likeliest.name, **at, **legend}
    return [question, f"  - {written(fields)}"]


def _positions(item: Item, part: Component) -> Written:
    """The names of a part's positions, in order for what turns, else by the direction of the throw."""
    names = [_escaped(name) for name in item.positions]
    turned = part.motion.kind is MotionKind.TURN
    return names if turned else dict(zip(_directions(part), names, strict=True))


def _remark(item: Item, part: Component) -> str:
    """What a part was read from, and the list's own note."""
    remark = ""
    if item.words and item.words.casefold() != part.name and item.candidates:
        remark = f"  # {said.read_from(words=_one_line(item.words))}"
    if item.guessed:
        remark += f"  # {said.legend_guessed()}"
    if item.notes:
        remark += f"  # {_one_line(item.notes)}"
    return remark


def _question(listed: ComponentList, item: Item) -> Message:
    words = _one_line(item.words)
    if item.to_measure:
        return said.measure_part(file=listed.file, row=item.row, words=words)
    if not item.candidates:
        return said.which_part(file=listed.file, row=item.row, words=words)
    return said.which_part_of(file=listed.file, row=item.row, words=words, candidates=item.candidates)


def _directions(part: Component) -> list[str]:
    """The positions of a lever or rocker from top to bottom, left to right."""
    order = ["up", "left", "centre", "right", "down"]
    return sorted(part.positions, key=order.index)


def _escaped(text: str) -> str:
    """Words for a legend: braces stand for themselves."""
    return text.replace("{", "{{").replace("}", "}}")


def _knob(listed: ComponentList, item: Item, part: Component, remarks: list[Said]) -> Written | None:
    if item.knob is not None:
        if item.knob.name:
            return item.knob.name
        return {"diameter": item.knob.diameter, "height": item.knob.height}
    if part.shaft is None or part.motion.kind is not MotionKind.TURN or part.family.startswith("trimmer"):
        return None
    name = _KNOBS.get(part.name, _KNOB)
    bores = knob(name).bores
    if bores is not None and not bores[0] - 0.3 <= part.shaft.diameter <= bores[1] + 0.3:
        return None
    remark = said.knob_assumed(ref=item.ref, knob=name)
    remarks.append(lists.remark(file=listed.file, row=item.row, weight=lists.note(), message=remark))
    return name


def _across(fitted: Written | None) -> float:
    """The diameter of a knob as written in the spec; that of a bare shaft when there is none."""
    if isinstance(fitted, str):
        return knob(fitted).diameter
    diameter = fitted.get("diameter") if isinstance(fitted, Mapping) else None
    return float(diameter) if isinstance(diameter, int | float) else 6.0


def _scale(wish: ScaleWish, part: Component, diameter: float) -> dict[str, Written]:
    span = wish.high - wish.low
    major, shares = _steps(span)
    fields: dict[str, Written] = {"from": wish.low, "to": wish.high, "major": major}
    # Marks lie on about 300 degrees round the knob, 2 mm outside it.
    room = math.radians(300.0) * (diameter / 2 + 2.0) if part.motion.kind is MotionKind.TURN else 60.0
    for share in shares:
        if span / major * share * MARK_PITCH <= room:
            fields["minor"] = round(major / share, 9)
            break
    if wish.unit:
        fields["unit"] = wish.unit
    if part.motion.kind is MotionKind.SLIDE:
        travel = part.name.rpartition("-")[2]
        fields["length"] = float(travel) if travel.replace(".", "").isdecimal() else 60.0
    return fields


MARK_PITCH: Final = 1.5
"""From mark to mark at least, mm: a mark and white of three times its width. Common practice."""


def _steps(span: float) -> tuple[float, tuple[int, ...]]:
    """Long steps that divide a span, and how many short ones each may have, the most first.

    They are 1, 2 or 5 times a power of ten, 5 to 12 of them where that can be.
    """
    power = 10.0 ** math.floor(math.log10(span))
    for share in (0.1, 0.2, 0.5, 1.0):
        major = share * power
        count = span / major
        if count <= 12 and abs(count - round(count)) < 1e-6:
            return round(major, 9), (4, 2) if share == 0.2 else (5,) if share == 0.5 else (5, 2)
    return span, ()
