"""Where the panel hangs when it is coated: a hook leaves a bare spot, which should end up where nothing shows."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.canonical import Struct
from panelart.cutouts.hardware import places_of
from panelart.model.layout import CutOpening, Layout
from panelart.model.panel import Panel, Side

RIM = 1.0
"""Millimetres by which a part must cover the rim of an opening all round for a hook's mark to be hidden."""


class Hooks(Struct, frozen=True, kw_only=True):
    """The openings that hooks go into, by name; `asked` is true where the spec says so, `seen` are those that show."""

    names: tuple[str, ...]
    asked: bool
    seen: tuple[str, ...] = ()


def hooks(layout: Layout) -> Hooks:
    """Where hooks go: as the spec asks, else into flanges, else into openings whose rim a part covers."""
    asked = {*_hanging_holes(layout.panel), *layout.panel.making.hang_by}
    if asked:
        named = [opening for opening in layout.every_opening if opening.ref in asked]
        seen = tuple(opening.name for opening in named if shows(layout, opening))
        return Hooks(names=tuple(opening.name for opening in named), asked=True, seen=seen)
    return Hooks(names=_where_nothing_shows(layout), asked=False)


def _where_nothing_shows(layout: Layout) -> tuple[str, ...]:
    """The openings in flanges, else those of the face whose rim a part covers; without what is kept bare."""
    plain = [opening.name for opening in layout.flange_openings if not opening.bare]
    hidden = [opening.name for opening in layout.openings if not opening.bare and not shows(layout, opening)]
    return tuple(plain or hidden)


def _hanging_holes(panel: Panel) -> Iterator[str]:
    """The refs of the holes in flanges and returns that are made to hang the panel by."""
    for flange in panel.flanges:
        for _, holes in places_of(flange):
            yield from (hole.ref for hole in holes if hole.hanging)


def shows(layout: Layout, opening: CutOpening) -> bool:
    """Whether the rim of an opening is seen from the front once the panel is assembled."""
    if opening in layout.flange_openings:
        return False
    rim = opening.finished.bounds.grown(RIM)
    return not any(
        envelope.ref == opening.ref
        and envelope.side is Side.FRONT
        and envelope.covers
        and envelope.contour.bounds.contains(rim)
        for envelope in layout.envelopes
    )
