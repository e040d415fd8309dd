"""The front door: specs in any form, results with their findings and files, parts, comparisons."""

from __future__ import annotations

import datetime as dt
import json
import os
import subprocess
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest
import yaml as pyyaml
from msgspec.structs import replace

import panelart as pa
from panelart.pipeline import build, read_placement, write
from panelart.reprs import in_full
from panelart.source import nodes, yaml
from panelart.source.schema import decimal
from panelart.source.written import figure

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "demo"
DEMOS = sorted(path.name for path in DEMO.glob("*.yaml") if path.name != "house-parts.yaml")
SPEC: dict[str, object] = {
    "panelart": 1,
    "panel": {"title": "Lamp box", "size": [80, 50.0], "sheet": {"material": "steel", "thickness": "1.5 mm"}},
    "marking": {"process": "digital-print", "ink": {"name": "black", "colour": "#000000"}},
    "parts": [{"ref": f"H{n}", "part": "led-5", "at": [20 * n, 25], "legend": str(n)} for n in (1, 2, 3)],
}
TEXT = pyyaml.safe_dump(SPEC, sort_keys=False)


def without_places(panel: pa.Panel) -> str:
    """All that a panel holds but for places in the spec and what is hashed of its text."""
    return in_full(panel, frozenset({"where", "places", "fingerprint"}))


def as_data(node: nodes.Node) -> object:
    """A spec as a program would hold it: numbers, flags, texts; a number written otherwise (010, 1.50) stays a text."""
    match node:
        case nodes.Mapping():
            return {entry.key.text: as_data(entry.value) for entry in node.entries}
        case nodes.Sequence():
            return [as_data(item) for item in node.items]
        case nodes.Scalar(quoted=False, text="true" | "false"):
            return node.text == "true"
        case nodes.Scalar(quoted=False) if node.empty:
            return None
        case nodes.Scalar(quoted=False):
            number = decimal(node.text)
            return node.text if number is None or figure(number) != node.text else number
        case _:
            return node.text


# --- specs


@pytest.mark.few(5)
@pytest.mark.parametrize("name", DEMOS)
def test_a_demo_as_data_is_the_panel_of_its_file(name) -> None:
    data = as_data(yaml.read((DEMO / name).read_bytes(), name))
    of_data = pa.load(data, folder=DEMO)
    assert without_places(of_data) == without_places(pa.load(DEMO / name))
    assert of_data.fingerprint != pa.load(DEMO / name).fingerprint


@pytest.mark.few(2)
@pytest.mark.parametrize("name", DEMOS)
def test_a_text_is_the_panel_of_its_file(name) -> None:
    text = (DEMO / name).read_text(encoding="utf-8")
    of_text, of_file = pa.load(text, folder=DEMO), pa.load(str(DEMO / name))
    assert without_places(of_text) == without_places(of_file)
    assert of_text.fingerprint == of_file.fingerprint
    assert of_text.places[of_text.where].within == of_file.places[of_file.where].within


def test_a_text_in_braces_is_a_text() -> None:
    assert without_places(pa.load(json.dumps(SPEC))) == without_places(pa.load(SPEC))


def test_a_panel_of_a_set_is_named_in_three_ways() -> None:
    path = DEMO / "sets" / "level-monitor.yaml"
    data = as_data(yaml.read(path.read_bytes(), path.name))
    assert pa.panels(path) == pa.panels(data) == ("front", "rear")
    assert pa.panels(DEMO / "rear-io.yaml") == ()
    named = [pa.load(f"{path}#rear"), pa.load(path, panel="rear"), pa.load(data, panel="rear", folder=path.parent)]
    assert len({without_places(panel) for panel in named}) == 1
    assert named[0] == named[1]
    with pytest.raises(pa.SpecError, match="Unknown panel 'side'\n  hint: Accepted: front, rear"):
        pa.load(data, panel="side", folder=path.parent)


def test_a_language_is_lettered() -> None:
    spec = {**SPEC, "languages": {"de": {"1": "Eins", "2": "Zwei", "3": "Drei"}}}
    assert [part.legend.text for part in pa.load(spec, language="de").parts] == ["Eins", "Zwei", "Drei"]
    assert [part.legend.text for part in pa.load(spec).parts] == ["1", "2", "3"]


@pytest.mark.parametrize(
    ("source", "place"),
    [("nowhere.yaml", "nowhere.yaml:1:1"), ("x" * 5000, "x" * 5000 + ":1:1"), (Path("{a: 1}"), "{a: 1}:1:1")],
)
def test_a_path_that_cannot_be_read_is_told(source, place) -> None:
    with pytest.raises(pa.SpecError) as refused:
        pa.load(source)
    (problem,) = refused.value.problems
    assert str(problem.where) == place
    assert problem.message.startswith("Cannot read the spec: ")


