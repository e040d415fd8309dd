"""A sentence for a user: declared once with its typed arguments, said with values, written when it is read.

    @message
    def noun_without_key(noun: Word, key: Quoted) -> None:
        \"\"\"{noun} has no {key}, which is required\"\"\"

    problems.add(where, noun_without_key(noun="coat", key="kind"))

The docstring is the English sentence and the source of all translations; its lines are joined by spaces, and braces
that are to be read are doubled. The function's name with its module is the id. Nothing is formatted until `str` is
taken of what the call gives, so that a reporter decides in which language. Translations are message catalogues of
gettext: context is the id, msgid the English sentence.
"""

from __future__ import annotations

import gettext
import importlib
import typing
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cached_property
from types import MappingProxyType
from typing import Any, Final, Generic, ParamSpec, TypeAlias

from panelart.canonical import Struct
from panelart.messages.shown import Shown

P = ParamSpec("P")

_CATALOGUE: Final[dict[str, Sentence]] = {}
CATALOGUE: Final[Mapping[str, Sentence]] = MappingProxyType(_CATALOGUE)
"""Every sentence that was declared by the modules imported so far, by id."""

_NOTHING: Final = gettext.NullTranslations()
_SPOKEN: Final[ContextVar[gettext.NullTranslations]] = ContextVar("spoken", default=_NOTHING)


@contextmanager
def speaking(translations: gettext.NullTranslations) -> Iterator[None]:
    """Within this, messages are written in the language of a gettext catalogue; English where it lacks one.

    It holds for this thread and task alone; a thread that is started here speaks English, unless it is run in
    `contextvars.copy_context()`.
    """
    token = _SPOKEN.set(translations)
    try:
        yield
    finally:
        _SPOKEN.reset(token)


class Sentence:
    """A sentence of the catalogue: `id`, the English text, its plural where it is counted, and its parameters.

    `module` is where it is declared, so that a sentence is found again by a program that has not imported it yet.

    Raises ValueError when another sentence has the id, or when it says nothing.
    """

    def __init__(
        self,
        id_: str,
        english: str,
        plural: str = "",
        *,
        parameters: Callable[[], Mapping[str, Shown]],
        module: str = "",
    ) -> None:
        if not english:
            raise ValueError(f"the message {id_} says nothing")
        self.id: str = id_
        self.english: str = english
        self.plural: str = plural
        self.module: str = module
        self._parameters = parameters
        self._register()

    def _register(self) -> None:
        """Take it into the catalogue. Raises ValueError when another sentence has its id."""
        known = _CATALOGUE.setdefault(self.id, self)
        if known is not self and known != self:
            raise ValueError(f"two messages have the id {self.id}")

    @cached_property
    def parameters(self) -> Mapping[str, Shown]:
        """How each argument is written, by name."""
        return self._parameters()

    def written(self, arguments: Mapping[str, object]) -> str:
        """The sentence with its arguments, in the language that is spoken. Raises KeyError for one that is missing."""
        spoken = _SPOKEN.get()
        shown = self.parameters
        if not shown:
            return self._text(spoken, 0).replace("{{", "{").replace("}}", "}")
        words = {name: shown[name].write(value) for name, value in arguments.items()}
        count = arguments.get("count", 0)
        try:
            return self._text(spoken, count).format_map(words)
        except (KeyError, IndexError, ValueError, AttributeError):
            # A slip in the braces of a translation must not stop a report.
            if spoken is _NOTHING:
                raise
            return self._text(_NOTHING, count).format_map(words)

    def _text(self, spoken: gettext.NullTranslations, count: Any) -> str:
        if self.plural:
            return spoken.npgettext(self.id, self.english, self.plural, count)
        return self.english if spoken is _NOTHING else spoken.pgettext(self.id, self.english)

    def __eq__(self, other: object) -> bool:
        if self is other:
            return True
        return isinstance(other, Sentence) and self._said == other._said

    def __hash__(self) -> int:
        return hash(self.id)

    def __repr__(self) -> str:
        return f"<sentence {self.id}>"

    def __reduce__(self) -> tuple[Callable[[str, str], Sentence], tuple[str, str]]:
        return _found_again, (self.id, self.module)

    @property
    def canonical(self) -> tuple[str, str, str]:
        """What tells it from every other sentence."""
        return self._said

    @property
    def _said(self) -> tuple[str, str, str]:
        return self.id, self.english, self.plural


