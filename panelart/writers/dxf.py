"""A drawing as DXF R2000 for the machines that cut: closed polylines with bulges, and circles."""

from __future__ import annotations

import contextlib
import re
import threading
from collections.abc import Iterator, Sequence
from io import StringIO
from typing import Any, Final

from panelart.canonical import Struct
from panelart.drawing.representation import Drawing, Item, Layer
from panelart.geometry import Arc, Box, Line
from panelart.lettering.outline import Cubic, Loop, bounds
from panelart.writers.arcs import pieces, whole_circle

CHAIN_TOLERANCE: Final = 1e-6
"""How far, in mm, a curve may start from where the one before it ended."""

_PLACES: Final = 6
"""Decimals of a millimetre: a nanometre, so that turned contours do not carry the dust of floating point."""

_BULGE_PLACES: Final = 12
_MAX_DEG: Final = 180.0
"""Arcs of more than half a circle (bulge over 1) are lawful, but older CAM readers take the short way."""

_COLOURS: Final = (7, 1, 5, 3, 6, 4, 2)
"""Colour numbers of the layers in turn: black or white, red, blue, green, magenta, cyan, yellow."""

_UNLAWFUL: Final = re.compile(r"[<>/\\\":;?*|=`,\x00-\x1f]")
"""What a layer's name cannot hold in R2000 (DXF reference, symbol table names)."""

_OPTIONS: Final = threading.Lock()
"""Held while a global option of ezdxf is changed, so that two threads cannot undo each other's change."""


def dxf(drawing: Drawing, *, in_order: bool = False) -> bytes:
    """The contours of the drawing, in millimetres, on layers of the drawing's names.

    A full circle is a CIRCLE, every other loop an LWPOLYLINE, closed when the loop is; arcs of more than
    half a circle are written as two. Contours within others come first, then those further left, then those
    further down, so that a machine that cuts in the order of the file never cuts loose what it has still to
    cut; `in_order` keeps them as the drawing has them, layer by layer. Paints, widths and labels are not written: the
    layer says what is to be done.

    Raises ValueError for cubics (a cut layer has none), for a loop whose curves do not meet, for a layer
    name that DXF does not allow or that two layers share but for upper and lower case, and for figures
    that are not finite.
    """
    found = [contour for layer in drawing.layers for contour in _contours(layer)]
    contours = found if in_order else _ordered(found)
    with _fixed_metadata():
        return _document(drawing, contours)


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


def _contours(layer: Layer) -> Iterator[_Contour]:
    for item in layer.items:
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


def _document(drawing: Drawing, contours: Sequence[_Contour]) -> bytes:
    from ezdxf import units
    from ezdxf.filemanagement import new

    document = new("R2000", setup=False, units=units.MM)
    document.header["$MEASUREMENT"] = 1
    _add_layers(document, drawing)
    space = document.modelspace()
    for contour in contours:
        _add(space, contour)
    around = Box.around(contour.box for contour in contours) if contours else drawing.page
    low = (_tidy(around.left), _tidy(around.bottom), 0.0)
    high = (_tidy(around.right), _tidy(around.top), 0.0)
    space.reset_extents(low, high)
    # ezdxf copies these into the header as it saves, but not when a corner is at 0, 0, 0.
    document.header["$EXTMIN"], document.header["$EXTMAX"] = low, high
    text = StringIO()
    document.write(text)
    written: bytes = document.encode(f"{_comments(drawing)}{text.getvalue()}")
    return written


def _comments(drawing: Drawing) -> str:
    """What the file is made from, as comments ahead of everything (group code 999), which readers pass over."""
    told = (("Number", drawing.number), ("Revision", drawing.revision), ("Spec", drawing.spec))
    return "".join(f"999\n{what}: {' '.join(said.split())}\n" for what, said in told if said)


def _add_layers(document: Any, drawing: Drawing) -> None:
    seen: dict[str, str] = {}
    for layer in drawing.layers:
        if not layer.name or _UNLAWFUL.search(layer.name):
            raise ValueError(f"layer {layer.name!r}: DXF does not allow this name")
        key = layer.name.casefold()
        if seen.setdefault(key, layer.name) != layer.name:
            raise ValueError(f"layers {seen[key]!r} and {layer.name!r} are one and the same in DXF")
        if layer.name not in document.layers:
            colour = _COLOURS[(len(seen) - 1) % len(_COLOURS)]
            document.layers.add(layer.name, color=colour)


def _add(space: Any, contour: _Contour) -> None:
    attributes = {"layer": contour.layer}
    circle = whole_circle(contour.loop)
    if circle is not None:
        centre = (_tidy(circle.centre.x), _tidy(circle.centre.y))
        space.add_circle(centre, _tidy(circle.radius), dxfattribs=attributes)
        return
    vertices = list(_vertices(contour.loop))
    space.add_lwpolyline(vertices, format="xyb", close=contour.loop.closed, dxfattribs=attributes)


def _vertices(loop: Loop) -> Iterator[tuple[float, float, float]]:
    """x, y and bulge: the tangent of a quarter of the sweep, positive counter-clockwise."""
    for curve in loop.curves:
        match curve:
            case Line(start=start):
                yield _tidy(start.x), _tidy(start.y), 0.0
            case Arc():
                for piece in pieces(curve, _MAX_DEG):
                    yield _tidy(piece.start.x), _tidy(piece.start.y), round(piece.bulge, _BULGE_PLACES)
            case Cubic():
                raise ValueError("a cubic curve cannot be written as DXF")
    if not loop.closed:
        end = loop.curves[-1].end
        yield _tidy(end.x), _tidy(end.y), 0.0


def _tidy(value: float) -> float:
    """Rounded to _PLACES, never minus zero."""
    return round(value, _PLACES) + 0.0
