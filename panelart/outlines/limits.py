"""Bounds within which a drawing is read, and what is close enough in it, in mm."""

from __future__ import annotations

from typing import Final

MAX_BYTES: Final = 4_000_000
"""Of a DXF file."""

MAX_CURVES: Final = 5000
"""Lines and arcs of one drawing."""

MAX_IN_ONE: Final = 1000
"""Lines and arcs of one loop: beyond that a curve was flattened, and every step after this takes its time."""

MAX_POINTS: Final = 2000
"""Control points of one spline."""

MAX_TOLD: Final = 10
"""How many faults of one kind are told."""

JOIN: Final = 0.005
"""Ends nearer to each other than this are one point: drawings round their figures, inch ones to 0.0001 in."""

CURVE_TOLERANCE: Final = 0.005
"""How far arcs may lie off the spline, ellipse or Bézier curve that they stand for."""

MIN_SIZE: Final = 1.0
MAX_SIZE: Final = 5000.0
"""Between what sizes an outline is taken for a panel and not for a slip of the unit."""
