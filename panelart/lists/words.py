"""The words of component lists: heads of columns, rows that are no parts, and what is no part of a panel.

They are data (`words.yaml`), read once and kept in the index that is built with the package.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from typing import Final, TypeAlias

from panelart.canonical import Struct
from panelart.catalogue.vocabulary import folded, pieces
from panelart.source.built import PACKAGE, Row, Table
from panelart.source.problems import Problems
from panelart.source.schema import Field, Fields, ListOf, MapOf, Record, Text, Value, read
from panelart.source.yaml import read as read_yaml

_WORDS: Final = ListOf(of=Text(), what="words")
_NAME: Final = Text(maximum=40)
_TITLE: Final = Field("title", Text(), required=True, doc="What it is, in the plural.")
_LETTERS: Final = Field("letters", _WORDS, doc="Letters of refs.")
_FOOTPRINTS: Final = Field("footprints", _WORDS, doc="First words of footprints.")
_PHRASES: Final = Field("words", _WORDS, doc="Words and phrases.")
_KINDS: Final = MapOf(
    keys=_NAME, of=Record("what is no part of a panel", (_TITLE, _LETTERS, _FOOTPRINTS, _PHRASES)), what="kinds"
)
_LISTS: Final = MapOf(keys=_NAME, of=_WORDS, what="names and words")
_COLUMNS: Final = Field("columns", _LISTS, required=True, doc="Heads of columns by what is in them.")
_LANGUAGES: Final = Field("languages", _LISTS, required=True, doc="Words for languages by their ISO 639-1 codes.")
_TOTALS: Final = Field("totals", _WORDS, required=True, doc="First words of rows that add up others.")
_NOTES: Final = Field("notes", _WORDS, required=True, doc="First words of rows that are remarks.")
_UNFITTED: Final = Field("unfitted", _WORDS, required=True, doc="Words for what is not fitted.")
_YES: Final = Field("yes", _WORDS, required=True, doc="Cells that say yes.")
_BOARD: Final = Field("board", _KINDS, required=True, doc="What lives on a board.")
_PACKAGES: Final = Field("packages", _WORDS, required=True, doc="Words of footprints that are of a board.")
_ASIDE: Final = Field("aside", _KINDS, required=True, doc="What stands on no panel.")
_TOKENS: Final = Field("tokens", _WORDS, required=True, doc="Tokens that stand together.")
_MEANS: Final = Field("means", Text(), required=True, doc="What is meant, in words.")
_FAMILIES: Final = Field(
    "families",
    ListOf(of=Record("a family", (_TOKENS, _MEANS)), what="families", maximum=200),
    required=True,
    doc="Families of footprints.",
)
_FACES: Final = Field("faces", _WORDS, required=True, doc="Kinds whose opening is that of a standard's face.")
_INSIDE: Final = Field("inside", _WORDS, required=True, doc="Kinds of the catalogue that are no rows of a panel.")
_PANEL_LETTERS: Final = Field("panel_letters", _WORDS, required=True, doc="Letters of refs of parts of a panel.")
_CONNECTORS: Final = Field("connector_letters", _WORDS, required=True, doc="Those of connectors.")
_BEHIND: Final = Field("behind", _WORDS, required=True, doc="Words for where no part of the panel is.")
_WITHIN: Final = Field("within", _WORDS, required=True, doc="Cells that say that a part is behind the panel.")
_MATES: Final = Field("mates", _WORDS, required=True, doc="Words for the half of a connector that is on a cable.")
_SILENT: Final = Field("silent", _LISTS, required=True, doc="Words beside a part that say nothing of its opening.")
_USES: Final = Field("uses", _LISTS, required=True, doc="Words for what parts are for, by languages.")
_NUMERALS: Final = Field("numerals", _LISTS, required=True, doc="Words for whole numbers.")
_RECORD: Final = Record(
    "the words of lists",
    (
        _COLUMNS,
        _LANGUAGES,
        _TOTALS,
        _NOTES,
        _UNFITTED,
        _YES,
        _BOARD,
        _PACKAGES,
        _ASIDE,
        _FAMILIES,
        _FACES,
        _INSIDE,
        _PANEL_LETTERS,
        _CONNECTORS,
        _BEHIND,
        _WITHIN,
        _MATES,
        _SILENT,
        _USES,
        _NUMERALS,
    ),
)


class NoPart(Struct, frozen=True, kw_only=True):
    """A kind of thing that is no part of a panel. `letters` are those of its refs, all else is folded words."""

    name: str
    title: str
    letters: frozenset[str]
    footprints: frozenset[str]
    phrases: tuple[tuple[str, ...], ...]


class Words(Struct, frozen=True, kw_only=True):
    """All words, folded; heads of `columns` and `languages` as ``bare`` makes them, the likeliest first.

    `numerals` are whole numbers by single words. `silent` are single words beside the name of a part that say nothing
    of its opening, what it is for among them.
    """

    columns: Mapping[str, tuple[str, ...]]
    languages: Mapping[str, str]
    totals: tuple[tuple[str, ...], ...]
    notes: tuple[tuple[str, ...], ...]
    unfitted: tuple[tuple[str, ...], ...]
    yes: frozenset[str]
    board: tuple[NoPart, ...]
    packages: frozenset[str]
    aside: tuple[NoPart, ...]
    families: tuple[tuple[frozenset[str], str], ...]
    faces: frozenset[str]
    inside: frozenset[str]
    panel_letters: frozenset[str]
    connector_letters: frozenset[str]
    behind: tuple[tuple[str, ...], ...]
    within: frozenset[tuple[str, ...]]
    mates: tuple[tuple[str, ...], ...]
    silent: frozenset[str]
    numerals: Mapping[str, int]


@cache
def words() -> Words:
    """The words."""
    kept: Words | None = BUILT.get("words")
    return _of_file() if kept is None else kept


def bare(head: str) -> str:
    """A head of a column as heads are compared: without case, accents, blanks and signs; # alone stays."""
    letters = "".join(character for character in folded(head) if character.isalnum())
    return letters or head.strip()


