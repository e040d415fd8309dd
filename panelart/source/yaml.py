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
from typing import Final, cast

import yaml
from msgspec import field
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.diagnostics import Where
from panelart.messages import Message
from panelart.messages import source as said
from panelart.messages import source_syntax as syntax
from panelart.source.nodes import Entry, Mapping, Node, Scalar, Sequence
from panelart.source.problems import Problems

MAX_BYTES: Final = 1_000_000
"""The largest file that is read; 5000 parts written out one by one take about half of it."""

MAX_DEPTH: Final = 40
"""The deepest nesting of lists and mappings; a panel needs about 10."""

MAX_NODES: Final = 100_000
"""The maximum of keys and values in a file, each alias counted at the size of what it stands for."""

_PRINTABLE: Final = (
    ("\t", "\n"),
    ("\r", "\r"),
    (" ", "~"),
    ("\u00a0", "\u2027"),
    ("\u202a", "\ud7ff"),
    ("\ue000", "\ufefe"),
    ("\uff00", "\ufffd"),
    ("\U00010000", "\U0010ffff"),
)
"""The characters that may stand in a file, from each first one to its last."""

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
            problems.add(where, said.file_empty(), said.keys_and_values())
        else:
            problems.add(where, said.file_not_a_mapping(top.found), said.key_on_each_line())
    raise problems.error()


def _text(data: bytes | str, file: str, problems: Problems) -> str:
    if len(data) > MAX_BYTES:
        too_long = said.too_many_bytes if isinstance(data, bytes) else said.too_many_characters
        problems.add(Where(file, 1, 1), too_long(count=len(data), maximum=MAX_BYTES), said.shorten_file())
        raise problems.error()
    text = data if isinstance(data, str) else _decoded(data, file, problems)
    text = text.removeprefix("\ufeff")
    odd = unprintable(text)
    if odd is not None:
        problems.add(
            _place(text, odd, file),
            said.unprintable(code_point(text[odd])),
            said.printable_text(),
        )
    tabs = list(_INDENTED_BY_TAB.finditer(text))
    if tabs:
        problems.add(
            _place(text, tabs[0].end() - 1, file),
            said.tabs(count=len(tabs) - 1) if len(tabs) > 1 else said.tab(),
            said.indent_with_spaces(),
        )
    problems.raise_any()
    return text


def unprintable(text: str) -> int | None:
    """Where the first character stands that must not be in a file."""
    # A text has few different characters; a pattern of all that may not stand there takes longest of all to compile.
    odd = [one for one in set(text) if not any(first <= one <= last for first, last in _PRINTABLE)]
    return min(map(text.index, odd), default=None)


def _decoded(data: bytes, file: str, problems: Problems) -> str:
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        problems.add(Where(file, 1, 1), said.utf_16(), said.save_as_utf_8())
        raise problems.error()
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8").removeprefix("\ufeff")
        problems.add(
            _place(before, len(before), file),
            said.not_utf_8(f"0x{data[error.start]:02X}"),
            said.save_as_utf_8(),
        )
        raise problems.error() from None


def code_point(character: str) -> str:
    """A character as messages name it."""
    return f"U+{ord(character):04X}"


def _place(text: str, index: int, file: str) -> Where:
    before = text[:index].replace("\r\n", "\n").replace("\r", "\n")
    return Where(file, before.count("\n") + 1, len(before) - before.rfind("\n"))


class _Open(Struct):
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


class _Anchored(Struct, frozen=True):
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
                    self._problems.add(self._where(event), said.second_document(), said.one_document())
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
        odd = unprintable(event.value) if event.style == '"' else None
        if odd is not None:
            self._problems.add(where, said.unprintable(code_point(event.value[odd])), said.printable_text())
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
            alias, anchor = f"*{event.anchor}", f"&{event.anchor}"
            if any(above.anchor == event.anchor for above in self._open):
                self._problems.add(where, said.alias_inside_anchor(alias, anchor), said.alias_after_anchor())
            else:
                self._problems.add(where, said.alias_without_anchor(alias, anchor), said.quote_asterisk())
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
            self._problems.add(node.where, said.key_not_text(node.found), said.text_before_colon())
            return Scalar(text="?", quoted=True, where=node.where)
        if node.text == "<<" and not node.quoted:
            self._problems.add(node.where, said.merge_key(), said.write_keys_out())
        elif node.text in above.keys:
            first = above.keys[node.text]
            self._problems.add(
                node.where, said.duplicate_key(node.text, first.line, first.column), said.each_key_once()
            )
        else:
            above.keys[node.text] = node.where
            above.keep = True
        return node

    def _count(self, weight: int, height: int, where: Where) -> None:
        self._nodes += weight
        if self._nodes > MAX_NODES:
            self._problems.add(where, said.too_many_values(maximum=MAX_NODES), said.fewer_values())
            raise self._problems.error()
        if len(self._open) + height > MAX_DEPTH:
            self._problems.add(where, said.nested_too_deep(maximum=MAX_DEPTH), said.fewer_levels())
            raise self._problems.error()

    def _refuse_tag(self, tag: str, where: Where) -> None:
        written = f"!!{tag.removeprefix(_CORE)}" if tag.startswith(_CORE) else tag
        self._problems.add(where, said.unsupported_tag(written), said.remove_tag())


