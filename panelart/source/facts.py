"""What a noun says, apart from where it stands: its facts as plain values, defaults filled in.

Facts are made from the declared keys alone, so that a key that is declared is compared and written without a further
word. Two specs with the same facts differ in remarks, order of keys and spelling of numbers only.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from itertools import zip_longest
from typing import Any, Final, TypeAlias, TypeVar, cast

from panelart.canonical import Struct
from panelart.reprs import brief, counted, in_full
from panelart.source import nodes
from panelart.source.nouns import Noun, keys_of
from panelart.source.schema import Field, Kind, Later, OneOf, ScalarKind, Value

Plain: TypeAlias = "bool | int | float | str | tuple[Plain, ...] | Facts | None"
"""A value without its place; lengths in mm, angles in degrees."""

Single = TypeVar("Single", bound="bool | int | float | str | None")
"""What a key holds that holds one value."""

_BRACED: Final = re.compile(r"\{([^{}]*)\}")

_SUFFIXES: Final = {"mm": "_mm", "degrees": "_deg", "%": "_percent"}


class Facts(Struct, frozen=True):
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

    def said(self, key: Field[Single], *, within: Sequence[Field[Any]] = ()) -> Single | None:
        """The value of a declared key, of the noun that the keys `within` lead to, the outermost first.

            panel.facts.said(language.Coat.gloss, within=(language.Spec.panel, language.Panel.coat))

        Its default where it is not written, None where it has none or a noun on the way is not written. Lengths are
        in mm, angles in degrees. For what is only printed: what depends on other keys is in the model.

        Raises LookupError where the keys do not lead to each other, TypeError for a key that may hold more than one
        value.
        """
        for around, inner in zip(within, (*within[1:], key), strict=True):
            if not _may_have(around.kind, inner):
                raise LookupError(f"{around.name} has no key {inner.name}")
        if not isinstance(key.kind, ScalarKind):
            raise TypeError(f"{key.name} may hold more than one value")
        said: Any = self
        for step in (*within, key):
            said = dict(said.values).get(step.name) if isinstance(said, Facts) else None
        return cast("Single | None", said)

    def with_words(self, words: Mapping[str, str]) -> Facts:
        """The same with what stands for a word in braces in the place of the braces: {n} of a copy, by its name."""
        values = tuple((key, _worded(held, words)) for key, held in self.values)
        return Facts(self.noun, values, self.units, str(_worded(self.name, words)))

    def with_value(self, key: str, value: Plain, unit: str = "") -> Facts:
        """The same with one value in the place of what it was, or behind the others, in a `unit` if one is given."""
        values = tuple({**dict(self.values), key: value}.items())
        units = tuple({**dict(self.units), key: unit}.items()) if unit else self.units
        return Facts(self.noun, values, units, self.name)

    def called(self, name: str) -> Facts:
        """The same by another name."""
        return Facts(self.noun, self.values, self.units, name)

    def without(self, key: str) -> Facts:
        """The same without one value."""
        return Facts(self.noun, tuple(each for each in self.values if each[0] != key), self.units, self.name)

    def __repr__(self) -> str:
        return brief("Facts", self.noun, repr(self.name), counted(len(self.values), "value"))


ORDER: Final = "order"
"""The last step of the path of a list whose entries stand in another order."""

NO_FACTS: Final = Facts("", ())
"""Those of what was not read from a file."""


class Change(Struct, frozen=True):
    """A fact that is not what it was.

    `path` leads to it from the top: keys, and names or numbers of list entries. `old` and `new` are None where there
    is none. `unit` is that of the key, '' where it has none.
    """

    path: tuple[str, ...]
    old: Plain
    new: Plain
    unit: str

    def __repr__(self) -> str:
        return brief("Change", ".".join(self.path), repr(self.old), repr(self.new), self.unit)


def _may_have(kind: Kind[Any], key: Field[Any]) -> bool:
    """Whether a kind may be written as a noun that has a key."""
    match kind:
        case Later():
            return _may_have(kind.kind(), key)
        case OneOf():
            return any(_may_have(one, key) for one in kind.kinds)
        case _:
            return kind.record is not None and any(key is field for field in kind.record.fields)


def _worded(value: Plain, words: Mapping[str, str]) -> Plain:
    match value:
        case str():
            return _BRACED.sub(lambda braced: words.get(braced[1].strip(), braced[0]), value) if words else value
        case Facts():
            return value.with_words(words)
        case tuple():
            return tuple(_worded(each, words) for each in value)
        case _:
            return value


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
    """Entries are paired by what they are called, wherever they stand; others in order. Another order is told once."""
    pairs = _named_alike(old, new)
    here_before = [was for was, _ in pairs]
    if here_before != sorted(here_before):
        yield Change((*path, ORDER), _names(old, sorted(here_before)), _names(new, [now for _, now in pairs]), "")
    for was, now in pairs:
        yield from changes(old[was], new[now], (*path, _numbered(new[now], now)))
    gone, come = _others(old, here_before), _others(new, [now for _, now in pairs])
    for (was, before), (now, after) in zip_longest(gone, come, fillvalue=(0, None)):
        yield from _come_and_gone(before, after, path, was if after is None else now)


def _named_alike(old: Sequence[Plain], new: Sequence[Plain]) -> list[tuple[int, int]]:
    """Where each entry stands that has one name in both lists, in the order of the new."""
    before, after = _once(old), _once(new)
    return [(before[label], index) for label, index in after.items() if label in before]


def _names(entries: Sequence[Plain], indices: Iterable[int]) -> tuple[str, ...]:
    return tuple(_label(entries[index])[1] for index in indices)


def _others(entries: Sequence[Plain], but: Container[int]) -> list[tuple[int, Plain]]:
    """The entries that stand elsewhere than at these places, each with its own."""
    return [(index, entry) for index, entry in enumerate(entries) if index not in but]


def _once(entries: Sequence[Plain]) -> dict[tuple[str, str], int]:
    """Where each entry stands that has a name which no other has, in order."""
    labels = list(map(_label, entries))
    alike = Counter(labels)
    return {label: index for index, label in enumerate(labels) if label[1] and alike[label] == 1}


def _come_and_gone(gone: Plain, here: Plain, path: tuple[str, ...], index: int) -> Iterator[Change]:
    """What stands in the same order is the same thing changed, unless it is of another kind."""
    unlike = isinstance(gone, Facts) and isinstance(here, Facts) and gone.noun != here.noun
    if unlike:
        yield from changes(gone, None, (*path, _numbered(gone, index)))
        yield from changes(None, here, (*path, _numbered(here, index)))
    else:
        yield from changes(gone, here, (*path, _numbered(gone if here is None else here, index)))


def _label(value: Plain) -> tuple[str, str]:
    return (value.noun, value.name) if isinstance(value, Facts) else ("", "" if value is None else in_full(value))


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
