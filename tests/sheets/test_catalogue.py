"""The picture sheets: every part, knob and symbol, to scale, legible, within the page, and quickly.

Read back with pikepdf and pdfium; distances on paper are measured on the drawing against the catalogue's contours.
"""

from __future__ import annotations

import io
from collections import Counter
from functools import cache
from itertools import combinations, pairwise

import pikepdf
import pypdfium2
import pytest

from panelart.catalogue import caution, component, knob_names, names, to_measure
from panelart.catalogue.chapters import CHAPTERS, chapter_of, chapters, variants
from panelart.catalogue.library import files
from panelart.catalogue.symbols import symbol_names
from panelart.cutouts.describe import size_of
from panelart.figure import Known
from panelart.geometry import Point
from panelart.lettering.outline import bounds
from panelart.model.component import Role
from panelart.sheets.catalogue import HEIGHT, MARGIN, WIDTH, catalogue_sheets
from panelart.sheets.dials import dials
from panelart.sheets.measure import across, extent, figure
from panelart.sheets.paper import WHITE, stacked
from panelart.sheets.part_picture import main_opening, part_picture, size_in_short, standing
from panelart.sheets.part_sheet import part_sheets
from panelart.writers import pdf, svg


@cache
def pages():
    return catalogue_sheets("panelart, test")


def labels() -> list[str]:
    return [item.label for page in pages() for layer in page.layers for item in layer.items if item.label]


def test_every_part_knob_and_symbol_is_there_by_name() -> None:
    told = {label.split("   ")[0] for label in labels()}
    assert set(names()) <= told
    assert set(knob_names()) <= told
    assert set(symbol_names()) <= told


def test_every_opening_is_drawn() -> None:
    drawn = Counter(label for label in labels() if label.startswith("opening of "))
    wanted = Counter(f"opening of {name}: {one.role.value}" for name in names() for one in component(name).openings)
    assert drawn == wanted


def test_nothing_leaves_the_page() -> None:
    for page in pages():
        box = extent([item for layer in page.layers for item in layer.items])
        assert box.left >= MARGIN - 1.0
        assert box.right <= WIDTH - MARGIN + 1.0
        assert box.bottom >= 5.0
        assert box.top <= HEIGHT - 5.0


@pytest.mark.full
def test_the_whole_catalogue_is_drawn_and_written() -> None:
    written = pdf(catalogue_sheets("panelart"), live=True)
    with pikepdf.open(io.BytesIO(written)) as file:
        assert len(file.pages) == len(pages())
        box = [float(side) for side in file.pages[0].MediaBox]
        # A4 upright, ISO 216, in points.
        assert box[2:] == pytest.approx([210 / 25.4 * 72, 297 / 25.4 * 72], abs=0.01)


def test_pdfium_finds_ink_on_every_page() -> None:
    document = pypdfium2.PdfDocument(pdf(pages(), live=True))
    text = document[0].get_textpage().get_text_range()
    assert "toggle-12" in text
    for page in document:
        grey = page.render(scale=0.5, grayscale=True).to_numpy()
        assert 0.005 < (grey < 200).mean() < 0.4


@pytest.mark.full
def test_one_svg_holds_all_pages_under_each_other() -> None:
    whole = stacked(pages())
    assert whole.page.height == pytest.approx(HEIGHT * len(pages()))
    assert svg(whole, live=True).count(b"<text") > 2_000


@pytest.mark.full
def test_the_same_catalogue_gives_the_same_bytes() -> None:
    assert pdf(catalogue_sheets("panelart, test")[:3]) == pdf(pages()[:3])


@pytest.mark.parametrize("name", ["toggle-12", "iec-c14", "dsub-25", "fan-80", "meter-96x48", "vent-square-3-40x40"])
@pytest.mark.parametrize("scale", [1.0, 0.5])
def test_openings_are_to_scale(name: str, scale: float) -> None:
    part = component(name)
    real = main_opening(part).contour.bounds
    lines = [item for item in part_picture(part, scale).items if item.label.startswith("opening of")]
    boxes = [bounds(item.shape) for item in lines]
    assert any(
        box.width == pytest.approx(real.width * scale, abs=1e-6)
        and box.height == pytest.approx(real.height * scale, abs=1e-6)
        for box in boxes
    )


