"""What every format says it was made from, read back by `same` and by readers that are not ours."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import ezdxf
import pikepdf
import pytest
from msgspec.structs import replace
from PIL import Image

from panelart.pipeline import build, read, write
from panelart.writers.states import State, state_of
from tests.commands import run_within

DEMO = Path(__file__).parents[2] / "demo" / "relay-tray.yaml"


@pytest.fixture(scope="module")
def made() -> tuple[State, dict[str, bytes]]:
    panel = read(DEMO)
    return State(number=panel.number, revision=panel.revision, spec=panel.fingerprint), write(build(panel), rear=True)


def test_every_file_of_a_panel_says_its_state(made) -> None:
    state, files = made
    assert {name: state_of(name, data) for name, data in files.items()} == dict.fromkeys(files, state)
    assert {name.rpartition(".")[2] for name in files} == {"csv", "dxf", "json", "pdf", "png", "svg"}


def test_other_readers_see_it_too(made) -> None:
    state, files = made
    assert json.loads(files["findings.json"])["panel"]["spec"] == state.spec
    for name in ("holes.csv", "parts.csv", "inspection.csv", "plates.csv"):
        rows = list(csv.DictReader(io.StringIO(files[name].decode())))
        assert {(row["panel"], row["revision"], row["spec"]) for row in rows} == {("NW-340-02", "A", state.spec)}
    assert Image.open(io.BytesIO(files["panel.png"])).text["Spec"] == state.spec
    with pikepdf.open(io.BytesIO(files["blank.pdf"])) as file:
        assert str(file.docinfo["/Spec"]) == state.spec
        assert file.open_metadata()["dc:source"] == f"spec {state.spec}"
    text = files["blank.dxf"].decode()
    assert text.startswith("999\nNumber: NW-340-02\n999\nRevision: A\n999\nSpec: ")
    assert ezdxf.read(io.StringIO(text)).audit().errors == []


@pytest.mark.parametrize(
    ("name", "data"),
    [
        ("a.csv", b"x,y\n1,2\n"),
        ("a.csv", b"\xff\xfe"),
        ("a.json", b"[1"),
        ("a.json", b"[]"),
        ("a.svg", b"<svg><svg data-spec='x'/></svg>"),
        ("a.png", b"\x89PNG\r\n\x1a\n\0\0"),
        ("a.png", b"GIF89a"),
        ("a.pdf", b"%PDF-1.7 nothing"),
        ("a.dxf", b"0\nSECTION\n"),
        ("notes.txt", b"spec 1234"),
        ("README", b""),
    ],
)
def test_files_that_say_nothing(name: str, data: bytes) -> None:
    assert state_of(name, data) is None


def run(*words: str | Path):
    return run_within("outdated", *words, cwd=Path.cwd())


def filled(folder: Path, files: dict[str, bytes]) -> Path:
    folder.mkdir()
    for name, data in files.items():
        (folder / name).write_bytes(data)
    return folder


def test_a_folder_of_one_state(made, tmp_path: Path) -> None:
    state, files = made
    folder = filled(tmp_path / "out", files | {"notes.txt": b"to be coated on Monday"})
    result = run(folder, "--spec", DEMO)
    assert result.returncode == 0
    assert result.stdout == f"NW-340-02 rev A spec {state.spec}: {len(files)} files\n1 file without a state\n"


def test_a_file_left_over_from_another_state_is_told(made, tmp_path: Path) -> None:
    state, files = made
    text = DEMO.read_text(encoding="utf-8").replace("revision: A", "revision: B")
    (tmp_path / "tray.yaml").write_text(text, encoding="utf-8")
    newer = write(build(read(tmp_path / "tray.yaml")))
    del newer["blank.dxf"]
    folder = filled(tmp_path / "out", files | newer)
    result = run(folder)
    assert result.returncode == 1
    assert f"rev A spec {state.spec}" in result.stdout
    assert "blank.dxf" in result.stdout
    assert "mixed" in result.stdout
    assert run(filled(tmp_path / "old", files), "--spec", tmp_path / "tray.yaml").returncode == 1


def test_a_panel_without_a_number_is_of_one_state(tmp_path: Path) -> None:
    """Lists name it by its title, other files by nothing; the fingerprint is the same."""
    text = DEMO.read_text(encoding="utf-8").replace("  number: NW-340-02\n", "")
    (tmp_path / "tray.yaml").write_text(text, encoding="utf-8")
    panel = read(tmp_path / "tray.yaml")
    assert panel.number == ""
    result = run(filled(tmp_path / "out", write(build(panel))))
    assert result.returncode == 0
    assert result.stdout.count("\n") == 1


def test_a_folder_that_says_nothing(tmp_path: Path) -> None:
    assert run(tmp_path).returncode == 2
    assert run(tmp_path / "nowhere").returncode == 2


def test_states_sort_and_read() -> None:
    state = State(number="A-1", revision="", spec="0123456789")
    assert str(state) == "A-1 spec 0123456789"
    assert state < replace(state, number="A-2")
