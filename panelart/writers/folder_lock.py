"""The lock of a folder: one run at a time puts files into it.

The lock is the file `.panelart-lock`, on which the system holds a lock as long as its run lives; in it are the names
of the computer and of its start, the number of the process and the run's nonce. What a dead run has left is taken over;
where the system's lock is not known on the other computers of a network share, the computer named in the file is
told. Two runs that such a share lets in together find another nonce than theirs in the file before they end.
"""

from __future__ import annotations

import contextlib
import errno
import os
import platform
import random
import secrets
import sys
import time
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path
from string import hexdigits
from typing import Final

import msgspec

from panelart.canonical import Struct
from panelart.messages import writers as said
from panelart.writers.disk import Disk

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

LOCK: Final = ".panelart-lock"

WORKSHOP: Final = ".panelart-"
"""What the name of the folder begins with in which a run prepares its files; its nonce follows."""

NONCE: Final = 16
"""Bytes of a nonce."""

PATIENCE: Final = 30.0
"""Seconds that a run waits for others: each holds a lock for as long as its files take to be written."""

_PAUSE: Final = 0.02
_UNKNOWN: Final = frozenset({errno.ENOLCK, errno.ENOTSUP, errno.EOPNOTSUPP, errno.EINVAL, errno.ENOSYS})


class Holder(Struct, frozen=True, kw_only=True):
    """Who holds a lock. `started` names the start of the computer, "" where it does not tell."""

    host: str
    started: str
    process: int
    nonce: str

    @property
    def is_here(self) -> bool:
        """Whether it is or was a process of this computer, in a container of its own too."""
        return self.host == platform.node() or bool(self.started and self.started == _started())

    @property
    def lives(self) -> bool:
        """Whether it may still be at work, as far as numbers of processes tell."""
        if not self.is_here:
            return True
        if self.started != _started() or os.name == "nt":
            return os.name == "nt"
        try:
            os.kill(self.process, 0)
        except ProcessLookupError:
            return False
        except OSError:
            return True
        return True


@cache
def _started() -> str:
    """What Linux calls this start of the computer, "" elsewhere."""
    try:
        return Path("/proc/sys/kernel/random/boot_id").read_text("ascii").strip()
    except OSError:
        return ""


class Locks:
    """Locks that one run holds, of all folders that it puts files into."""

    def __init__(self, disk: Disk) -> None:
        self.nonce: Final = secrets.token_hex(NONCE)
        self._disk = disk
        self._handles: dict[Path, int] = {}

    def take(self, folder: Path, until: float) -> None:
        """Wait for the lock of a folder until a time of the monotonic clock. Raises OSError."""
        while (other := self._tried(folder)) is not None:
            if time.monotonic() > until:
                raise _told(folder, other)
            time.sleep(_PAUSE * random.uniform(0.5, 1.5))  # noqa: S311  # only that two do not keep step

    @property
    def are_held(self) -> bool:
        """Whether every lock still bears this run's nonce."""
        return all(_bears(folder / LOCK, self.nonce) for folder in self._handles)

    def release(self) -> None:
        """Give all of them back, the last first."""
        if not self._handles:
            return
        folder, handle = self._handles.popitem()
        try:
            self._give_back(folder / LOCK, handle)
        finally:
            self.release()

    def _give_back(self, file: Path, handle: int) -> None:
        """Remove a lock's file while the lock is held, so that nobody gets a lock that has no name any more.

        It stays where something of a write is left, as the sign by which commands in folders below find that.
        """
        if any(workshops(file.parent)):
            os.close(handle)
            return
        if os.name == "nt":
            # Windows removes no open file: whoever got it in between has it open, and keeps it.
            os.close(handle)
            with contextlib.suppress(OSError):
                self._disk.remove(file)
            return
        try:
            with contextlib.suppress(OSError):
                if _is(handle, file):
                    self._disk.remove(file)
        finally:
            os.close(handle)

    def _tried(self, folder: Path) -> Holder | None:
        """Take a lock, or say who has it. Raises OSError."""
        file = folder / LOCK
        handle = os.open(file, os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0), 0o666)
        taken = False
        try:
            if hasattr(os, "fchmod"):
                # Others who may write to the folder may take over what is left of this run.
                with contextlib.suppress(OSError):
                    os.fchmod(handle, 0o666)
            got = _system_lock(handle)
            holder = _holder(os.pread(handle, 4096, 0) if hasattr(os, "pread") else file.read_bytes())
            if got is False or not _is(handle, file):
                return holder or _NOBODY
            if holder is not None and (not holder.is_here or (got is None and holder.lives)):
                return holder
            me = Holder(host=platform.node(), started=_started(), process=os.getpid(), nonce=self.nonce)
            os.ftruncate(handle, 0)
            os.lseek(handle, 0, os.SEEK_SET)
            os.write(handle, msgspec.json.encode(me))
            self._handles[folder] = handle
            taken = True
        finally:
            if not taken:
                os.close(handle)
        return None


_NOBODY: Final = Holder(host=platform.node(), started="", process=0, nonce="")
"""Who holds a lock whose file is not written yet, or gone again."""


def is_workshop(name: str) -> bool:
    """Whether a folder of this name is where a run prepares its files."""
    nonce = name.removeprefix(WORKSHOP)
    return nonce != name and len(nonce) == 2 * NONCE and set(nonce) <= set(hexdigits)


def workshops(folder: Path) -> Iterator[Path]:
    """The workshops in a folder that can be read."""
    with contextlib.suppress(OSError):
        for shop in sorted(folder.iterdir()):
            if is_workshop(shop.name) and shop.is_dir() and not shop.is_symlink():
                yield shop


@contextlib.contextmanager
def locked(folders: Iterable[Path], disk: Disk) -> Iterator[Locks]:
    """Within this, no other run puts files into the folders, which are resolved and exist. Raises OSError."""
    locks = Locks(disk)
    until = time.monotonic() + PATIENCE
    try:
        # All runs take locks in one order, so that no two wait for each other.
        for folder in sorted(set(folders)):
            try:
                locks.take(folder, until)
            except OSError as error:
                if isinstance(error, BlockingIOError):
                    raise
                reason = said.folder_not_writable(error.strerror or error)
                raise type(error)(error.errno, str(reason), str(folder)) from error
        yield locks
    finally:
        locks.release()


def _system_lock(handle: int) -> bool | None:
    """Lock an open file for this process: whether it is locked now, None where the disk knows no such locks."""
    try:
        if sys.platform == "win32":
            # Far behind what is written: others cannot read locked bytes.
            os.lseek(handle, 1 << 20, os.SEEK_SET)
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
            os.lseek(handle, 0, os.SEEK_SET)
        else:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        return None if error.errno in _UNKNOWN else False
    return True


def _is(handle: int, file: Path) -> bool:
    """Whether an open file still bears its name."""
    try:
        return os.path.samestat(os.fstat(handle), file.lstat())
    except FileNotFoundError:
        return False


def _bears(file: Path, nonce: str) -> bool:
    try:
        holder = _holder(file.read_bytes())
    except OSError:
        return False
    return holder is not None and holder.nonce == nonce


def _holder(data: bytes) -> Holder | None:
    """Who wrote a lock's file, None for nobody that can be read."""
    try:
        return msgspec.json.decode(data, type=Holder)
    except msgspec.DecodeError:
        return None


def _told(folder: Path, other: Holder) -> BlockingIOError:
    text = said.folder_busy(other.process) if other.is_here else said.folder_busy_elsewhere(other.host, LOCK)
    return BlockingIOError(errno.EAGAIN, str(text), str(folder))
