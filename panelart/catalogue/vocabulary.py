"""The words that people have for parts, in the languages of the trade, and the kind of part that each means.

One vocabulary for searches, component lists and the page. It is data (`vocabulary.yaml`), read once and kept in the
index that is built with the package; what is typed is read with it in `asked`.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from typing import Final, TypeAlias

from panelart.canonical import Struct
from panelart.source.built import PACKAGE, Row, Table
from panelart.source.problems import Problems
from panelart.source.schema import Field, Fields, Flag, ListOf, MapOf, Number, Record, Text, Value, read
from panelart.source.yaml import read as read_yaml

LANGUAGES: Final = ("en", "de", "fr", "es", "it", "nl")
"""The languages of the vocabulary, by their codes of ISO 639-1."""

_PHRASES: Final = ListOf(of=Text(), what="words")
_BY_LANGUAGE: Final = tuple(Field(code, _PHRASES, doc=f"Words in the language {code}.") for code in LANGUAGES)
_WORDS: Final = Record("words by language", _BY_LANGUAGE)
_TITLE: Final = Field("title", Text(), required=True, doc="Name of the kind.")
_ENTRIES: Final = Field("entries", _PHRASES, required=True, doc="Beginnings of names of entries and families.")
_FIRST: Final = Field("first", _PHRASES, doc="Beginnings of the names of entries to name first.")
_ALSO: Final = Field("also", _PHRASES, doc="Words that go with the kind and with others.")
_SIZES: Final = Field(
    "sizes", ListOf(of=Number(above=0), what="sizes"), doc="Millimetres that tell kinds of one word apart."
)
_BODY: Final = Field("body", Flag(), default=False, doc="Whether a length that is said is that of the body behind.")
_KIND: Final = Record("a kind of part", (_TITLE, _ENTRIES, _FIRST, _ALSO, _SIZES, _BODY, *_BY_LANGUAGE))
_NAME: Final = Text(maximum=40)


_GROUPS: Final = MapOf(keys=_NAME, of=_WORDS, what="names and words")
_KINDS: Final = Field("kinds", MapOf(keys=_NAME, of=_KIND, what="names and kinds"), required=True, doc="Kinds by name.")
_QUALIFIERS: Final = Field("qualifiers", _GROUPS, required=True, doc="What tells entries of a kind apart.")
_CONCEPTS: Final = Field("concepts", _GROUPS, required=True, doc="Words that do not tell a part.")
_WITH: Final = Field("with", _WORDS, required=True, doc="Words after which accessories are named.")
_COUNTS: Final = Field("counts", _GROUPS, required=True, doc="What a number beside the word counts.")
_THROWS: Final = Field("throws", _WORDS, required=True, doc="Names of the positions of a switch.")
_LENGTHS: Final = Field("lengths", _GROUPS, required=True, doc="What a length beside the word is of.")
_TRADE_SIZES: Final = Field(
    "trade_sizes",
    MapOf(keys=_NAME, of=Number(above=0), what="sizes said and meant"),
    required=True,
    doc="Millimetres as they are said, and meant.",
)
_FILE_RECORD: Final = Record(
    "the vocabulary", (_KINDS, _QUALIFIERS, _CONCEPTS, _WITH, _COUNTS, _THROWS, _LENGTHS, _TRADE_SIZES)
)


class PartKind(Struct, frozen=True, kw_only=True):
    """A kind of part as buyers name it; `phrases` and `also` are folded words, each phrase in any order.

    `body` says that a length is that of the body behind the panel.
    """

    name: str
    title: str
    entries: tuple[str, ...]
    first: tuple[str, ...]
    phrases: tuple[tuple[str, ...], ...]
    also: tuple[str, ...]
    sizes: tuple[float, ...]
    body: bool


class Vocabulary(Struct, frozen=True, kw_only=True):
    """All words, folded. `qualifiers` are phrases by the catalogue's word; `concepts` and `beside` single words.

    `counts` give what a number beside the word may count, `throws` are names of positions, beside `elsewhere` a length
    is not the part's size, and `trade_sizes` are pairs of millimetres, said and meant.
    """

    kinds: tuple[PartKind, ...]
    qualifiers: tuple[tuple[str, tuple[tuple[str, ...], ...]], ...]
    concepts: tuple[str, ...]
    beside: tuple[str, ...]
    counts: Mapping[str, tuple[str, ...]]
    throws: tuple[str, ...]
    elsewhere: tuple[str, ...]
    trade_sizes: tuple[tuple[float, float], ...]

    def kind(self, name: str) -> PartKind:
        """The kind of that name. Raises KeyError when there is none."""
        return _by_name()[name]


@cache
def vocabulary() -> Vocabulary:
    """The vocabulary."""
    kept: Vocabulary | None = BUILT.get("vocabulary")
    return _of_file() if kept is None else kept


@cache
def _by_name() -> Mapping[str, PartKind]:
    return {kind.name: kind for kind in vocabulary().kinds}


@cache
def known_words() -> frozenset[str]:
    """Every word of the vocabulary, folded."""
    known = vocabulary()
    phrases = [phrase for kind in known.kinds for phrase in (*kind.phrases, kind.also)]
    phrases += [phrase for _, listed in known.qualifiers for phrase in listed]
    words = {word for phrase in phrases for word in phrase}
    return frozenset({*words, *known.concepts, *known.beside, *known.counts, *known.throws, *known.elsewhere})


def folded(text: str) -> str:
    """A text without capitals and accents, as words are compared: 'Arrêt' and 'arret' are one."""
    plain = unicodedata.normalize("NFKD", text.casefold())
    return "".join(character for character in plain if not unicodedata.combining(character))


def pieces(text: str) -> tuple[str, ...]:
    """The words and numbers of a text, folded: 'D-Sub 9' is d, sub, 9; '19x13 mm' is 19, x, 13, mm; 'M2.5' is one."""
    return tuple(piece for run in _runs(folded(text)) for piece in _split(run))


def _runs(text: str) -> Iterator[str]:
    """What stands together: letters and digits, and points and commas between two digits."""
    run = ""
    for at, character in enumerate(text):
        inside = character in ".," and run[-1:].isdecimal() and text[at + 1 : at + 2].isdecimal()
        if character.isalnum():
            run += character
        elif inside:
            run += "."
        elif run:
            yield run
            run = ""
    if run:
        yield run


def _split(run: str) -> Iterator[str]:
    """A run that begins with a number, in its number and its letters, where they are a unit or a 'by'."""
    if not run[0].isdecimal():
        yield run
        return
    end = next((at for at, character in enumerate(run) if not (character.isdecimal() or character == ".")), len(run))
    rest = run[end:]
    if not rest:
        yield run
    elif rest.startswith("mm"):
        yield run[:end]
        yield rest
    elif rest[0] == "x" and rest[1:2].isdecimal():
        yield run[:end]
        yield "x"
        yield from _split(rest[1:])
    else:
        yield run


def _of_file() -> Vocabulary:
    problems = Problems()
    record = read(read_yaml((PACKAGE / _FILE).read_bytes(), "vocabulary.yaml"), _FILE_RECORD, problems)
    problems.raise_any()
    assert record is not None
    fields = record.value
    return Vocabulary(
        kinds=tuple(_kind(name.value, kind.value) for name, kind in fields[_KINDS] or ()),
        qualifiers=tuple((name.value, _phrases(words.value)) for name, words in fields[_QUALIFIERS] or ()),
        concepts=_all_words(fields[_CONCEPTS]),
        beside=_single(fields[_WITH]),
        counts=_counts(fields[_COUNTS]),
        throws=_single(fields[_THROWS]),
        elsewhere=_all_words(fields[_LENGTHS]),
        trade_sizes=tuple((float(said.value), meant.value) for said, meant in fields[_TRADE_SIZES] or ()),
    )


_Groups: TypeAlias = tuple[tuple[Value[str], Value[Fields]], ...] | None


def _all_words(groups: _Groups) -> tuple[str, ...]:
    """The single words of all groups, each once."""
    return tuple(dict.fromkeys(word for _, listed in groups or () for word in _single(listed.value)))


def _counts(groups: _Groups) -> dict[str, tuple[str, ...]]:
    """The names of the groups by their words."""
    found: dict[str, tuple[str, ...]] = {}
    for name, listed in groups or ():
        for word in _single(listed.value):
            found[word] = (*found.get(word, ()), name.value)
    return found


def _kind(name: str, fields: Fields) -> PartKind:
    return PartKind(
        name=name,
        title=fields[_TITLE] or "",
        entries=tuple(entry.value for entry in fields[_ENTRIES] or ()),
        first=tuple(entry.value for entry in fields[_FIRST] or fields[_ENTRIES] or ()),
        phrases=_phrases(fields),
        also=tuple(dict.fromkeys(word for one in fields[_ALSO] or () for word in pieces(one.value))),
        sizes=tuple(size.value for size in fields[_SIZES] or ()),
        body=bool(fields[_BODY]),
    )


def _phrases(fields: Fields) -> tuple[tuple[str, ...], ...]:
    """The phrases of all languages, each once, in the order written."""
    listed: Iterable[Value[str]] = (one for field in _BY_LANGUAGE for one in fields[field] or ())
    return tuple(dict.fromkeys(pieces(one.value) for one in listed))


def _single(fields: Fields | None) -> tuple[str, ...]:
    """The words of all languages, each once."""
    phrases = () if fields is None else _phrases(fields)
    return tuple(dict.fromkeys(word for phrase in phrases for word in phrase))


def _rows() -> Iterator[Row]:
    yield "vocabulary", _FILE, _of_file()


_FILE: Final = "catalogue/vocabulary.yaml"

BUILT: Final = Table(
    name="vocabulary",
    type=Vocabulary,
    code=("catalogue/vocabulary.py", "source/schema.py", "source/yaml.py"),
    make=_rows,
)
