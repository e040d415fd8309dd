"""Outlines from DXF: known shapes by their formulas, curves against ezdxf's flattening and shapely, refusals."""

from __future__ import annotations

import math
import random
from itertools import pairwise

import pytest
import shapely
from ezdxf.math import BSpline

from panelart.geometry import Arc, Line
from panelart.geometry.polygons import polygon
from panelart.messages import Message
from panelart.messages import outlines as said
from panelart.messages import outlines_elements as said_of
from panelart.outlines.limits import CURVE_TOLERANCE, JOIN, MAX_CURVES, MAX_IN_ONE, MAX_SIZE, MIN_SIZE
from panelart.outlines.sorted_out import DrawnOutline, Turned
from tests.outlines.drawings import ELL, drawing, dxf, ell, loop, outline, read


def flattened(draw) -> shapely.Polygon:
    """The one entity of a drawing as ezdxf flattens it, to a ten-thousandth of a mm."""
    document = drawing(draw)  # kept: its entities do not live without it
    (entity,) = document.modelspace()
    points = [(point.x, point.y) for point in entity.flattening(1e-4)]
    return shapely.Polygon(points)


def apart(found: DrawnOutline, shape: shapely.Polygon) -> float:
    """How far, in mm, an outline is from the shape that was drawn, at the worst place."""
    shape = shapely.affinity.translate(shape, found.origin.x, found.origin.y)
    return shapely.hausdorff_distance(
        shapely.segmentize(polygon(found.outline, 1e-4, side="middle").exterior, 0.05),
        shapely.segmentize(shape.exterior, 0.05),
    )


def stadium(space) -> None:
    space.add_lwpolyline([(0, 0, 0), (100, 0, 1), (100, 40, 0), (0, 40, 1)], format="xyb", close=True)


# what | how it is drawn | area | perimeter
SHAPES = [
    ("lines", ell, 180 * 60 + 80 * 60, 2 * (180 + 120)),
    ("circle", lambda space: space.add_circle((7, -3), 60), math.pi * 60**2, 2 * math.pi * 60),
    ("bulges", stadium, 100 * 40 + math.pi * 20**2, 200 + 2 * math.pi * 20),
    (
        "arcs and lines",
        lambda s: (s.add_arc((0, 0), 30, 90, 360), s.add_line((0, 30), (0, 0)), s.add_line((30, 0), (0, 0))),
        0.75 * math.pi * 30**2,
        0.75 * 2 * math.pi * 30 + 60,
    ),
    (
        "old polyline",
        lambda s: s.add_polyline2d([(0, 0, 0), (50, 0, 1), (50, 50, 0), (0, 50, 0)], format="xyb", close=True),
        50 * 50 + math.pi * 25**2 / 2,
        150 + math.pi * 25,
    ),
]


@pytest.mark.parametrize(("what", "draw", "area", "perimeter"), SHAPES, ids=[shape[0] for shape in SHAPES])
def test_known_shapes(what: str, draw, area: float, perimeter: float) -> None:
    found = outline(dxf(draw)).outline
    assert found.area == pytest.approx(area, abs=1e-6), what
    assert found.perimeter == pytest.approx(perimeter, abs=1e-6)
    assert (found.bounds.left, found.bounds.bottom) == pytest.approx((0, 0), abs=1e-9)


@pytest.mark.parametrize("seed", range(5))
def test_pieces_in_any_order_and_either_way_round(seed: int) -> None:
    order = random.Random(seed)

    def draw(space) -> None:
        sides = list(zip(ELL, [*ELL[1:], ELL[0]], strict=True))
        order.shuffle(sides)
        for start, end in sides:
            space.add_line(*((start, end) if order.random() < 0.5 else (end, start)))

    found = outline(dxf(draw)).outline
    assert found.area == pytest.approx(15600)
    assert len(found.segments) == 6


# $INSUNITS | mm for one unit (DXF reference; inch by definition 25.4 mm)
@pytest.mark.parametrize(("code", "size"), [(1, 25.4), (4, 1.0), (5, 10.0), (6, 1000.0), (9, 0.0254), (2, 304.8)])
def test_units_of_the_file(code: int, size: float) -> None:
    side = 100 / size
    found = outline(dxf(lambda s: loop(s, [(0, 0), (side, 0), (side, side), (0, side)]), unit=code))
    assert found.outline.bounds.width == pytest.approx(100, abs=1e-6)


