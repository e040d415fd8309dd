"""The build sheet: stations in the order that the finish asks for, their sizes, and pages that can be read."""

from __future__ import annotations

import io

import pytest

from panelart.checks import inspect
from panelart.pipeline import lay_out
from panelart.sheets.build import BuildSheet, build_sheet
from panelart.sheets.proof import Proof, proof
from panelart.sheets.stations import deviation, stations
from panelart.spec.read import panel_from_text
from panelart.writers import pdf, png
from tests.effort import some

SPEC = """\
panelart: 1
panel:
  title: Relay tray
  number: NW-340-02
  revision: C
  size: [220, 100]
  sheet: {{material: aluminium 5754, thickness: 2}}
  coat: {coat}
{more}
marking: {{process: digital-print, ink: {{name: white, colour: "#F1F1EC"}}}}
making: {{quantity: 25, first_serial: A0007, cutting: {cutting}}}
parts:
  - {{ref: S1, part: toggle-12, at: [40, 50], legend: Power}}
  - {{ref: RV1, part: pot-m10, at: [80, 50], knob: {{diameter: 20, height: 15}}}}
  - {{ref: N1, part: press-nut-m3, at: [120, 60]}}
  - {{ref: E1, part: earth-stud-m4, at: [150, 40]}}
  - {{ref: H1, part: screw-m3-countersunk, at: [185, 30]}}
"""
POWDER = "{kind: powder, thickness: {minimum: 0.06, maximum: 0.1}}"
FLANGES = (
    "  flanges: {top: {length: 20, holes: [{ref: F1, at: [40, 11], part: press-nut-m4}]}, "
    "bottom: {length: 20, return: {length: 10}}}"
)


def laid_out(coat: str = POWDER, more: str = "", cutting: str = "laser"):
    return lay_out(panel_from_text(SPEC.format(coat=coat, more=more, cutting=cutting), "tray.yaml"))


def names(layout) -> list[str]:
    return [str(station.name) for station in stations(layout)]


def test_powder_is_laid_over_pressed_hardware() -> None:
    assert names(laid_out(more=FLANGES)) == [
        "Cut by laser", "Deburr", "Countersink", "Bend", "Press in hardware", "Clean and mask", "Powder-coat",
        "Inspect", "Digital print", "Assemble", "Pack",
    ]  # fmt: skip


def test_hardware_goes_into_anodised_metal_afterwards() -> None:
    order = names(laid_out("{kind: anodise, thickness: 0.015}"))
    assert order.index("Anodise") < order.index("Press in hardware, after the coat") < order.index("Inspect")
    assert "Bend" not in order


def test_bare_metal_is_neither_masked_nor_coated() -> None:
    order = names(laid_out("{kind: none}"))
    assert not {"Clean and mask", "Powder-coat"} & set(order)
    assert "Press in hardware" in order


@pytest.mark.parametrize(
    ("cutting", "name"),
    [("punch", "Punch"), ("mill", "Mill"), ("waterjet", "Cut by waterjet"), ("hand", "Cut by hand")],
)
def test_the_cutter_names_its_station(cutting: str, name: str) -> None:
    assert names(laid_out(cutting=cutting))[0] == name


def row(layout, station: str, first: str) -> tuple[str, ...]:
    found = station_of(layout, station)
    cells = (tuple(map(str, line)) for listing in found.listings for line in listing.rows)
    return next(line for line in cells if line[0] == first)


def station_of(layout, name: str):
    return next(one for one in stations(layout) if str(one.name) == name)


def ids(steps) -> list[str]:
    """The ids of the sentences of some steps, those in paragraphs one by one."""
    found: list[str] = []
    for step in steps:
        arguments = dict(step.arguments)
        found += ids(arguments["sentences"]) if "sentences" in arguments else [step.id]
    return found


