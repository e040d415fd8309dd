"""Scales: angles and lengths recomputed from the written PDF by a reader of its own, and what is shown at the marks."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
import shapely

from panelart.drawing.artwork import artwork
from panelart.legends.graduations import graduations, numbered, share, shown
from panelart.legends.obstacles import ground
from panelart.model.panel import Law, Place, Reading, Scale, StraightScale, Zone
from panelart.pipeline import lay_out
from panelart.spec.read import panel_from_text
from panelart.writers import pdf, svg
from tests.panels import HERE, POT, SOCKET, WHITE, component, opening, panel, part
from tests.svg_ink import ink_of
from tests.writers.readers import pdf_drawn

AT = (80.0, 55.0)


def scale(low: float, high: float, **more) -> Scale:
    given = {"major": None, "minor": None, "sweep": 300, "start_deg": 240, "unit": ""} | more
    return Scale(low=low, high=high, where=HERE, **given)


def laid_out(of: Scale, knob=(16, 15), **more):
    return lay_out(panel(part("RV1", POT, AT, knob=knob, scale=of, **more)))


def lines_of_the_pdf(layout) -> list[tuple[float, float, float]]:
    """Direction in degrees, radius where it starts and length of every line of the ink's layer, about the shaft."""
    art = artwork(layout)
    found = []
    for drawn in pdf_drawn(pdf([art])):
        if not drawn.layer.startswith("legend") or drawn.operator != "S":
            continue
        for loop in drawn.loops:
            (ax, ay), (bx, by) = loop[0], loop[-1]
            ax, bx = ax + art.page.left - AT[0], bx + art.page.left - AT[0]
            ay, by = ay + art.page.bottom - AT[1], by + art.page.bottom - AT[1]
            near, far = sorted((math.hypot(ax, ay), math.hypot(bx, by)))
            assert math.degrees(math.atan2(ay, ax)) == pytest.approx(math.degrees(math.atan2(by, bx)), abs=0.02)
            found.append((math.degrees(math.atan2(by, bx)) % 360, near, far - near))
    return found


def test_a_linear_scale_of_300_degrees_in_the_pdf() -> None:
    """0 to 30 in ones over 300 degrees: ten degrees a step from 240 clockwise (plane geometry). Lengths of the marks
    1 : 0.71 : 0.43 (Grether and Baker, from memory)."""
    lines = lines_of_the_pdf(laid_out(scale(0, 30, major=10, minor=1)))
    assert len(lines) == 31
    expected = {
        (240 - 10 * step) % 360: (1.0 if step % 10 == 0 else 0.71 if step % 5 == 0 else 0.43) for step in range(31)
    }
    for deg, near, length in lines:
        nearest = min(expected, key=lambda angle: abs((deg - angle + 180) % 360 - 180))
        assert abs((deg - nearest + 180) % 360 - 180) < 0.02
        assert length == pytest.approx(3.0 * expected.pop(nearest), abs=0.003)
        # Knob of 16 mm, register 0.3, bare face 0.5.
        assert near == pytest.approx(8.0 + 0.3 + 0.5, abs=0.003)
    assert not expected


def test_a_logarithmic_scale_in_the_pdf() -> None:
    """20 Hz to 20 kHz over 270 degrees: three decades, so 90 degrees each; value v stands 90 lg(v / 20) from the low
    end (definition of the decade, ISO 80000-8)."""
    lines = lines_of_the_pdf(laid_out(scale(20, 20000, law=Law.LOGARITHMIC, sweep=270, start_deg=225)))
    values = [digit * 10.0**decade for decade in range(1, 5) for digit in range(1, 10)]
    inside = [value for value in values if 20 <= value <= 20000]
    expected = sorted((225 - 90 * math.log10(value / 20)) % 360 for value in inside)
    assert sorted(deg for deg, _, _ in lines) == pytest.approx(expected, abs=0.02)


def test_numerals_of_a_logarithmic_scale_count_one_two_five_with_k_for_thousands() -> None:
    texts = [legend.text for legend in laid_out(scale(20, 20000, law=Law.LOGARITHMIC), knob=(24, 15)).legends]
    assert texts == ["20", "50", "100", "200", "500", "1k", "2k", "5k", "10k", "20k"]


def test_a_table_puts_values_where_it_says() -> None:
    """An audio taper: half the way for a tenth of the value (common practice for the law called A or audio)."""
    audio = scale(0, 10, major=1, table=((0, 0.0), (1, 0.5), (10, 1.0)))
    assert share(audio, 1) == 0.5
    assert share(audio, 5.5) == pytest.approx(0.75)
    assert [graduation.share for graduation in graduations(audio)] == sorted(
        graduation.share for graduation in graduations(audio)
    )


@pytest.mark.parametrize("clockwise", [True, False])
def test_direction_and_start(*, clockwise: bool) -> None:
    lines = lines_of_the_pdf(laid_out(scale(0, 2, major=1, sweep=90, start_deg=10, clockwise=clockwise)))
    step = -45 if clockwise else 45
    assert sorted(deg for deg, _, _ in lines) == pytest.approx(
        sorted((10 + step * n) % 360 for n in range(3)), abs=0.02
    )


