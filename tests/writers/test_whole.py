"""Files whole or not at all: a run is ended at every step, in one process here and by the system itself in full."""

from __future__ import annotations

import errno
import json
import os
import platform
import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from panelart.writers import disk as disks
from panelart.writers import folder_lock, settle, write_all, write_folders
from panelart.writers.disk import Disk
from panelart.writers.folder_lock import LOCK
from tests.commands import run_within
from tests.effort import some
from tests.readers import needs_strace
from tests.writers.disks import Killed, Step, Watched, content, dying, state, without_litter
from tests.writers.races import race

Set = list[tuple[Path, dict[str, bytes]]]

BOX_BEFORE = {"front/a.svg": b"old a", "front/own.txt": b"the user's", "rear/a.svg": b"old rear", "list.csv": b"old"}


def box_at(folder: Path) -> Path:
    """A set of two panels made before."""
    for name, data in BOX_BEFORE.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(data)
    return folder


def of_box(box: Path, word: bytes = b"new") -> Set:
    """Files that are replaced, a new one, and a new folder in the set."""
    return [
        (box, {"list.csv": word + b" list"}),
        (box / "front", {"a.svg": word + b" a", "b.dxf": word + b" b"}),
        (box / "rear", {"a.svg": word + b" rear"}),
        (box / "side", {"a.svg": word + b" side"}),
    ]


def of_one(box: Path, word: bytes = b"new") -> Set:
    return [(box / "front", {"a.svg": word + b" a", "b.dxf": word + b" b"})]


def of_new(box: Path, word: bytes = b"new") -> Set:
    return [(box / "made" / "now", {"a.svg": word + b" a", "b.dxf": word + b" b"})]


WRITES: dict[str, Callable[..., Set]] = {"set": of_box, "one folder": of_one, "a new folder": of_new}


def ends(wanted: Set, disk: Disk) -> bool:
    """Whether a write comes to its end on a disk."""
    try:
        write_folders(wanted, disk)
    except Killed:
        return False
    return True


def no_links(monkeypatch: pytest.MonkeyPatch) -> None:
    """A disk that knows no second names of a file, as FAT does not."""

    def refuse(*_given: object, **_named: object) -> None:
        raise PermissionError(errno.EPERM, "no links")

    monkeypatch.setattr(os, "link", refuse)


@pytest.mark.parametrize("links", [True, False], ids=["links", "no links"])
@pytest.mark.parametrize("half", [False, True], ids=["whole", "half"])
@pytest.mark.parametrize("kind", WRITES)
def test_a_run_killed_at_any_step_leaves_the_old_state_or_the_new_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, kind: str, *, half: bool, links: bool
) -> None:
    if not links:
        no_links(monkeypatch)
    whole = Watched()
    write_folders(WRITES[kind](box_at(tmp_path / "whole")), whole)
    new = state(tmp_path / "whole")
    assert len(whole.steps) > 20
    seen = set()
    every = range(len(whole.steps))
    for number in every if kind == "one folder" and links and not half else some(every, 6):
        box = box_at(tmp_path / f"{number}")
        old = state(box)
        assert not ends(WRITES[kind](box), dying(number, half=half))
        # The next command reads: it takes the folders as they are then.
        copy = tmp_path / f"{number}-read"
        shutil.copytree(box, copy)
        settle([copy, *(place for place in copy.iterdir() if place.is_dir())], Watched())
        assert state(copy) in (old, new)
        seen.add(state(copy) == new)
        # Or it writes.
        write_folders(WRITES[kind](box, b"next"), Watched())
        after = content(box)
        assert after == {**BOX_BEFORE, **_named(WRITES[kind](box, b"next"), box)}
        assert state(box)[1] == new[1]
    assert seen == {False, True}


def _named(wanted: Set, box: Path) -> dict[str, bytes]:
    return {
        (folder / name).relative_to(box).as_posix(): data for folder, files in wanted for name, data in files.items()
    }


