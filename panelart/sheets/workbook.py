"""Workbooks as bytes that are the same every time."""

from __future__ import annotations

import io
import re
import zipfile
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet


def put_text(sheet: Worksheet, row: int, column: int, value: str | float) -> None:
    """A value in a cell, counted from 1; a text stays one, though it begin with =."""
    cell = sheet.cell(row=row, column=column, value=value)
    if isinstance(value, str):
        cell.data_type = "s"


def workbook_bytes(book: Workbook) -> bytes:
    """A workbook as XLSX, without the time it was written at."""
    out = io.BytesIO()
    book.save(out)
    return _without_clock(out.getvalue())


_TIMES: Final = re.compile(rb"(<dcterms:\w+ [^>]*>)[^<]*")
_LONG_AGO: Final = (1980, 1, 1, 0, 0, 0)


def _without_clock(data: bytes) -> bytes:
    """The workbook packed anew with one date in it."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            content = _TIMES.sub(rb"\g<1>1980-01-01T00:00:00Z", old.read(name))
            info = zipfile.ZipInfo(name, date_time=_LONG_AGO)
            info.compress_type = zipfile.ZIP_DEFLATED
            new.writestr(info, content)
    return out.getvalue()
