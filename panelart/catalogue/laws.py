"""The laws of scales: how far along its travel a control or pointer is at a value. Published ones with their sources.

A law is told as the part of the travel, 0 to 1. Those of level meters and faders are of the whole travel: a scale from
-60 dB begins where the law has -60 dB, not at the end stop.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue.formula import Names, worked_out
from panelart.messages import catalogue as said
from panelart.model.panel import Law, Scale

VARIABLE: Final = "v"
"""What a formula calls the value."""

NAMES: Final = Names(unknown=said.unknown_in_law, accepted=lambda _: said.variable_of_law(VARIABLE))

_NEAR: Final = 1e-9


class Published(Struct, frozen=True, kw_only=True):
    """A law with its source: where a value is on the whole travel, and the values that its scale is marked at."""

    source: str
    travelled: Callable[[float], float]
    low: float
    high: float
    marks: tuple[float, ...]


def _through(points: Sequence[tuple[float, float]]) -> Callable[[float], float]:
    """Straight lines through points (value, share), which grow; the outer lines run on."""

    def travelled(value: float) -> float:
        lines = list(pairwise(points))
        (low, from_), (high, to) = next((line for line in lines if value <= line[1][0] + _NEAR), lines[-1])
        return from_ + (value - low) / (high - low) * (to - from_)

    return travelled


def _voltage(full: float) -> Callable[[float], float]:
    """The deflection of a movement that is linear in voltage, for dB below full deflection."""
    return lambda value: math.pow(10.0, (value - full) / 20.0)


def _type_i(value: float) -> float:
    """The deflection of a type I programme meter for dB about its reference, 1 at +6 dB; 0 below -58 dB."""
    return max(0.0, _fourth_root(value) / _fourth_root(_TYPE_I_TOP))


def _fourth_root(value: float) -> float:
    return math.pow(_TYPE_I_GAIN * math.pow(10.0, (value - _TYPE_I_TOP) / 20.0), 0.25) - _TYPE_I_REST


_TYPE_I_TOP: Final = 6.0
_TYPE_I_GAIN: Final = 2.002353
_TYPE_I_REST: Final = 0.1885
"""Top of the scale in dB, and the two figures of its law: x42/meters.lv2, gui/meterimage.c (img_deflect_din)."""

_METER: Final = ((-70, 0.0), (-60, 0.025), (-50, 0.075), (-40, 0.15), (-30, 0.3), (-20, 0.5), (0, 1.0))
_FADER: Final = ((-60, 0.04), (-40, 0.16), (-10, 0.52), (10, 1.0))

PUBLISHED: Final[Mapping[Law, Published]] = {
    Law.DIGITAL_PEAK: Published(
        source=(
            "IEC 60268-18 as six or more independent programs have it, among them Ardour/ardour, "
            "gtk2_ardour/logmeter.h (log_meter); the standard was not seen"
        ),
        travelled=_through(_METER),
        low=-70.0,
        high=0.0,
        marks=(-60.0, -50.0, -40.0, -30.0, -20.0, -10.0, 0.0),
    ),
    Law.PPM_I: Published(
        source=(
            "IEC 60268-10, type I (DIN 45406), as x42/meters.lv2, gui/meterimage.c (img_deflect_din) has it: fourth "
            "root of the voltage; Ardour/ardour, gtk2_ardour/logmeter.h (meter_deflect_din) agrees within 0.001 of "
            "the deflection; the standard was not seen"
        ),
        travelled=_type_i,
        low=-50.0,
        high=_TYPE_I_TOP,
        marks=(-50.0, -40.0, -30.0, -20.0, -10.0, -5.0, 0.0, 5.0),
    ),
    Law.PPM_NORDIC: Published(
        source=(
            "IEC 60268-10, type I, Nordic scale: linear in dB from -42 to +12, as Ardour/ardour, "
            "gtk2_ardour/logmeter.h (meter_deflect_nordic) has it; x42/meters.lv2 begins at -36; the standard was not "
            "seen"
        ),
        travelled=_through(((-42, 0.0), (12, 1.0))),
        low=-42.0,
        high=12.0,
        marks=(-42.0, -36.0, -30.0, -24.0, -18.0, -12.0, -6.0, 0.0, 6.0, 12.0),
    ),
    Law.PPM_IIA: Published(
        source="IEC 60268-10, type IIa: 1 to 7, 4 dB each",
        travelled=_through(((1, 0.0), (7, 1.0))),
        low=1.0,
        high=7.0,
        marks=(1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0),
    ),
    Law.PPM_IIB: Published(
        source="IEC 60268-10, type IIb: -12 to +12 dB",
        travelled=_through(((-12, 0.0), (12, 1.0))),
        low=-12.0,
        high=12.0,
        marks=(-12.0, -8.0, -4.0, 0.0, 4.0, 8.0, 12.0),
    ),
    Law.VU: Published(
        source=(
            "ANSI C16.5-1942 and IEC 60268-17 as described: deflection = 10^(VU/20) / 10^(3/20); x42/meters.lv2, "
            "gui/meterimage.c (img_deflect_vu) the same"
        ),
        travelled=_voltage(3.0),
        low=-math.inf,
        high=3.0,
        marks=(-20.0, -10.0, -7.0, -5.0, -3.0, -2.0, -1.0, 0.0, 1.0, 2.0, 3.0),
    ),
    Law.FADER: Published(
        source="public audio code citing a music-DSP archive: a fader of 100 mm, 5 dB per 12 mm at the top",
        travelled=_through(_FADER),
        low=-60.0,
        high=10.0,
        marks=(-60.0, -40.0, -30.0, -20.0, -10.0, -5.0, 0.0, 5.0, 10.0),
    ),
}

_USUAL: Final[Mapping[Law, tuple[float, ...]]] = {
    **{law: published.marks for law, published in PUBLISHED.items()},
    Law.FADER_POWER: (-60.0, -50.0, -40.0, -30.0, -20.0, -10.0, -5.0, 0.0, 5.0, 10.0),
}


def usual_marks(law: Law) -> tuple[float, ...]:
    """The values that the scales of a law are marked at, in dB or units; empty where it has none of its own.

    Those of `fader-power` are tens, and fives about 0 dB: common practice.
    """
    return _USUAL.get(law, ())


TAPER: Final = 15.0
"""Percent of the value in the middle of the turn of an audio taper: a maker's catalogue, 15A. Others have 10 or 20, and
the value is within 20 % of it only (MIL-PRF-94G, 3.5.3)."""


def taper(low: float, high: float, percent: float) -> tuple[tuple[float, float], ...]:
    """The table of a taper of two straight lines that meet in the middle of the turn, at a percentage of the value."""
    return (low, 0.0), (low + (high - low) * percent / 100.0, 0.5), (high, 1.0)


def travelled(scale: Scale, value: float) -> float:
    """How far along the travel a value is, 0 where the travel begins and 1 where it ends."""
    rising = _rising(scale, value)
    return 1.0 - rising if scale.falling else rising


def _rising(scale: Scale, value: float) -> float:
    published = PUBLISHED.get(scale.law)
    if published is not None:
        return published.travelled(value)
    if scale.law is Law.DECIBEL:
        return _voltage(scale.high)(value)
    if scale.law is Law.FADER_POWER:
        return math.pow(10.0, (value - scale.high) / 60.0)
    if scale.law is Law.LOGARITHMIC:
        return math.log(value / scale.low) / math.log(scale.high / scale.low)
    if scale.formula:
        return _of_formula(scale.formula, scale.low, scale.high, value)
    if scale.law is Law.SQUARE:
        return (value**2 - scale.low**2) / (scale.high**2 - scale.low**2)
    if scale.law is Law.SQUARE_ROOT:
        return (math.sqrt(value) - math.sqrt(scale.low)) / (math.sqrt(scale.high) - math.sqrt(scale.low))
    for (low, from_), (high, to) in pairwise(scale.table):
        if low - _NEAR <= value <= high + _NEAR:
            return from_ + (value - low) / (high - low) * (to - from_)
    return (value - scale.low) / (scale.high - scale.low)


def _of_formula(text: str, low: float, high: float, value: float) -> float:
    begin, end = at(text, low), at(text, high)
    return (at(text, value) - begin) / (end - begin)


def at(text: str, value: float) -> float:
    """What a formula is at a value. Raises FormulaError."""
    return worked_out(text, {VARIABLE: value}, NAMES)
