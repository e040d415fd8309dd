"""Parts marked as proved in a part file; everything else in it stays byte for byte."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import PurePath

from panelart.canonical import Struct
from panelart.catalogue.library import read_contents
from panelart.model.component import Component
from panelart.source import yaml
from panelart.source.edit import put
from panelart.source.nodes import Mapping
from panelart.source.written import Written


class Proof(Struct, frozen=True, kw_only=True):
    """Who cut and fitted parts, on which panel, and when."""

    by: str
    panel: str
    date: str

    @property
    def written(self) -> dict[str, Written]:
        """As a part file has it."""
        return {"by": self.by, "panel": self.panel, "date": self.date}


def with_proved(
    text: str, path: PurePath, names: Iterable[str], proof: Proof, named: Callable[[str], Component]
) -> str:
    """The text of a part file with parts marked as proved; '' begins a file.

    A part that the file does not have is added as one that is like the part of its name. Raises SpecError when the
    text is no part file, or the marks would not be read back from it.
    """
    file = path.as_posix()
    text = text if text.strip() else "panelart-catalogue: 1\n"
    read_contents(text.encode("utf-8"), file, named)
    for name in names:
        text = _marked(text, file, name, proof)
    read_contents(text.encode("utf-8"), file, named)
    return text


def _marked(text: str, file: str, name: str, proof: Proof) -> str:
    parts = yaml.read(text, file).get("parts")
    if not isinstance(parts, Mapping):
        return put(text, ("parts",), {name: {"like": name, "proved": proof.written}}, file)
    if any(entry.key.text == name for entry in parts.entries):
        return put(text, ("parts", name, "proved"), proof.written, file)
    return put(text, ("parts", name), {"like": name, "proved": proof.written}, file)


def rows_of_families(text: str, path: PurePath, named: Callable[[str], Component]) -> frozenset[str]:
    """The parts of a part file that are rows of a family, which cannot be marked one by one. Raises SpecError."""
    if not text.strip():
        return frozenset()
    contents = read_contents(text.encode("utf-8"), path.as_posix(), named)
    parts = yaml.read(text, path.as_posix()).get("parts")
    single = {entry.key.text for entry in parts.entries} if isinstance(parts, Mapping) else set()
    return frozenset(contents.components) - single
