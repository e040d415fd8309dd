"""Laws of scales against worked examples: of the standards as published, of public programs, of the trade."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelart.catalogue.laws import PUBLISHED, taper, travelled
from panelart.model.panel import Law, Scale
from tests.panels import HERE


def scale(low: float, high: float, **more) -> Scale:
    return Scale(low=low, high=high, major=None, minor=None, sweep=300, start_deg=240, unit="", where=HERE, **more)


# Deflection of the digital peak meter, per cent: IEC 60268-18 as six or more independent programs have it, with 2.5 and
# not 5 in the segment from -60 to -50.
@pytest.mark.parametrize(
    ("db", "percent"),
    [(-70, 0), (-60, 2.5), (-50, 7.5), (-40, 15), (-30, 30), (-20, 50), (-10, 75), (-6, 85), (-3, 92.5), (0, 100)],
)
def test_the_digital_peak_meter(db: float, percent: float) -> None:
    assert 100 * travelled(scale(-60, 0, law=Law.DIGITAL_PEAK), db) == pytest.approx(percent)


# ANSI C16.5-1942 as described: 0 VU near 0.71 of the arc, -3 at half; the others follow from the voltage.
@pytest.mark.parametrize(
    ("vu", "fraction"),
    [(-20, 0.071), (-10, 0.224), (-7, 0.316), (-5, 0.398), (-3, 0.501), (-1, 0.631), (0, 0.708), (1, 0.794),
     (2, 0.891), (3, 1.0)],
)  # fmt: skip
def test_the_vu_meter(vu: float, fraction: float) -> None:
    assert travelled(scale(-20, 3, law=Law.VU), vu) == pytest.approx(fraction, abs=5e-4)


# The other program's form of the same law: 0 dB at -9 dBFS, figures of its own (Ardour/ardour, gtk2_ardour/logmeter.h,
# meter_deflect_din). Both over their deflection at +5 dB, the last figure of the dial.
@pytest.mark.parametrize("db", [-50, -40, -30, -20, -10, -5, 0])
def test_the_type_i_meter_as_two_programs_have_it(db: float) -> None:
    def other(level: float) -> float:
        return (2.3676 * 10 ** ((level - 9) / 20)) ** 0.25 - 0.1803

    dial = scale(-50, 5, law=Law.PPM_I)
    assert travelled(dial, db) / travelled(dial, 5) == pytest.approx(other(db) / other(5), abs=1e-3)


def test_the_type_i_meter_in_figures() -> None:
    """Worked out by hand from (2.002353 * 10^((dB - 6) / 20))^(1/4) - 0.1885 (x42/meters.lv2, gui/meterimage.c)."""
    dial = scale(-50, 5, law=Law.PPM_I)
    found = [travelled(dial, db) for db in (-50, -20, -10, 0, 5)]
    assert found == pytest.approx([0.0488, 0.3740, 0.5615, 0.8116, 0.9663], abs=2e-4)


def test_the_nordic_meter_is_linear() -> None:
    """54 dB from -42 to +12 (Ardour/ardour, gtk2_ardour/logmeter.h, meter_deflect_nordic: (dBFS + 60) / 54)."""
    dial = scale(-42, 12, law=Law.PPM_NORDIC)
    assert [travelled(dial, db) for db in (-42, -18, 0, 12)] == pytest.approx([0, 24 / 54, 42 / 54, 1])


# A fader of 100 mm: 5 dB per 12 mm down to 52 mm, 10 dB to 16 mm, 20 dB to 4 mm (public audio code).
@pytest.mark.parametrize(
    ("db", "mm"),
    [(10, 100), (5, 88), (0, 76), (-5, 64), (-10, 52), (-20, 40), (-30, 28), (-40, 16), (-50, 10), (-60, 4)],
)
def test_the_fader_of_100_mm(db: float, mm: float) -> None:
    assert 100 * travelled(scale(-60, 10, law=Law.FADER), db) == pytest.approx(mm)


def test_the_power_law_of_a_fader() -> None:
    """60 log10(0.5) = -18.06 dB at half the travel (open-source mixer)."""
    assert travelled(scale(-40, 0, law=Law.FADER_POWER), 60 * math.log10(0.5)) == pytest.approx(0.5)


@pytest.mark.parametrize(("percent", "db"), [(10, -20.0), (15, -16.5)])
def test_the_middle_of_an_audio_taper(percent: float, db: float) -> None:
    """10 % of the value is 20 dB down, 15 % 16.5 dB (20 log10 of the ratio; a maker's catalogue, 15A)."""
    audio = scale(0, 1, law=Law.AUDIO, table=taper(0, 1, percent))
    assert travelled(audio, 10 ** (db / 20)) == pytest.approx(0.5, abs=2e-3)
    assert travelled(audio, (1 + percent / 100) / 2) == pytest.approx(0.75)


def test_decibels_of_a_voltage() -> None:
    """-20 dB is a tenth, -6.02 dB a half (ISO 80000-8)."""
    volume = scale(-40, 0, law=Law.DECIBEL)
    assert [travelled(volume, db) for db in (-20, -6.0206, 0)] == pytest.approx([0.1, 0.5, 1.0], abs=1e-5)
    gain = scale(-40, 6, law=Law.DECIBEL)
    assert travelled(gain, 0) == pytest.approx(0.501, abs=5e-4)


def test_squares_and_roots() -> None:
    """A moving-iron meter has half the deflection at 0.707 of the current; a square-root scale the other way."""
    assert travelled(scale(0, 10, law=Law.SQUARE), 7.0711) == pytest.approx(0.5, abs=1e-4)
    assert travelled(scale(0, 100, law=Law.SQUARE_ROOT), 25) == pytest.approx(0.5)


def test_a_formula_is_a_law() -> None:
    """20 log10 v is the logarithmic scale: 200 stands at a third of the way from 20 to 20 000."""
    assert travelled(scale(20, 20000, formula="20*log10(v)"), 200) == pytest.approx(1 / 3)
    assert travelled(scale(20, 20000, formula="20*log10(v)", falling=True), 200) == pytest.approx(2 / 3)
    assert travelled(scale(1, 10, formula="1/v"), 2) == pytest.approx(5 / 9)  # (1 - 1/2) / (1 - 1/10)


@given(st.sampled_from(sorted(PUBLISHED, key=lambda law: law.value)), st.floats(0, 1), st.floats(0, 1))
def test_published_laws_grow(law: Law, one: float, two: float) -> None:
    published = PUBLISHED[law]
    low = max(published.low, -60.0)
    low_value, high_value = sorted(low + (published.high - low) * share for share in (one, two))
    if high_value - low_value > 1e-6:
        assert published.travelled(low_value) < published.travelled(high_value)
    assert -1e-9 <= published.travelled(low_value) <= published.travelled(published.high) == pytest.approx(1.0)
