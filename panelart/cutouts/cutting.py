"""Finished and cut sizes, from one number.

A film of f on every surface makes a hole smaller by 2f in width and the outline bigger by 2f, so holes are cut f
bigger all round than they must be when finished, and the outline f smaller. Nowhere else is the film applied.
"""

from __future__ import annotations

from panelart.geometry import Contour, offset
from panelart.model.layout import CutOpening
from panelart.model.panel import Panel, Part


def cut(panel: Panel) -> tuple[CutOpening, ...]:
    """Every opening of every part, in the order of the parts."""
    return tuple(opening for part in panel.parts for opening in _openings(part, panel.coat.film))


def cut_outline(panel: Panel) -> Contour:
    """The outline as it is cut: smaller than the finished face by the film on each edge."""
    return _moved_wall(panel.outline, -panel.coat.film)


def _openings(part: Part, film: float) -> list[CutOpening]:
    openings = part.component.openings
    cuts: list[CutOpening] = []
    for number, opening in enumerate(openings, start=1):
        finished = part.on_panel(opening.contour)
        cuts.append(
            CutOpening(
                name=part.ref if len(openings) == 1 else f"{part.ref}.{number}",
                ref=part.ref,
                role=opening.role,
                finished=finished,
                cut=_moved_wall(finished, film),
                passes=None if opening.passes is None else part.on_panel(opening.passes),
                where=part.where,
            )
        )
    return cuts


def _moved_wall(contour: Contour, by: float) -> Contour:
    if by == 0.0:
        return contour
    moved = offset(contour, by)
    if len(moved) != 1:
        raise ValueError(f"a film of {abs(by):g} mm leaves no single contour of this shape")
    return moved[0]
