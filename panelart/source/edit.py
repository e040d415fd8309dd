"""A spec changed in place: one value at a time, everything else byte for byte as it was.

Pure functions from text to text. A place in the text is named by a path of keys and numbers, ('parts', 3, 'at') or
`path("parts[3].at")`; numbers count from 0. Comments, blank lines, quotes, brackets, indentation, line ends and the
byte order mark stay. Each result is read again and compared with the change made to what was read before, so that an
edit does exactly what was asked or raises SpecError with the reason, at the place in the text.

What an alias stands for is written elsewhere, and what has an anchor that is used stands for several places; neither
is changed.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Mapping
from typing import Any, Final, NamedTuple, TypeAlias

from panelart.canonical import Struct
from panelart.diagnostics import Problem, SpecError, Where, did_you_mean
from panelart.messages import Message, Said
from panelart.messages import source_edit as said
from panelart.source import yaml
from panelart.source.nodes import Mapping as MappingNode
from panelart.source.nodes import Node, Scalar, Sequence
from panelart.source.problems import shown
from panelart.source.spans import Form, Span, spans
from panelart.source.written import UnwritableError, Written, block_mapping, entry, written

Path: TypeAlias = tuple[str | int, ...]
"""Keys of mappings and numbers of list items, from the top."""

_MARK: Final = "\ufeff"
_STEP: Final = re.compile(r"(?:^|\.)([^.\[\]]+)|\[(\d+)\]")
_NEWLINE: Final = re.compile(r"\r\n|\n|\r")


def path(text: str) -> Path:
    """The path in a text such as 'parts[3].at'. Raises ValueError for anything else."""
    steps: list[str | int] = []
    at = 0
    while at < len(text):
        step = _STEP.match(text, at)
        if step is None:
            raise ValueError(f"{shown(text)} is not a path; accepted: keys and numbers such as parts[3].at")
        steps.append(int(step[2]) if step[1] is None else step[1])
        at = step.end()
    if not steps:
        raise ValueError("a path must have at least one key")
    return tuple(steps)


def path_text(path: Path) -> str:
    """A path as text: 'parts[3].at'."""
    return "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in path).removeprefix(".")


# --- the edits


def set_value(text: str, path: Path, value: Written, file: str = "") -> str:
    """The text with the value at a path replaced; the path is there already."""
    return _applied(text, file, [_set(_document(text, file), path, value)])


def add_key(text: str, path: Path, key: str, value: Written, file: str = "", *, after: str | None = None) -> str:
    """The text with one key more in the mapping at a path: after the key `after` where that is there, else last."""
    return _applied(text, file, [_add(_document(text, file), path, key, value, after)])


def put(text: str, path: Path, value: Written, file: str = "", *, after: str | None = None) -> str:
    """The text with the value at a path set, its last key added (as `add_key`) where it is not there yet."""
    return put_all(text, {path: value}, file, after=after)


def put_all(text: str, values: Mapping[Path, Written], file: str = "", *, after: str | None = None) -> str:
    """The text with several values put as by `put`, in one go; no path lies inside another."""
    document = _document(text, file)
    return _applied(text, file, [_put(document, path, value, after) for path, value in values.items()])


def append_item(text: str, path: Path, value: Written, file: str = "") -> str:
    """The text with one item more at the end of the list at a path, written as the item before it is."""
    document = _document(text, file)
    return _applied(text, file, [_insert(document, path, len(document.list_at(path).items), value)])


def insert_item(text: str, path: Path, index: int, value: Written, file: str = "") -> str:
    """The text with an item put into the list at a path, so that it is number `index` of it."""
    return _applied(text, file, [_insert(_document(text, file), path, index, value)])


def duplicate_item(text: str, path: Path, file: str = "") -> str:
    """The text with the list item at a path written a second time after itself, letter by letter."""
    return _applied(text, file, [_duplicate(_document(text, file), path)])


def remove(text: str, path: Path, file: str = "") -> str:
    """The text without the list item or the key at a path; comments on lines of their own stay."""
    return _applied(text, file, [_remove(_document(text, file), path)])


def remark(text: str, path: Path, remarks: Iterable[str], file: str = "") -> str:
    """The text with remarks, a line each, above the list item at a path; as it was where the item begins no line."""
    document = _document(text, file)
    *_, above, item = document.find(path)
    if above.flow:
        return text
    dash = document.dash(above, item)
    if document.text[document.line_start(dash) : dash].strip(" "):
        return text
    parting = f"{document.newline(dash)}{' ' * document.column(dash)}"
    lines = "".join(f"# {one}{parting}" for one in remarks)
    return _applied(text, file, [_Edit((_Splice(dash, dash, lines),), (), "remark")])


def says_the_same(one: str, other: str, file: str = "") -> bool:
    """Whether two texts say the same, whatever their remarks and how they are written."""
    return bool(_data(yaml.read(one, file)) == _data(yaml.read(other, file)))


def path_at(text: str, line: int, column: int, file: str = "") -> Path | None:
    """The path of the innermost value or key at a place (counted from 1); a key names its value. None: nothing there.

    An alias has a path; what it stands for has none through it.
    """
    document = _document(text, file)
    starts = [0, *(match.end() for match in _NEWLINE.finditer(document.text))]
    if not 1 <= line <= len(starts):
        return None
    at, steps, span = starts[line - 1] + column - 1, list[str | int](), document.top
    while True:
        inside = next((step for step in _inside(span) if _covers(step[1], at) or _covers(step[2], at)), None)
        if inside is None:
            return tuple(steps) or None
        steps.append(inside[0])
        span = inside[2]


def difference(before: str, after: str, file: str) -> str:
    """What changed, as a unified diff without context beyond one line; '' when nothing did."""
    old, new = before.splitlines(keepends=True), after.splitlines(keepends=True)
    lines = difflib.unified_diff(old, new, file, file, n=1)
    return "".join(line if line.endswith(("\n", "\r")) else f"{line}\n\\ No newline at end of file\n" for line in lines)


# --- how they are made


class _Splice(NamedTuple):
    """Text put in the place of [start, end)."""

    start: int
    end: int
    text: str


class _Edit(Struct, frozen=True):
    """The splices of one change, and the same change to the data."""

    splices: tuple[_Splice, ...]
    path: Path
    kind: str
    key: str | int = ""
    value: Any = None


def _inside(span: Span) -> Iterable[tuple[str | int, Span, Span]]:
    yield from ((index, item, item) for index, item in enumerate(span.items))
    yield from ((key.text, key, value) for key, value in span.entries)


def _covers(span: Span, at: int) -> bool:
    return span.start <= at < max(span.end, span.start + 1)


class _Document(Struct, frozen=True, kw_only=True):
    """A text that has been read, and its spans."""

    text: str
    file: str
    top: Span
    shared: frozenset[str]

    def refuse(self, at: int, message: Said, hint: Said = "") -> SpecError:
        """The reason why an edit is not made, at its place."""
        before = _NEWLINE.sub("\n", self.text[:at])
        where = Where(self.file, before.count("\n") + 1, len(before) - before.rfind("\n"))
        return SpecError([Problem(where=where, says=message, accepts=hint)])

    def find(self, path: Path) -> tuple[Span, ...]:
        """The spans from the top to the one at the path. Raises SpecError when it is not there or is shared."""
        found = [self.top]
        for depth, step in enumerate(path):
            above = found[-1]
            inside = next((value for name, _, value in _inside(above) if name == step), None)
            if inside is None:
                raise self._lacks(above, path, depth)
            found.append(inside)
            self._sole(inside, path[: depth + 1])
        return tuple(found)

    def _sole(self, span: Span, path: Path) -> None:
        if span.form is Form.ALIAS:
            raise self.refuse(
                span.start,
                said.value_is_alias(path_text(path), span.text),
                said.change_at_anchor(span.text),
            )
        if span.anchor in self.shared:
            raise self.refuse(
                span.start,
                said.value_is_shared(path_text(path), span.anchor),
                said.write_value_out(),
            )

    def _lacks(self, above: Span, path: Path, depth: int) -> SpecError:
        step, owner = path[depth], _owner(path[:depth])
        if isinstance(step, int) and above.form is Form.LIST:
            missing = said.no_item(owner, count=len(above.items), number=step)
            return self.refuse(above.start, missing, said.items_from_zero())
        if isinstance(step, str) and above.form is Form.MAPPING:
            keys = [key.text for key, _ in above.entries]
            return self.refuse(above.start, said.no_key(owner, step), did_you_mean(step, keys, said.keys()))
        if isinstance(step, int):
            return self.refuse(above.start, said.not_a_list(owner), said.path_of_list())
        return self.refuse(above.start, said.not_a_mapping(owner), said.path_of_mapping())

    def list_at(self, path: Path) -> Span:
        """The list at a path. Raises SpecError."""
        span = self.find(path)[-1]
        if span.form is not Form.LIST:
            raise self.refuse(span.start, said.not_a_list(_owner(path)), said.path_of_list())
        return span

    def line_start(self, at: int) -> int:
        """Where the line of a place begins."""
        return max(self.text.rfind("\n", 0, at), self.text.rfind("\r", 0, at)) + 1

    def line_end(self, at: int) -> int:
        """Where the line of a place ends, before its line end."""
        found = _NEWLINE.search(self.text, at)
        return len(self.text) if found is None else found.start()

    def after_line(self, at: int) -> int:
        """Where the next line begins."""
        found = _NEWLINE.search(self.text, at)
        return len(self.text) if found is None else found.end()

    def column(self, at: int) -> int:
        """How many characters stand before a place in its line."""
        return at - self.line_start(at)

    def newline(self, at: int) -> str:
        """The line end in use round a place."""
        found = _NEWLINE.search(self.text, at) or _NEWLINE.search(self.text)
        return "\n" if found is None else found[0]

    def leads_line(self, at: int) -> bool:
        """Whether only spaces stand before a place in its line."""
        return not self.text[self.line_start(at) : at].strip(" ")

    def only_comment_after(self, at: int) -> bool:
        """Whether nothing or a comment follows on the line."""
        return re.fullmatch(r"[ ]*(?:[ ]#.*)?", self.text[at : self.line_end(at)]) is not None

    def past_comma(self, at: int) -> int | None:
        """Where the comma after a value in brackets ends, past blank space and comments; None when there is none."""
        found = re.compile(r"(?:[\s]|(?<=\s)#[^\r\n]*)*,").match(self.text, at)
        return None if found is None else found.end()

    def dash(self, above: Span, item: Span) -> int:
        """Where the dash of an item of a block list stands; all dashes stand in one column."""
        column, at = self.column(above.start), item.start
        while True:
            begin = self.line_start(at)
            place = begin + column
            first = begin == self.line_start(above.start)
            alone = first or not self.text[begin:place].strip(" ")
            if place <= item.start and self.text[place : place + 1] == "-" and alone:
                return place
            at = begin - 1


def _owner(path: Path) -> Said:
    """What stands at a path, by name; the top is the spec."""
    return path_text(path) or said.the_spec()


def _document(text: str, file: str) -> _Document:
    bare = text.removeprefix(_MARK)
    yaml.read(bare, file)
    top = spans(bare)
    shared = frozenset(span.text for span in top if span.form is Form.ALIAS)
    return _Document(text=bare, file=file, top=top, shared=shared)


def _applied(text: str, file: str, edits: list[_Edit]) -> str:
    """The text with the splices made, read again and compared with the data changed likewise."""
    bare = text.removeprefix(_MARK)
    splices = sorted(((splice, number) for number, edit in enumerate(edits) for splice in edit.splices))
    pieces, at = [], 0
    for splice, _ in sorted(splices, key=lambda each: (each[0].start, each[0].end, each[1])):
        pieces += [bare[at : splice.start], splice.text]
        at = splice.end
    result = "".join([*pieces, bare[at:]])
    due = _data(yaml.read(bare, file))
    for edit in edits:
        due = _changed(due, edit)
    try:
        now = _data(yaml.read(result, file))
    except SpecError as error:
        raise _unsafe(file, said.edit_unreadable(error.problems[0].says)) from error
    if now != due:
        raise _unsafe(file, said.edit_changes_neighbour())
    return text[: len(text) - len(bare)] + result


def _unsafe(file: str, why: Message) -> SpecError:
    return SpecError([Problem(where=Where(file, 1, 1), says=why, accepts=said.change_in_editor())])


def _data(node: Node) -> Any:
    match node:
        case Scalar():
            return node.text
        case Sequence():
            return [_data(item) for item in node.items]
        case MappingNode():
            return {entry.key.text: _data(entry.value) for entry in node.entries}


def _as_read(value: Written) -> Any:
    """A value as it is read back: every scalar a text."""
    match value:
        case str():
            return value
        case bool() | int() | float():
            return written(value)
        case Mapping():
            return {key: _as_read(of) for key, of in value.items()}
        case _:
            return [_as_read(item) for item in value]


def _changed(data: Any, edit: _Edit) -> Any:
    """The data with a change made to it."""
    if edit.path:
        first, rest = edit.path[0], _Edit((), edit.path[1:], edit.kind, edit.key, edit.value)
        inside = _changed(data[first], rest)
        if isinstance(data, list):
            return [*data[: int(first)], inside, *data[int(first) + 1 :]]
        return {**data, first: inside}
    match edit.kind, data:
        case "set", dict():
            return {**data, edit.key: edit.value}
        case "set", list():
            return [*data[: int(edit.key)], edit.value, *data[int(edit.key) + 1 :]]
        case "insert", list():
            return [*data[: int(edit.key)], edit.value, *data[int(edit.key) :]]
        case "remove", dict():
            return {key: value for key, value in data.items() if key != edit.key}
        case "remove", list():
            return [*data[: int(edit.key)], *data[int(edit.key) + 1 :]]
        case "remark", _:
            return data
        case _:
            return [*data[: int(edit.key)], data[int(edit.key)], *data[int(edit.key) :]]  # duplicated


def _written(document: _Document, at: int, value: Written, like: str | None = None) -> str:
    try:
        return written(value, like)
    except UnwritableError as error:
        raise document.refuse(at, error.says, said.writable_values()) from None


def _put(document: _Document, path: Path, value: Written, after: str | None) -> _Edit:
    above = document.find(path[:-1])[-1]
    key = path[-1]
    if above.form is Form.MAPPING and isinstance(key, str) and all(known.text != key for known, _ in above.entries):
        return _add(document, path[:-1], key, value, after)
    return _set(document, path, value)


def _set(document: _Document, path: Path, value: Written) -> _Edit:
    if not path:
        raise document.refuse(0, said.whole_spec_set(), said.path_of_value())
    *_, above, old = document.find(path)
    new = _written(document, old.start, value, old.style if old.form is Form.SCALAR and old.text else None)
    done = _Edit((), path[:-1], "set", path[-1], _as_read(value))
    introduced = _introduced(document, above, path[-1], old)
    if old.start == old.end:
        lead = " " if document.text[introduced - 1 : introduced] in (":", "-") else ": "
        return _with(done, _Splice(introduced, introduced, f"{lead}{new}"))
    block = old.form in (Form.LIST, Form.MAPPING) and not old.flow
    if block and document.line_start(introduced) != document.line_start(old.start):
        return _with(done, _Splice(introduced, introduced, f" {new}"), *_without_lines(document, old.start, old.end))
    return _with(done, _Splice(old.start, old.end, new))


def _with(edit: _Edit, *splices: _Splice) -> _Edit:
    return _Edit(splices, edit.path, edit.kind, edit.key, edit.value)


def _introduced(document: _Document, above: Span, step: str | int, span: Span) -> int:
    """Where the colon or the dash before a value ends; the value's own start where it has neither."""
    if above.form is Form.MAPPING:
        key = next(key for key, _ in above.entries if key.text == step)
        colon = re.compile(r"[ ]*:").match(document.text, key.end)
        if colon is None or document.text[: key.start].rstrip(" \r\n").endswith("?"):
            if above.flow and span.start == span.end:
                return key.end
            raise document.refuse(key.start, said.question_mark_key(), said.key_and_value())
        return colon.end()
    return span.start if above.flow else document.dash(above, span) + 1


