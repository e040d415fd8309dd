"""What names in braces stand for at one place of a spec: numbers of copies, and what a module is given there."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Final

from panelart.canonical import Struct
from panelart.diagnostics import Where
from panelart.messages import Said
from panelart.messages import spec_modules as said

_PIECE: Final = re.compile(r"\{\{|\}\}|\{([^{}]*)\}")


class Argument(Struct, frozen=True, kw_only=True):
    """What a module is given for a parameter: as written, with the names that hold where it is written, and filled."""

    written: str
    where: Where
    names: Names
    plain: str


class Placement(Struct, frozen=True, kw_only=True):
    """One place of a module: its name, where it is defined, where it is placed, and which placed module it is in."""

    module: str
    defined: Where
    where: Where
    outer: Placement | None

    @property
    def chain(self) -> tuple[Placement, ...]:
        """This placement and those that it stands in, outermost first."""
        return (self,) if self.outer is None else (*self.outer.chain, self)

    def told(self, message: Said) -> Said:
        """A message about what is written in the module, with where the module is placed."""
        whole = said.in_module(message, self.module, self.where)
        return whole if self.outer is None else self.outer.told(whole)


class Names(Mapping[str, str]):
    """The names that hold at one place, each with its text: arguments of the module first, then numbers of copies.

    `prefixes` are those of the modules that it stands in, put together, the innermost first and '' last; `folder` is
    where files are that a module file names, None for the spec's own.
    """

    __slots__ = ("arguments", "folder", "numbers", "placement", "prefixes")

    def __init__(
        self,
        numbers: Mapping[str, str] | None = None,
        arguments: Mapping[str, Argument] | None = None,
        *,
        prefixes: tuple[str, ...] = ("",),
        placement: Placement | None = None,
        folder: Path | None = None,
    ) -> None:
        self.numbers = dict(numbers or {})
        self.arguments = dict(arguments or {})
        self.prefixes = prefixes
        self.placement = placement
        self.folder = folder

    def __getitem__(self, name: str) -> str:
        return self.numbers[name] if name in self.numbers else self.arguments[name].plain

    def __iter__(self) -> Iterator[str]:
        yield from self.arguments
        yield from self.numbers

    def __len__(self) -> int:
        return len(self.arguments) + len(self.numbers)

    def counted(self, name: str, number: str) -> Names:
        """The names within one copy."""
        return Names(
            {**self.numbers, name: number},
            self.arguments,
            prefixes=self.prefixes,
            placement=self.placement,
            folder=self.folder,
        )

    @property
    def told(self) -> Callable[[Said], Said] | None:
        """What is made of messages about what is written here; None outside modules."""
        return None if self.placement is None else self.placement.told

    def scoped(self, ref: str, known: Mapping[str, object]) -> str:
        """A ref as the panel has it: of the innermost module that has a part of this ref, else as it is written."""
        return next((prefix + ref for prefix in self.prefixes if prefix + ref in known), ref)


NO_NAMES: Final = Names()
"""Those outside of copies and modules."""


def replaced(text: str, meaning: Callable[[str], str | None]) -> str:
    """The text with the names in braces that have a meaning replaced by it; all other braces stay as they are."""

    def piece(match: re.Match[str]) -> str:
        told = None if match[1] is None else meaning(match[1].strip())
        return match[0] if told is None else told

    return _PIECE.sub(piece, text) if "{" in text else text


def named_in(text: str) -> frozenset[str]:
    """The names in braces of a text."""
    return frozenset(match[1].strip() for match in _PIECE.finditer(text) if match[1] is not None)
