"""What a command brings along when it starts: nothing before it is typed, and a message where a library is missing."""

from __future__ import annotations

import os
import subprocess
import sys
from importlib.metadata import packages_distributions, requires
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from panelart import __version__
from panelart.cli.commands import COMMANDS
from panelart.extras import EXTRAS, extra_of
from tests.commands import run_within

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "demo" / "rear-io.yaml"
PROBE = """\
import contextlib, io, sys
from panelart.cli import main
with contextlib.redirect_stdout(io.StringIO()), contextlib.suppress(SystemExit):
    main()
print("\\n".join(sys.modules))
"""
SHARED = {
    "commands", "declaring", "exits", "help_text", "omitted", "options", "program", "terminal", "usage", "values",
}  # fmt: skip
"""Modules of the command line that belong to no command."""


def imported(*words: str) -> set[str]:
    """The modules that are there after a command in a process of its own."""
    done = subprocess.run([sys.executable, "-c", PROBE, *words], cwd=ROOT, capture_output=True, text=True, check=True)
    return set(done.stdout.split())


@pytest.mark.parametrize("words", [("--version",), ("--help",), ("chek",)])
def test_no_command_is_imported_before_it_is_typed(words: tuple[str, ...]) -> None:
    modules = imported(*words)
    rooms = {name.split(".")[1] for name in modules if name.startswith("panelart.")}
    assert rooms <= {"cli", "messages", "canonical"} | ({"diagnostics", "reprs"} if words == ("chek",) else set())
    assert {name.removeprefix("panelart.cli.") for name in modules if name.startswith("panelart.cli.")} <= SHARED
    assert not {"pydantic", "typer", "rich", "numpy", "shapely", "yaml"} & modules


def test_the_version_needs_no_library(tmp_path: Path) -> None:
    for library in ("click", "msgspec", "yaml"):
        (tmp_path / f"{library}.py").write_text("raise ImportError('broken')")
    done = subprocess.run(
        [sys.executable, "-m", "panelart", "--version"],
        env={"PYTHONPATH": f"{tmp_path}{os.pathsep}{ROOT}"}, capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert done.stdout == f"panelart {__version__}\n"
    assert run_within("--version", "check", cwd=tmp_path).stdout == done.stdout


@pytest.mark.few(3)
@pytest.mark.parametrize("name", COMMANDS)
def test_help_of_a_command_imports_its_own_module_only(name: str) -> None:
    modules = imported(name, "--help")
    own = {"tables", "drawn", "loads", "made", "source_lines", "eye_place", "pages", "specs"}  # what commands share
    assert {
        module.removeprefix("panelart.cli.") for module in modules if module.startswith("panelart.cli.")
    } - SHARED - own == {COMMANDS[name].module}
    assert not {"numpy", "shapely", "yaml", "reportlab", "ezdxf", "fontTools"} & modules


def test_the_module_is_the_program() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "panelart", "check", "--formt"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 2
    assert done.stderr == run_within("check", "--formt", cwd=ROOT).stderr
    assert "Help: panelart check --help" in done.stderr


@pytest.mark.parametrize(
    ("library", "words"),
    [
        ("uvicorn", ("view", DEMO)),
        ("merge3", ("view", DEMO)),
        ("openpyxl", ("bom", DEMO, "-o", "buy.xlsx")),
        ("rectpack", ("bed", DEMO, "--bed", "600x400")),
    ],
)
def test_a_missing_library_is_named_with_the_line_that_installs_it(
    library: str, words: tuple[object, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, library, None)
    done = run_within(*words, cwd=tmp_path)
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr == (
        f"error: The Python library {library} is not installed. "
        f"Install it with: pip install 'panelart[{extra_of(library)}]'\n"
    )
    assert not list(tmp_path.iterdir())


def test_a_missing_library_that_no_extra_brings_is_a_fault(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "panelart.sheets.purchasing", None)
    with pytest.raises(ModuleNotFoundError):
        run_within("bom", DEMO, cwd=tmp_path)


def test_the_libraries_of_extras_are_those_that_the_distribution_asks_for() -> None:
    """By the names that their own metadata give for what is imported."""
    brought = packages_distributions()
    asked = {canonicalize_name(Requirement(line).name) for line in requires("panelart") or ()}
    for libraries in EXTRAS.values():
        for library in libraries:
            assert {canonicalize_name(name) for name in brought[library]} & asked


HEAVY = {
    "numpy", "shapely", "ezdxf", "reportlab", "fontTools", "uharfbuzz", "pikepdf", "PIL", "svgwrite", "resvg_py",
    "segno", "openpyxl", "pystrich", "rectpack", "highspy", "starlette", "uvicorn",
}  # fmt: skip


@pytest.mark.parametrize(
    ("words", "needed"),
    [
        (("schema",), set()),
        (("parts", "bnc"), set()),
        (("check", "demo/bench-supply.yaml"), {"numpy", "shapely"}),
    ],
)
def test_libraries_are_imported_by_what_needs_them(words: tuple[str, ...], needed: set[str]) -> None:
    assert HEAVY & imported(*words) == needed
