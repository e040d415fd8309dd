"""The marking processes: complete, within what sources gave, and known to the language."""

from __future__ import annotations

import pytest

from panelart.diagnostics import SpecError
from panelart.figure import Known
from panelart.processes.registry import LIMIT_FIELDS, processes, read_processes
from panelart.spec import language
from panelart.spec.read import panel_from_text


def test_the_language_has_the_processes_of_the_file() -> None:
    assert tuple(processes()) == language.PROCESSES


def test_every_limit_has_its_source_and_standing() -> None:
    for process in processes().values():
        for name in LIMIT_FIELDS:
            figure = getattr(process, name)
            assert figure.name == name
            assert figure.source
            assert figure.known in (Known.LOOKED_UP, Known.TYPICAL, Known.MEMORY)


@pytest.mark.parametrize(
    ("process", "limit", "minimum", "maximum"),
    [
        # Ranges met on printers' artwork pages: label printers 0.18 to 0.25, wide format 0.5, overlays 0.18 to 0.35.
        ("digital-print", "line_minimum", 0.18, 0.5),
        ("screen-print", "line_minimum", 0.18, 0.35),
        ("overlay", "line_minimum", 0.18, 0.35),
        # Marks inside the trim: 1.5 to 5.
        ("digital-print", "edge_margin", 1.5, 5.0),
        # ISO 3098-0 has heights from 1.8 mm.
        ("engraving", "cap_height_minimum", 1.8, 1.8),
    ],
)
def test_limits_lie_in_the_range_of_their_sources(process: str, limit: str, minimum: float, maximum: float) -> None:
    assert minimum <= getattr(processes()[process], limit).value <= maximum


@pytest.mark.parametrize(
    ("material", "thickness"),
    [("mild steel", 1.519), ("aluminium 5052", 1.290), ("stainless 304", 1.588), ("galvanised steel", 1.613)],
)
def test_sixteen_gauge_is_as_thick_as_its_material_makes_it(material: str, thickness: float) -> None:
    """Charts of sheet gauges; 16 gauge is 0.0598, 0.0508, 0.0625 and 0.0635 in."""
    panel = panel_from_text(
        f"""\
panelart: 1
panel: {{title: T, size: [10, 10], sheet: {{material: {material}, gauge: 16}}}}
marking: {{process: overlay, ink: {{name: black, colour: "#000000"}}}}
"""
    )
    assert panel.sheet.thickness == pytest.approx(thickness, abs=0.0006)


def test_a_limit_without_a_source_is_refused() -> None:
    with pytest.raises(SpecError, match="Required key 'source' is missing in limit"):
        read_processes("processes: [{name: a, title: A, register: {value: 1, known: memory}}]", "p.yaml")
