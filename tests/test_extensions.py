"""Rules of another installed package: a real distribution in a folder on the path, as an installer records one."""

from __future__ import annotations

import importlib.metadata
import importlib.util
import json
import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pypdfium2 as pdfium
import pytest

from panelart import extensions
from panelart.checks import RULES, inspect, registry
from panelart.checks.cases import whole_spec
from panelart.extensions import ExtensionError, leaving_out, load
from panelart.pipeline import build, write
from panelart.reports.json import json_report
from panelart.reports.junit import junit_report
from panelart.reports.rule_reference import rule_page
from panelart.reports.sarif import document as sarif
from panelart.reports.text import Detail, text_report
from panelart.spec.read import panel_from_text
from panelart.suggestions import suggestions
from tests.commands import run_within

RULE = '''
from panelart.checks.findings import Observation
from panelart.checks.limits import Basis, Limit
from panelart.checks.mends import moved_apart
from panelart.checks.rule import rule
from panelart.diagnostics import Severity

LAMPS = Limit(name="lamps.minimum", what="number of lamps", value=2, unit="count", source="works standard 12",
              basis=Basis.GIVEN)


@rule(
    Severity.ERROR,
    says="Panel has {measured} lamps; minimum {limit}",
    fix="Add lamps until there are {limit}.",
    limits=(LAMPS,),
)
def two_lamps(survey):
    """A panel has fewer lamps than the works require.

    Source: works standard 12.
    Fix: add a lamp.
    Fails: one lamp.
    Passes: two lamps.
    """
    limit = survey.limits["lamps.minimum"]
    lamps = [part for part in survey.panel.parts if part.component.family == "led"]
    if len(lamps) < limit.value:
        panel = survey.panel
        yield Observation(refs=(), place=panel.outline.bounds, where=panel.where, subject="",
                          measured=float(len(lamps)), limit=limit)
'''
ONE_LAMP = "parts: [{ref: H1, part: led-5, at: [60, 50]}]"
TWO_LAMPS = "parts: [{ref: H1, part: led-5, at: [60, 50]}, {ref: H2, part: led-5, at: [90, 50]}]"


def built(text: str):
    return build(panel_from_text(whole_spec(text)))


def found(text: str) -> list[str]:
    return [finding.rule for finding in built(text).inspection.findings]


def refused(text: str = ONE_LAMP) -> list[str]:
    """What is said when a panel cannot be checked."""
    with pytest.raises(ExtensionError) as error:
        built(text)
    return [str(problem) for problem in error.value.problems]


def test_without_extensions_the_rules_are_those_of_this_package():
    assert registry.installed() is registry.BUILT_IN
    assert built(ONE_LAMP).inspection.without == ()


@pytest.mark.parametrize("value", ["house_lamps", "house_lamps:two_lamps", "house_lamps:two_lamps [extra]"])
def test_a_rule_of_a_package_is_run_under_the_name_of_its_package(install, value):
    install("house-rules", f"[panelart.rules]\nlamps = {value}\n", house_lamps=RULE)
    inspection = built(ONE_LAMP).inspection
    assert [finding.rule for finding in inspection.findings] == ["house-rules/two-lamps"]
    finding = inspection.findings[0]
    assert (finding.sentence, finding.limit_name) == ("Panel has 1 lamps; minimum 2", "lamps.minimum")
    assert "house-rules/two-lamps" not in found(TWO_LAMPS)
    assert list(inspection.rules.every)[: len(RULES) - 3] == list(registry.PANEL_RULES)


def test_what_is_scanned_is_what_the_standard_library_reads(install):
    install(
        "house-rules", "[console_scripts]\nx = y:z\n\n[panelart.rules]\n# ours\nlamps = house_lamps\n", house_lamps=""
    )
    install("house-parts", "[panelart.parts]\nfirst = house_parts.a:b\nsecond = house_parts.c\n")
    ours = [(entry.extension, entry.group, entry.name, entry.value) for entry in extensions._scanned().entries]
    theirs = [
        (entry.dist.name, entry.group, entry.name, entry.value)
        for group in ("panelart.rules", "panelart.parts")
        for entry in importlib.metadata.entry_points(group=group)
    ]
    assert ours == sorted(theirs)
    assert len(ours) == 3


