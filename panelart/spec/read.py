"""The spec read: from a file or a text to what was written, and on to the panel, all problems at once."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import cast

import panelart.catalogue
from panelart.diagnostics import Problem, SpecError, Where
from panelart.model.panel import Panel
from panelart.source import yaml
from panelart.source.problems import Problems
from panelart.source.schema import Fields
from panelart.spec import language
from panelart.spec.resolve import Catalogue, Surroundings, resolve
from panelart.spec.tongues import AS_WRITTEN

BUILT_IN: Catalogue = cast("Catalogue", panelart.catalogue)
"""The catalogue that comes with the program."""

MOST_READ = 24_000_000
"""Bytes of the largest file that a spec may name, a picture; texts, drawings and profiles have bounds of their own."""

FINGERPRINT = 10
"""Hexadecimal digits of the fingerprint that stands on every page: two revisions of one panel that share it by chance
would be one in a million millions."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spec:
    """A spec as it was written: the tables of `language` filled in, every value with its place."""

    file: str
    fields: Fields


def read_bytes(path: Path) -> bytes:
    """The bytes of a file, up to one more than any may have, so that a huge file costs no more than that.

    Raises OSError.
    """
    with path.open("rb") as file:
        return file.read(MOST_READ + 1)


def read_spec(data: bytes | str, file: str, problems: Problems) -> Spec:
    """What a spec says. Raises SpecError when it is no YAML mapping; every other problem is added."""
    fields = language.SPEC.parse(yaml.read(data, file), problems)
    assert fields is not None  # the top is a mapping, and a record reads any mapping
    return Spec(file=file, fields=fields)


def read_panel(
    path: Path,
    *,
    read_file: Callable[[Path], bytes] = read_bytes,
    catalogue: Catalogue = BUILT_IN,
    examples: Mapping[str, str] | None = None,
    shop: Path | None = None,
    language: str = AS_WRITTEN,
    further: Callable[[Panel], Iterable[Problem]] | None = None,
) -> Panel:
    """The panel of a spec file; `read_file` reads the spec and the files it names.

    `shop` is a file of a shop's figures that takes the place of the one named in the spec.

    `examples` stand in for the variables' own; `language` is the one to letter in. `further` is what a later stage will
    find wrong with a panel: it is asked as well when the spec has problems that leave a panel to look at, so that all
    is told at once and not stage by stage.

    Raises SpecError with every problem, sorted by place, and with the one problem that the file cannot be read.
    """
    file = path.as_posix()
    try:
        data = read_file(path)
    except OSError as error:
        why = (error.strerror or "no such file").lower()
        problem = Problem(
            where=Where(file, 1, 1), message=f"the spec cannot be read: {why}", hint="accepted: a YAML file"
        )
        raise SpecError([problem]) from error
    around = Surroundings(
        folder=path.parent,
        read_file=read_file,
        catalogue=catalogue,
        examples=dict(examples or {}),
        shop=shop,
        language=language,
    )
    return _panel(data, file, around, further)


def panel_from_text(
    text: str | bytes,
    file: str = "panel.yaml",
    folder: Path | None = None,
    *,
    catalogue: Catalogue = BUILT_IN,
) -> Panel:
    """The panel of a spec at hand; part files are looked for in `folder`, by default where the program runs.

    Raises SpecError with every problem, sorted by place.
    """
    around = Surroundings(folder=folder or Path(), read_file=read_bytes, catalogue=catalogue)
    return _panel(text, file, around)


def _panel(
    data: bytes | str,
    file: str,
    around: Surroundings,
    further: Callable[[Panel], Iterable[Problem]] | None = None,
) -> Panel:
    problems = Problems()
    hashed = hashlib.sha256(data.encode("utf-8") if isinstance(data, str) else data)

    def noted(path: Path) -> bytes:
        named = around.read_file(path)
        hashed.update(named)
        return named

    spec = read_spec(data, file, problems)
    panel = resolve(spec.fields, replace(around, read_file=noted), problems)
    if len(problems) and panel is not None and further is not None:
        for problem in further(panel):
            problems.add(problem.where, problem.message, problem.hint)
    problems.raise_any()
    assert panel is not None  # without a size there is a problem
    return replace(panel, fingerprint=hashed.hexdigest()[:FINGERPRINT])