def _without_lines(document: _Document, start: int, end: int) -> tuple[_Splice, ...]:
    """The lines of a block taken out, the comment behind its last value too."""
    last = document.line_end(end)
    begin = document.line_start(start)
    return (
        (_Splice(begin, document.after_line(last), ""),)
        if last < len(document.text)
        else (_Splice(_end_before(document, begin), last, ""),)
    )


def _end_before(document: _Document, begin: int) -> int:
    """Where the line before ends, its line end not included."""
    text = document.text
    return begin - (2 if text[:begin].endswith("\r\n") else 1 if begin else 0)


def _add(document: _Document, path: Path, key: str, value: Written, after: str | None) -> _Edit:
    above = document.find(path)[-1]
    if above.form is not Form.MAPPING:
        raise document.refuse(above.start, said.not_a_mapping(_owner(path)), said.path_of_mapping())
    if any(known.text == key for known, _ in above.entries):
        raise document.refuse(above.start, said.key_exists(_owner(path), key))
    try:
        new = entry(key, value)
    except UnwritableError as error:
        raise document.refuse(above.start, error.says, said.writable_values()) from None
    done = _Edit((), path, "set", key, _as_read(value))
    names = [known.text for known, _ in above.entries]
    number = names.index(after) + 1 if after in names else len(names)
    if above.flow:
        inside = [(first.start, last.end) for first, last in above.entries]
        return _with(done, *_into_brackets(document, above, inside, number, new))
    end = above.entries[number - 1][1].end
    at = document.line_end(end)
    indent = " " * document.column(above.start)
    return _with(done, _Splice(at, at, f"{document.newline(end)}{indent}{new}"))


