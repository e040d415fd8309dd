"""Front and rear of one list: each drafted as a panel of its own, both of one size, written as one spec of a set."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from typing import Final, TypeVar

from panelart.canonical import Struct
from panelart.diagnostics import SpecError
from panelart.drafting.plan import Wish
from panelart.drafting.tried import Tried
from panelart.lists.listed import ComponentList
from panelart.messages import drafting as said

Drawn = TypeVar("Drawn")

SIDES: Final = ("front", "rear")
"""The sides that a list may tell of, in the order in which they are written."""

Drafting = Callable[[str, Wish | None], list[Tried]]
"""Drafts one side on a face of the size that is wished; `None` for the size that the draft has anyway."""


def sides_of(listed: ComponentList) -> tuple[str, ...]:
    """The sides that have parts which are known, or else asked about; the front where there are none."""
    found = {item.side for item in listed.known} or {item.side for item in listed.items}
    return tuple(side for side in SIDES if side in found) or SIDES[:1]


def drafted_alike(draft: Drafting, sides: Sequence[str], kept: Sequence[str]) -> dict[str, list[Tried]]:
    """Drafts of each side, all of one size where their parts allow it: two panels that close one box are alike.

    Sides that are `kept` have the size of an earlier draft, which decides; else the largest width and height do.
    Raises SpecError where the parts of a side do not fit at all.
    """
    found = {side: draft(side, None) for side in sides}
    sizes = {side: made[0].arranged.plan.size for side, made in found.items()}
    decide = [sizes[side] for side in sides if side in kept] or list(sizes.values())
    size = (max(width for width, _ in decide), max(height for _, height in decide))
    for side in sides:
        if sizes[side] != size:
            try:
                found[side] = draft(side, Wish(width=size[0], height=size[1]))
            except SpecError:
                continue  # told by the two sizes of the drafts
    return found


GROWTH: Final = (20.0, 40.0, 80.0, 160.0)
"""What is added to a side of a face whose parts keep their places and leave no room for one that is new, mm."""


def with_room(
    draft: Callable[[tuple[float, float] | None], list[Drawn]], size: tuple[float, float] | None
) -> list[Drawn]:
    """What is drafted on a face of a size, or on a larger one where its places leave no room for a new part.

    Higher is tried before wider; `None` is any size. Raises SpecError as the first draft did where none helps.
    """
    try:
        return draft(size)
    except SpecError:
        if size is None:
            raise
        for more in GROWTH:
            for wider, higher in ((0.0, more), (more, 0.0)):
                with suppress(SpecError):
                    return draft((size[0] + wider, size[1] + higher))
        raise


class _Chapter(Struct, frozen=True, kw_only=True):
    """A key at the top of a spec: its own line and those below it, without blank lines at the end."""

    key: str
    lines: tuple[str, ...]


_JOINED: Final = "panel"
_OF_EACH: Final = frozenset({"parts", "frames"})
"""Keys that are never shared between panels."""


def set_text(texts: Mapping[str, str]) -> str:
    """One spec of the drafts of several panels, by their names: what is the same in all stands beside them."""
    head, _ = _parted(next(iter(texts.values())))
    chapters = {name: _parted(text)[1] for name, text in texts.items()}
    shared = _shared(list(chapters.values()))
    lines = [*head, "panelart: 1", "", "panels:"]
    for name, own in chapters.items():
        lines.append(f"  {name}:")
        for one in own:
            lines += [f"    {line}" if line else "" for line in _without(one, shared)]
        lines.append("")
    lines += [f"# {said.seen_from_outside()}", f"# {said.box_of_set()}", ""]
    for common in shared.values():
        lines += [*common, ""]
    return "\n".join(lines).rstrip("\n") + "\n"


def _parted(text: str) -> tuple[list[str], list[_Chapter]]:
    """The remarks above a spec, and its keys but for the first, which says that it is one."""
    head: list[str] = []
    found: list[_Chapter] = []
    for line in text.splitlines():
        if line[:1].isalpha():
            found.append(_Chapter(key=line.partition(":")[0], lines=(line,)))
        elif found:
            found[-1] = _Chapter(key=found[-1].key, lines=(*found[-1].lines, line))
        else:
            head.append(line)
    return head, [_Chapter(key=one.key, lines=_trimmed(one.lines)) for one in found[1:]]


def _trimmed(lines: tuple[str, ...]) -> tuple[str, ...]:
    while lines and not lines[-1]:
        lines = lines[:-1]
    return lines


def _shared(panels: Sequence[Sequence[_Chapter]]) -> dict[str, tuple[str, ...]]:
    """The lines that all panels have alike, by their key: of `panel` line by line, of all others whole."""
    found: dict[str, tuple[str, ...]] = {}
    for one in panels[0]:
        others = [next((own.lines for own in panel if own.key == one.key), ()) for panel in panels[1:]]
        if one.key == _JOINED:
            found[one.key] = tuple(line for line in one.lines if all(line in other for other in others))
        elif one.key not in _OF_EACH and all(other == one.lines for other in others):
            found[one.key] = one.lines
    return found


def _without(one: _Chapter, shared: Mapping[str, tuple[str, ...]]) -> Sequence[str]:
    """What a panel writes itself of a key."""
    common = shared.get(one.key, ())
    if one.key != _JOINED:
        return () if common else one.lines
    return (one.lines[0], *(line for line in one.lines[1:] if line not in common))