def begins(text: str, phrases: Sequence[tuple[str, ...]]) -> bool:
    """Whether a text begins with one of some phrases."""
    said = pieces(text)
    return any(said[: len(phrase)] == phrase for phrase in phrases)


def holds(text: str, phrases: Sequence[tuple[str, ...]]) -> bool:
    """Whether one of some phrases stands in a text, its words one behind another."""
    said = pieces(text)
    return any(said[at : at + len(phrase)] == phrase for phrase in phrases for at in range(len(said) - len(phrase) + 1))


def _of_file() -> Words:
    problems = Problems()
    record = read(read_yaml((PACKAGE / _FILE).read_bytes(), "words.yaml"), _RECORD, problems)
    problems.raise_any()
    assert record is not None
    fields = record.value
    return Words(
        columns={name.value: _heads(heads.value) for name, heads in fields[_COLUMNS] or ()},
        languages=_codes(fields[_LANGUAGES] or ()),
        totals=_phrases(fields[_TOTALS]),
        notes=_phrases(fields[_NOTES]),
        unfitted=_phrases(fields[_UNFITTED]),
        yes=frozenset(map(folded, _each(fields[_YES]))),
        board=_kinds(fields[_BOARD] or ()),
        packages=_each(fields[_PACKAGES]),
        aside=_kinds(fields[_ASIDE] or ()),
        families=_families(fields[_FAMILIES] or ()),
        faces=_each(fields[_FACES]),
        inside=_each(fields[_INSIDE]),
        panel_letters=_each(fields[_PANEL_LETTERS]),
        connector_letters=_each(fields[_CONNECTORS]),
        behind=_phrases(fields[_BEHIND]),
        within=frozenset(_phrases(fields[_WITHIN])),
        mates=_phrases(fields[_MATES]),
        numerals=_numerals(fields[_NUMERALS] or ()),
        silent=_singles(fields[_SILENT], fields[_USES]),
    )


def _each(listed: Iterable[Value[str]] | None) -> frozenset[str]:
    return frozenset(one.value for one in listed or ())


def _numerals(listed: _Lists) -> dict[str, int]:
    """The numbers by the words for them."""
    return {folded(word.value): int(number.value) for number, words_ in listed for word in words_.value}


def _singles(*lists: _Lists | None) -> frozenset[str]:
    """The words of all groups, folded."""
    return frozenset(folded(word.value) for groups in lists for _, words_ in groups or () for word in words_.value)


def _heads(listed: Iterable[Value[str]]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(bare(head.value) for head in listed))


def _codes(listed: _Lists) -> dict[str, str]:
    """The codes of languages by their names."""
    return {bare(word.value): code.value for code, names in listed for word in names.value}


def _kinds(listed: _Kinds) -> tuple[NoPart, ...]:
    return tuple(_kind(name.value, kind.value) for name, kind in listed)


def _families(listed: Iterable[Value[Fields]]) -> tuple[tuple[frozenset[str], str], ...]:
    return tuple((_each(one.value[_TOKENS]), one.value[_MEANS] or "") for one in listed)


_Lists: TypeAlias = Iterable[tuple[Value[str], Value[tuple[Value[str], ...]]]]
_Kinds: TypeAlias = Iterable[tuple[Value[str], Value[Fields]]]


def _phrases(listed: Iterable[Value[str]] | None) -> tuple[tuple[str, ...], ...]:
    return tuple(dict.fromkeys(pieces(one.value) for one in listed or () if pieces(one.value)))


def _kind(name: str, fields: Fields) -> NoPart:
    return NoPart(
        name=name,
        title=fields[_TITLE] or "",
        letters=_each(fields[_LETTERS]),
        footprints=frozenset(map(folded, _each(fields[_FOOTPRINTS]))),
        phrases=_phrases(fields[_PHRASES]),
    )


def _rows() -> Iterator[Row]:
    yield "words", _FILE, _of_file()


_FILE: Final = "lists/words.yaml"

BUILT: Final = Table(
    name="lists",
    type=Words,
    code=("lists/words.py", "catalogue/vocabulary.py", "source/schema.py", "source/yaml.py"),
    make=_rows,
)
