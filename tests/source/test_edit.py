"""Editing a spec in place. The oracle for data is PyYAML's own loader, with every scalar left a text."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
import yaml as pyyaml
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.diagnostics import SpecError
from panelart.source import edit
from panelart.source.spans import spans
from panelart.source.yaml import c_events, python_events
from tests.effort import examples

DEMOS = sorted((Path(__file__).parents[2] / "demo").glob("*.yaml"))


def loaded(text: str):
    return pyyaml.load(text.removeprefix("\ufeff"), Loader=pyyaml.BaseLoader)


# --- a writer of YAML in every style, which knows what each line belongs to

TEXTS = st.one_of(
    st.text(st.characters(min_codepoint=32, max_codepoint=126), min_size=1, max_size=8),
    st.sampled_from(["ON", "10", "12:30", "a: b", "- x", "true", "#3", "Ω 50", "it's", 'a "q"', " x ", "50 %", "~"]),
)
KEYS = st.sampled_from(["ref", "at", "part", "legend", "on", "x y", "z"])
DATA = st.dictionaries(
    KEYS,
    st.recursive(
        TEXTS, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(KEYS, inner, max_size=3), max_leaves=12
    ),
    min_size=1,
)


class Writer:
    """Lines with the path of the value that each belongs to; the styles come from a seed."""

    def __init__(self, seed: int) -> None:
        self.any = random.Random(seed)
        self.lines: list[tuple[str, edit.Path]] = []
        self.in_brackets: set[edit.Path] = set()
        self.remarks = 0

    def scalar(self, text: str) -> str:
        single = "'" + text.replace("'", "''") + "'"
        double = '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
        plain = text if text.replace(" ", "").isalnum() and text.strip() == text else double
        return self.any.choice([single, double, plain])

    def remark(self) -> str:
        self.remarks += 1
        return f"# remark {self.remarks}"

    def tail(self) -> str:
        return self.any.choice(["", "", f"  {self.remark()}"])

    def own(self, indent: int, path: edit.Path) -> None:
        if self.any.random() < 0.3:
            self.lines.append((self.any.choice(["", " " * indent + self.remark(), self.remark()]), path))

    def flow(self, data) -> str:
        match data:
            case str():
                return self.scalar(data)
            case list():
                comma = self.any.choice(["", ","]) if data else ""
                return f"[{', '.join(map(self.flow, data))}{comma}]"
            case _:
                comma = self.any.choice(["", " ,"]) if data else ""
                gap = self.any.choice(["", " "])
                return f"{{{gap}{', '.join(f'{self.scalar(k)}: {self.flow(v)}' for k, v in data.items())}{gap}{comma}}}"

    def wide(self, data, lead: str, indent: int, path: edit.Path) -> None:
        """Brackets over several lines."""
        marks = "[]" if isinstance(data, list) else "{}"
        inside = list(enumerate(data)) if isinstance(data, list) else list(data.items())
        self.lines.append((lead + marks[0] + self.tail(), path))
        for number, (key, value) in enumerate(inside):
            comma = "," if number < len(inside) - 1 or self.any.random() < 0.5 else ""
            head = "" if isinstance(data, list) else f"{self.scalar(key)}: "
            self.lines.append((" " * (indent + 4) + head + self.flow(value) + comma + self.tail(), (*path, key)))
            self.in_brackets.add((*path, key))
            self.own(indent + 4, path)
        self.lines.append((" " * (indent + 2) + marks[1], path))

    def value(self, data, lead: str, indent: int, path: edit.Path) -> None:
        """A value after `lead` ('  key:' or '  -'), which stands at `indent`."""
        style = self.any.choice(["flow", "block", "block", "wide"])
        if not data or isinstance(data, str) or style == "flow":
            self.lines.append((f"{lead} {self.flow(data)}{self.tail()}", path))
        elif style == "wide":
            self.wide(data, f"{lead} ", indent, path)
        else:
            item = lead.endswith("-")
            compact = item and isinstance(data, dict) and self.any.random() < 0.7
            deeper = indent + (0 if isinstance(data, list) and not item and self.any.random() < 0.5 else 2)
            if not compact:
                self.lines.append((lead + self.tail(), path))
                self.own(deeper, path)
            self.block(data, deeper, path, f"{lead} " if compact else "")

    def block(self, data, indent: int, path: edit.Path, first: str = "") -> None:
        for key, value in list(enumerate(data)) if isinstance(data, list) else list(data.items()):
            lead = first or " " * indent
            first = ""
            mark = "-" if isinstance(data, list) else f"{self.scalar(key)}:"
            self.value(value, f"{lead}{mark}", indent, (*path, key))
            self.own(indent, path)


def paths(data, path=()):
    yield path
    for key, value in enumerate(data) if isinstance(data, list) else data.items() if isinstance(data, dict) else ():
        yield from paths(value, (*path, key))


def at(data, path):
    for step in path:
        data = data[step]
    return data


def related(one: edit.Path, other: edit.Path) -> bool:
    shorter = min(len(one), len(other))
    return one[:shorter] == other[:shorter]


def kept(written: Writer, path: edit.Path, newline: str, result: str) -> None:
    """Lines that belong neither to the value nor to what holds it are all there still, in order."""
    now = iter(result.removeprefix("\ufeff").split(newline))
    for line, owner in written.lines:
        if owner in written.in_brackets and owner[:-1] == path[:-1] and owner != path:
            # The last value in brackets gains the comma before a new one, and loses it with one taken out.
            assert any(line.replace(",", "") == other.replace(",", "") for other in now), (line, result)
        elif not related(owner, path):
            # With the first key of a list item taken out, the next one moves up behind the item's dash.
            lifted = owner[:-1] == path[:-1] and isinstance(path[-2], int) if len(path) > 1 else False
            assert any(
                line == other or (lifted and other.lstrip().startswith("- ") and other.endswith(line.lstrip()))
                for other in now
            ), (line, result)
    for line, owner in written.lines:  # remarks on lines of their own outside the value
        if line.strip().startswith("#") and owner[: len(path)] != path:
            assert line in result


@settings(max_examples=examples(400), deadline=None)
@given(DATA, st.integers(0, 10**6), st.data())
def test_an_edit_is_the_same_edit_of_the_data_and_nothing_else(data, seed, draw) -> None:
    writer = Writer(seed)
    writer.own(0, ())
    writer.block(data, 0, ())
    newline = draw.draw(st.sampled_from(["\n", "\r\n"]))
    mark, end = draw.draw(st.sampled_from(["", "\ufeff"])), draw.draw(st.sampled_from(["", newline]))
    text = mark + newline.join(line for line, _ in writer.lines) + end
    assert loaded(text) == data
    path = draw.draw(st.sampled_from(list(paths(data))))
    there = at(data, path)
    value = draw.draw(st.one_of(TEXTS, st.integers(-99, 99), st.lists(st.integers(0, 9)), st.dictionaries(KEYS, TEXTS)))
    # Deep copy by reading again, then the same change made with plain Python.
    due = loaded(text)
    as_text = loaded(pyyaml.safe_dump(value)) if not isinstance(value, str) else value
    kinds = ["set", "remove"] if path else []
    kinds += ["append", "insert"] if isinstance(there, list) else ["add"] if isinstance(there, dict) else []
    kinds += ["duplicate"] if path and isinstance(path[-1], int) else []
    if not kinds:
        return
    kind = draw.draw(st.sampled_from(kinds))
    match kind:
        case "set":
            result = edit.set_value(text, path, value)
            at(due, path[:-1])[path[-1]] = as_text
        case "remove":
            if len(path) == 1 and len(data) == 1:
                return
            result = edit.remove(text, path)
            del at(due, path[:-1])[path[-1]]
        case "append":
            result = edit.append_item(text, path, value)
            at(due, path).append(as_text)
        case "insert":
            number = draw.draw(st.integers(0, len(there)))
            result = edit.insert_item(text, path, number, value)
            at(due, path).insert(number, as_text)
        case "add":
            after = draw.draw(st.sampled_from([None, *there]))
            result = edit.add_key(text, path, "new", value, after=after)
            at(due, path)["new"] = as_text
        case _:
            result = edit.duplicate_item(text, path)
            at(due, path[:-1]).insert(path[-1], there)
    assert loaded(result) == due
    assert result.startswith(mark)
    if newline in text:
        assert ("\r\n" in result) <= (newline == "\r\n")
        assert newline == "\n" or "\n" not in result.replace("\r\n", "")
        grows = kind in ("append", "insert", "add")
        kept(writer, (*path, "new") if grows else path, newline, result)


@settings(max_examples=examples(150), deadline=None)
@given(DATA, st.integers(0, 10**6))
def test_both_parsers_give_the_same_spans(data, seed) -> None:
    writer = Writer(seed)
    writer.block(data, 0, ())
    text = "\n".join(line for line, _ in writer.lines)
    assert spans(text, events=c_events) == spans(text, events=python_events)


@settings(max_examples=examples(150), deadline=None)
@given(DATA, st.integers(0, 10**6), st.data())
def test_the_path_of_a_place_is_the_path_of_the_value_that_starts_there(data, seed, draw) -> None:
    """PyYAML's composer says where each value starts."""
    writer = Writer(seed)
    writer.block(data, 0, ())
    text = "\n".join(line for line, _ in writer.lines)
    path = draw.draw(st.sampled_from([path for path in paths(data) if path]))
    node = pyyaml.compose(text, Loader=pyyaml.BaseLoader)
    for step in path:
        if isinstance(step, int):
            node = node.value[step]
        else:
            node = next(value for key, value in node.value if key.value == step)
    if isinstance(node, pyyaml.ScalarNode):
        assert edit.path_at(text, node.start_mark.line + 1, node.start_mark.column + 1) == path


