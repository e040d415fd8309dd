"""Pieces that differ: the values of each, whether all of them fit, and what only one piece carries.

The panel is laid out once with the widest values, so that its rules are held against the worst of the run; then every
value of every piece is set and held against the room that was laid out, before the first is printed.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.diagnostics import Problem, SpecError, Where, nearest
from panelart.drawing.artwork import artwork
from panelart.drawing.layers import CUTOUTS, OUTLINE
from panelart.drawing.representation import Drawing, Layer
from panelart.geometry import Vector
from panelart.legends.candidates import lettered, style_of
from panelart.lettering.breaks import Break, breaks_of, broken, letters_of, point_at
from panelart.lettering.codes import code_size
from panelart.lettering.cuts import LIGHT
from panelart.lettering.fonts import MissingGlyphError
from panelart.lettering.look import Align
from panelart.lettering.outline import bounds
from panelart.lettering.setting import set_words
from panelart.lettering.spans import POINTS, Span
from panelart.messages import Message, diagnostics
from panelart.messages import press_pieces as said
from panelart.messages.errors import said_by
from panelart.model.layout import Layout, Mark, PlacedLegend
from panelart.model.panel import Anchor, Art, FreeText, LegendRequest, Panel, Place
from panelart.model.variables import CodeRequest, Variable
from panelart.spec.art import drawn_code
from panelart.spec.lettered import spelled_for
from panelart.texts.cells import unguarded

DATE: Final = "date"
"""The variable that takes the run's date where the table has no such column."""

MAX_LETTERS: Final = 200
SLACK: Final = 0.15
"""How far, in cap heights, a piece's words may stand out of the room of the widest ones: letters that reach lower."""

TOLD: Final = 20
"""How many rows that do not fit are named."""

Values = Mapping[str, str]


class Row(Struct, frozen=True, kw_only=True):
    """The values of one piece, and where they come from: a line of the table, or the piece's number."""

    values: Values
    where: Where


def rows_of_table(data: bytes, file: str, variables: Sequence[Variable], date: str) -> list[Row]:
    """One piece a row. Raises SpecError with every row and column that cannot be used."""
    table = _table(data, file)
    heading = [cell.strip() for cell in table[0]] if table else []
    _require_columns(heading, file, variables, date)
    problems: list[Problem] = []
    rows: list[Row] = []
    for number, cells in enumerate(table[1:], 2):
        stripped = [cell.strip() for cell in cells]
        if not any(stripped):
            # A line without anything is no row; one of empty cells is a piece that somebody forgot.
            if stripped:
                where = Where(file, number, 1)
                problems.append(
                    Problem(where=where, says=said.row_empty(row=number), accepts=said.fill_or_delete_row())
                )
            continue
        given = {DATE: date} if date else {}
        given |= dict(zip(heading, stripped, strict=False))
        row = Row(values=_values(given, variables, len(rows)), where=Where(file, number, 1))
        problems += _slips(row, variables)
        problems += _uncounted(given, heading, variables, len(rows), row.where)
        rows.append(row)
    if not rows and not problems:
        problems.append(Problem(where=Where(file, 1, 1), says=said.rows_missing()))
    problems += _doubled(rows, variables)
    if problems:
        raise SpecError(problems[:TOLD])
    return rows


def _table(data: bytes, file: str) -> list[list[str]]:
    """The cells of a table, whatever parts them: comma, semicolon or tab. Raises SpecError."""
    try:
        text = data.decode("utf-8-sig")
        rows = csv.reader(
            io.StringIO(text, newline=None), delimiter=max(",;\t", key=text.replace("\r", "\n").split("\n", 1)[0].count)
        )
        return [[unguarded(cell) for cell in row] for row in rows]
    except (UnicodeDecodeError, csv.Error) as error:
        raise SpecError([Problem(where=Where(file, 1, 1), says=said.table_unreadable(reason=str(error)))]) from None


