"""The table of units against pint, a units library of many hands: dimension and factor of every unit it knows."""

from __future__ import annotations

import math

import pytest

from panelart.texts.parse import parse
from panelart.texts.quantities import DimensionError, Quantity, ordered
from panelart.texts.runs import LoneUnit
from panelart.texts.unit_reading import told
from panelart.texts.units import PREFIXES, ROWS, UNITS, Standing, unknown
from panelart.texts.words import MEASURED

pint = pytest.importorskip("pint")

# Pint's names for what the table calls otherwise. What pint has not, or defines by another convention, is left out of
# PINT and named in WITHOUT with the reason.
NAMES = {
    "°C": "delta_degree_Celsius",
    "°F": "delta_degree_Fahrenheit",
    "°Ctd": "delta_degree_Celsius",
    "°Ftd": "delta_degree_Fahrenheit",
    "°": "degree",
    "′": "arcminute",
    "%": "percent",
    "Ω": "ohm",
    "VA": "volt * ampere",
    "var": "volt * ampere",
    "Wh": "watt * hour",
    "Ah": "ampere * hour",
    "VAh": "volt * ampere * hour",
    "varh": "volt * ampere * hour",
    "bps": "bit / second",
    "r": "revolution",
    "in": "inch",
    "mi": "mile",
    "mil": "thou",
    "kn": "knot",
    "hp": "horsepower",
    "PS": "metric_horsepower",
    "psi": "pound_force_per_square_inch",
    "psig": "pound_force_per_square_inch",
    "cmHg": "centimeter_Hg",
    "inHg": "inch_Hg",
    "cmH₂O": "standard_gravity * kilogram / meter**2 * 10",
    "mH₂O": "standard_gravity * kilogram / meter**2 * 1000",
    "ozf": "ounce_force",
    "cfh": "foot**3 / hour",
    "lpm": "liter / minute",
    "Nl": "liter",
    "Nm³": "meter**3",
    "slpm": "liter / minute",
    "sccm": "centimeter**3 / minute",
    "scfm": "foot**3 / minute",
    "scfh": "foot**3 / hour",
    "R": "roentgen",
    "St": "stokes",
    "mmHg": "millimeter_Hg",
    "mmH₂O": "standard_gravity * kilogram / meter**2",
    "inH₂O": "standard_gravity * kilogram / meter**2 * 25.4",
    "kgf": "kilogram_force",
    "lbf": "pound_force",
    "gal": "gallon",
    "gpm": "gallon / minute",
    "cfm": "foot**3 / minute",
    "mph": "mile / hour",
    "Å": "angstrom",
    "G": "gauss",
    "Oe": "oersted",
    "P": "poise",
    "Ci": "curie",
    "BTU": "british_thermal_unit",
    "Torr": "torr",
    "kat": "katal",
    "Vpp": "volt",
    "Vp": "volt",
    **dict.fromkeys(("Vcc", "Vdc", "Vca", "Vac"), "volt"),
    **dict.fromkeys(("Acc", "Adc", "Aca", "Aac"), "ampere"),
    "Vrms": "volt",
    "B": "byte",
    "px": "pixel",
    "o": "byte",
    "CV": "metric_horsepower",
    **dict.fromkeys(("Wp", "Wth", "Wel"), "watt"),
    **dict.fromkeys(("% vol", "% mass", "% LEL", "% FS", "% rdg"), "percent"),
    "ips": "inch / second",
    "ipm": "inch / minute",
    "fpm": "foot / minute",
    **dict.fromkeys(("dpi", "ppi"), "1 / inch"),
    "d": "day",
    "t": "metric_ton",
    "T": "tesla",
    "h": "hour",
    "l": "liter",
    "L": "liter",
    "fc": "lumen / foot**2",
    "lm": "lumen",
    "lx": "lux",
    "sr": "steradian",
    "‰": "permille",
    "ppb": "1e-9 * percent / percent",
    "yd": "yard",
    "ft": "foot",
    "cu ft": "foot**3",
    "cu in": "inch**3",
    "sq ft": "foot**2",
    "sq in": "inch**2",
    "g rms": "standard_gravity",
    "gal (UK)": "imperial_gallon",
    "lb": "pound",
    "oz": "ounce",
}

