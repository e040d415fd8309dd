"""Facts: a key that is declared is compared, documented and written, without a further word.

The oracle is the language itself: its JSON Schema is checked elsewhere against a validator that is not ours, and every
value that is changed here is changed in the YAML text.
"""

from __future__ import annotations

import importlib
import json
from collections.abc import Iterator

import pypdfium2 as pdfium
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from panelart.checks.comparison import compare
from panelart.diagnostics import SpecError
from panelart.pipeline import build, read, write
from panelart.reports.comparison import comparison_text
from panelart.reports.panel import panel_json
from panelart.sheets import stations
from panelart.sheets.stations import Given, Section, Station
from panelart.source import nouns, yaml
from panelart.source.facts import Facts, Plain, as_json, changes, facts_of
from panelart.source.nodes import Mapping, Node, Scalar, Sequence
from panelart.source.nouns import Key, Noun, NounOf, key, keys_of
from panelart.source.problems import Problems
from panelart.source.schema import (
    AnyNode,
    Choice,
    Colour,
    Field,
    Flag,
    Integer,
    Kind,
    Later,
    ListOf,
    MapOf,
    Number,
    OneOf,
    Text,
    TupleOf,
    shape_of,
)
from panelart.spec import language
from tests.spec.samples import BURNT, CUT, EVERYTHING, PRINTED, SCREENED


def parsed(text: str) -> Facts:
    problems = Problems()
    spec = NounOf(language.Spec).parse(yaml.read(text, "a.yaml"), problems)
    problems.raise_any()
    assert spec is not None
    return facts_of(spec)


# --- every key that is declared is compared


def node_of(value: str) -> Node:
    return yaml.read(f"value: {value}", "b.yaml").entries[0].value


def unlike(kind: Kind[object], node: Node) -> str | None:
    """Another value that the kind takes, as YAML; None where a value can only be changed further down."""
    match kind:
        case Later():
            return unlike(kind.kind(), node)
        case OneOf():
            fitting = [one for one in kind.kinds if shape_of(one) is type(node)]
            return next((text for one in fitting if (text := unlike(one, node)) is not None), None)
        case Flag():
            return "false" if isinstance(node, Scalar) and node.text == "true" else "true"
        case Choice():
            return next(word for word in kind.words if not isinstance(node, Scalar) or word != node.text)
        case Colour():
            return '"#010203"'
        case Integer() if isinstance(node, Scalar):
            return (
                str(int(node.text) + (1 if int(node.text) < kind.maximum else -1))
                if kind.minimum < kind.maximum
                else None
            )
        case Text() if isinstance(node, Scalar):
            for other in (f"{node.text}x", "2027-03-04", "Z", "7", "n2", "ab", "de"):
                problems = Problems()
                quoted = json.dumps(other, ensure_ascii=False)
                if other != node.text and kind.parse(node_of(quoted), problems) is not None:
                    return quoted
            return None
        case TupleOf() if isinstance(node, Sequence):
            first = unlike(kind.of[0][1], node.items[0])
            rest = [item.text for item in node.items[1:] if isinstance(item, Scalar)]
            return f"[{', '.join([str(first), *rest])}]"
        case ListOf() | MapOf() | AnyNode():
            return None
        case _ if kind.record is not None:
            return None
        case _ if isinstance(node, Scalar):
            value = kind.parse(node, Problems())
            for other in (float(str(value)) + 1, float(str(value)) - 1, float(str(value)) * 0.9, 0.5):
                problems = Problems()
                if other != value and kind.parse(node_of(str(other)), problems) is not None:
                    return str(other)
    return None


