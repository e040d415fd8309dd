"""Outlines from SVG: known shapes, units of the file, curves against svgpathtools, and refusals."""

from __future__ import annotations

import math

import pytest
import shapely
from svgpathtools import parse_path

from panelart.geometry.polygons import polygon
from panelart.messages import Message
from panelart.messages import outlines as said
from panelart.messages import outlines_elements as said_of
from panelart.outlines.limits import CURVE_TOLERANCE
from tests.outlines.drawings import outline, read

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 200 100">'
TRIANGLE = "M0 0H90V40Z"


def svg(inside: str, head: str = HEAD) -> bytes:
    return f"{head}{inside}</svg>".encode()


# what | inside the drawing | area in square mm
SHAPES = [
    ("path", f'<path d="{TRIANGLE}"/>', 1800),
    ("rectangle", '<rect x="5" y="6" width="80" height="40"/>', 3200),
    ("rounded", '<rect width="80" height="40" rx="5"/>', 3200 - (4 - math.pi) * 25),
    ("circle", '<circle cx="50" cy="50" r="30"/>', math.pi * 900),
    ("two half arcs", '<path d="M20 50A30 30 0 0 1 80 50A30 30 0 0 1 20 50Z"/>', math.pi * 900),
    ("flags without spaces", '<path d="M20 50a30 30 0 0160 0 30 30 0 01-60 0z"/>', math.pi * 900),
    ("polygon", '<polygon points="0,0 90,0 90,40"/>', 1800),
    ("lines", '<line x1="0" y1="0" x2="90" y2="0"/><polyline points="90,0 90,40 0,0"/>', 1800),
    ("scaled group", f'<g transform="scale(0.5) rotate(30)"><path d="{TRIANGLE}"/></g>', 450),
    ("mirrored circle", '<g transform="scale(-1 1)"><circle cx="50" cy="50" r="30"/></g>', math.pi * 900),
]


@pytest.mark.parametrize(("what", "inside", "area"), SHAPES, ids=[shape[0] for shape in SHAPES])
def test_known_shapes(what: str, inside: str, area: float) -> None:
    found = outline(svg(inside), svg=True).outline
    assert found.area == pytest.approx(area, abs=1e-5), what
    if "circle" in what or "half" in what or "flags" in what:
        assert found.circle is not None


# how width, height and viewBox stand there | mm for one unit (CSS Values 4, 6.2), None where it says nothing
@pytest.mark.parametrize(
    ("head", "size"),
    [
        ('width="200mm" height="100mm" viewBox="0 0 200 100"', 1.0),
        ('width="10cm" height="5cm" viewBox="0 0 200 100"', 0.5),
        ('width="2in" height="1in" viewBox="0 0 200 100"', 0.254),
        ('width="144pt" height="72pt" viewBox="0 0 200 100"', 0.254),
        ('width="200" height="100" viewBox="0 0 200 100"', None),
        ('width="200px" height="100px" viewBox="0 0 200 100"', None),
        ('width="100%" height="100%" viewBox="0 0 200 100"', None),
        ('width="200mm" height="100mm"', None),
        ('viewBox="0 0 200 100"', None),
        ('width="200mm" height="150mm" viewBox="0 0 200 100"', None),
        ('width="0mm" height="0mm" viewBox="0 0 0 0"', None),
    ],
)
def test_units(head: str, size: float | None) -> None:
    data = svg('<rect width="100" height="50"/>', f'<svg xmlns="http://www.w3.org/2000/svg" {head}>')
    if size is None:
        _, (problem,) = read(data, svg=True)
        assert problem.says.id == "outlines.unit-unknown"
        assert outline(data, svg=True, unit="in").outline.bounds.width == pytest.approx(2540)
    else:
        assert outline(data, svg=True).outline.bounds.width == pytest.approx(100 * size)
        _, (problem,) = read(data, svg=True, unit="m")
        assert problem.says == said.unit_contradicted(declared="m", found=said.svg_scale_found(unit=size))


