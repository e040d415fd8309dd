"""A DXF file read tag by tag, without the library that wrote it: group codes and values, two lines each (ASCII DXF)."""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator, Sequence
from typing import Final, TypeAlias

from panelart.readback.loops import Loop, arc, points

Tag: TypeAlias = tuple[int, str]

UNITS: Final = {"1": 25.4, "4": 1.0, "5": 10.0, "6": 1000.0}
"""$INSUNITS of the DXF reference (inches, millimetres, centimetres, metres), in mm."""


def dxf_loops(data: bytes) -> list[Loop]:
    """The circles, arcs, lines and polylines of the entities. Raises ValueError or LookupError for what is no DXF."""
    tags = _tags(data)
    scale = UNITS[_variable(tags, "$INSUNITS")]
    return [_loop(kind, content, scale) for kind, content in _entities(tags) if kind in _SHAPES]


def _tags(data: bytes) -> list[Tag]:
    lines = data.decode("utf-8", "replace").splitlines()
    return [(int(code), value.strip()) for code, value in zip(lines[::2], lines[1::2], strict=False)]


def _variable(tags: Sequence[Tag], name: str) -> str:
    at = tags.index((9, name))
    return tags[at + 1][1]


def _entities(tags: Sequence[Tag]) -> Iterator[tuple[str, list[Tag]]]:
    begin = tags.index((2, "ENTITIES")) + 1
    end = tags.index((0, "ENDSEC"), begin)
    kind, content = "", list[Tag]()
    for code, value in tags[begin:end]:
        if code == 0:
            if kind:
                yield kind, content
            kind, content = value, []
        else:
            content.append((code, value))
    if kind:
        yield kind, content


_SHAPES: Final = ("CIRCLE", "ARC", "LINE", "LWPOLYLINE")


def _loop(kind: str, content: Sequence[Tag], scale: float) -> Loop:
    value = dict(content)

    def number(code: int) -> float:
        return float(value[code]) * scale

    if kind == "LWPOLYLINE":
        along = _polyline(content, scale)
    elif kind == "LINE":
        along = [complex(number(10), number(20)), complex(number(11), number(21))]
    else:
        centre, radius = complex(number(10), number(20)), number(40)
        start, sweep = 0.0, math.tau
        if kind == "ARC":
            start = math.radians(float(value[50]))
            sweep = math.radians((float(value[51]) - float(value[50])) % 360.0)
        along = [centre + cmath.rect(radius, start), *arc(centre, radius, start, sweep)]
    return Loop(points=points(along), layer=value[8])


def _polyline(content: Sequence[Tag], scale: float) -> list[complex]:
    corners: list[complex] = []
    bulges: list[float] = []
    closed = False
    for code, text in content:
        if code == 70:
            closed = bool(int(text) & 1)
        elif code == 10:
            corners.append(complex(float(text) * scale, 0.0))
            bulges.append(0.0)
        elif code == 20:
            corners[-1] += 1j * float(text) * scale
        elif code == 42:
            bulges[-1] = float(text)
    ends = [*corners[1:], corners[0]] if closed else corners[1:]
    along = [corners[0]]
    for start, end, bulge in zip(corners, ends, bulges, strict=False):
        along += _bulged(start, end, bulge)
    return along


def _bulged(start: complex, end: complex, bulge: float) -> list[complex]:
    """Along a piece of a polyline: the bulge is the tangent of a quarter of the angle that it turns through."""
    if bulge == 0.0 or start == end:
        return [end]
    sweep = 4.0 * math.atan(bulge)
    centre = (start + end) / 2 + 1j * (end - start) / (2.0 * math.tan(sweep / 2.0))
    radius, first = cmath.polar(start - centre)
    return arc(centre, radius, first, sweep)