def spots(kind: Kind[object], node: Node, owner: str = "") -> Iterator[tuple[str, Scalar | Sequence, str]]:
    """Every key that is written in a sample, with its value's node and another value for it."""
    match kind:
        case Later():
            yield from spots(kind.kind(), node, owner)
        case OneOf():
            chosen = kind._kind_of(node)
            if chosen is not None:
                yield from spots(chosen, node, owner)
        case ListOf() if isinstance(node, Sequence):
            for item in node.items:
                yield from spots(kind.of, item, owner)
        case MapOf() if isinstance(node, Mapping):
            for entry in node.entries:
                yield from spots(kind.of, entry.value, owner)
        case _ if kind.takes_names:  # a module is compared where it is placed
            return
        case _ if kind.record is not None and isinstance(node, Mapping):
            fields: dict[str, Field[object]] = {field.name: field for field in kind.record.fields}
            for entry in node.entries:
                field = fields[entry.key.text]
                other = unlike(field.kind, entry.value)
                if other is not None and isinstance(entry.value, Scalar | Sequence):
                    yield f"{kind.record.name}.{field.name}", entry.value, other
                yield from spots(field.kind, entry.value, owner)


def with_node(top: Node, node: Node, by: Node) -> Node:
    """The tree with one node in the place of another."""
    if top is node:
        return by
    match top:
        case Sequence():
            return replace(top, items=tuple(with_node(item, node, by) for item in top.items))
        case Mapping():
            return replace(
                top, entries=tuple(replace(one, value=with_node(one.value, node, by)) for one in top.entries)
            )
        case _:
            return top


def changed_keys() -> Iterator[object]:
    """One case for every key of the language that some sample writes."""
    seen: set[str] = set()
    for sample in (EVERYTHING, PRINTED, BURNT, CUT, SCREENED):
        top = yaml.read(sample, "a.yaml")
        for name, node, other in spots(NounOf(language.Spec), top):
            if name not in seen:
                seen.add(name)
                yield pytest.param(top, node, other, id=name)


CASES = list(changed_keys())


@pytest.mark.few(120)
@pytest.mark.parametrize(("top", "node", "other"), CASES)
def test_a_changed_value_of_any_key_is_a_change(top: Node, node: Node, other: str) -> None:
    def said(node: Node) -> Facts:
        problems = Problems()
        spec = NounOf(language.Spec).parse(node, problems)
        problems.raise_any()
        assert spec is not None
        return facts_of(spec)

    value = node_of(other)
    assert list(changes(said(top), said(with_node(top, node, value))))
    assert not list(changes(said(top), said(top)))


def test_most_keys_of_the_language_are_among_these_cases() -> None:
    """Others hold nouns alone, stand in no sample, take one value only, or are one of five nouns' shared keys."""
    tried = {case.id for case in CASES}
    nouns = {noun for noun in vars(language).values() if isinstance(noun, type) and issubclass(noun, Noun)}
    every = {f"{NounOf(noun).record.name}.{one.name}" for noun in nouns for one in keys_of(noun)}
    assert len(tried & every) > 0.5 * len(every)


SPEC = """\
panelart: 1
panel:
  title: Pump, front
  size: [120, 60]
  sheet: {material: aluminium, thickness: 2}
  coat: {kind: powder, thickness: 0.08}
  depth_behind: 60
  flanges: {top: 15}
  bending: {die: 12}
marking: {process: digital-print, ink: {name: white, colour: "#FFFFFF"}}
parts:
  - {ref: S1, part: toggle-12, at: [30, 30], legend: MODE}
  - repeat: {count: 2, step: [20, 0]}
    parts:
      - {ref: "J{n}", part: socket-4, at: [70, 30], legend: "OUT {n}"}
keepouts:
  - {area: {rectangle: [2, 2, 10, 6]}, side: rear, why: bracket}
masks:
  - {area: {circle: [110, 50, 8]}, why: bonding}
making: {quantity: 2, tolerance: m, cutting: laser}
"""


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [
        ("[2, 2, 10, 6]", "[2, 2, 10, 7]", "keepouts: bracket: area: rectangle: [2, 2, 10, 6] mm -> [2, 2, 10, 7] mm"),
        ("why: bonding}", "side: rear, why: bonding}", "masks: bonding: side: front -> rear"),
        ("quantity: 2", "quantity: 3", "making: quantity: 2 -> 3"),
        ("tolerance: m", "tolerance: f", "making: tolerance: m -> f"),
        ("cutting: laser", "cutting: punch", "making: cutting: laser -> punch"),
        ("depth_behind: 60", "depth_behind: 50", "panel: depth_behind: 60 mm -> 50 mm"),
        ("{die: 12}", "{die: 16}", "panel: bending: die: 12 mm -> 16 mm"),
        ("{die: 12}", "{die: 12, k: 0.4}", "panel: bending: k: not specified -> 0.4"),
        ("count: 2", "count: 1", "J2: removed"),
        ("MODE}", "{text: MODE, place: below}}", "S1: legend: MODE -> {text: MODE, place: below, style: name}"),
    ],
)  # fmt: skip
def test_compare_tells_it(tmp_path, old: str, new: str, line: str) -> None:
    def built(text: str, name: str):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        made = build(read(path))
        return made.layout, made.inspection

    assert old in SPEC
    text = comparison_text(compare(built(SPEC, "old.yaml"), built(SPEC.replace(old, new), "new.yaml")))
    assert line in text


