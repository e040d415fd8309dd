"""The words that people have for parts, in the languages of the trade, and the kind of part that each means.

One vocabulary for searches, component lists and the page. It is data (`vocabulary.yaml`), read once and kept in the
index that is built with the package; what is typed is read with it in `asked`.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from functools import cache, lru_cache
from typing import Final, TypeAlias

from panelart.canonical import Struct
from panelart.source.built import PACKAGE, Row, Table
from panelart.source.problems import Problems
from panelart.source.schema import Field, Fields, Flag, ListOf, MapOf, Number, Record, Text, Value, read
from panelart.source.yaml import read as read_yaml

LANGUAGES: Final = ("en", "de", "fr", "es", "it", "nl", "pl", "pt", "sv", "cs", "tr", "ja")
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
_COLOURS: Final = Field("colours", _GROUPS, required=True, doc="Colours.")
_CONCEPTS: Final = Field("concepts", _GROUPS, required=True, doc="Words that do not tell a part.")
_WITH: Final = Field("with", _WORDS, required=True, doc="Words after which accessories are named.")
_COUNTS: Final = Field("counts", _GROUPS, required=True, doc="What a number beside the word counts.")
_THROWS: Final = Field("throws", _WORDS, required=True, doc="Names of the positions of a switch.")
_SHORT: Final = Field(
    "short", MapOf(keys=_NAME, of=Text(), what="abbreviations and words"), required=True, doc="What is written short."
)
_LENGTHS: Final = Field("lengths", _GROUPS, required=True, doc="What a length beside the word is of.")
_TRADE_SIZES: Final = Field(
    "trade_sizes",
    MapOf(keys=_NAME, of=Number(above=0), what="sizes said and meant"),
    required=True,
    doc="Millimetres as they are said, and meant.",
)
_ENDINGS: Final = Field(
    "endings",
    MapOf(
        keys=_NAME,
        of=MapOf(keys=Text(), of=ListOf(of=Text(may_be_empty=True), what="endings"), what="endings"),
        what="languages and endings",
    ),
    required=True,
    doc="How words end in their other forms, by language.",
)
_FILE_RECORD: Final = Record(
    "the vocabulary",
    (_KINDS, _QUALIFIERS, _COLOURS, _CONCEPTS, _WITH, _COUNTS, _SHORT, _THROWS, _LENGTHS, _TRADE_SIZES, _ENDINGS),
)

_SHORTEST_FORM: Final = 4
"""Letters of the shortest word that other forms are made of, and of the shortest form."""

_UNMARKED: Final = str.maketrans({"ł": "l", "ı": "i"})
"""Letters that are written with and without their mark, and that Unicode does not take apart."""


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

    `colours` are single words by the catalogue's word, and among the concepts. `short` gives the words that an
    abbreviation is short for, and for another form of a word the word as it is listed; `counts` what a number beside
    the word may count, `throws` are names of positions, beside `elsewhere` a length is not the part's size, and
    `trade_sizes` are pairs of millimetres, said and meant.
    """

    kinds: tuple[PartKind, ...]
    qualifiers: tuple[tuple[str, tuple[tuple[str, ...], ...]], ...]
    colours: tuple[tuple[str, tuple[str, ...]], ...]
    concepts: tuple[str, ...]
    beside: tuple[str, ...]
    short: Mapping[str, tuple[str, ...]]
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
    if text.isascii():
        return text.casefold()
    plain = unicodedata.normalize("NFKD", text.casefold()).translate(_UNMARKED)
    return "".join(character for character in plain if not unicodedata.combining(character))


@lru_cache(maxsize=4096)
def pieces(text: str) -> tuple[str, ...]:
    """The words and numbers of a text, folded: 'D-Sub 9' is d, sub, 9; '19x13 mm' is 19, x, 13, mm; 'M2.5' is one.

    Japanese, which has no blanks, is parted where its scripts change: 'LEDブラケット' is two.
    """
    return tuple(piece for run in _runs(folded(text)) for piece in _split(run))


def _runs(text: str) -> Iterator[str]:
    """What stands together: letters and digits, and points and commas between two digits."""
    run = ""
    for at, character in enumerate(text):
        inside = character in ".," and run[-1:].isdecimal() and text[at + 1 : at + 2].isdecimal()
        if character.isalnum() and character != _DIAMETER:
            if run and _parts(run[-1], character):
                yield run
                run = ""
            run += character
        elif inside:
            run += "."
        elif run:
            yield run
            run = ""
    if run:
        yield run


_DIAMETER: Final = "φ"
"""The sign of a diameter in Japanese lists, before or behind the number."""

_LAST_ALPHABETIC: Final = "\u2fff"
"""The last character before those of Japanese."""

