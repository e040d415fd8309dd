"""The part whose positions, scale and knob are read."""

from __future__ import annotations

from collections.abc import Mapping

from panelart.canonical import Struct
from panelart.messages import Said
from panelart.model.component import Component


class Control(Struct, frozen=True, kw_only=True):
    """The part that is looked at: what it is, how it is turned, and what its braces stand for."""

    ref: Said
    component: Component
    turn: float
    numbers: Mapping[str, str]
