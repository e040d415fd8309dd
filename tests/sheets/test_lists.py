"""The list of parts tells where the footprints of a board behind the panel lie."""

from __future__ import annotations

import csv
import io

import pytest

from panelart import catalogue
from panelart.catalogue.library import file_of
from panelart.geometry import Contour, Point
from panelart.pipeline import lay_out
from panelart.sheets.inspection import inspection_csv
from panelart.sheets.lists import holes_csv, parts_csv
from panelart.sheets.purchasing import purchasing_csv
from panelart.sheets.sets import panels_csv, set_parts_csv
from panelart.spec.read import panel_from_text
from panelart.writers.states import lines_of, state_of

SPEC = """\
panelart: 1
panel: {{title: Patch, number: P-1, size: [100, 80], datum: {datum}, sheet: {{material: aluminium, thickness: 2}}}}
marking: {{process: digital-print, ink: {{name: white, colour: "#FFFFFF"}}}}
parts:
  - {{ref: P1, part: {part}, at: [30, 20], turn: {turn}}}
  - {{ref: S1, part: toggle-12, at: [45, 35]}}
"""

# part, offset of the axis from the origin of its footprint as the library draws it, x right and y up: jack 6.48 below
# its sleeve pad; control of 9 mm 7.5 to the right of its upper pin and 2.5 below; XLR socket 3.81 to the left
OFFSETS = [("jack-35-board", 0.0, -6.48), ("pot-9-board", 7.5, -2.5), ("xlr-board", -3.81, 0.0)]


def _origin(part: str, turn: float, datum: str = "lower-left") -> tuple[str, str]:
    panel = panel_from_text(SPEC.format(part=part, turn=turn, datum=datum), "patch.yaml")
    rows = {row["ref"]: row for row in csv.DictReader(io.StringIO(parts_csv(panel).decode()))}
    assert (rows["S1"]["board_x_mm"], rows["S1"]["board_y_mm"]) == ("", "")
    return rows["P1"]["board_x_mm"], rows["P1"]["board_y_mm"]


@pytest.mark.parametrize(("part", "x", "y"), OFFSETS)
def test_the_origin_of_the_footprint_turns_with_the_part(part: str, x: float, y: float) -> None:
    """A quarter turn counter-clockwise takes (x, y) to (-y, x); the axis of the hole stays where the part is put."""
    quarters = {0: (x, y), 90: (-y, x), 180: (-x, -y), 270: (y, -x)}
    for turn, (across, up) in quarters.items():
        told = tuple(float(each) for each in _origin(part, turn))
        assert told == pytest.approx((30 - across, 20 - up), abs=1e-4)


def test_it_is_told_from_the_datum() -> None:
    """The datum in the middle of 100 x 80 is 50 and 40 further on."""
    assert _origin("jack-35-board", 0) == ("30", "26.48")
    assert _origin("jack-35-board", 0, datum="centre") == ("30", "26.48")
    panel = panel_from_text(SPEC.format(part="jack-35-board", turn=0, datum="centre"), "patch.yaml")
    assert panel.parts[0].board_origin == Point(80.0, 66.48)


def _pads(*places: tuple[float, float]) -> Point:
    """The middle of pads, in the frame of the footprint: x right, y up."""
    return Point(sum(x for x, _ in places) / len(places), sum(y for _, y in places) / len(places))


# part, where its axis lies in the footprint: in the middle of pads that are about it on all sides, read in the public
# footprint library (SW_PUSH_6mm, SW_PUSH-12mm, encoder of 11 mm: its two lugs; LED_D5.0mm, Buzzer_12x9.5RM7.6, box
# header of 10 ways, slide potentiometer of 30 travel: its outer terminals and the middle of its body)
MIDDLES = [
    ("tact-6-board-13", _pads((0, 0), (6.5, 0), (0, -4.5), (6.5, -4.5))),
    ("tact-12-board", _pads((0, 0), (12.5, 0), (0, -5), (12.5, -5))),
    ("encoder-11-board", _pads((7.5, -8.1), (7.5, 3.1))),
    ("led-5-board", _pads((0, 0), (2.54, 0))),
    ("buzzer-board", _pads((0, 0), (7.6, 0))),
    ("box-header-5x2-board", _pads((0, 0), (2.54, 0), (0, -10.16), (2.54, -10.16))),
    ("fader-30-board", _pads((0, 0), (0, -3.5), (43.5, 0), (43.5, -3.5))),
]


@pytest.mark.parametrize(("name", "middle"), MIDDLES, ids=[name for name, _ in MIDDLES])
def test_the_axis_lies_in_the_middle_of_the_pads_about_it(name: str, middle: Point) -> None:
    board = catalogue.component(name).board
    assert board is not None
    assert tuple(figure.value for figure in board.offset) == pytest.approx(middle, abs=0.01)


EDGES = [name for name in catalogue.names() if name.endswith("-edge") and file_of(name) == "board.yaml"]


def _hole(name: str) -> Contour:
    return catalogue.component(name).openings[0].contour


@pytest.mark.parametrize("name", EDGES)
def test_a_connector_at_the_edge_of_a_board_is_on_a_board_at_right_angles(name: str) -> None:
    """Its axis is above the board by half of what stands on the board, at most by the whole height of its opening."""
    board = catalogue.component(name).board
    assert board is not None
    assert board.on_edge
    assert board.height is None
    assert board.offset[1].value <= _hole(name).bounds.height


def test_a_text_that_begins_like_a_formula_is_guarded_in_every_list_and_read_back() -> None:
    text = (
        SPEC.format(datum="lower-left", part="toggle-12", turn=0).replace("P-1", '"=P-1"').replace("Patch", '"-Patch"')
    )
    panel = panel_from_text(text, "patch.yaml")
    layout = lay_out(panel)
    lists = {
        "bom": purchasing_csv(panel),
        "parts": parts_csv(panel),
        "holes": holes_csv(layout),
        "inspection": inspection_csv(layout),
        "panels": panels_csv({"@1": panel}),
        "set": set_parts_csv({"@1": panel}),
    }
    for name, data in lists.items():
        cells = [cell for row in csv.reader(io.StringIO(data.decode())) for cell in row]
        assert "'=P-1" in cells, name
        assert not [cell for cell in cells if cell.startswith(("=", "@"))], name
        state = state_of(f"{name}.csv", data)
        assert state is not None
        assert state.number == "=P-1"
    assert {line.member for name in ("panels", "set") for line in lines_of("a.csv", lists[name])} == {"@1"}


def test_numbers_below_zero_stay_numbers() -> None:
    text = SPEC.format(datum="centre", part="toggle-12", turn=0).replace("[30, 20]", "[-30, 20]")
    rows = csv.DictReader(io.StringIO(holes_csv(lay_out(panel_from_text(text, "patch.yaml"))).decode()))
    assert {row["x_mm"] for row in rows} == {"-30", "45"}
