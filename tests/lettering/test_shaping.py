"""Shaping, directions and spans, against HarfBuzz called by itself, fontTools, and an independent bidi library.

Fonts of other scripts come from Debian packages (fonts-dejavu-core, fonts-lohit-deva, fonts-droid-fallback,
fonts-urw-base35); where one is not installed its test is skipped.
"""

from __future__ import annotations

import math
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
import uharfbuzz as hb
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.checks.ink import filled
from panelart.geometry import ORIGIN, Point
from panelart.lettering.bidi import levels, runs_right_to_left, visual_order
from panelart.lettering.flat import flattened
from panelart.lettering.fonts import Embedding, Font, MissingGlyphError, UnknownFontError, face_name, open_font
from panelart.lettering.look import Align, Direction, Look, Plate
from panelart.lettering.outline import bounds
from panelart.lettering.setting import set_words
from panelart.lettering.spans import Manner, Span
from tests.effort import examples
from tests.lettering.builders import boxes, installed


@pytest.fixture
def dejavu() -> str:
    return installed("truetype/dejavu/DejaVuSans.ttf", "fonts-dejavu-core")


@pytest.fixture
def devanagari() -> str:
    return installed("truetype/lohit-devanagari/Lohit-Devanagari.ttf", "fonts-lohit-deva")


@pytest.fixture
def ideographs() -> str:
    return installed("truetype/droid/DroidSansFallbackFull.ttf", "fonts-droid-fallback")


@pytest.fixture
def cff() -> str:
    return installed("opentype/urw-base35/NimbusSans-Regular.otf", "fonts-urw-base35")


def span(text: str, part: str, manner: Manner) -> Span:
    start = text.index(part)
    return Span(start, start + len(part), manner)


def shaped_alone(file: str, text: str, direction: str, script: str, language: str = "und") -> list[tuple[int, int]]:
    """Glyph numbers and origins as HarfBuzz gives them when told everything."""
    font = hb.Font(hb.Face(Path(file).read_bytes()))
    buffer = hb.Buffer()
    buffer.add_str(text)
    buffer.direction, buffer.script, buffer.language = direction, script, language
    hb.shape(font, buffer, {"kern": True, "liga": False, "clig": False})
    found, x = [], 0
    for info, position in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        found.append((info.codepoint, x + position.x_offset))
        x += position.x_advance
    return found


# --- scripts


def test_arabic_letters_join_and_run_from_the_right(dejavu: str) -> None:
    text = "مخرج"
    setting = set_words(text, dejavu, 5.0)
    scale = 5.0 / open_font(dejavu).cap_units
    expected = shaped_alone(dejavu, text, "rtl", "Arab")
    assert [letter.number for letter in setting.letters] == [number for number, _ in expected]
    assert [letter.x for letter in setting.letters] == pytest.approx([x * scale for _, x in expected])
    # Joined: none of the glyphs is the letter standing alone but the last, whose neighbour does not join to it.
    nominal = [open_font(dejavu).number(letter) for letter in reversed(text)]
    assert sum(a.number == b for a, b in zip(setting.letters, nominal, strict=True)) <= 1


def test_figures_within_arabic_run_from_the_left(dejavu: str) -> None:
    letters = set_words("مخرج 12 فولت", dejavu, 5.0).letters
    text = "".join(letter.text for letter in letters)
    assert "12" in text
    assert text.index("ت") < text.index("12") < text.index("م")


def test_the_direction_of_the_line_can_be_said(dejavu: str) -> None:
    # The bracket at the end belongs to the line and not to the Latin words in it.
    text = "USB (فولت) A!"
    rightward = set_words(text, dejavu, 5.0, look=Look(direction=Direction.RIGHTWARD)).letters
    leftward = set_words(text, dejavu, 5.0, look=Look(direction=Direction.LEFTWARD)).letters
    assert rightward[0].text == "U"
    assert rightward[-1].text == "!"
    assert leftward[0].text == "!"
    assert leftward[-1].text == "B"


def test_devanagari_is_reordered_and_joined(devanagari: str) -> None:
    text = "शक्ति"
    expected = shaped_alone(devanagari, text, "ltr", "Deva")
    assert [letter.number for letter in set_words(text, devanagari, 5.0).letters] == [number for number, _ in expected]
    assert len(expected) < len(text)  # the conjunct became one glyph


