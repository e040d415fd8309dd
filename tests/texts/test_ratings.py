"""Ratings of fuses and supplies: of sixty right ones nothing is said, of sixty wrong ones what is wrong.

Right are currents of the series of IEC 60127 (R10 of ISO 3) and IEC 60269, voltages of usual fuses, and plates of
equipment as IEC 61293 and IEC 60335-1, 7.1, have them (from memory). What is said of a wrong one is the id of each
message, in order.
"""

from __future__ import annotations

import pytest

from panelart.texts.parse import parse
from panelart.texts.rating_reading import fuse_of, supply_of
from panelart.texts.ratings import Duty, Protection

RIGHT_FUSES = (
    """
T 1 A L 250 V|T1AL250V|T 3.15 A L 250 V|F500mAL250V|T 2 A H 250 V|FF 500 mA H 250 V|TT 2 A L 250 V|M 1 A L 250 V
T 32 mA L 250 V|T 50 mA L 250 V|T 63 mA L 250 V|F 100 mA L 250 V|T 125 mA L 250 V|T 160 mA L 250 V|F 200 mA L 250 V
T 250 mA L 250 V|T 315 mA L 250 V|T 400 mA L 250 V|F 630 mA L 250 V|T 800 mA L 250 V|T 1.25 A L 250 V|T 1,6 A L 250 V
T 2.5 A H 250 V|T4AL250V|T 5 A E 250 V|T6,3AH250V|F 8 A H 250 V|T 10 A H 250 V|2 A T L 250 V|6,3 A träge H 250 V
""".replace("\n", "|")
    .strip("|")
    .split("|")
)

RIGHT_SUPPLIES = (
    """
230 V ~ 50 Hz 40 W|230 V AC 50 Hz 0.5 A|100-240V~ 50-60Hz 1.2A|100–240 V ~ 50/60 Hz 40 W|115/230 V ~ 50/60 Hz 60 VA
230 V, 50 Hz, 100 VA|120 V~ 60 Hz 2 A
3~ 400 V 50 Hz 5 kW|3/N/PE ~ 400/230 V 50 Hz 16 A|24 V DC 2 A|12 V ⎓ 1 A|12 V AC/DC 50 Hz 1 A
DC 24 V 48 W|19V⎓3.42A|5 V DC 10 W|115 V 400 Hz 200 VA|230 V ~ 16.7 Hz 50 W|AC 230 V 50 Hz 25 W|~ 110 V 60 Hz 100 W
230 V 50 Hz 2 A 460 VA|230 V ~ 50 Hz 10 A 2.3 kW|100-240V~ 50/60Hz 1.2A 100W|48 V DC 5 A 240 W|400 V 3~ 50 Hz 16 A 11 kW
200 V 3~ 50 Hz 10 A|120/240 V ~ 60 Hz 15 A|230VAC 50Hz 6A|24 V AC/DC 50 Hz 5 VA|220-240 V ~ 50 Hz 2000 W|600 V DC 10 A
""".replace("\n", "|")
    .strip("|")
    .split("|")
)

WRONG_FUSES = {
    "T 315 A L 250 V": ["current-too-high-near"],
    "T 630 A L 250 V": ["current-too-high-near"],
    "T 500 A H 250 V": ["current-too-high-near"],
    "F 1000 A H 250 V": ["current-too-high-near"],
    "T 37 A H 250 V": ["current-too-high"],
    "T 3 A L 250 V": ["current-not-in-series"],
    "T 7 A H 250 V": ["current-not-in-series"],
    "T 3.5 A L 250 V": ["current-not-in-series"],
    "F 300 mA L 250 V": ["current-not-in-series"],
    "T 15 A H 250 V": ["current-not-in-series"],
    "T 1.5 A L 250 V": ["current-not-in-series"],
    "T 1 mA L 250 V": ["current-too-low"],
    "T 0 A L 250 V": ["current-too-low"],
    "T 1 A L 2500 V": ["voltage-not-plausible"],
    "T 1 A L 0 V": ["voltage-is-zero"],
    "gG 17 A 400 V": ["current-not-in-series"],
    "gG 1 A 400 V": ["current-too-low"],
    "T 315 A L 2500 V": ["current-too-high-near", "voltage-not-plausible"],
    "1 A": ["no-characteristic", "no-breaking-capacity", "no-voltage"],
    "FUSE 5 A": ["no-characteristic", "no-breaking-capacity", "no-voltage"],
    "T 1 A": ["no-breaking-capacity", "no-voltage"],
    "T 3.15 A": ["no-breaking-capacity", "no-voltage"],
    "T 1 A L": ["no-voltage"],
    "T 2 A 250 V": ["no-breaking-capacity"],
    "T 2 A / 250 V": ["no-breaking-capacity"],
    "FUSE 2 A L 250 V": ["no-characteristic"],
    "FUSE: 5 A 250 V": ["no-characteristic", "no-breaking-capacity"],
    "6,3 AT": ["no-breaking-capacity", "no-voltage"],
    "2 A slow-blow 250 V": ["no-breaking-capacity"],
    "T 315 A": ["no-breaking-capacity", "no-voltage", "current-too-high-near"],
    "gG 16 A": ["no-voltage"],
}

