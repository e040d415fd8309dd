"""What `panelart draft` asks and is answered: the file to answer in, sheets of questions, columns that are kept."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Final, TypeAlias

from panelart import __version__
from panelart.canonical import Struct
from panelart.cli.tables import read_list_file

if TYPE_CHECKING:
    from panelart.lists.answer_record import Place
    from panelart.lists.answers import Answers
    from panelart.lists.listed import ComponentList
    from panelart.lists.matching import Matcher
    from panelart.lists.questions import Question
    from panelart.messages import Said
    from panelart.model.component import Component

PICTURE_DPI: Final = 160.0
"""Resolution of the pictures in a workbook."""

_YAML: Final = (".yaml", ".yml")

_Columns: TypeAlias = tuple[tuple[str, ...], Mapping[str, str]]
"""Headings of a list, and its columns by what they are."""


class Asking(Struct, frozen=True, kw_only=True):
    """What the questions of a draft are written from: the list's file, the spec's, the answers given.

    `names` are those of all parts. `spreadsheet` says whether the questions are written as a workbook too, `page`
    whether they are asked on the page, which answers beside the spec and reads what stands there.
    """

    file: str
    spec: Path
    given: Sequence[Path]
    names: Sequence[str]
    spreadsheet: bool = False
    page: bool = False

    @property
    def beside(self) -> Path:
        """The file of answers beside the spec, which the sheets of questions are named after."""
        return self.spec.with_name(f"{self.spec.stem}-answers.yaml")

    @property
    def answer_file(self) -> Path:
        """The file that questions are written to, to be answered there.

        Where files of answers are given it is the one beside the spec if that is among them, else the last that is
        YAML and may be written: a later file goes before an earlier one.
        """
        if self.page:
            return self.beside
        given = [path for path in self.given if path.suffix.lower() in _YAML and os.access(path, os.W_OK)]
        own = [path for path in given if path.resolve() == self.beside.resolve()]
        return (*given, *own)[-1] if given else self.beside

    @property
    def read(self) -> Sequence[Path]:
        """The files that answers are read from, in order."""
        others = [path for path in self.given if path.resolve() != self.beside.resolve()]
        return [*others, self.beside] if self.page and self.beside.exists() else self.given

    @property
    def is_begun(self) -> bool:
        """Whether the page goes on with an earlier draft, whose questions are beside it."""
        return self.page and self.spec.exists() and self.beside.exists()

    @property
    def is_given(self) -> bool:
        """Whether the file to answer in is one of those that are read."""
        return self.answer_file.resolve() in {path.resolve() for path in self.read}

    def answers(self) -> Answers:
        """The answers given. Raises SpecError for what is no file of answers."""
        from panelart.lists.answers import read_answers

        return read_answers([(read_list_file(path), path.as_posix()) for path in self.read], self.names)

    def answers_beside(self) -> Answers:
        """What stands in the file beside the spec where it is not given, nothing where there is none."""
        from panelart.lists.answers import NONE, read_answers

        path = self.beside
        if not path.exists() or path.resolve() in {one.resolve() for one in self.read}:
            return NONE
        return read_answers([(read_list_file(path), path.as_posix())], self.names)


class Asked(Struct, frozen=True, kw_only=True):
    """The questions of a list as they are handed over: the files, what is said of them, how many are open."""

    files: Mapping[Path, bytes]
    says: Sequence[Said]
    count: int


def kept_rooms(asking: Asking, answers: Answers) -> Mapping[str, Place]:
    """The places that an earlier draft kept for parts not decided, by ref."""
    beside = asking.answers_beside().rooms.get(asking.spec.name, {})
    return {**beside, **answers.rooms.get(asking.spec.name, {})}


def questions_of(
    asking: Asking, listed: ComponentList, matcher: Matcher, rooms: Mapping[str, Mapping[str, Place]]
) -> Asked:
    """The questions to be answered, and the columns that were asked for, as files that are still to be written.

    What stands in a file of answers stays; one with answers that is not given gets columns only.
    """
    from panelart.lists.questions import questions
    from panelart.messages import component_lists_answers as said

    asked = questions(listed.items)
    parts = {one.name: matcher.component(one.name) for each in asked for one in each.candidates}
    files, says = _answers(asking, asked, parts, _confirmed(listed), rooms)
    if not asked:
        return Asked(files=files, says=says, count=0)
    if asking.answers_beside().given:
        says.append(said.answers_kept(asking.beside.as_posix()))
    sheets = _sheets(asking, asked, parts)
    says += [one.as_posix() for one in sheets if one.suffix != ".pdf"]
    says.append(said.questions_left(asking.beside.with_suffix(".pdf").as_posix(), len(asked)))
    return Asked(files={**files, **sheets}, says=says, count=len(asked))


def _answers(
    asking: Asking,
    asked: Sequence[Question],
    parts: Mapping[str, Component],
    columns: _Columns | None,
    rooms: Mapping[str, Mapping[str, Place]],
) -> tuple[dict[Path, bytes], list[Said]]:
    """The file to answer in where it changes, and what is said of it."""
    from panelart.messages import component_lists_answers as said

    path = asking.answer_file
    kept = not asking.is_given and asking.answers_beside().given
    new = () if kept else asked
    says: list[Said] = [said.answer_in(path.as_posix(), len(asked))] if new else []
    if columns is not None and not columns[0]:
        says, columns = [said.columns_without_headings(), *says], None
    before = read_list_file(path).decode("utf-8") if asking.is_given or kept else ""
    text = _text(asking, before, new, parts, () if columns is None else (columns,), rooms)
    if text == before:
        return {}, says
    if columns is not None:
        says.append(said.columns_kept(path.as_posix()))
    return {path.resolve(): text.encode("utf-8")}, says


def _text(
    asking: Asking,
    before: str,
    asked: Sequence[Question],
    parts: Mapping[str, Component],
    columns: Sequence[_Columns],
    rooms: Mapping[str, Mapping[str, Place]],
) -> str:
    """A file of answers with what is new to it: columns, questions, and the room kept for open parts.

    "" where there is nothing to ask or to keep.
    """
    from panelart.lists.answer_text import answer_file, with_columns, with_questions, with_rooms

    titles = {name: part.title for name, part in parts.items()}
    if not before:
        return answer_file(asking.file, asked, titles, columns, rooms) if asked or columns else ""
    text, file = before, asking.answer_file.as_posix()
    for heads, are in columns:
        text = with_columns(text, heads, are, file)
    text = with_questions(text, asked, titles, file)
    for spec, places in rooms.items() if asked else ():
        text = with_rooms(text, spec, places, file)
    return text


def _confirmed(listed: ComponentList) -> _Columns | None:
    """The headings of a list, none where it has none, with the columns that were asked for; None where nothing was."""
    from panelart.lists.remembered import confirmed

    are = confirmed(listed.columns)
    heads = tuple(column.head for column in listed.columns.columns if column.head)
    return (heads, are) if are else None


def _sheets(asking: Asking, asked: Sequence[Question], parts: Mapping[str, Component]) -> dict[Path, bytes]:
    """The questions with pictures, as PDF and on request as a workbook."""
    from panelart.sheets.questions import question_sheets
    from panelart.writers import pdf

    path = asking.beside
    pages = question_sheets(asked, parts, asking.answer_file.name, asking.file, f"panelart {__version__}")
    files = {path.with_suffix(".pdf"): pdf(pages, live=True)}
    if asking.spreadsheet:
        files[path.with_suffix(".xlsx")] = _workbook(asked, parts)
    return files


def _workbook(asked: Sequence[Question], parts: Mapping[str, Component]) -> bytes:
    from panelart.sheets.question_book import question_book
    from panelart.sheets.questions import candidate_picture
    from panelart.writers import png

    pictures: dict[str, tuple[bytes, float, float]] = {}
    for name, part in parts.items():
        drawing = candidate_picture(part)
        pictures[name] = (png(drawing, PICTURE_DPI), drawing.page.width, drawing.page.height)
    return question_book(asked, parts, pictures)