_KATAKANA: Final = ("\u30a0", "\u30ff")
_BEGINS_A_WORD: Final = "押"
_ENDS_A_WORD: Final = "用式型形"
"""Of characters that the trade's words begin and end with, where several stand together: 照光式 押, 非常停止用 押."""


def _parts(before: str, after: str) -> bool:
    """Whether a word ends between two characters: where one is Japanese."""
    if before <= _LAST_ALPHABETIC and after <= _LAST_ALPHABETIC:
        return False
    scripts = [_script(character) for character in (before, after)]
    return scripts[0] != scripts[1] or (
        scripts[0] == "kanji" and (after == _BEGINS_A_WORD or before in _ENDS_A_WORD) and after not in _ENDS_A_WORD
    )


def _script(character: str) -> str:
    """What a character is written in; kanji and hiragana, which end its words, are one."""
    if character <= _LAST_ALPHABETIC:
        return "alphabetic"
    return "katakana" if _KATAKANA[0] <= character <= _KATAKANA[1] else "kanji"


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
    forms = _forms(fields)
    return Vocabulary(
        kinds=tuple(_kind(name.value, kind.value) for name, kind in fields[_KINDS] or ()),
        qualifiers=tuple((name.value, _phrases(words.value)) for name, words in fields[_QUALIFIERS] or ()),
        colours=tuple(_colours(fields[_COLOURS], forms)),
        concepts=(*_all_words(fields[_CONCEPTS]), *_all_words(fields[_COLOURS])),
        beside=_single(fields[_WITH]),
        short={form: (word,) for form, word in forms.items()} | _short(fields),
        counts=_counts(fields[_COUNTS]),
        throws=_single(fields[_THROWS]),
        elsewhere=_all_words(fields[_LENGTHS]),
        trade_sizes=tuple((float(said.value), meant.value) for said, meant in fields[_TRADE_SIZES] or ()),
    )


def _short(fields: Fields) -> dict[str, tuple[str, ...]]:
    """The words that are written short, by what is written."""
    return {folded(name.value): pieces(words.value) for name, words in fields[_SHORT] or ()}


def _colours(groups: _Groups, forms: Mapping[str, str]) -> Iterator[tuple[str, tuple[str, ...]]]:
    """The words of each colour with their other forms: what is typed is compared with them as it stands."""
    for name, listed in groups or ():
        words = _single(listed.value)
        yield name.value, (*words, *(form for form, word in forms.items() if word in words))


def _forms(fields: Fields) -> dict[str, str]:
    """The words by their other forms, of the languages whose endings are known; none that is a word of its own."""
    groups = (fields[_KINDS], fields[_QUALIFIERS], fields[_COLOURS], fields[_CONCEPTS])
    listed = [words.value for group in groups for _, words in group or ()]
    words = {word for one in (*listed, *_other_words(fields)) for word in _single(one)}
    forms: dict[str, str] = {}
    for language, endings in fields[_ENDINGS] or ():
        by_ending = _by_ending(endings.value)
        for word in _of_language(language.value, listed):
            for form in _inflected(word, by_ending):
                if form not in words:
                    forms.setdefault(form, word)
    return forms


def _of_language(code: str, listed: Iterable[Fields]) -> Iterable[str]:
    """The words of one language, each once."""
    (field,) = (one for one in _BY_LANGUAGE if one.name == code)
    return dict.fromkeys(word for one in listed for phrase in one[field] or () for word in pieces(phrase.value))


def _by_ending(endings: _Endings) -> dict[str, tuple[str, ...]]:
    """What stands in the place of each ending."""
    return {
        ending: tuple(form.value for form in forms.value)
        for listed, forms in endings
        for ending in listed.value.split()
    }


def _inflected(word: str, by_ending: Mapping[str, tuple[str, ...]]) -> Iterator[str]:
    """A word with each of its other endings."""
    ends = [word[at:] for at in range(1, len(word)) if word[at:] in by_ending]
    if len(word) < _SHORTEST_FORM or not ends or not word.isalpha():
        return
    stem = word[: -len(ends[0])]
    for form in by_ending[ends[0]]:
        made = stem + form.replace("~", ends[0])
        if len(made) >= _SHORTEST_FORM:
            yield made


def _other_words(fields: Fields) -> Iterator[Fields]:
    """The words that stand beside those of parts."""
    yield from (one for one in (fields[_WITH], fields[_THROWS]) if one is not None)
    for group in (fields[_COUNTS], fields[_LENGTHS]):
        yield from (words.value for _, words in group or ())


_Groups: TypeAlias = tuple[tuple[Value[str], Value[Fields]], ...] | None
_Endings: TypeAlias = tuple[tuple[Value[str], Value[tuple[Value[str], ...]]], ...]


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
