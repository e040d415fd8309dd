"""Ratings that panels print, through the rules: fuses by IEC 60127 and IEC 60269, supplies by IEC 61010-1, 5.1.3.

The right and wrong ones of `tests/texts` say what the parser finds in them; here a dozen of each go through the rules.
Figures of inlets are those of IEC 60320-1 (from memory).
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart.diagnostics import Severity
from panelart.figure import Figure, Known
from panelart.model.circuit import Circuit, CircuitKind
from panelart.model.motion import MotionKind
from tests.checks.builders import block, component, control, front, layout, legend, part, request
from tests.checks.cases import JUST, found, refs

INLET = component("C14", cautions=("mains-inlet", "protective-earth"), opening=False)
FUSE = control(MotionKind.NONE, "fuse-5x20", cautions=("fuse",))
PLATE = "230 V ~ 50 Hz 2 A"
OF_FUSES = ("fuse-rating-missing", "fuse-rating-incomplete", "fuse-rating-implausible", "fuse-rating-contradictory")
OF_SUPPLIES = ("mains-rating-missing", "supply-rating-contradictory")


def titled(title, **more):
    """A part of the catalogue that has nothing but a title."""
    return replace(control(more.pop("motion", MotionKind.NONE), **more), title=title)


def told(rules, panel):
    """What the rules say, by their names."""
    return {rule: str(one.other) for rule in rules for one in found(rule, panel)}


def fuse(text):
    return layout(part("F1", FUSE, spot=(50, 50)), legend("F1", text, (50, 60, 60, 63)))


def inlet(text):
    return layout(part("J1", INLET), legend("J1", text, (20, 10, 60, 13)))


@pytest.mark.parametrize(
    "text",
    [
        "T 1 A L 250 V", "T1AL250V", "F1\nT 1 A L 250 V", "F500mAL250V", "T 3.15 A L 250 V", "T 32 mA L 250 V",
        "FF 500 mA H 250 V", "T 1,6 A L 250 V", "F 8 A H 250 V", "2 A T L 250 V", "6,3 A träge H 250 V",
        "T 5 A E 250 V", "gG 16 A 400 V", "2 x T 2 A L 250 V",
    ],
)  # fmt: skip
def test_of_a_right_fuse_nothing_is_told(text):
    assert told(OF_FUSES, fuse(text)) == {}


def beside(text, *more, spot=(40, 50)):
    """An inlet with words of no part beside it."""
    return layout(part("J1", INLET, spot=spot), *more, legend("text 1", text, (20, 10, 60, 13), "note"))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("230 V ~ 50 Hz 10 A", None),
        ("100-240 V ~ 50/60 Hz 40 W", None),
        ("24 V DC 2 A", None),
        ("Output 24 V ~ 50 Hz 2 A", None),
        ("Input 230 V ~ 50 Hz 1 A\nOutput 24 V ~ 50 Hz 2 A", None),
        ("230 V ~ 50 Hz 16 A", "current '16 A' is above the 10 A of J1"),
        ("230 V ~ 50 Hz 20 A", "current '20 A' is above the 10 A of J1"),
        ("230 V ~ 50 Hz 5 kW", "current '21.7 A' is above the 10 A of J1"),
        ("230 V ~ 500 Hz 40 W", "frequency '500 Hz' is implausible"),
        ("24 V ~ 2 A", "'24 V' is not a mains voltage"),
    ],
)
def test_a_rating_that_stands_by_itself_is_held_against_the_inlet(text, said):
    faults = [str(one.other) for one in found("supply-rating-contradictory", beside(text))]
    assert len(faults) == (said is not None)
    assert said is None or faults[0].startswith(said)


def test_a_rating_nearer_to_another_part_is_none_of_the_inlet():
    socket = titled("socket", circuit=Circuit(kind=CircuitKind.LOW_VOLTAGE))
    assert found("supply-rating-contradictory", beside("24 V ~ 2 A", part("X1", socket, spot=(40, 20)))) == []


@pytest.mark.parametrize(
    ("text", "missing"),
    [
        ("Output 230 V ~ 50 Hz 40 W", 4),
        ("Input 230 V ~ 50 Hz 40 W", 0),
        ("100\u2013240 V \u223f 50/60 Hz 40 W", 0),
        ("230 V \u263c 50 Hz 40 W", 0),
        ("230 V = 40 W", 2),
    ],
)
def test_each_piece_that_is_missing_of_a_rating_by_itself(text, missing):
    faults = [str(one.other) for one in found("mains-rating-missing", beside(text))]
    assert sum(one.count(" missing") for one in faults) == missing


@pytest.mark.parametrize(
    ("text", "rule", "said"),
    [
        ("T3A15 L 250V", "", ""),
        ("T 2 A Q 250 V", "fuse-rating-implausible", "breaking capacity 'Q' is not L, H or E"),
        ("T 1 A L 250 mV", "fuse-rating-implausible", "voltage '250 mV' is implausible for a fuse; minimum 12 V"),
        (
            "MDL 3 A 250 V",
            "fuse-rating-incomplete",
            "'MDL' is a series by type, not by IEC 60127: characteristic and breaking capacity are in its data sheet",
        ),
    ],
)
def test_fuses_that_are_written_otherwise(text, rule, said):
    assert told(OF_FUSES, fuse(text)) == ({rule: said} if rule else {})


NONE_OF_ALL = "characteristic missing (FF, F, M, T or TT); breaking capacity missing (L, H or E); voltage missing"


@pytest.mark.parametrize(
    ("text", "rule", "pieces"),
    [
        ("F1", "missing", ""),
        ("RS-232 A", "missing", ""),
        ("F1 A", "missing", ""),
        ("250 V", "missing", ""),
        (PLATE, "missing", ""),
        ("500 mA", "incomplete", NONE_OF_ALL),
        ("1 AMP", "incomplete", NONE_OF_ALL),
        ("FUSE 5 A", "incomplete", NONE_OF_ALL),
        ("T 1 A", "incomplete", "breaking capacity missing (L, H or E); voltage missing"),
        ("T 1 A L", "incomplete", "voltage missing"),
        ("2 A slow-blow 250 V", "incomplete", "breaking capacity missing (L, H or E)"),
        ("gG 16 A", "incomplete", "voltage missing"),
        ("T 315 A L 250 V", "implausible", "current '315 A' is above the 20 A of IEC 60127; perhaps '3.15 A'"),
        ("T 37 A H 250 V", "implausible", "current '37 A' is above the 20 A of IEC 60127"),
        ("T 1 mA L 250 V", "implausible", "current '1 mA' is below the 2 mA of IEC 60127"),
        ("T 1 A L 2500 V", "implausible", "voltage '2500 V' is implausible; maximum 1000 V"),
        (
            "T 3 A L 250 V",
            "implausible",
            "'3 A' is not in the current series of IEC 60127; nearest: 2.5 A or 3.15 A",
        ),
    ],
)
def test_of_a_wrong_fuse_it_is_told_what_is_wrong(text, rule, pieces):
    assert told(OF_FUSES, fuse(text)) == {f"fuse-rating-{rule}": pieces}


def test_severities_of_fuses():
    for text, rule, severity in (
        ("T 1 A", "fuse-rating-incomplete", Severity.NOTE),
        ("T 315 A L 250 V", "fuse-rating-implausible", Severity.WARNING),
        ("T 3 A L 250 V", "fuse-rating-implausible", Severity.NOTE),  # in the series of other standards
        ("F1", "fuse-rating-missing", Severity.WARNING),
    ):
        assert [finding.severity for finding in found(rule, fuse(text))] == [severity]


@pytest.mark.parametrize(("gap", "missing"), [(30.0, False), (30.0 + JUST, True)])
def test_a_rating_must_stand_near(gap, missing):
    holder = (part("F1", FUSE, spot=(50, 50)), front("F1", block(50, 50, 10, 10), "flange"))
    panel = layout(*holder, legend("a text", "T 1 A", (55 + gap, 49, 65 + gap, 51), "note"))
    assert bool(refs("fuse-rating-missing", panel)) is missing


@pytest.mark.parametrize(
    ("owner", "text", "missing"),
    [
        ("a text", "T 1 A L 250 V", False),
        ("a text", "FUSE 1 A", False),
        ("a text", "F1 1 A", False),
        ("a text", "OUTPUT 1 A MAX", True),  # of something else
        ("J1", "1 A", True),
        ("J1", "T 1 A L 250 V", False),
        ("a text", "24 V DC 2 A", True),
    ],
)
def test_what_stands_near_and_is_of_the_fuse(owner, text, missing):
    holder = (part("F1", FUSE, spot=(50, 50)), front("F1", block(50, 50, 10, 10), "flange"))
    other = part("J1", component(opening=False), spot=(90, 50))
    panel = layout(*holder, other, legend(owner, text, (60, 49, 70, 51), "note"))
    assert bool(refs("fuse-rating-missing", panel)) is missing


def test_a_rating_is_of_the_nearest_holder_and_never_of_two():
    holders = [
        thing
        for ref, x in (("F1", 50), ("F2", 80))
        for thing in (part(ref, FUSE, spot=(x, 50)), front(ref, block(x, 50, 10, 10), "flange"))
    ]
    between = legend("a text", "T 1 A L 250 V", (56, 49, 66, 51), "note")
    assert refs("fuse-rating-missing", layout(*holders, between)) == [("F2",)]
    own = legend("F1", "T 1 A L 250 V", (56, 49, 66, 51))
    assert refs("fuse-rating-missing", layout(*holders, own)) == [("F2",)]


def both(fuse_text, plate=PLATE, inlet_part=INLET, *more):
    holder = (part("F1", FUSE, spot=(50, 50)), legend("F1", fuse_text, (50, 60, 60, 63)))
    return layout(part("J1", inlet_part), legend("J1", plate, (20, 10, 60, 13)), *holder, *more)


C14 = titled("Appliance inlet C14, screw flange", cautions=("mains-inlet",))
C8 = titled("Appliance inlet C8, 2.5 A, no earth", cautions=("mains-inlet",))


@pytest.mark.parametrize(
    ("text", "plate", "of", "faults"),
    [
        ("T 2.5 A L 250 V", PLATE, C14, ""),
        ("T 2 A L 250 V", PLATE, C14, ""),
        ("T 1 A L 250 V", PLATE, C14, "current '1 A' is below the '2 A' of the mains rating"),
        ("T 16 A H 250 V", PLATE, C14, "current '16 A' is above the 10 A of J1 (appliance inlet C14)"),
        ("T 3.15 A L 250 V", PLATE, C8, "current '3.15 A' is above the 2.5 A of J1 (appliance inlet C8)"),
        ("T 2.5 A L 125 V", PLATE, C14, "voltage '125 V' is below the mains voltage '230 V'"),
        ("T 2.5 A L 125 V", "120 V ~ 60 Hz 2 A", C14, ""),
        ("T 12.5 A H 250 V", "120 V ~ 60 Hz 10 A", C14, ""),  # 15 A there in North America
        ("T 500 mA L 250 V", "100-240 V ~ 50/60 Hz 40 W", C14, ""),
        (
            "T 315 mA L 250 V",
            "100-240 V ~ 50/60 Hz 40 W",
            C14,
            "current '315 mA' is below the '0.4 A' of the mains rating",
        ),
        ("T 1 A L 250 V", "MAINS", C14, ""),
    ],
)
def test_a_fuse_agrees_with_the_rating_and_the_inlet(text, plate, of, faults):
    findings = found("fuse-rating-contradictory", both(text, plate, of))
    assert [(str(one.other), one.severity) for one in findings] == ([(faults, Severity.WARNING)] if faults else [])


@pytest.mark.parametrize(
    ("name", "title", "faults"),
    [
        ("Power", "Rocker switch, 6 A 250 V", ["current '8 A' is above the 6 A of S1 (rocker switch)"]),
        ("Netz", "Rocker switch, 6 A 250 V", ["current '8 A' is above the 6 A of S1 (rocker switch)"]),
        ("Power", "Rocker switch, 16 A 250 V", []),
        ("Power", "Rocker switch", []),
        ("Lamp", "Rocker switch, 6 A 250 V", []),
    ],
)
def test_a_fuse_agrees_with_the_switch_of_the_mains(name, title, faults):
    switch = part("S1", titled(title, motion=MotionKind.ROCKER), legend=request(name))
    findings = found("fuse-rating-contradictory", both("T 8 A H 250 V", PLATE, C14, switch))
    assert [str(one.other) for one in findings] == faults


@pytest.mark.parametrize(
    ("name", "note", "faults"),
    [
        ("Power\n6 A 250 V", "", ["current '8 A' is above the 6 A of S1 (rocker switch)"]),
        ("Power\n250 V 6 A", "", ["current '8 A' is above the 6 A of S1 (rocker switch)"]),
        ("Power", "Rated 6 A at 250 V.", ["current '8 A' is above the 6 A of S1 (rocker switch)"]),
        ("Power\n10 A 250 V", "", []),
    ],
)
def test_a_switch_says_its_current_in_its_legend_or_its_note(name, note, faults):
    rocker = replace(titled("Rocker switch", motion=MotionKind.ROCKER), note=note)
    switch = part("S1", rocker, legend=request(name))
    findings = found("fuse-rating-contradictory", both("T 8 A H 250 V", PLATE, C14, switch))
    assert [str(one.other) for one in findings] == faults


def rated(amps, volts, known=Known.LOOKED_UP):
    """A switch with a rating in its circuit and none in its title."""
    figures = {
        name: Figure(name=name, value=value, sources=("a data sheet",), known=known, unit=name[0].upper())
        for name, value in (("amps", amps), ("volts", volts))
    }
    return replace(
        titled("Rocker switch", motion=MotionKind.ROCKER), circuit=Circuit(kind=CircuitKind.CONTACTS, **figures)
    )


AMERICAN = "120 V ~ 60 Hz 2 A"
ABOVE = ["current '8 A' is above the 6 A of S1 (rocker switch)"]


# A rating is told at a voltage; a mains rises by 10 % above its nominal one (IEC 60038).
@pytest.mark.parametrize(
    ("of", "name", "plate", "faults"),
    [
        (rated(6.0, 250.0), "Power", PLATE, ABOVE),
        (rated(8.0, 250.0), "Power", PLATE, []),
        (rated(6.0, 250.0), "Lamp", PLATE, []),
        (rated(6.0, 250.0), "Power\n10 A 250 V", PLATE, []),  # the switch that was bought carries more
        (rated(6.0, 250.0), "Power\n3 A 250 V", PLATE, ABOVE),
        (rated(6.0, 115.0), "Power", PLATE, []),  # no rating at 230 V
        (rated(6.0, 110.0), "Power", AMERICAN, ABOVE),
        (rated(6.0, 250.0), "Power", AMERICAN, []),  # at 120 V it may carry more
        (rated(6.0, 250.0, Known.MEMORY), "Power", PLATE, []),
    ],
)
def test_a_switch_says_its_current_in_its_circuit(of, name, plate, faults):
    switch = part("S1", of, legend=request(name))
    findings = found("fuse-rating-contradictory", both("T 8 A H 250 V", plate, C14, switch))
    assert [str(one.other) for one in findings] == faults


# IEC 60898-1: C16 is a characteristic and a current, beside a breaker only.
@pytest.mark.parametrize(
    ("text", "faults"),
    [
        ("C16", ["current '16 A' is above the 10 A of J1 (appliance inlet C14)"]),
        ("C 10 A", []),
        ("B1", ["current '1 A' is below the '2 A' of the mains rating"]),
        ("Main", []),
    ],
)
def test_the_one_breaker_of_a_panel_without_fuses_is_that_of_the_mains(text, faults):
    breaker = control(MotionKind.PUSH, "breaker", cautions=("breaker",))
    panel = layout(
        part("J1", C14),
        legend("J1", PLATE, (20, 10, 60, 13)),
        part("CB1", breaker, spot=(90, 50)),
        legend("CB1", text, (85, 60, 95, 63)),
    )
    assert [str(one.other) for one in found("fuse-rating-contradictory", panel)] == faults


def test_fuses_that_may_be_of_other_circuits_are_not_held_against_the_mains():
    second = (part("F2", FUSE, spot=(90, 50)), legend("F2", "T 200 mA L 250 V", (90, 60, 99, 63)))
    assert found("fuse-rating-contradictory", both("T 4 A L 250 V", PLATE, C14, *second)) == []
    drawer = titled("Appliance inlet C14 with fuse drawer", cautions=("mains-inlet", "fuse"))
    panel = both("T 200 mA L 250 V", f"{PLATE}\nT 1 A L 250 V", drawer)
    assert refs("fuse-rating-contradictory", panel) == [("J1",)]
    assert found("fuse-rating-contradictory", fuse("T 1 A L 250 V")) == []


@pytest.mark.parametrize(
    "text",
    [
        "230 V ~ 50 Hz 40 W", "230 V AC 50 Hz 0.5 A", "100-240V~ 50-60Hz 1.2A", "100\u2013240 V ~ 50/60 Hz 40 W",
        "230 V 50 Hz 0.2 A", "230 V, 50 Hz, 100 VA", "120 V~ 60 Hz 2 A", "3~ 400 V 50 Hz 5 kW",
        "115 V 400 Hz 200 VA", "230 V ~ 50 Hz 10 A 2.3 kW", "AC 230 V 50 Hz 25 W", "115/230 V ~ 50/60 Hz 60 VA",
    ],
)  # fmt: skip
def test_of_a_right_supply_nothing_is_told(text):
    assert told(OF_SUPPLIES, inlet(text)) == {}


EVERYTHING = "voltage missing; kind of current missing (~ or \u2393); frequency missing; power or current missing"


@pytest.mark.parametrize(
    ("text", "missing", "contradictory"),
    [
        ("MAINS", EVERYTHING, ""),
        ("230 V", EVERYTHING.removeprefix("voltage missing; "), ""),
        ("230 V ~", "frequency missing; power or current missing", ""),
        ("230 V 50 Hz", "power or current missing", ""),
        ("230 V 40 W", "kind of current missing (~ or \u2393); frequency missing", ""),
        ("230 V AC 40 W", "frequency missing", ""),
        ("230 V DC 50 Hz", "power or current missing", "direct current has no frequency, but '50 Hz' is given"),
        ("230 V DC 50 Hz 40 W", "", "direct current has no frequency, but '50 Hz' is given"),
        ("240\u2013100 V ~ 50 Hz 1 A", "", "the range '240\u2013100 V' is reversed"),
        (
            "230 V ~ 5 Hz 1 A",
            "",
            "frequency '5 Hz' is implausible for mains (16.7, 50, 60 or 400 Hz)",
        ),
        (
            "100-240V~ 50/60Hz 1.2A 200W",
            "",
            "power '200 W' contradicts current '1.2 A' at '100 V'; maximum 120 W",
        ),
        ("3~ 120 V 50 Hz 5 A", "", "three phases at '120 V' are implausible; minimum 190 V"),
        ("2300 V ~ 50 Hz 1 A", "", "voltage '2300 V' is implausible; maximum 1000 V"),
    ],
)
def test_of_a_wrong_supply_it_is_told_what_is_wrong(text, missing, contradictory):
    told_ = {"mains-rating-missing": missing, "supply-rating-contradictory": contradictory}
    assert told(OF_SUPPLIES, inlet(text)) == {rule: pieces for rule, pieces in told_.items() if pieces}


@pytest.mark.parametrize(
    ("text", "faults"),
    [
        ("24 V DC 1 A 100 W", ["power '100 W' contradicts current '1 A' at '24 V'; maximum 24 W"]),
        ("24 V DC 50 Hz", ["direct current has no frequency, but '50 Hz' is given"]),
        ("24 V DC 1 A", []),
        ("10 V AC 1 kHz", []),  # what a generator gives
        ("12 V =", []),
    ],
)
def test_ratings_away_from_the_mains(text, faults):
    panel = layout(part("J2", component(opening=False)), legend("J2", text, (20, 10, 60, 13)))
    assert [str(one.other) for one in found("supply-rating-contradictory", panel)] == faults


def test_what_is_no_mains_rating():
    # Direct current elsewhere, the legend of a fuse, and a voltage of an output say nothing of the mains.
    for owner, text in (("J2", "24 V DC 2 A"), ("F1", PLATE), ("J2", "24 V")):
        other = (part("J2", component(opening=False)), part("F1", FUSE), legend(owner, text, (20, 10, 60, 13)))
        (finding,) = found("mains-rating-missing", layout(part("J1", INLET), *other))
        assert str(finding.other) == EVERYTHING
    note = legend("rating", "100-240 V ~ 50/60 Hz 40 W", (20, 10, 60, 13), "note")
    assert found("mains-rating-missing", layout(part("J1", INLET), note)) == []
    assert found("mains-rating-missing", layout(note)) == []


def test_a_rating_above_its_inlet():
    for text, faults in (
        ("230 V ~ 50 Hz 16 A", ["current '16 A' is above the 10 A of J1 (appliance inlet C14)"]),
        ("230 V ~ 50 Hz 10 A", []),
        ("120 V ~ 60 Hz 15 A", []),
        ("230 V ~ 50 Hz 3 kW", ["current '13 A' is above the 10 A of J1 (appliance inlet C14)"]),
    ):
        panel = layout(part("J1", C14), legend("J1", text, (20, 10, 60, 13)))
        assert [str(one.other) for one in found("supply-rating-contradictory", panel)] == faults
