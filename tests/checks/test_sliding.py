"""Straight scales beside slides."""

import pytest

from panelart.model.panel import Place
from tests.checks.cases import found as findings
from tests.checks.making import laid_out

RULES = ("scale-longer-than-travel", "scale-ends-before-travel")


def told(part: str, length: str) -> list[str]:
    scale = f"{{from: 0, to: 10, major: 1{length}}}"
    laid = laid_out(f"parts: [{{ref: RV1, part: {part}, at: [60, 50], legend: Level, scale: {scale}}}]")
    return [each.rule for rule in RULES for each in findings(rule, laid)]


@pytest.mark.parametrize(
    ("length", "rules"),
    [
        (61, []),
        (61.01, ["scale-longer-than-travel"]),
        (59, []),
        (58.99, ["scale-ends-before-travel"]),
        (120, ["scale-longer-than-travel"]),
        (40, ["scale-ends-before-travel"]),
    ],
)
def test_a_scale_against_the_travel_of_its_slide(length: float, rules: list[str]) -> None:
    """A fader travels what its name says, +/-0.5 in a data sheet of slide potentiometers; let go at either end."""
    assert told("fader-60", f", length: {length}") == rules


@pytest.mark.parametrize(("part", "travel"), [("fader-60", 60), ("fader-45", 45)])
def test_without_a_length_the_scale_is_as_long_as_the_travel(part: str, travel: float) -> None:
    laid = laid_out(
        f"parts: [{{ref: RV1, part: {part}, at: [60, 50], legend: Level, scale: {{from: 0, to: 10, major: 1}}}}]"
    )
    scale = laid.panel.parts[0].scale
    assert scale is not None
    assert scale.straight is not None
    assert scale.straight.length == travel
    assert told(part, "") == []


def test_what_does_not_slide_has_no_travel_to_keep() -> None:
    assert told("window-60x25", ", length: 40") == []


WINDOW = """
parts:
  - ref: M1
    part: {part: opening-rectangle, opening: {width: %s, height: %s}}
    at: [60, 50]
    legend: Level
    scale: {from: 0, to: 10, major: 1, minor: 0.5, side: %s, length: %s%s}
"""


@pytest.mark.parametrize(
    ("size", "side", "length", "cursor", "found"),
    [
        ((6, 50), "right", 50, "", 0),
        ((6, 50), "right", 50.01, "", 1),
        ((50, 6), "above", 50, "", 0),
        ((50, 6), "above", 50.01, "", 1),
        # Half a cursor of 1 mm is beyond either end of the scale.
        ((6, 50), "left", 49, ", cursor: 1", 0),
        ((6, 50), "left", 49.01, ", cursor: 1", 1),
    ],
)
def test_a_scale_against_the_window_beside_it(size, side: str, length: float, cursor: str, found: int) -> None:
    laid = laid_out(WINDOW % (*size, side, length, cursor))
    assert len(findings("scale-longer-than-window", laid)) == found


@pytest.mark.parametrize(("cursor", "found"), [(2.05, 0), (2.25, 1)])
def test_a_cursor_against_the_gap_of_marks(cursor: float, found: int) -> None:
    """Twenty steps of 2.5 mm on 50 mm; between a long mark of 0.36 and a middle or short one of 0.3 or less."""
    assert len(findings("cursor-covers-marks", laid_out(WINDOW % (6, 60, "right", 50, f", cursor: {cursor}")))) == found


@pytest.mark.parametrize(
    ("part", "turn", "side"),
    [
        ("fader-60", 0, Place.RIGHT),
        ("fader-60", 90, Place.ABOVE),
        ("fader-60", -90, Place.ABOVE),
        ("fader-60", 180, Place.RIGHT),
        ("fader-60-board", 0, Place.ABOVE),  # drawn level in the catalogue
        ("fader-60-board", 90, Place.RIGHT),
    ],
)
def test_a_scale_stands_along_the_way_of_its_slide(part: str, turn: float, side: Place) -> None:
    laid = laid_out(
        f"parts: [{{ref: RV1, part: {part}, at: [60, 50], turn: {turn}, scale: {{from: 0, to: 10, major: 1}}}}]"
    )
    scale = laid.panel.parts[0].scale
    assert scale is not None
    assert scale.straight is not None
    assert scale.straight.side is side
