"""The order in which a tool goes along its paths, so that it travels little between them.

First always on to the nearest end; then stretches of the order are turned round as long as that makes the way shorter
(2-opt). That is no proof of the shortest way: a test holds it against a solver's on small plates.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Final, TypeAlias

from panelart.canonical import Struct
from panelart.geometry import Point
from panelart.lettering.flat import reversed_loop
from panelart.lettering.outline import Loop

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Numbers: TypeAlias = "NDArray[np.float64]"

_PASSES: Final = 12
_MAX_TURNED: Final = 6000
"""With more paths than this only the nearest way is taken: turning stretches costs the square of their number."""


class Travelled(Struct, frozen=True, kw_only=True):
    """Paths in order, and the way in mm that the tool travels off the work: as they came, and now."""

    paths: tuple[Loop, ...]
    before: float
    after: float


def short_way(paths: Sequence[Loop], start: Point) -> Travelled:
    """Paths in an order with little travel from a start; open ones may be run either way."""
    import numpy as np

    if not paths:
        return Travelled(paths=(), before=0.0, after=0.0)
    ends = np.array([(*path.curves[0].start, *path.curves[-1].end) for path in paths], dtype=np.float64)
    heads, tails = ends[:, :2], ends[:, 2:]
    before = _way(heads, tails, start)
    order, turned = _nearest(heads, tails, start)
    heads, tails = np.where(turned[:, None], tails, heads), np.where(turned[:, None], heads, tails)
    heads, tails = heads[order], tails[order]
    place = np.arange(len(paths))
    flips = np.zeros(len(paths), dtype=bool)
    if len(paths) <= _MAX_TURNED:
        _turn_stretches(heads, tails, place, flips, start)
    chosen = [
        reversed_loop(paths[order[at]]) if turned[order[at]] != flip else paths[order[at]]
        for at, flip in zip(place.tolist(), flips.tolist(), strict=True)
    ]
    return Travelled(paths=tuple(chosen), before=before, after=_way(heads, tails, start))


def _way(heads: Numbers, tails: Numbers, start: Point) -> float:
    import numpy as np

    steps = math.fsum(np.hypot(*(heads[1:] - tails[:-1]).T).tolist()) if len(heads) > 1 else 0.0
    return float(steps + np.hypot(heads[0, 0] - start.x, heads[0, 1] - start.y))


def _nearest(heads: Numbers, tails: Numbers, start: Point) -> tuple[list[int], NDArray[np.bool_]]:
    """Always on to the nearest end that is left; which paths are then run backwards."""
    import numpy as np

    count = len(heads)
    left = np.arange(count)
    turned = np.zeros(count, dtype=bool)
    here = np.array(start, dtype=np.float64)
    order: list[int] = []
    while len(left):
        to_head = ((heads[left] - here) ** 2).sum(axis=1)
        to_tail = ((tails[left] - here) ** 2).sum(axis=1)
        head, tail = int(to_head.argmin()), int(to_tail.argmin())
        back = bool(to_tail[tail] < to_head[head] - 1e-12)
        at = tail if back else head
        path = int(left[at])
        turned[path] = back
        here = heads[path] if back else tails[path]
        order.append(path)
        left = np.delete(left, at)
    return order, turned


def _turn_stretches(
    heads: Numbers, tails: Numbers, place: NDArray[np.int_], flips: NDArray[np.bool_], start: Point
) -> None:
    """Turn stretches round, in place, while that shortens the way."""
    import numpy as np

    count = len(heads)
    for _ in range(_PASSES):
        gained = 0.0
        for first in range(count - 1):
            from_x, from_y = (start.x, start.y) if first == 0 else tails[first - 1]
            far = slice(first, count)
            # Turned, the stretch first..last begins at the tail of last and ends at the head of first.
            now = np.hypot(heads[first, 0] - from_x, heads[first, 1] - from_y)
            onward = np.zeros(count - first)
            onward[:-1] = np.hypot(*(heads[first + 1 :] - tails[first:-1]).T)
            into = np.hypot(tails[far, 0] - from_x, tails[far, 1] - from_y)
            out = np.zeros(count - first)
            out[:-1] = np.hypot(*(heads[first + 1 :] - heads[first]).T)
            gain = now + onward - into - out
            best = int(gain.argmax())
            if gain[best] > 1e-6:
                stretch = slice(first, first + best + 1)
                heads[stretch], tails[stretch] = tails[stretch][::-1].copy(), heads[stretch][::-1].copy()
                place[stretch] = place[stretch][::-1].copy()
                flips[stretch] = ~flips[stretch][::-1]
                gained += float(gain[best])
        if gained <= 1e-6:
            return
