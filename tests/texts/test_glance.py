"""What is told at a glance agrees with what the parser reads, for every unit and for words in any order."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.texts.glance import words_only
from panelart.texts.parse import parse
from panelart.texts.runs import Designation, LoneUnit
from panelart.texts.units import UNITS
from panelart.texts.words import MEASURED
from tests.effort import examples
from tests.texts.test_table import TEXTS

WORDS = (
    "Line",
    "OUT",
    "Mic",
    "Überlast",
    "Μόνο",
    "הספק",
    "مخرج",
    "Вход",
    "of",
    "A",
    "B",
    "L",
    "N",
    "On/Off",
    "(Level)",
)


@pytest.mark.parametrize("text", ["CURRENT LIMIT", "Line out", "Mic / Line", "Channel A", "Überlast", "הספק", ""])
def test_words_are_seen_to_be_words(text: str) -> None:
    assert words_only(text)


@pytest.mark.parametrize("unit", sorted(UNITS.keys() - {"'", "’"}))  # alone they are quotation marks
def test_no_unit_of_the_table_is_taken_for_a_word(unit: str) -> None:
    assert not words_only(f"Current {unit}")
    if len(unit) > 1:
        assert not words_only(f"Level {unit}")
        assert not words_only(f"LEVEL {unit.upper()}")


@settings(max_examples=examples(3000))
@given(
    st.lists(
        st.one_of(
            st.sampled_from([*WORDS, *sorted(UNITS), *sorted(MEASURED), *TEXTS]),
            st.sampled_from(sorted(UNITS)).map(str.upper),
            st.text(max_size=3),
        ),
        min_size=1,
        max_size=5,
    ),
    st.sampled_from([" ", "/", " / ", ""]),
)
def test_where_only_words_are_seen_the_parser_keeps_nothing_together(pieces: list[str], between: str) -> None:
    text = between.join(pieces)
    if not words_only(text):
        return
    read = parse(text)
    assert not any(" " in text[start:end] or "\u00a0" in text[start:end] for start, end in read.unbroken())
    for run in read.runs:
        if isinstance(run.means, LoneUnit):
            assert len(read.written(run)) == 1
        assert not (isinstance(run.means, Designation) and " " in read.written(run))
