"""Bucket elimination: the exact optimum of a component that is not too wide.

Variables leave one at a time (Dechter, Artificial Intelligence 113, 1999, 41-85). What a variable would cost its
neighbours, at best, becomes a table over them, the message; once all are gone the constant is the optimum. The way back
reads the answer from the same tables. Time and memory are those of the largest message, so the order matters: weighted
min-fill, tried again with some chance in it where the tables would be large.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Iterator, Mapping
from math import prod
from typing import Any

import numpy as np
from numpy.typing import NDArray

from panelart.canonical import Struct
from panelart.legends.solver.network import Indices, Network
from panelart.legends.solver.problem import HARD

Table = NDArray[np.signedinteger[Any]]
Factor = tuple[tuple[int, ...], Table]
"""Variables in order of elimination, and what each combination of their values costs, one axis a variable."""

ONE_STROKE = 1 << 14
"""Entries up to which a product is made whole: below it the calls cost more than the numbers."""


class Plan(Struct, frozen=True, kw_only=True):
    """An order of elimination, what each variable sends its message to, and what that takes.

    order: variables, first eliminated first. scopes[v]: the variables of v's message, in order of elimination.
    largest, total: entries of the largest message, entries computed over all.
    """

    order: tuple[int, ...]
    scopes: Mapping[int, tuple[int, ...]]
    largest: int
    total: int


def plan_elimination(net: Network, *, restarts: int, easy: int, hopeless: int) -> Plan:
    """The first order whose largest message is easy, else the best of several; one if it is hopeless, in entries."""
    best = _min_fill(net, None, None)
    assert best is not None
    if easy < best.largest <= hopeless:
        chance = random.Random(1)  # noqa: S311 - no secret: the same start in every run
        for _ in range(restarts):
            if best.largest <= easy:
                break
            other = _min_fill(net, chance, best.total)
            if other is not None and (other.total, other.largest) < (best.total, best.largest):
                best = other
    return best


def _min_fill(net: Network, chance: random.Random | None, limit: int | None) -> Plan | None:
    """Eliminate next what joins the fewest neighbours not joined yet, each join weighted by the entries it adds.

    None as soon as more than `limit` entries are needed.
    """
    size = {i: len(values) for i, values in net.values.items()}
    near = {i: set(links) for i, links in net.links.items()}
    scores = {i: _fill(i, near, size, chance) for i in sorted(near)}
    order: list[int] = []
    scopes: dict[int, set[int]] = {}
    largest, total = 1, 0
    while scores:
        v = min(scores, key=lambda i: (scores[i], i))
        around = scopes[v] = near.pop(v)
        del scores[v]
        order.append(v)
        message = prod(size[a] for a in around)
        largest, total = max(largest, message), total + message * size[v]
        if limit is not None and total > limit:
            return None
        for a in sorted(_join(around, v, near)):
            scores[a] = _fill(a, near, size, chance)
    position = {v: k for k, v in enumerate(order)}
    return Plan(
        order=tuple(order),
        scopes={v: tuple(sorted(around, key=position.__getitem__)) for v, around in scopes.items()},
        largest=largest,
        total=total,
    )


def _fill(
    i: int, near: Mapping[int, set[int]], size: Mapping[int, int], chance: random.Random | None
) -> tuple[float, int]:
    """What eliminating a variable would join anew, and the entries of its message."""
    around = sorted(near[i])
    fill = sum(size[a] * size[b] for k, a in enumerate(around) for b in around[k + 1 :] if b not in near[a])
    wide = prod(size[a] for a in around)
    return (fill * chance.uniform(0.5, 1.5) if chance else fill, wide)


def _join(around: set[int], v: int, near: Mapping[int, set[int]]) -> set[int]:
    """Join all neighbours of a variable that leaves; the variables whose own neighbours are others now."""
    changed = set(around)
    for a in sorted(around):
        near[a].discard(v)
        if not around - near[a] <= {a}:
            near[a] |= around
            near[a].discard(a)
            changed |= near[a]
    return changed


class Elimination(Struct, frozen=True, kw_only=True):
    """What is left when all variables are gone.

    optimum: HARD if there is no permitted answer, or none as cheap as was asked for.
    factors[v]: the tables that stood in v's bucket, each with the variables of its axes, v first.
    ceiling: the entry that stands for "forbidden".
    """

    plan: Plan
    optimum: int
    factors: Mapping[int, tuple[Factor, ...]]
    ceiling: int


def eliminate(net: Network, plan: Plan, *, at_most: int = HARD) -> Elimination:
    """Run a plan. Answers dearer than `at_most` are given up, which lets the tables use small integers."""
    position = {v: k for k, v in enumerate(plan.order)}
    ceiling = min(permitted_total(net), at_most - net.constant) + 1
    if ceiling < 1:
        return Elimination(plan=plan, optimum=HARD, factors={}, ceiling=ceiling)
    kind = _smallest_kind(ceiling, 1)
    buckets = {v: list(_own_factors(net, v, position, ceiling, kind)) for v in plan.order}
    constant = 0
    for v in plan.order:
        scope = _scope(buckets[v], position)
        message = _message(buckets[v], scope, ceiling)
        minimum = int(message.min())
        constant += minimum
        if minimum >= ceiling or constant >= ceiling:
            return Elimination(plan=plan, optimum=HARD, factors={}, ceiling=ceiling)
        if minimum:
            # Forbidden stays forbidden: what reached the ceiling is left there.
            np.subtract(message, minimum, out=message, where=message < ceiling)
        if scope and message.any():
            buckets[scope[0]].append((scope, message.astype(kind, copy=False)))
    return Elimination(
        plan=plan,
        optimum=net.constant + constant,
        factors={v: tuple(found) for v, found in buckets.items()},
        ceiling=ceiling,
    )


def _own_factors(
    net: Network, v: int, position: Mapping[int, int], ceiling: int, kind: type[np.signedinteger[Any]]
) -> Iterator[Factor]:
    """What stands in a variable's bucket at first: its own costs, and those with variables eliminated after it."""
    yield (v,), np.minimum(net.unary[v], ceiling).astype(kind)
    for j, pair in net.links[v].items():
        if position[v] < position[j]:
            yield (v, j), np.minimum(pair, ceiling).astype(kind)


