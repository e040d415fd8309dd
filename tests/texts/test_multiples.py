"""Units with another prefix, held against a units library of many hands."""

from __future__ import annotations

import pint
import pytest

from panelart.texts.multiples import multiple

_ASKED = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("unit", "by", "larger"),
    [
        ("Hz", 1e3, "kHz"), ("Hz", 1e6, "MHz"), ("kHz", 1e3, "MHz"), ("kHz", 1e-3, "Hz"), ("V", 1e-3, "mV"),
        ("mV", 1e3, "V"), ("µA", 1e3, "mA"), ("Ω", 1e3, "kΩ"), ("W", 1e3, "kW"), ("Pa", 1e3, "kPa"),
        ("V DC", 1e3, "kV DC"), ("m", 1e-3, "mm"), ("r/min", 1e3, None), ("dB", 1e3, None), ("°C", 1e3, None),
        ("%", 1e3, None), ("h", 1e3, None), ("min", 1e-3, None), ("Turns", 1e3, None), ("", 1e3, None),
    ],
)  # fmt: skip
def test_the_unit_that_is_so_many_times_as_large(unit: str, by: float, larger: str | None) -> None:
    assert multiple(unit, by) == larger


def test_every_larger_unit_is_as_much_larger_as_another_library_has_it() -> None:
    compared = 0
    for symbol in ("Hz", "V", "A", "W", "Pa", "N", "J", "F", "H", "s", "g", "m", "l", "bar"):
        for power in (-9, -6, -3, 3, 6, 9):
            larger = multiple(symbol, 10.0**power)
            if larger is not None:
                ratio = (1 * _ASKED.Unit(larger)).to(_ASKED.Unit(symbol)).magnitude
                assert ratio == pytest.approx(10.0**power, rel=1e-9), (symbol, larger)
                compared += 1
    assert compared > 40
