"""Specs that hold several panels: each becomes a spec of its own, with what all share.

`box.yaml#rear` names one of them. What stands beside `panels` holds for all; what a panel writes itself takes its
place, key by key within `panel` and `marking`, whole for everything else.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Final

from panelart.canonical import Struct
from panelart.diagnostics import Where
from panelart.messages import Message, diagnostics, source_schema
from panelart.messages import spec as said
from panelart.source.nodes import Entry, Mapping, Node
from panelart.source.problems import Problems
from panelart.spec import language

MARK: Final = "#"
"""Stands between the file and the name of one of its panels."""

_JOINED: Final = (language.Spec.panel.name, language.Spec.marking.name)
_OF_THE_SET: Final = (language.Spec.panels.name, language.Spec.box.name)
_NOT_SHARED: Final = (language.Spec.parts.name, language.Spec.waivers.name, language.Spec.frames.name)


class BoxOf(Struct, frozen=True, kw_only=True):
    """The box that two panels close: `depth` in mm between their inside faces, `clearance` kept between bodies."""

    front: str
    rear: str
    depth: float
    clearance: float
    where: Where

    def opposite(self, name: str) -> str | None:
        """The panel opposite one, None for a panel that is not of the box."""
        return {self.front: self.rear, self.rear: self.front}.get(name)


def split(path: Path) -> tuple[Path, str]:
    """The file and the name of the panel, '' where none is named. A file whose own name has a # is that file."""
    name, mark, member = path.name.rpartition(MARK)
    if not mark or not name or path.exists():
        return path, ""
    return path.with_name(name), member


def members(top: Mapping, problems: Problems) -> dict[str, Mapping]:
    """The panels of a set by name, each as a spec of its own; none for a spec of one panel."""
    written = top.get(language.Spec.panels.name)
    if written is None:
        if (box := top.get(language.Spec.box.name)) is not None:
            problems.add(box.where, said.box_of_one_panel(), said.box_with_panels())
        return {}
    shared = [entry for entry in top.entries if entry.key.text not in _OF_THE_SET]
    _refuse(_NOT_SHARED, shared, said.key_not_shared, said.key_of_each_panel, problems)
    named = language.Spec.panels.kind.parse(written, problems) or ()
    found: dict[str, Mapping] = {}
    for name, node in named:
        if isinstance(node.value, Mapping):  # what is none is told already
            _refuse(_OF_THE_SET, node.value.entries, said.key_of_set, said.key_beside_panels, problems)
            found[name.value] = _merged(shared, node.value)
    if not found and not len(problems):
        problems.add(written.where, said.no_panels(), source_schema.accepted(language.Spec.panels.kind.accepts))
    return found


def _refuse(
    keys: tuple[str, ...],
    entries: Iterable[Entry],
    refused: Callable[[str], Message],
    accepted: Callable[[str], Message],
    problems: Problems,
) -> None:
    """Tell of the keys that have no place where these entries stand."""
    for entry in entries:
        key = entry.key.text
        if key in keys:
            problems.add(entry.key.where, refused(key), accepted(key))


def box_of(top: Mapping, names: Iterable[str], problems: Problems) -> BoxOf | None:
    """The box that two of the panels close, if the spec has one."""
    written = top.get(language.Spec.box.name)
    fields = None if written is None else language.Spec.box.kind.parse(written, problems)
    if not isinstance(fields, language.BoxOfPanels):
        return None
    ends = _ends(fields, tuple(names), problems)
    depth = fields.depth
    if ends is None or depth is None:
        return None
    clearance = fields.clearance or 0.0
    if clearance >= depth:
        where = fields.where(language.BoxOfPanels.clearance)
        problems.add(where, said.clearance_too_large(clearance, depth), said.less_than(depth))
        return None
    front, rear = ends
    return BoxOf(front=front, rear=rear, depth=depth, clearance=clearance, where=fields.begins)


def _ends(fields: language.BoxOfPanels, known: tuple[str, ...], problems: Problems) -> tuple[str, str] | None:
    """The panels in front and at the rear of a box, None unless they are two of those that are known."""
    ends = [(fields[field], fields.where(field)) for field in (language.BoxOfPanels.front, language.BoxOfPanels.rear)]
    for name, where in ends:
        if name is not None and name not in known:
            problems.add(where, said.unknown_panel(name), diagnostics.accepted(known))
    (front, _), (rear, where_rear) = ends
    if front is None or rear is None:
        return None
    if front == rear:
        problems.add(where_rear, said.one_panel_twice(front), said.two_panels())
        return None
    return (front, rear) if front in known and rear in known else None


def _merged(shared: list[Entry], own: Mapping) -> Mapping:
    """A spec of one panel; its place is that of the panel, its keys keep theirs."""
    entries: list[Entry] = []
    for entry in shared:
        mine = own.get(entry.key.text)
        if mine is None:
            entries.append(entry)
        elif entry.key.text in _JOINED:
            entries.append(Entry(key=entry.key, value=_joined(entry.value, mine)))
    taken = {entry.key.text for entry in entries}
    return Mapping(
        entries=(*entries, *(entry for entry in own.entries if entry.key.text not in taken)), where=own.where
    )


def _joined(shared: Node, own: Node) -> Node:
    if not isinstance(shared, Mapping) or not isinstance(own, Mapping):
        return own
    written = {entry.key.text for entry in own.entries}
    kept = tuple(entry for entry in shared.entries if entry.key.text not in written)
    return Mapping(entries=(*kept, *own.entries), where=own.where)
