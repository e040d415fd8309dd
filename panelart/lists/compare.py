"""A panel, or those of a set, held against a component list, both ways.

What is missing, what is too much, what is another part, has another legend, or stands in another group.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from enum import Enum
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue.search import kinds_of
from panelart.catalogue.vocabulary import folded
from panelart.diagnostics import Where
from panelart.lists.listed import ComponentList, Item
from panelart.lists.wishes import known_side
from panelart.lists.words import words
from panelart.messages import Message, Said, quoted
from panelart.messages import component_lists as said
from panelart.model.panel import Panel, Part


class Kind(Enum):
    """How a panel and a list differ over one ref, or over the refs of one group."""

    MISSING = "missing"  # on the list, not on the panel
    EXTRA = "extra"  # on the panel, not on the list
    SIDE = "other-side"  # on another panel of the set than the list says
    DIFFERENT = "different-part"
    LEGEND = "different-legend"
    GROUP = "different-group"
    UNKNOWN = "unknown-part"  # the list does not say for sure which part it means

    @property
    def says(self) -> Message:
        """The same for people."""
        return {
            Kind.MISSING: said.missing,
            Kind.EXTRA: said.extra,
            Kind.SIDE: said.other_side,
            Kind.DIFFERENT: said.different_part,
            Kind.LEGEND: said.different_legend,
            Kind.GROUP: said.different_group,
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
    Parts in flanges count as on the panel. Legends are compared where the list has one, without regard to capitals,
    groups where a frame has the title of one; fasteners and fittings of the panel that the list does not name are none
    too many.
    """
    wanted = side or _side(listed, set(_on_panel(panel)))
    return tuple(_against(panel, [item for item in listed.items if item.side == wanted], listed.file))


def set_differences(panels: Mapping[str, Panel], listed: ComponentList) -> tuple[Difference, ...]:
    """How the panels of a set, by their names, differ from the list.

    A part belongs to the panel whose name is its side, in any of the languages that lists are read in, or to one that
    is called otherwise; one that stands on another panel is told once. The rest is as in ``differences``.
    """
    there = {name: set(_on_panel(panel)) for name, panel in panels.items()}
    wanted: dict[str, list[Item]] = {name: [] for name in panels}
    elsewhere: dict[str, set[str]] = {name: set() for name in panels}
    found: list[Difference] = []
    for item in listed.items:
        home = _home(item, there)
        other = next((name for name in panels if item.ref in there[name]), home)
        if item.ref in there[home] or other == home:
            wanted[home].append(item)
            continue
        elsewhere[other].add(item.ref)
        panel = panels[other]
        message = said.on_other_side(ref=item.ref, panel=other, row=item.row, side=home)
        found.append(Difference(kind=Kind.SIDE, ref=item.ref, where=_where(panel, item.ref), message=message))
    for name, panel in panels.items():
        found += _against(panel, wanted[name], listed.file, elsewhere[name])
    return tuple(found)


def _home(item: Item, there: Mapping[str, set[str]]) -> str:
    """The panel that an item of a list belongs to: that of its side, else one of no side that has it."""
    sides = {name: known_side(name) for name in there}
    own = next((name for name, side in sides.items() if side == item.side), "")
    if own and item.ref in there[own]:
        return own
    others = [name for name, side in sides.items() if side is None]
    return next((name for name in others if item.ref in there[name]), own or (others or list(there))[0])


def _against(panel: Panel, items: Sequence[Item], file: str, told: Iterable[str] = ()) -> Iterator[Difference]:
    """How one panel differs from the items that are its own; what is `told` already is not extra."""
    there = _on_panel(panel)
    parts = {part.ref: part for part in panel.parts}
    for item in items:
        where = _where(panel, item.ref)
        yield from _of_part(item, there.get(item.ref), where, Where(file, item.row, 1))
        yield from _of_legend(item, parts.get(item.ref), where)
    yield from _of_groups(panel, items)
    known = {*told, *(item.ref for item in items)}
    fittings = {part.ref for part in panel.parts if _is_fitting(part)}
    for ref, name in there.items():
        if ref not in known and ref not in fittings:
            message = said.not_in_list(ref=ref, part=name)
            yield Difference(kind=Kind.EXTRA, ref=ref, where=_where(panel, ref), message=message)


def _where(panel: Panel, ref: str) -> Where:
    """The place of a part in the spec; that of the panel where it has none of that ref."""
    part = next((part for part in panel.parts if part.ref == ref), None)
    return panel.places[panel.where if part is None else part.where]


def _of_part(item: Item, there: str | None, where: Where, row: Where) -> Iterator[Difference]:
    """How a part of the list differs from the one of its ref on the panel, None for none."""
    if there is None:
        yield _missing(item, row)
    elif item.component is None:
        yield _unknown(item, there, row)
    elif item.component != there:
        yield _different(item, there, where)


def _of_legend(item: Item, part: Part | None, where: Where) -> Iterator[Difference]:
    """How the legend of a part differs from the one that the list has."""
    if part is None or not item.legend or item.guessed:
        return
    texts = [text.text for text in part.names]
    if not any(_is_same(text, item.legend) for text in (*texts[:1], " ".join(texts))):
        message = said.legend_differs(ref=item.ref, legend=" ".join(texts), row=item.row, listed=item.legend)
        yield Difference(kind=Kind.LEGEND, ref=item.ref, where=where, message=message)


def _is_same(there: str, listed: str) -> bool:
    """Whether a text of the panel is one of the list, whose capitals may have lost accents, as those of Greek have."""
    if _plain(there) == _plain(listed):
        return True
    return there == there.upper() and _plain(folded(there)) == _plain(folded(listed))


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())


def _of_groups(panel: Panel, items: Sequence[Item]) -> Iterator[Difference]:
    """Parts of a group that the frame of its name leaves out, and parts in it that the list has elsewhere.

    A group without a frame of its name is none on the panel, and a frame of no group's name is the designer's own.
    """
    for group in dict.fromkeys(item.group for item in items if item.group):
        frames = [one for one in panel.frames if one.title is not None and _is_same(one.title.text, group)]
        if frames:
            yield from _of_group(panel, items, group, {ref for frame in frames for ref in frame.around})


def _of_group(panel: Panel, items: Sequence[Item], group: str, inside: set[str]) -> Iterator[Difference]:
    """What the frames of a group, which have these refs in them, leave out and have too much."""
    own = [item.ref for item in items if _plain(item.group) == _plain(group)]
    without = [ref for ref in own if ref not in inside and _may_be_framed(panel, ref)]
    more = [item.ref for item in items if item.ref in inside - {*own}]
    for refs, tell in ((without, said.group_frame_without), (more, said.group_frame_too_wide)):
        if refs:
            where = _where(panel, refs[0])
            yield Difference(kind=Kind.GROUP, ref=refs[0], where=where, message=tell(refs=refs, group=group))


def _may_be_framed(panel: Panel, ref: str) -> bool:
    """Whether a part is on the face among the others: fittings, handles and locks stand at its edges."""
    own = (part for part in panel.parts if part.ref == ref)
    return any(not _is_fitting(part) and _AT_EDGES.isdisjoint(kinds_of(part.component)) for part in own)


_AT_EDGES: Final = frozenset({"handle", "cam-lock"})
"""Kinds that stand at the sides of a panel and in no frame of a group."""


def _is_fitting(part: Part) -> bool:
    """Whether a part holds others or the panel."""
    return words().inside.issuperset(kinds_of(part.component))


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
