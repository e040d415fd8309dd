"""Drawings from SVG files: filled paths only, read into shapes; all else a file may hold is refused with its place.

Understood are `svg`, `g` and `path` with `d`, `transform` and a plain fill. Title, description and metadata are passed
over. Scripts, links, pictures, styles, references to other files and declarations of entities are problems. The reader
is the parser of Python's standard library, which opens no other file.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Final
from xml.parsers import expat

from panelart.diagnostics import Problem, Where
from panelart.geometry import Line, Point
from panelart.lettering.outline import Cubic, Curve, Loop, Shape

MOST_BYTES: Final = 2_000_000
MOST_CURVES: Final = 50_000

_PASSED_OVER: Final = frozenset({"title", "desc", "metadata", "namedview", "defs"})
_REFUSED_ANYWHERE: Final = frozenset({"script", "image", "use", "foreignObject", "style", "a"})
_READ: Final = frozenset({"svg", "g", "path"})
_NUMBER: Final = r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?"
_TOKEN: Final = re.compile(rf"([MmLlHhVvCcSsQqTtAaZz])|({_NUMBER})|([\s,]+)|(.)")
_ARITY: Final = {"m": 2, "l": 2, "h": 1, "v": 1, "c": 6, "s": 4, "q": 4, "t": 2, "a": 7, "z": 0}
_TRANSFORM: Final = re.compile(r"\s*(matrix|translate|scale|rotate)\s*\(([^)]*)\)\s*,?")

Matrix = tuple[float, float, float, float, float, float]
_IDENTITY: Final[Matrix] = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


class _RefusedError(Exception):
    """What the file holds and cannot be taken; the text says it."""


@dataclass(slots=True)
class _Reader:
    file: str
    problems: list[Problem] = field(default_factory=list)
    loops: list[Loop] = field(default_factory=list)
    stack: list[tuple[Matrix, Mapping[str, str]]] = field(default_factory=lambda: [(_IDENTITY, {})])
    skipped: int = 0
    curves: int = 0

    def refuse(self, parser: expat.XMLParserType, message: str) -> None:
        where = Where(self.file, parser.CurrentLineNumber, parser.CurrentColumnNumber + 1)
        hint = "accepted: a drawing of filled paths only; turn text and lines into paths, and leave all else out"
        self.problems.append(Problem(where=where, message=message, hint=hint))


def read_svg(data: bytes, file: str) -> tuple[Shape, tuple[Problem, ...]]:
    """The painted loops of a drawing, y up in its own units, and what was refused; a shape only without problems."""
    reader = _Reader(file)
    parser = expat.ParserCreate()

    def start(name: str, attributes: dict[str, str]) -> None:
        tag = name.rpartition(":")[2]
        if reader.skipped or tag not in _READ:
            if tag in _REFUSED_ANYWHERE or (not reader.skipped and tag not in _PASSED_OVER):
                reader.refuse(parser, f"the drawing has a <{tag}>")
            reader.skipped += 1
            return
        here = reader.stack[-1]
        loops: list[Loop] = []
        try:
            here = _inherited(attributes, *here)
            loops = _painted(attributes, *here) if tag == "path" else []
        except _RefusedError as refused:
            reader.refuse(parser, str(refused))
        reader.stack.append(here)
        reader.loops += loops
        reader.curves += sum(len(loop.curves) for loop in loops)
        if reader.curves > MOST_CURVES:
            reader.refuse(parser, f"the drawing has more than {MOST_CURVES} curves")
            reader.curves = 0

    def end(_: str) -> None:
        if reader.skipped:
            reader.skipped -= 1
        else:
            reader.stack.pop()

    def declared(*_: object) -> None:
        reader.refuse(parser, "the drawing declares entities")

    parser.StartElementHandler = start
    parser.EndElementHandler = end
    parser.EntityDeclHandler = declared
    if len(data) > MOST_BYTES:
        return (), (_at_top(file, f"the drawing has {len(data)} bytes", f"accepted: at most {MOST_BYTES}"),)
    try:
        parser.Parse(data, True)
    except expat.ExpatError as error:
        where = Where(file, error.lineno, error.offset + 1)
        return (), (Problem(where=where, message=f"the drawing is no XML: {expat.ErrorString(error.code)}"),)
    if not reader.problems and not reader.loops:
        return (), (_at_top(file, "the drawing has no filled path", "accepted: a drawing of filled paths"),)
    return (() if reader.problems else tuple(reader.loops)), tuple(reader.problems)


def _at_top(file: str, message: str, hint: str) -> Problem:
    return Problem(where=Where(file, 1, 1), message=message, hint=hint)


def _inherited(
    attributes: Mapping[str, str], matrix: Matrix, inherited: Mapping[str, str]
) -> tuple[Matrix, dict[str, str]]:
    """An element's transform and paint. Raises _RefusedError for what is no drawing."""
    for name, value in attributes.items():
        plain = name.rpartition(":")[2]
        if plain.startswith("on"):
            raise _RefusedError(f"the drawing has a script in '{name}'")
        if plain == "href" or "url(" in value or value.strip().lower().startswith("javascript:"):
            raise _RefusedError(f"the drawing refers to something else in '{name}'")
    return _times(matrix, _matrix(attributes.get("transform", ""))), {**inherited, **_style(attributes)}


