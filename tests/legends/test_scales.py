"""Scales: angles and lengths recomputed from the written PDF by a reader of its own, and what is shown at the marks."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
import shapely
from lxml import etree
from svgpathtools import parse_path

from panelart.catalogue.laws import travelled
from panelart.diagnostics import SpecError
from panelart.drawing.artwork import artwork
from panelart.geometry import Box, Point
from panelart.legends import place as placing
from panelart.legends.graduations import graduations, numbered, shown
from panelart.legends.obstacles import ground
from panelart.lettering.flat import flattened
from panelart.lettering.outline import bounds
from panelart.model.layout import PlacedLegend
from panelart.model.panel import Law, Place, Reading, Scale, StraightScale, Zone
from panelart.pipeline import inspect, lay_out, read
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


LONG_WORDS = """
panelart: 1
panel: {title: Test, size: [%s, 90], sheet: {material: aluminium 5754, thickness: 2}}
marking:
  process: digital-print
  ink: {name: black, colour: "#101010"}
  lettering: {cap_height: 3}
parts:
  - {ref: A1, at: [%s, 45], %s}
  - {ref: A2, at: [160, 45], %s}
"""
WORDS_ROUND = """part: pot-m10, knob: {diameter: 22, height: 16},
     scale: {from: 0, to: 10, marks: [0, 5, 10], words: {0: Minimum power, 5: Eco, 10: Maximum power}}"""
WORDS_BESIDE = """part: fader-60, scale: {from: 0, to: 2, marks: [0, 1, 2], length: 60, side: right,
     words: {0: Low, 1: Normal operation, 2: Maximum power}}"""
NAMES_ROUND = """part: rotary-m10, knob: {diameter: 22, height: 16},
     positions: {index: 30, texts: [Standby, Temperature regulation, Recirculating pump, "Off"]}"""


@pytest.mark.parametrize(
    ("width", "first", "item", "broken"),
    [
        (240, 60, WORDS_ROUND, {"A1": set()}),
        (240, 112, WORDS_ROUND, {"A1": {"Minimum\npower", "Maximum\npower"}}),
        (240, 60, WORDS_BESIDE, {"A1": set()}),
        (196, 60, WORDS_BESIDE, {"A1": set(), "A2": {"Normal\noperation", "Maximum\npower"}}),
        (240, 60, NAMES_ROUND, {"A2": set()}),
        (240, 34, NAMES_ROUND, {"A1": {"Temperature\nregulation", "Recirculating\npump"}, "A2": set()}),
    ],
)
def test_words_are_broken_where_they_reach_into_a_neighbour_or_off_the_panel(
    width: float, first: float, item: str, broken: dict[str, set[str]]
) -> None:
    """The boxes of all words are inside the panel and apart, judged by shapely."""
    layout = lay_out(panel_from_text(LONG_WORDS % (width, first, item, item)))
    boxes = [boxed(legend.box) for legend in layout.legends]
    assert shapely.box(0, 0, width, 90).contains(shapely.union_all(boxes))
    assert not any(a.intersects(b) for at, a in enumerate(boxes) for b in boxes[:at])
    for ref, words in broken.items():
        assert {one.text for one in layout.legends if one.ref == ref and "\n" in one.text} == words


@pytest.mark.parametrize(
    ("item", "first", "looks"), [(WORDS_ROUND, 60, 1), (WORDS_ROUND, 112, 2), (NAMES_ROUND, 34, 2)]
)
def test_what_is_in_the_way_of_words_is_looked_for_once_for_each_number_of_lines(
    monkeypatch: pytest.MonkeyPatch, item: str, first: float, looks: int
) -> None:
    """Once as they are and once on two lines, where nothing is in the way any more."""
    looked: list[int] = []

    def looking(*of: Any) -> dict[str, int]:
        looked.append(1)
        return whole(*of)

    whole = placing._in_the_way
    monkeypatch.setattr(placing, "_in_the_way", looking)
    lay_out(panel_from_text(LONG_WORDS % (240, first, item, item)))
    assert len(looked) == looks


def test_words_of_a_crowded_scale_are_broken_and_all_there() -> None:
    words = {0: "Minimum", 2: "Reduced power", 4: "Normal operation", 6: "Increased power", 10: "Maximum power"}
    said = ", ".join(f"{value}: {word}" for value, word in words.items())
    found = numerals_of(f"{{from: 0, to: 10, marks: [0, 2, 4, 6, 10], words: {{{said}}}}}")
    assert {" ".join(text.split()) for text in found} == {*words.values()}
    assert any("\n" in text for text in found)
    hulls = [hull(legend) for legend in found.values()]
    assert not any(a.intersects(b) for at, a in enumerate(hulls) for b in hulls[:at])


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
    for text in ("0", "50", "100\N{NARROW NO-BREAK SPACE}°C"):
        reach = [hub.distance(corner) for corner in found[text].box.corners]
        assert max(reach) <= radius - 3 - 0.35 * 2.4 + 0.01
        assert min(reach) >= 12.8 - 0.01  # knob of 24, register 0.3, bare face 0.5
    for text in ("32", "122", "212\N{NARROW NO-BREAK SPACE}°F"):
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


@pytest.mark.parametrize("reading", ["tangential"])
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
     ("radial", 180, 90), ("radial", 90, 0), ("radial", 0, 90), ("radial", 270, 0)],
)  # fmt: skip
def test_the_numeral_in_the_middle_of_a_scale_is_never_on_its_head(reading, start, middle) -> None:
    written = f"{{from: 0, to: 100, major: 50, start: {start}, sweep: 180, reading: {reading}}}"
    turn = (legends_of(written)["50"].turn + 180) % 360 - 180
    assert turn == pytest.approx(middle)


# The figures of the dials that a reader took for others: 66 at nine o'clock as 99, 100 as 001 (plane geometry).
@pytest.mark.parametrize(("start", "sweep"), [(240, 300), (225, 270), (180, 180), (0, 180), (270, 180), (90, 180)])
def test_no_numeral_along_the_radius_has_its_head_below_level(start, sweep) -> None:
    """They turn with their marks, but from one half to the other, straight up or down."""
    written = f"{{from: 0, to: 100, major: 10, start: {start}, sweep: {sweep}, reading: radial}}"
    found = list(legends_of(written, knob=40).values())
    turns = [(one.turn + 180) % 360 - 180 for one in found]
    assert all(abs(turn) <= 90 + 1e-9 for turn in turns)
    changes = [index for index, (a, b) in enumerate(pairwise(turns)) if b - a != pytest.approx(-sweep / 10)]
    ways = [math.radians(start - sweep * index / 10) for index in range(11)]
    assert all(math.cos(ways[index]) * math.cos(ways[index + 1]) < 1e-9 for index in changes)
    assert len(changes) == (0 if start in (270, 90) else 1)


def test_the_unit_of_a_dial_with_numerals_along_the_radius_is_level() -> None:
    assert legends_of("{from: 0, to: 30, major: 10, unit: V, reading: radial, sweep: 270}")["V"].turn == 0


# SI Brochure, 9th edition, 5.4.3: no space before the signs of plane angle.
@pytest.mark.parametrize(
    ("scale", "said"),
    [("from: 0, to: 330, major: 30, sweep: 330, unit: °", "330°"),
     ("from: 0, to: 90, major: 30, sweep: 270, unit: ′", "90′"),
     ("from: 0, to: 90, major: 30, sweep: 270, unit: °, words: {90: MAX}", "60°")],
)  # fmt: skip
def test_the_sign_of_an_angle_is_behind_its_number(scale, said) -> None:
    found = legends_of(f"{{{scale}}}")
    assert said in found
    assert not {"°", "′"} & set(found)


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


@pytest.mark.parametrize(
    ("sizes", "distance", "apart"),
    [
        # Inches from middle to middle of short marks: 0.04 up to 1.5 ft, 0.07 up to 3 ft, 0.14 up to 6 ft.
        ("grether-baker", 457, 0.04 * 25.4),
        ("grether-baker", 710, 0.07 * 25.4),
        ("grether-baker", 1500, 0.14 * 25.4),
        # 0.89 mm at 710 mm, but no less than twice the width of 0.32 mm between them.
        ("mil-std-1472", 710, 3 * 0.32),
        ("grandjean", 710, 710 / 600 + 0.25),
    ],
)
def test_short_marks_are_as_close_as_the_source_of_their_sizes_has_them(sizes, distance, apart) -> None:
    """From memory, all of them; at the inner ends on the written SVG, and a knob for which steps of 1 just fail or fit
    shows that the limit is that of the source and no other."""
    for knob, fits in (
        (2 * (apart * 1.01 / math.radians(2.7)) - 1.6, True),
        (2 * (apart * 0.99 / math.radians(2.7)) - 1.6, False),
    ):
        marks = marks_of_the_svg("{from: 0, to: 100, major: 10, sweep: 270}", knob, distance, sizes)
        steps = [b[0] - a[0] for a, b in pairwise(marks)]
        assert (min(steps) == pytest.approx(2.7, abs=0.01)) is fits


def test_numerals_stand_clear_of_marks_as_long_as_a_source_has_them() -> None:
    text = OPEN.replace("DISTANCE", "710\n  mark_sizes: grether-baker").replace("KNOB", "24")
    layout = lay_out(panel_from_text(text.replace("SCALE", "{from: 0, to: 10, major: 1, sweep: 300}")))
    for one in layout.legends:
        assert all(
            not ground(mark).intersects(shapely.box(one.box.left, one.box.bottom, one.box.right, one.box.top))
            for mark in layout.marks
        )


# --- steps beside marks of one's own


def test_short_marks_beside_marks_of_ones_own_are_at_whole_multiples() -> None:
    """32 to 212 °F in tens: 40, 50 ... 210, whatever the ends are; 18 short ones and 4 long ones over 270 degrees."""
    marks = marks_of_the_svg("{from: 32, to: 212, marks: [32, 100, 150, 212], minor: 10, sweep: 270}", knob=40)
    values = sorted({32, 212, *range(40, 211, 10)})
    assert [angle for angle, *_ in marks] == pytest.approx(
        [-135 + 270 * (value - 32) / 180 for value in values], abs=0.01
    )
    long = [value for value, mark in zip(values, marks, strict=True) if mark[3].startswith("major")]
    assert long == [32, 100, 150, 212]


def test_the_digits_of_a_thumbwheel_are_named_by_a_straight_scale() -> None:
    """As the catalogue says to who asks for a thumbwheel: four digits, 10 mm from each to the next."""
    text = """
