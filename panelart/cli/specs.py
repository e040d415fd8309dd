"""Which specs are meant by what was typed: files, folders, patterns such as `panels/*.yaml`."""

from __future__ import annotations

import glob
import sys
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import Final

from panelart.cli.options import YAML
from panelart.cli.usage import refuse
from panelart.messages import cli as said

_FIRST_KEY: Final = "panelart:"
"""How a line of a spec begins that no other file has."""

_OTHER_KEYS: Final = "panelart-"
"""How a line begins in part files, module files and the like, and in no spec."""

_HEAD: Final = 65_536
"""Within so many bytes of a file that line is looked for."""


def are_several(typed: Sequence[Path]) -> bool:
    """Whether more than one spec may be meant, so that each is told by name; a folder is several."""
    return len(typed) > 1 or typed[0].is_dir() or _is_pattern(typed[0])


def specs_of(typed: Iterable[Path]) -> tuple[Path, ...]:
    """The specs meant, each once, in the order typed; those of a folder and of a pattern in the order of their names.

    In folders and by patterns those are taken that begin as a spec does. Files that are typed are taken whatever is in
    them, but for files of parts or modules, which a shell's own patterns give too: these are told. Raises Refused where
    a folder or a pattern has none.
    """
    found = dict.fromkeys(spec for each in dict.fromkeys(typed) for spec in _specs(each))
    if not found:
        refuse("SPEC", said.no_spec_among_files(), said.what_a_spec_begins_with())
    return tuple(found)


def by_panel(specs: Iterable[Path]) -> tuple[Path, ...]:
    """The specs with those of several panels as one for each panel; what cannot be read stays, to be told later."""
    from panelart.diagnostics import SpecError
    from panelart.spec.read import panel_names

    found: list[Path] = []
    for spec in specs:
        try:
            names = panel_names(spec) if _may_hold_several(spec) else ()
        except (SpecError, OSError):
            names = ()
        found += [spec.with_name(f"{spec.name}#{name}") for name in names] or [spec]
    return tuple(found)


def _may_hold_several(spec: Path) -> bool:
    """Whether a spec has the word for it, however its key is written: most have not, and need not be read twice."""
    data = spec.read_bytes() if spec.is_file() else b""
    return any(sign in data for sign in (b"panels", b"\\", b"\0"))


def _specs(typed: Path) -> Iterator[Path]:
    if typed.is_dir():
        files = (path for path in typed.rglob("*") if path.suffix.lower() in YAML and not _hidden(path, typed))
    elif _is_pattern(typed):
        files = (Path(name) for name in glob.glob(str(typed), recursive=True))  # noqa: PTH207  # of any root, also none
    else:
        if not _is_other_file(typed):
            yield typed
        return
    specs = sorted(path for path in files if path.is_file() and _FIRST_KEY in _keys(path))
    if not specs:
        refuse("SPEC", said.no_spec_there(typed.as_posix()), said.what_a_spec_begins_with())
    yield from specs


def _is_other_file(typed: Path) -> bool:
    """Whether it is a file of parts or modules, which is told."""
    keys = _keys(typed)
    other = bool(keys) and _FIRST_KEY not in keys
    if other:
        print(said.passed_over(typed.as_posix()), file=sys.stderr)
    return other


def _is_pattern(typed: Path) -> bool:
    return glob.has_magic(str(typed)) and not typed.exists()


def _hidden(path: Path, below: Path) -> bool:
    return any(name.startswith(".") for name in path.relative_to(below).parts)


def _keys(path: Path) -> set[str]:
    """With which of the keys lines near the head of a file begin; none if it cannot be read, which is told later."""
    try:
        with path.open("rb") as file:
            head = file.read(_HEAD)
    except OSError:
        return set()
    lines = head.decode("utf-8-sig", "replace").splitlines()
    return {key for key in (_FIRST_KEY, _OTHER_KEYS) if any(line.startswith(key) for line in lines)}
