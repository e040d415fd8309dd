"""Openings in flanges go through the same lists and rules as those of the face."""

from __future__ import annotations

import csv
import io
import math

import pytest

from panelart.checks import inspect
from panelart.pipeline import lay_out
from panelart.sheets.lists import holes_csv, parts_csv
from panelart.sheets.stations import stations
from panelart.spec.read import panel_from_text
from tests.checks.cases import found, measured, refs

SPEC = """\
panelart: 1
panel:
  title: Tray
  number: T-1
  size: [200, 100]
  datum: centre
  sheet: {{material: mild steel, thickness: {thickness}}}
  coat: {coat}
  bending: {{radius: 1.5, k: 0.4}}
  flanges:
{flanges}
marking: {{process: digital-print, ink: {{name: white, colour: "#FFFFFF"}}}}
making: {making}
parts: [{{ref: S1, part: toggle-12, at: [0, 0]}}]
{more}
"""
POWDER = "{kind: powder, thickness: 0.08}"


def laid_out(
    flanges: str, *, coat: str = POWDER, thickness: float = 1.5, making: str = "{quantity: 1}", more: str = ""
):
    return lay_out(
        panel_from_text(
            SPEC.format(flanges=flanges, coat=coat, thickness=thickness, making=making, more=more), "tray.yaml"
        )
    )


HARDWARE = """\
    top:
      length: 25
      holes: [{ref: F1, at: [-40, 13], part: press-nut-m4}, {ref: E1, at: [30, 12], part: earth-stud-m4}]
    right: {length: 25, holes: [{ref: K1, at: [10, 13], part: screw-m3-countersunk}]}"""


def test_they_are_in_the_lists_of_holes_and_parts() -> None:
    """Along the edge from the datum in the middle, back from the outside of the bend."""
    layout = laid_out(HARDWARE)
    holes = {row["hole"]: row for row in csv.DictReader(io.StringIO(holes_csv(layout).decode()))}
    assert [holes["F1"][key] for key in ("on", "x_mm", "y_mm", "finished_width_mm", "cut_width_mm")] == [
        "top", "-40", "13", "5.4", "5.4",
    ]  # fmt: skip
    assert [holes["K1"][key] for key in ("on", "x_mm", "y_mm", "cut_width_mm")] == ["right", "10", "13", "3.56"]
    parts = {row["ref"]: row for row in csv.DictReader(io.StringIO(parts_csv(layout.panel).decode()))}
    assert {ref: row["on"] for ref, row in parts.items()} == {"S1": "face", "F1": "top", "E1": "top", "K1": "right"}
    assert parts["K1"]["part"] == "screw-m3-countersunk"


def test_a_countersink_in_a_flange_is_on_the_blank() -> None:
    """R1.5, sheet 1.5, K 0.4: 90 degrees take 2 x 3 - pi / 2 x (1.5 + 0.6) off; the cone of 6.3 is cut 0.066 wider."""
    layout = laid_out(HARDWARE)
    (hole,) = [one for one in layout.blank.holes if one.countersink is not None]
    taken = 2 * 3.0 - math.pi / 2 * 2.1
    box = layout.cut_outline.bounds
    assert hole.countersink.centre.x - layout.blank.shift.x == pytest.approx(box.right + 13 - 0.08 - taken)
    assert hole.countersink.centre.y - layout.blank.shift.y == pytest.approx(60)
    assert hole.countersink.cut == pytest.approx(6.3 + 0.16 * (math.sqrt(2) - 1))
    station = next(one for one in stations(layout) if str(one.name) == "Countersink")
    assert station.listings[0].rows[0][:2] == ("K1", "right")


def test_a_pad_in_a_flange_is_masked_on_its_inside() -> None:
    layout = laid_out(HARDWARE)
    (pad,) = layout.masks
    assert (pad.name, pad.on, pad.side.value) == ("E1", "top", "rear")
    station = next(one for one in stations(layout) if str(one.name) == "Clean and mask")
    assert station.listings[0].rows[0][:5] == ("E1", "top", "rear", "30.00", "12.00")
    assert station.files == ()


