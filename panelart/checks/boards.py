"""Parts that are soldered to one circuit board behind the panel: whether all of them reach it together."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from panelart.checks.findings import Bound, Observation
from panelart.checks.limits import Limit
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey
from panelart.cutouts.boards import Needs, needed, needed_on, unknown_on
from panelart.diagnostics import Severity, Where
from panelart.geometry import Vector
from panelart.messages import checks_things as things
from panelart.model.panel import CircuitBoard, Part


def _short_of(parts: Sequence[Needs], play: float) -> Iterator[tuple[Needs, Needs, float]]:
    """Each part that does not reach the panel where the tallest does, the tallest, and what it is short of in mm."""
    if not parts:
        return
    tallest = max(parts, key=lambda one: one.low)
    for one in parts:
        short = tallest.low - one.high
        if short > play + ROUNDING:
            yield one, tallest, short


@rule(
    Severity.ERROR,
    says="{subject} and {other} are on one board, and the heights that they need differ by {measured}; maximum {limit}",
    fix=(
        "Raise {subject} by {measured} on the board (`spacers`), choose a part of the height of {other}, or use two "
        "boards."
    ),
    limits=("board.play.maximum",),
)
def board_heights_differ(survey: Survey) -> Iterator[Observation]:
    """Two parts on one circuit board cannot both reach the panel.

    Each part on a board needs its own distance from the board's surface to the rear face of the panel. Where sources
    give a range, the nearest ends of the two ranges are compared: a finding says that no parts of these kinds go
    together. Boards and what is on them are stated by `boards` in the spec. Not checked for a board with `gap`, which
    `board-gap-differs` checks part by part.

    Source: the parts' catalogue entries, or `heights` of the board.
    Fix: spacers or a socket below the lower part, another part, or two boards.
    Fails: an encoder that needs 6 to 7 mm beside a jack that needs 9 mm.
    Passes: the encoder on spacers 2.5 mm high.
    """
    limit = survey.limits["board.play.maximum"]
    for board in survey.panel.boards:
        if board.gap is not None:
            continue
        for one, tallest, short in _short_of(needed_on(survey.panel, board), limit.value):
            yield _of_two(survey, one.part, tallest.part, board.where, short, limit)


board_heights_differ.cases(
    """
    parts:
      - {ref: J1, part: jack-35-board, at: [40, 50]}
      - {ref: RV1, part: encoder-11-board, at: [70, 50]}
    boards:
      - {parts: [J1, RV1], spacers: {RV1: __}}
    """,
    fails="0.5",
    passes="2.5",
)


@rule(
    Severity.ERROR,
    says="{subject}: the gap of its board is {measured} off from the height that it needs; maximum {limit}",
    fix="Change `gap` or the height of the part by {measured}: spacers below the part (`spacers`), or another part.",
    limits=("board.play.maximum",),
)
def board_gap_differs(survey: Survey) -> Iterator[Observation]:
    """A part on a circuit board is too high or too low for the distance between its board and the panel.

    A part that is too high keeps the board from its spacers; one that is too low does not reach the panel, and its nut
    bends the board.

    Source: `gap` of the board in the spec; the part's catalogue entry, or `heights` of the board.
    Fix: other spacers of the board, spacers below the part, or another part.
    Fails: a jack that needs 9 mm on a board 11 mm behind the panel.
    Passes: the same jack on a board 9 mm behind the panel.
    """
    limit = survey.limits["board.play.maximum"]
    for board in survey.panel.boards:
        if board.gap is None:
            continue
        for one in needed_on(survey.panel, board):
            off = max(one.low - board.gap, board.gap - one.high)
            if off > limit.value + ROUNDING:
                yield Observation(
                    refs=(one.part.ref,),
                    place=one.part.at,
                    where=board.where,
                    subject=survey.part(one.part.ref),
                    measured=off,
                    limit=limit,
                    bound=Bound.MAXIMUM,
                )


board_gap_differs.cases(
    """
    parts: [{ref: J1, part: jack-35-board, at: [40, 50]}]
    boards: [{parts: [J1], gap: __}]
    """,
    fails="11",
    passes="9",
)


Uncertain = tuple[Needs, Needs, float]
"""A part, the one whose range decides (itself or the tallest), and how far it is off by stated heights, in mm."""


def _uncertain(board: CircuitBoard, parts: Sequence[Needs], play: float) -> Iterator[Uncertain]:
    """The parts of a board that reach it by an end of a range only, and not by the stated heights."""
    tallest = max(parts, key=lambda one: one.value, default=None)
    for one in parts:
        if board.gap is None and tallest is not None:
            off, sure = tallest.value - one.value, max(each.low for each in parts) - one.high
        else:
            aim = one.value if board.gap is None else board.gap
            off, sure = abs(one.value - aim), max(one.low - aim, aim - one.high)
        ranged = next((each for each in (one, tallest) if each is not None and each.low < each.high), None)
        if ranged is not None and sure <= play + ROUNDING < off:
            yield one, ranged, off


@rule(
    Severity.WARNING,
    says="{subject}: {measured} off from its board at {other}; maximum {limit}",
    fix="Measure the part and write its height in `heights` of the board, then choose spacers or `gap` by it.",
    limits=("board.play.maximum",),
)
def board_height_uncertain(survey: Survey) -> Iterator[Observation]:
    """A part reaches its board only if it is one of the higher or lower ones that are sold.

    Its entry states a height and the range met in sources. By the stated height it does not fit, by an end of the range
    it does. The height of the board is its `gap`, or the stated height of its tallest part.

    Source: the part's catalogue entry.
    Fix: measure the part and write `heights`.
    Fails: a potentiometer of 10 mm, met from 9 to 12, on a board 11.5 mm behind the panel.
    Passes: the same on a board 10 mm behind the panel.
    """
    limit = survey.limits["board.play.maximum"]
    for board in survey.panel.boards:
        for one, ranged, off in _uncertain(board, needed_on(survey.panel, board), limit.value):
            yield Observation(
                refs=(one.part.ref,),
                place=one.part.at,
                where=board.where,
                subject=survey.part(one.part.ref),
                other=things.height_of_entry(
                    ref=ranged.part.ref, height=ranged.value, lowest=ranged.low, highest=ranged.high
                ),
                measured=off,
                limit=limit,
                bound=Bound.MAXIMUM,
            )


board_height_uncertain.cases(
    """
    parts: [{ref: RV1, part: pot-9-board, at: [40, 50]}]
    boards: [{parts: [RV1], gap: __}]
    """,
    fails="11.5",
    passes="10",
)


@rule(
    Severity.NOTE,
    says="{subject}: height above its circuit board not known, and not checked",
    fix="Measure from the board to the rear face of the panel, and write `heights: {{REF: mm}}` in the board.",
)
def board_height_unknown(survey: Survey) -> Iterator[Observation]:
    """A part is on a circuit board, and neither its entry nor the spec states its height.

    Whether it reaches the panel together with the others of its board is then not checked.

    Source: the part's catalogue entry; `heights` of the board in the spec.
    Fix: `heights` of the board.
    Fails: an LED on a board, without `heights`.
    Passes: the same with `heights: {D1: 9}`.
    """
    for board in survey.panel.boards:
        for part in unknown_on(survey.panel, board):
            yield Observation(refs=(part.ref,), place=part.at, where=board.where, subject=survey.part(part.ref))


board_height_unknown.cases(
    """
    parts: [{ref: D1, part: led-3-board, at: [40, 50]}]
    boards: [{parts: [D1], heights: __}]
    """,
    fails="{}",
    passes="{D1: 9}",
)


@rule(
    Severity.ERROR,
    says=(
        "{subject} and {other} are at the edge of one board, and their places put its surface {measured} apart; "
        "maximum {limit}"
    ),
    fix="Move {subject} by {measured} at right angles to the board, or turn it as {other} is turned.",
    limits=("board.edge.maximum",),
)
def board_edge_out_of_line(survey: Survey) -> Iterator[Observation]:
    """Two parts at the edge of one circuit board are placed as if its surface were in two planes.

    The board stands at right angles to the panel. From each part its surface lies as far as the axis of the part is
    high above it. A part that is turned otherwise than the first is as far off as its board would lean.

    Source: the parts' catalogue entries; their places and turns in the spec.
    Fix: place the parts at the heights of their axes above one line.
    Fails: two USB C sockets at the edge of one board, the second 1 mm higher than the first.
    Passes: both at one height.
    """
    limit = survey.limits["board.edge.maximum"]
    for board in survey.panel.boards:
        parts = [survey.panel.by_ref[ref] for ref in board.refs if ref in survey.panel.by_ref]
        parts = [part for part in parts if part.component.board is not None and part.component.board.on_edge]
        for part in parts[1:]:
            apart = _apart(part, parts[0])
            if apart > limit.value + ROUNDING:
                yield _of_two(survey, part, parts[0], board.where, apart, limit)


def _of_two(survey: Survey, part: Part, other: Part, where: Where, off: float, limit: Limit) -> Observation:
    """By how many mm two parts of a board do not go together, the one to be changed first."""
    return Observation(
        refs=(part.ref, other.ref),
        place=part.at,
        where=where,
        subject=survey.part(part.ref),
        other=survey.part(other.ref),
        measured=off,
        limit=limit,
        bound=Bound.MAXIMUM,
    )


def _apart(part: Part, first: Part) -> float:
    """How far a part's surface of the board lies out of the plane of another's, in mm."""
    here, there = part.board_origin, first.board_origin
    assert here is not None
    assert there is not None
    upright = Vector(0.0, 1.0).turned(first.turn)
    between = Vector(here.x - there.x, here.y - there.y)
    leaning = abs(math.sin(math.radians(part.turn - first.turn) / 2)) * math.hypot(between.x, between.y)
    return max(abs(between.x * upright.x + between.y * upright.y), leaning)


board_edge_out_of_line.cases(
    """
    parts:
      - {ref: J1, part: usb-c-edge, at: [40, 50]}
      - {ref: J2, part: usb-c-edge, at: [70, __]}
    boards: [{parts: [J1, J2]}]
    """,
    fails="51",
    passes="50",
)


@rule(
    Severity.NOTE,
    says=(
        "{subject} and {other} sit on a circuit board, and the heights that they need differ by {measured}; "
        "maximum {limit} on one board"
    ),
    fix="State in `boards` which parts are on one board. If these two are, raise {subject} on spacers of {measured}.",
    limits=("board.play.maximum",),
)
def board_not_stated(survey: Survey) -> Iterator[Observation]:
    """Parts for a circuit board need different heights, and the spec does not state which of them are on one board.

    Source: the parts' catalogue entries.
    Fix: `boards: [{parts: [...]}]`, one entry a board.
    Fails: a jack that needs 9 mm and an encoder that needs 6 to 7 mm, without `boards`.
    Passes: the same, each on a board of its own.
    """
    limit = survey.limits["board.play.maximum"]
    stated = {ref for board in survey.panel.boards for ref in board.refs}
    loose = [one for part in survey.panel.parts if part.ref not in stated and (one := needed(part)) is not None]
    for one, tallest, short in sorted(_short_of(loose, limit.value), key=lambda found: -found[2])[:1]:
        yield _of_two(survey, one.part, tallest.part, one.part.where, short, limit)


board_not_stated.cases(
    """
    parts:
      - {ref: J1, part: jack-35-board, at: [40, 50]}
      - {ref: RV1, part: encoder-11-board, at: [70, 50]}
    boards: __
    """,
    fails="[]",
    passes="[{parts: [J1]}, {parts: [RV1]}]",
)
