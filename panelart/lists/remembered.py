"""What the columns of a list are, once a user has said so: by its headings, for every list that has the same."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Final, TypeAlias

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.lists.columns import Column, Columns
from panelart.lists.words import bare


class Remembered(Struct, frozen=True, kw_only=True):
    """Columns by what they are, each by its letters, number or heading, and the file that says so."""

    are: Mapping[str, str]
    file: str


Headings: TypeAlias = Mapping[tuple[str, ...], Remembered]
"""What is remembered, by folded headings."""

NOTHING: Final[Headings] = MappingProxyType({})


def folded_headings(heads: Iterable[str]) -> tuple[str, ...]:
    """Headings of a list, as they are compared: capitals, spaces and signs do not count, nor columns without one."""
    return tuple(bare(head) for head in heads if bare(head))


def wished(heads: Iterable[str], asked: Mapping[str, str], known: Headings) -> Mapping[str, str]:
    """The columns that are asked for now, and those remembered for these headings."""
    return {**_of(heads, known), **asked}


def marked(found: Columns, heads: Iterable[str], asked: Mapping[str, str], known: Headings) -> Columns:
    """The same columns, those told apart that are remembered and not asked for now."""
    roles = _of(heads, known).keys() - asked.keys()
    return Columns(
        row=found.row,
        columns=tuple(
            replace(one, by="remembered") if one.by == "asked" and one.role in roles else one for one in found.columns
        ),
    )


def confirmed(found: Columns) -> dict[str, str]:
    """The columns that were asked for, each by its heading, or by its number where that is no heading of it alone."""
    return {one.role: _named(one, found) for one in found.columns if one.by == "asked"}


def _of(heads: Iterable[str], known: Headings) -> Mapping[str, str]:
    own = known.get(folded_headings(heads))
    return own.are if own is not None else {}


def _named(column: Column, found: Columns) -> str:
    """How a column is named in a file: by its heading where no other has the same and it is no letter or number."""
    same = [one for one in found.columns if bare(one.head) == bare(column.head)]
    return column.head if column.head and len(same) == 1 else str(column.at + 1)
