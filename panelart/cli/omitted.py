"""Extensions of a command: all that are installed, but for those omitted by `--without`."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager


def known() -> Iterable[str]:
    """The extensions that are installed, by name."""
    from panelart.extensions import known as installed

    return installed()


@contextmanager
def omitting(names: Sequence[str]) -> Iterator[None]:
    """Within this a command runs without some extensions and with all others, which are loaded before it does anything.

    Raises Refused for a name that no extension has, and ExtensionError where one of the others cannot be loaded.
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
            from panelart.checks.registry import installed as rules

            rules()
        yield
