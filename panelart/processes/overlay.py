"""Printed overlay: a label film, printed, cut and stuck on the face."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from panelart.messages import Complete, Message, Mm, SizeMm, TwoDecimals, Word, message
from panelart.messages import sheets as common
from panelart.processes import inks
from panelart.processes.process import (
    COUNT,
    LabelFilm,
    Order,
    Process,
    Purchase,
    Work,
    looked_up,
    recalled,
    typical,
)


@message
def clear_film(width: TwoDecimals, height: TwoDecimals) -> None:
    """Label film {width} × {height} mm, clear."""


@message
def coloured_film(width: TwoDecimals, height: TwoDecimals, colour: Word) -> None:
    """Label film {width} × {height} mm, {colour}."""


@message
def print_on_back(inks: Complete) -> None:
    """Print {inks} on the back, mirrored, from overlay.pdf at 1:1."""


@message
def print_on_front(inks: Complete) -> None:
    """Print {inks} on the front from overlay.pdf at 1:1."""


@message
def adhesive(area: TwoDecimals, margin: Mm) -> None:
    """Apply adhesive on {area} cm², {margin} clear of the edge and the windows, none in areas that stay free."""


@message
def kiss_cut() -> None:
    """Kiss-cut overlay-cut.dxf through the label film, not through the liner: windows first, the edge last."""


@message
def stick_on(inset: Mm) -> None:
    """Degrease the panel. Stick the label film on, {inset} inside the panel edge all round."""


@message
def overlay(size: SizeMm) -> None:
    """Overlay, {size}"""


def _steps(work: Work) -> Iterator[Message]:
    film = work.film
    assert film is not None, "a process that gives a label film is told of it"
    if film.colour:
        what = coloured_film(width=film.width, height=film.height, colour=film.colour)
    else:
        what = clear_film(width=film.width, height=film.height)
    printed = (print_on_back if film.reverse else print_on_front)(inks=inks.named(work.inks))
    yield common.paragraph(sentences=(what, printed))
    yield from inks.base_steps(work)
    yield adhesive(area=film.adhesive, margin=film.adhesive_margin)
    yield kiss_cut()
    yield stick_on(inset=film.inset)


def _purchases(order: Order) -> Iterator[Purchase]:
    yield Purchase(title=overlay(size=order.size), note=order.process.title)


PROCESS: Final = Process(
    name="overlay",
    title="Printed overlay",
    cap_height_minimum=typical(2.0, "label printers' artwork pages ask for 4 to 5 pt text"),
    line_minimum=looked_up(
        0.35, "graphic overlay screen printer's artwork page, 0.35 recommended, 0.18 at the very least"
    ),
    gap_minimum=looked_up(
        0.25, "graphic overlay screen printer's artwork page, 0.25 at the least for a line left bare, 0.35 recommended"
    ),
    edge_margin=looked_up(
        1.3, "graphic overlay screen printer's artwork page, 1.3 recommended for a border at the edge"
    ),
    opening_margin=recalled(0.5, "trade habit"),
    register=recalled(0.5, "trade habit for an overlay stuck on by hand"),
    own={
        "inks_maximum": recalled(6.0, "trade habit, each ink is a screen, a run and a drying", unit=COUNT),
        "base_choke": typical(0.1, "a UV printer's help page, 0.2 by default in steps of 0.1; by habit 0.1 to 0.3"),
        "base_line_minimum": recalled(0.2, "trade habit, the narrowest line of white that covers"),
        "trap": looked_up(0.2, "printers' artwork pages, 0.11 at the least, 0.15 to 0.3 asked for"),
        "ink_register": recalled(0.2, "trade habit, each colour with a screen of its own"),
        "bleed": typical(2.0, "printers' artwork pages, 1.6 to 5; flat bed printers by habit 1 to 2"),
        "thread_margin": recalled(1.0, "trade habit, ink in a thread makes it bind"),
        "mask_margin": recalled(0.5, "trade habit, ink beside a bare pad must not creep onto it"),
        "overlay_inset": recalled(0.5, "trade habit, an edge that lies inside the panel's does not catch"),
        "overlay_corner": recalled(2.0, "trade habit, 1 to 3, never sharp"),
        "nut_margin": recalled(0.5, "trade habit, a nut that turns on film tears it"),
        "window_margin": recalled(0.25, "trade habit, 0.5 on the diameter for both tolerances"),
        "adhesive_margin": recalled(0.5, "trade habit, 0.5 to 1; adhesive at an edge gathers dirt"),
        "bridge_minimum": recalled(2.0, "trade habit, narrower film stretches as it is laid"),
    },
    bleeds=True,
    press_colours=True,
    outputs=(LabelFilm(file="overlay"),),
    steps=_steps,
    purchases=_purchases,
)
