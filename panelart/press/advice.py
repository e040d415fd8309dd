"""Which features to measure: those that leave the least error at the worst legend."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import combinations
from typing import Final

from panelart.canonical import Struct
from panelart.geometry import Affine, Box, Point
from panelart.model.layout import Layout
from panelart.press.features import Feature
from panelart.press.fitting import SURE, Model, design
from panelart.press.register import SIGMAS, aim_points

COUNTS: Final = (2, 3, 4, 6, 8)
"""How many features are advised on."""


WORTH: Final = 0.0005
"""How much less error an exchange of features has to bring, mm."""


class Advice(Struct, frozen=True, kw_only=True):
    """Features to measure and the radius, in mm, that holds the error at the worst legend 95 times in 100."""

    features: tuple[Feature, ...]
    error: float


def advised(
    layout: Layout, known: Mapping[str, Feature], *, noise: float, model: Model = Model.RIGID
) -> tuple[Advice, ...]:
    """The best features for each number of COUNTS, as far as the panel has so many and they settle the model.

    Chosen one by one, then exchanged for as long as that helps: the best set of all where there are few, near it
    where there are many. Only corners and round holes are advised: their middles are found best. Of sets that are as
    good to a micrometre, the one with corners is taken.
    """
    points = [feature for feature in known.values() if feature.seen]
    aims = aim_points(layout) or layout.panel.outline.bounds.corners
    chooser = _Chooser(points, aims, model, noise / SIGMAS)
    found: list[Advice] = []
    for count in COUNTS:
        if count <= len(points) and 2 * count >= model.freedoms:
            chosen = chooser.choose(count)
            error = chooser.error(chosen)
            if error < float("inf"):
                found.append(Advice(features=tuple(points[number] for number in sorted(chosen)), error=error))
    return tuple(found)


class _Chooser:
    """Knows the error at the worst aim for a set of features, by their numbers."""

    def __init__(self, points: Sequence[Feature], aims: Sequence[Point], model: Model, sigma: float) -> None:
        import numpy as np

        # About a panel that lies straight: how it is turned changes nothing.
        centre = Box.around(aims).centre
        self._places = [feature.at for feature in points]
        self._rows = [design(model, Affine(), place, centre) for place in self._places]
        self._aims = np.array([design(model, Affine(), aim, centre) for aim in _outermost(aims)])
        self._sigma = sigma

    def error(self, chosen: Sequence[int]) -> float:
        """The 95 % radius at the worst aim; infinite where the features leave the map open."""
        import numpy as np

        rows = np.vstack([self._rows[number] for number in chosen])
        normal = rows.T @ rows
        if np.linalg.matrix_rank(normal, tol=1e-6) < normal.shape[0]:
            return float("inf")
        spread = self._aims @ np.linalg.inv(normal) @ self._aims.transpose(0, 2, 1)
        return SURE * self._sigma * float(np.sqrt(np.linalg.eigvalsh(spread)[:, -1].max()))

    def choose(self, count: int) -> tuple[int, ...]:
        """A set that no single exchange makes better, grown from the widest pair."""
        numbers = range(len(self._rows))
        chosen = list(self._widest())
        while len(chosen) < count:
            rest = (number for number in numbers if number not in chosen)
            chosen.append(min(rest, key=lambda number: (round(self.error([*chosen, number]), 3), number)))
        best = self.error(chosen)
        better = True
        while better:
            better = False
            for place in range(count):
                for number in numbers:
                    if number in chosen:
                        continue
                    tried = [*chosen[:place], number, *chosen[place + 1 :]]
                    error = self.error(tried)
                    if error < best - WORTH:
                        chosen, best, better = tried, error, True
        return tuple(chosen)

    def _widest(self) -> tuple[int, int]:
        pairs = combinations(range(len(self._places)), 2)
        return max(pairs, key=lambda pair: round(self._places[pair[0]].distance(self._places[pair[1]]), 6))


def _outermost(aims: Sequence[Point]) -> list[Point]:
    """The corners of the hull of the aims: the error, convex over the face, is greatest at one of them."""
    points = sorted(set(aims))
    if len(points) < 3:
        return points
    hull: list[Point] = []
    for run in (points, points[::-1]):
        chain: list[Point] = []
        for point in run:
            while len(chain) > 1 and chain[-1].minus(chain[-2]).cross(point.minus(chain[-1])) <= 0.0:
                chain.pop()
            chain.append(point)
        hull += chain[:-1]
    return hull
