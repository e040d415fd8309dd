"""What a part takes on the panel, its legends included, and what it is to the operator."""

from __future__ import annotations

from enum import IntEnum
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue.library import file_of
from panelart.geometry import Box
from panelart.model.circuit import CircuitKind
from panelart.model.component import Component, EnvelopeRole
from panelart.model.motion import MotionKind

MARGIN: Final = 6.0
"""Least white from what parts and legends take to the edge of the face, mm. Common practice."""


class Level(IntEnum):
    """Where a part belongs in a group, from top to bottom: seen, worked, plugged in."""

    DISPLAY = 0
    CONTROL = 1
    CONNECTOR = 2


class Fixing(IntEnum):
    """Parts that hold the panel or stand by a standard, which are not arranged among the others."""

    NONE = 0
    CORNER = 1  # screws, nuts, studs: to the corners
    SIDE = 2  # handles, locks: to the sides
    STANDARD = 3  # patterns of racks, about the middle of the panel


_DISPLAYS: Final = frozenset({"indicators.yaml", "displays.yaml", "meters.yaml"})
_CONTROLS: Final = frozenset(
    {"toggles.yaml", "rockers.yaml", "faders.yaml", "pushbuttons.yaml", "bushings.yaml", "caps.yaml"}
)
_MAINS: Final = frozenset({"mains.yaml", "fuses.yaml"})
_DANGEROUS: Final = (CircuitKind.MAINS, CircuitKind.PROTECTIVE_EARTH)
_AIR: Final = "air.yaml"
_LAMPS: Final = "indicators.yaml"
_CORNERS: Final = ("screw", "press-", "weld-stud", "rivet-nut", "blind-rivet")


class Block(Struct, frozen=True, kw_only=True):
    """One part, or several that stand at fixed distances from the first: boxes in mm about the first one's centre.

    `face` is what is taken in front, legends and scales included; `front` adds plugs and travel, `rear` what is behind;
    `body` is what is taken in front without legends, None where that is `face`. `hands` are the boxes that a hand takes
    hold of, with the kind of control; `pitches` those that keep the minimum pitch where they do not overlap.
    """

    refs: tuple[str, ...]
    kind: str
    level: Level
    face: Box
    front: Box
    rear: Box | None
    hands: tuple[tuple[Box, str], ...]
    pitches: tuple[Box, ...]
    mains: bool = False
    emergency: bool = False
    air: bool = False
    lamp: bool = False
    fixing: Fixing = Fixing.NONE
    body: Box | None = None

    @property
    def ref(self) -> str:
        """The part that the block is placed by."""
        return self.refs[0]

    @property
    def all_round(self) -> Box:
        """All that keeps the margin from the edge; plugs, wires, levers and hands may reach into the margin itself."""
        box = self.face if self.rear is None else self.face.union(self.rear)
        return Box(
            min(box.left, self.front.left + MARGIN),
            min(box.bottom, self.front.bottom + MARGIN),
            max(box.right, self.front.right - MARGIN),
            max(box.top, self.front.top - MARGIN),
        )


def file_name(component: Component) -> str:
    """The catalogue file that a part stands in; '' for a designer's own."""
    try:
        return file_of(component.name)
    except KeyError:
        return ""


def level_of(component: Component) -> Level:
    """Where a part belongs in a group."""
    file = file_name(component)
    if file in _DISPLAYS or component.family.startswith("pilot") or file == _AIR:
        return Level.DISPLAY
    if file in _CONTROLS or (not file and component.motion.kind is not MotionKind.NONE):
        return Level.CONTROL
    if file or any(envelope.role is EnvelopeRole.PLUG for envelope in component.front):
        return Level.CONNECTOR
    return Level.DISPLAY


def is_mains(component: Component) -> bool:
    """Whether a part carries mains or protects who touches it."""
    dangerous = {"mains-inlet", "mains", "fuse", "protective-earth"} & set(component.cautions)
    circuit = component.circuit
    carries = circuit is not None and circuit.kind in _DANGEROUS
    return file_name(component) in _MAINS or carries or bool(dangerous)


def is_lamp(component: Component) -> bool:
    """Whether a part is a lamp: it stands among displays, or beside what it tells of."""
    return file_name(component) == _LAMPS or component.family.startswith("pilot")


def is_air(component: Component) -> bool:
    """Whether a part moves air."""
    return file_name(component) == _AIR


def fixing_of(component: Component) -> Fixing:
    """How a part is placed that is not arranged among the others."""
    file = file_name(component)
    if file == "rack.yaml":
        return Fixing.STANDARD
    if component.family.startswith(("handle", "cam-lock")):
        return Fixing.SIDE
    if file in ("screws.yaml", "hardware.yaml") and component.name.startswith(_CORNERS):
        return Fixing.CORNER
    return Fixing.NONE
