"""The schema as data: what may stand where, read into typed values that keep their places.

A table of our own and not a general validating library: its messages say what was found and what is accepted
in the words of the file, every value keeps its line and column, a text stays the text that was written,
lengths know their units, all problems are gathered, and the same table writes the JSON Schema
(`panelart.source.json_schema`) and the key reference (`panelart.source.reference`).

The nouns of a file are declared in `panelart.source.nouns`; a `Field` is a line of the table, and the typed key to
what was read:

    SIZE = Field("size", pair(Length(above=0), "x", "y"), required=True, doc="Width and height.")
    PANEL = Record("panel", (SIZE, ...))
    panel = read(node, PANEL, problems)          # Value[Fields] | None
    size = panel.value[SIZE]                     # the value, its default, or None
    where = panel.value.where(SIZE)

A value that has a problem is noted and left out; the rest is read on.
"""

from __future__ import annotations

import re
from abc import ABC, abstractmethod
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final, Generic, TypeVar, cast

from panelart import units
from panelart.diagnostics import Where, did_you_mean, nearest
from panelart.source.nodes import Mapping, Node, Scalar, Sequence
from panelart.source.problems import Problems, shown

T = TypeVar("T")
T_co = TypeVar("T_co", covariant=True)
K_co = TypeVar("K_co", covariant=True)

_DECIMAL: Final = re.compile(r"[-+]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]{1,3})?")
_WHOLE: Final = re.compile(r"[-+]?[0-9]+")
_MAX_LISTED: Final = 20
"""A message lists no more words than this."""

_LONGEST_NUMBER: Final = 40


@dataclass(frozen=True, slots=True)
class Value(Generic[T_co]):
    """A value and where it was written."""

    value: T_co
    where: Where


class Kind(ABC, Generic[T_co]):
    """What may stand in one place."""

    __slots__ = ()

    @property
    @abstractmethod
    def accepts(self) -> str:
        """What is accepted, as the end of a sentence."""

    @property
    def unit(self) -> str:
        """The unit of a bare number, '' where there is none."""
        return ""

    @property
    def record(self) -> Record | None:
        """The known keys of a kind that is written as a mapping with such, else None."""
        return None

    @abstractmethod
    def parse(self, node: Node, problems: Problems) -> T_co | None:
        """The value of a node, or None when problems were added."""

    def refuse(self, node: Node, problems: Problems) -> None:
        """Note that the node is something else altogether."""
        hint = f"accepted: {self.accepts}"
        if isinstance(node, Scalar) and node.empty:
            problems.add_under(node.where, "nothing is written here", hint)
        else:
            problems.add_under(node.where, f"found {node.found}", hint)


def read(node: Node, kind: Kind[T], problems: Problems) -> Value[T] | None:
    """Read a node as a kind; None when it has problems that leave no value."""
    value = kind.parse(node, problems)
    return None if value is None else Value(value, node.where)


