"""Which figures a motion of each kind can have, and which contradict each other."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue import table
from panelart.messages import Message
from panelart.messages import catalogue as of_parts
from panelart.messages import catalogue_motions as said
from panelart.model.motion import FULL_TURN, Motion, MotionKind, Stops

_TURNING: Final = (MotionKind.TURN, MotionKind.WHEEL)
_ROUND: Final = (*_TURNING, MotionKind.TILT)
_SWUNG: Final = (MotionKind.LEVER, MotionKind.ROCKER, MotionKind.TILT)

KINDS_WITH: Final[Mapping[str, tuple[MotionKind, ...]]] = {
    table.WAYS.name: _ROUND,
    table.PHASE.name: _ROUND,
    table.TAB.name: _ROUND,
    table.ROTATION.name: _TURNING,
    table.ELECTRICAL.name: _TURNING,
    table.TAPERS.name: _TURNING,
    table.TURNS.name: _TURNING,
    table.DETENTS.name: _TURNING,
    table.THROW.name: _SWUNG,
}
"""The kinds of motion that have a figure, by its key: those that turn, or that swing. What is not here any kind has."""

_LEAST_SHARE: Final = 0.5
"""A control of ten turns may be stopped so much of a turn early; common practice."""


class Contradiction(Struct, frozen=True, kw_only=True):
    """A figure that the rest of its motion rules out, by its key: what is wrong, and what is accepted."""

    key: str
    says: Message
    accepts: Message


def contradictions(motion: Motion) -> Iterator[Contradiction]:
    """Every figure of a motion that its kind cannot have, or that another one rules out."""
    for key, kinds in KINDS_WITH.items():
        if getattr(motion, key) not in (None, ()) and motion.kind not in kinds:
            told = said.not_of_this_kind(key, motion.kind.value)
            yield Contradiction(key=key, says=told, accepts=said.applies_to([kind.value for kind in kinds]))
    yield from _of_rotation(motion)
    yield from _of_phase(motion)
    detents = motion.detents
    if detents is not None and not detents.value.is_integer():
        below = math.floor(detents.value) or 1
        hint = said.whole_detents(below, below + 1)
        yield Contradiction(key=table.DETENTS.name, says=said.detents_not_whole(detents.value), accepts=hint)


def _of_phase(motion: Motion) -> Iterator[Contradiction]:
    """What is wrong with what keeps the body from turning."""
    hint = of_parts.accepted_angle(-FULL_TURN, FULL_TURN)
    if motion.phase is not None and abs(motion.phase) > FULL_TURN:
        yield Contradiction(key=table.PHASE.name, says=said.phase_is(motion.phase), accepts=hint)
    if motion.tab is not None and abs(motion.tab) > FULL_TURN:
        yield Contradiction(key=table.TAB.name, says=said.tab_is(motion.tab), accepts=hint)
    if motion.phase is not None and motion.tab is not None:
        yield Contradiction(key=table.TAB.name, says=said.phase_and_tab(), accepts=said.phase_or_tab())


def _of_rotation(motion: Motion) -> Iterator[Contradiction]:
    """What the angle from stop to stop rules out."""
    if motion.rotation is None:
        return
    whole = motion.rotation.value
    if motion.stops is Stops.NONE:
        told = said.endless_with_rotation(whole)
        yield Contradiction(key=table.ROTATION.name, says=told, accepts=said.leave_out_rotation())
    if motion.electrical is not None and motion.electrical.value > whole:
        told = said.electrical_beyond_rotation(motion.electrical.value, whole)
        yield Contradiction(key=table.ELECTRICAL.name, says=told, accepts=said.correct_rotation())
    for law, angle in motion.tapers:
        if angle.value > whole:
            told = said.taper_beyond_rotation(law, angle.value, whole)
            yield Contradiction(key=table.TAPERS.name, says=told, accepts=said.correct_rotation())
    if motion.turns is not None:
        least = FULL_TURN * (motion.turns.value - _LEAST_SHARE)
        if whole < least:
            told = said.turns_beyond_rotation(motion.turns.value, whole)
            yield Contradiction(key=table.TURNS.name, says=told, accepts=said.rotation_of_turns(least))
