"""Parts of a network that have nothing to do with each other are solved on their own."""

from __future__ import annotations

import hashlib

import numpy as np

from panelart.legends.solver.network import Network
from panelart.legends.solver.problem import HARD


def components(net: Network) -> list[tuple[int, ...]]:
    """The connected groups of variables, each rising, in the order of their first variables."""
    found: list[tuple[int, ...]] = []
    seen: set[int] = set()
    for first in sorted(net.values):
        if first in seen:
            continue
        seen.add(first)
        group = [first]
        for i in group:
            fresh = [j for j in net.links[i] if j not in seen]
            seen.update(fresh)
            group.extend(fresh)
        found.append(tuple(sorted(group)))
    return found


def settle(net: Network) -> None:
    """Settle the components whose cheapest values, the lowest of equals, go together for nothing.

    No answer costs less than the cheapest values alone, and one that costs the same and comes earlier would have a
    lower value among the cheapest of some variable: so this is the right answer there.
    """
    cheapest = {i: int(costs.argmin()) for i, costs in net.unary.items() if len(costs)}
    for variables in components(net):
        if all(i in cheapest and net.unary[i][cheapest[i]] < HARD for i in variables) and not any(
            pair[cheapest[i], cheapest[j]] for i in variables for j, pair in net.links[i].items() if i < j
        ):
            for i in variables:
                net.constant += int(net.unary[i][cheapest[i]])
                net.values[i] = net.values[i][[cheapest[i]]]
                net.unary[i] = np.zeros(1, dtype=np.int64)
                net.links[i] = {}


def content_key(net: Network) -> bytes:
    """A digest of everything the answer of a network depends on, and of nothing else.

    Variables count by their rank in the network, values by what they cost: a part added elsewhere changes no key.
    """
    digest = hashlib.sha256()
    rank = {i: k for k, i in enumerate(sorted(net.values))}
    for i, k in rank.items():
        digest.update(f"variable {k} {len(net.values[i])}\n".encode())
        digest.update(net.unary[i].astype("<i8").tobytes())
        for j in sorted(net.links[i]):
            if i < j:
                digest.update(f"link {k} {rank[j]}\n".encode())
                digest.update(net.links[i][j].astype("<i8").tobytes())
    return digest.digest()