def _found_again(id_: str, module: str) -> Sentence:
    """The sentence of a copied or stored message."""
    if id_ not in _CATALOGUE and module:
        importlib.import_module(module)
    return _CATALOGUE[id_]


class Message(Struct, frozen=True):
    """A sentence with its arguments; `str` writes it. Messages are in order as their English texts are."""

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

    def __repr__(self) -> str:
        from panelart.reprs import cut  # help and completion speak, and show no nouns

        return cut(f"{self.id}({', '.join(f'{name}={value!r}' for name, value in self.arguments)})", 160)

    def __lt__(self, other: object) -> bool:
        return self.english < english(other) if isinstance(other, str | Message) else NotImplemented

    def __gt__(self, other: object) -> bool:
        return self.english > english(other) if isinstance(other, str | Message) else NotImplemented


Said: TypeAlias = str | Message
"""What stands in a message as a thing or fact: words as they are, or another message."""


def english(said: Said) -> str:
    """What was said, in English whatever is spoken."""
    return said if isinstance(said, str) else said.english


class _DeclaredSentence(Sentence):
    """The sentence of a function, taken from it when it is first asked for: thousands are declared, few are said."""

    def __init__(self, declared: Callable[..., None], plural: str) -> None:
        if not (declared.__doc__ and declared.__doc__.strip()):
            raise ValueError(f"the message {declared.__name__} says nothing")
        self._declared = declared
        self._plural = plural
        self.module = declared.__module__
        room = self.module.removeprefix("panelart.").removeprefix("messages.")
        self.id = f"{room}.{declared.__name__}".replace("_", "-")
        self._register()

    @cached_property
    def english(self) -> str:  # type: ignore[override]  # read like the attribute that it stands for
        return _joined(self._declared.__doc__ or "")

    @cached_property
    def plural(self) -> str:  # type: ignore[override]  # as above
        return _joined(self._plural)

    @cached_property
    def parameters(self) -> Mapping[str, Shown]:
        return parameters_of(self._declared)


class Declared(Generic[P]):
    """A declared sentence. Called with the arguments of its function, it gives the message; nothing else is taken."""

    def __init__(self, declared: Callable[P, None], plural: str) -> None:
        self.sentence: Final[Sentence] = _DeclaredSentence(declared, plural)
        self.__wrapped__: Final = declared

    @cached_property
    def _names(self) -> tuple[str, ...]:
        code = self.__wrapped__.__code__
        return code.co_varnames[: code.co_argcount + code.co_kwonlyargcount]

    def __call__(self, *values: P.args, **named: P.kwargs) -> Message:
        self.__wrapped__(*values, **named)  # Python itself refuses arguments that it does not have.
        given: dict[str, Any] = {**dict(zip(self._names, values, strict=False)), **named}
        # In the declared order, so that messages that say the same are equal; lists may change, tuples do not.
        return Message(self.sentence, tuple((name, _frozen(given[name])) for name in self._names))

    def __repr__(self) -> str:
        return f"<message {self.sentence.id}>"


def message(declared: Callable[P, None]) -> Declared[P]:
    """Declare a sentence: the function's docstring, with its parameters in braces."""
    return Declared(declared, "")


def counted(plural: str) -> Callable[[Callable[P, None]], Declared[P]]:
    """Declare a sentence with two forms: the docstring for a `count` of one, `plural` for others."""
    return lambda declared: Declared(declared, plural)


def _joined(text: str) -> str:
    """A text whose lines were broken in the source only, on one line."""
    return " ".join(text.split())


def _frozen(value: object) -> object:
    return tuple(value) if isinstance(value, list) else value


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
