"""The path data of SVG: text to lines, cubics and elliptical arcs, as complex numbers in the data's own units."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from typing import Final, TypeAlias

from panelart.canonical import Struct
from panelart.messages import Said
from panelart.messages import outlines_elements as said_of

NUMBER: Final = r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?"
_TOKEN: Final = re.compile(rf"([MmLlHhVvCcSsQqTtAaZz])|({NUMBER})|([\s,]+)|(.)")
_ARITY: Final = {"m": 2, "l": 2, "h": 1, "v": 1, "c": 6, "s": 4, "q": 4, "t": 2, "a": 7, "z": 0}


class RefusedError(Exception):
    """What a file holds and cannot be taken, and what to do about it ('' for what the reader accepts)."""

    def __init__(self, says: Said, accepts: Said = "") -> None:
        super().__init__(says)
        self.says: Said = says
        self.accepts: Said = accepts


class EllipticArc(Struct, frozen=True, kw_only=True):
    """A part of an ellipse: `centre + u cos a + v sin a`, for a from `first` over `span`, in radians."""

    start: complex
    end: complex
    centre: complex
    u: complex
    v: complex
    first: float
    span: float

    def at(self, angle: float) -> complex:
        """The point at an angle."""
        return self.centre + self.u * math.cos(angle) + self.v * math.sin(angle)

    def cubics(self) -> Iterator[tuple[complex, complex, complex, complex]]:
        """The same as cubics of at most 45 degrees."""
        count = max(1, math.ceil(abs(self.span) / (math.pi / 4) - 1e-9))
        step = self.span / count
        handle = 4 / 3 * math.tan(step / 4)
        angles = [self.first + step * k for k in range(count + 1)]
        points = [self.start, *(self.at(angle) for angle in angles[1:-1]), self.end]
        for k in range(count):
            leaving, arriving = (
                (self.v * math.cos(angle) - self.u * math.sin(angle)) * handle for angle in angles[k : k + 2]
            )
            yield points[k], points[k] + leaving, points[k + 1] - arriving, points[k + 1]


Piece: TypeAlias = tuple[complex, ...] | EllipticArc
"""A line of two points, a cubic of four, or an arc."""


def end_of(piece: Piece) -> complex:
    """Where a piece ends."""
    return piece.end if isinstance(piece, EllipticArc) else piece[-1]


def _commands(d: str) -> Iterator[tuple[str, list[float]]]:
    command = ""
    numbers: list[float] = []
    for letter, number, _, other in _TOKEN.findall(d):
        if other:
            raise RefusedError(said_of.path_character(text=other))
        if letter:
            if numbers:
                raise RefusedError(said_of.path_incomplete())
            command = letter
            if letter in "zZ":
                yield letter, []
        elif number:
            if not command or command in "zZ":
                raise RefusedError(said_of.path_stray_number())
            for one in _apart(command, number, len(numbers)):
                numbers.append(one)
                if len(numbers) == _ARITY[command.lower()]:
                    yield command, numbers
                    numbers = []
                    command = {"M": "L", "m": "l"}.get(command, command)
    if numbers:
        raise RefusedError(said_of.path_incomplete())


def _apart(command: str, text: str, place: int) -> Iterator[float]:
    """The numbers of a text; the two flags of an arc may stand before the next number without a space."""
    while text and command in "Aa" and place in (3, 4):
        if text[0] not in "01":
            raise RefusedError(said_of.path_arc_flag(text=text))
        yield float(text[0])
        text, place = text[1:], place + 1
    if text:
        value = float(text)
        if not math.isfinite(value):
            raise RefusedError(said_of.path_number_out_of_range(text=text))
        yield value


class _Pen:
    """Where path data has led: the point, the subpath's start, and the last control point for smooth curves."""

    def __init__(self) -> None:
        self.at = self.start = self.control = 0j
        self.before = ""

    def moved(self, command: str, n: list[float]) -> None:
        """A new subpath, or the end of one."""
        if command in "Mm":
            self.start = self._base(command) + complex(n[0], n[1])
        self.at = self.start
        self.before = command.lower()

    def drawn(self, command: str, n: list[float]) -> list[Piece]:
        """The pieces of one command, of two or four points each."""
        kind = command.lower()
        base = self._base(command)
        found = (
            self._straight(kind, n, base)
            if kind in "lhv"
            else _arc(self.at, base + complex(n[5], n[6]), n)
            if kind == "a"
            else self._curved(kind, [base + complex(n[k], n[k + 1]) for k in range(0, len(n), 2)])
        )
        self.at = end_of(found[-1]) if found else self.at
        self.before = kind
        return found

    def _base(self, command: str) -> complex:
        return self.at if command.islower() else 0j

    def _straight(self, kind: str, n: list[float], base: complex) -> list[Piece]:
        if kind == "l":
            return [(self.at, base + complex(n[0], n[1]))]
        if kind == "h":
            return [(self.at, complex(base.real + n[0], self.at.imag))]
        return [(self.at, complex(self.at.real, base.imag + n[0]))]

    def _curved(self, kind: str, points: list[complex]) -> list[Piece]:
        if kind in "st":
            smooth = self.before in ("cs" if kind == "s" else "qt")
            points.insert(0, 2 * self.at - self.control if smooth else self.at)
        if kind in "qt":
            control, end = points
            self.control = control
            return [(self.at, self.at + 2 / 3 * (control - self.at), end + 2 / 3 * (control - end), end)]
        self.control = points[1]
        return [(self.at, *points)]


def subpaths(d: str) -> Iterator[tuple[list[Piece], bool]]:
    """Each subpath in pieces, and whether it is closed in the data. Raises RefusedError."""
    pen = _Pen()
    pieces: list[Piece] = []
    for command, n in _commands(d):
        if command not in "MmZz":
            pieces += pen.drawn(command, n)
            continue
        if pieces:
            yield pieces, command in "Zz"
        pieces = []
        pen.moved(command, n)
    if pieces:
        yield pieces, False


def _arc(start: complex, end: complex, n: list[float]) -> list[Piece]:
    """An elliptical arc by SVG 2, appendix B.2 (conversion from endpoints)."""
    rx, ry, turn = abs(n[0]), abs(n[1]), math.radians(n[2])
    large, sweep = n[3] != 0, n[4] != 0
    if start == end:
        return []
    if rx == 0 or ry == 0:
        return [(start, end)]
    spin = complex(math.cos(turn), math.sin(turn))
    half = (start - end) / 2 / spin
    x, y = half.real, half.imag
    grow = (x / rx) ** 2 + (y / ry) ** 2
    if grow > 1:
        rx, ry = rx * math.sqrt(grow), ry * math.sqrt(grow)
    share = (rx * ry) ** 2 - (rx * y) ** 2 - (ry * x) ** 2
    root = math.sqrt(max(0.0, share / ((rx * y) ** 2 + (ry * x) ** 2)))
    root = -root if large == sweep else root
    cx, cy = root * rx * y / ry, -root * ry * x / rx
    first = math.atan2((y - cy) / ry, (x - cx) / rx)
    last = math.atan2((-y - cy) / ry, (-x - cx) / rx)
    span = last - first
    if sweep and span < 0:
        span += 2 * math.pi
    if not sweep and span > 0:
        span -= 2 * math.pi
    centre = (start + end) / 2 + complex(cx, cy) * spin
    return [EllipticArc(start=start, end=end, centre=centre, u=rx * spin, v=1j * ry * spin, first=first, span=span)]
