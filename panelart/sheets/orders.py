"""What a marking process is told of a panel before it is laid out."""

from __future__ import annotations

from typing import Any

from panelart.model.light import lightness
from panelart.model.panel import Panel
from panelart.processes.process import InkUsed, Order


def order_of(panel: Panel) -> Order:
    """What is known of a panel before it is laid out."""
    return Order(**order_facts(panel))


def order_facts(panel: Panel) -> dict[str, Any]:
    """The fields of an order; those of work begin with them."""
    marking = panel.marking
    printing, light = marking.printing, marking.process.base.ink
    return {
        "process": marking.process,
        "size": panel.size,
        "inks": tuple(
            InkUsed(name=ink.name, colour=ink.colour, light=lightness(ink.colour) >= light) for ink in marking.inks
        ),
        "base": "" if printing.base is None else printing.plates.base,
        "varnish": "" if printing.varnish is None else printing.plates.varnish,
        "coat": panel.coat.kind,
    }
