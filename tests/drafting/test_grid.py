"""Groups slide to common lines: the choice is the best of all choices, tried one by one."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.drafting.grid import Line, Piece, _candidates, _shared, seated
from tests.effort import examples

PIECES = st.builds(
    lambda reach, usual, offs: Piece(
        before=reach, after=reach, usual=usual, lines=tuple((Line.CENTRE, off) for off in offs)
    ),
    st.sampled_from([4.0, 9.0]),
    st.integers(10, 110).map(float),
    st.lists(st.sampled_from([-6.0, 0.0, 2.5]), min_size=1, max_size=2, unique=True),
)


@settings(max_examples=examples(80), deadline=None)
@given(st.lists(PIECES, min_size=1, max_size=3), st.lists(st.integers(0, 120).map(float), max_size=4))
def test_most_lines_are_in_common(some: list[Piece], lines: list[float]) -> None:
    there = {Line.CENTRE: lines}
    gaps = [3.0] * (len(some) - 1)
    count, places = seated(some, (0.0, 120.0), gaps, there, 0.5)
    best = -1e9
    for chosen in itertools.product(*(_candidates(piece, (0.0, 120.0), there, 0.5) for piece in some)):
        apart = [
            two - one - left.after - right.before
            for (one, two), (left, right) in zip(itertools.pairwise(chosen), itertools.pairwise(some), strict=True)
        ]
        if all(room >= 3.0 - 1e-6 for room in apart):
            best = max(best, sum(_shared(piece, at, there) for piece, at in zip(some, chosen, strict=True)))
    if best < -1e8:
        assert places == []
    else:
        assert count == pytest.approx(best)


def test_a_row_of_three_slides_under_the_row_above_it() -> None:
    """Three parts 30 apart whose middle is 2 mm off go under three that are as far apart."""
    row = Piece(before=40.0, after=40.0, usual=62.0, lines=tuple((Line.CENTRE, off) for off in (-30.0, 0.0, 30.0)))
    count, places = seated([row], (0.0, 200.0), [], {Line.CENTRE: [30.0, 60.0, 90.0]}, 0.5)
    assert places == [60.0]
    assert count == pytest.approx(3.0, abs=0.01)