def test_a_unit_declared_where_the_file_has_none() -> None:
    found = outline(dxf(lambda s: loop(s, [(0, 0), (4, 0), (4, 3), (0, 3)]), unit=0), unit="in")
    assert found.outline.area == pytest.approx(4 * 3 * 25.4**2)


CONTROL = [(0, 0), (20, 50), (70, -30), (110, 60), (60, 120), (-20, 80), (0, 0)]

CURVES = [
    ("ellipse", lambda s: s.add_ellipse((5, 5), (60, 10), 0.4)),
    ("flat ellipse", lambda s: s.add_ellipse((0, 0), (100, 0), 0.05)),
    ("spline", lambda s: s.add_open_spline(CONTROL)),
    ("spline of degree 2", lambda s: s.add_open_spline(CONTROL, degree=2)),
    ("rational spline", lambda s: s.add_rational_spline(CONTROL, [1, 2, 1, 0.5, 1, 3, 1])),
]


@pytest.mark.few(2)
@pytest.mark.parametrize(("what", "draw"), CURVES, ids=[curve[0] for curve in CURVES])
def test_curves_become_arcs_within_the_tolerance(what: str, draw) -> None:
    """Held against ezdxf's flattening by shapely's Hausdorff distance; neither is used in the fitting."""
    found = outline(dxf(draw))
    assert all(isinstance(segment, Arc | Line) for segment in found.outline.segments)
    off = apart(found, flattened(draw))
    assert off <= CURVE_TOLERANCE + 3e-4, what  # the flattening's own tolerance, twice, and the step
    assert found.error <= CURVE_TOLERANCE


def test_the_error_that_is_told_is_the_error_there_is() -> None:
    """A thousand points of the curve, evaluated by ezdxf, against the arcs."""
    found = outline(dxf(CURVES[2][1]))
    tool = BSpline(CONTROL)
    ring = shapely.LineString(shapely.get_coordinates(polygon(found.outline, 1e-5, side="middle").exterior))
    points = shapely.points([(p.x + found.origin.x, p.y + found.origin.y) for p in tool.approximate(1000)])
    worst = float(shapely.distance(ring, points).max())
    assert found.error * 0.7 <= worst <= found.error + 1e-4


def test_gaps_are_closed_up_to_the_limit_and_told_beyond() -> None:
    def draw(gap: float):
        return dxf(lambda s: [s.add_line(*ends) for ends in _sides(gap)])

    found = outline(draw(0.9 * JOIN))
    assert found.outline.area == pytest.approx(100 * 50, abs=1)
    none, problems = read(draw(0.35))
    assert none is None
    (problem,) = problems
    assert problem.says.id == "outlines.contour-open"
    assert "[0, 0]: 0.35 mm to the nearest end at [0, 0.35]" in problem.message
    assert problem.where.file == "front.dxf"


def _sides(gap: float):
    corners = [(0, 0), (100, 0), (100, 50), (0, 50), (0, gap)]
    return list(pairwise(corners))


def test_the_place_of_a_problem_is_a_line_of_the_file() -> None:
    data = dxf(lambda s: (ell(s), s.add_text("front")))
    _, (problem,) = read(data)
    assert "TEXT" in problem.message
    lines = data.decode().splitlines()
    assert lines[problem.where.line].strip() == "TEXT"


def _block(space) -> None:
    ell(space)
    space.doc.blocks.new("LOGO").add_line((0, 0), (1, 1))
    space.add_blockref("LOGO", (5, 5))


