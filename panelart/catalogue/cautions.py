"""The caution texts by key, read once from their data file when first asked for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Final

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
    file = Path(__file__).with_name("cautions.yaml")
    problems = Problems()
    record = read(read_yaml(file.read_bytes(), file.name), Record("the cautions", (_TEXTS,)), problems)
    problems.raise_any()
    listed = None if record is None else record.value[_TEXTS]
    return MappingProxyType({key.value: text.value for key, text in listed or ()})
