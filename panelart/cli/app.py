"""The table of commands."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any, TypeVar

import typer

from panelart import __version__
from panelart.cli.usage import Command, Commands
from panelart.messages import Message
from panelart.messages import cli_help as said

app = typer.Typer(
    name="panelart",
    cls=Commands,
    help=str(said.program()),
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)


Function = TypeVar("Function", bound=Callable[..., Any])


def command(*paragraphs: Message, name: str | None = None) -> Callable[[Function], Function]:
    """Declare a command by the paragraphs of its help; its name is that of the function, if none is given."""
    return app.command(name, cls=Command, help="\n\n".join(map(str, paragraphs)))


def _version(asked: bool) -> None:
    if asked:
        print(f"panelart {__version__}")
        raise typer.Exit


@app.callback(help=str(said.program()))
def options(
    _: Annotated[bool, typer.Option("--version", callback=_version, is_eager=True, help=str(said.version()))] = False,
) -> None:
    """What stands before a command."""
