"""Proves that the stated lowest versions are true: `python .ci/lowest.py`.

A fresh environment gets exactly the lowest version that pyproject.toml states of every dependency. There the program
must tell its version, check panels and make their files as it does here, all but PDF and PNG to the byte, which hang
on who wrote them. With the extras at their lowest it must draw symbols, hand checks to a scheduler, list parts to
buy as a workbook, fill a bed and answer a browser. Prints what differs; exit 1 when anything does.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import tomllib
import urllib.request
from pathlib import Path

from packaging.requirements import Requirement

ROOT = Path(__file__).parents[1]
SPECS = ("bench-supply", "relay-tray", "climate-chamber")
DAY = "2026-01-01"
HERE = Path(sys.executable)
FROM_SOURCE = "rectpack"
"""What is published as source only; all else comes as wheels, or the stated version is of no use to anybody."""

CODES = """
from panelart.geometry import Point
from panelart.lettering.codes import CodeKind, code_shape
for kind in CodeKind:
    print(kind.value, code_shape(kind, "PANEL-1", 0.5, Point(0.0, 0.0)))
"""

HYPHENS = """
from panelart.lettering.hyphenation import dictionary, divisions
for language, word in (("de", "Sicherheitsventil"), ("en-US", "Temperature"), ("fr", "Alimentation")):
    print(language, [each.start for each in divisions(word, (), (False,) * len(word), language, dictionary(language))])
"""


CLUSTER = """
import sys
from distributed import LocalCluster
from panelart.cli import main
with LocalCluster(n_workers=1, threads_per_worker=1, processes=False, dashboard_address=None) as there:
    sys.argv = ["panelart", "check", *sys.argv[1:], "--cluster", there.scheduler_address]
    main()
"""


def lowest(part: str = "") -> list[str]:
    """The lowest version of each dependency of the core or of an extra, as a pin.

    Raises SystemExit for one that states none.
    """
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    stated = project["optional-dependencies"][part] if part else project["dependencies"]
    pins = []
    for one in map(Requirement, stated):
        bounds = [bound.version for bound in one.specifier if bound.operator == ">="]
        if len(bounds) != 1:
            raise SystemExit(f"pyproject.toml: {one} states no lowest version")
        pins.append(f"{one.name}=={bounds[0]}")
    return pins


EXTRAS = ("cluster", "codes", "packing", "page", "spreadsheet")


def run(python: Path, *words: object, cwd: Path) -> str:
    """What a command prints in an environment, both streams, with its exit code."""
    own = {"PYTHONPATH": str(ROOT)} if python == HERE else {}
    done = subprocess.run(
        [python, *map(str, words)], cwd=cwd, env=environment() | own, capture_output=True, text=True, check=False
    )
    return f"exit {done.returncode}\n{done.stdout}{done.stderr}"


def environment() -> dict[str, str]:
    """Without what holds pip to other versions or Python to another tree."""
    return {name: value for name, value in os.environ.items() if name not in ("PIP_CONSTRAINT", "PYTHONPATH")}


def installed(folder: Path) -> Path:
    """Python of a fresh environment without anything in it."""
    subprocess.run([sys.executable, "-m", "venv", folder / "venv"], check=True)
    return folder / "venv" / "bin" / "python"


def add(python: Path, extras: str, pins: list[str], folder: Path) -> None:
    """Install the program with the versions of these pins, and what is left open as it is there or as new as can be."""
    held = folder / "lowest.txt"
    held.write_text("\n".join(pins) + "\n", encoding="utf-8")
    words = ["-m", "pip", "install", "-q", "--only-binary", ":all:", "--no-binary", FROM_SOURCE, "-c", held]
    subprocess.run([python, *words, f"{ROOT}{extras}"], check=True, env=environment())


def answers(python: Path, cwd: Path) -> list[str]:
    """Whether the page is shown to a browser."""
    words = [python, "-u", "-m", "panelart", "view", ROOT / "demo" / "bench-supply.yaml"]
    with subprocess.Popen(words, cwd=cwd, env=environment(), stdout=subprocess.PIPE, text=True) as page:
        try:
            assert page.stdout is not None
            address = page.stdout.readline().split()[-1]
            with urllib.request.urlopen(address, timeout=60) as answer:  # noqa: S310 - our own page
                return [] if b"<html" in answer.read() else ["view: no page"]
        except (OSError, IndexError) as error:
            return [f"view: {error}"]
        finally:
            page.terminate()


def core() -> list[list[object]]:
    """Commands that need no extra, as words after `python`."""
    commands: list[list[object]] = [["-m", "panelart", "--version"], ["-c", HYPHENS]]
    for name in SPECS:
        spec = ROOT / "demo" / f"{name}.yaml"
        commands.append(["-m", "panelart", "check", spec, "--format", "json", "--date", DAY])
        commands.append(["-m", "panelart", "make", spec, "--date", DAY, "-o", name])
    return commands


def further() -> list[list[object]]:
    """Commands that need extras."""
    spec = ROOT / "demo" / "bench-supply.yaml"
    return [
        ["-c", CODES],
        ["-c", CLUSTER, spec, spec.with_name("dosing.yaml")],
        ["-m", "panelart", "bom", spec, "-o", "buy.xlsx"],
        ["-m", "panelart", "bed", spec, "--bed", "600x400", "--date", DAY, "-o", "bed"],
    ]


def differences(python: Path, folder: Path, commands: list[list[object]]) -> list[str]:
    """What commands print and write otherwise than here."""
    found = []
    sides = {"here": HERE, "lowest": python}
    for side in sides:
        (folder / side).mkdir(parents=True)
    for words in commands:
        here, there = (run(each, *words, cwd=folder / side) for side, each in sides.items())
        if here != there or "Traceback" in there:
            found.append(f"{' '.join(map(str, words))}\n--- here\n{here}--- lowest\n{there}")
    return found + written(folder / "here", folder / "lowest")


def written(here: Path, there: Path) -> list[str]:
    """The files that are not on both sides, and those that should be alike and are not."""
    names = {path.relative_to(side) for side in (here, there) for path in side.rglob("*") if path.is_file()}
    found = []
    for name in sorted(names):
        one, other = here / name, there / name
        if not (one.is_file() and other.is_file()):
            found.append(f"{name}: on one side only")
        elif name.suffix not in (".pdf", ".png", ".xlsx") and one.read_bytes() != other.read_bytes():
            found.append(f"{name}: differs")
    return found if names else ["no file was written"]


def main() -> int:
    """Prove it, and print what is not so."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        python = installed(folder)
        add(python, "", lowest(), folder)
        found = differences(python, folder / "core", core())
        # An extra may ask for more of the core's libraries than the core does.
        pins = [pin for extra in EXTRAS for pin in lowest(extra)]
        add(python, "[all,cluster]", pins, folder)
        found += differences(python, folder / "extras", further()) + answers(python, folder)
    print("\n".join(found) or f"lowest versions: {', '.join(sorted((*lowest(), *pins)))}")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
