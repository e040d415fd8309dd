"""Laws that every part of the catalogue keeps, whatever its figures."""

from __future__ import annotations

import pytest
from shapely import Polygon, STRtree, unary_union
from shapely.affinity import rotate
from shapely.geometry.base import BaseGeometry

from panelart import catalogue
from panelart.cutouts.envelopes import envelopes_of
from panelart.figure import Known
from panelart.geometry import Contour
from panelart.geometry.polygons import polygon
from panelart.model.circuit import CircuitKind, SafetyFunction
from panelart.model.component import Component, EnvelopeRole, Role
from panelart.model.motion import FULL_TURN, STILL, MotionKind, Stops
from panelart.model.panel import Side
from tests.panels import part as placed_part

pytestmark = pytest.mark.few(40)

CHORD = 0.005
"""Rounding of arcs to chords, twice over, is below this in the tests of covering and passing, in mm."""

BEHIND = "it stands behind the panel, so the edge of its opening is seen"
PRESSED = "pressed into its hole and fills it; no head on the front"
AIR = "the opening is for air"
CLEARANCE = "it moves or shines in its opening, and clears its edge"
SEEN = "a window, through which the display behind it is seen"
PLAIN = "the opening itself is what is asked for"
NOT_COVERED = {
    "bar-graph": CLEARANCE,
    "buzzer-board": BEHIND,
    "cap-rectangular": CLEARANCE,
    "cap-round": CLEARANCE,
    "card-edge": CLEARANCE,
    "dc-jack-edge": BEHIND,
    "digit": CLEARANCE,
    "display-window": SEEN,
    "d38999": BEHIND,
    "dsub": BEHIND,
    "fader": CLEARANCE,
    "fader-board": CLEARANCE,
    "fan-holes": AIR,
    "hdmi": BEHIND,
    "header-board": BEHIND,
    "iec-c14-filter": BEHIND,
    "joystick-board": CLEARANCE,
    "lcd": CLEARANCE,
    "lcd-20x2-board": BEHIND,
    "lcd-board": CLEARANCE,
    "led": CLEARANCE,
    "led-board": CLEARANCE,
    "light-pipe-board": CLEARANCE,
    "lit-button-board": CLEARANCE,
    "midi-board": BEHIND,
    "meter-lug": CLEARANCE,
    "ms26482": BEHIND,
    "ms5015": BEHIND,
    "oled-board": BEHIND,
    "opening": PLAIN,
    "pot-shaft-board": CLEARANCE,
    "press-nut": PRESSED,
    "press-nut-flush": PRESSED,
    "press-standoff": PRESSED,
    "rj45": BEHIND,
    "sd-card": CLEARANCE,
    "sfp": BEHIND,
    "slide-switch": CLEARANCE,
    "slide-switch-board": CLEARANCE,
    "tact-12-board": CLEARANCE,
    "tact-6-board": CLEARANCE,
    "tft-board": BEHIND,
    "trimmer-board": BEHIND,
    "usb": BEHIND,
    "usb-c-edge": BEHIND,
    "usb-micro-b-edge": BEHIND,
    "usb-mini-b-edge": BEHIND,
    "vent-slots": AIR,
    "vent-square": AIR,
    "vent-staggered": AIR,
    "window": PLAIN,
    "xlr-board": BEHIND,
}
"""Families whose front does not hide their openings, and why."""


@pytest.fixture(params=catalogue.names(), ids=str, scope="module")
def part(request: pytest.FixtureRequest) -> Component:
    return catalogue.component(request.param)


def test_openings_are_simple_and_have_area(part: Component) -> None:
    for opening in part.openings:
        assert opening.contour.area > 0.5
        assert polygon(opening.contour).is_valid
        assert polygon(opening.contour, side="inside").is_valid


def test_openings_keep_a_web_between_them(part: Component) -> None:
    if not part.openings:
        return
    shapes = [polygon(opening.contour) for opening in part.openings]
    near = STRtree(shapes).query(shapes, predicate="dwithin", distance=0.5)
    assert all(first == second for first, second in near.T)


def test_what_passes_fits_its_opening(part: Component) -> None:
    for opening in part.openings:
        if opening.passes is not None:
            hole = polygon(opening.contour, side="inside").buffer(CHORD)
            assert hole.contains(polygon(opening.passes, side="inside"))


def test_body_openings_say_what_passes_or_are_an_aperture(part: Component) -> None:
    for opening in part.openings:
        if opening.role is Role.FIXING:
            assert opening.passes is not None


def _hidden(part: Component) -> bool:
    covers = unary_union([polygon(front.contour) for front in part.front if front.covers] or [Polygon()])
    return all(
        covers.buffer(CHORD).contains(polygon(opening.contour, side="inside"))
        for opening in part.openings
        if opening.role in (Role.BODY, Role.APERTURE)
    )


