"""The file with measured points: one row a feature, in the printer's own coordinates."""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Mapping, Sequence
from typing import Final

from panelart.canonical import Struct
from panelart.diagnostics import Problem, SpecError, Where, nearest
from panelart.geometry import Point, Vector
from panelart.messages import Message, diagnostics
from panelart.messages import press_register as said
from panelart.press.features import Feature

COLUMNS: Final = ("feature", "x", "y")
OWN_PLACE: Final = ("panel_x", "panel_y")
"""Columns for a mark that is no feature of the panel: where it is on the panel, from the datum."""

MAX_ROWS: Final = 1000
MAX_MM: Final = 20_000.0
"""Most rows, and the largest coordinate: no printer's bed is larger than 20 m."""

ACCEPTED: Final = said.accepted_columns()


class Measured(Struct, frozen=True, kw_only=True):
    """One feature and where it was found on the bed, in mm; `line` is its line in the file."""

    feature: Feature
    seen: Point
    line: int


class _UnusableError(Exception):
    """A row that cannot be used, and what is accepted."""

    def __init__(self, says: Message, accepts: Message = ACCEPTED) -> None:
        super().__init__(says)
        self.says = says
        self.accepts = accepts


def read_measured(data: bytes, file: str, known: Mapping[str, Feature], datum: Point) -> tuple[Measured, ...]:
    """The rows of a file, in order. Raises SpecError with everything that is wrong with it."""
    rows, first = _rows(data, file)
    heading = _heading(rows, file)
    problems: list[Problem] = []
    found: list[Measured] = []
    comma = first == ";"
    for number, cells in enumerate(rows[1:], 2):
        if not any(cell.strip() for cell in cells):
            continue
        row = dict(zip(heading, (cell.strip() for cell in cells), strict=False))
        where = Where(file, number, 1)
        try:
            seen = _point(row, "x", "y", comma=comma)
            feature = _feature(row, known, datum, comma=comma)
        except _UnusableError as error:
            problems.append(Problem(where=where, says=error.says, accepts=error.accepts))
            continue
        found.append(Measured(feature=feature, seen=seen, line=number))
    problems += _doubled(found, file)
    if problems:
        raise SpecError(problems)
    return tuple(found)


def _heading(rows: Sequence[Sequence[str]], file: str) -> list[str]:
    """The names of the columns. Raises SpecError where one is missing, or there are too many rows."""
    heading = [cell.strip().casefold() for cell in rows[0]] if rows else []
    missing = [name for name in COLUMNS if name not in heading]
    if missing:
        raise _refused(file, said.columns_missing(columns=missing))
    if len(rows) - 1 > MAX_ROWS:
        raise _refused(file, said.too_many_rows(maximum=MAX_ROWS))
    return heading


def _refused(file: str, says: Message) -> SpecError:
    return SpecError([Problem(where=Where(file, 1, 1), says=says, accepts=ACCEPTED)])


def _rows(data: bytes, file: str) -> tuple[list[list[str]], str]:
    """The cells of every line, and what parts them: comma, semicolon (then figures may have commas) or tab."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise _refused(file, said.not_utf_8()) from None
    head = text.split("\n", 1)[0]
    parting = max(",;\t", key=head.count)
    try:
        return list(csv.reader(io.StringIO(text.replace("\0", "\ufffd"), newline=None), delimiter=parting)), parting
    except csv.Error as error:
        raise _refused(file, said.table_unreadable(reason=str(error))) from None


def _point(row: Mapping[str, str], x: str, y: str, *, comma: bool) -> Point:
    return Point(*(_figure(row.get(name, ""), name, comma=comma) for name in (x, y)))


def _figure(text: str, name: str, *, comma: bool) -> float:
    try:
        value = float(text.replace(",", ".") if comma else text)
    except ValueError:
        raise _UnusableError(said.not_a_number(column=name, text=text)) from None
    if not (math.isfinite(value) and abs(value) <= MAX_MM):
        raise _UnusableError(said.coordinate_out_of_range(column=name, text=text, maximum=MAX_MM))
    return value


def _feature(row: Mapping[str, str], known: Mapping[str, Feature], datum: Point, *, comma: bool) -> Feature:
    name = row.get("feature", "")
    if not name:
        raise _UnusableError(said.feature_missing())
    if any(row.get(column) for column in OWN_PLACE):
        at = _point(row, *OWN_PLACE, comma=comma)
        return Feature(name=name, at=at.moved(Vector(datum.x, datum.y)))
    folded = {one.casefold(): one for one in known}
    wanted = name.casefold().removesuffix(" edge").removesuffix(" corner").replace(" ", "-")
    for written in (name.casefold(), wanted):
        if written in folded:
            return known[folded[written]]
    near = nearest(name, known)
    hint = said.accepted_features() if near is None else diagnostics.did_you_mean(name=near)
    raise _UnusableError(said.feature_unknown(name=name), hint)


def _doubled(found: Sequence[Measured], file: str) -> list[Problem]:
    """Points measured twice: an edge may be touched in many places, a corner or an opening is in one."""
    first: dict[str, int] = {}
    problems: list[Problem] = []
    for each in found:
        if each.feature.across is not None:
            continue
        line = first.setdefault(each.feature.name, each.line)
        if line != each.line:
            says = said.feature_repeated(feature=each.feature.name, line=line)
            problems.append(Problem(where=Where(file, each.line, 1), says=says, accepts=said.measure_features_once()))
    return problems
