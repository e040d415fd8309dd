"""What `panelart draft` asks and is answered: files of questions beside the spec, columns that are remembered."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Final

from panelart import __version__
from panelart.canonical import Struct
from panelart.cli.tables import read_list_file

if TYPE_CHECKING:
    from panelart.lists.answers import Answers, Place
    from panelart.lists.listed import ComponentList
    from panelart.lists.matching import Matcher
    from panelart.lists.questions import Question
    from panelart.model.component import Component

PICTURE_DPI: Final = 160.0
"""Resolution of the pictures in a workbook."""


class Asking(Struct, frozen=True, kw_only=True):
    """What the questions of a draft are written from: the list's file, the spec's, the answers given.

    `names` are those of all parts. `spreadsheet` says whether the questions are written as a workbook too.
    """

    file: str
    spec: Path
    given: Sequence[Path]
    names: Sequence[str]
    spreadsheet: bool = False

    @property
    def answer_file(self) -> Path:
        """The file that the questions are written to, to be answered there."""
        return self.spec.with_name(f"{self.spec.stem}-answers.yaml")

    @property
    def is_given(self) -> bool:
        """Whether the file is one of those given."""
        return self.answer_file.resolve() in {path.resolve() for path in self.given}

    def answers(self) -> Answers:
        """The answers given. Raises SpecError for what is no file of answers."""
        from panelart.lists.answers import read_answers

        return read_answers([(read_list_file(path), path.as_posix()) for path in self.given], self.names)

    def beside(self) -> Answers:
        """What stands in the file beside the spec, nothing where there is none."""
        from panelart.lists.answers import NONE, read_answers

        path = self.answer_file
        return read_answers([(read_list_file(path), path.as_posix())], self.names) if path.exists() else NONE


def kept_rooms(asking: Asking, answers: Answers) -> Mapping[str, Place]:
    """The places that an earlier draft kept for parts not decided, by ref."""
    beside = {} if asking.is_given else asking.beside().rooms.get(asking.spec.name, {})
    return {**beside, **answers.rooms.get(asking.spec.name, {})}


def write_questions(
    asking: Asking, listed: ComponentList, matcher: Matcher, rooms: Mapping[str, Mapping[str, Place]]
) -> int:
    """Write the questions to be answered, and the columns that were asked for; how many questions there are.

    A file with answers is kept as it is, but for columns.
    """
    from panelart.lists.questions import questions
    from panelart.messages import component_lists_answers as said

    asked = questions(listed.items)
    columns = _confirmed(listed)
    parts = {one.name: matcher.component(one.name) for each in asked for one in each.candidates}
    if asking.is_given or asking.beside().given:
        _remember(asking, columns)
        if asked and not asking.is_given:
            print(said.answers_kept(asking.answer_file.as_posix()))
    elif asked or columns:
        _write_answer_file(asking, asked, parts, columns, rooms)
    if asked:
        _write_sheets(asking, asked, parts)
        print(said.questions_left(asking.answer_file.with_suffix(".pdf").as_posix(), len(asked)))
    return len(asked)


_Columns = tuple[tuple[str, ...], Mapping[str, str]]


def _confirmed(listed: ComponentList) -> tuple[_Columns, ...]:
    """The headings of a list with the columns that were asked for; none where nothing was, or it has no headings."""
    from panelart.lists.remembered import confirmed
    from panelart.messages import component_lists_answers as said

    are = confirmed(listed.columns)
    heads = tuple(column.head for column in listed.columns.columns if column.head)
    if are and not heads:
        print(said.columns_without_headings())
    return ((heads, are),) if are and heads else ()


def _remember(asking: Asking, columns: Sequence[_Columns]) -> None:
    """Add what columns are to the file of answers that is there already."""
    from panelart.lists.answers import with_columns
    from panelart.writers import write_all

    path = asking.answer_file
    text = before = read_list_file(path).decode("utf-8") if columns else ""
    for heads, are in columns:
        text = with_columns(text, heads, are, path.as_posix())
    if text != before:
        write_all({path.name: text.encode("utf-8")}, path.parent)
        _tell_columns(path)


def _write_answer_file(
    asking: Asking,
    asked: Sequence[Question],
    parts: Mapping[str, Component],
    columns: Sequence[_Columns],
    rooms: Mapping[str, Mapping[str, Place]],
) -> None:
    from panelart.lists.answers import answer_file
    from panelart.messages import component_lists_answers as said
    from panelart.writers import write_all

    path = asking.answer_file
    titles = {name: part.title for name, part in parts.items()}
    text = answer_file(asking.file, asked, titles, columns, rooms)
    write_all({path.name: text.encode("utf-8")}, path.parent)
    if asked:
        print(said.answer_in(path.as_posix(), len(asked)))
    if columns:
        _tell_columns(path)


def _tell_columns(path: Path) -> None:
    from panelart.messages import component_lists_answers as said

    print(said.columns_kept(path.as_posix()))


def _write_sheets(asking: Asking, asked: Sequence[Question], parts: Mapping[str, Component]) -> None:
    """The questions with pictures, as PDF and on request as a workbook."""
    from panelart.sheets.questions import question_sheets
    from panelart.writers import pdf, write_all

    path = asking.answer_file
    pages = question_sheets(asked, parts, path.name, asking.file, f"panelart {__version__}")
    files = {path.with_suffix(".pdf").name: pdf(pages, live=True)}
    if asking.spreadsheet:
        files[path.with_suffix(".xlsx").name] = _workbook(asked, parts)
    write_all(files, path.parent)
    if asking.spreadsheet:
        print(path.with_suffix(".xlsx").as_posix())


def _workbook(asked: Sequence[Question], parts: Mapping[str, Component]) -> bytes:
    from panelart.sheets.question_book import question_book
    from panelart.sheets.questions import candidate_picture
    from panelart.writers import png

    pictures: dict[str, tuple[bytes, float, float]] = {}
    for name, part in parts.items():
        drawing = candidate_picture(part)
        pictures[name] = (png(drawing, PICTURE_DPI), drawing.page.width, drawing.page.height)
    return question_book(asked, parts, pictures)
