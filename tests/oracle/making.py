"""The files of a spec, made by the commands as a user gives them.

Every spec is made by `panelart make SPEC --rear-view`; what else is made of single ones stands in FURTHER. What a
command prints and its exit code are kept as a file too. Run as a program, it makes the files of one spec into a folder
with whichever panelart is found first: `differ.py` does so with that of another revision.
"""

from __future__ import annotations

import contextlib
import io
import re
import shutil
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent
PRINTED = "printed.txt"
_COUNTS = re.compile(r"\b\d+ (rules|files)\b")
OUT = "OUT"

FURTHER: dict[str, tuple[str, ...]] = {
    "bench-supply": ("bom SPEC -o OUT/list.csv", "drill-template SPEC --paper A4 --side rear -o OUT/template.pdf"),
    "mixing-desk": ("sightlines SPEC --height 100..400 -o OUT/shadows.svg",),
    "monitor-2u": ("bom SPEC -o OUT/list.csv", "drill-template SPEC --paper Letter -o OUT/template.pdf"),
    "rear-io": (
        "bed SPEC demo/relay-tray.yaml --bed 600x400 --quantity 2,3 -o OUT",
        "test-strip screen-print -o OUT/strip.pdf",
    ),
    "valve-stand": ("register SPEC --measured tests/oracle/specs/valve-stand-measured.csv -o OUT", "register SPEC"),
    "languages": ("make SPEC --rear-view --language all -o OUT",),
    "languages-right-to-left": ("make SPEC --rear-view --language all -o OUT",),
    "variables": ("bed SPEC --bed 300x200 --rows tests/oracle/specs/variables-rows.csv --date 2026-11-25 -o OUT",),
    "operator-eye": ("sightlines SPEC -o OUT/shadows.pdf",),
    "many-faults": ("check SPEC --format sarif --date 2026-11-25", "check SPEC --format junit --date 2026-11-25"),
}
"""What else is made: commands in which SPEC and OUT stand for the spec and the folder; the first word names it."""


def specs() -> list[Path]:
    """Every spec that is held, relative to the root: the demonstration panels and the small ones beside this file."""
    found = [*sorted((ROOT / "demo").glob("*.yaml")), *sorted((ROOT / "demo/sets").glob("*.yaml"))]
    found += sorted((HERE / "specs").glob("*.yaml"))
    return [path.relative_to(ROOT) for path in found if "panelart: 1" in path.read_text(encoding="utf-8")]


def commands(spec: Path) -> dict[str, list[str]]:
    """The commands for a spec, each by the folder that its files go into; '' is that of the spec itself."""
    found = {"": ["make", spec.as_posix(), "--rear-view", "-o", OUT]}
    for command in FURTHER.get(spec.stem, ()):
        words = [spec.as_posix() if word == "SPEC" else word for word in command.split()]
        name = words[0]
        while name in found:
            name += "+"
        found[name] = words
    return found


def made(spec: Path) -> dict[str, bytes]:
    """All files of a spec by name, with what the commands printed. Raises AssertionError where one could not run."""
    files: dict[str, bytes] = {}
    for folder, words in commands(spec).items():
        with tempfile.TemporaryDirectory() as place:
            printed = _run([word.replace(OUT, place) for word in words]).replace(place, OUT)
            prefix = folder and f"{folder}/"
            # How many rules and files there are is told by their own tests: one more is no other output.
            files[f"{prefix}{PRINTED}"] = _COUNTS.sub(r"some \1", printed).encode()
            for path in sorted(Path(place).rglob("*")):
                if path.is_file():
                    files[prefix + path.relative_to(place).as_posix()] = path.read_bytes()
    return files


def _run(words: list[str]) -> str:
    """What a command prints, and its exit code."""
    from panelart.cli import main

    told = io.StringIO()
    code: object = 0
    with contextlib.redirect_stdout(told), contextlib.redirect_stderr(told), contextlib.chdir(ROOT), _arguments(words):
        try:
            main()
        except SystemExit as stop:
            code = stop.code or 0
    assert code in (0, 1), f"panelart {' '.join(words)} ends with {code}:\n{told.getvalue()}"
    return f"{told.getvalue()}exit {code}\n"


@contextlib.contextmanager
def _arguments(words: list[str]) -> Iterator[None]:
    before = sys.argv
    sys.argv = ["panelart", *words]
    try:
        yield
    finally:
        sys.argv = before


def _to_folder(spec: Path, folder: Path) -> None:
    shutil.rmtree(folder, ignore_errors=True)
    for name, data in made(spec).items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)


if __name__ == "__main__":
    _to_folder(Path(sys.argv[1]), Path(sys.argv[2]))
