"""Whose a legend is taken to be: that of the part it is nearest to.

One measure for the placing and for the checks. Distances are from the ink of the words to the *ground* of a part: the
convex form round what of it hides the face, its scale and the names of its positions.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from enum import IntEnum
from math import inf

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from panelart.canonical import Struct
from panelart.geometry.distinct import distinct_with_places
from panelart.legends.obstacles import Boxes
from panelart.model.motion import MotionKind
from panelart.model.panel import Part

CLEAR_RATIO = 1.3
"""Another part this many times as far from the words as their own part is out of the question. Common practice."""

ALIKE = 0.02
"""Distances that differ by less than this, in mm, are alike to any eye."""


class Claim(IntEnum):
    """What claim some other part has to words."""

    NONE = 0
    NEAR = 1
    """It is about as near, off a corner of the words."""
    BESIDE = 2
    """It is about as near and beside the words, over or under them."""
    NEARER = 3
    """It is as near as their own part or nearer."""


class Claims(Struct, frozen=True, eq=False):
    """For some boxes of words the greatest claim of another part to each, and the ref of that part, "" if none."""

    claim: NDArray[np.int64]
    ref: tuple[str, ...]


def speaks(part: Part) -> bool:
    """Whether a part is operated or read, so that a legend could be taken for its own; screws are not."""
    named = part.legend is not None or bool(part.positions) or part.scale is not None
    return named or part.component.motion.kind is not MotionKind.NONE


def ground(areas: Iterable[BaseGeometry]) -> BaseGeometry:
    """The convex form round all that belongs to a part."""
    return shapely.convex_hull(shapely.GeometryCollection(list(areas)))


class Grounds:
    """The grounds of the parts that speak, indexed."""

    def __init__(self, grounds: Mapping[str, BaseGeometry]) -> None:
        self.refs = tuple(grounds)
        self.areas = np.array([grounds[ref] for ref in self.refs], dtype=object)
        self._number = {ref: number for number, ref in enumerate(self.refs)}
        self._tree = shapely.STRtree(self.areas)
        self._bounds = shapely.bounds(self.areas).reshape(-1, 4)

    def of(self, ref: str) -> BaseGeometry:
        """The ground of one part. Raises KeyError for one that says nothing."""
        found: BaseGeometry = self.areas[self._number[ref]]
        return found

    def claims(
        self,
        boxes: Boxes,
        owners: Sequence[str],
        own: NDArray[np.object_],
        farthest: NDArray[np.float64],
        legends: Sequence[int],
    ) -> Claims:
        """What claim other parts have to words with these bounds, of the parts `owners`, whose grounds are `own`.

        Words count as no farther from their part than `farthest`, mm. `legends` are numbers, one for all words whose
        own ground is the same.
        """
        if not len(boxes):
            return Claims(np.zeros(0, dtype=np.int64), ())
        shapes = shapely.box(*boxes.T)
        mine = np.array([self._number.get(ref, -1) for ref in owners], dtype=np.int64)
        away = np.minimum(shapely.distance(shapes, own), farthest)
        ones, others = self._tree.query(shapes, predicate="dwithin", distance=CLEAR_RATIO * away + ALIKE)
        keep = others != mine[ones]
        ones, others = ones[keep], others[keep]
        # Parts that run into each other, or stand within each other, have no legends that could be told apart by where
        # they are.
        keep = self._are_apart(own, np.asarray(legends, dtype=np.int64), ones, others)
        ones, others = ones[keep], others[keep]
        apart = shapely.distance(shapes[ones], self.areas[others])
        low = np.maximum(boxes[ones, :2], self._bounds[others, :2])
        beside = np.minimum(boxes[ones, 2:], self._bounds[others, 2:]) - low > ALIKE
        claim = np.where(beside.any(axis=1), int(Claim.BESIDE), int(Claim.NEAR))
        claim[apart <= away[ones] + ALIKE] = int(Claim.NEARER)
        return self._greatest(len(boxes), ones, others, claim, apart)

    def _are_apart(
        self,
        own: NDArray[np.object_],
        legends: NDArray[np.int64],
        ones: NDArray[np.int64],
        others: NDArray[np.int64],
    ) -> NDArray[np.bool_]:
        """Whether own grounds are clear of those of other parts; measured once for each legend and part."""
        pairs, each = distinct_with_places(legends[ones] * len(self.refs) + others)
        at = np.empty(len(pairs), dtype=np.intp)
        at[each] = np.arange(len(each))
        apart: NDArray[np.bool_] = shapely.distance(own[ones[at]], self.areas[others[at]]) > ALIKE
        return apart[each]

    def nearest(
        self, boxes: Boxes, owners: Sequence[str], own: NDArray[np.object_], reach: float
    ) -> list[tuple[float, float, str]]:
        """For words with these bounds how far their own part is, how far the nearest other part, and which that is.

        Others are looked for up to `reach` times as far as their own part; infinity and "" where there is none.
        """
        shapes = shapely.box(*boxes.T)
        away = shapely.distance(shapes, own)
        ones, others = self._tree.query(shapes, predicate="dwithin", distance=reach * away + ALIKE)
        found = [(float(mine), inf, "") for mine in away]
        for one, other in zip(ones.tolist(), others.tolist(), strict=True):
            if self.refs[other] != owners[one] and float(shapely.distance(own[one], self.areas[other])) > ALIKE:
                apart = float(shapely.distance(shapes[one], self.areas[other]))
                found[one] = min(found[one], (found[one][0], apart, self.refs[other]))
        return found

    def _greatest(
        self,
        count: int,
        ones: NDArray[np.int64],
        others: NDArray[np.int64],
        claim: NDArray[np.int64],
        apart: NDArray[np.float64],
    ) -> Claims:
        found = np.zeros(count, dtype=np.int64)
        refs = [""] * count
        for number in np.lexsort((others, apart, -claim))[::-1].tolist():
            box = int(ones[number])
            found[box], refs[box] = claim[number], self.refs[int(others[number])]
        return Claims(found, tuple(refs))
