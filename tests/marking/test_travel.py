"""Travel between paths, held against a solver that shares nothing with ours: the routing library of OR-tools."""

from __future__ import annotations

import math
import random

import pytest

from panelart.geometry import Line, Point
from panelart.lettering.outline import Loop
from panelart.marking.travel import short_way


def strokes(count: int, seed: int) -> list[Loop]:
    draw = random.Random(seed)
    found = []
    for _ in range(count):
        x, y = draw.uniform(0, 100), draw.uniform(0, 60)
        found.append(Loop((Line(Point(x, y), Point(x + draw.uniform(-4, 4), y + draw.uniform(1, 4))),), closed=False))
    return found


def way(paths: list[Loop] | tuple[Loop, ...]) -> float:
    here, total = Point(0, 0), 0.0
    for path in paths:
        total += here.distance(path.curves[0].start)
        here = path.curves[-1].end
    return total


def unordered(path: Loop) -> frozenset[Point]:
    return frozenset((path.curves[0].start, path.curves[-1].end))


@pytest.mark.parametrize("seed", range(4))
def test_every_path_is_run_once_and_the_way_is_what_is_told(seed: int) -> None:
    paths = strokes(60, seed)
    found = short_way(paths, Point(0, 0))
    assert sorted(map(sorted, map(unordered, found.paths))) == sorted(map(sorted, map(unordered, paths)))
    assert found.after == pytest.approx(way(found.paths))
    assert found.before == pytest.approx(way(paths))
    assert found.after < 0.4 * found.before


def test_a_row_of_strokes_is_run_through_once() -> None:
    row = [Loop((Line(Point(x, 0), Point(x + 1, 0)),), closed=False) for x in (6.0, 0.0, 4.0, 2.0)]
    found = short_way(row, Point(0, 0))
    assert found.after == pytest.approx(3.0)
    assert [path.curves[0].start.x for path in found.paths] == [0, 2, 4, 6]


@pytest.mark.full
def test_within_15_percent_of_a_solver() -> None:
    """OR-tools, 12 strokes of which either end may come first: two nodes a stroke, joined at no cost."""
    pytest.importorskip("ortools")
    from ortools.constraint_solver import pywrapcp, routing_enums_pb2

    paths = strokes(12, 11)
    ends = [Point(0, 0)] + [end for path in paths for end in (path.curves[0].start, path.curves[-1].end)]
    big = 10_000_000

    def cost(a: int, b: int) -> int:
        if a == 0 and b == 0:
            return 0
        if b == 0:
            return 0  # the way ends anywhere
        partners = a and (a - 1) // 2 == (b - 1) // 2
        if partners:
            return -big  # a stroke is always run from end to end
        return round(1000 * ends[a].distance(ends[b]))

    manager = pywrapcp.RoutingIndexManager(len(ends), 1, 0)
    routing = pywrapcp.RoutingModel(manager)
    lift = big  # costs may not be negative
    index = routing.RegisterTransitCallback(lambda a, b: cost(manager.IndexToNode(a), manager.IndexToNode(b)) + lift)
    routing.SetArcCostEvaluatorOfAllVehicles(index)
    asked = pywrapcp.DefaultRoutingSearchParameters()
    asked.first_solution_strategy = routing_enums_pb2.FirstSolutionStrategy.PATH_CHEAPEST_ARC
    asked.local_search_metaheuristic = routing_enums_pb2.LocalSearchMetaheuristic.GUIDED_LOCAL_SEARCH
    asked.time_limit.seconds = 2
    solved = routing.SolveWithParameters(asked)
    best = (solved.ObjectiveValue() - lift * len(ends) + big * len(paths)) / 1000
    ours = short_way(paths, Point(0, 0)).after
    assert math.isfinite(best)
    assert best > 0
    assert ours <= 1.15 * best


def test_nothing_to_do() -> None:
    assert short_way([], Point(0, 0)).paths == ()
