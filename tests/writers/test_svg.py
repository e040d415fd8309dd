from __future__ import annotations

import math
import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lxml import etree

from panelart.drawing.representation import Drawing, Item, Layer, Paint
from panelart.geometry import Arc, Box, Line, Point, circle, rectangle, slot
from panelart.lettering.outline import Loop, open_shape, shape_of
from panelart.writers import svg
from panelart.writers.figures import decimal, lawful, rgb
from tests.writers.readers import SVG, off_by, svg_drawn
from tests.writers.sample import CUT, CUTOUTS, OUTLINE, sample

INK = Paint(colour="#112233")
PAGE = Box(0, 0, 100, 60)


def page(*items: Item, **named: tuple[Item, ...]) -> Drawing:
    layers = tuple(Layer(name=name, items=given) for name, given in (named or {"legend": items}).items())
    return Drawing(title="Try", note="A try.", page=PAGE, trim=PAGE, layers=layers)


def tree(drawing: Drawing) -> etree._Element:
    return etree.fromstring(svg(drawing))


def test_page_is_in_millimetres_at_one_unit_each() -> None:
    root = tree(sample())
    assert (root.get("width"), root.get("height")) == ("254mm", "127mm")
    assert root.get("viewBox") == "0 0 254 127"


def test_says_what_it_is_to_those_who_cannot_see_it() -> None:
    root = tree(sample())
    named = root.get("aria-labelledby").split()
    words = [root.xpath(f"//*[@id='{name}']")[0].text for name in named]
    assert root.get("role") == "img"
    assert words == [sample().title, sample().note]
    labels = [element.get("aria-label") for element in root.iter() if element.get("aria-label")]
    assert labels == ["RING", "O", "STOP Größe"]


def test_one_group_for_each_layer_in_order() -> None:
    root = tree(sample())
    groups = [child for child in root if child.tag == f"{SVG}g"]
    assert [group.get("id") for group in groups] == [layer.name for layer in sample().layers]
    assert [group.findtext(f"{SVG}title") for group in groups] == [layer.name for layer in sample().layers]


def test_y_is_turned_over_from_the_page_s_upper_left_corner() -> None:
    (only,) = tree(page(Item(shape=shape_of(circle(10, Point(20, 45))), fill=INK))).iter(f"{SVG}circle")
    assert (only.get("cx"), only.get("cy"), only.get("r")) == ("20", "15", "5")


def test_cut_contours_read_back_to_a_micrometre() -> None:
    drawn = [d for d in svg_drawn(svg(sample())) if d.layer in {"cutouts", "outline"}]
    assert len(drawn) == len(CUTOUTS) + 1
    for found, contour in zip(drawn, (*CUTOUTS, OUTLINE), strict=True):
        moved = [Point(p.x - 7, p.y - 3.5) for p in found.loops[0]]
        assert off_by(moved, contour) < 0.001


@given(turn=st.floats(0, 360), x=st.floats(20, 80), y=st.floats(20, 40), d=st.floats(1, 30))
def test_round_ends_stay_on_their_circle_however_they_are_turned(turn: float, x: float, y: float, d: float) -> None:
    # One command for half a circle would be up to 0.034 mm out at a radius of 10 (measured on 2000 such arcs).
    contour = slot(d + 5, d, Point(x, y)).turned(turn, Point(x, y))
    (found,) = svg_drawn(svg(page(Item(shape=shape_of(contour), stroke=CUT, width=0.1))))
    assert off_by(found.loops[0], contour) < 0.001


@pytest.mark.parametrize("sweep", [0.01, 90, 180, 270, 359.999, -0.01, -90, -180, -270, -359.999, -360])
def test_arcs_of_any_sweep(sweep: float) -> None:
    arc = Arc(Point(50, 30), 12, 25, sweep)
    spoke = Line(Point(50, 30), arc.start)  # keeps a full turn from being a circle element
    (found,) = svg_drawn(svg(page(Item(shape=open_shape((spoke, arc)), stroke=INK, width=0.2))))
    (points,) = found.loops
    around = points[16:]
    assert max(abs(math.hypot(p.x - 50, p.y - 30) - 12) for p in around) < 0.0002
    turned = sum(
        math.remainder(math.atan2(b.y - 30, b.x - 50) - math.atan2(a.y - 30, a.x - 50), math.tau)
        for a, b in pairwise(around)
    )
    assert math.degrees(turned) == pytest.approx(sweep, abs=0.001)


