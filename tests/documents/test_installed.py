"""Documents of other packages: written beside ours, refused where they cannot be, told by name where they fail."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pypdfium2 as pdfium
import pytest

from panelart.checks.cases import whole_spec
from panelart.documents.installed import documents
from panelart.documents.manifest import DOCUMENTS
from panelart.extensions import ExtensionError, leaving_out
from panelart.pipeline import build, panel_files, write, write_set
from panelart.spec.read import panel_from_text
from tests.commands import run_within
from tests.installed import Install

SOURCE = '''
import csv, io
from panelart.documents import Audience, document, family, need
from panelart.documents.document import ALWAYS, When
from panelart.documents.needs import LAYOUT, PANELS
from panelart.messages import message


@message
def drill_list() -> None:
    """Drill list"""


@need(LAYOUT)
def drills(layout):
    return [(part.ref, part.at.x, part.at.y) for part in layout.panel.parts]


def as_csv(rows, results):
    text = io.StringIO()
    csv.writer(text).writerows(rows)
    return text.getvalue().encode()


DRILLS = document("drills", drills, {"csv": as_csv}, says=drill_list(), audience=(Audience.CUTTER,))
DOCUMENTS = (DRILLS,)
'''
ENTRIES = "[panelart.documents]\nall = house_documents\n"
TEXT = whole_spec("parts: [{ref: H1, part: led-5, at: [60, 50]}, {ref: H2, part: led-5, at: [90, 50]}]")


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    path = tmp_path / "front.yaml"
    path.write_text(TEXT, encoding="utf-8")
    return path


def test_without_extensions_there_are_ours() -> None:
    assert documents() is DOCUMENTS


@pytest.mark.parametrize(
    "value", ["house_documents", "house_documents:DOCUMENTS", "house_documents:DRILLS", "house_documents:drills_too"]
)
def test_its_file_is_written_behind_ours(install: Install, value: str) -> None:
    source = f"{SOURCE}\ndrills_too = [DRILLS]\n"
    install("house-documents", f"[panelart.documents]\nall = {value}\n", house_documents=source)
    built = build(panel_from_text(TEXT))
    files = write(built)
    *_, last = files
    assert last == "drills.csv"
    rows = list(csv.reader(io.StringIO(files["drills.csv"].decode())))
    assert [row[0] for row in rows] == ["H1", "H2"]
    # Places as the inspection list of this package has them, from the datum.
    assert float(rows[1][1]) - float(rows[0][1]) == 30.0
    assert panel_files(built)["drills.csv"] == files["drills.csv"]
    with leaving_out(["house-documents"]):
        assert "drills.csv" not in write(built, only=["cutouts"])
        assert documents() is DOCUMENTS


def test_one_of_a_set_is_written_for_the_set(install: Install) -> None:
    source = SOURCE + (
        'DOCUMENTS = (document("names", PANELS, {"txt": lambda panels, _: "\\n".join(panels).encode()},\n'
        "    says=drill_list(), audience=(Audience.BUYER,)),)\n"
    )
    install("house-documents", ENTRIES, house_documents=source)
    built = build(panel_from_text(TEXT))
    made = write_set({"front": built, "rear": built}, only=["names"])
    assert made == {"front": {}, "rear": {}, "": {"names.txt": b"front\nrear"}}


def test_the_command_writes_it_lists_it_and_takes_its_name(
    install: Install, spec: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    install("house-documents", ENTRIES, house_documents=SOURCE)
    done = run_within("make", "front.yaml", "-o", "out", "--only", "drills,cutouts.svg", "--verbose", cwd=spec.parent)
    assert done.returncode == 0
    assert sorted(path.name for path in (spec.parent / "out").iterdir()) == ["cutouts.svg", "drills.csv"]
    cutting = done.stdout[done.stdout.index("Cutting") :].splitlines()[0]
    assert "drills.csv" in cutting
    done = run_within("make", "front.yaml", "--only", "dril", cwd=spec.parent)
    assert done.returncode == 2
    assert "Did you mean 'drills'" in done.stderr
    monkeypatch.setenv("_PANELART_COMPLETE", "bash_complete")
    monkeypatch.setenv("COMP_WORDS", "panelart make --only d")
    monkeypatch.setenv("COMP_CWORD", "3")
    assert "drills.csv" in run_within(cwd=spec.parent).stdout
    # What cannot be loaded is told when the command is run, not between two keys.
    install("house-bad", "[panelart.documents]\nall = house_gone\n")
    done = run_within(cwd=spec.parent)
    assert (done.returncode, done.stdout.strip(), done.stderr) == (0, "", "")


OWN = "DOCUMENTS = (document({}, says=drill_list(), audience=(Audience.CUTTER,)),)\n"
BAD = [
    ("1 / 0", "ZeroDivisionError"),
    ("del DOCUMENTS", "module house_documents has no DOCUMENTS"),
    ("DOCUMENTS = (DRILLS, 3)", "int is neither a document"),
    (OWN.format("'../drills', drills, {'csv': as_csv}"), "name '../drills' cannot be the name of a file"),
    (OWN.format("'*', drills, {'csv': as_csv}"), "name '*' cannot be"),
    (OWN.format("'drills', drills, {'': as_csv}"), "document drills has no valid formats"),
    (OWN.format("'drills', drills, {}"), "document drills has no valid formats"),
    (OWN.format("'drills', drills, {'csv': 3}"), "document drills has no valid formats"),
    (OWN.replace("says=drill_list()", "says='x'").format("'drills', drills, {'csv': as_csv}"), "has no valid says"),
    (OWN.replace("Audience.CUTTER", "'cutter'").format("'a', drills, {'csv': as_csv}"), "document a has no valid aud"),
    (OWN.format("'drills', {}, {'csv': as_csv}"), "document drills has no valid of"),
    (
        "from panelart.documents import Need\n" + OWN.format("'drills', Need(name='stock'), {'csv': as_csv}"),
        "document drills is made from stock, which nothing gives",
    ),
    # One file, two documents: a name of ours, a pattern of ours, the same but for capitals, two of one's own.
    (OWN.format("'cutouts', drills, {'dxf': as_csv}"), "another document writes cutouts.dxf"),
    (OWN.format("'Cutouts', drills, {'dxf': as_csv}"), "another document writes Cutouts.dxf"),
    (OWN.format("'drills', LAYOUT, {'csv': as_csv}") + "DOCUMENTS += (DRILLS,)", "another document writes drills.csv"),
]  # fmt: skip


@pytest.mark.parametrize(("change", "reason"), BAD)
def test_one_that_cannot_be_used_is_refused_before_anything_is_done(
    install: Install, spec: Path, change: str, reason: str
) -> None:
    folder = install("house-documents", ENTRIES, house_documents=SOURCE + change)
    for words in (("make", "front.yaml", "-o", "out"), ("check", "front.yaml", "--write-baseline", "out")):
        done = run_within(*words, cwd=spec.parent)
        assert (done.returncode, done.stdout) == (1, "")
        told = " ".join(done.stderr.split())
        assert f"{folder}/house_documents-1.0.dist-info/entry_points.txt:2:1" in done.stderr
        assert "error: Extension house-documents cannot be loaded: entry point all: " in told
        assert reason in told
        assert "`--without house-documents`" in told
    assert not (spec.parent / "out").exists()


def test_two_packages_cannot_write_one_file(install: Install) -> None:
    install("house-documents", ENTRIES, house_documents=SOURCE)
    install("house-more", "[panelart.documents]\nall = house_more\n", house_more=SOURCE)
    with pytest.raises(
        ExtensionError, match=r"Extension house-more cannot be loaded.*another document writes drills\.csv"
    ):
        documents()
    with leaving_out(["house-more"]):
        assert documents()[-1].label == "drills"


def test_left_out_the_proof_says_so(install: Install, spec: Path) -> None:
    install("house-documents", ENTRIES, house_documents="1 / 0")
    done = run_within("make", "front.yaml", "-o", "out", "--without", "house-documents", cwd=spec.parent)
    assert done.returncode == 0
    told = "Checked without house-documents (omitted by `--without`)"
    assert told in done.stdout
    pages = pdfium.PdfDocument((spec.parent / "out" / "proof.pdf").read_bytes())
    assert told in " ".join(" ".join(page.get_textpage().get_text_range() for page in pages).split())
    facts = json.loads((spec.parent / "out" / "findings.json").read_text("utf-8"))
    assert facts["without"] == ["house-documents"]


LAST = "return text.getvalue().encode()"
FAMILY = (
    "DOCUMENTS = (family('drills-*', {}, {{'csv': as_csv}}, says=drill_list(), audience=(Audience.CUTTER,), when={}),)"
)


@pytest.mark.parametrize(
    ("change", "reason", "line"),
    [
        (SOURCE.replace("part.ref, part.at.x", "part.ref, part.att.x"), "AttributeError", "part.att.x"),
        (SOURCE.replace(LAST, "return text.getvalue()"), "drills.csv is str, not byt", ""),
        (SOURCE.replace(LAST, "raise OSError('disk\\ngone')"), "OSError: disk", "raise OS"),
        (SOURCE.replace(LAST, "import house_gone"), "ModuleNotFoundError", "import house_gone"),
        (
            SOURCE + FAMILY.format("need(LAYOUT)(lambda _: {'drills-../x': []})", "ALWAYS"),
            "name 'drills-../x' cannot be the name of a file", "",
        ),
        (
            SOURCE + "\ndef holds(results):\n    return results.bent\n\n"
            + FAMILY.format("drills", "When(says=drill_list(), why_not=None, holds=holds)"),
            "AttributeError", "results.bent",
        ),
        (
            SOURCE + FAMILY.format("need(LAYOUT)(lambda _: {'drills-a': []})", "ALWAYS")
            + "\nDOCUMENTS += (document('drills-a', LAYOUT, {'csv': as_csv}, says=drill_list(), "
            "audience=(Audience.CUTTER,)),)",
            "another document writes drills-a.csv", "",
        ),
    ],
)  # fmt: skip
def test_one_that_fails_while_it_is_written_is_told_by_name_and_nothing_is_written(
    install: Install, spec: Path, change: str, reason: str, line: str
) -> None:
    folder = install("house-documents", ENTRIES, house_documents=change)
    done = run_within("make", "front.yaml", "-o", "out", cwd=spec.parent)
    told = " ".join(done.stderr.split())
    assert (done.returncode, done.stdout) == (1, "")
    assert "error: Document house-documents/drills" in told
    assert f" failed: {reason}" in told
    if line:
        number = next(at for at, text in enumerate(change.splitlines(), 1) if line in text)
        assert f"{folder}/house_documents.py:{number}:1" in done.stderr
    assert not (spec.parent / "out").exists()
    assert run_within("check", "front.yaml", cwd=spec.parent).returncode == 0  # writes no documents