# what | how it is drawn | the message
REFUSED = [
    ("nothing", lambda _: None, said.nothing_drawn()),
    ("text", lambda s: (ell(s), s.add_text("front")), said_of.element_unsupported(element="TEXT")),
    ("dimension", lambda s: (ell(s), s.add_point((1, 1))), said_of.element_unsupported(element="POINT")),
    ("block", _block, said_of.block_reference(name="LOGO")),
    ("hatch", lambda s: (ell(s), s.add_hatch()), said_of.element_unsupported(element="HATCH")),
    ("picture", lambda s: (ell(s), s.add_image(s.doc.add_image_def("a.png", (9, 9)), (0, 0), (9, 9))),
     said_of.element_unsupported(element="IMAGE")),
    ("off the plane", lambda s: (ell(s), s.add_line((0, 0, 0), (5, 5, 5))),
     said_of.entity_off_plane(entity="LINE", height=5.0)),
    ("raised", lambda s: s.add_circle((0, 0, 3), 50), said_of.entity_off_plane(entity="CIRCLE", height=3.0)),
    ("tilted", lambda s: s.add_circle((0, 0), 50, dxfattribs={"extrusion": (1, 0, 0)}),
     said_of.entity_in_other_plane(entity="CIRCLE")),
    ("body", lambda s: s.add_circle((0, 0), 50, dxfattribs={"thickness": 2}),
     said_of.entity_has_thickness(entity="CIRCLE")),
    ("mesh", lambda s: s.add_polyline3d([(0, 0, 0), (9, 0, 1), (9, 9, 2)]), said_of.polyline_not_flat()),
    ("fit points", lambda s: s.add_spline([(0, 0), (40, 10), (20, 60)]), said_of.spline_by_fit_points()),
    ("crossing", lambda s: loop(s, [(0, 0), (100, 100), (100, 0), (0, 100)]),
     said.contour_crosses_itself(at=(50.0, 50.0))),
    ("two outlines", lambda s: (ell(s), s.add_circle((300, 50), 20)), said.second_outline(at=(300.0, 50.0))),
    ("in the notch", lambda s: (ell(s), s.add_circle((130, 90), 20)), said.second_outline(at=(130.0, 90.0))),
    ("hole over the edge", lambda s: (ell(s), s.add_circle((180, 30), 9)), said.hole_meets_outline(at=(180.0, 30.0))),
    ("hole at the edge", lambda s: (ell(s), s.add_circle((171, 30), 9)), said.hole_meets_outline(at=(171.0, 30.0))),
    ("island", lambda s: (ell(s), s.add_circle((40, 40), 20), s.add_circle((40, 40), 5)),
     said.holes_overlap(at=(40.0, 40.0))),
    ("holes that overlap", lambda s: (ell(s), s.add_circle((30, 40), 9), s.add_circle((40, 40), 9)),
     said.holes_overlap(at=(40.0, 40.0))),
    ("twice", lambda s: (ell(s), s.add_line((0, 0), (180, 0))),
     said.line_drawn_twice(start=(0.0, 0.0), end=(180.0, 0.0))),
    ("fork", lambda s: (ell(s), s.add_line((0, 0), (50, 40))), said.lines_meet(count=3, at=(0.0, 0.0))),
    ("tiny", lambda s: s.add_circle((0, 0), 0.3),
     said.outline_size(size=(0.6, 0.6), minimum=MIN_SIZE, maximum=MAX_SIZE)),
    ("huge", lambda s: s.add_circle((0, 0), 9000),
     said.outline_size(size=(18000.0, 18000.0), minimum=MIN_SIZE, maximum=MAX_SIZE)),
    ("far away", lambda s: s.add_circle((1e200, 0), 50), said_of.coordinates_out_of_range(element="CIRCLE")),
    ("flattened curve", lambda s: s.add_lwpolyline(
        [(50 * math.cos(k / 200), 50 * math.sin(k / 200)) for k in range(1256)], close=True),
     said.contour_too_long(count=1256, maximum=MAX_IN_ONE)),
    ("very much", lambda s: [s.add_circle((9 * k, 0), 2) for k in range(MAX_CURVES + 1)],
     said.too_many_curves(maximum=MAX_CURVES)),
]  # fmt: skip


@pytest.mark.few(13)
@pytest.mark.parametrize(("what", "draw", "message"), REFUSED, ids=[case[0] for case in REFUSED])
def test_refused_with_the_reason(what: str, draw, message: Message) -> None:
    found, problems = read(dxf(draw))
    assert found is None, what
    texts = [problem.message for problem in problems]
    assert str(message) in texts, texts
    assert all(problem.hint for problem in problems)


def test_a_unit_is_required_and_never_two() -> None:
    _, (problem,) = read(dxf(ell, unit=0))
    assert problem.says == said.unit_unknown(reason=said.insunits_unset())
    assert problem.where.file == "panel.yaml"
    _, (problem,) = read(dxf(ell, unit=4), unit="in")
    assert problem.says == said.unit_contradicted(declared="in", found=said.insunits_found(code=4, unit="mm"))


@pytest.mark.parametrize(
    ("data", "message"),
    [
        pytest.param(b"", "outlines.file-not-dxf", id="-missing EOF"),
        pytest.param(b"front panel", "outlines.file-not-dxf", id="front panel-no DXF"),
        pytest.param(b"AC1032\x00\x00", "outlines.file-is-dwg", id="AC1032\x00\x00-a DWG"),
        pytest.param(
            b"AutoCAD Binary DXF\r\n\x1a\x00",
            "outlines.file-is-binary-dxf",
            id="AutoCAD Binary DXF\r\n\x1a\x00-binary DXF",
        ),
        pytest.param(b"\x00" * 3000, "outlines.file-not-dxf", id="data4-no DXF"),
        pytest.param(b"0\nSECTION\n" * 500_000, "outlines.file-too-large", id="data5-bytes"),
    ],
)
def test_what_is_no_drawing(data: bytes, message: str) -> None:
    found, problems = read(data)
    assert found is None
    assert any(problem.says.id == message for problem in problems), problems


