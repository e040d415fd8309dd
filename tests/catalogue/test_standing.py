"""Which parts are to be measured before cutting, and how firm a recalled figure has to be to be in the catalogue."""

from __future__ import annotations

import pytest

from panelart import catalogue
from panelart.catalogue import caution, table
from panelart.figure import Figure, Known
from panelart.geometry import circle
from panelart.model.component import Component, Countersink, Opening, Role
from panelart.sheets.stations.cutting import CUT
from panelart.sheets.stations.station import Given
from tests.checks.builders import layout
from tests.checks.cases import found
from tests.checks.making import laid_out
from tests.panels import part as placed

RULE = "parts-to-measure"


pytestmark = pytest.mark.few(40)


@pytest.fixture(params=catalogue.names(), ids=str, scope="module")
def part(request: pytest.FixtureRequest) -> Component:
    return catalogue.component(request.param)


def _cut_by(component: Component) -> list[Figure]:
    """Figures that a hole is cut by, told from the others by their names alone: one word, or those of a cone."""
    return [
        figure
        for opening in component.openings
        for figure in opening.figures
        if (figure.name.startswith("countersink ") and figure.name != "countersink depth")
        or (figure.name.isidentifier() and not figure.name.startswith(("passes_", "sheet_")))
    ]


def test_the_note_to_measure_stands_just_where_the_hole_rests_on_memory_or_habit(part: Component) -> None:
    """It is given when a figure of the hole is recalled or usual, and not for the nut, the depth or the sheet.

    And where a caution of the part says to measure it before cutting.
    """
    doubtful = [figure for figure in _cut_by(part) if figure.known in (Known.MEMORY, Known.TYPICAL)]
    if any(caution(key).startswith("Measure the part before cutting.") for key in part.cautions):
        doubtful = [figure for figure in part.openings[0].figures if figure.name in _SIZES - {"x", "y"}]
    findings = found(RULE, layout(placed("X1", part, (100, 50))))
    assert [finding.refs for finding in findings] == ([("X1",)] if doubtful else [])
    told = {dimension.name for dimension in catalogue.dimensions_to_measure(part)}
    assert told >= {figure.name.replace(" ", "_") for figure in doubtful if figure.name not in ("x", "y", "turn")}


@pytest.mark.parametrize("known", Known)
@pytest.mark.parametrize("name", ["diameter", "x", "countersink diameter", "passes_diameter", "sheet_minimum", "mass"])
def test_only_what_the_hole_is_cut_by_counts(name: str, known: Known) -> None:
    figures = tuple(
        Figure(name=one, value=3.4, sources=("a page",), known=known if one == name else Known.LOOKED_UP)
        for one in ("diameter", "x", "countersink diameter", "passes_diameter", "sheet_minimum", "mass")
    )
    hole = Opening(role=Role.FIXING, contour=circle(3.4), figures=figures, countersink=Countersink(diameter=6.3))
    component = Component(name="a", title="A", family="a", openings=(hole,), front=(), rear=(), thickness=(1.0, 3.0))
    counts = name in ("diameter", "x", "countersink diameter") and known in (Known.MEMORY, Known.TYPICAL)
    assert [figure.name for figure in catalogue.to_measure(component)] == ([name] if counts else [])
    assert len(found(RULE, layout(placed("X1", component, (100, 50))))) == counts


def test_no_standing_is_lower_than_memory() -> None:
    """A file cannot mark a figure as a guess: there is no word for it."""
    assert set(table.KNOWN.words) == {"proved", "looked-up", "typical", "memory", "given"}


WIDEST_SHARE, WIDEST = 0.3, 1.0
"""How far apart, as a share of the figure or in mm, the values may be that were met for a figure a hole is cut by.

Common practice: where drawings differ by more than a third, there is no usual hole; the part is left out.
"""

_SIZES = {
    "diameter",
    "width",
    "height",
    "length",
    "across_flats",
    "flat_to_opposite",
    "over_key",
    "key_width",
    "x",
    "y",
}


def test_recalled_figures_are_firm_enough_to_be_worth_measuring_against(part: Component) -> None:
    for figure in catalogue.to_measure(part):
        if figure.span is not None and figure.name in _SIZES:
            low, high = figure.span
            assert high - low <= max(WIDEST_SHARE * figure.value, WIDEST), figure


def test_a_recalled_figure_says_that_it_is_recalled(part: Component) -> None:
    for figure in _cut_by(part):
        if figure.known is Known.MEMORY:
            assert "recalled" in figure.source or "from memory" in figure.source, figure


def test_a_quarter_turn_of_a_slot_is_not_measured() -> None:
    figures = {figure.name: figure.value for figure in catalogue.component("fader-45").openings[0].figures}
    assert figures["turn"] == 90
    assert "turn" not in {one.name for one in catalogue.dimensions_to_measure(catalogue.component("fader-45"))}
    assert "length" in {one.name for one in catalogue.dimensions_to_measure(catalogue.component("fader-45"))}


def test_a_hole_of_a_single_data_sheet_is_measured_first() -> None:
    """The thread 3/8-32 is 9.53, and one data sheet asks for 10.44: without its shoulder the part is loose."""
    part = catalogue.component("pot-ten-turn")
    assert {"diameter", "passes_diameter"} <= {one.name for one in catalogue.dimensions_to_measure(part)}
    own = laid_out(
        "parts: [{ref: RV1, part: {part: pot-ten-turn, opening: {diameter: 9.8}}, at: [60, 50]}]"
    ).panel.parts
    assert "diameter" not in {one.name for one in catalogue.to_measure(own[0].component)}
    laid = laid_out("parts: [{ref: RV1, part: pot-ten-turn, at: [60, 50], legend: SPEED}]")
    assert found(RULE, laid)
    sheet = CUT.told(Given(layout=laid))
    assert any("RV1" in str(told) and "cut 9.7 to 10.2" in str(told) for told in sheet.cautions)
