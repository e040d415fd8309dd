"""Tells how the files of a spec differ from those that another revision makes of it.

    python -m tests.oracle.differ HEAD~3 relay-tray

The other revision's package is unpacked into a temporary folder and run on the specs as they are now. Of text files the
differing lines are printed, of PDF files the lines of their objects and the pages with the number of dots that differ.
"""

from __future__ import annotations

import difflib
import io
import os
import subprocess
import sys
import tarfile
import tempfile
from itertools import zip_longest
from pathlib import Path

import numpy as np
from PIL import Image

from tests.oracle.digests import objects, page_pictures, plain, poppler
from tests.oracle.making import ROOT, specs

MOST_LINES = 40
"""Lines of a difference that are printed of one file."""


def files_of(spec: Path, package: Path, folder: Path) -> dict[str, bytes]:
    """The files of a spec as the package in a folder makes them."""
    subprocess.run(
        [sys.executable, ROOT / "tests/oracle/making.py", spec, folder],
        check=True,
        cwd=ROOT,
        env=os.environ | {"PYTHONPATH": str(package), "PYTHONDONTWRITEBYTECODE": "1"},
    )
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def difference(name: str, old: bytes, new: bytes) -> list[str]:
    """What differs between two files of one name, as lines."""
    if name.endswith(".pdf"):
        lines = _lines(objects(old), objects(new))
        return [*lines, *_pages(old, new)] if lines else []
    if name.endswith(".png"):
        first, second = (np.asarray(Image.open(io.BytesIO(data)).convert("RGBA")) for data in (old, new))
        count = _dots(first, second)
        return [f"  {count} dots differ"] if count else []
    return _lines(plain(old), plain(new))


def _lines(old: bytes, new: bytes) -> list[str]:
    first, second = (data.decode("utf-8", "backslashreplace").splitlines() for data in (old, new))
    lines = [f"  {line[:200]}" for line in difflib.unified_diff(first, second, lineterm="", n=1)][2:]
    left = len(lines) - MOST_LINES
    return [*lines[:MOST_LINES], f"  and {left} lines more"] if left > 0 else lines


def _pages(old: bytes, new: bytes) -> list[str]:
    if not poppler():
        return ["  there is no poppler here to render its pages"]
    told = []
    for number, (first, second) in enumerate(zip_longest(page_pictures(old), page_pictures(new)), 1):
        if first is None or second is None:
            told.append(f"  page {number}: only one of the two has it")
        elif count := _dots(first, second):
            told.append(f"  page {number}: {count} dots differ")
    return told or ["  all pages look the same"]


def _dots(first: np.ndarray, second: np.ndarray) -> int:
    if first.shape != second.shape:
        return max(first.shape[0] * first.shape[1], second.shape[0] * second.shape[1])
    return int((first != second).any(axis=2).sum())


def main(words: list[str]) -> int:
    """Print all differences; 1 when there are any."""
    known = {spec.stem: spec for spec in specs()}
    if len(words) != 2 or words[1] not in known:
        print(__doc__, file=sys.stderr)
        return 2
    revision, spec = words[0], known[words[1]]
    packed = subprocess.run(
        ["git", "archive", revision, "panelart", "fonts"], check=True, cwd=ROOT, capture_output=True
    )
    with tempfile.TemporaryDirectory() as place:
        with tarfile.open(fileobj=io.BytesIO(packed.stdout)) as archive:
            archive.extractall(Path(place) / "package", filter="data")
        old = files_of(spec, Path(place) / "package", Path(place) / "old")
        new = files_of(spec, ROOT, Path(place) / "new")
    differing = 0
    for name in sorted(old.keys() | new.keys()):
        if name not in old or name not in new:
            told = [f"  only made by {'this' if name in new else revision}"]
        else:
            told = difference(name, old[name], new[name])
        if told:
            differing += 1
            print("\n".join([name, *told]))
    print(f"{differing} of {len(old.keys() | new.keys())} files differ")
    return 1 if differing else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
