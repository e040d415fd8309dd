"""Scales: angles and lengths recomputed from the written PDF by a reader of its own, and what is shown at the marks."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

import pytest
import shapely
from lxml import etree
from svgpathtools import parse_path

from panelart.catalogue.laws import travelled
from panelart.drawing.artwork import artwork
from panelart.geometry import Point
from panelart.legends.graduations import graduations, numbered, shown
from panelart.legends.obstacles import ground
from panelart.model.layout import PlacedLegend
from panelart.model.panel import Law, Place, Reading, Scale, StraightScale, Zone
from panelart.pipeline import inspect, lay_out
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
    assert travelled(audio, 1) == 0.5
    assert travelled(audio, 5.5) == pytest.approx(0.75)
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
def test_turned_numerals_stand_off_their_marks_evenly(reading: Reading) -> None:
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


# --- short marks that the spec leaves open

OPEN = """\
panelart: 1
panel:
  title: Trial
  size: [160, 120]
  sheet: {material: aluminium, thickness: 2}
  coat: {kind: none}
marking:
  process: digital-print
  ink: {name: black, colour: "#000000"}
  lettering: {cap_height: 3}
  viewing_distance: DISTANCE
parts:
  - {ref: RV1, part: pot-m10, at: [80, 60], knob: {diameter: KNOB, height: 16}, scale: SCALE}