def _scope(factors: Iterable[Factor], position: Mapping[int, int]) -> tuple[int, ...]:
    """The variables of some factors, in order of elimination, without the first, which is being eliminated."""
    return tuple(sorted({j for variables, _ in factors for j in variables}, key=position.__getitem__)[1:])


def permitted_total(net: Network) -> int:
    """No permitted answer costs more than this (the constant left out)."""
    total = 0
    for i, unary in net.unary.items():
        total += int(unary.max(initial=0, where=unary < HARD))
        total += sum(int(m.max(initial=0, where=m < HARD)) for j, m in net.links[i].items() if i < j)
    return total


def _smallest_kind(ceiling: int, terms: int) -> type[np.signedinteger[Any]]:
    """The smallest integer type in which that many entries can be added without overflow."""
    for kind in (np.int16, np.int32):
        if ceiling * terms <= np.iinfo(kind).max:
            return kind
    return np.int64


def _shaped(factor: Factor, scope: tuple[int, ...]) -> Table:
    """A factor's table with an axis for its first variable and one for every variable of the scope."""
    variables, table = factor
    length = dict(zip(variables, table.shape, strict=True))
    return table.reshape((table.shape[0], *(length.get(j, 1) for j in scope)))


def _message(factors: list[Factor], scope: tuple[int, ...], ceiling: int) -> Table:
    """The least over the first variable of the sum of the factors, as a table over the scope.

    One value of the variable at a time, so that memory is the message and not the product. Small factors are added up
    first: few additions run over the whole table.
    """
    shaped = sorted((_shaped(factor, scope) for factor in factors), key=lambda table: table.size)
    shaped[0] = shaped[0].astype(_smallest_kind(ceiling, len(shaped)))
    count, *whole = np.broadcast_shapes(*(table.shape for table in shaped))
    if count * prod(whole) <= ONE_STROKE:
        total = shaped[0]
        for table in shaped[1:]:
            total = total + table
        return np.asarray(np.minimum(total.min(axis=0), ceiling))
    message = np.full(whole, ceiling, dtype=shaped[0].dtype)
    for value in range(count):
        row = shaped[0][value]
        for table in shaped[1:]:
            row = row + table[value]
        np.minimum(message, row, out=message)
    return message


def read_back(done: Elimination) -> tuple[dict[int, int], bool]:
    """An optimal answer, the position of the value by variable, and whether it is the only one.

    Where values tie, the lowest is taken, in the order of the way back.
    """
    chosen: dict[int, int] = {}
    only = True
    for v in reversed(done.plan.order):
        costs = np.zeros(1, dtype=np.int64)
        for variables, table in done.factors[v]:
            costs = costs + table.transpose()[tuple(chosen[j] for j in reversed(variables[1:]))]
        chosen[v] = int(costs.argmin())
        only = only and int((costs == costs.min()).sum()) == 1
    return chosen, only


def tied_values(done: Elimination, maximum: int) -> dict[int, Indices] | None:
    """For every variable the positions of values that hold all it takes in optimal answers, and few others.

    None if more than `most` combinations would have to be looked at for some variable.
    """
    position = {v: k for k, v in enumerate(done.plan.order)}
    tied: dict[int, Indices] = {}
    for v in reversed(done.plan.order):
        scope = _scope(done.factors[v], position)
        if prod(len(tied[j]) for j in scope) > maximum:
            return None
        total: Table = np.zeros((1,) * (1 + len(scope)), dtype=np.int64)
        for variables, table in done.factors[v]:
            narrow = table[np.ix_(np.arange(table.shape[0]), *(tied[j] for j in variables[1:]))]
            total = total + _shaped((variables, narrow), scope)
        best = total.min(axis=0, keepdims=True)
        optimal = (total == best) & (best < done.ceiling)
        tied[v] = np.flatnonzero(optimal.reshape(len(optimal), -1).any(axis=1))
    return tied
