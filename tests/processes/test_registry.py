"""The marking processes: each complete in its module, known by name nowhere else, and others taken from elsewhere."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from msgspec.structs import replace

from panelart.canonical import canonical
from panelart.diagnostics import SpecError
from panelart.figure import Figure, Known
from panelart.pipeline import build, write
from panelart.processes import registry
from panelart.processes.process import COUNT, LIMITS, Positives, Process, Purchase, Work, looked_up, recalled
from panelart.processes.registry import MODULES, NAMES, Processes, processes
from panelart.sheets.purchasing import bought
from panelart.sheets.stations import stations
from panelart.spec.read import panel_from_text

ROOT = Path(__file__).parents[2] / "panelart"


FILES = {"documents/manifest.py": "files are listed by name, and two begin as processes are called"}
"""Modules where a process's name is something else, with the reason."""


def test_every_module_of_a_process_is_in_the_registry() -> None:
    modules = {path.stem for path in (ROOT / "processes").glob("*.py") if "PROCESS: Final" in path.read_text("utf-8")}
    assert modules == set(MODULES)
    assert [process.name for process in processes().values()] == [module.replace("_", "-") for module in MODULES]
    assert tuple(NAMES) == tuple(processes())


def _code(path: Path) -> Iterator[tuple[int, str]]:
    """The texts in the code of a module: no docstrings, no sentences of declared keys."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    said = {id(word.value) for node in ast.walk(tree) if isinstance(node, ast.Call) for word in node.keywords
            if word.arg in ("says", "otherwise", "doc")}  # fmt: skip
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in said:
            yield node.lineno, node.value


def test_no_process_is_known_by_name_outside_its_module() -> None:
    names = set(processes())
    found = [
        (path.relative_to(ROOT).as_posix(), line, text)
        for path in sorted(ROOT.rglob("*.py"))
        if path.parent.name != "processes" and path.relative_to(ROOT).as_posix() not in FILES
        for line, text in _code(path)
        if text in names
    ]
    assert found == []


def test_every_limit_has_its_name_source_and_standing() -> None:
    for process in processes().values():
        standard = {name: getattr(process, name) for name in LIMITS}
        for name, figure in {**standard, **process.own}.items():
            assert isinstance(figure, Figure)
            assert figure.name == name
            assert figure.source
            assert figure.known in (Known.LOOKED_UP, Known.TYPICAL, Known.MEMORY)


@pytest.mark.parametrize(
    ("process", "limit", "minimum", "maximum"),
    [
        # Ranges met on printers' artwork pages: label printers 0.18 to 0.25, wide format 0.5, overlays 0.18 to 0.35.
        ("digital-print", "line_minimum", 0.18, 0.5),
        ("screen-print", "line_minimum", 0.18, 0.35),
        ("overlay", "line_minimum", 0.18, 0.35),
        # Marks inside the trim: 1.5 to 5.
        ("digital-print", "edge_margin", 1.5, 5.0),
        # Decorators' pages: 0.2 to 0.35 printed, twice as much reversed; clichés 0.02 to 0.035 deep.
        ("pad-print", "line_minimum", 0.2, 0.35),
        ("pad-print", "gap_minimum", 0.4, 0.7),
        # ISO 3098-0 has heights from 1.8 mm.
        ("engraving", "cap_height_minimum", 1.8, 1.8),
    ],
)
def test_limits_lie_in_the_range_of_their_sources(process: str, limit: str, minimum: float, maximum: float) -> None:
    assert minimum <= getattr(processes()[process], limit).value <= maximum


# --- a process from elsewhere: one object


def _steps(work: Work) -> Iterator[str]:
    yield f"Stamp in order: {', '.join(plate.file for plate in work.plates)}."


STAMPED = Process(
    name="rubber-stamp",
    title="Rubber stamp",
    cap_height_minimum=recalled(2.5, "made up for this test"),
    line_minimum=looked_up(0.4, "made up for this test"),
    gap_minimum=looked_up(0.4, "made up for this test"),
    edge_margin=recalled(1.0, "made up for this test"),
    opening_margin=recalled(1.0, "made up for this test"),
    register=recalled(0.5, "made up for this test"),
    own={"inks_maximum": looked_up(1.0, "made up for this test", unit=COUNT)},
    outputs=(Positives(file="stamp"),),
    steps=_steps,
    purchases=lambda order: [Purchase(title=f"Stamp, {ink.name}", for_all=True) for ink in order.inks],
)

SPEC = """
panelart: 1
panel: {title: T, size: [60, 40], sheet: {material: aluminium, thickness: 2}}
marking:
  process: rubber-stamp
  inks: [{name: black, colour: "#101010"}, {name: red, colour: "#B02020"}]
  lettering: {cap_height: 4}
