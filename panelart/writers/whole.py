"""Files put into folders that exist, all of them or none, whatever ends the run.

The states of a write, each on the disk before the next one begins:

1. *locked*: every folder that gets something has this run's lock (`folder_lock`).
2. *staged*: each of these folders has a workshop `.panelart-NONCE` in it, on the same file system, with the finished
   files and new folders in `new`. The uppermost folder is the home; the workshops of the others name it in `home`.
3. *journalled*: the home's workshop has a `journal` of what goes where and what is replaced by it.
4. *moved*: each old file is kept in `old`, by a second name so that its own is never missing, and the new one renamed
   into its place, the home's last. Then the journal is renamed to `moved`: from here on the write counts.
5. *done*: workshops are gone, the home's last, and then the locks.

A run that fails, and the next command after one that was killed, do the same (`_end`): what was not *journalled* is
swept away, what was *journalled* is put back first, what was *moved* stays. Putting back looks at what lies where and
can be cut short and done again. So a folder is never left but in its old state or its new one, and a set of folders is
in one of them together.

A journal may come with a folder from anywhere: it can only name plain files, in folders that have its workshop.
"""

from __future__ import annotations

import contextlib
import errno
import hashlib
import os
import stat
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path, PurePath
from typing import Final

import msgspec

from panelart.canonical import Struct
from panelart.messages import Message
from panelart.messages import writers as said
from panelart.writers.disk import DISK, Disk
from panelart.writers.folder_lock import LOCK, WORKSHOP, Locks, is_workshop, locked, workshops

Places = Mapping[Path, Mapping[Path, bytes]]
"""Files by their paths below a folder that exists; what is in folders below it is in new ones."""

_NOT_ALLOWED: Final = {errno.EACCES, errno.EPERM, errno.EROFS, errno.ENOENT}


class _Entry(Struct, frozen=True, kw_only=True):
    """What goes into a folder by one rename. `digest` is that of a file's bytes, "" for a new folder."""

    name: str
    replaces: bool
    digest: str

    def is_at(self, place: Path) -> bool:
        """Whether that is what lies at a place, not what somebody else has put there."""
        if not self.digest:
            return _is_folder(place)
        try:
            return stat.S_ISREG(place.lstat().st_mode) and _digest(place.read_bytes()) == self.digest
        except OSError:
            return False


class _Journal(Struct, frozen=True, kw_only=True):
    """What is moved, by folder as seen from the home, in the order of the moves."""

    folders: dict[str, tuple[_Entry, ...]]


class _Work(Struct, frozen=True, kw_only=True):
    """One write: the name of its workshops and its home."""

    shop: str
    home: Path

    @property
    def journal(self) -> Path:
        """What is to be put back as long as it is there."""
        return self.home / self.shop / "journal"

    @property
    def moved(self) -> Path:
        """What says that all of it is in place."""
        return self.home / self.shop / "moved"

    @property
    def moves(self) -> dict[Path, tuple[_Entry, ...]]:
        """What the journal says, of folders that have a workshop of this write: a journal is no right to others."""
        for file in (self.moved, self.journal):
            with contextlib.suppress(OSError, msgspec.DecodeError):
                read = msgspec.json.decode(file.read_bytes(), type=_Journal)
                places = {Path(os.path.normpath(self.home / name)): entries for name, entries in read.folders.items()}
                return {
                    place: tuple(entry for entry in entries if _is_plain(entry.name))
                    for place, entries in places.items()
                    if all(_is_folder(place / self.shop / part) for part in ("", "new", "old"))
                }
        return {}


def put(places: Places, locks: Locks, disk: Disk) -> None:
    """Put files into their folders, which are locked. Raises OSError; the folders are then as they were."""
    folders = sorted(places, key=lambda place: (-len(place.parts), place))
    work = _Work(shop=WORKSHOP + locks.nonce, home=folders[-1])
    raced = False
    try:
        for folder in reversed(folders):
            _stage(work, folder, places[folder], disk)
        moves = {folder: tuple(_entries(folder, places[folder])) for folder in folders}
        _write_journal(work, moves, disk)
        for folder, entries in moves.items():
            _move(work, folder, entries, disk)
        raced = not (
            locks.are_held and all(entry.is_at(place / entry.name) for place in moves for entry in moves[place])
        )
        _count(work, disk)
        _end(work, folders, disk)
    except BaseException as error:
        _end(work, folders, disk, error)
        raise
    if raced:
        raise OSError(errno.EBUSY, str(said.folder_raced()), str(work.home))


