"""Finished and cut sizes, from one number.

A coat that builds b on every surface makes a hole smaller by 2b in width and the outline bigger by 2b, so holes are
cut b bigger all round than they must be when finished, and the outline b smaller, unless the shop allows for the coat
itself or nobody does. Nowhere else is the coat applied. No coat comes on the wall of a hole that hardware fills before
the coat, or that is plugged.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence

from panelart.canonical import Struct
from panelart.cutouts.dimensions import dimensions_of, pitches_of
from panelart.cutouts.hardware import Fitted, fitted, places_of
from panelart.diagnostics import Where
from panelart.geometry import Contour, Vector, offset
from panelart.geometry.corners import relieved
from panelart.messages import cutouts as said
from panelart.model.component import Countersink, Opening
from panelart.model.layout import FACE, CutCountersink, CutOpening
from panelart.model.making import Cutting, Making
from panelart.model.metal import FlangeHole
from panelart.model.panel import Allowance, Coat, Panel, Part, Sheet, Side
from panelart.stages import stage


def cut(panel: Panel) -> tuple[CutOpening, ...]:
    """Every opening of every part on the face, in the order of the parts."""
    return tuple(opening for part in panel.parts for opening in cut_part(part, panel.coat, panel.sheet, panel.making))


@stage
def cut_part(part: Part, coat: Coat, sheet: Sheet, making: Making) -> tuple[CutOpening, ...]:
    """Every opening of one part. Raises ValueError where the coat leaves nothing of one, or two of it."""
    at = _Place(ref=part.ref, where=part.where, turn=part.turn, on=FACE, put=part.on_panel)
    bare = fitted(part.component, coat) is Fitted.BEFORE_COAT
    return tuple(_openings(part.component.openings, at, _Metal(coat=coat, sheet=sheet, making=making), bare=bare))


def cut_flanges(panel: Panel) -> tuple[CutOpening, ...]:
    """Every opening of every flange and return, in their own frames."""
    return tuple(
        opening
        for flange in panel.flanges
        for on, holes in places_of(flange)
        for hole in holes
        for opening in _openings(
            hole.openings,
            _Place(ref=hole.ref, where=hole.where, turn=0.0, on=on, put=_put(hole)),
            _Metal(coat=panel.coat, sheet=panel.sheet, making=panel.making),
            bare=hole.component is not None and fitted(hole.component, panel.coat) is Fitted.BEFORE_COAT,
        )
    )


def _put(hole: FlangeHole) -> Callable[[Contour], Contour]:
    by = Vector(hole.at.x, hole.at.y)
    return lambda contour: contour.moved(by)


def cut_outline(panel: Panel) -> Contour:
    """The outline as it is cut: smaller than the finished face by the coat on each edge."""
    coat = panel.coat
    return moved_wall(panel.outline, -coat.build if coat.allowance is Allowance.DRAWING else 0.0)


def at_coat(opening: CutOpening, coat: Coat, build: float) -> Contour | None:
    """The opening when the coat builds another amount, in mm; None where it closes altogether.

    The metal stays as it was cut for the usual coat thickness.
    """
    more = 0.0 if opening.bare else build - coat.build
    if abs(more) < 1e-9:
        return opening.finished
    left = offset(opening.finished, -more)
    return left[0] if len(left) == 1 else None


def moved_wall(contour: Contour, by: float) -> Contour:
    """The contour a coat further out (or in, when negative). Raises ValueError where nothing single is left."""
    if by == 0.0:
        return contour
    moved = offset(contour, by)
    if len(moved) != 1:
        raise ValueError(said.no_single_contour(thickness=abs(by)))
    return moved[0]


def coat_on_cone(angle: float, build: float) -> float:
    """How much a coat reduces the diameter of a countersink, in mm.

    The coat moves the cone inwards square to its wall and the face outwards, which wins back a part: on the radius
    b / cos(a / 2) is lost and b tan(a / 2) gained (plane geometry).
    """
    half = math.radians(angle / 2)
    return 2 * build * (1 - math.sin(half)) / math.cos(half)


def cone_depth(diameter: float, hole: float, angle: float) -> float:
    """How deep a cone reaches from the face to a straight hole, in mm."""
    return (diameter - hole) / (2 * math.tan(math.radians(angle / 2)))


def cone_exit(diameter: float, angle: float, thickness: float) -> float:
    """How wide a cone is on the far side of a sheet that is thinner than it is deep, in mm."""
    return diameter - 2 * thickness * math.tan(math.radians(angle / 2))


def milled(contour: Contour, making: Making) -> Contour:
    """An opening as a milling cutter leaves it where sharp inside corners are relieved, else the opening itself."""
    if making.cutting is not Cutting.MILL or making.cutter is None or not making.relieve:
        return contour
    return relieved(contour, making.cutter / 2)


class _Metal(Struct, frozen=True, kw_only=True):
    """What openings are cut in and how, and the coat on it."""

    coat: Coat
    sheet: Sheet
    making: Making


class _Place(Struct, frozen=True, kw_only=True):
    """Where a part stands: `put` brings a contour of its own frame there."""

    ref: str
    where: Where
    turn: float
    on: str
    put: Callable[[Contour], Contour]


def _openings(openings: Sequence[Opening], at: _Place, metal: _Metal, *, bare: bool) -> Iterator[CutOpening]:
    names = [at.ref] if len(openings) == 1 else [f"{at.ref}.{number}" for number in range(1, len(openings) + 1)]
    for name, opening, pitches in zip(names, openings, pitches_of(openings, names, at.turn), strict=True):
        asked = at.put(opening.contour)
        finished, nominal = (asked, asked) if bare else both_sizes(asked, metal.coat)
        as_cut = milled(nominal, metal.making)
        yield CutOpening(
            name=name,
            ref=at.ref,
            role=opening.role,
            finished=finished,
            cut=as_cut,
            passes=None if opening.passes is None else at.put(opening.passes),
            where=at.where,
            countersink=None if opening.countersink is None else _cone(opening.countersink, as_cut, metal),
            bare=bare,
            dimensions=dimensions_of(opening, at.turn),
            pitches=pitches,
            turn=at.turn,
            on=at.on,
            nominal=None if as_cut is nominal else nominal,
        )


def both_sizes(asked: Contour, coat: Coat) -> tuple[Contour, Contour]:
    """The opening as finished and as cut, by who allows for the coat."""
    match coat.allowance:
        case Allowance.DRAWING:
            return asked, moved_wall(asked, coat.build)
        case Allowance.SHOP:
            return asked, asked
        case Allowance.NONE:
            return moved_wall(asked, -coat.build), asked


def _cone(cone: Countersink, hole: Contour, metal: _Metal) -> CutCountersink:
    round_ = hole.circle
    assert round_ is not None  # the catalogue lets a countersink stand about a round hole only
    centre, radius = round_
    side = Side.REAR if cone.from_rear else Side.FRONT
    coated = side is Side.FRONT or metal.coat.rear
    narrowed = coat_on_cone(cone.angle, metal.coat.build if coated else 0.0)
    as_asked = metal.coat.allowance is Allowance.NONE
    allowed = metal.coat.allowance is Allowance.DRAWING
    as_cut = cone.diameter + (narrowed if allowed else 0.0)
    depth = cone_depth(as_cut, 2 * radius, cone.angle)
    return CutCountersink(
        centre=centre,
        finished=cone.diameter - (narrowed if as_asked else 0.0),
        cut=as_cut,
        angle=cone.angle,
        depth=min(depth, metal.sheet.thickness),
        side=side,
    )
