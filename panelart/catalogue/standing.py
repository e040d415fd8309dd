"""How far the figures that a hole is cut by may be trusted."""

from __future__ import annotations

from typing import Final

from panelart.catalogue.outlines import DIMENSIONS
from panelart.figure import Figure, Known
from panelart.model.component import COUNTERSINK_ANGLE, COUNTERSINK_DIAMETER, Component

_CUT_BY: Final = DIMENSIONS | {COUNTERSINK_DIAMETER, COUNTERSINK_ANGLE}


def to_measure(component: Component) -> tuple[Figure, ...]:
    """The figures of its openings that are recalled or differ from maker to maker, each once.

    Where there are any, the part in hand is measured before the sheet is cut. What goes through, the sheet it fits
    and facts that go with it do not count: nothing is cut by them.
    """
    cut_by = (figure for opening in component.openings for figure in opening.figures if figure.name in _CUT_BY)
    return tuple(dict.fromkeys(figure for figure in cut_by if figure.known in (Known.MEMORY, Known.TYPICAL)))