def _into_brackets(
    document: _Document, above: Span, inside: list[tuple[int, int]], number: int, new: str
) -> tuple[_Splice, ...]:
    """What puts a value into brackets so that it is number `number`; `inside` are the starts and ends there are."""
    if not inside:
        at = above.start + re.compile(r"[^\[{]*[\[{]").match(document.text, above.start).end() - above.start  # type: ignore[union-attr]
        return (_Splice(at, at, new),)
    if number < len(inside):
        at = inside[number][0]
        parting = f",{document.newline(at)}{' ' * document.column(at)}" if document.leads_line(at) else ", "
        return (_Splice(at, at, f"{new}{parting}"),)
    start, end = inside[-1]
    if not document.leads_line(start):
        # A colon with nothing after it needs a space before the comma.
        lead = " , " if document.text[end - 1 : end] == ":" else ", "
        return (_Splice(end, end, f"{lead}{new}"),)
    comma = document.past_comma(end)
    last = end if comma is None else comma
    break_ = f"{document.newline(start)}{' ' * document.column(start)}"
    at = document.line_end(last) if document.only_comment_after(last) else last
    if comma is not None:
        return (_Splice(at, at, f"{break_}{new},"),)
    return (
        (_Splice(end, end, ","), _Splice(at, at, f"{break_}{new}"))
        if at > end
        else (_Splice(end, end, f",{break_}{new}"),)
    )


