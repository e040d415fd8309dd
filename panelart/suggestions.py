"""Edits of the spec that fix a finding: each is verified on the spec's own text before it is offered.

What may help is offered by the finding's rule (`panelart.checks.mends`). Here each offer is written as a change of
written values and nothing else; the changed text is read, laid out and inspected like any spec. An edit is offered only
when its finding is gone and no new finding appears.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from itertools import islice
from typing import Final, TypeAlias, assert_never

from panelart.canonical import Struct
from panelart.checks import Finding, Inspection
from panelart.checks.baseline import Known, Sign, sign
from panelart.checks.findings import Spelling
from panelart.checks.legends import legend_unplaced
from panelart.checks.mends import (
    HEIGHT_STEP,
    ChooseSheet,
    EnlargeHole,
    EnlargeLettering,
    Mend,
    Mends,
    Move,
    MoveText,
    PlaceName,
    Raise,
    RaiseStyle,
    Respell,
    Rewrite,
    Tell,
    rounded_up,
)
from panelart.diagnostics import Severity, SpecError, Where
from panelart.messages import Message
from panelart.messages import suggestions as said
from panelart.model.component import Role
from panelart.model.panel import Panel
from panelart.source.nodes import Mapping, Node, Scalar, Sequence
from panelart.source.yaml import read as read_yaml
from panelart.stages import remembering_at_least

MAX_TRIES: Final = 16
"""Candidates tried for one finding."""

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
    spellings: tuple[Spelling, ...] = ()

    def signs(self, findings: Iterable[Finding]) -> Known:
        """Findings of the changed spec, counted under the texts as they were, which findings name."""
        return Counter(self._as_before(sign(finding)) for finding in findings)

    def _as_before(self, found: Sign) -> Sign:
        rule, refs, subject, other = found
        for one in self.spellings:
            subject, other = (text.replace(one.meant, one.written) for text in (subject, other))
        return rule, refs, subject, other


def suggestions(text: str, inspection: Inspection, inspect: Inspect) -> tuple[Suggestion | None, ...]:
    """For each open finding the first edit that fixes it, None where none of those tried does.

    `text` is the spec that the inspection is of, `inspect` lays out and inspects a changed one.
    """
    spec = _Spec(text, inspection.panel)
    before = Counter(sign(finding) for finding in inspection.findings)
    with remembering_at_least():  # each trial changes one thing
        return tuple(_first(finding, spec, before, inspection, inspect) for finding in inspection.findings)


def suggestion(text: str, inspection: Inspection, finding: Finding, inspect: Inspect) -> Suggestion | None:
    """As `suggestions`, for one of the findings."""
    before = Counter(sign(other) for other in inspection.findings)
    with remembering_at_least():
        return _first(finding, _Spec(text, inspection.panel), before, inspection, inspect)


def _first(finding: Finding, spec: _Spec, before: Known, inspection: Inspection, inspect: Inspect) -> Suggestion | None:
    milder = finding.severity is Severity.NOTE and inspection.rule(finding).severity is not Severity.NOTE
    if milder and not finding.spellings:
        return None  # milder than the rule as a whole: nothing to mend but letters
    for candidate in islice(_candidates(finding, spec, inspection.rule(finding).mends), MAX_TRIES):
        try:
            after = candidate.signs(inspect(applied(spec.text, candidate.edits)).findings)
        except SpecError:
            continue
        cleared = after[sign(finding)] < before[sign(finding)]
        if cleared and all(_was_there(other, before) for other in after):
            return Suggestion(finding=finding, does=candidate.does, edits=candidate.edits)
    return None


def _was_there(found: Sign, before: Known) -> bool:
    """Whether a finding was there before: as it is, or without parts whose legend had no place and now has one."""
    if before[found] > 0:
        return True
    rule, refs, subject, other = found
    placed = {ref for one in before if one[0] == legend_unplaced.name for ref in one[1]}
    return any(
        one[0] == rule and one[2:] == (subject, other) and set(one[1]) < set(refs) <= set(one[1]) | placed
        for one in before
    )


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

    def texts_at(self, where: Where) -> Iterator[Scalar]:
        """The text at a place; of a mapping there, those that it has under the keys of texts."""
        for node in _nodes(self.top):
            if node.where == where:
                yield from _texts(node)

    def mapping_with(self, where: Where) -> Mapping | None:
        """The innermost mapping that has a value written at a place."""
        return next((found for found in _mappings(self.top) if _has(found, where)), None)


_TEXTS: Final = ("text", "title", "legend", "unit")
"""Keys whose value is printed."""

_WORDS: Final = "words"
"""The key of a scale's words, by value."""


def _texts(node: Node) -> Iterator[Scalar]:
    if isinstance(node, Scalar):
        yield node
    elif isinstance(node, Mapping):
        words = node.get(_WORDS)
        below = [entry.value for entry in words.entries] if isinstance(words, Mapping) else []
        values = (*map(node.get, _TEXTS), *below)
        yield from (value for value in values if isinstance(value, Scalar))


