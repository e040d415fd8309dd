"""The index that is built with the package: what its data files say, kept so that no start has to read them again.

A `Table` says which data files and which code its rows are made of. A row is handed out only while every one of them
has the content that it was made of; else, and when the index is missing or no index, there is no row, and who asks
reads the data file as if there were no index. `python -m panelart.built` writes it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from enum import Enum
from functools import cache
from hashlib import blake2b
from pathlib import Path
from typing import Any, Final, TypeAlias

import msgspec

PACKAGE: Final = Path(__file__).parents[1]
INDEX: Final = PACKAGE / "built.index"

_SIGNATURE: Final = b"panelart index 1\n"
"""What the file begins with; it changes with the form of what follows: a head that says where rows are, the rows."""

_DIGEST_BYTES: Final = 16

_CODER: Final = ("source/built.py",)
"""What every table hangs on: the form in which values are kept."""

_Place: TypeAlias = tuple[str, int, int]
"""The data file that a row is made of, and where in the content it begins and ends."""

_NO_ROW: Final[_Place] = ("", 0, 0)

Row: TypeAlias = tuple[str, str, Any]
"""The name of a row, the data file it is made of as seen from the package, and its value."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Rows of one kind: values of `classes` and plain ones, which `make` makes without the index.

    `code` are the modules that decide what is in a row, as files seen from the package.
    """

    name: str
    code: tuple[str, ...]
    classes: tuple[type, ...] = ()
    make: Callable[[], Iterable[Row]]

    def names(self, file: str) -> tuple[str, ...] | None:
        """The rows made of a data file, in the order of the file; None when the index does not know."""
        if not self._current(file):
            return None
        return tuple(name for name, (of, *_) in _index().rows(self.name).items() if of == file)

    def get(self, name: str) -> Any:
        """The value of a row; None when there is none that can be relied on."""
        of, start, end = _index().rows(self.name).get(name, _NO_ROW)
        if not of or end > len(_index().content) or not self._current(of):
            return None
        return _Reader(self.classes).value(msgspec.msgpack.decode(_index().content[start:end]))

    def file_of(self, name: str) -> str:
        """The data file that a row was made of when the index was built, '' for no row: where to look first."""
        return _index().rows(self.name).get(name, _NO_ROW)[0]

    def _current(self, file: str) -> bool:
        return _same(file) and all(_same(code) for code in (*_CODER, *self.code))


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
            content += msgspec.msgpack.encode(_Writer(table.classes).plain(value))
            rows[name] = (file, start, len(content))
    digests = {file: _digest(_path(file).read_bytes()) for file in sorted(files)}
    head = msgspec.msgpack.encode({"files": digests, "tables": found})
    return _SIGNATURE + len(head).to_bytes(4, "little") + head + content


@dataclass(frozen=True, slots=True, eq=False)
class _Index:
    """The index as it is read: digests of files, where the rows of each table are in the content."""

    files: Mapping[str, bytes]
    tables: Mapping[str, Mapping[str, _Place]]
    content: memoryview

    def rows(self, table: str) -> Mapping[str, _Place]:
        """Where the rows of a table are; none of a table that is not there."""
        return self.tables.get(table, {})


@cache
def _index() -> _Index:
    try:
        data = INDEX.read_bytes()
    except OSError:
        data = b""
    begun = len(_SIGNATURE) + 4
    if not data.startswith(_SIGNATURE) or len(data) < begun:
        return _Index({}, {}, memoryview(b""))
    end = begun + int.from_bytes(data[len(_SIGNATURE) : begun], "little")
    try:
        head = msgspec.msgpack.decode(data[begun:end])
    except msgspec.DecodeError:
        return _Index({}, {}, memoryview(b""))
    return _Index(head["files"], head["tables"], memoryview(data)[end:])


@cache
def _same(file: str) -> bool:
    """Whether a file of the package is the one that the index was built from."""
    known = _index().files.get(file)
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


# A value is kept as it is when it is a text, bytes, a number, true, false or nothing; else as a list that begins with
# what it is: the number of its class in the table's list, or one of these. What occurs again is referred to.
_TUPLE: Final = -1
_AGAIN: Final = -2


class _Writer:
    """Values as plain lists."""

    def __init__(self, classes: tuple[type, ...]) -> None:
        self._number = {one: number for number, one in enumerate(classes)}
        self._known: dict[object, int] = {}

    def plain(self, value: Any) -> Any:
        """The plain form of a value. Raises KeyError for one of a class that is not in the table's list."""
        if value is None or isinstance(value, bool | int | float | bytes):
            return value
        key = value if isinstance(value, str) else id(value)
        if key in self._known:
            return [_AGAIN, self._known[key]]
        written = value if isinstance(value, str) else self._listed(value)
        self._known[key] = len(self._known)
        return written

    def _listed(self, value: Any) -> list[Any]:
        if type(value) is tuple:
            return [_TUPLE, *map(self.plain, value)]
        number = self._number[type(value)]
        if isinstance(value, Enum):
            return [number, self.plain(value.value)]
        return [number, *(self.plain(getattr(value, name)) for name in _fields(type(value)))]


class _Reader:
    """Plain lists as the values they stand for."""

    def __init__(self, classes: tuple[type, ...]) -> None:
        self._makers = _makers(classes)
        self._known: list[Any] = []

    def value(self, plain: Any) -> Any:
        """The value that a plain form stands for."""
        made = plain
        if type(plain) is list:
            kind = plain[0]
            if kind == _AGAIN:
                return self._known[plain[1]]
            parts = [self.value(part) if type(part) in _OF_PARTS else part for part in plain[1:]]
            made = tuple(parts) if kind == _TUPLE else self._makers[kind](parts)
        elif type(plain) is not str:
            return plain
        self._known.append(made)
        return made


_OF_PARTS: Final = frozenset((list, str))


@cache
def _makers(classes: tuple[type, ...]) -> tuple[Callable[[list[Any]], Any], ...]:
    """How a member of each class is made of its plain parts."""
    return tuple(_maker(of) for of in classes)


def _maker(of: type) -> Callable[[list[Any]], Any]:
    if issubclass(of, Enum):
        return lambda parts: of(parts[0])
    names = _fields(of)
    return lambda parts: of(**dict(zip(names, parts, strict=True)))


def _fields(of: type) -> tuple[str, ...]:
    return tuple(of.__annotations__)
