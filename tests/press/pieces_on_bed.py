"""Made-up pieces on a bed, each with its own truth: shift, turn, scale, stretch, skew, growth and noise.

Each of scale, stretch, skew and growth is there in one piece of two; sizes are invented, as printers and coats have
them: 0.1 %, 0.05 %, 0.05 % and 0.04 mm, normal deviates; noise 0.025 mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from panelart.geometry import Point, Vector
from panelart.press.fitting import Model, Sight, fitted
from panelart.press.plausible import candidates, chosen, errors_at, plausible

WIDE, HIGH = 260.0, 110.0
SIGMA = 0.025

CORNERS = (((0, 0), (-1, -1)), ((WIDE, 0), (1, -1)), ((WIDE, HIGH), (1, 1)), ((0, HIGH), (-1, 1)))
HOLES = (((7, 7), (0, 0)), ((253, 103), (0, 0)), ((87, 79), (0, 0)), ((200, 40), (0, 0)))
MEASURED = {
    "four corners": CORNERS,
    "four corners, two holes": (*CORNERS, *HOLES[:2]),
    "four holes": HOLES,
    "four corners, four holes": (*CORNERS, *HOLES),
}
LEGENDS = (Point(20, 20), Point(130, 55), Point(240, 90), Point(60, 100))


def held(features: Sequence, pieces: int, seed: int) -> float:
    """In how many of the pieces, of 1, the legend with the largest stated error lies within it."""
    rng = np.random.default_rng(seed)
    within = 0
    for _ in range(pieces):
        there = rng.random(4) < 0.5
        scale, stretch, skew, growth = rng.normal(0, (0.001, 0.0005, 0.0005, 0.04)) * there
        turn = math.radians(rng.uniform(-3, 3))
        turned = np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
        linear = turned @ np.array([[1 + scale + stretch, skew], [0, 1 + scale - stretch]])
        move = rng.uniform(0, 100, 2)
        sights = [
            Sight(
                at=Point(*at),
                seen=Point(*(linear @ (np.array(at) + growth * np.array(grows)) + move + rng.normal(0, SIGMA, 2))),
                grows=Vector(*grows),
            )
            for at, grows in features
        ]
        maps = candidates(sights, SIGMA) or (fitted(sights, Model.RIGID),)
        fit = chosen(maps, SIGMA)
        near = plausible(maps, SIGMA)
        scatter = max(SIGMA, fit.scatter or 0.0)
        stated = errors_at(LEGENDS, fit, near, SIGMA, scatter)
        worst = int(np.argmax(stated))
        off = math.dist(fit.map.apply(LEGENDS[worst]), linear @ np.array(LEGENDS[worst]) + move)
        within += off <= stated[worst]
    return within / pieces
