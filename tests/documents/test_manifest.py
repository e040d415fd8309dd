"""The manifest against the files that are really written: what the oracle holds, README, the workshop's papers."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

from panelart.documents import ALWAYS, Audience, Results, document, need, with_further
from panelart.documents.document import files_of
from panelart.documents.manifest import DOCUMENTS, parts
from panelart.documents.needs import DATE, INSPECTION, LAYOUT, PANELS
from panelart.documents.table import by_audience, table
from panelart.model.layout import Layout
from panelart.pipeline import lay_out, read
from panelart.sheets.stations import stations

ROOT = Path(__file__).parents[2]
EXPECTED = ROOT / "tests" / "oracle" / "expected"
OTHERS = ("printed.txt", ".placement.json")
"""Files of the oracle that are none of `make`'s."""


def files_of_make() -> set[str]:
    """The names of all files that the oracle holds of `make`, without the folders of sets and languages."""
    names: set[str] = set()
    for path in EXPECTED.glob("*.txt"):
        for line in path.read_text("utf-8").splitlines():
            name = line.partition(";")[0]
            folder, _, file = name.rpartition("/")
            if not line.startswith("#") and (not folder or folder.startswith("make") or folder in {"front", "rear"}):
                names.add(file)
    return {name for name in names if not name.endswith(OTHERS)}


def test_every_file_the_oracle_holds_is_of_one_document() -> None:
    names = files_of_make()
    assert {"cutouts.dxf", "proof.pdf", "mask-rear.svg", "blank.pdf", "laser.png", "film-base.pdf"} <= names
    for name in sorted(names):
        found = [one for one in DOCUMENTS if one.has(name) and not one.open and PANELS not in one.of.bases]
        assert len(found) == (0 if name == "panels.csv" else 1), name


def test_every_document_is_written_for_some_panel_that_the_oracle_holds() -> None:
    names = files_of_make()
    for one in DOCUMENTS:
        for pattern in () if one.open else one.file_names:
            assert any(re.fullmatch(pattern.replace("*", ".+"), name) for name in names), pattern


def test_the_table_in_readme_is_current() -> None:
    """`python -m panelart.documents --write README.md` makes it."""
    text = (ROOT / "README.md").read_text("utf-8")
    (kept,) = re.findall(r"<!-- files -->\n(.*?)\n<!-- /files -->", text, flags=re.DOTALL)
    assert kept == table()


def test_the_command_prints_the_table_or_puts_it_between_its_marks(tmp_path: Path) -> None:
    page = tmp_path / "page.md"
    page.write_text("# Files\n\n<!-- files -->\n| old |\n<!-- /files -->\n\nEnd\n", encoding="utf-8")
    command = [sys.executable, "-m", "panelart.documents"]
    made = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    assert made.stdout == table() + "\n"
    written = subprocess.run([*command, "--write", str(page)], cwd=ROOT, capture_output=True, text=True, check=True)
    assert written.stdout == ""
    assert page.read_text("utf-8") == f"# Files\n\n<!-- files -->\n{table()}\n<!-- /files -->\n\nEnd\n"


def test_files_are_listed_once_each_in_the_order_of_the_work() -> None:
    names = (
        *("holes.csv", "cutouts.dxf", "artwork.pdf", "blank.dxf", "mask-front.dxf", "film-white.pdf"),
        *("proof.pdf", "panel.json", "panel.png", "overlay-cut.dxf", "overlay.pdf", "laser.png", "strange.txt"),
    )
    listed = {str(title): files for title, files in by_audience(names)}
    assert listed == {
        "Printing": ("artwork.pdf", "film-white.pdf"),
        "Engraving, laser marking": ("laser.png",),
        "Label film": ("overlay-cut.dxf", "overlay.pdf"),
        "Cutting": ("cutouts.dxf", "blank.dxf"),
        "Coating": ("mask-front.dxf",),
        "Approval": ("proof.pdf", "panel.png"),
        "Other programs": ("holes.csv", "panel.json", "strange.txt"),
    }
    assert list(listed) == [str(one.title) for one in Audience if str(one.title) in listed]


@pytest.mark.few(2)
@pytest.mark.parametrize(
    "demo", ["relay-tray", "rear-io", "climate-chamber", "pump-station", "valve-stand", "bench-supply", "router-rear"]
)
def test_the_stations_of_the_build_sheet_work_from_files_that_are_made(demo: str) -> None:
    layout = lay_out(read(ROOT / "demo" / f"{demo}.yaml"))
    named = {file for station in stations(layout) for file in station.files}
    made = {file.name for file in files_of(DOCUMENTS, Results({LAYOUT: layout, INSPECTION: None, DATE: ""}))}
    assert {"cutouts.dxf", "artwork.pdf", "inspection.csv"} & named
    assert named <= made


# --- documents of other packages


@need(LAYOUT)
def _refs(layout: Layout) -> tuple[str, ...]:
    return tuple(part.ref for part in layout.panel.parts)


def _text(refs: tuple[str, ...], _: Results) -> bytes:
    return "\n".join(refs).encode()


def further(name: str, ending: str):
    return document(name, _refs, {ending: _text}, says=parts(), audience=(Audience.INSPECTOR,), when=ALWAYS)


def test_a_further_document_stands_behind_our_own() -> None:
    own = further("stickers", "txt")
    assert with_further([own]) == (*DOCUMENTS, own)
    assert dict(by_audience(["stickers.txt"], with_further([own]))) == {Audience.INSPECTOR.title: ("stickers.txt",)}
    assert "| `stickers.txt` | Inspection |" in table(with_further([own]))


@pytest.mark.parametrize("name", ["cutouts.dxf", "film-*.pdf"])
def test_a_further_document_cannot_take_the_place_of_another(name: str) -> None:
    stem, _, ending = name.rpartition(".")
    with pytest.raises(ValueError, match=re.escape(name)):
        with_further([further(stem, ending)])
    assert with_further([further(stem, "txt")])
