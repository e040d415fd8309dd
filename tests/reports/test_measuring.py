"""The table and the form of what is measured: the form, filled in, is a part file with just those figures."""

from __future__ import annotations

import json
import re

import pytest

from panelart import catalogue
from panelart.catalogue import read_contents
from panelart.checks.measuring import PartToMeasure, parts_to_measure
from panelart.figure import Known
from panelart.reports.measuring import measure_file, measure_json, measure_table
from panelart.spec.read import panel_from_text
from tests.checks.builders import layout
from tests.panels import part as placed

MEASURED = [name for name in catalogue.names() if catalogue.to_measure(catalogue.component(name))]


def _to_measure(name: str) -> tuple[PartToMeasure, ...]:
    return parts_to_measure(layout(placed("X1", catalogue.component(name), (100, 50))).panel)


def _filled_in(form: str, figures: dict[tuple[str, str], float]) -> str:
    """A form with figures written into the blanks, by piece and dimension."""
    piece, lines = "", []
    for line in form.splitlines():
        if (begins := re.fullmatch(r"    (\w+):", line)) is not None:
            piece = begins[1]
        blank = re.fullmatch(r"      (\w+): +(#.*)", line)
        lines.append(f"      {blank[1]}: {figures[piece, blank[1]]}  {blank[2]}" if blank else line)
    return "\n".join(lines) + "\n"


@pytest.mark.few(40)
@pytest.mark.parametrize("name", MEASURED)
def test_a_form_that_is_filled_in_leaves_nothing_to_measure(name: str) -> None:
    """Filled in with the figures that are used anyhow, it makes the same holes, now by the designer's own figures."""
    parts = _to_measure(name)
    panel = layout(placed("X1", catalogue.component(name), (100, 50))).panel
    form = measure_file(panel, parts, "form.yaml")
    assert read_contents(form.encode(), "form.yaml").components[name] == catalogue.component(name)
    used = {
        (dimension.piece, dimension.name): dimension.figure.value for part in parts for dimension in part.dimensions
    }
    made = read_contents(_filled_in(form, used).encode(), "form.yaml").components[name]
    left = [dimension for dimension in catalogue.dimensions_to_measure(made) if dimension.piece]
    assert left == []
    for after, before in zip(made.openings, catalogue.component(name).openings, strict=True):
        bounds = after.contour.bounds, before.contour.bounds
        for side in ("left", "right", "bottom", "top"):
            assert getattr(bounds[0], side) == pytest.approx(getattr(bounds[1], side), abs=1e-6)


def test_every_dimension_of_the_catalogue_has_a_key_to_be_entered_by() -> None:
    """What could not be entered in a form is told there; there is no such dimension now."""
    without = {
        (name, dimension.name)
        for name in MEASURED
        for dimension in catalogue.dimensions_to_measure(catalogue.component(name))
        if not dimension.piece
    }
    assert without <= WITHOUT_KEY


WITHOUT_KEY: set[tuple[str, str]] = set()

SPEC = """\
panelart: 1
panel: {title: Trial, size: [200, 80], sheet: {material: aluminium 5754, thickness: 2}, coat: {kind: none, colour: "#FFFFFF"}}
marking: {process: digital-print, ink: {name: black, colour: "#000000"}, lettering: {cap_height: 3.5}, viewing_distance: 500}
parts:
  - {ref: S1, part: toggle-12, at: [30, 40], legend: Power}
  - {repeat: {count: 6, step: [15, 0]}, parts: [{ref: "H{n}", part: led-5-clip, at: [50, 60]}]}
  - {ref: RV1, part: pot-m10-located, at: [100, 30], knob: {diameter: 20, height: 16}, legend: Level, scale: {from: 0, to: 10, major: 1}}
  - ref: J1
    part: {title: Own, openings: [{role: body, circle: {diameter: {value: 9, known: memory, source: recalled}}}]}
    at: [160, 40]
    legend: In
"""  # noqa: E501


def test_the_table_has_a_line_for_each_dimension() -> None:
    parts = parts_to_measure(panel_from_text(SPEC, "front.yaml"))
    lines = [re.split(r"\s{2,}", line.strip()) for line in measure_table(parts).splitlines()]
    assert lines[0] == ["part", "refs", "dimension", "figure used", "range met", "standing"]
    assert ["led-5-clip", "H1, H2, H3, +3", "opening: diameter", "6.4 mm", "6.35 to 6.5", "from memory"] in lines
    assert ["scale: electrical angle", "270°", "220 to 300", "typical value"] in lines
    assert len(lines) - 1 == sum(len(part.dimensions) for part in parts)


def test_the_same_for_programs() -> None:
    parts = parts_to_measure(panel_from_text(SPEC, "front.yaml"))
    told = json.loads(measure_json(parts))["to_measure"]
    by_part = {one["part"]: one for one in told}
    assert by_part["led-5-clip"]["refs"] == [f"H{number}" for number in range(1, 7)]
    (electrical,) = (one for one in by_part["pot-m10-located"]["dimensions"] if one["piece"] == "motion")
    assert (electrical["value"], electrical["unit"], electrical["known"]) == (270, "deg", Known.TYPICAL.value)


def test_a_part_that_is_written_out_in_the_spec_is_entered_there() -> None:
    panel = panel_from_text(SPEC, "front.yaml")
    form = measure_file(panel, parts_to_measure(panel), "form.yaml")
    assert "# J1 is written out in the spec" in form
    assert set(read_contents(form.encode(), "form.yaml").components) == {"led-5-clip", "pot-m10-located"}


def test_without_anything_to_measure_it_says_so() -> None:
    assert "nothing to measure" in measure_table(())