def test_a_module_offered_twice_has_its_rules_once(install):
    install("house-rules", "[panelart.rules]\na = house_lamps\nb = house_lamps:two_lamps\n", house_lamps=RULE)
    assert found(ONE_LAMP).count("house-rules/two-lamps") == 1


def test_two_packages_may_name_their_rules_alike(install):
    for name in ("house-one", "house-two"):
        module = name.replace("-", "_")
        own = RULE.replace("lamps.minimum", f"{name}.minimum")
        install(name, f"[panelart.rules]\nlamps = {module}\n", **{module: own})
    assert found(ONE_LAMP)[:2] == ["house-one/two-lamps", "house-two/two-lamps"]


def test_a_rule_may_have_the_name_of_one_of_this_package(install):
    source = RULE.replace("def two_lamps", "def openings_too_close")
    install("house-rules", "[panelart.rules]\nlamps = house_lamps\n", house_lamps=source)
    assert "house-rules/openings-too-close" in found(ONE_LAMP)


def test_a_waiver_accepts_its_findings_and_a_house_file_changes_its_limit(install, tmp_path):
    install("house-rules", "[panelart.rules]\nlamps = house_lamps\n", house_lamps=RULE)
    waived = built(f"{ONE_LAMP}\nwaivers: [{{rule: house-rules/two-lamps, why: no room}}]").inspection
    assert [held.finding.rule for held in waived.waived] == ["house-rules/two-lamps"]
    (tmp_path / "house.yaml").write_text("limits: {lamps.minimum: {value: 1, why: small panels}}\n", encoding="utf-8")
    text = whole_spec(f"{ONE_LAMP}\nlimits: house.yaml")
    inspection = build(panel_from_text(text, folder=tmp_path)).inspection
    assert "house-rules/two-lamps" not in {finding.rule for finding in inspection.findings}
    assert [change.name for change in inspection.house] == ["lamps.minimum"]


def test_its_page_shows_its_package_and_its_own_limit(install):
    install("house-rules", "[panelart.rules]\nlamps = house_lamps\n", house_lamps=RULE)
    page = rule_page(registry.installed().every["house-rules/two-lamps"])
    assert "From extension house-rules" in page
    assert "lamps.minimum: number of lamps: 2" in page


MENDED = """
from panelart.checks.findings import Observation
from panelart.checks.mends import Move
from panelart.checks.rule import rule
from panelart.diagnostics import Severity


def to_the_right(finding, panel):
    yield Move(finding.refs[0], -30.0, 0.0)
    yield Move(finding.refs[0], 30.0, 0.0)


@rule(Severity.ERROR, says="{subject} is on the left", fix="Move it to the right.", mends=(to_the_right,))
def lamp_on_the_left(survey):
    \"""A lamp is in the left half.\"""
    for part in survey.panel.parts:
        if part.at.x < 80:
            yield Observation(refs=(part.ref,), place=part.at, where=part.where, subject=part.ref)
"""


def test_what_it_offers_is_tried_and_suggested(install):
    install("house-rules", "[panelart.rules]\nlamps = house_left\n", house_left=MENDED)
    text = whole_spec(ONE_LAMP)
    inspection = built(ONE_LAMP).inspection
    (found,) = filter(None, suggestions(text, inspection, lambda changed: build(panel_from_text(changed)).inspection))
    assert found.finding.rule == "house-rules/lamp-on-the-left"
    assert [(edit.old, edit.new) for edit in found.edits] == [("60", "90")]


# --- what fails to load


BAD = [
    ("house_gone", {}, "ModuleNotFoundError"),
    ("house_bad", {"house_bad": "def"}, "SyntaxError"),
    ("house_bad", {"house_bad": "1 / 0"}, "ZeroDivisionError"),
    ("house_bad", {"house_bad": "raise SystemExit(3)"}, "SystemExit"),
    ("house_bad:rule", {"house_bad": ""}, "AttributeError"),
    ("house_bad", {"house_bad": "x = 1"}, "has no rule"),
    ("house_bad", {"house_bad": "from panelart.checks.cutting import openings_too_close"}, "has no rule"),
    ("house_bad:x", {"house_bad": "x = 1"}, "int is neither a rule"),
    ("house bad", {}, "'lamps = house bad'"),
    ("", {}, "name = module:object"),
    ("house_bad", {"house_bad": RULE.replace("limits=(LAMPS,)", 'limits=("webb.minimum",)')}, "'webb.minimum'"),
    ("house_typo", {"house_typo": RULE.replace("minimum {limit}", "minimum {limt}")}, "KeyError"),
    ("house_bad", {"house_bad": RULE.replace('name="lamps.minimum"', 'name="web.minimum"')}, "name web.minimum"),
]