WRONG_SUPPLIES = {
    "230 V DC 50 Hz 40 W": ["dc-with-frequency"],
    "12 V ⎓ 50 Hz 1 A": ["dc-with-frequency"],
    "DC 24 V 60 Hz 1 A": ["dc-with-frequency"],
    "240–100 V ~ 50 Hz 1 A": ["range-reversed"],
    "240-100V~ 50/60Hz 1A": ["range-reversed"],
    "230 V ~ 60-50 Hz 1 A": ["range-reversed"],
    "230 V ~ 5 Hz 1 A": ["frequency-not-plausible"],
    "230 V ~ 500 kHz 1 A": ["frequency-not-plausible"],
    "230 V ~ 100 Hz 1 A": ["frequency-not-plausible"],
    "230 V ~ 30 Hz 40 W": ["frequency-not-plausible"],
    "230 V ~ 50 Hz 1 A 1000 W": ["power-not-plausible"],
    "100-240V~ 50/60Hz 1.2A 200W": ["power-not-plausible"],
    "24 V DC 1 A 100 W": ["power-not-plausible"],
    "12 V ⎓ 500 mA 60 W": ["power-not-plausible"],
    "3~ 400 V 50 Hz 10 A 11 kW": ["power-not-plausible"],
    "115/230 V ~ 50 Hz 0.5 A 150 VA": ["power-not-plausible"],
    "3~ 120 V 50 Hz 5 A": ["phases-not-plausible"],
    "3~ 24 V 50 Hz 5 A": ["phases-not-plausible"],
    "2300 V ~ 50 Hz 1 A": ["voltage-not-plausible"],
    "23 kV ~ 50 Hz 1 A": ["voltage-not-plausible"],
    "0 V ~ 50 Hz 1 A": ["voltage-is-zero"],
    "230 V": ["no-nature", "no-frequency", "no-power-or-current"],
    "100–240 V": ["no-nature", "no-frequency", "no-power-or-current"],
    "230 V ~": ["no-frequency", "no-power-or-current"],
    "230 V 50 Hz": ["no-power-or-current"],
    "230 V ~ 50 Hz": ["no-power-or-current"],
    "230 V 2 A": ["no-nature", "no-frequency"],
    "24 V DC": ["no-power-or-current"],
    "230 V AC 40 W": ["no-frequency"],
    "230 V DC 50 Hz": ["no-power-or-current", "dc-with-frequency"],
}


def faults(rating) -> list[str]:
    assert rating is not None
    return [message.id.removeprefix("texts.") for message in (*rating.missing, *rating.problems)]


def test_there_are_sixty_of_each() -> None:
    assert len(set(RIGHT_FUSES)) + len(set(RIGHT_SUPPLIES)) >= 60
    assert len(WRONG_FUSES) + len(WRONG_SUPPLIES) >= 60


@pytest.mark.parametrize("text", RIGHT_FUSES)
def test_of_a_right_fuse_nothing_is_said(text: str) -> None:
    assert faults(fuse_of(parse(text))) == []


@pytest.mark.parametrize("text", RIGHT_SUPPLIES)
def test_of_a_right_supply_nothing_is_said(text: str) -> None:
    assert faults(supply_of(parse(text))) == []


@pytest.mark.parametrize(("text", "said"), WRONG_FUSES.items())
def test_of_a_wrong_fuse_it_is_said_what_is_wrong(text: str, said: list[str]) -> None:
    assert faults(fuse_of(parse(text))) == said


@pytest.mark.parametrize(("text", "said"), WRONG_SUPPLIES.items())
def test_of_a_wrong_supply_it_is_said_what_is_wrong(text: str, said: list[str]) -> None:
    assert faults(supply_of(parse(text))) == said