@pytest.mark.parametrize(
    ("flange", "minimum"),
    [
        # Lengths are to the front of the face and to free edges, which are coated whichever faces are.
        ("{length: 20}", {"front": 19.84, "both": 19.84}),
        # The outside of a return that turns in is the front of the sheet, of one that turns out its rear.
        ("{length: 20, return: {length: 10, towards: in}}", {"front": 19.84, "both": 19.84}),
        ("{length: 20, return: {length: 10, towards: out}}", {"front": 19.92, "both": 19.84}),
    ],
)
def test_films_on_a_flange_are_counted_where_the_coat_is(flange: str, minimum: dict[str, float]) -> None:
    from panelart.cutouts.blank import bent

    for faces, length in minimum.items():
        coat = f"{{kind: powder, thickness: 0.08, faces: {faces}}}"
        layout = laid_out(f"    top: {flange}", coat=coat)
        (worked,) = bent(layout.panel, layout.cut_outline).values()
        assert worked.length == pytest.approx(length)
        if worked.flange.second is not None:
            assert worked.second_length == pytest.approx(10 - (20 - length))


def top(*holes: str, length: float = 30) -> str:
    return f"    top: {{length: {length}, holes: [{', '.join(holes)}]}}"


@pytest.mark.parametrize(("apart", "webs"), [(6.4, [1.24]), (6.66, []), (4.0, [])])
def test_webs_in_a_flange(apart: float, webs: list[float]) -> None:
    """Holes of 5, cut 5.16: 1.5 mm of web is due in sheet of 1.5."""
    layout = laid_out(top("{ref: A, at: [0, 15], diameter: 5}", f"{{ref: B, at: [{apart}, 15], diameter: 5}}"))
    assert measured("openings-too-close", layout) == pytest.approx(webs)
    assert refs("openings-collide", layout) == ([("A", "B")] if apart < 5.16 else [])


def test_a_hole_of_a_flange_is_held_against_the_cutter() -> None:
    layout = laid_out(top("{ref: A, at: [0, 15], diameter: 0.8}"))
    assert refs("opening-too-narrow-to-cut", layout) == [("A",)]
    milled = laid_out(
        top("{ref: A, at: [0, 15], rectangle: [8, 4]}"), making="{cutting: mill, cutter: 3}", coat="{kind: none}"
    )
    assert refs("corner-sharper-than-cutter", milled) == [("A",)]
    punched = laid_out(top("{ref: A, at: [0, 15], diameter: 4}"), making="{cutting: punch, punches: [12.36]}")
    assert refs("opening-nibbled", punched) == [("A",)]


def test_a_part_of_a_flange_is_held_against_sheet_and_coat() -> None:
    nut = top("{ref: A, at: [0, 15], part: press-nut-m4}")
    assert ("A",) in refs("sheet-too-thin", laid_out(nut, thickness=0.6))
    screw = top("{ref: A, at: [0, 15], part: screw-m3}")
    closed = laid_out(screw, coat="{kind: powder, thickness: 0.3, allowance: none}")
    assert ("A",) in refs("opening-too-small-after-coat", closed)
    cone = top("{ref: A, at: [0, 15], part: screw-m4-countersunk}")
    assert refs("countersink-breaks-through", laid_out(cone, thickness=2)) == [("A",)]


@pytest.mark.parametrize(
    ("at", "seen"),
    [
        # Steel 1.5, R1.5, flange of 30 without its films 29.84; a nut M4 wants 6.9 round its centre.
        ("[0, 23.05]", [6.87]),
        ("[0, 22]", []),
        ("[0, 8.4]", [6.82]),
        ("[0, 8.5]", []),
        ("[-93.1, 15]", [6.82]),
        ("[-93, 15]", []),
    ],
)
def test_hardware_near_the_edges_of_a_flange(at: str, seen: list[float]) -> None:
    layout = laid_out(top(f"{{ref: A, at: {at}, part: press-nut-m4}}"))
    assert measured("hardware-near-edge", layout) == pytest.approx(seen)


def test_findings_in_flanges_stand_at_their_edge_and_can_be_accepted() -> None:
    narrow = top("{ref: A, at: [30, 15], diameter: 0.8}")
    (finding,) = found("opening-too-narrow-to-cut", laid_out(narrow))
    assert (finding.place.x, finding.place.y) == (130, 100)
    waived = laid_out(narrow, more="waivers: [{rule: opening-too-narrow-to-cut, on: A, why: drilled}]")
    inspection = inspect(waived)
    assert [held.finding.rule for held in inspection.waived] == ["opening-too-narrow-to-cut"]