def _require_columns(heading: Sequence[str], file: str, variables: Sequence[Variable], date: str) -> None:
    """Every variable that is not counted has a column, and no column is there twice. Raises SpecError."""
    needed = [variable.name for variable in variables if variable.counter is None]
    problems = [_missing(name, heading, file) for name in needed if name not in heading and not (name == DATE and date)]
    doubled = sorted({name for name in heading if heading.count(name) > 1})
    problems += [Problem(where=Where(file, 1, 1), says=said.column_repeated(name=name)) for name in doubled]
    if problems:
        raise SpecError(problems)


def _values(given: Values, variables: Sequence[Variable], piece: int) -> Values:
    """The values of one piece: those of its row, then what is counted."""
    values = {one.name: given.get(one.name, "") for one in variables if one.counter is None}
    # A counter's own column wins: numbers that were given out before.
    counted = {
        one.name: given.get(one.name) or one.counter.value(piece) for one in variables if one.counter is not None
    }
    return {**values, **counted}


def _uncounted(
    given: Values, heading: Sequence[str], variables: Sequence[Variable], piece: int, where: Where
) -> Iterator[Problem]:
    """Numbers that the table should give and does not: none is made up beside those that were given out."""
    for variable in variables:
        if variable.counter is not None and variable.name in heading and not given.get(variable.name):
            column = Where(where.file, where.line, heading.index(variable.name) + 1)
            says = said.number_empty(row=where.line, column=variable.name)
            yield Problem(where=column, says=says, accepts=said.number_to_write(value=variable.counter.value(piece)))


def _slips(row: Row, variables: Sequence[Variable]) -> Iterator[Problem]:
    """The values of a row that cannot be lettered; what is counted is the program's own."""
    for variable in variables:
        if variable.counter is None:
            problem = _unusable(variable.name, row.values[variable.name], row.where)
            if problem is not None:
                yield problem


def rows_counted(panel: Panel, count: int, date: str) -> list[Row]:
    """Pieces without a table: counters, and the date. Raises SpecError when a variable has no value."""
    problems = [
        Problem(
            where=panel.places[panel.where],
            says=said.variable_without_value(name=variable.name),
            accepts=said.give_the_date() if variable.name == DATE else said.give_the_data(name=variable.name),
        )
        for variable in panel.variables
        if variable.counter is None and not (variable.name == DATE and date)
    ]
    if problems:
        raise SpecError(problems)
    return [
        Row(
            values={
                variable.name: date if variable.counter is None else variable.counter.value(piece)
                for variable in panel.variables
            },
            where=Where(str(said.piece_of(file=panel.where.file, piece=piece + 1)), 1, 1),
        )
        for piece in range(count)
    ]


def _missing(name: str, heading: Sequence[str], file: str) -> Problem:
    near = nearest(name, heading)
    hint: Message | str = "" if near is None else diagnostics.did_you_mean(name=near)
    if name == DATE:
        hint = said.give_the_date_or_column()
    return Problem(where=Where(file, 1, 1), says=said.column_missing(name=name), accepts=hint)


def _unusable(name: str, value: str, where: Where) -> Problem | None:
    if not value:
        return Problem(where=where, says=said.value_empty(name=name))
    if len(value) > MAX_LETTERS or not value.isprintable():
        return Problem(where=where, says=said.value_unusable(name=name, maximum=MAX_LETTERS))
    return None


def _doubled(rows: Sequence[Row], variables: Sequence[Variable]) -> list[Problem]:
    """Counters that give two pieces one number."""
    problems: list[Problem] = []
    for name in (variable.name for variable in variables if variable.counter is not None):
        first: dict[str, Where] = {}
        for row in rows:
            before = first.setdefault(row.values[name], row.where)
            if before is not row.where:
                says = said.number_repeated(name=name, value=row.values[name], line=before.line)
                problems.append(Problem(where=row.where, says=says))
    return problems


