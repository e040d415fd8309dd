"""Questions about a list, one a kind of part and not one a piece, and the answers to them: a file that is kept.

An answer holds wherever its words or its order number come up again: a house keeps one file for all its lists. Beside
the answers stand what columns are by the headings of a list, and the room that is kept for parts not yet decided.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Final

from msgspec import field

from panelart.canonical import Struct
from panelart.catalogue.vocabulary import pieces
from panelart.lists.answer_book import is_workbook, read_book
from panelart.lists.answered import OPEN, Given, decided
from panelart.lists.columns import ROLES
from panelart.lists.questions import Question
from panelart.lists.remembered import NOTHING, Headings, Remembered, folded_headings
from panelart.messages import Said
from panelart.messages import component_lists_answers as said
from panelart.source import edit
from panelart.source.problems import Problems
from panelart.source.schema import Choice, Field, Fields, ListOf, MapOf, Number, Record, Text, Value, pair, read
from panelart.source.written import written
from panelart.source.yaml import read as read_yaml

Place = tuple[float, float]

_TEXT: Final = Text(maximum=2000)
_WORDS: Final = Field("words", ListOf(of=_TEXT, what="words", maximum=500), doc="Words of rows, as the list has them.")
_NUMBERS: Final = Field("numbers", ListOf(of=_TEXT, what="order numbers", maximum=500), doc="Order numbers of rows.")
_CANDIDATES: Final = Field(
    "candidates", ListOf(of=Text(maximum=80), what="names of parts", maximum=50), doc="Parts by the numbers asked for."
)
_PART: Final = Field("part", Text(maximum=80), required=True, doc="Name or number of a part; none for no part.")
_ANSWERS: Final = Field(
    "answers",
    ListOf(of=Record("an answer", (_WORDS, _NUMBERS, _CANDIDATES, _PART)), what="answers", maximum=5000),
    doc="Answers.",
)
_HEADS: Final = Field("heads", ListOf(of=_TEXT, what="headings", maximum=200), required=True, doc="Headings of a list.")
_ARE: Final = Field(
    "are",
    MapOf(keys=Choice(ROLES, "columns"), of=_TEXT, what="what columns are"),
    required=True,
    doc="Columns by what they are.",
)
_COLUMNS: Final = Field(
    "columns", ListOf(of=Record("columns", (_HEADS, _ARE)), what="columns", maximum=1000), doc="Columns of lists."
)
_SPEC: Final = Field("spec", Text(maximum=500), required=True, doc="File of the spec.")
_PLACES: Final = Field(
    "places",
    MapOf(keys=Text(maximum=200), of=pair(Number(), "x", "y"), what="places by ref"),
    required=True,
    doc="Places.",
)
_ROOMS: Final = Field(
    "rooms", ListOf(of=Record("rooms", (_SPEC, _PLACES)), what="rooms", maximum=50), doc="Room kept for open parts."
)
_FILE: Final = Record("answers to a list", (_ANSWERS, _COLUMNS, _ROOMS))


_NO_ROOMS: Final[Mapping[str, Mapping[str, Place]]] = MappingProxyType({})


class Answers(Struct, frozen=True, kw_only=True):
    """Names of parts by folded words and by order numbers; ``NOT_ON_PANEL``, ``MEASURE`` for what is none of them.

    `columns` are those of lists by their folded headings, `rooms` the places kept for open parts by spec and ref, mm.
    """

    by_words: Mapping[tuple[str, ...], str]
    by_number: Mapping[str, str]
    columns: Headings = field(default_factory=lambda: NOTHING)
    rooms: Mapping[str, Mapping[str, Place]] = field(default_factory=lambda: _NO_ROOMS)

    def of(self, texts: Sequence[str], number: str) -> str | None:
        """The answer to a row, by its order number, else by its words."""
        by_number = self.by_number.get(number.casefold()) if number else None
        return by_number or self.by_words.get(_folded(texts))

    @property
    def given(self) -> bool:
        """Whether anything is said that a user has decided."""
        return bool(self.by_words or self.by_number or self.columns)


NONE: Final = Answers(by_words={}, by_number={})
"""No answers."""


def answer_file(
    file: str,
    asked: Sequence[Question],
    titles: Mapping[str, Said],
    columns: Sequence[tuple[Sequence[str], Mapping[str, str]]] = (),
    rooms: Mapping[str, Mapping[str, Place]] = _NO_ROOMS,
) -> str:
    """A file of answers with every question open: candidates with their titles, best first, none of these last.

    `columns` are headings with what columns are, `rooms` the places kept for open parts by spec and ref.
    """
    lines = [f"# {said.answers_to(file=file) if asked else said.kept_from(file=file)}"]
    if columns:
        lines += ["columns:", *(f"  - {written(_of_columns(heads, are))}" for heads, are in columns)]
    if asked:
        lines += [f"# {said.how_to_answer()}", "answers:"]
    for number, question in enumerate(asked, start=1):
        lines += _question_lines(number, question, titles)
    kept = [(spec, places) for spec, places in rooms.items() if places]
    if kept:
        lines += [f"# {said.room_kept()}", "rooms:"]
        lines += [f"  - {{spec: {written(spec)}, places: {written(_listed(places))}}}" for spec, places in kept]
    return "\n".join(lines) + "\n"


def _listed(places: Mapping[str, Place]) -> dict[str, list[float]]:
    return {ref: list(place) for ref, place in places.items()}


def _of_columns(heads: Sequence[str], are: Mapping[str, str]) -> dict[str, list[str] | dict[str, str]]:
    return {"heads": list(heads), "are": dict(are)}


def _question_lines(number: int, question: Question, titles: Mapping[str, Said]) -> Iterator[str]:
    yield f"  # {said.question_of(number=number, refs=question.refs, rows=question.rows)}"
    if question.why:
        yield f"  # {question.why}"
    names = [one.name for one in question.candidates]
    for at, name in enumerate(names, start=1):
        yield f"  #   {said.numbered(number=at, part=name, title=titles[name])}"
    yield f"  #   {said.none_of_these(len(names) + 1)}"
    yield f"  - words: {written(list(question.words))}"
    if question.numbers:
        yield f"    numbers: {written(list(question.numbers))}"
    if names:
        yield f"    candidates: {written(names)}"
    yield f'    part: "{OPEN}"'


def with_columns(text: str, heads: Sequence[str], are: Mapping[str, str], file: str) -> str:
    """A file of answers that says besides what the columns of lists with these headings are; all else as it was.

    Raises SpecError when it is no file of answers.
    """
    listed = _read_file(text.encode("utf-8"), file, Problems())
    known = listed.value[_COLUMNS] if listed is not None else None
    if known is None:
        return edit.add_key(text, (), _COLUMNS.name, [_of_columns(heads, are)], file)
    for number, one in enumerate(known):
        if _heads_of(one.value) == folded_headings(heads):
            already = {key.value: of.value for key, of in one.value[_ARE] or ()}
            return edit.set_value(text, (_COLUMNS.name, number, _ARE.name), {**already, **are}, file)
    return edit.append_item(text, (_COLUMNS.name,), _of_columns(heads, are), file)


def _read_file(data: bytes, file: str, problems: Problems) -> Value[Fields] | None:
    return read(read_yaml(data, file), _FILE, problems)


def read_answers(files: Iterable[tuple[bytes, str]], names: Sequence[str]) -> Answers:
    """The answers of files, by content and name; a later file goes before an earlier one.

    A file is YAML, or a workbook as ``answer_book`` reads it. `names` are those of all parts. Raises SpecError for
    what is no file of answers, and for unknown parts.
    """
    by_words: dict[tuple[str, ...], str] = {}
    by_number: dict[str, str] = {}
    columns: dict[tuple[str, ...], Remembered] = {}
    rooms: dict[str, Mapping[str, Place]] = {}
    problems = Problems()
    for data, file in files:
        if is_workbook(data):
            given = read_book(data, file, problems)
        else:
            record = _read_file(data, file, problems)
            given = [_given(one.value) for one in (record.value[_ANSWERS] or ())] if record is not None else []
            if record is not None:
                columns |= _columns_of(record.value, file)
                rooms |= _rooms_of(record.value)
        for one in given:
            part = decided(one, names, problems)
            if part is None:
                continue
            by_words |= {_folded([text]): part for text in one.words}
            by_number |= {number.casefold(): part for number in one.numbers}
    problems.raise_any()
    return Answers(by_words=by_words, by_number=by_number, columns=columns, rooms=rooms)


def _given(fields: Fields) -> Given:
    return Given(
        words=tuple(text.value for text in fields[_WORDS] or ()),
        numbers=tuple(number.value for number in fields[_NUMBERS] or ()),
        candidates=tuple(name.value for name in fields[_CANDIDATES] or ()),
        answer=fields[_PART] or OPEN,
        where=fields.where(_PART),
    )


def _heads_of(fields: Fields) -> tuple[str, ...]:
    return folded_headings(head.value for head in fields[_HEADS] or ())


def _columns_of(fields: Fields, file: str) -> dict[tuple[str, ...], Remembered]:
    return {
        _heads_of(one.value): Remembered(are={key.value: of.value for key, of in one.value[_ARE] or ()}, file=file)
        for one in fields[_COLUMNS] or ()
    }


def _rooms_of(fields: Fields) -> dict[str, Mapping[str, Place]]:
    found: dict[str, Mapping[str, Place]] = {}
    for one in fields[_ROOMS] or ():
        places = {ref.value: (place.value[0], place.value[1]) for ref, place in one.value[_PLACES] or ()}
        found[one.value[_SPEC] or ""] = places
    return found


def _folded(texts: Iterable[str]) -> tuple[str, ...]:
    return tuple(piece for text in texts for piece in pieces(text))
