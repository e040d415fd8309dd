"""Set words measured by other readers of fonts: fontTools and FreeType."""

from __future__ import annotations

import pytest

from panelart.geometry import Point
from panelart.lettering.fonts import MissingGlyphError, UnknownFontError, fonts_folder, open_font
from panelart.lettering.look import Align
from panelart.lettering.outline import bounds
from panelart.lettering.setting import set_words

PLAIN = fonts_folder() / "built" / "PanelartPlain-Light.ttf"


@pytest.mark.parametrize("cap_height", [1.8, 2.5, 3.0, 5.0, 20.0])
def test_the_drawn_h_is_as_high_as_was_asked(cap_height: float) -> None:
    assert set_words("H", "plain-light", cap_height).box.height == pytest.approx(cap_height, abs=1e-9)


def test_cap_height_is_that_of_the_drawn_h_in_fonttools() -> None:
    from fontTools.pens.boundsPen import BoundsPen
    from fontTools.ttLib import TTFont

    font = TTFont(PLAIN)
    pen = BoundsPen(font.getGlyphSet())
    font.getGlyphSet()[font.getBestCmap()[ord("H")]].draw(pen)
    _, bottom, _, top = pen.bounds
    assert open_font("plain-light").cap_units == pytest.approx(top - bottom)


@pytest.mark.parametrize("text", ["OUTPUT", "AVATAR", "10 kHz", "Größe", "0.001 µF"])
def test_ink_is_as_wide_as_freetype_draws_it_with_kerning(text: str) -> None:
    """FreeType gives each glyph's box; positions come from GPOS read by fontTools' own shaper-free tables via HarfBuzz.

    The sum of FreeType's advances and HarfBuzz's kerning must put first and last ink where the setting has them.
    """
    freetype = pytest.importorskip("freetype")
    import uharfbuzz as hb

    face = freetype.Face(str(PLAIN))
    flags = freetype.FT_LOAD_NO_SCALE
    font = hb.Font(hb.Face(PLAIN.read_bytes()))
    buffer = hb.Buffer()
    buffer.add_str(text)
    buffer.guess_segment_properties()
    hb.shape(font, buffer, {"kern": True, "liga": False})
    x, lefts, rights = 0, [], []
    for info, position in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        face.load_glyph(info.codepoint, flags)
        box = face.glyph.outline.get_bbox()
        if face.glyph.outline.n_points:
            lefts.append(x + box.xMin)
            rights.append(x + box.xMax)
        x += position.x_advance
    face.load_char("H", flags)
    h = face.glyph.outline.get_bbox()
    scale = 3.0 / (h.yMax - h.yMin)
    drawn = set_words(text, "plain-light", 3.0).box
    assert drawn.left == pytest.approx(min(lefts) * scale, abs=1e-6)
    assert drawn.right == pytest.approx(max(rights) * scale, abs=1e-6)


def test_lines_stand_apart_as_iso_3098_type_b_has_it() -> None:
    """DIN EN ISO 3098-0:1998-04, type B: base lines 1.3 h apart for capitals only, 1.5 h with small letters."""
    assert set_words("OUT\nPUT", "plain-light", 2.0).baselines == pytest.approx((0.0, -2.6))
    assert set_words("Out\nput", "plain-light", 2.0).baselines == pytest.approx((0.0, -3.0))
    assert set_words("ÖL\nÖL", "plain-light", 2.0).baselines == pytest.approx((0.0, -3.8))


@pytest.mark.parametrize("align", [Align.LEFT, Align.RIGHT, Align.CENTRE])
def test_lines_are_aligned_on_their_ink(align: Align) -> None:
    setting = set_words("CURRENT\nLIMIT", "plain-light", 3.0, align)
    lower = bounds([loop for loop in setting.shape if bounds([loop]).top < -0.5])
    gaps = (lower.left - setting.box.left, setting.box.right - lower.right)
    expected = {Align.LEFT: gaps[0], Align.RIGHT: gaps[1], Align.CENTRE: gaps[0] - gaps[1]}[align]
    assert expected == pytest.approx(0.0, abs=1e-9)


def test_a_character_the_font_lacks_is_named() -> None:
    with pytest.raises(MissingGlyphError, match=r"U\+6F22"):
        set_words("漢", "plain-light", 3.0)


def test_a_font_that_is_not_there_is_refused_with_those_that_are() -> None:
    with pytest.raises(UnknownFontError, match="plain-medium"):
        set_words("A", "plane", 3.0)


def test_placed_words_turn_about_the_start_of_their_base_line() -> None:
    setting = set_words("H", "plain-light", 10.0)
    turned = bounds(setting.placed(Point(50.0, 20.0), 90.0))
    assert (turned.left, turned.right) == pytest.approx((40.0, 50.0), abs=1e-9)
    assert turned.bottom == pytest.approx(20.0 + setting.box.left, abs=1e-9)
