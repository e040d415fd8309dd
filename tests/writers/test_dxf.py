from __future__ import annotations

import io
import math

import ezdxf
import pytest
from ezdxf import recover

from panelart.drawing.representation import Drawing, Item, Layer, Paint
from panelart.geometry import Arc, Box, Contour, Line, Path, Point, circle, rectangle, slot
from panelart.lettering.outline import Loop, Shape, open_shape, shape_of
from panelart.writers import dxf
from tests.writers.readers import dxf_drawn, dxf_tags, enclosed, off_by
from tests.writers.sample import CUTOUTS, OUTLINE, letter, sample

CUT = Paint(colour="#FF00FF")
PAGE = Box(0, 0, 200, 100)


def cut(*shapes: Shape, layer: str = "cutouts") -> Drawing:
    items = tuple(Item(shape=shape, stroke=CUT, width=0.1) for shape in shapes)
    return Drawing(title="T", note="N", page=PAGE, trim=PAGE, layers=(Layer(name=layer, items=items),))


def opened(data: bytes) -> ezdxf.document.Drawing:
    return ezdxf.read(io.TextIOWrapper(io.BytesIO(data), encoding="cp1252"))


@pytest.fixture(scope="module")
def made() -> bytes:
    return dxf(sample().only("cutouts", "outline"))


def header(data: bytes) -> dict[str, str]:
    tags = dxf_tags(data)
    return {name: tags[i + 1][1] for i, (code, name) in enumerate(tags) if code == 9}


def test_r2000_in_millimetres(made: bytes) -> None:
    # Codes: DXF reference, header section. 4 is the millimetre, AC1015 is R2000.
    found = header(made)
    assert (found["$ACADVER"], found["$INSUNITS"], found["$MEASUREMENT"]) == ("AC1015", "4", "1")


def test_extents_are_those_of_the_contours(made: bytes) -> None:
    tags = dxf_tags(made)
    low, high = tags.index((9, "$EXTMIN")), tags.index((9, "$EXTMAX"))
    assert [float(value) for _, value in tags[low + 1 : low + 4]] == pytest.approx([0, 0, 0])
    assert [float(value) for _, value in tags[high + 1 : high + 4]] == pytest.approx([240, 120, 0])


def test_another_reader_finds_no_fault(made: bytes) -> None:
    document = opened(made)
    audit = document.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    kinds = {entity.dxftype() for entity in document.modelspace()}
    assert kinds == {"CIRCLE", "LWPOLYLINE"}


def test_contours_read_back_to_a_micrometre(made: bytes) -> None:
    drawn = dxf_drawn(made)
    assert len(drawn) == len(CUTOUTS) + 1
    assert all(found.state["closed"] for found in drawn)
    for contour in (*CUTOUTS, OUTLINE):
        nearest = min(off_by(found.loops[0], contour) for found in drawn if found.loops)
        assert nearest < 0.00001


def test_each_contour_is_on_the_layer_it_was_drawn_on(made: bytes) -> None:
    assert [found.layer for found in dxf_drawn(made)] == ["cutouts"] * 5 + ["outline"]
    document = opened(made)
    colours = {name: document.layers.get(name).color for name in ("cutouts", "outline")}
    assert len(set(colours.values())) == 2
    assert 62 not in set().union(*(found.state["codes"] for found in dxf_drawn(made))), "colour is the layer's"


def test_round_holes_are_circles_and_all_else_has_bulges(made: bytes) -> None:
    drawn = dxf_drawn(made)
    assert [found.operator for found in drawn].count("CIRCLE") == 1
    assert all(any(found.state["bulges"]) for found in drawn if found.operator == "LWPOLYLINE")


@pytest.mark.parametrize(("sweep", "arcs"), [(90, 1), (180, 1), (181, 2), (359, 2), (-270, 2), (-180, 1)])
def test_an_arc_of_more_than_half_a_circle_is_two(sweep: float, arcs: int) -> None:
    arc = Arc(Point(50, 50), 10, 30, sweep)
    contour = Contour((arc, Line(arc.end, arc.start)))
    (found,) = dxf_drawn(dxf(cut(shape_of(contour))))
    bulges = [bulge for bulge in found.state["bulges"] if bulge]
    # Bulge: tangent of a quarter of the included angle, negative clockwise (DXF reference, LWPOLYLINE code 42).
    assert bulges == pytest.approx([math.tan(math.radians(sweep / arcs) / 4)] * arcs, abs=1e-12)
    assert max(abs(bulge) for bulge in bulges) <= 1 + 1e-12
    assert off_by(found.loops[0], contour) < 1e-5


def test_area_of_bulged_contours() -> None:
    import shapely

    contour = slot(30, 8, Point(60, 40)).turned(12, Point(60, 40))
    (found,) = dxf_drawn(dxf(cut(shape_of(contour))))
    true = shapely.LineString([(0, 0), (22, 0)]).buffer(4, quad_segs=512).area
    assert enclosed(found.loops[0]) == pytest.approx(true, rel=0.005)  # 16 chords for half a turn
    assert enclosed(found.loops[0]) > 0


