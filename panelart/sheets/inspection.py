"""What is measured on a finished panel, and what the measured values say: in or out, and how capable the making is."""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Final

from panelart.canonical import Struct
from panelart.cutouts.describe import size_of
from panelart.cutouts.hardware import components, filled, from_datum
from panelart.cutouts.held import held
from panelart.cutouts.tolerances import hole_grade, linear
from panelart.messages import Said
from panelart.messages import sheets_lists as said
from panelart.model.layout import FACE, CutOpening, Layout, Pitch
from panelart.model.panel import Panel
from panelart.sheets.lists import listed, mm
from panelart.texts.cells import unguarded

COLUMNS = ("feature", "measure", "nominal_mm", "minimum_mm", "maximum_mm", "method", "piece", "measured_mm")


class Characteristic(Struct, frozen=True, kw_only=True):
    """One size of one feature: what it should be and its limits, mm; `minimum` and `maximum` may be open.

    `by` says whose limits they are.
    """

    feature: str
    measure: str
    nominal: float
    minimum: float | None
    maximum: float | None
    method: Said
    by: Said

    @property
    def key(self) -> tuple[str, str]:
        """What a measured value names it by."""
        return self.feature, self.measure

    def holds(self, value: float) -> bool:
        """Whether a value lies in the limits; values on a limit do."""
        rounding = 1e-9
        return (self.minimum is None or value >= self.minimum - rounding) and (
            self.maximum is None or value <= self.maximum + rounding
        )


class Measured(Struct, frozen=True, kw_only=True):
    """One value as it was measured, and the line of the file that it stands in."""

    feature: str
    measure: str
    piece: str
    value: float
    line: int


class Verdict(Struct, frozen=True, kw_only=True):
    """The values of one characteristic, piece by piece, and which of them are out.

    `cp` and `cpk` are the capability by the sample's own standard deviation, None for fewer than two pieces, for
    pieces that are all alike, and where a limit is open.
    """

    characteristic: Characteristic
    values: tuple[Measured, ...]
    out: tuple[Measured, ...]
    mean: float
    deviation: float | None
    cp: float | None
    cpk: float | None


class MeasuredError(ValueError):
    """The file with measured values cannot be used; the text names the line and what is accepted."""


def characteristics(layout: Layout) -> tuple[Characteristic, ...]:
    """Everything that is measured on the finished panel, in the order of the sheets."""
    return tuple(_all(layout))


def _all(layout: Layout) -> Iterator[Characteristic]:
    panel = layout.panel
    wide, high = panel.size
    yield _general("panel", "width", wide, panel, said.caliper())
    yield _general("panel", "height", high, panel, said.caliper())
    filled_by = {ref: component for ref, component, _ in components(panel) if filled(component)}
    for opening in layout.every_opening:
        size = size_of(opening.finished, opening.turn)
        at = from_datum(panel, opening.on, size.centre)
        along, up, how = ("x", "y", said.from_datum()) if opening.on == FACE else ("along", "back", said.from_bend())
        yield _general(opening.name, along, at.x, panel, how)
        yield _general(opening.name, up, at.y, panel, how)
        # Where hardware sits in it its size was measured when it was cut.
        if opening.ref not in filled_by:
            yield from _of_opening(opening, panel)
        for pitch in opening.pitches:
            yield _general(
                opening.name, pitch_measure(pitch, opening.on), pitch.size, panel, said.caliper(), pitch.tolerance
            )
    for flange in panel.flanges:
        yield _general(f"{flange.edge.value} flange", "length", flange.length, panel, said.caliper())
        if flange.second is not None:
            yield _general(f"{flange.edge.value} return", "length", flange.second.length, panel, said.caliper())
    coat = panel.coat
    if coat.thickness and coat.minimum is not None:
        yield Characteristic(
            feature="coat",
            measure="thickness",
            nominal=coat.thickness,
            minimum=coat.minimum,
            maximum=coat.maximum,
            method=said.coat_gauge(),
            by=said.by_coat(),
        )


def pitch_measure(pitch: Pitch, on: str) -> str:
    """What a distance within a part is called: 'x to J1.1', 'distance to J1.1' for one straight across."""
    along = {"x": "x", "y": "y"} if on == FACE else {"x": "along", "y": "back"}
    return f"{along.get(pitch.along, 'distance')} to {pitch.to}"


def _of_opening(opening: CutOpening, panel: Panel) -> Iterator[Characteristic]:
    """Every dimension of an empty opening, and its countersink."""
    for one in held(opening, panel.coat, panel.making):
        limits = one.finished_limits
        yield Characteristic(
            feature=opening.name,
            measure=one.name,
            nominal=one.finished,
            minimum=None if limits is None else limits[0],
            maximum=None if limits is None else limits[1],
            method=said.gauge(),
            by=said.by_part() if one.own else _by_openings(opening, panel),
        )
    if opening.countersink is not None:
        yield _general(opening.name, "countersink", opening.countersink.finished, panel, said.caliper())


def _by_openings(opening: CutOpening, panel: Panel) -> Said:
    coat, grade = panel.coat, hole_grade(panel.making.tolerance)
    coated = not opening.bare and coat.build_minimum < coat.build_maximum
    return (said.by_openings_coated if coated else said.by_openings)(grade=grade)


