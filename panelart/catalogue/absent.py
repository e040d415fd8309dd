"""What the catalogue leaves out on purpose, told to who looks for it: why, and what to do instead."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue import table
from panelart.catalogue.search import fits
from panelart.source.problems import Problems
from panelart.source.schema import Field, Fields, MapOf, Record, Text, read
from panelart.source.yaml import read as read_yaml

_TITLE: Final = Field("title", Text(), required=True, doc="What it is.")
_WHY: Final = Field("why", Text(prose=True), required=True, doc="Why no figures are given.")
_INSTEAD: Final = Field("instead", Text(prose=True), required=True, doc="What to use instead.")
_ABSENT: Final = Field(
    "absent",
    MapOf(
        keys=table.NAME, of=Record("an absent part", (_TITLE, table.WORDS, _WHY, _INSTEAD)), what="names and reasons"
    ),
    required=True,
    doc="Parts that are left out, by name.",
)


class Absent(Struct, frozen=True, kw_only=True):
    """A kind of part that is left out: `why` no figures are given, what to take `instead`."""

    name: str
    title: str
    words: tuple[str, ...]
    why: str
    instead: str


def absent(query: str) -> tuple[Absent, ...]:
    """What is left out and fits every word of a query, in the order of the file; '' fits all."""
    return tuple(one for one in _entries() if fits(query, one.name, one.title, *one.words))


@cache
def _entries() -> tuple[Absent, ...]:
    file = Path(__file__).with_name("absent.yaml")
    problems = Problems()
    record = read(read_yaml(file.read_bytes(), file.name), Record("what is left out", (_ABSENT,)), problems)
    problems.raise_any()
    listed = None if record is None else record.value[_ABSENT]
    return tuple(_entry(name.value, fields.value) for name, fields in listed or ())


def _entry(name: str, fields: Fields) -> Absent:
    return Absent(
        name=name,
        title=fields[_TITLE] or "",
        words=tuple(word.value for word in fields[table.WORDS] or ()),
        why=fields[_WHY] or "",
        instead=fields[_INSTEAD] or "",
    )
