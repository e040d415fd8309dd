"""The questions about a component list as a workbook: a row a candidate with its picture, hole and a cell to mark.

What is matched, the words and order numbers of the rows, stands on a second sheet, as ``lists.answer_book`` reads it.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Final

from panelart.canonical import Struct
from panelart.lists.answer_book import ANSWER, NUMBER, ORDER, PART, QUESTION, WORDS
from panelart.lists.answered import MEASURE, NOT_ON_PANEL
from panelart.lists.matching import Candidate
from panelart.lists.questions import Question
from panelart.messages import Said
from panelart.messages import sheets_questions as said
from panelart.model.component import Component
from panelart.sheets.catalogue import opening_facts
from panelart.sheets.questions import unsaid_of
from panelart.sheets.workbook import put_text, workbook_bytes

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

PICTURE: Final = (52.0, 26.0)
"""Most of a picture in its cell, mm."""

_WIDTHS: Final = (9, 30, 34, 8, 22, 40, 28, 34, 30, 30)
_PICTURE_WIDTH: Final = 30
_ROW_HEIGHT: Final = 80.0
"""Widths of columns in characters, the height of a row with a picture in points."""

_POINTS_PER_MM: Final = 72 / 25.4


class _Line(Struct, frozen=True, kw_only=True):
    """A row of the first sheet; `picture` is the part whose picture stands in it."""

    cells: tuple[str | int, ...]
    picture: str = ""


def question_book(
    asked: Sequence[Question], parts: Mapping[str, Component], pictures: Mapping[str, tuple[bytes, float, float]]
) -> bytes:
    """The workbook. `parts` are those of all candidates, `pictures` PNG with width and height in mm, by name."""
    import openpyxl
    from openpyxl.drawing.image import Image

    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = str(said.sheet_of_questions())
    put_text(sheet, 1, 1, str(said.fill_in()))
    heads = (
        QUESTION, str(said.head_refs()), str(said.head_rows()), NUMBER, PART, str(said.head_title()),
        str(said.head_hole()), str(said.head_for()), str(said.head_against()), ANSWER, str(said.head_picture()),
    )  # fmt: skip
    _put(sheet, 2, heads)
    for row, line in enumerate(_lines(asked, parts), start=3):
        _put(sheet, row, line.cells)
        if line.picture in pictures:
            data, width, height = pictures[line.picture]
            image = Image(io.BytesIO(data))
            share = min(1.0, PICTURE[0] / width, PICTURE[1] / height)
            image.width, image.height = (round(side * share * 96 / 25.4) for side in (width, height))
            sheet.add_image(image, f"K{row}")
            sheet.row_dimensions[row].height = max(30.0, height * share * _POINTS_PER_MM + 6.0)
    for letter, width in zip("ABCDEFGHIJK", (*_WIDTHS, _PICTURE_WIDTH), strict=True):
        sheet.column_dimensions[letter].width = width
    sheet.freeze_panes = "A3"
    _rows(book.create_sheet(str(said.sheet_of_rows())), asked)
    return workbook_bytes(book)


def _put(sheet: Worksheet, row: int, cells: Sequence[str | int]) -> None:
    from openpyxl.styles import Alignment

    for column, value in enumerate(cells, start=1):
        put_text(sheet, row, column, value)
        sheet.cell(row=row, column=column).alignment = Alignment(wrap_text=True, vertical="top")


def _lines(asked: Sequence[Question], parts: Mapping[str, Component]) -> Iterator[_Line]:
    """The candidates of each question, none of these, and not on the panel."""
    for number, question in enumerate(asked, start=1):
        head = (number, _joined(question.refs), " | ".join(question.words))
        for at, one in enumerate(question.candidates, start=1):
            yield _Line(cells=(*head, at, *_told(one, parts[one.name])), picture=one.name)
        last = len(question.candidates) + 1
        yield _Line(cells=(*head, last, MEASURE, str(said.none_of_these())))
        yield _Line(cells=(*head, "", NOT_ON_PANEL, str(said.none_row())))


def _told(candidate: Candidate, part: Component) -> tuple[str, str, str, str, str]:
    """Name, title, hole, what speaks for a part, and what against or was not said."""
    hole: list[Said] = list(opening_facts(part)) if part.openings else [said.no_opening()]
    unsaid = unsaid_of(candidate)
    against = (*candidate.differs, *((str(said.unsaid(unsaid)),) if unsaid else ()))
    return part.name, str(part.title), _joined(hole), _joined(candidate.agrees), _joined(against)


def _joined(texts: Sequence[Said]) -> str:
    return ", ".join(map(str, texts))


def _rows(sheet: Worksheet, asked: Sequence[Question]) -> None:
    """The words and the order numbers of the rows of each question, one below the other."""
    _put(sheet, 1, (QUESTION, WORDS, ORDER))
    row = 2
    for number, question in enumerate(asked, start=1):
        for at in range(max(len(question.words), len(question.numbers))):
            words = question.words[at] if at < len(question.words) else ""
            order = question.numbers[at] if at < len(question.numbers) else ""
            _put(sheet, row, (number, words, order))
            row += 1
    for letter, width in zip("ABC", (9, 70, 30), strict=True):
        sheet.column_dimensions[letter].width = width
