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

import functools
import re
from collections.abc import Callable
from collections.abc import Sequence as Words
from typing import Any, Final, Generic, TypeAlias, TypeVar, cast

from panelart import units
from panelart.canonical import Struct
from panelart.diagnostics import Where, did_you_mean, nearest, one_of
from panelart.messages import Message, Said, diagnostics, source
from panelart.messages import source_schema as said
from panelart.source.nodes import Entry, Mapping, Node, Placeholder, Scalar, Sequence
from panelart.source.problems import Problems

T = TypeVar("T")
T_co = TypeVar("T_co", covariant=True)
K_co = TypeVar("K_co", covariant=True)

_DECIMAL: Final = re.compile(r"[-+]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]{1,3})?")
_WHOLE: Final = re.compile(r"[-+]?[0-9]+")
_MAX_LISTED: Final = 20
"""Of a longer choice the words are not listed."""

_LONGEST_NUMBER: Final = 40

_SIGNS: Final = {"degrees": "deg"}
"""Units of keys whose sign is looked up by another name."""


class Value(Struct, Generic[T_co], frozen=True):
    """A value and where it was written."""

    value: T_co
    where: Where


class Kind(Struct, Generic[T_co], frozen=True):
    """What may stand in one place."""

    @property
    def accepts(self) -> Said:
        """What is accepted, as the end of a sentence."""
        raise NotImplementedError

    @property
    def unit(self) -> str:
        """The unit of a bare number, '' where there is none."""
        return ""

    @property
    def record(self) -> Record | None:
        """The known keys of a kind that is written as a mapping with such, else None."""
        return None

    @property
    def takes_names(self) -> bool:
        """Whether values within may be names in braces, which stand for figures and words."""
        return False

    def parse(self, node: Node, problems: Problems) -> T_co | None:
        """The value of a node, or None when problems were added."""
        raise NotImplementedError

    def refuse(self, node: Node, problems: Problems) -> None:
        """Note that the node is something else altogether."""
        found = said.no_value() if isinstance(node, Scalar) and node.empty else source.found(node.found)
        problems.add_under(node.where, found, said.accepted(self.accepts))


def read(node: Node, kind: Kind[T], problems: Problems) -> Value[T] | None:
    """Read a node as a kind; None when it has problems that leave no value."""
    value = parsed(kind, node, problems)
    return None if value is None else Value(value, node.where)


def parsed(kind: Kind[T], node: Node, problems: Problems) -> T | None:
    """What a node says as a kind, or what a parameter stands for there; None where that is not known yet."""
    if isinstance(node, Placeholder) and isinstance(kind, ScalarKind) and not (isinstance(kind, Text) and kind.braces):
        meant: Node | None = node.stands_for
        return None if meant is None else cast("Kind[T]", kind).parse(meant, problems)
    return kind.parse(node, problems)


class Text(Kind[str], frozen=True, kw_only=True):
    """A text exactly as it is written, quoted or not: ON, 12:30, 010 and true stay what they are.

    On one line or as many as `lines`, unless it is `prose`, whose white space is folded. `pattern` is a
    whole-match pattern and `form` says it in words. Names in its `braces` are filled in when it is used.
    """

    maximum: int = 200
    lines: int = 1
    prose: bool = False
    pattern: str = ""
    form: str = ""
    may_be_empty: bool = False
    braces: bool = False

    @property
    def accepts(self) -> Said:
        """As every kind."""
        if self.form:
            return self.form
        if self.prose:
            return said.text()
        return said.text_on_one_line() if self.lines == 1 else said.text_on_lines(self.lines)

    def parse(self, node: Node, problems: Problems) -> str | None:
        """As every kind."""
        if not isinstance(node, Scalar):
            braces = isinstance(node, Mapping) and len(node.entries) == 1
            hint = said.quote_brace(self.accepts) if braces else said.accepted(self.accepts)
            problems.add_under(node.where, source.found(node.found), hint)
            return None
        if node.empty:
            self.refuse(node, problems)
            return None
        text = " ".join(node.text.split()) if self.prose else node.text.removesuffix("\n")
        unfit = self._unfit(text, node)
        if unfit is not None:
            problems.add_under(node.where, *unfit)
            return None
        return text

    def _unfit(self, text: str, node: Scalar) -> tuple[Message, Message] | None:
        """What is wrong with a text and what is accepted; None for one that fits."""
        if not text.strip() and not self.may_be_empty:
            return said.blank_text(), said.accepted(self.accepts)
        if "\t" in text:
            return said.text_with_tab(text), said.accepted(self.accepts)
        if (lines := text.count("\n") + 1) > self.lines:
            return said.text_of_lines(text, lines), said.accepted(self.accepts)
        if len(text) > self.maximum:
            return said.text_too_long(len(text), self.maximum), said.shorten_text()
        if self.pattern and re.fullmatch(self.pattern, text) is None:
            return source.found(node.found), said.accepted(self.accepts)
        return None


