"""Files on disk, in one folder or several, all of them or none."""

from __future__ import annotations

import contextlib
import errno
import shutil
import tempfile
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path

from panelart.canonical import Struct
from panelart.messages import Message
from panelart.messages import writers as said


def write_all(files: Mapping[str, bytes], folder: Path) -> None:
    """Writes every file, by name, into the folder; when one cannot be written the folder stays as it was.

    It is `write_folders` for one folder, and raises the same.
    """
    write_folders([(folder, files)])


def write_folders(folders: Iterable[tuple[Path, Mapping[str, bytes]]]) -> None:
    """Writes every file, by name, into its folder; when one cannot be written all folders stay as they were.

    All files are first written in full to temporary folders on the same file systems and only then renamed into
    place. A new folder appears at once with everything in it, with new folders below it too; in a folder that exists
    already only files of the given names are replaced. What was renamed, in whichever folder, is put back when a
    rename fails or the run is interrupted. A folder may be given twice, for files of different names.

    Raises ValueError for a name that is not a plain file name or that another has but for upper and lower
    case, and OSError (with the place and the reason) when the disk is full, a folder or file stands in the
    way, two folders with files of one name are the same folder, or writing is not allowed.
    """
    trees = _trees(_resolved(folders))
    with contextlib.ExitStack() as work:
        placings = [_prepared(place, files, work) for place, files in trees.items()]
        try:
            for placing in placings:
                placing.place()
        except BaseException as error:
            _undo(placings, error)
            raise


def _resolved(folders: Iterable[tuple[Path, Mapping[str, bytes]]]) -> dict[Path, dict[str, bytes]]:
    """The files by folder, without links. Raises OSError where a folder is a link to itself, or two are one."""
    resolved: dict[Path, dict[str, bytes]] = {}
    for given, files in folders:
        _require_plain(files)
        try:
            folder = given.resolve()
        except RuntimeError as error:
            raise OSError(errno.ELOOP, str(said.folder_loop()), str(given)) from error
        there = resolved.setdefault(folder, {})
        if {name.casefold() for name in there} & {name.casefold() for name in files}:
            raise FileExistsError(errno.EEXIST, str(said.same_folder()), str(folder))
        there.update(files)
    return resolved


def _trees(folders: Mapping[Path, Mapping[str, bytes]]) -> dict[Path, dict[Path, bytes]]:
    """The files of each folder by their paths below it; those of a new folder within a new one go with the outer."""
    trees: dict[Path, dict[Path, bytes]] = {}
    for folder in sorted(folders, key=lambda place: len(place.parts)):
        top = next((place for place in folder.parents if place in trees and not place.exists()), folder)
        below = folder.relative_to(top)
        trees.setdefault(top, {}).update({below / name: data for name, data in folders[folder].items()})
    return trees


def _require_plain(files: Mapping[str, bytes]) -> None:
    seen: set[str] = set()
    for name in files:
        if name in {"", ".", ".."} or Path(name).name != name or "\\" in name or "\0" in name:
            raise ValueError(said.not_plain_name(name=name))
        if name.casefold() in seen:
            raise ValueError(said.same_name(name=name))
        seen.add(name.casefold())


class _Created(Struct, frozen=True, kw_only=True):
    """A new folder, finished in `new`, that one rename puts in its place."""

    folder: Path
    new: Path

    def place(self) -> None:
        """Puts it in its place. Raises OSError."""
        try:
            self.new.rename(self.folder)
        except OSError as error:
            raise _told(error, said.folder_not_placed, self.folder) from error

    def undo(self) -> tuple[Path, ...]:
        """Takes it away again if it was placed; what could not be."""
        if self.new.exists():
            return ()
        try:
            self.folder.rename(self.new)
        except OSError:
            return (self.folder,)
        return ()


class _Replaced(Struct, frozen=True, kw_only=True):
    """Files finished in `new` that take the place of those in a folder, which are kept in `old` meanwhile."""

    folder: Path
    new: Path
    old: Path
    names: tuple[str, ...]

    def place(self) -> None:
        """Puts each file in its place. Raises OSError."""
        self.old.mkdir()
        for name in self.names:
            _swap(name, self.new, self.old, self.folder)

    def undo(self) -> tuple[Path, ...]:
        """Puts back what was there; where those files are that could not be."""
        return tuple(self.old / name for name in self.names if not _put_back(name, self.new, self.old, self.folder))


