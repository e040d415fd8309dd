"""What stays bare when the panel is coated: bonding pads, areas asked for; and the threads to plug."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.canonical import Struct
from panelart.cutouts.hardware import Fitted, components, fitted, places_of
from panelart.diagnostics import Where
from panelart.geometry import Point, circle
from panelart.messages import cutouts as said
from panelart.model.component import Component
from panelart.model.layout import FACE, PlacedMask
from panelart.model.panel import Panel, Side


class Plugs(Struct, frozen=True, kw_only=True):
    """Threads of one size that are plugged or capped while the panel is coated."""

    thread: str
    refs: tuple[str, ...]


def masks(panel: Panel) -> tuple[PlacedMask, ...]:
    """Every bare area: those asked for, then the pads of earth studs; none where no coat comes."""
    if panel.coat.kind == "none":
        return ()
    asked = [
        PlacedMask(name=f"M{number}", contour=mask.contour, side=mask.side, why=mask.why, where=mask.where)
        for number, mask in enumerate(panel.masks, start=1)
    ]
    return tuple(mask for mask in (*asked, *_pads(panel)) if mask.side is Side.FRONT or panel.coat.rear)


def _pads(panel: Panel) -> Iterator[PlacedMask]:
    """The bare pad behind each part that wants one."""
    for ref, component, at, on, where in _places(panel):
        if component.hardware is not None and component.hardware.pad:
            yield PlacedMask(
                name=ref,
                contour=circle(component.hardware.pad, at),
                side=Side.REAR,
                why=str(said.bare_area(ref=ref, part=component.title)),
                where=where,
                on=on,
            )


def _places(panel: Panel) -> Iterator[tuple[str, Component, Point, str, Where]]:
    """Every part of the face and of the flanges: ref, component, place, what it is on, and where it is written."""
    for part in panel.parts:
        yield part.ref, part.component, part.at, FACE, part.where
    for flange in panel.flanges:
        for on, holes in places_of(flange):
            for hole in holes:
                if hole.component is not None:
                    yield hole.ref, hole.component, hole.at, on, hole.where


def plugs(panel: Panel) -> tuple[Plugs, ...]:
    """Threads that stand in the sheet while it is coated, by size in the order of the parts."""
    if panel.coat.kind == "none":
        return ()
    refs: dict[str, list[str]] = {}
    for ref, component, _ in components(panel):
        hardware = component.hardware
        if hardware is not None and hardware.thread and fitted(component, panel.coat) is Fitted.BEFORE_COAT:
            refs.setdefault(hardware.thread, []).append(ref)
    return tuple(Plugs(thread=thread, refs=tuple(named)) for thread, named in refs.items())
