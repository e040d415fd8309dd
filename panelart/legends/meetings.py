"""Places of different legends that come too near to each other."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from panelart.geometry.distinct import distinct_rows
from panelart.legends.candidates import Candidate, boxes_of
from panelart.legends.obstacles import MARK_CLEARANCE
from panelart.model.panel import Placing


def meetings(places: Sequence[Sequence[Candidate]], placing: Placing) -> NDArray[np.int64]:
    """Rows (i, a, j, b), i before j: place a of legend i comes too near to place b of legend j.

    Sorted by legends, then places. Words side by side keep farther apart than others.
    """
    counts = [len(of_one) for of_one in places]
    owners = np.repeat(np.arange(len(places)), counts)
    numbers = np.arange(len(owners)) - np.repeat(np.cumsum([0, *counts])[:-1], counts)
    candidates = [candidate for of_one in places for candidate in of_one]
    boxes = boxes_of(candidates)
    caps = np.array([candidate.setting.cap_height for candidate in candidates])
    room = placing.white * caps
    beside = max(placing.white, placing.beside) * caps
    tree = shapely.STRtree(shapely.box(*boxes.T))
    around = boxes + np.stack([-beside, -room, beside, room], axis=1)
    ones, others = tree.query(shapely.box(*around.T))
    keep = owners[ones] < owners[others]
    ones, others = ones[keep], others[keep]
    gap = np.minimum(room[ones], room[others]) - 1e-9
    low, high = np.maximum(boxes[ones, 1], boxes[others, 1]), np.minimum(boxes[ones, 3], boxes[others, 3])
    minimum = np.minimum(boxes[ones, 3] - boxes[ones, 1], boxes[others, 3] - boxes[others, 1])
    across = np.where(high - low > minimum / 2, np.minimum(beside[ones], beside[others]) - 1e-9, gap)
    apart = np.stack([across, gap], axis=1)
    near = boxes[others, :2] < boxes[ones, 2:] + apart
    near &= boxes[ones, :2] < boxes[others, 2:] + apart
    met = near.all(axis=1)
    led = np.array(sorted(_leader_clashes(candidates, owners, boxes)), dtype=np.int64).reshape(-1, 2)
    pairs = distinct_rows(np.concatenate([np.stack([ones[met], others[met]], axis=1), led]))
    rows_ = np.stack([owners[pairs[:, 0]], numbers[pairs[:, 0]], owners[pairs[:, 1]], numbers[pairs[:, 1]]], axis=1)
    return rows_[np.lexsort((rows_[:, 3], rows_[:, 1], rows_[:, 2], rows_[:, 0]))]


def _leader_clashes(
    candidates: Sequence[Candidate], owners: NDArray[np.int64], boxes: NDArray[np.float64]
) -> set[tuple[int, int]]:
    """Pairs of which at least one has a leader that comes too near to the other's words or leader."""
    leading = [k for k, candidate in enumerate(candidates) if candidate.leader]
    if not leading:
        return set()
    paths = np.array([shapely.LineString(candidates[k].leader) for k in leading], dtype=object)
    found: set[tuple[int, int]] = set()
    for things, numbers in ((shapely.box(*boxes.T), list(range(len(candidates)))), (paths, leading)):
        here, there = shapely.STRtree(things).query(paths, predicate="dwithin", distance=MARK_CLEARANCE + 0.2)
        for one, other in zip(here.tolist(), there.tolist(), strict=True):
            k, m = leading[one], numbers[other]
            if owners[k] != owners[m]:
                found.add((k, m) if owners[k] < owners[m] else (m, k))
    return found


def by_pair(meet: NDArray[np.int64]) -> Iterable[tuple[tuple[int, int], NDArray[np.int64]]]:
    """Meetings (i, a, j, b), sorted by i and j, put together by legends: the two, and rows of their candidates."""
    ends = np.flatnonzero((meet[1:, [0, 2]] != meet[:-1, [0, 2]]).any(axis=1)) + 1
    for rows_ in np.split(meet, ends) if len(meet) else ():
        yield (int(rows_[0, 0]), int(rows_[0, 2])), rows_[:, [1, 3]]