@dataclass(frozen=True, slots=True, kw_only=True)
class Text(Kind[str]):
    """A text exactly as it is written, quoted or not: ON, 12:30, 010 and true stay what they are.

    On one line or as many as `lines`, unless it is `prose`, whose white space is folded. `pattern` is a
    whole-match pattern and `form` says it in words.
    """

    maximum: int = 200
    lines: int = 1
    prose: bool = False
    pattern: str = ""
    form: str = ""
    may_be_empty: bool = False

    @property
    def accepts(self) -> str:
        """As every kind."""
        if self.form:
            return self.form
        if self.prose:
            return "text"
        return "text on one line" if self.lines == 1 else f"text on up to {self.lines} lines"

    def parse(self, node: Node, problems: Problems) -> str | None:
        """As every kind."""
        if not isinstance(node, Scalar):
            braces = isinstance(node, Mapping) and len(node.entries) == 1
            hint = "; a text that starts with { is written in quotes" if braces else ""
            problems.add_under(node.where, f"found {node.found}", f"accepted: {self.accepts}{hint}")
            return None
        if node.empty:
            self.refuse(node, problems)
            return None
        text = " ".join(node.text.split()) if self.prose else node.text.removesuffix("\n")
        if not text.strip() and not self.may_be_empty:
            problems.add_under(node.where, "found a text without a character in it", f"accepted: {self.accepts}")
        elif "\t" in text or text.count("\n") >= self.lines:
            problems.add_under(
                node.where, f"found {shown(text)}, which has a tab or too many lines", f"accepted: {self.accepts}"
            )
        elif len(text) > self.maximum:
            problems.add_under(
                node.where, f"found a text of {len(text)} characters", f"accepted: at most {self.maximum}"
            )
        elif self.pattern and re.fullmatch(self.pattern, text) is None:
            problems.add_under(node.where, f"found {shown(text)}", f"accepted: {self.accepts}")
        else:
            return text
        return None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bounded(Kind[float]):
    """A number between bounds: `least` and `most` are accepted themselves, `above` and `below` are not."""

    minimum: float | None = None
    above: float | None = None
    maximum: float | None = None
    below: float | None = None

    @property
    def noun(self) -> str:
        """What the number is."""
        return "a number"

    @property
    def accepts(self) -> str:
        """As every kind."""
        bounds = [
            f"more than {self.above:g}" if self.above is not None else "",
            f"at least {self.minimum:g}" if self.minimum is not None else "",
            f"at most {self.maximum:g}" if self.maximum is not None else "",
            f"less than {self.below:g}" if self.below is not None else "",
        ]
        said = " and ".join(bound for bound in bounds if bound)
        unit = f" {self.unit}" if self.unit and said else ""
        return f"{self.noun}, {said}{unit}" if said else self.noun

    def within(self, value: float) -> bool:
        """Whether the bounds hold."""
        return (
            (self.minimum is None or value >= self.minimum)
            and (self.above is None or value > self.above)
            and (self.maximum is None or value <= self.maximum)
            and (self.below is None or value < self.below)
        )

    def parse(self, node: Node, problems: Problems) -> float | None:
        """As every kind."""
        value = self._number(node, problems)
        if value is not None and not self.within(value):
            problems.add_under(node.where, f"found {node.found}", f"accepted: {self.accepts}")
            return None
        return value

    def _number(self, node: Node, problems: Problems) -> float | None:
        if isinstance(node, Scalar) and not node.quoted:
            value = decimal(node.text)
            if value is not None:
                return value
            if decimal(node.text.replace(",", ".", 1)) is not None:
                point = node.text.replace(",", ".", 1)
                problems.add_under(node.where, f"found {node.found}", f"write {point}, with a decimal point")
                return None
        if isinstance(node, Scalar) and node.quoted and decimal(node.text) is not None:
            problems.add_under(
                node.where, f"found the text {node.found}", f"accepted: {self.accepts}; leave the quotes out"
            )
            return None
        self.refuse(node, problems)
        return None


@dataclass(frozen=True, slots=True, kw_only=True)
class Number(_Bounded):
    """A decimal number: 3, -0.5, 1e-3. Not NaN, not infinite, no underscores, no other base."""

    in_unit: str = ""

    @property
    def unit(self) -> str:
        """As every kind."""
        return self.in_unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Integer(Kind[int]):
    """A whole number between bounds, both accepted."""

    minimum: int
    maximum: int

    @property
    def accepts(self) -> str:
        """As every kind."""
        return (
            f"{self.minimum}"
            if self.minimum == self.maximum
            else f"a whole number from {self.minimum} to {self.maximum}"
        )

    def parse(self, node: Node, problems: Problems) -> int | None:
        """As every kind."""
        if isinstance(node, Scalar) and not node.quoted and _WHOLE.fullmatch(node.text[:_LONGEST_NUMBER]):
            value = int(node.text[:_LONGEST_NUMBER])
            if self.minimum <= value <= self.maximum and len(node.text) <= _LONGEST_NUMBER:
                return value
        self.refuse(node, problems)
        return None