@pytest.mark.parametrize("links", [True, False], ids=["links", "no links"])
def test_putting_right_may_be_killed_as_well(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, *, links: bool) -> None:
    if not links:
        no_links(monkeypatch)
    whole = Watched()
    write_folders(of_box(box_at(tmp_path / "whole")), whole)
    new = state(tmp_path / "whole")
    for number in some(range(1, len(whole.steps), 6), 3):
        left = box_at(tmp_path / f"{number}")
        old = state(left)
        assert not ends(of_box(left), dying(number))
        for again in range(200):
            box = tmp_path / f"{number}-{again}"
            shutil.copytree(left, box)
            try:
                settle([box, box / "front", box / "rear"], dying(again))
            except Killed:
                settle([box, box / "front", box / "rear"], Watched())
                assert state(box) in (old, new)
            else:
                break
        else:
            pytest.fail("putting right has no end")


def test_whoever_reads_one_panel_of_a_set_finds_all_of_it_in_one_state(tmp_path: Path) -> None:
    whole = Watched()
    write_folders(of_box(box_at(tmp_path / "whole")), whole)
    new = content(tmp_path / "whole")
    placed = [
        number for number, (name, path) in enumerate(whole.steps) if name == "rename" and path.parent.name == "new"
    ]
    for number in some(range(placed[0], len(whole.steps)), 5):
        box = box_at(tmp_path / f"{number}")
        ends(of_box(box), dying(number))
        settle([box / "rear"], Watched())
        assert without_litter(box) in (BOX_BEFORE, new)


def test_a_file_that_somebody_changed_since_is_left(tmp_path: Path) -> None:
    box = box_at(tmp_path)
    placed = []

    def die(_: int, step: Step) -> None:
        placed.extend([step] if step[0] == "rename" else [])
        if len(placed) > 2:
            raise Killed

    assert not ends(of_box(box), Watched(at=die))
    (box / "front" / "a.svg").write_bytes(b"by hand")
    settle([box])
    assert content(box) == {**BOX_BEFORE, "front/a.svg": b"by hand"}


def test_a_journal_gives_no_right_to_other_folders(tmp_path: Path) -> None:
    for_others = tmp_path / "others"
    for_others.mkdir()
    (for_others / "precious").write_bytes(b"precious")
    shop = tmp_path / "box" / f".panelart-{'a' * 32}"
    for part in ("new", "old"):
        (shop / part).mkdir(parents=True)
    (shop / "old" / "precious").write_bytes(b"planted")
    names = ["../others/precious", "precious", "..", ""]
    planted = [["_Entry", name, True, ""] for name in names]
    journal = ["_Journal", {"../others": planted, ".": planted, str(for_others): planted}]
    (shop / "journal").write_text(json.dumps(journal))
    settle([tmp_path / "box"])
    assert content(for_others) == {"precious": b"precious"}
    assert content(tmp_path / "box") == {"precious": b"planted"}


@pytest.mark.parametrize("journal", [b"", b"{", b"null", b'["_Journal",{".":3}]', b"\xff"])
def test_a_journal_that_is_no_journal_is_swept_away(tmp_path: Path, journal: bytes) -> None:
    box = box_at(tmp_path)
    shop = box / f".panelart-{'0' * 32}"
    shop.mkdir()
    (shop / "journal").write_bytes(journal)
    settle([box])
    assert content(box) == BOX_BEFORE


# --- Locks


