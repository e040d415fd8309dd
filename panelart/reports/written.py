"""The files of a panel by the station that works from them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TypeAlias

from panelart.messages import Message
from panelart.messages import reports as said
from panelart.processes.process import BeamLines, CutterPaths, LabelFilm, Positives
from panelart.processes.registry import processes
from panelart.reports.layout import folded

_Station: TypeAlias = tuple[Callable[[], Message], tuple[str, ...]]


def _files(*kinds: type[Positives | CutterPaths | BeamLines | LabelFilm]) -> Iterator[str]:
    """How the names of the files of some kinds of output begin, over all processes."""
    for process in processes().values():
        for output in process.outputs:
            if isinstance(output, kinds):
                yield output.file


def _stations() -> tuple[_Station, ...]:
    """The stations in the order of the work, and how the names of their files begin; other files are for programs."""
    return (
        (said.printing, ("artwork.", *(f"{file}-" for file in _files(Positives)), "plates.")),
        (said.marking, tuple(f"{file}." for file in _files(CutterPaths, BeamLines))),
        (said.label_film, tuple(_files(LabelFilm))),
        (said.cutting, ("cutouts", "blank.")),
        (said.coating, ("mask-",)),
        (said.workshop, ("build-sheet.",)),
        (said.inspection, ("inspection.",)),
        (said.approval, ("proof.", "panel.svg", "panel.png")),
        (said.other_programs, ("",)),
    )


def written_text(names: Iterable[str], width: int) -> str:
    """A line for each station with its files, the last without a line end."""
    left = list(names)
    lines: list[str] = []
    for station, beginnings in _stations():
        files = [name for name in left if name.startswith(beginnings)]
        left = [name for name in left if name not in files]
        if files:
            lines += folded(said.station_line(station(), ", ".join(files)), width)
    return "\n".join(lines)
