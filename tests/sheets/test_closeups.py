"""Windows on the proof: for what is small, true to their stated scale."""

from __future__ import annotations

import pytest

from panelart.checks import inspect
from panelart.drawing.representation import Paint
from panelart.geometry import Point
from panelart.lettering.outline import bounds
from panelart.sheets.closeups import WINDOW, Window, closeups
from panelart.sheets.proof import Proof, proof
from tests.checks.builders import block, disc, front, knob, layout, opening

THIN = layout(opening("J1", disc(50, 50, 12)), opening("J2", disc(63, 50, 12)))
RED = Paint(colour="#C62828")


def test_a_thin_web_gets_a_window_and_a_large_conflict_none():
    (window,) = closeups(inspect(THIN))
    assert (window.number, window.times) == (1, 6)
    assert window.shown.centre == pytest.approx((56.5, 50))
    large = layout(front("M1", block(50, 50, 60, 60)), front("M2", block(80, 50, 60, 60)))
    assert closeups(inspect(large)) == ()


def test_notes_get_none():
    assert closeups(inspect(layout())) == ()


def test_the_window_is_true_to_scale_and_cut_off_at_its_edges():
    (window,) = closeups(inspect(THIN))
    items = Window(THIN).items(window, Point(100, 200), RED)
    for item in items[:-3]:
        if item.shape:
            box = bounds(item.shape)
            assert box.left >= 100 - 1e-6
            assert box.right <= 100 + WINDOW + 1e-6
            assert box.bottom >= 200 - 1e-6
            assert box.top <= 200 + WINDOW + 1e-6
    # The web of 1 mm is 6 mm on paper: between the right edge of one opening and the left edge of the other.
    one, other = (bounds(item.shape) for item in items[1:3])
    assert other.left - one.right == pytest.approx(6.0, abs=0.05)
    assert items[-1].label == "no. 1, 6:1, 1.00 mm"


def test_the_proof_has_them():
    made = proof(Proof(layout=THIN, inspection=inspect(THIN), date="", made_by="test"))
    labels = [item.label for page in made for layer in page.layers for item in layer.items]
    assert "Close-ups" in labels
    assert "no. 1, 6:1, 1.00 mm" in labels


def test_a_clean_proof_has_no_such_heading():
    clean = layout(knob("RV1", 50, 50, 24))
    made = proof(Proof(layout=clean, inspection=inspect(clean), date="", made_by="test"))
    assert "Close-ups" not in [item.label for page in made for layer in page.layers for item in layer.items]
