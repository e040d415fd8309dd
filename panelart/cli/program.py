"""The program: its own options, and the commands of the table, each imported when it is typed."""

from __future__ import annotations

import importlib
import os
import sys
from typing import TYPE_CHECKING

import click

from panelart import __version__
from panelart.cli.exits import EXIT_INTERRUPTED, EXIT_USAGE
from panelart.cli.help_text import HelpInOurWords, Row, write_rows
from panelart.cli.usage import PROGRAM, unknown_command, usage_text
from panelart.messages import cli_help as said

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

COMPLETE = "_PANELART_COMPLETE"
"""The variable by which the scripts of `panelart completion` ask for completions."""


def run() -> int:
    """Run the command that was typed, and give its exit code; what commands raise themselves goes on."""
    if COMPLETE in os.environ:
        from panelart.cli.shells import use

        use()
    try:
        code = Program().main(prog_name=PROGRAM, complete_var=COMPLETE, standalone_mode=False)
    except click.UsageError as error:
        print(usage_text(error), file=sys.stderr)
        return EXIT_USAGE
    except click.Abort:
        return EXIT_INTERRUPTED
    return code if isinstance(code, int) else 0


def _print_version(ctx: click.Context, _: click.Parameter, asked: bool) -> None:
    if asked and not ctx.resilient_parsing:
        print(f"{PROGRAM} {__version__}")
        ctx.exit()


class _Version(click.Option):
    def __init__(self) -> None:
        super().__init__(
            ["--version"], is_flag=True, is_eager=True, expose_value=False, callback=_print_version,
            help=str(said.version()),
        )  # fmt: skip

    def row(self) -> Row:
        """Its line in help."""
        return "--version", said.version()


class Program(HelpInOurWords, click.Group):
    """The commands, in the order of the table; what is typed wrongly is told in messages."""

    def __init__(self) -> None:
        super().__init__(PROGRAM, params=[_Version()], help=str(said.program()), no_args_is_help=False)

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names in the order of help."""
        from panelart.cli.commands import COMMANDS

        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of a name, imported now; None where the table has none."""
        from panelart.cli.commands import COMMANDS
        from panelart.cli.declaring import Declared, click_command

        entry = COMMANDS.get(cmd_name)
        if entry is None:
            return None
        declared = getattr(importlib.import_module(f"panelart.cli.{entry.module}"), cmd_name.replace("-", "_"))
        if not isinstance(declared, Declared):
            raise TypeError(f"{entry.module} does not declare {cmd_name}")
        return click_command(cmd_name, entry.says(), declared)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """The command that is typed first. Raises Refused for an unknown one."""
        from panelart.cli.commands import COMMANDS

        if not ctx.resilient_parsing and args[0] not in COMMANDS:
            raise unknown_command(args[0], ctx)
        return super().resolve_command(ctx, args)

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Read the program's own options; without anything typed, tell the help as an error."""
        if not args and not ctx.resilient_parsing:
            print(ctx.get_help(), file=sys.stderr)
            ctx.exit(EXIT_USAGE)
        return super().parse_args(ctx, args)

    def invoke(self, ctx: click.Context) -> object:
        """Run the command that was typed; one that is interrupted ends without a word, as `view` is meant to."""
        try:
            return super().invoke(ctx)
        except KeyboardInterrupt:
            ctx.exit(EXIT_INTERRUPTED)

    def usage_pieces(self) -> list[str]:
        """What stands behind the program in the line of its usage."""
        return [str(said.usage_options()), str(said.usage_command())]

    def format_options(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Options, then the commands with the first sentence of each."""
        from panelart.cli.commands import COMMANDS

        super().format_options(ctx, formatter)
        write_rows(formatter, said.commands_heading(), [(name, entry.says()) for name, entry in COMMANDS.items()])

    def shell_complete(self, ctx: click.Context, incomplete: str) -> list[CompletionItem]:
        """The commands that begin so, with what each does, or the program's own options."""
        from click.shell_completion import CompletionItem

        from panelart.cli.commands import COMMANDS

        named = [
            CompletionItem(name, help=str(entry.says()))
            for name, entry in COMMANDS.items()
            if name.startswith(incomplete)
        ]
        return [*named, *click.Command.shell_complete(self, ctx, incomplete)]
