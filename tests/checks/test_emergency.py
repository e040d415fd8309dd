"""Emergency stops: red on yellow, without words. Hues against the library colorspacious, which is not ours."""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from panelart.catalogue import component as catalogued
from panelart.checks.colours import hue
from panelart.checks.emergency import RED, YELLOW, is_emergency
from panelart.checks.limits import standard
from panelart.cutouts import stand
from panelart.diagnostics import Severity
from panelart.lettering.outline import shape_of
from panelart.messages import checks as said
from panelart.messages import checks_things as things
from panelart.model.circuit import Circuit, CircuitKind, SafetyFunction
from panelart.model.layout import Mark
from panelart.model.motion import MotionKind
from panelart.model.panel import Ink
from tests.checks.builders import at, block, control, disc, front, layout, legend, part
from tests.checks.cases import JUST, found, measured, refs

cspace_convert = pytest.importorskip("colorspacious", reason="colorspacious is the oracle here").cspace_convert

STOP = control(MotionKind.PUSH, "emergency-stop", cautions=("emergency-stop",))
BY_FUNCTION = control(
    MotionKind.PUSH, "stop", circuit=Circuit(kind=CircuitKind.CONTACTS, safety=SafetyFunction.EMERGENCY_STOP)
)
SIGNAL_RED, SIGNAL_YELLOW = "#B81F20", "#F9A800"


@pytest.mark.parametrize(("of", "is_one"), [(STOP, True), (BY_FUNCTION, True), (control(MotionKind.PUSH), False)])
def test_an_emergency_stop_is_known_by_its_function(of, is_one):
    assert is_emergency(part("S9", of)) is is_one


def _stop(mushroom=SIGNAL_RED, plate=SIGNAL_YELLOW, *more, covers=True, **changes):
    things = [replace(front("S9", disc(100, 50, 40), "mushroom"), height=45.0, colour=mushroom)]
    if plate is not None:
        things.append(replace(front("S9", disc(100, 50, 60), "disc", covers=covers), height=1.0, colour=plate))
    return layout(part("S9", STOP, spot=(100, 50)), *things, *more, **changes)


@pytest.mark.parametrize("colour", ["#9B2423", "#CC0605", "#F9A800", "#FAD201", "#E25303", "#2A2E33", "#40A060"])
def test_hues_are_those_of_another_library(colour):
    rgb = [int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)]
    _, a, b = cspace_convert(rgb, "sRGB1", "CIELab")
    assert hue(colour) == pytest.approx((np.degrees(np.arctan2(b, a)) % 360, np.hypot(a, b)), abs=0.2)


def test_red_on_yellow_is_in_order():
    assert found("emergency-stop-miscoloured", _stop()) == []


@pytest.mark.parametrize("red", ["#9B2423", "#CC0605", "#C51D34"])  # RAL 3001, 3020, 3018 as screens show them
@pytest.mark.parametrize("yellow", ["#F9A800", "#FAD201", "#FFD700"])  # RAL 1003, 1023
def test_the_usual_shades_pass(red, yellow):
    assert found("emergency-stop-miscoloured", _stop(red, yellow)) == []


@pytest.mark.parametrize(
    ("mushroom", "plate", "what"),
    [
        ("#1B1D1F", SIGNAL_YELLOW, "mushroom"),
        ("#E25303", SIGNAL_YELLOW, "mushroom"),  # RAL 2004, an orange
        ("#1F5FA8", SIGNAL_YELLOW, "mushroom"),
        (SIGNAL_RED, "#A9B0B7", "disc"),
        (SIGNAL_RED, "#E25303", "disc"),
        (SIGNAL_RED, None, "face"),  # no disc: the face shows, which is dark
    ],
)
def test_another_colour_is_told_of_the_surface_that_has_it(mushroom, plate, what):
    (finding,) = found("emergency-stop-miscoloured", _stop(mushroom, plate))
    assert finding.refs == ("S9",)
    assert what in str(finding.subject)
    assert finding.severity is Severity.WARNING


