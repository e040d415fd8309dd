"""What an arrangement measures: how large it is, how many lines its parts share, its rhythm, how far a hand reaches."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping, Sequence
from itertools import pairwise

from panelart.canonical import Struct
from panelart.drafting.blocks import Block, Fixing
from panelart.geometry import Point


class Figures(Struct, frozen=True, kw_only=True):
    """Figures by which arrangements are compared.

    `area` of the face in cm2; `lines` are the columns and rows that the parts' centres make; `pitches` the different
    distances between neighbours of one kind in a row; `reach` is how far the farthest control is from the middle of
    the lower edge, mm.
    """

    area: float
    lines: int
    pitches: int
    reach: float


def figures_of(blocks: Sequence[Block], places: Mapping[str, Point], size: tuple[float, float]) -> Figures:
    """The figures of blocks in their places on a face of a size in mm; fixings are left out."""
    some = [(block, places[block.ref]) for block in blocks if block.fixing is Fixing.NONE]
    rows: dict[tuple[str, float], list[float]] = defaultdict(list)
    for block, at in some:
        rows[block.kind, round(at.y, 1)].append(at.x)
    steps = {(kind, round(right - left, 1)) for (kind, _), row in rows.items() for left, right in pairwise(sorted(row))}
    hands = [math.hypot(at.x - size[0] / 2, at.y) for block, at in some if block.hands]
    return Figures(
        area=size[0] * size[1] / 100.0,
        lines=len({round(at.x, 1) for _, at in some}) + len({round(at.y, 1) for _, at in some}),
        pitches=len(steps),
        reach=max(hands, default=0.0),
    )
