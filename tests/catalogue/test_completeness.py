"""Every kind of part that a designer's list names is found by its words, or said to be left out, and why."""

from __future__ import annotations

import pytest

from panelart import catalogue
from panelart.catalogue.absent import absent
from panelart.catalogue.search import fits
from panelart.catalogue.symbols import symbol, symbol_names

# what is asked for, in a designer's words | a part that must be among those found
FOUND = [
    ("toggle miniature", "toggle-mini"),
    ("toggle standard", "toggle-12"),
    ("toggle three positions", "toggle-12-3pos"),
    ("slide switch", "slide-switch-2"),
    ("slide switch three", "slide-switch-3"),
    ("slide potentiometer", "fader-60"),
    ("rocker 29x14", "rocker-29x14"),
    ("rocker 19x13", "rocker-19x13"),
    ("rocker 30x22", "rocker-30x22"),
    ("push-button 12", "pushbutton-12"),
    ("push-button 16", "pushbutton-16"),
    ("push-button 22.5", "pushbutton-22"),
    ("push-button 30.5", "pushbutton-30"),
    ("pilot light 12", "pilot-12"),
    ("pilot light 16", "pilot-16"),
    ("pilot light 22.5", "pilot-22"),
    ("pilot light 30.5", "pilot-30"),
    ("emergency stop", "emergency-stop-22"),
    ("key switch", "key-switch-22"),
    ("rotary switch", "rotary-3-8-32"),
    ("potentiometer M7", "pot-m7"),
    ("potentiometer M9", "pot-m9"),
    ("potentiometer M10", "pot-m10"),
    ("potentiometer 1/4-32", "pot-1-4-32"),
    ("potentiometer 3/8-32", "pot-3-8-32"),
    ("potentiometer locating", "pot-3-8-32-located"),
    ("ten-turn potentiometer", "pot-ten-turn"),
    ("encoder", "encoder-m7"),
    ("indicator window", "window-40x20"),
    ("seven-segment", "digits-13-x4"),
    ("LCD", "lcd-16x2"),
    ("bar graph", "bar-graph-10"),
    ("LED 3", "led-3"),
    ("LED 5", "led-5"),
    ("lamp holder", "lamp-8"),
    ("panel meter", "meter-96x96"),
    ("controller 48", "meter-48x48"),
    ("D-sub 9", "dsub-9"),
    ("D-sub 15", "dsub-15"),
    ("D-sub 25", "dsub-25"),
    ("D-sub 37", "dsub-37"),
    ("D-sub 50", "dsub-50"),
    ("D-sub high density", "dsub-hd-15"),
    ("D-sub front", "dsub-9-front"),
    ("C14", "iec-c14"),
    ("C14 fuse", "iec-c14-fuse"),
    ("C14 switch", "iec-c14-switch-fuse"),
    ("C8", "iec-c8"),
    ("outlet sheet F", "iec-f-outlet"),
    ("XLR", "xlr"),
    ("loudspeaker connector", "speaker"),
    ("BNC", "bnc"),
    ("N jack", "n-jack"),
    ("SMA", "sma"),
    ("TNC", "tnc"),
    ("RCA", "phono"),
    ("3.5 jack", "jack-35"),
    ("6.35 jack", "jack-635"),
    ("DIN 41524", "din-41524"),
    ("M8", "m8"),
    ("M12", "m12"),
    ("military square flange", "ms5015-20"),
    ("military bayonet", "ms26482-14"),
    ("5015", "ms5015-20"),
    ("26482", "ms26482-14"),
    ("socket 4 mm", "socket-4"),
    ("binding posts pair", "binding-post-pair"),
    ("terminal block", "terminal-strip-8.3x4"),
    ("barrier strip", "terminal-strip-11.1x6"),
    ("RJ45 feed", "rj45-flange"),
    ("RJ45", "rj45"),
    ("USB feed-through", "usb-flange"),
    ("HDMI feed-through", "hdmi-flange"),
    ("fuse holder 5 x 20", "fuse-5x20"),
    ("fuse holder 6.3 x 32", "fuse-6x32"),
    ("circuit breaker", "breaker-3-8-27"),
    ("cable gland M12", "gland-m12"),
    ("cable gland M16", "gland-m16"),
    ("cable gland M20", "gland-m20"),
    ("cable gland M25", "gland-m25"),
    ("cable gland M32", "gland-m32"),
    *[(f"fan {size}", f"fan-{size}") for size in (40, 50, 60, 70, 80, 92, 120, 140)],
    ("fan guard", "fan-80-holes"),
    ("handle", "handle-88"),
    *[(f"rack slots {units}U", f"rack-slots-{units}u") for units in range(1, 7)],
    ("rack ears", "rack-slots-3u"),
    ("subrack 8 HP", "subrack-3u-8hp"),
    ("vent slots", "vent-slots-10"),
    ("vent staggered 60", "vent-staggered-3-40x40"),
    ("vent square", "vent-square-3-40x40"),
    *[(f"screw M{size}", f"screw-m{size}") for size in ("1.6", "2", "2.5", "3", "3.5", "4", "5", "6", "8")],
    *[(f"screw fine M{size}", f"screw-m{size}-fine") for size in ("1.6", "2", "2.5", "3", "3.5", "4", "5", "6", "8")],
    *[(f"screw coarse M{size}", f"screw-m{size}-coarse") for size in ("1.6", "2", "3", "4", "5", "6", "8")],
    *[(f"screw No. {number}", f"screw-no{number}") for number in (2, 3, 4, 5, 6, 8, 10)],
    *[(f"screw close No. {number}", f"screw-no{number}-close") for number in (2, 3, 4, 5, 6, 8, 10)],
    *[(f"countersunk M{size}", f"screw-m{size}-countersunk") for size in ("1.6", "2", "2.5", "3", "4", "5", "6", "8")],
    ("jack board", "jack-35-board"),
    ("pot 9 board", "pot-9-board"),
    ("led board", "led-3-board"),
    ("encoder 11", "encoder-11-board"),
    ("tactile button", "tact-6-board-13"),
    ("oled", "oled-096"),
    ("tft 2.8", "tft-28"),
    ("midi", "midi-din-board"),
    ("usb micro", "usb-micro-b-edge"),
    ("card slot", "microsd-edge"),
    ("light pipe", "light-pipe-board"),
    ("joystick", "joystick-board"),
    ("foot switch", "foot-switch-board"),
    ("keypad 4x4", "keypad-4x4"),
    ("buzzer", "buzzer-22"),
    ("beacon", "beacon-80"),
    ("touch display", "touch-4.3"),
    ("window 16 x 2", "lcd-16x2-window"),
    ("voltmeter module", "meter-led-45x26"),
    ("press-in nut", "press-nut-m3"),
    ("press stud", "press-stud-m3"),
    ("press standoff", "press-standoff-m3"),
    *[
        ("opening", f"opening-{shape}")
        for shape in ("circle", "rectangle", "square", "slot", "d", "double-d", "hexagon", "keyed", "chamfered")
    ],
]

