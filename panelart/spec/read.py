"""The spec read: from a file or a text to what was written, and on to the panel, all problems at once."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable, Iterable
from collections.abc import Mapping as Table
from pathlib import Path
from typing import Final, cast

from msgspec.structs import replace

import panelart.catalogue
from panelart.canonical import Struct
from panelart.catalogue.installed import Used
from panelart.diagnostics import Problem, SpecError, Where
from panelart.messages import Message, diagnostics, legends
from panelart.messages import spec as said
from panelart.model.panel import Opposite, Panel
from panelart.model.places import apart
from panelart.source import yaml
from panelart.source.data import encoded, nodes_of
from panelart.source.facts import NO_FACTS, Facts, facts_of, plain
from panelart.source.nodes import Mapping, Node
from panelart.source.nouns import Noun, NounOf
from panelart.source.problems import Problems
from panelart.spec import language
from panelart.spec.files import why_unreadable
from panelart.spec.members import BoxOf, box_of, members, split
from panelart.spec.resolve import Catalogue, Environment, resolve
from panelart.spec.translations import AS_WRITTEN

BUILT_IN: Catalogue = cast("Catalogue", panelart.catalogue)
"""The catalogue that comes with the program."""

MAX_READ = 24_000_000
"""Bytes of the largest file that a spec may name, a picture; texts, drawings and profiles have bounds of their own."""

FINGERPRINT = 10
"""Hexadecimal digits of the fingerprint that stands on every page: two revisions of one panel that share it by chance
would be one in a million millions."""


class Spec(Struct, frozen=True, kw_only=True):
    """A spec as it was written: the tables of `language` filled in, every value with its place."""

    file: str
    fields: Noun


def read_bytes(path: Path) -> bytes:
    """The bytes of a file, up to one more than any may have, so that a huge file costs no more than that.

    Raises OSError.
    """
    with path.open("rb") as file:
        return file.read(MAX_READ + 1)


def read_spec(data: bytes | str, file: str, problems: Problems) -> Spec:
    """What a spec says. Raises SpecError when it is no YAML mapping; every other problem is added."""
    fields = NounOf(language.Spec).parse(yaml.read(data, file), problems)
    assert fields is not None  # the top is a mapping, and a record reads any mapping
    return Spec(file=file, fields=fields)


TEXT = "<text>"
DATA = "<data>"
"""What stands in messages for a spec that is at hand and no file."""


class Written(Struct, frozen=True, kw_only=True):
    """A spec at hand: its nodes, the name that stands for it in messages, and the bytes that its fingerprint is of."""

    top: Mapping
    name: str
    hashed: bytes


def read_panel(
    path: Path,
    *,
    read_file: Callable[[Path], bytes] = read_bytes,
    catalogue: Catalogue = BUILT_IN,
    examples: Table[str, str] | None = None,
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
    path, member = split(path)
    data = _data(path, read_file)
    environment = Environment(
        folder=path.parent,
        read_file=read_file,
        catalogue=catalogue,
        examples=dict(examples or {}),
        shop=shop,
        language=language,
    )
    return panel_of(_from_text(data, path.as_posix()), environment, further, member)


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
    environment = Environment(folder=folder or Path(), read_file=read_bytes, catalogue=catalogue)
    return panel_of(_from_text(text, file), environment)


def panel_at_hand(
    spec: str | Table[str, object],
    folder: Path,
    *,
    member: str = "",
    shop: Path | None = None,
    language: str = AS_WRITTEN,
    further: Callable[[Panel], Iterable[Problem]] | None = None,
) -> Panel:
    """The panel of a spec that is a YAML text or the same as plain data; files that it names are in `folder`.

    `member` is the panel of a set; the rest is as in `read_panel`. Raises SpecError with every problem.
    """
    environment = Environment(folder=folder, read_file=read_bytes, catalogue=BUILT_IN, shop=shop, language=language)
    return panel_of(written_spec(spec), environment, further, member)


def written_spec(spec: str | Table[str, object]) -> Written:
    """The nodes of a YAML text or of plain data. Raises SpecError when they cannot be read."""
    if isinstance(spec, str):
        return _from_text(spec, TEXT)
    top = nodes_of(spec, DATA)
    return Written(top=top, name=DATA, hashed=encoded(top))


def _from_text(text: str | bytes, file: str) -> Written:
    # Half a surrogate pair cannot be encoded; the reader refuses it with its place.
    hashed = text.encode("utf-8", "surrogatepass") if isinstance(text, str) else text
    return Written(top=yaml.read(text, file), name=file, hashed=hashed)


class _Files:
    """Reads the files that a spec names, and keeps what the fingerprint and the list of them are made of."""

    def __init__(self, data: bytes, environment: Environment) -> None:
        self.environment = environment
        self.hashed = hashlib.sha256(data)
        self.found: dict[str, str] = {}
        self.catalogue = Used() if environment.catalogue is BUILT_IN else environment.catalogue

    def read(self, path: Path) -> bytes:
        """The bytes of a file. Raises OSError."""
        named = self.environment.read_file(path)
        self.hashed.update(named)
        self.found[os.path.relpath(path, self.environment.folder)] = hashlib.sha256(named).hexdigest()[:FINGERPRINT]
        return named

    def add_used(self) -> None:
        """Count in the part files of extensions that parts of the panel stand in."""
        for file in self.catalogue.used if isinstance(self.catalogue, Used) else ():
            self.hashed.update(file.data)
            self.found[str(file)] = hashlib.sha256(file.data).hexdigest()[:FINGERPRINT]


def panel_of(
    written: Written,
    environment: Environment,
    further: Callable[[Panel], Iterable[Problem]] | None = None,
    member: str = "",
) -> Panel:
    """The panel of a spec at hand, `member` of a set. Raises SpecError with every problem, sorted by place."""
    problems = Problems()
    files = _Files(written.hashed, environment)
    top = written.top
    panels = members(top, problems)
    box = box_of(top, panels, problems) if panels else None
    node = _chosen(top, panels, member, written.name, problems)
    fields = NounOf(language.Spec).parse(node, problems)
    assert fields is not None  # it is a mapping, and a record reads any mapping
    noting = replace(environment, read_file=files.read, catalogue=files.catalogue)
    panel = resolve(fields, noting, problems)
    if member:
        files.hashed.update(f"#{member}".encode())
    if panel is not None and box is not None:
        panel = _in_box(panel, member, box, panels, noting)
    if panel is not None and further is not None:
        _tell_further(panel, further, problems)
    problems.raise_any()
    files.add_used()
    assert panel is not None  # without a size there is a problem
    named, places = apart(panel)
    return replace(
        named,
        places=places,
        fingerprint=files.hashed.hexdigest()[:FINGERPRINT],
        facts=_facts(fields, None if box is None else top.get(language.Spec.box.name), panel),
        files=tuple(sorted(files.found.items())),
        member=member,
    )


_FONT_NOT_OPENED: Final = legends.font_not_opened(legend="", reason="").id


def _tell_further(panel: Panel, further: Callable[[Panel], Iterable[Problem]], problems: Problems) -> None:
    """What a later stage will find wrong is told with the problems of the spec, where there are any.

    A font that cannot be read is told where it is named, and not again at each text that is set in it.
    """
    if len(problems):
        for problem in further(panel):
            if not (isinstance(problem.says, Message) and problem.says.id == _FONT_NOT_OPENED):
                problems.add(problem.where, problem.says, problem.accepts)


def _facts(fields: Noun, closing: Node | None, panel: Panel) -> Facts:
    """What the spec says of a panel, copies and modules written out, with the box that it closes."""
    facts = facts_of(fields).without(language.Spec.modules.name)
    parts = tuple(part.facts for part in panel.parts if part.facts is not NO_FACTS)
    for key, written in ((language.Spec.parts.name, parts), *panel.facts.values):
        facts = facts.with_value(key, written)
    return facts if closing is None else facts.with_value(language.Spec.box.name, plain(closing))


def _data(path: Path, read_file: Callable[[Path], bytes]) -> bytes:
    try:
        return read_file(path)
    except OSError as error:
        unreadable = said.spec_unreadable(why_unreadable(error))
        problem = Problem(where=Where(path.as_posix(), 1, 1), says=unreadable, accepts=said.a_yaml_file())
        raise SpecError([problem]) from error


def panel_names(path: Path, read_file: Callable[[Path], bytes] = read_bytes) -> tuple[str, ...]:
    """The names of the panels of a spec that holds several; none for one panel, or where one is named.

    Raises SpecError when the file cannot be read or is no YAML mapping.
    """
    file, member = split(path)
    if member:
        return ()
    return names_of(_from_text(_data(file, read_file), file.as_posix()))


def names_of(written: Written) -> tuple[str, ...]:
    """The names of the panels of a spec at hand; none for one panel."""
    return tuple(members(written.top, Problems()))


def _chosen(top: Mapping, panels: dict[str, Mapping], member: str, file: str, problems: Problems) -> Mapping:
    """The spec of the panel that is named. Raises SpecError when there is none of that name, or none is named."""
    if panels and member in panels:
        return panels[member]
    if not panels and not member and top.get(language.Spec.panels.name) is None:
        return top
    name = Path(file).name
    if panels:
        told = said.unknown_panel(member) if member else said.panel_not_chosen()
        names = list(panels) if file in (TEXT, DATA) else [f"{name}#{one}" for one in panels]
        problems.add(top.where, told, diagnostics.accepted(names))
    elif top.get(language.Spec.panels.name) is None:
        problems.add(top.where, said.only_one_panel(member), diagnostics.accepted([name]))
    raise problems.error()


def _in_box(panel: Panel, member: str, box: BoxOf, panels: dict[str, Mapping], environment: Environment) -> Panel:
    """The panel with the one opposite, and with no more room behind it than the box has."""
    name = box.opposite(member)
    if name is None:
        return panel
    problems = Problems()
    fields = NounOf(language.Spec).parse(panels[name], problems)
    other = None if fields is None else resolve(fields, environment, problems)
    room = box.depth if panel.depth_behind is None else min(panel.depth_behind, box.depth)
    if other is None or len(problems):  # told when that panel itself is read
        return replace(panel, depth_behind=room)
    opposite = Opposite(name=name, panel=other, depth=box.depth, clearance=box.clearance, where=box.where)
    return replace(panel, depth_behind=room, opposite=opposite)
