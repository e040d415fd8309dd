"""The marking processes and their limits, read from processes.yaml."""

from __future__ import annotations

import functools
from pathlib import Path
from typing import Final

from panelart.model.component import Figure, Known
from panelart.model.panel import Process
from panelart.source import yaml
from panelart.source.problems import Problems
from panelart.source.schema import Choice, Field, Fields, Length, ListOf, MapOf, Record, Text, read

_FILE: Final = "processes.yaml"

VALUE = Field("value", Length(minimum=0), required=True, doc="Value of the limit.")
SOURCE = Field("source", Text(), required=True, doc="Source of the limit.")
KNOWN = Field(
    "known", Choice(("looked-up", "typical", "memory"), "standings"), required=True, doc="Standing of the figure."
)
LIMIT_RECORD = Record("limit", (VALUE, SOURCE, KNOWN))
NAME = Field("name", Text(), required=True, doc="Name in the spec.")
TITLE = Field("title", Text(), required=True, doc="Name in documents.")
LIMIT_FIELDS: Final = {
    "cap_height_minimum": Field("cap_height_minimum", LIMIT_RECORD, required=True, doc="Minimum cap height."),
    "line_minimum": Field("line_minimum", LIMIT_RECORD, required=True, doc="Minimum line width."),
    "gap_minimum": Field("gap_minimum", LIMIT_RECORD, required=True, doc="Minimum bare gap between lines."),
    "edge_margin": Field("edge_margin", LIMIT_RECORD, required=True, doc="Margin inside the edge of the panel."),
    "opening_margin": Field("opening_margin", LIMIT_RECORD, required=True, doc="Margin round openings."),
    "register": Field("register", LIMIT_RECORD, required=True, doc="Maximum register error."),
}
UNIT = Field("unit", Choice(("mm", "count"), "units"), default="mm", doc="Unit of the figure.")
OWN_RECORD = Record("own limit", (VALUE, UNIT, SOURCE, KNOWN))
OWN_NAMES: Final = (
    "inks_maximum", "base_choke", "base_line_minimum", "trap", "ink_register", "bleed", "thread_margin", "mask_margin",
    "depth", "spacing", "beam", "overlay_inset", "overlay_corner", "nut_margin", "window_margin", "adhesive_margin",
    "bridge_minimum",
)  # fmt: skip
"""Figures that only some processes have."""

OWN = Field(
    "own",
    MapOf(keys=Choice(OWN_NAMES, "figures"), of=OWN_RECORD, what="figures"),
    required=True,
    doc="Figures that only some processes have.",
)
PROCESS_RECORD = Record("process", (NAME, TITLE, *LIMIT_FIELDS.values(), OWN))
PROCESSES = Field(
    "processes", ListOf(of=PROCESS_RECORD, what="processes", minimum=1), required=True, doc="The processes."
)
FILE_RECORD = Record("process file", (PROCESSES,))


@functools.cache
def processes() -> dict[str, Process]:
    """The processes by name, in the order of the file."""
    return read_processes(Path(__file__).with_name(_FILE).read_bytes(), _FILE)


def read_processes(data: bytes | str, file: str) -> dict[str, Process]:
    """Read a file of processes. Raises SpecError."""
    problems = Problems()
    top = read(yaml.read(data, file), FILE_RECORD, problems)
    problems.raise_any()
    listed = (top.value[PROCESSES] if top is not None else None) or ()
    return {process.name: process for process in (_process(each.value) for each in listed)}


def _process(fields: Fields) -> Process:
    figures = {name: _figure(name, fields[field]) for name, field in LIMIT_FIELDS.items()}
    own = {key.value: _figure(key.value, limit.value) for key, limit in fields[OWN] or ()}
    return Process(name=fields[NAME] or "", title=fields[TITLE] or "", own=own, **figures)


def _figure(name: str, limit: Fields | None) -> Figure:
    assert limit is not None, "a limit that could not be read is a problem, and then no process is made"
    known = Known(limit[KNOWN] or Known.MEMORY.value)
    unit = limit[UNIT] or "mm"
    return Figure(name=name, value=limit[VALUE] or 0.0, source=limit[SOURCE] or "", known=known, unit=unit)
