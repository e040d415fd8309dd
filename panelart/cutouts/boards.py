"""Circuit boards behind the panel: how far each part needs its board behind the panel, and where the board stands."""

from __future__ import annotations

from panelart.canonical import Struct
from panelart.model.panel import CircuitBoard, Panel, Part


class Needs(Struct, frozen=True, kw_only=True):
    """The distances in mm from the board's surface to the rear face of the panel that a part can have.

    `value` is the one that its entry or the spec states; `low` and `high` are the ends of the range met in sources.
    """

    part: Part
    low: float
    high: float
    value: float


def needed(part: Part, given: float | None = None, spacer: float = 0.0) -> Needs | None:
    """What a part needs; None where its height is not known, or it stands at the edge of its board.

    `given` is the height in mm that the spec states for it, `spacer` the height that it stands on.
    """
    if given is not None:
        return Needs(part=part, low=given + spacer, high=given + spacer, value=given + spacer)
    board = part.component.board
    if board is None or board.on_edge or board.height is None:
        return None
    low, high = board.height.span or (board.height.value, board.height.value)
    return Needs(part=part, low=low + spacer, high=high + spacer, value=board.height.value + spacer)


def needed_on(panel: Panel, board: CircuitBoard) -> list[Needs]:
    """What the parts of a board need, as far as that is known."""
    given, spacers = dict(board.heights), dict(board.spacers)
    parts = (panel.by_ref[ref] for ref in board.refs if ref in panel.by_ref)
    found = (needed(part, given.get(part.ref), spacers.get(part.ref, 0.0)) for part in parts)
    return [one for one in found if one is not None]


def unknown_on(panel: Panel, board: CircuitBoard) -> list[Part]:
    """The parts of a board that stand on it at a height that neither their entries nor the spec state."""
    given = dict(board.heights)
    parts = (panel.by_ref[ref] for ref in board.refs if ref in panel.by_ref)
    return [
        part
        for part in parts
        if part.ref not in given and not (part.component.board is not None and part.component.board.on_edge)
        if part.component.board is None or part.component.board.height is None
    ]


def distance(panel: Panel, board: CircuitBoard) -> float | None:
    """How far in mm the surface of a board lies behind the panel; None where neither the spec nor its parts say."""
    if board.gap is not None:
        return board.gap
    return max((one.low for one in needed_on(panel, board)), default=None)
