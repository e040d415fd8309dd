from __future__ import annotations

import errno
import os
import subprocess
import sys
from pathlib import Path

import pytest

from panelart.writers import settle, write_all, write_folders
from tests.effort import some
from tests.writers.disks import Step, Watched, content, entries, failing, state, without_litter

OLD = {"artwork.svg": b"old artwork", "cutouts.dxf": b"old cutouts", "notes.txt": b"the user's own"}
NEW = {"proof.pdf": b"new proof", "artwork.svg": b"new artwork", "cutouts.dxf": b"new cutouts"}


@pytest.fixture
def there(tmp_path: Path) -> Path:
    folder = tmp_path / "out"
    folder.mkdir()
    for name, data in OLD.items():
        (folder / name).write_bytes(data)
    return folder


def test_a_new_folder_with_those_above_it(tmp_path: Path) -> None:
    write_all(NEW, tmp_path / "a" / "b")
    assert content(tmp_path) == {f"a/b/{name}": data for name, data in NEW.items()}
    assert sorted(path.name for path in (tmp_path / "a").iterdir()) == ["b"]


def test_a_new_folder_has_the_rights_that_mkdir_gives(tmp_path: Path) -> None:
    write_all(NEW, tmp_path / "out")
    (tmp_path / "plain").mkdir()
    assert (tmp_path / "out").stat().st_mode == (tmp_path / "plain").stat().st_mode


def test_only_our_files_are_replaced(there: Path) -> None:
    write_all(NEW, there)
    assert content(there) == {**NEW, "notes.txt": b"the user's own"}
    assert len(list(there.iterdir())) == 4


def test_a_folder_given_by_a_link(there: Path, tmp_path: Path) -> None:
    (tmp_path / "link").symlink_to(there, target_is_directory=True)
    write_all(NEW, tmp_path / "link")
    assert content(there)["artwork.svg"] == b"new artwork"
    assert (tmp_path / "link").is_symlink()


