"""Symbols against their source, the square they are drawn in, and the pen of the lettering.

The built fonts are read by fontTools and judged by shapely; neither is used to draw. Words and symbols of one height
have one pen: d = h / 10, ISO 3098-0 type B (DIN EN ISO 3098-0:1998-04).
"""

from __future__ import annotations

import math
import unicodedata
from functools import cache
from pathlib import Path

import pytest
import shapely
from fontTools.pens.basePen import decomposeQuadraticSegment
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont

from panelart.geometry import Point
from panelart.lettering.centreline import symbol_centre_lines
from panelart.lettering.fonts import SYMBOL_FONTS, fonts_folder
from panelart.lettering.setting import set_words
from panelart.lettering.skeleton import load_symbols
from panelart.lettering.symbols import SYMBOLS, glyph_name, symbol_font

characters = pytest.importorskip("panelart.lettering.face.characters", reason="skia-pathops is needed only to build")
source = pytest.importorskip("panelart.lettering.face.symbols", reason="skia-pathops is needed only to build")
truetype = pytest.importorskip("panelart.lettering.face.truetype", reason="skia-pathops is needed only to build")

D = truetype.UNITS
REACH = 1.8
"""How far a pointed or round symbol may pass its square of 10 d, in d."""

HELPERS = {"warning-triangle"}
"""Drawn as a piece of others, not a symbol by itself."""

FILLED = {"contrast", "record"}
STARS = {"cold": 3, "laser": 4}
"""Symbols with lines that cross in one place, and how many."""


@cache
def opened(font: str) -> TTFont:
    return TTFont(Path(fonts_folder()) / "built" / SYMBOL_FONTS[font])


@cache
def ink(font: str, symbol: str) -> shapely.Geometry:
    """The ink of a symbol in d, outers filled and counters cut."""
    glyphs = opened(font).getGlyphSet()
    pen = DecomposingRecordingPen(glyphs)
    glyphs[glyph_name(symbol)].draw(pen)
    found: list[list[tuple[float, float]]] = []
    for movement, spots in pen.value:
        if movement == "moveTo":
            found.append([spots[0]])
        elif movement == "lineTo":
            found[-1].append(spots[0])
        elif movement == "qCurveTo":
            for control, end in decomposeQuadraticSegment(spots):
                start = found[-1][-1]
                for step in range(1, 9):
                    t = step / 8
                    found[-1].append(
                        tuple(
                            (1 - t) ** 2 * a + 2 * t * (1 - t) * b + t * t * c
                            for a, b, c in zip(start, control, end, strict=True)
                        )
                    )
    shape = shapely.Polygon()
    for ring in found:
        polygon = shapely.Polygon([(x / D, y / D) for x, y in ring])
        assert polygon.is_valid, symbol
        shape = shape.symmetric_difference(polygon)
    return shape


@pytest.mark.parametrize("font", SYMBOL_FONTS)
def test_the_built_font_is_what_the_source_builds(font: str) -> None:
    pytest.importorskip("pathops", reason="skia-pathops is needed only to build")
    built = (fonts_folder() / "built" / SYMBOL_FONTS[font]).read_bytes()
    assert source.build(font.partition("-")[2]) == built


def test_every_drawing_is_a_symbol_and_every_symbol_is_drawn() -> None:
    assert set(load_symbols().keys) == set(SYMBOLS) | HELPERS
    assert len(SYMBOLS) == len(set(SYMBOLS)) >= 120


NAMED_IN_UNICODE = {
    "on": "POWER ON SYMBOL",
    "standby": "POWER SYMBOL",
    "on-off": "POWER ON-OFF SYMBOL",
    "sleep": "POWER SLEEP SYMBOL",
    "ac": "AC CURRENT",
    "fuse": "FUSE",
    "earth": "EARTH GROUND",
    "caution": "WARNING SIGN",
    "dangerous-voltage": "HIGH VOLTAGE SIGN",
    "class-2": "SQUARED SQUARE",
    "eject": "EJECT SYMBOL",
    "record": "BLACK CIRCLE FOR RECORD",
    "clockwise": "CLOCKWISE OPEN CIRCLE ARROW",
    "left": "LEFTWARDS ARROW",
    "bell": "BELL",
}
"""The names of some characters in the Unicode Character Database, which Python carries."""


@pytest.mark.parametrize("font", SYMBOL_FONTS)
def test_every_symbol_has_one_character(font: str) -> None:
    found = {name: code for code, name in opened(font).getBestCmap().items()}
    assert {name for name in found if name not in source.BLANKS} == {*map(glyph_name, SYMBOLS)}
    assert [found[name] for name in source.BLANKS] == [0x20, 0xA0]
    for symbol in characters.UNICODE:
        assert unicodedata.category(chr(found[glyph_name(symbol)])) not in {"Cn", "Co"}, symbol
    for symbol in characters.PRIVATE:
        assert unicodedata.category(chr(found[glyph_name(symbol)])) == "Co", symbol
    for symbol, name in NAMED_IN_UNICODE.items():
        assert unicodedata.name(chr(found[glyph_name(symbol)])) == name