@settings(max_examples=examples(300), deadline=None)
@given(st.text(max_size=12), st.sampled_from([None, "", "'", '"']), st.booleans())
def test_a_text_reads_back_as_itself_or_is_refused(value, style, flow) -> None:
    old = {None: "k: [a]", "": "k: a", "'": "k: 'a'", '"': 'k: "a"'}[style]
    text = f"top: {{{old}, b: c}}\n" if flow else f"top:\n  {old}\n  b: c\n"
    try:
        result = edit.set_value(text, ("top", "k"), value)
    except SpecError:
        assert not value.isprintable()  # characters that a spec does not take
        return
    assert loaded(result) == {"top": {"k": value, "b": "c"}}


# --- what it looks like

SPEC = """\
parts:
  # left
  - {ref: S1, part: toggle-12, at: [28, 32]}  # mains

  - ref: RV1
    part: pot-m10
    legend: 'Volts'
    knob:      # from the drawer
      diameter: 22
      # tall
      height: 16
  - {ref: S2, part: toggle-12}
lines: [
  {from: S1, to: S2},  # first
  {from: S2, to: S1}   # back
]
note: >
  two
  lines

size: [ 260,110 ]
"""


def changed(after: str) -> list[str]:
    """The lines taken out and put in."""
    lines = edit.difference(SPEC, after, "a.yaml").splitlines()[2:]
    return [line for line in lines if line[0] in "+-"]