def _prepared(folder: Path, files: Mapping[Path, bytes], work: contextlib.ExitStack) -> _Created | _Replaced:
    """Everything written for one folder, not yet in its place; `work` ends what is made for that. Raises OSError."""
    exists = folder.is_dir()
    if not exists and folder.exists():
        raise NotADirectoryError(errno.ENOTDIR, str(said.file_for_folder()), str(folder))
    if not exists:
        work.enter_context(_made(folder.parent))
    # Where the folder exists the workshop is within it: that is the same file system even where the folder is a mount
    # of its own, and needs no right to write beside it.
    workshop = work.enter_context(_workshop(folder if exists else folder.parent, folder))
    new = workshop / "new"
    _fill(new, files, folder)
    if not exists:
        return _Created(folder=folder, new=new)
    return _Replaced(folder=folder, new=new, old=workshop / "old", names=tuple(map(str, files)))


def _undo(placings: Sequence[_Created | _Replaced], error: BaseException) -> None:
    """Undo what was placed, the last first, the one that was cut short too. Raises OSError for what stays."""
    stranded = [path for placing in reversed(placings) for path in placing.undo()]
    if stranded:
        place = stranded[0].parent
        names = [path.name if path.parent == place else str(path) for path in stranded]
        raise OSError(errno.EIO, str(said.not_put_back(reason=error, names=names)), str(place)) from error


def _swap(name: str, new: Path, old: Path, folder: Path) -> None:
    target = folder / name
    try:
        if target.is_dir() and not target.is_symlink():
            raise IsADirectoryError(errno.EISDIR, str(said.folder_for_file()))
        if target.exists() or target.is_symlink():
            target.rename(old / name)
        (new / name).rename(target)
    except OSError as error:
        raise _told(error, said.file_not_placed, target) from error


def _put_back(name: str, new: Path, old: Path, folder: Path) -> bool:
    """Undoes a swap, judging by what lies where, so that it does not matter when it was cut short."""
    try:
        if (old / name).exists() or (old / name).is_symlink():
            (old / name).replace(folder / name)
        elif not (new / name).exists():
            (folder / name).unlink()
    except OSError:
        return False
    return True


@contextlib.contextmanager
def _made(folder: Path) -> Iterator[None]:
    """Makes the folder and those above it; takes away again those it made if the work in it fails."""
    made: list[Path] = []
    try:
        for place in reversed([place for place in (folder, *folder.parents) if not place.exists()]):
            try:
                place.mkdir()
            except OSError as error:
                raise _told(error, said.folder_not_made, place) from error
            made.append(place)
        yield
    except BaseException:
        for place in reversed(made):
            with contextlib.suppress(OSError):
                place.rmdir()
        raise


@contextlib.contextmanager
def _workshop(where: Path, folder: Path) -> Iterator[Path]:
    """A temporary folder that is gone afterwards, unless it holds the only copy of somebody's file."""
    try:
        made = Path(tempfile.mkdtemp(prefix=".panelart-", dir=where))
    except OSError as error:
        raise _told(error, said.folder_not_writable, folder) from error
    try:
        yield made
    except BaseException:
        old = made / "old"
        if not (old.is_dir() and any(old.iterdir())):
            shutil.rmtree(made, ignore_errors=True)
        raise
    shutil.rmtree(made, ignore_errors=True)


def _fill(new: Path, files: Mapping[Path, bytes], folder: Path) -> None:
    # One level below the temporary folder, which only its owner may read: this one has the usual rights.
    new.mkdir()
    for name, content in files.items():
        try:
            (new / name).parent.mkdir(exist_ok=True, parents=True)
            (new / name).write_bytes(content)
        except OSError as error:
            raise _told(error, said.file_not_written, folder / name) from error


def _told(error: OSError, what: Callable[[object], Message], where: Path) -> OSError:
    """The same kind of error, in words that name what was tried and where."""
    return type(error)(error.errno, str(what(error.strerror or error)), str(where))
