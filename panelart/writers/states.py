"""What a written file says it was made from, read back out of each format that is written here.

Number, revision and the fingerprint of the spec stand in every file, so that files of two states of a panel that lie in
one folder are told apart.
"""

from __future__ import annotations

import csv
import html
import io
import json
import re
import struct
from collections.abc import Callable, Mapping
from typing import Final

from panelart.canonical import Struct
from panelart.texts.cells import unguarded

PNG_HEAD: Final = b"\x89PNG\r\n\x1a\n"
LONGEST_HEAD: Final = 8000
"""Bytes in which an SVG or DXF file has said what it is."""

_SVG_TAG: Final = re.compile(r"<svg\b[^>]*>")
_SVG_TOLD: Final = re.compile(r'\bdata-(number|revision|spec)="([^"]*)"')
_COMMENT: Final = re.compile(r"999\r?\n(Number|Revision|Spec): (.*?)\r?\n")


class State(Struct, frozen=True, kw_only=True, order=True):
    """Which state of which panel a file belongs to; '' for what it does not say."""

    number: str
    revision: str
    spec: str

    def __str__(self) -> str:
        told = (self.number, self.revision and f"rev {self.revision}", self.spec and f"spec {self.spec}")
        return " ".join(word for word in told if word)


def state_of(name: str, data: bytes) -> State | None:
    """The state that a file names; None for a file of another kind, or one that says nothing.

    `name` decides by its ending how the file is read. A file that cannot be read so says nothing.
    """
    reader = _READERS.get(name.rpartition(".")[2].lower())
    if reader is None:
        return None
    try:
        told = reader(data)
    except (ValueError, LookupError, TypeError, AttributeError, csv.Error, struct.error):
        return None
    state = _state(told)
    return state if state.spec else None


class Line(Struct, frozen=True, kw_only=True):
    """What a line of a list of a set says: the panel by its name in the set, and its state.

    `whole` is whether the list names all panels of the set.
    """

    member: str
    state: State
    whole: bool


def lines_of(name: str, data: bytes) -> tuple[Line, ...]:
    """What a list of a set says of each panel, each saying once; nothing for any other file."""
    if not name.lower().endswith(".csv"):
        return ()
    try:
        rows = list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"))))
    except (ValueError, csv.Error):
        return ()
    member = next((column for column in _MEMBER_COLUMNS if rows and _MEMBER_COLUMNS[column] <= rows[0].keys()), "")
    if not member:
        return ()
    lines = (
        Line(member=unguarded(row[member] or ""), state=_state(_row(row)), whole=member == "panel") for row in rows
    )
    return tuple(dict.fromkeys(line for line in lines if line.state.spec))


_MEMBER_COLUMNS: Final = {"of": {"of", "spec"}, "panel": {"panel", "number", "spec"}}
"""The column that names the panel of a set, by the columns that only such a list has: of parts, and of panels."""


def _csv(data: bytes) -> Mapping[str, str]:
    return _row(next(csv.DictReader(io.StringIO(data.decode("utf-8-sig"))), {}))


def _row(row: Mapping[str, str]) -> Mapping[str, str]:
    # In the list of a set's panels `panel` is the name in the set; there the number has a column of its own.
    number = "number" if "number" in row else "panel"
    columns = (("number", number), ("revision", "revision"), ("spec", "spec"))
    return {key: unguarded(row.get(column) or "") for key, column in columns}


def _state(told: Mapping[str, str]) -> State:
    return State(number=told.get("number", ""), revision=told.get("revision", ""), spec=told.get("spec", ""))


def _json(data: bytes) -> Mapping[str, str]:
    document = json.loads(data)
    told = {"spec": document.get("fingerprint", ""), **document["panel"]}
    return {key: str(told.get(key, "")) for key in ("number", "revision", "spec")}


def _svg(data: bytes) -> Mapping[str, str]:
    tag = _SVG_TAG.search(data[:LONGEST_HEAD].decode("utf-8", "replace"))
    return {} if tag is None else {found[1]: html.unescape(found[2]) for found in _SVG_TOLD.finditer(tag[0])}


def _dxf(data: bytes) -> Mapping[str, str]:
    return {found[1].lower(): found[2] for found in _COMMENT.finditer(data[:LONGEST_HEAD].decode("utf-8", "replace"))}


def _png(data: bytes) -> Mapping[str, str]:
    if not data.startswith(PNG_HEAD):
        return {}
    told: dict[str, str] = {}
    at = len(PNG_HEAD)
    while at + 8 <= len(data):
        length, kind = struct.unpack(">I4s", data[at : at + 8])
        if kind == b"IDAT":
            break
        if kind == b"iTXt":
            keyword, _, said = data[at + 8 : at + 8 + length].partition(b"\0")
            told[keyword.decode("latin-1").lower()] = said[4:].decode("utf-8")
        at += 12 + length
    return told


def _pdf(data: bytes) -> Mapping[str, str]:
    import pikepdf

    try:
        with pikepdf.open(io.BytesIO(data)) as file:
            about = file.open_metadata()
            number, revision = (str(about.get(key, "")) for key in ("dc:identifier", "xmpMM:VersionID"))
            source = about.get("dc:source", "")
    except pikepdf.PdfError:
        return {}
    return {"number": number, "revision": revision, "spec": source.removeprefix("spec ") if source else ""}


_READERS: Final[Mapping[str, Callable[[bytes], Mapping[str, str]]]] = {
    "csv": _csv,
    "json": _json,
    "svg": _svg,
    "dxf": _dxf,
    "png": _png,
    "pdf": _pdf,
}
