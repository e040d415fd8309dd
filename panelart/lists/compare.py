"""A panel held against a component list, both ways: what is missing, what is too much, what is another part."""

from __future__ import annotations

from enum import Enum

from panelart.canonical import Struct
from panelart.diagnostics import Where
from panelart.lists.read import ComponentList, Item
from panelart.messages import Message, Said, quoted
from panelart.messages import component_lists as said
from panelart.model.panel import Panel


class Kind(Enum):
    """How a panel and a list differ over one ref."""

    MISSING = "missing"  # on the list, not on the panel
    EXTRA = "extra"  # on the panel, not on the list
    DIFFERENT = "different-part"
    UNKNOWN = "unknown-part"  # the list does not say for sure which part it means

    @property
    def says(self) -> Message:
        """The same for people."""
        return {
            Kind.MISSING: said.missing,
            Kind.EXTRA: said.extra,
            Kind.DIFFERENT: said.different_part,
            Kind.UNKNOWN: said.unknown_part,
        }[self]()


class Difference(Struct, frozen=True, kw_only=True):
    """One of them: in `where` the place in the spec, or in the list for what is missing (row, then column 1)."""

    kind: Kind
    ref: str
    where: Where
    message: Said

    def __str__(self) -> str:
        return str(said.difference(where=self.where, kind=self.kind.says, message=self.message))


def differences(panel: Panel, listed: ComponentList, side: str = "") -> tuple[Difference, ...]:
    """How the panel differs from the list, by ref, the list's order first.

    `side` is front or rear where the list has both; left out, the one that shares most refs with the panel.
    Parts in flanges count as on the panel.
    """
    there = _on_panel(panel)
    places = {part.ref: panel.places[part.where] for part in panel.parts}
    top = panel.places[panel.where]
    wanted = {item.ref: item for item in listed.items if item.side == (side or _side(listed, set(there)))}
    found: list[Difference] = []
    for ref, item in wanted.items():
        row = Where(listed.file, item.row, 1)
        if ref not in there:
            found.append(_missing(item, row))
        elif item.component is None:
            found.append(_unknown(item, there[ref], row))
        elif item.component != there[ref]:
            found.append(_different(item, there[ref], places.get(ref, top)))
    for ref, name in there.items():
        if ref not in wanted:
            message = said.not_in_list(ref=ref, part=name)
            found.append(Difference(kind=Kind.EXTRA, ref=ref, where=places.get(ref, top), message=message))
    return tuple(found)


def _on_panel(panel: Panel) -> dict[str, str]:
    """The name of each part by its ref, those in flanges and returns too."""
    there = {part.ref: part.component.name for part in panel.parts}
    for edge in panel.flanges:
        holes = (*edge.holes, *(edge.second.holes if edge.second is not None else ()))
        there |= {hole.ref: hole.component.name for hole in holes if hole.component is not None}
    return there


def _missing(item: Item, where: Where) -> Difference:
    message = said.not_on_panel(ref=item.ref, part=item.component or quoted(item.words))
    return Difference(kind=Kind.MISSING, ref=item.ref, where=where, message=message)


def _unknown(item: Item, there: str, where: Where) -> Difference:
    message = said.part_of_list_unknown(ref=item.ref, part=there, words=item.words)
    return Difference(kind=Kind.UNKNOWN, ref=item.ref, where=where, message=message)


def _different(item: Item, there: str, where: Where) -> Difference:
    message = (
        said.part_differs(ref=item.ref, part=there, row=item.row, listed=item.component)
        if item.words == item.component
        else said.part_differs_by_words(ref=item.ref, part=there, row=item.row, listed=item.component, words=item.words)
    )
    return Difference(kind=Kind.DIFFERENT, ref=item.ref, where=where, message=message)


def _side(listed: ComponentList, refs: set[str]) -> str:
    shared = {side: sum(item.ref in refs for item in listed.items if item.side == side) for side in ("front", "rear")}
    return "rear" if shared["rear"] > shared["front"] else "front"
