"""SVG files as outlines: the lines of paths and plain shapes, whatever they are painted with, brought to mm."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from msgspec import field

from panelart.canonical import Struct
from panelart.diagnostics import Problem, Where
from panelart.geometry import Arc, Line, Point, Segment, Vector
from panelart.geometry.biarcs import arc_between, as_arcs
from panelart.messages import Said
from panelart.messages import outlines as said
from panelart.messages import outlines_elements as said_of
from panelart.messages.errors import said_by
from panelart.outlines.chains import Drawn
from panelart.outlines.drawing_units import MILLIMETRES, agreed
from panelart.outlines.dxf import Found, Source
from panelart.outlines.limits import CURVE_TOLERANCE, MAX_CURVES, MAX_TOLD
from panelart.outlines.svg_file import Element, Matrix, walk
from panelart.outlines.svg_path import NUMBER, EllipticArc, Piece, RefusedError, end_of, subpaths

_DRAWN: Final = frozenset({"path", "rect", "circle", "ellipse", "line", "polyline", "polygon"})
_HINT: Final = said_of.accepted_elements(elements=sorted(_DRAWN))
_LENGTH: Final = re.compile(rf"\s*({NUMBER})\s*([a-zA-Z%]*)\s*")
_SIZES: Final = {**MILLIMETRES, "pt": 25.4 / 72, "pc": 25.4 / 6, "q": 0.25}
"""What CSS means by its units, in mm; a pixel means nothing to a panel."""

_ROUND: Final = 1e-6
"""Share by which the axes of an ellipse may differ and still make a circle: rounding of a file's figures."""


class _Parts(Struct):
    """What of a file matters: its root, the elements that may be taken, the ids of its groups."""

    roots: list[Element] = field(default_factory=list)
    elements: list[Element] = field(default_factory=list)
    layers: dict[str, None] = field(default_factory=dict)

    def take(self, element: Element) -> None:
        if element.tag == "svg":
            self.roots.append(element)
            if len(self.roots) > 1:
                raise RefusedError(said_of.nested_svg())
        elif element.tag == "g":
            self.layers.update(dict.fromkeys(element.groups))
        else:
            self.elements.append(element)


def read_svg_outline(source: Source) -> Found:
    """The pieces of a drawing in mm, y up; none of them are right when there are problems."""
    found, parts = Found(), _Parts()
    within = source.layers[0] if len(source.layers) == 1 else ""
    found.problems += walk(source.data, source.file, drawn=_DRAWN, take=parts.take, hint=_HINT, within=within)
    if not found.problems and not parts.roots:
        where = Where(source.file, 1, 1)
        found.problems.append(Problem(where=where, says=said.file_not_svg(), accepts=said.save_as_svg()))
    if found.problems:
        return found
    found.problems += _unknown_groups(source, parts)
    scale = agreed(source.unit, *_unit(parts.roots[0]))
    if scale.fault:
        found.problems.append(Problem(where=source.where_unit, says=scale.fault, accepts=scale.hint))
    if not found.problems:
        chosen = set(source.layers)
        _add([one for one in parts.elements if not chosen or chosen & set(one.groups)], scale.millimetres, found)
    return found


def _unknown_groups(source: Source, parts: _Parts) -> Iterator[Problem]:
    """The layers asked for that no group of the file is."""
    for layer in source.layers:
        if layer not in parts.layers:
            message = said.group_unknown(layer=layer)
            hint = said.accepted_groups(ids=tuple(parts.layers)) if parts.layers else said.no_group_ids()
            yield Problem(where=source.where_layer, says=message, accepts=hint)


def _add(elements: list[Element], scale: float, found: Found) -> None:
    """The pieces of the elements, or why they cannot be taken."""
    for element in elements:
        try:
            for segment, error in _segments(element, scale):
                found.drawn.append(Drawn(segment=segment, where=element.where))
                found.error = max(found.error, error)
        except RefusedError as refused:
            found.problems.append(Problem(where=element.where, says=refused.says, accepts=refused.accepts or _HINT))
        except (ValueError, ArithmeticError) as error:
            message = said_of.element_no_curve(element=f"<{element.tag}>", reason=said_by(error))
            found.problems.append(Problem(where=element.where, says=message, accepts=_HINT))
        if len(found.drawn) > MAX_CURVES:
            message = said.too_many_curves(maximum=MAX_CURVES)
            found.problems.append(Problem(where=element.where, says=message, accepts=said.name_the_layer()))
        if len(found.problems) >= MAX_TOLD or len(found.drawn) > MAX_CURVES:
            return


