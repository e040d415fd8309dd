"""Who works at the panel: where the eye is, and the hand."""

from __future__ import annotations

from typing import Any

from panelart.messages import spec as said
from panelart.model.panel import EYES_APART, EyeRange, Hand, Operator, Sight
from panelart.source.nouns import Noun
from panelart.source.problems import Problems
from panelart.source.schema import Field
from panelart.spec import language


def operator(fields: language.Operator | None, viewing_distance: float, problems: Problems) -> Operator:
    """The operator as far as the spec tells; `viewing_distance` in mm holds where the eye has no distance."""
    if fields is None:
        return Operator()
    eye, hand, sight = fields.eye, fields.hand, fields.sight
    return Operator(
        eye=None if eye is None else _eye(eye, viewing_distance, problems),
        hand=None if hand is None else Hand(hand),
        sight=Sight() if sight is None else Sight(acuity=sight.acuity, age=sight.age, illuminance=sight.illuminance),
    )


def _eye(fields: language.Eye, viewing_distance: float, problems: Problems) -> EyeRange:
    seen = EyeRange(
        distance=fields.distance or viewing_distance,
        height=_range(fields, language.Eye.height, problems),
        aside=_range(fields, language.Eye.aside, problems),
        lean_deg=fields.lean or 0.0,
        apart=EYES_APART if fields.apart is None else fields.apart,
        where=fields.begins,
    )
    behind = next((height for height in seen.height if seen.off_the_face(height) <= 0.0), None)
    if behind is not None:
        problems.add(fields.begins, said.eye_behind_face(behind, seen.lean_deg), said.eye_in_front())
    return seen


def _range(fields: Noun, field: Field[Any], problems: Problems) -> tuple[float, float]:
    written = fields[field]
    if not isinstance(written, tuple):
        return (written or 0.0, written or 0.0)
    low, high = written
    if low > high:
        problems.add(fields.where(field), said.range_reversed(low, high), said.smaller_first())
    return (min(low, high), max(low, high))
