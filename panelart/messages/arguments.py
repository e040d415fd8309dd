"""What may stand in a message, and how each kind is written.

A message's parameters are annotated with these types. They are plain strings and numbers to the caller, so that nothing
is wrapped where a message is raised; the annotation alone decides how the argument is shown.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Annotated, Final, TypeAlias

from panelart.messages import figures, lists
from panelart.messages.shown import COUNT, WORD, Shown, quoted, word

MAX_LISTED: Final = 12
"""Of a longer list so many are named; the rest is counted."""


def on_one_line(text: object) -> str:
    """Text whose lines stand beside each other, a legend of several lines for one."""
    return " / ".join(word(text).split("\n"))


def _joined(last: str, longest: int | None = MAX_LISTED) -> Callable[[Sequence[object]], str]:
    def join(items: Sequence[object]) -> str:
        said = [word(item) for item in items]
        if len(said) < 2:
            return said[0] if said else str(lists.nothing())
        if longest is not None and len(said) > longest:
            said = [*said[: longest - 1], str(lists.more(count=len(said) - longest + 1))]
        first = lists.in_turn.sentence.written({"first": "", "last": ""}).join(said[:-1])
        join_last = {", ": lists.in_turn, " or ": lists.either, " and ": lists.each}[last]
        return join_last.sentence.written({"first": first, "last": said[-1]})

    return join


_LISTS = ((), ("one",), tuple("abc"), tuple(map(str, range(60))))


def _size(sides: tuple[float, float]) -> str:
    return f"{figures.plain(sides[0])} × {figures.plain(sides[1])} mm"


def _point(place: tuple[float, float]) -> str:
    return f"[{figures.plain(round(place[0], 3))}, {figures.plain(round(place[1], 3))}]"


Word: TypeAlias = Annotated[object, WORD]
"""A key, a file name, a unit, a command, or another message: as it is."""

Quoted: TypeAlias = Annotated[str, Shown(quoted, ("", "x" * 300, "two\nlines"), "OUTPUT")]
"""Text out of a file of the user's, in quotes."""

THING: Final = Shown(on_one_line, ("S1", "'OUTPUT\nLEVEL' of RV1"), "S1")
Thing: TypeAlias = Annotated[object, THING]
"""A part, legend or frame by its name: a ref, or a message that describes it."""

Listed: TypeAlias = Annotated[Sequence[object], Shown(_joined(", "), _LISTS, tuple("abc"))]
"""What is accepted: 'a, b, c'."""

Either: TypeAlias = Annotated[Sequence[object], Shown(_joined(" or "), _LISTS, tuple("abc"))]
"""A list of which one is to be chosen: 'a, b or c'."""

Each: TypeAlias = Annotated[Sequence[object], Shown(_joined(" and "), _LISTS, ("S1", "S2", "S3"))]
"""A list of which all are meant: 'S1, S2 and S3'."""

Count: TypeAlias = Annotated[int, COUNT]
"""How many; the parameter named `count` also chooses between the two forms of a counted message."""

Number: TypeAlias = Annotated[float, Shown(figures.plain, (0.0, -1.5, 1e-7, 1 / 3, 123456.789), 1.25)]
"""A bare number, as a designer would type it."""

Mm: TypeAlias = Annotated[
    float, Shown(lambda value: f"{figures.plain(value)} mm", (0.0, 1e-7, 1 / 3, 4999.99, -0.005), 0.35)
]
"""A length as it was given, in mm: '2 mm', '0.35 mm'."""

MeasuredMm: TypeAlias = Annotated[
    float, Shown(lambda value: figures.measured(value, "mm"), (0.0, 1e-7, 1 / 3, 4999.99, -0.005), 2.0)
]
"""A length that was measured, in mm, with two decimals: '2.00 mm'."""

Degrees: TypeAlias = Annotated[float, Shown(lambda value: f"{figures.plain(value)}°", (0.0, 359.9999999, -90.0), 45.0)]
"""An angle in degrees."""

Percent: TypeAlias = Annotated[float, Shown(lambda value: f"{figures.plain(value)} %", (0.0, 99.999, 100.0), 40.0)]
"""A share in percent."""

SizeMm: TypeAlias = Annotated[tuple[float, float], Shown(_size, ((0.0, 0.0), (482.6, 88.11)), (260.0, 110.0))]
"""Width and height in mm: '260 × 110 mm'."""

PointMm: TypeAlias = Annotated[tuple[float, float], Shown(_point, ((0.0, -0.0004), (123.45678, 1 / 3)), (28.0, 32.5))]
"""A place in mm from the datum, as the spec writes it: '[28, 32.5]'."""

Lettering: TypeAlias = Annotated[str, Shown(lambda text: quoted(on_one_line(text)), ("", "OUTPUT\nLEVEL", "x" * 300))]
"""The text of a legend, in quotes: 'OUTPUT / LEVEL'."""

Numbers: TypeAlias = Annotated[
    Sequence[float],
    Shown(lambda values: _joined(" and ")([figures.plain(value) for value in values]), ((), (2.5,), (0.25, 1 / 3))),
]
"""Bare numbers of which all are meant: '2.5 and 0.25'."""

Clauses: TypeAlias = Annotated[Sequence[object], Shown(lambda said: "; ".join(map(str, said)), _LISTS)]
"""Statements of which each may have commas of its own: 'a, not b; c, not d'."""

InUnit: TypeAlias = Annotated[
    tuple[float, str], Shown(lambda given: figures.in_unit(*given), ((0.0, "mm"), (1 / 3, "ratio"), (15.0, "arcmin")))
]
"""A value as it was given, with its unit: '0.35 mm', '15 arcmin', '1.5'."""

Complete: TypeAlias = Annotated[Sequence[object], Shown(_joined(", ", None), _LISTS, ("S1", "S2", "S3"))]
"""A list on a sheet, which is never cut short: 'S1, S2, S3'."""

Sentences: TypeAlias = Annotated[
    Sequence[object], Shown(lambda said: " ".join(map(str, said)), (("One.",), ("One.", "Two.")))
]
"""Whole sentences after each other."""

TwoDecimals: TypeAlias = Annotated[float, Shown(lambda value: f"{value + 0.0:.2f}", (0.0, 12.345, 4999.99))]
"""A measure as a caliper shows it, its unit written elsewhere: '12.00'."""

Scale: TypeAlias = Annotated[tuple[int, int], Shown(lambda scale: f"{scale[0]}:{scale[1]}", ((1, 1), (1, 2), (1, 10)))]
"""A scale, drawn size first: '1:2'."""

PointsMm: TypeAlias = Annotated[
    Sequence[tuple[float, float]],
    Shown(
        lambda places: ", ".join(map(_point, places)),
        (((28.0, 32.5),), tuple((1 / 3, float(y)) for y in range(8))),
        ((28.0, 32.5),),
    ),
]
"""Places in mm from the datum: '[28, 32.5], [40, 32.5]'."""
