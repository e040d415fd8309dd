"""Height, width and margins of marking.

Reading heights: NUREG-0700 Rev. 3, 11.4.1.5-1 (15 minutes of arc), by h = 2 d tan(a / 2). The process's limits are
made up in the builders.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace

from panelart.checks.cases import whole_spec
from panelart.checks.limits import Basis
from panelart.checks.marking import height_at
from panelart.diagnostics import Severity
from panelart.figure import Known
from panelart.lettering.cuts import LIGHT
from panelart.messages import checks as said
from panelart.pipeline import lay_out, read
from tests.checks.builders import (
    PROCESS,
    block,
    disc,
    frame,
    front,
    inked,
    layout,
    legend,
    mark,
    opening,
    process_figure,
)
from tests.checks.cases import JUST, found, measured, refs
from tests.lettering.builders import boxes, installed


@pytest.mark.parametrize(
    ("arcmin", "distance", "height"),
    [
        # A published figure: one minute of arc is seen from 3437.75 times its height.
        (1, 3437.75, 1.0),
        # NUREG-0700's 15 arcmin at 350, 500, 700 and 1000 mm, worked out from the formula elsewhere.
        (15, 350, 1.527),
        (15, 500, 2.182),
        (15, 700, 3.054),
        (15, 1000, 4.363),
        # The preferred 20 arcmin at 700 mm.
        (20, 700, 4.072),
    ],
)
def test_height_from_visual_angle(arcmin, distance, height):
    assert height_at(arcmin, distance) == pytest.approx(height, abs=0.0005)


READ_FROM_700 = height_at(15, 700)


@pytest.mark.parametrize(
    ("cap_height", "limit_name"),
    [
        (3.0, "angle.read.minimum"),
        (READ_FROM_700 - JUST, "angle.read.minimum"),
        (READ_FROM_700, None),
        (3.1, None),
        (1.2, "angle.read.minimum"),
    ],
)
def test_legend_too_small_to_be_read_from_700_mm(cap_height, limit_name):
    panel = layout(legend("RV1", "GAIN", (50, 50, 60, 53), cap_height=cap_height), viewing_distance=700)
    findings = found("legend-too-small", panel)
    assert [finding.limit_name for finding in findings] == ([limit_name] if limit_name else [])
    assert [finding.measured for finding in findings] == ([cap_height] if limit_name else [])
    assert [finding.limit for finding in findings] == pytest.approx([3.0543] if limit_name else [], abs=1e-4)


def test_a_symbol_that_is_too_small_is_called_a_symbol():
    words = legend("S1", "ON", (50, 50, 60, 53), cap_height=2.0)
    drawn = replace(legend("S2", "standby", (80, 50, 83, 53), cap_height=2.0), font=LIGHT.symbols)
    findings = found("legend-too-small", layout(words, drawn, viewing_distance=700))
    assert [finding.other for finding in findings] == [said.cap_height(), said.symbol_height()]
    assert [finding.sentence for finding in findings] == [
        "S1 (name 'ON'): cap height 2.00 mm; minimum 3.05 mm",
        "S2 (name 'standby'): symbol height 2.00 mm; minimum 3.05 mm",
    ]
    assert [finding.fix for finding in findings] == [
        "Raise the cap height to 3.06 mm.",
        "Raise the symbol height to 3.06 mm.",
    ]


IDEOGRAPHS = """
marking: {viewing_distance: DISTANCE, lettering: {LOOK}}
texts: [{text: TEXT, at: [40, 50], style: name, cap_height: HEIGHT}]
"""


def heights_missed(folder: Path, look: str, text: str, height: float, distance: float) -> list[float]:
    spec = IDEOGRAPHS.replace("DISTANCE", f"{distance}").replace("LOOK", look)
    file = folder / "front.yaml"
    file.write_text(whole_spec(spec.replace("TEXT", text).replace("HEIGHT", f"{height}")), encoding="utf-8")
    return [finding.limit for finding in found("legend-too-small", lay_out(read(file)))]


# A designer's guide to interfaces prints, by JIS Z 8513: kanji of 25 minutes of arc are 2.2 mm at 300 mm and 3.7 mm at
# 500 mm, letters and figures of 16 minutes 1.4 mm and 2.3 mm.
@pytest.mark.parametrize(
    ("angle", "distance", "printed"), [(25, 300, 2.2), (25, 500, 3.7), (16, 300, 1.4), (16, 500, 2.3)]
)
def test_heights_that_are_printed_for_an_angle(angle, distance, printed):
    assert height_at(angle, distance) == pytest.approx(printed, abs=0.07)


@pytest.mark.parametrize(
    ("text", "height", "distance", "missed"),
    [
        ("国", 3.6, 500, [3.636]),
        ("国", 3.7, 500, []),
        ("漢字", 2.1, 300, [2.182]),
        ("漢字", 2.2, 300, []),
        ("一", 3.6, 500, [3.636]),  # its box, not its ink
        ("カナ", 3.6, 500, []),
        ("あいう", 3.6, 500, []),
        ("POWER", 3.6, 500, []),
        ("POWER 電源", 3.6, 500, [3.636]),
        ("POWER 電源", 2.1, 500, [3.636, 2.182]),
    ],
)
def test_ideographs_are_higher_than_capitals_for_the_same_reader(tmp_path, text, height, distance, missed):
    font = installed("truetype/droid/DroidSansFallbackFull.ttf", "fonts-droid-fallback")
    (tmp_path / "droid.ttf").write_bytes(Path(font).read_bytes())
    limits = heights_missed(tmp_path, "fallback: [{file: droid.ttf}]", text, height, distance)
    assert limits == pytest.approx(missed, abs=0.001)


@pytest.mark.parametrize(("height", "missed"), [(2.82, [3.636]), (2.83, []), (2.1, [3.636, 2.182])])
def test_ideographs_of_a_face_with_capitals_are_measured_by_their_own_box(tmp_path, height, missed):
    """Capitals of 700 units and ideographs of 900 from foot to top: 3.636 mm are those of capitals of 2.828 mm."""
    (tmp_path / "both.ttf").write_bytes(boxes({"H": (100, 0, 300, 700), "国": (100, -100, 800, 800)}))
    assert heights_missed(tmp_path, "font: {file: both.ttf}", "H国", height, 500) == pytest.approx(missed, abs=0.001)


@pytest.mark.parametrize(("cap_height", "heights"), [(1.8 - JUST, [1.8 - JUST]), (1.8, []), (1.2, [1.2])])
def test_legend_too_small_for_the_process_when_read_from_near(cap_height, heights):
    panel = layout(legend("RV1", "GAIN", (50, 50, 60, 53), cap_height=cap_height), viewing_distance=350)
    findings = found("legend-too-small", panel)
    assert [finding.measured for finding in findings] == heights
    assert {finding.limit_name for finding in findings} <= {"digital-print.cap_height_minimum"}
    assert {finding.severity for finding in findings} <= {Severity.ERROR}


@pytest.mark.parametrize(
    ("cap_height", "severity"), [(1.79, Severity.ERROR), (1.8, Severity.WARNING), (3.0, Severity.WARNING)]
)
def test_what_cannot_be_printed_fails_and_what_is_hard_to_read_warns(cap_height, severity):
    panel = layout(legend("RV1", "GAIN", (50, 50, 60, 53), cap_height=cap_height), viewing_distance=700)
    assert [finding.severity for finding in found("legend-too-small", panel)] == [severity]


@pytest.mark.parametrize(
    ("known", "basis", "severity"),
    [
        (Known.LOOKED_UP, Basis.LOOKED_UP, Severity.ERROR),
        (Known.TYPICAL, Basis.COMMON_PRACTICE, Severity.ERROR),
        (Known.MEMORY, Basis.MEMORY, Severity.WARNING),
    ],
)
def test_each_limit_of_a_process_has_its_own_standing(known, basis, severity):
    process = replace(PROCESS, line_minimum=process_figure("line_minimum", 0.2, known))
    (finding,) = found("line-too-thin", layout(mark("RV1", (50, 50), (50, 53), 0.1), process=process))
    assert (finding.basis, finding.severity) == (basis, severity)
    assert finding.source == "Digital print: made up for this test"


def test_a_height_that_only_memory_says_cannot_be_printed_does_not_fail():
    remembered = replace(PROCESS, cap_height_minimum=process_figure("cap_height_minimum", 1.8, Known.MEMORY))
    panel = layout(legend("RV1", "GAIN", (50, 50, 60, 53), cap_height=1.2), viewing_distance=700, process=remembered)
    assert [finding.severity for finding in found("legend-too-small", panel)] == [Severity.WARNING]


def test_small_legends_of_one_style_and_height_are_one_finding():
    numerals = [legend("RV1", str(n), (50 + 5 * n, 50, 52 + 5 * n, 51), "numeral", 1.0) for n in range(5)]
    other = legend("RV2", "5", (70, 50, 72, 51), "numeral", 1.0)
    (finding,) = found("legend-too-small", layout(*numerals, other))
    assert finding.refs == ("RV1", "RV2")
    assert {spot.ref for spot in finding.each} == {"RV1", "RV2"}
    assert (finding.place.left, finding.place.right) == (50, 72)


@pytest.mark.parametrize(("width", "widths"), [(0.15, [0.15]), (0.2 - JUST, [0.2 - JUST]), (0.2, []), (0.3, [])])
def test_line_too_thin(width, widths):
    assert measured("line-too-thin", layout(mark("RV1", (50, 50), (50, 53), width))) == widths
    assert measured("line-too-thin", layout(frame("frame 1", (20, 20, 80, 60), width))) == widths


@pytest.mark.parametrize(
    ("left", "margin"), [(1.0, [1.0]), (1.5 - JUST, [1.5 - JUST]), (1.5, []), (0.0, [0.0]), (-2.0, [-2.0])]
)
def test_legend_off_the_printable_area(left, margin):
    panel = layout(legend("S1", "GAIN", (left, 50, left + 10, 53)))
    assert measured("legend-off-printable-area", panel) == pytest.approx(margin, abs=1e-9)


def test_a_scale_off_the_printable_area_is_one_finding():
    panel = layout(mark("RV1", (1, 50), (4, 50)), mark("RV1", (0.5, 55), (4, 55)), mark("RV1", (50, 50), (55, 50)))
    assert measured("legend-off-printable-area", panel) == pytest.approx([0.5], abs=1e-9)


@pytest.mark.parametrize(("left", "margin"), [(1.0, [0.85]), (1.65 - JUST, [1.5 - JUST]), (1.65, [])])
def test_frame_off_the_printable_area(left, margin):
    panel = layout(frame("frame 1", (left, 20, 80, 60)))
    assert measured("frame-off-printable-area", panel) == pytest.approx(margin, abs=1e-9)


@pytest.mark.parametrize(("left", "distance"), [(60.3, [0.3]), (60.5 - JUST, [0.5 - JUST]), (60.5, [])])
def test_legend_near_an_opening(left, distance):
    panel = layout(opening("M1", block(50, 50, 20, 20)), legend("S1", "GAIN", (left, 48, left + 10, 51)))
    assert measured("legend-near-opening", panel) == pytest.approx(distance, abs=1e-9)


def test_legend_near_a_round_opening_is_measured_across_its_corner():
    # From the corner (52, 52) of the ink to the circle of radius 2.4 round (50, 50).
    panel = layout(opening("H1", disc(50, 50, 4.8)), legend("S1", "GAIN", (52, 52, 62, 55)))
    (finding,) = found("legend-near-opening", panel)
    assert finding.measured == pytest.approx(8**0.5 - 2.4, abs=0.005)
    assert finding.severity is Severity.WARNING


def test_legend_over_or_covered_is_not_told_again_as_near():
    over = layout(opening("H1", disc(50, 50, 4)), legend("S1", "GAIN", (51, 48, 61, 51)))
    assert refs("legend-over-opening", over) == [("S1", "H1")]
    assert found("legend-near-opening", over) == []
    covered = layout(
        front("H1", disc(50, 50, 14), "nut"), opening("H1", disc(50, 50, 12)), legend("S1", "A", (56.2, 49, 58, 51))
    )
    assert refs("legend-under-part", covered) == [("S1", "H1")]
    assert found("legend-near-opening", covered) == []


def test_a_ring_of_ink_round_an_opening_is_measured_from_its_inner_line():
    ring = inked("S1", "O", disc(50, 50, 12), disc(50, 50, 8).reversed())
    panel = layout(ring, opening("H1", disc(50, 50, 7.4)))
    assert measured("legend-near-opening", panel) == pytest.approx([0.3], abs=0.011)
    assert found("legend-over-opening", panel) == []
