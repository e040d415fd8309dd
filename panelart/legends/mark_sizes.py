"""How long and wide marks of scales are: by the lettering, or by the viewing distance, as a source has it.

Three published rules of the length of a long mark contradict each other: at 710 mm it is 10.2 mm, 5.6 mm or 7.9 mm. All
three are from memory and none could be looked up, so the spec chooses one, or leaves it to the lettering.
"""

from __future__ import annotations

from typing import Final

from panelart.canonical import Struct
from panelart.model.panel import Marking, MarkSizes

KINDS: Final = ("major", "intermediate", "minor")

_INCH: Final = 25.4
_FOOT: Final = 12 * _INCH

_OF_CAPITALS: Final = (1.0, 0.71, 0.43)
"""Mark lengths over the height of a name's capitals: in the proportion of Grether and Baker, Human Engineering Guide to
Equipment Design (1972), from memory."""

_WIDTHS: Final = (0.12, 0.10, 0.08)
"""Line widths over the height of a name's capitals; common practice: the lettering's own stroke is 0.1."""

_GRETHER_BAKER: Final = (
    (1.5, (0.22, 0.16, 0.09), 0.04),
    (3.0, (0.40, 0.28, 0.17), 0.07),
    (6.0, (0.78, 0.56, 0.34), 0.14),
    (12.0, (1.57, 1.12, 0.68), 0.28),
    (20.0, (2.63, 1.87, 1.13), 0.47),
)
"""Up to so many feet, lengths and the least distance from middle to middle of short marks in inches: Grether and Baker
(1972), repeated in NUREG-0700 (1981); from memory."""

_MIL_DISTANCE: Final = 710.0
_MIL_LENGTHS: Final = (5.6, 4.1, 2.5)
_MIL_WIDTH: Final = 0.32
_MIL_APART: Final = 0.89
"""Lengths, width and least distance of short marks in mm at 710 mm, in normal light: dial figures of MIL-STD-1472 and
MIL-HDBK-759, from memory. Other distances in proportion."""

_GRANDJEAN_LENGTHS: Final = (1 / 90, 1 / 125, 1 / 200)
_GRANDJEAN_WIDTH: Final = 1 / 5000
_GRANDJEAN_WHITE: Final = 1 / 600
"""Over the viewing distance: lengths, width, and the least white between two marks (0.83 mm at 500 mm, 5.7 minutes of
arc). Grandjean, Fitting the Task to the Man, from memory."""

_WHITE_OF_WIDTHS: Final = 2.0
"""The least white between two marks over their width: lines nearer to each other are one grey band. Common practice."""


class MarkSize(Struct, frozen=True):
    """Length and width of a mark, mm."""

    length: float
    width: float


def mark_size(marking: Marking, kind: str) -> MarkSize:
    """The size of a mark of a kind (major, intermediate, minor); never narrower than the process can make a line."""
    at, distance = KINDS.index(kind), marking.viewing_distance
    capitals = marking.styles["name"].cap_height
    length, width = _OF_CAPITALS[at] * capitals, _WIDTHS[at] * capitals
    if marking.mark_sizes is MarkSizes.GRETHER_BAKER:
        length = _row(distance)[1][at] * _INCH
    elif marking.mark_sizes is MarkSizes.MIL_STD:
        length, width = (size * distance / _MIL_DISTANCE for size in (_MIL_LENGTHS[at], _MIL_WIDTH))
    elif marking.mark_sizes is MarkSizes.GRANDJEAN:
        length, width = _GRANDJEAN_LENGTHS[at] * distance, _GRANDJEAN_WIDTH * distance
    return MarkSize(length, max(width, marking.process.line_minimum.value))


def marks_apart(marking: Marking) -> float:
    """The least distance of two marks from middle to middle in mm, by the source of their sizes.

    Never less than three times the width of those that fill the room between others.
    """
    distance, width = marking.viewing_distance, mark_size(marking, "intermediate").width
    source = {
        MarkSizes.GRETHER_BAKER: _row(distance)[2] * _INCH,
        MarkSizes.MIL_STD: _MIL_APART * distance / _MIL_DISTANCE,
    }.get(marking.mark_sizes, width + _GRANDJEAN_WHITE * distance)
    return max(source, (1.0 + _WHITE_OF_WIDTHS) * width)


def _row(distance: float) -> tuple[float, tuple[float, float, float], float]:
    """What Grether and Baker have for a viewing distance in mm; their last for all beyond."""
    return next((row for row in _GRETHER_BAKER if distance <= row[0] * _FOOT), _GRETHER_BAKER[-1])
