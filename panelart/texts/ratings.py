"""Ratings, piece by piece, and what is wrong with them: fuses, supplies, degrees of protection, duty.

`missing` names what a complete rating has and this one lacks, `problems` what contradicts itself or is implausible;
both are messages, one for each fault, in the order of the pieces.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from decimal import Decimal
from enum import StrEnum
from typing import Final

from panelart.canonical import Struct
from panelart.messages import Message
from panelart.messages import texts as said
from panelart.texts.quantities import Alternatives, Amount, Quantity, Range, ends
from panelart.texts.words import listed


class Nature(StrEnum):
    """Kinds of current (IEC 60417-5032, -5031, -5033)."""

    AC = "AC"
    DC = "DC"
    BOTH = "AC/DC"


def written(amount: Amount) -> str:
    """An amount as it is printed: '230 V', '115/230 V'."""
    if isinstance(amount, Quantity):
        return f"{amount.value:f} {amount.unit.symbol}"
    values = amount.values if isinstance(amount, Alternatives) else (amount.low, amount.high)
    figures = ("/" if isinstance(amount, Alternatives) else "–").join(f"{each.value:f}" for each in values)
    first = values[0]
    return f"{figures} {first.unit.symbol}" if isinstance(first, Quantity) else figures


# --- fuses

MINIATURE: Final = "IEC 60127"
POWER_FUSES: Final = "IEC 60269"
BLADE_FUSES: Final = "ISO 8820"
BREAKERS: Final = "IEC 60898"
MINIATURE_CHARACTERISTICS: Final = ("FF", "F", "M", "T", "TT")
"""IEC 60127-1, 6.1: very quick acting to very time-lag."""

_R10: Final = tuple(Decimal(each) for each in ("1", "1.25", "1.6", "2", "2.5", "3.15", "4", "5", "6.3", "8"))
_GG: Final = tuple(
    float(each)
    for each in listed(
        """2 4 6 8 10 12 13 16 20 25 32 35 40 50 63 80 100 125 160 200 224 250 315 355 400 425 450 500 560 630 710 800
        1000 1250"""
    )
)
"""Amperes of IEC 60269-1 and -2, 13 A of D01 among them (from memory)."""

_AM: Final = (0.16, 0.25, 0.5, 1.0, *_GG)
"""Amperes of fuses for motors, which makers begin lower (common practice)."""

_PV: Final = tuple(
    float(each)
    for each in listed(
        """1 1.5 2 2.5 3 3.15 3.5 4 5 6 8 10 12 15 16 20 25 30 32 35 40 50 63 80 100 110 125 160 200 250 315 350 355 400
        500 630"""
    )
)
"""Amperes of IEC 60269-6, with 15 A and 30 A, which modules are rated for (from memory; steps of makers added)."""
_BLADE: Final = tuple(
    float(each)
    for each in listed("1 2 3 4 5 7.5 10 15 20 25 30 35 40 50 60 70 80 100 125 150 175 200 250 300 350 400 450 500")
)
_BLADE_VOLTAGES: Final = (32.0, 58.0, 80.0)
"""Amperes and volts of ISO 8820-3 to -5, fuses of road vehicles (from memory)."""

_BREAKER: Final = tuple(
    float(each) for each in listed("0.3 0.5 1 1.6 2 3 4 5 6 8 10 13 15 16 20 25 30 32 35 40 45 50 60 63 80 100 125")
)
"""Amperes of IEC 60898-1, 5.3.2, with those below 6 A and of American panels that makers add (memory, practice)."""

_SERIES: Final = tuple(
    sorted({float(f"{each}e{power}") for each in _R10 for power in (-3, -2, -1, 0, 1)} - {0.0315} | {0.032})
)
"""Amperes of IEC 60127-2 to -4: R10 of ISO 3, but 32 mA (from memory)."""

_LOWEST: Final = 0.002
_HIGHEST: Final = 20.0
"""Amperes: 10 A of IEC 60127-2, 20 A of -7 (its scope, as its publisher states it)."""

_HIGHEST_VOLTAGE: Final = 1000.0
"""Volts: the scope of IEC 60127-7 and of low voltage."""

BREAKING_CAPACITIES: Final = ("L", "H", "E")
"""IEC 60127-1, clause 6: low, high and enhanced (from memory)."""

_LOWEST_OF_FUSES: Final = 12.0
"""Volts below which no fuse is rated (common practice)."""

AMERICAN_SERIES: Final = frozenset(
    listed("ABC AGA AGC AGU AGW AGX GBB GGC GJV GLH GMA GMC GMD MDA MDL MDQ MDX MTH SFE FNM FNQ KTK LP-CC ATC ATM")
)
"""Series of fuses that are named by their type in North America, UL 248 (common practice)."""

_HIGHEST_OF: Final = {"gPV": 1500.0, "aR": 1500.0, "gR": 1500.0, "gS": 1500.0, "gBat": 1500.0, "aBat": 1500.0}
"""Volts of IEC 60269-4, -6 and -7: direct current to 1500 V (from memory)."""

_NEAR: Final = 1e-6


class FuseRating(Struct, frozen=True, kw_only=True):
    """The rating of a fuse: characteristic, current, breaking capacity, voltage; '' or None for what is not written."""

    characteristic: str = ""
    current: Quantity | None = None
    breaking: str = ""
    voltage: Quantity | None = None
    count: int = 1
    series: str = ""
    """The name of an American series that decides characteristic and breaking capacity: MDL, AGC."""

    @property
    def miniature(self) -> bool:
        """Whether IEC 60127 rates it: it has one of its characteristics, or none."""
        return not self.characteristic or self.characteristic in MINIATURE_CHARACTERISTICS

    @property
    def blade(self) -> bool:
        """Whether it is of a road vehicle's fuse, which has neither characteristic nor breaking capacity: 32 V 10 A."""
        volts = None if self.voltage is None else self.voltage.base
        return not self.characteristic and not self.breaking and volts in _BLADE_VOLTAGES

    @property
    def missing(self) -> tuple[Message, ...]:
        """What a complete rating has and this one lacks."""
        if self.blade:
            return ()
        lacks = (
            (not self.characteristic and not self.series, said.no_characteristic),
            (self.current is None, said.no_current),
            (not self.breaking and self.miniature and not self.series, said.no_breaking_capacity),
            (self.voltage is None, said.no_voltage),
        )
        by_type = (said.series_by_type(self.series),) if self.series else ()
        return by_type + tuple(message() for lack, message in lacks if lack)

    @property
    def problems(self) -> tuple[Message, ...]:
        """What is implausible."""
        return tuple(self._problems())

    def _problems(self) -> Iterator[Message]:
        if self.current is not None:
            standard = BLADE_FUSES if self.blade else MINIATURE if self.miniature else POWER_FUSES
            # Of fuses for semiconductors and batteries there is no series; each maker has its own.
            if not self.series and self.characteristic not in _WITHOUT_SERIES:
                yield from _current_problems(self.current, standard, _SERIES_OF.get(self.characteristic))
        if self.breaking and self.breaking not in BREAKING_CAPACITIES:
            yield said.breaking_capacity_unknown(self.breaking)
        if self.voltage is not None and 0 < self.voltage.base < _LOWEST_OF_FUSES:
            yield said.voltage_below_any_fuse(written(self.voltage), f"{_LOWEST_OF_FUSES:g} V")
        if self.voltage is not None:
            yield from _voltage_problems(self.voltage, _HIGHEST_OF.get(self.characteristic, _HIGHEST_VOLTAGE))


