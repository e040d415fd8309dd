"""A catalogue part with single dimensions changed in place: `{part: bnc, opening: {diameter: 12.9}}`.

    opening, fixing, locating   dimensions of the main opening (or openings), of the fixing and locating holes;
                                pitch_x and pitch_y between holes, x and y of one hole
    front, rear                 dimensions of an envelope, by what it is: front: {nut: {across_flats: 17}}
    shaft                       diameter, length
    thickness                   minimum, maximum
    motion                      rotation, electrical, turns, detents, travel, throw; phase or tab, ways

What is changed counts as the designer's own figure; the rest keeps its source.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from collections.abc import Mapping as MappingOf
from typing import Final

from msgspec.structs import replace

from panelart.catalogue import table
from panelart.catalogue.context import EITHER_SIGN, GIVEN, EntryContext, Standing, UnusableError
from panelart.catalogue.covering import uncovered
from panelart.catalogue.entries import shaft_of
from panelart.catalogue.motions import contradictions
from panelart.catalogue.outlines import DIMENSIONS, UNITS, outline_of
from panelart.catalogue.spacing import spaced, spacings
from panelart.catalogue.traits import ways_of
from panelart.diagnostics import Where, did_you_mean, one_of
from panelart.figure import Figure
from panelart.geometry import Contour, Vector
from panelart.messages import Message
from panelart.messages import catalogue as of_parts
from panelart.messages import catalogue_overrides as said
from panelart.messages import source as of_source
from panelart.messages.errors import said_by
from panelart.model.component import COUNTERSINK_ANGLE, COUNTERSINK_DIAMETER, Component, Envelope, Opening, Role
from panelart.model.motion import MotionKind
from panelart.source.nodes import Entry, Mapping, Node, Scalar
from panelart.source.problems import Problems

OVERRIDES: Final = ("opening", "fixing", "locating", "front", "rear", "shaft", "thickness", "motion")
"""The keys that may stand beside `part` where a catalogue part is used."""

_PLACE: Final = frozenset({"x", "y"})


class Changing(EntryContext, frozen=True, kw_only=True):
    """What dimensions are changed with: the standing of what is written; `blanks` are passed over, not refused."""

    above: Standing = GIVEN
    blanks: bool = False


def overridden(component: Component, node: Node, problems: Problems) -> Component | None:
    """The component with the dimensions in `node` changed; None when problems were added.

    `node` is the mapping written where the part is used; its key `part` is passed over.
    """
    context = Changing(sources={}, problems=problems)
    if not isinstance(node, Mapping):
        problems.add(node.where, of_source.found(node.found), said.overrides(OVERRIDES))
        return None
    before = len(problems)
    for entry in node.entries:
        key = entry.key.text
        if key == "part":
            continue
        if key not in OVERRIDES:
            hint = _inside_opening(component, entry) or did_you_mean(key[:40], OVERRIDES, of_parts.keys())
            problems.add(entry.key.where, said.unknown_override(key), hint)
            continue
        try:
            component = changed(component, key, entry.key.where, entry.value, context)
        except UnusableError:
            continue
    if len(problems) != before:
        return None
    bare = uncovered(component)
    if bare is not None:
        problems.add(node.where, *bare.told)
        return None
    return component


DIAMETER: Final = "diameter"
_HOLE: Final = frozenset({"hole", "cutout", "drill", "bore"})
_ROUND: Final = _HOLE | {"round", "circle", "dia", "size"}
"""What is written for the opening of a part, and for its diameter, by whoever does not know the key."""


def _inside_opening(component: Component, entry: Entry) -> Message | None:
    """What to write for a dimension of the opening that stands beside `part`: `opening: {diameter: 12.5}`."""
    if not component.openings or not isinstance(entry.value, Scalar):
        return None
    drawn = _changeable(component.openings[0].figures)
    name = entry.key.text if entry.key.text in drawn else DIAMETER
    if name not in drawn or entry.key.text not in drawn | _HOLE | _ROUND:
        return None
    return said.write_in_opening(name, entry.value.text[:_LONGEST])


_LONGEST: Final = 20
"""Characters of a written value that are repeated in what to write."""


def _diameter_meant(entry: Entry, drawn: Collection[str]) -> str | None:
    """The value that is written for a diameter by another word; None where none is."""
    meant = DIAMETER in drawn and entry.key.text in _ROUND and isinstance(entry.value, Scalar)
    return entry.value.text[:_LONGEST] if meant and isinstance(entry.value, Scalar) else None


def changed(component: Component, key: str, where: Where, value: Node, context: Changing) -> Component:
    """The component with what is written for one of OVERRIDES; the key stands at `where`. Raises UnusableError."""
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
            return _with_shaft(component, value, where, context)
        case "thickness":
            return _with_thickness(component, value, where, context)
        case "motion":
            return _with_motion(component, value, where, context)
        case _:
            return _with_openings(component, key, value, where, context)


def _with_openings(component: Component, key: str, value: Mapping, where: Where, context: Changing) -> Component:
    roles = {"fixing": Role.FIXING, "locating": Role.LOCATING}
    main = component.openings[0].role if component.openings else Role.BODY
    role = roles.get(key, main)
    there = tuple(opening for opening in component.openings if opening.role is role)
    if not there:
        raise context.refuse(where, *_no_openings(component, roles.get(key)))
    changes = _written(
        value,
        (figure for opening in there for figure in (*opening.figures, *_cone_figures(opening))),
        key,
        component,
        context,
        [spacing.key for spacing in spacings(there)],
    )
    openings = tuple(
        spaced(_opening(opening, changes, value.where, context), spacings(there), changes)
        if opening.role is role
        else opening
        for opening in component.openings
    )
    return replace(component, openings=openings)


_CONE: Final = {COUNTERSINK_DIAMETER: "countersink_diameter", COUNTERSINK_ANGLE: "countersink_angle"}
"""Keys of a countersink, by the names of its figures."""


def _cone_figures(opening: Opening) -> tuple[Figure, ...]:
    """The figures of a countersink by their keys."""
    return tuple(replace(figure, name=_CONE[figure.name]) for figure in opening.figures if figure.name in _CONE)


def _sunk(opening: Opening, changes: MappingOf[str, Figure]) -> Opening:
    """An opening with its countersink changed."""
    found = {name: changes[key] for name, key in _CONE.items() if key in changes}
    if opening.countersink is None or not found:
        return opening
    values = {name.removeprefix("countersink "): figure.value for name, figure in found.items()}
    return replace(
        opening,
        countersink=replace(opening.countersink, **values),
        figures=tuple(
            replace(found[figure.name], name=figure.name) if figure.name in found else figure
            for figure in opening.figures
        ),
    )


def _no_openings(component: Component, role: Role | None) -> tuple[Message, Message]:
    there = sorted({opening.role.value for opening in component.openings})
    if role is None:
        return said.no_openings(component.name), said.define_part()
    return said.no_openings_of_role(component.name, role.value), said.roles_of_openings(there)


def _opening(opening: Opening, changes: MappingOf[str, Figure], where: Where, context: Changing) -> Opening:
    opening = _sunk(opening, changes)
    changes = {name: figure for name, figure in changes.items() if _is_dimension(name)}
    figures = _with_changes(opening.figures, changes)
    passes = opening.passes
    if passes is not None and any(_goes_through(name) for name in changes):
        passes = _redrawn(_through(figures), where, context)
    contour = opening.contour
    if not all(_goes_through(name) for name in changes):
        contour = _redrawn((figure for figure in figures if not _goes_through(figure.name)), where, context)
    return replace(opening, contour=contour, figures=figures, passes=passes)


def _goes_through(name: str) -> bool:
    """Whether a figure is of what goes through an opening, not of the opening."""
    return name.startswith("passes_")


def _through(figures: Sequence[Figure]) -> tuple[Figure, ...]:
    """The figures that draw what goes through an opening: its own sizes, turned and placed as the opening is."""
    own = (figure for figure in figures if _goes_through(figure.name))
    turn_and_place = (figure for figure in figures if figure.name in ("turn", "x", "y"))
    return (*(replace(figure, name=figure.name.removeprefix("passes_")) for figure in own), *turn_and_place)


def _envelopes(
    envelopes: tuple[Envelope, ...],
    value: Mapping,
    missing: Callable[[str, str], Message],
    component: Component,
    context: Changing,
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


def _envelope(envelope: Envelope, changes: MappingOf[str, Figure], where: Where, context: Changing) -> Envelope:
    figures = _with_changes(envelope.figures, changes)
    reach = next((changes[name].value for name in ("projection", "depth") if name in changes), envelope.height)
    shape_changed = any(name not in ("projection", "depth") for name in changes)
    contour = _redrawn(figures, where, context) if shape_changed else envelope.contour
    return replace(envelope, contour=contour, height=reach, figures=figures)


def _with_shaft(component: Component, value: Mapping, where: Where, context: Changing) -> Component:
    if component.shaft is None:
        raise context.refuse(where, said.no_shaft(component.name), said.change_knob())
    room = next(envelope for envelope in component.front if envelope.what == "shaft")
    there = [figure if figure.name != "projection" else replace(figure, name="length") for figure in room.figures]
    changes = _written(value, there, "shaft", component, context)
    if not changes:
        return component
    diameter, length = (_with_changes(there, changes)[index] for index in (0, 1))
    shaft, changed = shaft_of(diameter, length, value.where, context, room.figures[2:])
    return replace(
        component,
        shaft=shaft,
        front=tuple(changed if envelope is room else envelope for envelope in component.front),
    )


def _with_thickness(component: Component, value: Mapping, where: Where, context: Changing) -> Component:
    there = [
        Figure(name=name, value=number, sources=(), known=GIVEN.known)
        for name, number in zip(("minimum", "maximum"), component.thickness or (0.0, 0.0), strict=True)
    ]
    changes = _written(value, there, "thickness", component, context)
    if not changes:
        return component
    if component.thickness is None and len(changes) < 2:
        raise context.refuse(where, said.no_thickness(component.name), of_parts.both_limits())
    minimum, maximum = (figure.value for figure in _with_changes(there, changes))
    if not 0 <= minimum <= maximum or maximum == 0:
        raise context.refuse(
            value.where,
            of_parts.sheet_range(minimum, maximum),
            of_parts.accepted_sheet_range(),
        )
    return replace(component, thickness=(minimum, maximum), openings=_for_sheet(component.openings, changes))


def _for_sheet(openings: Iterable[Opening], changes: MappingOf[str, Figure]) -> tuple[Opening, ...]:
    """Openings with what their figures say of the sheet changed."""
    sheet = {f"sheet_{name}": replace(figure, name=f"sheet_{name}") for name, figure in changes.items()}
    return tuple(replace(opening, figures=_with_changes(opening.figures, sheet)) for opening in openings)


_MOTIONS: Final = {"rotation": "deg", "electrical": "deg", "turns": "", "detents": "", "travel": "mm", "throw": "deg"}
"""The figures of a motion that can be changed, each with its unit."""


def _with_motion(component: Component, value: Mapping, where: Where, context: Changing) -> Component:
    if component.motion.kind is MotionKind.NONE:
        raise context.refuse(where, said.no_motion(component.name), said.define_part())
    figures = tuple(entry for entry in value.entries if entry.key.text not in _LAID)
    there = [Figure(name=name, value=0.0, sources=(), known=GIVEN.known) for name in _MOTIONS]
    changes: dict[str, object] = {}
    if figures or not value.entries:
        of_figures = replace(value, entries=figures)
        changes |= _written(of_figures, there, "motion", component, context, (*_MOTIONS, *_LAID))
    changes |= _laid(value, context)
    if "electrical" in changes:
        # What was measured is the angle of the part in hand, whatever its law.
        changes["tapers"] = ()
    made = replace(component.motion, **changes)
    places = {entry.key.text: entry.value.where for entry in value.entries}
    refused = [context.refuse(places.get(one.key, value.where), one.says, one.accepts) for one in contradictions(made)]
    if refused:
        raise refused[0]
    return replace(component, motion=made)


_HELD: Final = (table.PHASE.name, table.TAB.name)
"""What says how the body of a control is kept from turning; one takes the place of the other."""

_LAID: Final = (*_HELD, table.WAYS.name)
"""What says where the positions of a control lie."""


def _laid(value: Mapping, context: Changing) -> dict[str, object]:
    """The phase or tab and the ways of turning that are written; a blank of a form is passed over.

    Raises UnusableError.
    """
    found: dict[str, object] = {}
    for entry in value.entries:
        blank = context.blanks and isinstance(entry.value, Scalar) and entry.value.empty
        if entry.key.text not in _LAID or blank:
            continue
        if entry.key.text in _HELD:
            angle = table.AMOUNT.parse(entry.value, context.problems)
            if angle is None:
                raise UnusableError
            for other in _HELD:
                found.setdefault(other, None)
            found[entry.key.text] = context.number(angle)
        else:
            ways = table.WAYS.kind.parse(entry.value, context.problems)
            if ways is None:
                raise UnusableError
            found[table.WAYS.name] = ways_of(ways, context.above, context)
    return found


def _written(
    value: Mapping,
    there: Iterable[Figure],
    piece: str,
    component: Component,
    context: Changing,
    more: Collection[str] = (),
) -> dict[str, Figure]:
    """The figures written for a piece of the component, each one that is there to be changed or among `more`.

    None where all are blanks of a form. Raises UnusableError where none could be read.
    """
    drawn = _changeable(there).union(more)
    found: dict[str, Figure] = {}
    blank = 0
    for entry in value.entries:
        name = entry.key.text
        if name not in drawn:
            unknown = said.unknown_dimension(name, piece, component.name)
            meant = _diameter_meant(entry, drawn)
            hint = one_of(name[:40], sorted(drawn)) if meant is None else said.write_dimension(DIAMETER, meant)
            context.problems.add(entry.key.where, unknown, hint)
            continue
        if context.blanks and _is_blank(entry.value):
            blank += 1
            continue
        figure = _read(name, entry.value, context)
        if figure is not None:
            found[name] = figure
    if not found and not blank:
        raise UnusableError
    return found


def _changeable(figures: Iterable[Figure]) -> frozenset[str]:
    """The names of the dimensions that may be changed; places are changed by their spacing."""
    names = {figure.name for figure in figures} - _PLACE
    return frozenset(name for name in names if _is_dimension(name) or name in _CONE.values())


def _is_blank(value: Node) -> bool:
    """Whether a line of a form is not filled in."""
    return isinstance(value, Scalar) and value.empty


def _read(name: str, value: Node, context: Changing) -> Figure | None:
    """The figure written for a dimension; None when a problem was added: it is no size, or less than nothing."""
    written = table.SIZE.parse(value, context.problems)
    if written is None:
        return None
    figure = context.figure(name, written, context.above, _unit(name))
    if name not in EITHER_SIGN and figure.value < 0:
        context.problems.add(value.where, of_parts.dimension_is(name, figure.value), of_parts.zero_or_more())
        return None
    return figure


def _unit(name: str) -> str:
    return "deg" if name == "countersink_angle" else _MOTIONS.get(name, UNITS.get(name, "mm"))


def _is_dimension(name: str) -> bool:
    """Whether a figure is a dimension that can be changed, not a fact that goes with the part."""
    return name.removeprefix("passes_") in DIMENSIONS or name in ("projection", "depth", "minimum", "maximum")


def _with_changes(figures: Iterable[Figure], changes: MappingOf[str, Figure]) -> tuple[Figure, ...]:
    return tuple(changes.get(figure.name, figure) for figure in figures)


def _redrawn(figures: Iterable[Figure], where: Where, context: Changing) -> Contour:
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
