"""The test strip holds what it says, and its limits go into a shop file that is otherwise left alone."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from shapely import Polygon, unary_union

from panelart.diagnostics import SpecError
from panelart.model.panel import Ink
from panelart.press.strip import HEIGHTS, SAMPLE, WIDTHS, ink_strip
from panelart.processes.registry import processes
from panelart.spec.read import read_panel
from panelart.spec.shop_edit import with_limits
from panelart.writers import pdf
from tests.commands import run, run_within

ROOT = Path(__file__).parents[2]
BLACK = Ink(name="black", colour="#101214")


@pytest.fixture
def strip():
    return ink_strip(processes()["digital-print"], BLACK)


def test_lines_and_letters_are_as_labelled(strip) -> None:
    items = strip.layers[0].items
    for width in WIDTHS:
        drawn = [item for item in items if item.label == f"line of {width:g} mm" and item.stroke is not None]
        assert len(drawn) >= 9
        assert {item.width for item in drawn} == {width}
    samples = [item for item in items if item.label == SAMPLE]
    assert [item.words.setting.cap_height for item in samples if item.words] == list(HEIGHTS)


def test_gaps_are_as_labelled_for_another_measurer(strip) -> None:
    """By shapely: blocks of one sample lie as far apart as its label says."""
    blocks = [
        Polygon([curve.start for curve in item.shape[0].curves])
        for item in strip.layers[0].items
        if item.fill is not None and item.words is None
    ]
    assert len(blocks) == 6 * len(WIDTHS)
    for number, width in enumerate(WIDTHS):
        one = blocks[6 * number : 6 * number + 6]
        assert one[0].distance(one[2]) == pytest.approx(width)
        assert one[1].distance(one[3]) == pytest.approx(width)
    area = unary_union(blocks).area
    assert area == pytest.approx(sum(block.area for block in blocks))


def test_the_bar_is_100_mm_on_paper(strip) -> None:
    """Rendered by pdfium at 300 dpi: the widest unbroken level line of ink."""
    pdfium = pytest.importorskip("pypdfium2")
    assert pdf([strip]) == pdf([strip])
    page = pdfium.PdfDocument(BytesIO(pdf([strip])))[0]
    ink = np.array(page.render(scale=300 / 72).to_pil().convert("L")) < 100
    longest = 0
    for row in ink:
        edges = np.flatnonzero(np.diff(np.concatenate(([0], row.astype(int), [0]))))
        runs = edges[1::2] - edges[::2]
        longest = max(longest, int(runs.max(initial=0)))
    assert longest / 300 * 25.4 == pytest.approx(100.25, abs=0.2)  # to the outer edges of the ticks


HALDON = """\
# ours, kept by R. Norrick
panelart-shop: 1
shop: Haldon Marking  # bed 2
limits:
  screen-print:
    line_minimum: {value: 0.3, why: old strip}  # to be measured again
emulsion: down
"""


def test_a_file_is_begun() -> None:
    text = with_limits("", Path("haldon.yaml"), "digital-print", {"line_minimum": 0.18}, "strip: bed 2")
    assert 'line_minimum: {value: 0.18, why: "strip: bed 2"}' in text


@pytest.mark.parametrize(
    ("process", "limits"),
    [
        ("screen-print", {"line_minimum": 0.28}),
        ("screen-print", {"gap_minimum": 0.3, "line_minimum": 0.28}),
        ("digital-print", {"cap_height_minimum": 1.5}),
    ],
)
def test_the_rest_of_a_file_stays(process, limits) -> None:
    after = with_limits(HALDON, Path("haldon.yaml"), process, limits, "strip of 25 November")
    for kept in (
        "# ours, kept by R. Norrick",
        "shop: Haldon Marking  # bed 2",
        "emulsion: down",
        "# to be measured again",
    ):
        assert kept in after
    for name, value in limits.items():
        assert f"{name}: {{value: {value:g}, why: strip of 25 November}}" in after
    again = with_limits(after, Path("haldon.yaml"), process, limits, "strip of 25 November")
    assert again == after


@pytest.mark.parametrize("text", ["a: 1\n", "- 1\n", "panelart-shop: 1\nshop: X\nlimits: {laser: {}}\n"])
def test_what_is_no_shop_file_is_left_alone(text) -> None:
    with pytest.raises(SpecError):
        with_limits(text, Path("x.yaml"), "digital-print", {"line_minimum": 0.18}, "strip")


def test_measured_limits_hold_in_a_panel(tmp_path: Path) -> None:
    done = run(
        "test-strip",
        "digital-print",
        "-o",
        "strip.pdf",
        "--limits",
        "line_minimum=0.17",
        "--shop",
        "ours.yaml",
        cwd=tmp_path,
    )
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "strip.pdf").is_file()
    demo = (ROOT / "demo" / "bench-supply.yaml").read_text(encoding="utf-8")
    spec = tmp_path / "bench.yaml"
    spec.write_text(
        demo.replace("  process: digital-print\n", "  process: digital-print\n  shop: ours.yaml\n"), "utf-8"
    )
    assert read_panel(spec).marking.process.line_minimum.value == 0.17


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("digital-prnt", "-o", "s.pdf"), "Did you mean 'digital-print'"),
        (("digital-print",), "--out"),
        (("digital-print", "-o", "s.doc"), ".pdf"),
        (("digital-print", "--limits", "line_minimum=0.2"), "--shop"),
        (("digital-print", "--limits", "line=0.2", "--shop", "x.yaml"), "line_minimum"),
        (("digital-print", "--limits", "line_minimum=nan", "--shop", "x.yaml"), "line_minimum"),
        (("digital-print", "-o", "s.pdf", "--colour", "red"), "#101214"),
        (("digital-print", "-o", "s.pdf", "--ink", "All"), "All"),
    ],
)
def test_what_cannot_be_used_is_2(tmp_path: Path, words, says) -> None:
    done = run_within("test-strip", *words, cwd=tmp_path)
    assert done.returncode == 2
    assert says in " ".join(done.stderr.replace("│", " ").split())
    assert not list(tmp_path.iterdir())