def test_what_is_said_names_figures_and_what_is_near() -> None:
    (high,) = fuse_of(parse("T 315 A L 250 V")).problems
    assert str(high) == "current '315 A' is above the 20 A of IEC 60127; perhaps '3.15 A'"
    (series,) = fuse_of(parse("T 3 A L 250 V")).problems
    assert str(series) == "'3 A' is not in the current series of IEC 60127; nearest: 2.5 A or 3.15 A"
    (power,) = supply_of(parse("100-240V~ 50/60Hz 1.2A 200W")).problems
    assert str(power) == "power '200 W' contradicts current '1.2 A' at '100 V'; maximum 120 W"


@pytest.mark.parametrize("text", ["RS-232 A", "INPUT", "T 250 V", "F1", "24 h"])
def test_what_has_no_current_is_no_fuse(text: str) -> None:
    assert fuse_of(parse(text)) is None


# IEC 60529, tables 1 to 3 and clause 4.
@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("IP65", []),
        ("IPX4", []),
        ("IP2X", []),
        ("IP00", []),
        ("IP20B", []),
        ("IP23CS", []),
        ("IP69K", []),
        ("IP6X", []),
        ("IP79", ["no-such-numeral"]),
        ("IP95", ["no-such-numeral"]),
        ("IPXX", ["nothing-said"]),
        ("IPXXB", []),
        ("IP65K", ["nine-without-k"]),
        ("IP23SC", ["letters-out-of-order"]),
        ("IP23Q", ["letters-out-of-order"]),
        ("IP44SM", ["letters-out-of-order"]),
    ],
)
def test_degrees_of_protection(text: str, said: list[str]) -> None:
    (means,) = parse(text).meanings()
    assert isinstance(means, Protection)
    assert [message.id.removeprefix("texts.") for message in means.problems] == said


# IEC 60034-1, 4.2.
@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("S3 25 %", []),
        ("S2 60 min", []),
        ("S6 40 %", []),
        ("DUTY S1", []),
        ("DUTY S2", ["no-duration"]),
        ("DUTY S3", ["no-duration-factor"]),
        ("S1 25 %", ["duration-without-need"]),
        ("S3 125 %", ["duration-factor-too-high"]),
        ("S2 25 %", ["no-duration"]),
        ("S3 60 min", ["no-duration-factor"]),
    ],
)
def test_duty(text: str, said: list[str]) -> None:
    (means,) = [each for each in parse(text).meanings() if isinstance(each, Duty)]
    assert [message.id.removeprefix("texts.") for message in means.problems] == said


# IEC 60269-1 to -7: gG, gM and aM to 1250 A; gR, aR and gS (semiconductors) as makers list them; gPV of IEC 60269-6,
# 15 A and 30 A among them, to 1500 V direct; from memory, the steps of makers by common practice.
@pytest.mark.parametrize(
    "text",
    [
        "gPV 15 A 1000 V",
        "gPV 30 A 1000 V",
        "gPV 1 A 1000 V",
        "gPV 12 A 1500 V",
        "gG 500 A 500 V",
        "gG 630 A 400 V",
        "gG 1250 A 400 V",
        "gG 13 A 400 V",
        "gM 32 A 400 V",
        "aM 0.5 A 500 V",
        "aM 800 A 500 V",
        "gR 15 A 690 V",
        "aR 550 A 690 V",
        "aR 1400 A 1250 V",
        "gS 100 A 690 V",
        "gBat 50 A 1000 V",
    ],
)
def test_power_fuses_of_the_series_of_their_class_are_right(text: str) -> None:
    assert [message.id for message in fuse_of(parse(text)).problems] == []


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("gPV 17 A 1000 V", ["current-not-in-series"]),
        ("gG 15 A 400 V", ["current-not-in-series"]),
        ("gG 700 A 400 V", ["current-not-in-series"]),
        ("gG 1700 A 400 V", ["current-too-high"]),
        ("gG 16 A 1500 V", ["voltage-not-plausible"]),
        ("gPV 16 A 3000 V", ["voltage-not-plausible"]),
    ],
)
def test_power_fuses_outside_the_series_of_their_class_are_told(text: str, said: list[str]) -> None:
    assert [message.id.removeprefix("texts.") for message in fuse_of(parse(text)).problems] == said


# 115/200 V, 400 Hz of aircraft is named by the voltage to neutral (ISO 6858, from memory).
@pytest.mark.parametrize(
    "text", ["115 V 3~ 400 Hz", "400 Hz 115 V 3~", "3~ 115 V 400 Hz", "24 V UC 50 Hz", "交流 220 V"]
)
def test_supplies_of_other_trades_are_right(text: str) -> None:
    assert [message.id for message in supply_of(parse(text)).problems] == []
