"""Problems gathered while a file is read, so that all of them can be shown at once."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final

from panelart.diagnostics import Problem, SpecError, Where
from panelart.messages import Said, quoted
from panelart.messages import source as said

MAX_PROBLEMS: Final = 200
"""After so many the reading stops: nobody reads further, and each costs a search for the nearest word."""


class Problems:
    """A growing list of problems, each kept once however often the faulty value is read."""

    def __init__(self) -> None:
        self._found: dict[Problem, None] = {}
        self._bare: set[Problem] = set()
        self._key = ""
        self._wrap: Callable[[Said], Said] | None = None

    @contextmanager
    def under(self, key: str) -> Iterator[None]:
        """While the value of this key is read, `add_under` names the key."""
        above, self._key = self._key, key
        try:
            yield
        finally:
            self._key = above

    @contextmanager
    def within(self, wrap: Callable[[Said], Said] | None) -> Iterator[None]:
        """While this lasts, messages are told as `wrap` makes of them, as what they are about has several places.

        A problem that is told already is not told again for another place.
        """
        above, self._wrap = self._wrap, wrap
        try:
            yield
        finally:
            self._wrap = above

    def add_under(self, where: Where, message: Said, hint: Said = "") -> None:
        """As `add`, with the key whose value is being read before the message."""
        self.add(where, said.under_key(self._key, message) if self._key else message, hint)

    def add(self, where: Where, message: Said, hint: Said = "") -> None:
        """Note one problem. Raises SpecError with all so far when there are more than MAX_PROBLEMS."""
        bare = Problem(where=where, says=message, accepts=hint)
        if bare in self._bare:
            return
        self._bare.add(bare)
        self._found[bare if self._wrap is None else Problem(where=where, says=self._wrap(message), accepts=hint)] = None
        if len(self._found) >= MAX_PROBLEMS:
            raise SpecError(
                (
                    *self._found,
                    Problem(
                        where=where,
                        says=said.too_many_errors(count=MAX_PROBLEMS),
                        accepts=said.fix_these_first(),
                    ),
                )
            )

    def extend(self, error: SpecError) -> None:
        """Take over the problems of another file."""
        for problem in error.problems:
            self.add(problem.where, problem.says, problem.accepts)

    def __len__(self) -> int:
        return len(self._found)

    def error(self) -> SpecError:
        """Everything found, to raise."""
        return SpecError(self._found)

    def raise_any(self) -> None:
        """Raise SpecError with everything found, if anything was."""
        if self._found:
            raise self.error()


shown = quoted
"""Text from a file as it is quoted in a message."""
