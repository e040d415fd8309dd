"""The test strip holds what it says, and its limits go into a shop file that is otherwise left alone."""

from __future__ import annotations

from io import BytesIO, StringIO
from pathlib import Path

import ezdxf
import numpy as np
import pytest
from ezdxf.math import BoundingBox
from ezdxf.path import make_path
from shapely import LineString, Polygon, unary_union

from panelart.diagnostics import SpecError
from panelart.lettering.outline import bounds
from panelart.model.panel import Ink
from panelart.model.printing import CUTTERS
from panelart.press.beam_strip import GAPS, SPACINGS, beam_strip, fields, gaps, lettering
from panelart.press.cutter_strip import WALLS, cutter_strip, rows
from panelart.press.strip import HEIGHTS, SAMPLE, WIDTHS, ink_strip
from panelart.processes.registry import processes
from panelart.spec.read import read_panel
from panelart.spec.shop_edit import with_limits
from panelart.writers import dxf, pdf
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


@pytest.fixture
def cut() -> ezdxf.document.Drawing:
    return ezdxf.read(StringIO(dxf(cutter_strip(processes()["engraving"]), in_order=True).decode("cp1252")))


def test_the_strip_of_engraving_has_a_layer_for_each_cutter(cut) -> None:
    """Read by ezdxf: layers as engraving files of panels have them, and nothing to be cut that is a closed outline."""
    on = {one.dxf.layer for one in cut.modelspace()}
    assert on == {*(f"engrave-{cutter:g}" for cutter in CUTTERS), "edge"}
    edge = cut.modelspace().query('*[layer=="edge"]')
    assert [one.closed for one in edge] == [True]
    around = BoundingBox(edge[0].vertices())
    assert all(around.inside(point) for one in cut.modelspace() for point in make_path(one).control_vertices())


@pytest.mark.few(3)
@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row.cutter:g}")
def test_walls_and_capitals_of_a_cutter_are_as_named(cut, row) -> None:
    """Its own width taken off or added: measured on the paths as ezdxf reads them."""
    paths = [make_path(one) for one in cut.modelspace().query(f'*[layer=="engrave-{row.cutter:g}"]')]
    ends = [(path.start, path.end) for path in paths]
    upright = sorted(a.x for a, b in ends if abs(a.x - b.x) < 1e-6 and abs(a.y - b.y) == pytest.approx(7.0, abs=1e-6))
    walls = [right - left - row.cutter for left, right in zip(upright[::2], upright[1::2], strict=True)]
    assert walls == pytest.approx(WALLS, abs=1e-6)
    assert [(a.x, b.x) for a, b in ends if abs(a.x - b.x) == pytest.approx(20.0, abs=1e-6)]
    for (height, shape), weight in zip(row.samples, (6, 8, 10), strict=True):
        box = bounds(shape[:1])  # the stem of the R
        assert box.height + row.cutter == pytest.approx(height) == pytest.approx(weight * row.cutter)
        assert any(
            path.start.isclose((box.left, box.bottom), abs_tol=1e-4)
            or path.end.isclose((box.left, box.bottom), abs_tol=1e-4)
            for path in paths
        )


def test_the_strip_of_engraving_has_no_ink(tmp_path: Path) -> None:
    done = run("test-strip", "engraving", "--ink", "black", "-o", "s.dxf", cwd=tmp_path)
    assert done.returncode == 2
    assert "has no ink" in done.stderr
    assert run("test-strip", "digital-print", "-o", "s.dxf", cwd=tmp_path).returncode == 2
    assert not list(tmp_path.iterdir())
    assert run("test-strip", "engraving", "-o", "s.dxf", cwd=tmp_path).returncode == 0


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


def _levels(loops) -> list[float]:
    """The heights of the level lines of a filling, from below, in mm."""
    lines = [curve for loop in loops if not loop.closed for curve in loop.curves]
    return sorted({round(line.start.y, 6) for line in lines if abs(line.start.y - line.end.y) < 1e-9})


def test_fields_of_the_beam_are_filled_at_their_distance() -> None:
    """The pitch of the lines, from their coordinates alone."""
    for sample, step in zip(fields(0.05), SPACINGS, strict=True):
        assert np.diff(_levels(sample.lines)) == pytest.approx(step, abs=1e-6)


def test_gaps_of_the_beam_are_as_bare_as_labelled() -> None:
    """By shapely: lines widened by the beam leave the gap between the two halves."""
    beam = 0.05
    for sample, gap in zip(gaps(beam, 0.05), GAPS, strict=True):
        lines = [LineString([curve.start, curve.end]) for loop in sample.lines for curve in loop.curves]
        burnt = unary_union([line.buffer(beam / 2) for line in lines if line.length > 0.0])
        one, other = burnt.geoms
        assert one.distance(other) == pytest.approx(gap, abs=1e-3)


def test_letters_of_the_beam_are_as_high_as_labelled() -> None:
    """The middle of the beam runs half its width within the letters; round ones reach past the flat ones."""
    for sample, height in zip(lettering(0.05, 0.05), HEIGHTS, strict=True):
        assert bounds(sample.lines).height + 0.05 == pytest.approx(height, rel=0.08)


def test_the_beam_has_its_layer_in_dxf_and_nothing_leaves_the_strip(tmp_path: Path) -> None:
    done = run("test-strip", "laser-marking", "-o", "strip.dxf", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    entities = ezdxf.readfile(tmp_path / "strip.dxf").modelspace()
    assert {one.dxf.layer for one in entities} == {"laser", "edge"}
    drawn, trim = bounds([loop for item in beam_strip(processes()["laser-marking"]).layers[0].items
                          for loop in item.shape]), beam_strip(processes()["laser-marking"]).trim  # fmt: skip
    assert trim.grown(-2.0).contains(drawn)
