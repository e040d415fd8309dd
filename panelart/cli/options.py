"""Arguments and options that several commands have: one name, one form, one sentence of help for one thing."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum
from pathlib import Path
from typing import Annotated, Final, TypeAlias

from panelart.cli.declaring import argument, option
from panelart.cli.values import DAY, SHARE, Kind, file, text, whole_number
from panelart.messages import cli_help as said
from panelart.messages import cli_help_panel as of_panel

YAML: Final = (".yaml", ".yml")
DRAWINGS: Final = (".svg", ".pdf", ".png")
LISTS: Final = (".csv", ".tsv", ".xlsx", ".xls", ".ods")
ANSWERS: Final = (*YAML, ".xlsx", ".ods", ".xls")


class Format(StrEnum):
    """How findings are printed."""

    TEXT = "text"
    JSON = "json"
    SARIF = "sarif"
    JUNIT = "junit"


class PlainFormat(StrEnum):
    """How other results are printed."""

    TEXT = "text"
    JSON = "json"


class SideOf(StrEnum):
    """A side of the panel."""

    FRONT = "front"
    REAR = "rear"


def spec_file(metavar: str = "SPEC") -> Kind[Path]:
    """The file of a spec."""
    return file(*YAML, metavar=metavar)


def _process_names() -> Iterable[str]:
    from panelart.processes.registry import processes

    return processes()


PROCESS: Final = text("PROCESS", _process_names)
"""A marking process."""

PART_FILE: Final = Kind(metavar="FILE", read=str, suffixes=YAML)
"""A part file as the spec names it: relative to the spec."""

Spec: TypeAlias = Annotated[Path, argument(said.spec(), spec_file())]
Specs: TypeAlias = Annotated[list[Path], argument(said.specs_or_folders(), spec_file())]
Every: TypeAlias = Annotated[bool, option("--all", said.every_spec())]
Cluster: TypeAlias = Annotated[str, option("--cluster", said.cluster(), text("ADDRESS"))]
Shard: TypeAlias = Annotated[tuple[int, int] | None, option("--shard", said.shard(), SHARE)]
Shop: TypeAlias = Annotated[Path | None, option("--shop", said.shop(), file(*YAML))]
IgnorePlacement: TypeAlias = Annotated[bool, option("--ignore-placement", said.ignore_placement())]
DateInFiles: TypeAlias = Annotated[str, option("--date", said.date_in_files(), DAY)]
OutDrawing: TypeAlias = Annotated[Path | None, option("-o --out", said.output_drawing(), file(*DRAWINGS))]
TextOrJson: TypeAlias = Annotated[PlainFormat, option("--format", said.format_text_or_json())]
Quiet: TypeAlias = Annotated[bool, option("-q --quiet", said.quiet())]
Grid: TypeAlias = Annotated[str, option("--grid", said.grid(), text("STEP"))]
OpenPage: TypeAlias = Annotated[bool, option("--open", of_panel.open_page())]
Port: TypeAlias = Annotated[
    int | None, option("--port", of_panel.port(), whole_number(minimum=1, maximum=65535, metavar="PORT"))
]