@pytest.mark.parametrize(("value", "modules", "reason"), BAD)
def test_one_that_cannot_be_loaded_stops_the_run_and_says_what_to_type(install, value, modules, reason):
    folder = install("house-rules", f"[panelart.rules]\nlamps = {value}\n", **modules)
    (told,) = refused()
    assert told.startswith(f"{folder}{os.sep}house_rules-1.0.dist-info{os.sep}entry_points.txt:2:1: error: ")
    assert "house-rules" in told
    assert reason in told
    assert "`--without house-rules`" in told


def test_all_that_cannot_be_loaded_are_told_at_once(install):
    install("house-one", "[panelart.rules]\na = house_gone\n")
    install("house-two", "[panelart.rules]\na = house_gone\nb = house_gone_too\n")
    assert len(refused()) == 3


def test_a_clash_of_names_is_an_error(install):
    again = RULE.replace("LAMPS = Limit(", "from house_lamps import LAMPS\nOTHER = Limit(")
    install("house-rules", "[panelart.rules]\na = house_lamps\nb = house_more\n", house_lamps=RULE, house_more=again)
    (told,) = refused()
    assert "two rules have the name house-rules/two-lamps" in told


def test_a_clash_of_limits_is_an_error(install):
    other = RULE.replace("value=2", "value=3")
    install("house-one", "[panelart.rules]\na = house_one\n", house_one=RULE)
    install("house-two", "[panelart.rules]\na = house_two\n", house_two=other)
    (told,) = refused()
    assert "two limits have the name lamps.minimum" in told


def test_entry_points_that_cannot_be_read_are_not_taken_for_none(install):
    folder = install("house-rules", "")
    file = folder / "house_rules-1.0.dist-info" / "entry_points.txt"
    file.unlink()
    file.mkdir()
    (told,) = refused()
    assert "cannot be read" in told
    assert "`--without house-rules`" in told


# --- what fails while it runs


@pytest.mark.parametrize(
    ("line", "reason"),
    [
        ('    limit = survey.limits["lamp"]', "KeyError"),
        ("    raise ValueError('no lamps\\nat all')", "ValueError: no lamps"),
        ("    yield 3", "AttributeError"),
        ("    yield Observation(refs=(), place=survey.panel.datum, where=survey.panel.where, subject='')", "KeyError"),
        (
            "    yield Observation(refs=(), place=None, where=survey.panel.where, subject='', measured=1, limit=LAMPS)",
            "AttributeError",
        ),
    ],
)
def test_a_rule_that_fails_is_an_error_with_its_name_and_its_line(install, line, reason):
    source = RULE.replace('    limit = survey.limits["lamps.minimum"]', line)
    folder = install("house-rules", "[panelart.rules]\nlamps = house_lamps\n", house_lamps=source)
    (told,) = refused()
    assert told.startswith(f"{folder}{os.sep}house_lamps.py:")
    assert "Rule house-rules/two-lamps failed: " in told
    assert reason in told
    assert "`--without house-rules`" in told


# --- what is left out


@pytest.mark.parametrize("module", [RULE, "1 / 0"])
def test_what_is_left_out_is_told_in_every_report(install, module):
    install("house-rules", "[panelart.rules]\nlamps = house_lamps\n", house_lamps=module)
    with leaving_out(["House_Rules"]):
        made = built(ONE_LAMP)
        files = write(made)
    told = "Checked without house-rules (omitted by `--without`)"
    inspection = made.inspection
    assert inspection.without == ("house-rules",)
    assert "house-rules/two-lamps" not in inspection.rules.every
    assert told in text_report(inspection)
    assert told in text_report(inspection, detail=Detail.QUIET)
    assert json.loads(json_report(inspection))["without"] == ["house-rules"]
    assert json.loads(files["findings.json"])["without"] == ["house-rules"]
    assert 'name="without" value="house-rules"' in junit_report(inspection)
    (notification,) = sarif(inspection)["runs"][0]["invocations"][0]["toolConfigurationNotifications"]
    assert notification["message"]["text"] == told
    pages = pdfium.PdfDocument(files["proof.pdf"])
    words = " ".join(" ".join(page.get_textpage().get_text_range() for page in pages).split())
    assert told in words