@pytest.mark.parametrize("source", [42, None, b"panelart: 1", ["panelart"]])
def test_what_is_no_spec_is_a_slip_of_the_programmer(source) -> None:
    with pytest.raises(TypeError, match="a spec is a path, a text or a mapping"):
        pa.load(source)


def test_problems_of_data_are_told_all_at_once_by_key() -> None:
    spec = {**SPEC, "parts": [{"ref": "S1", "part": "toggel-12", "at": [1, "2 mmm"]}, {"ref": "S1", "part": 5}], "x": 1}
    with pytest.raises(pa.SpecError) as refused:
        pa.load(spec)
    told = [str(problem.where) for problem in refused.value.problems]
    assert {"parts[0].part", "parts[0].at[1]", "x"} <= set(told)
    assert "<data>:" not in str(refused.value)
    twice = {**SPEC, "parts": [{"ref": "S1", "part": "toggle-12", "at": [x, 20]} for x in (20, 50)]}
    with pytest.raises(pa.SpecError, match=r"parts\[1\].ref: error: .*; the first is at parts\[0\].ref"):
        pa.load(twice)


# --- results


def test_the_files_are_those_of_the_command(tmp_path) -> None:
    """The same spec through the stages, as `make` goes through them."""
    spec = DEMO / "rear-io.yaml"
    result = pa.build(pa.load(spec))
    expected = write(build(pa.load(spec), read_placement(spec)))
    assert dict(result.files) == expected
    written = result.write(tmp_path / "out")
    assert {path.name: path.read_bytes() for path in written} == expected
    assert {path.name for path in (tmp_path / "out").iterdir()} == set(expected)
    again = result.write(tmp_path / "dated", date=dt.date(2026, 3, 1), rear=True)
    assert "cutouts-from-rear.dxf" in {path.name for path in again}
    assert b"2026" in (tmp_path / "dated" / "proof.pdf").read_bytes()


