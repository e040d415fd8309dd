"""Edits of the spec that fix a finding: each is verified on the spec's own text before it is offered.

A candidate changes written values and nothing else: the place of a part, a cap height, the side of a legend, the sheet,
a unit symbol. The changed text is read, laid out and inspected like any spec. An edit is offered only when its finding
is gone and no new finding appears.
"""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from itertools import islice
from typing import Final, TypeAlias

from panelart.canonical import Struct
from panelart.checks import Finding, Inspection
from panelart.checks.baseline import Known, sign
from panelart.checks.findings import Bound
from panelart.diagnostics import Severity, SpecError, Where
from panelart.geometry import Box, Point, Vector
from panelart.messages import Message
from panelart.messages import checks as rule_said
from panelart.messages import suggestions as said
from panelart.model.panel import Panel, Part
from panelart.source.nodes import Mapping, Node, Scalar, Sequence
from panelart.source.yaml import read as read_yaml

MAX_TRIES: Final = 16
"""Candidates tried for one finding."""

_TIMES: Final = (1, 2, 4, 8)
"""Multiples of the minimum move: two controls that just clear each other leave no space for a finger between them."""

STEP: Final = 0.1
"""Moves are rounded up to tenths of a millimetre, cap heights to twentieths."""

Inspect: TypeAlias = Callable[[str], Inspection]
"""The text of a spec laid out and inspected. Raises SpecError."""


class Edit(Struct, frozen=True, kw_only=True):
    """One written value replaced by another, at its place in the spec."""

    where: Where
    old: str
    new: str


class Suggestion(Struct, frozen=True, kw_only=True):
    """Edits that fix a finding and cause no other; `does` is what they do."""

    finding: Finding
    does: Message
    edits: tuple[Edit, ...]

    @property
    def says(self) -> str:
        """What the edits do, in the language that is spoken."""
        return str(self.does)


class _Candidate(Struct, frozen=True, kw_only=True):
    does: Message
    edits: tuple[Edit, ...]


def suggestions(text: str, inspection: Inspection, inspect: Inspect) -> tuple[Suggestion | None, ...]:
    """For each open finding the first edit that fixes it, None where none of those tried does.

    `text` is the spec that the inspection is of, `inspect` lays out and inspects a changed one.
    """
    spec = _Spec(text, inspection.panel)
    before = Counter(sign(finding) for finding in inspection.findings)
    return tuple(_first(finding, spec, before, inspect) for finding in inspection.findings)


def suggestion(text: str, inspection: Inspection, finding: Finding, inspect: Inspect) -> Suggestion | None:
    """As `suggestions`, for one of the findings."""
    before = Counter(sign(other) for other in inspection.findings)
    return _first(finding, _Spec(text, inspection.panel), before, inspect)


def _first(finding: Finding, spec: _Spec, before: Known, inspect: Inspect) -> Suggestion | None:
    if finding.severity is Severity.NOTE:
        return None
    for candidate in islice(_candidates(finding, spec), MAX_TRIES):
        try:
            after = Counter(sign(other) for other in inspect(applied(spec.text, candidate.edits)).findings)
        except SpecError:
            continue
        cleared = after[sign(finding)] < before[sign(finding)]
        if cleared and all(before[other] > 0 for other in after):
            return Suggestion(finding=finding, does=candidate.does, edits=candidate.edits)
    return None


def applied(text: str, edits: Iterable[Edit]) -> str:
    """The text with the edits made, from the last place to the first so that no place moves."""
    lines = text.split("\n")
    for edit in sorted(edits, key=lambda edit: edit.where, reverse=True):
        line, column = edit.where.line - 1, edit.where.column - 1
        kept = lines[line]
        assert kept[column : column + len(edit.old)] == edit.old
        lines[line] = kept[:column] + edit.new + kept[column + len(edit.old) :]
    return "\n".join(lines)


# --- what is written where


class _Spec:
    """The text of a spec, and where its values are in it."""

    def __init__(self, text: str, panel: Panel) -> None:
        self.text = text
        self.panel = panel
        self.top = read_yaml(text, panel.where.file)
        self._lines = text.split("\n")

    def raw(self, node: Node | None) -> str | None:
        """A scalar exactly as it is written, quotes included; None for what is not on one line."""
        if not isinstance(node, Scalar) or node.where.file != self.top.where.file:
            return None
        rest = self._lines[node.where.line - 1][node.where.column - 1 :]
        if not node.quoted:
            return node.text if node.text and rest.startswith(node.text) else None
        found = re.match(r"\"(?:[^\"\\]|\\.)*\"|'(?:[^']|'')*'", rest)
        return found[0] if found else None

    def edit(self, node: Node | None, new: str) -> Edit | None:
        """A scalar replaced."""
        raw = self.raw(node)
        return None if raw is None or node is None or raw == new else Edit(where=node.where, old=raw, new=new)

    def at(self, *path: str) -> Node | None:
        """The value under keys, from the top."""
        node: Node | None = self.top
        for key in path:
            node = node.get(key) if isinstance(node, Mapping) else None
        return node

    def mapping_with(self, where: Where) -> Mapping | None:
        """The innermost mapping that has a value written at a place."""
        return next((found for found in _mappings(self.top) if _has(found, where)), None)


