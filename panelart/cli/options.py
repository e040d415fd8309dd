"""Arguments and options that several commands have: one name, one form, one sentence of help for one thing."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated, TypeAlias

import typer

from panelart.cli.values import day, one_of
from panelart.messages import cli_help as said

DIR = "DIR"
FILE = "FILE"
MM = "MM"
DAY = "YYYY-MM-DD"


def words(kind: type[StrEnum]) -> str:
    """What stands for a value that is one of a few words."""
    return "|".join(kind)


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


Spec: TypeAlias = Annotated[Path, typer.Argument(metavar="SPEC", help=str(said.spec()), show_default=False)]
Shop: TypeAlias = Annotated[Path | None, typer.Option("--shop", metavar=FILE, help=str(said.shop()))]
IgnorePlacement: TypeAlias = Annotated[bool, typer.Option("--ignore-placement", help=str(said.ignore_placement()))]
DateInFiles: TypeAlias = Annotated[
    str, typer.Option("--date", metavar=DAY, parser=day, help=str(said.date_in_files()), show_default=False)
]
OutFolder: TypeAlias = Annotated[Path | None, typer.Option("--out", "-o", metavar=DIR, help=str(said.output_folder()))]
OutDrawing: TypeAlias = Annotated[
    Path | None, typer.Option("--out", "-o", metavar=FILE, help=str(said.output_drawing()))
]
TextOrJson: TypeAlias = Annotated[
    PlainFormat,
    typer.Option(
        "--format", metavar=words(PlainFormat), parser=one_of(PlainFormat), help=str(said.format_text_or_json())
    ),
]
Quiet: TypeAlias = Annotated[bool, typer.Option("--quiet", "-q", help=str(said.quiet()))]
Grid: TypeAlias = Annotated[str, typer.Option("--grid", metavar="STEP", help=str(said.grid()))]
