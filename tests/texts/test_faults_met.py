"""Texts that were once read wrongly, each as a designer wrote it."""

from __future__ import annotations

import pytest

from panelart.texts.parse import parse
from panelart.texts.spellings import misspelt, unit_meant


@pytest.mark.parametrize("text", ["0,.", ".0k1", "2k½.0k04))", "3)7'3'A/.0k9", "/Ω.0µ722~4"])
def test_a_figure_that_breaks_off_is_read_without_a_fault(text: str) -> None:
    assert "".join(parse(text).written(run) for run in parse(text).runs) == text


@pytest.mark.parametrize("symbol", ["V/div", "kV/div", "L/min", "m/s", "1/min"])
def test_a_compound_unit_in_its_own_letters_is_right(symbol: str) -> None:
    assert unit_meant(symbol) is None


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("3 PH 400 V", ()),
        ("230 V ~ 1 PH 50 Hz 16 A", ()),
        ("Revision 2 a", ()),
        ("Sensor PT100 3 w", ()),
        ("47 v =", (("v", "V"),)),
        ("Max 10 v", (("v", "V"),)),
        ("10 Khz", (("Khz", "kHz"),)),
    ],
)
def test_letters_behind_a_number_are_misspelt_only_where_a_unit_is_meant(text: str, found: tuple) -> None:
    assert misspelt(parse(text)) == found


@pytest.mark.parametrize("text", ["5-10 k", "5–10 k"])
def test_the_prefix_behind_a_range_stays_small(text: str) -> None:
    assert (5, 6) in parse(text).kept()