def _mappings(node: Node) -> Iterator[Mapping]:
    """Innermost first."""
    children: tuple[Node, ...] = ()
    if isinstance(node, Mapping):
        children = tuple(entry.value for entry in node.entries)
    elif isinstance(node, Sequence):
        children = node.items
    for child in children:
        yield from _mappings(child)
    if isinstance(node, Mapping):
        yield node


def _has(mapping: Mapping, where: Where) -> bool:
    return mapping.where == where or any(entry.value.where == where for entry in mapping.entries)


# --- candidates


def _candidates(finding: Finding, spec: _Spec) -> Iterator[_Candidate]:
    """What may fix a finding, the smallest change first."""
    if finding.rule.startswith(("legend", "numeral", "mark")):
        yield from _other_sides(finding, spec)
        yield from _heights(finding, spec)
        yield from _moved_texts(finding, spec)
    if finding.rule.startswith("sheet"):
        yield from _sheets(finding, spec)
    if finding.rule == "unit-misspelt":
        yield from _symbols(finding, spec)
    if finding.unit == "mm" and not finding.rule.startswith(("sheet", "mark", "line", "frame")):
        yield from _moves(finding, spec)


def _rounded_up(value: float, step: float) -> float:
    return round(math.ceil(value / step - 1e-9) * step, 6)


def _needed(finding: Finding) -> float | None:
    """How far something must move, in mm."""
    if finding.measured is None or finding.limit is None or finding.unit != "mm":
        return None
    short = finding.measured - finding.limit if finding.bound is Bound.MAXIMUM else finding.limit - finding.measured
    return _rounded_up(short + 0.005, STEP) if short > 0 else None


def _moves(finding: Finding, spec: _Spec) -> Iterator[_Candidate]:
    """Each part that the finding names, away from what it meets, along x and y, by the minimum first."""
    needed = _needed(finding)
    if needed is None:
        return
    parts = [spec.panel.by_ref[ref] for ref in finding.refs if ref in spec.panel.by_ref][:2]
    found: list[tuple[float, int, _Candidate]] = []
    for part in parts:
        away = _away(part, parts, finding, spec.panel)
        for times in _TIMES:
            for number, way in enumerate(_ways(away)[:2]):
                by = way.scaled(round(needed * times, 6))
                candidate = _moved_part(part, by, spec)
                if candidate is not None:
                    found.append((times, number, candidate))
    yield from (candidate for _, _, candidate in sorted(found, key=lambda one: one[:2]))


def _away(part: Part, parts: list[Part], finding: Finding, panel: Panel) -> Vector:
    """From what the part meets to the part; inwards where it meets the edge."""
    other = next((one.at for one in parts if one is not part), None)
    if other is None:
        place = finding.place.centre if isinstance(finding.place, Box) else finding.place
        inwards = "edge" in finding.rule or "printable" in finding.rule
        middle = panel.outline.bounds.centre
        return Vector(middle.x - part.at.x, middle.y - part.at.y) if inwards else _between(place, part.at)
    return _between(other, part.at)


def _between(here: Point, there: Point) -> Vector:
    return Vector(there.x - here.x, there.y - here.y)


def _ways(away: Vector) -> list[Vector]:
    """Left, right, up and down, the likeliest first."""
    ways = [Vector(1.0, 0.0), Vector(-1.0, 0.0), Vector(0.0, 1.0), Vector(0.0, -1.0)]
    return sorted(ways, key=lambda way: -(way.x * away.x + way.y * away.y))


def _moved_part(part: Part, by: Vector, spec: _Spec) -> _Candidate | None:
    mapping = spec.mapping_with(spec.panel.places[part.where])
    at = None if mapping is None else mapping.get("at")
    if isinstance(at, Mapping):
        at = at.get("by")
    edits = _moved_pair(at, by, spec)
    return _Candidate(does=said.part_moved(ref=part.ref, x=by.x, y=by.y), edits=edits) if edits else None


def _moved_pair(node: Node | None, by: Vector, spec: _Spec) -> tuple[Edit, ...]:
    """The two numbers of a place, moved; nothing where they are written in another form."""
    if not isinstance(node, Sequence) or len(node.items) != 2:
        return ()
    edits: list[Edit] = []
    for item, more in zip(node.items, (by.x, by.y), strict=True):
        raw = spec.raw(item)
        try:
            value = float(raw or "")
        except ValueError:
            return ()  # written with a unit, which the designer prefers
        if more:
            edit = spec.edit(item, f"{round(value + more, 6):g}")
            if edit is not None:
                edits.append(edit)
    return tuple(edits)


