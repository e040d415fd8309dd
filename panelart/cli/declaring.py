"""How a command is declared: a typed function, each parameter annotated with what it is on the command line.

    @command(help_.compare_means())
    def compare(
        old: Annotated[Path, argument(help_.old_spec(), file(".yaml", metavar="OLD"))],
        format_: Annotated[PlainFormat, option("--format", help_.format())] = PlainFormat.TEXT,
        quiet: Annotated[bool, option("-q --quiet", help_.quiet())] = False,
    ) -> None:

What has no default must be given. A `list` is an argument or an option that may be repeated, a `bool` a flag, an
enumeration one of its words. The function's own defaults are the only ones: what is not typed is not handed over. The
command is named, and its first sentence given, in the table of `commands.py`. An `extra` that all of the command needs
is named with it; one that a part of it needs is found missing where that part imports it (`failures.py`). A command
that checks panels or writes of them runs with `extensions`: none is missing unless it is omitted by `--without`.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable
from contextlib import nullcontext
from dataclasses import dataclass
from enum import Enum
from types import NoneType, UnionType
from typing import TYPE_CHECKING, Annotated, Any, Final, Union, get_args, get_origin

import click

from panelart.cli.help_text import HelpInOurWords, Row
from panelart.cli.omitted import known, omitting
from panelart.cli.usage import Refused, name_of
from panelart.cli.values import Kind, kind_for, text
from panelart.extras import require
from panelart.messages import Message, Said, cli_help, cli_usage, figures

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

    ParamType = click.ParamType[Any]
else:
    ParamType = click.ParamType  # older versions know no type of its values

_WITHOUT: Final = "without"
_UNIONS: Final = (Union, UnionType)


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """What a parameter is on the command line: an option by its `names`, else an argument."""

    names: tuple[str, ...]
    says: Message
    kind: Kind[Any] | None


def argument(says: Message, kind: Kind[Any]) -> Given:
    """An argument, named in help by its kind."""
    return Given(names=(), says=says, kind=kind)


def option(names: str, says: Message, kind: Kind[Any] | None = None) -> Given:
    """An option by its names, such as "-o --out" or "--turn/--no-turn"; a flag or a word has no need of a kind."""
    return Given(names=tuple(names.split()), says=says, kind=kind)


@dataclass(frozen=True, slots=True)
class Declared:
    """A function that is a command, the paragraphs that help has after its first sentence, and the extra it needs.

    `extensions` is whether it runs with those that are installed.
    """

    run: Callable[..., None]
    more: tuple[Message, ...]
    extra: str
    extensions: bool


def command(*more: Message, extra: str = "", extensions: bool = False) -> Callable[[Callable[..., None]], Declared]:
    """Declare a command by the paragraphs of its help after the first sentence, and what it needs."""
    return lambda run: Declared(run, more, extra, extensions)


class Command(HelpInOurWords, click.Command):
    """A declared command, as click runs it."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Read the arguments. Raises UsageError."""
        try:
            rest = super().parse_args(ctx, args)
        except click.UsageError as error:
            error.ctx = error.ctx or ctx
            raise
        if rest and not ctx.resilient_parsing:
            raise Refused(cli_usage.arguments_unexpected(words=" ".join(rest)), context=ctx)
        return rest


def click_command(name: str, says: Message, declared: Declared) -> Command:
    """A declared command under its name, with the first sentence of its help."""
    parameters = inspect.signature(declared.run, eval_str=True).parameters.values()

    def run(**given: Any) -> None:
        without = given.pop(_WITHOUT, None) or []
        if declared.extra:
            require(declared.extra)
        with omitting(without) if declared.extensions else nullcontext():
            declared.run(**{name: value for name, value in given.items() if value is not None})

    return Command(
        name,
        params=[*map(_parameter, parameters), *([_without()] if declared.extensions else [])],
        callback=run,
        help="\n\n".join(map(str, (says, *declared.more))),
        context_settings={"allow_extra_args": True},  # refused above, in our words
    )


def _without() -> click.Parameter:
    given = option("--without", cli_help.without(), text("NAME", known))
    return _Option(_WITHOUT, given, text("NAME", known), None, required=False, many=True)