class _Bounded(Kind[float], frozen=True, kw_only=True):
    """A number between bounds: `minimum` and `maximum` are accepted themselves, `above` and `below` are not."""

    minimum: float | None = None
    above: float | None = None
    maximum: float | None = None
    below: float | None = None

    @property
    def noun(self) -> Said:
        """What the number is."""
        return said.a_number()

    @property
    def accepts(self) -> Said:
        """As every kind."""
        limits = self._limits()
        return said.within(self.noun, limits) if limits else self.noun

    def _limits(self) -> list[Message]:
        unit = _SIGNS.get(self.unit, self.unit)
        if self.minimum is not None and self.maximum is not None:
            return [said.value_range(self.minimum, (self.maximum, unit))]
        bounds = (
            (said.more_than, self.above),
            (said.minimum, self.minimum),
            (said.maximum, self.maximum),
            (said.less_than, self.below),
        )
        return [limit((bound, unit)) for limit, bound in bounds if bound is not None]

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
            problems.add_under(node.where, source.found(node.found), said.accepted(self.accepts))
            return None
        return value

    def _number(self, node: Node, problems: Problems) -> float | None:
        if isinstance(node, Scalar) and not node.quoted:
            value = decimal(node.text)
            if value is not None:
                return value
            point = node.text.replace(",", ".", 1)
            if decimal(point) is not None:
                problems.add_under(node.where, source.found(node.found), said.decimal_point(point))
                return None
        if isinstance(node, Scalar) and node.quoted and decimal(node.text) is not None:
            problems.add_under(node.where, said.number_in_quotes(node.found), said.remove_quotes(self.accepts))
            return None
        self.refuse(node, problems)
        return None


class Number(_Bounded, frozen=True, kw_only=True):
    """A decimal number: 3, -0.5, 1e-3. Not NaN, not infinite, no underscores, no other base."""

    in_unit: str = ""

    @property
    def unit(self) -> str:
        """As every kind."""
        return self.in_unit


class Integer(Kind[int], frozen=True, kw_only=True):
    """A whole number between bounds, both accepted."""

    minimum: int
    maximum: int

    @property
    def accepts(self) -> Said:
        """As every kind."""
        if self.minimum == self.maximum:
            return said.exact_number(self.minimum)
        return said.whole_number(self.minimum, self.maximum)

    def parse(self, node: Node, problems: Problems) -> int | None:
        """As every kind."""
        if isinstance(node, Scalar) and not node.quoted and _WHOLE.fullmatch(node.text[:_LONGEST_NUMBER]):
            value = int(node.text[:_LONGEST_NUMBER])
            if self.minimum <= value <= self.maximum and len(node.text) <= _LONGEST_NUMBER:
                return value
        self.refuse(node, problems)
        return None


class Length(_Bounded, frozen=True, kw_only=True):
    """A length in mm: a bare number is mm, a text has its unit, and is converted here once."""

    @property
    def noun(self) -> Said:
        """What the number is."""
        return said.a_length()

    @property
    def unit(self) -> str:
        """As every kind."""
        return "mm"

    def _number(self, node: Node, problems: Problems) -> float | None:
        return _with_unit(node, self, units.length, problems)


class Angle(_Bounded, frozen=True, kw_only=True):
    """An angle in degrees."""

    @property
    def noun(self) -> Said:
        """What the number is."""
        return said.an_angle()

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
    point = node.text.replace(",", ".", 1)
    if decimal(point) is not None:
        problems.add_under(node.where, source.found(node.found), said.decimal_point(point))
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


class Flag(Kind[bool], frozen=True, kw_only=True):
    """true or false, unquoted."""

    @property
    def accepts(self) -> Said:
        """As every kind."""
        return said.true_or_false()

    def parse(self, node: Node, problems: Problems) -> bool | None:
        """As every kind."""
        if isinstance(node, Scalar) and not node.quoted and node.text in ("true", "false"):
            return node.text == "true"
        self.refuse(node, problems)
        return None