def test_each_station_has_the_sizes_it_can_measure() -> None:
    """M3 medium 3.4 H13 (ISO 273, ISO 286-2: +0.18/0) is cut 3.56 under 0.08, and a self-clinch nut's 4.25 +0.08/0
    stays as it is; the coat's range of 0.02 either way on two walls adds 0.04 when finished. Positions at the cutter
    are from the corner of the metal, 0.08 inside the finished one, and from the datum at inspection."""
    layout = laid_out()
    assert row(layout, "Cut by laser", "H1")[2:6] == ("184.92", "29.92", "Ø3.56", "+0.18/0")
    assert row(layout, "Cut by laser", "N1")[4:6] == ("Ø4.25", "+0.08/0")
    assert row(layout, "Cut by laser", "width")[4] == "219.84"
    assert row(layout, "Inspect", "H1")[1:6] == ("face", "185.00", "30.00", "Ø3.40", "+0.22/\N{MINUS SIGN}0.04")
    assert row(layout, "Inspect", "width")[4] == "220.00"


def test_the_countersink_station_knows_cone_and_hole() -> None:
    """The cone of 6.3 is cut 0.08 x 2 (sqrt 2 - 1) = 0.066 wider; depth (6.366 - 3.56) / 2."""
    assert row(laid_out(), "Countersink", "H1")[4:9] == ("front", "Ø6.37", "90°", "1.40", "Ø3.56")


def test_bends_are_listed_in_their_order() -> None:
    layout = laid_out(more=FLANGES)
    bend = station_of(layout, "Bend")
    assert [line[:2] for line in bend.listings[0].rows] == [("1", "bottom return"), ("2", "top"), ("3", "bottom")]
    assert "sheets-stations.springback" in ids(bend.steps)


def test_masks_and_plugs_are_listed() -> None:
    layout = laid_out(more=FLANGES)
    mask = station_of(layout, "Clean and mask")
    assert mask.listings[0].rows[0][:3] == ("E1", "face", "rear")
    assert [line[:3] for line in mask.listings[1].rows] == [("1", "M3", "N1"), ("1", "M4", "F1")]


def test_nothing_is_pressed_into_a_deburred_hole() -> None:
    deburr = station_of(laid_out(more=FLANGES), "Deburr")
    assert any("N1, F1" in str(step) for step in deburr.steps)
    assert "N1" not in deburr.marked


def test_pvc_is_kept_out_of_the_laser() -> None:
    text = SPEC.format(coat="{kind: none}", more="", cutting="laser").replace("aluminium 5754", "PVC foam board")
    first = stations(lay_out(panel_from_text(text, "tray.yaml")))[0]
    assert any(told.id == "sheets-stations.not-by-laser" and "chlorine" in str(told) for told in first.cautions)


def test_a_tolerance_of_its_own_comes_before_the_general_one() -> None:
    panel = laid_out().panel
    assert deviation(30, panel) == "±0.2"
    assert deviation(30, panel, (0.0, 0.4)) == "+0.4/0"
    assert deviation(30, panel, (-0.1, 0.1)) == "±0.1"
    assert deviation(30, panel, (-0.03, 0.08)) == "+0.08/\N{MINUS SIGN}0.03"


# --- pages


@pytest.fixture(scope="module")
def sheet():
    layout = laid_out(more=FLANGES)
    return layout, build_sheet(BuildSheet(layout=layout, date="", made_by="panelart test"))


def words_of(page) -> list[str]:
    return [item.label for layer in page.layers for item in layer.items]


def test_every_page_names_number_revision_and_fingerprint(sheet) -> None:
    layout, pages = sheet
    assert len(layout.panel.fingerprint) == 10
    for place, page in enumerate(pages, start=1):
        told = " ".join(words_of(page))
        assert "NW-340-02" in told
        assert "rev C" in told
        assert layout.panel.fingerprint in told
        assert f"{place} of {len(pages)}" in told
        assert "A0007 to A0031" in told


