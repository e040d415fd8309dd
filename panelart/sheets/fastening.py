"""What holds the parts of a panel: nuts, washers and screws counted over all parts, and what the parts weigh."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.catalogue.facts import fastener_named, torque_said
from panelart.cutouts.describe import size_of
from panelart.messages import Message, Said
from panelart.messages import sheets_lists as said
from panelart.model.component import Component, Role
from panelart.model.fasteners import Fastener

UNITS_OF_MASS: Final = 1000.0
"""Grams from which a mass is told in kilograms."""


class Counted(Struct, frozen=True, kw_only=True):
    """Fasteners that are alike: how many on one panel, and of which parts.

    `goes_on` is the thread that a washer or ring without a thread of its own goes on, '' where that is not known;
    `hole` the diameter in mm of the hole that a screw of unknown thread goes through, 0 where that is not known.
    """

    fastener: Fastener
    quantity: int
    refs: tuple[str, ...]
    goes_on: str = ""
    hole: float = 0.0

    @property
    def named(self) -> Said:
        """What it is, with its thread."""
        if self.goes_on:
            return said.fastener_for(what=self.fastener.what, thread=self.goes_on)
        if self.hole:
            return said.fastener_through(what=self.fastener.what, diameter=self.hole)
        return fastener_named(self.fastener)

    @property
    def across(self) -> str:
        """The spanner in mm, '' where it is not known or none is used."""
        return "" if self.fastener.across is None else f"{self.fastener.across.value:g}"

    @property
    def torque(self) -> Said:
        """The torque, '' where it is not known."""
        return torque_said(self.fastener) or ""

    @property
    def side(self) -> Message:
        """The side that it is tightened from."""
        return said.at_rear() if self.fastener.from_rear else said.at_front()

    @property
    def supply(self) -> Message:
        """Whether it comes with the part."""
        return said.with_part() if self.fastener.supplied else said.to_buy()


def counted(fitted: Iterable[tuple[str, Component]]) -> tuple[Counted, ...]:
    """The fasteners of parts, those that are bought and tightened alike in one; as they are first met.

    Of two that differ in where their figures are from the first stands for both.
    """
    found: dict[tuple[object, ...], Counted] = {}
    for ref, component in fitted:
        thread = next((one.thread for one in component.fasteners if one.thread), "")
        for one in component.fasteners:
            goes_on = "" if one.thread else thread
            hole = 0.0 if one.thread or goes_on or one.supplied else _hole(component)
            # What has no thread and goes on none is alike in parts of one name only: clamps, ring nuts.
            key = _key(one), goes_on, "" if one.thread or goes_on else component.name
            before = found.get(key, Counted(fastener=one, quantity=0, refs=(), goes_on=goes_on, hole=hole))
            found[key] = replace(
                before, quantity=before.quantity + one.count, refs=tuple(dict.fromkeys((*before.refs, ref)))
            )
    return tuple(found.values())


def _hole(component: Component) -> float:
    """The width of the holes that fix a part, 0 where it has none."""
    widths = [size_of(one.contour).width for one in component.openings if one.role is Role.FIXING]
    return round(min(widths, default=0.0), 6)


def _key(one: Fastener) -> tuple[object, ...]:
    torque = None if one.torque is None else tuple(figure.value for figure in one.torque)
    across = None if one.across is None else one.across.value
    return one.what, one.thread, across, torque, one.from_rear, one.supplied


def mass_told(fitted: Iterable[tuple[str, Component]]) -> Message | None:
    """What all parts weigh, or what those with a known mass weigh and which have none; None where none is known."""
    parts = [component for _, component in fitted]
    known = [one.mass.value for one in parts if one.mass is not None]
    if not known:
        return None
    total = math.fsum(known)
    written = said.kilograms(total / UNITS_OF_MASS) if total >= UNITS_OF_MASS else said.grams(total)
    unknown = tuple(dict.fromkeys(one.name for one in parts if one.mass is None))
    return said.mass_without(mass=written, parts=unknown) if unknown else said.mass_of_parts(mass=written)
