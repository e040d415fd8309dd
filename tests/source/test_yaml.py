"""Reading YAML: the meaning of scalars, the places, and what is refused before it can do harm."""

from __future__ import annotations

import tracemalloc

import pytest
import yaml as pyyaml
from hypothesis import given, settings

from panelart.diagnostics import SpecError
from panelart.source import yaml
from panelart.source.nodes import Mapping, Node, Scalar, Sequence
from tests.effort import examples
from tests.source.mutations import slips

SAMPLE = """\
# a remark
plain: ON
octal: 010
time: 12:30
under: 1_000
yes: no
quoted: "5"
single: 'it''s'
block: |
  two
  lines
folded: >-
  one
  line
flow: {a: [1, 2.50, {b: c}], d: ~}
empty:
list:
- &x {p: 1}
- *x
-
"""


def plain(node: Node):
    match node:
        case Scalar():
            return node.text
        case Sequence():
            return [plain(item) for item in node.items]
        case Mapping():
            return {entry.key.text: plain(entry.value) for entry in node.entries}


def test_scalars_stay_as_they_are_written() -> None:
    read = yaml.read(SAMPLE, "a.yaml")
    assert plain(read.get("plain")) == "ON"
    assert [read.get(key).text for key in ("octal", "time", "under", "yes")] == ["010", "12:30", "1_000", "no"]
    assert [read.get(key).quoted for key in ("plain", "quoted", "single", "block", "folded")] == [False] + [True] * 4


def test_the_tree_is_the_one_that_pyyaml_builds_from_texts() -> None:
    """PyYAML's own composer with every scalar left a text is the other reader."""
    assert plain(yaml.read(SAMPLE, "a.yaml")) == pyyaml.load(SAMPLE, Loader=pyyaml.BaseLoader)


def test_places_count_from_one_and_follow_the_text() -> None:
    read = yaml.read(SAMPLE, "a.yaml")
    lines = SAMPLE.split("\n")
    for entry in read.entries:
        where = entry.key.where
        assert lines[where.line - 1][where.column - 1 :].startswith(entry.key.text)
    flow = read.get("flow").entries[0].value
    assert (flow.where.line, flow.where.column) == (15, 11)
    assert (flow.items[1].where.line, flow.items[1].where.column) == (15, 15)


def test_an_empty_value_points_at_its_key() -> None:
    assert yaml.read(SAMPLE, "a").get("empty").where[1:3] == (16, 1)


def test_an_alias_stands_for_its_anchor_at_a_place_of_its_own() -> None:
    first, second, last = yaml.read(SAMPLE, "a").get("list").items
    assert plain(first) == plain(second) == {"p": "1"}
    assert (first.where.line, second.where.line, last.where.line) == (18, 19, 20)
    assert first.entries is second.entries


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_line_ends_and_byte_order_mark_do_not_shift_places(end: str, mark: str) -> None:
    data = (mark + SAMPLE.replace("\n", end)).encode()
    assert yaml.read(data, "a.yaml") == yaml.read(SAMPLE, "a.yaml")


def test_a_tab_in_a_remark_does_no_harm() -> None:
    assert plain(yaml.read("a: b #\tremark\n#\t\nc: d\n", "a")) == {"a": "b", "c": "d"}


def test_tabs_are_told_once_with_their_number() -> None:
    with pytest.raises(SpecError) as caught:
        yaml.read("a:\n\tb: 1\n\tc: 1\n\td: 1\n", "a")
    (problem,) = caught.value.problems
    assert "2 more lines" in problem.message
    assert problem.where[1:3] == (2, 1)


def test_core_tags_are_taken_at_their_word() -> None:
    read = yaml.read("!!map\na: !!str 5\nb: !!seq [1]\n", "a")
    assert read.get("a").quoted
    assert plain(read) == {"a": "5", "b": ["1"]}


def _outcome(text: str, events):
    try:
        return yaml.read(text, "a.yaml", events=events)
    except SpecError as error:
        return error.problems


