"""Bent edges: from what the spec says of flanges and of the shop to flanges in millimetres."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import Any, Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.diagnostics import Where
from panelart.geometry import Contour, Point, circle, rectangle, slot
from panelart.messages import Message, diagnostics
from panelart.messages import spec as spec_said
from panelart.messages import spec_bending as said
from panelart.model.component import Component, Opening, Role
from panelart.model.metal import Bending, Edge, Flange, FlangeHole, Method, Relief, Return, ShopBend, Towards
from panelart.source.nouns import keys_of
from panelart.source.problems import Problems
from panelart.source.schema import Field, Value
from panelart.spec import language

_SAME: Final = 1e-6

_DIN_MIN: Final = 0.1
"""Least radius over thickness that the K of DIN 6935 is taken for; its formula runs towards zero below."""


class FlangeContext(Struct, frozen=True, kw_only=True):
    """What flanges are made with: the face, the sheet, the catalogue, the refs that are taken, and the problems.

    `corner` is the radius of the corners of a rectangular face, None for a face of another form.
    """

    width: float
    height: float
    corner: float | None
    thickness: float
    datum: Point
    component: Callable[[str, Where], Component | None]
    taken: frozenset[str]
    problems: Problems


def bending(panel: language.Panel, edges: tuple[Flange, ...], thickness: float, problems: Problems) -> Bending | None:
    """How the shop bends; None for a flat panel, about whose bending nothing may be said either."""
    fields = panel.bending
    if not edges:
        if fields is not None and not panel.written(language.Panel.flanges):
            problems.add(
                panel.key_where(language.Panel.bending),
                said.bending_without_flanges(),
                said.remove_bending(),
            )
        return None
    made = _bending_of_shop(fields or language.Bending.empty(panel.begins), thickness, problems)
    _check_bends(made, edges, thickness, problems)
    return made


def _bending_of_shop(fields: language.Bending, thickness: float, problems: Problems) -> Bending:
    """How the shop bends; where nothing is said, reliefs are as wide and as deep as the sheet is thick."""
    if fields.k is not None and fields.tested is not None:
        problems.add(
            fields.key_where(language.Bending.tested),
            said.k_and_tested(),
            spec_said.one_of_two(),
        )
    relief = fields.relief or language.Relief.empty(fields.begins)
    corner = fields.corner_relief or language.CornerRelief.empty(fields.begins)
    depth = thickness if relief.depth is None else relief.depth
    return Bending(
        method=_method(fields),
        k=fields.k,
        tested=tuple(_tested(bend) for bend in fields.tested or ()),
        relief_width=thickness if relief.width is None else relief.width,
        relief_depth=depth,
        relief=Relief(relief.shape),
        corner_depth=depth if corner.depth is None else corner.depth,
        corner=Relief(corner.shape),
        die=fields.die,
    )


def _method(fields: language.Bending) -> Method:
    """Bends that were tested go before a K-factor of the shop's own, and that before the standard's."""
    if fields.tested:
        return Method.TESTED
    return Method.DIN_6935 if fields.k is None else Method.FACTOR


def _tested(bend: Value[language.TestedBend]) -> ShopBend:
    fields = bend.value
    return ShopBend(
        radius=fields.radius or 0.0,
        angle=fields.angle,
        deduction=fields.deduction or 0.0,
    )


def _check_bends(made: Bending, edges: tuple[Flange, ...], thickness: float, problems: Problems) -> None:
    """Every bend must be one that the shop's way of calculation covers."""
    for bend in _bends(edges):
        if made.method is Method.TESTED and not any(_is_of(known, bend) for known in made.tested):
            tested = [said.tested_bend(known.angle, known.radius) for known in made.tested]
            problems.add(bend.where, said.no_tested_bend(bend.angle, bend.radius), said.tested_bends(tested))
        if made.method is Method.DIN_6935 and thickness and bend.radius < _DIN_MIN * thickness:
            below = said.radius_below_din(bend.radius, thickness, _DIN_MIN * thickness)
            problems.add(bend.where, below, said.larger_radius_or_k())