def test_open_chains_stay_open() -> None:
    path = Path(
        (Line(Point(10, 10), Point(20, 10)), Arc(Point(20, 15), 5, -90, 90), Line(Point(25, 15), Point(25, 30)))
    )
    (found,) = dxf_drawn(dxf(cut(open_shape(path))))
    assert not found.state["closed"]
    assert found.loops[0][0] == Point(10, 10)
    assert found.loops[0][-1] == Point(25, 30)


def test_inner_contours_come_before_those_that_hold_them_then_by_place() -> None:
    frame = rectangle(100, 60, Point(60, 50))
    window = rectangle(40, 40, Point(60, 50))
    holes = [circle(4, Point(x, y)) for x, y in ((70, 60), (50, 60), (50, 40), (70, 40))]
    beside = circle(4, Point(150, 50))
    shapes = [shape_of(contour) for contour in (frame, beside, window, *holes)]
    for shuffled in (shapes, shapes[::-1]):
        order = [found.loops[0][0] for found in dxf_drawn(dxf(cut(*shuffled)))]
        right_hand = [(p.x, p.y) for p in order[:4]]
        assert right_hand == [(52, 40), (52, 60), (72, 40), (72, 60)]
        assert [found.operator for found in dxf_drawn(dxf(cut(*shuffled)))] == [
            *["CIRCLE"] * 4,  # within the window
            "LWPOLYLINE",  # the window, within the frame
            "LWPOLYLINE",  # the frame, left
            "CIRCLE",  # beside it, right
        ]


def test_the_same_contours_in_another_order_are_the_same_file() -> None:
    shapes = [shape_of(circle(3, Point(5 * (i % 13) + 5, 7 * (i % 7) + 5))) for i in range(60)]
    assert dxf(cut(*shapes)) == dxf(cut(*reversed(shapes)))


def test_a_panel_full_of_vents_is_written() -> None:
    holes = [shape_of(circle(1, Point(2 + 2 * i, 2 + 2 * j))) for i in range(70) for j in range(45)]
    made = dxf(cut(*holes, shape_of(rectangle(190, 95, Point(98, 49)))))
    drawn = dxf_drawn(made)
    assert len(drawn) == 3151
    assert drawn[-1].operator == "LWPOLYLINE"


def test_no_dust_of_floating_point() -> None:
    contour = rectangle(20, 10, Point(0, 0)).turned(90).moved(Point(10, 5).minus(Point(0, 0)))
    text = dxf(cut(shape_of(contour))).decode()
    begin = text.index("LWPOLYLINE")
    assert "e-" not in text[begin:]
    assert "-0.0\n" not in text[begin:]


def test_nothing_in_it_is_a_curve_or_a_text(made: bytes) -> None:
    words = {value for code, value in dxf_tags(made) if code == 0}
    assert not words & {"SPLINE", "ELLIPSE", "TEXT", "MTEXT", "INSERT", "HATCH", "DIMENSION"}


def test_empty_layers_are_declared_and_an_empty_drawing_has_the_page_as_extents() -> None:
    made = dxf(cut())
    assert dxf_drawn(made) == []
    document = opened(made)
    assert "cutouts" in document.layers
    assert tuple(document.header["$EXTMAX"]) == (200, 100, 0)


def test_layer_names_beyond_ascii_read_back() -> None:
    made = dxf(cut(shape_of(circle(4, Point(9, 9))), layer="Ausschnitte ø 日"))
    document, _ = recover.read(io.BytesIO(made))  # which reads \\U+XXXX, as CAD programs do
    (only,) = document.modelspace()
    assert only.dxf.layer == "Ausschnitte ø 日"


BROKEN = Loop((Line(Point(0, 0), Point(10, 0)), Line(Point(10, 0.01), Point(0, 10)), Line(Point(0, 10), Point(0, 0))))
UNCLOSED = Loop((Line(Point(0, 0), Point(10, 0)), Line(Point(10, 0), Point(0, 10))))


@pytest.mark.parametrize(
    ("drawing", "words"),
    [
        (cut(letter(Point(50, 50))), "cubic"),
        (cut((BROKEN,)), "broken by 0.01 mm"),
        (cut((UNCLOSED,)), "broken by 10 mm"),
        (
            cut(open_shape((Line(Point(0, 0), Point(1, math.nan)), Line(Point(1, math.nan), Point(2, 2))))),
            "broken|finite",
        ),
        (cut(layer="a/b"), "does not allow"),
        (cut(layer=""), "does not allow"),
        (cut(layer="a\nb"), "does not allow"),
    ],
)
def test_refuses_what_cannot_be_cut(drawing: Drawing, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        dxf(drawing)


def test_layers_that_differ_only_in_case_are_one_in_dxf() -> None:
    layers = (Layer(name="Cutouts", items=()), Layer(name="cutouts", items=()))
    with pytest.raises(ValueError, match="one and the same"):
        dxf(Drawing(title="T", note="N", page=PAGE, trim=PAGE, layers=layers))


@pytest.mark.parametrize("before", [False, True])
@pytest.mark.parametrize("layer", ["cutouts", "a/b"])
def test_the_library_s_options_are_left_as_they_were(*, before: bool, layer: str) -> None:
    kept = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = before
    try:
        try:
            dxf(cut(layer=layer))
        except ValueError:
            assert layer == "a/b"
        assert ezdxf.options.write_fixed_meta_data_for_testing is before
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = kept