def _parameter(parameter: inspect.Parameter) -> click.Parameter:
    """What click knows of a parameter. Raises TypeError for one that is not declared as it must be."""
    if get_origin(parameter.annotation) is not Annotated:
        raise TypeError(f"{parameter.name} is neither an argument nor an option")
    type_, given = get_args(parameter.annotation)[:2]
    type_, many = _one(type_)
    default = None if parameter.default is parameter.empty else parameter.default
    required = parameter.default is parameter.empty
    if type_ is bool:
        return _Flag(parameter.name, given, default=bool(default))
    kind = given.kind or kind_for(type_) or text(parameter.name.upper())
    if given.names:
        return _Option(parameter.name, given, kind, default, required=required, many=many)
    return _Argument(parameter.name, given, kind, required=required, many=many)


def _one(type_: Any) -> tuple[Any, bool]:
    """The type of one value without None, and whether there may be several."""
    if get_origin(type_) in _UNIONS:
        (type_,) = (each for each in get_args(type_) if each is not NoneType)
    if get_origin(type_) is list:
        return get_args(type_)[0], True
    return type_, False


class _Type(ParamType):
    """A kind of value, as click reads and completes it."""

    def __init__(self, kind: Kind[Any]) -> None:
        self.name = kind.metavar
        self._kind = kind

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """A text as the value that it is. Raises Refused."""
        return self._kind.read(value) if isinstance(value, str) else value

    def shell_complete(self, ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
        """What a shell may complete a text with; for files the endings to choose by."""
        from click.shell_completion import CompletionItem

        if self._kind.folders:
            return [CompletionItem(incomplete, type="dir")]
        if self._kind.suffixes:
            return [CompletionItem(" ".join(self._kind.suffixes), type="file")]
        from panelart.diagnostics import SpecError

        try:
            names = [str(name) for name in self._kind.names()]
        except SpecError:  # an extension that cannot be loaded: told when the command is run
            return []
        return [CompletionItem(name) for name in names if name.startswith(incomplete)]


def _list_or_none(_: click.Context, __: click.Parameter, values: Any) -> list[Any] | None:
    return list(values) if values else None


class _Argument(click.Argument):
    def __init__(self, name: str, given: Given, kind: Kind[Any], *, required: bool, many: bool) -> None:
        super().__init__(
            [name],
            required=required,
            type=_Type(kind),
            nargs=-1 if many else 1,
            metavar=kind.metavar,
            callback=_list_or_none if many else None,
        )
        self._says: Final = given.says

    def row(self) -> Row:
        """Its line in help."""
        return self.in_usage(), self._says

    def in_usage(self) -> str:
        """It, as the line of usage has it: SPEC, [FONT...]."""
        name = f"{name_of(self)}{'...' if self.nargs < 0 else ''}"
        return name if self.required else f"[{name}]"


class _Option(click.Option):
    def __init__(self, name: str, given: Given, kind: Kind[Any], default: Any, *, required: bool, many: bool) -> None:
        super().__init__(
            [name, *given.names],
            required=required,
            type=_Type(kind),
            multiple=many,
            metavar=kind.metavar,
            help=str(given.says),
            callback=_list_or_none if many else None,
        )
        self._row: Final = (f"{', '.join(given.names)} {kind.metavar}", _with_default(given.says, default, required))

    def row(self) -> Row:
        """Its line in help."""
        return self._row


class _Flag(click.Option):
    def __init__(self, name: str, given: Given, *, default: bool) -> None:
        super().__init__([name, *given.names], is_flag=True, default=default, help=str(given.says))
        shown = self.opts[0].lstrip("-") if default else None
        self._row: Final = (", ".join(given.names).replace("/", " / "), _with_default(given.says, shown, False))

    def row(self) -> Row:
        """Its line in help."""
        return self._row


def _with_default(says: Message, default: Any, required: bool) -> Said:
    if required:
        return cli_help.required(says)
    if default is None or default == "":
        return says
    value = default.value if isinstance(default, Enum) else default
    return cli_help.default(says, figures.plain(value) if isinstance(value, float) else value)
