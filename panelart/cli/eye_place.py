"""Where the eyes are: options that several commands have, over what the spec says."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Annotated, Final, TypeAlias

from panelart.cli.declaring import option
from panelart.cli.usage import refuse
from panelart.cli.values import text
from panelart.messages import cli as said
from panelart.messages import cli_help_panel as help_

if TYPE_CHECKING:
    from panelart.model.panel import EyeRange, Panel

MAX_APART: Final = 100.0
"""Millimetres between two eyes, as for `operator.eye.apart`."""

Height: TypeAlias = Annotated[str, option("--height", help_.eye_height(), text("MM|LOW..HIGH"))]
Aside: TypeAlias = Annotated[str, option("--aside", help_.eye_aside(), text("MM|LEFT..RIGHT"))]
Distance: TypeAlias = Annotated[str, option("--distance", help_.eye_distance(), text("MM"))]
Lean: TypeAlias = Annotated[str, option("--lean", help_.lean(), text("DEGREES"))]
Apart: TypeAlias = Annotated[str, option("--apart", help_.eyes_apart(), text("MM"))]


def eye_range(panel: Panel, *, height: str, aside: str, distance: str, lean: str, apart: str) -> EyeRange:
    """Where the eyes are by the options, by the spec where an option is '', else straight in front.

    Raises Refused for what is no number or range and for eyes that are not in front of the face.
    """
    from panelart.model.panel import EYES_APART, EyeRange

    usual = panel.operator.eye or EyeRange(
        distance=panel.marking.viewing_distance,
        height=(0.0, 0.0),
        aside=(0.0, 0.0),
        lean_deg=0.0,
        where=panel.where,
        apart=EYES_APART,
    )
    seen = EyeRange(
        distance=_range(distance, "--distance")[0] if distance else usual.distance,
        height=_range(height, "--height") if height else usual.height,
        aside=_range(aside, "--aside") if aside else usual.aside,
        lean_deg=_range(lean, "--lean")[0] if lean else usual.lean_deg,
        where=usual.where,
        apart=_apart(apart) if apart else usual.apart,
    )
    if seen.distance <= 0 or not -90 <= seen.lean_deg <= 90 or min(map(seen.off_the_face, seen.height)) <= 0:
        refuse("--distance", said.eye_behind_face())
    return seen


def _apart(text: str) -> float:
    low, high = _range(text, "--apart")
    if low != high or not 0.0 <= low <= MAX_APART:
        refuse("--apart", said.eyes_too_far_apart(text), said.accepted_apart())
    return low


def _range(text: str, name: str) -> tuple[float, float]:
    low, _, high = text.partition("..")
    try:
        ends = (float(low), float(high or low))
    except ValueError:
        ends = (math.nan, math.nan)
    if not (all(map(math.isfinite, ends)) and ends[0] <= ends[1]):
        refuse(name, said.not_a_range(text), said.accepted_range())
    return ends
