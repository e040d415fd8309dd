"""Meanings in the notation of table.yaml, to hold what was read against what is written there."""

from __future__ import annotations

from decimal import Decimal

from panelart.texts.quantities import Alternatives, Factor, Number, Quantity, Range, Ratio, Size
from panelart.texts.ratings import Duty, FuseRating, Protection, SupplyRating
from panelart.texts.runs import (
    Clock,
    Date,
    Designation,
    Kind,
    LoneUnit,
    Mark,
    Meaning,
    Positions,
    Space,
    Symbol,
    Text,
    Unsure,
    Word,
)


def table_of(text: Text) -> list[str]:
    return [told(run.means) for run in text.runs if not isinstance(run.means, Space | Mark)]


def figure(value: Decimal) -> str:
    return f"{value:f}"


def told(means: Meaning) -> str:
    return TOLD[type(means)](means)


def _number(means: Number) -> str:
    return f"number {figure(means.value)}{means.prefix}"


def _quantity(means: Quantity) -> str:
    count = f"{means.count} × " if means.count != 1 else ""
    return f"quantity {count}{means.bound}{figure(means.value)} {means.unit.symbol}"


def _range(means: Range) -> str:
    low, high = means.low, means.high
    unit = f" {high.unit.symbol}" if isinstance(high, Quantity) else ""
    if means.symmetric:
        return f"range ±{figure(high.value)}{unit}"
    between = f" {low.unit.symbol}" if isinstance(low, Quantity) and f" {low.unit.symbol}" != unit else ""
    return f"range {figure(low.value)}{between}..{figure(high.value)}{unit}"


def _alternatives(means: Alternatives) -> str:
    units = {each.unit.symbol for each in means.values}
    if len(units) > 1:
        return f"alternatives {'/'.join(f'{figure(each.value)} {each.unit.symbol}' for each in means.values)}"
    return f"alternatives {'/'.join(figure(each.value) for each in means.values)} {means.values[0].unit.symbol}"


def _size(means: Size) -> str:
    return f"size {' × '.join(map(figure, means.sides))}{f' {means.unit.symbol}' if means.unit else ''}"


def _pieces(kind: str, **pieces: object) -> str:
    said = [f"{name}={_piece(piece)}" for name, piece in pieces.items() if piece not in (None, "", 0)]
    return " ".join([kind, *said])


def _piece(piece: object) -> str:
    if isinstance(piece, Quantity | Range | Alternatives):
        return told(piece).split(" ", 1)[1]
    return str(piece)


def _fuse(means: FuseRating) -> str:
    return _pieces(
        "fuse",
        count=means.count if means.count != 1 else 0,
        characteristic=means.characteristic,
        current=means.current,
        breaking=means.breaking,
        voltage=means.voltage,
    )


def _supply(means: SupplyRating) -> str:
    return _pieces(
        "supply",
        phases=means.phases,
        voltage=means.voltage,
        nature=means.nature,
        frequency=means.frequency,
        current=means.current,
        power=means.power,
    )


def _duty(means: Duty) -> str:
    return _pieces("duty", type=means.type, time=means.time, factor=means.factor, on=means.on, off=means.off)


TOLD = {
    Word: lambda means: f"word {means.text}",
    Number: _number,
    Quantity: _quantity,
    LoneUnit: lambda means: f"unit {means.unit.symbol}",
    Range: _range,
    Alternatives: _alternatives,
    Size: _size,
    Ratio: lambda means: f"ratio {figure(means.first)}{means.sign}{figure(means.second)}",
    Factor: lambda means: f"factor {means.sign}{figure(means.by)}",
    Positions: lambda means: f"positions {'-'.join(means.names)}",
    FuseRating: _fuse,
    SupplyRating: _supply,
    Protection: lambda means: f"ip {means.code}",
    Duty: _duty,
    Designation: lambda means: f"designation {means.kind} {means.text}",
    Kind: lambda means: f"nature {means.nature}",
    Clock: lambda means: f"time {means.text}",
    Date: lambda means: f"date {means.text}",
    Symbol: lambda means: f"symbol {means.text}",
    Unsure: lambda means: " | ".join(map(told, means.readings)),
}
