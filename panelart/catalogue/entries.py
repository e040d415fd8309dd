"""From the fields of a catalogue file to components: rows worked out, shapes drawn, every figure with its standing.

A figure's name is that of its dimension: `diameter`, `across_flats`; `x` and `y` for its place; `passes_diameter` for
what goes through; `projection` and `depth` for how far an envelope stands out; `sheet_minimum` and `sheet_maximum`,
kept with the first opening, for the thickness range. All but an angle (`deg`) and a fact with a unit of its own are in
mm.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.catalogue import table, traits
from panelart.catalogue.cautions import CAUTIONS
from panelart.catalogue.context import (
    EntryContext,
    Pieces,
    Standing,
    UnusableError,
    each,
    figure_of,
    line_of,
    lines_of,
)
from panelart.catalogue.covering import uncovered
from panelart.catalogue.knobs import KnobEntry
from panelart.catalogue.outlines import OUTLINES, UNITS, Outline
from panelart.diagnostics import Where, did_you_mean
from panelart.figure import Figure
from panelart.geometry import ORIGIN, Contour, Point, Vector, circle, polygon
from panelart.messages import catalogue as said
from panelart.messages.errors import said_by
from panelart.model.component import (
    BARE_METAL,
    COUNTERSINK_ANGLE,
    COUNTERSINK_DIAMETER,
    EDGE_DISTANCE,
    Component,
    Countersink,
    Envelope,
    EnvelopeRole,
    Fastening,
    Hardware,
    Opening,
    Role,
    Shaft,
)
from panelart.model.look import FaceDetail
from panelart.source.schema import Field, Fields, Value, decimal

MAX_PLACES: Final = 10_000
"""The maximum of openings in one pattern: a vent of 100 x 100 holes."""

CONE_ANGLES: Final = (30.0, 150.0)
"""The full angles, in degrees, of a countersink."""


def component(fields: Fields, name: str, family: str, above: Standing, context: EntryContext) -> Component:
    """One component from the fields of a part, or of a family and the row on the context.

    Raises UnusableError when what is written makes no component; why is among the problems.
    """
    standing = context.standing(fields, above)
    pieces = Pieces()
    with pieces:
        thickness, sheet = _thickness(fields, standing, context)
    with pieces:
        openings = _openings(fields, standing, context)
    with pieces:
        facts = _facts(fields, standing, context)
    with pieces:
        shaft, turning = _shaft(fields, standing, context)
    with pieces:
        front = _envelopes(fields, table.FRONT, table.PROJECTION, standing, context)
    with pieces:
        rear = _envelopes(fields, table.REAR, table.DEPTH, standing, context)
    with pieces:
        motion, positions = traits.motion(fields, standing, context), _positions(fields, context)
    with pieces:
        circuit, look = traits.circuit(fields, standing, context), traits.look(fields, standing, context, _details)
    with pieces:
        fasteners, board = traits.fasteners(fields, standing, context), traits.board(fields, standing, context)
    with pieces:
        mass = traits.mass(fields, standing, context)
    with pieces:
        cautions = _cautions(fields, context)
    with pieces:
        hardware, fastened = _hardware(fields, standing, context)
    pieces.raise_any()
    legend_at, latch = fields[table.LEGEND_AT], fields[table.LATCH]
    made = Component(
        name=name,
        title=line_of(fields, table.TITLE, context) or name,
        family=line_of(fields, table.FAMILY_NAME, context) or family,
        openings=traits.proved(fields, openings, context),
        front=(*front, *turning),
        rear=rear,
        thickness=thickness,
        standard=line_of(fields, table.STANDARD, context),
        shaft=shaft,
        motion=motion,
        positions=positions,
        cautions=cautions,
        words=lines_of(fields[table.WORDS], context),
        note=line_of(fields, table.NOTE, context),
        legend_origin=ORIGIN if legend_at is None else Point(*context.pair(legend_at)),
        hardware=hardware,
        latch="" if latch is None else context.word(latch, table.DIRECTIONS),
        circuit=circuit,
        look=look,
        fasteners=fasteners,
        board=board,
        mass=mass,
    )
    bare = uncovered(made)
    if bare is not None:
        raise context.refuse(_where_of(fields, bare.what), *bare.told)
    return _with_facts(made, (*sheet, *facts, *fastened))


def _where_of(fields: Fields, what: str) -> Where:
    """Where what lies on the face is in the file, or the part where a column names it."""
    return next((item.where for item in fields[table.FRONT] or () if item.value[table.WHAT] == what), fields.place)


def _with_facts(component: Component, facts: tuple[Figure, ...]) -> Component:
    """The facts kept with the first opening, or the first front envelope of a part that has none."""
    if not facts:
        return component
    if component.openings:
        first, *others = component.openings
        return replace(component, openings=(replace(first, figures=(*first.figures, *facts)), *others))
    if component.front:
        nearest, *rest = component.front
        return replace(component, front=(replace(nearest, figures=(*nearest.figures, *facts)), *rest))
    return component


def rows(fields: Fields, context: EntryContext) -> list[tuple[str, EntryContext, Where]]:
    """The name of each entry of a family, a context with its row, and where the row stands."""
    sizes = fields[table.SIZES]
    pattern = fields[table.ENTRY_NAME]
    columns = None if sizes is None else sizes[table.COLUMNS]
    listed = None if sizes is None else sizes[table.ROWS]
    if sizes is None or pattern is None or columns is None or listed is None:
        return []
    names = [column.value for column in columns]
    made: list[tuple[str, EntryContext, Where]] = []
    for row in listed:
        of_row = _bench_of(row, names, context)
        if of_row is None:
            continue
        try:
            name = of_row.text(pattern, fields.where(table.ENTRY_NAME))
        except UnusableError:
            return []
        if re.fullmatch(table.NAME_PATTERN, name) is None:
            context.problems.add(row.where, said.row_name(name), said.accepted(table.NAME.form))
            continue
        made.append((name, replace(of_row, entry=name), row.where))
    return made


def _bench_of(row: Value[tuple[Value[str], ...]], columns: list[str], context: EntryContext) -> EntryContext | None:
    """A context with the cells of a row; None where they are not as many as the columns."""
    if len(row.value) != len(columns):
        context.problems.add(
            row.where,
            said.row_length(count=len(row.value), columns=len(columns)),
            said.accepted_row(columns),
        )
        return None
    cells = {column: cell.value for column, cell in zip(columns, row.value, strict=True)}
    numbers = {column: value for column, text in cells.items() if (value := decimal(text)) is not None}
    return replace(context, row=cells, numbers=numbers)


def knob(fields: Fields, name: str, above: Standing, context: EntryContext) -> KnobEntry:
    """One knob. Raises UnusableError as `component` does."""
    standing = context.standing(fields, above)
    diameter = figure_of(fields, table.KNOB_DIAMETER, standing, context)
    height = figure_of(fields, table.KNOB_HEIGHT, standing, context)
    bore = fields[table.KNOB_BORE]
    pointer = fields[table.POINTER]
    figures = [diameter, height]
    if bore is not None:
        figures.append(context.figure("bore", bore, standing))
    for figure, dimension in zip(figures, (table.KNOB_DIAMETER, table.KNOB_HEIGHT, table.KNOB_BORE), strict=False):
        if figure.value <= 0:
            raise context.refuse(
                fields.where(dimension), said.dimension_is(figure.name, figure.value), said.more_than_zero()
            )
    return KnobEntry(
        name=name,
        title=line_of(fields, table.TITLE, context) or name,
        family=line_of(fields, table.FAMILY_NAME, context) or name,
        diameter=diameter.value,
        height=height.value,
        bore=figures[2].value if len(figures) == 3 else None,
        pointer="none" if pointer is None else context.word(pointer, table.POINTERS),
        words=lines_of(fields[table.WORDS], context),
        note=line_of(fields, table.NOTE, context),
        figures=tuple(figures),
    )


def _positions(fields: Fields, context: EntryContext) -> tuple[str, ...]:
    listed = fields[table.POSITIONS] or ()
    return tuple(word for item in listed if (word := context.word(item.value, table.DIRECTIONS)))


def _cautions(fields: Fields, context: EntryContext) -> tuple[str, ...]:
    keys = []
    for item in fields[table.CAUTIONS] or ():
        key = context.text(item.value, item.where)
        if key and key not in CAUTIONS:
            raise context.refuse(item.where, said.unknown_caution(key), did_you_mean(key, CAUTIONS, said.cautions()))
        if key:
            keys.append(key)
    return tuple(keys)


def _thickness(
    fields: Fields, above: Standing, context: EntryContext
) -> tuple[tuple[float, float] | None, tuple[Figure, ...]]:
    record = fields[table.THICKNESS]
    if record is None:
        return None, ()
    standing = context.standing(record, above)
    minimum = replace(figure_of(record, table.MINIMUM, standing, context), name="sheet_minimum")
    maximum = replace(figure_of(record, table.MAXIMUM, standing, context), name="sheet_maximum")
    if not 0 <= minimum.value <= maximum.value or maximum.value == 0:
        raise context.refuse(
            record.place,
            said.sheet_range(minimum.value, maximum.value),
            said.accepted_sheet_range(),
        )
    return (minimum.value, maximum.value), (minimum, maximum)


def _facts(fields: Fields, above: Standing, context: EntryContext) -> tuple[Figure, ...]:
    def fact(written: Fields) -> tuple[Figure, ...]:
        what = line_of(written, table.WHAT, context)
        return (context.figure(what, written, above, unit=line_of(written, table.FACT_UNIT, context)),)

    return each(fields[table.FACTS], fact)


def _hardware(fields: Fields, above: Standing, context: EntryContext) -> tuple[Hardware | None, tuple[Figure, ...]]:
    """How it is fastened, and its figures, named as facts are: in words."""
    record = fields[table.HARDWARE]
    if record is None:
        return None, ()
    standing = context.standing(record, above)
    fastening = record[table.FASTENING]
    if fastening is None:
        raise UnusableError
    figures: dict[str, Figure] = {}
    for dimension, name in ((table.EDGE, EDGE_DISTANCE), (table.PAD, BARE_METAL)):
        written = record[dimension]
        if written is None and record.written(dimension):
            raise UnusableError
        if written is not None:
            figure = context.figure(name, written, standing)
            if figure.value <= 0:
                told = said.dimension_is(dimension.name, figure.value)
                raise context.refuse(record.where(dimension), told, said.more_than_zero())
            figures[dimension.name] = figure
    edge, pad = figures.get(table.EDGE.name), figures.get(table.PAD.name)
    made = Hardware(
        fastening=Fastening(context.word(fastening, table.FASTENINGS)),
        thread=line_of(record, table.THREAD, context),
        edge=None if edge is None else edge.value,
        pad=0.0 if pad is None else pad.value,
    )
    return made, tuple(figures.values())


def _shaft(fields: Fields, above: Standing, context: EntryContext) -> tuple[Shaft | None, tuple[Envelope, ...]]:
    """The shaft, and the room it takes in front of the face."""
    record = fields[table.SHAFT]
    if record is None:
        return None, ()
    standing = context.standing(record, above)
    diameter = figure_of(record, table.SHAFT_DIAMETER, standing, context)
    length = figure_of(record, table.SHAFT_LENGTH, standing, context)
    shaft, room = shaft_of(diameter, length, record.place, context)
    return shaft, (room,)


def shaft_of(
    diameter: Figure, length: Figure, where: Where, context: EntryContext, more: tuple[Figure, ...] = ()
) -> tuple[Shaft, Envelope]:
    """A shaft and the room it takes in front of the face; `more` are further figures of that room."""
    if diameter.value <= 0 or length.value <= 0:
        raise context.refuse(where, said.shaft_size(diameter.value, length.value), said.both_more_than_zero())
    room = Envelope(
        what="shaft",
        contour=circle(diameter.value),
        height=length.value,
        figures=(diameter, replace(length, name="projection"), *more),
        covers=False,
        role=EnvelopeRole.ACTUATOR,
    )
    return Shaft(diameter=diameter.value, length=length.value), room


class _Drawn(Struct, frozen=True, kw_only=True):
    """A shape about its own centre, and its figures."""

    contour: Contour
    figures: tuple[Figure, ...]


def _drawn(fields: Fields, above: Standing, context: EntryContext) -> _Drawn:
    """The one shape that a record names."""
    field, outline = _named_shape(fields, context)
    record = fields[field]
    if not isinstance(record, Fields):
        raise UnusableError
    if outline is None:
        return _polygon(record, above, context)
    figures = _sizes(record, outline, above, context)
    if not {figure.name for figure in figures}.issuperset(outline.needed):
        raise UnusableError
    try:
        contour = outline.drawn({figure.name: figure.value for figure in figures})
    except ValueError as error:
        raise context.refuse(record.place, said.invalid_shape(outline.key, said_by(error))) from None
    return _Drawn(contour=contour, figures=tuple(figures))


def _named_shape(fields: Fields, context: EntryContext) -> tuple[Field[object] | Field[Fields], Outline | None]:
    """The key of the one shape that is written, and its outline; a polygon has none of its own."""
    named: list[tuple[Field[object] | Field[Fields], Outline | None]] = [
        (table.SHAPES[outline.key], outline) for outline in OUTLINES if fields.written(table.SHAPES[outline.key])
    ]
    if fields.written(table.POLYGON):
        named.append((table.POLYGON, None))
    accepted = said.one_shape((*table.SHAPES, table.POLYGON.name))
    if not named and fields.unknown:
        raise UnusableError  # a shape by another name, most likely, and told
    if not named:
        raise context.refuse(fields.place, said.no_shape(fields.record.name), accepted)
    if len(named) > 1:
        second = named[1][0]
        raise context.refuse(fields.key_where(second), said.second_shape(second.name, named[0][0].name), accepted)
    return named[0]


def _sizes(record: Fields, outline: Outline, above: Standing, context: EntryContext) -> list[Figure]:
    """The dimensions of a shape as they are written, none of them too small to be one."""
    figures: list[Figure] = []
    for dimension in record.record.fields:
        written = record[dimension]
        if written is None and record.written(dimension):
            raise UnusableError
        if written is not None:
            unit = UNITS.get(dimension.name, "mm")
            figure = context.figure(dimension.name, written, above, unit)
            if figure.value < 0 or (figure.value == 0 and dimension.name in outline.sizes):
                minimum = said.more_than_zero() if dimension.name in outline.sizes else said.zero_or_more()
                told = said.dimension_is(dimension.name, figure.value)
                raise context.refuse(record.where(dimension), told, minimum)
            figures.append(figure)
    return figures


def _polygon(record: Fields, above: Standing, context: EntryContext) -> _Drawn:
    points = record[table.POINTS]
    if points is None:
        raise UnusableError
    corner = record[table.CORNER]
    figures = () if corner is None else (context.figure("radius", corner, above),)
    try:
        contour = polygon(
            [Point(*context.pair(point.value)) for point in points], corner=figures[0].value if figures else 0.0
        )
    except ValueError as error:
        raise context.refuse(record.place, said.invalid_shape(table.POLYGON.name, said_by(error))) from None
    return _Drawn(contour=contour, figures=figures)


def _turned(drawn: _Drawn, fields: Fields, standing: Standing, context: EntryContext) -> _Drawn:
    turn = fields[table.TURN]
    if turn is None:
        return drawn
    figure = context.figure("turn", turn, standing, unit="deg")
    if not figure.value:
        return drawn
    return _Drawn(contour=drawn.contour.turned(figure.value), figures=(*drawn.figures, figure))


def _places(fields: Fields, context: EntryContext) -> tuple[Point, ...]:
    """Where the shape stands, once or many times."""
    at, places = fields[table.AT], fields[table.PLACES]
    corners, grid = fields[table.CORNERS], fields[table.GRID]
    written = [field.name for field in (table.AT, table.PLACES, table.CORNERS, table.GRID) if fields.written(field)]
    if len(written) > 1:
        raise context.refuse(
            fields.place,
            said.several_places(fields.record.name, written),
            said.one_kind_of_place(),
        )
    if at is not None:
        return (Point(*context.pair(at)),)
    if places is not None:
        return tuple(Point(*context.pair(place.value)) for place in places)
    if corners is not None:
        x, y = context.pair(corners)
        return Point(-x, -y), Point(x, -y), Point(x, y), Point(-x, y)
    if grid is not None:
        return _grid(grid, context)
    if written:
        raise UnusableError
    return (ORIGIN,)


def _grid(grid: Fields, context: EntryContext) -> tuple[Point, ...]:
    """Rows from the bottom up, each from left to right, the whole centred on the part."""
    count, step = grid[table.COUNT], grid[table.STEP]
    if count is None or step is None:
        raise UnusableError
    columns, lines = context.pair(count)
    if not (columns.is_integer() and lines.is_integer() and 1 <= columns * lines <= MAX_PLACES):
        raise context.refuse(
            grid.where(table.COUNT),
            said.grid_count(columns, lines),
            said.accepted_grid(maximum=MAX_PLACES),
        )
    across, up = context.pair(step)
    fewer = 1 if grid[table.STAGGERED] else 0
    within = grid[table.WITHIN]
    reach = math.inf if within is None else context.number(within) / 2
    crossings = _crossings(columns, lines, across, up, fewer)
    kept = tuple(place for place in crossings if place.distance(ORIGIN) <= reach)
    if not kept:
        raise context.refuse(grid.place, said.grid_outside_circle(), said.enlarge_circle())
    return kept


def _crossings(columns: float, lines: float, across: float, up: float, fewer: int) -> Iterator[Point]:
    """The places of a grid about its centre; every other line has so many fewer."""
    for line in range(int(lines)):
        missing = fewer * (line % 2)
        for column in range(int(columns) - missing):
            yield Point(
                round((column - (columns - 1 - missing) / 2) * across, 6),
                round((line - (lines - 1) / 2) * up, 6),
            )


def _at(place: Point, standing: Standing, tolerance: tuple[float, float] | None = None) -> tuple[Figure, ...]:
    """The place of a shape that is not at the centre, as figures."""
    if place == ORIGIN:
        return ()
    return tuple(
        Figure(name=name, value=value, sources=standing.sources, known=standing.known, tolerance=tolerance)
        for name, value in (("x", place.x), ("y", place.y))
    )


def _openings(fields: Fields, above: Standing, context: EntryContext) -> tuple[Opening, ...]:
    return each(fields[table.OPENINGS], lambda written: _same_openings(written, above, context))


def _same_openings(written: Fields, above: Standing, context: EntryContext) -> Iterable[Opening]:
    """The openings of one shape, one at each of its places."""
    role = written[table.ROLE]
    if role is None:
        raise UnusableError
    purpose = Role(context.word(role, table.ROLES))
    standing = context.standing(written, above)
    drawn = _turned(_drawn(written, standing, context), written, standing, context)
    placed, off = _placed_standing(written, standing, context), _placed_tolerance(written, context)
    through = _through(written, standing, context)
    cone, conical = _countersink(written, drawn, standing, context)
    figures = (*drawn.figures, *conical, *(() if through is None else through.figures))
    return [
        Opening(
            role=purpose,
            contour=_moved(drawn.contour, place),
            figures=(*figures, *_at(place, placed, off)),
            passes=None if through is None else _moved(through.contour, place),
            countersink=cone,
        )
        for place in _places(written, context)
    ]


def _countersink(
    written: Fields, drawn: _Drawn, above: Standing, context: EntryContext
) -> tuple[Countersink | None, tuple[Figure, ...]]:
    """The cone about the opening, and its figures, named as facts are: in words."""
    record = written[table.COUNTERSINK]
    if record is None:
        return None, ()
    standing = context.standing(record, above)
    diameter = figure_of(record, table.CONE_DIAMETER, standing, context)
    angle = record[table.CONE_ANGLE]
    if angle is None:
        raise UnusableError
    full = context.figure(COUNTERSINK_ANGLE, angle, standing, unit="deg")
    side = record[table.CONE_SIDE]
    hole = drawn.contour.circle
    if hole is None:
        raise context.refuse(record.place, said.countersink_not_round(), said.round_opening())
    if diameter.value <= 2 * hole[1]:
        too_small = said.countersink_too_small(diameter.value, 2 * hole[1])
        raise context.refuse(record.place, too_small, said.larger_countersink())
    if not CONE_ANGLES[0] <= full.value <= CONE_ANGLES[1]:
        raise context.refuse(
            record.where(table.CONE_ANGLE), said.countersink_angle(full.value), said.accepted_angle(*CONE_ANGLES)
        )
    cone = Countersink(
        diameter=diameter.value,
        angle=full.value,
        from_rear=side is not None and context.word(side, table.FACES) == "rear",
    )
    return cone, (replace(diameter, name=COUNTERSINK_DIAMETER), full)


def _moved(contour: Contour, place: Point) -> Contour:
    return contour if place == ORIGIN else contour.moved(Vector(place.x, place.y))


def _through(written: Fields, above: Standing, context: EntryContext) -> _Drawn | None:
    """What must go through, turned as the opening is."""
    record = written[table.PASSES]
    if record is None:
        return None
    standing = context.standing(record, above)
    drawn = _drawn(record, standing, context)
    turn = written[table.TURN]
    contour = drawn.contour if turn is None else drawn.contour.turned(context.number(turn))
    return _Drawn(
        contour=contour,
        figures=tuple(replace(figure, name=f"passes_{figure.name}") for figure in drawn.figures),
    )


def _envelopes(
    fields: Fields,
    side: Field[tuple[Value[Fields], ...]],
    reach: Field[object],
    above: Standing,
    context: EntryContext,
) -> tuple[Envelope, ...]:
    return each(fields[side], lambda written: _same_envelopes(written, reach, above, context))


def _same_envelopes(
    written: Fields, reach: Field[object], above: Standing, context: EntryContext
) -> Iterable[Envelope]:
    """The envelopes of one shape, one at each of its places; `reach` is the key of how far they stand out."""
    standing = context.standing(written, above)
    drawn = _turned(_drawn(written, standing, context), written, standing, context)
    height = figure_of(written, reach, standing, context)
    if height.value < 0:
        raise context.refuse(written.where(reach), said.dimension_is(reach.name, height.value), said.zero_or_more())
    placed, off = _placed_standing(written, standing, context), _placed_tolerance(written, context)
    moves = _travel(written, drawn, standing, context)
    is_front = reach is table.PROJECTION
    role = traits.role_of(written, table.ENVELOPE_ROLE, table.ENVELOPE_ROLES, context, EnvelopeRole.BODY.value)
    handle = traits.sweeps(written, standing, context) if is_front else None
    bend, way, bent = traits.cable(written, standing, context)
    more = (*moves, *(() if handle is None else (handle,)), *bent)
    return [
        Envelope(
            what=line_of(written, table.WHAT, context),
            contour=_moved(drawn.contour, place),
            height=height.value,
            figures=(*drawn.figures, *_at(place, placed, off), height, *more),
            covers=written[table.COVERS] is not False,
            colour=written[table.COLOUR] or "",
            travel=moves[0].value if moves else 0.0,
            role=EnvelopeRole(role),
            sweeps=0.0 if handle is None else handle.value,
            cable=bend,
            cable_way=way,
        )
        for place in _places(written, context)
    ]


def _details(written: Fields, above: Standing, context: EntryContext) -> tuple[FaceDetail, ...]:
    """What is seen on the front of a part, one at each of its places."""
    standing = context.standing(written, above)
    drawn = _turned(_drawn(written, standing, context), written, standing, context)
    placed = _placed_standing(written, standing, context)
    return tuple(
        FaceDetail(
            what=line_of(written, table.WHAT, context),
            contour=_moved(drawn.contour, place),
            recessed=bool(written[table.RECESSED]),
            figures=(*drawn.figures, *_at(place, placed)),
        )
        for place in _places(written, context)
    )


def _travel(written: Fields, drawn: _Drawn, standing: Standing, context: EntryContext) -> tuple[Figure, ...]:
    """How far what is in a front envelope moves; nothing where it is not written."""
    if written[table.TRAVEL] is None:
        return ()
    figure = figure_of(written, table.TRAVEL, standing, context)
    box = drawn.contour.bounds
    if not 0 <= figure.value < max(box.width, box.height):
        raise context.refuse(
            written.where(table.TRAVEL),
            said.dimension_is(figure.name, figure.value),
            said.travel_below(maximum=max(box.width, box.height)),
        )
    return (figure,)


def _placed_standing(written: Fields, above: Standing, context: EntryContext) -> Standing:
    record = written[table.PLACED]
    return above if record is None else context.standing(record, above)


def _placed_tolerance(written: Fields, context: EntryContext) -> tuple[float, float] | None:
    record = written[table.PLACED]
    return None if record is None else context.deviations(record, table.PLACED_TOLERANCE)
