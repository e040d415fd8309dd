"""What processes of other packages say, guarded: where one of their functions fails, its package and name are told."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Generic, TypeVar

from panelart.diagnostics import SpecError
from panelart.extensions import Entry, RefusedError, told
from panelart.messages import Message, Said
from panelart.messages import extensions as said
from panelart.messages.errors import said_by
from panelart.processes.process import Purchase

About = TypeVar("About")
Told = TypeVar("Told")


class Guarded(Generic[About, Told]):
    """A function of a process, run to its end; calling it raises ExtensionError where it fails.

    `checked` makes of what it gives what is asked for, or raises RefusedError.
    """

    def __init__(
        self,
        entry: Entry,
        process: str,
        function: Callable[[About], Iterable[Told]],
        checked: Callable[[Iterable[object]], tuple[Told, ...]],
    ) -> None:
        self._entry = entry
        self._process = process
        self._function = function
        self._checked = checked

    @property
    def canonical(self) -> tuple[str, Callable[[About], Iterable[Told]]]:
        """What tells it from others: the process and its function."""
        return self._process, self._function

    def __call__(self, about: About) -> tuple[Told, ...]:
        """What the function gives. Raises ExtensionError."""
        try:
            return self._checked(self._function(about))
        except SpecError:
            raise
        except RefusedError as error:
            raise self._entry.failed(said.process_failed(self._process, said_by(error))) from error
        except Exception as error:  # whatever a function of another package raises
            raise self._entry.failed(said.process_failed(self._process, told(error)), error) from error


def sentences(given: Iterable[object]) -> tuple[Said, ...]:
    """Sentences, each written once: one that cannot be fails here and not where it is printed."""
    return tuple(map(_sentence, given))


def purchases(given: Iterable[object]) -> tuple[Purchase, ...]:
    """What is bought, its sentences written once."""
    return tuple(map(_purchase, given))


def _sentence(one: object) -> Said:
    if not isinstance(one, Message | str):
        raise RefusedError(said.not_a_sentence(found=type(one).__name__))
    str(one)
    return one


def _purchase(one: object) -> Purchase:
    if not isinstance(one, Purchase):
        raise RefusedError(said.not_a_purchase(found=type(one).__name__))
    sentences((one.title, one.note))
    return one