@pytest.fixture
def hurried(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(folder_lock, "PATIENCE", 0.1)


def holder(**of: object) -> bytes:
    """The file of a lock, of this computer and a process that has ended if nothing else is said."""
    known = {
        "host": platform.node(),
        "started": folder_lock._started(),
        "process": ended(),
        "nonce": "f" * 32,
    }
    return json.dumps(["Holder", *{**known, **of}.values()]).encode()


def ended() -> int:
    """The number of a process that has ended."""
    done = subprocess.Popen([sys.executable, "-c", ""])
    done.wait()
    return done.pid


@pytest.mark.parametrize("left", [{}, {"started": "before"}, {"host": "a container", "process": 1}])
def test_what_a_dead_run_of_this_computer_holds_is_taken_over(tmp_path: Path, left: dict[str, object]) -> None:
    box = box_at(tmp_path)
    (box / "front" / LOCK).write_bytes(holder(**left))
    write_folders(of_one(box))
    assert content(box) == {**BOX_BEFORE, "front/a.svg": b"new a", "front/b.dxf": b"new b"}


@pytest.mark.usefixtures("hurried")
@pytest.mark.parametrize("above", [False, True])
def test_another_computer_is_told_and_left_in_peace(tmp_path: Path, *, above: bool) -> None:
    box = box_at(tmp_path)
    lock = (box if above else box / "front") / LOCK
    lock.write_bytes(holder(host="bench", started="then"))
    with pytest.raises(OSError, match=r"'bench'.*delete the file \.panelart-lock"):
        write_folders(of_one(box))
    assert content(box) == {**BOX_BEFORE, lock.relative_to(box).as_posix(): lock.read_bytes()}
    lock.unlink()
    write_folders(of_one(box))
    assert content(box)["front/a.svg"] == b"new a"


@pytest.mark.usefixtures("hurried")
def test_a_run_at_work_is_told(tmp_path: Path) -> None:
    box = box_at(tmp_path)
    with folder_lock.locked([box / "front"], Disk()):
        with pytest.raises(OSError, match=f"process {os.getpid()}") as writing:
            write_folders(of_one(box))
        with pytest.raises(OSError, match=f"process {os.getpid()}") as reading:
            settle([box / "front"])
        assert writing.value.filename == reading.value.filename == str(box / "front")
    write_folders(of_one(box))
    assert content(box)["front/a.svg"] == b"new a"


def test_where_the_system_has_no_locks_a_number_of_a_process_decides(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, hurried: None
) -> None:
    del hurried
    monkeypatch.setattr(folder_lock, "_system_lock", lambda _handle: None)
    box = box_at(tmp_path)
    (box / "front" / LOCK).write_bytes(holder())
    write_folders(of_one(box))
    (box / "front" / LOCK).write_bytes(holder(process=os.getppid()))
    with pytest.raises(OSError, match=f"process {os.getppid()}"):
        write_folders(of_one(box))


@pytest.mark.parametrize("sign", ["file", "lock"])
def test_a_race_that_no_lock_keeps_out_is_told(tmp_path: Path, sign: str) -> None:
    box = box_at(tmp_path)

    def meddle(_: int, step: Step) -> None:
        if step == ("sync_folder", box):
            target = box / "front" / ("b.dxf" if sign == "file" else LOCK)
            if target.exists():
                target.write_bytes(holder(nonce="e" * 32) if sign == "lock" else b"another's")

    with pytest.raises(OSError, match="at the same time"):
        write_folders(of_box(box), Watched(then=meddle))
    assert not [name for name in content(box) if "/new/" in name or "/old/" in name]


# --- Programs that hold a file, rights


@pytest.fixture
def held(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """Windows as another program sees to it: what is renamed is held twice before it is free."""
    real, tried = Path.replace, []

    def replace(self: Path, to: Path) -> Path:
        tried.append(self)
        if tried.count(self) < 3:
            error = PermissionError(errno.EACCES, "in use")
            error.winerror = 32  # type: ignore[attr-defined]
            raise error
        return real(self, to)

    monkeypatch.setattr(Path, "replace", replace)
    monkeypatch.setattr(disks, "WAITS", (0.0,) * 5)
    return tried


def test_what_another_program_holds_for_a_moment_is_tried_again(tmp_path: Path, held: list[Path]) -> None:
    box = box_at(tmp_path)
    write_folders(of_box(box))
    assert content(box)["front/b.dxf"] == b"new b"
    assert {held.count(path) for path in held} == {3}


def test_what_another_program_keeps_is_told_and_all_put_back(
    tmp_path: Path, held: list[Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(disks, "WAITS", (0.0,))
    box = box_at(tmp_path)
    with pytest.raises(PermissionError, match="in use"):
        write_folders(of_box(box))
    assert len(held) > 1
    assert content(box) == BOX_BEFORE


def as_nobody(act: Callable[[], None]) -> str:
    """What a user who owns nothing is told."""
    reading, writing = os.pipe()
    if (child := os.fork()) == 0:
        if os.getuid() == 0:
            os.setgid(65534)
            os.setuid(65534)
        told = "done"
        try:
            act()
        except OSError as error:
            told = str(error)
        finally:
            os.write(writing, told.encode())
            os._exit(0)
    os.close(writing)
    os.waitpid(child, 0)
    with os.fdopen(reading) as said:
        return said.read()


@pytest.mark.skipif(sys.platform == "win32", reason="rights of folders are POSIX's here")
@pytest.mark.parametrize("half", [False, True])
def test_a_folder_that_may_only_be_read(tmp_path: Path, *, half: bool) -> None:
    box = box_at(tmp_path / "box")
    if half:
        whole = Watched()
        write_folders(of_one(box_at(tmp_path / "whole")), whole)
        last = next(n for n, (name, path) in enumerate(whole.steps) if (name, path.name) == ("rename", "journal"))
        assert not ends(of_one(box), dying(last))
    for place in (tmp_path, *tmp_path.parents):
        if place.name.startswith(("test_", "popen-", "pytest-")):
            place.chmod(0o755)
    (box / "front").chmod(0o555)
    before = {name: data for name, data in content(box).items() if LOCK not in name}
    reading, writing = (as_nobody(act) for act in (lambda: settle([box / "front"]), lambda: write_folders(of_one(box))))
    (box / "front").chmod(0o755)
    assert {name: data for name, data in content(box).items() if LOCK not in name} == before
    if half:
        assert "files of two states" in reading
        assert "files of two states" in writing
    else:
        assert reading == "done"
        assert "Cannot write to the folder" in writing


# --- The system itself ends the run


CALLS = "rename,renameat,renameat2,link,linkat,unlink,unlinkat,rmdir,mkdir,mkdirat,fsync,fdatasync,flock,ftruncate"
"""What changes a folder or makes it safe; a file's bytes are cut short by disks of ours, above."""


Call = tuple[str, int]
"""A call of the system and how often a process has made it until then: strace counts each kind apart."""


def struck(act: Callable[[], object], log: Path, name: str = "", call: Call = ("", 0)) -> int:
    """How a process of its own ends that does something, and gets a signal as it makes one of the calls.

    The process is a copy of this one, in which all is loaded already, and waits until strace sees to it.
    """
    reading, writing = os.pipe()
    if (child := os.fork()) == 0:
        code = 1
        try:
            os.close(writing)
            # In the background shells start programs that know no interrupt.
            signal.signal(signal.SIGINT, signal.default_int_handler)
            os.read(reading, 1)
            act()
            code = 0
        finally:
            os._exit(code)
    os.close(reading)
    fault = ["-e", f"inject={call[0]}:signal={name}:when={call[1]}"] if name else []
    words = ["strace", "-f", "-o", str(log), "-e", f"trace={CALLS}", *fault, "-p", str(child)]
    with subprocess.Popen(words, stderr=subprocess.PIPE, text=True) as tracing:
        assert tracing.stderr is not None
        said = tracing.stderr.readline()
        os.close(writing)
        _, status = os.waitpid(child, 0)
    if "attached" not in said:
        pytest.skip(f"strace may not see to other processes here: {said}")
    return status


def calls_in(log: Path) -> list[Call]:
    """The calls that were made, in their order."""
    names = re.findall(r"^\d+ +(\w+)\(", log.read_text(), re.MULTILINE)
    return [(name, names[: at + 1].count(name)) for at, name in enumerate(names)]


@needs_strace
@pytest.mark.parametrize("kind", WRITES)
@pytest.mark.parametrize("name", ["KILL", "INT"])
@pytest.mark.few(2)
def test_a_run_struck_at_any_call_is_whole_after_the_next_one(tmp_path: Path, name: str, kind: str) -> None:
    log = tmp_path / "calls"
    whole = box_at(tmp_path / "whole")
    assert struck(lambda: write_folders(WRITES[kind](whole)), log) == 0
    new, calls = state(tmp_path / "whole"), calls_in(log)
    assert len(calls) > 25
    seen = set()
    for number, call in some(list(enumerate(calls)), 8):
        box = box_at(tmp_path / f"{number}")
        old = state(box)
        wanted = WRITES[kind](box)
        status = struck(lambda wanted=wanted: write_folders(wanted), log, name, call)  # type: ignore[misc]
        if name == "KILL":
            assert os.WTERMSIG(status) == signal.SIGKILL
        else:  # nobody else has to put right what an interrupted run can
            assert without_litter(box) in (old[0], new[0])
        copy = tmp_path / f"{number}-read"
        shutil.copytree(box, copy)
        settle([copy, copy / "front", copy / "rear"])
        assert state(copy) in (old, new)
        seen.add(state(copy) == new)
        write_folders(wanted)
        assert state(box) == new
    assert seen == {False, True}


SPEC = """\
panelart: 1
panel:
  title: Trial
  size: [40, 30]
  sheet: {material: aluminium, thickness: 2}
  coat: {kind: none, colour: "#E8E8E8"}
marking:
  process: digital-print
  ink: {name: black, colour: "#000000"}
  lettering: {cap_height: 3}
  viewing_distance: 500
parts:
  - {ref: H1, part: screw-m4, at: [20, 15]}
"""


@pytest.mark.full
@needs_strace
def test_make_killed_at_any_call_is_old_or_new_after_the_next_make(tmp_path: Path) -> None:
    spec, out, log = tmp_path / "trial.yaml", tmp_path / "out", tmp_path / "calls"

    def make(at: int) -> int:
        spec.write_text(SPEC.replace("[20, 15]", f"[{at}, 15]"))
        return run_within("make", spec, "-o", out, "--only", "cutouts.dxf,holes.csv", cwd=tmp_path).returncode

    assert make(20) == 0
    old = state(out)
    shutil.copytree(out, tmp_path / "old")
    assert struck(lambda: make(21), log) == 0
    new, calls = state(out), calls_in(log)
    assert new != old
    assert len(calls) > 25
    seen = set()
    for call in calls:
        shutil.rmtree(out)
        shutil.copytree(tmp_path / "old", out)
        assert os.WTERMSIG(struck(lambda: make(21), log, "KILL", call)) == signal.SIGKILL
        # A command that only reads finds one state.
        assert run_within("outdated", out, cwd=tmp_path).returncode == 0
        assert state(out) in (old, new)
        seen.add(state(out) == new)
        assert make(20) == 0
        assert state(out) == old
    assert seen == {False, True}


# --- Races


forks = pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")


@forks
@pytest.mark.parametrize("runs", [4, pytest.param(30, marks=pytest.mark.full)])
def test_runs_that_write_one_set_at_once_all_end_and_leave_one_state(tmp_path: Path, runs: int) -> None:
    assert race(tmp_path / "new", runs) == (runs, True)
    assert race(tmp_path / "new", runs) == (runs, True)


@forks
@pytest.mark.parametrize("runs", [4, pytest.param(20, marks=pytest.mark.full)])
def test_runs_that_are_killed_among_others_do_no_harm(tmp_path: Path, runs: int) -> None:
    well, whole = race(tmp_path / "new", runs, killed=runs // 2)
    assert well >= runs // 2
    assert whole


def test_a_folder_of_two_runs_is_not_found_when_all_is_well(tmp_path: Path) -> None:
    write_all({"a.svg": b"1"}, tmp_path)
    write_all({"a.svg": b"2"}, tmp_path)
    assert content(tmp_path) == {"a.svg": b"2"}
