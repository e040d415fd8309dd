"""The panels of rules' cases: the text made a whole spec, read and laid out as any spec is."""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

from panelart.checks.cases import whole_spec
from panelart.model.layout import Layout
from panelart.pipeline import lay_out
from panelart.spec.read import panel_names, read_panel
from tests.lettering.builders import boxes

NAME = "case.yaml"
HOUSE = "house.ttf"
"""A font that cases may name: capitals and figures, and no more."""


@cache
def _folder() -> tempfile.TemporaryDirectory[str]:
    folder = tempfile.TemporaryDirectory(prefix="cases-")
    letters = dict.fromkeys("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789", (100, 0, 300, 700))
    (Path(folder.name) / HOUSE).write_bytes(boxes(letters))
    return folder


def laid_out(text: str) -> Layout:
    """The layout of a case; of a set of panels that of the first. Raises SpecError."""
    spec = whole_spec(text).encode("utf-8")

    def read(path: Path) -> bytes:
        return path.read_bytes() if path.name == HOUSE else spec

    name = Path(_folder().name) / NAME if HOUSE in text else Path(NAME)
    first = next(iter(panel_names(name, read)), "")
    return lay_out(read_panel(Path(f"{name}#{first}") if first else name, read_file=read))
