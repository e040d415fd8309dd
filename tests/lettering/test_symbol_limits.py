"""Every symbol on every process at 5 mm, beside regular lettering: strokes hold, gaps stay open.

Two methods judge. The stroke meter gives the thinnest stroke and the narrowest gap, so the height from which on a
process holds both; and shapely thickens the ink by half the gap that a process keeps open, and thins it by half the
line that it holds. While no gap is closed there are as many pieces and counters as before, and while no stroke is lost
as many pieces.
"""

from __future__ import annotations

from functools import cache

import pytest
import shapely
from shapely.affinity import scale

from panelart.lettering.cuts import BOLD as HEAVY
from panelart.lettering.cuts import LIGHT
from panelart.lettering.measures import widths
from panelart.lettering.setting import set_words
from panelart.lettering.symbols import SYMBOLS
from panelart.processes.registry import BUILT_IN
from panelart.reports.parts import minimum_height
from tests.lettering.test_symbols import ink

HEIGHT = 5.0
"""Of a symbol beside a control, mm: what a legend of 3.5 mm has beside it (common practice)."""

LARGER: dict[tuple[str, str], float] = {}
"""Symbols that a process cannot hold at 5 mm, and the height in mm that it needs."""

HAIR = 0.004
"""Lengths that are just kept, mm: what the outlines of a font stray by at this size."""


@cache
def at_height(font: str, symbol: str) -> shapely.Geometry:
    """The ink in mm."""
    return scale(ink(font, symbol), HEIGHT / 10, HEIGHT / 10, origin=(0, 0))


def pieces_and_counters(shape: shapely.Geometry) -> tuple[int, int]:
    pieces = [one for one in shapely.get_parts(shape) if one.area > 1e-6]
    return len(pieces), sum(shapely.Polygon(hole).area > 1e-6 for one in pieces for hole in one.interiors)


@pytest.mark.parametrize("process", BUILT_IN)
@pytest.mark.parametrize("symbol", SYMBOLS)
def test_a_symbol_holds_at_five_millimetres(symbol: str, process: str) -> None:
    needed = minimum_height(symbol, LIGHT.symbols, BUILT_IN[process])
    if (symbol, process) in LARGER:
        assert needed == pytest.approx(LARGER[symbol, process], abs=0.05)
        assert needed > HEIGHT
    else:
        found = widths(set_words(symbol, LIGHT.symbols, HEIGHT))
        assert found.stroke >= BUILT_IN[process].line_minimum.value
        assert found.gap >= BUILT_IN[process].open_gap
        assert needed <= HEIGHT


@pytest.mark.few(10)
@pytest.mark.parametrize("process", BUILT_IN)
@pytest.mark.parametrize("symbol", SYMBOLS)
def test_no_gap_closes_and_no_stroke_goes_at_five_millimetres(symbol: str, process: str) -> None:
    if (symbol, process) in LARGER:
        return
    shape, limits = at_height(LIGHT.symbols, symbol), BUILT_IN[process]
    before = pieces_and_counters(shape)
    assert pieces_and_counters(shape.buffer(limits.open_gap / 2 - HAIR, quad_segs=16)) == before
    assert pieces_and_counters(shape.buffer(-(limits.line_minimum.value / 2 - HAIR), quad_segs=16)) == before


@pytest.mark.few(10)
@pytest.mark.parametrize("process", BUILT_IN)
@pytest.mark.parametrize("symbol", SYMBOLS)
def test_a_bold_symbol_holds_from_the_height_that_is_told(symbol: str, process: str) -> None:
    """A little above it: the meter is right to 2 % of a gap of one pen."""
    limits = BUILT_IN[process]
    up = 1.03 * minimum_height(symbol, HEAVY.symbols, limits) / HEIGHT
    shape = scale(at_height(HEAVY.symbols, symbol), up, up, origin=(0, 0))
    thickened = shape.buffer(limits.open_gap / 2 - HAIR * up, quad_segs=16)
    assert pieces_and_counters(thickened) == pieces_and_counters(shape)


@pytest.mark.parametrize("process", BUILT_IN)
def test_bold_symbols_hold_at_five_millimetres_but_for_pads(process: str) -> None:
    """A pad keeps gaps of 0.4 mm open, 0.8 of a regular pen at 5 mm; bold symbols need up to 7.5 mm."""
    largest = max(minimum_height(symbol, HEAVY.symbols, BUILT_IN[process]) for symbol in SYMBOLS)
    assert largest <= (7.5 if process == "pad-print" else HEIGHT)


def test_spread_ink_closes_gaps_from_both_sides() -> None:
    pad = BUILT_IN["pad-print"]
    assert pad.open_gap == max(pad.gap_minimum.value, 2 * pad.own["spread"].value)
    assert BUILT_IN["engraving"].open_gap == BUILT_IN["engraving"].gap_minimum.value
