"""Runs that take long: files written one by one, and a note of those that are whole, so that a run can go on."""

from __future__ import annotations

import errno
import hashlib
import json
from pathlib import Path

from panelart.messages import writers as said
from panelart.writers import settle, write_all

NOTE = "run.json"


class RunFolder:
    """A folder with the files of a run, and the note of those that are whole.

    The note counts for one run only: `mark` is the fingerprint of everything that decides its bytes.
    """

    def __init__(self, folder: Path, mark: str) -> None:
        """Puts right what an ended run has left half written. Raises OSError."""
        if folder.is_dir():
            settle([folder])
        self._folder, self._mark = folder, mark
        self._done = self._noted()

    def has(self, name: str) -> bool:
        """Whether a file is there as this run wrote it."""
        path = self._folder / name
        if name not in self._done or not path.is_file():
            return False
        return hashlib.sha256(path.read_bytes()).hexdigest() == self._done[name]

    def write(self, name: str, data: bytes) -> None:
        """Write one file and the note of it, both or none.

        Raises OSError, also where another run has begun to write to the folder since.
        """
        if self._done and self._noted().keys() != self._done.keys():
            raise OSError(errno.EBUSY, str(said.folder_raced()), str(self._folder))
        self._done[name] = hashlib.sha256(data).hexdigest()
        note = {"run": self._mark, "files": dict(sorted(self._done.items()))}
        write_all({name: data, NOTE: (json.dumps(note, indent=1) + "\n").encode()}, self._folder)

    def _noted(self) -> dict[str, str]:
        try:
            note = json.loads((self._folder / NOTE).read_text(encoding="utf-8"))
            files = note["files"] if note["run"] == self._mark else {}
            return {str(name): str(digest) for name, digest in files.items()}
        except (OSError, ValueError, KeyError, TypeError, AttributeError):
            return {}