def _unit(root: Element) -> tuple[float | None, Said]:
    """Millimetres for one user unit, where width and viewBox say it, and what they say in words."""
    width, height = (_LENGTH.fullmatch(root.attributes.get(name, "")) for name in ("width", "height"))
    if width is None or height is None:
        return None, said.svg_size_missing()
    size = _SIZES.get(width[2].lower())
    if size is None or width[2].lower() != height[2].lower():
        return None, said.svg_size_without_unit(width=width[0].strip(), height=height[0].strip())
    box = re.findall(NUMBER, root.attributes.get("viewBox", ""))
    if len(box) != 4:
        return None, said.svg_viewbox_missing()
    across, up = float(box[2]), float(box[3])
    if not (across > 0.0 and up > 0.0 and float(width[1]) > 0.0 and float(height[1]) > 0.0):
        return None, said.svg_size_not_positive()
    wide, high = float(width[1]) * size / across, float(height[1]) * size / up
    if abs(wide / high - 1.0) > 1e-4:
        return None, said.svg_scale_uneven(across=wide, upright=high)
    return wide, said.svg_scale_found(unit=wide)


def _segments(element: Element, scale: float) -> Iterator[tuple[Segment, float]]:
    if element.style.get("display") == "none":
        return
    lay = _Lay(element.matrix, scale)
    for pieces, closed in _pieces(element):
        for piece in pieces:
            yield from lay.segments(piece)
        if closed and pieces:
            first = pieces[0].start if isinstance(pieces[0], EllipticArc) else pieces[0][0]
            yield from lay.segments((end_of(pieces[-1]), first))


def _pieces(element: Element) -> Iterator[tuple[list[Piece], bool]]:
    """The subpaths of an element. Raises RefusedError."""
    match element.tag:
        case "path":
            yield from subpaths(element.attributes.get("d", ""))
        case "rect":
            yield from subpaths(_rectangle(element))
        case "circle" | "ellipse":
            yield _ellipse(element), False
        case "line":
            x1, y1, x2, y2 = (_number(element, name) for name in ("x1", "y1", "x2", "y2"))
            yield [(complex(x1, y1), complex(x2, y2))], False
        case _:
            numbers = [float(number) for number in re.findall(NUMBER, element.attributes.get("points", ""))]
            if len(numbers) < 4 or len(numbers) % 2 or not all(map(math.isfinite, numbers)):
                raise RefusedError(said_of.points_invalid(element=f"<{element.tag}>"))
            places = [complex(*numbers[k : k + 2]) for k in range(0, len(numbers), 2)]
            yield list(pairwise(places)), element.tag == "polygon"


def _number(element: Element, name: str) -> float:
    """A length in user units, 0 where it is not written. Raises RefusedError."""
    text = element.attributes.get(name, "0")
    match = _LENGTH.fullmatch(text)
    if match is None or match[2] or not math.isfinite(float(match[1])):
        raise RefusedError(said_of.attribute_not_a_number(element=f"<{element.tag}>", name=name, value=text))
    return float(match[1])


def _rectangle(element: Element) -> str:
    x, y, width, height = (_number(element, name) for name in ("x", "y", "width", "height"))
    rx = _number(element, "rx" if "rx" in element.attributes else "ry")
    ry = _number(element, "ry" if "ry" in element.attributes else "rx")
    if not (width > 0.0 and height > 0.0 and rx >= 0.0 and ry >= 0.0):
        raise RefusedError(said_of.rect_without_size())
    rx, ry = min(rx, width / 2), min(ry, height / 2)
    if not rx or not ry:
        return f"M{x!r},{y!r}h{width!r}v{height!r}h{-width!r}z"
    right, bottom = x + width, y + height
    return (
        f"M{x + rx!r},{y!r}L{right - rx!r},{y!r}A{rx!r},{ry!r} 0 0 1 {right!r},{y + ry!r}"
        f"L{right!r},{bottom - ry!r}A{rx!r},{ry!r} 0 0 1 {right - rx!r},{bottom!r}"
        f"L{x + rx!r},{bottom!r}A{rx!r},{ry!r} 0 0 1 {x!r},{bottom - ry!r}"
        f"L{x!r},{y + ry!r}A{rx!r},{ry!r} 0 0 1 {x + rx!r},{y!r}z"
    )


