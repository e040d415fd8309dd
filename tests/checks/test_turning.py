"""Marks round a shaft against the way the part turns."""

import pytest
from msgspec.structs import replace

from panelart.checks import Finding
from panelart.diagnostics import Severity, SpecError
from panelart.figure import Figure, Known
from panelart.model.motion import Motion, MotionKind, Stops
from panelart.model.panel import Scale
from tests.checks.builders import at, control, layout, part
from tests.checks.cases import found as findings
from tests.checks.making import laid_out

KNOB = "knob: {diameter: 24, height: 16}"


def told(part: str, rule: str) -> list[Finding]:
    return findings(rule, laid_out(f"parts: [{part}]"))


def named(part: str, positions: str, turn: float = 0.0) -> str:
    return f"{{ref: S1, part: {part}, at: [60, 50], turn: {turn}, legend: Range, positions: {positions}}}"


def of(count: int, **more: object) -> str:
    texts = ", ".join(f'"{number}"' for number in range(count))
    keys = "".join(f", {key}: {value}" for key, value in more.items())
    return f"{{texts: [{texts}]{keys}}}"


def graduated(part: str, sweep: float) -> str:
    scale = f"{{from: 0, to: 10, major: 1, sweep: {sweep}}}"
    return f"{{ref: RV1, part: {part}, at: [60, 50], {KNOB}, legend: Level, scale: {scale}}}"


@pytest.mark.parametrize(("count", "found"), [(12, 0), (13, 1)])
def test_one_position_more_than_the_part_has(count: int, found: int) -> None:
    """Data sheet of an 18 mm rotary switch: twelve positions of 30 degrees."""
    assert len(told(named("rotary-m10", of(count, index=27)), "more-positions-than-part")) == found


@pytest.mark.parametrize(("sweep", "found"), [(321, 0), (321.001, 1)])
def test_a_scale_longer_than_the_turn(sweep: float, found: int) -> None:
    """315 degrees is the widest mechanical angle met, with a switch; 3 degrees of float at either end."""
    assert len(told(graduated("pot-m10", sweep), "scale-longer-than-turn")) == found


@pytest.mark.parametrize(
    ("part", "positions", "found"),
    [
        # MIL-DTL-3786/20: throws of 30, 36, 45, 60 and 90 degrees.
        *(("rotary-3-8-32", of(4, index=index), 0) for index in (30, 36, 45, 60, 90)),
        *(("rotary-3-8-32", of(4, index=index), 1) for index in (25, 40, 50, 70)),
        ("rotary-3-8-32", of(4, angles=[0, 30, 90, 120]), 0),  # one of its positions has no name
        ("rotary-3-8-32", of(4, angles=[0, 30, 75, 105]), 1),
        ("rotary-m10", of(3, index=30, first=10), 0),  # the body can be turned in its hole
        ("rotary-m10", of(3, index=31.5), 1),
        ("rotary-m10", of(3, index=31), 0),  # the eye takes a degree for none
        # Data sheet of a selector head for 22, 25 and 30 mm holes: steps of 45 and 90 degrees.
        ("selector-22", of(2, angles=[-45, 45]), 0),
        ("selector-22", of(2, angles=[-22.5, 22.5]), 0),
        ("selector-22", of(2, angles=[-50, 50]), 1),
        ("selector-22", of(3, angles=[-45, 0, 45]), 0),
        ("selector-22", of(3, angles=[-40, 0, 40]), 1),
        ("selector-22", of(2, angles=[-90, 0]), 0),  # a plain hole: the head can be turned
        ("selector-22-keyed", of(2, angles=[-45, 45]), 0),
        ("selector-22-keyed", of(2, angles=[10, 100]), 1),  # the notch holds it
        # Data sheets of switch locks: 30, 45 and 90 degrees.
        ("key-switch-22", of(2, angles=[0, 90]), 0),
        ("key-switch-22", of(2, angles=[0, 75]), 1),
    ],
)
@pytest.mark.parametrize("turn", [0, 90])
def test_angles_at_which_a_part_stops(part: str, positions: str, found: int, turn: float) -> None:
    assert len(told(named(part, positions, turn), "position-off-angle")) == found


def test_what_makers_choose_is_no_error() -> None:
    (finding,) = told(named("selector-22", of(2, angles=[-50, 50])), "position-off-angle")
    assert finding.severity is Severity.WARNING
    assert "`angles: [-45, 45]`" in str(finding.other)
    (finding,) = told(named("rotary-3-8-32", of(4, index=40)), "position-off-angle")
    assert finding.severity is Severity.ERROR


@pytest.mark.parametrize(("part", "found"), [("encoder-m9", 1), ("pot-ten-turn", 1), ("pot-m9", 0)])
def test_values_round_what_has_no_ends(part: str, found: int) -> None:
    assert len(told(graduated(part, 270), "scale-on-endless-control")) == found


@pytest.mark.parametrize(
    ("part", "turned"),
    [("encoder-m9", "turns without end"), ("pot-ten-turn", "turns 10 times"), ("rotary-m10", ""), ("pot-m9", "")],
)
def test_positions_round_what_comes_by_them_again(part: str, turned: str) -> None:
    for written in (of(2, index=36), of(2, angles=[-45, 45])):
        findings = told(named(part, written), "positions-on-endless-control")
        assert [str(finding.other) for finding in findings] == ([turned] if turned else [])


