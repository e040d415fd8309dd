"""A sentence for a user: declared once with its typed arguments, said with values, written when it is read.

    @message
    def noun_without_key(noun: Word, key: Quoted) -> None:
        \"\"\"{noun} has no {key}, which is required\"\"\"

    problems.add(where, noun_without_key(noun="coat", key="kind"))

The docstring is the English sentence and the source of all translations; the function's name with its module is the
id. Nothing is formatted until `str` is taken of what the call gives, so that a reporter decides in which language.
Translations are message catalogues of gettext: context is the id, msgid the English sentence.
"""

from __future__ import annotations

import gettext
import inspect
import typing
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType
from typing import Any, Final, ParamSpec, TypeAlias

from panelart.messages.arguments import Shown

P = ParamSpec("P")

_CATALOGUE: Final[dict[str, Sentence]] = {}
CATALOGUE: Final[Mapping[str, Sentence]] = MappingProxyType(_CATALOGUE)
"""Every sentence that was declared by the modules imported so far, by id."""

_NOTHING: Final = gettext.NullTranslations()
_SPOKEN: Final[ContextVar[gettext.NullTranslations]] = ContextVar("spoken", default=_NOTHING)


@contextmanager
def speaking(translations: gettext.NullTranslations) -> Iterator[None]:
    """Within this, messages are written in the language of a gettext catalogue; English where it lacks one."""
    token = _SPOKEN.set(translations)
    try:
        yield
    finally:
        _SPOKEN.reset(token)


class Sentence:
    """A sentence of the catalogue: `id`, the English text, its plural where it is counted, and its parameters.

    Raises ValueError when another sentence has the id.
    """

    def __init__(
        self, id_: str, english: str, plural: str = "", *, parameters: Callable[[], Mapping[str, Shown]]
    ) -> None:
        known = _CATALOGUE.get(id_)
        if known is not None and known.english != english:
            raise ValueError(f"two messages have the id {id_}")
        self.id: str = id_
        self.english: str = english
        self.plural: str = plural
        self._parameters = parameters
        _CATALOGUE[id_] = self

    @cached_property
    def parameters(self) -> Mapping[str, Shown]:
        """How each argument is written, by name."""
        return self._parameters()

    def written(self, arguments: Mapping[str, object]) -> str:
        """The sentence with its arguments, in the language that is spoken. Raises KeyError for one that is missing."""
        spoken = _SPOKEN.get()
        if self.plural:
            count = arguments["count"]
            assert isinstance(count, int)
            text = spoken.npgettext(self.id, self.english, self.plural, count)
        else:
            text = self.english if spoken is _NOTHING else spoken.pgettext(self.id, self.english)
        if not arguments:
            return text
        shown = self.parameters
        return text.format_map({name: shown[name].write(value) for name, value in arguments.items()})


@dataclass(frozen=True, slots=True)
class Message:
    """A sentence with its arguments; `str` writes it."""

    sentence: Sentence
    arguments: tuple[tuple[str, Any], ...] = ()

    @property
    def id(self) -> str:
        """The id of its sentence."""
        return self.sentence.id

    @property
    def english(self) -> str:
        """It in English whatever is spoken: for what is compared or kept."""
        with speaking(_NOTHING):
            return str(self)

    def __str__(self) -> str:
        return self.sentence.written(dict(self.arguments))

    def __lt__(self, other: object) -> bool:
        return str(self) < str(other)


Said: TypeAlias = str | Message
"""What stands in a message as a thing or fact: words as they are, or another message."""


def english(said: Said) -> str:
    """What was said, in English whatever is spoken."""
    return said if isinstance(said, str) else said.english


def message(declared: Callable[P, None]) -> Callable[P, Message]:
    """Declare a sentence: the function's docstring, with its parameters in braces."""
    return _declared(declared, "")


def counted(plural: str) -> Callable[[Callable[P, None]], Callable[P, Message]]:
    """Declare a sentence with two forms: the docstring for a `count` of one, `plural` for others."""
    return lambda declared: _declared(declared, plural)


def _declared(declared: Callable[P, None], plural: str) -> Callable[P, Message]:
    id_ = f"{declared.__module__.removeprefix('panelart.').removeprefix('messages.')}.{declared.__name__}"
    sentence = Sentence(
        id_.replace("_", "-"),
        inspect.cleandoc(declared.__doc__ or ""),
        plural,
        parameters=lambda: parameters_of(declared),
    )
    names = declared.__code__.co_varnames[: declared.__code__.co_argcount + declared.__code__.co_kwonlyargcount]

    def say(*values: P.args, **named: P.kwargs) -> Message:
        given = {**dict(zip(names, values, strict=False)), **named}
        # Messages are frozen values, whatever they were given.
        return Message(sentence, tuple((name, tuple(v) if isinstance(v, list) else v) for name, v in given.items()))

    say.__name__, say.__doc__, say.__module__ = declared.__name__, declared.__doc__, declared.__module__
    say.sentence = sentence  # type: ignore[attr-defined]
    return say


def parameters_of(declared: Callable[..., None]) -> Mapping[str, Shown]:
    """How the arguments of a declaring function are written. Raises TypeError for one that no kind describes."""
    hints = typing.get_type_hints(declared, include_extras=True)
    hints.pop("return", None)
    found: dict[str, Shown] = {}
    for name, hint in hints.items():
        ways = [extra for extra in getattr(hint, "__metadata__", ()) if isinstance(extra, Shown)]
        if len(ways) != 1:
            raise TypeError(f"{declared.__module__}.{declared.__name__}: {name} is of no kind of argument")
        found[name] = ways[0]
    return found
