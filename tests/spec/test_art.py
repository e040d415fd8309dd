"""What the designer draws, and drawings from files: read right, or refused with the place."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
import svgpathtools

from panelart.diagnostics import SpecError
from panelart.drawing.artwork import artwork
from panelart.lettering.outline import bounds
from panelart.pipeline import lay_out
from panelart.spec.read import panel_from_text
from panelart.spec.svg_art import read_svg
from panelart.writers import svg
from tests.spec.samples import GOOD

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink">\n'

PATHS = [
    "M0 0 L10 0 L10 5 Z",
    "m1,1 h8 v4 h-8 z m2 1 l0 2 2 0 0 -2z",
    "M0,0C1,4 5,4 6,0S11,-4 12,0Z",
    "M0 0Q3 6 6 0T12 0L12 -5L0-5Z",
    "M0 0A5 3 20 0 1 8 2A5 3 20 1 0 0 0Z",
    "M10-10a5,5 0 1,1 .01,0z",
    "M.5.5L1e1 2L3 9",
]


@pytest.mark.parametrize("d", PATHS)
def test_path_data_against_another_reader(d: str) -> None:
    """Bounds and area by svgpathtools, y turned over."""
    shape, problems = read_svg(f'{HEAD}<path d="{d}"/></svg>'.encode(), "a.svg")
    assert not problems
    path = svgpathtools.parse_path(d)
    left, right, low, high = path.bbox()
    box = bounds(shape)
    assert (box.left, box.right, -box.top, -box.bottom) == pytest.approx((left, right, low, high), abs=2e-3)


def test_transforms_of_groups_and_paths_add_up() -> None:
    text = '<g transform="translate(10 0) scale(2)"><path transform="rotate(90)" d="M0 0H4V1H0Z"/></g></svg>'
    shape, problems = read_svg((HEAD + text).encode(), "a.svg")
    assert not problems
    box = bounds(shape)
    assert (box.left, box.right, box.bottom, box.top) == pytest.approx((8, 10, -8, 0))


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("<script>1</script>", 2, "<script>"),
        ("<path d='M0 0H1V1Z' onclick='x()'/>", 2, "onclick"),
        ("\n<image xlink:href='a.png'/>", 3, "<image>"),
        ("<use href='#a'/>", 2, "<use>"),
        ("<a href='http://example.com'><path d='M0 0H1V1Z'/></a>", 2, "<a>"),
        pytest.param(
            "<path d='M0 0H1V1Z' style='fill:url(http://example.com/x)'/>",
            2,
            "contains a reference",
            id="<path d='M0 0H1V1Z' style='fill:url(http://example.com/x)'/>-2-refers to something else",
        ),
        pytest.param(
            "<path d='M0 0H1V1Z' xlink:href='b.svg'/>",
            2,
            "contains a reference",
            id="<path d='M0 0H1V1Z' xlink:href='b.svg'/>-2-refers to something else",
        ),
        ("<text>a</text>", 2, "<text>"),
        ("<rect width='1' height='1'/>", 2, "<rect>"),
        ("<style>path {fill: red}</style>", 2, "<style>"),
        ("<defs><style>a</style></defs>", 2, "<style>"),
        ("<foreignObject/>", 2, "<foreignObject>"),
        ("<path d='M0 0H1V1Z' stroke='black'/>", 2, "stroked"),
        ("<path d='M0 0H1V1Z' fill-rule='evenodd'/>", 2, "even-odd"),
        ("<path d='M0 0 L nonsense'/>", 2, "path data"),
        pytest.param("<path d='M0 0 L 1'/>", 2, "Incomplete path data", id="<path d='M0 0 L 1'/>-2-breaks off"),
        ("<path d='M0 0H1V1Z' transform='skewX(3)'/>", 2, "transform"),
        ("<title>nothing</title>", 1, "no filled path"),
        pytest.param("<path d='M0 0H1V1Z'", 2, "not valid XML", id="<path d='M0 0H1V1Z'-2-no XML"),
    ],
)
def test_what_is_refused(text: str, line: int, said: str) -> None:
    shape, problems = read_svg(f"{HEAD}{text}</svg>".encode(), "a.svg")
    assert shape == ()
    assert (problems[0].where.file, problems[0].where.line) == ("a.svg", line)
    assert said in problems[0].message


def test_entities_are_refused_and_not_expanded() -> None:
    bomb = '<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;">]>' + HEAD + "<title>&b;</title></svg>"
    shape, problems = read_svg(bomb.encode(), "a.svg")
    assert shape == ()
    assert "entities" in problems[0].message


def test_a_drawing_stands_at_its_height_and_place_in_the_artwork(tmp_path: Path) -> None:
    (tmp_path / "star.svg").write_text(f'{HEAD}<path d="M0 0H40V10H0Z"/></svg>')
    text = GOOD + "art:\n  - {svg: star.svg, at: [100, 90], height: 5}\n"
    panel = panel_from_text(text, folder=tmp_path)
    layout = lay_out(panel)
    (mark,) = [mark for mark in layout.marks if mark.kind == "art"]
    box = bounds(mark.shape)
    assert (box.centre.x, box.centre.y, box.height, box.width) == pytest.approx((100, 90, 5, 20))
    assert mark.filled
    assert b"art of drawing 1" in svg(artwork(layout))


def test_signs_boxes_and_rules() -> None:
    text = GOOD + (
        "art:\n  - {rule: [[10, 90], [60, 90], [60, 95]], width: 0.5}\n"
        "  - {box: [200, 80, 20, 10], corner: 2}\n  - {box: [225, 80, 20, 10], filled: true}\n"
        "  - {mark: triangle, at: {from: J1, by: [-9, 0]}, size: 2, turn: -90}\n  - {mark: dot, at: [20, 20]}\n"
    )
    rule, box, plate, sign, dot = panel_from_text(text).art
    assert (rule.width, box.width is None, plate.width is None, dot.width) == (0.5, False, True, None)
    assert bounds(sign.shape).centre.x == pytest.approx(151, abs=0.2)
    tip = max((curve.start for curve in sign.shape[0].curves), key=lambda point: point.x)
    assert (tip.x, tip.y) == pytest.approx((152, 30))
    (round_,) = dot.shape[0].curves
    assert math.isclose(round_.radius, 1.0)


SLIPS = [
    ("lines:\n  - {from: S1, to: ¦S1}\n", "S1 to itself", "another part"),
    ("lines:\n  - {from: S1, to: ¦J9}\n", "Unknown ref 'J9'", "J1"),
    ("lines:\n  - {from: S1, to: J1, ink: ¦red}\n", "Unknown ink 'red'", "white"),
    ("lines:\n  - {from: S1, to: J1, leave: ¦top}\n", "Found 'top'", "above"),
    ("art:\n  - {rule: ¦[[1, 1], [1, 1]]}\n", "no length", "two or more different points"),
    (
        "art:\n  - {svg: ¦none.svg, at: [1, 1], height: 5}\n",
        "Cannot read the drawing 'none.svg'",
        "relative to the spec",
    ),
    (
        "art:\n  - {svg: ¦/none.svg, at: [1, 1], height: 5}\n",
        "File name '/none.svg' is not relative",
        "relative to the spec",
    ),
    ("art:\n  - {mark: dot, at: {from: ¦J8, by: [1, 1]}}\n", "Unknown ref 'J8'", "J1"),
    ("art:\n  - {mark: ¦star, at: [1, 1]}\n", "Found 'star'", "triangle"),
]


@pytest.mark.parametrize(("text", "message", "hint"), SLIPS, ids=[slip[1] for slip in SLIPS])
def test_slips(text: str, message: str, hint: str) -> None:
    before = GOOD + text.split("¦", maxsplit=1)[0]
    place = (before.count("\n") + 1, len(before) - before.rfind("\n"))
    with pytest.raises(SpecError) as caught:
        panel_from_text(GOOD + text.replace("¦", ""))
    (problem,) = caught.value.problems
    assert (problem.where.line, problem.where.column) == place
    assert message in problem.message
    assert hint in problem.hint
