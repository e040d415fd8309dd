"""What a noun says, apart from where it stands: its facts as plain values, defaults filled in.

Facts are made from the declared keys alone, so that a key that is declared is compared and written without a further
word. Two specs with the same facts differ in remarks, order of keys and spelling of numbers only.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from typing import Any, Final, TypeAlias

from panelart.source import nodes
from panelart.source.nouns import Noun, keys_of
from panelart.source.schema import Value

Plain: TypeAlias = "bool | int | float | str | tuple[Plain, ...] | Facts | None"
"""A value without its place; lengths in mm, angles in degrees."""

_SUFFIXES: Final = {"mm": "_mm", "degrees": "_deg", "%": "_percent"}


@dataclass(frozen=True, slots=True)
class Facts:
    """A noun's facts: `values` by key, `units` of those keys that hold numbers with a unit.

    `noun` is its name in the language, '' for a mapping with free keys. `name` tells it from others in a list: a ref,
    a rule with what it is waived on, the words of a text.
    """

    noun: str
    values: tuple[tuple[str, Plain], ...]
    units: tuple[tuple[str, str], ...] = ()
    name: str = ""

    def __getitem__(self, key: str) -> Plain:
        return dict(self.values)[key]

    def with_value(self, key: str, value: Plain, unit: str = "") -> Facts:
        """The same with one value in the place of what it was, or behind the others, in a `unit` if one is given."""
        values = tuple({**dict(self.values), key: value}.items())
        units = tuple({**dict(self.units), key: unit}.items()) if unit else self.units
        return Facts(self.noun, values, units, self.name)


NO_FACTS: Final = Facts("", ())
"""Those of what was not read from a file."""


@dataclass(frozen=True, slots=True)
class Change:
    """A fact that is not what it was.

    `path` leads to it from the top: keys, and names or numbers of list entries. `old` and `new` are None where there
    is none. `unit` is that of the key, '' where it has none.
    """

    path: tuple[str, ...]
    old: Plain
    new: Plain
    unit: str


def facts_of(noun: Noun) -> Facts:
    """The facts of a noun that was read without problems."""
    keys = tuple(keys_of(type(noun)))
    values = tuple((key.name, plain(noun[key])) for key in keys)
    units = tuple((key.name, key.kind.unit) for key in keys if key.kind.unit)
    return Facts(noun.read.record.name, values, units, _name(dict(values)))


def _name(values: Mapping[str, Plain]) -> str:
    for key in ("ref", "name", "rule", "title", "text", "symbol", "why"):
        told = values.get(key)
        if isinstance(told, str) and told:
            on = values.get("on")
            return told if on is None else f"{told} on {_listed(on)}"
    around = values.get("around")
    return "" if around is None else _listed(around)


def _listed(value: Plain) -> str:
    return ", ".join(map(str, value)) if isinstance(value, tuple) else str(value)


def plain(value: Any) -> Plain:
    """A value as a kind gives it, without its places. Raises TypeError for what no kind gives."""
    match value:
        case None | bool() | int() | float() | str():
            return value
        case Noun():
            return facts_of(value)
        case Value():
            return plain(value.value)
        case nodes.Scalar():
            return value.text
        case nodes.Sequence():
            return tuple(plain(item) for item in value.items)
        case nodes.Mapping():
            return Facts("", tuple((entry.key.text, plain(entry.value)) for entry in value.entries))
        case tuple():
            return _plain_items(value)
        case _:
            raise TypeError(f"{type(value).__name__} is no value of a key")


def _plain_items(items: tuple[Any, ...]) -> Plain:
    """A list's items without their places; the entries of a mapping with free keys as facts."""
    if items and all(_is_entry(each) for each in items):
        return Facts("", tuple((str(key.value), plain(item)) for key, item in items))
    return tuple(plain(each) for each in items)


def _is_entry(value: Any) -> bool:
    return isinstance(value, tuple) and len(value) == 2 and all(isinstance(one, Value) for one in value)


def changes(old: Plain, new: Plain, path: tuple[str, ...] = (), unit: str = "") -> Iterator[Change]:
    """Every fact that differs, in the order of the new facts; entries of lists are paired by name, then in order."""
    if _same(old, new):
        return
    if isinstance(old, Facts) and isinstance(new, Facts) and old.noun == new.noun:
        yield from _changed_keys(old, new, path)
    elif isinstance(old, tuple) and isinstance(new, tuple) and _holds_facts(old, new):
        yield from _changed_entries(old, new, path)
    else:
        yield Change(path, old, new, unit)


def _same(old: Plain, new: Plain) -> bool:
    return type(old) is type(new) and old == new if isinstance(old, bool) or isinstance(new, bool) else old == new


def _holds_facts(*lists: tuple[Plain, ...]) -> bool:
    return any(isinstance(each, Facts) for entries in lists for each in entries)


def _changed_keys(old: Facts, new: Facts, path: tuple[str, ...]) -> Iterator[Change]:
    before, after = dict(old.values), dict(new.values)
    units = {**dict(old.units), **dict(new.units)}
    for key in dict.fromkeys((*after, *before)):
        yield from changes(before.get(key), after.get(key), (*path, key), units.get(key, ""))


def _changed_entries(old: tuple[Plain, ...], new: tuple[Plain, ...], path: tuple[str, ...]) -> Iterator[Change]:
    for was, now, name in _paired(old, new):
        yield from changes(was, now, (*path, name))


def _paired(old: Sequence[Plain], new: Sequence[Plain]) -> Iterator[tuple[Plain, Plain, str]]:
    """What is in both by name, and between those what stands in the same order; then what came or went."""
    matcher = SequenceMatcher(None, [_label(each) for each in old], [_label(each) for each in new], autojunk=False)
    for kind, start, stop, first, last in matcher.get_opcodes():
        before, after = old[start:stop], new[first:last]
        for number in range(max(len(before), len(after))):
            was = before[number] if number < len(before) else None
            now = after[number] if number < len(after) else None
            if kind != "equal" and isinstance(was, Facts) and isinstance(now, Facts) and was.noun != now.noun:
                yield was, None, _numbered(was, start + number)
                yield None, now, _numbered(now, first + number)
            else:
                yield was, now, _numbered(now if now is not None else was, first + number)


def _label(value: Plain) -> tuple[str, str]:
    return (value.noun, value.name) if isinstance(value, Facts) else ("", repr(value))


def _numbered(value: Plain, index: int) -> str:
    return (value.name if isinstance(value, Facts) else "") or str(index + 1)


def as_json(value: Plain) -> Any:
    """Facts as JSON has them: keys of lengths end in `_mm`, of angles in `_deg`."""
    match value:
        case Facts():
            units = dict(value.units)
            return {
                key if _is_none_or_noun(held) else f"{key}{_SUFFIXES.get(units.get(key, ''), '')}": as_json(held)
                for key, held in value.values
            }
        case tuple():
            return [as_json(each) for each in value]
        case _:
            return value


def _is_none_or_noun(value: Plain) -> bool:
    return isinstance(value, str | Facts) or (isinstance(value, tuple) and any(isinstance(one, Facts) for one in value))
