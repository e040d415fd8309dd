"""Bytes of a file to tables of text: delimited text of any usual delimiter and encoding, sheets of XLSX, XLS, ODS."""

from __future__ import annotations

import csv
import io
import re
import zipfile
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import Final
from xml.etree import ElementTree as ET

from panelart.canonical import Struct
from panelart.catalogue.vocabulary import folded, known_words
from panelart.diagnostics import Problem, SpecError, Where
from panelart.messages import Said
from panelart.messages import component_lists_files as said
from panelart.texts.cells import unguarded

MAX_BYTES: Final = 5_000_000
"""The largest file that is read, packed or not."""

MAX_UNPACKED: Final = 50_000_000
"""The most that one file inside a packed table may take."""

MAX_ROWS: Final = 5000
MAX_COLUMNS: Final = 200
MAX_CELL: Final = 2000
"""A list of components is far below; more is another kind of file."""

DELIMITERS: Final = {",": said.commas(), ";": said.semicolons(), "\t": said.tabs(), "|": said.bars()}
FORMATS: Final = ("CSV", "TSV", "XLSX", "XLS", "ODS")

MAX_SHEETS: Final = 20
"""Sheets of a file that are looked at."""


class Row(Struct, frozen=True, kw_only=True):
    """One row with something in it; `number` counts from 1 as a spreadsheet (or an editor) does."""

    number: int
    cells: tuple[str, ...]

    def cell(self, at: int) -> str:
        """The cell in a column, from 0; '' past the last."""
        return self.cells[at] if at < len(self.cells) else ""


class Table(Struct, frozen=True, kw_only=True):
    """The rows of a file or of one of its sheets and, in `form`, how it was read: 'UTF-8, semicolons'."""

    file: str
    form: Said
    rows: tuple[Row, ...]
    sheet: str = ""


def read_tables(data: bytes, file: str, known: Callable[[Sequence[str]], int]) -> tuple[Table, ...]:
    """The tables in a file, one a sheet that is not empty. `known` says how many cells of a row are known heads.

    The delimiter of text is the one by which a row near the top has most known headers, then the one that gives most
    rows the same number of cells. Raises SpecError for what is no table.
    """
    if len(data) > MAX_BYTES:
        raise _refused(file, said.file_too_large(size=len(data), maximum=MAX_BYTES), said.save_the_list_alone())
    if data.startswith(b"PK\x03\x04"):
        return _packed(data, file)
    if data.startswith(b"\xd0\xcf\x11\xe0"):
        return _xls(data, file)
    text, encoding = _decoded(data, file)
    lines = text.splitlines(keepends=True)
    first = lines[0].strip().casefold() if lines else ""
    skip = 1 if first.startswith("sep=") and len(first) == 5 else 0
    read = {delimiter: _rows(text, delimiter, file) for delimiter in DELIMITERS}
    best = max(DELIMITERS, key=lambda delimiter: _quality(read[delimiter], known))
    rows = tuple(row for row in read[best] if row.number > skip)
    form = said.text_form(encoding=encoding, delimiter=DELIMITERS[best])
    return (Table(file=file, form=form, rows=_bounded(rows, file)),)


def _refused(file: str, message: Said, hint: Said, row: int = 1) -> SpecError:
    return SpecError([Problem(where=Where(file, row, 1), says=message, accepts=hint)])


