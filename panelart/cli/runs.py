"""Runs that take long: files written one by one, and a note of those that are whole, so that a run can go on."""

from __future__ import annotations

import hashlib
import json
import tempfile
from pathlib import Path

NOTE = "run.json"


class RunFolder:
    """A folder with the files of a run, and the note of those that are whole.

    The note counts for one run only: `mark` is the fingerprint of everything that decides its bytes.
    """

    def __init__(self, folder: Path, mark: str) -> None:
        """Raises OSError when the folder cannot be made."""
        folder.mkdir(parents=True, exist_ok=True)
        self._folder, self._mark = folder, mark
        self._done = self._noted()

    def has(self, name: str) -> bool:
        """Whether a file is there as this run wrote it."""
        path = self._folder / name
        if name not in self._done or not path.is_file():
            return False
        return hashlib.sha256(path.read_bytes()).hexdigest() == self._done[name]

    def write(self, name: str, data: bytes) -> None:
        """Write one file whole, then note it. Raises OSError."""
        self._put(name, data)
        self._done[name] = hashlib.sha256(data).hexdigest()
        note = {"run": self._mark, "files": dict(sorted(self._done.items()))}
        self._put(NOTE, (json.dumps(note, indent=1) + "\n").encode())

    def _put(self, name: str, data: bytes) -> None:
        with tempfile.NamedTemporaryFile(dir=self._folder, prefix=".panelart-", delete=False) as file:
            file.write(data)
        path = Path(file.name)
        path.chmod(0o644)
        path.replace(self._folder / name)

    def _noted(self) -> dict[str, str]:
        try:
            note = json.loads((self._folder / NOTE).read_text(encoding="utf-8"))
            files = note["files"] if note["run"] == self._mark else {}
            return {str(name): str(digest) for name, digest in files.items()}
        except (OSError, ValueError, KeyError, TypeError, AttributeError):
            return {}