def _bends(edges: tuple[Flange, ...]) -> Iterator[Flange | Return]:
    """Each flange, and after it its return."""
    for edge in edges:
        yield edge
        if edge.second is not None:
            yield edge.second


def _is_of(known: ShopBend, bend: Flange | Return) -> bool:
    """Whether a bend is one that was tested."""
    return abs(known.radius - bend.radius) < _SAME and abs(known.angle - bend.angle) < _SAME


def flange_refs(panel: language.Panel) -> frozenset[str]:
    """The refs of what is in flanges and returns, as far as they are written."""
    fields = panel.flanges
    if fields is None:
        return frozenset()
    refs = (item.value.ref for bent in _with_holes(fields) for item in bent.holes or ())
    return frozenset(ref for ref in refs if ref is not None)


def _with_holes(fields: language.Flanges) -> Iterator[language.Flange | language.FlangeReturn]:
    """The flanges and returns that can have holes: those of which more is written than a length."""
    for field in keys_of(language.Flanges):
        flange = fields[field]
        if isinstance(flange, language.Flange):
            yield flange
            if flange.return_ is not None:
                yield flange.return_


def flanges(panel: language.Panel, context: FlangeContext) -> tuple[Flange, ...]:
    """The flanges, in the order top, bottom, left, right."""
    fields = panel.flanges
    if fields is None:
        return ()
    if context.corner is None:
        context.problems.add(
            panel.key_where(language.Panel.flanges),
            said.flanges_on_odd_face(),
            said.flanges_on_rectangle(),
        )
        return ()
    shop = panel.bending
    usual = None if shop is None else shop.radius
    radius = context.thickness if usual is None else usual
    taken = set(context.taken)
    made: list[Flange] = []
    for field in keys_of(language.Flanges):
        written = fields[field]
        if isinstance(written, language.Flange):
            flange = _flange(Edge(field.name), written, radius, context, taken)
            if flange is not None:
                made.append(flange)
        elif written is not None:
            made.append(
                Flange(edge=Edge(field.name), length=written, angle=90.0, radius=radius, where=fields.where(field))
            )
    for flange in made:
        _check_room(flange, made, context)
    return tuple(made)


def _flange(
    edge: Edge, fields: language.Flange, radius: float, context: FlangeContext, taken: set[str]
) -> Flange | None:
    length = fields.length
    if length is None:
        return None
    own = fields.radius
    inset = fields.inset
    second = fields.return_
    return Flange(
        edge=edge,
        length=length,
        angle=fields.angle,
        radius=radius if own is None else own,
        where=fields.begins,
        insets=(None, None) if inset is None else inset if isinstance(inset, tuple) else (inset, inset),
        corner=fields.corner or 0.0,
        second=None if second is None else _return(edge, second, radius, context, taken),
        holes=_holes(edge, fields, context, taken),
    )


def _return(
    edge: Edge, fields: language.FlangeReturn, radius: float, context: FlangeContext, taken: set[str]
) -> Return | None:
    length = fields.length
    if length is None:
        return None
    own = fields.radius
    return Return(
        length=length,
        angle=fields.angle,
        radius=radius if own is None else own,
        towards=Towards(fields.towards or Towards.IN.value),
        where=fields.begins,
        holes=_holes(edge, fields, context, taken),
    )


_FORMS: Final[tuple[Field[Any], ...]] = (
    language.FlangeHole.diameter,
    language.FlangeHole.slot,
    language.FlangeHole.rectangle,
    language.FlangeHole.part,
)


def _holes(
    edge: Edge, fields: language.Flange | language.FlangeReturn, context: FlangeContext, taken: set[str]
) -> tuple[FlangeHole, ...]:
    made: list[FlangeHole] = []
    for item in fields.holes or ():
        hole = _hole(edge, item.value, context)
        if hole is None:
            continue
        if hole.ref in taken:
            context.problems.add(
                item.value.where(language.FlangeHole.ref),
                said.ref_taken(hole.ref),
                spec_said.each_ref_once(),
            )
        taken.add(hole.ref)
        made.append(hole)
    return tuple(made)


