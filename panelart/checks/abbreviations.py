"""The abbreviations that come with the program, from their data file."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Final

from panelart.source.built import PACKAGE, Row, Table
from panelart.source.nodes import Scalar
from panelart.source.yaml import read as read_yaml


@cache
def known_abbreviations() -> frozenset[str]:
    """The abbreviations that come with the program, in capitals."""
    kept: tuple[str, ...] | None = BUILT.get("abbreviations")
    return frozenset(_of_file() if kept is None else kept)


def _of_file() -> tuple[str, ...]:
    node = read_yaml((PACKAGE / _FILE).read_text(encoding="utf-8"), "abbreviations.yaml").get("known")
    assert isinstance(node, Scalar)
    return tuple(node.text.split())


def _rows() -> Iterator[Row]:
    yield "abbreviations", _FILE, _of_file()


_FILE: Final = "checks/abbreviations.yaml"

BUILT: Final = Table(
    name="abbreviations", type=tuple[str, ...], code=("checks/abbreviations.py", "source/yaml.py"), make=_rows
)
