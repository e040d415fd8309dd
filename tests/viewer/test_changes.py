"""Each change of the page as an edit of the text: what it does, and that it touches nothing else.

The spec is read back by PyYAML as well, which is not ours.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from panelart.diagnostics import SpecError
from panelart.spec.moves import NotHereError, further
from panelart.viewer.changes import BadRequestError, change_of
from panelart.viewer.merging import ConflictError, merged
from panelart.viewer.stages import Shown, show
from tests.viewer.running import SMALL


def shown_of(text: str, folder: Path) -> Shown:
    path = folder / "box.yaml"
    path.write_bytes(text.encode())
    return show(text, path, "2026-01-01", lambda _: None, {})


def changed(text: str, request: dict[str, Any], folder: Path) -> str:
    return change_of(request, shown_of(text, folder)).edit(text)


def parts(text: str) -> dict[str, dict[str, Any]]:
    return {part["ref"]: part for part in yaml.safe_load(text)["parts"]}


def touched(before: str, after: str) -> set[str]:
    """Lines that went or came."""
    return set(before.splitlines()) ^ set(after.splitlines())


def test_a_move_changes_one_line_and_keeps_its_remark(tmp_path: Path) -> None:
    after = changed(SMALL, {"do": "move", "refs": ["DS1"], "by": [2.5, -1]}, tmp_path)
    assert parts(after)["DS1"]["at"] == [62.5, 29]
    assert len(touched(SMALL, after)) == 2
    assert "# green" in after
    assert "# as drawn" in after


@pytest.mark.parametrize(("datum", "at"), [("centre", (-35, 0)), ("[10, 5]", (15, 25)), ("upper-right", (-95, -30))])
def test_a_move_is_by_so_much_from_whatever_datum(tmp_path: Path, datum: str, at: tuple[float, float]) -> None:
    text = SMALL.replace("size: [120, 60]", f"size: [120, 60]\n  datum: {datum}")
    for x in (25, 60, 95):
        text = text.replace(f"[{x}, 30]", f"[{at[0] + x - 25}, {at[1]}]")
    after = changed(text, {"do": "move", "refs": ["S1"], "by": [1.25, -2]}, tmp_path)
    assert parts(after)["S1"]["at"] == [at[0] + 1.25, at[1] - 2]


def test_a_part_placed_from_another_keeps_being_so(tmp_path: Path) -> None:
    text = SMALL.replace("at: [60, 30]", "at: {from: S1, by: [35, 0]}")
    after = changed(text, {"do": "move", "refs": ["DS1"], "by": [1, 2]}, tmp_path)
    assert parts(after)["DS1"]["at"] == {"from": "S1", "by": [36, 2]}


def test_several_move_together(tmp_path: Path) -> None:
    after = changed(SMALL, {"do": "move", "refs": ["S1", "J1"], "by": [0, 3]}, tmp_path)
    assert (parts(after)["S1"]["at"], parts(after)["J1"]["at"]) == ([25, 33], [95, 33])


@pytest.mark.parametrize(
    ("written", "by", "due"),
    [
        ("30", 0.5, 30.5),
        ("0.1", 0.2, 0.3),
        ("-0.5", 0.5, 0),
        ("1 in", 0.5, "1.01969 in"),
        ("1in", 25.4, "2in"),
        ('1"', -12.7, '0.5"'),
        ("1 1/2 in", 12.7, "2 in"),
        ("250 thou", 1.27, "300 thou"),
        ("14HP", 5.08, "15HP"),
        ("2U", 44.45, "3U"),
        ("3 cm", 0.5, "3.05 cm"),
        ("12 mm", 0.25, "12.25 mm"),
        ("72 pt", 25.4, "144 pt"),
    ],
)
def test_a_length_keeps_its_unit(written: str, by: float, due: float | str) -> None:
    """Inch 25.4 mm, point 1/72 inch, U 44.45 and HP 5.08 mm (IEC 60297)."""
    assert further(written, by) == due


def test_a_move_keeps_units_and_the_axis_that_is_not_moved(tmp_path: Path) -> None:
    text = SMALL.replace("at: [60, 30]", 'at: ["2 1/4 in", 30.0]')
    up = changed(text, {"do": "move", "refs": ["DS1"], "by": [0, 2.5]}, tmp_path)
    assert up == text.replace("30.0]", "32.5]")
    aside = changed(text, {"do": "move", "refs": ["DS1"], "by": [-6.35, 0]}, tmp_path)
    assert aside == text.replace("2 1/4 in", "2 in")
    for after, at in ((up, (57.15, 32.5)), (aside, (50.8, 30))):
        assert shown_of(after, tmp_path).layout.panel.by_ref["DS1"].at == pytest.approx(at, abs=1e-9)


@pytest.mark.parametrize(
    ("place", "by", "due"),
    [
        ("{x: 60, y: 30}", (1, 2), "{x: 61, y: 32}"),
        ("{x: 60, y: {from: S1}}", (1, 2), "{x: 61, y: {from: S1, by: 2}}"),
        ("{x: {from: S1, by: 1 in}, y: 30}", (25.4, 0), "{x: {from: S1, by: 2 in}, y: 30}"),
        ("{x: {right_of: S1, gap: 20}, y: {from: middle}}", (3, 0), "{x: {right_of: S1, gap: 23}, y: {from: middle}}"),
        ("{x: {left_of: J1, gap: 20}, y: 30}", (3, 1), "{x: {left_of: J1, gap: 17}, y: 31}"),
        ("{x: 60, y: {below: top-edge, gap: 9}}", (0, -1.5), "{x: 60, y: {below: top-edge, gap: 10.5}}"),
        ("{from: S1, by: [35, 0]}", (0, 2), "{from: S1, by: [35, 2]}"),
    ],
)
def test_a_place_measured_from_something_keeps_its_form(
    tmp_path: Path, place: str, by: tuple[float, float], due: str
) -> None:
    text = SMALL.replace("at: [60, 30]", f"at: {place}")
    stood = shown_of(text, tmp_path).layout.panel.by_ref["DS1"].at
    after = changed(text, {"do": "move", "refs": ["DS1"], "by": list(by)}, tmp_path)
    assert after == text.replace(place, due)
    stands = shown_of(after, tmp_path).layout.panel.by_ref["DS1"].at
    assert stands == pytest.approx((stood.x + by[0], stood.y + by[1]), abs=1e-9)


def test_no_gap_is_less_than_nothing(tmp_path: Path) -> None:
    text = SMALL.replace("at: [60, 30]", "at: {x: {right_of: S1, gap: 2}, y: 30}")
    with pytest.raises(NotHereError, match="right of S1"):
        changed(text, {"do": "move", "refs": ["DS1"], "by": [-2.5, 0]}, tmp_path)


def test_parts_measured_from_one_another_are_not_moved_twice(tmp_path: Path) -> None:
    text = SMALL.replace("at: [60, 30]", "at: {from: S1, by: [35, 0]}").replace(
        "at: [95, 30]", "at: {x: 95, y: {from: DS1}}"
    )
    for refs in (["S1", "DS1", "J1"], ["S1", "J1"], ["DS1", "J1", "S1"]):
        after = changed(text, {"do": "move", "refs": refs, "by": [1, 2]}, tmp_path)
        stood, stand = (shown_of(one, tmp_path).layout.panel.by_ref for one in (text, after))
        for ref in ("S1", "DS1", "J1"):
            assert stand[ref].at == pytest.approx((stood[ref].at.x + 1, stood[ref].at.y + 2), abs=1e-9)


def test_words_of_their_own_move_as_parts_do(tmp_path: Path) -> None:
    text = SMALL + "\ntexts:\n  - {text: ONE, at: [10, 50]}\n  - text: TWO  # second\n    at: [2 in, 52]\n"
    after = changed(text, {"do": "text-move", "text": 2, "by": [12.7, -1]}, tmp_path)
    assert after == text.replace("[2 in, 52]", "[2.5 in, 51]")
    with pytest.raises(BadRequestError):
        changed(text, {"do": "text-move", "text": 3, "by": [1, 1]}, tmp_path)


def test_legend_text_side_size_and_place(tmp_path: Path) -> None:
    one = changed(SMALL, {"do": "legend-text", "refs": ["J1"], "text": "yes: #1"}, tmp_path)
    assert parts(one)["J1"]["legend"] == "yes: #1"
    two = changed(one, {"do": "legend-place", "refs": ["J1"], "place": "below"}, tmp_path)
    assert parts(two)["J1"]["legend"] == {"text": "yes: #1", "place": "below"}
    three = changed(two, {"do": "legend-size", "refs": ["J1"], "cap_height": 4}, tmp_path)
    assert parts(three)["J1"]["legend"]["cap_height"] == 4
    four = changed(three, {"do": "legend-at", "refs": ["J1"], "at": [90, 12.25]}, tmp_path)
    assert parts(four)["J1"]["legend"] == {"text": "yes: #1", "cap_height": 4, "at": [90, 12.25]}
    five = changed(four, {"do": "legend-place", "refs": ["J1"], "place": "auto"}, tmp_path)
    assert parts(five)["J1"]["legend"] == {"text": "yes: #1", "cap_height": 4}
    six = changed(five, {"do": "legend-text", "refs": ["J1"], "text": ""}, tmp_path)
    assert "legend" not in parts(six)["J1"]


def test_a_legend_put_down_stands_where_it_was_put(tmp_path: Path) -> None:
    """The middle of the base line comes to the place asked for, to a thousandth of a millimetre."""
    after = changed(SMALL, {"do": "legend-at", "refs": ["J1"], "at": [90, 12.25]}, tmp_path)
    (legend,) = (one for one in shown_of(after, tmp_path).layout.legends if one.ref == "J1")
    assert (legend.box.left + legend.box.right) / 2 == pytest.approx(90, abs=0.05)
    assert legend.baseline.y == pytest.approx(12.25, abs=1e-3)


def test_turning_and_turning_back(tmp_path: Path) -> None:
    one = changed(SMALL, {"do": "turn", "refs": ["S1"], "turn": 90}, tmp_path)
    assert parts(one)["S1"]["turn"] == 90
    assert changed(one, {"do": "turn", "refs": ["S1"], "turn": 360}, tmp_path) == SMALL


def test_a_part_more_copies_and_parts_less(tmp_path: Path) -> None:
    one = changed(SMALL, {"do": "add", "part": "bnc", "at": [45, 12], "ref": "J1"}, tmp_path)
    assert parts(one)["J2"] == {"ref": "J2", "part": "bnc", "at": [45, 12]}
    two = changed(SMALL, {"do": "array", "refs": ["DS1"], "count": 2, "step": [10, 0]}, tmp_path)
    assert [parts(two)[ref]["at"] for ref in ("DS1", "DS2", "DS3")] == [[60, 30], [70, 30], [80, 30]]
    assert list(parts(two)) == ["S1", "DS1", "DS2", "DS3", "J1"]
    three = changed(two, {"do": "delete", "refs": ["DS2", "DS3"]}, tmp_path)
    assert yaml.safe_load(three) == yaml.safe_load(SMALL)


def test_a_part_that_a_pattern_makes_is_not_changed_alone(tmp_path: Path) -> None:
    text = SMALL + "  - repeat: {count: 2, step: [8, 0]}\n    parts: [{ref: 'D{n}', part: led-3, at: [50, 12]}]\n"
    with pytest.raises((NotHereError, SpecError)):
        changed(text, {"do": "move", "refs": ["D1"], "by": [1, 1]}, tmp_path)


def test_windows_line_ends_and_a_mark_in_front_stay(tmp_path: Path) -> None:
    text = "\ufeff" + SMALL.replace("\n", "\r\n")
    after = changed(text, {"do": "move", "refs": ["S1"], "by": [1, 0]}, tmp_path)
    assert after.startswith("\ufeff")
    assert after.replace("\r\n", "").count("\n") == 0
    assert after.replace("[26, 30]", "[25, 30]") == text


@pytest.mark.parametrize(
    "request_",
    [
        {"do": "move", "refs": [], "by": [1, 1]},
        {"do": "move", "refs": ["S1"], "by": [1]},
        {"do": "move", "refs": ["S1"], "by": [float("nan"), 0]},
        {"do": "move", "refs": ["S1"], "by": [True, 0]},
        {"do": "move", "refs": ["S9"], "by": [1, 1]},
        {"do": "move", "refs": "S1", "by": [1, 1]},
        {"do": "turn", "refs": ["S1", "J1"], "turn": 1},
        {"do": "turn", "refs": ["S1"]},
        {"do": "legend-text", "refs": ["S1"], "text": 4},
        {"do": "legend-text", "refs": ["S1"], "text": "x" * 401},
        {"do": "legend-place", "refs": ["S1"], "place": "somewhere"},
        {"do": "legend-size", "refs": ["S1"], "cap_height": -1},
        {"do": "add", "part": "no-such-part", "at": [1, 1]},
        {"do": "array", "refs": ["S1"], "count": 1.5, "step": [1, 1]},
        {"do": "array", "refs": ["S1"], "count": 1e4, "step": [1, 1]},
        {"do": "suggestion", "number": 999},
        {"do": "nothing"},
        {},
    ],
)
def test_what_the_page_never_asks_is_refused(tmp_path: Path, request_: dict[str, Any]) -> None:
    with pytest.raises(BadRequestError):
        changed(SMALL, request_, tmp_path)


def test_a_suggestion_is_the_edit_that_was_tried(tmp_path: Path) -> None:
    """Two sockets that touch: the suggestion clears the error, and the spec read back has one value changed."""
    text = SMALL.replace("at: [60, 30]", "at: [28, 30]")
    before = shown_of(text, tmp_path)
    number = next(
        index for index, one in enumerate(before.inspection.findings, start=1) if one.severity.value == "error"
    )
    rule = before.inspection.findings[number - 1].rule
    after = changed(text, {"do": "suggestion", "number": number}, tmp_path)
    assert rule not in {
        one.rule for one in shown_of(after, tmp_path).inspection.findings if one.severity.value == "error"
    }


def test_changes_of_other_lines_are_joined_and_of_the_same_line_told() -> None:
    """As diff3 would, the method that merge3 follows."""
    mine = SMALL.replace("[25, 30]", "[26, 30]")
    theirs = SMALL.replace("legend: Out", "legend: Outlet")
    assert merged(SMALL, mine, theirs) == mine.replace("legend: Out", "legend: Outlet")
    with pytest.raises(ConflictError) as caught:
        merged(SMALL, mine, SMALL.replace("[25, 30]", "[27, 30]"))
    assert "+  - {ref: S1, part: toggle-12, at: [26, 30]" in caught.value.mine
    assert "+  - {ref: S1, part: toggle-12, at: [27, 30]" in caught.value.theirs
