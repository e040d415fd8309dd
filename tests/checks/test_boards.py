"""Parts on one circuit board.

The heights are the catalogue's: a 3.5 mm jack upright on its board is 9 high in a public footprint library of modular
instruments; an encoder of 11 mm needs 6 to 7.
"""

from __future__ import annotations

import pytest

from panelart.checks.limits import standard
from panelart.checks.measuring import parts_to_measure
from tests.checks.cases import JUST, found, measured, refs
from tests.checks.making import laid_out

PLAY = standard()["board.play.maximum"].value
EDGE = standard()["board.edge.maximum"].value
JACK = "{ref: J1, part: jack-35-board, at: [30, 50]}"
ENCODER = "{ref: RV1, part: encoder-11-board, at: [60, 50], legend: LEVEL}"
TOGGLE = "{ref: S1, part: toggle-12, at: [90, 50], legend: MODE}"


def panel(*parts: str, boards: str):
    return laid_out(f"parts: [{', '.join(parts)}]\nboards: {boards}")


@pytest.mark.parametrize(
    ("spacer", "short"),
    [(2.0 - PLAY, []), (2.0 - PLAY - JUST, [PLAY + JUST]), (0.5, [1.5]), (2.5, []), (3.0 + PLAY + 0.1, [PLAY + 0.1])],
)
def test_the_nearest_ends_of_what_two_parts_need(spacer: float, short: list[float]) -> None:
    """The encoder on a spacer needs 6 + s to 7 + s, the jack 9: the ranges must come within the play."""
    laid = panel(JACK, ENCODER, boards=f"[{{parts: [J1, RV1], spacers: {{RV1: {spacer:.9f}}}}}]")
    assert measured("board-heights-differ", laid) == pytest.approx(short, abs=1e-7)


def test_the_lower_part_is_to_be_changed_and_each_low_one_is_told() -> None:
    laid = panel(JACK, ENCODER, TOGGLE, boards="[{parts: [J1, RV1, S1], heights: {S1: 12}}]")
    assert refs("board-heights-differ", laid) == [("J1", "S1"), ("RV1", "S1")]
    assert measured("board-heights-differ", laid) == pytest.approx([3.0, 5.0])


def test_parts_on_two_boards_do_not_meet() -> None:
    laid = panel(JACK, ENCODER, boards="[{parts: [J1]}, {parts: [RV1]}]")
    assert not found("board-heights-differ", laid)
    assert not found("board-not-stated", laid)


@pytest.mark.parametrize(
    ("gap", "off"),
    [(9.0 + PLAY, []), (9.0 + PLAY + JUST, [PLAY + JUST]), (9.0 - PLAY, []), (9.0 - PLAY - JUST, [PLAY + JUST])],
)
def test_a_board_of_a_given_gap(gap: float, off: list[float]) -> None:
    laid = panel(JACK, boards=f"[{{parts: [J1], gap: {gap:.9f}}}]")
    assert measured("board-gap-differs", laid) == pytest.approx(off, abs=1e-7)
    assert not found("board-heights-differ", laid)


@pytest.mark.parametrize(("y", "apart"), [(50 + EDGE, []), (50 + EDGE + JUST, [EDGE + JUST]), (49, [1.0])])
def test_the_edge_of_a_board_is_one_line(y: float, apart: list[float]) -> None:
    socket = f"{{ref: J2, part: usb-c-edge, at: [70, {y:.9f}]}}"
    laid = panel("{ref: J1, part: usb-c-edge, at: [30, 50]}", socket, boards="[{parts: [J1, J2]}]")
    assert measured("board-edge-out-of-line", laid) == pytest.approx(apart, abs=1e-7)


@pytest.mark.parametrize(("turn", "found_"), [(90, []), (0, [("J2", "J1")])])
def test_an_upright_board_has_its_edge_upright(turn: float, found_: list[tuple[str, ...]]) -> None:
    """Two sockets turned by 90 degrees, one above the other, are on one upright board; one not turned is not."""
    first = "{ref: J1, part: usb-c-edge, at: [50, 30], turn: 90}"
    laid = panel(first, f"{{ref: J2, part: usb-c-edge, at: [50, 70], turn: {turn}}}", boards="[{parts: [J1, J2]}]")
    assert refs("board-edge-out-of-line", laid) == found_


def test_parts_of_other_heights_without_a_word_of_boards_are_a_note() -> None:
    (finding,) = found("board-not-stated", panel(JACK, ENCODER, boards="[]"))
    assert finding.refs == ("RV1", "J1")
    assert finding.measured == pytest.approx(2.0)
    assert not found("board-not-stated", panel(ENCODER, boards="[]"))


POT = "{ref: RV2, part: pot-9-board, at: [90, 50], legend: TONE}"  # 10 high, met from 9 to 12


@pytest.mark.parametrize(
    ("gap", "off"),
    [
        (10.0 + PLAY, []),
        (10.0 + PLAY + JUST, [PLAY + JUST]),
        (12.0 + PLAY, [2.0 + PLAY]),
        (12.0 + PLAY + 0.01, []),  # board-gap-differs: none is sold so high
        (9.0 - PLAY, [1.0 + PLAY]),
    ],
)
def test_a_range_is_no_tolerance(gap: float, off: list[float]) -> None:
    laid = panel(POT, boards=f"[{{parts: [RV2], gap: {gap:.9f}}}]")
    assert measured("board-height-uncertain", laid) == pytest.approx(off, abs=1e-7)


def test_a_part_beside_one_with_a_range_is_told_with_the_range() -> None:
    laid = panel(JACK, POT, boards="[{parts: [J1, RV2]}]")
    (finding,) = found("board-height-uncertain", laid)
    assert finding.refs == ("J1",)
    assert "RV2 in its entry, 10 mm (met 9 mm to 12 mm)" in str(finding.other)
    assert not found("board-heights-differ", laid)
    assert not found("board-height-uncertain", panel(JACK, POT, boards="[{parts: [J1, RV2], heights: {RV2: 9}}]"))


def test_a_height_that_is_not_known_is_told() -> None:
    lamp = "{ref: D1, part: led-3-board, at: [60, 20], legend: ON}"
    assert refs("board-height-unknown", panel(JACK, lamp, boards="[{parts: [J1, D1]}]")) == [("D1",)]
    assert not found("board-height-unknown", panel(JACK, lamp, boards="[{parts: [J1, D1], heights: {D1: 9}}]"))


def test_a_height_with_a_range_is_to_be_measured() -> None:
    (told,) = parts_to_measure(panel(POT, boards="[{parts: [RV2]}]").panel)
    assert ("board", "board_height", (9.0, 12.0)) in {(one.piece, one.name, one.figure.span) for one in told.dimensions}
    for boards in ("[]", "[{parts: [RV2], heights: {RV2: 10}}]"):
        listed = parts_to_measure(panel(POT, boards=boards).panel)
        assert "board" not in {one.piece for part in listed for one in part.dimensions}