def test_a_font_without_capitals_is_measured_on_a_letter_of_its_script(ideographs: str) -> None:
    """Droid Sans Fallback has no Latin; the ideograph for country then gets the height asked for."""
    assert open_font(ideographs).number("H") is None
    box = set_words("国", ideographs, 5.0).box
    assert box.height == pytest.approx(5.0, abs=1e-9)


def test_ideographs_come_from_the_fallback_at_the_height_of_the_capitals(ideographs: str) -> None:
    setting = set_words("H国", "plain-light", 5.0, look=Look(fallback=(ideographs,)))
    assert [letter.font for letter in setting.letters] == ["plain-light", ideographs]
    heights = [bounds(open_font(l.font).outline(l.number)).height * l.scale for l in setting.letters]
    assert heights == pytest.approx([5.0, 5.0])


def test_marks_stand_on_their_letters(dejavu: str) -> None:
    composed, apart = (set_words(text, dejavu, 10.0).box for text in ("Ḋ", "D\u0307"))
    assert apart.top == pytest.approx(composed.top, abs=0.3)
    assert apart.right == pytest.approx(composed.right, abs=0.3)


def test_without_a_fallback_nothing_is_substituted(dejavu: str) -> None:
    with pytest.raises(MissingGlyphError, match=r"'国' \(U\+56FD\)") as caught:
        set_words("A国", dejavu, 5.0)
    assert (caught.value.character, caught.value.fonts) == ("国", (dejavu,))


def test_cff_outlines_stand_where_fonttools_has_them(cff: str) -> None:
    from fontTools.pens.boundsPen import BoundsPen
    from fontTools.ttLib import TTFont

    font = TTFont(cff)
    glyphs = font.getGlyphSet()
    for letter in "HOgQ&":
        pen = BoundsPen(glyphs)
        glyphs[font.getBestCmap()[ord(letter)]].draw(pen)
        drawn = bounds(open_font(cff).outline(open_font(cff).number(letter)))
        assert (drawn.left, drawn.bottom, drawn.right, drawn.top) == pytest.approx(pen.bounds, abs=0.6)


# --- kerning, ligatures, tracking


def test_ligatures_are_off_unless_asked_for(dejavu: str) -> None:
    assert len(set_words("fi", dejavu, 5.0).letters) == 2
    joined = set_words("fi", dejavu, 5.0, look=Look(ligatures=True)).letters
    assert [letter.text for letter in joined] == ["fi"]


def test_kerning_is_that_of_the_gpos_table_read_by_fonttools(dejavu: str) -> None:
    from fontTools.ttLib import TTFont

    font = TTFont(dejavu)
    cmap = font.getBestCmap()
    first, second = cmap[ord("A")], cmap[ord("V")]
    found = None
    gpos = font["GPOS"].table
    wanted = {
        i
        for record in gpos.FeatureList.FeatureRecord
        if record.FeatureTag == "kern"
        for i in record.Feature.LookupListIndex
    }
    for index in sorted(wanted):
        for subtable in gpos.LookupList.Lookup[index].SubTable:
            table = getattr(subtable, "ExtSubTable", subtable)
            if table.LookupType != 2 or first not in table.Coverage.glyphs or found is not None:
                continue
            if table.Format == 1:
                pairs = table.PairSet[table.Coverage.glyphs.index(first)].PairValueRecord
                found = next((pair.Value1.XAdvance for pair in pairs if pair.SecondGlyph == second), None)
            else:
                one, two = table.ClassDef1.classDefs.get(first, 0), table.ClassDef2.classDefs.get(second, 0)
                found = table.Class1Record[one].Class2Record[two].Value1.XAdvance
    assert found
    a, v = set_words("AV", dejavu, 5.0).letters
    assert (v.x - a.x) / a.scale == pytest.approx(font["hmtx"][first][0] + found)


def test_tracking_adds_its_share_of_the_cap_height_between_letters_only() -> None:
    plain, spaced = (set_words("OUTPUT", "plain-light", 4.0, look=Look(tracking=t)) for t in (0.0, 0.25))
    moves = [b.x - a.x for a, b in zip(plain.letters, spaced.letters, strict=True)]
    assert moves == pytest.approx([0, 1, 2, 3, 4, 5])
    assert spaced.box.width == pytest.approx(plain.box.width + 5.0)


def test_joined_letters_are_not_torn_apart_by_tracking(dejavu: str) -> None:
    plain, spaced = (set_words("مخرج", dejavu, 4.0, look=Look(tracking=t)) for t in (0.0, 0.25))
    assert [letter.x for letter in spaced.letters] == [letter.x for letter in plain.letters]


