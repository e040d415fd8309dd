"""`panelart draft`, `arrange`, `bom` and `check --components` as they are run."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image

from tests.commands import run, run_within

ROOT = Path(__file__).parents[2]
LISTS = ROOT / "tests" / "drafting" / "lists"


def test_from_a_list_to_a_panel_that_is_as_listed(tmp_path: Path) -> None:
    """A list becomes a spec, which passes its check and holds against the list; in two processes the same bytes."""
    parts = ROOT / "demo" / "bench-supply-parts.csv"
    done = run("draft", parts, "--size", "260x110", "-o", "a.yaml", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert done.stdout.splitlines()[-1].startswith("16 parts on 260 × 110 mm; 0 errors, 0 warnings")
    run("draft", parts, "--size", "260x110", "-o", "b.yaml", cwd=tmp_path)
    assert (tmp_path / "a.yaml").read_bytes() == (tmp_path / "b.yaml").read_bytes()
    checked = run("check", "a.yaml", "--components", parts, cwd=tmp_path)
    assert checked.returncode == 0, checked.stdout
    assert "all 16 parts are as listed" in checked.stdout


def test_alternatives_come_as_specs_and_one_picture(tmp_path: Path) -> None:
    done = run("draft", LISTS / "10-double-entries.csv", "-o", "x.yaml", "--alternatives", "3", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert sorted(path.name for path in tmp_path.iterdir()) == [
        "x-2.yaml", "x-3.yaml", "x-alternatives.png", "x.yaml",
    ]  # fmt: skip
    assert Image.open(tmp_path / "x-alternatives.png").width > 800


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        pytest.param(
            ("draft", "none.csv"), 2, "Cannot read the component list: no such file",
            id="words0-2-the list cannot be read: no such file"),
        pytest.param(
            ("draft", LISTS / "01-lamp-box.csv", "--size", "20x20", "-o", "x.yaml"), 2, "do not fit on 20 × 20 mm",
            id="words1-2-do not fit on 20 x 20 mm"),
        pytest.param(
            ("draft", LISTS / "01-lamp-box.csv", "--size", "big", "-o", "x.yaml"), 2, "'big' is not a panel size",
            id="words2-2-'big' is no size"),
        pytest.param(
            ("draft", LISTS / "01-lamp-box.csv", "--side", "rear", "-o", "x.yaml"), 2, "No part of the rear is known",
            id="words3-2-no part of the rear is known"),
        pytest.param(
            ("draft", LISTS / "01-lamp-box.csv", "--grid", "0", "-o", "x.yaml"), 2, "is not a grid step",
            id="words4-2-is no grid"),
        pytest.param(
            ("draft", LISTS / "01-lamp-box.csv", "-o", "there.yaml"), 2, "'there.yaml' exists",
            id="words5-2-is there already"),
        pytest.param(
            ("draft", LISTS / "01-lamp-box.csv", "-o", "x.txt"), 2, "Accepted: .yaml",
            id="words6-2-does not end in .yaml"),
        pytest.param(
            ("draft", "there.yaml", "-o", "x.yaml"), 2, "No header row", id="words7-2-no row of headers"),
        pytest.param(("arrange", "none.yaml"), 2, "Cannot read the spec", id="words8-2-cannot be read"),
        pytest.param(("bom", "none.yaml"), 2, "Cannot read the spec", id="words9-2-cannot be read"),
        pytest.param(
            ("check", ROOT / "demo" / "bench-supply.yaml", "--components", "none.csv"), 2, "Cannot read",
            id="words10-2-cannot be read"),
    ],
)  # fmt: skip
def test_what_cannot_be_done_is_told_and_nothing_is_written(
    tmp_path: Path, words: tuple[object, ...], code: int, said: str
) -> None:
    (tmp_path / "there.yaml").write_text("a: 1\n")
    done = run_within(*words, cwd=tmp_path)
    assert done.returncode == code
    assert said in " ".join((done.stdout + done.stderr).replace("│", " ").split())
    assert "Traceback" not in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["there.yaml"]
    assert (tmp_path / "there.yaml").read_text() == "a: 1\n"


def test_arrange_shows_what_it_changes_and_writes_only_that(tmp_path: Path) -> None:
    spec = tmp_path / "bench.yaml"
    text = (ROOT / "demo" / "bench-supply.yaml").read_text(encoding="utf-8")
    bare = text.replace("part: toggle-12, at: [28, 32]", "part: toggle-12")
    spec.write_text(bare, encoding="utf-8")
    shown = run("arrange", spec, "--dry-run", cwd=tmp_path)
    assert spec.read_text(encoding="utf-8") == bare
    done = run("arrange", spec, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert done.stdout.replace(f"{spec}\n", "") == shown.stdout
    changed = [
        (old, new)
        for old, new in zip(bare.splitlines(), spec.read_text(encoding="utf-8").splitlines(), strict=True)
        if old != new
    ]
    assert len(changed) == 1
    assert changed[0][1].startswith("  - {ref: S1, part: toggle-12, at: [")
    again = run("arrange", spec, cwd=tmp_path)
    assert "every part has a position" in again.stdout


def test_a_list_for_purchasing(tmp_path: Path) -> None:
    spec = ROOT / "demo" / "bench-supply.yaml"
    shown = run("bom", spec, cwd=tmp_path)
    assert "   3  part          socket-4:" in shown.stdout
    for name in ("buy.csv", "buy.xlsx"):
        assert run("bom", spec, "-o", name, cwd=tmp_path).returncode == 0
    assert (tmp_path / "buy.csv").read_text(encoding="utf-8").startswith("kind,part,title,quantity,total,refs")
    assert run("bom", spec, "-o", "buy.doc", cwd=tmp_path).returncode == 2


def test_a_panel_that_is_not_as_listed_fails(tmp_path: Path) -> None:
    (tmp_path / "parts.csv").write_text("ref,part\nS1,toggle-mini\n")
    done = run("check", ROOT / "demo" / "bench-supply.yaml", "--components", "parts.csv", cwd=tmp_path)
    assert done.returncode == 1
    assert "different part: S1 is toggle-12 on the panel; row 2 of the list has toggle-mini" in done.stdout