def _general(
    feature: str, measure: str, nominal: float, panel: Panel, method: Said, own: tuple[float, float] | None = None
) -> Characteristic:
    """A size with its own deviations, or those of ISO 2768-1; open where the standard leaves it open."""
    nominal = round(nominal, 6) + 0.0
    usual = linear(abs(nominal), panel.making.tolerance)
    low, high = own if own is not None else (None, None) if usual is None else (-usual, usual)
    return Characteristic(
        feature=feature,
        measure=measure,
        nominal=nominal,
        minimum=None if low is None else round(nominal + low, 6),
        maximum=None if high is None else round(nominal + high, 6),
        method=method,
        by=said.by_general(grade=panel.making.tolerance) if own is None else said.by_part(),
    )


def inspection_csv(layout: Layout) -> bytes:
    """The list to measure by: one row a characteristic, with room for the piece and the value."""
    rows = [
        (one.feature, one.measure, mm(one.nominal), mm(one.minimum), mm(one.maximum), str(one.method), "1", "")
        for one in characteristics(layout)
    ]
    return listed(layout.panel, COLUMNS, rows)


def _text(data: bytes) -> str:
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise MeasuredError(said.not_utf8(byte=error.start)) from None


_BEYOND: Final = "\0"
"""The name of the cells of a row beyond the last column, which no column has."""


def read_measured(data: bytes) -> tuple[Measured, ...]:
    """Measured values from a table with the columns feature, measure, piece and measured_mm; empty values are skipped.

    Cells are parted by commas, semicolons or tabs; behind the latter two, values may have a decimal comma. Raises
    MeasuredError.
    """
    text = _text(data)
    parting = _parting(text)
    rows = csv.DictReader(io.StringIO(text, newline=None), restkey=_BEYOND, delimiter=parting)
    needed = ("feature", "measure", "measured_mm")
    missing = [name for name in needed if name not in (rows.fieldnames or ())]
    if missing:
        raise MeasuredError(said.column_missing(column=missing[0], needed=needed))
    found: list[Measured] = []
    for row in rows:
        written = (row["measured_mm"] or "").strip()
        if not written:
            continue
        found.append(_measured(row, written, rows.line_num, comma=parting != ","))
    return tuple(found)


def _parting(text: str) -> str:
    """What parts the cells: the sign that the heading has most of, a comma where it has none."""
    heading = text.replace("\r", "\n").split("\n", 1)[0]
    return max(",;\t", key=heading.count)


def _measured(row: Mapping[str, Any], written: str, line: int, *, comma: bool) -> Measured:
    """The value in a row, whose cells stand by their columns. Raises MeasuredError."""
    if any(cell.strip() for cell in row.get(_BEYOND) or ()):
        raise MeasuredError(said.cells_beyond_columns(line=line))
    value = _length(written, line, comma=comma)
    piece = (row.get("piece") or "1").strip() or "1"
    feature, measure = (unguarded((row[key] or "").strip()) for key in ("feature", "measure"))
    return Measured(feature=feature, measure=measure, piece=piece, value=value, line=line)


def _length(written: str, line: int, *, comma: bool) -> float:
    """A measured length in mm; `comma` where a decimal comma cannot be taken for another. Raises MeasuredError."""
    whole, sign, part = written.partition(",")
    if sign and whole.lstrip("+-").isdigit() and part.isdigit():
        if comma:
            return float(f"{whole}.{part}")
        raise MeasuredError(said.decimal_comma(line=line, found=written, meant=f"{whole}.{part}"))
    try:
        value = float(written)
    except ValueError:
        value = math.nan
    if not math.isfinite(value):
        raise MeasuredError(said.not_a_length(line=line, found=written))
    return value


def specs_of(data: bytes) -> tuple[str, ...]:
    """The fingerprints that a table of measured values says its sizes are from, each once; none where it does not say.

    Raises MeasuredError as `read_measured`.
    """
    text = _text(data)
    rows = csv.DictReader(io.StringIO(text, newline=None), delimiter=_parting(text))
    return tuple(dict.fromkeys(spec for row in rows if (spec := (row.get("spec") or "").strip())))


def judged(wanted: Sequence[Characteristic], values: Sequence[Measured]) -> tuple[Verdict, ...]:
    """A verdict on each characteristic that was measured, in the order of the sheets.

    Raises MeasuredError for a value of something that the panel does not have, and for two values of one piece.
    """
    known = {one.key: one for one in wanted}
    by_key: dict[tuple[str, str], list[Measured]] = {}
    for value in values:
        key = value.feature, value.measure
        if key not in known:
            raise MeasuredError(said.no_such_size(line=value.line, measure=value.measure, feature=value.feature))
        before = by_key.setdefault(key, [])
        if any(other.piece == value.piece for other in before):
            twice = said.measured_twice(
                line=value.line, measure=value.measure, feature=value.feature, piece=value.piece
            )
            raise MeasuredError(twice)
        before.append(value)
    return tuple(_verdict(one, by_key[one.key]) for one in wanted if one.key in by_key)


def _verdict(one: Characteristic, values: Sequence[Measured]) -> Verdict:
    count = len(values)
    mean = math.fsum(value.value for value in values) / count
    spread = math.sqrt(math.fsum((value.value - mean) ** 2 for value in values) / (count - 1)) if count > 1 else None
    cp = cpk = None
    if spread and one.minimum is not None and one.maximum is not None:
        cp = (one.maximum - one.minimum) / (6 * spread)
        cpk = min(one.maximum - mean, mean - one.minimum) / (3 * spread)
    return Verdict(
        characteristic=one,
        values=tuple(values),
        out=tuple(value for value in values if not one.holds(value.value)),
        mean=mean,
        deviation=spread,
        cp=cp,
        cpk=cpk,
    )
