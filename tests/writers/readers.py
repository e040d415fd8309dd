"""Readers that share nothing with the writers: each gives back what a file draws, in mm, y up from the page."""

from __future__ import annotations

import io
import math
from dataclasses import dataclass, field
from typing import Any

import pikepdf
import svgpathtools
from lxml import etree

from panelart.geometry import Contour, Point
from panelart.geometry.contour import nearest_on

MM = 25.4 / 72
SVG = "{http://www.w3.org/2000/svg}"
STEPS = 16
"""Points sampled along each curve, besides its start."""


@dataclass
class Drawn:
    """One painted path: its layer, how it is painted and, loop by loop, points along it."""

    layer: str
    operator: str
    loops: list[list[Point]] = field(default_factory=list)
    state: dict[str, Any] = field(default_factory=dict)


def cubic(a: complex, b: complex, c: complex, d: complex) -> list[Point]:
    found = []
    for step in range(1, STEPS + 1):
        t = step / STEPS
        u = 1 - t
        z = u**3 * a + 3 * u * u * t * b + 3 * u * t * t * c + t**3 * d
        found.append(Point(z.real, z.imag))
    return found


def pdf_drawn(data: bytes, page_index: int = 0) -> list[Drawn]:
    """Walks the page's operators, of which it knows those that a production file may have; others fail."""
    with pikepdf.open(io.BytesIO(data)) as file:
        page = file.pages[page_index]
        groups = {key: str(group.Name) for key, group in page.Resources.Properties.items()}
        matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
        layers: list[str] = []
        tags: list[str] = []
        state: dict[str, Any] = {}
        stack: list[tuple[tuple[float, ...], dict[str, Any]]] = []
        loops: list[list[Point]] = []
        at = start = 0j
        found = []

        def mm(x: Any, y: Any) -> complex:
            a, b, c, d, e, f = matrix
            x, y = float(x), float(y)
            return complex((a * x + c * y + e) * MM, (b * x + d * y + f) * MM)

        for operands, operator in pikepdf.parse_content_stream(page):
            name, o = str(operator), list(operands)
            if name == "q":
                stack.append((matrix, dict(state)))
            elif name == "Q":
                matrix, state = stack.pop()
            elif name == "cm":
                assert matrix == (1.0, 0.0, 0.0, 1.0, 0.0, 0.0), "one scale, at the top of the page"
                matrix = tuple(float(v) for v in o)
            elif name == "BDC":
                tags.append(str(o[0]))
                if tags[-1] == "/OC":
                    layers.append(groups[str(o[1])])
                    assert not stack
                else:
                    assert tags[-1] == "/Span"
                    state["mcid"] = int(o[1].MCID)
            elif name == "EMC":
                if tags.pop() == "/OC":
                    layers.pop()
                    assert not stack
                else:
                    del state["mcid"]
            elif name == "m":
                at = start = mm(*o)
                loops.append([Point(at.real, at.imag)])
            elif name == "l":
                at = mm(*o)
                loops[-1].append(Point(at.real, at.imag))
            elif name == "c":
                b, c, d = mm(o[0], o[1]), mm(o[2], o[3]), mm(o[4], o[5])
                loops[-1].extend(cubic(at, b, c, d))
                at = d
            elif name == "h":
                loops[-1].append(Point(start.real, start.imag))
            elif name in {"f", "S"}:
                found.append(Drawn(layer=layers[-1], operator=name, loops=loops, state=dict(state)))
                loops = []
            elif name in {"cs", "CS"}:
                state[name] = str(page.Resources.ColorSpace[str(o[0])][1])[1:]
            elif name == "gs":
                for key, value in page.Resources.ExtGState[str(o[0])].items():
                    state[key] = value if isinstance(value, bool) else float(value)
            elif name in {"scn", "SCN", "w", "d", "rg", "RG", "M"}:
                state[name] = o
            else:
                raise AssertionError(f"operator {name}")
        assert not stack
        assert not tags
        return found