def _painted(attributes: Mapping[str, str], matrix: Matrix, style: Mapping[str, str]) -> list[Loop]:
    if style.get("display") == "none":
        return []
    if style.get("stroke", "none") != "none":
        raise _RefusedError("the drawing has a stroked path")
    if style.get("fill") == "none":
        return []
    if style.get("fill-rule", "nonzero") != "nonzero":
        raise _RefusedError("the drawing fills by the even-odd rule")
    return list(_loops(attributes.get("d", ""), matrix))


def _style(attributes: Mapping[str, str]) -> dict[str, str]:
    names = ("fill", "stroke", "fill-rule", "display")
    found = {name: attributes[name].strip() for name in names if name in attributes}
    for entry in attributes.get("style", "").split(";"):
        name, _, value = entry.partition(":")
        if name.strip() in names:
            found[name.strip()] = value.strip()
    return found


def _matrix(text: str) -> Matrix:
    found = _IDENTITY
    end = 0
    for match in _TRANSFORM.finditer(text):
        if match.start() != end:
            break
        end = match.end()
        numbers = [float(number) for number in re.findall(_NUMBER, match[2])]
        found = _times(found, _one(match[1], numbers))
    if text.strip() and end != len(text):
        raise _RefusedError(f"the transform '{text[:40]}' is not understood")
    return found


def _one(kind: str, n: list[float]) -> Matrix:
    if kind == "matrix" and len(n) == 6:
        return (n[0], n[1], n[2], n[3], n[4], n[5])
    if kind == "translate" and len(n) in (1, 2):
        return (1.0, 0.0, 0.0, 1.0, n[0], n[1] if len(n) == 2 else 0.0)
    if kind == "scale" and len(n) in (1, 2):
        return (n[0], 0.0, 0.0, n[-1], 0.0, 0.0)
    if kind == "rotate" and len(n) in (1, 3):
        cos, sin = math.cos(math.radians(n[0])), math.sin(math.radians(n[0]))
        turn: Matrix = (cos, sin, -sin, cos, 0.0, 0.0)
        if len(n) == 1:
            return turn
        return _times(_times((1.0, 0.0, 0.0, 1.0, n[1], n[2]), turn), (1.0, 0.0, 0.0, 1.0, -n[1], -n[2]))
    raise _RefusedError(f"the transform '{kind}' has {len(n)} numbers")


def _times(a: Matrix, b: Matrix) -> Matrix:
    return (
        a[0] * b[0] + a[2] * b[1],
        a[1] * b[0] + a[3] * b[1],
        a[0] * b[2] + a[2] * b[3],
        a[1] * b[2] + a[3] * b[3],
        a[0] * b[4] + a[2] * b[5] + a[4],
        a[1] * b[4] + a[3] * b[5] + a[5],
    )


def _loops(d: str, matrix: Matrix) -> Iterator[Loop]:
    """The closed loops of path data, y turned up. Open subpaths are closed, as filling does."""

    def put(z: complex) -> Point:
        a, b, c, e, x, y = matrix
        return Point(a * z.real + c * z.imag + x, -(b * z.real + e * z.imag + y))

    for subpath in _subpaths(d):
        curves: list[Curve] = []
        for piece in subpath:
            points = [put(z) for z in piece]
            if points[0] == points[-1] and len(points) == 2:
                continue
            curves.append(Line(points[0], points[1]) if len(points) == 2 else Cubic(*points))
        if curves and curves[-1].end != curves[0].start:
            curves.append(Line(curves[-1].end, curves[0].start))
        if curves:
            yield Loop(tuple(curves))


def _commands(d: str) -> Iterator[tuple[str, list[float]]]:
    command = ""
    numbers: list[float] = []
    for letter, number, _, other in _TOKEN.findall(d):
        if other:
            raise _RefusedError(f"the path data has '{other}'")
        if letter:
            if numbers:
                raise _RefusedError("the path data breaks off")
            command = letter
            if letter in "zZ":
                yield letter, []
        elif number:
            if not command or command in "zZ":
                raise _RefusedError("the path data has a number out of place")
            numbers.append(float(number))
            if len(numbers) == _ARITY[command.lower()]:
                yield command, numbers
                numbers = []
                command = {"M": "L", "m": "l"}.get(command, command)
    if numbers:
        raise _RefusedError("the path data breaks off")


Piece = tuple[complex, ...]


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
        self.at = found[-1][-1] if found else self.at
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


def _subpaths(d: str) -> Iterator[list[Piece]]:
    """Each subpath as pieces of two or four points."""
    pen = _Pen()
    pieces: list[Piece] = []
    for command, n in _commands(d):
        if command not in "MmZz":
            pieces += pen.drawn(command, n)
            continue
        if pieces:
            yield pieces
        pieces = []
        pen.moved(command, n)
    if pieces:
        yield pieces


def _arc(start: complex, end: complex, n: list[float]) -> list[tuple[complex, ...]]:
    """An elliptical arc as cubics of at most 45 degrees, by SVG 2, appendix B.2 (conversion from endpoints)."""
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
    count = max(1, math.ceil(abs(span) / (math.pi / 4) - 1e-9))
    step = span / count
    handle = 4 / 3 * math.tan(step / 4)

    def on(angle: float) -> complex:
        return centre + complex(rx * math.cos(angle), ry * math.sin(angle)) * spin

    def along(angle: float) -> complex:
        return complex(-rx * math.sin(angle), ry * math.cos(angle)) * spin * handle

    angles = [first + step * k for k in range(count + 1)]
    points = [start, *(on(angle) for angle in angles[1:-1]), end]
    return [
        (points[k], points[k] + along(angles[k]), points[k + 1] - along(angles[k + 1]), points[k + 1])
        for k in range(count)
    ]