@pytest.mark.parametrize(
    ("name", "figures"),
    [
        # Names of parts say their sizes; figures of IEC 60297-3-101 (122.5) and of DIN 43700 (45, 92).
        ("meter-48x96", {"45", "92"}),
        ("opening-circle", {"Ø10"}),
        ("subrack-3u-8hp", {"122.5"}),
        ("dsub-9", {"24.99"}),
    ],
)
def test_main_dimensions_are_told(name: str, figures: set[str]) -> None:
    told = {item.label for item in part_picture(component(name), 1.0).items if item.label}
    assert figures <= told


@pytest.mark.parametrize(
    ("name", "told"),
    [
        # Figures of the catalogue files, read by eye.
        ("fuse-5x20", "Ø12.5 × 11"),
        ("bnc", "Ø9.7 × 8.85"),
        ("emergency-stop-22", "Ø22.3 × 24.1"),
        ("pot-m7", "Ø7.2"),
        ("rocker-29x14", "13.97 × 28.57"),
    ],
)
def test_sizes_in_short_tell_flats_and_keys(name: str, told: str) -> None:
    assert str(size_in_short(size_of(main_opening(component(name)).contour))) == told


@pytest.mark.parametrize(
    "line",
    [
        "opening Ø12.2 (11.9 to 12.7)",  # a toggle: the span of the hole
        "range width 27 to 28, height 19.8 to 20.3",  # a snap-in inlet: both sides
        "opening Ø10.44",  # a ten-turn pot has no span of the hole, only one of the sheet
        "flange 48 × 23, 3.5 high",  # an inlet's flange is not as high as the plug in it
        "mated connector to 60",
    ],
)
def test_captions_tell_the_right_figure(line: str) -> None:
    """A caption too long for its cell goes on in the next line."""
    assert line in labels() or line in map(" ".join, pairwise(labels()))


def test_a_caption_does_not_give_the_span_of_the_sheet_to_the_hole() -> None:
    assert "opening Ø10.44 (1 to 2.46)" not in labels()


def test_a_figure_without_room_stands_beside_what_it_measures() -> None:
    wide, narrow = (across(Point(0, 0), Point(x, 0), -5.0, "22.5") for x in (22.5, 2.25))
    figures = [item.words for item in (*wide, *narrow) if item.words is not None]
    assert 0 < figures[0].at.x < 22.5
    assert figures[1].at.x > 2.25
    assert extent(narrow).right <= max(figures[1].at.x + figures[1].setting.box.right + 0.1, 2.25 + 3.0)


def test_a_dimension_line_spans_what_it_says() -> None:
    items = across(Point(10.0, 0.0), Point(22.5, 0.0), -5.0, figure(12.5))
    spans = {round(bounds(item.shape).width, 6) for item in items if item.shape}
    assert 12.5 in spans
    assert items[-1].label == "12.5"


@pytest.mark.parametrize(
    ("value", "text"), [(12.0, "12"), (12.5, "12.5"), (0.049, "0.05"), (-3.0, "−3"), (-0.001, "0"), (7.125, "7.12")]
)
def test_figures_have_two_decimals_at_most(value: float, text: str) -> None:
    assert figure(value) == text


def test_standing_is_that_of_the_weakest_figure() -> None:
    for name in names():
        known = {one.known for one in to_measure(component(name))} - {Known.LOOKED_UP}  # by a caution of the part
        assert (standing(component(name)) is Known.LOOKED_UP) == (not known)
        assert (standing(component(name)) is Known.MEMORY) == (Known.MEMORY in known)


def test_chapters_hold_every_part_once() -> None:
    listed = [part.name for chapter in chapters() for family in chapter.families for part in family.parts]
    assert sorted(listed) == sorted(names())
    titles = [family.title for chapter in chapters() for family in chapter.families]
    assert all(title[:1].isalnum() for title in titles)
    assert "Box header on a board, pitch 2.54; Pin header on a board, pitch 2.54" in titles
    parts_files = {file for file in files() if file != "knobs.yaml"}
    assert set(CHAPTERS) == parts_files
    assert str(chapter_of(component("bnc"))) == "Coaxial connectors"


def test_variants_are_the_other_sizes_in_order() -> None:
    assert variants(component("gland-m16")) == ("gland-m12", "gland-m20", "gland-m25", "gland-m32")


