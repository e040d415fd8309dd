"""Every word on paper can be read at a machine: at least 2.5 mm, on the page, and no word over another.

2.5 mm is the height h of capitals of ISO 3098-1 (from memory: 1.8 is the smallest of its series, 2.5 was in the first
edition of 1974). Letters are measured by pdfium, outlines by svgpathtools; neither wrote them.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
import shapely
import svgpathtools
from lxml import etree

from panelart.geometry import Box
from panelart.lettering.documents import LOWEST, PLAIN, STRONG
from panelart.lettering.outline import bounds
from panelart.pipeline import build, panel_files, read
from panelart.press.bed_marks import number_mark
from tests.commands import run
from tests.sheets.paper_words import Letter, letters, pages

ROOT = Path(__file__).parents[2]
DEMOS = [
    demo
    for demo in sorted((ROOT / "demo").glob("*.yaml"))
    if "panelart-catalogue" not in demo.read_text(encoding="utf-8")
]
CAPITALS = frozenset("ABDEFHIKLMNPRTVWXYZ14")
"""Capitals and figures that end flat at the top and on the base line."""

FACES = ("PanelartPlain-NarrowLight", "PanelartPlain-NarrowBold")
"""What papers are set in. The panel's own letters, in a picture of it at a reduced scale, are in its own faces."""


def of_papers(data: bytes) -> list[Letter]:
    return [letter for letter in letters(data) if letter.face.endswith(FACES)]


def assert_can_be_read(data: bytes) -> None:
    """Heights, what lies off the page, and letters that lie over each other: by more than a quarter of one."""
    found = of_papers(data)
    measured = [letter.height for letter in found if letter.text in CAPITALS]
    assert len(measured) > 10
    assert min(measured) >= 2.5
    sizes = pages(data)
    whole = [Box(2.0, 2.0, width - 2.0, height - 2.0) for width, height in sizes]
    assert [letter for letter in found if not whole[letter.page - 1].contains(letter.box)] == []
    assert [pair for number in range(1, len(sizes) + 1) for pair in _overlapping(found, number)] == []


def _overlapping(found: list[Letter], page: int) -> list[tuple[Letter, Letter]]:
    on_page = [letter for letter in found if letter.page == page]
    boxes = [shapely.box(one.box.left, one.box.bottom, one.box.right, one.box.top) for one in on_page]
    pairs = shapely.STRtree(boxes).query(boxes, predicate="intersects").T
    return [
        (on_page[one], on_page[other])
        for one, other in pairs
        if one < other
        and boxes[one].intersection(boxes[other]).area > 0.25 * min(boxes[one].area, boxes[other].area)
        and min(boxes[one].area, boxes[other].area) > 0.0
    ]


@cache
def files_of(demo: Path):
    return panel_files(build(read(demo)))


@pytest.mark.few(1)
@pytest.mark.parametrize("demo", DEMOS, ids=lambda demo: demo.stem)
@pytest.mark.parametrize("paper", ["build-sheet.pdf", "proof.pdf"])
def test_papers_of_demos(demo: Path, paper: str) -> None:
    assert_can_be_read(files_of(demo)[paper])


PAPERS = {
    "part": ("parts", "rotary-m10", "-o", "paper.pdf"),
    "catalogue": ("parts", "--all", "-o", "paper.pdf"),
    "measured": ("parts", "--measure", ROOT / "demo" / "valve-stand.yaml", "-o", "paper.pdf"),
}


@pytest.mark.parametrize("paper", ["part", "measured", pytest.param("catalogue", marks=pytest.mark.full)])
def test_papers_of_parts(paper: str, tmp_path: Path) -> None:
    run(*PAPERS[paper], cwd=tmp_path)
    assert_can_be_read((tmp_path / "paper.pdf").read_bytes())


def test_questions_about_a_list(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_text("Ref,Part,Legend\nS1,toggle switch,Power\nRV1,potentiometer,Gain\n")
    run("draft", "list.csv", "-o", "spec.yaml", cwd=tmp_path)
    assert_can_be_read((tmp_path / "spec-answers.pdf").read_bytes())


@pytest.mark.full
def test_drill_templates(tmp_path: Path) -> None:
    """Words that run on to the next tile are covered beyond the window; they are on both tiles where these overlap."""
    run("drill-template", ROOT / "demo" / "router-rear.yaml", "-o", "paper.pdf", cwd=tmp_path)
    found = of_papers((tmp_path / "paper.pdf").read_bytes())
    assert min(letter.height for letter in found if letter.text in CAPITALS) >= 2.5


def outlined(svg: bytes, layer: str) -> list[tuple[str, float]]:
    """The words of a layer that are outlines: their label, and the height of the highest of their letters, mm."""
    root = etree.fromstring(svg)
    scale = float(root.get("width").removesuffix("mm")) / float(root.get("viewBox").split()[2])
    (group,) = (one for one in root.iter("{*}g") if one.get("id") == layer)
    found = []
    for path in group.iter("{*}path"):
        label = path.get("aria-label") or ""
        if any(letter.isupper() or letter.isdigit() for letter in label) and path.get("stroke") is None:
            highs = [piece.bbox() for piece in svgpathtools.parse_path(path.get("d")).continuous_subpaths()]
            found.append((label, scale * max(top - bottom for _, _, bottom, top in highs)))
    return found


@pytest.mark.parametrize(
    ("command", "layer"),
    [
        (("compare", "{demo}", "other.yaml", "-o", "paper.svg"), "notes"),
        (("check", "{demo}", "--explain", "RV1", "-o", "paper.svg"), "places"),
        pytest.param(("sightlines", "{demo}", "--height", "200", "-o", "paper.svg"), "notes", marks=pytest.mark.full),
        pytest.param(("legibility", "{demo}", "-o", "paper.svg"), "notes", marks=pytest.mark.full),
    ],
    ids=lambda value: value if isinstance(value, str) else value[0],
)
def test_pictures_with_words(command: tuple[str, ...], layer: str, tmp_path: Path) -> None:
    demo = ROOT / "demo" / "valve-stand.yaml"
    (tmp_path / "other.yaml").write_text(demo.read_text(encoding="utf-8").replace("revision: A", "revision: B"))
    run(*(demo if word == "{demo}" else word for word in command), cwd=tmp_path)
    found = outlined((tmp_path / "paper.svg").read_bytes(), layer)
    assert found
    assert min(height for _, height in found) >= 2.5


@pytest.mark.parametrize("gap", [0.0, 3.0, 4.0, 4.5, 5.0, 15.0])
def test_numbers_on_jigs_are_there_whatever_the_gap(gap: float) -> None:
    (mark,) = number_mark("18", Box(0.0, 0.0, 60.0, 40.0), gap)
    assert bounds(mark.shape).height + mark.width >= LOWEST - 1e-9


def test_papers_are_set_in_the_faces_that_are_looked_for() -> None:
    """Else nothing would be measured: the names by which a PDF calls its fonts, from the font files."""
    assert {cut.title.replace(" ", "") for cut in (PLAIN, STRONG)} == {face.partition("-")[2] for face in FACES}
