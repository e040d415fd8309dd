"""Scales on skirts and discs: both sides of every limit, by plane geometry of another library."""

from __future__ import annotations

import pytest
import shapely
from shapely import affinity

from panelart.diagnostics import Severity
from panelart.marking.areas import area_of as ink
from tests.checks.cases import found as findings
from tests.checks.making import laid_out

DISC = """
parts:
  - ref: RV1
    part: %s
    at: [70, 45]
    knob: {diameter: %s, height: 16}
    legend: Level
    scale: {from: 0, to: 10, major: 1, sweep: 300, disc: {diameter: 76, window: [%s, %s], depth: 4}}
"""

SKIRT = """
parts:
  - ref: RV1
    part: pot-m10
    at: [60, 50]
    knob: {diameter: 30, height: 16}
    legend: Level
    scale: {from: 0, to: 10, major: 1, skirt: {grip: %s}}
"""


def on_disc(width: float, height: float, *, knob: float = 20, part: str = "pot-9-shaft-board"):
    return laid_out(DISC % (part, knob, width, height))


def in_sight(layout) -> bool:
    """Whether each numeral is whole in the window when it is at the mark, and so are those beside it."""
    (dial,) = layout.dials
    (window,) = [
        shapely.Polygon([s.start for s in o.finished.segments]) for o in layout.openings if o.name.endswith(".2")
    ]
    window = window.buffer(1e-6)
    row = [ink(legend.shape) for legend in dial.legends]
    for step in range(len(row)):
        near = shapely.union_all(row[max(0, step - 1) : step + 2])
        if not window.contains(affinity.rotate(near, -30 * step, origin=(70, 45))):
            return False
    return True


def narrowest(rule: str, layout) -> float:
    (finding,) = findings(rule, layout)
    return finding.limit


def test_the_window_shows_a_numeral_with_its_neighbours() -> None:
    """Numerals are 30 degrees apart; sizes are found by the rule and held against ink turned by another library."""
    wide = narrowest("dial-window-small", on_disc(20, 12))
    for size, whole in ((wide + 0.6, True), (wide - 2.0, False)):
        layout = on_disc(size, 14)
        assert in_sight(layout) is whole
        assert (findings("dial-window-small", layout) == []) is whole
    high = narrowest("dial-window-small", on_disc(44, 6))
    for size, whole in ((high + 0.05, True), (high - 0.05, False)):
        layout = on_disc(44, size)
        assert in_sight(layout) is whole
        assert (findings("dial-window-small", layout) == []) is whole


def test_the_ring_of_a_skirt() -> None:
    """Numerals of 2.4 mm under marks of 3 mm, white of 0.5 and 0.84: whether ink comes within the grip."""
    (dial,) = laid_out(SKIRT % 10).dials
    reach = min(ink(legend.shape).distance(shapely.Point(60, 50)) for legend in dial.legends)
    assert dial.reach == pytest.approx(reach, abs=0.02)
    # As much is kept from the grip as from the rim, 0.5 mm.
    assert findings("dial-ring-narrow", laid_out(SKIRT % (2 * reach - 1.1))) == []
    (near,) = findings("dial-ring-narrow", laid_out(SKIRT % (2 * reach - 0.9)))
    assert near.severity is Severity.WARNING
    (under,) = findings("dial-ring-narrow", laid_out(SKIRT % (2 * reach + 0.1)))
    assert under.severity is Severity.ERROR


def test_a_window_that_cuts_the_numeral_at_the_mark() -> None:
    """The middle numeral alone, turned to the mark by another library, in the window or not."""
    layout = on_disc(44, 6)
    (finding,) = findings("dial-numeral-cut", layout)
    assert "the numeral at the index mark itself" in finding.sentence
    assert findings("dial-numeral-cut", on_disc(44, 14)) == []


def test_a_knob_over_the_window() -> None:
    """The window of 36 by 9 ends sqrt(36^2 - 18^2) mm from the shaft: its corners are 2 mm within the disc of 76."""
    begins = (36**2 - 18**2) ** 0.5 - 9
    assert findings("dial-window-under-knob", on_disc(36, 9, knob=2 * begins - 0.01)) == []
    assert len(findings("dial-window-under-knob", on_disc(36, 9, knob=2 * begins + 0.01))) == 1


@pytest.mark.parametrize(("part", "found"), [("pot-m10", 1), ("pot-3-8-32", 1), ("pot-9-shaft-board", 0)])
def test_a_part_with_a_nut_leaves_a_disc_no_room(part: str, found: int) -> None:
    assert len(findings("disc-without-room", on_disc(44, 12, part=part))) == found


def test_marks_on_a_dial_are_held_against_each_other() -> None:
    crowded = "{from: 0, to: 1000, major: 5, sweep: 300, skirt: {grip: 8}}"
    text = (SKIRT % 8).replace("{from: 0, to: 10, major: 1, skirt: {grip: 8}}", crowded)
    assert len(findings("marks-crowded", laid_out(text))) == 1
    assert findings("marks-crowded", laid_out(SKIRT % 8)) == []


def test_parts_of_a_turn_on_the_knob_of_a_ten_turn_control() -> None:
    text = (SKIRT % 8).replace("pot-m10", "pot-ten-turn").replace("major: 1,", "major: 1, sweep: 360,")
    assert findings("scale-on-endless-control", laid_out(text)) == []
    assert len(findings("scale-on-endless-control", laid_out(text.replace("pot-ten-turn", "encoder-m9")))) == 1


def test_a_skirt_that_is_turned_backwards() -> None:
    text = (SKIRT % 8).replace("major: 1,", "major: 1, direction: counter-clockwise,")
    assert len(findings("scale-runs-backwards", laid_out(text))) == 1
    assert findings("scale-runs-backwards", laid_out(SKIRT % 8)) == []


def test_the_numerals_of_a_dial_are_read_from_the_viewing_distance() -> None:
    """15 minutes of arc at 1000 mm are 4.36 mm (NUREG-0700, Rev. 3, 11.4.1.5-1); numerals are 2.4 mm."""
    far = "marking: {viewing_distance: 1000}" + SKIRT % 8
    near = "marking: {viewing_distance: 400}" + SKIRT % 8
    assert any("RV1" in finding.refs for finding in findings("legend-too-small", laid_out(far)))
    assert findings("legend-too-small", laid_out(near)) == []
