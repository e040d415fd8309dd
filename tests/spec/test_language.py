"""The tables of the language: documented throughout, and the JSON Schema written from them agrees with the reader."""

from __future__ import annotations

import json
import re
from pathlib import Path

import jsonschema
import pytest

from panelart.diagnostics import SpecError
from panelart.lettering.cuts import FINEST, HEAVIEST, WEIGHTS, WIDTHS
from panelart.source import yaml
from panelart.source.nodes import Mapping, Node, Scalar
from panelart.source.nouns import NounOf
from panelart.source.reference import records
from panelart.spec import language
from panelart.spec.read import panel_from_text
from tests.spec.samples import BURNT, CUT, EVERYTHING, PRINTED, SCREENED

DEMOS = sorted((Path(__file__).parents[2] / "demo").glob("*.yaml"))
PROCESSES = (PRINTED, BURNT, CUT, SCREENED)

_NULL = re.compile(r"null|Null|NULL|~|")
_INTEGER = re.compile(r"[-+]?[0-9]+")
_FLOAT = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")


def typed(node: Node):
    """Values as an editor sees them: tag resolution of the core schema, YAML 1.2.2 section 10.3.2."""
    if isinstance(node, Mapping):
        return {entry.key.text: typed(entry.value) for entry in node.entries}
    if not isinstance(node, Scalar):
        return [typed(item) for item in node.items]
    if node.quoted:
        return node.text
    if _NULL.fullmatch(node.text):
        return None
    if node.text in ("true", "false"):
        return node.text == "true"
    if _INTEGER.fullmatch(node.text):
        return int(node.text)
    return float(node.text) if _FLOAT.fullmatch(node.text) else node.text


CHECK = jsonschema.Draft202012Validator(language.json_schema())


def test_the_json_schema_is_one_and_always_the_same() -> None:
    jsonschema.Draft202012Validator.check_schema(language.json_schema())
    assert json.dumps(language.json_schema()) == json.dumps(language.json_schema())


def test_every_key_of_the_language_is_used_in_the_spec_that_has_everything() -> None:
    used: set[str] = set()

    def walk(node: Node) -> None:
        if isinstance(node, Mapping):
            for entry in node.entries:
                used.add(entry.key.text)
                walk(entry.value)
        elif not isinstance(node, Scalar):
            for item in node.items:
                walk(item)

    for sample in (EVERYTHING, *PROCESSES):
        walk(yaml.read(sample, "a.yaml"))
    every = {field.name for record in records(NounOf(language.Spec)) for field in record.fields}
    # One way to reckon bends excludes the other; own part files, variable fonts and files of limits are tested with
    # files.
    # One size, and one thickness, excludes the other too, and so does a form from a drawing.
    assert every - used == {
        *("subrack", "hp", "gauge", "tested", "deduction", "catalogue", "file", "instance", "limits", "svg"),
        *("shop", "output", "profile", "condition", "picture", "drawing"),
        *("outline", "dxf", "layer", "refs", "seen_from", "panels", "front", "rear"),
    }


@pytest.mark.parametrize("sample", PROCESSES)
def test_what_each_process_may_say_is_read_and_is_valid(sample: str) -> None:
    assert panel_from_text(sample).marking.printing is not None
    assert [error.message for error in CHECK.iter_errors(typed(yaml.read(sample, "a.yaml")))] == []


def test_the_spec_that_has_everything_is_read_and_is_valid() -> None:
    assert len(panel_from_text(EVERYTHING).parts) == 32
    assert [error.message for error in CHECK.iter_errors(typed(yaml.read(EVERYTHING, "a.yaml")))] == []


@pytest.mark.parametrize("demo", DEMOS, ids=[demo.stem for demo in DEMOS])
def test_demos_are_valid_by_the_json_schema(demo: Path) -> None:
    written = yaml.read(demo.read_bytes(), demo.name)
    if written.get("panelart") is None:
        pytest.skip("not a spec")
    assert [error.message for error in CHECK.iter_errors(typed(written))] == []


@pytest.mark.few(4)
@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("panelart: 1\n", "panelart: 2\n"),
        ("size: {rack: 2}", "size: {rack: two}"),
        ("size: {rack: 2}", "size: [1]"),
        ("size: {rack: 2}", "size: [0, 1]"),
        ("kind: anodise", "kind: anodize"),
        ('"#101010"', "black"),
        ("datum: [241.3, 0.5 in]", "datum: middle"),
        ("place: above", "place: over"),
        ("ref: S1, ", ""),
        ("count: 3", "count: 0"),
        ("on: [S1, S2], why: b", "on: [S1, S2], because: b"),
        ("margin: 4", "margin: -4"),
    ],
)
def test_reader_and_json_schema_refuse_the_same(old: str, new: str) -> None:
    text = EVERYTHING.replace(old, new, 1)
    assert text != EVERYTHING
    with pytest.raises(SpecError):
        panel_from_text(text)
    assert not CHECK.is_valid(typed(yaml.read(text, "a.yaml")))


def test_every_key_is_documented_in_sentences() -> None:
    for record in records(NounOf(language.Spec)):
        assert record.doc.endswith("."), record.name
        for field in record.fields:
            assert str(field.doc).endswith("."), field.name
            assert not (field.required and (field.otherwise or field.default is not None)), field.name


def test_the_reference_names_every_record_and_key() -> None:
    text = language.key_reference()
    for record in records(NounOf(language.Spec)):
        assert f"### {record.name}\n" in text
        for field in record.fields:
            assert f"| `{field.name}` |" in text


def test_the_weights_and_widths_of_the_reference_are_those_that_lettering_has() -> None:
    weight, width = (str(key.doc) for key in (language.Pen.weight, language.Pen.width))
    assert all(f"`{name}` h/{strokes:g}" in weight for name, strokes in WEIGHTS.items())
    assert f"`h/{FINEST:g}` to `h/{HEAVIEST:g}`" in weight
    assert all(f"`{name}`" in width for name in WIDTHS)
    assert f"({WIDTHS['narrow']:g} of it)" in width