@pytest.mark.skipif(not pyyaml.__with_libyaml__, reason="the parser in C is not installed")
@settings(max_examples=examples(300), deadline=None)
@given(slips(SAMPLE))
def test_both_parsers_accept_the_same_and_read_it_the_same(text: str) -> None:
    by_c, by_python = _outcome(text, yaml.c_events), _outcome(text, yaml.python_events)
    if isinstance(by_python, Mapping) or isinstance(by_c, Mapping):
        assert by_c == by_python
    else:
        assert [problem.hint != "" for problem in by_c] == [True] * len(by_c)


@pytest.mark.parametrize("events", [yaml.EVENTS, yaml.python_events])
@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("a: [1\n", "unclosed-list-at"),
        ("a: 'x\n", "unclosed-quote"),
        ("a: b: c\n", "unexpected-colon"),
        ("a: %x\n", "unquoted-start"),
        ('a: "\\q"\n', "unknown-escape"),
        ("- a\nb: c\n", "misaligned-item"),
        ("a:\n- b\n- c\n d: e\n", "unexpected-colon"),
        ("a: !<x y\n", "unreadable-tag"),
        ("a: |9x\n", "text-block-start"),
        ("a: &\n", "nameless-anchor"),
        ("a: {b:}\n", "colon-before-bracket"),
        ("a: [b:[c]]\n", "colon-before-bracket"),
        ("a: 1\n...\nb: 2\n", "text-after-document"),
        ("%YAML 2.0\n---\na: 1\n", "unsupported-version"),
    ],
)
def test_syntax_is_explained_in_the_same_words_by_both(text: str, message: str, events) -> None:
    (problem,) = _outcome(text, events)
    assert problem.says.id.partition(".")[2] == message
    assert problem.where[1:3] == _outcome(text, yaml.EVENTS)[0].where[1:3]


# --- bombs


def _refused(text: bytes | str) -> tuple[SpecError, int]:
    """The error, and the most memory taken on the way to it, in bytes."""
    tracemalloc.start()
    try:
        with pytest.raises(SpecError) as caught:
            yaml.read(text, "a.yaml")
        return caught.value, tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()


def test_aliases_that_would_expand_to_billions_are_refused_in_little_memory() -> None:
    """Nine levels of nine aliases: 9^9 = 387 million values, written in half a kilobyte."""
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 9)]
    error, memory = _refused("\n".join(lines))
    assert "Too many values, with aliases expanded; maximum 100000" in str(error)
    assert memory < 1_000_000


def test_aliases_that_nest_deeply_are_refused() -> None:
    lines = ["a0: &a0 [x]", *(f"a{n}: &a{n} [*a{n - 1}]" for n in range(1, 60))]
    error, memory = _refused("\n".join(lines))
    assert "nested too deep; maximum 40 levels" in str(error)
    assert memory < 1_000_000


@pytest.mark.parametrize("opening", ["[", "{a: ", "- ", "? "])
def test_deep_nesting_is_refused_in_little_memory(opening: str) -> None:
    error, memory = _refused("a: " + opening * 20_000 if opening[0] in "[{" else opening * 20_000)
    assert "nested too deep; maximum 40 levels" in str(error)
    assert memory < 2_000_000


def test_forty_deep_is_read() -> None:
    assert yaml.read("a: " + "[" * 39 + "]" * 39, "a")
    error, _ = _refused("a: " + "[" * 40 + "]" * 40)
    assert "maximum 40 levels" in str(error)


def test_the_size_is_looked_at_before_anything_else() -> None:
    data = b"\xff" * 1_000_001
    error, memory = _refused(data)
    assert "1000001 bytes" in str(error)
    assert memory < 100_000


def test_a_file_of_many_values_is_refused_at_the_limit() -> None:
    error, memory = _refused("a: [" + "1," * 400_000 + "1]")
    assert "Too many values, with aliases expanded; maximum 100000" in str(error)
    assert memory < 40_000_000


def test_a_file_of_many_slips_is_given_up() -> None:
    error, _ = _refused("\n".join(f"? [{n}]\n: x" for n in range(5000)))
    assert len(error.problems) == 201
    assert "Reading stopped after 200 errors" in str(error)
