"""The units that panels name: symbol, dimension, factor, prefixes, and by which source.

A row of `ROWS` is a unit; everything else here follows from it. `UNITS` finds a unit by exactly how it is written,
prefix included, `FOLDED` by its letters whatever their case. Factors lead to the coherent SI unit of the dimension.
Angles, bits, divisions of a screen and levels count as dimensions of their own, so that 50 Hz and 50 r/min, or 3 dBm
and 3 dBu, are never held against each other.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType
from typing import Final, TypeAlias

from panelart.canonical import Struct
from panelart.texts.words import COUNT_WORDS, COUNTED_THINGS, UNIT_WORDS, WHOLE_WORDS, listed

Dimension: TypeAlias = tuple[tuple[str, float], ...]
"""Base dimensions with their exponents, in order of their names; empty for a plain number."""


class Standing(StrEnum):
    """How well a row is known."""

    STANDARD = "standard"
    """Its text was at hand."""
    MEMORY = "from memory"
    """A standard says so, and its text was not at hand."""
    PRACTICE = "common practice"
    """Makers print it so."""


class Source(Struct, frozen=True):
    """Where a row comes from."""

    name: str
    standing: Standing


class Row(Struct, frozen=True, kw_only=True):
    """A unit of the table: `factor` of the coherent SI unit, which prefixes it is met with, other ways to write it."""

    symbol: str
    name: str
    dimension: Dimension
    factor: float
    prefixes: tuple[str, ...]
    source: Source
    also: tuple[str, ...]
    offset: float = 0.0
    """What is added before the factor is taken: degrees Celsius and Fahrenheit."""
    exactly: bool = False
    """Whether its letters in another case are no unit: VCA is an amplifier, SPS a controller."""


class Part(Struct, frozen=True):
    """A factor of a unit: prefix, symbol of the table, exponent."""

    prefix: str
    symbol: str
    exponent: float = 1.0


class Unit(Struct, frozen=True):
    """A unit in its proper form, `factor` of the coherent SI unit of its dimension."""

    symbol: str
    dimension: Dimension
    factor: float
    parts: tuple[Part, ...]
    offset: float = 0.0

    @property
    def per(self) -> tuple[Part, ...]:
        """What it is counted for: the second of m/s."""
        return tuple(part for part in self.parts if part.exponent < 0)


PREFIXES: Final[Mapping[str, float]] = MappingProxyType(
    {
        "Q": 1e30,
        "R": 1e27,
        "Y": 1e24,
        "Z": 1e21,
        "E": 1e18,
        "P": 1e15,
        "T": 1e12,
        "G": 1e9,
        "M": 1e6,
        "k": 1e3,
        "h": 1e2,
        "da": 1e1,
        "d": 1e-1,
        "c": 1e-2,
        "m": 1e-3,
        "µ": 1e-6,
        "n": 1e-9,
        "p": 1e-12,
        "f": 1e-15,
        "a": 1e-18,
        "z": 1e-21,
        "y": 1e-24,
        "r": 1e-27,
        "q": 1e-30,
        "Ki": 2.0**10,
        "Mi": 2.0**20,
        "Gi": 2.0**30,
        "Ti": 2.0**40,
    }
)
"""SI Brochure, 9th edition with its changes of 2022, table 7; Ki to Ti of IEC 80000-13."""

_SI2: Final = Source("SI Brochure, 9th ed., table 2", Standing.MEMORY)
_SI4: Final = Source("SI Brochure, 9th ed., table 4", Standing.MEMORY)
_SI8: Final = Source("SI Brochure, 9th ed., table 8", Standing.MEMORY)
_IEC6: Final = Source("IEC 80000-6, summary of the IEC", Standing.STANDARD)
_IEC13: Final = Source("IEC 80000-13, IEC 60027-2", Standing.MEMORY)
_IEC3: Final = Source("IEC 60027-3, ITU-R V.574", Standing.MEMORY)
_UCUM: Final = Source("UCUM", Standing.MEMORY)
_PRACTICE: Final = Source("common practice", Standing.PRACTICE)
_YARD: Final = Source("International yard and pound agreement, 1959", Standing.MEMORY)

_GRAVITY: Final = 9.80665
"""Standard acceleration of free fall in m/s² (3rd CGPM, 1901)."""

_POUND: Final = 0.45359237
_INCH: Final = 0.0254
_PSI: Final = _POUND * _GRAVITY / _INCH**2
_MERCURY: Final = 133.322387415
"""Pascals of a conventional millimetre of mercury (UCUM: 133.3220; ISO 80000-4: 13.5951 g/cm³ times free fall)."""


def dimension(written: str) -> Dimension:
    """Read 'M L2 T-3 I-1'. Raises ValueError for an exponent that is no number."""
    exponents: dict[str, float] = {}
    for piece in written.split():
        name = piece.rstrip("-0123456789")
        exponents[name] = float(piece[len(name) :] or 1)
    return tuple(sorted(exponents.items()))


def _row(
    symbol: str,
    name: str,
    of: str,
    factor: float,
    prefixes: str,
    source: Source,
    also: str = "",
    offset: float = 0.0,
    *,
    exactly: bool = False,
) -> Row:
    return Row(
        symbol=symbol,
        name=name,
        dimension=dimension(of),
        factor=factor,
        prefixes=tuple(prefixes.split()),
        source=source,
        also=tuple(also.split()),
        offset=offset,
        exactly=exactly,
    )


_POWER: Final = "M L2 T-3"
_VOLTAGE: Final = "M L2 T-3 I-1"
_PRESSURE: Final = "M L-1 T-2"
_ENERGY: Final = "M L2 T-2"
_NORMAL: Final = "normal-volume"
"""Gas counted as a volume at normal conditions: of no use to compare it with what flows at others."""

ROWS: Final[tuple[Row, ...]] = (
    # symbol, name, dimension, factor, prefixes it is met with, source, other ways to write it
    _row("m", "metre", "L", 1.0, "k d c m µ n", _SI2, "м"),
    _row("g", "gram", "M", 1e-3, "k m µ n", _SI2, "г"),
    _row("s", "second", "T", 1.0, "m µ n p f", _SI2, "с"),
    _row("A", "ampere", "I", 1.0, "M k m µ n p f", _SI2, "А"),
    _row("K", "kelvin", "K", 1.0, "m", _SI2),
    _row("mol", "mole", "N", 1.0, "k m µ n", _SI2),
    _row("cd", "candela", "J", 1.0, "k m", _SI2),
    _row("rad", "radian", "angle", 1.0, "m µ", _SI4),
    _row("sr", "steradian", "", 1.0, "", _SI4),
    _row("Hz", "hertz", "T-1", 1.0, "T G M k m", _SI4, "Гц"),
    _row("N", "newton", "M L T-2", 1.0, "M k da c m µ", _SI4, "Н"),
    _row("Pa", "pascal", _PRESSURE, 1.0, "G M k h m µ", _SI4, "Па"),
    _row("J", "joule", _ENERGY, 1.0, "G M k m µ", _SI4, "Дж"),
    _row("W", "watt", _POWER, 1.0, "T G M k m µ n p", _SI4, "Вт"),
    _row("C", "coulomb", "I T", 1.0, "m µ n p", _SI4),
    _row("V", "volt", _VOLTAGE, 1.0, "M k m µ n", _SI4, "В"),
    _row("F", "farad", "M-1 L-2 T4 I2", 1.0, "m µ n p f", _SI4, "Ф"),
    _row("Ω", "ohm", "M L2 T-3 I-2", 1.0, "T G M k m µ", _SI4, "\u2126 Ом"),
    _row("S", "siemens", "M-1 L-2 T3 I2", 1.0, "M k m µ n", _SI4),
    _row("Wb", "weber", "M L2 T-2 I-1", 1.0, "m µ", _SI4),
    _row("T", "tesla", "M T-2 I-1", 1.0, "m µ n", _SI4, "Тл"),
    _row("H", "henry", "M L2 T-2 I-2", 1.0, "m µ n", _SI4, "Гн"),
    _row("°C", "degree Celsius", "K", 1.0, "", _SI4, "\u2103 ºC ˚C °С", 273.15),
    _row("lm", "lumen", "J", 1.0, "k", _SI4, "лм"),
    _row("lx", "lux", "J L-2", 1.0, "k m", _SI4, "лк"),
    _row("Bq", "becquerel", "T-1", 1.0, "G M k", _SI4, "Бк"),
    _row("Gy", "gray", "L2 T-2", 1.0, "m µ n", _SI4),
    _row("Sv", "sievert", "L2 T-2", 1.0, "m µ n", _SI4, "Зв"),
    _row("kat", "katal", "N T-1", 1.0, "m µ n", _SI4),
    _row("min", "minute", "T", 60.0, "", _SI8, "мин"),
    _row("h", "hour", "T", 3600.0, "", _SI8, "ч hr hrs"),
    _row("d", "day", "T", 86400.0, "", _SI8, "сут"),
    _row("°", "degree", "angle", math.pi / 180, "", _SI8, "˚"),
    _row("′", "minute of arc", "angle", math.pi / 10800, "", _SI8),
    _row("ha", "hectare", "L2", 1e4, "", _SI8),
    _row("l", "litre", "L3", 1e-3, "h d c m µ n", _SI8, "л ℓ"),
    _row("L", "litre", "L3", 1e-3, "h d c m µ n", _SI8),
    _row("t", "tonne", "M", 1e3, "k M", _SI8, "т"),
    _row("eV", "electronvolt", _ENERGY, 1.602176634e-19, "T G M k m", _SI8, "эВ"),
    _row("Np", "neper", "level", 8.685889638065037, "", _SI8),
    _row("dB", "decibel", "level", 1.0, "", _SI8, "дБ"),
    _row("%", "per cent", "", 1e-2, "", _SI8),
    _row("‰", "per mille", "", 1e-3, "", _PRACTICE),
    _row("ppm", "parts per million", "", 1e-6, "", _PRACTICE, "ppmv"),
    _row("ppb", "parts per billion", "", 1e-9, "", _PRACTICE, "ppbv"),
    _row("VA", "voltampere", _POWER, 1.0, "G M k m", _IEC6, "ВА"),
    _row("var", "var", _POWER, 1.0, "G M k m", _IEC6, "VAr вар"),
    _row("Wh", "watt hour", _ENERGY, 3600.0, "T G M k m", _IEC6),
    _row("Ah", "ampere hour", "I T", 3600.0, "k m", _IEC6),
    _row("VAh", "voltampere hour", _ENERGY, 3600.0, "M k", _IEC6),
    _row("varh", "var hour", _ENERGY, 3600.0, "M k", _IEC6),
    _row("bit", "bit", "bit", 1.0, "T G M k Ki Mi Gi Ti", _IEC13, "бит"),
    _row("B", "byte", "bit", 8.0, "T G M k Ki Mi Gi Ti", _IEC13),
    _row("Bd", "baud", "baud", 1.0, "M k", _IEC13, "baud"),
    _row("o", "octet", "bit", 8.0, "T G M k Ki Mi Gi Ti", _IEC13, exactly=True),
    _row("bps", "bit per second", "bit T-1", 1.0, "G M k", _PRACTICE),
    _row("dBm", "decibel above 1 mW", "level:mW", 1.0, "", _IEC3, "дБм"),
    _row("dBW", "decibel above 1 W", "level:W", 1.0, "", _IEC3),
    _row("dBu", "decibel above 0.775 V", "level:0.775V", 1.0, "", _IEC3),
    _row("dBV", "decibel above 1 V", "level:V", 1.0, "", _IEC3),
    _row("dBmV", "decibel above 1 mV", "level:mV", 1.0, "", _IEC3),
    _row("dBµV", "decibel above 1 µV", "level:µV", 1.0, "", _IEC3, "dBµ"),
    _row("dBc", "decibel below carrier", "level:carrier", 1.0, "", _IEC3),
    _row("dBi", "decibel above an isotropic aerial", "level:isotropic", 1.0, "", _IEC3),
    _row("dBd", "decibel above a dipole", "level:dipole", 1.0, "", _IEC3),
    _row("dBr", "decibel above a reference", "level:reference", 1.0, "", _IEC3),
    _row("dBFS", "decibel of full scale", "level:full-scale", 1.0, "", Source("AES17", Standing.MEMORY), "dBfs"),
    _row("dB(A)", "decibel, weighted A", "level:A", 1.0, "", _PRACTICE, "dBA"),
    _row("dB(C)", "decibel, weighted C", "level:C", 1.0, "", _PRACTICE, "dBC"),
    _row(
        "dB(Z)", "decibel, weighted Z", "level:Z", 1.0, "", Source("IEC 61672-1", Standing.MEMORY), "dBZ", exactly=True
    ),
    _row(
        "dB SPL",
        "sound pressure level",
        "level:20µPa",
        1.0,
        "",
        Source("IEC 60027-3", Standing.MEMORY),
        "dBSPL",
        exactly=True,
    ),
    _row(
        "dB HL", "hearing level", "level:hearing", 1.0, "", Source("IEC 60645-1", Standing.MEMORY), "dBHL", exactly=True
    ),
    _row("dBTP", "true peak", "level:true-peak", 1.0, "", Source("EBU R 128", Standing.MEMORY), exactly=True),
    _row("dBm0", "decibel above 1 mW at the point of no level", "level:mW0", 1.0, "", _IEC3, exactly=True),
    _row("dBµA", "decibel above 1 µA", "level:µA", 1.0, "", _IEC3, exactly=True),
    _row("LUFS", "loudness unit of full scale", "level:loudness", 1.0, "", Source("EBU R 128", Standing.MEMORY)),
    _row("LU", "loudness unit", "level:loudness-unit", 1.0, "", Source("EBU R 128", Standing.MEMORY)),
    _row("VU", "volume unit", "level:volume", 1.0, "", Source("IEC 60268-17", Standing.MEMORY)),
    _row("div", "division of a screen", "div", 1.0, "", _PRACTICE, "дел"),
    _row("oct", "octave", "oct", 1.0, "", _PRACTICE),
    _row("dec", "decade", "dec", 1.0, "", _PRACTICE),
    _row("□", "square of a film", "", 1.0, "", _PRACTICE, "sq"),
    _row("r", "revolution", "angle", 2 * math.pi, "", Source("ISO 80000-3", Standing.MEMORY), "rev"),
    _row("rpm", "revolution per minute", "angle T-1", 2 * math.pi / 60, "", _PRACTICE, "r.p.m. σ.α.λ. σ.α.λ"),
    _row("cpm", "count per minute", "count T-1", 1 / 60, "k", _PRACTICE),
    _row("bpm", "beat per minute", "count T-1", 1 / 60, "", _PRACTICE),
    _row("spm", "stroke per minute", "count T-1", 1 / 60, "", _PRACTICE, exactly=True),
    _row("cph", "count per hour", "count T-1", 1 / 3600, "", _PRACTICE, exactly=True),
    _row("cps", "count per second", "count T-1", 1.0, "M k", _PRACTICE),
    _row("pcs", "piece", "piece", 1.0, "", _PRACTICE, exactly=True),
    _row("strokes", "stroke", "count", 1.0, "", _PRACTICE, exactly=True),
    _row("cycles", "cycle", "count", 1.0, "", _PRACTICE, exactly=True),
    _row("beats", "beat", "count", 1.0, "", _PRACTICE, exactly=True),
    _row("imp", "pulse of a meter", "count", 1.0, "", Source("IEC 62053-21", Standing.MEMORY), exactly=True),
    _row("pps", "pulse per second", "count T-1", 1.0, "k", _PRACTICE, "PPS", exactly=True),
    _row("IU", "international unit", "activity", 1.0, "M k m µ", _PRACTICE, "IE UI МЕ", exactly=True),
    _row("ips", "inch per second", "L T-1", _INCH, "", _PRACTICE, exactly=True),
    _row("ipm", "inch per minute", "L T-1", _INCH / 60, "", _PRACTICE, exactly=True),
    _row("fpm", "foot per minute", "L T-1", _INCH * 12 / 60, "", _PRACTICE, exactly=True),
    _row("dpi", "dot per inch", "L-1", 1 / _INCH, "", _PRACTICE, exactly=True),
    _row("ppi", "pixel per inch", "L-1", 1 / _INCH, "", _PRACTICE, exactly=True),
    _row("counts", "count", "count", 1.0, "M k", _PRACTICE, "cts", exactly=True),
    _row("год", "hour in Ukrainian, year in Russian", "unit-of-hour-or-year", 1.0, "", _PRACTICE, exactly=True),
    _row("Sa", "sample", "sample", 1.0, "G M k", _PRACTICE, exactly=True),
    _row("pts", "point of a record", "sample", 1.0, "G M k", _PRACTICE, exactly=True),
    _row("SPS", "sample per second", "sample T-1", 1.0, "G M k", _PRACTICE, "sps", exactly=True),
    _row("fps", "frame per second", "frame T-1", 1.0, "", _PRACTICE),
    _row("px", "pixel", "pixel", 1.0, "M", _PRACTICE),
    _row("Vpp", "volt peak to peak", _VOLTAGE, 1.0, "k m µ", _PRACTICE, "Vp-p Vss"),
    _row("Vp", "volt peak", _VOLTAGE, 1.0, "k m", _PRACTICE, "Vpk"),
    _row("Vrms", "volt root mean square", _VOLTAGE, 1.0, "k m µ", _PRACTICE, "VRMS Veff"),
    _row("Vcc", "volt, direct current", _VOLTAGE, 1.0, "k m", _PRACTICE, exactly=True),
    _row("Vdc", "volt, direct current", _VOLTAGE, 1.0, "k m", _PRACTICE, exactly=True),
    _row("Vca", "volt, alternating current", _VOLTAGE, 1.0, "k m", _PRACTICE, exactly=True),
    _row("Vac", "volt, alternating current", _VOLTAGE, 1.0, "k m", _PRACTICE, exactly=True),
    _row("Acc", "ampere, direct current", "I", 1.0, "k m µ", _PRACTICE, exactly=True),
    _row("Adc", "ampere, direct current", "I", 1.0, "k m µ", _PRACTICE, exactly=True),
    _row("Aca", "ampere, alternating current", "I", 1.0, "k m µ", _PRACTICE, exactly=True),
    _row("Aac", "ampere, alternating current", "I", 1.0, "k m µ", _PRACTICE, exactly=True),
    _row("rH", "relative humidity, as a symbol", "humidity", 1e-2, "", _PRACTICE, "r.H. r.F. r.h.", exactly=True),
    _row("% RH", "relative humidity", "humidity", 1e-2, "", _PRACTICE, "%RH %rH %rh %rF %r.F. %r.H. %r.h."),
    _row("% vol", "per cent of the volume", "", 1e-2, "", _PRACTICE, "%vol %Vol %Vol. %vol. %v/v"),
    _row("% mass", "per cent of the mass", "", 1e-2, "", _PRACTICE, "%mass %w/w %m/m %wt"),
    _row("% LEL", "per cent of the lower explosive limit", "", 1e-2, "", _PRACTICE, "%LEL %LFL %UEG %LIE %НКПР"),
    _row("% FS", "per cent of full scale", "", 1e-2, "", _PRACTICE, "%FS %FSO %F.S. %fs"),
    _row("% rdg", "per cent of the reading", "", 1e-2, "", _PRACTICE, "%rdg %rdg. %v.MW"),
    _row("pH", "acidity", "pH", 1.0, "", Source("ISO 80000-9", Standing.MEMORY)),
    _row("bar", "bar", _PRESSURE, 1e5, "m µ k", _PRACTICE, "бар"),
    _row("psi", "pound-force per square inch", _PRESSURE, _PSI, "k", _UCUM),
    _row("psig", "pound-force per square inch, gauge", _PRESSURE, _PSI, "", _PRACTICE),
    _row("mmHg", "millimetre of mercury", _PRESSURE, _MERCURY, "", _UCUM),
    _row("cmHg", "centimetre of mercury", _PRESSURE, _MERCURY * 10, "", _UCUM),
    _row("inHg", "inch of mercury", _PRESSURE, _MERCURY * 25.4, "", _UCUM),
    _row("cu ft", "cubic foot", "L3", (_INCH * 12) ** 3, "", _YARD, exactly=True),
    _row("cu in", "cubic inch", "L3", _INCH**3, "", _YARD, exactly=True),
    _row("sq ft", "square foot", "L2", (_INCH * 12) ** 2, "", _YARD, exactly=True),
    _row("sq in", "square inch", "L2", _INCH**2, "", _YARD, exactly=True),
    _row("g rms", "acceleration of free fall, root mean square", "L T-2", _GRAVITY, "", _PRACTICE, exactly=True),
    _row("mmH₂O", "millimetre of water", _PRESSURE, _GRAVITY, "", _UCUM, "mmH2O mmWC mmWS mmCE"),
    _row("inH₂O", "inch of water", _PRESSURE, _GRAVITY * 25.4, "", _UCUM, "inH2O inWC inWG"),
    _row("cmH₂O", "centimetre of water", _PRESSURE, _GRAVITY * 10, "", _UCUM, "cmH2O cmWC cmWS cmCE"),
    _row("mH₂O", "metre of water", _PRESSURE, _GRAVITY * 1000, "", _UCUM, "mH2O mWC mWS mCE"),
    _row("Torr", "torr", _PRESSURE, 101325 / 760, "m", _PRACTICE),
    _row("atm", "standard atmosphere", _PRESSURE, 101325.0, "", _UCUM, "атм"),
    _row("kgf", "kilogram-force", "M L T-2", _GRAVITY, "", _UCUM, "kp кгс"),
    _row("lbf", "pound-force", "M L T-2", _POUND * _GRAVITY, "", _UCUM),
    _row("ozf", "ounce-force", "M L T-2", _POUND / 16 * _GRAVITY, "", _UCUM),
    _row("lb", "pound", "M", _POUND, "", _YARD, "lbs"),
    _row("oz", "ounce", "M", _POUND / 16, "", _YARD),
    _row("in", "inch", "L", _INCH, "", _YARD, '" ″'),
    _row("ft", "foot", "L", _INCH * 12, "", _YARD, "' ’"),
    _row("yd", "yard", "L", _INCH * 36, "", _YARD),
    _row("mi", "mile", "L", _INCH * 63360, "", _YARD),
    _row("mil", "thousandth of an inch", "L", _INCH / 1000, "", _PRACTICE),
    _row("mph", "mile per hour", "L T-1", _INCH * 63360 / 3600, "", _PRACTICE),
    _row("kn", "knot", "L T-1", 1852 / 3600, "", Source("ISO 80000-3", Standing.MEMORY), "kt"),
    _row("hp", "horsepower", _POWER, 550 * _INCH * 12 * _POUND * _GRAVITY, "", _UCUM),
    _row("PS", "metric horsepower", _POWER, 75 * _GRAVITY, "", Source("DIN 1301-3", Standing.MEMORY), "л.с."),
    _row("CV", "metric horsepower, as Romance languages have it", _POWER, 75 * _GRAVITY, "", _PRACTICE, exactly=True),
    _row("Wp", "watt at the peak of the sun", _POWER, 1.0, "M k", _PRACTICE, exactly=True),
    _row("Wth", "watt of heat", _POWER, 1.0, "G M k", _PRACTICE, exactly=True),
    _row("Wel", "watt of electricity", _POWER, 1.0, "G M k", _PRACTICE, "We", exactly=True),
    _row("kcal", "kilocalorie", _ENERGY, 4186.8, "", _PRACTICE, "ккал"),
    _row("Gcal", "gigacalorie", _ENERGY, 4186.8e6, "", _PRACTICE, "Гкал", exactly=True),
    _row("BTU", "British thermal unit", _ENERGY, 1055.05585262, "k M", _PRACTICE, "Btu"),
    _row("°F", "degree Fahrenheit", "K", 5 / 9, "", _UCUM, "\u2109 ºF ˚F", 459.67),
    _row("cfm", "cubic foot per minute", "L3 T-1", (_INCH * 12) ** 3 / 60, "", _PRACTICE),
    _row("cfh", "cubic foot per hour", "L3 T-1", (_INCH * 12) ** 3 / 3600, "", _PRACTICE),
    _row("lpm", "litre per minute", "L3 T-1", 1e-3 / 60, "m", _PRACTICE, exactly=True),
    _row("Nl", "normal litre", _NORMAL, 1e-3, "", Source("DIN 1343", Standing.MEMORY), "NL", exactly=True),
    _row(
        "Nm³",
        "normal cubic metre",
        _NORMAL,
        1.0,
        "",
        Source("DIN 1343", Standing.MEMORY),
        "Nm3 m³(n) m3(n)",
        exactly=True,
    ),
    _row("slpm", "standard litre per minute", f"{_NORMAL} T-1", 1e-3 / 60, "", _PRACTICE, "slm", exactly=True),
    _row("sccm", "standard cubic centimetre per minute", f"{_NORMAL} T-1", 1e-6 / 60, "", _PRACTICE, exactly=True),
    _row("scfm", "standard cubic foot per minute", f"{_NORMAL} T-1", (_INCH * 12) ** 3 / 60, "", _PRACTICE),
    _row("scfh", "standard cubic foot per hour", f"{_NORMAL} T-1", (_INCH * 12) ** 3 / 3600, "", _PRACTICE),
    _row("gal", "US gallon", "L3", 231 * _INCH**3, "", _UCUM),
    _row("gal (UK)", "imperial gallon", "L3", 4.54609e-3, "", _UCUM, exactly=True),
    _row("gpm", "US gallon per minute", "L3 T-1", 231 * _INCH**3 / 60, "", _PRACTICE),
    _row("Ci", "curie", "T-1", 3.7e10, "m µ n", _UCUM),
    _row("R", "roentgen", "I T M-1", 2.58e-4, "m µ", _UCUM, exactly=True),
    _row("rem", "roentgen equivalent man", "L2 T-2", 1e-2, "m µ", _UCUM, exactly=True),
    _row("G", "gauss", "M T-2 I-1", 1e-4, "k m", _UCUM),
    _row("Gs", "gauss, as ISO writes it", "M T-2 I-1", 1e-4, "k m", Source("ISO 80000", Standing.MEMORY), exactly=True),
    _row("St", "stokes", "L2 T-1", 1e-4, "c", _UCUM, exactly=True),
    _row("Oe", "oersted", "I L-1", 1000 / (4 * math.pi), "k", _UCUM),
    _row("P", "poise", "M L-1 T-1", 0.1, "c m", _UCUM, exactly=True),
    _row("fc", "foot-candle", "J L-2", 1 / (_INCH * 12) ** 2, "", _UCUM),
    _row("Å", "ångström", "L", 1e-10, "", _UCUM),
    _row(
        "°dH", "German degree of hardness", "hardness", 0.1783, "", Source("DIN 38409-6", Standing.MEMORY), exactly=True
    ),
    _row("°fH", "French degree of hardness", "hardness", 0.1, "", _PRACTICE, "°TH", exactly=True),
    _row("°eH", "English degree of hardness", "hardness", 0.1424, "", _PRACTICE, "°Clark", exactly=True),
    _row("°Bx", "degree Brix", "sugar", 1.0, "", _PRACTICE, "°Brix", exactly=True),
    _row("°P", "degree Plato", "sugar", 1.0, "", _PRACTICE, "°Plato", exactly=True),
    _row("°Oe", "degree Oechsle", "must", 1.0, "", _PRACTICE, exactly=True),
    _row("°Bé", "degree Baumé", "hydrometer", 1.0, "", _PRACTICE, exactly=True),
    _row("°Ctd", "dew point in degrees Celsius", "K", 1.0, "", _PRACTICE, "", 273.15, exactly=True),
    _row("°Ftd", "dew point in degrees Fahrenheit", "K", 5 / 9, "", _PRACTICE, "", 459.67, exactly=True),
    _row("NTU", "nephelometric turbidity unit", "turbidity", 1.0, "", Source("ISO 7027-1", Standing.MEMORY)),
)
"""The table. A unit is added as a row, with a source; where it may be a word as well, in `words.py` too."""

JOINED: Final[Mapping[str, str]] = MappingProxyType(
    {"Nm": "N·m", "kNm": "kN·m", "mNm": "mN·m", "cNm": "cN·m", "daNm": "daN·m", "MNm": "MN·m", "Нм": "N·m"}
    | {"Ncm": "N·cm", "Nmm": "N·mm", "kgfm": "kgf·m", "kgfcm": "kgf·cm", "кгсм": "kgf·m"}
    | {"Ωm": "Ω·m", "Ωcm": "Ω·cm", "kΩm": "kΩ·m", "kΩcm": "kΩ·cm", "MΩm": "MΩ·m", "MΩcm": "MΩ·cm"}
    | {"mPas": "mPa·s", "mAs": "mA·s"}
    | {"ft-lb": "ft·lbf", "lb-ft": "lbf·ft", "in-lb": "in·lbf", "lb-in": "lbf·in", "oz-in": "ozf·in"}
    | {"ft-lbf": "ft·lbf", "lbf-ft": "lbf·ft", "in-lbf": "in·lbf", "lbf-in": "lbf·in", "in-oz": "in·ozf"}
)
"""Products written without a sign or with a hyphen, and what they are; pounds and ounces of a torque are forces."""

QUOTIENT_ONLY: Final = (
    frozenset(["r", "rev", "□", "sq", "B", "G", "P", "R", "Sa", "St", "год", "counts", "o", "imp", "We"])
    | COUNTED_THINGS
    | frozenset(word for units in UNIT_WORDS.values() for word in units["r"].split())
    | WHOLE_WORDS
)
"""Symbols that are units only beside others, or with a prefix: alone they are letters or words."""

SPACED: Final = frozenset(
    pair.replace("·", " ")
    for pair in listed(
        """N·m kN·m mN·m cN·m MN·m kV·A A·h mA·h W·h kW·h MW·h V·s A·s W·s kg·m Pa·s mPa·s Ω·m Ω·cm kg·K m·K"""
    )
)
"""Products that a space may join; another space parts two units."""

NAMES: Final[Mapping[str, str]] = MappingProxyType(
    {
        "ohm": "Ω",
        "ohms": "Ω",
        "kohm": "kΩ",
        "kohms": "kΩ",
        "mohm": "MΩ",
        "volt": "V",
        "volts": "V",
        "amp": "A",
        "amps": "A",
        "ampere": "A",
        "watt": "W",
        "watts": "W",
        "sec": "s",
        "secs": "s",
        "sek": "s",
        "mins": "min",
        "deg": "°",
        "inch": "in",
        "inches": "in",
        "feet": "ft",
        "hertz": "Hz",
        "bits": "bit",
        "rev/min": "rpm",
        "degc": "°C",
        "degf": "°F",
    }
)
"""Names that stand for a symbol after a number; alone they are words."""

_CYRILLIC: Final[Mapping[str, str]] = MappingProxyType(
    {"М": "M", "к": "k", "м": "m", "мк": "µ", "н": "n", "п": "p", "Г": "G", "с": "c", "г": "h"}
)

_SAMPLES: Final = dimension("sample T-1")


_RAISED: Final = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")


def raised(exponent: int) -> str:
    """An exponent as it is printed: '' for 1."""
    return "" if exponent == 1 else str(exponent).translate(_RAISED)


def product(symbol: str, factors: list[tuple[Unit, float]]) -> Unit:
    """The unit of several, each to its exponent, written as `symbol`."""
    exponents: dict[str, float] = {}
    scale = 1.0
    parts: list[Part] = []
    for unit, exponent in factors:
        scale *= unit.factor**exponent
        for name, power in unit.dimension:
            exponents[name] = exponents.get(name, 0.0) + power * exponent
        parts.extend(Part(part.prefix, part.symbol, part.exponent * exponent) for part in unit.parts)
    left = tuple(sorted((name, power) for name, power in exponents.items() if power))
    return Unit(symbol, left, scale, tuple(parts))


def _all_units() -> dict[str, Unit]:
    """Every unit with every prefix it is met with, by each way to write it."""
    found: dict[str, Unit] = {}
    for row in ROWS:
        for prefix in ("", *row.prefixes):
            scale = PREFIXES[prefix] if prefix else 1.0
            unit = Unit(prefix + row.symbol, row.dimension, row.factor * scale, (Part(prefix, row.symbol),), row.offset)
            for symbol in (row.symbol, *row.also):
                for written in _written(prefix, symbol):
                    found.setdefault(written, unit)
    _add_written_otherwise(found)
    _add_by_trade(found)
    for symbol, spelt in COUNT_WORDS.items():
        found |= dict.fromkeys(spelt.split(), found[symbol])
    for words in UNIT_WORDS.values():
        for symbol, spelt in words.items():
            for word in spelt.split():
                found[word] = found[symbol]
                if len(word) > 1:
                    found[f"{word}."] = found[symbol]
    return found


_INERTIA: Final = ("kg", "g"), ("m", "cm", "mm"), ("²", "2")
"""Moments of inertia written without a sign: kgm², gcm²."""

_TURNS: Final = ("d/dk", "d/dak", "o/min")
"""Revolutions per minute in Turkish and Slavonic languages, whose first letter is another unit by itself."""

_GAUGED: Final = ("bar", "mbar", "kPa", "MPa", "hPa", "Pa", "psi")
_GAUGES: Final = ("(a)", "(g)", "(d)", "(abs)", "(rel)", "(gauge)", "(ü)", " a", " g", " ü", " abs", " rel")
"""What a pressure is counted from: nought, that of the air, another; some join a letter to the symbol."""


def _add_written_otherwise(found: dict[str, Unit]) -> None:
    """Units that are written as no prefix and symbol are: MS/s, Mbps, V p-p, 1/min, Nm."""
    for prefix in ("", "k", "M", "G"):
        scale = PREFIXES[prefix] if prefix else 1.0
        symbol = f"{prefix}S/s"
        found[symbol] = Unit(symbol, _SAMPLES, scale, (Part(prefix, "S/s"),))
    for prefix in ("G", "M", "k"):
        unit = Unit(
            f"{prefix}bit/s", dimension("bit T-1"), PREFIXES[prefix], (Part(prefix, "bit"), Part("", "s", -1.0))
        )
        found[f"{prefix}bps"] = unit
    for spaced, of in (("p-p", "Vpp"), ("pp", "Vpp"), ("rms", "Vrms"), ("RMS", "Vrms")):
        for prefix in ("", "k", "m", "µ"):
            found[f"{prefix}V {spaced}"] = found[prefix + of]
    for per in ("min", "s", "h"):
        found[f"1/{per}"] = found[f"/{per}"] = found[f"{per}-1"] = product(f"{per}⁻¹", [(found[per], -1.0)])
        for word in (each for words in UNIT_WORDS.values() for each in words.get(per, "").split()):
            found[f"1/{word}"] = found[f"1/{per}"]
    for joined, symbol in JOINED.items():
        newton, metre = symbol.split("·")
        found[joined] = product(symbol, [(found[newton], 1.0), (found[metre], 1.0)])


def _add_by_trade(found: dict[str, Unit]) -> None:
    """What one trade or language writes: bar(g), kgm², columns in Russian, V c.c. in Romance languages."""
    for of in _GAUGED:
        for gauge in (*_GAUGES, *("a", "g", "d")[: 3 if of in ("bar", "mbar", "kPa", "psi") else 0]):
            found.setdefault(of + gauge, Unit(of + gauge, found[of].dimension, found[of].factor, found[of].parts))
    for mass, length, power in itertools.product(*_INERTIA):
        square = product(f"{mass}·{length}²", [(found[mass], 1.0), (found[length], 2.0)])
        found[f"{mass}{length}{power}"] = square
    found["r. p. m."] = found["rpm"]
    found |= {prefix + word: found[f"{prefix}s"] for prefix in ("m", "µ", "μ", "u", "n") for word in ("sec", "sek")}
    found |= dict.fromkeys(_TURNS, product("r/min", [(found["r"], 1.0), (found["min"], -1.0)]))
    for of in ("mmHg", "mmH₂O"):
        column = "рт" if of == "mmHg" else "вод"
        found[f"мм {column}. ст."] = found[f"мм {column}.ст."] = found[of]
    for prefix in ("м", "мк"):
        found[f"{prefix}См"] = found[f"{_CYRILLIC[prefix]}S"]
    _add_in_parts(found)
    _add_by_way(found)
    for of, kind in itertools.product(("V", "kV", "A", "mA"), ("cc", "ca")):
        found[f"V{kind}".upper()] = found[f"V{kind}"]
        found[f"{of} {kind}"] = found[f"{of} {kind[0]}.{kind[1]}."] = found[of + kind]


def _add_in_parts(found: dict[str, Unit]) -> None:
    """Units whose parts a blank, a point or brackets part: mm Hg, in. w.c., cu. ft, gal (US)."""
    found["gal (US)"] = found["gal"]
    found["gal (Imp)"] = found["gal (imp)"] = found["gal (UK)"]
    for length, of, dot in itertools.product(("mm", "cm", "m", "in"), ("Hg", "H₂O", "H2O"), ("", ".")):
        if (length != "m" or of != "Hg") and (length == "in" or not dot):
            found[f"{length}{dot} {of}"] = found[length + of]
    for of in ("in", "mm", "cm"):
        found[f"{of} WC"] = found[f"{of} w.c."] = found[f"{of}WC"]
    found["in. w.c."] = found["inWC"]
    reading = "rdg"
    found[f"% of {reading}"] = found[f"% {reading}"]
    for of in ("cu ft", "cu in", "sq ft", "sq in"):
        found[of.replace(" ", ". ")] = found[of]


def _add_by_way(found: dict[str, Unit]) -> None:
    """Quotients whose letters are none by themselves: l/100 km of a car's consumption, deg/s."""
    for above in ("l", "L", "kWh", "kg"):
        unit, metre = found[above], found["km"]
        parts = product("", [(unit, 1.0), (metre, -1.0)])
        consumed = Unit(f"{above}/100 km", parts.dimension, parts.factor / 100, parts.parts)
        found[f"{above}/100 km"] = found[f"{above}/100km"] = consumed
    for per in ("s", "min", "h"):
        found[f"deg/{per}"] = product(f"°/{per}", [(found["°"], 1.0), (found[per], -1.0)])
    found["deg/s²"] = product("°/s²", [(found["°"], 1.0), (found["s"], -2.0)])


