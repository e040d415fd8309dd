"""The empty room of a face: the rectangles that cannot be made larger without meeting something."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from panelart.geometry import Box

MINIMUM: Final = 8.0
"""A room narrower than this holds nothing, mm."""

MAX_ROOMS: Final = 60
"""Rooms looked at, the largest first."""


def empty_rectangles(face: Box, taken: Sequence[Box]) -> list[Box]:
    """The largest empty rectangles in a box, the largest first; each is as large as it can be."""
    rooms = [face]
    for box in taken:
        cut: list[tuple[float, float, float, float]] = []
        for room in rooms:
            if not (
                room.left < box.right and box.left < room.right and room.bottom < box.top and box.bottom < room.top
            ):
                cut.append((room.left, room.bottom, room.right, room.top))
                continue
            cut += [
                (room.left, room.bottom, box.left, room.top),
                (box.right, room.bottom, room.right, room.top),
                (room.left, room.bottom, room.right, box.bottom),
                (room.left, box.top, room.right, room.top),
            ]
        rooms = _largest(
            [
                Box(left, bottom, right, top)
                for left, bottom, right, top in cut
                if right - left >= MINIMUM and top - bottom >= MINIMUM
            ]
        )
    return rooms


def _largest(rooms: Sequence[Box]) -> list[Box]:
    ordered = sorted(set(rooms), key=lambda room: (-room.width * room.height, room.left, room.bottom))
    kept: list[Box] = []
    for room in ordered:
        inside = any(
            other.left <= room.left
            and other.bottom <= room.bottom
            and other.right >= room.right
            and other.top >= room.top
            for other in kept
        )
        if not inside:
            kept.append(room)
        if len(kept) == MAX_ROOMS:
            break
    return kept
