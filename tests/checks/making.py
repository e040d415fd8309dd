"""The panels of rules' cases: the text made a whole spec, read and laid out as any spec is."""

from __future__ import annotations

from pathlib import Path

from panelart.checks.cases import whole_spec
from panelart.model.layout import Layout
from panelart.pipeline import lay_out
from panelart.spec.read import panel_names, read_panel

NAME = "case.yaml"


def laid_out(text: str) -> Layout:
    """The layout of a case; of a set of panels that of the first. Raises SpecError."""
    spec = whole_spec(text).encode("utf-8")

    def read(_: Path) -> bytes:
        return spec

    first = next(iter(panel_names(Path(NAME), read)), "")
    return lay_out(read_panel(Path(f"{NAME}#{first}" if first else NAME), read_file=read))
