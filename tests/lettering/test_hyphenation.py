"""Words broken by dictionary, against the divisions that printed dictionaries give.

Divisions of the German words are those of the official orthography (§ 107 to § 112), of the English ones those of
dictionaries, of the Greek one by syllable; all from memory.
"""

from __future__ import annotations

import pytest

from panelart.diagnostics import Where
from panelart.lettering.hyphenation import AFTER, BEFORE, FEWEST, dictionary, divided, divisions, languages
from panelart.lettering.spans import Manner, Span
from panelart.source.problems import Problems
from panelart.spec.markup import marked


def hyphenated(text: str, language: str) -> str:
    problems = Problems()
    read = marked(text, {}, Where("", 1, 1), problems)
    assert not len(problems)
    places = divisions(read.text, read.spans, read.kept, language, dictionary(language))
    assert all(span.start == span.stop and span.manner is Manner.DIVISION for span in places)
    letters = read.text
    for span in reversed(places):
        letters = f"{letters[: span.start]}-{letters[span.start :]}"
    return letters


@pytest.mark.parametrize(
    ("language", "text", "found"),
    [
        ("de", "Hauptschalter", "Haupt-schal-ter"),
        ("de", "Temperatur", "Tem-pe-ra-tur"),
        ("de", "Sicherheitsventil", "Si-cher-heits-ven-til"),
        ("de-AT", "Beleuchtung", "Be-leuch-tung"),
        ("en-US", "Temperature", "Tem-per-a-ture"),
        ("en-US", "Calibration", "Cal-i-bra-tion"),
        ("el", "θερμοκρασία", "θερ-μο-κρα-σία"),
        ("fr", "Alimentation", "Ali-men-ta-tion"),
        # what is never broken
        ("de", "Pumpe", "Pumpe"),  # short
        ("de", "EEPROM", "EEPROM"),  # capitals
        ("en", "12 ampere", "12 ampere"),
        ("en", "RS-232 T1AL250V CANopen 100–240 V", "RS-232 T1AL250V CANopen 100–240 V"),
        ("en", "{keep Temperature}", "Temperature"),
        ("en", "{unit Temperature}", "Temperature"),
        # what the writer marked is broken there alone
        ("en", "Tempera\u00adture control", "Temperature con-trol"),
        ("hu", "asszonnyal", "asszonnyal"),  # its letters would change: asz-szonnyal
    ],
)
def test_words_are_divided_as_dictionaries_do(language: str, text: str, found: str) -> None:
    assert hyphenated(text, language) == found


@pytest.mark.parametrize("language", languages())
def test_enough_letters_stay_on_both_sides(language: str) -> None:
    word = "interconnection" if language != "el" else "θερμοκρασία"
    for piece in (word, word[: FEWEST - 1]):
        places = [span.start for span in divisions(piece, (), (False,) * len(piece), language, dictionary(language))]
        assert all(BEFORE <= at <= len(piece) - AFTER for at in places)
        assert not places or len(piece) >= FEWEST


def test_there_is_a_dictionary_for_a_region_or_its_language() -> None:
    assert dictionary("de-CH") == "de_CH"
    assert dictionary("de-LI").startswith("de")
    assert dictionary("en-GB") == "en_GB"
    assert [dictionary(tag) for tag in ("tr", "he", "ja", "xx")] == [""] * 4
    assert {"de", "en", "fr", "el"} <= set(languages())


def test_only_the_dictionarys_places_are_turned_to_last() -> None:
    assert divided((Span(0, 2, Manner.BAR), Span(3, 3, Manner.HYPHENATION))) == ()
    assert divided((Span(0, 2, Manner.BAR), Span(3, 3, Manner.DIVISION))) == (
        Span(0, 2, Manner.BAR),
        Span(3, 3, Manner.HYPHENATION),
    )
