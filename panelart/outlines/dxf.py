"""DXF files: lines, arcs, circles, polylines with bulges, ellipses and splines of the chosen layers, brought to mm."""

from __future__ import annotations

import logging
import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from io import StringIO
from typing import Any, Final

from msgspec import field

from panelart.canonical import Struct
from panelart.diagnostics import Problem, Where, did_you_mean
from panelart.geometry import Arc, Line, Point, Segment, Vector
from panelart.geometry.biarcs import arc_between, as_arcs
from panelart.messages import Said
from panelart.messages import outlines as said
from panelart.messages import outlines_elements as said_of
from panelart.messages.errors import said_by
from panelart.outlines.chains import Drawn
from panelart.outlines.drawing_units import agreed
from panelart.outlines.limits import CURVE_TOLERANCE, MAX_BYTES, MAX_CURVES, MAX_POINTS, MAX_TOLD
from panelart.outlines.svg_path import RefusedError

_LEVEL: Final = 1e-6
"""Heights off the plane, in the drawing's unit, that are rounding."""

_UNITS: Final[Mapping[int, tuple[str, float]]] = {
    1: ("in", 25.4),
    2: ("ft", 304.8),
    4: ("mm", 1.0),
    5: ("cm", 10.0),
    6: ("m", 1000.0),
    8: ("µin", 0.0000254),
    9: ("thou", 0.0254),
    10: ("yd", 914.4),
    13: ("µm", 0.001),
    14: ("dm", 100.0),
}
"""$INSUNITS of the DXF reference, each in mm."""

_HINT: Final = said_of.accepted_elements(
    elements=("LINE", "ARC", "CIRCLE", "LWPOLYLINE", "POLYLINE", "ELLIPSE", "SPLINE")
)

Place = Callable[[float, float], Point]


class Source(Struct, frozen=True, kw_only=True):
    """Which file, which of its layers ('' first: all), in which unit ('' for what the file says)."""

    data: bytes
    file: str
    layers: tuple[str, ...]
    unit: str
    where_layer: Where
    where_unit: Where


class Found(Struct):
    """What was read: pieces in mm, the most that a curve was moved, and what is wrong."""

    drawn: list[Drawn] = field(default_factory=list)
    error: float = 0.0
    problems: list[Problem] = field(default_factory=list)


def read_dxf(source: Source) -> Found:
    """The pieces of a drawing in mm; none of them are right when there are problems."""
    found = Found()
    document = _document(source, found)
    if document is None:
        return found
    code = document.header.get("$INSUNITS", 0)
    from ezdxf.lldxf.const import DXFError

    scale = agreed(source.unit, *_unit(code))
    if scale.fault:
        found.problems.append(Problem(where=source.where_unit, says=scale.fault, accepts=scale.hint))
        return found
    entities = _chosen(document, source, found)
    lines = _lines_by_handle(source.data)
    for entity in entities:
        where = Where(source.file, lines.get(str(entity.dxf.handle), 1), 1)
        try:
            for segment, error in _segments(entity, scale.millimetres):
                found.drawn.append(Drawn(segment=segment, where=where))
                found.error = max(found.error, error)
        except RefusedError as refused:
            found.problems.append(Problem(where=where, says=refused.says, accepts=refused.accepts or _HINT))
        except (ValueError, ArithmeticError, TypeError, DXFError) as error:
            message = _no_curve(entity.dxftype(), error)
            found.problems.append(Problem(where=where, says=message, accepts=_HINT))
        if len(found.drawn) > MAX_CURVES or len(found.problems) >= MAX_TOLD:
            break
    if len(found.drawn) > MAX_CURVES:
        message = said.too_many_curves(maximum=MAX_CURVES)
        found.problems.append(Problem(where=Where(source.file, 1, 1), says=message, accepts=said.name_the_layer()))
    return found


def _no_curve(kind: str, error: Exception) -> Said:
    why = said_by(error)
    return said_of.element_no_curve(element=kind, reason=why) if why else said_of.element_bad_numbers(element=kind)


def _document(source: Source, found: Found) -> Any:
    """The file read by ezdxf, None when it is no DXF."""
    fault: Said = ""
    hint: Said = said.save_as_text_dxf()
    if len(source.data) > MAX_BYTES:
        fault, hint = said.file_too_large(size=len(source.data), maximum=MAX_BYTES), said.remove_the_rest()
    elif source.data[:4] == b"AC10":
        fault = said.file_is_dwg()
    elif source.data[:18] == b"AutoCAD Binary DXF":
        fault = said.file_is_binary_dxf()
    if not fault:
        from ezdxf.filemanagement import read

        logging.getLogger("ezdxf").addHandler(logging.NullHandler())
        try:
            # Not its lenient reader, which takes a figure that it cannot read for another.
            return read(StringIO(_text(source.data)))
        except Exception as error:  # noqa: BLE001 - a broken file fails anywhere in the library: whatever it raises
            why = str(error).splitlines()[0][:120] if str(error) else type(error).__name__
            fault = said.file_not_dxf(reason=why)
    found.problems.append(Problem(where=Where(source.file, 1, 1), says=fault, accepts=hint))
    return None


