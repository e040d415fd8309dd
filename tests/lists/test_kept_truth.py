"""The kept lists and their truth: every row is told of, every name is one of the catalogue, the counts are those told.

The files are read here by the csv module, openpyxl, odfpy and xlrd, not by the program's reader, which they judge.
"""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml

from panelart import catalogue

KEPT = Path(__file__).parent / "kept"
LISTS = sorted(path for path in KEPT.iterdir() if path.suffix in {".csv", ".tsv", ".xlsx", ".xls", ".ods"})
FORMS = ("board-export", "bill-of-materials", "shopping-list", "hand-list")
WORDS = {"heading", "board", "total", "note", "blank-like", "preamble", "units"}
KEYS = {"panel", "aside", "section", "unfitted", "refused"}
PANEL_KEYS = {"panel", "sure", "ask", "kind", "count", "refs", "legend", "legend_may_be", "group", "side", "repeated"}
SIDES = {"front", "rear", "top", "bottom", "left", "right"}

Rows = dict[int | str, list[str]]


def truth(path: Path) -> dict[str, Any]:
    """What the hand has set for a list."""
    told = yaml.safe_load(path.with_name(f"{path.stem}.truth.yaml").read_text(encoding="utf-8"))
    assert isinstance(told, dict)
    return told


def text_rows(path: Path) -> Rows:
    """Rows by the line on which each begins; a line of delimiters alone is a row, an empty line is none."""
    told = truth(path)
    text = path.read_bytes().decode(told["encoding"])
    if told["line_ends"] == "cr":
        assert "\n" not in text
    else:
        assert ("\r\n" in text) == (told["line_ends"] == "crlf")
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=told["delimiter"])
    rows: Rows = {}
    begins = 1
    for cells in reader:
        if cells:
            rows[begins] = cells
        begins = reader.line_num + 1
    return rows


def xlsx_rows(path: Path) -> Iterator[tuple[str, int, list[str]]]:
    """Sheet, row from 1, cells as text."""
    openpyxl = pytest.importorskip("openpyxl")
    for sheet in openpyxl.load_workbook(path).worksheets:
        for number, cells in enumerate(sheet.iter_rows(values_only=True), 1):
            yield sheet.title, number, ["" if cell is None else str(cell) for cell in cells]


def xls_rows(path: Path) -> Iterator[tuple[str, int, list[str]]]:
    """Sheet, row from 1, cells as text; only where a reader of old workbooks is installed."""
    xlrd = pytest.importorskip("xlrd")
    for sheet in xlrd.open_workbook(str(path)).sheets():
        for number in range(sheet.nrows):
            yield sheet.name, number + 1, [str(cell) for cell in sheet.row_values(number)]


def ods_rows(path: Path) -> Iterator[tuple[str, int, list[str]]]:
    """Sheet, row from 1, cells as text; repeated rows are counted."""
    opendocument = pytest.importorskip("odf.opendocument")
    table = pytest.importorskip("odf.table")
    teletype = pytest.importorskip("odf.teletype")
    for sheet in opendocument.load(path).spreadsheet.getElementsByType(table.Table):
        number = 1
        for row in sheet.getElementsByType(table.TableRow):
            yield (
                sheet.getAttribute("name"),
                number,
                [teletype.extractText(cell) for cell in row.getElementsByType(table.TableCell)],
            )
            number += int(row.getAttribute("numberrowsrepeated") or 1)


BOOKS = {".xlsx": xlsx_rows, ".xls": xls_rows, ".ods": ods_rows}


def rows_of(path: Path) -> Rows:
    """Every row that is not blank, by the number that its truth has for it."""
    if path.suffix not in BOOKS:
        return text_rows(path)
    return {f"{sheet}!{number}": cells for sheet, number, cells in BOOKS[path.suffix](path) if any(cells)}


@pytest.mark.parametrize("path", LISTS, ids=lambda path: path.stem)
def test_every_row_that_is_not_blank_has_its_truth(path: Path) -> None:
    assert list(truth(path)["rows"]) == list(rows_of(path))


@pytest.mark.parametrize("path", LISTS, ids=lambda path: path.stem)
def test_references_are_on_the_row_that_tells_them(path: Path) -> None:
    rows = rows_of(path)
    for number, told in truth(path)["rows"].items():
        if isinstance(told, dict):
            said = " ".join(rows[number])
            for ref in told.get("refs", ()):
                assert ref.rstrip("0123456789") in said, (number, ref)


@pytest.mark.parametrize("path", LISTS, ids=lambda path: path.stem)
def test_truth_is_of_the_form_told_in_the_readme(path: Path) -> None:
    told = truth(path)
    assert told["form"] in FORMS
    assert told["kind"] == path.suffix[1:]
    for number, row in told["rows"].items():
        if isinstance(row, str):
            assert row in WORDS, number
            continue
        assert len(row.keys() & KEYS) == 1, number
        if "panel" not in row:
            assert len(row) == 1, number
            assert all(row.values()), number
            continue
        assert row.keys() <= PANEL_KEYS, number
        assert {name for name in row["panel"] if name not in catalogue.names()} == set(), number
        assert row["sure"] != ("ask" in row), number
        assert bool(row["panel"]) != ("kind" in row), number
        assert row["count"] > 0, number
        assert row["legend"], number
        assert row.get("side", "front") in SIDES, number


def counts(of: str) -> dict[str, tuple[int, int, int, int]]:
    """Lists, rows, rows of panel parts and decided ones among these, by form or by kind of file."""
    found: Counter[tuple[str, int]] = Counter()
    for path in LISTS:
        told = truth(path)
        panel = [row for row in told["rows"].values() if isinstance(row, dict) and "panel" in row]
        for key in (told[of], "all"):
            for column, amount in enumerate((1, len(told["rows"]), len(panel), sum(row["sure"] for row in panel))):
                found[key, column] += amount
    return {key: (found[key, 0], found[key, 1], found[key, 2], found[key, 3]) for key, _ in found}


@pytest.mark.parametrize("of", ["form", "kind"])
def test_counts_in_the_readme_are_those_of_the_files(of: str) -> None:
    text = (KEPT / "README.md").read_text(encoding="utf-8")
    table = text.split(f"| {of} |")[1].split("\n\n")[0]
    told = {
        words[0]: tuple(int(word) for word in words[1:])
        for line in table.splitlines()[2:]
        if (words := [word.strip() for word in line.strip("|").split("|")])
    }
    assert told == counts(of)