def widest(panel: Panel, rows: Sequence[Row]) -> dict[str, str]:
    """For each variable the value that takes most room, in the lettering of names."""
    style = panel.marking.styles["name"]
    found: dict[str, str] = {}
    for variable in panel.variables:
        values = dict.fromkeys(row.values[variable.name] for row in rows)
        # Width goes with the number of letters near enough that only the longest need to be set.
        maximum = max(map(len, values))
        long = [value for value in values if len(value) >= 0.6 * maximum]

        def width(value: str) -> float:
            return (
                set_words(value.upper(), LIGHT.font, style.cap_height).box.width
                if value.isascii()
                else float(len(value))
            )

        found[variable.name] = max(long[:5000], key=lambda value: (round(width(value), 6), value))
    return found


class Pieces:
    """What varies on one laid out panel."""

    def __init__(self, layout: Layout) -> None:
        self._layout = layout
        panel = layout.panel
        requests = {(request.where, letters_of(request.text)): request for request in _requests(panel)}
        self._free = {text.request.where: text for text in panel.texts}
        self._legends = [
            (legend, request)
            for legend in layout.legends
            if (request := requests.get((legend.where, letters_of(legend.text)))) is not None
        ]
        arts = {f"{one.what} {number}": one for number, one in enumerate(panel.art, 1)}
        self._codes = [
            (mark, art)
            for mark in layout.marks
            if (art := arts.get(mark.ref)) is not None and art.code is not None and art.code.template is not None
        ]

    @property
    def fixed(self) -> Drawing:
        """The artwork of what is the same on every piece."""
        varying = {id(legend) for legend, _ in self._legends}
        coded = {id(mark) for mark, _ in self._codes}
        return artwork(
            replace(
                self._layout,
                legends=tuple(legend for legend in self._layout.legends if id(legend) not in varying),
                marks=tuple(mark for mark in self._layout.marks if id(mark) not in coded),
            )
        )

    def own(self, values: Values) -> tuple[Layer, ...]:
        """The layers of one piece alone. Raises ValueError when something cannot be lettered or coded."""
        if not self._legends and not self._codes:
            return ()
        bare = replace(
            self._layout,
            legends=tuple(self._legend(legend, request, values) for legend, request in self._legends),
            marks=tuple(self._code(mark, art, values) for mark, art in self._codes),
            openings=(),
        )
        return tuple(layer for layer in artwork(bare).layers if layer.items and layer.name not in (CUTOUTS, OUTLINE))

    def problems(self, rows: Sequence[Row]) -> list[Problem]:
        """Every row with a value that does not fit the room that was laid out, up to TOLD of them."""
        panel = self._layout.panel
        if panel.marking.printing.backgrounds and (self._legends or self._codes):
            says = said.variables_on_background()
            return [Problem(where=panel.places[panel.where], says=says, accepts=said.remove_backgrounds())]
        if any(legend.left_out for legend, _ in self._legends):
            says = said.variables_in_field()
            return [Problem(where=panel.places[panel.where], says=says, accepts=said.remove_fields())]
        found: list[Problem] = []
        for row in rows:
            found += self._slips(row)
            if len(found) >= TOLD:
                break
        return found[:TOLD]

    def _slips(self, row: Row) -> Iterator[Problem]:
        for legend, request in self._legends:
            try:
                placed = self._legend(legend, request, row.values)
            except MissingGlyphError as error:
                says = said.value_without_glyph(ref=legend.ref, character=error.character)
                yield Problem(where=row.where, says=says, accepts=said.other_characters())
                continue
            except ValueError as error:
                yield Problem(where=row.where, says=said.legend_unset(ref=legend.ref, reason=said_by(error)))
                continue
            if not legend.box.grown(SLACK * legend.cap_height).contains(placed.box):
                says = _outside(placed, legend)
                yield Problem(where=row.where, says=says, accepts=said.shorten_the_value())
        for mark, art in self._codes:
            was = _coded(art)
            try:
                wide, high = code_size(was.kind, _text(was, row.values), was.module)
            except ValueError as error:
                yield Problem(where=row.where, says=said.code_unreadable(ref=mark.ref, reason=said_by(error)))
                continue
            room = code_size(was.kind, was.text, was.module)
            if wide > room[0] + 1e-6 or high > room[1] + 1e-6:
                says = said.code_too_large(ref=mark.ref, size=(wide, high), maximum=room)
                yield Problem(where=row.where, says=says, accepts=said.shorten_the_code())

    def _legend(self, legend: PlacedLegend, request: LegendRequest, values: Values) -> PlacedLegend:
        assert request.template is not None
        text, spans = _broken_like(legend, request, *spelled_for(request.template, values))
        if legend.setting is None or any(letter.turn for letter in legend.setting.letters):
            raise ValueError(said.text_on_arc())
        style = style_of(request, self._layout.panel.marking)
        anchor = _anchor(legend, request, self._free.get(request.where))
        # A copy without its outlines, which would otherwise be kept for every piece of the run.
        setting = lettered(replace(request, text=text, spans=spans), style, Align(anchor.value))
        was, new = legend.setting.box, setting.box
        shift = {
            Anchor.LEFT: was.left - new.left,
            Anchor.CENTRE: was.centre.x - new.centre.x,
            Anchor.RIGHT: was.right - new.right,
        }[anchor]
        baseline = legend.baseline.moved(Vector(shift, 0.0).turned(legend.turn))
        upright = legend.turn == 0.0
        box = new.moved(Vector(baseline.x, baseline.y)) if upright else bounds(setting.placed(baseline, legend.turn))
        return replace(legend, text=text, setting=setting, baseline=baseline, box=box)

    def _code(self, mark: Mark, art: Art, values: Values) -> Mark:
        code = _coded(art)
        return replace(mark, shape=drawn_code(replace(code, text=_text(code, values))))


