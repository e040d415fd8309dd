"""What is kept of our own fonts is what HarfBuzz says of them."""

from __future__ import annotations

import subprocess
import sys
import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.lettering.fonts import Font, open_font, shaper_font
from panelart.lettering.own_faces import PLAIN, SYMBOLS, own_face
from panelart.lettering.scripts import script_of
from tests.effort import examples, some

NAMES = sorted(PLAIN | SYMBOLS)
CHARACTERS = sorted(shaper_font("plain-light").face.face.unicodes)
LETTERS = [chr(code) for code in CHARACTERS]


def both(name: str) -> tuple[Font, Font]:
    """A font with what is kept of it, and as the shaper has it."""
    kept, shaper = open_font(name), shaper_font(name)
    assert kept.own is not None, "python -m panelart.built"
    assert shaper.own is None
    return kept, shaper


@pytest.mark.parametrize("name", NAMES)
def test_every_glyph_is_drawn_as_the_shaper_draws_it(name: str) -> None:
    kept, shaper = both(name)
    assert repr(kept.cap_units) == repr(shaper.cap_units)
    for number in some(range(shaper.face.face.glyph_count), 300):
        assert repr(kept.outline(number)) == repr(shaper.outline(number))
        assert repr(kept.box(number)) == repr(shaper.box(number))


@pytest.mark.parametrize("name", sorted(PLAIN))
def test_every_character_has_the_shapers_glyph(name: str) -> None:
    kept, shaper = both(name)
    letters = [chr(code) for code in range(0x2FFF)]
    assert [kept.number(letter) for letter in letters] == [shaper.number(letter) for letter in letters]


@pytest.mark.parametrize("name", sorted(SYMBOLS))
def test_every_symbol_has_the_shapers_glyph(name: str) -> None:
    kept, shaper = both(name)
    numbers = range(1, shaper.face.face.glyph_count)
    found = [own_face(name).names[shaper.face.glyph_to_string(number)] for number in numbers]
    assert found == list(numbers)
    with pytest.raises(ValueError, match="nowhere"):
        kept.symbol("nowhere")


@pytest.mark.few(2)
@pytest.mark.parametrize("name", sorted(PLAIN))
def test_every_pair_of_common_characters_is_set_alike(name: str) -> None:
    """Every second character before all, the others in the next cut."""
    kept, shaper = both(name)
    common = [letter for letter in LETTERS if letter < "\u017f" and kept.own.sets(letter)]
    assert len(common) > 180
    for first in some(common[sorted(PLAIN).index(name) % 2 :: 2], 60):
        line = "".join(first + second for second in common)
        assert repr(kept.shaped(line, script="Latn")) == repr(shaper.shaped(line, script="Latn"))


@given(
    name=st.sampled_from(sorted(PLAIN)),
    text=st.text(st.sampled_from(LETTERS), min_size=1, max_size=12),
    script=st.sampled_from(["Latn", "Grek", "Cyrl", "Zyyy", ""]),
    language=st.sampled_from(["", "de", "tr", "el"]),
    features=st.sampled_from([None, {"liga": True, "clig": True}, {"smcp": True}, {"zero": 1}, {"zero": 2}]),
)
@settings(max_examples=examples(2000), deadline=None)
def test_lines_are_set_as_the_shaper_sets_them(name, text, script, language, features) -> None:
    kept, shaper = both(name)
    asked = {"right_to_left": False, "script": script, "language": language, "features": features}
    assert repr(kept.shaped(text, **asked)) == repr(shaper.shaped(text, **asked))


@pytest.mark.parametrize("text", ["e\u0301", "\u200dA", "A\u00adB", "\u05d0", "\U0001f600"])
def test_marks_unseen_characters_and_those_it_lacks_are_left_to_the_shaper(text: str) -> None:
    kept, shaper = both("plain-light")
    assert not kept.own.sets(text)
    assert repr(kept.shaped(text)) == repr(shaper.shaped(text))


def test_no_character_is_taken_apart_or_joined() -> None:
    """The shaper joins a mark to what stands before it; every character that is set here is one by itself."""
    alone = [letter for letter in LETTERS if own_face("plain-light").sets(letter)]
    assert len(alone) > 600
    assert not [letter for letter in alone if unicodedata.combining(letter)]


def test_lettering_in_our_fonts_does_not_load_the_shaper() -> None:
    code = (
        "import sys; from panelart.lettering.setting import set_words; from panelart.lettering.measures import widths;"
        "widths(set_words('GAIN 10 \\u00b5s', 'plain-light', 3.0)).gap; set_words('standby', 'symbols-light', 3.0);"
        "print('uharfbuzz' in sys.modules)"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "False"


def test_scripts_are_those_of_unicode() -> None:
    """Every character, in the quick run one of 64 beyond the first, against fontTools' tables (UAX #24)."""
    known = pytest.importorskip("fontTools.unicodedata").script
    alike = {"Zyyy", "Zinh", "Zzzz"}
    first, others = range(0x3400), [code for code in range(0x3400, 0x110000) if not 0xD800 <= code < 0xE000]
    for code in (*first, *some(others, len(others) // 64)):
        told = known(chr(code))
        assert script_of(chr(code)) == ("Zyyy" if told in alike else told), f"U+{code:04X}"
