"""What is typed on the command line and cannot be used: every error in the words of this program.

click tells such errors by exceptions of its own; what they carry is put into messages here.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final, NoReturn

import click

from panelart.messages import Message, Said
from panelart.messages import cli_usage as said

PROGRAM: Final = "panelart"


class Refused(click.BadParameter):
    """A value that cannot be used: what was found (`says`), and what is accepted."""

    def __init__(self, says: Said, accepts: Said = "", option: str = "", context: click.Context | None = None) -> None:
        super().__init__(str(says), ctx=context, param_hint=option or None)
        self.says, self.accepts, self.option = says, accepts, option
        self.mistyped = context is not None


def refuse(option: str, says: Said, accepts: Said = "") -> NoReturn:
    """End the command for the value of an option, or of an argument by its name in help. Raises Refused."""
    raise Refused(says, accepts, option)


def refuse_name(says: Said, name: str, known: Iterable[str], what: Said, *, listed_by: str = "") -> NoReturn:
    """End the command for an unknown name, with the nearest one or those of the kind `what`. Raises Refused.

    `listed_by` is the command that lists all names, where they are too many for a message.
    """
    from panelart.diagnostics import did_you_mean, nearest
    from panelart.messages import cli

    if listed_by and nearest(name, known) is None:
        raise Refused(says, cli.listed_by(f"{PROGRAM} {listed_by}"))
    raise Refused(says, did_you_mean(name, known, what))


def usage_text(error: click.UsageError) -> str:
    """The lines of a usage error, and where help is found for what was mistyped."""
    told = said.usage_error(message=_message(error))
    from_command = isinstance(error, Refused) and error.param is None and not error.mistyped
    if error.ctx is None or from_command:
        return str(told)
    return f"{told}\n{said.help_line(command=error.ctx.command_path)}"


def name_of(parameter: click.Parameter) -> str:
    """A parameter as help names it."""
    if isinstance(parameter, click.Argument):
        return str(parameter.metavar or parameter.name)
    return max(parameter.opts, key=len)


def _message(error: click.UsageError) -> Said:
    if isinstance(error, Refused):
        return _refused(error)
    if isinstance(error, click.NoSuchOption):
        return _unknown_option(error)
    if isinstance(error, click.BadOptionUsage):
        return _bad_option(error)
    if isinstance(error, click.MissingParameter) and error.param is not None:
        return _missing(error.param)
    return error.message


def _refused(error: Refused) -> Said:
    option = error.option or ("" if error.param is None else name_of(error.param))
    says = said.of_option(option=option, message=error.says) if option else error.says
    return said.with_hint(message=says, hint=error.accepts) if error.accepts else says


def _bad_option(error: click.BadOptionUsage) -> Message:
    """A value for an option that takes none, or none for one that does."""
    params = error.ctx.command.params if error.ctx is not None else []
    flags = {name for param in params if isinstance(param, click.Option) and param.is_flag for name in param.opts}
    name = error.option_name
    return said.value_unexpected(option=name) if name in flags else said.value_missing(name)


def _missing(parameter: click.Parameter) -> Message:
    name = name_of(parameter)
    return said.argument_missing(name) if isinstance(parameter, click.Argument) else said.option_missing(name)


def unknown_command(name: str, context: click.Context) -> Refused:
    """The error of a command that is not there, with the nearest name; of a retired one with the name it has now."""
    from panelart.cli.commands import COMMANDS, RETIRED_COMMANDS
    from panelart.diagnostics import nearest

    near = nearest(name, (*COMMANDS, *RETIRED_COMMANDS))
    if near is None:
        return Refused(said.unknown_command(name), context=context)
    return Refused(said.unknown_command_near(name, RETIRED_COMMANDS.get(near, near)), context=context)


def _unknown_option(error: click.NoSuchOption) -> Message:
    from panelart.cli.commands import RETIRED_OPTIONS
    from panelart.diagnostics import nearest
    from panelart.messages import diagnostics

    name = error.option_name
    command = None if error.ctx is None else error.ctx.command
    params = [] if command is None else command.params
    known = [opt for param in params if isinstance(param, click.Option) for opt in (*param.opts, *param.secondary_opts)]
    long = sorted({*(opt for opt in known if opt.startswith("--")), "--help"})
    retired = {old: new for (of, old), new in RETIRED_OPTIONS.items() if command is not None and of == command.name}
    near = nearest(name, (*long, *retired))
    if near is not None:
        return said.unknown_option_near(name, retired.get(near, near))
    accepted = diagnostics.accepted_names(what=said.options(), names=long)
    return said.with_hint(message=said.unknown_option(name), hint=accepted)
