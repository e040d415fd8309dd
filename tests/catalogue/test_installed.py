"""Part files of other packages: found by name like the catalogue's own, and noticed when they are others."""

from __future__ import annotations

import io
import json
import shutil
import sys
import zipfile
from pathlib import Path

import ezdxf
import pytest

import panelart
from panelart import catalogue
from panelart.catalogue.chapters import chapter_of, chapters, variants
from panelart.catalogue.installed import brought
from panelart.catalogue.search import matching
from panelart.checks.cases import whole_spec
from panelart.diagnostics import SpecError
from panelart.extensions import ExtensionError, leaving_out
from panelart.figure import Known
from panelart.lists.matching import Matcher
from panelart.pipeline import build, write
from panelart.spec.read import panel_from_text
from tests.commands import run_within
from tests.installed import Install

FILE = """\
panelart-catalogue: 1
sources: {drawing: "Haldon drawing 1207, sheet 2"}
parts:
  haldon-beacon-18:
    title: Beacon, 18 mm
    family: beacon
    words: [warning]
    openings: [{role: body, circle: {diameter: 18.2}, source: drawing, known: looked-up}]
    front: [{what: bezel, circle: {diameter: 22}, projection: 3}]
  haldon-beacon-22:
    title: Beacon, 22 mm
    family: beacon
    openings: [{role: body, circle: {diameter: 22.3}}]
knobs:
  haldon-knob-20: {title: Knob, diameter: 20, height: 15, bore: 6.35}
"""
MODULE = "from pathlib import Path\nPARTS = Path(__file__).parent / 'parts.yaml'\n"
ENTRIES = "[panelart.parts]\nall = house_parts\n"
TEXT = whole_spec("parts: [{ref: H1, part: haldon-beacon-18, at: [60, 50]}]")
PLAIN = whole_spec("parts: [{ref: S1, part: toggle-12, at: [60, 50]}]")


def offer(install: Install, module: str = MODULE, *, file: str = FILE, name: str = "house-parts") -> Path:
    """A package with a part file beside its module; gives its folder."""
    place = name.replace("-", "_")
    folder = install(name, ENTRIES.replace("house_parts", place), **{place: module})
    (folder / "parts.yaml").write_text(file, encoding="utf-8")
    return folder


FORMS = [
    MODULE,
    "PARTS = 'parts.yaml'\n",
    "PARTS = ['parts.yaml', 'parts.yaml']\n",
    "from importlib.resources import files\nimport importlib.util\n" + MODULE,
    MODULE.replace("PARTS =", "OWN =") + "def PARTS():\n    return (OWN,)\n",
]


@pytest.mark.parametrize("module", FORMS)
def test_its_part_is_cut_and_its_figures_have_their_source(install: Install, module: str) -> None:
    offer(install, module)
    panel = panel_from_text(TEXT)
    (part,) = panel.parts
    figure = next(one for one in part.component.openings[0].figures if one.name == "diameter")
    assert (figure.value, figure.source, figure.known) == (18.2, "Haldon drawing 1207, sheet 2", Known.LOOKED_UP)
    assert part.component.front[0].figures[0].known is Known.GIVEN
    drawing = ezdxf.read(io.StringIO(write(build(panel), only=["cutouts.dxf"])["cutouts.dxf"].decode()))
    circles = [round(2 * one.dxf.radius, 6) for one in drawing.modelspace() if one.dxftype() == "CIRCLE"]
    assert circles == [18.2]


@pytest.mark.usefixtures("forgotten")
def test_a_resource_in_an_archive_is_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    archive = tmp_path / "house.zip"
    with zipfile.ZipFile(archive, "w") as made:
        made.writestr("house_parts-1.0.dist-info/METADATA", "Metadata-Version: 2.1\nName: house-parts\nVersion: 1.0\n")
        made.writestr("house_parts-1.0.dist-info/entry_points.txt", ENTRIES.replace("house_parts", "house_packed"))
        source = "from importlib.resources import files\nPARTS = files('house_packed') / 'lamps.yaml'\n"
        made.writestr("house_packed/__init__.py", source)
        made.writestr("house_packed/lamps.yaml", FILE)
    monkeypatch.syspath_prepend(str(archive))
    assert catalogue.component("haldon-beacon-18").title == "Beacon, 18 mm"
    assert [str(file) for file in set(brought().files.values())] == ["house-parts: lamps.yaml"]


