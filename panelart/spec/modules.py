"""Modules as specs and module files define them, and what becomes of one where it is placed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from typing import Any, Final, TypeAlias

from panelart.canonical import Struct
from panelart.diagnostics import SpecError, Where, did_you_mean
from panelart.messages import Said
from panelart.messages import spec as spec_said
from panelart.messages import spec_modules as said
from panelart.source import yaml
from panelart.source.nodes import Entry, Node, Placeholder, Scalar, Sequence
from panelart.source.nodes import Mapping as MappingNode
from panelart.source.nouns import NounOf
from panelart.source.problems import Problems
from panelart.source.schema import Value
from panelart.spec import language
from panelart.spec.files import why_unreadable
from panelart.spec.markup import WORDS
from panelart.spec.names import Argument, Names, Placement, named_in, replaced

Placed: TypeAlias = language.PlacedModule | language.ModuleMember
"""A module that is placed, by itself or in a layout."""

MAX_WITHIN: Final = 20
"""The most modules within each other."""

_PART: Final = "part"
_TEXT: Final = "text"


class Parameter(Struct, frozen=True, kw_only=True):
    """What differs between places of a module: its type, and its default where it has one."""

    type: str
    default: Scalar | None
    where: Where


class Module(Struct, frozen=True, kw_only=True):
    """A module as it is written: its body is read anew with the arguments of each place."""

    name: str
    body: MappingNode
    parameters: Mapping[str, Parameter]
    library: Library

    @property
    def where(self) -> Where:
        """Where its body begins."""
        return self.body.where


class Files(Struct, frozen=True, kw_only=True):
    """How the files are read that specs and module files name, each once."""

    read_file: Callable[[Path], bytes]
    problems: Problems
    libraries: dict[Path, Library | None]


class Library:
    """The modules that one file names, its own and those of other files."""

    def __init__(self, folder: Path, entries: Mapping[str, Value[Any]], files: Files, *, own_folder: bool) -> None:
        self.folder = folder
        self.own_folder = own_folder
        self._entries = entries
        self._files = files
        self._made: dict[str, Module | None] = {}

    @property
    def names(self) -> tuple[str, ...]:
        """The names of all its modules."""
        return tuple(self._entries)

    def check(self) -> None:
        """Tell what is wrong with the modules that are written or named here, placed or not."""
        for name, entry in self._entries.items():
            self.find(name, entry.where)

    def find(self, name: str, where: Where, asked: tuple[Path, ...] = ()) -> Module | None:
        """The module of a name; None where there is none, which is added to the problems.

        `asked` are the files that led here.
        """
        if name not in self._entries:
            known = did_you_mean(name, self.names, said.modules()) if self.names else said.no_modules()
            self._files.problems.add(where, said.unknown_module(name), known)
            return None
        if name not in self._made:
            entry = self._entries[name]
            if isinstance(entry.value, MappingNode):
                self._made[name] = _module(name, entry.value, self, self._files.problems)
            else:
                self._made[name] = self._from_file(name, entry, asked)
        return self._made[name]

    def _from_file(self, name: str, file: Value[str], asked: tuple[Path, ...]) -> Module | None:
        problems = self._files.problems
        if Path(file.value).is_absolute() or "\0" in file.value:
            problems.add(file.where, spec_said.file_not_relative(file.value), spec_said.relative_to_spec())
            return None
        path = self.folder / file.value
        if path in asked:
            problems.add(file.where, said.files_in_circle(file.value, name), said.write_module_there())
            return None
        library = _library(path, file, self._files)
        if library is None:
            return None
        if name not in library.names:
            known = did_you_mean(name, library.names, said.modules())
            problems.add(file.where, said.module_not_in_file(file.value, name), known)
            return None
        return library.find(name, file.where, (*asked, path))


def library_of(
    written: tuple[tuple[Value[str], Value[Any]], ...],
    folder: Path,
    read_file: Callable[[Path], bytes],
    problems: Problems,
) -> Library:
    """The modules of a spec, looked through for problems."""
    files = Files(read_file=read_file, problems=problems, libraries={})
    library = Library(folder, {key.value: value for key, value in written}, files, own_folder=True)
    library.check()
    return library


def _library(path: Path, named: Value[str], files: Files) -> Library | None:
    """The modules of a file, read once; None where it cannot be read."""
    if path not in files.libraries:
        files.libraries[path] = _read(path, named, files)
    return files.libraries[path]


def _read(path: Path, named: Value[str], files: Files) -> Library | None:
    problems = files.problems
    try:
        data = files.read_file(path)
    except OSError as error:
        unreadable = said.module_file_unreadable(named.value, why_unreadable(error))
        problems.add(named.where, unreadable, spec_said.relative_to_spec())
        return None
    try:
        top = yaml.read(data, path.as_posix())
    except SpecError as error:
        problems.extend(error)
        return None
    fields = NounOf(language.ModuleFile).parse(top, problems)
    written = None if fields is None else fields.modules
    if written is None:
        return None
    return Library(path.parent, {key.value: value for key, value in written}, files, own_folder=False)


def _module(name: str, node: MappingNode, library: Library, problems: Problems) -> Module:
    """A module as it is written, with its problems told that do not depend on where it is placed."""
    declared = node.get(language.Module.parameters.name)
    parameters = {} if declared is None else _parameters(declared, problems)
    body = MappingNode(
        entries=tuple(entry for entry in node.entries if entry.key.text != language.Module.parameters.name),
        where=node.where,
    )
    _tell_bare_braces(body, parameters, problems)
    NounOf(language.Module).parse(_given(body, dict.fromkeys(parameters)), problems)
    return Module(name=name, body=body, parameters=parameters, library=library)


def _parameters(written: Node, problems: Problems) -> dict[str, Parameter]:
    found: dict[str, Parameter] = {}
    for key, value in language.Module.parameters.kind.parse(written, problems) or ():
        name, given = key.value, value.value
        if name in WORDS:
            problems.add(key.where, said.parameter_name_reserved(name), spec_said.choose_name())
            continue
        if isinstance(given, str):
            found[name] = Parameter(type=given, default=None, where=key.where)
            continue
        default = given.default
        if isinstance(default, Scalar) and given.type != _TEXT and "{" not in default.text:
            with problems.under(language.Parameter.default.name):
                language.PARAMETER_KINDS[given.type].parse(default, problems)
        found[name] = Parameter(type=given.type, default=default, where=key.where)
    return found


def _tell_bare_braces(node: Node, parameters: Mapping[str, Parameter], problems: Problems) -> None:
    """Tell of parameters in braces without quotes, which YAML takes for a mapping."""
    if isinstance(node, Sequence):
        for item in node.items:
            _tell_bare_braces(item, parameters, problems)
    elif isinstance(node, MappingNode) and _is_bare(node, parameters):
        name = node.entries[0].key.text
        problems.add(node.where, said.parameter_without_quotes(name), said.quote_parameter(name))
    elif isinstance(node, MappingNode):
        for entry in node.entries:
            _tell_bare_braces(entry.value, parameters, problems)


def _is_bare(node: Node, parameters: Mapping[str, Any]) -> bool:
    if not isinstance(node, MappingNode) or len(node.entries) != 1:
        return False
    entry = node.entries[0]
    return entry.key.text in parameters and isinstance(entry.value, Scalar) and entry.value.empty


def _given(node: Node, values: Mapping[str, Scalar | None]) -> Node:
    """A node with what its parameters stand for beside every value that names one."""
    match node:
        case Scalar():
            return _given_scalar(node, values)
        case Sequence():
            items = tuple(_given(item, values) for item in node.items)
            return node if _are_same(items, node.items) else Sequence(items=items, where=node.where)
        case MappingNode():
            if _is_bare(node, values):
                return Placeholder(text="", quoted=True, where=node.where, stands_for=None)  # told already
            entries = tuple(_given_entry(entry, values) for entry in node.entries)
            return node if _are_same(entries, node.entries) else MappingNode(entries=entries, where=node.where)


def _given_entry(entry: Entry, values: Mapping[str, Scalar | None]) -> Entry:
    key, value = _given_scalar(entry.key, values), _given(entry.value, values)
    return entry if key is entry.key and value is entry.value else Entry(key=key, value=value)


def _are_same(made: tuple[object, ...], were: tuple[object, ...]) -> bool:
    return all(one is other for one, other in zip(made, were, strict=True))


def _given_scalar(scalar: Scalar, values: Mapping[str, Scalar | None]) -> Scalar:
    names = named_in(scalar.text) & values.keys() if "{" in scalar.text else frozenset()
    if not names:
        return scalar
    return Placeholder(
        text=scalar.text, quoted=scalar.quoted, where=scalar.where, stands_for=_stands_for(scalar, names, values)
    )


def _stands_for(scalar: Scalar, names: frozenset[str], values: Mapping[str, Scalar | None]) -> Scalar | None:
    """What a value is at one place: as the argument where it is that alone, else put together; None if not known."""
    known = {name: value for name in names if (value := values[name]) is not None}
    if len(known) < len(names):
        return None
    alone = known.get(scalar.text.strip().removeprefix("{").removesuffix("}").strip())
    if alone is not None:
        return Scalar(text=alone.text, quoted=alone.quoted, where=scalar.where)
    text = replaced(scalar.text, lambda name: known[name].text if name in known else None)
    return Scalar(text=text, quoted=False, where=scalar.where)


# --- a module where it is placed


class Given(Struct, frozen=True, kw_only=True):
    """A module with the arguments of one place: what it holds, and the names that hold within."""

    fields: language.Module
    names: Names


class Binder:
    """Gives modules the arguments of their places; what is given alike is read once."""

    def __init__(self, library: Library, problems: Problems, known_part: Callable[[str, Where], object]) -> None:
        self._library = library
        self._problems = problems
        self._known_part = known_part
        self._read: dict[tuple[Where, tuple[tuple[str, bool], ...]], language.Module] = {}

    def given(self, placed: Placed, names: Names, libraries: tuple[Module, ...]) -> Given | None:
        """What a placed module is; None where that cannot be known, which is added to the problems.

        `libraries` are the modules that it is placed in, outermost first.
        """
        name = placed.module
        if name is None:
            return None
        where = placed.where(language.PlacedModule.module)
        library = libraries[-1].library if libraries else self._library
        module = library.find(name, where)
        if module is None or not self._may_stand(module, libraries, where):
            return None
        arguments = self._arguments(module, placed, names)
        if arguments is None:
            return None
        placement = Placement(module=name, defined=module.where, where=placed.begins, outer=names.placement)
        prefix = replaced(placed.prefix, names.get)
        inner = Names(
            arguments={parameter: argument for parameter, (argument, _) in arguments.items()},
            prefixes=(names.prefixes[0] + prefix, *names.prefixes) if prefix else names.prefixes,
            placement=placement,
            folder=None if module.library.own_folder else module.library.folder,
        )
        values = {parameter: value for parameter, (_, value) in arguments.items()}
        return Given(fields=self._fields(module, values, placement), names=inner)

    def find(self, placed: Placed, libraries: tuple[Module, ...]) -> Module | None:
        """The module that is placed, which is known."""
        library = libraries[-1].library if libraries else self._library
        return library.find(placed.module or "", placed.begins)

    def _may_stand(self, module: Module, libraries: tuple[Module, ...], where: Where) -> bool:
        if any(module is outer for outer in libraries):
            chain = [*(outer.name for outer in libraries), module.name]
            self._problems.add(where, said.module_in_itself(chain[chain.index(module.name) :]), said.other_module())
            return False
        if len(libraries) >= MAX_WITHIN:
            self._problems.add(where, said.modules_too_deep(MAX_WITHIN), said.fewer_modules_within())
            return False
        return True

    def _fields(self, module: Module, values: Mapping[str, Scalar], placement: Placement) -> language.Module:
        key = (module.where, tuple((value.text, value.quoted) for value in values.values()))
        if key not in self._read:
            with self._problems.within(placement.told):
                fields = NounOf(language.Module).parse(_given(module.body, values), self._problems)
            assert fields is not None  # it is a mapping
            self._read[key] = fields
        return self._read[key]

    def _arguments(self, module: Module, placed: Placed, names: Names) -> dict[str, tuple[Argument, Scalar]] | None:
        """Each parameter's argument, and its value as a figure or a name; None where one is missing or wrong."""
        written = self._written(module, placed)
        complete = len(written) == len(placed.with_) and not placed.misread(language.PlacedModule.with_)
        found: dict[str, tuple[Argument, Scalar]] = {}
        missing: list[str] = []
        for name, parameter in module.parameters.items():
            node = written.get(name, parameter.default)
            if node is None:
                missing.append(name)
                continue
            holding = names if name in written else Names(arguments={each: found[each][0] for each in found})
            made = _argument(node, holding)
            complete = self._is_of_type(made[1], name, parameter, module, written=name in written) and complete
            found[name] = made
        if missing and complete:
            self._tell_missing(module, missing, placed)
        return found if complete and not missing else None

    def _written(self, module: Module, placed: Placed) -> dict[str, Scalar]:
        """The values that are given, by parameter; of others is told."""
        written: dict[str, Scalar] = {}
        for key, value in placed.with_:
            if key.value not in module.parameters:
                self._tell_unknown(module, key)
            elif isinstance(value.value, Scalar):
                written[key.value] = value.value
        return written

    def _tell_unknown(self, module: Module, key: Value[str]) -> None:
        names = tuple(module.parameters)
        hint: Said = did_you_mean(key.value, names, said.parameters()) if names else said.no_parameters(module.name)
        self._problems.add(key.where, said.unknown_parameter(module.name, key.value), hint)

    def _tell_missing(self, module: Module, missing: list[str], placed: Placed) -> None:
        where = module.parameters[missing[0]].where
        example = "{" + ", ".join(f"{name}: …" for name in missing) + "}"
        told = said.missing_parameters(module.name, missing, str(where))
        self._problems.add(placed.where(language.PlacedModule.with_), told, said.write_with(example))

    def _is_of_type(self, value: Scalar, name: str, parameter: Parameter, module: Module, *, written: bool) -> bool:
        told = not written and parameter.default is not None and "{" not in parameter.default.text
        problems = Problems() if told else self._problems  # told where the parameter is declared
        wrap = partial(_of_parameter, name=name, module=module.name, where=parameter.where)
        with problems.within(wrap), problems.under(name):
            read = language.PARAMETER_KINDS[parameter.type].parse(value, problems)
            if read is not None and parameter.type == _PART:
                return self._known_part(read, value.where) is not None
        return read is not None


def _argument(node: Scalar, names: Names) -> tuple[Argument, Scalar]:
    """What is given by a value, where these names hold: as words, and as a figure or a name."""
    plain = replaced(node.text, names.get)
    meant = Scalar(text=plain, quoted=node.quoted and plain == node.text, where=node.where)
    return Argument(written=node.text, where=node.where, names=names, plain=plain), meant


def _of_parameter(message: Said, name: str, module: str, where: Where) -> Said:
    return said.of_parameter(message, name, module, str(where))