# --- variable fonts, features, licences


def test_a_variable_font_is_drawn_at_its_instance() -> None:
    data = boxes({"H": (100, 0, 300, 700), "I": (100, 0, 300, 700)}, wide=True)
    thin, middle, wide = (Font.from_bytes("v.ttf", data, instance) for instance in ({}, {"wght": 650}, {"wght": 900}))
    assert [bounds(font.outline(font.number("I"))).width for font in (thin, middle, wide)] == [200, 300, 400]
    assert [font.shape("II")[1] for font in (thin, wide)] == [1200, 1600]
    assert [(axis.tag, axis.minimum, axis.maximum) for axis in thin.axes] == [("wght", 100, 900)]


def test_the_instance_is_part_of_the_name_that_opens_a_font(tmp_path: Path) -> None:
    # Square brackets are common in the names of variable fonts.
    file = tmp_path / "House[wght] 2.ttf"
    file.write_bytes(boxes({"H": (100, 0, 300, 700)}, wide=True))
    name = face_name(str(file), {"wght": 900.0})
    assert name == f"{file} wght=900"
    assert open_font(name).instance == (("wght", 900.0),)
    assert set_words("H", name, 7.0).box.width == pytest.approx(4.0)
    with pytest.raises(UnknownFontError, match="no axis 'wdth'"):
        open_font(face_name(str(file), {"wdth": 80}))
    with pytest.raises(UnknownFontError, match="from 100 to 900, not 950"):
        open_font(face_name(str(file), {"wght": 950}))


def test_small_capitals_are_the_fonts_own() -> None:
    data = boxes(
        {"H": (100, 0, 300, 700), "h": (100, 0, 300, 500), "h.sc": (100, 0, 300, 520)},
        "feature smcp { sub uni0068 by h.sc; } smcp;",
    )
    font = Font.from_bytes("sc.ttf", data)
    assert font.has_feature("smcp")
    assert not font.has_feature("liga")
    glyphs, _ = font.shaped("hH", features={"smcp": True})
    assert [bounds(font.outline(glyph.number)).height for glyph in glyphs] == [520, 700]


@pytest.mark.parametrize(
    ("bits", "embedding", "subset"),
    [
        (0x0000, Embedding.FREE, True),
        (0x0008, Embedding.FREE, True),
        (0x0004, Embedding.VIEW, True),
        (0x0002, Embedding.NEVER, True),
        (0x0104, Embedding.VIEW, False),
        (0x0200, Embedding.NEVER, True),
    ],
)
def test_licence_bits_say_what_may_be_embedded(bits: int, embedding: Embedding, *, subset: bool) -> None:
    """OpenType 1.9, OS/2 table, fsType."""
    font = Font.from_bytes("l.ttf", boxes({"H": (0, 0, 300, 700)}, fs_type=bits))
    assert (font.embedding, font.may_be_subset) == (embedding, subset)


# --- both directions in one line

_LETTERS = st.sampled_from("aBc אבגדبتد019 ٠١+-,.:/()[]!% é\u0300")


@settings(max_examples=examples(300), deadline=None)
@given(text=st.lists(_LETTERS, min_size=1, max_size=12).map("".join), leftward=st.booleans())
def test_order_is_that_of_an_independent_library(*, text: str, leftward: bool) -> None:
    """python-bidi, a wrapper of the unicode-bidi crate; it reorders characters and does not mirror them."""
    bidi = pytest.importorskip("bidi", reason="python-bidi is not installed")
    ours = "".join(text[place] for place in visual_order(levels(text, right_to_left=leftward)))
    assert ours == bidi.get_display(text, base_dir="R" if leftward else "L")


def test_first_letter_gives_the_direction() -> None:
    assert runs_right_to_left("12 אב ab")
    assert not runs_right_to_left("12 ab אב")
    assert not runs_right_to_left("12")


# --- spans


def test_superscripts_and_subscripts_are_smaller_and_off_the_line() -> None:
    text = "Uax"
    setting = set_words(text, "plain-light", 10.0, spans=(span(text, "a", Manner.SUPER), span(text, "x", Manner.SUB)))
    u, a, x = setting.letters
    assert (a.scale / u.scale, x.scale / u.scale) == pytest.approx((0.7, 0.7))
    assert (a.y, x.y) == pytest.approx((4.0, -2.0))


