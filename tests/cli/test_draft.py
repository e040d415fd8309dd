"""`panelart draft`, `arrange`, `bom` and `check --components` as they are run."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from PIL import Image

from panelart.drafting.draft import drafted_places
from panelart.pipeline import read
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


BOARD = "Ref,Value,Footprint\nR1,10k,Resistor_SMD:R_0603\nC1,100n,Capacitor_SMD:C_0603\n"


def test_a_list_without_parts_of_a_panel_gives_a_blank_panel_with_its_rows_as_remarks(tmp_path: Path) -> None:
    (tmp_path / "board.csv").write_text(BOARD, encoding="utf-8")
    done = run_within("draft", "board.csv", "-o", "blank.yaml", "--size", "160x", cwd=tmp_path)
    assert done.returncode == 1
    assert "No part of the front is known; a blank panel of 160 × 60 mm was written" in done.stdout
    text = (tmp_path / "blank.yaml").read_text("utf-8")
    assert "#   row 2: 'R1 10k Resistor_SMD:R_0603': resistors" in text
    assert "#   row 3: 'C1 100n Capacitor_SMD:C_0603': capacitors" in text
    assert run_within("check", "blank.yaml", cwd=tmp_path).returncode == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == ["blank.yaml", "board.csv"]


def test_a_list_of_questions_alone_gives_a_panel_of_their_size_and_then_their_parts(tmp_path: Path) -> None:
    (tmp_path / "one.csv").write_text("Ref,Description\nS1,rotary switch\n", encoding="utf-8")
    done = run_within("draft", "one.csv", "--spreadsheet", cwd=tmp_path)
    assert done.returncode == 1
    assert sorted(path.name for path in tmp_path.iterdir()) == [
        "one-answers.pdf", "one-answers.xlsx", "one-answers.yaml", "one.csv", "one.yaml",
    ]  # fmt: skip
    assert run_within("check", "one.yaml", cwd=tmp_path).returncode == 0
    before = (tmp_path / "one.yaml").read_text("utf-8")
    sheet = tmp_path / "one-answers.yaml"
    sheet.write_text(sheet.read_text("utf-8").replace('part: "?"', "part: 1"), encoding="utf-8")
    again = run_within("draft", "one.csv", "--answers", sheet, "--force", cwd=tmp_path)
    assert again.returncode == 0, again.stdout
    after = (tmp_path / "one.yaml").read_text("utf-8")
    place = "{ref: S1, part: rotary-m10, at: [20, 20]"
    assert f"  # - {place}" in before
    assert f"  - {place}" in after


def test_the_files_of_questions_are_the_same_bytes_every_time(tmp_path: Path) -> None:
    (tmp_path / "one.csv").write_text("Ref,Description\nS1,rotary switch\n", encoding="utf-8")
    made = []
    for _ in range(2):
        run("draft", "one.csv", "--spreadsheet", "--force", cwd=tmp_path)
        made.append({path.name: path.read_bytes() for path in tmp_path.iterdir()})
    assert made[0] == made[1]


ASKING = "Ref,Description,Notes\nS1,toggle switch 12 mm,\nS2,rotary switch,\nJ1,mains inlet,\n"


def contents(folder: Path) -> dict[str, bytes | None]:
    return {path.name: path.read_bytes() if path.is_file() else None for path in folder.iterdir()}


@pytest.mark.parametrize(
    "stuck", ["list.yaml", "list-2.yaml", "list-alternatives.png", "list-answers.pdf", "list-answers.xlsx"]
)
def test_what_cannot_be_written_whole_is_not_written_at_all(tmp_path: Path, stuck: str) -> None:
    """A folder in the place of any one of the files, which no rename replaces (POSIX, rename: EISDIR)."""
    (tmp_path / "list.csv").write_text(ASKING, encoding="utf-8")
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / stuck).mkdir()
    if stuck != "list.yaml":
        (tmp_path / "out" / "list.yaml").write_bytes(b"panelart: 1  # earlier\n")
    before = contents(tmp_path / "out")
    words = ("draft", "list.csv", "-o", "out/list.yaml", "--spreadsheet", "--alternatives", "2", "--force")
    done = run_within(*words, cwd=tmp_path)
    assert done.returncode != 0
    assert stuck in done.stderr
    assert contents(tmp_path / "out") == before


def test_answers_in_another_folder_are_written_with_the_spec_or_not_at_all(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_text(ASKING, encoding="utf-8")
    (tmp_path / "house").mkdir()
    answers = tmp_path / "house" / "answers.yaml"
    answers.write_text("answers:\n  - {words: [rotary switch], part: rotary-m10}\n", encoding="utf-8")
    (tmp_path / "list.yaml").mkdir()
    before = contents(tmp_path / "house")
    refused = run_within("draft", "list.csv", "--answers", answers, "--force", cwd=tmp_path)
    assert refused.returncode != 0
    assert contents(tmp_path / "house") == before
    (tmp_path / "list.yaml").rmdir()
    assert run_within("draft", "list.csv", "--answers", answers, cwd=tmp_path).returncode == 0
    assert [one["words"] for one in answers_in(answers)] == [["rotary switch"], ["mains inlet"]]


def answers_in(path: Path) -> list[dict[str, object]]:
    """The answers as PyYAML reads them."""
    found: list[dict[str, object]] = yaml.safe_load(path.read_bytes())["answers"]
    return found


def test_new_questions_are_added_to_the_answers_given_and_all_else_stays(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_text(ASKING, encoding="utf-8")
    house = tmp_path / "house.yaml"
    given = "# ours\nanswers:\n  # as always\n  - words: [rotary switch]  # M10\n    part: rotary-m10\n"
    house.write_text(given, encoding="utf-8")
    done = run_within("draft", "list.csv", "--answers", "house.yaml", cwd=tmp_path)
    assert "house.yaml: 1 question to answer" in done.stdout
    text = house.read_text("utf-8")
    assert text.startswith(given)
    assert [(one["words"], one["part"]) for one in answers_in(house)] == [
        (["rotary switch"], "rotary-m10"), (["mains inlet"], "?"),
    ]  # fmt: skip
    assert "  # 2: J1 (rows 4)" in text.splitlines()
    assert not (tmp_path / "list-answers.yaml").exists()
    again = run_within("draft", "list.csv", "--answers", "house.yaml", "--force", cwd=tmp_path)
    assert "house.yaml: 1 question to answer" in again.stdout
    assert house.read_text("utf-8") == text, "what is asked already is not asked twice"
    house.write_text(text.replace('part: "?"', "part: 2  # the earthed one"), encoding="utf-8")
    (tmp_path / "list.csv").write_text(ASKING + "M1,panel meter,\nS3,rotary switch,\n", encoding="utf-8")
    run_within("draft", "list.csv", "--answers", "house.yaml", "--force", cwd=tmp_path)
    third = house.read_text("utf-8")
    assert "part: 2  # the earthed one" in third
    assert [(one["words"], one["part"]) for one in answers_in(house)] == [
        (["rotary switch"], "rotary-m10"), (["mains inlet"], 2), (["panel meter"], "?"),
    ]  # fmt: skip
    kept = {one["spec"]: set(one["places"]) for one in yaml.safe_load(third)["rooms"]}
    assert kept == {"list.yaml": {"M1"}}


def test_a_group_of_one_part_keeps_its_place_beside_a_part_that_has_none(tmp_path: Path) -> None:
    """A group whose only part has its place is no group to be placed; there was a fault in that."""
    rows = "Ref,Description,Group\nS1,toggle switch 12 mm,Alone\nS2,rotary switch,Others\nJ1,BNC socket,Others\n"
    (tmp_path / "list.csv").write_text(rows, encoding="utf-8")
    run_within("draft", "list.csv", cwd=tmp_path)
    text = (tmp_path / "list-answers.yaml").read_text("utf-8")
    (tmp_path / "list-answers.yaml").write_text(text.partition("rooms:")[0].replace('part: "?"', "part: 1"), "utf-8")
    (tmp_path / "list.csv").write_text(rows + "H1,LED 5 mm bezel,Others\n", encoding="utf-8")
    done = run_within("draft", "list.csv", "--answers", "list-answers.yaml", "--force", cwd=tmp_path)
    assert not done.stderr
    assert {part.ref for part in read(tmp_path / "list.yaml").parts} == {"S1", "S2", "J1", "H1"}


def test_rows_that_come_to_a_question_are_added_to_it(tmp_path: Path) -> None:
    rows = "Ref,Description,Order code\nS2,rotary switch,RS-7\n"
    (tmp_path / "list.csv").write_text(rows, encoding="utf-8")
    run_within("draft", "list.csv", cwd=tmp_path)
    (tmp_path / "list.csv").write_text(rows + "S3,rotary switch,RS-8\n", encoding="utf-8")
    run_within("draft", "list.csv", "--answers", "list-answers.yaml", "--force", cwd=tmp_path)
    (one,) = answers_in(tmp_path / "list-answers.yaml")
    assert (one["words"], one["numbers"], one["part"]) == (["rotary switch"], ["RS-7", "RS-8"], "?")


def test_the_answers_beside_the_spec_are_those_that_are_added_to(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_text(ASKING, encoding="utf-8")
    run_within("draft", "list.csv", cwd=tmp_path)
    house = tmp_path / "house.yaml"
    house.write_text("answers:\n  - {words: [rotary switch], part: rotary-m10}\n", encoding="utf-8")
    (tmp_path / "list.csv").write_text(ASKING + "M1,panel meter,\n", encoding="utf-8")
    before = house.read_bytes()
    run_within("draft", "list.csv", "--answers", "list-answers.yaml", "--answers", house, "--force", cwd=tmp_path)
    assert house.read_bytes() == before
    words = [one["words"] for one in answers_in(tmp_path / "list-answers.yaml")]
    assert words == [["rotary switch"], ["mains inlet"], ["panel meter"]]


def test_answers_that_may_not_be_written_are_only_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The system's answer is stood in for: to root every file may be written."""
    (tmp_path / "list.csv").write_text(ASKING, encoding="utf-8")
    house = tmp_path / "house.yaml"
    house.write_text("answers:\n  - {words: [rotary switch], part: rotary-m10}\n", encoding="utf-8")
    before = house.read_bytes()
    monkeypatch.setattr("os.access", lambda path, _: Path(path) != house)
    run_within("draft", "list.csv", "--answers", house, cwd=tmp_path)
    assert house.read_bytes() == before
    assert [one["words"] for one in answers_in(tmp_path / "list-answers.yaml")] == [["mains inlet"]]


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ((), "Type panelart draft list.csv --side front --view; then the same with --side rear."),
        (("--side", "front", "--alternatives", "2"), "The page shows one arrangement only"),
    ],
)
def test_what_a_page_cannot_show_is_refused_before_anything_is_written(
    tmp_path: Path, more: tuple[str, ...], says: str
) -> None:
    (tmp_path / "list.csv").write_text(SIDED, encoding="utf-8")
    done = run_within("draft", "list.csv", "--view", *more, cwd=tmp_path)
    assert done.returncode == 2
    assert says in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["list.csv"]