def _ellipse(element: Element) -> list[Piece]:
    names = ("r", "r") if element.tag == "circle" else ("rx", "ry")
    rx, ry = (_number(element, name) for name in names)
    if not (rx > 0.0 and ry > 0.0):
        raise RefusedError(said_of.radius_missing(element=f"<{element.tag}>"))
    centre = complex(_number(element, "cx"), _number(element, "cy"))
    start = centre + rx
    return [EllipticArc(start=start, end=start, centre=centre, u=complex(rx), v=1j * ry, first=0.0, span=2 * math.pi)]


class _Lay:
    """Brings pieces from the drawing's units, y down, to mm, y up."""

    def __init__(self, matrix: Matrix, scale: float) -> None:
        self._matrix = matrix
        self._scale = scale

    def segments(self, piece: Piece) -> Iterator[tuple[Segment, float]]:
        """A piece as lines and arcs, each with how far it is off what was drawn."""
        if isinstance(piece, EllipticArc):
            yield from self._elliptic(piece)
            return
        points = [self._point(z) for z in piece]
        if len(points) == 2:
            if points[0].distance(points[1]) > 1e-6:
                yield Line(points[0], points[1]), 0.0
            return
        yield from self._cubic(points)

    def _point(self, z: complex) -> Point:
        a, b, c, d, e, f = self._matrix
        x, y = a * z.real + c * z.imag + e, b * z.real + d * z.imag + f
        placed = Point(round(x * self._scale, 9) + 0.0, round(-y * self._scale, 9) + 0.0)
        if not (abs(placed.x) < 1e9 and abs(placed.y) < 1e9):
            raise RefusedError(said_of.coordinates_out_of_range(element=said_of.drawing()))
        return placed

    def _vector(self, z: complex) -> Vector:
        a, b, c, d, _, _ = self._matrix
        return Vector(
            (a * z.real + c * z.imag) * self._scale,
            -(b * z.real + d * z.imag) * self._scale,
        )

    def _elliptic(self, piece: EllipticArc) -> Iterator[tuple[Segment, float]]:
        u, v = self._vector(piece.u), self._vector(piece.v)
        size = max(u.length, v.length)
        if not 0.0 < size < 1e9:
            raise RefusedError(said_of.arc_without_size())
        side = math.copysign(1.0, u.cross(v))
        if abs(u.length - v.length) <= _ROUND * size and abs(u.dot(v)) <= _ROUND * size * size:
            if abs(piece.span) > 2 * math.pi - 1e-9:
                yield Arc(self._point(piece.centre), round(size, 9), 0.0, side * 360.0), 0.0
                return
            start, end = self._point(piece.start), self._point(piece.end)
            if start.distance(end) > 1e-6:
                yield arc_between(start, end, math.tan(side * piece.span / 4)), 0.0
            return

        def point(share: float) -> Point:
            return self._point(piece.at(piece.first + share * piece.span))

        def slope(share: float) -> Vector:
            angle = piece.first + share * piece.span
            return self._vector((piece.v * math.cos(angle) - piece.u * math.sin(angle)) * piece.span)

        quarters = math.ceil(abs(piece.span) / (math.pi / 2) - 1e-9)
        arcs = as_arcs(point, slope, [step / quarters for step in range(quarters + 1)], CURVE_TOLERANCE)
        yield from ((segment, arcs.error) for segment in arcs.segments)

    def _cubic(self, points: list[Point]) -> Iterator[tuple[Segment, float]]:
        start, first, second, end = points

        def point(t: float) -> Point:
            s = 1.0 - t
            weights = (s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t)
            return Point(
                math.fsum(w * p.x for w, p in zip(weights, points, strict=True)),
                math.fsum(w * p.y for w, p in zip(weights, points, strict=True)),
            )

        def slope(t: float) -> Vector:
            s = 1.0 - t
            legs = (first.minus(start), second.minus(first), end.minus(second))
            weights = (3 * s * s, 6 * s * t, 3 * t * t)
            return Vector(
                math.fsum(w * leg.x for w, leg in zip(weights, legs, strict=True)),
                math.fsum(w * leg.y for w, leg in zip(weights, legs, strict=True)),
            )

        if max(start.distance(other) for other in points) < 1e-6:
            return
        arcs = as_arcs(point, slope, (0.0, 1.0), CURVE_TOLERANCE)
        yield from ((segment, arcs.error) for segment in arcs.segments)
