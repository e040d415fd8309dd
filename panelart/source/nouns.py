"""Declared nouns: everything that is known about a fact of a file, once, at the noun it belongs to.

    class Knob(Noun):
        \"\"\"What is fitted over a shaft.\"\"\"

        diameter = key(Length(above=0, maximum=500), required=True, says="Largest diameter, skirt included.")
        height = key(Length(above=0, maximum=500), required=True, says="Top of the knob above the face.")

From a noun follow the reader with its messages and places, the JSON Schema, the key reference, the facts that two
panels are compared by, and the JSON of a panel. On the class an attribute is the key (`Knob.height`, with its kind,
unit, bounds, default and sentence); on what was read it is the value: `knob.height` is 16.0, its default, or None where
it is neither written nor has a default, or was written wrong, which is told already.

What was read is never built whole or not at all: a value with a problem is noted and left out, and the rest is read on,
so that all problems of a file are told at once.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any, ClassVar, Final, Generic, Self, TypeVar, overload

from panelart.diagnostics import Where
from panelart.messages import Message, Said, Sentence
from panelart.source.nodes import Node
from panelart.source.problems import Problems
from panelart.source.schema import Field, Fields, Kind, Record

T = TypeVar("T")
T_co = TypeVar("T_co", covariant=True)


class Key(Field[T_co]):
    """One fact of a noun: its key in the file, what it holds, its default, and the sentence that documents it."""

    __slots__ = ()

    def __set_name__(self, owner: type[Noun], attribute: str) -> None:
        # A key that several nouns share is declared once and stands in each under the same attribute.
        self.name = self.name or attribute.removesuffix("_")
        self.doc = _in_catalogue(self.doc, owner, self.name)
        self.otherwise = _in_catalogue(self.otherwise, owner, f"{self.name}.otherwise")

    @overload
    def __get__(self, noun: None, owner: type[Noun]) -> Self: ...

    @overload
    def __get__(self, noun: Noun, owner: type[Noun]) -> T_co: ...

    def __get__(self, noun: Noun | None, owner: type[Noun]) -> Any:
        return self if noun is None else noun.read[self]


def _in_catalogue(told: Said, owner: type[Noun], name: str) -> Said:
    """What documents a key as a message of the catalogue; as it is where it is one already, or nothing."""
    if not told or isinstance(told, Message):
        return told
    literal = told.replace("{", "{{").replace("}", "}}")
    id_ = f"keys.{_words(owner)}.{name}".replace(" ", "-").replace("_", "-")
    return Message(Sentence(id_, literal, parameters=dict, module=owner.__module__))


def _words(noun: type[Noun]) -> str:
    """A noun's class name in small words."""
    return re.sub(r"(?<!^)(?=[A-Z])", " ", noun.__name__).lower()


@overload
def key(kind: Kind[T], *, says: str, default: T, otherwise: str = "", name: str = "") -> Key[T]: ...


@overload
def key(kind: Kind[T], *, says: str, required: bool = False, otherwise: str = "", name: str = "") -> Key[T | None]: ...


def key(
    kind: Kind[Any],
    *,
    says: str,
    required: bool = False,
    default: Any = None,
    otherwise: str = "",
    name: str = "",
) -> Key[Any]:
    """Declare a key of a noun.

    `says` is one or more sentences. A key that may be left out has a `default`, or `otherwise` says in words what
    then holds. `name` is the key in the file where it is not the attribute's: keywords of Python have a `_` behind
    them as attributes and need none.
    """
    return Key(name, kind, doc=says, required=required, default=default, otherwise=otherwise)


class Noun:
    """What a mapping of the file says, as far as it could be read; the docstring documents it.

    `NAME` is what messages call it, the class's name in small words if not given. `MARKED_BY` is the key that tells it
    from the other nouns of a OneOf. `ELSEWHERE` says of keys that belong to other nouns why they do not stand here.
    """

    __slots__ = ("read",)

    NAME: ClassVar[str] = ""
    MARKED_BY: ClassVar[str] = ""
    ELSEWHERE: ClassVar[tuple[tuple[str, Said], ...]] = ()

    def __init__(self, read: Fields) -> None:
        self.read = read

    @property
    def begins(self) -> Where:
        """Where the mapping begins."""
        return self.read.place

    def where(self, key: Field[Any]) -> Where:
        """Where the value of a key stands, or where the mapping begins when the key was left out."""
        return self.read.where(key)

    def key_where(self, key: Field[Any]) -> Where:
        """Where a key itself stands, or where the mapping begins when it was left out."""
        return self.read.key_where(key)

    def written(self, key: Field[Any]) -> bool:
        """Whether a key stands in the file, even when its value has a problem."""
        return self.read.written(key)

    def misread(self, key: Field[Any]) -> bool:
        """Whether a key stands in the file with a value that has a problem, which is told already."""
        return self.read.misread(key)

    def __getitem__(self, key: Field[T]) -> T | None:
        """The value of a key that is chosen when the program runs."""
        return self.read[key]

    @classmethod
    def empty(cls, at: Where) -> Self:
        """The noun with nothing written: its defaults."""
        return cls(Fields(record_of(cls), at, {}, {}, {}))


N = TypeVar("N", bound=Noun)


def keys_of(noun: type[Noun]) -> Iterator[Key[Any]]:
    """The keys of a noun: its own in the order in which they are declared, then those of its bases."""
    for each in noun.__mro__:
        yield from (declared for declared in vars(each).values() if isinstance(declared, Key))


_RECORDS: Final[dict[type[Noun], Record]] = {}


def record_of(noun: type[Noun]) -> Record:
    """The noun as a record of the schema's table, the same one whenever it is asked for."""
    if noun not in _RECORDS:
        _RECORDS[noun] = _record(noun)
    return _RECORDS[noun]


def _record(noun: type[Noun]) -> Record:
    name = noun.NAME or _words(noun)
    return Record(
        name,
        tuple(keys_of(noun)),
        doc=" ".join((noun.__doc__ or "").split()),
        marked_by=noun.MARKED_BY,
        elsewhere=noun.ELSEWHERE,
    )


class NounOf(Kind[N], Generic[N], frozen=True):
    """A mapping that says a noun."""

    noun: type[N]

    @property
    def record(self) -> Record:
        """As every kind that is written as a mapping with known keys."""
        return record_of(self.noun)

    @property
    def accepts(self) -> Said:
        """As every kind."""
        return self.record.accepts

    def parse(self, node: Node, problems: Problems) -> N | None:
        """As every kind."""
        read = self.record.parse(node, problems)
        return None if read is None else self.noun(read)