def test_afterwards_it_is_back(install):
    install("house-rules", "[panelart.rules]\nlamps = house_lamps\n", house_lamps=RULE)
    with leaving_out(["house-rules"]):
        assert "house-rules/two-lamps" not in found(ONE_LAMP)
    assert "house-rules/two-lamps" in found(ONE_LAMP)


def test_leaving_out_what_is_not_installed_is_an_error(install):
    install("house-rules", "[panelart.rules]\nlamps = house_lamps\n", house_lamps=RULE)
    with pytest.raises(ExtensionError) as error, leaving_out(["house-rule", "far-away"]):
        pass
    assert [str(problem).partition(": error: ")[2] for problem in error.value.problems] == [
        "Unknown extension 'far-away'\n  hint: Accepted extensions: house-rules",
        "Unknown extension 'house-rule'\n  hint: Did you mean 'house-rules'?",
    ]


def test_an_extension_of_another_group_is_told_of_too(install):
    install("house-parts", "[panelart.parts]\nall = house_gone\n")
    with pytest.raises(ExtensionError, match="house-parts"):
        built(ONE_LAMP)
    with leaving_out(["house-parts"]):
        assert built(ONE_LAMP).inspection.without == ("house-parts",)


def test_any_group_is_loaded_and_skipped_in_the_order_of_names(install):
    install("house-two", "[panelart.parts]\nb = house_things:two\n", house_things="one, two = 1, 2")
    install("house-one", "[panelart.parts]\na = house_things:one\n")
    assert load("panelart.parts", lambda entry, found: (entry.name, found)) == (((("a", 1)), ("b", 2)), ())
    with leaving_out(["house-one"]):
        assert load("panelart.parts", lambda _, found: found) == ((2,), ("house-one",))
    assert load("panelart.parts", lambda _, found: found, without=frozenset({"house-two"})) == ((1,), ("house-two",))


# --- on the command line


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    path = tmp_path / "front.yaml"
    path.write_text(whole_spec(ONE_LAMP), encoding="utf-8")
    return path


@pytest.mark.parametrize(
    "words",
    [
        ("make", "front.yaml", "-o", "out"),
        ("check", "front.yaml", "--write-baseline", "out"),
        ("bom", "front.yaml", "-o", "out"),
        ("drill-template", "front.yaml", "-o", "out.pdf"),
        ("compare", "front.yaml", "front.yaml"),
        ("rules",),
    ],
    ids=lambda words: words[0],
)
def test_a_command_ends_before_it_writes_anything(install, spec, words):
    install("house-rules", "[panelart.rules]\nlamps = house_gone\n")
    before = set(spec.parent.iterdir())
    done = run_within(*words, cwd=spec.parent)
    assert (done.returncode, done.stdout) == (1, "")
    assert "error: Extension house-rules cannot be loaded" in done.stderr
    assert "`--without house-rules`" in done.stderr
    assert set(spec.parent.iterdir()) == before


def test_a_rule_that_fails_ends_it_too(install, spec):
    install("house-rules", "[panelart.rules]\nlamps = house_lamps\n", house_lamps=RULE.replace('"led"', '""[9]'))
    for words in (("make", "front.yaml", "-o", "out"), ("check", "front.yaml", "--format", "json")):
        done = run_within(*words, cwd=spec.parent)
        assert done.returncode == 1
        assert "Rule house-rules/two-lamps failed: IndexError" in done.stderr
    assert json.loads(done.stdout)["problems"][0]["message"].startswith("Rule house-rules/two-lamps failed")
    assert not (spec.parent / "out").exists()


