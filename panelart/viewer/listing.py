"""A component list as the page asks about it: all its questions with what is answered, and the drafts made of it."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from pathlib import Path
from typing import Any

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.drafting.draft import NO_PLACES, drafted_places
from panelart.drafting.listed import Drafted, Earlier, Wishes, drafted
from panelart.lists.answer_record import Place
from panelart.lists.answer_text import Titles, answer_file, with_answer, with_questions, with_rooms
from panelart.lists.answers import NO_ROOMS, Answers, folded, read_answers
from panelart.lists.listed import ComponentList, Item
from panelart.lists.matching import Matcher
from panelart.lists.questions import Question, questions
from panelart.lists.read import read_list
from panelart.model.component import Component
from panelart.sheets.questions import outline_box, scale_for, told_of
from panelart.spec.read import read_bytes


class Listing(Struct, frozen=True, kw_only=True):
    """A list and all that its drafts are made from.

    `answers` is the file that the page writes answers to, which may be none yet; `given` are the others, which it goes
    before. `columns` are those asked for, `names` those of all parts.
    """

    file: Path
    answers: Path
    given: tuple[Path, ...]
    columns: Mapping[str, str]
    wishes: Wishes
    matcher: Matcher
    names: tuple[str, ...]

    def read(self, known: Read | None = None) -> Read:
        """The list and its answers as they are on disk; `known` is an earlier state. Raises SpecError and OSError."""
        own = [(read_bytes(self.answers), self.answers.as_posix())] if self.answers.exists() else []
        given = [(read_bytes(path), path.as_posix()) for path in self.given]
        others, mine, every = (read_answers(files, self.names) for files in (given, own, [*given, *own]))
        data = read_bytes(self.file)
        before = Answers(by_words=others.by_words, by_number=others.by_number, columns=every.columns)
        if known is not None and (known.data, known.before) == (data, before):
            items = known.items
        else:
            items = self._list(data, before).items
        asked = questions(items, mine)
        text = "".join(written.decode("utf-8") for written, _ in own)
        return Read(text=text, data=data, before=before, items=items, answers=every, questions=asked)

    def drafted(self, read: Read, kept: Earlier | None) -> Drafted:
        """The draft of a state of the list, with the places of an earlier one where they are kept. Raises SpecError."""
        return drafted(self._list(read.data, read.answers), self.wishes, self.matcher, kept)

    def rooms(self, read: Read) -> Mapping[str, Place]:
        """The room kept for open parts of the spec."""
        return read.answers.rooms.get(self.wishes.spec.name, NO_PLACES)

    def parts(self, question: Question) -> tuple[Component, ...]:
        """The candidates of a question."""
        return tuple(self.matcher.component(one.name) for one in question.candidates)

    def answered(self, text: str, question: Question, part: str, every: Sequence[Question]) -> str:
        """The file of answers with one more. Raises SpecError."""
        return with_answer(self._begun(text, every), question, part, self._titles(every), self.answers.as_posix())

    def kept(self, text: str, every: Sequence[Question], rooms: Mapping[str, Place]) -> str:
        """The file of answers with every question and the room kept for open parts. Raises SpecError."""
        if not text and not every:
            return text
        file = self.answers.as_posix()
        text = with_questions(self._begun(text, every), every, self._titles(every), file)
        return with_rooms(text, self.wishes.spec.name, rooms, file)

    def _begun(self, text: str, every: Sequence[Question]) -> str:
        return text or answer_file(self.file.name, every, self._titles(every))

    def _titles(self, asked: Iterable[Question]) -> Titles:
        return {part.name: part.title for question in asked for part in self.parts(question)}

    def _list(self, data: bytes, answers: Answers) -> ComponentList:
        return read_list(data, self.file.name, self.matcher, self.columns, answers)


class Read(Struct, frozen=True, kw_only=True, dict=True):
    """A state of the list and of its answers: the text of the page's own, all answers, every question of the list.

    `items` are those of the list with the answers `before` the page's own.
    """

    text: str
    data: bytes
    before: Answers
    items: tuple[Item, ...]
    answers: Answers
    questions: tuple[Question, ...]

    @cached_property
    def by_id(self) -> Mapping[str, Question]:
        """The questions by what the page knows them by."""
        return {id_of(one): one for one in self.questions}

    def drafts_like(self, other: Read) -> bool:
        """Whether both states make the same draft."""
        return (
            replace(self.answers, rooms=NO_ROOMS) == replace(other.answers, rooms=NO_ROOMS) and self.data == other.data
        )

    def on(self, spec: str, file: str) -> Read:
        """The state that a spec was drafted from: with those answers whose parts are on it. Raises SpecError."""
        _, places = drafted_places(spec, file)
        without = questions_answered([one for one in self.questions if one.answer and not {*one.refs} & {*places}])
        answers = replace(
            self.answers,
            by_words={key: part for key, part in self.answers.by_words.items() if key not in without.by_words},
            by_number={key: part for key, part in self.answers.by_number.items() if key not in without.by_number},
        )
        return replace(self, answers=answers)


def questions_answered(asked: Sequence[Question]) -> Answers:
    """What is answered to questions, by their words and order numbers."""
    return Answers(
        by_words={folded([words]): one.answer or "" for one in asked for words in one.words},
        by_number={number.casefold(): one.answer or "" for one in asked for number in one.numbers},
    )


def id_of(question: Question) -> str:
    """What a question is known by between page and server: its rows' words, whatever is answered."""
    told = "\0".join((*question.words, "", *question.numbers))
    return hashlib.sha256(told.encode("utf-8")).hexdigest()[:16]


def question_json(listing: Listing, question: Question, rooms: Mapping[str, Place]) -> dict[str, Any]:
    """A question in plain values: `room` has what the likeliest candidate would cover, mm, by ref."""
    parts = listing.parts(question)
    return {
        "id": id_of(question),
        "refs": list(question.refs),
        "rows": list(question.rows),
        "words": list(question.words),
        "numbers": list(question.numbers),
        "why": str(question.why),
        "answer": question.answer,
        "scale": list(scale_for(parts)) if parts else None,
        "candidates": [
            {
                "name": part.name,
                "title": str(part.title),
                "lines": [[kind.value, str(says)] for kind, says in told_of(candidate, part)],
            }
            for candidate, part in zip(question.candidates, parts, strict=True)
        ],
        "rooms": {ref: _room(parts, rooms[ref]) for ref in question.refs if ref in rooms and parts},
    }


def _room(parts: Sequence[Component], at: Place) -> list[float]:
    box = outline_box(parts[0])
    return [round(value, 3) for value in (box.left + at[0], box.bottom + at[1], box.right + at[0], box.top + at[1])]
