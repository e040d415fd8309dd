"""A catalogue part with single dimensions changed in place: `{part: bnc, opening: {diameter: 12.9}}`.

    opening, fixing, locating   dimensions of the main opening (or openings), of the fixing and locating holes
    front, rear                 dimensions of an envelope, by what it is: front: {nut: {across_flats: 17}}
    shaft                       diameter, length
    thickness                   least, most

What is changed stands as the designer's own figure; the rest keeps its source.
"""

from __future__ import annotations

from collections.abc import Iterable
from collections.abc import Mapping as MappingOf
from dataclasses import replace
from typing import Final

from panelart.catalogue import table
from panelart.catalogue.entries import GIVEN, Bench, UnusableError, shaft_of
from panelart.catalogue.outlines import DIMENSIONS, UNITS, outline_of
from panelart.diagnostics import Where, did_you_mean
from panelart.geometry import Contour, Vector
from panelart.model.component import Component, Envelope, Figure, Opening, Role
from panelart.source.nodes import Entry, Mapping, Node
from panelart.source.problems import Problems

OVERRIDES: Final = ("opening", "fixing", "locating", "front", "rear", "shaft", "thickness")
"""The keys that may stand beside `part` where a catalogue part is used."""

_PLACE: Final = frozenset({"x", "y"})


def overridden(component: Component, node: Node, problems: Problems) -> Component | None:
    """The component with the dimensions in `node` changed; None when problems were added.

    `node` is the mapping written where the part is used; its key `part` is passed over.
    """
    bench = Bench(sources={}, problems=problems)
    if not isinstance(node, Mapping):
        problems.add(node.where, f"found {node.found}", f"accepted: a mapping with {', '.join(OVERRIDES)}")
        return None
    before = len(problems)
    for entry in node.entries:
        key = entry.key.text
        if key == "part":
            continue
        if key not in OVERRIDES:
            hint = did_you_mean(key[:40], OVERRIDES, "dimensions to change")
            problems.add(entry.key.where, f"a part has no '{key[:40]}' to change", hint)
            continue
        try:
            component = _changed(component, key, entry, bench)
        except UnusableError:
            continue
    return component if len(problems) == before else None


def _changed(component: Component, key: str, entry: Entry, bench: Bench) -> Component:
    value = entry.value
    if not isinstance(value, Mapping):
        raise bench.refuse(value.where, f"found {value.found}", f"accepted: dimensions, {key}: {{name: value}}")
    match key:
        case "front":
            return replace(component, front=_envelopes(component.front, value, "front of", component, bench))
        case "rear":
            return replace(component, rear=_envelopes(component.rear, value, "rear of", component, bench))
        case "shaft":
            return _with_shaft(component, value, entry, bench)
        case "thickness":
            return _with_thickness(component, value, entry, bench)
        case _:
            return _with_openings(component, key, value, entry, bench)


def _with_openings(component: Component, key: str, value: Mapping, entry: Entry, bench: Bench) -> Component:
    roles = {"fixing": Role.FIXING, "locating": Role.LOCATING}
    main = component.openings[0].role if component.openings else Role.BODY
    role = roles.get(key, main)
    if not any(opening.role is role for opening in component.openings):
        raise bench.refuse(entry.key.where, f"'{component.name}' has no {key}", _openings_there(component))
    changes = _written(
        value,
        (figure for opening in component.openings if opening.role is role for figure in opening.figures),
        f"the {key} of '{component.name}'",
        bench,
    )
    openings = tuple(
        _opening(opening, changes, value.where, bench) if opening.role is role else opening
        for opening in component.openings
    )
    return replace(component, openings=openings)


def _openings_there(component: Component) -> str:
    there = sorted({opening.role.value for opening in component.openings})
    return f"it has openings for: {', '.join(there)}" if there else "it has no openings"


def _opening(opening: Opening, changes: MappingOf[str, Figure], where: Where, bench: Bench) -> Opening:
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
        passes = _redrawn([*through, *turn_and_place], where, bench)
    contour = opening.contour
    if any(not name.startswith("passes_") for name in changes):
        contour = _redrawn(plain, where, bench)
    return replace(opening, contour=contour, figures=figures, passes=passes)


def _envelopes(
    envelopes: tuple[Envelope, ...], value: Mapping, side: str, component: Component, bench: Bench
) -> tuple[Envelope, ...]:
    made = envelopes
    whats = tuple(dict.fromkeys(envelope.what for envelope in envelopes))
    for entry in value.entries:
        what = entry.key.text
        if what not in whats:
            hint = did_you_mean(what[:40], whats, f"envelopes at the {side} '{component.name}'")
            bench.problems.add(entry.key.where, f"there is no '{what[:40]}' at the {side} '{component.name}'", hint)
            continue
        if not isinstance(entry.value, Mapping):
            bench.problems.add(entry.value.where, f"found {entry.value.found}", f"accepted: {what}: {{name: value}}")
            continue
        try:
            changes = _written(
                entry.value,
                (figure for envelope in envelopes if envelope.what == what for figure in envelope.figures),
                f"the {what} of '{component.name}'",
                bench,
            )
            made = tuple(
                _envelope(envelope, changes, entry.value.where, bench) if envelope.what == what else envelope
                for envelope in made
            )
        except UnusableError:
            continue
    return made


