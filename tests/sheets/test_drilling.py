"""Drill templates: every hole at its place at 1:1 on some tile, tiles that join by their marks."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from panelart.geometry import Box, Point
from panelart.model.panel import Side
from panelart.pipeline import lay_out, read
from panelart.sheets.drilling import OVERLAP, PAPERS, drill_template, tiles
from panelart.writers import pdf

ROOT = Path(__file__).parents[2]
SMALL = lay_out(read(ROOT / "demo" / "bench-supply.yaml"))
LARGE = lay_out(read(ROOT / "demo" / "mixing-desk.yaml"))


def labelled(page, pattern: str):
    return [item for layer in page.layers for item in layer.items if re.fullmatch(pattern, item.label)]


def test_a_panel_that_fits_lies_on_one_sheet() -> None:
    assert len(drill_template(SMALL)) == 1
    assert len(drill_template(LARGE, "Letter")) == 4


@pytest.mark.parametrize("paper", list(PAPERS))
@pytest.mark.parametrize("size", [(50, 50), (190, 260), (300, 200), (482.6, 132), (900, 600)])
def test_tiles_cover_all_and_overlap(paper, size) -> None:
    area = Box(-5, -5, *size)
    plan = tiles(area, paper)
    windows = [plan.window_at(column, row) for row in range(plan.up) for column in range(plan.across)]
    for x in range(0, 101, 5):
        for y in range(0, 101, 5):
            point = Point(area.left + x / 100 * area.width, area.bottom + y / 100 * area.height)
            assert any(window.contains(point) for window in windows)
    for row in range(plan.up):
        for column in range(plan.across - 1):
            one, other = plan.window_at(column, row), plan.window_at(column + 1, row)
            assert one.right - other.left == pytest.approx(OVERLAP)
    assert plan.paper.contains(plan.window)


@pytest.mark.few(1)
@pytest.mark.parametrize("side", list(Side))
def test_every_mark_of_a_seam_is_at_one_place_of_the_panel(side) -> None:
    """A match mark stands on two tiles; laid over each other there, the tiles' openings agree."""
    pages = drill_template(LARGE, "Letter", side)
    plan = tiles(LARGE.cut_outline.bounds.grown(5.0), "Letter")
    seen: dict[str, list[Point]] = {}
    for number, page in enumerate(pages):
        window = plan.window_at(number % plan.across, number // plan.across)
        for item in labelled(page, r"[vh]\d+\.\d+\.\d"):
            assert item.words is not None
            at = item.words.at
            seen.setdefault(item.label, []).append(
                Point(at.x - plan.window.left + window.left, at.y - plan.window.bottom + window.bottom)
            )
    assert len(seen) == 8
    for places in seen.values():
        assert len(places) == 2
        assert places[0].distance(places[1]) < 1e-9


def test_the_paper_is_at_scale_for_another_reader() -> None:
    """Read by pikepdf: the bar is 100 mm, and the crosses of two holes are as far apart as the holes."""
    pikepdf = pytest.importorskip("pikepdf")
    from io import BytesIO

    data = pdf(drill_template(SMALL), live=True)
    assert data == pdf(drill_template(SMALL), live=True)
    with pikepdf.open(BytesIO(data)) as file:
        page = file.pages[0]
        assert [float(side) for side in page.MediaBox] == pytest.approx(
            [0, 0, 297 / 25.4 * 72, 210 / 25.4 * 72], abs=0.01
        )
        scale, lines, here = None, [], None
        for operands, operator in pikepdf.parse_content_stream(page):
            name, values = str(operator), [float(v) for v in operands] if str(operator) in "cm m l" else []
            if name == "cm" and scale is None:
                scale = values[0]
            elif name == "m":
                here = values
            elif name == "l" and here is not None:
                lines.append((*here, *values))
                here = values
    assert scale == pytest.approx(72 / 25.4, abs=1e-9)
    assert any(abs(x1 - x0 - 100) < 1e-6 and y0 == y1 for x0, y0, x1, y1 in lines)
    level = sorted(((x0 + x1) / 2, y0) for x0, y0, x1, y1 in lines if y0 == y1 and 8 <= x1 - x0 < 10)
    corners = [(x - level[0][0], y - level[0][1]) for x, y in level]
    for expected in ((246.0, 0.0), (0.0, 96.0), (246.0, 96.0)):  # the screws at 7, 7 and 253, 103
        assert any(corner == pytest.approx(expected, abs=1e-3) for corner in corners)


def test_seen_from_the_rear_left_and_right_change_places() -> None:
    front, rear = (drill_template(SMALL, side=side)[0] for side in (Side.FRONT, Side.REAR))
    (one,), (other,) = labelled(front, r"DS1 Ø .*"), labelled(rear, r"DS1 Ø .*")
    assert one.words is not None
    assert other.words is not None
    assert one.words.at.x < 148.5 < other.words.at.x


def test_an_unknown_paper_is_refused() -> None:
    with pytest.raises(KeyError):
        drill_template(SMALL, "A5")