@pytest.mark.parametrize("font", ["plain-light", "plain-bold", "plain-light-narrow"])
@pytest.mark.parametrize(
    ("text", "raised", "manner", "signs"),
    [
        ("m2", "2", Manner.SUPER, "m²"),
        ("10-13", "-13", Manner.SUPER, "10⁻¹³"),
        ("x(n+1)", "(n+1)", Manner.SUPER, "x⁽ⁿ⁺¹⁾"),
        ("H2", "2", Manner.SUB, "H₂"),
    ],
)
def test_figures_off_the_line_are_the_signs_that_are_drawn_for_them(font, text, raised, manner, signs) -> None:
    """One m² on a panel, whichever way it is written."""
    spanned = set_words(text, font, 3.0, spans=(span(text, raised, manner),))
    written = set_words(signs, font, 3.0)
    assert [letter.number for letter in spanned.letters] == [letter.number for letter in written.letters]
    for one, other in zip(spanned.letters, written.letters, strict=True):
        assert (one.x, one.y, one.scale) == pytest.approx((other.x, other.y, other.scale))


def test_figures_off_the_line_are_as_high_as_letters_there() -> None:
    """Size 7 d, 4 d above the line and 2 d below it: the signs of our fonts and what is made smaller agree."""
    for manner, figure, line in ((Manner.SUPER, "²", 4.0), (Manner.SUB, "₂", -2.0)):
        sign = set_words(figure, "plain-light", 10.0).box
        scaled = set_words("Z", "plain-light", 10.0, spans=(Span(0, 1, manner),)).box
        assert (scaled.bottom, scaled.top) == pytest.approx((line, line + 7.0), abs=0.02)
        assert (sign.bottom, sign.top) == pytest.approx((line, line + 7.0), abs=0.15)


def test_spans_nest() -> None:
    text = "abc"
    a, b, c = set_words(text, "plain-light", 10.0, spans=(Span(1, 3, Manner.SUPER), Span(2, 3, Manner.SUPER))).letters
    assert c.scale / a.scale == pytest.approx(0.49)
    assert c.y == pytest.approx(4.0 + 0.7 * 4.0)
    assert b.y == pytest.approx(4.0)


def test_a_bar_spans_its_letters_above_the_capitals() -> None:
    text = "RESET 1"
    plain = set_words(text, "plain-light", 10.0)
    barred = set_words(text, "plain-light", 10.0, spans=(span(text, "RESET", Manner.BAR),))
    (loop,) = barred.strokes
    bar = bounds((loop,))
    word = set_words("RESET", "plain-light", 10.0).box
    assert (bar.left, bar.right) == pytest.approx((word.left, word.right))
    assert bar.height == pytest.approx(1.0, abs=0.01)  # the pen of type B, a tenth of h
    assert bar.bottom >= plain.box.top + 1.0
    assert barred.box.top == pytest.approx(bar.top)
    assert [letter.x for letter in barred.letters] == [letter.x for letter in plain.letters]


def test_spans_keep_to_their_words_when_lines_are_broken() -> None:
    text = "NOT RESET\nOUT"
    setting = set_words(
        text, "plain-light", 5.0, spans=(span(text, "RESET", Manner.BAR), span(text, "OUT", Manner.BAR))
    )
    assert len(setting.strokes) == 2
    assert bounds(setting.strokes[:1]).bottom > 5.0
    assert bounds(setting.strokes[1:]).top < 0.0


def test_a_fraction_is_the_fonts_own_sign_or_built() -> None:
    half = set_words("1/2", "plain-light", 10.0, spans=(Span(0, 3, Manner.FRACTION),))
    assert [letter.text for letter in half.letters] == ["1/2"]
    assert half.letters[0].number == open_font("plain-light").number("½")
    built = set_words("7/16", "plain-light", 10.0, spans=(Span(0, 4, Manner.FRACTION),))
    assert "".join(letter.text for letter in built.letters) == "7/16"
    upper, solidus, lower, _ = built.letters
    font = open_font("plain-light")
    assert upper.y + upper.scale * font.box(upper.number).top == pytest.approx(10.0, abs=0.1)
    assert lower.y == 0.0
    # Figures drawn for a fraction, not made smaller: the pen stays that of the text.
    assert upper.scale == solidus.scale
    assert font.face.glyph_to_string(upper.number) == "seven.numr"
    assert font.face.glyph_to_string(lower.number) == "one.dnom"