def test_marks_of_ones_own_and_middle_ones() -> None:
    kinds = {g.value: g.kind for g in graduations(scale(0, 10, major=5, intermediate=2.5, minor=0.5))}
    assert [value for value, kind in kinds.items() if kind == "intermediate"] == [2.5, 7.5]
    assert [g.value for g in graduations(scale(0, 9, marks=(0.0, 1.0, 9.0)))] == [0, 1, 9]


@pytest.mark.parametrize("major", [1, 2, 5, 0.1, 20, 25])
def test_thinned_numerals_count_by_one_two_or_five(major: float) -> None:
    """1, 2 or 5 times a power of ten: MIL-HDBK-759B, 5.2.2.3.1.3."""
    ways = numbered(scale(0, major * 40, major=major))
    for values in ways[1:-1]:
        step = values[1] - values[0]
        mantissa = step / 10 ** math.floor(math.log10(step) + 1e-9)
        assert any(math.isclose(mantissa, good, rel_tol=1e-6) for good in (1, 2, 5, 10))
    assert ways[-1] == [0, major * 40]


def test_words_stand_in_place_of_numerals_and_zero_has_no_minus() -> None:
    texts = {legend.text for legend in laid_out(scale(-5, 5, major=5, words=((-5.0, "L"), (5.0, "R")))).legends}
    assert texts == {"L", "0", "R"}
    assert shown(scale(-1, 1, major=1, decimals=1), -1) == "\N{MINUS SIGN}1.0"


@pytest.mark.parametrize("reading", [Reading.TANGENTIAL, Reading.RADIAL])
def test_turned_numerals_stand_off_their_marks_evenly_and_never_on_their_heads(reading: Reading) -> None:
    layout = laid_out(scale(0, 100, major=10, reading=reading), knob=(24, 15))
    outer = 12 + 0.3 + 0.5 + 3.0
    for legend in layout.legends:
        points = [tuple(curve.start) for loop in legend.shape for curve in loop.curves]
        near = shapely.MultiPoint(points).convex_hull.distance(shapely.Point(*AT))
        assert near == pytest.approx(outer + 0.35 * 2.4, abs=0.25)
    marks = {mark.kind for mark in layout.marks}
    assert marks == {"major-mark"}


def test_a_zone_is_an_arc_between_knob_and_marks() -> None:
    layout = laid_out(scale(0, 100, major=50, zones=(Zone(low=50, high=100, ink=WHITE),)))
    (zone,) = [mark for mark in layout.marks if mark.kind == "zone"]
    (arc,) = zone.shape[0].curves
    assert (arc.start_deg % 360, arc.sweep_deg) == pytest.approx((90, -150))
    assert arc.radius - zone.width / 2 == pytest.approx(8 + 0.3 + 0.5)
    for mark in layout.marks:
        if mark is not zone:
            assert ground(mark).distance(ground(zone)) > 0.25


def test_a_wedge_grows_with_the_value() -> None:
    layout = laid_out(scale(0, 10, major=10, wedge=True, numerals=()))
    (wedge,) = [mark for mark in layout.marks if mark.kind == "wedge"]
    area = ground(wedge)

    def width(deg: float) -> float:
        ray = shapely.LineString(
            [AT, (AT[0] + 50 * math.cos(math.radians(deg)), AT[1] + 50 * math.sin(math.radians(deg)))]
        )
        return area.intersection(ray).length

    widths = [width(240 - turned) for turned in (10, 80, 150, 220, 290)]
    assert all(a < b for a, b in pairwise(widths))
    assert widths[2] == pytest.approx(0.7 * 3.0 / 2, abs=0.03)


def test_detents_are_dots() -> None:
    layout = laid_out(scale(-5, 5, major=5, minor=1, detents=(0.0,), numerals=()))
    (dot,) = [mark for mark in layout.marks if mark.kind == "detent-mark"]
    assert dot.filled
    assert dot.shape[0].curves[0].centre.x == pytest.approx(AT[0])


def test_the_scale_of_a_second_shaft_stands_outside_the_first() -> None:
    layout = laid_out(scale(0, 10, major=5), outer_scale=scale(0, 100, major=50))
    inner = max(
        math.hypot(x - AT[0], y - AT[1])
        for legend in layout.legends
        if legend.text in {"5", "10"}
        for x in (legend.box.left, legend.box.right)
        for y in (legend.box.bottom, legend.box.top)
    )
    starts = sorted(mark.shape[0].curves[0].start.distance(layout.panel.parts[0].at) for mark in layout.marks)
    assert starts[:3] == pytest.approx([8.8] * 3)
    assert all(start > inner for start in starts[3:])


