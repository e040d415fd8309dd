"""Specs from a file, a text or plain data."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import TypeAlias

from panelart.api import given
from panelart.api.given import FilePath, Names
from panelart.diagnostics import Problem, SpecError, Where
from panelart.extensions import leaving_out_too
from panelart.messages import api as of_given
from panelart.messages import spec as said
from panelart.model.panel import Panel
from panelart.pipeline import read, read_at_hand
from panelart.spec.files import why_unreadable
from panelart.spec.members import MARK, split
from panelart.spec.read import TEXT, names_of, panel_names, written_spec
from panelart.spec.translations import AS_WRITTEN

Source: TypeAlias = FilePath | Mapping[str, object]
"""A spec: a path, a YAML text, or the same as plain data.

A `str` that has a line break, begins with `{` or is blank is a text, any other `str` is a path; a `Path` is always a
path. A mapping holds str, int, float, bool, None, the same as scalars of NumPy, lists, tuples and mappings, under the
keys of a YAML spec.
"""


def load(
    source: Source,
    *,
    language: str = "",
    panel: str = "",
    shop: FilePath | None = None,
    folder: FilePath = "",
    without: Names = (),
) -> Panel:
    """Read a spec and resolve it to a panel in mm.

    Args:
        source: A path, a YAML text or plain data. A number in plain data is mm or degrees; "3 mm" and "0.5 in" are read
            as in YAML, and 3 and 3.0 are the same. Where a text is due, 3.0 is the text "3".
        language: A language of the spec to letter in, "longest" for the widest text of each, "" as the spec is written.
        panel: The panel of a spec that holds several; `box.yaml#rear` names it too.
        shop: A file of a shop's figures that takes the place of the one named in the spec.
        folder: Where files named in a text or in plain data are looked for, by default where the program runs. Files
            named in a file are looked for beside it.
        without: Names of installed packages whose parts and processes are left out; `build` is told of them too. A
            `str` is one name.

    Raises:
        SpecError: With everything that is wrong; places are `file:line:column`, in plain data the path of keys.
        TypeError: The source is none of these, or an argument is of another type.
        ValueError: The path names one panel of a set and `panel` another.

    Examples:
        >>> import panelart as pa
        >>> spec = {
        ...     "panelart": 1,
        ...     "panel": {"title": "Lamp box", "size": [80, 50], "sheet": {"material": "steel", "thickness": 1.5}},
        ...     "marking": {"process": "digital-print", "ink": {"name": "black", "colour": "#000000"}},
        ...     "parts": [{"ref": f"H{n}", "part": "led-5", "at": [20 * n, 25], "legend": str(n)} for n in (1, 2, 3)],
        ... }
        >>> pa.load(spec)
        Panel('Lamp box', 80 x 50 mm, 3 parts)
        >>> spec["parts"][1]["at"] = [40, "25 mmm"]
        >>> pa.load(spec)
        Traceback (most recent call last):
        ...
        panelart.diagnostics.SpecError: parts[1].at[1]: error: at: Unknown unit of length 'mmm' in '25 mmm'
          hint: Did you mean 'mm'? Accepted: a number of millimetres, or a number with a unit: mm, cm, in, ", thou, ...
    """
    at_hand = _at_hand(source)
    place = None if shop is None else given.path(shop, "shop")
    wanted = given.text(language, "language") or AS_WRITTEN
    member = given.text(panel, "panel")
    beside = given.path(folder, "folder")
    left_out = given.names(without, "without", "house-rules")
    if not isinstance(at_hand, Path):
        with leaving_out_too(left_out):
            return read_at_hand(at_hand, beside, shop=place, language=wanted, member=member)
    with _readable(at_hand), leaving_out_too(left_out):
        return read(_of_set(given.path(at_hand, "source"), member), place, wanted)


def panels(source: Source) -> tuple[str, ...]:
    """The names of the panels of a spec that holds several, in its order; none for a spec of one panel.

    Raises:
        SpecError: The spec cannot be read.
        TypeError: The source is no spec.

    Examples:
        >>> import panelart as pa
        >>> pa.panels("demo/sets/level-monitor.yaml")
        ('front', 'rear')
    """
    at_hand = _at_hand(source)
    if not isinstance(at_hand, Path):
        return names_of(written_spec(at_hand))
    with _readable(at_hand):
        return panel_names(given.path(at_hand, "source"))


def _of_set(path: Path, member: str) -> Path:
    """The path of one panel of a set. Raises ValueError where the path names another."""
    file, named = split(path)
    if member and named and member != named:
        raise ValueError(f"the path names the panel {named!r}, and panel={member!r} another: name one of them")
    return file.with_name(f"{file.name}{MARK}{member}") if member else path


def _at_hand(source: object) -> Path | str | Mapping[str, object]:
    """What a source is: a path, a text or data. Raises TypeError for what is none."""
    if isinstance(source, Mapping):
        return source
    if isinstance(source, str) and not source.strip():
        where = Where(TEXT, 1, 1)
        raise SpecError([Problem(where=where, says=of_given.empty_spec(), accepts=of_given.accepted_spec())])
    if isinstance(source, str) and ("\n" in source or "\0" in source or source.lstrip().startswith("{")):
        return source
    if isinstance(source, str | os.PathLike):
        return Path(source)
    raise TypeError(f"a spec is a path, a text or a mapping, not {type(source).__name__}")


@contextmanager
def _readable(path: Path) -> Iterator[None]:
    """What the system says of a path that can be no file, as a problem of the spec."""
    try:
        yield
    except OSError as error:
        unreadable = said.spec_unreadable(why_unreadable(error))
        raise SpecError(
            [Problem(where=Where(path.as_posix(), 1, 1), says=unreadable, accepts=said.a_yaml_file())]
        ) from error
