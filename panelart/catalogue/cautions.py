"""The caution texts by key, read once from their data file when first asked for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from types import MappingProxyType
from typing import Final

from panelart.source.built import PACKAGE, Row, Table
from panelart.source.problems import Problems
from panelart.source.schema import Field, MapOf, Record, Text, read
from panelart.source.yaml import read as read_yaml

_TEXTS: Final = Field(
    "cautions",
    MapOf(keys=Text(maximum=40), of=Text(prose=True, maximum=1200), what="keys and caution texts"),
    required=True,
    doc="Caution texts by key.",
)


def caution(key: str) -> str:
    """The text of a caution. Raises KeyError for an unknown key."""
    return _texts()[key]


class _Cautions(Mapping[str, str]):
    """The texts, read when first looked at."""

    def __getitem__(self, key: str) -> str:
        return _texts()[key]

    def __iter__(self) -> Iterator[str]:
        return iter(_texts())

    def __len__(self) -> int:
        return len(_texts())


CAUTIONS: Final[Mapping[str, str]] = _Cautions()


@cache
def _texts() -> Mapping[str, str]:
    kept: tuple[tuple[str, str], ...] | None = BUILT.get("cautions")
    return MappingProxyType(dict(_of_file() if kept is None else kept))


def _of_file() -> tuple[tuple[str, str], ...]:
    problems = Problems()
    file = read_yaml((PACKAGE / _FILE).read_bytes(), "cautions.yaml")
    record = read(file, Record("the cautions", (_TEXTS,)), problems)
    problems.raise_any()
    listed = None if record is None else record.value[_TEXTS]
    return tuple((key.value, text.value) for key, text in listed or ())


def _rows() -> Iterator[Row]:
    yield "cautions", _FILE, _of_file()


_FILE: Final = "catalogue/cautions.yaml"

BUILT: Final = Table(
    name="cautions",
    type=tuple[tuple[str, str], ...],
    code=("catalogue/cautions.py", "source/schema.py", "source/yaml.py"),
    make=_rows,
)