def test_a_symbol_for_private_use_keeps_its_character() -> None:
    """Documents that have the font would show another sign: what was the first and the last stays so."""
    assert (characters.CHARACTERS["momentary"], characters.CHARACTERS["reset"]) == (0xE000, 0xE044)


@pytest.mark.few(20)
@pytest.mark.parametrize("font", SYMBOL_FONTS)
@pytest.mark.parametrize("symbol", SYMBOLS)
def test_a_symbol_fills_its_square_and_not_much_more(font: str, symbol: str) -> None:
    _, bottom, _, top = ink(font, symbol).bounds
    assert bottom >= -REACH
    assert top <= 10 + REACH
    # Seen beside capitals, its middle is at their half height.
    assert (bottom + top) / 2 == pytest.approx(5, abs=1.2)


@pytest.mark.few(10)
@pytest.mark.parametrize("symbol", SYMBOLS)
def test_the_pen_is_that_of_the_lettering(symbol: str) -> None:
    """No ink is thinner than the pen d, and, but for what is filled, none thicker than meeting lines.

    Eroding by a little less than half a pen leaves the middle lines; by 0.95 d it leaves nothing, as where lines meet
    at acute angles the ink is wider than the pen but not twice. Where n lines cross in a star, the notches between
    them are half a pen over the sine of 90 / n degrees from its middle.
    """
    shape = ink("symbols-light", symbol)
    assert not shape.buffer(-0.48).is_empty
    opened_up = shape.buffer(-0.47).buffer(0.47 + 0.03)
    assert shape.difference(opened_up).area < 0.02 * shape.area
    if symbol not in FILLED:
        crossing = STARS.get(symbol)
        widest = 0.95 if crossing is None else 0.5 / math.sin(math.radians(90.0 / crossing)) + 0.01
        assert shape.buffer(-widest, quad_segs=64).is_empty


@pytest.mark.few(10)
@pytest.mark.parametrize("symbol", SYMBOLS)
def test_white_stays_white(symbol: str) -> None:
    """Parts of a symbol stand at least half a pen apart, in bold a quarter, and no counter closes in bold."""
    for font, minimum in (("symbols-light", 0.5), ("symbols-medium", 0.35), ("symbols-bold", 0.25)):
        shape = ink(font, symbol)
        pieces = list(getattr(shape, "geoms", [shape]))
        gaps = [one.distance(other) for i, one in enumerate(pieces) for other in pieces[:i]]
        assert min(gaps, default=9) >= minimum
    counters = [
        sum(len(piece.interiors) for piece in getattr(ink(font, symbol), "geoms", [ink(font, symbol)]))
        for font in SYMBOL_FONTS
    ]
    assert len(set(counters)) == 1


def test_a_symbol_is_set_as_words_are_with_one_pen_at_one_height() -> None:
    minus = set_words("minus", "symbols-light", 6.0)
    dash = set_words("−", "plain-light", 6.0)
    assert minus.box.height == pytest.approx(0.6, abs=0.001)
    assert minus.box.height == pytest.approx(dash.box.height, abs=0.001)
    assert minus.box.centre.y == pytest.approx(3.0, abs=0.001)
    stop = set_words("stop", "symbols-light", 6.0)
    assert stop.box.height == pytest.approx(6.0, abs=0.01)
    assert stop.text == "stop"
    assert set_words("minus", symbol_font("plain-bold"), 6.0).box.height == pytest.approx(0.9, abs=0.001)


@pytest.mark.few(10)
@pytest.mark.parametrize("symbol", SYMBOLS)
def test_a_cutter_on_the_centre_lines_makes_the_symbol(symbol: str) -> None:
    """The centre lines widened by half a pen are the ink, to 1 % of its area.

    Where a stroke ends on another, the font cuts it square and a cutter leaves it round: up to a quarter d there.
    """
    lines = [
        shapely.LineString([curve.point_at(step / 24) for curve in loop.curves for step in range(25)])
        for loop in symbol_centre_lines(symbol, Point(0.0, 0.0), 10.0)
    ]
    cut = shapely.union_all([line.buffer(0.5, quad_segs=32) for line in lines])
    cut = cut.buffer(1e-4).buffer(-1e-4)  # slivers of shapely's own between the chords of two lines
    assert cut.symmetric_difference(ink("symbols-light", symbol)).area < 0.01 * cut.area
    assert shapely.hausdorff_distance(cut.boundary, ink("symbols-light", symbol).boundary) < 0.25


@pytest.mark.parametrize("name", ["stanby", "space", ".notdef"])
def test_what_is_no_symbol_is_named(name: str) -> None:
    with pytest.raises(ValueError, match=f"no symbol '{name}'"):
        set_words(name, "symbols-light", 3.0)