@dataclass(frozen=True, slots=True, kw_only=True)
class Length(_Bounded):
    """A length in mm: a bare number is mm, a text has its unit, and is converted here once."""

    @property
    def noun(self) -> str:
        """What the number is."""
        return "a length in mm or with a unit (0.5 in, 20 thou, 9 pt, 2U, 14HP)"

    @property
    def unit(self) -> str:
        """As every kind."""
        return "mm"

    def _number(self, node: Node, problems: Problems) -> float | None:
        return _with_unit(node, self, units.length, problems)


@dataclass(frozen=True, slots=True, kw_only=True)
class Angle(_Bounded):
    """An angle in degrees."""

    @property
    def noun(self) -> str:
        """What the number is."""
        return "an angle in degrees"

    @property
    def unit(self) -> str:
        """As every kind."""
        return "degrees"

    def _number(self, node: Node, problems: Problems) -> float | None:
        return _with_unit(node, self, units.angle, problems)


def _with_unit(node: Node, kind: _Bounded, convert: Callable[[str], float], problems: Problems) -> float | None:
    if not isinstance(node, Scalar) or node.empty or len(node.text) > _LONGEST_NUMBER:
        kind.refuse(node, problems)
        return None
    plain = decimal(node.text)
    if plain is not None:
        return plain
    if decimal(node.text.replace(",", ".", 1)) is not None:
        problems.add_under(
            node.where, f"found {node.found}", f"write {node.text.replace(',', '.', 1)}, with a decimal point"
        )
        return None
    try:
        return convert(node.text)
    except units.UnitError as error:
        problems.add_under(node.where, error.says, error.accepts)
        return None


def decimal(text: str) -> float | None:
    """The value of a plain decimal number, or None: NaN, infinities, 1_000, 0x1F and 12:30 are none."""
    if len(text) > _LONGEST_NUMBER or _DECIMAL.fullmatch(text) is None:
        return None
    value = float(text)
    return value if abs(value) < 1e300 else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Flag(Kind[bool]):
    """true or false, unquoted."""

    @property
    def accepts(self) -> str:
        """As every kind."""
        return "true or false"

    def parse(self, node: Node, problems: Problems) -> bool | None:
        """As every kind."""
        if isinstance(node, Scalar) and not node.quoted and node.text in ("true", "false"):
            return node.text == "true"
        self.refuse(node, problems)
        return None


@dataclass(frozen=True, slots=True)
class Choice(Kind[str]):
    """One of some words, which are listed when they are few."""

    words: tuple[str, ...]
    what: str

    @property
    def accepts(self) -> str:
        """As every kind."""
        if len(self.words) > _MAX_LISTED:
            return f"one of the {len(self.words)} {self.what}"
        return ", ".join(self.words[:-1]) + f" or {self.words[-1]}" if len(self.words) > 1 else self.words[0]

    def parse(self, node: Node, problems: Problems) -> str | None:
        """As every kind."""
        if isinstance(node, Scalar) and node.text in self.words:
            return node.text
        if not isinstance(node, Scalar) or node.empty:
            self.refuse(node, problems)
            return None
        near = str(did_you_mean(node.text[:_LONGEST_NUMBER], self.words, self.what))
        listed = near if near.startswith("Accepted") else f"{near} accepted: {self.accepts}"
        problems.add_under(node.where, f"found {node.found}", listed)
        return None


@dataclass(frozen=True, slots=True, kw_only=True)
class Colour(Kind[str]):
    """A colour as it shows on screen, `#RRGGBB`; read as capitals."""

    @property
    def accepts(self) -> str:
        """As every kind."""
        return 'a colour "#RRGGBB" in quotes, two hexadecimal digits each for red, green and blue'

    def parse(self, node: Node, problems: Problems) -> str | None:
        """As every kind."""
        if isinstance(node, Scalar) and re.fullmatch(r"#[0-9A-Fa-f]{6}", node.text):
            return node.text.upper()
        if isinstance(node, Scalar) and node.empty:
            problems.add_under(
                node.where,
                "nothing is written here: in YAML a # after a space starts a remark",
                f"accepted: {self.accepts}",
            )
        else:
            self.refuse(node, problems)
        return None