def test_the_front_hides_the_openings_unless_the_reason_is_listed(part: Component) -> None:
    assert _hidden(part) == (part.family not in NOT_COVERED)


RINGS = {"washer", "locking ring"}


def test_what_hangs_on_its_bushing_has_a_nut_in_front(part: Component) -> None:
    """The nut hides the face and keeps legends off; turned controls and toggles have a washer or a ring under it."""
    if "bushing" not in part.title or part.family == "rotary-snap":
        return
    rooms = {front.what: front for front in part.front}
    assert "nut" in rooms
    hole = part.openings[0].contour.bounds.width
    assert min(rooms["nut"].contour.bounds.width, rooms["nut"].contour.bounds.height) > hole
    if part.family in ("pot", "pot-ten-turn", "encoder", "rotary", "toggle-mini", "toggle-12"):
        (ring,) = RINGS & set(rooms)
        assert rooms[ring].contour.bounds.width > hole


def test_thickness_is_stated(part: Component) -> None:
    if not part.openings:
        return
    assert part.thickness is not None
    minimum, maximum = part.thickness
    assert 0 < minimum < maximum
    names = {figure.name for figure in part.openings[0].figures}
    assert {"sheet_minimum", "sheet_maximum"} <= names


CHOSEN = {"fan-holes", "grommet", "hole-plug", "opening", "vent-slots", "vent-square", "vent-staggered", "window"}
"""Families whose openings are what their names say, so that there is nothing to look up or to measure."""


def test_every_figure_says_where_it_comes_from(part: Component) -> None:
    for figure in part.figures:
        assert figure.source
        assert " " in figure.source, f"'{figure.source}' is the key of no source in its file"
        if figure.known is Known.GIVEN:
            assert part.family in CHOSEN


def test_every_part_has_words_room_and_a_kind(part: Component) -> None:
    assert part.title != part.name
    assert part.family
    assert part.words or part.family == "opening"
    assert all(catalogue.caution(key) for key in part.cautions)


def test_positions_go_with_a_motion(part: Component) -> None:
    if part.positions:
        assert part.motion.kind in (MotionKind.LEVER, MotionKind.ROCKER, MotionKind.SLIDE)
        assert set(part.positions) <= {"up", "down", "left", "right", "centre"}
    if part.motion.kind in (MotionKind.LEVER, MotionKind.ROCKER, MotionKind.SLIDE):
        assert part.positions
    if part.shaft is not None:
        assert part.motion.kind is MotionKind.TURN


CONTROLS = tuple(kind for kind in MotionKind if kind is not MotionKind.NONE)
UNKNOWN_TURN = {
    "cam-lock-19": "sold with a quarter and with half a turn, keyed to order; no source was opened",
    "rotary-snap-12.7": "the page of its source has the hole and no angles",
    "trimmer-10-32": "one turn and many turns are sold in this bushing",
}
"""Turned controls of which it is not known how far they turn, and why."""

UNKNOWN_TRAVEL = {"slide-switch": "no data sheet with the travel of its lever was opened"}
"""Families of slides whose travel is not known, and why."""

BY_SCREWDRIVER = {"trimmer-board": "a screwdriver turns it behind its hole; nothing of it is in front"}
"""Families of controls of which nothing is in front, and why."""


def test_the_motion_of_a_control_is_complete(part: Component) -> None:
    motion = part.motion
    if motion.kind not in CONTROLS:
        assert motion == STILL
        return
    assert motion.action is not None
    assert (not part.actuators and part.shaft is None) == (part.family in BY_SCREWDRIVER)
    if motion.kind is MotionKind.TURN:
        told = motion.ways or motion.rotation or motion.turns or motion.stops is Stops.NONE
        assert bool(told) == (part.name not in UNKNOWN_TURN)
    if motion.kind is MotionKind.SLIDE:
        told = motion.travel or any(front.travel for front in part.front)
        assert bool(told) == (part.family not in UNKNOWN_TRAVEL)
    if motion.kind is MotionKind.LEVER:
        assert motion.throw is not None


def test_a_turned_control_makes_no_more_positions_than_a_turn_has(part: Component) -> None:
    for way in part.motion.ways:
        assert way.figures
        marks = way.marks(way.most, part.motion.phase)
        assert len(marks) == way.most
        assert list(marks) == sorted(marks)
        assert marks[-1] - marks[0] < FULL_TURN


