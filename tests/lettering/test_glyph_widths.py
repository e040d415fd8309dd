"""The kept widths are those of the built fonts."""

from __future__ import annotations

import math

import pytest

from panelart.lettering.glyph_widths import FILES, stored_widths
from panelart.lettering.measures import measured_glyph


@pytest.mark.parametrize("font", sorted(FILES))
def test_kept_widths_are_what_is_measured(font: str) -> None:
    """`python -m panelart.lettering.store_widths` writes them; a stale one has another font's hash, reads as empty."""
    kept = stored_widths(font)
    assert len(kept) > 60
    for number in range(0, len(kept), max(1, len(kept) // 12)):
        again = measured_glyph(font, number)
        for was, now in zip(kept[number], (again.stroke, again.gap), strict=True):
            assert was == now if math.isinf(now) else was == pytest.approx(now, abs=1e-6)


def test_a_font_of_the_users_is_not_looked_up() -> None:
    assert stored_widths("somewhere/else.ttf") == {}