@pytest.mark.parametrize("side", [Place.RIGHT, Place.LEFT, Place.ABOVE, Place.BELOW])
def test_a_straight_scale_in_the_pdf(side: Place) -> None:
    """0 to 10 in ones over 50 mm: 5 mm a step about the part's middle; growing up, or to the right (MIL-STD-1472E,
    5.2.3.3.1)."""
    straight = StraightScale(length=50, side=side)
    layout = lay_out(panel(part("W1", SOCKET, AT, scale=scale(0, 10, major=5, minor=1, straight=straight))))
    art = artwork(layout)
    upright = side in (Place.RIGHT, Place.LEFT)
    along = []
    for drawn in pdf_drawn(pdf([art])):
        if drawn.layer.startswith("legend") and drawn.operator == "S":
            for loop in drawn.loops:
                point = loop[0]
                along.append(point.y + art.page.bottom - AT[1] if upright else point.x + art.page.left - AT[0])
    assert sorted(along) == pytest.approx([5.0 * step - 25 for step in range(11)], abs=0.003)
    by_text = {legend.text: legend.box.centre for legend in layout.legends}
    low, high = by_text["0"], by_text["10"]
    assert (high.y - low.y if upright else high.x - low.x) == pytest.approx(50, abs=0.3)


def test_names_round_a_switch_are_broken_into_lines_where_they_would_touch() -> None:
    rotary = component(
        opening(POT.openings[0].contour), name="rotary", front=POT.front, motion=POT.motion, shaft=POT.shaft
    )
    long = {150: "A", 115: "LOW CUT", 90: "MIC IN TWO", 65: "TAPE", 30: "B"}
    layout = lay_out(panel(part("S1", rotary, AT, knob=(16, 15), positions=long)))
    boxes = [legend.box for legend in layout.legends]
    assert any("\n" in legend.text for legend in layout.legends)
    assert not any(a.overlaps(b) for a, b in pairwise(boxes))


SPEC_WITH_READING = """\
panelart: 1
panel:
  title: Trial
  size: [120, 80]
  sheet: {material: aluminium, thickness: 2}
  coat: {kind: none}
marking:
  process: digital-print
  ink: {name: black, colour: "#000000"}
  lettering: {cap_height: 3}
  viewing_distance: 500
parts:
  - ref: RV1
    part: pot-m10
    at: [60, 40]
    knob: {diameter: 20, height: 16}
    scale: {from: 0, to: 100, major: 20, reading: READING}
"""


@pytest.mark.parametrize("reading", ["radial", "tangential"])
def test_turned_numerals_are_written_as_they_are_turned(reading: str) -> None:
    """The ink of the written SVG, read back by shapely, fills the boxes that placement and checks go by."""
    layout = lay_out(panel_from_text(SPEC_WITH_READING.replace("READING", reading)))
    assert any(one.turn % 180.0 for one in layout.legends)
    art = artwork(layout)
    written = sorted(ink.bounds for ink in ink_of(svg(art), art.page))
    boxes = sorted((one.box.left, one.box.bottom, one.box.right, one.box.top) for one in layout.legends)
    assert len(written) == len(boxes)
    for ink, box in zip(written, boxes, strict=True):
        assert ink == pytest.approx(box, abs=0.02)


@pytest.mark.parametrize(
    ("high", "major", "crowded", "texts"),
    [
        (25, 1, 1, ["0", "5", "10", "15", "20", "25"]),  # fives come out even, twos would end at 24
        (23, 1, 1, ["0", "5", "10", "15", "20", "23"]),  # nothing comes out even; twos would touch at 22 and 23
        (101, 1, 1, ["0", "10", "20", "30", "40", "50", "60", "70", "80", "90", "101"]),  # 100 gives way to 101
        (10, 1, 0, ["0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10"]),
    ],
)
def test_both_ends_are_numbered_when_numerals_are_thinned_out(high, major, crowded, texts) -> None:
    """As a draughtsman numbers a dial (common practice)."""
    layout = laid_out(scale(0, high, major=major), knob=(10 if crowded else 24, 15))
    assert [legend.text for legend in layout.legends] == texts


def test_a_word_at_an_end_stands_once() -> None:
    """0.1 x 3 is not 0.3 in binary; a word at 0.3 takes the place of the numeral all the same."""
    layout = laid_out(scale(0, 0.3, major=0.1, decimals=1, words=((0.3, "MAX"),)))
    assert [legend.text for legend in layout.legends] == ["0.0", "0.1", "0.2", "MAX"]


@pytest.mark.parametrize(
    ("unit", "last"),
    [("mA", "10\N{NARROW NO-BREAK SPACE}mA"), ("%", "10\N{NARROW NO-BREAK SPACE}%"), ("°", "10°")],
)
def test_the_last_numeral_and_the_unit_that_it_carries_never_part(unit: str, last: str) -> None:
    """SI Brochure, 9th edition, 5.4.3: a space, but before the signs of plane angle; our faces have the thin one."""
    texts = [legend.text for legend in laid_out(scale(0, 10, major=1, sweep=345, start_deg=262, unit=unit)).legends]
    assert texts[-1] == last