def test_a_link_in_the_way_is_replaced_not_followed(there: Path, tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere.pdf"
    elsewhere.write_bytes(b"not ours")
    (there / "proof.pdf").symlink_to(elsewhere)
    write_all(NEW, there)
    assert elsewhere.read_bytes() == b"not ours"
    assert (there / "proof.pdf").read_bytes() == b"new proof"


def test_a_relative_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    write_all(NEW, Path("out"))
    write_all(NEW, Path("out"))
    assert content(tmp_path / "out") == NEW


FAULTS: list[BaseException] = [
    OSError(errno.ENOSPC, os.strerror(errno.ENOSPC)),
    PermissionError(errno.EACCES, os.strerror(errno.EACCES)),
    KeyboardInterrupt(),
    MemoryError(),
]


@pytest.mark.parametrize("error", FAULTS, ids=lambda error: type(error).__name__)
@pytest.mark.parametrize("name", NEW)
def test_a_write_that_fails_leaves_an_old_folder_as_it_was(there: Path, name: str, error: BaseException) -> None:
    before = state(there)
    with pytest.raises(type(error)):
        write_all(NEW, there, failing(("write", name), error))
    assert state(there) == before


@pytest.mark.parametrize("error", FAULTS, ids=lambda error: type(error).__name__)
@pytest.mark.parametrize("step", ["write", "sync", "rename", "sync_folder"])
def test_a_failure_leaves_no_trace_of_a_new_folder(tmp_path: Path, step: str, error: BaseException) -> None:
    with pytest.raises(type(error)):
        write_all(NEW, tmp_path / "a" / "b", failing((step, ""), error))
    assert list(tmp_path.iterdir()) == []


BROKEN = OSError(errno.EIO, "I/O error")


def test_what_cannot_be_put_back_is_kept_and_named_and_put_back_by_the_next_command(there: Path) -> None:
    def fail(_: int, step: Step) -> None:
        name, path = step
        if name == "rename" and (path.name, path.parent.name) in {("cutouts.dxf", "new"), ("artwork.svg", "old")}:
            raise BROKEN

    with pytest.raises(OSError, match=r"kept in this folder: artwork\.svg; the next") as caught:
        write_all(NEW, there, Watched(at=fail))
    assert (Path(caught.value.filename) / "artwork.svg").read_bytes() == b"old artwork"
    assert (there / "cutouts.dxf").read_bytes() == b"old cutouts"
    assert not (there / "proof.pdf").exists()
    settle([there])
    assert content(there) == OLD


def test_the_error_says_what_where_and_why(tmp_path: Path) -> None:
    full = OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
    disk = failing(("write", "cutouts.dxf"), full)
    with pytest.raises(OSError, match="Cannot write the file: No space left") as caught:
        write_all(NEW, tmp_path / "out", disk)
    assert caught.value.errno == errno.ENOSPC
    assert caught.value.filename == str((tmp_path / "out" / "cutouts.dxf").resolve())


def test_a_file_where_the_folder_should_be(tmp_path: Path) -> None:
    (tmp_path / "out").write_bytes(b"a file")
    with pytest.raises(NotADirectoryError, match="where the folder should be"):
        write_all(NEW, tmp_path / "out")
    assert content(tmp_path) == {"out": b"a file"}


def test_a_file_where_a_folder_above_should_be(tmp_path: Path) -> None:
    (tmp_path / "out").write_bytes(b"a file")
    with pytest.raises(OSError, match="out"):
        write_all(NEW, tmp_path / "out" / "a" / "b")
    assert content(tmp_path) == {"out": b"a file"}


def test_a_folder_where_a_file_should_be(there: Path) -> None:
    (there / "proof.pdf").mkdir()
    (there / "proof.pdf" / "kept").write_bytes(b"kept")
    with pytest.raises(IsADirectoryError, match="A folder of that name"):
        write_all(NEW, there)
    assert content(there) == {**OLD, "proof.pdf/kept": b"kept"}


def test_a_link_that_leads_to_itself(tmp_path: Path) -> None:
    (tmp_path / "out").symlink_to(tmp_path / "out")
    with pytest.raises(OSError, match="out"):
        write_all(NEW, tmp_path / "out")


LIMITED = """
import resource, signal, sys
from pathlib import Path
from panelart.writers import write_all
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (50_000, 50_000))
try:
    write_all({"artwork.svg": b"new", "proof.pdf": bytes(1_000_000)}, Path(sys.argv[1]))
except OSError as error:
    print(error)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="a process's file size can be limited on POSIX only")
@pytest.mark.parametrize("folder", ["out", "new/out"])
def test_a_write_that_the_system_really_cuts_short(there: Path, tmp_path: Path, folder: str) -> None:
    # Nothing is patched here: the system takes 50,000 bytes of the file and refuses the rest, as a full disk does.
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
    run = [sys.executable, "-c", LIMITED, str(tmp_path / folder)]
    told = subprocess.run(run, capture_output=True, text=True, check=True, env=environment).stdout
    assert "Cannot write the file: File too large" in told
    assert "proof.pdf" in told
    assert content(tmp_path) == {f"out/{name}": data for name, data in OLD.items()}
    assert [path.name for path in tmp_path.iterdir()] == ["out"]
    assert len(list(there.iterdir())) == len(OLD)


@pytest.mark.parametrize("name", ["", ".", "..", "a/b", "/etc/x", "../x", "a\\b", "a\0b", "a/"])
def test_refuses_names_that_lead_elsewhere(tmp_path: Path, name: str) -> None:
    with pytest.raises(ValueError, match="not a plain file name"):
        write_all({"good.svg": b"", name: b""}, tmp_path / "out")
    assert list(tmp_path.iterdir()) == []


def test_refuses_names_that_some_disks_take_for_one(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="upper and lower case"):
        write_all({"Proof.pdf": b"", "proof.pdf": b""}, tmp_path / "out")


REAR = {"proof.pdf": b"new rear proof", "holes.csv": b"new rear holes"}
LISTS = {"panels.csv": b"new list"}


@pytest.fixture
def box(tmp_path: Path) -> Path:
    return made_before(tmp_path / "box")


def made_before(folder: Path) -> Path:
    """The folder of a set made before: a list, and two panels, the front with files that are not ours."""
    (folder / "front").mkdir(parents=True)
    (folder / "rear").mkdir()
    (folder / "panels.csv").write_bytes(b"old list")
    for name, data in OLD.items():
        (folder / "front" / name).write_bytes(data)
    (folder / "rear" / "proof.pdf").write_bytes(b"old rear proof")
    return folder


def of_set(folder: Path) -> list[tuple[Path, dict[str, bytes]]]:
    return [(folder / "front", NEW), (folder / "rear", REAR), (folder, LISTS)]


ALL_NEW = {
    **{f"front/{name}": data for name, data in NEW.items()},
    **{f"rear/{name}": data for name, data in REAR.items()},
    **LISTS,
}


def test_several_folders(box: Path) -> None:
    write_folders(of_set(box))
    assert content(box) == {**ALL_NEW, "front/notes.txt": b"the user's own"}
    assert entries(box) == {"front", "rear", *content(box)}


def test_a_new_folder_with_folders_in_it_appears_by_one_rename(tmp_path: Path) -> None:
    disk = Watched()
    write_folders(of_set(tmp_path / "a" / "box"), disk)
    placed = [path.name for name, path in disk.steps if name == "rename" and path.parent.name == "new"]
    assert placed == ["a"]
    assert content(tmp_path / "a" / "box") == ALL_NEW
    assert [path.name for path in (tmp_path / "a").iterdir()] == ["box"]


def test_a_folder_in_the_way_in_one_folder_leaves_all_as_they_were(box: Path) -> None:
    (box / "rear" / "holes.csv").mkdir()
    before, names = content(box), entries(box)
    with pytest.raises(IsADirectoryError, match="A folder of that name"):
        write_folders(of_set(box))
    assert (content(box), entries(box)) == (before, names)


def test_a_file_where_the_last_folder_should_be_leaves_all_as_they_were(box: Path) -> None:
    (box / "side").write_bytes(b"a file")
    before, names = content(box), entries(box)
    with pytest.raises(NotADirectoryError, match="where the folder should be"):
        write_folders([*of_set(box), (box / "side", NEW)])
    assert (content(box), entries(box)) == (before, names)


@pytest.mark.parametrize("error", FAULTS, ids=lambda error: type(error).__name__)
@pytest.mark.parametrize("after", [False, True], ids=["before", "after"])
@pytest.mark.few(2)
def test_an_end_at_any_step_is_undone_in_every_folder(tmp_path: Path, *, after: bool, error: BaseException) -> None:
    def wanted(box: Path) -> list[tuple[Path, dict[str, bytes]]]:
        return [*of_set(box), (box / "new" / "side", {"proof.pdf": b""})]

    whole = Watched()
    write_folders(wanted(made_before(tmp_path / "count")), whole)
    new = state(tmp_path / "count")
    counts = next(number for number, (_, path) in enumerate(whole.steps) if path.name == "journal" and number > 50)
    assert whole.steps[counts][0] == "rename"
    for number in some(range(len(whole.steps)), 12):
        box = made_before(tmp_path / str(number))
        before = state(box)
        try:
            write_folders(wanted(box), failing(number, error, after=after))
        except type(error):
            # A run that is told to have failed has changed nothing; an interrupted one may have been at its end.
            assert state(box) == before if number + after <= counts else without_litter(box) == new[0]
            assert number + after <= counts or not isinstance(error, OSError)
        else:
            assert without_litter(box) == new[0]
        settle([box, box / "front", box / "rear"])
        assert state(box) in (before, new)


def test_what_cannot_be_put_back_is_named_with_its_folder(box: Path) -> None:
    def fail(_: int, step: Step) -> None:
        name, path = step
        old = path.parent.name == "old" and path.name in {"artwork.svg", "proof.pdf"}
        if name == "rename" and (old or (path.parent.name, path.name) == ("new", "panels.csv")):
            raise BROKEN

    with pytest.raises(OSError, match=r"kept in this folder: .*front.*artwork\.svg") as caught:
        write_folders(of_set(box), Watched(at=fail))
    assert (Path(caught.value.filename) / "proof.pdf").read_bytes() == b"old rear proof"
    kept = next(box.glob("front/.panelart-*/old/artwork.svg"))
    assert kept.read_bytes() == b"old artwork"
    assert str(kept) in str(caught.value)
    assert (box / "panels.csv").read_bytes() == b"old list"


def test_two_folders_that_are_one(box: Path) -> None:
    (box / "side").symlink_to(box / "front", target_is_directory=True)
    before = content(box)
    with pytest.raises(FileExistsError, match="the same folder"):
        write_folders([(box / "front", NEW), (box / "side", {"Proof.pdf": b""})])
    assert content(box) == before
    write_folders([(box / "front", NEW), (box / "side", {"holes.csv": b"holes"})])
    assert content(box / "front") == {**NEW, "holes.csv": b"holes", "notes.txt": b"the user's own"}