def test_another_spec_has_another_fingerprint() -> None:
    one, two = laid_out(), laid_out("{kind: powder, thickness: {minimum: 0.06, maximum: 0.11}}")
    assert one.panel.fingerprint != two.panel.fingerprint


def test_the_code_is_read_back_from_the_picture(sheet) -> None:
    """By zxing-cpp, from a page drawn at 200 dpi."""
    zxingcpp = pytest.importorskip("zxingcpp", reason="zxing-cpp reads the code back")
    from PIL import Image

    layout, pages = sheet
    for page in (pages[0], pages[-1]):
        picture = Image.open(io.BytesIO(png(page, 200))).convert("L")
        (code,) = zxingcpp.read_barcodes(picture)
        assert code.text.splitlines() == ["NW-340-02", "C", layout.panel.fingerprint]


def test_nothing_runs_off_the_page(sheet) -> None:
    from panelart.lettering.outline import bounds

    for page in some(sheet[1], 2):
        for layer in page.layers:
            for item in layer.items:
                assert page.page.contains(bounds(item.outline)), item.label


@pytest.mark.full
def test_the_pdf_has_a_page_for_each(sheet) -> None:
    import pikepdf

    with pikepdf.open(io.BytesIO(pdf(sheet[1]))) as document:
        assert len(document.pages) == len(sheet[1])


def said(pages) -> set[str]:
    return {item.label for page in pages for layer in page.layers for item in layer.items}


def test_the_proof_lists_holes_of_flanges_and_countersinks() -> None:
    """F1 is 40 along and 11 back; the cone of 6.3 is cut 6.37 under a film of 0.08."""
    layout = laid_out(more=FLANGES)
    told = said(proof(Proof(layout=layout, inspection=inspect(layout), date="", made_by="panelart")))
    assert {"Countersinks", "surface", "F1", "top", "40.00", "11.00", "Ø6.30", "Ø6.37"} <= told
    flat = laid_out()
    assert "surface" not in said(proof(Proof(layout=flat, inspection=inspect(flat), date="", made_by="panelart")))


def test_bends_stand_on_one_page_with_their_pictures() -> None:
    pages = build_sheet(BuildSheet(layout=laid_out(more=FLANGES), date="", made_by="panelart"))
    assert not any("Bend, continued" in item.label for page in pages for item in page.layers[0].items)


def test_hardware_in_a_flange_is_marked_in_the_picture_of_the_bent_panel() -> None:
    pages = build_sheet(BuildSheet(layout=laid_out(more=FLANGES), date="", made_by="panelart"))
    press = next(page for page in pages if any(item.label == "5 Press in hardware" for item in page.layers[0].items))
    amber = [item for item in press.layers[0].items if item.fill is not None and item.fill.colour == "#F2A91E"]
    assert len(amber) == 4  # N1 and F1, from the front and from behind


def test_a_punch_station_lists_its_tools() -> None:
    text = SPEC.format(coat=POWDER, more="", cutting="punch, punches: [12.36, [10, 4]]")
    station = stations(lay_out(panel_from_text(text, "tray.yaml")))[0]
    tools = next(listing for listing in station.listings if listing.title.id == "sheets-stations.punches")
    assert [tuple(map(str, line[:2])) for line in tools.rows] == [("Ø12.36", "1"), ("nibbled", "–")]
    assert tools.rows[0][2] == "S1"


def test_relieved_corners_are_told_by_their_sides() -> None:
    text = SPEC.format(coat="{kind: none}", more="", cutting="mill, cutter: 3, relieve_corners: true")
    text += "  - {ref: W1, part: {openings: [{role: body, rectangle: {width: 30, height: 12}}]}, at: [60, 20]}\n"
    layout = lay_out(panel_from_text(text, "tray.yaml"))
    assert row(layout, "Mill", "W1")[4] == "30.00 × 12.00, relieved"
    assert not [one for one in inspect(layout).findings if one.rule == "corner-sharper-than-cutter"]