def is_left(path: PurePath) -> bool:
    """Whether a path is of a write that is not at its end: a workshop, what is in one, a lock."""
    return any(part == LOCK or is_workshop(part) for part in path.parts)


def is_at_rest(folders: Iterable[Path]) -> bool:
    """Whether no write has left files of two states in the folders, which are locked."""
    return not any(_work(shop).journal.exists() for folder in folders for shop in workshops(folder))


def settle(folders: Iterable[Path], disk: Disk = DISK) -> None:
    """Bring what an ended run has left in folders to one whole state, with the other folders of its write.

    Waits for runs that are at work in these folders or in those above them, which may have been made by such a run.
    Raises OSError where files of two states cannot be put right, and where another run does not end.
    """
    below = dict.fromkeys(folder.resolve() for folder in folders)
    above = dict.fromkeys(place for folder in below for place in folder.parents if place not in below)
    for folder in (*above, *below):
        has_lock = os.path.lexists(folder / LOCK)
        if has_lock or folder in below:
            for shop in list(workshops(folder)):
                _restore(_work(shop), folder, disk)
        if has_lock:
            _wait(folder, disk)


def _wait(folder: Path, disk: Disk) -> None:
    """Wait until nobody holds a folder's lock, and remove what a dead run has left of it if that is allowed."""
    try:
        with locked([folder], disk):
            pass
    except OSError as error:
        if error.errno not in _NOT_ALLOWED:
            raise


def _restore(work: _Work, folder: Path, disk: Disk) -> None:
    """End a write that its run did not end. Raises OSError."""
    known = {folder, work.home, *work.moves}
    try:
        with locked(known, disk):
            # Who waited for a run at work finds nothing more to do.
            if known == {folder, work.home, *work.moves}:
                _end(work, sorted(known, key=lambda place: place == work.home), disk)
    except OSError as error:
        # What was only staged harms no reader, who need not be allowed to write here.
        if error.errno not in _NOT_ALLOWED or work.journal.exists():
            raise


def _stage(work: _Work, folder: Path, files: Mapping[Path, bytes], disk: Disk) -> None:
    """Write everything for a folder, beside what is there. Raises OSError."""
    shop = folder / work.shop
    new = shop / "new"
    try:
        for place in (shop, new, shop / "old"):
            disk.make_folder(place)
        if folder != work.home:
            disk.write(shop / "home", os.fsencode(os.path.relpath(work.home, folder)))
            disk.sync(shop / "home")
    except OSError as error:
        raise _told(error, said.folder_not_writable, folder) from error
    made = [new]
    for name, content in files.items():
        try:
            for place in reversed([new / above for above in name.parents if new / above not in made]):
                disk.make_folder(place)
                made.append(place)
            disk.write(new / name, content)
        except OSError as error:
            raise _told(error, said.file_not_written, folder / name) from error
    # After all are written, so that the disk can do much of it at once.
    for name in files:
        disk.sync(new / name)
    for place in (*reversed(made), shop, folder):
        disk.sync_folder(place)


def _entries(folder: Path, files: Mapping[Path, bytes]) -> Iterator[_Entry]:
    """What is renamed into a folder: files, and new folders with all that is in them."""
    for name in dict.fromkeys(path.parts[0] for path in files):
        content = files.get(Path(name))
        digest = "" if content is None else _digest(content)
        yield _Entry(name=name, replaces=os.path.lexists(folder / name), digest=digest)


def _write_journal(work: _Work, moves: Mapping[Path, tuple[_Entry, ...]], disk: Disk) -> None:
    folders = {Path(os.path.relpath(folder, work.home)).as_posix(): entries for folder, entries in moves.items()}
    try:
        disk.write(work.journal, msgspec.json.encode(_Journal(folders=folders)))
        disk.sync(work.journal)
        disk.sync_folder(work.journal.parent)
    except OSError as error:
        raise _told(error, said.folder_not_writable, work.home) from error


