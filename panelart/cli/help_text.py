"""Help as it is laid out: usage, sentences, arguments, options, commands, with our headings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Protocol, TypeAlias, runtime_checkable

import click

from panelart.messages import Message, Said, cli_help

Row: TypeAlias = tuple[str, Said]
"""What is typed, and what it is."""


@runtime_checkable
class Listed(Protocol):
    """A parameter that has a line in help."""

    def row(self) -> Row:
        """What is typed for it, and what it is."""


class HelpInOurWords(click.Command):
    """A command whose help names arguments as this program's documents do, every word of it a message."""

    def usage_pieces(self) -> list[str]:
        """What stands behind the command in the line of its usage."""
        arguments = [param.row()[0] for param in self.params if _is_argument(param) and isinstance(param, Listed)]
        return [str(cli_help.usage_options()), *arguments]

    def format_usage(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The line that shows how the command is typed."""
        formatter.write_usage(ctx.command_path, " ".join(self.usage_pieces()), prefix=f"{cli_help.usage()} ")

    def format_options(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Arguments, then options, with what each is."""
        rows = [(param, param.row()) for param in self.params if isinstance(param, Listed)]
        write_rows(formatter, cli_help.arguments_heading(), [row for param, row in rows if _is_argument(param)])
        options = [row for param, row in rows if not _is_argument(param)]
        write_rows(formatter, cli_help.options_heading(), [*options, ("--help", cli_help.help_option())])


def _is_argument(parameter: object) -> bool:
    return isinstance(parameter, click.Argument)


def write_rows(formatter: click.HelpFormatter, heading: Message, rows: Iterable[Row]) -> None:
    """A section of help; nothing where there are no rows."""
    written: Sequence[tuple[str, str]] = [(typed, str(says)) for typed, says in rows]
    if written:
        with formatter.section(str(heading)):
            formatter.write_dl(written)
