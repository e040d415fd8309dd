"""General tolerances: what a size without one of its own may be off by."""

from __future__ import annotations

from typing import Final

CLASSES: Final = ("f", "m", "c", "v")

_LINEAR: Final = (
    (0.5, 3.0, (0.05, 0.1, 0.2, None)),
    (3.0, 6.0, (0.05, 0.1, 0.3, 0.5)),
    (6.0, 30.0, (0.1, 0.2, 0.5, 1.0)),
    (30.0, 120.0, (0.15, 0.3, 0.8, 1.5)),
    (120.0, 400.0, (0.2, 0.5, 1.2, 2.5)),
    (400.0, 1000.0, (0.3, 0.8, 2.0, 4.0)),
    (1000.0, 2000.0, (0.5, 1.2, 3.0, 6.0)),
    (2000.0, 4000.0, (None, 2.0, 4.0, 8.0)),
)
"""ISO 2768-1 table 1, as in a copy of DIN ISO 2768-1 and its Japanese twin: over, up to and including, f m c v, mm."""

ANGLE: Final = 1.0
"""Usual tolerance of a bend in degrees (sheet-metal guidelines: 1, or 0.5 with care)."""


def linear(nominal: float, grade: str) -> float | None:
    """The deviation either way in mm that ISO 2768-1 leaves a size; None where it must be written at the size."""
    column = CLASSES.index(grade)
    for over, up_to, deviations in _LINEAR:
        # Bands run from over to up to and including; the first includes its own lower end.
        if (over < nominal or over == nominal == 0.5) and nominal <= up_to:
            return deviations[column]
    return None
