"""What was done before: the output of a spec that was checked or made, kept as long as all it rests on stays the same.

It rests on the spec and every file that was read for it, on the files that were written, on what was typed, and on this
program. A record is one small file in the folder for such things of the user; one that cannot be read or written counts
as none. Nothing is kept where extensions are installed, whose code nobody follows.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import time
from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import Final

import msgspec

from panelart import __version__
from panelart.canonical import Struct
from panelart.spec.read import FINGERPRINT

_PACKAGE: Final = Path(__file__).parents[1]
_KEPT_DAYS: Final = 60.0
"""A record that was not asked for so long is removed."""

ABSENT: Final = ""
"""The digest of a file that is not there."""


class Ended(Struct, frozen=True, kw_only=True):
    """What was told of one spec, on both streams, and the exit code."""

    out: str
    err: str
    code: int


class Record(Struct, frozen=True, kw_only=True):
    """What was told, and what it rests on: files by absolute path with digests, and the day, '' where none matters."""

    ended: Ended
    files: dict[str, str]
    day: str


def digest_of(path: Path) -> str:
    """The digest of a file's content, as a panel has of the files that it names; of one that cannot be read ABSENT."""
    try:
        return hashlib.sha256(path.read_bytes()).hexdigest()[:FINGERPRINT]
    except OSError:
        return ABSENT


def digests_of(paths: Iterable[Path]) -> dict[str, str]:
    """The digests of files as they are now, by absolute path."""
    return {str(path.absolute()): digest_of(path) for path in paths}


class Book:
    """The records of works on specs, each known by all that was `asked` of it: the spec, the options, where files go.

    `shown` is how it is printed.
    """

    def __init__(self, folder: Path, shown: object) -> None:
        self._folder = folder
        _forget_old(folder)
        self._here = repr((_program(), str(Path.cwd()), shown))

    def done(self, asked: object, day: str) -> Ended | None:
        """What was told of it, if nothing has changed since; None if something has, or it is not known."""
        path = self._path(asked)
        try:
            record = msgspec.json.decode(path.read_bytes(), type=Record)
        except (OSError, msgspec.MsgspecError):
            return None
        if record.day not in ("", day) or any(digest_of(Path(name)) != was for name, was in record.files.items()):
            return None
        with contextlib.suppress(OSError):
            os.utime(path)
        return record.ended

    def keep(self, asked: object, record: Record) -> None:
        """Note what was told of it."""
        path = self._path(asked)
        passing = path.with_suffix(f".{os.getpid()}")
        with contextlib.suppress(OSError):
            self._folder.mkdir(parents=True, exist_ok=True)
            passing.write_bytes(msgspec.json.encode(record))
            passing.replace(path)

    def _path(self, asked: object) -> Path:
        return self._folder / f"{hashlib.sha256(f'{self._here}{asked!r}'.encode()).hexdigest()[:32]}.json"


def folder() -> Path:
    """Where records are kept, on this system and for this user."""
    from platformdirs import user_cache_path

    return user_cache_path("panelart", appauthor=False) / "done"


def _forget_old(folder: Path) -> None:
    """Remove the records that nobody has asked for in a long time."""
    oldest = time.time() - _KEPT_DAYS * 86_400.0
    with contextlib.suppress(OSError):
        for path in folder.iterdir():
            if path.stat().st_mtime < oldest:
                path.unlink()


@cache
def _program() -> str:
    """This program as it is installed: its version, and sizes and times of its files, so that a changed one counts."""
    seen = hashlib.sha256(__version__.encode())
    for path in sorted(path for path in _PACKAGE.rglob("*") if "__pycache__" not in path.parts and path.is_file()):
        status = path.stat()
        seen.update(f"{path}{status.st_size}{status.st_mtime_ns}".encode())
    return seen.hexdigest()