def _insert(document: _Document, path: Path, number: int, value: Written) -> _Edit:
    above = document.list_at(path)
    if not 0 <= number <= len(above.items):
        missing = said.no_item(_owner(path), count=len(above.items), number=number)
        raise document.refuse(above.start, missing, said.items_from_zero())
    done = _Edit((), path, "insert", number, _as_read(value))
    if above.flow:
        inside = [(item.start, item.end) for item in above.items]
        new = _written(document, above.start, value)
        return _with(done, *_into_brackets(document, above, inside, number, new))
    model = above.items[max(number - 1, 0)]
    dash = document.dash(above, model)
    same_line = model.start > dash + 1 and document.line_start(model.start) == document.line_start(dash)
    gap = model.start - dash - 1 if same_line else 1
    column = document.column(dash)
    newline = document.newline(dash)
    if isinstance(value, Mapping) and value and model.form is Form.MAPPING and not model.flow:
        _written(document, above.start, value)
        new = block_mapping(value, " " * (column + 1 + gap), newline)
    else:
        new = _written(document, above.start, value)
    item = f"-{' ' * gap}{new}"
    if number == 0:
        return _with(done, _Splice(dash, dash, f"{item}{newline}{' ' * column}"))
    at = document.line_end(model.end)
    return _with(done, _Splice(at, at, f"{newline}{' ' * column}{item}"))


