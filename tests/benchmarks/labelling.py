"""Benchmarks of the placement solver: point-feature labelling with published optima, and synthetic panels.

    python tests/benchmarks/labelling.py --instances DIR
    python tests/benchmarks/labelling.py --panels

placeholder
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass, replace
from math import ceil
from pathlib import Path

import numpy as np

from panelart.legends.solver import HARD, Problem, in_tiers

Conflicts = dict[int, set[int]]
"""Candidate rectangles that overlap, of different points. Candidate c belongs to point c // places."""


def read_conflicts(path: Path) -> tuple[int, int, Conflicts]:
    """Points, places a point, and conflicts of one instance file (numbers there start at 1).

    The files list, for every candidate, how many others it meets and which; the other places of its own point are
    among them and are left out here.
    """
    numbers = iter(int(word) for word in path.read_text().split())
    points, places = next(numbers), next(numbers)
    conflicts: Conflicts = {}
    for candidate in range(points * places):
        met = [next(numbers) - 1 for _ in range(next(numbers))]
        conflicts[candidate] = {other for other in met if other // places != candidate // places}
    return points, places, conflicts


def conflict_free_problem(points: int, places: int, conflicts: Conflicts) -> Problem:
    """Label all points, as many as possible free of conflicts: the cost is the number of labels not free.

    Every place is two values, free (cost 0) and blocked (cost 1). Two places that overlap go together only if both
    are blocked. The places of a point are taken in order of their conflicts, fewest first, so that of two equally
    good ones the solver prefers the one that is in nobody's way.
    """
    order = {
        candidate: k
        for point in range(points)
        for k, candidate in enumerate(
            sorted(range(point * places, (point + 1) * places), key=lambda c: (len(conflicts[c]), c))
        )
    }
    unary = np.concatenate([np.zeros(places, dtype=np.int64), np.ones(places, dtype=np.int64)])
    pairs: dict[tuple[int, int], np.ndarray] = {}
    for a, met in conflicts.items():
        for b in met:
            i, j = a // places, b // places
            if i > j:
                continue
            pair = pairs.setdefault((i, j), np.zeros((2 * places, 2 * places), dtype=np.int64))
            free_a, free_b = order[a], order[b]
            blocked_a, blocked_b = free_a + places, free_b + places
            pair[free_a, free_b] = pair[free_a, blocked_b] = pair[blocked_a, free_b] = HARD
    return Problem(unaries=(unary,) * points, pairs=pairs)


# --- synthetic panels -------------------------------------------------------------------------------------------

WIDTH = 482.6
RACK_UNIT = 44.45
AREA_PER_PART = 400.0
LETTER, LINE, LEADING = 2.1, 3.0, 1.5
GAP, CLEARANCE = 1.5, 0.5
SIDES = {"N": 0, "S": 8, "E": 14, "W": 18, "NE": 22, "NW": 24, "SE": 26, "SW": 28}
WRAP_COST, SLIDE_COST, AMBIGUITY_COST = 3, 3, 6
OTHER_SIDE, OTHER_BASELINE, OTHER_SIDE_IN_GROUP = 10, 4, 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """A part as the benchmark needs it: centre and half extents in millimetres, its name, its group or -1."""

    x: float
    y: float
    half_width: float
    half_height: float
    words: tuple[str, ...]
    group: int


def _words(chance: np.random.Generator) -> tuple[str, ...]:
    """One or two words of 2 to 8 letters; only their lengths matter."""
    return tuple("X" * int(length) for length in chance.integers(2, 9, int(chance.integers(1, 3))))


def _height(parts: int) -> float:
    return RACK_UNIT * ceil(parts * AREA_PER_PART / (WIDTH * RACK_UNIT))


def _kinds(chance: np.random.Generator) -> list[tuple[float, float]]:
    """Half extents of the kinds of part a panel has."""
    return [(float(chance.uniform(2.5, 8)), float(chance.uniform(2.5, 6))) for _ in range(4)]


def grid_panel(parts: int, chance: np.random.Generator) -> list[Body]:
    """Rows and columns over the whole panel, a tenth of the places empty, one kind of part a column."""
    height = _height(parts)
    places = ceil(parts * 1.1)
    columns = max(1, round((places * WIDTH / height) ** 0.5))
    rows = ceil(places / columns)
    kinds = _kinds(chance)
    by_column = chance.integers(0, len(kinds), columns)
    chosen = sorted(chance.permutation(rows * columns)[:parts])
    return [
        Body(
            x=(place % columns + 0.5) * WIDTH / columns, y=(place // columns + 0.5) * height / rows,
            half_width=kinds[by_column[place % columns]][0], half_height=kinds[by_column[place % columns]][1],
            words=_words(chance), group=-1,
        )
        for place in map(int, chosen)
    ]  # fmt: skip


def zoned_panel(parts: int, chance: np.random.Generator) -> list[Body]:
    """Groups side by side, each a small grid of its own pitch and kind of part."""
    height = _height(parts)
    zone_rows = max(1, round(height / 90))
    zones = max(zone_rows, round(parts / 12))
    columns = ceil(zones / zone_rows)
    zones = zone_rows * columns
    share = [parts // zones + (zone < parts % zones) for zone in range(zones)]
    kinds = _kinds(chance)
    bodies: list[Body] = []
    width, tall = WIDTH / columns, height / zone_rows
    for zone, members in enumerate(share):
        if members == 0:
            continue
        half_width, half_height = kinds[int(chance.integers(0, len(kinds)))]
        across = max(1, round((members * width / tall) ** 0.5) + int(chance.integers(-1, 2)))
        down = ceil(members / across)
        left, low = (zone % columns) * width, (zone // columns) * tall
        bodies += [
            Body(
                x=left + (k % across + 0.5) * width / across, y=low + (k // across + 0.5) * tall / down,
                half_width=min(half_width, width / across / 2 - 1), half_height=min(half_height, tall / down / 2 - 1),
                words=_words(chance), group=zone,
            )
            for k in range(members)
        ]  # fmt: skip
    return bodies


def random_panel(parts: int, chance: np.random.Generator) -> list[Body]:
    """Parts anywhere on a raster of a tenth of an inch, bodies at least 3 mm apart."""
    height = _height(parts)
    kinds = _kinds(chance)
    bodies: list[Body] = []
    raster = 2.54
    while len(bodies) < parts:
        half_width, half_height = kinds[int(chance.integers(0, len(kinds)))]
        x = raster * round(chance.uniform(half_width + 2, WIDTH - half_width - 2) / raster)
        y = raster * round(chance.uniform(half_height + 2, height - half_height - 2) / raster)
        if all(
            abs(x - other.x) > half_width + other.half_width + 3
            or abs(y - other.y) > half_height + other.half_height + 3
            for other in bodies
        ):
            bodies.append(
                Body(x=x, y=y, half_width=half_width, half_height=half_height, words=_words(chance), group=-1)
            )
    return bodies


FAMILIES = {"grid": grid_panel, "zoned": zoned_panel, "random": random_panel}


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One candidate place of a legend. box: left, low, right, high. baseline: of its last line."""

    side: str
    box: tuple[float, float, float, float]
    baseline: float
    cost: int


def _places(body: Body, wide: bool) -> list[Place]:
    """All candidate places, before anything is ruled out. wide: with slides and wraps, else sides only."""
    places = []
    for wrapped in (False, True) if wide and len(body.words) == 2 else (False,):
        lines = [len(word) for word in body.words] if wrapped else [sum(map(len, body.words)) + len(body.words) - 1]
        width, height = max(lines) * LETTER, LINE + (len(lines) - 1) * (LINE + LEADING)
        for side, cost in SIDES.items():
            for slide in (-1, 0, 1) if wide and side in "NS" else (0,):
                x, y = body.x + slide * body.half_width * 0.8, body.y
                if "N" in side or "S" in side:
                    y += (body.half_height + GAP + height / 2) * (1 if "N" in side else -1)
                if "E" in side or "W" in side:
                    out = body.half_width + width / 2 + (GAP if len(side) == 1 else -1.0)
                    x += out * (1 if "E" in side else -1)
                box = (x - width / 2, y - height / 2, x + width / 2, y + height / 2)
                places.append(Place(
                    side=side, box=box, baseline=box[1],
                    cost=cost + (WRAP_COST if wrapped else 0) + (SLIDE_COST if slide else 0),
                ))  # fmt: skip
    return places


def _distances(box: tuple[float, float, float, float], boxes: np.ndarray) -> np.ndarray:
    """Largest of the gaps in x and in y from one box to many, negative where they overlap."""
    left, low, right, high = box
    across = np.maximum(boxes[:, 0] - right, left - boxes[:, 2])
    along = np.maximum(boxes[:, 1] - high, low - boxes[:, 3])
    return np.maximum(across, along)


def panel_problem(family: str, parts: int, seed: int, *, wide: bool = False) -> Problem:
    """A panel of the named family as a problem in two tiers, unplaced legends above looks.

    wide: 9 to 13 candidates a legend where there is room, with slides and wraps, else 5 to 7.
    """
    chance = np.random.default_rng([seed, parts, list(FAMILIES).index(family)])
    bodies = FAMILIES[family](parts, chance)
    height = _height(parts)
    shapes = np.array([
        (b.x - b.half_width, b.y - b.half_height, b.x + b.half_width, b.y + b.half_height) for b in bodies
    ])
    places: list[list[Place]] = []
    for i, body in enumerate(bodies):
        most = int(chance.integers(9, 14) if wide else chance.integers(5, 8))
        permitted = []
        for place in _places(body, wide):
            left, low, right, high = place.box
            if left < 1 or low < 1 or right > WIDTH - 1 or high > height - 1:
                continue
            away = _distances(place.box, shapes)
            own = max(float(away[i]), GAP)
            away[i] = np.inf
            if float(away.min()) < CLEARANCE:
                continue
            ambiguous = float(away.min()) < 1.3 * own
            permitted.append(replace(place, cost=place.cost + (AMBIGUITY_COST if ambiguous else 0)))
        places.append(sorted(permitted, key=lambda place: place.cost)[:most])
    boxes = [np.array([place.box for place in permitted]).reshape(-1, 4) for permitted in places]
    reach = np.array([
        (b[:, 0].min(), b[:, 1].min(), b[:, 2].max(), b[:, 3].max()) if len(b) else (0.0, 0.0, 0.0, 0.0) for b in boxes
    ])
    pairs: dict[tuple[int, int], np.ndarray] = {}

    def pair(i: int, j: int) -> np.ndarray:
        return pairs.setdefault((i, j), np.zeros((len(places[i]) + 1, len(places[j]) + 1), dtype=np.int64))

    for i in range(parts):
        for j in np.flatnonzero(_distances(tuple(reach[i]), reach[i + 1 :]) < CLEARANCE) + i + 1:
            for a, box in enumerate(boxes[i]):
                clash = np.flatnonzero(_distances(tuple(box), boxes[j]) < CLEARANCE)
                if len(clash):
                    pair(i, int(j))[a, clash] = HARD
    for i, j in _chains(bodies, "y"):
        _add_mismatch(pair(i, j), places[i], places[j], OTHER_SIDE, OTHER_BASELINE)
    for i, j in _chains(bodies, "x"):
        _add_mismatch(pair(i, j), places[i], places[j], OTHER_SIDE, 0)
    for i in range(parts - 1):
        if bodies[i].group == bodies[i + 1].group != -1:
            _add_mismatch(pair(i, i + 1), places[i], places[i + 1], OTHER_SIDE_IN_GROUP, 0)
    looks = Problem(
        unaries=tuple(np.array([*(place.cost for place in permitted), 0]) for permitted in places), pairs=pairs
    )
    unplaced = Problem(unaries=tuple(np.array([0] * len(permitted) + [1]) for permitted in places))
    return in_tiers([looks, unplaced])[0]


def _chains(bodies: list[Body], along: str) -> list[tuple[int, int]]:
    """Next neighbours among parts whose centres have the same x or y to half a millimetre, up to 60 mm apart."""
    other = "x" if along == "y" else "y"
    key = [(round(getattr(body, along) * 2), getattr(body, other), i) for i, body in enumerate(bodies)]
    key.sort()
    return [
        (min(i, j), max(i, j))
        for (line, here, i), (next_line, there, j) in itertools.pairwise(key)
        if line == next_line and there - here <= 60
    ]


def _add_mismatch(pair: np.ndarray, first: list[Place], second: list[Place], side: int, baseline: int) -> None:
    for a, one in enumerate(first):
        for b, two in enumerate(second):
            if one.side != two.side:
                cost = side
            elif abs(one.baseline - two.baseline) > 0.05:
                cost = baseline
            else:
                cost = 0
            if pair[a, b] < HARD:
                pair[a, b] += cost