def test_it_is_found_wherever_parts_are_looked_for(install: Install, tmp_path: Path) -> None:
    before = len(catalogue.names())
    offer(install)
    assert len(catalogue.names()) == before + 2
    assert list(catalogue.names()) == sorted(catalogue.names())
    assert matching("haldon warning") == ("haldon-beacon-18",)
    assert Matcher().match("Haldon beacon 18").name == "haldon-beacon-18"
    assert str(chapters()[-1].title) == str(chapter_of(catalogue.component("haldon-beacon-18")))
    assert variants(catalogue.component("haldon-beacon-18")) == ("haldon-beacon-22",)
    listed = run_within("parts", "haldon", cwd=tmp_path).stdout
    assert [line.split()[0] for line in listed.splitlines() if "haldon" in line] == [
        "haldon-beacon-18", "haldon-beacon-22", "haldon-knob-20",
    ]  # fmt: skip
    assert "Haldon drawing 1207, sheet 2" in run_within("parts", "haldon-beacon-18", cwd=tmp_path).stdout
    assert "Extension house-parts (2)" in run_within("parts", cwd=tmp_path).stdout
    (tmp_path / "list.csv").write_text("ref,part\nH1,Haldon beacon 18\nS1,toggle-12\n", encoding="utf-8")
    done = run_within("draft", "list.csv", "-o", "front.yaml", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "haldon-beacon-18" in (tmp_path / "front.yaml").read_text("utf-8")
    with leaving_out(["house-parts"]):
        assert len(catalogue.names()) == before
        assert Matcher().match("Haldon beacon 18").name is None
        assert matching("haldon") == ()
        with pytest.raises(KeyError):
            catalogue.component("haldon-beacon-18")
        with pytest.raises(SpecError, match="haldon-beacon-18"):
            panel_from_text(TEXT)


def test_a_knob_of_it_is_fitted_and_a_part_of_it_changed(install: Install) -> None:
    offer(install)
    fitted = panel_from_text(whole_spec("parts: [{ref: RV1, part: pot-m9, at: [60, 50], knob: haldon-knob-20}]"))
    knob = fitted.parts[0].knob
    assert knob is not None
    assert knob.diameter == 20.0
    changed = "parts: [{ref: H1, part: {part: haldon-beacon-18, opening: {diameter: 18.6}}, at: [60, 50]}]"
    panel = panel_from_text(whole_spec(changed))
    assert panel.parts[0].component.openings[0].figures[0].value == 18.6
    for one in (fitted, panel):
        assert [name for name, _ in one.files] == ["house-parts: parts.yaml"]


def test_another_version_is_noticed_where_a_part_of_it_is_used(
    install: Install, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    spec = tmp_path / "front.yaml"
    spec.write_text(TEXT, encoding="utf-8")
    plain = panel_from_text(PLAIN)
    folder = offer(install)
    used = panel_from_text(TEXT)
    assert (panel_from_text(PLAIN).fingerprint, plain.files) == (plain.fingerprint, ())
    ((name, _),) = used.files
    assert name == "house-parts: parts.yaml"
    assert run_within("make", "front.yaml", "-o", "out", "--only", "artwork,holes", cwd=tmp_path).returncode == 0
    assert run_within("outdated", "out", "--spec", "front.yaml", cwd=tmp_path).returncode == 0
    newer = shutil.copytree(folder, tmp_path / "newer")
    changed = FILE.replace("22.3", "22.4")  # another part of the file
    (newer / "parts.yaml").write_text(changed, encoding="utf-8")
    monkeypatch.syspath_prepend(str(newer))
    del sys.modules["house_parts"]
    now = panel_from_text(TEXT)
    assert now.fingerprint != used.fingerprint
    assert dict(now.files).keys() == dict(used.files).keys()
    assert now.files != used.files
    done = run_within("outdated", "out", "--spec", "front.yaml", cwd=tmp_path)
    assert done.returncode == 1
    assert used.fingerprint in done.stdout


BAD = [
    ("1 / 0", FILE, "ZeroDivisionError", ""),
    ("PARTS = 3", FILE, "int is neither a path of a part file", ""),
    ("PART = 3", FILE, "module house_parts has no PARTS", ""),
    ("PARTS = ['gone.yaml']", FILE, "gone.yaml cannot be read: No such file", ""),
    ("PARTS = '.'", FILE, "cannot be read: Is a directory", ""),
    ("PARTS = lambda: open('gone')", FILE, "FileNotFoundError", ""),
    (MODULE, FILE.replace("diameter: 18.2", "diamter: 18.2"), "part file 'parts.yaml' has errors", "parts.yaml:8:38"),
    (MODULE, "a: [", "part file 'parts.yaml' has errors", "parts.yaml:2:1"),
    (MODULE, FILE.replace("haldon-beacon-22", "toggle-12"), "defines toggle-12, which the catalogue has", ""),
]


@pytest.mark.parametrize(("module", "file", "reason", "place"), BAD)
def test_one_that_cannot_be_used_stops_every_command_and_says_where(
    install: Install, tmp_path: Path, module: str, file: str, reason: str, place: str
) -> None:
    folder = offer(install, module, file=file)
    (tmp_path / "front.yaml").write_text(PLAIN, encoding="utf-8")
    for words in (("make", "front.yaml", "-o", "out"), ("parts", "toggle"), ("bom", "front.yaml", "-o", "out")):
        done = run_within(*words, cwd=tmp_path)
        assert (done.returncode, done.stdout) == (1, "")
        told = " ".join(done.stderr.split())
        assert "error: Extension house-parts cannot be loaded: entry point all: " in told
        assert reason in told
        assert "`--without house-parts`" in told
        assert not place or f"{folder}/{place}" in done.stderr
    assert not (tmp_path / "out").exists()
    words = ("make", "front.yaml", "-o", "out", "--only", "findings", "--without", "house-parts")
    done = run_within(*words, cwd=tmp_path)
    assert done.returncode == 0
    assert "Checked without house-parts" in done.stdout
    assert json.loads((tmp_path / "out" / "findings.json").read_text("utf-8"))["without"] == ["house-parts"]


def test_a_name_of_another_extension_or_in_a_part_file_of_ones_own_is_an_error(
    install: Install, tmp_path: Path
) -> None:
    offer(install)
    (tmp_path / "own.yaml").write_text(FILE, encoding="utf-8")
    with pytest.raises(SpecError) as error:
        panel_from_text(f"{TEXT}catalogue: [own.yaml]\n", folder=tmp_path)
    told = [problem.message for problem in error.value.problems]
    assert "'own.yaml' defines the part 'haldon-beacon-18', which is also in extension house-parts" in told
    assert "'own.yaml' defines the knob 'haldon-knob-20', which is also in extension house-parts" in told
    offer(install, name="house-more")
    with pytest.raises(ExtensionError) as clash:
        panel_from_text(PLAIN)
    assert len(clash.value.problems) == 3
    assert "defines haldon-beacon-18, which extension house-more has" in str(clash.value.problems[0])


def test_programs_leave_out_what_commands_do(install: Install) -> None:
    offer(install, "1 / 0")
    with pytest.raises(ExtensionError, match="house-parts"):
        panelart.load(PLAIN)
    panel = panelart.load(PLAIN, without=["house-parts"])
    built = panelart.build(panel, without=["house-parts"])
    assert json.loads(built.files["findings.json"])["without"] == ["house-parts"]
