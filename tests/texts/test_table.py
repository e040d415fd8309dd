"""Every text of the table means what is written there; the table was written first, and has no exceptions."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml

from panelart.texts.parse import parse
from tests.texts.notation import table_of

FILE = Path(__file__).with_name("table.yaml")
SECTIONS = yaml.safe_load(FILE.read_text(encoding="utf-8"))
TEXTS = {text: runs for section in SECTIONS for text, runs in section["texts"].items()}
LANGUAGES = {
    "10,000 Hz": ("en", "quantity 10000 Hz"),
    "10,500 Hz": ("de", "quantity 10.500 Hz"),
    "10,000 W": ("hi", "quantity 10000 W"),
    "5 год": ("uk", "quantity 5 h"),
    "2 To": ("fr", "quantity 2 To"),
    "7 ch": ("fr", "quantity 7 CV"),
    "10 cv": ("es", "quantity 10 CV"),
    "20 hk": ("sv", "quantity 20 PS"),
    "20 pk": ("nl", "quantity 20 PS"),
}
"""Languages that part thousands by commas (CLDR), and units of one language (common practice)."""


def written(runs: list[str]) -> list[str]:
    """The runs of the table; of an unsure one its readings."""
    return [run.split(" = ", 1)[1] if run.startswith("unsure ") else run for run in runs]


@pytest.mark.parametrize("section", SECTIONS, ids=lambda section: section["source"][:60])
def test_every_text_means_what_the_table_says(section: dict) -> None:
    wrong = {
        text: (written(runs), read)
        for text, runs in section["texts"].items()
        if written(runs) != (read := table_of(parse(text)))
    }
    assert wrong == {}


def test_the_table_is_as_large_as_promised_and_has_no_text_twice() -> None:
    keys = [
        key.value
        for section in yaml.compose(FILE.read_text(encoding="utf-8")).value
        for field, texts in section.value
        if field.value == "texts"
        for key, _ in texts.value
    ]
    assert len(keys) == len(set(keys)) == len(TEXTS) >= 700


def test_every_section_has_a_source() -> None:
    told = re.compile(r"common practice|from memory|seen|ISO|IEC|DIN|UCUM|international")
    assert [section["source"] for section in SECTIONS if not told.search(section["source"])] == []


@pytest.mark.parametrize(("text", "language", "means"), [(text, *told) for text, told in LANGUAGES.items()])
def test_a_language_decides_what_a_comma_parts_and_what_is_a_unit(text: str, language: str, means: str) -> None:
    assert table_of(parse(text, language)) == [means]


# What a writer says outweighs what a text looks like.
@pytest.mark.parametrize(
    ("text", "units", "words", "means"),
    [
        ("MS", [(0, 2)], [], ["unit MS"]),
        ("ms", [(0, 2)], [], ["unit ms"]),
        ("MS", [], [(0, 2)], ["word MS"]),
        ("10 MS", [(3, 5)], [], ["quantity 10 MS"]),
        ("KHZ", [(0, 3)], [], ["unit kHz"]),
        ("10 mA", [], [(3, 5)], ["number 10", "word mA"]),
        ("IN", [(0, 2)], [], ["unit in"]),
        ("5 blips", [(2, 7)], [], ["quantity 5 blips"]),
        ("T 1 A", [], [(0, 1)], ["word T", "quantity 1 A"]),
        ("10 V to 20 V", [(3, 4)], [], ["range 10..20 V"]),
    ],
)
def test_marked_stretches_are_what_the_writer_says(text: str, units: list, words: list, means: list) -> None:
    assert table_of(parse(text, units=units, words=words)) == means