def _outside(placed: PlacedLegend, room: PlacedLegend) -> Message:
    excess = placed.box.width - room.box.width
    if excess > 0.0:
        return said.legend_too_wide(text=placed.text, ref=placed.ref, excess=excess)
    return said.legend_too_high(text=placed.text, ref=placed.ref)


def _coded(art: Art) -> CodeRequest:
    assert art.code is not None
    return art.code


def _text(code: CodeRequest, values: Values) -> str:
    assert code.template is not None
    return spelled_for(code.template, values)[0]


def _requests(panel: Panel) -> Iterator[LegendRequest]:
    """Every request for words that vary."""
    candidates: list[LegendRequest | None] = []
    for part in panel.parts:
        candidates += part.names
        candidates += [position.request for position in part.positions]
    candidates += [frame.title for frame in panel.frames]
    candidates += [text.request for text in panel.texts]
    yield from (one for one in candidates if one is not None and one.template is not None)


def _broken_like(
    legend: PlacedLegend, request: LegendRequest, text: str, spans: tuple[Span, ...]
) -> tuple[str, tuple[Span, ...]]:
    """The text broken after as many words as the example is, and at the same hyphenation points of them."""
    if "\n" not in legend.text or "\n" in text:
        return text, spans
    found = breaks_of(legend.text, request.text)
    ours, theirs = _places(text, spans), _places(request.text, request.spans)
    if len(ours) != len(theirs) or any(each not in theirs for each in found):
        return text, spans
    return broken(text, spans, [ours[theirs.index(each)] for each in found])


def _places(text: str, spans: Iterable[Span]) -> list[Break]:
    """Every space and every place in a word that the spec marks or a dictionary has, in order."""
    points = {point_at(span) for span in spans if span.manner in POINTS}
    spaces = [Break(at, False) for at, letter in enumerate(text) if letter == " "]
    return sorted((*points, *spaces), key=lambda each: each.at)


def _anchor(legend: PlacedLegend, request: LegendRequest, free: FreeText | None) -> Anchor:
    """Which end of the words stays where it is: the one towards the part."""
    if free is not None:
        return free.anchor
    if legend.place in (Place.LEFT, Place.ABOVE_LEFT, Place.BELOW_LEFT):
        return Anchor.RIGHT
    if legend.place in (Place.RIGHT, Place.ABOVE_RIGHT, Place.BELOW_RIGHT):
        return Anchor.LEFT
    return request.align or Anchor.CENTRE
