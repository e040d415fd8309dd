"""Kinds of values: what each takes and what it refuses, on both sides of its limits."""

from __future__ import annotations

import json

import jsonschema
import pytest

from panelart.source import yaml
from panelart.source.json_schema import json_schema
from panelart.source.problems import Problems
from panelart.source.reference import key_reference, records
from panelart.source.schema import (
    Angle,
    Choice,
    Colour,
    Field,
    Flag,
    Integer,
    Kind,
    Later,
    Length,
    ListOf,
    MapOf,
    Number,
    OneOf,
    Record,
    Text,
    decimal,
    pair,
    read,
)


def value_of(text: str, kind: Kind):
    """What a kind reads from `v: text`, and the messages."""
    problems = Problems()
    value = read(yaml.read(f"v: {text}\n", "a").get("v"), kind, problems)
    said = [f"{problem.message} | {problem.hint}" for problem in problems.error().problems]
    return (None if value is None else value.value), said


@pytest.mark.parametrize(
    ("kind", "text", "value"),
    [
        (Text(), "ON", "ON"),
        (Text(), "010", "010"),
        (Text(), "12:30", "12:30"),
        (Text(), "1_000", "1_000"),
        (Text(), "true", "true"),
        (Text(), "NULL", "NULL"),
        (Text(), "~", "~"),
        (Text(), "'  a '", "  a "),
        (Text(prose=True), '"a\\n b"', "a b"),
        (Text(lines=2), '"a\\nb"', "a\nb"),
        (Text(maximum=3), "abc", "abc"),
        (Number(), "-1.5e2", -150.0),
        (Number(), "010", 10.0),
        (Number(), ".5", 0.5),
        (Number(minimum=0, maximum=1), "0", 0.0),
        (Number(minimum=0, maximum=1), "1", 1.0),
        (Number(above=0, below=1), "0.5", 0.5),
        (Integer(minimum=1, maximum=3), "3", 3),
        (Length(), "3", 3.0),
        (Length(), "0.5 in", 12.7),
        (Length(), "2U", 88.9),
        (Length(), "'0.5\"'", 12.7),
        (Angle(), "90 deg", 90.0),
        (Flag(), "true", True),
        (Flag(), "false", False),
        (Choice(("a", "b"), "letters"), "b", "b"),
        (Colour(), '"#a0b1c2"', "#A0B1C2"),
        (pair(Length(), "x", "y"), "[1, 1 in]", (1.0, 25.4)),
    ],
)
def test_what_is_taken(kind: Kind, text: str, value: object) -> None:
    assert value_of(text, kind) == (value, [])


@pytest.mark.parametrize(
    ("kind", "text", "said"),
    [
        (Text(), "", "No value"),
        (Text(), "[a]", "the list [a]"),
        (Text(), "''", "without visible characters"),
        (Text(), '"a\\nb"', "which has 2 lines"),
        (Text(lines=2), '"a\\nb\\nc"', "which has 3 lines"),
        (Text(maximum=3), "abcd", "4 characters"),
        (Text(pattern="[a-z]+", form="small letters"), "aB", "small letters"),
        (Number(), "1_000", "'1_000'"),
        (Number(), "0x10", "'0x10'"),
        (Number(), "nan", "'nan'"),
        (Number(), ".inf", "'.inf'"),
        (Number(), "1e400", "'1e400'"),
        (Number(), "٣", "'٣'"),
        (Number(), "'3'", "Remove the quotes."),
        (Number(), "3,5", "Write 3.5"),
        (Number(minimum=0, maximum=1), "1.001", "a number, 0 to 1"),
        (Number(above=0), "0", "more than 0"),
        (Number(below=1), "1", "less than 1"),
        (Integer(minimum=1, maximum=3), "4", "from 1 to 3"),
        (Integer(minimum=1, maximum=3), "1.0", "from 1 to 3"),
        (Integer(minimum=1, maximum=3), "9" * 50, "from 1 to 3"),
        (Length(), "3 furlong", "furlong"),
        (Length(), "9" * 50, "Accepted: a length"),
        (Length(above=0), "-1 in", "more than 0 mm"),
        (Flag(), "yes", "true or false"),
        (Flag(), "'true'", "true or false"),
        (Choice(("above", "below"), "places"), "abvoe", "Did you mean 'above'?"),
        (Colour(), "red", "#RRGGBB"),
        (Colour(), "#FF0000", "starts a comment"),
        (pair(Length(), "x", "y"), "[1]", "which has 1 value; accepted number of values: 2"),
        (pair(Length(), "x", "y"), "5", "in place of [x, y]"),
        (ListOf(of=Number(), what="numbers", minimum=1), "[]", "minimum 1 item"),
        (ListOf(of=Number(), what="numbers", maximum=1), "[1, 2]", "maximum 1 item"),
        (ListOf(of=Number(), what="numbers"), "1", "in place of a list"),
        (MapOf(keys=Text(), of=Number(), what="names"), "1", "in place of a mapping"),
    ],
)
def test_what_is_refused(kind: Kind, text: str, said: str) -> None:
    value, messages = value_of(text, kind)
    assert value is None
    assert len(messages) == 1
    assert said in messages[0]


