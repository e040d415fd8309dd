"""Laws over all parts: each tolerance is kept to the verdict, and what the catalogue asks for fits as it is made."""

from __future__ import annotations

import csv
import io

import pytest
from msgspec.structs import replace

from panelart import catalogue
from panelart.catalogue import read_file
from panelart.cutouts.describe import size_of
from panelart.cutouts.hardware import filled
from panelart.figure import Figure
from panelart.model.component import Component
from panelart.model.panel import Sheet
from panelart.pipeline import lay_out
from panelart.sheets.inspection import Measured, characteristics, inspection_csv, judged
from panelart.sheets.lists import holes_csv
from tests.checks.cases import found
from tests.panels import panel, part

PLACES = ("turn", "x", "y")


def bare(component: Component, turn: float = 0.0, film: float = 0.0):
    """The part alone, in the middle of a panel of a thickness that it fits, bare or with a coat of so many mm."""
    thickness = 2.0 if component.thickness is None else min(max(component.thickness[0], 1.0), component.thickness[1])
    made = panel(part("P1", component, at=(300, 300), turn=turn), size=(600.0, 600.0), film=film)
    return lay_out(replace(made, sheet=Sheet(material="aluminium", thickness=thickness)))


def toleranced(component: Component) -> list[tuple[str, Figure]]:
    """Each figure of an opening from wall to wall that has a tolerance, with the opening's name in lists."""
    several = len(component.openings) > 1
    return [
        (f"P1.{number}" if several else "P1", figure)
        for number, opening in enumerate(component.openings, start=1)
        for figure in opening.figures
        if figure.tolerance is not None
        and not figure.name.startswith(("passes_", "sheet_"))
        and figure.name not in PLACES
        and "_".join(figure.name.split()) == figure.name
    ]


WITH_OWN = [name for name in catalogue.names() if toleranced(catalogue.component(name))]


def test_there_are_parts_with_tolerances() -> None:
    """13 meters, and the round heads of 16, 22 and 30 mm at least."""
    assert len(WITH_OWN) > 40
    assert {"meter-96x48", "pushbutton-22-keyed", "pot-ten-turn", "xlr", "press-nut-m3"} <= set(WITH_OWN)


@pytest.mark.few(25)
@pytest.mark.parametrize("name", WITH_OWN)
def test_the_tolerance_of_every_dimension_reaches_list_and_verdict(name: str) -> None:
    component = catalogue.component(name)
    layout = bare(component)
    rows = {(row["feature"], row["measure"]): row for row in read(inspection_csv(layout))}
    holes = {row["hole"]: row for row in read(holes_csv(layout))}
    wanted = characteristics(layout)
    for feature, figure in toleranced(component):
        low, high = (figure.value + by for by in figure.tolerance)
        measure = figure.name.replace("_", " ")
        if filled(component):  # hardware sits in the finished hole: it is measured when it is cut
            assert measure == "diameter"
            assert float(holes[feature]["cut_width_minimum_mm"]) == pytest.approx(low)
            assert float(holes[feature]["cut_width_maximum_mm"]) == pytest.approx(high)
            continue
        row = rows[feature, measure]
        assert float(row["minimum_mm"]) == pytest.approx(low)
        assert float(row["maximum_mm"]) == pytest.approx(high)
        for value, out in ((low, 0), (high, 0), (low - 0.001, 1), (high + 0.001, 1)):
            one = Measured(feature=feature, measure=measure, piece="1", value=round(value, 6), line=2)
            (verdict,) = judged(wanted, [one])
            assert len(verdict.out) == out, (feature, measure, value)


def read(data: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(data.decode())))


@pytest.mark.few(60)
@pytest.mark.parametrize("name", [name for name in catalogue.names() if catalogue.component(name).openings])
def test_every_part_fits_its_opening_as_it_is_made(name: str) -> None:
    layout = bare(catalogue.component(name))
    for rule in ("fit-lost-in-tolerances", "opening-too-small-after-coat"):
        assert found(rule, layout) == []


@pytest.mark.few(25)
@pytest.mark.parametrize("name", [name for name in catalogue.names() if catalogue.component(name).openings])
def test_every_dimension_is_as_wide_as_the_contour_that_is_cut(name: str) -> None:
    """What is measured is what is drawn: for each opening one dimension is its width and one its height over all.

    A trapezoid's width is between its sharp corners, a hexagon has no width.
    """
    for opening in bare(catalogue.component(name)).every_opening:
        size = size_of(opening.cut)
        sizes = [one.size for one in opening.dimensions]
        assert any(one == pytest.approx(size.height) for one in sizes), (opening.name, sizes)
        assert any(one == pytest.approx(size.width) for one in sizes) or name == "opening-hexagon", (
            opening.name,
            sizes,
        )


@pytest.mark.few(25)
@pytest.mark.parametrize("name", WITH_OWN)
def test_width_and_height_go_with_the_part_when_it_is_turned(name: str) -> None:
    """By a quarter: what is measured as width is as wide as the metal, with the tolerance that size has upright."""
    upright, turned = (bare(catalogue.component(name), turn).every_opening for turn in (0.0, 90.0))
    for before, after in zip(upright, turned, strict=True):
        assert sorted((one.size, one.tolerance or ()) for one in before.dimensions) == sorted(
            (one.size, one.tolerance or ()) for one in after.dimensions
        )
        size = size_of(after.finished, after.turn)
        if size.form == "rectangle":
            named = {one.name: one.size for one in after.dimensions}
            assert (named["width"], named["height"]) == pytest.approx((size.width, size.height))
            assert (size.width, size.height) == pytest.approx(
                (after.finished.bounds.width, after.finished.bounds.height)
            )


TOO_TIGHT = {
    # the hole may be made smaller than the part
    "hole": "{role: body, circle: {diameter: {value: 8.1, tolerance: [-0.2, 0.2]}}, passes: {circle: {diameter: 8}}}",
    # the part may be larger than the hole
    "part": "{role: body, circle: {diameter: 8.1}, passes: {circle: {diameter: {value: 8, tolerance: [0, 0.15]}}}}",
    "height": "{role: body, rectangle: {width: 92, height: {value: 45, tolerance: [-0.3, 0.3]}},"
    " passes: {rectangle: {width: 91.5, height: 44.8}}}",
    "key": "{role: body, keyed-circle: {diameter: 22.3, key_width: {value: 3.2, tolerance: [-0.2, 0]}, over_key: 24.1},"
    " passes: {keyed-circle: {diameter: 22, key_width: 3.1, over_key: 23.9}}}",
}


@pytest.mark.parametrize("opening", TOO_TIGHT.values(), ids=TOO_TIGHT)
def test_a_part_that_may_not_go_in_is_found_all_the_same(opening: str) -> None:
    """By 0.1, 0.05, 0.1 and 0.1 mm."""
    text = f"panelart-catalogue: 1\nparts:\n  tight-1:\n    openings:\n      - {opening}\n"
    assert len(found("fit-lost-in-tolerances", bare(read_file(text.encode(), "own.yaml")["tight-1"]))) == 1
