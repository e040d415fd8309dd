"""Nuts, studs and rivets are pressed and set: before bending, before the coat or after it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from panelart.catalogue import caution
from panelart.cutouts.describe import size_of
from panelart.cutouts.hardware import Fitted, components, fitted
from panelart.cutouts.pressing import pressed_before_bending
from panelart.messages import Message
from panelart.messages import sheets as common
from panelart.messages import sheets_stations as said
from panelart.model.component import Component, Fastening
from panelart.model.layout import Layout
from panelart.model.panel import Panel
from panelart.sheets.listing import Listing
from panelart.sheets.stations.figures import (
    figure_column,
    listed,
    text_column,
)
from panelart.sheets.stations.station import Section, Station, View


def _pressed_or_riveted(panel: Panel, when: Fitted) -> Iterator[tuple[str, Component, str]]:
    """What is pressed or riveted in at one stage: ref, component, and the surface that it is on."""
    for ref, component, on in components(panel):
        hardware = component.hardware
        if hardware is None or hardware.fastening not in (Fastening.PRESSED, Fastening.RIVETED):
            continue
        if fitted(component, panel.coat) is when:
            yield ref, component, on


def _found(layout: Layout, when: Fitted, *, flat: bool) -> list[tuple[str, Component, str]]:
    """What is pressed or riveted in at one stage; `flat` before bending, since the press does not reach it later."""
    early = pressed_before_bending(layout)
    return [each for each in _pressed_or_riveted(layout.panel, when) if (each[0] in early) is flat]


def _hardware(layout: Layout, when: Fitted, *, flat: bool) -> Section:
    found = _found(layout, when, flat=flat)
    fastenings = {component.hardware.fastening for _, component, _ in found if component.hardware}
    pressed = Fastening.PRESSED in fastenings
    late = when is Fitted.AFTER_COAT and layout.panel.coat.kind != "none"
    steps = [said.check_undeburred(), said.press_flush()] if pressed else []
    if Fastening.RIVETED in fastenings:
        steps.append(said.set_until_break())
    if late:
        steps.append(said.protect_from_anvil())
    return Section(
        name=_hardware_name(pressed=pressed, late=late, flat=flat),
        steps=tuple(steps),
        listings=(
            Listing(
                title=said.hardware(),
                columns=(
                    figure_column(common.column_quantity(), 20),
                    text_column(common.column_description(), 90),
                    text_column(common.column_surface(), 24),
                    text_column(said.column_hole_size(), 26),
                    text_column(common.column_refs(), 90),
                ),
                rows=tuple(_hardware_rows(found)),
                remark=said.pressed_from_rear(),
            ),
        ),
        cautions=(caution("pressed-in"),) if pressed else (),
        views=_where(found),
        marked=frozenset(ref for ref, _, _ in found),
    )


def _hardware_rows(found: Sequence[tuple[str, Component, str]]) -> Iterator[tuple[str, ...]]:
    """How many of each kind go into each surface, the hole they want, and their refs."""
    refs: dict[tuple[str, str], list[str]] = {}
    holes: dict[str, str] = {}
    for ref, component, on in found:
        refs.setdefault((component.title, on), []).append(ref)
        if component.openings:
            holes[component.title] = str(size_of(component.openings[0].contour))
    for (title, on), named in refs.items():
        yield str(len(named)), title, on, holes.get(title, "–"), listed(named)


def _hardware_name(*, pressed: bool, late: bool, flat: bool) -> Message:
    if not pressed:
        return said.set_rivets_after_coat() if late else said.set_rivets()
    if flat:  # only what is pressed goes in before bending
        return said.press_in_before_bending()
    return said.press_in_after_coat() if late else said.press_in()


def _where(found: Sequence[tuple[str, Component, str]]) -> tuple[View, ...]:
    """The face from behind, and the bent panel where hardware goes into flanges."""
    places = {on for _, _, on in found}
    return (*((View.BEHIND,) if "face" in places else ()), *((View.BENT,) if places - {"face"} else ()))


def _station(key: str, when: Fitted, *, flat: bool = False) -> Station:
    return Station(
        key=key,
        there=lambda given: bool(_found(given.layout, when, flat=flat)),
        told=lambda given: _hardware(given.layout, when, flat=flat),
    )


PRESS_FLAT = _station("press-flat", Fitted.BEFORE_COAT, flat=True)
PRESS = _station("press", Fitted.BEFORE_COAT)
PRESS_COATED = _station("press-coated", Fitted.AFTER_COAT)