def _hole(edge: Edge, fields: language.FlangeHole, context: FlangeContext) -> FlangeHole | None:
    written = [field for field in _FORMS if fields.written(field)]
    if len(written) != 1:
        shapes = [field.name for field in written]
        found = said.hole_with_shapes(shapes) if shapes else said.hole_without_shape()
        context.problems.add(fields.begins, found, said.hole_shapes())
        return None
    ref, at = fields.ref, fields.at
    component, openings = _form(edge, fields, context)
    if ref is None or at is None or not openings:
        return None
    along = at[0] + (context.datum.x if edge in (Edge.TOP, Edge.BOTTOM) else context.datum.y)
    return FlangeHole(ref=ref, at=Point(along, at[1]), openings=openings, component=component, where=fields.begins)


def _plain(contour: Contour) -> Opening:
    return Opening(role=Role.FIXING, contour=contour, figures=())


def _form(
    edge: Edge, fields: language.FlangeHole, context: FlangeContext
) -> tuple[Component | None, tuple[Opening, ...]]:
    if (diameter := fields.diameter) is not None:
        return None, (_plain(circle(diameter)),)
    if (over_all := fields.slot) is not None:
        return None, (_plain(slot(over_all[0], over_all[1])),)
    if (sides := fields.rectangle) is not None:
        return None, (_plain(rectangle(sides[0], sides[1])),)
    name = fields.part
    component = None if name is None else context.component(name, fields.where(language.FlangeHole.part))
    if component is None:
        return None, ()
    if not component.openings:
        context.problems.add(
            fields.where(language.FlangeHole.part),
            said.part_without_opening(component.name),
            said.part_with_opening(),
        )
        return None, ()
    # Seen from outside the flange; on these two edges the frame runs the other way round.
    mirrored = edge in (Edge.BOTTOM, Edge.RIGHT)
    return component, tuple(_mirrored(opening) if mirrored else opening for opening in component.openings)


def _mirrored(opening: Opening) -> Opening:
    passes = None if opening.passes is None else opening.passes.mirrored()
    return replace(opening, contour=opening.contour.mirrored(), passes=passes)


# --- to hang the panel by


def hung(flanges: tuple[Flange, ...], making: language.Making | None, context: FlangeContext) -> tuple[Flange, ...]:
    """The flanges with the holes to hang the panel by that `making` asks for."""
    wanted = None if making is None else making.hanging
    if wanted is None:
        return flanges
    on, by = wanted.on, wanted.by
    if (on is None) == (by is None) and not wanted.misread(language.Hanging.on):
        context.problems.add(
            wanted.begins, said.hanging_by_nothing() if on is None else said.hanging_by_both(), said.on_or_by()
        )
    if on is None:
        return flanges
    bearing = _bearing(on, flanges)
    if bearing is None:
        context.problems.add(wanted.where(language.Hanging.on), said.unknown_flange(on), _there(flanges))
        return flanges
    flange, second = bearing
    more = _with_hooks(flange, second, wanted, context)
    return tuple(more if each is flange else each for each in flanges)


def _there(flanges: tuple[Flange, ...]) -> Message:
    """What holes to hang by can be made in."""
    known = [each.edge.value for each in flanges]
    known += [f"{each.edge.value} return" for each in flanges if each.second is not None]
    return diagnostics.accepted(known) if known else said.flange_needed()


def _bearing(on: str, flanges: tuple[Flange, ...]) -> tuple[Flange, Return | None] | None:
    """The flange that is named, with its return where that is meant; None where there is none."""
    edge, _, second = on.partition(" ")
    flange = next((each for each in flanges if each.edge.value == edge), None)
    if flange is None or (second and flange.second is None):
        return None
    return flange, flange.second if second else None


def _with_hooks(flange: Flange, second: Return | None, wanted: language.Hanging, context: FlangeContext) -> Flange:
    """The flange with holes to hang by in it, or in its return where that is given."""
    hooks = tuple(_hooks(flange, second, wanted, context))
    if second is None:
        return replace(flange, holes=(*flange.holes, *hooks))
    return replace(flange, second=replace(second, holes=(*second.holes, *hooks)))