def _envelope(envelope: Envelope, changes: MappingOf[str, Figure], where: Where, bench: Bench) -> Envelope:
    figures = _with_changes(envelope.figures, changes)
    reach = next((changes[name].value for name in ("projection", "depth") if name in changes), envelope.height)
    shape_changed = any(name not in ("projection", "depth") for name in changes)
    contour = _redrawn(figures, where, bench) if shape_changed else envelope.contour
    return replace(envelope, contour=contour, height=reach, figures=figures)


def _with_shaft(component: Component, value: Mapping, entry: Entry, bench: Bench) -> Component:
    if component.shaft is None:
        raise bench.refuse(
            entry.key.where, f"'{component.name}' has no shaft", "give the knob's own dimensions instead"
        )
    room = next(envelope for envelope in component.front if envelope.what == "shaft")
    there = [figure if figure.name != "projection" else replace(figure, name="length") for figure in room.figures]
    changes = _written(value, there, f"the shaft of '{component.name}'", bench)
    diameter, length = (_with_changes(there, changes)[index] for index in (0, 1))
    shaft, changed = shaft_of(diameter, length, value.where, bench, room.figures[2:])
    return replace(
        component,
        shaft=shaft,
        front=tuple(changed if envelope is room else envelope for envelope in component.front),
    )


def _with_thickness(component: Component, value: Mapping, entry: Entry, bench: Bench) -> Component:
    minimum, maximum = component.thickness or (0.0, 0.0)
    there = [
        Figure(name=name, value=number, source="", known=GIVEN.known)
        for name, number in (("minimum", minimum), ("maximum", maximum))
    ]
    changes = _written(value, there, f"the thickness of '{component.name}'", bench)
    if component.thickness is None and len(changes) < 2:
        raise bench.refuse(entry.key.where, f"'{component.name}' states no thickness", "accepted: both least and most")
    minimum = changes["minimum"].value if "minimum" in changes else minimum
    maximum = changes["maximum"].value if "maximum" in changes else maximum
    if not 0 <= minimum <= maximum or maximum == 0:
        raise bench.refuse(
            value.where,
            f"the sheet it fits runs from {minimum:g} to {maximum:g}",
            "accepted: least at least 0, most more than 0 and no smaller than least",
        )
    sheet = {f"sheet_{name}": replace(figure, name=f"sheet_{name}") for name, figure in changes.items()}
    openings = tuple(
        replace(opening, figures=tuple(sheet.get(figure.name, figure) for figure in opening.figures))
        for opening in component.openings
    )
    return replace(component, thickness=(minimum, maximum), openings=openings)


def _written(value: Mapping, there: Iterable[Figure], whose: str, bench: Bench) -> dict[str, Figure]:
    """The figures written, each one that is there to be changed."""
    known = {figure.name: figure for figure in there if figure.name not in _PLACE}
    drawn = {name for name in known if _is_dimension(name)}
    found: dict[str, Figure] = {}
    for entry in value.entries:
        name = entry.key.text
        if name not in drawn:
            bench.problems.add(
                entry.key.where, f"{whose} has no '{name[:40]}'", did_you_mean(name[:40], drawn, "dimensions")
            )
            continue
        written = table.SIZE.parse(entry.value, bench.problems)
        if written is not None:
            figure = bench.figure(name, written, GIVEN, UNITS.get(name, "mm"))
            if name not in ("turn", "passes_turn") and figure.value < 0:
                bench.problems.add(entry.value.where, f"{name} is {figure.value:g}", "accepted: at least 0")
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


def _redrawn(figures: Iterable[Figure], where: Where, bench: Bench) -> Contour:
    """The contour that these figures draw."""
    values = {figure.name: figure.value for figure in figures if _is_dimension(figure.name)}
    place = Vector(values.pop("x", 0.0), values.pop("y", 0.0))
    turn = values.pop("turn", 0.0)
    values.pop("projection", None)
    values.pop("depth", None)
    outline = outline_of(values)
    if outline is None:
        raise bench.refuse(where, "a shape given by its points cannot be changed here", "define the part anew")
    try:
        drawn = outline.drawn(values)
    except ValueError as error:
        raise bench.refuse(where, f"this makes no {outline.key}: {error}") from None
    return drawn.turned(turn).moved(place) if turn else drawn.moved(place)
