"""Straight scales beside slides."""

import pytest

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
