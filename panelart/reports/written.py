"""The files of a panel by the station that works from them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from panelart.messages import Message
from panelart.messages import reports as said
from panelart.reports.layout import folded


def written_text(stations: Iterable[tuple[Message, Sequence[str]]], width: int) -> str:
    """A line for each station with its files, the last without a line end."""
    lines: list[str] = []
    for station, files in stations:
        lines += folded(said.station_line(station, ", ".join(files)), width)
    return "\n".join(lines)