@pytest.mark.parametrize("there", [["list.yaml"], ["list.yaml", "list-answers.pdf"]])
def test_a_spec_without_answers_beside_it_is_no_draft_to_go_on_with(tmp_path: Path, there: list[str]) -> None:
    (tmp_path / "list.csv").write_text(ASKING, encoding="utf-8")
    for name in there:
        (tmp_path / name).write_text("panelart: 1\n", encoding="utf-8")
    before = contents(tmp_path)
    done = run_within("draft", "list.csv", "--view", cwd=tmp_path)
    assert done.returncode == 2
    assert "exists" in done.stderr
    assert contents(tmp_path) == before


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


SIDED = """\
Kennung;Beschreibung;Seite;Gruppe;Beschriftung
S1;toggle switch 12 mm;vorn;Netz;Ein
H1;pilot light 22 mm;vorn;Netz;Betrieb
J1;BNC socket;hinten;;Ausgang
J2;IEC C14 inlet;Rückseite;;230 V AC 50 Hz 1 A
"""


def test_a_side_column_makes_front_and_rear_one_set_that_is_as_listed(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_text(SIDED, encoding="utf-8")
    done = run("draft", "list.csv", "-o", "box.yaml", cwd=tmp_path)
    assert done.returncode == 0, done.stdout + done.stderr
    sizes = [line.partition(";")[0].partition(" on ")[2] for line in done.stdout.splitlines()[-2:]]
    assert done.stdout.splitlines()[-2].startswith("front: 2 parts on ")
    assert done.stdout.splitlines()[-1].startswith("rear: 2 parts on ")
    assert sizes[0] == sizes[1]
    checked = run("check", "box.yaml", "--components", "list.csv", cwd=tmp_path)
    assert "list.csv: all 4 parts are as listed" in checked.stdout
    assert checked.returncode == 0, checked.stdout
    text = (tmp_path / "box.yaml").read_text("utf-8")
    (tmp_path / "box.yaml").write_text(text.replace("legend: Ein", "legend: Aus"), "utf-8")
    assert run("check", "box.yaml", "--components", "list.csv", cwd=tmp_path).returncode == 1
    made = run("make", "box.yaml", "-o", "out", "--only", "cutouts.dxf,parts", cwd=tmp_path)
    assert made.returncode == 0, made.stdout
    assert {path.name for path in (tmp_path / "out").iterdir()} == {"front", "rear", "parts.csv"}
    assert run("check", "box.yaml", "--components", "out/parts.csv", cwd=tmp_path).returncode == 0


@pytest.mark.parametrize(("more", "parts"), [((), {"J1", "J2"}), (("--side", "rear"), {"J1", "J2"})])
def test_one_side_alone_is_one_panel(tmp_path: Path, more: tuple[str, ...], parts: set[str]) -> None:
    rows = SIDED if more else "".join(line for line in SIDED.splitlines(keepends=True) if "vorn" not in line)
    (tmp_path / "list.csv").write_text(rows, encoding="utf-8")
    assert run_within("draft", "list.csv", "-o", "rear.yaml", *more, cwd=tmp_path).returncode == 0
    assert {part.ref for part in read(tmp_path / "rear.yaml").parts} == parts


def test_answers_keep_the_places_of_both_panels(tmp_path: Path) -> None:
    rows = f"{SIDED}S2;rotary switch;vorn;;\nF1;blade fuse holder;hinten;;\n"
    (tmp_path / "list.csv").write_text(rows, encoding="utf-8")
    run_within("draft", "list.csv", "-o", "box.yaml", cwd=tmp_path)
    before = places(tmp_path / "box.yaml")
    given = (
        "answers:\n  - {words: [rotary switch], part: rotary-m10}\n  - {words: [blade fuse holder], part: fuse-5x20}\n"
    )
    (tmp_path / "given.yaml").write_text(given, encoding="utf-8")
    again = ("draft", "list.csv", "-o", "box.yaml", "--answers", "given.yaml", "--force")
    assert run_within(*again, cwd=tmp_path).returncode == 0
    after = places(tmp_path / "box.yaml")
    assert before["front"][0] == before["rear"][0] == (104.0, 64.0)
    assert after["front"][0] == after["rear"][0] == (104.0, 84.0), "no room was kept for F1: both are higher"
    for side in ("front", "rear"):
        assert before[side][1].items() <= after[side][1].items()
    checked = run_within("check", "box.yaml", "--components", "list.csv", "--answers", "given.yaml", cwd=tmp_path)
    assert "all 6 parts are as listed" in checked.stdout


def places(spec: Path) -> dict[str, tuple[tuple[float, float] | None, dict[str, tuple[float, float]]]]:
    """The size and the places of each panel of a set."""
    text = spec.read_text(encoding="utf-8")
    return {side: drafted_places(text, spec.name, side) for side in ("front", "rear")}