@dataclass(frozen=True, slots=True)
class TupleOf(Kind[tuple[float, ...]]):
    """A list of a fixed count of numbers, each with a name for the messages: [x, y], [x, y, w, h]."""

    of: tuple[tuple[str, Kind[float]], ...]

    @property
    def accepts(self) -> str:
        """As every kind."""
        return f"[{', '.join(name for name, _ in self.of)}], {self.of[0][1].accepts}"

    @property
    def unit(self) -> str:
        """As every kind."""
        return self.of[0][1].unit

    def parse(self, node: Node, problems: Problems) -> tuple[float, ...] | None:
        """As every kind."""
        names = ", ".join(name for name, _ in self.of)
        if not isinstance(node, Sequence):
            problems.add_under(
                node.where,
                f"found {'nothing' if isinstance(node, Scalar) and node.empty else node.found}"
                f" where {_COUNTED.get(len(self.of), len(self.of))} are due",
                f"accepted: [{names}]",
            )
            return None
        if len(node.items) != len(self.of):
            problems.add_under(node.where, f"found {node.found}, which has {len(node.items)}", f"accepted: [{names}]")
            return None
        values = [kind.parse(item, problems) for item, (_, kind) in zip(node.items, self.of, strict=True)]
        return None if None in values else tuple(cast("list[float]", values))


_COUNTED: Final = {2: "two numbers", 3: "three numbers", 4: "four numbers"}


def pair(kind: Kind[float], first: str, second: str) -> TupleOf:
    """Two numbers of one kind."""
    return TupleOf(((first, kind), (second, kind)))


@dataclass(frozen=True, slots=True, kw_only=True)
class ListOf(Kind[tuple[Value[T_co], ...]]):
    """A list of any length between bounds. Items with problems are left out."""

    of: Kind[T_co]
    what: str
    minimum: int = 0
    maximum: int | None = None

    @property
    def accepts(self) -> str:
        """As every kind."""
        return f"a list of {self.what}"

    @property
    def unit(self) -> str:
        """As every kind."""
        return self.of.unit

    def parse(self, node: Node, problems: Problems) -> tuple[Value[T_co], ...] | None:
        """As every kind."""
        if not isinstance(node, Sequence):
            problems.add_under(node.where, f"found {node.found} where a list is due", f"accepted: {self.accepts}")
            return None
        if len(node.items) < self.minimum or (self.maximum is not None and len(node.items) > self.maximum):
            maximum = f" and at most {self.maximum}" if self.maximum is not None else ""
            problems.add_under(
                node.where, f"found {node.found}", f"accepted: {self.accepts}, at least {self.minimum}{maximum}"
            )
            return None
        items = [read(item, self.of, problems) for item in node.items]
        return tuple(item for item in items if item is not None)


@dataclass(frozen=True, slots=True, kw_only=True)
class MapOf(Kind[tuple[tuple[Value[K_co], Value[T_co]], ...]]):
    """A mapping whose keys are free: names, angles. Entries with problems are left out."""

    keys: Kind[K_co]
    of: Kind[T_co]
    what: str

    @property
    def accepts(self) -> str:
        """As every kind."""
        return f"a mapping of {self.what}"

    def parse(self, node: Node, problems: Problems) -> tuple[tuple[Value[K_co], Value[T_co]], ...] | None:
        """As every kind."""
        if not isinstance(node, Mapping):
            problems.add_under(node.where, f"found {node.found} where a mapping is due", f"accepted: {self.accepts}")
            return None
        entries = []
        for entry in node.entries:
            key = read(entry.key, self.keys, problems)
            with problems.under(entry.key.text):
                value = read(entry.value, self.of, problems)
            if key is not None and value is not None:
                entries.append((key, value))
        return tuple(entries)