ABSENT = [
    ("C6", "iec-c6"),
    ("C20", "iec-c20"),
    ("C19 outlet", "iec-c19"),
    ("C14 switch", "iec-c14-switch"),
    ("hour meter", "hour-meter"),
    ("counter", "hour-meter"),
    ("loudspeaker", "loudspeaker"),
    ("fan 172", "fan-172"),
    ("filter mat", "filter-fan"),
    ("quarter turn latch", "quarter-turn"),
    ("swing handle", "quarter-turn"),
    ("captive screw", "quarter-turn"),
    ("hinge", "hinge"),
    ("toggle keyway", "toggle-keyed"),
    ("toggle locating hole", "toggle-keyed"),
    ("encoder M9 locating hole", "bushing-located"),
    ("thumbwheel", "thumbwheel"),
    ("moving-coil meter", "meter-round"),
    ("round meter", "meter-round"),
    ("M16 circular", "m16"),
    ("feed-through terminal", "terminal-feed-through"),
    ("card guide", "card-guide"),
    ("rack ear bracket", "rack-ear"),
    ("RJ12", "rj12-edge"),
    ("rocker board", "rocker-board"),
    ("barrier terminal", "terminal-edge"),
    ("loudspeaker", "loudspeaker"),
    ("keypad 4x3", "keypad-4x3"),
]

SYMBOLS = [
    "power", "on", "off", "stand-by", "earth", "protective earth", "fuse", "alternating current", "direct current",
    "input", "output", "headphone", "microphone", "antenna", "data bus", "lamp", "caution", "double insulation",
    "temperature", "speed", "volume", "up", "down", "turn", "sine", "square wave", "saw", "pulse", "rising edge",
    "slope", "ac coupling", "gnd", "trigger", "high-pass", "low-pass", "bell", "shelf", "phase", "polarity",
    "stereo", "pan", "headset", "record", "previous", "next", "rewind", "mains plug", "transformer", "rectifier",
    "fuse slot", "momentary", "variability", "emergency stop", "pump", "valve", "motor", "heater", "cold", "drop",
    "pressure", "flow", "filter", "laser", "static discharge", "esd", "wait", "unplug", "indoor", "weee",
    "applied part", "reset", "timer", "foot switch", "pedal", "keyboard", "camera", "wireless", "wifi", "telephone",
    "information", "hand", "manual", "automatic", "horn",
]  # fmt: skip


@pytest.mark.few(40)
@pytest.mark.parametrize(("words", "name"), FOUND, ids=[f"{words} {name}" for words, name in FOUND])
def test_every_kind_asked_for_is_found_by_its_words(words: str, name: str) -> None:
    assert name in catalogue.matching(words)


@pytest.mark.parametrize(("words", "name"), ABSENT, ids=[words for words, _ in ABSENT])
def test_what_is_left_out_is_told_to_who_looks_for_it(words: str, name: str) -> None:
    told = {one.name: one for one in absent(words)}
    assert name in told
    assert told[name].why
    assert told[name].instead


def test_what_is_left_out_is_not_there() -> None:
    assert not {one.name for one in absent("")} & set(catalogue.names())


def test_what_to_take_instead_is_there() -> None:
    """Names of entries in the advice: a word with a hyphen that begins as an entry does."""
    starts = {name.split("-")[0] for name in catalogue.names()}
    for one in absent(""):
        for word in one.instead.replace(",", " ").replace(".", " ").split():
            if "-" in word and word.split("-")[0] in starts:
                assert any(name.startswith(word) for name in catalogue.names()), word


@pytest.mark.parametrize("words", SYMBOLS)
def test_every_symbol_asked_for_is_found_by_its_words(words: str) -> None:
    entries = [symbol(name) for name in symbol_names()]
    assert any(fits(words, one.name, one.title, *one.words) for one in entries)


def test_there_are_symbols_and_knobs_enough() -> None:
    assert len(symbol_names()) >= 120
    assert len(catalogue.knob_names()) >= 10
