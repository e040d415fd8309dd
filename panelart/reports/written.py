"""The files of a panel by the station that works from them."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Final, TypeAlias

from panelart.messages import Message
from panelart.messages import reports as said
from panelart.reports.layout import folded

_Station: TypeAlias = tuple[Callable[[], Message], tuple[str, ...]]

_OTHERS: Final[_Station] = (said.other_programs, ("",))

_STATIONS: Final[tuple[_Station, ...]] = (
    (said.printing, ("artwork.", "film-", "plates.")),
    (said.marking, ("engraving.", "laser.")),
    (said.label_film, ("overlay",)),
    (said.cutting, ("cutouts", "blank.")),
    (said.coating, ("mask-",)),
    (said.workshop, ("build-sheet.",)),
    (said.inspection, ("inspection.",)),
    (said.approval, ("proof.", "panel.svg", "panel.png")),
)
"""The stations in the order of the work, and how the names of their files begin; other files are for programs."""


def written_text(names: Iterable[str], width: int) -> str:
    """A line for each station with its files, the last without a line end."""
    left = list(names)
    lines: list[str] = []
    for station, beginnings in (*_STATIONS, _OTHERS):
        files = [name for name in left if name.startswith(beginnings)]
        left = [name for name in left if name not in files]
        if files:
            lines += folded(said.station_line(station(), ", ".join(files)), width)
    return "\n".join(lines)
