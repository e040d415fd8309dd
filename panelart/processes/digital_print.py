"""Digital print: a flat bed printer lays all inks in one pass, from the artwork itself."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from panelart.messages import Complete, Message, message
from panelart.processes import inks
from panelart.processes.process import COUNT, PrintFile, Process, Work, looked_up, recalled, typical


@message
def print_artwork(inks: Complete) -> None:
    """Print {inks} from artwork.pdf at 1:1, seen from the front."""


def _steps(work: Work) -> Iterator[Message]:
    yield print_artwork(inks=inks.named(work.inks))
    yield from inks.base_steps(work)


PROCESS: Final = Process(
    name="digital-print",
    title="Digital print",
    cap_height_minimum=typical(
        2.0, "label printers' artwork pages ask for 4 to 5 pt text, a wide format printer for letters of 3 mm"
    ),
    line_minimum=looked_up(
        0.25, "label printers' artwork pages, 0.18 to 0.25; flat bed printers by habit 0.15 to 0.25"
    ),
    gap_minimum=looked_up(
        0.26, "label printers' artwork pages, 0.26 and 0.35 for a line left bare; flat bed printers by habit 0.3"
    ),
    edge_margin=typical(2.0, "printers' artwork pages, 1.5 to 5 inside the trim"),
    opening_margin=recalled(0.5, "trade habit for ink beside cut edges"),
    register=recalled(0.3, "trade habit for print to part in a plain jig"),
    own={
        "inks_maximum": recalled(16.0, "trade habit, spot colours are mixed from the press's own", unit=COUNT),
        "base_choke": typical(0.1, "a UV printer's help page, 0.2 by default in steps of 0.1; by habit 0.1 to 0.3"),
        "base_line_minimum": recalled(0.1, "trade habit, the narrowest line of white that covers"),
        "trap": recalled(0.1, "trade habit, all colours in one pass of a flat bed printer"),
        "ink_register": recalled(0.1, "trade habit, all colours in one pass of a flat bed printer"),
        "bleed": typical(2.0, "printers' artwork pages, 1.6 to 5; flat bed printers by habit 1 to 2"),
        "thread_margin": recalled(1.0, "trade habit, ink in a thread makes it bind"),
        "mask_margin": recalled(0.5, "trade habit, ink beside a bare pad must not creep onto it"),
    },
    bleeds=True,
    press_colours=True,
    outputs=(PrintFile(),),
    steps=_steps,
)
