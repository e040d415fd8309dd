"""Where the nouns of a panel stand in its spec: a table beside them, joined to what is reported about them.

Nouns carry an origin that comes from what they are called (`parts.S1.legend`), never a line. So a remark that is put in
on line 1 leaves every noun as it was, and with it all that was worked out from nouns.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from typing import Any, Final, TypeVar

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.diagnostics import Origin, Where
from panelart.reprs import brief, counted

Noun = TypeVar("Noun")

_WALKED: Final = "panelart.model."
_WITHOUT: Final = ("panelart.model.component", "panelart.model.layout")
"""Modules whose nouns come from the catalogue, or are worked out: they stand nowhere in a spec."""

_BITS: Final = 48


class Places(Struct, frozen=True):
    """Line and column of every origin."""

    table: Mapping[Origin, Where] = {}

    def __getitem__(self, where: Where) -> Where:
        """Where a noun stands; a place that is one already stays what it is."""
        return self.table.get(where, where) if isinstance(where, Origin) else where

    def __repr__(self) -> str:
        return brief("Places", counted(len(self.table), "origin"))

    def told(self, reported: Noun) -> Noun:
        """What is reported (findings, problems, tuples of them) with places for origins, in its messages too."""
        made: Noun = _joined(reported, self.__getitem__)
        return made


NOWHERE: Final = Places()
"""The places of a panel that was made by a program, without a file."""


def apart(panel: Noun) -> tuple[Noun, Places]:
    """A panel with origins for places, and the table of these."""
    named: dict[Where, Origin] = {}
    table: dict[Origin, Where] = {}

    def name(where: Where, path: str) -> Origin:
        known = named.get(where)
        if known is None:
            number = _number(path)
            while Origin(where.file, 0, number) in table:
                number += 1
            known = named[where] = Origin(where.file, 0, number)
            table[known] = where
        return known

    return _named(panel, "", name), Places(table)


def _number(path: str) -> int:
    return int.from_bytes(hashlib.blake2b(path.encode(), digest_size=_BITS // 8).digest(), "big")


@cache
def _fields(kind: type[Struct]) -> tuple[str, ...]:
    """The fields of a noun that may lead to a place; none of what stands nowhere."""
    module = kind.__module__
    if not module.startswith(_WALKED) or module in _WITHOUT:
        return ()
    return kind.__struct_fields__


def _named(value: Any, path: str, name: Callable[[Where, str], Origin]) -> Any:
    match value:
        case Where():
            return value if isinstance(value, Origin) else name(value, path)
        case Struct():
            fields = _fields(type(value))
            return _with(value, {field: _named(getattr(value, field), f"{path}.{field}", name) for field in fields})
        case tuple():
            keys = _keys(value)
            return _as_it_was(value, tuple(_named(each, f"{path}.{next(keys)}", name) for each in value))
        case dict():
            return {key: _named(each, f"{path}.{key}", name) for key, each in value.items()}
        case _:
            return value


def _keys(items: tuple[Any, ...]) -> Iterator[str]:
    """Each by its ref where it has one, so that what comes before it does not count; else by its number."""
    for number, item in enumerate(items):
        yield str(getattr(item, "ref", None) or number)


def _as_it_was(items: tuple[Any, ...], made: tuple[Any, ...]) -> tuple[Any, ...]:
    """The items themselves where none of them became another."""
    return items if all(one is other for one, other in zip(items, made, strict=True)) else made


def _with(noun: Any, fields: dict[str, Any]) -> Any:
    changed = {field: value for field, value in fields.items() if value is not getattr(noun, field)}
    return replace(noun, **changed) if changed else noun


def nowhere(value: Noun) -> Noun:
    """A noun without origins and places: equal to one that says the same elsewhere."""
    made: Noun = _joined(value, lambda _: Where("", 0, 0))
    return made


def _joined(value: Any, place: Callable[[Where], Where]) -> Any:
    match value:
        case Where():
            return place(value)
        case tuple():
            return _as_it_was(value, tuple(_joined(each, place) for each in value))
        case Struct() if not type(value).__module__.startswith("panelart.geometry"):
            return _with(value, {field: _joined(getattr(value, field), place) for field in value.__struct_fields__})
        case _:
            return value