def _text(data: bytes) -> str:
    """The file as text: UTF-8, as it is since R2007, else in the code page that its header names. Raises ValueError."""
    from ezdxf.tools.codepage import toencoding

    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError:
        lines = data[:20_000].splitlines()
        page = next((lines[at + 2] for at, line in enumerate(lines[:-2]) if line.strip() == b"$DWGCODEPAGE"), b"")
        return data.decode(toencoding(page.strip().decode("ascii", "replace"))).replace("\r\n", "\n")


def _unit(code: object) -> tuple[float | None, Said]:
    """Millimetres for a unit of $INSUNITS, and what it says in words."""
    if not isinstance(code, int) or code == 0:
        return None, said.insunits_unset()
    if code not in _UNITS:
        return None, said.insunits_unsupported(code=code)
    name, size = _UNITS[code]
    return size, said.insunits_found(code=code, unit=name)


def _layer(entity: Any) -> str:
    return str(entity.dxf.layer) if entity.dxf.hasattr("layer") else "0"


def _chosen(document: Any, source: Source, found: Found) -> list[Any]:
    """The entities of the model space on the chosen layers."""
    entities = list(document.modelspace())
    by_layer: dict[str, list[Any]] = {}
    names: dict[str, str] = {}
    for entity in entities:
        name = _layer(entity)
        names.setdefault(name.casefold(), name)
        by_layer.setdefault(name.casefold(), []).append(entity)
    if not source.layers:
        return entities
    for layer in source.layers:
        if layer.casefold() not in by_layer:
            hint = did_you_mean(layer, names.values(), said.layers()) if names else ""
            message = said.layer_empty(layer=layer, layers=sorted(names.values()))
            found.problems.append(Problem(where=source.where_layer, says=message, accepts=hint))
    wanted = {layer.casefold() for layer in source.layers}
    return [entity for entity in entities if _layer(entity).casefold() in wanted]


def _lines_by_handle(data: bytes) -> dict[str, int]:
    """The line of the file on which each entity starts, by its handle (group code 5)."""
    lines = data.splitlines()
    found: dict[str, int] = {}
    starts = 1
    for number in range(0, len(lines) - 1, 2):
        code = lines[number].strip()
        if code == b"0":
            starts = number + 1
        elif code == b"5":
            found.setdefault(lines[number + 1].strip().decode("latin-1").upper(), starts)
    return found


def _segments(entity: Any, scale: float) -> Iterator[tuple[Segment, float]]:
    """The lines and arcs of an entity in mm, each with how far it is off what was drawn."""
    kind = entity.dxftype()
    if entity.dxf.hasattr("thickness") and entity.dxf.thickness:
        raise RefusedError(said_of.entity_has_thickness(entity=kind), said_of.flatten_the_drawing())
    match kind:
        case "LINE":
            _require_level(kind, entity.dxf.start.z, entity.dxf.end.z)
            put = _place(kind, (0.0, 0.0, 1.0), scale)
            ends = put(entity.dxf.start.x, entity.dxf.start.y), put(entity.dxf.end.x, entity.dxf.end.y)
            if ends[0].distance(ends[1]) > _LEVEL:
                yield Line(*ends), 0.0
        case "CIRCLE" | "ARC":
            yield _round(entity, kind, scale), 0.0
        case "LWPOLYLINE":
            _require_level(kind, entity.dxf.elevation)
            put = _place(kind, entity.dxf.extrusion, scale)
            corners = [(float(x), float(y), float(bulge)) for x, y, bulge in entity.get_points("xyb")]
            yield from _polyline(corners, put, closed=entity.closed)
        case "POLYLINE":
            yield from _old_polyline(entity, scale)
        case "ELLIPSE":
            yield from _ellipse(entity, scale)
        case "SPLINE":
            yield from _spline(entity, scale)
        case "INSERT":
            raise RefusedError(said_of.block_reference(name=str(entity.dxf.name)), said_of.explode_the_block())
        case _:
            raise RefusedError(said_of.element_unsupported(element=kind))


def _require_level(kind: str, *heights: float) -> None:
    if any(abs(height) > _LEVEL for height in heights):
        raise RefusedError(
            said_of.entity_off_plane(entity=kind, height=max(heights, key=abs)), said_of.flatten_the_drawing()
        )


def _place(kind: str, extrusion: Sequence[float], scale: float) -> Place:
    """From the entity's own plane to mm. Seen from behind (0, 0, -1), x runs the other way."""
    x, y, z = (float(part) for part in extrusion)
    if abs(x) > _LEVEL or abs(y) > _LEVEL or not z:
        raise RefusedError(said_of.entity_in_other_plane(entity=kind), said_of.flatten_the_drawing())
    across = math.copysign(scale, z)

    def put(x: float, y: float) -> Point:
        placed = Point(round(float(x) * across, 9) + 0.0, round(float(y) * scale, 9) + 0.0)
        if not (abs(placed.x) < 1e9 and abs(placed.y) < 1e9):
            raise RefusedError(said_of.coordinates_out_of_range(element=kind))
        return placed

    return put