def _moved_texts(finding: Finding, spec: _Spec) -> Iterator[_Candidate]:
    """A free text, in each direction, by the minimum first."""
    needed = _needed(finding)
    mapping = spec.mapping_with(finding.where)
    if needed is None or mapping is None or mapping.get("text") is None:
        return
    away = _between(spec.panel.outline.bounds.centre, _middle(finding)).scaled(-1.0)
    for times in _TIMES:
        for way in _ways(away):
            by = way.scaled(round(needed * times, 6))
            edits = _moved_pair(mapping.get("at"), by, spec)
            if edits:
                yield _Candidate(does=said.text_moved(x=by.x, y=by.y), edits=edits)


def _middle(finding: Finding) -> Point:
    return finding.place.centre if isinstance(finding.place, Box) else finding.place


def _other_sides(finding: Finding, spec: _Spec) -> Iterator[_Candidate]:
    """The name of the part on each of the four sides."""
    for part in (spec.panel.by_ref[ref] for ref in finding.refs[:1] if ref in spec.panel.by_ref):
        mapping = spec.mapping_with(spec.panel.places[part.where])
        legend = None if mapping is None else mapping.get("legend")
        for side in ("above", "below", "right", "left"):
            edit: Edit | None = None
            if isinstance(legend, Mapping):
                edit = spec.edit(legend.get("place"), side)
            elif (raw := spec.raw(legend)) is not None:
                edit = spec.edit(legend, f"{{text: {raw}, place: {side}}}" if _plain(raw) else "")
            if edit is not None and edit.new:
                yield _Candidate(does=said.name_placed(ref=part.ref, side=side), edits=(edit,))


def _plain(raw: str) -> bool:
    """Whether a text may be put in braces as it is written."""
    return raw[:1] in "\"'" or not re.search(r"[,\[\]{}#]|: ", raw)


def _heights(finding: Finding, spec: _Spec) -> Iterator[_Candidate]:
    """A larger cap height, where it is written: in the legend, in its style, in the lettering."""
    if finding.rule != "legend-too-small" or finding.measured is None or finding.limit is None:
        return
    wanted = _rounded_up(finding.limit, 0.05)
    yield from _own_height(finding, spec, wanted)
    yield from _style_heights(finding.measured, spec, wanted)
    yield from _lettering_height(finding.limit, finding.measured, spec)


def _own_height(finding: Finding, spec: _Spec, wanted: float) -> Iterator[_Candidate]:
    """The height that the legend or the symbol has of its own."""
    mapping = spec.mapping_with(finding.where)
    symbol = finding.other == rule_said.symbol_height()
    key, raised = ("height", said.symbol_raised) if symbol else ("cap_height", said.cap_height_raised)
    own = None if mapping is None else mapping.get(key)
    if (edit := spec.edit(own, f"{wanted:g}")) is not None:
        yield _Candidate(does=raised(height=wanted), edits=(edit,))


def _style_heights(measured: float, spec: _Spec, wanted: float) -> Iterator[_Candidate]:
    """The cap height of each style that letters as low as what was measured."""
    styles = spec.panel.marking.styles
    for name in styles:
        if not math.isclose(styles[name].cap_height, measured, abs_tol=1e-6):
            continue
        written = spec.at("marking", "lettering", "styles", name, "cap_height")
        if (edit := spec.edit(written, f"{wanted:g}")) is not None:
            yield _Candidate(does=said.style_raised(style=name, height=wanted), edits=(edit,))


def _lettering_height(limit: float, measured: float, spec: _Spec) -> Iterator[_Candidate]:
    """The cap height of all lettering, enlarged in proportion to what was measured."""
    base = spec.at("marking", "lettering", "cap_height")
    raw = spec.raw(base)
    try:
        value = float(raw or "")
    except ValueError:
        return
    larger = _rounded_up(value * limit / measured, 0.05)
    if (edit := spec.edit(base, f"{larger:g}")) is not None:
        yield _Candidate(does=said.lettering_raised(height=larger), edits=(edit,))


def _sheets(finding: Finding, spec: _Spec) -> Iterator[_Candidate]:
    if finding.limit is None:
        return
    edit = spec.edit(spec.at("panel", "sheet", "thickness"), f"{finding.limit:g}")
    if edit is not None:
        yield _Candidate(does=said.sheet_chosen(thickness=finding.limit), edits=(edit,))


def _symbols(finding: Finding, spec: _Spec) -> Iterator[_Candidate]:
    """The symbol as the SI writes it, in the text as it is written."""
    mapping = spec.mapping_with(finding.where)
    if mapping is None:
        return
    for entry in mapping.entries:
        raw = spec.raw(entry.value)
        new = raw
        for one in finding.spellings:
            word = rf"(?<![A-Za-z]){re.escape(one.written)}(?![A-Za-z])"
            new = None if new is None else re.sub(word, one.meant, new)
        edit = None if new is None else spec.edit(entry.value, new)
        if edit is not None:
            symbols = [one.meant for one in finding.spellings]
            yield _Candidate(does=said.units_respelled(symbols=symbols), edits=(edit,))
