"""A panel held against a list, and what is bought for it. The workbook is read back by openpyxl."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import openpyxl
import pytest

from panelart.lists.compare import Kind, differences, set_differences
from panelart.lists.matching import Matcher
from panelart.lists.read import read_list
from panelart.messages import component_lists as said
from panelart.sheets.purchasing import bought, purchasing_csv, purchasing_xlsx
from panelart.spec.read import panel_at_hand, panel_from_text

SPEC = """\
panelart: 1
panel: {title: Trial, size: [160, 100], sheet: {material: aluminium, thickness: 2}, flanges: {bottom: {length: 20, holes: [{ref: X1, at: [80, 10], part: bnc}]}}}
marking: {process: screen-print, inks: [{name: black, colour: "#101010"}, {name: red, colour: "#AA1010"}]}
making: {quantity: 5}
parts:
  - {ref: S1, part: toggle-12, at: [20, 50], legend: "=1+1"}
  - {ref: RV1, part: pot-m10, at: [60, 50], knob: knob-21}
  - {ref: RV2, part: pot-m10, at: [100, 50], knob: knob-21}
  - {ref: J1, part: dsub-9, at: [130, 80]}
  - {ref: H1, part: screw-m4, at: [7, 93]}
"""  # noqa: E501  # one line a part
PANEL = panel_from_text(SPEC, "trial.yaml")
MATCHER = Matcher()


def against(rows: str, side: str = "") -> list[tuple[Kind, str]]:
    listed = read_list(f"ref,part,side\n{rows}".encode(), "parts.csv", MATCHER)
    return [(one.kind, one.ref) for one in differences(PANEL, listed, side)]


ALL = "S1,toggle-12,\nRV1-RV2,pot-m10,\nJ1,dsub-9,\nH1,screw-m4,\nX1,bnc,\n"


@pytest.mark.parametrize(
    ("rows", "found"),
    [
        (ALL, []),
        (ALL.replace("S1,toggle-12,\n", ""), [(Kind.EXTRA, "S1")]),
        (f"{ALL}S2,toggle-12,\n", [(Kind.MISSING, "S2")]),
        (ALL.replace("S1,toggle-12", "S1,toggle-mini"), [(Kind.DIFFERENT, "S1")]),
        (ALL.replace("S1,toggle-12", "S1,some switch"), [(Kind.UNKNOWN, "S1")]),
        (f"{ALL}J9,bnc,rear\n", []),
        (ALL.replace("RV1-RV2", "RV1-RV3"), [(Kind.MISSING, "RV3")]),
    ],
)
def test_differences_both_ways(rows: str, found: list[tuple[Kind, str]]) -> None:
    assert against(rows) == found


GROUPED = panel_from_text(
    SPEC + "frames:\n  - {around: [RV1, RV2], title: Levels}\n  - {around: [S1, J1], title: Anything}\n", "trial.yaml"
)


@pytest.mark.parametrize(
    ("rows", "found"),
    [
        ("S1,toggle-12,Supply\nRV1-RV2,pot-m10,LEVELS\nJ1,dsub-9,Supply\n", []),
        ("S1,toggle-12,levels\nRV1-RV2,pot-m10,levels\nJ1,dsub-9,\n", [(Kind.GROUP, "S1")]),
        ("S1,toggle-12,\nRV1,pot-m10,Levels\nRV2,pot-m10,Bias\nJ1,dsub-9,\n", [(Kind.GROUP, "RV2")]),
        (
            "S1,toggle-12,\nRV1,pot-m10,Levels\nRV2,pot-m10,\nJ1,dsub-9,Levels\n",
            [(Kind.GROUP, "J1"), (Kind.GROUP, "RV2")],
        ),
        ("S1,toggle-12,\nRV1-RV2,pot-m10,\nJ1,dsub-9,\n", []),
    ],
)  # fmt: skip
def test_groups_are_compared_where_a_frame_has_their_name(rows: str, found: list[tuple[Kind, str]]) -> None:
    listed = read_list(f"ref,part,group\n{rows}X1,bnc,\n".encode(), "parts.csv", MATCHER)
    assert [(one.kind, one.ref) for one in differences(GROUPED, listed)] == found


SET = """\
panelart: 1
panels:
  front: {panel: {title: One}, parts: [{ref: S1, part: toggle-12, at: [40, 30], legend: Power}]}
  rear: {panel: {title: Two}, parts: [{ref: J1, part: bnc, at: [40, 30]}]}
