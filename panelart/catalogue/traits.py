"""From the fields of a catalogue file to what a part knows besides its shape.

That is its motion, circuit, look, fasteners, board, mass, and whether it was cut and fitted.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import pairwise
from typing import Final

from msgspec.structs import replace

from panelart.catalogue import table
from panelart.catalogue.context import EntryContext, Pieces, Standing, UnusableError, each, line_of, lines_of
from panelart.catalogue.motions import contradictions
from panelart.catalogue.standing import is_of_hole
from panelart.catalogue.table import WordKind, Written
from panelart.figure import Figure, Known
from panelart.messages import catalogue as said
from panelart.messages import catalogue_motions as of_motions
from panelart.messages import figures
from panelart.model.circuit import Circuit, CircuitKind, SafetyFunction
from panelart.model.component import Opening
from panelart.model.fasteners import Board, Fastener
from panelart.model.look import FaceDetail, Lit, Look
from panelart.model.motion import FULL_TURN, STILL, Action, Motion, MotionKind, Stops, Way
from panelart.source.schema import Field, Fields, Value


def motion(fields: Fields, above: Standing, context: EntryContext) -> Motion:
    """How the part is operated. Raises UnusableError when a figure of it is impossible."""
    written = fields[table.MOTION]
    if written is None:
        return STILL
    if isinstance(written, Fields):
        return _operation(written, above, context)
    where = fields.where(table.MOTION)
    named = context.text(written, where)
    if named in context.motions:
        return _operation(context.motions[named], above, context)
    return Motion(kind=MotionKind(context.word(Written.at(named, where), table.MOTIONS) or "none"))


def _operation(written: Fields, above: Standing, context: EntryContext) -> Motion:
    """A motion that is written out, whose figures do not contradict each other."""
    standing = context.standing(written, above)
    kind = MotionKind(_word(written, table.MOTION_KIND, table.MOTIONS, context) or "none")
    pieces = Pieces()
    found: dict[str, Figure | None] = {}
    with pieces:
        ways = ways_of(written[table.WAYS], standing, context)
    for field, unit in _MOTION_FIGURES:
        with pieces:
            found[field.name] = _positive(written, field, unit, standing, context)
    with pieces:
        tapers = _tapers(written, standing, context)
    pieces.raise_any()
    action = _word(written, table.ACTION, table.ACTIONS, context)
    stops = _word(written, table.STOPS, table.STOPPED, context)
    made = Motion(
        kind=kind,
        action=Action(action) if action else None,
        ways=ways,
        phase=_angle(written, table.PHASE, context),
        tab=_angle(written, table.TAB, context),
        stops=Stops(stops) if stops else None,
        tapers=tapers,
        **found,
    )
    _require_sense(made, written, context)
    return made


def _require_sense(made: Motion, written: Fields, context: EntryContext) -> None:
    """Refuse a motion whose figures contradict each other or its kind."""
    places = {field.name: written.where(field) for field in table.OPERATION.fields}
    refused = [context.refuse(places[one.key], one.says, one.accepts) for one in contradictions(made)]
    if refused:
        raise refused[0]


def _angle(fields: Fields, field: Field[str], context: EntryContext) -> float | None:
    amount = fields[field]
    return None if amount is None else context.number(amount)


_MOTION_FIGURES: Final = (
    (table.ROTATION, "deg"),
    (table.ELECTRICAL, "deg"),
    (table.TURNS, ""),
    (table.DETENTS, ""),
    (table.MOTION_TRAVEL, "mm"),
    (table.THROW, "deg"),
)


def _positive(
    fields: Fields, field: Field[object], unit: str, above: Standing, context: EntryContext, name: str = ""
) -> Figure | None:
    """A figure that must be more than zero; None where it is left out."""
    written = fields[field]
    if written is None:
        if fields.written(field):
            raise UnusableError
        return None
    if isinstance(written, str) and not context.text(written, fields.where(field)):
        return None
    figure = context.figure(name or field.name, written, above, unit)
    if figure.value <= 0:
        raise context.refuse(fields.where(field), said.dimension_is(field.name, figure.value), said.more_than_zero())
    return figure


def _word(fields: Fields, field: Field[str], kind: WordKind, context: EntryContext) -> str:
    word = fields[field]
    return "" if word is None else context.word(word, kind)


def ways_of(listed: Iterable[Value[Fields]] | None, above: Standing, context: EntryContext) -> tuple[Way, ...]:
    """The ways in which a turned control is made. Raises UnusableError."""
    return each(listed, lambda way: (_way(way, above, context),))


def _way(fields: Fields, above: Standing, context: EntryContext) -> Way:
    standing = context.standing(fields, above)
    angles, positions = fields[table.WAY_ANGLES], fields[table.WAY_POSITIONS]
    if angles:
        return _marked(angles, fields, standing, context)
    index = _positive(fields, table.WAY_INDEX, "deg", standing, context)
    if index is None:
        raise context.refuse(fields.place, said.way_without_angles(), said.angles_or_index())
    fewest, most = (2.0, FULL_TURN // index.value) if positions is None else context.pair(positions)
    if not (fewest.is_integer() and most.is_integer() and 1 <= fewest <= most <= FULL_TURN / index.value):
        raise context.refuse(
            fields.place,
            said.positions_of_index(fewest, most, index.value),
            said.at_most_positions(int(FULL_TURN // index.value)),
        )
    return Way(index=index.value, fewest=int(fewest), most=int(most), figures=(index,))


def _marked(angles: tuple[Value[str], ...], fields: Fields, standing: Standing, context: EntryContext) -> Way:
    """A way with marks of its own."""
    if fields.written(table.WAY_INDEX):
        raise context.refuse(fields.key_where(table.WAY_INDEX), of_motions.angles_and_index(), said.angles_or_index())
    marks = tuple(context.number(angle.value) for angle in angles)
    rising = all(one < two for one, two in pairwise(marks))
    if not rising or marks[-1] - marks[0] >= FULL_TURN:
        raise context.refuse(
            fields.where(table.WAY_ANGLES),
            said.angles_out_of_order([figures.plain(mark) for mark in marks]),
            said.angles_clockwise(),
        )
    of_marks = tuple(
        Figure(name="angle", value=mark, sources=standing.sources, known=standing.known, unit="deg") for mark in marks
    )
    return Way(angles=marks, fewest=len(marks), most=len(marks), figures=of_marks)


def _tapers(fields: Fields, above: Standing, context: EntryContext) -> tuple[tuple[str, Figure], ...]:
    return tuple(
        (law.value, context.figure("electrical", angle.value, above, "deg"))
        for law, angle in fields[table.TAPERS] or ()
    )


def circuit(fields: Fields, above: Standing, context: EntryContext) -> Circuit | None:
    """The circuit of the part, None where nobody has said. Raises UnusableError."""
    written = fields[table.CIRCUIT]
    if written is None:
        return None
    if not isinstance(written, Fields):
        word = context.word(written, table.CIRCUITS)
        return Circuit(kind=CircuitKind(word)) if word else None
    standing = context.standing(written, above)
    kind = _word(written, table.CIRCUIT_KIND, table.CIRCUITS, context)
    if not kind:
        raise UnusableError
    safety = _word(written, table.SAFETY_FUNCTION, table.SAFETY, context)
    return Circuit(
        kind=CircuitKind(kind),
        volts=_positive(written, table.VOLTS, "V", standing, context),
        amps=_positive(written, table.AMPS, "A", standing, context),
        watts=_positive(written, table.WATTS, "W", standing, context),
        category=written[table.CATEGORY] or "",
        safety=SafetyFunction(safety) if safety else None,
    )


def look(
    fields: Fields,
    above: Standing,
    context: EntryContext,
    shapes: Callable[[Fields, Standing, EntryContext], tuple[FaceDetail, ...]],
) -> Look | None:
    """The look of the part, None where nobody has said; `shapes` draws one detail at each of its places."""
    written = fields[table.LOOK]
    if written is None:
        return None
    standing = context.standing(written, above)
    lit = _word(written, table.LIGHT, table.LIT, context)
    return Look(
        colours=lines_of(written[table.COLOURS], context),
        lens=lines_of(written[table.LENS], context),
        lit=Lit(lit) if lit else Lit.NEVER,
        insert=bool(written[table.INSERT]),
        digits=written[table.DIGITS] or 0,
        meter=line_of(written, table.METER, context),
        details=each(written[table.DETAILS], lambda detail: shapes(detail, standing, context)),
    )


def fasteners(fields: Fields, above: Standing, context: EntryContext) -> tuple[Fastener, ...]:
    """What holds the part to the panel. Raises UnusableError."""
    return each(fields[table.FASTENERS], lambda written: (_fastener(written, above, context),))


def _fastener(written: Fields, above: Standing, context: EntryContext) -> Fastener:
    standing = context.standing(written, above)
    torque = written[table.TORQUE]
    bounds: tuple[Figure, Figure] | None = None
    if torque is not None:
        low, high = context.pair(torque)
        if not 0 < low <= high:
            raise context.refuse(written.where(table.TORQUE), said.torque_reversed(low, high), said.low_before_high())
        bounds = (_torque("torque_lowest", low, standing), _torque("torque_highest", high, standing))
    side = _word(written, table.TIGHTENED, table.FACES, context)
    return Fastener(
        what=line_of(written, table.WHAT, context),
        thread=line_of(written, table.FASTENER_THREAD, context),
        count=written[table.FASTENER_COUNT] or 1,
        across=_positive(written, table.ACROSS, "mm", standing, context),
        torque=bounds,
        from_rear=side == "rear",
        supplied=written[table.SUPPLIED] is not False,
    )


def _torque(name: str, value: float, standing: Standing) -> Figure:
    return Figure(name=name, value=value, sources=standing.sources, known=standing.known, unit="N m")


def board(fields: Fields, above: Standing, context: EntryContext) -> Board | None:
    """How the part sits on a board. Raises UnusableError."""
    written = fields[table.BOARD]
    if written is None:
        return None
    offset = written[table.OFFSET]
    if offset is None:
        raise UnusableError
    standing = context.standing(written, above)
    x, y = context.pair(offset)
    axis = [
        Figure(name=name, value=value, sources=standing.sources, known=standing.known)
        for name, value in (("offset_x", x), ("offset_y", y))
    ]
    return Board(
        offset=(axis[0], axis[1]),
        height=_positive(written, table.BOARD_HEIGHT, "mm", standing, context, "board_height"),
        on_edge=bool(written[table.ON_EDGE]),
    )


def mass(fields: Fields, above: Standing, context: EntryContext) -> Figure | None:
    """The mass in g, None where it is not known. Raises UnusableError."""
    return _positive(fields, table.MASS, "g", above, context)


def proved(fields: Fields, openings: tuple[Opening, ...], context: EntryContext) -> tuple[Opening, ...]:
    """The openings, their figures proved where the part says who cut and fitted it.

    The sheet it fits and facts kept with an opening are not: no hole shows them.
    """
    written = fields[table.PROVED]
    if written is None:
        return openings
    words = [line_of(written, field, context) for field in (table.PROVED_BY, table.PROVED_ON, table.PROVED_DATE)]
    if not all(words):
        raise UnusableError
    source = (str(said.cut_and_fitted(*words)),)
    return tuple(
        replace(
            opening,
            figures=tuple(
                replace(figure, known=Known.PROVED, sources=source) if is_of_hole(figure) else figure
                for figure in opening.figures
            ),
        )
        for opening in openings
    )


def role_of(fields: Fields, field: Field[str], kind: WordKind, context: EntryContext, otherwise: str) -> str:
    """A word of a record, or what stands for it where it is left out."""
    return _word(fields, field, kind, context) or otherwise


def cable(fields: Fields, above: Standing, context: EntryContext) -> tuple[float, str, tuple[Figure, ...]]:
    """Bend radius of a plug's cable in mm, the way it leaves, and its figure; 0 where there is none."""
    written: Fields | None = fields[table.CABLE]
    if written is None:
        return 0.0, "", ()
    standing = context.standing(written, above)
    bend = _positive(written, table.CABLE_BEND, "mm", standing, context, "cable_bend")
    if bend is None:
        raise UnusableError
    way = _word(written, table.CABLE_WAY, table.CABLE_WAYS, context)
    return bend.value, "" if way == "out" else way, (bend,)


def sweeps(fields: Fields, above: Standing, context: EntryContext) -> Figure | None:
    """Diameter of the circle that a handle describes. Raises UnusableError."""
    return _positive(fields, table.SWEEPS, "mm", above, context)
