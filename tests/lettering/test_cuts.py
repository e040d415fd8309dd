"""The cuts of our own face by name, and those that are drawn when asked for, held to the ones that are built."""

from __future__ import annotations

import io
import subprocess
import sys
import unicodedata

import pytest
from fontTools.pens.recordingPen import RecordingPen
from fontTools.ttLib import TTFont
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.lettering import cuts
from panelart.lettering.cuts import MEDIUM, NAMED, Cut, cut_named, cut_of, narrowed
from panelart.lettering.embedding import glyphs_alone
from panelart.lettering.fonts import Pen, open_font
from panelart.lettering.measures import widths
from panelart.lettering.setting import Setting, set_words
from panelart.lettering.spans import Manner, Span
from tests.effort import examples, some

drawn = pytest.importorskip("panelart.lettering.face.drawn", reason="skia-pathops draws what is not built")


@given(st.integers(600, 1400).map(lambda n: n / 100), st.integers(76, 100).map(lambda n: n / 100))
@settings(max_examples=examples(200), deadline=None)
def test_a_cut_has_one_name_and_a_name_one_cut(weight: float, width: float) -> None:
    cut = Cut(weight, width)
    assert cut_named(cut.name) == cut
    assert cut_of(cut.font) == cut
    assert cut_of(cut.symbols) == Cut(weight)


@pytest.mark.parametrize(
    "name", ["", "regular", "h/7.5", "h/10", "h/5.9", "h/14.1", "h/8-0.76", "h/8-1", "h/8-0.5", "medium-normal", "h/08"]
)
def test_what_is_no_cut_or_has_another_name_is_none(name: str) -> None:
    assert cut_named(name) is None


def test_the_named_weights_are_those_of_their_sources() -> None:
    """ISO 3098-0 h/10 and h/14; DOD-HDBK-791(AM), 6-5.3.2.3: 1/8 to 1/7 light on dark, 1/6 dark on light."""
    assert cuts.WEIGHTS["light"] == 10
    assert 7 <= cuts.WEIGHTS["medium"] <= 8
    assert cuts.WEIGHTS["bold"] == cuts.HEAVIEST == 6
    assert cuts.FINEST == 14


def test_a_font_that_is_narrow_or_not_ours_has_no_narrower_one() -> None:
    assert narrowed(MEDIUM.font) == "plain-medium-narrow"
    assert narrowed("plain-h/8-0.9") == "plain-h/8-narrow"
    assert [narrowed(font) for font in ("plain-bold-narrow", "house.ttf", "symbols-bold")] == [None] * 3


DRAWN = [*(cut.font for cut in NAMED), "symbols-light", "symbols-bold"]


@pytest.mark.few(2)
@pytest.mark.parametrize("font", DRAWN)
def test_a_cut_drawn_when_asked_for_is_the_one_that_is_built(font: str) -> None:
    """Every second glyph, the even ones in one cut and the odd ones in the next."""
    built, cut = open_font(font).own, cut_of(font)
    assert built is not None
    assert cut is not None
    face = drawn.DrawnFace(cut, symbols=font.startswith("symbols"))
    assert face.cap_units == built.cap_units
    assert dict(face.numbers) == dict(built.numbers)
    assert all(built.names[name] == number for name, number in face.names.items())
    numbers = some(list((face.numbers or face.names).values())[DRAWN.index(font) % 2 :: 2], 40)
    for place, number in enumerate(numbers):
        one, other = Pen(), Pen()
        face.draw(number, one)
        built.draw(number, other)
        assert one.loops == other.loops
        box, kept = face.box(number), built.box(number)
        assert (box is None) == (kept is None)
        if box is not None and kept is not None:
            sides = (box.left, box.bottom, box.right, box.top)
            assert sides == pytest.approx((kept.left, kept.bottom, kept.right, kept.top))
        for second in numbers[place % 13 :: 13]:  # each letter before every thirteenth, another thirteen each time
            assert face.step(number, second) == built.step(number, second)


@pytest.mark.parametrize("cut", [Cut(14.0), Cut(8.0), Cut(9.0, 0.88), Cut(6.5, 0.76)])
def test_any_weight_has_the_pen_that_it_says(cut: Cut) -> None:
    """The width of I is the stroke; an H is as wide as the drawing, widened for the pen."""
    setting = set_words("I", cut.font, 10.0)
    assert setting.box.width == pytest.approx(10 / cut.weight, abs=0.01)
    assert setting.box.height == pytest.approx(10.0, abs=0.001)
    assert widths(set_words("HI", cut.font, 10.0)).stroke == pytest.approx(10 / cut.weight, abs=0.02)


def test_width_and_weight_grow_along_their_axes() -> None:
    wide = [set_words("OUTPUT", Cut(8.0, width).font, 3.0).box.width for width in (0.76, 0.85, 0.93, 1.0)]
    heavy = [set_words("OUTPUT", Cut(weight).font, 3.0).box.width for weight in (14.0, 10.0, 8.5, 7.5, 6.0)]
    assert wide == sorted(set(wide))
    assert heavy == sorted(set(heavy))