def _nodes(node: Node) -> Iterator[Node]:
    yield node
    if isinstance(node, Mapping):
        for entry in node.entries:
            yield from _nodes(entry.value)
    elif isinstance(node, Sequence):
        for item in node.items:
            yield from _nodes(item)


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


def _candidates(finding: Finding, spec: _Spec, mends: Iterable[Mends]) -> Iterator[_Candidate]:
    """What the finding's rule offers, as far as it can be written into this spec."""
    for maker in mends:
        for mend in maker(finding, spec.panel):
            candidate = _written(mend, spec)
            if candidate is not None:
                yield candidate


def _written(mend: Mend, spec: _Spec) -> _Candidate | None:  # one return for each kind
    """The edits that make a change; None where the spec says it in a form that is left to the designer."""
    match mend:
        case Move():
            return _moved_part(mend, spec)
        case EnlargeHole():
            return _enlarged_hole(mend, spec)
        case MoveText():
            return _moved_text(mend, spec)
        case PlaceName():
            return _placed_name(mend, spec)
        case Raise():
            return _raised(mend, spec)
        case RaiseStyle(style=style, height=height):
            written = spec.at("marking", "lettering", "styles", style, "cap_height")
            return _one(spec.edit(written, f"{height:g}"), said.style_raised(style=style, height=height))
        case EnlargeLettering():
            return _enlarged(mend, spec)
        case ChooseSheet(thickness=thickness):
            edit = spec.edit(spec.at("panel", "sheet", "thickness"), f"{thickness:g}")
            return _one(edit, said.sheet_chosen(thickness=thickness))
        case Respell():
            return _respelt(mend, spec)
        case Rewrite():
            return _rewritten(mend, spec)
        case Tell():
            return _told(mend, spec)
        case _:
            assert_never(mend)


def _one(edit: Edit | None, does: Message) -> _Candidate | None:
    return None if edit is None else _Candidate(does=does, edits=(edit,))


def _moved_part(move: Move, spec: _Spec) -> _Candidate | None:
    part = spec.panel.by_ref.get(move.ref)
    mapping = None if part is None else spec.mapping_with(spec.panel.places[part.where])
    at = None if mapping is None else mapping.get("at")
    if isinstance(at, Mapping):
        at = at.get("by")
    edits = _moved_pair(at, move.x, move.y, spec)
    return _Candidate(does=said.part_moved(ref=move.ref, x=move.x, y=move.y), edits=edits) if edits else None


def _moved_pair(node: Node | None, x: float, y: float, spec: _Spec) -> tuple[Edit, ...]:
    """The two numbers of a place, moved; nothing where they are written in another form."""
    if not isinstance(node, Sequence) or len(node.items) != 2:
        return ()
    edits: list[Edit] = []
    for item, more in zip(node.items, (x, y), strict=True):
        value = _number(spec.raw(item))
        if value is None:
            return ()  # written with a unit, which the designer prefers
        if more:
            edit = spec.edit(item, f"{round(value + more, 6):g}")
            if edit is not None:
                edits.append(edit)
    return tuple(edits)


def _number(raw: str | None) -> float | None:
    try:
        return float(raw or "")
    except ValueError:
        return None


_HOLES: Final = {Role.BODY: "opening", Role.FIXING: "fixing", Role.LOCATING: "locating"}
"""The keys under which the dimensions of a catalogue part are changed."""


def _enlarged_hole(hole: EnlargeHole, spec: _Spec) -> _Candidate | None:
    """The diameter where it is written; of a part of the catalogue, the part with the diameter changed."""
    own = spec.panel.by_ref.get(hole.ref)
    mapping = None if own is None else spec.mapping_with(spec.panel.places[own.where])
    part = None if mapping is None else mapping.get("part")
    key = _HOLES.get(hole.role, "")
    edit: Edit | None = None
    if isinstance(part, Mapping):
        edit = spec.edit(_diameter(part, key), f"{hole.diameter:g}")
    elif key and (raw := spec.raw(part)) is not None and _plain(raw):
        edit = spec.edit(part, f"{{part: {raw}, {key}: {{diameter: {hole.diameter:g}}}}}")
    return _one(edit, said.hole_enlarged(ref=hole.ref, diameter=hole.diameter))


def _diameter(part: Mapping, key: str) -> Node | None:
    """The diameter of a changed part's hole, or of the only hole of a part that is written out."""
    changed, holes = part.get(key), part.get("openings")
    if isinstance(holes, Sequence) and len(holes.items) == 1 and isinstance(holes.items[0], Mapping):
        changed = holes.items[0].get("circle")
    return changed.get("diameter") if isinstance(changed, Mapping) else None


def _moved_text(move: MoveText, spec: _Spec) -> _Candidate | None:
    mapping = spec.mapping_with(move.where)
    if mapping is None or mapping.get("text") is None:
        return None
    edits = _moved_pair(mapping.get("at"), move.x, move.y, spec)
    return _Candidate(does=said.text_moved(x=move.x, y=move.y), edits=edits) if edits else None