"""


def marks_of_the_svg(
    scale: str, knob: float = 24, distance: float = 500, sizes: str = "lettering"
) -> list[tuple[float, float, float, str]]:
    """Clock angle in degrees (0 is straight up), inner radius, length and label of the marks in the written SVG."""
    text = OPEN.replace("DISTANCE", f"{distance}\n  mark_sizes: {sizes}")
    text = text.replace("KNOB", f"{knob}").replace("SCALE", scale)
    art = artwork(lay_out(panel_from_text(text)))
    hub = complex(80 - art.page.left, art.page.top - 60)
    found = []
    for path in etree.fromstring(svg(art)).iter("{http://www.w3.org/2000/svg}path"):
        label = path.get("aria-label") or ""
        if "-mark of" in label:
            line = parse_path(path.get("d"))[0]
            near, far = sorted((line.start - hub, line.end - hub), key=abs)
            found.append((math.degrees(math.atan2(far.real, -far.imag)), abs(near), abs(far) - abs(near), label))
    return sorted(found)


def values_of(marks: list[tuple[float, float, float, str]], value: Callable[[float], float]) -> list[float]:
    return [round(value(angle), 3) for angle, _, _, _ in marks]


def test_a_logarithmic_scale_with_room_has_tenths_between_one_and_two() -> None:
    """One decade over 270 degrees at 20.8 mm: 98.0 mm. From 1.9 to 2 are 98.0 lg(2/1.9) = 2.18 mm, the same from 9.5 to
    10; wanted are 500/600 + 0.30 = 1.13 mm. Tenths from 2 to 5 would be more than nine between two numerals."""
    marks = marks_of_the_svg("{from: 1, to: 10, law: logarithmic, sweep: 270}", knob=40)
    assert marks[0][1] == pytest.approx(20.8, abs=0.001)
    wanted = [1, 1.1, 1.2, 1.3, 1.4, 1.5, 1.6, 1.7, 1.8, 1.9, 2, 2.5, 3, 3.5, 4, 4.5]
    wanted += [5, 5.5, 6, 6.5, 7, 7.5, 8, 8.5, 9, 9.5, 10]
    assert values_of(marks, lambda angle: 10 ** ((angle + 135) / 270)) == pytest.approx(wanted, abs=0.005)


def test_a_logarithmic_scale_without_room_leaves_out_seven_eight_nine() -> None:
    """Three decades over 270 degrees at 10.8 mm: 17.0 mm each. From 9 to 10 are 17.0 lg(10/9) = 0.78 mm, from 5 to 10
    5.1, from 2 to 3 3.0, from 4 to 5 1.65; wanted are 1.13 mm."""
    marks = marks_of_the_svg("{from: 1, to: 1000, law: logarithmic, sweep: 270}", knob=20)
    values = values_of(marks, lambda angle: 10 ** ((angle + 135) / 90))
    assert [value for value in values if value <= 10.01] == pytest.approx([1, 1.5, 2, 3, 4, 5, 10], abs=0.01)


@pytest.mark.parametrize(
    ("knob", "distance", "minor"),
    # Over 300 degrees of 10 at 20.8 mm 10.9 mm for each 1, at 10.8 mm 5.65 mm; wanted are D/600 + 0.3 mm.
    [(40, 300, 0.1), (40, 460, 0.1), (40, 480, 0.2), (20, 400, 0.2), (20, 520, 0.5), (20, 1600, 1.0)],
)
def test_a_linear_scale_is_divided_by_one_two_and_five_as_far_as_an_eye_can_part(knob, distance, minor) -> None:
    marks = marks_of_the_svg(
        "{from: 0, to: 10, major: 1, sweep: 300, numerals: [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10]}", knob, distance
    )
    steps = [b[0] - a[0] for a, b in pairwise(marks)]
    assert steps == pytest.approx([30.0 * minor] * round(10 / minor), abs=0.01)


@pytest.mark.parametrize("knob", [10, 16, 24, 40, 60])
@pytest.mark.parametrize("distance", [300, 500, 1000])
@pytest.mark.parametrize(
    "written",
    [
        "{from: 0, to: 30, major: 5}",
        "{from: 20, to: 20000, law: logarithmic}",
        "{from: 0.3, to: 3, law: logarithmic}",
        "{from: 1000, to: 1, law: logarithmic}",
        "{from: 0, to: 10, major: 1, table: [[0, 0], [1, 0.5], [10, 1]]}",
    ],
)
def test_open_marks_are_never_closer_than_an_eye_can_part(written, knob, distance) -> None:
    """White of a 600th of the viewing distance (Grandjean, from memory), measured on the written SVG at the inner ends;
    marks that are asked for may be closer, so only those beside a short one count."""
    marks = marks_of_the_svg(written, knob, distance)
    for a, b in pairwise(marks):
        if "major" in a[3] and "major" in b[3]:
            continue
        apart = math.radians(b[0] - a[0]) * a[1]
        assert apart >= distance / 600 + 0.25 - 0.01, (a, b)


def test_a_falling_scale_and_its_signs() -> None:
    """From +6 to -6 clockwise over 300 degrees: 25 degrees for each 1, +6 at the left (plane geometry)."""
    layout = laid_out(scale(-6, 6, major=6, falling=True, signed=True))
    assert [legend.text for legend in layout.legends] == ["\N{MINUS SIGN}6", "0", "+6"]
    assert layout.legends[0].box.centre.x > AT[0] > layout.legends[2].box.centre.x
    marks = marks_of_the_svg("{from: 6, to: -6, major: 6, minor: 1, sweep: 300, signed: true}")
    assert [angle for angle, *_ in marks] == pytest.approx([25.0 * step - 150 for step in range(13)], abs=0.01)
    assert [round(length, 2) for _, _, length, _ in marks] == [3.0, *[1.29] * 5, 3.0, *[1.29] * 5, 3.0]


def test_a_falling_table_is_read_as_it_is_written() -> None:
    """Half the way for 10 of 60: the mark for 10 stands straight up."""
    marks = marks_of_the_svg("{from: 60, to: 0, marks: [0, 10, 60], table: [[60, 0], [10, 0.5], [0, 1]], sweep: 300}")
    assert [angle for angle, *_ in marks] == pytest.approx([-150, 0, 150], abs=0.01)


def test_steps_of_a_stepped_control_have_nothing_between_them() -> None:
    steps = "{from: 0, to: 40, major: 10, sweep: 300, detents: [0, 10, 20, 30, 40]}"
    layout = lay_out(panel_from_text(OPEN.replace("DISTANCE", "500").replace("KNOB", "24").replace("SCALE", steps)))
    assert [mark.kind for mark in layout.marks] == ["detent-mark"] * 5  # dots; nothing between them
    top = next(one for one in layout.legends if one.text == "20")
    # Straight up: knob of 24, register and bare face 0.8, a dot of 0.36 of 3 mm, white of 0.35 of 2.4 mm.
    assert top.box.bottom - 60 == pytest.approx(12.8 + 0.36 * 3 + 0.35 * 2.4, abs=0.06)
    assert marks_of_the_svg("{from: 0, to: 10, major: 5, subdivide: false, sweep: 300}", knob=40)[1][
        0
    ] == pytest.approx(0)


def test_a_vu_scale_in_the_svg() -> None:
    """-3 VU half way and 0 VU at 0.708 of 90 degrees of deflection (ANSI C16.5-1942 as described)."""
    marks = marks_of_the_svg("{from: -20, to: 3, law: vu, sweep: 90}", knob=40)
    assert len(marks) == 11
    angles = [angle + 45 for angle, *_ in marks]
    assert angles[4] == pytest.approx(45.1, abs=0.05)
    assert angles[7] == pytest.approx(63.7, abs=0.05)
    assert angles[-1] == pytest.approx(90, abs=0.01)


def test_what_a_law_crowds_is_left_out() -> None:
    """-30 and -40 dB of a voltage are 3.2 and 1 % of the turn: nothing there stands clear of OFF at its beginning."""
    written = "{from: -40, to: 0, law: decibel, major: 10, sweep: 300, rest: OFF}"
    marks = [mark for mark in marks_of_the_svg(written) if mark[3].startswith("major")]
    assert [angle for angle, *_ in marks] == pytest.approx(
        [-150, -150 + 300 * 10**-1.5, -120, -150 + 300 * 10**-0.5, 150], abs=0.01
    )
    layout = lay_out(panel_from_text(OPEN.replace("DISTANCE", "500").replace("KNOB", "24").replace("SCALE", written)))
    assert [one.text for one in layout.legends] == [
        "OFF",
        "\N{MINUS SIGN}20",
        "\N{MINUS SIGN}10",
        "0",
    ]


# --- all round, two units on one arc, ranges of a switch


def legends_of(scale: str, knob: float = 24) -> dict[str, PlacedLegend]:
    text = OPEN.replace("DISTANCE", "500").replace("KNOB", f"{knob}").replace("SCALE", scale)
    return {one.text: one for one in lay_out(panel_from_text(text)).legends}


def test_a_scale_all_round_has_one_mark_where_its_ends_meet() -> None:
    """A compass: 0 straight up, 30 degrees a step, no 360 over the 0."""
    written = "{from: 0, to: 360, major: 30, sweep: 360, start: 90, subdivide: false}"
    marks = marks_of_the_svg(written)
    assert sorted(angle % 360 for angle, *_ in marks) == pytest.approx([30.0 * step for step in range(12)], abs=0.01)
    assert list(legends_of(written)) == [str(30 * step) for step in range(12)]


def test_an_encoder_has_marks_all_round_and_no_values() -> None:
    text = OPEN.replace("DISTANCE", "500").replace("KNOB", "24").replace("pot-m10", "encoder-m9")
    layout = lay_out(panel_from_text(text.replace("SCALE", "{from: 0, to: 20, major: 5, minor: 1, numerals: []}")))
    assert len(layout.marks) == 20
    assert not layout.legends


def test_two_units_on_one_arc() -> None:
    """0 to 100 degrees Celsius and 32 to 212 Fahrenheit over 270 degrees: 50 and 122 stand at the same place, straight
    up; 1 degree Celsius is 2.7, 1 degree Fahrenheit 1.5 degrees of arc. Marks within and outside one radius."""
    written = """[{from: 0, to: 100, major: 50, minor: 10, sweep: 270, unit: "°C"},
      {from: 32, to: 212, marks: [32, 122, 212], unit: "°F", arc: shared}]"""
    marks = marks_of_the_svg(written)
    radius = max(near for _, near, _, _ in marks)
    celsius = [mark for mark in marks if mark[1] + mark[2] == pytest.approx(radius, abs=0.002)]
    fahrenheit = [mark for mark in marks if mark[1] == pytest.approx(radius, abs=0.002)]
    assert [angle for angle, *_ in celsius] == pytest.approx([27.0 * step - 135 for step in range(11)], abs=0.01)
    assert [angle for angle, *_ in fahrenheit] == pytest.approx([-135, 0, 135], abs=0.01)
    assert len(celsius) + len(fahrenheit) == len(marks)
    found = legends_of(written)
    hub = Point(80, 60)
    for text in ("0", "50", "100", "°C"):
        reach = [hub.distance(corner) for corner in found[text].box.corners]
        assert max(reach) <= radius - 3 - 0.35 * 2.4 + 0.01
        assert min(reach) >= 12.8 - 0.01  # knob of 24, register 0.3, bare face 0.5
    for text in ("32", "122", "212", "°F"):
        assert min(hub.distance(corner) for corner in found[text].box.corners) > radius + 3


RANGES = (
    OPEN.replace("DISTANCE", "500")
    .replace("KNOB", "24")
    .replace("pot-m10", "rotary-m10")
    .replace(
        "scale: SCALE",
        "positions: {texts: [1, 2, 5, 10, 20, 50, 1, 2, 5], index: 30, ranges: [{of: 6, unit: mV}, {of: 3, unit: V}]}",
    )
)


def test_ranges_of_a_switch_are_bracketed_with_their_units() -> None:
    """Nine positions of 30 degrees, the first at -120: 1 to 50 mV from -120 to 30, 1 to 5 V from 60 to 120."""
    layout = lay_out(panel_from_text(RANGES))
    hub = Point(80, 60)
    brackets = [mark for mark in layout.marks if mark.kind == "range-bracket"]
    spans = []
    for bracket in brackets:
        _, arc, _ = bracket.shape[0].curves
        spans.append((90 - arc.start_deg, 90 - arc.start_deg - arc.sweep_deg))
        names = [one for one in layout.legends if one.style == "position" and one.text.isdigit()]
        assert all(hub.distance(corner) < arc.radius for one in names for corner in one.box.corners)
    assert spans == [pytest.approx((-120, 30)), pytest.approx((60, 120))]
    units = {one.text: one.box.centre for one in layout.legends}
    assert math.degrees(math.atan2(units["mV"].x - 80, units["mV"].y - 60)) == pytest.approx(-45, abs=1)
    assert math.degrees(math.atan2(units["V"].x - 80, units["V"].y - 60)) == pytest.approx(90, abs=1)


def test_one_and_one_in_two_ranges_are_two_positions() -> None:
    """1 mV and 1 V are not the same, and 50 mV is less than 1 V."""
    names = {finding.rule for finding in inspect(lay_out(panel_from_text(RANGES))).findings}
    assert not names & {"position-repeated", "positions-unordered", "positions-run-backwards", "position-step-missing"}
    bare = RANGES.replace(", ranges: [{of: 6, unit: mV}, {of: 3, unit: V}]", "")
    assert "position-repeated" in {finding.rule for finding in inspect(lay_out(panel_from_text(bare))).findings}


# --- which way up


@pytest.mark.parametrize("reading", ["radial", "tangential"])
@pytest.mark.parametrize(("start", "sweep"), [(240, 300), (225, 270), (180, 180), (0, 180), (270, 180), (90, 180)])
def test_neighbouring_numerals_never_turn_their_heads_to_opposite_sides(reading, start, sweep) -> None:
    """From one numeral to the next they turn by as much as their marks do: 80 and 90 were 150 degrees apart."""
    written = f"{{from: 0, to: 100, major: 10, start: {start}, sweep: {sweep}, reading: {reading}}}"
    found = list(legends_of(written, knob=40).values())
    turns = [(b.turn - a.turn + 180) % 360 - 180 for a, b in pairwise(found)]
    assert turns == pytest.approx([-sweep / 10] * 10)


@pytest.mark.parametrize(
    ("reading", "start", "middle"),
    # The scale's middle above, right, below and left of the shaft (plane geometry).
    [("tangential", 180, 0), ("tangential", 90, -90), ("tangential", 0, 0), ("tangential", 270, 90),
     ("radial", 180, 90), ("radial", 90, 0), ("radial", 0, -90), ("radial", 270, 0)],
)  # fmt: skip
def test_the_numeral_in_the_middle_of_a_scale_is_never_on_its_head(reading, start, middle) -> None:
    written = f"{{from: 0, to: 100, major: 50, start: {start}, sweep: 180, reading: {reading}}}"
    turn = (legends_of(written)["50"].turn + 180) % 360 - 180
    assert turn == pytest.approx(middle)


def test_the_unit_of_a_dial_with_turned_numerals_is_upright_under_the_shaft() -> None:
    turn = legends_of("{from: 0, to: 30, major: 10, unit: V, reading: tangential, sweep: 270}")["V"].turn
    assert turn % 360 == pytest.approx(0)


# --- sizes of marks by viewing distance


@pytest.mark.parametrize(
    ("sizes", "distance", "lengths"),
    [
        # Grether and Baker (1972), inches by steps of feet: 0.22, 0.16, 0.09 up to 1.5 ft, 0.40, 0.28, 0.17 up to 3 ft.
        ("grether-baker", 457, (5.588, 4.064, 2.286)),
        ("grether-baker", 458, (10.16, 7.112, 4.318)),
        ("grether-baker", 710, (10.16, 7.112, 4.318)),
        # MIL-STD-1472, dial figures at 710 mm; half of it at half the distance.
        ("mil-std-1472", 710, (5.6, 4.1, 2.5)),
        ("mil-std-1472", 355, (2.8, 2.05, 1.25)),
        # Grandjean: 500 mm: 5.6, 4, 2.5; 710 mm: 7.9.
        ("grandjean", 500, (5.556, 4.0, 2.5)),
        ("grandjean", 710, (7.889, 5.68, 3.55)),
        ("lettering", 710, (3.0, 2.13, 1.29)),
    ],
)
def test_marks_as_long_as_a_source_has_them(sizes: str, distance: float, lengths: tuple[float, ...]) -> None:
    """All three figures are from memory; they contradict each other, and the spec chooses."""
    marks = marks_of_the_svg(
        "{from: 0, to: 10, major: 5, intermediate: 2.5, minor: 0.5, sweep: 270}", 40, distance, sizes
    )
    found = {label.split("-")[0]: length for _, _, length, label in marks}
    assert tuple(found[kind] for kind in ("major", "intermediate", "minor")) == pytest.approx(lengths, abs=0.001)
    assert {round(near, 2) for _, near, _, _ in marks} == {20.8}


def test_numerals_stand_clear_of_marks_as_long_as_a_source_has_them() -> None:
    text = OPEN.replace("DISTANCE", "710\n  mark_sizes: grether-baker").replace("KNOB", "24")
    layout = lay_out(panel_from_text(text.replace("SCALE", "{from: 0, to: 10, major: 1, sweep: 300}")))
    for one in layout.legends:
        assert all(
            not ground(mark).intersects(shapely.box(one.box.left, one.box.bottom, one.box.right, one.box.top))
            for mark in layout.marks
        )
