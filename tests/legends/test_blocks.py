"""Legends of several texts: one place for all, each text in its own style, size and ink.

Positions are read back from the finished PDF by poppler's pdftotext, plates from the artwork by lxml and svgpathtools.
"""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest
from lxml import etree

import panelart as pa
from panelart.checks.inspection import inspect
from panelart.diagnostics import SpecError
from panelart.drawing.artwork import artwork
from panelart.model.layout import Layout
from panelart.pipeline import lay_out, read
from panelart.press.pieces import Pieces
from panelart.spec.read import panel_from_text
from panelart.writers.svg import svg

SVG = "{http://www.w3.org/2000/svg}"

HEAD = """panelart: 1
panel: {title: Pumps, size: [240, 120], sheet: {material: aluminium 5754, thickness: 2}}
marking:
  process: digital-print
  inks: [{name: black, colour: "#111111"}, {name: blue, colour: "#1B4F9C"}, {name: grey, colour: "#55585C"}]
  lettering:
    cap_height: 3.5
    text: live
    styles: {numeral: {ink: blue, cap_height: 5}, note: {ink: grey, cap_height: 2.6}}
  viewing_distance: 500
parts:
"""

PUMPS = (("K1", "Feed pump", "Speisepumpe"), ("K2", "Return", "Kesselspeisepumpe"), ("K3", "Vent", "Luft"))


def row(texts=PUMPS, form: str = "[{{text: {0}, style: numeral}}, {1}, {{text: {2}, style: note}}]", part="toggle-12"):
    return HEAD + "".join(
        f"  - {{ref: S{number}, part: {part}, at: [{40 + 50 * number}, 60], legend: {form.format(*each)}}}\n"
        for number, each in enumerate(texts)
    )


def of(layout: Layout, ref: str):
    return [legend for legend in layout.legends if legend.ref == ref]


def test_texts_of_blocks_in_a_row_are_on_one_line_each_with_small_letters_or_without() -> None:
    # ISO 3098-0, lettering type B: base lines 1.3 capitals apart, 1.5 with small letters; the wider one counts for all.
    texts = (("K1", "Feed pump", "Speisepumpe"), ("K2", "VENT", "LUFT"))
    layout = lay_out(panel_from_text(row(texts)))
    lines = [[round(one.baseline.y, 6) for one in of(layout, ref)] for ref in ("S0", "S1")]
    assert lines[0] == lines[1]
    alone = lay_out(panel_from_text(row(texts[1:])))
    upper, middle, _ = (one.baseline.y for one in of(alone, "S0"))
    assert upper - middle < lines[1][0] - lines[1][1]


def test_each_text_has_its_own_style_size_and_ink_and_all_have_one_place() -> None:
    layout = lay_out(panel_from_text(row()))
    for number, texts in enumerate(PUMPS):
        found = of(layout, f"S{number}")
        assert [(one.text, one.style, one.ink.name, one.cap_height) for one in found] == [
            (texts[0], "numeral", "blue", 5.0),
            (texts[1], "name", "black", 3.5),
            (texts[2], "note", "grey", 2.6),
        ]
        assert len({one.place for one in found}) == 1
        assert len({round(one.box.centre.x, 6) for one in found}) == 1
        assert [one.baseline.y for one in found] == sorted((one.baseline.y for one in found), reverse=True)


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="needs poppler")
def test_a_row_of_blocks_has_one_base_line_for_each_of_its_texts_in_the_finished_pdf(tmp_path: Path) -> None:
    path = tmp_path / "front.yaml"
    path.write_text(row())
    pa.build(pa.load(path)).write(tmp_path / "out", only=["artwork.pdf"])
    (pdf,) = (tmp_path / "out").glob("**/artwork.pdf")
    told = subprocess.run(["pdftotext", "-bbox", str(pdf), "-"], capture_output=True, text=True, check=True).stdout
    words = re.findall(r'xMin="([\d.]+)" yMin="[\d.]+" xMax="([\d.]+)" yMax="([\d.]+)">([^<]+)<', told)
    lines = {text: round(float(bottom) * 25.4 / 72, 2) for _, _, bottom, text in words}
    for place in range(3):
        assert len({lines[texts[place].split()[0]] for texts in PUMPS}) == 1
    assert lines["K1"] < lines["Feed"] < lines["Speisepumpe"]  # pdftotext counts downwards