def _decoded(data: bytes, file: str) -> tuple[str, Said]:
    for mark, encoding, name, form in (
        (b"\xef\xbb\xbf", "utf-8-sig", "UTF-8", said.with_byte_order_mark(encoding="UTF-8")),
        (b"\xff\xfe", "utf-16", "UTF-16", "UTF-16"),
        (b"\xfe\xff", "utf-16", "UTF-16", "UTF-16"),
    ):
        if data.startswith(mark):
            try:
                return data.decode(encoding), form
            except UnicodeDecodeError as error:
                raise _refused(file, said.encoding_invalid(encoding=name), said.save_as_utf_8()) from error
    if b"\0" in data[:4096]:
        half = "utf-16-le" if data[1:2] == b"\0" else "utf-16-be"
        try:
            text = data.decode(half)
        except UnicodeDecodeError:
            text = "\0"
        if "\0" in text:
            raise _refused(file, said.not_a_table(), said.accepted_formats(formats=FORMATS))
        return text, said.without_byte_order_mark(encoding="UTF-16")
    try:
        return data.decode("utf-8"), "UTF-8"
    except UnicodeDecodeError:
        japanese = _in_shift_jis(data)
        if japanese:
            return japanese, "Shift_JIS"
        # Every byte is a character there, so that a slip shows as an odd letter and not as a refusal.
        western, central = (data.decode(page, errors="replace") for page in ("cp1252", "cp1250"))
        if _known_in(central) > _known_in(western):
            return central, "Windows-1250"
        return western, "Windows-1252"


def _known_in(text: str) -> int:
    """How many words with letters beyond ASCII are known: code pages differ in what these are."""
    written = {word for word in _WORD.findall(text[:_LOOKED_AT]) if not word.isascii()}
    return sum(folded(word) in known_words() for word in written)


_WORD: Final = re.compile(r"\w+")

_LOOKED_AT: Final = 20_000
"""Characters by which the code page of a text is told."""


def _in_shift_jis(data: bytes) -> str:
    """The text of Japanese spreadsheets, '' where it is none: its full-width kana are 82 and 83 hex, then another byte.

    Code page 932 of the Unicode Consortium's mapping tables, recalled; in Windows-1252 both are rare signs.
    """
    try:
        text = data.decode("cp932")
    except UnicodeDecodeError:
        return ""
    kana = sum("\u3041" <= letter <= "\u30fe" for letter in text)
    return text if kana >= _KANA * sum(map(str.isalpha, text)) else ""


_KANA: Final = 0.1
"""The share of letters of a Japanese list that are kana: more, where its words are Japanese at all."""


def _rows(text: str, delimiter: str, file: str) -> list[Row]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, skipinitialspace=True)
    rows: list[Row] = []
    line = 1
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                rows.append(Row(number=line, cells=tuple(_tidy(cell) for cell in cells)))
            line = reader.line_num + 1
            if len(rows) > MAX_ROWS:
                break
    except csv.Error as error:
        raise _refused(file, said.text_table_invalid(reason=str(error)), said.close_the_quotes(), line) from error
    return rows


def _tidy(cell: str) -> str:
    return unguarded(" ".join(cell.replace("\xa0", " ").split()))


def _quality(rows: list[Row], known: Callable[[Sequence[str]], int]) -> tuple[int, float]:
    headers = max((known(row.cells) for row in rows[:20]), default=0)
    widths = [len(row.cells) for row in rows]
    usual = max(set(widths), key=lambda width: (widths.count(width), width), default=0)
    return headers, widths.count(usual) / len(rows) if rows and usual > 1 else 0.0


def _bounded(rows: Sequence[Row], file: str) -> tuple[Row, ...]:
    if len(rows) > MAX_ROWS:
        raise _refused(file, said.too_many_rows(maximum=MAX_ROWS), said.keep_components_only())
    for row in rows:
        if len(row.cells) > MAX_COLUMNS or any(len(cell) > MAX_CELL for cell in row.cells):
            says = said.row_too_long(columns=MAX_COLUMNS, characters=MAX_CELL)
            raise _refused(file, says, said.keep_components_only(), row.number)
    return tuple(rows)


# --- packed tables


def _packed(data: bytes, file: str) -> tuple[Table, ...]:
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            names = {info.filename: info.file_size for info in archive.infolist()}
            if any(size > MAX_UNPACKED for size in names.values()):
                raise _refused(file, said.unpacked_too_large(maximum=MAX_UNPACKED), said.save_the_list_alone())
            if "xl/workbook.xml" in names:
                return _xlsx(data, file)
            if "content.xml" in names:
                return _ods(archive.read("content.xml"), file)
    except (zipfile.BadZipFile, NotImplementedError, RuntimeError, EOFError, OSError) as error:
        raise _refused(file, said.file_damaged(), said.save_again()) from error
    raise _refused(file, said.archive_without_table(), said.accepted_formats(formats=FORMATS))