def _duplicate(document: _Document, path: Path) -> _Edit:
    if not path or not isinstance(path[-1], int):
        raise document.refuse(0, said.only_items_duplicated(), said.path_of_item())
    *_, above, item = document.find(path)
    if any(span.anchor for span in item):
        raise document.refuse(item.start, said.anchor_duplicated(path_text(path)), said.copy_in_editor())
    done = _Edit((), path[:-1], "duplicate", path[-1])
    if above.flow:
        copy = document.text[item.start : item.end]
        inside = [(each.start, each.end) for each in above.items]
        return _with(done, *_into_brackets(document, above, inside, path[-1] + 1, copy))
    dash = document.dash(above, item)
    at = document.line_end(item.end)
    copy = document.text[dash : max(item.end, dash + 1)]
    return _with(done, _Splice(at, at, f"{document.newline(item.end)}{' ' * document.column(dash)}{copy}"))


def _remove(document: _Document, path: Path) -> _Edit:
    if not path:
        raise document.refuse(0, said.whole_spec_removed(), said.path_of_value())
    found = document.find(path)
    above, step = found[-2], path[-1]
    done = _Edit((), path[:-1], "remove", step)
    inside = [(name, first, last) for name, first, last in _inside(above)]
    number = next(index for index, (name, _, _) in enumerate(inside) if name == step)
    extents = [(first.start, last.end) for _, first, last in inside]
    if above.flow:
        return _with(done, *_out_of_brackets(document, extents, number))
    if len(inside) == 1:
        if len(path) == 1:
            raise document.refuse(above.start, said.only_key_removed())
        return _with(done, *_emptied(document, above, _introduced(document, found[-3], path[-2], above)))
    start, end = extents[number]
    if above.form is Form.LIST:
        start = document.dash(above, inside[number][2])
    if document.leads_line(start):
        return _with(done, *_without_lines(document, start, end))
    return _with(done, _first_on_line(document, above, inside[1], start, end))