def test_decimal_is_strict() -> None:
    assert decimal("1.50") == 1.5
    assert [decimal(text) for text in ("", "1 ", "1_0", "0b1", "1e9999", "--1", "1.2.3", "nan", "٣")] == [None] * 9


NAME = Field("name", Text(), required=True, doc="A name.")
SIZE = Field("size", Length(above=0), default=2.0, doc="A size.")
INSIDE: Field = Field(
    "inside", ListOf(of=Later(lambda: OneOf((GROUP, LEAF))), what="groups and leaves"), required=True, doc="More."
)
GROUP = Record("group", (INSIDE,), doc="A group.", marked_by="inside")
LEAF = Record("leaf", (NAME, SIZE), doc="A leaf.")


def test_fields_know_values_defaults_and_places() -> None:
    problems = Problems()
    leaf = LEAF.parse(yaml.read("name: a\n", "f"), problems)
    assert (leaf[NAME], leaf[SIZE], leaf.written(SIZE)) == ("a", 2.0, False)
    assert leaf.where(NAME)[:3] == ("f", 1, 7)
    assert leaf.key_where(NAME)[:3] == ("f", 1, 1)
    assert leaf.where(SIZE) == leaf.place == leaf.key_where(NAME)


def test_records_are_told_apart_by_their_mark_to_any_depth() -> None:
    problems = Problems()
    top = GROUP.parse(yaml.read("inside:\n- name: a\n- inside:\n  - {name: b}\n  - {nam: c}\n  - 5\n", "f"), problems)
    first, second = top[INSIDE]
    assert first.value.record is LEAF
    assert second.value.record is GROUP
    assert [item.value[NAME] for item in second.value[INSIDE]] == ["b", None]
    assert [problem.where[1:3] for problem in problems.error().problems] == [(5, 6), (6, 5)]


def test_a_misspelt_required_key_is_told_once() -> None:
    problems = Problems()
    LEAF.parse(yaml.read("nmae: a\n", "f"), problems)
    (problem,) = problems.error().problems
    assert "Did you mean 'name'?" in problem.hint


def test_problems_name_the_key_and_are_kept_once() -> None:
    problems = Problems()
    LEAF.parse(yaml.read("name: a\nsize: &s -1\n", "f"), problems)
    LEAF.parse(yaml.read("name: a\nsize: &s -1\n", "f"), problems)
    (problem,) = problems.error().problems
    assert problem.message == "size: Found '-1'"


def test_the_json_schema_says_the_same_as_the_table() -> None:
    schema = json_schema(GROUP, "group", "urn:test")
    jsonschema.Draft202012Validator.check_schema(schema)
    check = jsonschema.Draft202012Validator(schema)
    assert check.is_valid({"inside": [{"name": "a", "size": 1}, {"inside": [{"name": 5, "size": "1 in"}]}]})
    for bad in (
        {},
        {"inside": [{"size": 1}]},
        {"inside": [{"name": "a", "size": 0}]},
        {"inside": [{"name": "a", "x": 1}]},
    ):
        assert not check.is_valid(bad)
    assert json.dumps(schema) == json.dumps(json_schema(GROUP, "group", "urn:test"))


def test_the_reference_has_every_record_and_key_once() -> None:
    assert [record.name for record in records(GROUP)] == ["group", "leaf"]
    text = key_reference(GROUP)
    assert text.count("### ") == 2
    assert "| `size` | length, mm | 2 mm | A size. |" in text
    assert "| `name` | text | required | A name. |" in text


def test_two_records_of_one_name_are_refused() -> None:
    other = Record("leaf", (SIZE,))
    both = Record("both", (Field("a", LEAF, doc="A."), Field("b", other, doc="B.")))
    with pytest.raises(ValueError, match="two records have the name 'leaf'"):
        json_schema(both, "both", "urn:test")