def _xlsx(data: bytes, file: str) -> tuple[Table, ...]:
    import openpyxl

    try:
        book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=True)
        sheets = [
            (sheet.title, _listed(file, enumerate(sheet.iter_rows(values_only=True), start=1)))
            for sheet in book.worksheets[:MAX_SHEETS]
        ]
    except (KeyError, ValueError, TypeError, AttributeError, IndexError, ET.ParseError) as error:
        # What openpyxl raises for workbooks that are not as the standard says.
        raise _refused(file, said.workbook_unreadable(), said.save_again()) from error
    return _sheets(file, "XLSX", sheets)


def _xls(data: bytes, file: str) -> tuple[Table, ...]:
    import xlrd

    try:
        book = xlrd.open_workbook(file_contents=data, logfile=io.StringIO())
        sheets = [
            (sheet.name, _listed(file, ((number + 1, sheet.row_values(number)) for number in range(sheet.nrows))))
            for sheet in book.sheets()[:MAX_SHEETS]
        ]
    except SpecError:
        raise
    except Exception as error:  # xlrd raises whatever a damaged record leads to
        raise _refused(file, said.workbook_unreadable(), said.save_again()) from error
    return _sheets(file, "XLS", sheets)


def _sheets(file: str, form: str, sheets: Iterable[tuple[str, tuple[Row, ...]]]) -> tuple[Table, ...]:
    """The sheets that are not empty. Raises SpecError where all are."""
    found = tuple(
        Table(file=file, form=said.sheet_form(format=form, sheet=name), rows=rows, sheet=name)
        for name, rows in sheets
        if rows
    )
    if not found:
        raise _refused(file, said.workbook_empty(), said.add_a_header_row())
    return found


def _listed(file: str, numbered: Iterable[tuple[int, Sequence[object]]]) -> tuple[Row, ...]:
    rows: list[Row] = []
    for number, values in numbered:
        cells = tuple(_tidy(_shown(value)) for value in values[: MAX_COLUMNS + 1])
        if any(cells):
            rows.append(Row(number=number, cells=cells))
        if len(rows) > MAX_ROWS:
            break
    return _bounded(rows, file)


def _shown(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, float) and value.is_integer():
        return str(int(value))  # a spreadsheet keeps 4 as 4.0
    return str(value)


_TABLE: Final = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
_TEXT: Final = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"


def _ods(content: bytes, file: str) -> tuple[Table, ...]:
    if b"<!DOCTYPE" in content[:4096]:
        raise _refused(file, said.document_type_declared(), said.save_again())
    try:
        top = ET.fromstring(content)  # noqa: S314  # no document type, so no entities
    except ET.ParseError as error:
        raise _refused(file, said.workbook_unreadable(), said.save_again()) from error
    named = list(top.iter(f"{_TABLE}table"))[:MAX_SHEETS]
    sheets = [(sheet.get(f"{_TABLE}name", ""), _listed(file, _ods_rows(sheet))) for sheet in named]
    return _sheets(file, "ODS", sheets)


def _ods_rows(sheet: ET.Element) -> Iterator[tuple[int, list[str]]]:
    number = 1
    for row in sheet.iter(f"{_TABLE}table-row"):
        cells: list[str] = []
        for cell in row:
            if cell.tag not in (f"{_TABLE}table-cell", f"{_TABLE}covered-table-cell"):
                continue
            text = "\n".join("".join(line.itertext()) for line in cell.iter(f"{_TEXT}p"))
            again = _times(cell, "columns")
            if text or again < MAX_COLUMNS:
                cells += [text] * min(again, MAX_COLUMNS)
        again = _times(row, "rows")
        if any(cells):
            for copy in range(min(again, MAX_ROWS + 1)):
                yield number + copy, cells
        number += again


def _times(element: ET.Element, what: str) -> int:
    text = element.get(f"{_TABLE}number-{what}-repeated", "1")
    return max(1, int(text)) if text.isdecimal() and len(text) < 9 else 1