class Choice(Kind[str], frozen=True):
    """One of some words, which are listed when they are few. The words may come to be more while a program runs."""

    words: Words[str]
    what: str

    @property
    def accepts(self) -> Said:
        """As every kind."""
        if len(self.words) > _MAX_LISTED:
            return said.many_words(len(self.words), self.what)
        return said.words(tuple(self.words))

    def parse(self, node: Node, problems: Problems) -> str | None:
        """As every kind."""
        if isinstance(node, Scalar) and node.text in self.words:
            return node.text
        if not isinstance(node, Scalar) or node.empty:
            self.refuse(node, problems)
            return None
        word = node.text[:_LONGEST_NUMBER]
        many = len(self.words) > _MAX_LISTED
        hint = did_you_mean(word, self.words, self.what) if many else one_of(word, self.words)
        problems.add_under(node.where, source.found(node.found), hint)
        return None


class Colour(Kind[str], frozen=True, kw_only=True):
    """A colour as it shows on screen, `#RRGGBB`; read as capitals."""

    @property
    def accepts(self) -> Said:
        """As every kind."""
        return said.a_colour()

    def parse(self, node: Node, problems: Problems) -> str | None:
        """As every kind."""
        if isinstance(node, Scalar) and re.fullmatch(r"#[0-9A-Fa-f]{6}", node.text):
            return node.text.upper()
        if isinstance(node, Scalar) and node.empty:
            problems.add_under(node.where, said.no_value_before_comment(), said.accepted(self.accepts))
        else:
            self.refuse(node, problems)
        return None


class TupleOf(Kind[tuple[float, ...]], frozen=True):
    """A list of a fixed count of numbers, each with a name for the messages: [x, y], [x, y, w, h]."""

    of: tuple[tuple[str, Kind[float]], ...]

    @property
    def accepts(self) -> Said:
        """As every kind."""
        return said.numbers_in_order([name for name, _ in self.of], self.of[0][1].accepts)

    @property
    def unit(self) -> str:
        """As every kind."""
        return self.of[0][1].unit

    def parse(self, node: Node, problems: Problems) -> tuple[float, ...] | None:
        """As every kind."""
        names = [name for name, _ in self.of]
        if not isinstance(node, Sequence):
            empty = isinstance(node, Scalar) and node.empty
            found = said.no_value() if empty else said.numbers_missing(node.found, names)
            problems.add_under(node.where, found, said.accepted_list(names))
            return None
        if len(node.items) != len(names):
            found = said.wrong_number_of_values(node.found, len(node.items), len(names))
            problems.add_under(node.where, found, said.accepted_list(names))
            return None
        values = [parsed(kind, item, problems) for item, (_, kind) in zip(node.items, self.of, strict=True)]
        return None if None in values else tuple(cast("list[float]", values))


ScalarKind: TypeAlias = Text | Number | Integer | Length | Angle | Flag | Choice | Colour
"""What is written as one value, neither list nor mapping."""


def pair(kind: Kind[float], first: str, second: str) -> TupleOf:
    """Two numbers of one kind."""
    return TupleOf(((first, kind), (second, kind)))


class ListOf(Kind[tuple[Value[T_co], ...]], frozen=True, kw_only=True):
    """A list of any length between bounds. Items with problems are left out."""

    of: Kind[T_co]
    what: str
    minimum: int = 0
    maximum: int | None = None

    @property
    def accepts(self) -> Said:
        """As every kind."""
        return said.a_list(self.what)

    @property
    def unit(self) -> str:
        """As every kind."""
        return self.of.unit

    def parse(self, node: Node, problems: Problems) -> tuple[Value[T_co], ...] | None:
        """As every kind."""
        if not isinstance(node, Sequence):
            problems.add_under(node.where, said.not_a_list(node.found), said.accepted(self.accepts))
            return None
        if len(node.items) < self.minimum or (self.maximum is not None and len(node.items) > self.maximum):
            problems.add_under(node.where, source.found(node.found), self._length())
            return None
        items = [read(item, self.of, problems) for item in node.items]
        return tuple(item for item in items if item is not None)

    def _length(self) -> Message:
        """How many items are accepted."""
        if self.maximum is None:
            return said.list_minimum(self.accepts, self.minimum)
        if self.minimum == self.maximum:
            return said.list_exact(self.accepts, self.maximum)
        if not self.minimum:
            return said.list_maximum(self.accepts, self.maximum)
        return said.list_range(self.accepts, self.minimum, self.maximum)