@pytest.mark.full
def test_a_cut_that_is_not_built_is_a_whole_font_for_who_embeds_it() -> None:
    cut = Cut(8.5, 0.9)
    font = TTFont(io.BytesIO(open_font(cut.font).data))
    assert font["name"].getDebugName(6) == "PanelartPlain-W0_9H8_5"
    assert font["OS/2"].usWidthClass == 4
    assert 300 < font["OS/2"].usWeightClass < 500
    assert open_font(cut.font).number("A") == font.getGlyphID("A")
    assert open_font(cut.font).face.get_glyph_h_advance(font.getGlyphID("A")) == font["hmtx"]["A"][0]


def test_the_letters_of_a_cut_that_is_not_built_are_embedded_without_the_others() -> None:
    """By fontTools: outlines and advances are those of the whole font, under the same numbers."""
    font = open_font(Cut(8.5, 0.9).font)
    wanted = [number for letter in "GAIN ½ Ω" if (number := font.number(letter)) is not None]
    whole, alone = TTFont(io.BytesIO(font.data)), TTFont(io.BytesIO(glyphs_alone(font, wanted)))
    order, kept = whole.getGlyphOrder(), alone.getGlyphOrder()
    assert len(kept) == max(wanted) + 1
    assert alone["head"].unitsPerEm == whole["head"].unitsPerEm
    for number in range(1, len(kept)):
        one, other = RecordingPen(), RecordingPen()
        alone.getGlyphSet()[kept[number]].draw(one)
        whole.getGlyphSet()[order[number]].draw(other)
        assert one.value == (other.value if number in wanted else [])
        if number in wanted:
            assert alone["hmtx"][kept[number]] == whole["hmtx"][order[number]]


def test_a_word_in_a_cut_that_is_not_built_loads_neither_shaper_nor_font_tools() -> None:
    code = (
        "import sys; from panelart.lettering.setting import set_words; set_words('GAIN 10 kHz', 'plain-h/8', 3.0);"
        "print({'uharfbuzz', 'fontTools'} & set(sys.modules))"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "set()"


@pytest.mark.few(2)
@pytest.mark.parametrize("font", [MEDIUM.font, "plain-bold", "plain-light-narrow", "plain-h/8"])
def test_the_figures_of_a_fraction_have_one_pen_whether_signs_or_built(font: str) -> None:
    """7/16 beside ½: the same figures at the same places, none made smaller."""
    half = open_font(font).number("½")
    built = set_words("7/16", font, 10.0, spans=(Span(0, 4, Manner.FRACTION),))
    assert half not in [letter.number for letter in built.letters]
    assert len({letter.scale for letter in built.letters}) == 1
    sign = widths(set_words("½", font, 10.0)).stroke
    assert widths(built).stroke == pytest.approx(sign, abs=0.03)


@pytest.mark.parametrize("font", [cut.font for cut in NAMED])
@pytest.mark.parametrize(("sign", "figures"), [("⅜", "8"), ("½", "2"), ("⅘", "5")])
def test_a_fraction_is_set_as_the_sign_of_the_font(font: str, sign: str, figures: str) -> None:
    """3/88, less the step from one 8 to the next, is as wide as ⅜, within 0.4 d."""
    over, under = unicodedata.normalize("NFKC", sign).split("\N{FRACTION SLASH}")

    def width(setting: Setting) -> float:
        boxes = [(each.x, each.scale, open_font(each.font).box(each.number)) for each in setting.letters]
        ends = [(x + scale * box.left, x + scale * box.right) for x, scale, box in boxes if box is not None]
        return max(end for _, end in ends) - min(start for start, _ in ends)

    built = set_words(f"{over}/{under}{figures}", font, 10.0, spans=(Span(0, 4, Manner.FRACTION),))
    more = built.letters[-1].x - built.letters[-2].x
    assert len(built.letters) == 4
    assert width(built) - more == pytest.approx(width(set_words(sign, font, 10.0)), abs=0.4)


@pytest.mark.parametrize("font", ["plain-light", MEDIUM.font])
@pytest.mark.parametrize(("written", "marked"), [("1⁄2", "1/2"), ("15⁄64", "15/64")])
def test_figures_about_a_fraction_slash_are_a_fraction(font: str, written: str, marked: str) -> None:
    """The Unicode Standard, 6.2: figures on both sides of U+2044 are set as one fraction."""
    plain = set_words(f"x {written} in", font, 10.0)
    spelt = set_words(f"x {marked} in", font, 10.0, spans=(Span(2, 2 + len(marked), Manner.FRACTION),))
    assert [(each.number, each.x, each.y, each.scale) for each in plain.letters] == [
        (each.number, each.x, each.y, each.scale) for each in spelt.letters
    ]
    assert "".join(each.text for each in plain.letters if each.text != " ") == f"x{written}in"


@pytest.mark.parametrize("font", ["plain-light", MEDIUM.font])
def test_raised_letters_are_as_heavy_as_raised_figures(font: str) -> None:
    """A letter made smaller is taken from the next bolder cut: within a seventh of the pen of ², 85 %."""
    letter = widths(set_words("HI", font, 10.0, spans=(Span(1, 2, Manner.SUPER),))).stroke
    figure = widths(set_words("H1", font, 10.0, spans=(Span(1, 2, Manner.SUPER),))).stroke
    assert letter == pytest.approx(figure, rel=1 / 7)
