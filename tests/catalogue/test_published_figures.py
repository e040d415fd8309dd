"""Openings measured as drawn, against figures published elsewhere.

Each row names where its figure was published; none was taken from the catalogue's own files. What is measured is the
contour, not the figure that the catalogue prints beside it. "Common practice" marks a fact of the trade that stands
in data sheets of many makers, "recalled" a standard's figure that was not looked up again.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from panelart import catalogue
from panelart.geometry import Point
from panelart.model.component import Component, Role
from panelart.model.motion import MotionKind

Measure = Callable[[Component], float]


def _of(part: Component, role: Role) -> list[Point]:
    return [opening.contour.bounds.centre for opening in part.openings if opening.role is role]


def diameter(part: Component) -> float:
    """Of the first opening, from its area, which holds for circles only."""
    circle = part.openings[0].contour
    assert circle.bounds.width == pytest.approx(circle.bounds.height)
    assert circle.area == pytest.approx(math.pi / 4 * circle.bounds.width**2)
    return circle.bounds.width


def width(part: Component) -> float:
    return part.openings[0].contour.bounds.width


def height(part: Component) -> float:
    return part.openings[0].contour.bounds.height


def pitch(part: Component) -> float:
    """Between the two fixing holes."""
    first, second = _of(part, Role.FIXING)
    return first.distance(second)


def across(part: Component) -> float:
    """Between the outer fixing holes, in x."""
    places = [place.x for place in _of(part, Role.FIXING)]
    return max(places) - min(places)


def up(part: Component) -> float:
    """Between the outer fixing holes, in y."""
    places = [place.y for place in _of(part, Role.FIXING)]
    return max(places) - min(places)


def body_pitch(part: Component) -> float:
    first, second = _of(part, Role.BODY)
    return first.distance(second)


def bezel(part: Component) -> float:
    return max(front.contour.bounds.width for front in part.front)


def nut(part: Component) -> float:
    """Across the flats of the hexagon in front, which stands on one of them."""
    return next(front.contour.bounds.height for front in part.front if front.what == "nut")


def screw_hole(part: Component) -> float:
    """Diameter of the first fixing hole."""
    return next(opening.contour.bounds.width for opening in part.openings if opening.role is Role.FIXING)


def pin(part: Component) -> float:
    """From the middle to the hole for its locating pin."""
    (place,) = _of(part, Role.LOCATING)
    return math.hypot(place.x, place.y)


def pin_hole(part: Component) -> float:
    return next(opening.contour.bounds.width for opening in part.openings if opening.role is Role.LOCATING)


def cone(part: Component) -> float:
    return next(opening.countersink.diameter for opening in part.openings if opening.countersink is not None)


ISO_273 = "ISO 273:1979, clearance holes"
B18_2_8 = "ASME B18.2.8-1999 table 3a, metric drills"
ISO_15065 = "ISO 15065, countersinks for ISO 7046 heads, least diameter"
DIN_41652 = "DIN 41652-1 / MIL-DTL-24308, fixing pitch; 0.984, 1.312, 1.852, 2.500 and 2.406 inch"
IEC_60947 = "IEC 60947-5-1 mounting hole 22.3 +0.4/0"
IEC_60947_KEY = "IEC 60947-5-1, hole D22 with notch: 24.1 from the far side, recalled"
IEC_61554 = "IEC 61554 / DIN 43700 cutouts, recalled; 92 x 92 in many controllers' manuals"
IEC_60297 = "IEC 60297-3-100 / EIA-310-D: 465.1 across; 1.25, 3.00, 2.25, 4.00, 7.50 inch up"
IEC_60297_101 = "IEC 60297-3-101: fixing pitch of 3U front panels 122.5; 7.45 to the first hole"
FLANGE = "common practice: 26 x 31 flange, holes 19 x 24 apart, 24 opening"
FAN = "common practice: axial fan hole pitch 32, 40, 50, 71.5, 82.5, 105, 124.5"
INLET = "common practice: C14 screw flange, holes 40.0 apart; with fuse drawer 36.0"
POSTS = "common practice: 3/4 inch between binding posts"
EN_62444 = "EN 62444 gland in a hole of the thread and 0.3, upper limit 0.5: a reference note; punches are 12.5 for M12"
CLINCH = "self-clinch fastener tables of two suppliers"
STRIPS = "two data sheets of barrier terminal strips, mounting centres of three poles: 1.30 and 1.75 inch"
SLIDE = "federal supply record 5930-00-890-4474, slide switch: centres 1.406 inch"
TEN_TURN = "data sheet of a ten-turn potentiometer: hole 0.411 inch, pin hole 0.063 inch at 0.292 inch"
POT_20 = "data sheet of a 20 mm potentiometer: nut 10 across flats"
NUTS = "supplier's page of nuts for switches: 1/4-40 8.0 across flats, 15/32-32 14.0"
WAFER = "federal supply record 5930-00-591-3042, rotary switch: tab at 0.531 inch"
SERIES_1 = "MIL-DTL-26482 series 1 flanges, recalled: 0.719, 0.906 and 1.375 inch square"
AS50151 = "MIL-DTL-5015 flanges, recalled: 0.594, 0.969 and 1.156 inch square"
ISO_7047 = "ISO 7047 on a supplier's page: M1.6, greatest theoretical diameter of the head 3.6"
MANUAL_48 = "controller's installation manual: cutout 45 x 45 +0.6/0 for 48 x 48"
PARTS_LIBRARY = "public parts library for solid modelling: iec.scad cuts 0.1 round the body; fans.scad; displays.scad"
CASES = "two public case models: fan hole pitch 40, 82.5 and 124.5"
STANDOFF = "two suppliers' tables of self-clinch standoffs: 4.2, 5.4 and 7.2 +0.08/0"
STUDS = "supplier's table of self-clinch studs, M2 to M8: hole of the thread's diameter +0.08/0"
BLIND_RIVET = "supplier's page on ISO 15977: drill 0.1 to 0.2 over the rivet"
BEACON = "data sheet of an 80 mm beacon: three holes of 5 on a circle of 70, cable entry 13"
HEADS = "note quoting an installation instruction for 22 mm heads: 22.3 +0.4/0"
FOOTPRINTS = "public library of footprints: 16 x 2 module, holes 75 x 31; 1.3 inch module, holes 1.14 x 1.16 inch"
WINDOW = "public enclosure model, file vars.scad: opening 23 x 10.5 for a three-digit voltmeter"
MINI_TOGGLE = "miniature toggle drawing as reported by a public vehicle project: hole 6.5, tab hole 2.2 at 6.1"
SIXTEEN = "data sheets of two 16 mm push-button series: 16 +0.2/0 and 16.0 +0.1/0; pitch 19, 24 for rectangular bezels"
FLUSH_16 = "data sheet of a 16 mm series with flush bezels: 18.2 round and square, 24.2 x 18.2"
HEAD_29 = "product data of a 22 mm push-button: 29 x 29"
THIRTY = "catalogue of push-buttons: hole 30.5 for flush mounting"
CONSOLE = "panels of a public control-console project as measured: 12.00 and 19.00"
ROUND_ROCKER = "supplier's page of round rockers: 20.2 mm (.79 inch)"
M7_HOLE = "hole tables of two public projects: encoder M7 in 7.2"
ATTENUATOR = "maker's page on stepped attenuators: 0.401 inch for the 3/8 inch bushing, 10.2"
SLIDE_20 = "data sheet of a slide potentiometer of 20 travel: slot 1.063 inch by 0.110, M2 at 31.0"
SLIDE_60 = "public footprint library, slide potentiometer of 60 travel: fixings at 1.25 and 72.25"
CAP_TABLE = "data-sheet table of caps: cap 10.6 x 13.25 in 11.0 x 13.65, cap 29.5 in 30.3, cap 15 x 15 in 16 x 16"
GAME = "modding guide of a public game-cabinet project: buttons in holes of 28"
BNC = "data-sheet drawing of a BNC bulkhead jack, quoted by a public project: 9.70, flat to opposite edge 8.85"
SMA = "supplier's page on SMA connectors: 6.5 with a flat, 6.0 across it"
SMA_PROJECTS = "three public projects: SMA hole 6.5"
N_PROJECT = "public mast project: 16.5 hole for an N bulkhead jack"
UHF = "public transformer-box project: UHF flange, screws at 18.2, barrel 16.3"
DIN_WORKSHOP = "public workshop drawing of a circular DIN socket: hole 16, screws at 22"
JACK_35 = "public instrument-module project: 6.2 holes for 3.5 mm jacks"
MEASURED_M8 = "public radio project: threads measured at 8, holes 8.3"
RJ45 = "data sheet of an RJ45 jack, quoted by a public model: cutout 16.66 x 14.72"
SFP = "public enclosure project quoting the SFP agreement: 15.0 x 10.8"
SCREW_CIRCULAR = "public project: holes of 12 and 16 for screw circular connectors"
M5 = "public project quoting an M5 series: hole 5.2, 4.75 over the flat"
SERIES_3 = "catalogue of MIL-DTL-38999 series III: fixing square in inch, holes in mm, jam-nut hole and flat in inch"
WORKSHOP = "public workshop drawings of cover plates: USB 15 x 8, screws at 28"
TUBE = "catalogue of push-in fittings: mounting hole 0.83 inch, rounded to 21.1"
SHELL_E = "laboratory's design page after a maker's drawing of shell E behind the panel: 20.47 x 11.41, corners 3.35"
RIVET = "common practice: blind rivet nut M4 in a hole of 6, M5 in 7, recalled"

PLATES = "public footprint library, files of holes in faceplates"
CUTOUTS = "public parts library for solid modelling: size of the connector and its clearance all round"
FOOTPRINTS = "public board footprint library"
LED_HOLE = "three public case models: hole 5.2 for a 5 mm LED; a fourth: 3.2 for a 3 mm LED"
LED_HOLDER = "parts list of a public air-quality monitor: holder for a 5 mm LED, M8 x 0.75, hole 8.2"
DRILL_LIST = "build notes of a public sound-effects project: 1/4 inch for the bezel of a 3 mm LED"
POWER_PANEL = "panel of a public power supply, after two data sheets: 12.2 for 12 mm toggle switches and 4 mm sockets"
NOSE = "hole table of a public sound project: 10.0 for a nose of 3/8-32"
M9_SCRIPT = "hole script of a public synthesizer's faceplate: 9.5 for a bushing of M9 x 0.75"
FOOT_SWITCH = "ordering guide of a public sound-effects project: 12.2 for a 12 mm foot switch"
AMPLIFIER = "public model of an amplifier case: hole 12.5 for a fuse holder"
RACK_EARS = "constants of a public model of a 19-inch shelf: slots 10.0 x 7.0"
RADIO_CASE = "public model of a software radio's case: opening 13 x 12 for USB B"
DIN_32 = "pages of a 1/32 DIN instrument: cutout 45 x 22.5"
SHELLS = "guide to panel cutouts of D-subminiature connectors, read through a report: 1.645 x 0.440 inch for 25 ways"
M12_SOCKET = "building guide of a public field instrument: hole 16.2 for an M12 socket"
FIGURES: tuple[tuple[str, Measure, float, str], ...] = (
    ("screw-m1.6-fine", diameter, 1.7, ISO_273),
    ("screw-m1.6", diameter, 1.8, ISO_273),
    ("screw-m1.6-coarse", diameter, 2.0, ISO_273),
    ("screw-m2-fine", diameter, 2.2, ISO_273),
    ("screw-m2", diameter, 2.4, ISO_273),
    ("screw-m2.5", diameter, 2.9, ISO_273),
    ("screw-m2.5-coarse", diameter, 3.1, ISO_273),
    ("screw-m3-fine", diameter, 3.2, ISO_273),
    ("screw-m3", diameter, 3.4, ISO_273),
    ("screw-m3-coarse", diameter, 3.6, ISO_273),
    ("screw-m3.5", diameter, 3.9, ISO_273),
    ("screw-m4-fine", diameter, 4.3, ISO_273),
    ("screw-m4", diameter, 4.5, ISO_273),
    ("screw-m4-coarse", diameter, 4.8, ISO_273),
    ("screw-m5-fine", diameter, 5.3, ISO_273),
    ("screw-m5", diameter, 5.5, ISO_273),
    ("screw-m5-coarse", diameter, 5.8, ISO_273),
    ("screw-m6-fine", diameter, 6.4, ISO_273),
    ("screw-m6", diameter, 6.6, ISO_273),
    ("screw-m6-coarse", diameter, 7.0, ISO_273),
    ("screw-m8-fine", diameter, 8.4, ISO_273),
    ("screw-m8", diameter, 9.0, ISO_273),
    ("screw-m8-coarse", diameter, 10.0, ISO_273),
    ("screw-no2", diameter, 2.6, B18_2_8),
    ("screw-no4", diameter, 3.3, B18_2_8),
    ("screw-no6", diameter, 4.3, B18_2_8),
    ("screw-no8", diameter, 5.0, B18_2_8),
    ("screw-no10", diameter, 5.6, B18_2_8),
    ("screw-m1.6-countersunk", diameter, 1.8, ISO_273),
    ("screw-no3", diameter, 2.9, B18_2_8),
    ("screw-no3-close", diameter, 2.7, B18_2_8),
    ("screw-no3-loose", diameter, 3.3, B18_2_8),
    ("screw-no5", diameter, 4.0, B18_2_8),
    ("screw-no5-close", diameter, 3.6, B18_2_8),
    ("screw-no5-loose", diameter, 4.4, B18_2_8),
    ("screw-no4-close", diameter, 3.0, B18_2_8),
    ("screw-no6-close", diameter, 3.9, B18_2_8),
    ("screw-no8-loose", diameter, 5.4, B18_2_8),
    ("screw-no10-loose", diameter, 6.0, B18_2_8),
    ("screw-m3-countersunk", cone, 6.3, ISO_15065),
    ("screw-m4-countersunk", cone, 9.4, ISO_15065),
    ("screw-m5-countersunk", cone, 10.4, ISO_15065),
    ("screw-m4-countersunk", diameter, 4.5, ISO_273),
    ("earth-stud-m6", diameter, 6.6, ISO_273),
    ("dsub-9", pitch, 0.984 * 25.4, DIN_41652),
    ("dsub-15-front", pitch, 1.312 * 25.4, DIN_41652),
    ("dsub-25", pitch, 1.852 * 25.4, DIN_41652),
    ("dsub-37", pitch, 2.5 * 25.4, DIN_41652),
    ("dsub-50-front", pitch, 2.406 * 25.4, DIN_41652),
    ("dsub-hd-15", pitch, 0.984 * 25.4, DIN_41652),
    ("pushbutton-22", diameter, 22.3, IEC_60947),
    ("emergency-stop-22", height, 24.1, IEC_60947_KEY),
    ("meter-96x96", width, 92.0, IEC_61554),
    ("meter-96x96", height, 92.0, IEC_61554),
    ("meter-96x96", bezel, 96.0, IEC_61554),
    ("meter-48x96", width, 45.0, IEC_61554),
    ("meter-48x96", height, 92.0, IEC_61554),
    ("meter-72x72", width, 68.0, IEC_61554),
    ("meter-144x144", height, 138.0, IEC_61554),
    ("rack-slots-1u", across, 465.1, IEC_60297),
    ("rack-slots-1u", up, 1.25 * 25.4, IEC_60297),
    ("rack-slots-2u", up, 3.0 * 25.4, IEC_60297),
    ("rack-slots-3u", up, 2.25 * 25.4, IEC_60297),
    ("rack-slots-4u", up, 4.0 * 25.4, IEC_60297),
    ("rack-slots-6u", up, 7.5 * 25.4, IEC_60297),
    ("subrack-3u-8hp", up, 122.5, IEC_60297_101),
    ("subrack-3u-14hp", across, 11 * 5.08, IEC_60297_101),
    ("xlr", diameter, 24.0, FLANGE),
    ("xlr", pitch, math.hypot(19, 24), FLANGE),
    ("fan-40", across, 32.0, FAN),
    ("fan-60", up, 50.0, FAN),
    ("fan-80", across, 71.5, FAN),
    ("fan-92", across, 82.5, FAN),
    ("fan-120", across, 105.0, FAN),
    ("fan-140-holes", up, 124.5, FAN),
    ("iec-c14", pitch, 40.0, INLET),
    ("iec-c14-fuse", pitch, 36.0, INLET),
    ("binding-post-pair", body_pitch, 19.05, POSTS),
    ("press-nut-m3", diameter, 4.25, CLINCH),
    ("press-stud-m5", diameter, 5.0, CLINCH),
    ("terminal-strip-8.3x3", pitch, 1.3 * 25.4, STRIPS),
    ("terminal-strip-11.1x3", pitch, 1.75 * 25.4, STRIPS),
    ("slide-switch-3", pitch, 1.406 * 25.4, SLIDE),
    ("pot-ten-turn", diameter, 0.411 * 25.4, TEN_TURN),
    ("pot-ten-turn-pinned", pin, 0.292 * 25.4, TEN_TURN),
    ("pot-ten-turn-pinned", pin_hole, 0.063 * 25.4, TEN_TURN),
    ("pot-m7", nut, 10.0, POT_20),
    ("toggle-mini", nut, 8.0, NUTS),
    ("toggle-12", nut, 14.0, NUTS),
    ("toggle-mini", diameter, 6.5, MINI_TOGGLE),
    ("toggle-mini-located", pin, 6.1, MINI_TOGGLE),
    ("toggle-mini-3pos-located", pin_hole, 2.2, MINI_TOGGLE),
    ("pushbutton-16", diameter, 16.0, SIXTEEN),
    ("selector-16", diameter, 16.0, SIXTEEN),
    ("pushbutton-18-flush", diameter, 18.2, FLUSH_16),
    ("pushbutton-18-flush-square", height, 18.2, FLUSH_16),
    ("pushbutton-18-flush-wide", width, 24.2, FLUSH_16),
    ("pushbutton-22", bezel, 29.0, HEAD_29),
    ("pushbutton-30", diameter, 30.5, THIRTY),
    ("pushbutton-12", diameter, 12.0, CONSOLE),
    ("pushbutton-19", diameter, 19.0, CONSOLE),
    ("rocker-round-20", diameter, 20.2, ROUND_ROCKER),
    ("encoder-m7", diameter, 7.2, M7_HOLE),
    ("pot-3-8-32-16", diameter, 10.2, ATTENUATOR),
    ("rotary-3-8-32", diameter, 10.2, ATTENUATOR),
    ("fader-20", height, 1.063 * 25.4, SLIDE_20),
    ("fader-20", width, 0.110 * 25.4, SLIDE_20),
    ("fader-20-screws", pitch, 31.0, SLIDE_20),
    ("fader-60-screws", pitch, 71.0, SLIDE_60),
    ("cap-10.6x13.25", height, 13.65, CAP_TABLE),
    ("cap-round-29.5", diameter, 30.3, CAP_TABLE),
    ("cap-15x15", width, 16.0, CAP_TABLE),
    ("arcade-button-28", diameter, 28.0, GAME),
    ("rotary-3-8-32-located", pin, 0.531 * 25.4, WAFER),
    ("ms26482-10", across, 0.719 * 25.4, SERIES_1),
    ("ms26482-14", across, 0.906 * 25.4, SERIES_1),
    ("ms26482-24", up, 1.375 * 25.4, SERIES_1),
    ("ms5015-8s", across, 0.594 * 25.4, AS50151),
    ("ms5015-16", up, 0.969 * 25.4, AS50151),
    ("ms5015-20", across, 1.156 * 25.4, AS50151),
    ("screw-m1.6-countersunk", cone, 3.6, ISO_7047),
    ("meter-48x48", width, 45.0, MANUAL_48),
    ("meter-48x48", height, 45.0, MANUAL_48),
    ("meter-led-23x10", width, 23.0, WINDOW),
    ("meter-led-23x10", height, 10.5, WINDOW),
    ("iec-c14", width, 28.2, PARTS_LIBRARY),
    ("iec-c14", height, 20.2, PARTS_LIBRARY),
    ("iec-c14", screw_hole, 3.4, ISO_273),
    ("iec-c14-fuse", width, 27.2, PARTS_LIBRARY),
    ("iec-c14-switch-fuse", height, 47.0, PARTS_LIBRARY),
    ("iec-f-outlet", width, 32.2, PARTS_LIBRARY),
    ("fan-30", across, 24.0, PARTS_LIBRARY),
    ("fan-40", diameter, 37.0, PARTS_LIBRARY),
    ("fan-120", diameter, 116.0, PARTS_LIBRARY),
    ("fan-120", screw_hole, 4.5, ISO_273),
    ("fan-50", up, 40.0, CASES),
    ("fan-92-holes", up, 82.5, CASES),
    ("fan-140", across, 124.5, CASES),
    ("lcd-16x2-window", width, 64.5, PARTS_LIBRARY),
    ("lcd-16x2-window", across, 75.0, FOOTPRINTS),
    ("lcd-16x2", up, 31.0, FOOTPRINTS),
    ("oled-1.3-window", across, 1.14 * 25.4, FOOTPRINTS),
    ("oled-1.3-window", up, 1.16 * 25.4, FOOTPRINTS),
    ("touch-4.3", width, 100.0, PARTS_LIBRARY),
    ("touch-4.3", across, 114.0, PARTS_LIBRARY),
    ("touch-4.3", up, 68.0, PARTS_LIBRARY),
    ("buzzer-22", diameter, 22.3, HEADS),
    ("beacon-80", diameter, 13.0, BEACON),
    ("beacon-80", across, 70 * math.cos(math.radians(30)), BEACON),
    ("beacon-80", up, 0.75 * 70, BEACON),
    ("press-standoff-m3", diameter, 4.2, STANDOFF),
    ("press-standoff-m3-large", diameter, 5.4, STANDOFF),
    ("press-standoff-m5", diameter, 7.2, STANDOFF),
    ("press-stud-m3.5", diameter, 3.5, STUDS),
    ("press-stud-m8", diameter, 8.0, STUDS),
    ("blind-rivet-3.2", diameter, 3.3, BLIND_RIVET),
    ("blind-rivet-4.8", diameter, 4.9, BLIND_RIVET),
    ("bnc", width, 9.7, BNC),
    ("bnc", height, 8.85, BNC),
    ("sma", width, 6.5, SMA),
    ("sma", height, 6.0, SMA),
    ("sma-round", diameter, 6.5, SMA_PROJECTS),
    ("n-jack", diameter, 16.5, N_PROJECT),
    ("uhf", diameter, 16.3, UHF),
    ("uhf", across, 18.2, UHF),
    ("din-41524", diameter, 16.0, DIN_WORKSHOP),
    ("din-41524", pitch, 22.0, DIN_WORKSHOP),
    ("jack-35", diameter, 6.2, JACK_35),
    ("phono-m8", diameter, 8.3, MEASURED_M8),
    ("dc-jack-round", diameter, 8.3, MEASURED_M8),
    ("rj45", width, 16.66, RJ45),
    ("rj45", height, 14.72, RJ45),
    ("sfp", width, 15.0, SFP),
    ("sfp", height, 10.8, SFP),
    ("screw-circular-12", diameter, 12.0, SCREW_CIRCULAR),
    ("screw-circular-16", diameter, 16.0, SCREW_CIRCULAR),
    ("m5", width, 5.2, M5),
    ("m5", height, 4.75, M5),
    ("d38999-a", across, 0.719 * 25.4, SERIES_3),
    ("d38999-c", up, 0.906 * 25.4, SERIES_3),
    ("d38999-j", across, 1.5 * 25.4, SERIES_3),
    ("d38999-e", diameter, 30.96, SERIES_3),
    ("d38999-e-front", diameter, 25.81, SERIES_3),
    ("d38999-a-nut", width, 0.693 * 25.4, SERIES_3),
    ("d38999-f-nut", height, 1.335 * 25.4, SERIES_3),
    ("d38999-j-nut", width, 1.76 * 25.4, SERIES_3),
    ("usb-panel", width, 15.0, WORKSHOP),
    ("usb-panel", pitch, 28.0, WORKSHOP),
    ("tube-bulkhead-3-8", diameter, 21.1, TUBE),
    ("dsub-9", height, 11.41, SHELL_E),
    ("rivet-nut-m4", diameter, 6.0, RIVET),
    ("rivet-nut-m5", diameter, 7.0, RIVET),
    ("jack-35-board", diameter, 0.26 * 25.4, PLATES),
    ("jack-635-board", diameter, 10.0, PLATES),
    ("pot-9-board", diameter, 0.29 * 25.4, PLATES),
    ("pot-16-board", diameter, 0.29 * 25.4, PLATES),
    ("pot-9-shaft-board", diameter, 0.26 * 25.4, PLATES),
    ("encoder-11-board", diameter, 0.29 * 25.4, PLATES),
    ("encoder-12-board", diameter, 0.36 * 25.4, PLATES),
    ("toggle-submini-board", diameter, 0.195 * 25.4, PLATES),
    ("led-3-board", diameter, 0.12 * 25.4, PLATES),
    ("led-5-board", diameter, 13 / 64 * 25.4, "public set of hole sizes in fractions of an inch"),
    ("light-pipe-board", diameter, 0.115 * 25.4, PLATES),
    ("trimmer-board", diameter, 0.125 * 25.4, PLATES),
    ("lit-button-board", diameter, 0.315 * 25.4, PLATES),
    ("dc-jack-board", diameter, 0.315 * 25.4, PLATES),
    ("midi-din-board", diameter, 16.0, PLATES),
    ("slide-switch-board", width, 2 * 2.175, PLATES),
    ("slide-switch-board", height, 2 * 1.25, PLATES),
    ("microsd-edge", width, 2 * 6.8, PLATES),
    ("hdmi", width, 14 + 2 * (0.5 + 0.2), CUTOUTS),
    ("midi-din-edge", diameter, 19 - 1.6 / 2, "public faceplate of a MIDI interface"),
    ("xlr-board", pitch, math.hypot(6.09 + 13.71, 9.9 + 9.9), FOOTPRINTS),
    ("led-5", diameter, 5.2, LED_HOLE),
    ("led-3", diameter, 3.2, LED_HOLE),
    ("led-5-bezel", diameter, 8.2, LED_HOLDER),
    ("led-3-bezel", diameter, 0.25 * 25.4, DRILL_LIST),
    ("toggle-12", diameter, 12.2, POWER_PANEL),
    ("toggle-12-3pos", diameter, 12.2, POWER_PANEL),
    ("socket-4", diameter, 12.2, POWER_PANEL),
    ("jack-635", diameter, 10.0, NOSE),
    ("encoder-m9", diameter, 9.5, M9_SCRIPT),
    ("pot-m9-16", diameter, 9.5, M9_SCRIPT),
    ("foot-switch-board", diameter, 12.2, FOOT_SWITCH),
    ("fuse-5x20", height, 12.5, AMPLIFIER),
    ("rack-slots-2u", width, 10.0, RACK_EARS),
    ("rack-slots-3u", height, 7.0, RACK_EARS),
    ("usb-b", width, 13.0, RADIO_CASE),
    ("usb-b", height, 12.0, RADIO_CASE),
    ("meter-48x24", height, 22.5, DIN_32),
    ("meter-24x48", width, 22.5, DIN_32),
    ("dsub-25", height, 0.44 * 25.4, SHELLS),
    ("dsub-50", height, 0.55 * 25.4, SHELLS),
    ("m12", diameter, 16.2, M12_SOCKET),
)


@pytest.mark.parametrize(
    ("name", "measure", "published"),
    [row[:3] for row in FIGURES],
    ids=[f"{name}-{measure.__name__}" for name, measure, *_ in FIGURES],
)
def test_opening_has_the_published_size(name: str, measure: Measure, published: float) -> None:
    assert measure(catalogue.component(name)) == pytest.approx(published, abs=0.01)


BODY, FIXING, APERTURE = Role.BODY, Role.FIXING, Role.APERTURE
SECOND: tuple[tuple[str, Role, str, float, str], ...] = (
    ("pushbutton-19", BODY, "diameter", 19.2, "change list of a public help-post project: 19.2 for 19 mm buttons"),
    ("footswitch-12", BODY, "diameter", 12.0, "public page on building effects pedals"),
    ("rotary-3-8-32", BODY, "diameter", 9.525, "hole table of a public console panel: 0.375 inch for 3/8-32"),
    ("pot-3-8-32", BODY, "diameter", 10.0, "hole table of a public sound project: nose of 3/8-32"),
    ("encoder-3-8-32", BODY, "diameter", 10.0, "hole table of a public sound project: nose of 3/8-32"),
    ("pot-m8", BODY, "diameter", 8.2, "parts list of a public air-quality monitor: M8 x 0.75"),
    ("pot-m8", BODY, "diameter", 8.3, MEASURED_M8),
    ("pot-m9", BODY, "diameter", 9.5, "faceplate brief of a public sound project: 16 mm encoders"),
    ("pot-m10", BODY, "diameter", 10.5, "ISO 273, fine series, M10, in two public tables"),
    ("rotary-m10", BODY, "diameter", 10.5, "ISO 273, fine series, M10, in two public tables"),
    ("pot-1-4-32", BODY, "diameter", 6.5, SMA_PROJECTS),
    ("fader-20", BODY, "length", 25.0, "public footprint library, faceplate holes: slot 25 x 2.54 for a travel of 20"),
    ("fader-20", BODY, "width", 2.54, "public footprint library, faceplate holes: slot 25 x 2.54 for a travel of 20"),
    ("rocker-19x13", BODY, "height", 19.2, "data sheet of a small rocker quoted by a public parts list: 19.2 x 12.9"),
    ("rocker-19x13", BODY, "width", 12.9, "data sheet of a small rocker quoted by a public parts list: 19.2 x 12.9"),
    ("rocker-30x22", BODY, "height", 30.2, "part notes of a public robot project: 22.2 x 30.2"),
    ("rocker-30x22", BODY, "width", 22.2, "part notes of a public robot project: 22.2 x 30.2"),
    ("rocker-round-20", BODY, "diameter", 20.5, "public enclosure model, measured: 20.5"),
    ("led-3", BODY, "diameter", 3.2, "public model of a radio keyer's case: 3.2"),
    ("led-5-bezel", BODY, "diameter", 8.0, "fit check of a public sensor pod: 8.0 to 8.4"),
    ("lamp-8", BODY, "diameter", 8.3, MEASURED_M8),
    ("lamp-10", BODY, "diameter", 10.5, "ISO 273, fine series, M10, in two public tables"),
    ("buzzer-22", BODY, "diameter", 22.5, "mounting page of a 22 mm series: 22.3 +0.4/0, 22.5 recommended"),
    ("meter-48x24", BODY, "width", 44.8, "model table of a controller series: 44.8 x 22.0"),
    ("meter-48x24", BODY, "height", 22.0, "model table of a controller series: 44.8 x 22.0"),
    ("meter-48x48", BODY, "width", 45.0, "model table of a controller series: 45.0 x 45.0"),
    ("meter-96x96", BODY, "height", 92.0, "product data of a 1/4 DIN instrument: 92 x 92 (3.62 inch)"),
    ("meter-led-45x26", BODY, "width", 45.17, "revision list of a public power case, fitted: 45.17 x 26.39"),
    ("meter-led-45x26", BODY, "height", 26.39, "revision list of a public power case, fitted: 45.17 x 26.39"),
    ("lcd-16x2-window", APERTURE, "width", 64.5, "public footprint library, WC1602A: window 64.5 x 15"),
    ("lcd-16x2-window", APERTURE, "height", 15.0, "public footprint library, WC1602A: window 64.5 x 15"),
    ("lcd-16x2-window", FIXING, "diameter", 2.7, "ISO 273, fine series, in a public parts collection"),
    ("oled-096", APERTURE, "width", 25.5, "public model with a 0.96 inch module: window 25.5 x 14.5"),
    ("oled-096", APERTURE, "height", 14.5, "public model with a 0.96 inch module: window 25.5 x 14.5"),
    ("fuse-5x20", BODY, "diameter", 12.5, "public model of a variable transformer's case"),
    ("socket-4-plain", BODY, "diameter", 8.3, MEASURED_M8),
    ("dc-jack-round", BODY, "diameter", 8.0, "public model of a small server's case: 8"),
    (
        "bnc",
        BODY,
        "diameter",
        10.1,
        "public holder of a BNC jack, allowance of a print included: 10.1",
    ),
    ("bnc", BODY, "flat_to_opposite", 9.25, "public holder of a BNC jack: 10.1 less 0.85"),
    ("n-jack", BODY, "diameter", 16.6624, "public model of a UHF socket, thread 5/8 inch: opening 16.6624"),
    ("uhf", BODY, "diameter", 16.6624, "public model of a UHF socket: opening 16.6624, holes 3.175"),
    ("uhf", FIXING, "diameter", 3.175, "public model of a UHF socket: opening 16.6624, holes 3.175"),
    ("sma", BODY, "diameter", 6.5, "constants of a public receiver's case, after the data sheet: 6.5, 6.0"),
    ("sma", BODY, "flat_to_opposite", 6.0, "constants of a public receiver's case, after the data sheet: 6.5, 6.0"),
    ("sma-edge", BODY, "diameter", 6.5, SMA_PROJECTS),
    ("phono", BODY, "diameter", 6.5, MINI_TOGGLE),
    ("phono-m8", BODY, "diameter", 8.0, "public model of a patch box's lid: 8"),
    ("jack-35", BODY, "diameter", 6.3, "public radio project: thread measured at 6, hole 6.3"),
    ("din-41524", BODY, "diameter", 16.0, "public model of a MIDI board's case: 16, screws 3.4"),
    ("din-41524", FIXING, "diameter", 3.4, "public model of a MIDI board's case: 16, screws 3.4"),
    ("dsub-9", BODY, "width", 19.74, SHELLS),
    ("dsub-9", BODY, "height", 11.18, SHELLS),
    ("dsub-hd-15", BODY, "radius", 3.81, SHELLS),
    ("rj45", BODY, "width", 16.76, "data sheet of a second RJ45 jack: 16.76 x 14.13"),
    ("rj45", BODY, "height", 14.13, "data sheet of a second RJ45 jack: 16.76 x 14.13"),
    ("keystone", BODY, "width", 14.5, "public rack panel for snap-in jack modules: 14.5 x 16"),
    ("keystone", BODY, "height", 16.0, "public rack panel for snap-in jack modules: 14.5 x 16"),
    ("usb-a", BODY, "width", 15.0, "public model of a computer board's rear plate: 15.0 x 7.0"),
    ("usb-a", BODY, "height", 7.5, "public case with a USB A receptacle: 15 x 7.5"),
    ("usb-b", BODY, "width", 12.6, CUTOUTS),
    ("usb-b", BODY, "height", 11.4, CUTOUTS),
    ("m12", BODY, "diameter", 16.5, "making sketch of a public level gauge: 16.5"),
    ("m12-nose", BODY, "diameter", 12.2, POWER_PANEL),
    ("m8", BODY, "diameter", 12.2, POWER_PANEL),
    ("m8-nose", BODY, "diameter", 8.3, MEASURED_M8),
    ("screw-circular-16", BODY, "diameter", 16.0, "constants of a public control box: 12.0 and 16.0"),
    ("fan-40", APERTURE, "diameter", 38.0, "notes of a public guard for a 40 mm fan: 38"),
    ("fan-80", APERTURE, "diameter", 75.0, "public duct for an 80 mm fan: 75"),
    ("fan-120", APERTURE, "diameter", 116.0, "notes of a public case with a 120 mm fan: 116"),
    ("gland-m12", BODY, "diameter", 12.5, "making sketch of a public level gauge: 12.5 for M12"),
    ("gland-m16", BODY, "diameter", 16.5, "purchasing checklist TBK-PRC-002: 16.5, 20.5 and 25.5"),
    ("gland-m20", BODY, "diameter", 20.5, "purchasing checklist TBK-PRC-002: 16.5, 20.5 and 25.5"),
    ("gland-m25", BODY, "diameter", 25.5, "purchasing checklist TBK-PRC-002: 16.5, 20.5 and 25.5"),
    ("gland-pg7", BODY, "diameter", 12.5, "build script of a public weather station: 12.5 for Pg 7"),
    ("press-nut-m3", BODY, "diameter", 4.22, "maker's metric table of a family of self-clinch nuts"),
    ("press-nut-m4", BODY, "diameter", 5.41, "maker's metric table of a family of self-clinch nuts"),
    ("press-nut-m5", BODY, "diameter", 6.35, "maker's metric table of a family of self-clinch nuts"),
    ("press-nut-m6", BODY, "diameter", 8.75, "maker's metric table of a family of self-clinch nuts"),
    ("press-stud-m3", BODY, "diameter", 3.0, "size guide of a supplier's clinch studs, M3 to M8"),
    ("press-stud-m6", BODY, "diameter", 6.0, "size guide of a supplier's clinch studs, M3 to M8"),
    ("press-standoff-m3", BODY, "diameter", 4.2, "script of a public field kit's face plate"),
    ("rack-slots-1u", FIXING, "length", 14.0, "notes of a public rack mount: slots 14 x 7"),
    ("rack-slots-2u", FIXING, "width", 7.0, "notes of a public rack mount: slots 14 x 7"),
    ("encoder-11-board", BODY, "diameter", 7.2, M7_HOLE),
    ("encoder-12-board", BODY, "diameter", 9.5, M9_SCRIPT),
    ("jack-35-board", BODY, "diameter", 6.0, "public note on hardware of modular instruments: 6.0"),
    ("led-3-board", BODY, "diameter", 3.2, LED_HOLE),
    ("toggle-mini-board", BODY, "diameter", 6.35, PLATES),
    ("toggle-mini-board", BODY, "diameter", 6.5, MINI_TOGGLE),
)
"""Figures from a further publication: the part, the purpose of its opening, the dimension, what was published, where.