class BreakerRating(Struct, frozen=True, kw_only=True):
    """The rating of a circuit breaker: characteristic, current, voltage; '' or None for what is not written."""

    characteristic: str = ""
    current: Quantity | None = None
    voltage: Quantity | None = None

    @property
    def problems(self) -> tuple[Message, ...]:
        """What is implausible; only B, C and D of IEC 60898 have a series of currents."""
        if self.current is None or self.characteristic not in _TRIPPING:
            return ()
        return tuple(_current_problems(self.current, BREAKERS))


_TRIPPING: Final = ("B", "C", "D")
"""IEC 60898-1, 5.3.5 (from memory)."""

_STANDARDS: Final = {
    MINIATURE: (_SERIES, _LOWEST, _HIGHEST),
    POWER_FUSES: (_GG, _GG[0], _GG[-1]),
    BLADE_FUSES: (_BLADE, _BLADE[0], _BLADE[-1]),
    BREAKERS: (_BREAKER, _BREAKER[0], _BREAKER[-1]),
}
"""Amperes by standard: the series, the lowest, the highest."""

_SERIES_OF: Final = {"aM": _AM, "gM": _AM, "gPV": _PV}
"""Series of the classes of IEC 60269 that have one of their own."""

_WITHOUT_SERIES: Final = frozenset(["gR", "aR", "gS", "gD", "gN", "gBat", "aBat"])