def _written(prefix: str, symbol: str) -> tuple[str, ...]:
    """A prefix with a symbol, and with the letters that stand for µ; Cyrillic symbols have Cyrillic prefixes."""
    if "\u0400" <= symbol[0] <= "\u04ff":
        return tuple(letters + symbol for letters, of in _CYRILLIC.items() if of == prefix) if prefix else (symbol,)
    whole = prefix + symbol
    if "µ" not in whole:
        return (whole,)
    return (whole, whole.replace("µ", "μ"), whole.replace("µ", "u"))


UNITS: Final[Mapping[str, Unit]] = MappingProxyType(_all_units())
"""Every unit by how it is written."""


ARC_SECOND: Final = Unit("″", dimension("angle"), math.pi / 648000, (Part("", "″"),))
"""The second of arc (SI Brochure, table 8), whose sign is an inch where neither degrees nor minutes stand before it."""


def _exactly() -> frozenset[str]:
    """What is a unit in its own letters only: rows that say so, words of languages, products that look like words."""
    words = {word for words in UNIT_WORDS.values() for spelt in words.values() for word in spelt.split()}
    rows = {
        written
        for row in ROWS
        if row.exactly
        for prefix in ("", *row.prefixes)
        for symbol in (row.symbol, *row.also)
        for written in _written(prefix, symbol)
    }
    gauged = {of + letter for of in _GAUGED for letter in "agd"}
    counted = set(" ".join(COUNT_WORDS.values()).split())
    single = {*_TURNS, "mAs", "VCC", "VCA", "мСм", "мкСм"}
    dotted = {f"{word}." for word in words}
    return frozenset(words | dotted | counted | rows | gauged | single) - {"мин", "ч", "с", "об"}


EXACTLY: Final = _exactly()
"""Units whose letters in another case are none."""


def _folded() -> dict[str, tuple[Unit, ...]]:
    """Units by their letters in small; what u makes of µ is left out, since US and UA are no micro."""
    found: dict[str, dict[str, Unit]] = {}
    for written, unit in UNITS.items():
        if len(written) > 1 and written not in EXACTLY and not (written[0] == "u" and unit.symbol[0] == "µ"):
            found.setdefault(written.lower(), {}).setdefault(unit.symbol, unit)
    for symbol in ("V", "W", "A"):
        found[symbol.lower()] = {symbol: UNITS[symbol]}
    return {letters: tuple(units.values()) for letters, units in found.items()}


FOLDED: Final[Mapping[str, tuple[Unit, ...]]] = MappingProxyType(_folded())
"""Units by their letters, whatever their case."""


def unknown(symbol: str) -> Unit:
    """A unit that the writer says is one and the table does not have: comparable with itself only."""
    return Unit(symbol, ((f"unit:{symbol}", 1.0),), 1.0, (Part("", symbol),))
