"""What is typed on the command line and cannot be used: every error in the words of this program.

Typer tells such errors by exceptions of its own; what they carry is put into messages here. The retired names of
commands and options are kept for one purpose only: that who types one is told the name it has now.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterable, Mapping
from typing import Any, Final, NoReturn, cast

import typer
import typer.core

from panelart.diagnostics import did_you_mean, nearest
from panelart.messages import Message, Said, cli, diagnostics
from panelart.messages import cli_usage as said

PROGRAM: Final = "panelart"
EXIT_USAGE: Final = 2
EXIT_INTERRUPTED: Final = 130

ORDER: Final = (
    "draft",
    "arrange",
    "check",
    "make",
    "view",
    "compare",
    "outdated",
    "sightlines",
    "bom",
    "drill-template",
    "inspect",
    "register",
    "bed",
    "test-strip",
    "shop-file",
    "parts",
    "fonts",
    "rules",
    "schema",
)
"""The commands as help lists them: from the first spec to the finished piece, then what is looked up."""

RETIRED_COMMANDS: Final[Mapping[str, str]] = {
    "list": "bom",
    "same": "outdated",
    "strip": "test-strip",
    "fit": "register",
    "shop": "shop-file",
    "template": "drill-template",
    "shadows": "sightlines",
}

RETIRED_OPTIONS: Final[Mapping[tuple[str, str], str]] = {
    ("check", "--fresh"): "--ignore-placement",
    ("check", "--list"): "--components",
    ("check", "--why"): "--explain",
    ("make", "--accept"): "--save-placement",
    ("make", "--fresh"): "--ignore-placement",
    ("make", "--rear"): "--rear-view",
    ("bed", "--data"): "--rows",
    ("bed", "--clearance"): "--pocket-clearance",
    ("bed", "--cutter"): "--cutter-diameter",
    ("bed", "--pin"): "--pin-diameter",
    ("register", "--json"): "--format",
    ("register", "--noise"): "--uncertainty",
    ("test-strip", "--measured"): "--limits",
    ("test-strip", "--why"): "--reason",
    ("drill-template", "--from"): "--side",
    ("draft", "--sizes"): "--stock-sizes",
    ("fonts", "--distance"): "--viewing-distance",
    ("parts", "--sheet"): "--all",
    ("schema", "--keys"): "--markdown",
}

_UsageError: Final = cast("type[Exception]", typer.BadParameter.__mro__[1])
"""The exception of all usage errors, which typer does not name in its interface."""


_TAKES_NONE: Final = re.compile("does not take")
_EXTRA: Final = re.compile(r"unexpected extra argument(?:s|\(s\))? \((.*)\)")
"""What typer says of errors that have no exception of their own."""


class Refused(typer.BadParameter):
    """A value that cannot be used: what was found (`says`), and what is accepted."""

    def __init__(self, says: Said, accepts: Said = "", option: str = "", context: Any = None) -> None:
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
    if listed_by and nearest(name, known) is None:
        raise Refused(says, cli.listed_by(f"{PROGRAM} {listed_by}"))
    raise Refused(says, did_you_mean(name, known, what))


class Commands(typer.core.TyperGroup):
    """The commands, in their order; what is typed wrongly is told in messages, with exit code 2."""

    def list_commands(self, ctx: Any) -> list[str]:
        """The names in the order of help."""
        places = {name: place for place, name in enumerate(ORDER)}
        return sorted(super().list_commands(ctx), key=lambda name: places.get(name, len(places)))

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        """The command that is typed first. Raises Refused for an unknown one."""
        name = args[0]
        if not name.startswith("-") and self.get_command(ctx, name) is None:
            raise Refused(_unknown_command(name, self.list_commands(ctx)), context=ctx)
        return super().resolve_command(ctx, args)

    def main(self, *args: Any, **extra: Any) -> NoReturn:
        """Run a command and exit with its code; what the commands raise themselves goes on."""
        extra |= {"prog_name": PROGRAM, "standalone_mode": False}
        try:
            code = super().main(*args, **extra)
        except _UsageError as error:
            print(usage_text(error), file=sys.stderr)
            sys.exit(EXIT_USAGE)
        except typer.Abort:
            code = EXIT_INTERRUPTED
        sys.exit(code if isinstance(code, int) else 0)


class Command(typer.core.TyperCommand):
    """A command whose help names arguments as this program's documents do: SPEC, [FONT...]."""

    def collect_usage_pieces(self, ctx: Any) -> list[str]:
        """What stands behind the command in the line of its usage."""
        return ["[OPTIONS]", *(_usage(param) for param in self.get_params(ctx) if _is_argument(param))]

    def format_options(self, ctx: Any, formatter: Any) -> None:
        """Arguments, then options, with what each is."""
        params: list[Any] = self.get_params(ctx)
        arguments = [(_usage(param), param.help or "") for param in params if _is_argument(param)]
        options = [row for param in params if not _is_argument(param) and (row := param.get_help_record(ctx))]
        for heading, rows in ((said.arguments_heading(), arguments), (said.options_heading(), options)):
            if rows:
                with formatter.section(str(heading)):
                    formatter.write_dl(rows)


