"""When hardware goes into the sheet: before the coat or after it, by the kind of both."""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum

from panelart.geometry import Point
from panelart.model.component import Component, Fastening
from panelart.model.layout import FACE
from panelart.model.metal import Edge, Flange, FlangeHole
from panelart.model.panel import Coat, Panel


class Fitted(Enum):
    """When a part is fastened."""

    BEFORE_COAT = "before-coat"
    AFTER_COAT = "after-coat"
    ASSEMBLY = "assembly"


BATH_COATS = frozenset({"anodise", "zinc", "conversion"})
"""Coats made in a bath that attacks or is spoilt by steel hardware in aluminium; it goes in afterwards."""


def fitted(component: Component, coat: Coat) -> Fitted:
    """When a part is fastened into this panel.

    Self-clinching hardware goes in after a bath (a fastener maker's list of dos and don'ts: steel or stainless
    fasteners go into anodised aluminium after the finish) and before powder or paint, its threads plugged, since it is
    not pressed onto a painted face (the same list; that order for powder is common practice). Welding burns any coat,
    so studs are welded before it. Rivets are set and screws fitted afterwards.
    """
    hardware = component.hardware
    if hardware is None:
        return Fitted.ASSEMBLY
    match hardware.fastening:
        case Fastening.WELDED:
            return Fitted.BEFORE_COAT
        case Fastening.PRESSED:
            return Fitted.AFTER_COAT if coat.kind in BATH_COATS else Fitted.BEFORE_COAT
        case Fastening.RIVETED:
            return Fitted.AFTER_COAT
        case Fastening.SCREWED:
            return Fitted.ASSEMBLY


def filled(component: Component | None) -> bool:
    """Whether hardware sits in the opening for good once the panel is made, so that the hole is not seen again."""
    hardware = None if component is None else component.hardware
    return hardware is not None and hardware.fastening in (Fastening.PRESSED, Fastening.RIVETED)


def components(panel: Panel) -> Iterator[tuple[str, Component, str]]:
    """Every part of the panel, those in flanges too: ref, what it is, and where it stands."""
    yield from ((part.ref, part.component, FACE) for part in panel.parts)
    for flange in panel.flanges:
        for on, holes in places_of(flange):
            yield from ((hole.ref, hole.component, on) for hole in holes if hole.component is not None)


def from_datum(panel: Panel, on: str, at: Point) -> Point:
    """A place as it is measured: from the datum; in a flange along it from the datum, and back from its bend."""
    if on == FACE:
        return Point(at.x - panel.datum.x, at.y - panel.datum.y)
    level = Edge(on.split(maxsplit=1)[0]) in (Edge.TOP, Edge.BOTTOM)
    return Point(at.x - (panel.datum.x if level else panel.datum.y), at.y)


def places_of(flange: Flange) -> tuple[tuple[str, tuple[FlangeHole, ...]], ...]:
    """The flange and its return, each by its name, with the holes that are asked for in it."""
    edge = flange.edge.value
    return ((edge, flange.holes), *(() if flange.second is None else ((f"{edge} return", flange.second.holes),)))