def test_what_a_handle_sweeps_holds_the_handle_and_is_kept_free(part: Component) -> None:
    """Turned by any angle about the axis the handle stays in its circle, which stands before the panel as it does."""
    placed = [one for one in envelopes_of(placed_part("S1", part, (0.0, 0.0))) if one.side is Side.FRONT]
    for front in part.front:
        if not front.sweeps:
            continue
        (swept,) = (one for one in placed if one.what == f"{front.what} travel")
        free = polygon(swept.contour, side="outside").buffer(CHORD)
        handle = polygon(front.contour, side="inside")
        assert all(free.contains(rotate(handle, angle, origin=(0.0, 0.0))) for angle in range(0, 360, 5))
        assert swept.height == front.height


NOT_ELECTRICAL = {"opening", "vent-slots", "vent-square", "vent-staggered", "window"}
"""Families of plain holes, that have no circuit of any kind."""

MECHANICAL = {
    "blank-26x31", "blind-rivet", "cam-lock", "gland", "gland-pg", "grommet", "handle", "hole-plug", "light-pipe-board",
    "press-nut", "press-nut-flush", "press-standoff", "press-stud", "rack-slots", "rivet-nut", "screw",
    "screw-countersunk", "screw-inch", "screw-inch-countersunk", "screw-socket-countersunk", "subrack-3u",
    "tube-bulkhead", "weld-stud",
}  # fmt: skip
"""Families through which no current flows."""


def test_every_electrical_part_has_a_circuit(part: Component) -> None:
    assert (part.circuit is None) == (part.family in NOT_ELECTRICAL)
    if part.circuit is not None:
        assert (part.circuit.kind is CircuitKind.NONE) == (part.family in MECHANICAL)
        if part.circuit.kind is CircuitKind.NONE:
            assert not part.circuit.figures


def test_cautions_and_circuits_agree(part: Component) -> None:
    """What is cautioned as mains, as a fuse, as an emergency stop says the same of its circuit."""
    circuit = part.circuit
    if {"mains-inlet", "mains-outlet"} & set(part.cautions):
        assert circuit is not None
        assert circuit.kind is CircuitKind.MAINS
    overcurrent = bool({"fuse", "breaker"} & set(part.cautions))
    assert (circuit is not None and circuit.safety is SafetyFunction.OVERCURRENT) == overcurrent
    stop = "emergency-stop" in part.cautions
    assert (circuit is not None and circuit.safety is SafetyFunction.EMERGENCY_STOP) == stop


def test_a_plug_hides_nothing_and_its_cable_bends(part: Component) -> None:
    for front in part.front:
        if front.role is EnvelopeRole.PLUG:
            assert not front.covers
        else:
            assert not front.cable
        assert front.cable_way in ("", "up", "down", "left", "right")


def test_fasteners_can_be_bought(part: Component) -> None:
    """A screw or nut that is bought has its thread, or a hole that tells its size; torque and spanner are plausible."""
    for one in part.fasteners:
        assert one.count >= 1
        assert one.supplied or one.thread or any(opening.role is Role.FIXING for opening in part.openings)
        assert one.across is None or 3.0 <= one.across.value <= 80.0
        assert one.torque is None or 0.05 <= one.torque[0].value <= one.torque[1].value <= 60.0


HANDED = {
    "blank-26x31",
    "hdmi-flange",
    "jack-635-flange",
    "pot-3-8-32-located",
    "pot-m10-located",
    "rj45-flange",
    "rotary-3-8-32-located",
    "speaker",
    "usb-flange",
    "xlr",
    "xlr-board",
    "xlr-combo",
}
"""Parts whose openings differ from their mirror image, besides subrack panels, whose first column is on the left."""


def _ground(openings: list[Contour]) -> BaseGeometry:
    return unary_union([polygon(contour, side="middle") for contour in openings])


def test_handed_patterns_stay_handed(part: Component) -> None:
    """Seen from behind, a handed pattern is its own mirror image and not itself; the others are both."""
    own = [opening.contour for opening in part.openings]
    mirrored = [contour.mirrored() for contour in own]
    if not own:
        return
    difference = _ground(own).symmetric_difference(_ground(mirrored)).area
    assert (difference > 0.01 * _ground(own).area) == (part.name in HANDED or part.family == "subrack-3u")
    again = [contour.mirrored() for contour in mirrored]
    assert _ground(own).symmetric_difference(_ground(again)).area < 1e-6
    assert sum(contour.area for contour in mirrored) == pytest.approx(-sum(contour.area for contour in own))


@pytest.mark.parametrize("name", ["xlr", "speaker", "rj45-flange"])
def test_upper_left_fixing_is_upper_right_from_behind(name: str) -> None:
    fixings = [o.contour.mirrored().bounds.centre for o in catalogue.component(name).openings if o.role is Role.FIXING]
    upper = max(fixings, key=lambda place: place.y)
    assert (upper.x, upper.y) == (pytest.approx(9.5), pytest.approx(12.0))