def test_remarks_order_and_spelling_of_numbers_change_nothing() -> None:
    reordered = SPEC.replace("kind: powder, thickness: 0.08", "thickness: 0.080, kind: powder")
    assert list(changes(parsed(SPEC), parsed("# a remark\n" + reordered.replace("[120, 60]", '["12 cm", 60.0]')))) == []


def test_another_order_is_told_once_and_no_entry_comes_or_goes() -> None:
    inks = 'inks: [{name: white, colour: "#FFFFFF"}, {name: amber, colour: "#F2A53A"}]'
    turned = 'inks: [{name: amber, colour: "#F2A53A"}, {name: white, colour: "#FFFFFF"}]'
    old = SPEC.replace('ink: {name: white, colour: "#FFFFFF"}', inks)
    (change,) = changes(parsed(old), parsed(old.replace(inks, turned)))
    assert (change.path, change.old, change.new) == (
        ("marking", "inks", "order"), ("white", "amber"), ("amber", "white")
    )  # fmt: skip


def test_true_is_not_one() -> None:
    assert list(changes(True, 1)) != []
    assert list(changes(True, True)) == []


# --- a key declared at one noun appears everywhere


@pytest.fixture
def sheen(monkeypatch: pytest.MonkeyPatch) -> Key[float]:
    """A key that no spec has, declared at the coat and nowhere else."""
    declared = key(Number(minimum=0, maximum=100, in_unit="%"), default=30.0, says="How much the coat shines.")
    sentences = importlib.import_module("panelart.messages.message")
    monkeypatch.setattr(sentences, "_CATALOGUE", dict(sentences.CATALOGUE))
    declared.__set_name__(language.Coat, "sheen")
    monkeypatch.setattr(nouns, "_RECORDS", {})
    monkeypatch.setattr(language.Coat, "sheen", declared, raising=False)
    return declared


def test_a_new_key_is_read_documented_compared_and_written(sheen: Key[float], tmp_path) -> None:
    schema = language.json_schema()["$defs"]["coat"]["properties"]["sheen"]
    assert schema == {"type": "number", "minimum": 0, "maximum": 100, "description": str(sheen.doc), "default": 30.0}
    assert "| `sheen` | number, % | 30 % | How much the coat shines. |" in language.key_reference()
    with pytest.raises(SpecError) as refused:
        parsed(SPEC.replace("thickness: 0.08", "thickness: 0.08, sheen: 101"))
    assert "101" in refused.value.problems[0].message
    path = tmp_path / "new.yaml"
    path.write_text(SPEC.replace("thickness: 0.08", "thickness: 0.08, sheen: 45"), encoding="utf-8")
    assert json.loads(panel_json(read(path)))["panel"]["coat"]["sheen_percent"] == 45
    (change,) = changes(parsed(SPEC), parsed(path.read_text(encoding="utf-8")))
    assert (change.path, change.old, change.new) == (("panel", "coat", "sheen"), 30.0, 45.0)


COAT = (language.Spec.panel, language.Panel.coat)


