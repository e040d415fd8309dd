"""The questions on paper and in a workbook, read back by programs that are not ours; holes measured on a raster."""

from __future__ import annotations

import io
import subprocess
from pathlib import Path

import openpyxl
import pytest

from panelart.catalogue import component, names
from panelart.diagnostics import SpecError
from panelart.lists.answers import read_answers
from panelart.lists.matching import Candidate
from panelart.lists.questions import Question, questions
from panelart.lists.read import read_list
from panelart.sheets.question_book import question_book
from panelart.sheets.questions import GAP, HOLE, NUMBER, SEEN, candidate_picture, question_sheets
from panelart.writers import pdf, png
from tests.readers import needs_poppler

LIST = (
    b"Ref,Description,Order code\nS2,rotary switch,RS-7\nS3,=rotary switch,RS-8\n"
    b"J1,mains inlet,B-1\nM1,meter,\nX9,flange thing,F-1\n"
)
MM = 25.4


def asked_of(list_: bytes) -> tuple[Question, ...]:
    return questions(read_list(list_, "list.csv").items)


def parts_of(asked: tuple[Question, ...]) -> dict:
    return {one.name: component(one.name) for each in asked for one in each.candidates}


def pages_of(asked: tuple[Question, ...]) -> bytes:
    return pdf(question_sheets(asked, parts_of(asked), "a.yaml", "list.csv", "made here"), live=True)


@needs_poppler
def test_every_candidate_is_named_and_numbered_best_first_and_none_of_them_is_last(tmp_path: Path) -> None:
    asked = asked_of(LIST)
    (tmp_path / "q.pdf").write_bytes(pages_of(asked))
    done = subprocess.run(["pdftotext", "-raw", "q.pdf", "-"], cwd=tmp_path, capture_output=True, text=True, check=True)
    text = " ".join(done.stdout.split())
    at = 0
    for question in asked:
        for name in (*(one.name for one in question.candidates), "None of these: measure the part"):
            found = text.find(name, at)
            assert found >= 0, name
            at = found
    assert "list.csv" in text
    assert "For: " in text


def single(name: str) -> tuple[Question, ...]:
    return (
        Question(words=("x",), numbers=(), rows=(2,), refs=("S1",), candidates=(Candidate(name=name, confidence=1),)),
    )


@pytest.mark.parametrize("name", ["toggle-12", "rotary-snap-12.7", "led-5-clip"])
def test_a_hole_is_drawn_to_scale(name: str) -> None:
    """Measured on dots between the two rules of a candidate, across the ring of the hole; 1:1, half a line outside."""
    pdfium = pytest.importorskip("pypdfium2")
    (opening,) = component(name).openings
    dots = 12.0
    page = pdfium.PdfDocument(pages_of(single(name)))[0]
    picture = page.render(scale=dots * MM / 72).to_pil().convert("L")
    left = 15.0 + NUMBER + SEEN[0] + GAP
    field = picture.crop((round(left * dots), round(40 * dots), round((left + HOLE[0]) * dots), picture.height))
    inked = [bytes(field.crop((0, y, field.width, y + 1)).tobytes()) for y in range(field.height)]
    ruled = [y for y, row in enumerate(inked) if max(row) < 250]
    end = next(y for y in ruled if y > ruled[0] + 4 * dots)
    dark = [
        [x for x, grey in enumerate(row) if grey < 60] for row in inked[ruled[0] + 5 : end]
    ]  # centre lines are grey
    ring = min((row for row in dark if row), key=min)
    across = (max(ring) - min(ring) + 1) / dots
    assert across == pytest.approx(opening.contour.bounds.width + 0.35, abs=0.2)


# --- the workbook


def book_of(asked: tuple[Question, ...]) -> bytes:
    parts = parts_of(asked)
    pictures = {}
    for name, part in parts.items():
        drawing = candidate_picture(part)
        pictures[name] = (png(drawing, 72.0), drawing.page.width, drawing.page.height)
    return question_book(asked, parts, pictures)


@pytest.fixture(scope="module")
def asked() -> tuple[Question, ...]:
    return asked_of(LIST)


@pytest.fixture(scope="module")
def book(asked: tuple[Question, ...]) -> bytes:
    return book_of(asked)


