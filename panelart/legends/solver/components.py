"""Parts of a network that have nothing to do with each other are solved on their own."""

from __future__ import annotations

import hashlib

from panelart.legends.solver.network import Network


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
