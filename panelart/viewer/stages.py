"""From a spec's text to what the page shows, in stages that are told as they go and can be broken off between."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from pathlib import Path
from typing import TypeAlias

from panelart.canonical import Struct
from panelart.checks import Inspection, inspect
from panelart.legends.choose import Chosen
from panelart.messages import Said
from panelart.messages import viewer as said
from panelart.model.layout import Layout
from panelart.pipeline import read_placement, set_legends
from panelart.sheets.picture import panel_picture
from panelart.spec.read import read_bytes, read_panel
from panelart.writers.svg import picture_svg


class Shown(Struct, frozen=True, kw_only=True):
    """One state of the spec with its picture: `revision` tells it from every other text."""

    text: str
    revision: str
    layout: Layout
    inspection: Inspection
    chosen: Chosen
    picture: bytes
    today: str


class BrokenOffError(Exception):
    """The spec changed while it was being laid out: nobody wants this picture any more."""


Step: TypeAlias = Callable[[Said], None]
"""Told what is done next, in a word; raises BrokenOffError to end the work there."""


def revision_of(text: str) -> str:
    """What a state of the spec is known by between page and server."""
    return hashlib.sha256(text.encode("utf-8")).hexdigest()[:16]


Stamp: TypeAlias = tuple[int, int] | None
"""Time and size of a file: another value when it was written; None where there is none."""


def stamp_of(path: Path) -> Stamp:
    """The stamp of a file now."""
    try:
        seen = path.stat()
    except OSError:
        return None
    return seen.st_mtime_ns, seen.st_size


def read_text(path: Path) -> str:
    """A spec's text, its line ends as they are. Raises OSError and UnicodeDecodeError."""
    return path.read_bytes().decode("utf-8")


def show(text: str, path: Path, today: str, step: Step, named: dict[Path, Stamp]) -> Shown:
    """Everything the page needs of a spec at `path`.

    The other files that it names are added to `named`, with their stamps from before they were read. Raises SpecError,
    OSError and BrokenOffError.
    """

    def read_file(file: Path) -> bytes:
        if file == path:
            return text.encode("utf-8")
        named[file] = stamp_of(file)
        return read_bytes(file)

    step(said.step_reading())
    panel = read_panel(path, read_file=read_file)
    step(said.step_placing())
    layout, placement = set_legends(panel, read_placement(path))
    step(said.step_checking())
    inspection = inspect(layout, today=today)
    step(said.step_drawing())
    picture = picture_svg(panel_picture(layout))
    return Shown(
        text=text,
        revision=revision_of(text),
        layout=layout,
        inspection=inspection,
        chosen=placement.chosen,
        picture=picture,
        today=today,
    )
