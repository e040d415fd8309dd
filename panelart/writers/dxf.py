"""A drawing as DXF R2000 for the machines that cut: closed polylines with bulges, and circles."""

from __future__ import annotations

import contextlib
import math
import textwrap
import threading
from collections.abc import Iterator, Sequence
from io import StringIO
from typing import Any, Final

from panelart.canonical import Struct
from panelart.drawing.cutlayer import NOTE
from panelart.drawing.layers import NOTE_HEIGHT, NOTES
from panelart.drawing.representation import Drawing, Item, Layer
from panelart.geometry import Arc, Box, Line, Point
from panelart.lettering.outline import Cubic, Loop, bounds
from panelart.model.machine import UNLAWFUL, USUAL, Lettered, LineType, Machine, Unit, Zero
from panelart.writers.arcs import pieces, whole_circle

CHAIN_TOLERANCE: Final = 1e-6
"""How far, in mm, a curve may start from where the one before it ended."""

_PLACES: Final = 6
"""Decimals of the unit: a nanometre or 25, so that turned contours do not carry the dust of floating point."""

_BULGE_PLACES: Final = 12
_MAX_DEG: Final = 180.0
"""Arcs of more than half a circle (bulge over 1) are lawful, but older CAM readers take the short way."""

_LINE_TYPES: Final = {
    LineType.CONTINUOUS: ("CONTINUOUS", ()),
    LineType.DASHED: ("DASHED", (4.0, -1.5)),
    LineType.DASH_DOT: ("DASHDOT", (4.0, -1.5, 0.0, -1.5)),
    LineType.DOTTED: ("DOT", (0.0, -1.5)),
}
"""Names of line types in the file, and their pattern in mm: pen down, pen up below nought, a dot nought."""

_COMMENT_WIDTH: Final = 200
"""Characters of a line of comment: lines of text in R2000 have up to 255."""

_OPTIONS: Final = threading.Lock()
"""Held while a global option of ezdxf is changed, so that two threads cannot undo each other's change."""


def dxf(drawing: Drawing, machine: Machine = USUAL, *, in_order: bool = False) -> bytes:
    """The contours of the drawing on layers of one colour and line type each, in mm as every machine takes them.

    `machine` has names, colours and line types of its own, its unit and its origin, and says whether notes are written,
    which are left out otherwise. A full circle is a CIRCLE, every other loop an LWPOLYLINE, closed when the loop is;
    arcs of more than half a circle are written as two. Contours within others come first, then those further left, then
    those further down, so that a machine that cuts in the order of the file never cuts loose what it has still to
    cut; `in_order` keeps them as the drawing has them, layer by layer. Paints, widths and labels are not written: the
    layer says what is to be done.

    Raises ValueError for cubics (a cut layer has none), for a loop whose curves do not meet, for a layer
    name that DXF does not allow or that two layers share but for upper and lower case, and for figures
    that are not finite.
    """
    _require_lawful(drawing, machine)
    layers = [layer for layer in drawing.layers if machine.line_of(layer.name).written]
    frame = _Frame(zero=_zero(drawing, machine), unit=machine.unit.mm)
    found = [contour for layer in layers for contour in _contours(layer, machine)]
    contours = found if in_order else _ordered(found)
    with _fixed_metadata():
        return _document(drawing, layers, contours, machine, frame)


class _Frame(Struct, frozen=True, kw_only=True):
    """From the drawing's mm to the file's figures."""

    zero: Point
    unit: float

    def at(self, point: Point) -> tuple[float, float]:
        """A place, rounded."""
        return self.length(point.x - self.zero.x), self.length(point.y - self.zero.y)

    def length(self, mm: float) -> float:
        """A length, rounded to _PLACES of the unit, never minus zero."""
        return round(mm / self.unit, _PLACES) + 0.0