def test_with_the_option_it_goes_on_and_says_so(install, spec):
    install("house-rules", "[panelart.rules]\nlamps = house_gone\n")
    told = "Checked without house-rules (omitted by `--without`)"
    done = run_within("make", "front.yaml", "-o", "out", "--without", "house-rules", cwd=spec.parent)
    assert done.returncode == 0
    assert told in done.stdout
    assert json.loads((spec.parent / "out" / "findings.json").read_text(encoding="utf-8"))["without"] == ["house-rules"]
    assert told in run_within("rules", "--without", "house-rules", cwd=spec.parent).stdout


def test_the_option_takes_the_names_of_what_is_installed(install, spec):
    install("house-rules", "[panelart.rules]\nlamps = house_lamps\n", house_lamps=RULE)
    done = run_within("check", "front.yaml", "--without", "house-rule", cwd=spec.parent)
    assert done.returncode == 2
    assert "Unknown extension 'house-rule'. Did you mean 'house-rules'?" in done.stderr
    checked = run_within("check", "front.yaml", cwd=spec.parent)
    assert checked.returncode == 1
    assert "error: house-rules/two-lamps: Panel has 1 lamps; minimum 2" in checked.stdout
    page = run_within("rules", "house-rules/two-lamps", cwd=spec.parent).stdout
    assert page.startswith("house-rules/two-lamps (error)\n\nA panel has fewer lamps")


# --- where it is looked for


def test_of_two_records_of_one_distribution_the_first_on_the_path_counts(install, tmp_path, monkeypatch):
    install("house-rules", "[panelart.rules]\nlamps = house_lamps\n", house_lamps=RULE)
    newer = tmp_path / "newer" / "House.Rules-2.0.dist-info"
    newer.mkdir(parents=True)
    (newer / "entry_points.txt").write_text("", encoding="utf-8")
    assert "house-rules/two-lamps" in found(ONE_LAMP)
    monkeypatch.syspath_prepend(str(newer.parent))
    assert "house-rules/two-lamps" not in found(ONE_LAMP)


@pytest.mark.usefixtures("forgotten")
def test_one_in_an_archive_on_the_path_is_found(tmp_path, monkeypatch):
    archive = tmp_path / "house.zip"
    with zipfile.ZipFile(archive, "w") as made:
        made.writestr("house_rules-1.0.dist-info/METADATA", "Metadata-Version: 2.1\nName: house-rules\nVersion: 1.0\n")
        made.writestr("house_rules-1.0.dist-info/entry_points.txt", "[panelart.rules]\nlamps = house_lamps\n")
        made.writestr("house_lamps.py", RULE)
    monkeypatch.syspath_prepend(str(archive))
    assert "house-rules/two-lamps" in found(ONE_LAMP)


def test_one_that_an_import_hook_knows_is_found(install, monkeypatch):
    folder = install("house-rules", "[panelart.rules]\nlamps = house_lamps\n", house_lamps=RULE)
    monkeypatch.setattr(sys, "path", [place for place in sys.path if place != str(folder)])

    class Hook:
        def find_spec(self, name, path=None, target=None):  # noqa: ARG002  # as Python asks
            if name == "house_lamps":
                return importlib.util.spec_from_file_location(name, folder / "house_lamps.py")
            return None

        def find_distributions(self, context):  # noqa: ARG002  # as Python asks
            return importlib.metadata.MetadataPathFinder.find_distributions(
                importlib.metadata.DistributionFinder.Context(path=[str(folder)])
            )

    monkeypatch.setattr(sys, "meta_path", [*sys.meta_path, Hook()])
    assert "house-rules/two-lamps" in found(ONE_LAMP)


def test_looking_imports_nothing_that_start_up_does_without():
    code = (
        "import sys; from panelart import extensions; extensions._scanned();"
        "print([name for name in ('importlib.metadata', 'configparser', 'email', 'zipfile') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "[]\n"


def test_a_layout_is_inspected_by_the_rules_of_extensions_too(install):
    install("house-rules", "[panelart.rules]\nlamps = house_lamps\n", house_lamps=RULE)
    with leaving_out(["house-rules"]):
        layout = built(ONE_LAMP).layout
    assert "house-rules/two-lamps" in {finding.rule for finding in inspect(layout).findings}
