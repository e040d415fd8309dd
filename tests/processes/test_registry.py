"""The marking processes: each complete in its module, known by name nowhere else, and others taken from elsewhere."""

from __future__ import annotations

import ast
import json
import re
import subprocess
import sys
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

import pytest
from msgspec.structs import replace

from panelart.canonical import canonical
from panelart.checks.cases import whole_spec
from panelart.checks.registry import BUILT_IN
from panelart.diagnostics import SpecError
from panelart.documents.installed import documents
from panelart.extensions import ExtensionError, leaving_out
from panelart.figure import Figure, Known
from panelart.pipeline import build, write
from panelart.processes import process as process_module
from panelart.processes import registry
from panelart.processes.process import COUNT, LIMITS, NEEDED, Positives, Process, Purchase, Work, looked_up, recalled
from panelart.processes.registry import MODULES, NAMES, Processes, processes
from panelart.sheets.purchasing import bought
from panelart.sheets.stations import stations
from panelart.spec.language import json_schema
from panelart.spec.read import panel_from_text
from tests.commands import run_within
from tests.installed import Install

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


# --- figures that only some processes have


def _told() -> set[str]:
    """The figures of their own that the docstring of `process.py` lists."""
    return set(re.findall(r"^    (\w+)  +\S", process_module.__doc__ or "", flags=re.MULTILINE))


def _texts(paths: Iterable[Path]) -> set[str]:
    return {text for path in paths for _, text in _code(path)}


def test_every_figure_that_processes_have_of_their_own_is_told_with_what_it_does() -> None:
    """Listed where a process is described, or read by the module of the process itself, whose sentences have it."""
    for module in MODULES:
        path = ROOT / "processes" / f"{module}.py"
        asked = set(re.findall(r"figure\(\"(\w+)\"\)", path.read_text("utf-8")))
        own = set(processes()[module.replace("_", "-")].own)
        assert own - _told() - asked <= ONLY_KEPT, module


ONLY_KEPT = {"ink_film"}
"""Figures for who reads a shop file: no rule and no sentence has them."""


@pytest.mark.full
def test_every_figure_that_is_listed_is_read_outside_the_room_and_every_one_read_is_listed() -> None:
    told = _told()
    outside = [path for path in sorted(ROOT.rglob("*.py")) if path.parent.name != "processes"]
    assert {"inks_maximum", "trap", "spread"} < told
    assert told <= _texts(outside)
    every = {name for process in processes().values() for name in process.own}
    assert told <= every
    asked = {
        name
        for path in outside
        for name in re.findall(
            r"(?:own_limit\(survey, |context\.figure\(|process\.figure\()\"(\w+)\"", path.read_text("utf-8")
        )
    }
    assert {"spread", "trap", "solid_maximum"} < asked
    assert asked & every <= told
    assert {name for names in NEEDED.values() for name in names} <= told


def test_the_rules_named_in_the_list_of_figures_are_rules() -> None:
    named = re.findall(r"\(rule ([\w-]+)\)", process_module.__doc__ or "")
    assert len(named) > 4
    assert set(named) <= set(BUILT_IN.every)


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
  process: house-marking/rubber-stamp
  inks: [{name: black, colour: "#101010"}, {name: red, colour: "#B02020"}]
  lettering: {cap_height: 4}
