"""Files on disk, in one folder or several, all of them or none: which files go where. `whole` puts them there."""

from __future__ import annotations

import errno
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Final

from panelart.messages import writers as said
from panelart.writers.disk import DISK, Disk
from panelart.writers.folder_lock import locked
from panelart.writers.whole import is_at_rest, put, settle

_ATTEMPTS: Final = 50
"""How often other runs may make or take away folders between the plan of a write and its locks."""


def write_all(files: Mapping[str, bytes], folder: Path, disk: Disk = DISK) -> None:
    """Writes every file, by name, into the folder; when one cannot be written the folder stays as it was.

    It is `write_folders` for one folder, and raises the same.
    """
    write_folders([(folder, files)], disk)


def write_folders(folders: Iterable[tuple[Path, Mapping[str, bytes]]], disk: Disk = DISK) -> None:
    """Writes every file, by name, into its folder; when one cannot be written all folders stay as they were.

    A new folder appears at once with everything in it, with new folders above and below it too; in a folder that
    exists already only files of the given names are replaced. What an ended run has left in these folders is put
    right first; other runs that write to them are waited for. When this run fails or is interrupted everything is put
    back; when it is killed, the next command that uses one of the folders does it. A folder may be given twice, for
    files of different names.

    Raises ValueError for a name that is not a plain file name or that another has but for upper and lower
    case, and OSError (with the place and the reason) when the disk is full, a folder or file is in the
    way, two folders with files of one name are the same folder, writing is not allowed, or another run writes to one
    of the folders and does not end.
    """
    wanted = [(folder, dict(files)) for folder, files in folders]
    for _ in range(_ATTEMPTS):
        places = _places(_resolved(wanted))
        if not places:
            return
        settle(places, disk)
        try:
            with locked(places, disk) as locks:
                # Another run may have made or removed a folder while this one waited.
                if _places(_resolved(wanted)).keys() == places.keys() and is_at_rest(places):
                    put(places, locks, disk)
                    return
        except FileNotFoundError:
            if all(place.is_dir() for place in places):
                raise
    raise OSError(errno.EBUSY, str(said.folder_raced()), str(next(iter(places))))


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


def _places(folders: Mapping[Path, Mapping[str, bytes]]) -> dict[Path, dict[Path, bytes]]:
    """The files by their paths below folders that exist. Raises OSError where a file is in the way of a folder."""
    places: dict[Path, dict[Path, bytes]] = {}
    for folder, files in folders.items():
        place = next(above for above in (folder, *folder.parents) if above.exists())
        if not place.is_dir():
            raise NotADirectoryError(errno.ENOTDIR, str(said.file_for_folder()), str(place))
        below = folder.relative_to(place)
        places.setdefault(place, {}).update({below / name: data for name, data in files.items()})
    return places


def _require_plain(files: Mapping[str, bytes]) -> None:
    seen: set[str] = set()
    for name in files:
        if name in {"", ".", ".."} or Path(name).name != name or "\\" in name or "\0" in name:
            raise ValueError(said.not_plain_name(name=name))
        if name.casefold() in seen:
            raise ValueError(said.same_name(name=name))
        seen.add(name.casefold())
