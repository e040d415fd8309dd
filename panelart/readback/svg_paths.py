"""The shapes of an SVG of ours, read as XML: circles and paths with the group that they stand in, in mm, y up."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING, Final
from xml.etree import ElementTree as ET

from panelart.outlines.svg_path import EllipticArc, Piece, subpaths
from panelart.readback.loops import STEPS, Loop, arc, cubic, points

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

_SVG: Final = "{http://www.w3.org/2000/svg}"


def svg_loops(data: bytes) -> list[Loop]:
    """What is drawn. Raises ParseError, KeyError, ValueError or RefusedError for what is no SVG in millimetres."""
    root = ET.fromstring(data)  # noqa: S314  # a file of our own
    _, _, wide, high = (float(value) for value in root.attrib["viewBox"].split())
    scale = float(root.attrib["width"].removesuffix("mm")) / wide
    return [
        Loop(points=points([scale * complex(at.real, high - at.imag) for at in along]), layer=layer)
        for layer, along in _drawn(root, "")
    ]


def svg_size(data: bytes) -> tuple[float, float]:
    """Width and height of the page, mm. Raises as `svg_loops`."""
    root = ET.fromstring(data)  # noqa: S314  # a file of our own
    return float(root.attrib["width"].removesuffix("mm")), float(root.attrib["height"].removesuffix("mm"))


def _drawn(element: Element, layer: str) -> Iterator[tuple[str, list[complex]]]:
    for child in element:
        if child.tag == f"{_SVG}g":
            yield from _drawn(child, layer or child.attrib.get("id", ""))
        elif child.tag == f"{_SVG}circle":
            x, y, radius = (float(child.attrib[key]) for key in ("cx", "cy", "r"))
            centre = complex(x, y)
            yield layer, [centre + radius, *arc(centre, radius, 0.0, math.tau)]
        elif child.tag == f"{_SVG}path":
            for pieces, closed in subpaths(child.attrib["d"]):
                along = _along(pieces)
                yield layer, [*along, along[0]] if closed else along


def _along(pieces: list[Piece]) -> list[complex]:
    first = pieces[0]
    along = [first.start if isinstance(first, EllipticArc) else first[0]]
    for piece in pieces:
        if isinstance(piece, EllipticArc):
            along += [piece.at(piece.first + piece.span * step / STEPS) for step in range(1, STEPS + 1)]
        elif len(piece) == 2:
            along.append(piece[1])
        else:
            along += cubic(*piece)
    return along
