"""Whether parts fit. Sizes are added up on paper; odd shapes are held against shapely's own distances."""

from __future__ import annotations

import pytest
import shapely

from panelart import catalogue
from panelart.checks.fit import shortfall
from panelart.checks.limits import Basis
from panelart.diagnostics import Severity
from panelart.figure import Known
from panelart.geometry import Point, circle, d_hole, double_d, keyed_circle, rectangle, slot
from panelart.geometry.polygons import polygon
from panelart.source.problems import Problems
from panelart.source.yaml import read as read_yaml
from tests.checks.builders import component, disc, layout, opening, part
from tests.checks.cases import JUST, found, measured
from tests.checks.making import laid_out


@pytest.mark.parametrize(
    ("finished", "short"), [(11.94, [0.03]), (12.0 - 2 * JUST, [JUST]), (12.0, []), (12.0 + JUST, []), (12.1, [])]
)
def test_a_bushing_through_a_coated_opening(finished, short):
    # On one side: half of what is missing across.
    panel = layout(opening("S1", disc(50, 50, finished), passes=disc(50, 50, 12.0)), film=0.08)
    assert measured("opening-too-small-after-coat", panel) == pytest.approx(short, abs=1e-9)


def test_an_aperture_lets_nothing_through_and_is_not_asked():
    assert found("opening-too-small-after-coat", layout(opening("L1", disc(50, 50, 1.0)))) == []


@pytest.mark.few(4)
@pytest.mark.parametrize(
    ("passes", "hole", "short"),
    [
        (rectangle(20, 10), rectangle(20, 10), 0.0),
        (rectangle(20, 10, corner=1), rectangle(20, 10, corner=1), 0.0),
        (rectangle(20, 10), rectangle(19.8, 10), 0.1),
        # A square corner in a rounded one of 1 mm: (sqrt(2) - 1) x 1.
        (rectangle(20, 10), rectangle(20, 10, corner=1), 2**0.5 - 1),
        (circle(10), rectangle(9.5, 12), 0.25),
        (circle(10), d_hole(10, 9.0), 1.0),
        (d_hole(10, 9.0), d_hole(10, 9.0), 0.0),
        (d_hole(10, 9.0), circle(10), 0.0),
        (double_d(16, 14), double_d(16, 13.8), 0.1),
        (circle(6, Point(0.3, 0)), circle(6.2), 0.2),
        (keyed_circle(12, 2, 13), circle(12.2), None),
        (slot(20, 6), slot(20, 5.9), None),
    ],
)
def test_shortfall_of_odd_shapes(passes, hole, short):
    # shapely's directed distance, from polygons with chords of 0.1 micrometre, as the independent answer.
    inner, outer = polygon(passes, 1e-4, "middle"), polygon(hole, 1e-4, "middle")
    left = shapely.difference(inner, outer)
    corners = shapely.points(shapely.get_coordinates(left))
    independent = float(shapely.distance(corners, outer).max()) if len(corners) else 0.0
    assert shortfall(passes, hole) == pytest.approx(independent, abs=2e-4)
    if short is not None:
        assert shortfall(passes, hole) == pytest.approx(short, abs=1e-7)


@pytest.mark.parametrize(("thickness", "over"), [(2.5, [2.5]), (2.0 + JUST, [2.0 + JUST]), (2.0, []), (1.0, [])])
def test_sheet_too_thick(thickness, over):
    panel = layout(part("J1", component("inlet", thickness=(1.0, 2.0))), thickness=thickness)
    assert measured("sheet-too-thick", panel) == pytest.approx(over)
    assert found("sheet-too-thin", panel) == []


@pytest.mark.parametrize(("thickness", "under"), [(0.8, [0.8]), (1.0 - JUST, [1.0 - JUST]), (1.0, []), (2.0, [])])
def test_sheet_too_thin(thickness, under):
    panel = layout(part("J1", component("inlet", thickness=(1.0, 2.0))), thickness=thickness)
    assert measured("sheet-too-thin", panel) == pytest.approx(under)
    assert found("sheet-too-thick", panel) == []


def test_a_part_without_a_stated_range_fits_any_sheet():
    panel = layout(part("J1", component("inlet")), thickness=25.0)
    assert found("sheet-too-thick", panel) == found("sheet-too-thin", panel) == []


@pytest.mark.parametrize(("known", "severity"), [(Known.LOOKED_UP, Severity.ERROR), (Known.MEMORY, Severity.WARNING)])
def test_a_range_known_only_from_memory_warns(known, severity):
    panel = layout(part("J1", component("inlet", thickness=(1.0, 2.0), known=known)), thickness=3.0)
    (finding,) = found("sheet-too-thick", panel)
    assert finding.severity is severity
    assert (finding.basis is Basis.MEMORY) == (severity is Severity.WARNING)


@pytest.mark.parametrize(("known", "severity"), [(Known.LOOKED_UP, Severity.ERROR), (Known.MEMORY, Severity.WARNING)])
def test_a_size_to_pass_known_only_from_memory_warns(known, severity):
    hole = opening("J1", disc(50, 50, 11.8), passes=disc(50, 50, 12.0))
    (finding,) = found("opening-too-small-after-coat", layout(hole, part("J1", component(known=known))))
    assert finding.severity is severity
    assert "made up for this test" in finding.source