def test_every_text_is_on_the_plate_of_its_ink() -> None:
    layout = lay_out(panel_from_text(row()))
    root = etree.fromstring(svg(artwork(layout)))
    plates = {
        group.get("id"): {path.get("aria-label") for path in group.iter(f"{SVG}path")}
        for group in root.iter(f"{SVG}g")
        if (group.get("id") or "").startswith("legend-")
    }
    assert plates == {
        "legend-blue": {texts[0] for texts in PUMPS},
        "legend-black": {texts[1] for texts in PUMPS},
        "legend-grey": {texts[2] for texts in PUMPS},
    }


@pytest.mark.parametrize(("place", "edge"), [("left", "right"), ("right", "left")])
def test_beside_its_part_a_block_is_in_line_on_the_side_of_the_part(place: str, edge: str) -> None:
    form = f"{{{{texts: [{{0}}, {{1}}], place: {place}}}}}"
    found = of(lay_out(panel_from_text(row((("Supply", "24 V", ""),), form, "led-5"))), "S0")
    assert {one.place.value for one in found} == {place}
    assert len({round(getattr(one.box, edge), 6) for one in found}) == 1


def test_a_block_at_a_place_of_its_own_begins_there() -> None:
    found = of(lay_out(panel_from_text(row(PUMPS[:1], "{{texts: [{0}, {1}], at: [100, 30], align: left}}"))), "S0")
    assert (round(found[0].box.left, 6), found[0].baseline.y) == (100.0, 30.0)
    assert round(found[1].box.left, 6) == 100.0


def test_a_row_of_blocks_goes_on_as_many_lines() -> None:
    texts = (("K1", "Condensate return pump", "x"), ("K2", "Boiler recirculation pump", "y"), ("K3", "Vent", "z"))
    crowded = row(texts, part="pushbutton-22").replace("at: [90,", "at: [78,").replace("at: [140,", "at: [116,")
    layout = lay_out(panel_from_text(crowded))
    assert not layout.unplaced
    lines = [sum(one.text.count("\n") + 1 for one in of(layout, f"S{number}")) for number in range(2)]
    assert lines[0] == lines[1]


def test_what_is_wrong_in_a_block_is_told_where_it_is_written() -> None:
    with pytest.raises(SpecError) as failed:
        panel_from_text(row(PUMPS[:1], "[{0}, {{text: {1}, style: nmae}}, {{txet: {2}}}]"))
    told = [str(problem) for problem in failed.value.problems]
    assert any("nmae" in one for one in told)
    assert any("txet" in one for one in told)


def test_the_rules_judge_each_text_by_its_own_style() -> None:
    small = row(PUMPS[:1]).replace("cap_height: 2.6", "cap_height: 1.2")
    found = {
        (finding.rule, finding.refs)
        for finding in inspect(lay_out(panel_from_text(small))).findings
        if finding.rule == "legend-too-small"
    }
    assert found == {("legend-too-small", ("S0",))}


def test_each_text_is_translated_by_itself(tmp_path: Path) -> None:
    texts = row(PUMPS[:1]).replace("cap_height: 3.5\n", "cap_height: 3.5\n    case: upper\n")
    path = tmp_path / "front.yaml"
    path.write_text(
        texts + "languages:\n  de: {K1: P1, Feed pump: Förderpumpe, Speisepumpe: Zulauf}\n", encoding="utf-8"
    )
    assert [one.text for one in of(lay_out(read(path, language="de")), "S0")] == ["P1", "FÖRDERPUMPE", "Zulauf"]


def test_each_text_varies_from_piece_to_piece_by_itself() -> None:
    texts = (("No {serial}", "Feed pump", "{hall}"),)
    form = "[{{text: '{0}', style: numeral}}, {1}, {{text: '{2}', style: note}}]"
    spec = row(texts, form) + "variables:\n  serial: {counter: {first: 1, digits: 3}}\n  hall: {example: Hall 4}\n"
    layout = lay_out(panel_from_text(spec))
    own = Pieces(layout).own({"serial": "007", "hall": "Hall 9"})
    assert sorted(item.label for layer in own for item in layer.items) == ["Hall 9", "No 007"]
    assert [item.label for layer in Pieces(layout).fixed.layers for item in layer.items if item.label == "Feed pump"]
