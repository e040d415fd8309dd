"""What a plain way of filling rows makes of a list, to compare with: parts in their order, left to right, then down.

Same parts, same room round each, same frames; a frame's parts stand together, so each group starts a row of its own.
"""

from __future__ import annotations

from collections.abc import Sequence

from panelart.drafting.blocks import Block, Fixing
from panelart.drafting.plan import MARGIN, Zone, zones
from panelart.drafting.shelves import BETWEEN
from panelart.drafting.spacing import Spacing
from panelart.geometry import Point


def rows_filled(
    blocks: Sequence[Block], framed: Sequence[Zone], width: float, side: float, spacing: Spacing
) -> tuple[float, dict[str, Point]]:
    """The height that is needed at a width, and the places."""
    inner = [block for block in blocks if block.fixing is Fixing.NONE]
    places: dict[str, Point] = {}
    used = MARGIN
    for zone in zones(inner, framed):
        frame = zone.margin + zone.line if zone.framed else 0.0
        rows: list[list[tuple[Block, float]]] = [[]]
        for block in zone.blocks:
            row = rows[-1]
            x = side + frame - block.all_round.left
            if row:
                x = max(x, *(at + spacing.beside(other, block) for other, at in row))
                if x + block.all_round.right > width - side - frame and row:
                    rows.append([])
                    row, x = rows[-1], side + frame - block.all_round.left
            row.append((block, x))
        y = used + frame + zone.title_height
        above: list[tuple[Block, float]] = []
        previous = y
        for row in rows:
            top = max(block.all_round.top for block, _ in row)
            line = y + top
            if above:
                line = max(line, previous + max(spacing.above(one, two) for one, _ in above for two, _ in row))
            places |= {block.ref: Point(x, -line) for block, x in row}
            y = line + max(-block.all_round.bottom for block, _ in row) + spacing.white
            previous, above = line, row
        used = y - spacing.white + frame + BETWEEN
    height = used - BETWEEN + MARGIN
    return height, {ref: Point(at.x, height + at.y) for ref, at in places.items()}
