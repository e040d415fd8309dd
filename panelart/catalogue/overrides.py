"""A catalogue part with single dimensions changed in place: `{part: bnc, opening: {diameter: 12.9}}`.

    opening, fixing, locating   dimensions of the main opening (or openings), of the fixing and locating holes
    front, rear                 dimensions of an envelope, by what it is: front: {nut: {across_flats: 17}}
    shaft                       diameter, length
    thickness                   minimum, maximum

What is changed stands as the designer's own figure; the rest keeps its source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from collections.abc import Mapping as MappingOf
from typing import Final

from msgspec.structs import replace

from panelart.catalogue import table
from panelart.catalogue.context import GIVEN, EntryContext, UnusableError
from panelart.catalogue.entries import shaft_of
from panelart.catalogue.outlines import DIMENSIONS, UNITS, outline_of
from panelart.diagnostics import Where, did_you_mean
from panelart.figure import Figure
from panelart.geometry import Contour, Vector
from panelart.messages import Message
from panelart.messages import catalogue as of_parts
from panelart.messages import catalogue_overrides as said
from panelart.messages import source as of_source
from panelart.messages.errors import said_by
from panelart.model.component import Component, Envelope, Opening, Role
from panelart.source.nodes import Entry, Mapping, Node
from panelart.source.problems import Problems

OVERRIDES: Final = ("opening", "fixing", "locating", "front", "rear", "shaft", "thickness")
"""The keys that may stand beside `part` where a catalogue part is used."""

_PLACE: Final = frozenset({"x", "y"})


def overridden(component: Component, node: Node, problems: Problems) -> Component | None:
    """The component with the dimensions in `node` changed; None when problems were added.

    `node` is the mapping written where the part is used; its key `part` is passed over.
    """
    context = EntryContext(sources={}, problems=problems)
    if not isinstance(node, Mapping):
        problems.add(node.where, of_source.found(node.found), said.overrides(OVERRIDES))
        return None
    before = len(problems)
    for entry in node.entries:
        key = entry.key.text
        if key == "part":
            continue
        if key not in OVERRIDES:
            hint = did_you_mean(key[:40], OVERRIDES, of_parts.keys())
            problems.add(entry.key.where, said.unknown_override(key), hint)
            continue
        try:
            component = _changed(component, key, entry, context)
        except UnusableError:
            continue
    return component if len(problems) == before else None


def _changed(component: Component, key: str, entry: Entry, context: EntryContext) -> Component:
    value = entry.value
    if not isinstance(value, Mapping):
        raise context.refuse(value.where, of_source.found(value.found), said.dimensions_of(key))
    match key:
        case "front":
            return replace(
                component, front=_envelopes(component.front, value, said.no_front_envelope, component, context)
            )
        case "rear":
            return replace(component, rear=_envelopes(component.rear, value, said.no_rear_envelope, component, context))
        case "shaft":
            return _with_shaft(component, value, entry, context)
        case "thickness":
            return _with_thickness(component, value, entry, context)
        case _:
            return _with_openings(component, key, value, entry, context)


def _with_openings(component: Component, key: str, value: Mapping, entry: Entry, context: EntryContext) -> Component:
    roles = {"fixing": Role.FIXING, "locating": Role.LOCATING}
    main = component.openings[0].role if component.openings else Role.BODY
    role = roles.get(key, main)
    if not any(opening.role is role for opening in component.openings):
        raise context.refuse(entry.key.where, *_no_openings(component, roles.get(key)))
    changes = _written(
        value,
        (figure for opening in component.openings if opening.role is role for figure in opening.figures),
        key,
        component,
        context,
    )
    openings = tuple(
        _opening(opening, changes, value.where, context) if opening.role is role else opening
        for opening in component.openings
    )
    return replace(component, openings=openings)


def _no_openings(component: Component, role: Role | None) -> tuple[Message, Message]:
    there = sorted({opening.role.value for opening in component.openings})
    if role is None:
        return said.no_openings(component.name), said.define_part()
    return said.no_openings_of_role(component.name, role.value), said.roles_of_openings(there)


def _opening(opening: Opening, changes: MappingOf[str, Figure], where: Where, context: EntryContext) -> Opening:
    figures = _with_changes(opening.figures, changes)
    plain = [figure for figure in figures if not figure.name.startswith("passes_")]
    through = [
        replace(figure, name=figure.name.removeprefix("passes_"))
        for figure in figures
        if figure.name.startswith("passes_")
    ]
    passes = opening.passes
    if passes is not None and any(name.startswith("passes_") for name in changes):
        turn_and_place = [figure for figure in plain if figure.name in ("turn", "x", "y")]
        passes = _redrawn([*through, *turn_and_place], where, context)
    contour = opening.contour
    if any(not name.startswith("passes_") for name in changes):
        contour = _redrawn(plain, where, context)
    return replace(opening, contour=contour, figures=figures, passes=passes)


def _envelopes(
    envelopes: tuple[Envelope, ...],
    value: Mapping,
    missing: Callable[[str, str], Message],
    component: Component,
    context: EntryContext,
) -> tuple[Envelope, ...]:
    made = envelopes
    whats = tuple(dict.fromkeys(envelope.what for envelope in envelopes))
    for entry in value.entries:
        what = entry.key.text
        if what not in whats:
            hint = did_you_mean(what[:40], whats, of_parts.envelopes())
            context.problems.add(entry.key.where, missing(component.name, what), hint)
            continue
        if not isinstance(entry.value, Mapping):
            context.problems.add(entry.value.where, of_source.found(entry.value.found), said.dimensions_of(what))
            continue
        try:
            changes = _written(
                entry.value,
                (figure for envelope in envelopes if envelope.what == what for figure in envelope.figures),
                what,
                component,
                context,
            )
            made = tuple(
                _envelope(envelope, changes, entry.value.where, context) if envelope.what == what else envelope
                for envelope in made
            )
        except UnusableError:
            continue
    return made


def _envelope(envelope: Envelope, changes: MappingOf[str, Figure], where: Where, context: EntryContext) -> Envelope:
    figures = _with_changes(envelope.figures, changes)
    reach = next((changes[name].value for name in ("projection", "depth") if name in changes), envelope.height)
    shape_changed = any(name not in ("projection", "depth") for name in changes)
    contour = _redrawn(figures, where, context) if shape_changed else envelope.contour
    return replace(envelope, contour=contour, height=reach, figures=figures)


def _with_shaft(component: Component, value: Mapping, entry: Entry, context: EntryContext) -> Component:
    if component.shaft is None:
        raise context.refuse(entry.key.where, said.no_shaft(component.name), said.change_knob())
    room = next(envelope for envelope in component.front if envelope.what == "shaft")
    there = [figure if figure.name != "projection" else replace(figure, name="length") for figure in room.figures]
    changes = _written(value, there, "shaft", component, context)
    diameter, length = (_with_changes(there, changes)[index] for index in (0, 1))
    shaft, changed = shaft_of(diameter, length, value.where, context, room.figures[2:])
    return replace(
        component,
        shaft=shaft,
        front=tuple(changed if envelope is room else envelope for envelope in component.front),
    )


def _with_thickness(component: Component, value: Mapping, entry: Entry, context: EntryContext) -> Component:
    minimum, maximum = component.thickness or (0.0, 0.0)
    there = [
        Figure(name=name, value=number, sources=(), known=GIVEN.known)
        for name, number in (("minimum", minimum), ("maximum", maximum))
    ]
    changes = _written(value, there, "thickness", component, context)
    if component.thickness is None and len(changes) < 2:
        raise context.refuse(entry.key.where, said.no_thickness(component.name), of_parts.both_limits())
    minimum = changes["minimum"].value if "minimum" in changes else minimum
    maximum = changes["maximum"].value if "maximum" in changes else maximum
    if not 0 <= minimum <= maximum or maximum == 0:
        raise context.refuse(
            value.where,
            of_parts.sheet_range(minimum, maximum),
            of_parts.accepted_sheet_range(),
        )
    sheet = {f"sheet_{name}": replace(figure, name=f"sheet_{name}") for name, figure in changes.items()}
    openings = tuple(
        replace(opening, figures=tuple(sheet.get(figure.name, figure) for figure in opening.figures))
        for opening in component.openings
    )
    return replace(component, thickness=(minimum, maximum), openings=openings)


def _written(
    value: Mapping, there: Iterable[Figure], piece: str, component: Component, context: EntryContext
) -> dict[str, Figure]:
    """The figures written for a piece of the component, each one that is there to be changed."""
    known = {figure.name: figure for figure in there if figure.name not in _PLACE}
    drawn = {name for name in known if _is_dimension(name)}
    found: dict[str, Figure] = {}
    for entry in value.entries:
        name = entry.key.text
        if name not in drawn:
            unknown = said.unknown_dimension(name, piece, component.name)
            context.problems.add(entry.key.where, unknown, did_you_mean(name[:40], drawn, of_parts.dimensions()))
            continue
        written = table.SIZE.parse(entry.value, context.problems)
        if written is not None:
            figure = context.figure(name, written, GIVEN, UNITS.get(name, "mm"))
            if name not in ("turn", "passes_turn") and figure.value < 0:
                told = of_parts.dimension_is(name, figure.value)
                context.problems.add(entry.value.where, told, of_parts.zero_or_more())
                continue
            found[name] = figure
    if not found:
        raise UnusableError
    return found


def _is_dimension(name: str) -> bool:
    """Whether a figure is a dimension that can be changed, not a fact that goes with the part."""
    return name.removeprefix("passes_") in DIMENSIONS or name in ("projection", "depth", "minimum", "maximum")


def _with_changes(figures: Iterable[Figure], changes: MappingOf[str, Figure]) -> tuple[Figure, ...]:
    return tuple(changes.get(figure.name, figure) for figure in figures)


def _redrawn(figures: Iterable[Figure], where: Where, context: EntryContext) -> Contour:
    """The contour that these figures draw."""
    values = {figure.name: figure.value for figure in figures if _is_dimension(figure.name)}
    place = Vector(values.pop("x", 0.0), values.pop("y", 0.0))
    turn = values.pop("turn", 0.0)
    values.pop("projection", None)
    values.pop("depth", None)
    outline = outline_of(values)
    if outline is None:
        raise context.refuse(where, said.polygon_unchangeable(), said.define_part())
    try:
        drawn = outline.drawn(values)
    except ValueError as error:
        raise context.refuse(where, of_parts.invalid_shape(outline.key, said_by(error))) from None
    return drawn.turned(turn).moved(place) if turn else drawn.moved(place)
