"""The index that is built with the package: what its data files say, kept so that no start has to read them again.

A `Table` says which data files and which code its rows are made of. A row is handed out only while every one of them
has the content that it was made of; else, and when the index is missing or no index, there is no row, and who asks
reads the data file as if there were no index. `python -m panelart.built` writes it.
"""

from __future__ import annotations

import zlib
from collections.abc import Callable, Iterable, Mapping
from functools import cache
from hashlib import blake2b
from pathlib import Path
from typing import Any, Final, TypeAlias

import msgspec

from panelart.canonical import Struct

PACKAGE: Final = Path(__file__).parents[1]
INDEX: Final = PACKAGE / "built.index"

_SIGNATURE: Final = b"panelart index 1\n"
"""What the file begins with; it changes with the form of what follows: a head that says where rows are, the rows."""

_DIGEST_BYTES: Final = 16

_CODER: Final = ("canonical.py", "source/built.py")
"""What every table hangs on: the form in which values are kept."""

_Place: TypeAlias = tuple[str, int, int]
"""The data file that a row is made of, and where in the content it begins and ends."""

_NO_ROW: Final[_Place] = ("", 0, 0)

Row: TypeAlias = tuple[str, str, Any]
"""The name of a row, the data file it is made of as seen from the package, and its value."""


class Table(Struct, frozen=True, kw_only=True, eq=False):
    """Rows of one type, which `make` makes without the index; `packed` where they are many and much alike.

    `code` are the modules that decide what is in a row, as files seen from the package. What is only
    read has no `make`.
    """

    name: str
    type: Any
    code: tuple[str, ...]
    make: Callable[[], Iterable[Row]] = tuple
    packed: bool = False

    def names(self, file: str) -> tuple[str, ...] | None:
        """The rows made of a data file, in the order of the file; None when the index does not know."""
        if not self._current(file):
            return None
        return tuple(name for name, (of, *_) in _index().rows(self.name).items() if of == file)

    def get(self, name: str) -> Any:
        """The value of a row; None when there is none that can be relied on."""
        of, start, end = _index().rows(self.name).get(name, _NO_ROW)
        if not of or not self._current(of):
            return None
        try:
            kept = _index().content[start:end]
            return _decoder(self).decode(zlib.decompress(kept) if self.packed else kept)
        except (msgspec.DecodeError, zlib.error):
            return None

    def file_of(self, name: str) -> str:
        """The data file that a row was made of when the index was built, '' for no row: where to look first."""
        return _index().rows(self.name).get(name, _NO_ROW)[0]

    def _current(self, file: str) -> bool:
        return _same(file) and all(_same(code) for code in (*_CODER, *self.code))


@cache
def _decoder(table: Table) -> msgspec.msgpack.Decoder[Any]:
    return msgspec.msgpack.Decoder(table.type)


def built(tables: Iterable[Table]) -> bytes:
    """The index of tables. Raises what making their rows raises."""
    found: dict[str, dict[str, _Place]] = {}
    files: set[str] = set(_CODER)
    content = bytearray()
    for table in tables:
        files |= {*table.code}
        rows = found.setdefault(table.name, {})
        for name, file, value in table.make():
            files.add(file)
            start = len(content)
            kept = msgspec.msgpack.encode(_in_order(value))
            content += zlib.compress(kept, 9) if table.packed else kept
            rows[name] = (file, start, len(content))
    digests = {file: _digest(_path(file).read_bytes()) for file in sorted(files)}
    head = msgspec.msgpack.encode(_Head(digests, found))
    return _SIGNATURE + len(head).to_bytes(4, "little") + head + content


def _in_order(value: Any) -> Any:
    """A value whose sets are lists in order: that of a set is another in every run."""
    if isinstance(value, frozenset):
        return sorted(value)
    if isinstance(value, tuple):
        found = tuple(map(_in_order, value))
        return found if any(new is not old for new, old in zip(found, value, strict=True)) else value
    if isinstance(value, msgspec.Struct):
        fields = {name: getattr(value, name) for name in value.__struct_fields__}
        changed = {name: new for name, old in fields.items() if (new := _in_order(old)) is not old}
        return msgspec.structs.replace(value, **changed) if changed else value
    return value


class _Head(Struct, frozen=True):
    """What the index says of itself: digests of files, where the rows of each table are in the content."""

    files: dict[str, bytes]
    tables: dict[str, dict[str, _Place]]


class _Index(Struct, frozen=True, eq=False):
    """The index as it is read."""

    head: _Head
    content: memoryview

    def rows(self, table: str) -> Mapping[str, _Place]:
        """Where the rows of a table are; none of a table that is not there."""
        return self.head.tables.get(table, {})


_NO_INDEX: Final = _Index(_Head({}, {}), memoryview(b""))


@cache
def _index() -> _Index:
    try:
        data = INDEX.read_bytes()
    except OSError:
        data = b""
    begun = len(_SIGNATURE) + 4
    if not data.startswith(_SIGNATURE) or len(data) < begun:
        return _NO_INDEX
    end = begun + int.from_bytes(data[len(_SIGNATURE) : begun], "little")
    try:
        return _Index(msgspec.msgpack.decode(data[begun:end], type=_Head), memoryview(data)[end:])
    except msgspec.DecodeError:
        return _NO_INDEX


@cache
def _same(file: str) -> bool:
    """Whether a file of the package is the one that the index was built from."""
    known = _index().head.files.get(file)
    try:
        return known is not None and known == _digest(_path(file).read_bytes())
    except OSError:
        return False


def _path(file: str) -> Path:
    """Where a file of the package is; the fonts lie beside the package in a checkout."""
    inside = PACKAGE / file
    return inside if inside.exists() else PACKAGE.parent / file


def _digest(content: bytes) -> bytes:
    return blake2b(content, digest_size=_DIGEST_BYTES).digest()
