"""Plain data to nodes that know their places: what a program hands over in the place of a YAML text.

The nodes are those that the same data written as YAML would give, so that whatever reads them, reads and refuses the
same. A number is what it is written as in a spec: 3 and 3.0 are alike, and 3.0 where a text is due is the text 3.
"""

from __future__ import annotations

import json
import math
import re
import sys
from collections.abc import Mapping as Table
from typing import Any, Final

from panelart.diagnostics import Where
from panelart.messages import quoted, source, source_edit
from panelart.messages import source_data as said
from panelart.source.nodes import Entry, Mapping, Node, Scalar, Sequence
from panelart.source.problems import Problems
from panelart.source.written import figure
from panelart.source.yaml import MAX_BYTES, MAX_DEPTH, MAX_NODES, code_point, unprintable

_LONGEST: Final = 40
"""Digits that a number may have; a longer one with a decimal point is written with an exponent."""

_WORD: Final = re.compile(r"[A-Za-z_][A-Za-z0-9_-]*")


def nodes_of(data: Table[str, object], name: str) -> Mapping:
    """The nodes of a mapping; in messages `name` is the whole, a path of keys (`parts[2].at`) what is in it.

    Raises SpecError with every problem found: values that are not plain, numbers that are infinite or none, keys that
    are the same when written, characters that a spec may not have, too large, too deep (data that holds itself is).
    """
    problems = Problems()
    node = _Reader(name, problems).whole(data)
    problems.raise_any()
    return node


def encoded(node: Node) -> bytes:
    """Nodes as bytes that are the same for nodes that say the same, wherever they stand; what is hashed."""
    return _encoded(node).encode("utf-8")


def _encoded(node: Node) -> str:
    match node:
        case Scalar():
            return json.dumps(node.text) if node.quoted else node.text
        case Sequence():
            return f"[{','.join(map(_encoded, node.items))}]"
        case Mapping():
            return f"{{{','.join(f'{json.dumps(entry.key.text)}:{_encoded(entry.value)}' for entry in node.entries)}}}"


def _plain(value: object) -> object:
    """A scalar of NumPy as Python's own, other values as they are.

    A float of another precision is the shortest decimal that is meant: np.float32(0.1) is 0.1, not 0.10000000149.
    """
    numpy: Any = sys.modules.get("numpy")  # who has a scalar of it has imported it
    if numpy is None or not isinstance(value, numpy.generic):
        return value
    return float(str(value)) if isinstance(value, numpy.floating) else value.item()


class _Reader:
    """Makes the nodes, counting what is made."""

    def __init__(self, name: str, problems: Problems) -> None:
        self._name = name
        self._problems = problems
        self._values = 0
        self._characters = 0
        self._open: list[object] = []

    def whole(self, data: Table[str, object]) -> Mapping:
        """The mapping at the top."""
        self._open.append(data)
        return self._mapping(data, "", 1)

    def _mapping(self, data: Table[str, object], path: str, depth: int) -> Mapping:
        where = self._place(path, depth)
        entries: dict[str, Entry] = {}
        for given, value in data.items():
            key = self._key(given, path)
            if key is None:
                continue
            if key.text in entries:
                self._problems.add(key.where, said.duplicate_key(key.text), source.each_key_once())
                continue
            entries[key.text] = Entry(key=key, value=self._node(value, key.where.key, depth + 1))
        return Mapping(entries=tuple(entries.values()), where=where)

    def _node(self, value: object, path: str, depth: int) -> Node:
        if not isinstance(value, Table | list | tuple):
            return self._scalar(value, self._place(path, depth - 1))
        if any(value is above for above in self._open):
            where = self._place(path, 0)
            self._problems.add(where, said.holds_itself(), said.plain_values())
            return Scalar(text="", quoted=True, where=where)
        self._open.append(value)
        node = self._mapping(value, path, depth) if isinstance(value, Table) else self._sequence(value, path, depth)
        self._open.pop()
        return node

    def _sequence(self, value: list[object] | tuple[object, ...], path: str, depth: int) -> Sequence:
        where = self._place(path, depth)
        items = tuple(self._node(item, f"{path}[{number}]", depth + 1) for number, item in enumerate(value))
        return Sequence(items=items, where=where)

    def _scalar(self, value: object, where: Where) -> Scalar:
        match _plain(value):
            case None:
                return Scalar(text="", quoted=False, where=where)
            case str() as text:
                return Scalar(text=self._text(str.__str__(text), where), quoted=True, where=where)
            case bool() | int() | float() as number:
                return Scalar(text=self._number(number, where), quoted=False, where=where)
            case _:
                self._problems.add(where, said.unsupported_type(type(value).__name__), said.plain_values())
                return Scalar(text="", quoted=True, where=where)

    def _text(self, text: str, where: Where) -> str:
        self._characters += len(text)
        if self._characters > MAX_BYTES:
            self._problems.add(where, said.too_much_text(maximum=MAX_BYTES), said.shorten_texts())
            raise self._problems.error()
        odd = unprintable(text)
        if odd is not None:
            self._problems.add(where, source.unprintable(code_point(text[odd])), source.printable_text())
        return text

    def _number(self, value: float, where: Where) -> str:
        if isinstance(value, bool):
            return "true" if value else "false"
        if isinstance(value, int):
            if abs(value) >= 10**_LONGEST:
                self._problems.add(where, said.number_too_long(), said.shorter_number())
                return ""
            return str(int(value))
        plain = float(value)
        if not math.isfinite(plain):
            self._problems.add(where, source_edit.not_finite(str(plain)), said.finite_number())
            return ""
        text = figure(plain)
        return text if len(text) <= _LONGEST else repr(plain)

    def _key(self, key: object, path: str) -> Scalar | None:
        """A key at its own path; None, with a problem, for what is none."""
        given = _plain(key)
        if isinstance(given, bool) or not isinstance(given, str | int | float) or given == "":
            where = self._place(path, 0)
            found = source.key_not_text("''") if given == "" else said.unsupported_key(type(given).__name__)
            self._problems.add(where, found, said.plain_keys())
            return None
        where = self._place(path, 0)
        text = self._text(str.__str__(given), where) if isinstance(given, str) else self._number(given, where)
        step = text if _WORD.fullmatch(text) and len(text) <= _LONGEST else f"[{quoted(text)}]"
        joint = "." if path and not step.startswith("[") else ""
        return Scalar(text=text, quoted=isinstance(given, str), where=where._replace(key=f"{path}{joint}{step}"))

    def _place(self, path: str, depth: int) -> Where:
        self._values += 1
        where = Where(self._name, self._values, 1, path or self._name)
        if self._values > MAX_NODES:
            self._problems.add(where, source.too_many_values(maximum=MAX_NODES), source.fewer_values())
            raise self._problems.error()
        if depth > MAX_DEPTH:
            self._problems.add(where, source.nested_too_deep(maximum=MAX_DEPTH), source.fewer_levels())
            raise self._problems.error()
        return where
