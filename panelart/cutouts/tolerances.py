"""General tolerances: what a size without one of its own may be off by, openings by their own standard."""

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

_GRADES: Final = ("H12", "H13", "H14", "H14")
"""ISO 273: fine, medium and coarse clearance holes are to H12, H13 and H14; it has nothing coarser."""

_ABOVE: Final = (
    (3.0, (0.10, 0.14, 0.25)),
    (6.0, (0.12, 0.18, 0.30)),
    (10.0, (0.15, 0.22, 0.36)),
    (18.0, (0.18, 0.27, 0.43)),
    (30.0, (0.21, 0.33, 0.52)),
    (50.0, (0.25, 0.39, 0.62)),
    (80.0, (0.30, 0.46, 0.74)),
    (120.0, (0.35, 0.54, 0.87)),
    (180.0, (0.40, 0.63, 1.00)),
    (250.0, (0.46, 0.72, 1.15)),
    (315.0, (0.52, 0.81, 1.30)),
    (400.0, (0.57, 0.89, 1.40)),
    (500.0, (0.63, 0.97, 1.55)),
    (630.0, (0.70, 1.10, 1.75)),
    (800.0, (0.80, 1.25, 2.00)),
    (1000.0, (0.90, 1.40, 2.30)),
    (1250.0, (1.05, 1.65, 2.60)),
    (1600.0, (1.25, 1.95, 3.10)),
    (2000.0, (1.50, 2.30, 3.70)),
    (2500.0, (1.75, 2.80, 4.40)),
    (3150.0, (2.10, 3.30, 5.40)),
)
"""ISO 286-1 table 1, IT12 IT13 IT14 up to and including, mm: read in copies up to 315 (IT12, IT13, IT14), above it from
memory and by the standard's own formula."""

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


def hole_grade(grade: str) -> str:
    """The ISO 286 class of openings that goes with a class of ISO 2768-1: H13 with m."""
    return _GRADES[CLASSES.index(grade)]


def opening(nominal: float, grade: str) -> tuple[float, float] | None:
    """The deviations (minus, plus) in mm of a dimension of an opening that has none of its own; None above 3150 mm.

    Never below the nominal size, so that what passes through that still does: the H class that ISO 273 gives the
    series of clearance holes (fine, medium, coarse) which goes with the class of ISO 2768-1.
    """
    column = ("H12", "H13", "H14").index(hole_grade(grade))
    for up_to, plus in _ABOVE:
        if nominal <= up_to:
            return 0.0, plus[column]
    return None