_CLEAR_OF_BEND: Final = 2.5
_CLEAR_OF_EDGE: Final = 1.5
"""How far holes to hang by stay from bends and edges over the thickness, as `hole-near-bend` and
`flange-hole-near-edge` ask for; a millimetre is added for the coat and for rounding."""


def _hooks(
    flange: Flange, second: Return | None, wanted: language.Hanging, context: FlangeContext
) -> Iterator[FlangeHole]:
    """Holes in the middle of what is flat of a flange, or of its return."""
    diameter = wanted.diameter or 0.0
    sheet, bend = context.thickness, flange if second is None else second
    low = sheet + bend.radius + _CLEAR_OF_BEND * sheet + diameter / 2
    high = bend.length - _CLEAR_OF_EDGE * sheet - diameter / 2
    if second is None and flange.second is not None:
        high = flange.length - sheet - flange.second.radius - _CLEAR_OF_BEND * sheet - diameter / 2
    if low + 1.0 > high:
        context.problems.add(
            wanted.where(language.Hanging.on),
            said.no_room_for_hole(diameter, bend.length),
            said.longer_flange(low + 1.0 - high),
        )
        return
    back = round((low + high) / 2, 2)
    taken = set(context.taken) | {hole.ref for hole in (*flange.holes, *(flange.second.holes if flange.second else ()))}
    names = (name for number in range(1, 1000) if (name := f"HANG{number}") not in taken)
    for along in _places_along(flange, bend.holes, wanted, diameter, context):
        opening = _plain(circle(diameter))
        yield FlangeHole(ref=next(names), at=Point(along, back), openings=(opening,), where=wanted.begins, hanging=True)


def _places_along(
    flange: Flange, others: tuple[FlangeHole, ...], wanted: language.Hanging, diameter: float, context: FlangeContext
) -> list[float]:
    """Those that are asked for, or a quarter in from each end, moved as little as keeps them clear of other holes."""
    level = flange.edge in (Edge.TOP, Edge.BOTTOM)
    asked = wanted.at
    if asked is not None:
        return [place.value + (context.datum.x if level else context.datum.y) for place in asked]
    side = context.width if level else context.height
    ends = [inset or 0.0 for inset in flange.insets]
    start, end = ends[0], side - ends[1]
    room = max(2.0 * context.thickness, diameter) + diameter / 2

    def free(place: float) -> bool:
        return all(place + room <= hole.box.left or place - room >= hole.box.right for hole in others)

    found: list[float] = []
    for share, low, high in ((0.25, 0.0, 0.5), (0.75, 0.5, 1.0)):
        middle = start + share * (end - start)
        reach = int((high - low) / 2 * (end - start))
        steps = sorted(range(-reach, reach + 1), key=lambda step: (abs(step), -step))
        found.append(round(next((middle + step for step in steps if free(middle + step)), middle), 2))
    return found


# --- room


def _check_room(flange: Flange, every: list[Flange], context: FlangeContext) -> None:
    """A flange must leave something of its edge, and a rounded corner needs an edge that is not bent up to it."""
    edge = flange.edge
    side = context.width if edge in (Edge.TOP, Edge.BOTTOM) else context.height
    ends = (Edge.LEFT, Edge.RIGHT) if edge in (Edge.TOP, Edge.BOTTOM) else (Edge.BOTTOM, Edge.TOP)
    bent = {other.edge for other in every}
    given = math.fsum(inset or 0.0 for inset in flange.insets)
    if given >= side:
        context.problems.add(flange.where, said.insets_leave_nothing(side), said.together_less_than(side))
    for inset, neighbour in zip(flange.insets, ends, strict=True):
        if context.corner and neighbour not in bent and (inset or 0.0) < context.corner + context.thickness:
            context.problems.add(
                flange.where,
                said.flange_in_corner(edge, neighbour),
                said.no_corner_or_inset(context.corner + context.thickness),
            )
            return