def _current_problems(current: Quantity, source: str, own: tuple[float, ...] | None = None) -> Iterator[Message]:
    """What is implausible of a current by a standard; `own` is the series of the class, where it has one."""
    series, lowest, highest = _STANDARDS[source] if own is None else (own, own[0], own[-1])
    amperes = current.base
    if amperes > highest * (1 + _NEAR):
        yield _too_high(current, highest, series, source)
    elif amperes < lowest * (1 - _NEAR):
        yield said.current_too_low(written(current), _amperes(lowest), source)
    elif not _in_series(amperes, series):
        below = [each for each in series if each < amperes][-1:]
        above = [each for each in series if each > amperes][:1]
        yield said.current_not_in_series(written(current), [_amperes(each) for each in below + above], source)


def _too_high(current: Quantity, highest: float, series: tuple[float, ...], source: str) -> Message:
    """A current above the series; a lost decimal point or milli leads back into it."""
    limit = f"{highest:g} A"
    for slip in (current.base / 100, current.base / 1000):
        if slip <= highest and _in_series(slip, series):
            return said.current_too_high_near(written(current), limit, source, _amperes(slip))
    return said.current_too_high(written(current), limit, source)


def _in_series(amperes: float, series: tuple[float, ...]) -> bool:
    return any(math.isclose(amperes, each, rel_tol=_NEAR) for each in series)


def _amperes(value: float) -> str:
    return f"{value * 1000:.6g} mA" if value < 1 else f"{value:.6g} A"


def _voltage_problems(voltage: Amount, highest: float = _HIGHEST_VOLTAGE) -> Iterator[Message]:
    low, high = ends(voltage)
    if isinstance(voltage, Range) and voltage.reversed:
        yield said.range_reversed(written(voltage))
    if high > highest:
        yield said.voltage_not_plausible(written(voltage), f"{highest:g} V")
    if low == high == 0:
        yield said.voltage_is_zero(written(voltage))


# --- supplies

_MAINS: Final = ((15.9, 17.5), (24.9, 25.1), (44.9, 66.1), (359.9, 800.1))
"""Hertz: railways, mains with its tolerance, aircraft (IEC 60038 and ISO 6858, from memory; 800 is common practice)."""

_HIGHEST_NOMINAL: Final = 440.1
"""Hertz up to which a supply has one frequency, 400 Hz with its tolerance; up to 800 Hz it varies, and is a range."""

_LOWEST_OF_THREE: Final = 190.0
"""Volts between conductors of the lowest usual three-phase mains, 200 V in Japan less 5 %."""

_OF_AIRCRAFT: Final = 359.9
_LOWEST_TO_NEUTRAL: Final = 100.0
"""Hertz and volts of aircraft (ISO 6858 and MIL-STD-704: 115 V between 108 V and 118 V; from memory)."""

_POWER_MARGIN: Final = 1.1
"""What rounding of the figures on a plate may make of volts by amperes."""


class SupplyRating(Struct, frozen=True, kw_only=True):
    """The rating of a supply: voltage, kind of current, phases, frequency, current, power; None for what is not there.

    `phases` is 0 where they are not written.
    """

    voltage: Amount | None = None
    nature: Nature | None = None
    phases: int = 0
    frequency: Amount | None = None
    current: Amount | None = None
    power: Amount | None = None

    @property
    def missing(self) -> tuple[Message, ...]:
        """What the rating of a mains inlet has and this one lacks (IEC 61010-1, 5.1.3; IEC 60335-1, 7.1)."""
        direct = self.nature is Nature.DC
        lacks = (
            (self.voltage is None, said.no_voltage),
            (self.nature is None and self.frequency is None, said.no_nature),
            (self.frequency is None and not direct, said.no_frequency),
            (self.current is None and self.power is None, said.no_power_or_current),
        )
        return tuple(message() for lack, message in lacks if lack)

    @property
    def problems(self) -> tuple[Message, ...]:
        """What contradicts itself or is implausible."""
        return tuple(self._problems())

    def _problems(self) -> Iterator[Message]:
        if self.voltage is not None:
            yield from _voltage_problems(self.voltage)
        yield from self._nature_problems()
        if self.frequency is not None:
            yield from _frequency_problems(self.frequency)
        # A plate may give the current at each end of a range of voltages, where it falls: 2.0 to 0.8 A at 100 to 240.
        at_each = not isinstance(self.voltage, Quantity)
        for amount in (self.current, self.power):
            if isinstance(amount, Range) and amount.reversed and not (at_each and amount is self.current):
                yield said.range_reversed(written(amount))
        yield from self._power_problems()

    def _nature_problems(self) -> Iterator[Message]:
        if self.nature is Nature.DC and self.frequency is not None:
            yield said.dc_with_frequency(written(self.frequency))
        if self.nature is Nature.DC and self.phases:
            yield said.dc_with_phases(str(self.phases))
        if self.phases == 3 and self.voltage is not None and ends(self.voltage)[1] < self._lowest_of_three:
            yield said.phases_not_plausible(written(self.voltage))

    @property
    def _lowest_of_three(self) -> float:
        """Volts of the lowest usual three-phase mains; aircraft name theirs by the voltage to neutral, 115 V."""
        in_aircraft = self.frequency is not None and ends(self.frequency)[0] >= _OF_AIRCRAFT
        return _LOWEST_TO_NEUTRAL if in_aircraft else _LOWEST_OF_THREE

    def _power_problems(self) -> Iterator[Message]:
        """Power above what the current gives at the voltage where it is most: the lowest."""
        if self.voltage is None or self.current is None or self.power is None:
            return
        phases = math.sqrt(3) if self.phases == 3 else 1.0
        volts = ends(self.voltage)[1 if self.phases == 3 else 0]
        limit = volts * ends(self.current)[1] * phases
        if ends(self.power)[1] > limit * _POWER_MARGIN:
            yield said.power_not_plausible(
                written(self.power), written(self.current), f"{volts:g} V", f"{limit:.3g} {_power_symbol(self.power)}"
            )