panel: {size: [80, 60], sheet: {material: aluminium, thickness: 2}}
marking: {process: digital-print, ink: {name: white, colour: "#F1F1EC"}, lettering: {case: upper}}
"""


@pytest.mark.parametrize(
    ("names", "rows", "found"),
    [
        (("front", "rear"), "S1,toggle-12,front,power\nJ1,bnc,rear,\n", []),
        (("vorn", "hinten"), "S1,toggle-12,front,Power\nJ1,bnc,rear,\n", []),
        (("left", "right"), "S1,toggle-12,,\nJ1,bnc,,\n", []),
        (("front", "rear"), "S1,toggle-12,front,\nJ1,bnc,front,\n", [(Kind.SIDE, "J1")]),
        (("front", "rear"), "S1,toggle-12,front,\nJ1,bnc,rear,\nJ2,bnc,rear,\n", [(Kind.MISSING, "J2")]),
        (("front", "rear"), "S1,toggle-12,front,Mains\n", [(Kind.LEGEND, "S1"), (Kind.EXTRA, "J1")]),
    ],
)
def test_panels_of_a_set_are_compared_each_with_its_side(
    names: tuple[str, str], rows: str, found: list[tuple[Kind, str]]
) -> None:
    text = SET.replace("  front:", f"  {names[0]}:").replace("  rear:", f"  {names[1]}:")
    panels = {name: panel_at_hand(text, Path(), member=name) for name in names}
    listed = read_list(f"ref,part,side,legend\n{rows}".encode(), "parts.csv", MATCHER)
    assert [(each.kind, each.ref) for each in set_differences(panels, listed)] == found


@pytest.mark.parametrize(
    ("listed", "printed"), [("Ύψος ρολογιού", "ΥΨΟΣ ΡΟΛΟΓΙΟΥ"), ("ışık çıkış", "IŞIK ÇIKIŞ"), ("Größe", "GRÖSSE")]
)
def test_capitals_that_are_written_otherwise_are_the_same_legend(listed: str, printed: str) -> None:
    """Capitals by Unicode's SpecialCasing and CLDR: Greek loses its tonos, Turkish has two i, German has SS."""
    panel = panel_at_hand(SET.replace("Power", printed), Path(), member="front")
    rows = read_list(f"ref,part,legend\nS1,toggle-12,{listed}\n".encode(), "parts.csv", MATCHER)
    assert differences(panel, rows) == ()


def test_the_other_side_on_request() -> None:
    assert (Kind.MISSING, "J9") in against(f"{ALL}J9,bnc,rear\n", "rear")


def test_a_difference_points_at_the_line_that_must_change() -> None:
    listed = read_list(b"ref,part\nS1,toggle-mini\n", "parts.csv", MATCHER)
    first = differences(PANEL, listed)[0]
    assert (first.where.file, first.where.line) == ("trial.yaml", 6)
    assert first.message == said.part_differs(ref="S1", part="toggle-12", row=2, listed="toggle-mini")


def test_what_is_bought() -> None:
    """Counted by hand from the spec: two knobs, two screwlocks for the D-sub, one screen an ink."""
    rows = {(one.kind, one.part or one.title.partition(",")[0]): one for one in bought(PANEL)}
    assert rows["part", "pot-m10"].quantity == 2
    assert rows["part", "pot-m10"].refs == ("RV1", "RV2")
    assert rows["part", "bnc"].refs == ("X1",)
    assert rows["knob", "knob-21"].quantity == 2
    assert rows["hardware", "screw-m4"].quantity == 1
    assert [one.quantity for key, one in rows.items() if key[0] == "legend plate"] == [1]
    assert sum(one.kind == "legend plate" for one in bought(PANEL)) == 2
    assert not any(one.title.startswith("Screw for a hole") for one in bought(PANEL))
    (locks,) = (one for one in bought(PANEL) if one.title == "screwlock 4-40 UNC")
    assert (locks.kind, locks.quantity, locks.refs) == ("fastener", 2, ("J1",))


def test_a_part_that_names_no_fasteners_has_screws_by_its_holes() -> None:
    panel = panel_from_text(SPEC.replace("part: dsub-9,", "part: iec-c8,"), "x")
    fixings = [one for one in bought(panel) if one.title.startswith("Screw for a hole")]
    assert [(one.quantity, one.refs) for one in fixings] == [(2, ("J1",))]


def test_csv_and_workbook_say_the_same_and_total_what_is_made() -> None:
    rows = list(csv.reader(io.StringIO(purchasing_csv(PANEL).decode("utf-8"))))
    sheet = openpyxl.load_workbook(io.BytesIO(purchasing_xlsx(PANEL))).active
    assert [["" if cell is None else str(cell) for cell in row] for row in sheet.iter_rows(values_only=True)] == rows
    pots = next(row for row in rows if row[1] == "pot-m10")
    assert pots[3:5] == ["2", "10"]


def test_no_cell_of_the_workbook_is_a_formula() -> None:
    text = SPEC.replace("title: Trial", 'title: "=1+1"')
    sheet = openpyxl.load_workbook(io.BytesIO(purchasing_xlsx(panel_from_text(text, "x")))).active
    assert all(cell.data_type != "f" for row in sheet.iter_rows() for cell in row)
    assert any(cell.value == "=1+1" for row in sheet.iter_rows() for cell in row)


def test_the_workbook_is_the_same_every_time(monkeypatch: pytest.MonkeyPatch) -> None:
    import time

    first = purchasing_xlsx(PANEL)
    monkeypatch.setattr(time, "localtime", lambda *_: time.struct_time((2031, 5, 6, 7, 8, 9, 1, 126, 0)))
    assert purchasing_xlsx(PANEL) == first


def test_a_list_of_purchases_is_itself_a_component_list() -> None:
    """What was written can be held against the panel again: refs and parts are read as they are."""
    path = Path("bought.csv")
    listed = read_list(purchasing_csv(PANEL), path.name, MATCHER)
    known = {item.ref: item.component for item in listed.items if item.component}
    assert known["S1"] == "toggle-12"
    assert known["RV2"] == "pot-m10"
