"""The bytes of a PDF file, object by object as they are made: a long run takes no more memory than a short one."""

from __future__ import annotations

import hashlib
import zlib
from typing import BinaryIO, Final

_HEADER: Final = b"%PDF-1.6\n%\xe2\xe3\xcf\xd3\n"


class ObjectFile:
    """Writes objects to an open file; numbers may be reserved and referred to before their object is written."""

    def __init__(self, out: BinaryIO) -> None:
        self._out = out
        self._hash = hashlib.sha256()
        self._at = 0
        self._offsets: list[int] = []
        self._write(_HEADER)

    def reserve(self) -> int:
        """The number of an object that is written later."""
        self._offsets.append(-1)
        return len(self._offsets)

    def put(self, body: str, number: int | None = None) -> int:
        """Write an object, under a number reserved for it or a new one; returns the number."""
        return self._object(body.encode("latin-1"), number)

    def stream(self, entries: str, data: bytes, number: int | None = None, *, plain: bool = False) -> int:
        """Write a stream with the entries of its dictionary, deflated unless `plain`."""
        if not plain:
            data = zlib.compress(data, 6)
            entries = f"{entries} /Filter /FlateDecode"
        head = f"<< {entries} /Length {len(data)} >>\nstream\n".encode("latin-1")
        return self._object(head + data + b"\nendstream", number)

    def close(self, root: int, info: int) -> None:
        """The table of objects and the trailer; the identifier is made from all that was written."""
        missing = [number for number, offset in enumerate(self._offsets, 1) if offset < 0]
        if missing:
            raise ValueError(f"objects {missing} were promised and not written")
        start, count = self._at, len(self._offsets) + 1
        self._write(f"xref\n0 {count}\n0000000000 65535 f \n".encode())
        for offset in self._offsets:
            self._write(f"{offset:010d} 00000 n \n".encode())
        mark = self._hash.hexdigest()[:32]
        self._write(
            f"trailer\n<< /Size {count} /Root {root} 0 R /Info {info} 0 R /ID [<{mark}> <{mark}>] >>\n"
            f"startxref\n{start}\n%%EOF\n".encode()
        )

    def _object(self, body: bytes, number: int | None) -> int:
        number = self.reserve() if number is None else number
        self._offsets[number - 1] = self._at
        self._write(f"{number} 0 obj\n".encode() + body + b"\nendobj\n")
        return number

    def _write(self, data: bytes) -> None:
        self._out.write(data)
        self._hash.update(data)
        self._at += len(data)


def text_string(text: str) -> str:
    """A text string as PDF writes it, in UTF-16 where it is more than ASCII."""
    if text.isascii() and text.isprintable():
        escaped = text.replace("\\", r"\\").replace("(", r"\(").replace(")", r"\)")
        return f"({escaped})"
    return f"<feff{text.encode('utf-16-be').hex()}>"


def name(text: str) -> str:
    """A name with everything but letters, digits and a few signs escaped (ISO 32000-1, 7.3.5)."""
    plain = frozenset(b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_.+")
    return "/" + "".join(chr(byte) if byte in plain else f"#{byte:02X}" for byte in text.encode("utf-8"))
