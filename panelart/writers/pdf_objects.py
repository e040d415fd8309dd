"""Objects of a PDF file: how each kind of value is written, and a file that objects go to one by one.

ISO 32000-1, 7.3 (objects) and 7.5 (file structure). An object is written when it is made and forgotten but for its
place, so that a run of thousands of pieces takes no more memory than one.
"""

from __future__ import annotations

import hashlib
import zlib
from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import BinaryIO, Final, TypeAlias

from panelart.canonical import Struct
from panelart.writers.figures import decimal

PLACES: Final = 6
"""Decimals of numbers in objects: shares of a colour, and sides of a page in points, 0.4 nm."""

_HEADER: Final = b"%PDF-1.6\n%\xe2\xe3\xcf\xd3\n"
_PLAIN: Final = frozenset(b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_.+")
_NOT_OF_THE_CODE: Final = frozenset("\x7f\x9f\xad")  # code points that PDFDocEncoding leaves undefined
_MARK: Final = "þÿ"  # what begins like this is taken for UTF-16


class Name(str):
    """A name, by its text and without the slash."""

    __slots__ = ()


class Ref(Struct, frozen=True):
    """A reference to an object of the file."""

    number: int


Value: TypeAlias = "bool | int | float | str | bytes | Ref | Sequence[Value] | Mapping[str, Value]"
"""What an object is made of: str is a text string, bytes are a string of bytes, the keys of a dictionary are names."""

Entries: TypeAlias = Mapping[str, Value]


def written(value: Value) -> bytes:
    """A value as it stands in a file. Raises ValueError for a number that is not finite."""
    match value:
        case Ref(number=number):
            return b"%d 0 R" % number
        case Name():
            return name(value)
        case str():
            return text_string(value)
        case bytes():
            return b"<%s>" % value.hex().encode("ascii")
        case bool():
            return b"true" if value else b"false"
        case int() | float():
            return decimal(value, PLACES).encode("ascii")
        case Mapping():
            inner = (b"%s %s" % (name(key), written(one)) for key, one in value.items())
            return b"<< %s >>" % b" ".join(inner)
    return b"[%s]" % b" ".join(written(one) for one in value)


@lru_cache(maxsize=1024)  # the same few names come in every object
def name(text: str) -> bytes:
    """A name with everything but letters, digits and a few signs escaped (ISO 32000-1, 7.3.5).

    >>> name("Weiß #1")
    b'/Wei#C3#9F#20#231'
    """
    escaped = "".join(chr(byte) if byte in _PLAIN else f"#{byte:02X}" for byte in text.encode("utf-8"))
    return f"/{escaped}".encode("ascii")


def text_string(text: str) -> bytes:
    """A text string (ISO 32000-1, 7.9.2.2): in PDFDocEncoding where that has every character, else in UTF-16."""
    from reportlab.pdfbase.pdfdoc import DummyDoc, PDFString

    utf16 = text.startswith(_MARK) or not _NOT_OF_THE_CODE.isdisjoint(text)
    string: bytes = PDFString(text, enc="utf16" if utf16 else "auto").format(DummyDoc())
    return string


class ObjectFile:
    """Writes objects to an open file; numbers may be reserved and referred to before their object is written."""

    def __init__(self, out: BinaryIO) -> None:
        self._out = out
        self._hash = hashlib.sha256()
        self._at = 0
        self._offsets: list[int] = []
        self._write(_HEADER)

    def reserve(self) -> Ref:
        """A reference to an object that is written later."""
        self._offsets.append(-1)
        return Ref(len(self._offsets))

    def put(self, value: Value, ref: Ref | None = None) -> Ref:
        """Write an object, in the place reserved for it or a new one."""
        return self._object(written(value), ref)

    def stream(self, data: bytes, entries: Entries | None = None) -> Ref:
        """Write a stream deflated, with the entries of its dictionary."""
        return self.coded(deflated(data), {**(entries or {}), "Filter": Name("FlateDecode")})

    def coded(self, data: bytes, entries: Entries) -> Ref:
        """Write a stream as it is handed over; its entries say how it is coded."""
        head = written({**entries, "Length": len(data)})
        return self._object(b"%s\nstream\n%s\nendstream" % (head, data), None)

    def close(self, root: Ref, info: Ref) -> None:
        """The table of objects and the trailer; the identifier is made from all that was written.

        Raises ValueError where an object was reserved and not written.
        """
        missing = [number for number, offset in enumerate(self._offsets, 1) if offset < 0]
        if missing:
            raise ValueError(f"objects {missing} were promised and not written")
        start, count = self._at, len(self._offsets) + 1
        self._write(b"xref\n0 %d\n0000000000 65535 f \n" % count)
        for offset in self._offsets:
            self._write(b"%010d 00000 n \n" % offset)
        mark = self._hash.digest()[:16]
        trailer = written({"Size": count, "Root": root, "Info": info, "ID": [mark, mark]})
        self._write(b"trailer\n%s\nstartxref\n%d\n%%%%EOF\n" % (trailer, start))

    def _object(self, body: bytes, ref: Ref | None) -> Ref:
        ref = self.reserve() if ref is None else ref
        if self._offsets[ref.number - 1] >= 0:
            raise ValueError(f"object {ref.number} was written before")
        self._offsets[ref.number - 1] = self._at
        self._write(b"%d 0 obj\n%s\nendobj\n" % (ref.number, body))
        return ref

    def _write(self, data: bytes) -> None:
        self._out.write(data)
        self._hash.update(data)
        self._at += len(data)


def deflated(data: bytes) -> bytes:
    """Bytes as the filter FlateDecode reads them."""
    return zlib.compress(data, 6)
