"""Room for the hand, each case to a millionth either side of the limit.

Spacings: MIL-STD-1472E, table VII, and NUREG-0700 Rev. 3, table 11.5, as printed there.
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart.checks.limits import Basis, standard
from panelart.diagnostics import Severity
from panelart.model.motion import MotionKind
from panelart.model.panel import Hand, Operator
from tests.checks.builders import block, component, control, front, knob, layout, part
from tests.checks.cases import JUST, found, measured, refs
from tests.checks.making import laid_out

KINDS = {
    "lever": (MotionKind.LEVER, "toggle", "lever"),
    "button": (MotionKind.PUSH, "pushbutton", "bezel"),
    "knob": (MotionKind.TURN, "pot", "knob"),
    "selector": (MotionKind.TURN, "rotary", "knob"),
    "key": (MotionKind.TURN, "key-switch", "bezel"),
    "rocker": (MotionKind.ROCKER, "rocker-19x13", "rocker"),
}


def two(one: str, other: str, gap: float, hand: Hand | None = None, **more):
    things = []
    for ref, kind, x in (("S1", one, 50.0), ("S2", other, 60.0 + gap)):
        motion, family, what = KINDS[kind]
        things += [part(ref, control(motion, family), spot=(x, 50)), front(ref, block(x, 50, 10, 10), what)]
    return layout(*things, operator=Operator(hand=hand), **more)


@pytest.mark.parametrize(("gap", "gaps"), [(6.0, []), (6.0 - JUST, [6.0 - JUST]), (1.0, [1.0]), (0.0, [0.0])])
def test_room_for_a_finger_is_always_asked_for(gap, gaps):
    assert measured("controls-too-close", two("knob", "lever", gap)) == pytest.approx(gaps, abs=1e-9)


TABLE = [
    # MIL-STD-1472E, table VII, 5.4.1.3.7
    ("lever", "button", 13), ("lever", "knob", 19), ("lever", "selector", 19), ("button", "knob", 13),
    ("button", "selector", 13), ("knob", "selector", 25),
    # NUREG-0700 Rev. 3, table 11.5
    ("key", "key", 25), ("key", "button", 13), ("key", "rocker", 19), ("key", "lever", 19), ("key", "selector", 19),
    ("key", "knob", 19), ("button", "button", 13), ("button", "rocker", 13), ("rocker", "rocker", 13),
    ("rocker", "lever", 19), ("rocker", "selector", 13), ("rocker", "knob", 13), ("lever", "lever", 19),
    # MIL-STD-1472E, figure 4
    ("selector", "selector", 25),
]  # fmt: skip


@pytest.mark.parametrize(("one", "other", "minimum"), TABLE)
def test_the_tables_are_held_when_the_hand_is_named(one, other, minimum):
    for first, second in ((one, other), (other, one)):
        (finding,) = found("controls-too-close", two(first, second, minimum - JUST, Hand.BARE))
        assert (finding.limit, finding.severity, finding.basis) == (minimum, Severity.WARNING, Basis.LOOKED_UP)
        assert found("controls-too-close", two(first, second, minimum, Hand.BARE)) == []
    assert found("controls-too-close", two(one, other, 12.9)) == []


def test_two_knobs_rest_on_memory():
    (finding,) = found("controls-too-close", two("knob", "knob", 25 - JUST, Hand.BARE))
    assert (finding.limit, finding.basis) == (25, Basis.MEMORY)


@pytest.mark.parametrize(("gap", "count"), [(25.0, 0), (25.0 - JUST, 1)])
def test_a_gloved_finger_needs_more(gap, count):
    assert len(found("controls-too-close", two("button", "button", gap, Hand.GLOVED))) == count
    assert found("controls-too-close", two("button", "button", gap, Hand.BARE)) == []


def test_every_pair_of_kinds_has_a_spacing():
    for one in KINDS:
        for other in KINDS:
            first, second = sorted((one, other))
            assert f"spacing.{first}.{second}.minimum" in standard()


def test_knobs_that_overlap_are_told_by_another_rule():
    assert refs("controls-too-close", two("knob", "knob", -1.0)) == []
    assert refs("parts-collide", two("knob", "knob", -1.0)) == [("S1", "S2")]


def test_the_knob_counts_and_not_the_nut_under_it():
    pot = control(MotionKind.TURN, "pot")
    things = (
        part("RV1", pot, spot=(50, 50)), part("RV2", pot, spot=(70, 50)), knob("RV1", 50, 50, 10),
        knob("RV2", 70, 50, 10), front("RV1", block(50, 50, 18, 18), "nut"),
    )  # fmt: skip
    assert found("controls-too-close", layout(*things)) == []


def _emergency(gap):
    stop = control(MotionKind.PUSH, "emergency-stop", cautions=("emergency-stop",))
    return layout(
        part("SB1", stop, spot=(50, 50)),
        front("SB1", block(50, 50, 40, 40), "mushroom"),
        part("S2", control(MotionKind.LEVER), spot=(75 + gap, 50)),
        front("S2", block(75 + gap, 50, 10, 10), "lever"),
    )


@pytest.mark.parametrize(("gap", "gaps"), [(25.0, []), (25.0 - JUST, [25.0 - JUST]), (3.0, [3.0])])
def test_room_round_an_emergency_stop(gap, gaps):
    assert measured("emergency-stop-crowded", _emergency(gap)) == pytest.approx(gaps, abs=1e-9)
    assert found("controls-too-close", _emergency(gap)) == []


@pytest.mark.parametrize(
    ("gap", "hand", "count"),
    [
        (24.9, None, 0),
        (25.0, Hand.BARE, 0),
        (25.0 - JUST, Hand.BARE, 1),
        (32.0, Hand.GLOVED, 0),
        (32 - JUST, Hand.GLOVED, 1),
    ],
)
def test_room_between_plugs(gap, hand, count):
    things = (front("J1", block(50, 50, 10, 10), "mated plug", covers=False),
              front("J2", block(60 + gap, 50, 10, 10), "mating hood", covers=False))  # fmt: skip
    panel = layout(*things, operator=Operator(hand=hand))
    assert refs("plugs-too-close", panel) == [("J2", "J1")] * count


@pytest.mark.parametrize(("gap", "gaps"), [(2.0, []), (2.0 - JUST, [2.0 - JUST])])
def test_room_for_a_spanner(gap, gaps):
    nut = front("S1", block(50, 50, 10, 10), "nut")
    panel = layout(nut, front("M1", block(60 + gap, 50, 10, 10), "bezel"))
    assert measured("nut-without-room-for-spanner", panel) == pytest.approx(gaps, abs=1e-9)
    assert found("nut-without-room-for-spanner", layout(nut, knob("M1", 60 + gap, 50, 10))) == []
    bezels = (front("S1", block(50, 50, 10, 10)), front("M1", block(60 + gap, 50, 10, 10)))
    assert found("nut-without-room-for-spanner", layout(*bezels)) == []


# --- latches


def _latched(gap, *, side="up", turn=0.0, height=10.0, x=0.0):
    """A plug of 14 x 14 mm with a latch, and a block over it, to the side or not."""
    socket = replace(component("rj"), latch=side)
    block_ = replace(front("S1", block(100 + x, 57 + gap + 5, 10, 10)), height=height)
    plug = replace(front("J1", block(100, 50, 14, 14), "mated plug", covers=False), height=35.0)
    return layout(part("J1", socket, spot=(100, 50), turn=turn), plug, block_)


@pytest.mark.parametrize(("gap", "seen"), [(7.0, [7.0]), (8.0 - JUST, [8.0 - JUST]), (8.0, []), (20.0, [])])
def test_a_finger_gets_at_a_latch(gap, seen):
    assert measured("latch-without-room", _latched(gap)) == pytest.approx(seen, abs=1e-9)


@pytest.mark.parametrize(
    ("change", "seen"),
    [({}, 1), ({"side": "down"}, 0), ({"side": "down", "turn": 180.0}, 1), ({"height": 4.0}, 0), ({"x": 12.5}, 0)],
)
def test_only_what_is_high_and_on_the_side_of_the_latch_is_in_the_way(change, seen):
    assert len(found("latch-without-room", _latched(3.0, **change))) == seen


@pytest.mark.parametrize("hand", ["", "operator: {hand: bare}\n"])
@pytest.mark.parametrize(
    ("x", "y", "rules"),
    [
        # IEC 60947-5-1, size D22: 30 mm in a row, 50 mm in a column.
        (30, 0, set()),
        (30 - JUST, 0, {"pitch-too-small"}),
        (0, 50, set()),
        (0, 50 - JUST, {"pitch-too-small"}),
        (30, 20, set()),
        # The front is 29 wide: a middle within half of that is in the row. The standard sets distances in rows and
        # columns only; what is askew is for the checks of clearances.
        (29, 14.4, {"pitch-too-small"}),
        (29, 20, set()),
        (29.9, 45, set()),
    ],
)
def test_two_push_buttons_at_the_pitch_of_their_standard(x: float, y: float, rules: set[str], hand: str) -> None:
    """At the pitch of their own standard nothing is too close, whatever the table for any controls says."""
    spec = (
        f"{hand}parts:\n"
        "  - {ref: S1, part: pushbutton-22, at: [40, 20], legend: Up}\n"
        f"  - {{ref: S2, part: pushbutton-22, at: [{40 + x}, {20 + y}], legend: Down}}\n"
    )
    layout = laid_out(spec)
    found_now = {rule for rule in ("pitch-too-small", "controls-too-close") if found(rule, layout)}
    assert found_now - {"controls-too-close"} == rules
    assert "controls-too-close" not in found_now or (x < 30 and y < 50)