# Our estimate of how far memory may be out: 0.5 mm, or 5 % of 22 mm, 1.1 mm, where that is more.
@pytest.mark.parametrize(
    ("name", "diameter", "severity"),
    [
        ("pushbutton-22", 20.0, Severity.ERROR),
        ("pushbutton-22", 22.0 - 1.1 - 2 * JUST, Severity.ERROR),
        ("pushbutton-22", 22.0 - 1.1 + 2 * JUST, Severity.WARNING),
    ],
)
def test_a_hole_of_the_designers_own_that_memory_cannot_excuse_is_an_error(name, diameter, severity):
    text = f"{{part: {name}, opening: {{diameter: {diameter}}}}}"
    problems = Problems()
    changed = catalogue.overridden(catalogue.component(name), read_yaml(text, "panel.yaml"), problems)
    problems.raise_any()
    passes = next(figure for figure in changed.openings[0].figures if figure.name == "passes_diameter")
    assert (passes.value, passes.known) == (22.0, Known.MEMORY)
    hole = opening("S1", disc(50, 50, diameter), passes=disc(50, 50, 22.0))
    (finding,) = found("opening-too-small-after-coat", layout(hole, part("S1", changed)))
    assert finding.severity is severity
    assert ("from memory, maximum 1.1 mm out" in str(finding.source)) == (severity is Severity.ERROR)


@pytest.mark.parametrize(
    ("known", "is_found"),
    [
        (Known.MEMORY, True),
        (Known.TYPICAL, True),
        (Known.LOOKED_UP, False),
        (Known.GIVEN, False),
        (Known.PROVED, False),
    ],
)
def test_parts_whose_cutouts_are_uncertain_are_one_note_of_the_panel(known, is_found):
    inlet, lamp = component("inlet", known=known), component("lamp", known=known)
    panel = layout(part("J1", inlet), part("J2", inlet), part("H1", lamp), part("S1", component("switch")))
    findings = found("parts-to-measure", panel)
    assert [finding.refs for finding in findings] == ([("J1", "J2", "H1")] if is_found else [])
    assert all(finding.severity is Severity.NOTE for finding in findings)
    for finding in findings:
        assert finding.sentence.startswith("3 parts have cutout figures not from a data sheet")
        assert "`panelart parts --measure SPEC`" in finding.sentence
        left = finding.only(["J2"])
        assert left.refs == ("J2",)
        assert left.sentence.startswith("1 part has cutout figures")
        assert left.subject != finding.subject


DIAL = """
parts: [{{ref: RV1, part: {part}, at: [60, 50], knob: {{diameter: 24, height: 16}}, legend: Level,
         scale: {{from: 0, to: 10, major: 1{sweep}}}}}]
"""
OWN_POT = "{part: pot-m10, opening: {diameter: 10.2}MOTION}"


@pytest.mark.parametrize(
    ("motion", "sweep", "is_found"),
    [
        ("", "", True),  # the catalogue's usual angle of rotation
        (", motion: {electrical: 265}", "", False),  # measured on the part in hand
        ("", ", sweep: 270", False),  # the spec states it
    ],
)
def test_an_angle_that_a_scale_takes_from_a_usual_rotation_counts(motion, sweep, is_found):
    panel = laid_out(DIAL.format(part=OWN_POT.replace("MOTION", motion), sweep=sweep))
    findings = found("parts-to-measure", panel)
    assert [(finding.refs, str(finding.subject)) for finding in findings] == (
        [(("RV1",), "1 part has scale angles")] if is_found else []
    )


@pytest.mark.parametrize(
    ("diameter", "short"),
    [(9.9, 0), (9.6, 0), (9.5, 0.0125)],  # the thread 3/8-32 is 9.525, and 8.76 over its flat
)
def test_a_body_with_a_flat_may_sit_out_of_the_middle(diameter: float, short: float) -> None:
    laid = laid_out(f"parts: [{{ref: J1, part: {{part: bnc, opening: {{diameter: {diameter}}}}}, at: [40, 30]}}]")
    assert measured("opening-too-small-after-coat", laid) == pytest.approx([short] if short else [], abs=2e-3)
    assert not [told for told in found("opening-too-small-after-coat", laid) if "coat " in f"{told.says} {told.cure}"]


def test_a_flange_is_held_by_its_screws() -> None:
    """A part of several openings cannot move in one of them alone."""
    moved = "{role: fixing, circle: {diameter: 3}, at: [10, 0]}"
    passes = "{d-hole: {diameter: 9.525, flat_to_opposite: 8.7}}"
    body = f"{{role: body, d-hole: {{diameter: 9.9, flat_to_opposite: 8.85}}, passes: {passes}}}"
    held = laid_out(f"parts: [{{ref: X1, part: {{title: A, openings: [{body}, {moved}]}}, at: [40, 50]}}]")
    # The flat of the body is 8.7 - 9.525 / 2 = 3.9375 below the axis, that of the hole 8.85 - 9.9 / 2 = 3.9.
    assert measured("opening-too-small-after-coat", held) == pytest.approx([0.0375])