panelart: 1
panel: {title: Wheels, size: [120, 70], sheet: {material: aluminium, thickness: 2}}
marking: {process: digital-print, viewing_distance: 500, ink: {name: white, colour: "#FFFFFF"}}
parts:
  - ref: S1
    part: {part: opening-rectangle, opening: {width: 40, height: 24}}
    at: [60, 32]
    scale: {from: 0, to: 3, marks: [0, 1, 2, 3], words: {0: 1000, 1: 100, 2: 10, 3: 1}, length: 30, side: above}
"""
    words = {one.text: one.box.centre.x for one in lay_out(panel_from_text(text)).legends}
    assert words == pytest.approx({"1000": 45, "100": 55, "10": 65, "1": 75}, abs=0.01)


# --- the sheet of dials


SHEET = Path(__file__).parent / "dials.yaml"


@pytest.fixture(scope="module")
def sheet():
    return lay_out(read(SHEET))


def test_no_numeral_of_the_sheet_touches_anything(sheet) -> None:
    """24 scales of every kind: the ink of no numeral comes nearer to that of another, or to a mark, than 0.3 of its
    height, or 0.15 to a mark that it belongs to (common practice: a gap that is seen as one)."""
    for words, marks in [
        (sheet.legends, sheet.marks),
        *((dial.legends, dial.marks) for dial in sheet.dials),
    ]:
        inks = [(one, shapely.union_all([shapely.Polygon(ring) for ring in rings(one.shape)])) for one in words]
        tree = shapely.STRtree([ink for _, ink in inks])
        for number, (one, ink) in enumerate(inks):
            for other in tree.query(ink.buffer(0.3 * one.cap_height)):
                if other != number and inks[other][0].style == one.style == "numeral":
                    assert ink.distance(inks[other][1]) >= 0.3 * one.cap_height, (one, inks[other][0])
            if one.style == "numeral":
                near = [ground(mark).distance(ink) for mark in marks if mark.ref == one.ref]
                assert min(near, default=9) >= 0.15 * one.cap_height, one


def rings(shape):
    """The outer and inner edges of letters as rings of points."""
    return [ring for loop in shape if len(ring := flattened(loop)) > 2]


def test_numerals_of_the_sheet_stand_upright(sheet) -> None:
    """All but those that were asked to turn, and those on skirts and discs, which are level at their mark."""
    turned = {one.ref for one in sheet.legends if one.turn}
    assert turned == {"R11", "R12"}
    for dial in sheet.dials:
        assert dial.legends[0].turn == pytest.approx(0)


# --- whole multiples


def kinds_of(scale: str) -> dict[str, int]:
    text = OPEN.replace("DISTANCE", "500").replace("KNOB", "24").replace("SCALE", scale)
    kinds = [mark.kind for mark in lay_out(panel_from_text(text)).marks]
    return {kind: kinds.count(kind) for kind in sorted(set(kinds))}


# Instrument makers count from zero: thermometers have round figures wherever they begin (common practice).
@pytest.mark.parametrize(
    ("scale", "said"),
    [
        ("from: -40, to: 85, major: 20", "−40 −20 0 20 40 60 80"),  # 85 is a quarter of a step on
        ("from: 32, to: 212, major: 20", "40 60 80 100 120 140 160 180 200 212"),  # 32 is 0.4 of a step off, 212 is 0.6
        ("from: 1.2, to: 37, major: 5", "1.2 5.0 10.0 15.0 20.0 25.0 30.0 35.0"),
        ("from: 5, to: 95, major: 10", "10 20 30 40 50 60 70 80 90"),
        ("from: 12, to: 28, major: 15", "12 15 28"),  # one multiple: the ends are the scale
        ("from: 0, to: 10, major: 2", "0 2 4 6 8 10"),
        ("from: -12, to: 12, major: 6", "−12 −6 0 6 12"),
        ("from: 212, to: 32, major: 20", "40 60 80 100 120 140 160 180 200 212"),
        ("from: 0, to: 2.55, major: 0.5", "0.0 0.5 1.0 1.5 2.0 2.5"),
    ],
)  # fmt: skip
def test_long_marks_are_at_whole_multiples_of_the_step(scale, said) -> None:
    assert " ".join(legends_of(f"{{{scale}, sweep: 300}}", knob=40)) == said


@pytest.mark.parametrize(
    ("scale", "kinds"),
    [
        # Long ones -40 to 80, intermediate and short ones at fives and tens, of which 85 is one.
        ("from: -40, to: 85, major: 20, minor: 5", {"major-mark": 7, "minor-mark": 19}),
        ("from: -40, to: 85, major: 20, minor: 10", {"major-mark": 7, "minor-mark": 7}),  # 85 by itself
        ("from: 32, to: 212, major: 20, minor: 10", {"major-mark": 10, "minor-mark": 10}),  # 32 short, 212 long
        ("from: 0, to: 100, major: 20, minor: 10", {"major-mark": 6, "minor-mark": 5}),
    ],
)
def test_both_ends_of_a_scale_have_a_mark(scale, kinds) -> None:
    assert kinds_of(f"{{{scale}, sweep: 300}}") == kinds


def test_open_marks_go_on_to_ends_that_are_no_multiples() -> None:
    """From 32 to 212 in fives where there is room; the short mark at 32 has 35 left out, which is 5 degrees from it."""
    marks = marks_of_the_svg("{from: 32, to: 212, major: 20, sweep: 300}")
    values = [32, *range(40, 210, 5), 212]
    assert sorted(angle for angle, *_ in marks) == pytest.approx([(one - 122) / 0.6 for one in values], abs=0.01)


def test_an_end_is_never_rounded() -> None:
    found = legends_of("{from: 1.25, to: 37, major: 5, numerals: [1.25, 10, 37], sweep: 300}")
    assert {"1.25", "37.00"} <= set(found)
    assert "1.25" in legends_of("{from: 1.25, to: 9, major: 5, sweep: 30}", knob=12)


def test_the_step_that_a_message_offers_is_accepted() -> None:
    """A third of ten is not written in six digits, so that no message offers it."""
    with pytest.raises(SpecError, match=r"such as 2\.5"):
        legends_of("{from: 0, to: 10, major: 10, minor: 3, sweep: 300}")
    assert legends_of("{from: 0, to: 10, major: 10, minor: 2.5, sweep: 300}")
    with pytest.raises(SpecError, match="Step 20 is larger than the range of 10"):
        legends_of("{from: 0, to: 10, major: 20, sweep: 300}")


def test_a_fader_by_a_power_of_its_position_has_usual_marks() -> None:
    """60 log10 of the position: 0 dB is at 10^(-10/60) of the way to +10 dB."""
    found = legends_of("{from: -60, to: 10, law: fader-power, unit: dB, sweep: 300}", knob=40)
    assert {"−60", "−20", "−10", "−5", "0", "5", "10"} <= set(found)


FADER = (
    OPEN.replace("DISTANCE", "500")
    .replace("knob: {diameter: KNOB, height: 16}, ", "")
    .replace("SCALE", "{from: 0, to: 10, major: 1, length: 60, cursor: 1}")
)


@pytest.mark.parametrize(
    ("part", "told"), [("fader-60", "fader-60, whose cap moves"), ("lamp-8", "lamp-8, which has no")]
)
def test_a_cursor_needs_a_window_or_slot(part, told) -> None:
    text = FADER.replace("pot-m10", part)
    with pytest.raises(SpecError, match=told):
        panel_from_text(text)
    assert panel_from_text(text.replace(part, "window-60x25").replace("length: 60", "length: 50"))


# --- whose a unit is


def numerals_of(text: str) -> dict[str, PlacedLegend]:
    """What is lettered round RV1, by its text."""
    spec = PANEL_OF_ONE % text
    layout = lay_out(panel_from_text(spec))
    return {legend.text: legend for legend in layout.legends if legend.style == "numeral"}


PANEL_OF_ONE = """
panelart: 1
panel: {title: Test, size: [160, 110], sheet: {material: aluminium 5754, thickness: 2}}
marking:
  process: digital-print
  ink: {name: black, colour: "#101010"}