def _round(entity: Any, kind: str, scale: float) -> Arc:
    _require_level(kind, entity.dxf.center.z)
    put = _place(kind, entity.dxf.extrusion, scale)
    centre = put(entity.dxf.center.x, entity.dxf.center.y)
    radius = round(abs(float(entity.dxf.radius)) * scale, 9)
    if kind == "CIRCLE":
        return Arc(centre, radius, 0.0, 360.0)
    first = float(entity.dxf.start_angle)
    sweep = (float(entity.dxf.end_angle) - first) % 360.0 or 360.0
    if entity.dxf.extrusion[2] < 0:
        return Arc(centre, radius, (180.0 - first) % 360.0, -sweep)
    return Arc(centre, radius, first % 360.0, sweep)


def _polyline(
    corners: Sequence[tuple[float, float, float]], put: Place, *, closed: bool
) -> Iterator[tuple[Segment, float]]:
    seen_from_behind = put(1.0, 0.0).x < 0.0
    count = len(corners)
    for number, (x, y, bulge) in enumerate(corners if closed else corners[:-1]):
        after = corners[(number + 1) % count]
        start, end = put(x, y), put(after[0], after[1])
        if not abs(bulge) < 1e6:
            raise RefusedError(said_of.polyline_bulge_invalid(bulge=bulge))
        if start.distance(end) > _LEVEL:
            yield arc_between(start, end, -bulge if seen_from_behind else bulge), 0.0


def _old_polyline(entity: Any, scale: float) -> Iterator[tuple[Segment, float]]:
    if not entity.is_2d_polyline:
        raise RefusedError(said_of.polyline_not_flat(), said_of.flatten_the_drawing())
    if entity.dxf.get("smooth_type", 0):
        raise RefusedError(said_of.polyline_smoothed(), said_of.convert_the_polyline())
    _require_level("POLYLINE", entity.dxf.get("elevation", (0.0, 0.0, 0.0))[2])
    put = _place("POLYLINE", entity.dxf.extrusion, scale)
    corners = [(v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0.0)) for v in entity.vertices]
    yield from _polyline(corners, put, closed=entity.is_closed)


def _ellipse(entity: Any, scale: float) -> Iterator[tuple[Segment, float]]:
    tool = entity.construction_tool()
    _require_level("ELLIPSE", tool.center.z, tool.major_axis.z, tool.minor_axis.z)
    put = _place("ELLIPSE", (0.0, 0.0, 1.0), scale)
    centre, major, minor = tool.center, tool.major_axis, tool.minor_axis
    first, last = tool.start_param, tool.end_param
    if last <= first + 1e-12:
        last += math.tau

    def point(t: float) -> Point:
        across, up = math.cos(t), math.sin(t)
        return put(centre.x + major.x * across + minor.x * up, centre.y + major.y * across + minor.y * up)

    def slope(t: float) -> Vector:
        across, up = math.cos(t), math.sin(t)
        return Vector(scale * (minor.x * across - major.x * up), scale * (minor.y * across - major.y * up))

    quarters = math.ceil((last - first) / (math.pi / 2) - 1e-9)
    yield from _curve(point, slope, [first + (last - first) * step / quarters for step in range(quarters + 1)])


def _spline(entity: Any, scale: float) -> Iterator[tuple[Segment, float]]:
    if not entity.control_points:
        raise RefusedError(said_of.spline_by_fit_points(), said_of.export_control_points())
    if len(entity.control_points) > MAX_POINTS:
        says = said_of.spline_too_long(count=len(entity.control_points), maximum=MAX_POINTS)
        raise RefusedError(says, said_of.simplify_the_spline())
    _require_level("SPLINE", *(float(point[2]) for point in entity.control_points))
    tool = entity.construction_tool()
    put = _place("SPLINE", (0.0, 0.0, 1.0), scale)

    def point(t: float) -> Point:
        at = tool.point(t)
        return put(at.x, at.y)

    def slope(t: float) -> Vector:
        way = tool.derivative(t, 1)[1]
        return Vector(float(scale * way.x), float(scale * way.y))

    knots, degree = list(tool.knots()), tool.degree
    breaks = sorted({float(knot) for knot in knots[degree : len(knots) - degree]})
    yield from _curve(point, slope, breaks)


def _curve(
    point: Callable[[float], Point], slope: Callable[[float], Vector], breaks: Sequence[float]
) -> Iterator[tuple[Segment, float]]:
    arcs = as_arcs(point, slope, breaks, CURVE_TOLERANCE)
    for segment in arcs.segments:
        yield segment, arcs.error
