"""The table on the proof and the form to measure by: every dimension is there, within the paper, page by page."""

from __future__ import annotations

import pytest

from panelart import catalogue
from panelart.checks.measuring import parts_to_measure
from panelart.drawing.layers import DIMENSIONS, NOTES, PARTS
from panelart.drawing.representation import Drawing
from panelart.pipeline import build
from panelart.sheets.measure import extent
from panelart.sheets.measure_form import measure_form
from panelart.sheets.measure_table import measure_rows, thinned
from panelart.sheets.proof import Proof, proof
from panelart.spec.read import panel_from_text

TOP = """\
panelart: 1
panel: {title: Trial, size: [SIZE, 90], sheet: {material: aluminium 5754, thickness: 2}, coat: {kind: none, colour: "#FFFFFF"}}
marking: {process: digital-print, ink: {name: black, colour: "#000000"}, lettering: {cap_height: 3.5}, viewing_distance: 500}
parts:
"""  # noqa: E501
MEASURED = [
    name
    for name in catalogue.names()
    if catalogue.to_measure(part := catalogue.component(name))
    and max(one.contour.bounds.height for one in (*part.front, *part.openings)) < 60
]


def _panel(count: int):
    names = MEASURED[:: max(1, len(MEASURED) // count)][:count]
    lines = [f"  - {{ref: X{number}, part: {name}, at: [{60 * number}, 45]}}" for number, name in enumerate(names, 1)]
    return panel_from_text(TOP.replace("SIZE", str(60 * (count + 1))) + "\n".join(lines) + "\n", "front.yaml")


def _texts(pages: tuple[Drawing, ...]) -> list[str]:
    return [item.label for page in pages for layer in page.layers for item in layer.items if item.words is not None]


@pytest.mark.parametrize("count", [1, 12])
def test_every_dimension_is_in_the_table_of_the_proof_and_on_the_form(count: int) -> None:
    panel = _panel(count)
    built = build(panel)
    parts = parts_to_measure(panel)
    wanted = sorted(str(row[2]) for row in measure_rows(parts))
    known = set(wanted)
    drawn = proof(Proof(layout=built.layout, inspection=built.inspection, date="", made_by="test"))
    form = measure_form(panel, parts, "test")
    for pages in (drawn, form):
        assert sorted(text for text in _texts(pages) if text in known) == wanted
        for page in pages:
            box = extent([item for layer in page.layers if layer.name == NOTES for item in layer.items])
            assert box.left >= page.page.left
            assert box.right <= page.page.right
            assert box.bottom >= page.page.bottom
            assert box.top <= page.page.top
    for page in form:
        sketches = [item for layer in page.layers if layer.name == PARTS for item in layer.items]
        table = [item for layer in page.layers if layer.name == DIMENSIONS for item in layer.items]
        assert extent(sketches).right < extent(table).left
        assert extent(sketches).left >= page.page.left


def test_a_panel_by_data_sheets_alone_has_no_table() -> None:
    panel = panel_from_text(
        TOP.replace("SIZE", "120")
        + "  - {ref: S1, part: {part: toggle-12, opening: {diameter: 12.2}}, at: [60, 45]}\n",
        "front.yaml",
    )
    built = build(panel)
    drawn = proof(Proof(layout=built.layout, inspection=built.inspection, date="", made_by="test"))
    assert "To measure before cutting" not in _texts(drawn)


def test_part_and_refs_are_named_anew_where_a_table_begins() -> None:
    rows = [("a", "S1", str(number)) for number in range(3)] + [("b", "S2", "0")]
    assert thinned(rows) == [("a", "S1", "0"), ("", "", "1"), ("", "", "2"), ("b", "S2", "0")]