def test_a_style_is_stated_once() -> None:
    dots = tuple(Item(shape=shape_of(circle(2, Point(5 + 5 * i, 30))), fill=INK) for i in range(10))
    text = svg(page(*dots)).decode()
    assert text.count("#112233") == 1
    red = Item(shape=shape_of(circle(2, Point(90, 30))), fill=Paint(colour="#FF0000"))
    mixed = svg(page(*dots, red, *dots))
    assert mixed.decode().count("#112233") == 2
    fills = [drawn.state["fill"] for drawn in svg_drawn(mixed)]
    assert fills == ["#112233"] * 10 + ["#ff0000"] + ["#112233"] * 10


def test_paint_is_presentation_attributes() -> None:
    item = Item(
        shape=shape_of(rectangle(20, 10, Point(50, 30))),
        fill=Paint(colour="#ABCDEF", opacity=0.25),
        stroke=Paint(colour="#000000", opacity=0.5),
        width=0.35,
        dash=(3.0, 1.25),
    )
    (found,) = svg_drawn(svg(page(item)))
    expected = {
        "fill": "#abcdef",
        "fill-opacity": "0.25",
        "stroke": "#000000",
        "stroke-opacity": "0.5",
        "stroke-width": "0.35",
        "stroke-dasharray": "3 1.25",
    }
    assert expected.items() <= found.state.items()


def test_what_is_only_stroked_is_not_filled() -> None:
    (found,) = svg_drawn(svg(page(Item(shape=shape_of(circle(4, Point(9, 9))), stroke=INK, width=0.1))))
    assert found.state["fill"] == "none"


def test_identifiers_are_lawful_and_given_once() -> None:
    dot = shape_of(circle(2, Point(5, 5)))
    layers = {
        "title": (Item(shape=dot, fill=INK, name="S1"), Item(shape=dot, fill=INK, name="S1")),
        "white ink": (Item(shape=dot, fill=INK, name="2 p & q"), Item(shape=dot, fill=INK, name="white-ink")),
    }
    root = tree(page(**layers))
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids)) == 8
    assert all(re.fullmatch(r"[A-Za-z_][\w.-]*", name) for name in ids)


def test_text_that_xml_cannot_hold_is_shown_as_such() -> None:
    drawing = Drawing(title="a\x00<b>", note="\ud800 & \x1b", page=PAGE, trim=PAGE, layers=())
    root = tree(drawing)
    assert root[0].text == "a\ufffd<b>"
    assert root[1].text == "\ufffd & \ufffd"


def test_an_empty_drawing_is_a_page() -> None:
    assert tree(page()).get("viewBox") == "0 0 100 60"
    nothing = (Item(shape=(Loop(()),), fill=INK), Item(shape=(), fill=INK), Item(shape=shape_of(OUTLINE)))
    assert svg_drawn(svg(page(*nothing))) == []


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"fill": Paint(colour="red")}, "#RRGGBB"),
        ({"fill": Paint(colour="#12345")}, "#RRGGBB"),
        ({"fill": Paint(colour="#1234567")}, "#RRGGBB"),
        ({"fill": Paint(colour="#112233", opacity=1.01)}, "opacity"),
        ({"fill": Paint(colour="#112233", opacity=math.nan)}, "opacity"),
        ({"stroke": INK}, "0 mm wide"),
        ({"stroke": INK, "width": math.nan}, "0 mm wide"),
        ({"stroke": INK, "width": math.inf}, "finite"),
        ({"stroke": INK, "width": 1.0, "dash": (0.0, 0.0)}, "dashes"),
        ({"stroke": INK, "width": 1.0, "dash": (-1.0, 2.0)}, "dashes"),
        ({"fill": INK, "shape": open_shape((Line(Point(0, 0), Point(math.nan, 1)),))}, "finite"),
    ],
)
def test_refuses_what_cannot_be_painted(change: dict[str, object], words: str) -> None:
    values = {"shape": shape_of(circle(4, Point(9, 9))), **change}
    with pytest.raises(ValueError, match=words):
        svg(page(Item(**values)))  # type: ignore[arg-type]


@given(st.floats(-1e6, 1e6), st.integers(0, 6))
def test_figures_are_plain_decimals(value: float, places: int) -> None:
    text = decimal(value, places)
    assert re.fullmatch(r"-?\d+(\.\d+)?", text)
    assert text != "-0"
    assert "." not in text or not text.endswith("0")
    assert abs(float(text) - value) <= 0.5 * 10**-places * (1 + 1e-9) + 1e-10


def test_colours() -> None:
    assert rgb("#FF8000") == (1.0, 128 / 255, 0.0)


@given(st.text())
def test_lawful_text_can_be_read_by_an_xml_parser(text: str) -> None:
    element = etree.Element("t")
    element.text = lawful(text)  # lxml refuses what XML does not allow
    assert len(element.text or "") == len(text)
