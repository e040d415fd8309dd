"""Laser marking: a beam turns, removes or burns the surface, line by line or dot by dot."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from panelart.messages import Count, Message, Mm, TwoDecimals, counted, message
from panelart.messages import sheets as common
from panelart.processes.process import COUNT, BeamLines, Process, Work, recalled


@message
def burn_dots(resolution: Count) -> None:
    """Mark laser.png dot by dot at {resolution} dots per inch. The edge of the image is the edge of the face."""


@counted("Mark laser.dxf in its order: beam {beam}, line spacing {spacing}, {count} lines.")
def burn_lines(beam: Mm, spacing: Mm, count: Count) -> None:
    """Mark laser.dxf in its order: beam {beam}, line spacing {spacing}, {count} line."""


@message
def burn_lengths(length: TwoDecimals, travel: TwoDecimals) -> None:
    """Lines {length} m, travel between them {travel} m."""


def _steps(work: Work) -> Iterator[Message]:
    burning = work.burning
    assert burning is not None, "a process that gives lines for a beam is told what it does"
    if burning.raster:
        yield burn_dots(resolution=round(25.4 / burning.spacing))
        return
    lines = burn_lines(beam=burning.beam, spacing=burning.spacing, count=burning.count)
    lengths = burn_lengths(length=burning.length, travel=burning.travel)
    yield common.paragraph(sentences=(lines, lengths))


PROCESS: Final = Process(
    name="laser-marking",
    title="Laser marking",
    cap_height_minimum=recalled(1.5, "trade habit"),
    line_minimum=recalled(0.1, "trade habit"),
    gap_minimum=recalled(0.1, "trade habit"),
    edge_margin=recalled(1.0, "trade habit"),
    opening_margin=recalled(0.3, "trade habit"),
    register=recalled(0.2, "trade habit"),
    own={
        "inks_maximum": recalled(1.0, "a beam has no colours", unit=COUNT),
        "spacing": recalled(0.05, "trade habit, lines that just meet"),
        "beam": recalled(0.05, "trade habit for a marking laser"),
    },
    lays_ink=False,
    outputs=(BeamLines(file="laser"),),
    steps=_steps,
)