@pytest.mark.parametrize("name", ["iec-c14", "weld-stud-m3", "rack-slots-6u", "led-3", "fan-120-holes"])
def test_a_part_sheet_tells_every_figure_and_caution(name: str) -> None:
    part = component(name)
    sheets = part_sheets(part, "panelart")
    told = " ".join(item.label for page in sheets for layer in page.layers for item in layer.items)
    for one in part.figures:
        if one.name not in ("x", "y"):
            assert one.name.replace("_", " ") in told
            assert figure(one.value) in told
    for key in part.cautions:
        assert " ".join(caution(key).split()) in told
    if to_measure(part):
        assert "Measure the part in hand" in told
    for page in sheets:
        box = extent([item for layer in page.layers for item in layer.items])
        assert page.page.contains(box)
    assert any(one.role is Role.FIXING for one in part.openings) == ("Opening, fixing" in told)


@pytest.mark.parametrize("name", ["xlr", "pot-m7-16", "rj45-flange", "meter-96x96"])
def test_each_source_is_told_once_on_a_part_sheet_by_its_letter(name: str) -> None:
    part = component(name)
    items = [item.label for page in part_sheets(part, "x") for layer in page.layers for item in layer.items]
    told = " ".join(items)
    sources = {source for one in part.figures if one.name not in ("x", "y") for source in one.sources}
    for source in sources:
        assert told.count(" ".join(source.split())) == 1
    first = next(one for one in part.openings[0].figures if one.name not in ("x", "y"))
    assert ", ".join("abc"[: len(first.sources)]) in items


@pytest.mark.parametrize(
    ("name", "what", "count"),
    [("dsub-25", "contacts", 25), ("iec-c14", "pin", 3), ("meter-48x48", "window", 1), ("fuse-5x20", "slot", 1)],
)
def test_what_a_part_is_known_by_is_drawn(name: str, what: str, count: int) -> None:
    """DIN 41652: 25 contacts; IEC 60320-1, sheet C14: three pins."""
    drawn = [item for item in part_picture(component(name), 1.0).items if item.label == f"{what} of {name}, in front"]
    assert len(drawn) == count


def test_the_circle_of_a_handle_and_the_handle_are_drawn_over_the_hole() -> None:
    items = part_picture(component("selector-22"), 1.0).items
    (hole,) = (at for at, item in enumerate(items) if item.fill == WHITE)
    drawn = [bounds(item.shape) for item in items[hole:] if item.shape and not item.label.startswith("opening")]
    assert any((box.width, box.height) == pytest.approx((9.0, 23.0)) for box in drawn)
    assert any((box.width, box.height) == pytest.approx((23.0, 23.0)) for box in drawn)


@pytest.mark.parametrize(
    ("name", "marks"),
    [
        ("selector-30", [("-45°", "0°", "45°"), ("-22.5°", "22.5°")]),
        ("rotary-m10", [tuple(f"{angle}°" for angle in range(-165, 166, 30))]),
        ("pot-m7-16-switch", [("-157.5°", "157.5°"), ("-145°", "145°")]),
    ],
)
def test_the_angles_of_each_way_are_on_the_sheet(name: str, marks: list[tuple[str, ...]]) -> None:
    """Data sheets: a selector head of 45°, a rotary switch of 30°, a potentiometer with a switch of 315 and 290°."""
    shown = dials(component(name).motion)
    told = [tuple(item.label for item in dial.items(Point(0.0, 0.0)) if item.label.endswith("°")) for dial in shown]
    plain = [tuple(label.replace("\N{MINUS SIGN}", "-") for label in each) for each in told]
    assert set(marks) <= set(plain)
    labels = [item.label for page in part_sheets(component(name), "x") for layer in page.layers for item in layer.items]
    assert {label for each in told for label in each} <= set(labels)


def test_degrees_on_a_dial_stand_clear_of_each_other() -> None:
    for name in names():
        for dial in dials(component(name).motion):
            texts = [extent([item]) for item in dial.items(Point(0.0, 0.0)) if item.label.endswith("°")]
            assert all(one.gap(two) > 0.4 for one, two in combinations(texts, 2)), name


def test_the_sheet_tells_every_fact() -> None:
    part = component("fuse-5x20")
    labels = {item.label for page in part_sheets(part, "x") for layer in page.layers for item in layer.items}
    assert {"Circuit: mains; protects against overcurrent", "250 V", "On the face, 1 × slot, recessed"} <= labels
    bought = component("iec-c14")
    labels = {item.label for page in part_sheets(bought, "x") for layer in page.layers for item in layer.items}
    assert "Fastening, 2 × nut M3: tightened from the rear; bought separately" in labels