@dataclass(frozen=True, slots=True, kw_only=True)
class AnyNode(Kind[Node]):
    """A node handed on unread, for a reader elsewhere; `of` says what is accepted."""

    of: str
    shape: type[Scalar | Sequence | Mapping]

    @property
    def accepts(self) -> str:
        """As every kind."""
        return self.of

    def parse(self, node: Node, problems: Problems) -> Node | None:
        """As every kind."""
        if isinstance(node, self.shape):
            return node
        self.refuse(node, problems)
        return None


class Field(Generic[T_co]):
    """One key of a record: its name, what it holds, and its documentation.

    `doc` is one or more sentences. An optional key has a `default`, or `otherwise` says in words what holds
    when it is left out.
    """

    __slots__ = ("default", "doc", "kind", "name", "otherwise", "required")

    def __init__(
        self,
        name: str,
        kind: Kind[T_co],
        *,
        doc: str,
        required: bool = False,
        default: T_co | None = None,
        otherwise: str = "",
    ) -> None:
        self.name = name
        self.kind = kind
        self.doc = doc
        self.required = required
        self.default = default
        self.otherwise = otherwise


class Fields:
    """What was read of a record: `fields[FIELD]` is the value, else the default, else None."""

    __slots__ = ("_keys", "_places", "_read", "place", "record")

    def __init__(
        self,
        record: Record,
        place: Where,
        values: dict[str, Any],
        places: dict[str, Where],
        keys: dict[str, Where],
    ) -> None:
        self.record = record
        self.place = place
        self._read = values
        self._places = places
        self._keys = keys

    def __getitem__(self, field: Field[T]) -> T | None:
        return cast("T | None", self._read.get(field.name, field.default))

    def where(self, field: Field[Any]) -> Where:
        """Where the value stands, or where the record starts when the key was left out."""
        return self._places.get(field.name, self.place)

    def key_where(self, field: Field[Any]) -> Where:
        """Where the key stands, or where the record starts when it was left out."""
        return self._keys.get(field.name, self.place)

    def written(self, field: Field[Any]) -> bool:
        """Whether the key stands in the file, even when its value has a problem."""
        return field.name in self._places

    def misread(self, field: Field[Any]) -> bool:
        """Whether the key stands in the file with a value that has a problem, which is told already."""
        return self.written(field) and field.name not in self._read


@dataclass(frozen=True, slots=True)
class Record(Kind[Fields]):
    """A mapping with known keys.

    `marked_by` is the key that tells it from the other records of a OneOf; `elsewhere` says of keys that belong to
    other records why they do not stand here.
    """

    name: str
    fields: tuple[Field[Any], ...]
    doc: str = ""
    marked_by: str = ""
    elsewhere: tuple[tuple[str, str], ...] = ()

    @property
    def record(self) -> Record:
        """As every kind."""
        return self

    @property
    def accepts(self) -> str:
        """As every kind."""
        needed = [field.name for field in self.fields if field.required]
        shown_names = ", ".join(field.name for field in self.fields)
        return f"a mapping with {shown_names}" + (f" ({', '.join(needed)} required)" if needed else "")

    def parse(self, node: Node, problems: Problems) -> Fields | None:
        """As every kind."""
        if not isinstance(node, Mapping):
            self.refuse(node, problems)
            return None
        by_name = {field.name: field for field in self.fields}
        values: dict[str, Any] = {}
        places: dict[str, Where] = {}
        keys: dict[str, Where] = {}
        misspelt: set[str | None] = set()
        for entry in node.entries:
            name = entry.key.text
            field = by_name.get(name)
            if field is None:
                hint = dict(self.elsewhere).get(name) or str(
                    did_you_mean(name[:_LONGEST_NUMBER], by_name, f"keys of {self.name}")
                )
                if isinstance(entry.value, Scalar) and entry.value.empty:
                    hint += "; inside { } a text with a comma is written in quotes"
                problems.add(entry.key.where, f"{self.name} has no key {shown(name)}", hint)
                misspelt.add(nearest(name[:_LONGEST_NUMBER], by_name))
                continue
            places[name] = entry.value.where
            keys[name] = entry.key.where
            with problems.under(name):
                value = field.kind.parse(entry.value, problems)
            if value is not None:
                values[name] = value
        for field in self.fields:
            if field.required and field.name not in places and field.name not in misspelt:
                problems.add(
                    node.where,
                    f"{self.name} has no {shown(field.name)}, which is required",
                    f"accepted: {field.name}: {field.kind.accepts}",
                )
        return Fields(self, node.where, values, places, keys)


