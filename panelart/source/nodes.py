"""What a YAML file says before anybody asks what it means: scalars as raw text, lists, mappings, with places.

A scalar stays the text that was written, so that ON, 12:30, 010 and 1_000 are not turned into something else
before the table of kinds has said whether a text or a number is due there.
"""

from __future__ import annotations

from typing import TypeAlias

from panelart.canonical import Struct
from panelart.diagnostics import Where
from panelart.messages import Said
from panelart.messages import source as said
from panelart.reprs import brief, counted
from panelart.source.problems import shown


class Scalar(Struct, frozen=True, kw_only=True):
    """One value as written; `quoted` is true for '...', "...", | and > texts."""

    text: str
    quoted: bool
    where: Where

    @property
    def empty(self) -> bool:
        """Nothing was written at all: `key:` and then the next line."""
        return not self.quoted and not self.text

    @property
    def found(self) -> Said:
        """What a message says was found."""
        return said.nothing() if self.empty else shown(self.text)

    def __repr__(self) -> str:
        return brief("Scalar", repr(self.text), self.where)


class Placeholder(Scalar, frozen=True, kw_only=True):
    """A value of a module with the name of a parameter in braces, and what it stands for where the module is placed.

    `text` stays as it is written: texts with braces are filled in later. `stands_for` is None while the module is read
    by itself.
    """

    stands_for: Scalar | None


class Sequence(Struct, frozen=True, kw_only=True):
    """A list."""

    items: tuple[Node, ...]
    where: Where

    @property
    def found(self) -> Said:
        """What a message says was found."""
        if all(isinstance(item, Scalar) for item in self.items) and 0 < len(self.items) <= 4:
            return said.short_list(", ".join(item.text for item in self.items if isinstance(item, Scalar))[:40])
        return said.long_list(count=len(self.items)) if self.items else said.empty_list()

    def __repr__(self) -> str:
        return brief("Sequence", counted(len(self.items), "item"), self.where)


class Entry(Struct, frozen=True, kw_only=True):
    """One key of a mapping and what it holds."""

    key: Scalar
    value: Node

    def __repr__(self) -> str:
        return brief("Entry", repr(self.key.text))


class Mapping(Struct, frozen=True, kw_only=True):
    """Keys and values in the order written; no key stands twice."""

    entries: tuple[Entry, ...]
    where: Where

    @property
    def found(self) -> Said:
        """What a message says was found."""
        keys = [entry.key.text for entry in self.entries]
        if not keys:
            return said.empty_mapping()
        first = [shown(key) for key in keys[:3]]
        return said.long_mapping(first) if len(keys) > 3 else said.short_mapping(first)

    def get(self, key: str) -> Node | None:
        """What stands under a key, if it is there."""
        return next((entry.value for entry in self.entries if entry.key.text == key), None)

    def __repr__(self) -> str:
        return brief("Mapping", *[entry.key.text for entry in self.entries[:3]], self.where)


Node: TypeAlias = Scalar | Sequence | Mapping
