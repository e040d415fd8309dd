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


# --- who reads by patterns


MEANING: Final = "panelart.texts."
"""The room that reads what texts of a panel mean, by patterns of its own."""

FORMATS: Final = {
    "panelart.catalogue.chapters": "names of parts, which sort by their numbers",
    "panelart.catalogue.context": "part files: braces",
    "panelart.catalogue.entries": "part files: names",
    "panelart.catalogue.formula": "part files: arithmetic",
    "panelart.cli.test_strip": "an option: colours as #RRGGBB",
    "panelart.cli.values": "an option: the size of a bed",
    "panelart.documents.document": "names of files that documents give",
    "panelart.documents.installed": "names of files and documents of other packages",
    "panelart.drafting.draft": "lines of the spec that it wrote",
    "panelart.drafting.families": "names of groups: the numbers and letters that tell them apart",
    "panelart.drafting.folded": "lines of the spec that a draft wrote",
    "panelart.drafting.sizes": "an option: sizes and rack units",
    "panelart.lettering.cuts": "names of cuts of our own font",
    "panelart.lettering.face.source": "the source files of our fonts",
    "panelart.lettering.fonts": "names of font files with axes",
    "panelart.lists.refs": "refs as lists join them: J1-J4",
    "panelart.lists.tables": "text files: words, to tell their code page",
    "panelart.model.machine": "DXF: names of layers, and characters that these must not have",
    "panelart.outlines.svg": "SVG: lengths and lists of numbers",
    "panelart.outlines.svg_file": "SVG: transforms",
    "panelart.outlines.svg_path": "SVG: path data",
    "panelart.processes.registry": "names of processes of other packages",
    "panelart.reports.junit": "XML: characters that it forbids",
    "panelart.sheets.workbook": "XLSX: times of the package",
    "panelart.source.data": "keys of data",
    "panelart.source.edit": "YAML, edited in place",
    "panelart.source.facts": "the spec: names in braces",
    "panelart.source.json_schema": "JSON Schema: names made of titles",
    "panelart.source.nouns": "names of Python classes",
    "panelart.source.schema": "the spec: numbers and colours",
    "panelart.source.written": "YAML: what must be quoted",
    "panelart.source.yaml": "YAML: tabs and comments",
    "panelart.spec.lettered": "the spec: braces in texts",
    "panelart.spec.names": "the spec: names in braces",
    "panelart.spec.part_paths": "the spec: refs with numbers in braces",
    "panelart.spec.templates": "the spec: braces in texts",
    "panelart.spec.translations": "the spec: braces in texts",
    "panelart.suggestions": "YAML: values as they are written",
    "panelart.units": "the spec: lengths with their unit",
    "panelart.viewer.changes": "refs with a number behind",
    "panelart.spec.moves": "the spec: lengths with their unit",
    "panelart.viewer.wording": "the page: names in braces",
    "panelart.writers.figures": "XML: characters that it forbids; colours",
    "panelart.writers.states": "SVG and DXF: what they say of their state",
    "panelart.writers.svg": "SVG: ids made of names",
}
"""Modules that read or write a form of file, of option or of name by patterns, and which."""


def reads_patterns(source: str) -> bool:
    """Whether a module imports a library of patterns, within functions too."""
    for node in ast.walk(ast.parse(source)):
        names = [each.name for each in node.names] if isinstance(node, ast.Import) else []
        if isinstance(node, ast.ImportFrom):
            names = [str(node.module)]
        if {"re", "regex"} & {name.partition(".")[0] for name in names}:
            return True
    return False


def test_only_readers_of_formats_have_patterns() -> None:
    """What the words of a panel mean is read in one room; a new module with patterns says here what it reads."""
    having = {
        ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")
        for path in (ROOT / "panelart").rglob("*.py")
        if reads_patterns(path.read_text("utf-8"))
    }
    outside = {name for name in having if not name.startswith(MEANING)}
    assert outside == FORMATS.keys()


@pytest.mark.parametrize(
    ("source", "reads"),
    [
        ("import re", True),
        ("def f():\n    from re import sub", True),
        ("import regex as anything", True),
        ("import reprlib", False),
        ("from panelart import reprs as re", False),
    ],
)
def test_imports_of_patterns_are_found(source: str, reads: bool) -> None:  # noqa: FBT001  # a table
    assert reads_patterns(source) is reads