Makers differ, so what was published lies within the range that the catalogue gives beside what it cuts.
"""


@pytest.mark.parametrize(
    ("name", "role", "dimension", "published"),
    [row[:4] for row in SECOND],
    ids=[f"{name}-{dimension}-{published}" for name, _, dimension, published, _ in SECOND],
)
def test_range_of_an_opening_holds_what_else_was_published(
    name: str, role: Role, dimension: str, published: float
) -> None:
    opening = next(opening for opening in catalogue.component(name).openings if opening.role is role)
    figure = next(figure for figure in opening.figures if figure.name == dimension)
    minus, plus = figure.tolerance or (0.0, 0.0)
    ends = (figure.value + minus, figure.value + plus, *(figure.span or ()))
    assert min(ends) - 0.01 <= published <= max(ends) + 0.01


@pytest.mark.parametrize(
    ("name", "pitches"),
    [
        ("uhf", (18.2372, 18.2372)),  # public model of a UHF socket
        ("rack-slots-1u", (482.6 - 2 * 8.75, 2 * 15.875)),  # notes of a public rack mount; pattern of a public rack
        ("rack-slots-2u", (482.6 - 2 * 8.75, 2 * 44.45 - 12.7)),
        ("rack-slots-3u", (482.6 - 2 * 8.75, 44.45 + 12.7)),
        ("lcd-16x2-window", (75.0, 31.0)),  # public footprint library, WC1602A
        ("fan-40", (32.0, 32.0)),  # notes of a public guard for a 40 mm fan
    ],
)
def test_fixings_are_as_far_apart_as_elsewhere(name: str, pitches: tuple[float, float]) -> None:
    part = catalogue.component(name)
    assert (across(part), up(part)) == pytest.approx(pitches, abs=0.05)


def test_there_are_enough_published_figures() -> None:
    assert len(FIGURES) >= 200
    assert len(SECOND) >= 85


@pytest.mark.parametrize(("thread", "punch"), [(12, 12.5), (16, 16.5), (20, 20.5), (25, 25.5), (32, 32.5)])
def test_gland_hole_with_its_tolerance_reaches_the_punch(thread: int, punch: float) -> None:
    """Punches for glands cut the thread and 0.5 (a punch maker's 12.5 for M12); EN 60423 gives the threads."""
    part = catalogue.component(f"gland-m{thread}")
    figure = next(figure for figure in part.openings[0].figures if figure.name == "diameter")
    assert figure.tolerance is not None
    assert thread < figure.value < figure.value + figure.tolerance[1] == pytest.approx(punch)


@pytest.mark.parametrize(
    ("name", "percent", "count"),
    [
        # Open area of an endless field: pi/(2 sqrt 3) (d/p)^2 staggered, pi/4 (d/p)^2 square; counted holes by hand.
        ("vent-staggered-3-40x40", 32.65, 9 * 8 - 4),
        ("vent-staggered-4-40x40", 40.31, 8 * 7 - 4),
        ("vent-staggered-5-40x40", 35.43, 6 * 5 - 3),
        ("vent-square-3-40x40", 28.27, 64),
        ("vent-square-4-40x40", 34.91, 49),
        ("vent-square-5-40x40", 30.68, 25),
    ],
)
def test_open_area_of_a_vent(name: str, percent: float, count: int) -> None:
    part = catalogue.component(name)
    figures = {figure.name: figure.value for figure in part.openings[0].figures}
    assert figures["open area"] == pytest.approx(percent, abs=0.01)
    assert len(part.openings) == count
    assert figures["free area"] == pytest.approx(sum(opening.contour.area for opening in part.openings), rel=1e-4)


def test_open_area_of_slots() -> None:
    """A slot 20 x 3 with round ends has 58.07 mm2: 17 x 3 and a circle of 3."""
    part = catalogue.component("vent-slots-10")
    figures = {figure.name: figure.value for figure in part.openings[0].figures}
    one = 17 * 3 + math.pi * 9 / 4
    assert figures["free area"] == pytest.approx(10 * one, rel=1e-4)
    assert part.openings[0].contour.area == pytest.approx(one)


def test_countersink_depth_is_that_of_a_cone_of_90_degrees() -> None:
    """M4: from 9.4 to 4.5 at 45 degrees, 2.45 deep (plane geometry)."""
    figures = {figure.name: figure.value for figure in catalogue.component("screw-m4-countersunk").openings[0].figures}
    assert figures["countersink depth"] == pytest.approx(2.45)
    assert figures["countersink angle"] == 90


def test_trapezoid_of_the_shell_has_sides_of_ten_degrees() -> None:
    """Shell E behind the panel (SHELL_E): the narrow side is 20.47 - 2 x 11.41 tan 10."""
    contour = catalogue.component("dsub-9").openings[0].contour
    lines = sorted({round(segment.start.y, 4) for segment in contour.segments})
    assert contour.bounds.height == pytest.approx(11.41)
    assert lines[-1] == pytest.approx(5.705, abs=1e-4)
    lean = next(
        abs(math.degrees(math.atan2(s.end.x - s.start.x, s.end.y - s.start.y)))
        for s in contour.segments
        if type(s).__name__ == "Line" and abs(s.end.y - s.start.y) > 1
    )
    assert min(lean, 180 - lean) == pytest.approx(10.0)
    sharp = 11.41 * (20.47 - 11.41 * math.tan(math.radians(10)))
    cut_off = 2 * 3.35**2 * (math.tan(math.radians(50)) + math.tan(math.radians(40)) - math.pi / 2)
    assert contour.area == pytest.approx(sharp - cut_off, abs=0.01)


@pytest.mark.parametrize(
    ("ways", "flange", "pitch_", "high"),
    [(9, 30.81, 24.99, 12.55), (15, 39.14, 33.32, 12.55), (25, 53.04, 47.04, 12.55), (37, 69.32, 63.50, 12.55),
     (50, 66.93, 61.11, 15.37)],
)  # fmt: skip
def test_flange_and_screws_of_all_five_shells(ways: int, flange: float, pitch_: float, high: float) -> None:
    """Public CAD script of five shells, quoting MIL-DTL-24308 and DIN 41652 and two makers' tables."""
    part = catalogue.component(f"dsub-{ways}")
    behind = next(one.contour.bounds for one in part.rear if one.what == "flange")
    assert (behind.width, behind.height) == pytest.approx((flange, high), abs=0.005)
    fixings = [one.contour.bounds.centre.x for one in part.openings if one.role is Role.FIXING]
    assert max(fixings) - min(fixings) == pytest.approx(pitch_, abs=0.005)
    body = next(one.contour.bounds for one in part.openings if one.role is not Role.FIXING)
    # A column of metal stands between the opening and each screw hole, and the flange covers the opening.
    assert body.width < pitch_ - 3.1
    assert body.width < flange
    assert body.height < high


def test_rear_body_passes_a_front_mounted_shell() -> None:
    """The greatest rear body of shell E, 19.53 x 10.97 (DIN 41652-1), goes through with 0.5 on every side."""
    passes = catalogue.component("dsub-9-front").openings[0].passes
    assert passes is not None
    assert passes.bounds.height == pytest.approx(10.97)


def _swept(name: str) -> tuple[float, float]:
    """Degrees from stop to stop, and those over which the value changes."""
    motion = catalogue.component(name).motion
    assert motion.rotation is not None
    assert motion.electrical is not None
    return motion.rotation.value, motion.electrical.value


@pytest.mark.parametrize(
    ("name", "angles"),
    [
        # Data sheet of a 16 mm carbon potentiometer: 300 in all, 315 with switch, electrical 300 and 290.
        ("pot-m7-16", (300.0, 300.0)),
        ("pot-3-8-32-16", (300.0, 300.0)),
        ("pot-m7-16-switch", (315.0, 290.0)),
        ("pot-3-8-32-16-switch", (315.0, 290.0)),
    ],
)
def test_angle_of_a_potentiometer_follows_its_body_and_switch(name: str, angles: tuple[float, float]) -> None:
    assert _swept(name) == angles


def test_a_22_mm_head_has_a_pitch_in_both_directions() -> None:
    """Across 30 by an installation instruction and a second maker's page; between rows 40 by the page, 50 recalled."""
    part = catalogue.component("pushbutton-22")
    pitches = {figure.name: figure for figure in part.openings[0].figures if figure.name.endswith("pitch")}
    assert pitches["minimum horizontal pitch"].value == 30
    assert len(pitches["minimum horizontal pitch"].sources) == 2
    assert pitches["minimum vertical pitch"].span == (40, 50)


CONTROLS = {MotionKind.LEVER, MotionKind.ROCKER, MotionKind.SLIDE, MotionKind.PUSH, MotionKind.TURN, MotionKind.TILT}
OURS = {
    "toggle-mini", "toggle-mini-located", "toggle-12", "pushbutton", "selector", "key-switch", "emergency-stop",
    "rocker-19x13", "rocker-30x22", "rocker-opening", "rocker-15x9", "rocker-27x12", "rocker-round-20", "fader",
    "slide-switch", "pot", "pot-ten-turn", "encoder", "rotary", "rotary-snap", "trimmer", "cap-round",
    "cap-rectangular", "footswitch", "arcade-button",
}  # fmt: skip


@pytest.mark.parametrize("name", [name for name in catalogue.names() if catalogue.component(name).family in OURS])
def test_a_control_has_what_the_hand_operates_a_motion_and_a_circuit(name: str) -> None:
    """A lever, button, handle, key, cap or mushroom apart from its bezel; a shaft waits for its knob."""
    part = catalogue.component(name)
    assert part.motion.kind in CONTROLS
    assert part.actuators or part.shaft is not None
    assert part.circuit is not None
    room = max((front.contour.bounds.width for front in part.front), default=0.0)
    assert all(actuator.contour.bounds.width <= room for actuator in part.actuators)
