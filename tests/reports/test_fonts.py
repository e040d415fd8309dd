"""What is said of a font, against its own tables read by fontTools and against the processes' figures."""

from __future__ import annotations

from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from panelart.lettering.fonts import fonts_folder
from panelart.processes.registry import processes
from panelart.reports.fonts import font_report, told
from tests.lettering.builders import boxes

FILES = {
    "plain-light": "PanelartPlain-Light.ttf",
    "plain-medium": "PanelartPlain-Medium.ttf",
    "plain-bold": "PanelartPlain-Bold.ttf",
    "plain-light-narrow": "PanelartPlain-NarrowLight.ttf",
}


@pytest.mark.parametrize("name", FILES)
def test_our_fonts_are_what_their_tables_say(name: str) -> None:
    """OS/2 of our own fonts states the heights that its maker drew; advance widths say nothing here."""
    stated = TTFont(fonts_folder() / "built" / FILES[name])
    capitals, small = stated["OS/2"].sCapHeight, stated["OS/2"].sxHeight
    report = font_report(name)
    assert report.heights.small == pytest.approx(small / capitals, abs=0.002)
    glyph = stated["glyf"][stated.getBestCmap()[ord("O")]]
    assert report.round_ == pytest.approx((glyph.xMax - glyph.xMin) / capitals)
    assert report.heights.figures == pytest.approx(1.0, abs=0.002)


def test_the_least_height_is_the_strictest_of_three() -> None:
    report = font_report("plain-light")
    for process in processes().values():
        minimum = report.minimum_height(process)
        assert minimum >= process.cap_height_minimum.value
        assert minimum * report.widths.stroke >= process.line_minimum.value - 1e-9
        assert minimum * min(report.widths.gap, report.between) >= process.gap_minimum.value - 1e-9


def test_boxes_are_measured_as_drawn(tmp_path: Path) -> None:
    """Letters of 700 that are boxes 200 wide, 300 from their neighbours less the bearing."""
    file = tmp_path / "boxes.ttf"
    file.write_bytes(boxes(dict.fromkeys("HIO1", (100, 0, 300, 700))))
    report = font_report(str(file))
    assert report.widths.stroke == pytest.approx(200 / 700, abs=0.002)
    assert report.upright == pytest.approx(200 / 700)
    assert (report.heights.small, report.heights.descender) == (None, None)
    text = told(report, processes(), 1000.0)
    assert "a reader at 1000 mm                 4.36 mm, preferred 5.82 mm" in text  # NUREG-0700's 15 and 20 arcmin
    assert "small letters" not in text


def test_a_font_without_capitals_and_figures_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "kanji.ttf"
    file.write_bytes(boxes({"国": (100, 0, 900, 800)}))
    with pytest.raises(ValueError, match="no capitals and no figures"):
        font_report(str(file))
