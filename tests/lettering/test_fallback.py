"""Fallback by word or script, in fonts of boxes made for it: which letters each has is written in the test."""

from __future__ import annotations

from pathlib import Path

import pytest
import uharfbuzz as hb

from panelart.lettering.fallback import fonts_of
from panelart.lettering.fonts import Font, MissingGlyphError, file_of, open_font
from panelart.lettering.look import Look
from panelart.lettering.pens import face_pen, of_the_weight_of
from panelart.lettering.setting import set_words
from tests.lettering.builders import boxes, installed

BOX = (100, 0, 300, 700)
LATIN = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789 .,-/"


def face(name: str, letters: str) -> Font:
    return Font.from_bytes(name, boxes(dict.fromkeys(dict.fromkeys("H" + letters), BOX)))


MAIN = face("m.ttf", LATIN)
VIET = face("v.ttf", LATIN + "ỒÍ")
GREEK = face("g.ttf", "ΩΑΒ0123456789→")
MIXED = face("x.ttf", LATIN + "ỒΩ")
SIGNS = face("s.ttf", "⏻→°")


def set_in(line: str, *fonts: Font) -> str:
    return "".join(font.name[0] for font in fonts_of(line, fonts))


@pytest.mark.parametrize(
    ("line", "fonts", "expected"),
    [
        ("NGUON", (MAIN, VIET), "mmmmm"),
        ("NGUỒN", (MAIN, VIET), "vvvvv"),  # never N G U from one and Ồ from another
        ("NGUỒN 12", (MAIN, VIET), "vvvvvvvv"),  # the whole of a script in one font that has it all
        ("NGU\u1ed2N CHINH", (MAIN, VIET), "vvvvvvvvvvv"),
        ("POWER ⏻", (MAIN, SIGNS), "mmmmmms"),  # a sign does not drag the letters with it
        ("A → B", (MAIN, SIGNS), "mmsmm"),
        ("10 kΩ", (MAIN, GREEK, MIXED), "mmmxx"),  # a unit of two scripts in one font that has both
        ("10 kΩ", (MAIN, GREEK), "mmmmg"),  # script by script where no font has the word
        ("10 kΩ → 5 V", (MAIN, GREEK, MIXED), "mmmxxxgxmmm"),  # figures are of the letters of the line
        ("OUT Ω", (MAIN, GREEK), "mmmmg"),
    ],
)
def test_no_word_is_in_two_faces(line: str, fonts: tuple[Font, ...], expected: str) -> None:
    assert set_in(line, *fonts) == expected


def test_words_go_to_a_font_each_where_none_has_them_all() -> None:
    one, other = face("a.ttf", LATIN + "Ồ"), face("b.ttf", LATIN + "Ż")
    assert set_in("NGUỒN ŻAR", MAIN, one, other) == "aaaaa" + "a" + "bbb"


def test_a_word_that_no_font_has_whole_is_refused() -> None:
    one, other = face("a.ttf", LATIN + "Ồ"), face("b.ttf", LATIN + "Ż")
    with pytest.raises(MissingGlyphError, match=r"no font has all characters of 'ỒŻ'; font 'a.ttf' lacks 'Ż'"):
        fonts_of("ỒŻ", (MAIN, one, other))
    with pytest.raises(MissingGlyphError, match=r"have no glyph for 'Ω' \(U\+03A9\)"):
        fonts_of("AΩ", (MAIN, VIET))


@pytest.mark.parametrize("space", ["\u00a0", "\u2009", "\u202f", "\u2007", "\u200a"])
@pytest.mark.parametrize("name", ["plain-light", "dejavu", "m"])
def test_thin_and_narrow_spaces_need_no_glyph(space: str, name: str, tmp_path: Path) -> None:
    """HarfBuzz makes them of the plain space; they are white, and no wider than it but for the figure space."""
    if name == "m":
        (tmp_path / "m.ttf").write_bytes(MAIN.data)
        name = str(tmp_path / "m.ttf")
    elif name == "dejavu":
        name = installed("truetype/dejavu/DejaVuSans.ttf", "fonts-dejavu-core")
    set_close, set_apart, usual = (set_words(text, name, 3.0).box.width for text in ("5V", f"5{space}V", "5 V"))
    assert set_close < set_apart <= usual * (1.25 if space == "\u2007" else 1.001)
    font = open_font(name)
    assert hb.Font(hb.Face(font.data)).get_nominal_glyph(ord(" "))


def test_a_variable_fallback_gets_the_weight_of_the_main_font(tmp_path: Path) -> None:
    """Bars that are 200 to 400 of 700 wide over the weights 400 to 900 (`boxes(wide=True)`)."""
    main, other = tmp_path / "main.ttf", tmp_path / "wide.ttf"
    letters = dict.fromkeys("HnouE", (100, 0, 320, 700))
    main.write_bytes(boxes(letters))
    other.write_bytes(boxes(dict.fromkeys("HnouEỒ", BOX), wide=True))
    matched = of_the_weight_of(str(other), str(main))
    assert " wght=" in file_of(matched)
    assert face_pen(matched) == pytest.approx(face_pen(str(main)), rel=0.03)
    setting = set_words("HỒ", str(main), 5.0, look=Look(fallback=(str(other),)))
    assert {letter.font for letter in setting.letters} == {matched}
    asked = f"{other} wght=900"
    assert of_the_weight_of(asked, str(main)) == asked
    assert of_the_weight_of("plain-bold", str(main)) == "plain-bold"