@pytest.mark.few(1)
@pytest.mark.parametrize(
    "d",
    [
        "M0 0C40 60 80 -40 120 20L120 90L0 90Z",
        "M0 0Q60 80 120 0T180 10L180 90L0 90Z",
        "M0 50A80 30 20 0 1 120 40L120 90L0 90Z",
        "M0 0C0 0 60 40 100 0S100 0 100 90L0 90Z",
    ],
)
def test_curves_become_arcs_within_the_tolerance(d: str) -> None:
    """2000 points of each piece by svgpathtools against the arcs."""
    found = outline(svg(f'<path d="{d}"/>'), svg=True)
    ring = shapely.LineString(shapely.get_coordinates(polygon(found.outline, 1e-5, side="middle").exterior))
    points = [piece.point(k / 2000) for piece in parse_path(d) for k in range(2001)]
    there = shapely.points([(z.real + found.origin.x, -z.imag + found.origin.y) for z in points])
    assert float(shapely.distance(ring, there).max()) <= CURVE_TOLERANCE + 1e-4


def test_only_the_group_that_is_named() -> None:
    inside = f'<g id="outline"><path d="{TRIANGLE}"/></g><g id="notes"><text>front</text><path d="M0 0L5 5"/></g>'
    assert outline(svg(inside), svg=True, layers=("outline",)).outline.area == pytest.approx(1800)
    _, (problem,) = read(svg(inside), svg=True, layers=("cut",))
    assert problem.says == said.group_unknown(layer="cut")


# what | inside the drawing | the message
REFUSED = [
    ("text", f'<path d="{TRIANGLE}"/><text>front</text>', said_of.element_unsupported(element="<text>")),
    ("script", f'<script>1</script><path d="{TRIANGLE}"/>', said_of.element_unsupported(element="<script>")),
    ("link", f'<path xlink:href="b.svg" d="{TRIANGLE}"/>', said_of.svg_reference(attribute="xlink:href")),
    ("handler", f'<path onload="x()" d="{TRIANGLE}"/>', said_of.svg_script(attribute="onload")),
    ("picture", f'<path d="{TRIANGLE}"/><image/>', said_of.element_unsupported(element="<image>")),
    ("open", '<path d="M0 0H90V40"/>', said.contour_open(at=(0.0, 0.0), gap=98.49, near=(90.0, -40.0))),
    ("drawing in it", f'<svg width="5" height="5"><path d="{TRIANGLE}"/></svg>', said_of.nested_svg()),
    ("bad path", '<path d="M0 0L9"/>', said_of.path_incomplete()),
    ("infinite", '<path d="M0 0L1e999 0"/>', said_of.path_number_out_of_range(text="1e999")),
    (
        "percent",
        '<rect width="50%" height="9"/>',
        said_of.attribute_not_a_number(element="<rect>", name="width", value="50%"),
    ),
    ("no shape", "", said.nothing_drawn()),
]


@pytest.mark.parametrize(("what", "inside", "message"), REFUSED, ids=[case[0] for case in REFUSED])
def test_refused_with_the_reason(what: str, inside: str, message: Message) -> None:
    head = HEAD.replace("<svg ", '<svg xmlns:xlink="http://www.w3.org/1999/xlink" ')
    found, problems = read(svg(inside, head), svg=True)
    assert found is None, what
    assert str(message) in [problem.message for problem in problems], problems


def test_entities_and_other_files() -> None:
    bomb = '<!DOCTYPE svg [<!ENTITY a "x"><!ENTITY b "&a;&a;">]>' + svg(f'<path d="{TRIANGLE}"/>').decode()
    assert any(problem.says == said_of.svg_entities() for problem in read(bomb.encode(), svg=True)[1])
    assert any(problem.says.id == "outlines.file-not-xml" for problem in read(b"<svg", svg=True)[1])
    assert any(problem.says == said.file_not_svg() for problem in read(b"<g/>", svg=True)[1])