parts: [{ref: S1, part: toggle-12, at: [30, 15], legend: POWER}]
texts: [{text: OUT, at: [8, 6], ink: red, cap_height: 4}]
"""


@pytest.fixture
def stamped(install: Install) -> Path:
    return install("house-marking", f"[panelart.processes]\nstamp = {__name__}:STAMPED\n")


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
    assert (finding.measured, finding.limit, finding.limit_name) == (
        2.0,
        1.0,
        "house-marking/rubber-stamp.inks_maximum",
    )


def test_its_name_is_not_known_before_and_the_key_lists_those_that_are() -> None:
    with pytest.raises(SpecError, match="pad-print"):
        panel_from_text(SPEC)


@pytest.mark.usefixtures("stamped")
def test_it_is_listed_last_wherever_processes_are_listed(tmp_path: Path) -> None:
    name = "house-marking/rubber-stamp"
    assert tuple(processes()) == (*registry.BUILT_IN, name) == tuple(NAMES)
    assert name in json.dumps(json_schema())
    printed = run_within("shop-file", name, cwd=tmp_path).stdout
    assert f"  {name}:\n    cap_height_minimum: {{value: 2.5," in printed
    (tmp_path / "shop.yaml").write_text(printed.replace("value: 2.5", "value: 3.25"), encoding="utf-8")
    text = SPEC.replace("  inks:", "  shop: shop.yaml\n  inks:")
    panel = panel_from_text(text, folder=tmp_path)
    assert panel.marking.process.cap_height_minimum.value == 3.25
    drawn = run_within("test-strip", name, "-o", "strip.svg", cwd=tmp_path)
    assert (drawn.returncode, drawn.stdout) == (0, "strip.svg\n")
    assert "limit:" not in drawn.stderr
    with pytest.raises(SpecError, match="Did you mean 'house-marking/rubber-stamp'"):
        panel_from_text(SPEC.replace("rubber-stamp", "ruber-stamp"))


def test_one_that_never_needs_a_base_has_one_only_when_it_is_asked_for(install: Install) -> None:
    source = "from msgspec.structs import replace\nfrom panelart.processes.process import NO_BASE\n"
    source += f"from {__name__} import STAMPED\nPROCESS = replace(STAMPED, base=NO_BASE)\n"
    install("house-marking", "[panelart.processes]\nstamp = house_stamp\n", house_stamp=source)
    coat = ', coat: {kind: powder, thickness: 0.06, colour: "#000000"}}\nmarking:'
    black = SPEC.replace("}\nmarking:", coat)
    common = black.replace("house-marking/rubber-stamp", "screen-print")
    assert panel_from_text(common).marking.printing.base is not None
    assert panel_from_text(black).marking.printing.base is None
    assert panel_from_text(black.replace("  inks:", "  base: true\n  inks:")).marking.printing.base is not None


@pytest.mark.usefixtures("stamped")
def test_left_out_it_is_not_known() -> None:
    with leaving_out(["house-marking"]):
        assert processes() is registry.BUILT_IN
        with pytest.raises(SpecError, match="house-marking/rubber-stamp"):
            panel_from_text(SPEC)
    assert panel_from_text(SPEC).marking.process.title == "Rubber stamp"


@pytest.mark.parametrize(
    ("source", "reason"),
    [
        ("1 / 0", "ZeroDivisionError"),
        ("PROCES = 1", "module house_stamp has no PROCESS"),
        ("PROCESS = 1", "int is neither a process"),
        ("PROCESS = replace(STAMPED, name='Rubber/Stamp')", "'Rubber/Stamp' is not of small letters"),
        ("PROCESS = replace(STAMPED, line_minimum=0.4)", "line_minimum is not a figure"),
        ("PROCESS = replace(STAMPED, own={'trap': recalled(-1.0, 'x')})", "trap is not a figure"),
        ("PROCESS = replace(STAMPED, outputs=('film',))", "str is not an output"),
        ("PROCESS = replace(STAMPED, outputs=(Positives(), Positives(file='more')))", "Positives is not an output, or"),
        ("PROCESS = replace(STAMPED, outputs=(Positives(file='../film'),))", "name '../film'"),
        ("PROCESS = replace(STAMPED, outputs=(BeamLines(file='beam'),))", "BeamLines needs figures that are not given"),
        ("import functools\nPROCESS = replace(STAMPED, steps=functools.partial(print))", "NotCanonicalError"),
    ],
)
def test_one_that_cannot_be_used_is_refused_before_anything_is_done(
    install: Install, tmp_path: Path, source: str, reason: str
) -> None:
    begin = (
        "from msgspec.structs import replace\nfrom panelart.processes.process import *\n"
        f"from {__name__} import STAMPED\n"
    )
    folder = install("house-marking", "[panelart.processes]\nstamp = house_stamp\n", house_stamp=begin + source)
    (tmp_path / "front.yaml").write_text(
        whole_spec("parts: [{ref: S1, part: toggle-12, at: [60, 50]}]"), encoding="utf-8"
    )
    for words in (("make", "front.yaml", "-o", "out"), ("shop-file",), ("test-strip", "overlay", "-o", "out.svg")):
        done = run_within(*words, cwd=tmp_path)
        assert (done.returncode, done.stdout) == (1, "")
        assert f"{folder}/house_marking-1.0.dist-info/entry_points.txt:2:1" in done.stderr
        assert "error: Extension house-marking cannot be loaded: entry point stamp: " in done.stderr
        assert reason in " ".join(done.stderr.split())
    assert not list(tmp_path.glob("out*"))
    done = run_within(
        "make", "front.yaml", "-o", "out", "--only", "findings", "--without", "house-marking", cwd=tmp_path
    )
    assert done.returncode == 0
    assert json.loads((tmp_path / "out" / "findings.json").read_text("utf-8"))["without"] == ["house-marking"]


@pytest.mark.usefixtures("stamped")
def test_no_two_processes_of_a_package_have_one_name(install: Install) -> None:
    install("house-more", f"[panelart.processes]\na = {__name__}:STAMPED\n")
    assert "house-more/rubber-stamp" in processes()  # one of another package may be named alike
    install("house-twice", f"[panelart.processes]\na = {__name__}:STAMPED\nb = {__name__}:STAMPED\n")
    with pytest.raises(ExtensionError, match="two processes have the name house-twice/rubber-stamp"):
        processes()


@pytest.mark.usefixtures("stamped")
@pytest.mark.parametrize(
    ("change", "reason"),
    [
        ("steps=lambda work: [1 / 0]", "ZeroDivisionError: float division by zero"),
        ("steps=lambda work: [3]", "int is not a sentence"),
        ("cautions=lambda work: (str(one.nobody) for one in work.plates)", "AttributeError"),
        ("purchases=lambda order: ['ink']", "str is not a purchase"),
    ],
)
def test_one_that_fails_while_a_document_is_written_is_told_by_name(
    install: Install, tmp_path: Path, change: str, reason: str
) -> None:
    source = f"""