def test_a_broken_file_is_refused_or_read_and_never_a_crash() -> None:
    good = dxf(lambda s: (ell(s), s.add_open_spline([(10, 10), (20, 30), (40, 20), (10, 10)])))
    start = good.index(b"ENTITIES")
    chance = random.Random(7)
    for _ in range(60):
        data = bytearray(good)
        for _ in range(chance.randint(1, 6)):
            at = chance.randrange(start - 200, len(data))
            data[at] = chance.choice(b"0159-. \nEASxN")
        found, problems = read(bytes(data[: chance.choice((len(data), len(data) * 2 // 3))]))
        assert (found is None) == bool(problems)


def test_only_the_layers_that_are_named() -> None:
    def draw(space) -> None:
        loop(space, ELL, layer="OUTLINE")
        space.add_circle((40, 30), 5, dxfattribs={"layer": "holes"})
        space.add_text("seen from the front", dxfattribs={"layer": "NOTES"})

    data = dxf(draw)
    assert len(outline(data, layers=("outline",)).holes) == 0
    assert len(outline(data, layers=("outline", "HOLES")).holes) == 1
    _, (problem,) = read(data, layers=("outlin",))
    assert "OUTLINE" in problem.hint
    assert problem.where.file == "panel.yaml"


def handed(space) -> None:
    """Of no symmetry: an L with one hole."""
    ell(space)
    space.add_circle((20, 100), 4)


def test_turned_and_mirrored() -> None:
    plain = outline(dxf(handed))
    turned = outline(dxf(handed), laid=Turned(deg=90.0))
    assert (turned.outline.bounds.width, turned.outline.bounds.height) == pytest.approx((120, 180))
    assert turned.holes[0].bounds.centre == pytest.approx((20, 20))
    rear = outline(dxf(handed), laid=Turned(from_rear=True))
    assert rear.holes[0].bounds.centre == pytest.approx((160, 100))
    both = outline(dxf(handed), laid=Turned(deg=90.0, from_rear=True))
    # Mirrored first, then turned: shapely says where the hole comes to lie.
    shape = shapely.affinity.rotate(shapely.affinity.scale(shapely.Point(20, 100), -1, 1, origin=(0, 0)), 90, (0, 0))
    assert both.holes[0].bounds.centre == pytest.approx((shape.x + 120, shape.y + 180))
    for other in (turned, rear, both):
        assert other.outline.area == pytest.approx(plain.outline.area)
        assert other.outline.perimeter == pytest.approx(plain.outline.perimeter)


def test_what_was_mirrored_in_the_drawing_program() -> None:
    """An extrusion of 0, 0, -1 is how programs write it: x runs the other way (DXF reference, arbitrary axis)."""
    behind = {"extrusion": (0, 0, -1)}
    points = [(0, 0, 0), (100, 0, 0.5), (100, 40, 0), (0, 40, 0)]

    def draw(attributes):
        def drawn(space) -> None:
            space.add_lwpolyline(points, format="xyb", close=True, dxfattribs=attributes)
            space.add_arc((20, 20), 5, 30, 330, dxfattribs=attributes)
            space.add_line(*(_on_arc(deg, attributes) for deg in (30, 330)))

        return drawn

    plain, mirrored = outline(dxf(draw({}))), outline(dxf(draw(behind)))
    assert mirrored.outline.area == pytest.approx(plain.outline.area)
    width = plain.outline.bounds.width
    assert mirrored.holes[0].bounds.centre.x == pytest.approx(width - plain.holes[0].bounds.centre.x)


def _on_arc(deg: float, attributes) -> tuple[float, float]:
    x, y = 20 + 5 * math.cos(math.radians(deg)), 20 + 5 * math.sin(math.radians(deg))
    return (-x, y) if attributes else (x, y)


def test_a_perforated_panel_is_read() -> None:
    def draw(space) -> None:
        loop(space, [(0, 0), (400, 0), (400, 300), (0, 300)])
        for k in range(2000):
            space.add_circle((10 + 7 * (k % 50), 10 + 7 * (k // 50)), 2)

    assert len(outline(dxf(draw)).holes) == 2000