def svg_drawn(data: bytes) -> list[Drawn]:
    """Reads strictly: well formed, only groups, paths and circles under the root."""
    root = etree.fromstring(data, etree.XMLParser(resolve_entities=False, no_network=True))
    height = float(root.get("viewBox").split()[3])
    found: list[Drawn] = []

    def visit(element: Any, layer: str, attributes: dict[str, str]) -> None:
        for child in element:
            own = {**attributes, **child.attrib}
            if child.tag == f"{SVG}g":
                visit(child, layer or child.findtext(f"{SVG}title"), own)
            elif child.tag == f"{SVG}path":
                found.append(Drawn(layer=layer, operator="path", loops=path_loops(child.get("d")), state=own))
            elif child.tag == f"{SVG}circle":
                cx, cy, r = (float(child.get(key)) for key in ("cx", "cy", "r"))
                turn = [
                    Point(cx + r * math.cos(math.tau * s / 64), height - cy + r * math.sin(math.tau * s / 64))
                    for s in range(65)
                ]
                found.append(Drawn(layer=layer, operator="circle", loops=[turn], state=own))
            else:
                assert child.tag in {f"{SVG}title", f"{SVG}desc"}, child.tag

    def path_loops(d: str) -> list[list[Point]]:
        loops = []
        for piece in svgpathtools.parse_path(d).continuous_subpaths():
            z = piece[0].start
            loop = [Point(z.real, height - z.imag)]
            for segment in piece:
                for step in range(1, STEPS + 1):
                    z = segment.point(step / STEPS)
                    loop.append(Point(z.real, height - z.imag))
            loops.append(loop)
        return loops

    visit(root, "", {})
    return found


def dxf_tags(data: bytes) -> list[tuple[int, str]]:
    """The file's group codes and values, without a library."""
    lines = data.decode("cp1252").split("\n")
    return [(int(code), value.strip()) for code, value in zip(lines[::2], lines[1::2], strict=False)]


def dxf_drawn(data: bytes) -> list[Drawn]:
    """The entities section, read tag by tag; anything but CIRCLE and LWPOLYLINE fails."""
    tags = dxf_tags(data)
    begin = tags.index((2, "ENTITIES")) + 1
    end = tags.index((0, "ENDSEC"), begin)
    entities: list[tuple[str, list[tuple[int, str]]]] = []
    for code, value in tags[begin:end]:
        if code == 0:
            entities.append((value, []))
        else:
            entities[-1][1].append((code, value))
    found = []
    for kind, content in entities:
        value = dict(content)
        state: dict[str, Any] = {"codes": {code for code, _ in content}}
        if kind == "CIRCLE":
            x, y, r = float(value[10]), float(value[20]), float(value[40])
            state["closed"] = True
            loop = [Point(x + r * math.cos(math.tau * s / 64), y + r * math.sin(math.tau * s / 64)) for s in range(65)]
        else:
            assert kind == "LWPOLYLINE", kind
            state["closed"] = bool(int(value[70]) & 1)
            vertices: list[list[float]] = []
            for code, text in content:
                if code == 10:
                    vertices.append([float(text), 0.0, 0.0])
                elif code == 20:
                    vertices[-1][1] = float(text)
                elif code == 42:
                    vertices[-1][2] = float(text)
            state["bulges"] = [bulge for _, _, bulge in vertices]
            ends = [*vertices[1:], vertices[0]] if state["closed"] else vertices[1:]
            loop = [Point(*vertices[0][:2])]
            for (x, y, bulge), (u, v, _) in zip(vertices, ends, strict=False):
                loop.extend(_bulged(complex(x, y), complex(u, v), bulge))
        found.append(Drawn(layer=value[8], operator=kind, loops=[loop], state=state))
    return found


def _bulged(a: complex, b: complex, bulge: float) -> list[Point]:
    """Points along the arc from a to b; the bulge is the sagitta over half the chord, left turns positive."""
    if bulge == 0.0:
        return [Point(b.real, b.imag)]
    centre = (a + b) / 2 + 1j * (b - a) / 2 * (1 - bulge**2) / (2 * bulge)
    sweep = 4 * math.atan(bulge)
    turn = [
        centre + (a - centre) * complex(math.cos(t), math.sin(t))
        for t in (sweep * step / STEPS for step in range(1, STEPS + 1))
    ]
    return [Point(z.real, z.imag) for z in turn]


def off_by(loop: list[Point], contour: Contour) -> float:
    """The greatest distance, in mm, from a point read back to the contour, or from its vertices to the points."""
    astray = max(min(nearest_on(s, p).distance(p) for s in contour.segments) for p in loop)
    missed = max(min(s.start.distance(p) for p in loop) for s in contour.segments)
    whole_circle = len(contour.segments) == 1
    return astray if whole_circle else max(astray, missed)


def enclosed(loop: list[Point]) -> float:
    """Area in square mm of the polygon through the points, positive counter-clockwise."""
    pairs = zip(loop, [*loop[1:], loop[0]], strict=True)
    return sum(a.x * b.y - b.x * a.y for a, b in pairs) / 2
