"""What the symbols mean: numbers as published, and none that is known too little to print."""

from __future__ import annotations

import pytest

from panelart.catalogue.symbols import symbol, symbol_names
from panelart.figure import Known
from panelart.lettering.symbols import SYMBOLS

# Seen beside their meaning in lists of symbols that makers print in manuals of projectors, power meters and
# oscilloscopes; the power symbols also in the Unicode Character Database 14.0 (names of U+23FB to U+23FE, U+2B58).
PUBLISHED = {
    "on": "IEC 60417-5007",
    "off": "IEC 60417-5008",
    "standby": "IEC 60417-5009",
    "on-off": "IEC 60417-5010",
    "sleep": "IEEE 1621",
    "battery": "IEC 60417-5001",
    "earth": "IEC 60417-5017",
    "functional-earth": "IEC 60417-5018",
    "protective-earth": "IEC 60417-5019",
    "chassis": "IEC 60417-5020",
    "equipotential": "IEC 60417-5021",
    "dc": "IEC 60417-5031",
    "ac": "IEC 60417-5032",
    "ac-dc": "IEC 60417-5033",
    "dangerous-voltage": "IEC 60417-5036",
    "hot-surface": "IEC 60417-5041",
    "class-2": "IEC 60417-5172",
    "centre-positive": "IEC 60417-5926",
    "shock-risk": "IEC 60417-6042",
    "caution": "ISO 7000-0434",
    "manual": "ISO 7000-1641",
    # Glossaries of medical equipment and a checklist for its labels; a projector maker's list; the guide of a radio
    # site; programs for one-line diagrams; ISO 13850:2015, 4.3.7, as quoted; sellers of safety signs.
    "applied-part-b": "IEC 60417-5840",
    "applied-part-bf": "IEC 60417-5333",
    "mute": "IEC 60417-5436",
    "crossed-bin": "EN 50419",
    "indoor-use": "IEC 60417-5957",
    "radio-waves": "IEC 60417-5140",
    "transformer": "IEC 60417-5156",
    "emergency-stop": "IEC 60417-5638",
    "laser": "ISO 7010-W004",
}


def test_every_symbol_that_is_drawn_is_told() -> None:
    assert symbol_names() == SYMBOLS


@pytest.mark.parametrize(("name", "number"), PUBLISHED.items())
def test_numbers_as_published(name: str, number: str) -> None:
    assert symbol(name).number == number
    assert symbol(name).known is Known.LOOKED_UP


def test_other_numbers_are_marked_as_recalled() -> None:
    for name in SYMBOLS:
        if name not in PUBLISHED and symbol(name).number:
            assert symbol(name).known is Known.MEMORY, name


def test_no_two_symbols_have_one_number() -> None:
    numbers = [symbol(name).number for name in SYMBOLS if symbol(name).number]
    assert len(numbers) == len(set(numbers))
