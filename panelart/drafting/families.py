"""Like groups: names alike but for a number or a letter, the same kinds of parts in the same order.

Such groups are one decision: each takes the form that all take, and every part in them the room of the largest of its
fellows, so that a panel shows at a glance that they do the same.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.drafting.blocks import Block
from panelart.geometry import Box

_MARK: Final = re.compile(r"\d+|\b[^\W\d_]\b")
"""What tells one of several like names from the others: a number, or a letter that stands alone."""


class Family(Struct, frozen=True, kw_only=True):
    """Like groups by their numbers among all groups, in order."""

    members: tuple[int, ...]


def stem(name: str) -> str:
    """A name without its numbers and single letters; '' where it has none."""
    found = _MARK.sub("#", name.casefold())
    return found if found != name.casefold() else ""


def marks(name: str) -> tuple[str, ...]:
    """The numbers and single letters of a name, as they are written."""
    return tuple(_MARK.findall(name))


def families(named: Sequence[tuple[str, Sequence[Block]]]) -> list[Family]:
    """The families among groups, each given by its name and its blocks in the order of the list."""
    alike: dict[object, list[int]] = {}
    for number, (name, blocks) in enumerate(named):
        if stem(name):
            alike.setdefault((stem(name), tuple(block.kind for block in blocks)), []).append(number)
    return [Family(members=tuple(members)) for members in alike.values() if len(members) > 1]


def evened(groups: Sequence[Sequence[Block]]) -> list[tuple[Block, ...]]:
    """The blocks of like groups, each with the room that the largest of its fellows takes."""
    columns = [_evened(fellows) for fellows in zip(*groups, strict=True)]
    return [tuple(row) for row in zip(*columns, strict=True)]


def _evened(fellows: Sequence[Block]) -> list[Block]:
    rears = [block.rear for block in fellows if block.rear is not None]
    room = {
        "face": Box.around([block.face for block in fellows]),
        "front": Box.around([block.front for block in fellows]),
        "rear": Box.around(rears) if rears else None,
        "body": Box.around([block.body or block.face for block in fellows]),
        "hands": tuple(dict.fromkeys(hand for block in fellows for hand in block.hands)),
    }
    return [replace(block, **room) for block in fellows]