def test_a_folder_that_cannot_be_written_stays_as_it_was(tmp_path) -> None:
    (tmp_path / "panel.svg").mkdir()
    with pytest.raises(OSError, match=r"panel\.svg"):
        pa.build(pa.load(SPEC)).write(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["panel.svg"]


def test_findings_are_told_apart_by_severity() -> None:
    parts = [{"ref": "H1", "part": "led-5", "at": [20, 25]}, {"ref": "H2", "part": "led-5", "at": [26, 25]}]
    findings = pa.build(pa.load({**SPEC, "parts": parts})).findings
    assert [*findings.errors, *findings.warnings, *findings.notes] == list(findings)
    assert findings.errors
    assert {finding.severity for finding in findings.errors} == {pa.Severity.ERROR}
    finding = findings.errors[0]
    assert findings[0] == finding
    assert findings[:1].errors == pa.Findings([finding])
    assert {"H1", "H2"} >= set(finding.refs)
    assert all("H2" in one.refs for one in findings.on("H2"))
    assert str(findings).splitlines()[0] == f"{finding.where}: error: {finding.rule}: {finding.says}"
    assert str(finding.where).startswith("parts[")
    assert repr(findings).startswith(f"Findings({len(findings.errors)} error")


def test_a_waiver_ends_and_a_baseline_sets_apart(tmp_path) -> None:
    waiver = {"rule": "control-without-name", "why": "a dummy", "until": "2025-01-01"}
    spec = {**SPEC, "parts": [{"ref": "S1", "part": "toggle-12", "at": [40, 25]}], "waivers": [waiver]}
    panel = pa.load(spec)
    before, after = pa.build(panel), pa.build(panel, today=dt.date(2026, 1, 1))
    rules = {finding.rule for finding in after.findings}
    assert rules - {finding.rule for finding in before.findings}
    kept = tmp_path / "known.json"
    kept.write_text(after.baseline, encoding="utf-8")
    known = pa.build(panel, today="2026-01-01", baseline=kept).findings
    assert (len(known), len(known.known)) == (0, len(after.findings))
    with pytest.raises(pa.SpecError, match="Cannot read the baseline: no such file"):
        pa.build(panel, baseline=tmp_path / "none.json")


def test_a_saved_placement_is_kept_to_unless_it_is_ignored(tmp_path) -> None:
    spec = tmp_path / "front.yaml"
    spec.write_text(TEXT, encoding="utf-8")
    panel = pa.load(spec)
    above = pa.build(panel)
    moved = above.placement.replace(b'"above"', b'"below"')
    assert moved != above.placement
    (tmp_path / "front.placement.json").write_bytes(moved)
    assert pa.build(panel, ignore_placement=True).placement == above.placement
    assert pa.build(panel).layout == build(panel, read_placement(spec)).layout
    assert pa.build(pa.load(TEXT), placement=moved).layout.legends
    assert pa.build(panel).placement == pa.build(panel, placement=tmp_path / "front.placement.json").placement
    with pytest.raises(pa.SpecError):
        pa.build(panel, placement=b"{}")


def test_nothing_is_drawn_before_it_is_asked_for(monkeypatch) -> None:
    """In a notebook the picture is asked for by the name of the form."""
    drawn: list[str] = []
    from panelart.documents.document import Document

    made = Document.file
    monkeypatch.setattr(Document, "file", lambda self, stem, *given: drawn.append(stem) or made(self, stem, *given))
    result = pa.build(pa.load(SPEC))
    assert repr(result) == "Result('Lamp box', 80 x 50 mm, 3 parts, no findings)"
    assert "proof.pdf" in result.files
    assert drawn == []
    picture_ = result._repr_svg_()
    assert picture_.encode() == result.files["panel.svg"]
    assert result._repr_png_() == result.files["panel.png"]
    assert picture_.startswith("<?xml")
    assert drawn == ["panel", "panel"]


def test_a_package_that_is_left_out_is_told_of(tmp_path, monkeypatch) -> None:
    """A house's rules that cannot be loaded stop the work, unless they are left out by name."""
    record = tmp_path / "site" / "house_rules-1.dist-info"
    record.mkdir(parents=True)
    (record / "METADATA").write_text("Metadata-Version: 2.1\nName: house-rules\nVersion: 1\n", encoding="utf-8")
    (record / "entry_points.txt").write_text("[panelart.rules]\nlamps = house_rules_that_are_gone\n", encoding="utf-8")
    monkeypatch.syspath_prepend(str(tmp_path / "site"))
    panel = pa.load(SPEC)
    with pytest.raises(pa.SpecError, match="house-rules"):
        pa.build(panel)
    result = pa.build(panel, without=["house-rules"])
    assert b"house-rules" in result.files["findings.json"]
    assert result.write(tmp_path / "out", only=["findings.json"])[0].read_bytes() == result.files["findings.json"]
    with pytest.raises(pa.SpecError, match="no-such-house"):
        pa.build(panel, without=["no-such-house"])


def test_only_what_is_asked_for_is_written(tmp_path) -> None:
    result = pa.build(pa.load(SPEC))
    written = result.write(tmp_path, only=["cutouts.dxf", "proof"])
    assert [path.name for path in written] == ["cutouts.dxf", "proof.pdf", "proof.png"]
    assert written[0].read_bytes() == result.files["cutouts.dxf"]
    with pytest.raises(pa.NoSuchDocumentError, match="cutouts") as refused:
        result.write(tmp_path / "none", only=["cutout"])
    assert "hint: " in str(refused.value)
    assert not (tmp_path / "none").exists()


# --- parts and comparison


def test_parts_are_found_by_name_and_by_words() -> None:
    toggle = pa.part("toggle-12")
    assert toggle in pa.parts("toggle 12")
    assert all(figure.source and figure.unit and figure.known for figure in toggle.figures)
    assert pa.parts("beacon", catalogue=DEMO / "house-parts.yaml") == (
        pa.part("beacon-18", catalogue=DEMO / "house-parts.yaml"),
    )
    for catalogue in (None, DEMO / "house-parts.yaml"):
        with pytest.raises(pa.UnknownPartError) as missed:
            pa.part("beakon-18", catalogue=catalogue)
        assert missed.value.name == "beakon-18"
    assert missed.value.nearest == "beacon-18"
    assert isinstance(missed.value, LookupError)


def test_differences_are_those_of_the_two_specs() -> None:
    spec = {**SPEC, "parts": [*SPEC["parts"], {"ref": "J1", "part": "socket-4", "at": [40, 10]}]}  # type: ignore[misc]
    old, new = pa.load(SPEC), pa.build(pa.load(spec))
    changed = pa.compare(old, new)
    assert ("part", "J1") in {(one.about.value, one.name) for one in changed}
    assert changed.text() == str(changed)
    assert json.loads(changed.json())["differences"][0]["about"] == changed[0].about.value
    assert "<svg" in changed._repr_svg_()
    assert not pa.compare(old, pa.build(old))
    assert repr(changed) == f"Comparison('Lamp box', 'Lamp box', {len(changed)} differences)"


# --- how it shows itself


def reached(top: object) -> Iterator[object]:
    """Everything of ours that can be reached from a thing, by fields, items and slots."""
    met: dict[int, object] = {}
    ahead = [top]
    while ahead:
        thing = ahead.pop()
        if id(thing) in met or isinstance(thing, str | bytes | int | float | type | None):
            continue
        met[id(thing)] = thing
        if isinstance(thing, tuple | list | set | frozenset):
            ahead.extend(thing)
        elif isinstance(thing, Mapping):
            ahead.extend((*thing.keys(), *thing.values()))
        if type(thing).__module__.startswith("panelart"):
            fields = getattr(type(thing), "__struct_fields__", None) or getattr(thing, "__dataclass_fields__", ())
            ahead.extend(getattr(thing, name) for name in fields)
            ahead.extend(vars(thing).values() if hasattr(thing, "__dict__") else ())
            yield thing


@pytest.mark.few(3)
@pytest.mark.parametrize("name", ["relay-tray.yaml", "climate-chamber.yaml", "mixing-desk.yaml", "pump-station.yaml"])
def test_every_noun_shows_itself_in_short(name) -> None:
    from panelart.drawing.artwork import artwork
    from panelart.marking.separation import separations

    result = pa.build(pa.load(DEMO / name))
    plates = separations(result.layout)
    nouns = list(reached((result, result.findings, plates, artwork(result.layout, plates), pa.compare(result, result))))
    kinds = {type(noun).__name__ for noun in nouns}
    assert {"Panel", "Part", "Component", "Layout", "Contour", "Opening", "Finding", "Drawing", "PlacedLegend"} <= kinds
    assert {(type(noun).__name__, len(repr(noun))) for noun in nouns if len(repr(noun)) >= 200} == set()
    assert all("\n" not in repr(noun) for noun in nouns)


@pytest.mark.parametrize("title", ["x" * 200, "two\\lines \u202e turned", "'quoted'"])
def test_long_and_odd_words_are_shown_in_short(title) -> None:
    panel = replace(pa.load(SPEC), title=title)
    assert len(repr(panel)) < 120
    assert repr(panel).isprintable()


# --- what importing costs, and what other programs see


def python(code: str) -> str:
    env = {**os.environ, "PYTHONPATH": str(ROOT)}
    return subprocess.run([sys.executable, "-c", code], env=env, capture_output=True, text=True, check=True).stdout


def test_importing_brings_nothing_before_it_is_used() -> None:
    """No clock: what is imported is counted."""
    loaded = "len([name for name in sys.modules if name.startswith('panelart.')])"
    heavy = "{'yaml', 'shapely', 'numpy', 'typer', 'reportlab', 'dataclasses'} & set(sys.modules)"
    told = python(f"import sys, panelart; print({loaded}, {heavy}); print(panelart.Panel.__name__, {loaded} > 0)")
    assert told == "0 set()\nPanel True\n"


def test_every_name_is_there_for_completion() -> None:
    assert set(pa.__all__) <= set(dir(pa))
    assert [name for name in pa.__all__ if not getattr(pa, name).__doc__] == []
    with pytest.raises(AttributeError, match="has no attribute 'lode'"):
        pa.lode  # noqa: B018
    from panelart import api

    assert set(pa.__all__) == set(api.__all__) - {"Source"}


SCRIPT = """
import datetime
from pathlib import Path
import panelart as pa

spec: dict[str, object] = {"panelart": 1}
panel: pa.Panel = pa.load(spec, language="de")
result = pa.build(pa.load(Path("front.yaml")), today=datetime.date(2026, 1, 1))
names: list[str] = [finding.rule for finding in result.findings.errors]
first: pa.Finding = result.findings[0]
some: pa.Findings = result.findings[:2]
width: float = pa.part("toggle-12").openings[0].contour.bounds.width
paths: tuple[Path, ...] = result.write("out", date="2026-01-01")
difference: pa.Difference = pa.compare(panel, result)[0]
"""
SLIPS = """
import panelart as pa

pa.load(42)
pa.build("front.yaml")
pa.parts().openings
pa.lode
"""


@pytest.mark.full
def test_a_script_is_checked_by_its_types(tmp_path, monkeypatch) -> None:
    """mypy, strict, sees every name that is handed on: what is right passes, and each slip is found."""
    api = pytest.importorskip("mypy.api")
    (tmp_path / "right.py").write_text(SCRIPT, encoding="utf-8")
    (tmp_path / "wrong.py").write_text(SLIPS, encoding="utf-8")
    monkeypatch.chdir(ROOT)  # by the options and with the cache of the project itself
    assert api.run([str(tmp_path / "right.py")])[:2] == ("Success: no issues found in 1 source file\n", "")
    told = api.run([str(tmp_path / "wrong.py")])[0]
    assert [line.split(":")[1] for line in told.splitlines()[:-1] if ": error:" in line] == ["4", "5", "6", "7"]
