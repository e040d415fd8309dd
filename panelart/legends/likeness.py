"""What places of two legends cost together that ought to be alike: in a row, of one control, in a frame."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from panelart.legends.candidates import UPRIGHT, Candidate, boxes_of
from panelart.legends.stand import Stand
from panelart.legends.wanted import SAME_LINE, Wanted, mirrored, neighbours, of_one_control, of_one_frame
from panelart.model.panel import Panel, Placing

OF_ONE_FAMILY = 2
"""How many times as much it costs that neighbours of one family, as glands of two sizes, are not alike. Our choice."""


def unlikeness(
    panel: Panel, stands: Mapping[str, Stand], wants: Sequence[Wanted], candidates: Sequence[Sequence[Candidate]]
) -> Iterator[tuple[int, int, NDArray[np.int64]]]:
    """What places of two legends cost that ought to be alike: in a row, of one control, in one frame, mirrored.

    The numbers of both, and a table of the places of the first down and those of the second across.
    """
    placing, frames = panel.marking.placing, panel.frames
    numbers: dict[str, int] = {}
    features = [
        _Features(places, stands[want.part.ref], numbers) for want, places in zip(wants, candidates, strict=True)
    ]
    in_row: set[frozenset[int]] = set()
    for axis in (0, 1):
        for i, j in neighbours(wants, axis):
            if wants[i].request.offset is not None or wants[j].request.offset is not None:
                continue  # where the designer put words, they are no measure for others
            in_row.add(frozenset((i, j)))
            asked = wants[i].request.place is not wants[j].request.place
            times = OF_ONE_FAMILY if _is_one_family(wants[i], wants[j]) else 1
            yield i, j, times * _likeness(features[i], features[j], axis, placing, sides_are_asked=asked)
    for i, j in of_one_control(wants):
        yield i, j, placing.other_form * features[i].differ(features[j], "forms")
    for i, j in of_one_frame(wants, frames):
        if frozenset((i, j)) not in in_row:
            yield i, j, placing.group_side * features[i].differ(features[j], "places")
    for i, j, middle in mirrored(wants, frames):
        yield i, j, placing.balance * (~features[i].balances(features[j], middle)).astype(np.int64)


def _is_one_family(one: Wanted, other: Wanted) -> bool:
    return one.part.component.family == other.part.component.family


class _Features:
    """What neighbours compare, as arrays over the candidates of one legend.

    `ends` are the left end, the middle and the right end of the words on the panel, one a row; `own` those of the part.
    """

    def __init__(self, candidates: Sequence[Candidate], stand: Stand, numbers: dict[str, int]) -> None:
        def told(words: Iterable[str]) -> NDArray[np.int64]:
            return np.array([numbers.setdefault(word, len(numbers)) for word in words], dtype=np.int64)

        self.places = told(candidate.place.value for candidate in candidates)
        self.forms = told(candidate.form for candidate in candidates)
        self.lines = np.array([candidate.line for candidate in candidates], dtype=np.float64)
        self.upright = np.array([candidate.place in UPRIGHT for candidate in candidates], dtype=bool)
        left, _, right, _ = boxes_of(candidates).T
        self.ends = np.stack([left, (left + right) / 2, right])
        self.own = np.array([stand.box.left, stand.centre.x, stand.box.right])[:, np.newaxis]

    def differ(self, other: _Features, what: str) -> NDArray[np.int64]:
        """1 where the two differ."""
        mine, its = getattr(self, what), getattr(other, what)
        apart: NDArray[np.int64] = (mine[:, np.newaxis] != its[np.newaxis, :]).astype(np.int64)
        return apart

    def balances(self, other: _Features, middle: float) -> NDArray[np.bool_]:
        """Where the words of the two mirror each other about an upright line."""
        return _meet(self.ends - middle, middle - other.ends[::-1])


def _meet(one: NDArray[np.float64], other: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Which places of two legends share an end or the middle."""
    return np.asarray((np.abs(one[:, :, np.newaxis] - other[:, np.newaxis, :]) <= SAME_LINE).any(axis=0))


def _likeness(
    one: _Features, other: _Features, axis: int, placing: Placing, *, sides_are_asked: bool
) -> NDArray[np.int64]:
    """What neighbours in a row (axis 0) or column cost together.

    In a row words on one side want one base line, and to stand to their parts in one way, so that they are spaced as
    the parts are; in a column they want one edge or one middle. Where the spec asks for the side of one of them, that
    says nothing of the other.
    """
    apart = (one.differ(other, "places") | one.differ(other, "forms")).astype(bool)
    upright: NDArray[np.bool_] = one.upright[:, np.newaxis]
    off = np.abs(one.lines[:, np.newaxis] - other.lines[np.newaxis, :]) > SAME_LINE
    if axis == 0:
        uneven = upright & ~_meet(one.ends - one.own, other.ends - other.own)
        cost = placing.other_line * (off & upright) + placing.spacing * uneven
    else:
        cost = placing.other_line * np.where(upright, ~_meet(one.ends, other.ends), off)
    return np.where(apart, 0 if sides_are_asked else placing.other_side, cost).astype(np.int64)