class MapOf(Kind[tuple[tuple[Value[K_co], Value[T_co]], ...]], frozen=True, kw_only=True):
    """A mapping whose keys are free: names, angles. Entries with problems are left out."""

    keys: Kind[K_co]
    of: Kind[T_co]
    what: str

    @property
    def accepts(self) -> Said:
        """As every kind."""
        return said.a_mapping(self.what)

    def parse(self, node: Node, problems: Problems) -> tuple[tuple[Value[K_co], Value[T_co]], ...] | None:
        """As every kind."""
        if not isinstance(node, Mapping):
            problems.add_under(node.where, said.not_a_mapping(node.found), said.accepted(self.accepts))
            return None
        entries = []
        for entry in node.entries:
            key = read(entry.key, self.keys, problems)
            with problems.under(entry.key.text):
                value = read(entry.value, self.of, problems)
            if key is not None and value is not None:
                entries.append((key, value))
        return tuple(entries)


class AnyNode(Kind[Node], frozen=True, kw_only=True):
    """A node handed on unread, for a reader elsewhere; `of` says what is accepted."""

    of: str
    shape: type[Scalar | Sequence | Mapping]

    @property
    def accepts(self) -> Said:
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
        doc: Said,
        required: bool = False,
        default: T_co | None = None,
        otherwise: Said = "",
    ) -> None:
        self.name = name
        self.kind = kind
        self.doc = doc
        self.required = required
        self.default = default
        self.otherwise = otherwise


class Fields:
    """What was read of a record: `fields[FIELD]` is the value, else the default, else None.

    `unknown` are the keys that stand there and are none of the record's.
    """

    __slots__ = ("_keys", "_places", "_read", "place", "record", "unknown")

    def __init__(
        self,
        record: Record,
        place: Where,
        values: dict[str, Any],
        places: dict[str, Where],
        keys: dict[str, Where],
        unknown: tuple[str, ...] = (),
    ) -> None:
        self.record = record
        self.place = place
        self._read = values
        self._places = places
        self._keys = keys
        self.unknown = unknown

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


class Record(Kind[Fields], frozen=True):
    """A mapping with known keys.

    `marked_by` is the key that tells it from the other records of a OneOf; `elsewhere` says of keys that belong to
    other records, or that people write for another, what to write: a sentence, or one of the value that was written.
    """

    name: str
    fields: tuple[Field[Any], ...]
    doc: str = ""
    marked_by: str = ""
    elsewhere: tuple[tuple[str, Said | Callable[[str], Said]], ...] = ()

    @property
    def record(self) -> Record:
        """As every kind."""
        return self

    @property
    def accepts(self) -> Said:
        """As every kind."""
        needed = [field.name for field in self.fields if field.required]
        keys = [field.name for field in self.fields]
        return said.a_mapping_with_required(keys, needed) if needed else said.a_mapping_with(keys)

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
        unknown: list[str] = []
        for entry in node.entries:
            name = entry.key.text
            field = by_name.get(name)
            if field is None:
                problems.add(entry.key.where, said.unknown_key(name, self.name), self._nearest_key(entry))
                misspelt.add(nearest(name[:_LONGEST_NUMBER], by_name))
                unknown.append(name)
                continue
            places[name] = entry.value.where
            keys[name] = entry.key.where
            with problems.under(name):
                value = parsed(field.kind, entry.value, problems)
            if value is not None:
                values[name] = value
        if unknown and len(self._needed) == 1:
            misspelt.add(self._needed[0].name)  # that was meant, most likely: one slip is told once
        for field in self.fields:
            if field.required and field.name not in places and field.name not in misspelt:
                problems.add(
                    node.where,
                    said.required_key(field.name, self.name),
                    said.accepted_key(field.name, field.kind.accepts),
                )
        return Fields(self, node.where, values, places, keys, tuple(unknown))

    @property
    def _needed(self) -> tuple[Field[Any], ...]:
        return tuple(field for field in self.fields if field.required)

    def refuse(self, node: Node, problems: Problems) -> None:
        """As every kind; a bare value where one key is required is told to be written with that key."""
        if isinstance(node, Scalar) and not node.empty and len(self._needed) == 1:
            inside = said.write_inside(f"{{{self._needed[0].name}: {node.text[:_LONGEST_NUMBER]}}}")
            problems.add_under(node.where, source.found(node.found), inside)
        else:
            super().refuse(node, problems)

    def _nearest_key(self, entry: Entry) -> Said:
        """What is said to a key that is not known."""
        name = entry.key.text
        keys = [field.name for field in self.fields]
        elsewhere = dict(self.elsewhere).get(name)
        near = nearest(name[:_LONGEST_NUMBER], keys)
        if callable(elsewhere):
            elsewhere = elsewhere(entry.value.text if isinstance(entry.value, Scalar) else "…")
        hint = elsewhere or (said.keys_of(self.name, keys) if near is None else diagnostics.did_you_mean(name=near))
        if not isinstance(entry.value, Scalar) or not entry.value.empty:
            return hint
        # A comma in a text without quotes ends the value: {text: ON, OFF} has the key OFF.
        if elsewhere or nearest(name[:_LONGEST_NUMBER], keys):
            return said.quote_comma(hint)
        return said.quote_comma_or(sorted(keys), self.name)