parts:
  - {ref: RV1, part: pot-m10, at: [80, 55], knob: {diameter: 26, height: 15}, scale: %s}
"""
THIN = "\N{NARROW NO-BREAK SPACE}"


@pytest.mark.parametrize("second", ["sweep: %s", "arc: shared"])
@pytest.mark.parametrize("sweep", [90, 200, 270, 300])
def test_each_of_two_scales_has_its_unit_behind_its_own_highest_numeral(sweep: int, second: str) -> None:
    """SI Brochure, 5.4.3: a value is a number, a space and a unit; between the ends it would be of either scale."""
    second = second.replace("%s", f"{sweep}")
    first = f"{{from: -40, to: 0, major: 10, unit: dB, sweep: {sweep}}}"
    found = numerals_of(f"[{first}, {{from: 0, to: 100, major: 20, unit: mV, {second}}}]")
    assert {f"0{THIN}dB", f"100{THIN}mV"} <= found.keys()
    assert not {"dB", "mV", "100"} & found.keys()


@pytest.mark.parametrize(
    ("sweep", "alone"), [(300, True), (270, True), (240, True), (239, False), (180, False), (90, False)]
)
def test_a_unit_is_between_the_ends_of_a_dial_only_where_these_are_near(sweep, alone):
    found = numerals_of(f"{{from: 0, to: 10, major: 2, unit: mV, sweep: {sweep}}}")
    assert ("mV" in found) == alone
    assert (f"10{THIN}mV" in found) != alone


@pytest.mark.parametrize("to", [10, 100, 1000, 10000, 100000])
def test_a_unit_by_itself_is_farther_from_each_numeral_than_their_capitals_are_high(to: int) -> None:
    """Nearer it is read with the numeral, as in kHz 20: a word space is 0.6 of the capitals (ISO 3098, type B)."""
    found = numerals_of(f"{{from: 0, to: {to}, major: {to}, unit: V, sweep: 300}}")
    unit = found["V"]
    for text, other in found.items():
        if text != "V":
            assert shapely.distance(hull(unit), hull(other)) >= unit.cap_height - 0.01


def hull(legend: PlacedLegend) -> shapely.Geometry:
    return shapely.convex_hull(shapely.multipoints([tuple(at) for loop in legend.shape for at in flattened(loop)]))


# --- numerals with a multiplier


@pytest.mark.parametrize(
    ("scale", "texts"),
    [
        ("from: 0, to: 100000, major: 50000, unit: Hz, multiplier: 1000", {"0", "50", "100", "kHz"}),
        ("from: 0, to: 8000, major: 4000, unit: r/min, multiplier: 1000",
         {"0", "4", "8", "×1000\N{NO-BREAK SPACE}r/min"}),
        ("from: 0, to: 0.005, major: 0.0025, unit: V, multiplier: 0.001", {"0.0", "2.5", "5.0", "mV"}),
        ("from: 0, to: 5000, major: 2500, unit: mV, multiplier: 1000", {"0.0", "2.5", "5.0", "V"}),
        ("from: 0, to: 50000, major: 25000, multiplier: 10000", {"0.0", "2.5", "5.0", "×10000"}),
        ("from: 20, to: 20000, law: logarithmic, unit: Hz, multiplier: 1000, numerals: [20, 20000]",
         {"0.02", "20", "kHz"}),
        ("from: -3000, to: 3000, major: 3000, signed: true, unit: W, multiplier: 1000", {"−3", "0", "+3", "kW"}),
        ("from: 0, to: 1000, major: 500, unit: Hz, multiplier: 1000, words: {1000: MAX}", {"0.0", "0.5", "MAX", "kHz"}),
    ],
)  # fmt: skip
def test_numerals_are_divided_by_the_multiplier_and_the_unit_says_so(scale: str, texts: set[str]) -> None:
    assert numerals_of(f"{{{scale}, sweep: 300}}").keys() == texts


def test_the_thousands_of_a_logarithmic_scale_go_with_the_unit_behind_it() -> None:
    """SI Brochure, 3: a prefix stands before its unit, never behind the number alone: 20 kHz and not 20k Hz."""
    found = numerals_of("{from: 20, to: 20000, law: logarithmic, unit: Hz, sweep: 200}")
    assert f"20{THIN}kHz" in found


# --- scales all round


@pytest.mark.parametrize(
    ("more", "direction"),
    [("", 90.0), (", start: 90", 90.0), (", start: 0", 0.0), (", start: 180, direction: counter-clockwise", 180.0)],
)
def test_a_scale_all_round_begins_straight_up_or_where_it_is_told(more: str, direction: float) -> None:
    """A compass card has 0 at the top (north up); a phase dial counts from the right as the complex plane does."""
    found = numerals_of(f"{{from: 0, to: 360, major: 90, unit: °, sweep: 360{more}}}")
    middle = found["0"].box.centre
    assert math.degrees(math.atan2(middle.y - AT[1], middle.x - AT[0])) % 360 == pytest.approx(direction, abs=3)


# --- what instrument makers print


@pytest.mark.parametrize(
    ("unit", "last"),
    [("Hz", "20k"), ("Ω", "20k"), ("mbar", "20000"), ("kHz", "20000"), ("r/min", "20000")],
)
def test_thousands_are_written_k_only_where_the_unit_may_have_it(unit: str, last: str) -> None:
    """SI Brochure, 9th edition, 3: no prefix before a prefix, so never 20k mbar; revolutions have none."""
    found = numerals_of(f"{{from: 20, to: 20000, law: logarithmic, unit: {unit}, sweep: 270}}")
    assert last in {text.partition(THIN)[0] for text in found}


def test_numerals_at_uneven_marks_have_the_decimals_they_need() -> None:
    """Aperture numbers as lenses have them (ISO 517: 1.4, 2, 2.8, 4, 5.6, 8, 11, 16, 22); even steps stay alike."""
    stops = "[1.4, 2, 2.8, 4, 5.6, 8, 11, 16, 22]"
    found = numerals_of(f"{{from: 1.4, to: 22, marks: {stops}, law: {{formula: ln(v)}}, sweep: 270}}")
    assert found.keys() == {"1.4", "2", "2.8", "4", "5.6", "8", "11", "16", "22"}
    assert numerals_of("{from: 0, to: 2, marks: [0, 0.5, 1, 1.5, 2], sweep: 270}").keys() >= {"0.0", "1.0", "2.0"}


def boxed(box: Box) -> shapely.Geometry:
    return shapely.box(box.left, box.bottom, box.right, box.top)


@pytest.mark.parametrize("side", ["left", "right", "above", "below"])
def test_two_straight_scales_at_one_side_are_one_outside_the_other(side: str) -> None:
    window = "part: {part: opening-rectangle, opening: {width: 50, height: 50}}"
    spec = (PANEL_OF_ONE % "X").replace("part: pot-m10", window).replace("knob: {diameter: 26, height: 15}, ", "")
    scales = "[{from: 0, to: 2, major: 1, length: 40, side: S}, {from: 10, to: 90, major: 40, length: 40, side: S}]"
    layout = lay_out(panel_from_text(spec.replace("X", scales.replace("S", side))))
    first, second = (
        shapely.union_all([boxed(legend.box) for legend in layout.legends if legend.text in texts])
        for texts in ({"0", "1", "2"}, {"10", "50", "90"})
    )
    marks = [boxed(bounds(mark.shape)) for mark in layout.marks]
    assert first.distance(second) > 1.0
    assert all(mark.distance(first) > 0.0 and mark.distance(second) > 0.0 for mark in marks)