def test_numbers_stand_under_each_other_by_their_decimal_point() -> None:
    setting = set_words("1.25\n10.5\n200\n−3", "plain-light", 3.0, Align.POINT)
    points = [letter for letter in setting.letters if letter.text == "."]
    assert points[0].x == pytest.approx(points[1].x)
    font = open_font("plain-light")
    left = points[0].x + font.box(points[0].number).left * points[0].scale
    ends = [setting.letters[index] for index in (-3, -1)]
    for letter in ends:
        assert letter.x + font.box(letter.number).right * letter.scale == pytest.approx(left)


# --- fields that words are left out of


def windings(shape, x, y):
    """The winding number of each point, straight from its definition: signed crossings of a ray to the right."""
    found = np.zeros(x.shape, dtype=int)
    for loop in shape:
        points = flattened(loop, 0.002)
        for a, b in zip(points, (*points[1:], points[0]), strict=True):
            if a.y == b.y:
                continue
            crossed = (min(a.y, b.y) <= y) & (y < max(a.y, b.y)) & (a.x + (y - a.y) * (b.x - a.x) / (b.y - a.y) > x)
            found += np.where(crossed, 1 if b.y > a.y else -1, 0)
    return found


@pytest.mark.parametrize("text", ["OUT 8", "مخرج", "Å%", "8\nB"])
@pytest.mark.parametrize("font", ["dejavu", "cff"])
def test_words_are_cut_out_of_their_field(text: str, font: str, request: pytest.FixtureRequest) -> None:
    file = request.getfixturevalue(font)
    if any(not open_font(file).has(letter) for letter in text if letter != "\n"):
        pytest.skip("the font has no Arabic")
    look = Look(plate=Plate(radius=1.0, padding=1.5))
    setting = set_words(text, file, 5.0, look=look)
    box, _ = setting.plate
    assert setting.box == box
    x, y = (side.ravel() for side in np.meshgrid(np.linspace(box.left + 1.1, box.right - 1.1, 173),
                                                 np.linspace(box.bottom + 0.7, box.top - 0.7, 91)))  # fmt: skip
    letters = windings(set_words(text, file, 5.0).shape, x, y) != 0
    field = windings(setting.shape, x, y)
    assert letters.mean() > 0.1
    # A point on an edge may fall either way; everywhere else the field is exactly what the letters are not.
    assert ((field != 0) == ~letters).mean() > 0.999
    assert set(np.unique(field)) <= {0, 1}


# --- round an arc


@pytest.mark.parametrize(("deg", "inward"), [(90.0, True), (-90.0, False), (10.0, True)])
def test_letters_stand_on_the_arc(deg: float, *, inward: bool) -> None:
    straight = set_words("OUTPUT", "plain-light", 3.0)
    bent = straight.bent(20.0, deg, feet_inward=inward)
    font = open_font("plain-light")
    angles = []
    for letter in bent.letters:
        box = font.box(letter.number)
        half = (box.left + box.right) / 2 * letter.scale
        foot = Point(letter.x + half * math.cos(math.radians(letter.turn)),
                     letter.y + half * math.sin(math.radians(letter.turn)))  # fmt: skip
        assert foot.distance(ORIGIN) == pytest.approx(20.0)
        angles.append(math.atan2(foot.y, foot.x))
        up = (math.cos(math.radians(letter.turn + 90)), math.sin(math.radians(letter.turn + 90)))
        outward = (foot.x * up[0] + foot.y * up[1]) / 20.0
        assert outward == pytest.approx(1.0 if inward else -1.0)
    clockwise = all(b < a for a, b in pairwise(angles))
    assert clockwise is inward
    # Arc lengths between the letters are the distances on the straight line.
    middles = [l.x + (font.box(l.number).left + font.box(l.number).right) / 2 * l.scale for l in straight.letters]
    steps = [abs(b - a) * 20.0 for a, b in pairwise(angles)]
    assert steps == pytest.approx([b - a for a, b in pairwise(middles)])
    assert filled(bent.shape).area == pytest.approx(filled(straight.shape).area, rel=1e-3)


def test_what_cannot_go_round_is_refused() -> None:
    with pytest.raises(ValueError, match="one line"):
        set_words("A\nB", "plain-light", 3.0).bent(20.0, 90.0)
    with pytest.raises(ValueError, match="does not fit around"):
        set_words("OUTPUT LEVEL", "plain-light", 3.0).bent(2.0, 90.0)
