"""What the symbols mean: title, the published symbol each is drawn after, and words to find it by."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from types import MappingProxyType
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue import table
from panelart.figure import Known
from panelart.lettering.symbols import SYMBOLS
from panelart.source.built import PACKAGE, Row, Table
from panelart.source.problems import Problems
from panelart.source.schema import Choice, Field, Fields, MapOf, Record, Text, read
from panelart.source.yaml import read as read_yaml

_TITLE: Final = Field("title", Text(), required=True, doc="Meaning of the symbol.")
_NUMBER: Final = Field("number", Text(maximum=60), default="", doc="Published symbol that it is drawn after.")
_KNOWN: Final = Field(
    "known",
    Choice((Known.LOOKED_UP.value, Known.MEMORY.value), "standings"),
    default=Known.LOOKED_UP.value,
    doc="Standing of the number.",
)
_NOTE: Final = Field("note", Text(), default="", doc="Note on its use.")
_SYMBOL: Final = Record("a symbol", (_TITLE, _NUMBER, _KNOWN, _NOTE, table.WORDS))
_SYMBOLS: Final = Field(
    "symbols",
    MapOf(keys=Choice(SYMBOLS, "symbols"), of=_SYMBOL, what="names and symbols"),
    required=True,
    doc="Symbols by name.",
)


class SymbolEntry(Struct, frozen=True, kw_only=True):
    """A symbol of the catalogue.

    `number` names the published symbol that it is drawn after, '' when none is known well enough; `known` says
    whether that number was seen beside its meaning or recalled.
    """

    name: str
    title: str
    number: str
    known: Known
    note: str
    words: tuple[str, ...]


def symbol(name: str) -> SymbolEntry:
    """The symbol of that name. Raises KeyError when there is none."""
    return _entries()[name]


def symbol_names() -> tuple[str, ...]:
    """The names of all symbols, in the order of their kinds: supply, earth, safety, signals, machines."""
    return tuple(_entries())


@cache
def _entries() -> Mapping[str, SymbolEntry]:
    kept: tuple[SymbolEntry, ...] | None = BUILT.get("symbols")
    return MappingProxyType({entry.name: entry for entry in (_of_file() if kept is None else kept)})


def _of_file() -> tuple[SymbolEntry, ...]:
    problems = Problems()
    file = read_yaml((PACKAGE / _FILE).read_bytes(), "symbols.yaml")
    record = read(file, Record("the symbols", (_SYMBOLS,)), problems)
    problems.raise_any()
    listed = None if record is None else record.value[_SYMBOLS]
    return tuple(_entry(name.value, fields.value) for name, fields in listed or ())


def _entry(name: str, fields: Fields) -> SymbolEntry:
    return SymbolEntry(
        name=name,
        title=fields[_TITLE] or "",
        number=fields[_NUMBER] or "",
        known=Known(fields[_KNOWN]),
        note=fields[_NOTE] or "",
        words=tuple(word.value for word in fields[table.WORDS] or ()),
    )


def _rows() -> Iterator[Row]:
    yield "symbols", _FILE, _of_file()


_FILE: Final = "catalogue/symbols.yaml"

BUILT: Final = Table(
    name="symbols",
    type=tuple[SymbolEntry, ...],
    code=("catalogue/symbols.py", "catalogue/table.py", "source/schema.py", "source/yaml.py"),
    make=_rows,
)
