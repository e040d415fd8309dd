"""The source of our own face: what its grammar accepts, and the centre lines that come out.

Proportions: ISO 3098-0, type B, as printed in DIN EN ISO 3098-0:1998-04 (shares of h: d 1/10, a 2/10, c1 7/10,
c2 3/10, c3 3/10, e 6/10).
"""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.lettering import skeleton
from panelart.lettering.face.curves import Arc, Corner, Line, Path, Spot
from panelart.lettering.face.source import SourceError, read_texts
from tests.effort import examples

STYLES = tuple(skeleton.STYLES)


def extent(key: str, style: str = "light") -> tuple[float, float, float, float]:
    glyph = skeleton.load(style).glyph(key)
    spots = [spot for stroke in glyph.strokes for spot in stroke.spots(0.02)]
    half = glyph.pen / 2
    return (
        min(s.x for s in spots) - half,
        min(s.y for s in spots) - half,
        max(s.x for s in spots) + half,
        max(s.y for s in spots) + half,
    )


# --- grammar -------------------------------------------------------------------------------------------------------


def strokes_of(text: str) -> list[skeleton.Stroke]:
    return [path.stroke() for path in read_texts({"a.txt": text}).glyphs["A"].paths]


def test_a_sharp_line_is_its_straight_pieces() -> None:
    (stroke,) = strokes_of("glyph A\n  line 0,0 3,0 3,4\n")
    assert stroke.pieces == (Line(start=Spot(0, 0), end=Spot(3, 0)), Line(start=Spot(3, 0), end=Spot(3, 4)))
    assert not stroke.closed


def test_a_radius_gives_one_arc_of_that_radius() -> None:
    (stroke,) = strokes_of("glyph A\n  line 0,0 5,0~2 5,5\n")
    _, arc, _ = stroke.pieces
    assert isinstance(arc, Arc)
    assert (arc.radius, arc.sweep_deg) == pytest.approx((2.0, 90.0))
    assert tuple(arc.centre) == pytest.approx((3.0, 2.0))


def test_room_is_shared_between_neighbouring_corners() -> None:
    """A side of 4 between two rounded corners gives 2 to each: with 2 of the upright, a quarter circle of radius 2."""
    (stroke,) = strokes_of("glyph A\n  line 0,0 0,2~ 4,2~ 4,0\n")
    first, second = stroke.pieces
    assert isinstance(first, Arc)
    assert isinstance(second, Arc)
    assert (first.radius, second.radius) == pytest.approx((2.0, 2.0))
    assert tuple(first.end) == pytest.approx((2.0, 2.0))


def test_an_oval_corner_follows_the_ellipse() -> None:
    """Quarter of an ellipse with half axes 3 and 5: every place on it satisfies x²/9 + y²/25 = 1 nearly."""
    (stroke,) = strokes_of("glyph A\n  line 3,0 3,5~5:3 0,5\n")
    assert all(isinstance(piece, Arc) for piece in stroke.pieces)
    off = max(abs(math.hypot(x / 3, y / 5) - 1) for x, y in stroke.spots(0.05))
    assert off < 0.003


@pytest.mark.few(7)
@pytest.mark.parametrize("key", ["O", "S", "g", "&", "8", "Ω", "ß"])
@pytest.mark.parametrize("style", STYLES)
def test_curves_join_without_a_kink(key: str, style: str) -> None:
    """Where two pieces meet and one is an arc that the source rounded, the direction goes on."""
    for stroke in skeleton.load(style).glyph(key).strokes:
        for one, other in pairwise(stroke.pieces):
            assert math.dist(one.at(1.0), other.at(0.0)) < 1e-6
            turn = math.remainder(other.heading(0.0) - one.heading(1.0), 2 * math.pi)
            if isinstance(one, Arc) and isinstance(other, Arc):
                assert abs(turn) < 1e-6


def test_a_circle_and_an_arc_are_circular() -> None:
    circle, arc = strokes_of("glyph A\n  circle 1,2 3\n  arc 1,2 3 from 30 sweep -250\n")
    for stroke in (circle, arc):
        assert all(math.dist(spot, (1, 2)) == pytest.approx(3.0) for spot in stroke.spots(0.1))
    assert sum(piece.sweep_deg for piece in arc.pieces if isinstance(piece, Arc)) == pytest.approx(-250)
    assert circle.closed
    assert not arc.closed