@pytest.mark.parametrize(
    ("after", "lines"),
    [
        (
            edit.put(SPEC, edit.path("parts[0].at"), [12.5, 40.0]),
            [
                "-  - {ref: S1, part: toggle-12, at: [28, 32]}  # mains",
                "+  - {ref: S1, part: toggle-12, at: [12.5, 40]}  # mains",
            ],
        ),
        (edit.put(SPEC, edit.path("parts[1].at"), [1, 2], after="part"), ["+    at: [1, 2]"]),
        (
            edit.put(SPEC, edit.path("parts[2].at"), [1, 2], after="part"),
            ["-  - {ref: S2, part: toggle-12}", "+  - {ref: S2, part: toggle-12, at: [1, 2]}"],
        ),
        (
            edit.put(SPEC, edit.path("parts[1].legend"), "It's 5"),
            ["-    legend: 'Volts'", "+    legend: 'It''s 5'"],
        ),
        (
            edit.put(SPEC, edit.path("parts[1].knob"), {"diameter": 30}),
            [
                "-    knob:      # from the drawer",
                "-      diameter: 22",
                "-      # tall",
                "-      height: 16",
                "+    knob: {diameter: 30}      # from the drawer",
            ],
        ),
        (edit.remove(SPEC, edit.path("parts[1].knob.diameter")), ["-      diameter: 22"]),
        (edit.remove(SPEC, edit.path("lines[0]")), ["-  {from: S1, to: S2},  # first"]),
        (
            edit.remove(SPEC, edit.path("lines[1]")),
            [
                "-  {from: S1, to: S2},  # first",
                "-  {from: S2, to: S1}   # back",
                "+  {from: S1, to: S2}  # first",
            ],
        ),
        (
            edit.append_item(SPEC, ("lines",), {"from": "RV1", "to": "S1"}),
            ["-  {from: S2, to: S1}   # back", "+  {from: S2, to: S1},   # back", "+  {from: RV1, to: S1}"],
        ),
        (
            edit.append_item(SPEC, ("parts",), {"ref": "S3", "part": "x", "legend": "10"}),
            ['+  - {ref: S3, part: x, legend: "10"}'],
        ),
        (
            edit.insert_item(SPEC, ("parts",), 2, {"ref": "S3", "part": "x"}),
            ["+  - ref: S3", "+    part: x"],
        ),
        (
            edit.duplicate_item(SPEC, edit.path("parts[0]")),
            ["+  - {ref: S1, part: toggle-12, at: [28, 32]}"],
        ),
        (edit.put(SPEC, ("size",), ["3U", 110]), ["-size: [ 260,110 ]", "+size: [3U, 110]"]),
        (edit.put(SPEC, ("note",), "one"), ["-note: >", "-  two", "-  lines", "+note: one"]),
        (edit.put(SPEC, ("title",), "true"), ['+title: "true"']),
    ],
)
def test_only_the_lines_of_the_value_change(after: str, lines: list[str]) -> None:
    assert changed(after) == lines