def test_a_ten_turn_control_is_not_called_endless() -> None:
    (finding,) = told(graduated("pot-ten-turn", 270), "scale-on-endless-control")
    assert str(finding.other) == "turns 10 times"


@pytest.mark.parametrize(("sweep", "found"), [(214, 0), (213.99, 1)])
def test_a_scale_that_ends_before_the_turn(sweep: float, found: int) -> None:
    """220 degrees is the least electrical angle met in data sheets of potentiometers; 3 degrees are let go at either
    end."""
    assert len(told(graduated("pot-m10", sweep), "scale-ends-before-turn")) == found


def test_a_scale_with_the_sweep_of_its_part_ends_with_it() -> None:
    whole = graduated("pot-m10", 300).replace(", sweep: 300", "")
    assert told(whole, "scale-ends-before-turn") == []


@pytest.mark.parametrize(
    ("sweep", "count", "found"), [(150, 6, 0), (125, 6, 1), (180, 6, 0), (330, 12, 0), (300, 6, 0), (200, 6, 1)]
)
def test_detents_of_a_stepped_attenuator(sweep: float, count: int, found: int) -> None:
    """An 18 mm rotary switch has up to twelve positions of 30, ten of 36 or six of 60 degrees (its data sheet)."""
    values = ", ".join(str(-10 * number) for number in range(count))
    scale = f"{{from: {-10 * (count - 1)}, to: 0, major: 10, unit: dB, sweep: {sweep}, detents: [{values}]}}"
    switch = f"{{ref: S1, part: rotary-m10, at: [60, 50], {KNOB}, legend: Gain, scale: {scale}}}"
    assert len(told(switch, "scale-off-detents")) == found


@pytest.mark.parametrize(("marks", "found"), [(24, 0), (12, 0), (20, 1), (48, 1)])
def test_marks_round_an_encoder_are_at_its_detents(marks: int, found: int) -> None:
    """24 detents are 15 degrees each: 24 or 12 marks meet them, 20 of 18 degrees and 48 of 7.5 do not (arithmetic)."""
    detents = Figure(name="detents", value=24, sources=("trial",), known=Known.GIVEN, unit="count")
    motion = Motion(kind=MotionKind.TURN, stops=Stops.NONE, detents=detents)
    scale = Scale(low=0, high=marks, major=1, minor=None, sweep=360, start_deg=90, unit="", where=at(4), numerals=())
    encoder = replace(control(MotionKind.TURN), motion=motion)
    assert len(findings("scale-off-detents", layout(part("E1", encoder, scale=scale)))) == found


@pytest.mark.parametrize(
    ("positions", "clock"),
    [
        # MIL-DTL-3786/20: the tab, here at 10 o'clock, lies half a throw from the positions beside it.
        (of(3, index=30), [-45, -15, 15]),
        (of(4, index=30), [-45, -15, 15, 45]),
        (of(3, index=90), [-105, -15, 75]),
        (of(2, index=60), [-30, 30]),
        (of(3, index=30, first=-15), [-15, 15, 45]),
    ],
)
def test_a_located_rotary_is_marked_where_it_stops(positions: str, clock: list[float]) -> None:
    layout = laid_out(f"parts: [{named('rotary-3-8-32-located', positions)}]")
    marks = [90 - float(each.direction) for each in layout.panel.by_ref["S1"].positions]
    assert marks == pytest.approx(clock)
    assert findings("position-off-angle", layout) == []


LOCATED = "{part: rotary-3-8-32-located, motion: {%s}}"


@pytest.mark.parametrize(
    ("motion", "positions", "clock"),
    [
        # A position of the switch in hand takes the place of its tab, and the other way round.
        ("phase: 0", of(3, index=30), [-30, 0, 30]),
        ("phase: 10", of(3, index=30), [-20, 10, 40]),
        ("tab: 0", of(3, index=30), [-45, -15, 15]),
        ("tab: 0", of(3, index=30, first=15), [15, 45, 75]),
        ("phase: 10, ways: [{index: 30, positions: [2, 12]}]", of(12), [-170 + 30 * n for n in range(12)]),
    ],
)
def test_phase_or_tab_say_where_the_positions_of_a_held_body_lie(
    motion: str, positions: str, clock: list[float]
) -> None:
    layout = laid_out(f"parts: [{named(LOCATED % motion, positions)}]")
    marks = [90 - float(each.direction) for each in layout.panel.by_ref["S1"].positions]
    assert marks == pytest.approx(clock)
    assert findings("position-off-angle", layout) == []


def test_phase_and_tab_at_once_are_refused() -> None:
    with pytest.raises(SpecError, match="both `phase` and `tab`"):
        laid_out(f"parts: [{named(LOCATED % 'phase: 0, tab: 15', of(3, index=30))}]")


@pytest.mark.parametrize("first", [-50, -30, -60])
def test_a_located_rotary_between_its_stops(first: float) -> None:
    assert len(told(named("rotary-3-8-32-located", of(3, index=30, first=first)), "position-off-angle")) == 1


def test_positions_named_against_the_clock_are_where_the_part_stops() -> None:
    assert told(named("selector-22-keyed", of(2, angles=[45, -45])), "position-off-angle") == []