def _power_symbol(power: Amount) -> str:
    """W, VA or var, without prefix."""
    first = (
        power if isinstance(power, Quantity) else (power.values if isinstance(power, Alternatives) else (power.low,))[0]
    )
    return first.unit.parts[0].symbol if isinstance(first, Quantity) else "W"


def _frequency_problems(frequency: Amount) -> Iterator[Message]:
    if isinstance(frequency, Range) and frequency.reversed:
        yield said.range_reversed(written(frequency))
    low, high = ends(frequency)
    of_mains = all(any(least <= each <= most for least, most in _MAINS) for each in (low, high))
    if not of_mains or low > _HIGHEST_NOMINAL:
        yield said.frequency_not_plausible(written(frequency))


# --- degrees of protection

_SOLID: Final = "0123456X"
_WATER: Final = "0123456789X"


class Protection(Struct, frozen=True):
    """A degree of protection by IEC 60529, K by ISO 20653: two numerals or X, then letters."""

    first: str
    second: str
    letters: str = ""

    @property
    def code(self) -> str:
        """IP65."""
        return f"IP{self.first}{self.second}{self.letters}"

    @property
    def problems(self) -> tuple[Message, ...]:
        """What the standard does not have."""
        return tuple(self._problems())

    def _problems(self) -> Iterator[Message]:
        if self.first not in _SOLID:
            yield said.no_such_numeral(self.first, said.first_place(), "0–6, X")
        if self.second not in _WATER:
            yield said.no_such_numeral(self.second, said.second_place(), "0–9, X")
        letters = self.letters
        if letters.startswith("K"):
            letters = letters[1:]
            if self.second not in "469":
                yield said.nine_without_k()
        supplementary = letters[1:] if letters[:1] in tuple("ABCD") else letters
        if any(each not in "HMSW" for each in supplementary) or list(supplementary) != sorted(set(supplementary)):
            yield said.letters_out_of_order(letters)
        if self.first == self.second == "X" and not letters:
            yield said.nothing_said()


# --- duty

_CYCLIC: Final = ("S3", "S4", "S5", "S6")


class Duty(Struct, frozen=True, kw_only=True):
    """How long a thing may run: a duty type of IEC 60034-1 with duration or cyclic duration factor, or on and off."""

    type: str = ""
    time: Quantity | None = None
    factor: Quantity | None = None
    on: Quantity | None = None
    off: Quantity | None = None

    @property
    def problems(self) -> tuple[Message, ...]:
        """What is missing or contradicts itself (IEC 60034-1, 4.2)."""
        return tuple(self._problems())

    def _problems(self) -> Iterator[Message]:
        if self.type == "S2" and self.time is None:
            yield said.no_duration(self.type)
        if self.type in _CYCLIC and self.factor is None:
            yield said.no_duration_factor(self.type)
        if self.type == "S1" and (self.factor is not None or self.time is not None):
            yield said.duration_without_need(self.type)
        if self.factor is not None and self.factor.base > 1:
            yield said.duration_factor_too_high(written(self.factor))
