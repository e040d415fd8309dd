"""Where a thing stands in a spec, how serious it is, and the one type for what the user must put right."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum
from pathlib import PurePath
from typing import Final, NamedTuple

from panelart.canonical import Struct
from panelart.messages import Message, Said, english
from panelart.messages import diagnostics as said
from panelart.reprs import brief


class Where(NamedTuple):
    """A place in a file; lines and columns count from 1.

    In plain data, which has no lines, `key` is the path of keys that leads there (`parts[2].at`), and `line` counts the
    values in the order in which they stand, so that places sort as they do in a file.
    """

    file: str
    line: int
    column: int
    key: str = ""

    def __str__(self) -> str:
        return self.key or f"{self.file}:{self.line}:{self.column}"

    @property
    def short(self) -> str:
        """The place with the file's bare name, for what is kept: it says the same from whatever folder it was made."""
        return self.key or f"{self.name}:{self.line}:{self.column}"

    @property
    def within(self) -> str:
        """The place within its file: line and column, or the path of keys."""
        return self.key or f"{self.line}:{self.column}"

    @property
    def name(self) -> str:
        """The file's bare name."""
        return PurePath(self.file).name

    def __repr__(self) -> str:
        return brief("Where", self)


class Origin(Where):
    """A noun of a panel by a number that does not depend on where it stands: line 0, and the number as column.

    So two specs that differ in remarks alone have the same nouns. `Places` of the panel tell line and column.
    """

    __slots__ = ()

    def __str__(self) -> str:
        return f"{self.file}#{self.column:x}"


class Severity(Enum):
    """How much a finding matters; the order is from most to least serious."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"

    @property
    def rank(self) -> int:
        """0 for the most serious."""
        return list(Severity).index(self)


class Problem(Struct, frozen=True, kw_only=True):
    """An error in an input file that stops the work: what was found (`says`), and what is accepted."""

    where: Where
    says: Said
    accepts: Said = ""

    @property
    def message(self) -> str:
        """What was found, in the language that is spoken."""
        return str(self.says)

    @property
    def hint(self) -> str:
        """What is accepted, in the language that is spoken; '' where nothing is told."""
        return str(self.accepts)

    def __str__(self) -> str:
        told = str(said.error_line(where=self.where, message=self.message))
        return f"{told}\n  {said.hint_line(hint=self.hint)}" if self.hint else told

    def __repr__(self) -> str:
        return brief("Problem", self.where, repr(english(self.says)))


class SpecError(Exception):
    """The spec cannot be read, or asks for what does not exist: all its problems at once, in file order."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(
            sorted(problems, key=lambda problem: (problem.where, english(problem.says)))
        )
        super().__init__("\n".join(str(problem) for problem in self.problems))

    def __reduce__(self) -> tuple[type[SpecError], tuple[tuple[Problem, ...]]]:
        # By default an exception is made again from its text; one that a process of a pool raises must arrive.
        return type(self), (self.problems,)


SHORTENED: Final = 3
"""Letters from which on a word may be one cut short: log of logarithmic."""


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word most like the one that was written, or the shortest that it begins; None when none is near."""
    by_folded = {name.casefold(): name for name in sorted(known)}
    import difflib  # for who has mistyped something

    near = difflib.get_close_matches(word.casefold(), by_folded, n=1, cutoff=0.6)
    if near:
        return by_folded[near[0]]
    begun = [name for name in by_folded if len(word) >= SHORTENED and name.startswith(word.casefold())]
    return by_folded[min(begun, key=len)] if begun else None


def did_you_mean(word: str, known: Iterable[str], what: Said) -> Message:
    """A hint: the nearest known word, or what is accepted, the first dozen by name."""
    names = sorted(known)
    near = nearest(word, names)
    return said.did_you_mean(name=near) if near is not None else said.accepted_names(what=what, names=names)


def one_of(word: str, known: Iterable[str]) -> Message:
    """A hint: the nearest known word, and all words that are accepted, in their order."""
    names = list(known)
    near = nearest(word, names)
    return said.accepted(names) if near is None else said.did_you_mean_of(near, names)