def test_a_new_key_is_printed_by_a_station_without_a_line_between(
    sheen: Key[float], tmp_path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Declared at the coat and read where it is printed: neither the model nor what resolves specs knows of it."""

    def shine(given: Given) -> float | None:
        return given.layout.panel.facts.said(sheen, within=COAT)

    polish = Station(
        key="polish",
        there=lambda given: shine(given) != 30.0,
        told=lambda given: Section(name="Polish", steps=(f"Polish the coat to {shine(given):g} %.",)),
    )
    monkeypatch.setattr(stations, "STATIONS", (*stations.STATIONS, polish))

    def printed(text: str) -> str:
        path = tmp_path / "new.yaml"
        path.write_text(text, encoding="utf-8")
        made = write(build(read(path)), only=["build-sheet"])["build-sheet.pdf"]
        return " ".join(page.get_textpage().get_text_bounded() for page in pdfium.PdfDocument(made))

    assert "Polish the coat to 45 %." in printed(SPEC.replace("thickness: 0.08", "thickness: 0.08, sheen: 45"))
    assert "Polish" not in printed(SPEC)


def test_what_was_said_under_a_declared_key() -> None:
    facts = parsed(SPEC)
    assert facts.said(language.Coat.kind, within=COAT) == "powder"
    assert facts.said(language.Coat.faces, within=COAT) == "both"  # its default
    assert facts.said(language.Coat.growth, within=COAT) is None
    assert facts.said(language.Panel.depth_behind, within=(language.Spec.panel,)) == 60.0
    assert facts.said(language.Making.quantity, within=(language.Spec.making,)) == 2
    bare = parsed(SPEC.replace("making: {quantity: 2, tolerance: m, cutting: laser}\n", ""))
    assert bare.said(language.Making.quantity, within=(language.Spec.making,)) is None


@pytest.mark.parametrize(
    ("asked", "within", "reason"),
    [
        (language.Coat.kind, (language.Spec.panel,), "panel has no key kind"),
        (language.Coat.kind, (language.Spec.making, language.Panel.coat), "making has no key coat"),
        (language.Part.ref, (language.Spec.parts,), "parts has no key ref"),
        (language.Coat.thickness, COAT, "thickness may hold more than one value"),
        (language.Panel.coat, (language.Spec.panel,), "coat may hold more than one value"),
    ],
)
def test_keys_that_lead_nowhere_are_refused_whatever_the_spec_says(asked, within, reason: str) -> None:
    with pytest.raises((LookupError, TypeError), match=reason):
        parsed(SPEC).said(asked, within=within)


# --- the JSON of a resolved panel


def test_the_json_has_copies_written_out_defaults_filled_in_and_units_in_keys(tmp_path) -> None:
    path = tmp_path / "pump.yaml"
    path.write_text(SPEC.replace("at: [30, 30]", 'at: ["3 cm", 30]'), encoding="utf-8")
    said = json.loads(panel_json(read(path)))
    assert [(part["ref"], part["at_mm"]) for part in said["parts"]] == [
        ("S1", [30.0, 30.0]), ("J1", [70.0, 30.0]), ("J2", [90.0, 30.0])
    ]  # fmt: skip
    assert [part["legend"] for part in said["parts"]] == ["MODE", "OUT 1", "OUT 2"]
    assert said["panel"]["size_mm"] == [120.0, 60.0]
    assert said["making"]["cutting"] == "laser"
    assert said["marking"]["viewing_distance_mm"] == 700.0


plains = st.recursive(
    st.none() | st.booleans() | st.integers(-5, 5) | st.text("ab", max_size=2),
    lambda inner: (
        st.lists(inner, max_size=3).map(tuple)
        | st.dictionaries(st.sampled_from("xyz"), inner, max_size=3).map(lambda d: Facts("noun", tuple(d.items())))
    ),
    max_leaves=12,
)


@given(plains, plains)
def test_changes_are_none_just_when_the_json_is_the_same(old: Plain, new: Plain) -> None:
    # null and a key that is not there are the same fact
    def pruned(value):
        if isinstance(value, dict):
            return {one: pruned(held) for one, held in value.items() if held is not None}
        return [pruned(held) for held in value] if isinstance(value, list) else value

    same = json.dumps(pruned(as_json(old)), sort_keys=True) == json.dumps(pruned(as_json(new)), sort_keys=True)
    assert (not list(changes(old, new))) == same