WITHOUT = {
    "levels are references of their own": {
        row.symbol for row in ROWS if any("level" in name for name, _ in row.dimension)
    },
    "counts of what is on a screen, in a film or in time": {"div", "oct", "dec", "□", "bpm", "cpm", "cps", "fps"}
    | {"Sa", "pts", "SPS", "counts", "год", "spm", "cph", "pcs", "strokes", "cycles", "beats", "imp"}
    | {"pps", "IU"},
    "conventions without a dimension in pint": {
        "% RH",
        "rH",
        "pH",
        "NTU",
        "Bd",
        "°dH",
        "°fH",
        "°eH",
        "°Bx",
        "°P",
        "°Oe",
        "°Bé",
    },
    "pint has them in the Gaussian system, where they are of other dimensions": {"G", "Gs", "Oe"},
    "the calorie of the International Table; pint's is another": {"kcal", "Gcal"},
}
LEFT_OUT = set().union(*WITHOUT.values())

# Dimensions of our own that pint counts as numbers or has other names for.
OWN = {"angle": "", "bit": "", "pixel": "[printing_unit]"}
BASES = {
    "L": "[length]",
    "M": "[mass]",
    "T": "[time]",
    "I": "[current]",
    "K": "[temperature]",
    "N": "[substance]",
    "J": "[luminosity]",
    "normal-volume": "[length] ** 3",
    **OWN,
}


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry()


@pytest.mark.parametrize("row", [row for row in ROWS if row.symbol not in LEFT_OUT], ids=lambda row: row.symbol)
def test_dimension_and_factor_are_those_of_pint(row, registry) -> None:
    theirs = (1.0 * registry(NAMES.get(row.symbol, row.symbol))).to_base_units()
    ours = {BASES[name]: power for name, power in row.dimension if BASES[name]}
    if "[length] ** 3" in ours:  # volumes at normal conditions, which pint has as volumes
        ours = {"[length]": 3.0} | {name: power for name, power in ours.items() if name == "[time]"}
    assert {str(name): float(power) for name, power in theirs.dimensionality.items()} == ours
    factor = theirs.magnitude
    if row.symbol in ("bit", "B", "bps", "px"):
        factor = (
            registry.Quantity(1.0, NAMES.get(row.symbol, row.symbol))
            .to({"bit": "bit", "B": "bit", "bps": "bit/s", "px": "pixel"}[row.symbol])
            .magnitude
        )
    assert row.factor == pytest.approx(factor, rel=2e-6)


def test_most_of_the_table_is_held_against_pint() -> None:
    assert len(ROWS) - len(LEFT_OUT) >= 75
    assert {row.symbol for row in ROWS} >= LEFT_OUT


@pytest.mark.parametrize("prefix", [prefix for prefix in PREFIXES if prefix not in ("Ki", "Mi", "Gi", "Ti")])
def test_prefixes_are_those_of_pint(prefix, registry) -> None:
    assert PREFIXES[prefix] == pytest.approx(registry.Quantity(1.0, f"{prefix}m").to("m").magnitude)


# Compound units of the table of texts, whose factor pint works out from its own.
@pytest.mark.parametrize(
    ("written", "theirs"),
    [
        ("m/s²", "m/s**2"),
        ("km/h", "km/h"),
        ("kN·m", "kN*m"),
        ("Nm", "N*m"),
        ("mm²", "mm**2"),
        ("m³/h", "m**3/h"),
        ("nV/√Hz", "nV/Hz**0.5"),
        ("W/(m·K)", "W/m/K"),
        ("J/(kg K)", "J/kg/K"),
        ("µΩ·cm", "uohm*cm"),
        ("mS/cm", "mS/cm"),
        ("lm/W", "lm/W"),
        ("cd/m²", "cd/m**2"),
        ("l/min", "l/min"),
        ("kgf/cm²", "kgf/cm**2"),
        ("mg/L", "mg/L"),
        ("V/m", "V/m"),
        ("kHz/V", "kHz/V"),
        ("kWh/m²", "kWh/m**2"),
    ],
)
def test_quotients_and_products_are_worked_out_as_pint_does(written, theirs, registry) -> None:
    (means,) = parse(written).meanings()
    assert isinstance(means, LoneUnit)
    expected = registry.Quantity(1.0, theirs).to_base_units()
    assert means.unit.factor == pytest.approx(expected.magnitude, rel=1e-9)
    ours = {BASES[name]: power for name, power in means.unit.dimension if BASES[name]}
    assert {str(name): float(power) for name, power in expected.dimensionality.items()} == pytest.approx(ours)


