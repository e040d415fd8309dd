"""Legends read back from a written SVG: each path of an ink layer as a shapely area, panel coordinates, y up."""

from __future__ import annotations

import shapely
from lxml import etree
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry
from svgpathtools import parse_path

from panelart.geometry import Box

SVG = "{http://www.w3.org/2000/svg}"
STEPS = 12


def ink_of(data: bytes, page: Box) -> list[BaseGeometry]:
    """One area for every filled path in a layer whose id begins with `legend-`; `page` is the drawing's page.

    Curves are flattened to chords; loops are put together by the non-zero rule as far as lettering needs it: a loop
    inside another of the opposite sense is a hole.
    """
    root = etree.fromstring(data)
    areas: list[BaseGeometry] = []
    for group in root.iter(f"{SVG}g"):
        if not (group.get("id") or "").startswith("legend-"):
            continue
        for path in group.iter(f"{SVG}path"):
            if (_inherited(path, "fill") or "black") == "none":
                continue
            areas.append(_area(path.get("d")))
    return [affine_transform(area, [1, 0, 0, -1, page.left, page.top]) for area in areas]


def _inherited(element, name: str) -> str | None:
    while element is not None:
        if element.get(name) is not None:
            return element.get(name)
        element = element.getparent()
    return None


def _area(d: str) -> BaseGeometry:
    rings = []
    for loop in parse_path(d).continuous_subpaths():
        points = [segment.point(step / STEPS) for segment in loop for step in range(STEPS)]
        rings.append(shapely.Polygon([(point.real, point.imag) for point in points]).buffer(0))
    area = shapely.Polygon()
    for ring in sorted(rings, key=lambda ring: -ring.area):
        area = area.symmetric_difference(ring) if area.intersects(ring) else area.union(ring)
    return area
