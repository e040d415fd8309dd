"""Extensions of a command: all that are installed, but for those omitted by `--without`."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Final


def known() -> Iterable[str]:
    """The extensions that are installed, by name."""
    from panelart.extensions import known as installed

    return installed()


def _rules() -> None:
    from panelart.checks.registry import installed

    installed()


def _processes() -> None:
    from panelart.processes.registry import processes

    processes()


def _parts() -> None:
    from panelart.catalogue.installed import brought

    brought()


def _documents() -> None:
    from panelart.documents.installed import documents

    documents()


_LOADED: Final[Mapping[Callable[[], None], tuple[str, ...]]] = {
    _rules: ("panelart.rules",),
    _processes: ("panelart.processes",),
    _parts: ("panelart.parts",),
    _documents: ("panelart.documents", "panelart.processes"),
}
"""What loads extensions, and for which groups: documents are held against the files of processes."""


@contextmanager
def omitting(names: Sequence[str]) -> Iterator[None]:
    """Within this a command runs without some extensions and with all others, which are loaded before it does anything.

    Raises Refused for a name that no extension has, and ExtensionError with all that is wrong with the others.
    """
    from panelart import extensions

    installed = extensions.known()
    for name in names:
        if extensions.normalised(name) not in installed:
            from panelart.cli.usage import refuse_name
            from panelart.messages import extensions as said

            refuse_name(said.unknown(name), name, installed, said.extensions())
    with extensions.leaving_out(names):
        if installed:
            _load()
        yield


def _load() -> None:
    """Load the extensions of all groups; of a group without one nothing is imported. Raises ExtensionError."""
    from panelart import extensions

    problems = list(extensions.unreadable())
    for load, groups in _LOADED.items():
        if any(map(extensions.offered, groups)):
            try:
                load()
            except extensions.ExtensionError as error:
                problems += (problem for problem in error.problems if problem not in problems)
    if problems:
        raise extensions.ExtensionError(problems)