def _emptied(document: _Document, above: Span, introduced: int) -> tuple[_Splice, ...]:
    """A block without its only entry: empty brackets, behind the colon or the dash that ends at `introduced`."""
    empty = "[]" if above.form is Form.LIST else "{}"
    if document.line_start(introduced) == document.line_start(above.start):
        return (_Splice(above.start, above.end, empty),)
    return (_Splice(introduced, introduced, f" {empty}"), *_without_lines(document, above.start, above.end))


def _first_on_line(
    document: _Document, above: Span, following: tuple[str | int, Span, Span], start: int, end: int
) -> _Splice:
    """The first entry after a dash taken out: the one after it moves up, unless there is a comment between."""
    upto = document.dash(above, following[2]) if above.form is Form.LIST else following[1].start
    between = document.text[document.line_end(end) : upto]
    if between.strip():
        return _Splice(start, document.line_end(end), "")
    return _Splice(start, upto, "")


def _out_of_brackets(document: _Document, extents: list[tuple[int, int]], number: int) -> tuple[_Splice, ...]:
    start, end = extents[number]
    own = document.past_comma(end)
    before = None if number == 0 else extents[number - 1][1]
    if number < len(extents) - 1 and own is not None:
        return _lifted(document, start, own, extents[number + 1][0])
    if before is None:
        return (_Splice(start, end if own is None else own, ""),)
    # The last of several takes the comma before it along; a comma after it stays for the one before.
    comma = document.past_comma(before)
    assert comma is not None  # between two values in brackets
    if not document.text[comma:start].strip(" "):
        return (_Splice(before, end, ""),)
    tail = _lifted(document, start, end, end)
    return (_Splice(comma - 1, comma, ""), *tail)


def _lifted(document: _Document, start: int, end: int, upto: int) -> tuple[_Splice, ...]:
    """A value in brackets with its comma taken out: with its line when it has one alone, else up to the next value."""
    if document.leads_line(start) and document.only_comment_after(end):
        return _without_lines(document, start, end)
    if not document.text[end:upto].strip(" "):
        return (_Splice(start, upto, ""),)
    return (_Splice(start, end, ""),)
