"""Screen print: a screen an ink, exposed with a film positive each."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from panelart.messages import Complete, Message, Word, message
from panelart.messages import sheets as common
from panelart.processes import inks
from panelart.processes.process import (
    COUNT,
    Emulsion,
    Order,
    Positives,
    Process,
    Purchase,
    Work,
    looked_up,
    recalled,
    typical,
)


@message
def print_in_order(inks: Complete) -> None:
    """Print in the order of the film positives: {inks}."""


@message
def screen(ink: Word) -> None:
    """Screen, ink {ink}"""


@message
def screen_beside_inks(plate: Word) -> None:
    """Screen, {plate}"""


def _steps(work: Work) -> Iterator[Message]:
    yield common.paragraph(sentences=(inks.positives(work.emulsion), inks.register_marks()))
    order = [print_in_order(inks=inks.named(work.inks))]
    if work.trap and len(work.plates) > 1:
        order.append(inks.trap(trap=work.trap))
    yield common.paragraph(sentences=order)
    yield from inks.base_steps(work)


def _purchases(order: Order) -> Iterator[Purchase]:
    screens = [screen_beside_inks(plate=order.base)] if order.base else []
    screens += [screen(ink=ink.name) for ink in order.inks]
    screens += [screen_beside_inks(plate=order.varnish)] if order.varnish else []
    for title in screens:
        yield Purchase(title=title, note=inks.one_for_all(), for_all=True)


PROCESS: Final = Process(
    name="screen-print",
    title="Screen print",
    cap_height_minimum=typical(2.0, "label printers' artwork pages ask for 4 to 5 pt text"),
    line_minimum=looked_up(
        0.35, "graphic overlay screen printer's artwork page, 0.35 recommended, 0.18 at the very least"
    ),
    gap_minimum=looked_up(
        0.25, "graphic overlay screen printer's artwork page, 0.25 at the least for a line left bare, 0.35 recommended"
    ),
    edge_margin=typical(2.0, "printers' artwork pages, 1.5 to 5 inside the trim"),
    opening_margin=recalled(0.5, "trade habit for ink beside cut edges"),
    register=recalled(0.3, "trade habit for print to part in a plain jig"),
    own={
        "inks_maximum": recalled(4.0, "trade habit, each ink is a screen, a run and a drying", unit=COUNT),
        "base_choke": typical(0.1, "a UV printer's help page, 0.2 by default in steps of 0.1; by habit 0.1 to 0.3"),
        "base_line_minimum": recalled(0.2, "trade habit, the narrowest line of white that covers"),
        "trap": looked_up(0.2, "printers' artwork pages, 0.11 at the least, 0.15 to 0.3 asked for"),
        "ink_register": recalled(0.2, "trade habit, each colour with a screen of its own"),
        "bleed": typical(2.0, "printers' artwork pages, 1.6 to 5; flat bed printers by habit 1 to 2"),
        "thread_margin": recalled(1.0, "trade habit, ink in a thread makes it bind"),
        "mask_margin": recalled(0.5, "trade habit, ink beside a bare pad must not creep onto it"),
    },
    outputs=(Positives(emulsion=Emulsion.UP),),
    steps=_steps,
    purchases=_purchases,
)