def _zero(drawing: Drawing, machine: Machine) -> Point:
    match machine.zero:
        case Zero.PANEL:
            return drawing.zero
        case Zero.DATUM:
            return drawing.datum
        case Zero.CORNER:
            return Point(drawing.trim.left, drawing.trim.bottom)
        case Zero.MIDDLE:
            return drawing.trim.centre


@contextlib.contextmanager
def _fixed_metadata() -> Iterator[None]:
    """No time, no random identifiers and no library version in the file, so that it is the same every run."""
    import ezdxf

    options = ezdxf.options  # type: ignore[attr-defined]  # documented, though not re-exported by name
    with _OPTIONS:
        before = options.write_fixed_meta_data_for_testing
        options.write_fixed_meta_data_for_testing = True
        try:
            yield
        finally:
            options.write_fixed_meta_data_for_testing = before


class _Contour(Struct, frozen=True, kw_only=True):
    """One loop on its layer, with its exact box."""

    layer: str
    loop: Loop
    box: Box
    text: str = ""


def _contours(layer: Layer, machine: Machine) -> Iterator[_Contour]:
    for item in layer.items:
        if layer.name == NOTES and item.name == NOTE and machine.text is Lettered.TEXT:
            yield _Contour(layer=layer.name, loop=item.shape[0], box=bounds(item.shape), text=item.label)
            continue
        for loop in item.outline:
            if loop.curves:
                _require_cuttable(loop, item, layer.name)
                yield _Contour(layer=layer.name, loop=loop, box=bounds((loop,)))


def _require_cuttable(loop: Loop, item: Item, layer: str) -> None:
    what = f"layer {layer!r}, {item.name or item.label or 'a contour'}"
    if any(isinstance(curve, Cubic) for curve in loop.curves):
        raise ValueError(f"{what}: cut contours are lines and arcs; a cubic curve cannot be written as DXF")
    joints = list(zip(loop.curves, loop.curves[1:], strict=False))
    if loop.closed:
        joints.append((loop.curves[-1], loop.curves[0]))
    for before, after in joints:
        gap = before.end.distance(after.start)
        # Written so that a gap that is not a number is refused as well.
        if not gap <= CHAIN_TOLERANCE:
            x, y = before.end
            raise ValueError(f"{what}: the contour is broken by {gap:g} mm at {x:g}, {y:g}")


def _ordered(contours: Sequence[_Contour]) -> list[_Contour]:
    """Inner before outer, by how many other boxes hold a contour's box; then by x, then by y."""
    depths = _depths([contour.box for contour in contours])

    def place(pair: tuple[int, _Contour]) -> tuple[int, float, float]:
        depth, contour = pair
        return -depth, _tidy(contour.box.left), _tidy(contour.box.bottom)

    return [contour for _, contour in sorted(zip(depths, contours, strict=True), key=place)]


def _depths(boxes: Sequence[Box]) -> list[int]:
    """How many of the other boxes hold each box; of two equal boxes neither holds the other."""
    found = [0] * len(boxes)
    # From left to right, the wider first, so that whatever holds a box has been met before it.
    open_boxes: list[Box] = []
    for i in sorted(range(len(boxes)), key=lambda i: (boxes[i].left, -boxes[i].right)):
        box = boxes[i]
        open_boxes = [other for other in open_boxes if other.right >= box.left]
        found[i] = sum(other.contains(box) and not box.contains(other) for other in open_boxes)
        open_boxes.append(box)
    return found


def _document(
    drawing: Drawing, layers: Sequence[Layer], contours: Sequence[_Contour], machine: Machine, frame: _Frame
) -> bytes:
    from ezdxf import units
    from ezdxf.filemanagement import new

    inch = machine.unit is Unit.INCH
    document = new("R2000", setup=False, units=units.IN if inch else units.MM)
    document.header["$MEASUREMENT"] = 0 if inch else 1
    _add_layers(document, layers, machine)
    space = document.modelspace()
    for contour in contours:
        _add(space, contour, machine.line_of(contour.layer).name or contour.layer, frame)
    around = Box.around(contour.box for contour in contours) if contours else drawing.page
    low = (*frame.at(Point(around.left, around.bottom)), 0.0)
    high = (*frame.at(Point(around.right, around.top)), 0.0)
    space.reset_extents(low, high)
    # ezdxf copies these into the header as it saves, but not when a corner is at 0, 0, 0.
    document.header["$EXTMIN"], document.header["$EXTMAX"] = low, high
    text = StringIO()
    document.write(text)
    written: bytes = document.encode(f"{_comments(drawing)}{text.getvalue()}")
    return written