class _Slip(Struct, frozen=True):
    """What a parser's error means: `part` is found in its text; `opened_at` says it of what opens elsewhere."""

    part: str
    says: Message
    accepts: Message
    opened_at: Callable[[int, int], Message] | None = None


_QUOTE: Final = _Slip(
    "unexpected end of stream", syntax.unclosed_quote(), syntax.same_quote(), syntax.unclosed_quote_at
)
_DEPTH: Final = said.nested_too_deep(maximum=MAX_DEPTH)

_SLIPS: Final = (
    _Slip("mapping values are not allowed", syntax.unexpected_colon(), syntax.quote_colon()),
    _Slip("sequence entries are not allowed", syntax.unexpected_item(), syntax.list_on_next_line()),
    _QUOTE,
    replace(_QUOTE, part="unexpected document separator"),
    _Slip("could not find expected ':'", syntax.missing_colon(), syntax.key_and_value()),
    _Slip("unknown escape character", syntax.unknown_escape(), syntax.write_backslash()),
    _Slip("invalid Unicode character escape", syntax.unknown_escape(), syntax.escaped_character()),
    _Slip("found unexpected ':'", syntax.colon_before_bracket(), syntax.space_after_colon()),
    _Slip("maximum nesting depth", _DEPTH, said.fewer_levels()),
    _Slip("mapping keys are not allowed", syntax.unquoted_start("? "), syntax.quote_text()),
    _Slip("',' or ']'", syntax.unclosed_list(), syntax.close_list(), syntax.unclosed_list_at),
    _Slip("',' or '}'", syntax.unclosed_mapping(), syntax.close_mapping(), syntax.unclosed_mapping_at),
    _Slip("expected node content", syntax.missing_value(), syntax.quote_text()),
    _Slip("expected the node content", syntax.missing_value(), syntax.quote_text()),
    _Slip("while parsing a block collection", syntax.misaligned_item(), syntax.align_items()),
    _Slip("incompatible YAML document", said.unsupported_version(), said.remove_version()),
    _Slip("undefined tag handle", said.unreadable_tag(), said.remove_tag()),
    _Slip("while scanning a tag", said.unreadable_tag(), said.remove_tag()),
    _Slip("while parsing a tag", said.unreadable_tag(), said.remove_tag()),
    _Slip("while scanning a block scalar", syntax.text_block_start(), syntax.new_line_after_sign()),
    _Slip("document start", said.text_after_document(), said.one_document()),
    _Slip("alphabetic or numeric", said.nameless_anchor(), said.quote_anchor()),
    _Slip("expected key", syntax.misaligned_key(), syntax.align_keys()),
    _Slip("expected <block end>", syntax.misaligned_key(), syntax.align_keys()),
)
_COLOUR_AS_COMMENT: Final = re.compile(r":[ ]+(#[0-9A-Fa-f]{3,8})\b")
_AT_ITS_START: Final = (
    "unexpected end of stream",
    "unexpected document separator",
    "could not find expected ':'",
    "unknown escape character",
    "invalid Unicode character escape",
)


def _explain(error: yaml.MarkedYAMLError, text: str, file: str, problems: Problems) -> None:
    """Tell a syntax error in a designer's words; the same whichever of the two parsers found it."""
    problem = str(error.problem)
    mark = _told_at(error)
    line, column = (mark.line, mark.column) if mark is not None else (0, 0)
    where = Where(file, line + 1, column + 1)
    if "cannot start any token" in problem:
        lines = text.splitlines()
        character = lines[line][column : column + 1] if line < len(lines) else ""
        problems.add(where, syntax.unquoted_start(character), syntax.quote_text())
        return
    colour = _colour_as_comment(error, text)
    if colour is not None:
        problems.add(
            _place(text, colour.start(1), file),
            syntax.colour_read_as_comment(),
            syntax.quote_colour(colour[1]),
        )
        return
    slip = next((slip for slip in _SLIPS if slip.part in problem or slip.part in str(error.context)), None)
    if slip is None:
        problems.add(where, syntax.not_yaml(problem), syntax.see_line_above())
        return
    opened = error.context_mark
    if slip.opened_at is not None and opened is not None and mark is not opened:
        problems.add(where, slip.opened_at(opened.line + 1, opened.column + 1), slip.accepts)
    else:
        problems.add(where, slip.says, slip.accepts)


def _told_at(error: yaml.MarkedYAMLError) -> yaml.Mark | None:
    """Where an error is told: where the parser stopped, or where began what it stopped in."""
    begun = error.context_mark
    if begun is not None and any(part in str(error.problem) for part in _AT_ITS_START):
        return begun
    return error.problem_mark


def _colour_as_comment(error: yaml.MarkedYAMLError, text: str) -> re.Match[str] | None:
    """The colour without quotes that hides the end of brackets, if that is why they are not closed."""
    opening, here = error.context_mark, error.problem_mark
    if opening is None or here is None or not any(end in str(error.problem) for end in ("or ']'", "or '}'")):
        return None
    return _COLOUR_AS_COMMENT.search(text, opening.index, here.index)
