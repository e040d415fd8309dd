"""Measured limits put into a shop file; everything else in it stays byte for byte."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from panelart.diagnostics import Problem, SpecError, Where
from panelart.messages import spec as spec_said
from panelart.messages import spec_marking as said
from panelart.source import yaml
from panelart.source.edit import put, put_all
from panelart.source.nodes import Mapping as MappingNode
from panelart.source.problems import Problems
from panelart.source.written import Written
from panelart.spec.read import read_bytes
from panelart.spec.shop import read_shop


def with_limits(text: str, path: Path, process: str, limits: Mapping[str, float], why: str) -> str:
    """The text of a shop file with figures of one process changed or added; '' begins a file.

    Raises SpecError when the text is no shop file, or the figures would not be read back from it.
    """
    file = path.as_posix()
    if not text.strip():
        text = put("panelart-shop: 1\n", ("shop",), path.stem, file)
    else:
        _require_shop(text, path)
    figures: dict[str, Written] = {name: {"value": value, "why": why} for name, value in limits.items()}
    there = _under(text, file, ("limits", process))
    if there == 2:
        after = put_all(text, {("limits", process, name): figure for name, figure in figures.items()}, file)
    elif there == 1:
        after = put(text, ("limits", process), figures, file)
    else:
        after = put(text, ("limits",), {process: figures}, file)
    _require_shop(after, path)
    return after


def _under(text: str, file: str, keys: tuple[str, ...]) -> int:
    """How many of the keys, one under the other, are there with a mapping."""
    node = yaml.read(text, file)
    for count, key in enumerate(keys):
        inner = next((entry.value for entry in node.entries if entry.key.text == key), None)
        if not isinstance(inner, MappingNode):
            return count
        node = inner
    return len(keys)


def _require_shop(text: str, path: Path) -> None:
    problems = Problems()
    read_shop(text, path, read_bytes, problems)
    problems.raise_any()


def not_text(path: Path) -> SpecError:
    """What is said of a shop file that is not text."""
    where = Where(path.as_posix(), 1, 1)
    return SpecError([Problem(where=where, says=said.shop_file_not_text(), accepts=spec_said.a_yaml_file())])