parts: [{ref: S1, part: toggle-12, at: [30, 15], legend: POWER}]
texts: [{text: OUT, at: [8, 6], ink: red, cap_height: 4}]
"""


@pytest.fixture
def stamped() -> Iterator[None]:
    processes().add(STAMPED)
    yield
    processes().remove(STAMPED.name)


@pytest.mark.usefixtures("stamped")
def test_a_process_of_another_package_is_one_object() -> None:
    built = build(panel_from_text(SPEC))
    made = write(built)
    assert [name for name in made if name.startswith("stamp-")] == ["stamp-black.pdf", "stamp-red.pdf"]
    station = next(one for one in stations(built.layout) if one.name == "Rubber stamp")
    assert str(station.steps[0]) == "Stamp in order: stamp-black.pdf, stamp-red.pdf."
    assert station.files[:2] == ("stamp-black.pdf", "stamp-red.pdf")
    assert [one.title for one in bought(built.layout.panel) if one.kind == "legend plate"] == [
        "Stamp, black",
        "Stamp, red",
    ]
    finding = next(one for one in built.inspection.findings if one.rule == "too-many-inks")
    assert (finding.measured, finding.limit, finding.limit_name) == (2.0, 1.0, "rubber-stamp.inks_maximum")


def test_its_name_is_not_known_before_and_the_key_lists_those_that_are() -> None:
    with pytest.raises(SpecError, match="pad-print"):
        panel_from_text(SPEC)


@pytest.mark.usefixtures("stamped")
def test_no_two_processes_have_one_name() -> None:
    with pytest.raises(ValueError, match="rubber-stamp"):
        processes().add(STAMPED)
    with pytest.raises(KeyError):
        processes().remove("overlay")


def test_a_process_is_imported_when_it_is_asked_for() -> None:
    code = (
        "import sys; from panelart.processes.registry import processes; known = processes(); list(known);"
        "loaded = lambda: sorted(m for m in sys.modules if m.startswith('panelart.processes.'));"
        "before = loaded(); known['engraving']; print(sorted(set(loaded()) - set(before)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "['panelart.processes.engraving', 'panelart.processes.inks']"


def _saying(words: str) -> Callable[[Work], tuple[str, ...]]:
    return lambda _: (words,)


def test_processes_that_say_other_things_have_other_canonical_bytes() -> None:
    every = [canonical(process) for process in processes().values()]
    assert len(set(every)) == len(every)
    other = replace(STAMPED, steps=processes()["screen-print"].steps)
    assert canonical(other) != canonical(STAMPED)
    assert canonical(replace(STAMPED, steps=_steps)) == canonical(STAMPED)
    once, twice = (canonical(replace(STAMPED, cautions=_saying(words))) for words in ("Mind.", "Mind it."))
    assert once != twice


def test_a_registry_of_its_own_keeps_the_order() -> None:
    own = Processes(("overlay", "engraving"))
    own.add(STAMPED)
    assert list(own) == ["overlay", "engraving", "rubber-stamp"]
    assert len(own) == 3
    assert own["rubber-stamp"].line_minimum.name == "line_minimum"
    assert registry.usual() == "digital-print"
