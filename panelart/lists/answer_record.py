"""What a file of answers to lists has: answers, what columns are, the room that is kept for open parts."""

from __future__ import annotations

from typing import Final, TypeAlias

from panelart.lists.answered import OPEN, Given
from panelart.lists.columns import ROLES
from panelart.lists.remembered import folded_headings
from panelart.source.problems import Problems
from panelart.source.schema import Choice, Field, Fields, ListOf, MapOf, Number, Record, Text, Value, pair, read
from panelart.source.yaml import read as read_yaml

Place: TypeAlias = tuple[float, float]

_TEXT: Final = Text(maximum=2000)
WORDS: Final = Field("words", ListOf(of=_TEXT, what="words", maximum=500), doc="Words of rows, as the list has them.")
NUMBERS: Final = Field("numbers", ListOf(of=_TEXT, what="order numbers", maximum=500), doc="Order numbers of rows.")
CANDIDATES: Final = Field(
    "candidates", ListOf(of=Text(maximum=80), what="names of parts", maximum=50), doc="Parts by the numbers asked for."
)
PART: Final = Field("part", Text(maximum=80), required=True, doc="Name or number of a part; none for no part.")
ANSWERS: Final = Field(
    "answers",
    ListOf(of=Record("an answer", (WORDS, NUMBERS, CANDIDATES, PART)), what="answers", maximum=5000),
    doc="Answers.",
)
HEADS: Final = Field("heads", ListOf(of=_TEXT, what="headings", maximum=200), required=True, doc="Headings of a list.")
ARE: Final = Field(
    "are",
    MapOf(keys=Choice(ROLES, "columns"), of=_TEXT, what="what columns are"),
    required=True,
    doc="Columns by what they are.",
)
COLUMNS: Final = Field(
    "columns", ListOf(of=Record("columns", (HEADS, ARE)), what="columns", maximum=1000), doc="Columns of lists."
)
SPEC: Final = Field("spec", Text(maximum=500), required=True, doc="File of the spec.")
PLACES: Final = Field(
    "places",
    MapOf(keys=Text(maximum=200), of=pair(Number(), "x", "y"), what="places by ref"),
    required=True,
    doc="Places.",
)
ROOMS: Final = Field(
    "rooms", ListOf(of=Record("rooms", (SPEC, PLACES)), what="rooms", maximum=50), doc="Room kept for open parts."
)
_FILE: Final = Record("answers to a list", (ANSWERS, COLUMNS, ROOMS))


def read_record(data: bytes, file: str, problems: Problems) -> Value[Fields] | None:
    """The file by its keys; None with the reasons among the problems."""
    return read(read_yaml(data, file), _FILE, problems)


def given_in(record: Value[Fields]) -> tuple[Given, ...]:
    """The answers of a file in their order, open ones too."""
    return tuple(_given(one.value) for one in record.value[ANSWERS] or ())


def _given(fields: Fields) -> Given:
    return Given(
        words=tuple(text.value for text in fields[WORDS] or ()),
        numbers=tuple(number.value for number in fields[NUMBERS] or ()),
        candidates=tuple(name.value for name in fields[CANDIDATES] or ()),
        answer=fields[PART] or OPEN,
        where=fields.where(PART),
    )


def headings_of(fields: Fields) -> tuple[str, ...]:
    """The headings of a list whose columns are kept, folded."""
    return folded_headings(head.value for head in fields[HEADS] or ())


def places_of(fields: Fields) -> dict[str, Place]:
    """The places of a room by ref."""
    return {ref.value: (place.value[0], place.value[1]) for ref, place in fields[PLACES] or ()}