def test_marks_join_at_the_anchors_of_their_letter() -> None:
    source = read_texts(
        {"a.txt": "glyph A\n  line 0,0.5 2,9.5\n  top 1,10\n", "b.txt": "glyph m\n  line -1,2 1,2\nglyph Á = A + m\n"}
    )
    mark = source.glyphs["Á"].paths[1].stroke()
    assert mark.pieces == (Line(start=Spot(0, 12), end=Spot(2, 12)),)
    assert source.glyphs["Á"].kern_like == "A"


def test_a_part_is_redrawn_at_its_size_under_the_same_pen() -> None:
    source = read_texts({"a.txt": "glyph A\n  line 0,0.5 0,9.5\nglyph B\n  part A at 1,3 size 5\n"})
    (piece,) = source.glyphs["B"].paths[0].stroke().pieces
    # Ink from 3 to 8: a capital 5 high with a pen of 1.
    assert (piece.at(0.0), piece.at(1.0)) == (pytest.approx((1, 3.5)), pytest.approx((1, 7.5)))


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("glyph A\n  lime 0,0 1,1\n", 2, "not understood"),
        ("  line 0,0 1,1\n", 1, "before any glyph"),
        ("glyph A\n  line 0,0 1;1\n", 2, "a corner as"),
        ("glyph A\n  line 0,0~1 1,1\n", 2, "begin or end"),
        ("glyph A\n  line 0,0 0,0\n", 2, "at one place"),
        ("glyph A\n  line 0,0 2,0~3 2,9\n", 2, "need"),
        ("glyph A\n  circle 0,0 -1\n", 2, "above 0"),
        ("glyph A\n  arc 0,0 1 from 0 sweep 360\n", 2, "sweep"),
        ("glyph A\n  advance 5\n  sides 1 1\n", 3, "either"),
        ("glyph A\nglyph A\n", 2, "stands already"),
        ("glyph A\n  part B at 0,0\n", 2, "no glyph"),
        ("glyph A = B\nglyph B = A\n", 1, "part of itself"),
        ("glyph A = B C\n", 1, "BASE + MARK"),
    ],
)
def test_a_fault_names_its_file_and_line(text: str, line: int, said: str) -> None:
    with pytest.raises(SourceError) as caught:
        read_texts({"x.txt": text})
    message = str(caught.value)
    assert f"x.txt:{line}: " in message
    assert said in message


def test_all_faults_are_told_at_once() -> None:
    with pytest.raises(SourceError) as caught:
        read_texts({"x.txt": "glyph A\n  lime 1\n  line 0\n", "y.txt": "glif B\n"})
    assert [text.split(": ")[0] for text in str(caught.value).splitlines()] == ["x.txt:2", "x.txt:3", "y.txt:1"]


numbers = st.floats(min_value=-8, max_value=8, allow_nan=False).map(lambda value: round(value, 2))


@given(
    st.lists(st.tuples(numbers, numbers), min_size=3, max_size=5, unique=True),
    st.floats(min_value=0.5, max_value=2),
    numbers,
)
@settings(max_examples=examples(80), deadline=None)
def test_mapping_the_polygon_keeps_the_ends(corners: list[tuple[float, float]], wide: float, away: float) -> None:
    path = Path(corners=tuple(Corner(at=Spot(*corner)) for corner in corners), closed=False)
    moved = path.mapped(lambda spot: Spot(spot.x * wide + away, spot.y)).stroke()
    assert moved.pieces[0].at(0.0) == pytest.approx((corners[0][0] * wide + away, corners[0][1]))
    assert moved.pieces[-1].at(1.0) == pytest.approx((corners[-1][0] * wide + away, corners[-1][1]))


# --- the face ------------------------------------------------------------------------------------------------------


def test_a_share_of_the_pen_and_a_form_that_is_kept(tmp_path) -> None:
    """85 % of a pen of 10/6 d is 1.417 d; a circle that keeps its form is one in a bold and in a narrow style."""
    source = "glyph A\n  pen 85%\n  line 0,0.5 0,9.5\nglyph B\n  form kept\n  circle 4,5 4\nglyph C\n  circle 4,5 4\n"
    (tmp_path / "a.txt").write_text(source, encoding="utf-8")
    assert skeleton.load("bold", tmp_path).glyph("A").pen == pytest.approx(0.85 * 10 / 6)
    for style in ("bold", "light-narrow"):
        round_, stretched = (
            {piece.radius for piece in skeleton.load(style, tmp_path).glyph(key).strokes[0].pieces} for key in "BC"
        )
        assert max(round_) == pytest.approx(min(round_))
        assert max(stretched) > 1.05 * min(stretched)


def test_the_pen_is_a_tenth_of_the_capitals() -> None:
    assert skeleton.load().pen / skeleton.CAP_HEIGHT == 0.1  # d, ISO 3098-0 type B