@pytest.mark.parametrize(
    ("text", "path", "said"),
    [
        ("a: &x [1, 2]\nb: *x\n", "b", "b is the alias *x, whose value is written elsewhere"),
        ("a: &x [1, 2]\nb: *x\n", "b[0]", "b is the alias *x, whose value is written elsewhere"),
        ("a: &x [1, 2]\nb: *x\n", "a", "a has the anchor &x and is used elsewhere as *x"),
        ("a: &x [1, 2]\nb: *x\n", "a[1]", "a has the anchor &x and is used elsewhere as *x"),
        ("a: [1, 2]\n", "a[2]", "a has 2 items and no item 2"),
        ("a: {bc: 1}\n", "a.bd.e", "a has no key 'bd'"),
        ("a: {bc: 1}\n", "a.bc.e", "a.bc is not a mapping"),
        ("? a\n: 1\n", "a", "A key marked with ? cannot be edited in place"),
    ],
)
def test_what_is_refused_is_told_with_its_place(text: str, path: str, said: str) -> None:
    with pytest.raises(SpecError) as refused:
        edit.put(text, edit.path(path), "new", "a.yaml")
    (problem,) = refused.value.problems
    assert problem.message == said
    assert problem.where.file == "a.yaml"


def test_an_anchor_that_nobody_uses_does_not_hinder() -> None:
    assert edit.put("a: &x {b: 1}\n", edit.path("a.b"), 2) == "a: &x {b: 2}\n"


def test_a_duplicate_with_an_anchor_is_refused() -> None:
    with pytest.raises(SpecError, match="cannot be duplicated"):
        edit.duplicate_item("a:\n  - &x {b: 1}\n", edit.path("a[0]"))


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_no_number_is_written_that_is_none(value: float) -> None:
    with pytest.raises(SpecError, match="not a finite number"):
        edit.put("a: 1\n", ("a",), value)


@pytest.mark.parametrize(
    ("value", "text"), [(12.0, "12"), (-0.0, "0"), (0.1, "0.1"), (1e-7, "0.0000001"), (1e20, "100000000000000000000")]
)
def test_figures_have_no_exponent(value: float, text: str) -> None:
    assert edit.put("a: 1\n", ("a",), value) == f"a: {text}\n"


@pytest.mark.parametrize("text", ["", "a[", "a..b", "[x]", "a]"])
def test_what_is_no_path(text: str) -> None:
    with pytest.raises(ValueError, match="path"):
        edit.path(text)


@pytest.mark.parametrize("demo", DEMOS, ids=lambda demo: demo.stem)
def test_writing_what_is_there_changes_nothing_in_the_demos(demo: Path) -> None:
    """Every scalar of every demo set to what it is: no byte changes."""
    text = demo.read_bytes().decode("utf-8")
    data = loaded(text)
    scalars = {path: value for path in paths(data) if isinstance(value := at(data, path), str) and value}
    after = edit.put_all(text, scalars)
    assert loaded(after) == data
    same = sum(one == other for one, other in zip(text.splitlines(), after.splitlines(), strict=True))
    assert same >= 0.9 * len(text.splitlines())  # quotes may differ where a text would do without
