"""Parts told: every figure with its source in text, every value with its unit in JSON."""

from __future__ import annotations

import json

import pytest

from panelart.catalogue import caution, component, knob, names, to_measure
from panelart.catalogue.absent import absent
from panelart.catalogue.symbols import symbol
from panelart.processes.registry import BUILT_IN
from panelart.reports.parts import (
    absent_list,
    knob_json,
    knob_page,
    minimum_height,
    part_json,
    part_page,
    parts_json,
    parts_list,
    symbol_json,
    symbol_page,
)


@pytest.mark.few(40)
@pytest.mark.parametrize("name", names())
def test_a_page_tells_every_dimension_source_and_caution(name: str) -> None:
    part = component(name)
    page = part_page(part, 100)
    folded = " ".join(page.split())
    assert part.title in page
    for one in part.figures:
        if one.name not in ("x", "y"):
            assert one.name.replace("_", " ") in page
            assert f"{one.value:g}" in page
            assert all(" ".join(source.split()) in folded for source in one.sources)
    for key in part.cautions:
        assert " ".join(caution(key).split()) in folded
    assert bool(to_measure(part)) == ("Measure the part in hand before cutting" in folded)
    assert all(len(line) <= 100 or "   " in line for line in page.splitlines())


@pytest.mark.few(40)
@pytest.mark.parametrize("name", names())
def test_json_has_the_same_figures(name: str) -> None:
    part = component(name)
    told = json.loads(part_json(part))["part"]
    groups = [*told["openings"], *told["front"], *told["rear"]]
    figures = [one for group in groups for one in group["figures"]]
    assert len(figures) == len(part.figures)
    for written, one in zip(figures, part.figures, strict=True):
        value = next(written[key] for key in ("value_mm", "value_deg", "value") if key in written)
        assert value == pytest.approx(one.value, abs=1e-6)
        assert (written["name"], written["source"], written["known"]) == (one.name, one.source, one.known.value)
        assert ("unit" in written) == (one.unit not in ("mm", "deg"))
    assert [one["name"] for one in told["cautions"]] == list(part.cautions)


def test_the_fields_of_a_part_are_a_promise() -> None:
    told = json.loads(part_json(component("iec-c14")))
    assert told["version"] == 1
    assert " ".join(told["part"]) == (
        "name title family chapter measure_before_cutting standard words variants thickness_mm shaft motion positions"
        " openings front rear to_measure cautions note board operation circuit look fasteners mass"
    )
    assert sorted(told["part"]["openings"][0]) == sorted(
        ("role", "form", "at_mm", "across_mm", "upright_mm", "diameter_mm", "passes", "countersink", "figures")
    )
    assert told["part"]["openings"][0]["across_mm"] == 28.2


def test_a_list_by_words_keeps_its_order_and_the_whole_one_goes_by_chapter() -> None:
    assert [line.split()[0] for line in parts_list([component("sma"), component("bnc")]).splitlines()] == ["sma", "bnc"]
    whole = parts_list()
    assert whole.index("Toggle switches (6)") < whole.index("toggle-12") < whole.index("Rocker switches")
    listed = json.loads(parts_json([component("bnc")], [knob("knob-21")]))
    assert [one["name"] for one in listed["parts"]] == ["bnc"]
    assert listed["knobs"][0]["diameter_mm"] == 21.0
    assert listed["symbols"] == []


@pytest.mark.parametrize(
    ("name", "line"),
    [
        ("fuse-5x20", "opening 1, body: Ø12.5 x 11 mm, two flats"),
        ("bnc", "opening 1, body: Ø9.7 x 8.85 mm, one flat"),
        ("pushbutton-22-keyed", "opening 1, body: Ø22.3 x 24.1 mm, key"),
    ],
)
def test_a_page_tells_flats_and_keys(name: str, line: str) -> None:
    assert line in part_page(component(name)).splitlines()


def test_what_is_left_out_is_told_in_text_and_json() -> None:
    assert "C20" in absent_list(absent("c20"))
    (told,) = json.loads(parts_json([], absent=absent("c20")))["absent"]
    assert told["name"] == "iec-c20"
    assert told["why"]
    assert told["instead"]


def test_a_symbol_is_told_with_the_height_that_each_process_needs() -> None:
    """A stop is 10 d square with the pen of its weight: 0.35 mm of line are 3.5 mm of h/10, 2.625 of h/7.5."""
    page = symbol_page(symbol("stop"), BUILT_IN).splitlines()
    assert page[0] == "Stop of an action"
    assert any("IEC 60417-5110 (from memory)" in line for line in page)
    assert any("not for an emergency stop" in line for line in page)
    assert "  Screen print: 3.5 mm, 2.65 mm, 2.35 mm" in page
    told = json.loads(symbol_json(symbol("wait"), BUILT_IN, [symbol("clock")]))
    heights = told["symbol"]["minimum_heights_mm"]
    assert set(heights) == {"symbols-light", "symbols-medium", "symbols-bold"}
    assert set(heights["symbols-light"]) == set(BUILT_IN)
    assert heights["symbols-light"]["pad-print"] == pytest.approx(
        minimum_height("wait", "symbols-light", BUILT_IN["pad-print"])
    )
    assert [one["name"] for one in told["symbols"]] == ["clock"]


def test_safety_symbols_say_who_decides() -> None:
    for name in ("laser", "static-discharge", "wait", "unplug", "emergency-stop", "crossed-bin", "applied-part-cf"):
        assert "local codes and licensed practice decide" in symbol(name).note


def test_knobs_are_told() -> None:
    assert "diameter" in knob_page(knob("knob-21"))
    assert json.loads(knob_json(knob("knob-21")))["knob"]["pointer"] == "line"
