"""Where the panel hangs when it is coated: a hook leaves a bare spot, which should end up where nothing shows."""

from __future__ import annotations

from dataclasses import dataclass

from panelart.model.layout import CutOpening, Layout
from panelart.model.panel import Side

RIM = 1.0
"""Millimetres by which a part must cover the rim of an opening all round for a hook's mark to be hidden."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hooks:
    """The openings that hooks go into, by name; `asked` is true where the spec says so, `seen` are those that show."""

    names: tuple[str, ...]
    asked: bool
    seen: tuple[str, ...] = ()


def hooks(layout: Layout) -> Hooks:
    """Where hooks go: as the spec asks, else into flanges, else into openings whose rim a part covers."""
    panel = layout.panel
    own = [hole.ref for flange in panel.flanges for hole in flange.holes if hole.hanging]
    own += [hole.ref for flange in panel.flanges if flange.second for hole in flange.second.holes if hole.hanging]
    asked = {*own, *panel.making.hang_by}
    if asked:
        named = [opening for opening in layout.every_opening if opening.ref in asked]
        seen = tuple(opening.name for opening in named if shows(layout, opening))
        return Hooks(names=tuple(opening.name for opening in named), asked=True, seen=seen)
    plain = [opening.name for opening in layout.flange_openings if not opening.bare]
    hidden = [opening.name for opening in layout.openings if not opening.bare and not shows(layout, opening)]
    return Hooks(names=tuple(plain or hidden), asked=False)


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
