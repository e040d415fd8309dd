"""YAML text to nodes with places, in bounded time and memory.

The events of PyYAML are taken as they stream; no tree of its making is built and none of its meaning of
values is used. Its C parser is taken where it is there, the one in Python where not; they accept the same files and
read the same from them. What the two treat differently (tabs, unusual line ends) is refused before either sees it.

Anchors and aliases are allowed; an alias stands for the one node its anchor named, so that memory grows with
the file, and the size of what it would expand to is counted and limited.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from typing import Final, cast

import yaml

from panelart.diagnostics import Where
from panelart.source.nodes import Entry, Mapping, Node, Scalar, Sequence
from panelart.source.problems import Problems, shown

MAX_BYTES: Final = 1_000_000
"""The largest file that is read; 5000 parts written out one by one take about half of it."""

MAX_DEPTH: Final = 40
"""The deepest nesting of lists and mappings; a panel needs about 10."""

MAX_NODES: Final = 100_000
"""The most keys and values in a file, each alias counted at the size of what it stands for."""

_UNPRINTABLE: Final = re.compile(
    "[^\t\n\r -~\u00a0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]"
)
_INDENTED_BY_TAB: Final = re.compile(r"^[^#\n\t]*\t", re.MULTILINE)

_CORE: Final = "tag:yaml.org,2002:"


def python_events(text: str) -> Iterator[yaml.Event]:
    """The events of the parser written in Python, refusing two things that the one in C refuses."""
    loader = yaml.SafeLoader(text)
    brackets = 0
    try:
        while loader.check_event():
            event = loader.get_event()  # type: ignore[no-untyped-call]  # the stubs leave it bare
            match event:
                case yaml.CollectionStartEvent():
                    brackets += event.flow_style or brackets > 0
                case yaml.CollectionEndEvent():
                    brackets -= brackets > 0
                case yaml.ScalarEvent() if brackets and event.style is None and event.end_mark:
                    end = event.end_mark.index
                    if text[end : end + 1] == ":" and text[end + 1 : end + 2] in set(",[]{}"):
                        mark = cast("yaml.Mark", event.end_mark)
                        raise yaml.MarkedYAMLError(problem="found unexpected ':'", problem_mark=mark)
            yield event
    except (ValueError, OverflowError) as error:
        # An escape such as \\UFFFFFFFF, which it hands on to chr() unchecked.
        raise yaml.MarkedYAMLError(problem="unknown escape character", problem_mark=loader.get_mark()) from error


def c_events(text: str) -> Iterator[yaml.Event]:
    """The events of the parser written in C."""
    return yaml.parse(text, Loader=yaml.CSafeLoader)


EVENTS: Final[Callable[[str], Iterator[yaml.Event]]] = c_events if yaml.__with_libyaml__ else python_events


def read(data: bytes | str, file: str, *, events: Callable[[str], Iterator[yaml.Event]] = EVENTS) -> Mapping:
    """Read one YAML document whose top is a mapping; `file` is its name in messages.

    Raises SpecError with every problem found: not UTF-8, tabs, syntax, duplicate keys, keys that are not
    text, tags, merge keys, several documents, too large, too deep, too many nodes.
    """
    problems = Problems()
    text = _text(data, file, problems)
    builder = _Builder(file, problems)
    try:
        for event in events(text):
            builder.take(event)
    except yaml.MarkedYAMLError as error:
        _explain(error, text, file, problems)
    top = builder.top
    if isinstance(top, Mapping):
        problems.raise_any()
        return top
    if not len(problems):
        where = Where(file, 1, 1) if top is None else top.where
        if top is None:
            problems.add(where, "the file is empty", "accepted: a mapping of keys and values")
        else:
            problems.add(where, f"the file holds {top.found}", "accepted: a mapping, 'key: value' on each line")
    raise problems.error()


def _text(data: bytes | str, file: str, problems: Problems) -> str:
    if len(data) > MAX_BYTES:
        size = f"{len(data)} {'bytes' if isinstance(data, bytes) else 'characters'}"
        problems.add(Where(file, 1, 1), f"the file has {size}", f"accepted: at most {MAX_BYTES}")
        raise problems.error()
    text = data if isinstance(data, str) else _decoded(data, file, problems)
    text = text.removeprefix("\ufeff")
    odd = _UNPRINTABLE.search(text)
    if odd is not None:
        problems.add(
            _place(text, odd.start(), file),
            f"an unprintable character, U+{ord(odd[0]):04X}",
            "accepted: printable Unicode text and ordinary line ends",
        )
    tabs = list(_INDENTED_BY_TAB.finditer(text))
    if tabs:
        more = f", and so do {len(tabs) - 1} more lines" if len(tabs) > 1 else ""
        problems.add(
            _place(text, tabs[0].end() - 1, file),
            f"this line has a tab{more}",
            "accepted: spaces; YAML does not allow tabs for indentation",
        )
    problems.raise_any()
    return text


def _decoded(data: bytes, file: str, problems: Problems) -> str:
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        problems.add(Where(file, 1, 1), "the file is UTF-16", "accepted: UTF-8; save it with that encoding")
        raise problems.error()
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8").removeprefix("\ufeff")
        problems.add(
            _place(before, len(before), file),
            f"the byte 0x{data[error.start]:02X} is not UTF-8 text",
            "accepted: UTF-8; save the file with that encoding",
        )
        raise problems.error() from None


def _place(text: str, index: int, file: str) -> Where:
    before = text[:index].replace("\r\n", "\n").replace("\r", "\n")
    return Where(file, before.count("\n") + 1, len(before) - before.rfind("\n"))


@dataclass(slots=True)
class _Open:
    """A list or mapping whose end has not come yet; `weight` and `height` are those of its expansion."""

    where: Where
    mapping: bool
    anchor: str | None
    items: list[Node] = field(default_factory=list)
    entries: list[Entry] = field(default_factory=list)
    keys: dict[str, Where] = field(default_factory=dict)
    key: Scalar | None = None
    keep: bool = True
    weight: int = 1
    height: int = 1


@dataclass(frozen=True, slots=True)
class _Anchored:
    node: Node
    weight: int
    height: int


class _Builder:
    """Puts nodes together from events."""

    def __init__(self, file: str, problems: Problems) -> None:
        self.top: Node | None = None
        self._file = file
        self._problems = problems
        self._open: list[_Open] = []
        self._anchors: dict[str, _Anchored] = {}
        self._nodes = 0
        self._documents = 0

    def take(self, event: yaml.Event) -> None:
        match event:
            case yaml.ScalarEvent():
                self._scalar(event)
            case yaml.AliasEvent():
                self._alias(event)
            case yaml.CollectionStartEvent():
                self._start(event)
            case yaml.CollectionEndEvent():
                self._end()
            case yaml.DocumentStartEvent():
                self._documents += 1
                if self._documents > 1:
                    self._problems.add(
                        self._where(event),
                        "a second document starts here",
                        "accepted: one document in a file",
                    )
                    raise self._problems.error()

    def _where(self, event: yaml.Event) -> Where:
        mark = event.start_mark
        return Where(self._file, mark.line + 1, mark.column + 1) if mark else Where(self._file, 1, 1)

    def _scalar(self, event: yaml.ScalarEvent) -> None:
        where = self._where(event)
        # The parser in C gives '' for the style of a plain scalar, the one in Python None.
        quoted = bool(event.style) or event.tag == f"{_CORE}str"
        if event.tag not in (None, f"{_CORE}str"):
            self._refuse_tag(event.tag, where)
        odd = _UNPRINTABLE.search(event.value) if event.style == '"' else None
        if odd is not None:
            self._problems.add(
                where,
                f"this text has the unprintable character U+{ord(odd[0]):04X}",
                "accepted: printable Unicode text",
            )
        scalar = Scalar(text=event.value, quoted=quoted, where=where)
        above = self._open[-1] if self._open else None
        if scalar.empty and above is not None and above.key is not None:
            # An empty value has no place of its own to point at.
            scalar = replace(scalar, where=above.key.where)
        self._count(1, 0, where)
        self._put(scalar, 1, 0, event.anchor)

    def _alias(self, event: yaml.AliasEvent) -> None:
        where = self._where(event)
        known = self._anchors.get(str(event.anchor))
        if known is None:
            if any(above.anchor == event.anchor for above in self._open):
                message, hint = (
                    f"*{event.anchor} stands inside what it names",
                    "accepted: an alias after its anchor",
                )
            else:
                message = f"*{event.anchor} names nothing: no &{event.anchor} stands before it"
                hint = "a text that starts with * is written in quotes"
            self._problems.add(where, message, hint)
            self._put(Scalar(text="", quoted=True, where=where), 1, 0, None)
            return
        self._count(known.weight, known.height, where)
        self._put(replace(known.node, where=where), known.weight, known.height, None)

    def _start(self, event: yaml.CollectionStartEvent) -> None:
        where = self._where(event)
        mapping = isinstance(event, yaml.MappingStartEvent)
        if event.tag not in (None, f"{_CORE}map" if mapping else f"{_CORE}seq"):
            self._refuse_tag(event.tag, where)
        self._count(1, 1, where)
        if event.anchor is not None:
            # From here on the name stands for this node, which cannot be used before it ends.
            self._anchors.pop(event.anchor, None)
        self._open.append(_Open(where, mapping, event.anchor))

    def _end(self) -> None:
        done = self._open.pop()
        node: Node = (
            Mapping(entries=tuple(done.entries), where=done.where)
            if done.mapping
            else Sequence(items=tuple(done.items), where=done.where)
        )
        self._put(node, done.weight, done.height, done.anchor)

    def _put(self, node: Node, weight: int, height: int, anchor: str | None) -> None:
        if anchor is not None:
            self._anchors[anchor] = _Anchored(node, weight, height)
        if not self._open:
            self.top = node
            return
        above = self._open[-1]
        above.weight += weight
        above.height = max(above.height, height + 1)
        if not above.mapping:
            above.items.append(node)
        elif above.key is None:
            above.key = self._key(node, above)
        else:
            if above.keep:
                above.entries.append(Entry(key=above.key, value=node))
            above.key = None

    def _key(self, node: Node, above: _Open) -> Scalar:
        above.keep = False
        if not isinstance(node, Scalar) or not node.text:
            self._problems.add(node.where, f"{node.found} stands as a key", "accepted: text before the colon")
            return Scalar(text="?", quoted=True, where=node.where)
        if node.text == "<<" and not node.quoted:
            self._problems.add(
                node.where,
                "the merge key '<<' is not used here",
                "accepted: every key written out, or the whole value as an alias: 'key: *name'",
            )
        elif node.text in above.keys:
            first = above.keys[node.text]
            self._problems.add(
                node.where,
                f"the key {shown(node.text)} is written twice; the first is at {first.line}:{first.column}",
                "accepted: each key once",
            )
        else:
            above.keys[node.text] = node.where
            above.keep = True
        return node

    def _count(self, weight: int, height: int, where: Where) -> None:
        self._nodes += weight
        if self._nodes > MAX_NODES:
            self._problems.add(
                where,
                f"the file has more than {MAX_NODES} values, aliases written out",
                f"accepted: at most {MAX_NODES}",
            )
            raise self._problems.error()
        if len(self._open) + height > MAX_DEPTH:
            self._problems.add(
                where,
                f"lists and mappings are nested more than {MAX_DEPTH} deep",
                f"accepted: at most {MAX_DEPTH}",
            )
            raise self._problems.error()

    def _refuse_tag(self, tag: str, where: Where) -> None:
        written = f"!!{tag.removeprefix(_CORE)}" if tag.startswith(_CORE) else tag
        self._problems.add(
            where,
            f"the tag {shown(written)} is not used here",
            "leave it out; a text that starts with ! is written in quotes",
        )


_QUOTE: Final = "a text that starts with this character is written in quotes"

_SLIPS: Final[tuple[tuple[str, str, str], ...]] = (
    (
        "mapping values are not allowed",
        "a colon where no key can stand",
        "a text with a colon and a space is written in quotes; keys of one mapping start in the same column",
    ),
    (
        "sequence entries are not allowed",
        "a list item where none can stand",
        "a list starts on the line after its key; a text that starts with '- ' is written in quotes",
    ),
    (
        "unexpected end of stream",
        "the quote that opens here is not closed",
        "accepted: the same quote at the end",
    ),
    (
        "unexpected document separator",
        "the quote that opens here is not closed",
        "accepted: the same quote at the end",
    ),
    ("could not find expected ':'", "a line without a colon among keys", "accepted: 'key: value'"),
    (
        "unknown escape character",
        "an unknown escape in a text in double quotes",
        "write \\\\ for a backslash, or put the text in single quotes",
    ),
    (
        "invalid Unicode character escape",
        "an unknown escape in a text in double quotes",
        "accepted: \\u and four hexadecimal digits that are a character",
    ),
    (
        "found unexpected ':'",
        "a colon that is followed by a bracket or comma",
        "accepted: a space after the colon; a text with a colon at its end is written in quotes",
    ),
    (
        "maximum nesting depth",
        f"lists and mappings are nested more than {MAX_DEPTH} deep",
        f"accepted: at most {MAX_DEPTH}",
    ),
    ("mapping keys are not allowed", "a text cannot start with '? '", _QUOTE),
    (
        "',' or ']'",
        "the list that opens here is not closed where it should be",
        "accepted: , or ] after each item",
    ),
    (
        "',' or '}'",
        "the mapping that opens here is not closed where it should be",
        "accepted: , or } after each value",
    ),
    (
        "expected node content",
        "a value is missing here, or a text starts with a character that has a meaning in YAML",
        _QUOTE,
    ),
    (
        "expected the node content",
        "a value is missing here, or a text starts with a character that has a meaning in YAML",
        _QUOTE,
    ),
    (
        "while parsing a block collection",
        "a line that belongs neither to the list above nor to what holds it",
        "items of one list start in the same column, each with '- '",
    ),
    ("incompatible YAML document", "a YAML version other than 1 is asked for", "leave the %YAML line out"),
    ("undefined tag handle", "a tag is not used here", "a text that starts with ! is written in quotes"),
    ("while scanning a tag", "a tag is not used here", "a text that starts with ! is written in quotes"),
    ("while parsing a tag", "a tag is not used here", "a text that starts with ! is written in quotes"),
    (
        "while scanning a block scalar",
        "a text block marked | or > starts wrongly",
        "accepted: | or > and then a new line; a text that starts with one of them is written in quotes",
    ),
    ("document start", "text after the end of the document", "accepted: one document in a file"),
    (
        "alphabetic or numeric",
        "an anchor or alias without a name",
        "a text that starts with & or * is written in quotes",
    ),
    (
        "expected key",
        "this does not fit the mapping above it",
        "keys of one mapping start in the same column; one value a key",
    ),
    (
        "expected <block end>",
        "this does not fit the mapping above it",
        "keys of one mapping start in the same column; one value a key",
    ),
)
_COLOUR_AS_REMARK: Final = re.compile(r":[ ]+(#[0-9A-Fa-f]{3,8})\b")
_AT_ITS_START: Final = (
    "unexpected end of stream",
    "unexpected document separator",
    "could not find expected ':'",
    "unknown escape character",
    "invalid Unicode character escape",
)


def _explain(error: yaml.MarkedYAMLError, text: str, file: str, problems: Problems) -> None:
    """Put a syntax error in a designer's words; the same whichever of the two parsers found it."""
    problem = str(error.problem)
    mark = error.problem_mark
    if error.context_mark is not None and any(part in problem for part in _AT_ITS_START):
        mark = error.context_mark
    line, column = (mark.line, mark.column) if mark is not None else (0, 0)
    where = Where(file, line + 1, column + 1)
    if "cannot start any token" in problem:
        lines = text.splitlines()
        character = lines[line][column : column + 1] if line < len(lines) else ""
        problems.add(where, f"a text cannot start with {shown(character)}", _QUOTE)
        return
    colour = _colour_as_remark(error, text)
    if colour is not None:
        problems.add(
            _place(text, colour.start(1), file),
            "a # after a space starts a remark, which takes the rest of this line",
            f'a colour is written in quotes: "{colour[1]}"',
        )
        return
    for part, message, hint in _SLIPS:
        if part in problem or part in str(error.context):
            if "opens here" in message and error.context_mark is not None and mark is not error.context_mark:
                at = error.context_mark
                opens = f"opens at {at.line + 1}:{at.column + 1}"
                problems.add(where, message.replace("opens here", opens), hint)
            else:
                problems.add(where, message, hint)
            return
    problems.add(where, f"this cannot be read as YAML: {problem}", "see the line above it as well")


def _colour_as_remark(error: yaml.MarkedYAMLError, text: str) -> re.Match[str] | None:
    """The colour without quotes that hides the end of brackets, if that is why they are not closed."""
    opening, here = error.context_mark, error.problem_mark
    if opening is None or here is None or not any(end in str(error.problem) for end in ("or ']'", "or '}'")):
        return None
    return _COLOUR_AS_REMARK.search(text, opening.index, here.index)
