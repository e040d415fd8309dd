"""Files on disk, all of them or none."""

from __future__ import annotations

import contextlib
import errno
import shutil
import tempfile
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

from panelart.messages import Message
from panelart.messages import writers as said


def write_all(files: Mapping[str, bytes], folder: Path) -> None:
    """Writes every file, by name, into the folder; when one cannot be written the folder stays as it was.

    The files are first written in full to a temporary folder on the same file system and then renamed into
    place. A new folder appears at once with everything in it; in a folder that exists already only files of
    the given names are replaced, and they are put back when a rename fails or the run is interrupted.

    Raises ValueError for a name that is not a plain file name or that another has but for upper and lower
    case, and OSError (with the place and the reason) when the disk is full, a folder or file stands in the
    way, or writing is not allowed.
    """
    _require_plain(files)
    try:
        folder = folder.resolve()
    except RuntimeError as error:
        raise OSError(errno.ELOOP, str(said.folder_loop()), str(folder)) from error
    if folder.is_dir():
        _replace(files, folder)
    elif folder.exists():
        raise NotADirectoryError(errno.ENOTDIR, str(said.file_for_folder()), str(folder))
    else:
        _create(files, folder)


def _require_plain(files: Mapping[str, bytes]) -> None:
    seen: set[str] = set()
    for name in files:
        if name in {"", ".", ".."} or Path(name).name != name or "\\" in name or "\0" in name:
            raise ValueError(said.not_plain_name(name=name))
        if name.casefold() in seen:
            raise ValueError(said.same_name(name=name))
        seen.add(name.casefold())


def _create(files: Mapping[str, bytes], folder: Path) -> None:
    with _made(folder.parent), _workshop(folder.parent, folder) as workshop:
        new = workshop / "new"
        _fill(new, files, folder)
        try:
            new.rename(folder)
        except OSError as error:
            raise _told(error, said.folder_not_placed, folder) from error


def _replace(files: Mapping[str, bytes], folder: Path) -> None:
    # The workshop is within the folder: that is the same file system even where the folder is a mount of
    # its own, and needs no right to write beside it.
    with _workshop(folder, folder) as workshop:
        new, old = workshop / "new", workshop / "old"
        _fill(new, files, folder)
        old.mkdir()
        try:
            for name in files:
                _swap(name, new, old, folder)
        except BaseException as error:
            stranded = [name for name in files if not _put_back(name, new, old, folder)]
            if stranded:
                raise OSError(errno.EIO, str(said.not_put_back(reason=error, names=stranded)), str(old)) from error
            raise


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


def _fill(new: Path, files: Mapping[str, bytes], folder: Path) -> None:
    # One level below the temporary folder, which only its owner may read: this one has the usual rights.
    new.mkdir()
    for name, content in files.items():
        try:
            (new / name).write_bytes(content)
        except OSError as error:
            raise _told(error, said.file_not_written, folder / name) from error


def _told(error: OSError, what: Callable[[object], Message], where: Path) -> OSError:
    """The same kind of error, in words that name what was tried and where."""
    return type(error)(error.errno, str(what(error.strerror or error)), str(where))