def _comments(drawing: Drawing) -> str:
    """What the file is and is made from, as comments ahead of everything (group code 999), which readers pass over."""
    told = (
        ("Number", drawing.number),
        ("Revision", drawing.revision),
        ("Spec", drawing.spec),
        ("Title", _plain(drawing.title)),
        ("Note", _plain(drawing.note)),
    )
    return "".join(
        f"999\n{line}\n"
        for what, said in told
        if said
        for line in textwrap.wrap(f"{what}: {' '.join(said.split())}", _COMMENT_WIDTH)
    )


def _plain(text: str) -> str:
    """A text in ASCII; other characters are written as R2000 writes them."""
    return "".join(sign if sign.isascii() else f"\\U+{ord(sign):04X}" for sign in text)


def _require_lawful(drawing: Drawing, machine: Machine) -> None:
    """Names that a file can have, and no two of the drawing alike. Raises ValueError."""
    seen: dict[str, str] = {}
    for layer in drawing.layers:
        name = machine.line_of(layer.name).name or layer.name
        if not name or UNLAWFUL.search(name):
            raise ValueError(f"layer {name!r}: DXF does not allow this name")
        key = layer.name.casefold()
        if seen.setdefault(key, layer.name) != layer.name:
            raise ValueError(f"layers {seen[key]!r} and {layer.name!r} are one and the same in DXF")


def _add_layers(document: Any, layers: Sequence[Layer], machine: Machine) -> None:
    """The layers by the names of the machine; several that it calls alike are one."""
    for layer in layers:
        own = machine.line_of(layer.name)
        kind, pattern = _LINE_TYPES[own.line or LineType.CONTINUOUS]
        if kind not in document.linetypes:
            lengths = [length / machine.unit.mm for length in pattern]
            document.linetypes.add(kind, [math.fsum(map(abs, lengths)), *lengths], description=kind.lower())
        if own.name not in document.layers:
            document.layers.add(own.name, color=own.colour, linetype=kind)


def _add(space: Any, contour: _Contour, layer: str, frame: _Frame) -> None:
    attributes: dict[str, Any] = {"layer": layer}
    if contour.text:
        attributes |= {"insert": frame.at(Point(contour.box.left, contour.box.bottom))}
        space.add_text(contour.text, height=frame.length(NOTE_HEIGHT), dxfattribs=attributes)
        return
    circle = whole_circle(contour.loop)
    if circle is not None:
        space.add_circle(frame.at(circle.centre), frame.length(circle.radius), dxfattribs=attributes)
        return
    vertices = list(_vertices(contour.loop, frame))
    space.add_lwpolyline(vertices, format="xyb", close=contour.loop.closed, dxfattribs=attributes)


def _vertices(loop: Loop, frame: _Frame) -> Iterator[tuple[float, float, float]]:
    """x, y and bulge: the tangent of a quarter of the sweep, positive counter-clockwise."""
    for curve in loop.curves:
        match curve:
            case Line(start=start):
                yield *frame.at(start), 0.0
            case Arc():
                for piece in pieces(curve, _MAX_DEG):
                    yield *frame.at(piece.start), round(piece.bulge, _BULGE_PLACES)
            case Cubic():
                raise ValueError("a cubic curve cannot be written as DXF")
    if not loop.closed:
        yield *frame.at(loop.curves[-1].end), 0.0


def _tidy(value: float) -> float:
    """Rounded to _PLACES, never minus zero."""
    return round(value, _PLACES) + 0.0
