"""Legends read back from a written SVG: each path of an ink layer as a shapely area, panel coordinates, y up."""

from __future__ import annotations

import numpy as np
import shapely
from lxml import etree
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry
from svgpathtools import Line, parse_path

from panelart.geometry import Box

SVG = "{http://www.w3.org/2000/svg}"
STEPS = 12
SHARES = np.arange(STEPS) / STEPS


def ink_of(data: bytes, page: Box) -> list[BaseGeometry]:
    """One area for every filled path in a layer whose id begins with `legend-`; `page` is the drawing's page.

    Curves are flattened to chords; loops are put together by the non-zero rule as far as lettering needs it: a loop
    inside another of the opposite sense is a hole.
    """
    return [area for _, area, stroked in inks_of(data, page) if not stroked]


def inks_of(data: bytes, page: Box) -> list[tuple[str, BaseGeometry, bool]]:
    """The same for filled paths and for drawn lines, each with its label and whether it is a line."""
    root = etree.fromstring(data)
    found: list[tuple[str, BaseGeometry, bool]] = []
    for group in root.iter(f"{SVG}g"):
        if not (group.get("id") or "").startswith("legend-"):
            continue
        for path in group.iter(f"{SVG}path"):
            stroked = (_inherited(path, "fill") or "black") == "none"
            area = _stroke(path) if stroked else _area(path.get("d"))
            placed = affine_transform(area, [1, 0, 0, -1, page.left, page.top])
            found.append((path.get("aria-label") or "", placed, stroked))
    return found


def _stroke(path) -> BaseGeometry:
    lines = []
    for loop in parse_path(path.get("d")).continuous_subpaths():
        points = [segment.point(step / STEPS) for segment in loop for step in range(STEPS)] + [loop[-1].end]
        lines.append(shapely.LineString([(point.real, point.imag) for point in points]))
    return shapely.union_all(lines).buffer(float(_inherited(path, "stroke-width")) / 2, cap_style="flat")


def _inherited(element, name: str) -> str | None:
    while element is not None:
        if element.get(name) is not None:
            return element.get(name)
        element = element.getparent()
    return None


def _area(d: str) -> BaseGeometry:
    rings = []
    for loop in parse_path(d).continuous_subpaths():
        points = [
            point
            for segment in loop
            for point in ([segment.start] if isinstance(segment, Line) else segment.point(SHARES).tolist())
        ]
        rings.append(shapely.Polygon([(point.real, point.imag) for point in points]).buffer(0))
    area = shapely.Polygon()
    for ring in sorted(rings, key=lambda ring: -ring.area):
        area = area.symmetric_difference(ring) if area.intersects(ring) else area.union(ring)
    return area
