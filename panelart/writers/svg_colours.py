"""Runs of colour and pictures in an SVG: definitions that shapes refer to by a name made of what they are."""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Callable, Iterable
from typing import Any

from panelart.drawing.representation import Item, Layer, Paint, Ramp, Raster
from panelart.geometry import Box, Point
from panelart.lettering.outline import Shape
from panelart.reprs import in_full
from panelart.writers.figures import decimal, rgb
from panelart.writers.png_file import png_file


def name_of(ramp: Ramp, page: Box) -> str:
    """The identifier of a ramp on a page, the same for the same ramp."""
    return f"ramp-{_short(in_full((ramp, page)))}"


def clip_name(item: Item, page: Box) -> str:
    """The identifier of the shape that a picture is seen through."""
    return f"clip-{_short(in_full((item.shape, page)))}"


def _short(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8")).hexdigest()[:12]


def shared_colours(layers: Iterable[Layer], page: Box, path: Callable[[Shape, Box], str]) -> dict[str, Any]:
    """The definitions that the layers' items refer to, by name. `path` writes a shape as path data."""
    found: dict[str, Any] = {}
    for layer in layers:
        for item in layer.items:
            if item.ramp is not None:
                found[name_of(item.ramp, page)] = _ramp(item.ramp, page)
            if item.picture is not None:
                found[clip_name(item, page)] = _clip(item, page, path)
    return found


def _ramp(ramp: Ramp, page: Box) -> Any:
    from svgwrite.gradients import LinearGradient, RadialGradient

    start, end = _place(ramp.start, page), _place(ramp.end, page)
    if ramp.round:
        run = RadialGradient(debug=False)
        run.attribs |= {"cx": start[0], "cy": start[1], "r": decimal(ramp.start.distance(ramp.end))}
    else:
        run = LinearGradient(debug=False)
        run.attribs |= {"x1": start[0], "y1": start[1], "x2": end[0], "y2": end[1]}
    run.attribs |= {"id": name_of(ramp, page), "gradientUnits": "userSpaceOnUse"}
    for at, paint in ramp.stops:
        rgb(paint.colour)
        run.add_stop_color(offset=decimal(at), color=paint.shown.lower())
    return run


def _clip(item: Item, page: Box, path: Callable[[Shape, Box], str]) -> Any:
    from svgwrite.masking import ClipPath
    from svgwrite.path import Path

    clip = ClipPath(debug=False)
    clip.attribs["id"] = clip_name(item, page)
    clip.elements.append(Path(d=path(item.outline, page), debug=False))
    return clip


def placed_picture(picture: Raster, clip: str, page: Box) -> Any:
    """The picture itself, whole in the file, behind its clip."""
    from svgwrite.container import Group
    from svgwrite.image import Image

    box = picture.box
    x, y = _place(Point(box.left, box.top), page)
    image = Image(href="", debug=False)
    # Plain href, as SVG 2 has it; the xlink of SVG 1.1 would need a name space of its own.
    image.attribs = {
        "href": _data(picture),
        "x": x,
        "y": y,
        "width": decimal(box.width),
        "height": decimal(box.height),
        "preserveAspectRatio": "none",
    }
    group = Group(debug=False)
    group.attribs["clip-path"] = f"url(#{clip})"
    group.elements.append(image)
    return group


def _place(point: Point, page: Box) -> tuple[str, str]:
    return decimal(point.x - page.left), decimal(page.top - point.y)


def _data(picture: Raster) -> str:
    pixels = picture.pixels if picture.ink is None else _shown(picture.pixels, picture.ink)
    return f"data:image/png;base64,{base64.b64encode(_png(picture.width, picture.height, pixels)).decode('ascii')}"


def _shown(shares: bytes, ink: Paint) -> bytes:
    """Pixels of one ink as a screen shows them, on white."""
    import numpy as np

    table = np.array([[255 - share / 255 * (255 - 255 * part) for part in rgb(ink.colour)] for share in range(256)])
    rows: bytes = np.round(table).astype(np.uint8)[np.frombuffer(shares, dtype=np.uint8)].tobytes()
    return rows


def _png(width: int, height: int, pixels: bytes) -> bytes:
    """A PNG of red, green and blue bytes, its rows without a filter."""
    rows = b"".join(b"\0" + pixels[row * width * 3 : (row + 1) * width * 3] for row in range(height))
    return png_file(width, height, rows, bits=8, kind=2)
