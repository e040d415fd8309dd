"""What imports what: no circles between modules, and nothing heavy where a command has no need of it."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterable, Iterator, Mapping
from collections.abc import Set as AbstractSet
from graphlib import CycleError, TopologicalSorter
from pathlib import Path
from typing import Final

import pytest

ROOT: Final = Path(__file__).parent.parent

Graph = Mapping[str, AbstractSet[str]]


def imports(source: str, known: AbstractSet[str]) -> Iterator[str]:
    """The known modules that a module imports, within functions too; what only a type checker reads is left out."""
    for node in _run(ast.parse(source)):
        match node:
            case ast.Import(names=names):
                yield from (each.name for each in names if each.name in known)
            case ast.ImportFrom(module=str(module), names=names, level=0):
                named = (f"{module}.{each.name}" for each in names)
                yield from (name for name in (one if one in known else module for one in named) if name in known)
            case ast.ImportFrom():
                raise AssertionError("imports name the whole way")


def _run(node: ast.AST) -> Iterator[ast.AST]:
    yield node
    if isinstance(node, ast.If) and ast.unparse(node.test).endswith("TYPE_CHECKING"):
        children: Iterable[ast.AST] = node.orelse
    else:
        children = ast.iter_child_nodes(node)
    for child in children:
        yield from _run(child)


def package_graph() -> dict[str, set[str]]:
    """Every module of the package with those that it imports."""
    paths = {
        ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__"): path
        for path in (ROOT / "panelart").rglob("*.py")
    }
    return {name: set(imports(path.read_text("utf-8"), paths.keys())) - {name} for name, path in paths.items()}


def circle(graph: Graph) -> list[str]:
    """Modules that import each other in a ring, [] where none do."""
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        return list(error.args[1])
    return []


def test_no_modules_import_each_other_in_a_circle() -> None:
    assert circle(package_graph()) == []


def test_circles_are_found_within_functions_and_not_where_only_types_are_read() -> None:
    known = {"a", "a.b", "c"}
    hidden = "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    import c\nelse:\n    import a\n"
    assert set(imports("def f():\n    from a import b\n", known)) == {"a.b"}
    assert set(imports(hidden, known)) == {"a"}
    assert circle({"a": {"a.b"}, "a.b": {"c"}, "c": set()}) == []
    assert set(circle({"a": {"a.b"}, "a.b": {"c"}, "c": {"a.b"}})) == {"a.b", "c"}


# --- what a command loads


HEAVY: Final = {
    "PIL",
    "ezdxf",
    "fontTools",
    "highspy",
    "openpyxl",
    "pikepdf",
    "pystrich",
    "rectpack",
    "reportlab",
    "resvg_py",
    "segno",
    "starlette",
    "svgwrite",
    "uvicorn",
}
"""Libraries that write files, serve pages and read what most specs do not have."""


def loaded(program: str) -> set[str]:
    """The libraries that are loaded after a program, of those that are heavy."""
    told = f"{program}\nimport sys\nprint('loaded:', *({HEAVY!r} & sys.modules.keys()))\n"
    done = subprocess.run([sys.executable, "-c", told], cwd=ROOT, capture_output=True, text=True, check=True)
    return set(done.stdout.rpartition("loaded:")[2].split())


def command(*words: str) -> str:
    return (
        f"import sys\nsys.argv = {['panelart', *words]!r}\nfrom panelart.cli import main\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
    )


@pytest.mark.parametrize(
    "spec", ["demo/relay-tray.yaml", "tests/oracle/specs/print-base-trap.yaml", "tests/oracle/specs/languages.yaml"]
)
def test_a_check_loads_nothing_that_writes_files(spec: str) -> None:
    """Signs beyond Latin, inks over a base, several languages: none of it needs more than the lettering's own."""
    assert loaded(command("check", spec)) == set()


@pytest.mark.parametrize(
    ("spec", "needed"),
    [("tests/oracle/specs/outline-dxf.yaml", "ezdxf"), ("tests/oracle/specs/variables.yaml", "segno")],
)
def test_what_a_spec_brings_is_read_by_its_library(spec: str, needed: str) -> None:
    assert needed in loaded(command("check", spec))


@pytest.mark.parametrize("room", ["drawing", "writers", "sheets", "press", "reports", "pipeline", "suggestions"])
def test_importing_a_room_loads_nothing_heavy(room: str) -> None:
    assert loaded(f"import panelart.{room}") == set()


def test_writing_pages_loads_no_reader_of_pdf() -> None:
    program = (
        "from panelart.drawing.representation import Drawing\nfrom panelart.geometry import Box\n"
        "from panelart.writers import pdf\npage = Box(0, 0, 10, 10)\n"
        "pdf([Drawing(title='T', note='', page=page, trim=page, layers=())])\n"
    )
    assert "pikepdf" not in loaded(program)