from msgspec.structs import replace
from {__name__} import STAMPED
PROCESS = replace(STAMPED, {change})
"""
    install("house-failing", "[panelart.processes]\nstamp = house_failing\n", house_failing=source)
    (tmp_path / "front.yaml").write_text(SPEC.replace("house-marking", "house-failing"), encoding="utf-8")
    done = run_within("make", "front.yaml", "-o", "out", cwd=tmp_path)
    if "purchases" in change:
        assert done.returncode in (0, 1)
        done = run_within("bom", "front.yaml", "-o", "out.csv", cwd=tmp_path)
        assert not (tmp_path / "out.csv").exists()
    else:
        assert not (tmp_path / "out").exists()
    told = " ".join(done.stderr.split())
    assert done.returncode == 1
    assert "error: Process house-failing/rubber-stamp failed: " in told
    assert reason.replace("float ", "") in told.replace("float ", "")
    if "/ 0" in change:
        assert f"{tmp_path}/house-failing/house_failing.py:4:1" in done.stderr


@pytest.mark.parametrize("file", ["cutouts", "blank"])
def test_its_files_are_not_called_as_those_of_another_document(install: Install, file: str) -> None:
    source = f"""
from msgspec.structs import replace
from panelart.processes.process import CutterPaths, recalled
from {__name__} import STAMPED
PROCESS = replace(STAMPED, outputs=(CutterPaths(file={file!r}),), own={{"depth": recalled(0.2, "x")}}, lays_ink=False)
"""
    install("house-marking", "[panelart.processes]\nstamp = house_stamp\n", house_stamp=source)
    with pytest.raises(ExtensionError, match=f"files of process house-marking/rubber-stamp are called {file}"):
        documents()


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
    own = Processes(("overlay", "engraving"), [(None, STAMPED)])
    assert list(own) == ["overlay", "engraving", "rubber-stamp"]
    assert len(own) == 3
    assert own["overlay"].line_minimum.name == "line_minimum"
    assert registry.usual() == "digital-print"
