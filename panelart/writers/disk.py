"""What is done to a disk when files are put into place: one thin layer, so that a test can end a run at each step.

A step happens or does not happen, but for `write`, which may be cut short. Windows refuses to rename or remove what
another program has open, a virus scanner or a viewer: such a step is tried again, for a second and a half at most.
"""

from __future__ import annotations

import contextlib
import errno
import os
import time
from collections.abc import Callable
from pathlib import Path
from typing import Final

HELD: Final = frozenset({5, 32, 33})
"""Windows' ERROR_ACCESS_DENIED, ERROR_SHARING_VIOLATION, ERROR_LOCK_VIOLATION: System Error Codes (0-499)."""

WAITS: Final = (0.01, 0.02, 0.05, 0.1, 0.2, 0.4, 0.8)
"""Seconds between the tries."""

_NO_SYNC_OF_FOLDERS: Final = {errno.EINVAL, errno.ENOTSUP, errno.EBADF, errno.EACCES, errno.EISDIR}


class Disk:
    """Steps on files and folders. All raise OSError."""

    def make_folder(self, folder: Path) -> None:
        """Make one folder in a folder that exists."""
        folder.mkdir()

    def write(self, file: Path, data: bytes) -> None:
        """Write a new file. It is not yet safe from a power cut."""
        with file.open("xb") as opened:
            opened.write(data)

    def sync(self, file: Path) -> None:
        """Wait until what is in a file is on the medium."""
        # Windows flushes only what is open for writing.
        with file.open("r+b") as opened:
            os.fsync(opened.fileno())

    def sync_folder(self, folder: Path) -> None:
        """Wait until the names in a folder are on the medium, on systems that can be asked for that."""
        if os.name == "nt":
            return
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        except OSError as error:
            if error.errno not in _NO_SYNC_OF_FOLDERS:
                raise
        finally:
            os.close(handle)

    def keep(self, file: Path, kept: Path) -> None:
        """Keep a file under another name as well, or only under that one where the disk knows no second names."""
        try:
            # Without a link that follows links: what is kept is what bears the name.
            os.link(file, kept, follow_symlinks=False)
        except (OSError, NotImplementedError):
            self.rename(file, kept)

    def rename(self, place: Path, to: Path) -> None:
        """Give a file or folder another place on its disk, at once; a file there is replaced."""
        _patiently(lambda: place.replace(to))

    def remove(self, file: Path) -> None:
        """Remove a file or a link, if it is there."""
        with contextlib.suppress(FileNotFoundError):
            _patiently(file.unlink)

    def remove_folder(self, folder: Path) -> None:
        """Remove an empty folder, if it is there."""
        with contextlib.suppress(FileNotFoundError):
            _patiently(folder.rmdir)


def _patiently(step: Callable[[], object]) -> None:
    """Try a step again while another program holds what it is about."""
    for wait in WAITS:
        try:
            step()
        except OSError as error:
            if getattr(error, "winerror", None) not in HELD:
                raise
            time.sleep(wait)
        else:
            return
    step()


DISK: Final = Disk()