def _move(work: _Work, folder: Path, entries: Sequence[_Entry], disk: Disk) -> None:
    """Put what is staged for a folder into its places. Raises OSError."""
    shop = folder / work.shop
    for entry in entries:
        target = folder / entry.name
        what = said.file_not_placed if entry.digest else said.folder_not_placed
        try:
            if entry.digest and _is_folder(target):
                raise IsADirectoryError(errno.EISDIR, str(said.folder_for_file()))
            if entry.replaces:
                disk.keep(target, shop / "old" / entry.name)
            disk.rename(shop / "new" / entry.name, target)
        except OSError as error:
            raise _told(error, what, target) from error
    disk.sync_folder(folder)


def _count(work: _Work, disk: Disk) -> None:
    """Let a write count. Raises OSError where it does not."""
    try:
        disk.rename(work.journal, work.moved)
        # Where this fails a power cut may bring back the old state, which is whole as well.
        disk.sync_folder(work.moved.parent)
    except OSError as error:
        # A network share may rename and lose the answer.
        if not work.moved.exists():
            raise _told(error, said.folder_not_writable, work.home) from error


def _end(work: _Work, folders: Sequence[Path], disk: Disk, why: BaseException | None = None) -> None:
    """Bring a write to its end from any state; the home is the last of the folders.

    Raises OSError for what cannot be put back; all that is needed to try again is left then.
    """
    if not work.moved.exists():
        moves = work.moves
        stuck = {
            place / work.shop / "old" / entry.name: error
            for place in reversed(moves)
            for entry in reversed(moves[place])
            if (error := _put_back(place, work.shop, entry, disk)) is not None
        }
        if stuck:
            raise _stuck(stuck, why) from why
    # What cannot be swept away now is swept by the next command.
    with contextlib.suppress(OSError):
        for folder in folders:
            # What says how it stands goes last.
            for part in ("new", "old", "home", "journal", "moved", ""):
                _remove(folder / work.shop / part, disk)


def _stuck(stuck: Mapping[Path, OSError], why: BaseException | None) -> OSError:
    """What is told of old files that cannot be put back, by the run that moved them or, without `why`, a later one."""
    place, error = next((path.parent, error) for path, error in stuck.items())
    if why is None:
        folder = place.parents[1]
        return OSError(errno.EIO, str(said.folder_half_written(error.strerror or error)), str(folder))
    names = [path.name if path.parent == place else str(path) for path in stuck]
    return OSError(errno.EIO, str(said.not_put_back(reason=why, names=names)), str(place))


def _put_back(folder: Path, shop: str, entry: _Entry, disk: Disk) -> OSError | None:
    """Undo a move, judging by what lies where, so that it does not matter when it was cut short; why it cannot be."""
    target, new, old = folder / entry.name, folder / shop / "new" / entry.name, folder / shop / "old" / entry.name
    try:
        if entry.replaces:
            if os.path.lexists(old) and (not os.path.lexists(target) or entry.is_at(target)):
                disk.rename(old, target)
        elif not os.path.lexists(new) and entry.is_at(target):
            disk.rename(target, new)
    except OSError as error:
        return error
    return None


def _remove(place: Path, disk: Disk) -> None:
    """Remove a file, or a folder with all that is in it; links are not followed."""
    if not _is_folder(place):
        disk.remove(place)
        return
    for each in sorted(place.iterdir()):
        _remove(each, disk)
    disk.remove_folder(place)


def _work(shop: Path) -> _Work:
    """The write that a workshop is of; where its home is gone, it was at its end."""
    home = shop.parent
    with contextlib.suppress(OSError):
        home = Path(os.path.normpath(home / os.fsdecode((shop / "home").read_bytes())))
    return _Work(shop=shop.name, home=home if _is_folder(home / shop.name) else shop.parent)


def _is_folder(place: Path) -> bool:
    """Whether a folder is there itself, not a link to one."""
    try:
        return stat.S_ISDIR(place.lstat().st_mode)
    except OSError:
        return False


def _is_plain(name: str) -> bool:
    return name not in {"", ".", ".."} and Path(name).name == name and "\0" not in name


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _told(error: OSError, what: Callable[[object], Message], where: Path) -> OSError:
    """The same kind of error, in words that name what was tried and where."""
    return type(error)(error.errno, str(what(error.strerror or error)), str(where))
