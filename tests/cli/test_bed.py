"""`panelart bed` as a printer types it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.commands import run, run_within

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "demo" / "bench-supply.yaml"


def test_a_dozen_takes_two_loads_and_the_same_bytes_each_time(tmp_path: Path) -> None:
    for folder in ("one", "two"):
        done = run("bed", DEMO, "--bed", "600x400", "--quantity", "12", "-o", folder, cwd=tmp_path)
        assert done.returncode == 0, done.stderr
        assert "12 pieces in 2 loads, 1 jig" in done.stdout
    names = sorted(path.name for path in (tmp_path / "one").iterdir())
    assert names == ["bed-1-2.pdf", "bed.csv", "jig-1.dxf", "jig-1.pdf", "jig-1.svg"]
    assert all((tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes() for name in names)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        pytest.param(
            ("--bed", "200x100"),
            "maximum 170 × 70 mm inside the margin of the bed",
            id="words0-inside its margin the bed has 170 x 70 mm",
        ),
        (("--bed", "600x400", "-n", "1,2"), "2 numbers for 1 panels"),
        (("--bed", "600x400", "-n", "0"), "--quantity"),
        (("--bed", "600x400", "-n", "many"), "--quantity"),
        (("--bed", "600x400", "-n", "999999"), "100000"),
        (("--bed", "infxnan"), "600x400"),
        (("--bed", "600x400", "--gap", "nan"), "--gap"),
        pytest.param(("--bed", "20x20", "--margin", "15"), "0 × 0", id="words7-0 x 0"),
    ],
)
def test_what_cannot_be_laid_is_2_and_writes_nothing(tmp_path: Path, words, says) -> None:
    done = run_within("bed", DEMO, "-o", "out", *words, cwd=tmp_path)
    assert done.returncode == 2, done.stdout
    assert says in " ".join(done.stderr.replace("│", " ").split())
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "out").exists()


PLATE = """\
panelart: 1
panel:
  title: Plate
  size: [80, 40]
  sheet: {material: aluminium, thickness: 2}
  coat: {kind: none, colour: "#E8E8E8"}
marking:
  process: digital-print
  ink: {name: black, colour: "#000000"}
  lettering: {cap_height: 3}
  viewing_distance: 500
variables:
  serial: {counter: {first: 7, digits: 4}}
  owner: {example: Hall 4}
texts:
  - {text: "{owner} {serial}", at: [8, 18]}
parts:
  - {ref: H1, part: screw-m4, at: [70, 8]}
"""


def test_a_run_is_taken_up_where_it_ended(tmp_path: Path) -> None:
    (tmp_path / "plate.yaml").write_text(PLATE, encoding="utf-8")
    (tmp_path / "rows.csv").write_text("owner\n" + "Hall 4\n" * 40, encoding="utf-8")
    words = ("bed", "plate.yaml", "--bed", "300x200", "--rows", "rows.csv", "-o", "out")
    first = run(*words, cwd=tmp_path)
    assert first.returncode == 0, first.stderr
    loads = sorted((tmp_path / "out").glob("bed-*.pdf"))
    assert len(loads) > 3
    before = {path.name: path.read_bytes() for path in loads}
    loads[0].write_bytes(b"cut short")
    loads[1].unlink()
    again = run(*words, cwd=tmp_path)
    assert f"{len(loads) - 2} of {len(loads)} loads were complete and are kept" in again.stdout
    assert {path.name: path.read_bytes() for path in loads} == before
    # Another table is another run: nothing of the old one is taken for its own.
    (tmp_path / "rows.csv").write_text("owner\n" + "Hall 5\n" * 40, encoding="utf-8")
    other = run(*words, cwd=tmp_path)
    assert "complete" not in other.stdout
    assert loads[0].read_bytes() != before["bed-1.pdf" if "bed-1.pdf" in before else loads[0].name]
    lines = (tmp_path / "out" / "bed.csv").read_text(encoding="utf-8").splitlines()
    assert lines[0].endswith("serial,owner") or lines[0].endswith("owner,serial")
    assert "0007" in lines[1]
    assert "0046" in lines[40]


@pytest.mark.parametrize(
    ("table", "words", "code", "says"),
    [
        ("ownr\nHall\n", (), 2, "no column 'owner'"),
        pytest.param(
            "owner\n" + "Hall\n" * 4,
            ("-n", "5"),
            2,
            "The table has 4 rows",
            id="owner\nHall\nHall\nHall\nHall\n-words1-2-the table has 4 rows",
        ),
        ("owner\nHall\n" + "A hall with a name far too long for this plate and its neighbours\n", (), 1, "rows.csv:3"),
        pytest.param(
            None, (), 2, "--rows FILE with a column 'owner'", id="None-words3-2---data FILE with a column 'owner'"
        ),
    ],
)
def test_a_run_that_cannot_be_printed_writes_nothing(tmp_path: Path, table, words, code, says) -> None:
    (tmp_path / "plate.yaml").write_text(PLATE, encoding="utf-8")
    data = () if table is None else ("--rows", "rows.csv")
    if table is not None:
        (tmp_path / "rows.csv").write_text(table, encoding="utf-8")
    done = run_within("bed", "plate.yaml", "--bed", "300x200", *data, *words, "-o", "out", cwd=tmp_path)
    assert done.returncode == code, done.stdout
    assert says in " ".join(done.stderr.replace("│", " ").split())
    assert not (tmp_path / "out").exists()