def _placed_name(place: PlaceName, spec: _Spec) -> _Candidate | None:
    part = spec.panel.by_ref.get(place.ref)
    mapping = None if part is None else spec.mapping_with(spec.panel.places[part.where])
    legend = None if mapping is None else mapping.get("legend")
    edit: Edit | None = None
    if isinstance(legend, Mapping):
        edit = spec.edit(legend.get("place"), place.side)
    elif (raw := spec.raw(legend)) is not None and _plain(raw):
        edit = spec.edit(legend, f"{{text: {raw}, place: {place.side}}}")
    return _one(edit, said.name_placed(ref=place.ref, side=place.side))


def _plain(raw: str) -> bool:
    """Whether a text may be put in braces as it is written."""
    return raw[:1] in "\"'" or not re.search(r"[,\[\]{}#]|: ", raw)


def _raised(height: Raise, spec: _Spec) -> _Candidate | None:
    """The height that the legend or the symbol has of its own."""
    mapping = spec.mapping_with(height.where)
    key, raised = ("height", said.symbol_raised) if height.symbol else ("cap_height", said.cap_height_raised)
    own = None if mapping is None else mapping.get(key)
    return _one(spec.edit(own, f"{height.height:g}"), raised(height=height.height))


def _enlarged(enlarge: EnlargeLettering, spec: _Spec) -> _Candidate | None:
    base = spec.at("marking", "lettering", "cap_height")
    value = _number(spec.raw(base))
    if value is None:
        return None
    larger = rounded_up(value * enlarge.factor, HEIGHT_STEP)
    return _one(spec.edit(base, f"{larger:g}"), said.lettering_raised(height=larger))


def _respelt(respell: Respell, spec: _Spec) -> _Candidate | None:
    """The words as they must be written, in the text as it is written."""
    mapping = spec.mapping_with(respell.where)
    for entry in () if mapping is None else mapping.entries:
        new = spec.raw(entry.value)
        for one in respell.spellings:
            word = rf"(?<![A-Za-z]){re.escape(one.written)}(?![A-Za-z])"
            new = None if new is None else re.sub(word, one.meant, new)
        edit = None if new is None else spec.edit(entry.value, new)
        if edit is not None:
            return _one(edit, said.units_respelled(symbols=[one.meant for one in respell.spellings]))
    return None


def _rewritten(rewrite: Rewrite, spec: _Spec) -> _Candidate | None:
    """Every text as far as it is written in this file and on one line."""
    edits: list[Edit] = []
    for where in rewrite.places:
        for text in spec.texts_at(where):
            raw = spec.raw(text)
            edit = None if raw is None else spec.edit(text, _with(raw, rewrite.spellings))
            if edit is not None:
                edits.append(edit)
    if not edits:
        return None
    edits.sort(key=lambda edit: edit.where)
    return _Candidate(does=said.signs_improved(len(edits)), edits=tuple(edits), spellings=rewrite.spellings)


def _told(tell: Tell, spec: _Spec) -> _Candidate | None:
    """Every text with its braces, in quotes, since a bare brace begins a mapping; None for one that has any."""
    texts = [text for where in tell.places for text in spec.texts_at(where)]
    edits = [edit for text in texts if (edit := _braced(text, tell, spec)) is not None]
    if not edits or len(edits) < len(texts):
        return None
    edits.sort(key=lambda edit: edit.where)
    return _Candidate(does=said.units_told([one.meant for one in tell.spellings]), edits=tuple(edits))


def _braced(text: Scalar, tell: Tell, spec: _Spec) -> Edit | None:
    raw = spec.raw(text)
    if raw is None or "{" in raw:
        return None
    new = _with(raw, tell.spellings)
    if raw == new or raw[0] in "\"'":
        return spec.edit(text, new)
    return None if "'" in new else spec.edit(text, f"'{new}'")


def _with(raw: str, spellings: Iterable[Spelling]) -> str:
    """A text as it is written with the stretches that stand by themselves in it written otherwise."""
    longest = sorted(spellings, key=lambda one: -len(one.written))
    pieces: list[str] = []
    at = 0
    while at < len(raw):
        found = next((one for one in longest if raw.startswith(one.written, at) and _stands_alone(raw, at, one)), None)
        pieces.append(raw[at] if found is None else found.meant)
        at += 1 if found is None else len(found.written)
    return "".join(pieces)


def _stands_alone(raw: str, at: int, one: Spelling) -> bool:
    """Whether neither end of a stretch is within a word or a number; an escaped line end before it is no letter."""
    before, after = raw[:at], raw[at + len(one.written) :]
    joined = before[-1:].isalnum() and not before.endswith(("\\n", "\\t"))
    pointed = before[-1:] in tuple(".,-") and before[-2:-1].isalnum()
    return not joined and not pointed and not after[:1].isalnum()