@pytest.mark.parametrize(("text", "kelvin"), [("25 °C", 298.15), ("72 °F", 295.372222222), ("-40 °C", 233.15)])
def test_temperatures_are_measured_from_absolute_zero(text, kelvin, registry) -> None:
    (means,) = parse(text).meanings()
    assert isinstance(means, Quantity)
    assert means.base == pytest.approx(kelvin)
    theirs = registry.Quantity(float(means.value), {"°C": "degC", "°F": "degF"}[means.unit.symbol]).to("K").magnitude
    assert means.base == pytest.approx(theirs)


def quantity(text: str) -> Quantity:
    (means,) = parse(text).meanings()
    assert isinstance(means, Quantity)
    return means


@pytest.mark.parametrize(
    ("less", "more"),
    [
        ("100 mA", "1 A"),
        ("1 A", "10 A"),
        ("-40 °F", "-39 °C"),
        ("999 mV", "1 V"),
        ("1 psi", "1 bar"),
        ("50 µs/div", "1 ms/div"),
        ("1 kΩ", "1.2 kΩ"),
        ("59 min", "1 h"),
        ("25 mm", "1 in"),
    ],
)
def test_quantities_are_ordered_over_mixed_units(less, more) -> None:
    assert quantity(less) < quantity(more)
    assert not quantity(more) < quantity(less)
    assert ordered((quantity(less), quantity(more))) == 1
    assert ordered((quantity(more), quantity(less))) == -1


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("10 mA", "0.01 A"),
        ("1000 mV", "1 V"),
        ("1 h", "60 min"),
        ("1 in", "25.4 mm"),
        ("-40 °C", "-40 °F"),
        ("1 N m", "1 Nm"),
    ],
)
def test_what_is_as_much_is_equal_in_any_unit(one, other) -> None:
    assert quantity(one).equals(quantity(other))
    assert not quantity(one) < quantity(other)


@pytest.mark.parametrize(("one", "other"), [("1 V", "1 A"), ("50 Hz", "50 rpm"), ("3 dBm", "3 dBu"), ("1 mm", "1 Ω")])
def test_other_dimensions_are_never_compared(one, other) -> None:
    assert not quantity(one).equals(quantity(other))
    assert not quantity(one).alike(quantity(other))
    with pytest.raises(DimensionError):
        _ = quantity(one) < quantity(other)


def test_the_order_of_a_row_of_values() -> None:
    assert ordered(tuple(map(quantity, ("10 A", "1 A", "100 mA")))) == -1
    assert ordered(tuple(map(quantity, ("10 mA", "10 mA", "1 A")))) == 0
    assert ordered(tuple(map(quantity, ("1 V", "2 A")))) == 0


def test_values_keep_the_figures_that_were_written() -> None:
    assert f"{quantity('10.0 V').value:f}" == "10.0"
    assert f"{quantity('2,50 A').value:f}" == "2.50"


def test_every_row_says_where_it_is_from_and_every_spelling_is_one_unit() -> None:
    assert all(row.source.name and row.source.standing in Standing for row in ROWS)
    assert len({row.symbol for row in ROWS}) == len(ROWS)
    assert all(math.isfinite(unit.factor) and unit.factor > 0 for unit in UNITS.values())


def test_what_words_measure_is_a_unit_that_is_known() -> None:
    assert {symbol for symbol in MEASURED.values() if told(symbol) == unknown(symbol)} == set()
    for word, symbol in MEASURED.items():
        assert [type(means) for means in parse(f"{word} rpm").meanings()][-1] is LoneUnit, word
        assert parse(f"{word} ({symbol})").text