@pytest.mark.few(8)
@pytest.mark.parametrize("key", [*"HEFILMNTKXZ", "Π", "Ш", "Г"])
@pytest.mark.parametrize("style", STYLES)
def test_flat_capitals_are_ten_d_high(key: str, style: str) -> None:
    _, low, _, high = extent(key, style)
    assert (low, high) == pytest.approx((0.0, 10.0), abs=1e-9)


@pytest.mark.parametrize("key", [*"xvwznkimr", "и", "н", "п"])
def test_lower_case_is_seven_d_high(key: str) -> None:
    strokes = skeleton.load().glyph(key).strokes
    flat = {round(piece.at(share).y + 0.5, 6) for stroke in strokes for piece in stroke.pieces for share in (0.0, 1.0)}
    assert 7.0 in flat  # c1, ISO 3098-0 type B
    if key not in "ki":
        assert extent(key)[3] <= 7.1 + 1e-9  # round arches pass it by the overshoot


@pytest.mark.parametrize("key", list("bdhkl"))
def test_stems_rise_three_d_above_the_lower_case(key: str) -> None:
    assert extent(key)[3] == pytest.approx(7.0 + 3.0, abs=1e-9)  # c1 + c3, ISO 3098-0 type B


@pytest.mark.parametrize(("key", "over"), [("p", 0.0), ("q", 0.0), ("j", 0.0), ("y", 0.0), ("g", 0.1)])
def test_tails_hang_three_d(key: str, over: float) -> None:
    assert extent(key)[1] == pytest.approx(-3.0 - over, abs=1e-6)  # c2, ISO 3098-0 type B; g's bow overshoots


def test_two_stems_stand_two_d_apart() -> None:
    face = skeleton.load()
    h, i = face.glyph("H"), face.glyph("I")
    gap = h.advance - h.right + i.left + face.kerning("H", "I")
    assert gap == pytest.approx(2.0, abs=0.002)  # a, ISO 3098-0 type B; the search stops at 0.001 d a side


def test_two_words_stand_six_d_apart() -> None:
    face = skeleton.load()
    h = face.glyph("H")
    assert h.advance - h.right + face.glyph(" ").advance + h.left == pytest.approx(6.0, abs=0.002)  # e, type B


@pytest.mark.few(8)
@pytest.mark.parametrize("key", list("ÁÀÂÃÄÅÇĂĄĆČĎĖĞĢĨİŐŘŠŬŮŰŴŶŽЙЁ"))
def test_marks_on_capitals_keep_to_their_room(key: str) -> None:
    assert extent(key)[3] <= 14.0  # f = 4 d above the capitals, ISO 3098-0 type B


@pytest.mark.few(8)
@pytest.mark.parametrize("key", list("ẤẦẨẪẮẰẲẴẾỀỂỄỐỒỔỖ"))
def test_two_marks_on_a_capital_keep_clear_of_the_tails_above(key: str) -> None:
    """b1 = 19 d less c2 = 3 d of tails (ISO 3098-0 type B), and 0.7 d of white, our choice."""
    assert extent(key)[3] <= 19.0 - 3.0 - 0.7


def test_strokes_come_out_in_millimetres() -> None:
    (stem,) = skeleton.load().strokes("I", 3.0)
    (piece,) = stem.pieces
    assert piece.at(0.0).y == pytest.approx(0.15)
    assert piece.at(1.0).y == pytest.approx(2.85)  # ink to 3.00 with a cutter of 0.3


def test_strokes_are_kerned() -> None:
    face = skeleton.load()
    v = face.strokes("AV", 10.0)[2]
    apart = face.glyph("A").advance + face.kerning("A", "V")
    assert face.kerning("A", "V") < 0
    assert v.pieces[0].at(0.0).x == pytest.approx(apart + face.glyph("V").strokes[0].pieces[0].at(0.0).x)


def test_accented_letters_kern_as_their_base() -> None:
    face = skeleton.load()
    assert face.kerning("Á", "V") == face.kerning("A", "V")
    assert face.kerning("А", "У") == face.kerning("A", "У")  # Cyrillic A is the Latin drawing


def test_figures_do_not_kern() -> None:
    face = skeleton.load()
    assert {face.kerning(one, other) for one in "0123456789.," for other in "0123456789"} == {0.0}


def test_a_character_without_glyph_is_named() -> None:
    with pytest.raises(skeleton.NoSuchGlyphError, match=r"U\+4E2D"):
        skeleton.load().glyph("中")


def test_an_unknown_style_is_named() -> None:
    with pytest.raises(skeleton.NoSuchStyleError, match="light, medium, bold"):
        skeleton.load("italic")
