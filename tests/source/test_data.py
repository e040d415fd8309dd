"""Plain data is read as the same data written in YAML is, and is refused with the path of keys that leads to it."""

from __future__ import annotations

import enum
import math
from collections import OrderedDict
from decimal import Decimal
from fractions import Fraction

import pytest
import yaml as pyyaml
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.diagnostics import SpecError
from panelart.source import yaml
from panelart.source.data import encoded, nodes_of
from panelart.source.nodes import Mapping, Node, Scalar, Sequence
from panelart.source.written import block_mapping
from tests.effort import examples


def told(node: Node, *, quotes: bool):
    """What a node says, without its place; with or without whether a text was quoted."""
    match node:
        case Scalar():
            return (node.text, node.quoted) if quotes else node.text
        case Sequence():
            return [told(item, quotes=quotes) for item in node.items]
        case Mapping():
            return {entry.key.text: told(entry.value, quotes=quotes) for entry in node.entries}


TEXTS = st.text(
    st.characters(codec="utf-8", exclude_characters="\t\r\n", exclude_categories=("C", "Zl", "Zp")), max_size=30
)
NUMBERS = st.integers(-(10**20), 10**20) | st.floats(-1e6, 1e6).map(lambda value: round(value, 9))
PLAIN = st.recursive(
    TEXTS | NUMBERS | st.booleans(),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXTS.filter(bool), inner, max_size=4),
    max_leaves=20,
)


@given(st.dictionaries(TEXTS.filter(bool), PLAIN, min_size=1, max_size=4))
@settings(max_examples=examples(600), deadline=None)
def test_data_and_its_yaml_give_the_same_nodes(data) -> None:
    text = block_mapping(data, "", "\n") + "\n"
    assert told(nodes_of(data, "data"), quotes=False) == told(yaml.read(text, "a.yaml"), quotes=False)


@given(st.dictionaries(TEXTS.filter(bool), PLAIN, min_size=1, max_size=4))
@settings(max_examples=examples(300), deadline=None)
def test_data_that_another_writer_of_yaml_wrote_gives_the_same_texts(data) -> None:
    """PyYAML writes texts in its own way; read back they are the texts that were given."""

    def texts(value):
        match value:
            case str():
                return value
            case list():
                return [texts(one) for one in value]
            case dict():
                return {key: texts(one) for key, one in value.items()}
            case _:
                return "a number"

    given_ = texts(data)
    text = pyyaml.safe_dump(given_, allow_unicode=True, sort_keys=False, width=10**6)
    assert told(nodes_of(given_, "data"), quotes=False) == told(yaml.read(text, "a.yaml"), quotes=False)


def test_a_text_that_looks_like_a_number_stays_a_text() -> None:
    read = nodes_of({"a": "3", "b": 3, "c": 3.0, "d": True, "e": "true", "f": None, "g": ""}, "data")
    assert told(read, quotes=True) == {
        "a": ("3", True),
        "b": ("3", False),
        "c": ("3", False),
        "d": ("true", False),
        "e": ("true", True),
        "f": ("", False),
        "g": ("", True),
    }


class Word(enum.StrEnum):
    UP = "up"


def test_subclasses_of_plain_values_are_what_they_hold() -> None:
    class Mm(float):
        def __repr__(self) -> str:
            return "Mm(...)"

    read = nodes_of(OrderedDict(a=Word.UP, b=(Mm(2.5), -0.0, 1e-50)), "data")
    assert told(read, quotes=False) == {"a": "up", "b": ["2.5", "0", "1e-50"]}


def test_places_are_paths_of_keys_in_the_order_of_a_file() -> None:
    read = nodes_of({"parts": [{"ref": "S1"}, {"at": [1, 2]}], "odd key": {-45: "Off"}}, "data")
    parts = read.get("parts")
    assert isinstance(parts, Sequence)
    at = parts.items[1].get("at")
    assert str(read.where) == "data"
    assert [str(item.where) for item in at.items] == ["parts[1].at[0]", "parts[1].at[1]"]
    assert str(read.get("odd key").get("-45").where) == "['odd key']['-45']"
    assert sorted([at.where, read.get("odd key").where, parts.where]) == [
        parts.where,
        at.where,
        read.get("odd key").where,
    ]


LOOP: dict[str, object] = {}
LOOP["again"] = [LOOP]
DEEP: list[object] = []
for _ in range(60):
    DEEP = [DEEP]


@pytest.mark.parametrize(
    ("value", "place", "message"),
    [
        (Decimal("2.5"), "a", "Values of type Decimal are not supported"),
        (Fraction(1, 2), "a", "Values of type Fraction are not supported"),
        ({"b": [0, {1}]}, "a.b[1]", "Values of type set are not supported"),
        ([b"x"], "a[0]", "Values of type bytes are not supported"),
        (1j, "a", "Values of type complex are not supported"),
        ([math.nan], "a[0]", "nan is not a finite number"),
        (-math.inf, "a", "-inf is not a finite number"),
        (10**41, "a", "Number with more than 40 digits"),
        ("bell \a", "a", "Unprintable character U+0007"),
        ("half \ud800", "a", "Unprintable character U+D800"),
        ({"": 1}, "a", "Found '' as a key"),
        ({True: 1}, "a", "Keys of type bool are not supported"),
        ({(1, 2): 1}, "a", "Keys of type tuple are not supported"),
        ({1: "x", "1": "y"}, "a['1']", "Duplicate key '1', once as a number and once as text"),
        (LOOP, "a.again[0]", "A list or mapping holds itself"),
        (DEEP, "a" + "[0]" * 39, "Lists and mappings are nested too deep; maximum 40 levels"),
        ("x" * 1_000_001, "a", "Texts have more than 1000000 characters in all"),
    ],
)
def test_what_is_not_plain_is_refused_with_its_place(value, place, message) -> None:
    with pytest.raises(SpecError) as refused:
        nodes_of({"a": value}, "data")
    (problem,) = refused.value.problems
    assert (str(problem.where), problem.message) == (place, message)
    assert problem.hint


def test_a_great_many_values_are_refused() -> None:
    with pytest.raises(SpecError, match="Too many values"):
        nodes_of({"a": list(range(200_000))}, "data")


def test_what_says_the_same_is_hashed_alike_and_what_does_not_is_not() -> None:
    def of(data) -> bytes:
        return encoded(nodes_of(data, "data"))

    assert of({"a": [1, 2.0]}) == of({"a": (1.0, 2)})
    different = [
        {"a": "1"},
        {"a": 1},
        {"a": [1]},
        {"a": True},
        {"a": "true"},
        {"a": None},
        {"a": ""},
        {"a": {}},
        {"a": []},
    ]
    assert len({of(data) for data in different}) == len(different)