class OneOf(Kind[Any], frozen=True):
    """One of several kinds, told apart by shape (scalar, list, mapping) and, among records, by `marked_by`.

    At most one kind for scalars and one for lists; a record without a mark is taken when no marked one fits.
    """

    kinds: tuple[Kind[Any], ...]

    @property
    def accepts(self) -> Said:
        """As every kind."""
        return functools.reduce(said.or_else, [kind.accepts for kind in self.kinds])

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
        return parsed(kind, node, problems)

    def _kind_of(self, node: Node) -> Kind[Any] | None:
        shape = Scalar if isinstance(node, Placeholder) else type(node)
        fitting = [kind for kind in self.kinds if shape_of(kind) is shape]
        if isinstance(node, Mapping) and len(fitting) > 1:
            return _told_by_mark(node, fitting)
        if not fitting or (isinstance(node, Scalar) and node.empty):
            return None
        return fitting[0]


_SHORTEST_MARK: Final = 3


def _told_by_mark(node: Mapping, kinds: list[Kind[Any]]) -> Kind[Any] | None:
    """The kind whose mark a mapping has, right or misspelt, else the one without a mark."""
    marked = {kind.record.marked_by: kind for kind in kinds if kind.record is not None and kind.record.marked_by}
    for mark, kind in marked.items():
        if node.get(mark) is not None:
            return kind
    plain = next((kind for kind in kinds if kind not in marked.values()), None)
    return _misspelt(node, marked, plain) or plain


def _misspelt(node: Mapping, marked: dict[str, Kind[Any]], plain: Kind[Any] | None) -> Kind[Any] | None:
    """The kind whose mark a mapping has in another spelling, so that what is said is said of that kind.

    Not where more of its keys are those of the kind without a mark: a part with `colour` is no column.
    """
    known = set() if plain is None or plain.record is None else {field.name for field in plain.record.fields}
    marks = {mark: kind for mark, kind in marked.items() if len(mark) >= _SHORTEST_MARK}
    for entry in node.entries:
        if entry.key.text not in known:
            near = nearest(entry.key.text[:_LONGEST_NUMBER], (*marks, *known))
            if near in marks and _keys_known(node, marks[near]) >= (0 if plain is None else _keys_known(node, plain)):
                return marks[near]
    return None


def _keys_known(node: Mapping, kind: Kind[Any]) -> int:
    """How many keys of a mapping a kind has."""
    names = set() if kind.record is None else {field.name for field in kind.record.fields}
    return sum(entry.key.text in names for entry in node.entries)


def _is_text_in_braces(node: Node, record: Record) -> bool:
    """Whether a mapping is more likely a text in braces without quotes: {n}."""
    if not isinstance(node, Mapping) or len(node.entries) != 1:
        return False
    entry = node.entries[0]
    known = any(field.name == entry.key.text for field in record.fields)
    return not known and isinstance(entry.value, Scalar) and entry.value.empty


class Later(Kind[T_co], frozen=True):
    """A kind that is written further down, for records that hold their own kind."""

    kind: Callable[[], Kind[T_co]]

    @property
    def accepts(self) -> Said:
        """As every kind."""
        return self.kind().accepts

    @property
    def unit(self) -> str:
        """As every kind."""
        return self.kind().unit

    def parse(self, node: Node, problems: Problems) -> T_co | None:
        """As every kind."""
        return parsed(self.kind(), node, problems)


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