def filled(book: bytes, answers: dict[tuple[int, str], str]) -> bytes:
    """The workbook as openpyxl saves it after answers were typed beside parts, by question and part."""
    read = openpyxl.load_workbook(io.BytesIO(book))
    sheet = read["Questions"]
    for row in sheet.iter_rows(min_row=3):
        answer = answers.get((row[0].value, row[4].value))
        if answer is not None:
            row[9].value = answer
    out = io.BytesIO()
    read.save(out)
    return out.getvalue()


def test_the_workbook_has_a_row_and_a_picture_for_each_candidate(asked: tuple[Question, ...], book: bytes) -> None:
    sheet = openpyxl.load_workbook(io.BytesIO(book))["Questions"]
    rows = [(row[0], row[3], row[4]) for row in sheet.iter_rows(min_row=3, values_only=True)]
    wanted = []
    for number, question in enumerate(asked, start=1):
        found = [one.name for one in question.candidates]
        wanted += [(number, at, name) for at, name in enumerate([*found, "measure"], start=1)]
        wanted.append((number, None, "none"))
    assert rows == wanted
    assert len(sheet._images) == sum(len(one.candidates) for one in asked)
    holes = {row[4]: row[6] for row in sheet.iter_rows(min_row=3, values_only=True)}
    assert "Ø10.5" in holes["rotary-m10"]


def test_an_empty_workbook_answers_nothing(book: bytes) -> None:
    answers = read_answers([(book, "a.xlsx")], names())
    assert not answers.given


def test_what_is_marked_or_written_in_the_workbook_is_the_answer(asked: tuple[Question, ...], book: bytes) -> None:
    number = {question.refs[0]: at for at, question in enumerate(asked, start=1)}
    second = asked[number["J1"] - 1].candidates[1].name
    typed = {
        (number["S2"], "rotary-3-8-32"): "x",
        (number["J1"], asked[number["J1"] - 1].candidates[0].name): "2",
        (number["M1"], "measure"): "yes",
        (number["X9"], "none"): "X",
    }
    listed = read_list(LIST, "list.csv", answers=read_answers([(filled(book, typed), "a.xlsx")], names()))
    assert {item.ref: (item.component, item.to_measure) for item in listed.items} == {
        "S2": ("rotary-3-8-32", False), "S3": ("rotary-3-8-32", False), "J1": (second, False), "M1": (None, True),
    }  # fmt: skip


def test_another_part_may_be_named(book: bytes) -> None:
    typed = filled(book, {(1, "measure"): "bnc"})
    assert set(read_answers([(typed, "a.xlsx")], names()).by_words.values()) == {"bnc"}


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({(1, "rotary-m10"): "x", (1, "measure"): "x"}, "Question 1 has different answers"),
        ({(1, "rotary-m10"): "bcn"}, "a.xlsx:3:10: error: Unknown part 'bcn'"),
        ({(1, "rotary-m10"): "17"}, "Unknown candidate '17'"),
    ],
)
def test_what_cannot_be_meant_is_told_with_its_cell(book: bytes, typed: dict, says: str) -> None:
    with pytest.raises(SpecError) as raised:
        read_answers([(filled(book, typed), "a.xlsx")], names())
    assert says in str(raised.value)


def test_a_workbook_of_something_else_is_refused() -> None:
    other = openpyxl.Workbook()
    other.active.append(["a", "b"])
    out = io.BytesIO()
    other.save(out)
    with pytest.raises(SpecError, match="No questions in this workbook"):
        read_answers([(out.getvalue(), "a.xlsx")], names())


def test_the_workbook_may_come_back_as_ods(book: bytes) -> None:
    """Its cells carried over by odfpy, as a spreadsheet program saves them."""
    ods = pytest.importorskip("odf.opendocument")
    from odf.table import Table, TableCell, TableRow
    from odf.text import P

    document = ods.OpenDocumentSpreadsheet()
    for sheet in openpyxl.load_workbook(io.BytesIO(filled(book, {(1, "rotary-m10"): "x"}))).worksheets:
        table = Table(name=sheet.title)
        for values in sheet.iter_rows(values_only=True):
            row = TableRow()
            for value in values:
                cell = TableCell()
                cell.addElement(P(text="" if value is None else str(value)))
                row.addElement(cell)
            table.addElement(row)
        document.spreadsheet.addElement(table)
    out = io.BytesIO()
    document.write(out)
    answers = read_answers([(out.getvalue(), "a.ods")], names())
    assert set(answers.by_words.values()) == {"rotary-m10"}
