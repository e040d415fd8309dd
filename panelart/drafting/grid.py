"""One grid across shelves and columns: groups slide, within the room they have, to lines that others have already."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from enum import Enum
from typing import Final

from panelart.canonical import Struct


class Line(Enum):
    """What lies on a line: the centre of a part, or a side of a frame."""

    CENTRE = "centre"
    START = "start"
    END = "end"


_WEIGHT: Final = {Line.CENTRE: 1.0, Line.START: 0.6, Line.END: 0.6}
"""What a line in common is worth: more for parts than for frames."""

_WITHIN: Final = {Line.CENTRE: 0.05, Line.START: 0.3, Line.END: 0.3}
"""How far apart two lines may lie that are taken for one, mm: a frame's side cannot always be on the grid."""

_FARTHER: Final = 0.002
"""What each millimetre costs that something slides from its usual place."""

Lines = Mapping[Line, Sequence[float]]
"""The lines that are there, mm along the axis."""


class Piece(Struct, frozen=True, kw_only=True):
    """Something that slides along an axis: how far it reaches before and after its own place, mm.

    `lines` are its own, as distances from its place; `usual` is where it stands when nothing is in common.
    """

    before: float
    after: float
    usual: float
    lines: tuple[tuple[Line, float], ...]


def seated(
    pieces: Sequence[Piece], ends: tuple[float, float], gaps: Sequence[float], there: Lines, step: float
) -> tuple[float, list[float]]:
    """The places of pieces in their order between two ends with most lines in common, and what these count.

    `gaps` is the least room between each piece and the next. Places are multiples of `step`, but for the usual ones.
    Exact: every place that brings a line in common is tried, by dynamic programming from the first piece on.
    """
    best: list[tuple[float, list[float]]] = [(0.0, [])]
    for number, piece in enumerate(pieces):
        found: list[tuple[float, list[float]]] = []
        for at in _candidates(piece, ends, there, step):
            least = 0.0 if number == 0 else pieces[number - 1].after + gaps[number - 1] + piece.before
            before = [one for one in best if not one[1] or at - one[1][-1] >= least - 1e-6]
            if before:
                count, places = max(before, key=lambda one: one[0])
                found.append((count + _shared(piece, at, there), [*places, at]))
        best = found
    return max(best, key=lambda one: one[0]) if best else (-math.inf, [])


def _candidates(piece: Piece, ends: tuple[float, float], there: Lines, step: float) -> list[float]:
    """The places within the ends that may be the best."""
    low, high = ends[0] + piece.before, ends[1] - piece.after
    found = dict.fromkeys((piece.usual, *_in_common(piece, there, step)))
    return [at for at in found if low - 1e-6 <= at <= high + 1e-6]


def _in_common(piece: Piece, there: Lines, step: float) -> Iterator[float]:
    """The places that bring a line of the piece onto one that is there."""
    for kind, off in piece.lines:
        for value in there.get(kind, ()):
            yield round((value - off) / step) * step


def _shared(piece: Piece, at: float, there: Lines) -> float:
    """What the lines that a piece has in common count, less what it slides."""
    count = math.fsum(
        _WEIGHT[kind] * any(abs(at + off - value) <= _WITHIN[kind] for value in there.get(kind, ()))
        for kind, off in piece.lines
    )
    return count - _FARTHER * abs(at - piece.usual)