def _is_argument(parameter: Any) -> bool:
    return bool(parameter.param_type_name == "argument")


def _usage(parameter: Any) -> str:
    name = f"{_name(parameter)}{'...' if parameter.nargs < 0 else ''}"
    return name if parameter.required else f"[{name}]"


def usage_text(error: Exception) -> str:
    """The lines of a usage error, and where help is found for what was mistyped."""
    if type(error).__name__ == "NoArgsIsHelpError":  # no command at all: its text is the help
        return str(error)
    context: Any = getattr(error, "ctx", None)
    told = said.usage_error(message=_message(error, context))
    from_command = isinstance(error, Refused) and error.param is None and not error.mistyped
    if context is None or from_command:
        return str(told)
    return f"{told}\n{said.help_line(command=context.command_path)}"


def _message(error: Exception, context: Any) -> Said:
    if isinstance(error, Refused):
        return _refused(error)
    option = getattr(error, "option_name", None)
    if option is not None and hasattr(error, "possibilities"):
        return _unknown_option(option, context)
    if option is not None:
        return said.value_unexpected(option=option) if _TAKES_NONE.search(str(error)) else said.value_missing(option)
    parameter: Any = getattr(error, "param", None)
    if hasattr(error, "param_type") and parameter is not None:
        return _missing(parameter)
    extra = _EXTRA.search(str(error))
    if extra is not None:
        return said.arguments_unexpected(words=extra[1])
    return str(getattr(error, "message", "") or error)


def _refused(error: Refused) -> Said:
    option = error.option or ("" if error.param is None else _name(error.param))
    says = said.of_option(option=option, message=error.says) if option else error.says
    return said.with_hint(message=says, hint=error.accepts) if error.accepts else says


def _name(parameter: Any) -> str:
    """A parameter as help names it."""
    if _is_argument(parameter):
        return str(parameter.metavar or parameter.name)
    return str(max(parameter.opts, key=len))


def _missing(parameter: Any) -> Message:
    name = _name(parameter)
    return said.argument_missing(name) if _is_argument(parameter) else said.option_missing(name)


def _unknown_command(name: str, known: Iterable[str]) -> Message:
    near = nearest(name, (*known, *RETIRED_COMMANDS))
    if near is None:
        return said.unknown_command(name)
    return said.unknown_command_near(name, RETIRED_COMMANDS.get(near, near))


def _unknown_option(name: str, context: Any) -> Message:
    command: Any = context.command
    known = [opt for param in command.params if not _is_argument(param) for opt in param.opts]
    long = sorted({*(opt for opt in known if opt.startswith("--")), "--help"})
    retired = {old: new for (of, old), new in RETIRED_OPTIONS.items() if of == command.name}
    near = nearest(name, (*long, *retired))
    if near is not None:
        return said.unknown_option_near(name, retired.get(near, near))
    accepted = diagnostics.accepted_names(what=said.options(), names=long)
    return said.with_hint(message=said.unknown_option(name), hint=accepted)