@dataclass(frozen=True, slots=True)
class OneOf(Kind[Any]):
    """One of several kinds, told apart by shape (scalar, list, mapping) and, among records, by `marked_by`.

    At most one kind for scalars and one for lists; a record without a mark is taken when no marked one fits.
    """

    kinds: tuple[Kind[Any], ...]

    @property
    def accepts(self) -> str:
        """As every kind."""
        return "; or ".join(kind.accepts for kind in self.kinds)

    @property
    def unit(self) -> str:
        """As every kind."""
        return next((kind.unit for kind in self.kinds if kind.unit), "")

    def parse(self, node: Node, problems: Problems) -> Any:
        """As every kind."""
        kind = self._kind_of(node)
        if kind is None:
            self.refuse(node, problems)
            return None
        if kind.record is not None and _is_text_in_braces(node, kind.record):
            for text in self.kinds:
                if isinstance(text, Text):
                    return text.parse(node, problems)
        return kind.parse(node, problems)

    def _kind_of(self, node: Node) -> Kind[Any] | None:
        fitting = [kind for kind in self.kinds if shape_of(kind) is type(node)]
        if not isinstance(node, Mapping) or len(fitting) < 2:
            return fitting[0] if fitting and not (isinstance(node, Scalar) and node.empty) else None
        marked = {kind.record.marked_by: kind for kind in fitting if kind.record is not None and kind.record.marked_by}
        for mark, kind in marked.items():
            if node.get(mark) is not None:
                return kind
        plain = next((kind for kind in fitting if kind not in marked.values()), None)
        return _misspelt(node, marked, plain) or plain


_SHORTEST_MARK: Final = 3


def _misspelt(node: Mapping, marked: dict[str, Kind[Any]], plain: Kind[Any] | None) -> Kind[Any] | None:
    """The kind whose mark a mapping has in another spelling, so that what is said is said of that kind."""
    known = set() if plain is None or plain.record is None else {field.name for field in plain.record.fields}
    marks = {mark: kind for mark, kind in marked.items() if len(mark) >= _SHORTEST_MARK}
    for entry in node.entries:
        if entry.key.text not in known:
            near = nearest(entry.key.text[:_LONGEST_NUMBER], (*marks, *known))
            if near in marks:
                return marks[near]
    return None


def _is_text_in_braces(node: Node, record: Record) -> bool:
    """Whether a mapping is more likely a text in braces without quotes: {n}."""
    if not isinstance(node, Mapping) or len(node.entries) != 1:
        return False
    entry = node.entries[0]
    known = any(field.name == entry.key.text for field in record.fields)
    return not known and isinstance(entry.value, Scalar) and entry.value.empty


@dataclass(frozen=True, slots=True)
class Later(Kind[T_co]):
    """A kind that is written further down, for records that hold their own kind."""

    kind: Callable[[], Kind[T_co]]

    @property
    def accepts(self) -> str:
        """As every kind."""
        return self.kind().accepts

    @property
    def unit(self) -> str:
        """As every kind."""
        return self.kind().unit

    def parse(self, node: Node, problems: Problems) -> T_co | None:
        """As every kind."""
        return self.kind().parse(node, problems)


def shape_of(kind: Kind[Any]) -> type[Scalar | Sequence | Mapping]:
    """The shape of node that a kind is written as."""
    match kind:
        case ListOf() | TupleOf():
            return Sequence
        case MapOf():
            return Mapping
        case AnyNode():
            return kind.shape
        case Later():
            return shape_of(kind.kind())
        case _:
            return Scalar if kind.record is None else Mapping
