"""Where the parts of a panel are written in the text of its spec, so that one can be changed there.

A part that is listed has a line of its own. One that a repeat, a module or another layout helper makes has none: what
is written there holds for all that it makes.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from panelart.diagnostics import Problem, SpecError, Where, did_you_mean
from panelart.messages import spec as said
from panelart.messages import spec_modules as modules_said
from panelart.source import yaml
from panelart.source.edit import Path
from panelart.source.nodes import Mapping, Node, Scalar, Sequence
from panelart.spec import language

_NUMBER: Final = re.compile(r"\{[^{}]*\}")

_COUNTED: Final = r"-?\d+|[A-Z]+"
_ANY: Final = r".+"
"""What may stand in the place of braces: the number of a copy, the argument of a module."""


def path_of_part(text: str, ref: str, file: str = "") -> Path:
    """The path of the part with this ref, ('parts', 3), to be edited by `source.edit`.

    Raises SpecError when no part has the ref, and when it is made by a repeat or another helper.
    """
    own, made = _listed(text, file)
    if ref in own:
        return own[ref]
    for written, where in made:
        if _makes(written, ref, _COUNTED):
            raise SpecError([Problem(where=where, says=said.part_made_with_others(ref), accepts=said.change_for_all())])
    for written, where in _in_modules(text, file):
        if _makes(written, ref, _ANY):
            raise SpecError(
                [Problem(where=where, says=modules_said.part_of_module(ref), accepts=said.change_for_all())]
            )
    hint = did_you_mean(ref, own, said.refs())
    raise SpecError([Problem(where=Where(file, 1, 1), says=said.unknown_ref(ref), accepts=hint)])


def paths_of_parts(text: str, file: str = "") -> dict[str, Path]:
    """The paths of all parts with a line of their own, by ref; the first of two that share one."""
    return _listed(text, file)[0]


def _listed(text: str, file: str) -> tuple[dict[str, Path], list[tuple[str, Where]]]:
    """The parts with lines of their own, and every text inside other items, which a ref may be made from."""
    parts = yaml.read(text, file).get(language.Spec.parts.name)
    own: dict[str, Path] = {}
    made: list[tuple[str, Where]] = []
    for number, item in enumerate(parts.items if isinstance(parts, Sequence) else ()):
        ref = item.get(language.Member.ref.name) if isinstance(item, Mapping) else None
        if isinstance(ref, Scalar):
            own.setdefault(ref.text, (language.Spec.parts.name, number))
        else:
            made += [(scalar.text, scalar.where) for scalar in _scalars(item)]
    return own, made


def _in_modules(text: str, file: str) -> Iterator[tuple[str, Where]]:
    """The refs of parts in modules, each with the prefixes that modules are placed with, and with none."""
    top = yaml.read(text, file)
    modules = top.get(language.Spec.modules.name)
    if modules is None:
        return
    refs = list(_under(language.Member.ref.name, modules))
    prefixes = [prefix for prefix in _under(language.PlacedModule.prefix.name, top) if prefix.text]
    yield from ((ref.text, ref.where) for ref in refs)
    yield from ((prefix.text + ref.text, ref.where) for prefix in prefixes for ref in refs)
    # Of a module in another file only the prefix is here.
    yield from ((prefix.text + "{}", prefix.where) for prefix in prefixes)


def _under(key: str, node: Node) -> Iterator[Scalar]:
    """Every value that is written under a key, however deep."""
    match node:
        case Sequence():
            for item in node.items:
                yield from _under(key, item)
        case Mapping():
            for entry in node.entries:
                if entry.key.text == key and isinstance(entry.value, Scalar):
                    yield entry.value
                yield from _under(key, entry.value)
        case _:
            return


def _scalars(node: Node) -> Iterator[Scalar]:
    match node:
        case Scalar():
            yield node
        case Sequence():
            for item in node.items:
                yield from _scalars(item)
        case Mapping():
            for entry in node.entries:
                yield from _scalars(entry.value)


def _makes(written: str, ref: str, filling: str) -> bool:
    """Whether a text, with something for its braces, can be the ref."""
    pattern = f"(?:{filling})".join(re.escape(piece) for piece in _NUMBER.split(written))
    return re.fullmatch(pattern, ref) is not None