def test_a_face_in_yellow_is_a_background():
    assert found("emergency-stop-miscoloured", _stop(SIGNAL_RED, None, coat=SIGNAL_YELLOW)) == []


def _area(side: float, colour: str) -> Mark:
    ink = Ink(name="signal", colour=colour)
    contour = block(100, 50, side, side)
    return Mark(ref="art 1", kind="art", shape=shape_of(contour), width=0.0, ink=ink, where=at(30), filled=True)


def test_an_area_of_ink_is_a_background():
    assert found("emergency-stop-miscoloured", _stop(SIGNAL_RED, None, _area(70, SIGNAL_YELLOW))) == []
    (finding,) = found("emergency-stop-miscoloured", _stop(SIGNAL_RED, None, _area(70, "#2060C0")))
    assert finding.subject == things.area_behind(ref="S9")


def test_a_colour_that_is_not_written_is_asked_for():
    (finding,) = found("emergency-stop-miscoloured", _stop(""))
    assert finding.severity is Severity.NOTE
    assert finding.other == said.colour_missing(colour=said.red())


@pytest.mark.parametrize(("step", "expected"), [(JUST, 0), (-JUST, 1)])
def test_both_sides_of_the_limits(step, expected):
    for which, value, wanted in (
        ("hue.maximum", abs(hue("#E25303")[0] - RED), "#E25303"),
        ("chroma.minimum", -1, "#9B2423"),
    ):
        name = f"emergency.{which}"
        limit = value + step if value > 0 else hue(wanted)[1] - step
        limits = {**standard(), name: replace(standard()[name], value=limit)}
        told = found("emergency-stop-miscoloured", _stop(wanted), limits)
        assert [finding.limit_name for finding in told if "mushroom" in str(finding.subject)] == [name] * expected


def test_the_limits_leave_yellow_and_red_apart():
    maximum = standard()["emergency.hue.maximum"].value
    assert RED + maximum < YELLOW - maximum


@pytest.mark.parametrize(("gap", "told"), [(JUST, []), (-JUST, [("text 1", "S9")])])
def test_words_in_the_yellow_area(gap, told):
    words = legend("text 1", "STOP", (90, 85 + gap, 110, 89))
    assert refs("emergency-stop-lettered", _stop(SIGNAL_RED, None, _area(70, SIGNAL_YELLOW), words)) == told


def test_its_own_symbol_may_stand_in_the_yellow_area():
    """ISO 13850:2015, 4.3.7, as quoted: where a symbol is needed for clarification, IEC 60417-5638."""
    symbol = replace(legend("text 1", "emergency-stop", (92, 80, 98, 86)), font="symbols-light")
    other = replace(legend("text 2", "stop", (102, 80, 108, 86)), font="symbols-light")
    words = legend("text 3", "emergency-stop", (99, 81, 101, 84))
    stop = _stop(SIGNAL_RED, None, _area(70, SIGNAL_YELLOW), symbol, other, words)
    assert refs("emergency-stop-lettered", stop) == [("text 2", "S9"), ("text 3", "S9")]


def test_words_on_a_printed_plate_and_not_twice_under_a_disc():
    words = legend("S9", "STOP", (95, 73, 105, 76))
    plate = _stop(SIGNAL_RED, SIGNAL_YELLOW, words, covers=False)
    assert measured("emergency-stop-lettered", plate) == pytest.approx([7.0], abs=0.02)  # the disc ends at 80
    under = _stop(SIGNAL_RED, SIGNAL_YELLOW, words)
    assert found("emergency-stop-lettered", under) == []
    assert refs("legend-under-part", under) == [("S9",)]


def test_the_catalogue_s_own_is_red_on_yellow_where_it_stands():
    made = part("S9", catalogued("emergency-stop-22"), spot=(100, 50))
    whole = layout(made)
    whole = replace(whole, envelopes=stand(whole.panel))
    assert {one.colour for one in whole.envelopes} >= {SIGNAL_RED, SIGNAL_YELLOW}
    assert found("emergency-stop-miscoloured", whole) == []
