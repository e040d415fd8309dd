# ruff: noqa: E501, ISC004  # a table is read a row at a time
"""Suggested edits, made to the text as they are printed and looked at again from the start."""

from __future__ import annotations

import pytest

from panelart.checks.baseline import sign
from panelart.diagnostics import Where
from panelart.pipeline import build
from panelart.spec.read import panel_from_text
from panelart.suggestions import Edit, applied, suggestions

HEAD = """\
panelart: 1
panel:
  title: Trial
  size: [160, 80]
  sheet: {material: acrylic, thickness: 2}
  coat: {kind: none, colour: "#FFFFFF"}
marking:
  process: digital-print
  ink: {name: black, colour: "#000000"}
  lettering: {cap_height: 3.5, styles: {note: {cap_height: 3.5}}}
  viewing_distance: 600
parts:
"""


def inspected(text):
    return build(panel_from_text(text)).inspection


def offered(text):
    return [one for one in suggestions(text, inspected(text), inspected) if one is not None]


CASES = [
    # what is wrong | the spec | rule | what is said
    ("two knobs", "  - {ref: RV1, part: pot-m10, at: [40, 40], knob: {diameter: 24, height: 16}, legend: Gain}\n"
     "  - {ref: RV2, part: pot-m10, at: [63, 40], knob: {diameter: 24, height: 16}, legend: Bias}\n",
     "parts-collide", "Move RV"),
    ("by another part", "  - {ref: RV1, part: pot-m10, at: [40, 40], knob: {diameter: 24, height: 16}, legend: Gain}\n"
     "  - {ref: RV2, part: pot-m10, at: {from: RV1, by: [23, 0]}, knob: {diameter: 24, height: 16}, legend: Bias}\n",
     "parts-collide", "Move RV2"),
    ("at the edge", "  - {ref: H1, part: screw-m4, at: [4, 40]}\n", "opening-near-edge", "Move H1 by [1.3, 0]"),
    ("in a repeat", "  - repeat: {count: 3, step: [20, 0]}\n    parts:\n"
     '      - {ref: "H{n}", part: screw-m4, at: [20, 4]}\n', "opening-near-edge", "Move H1 by [0, 1.3]"),
    ("small print", "  - {ref: H1, part: screw-m4, at: [80, 40]}\ntexts:\n"
     "  - {text: FUSE, at: [20, 20], style: note, cap_height: 2.2}\n", "legend-too-small", "Raise the cap height of the legend"),
    ("small style", "  - {ref: H1, part: screw-m4, at: [80, 40]}\ntexts:\n  - {text: FUSE, at: [20, 20], style: note}\n",
     "legend-too-small", "style note"),
    ("thin lettering", "  - {ref: H1, part: screw-m4, at: [80, 40]}\ntexts:\n  - {text: FUSE, at: [20, 20], style: note}\n",
     "lettering-too-thin", "Raise the cap height of the lettering to"),
    ("a small hole", "  - {ref: S1, part: {part: toggle-12, opening: {diameter: 11.8}}, at: [40, 40], legend: Load}\n",
     "opening-too-small-after-coat", "Enlarge the opening of S1 to a diameter of 12"),
    ("a small hole of one's own", "  - {ref: H1, at: [40, 40], part: {title: Lamp, openings: [{role: body, circle: {diameter: 11.8}, "
     "passes: {circle: {diameter: 12}}}]}}\n", "opening-too-small-after-coat", "Enlarge the opening of H1 to a diameter of 12.2 mm"),
    ("a thick coat", "  - {ref: S1, part: toggle-12, at: [40, 40], legend: Load}\n",
     "opening-too-small-after-coat", "Enlarge the opening of S1 to a diameter of 12."),
    ("a wrong unit", "  - {ref: H1, part: screw-m4, at: [80, 40]}\ntexts:\n  - {text: \"10 Khz, 'out'\", at: [20, 20]}\n",
     "unit-misspelt", "Write kHz"),
    ("a text at the edge", "  - {ref: H1, part: screw-m4, at: [80, 40]}\ntexts:\n  - {text: FUSE, at: [0.4, 20]}\n",
     "legend-off-printable-area", "Move the text by [1.7, 0]"),
    ("a thick sheet", "  - {ref: S1, part: toggle-mini, at: [80, 40], legend: Load, positions: {up: On, down: Off}}\n",
     "sheet-too-thick", "Use sheet of"),
]  # fmt: skip


@pytest.mark.parametrize(("what", "body", "rule", "says"), CASES, ids=[case[0] for case in CASES])
def test_what_is_suggested_clears_the_finding_and_makes_no_other(what, body, rule, says):
    text = HEAD + body
    if what == "small style":
        text = text.replace("note: {cap_height: 3.5}", "note: {cap_height: 2.4}")
    if what == "a thick coat":
        text = text.replace("{kind: none,", "{kind: powder, thickness: 0.2, allowance: none,")
    if what == "thin lettering":
        text = text.replace(
            "cap_height: 3.5, styles: {note: {cap_height: 3.5}}", "cap_height: 3.2, font: {weight: light}"
        )
        text = text.replace("viewing_distance: 600", "viewing_distance: 400")
    if what == "a thick sheet":
        text = text.replace("thickness: 2}", "thickness: 7}")
    before = inspected(text)
    assert rule in {finding.rule for finding in before.findings}
    (found, *_) = [one for one in offered(text) if one.finding.rule == rule]
    assert says in found.says
    after = {sign(finding) for finding in inspected(applied(text, found.edits)).findings}
    assert sign(found.finding) not in after
    assert after <= {sign(finding) for finding in before.findings}


def test_a_sheet_without_a_limit_has_no_suggestion():
    text = (HEAD + "  - {ref: H1, part: screw-m4, at: [80, 40]}\n").replace("acrylic", "PVC foam")
    text = text.replace("marking:", "making: {cutting: laser}\nmarking:", 1)
    (finding,) = [one for one in inspected(text).findings if one.rule == "sheet-not-for-laser"]
    assert finding.limit is None
    assert "sheet-not-for-laser" not in {one.finding.rule for one in offered(text)}


def test_nothing_is_suggested_where_nothing_helps():
    # Wider than the panel: no move clears it.
    text = HEAD.replace("[160, 80]", "[160, 20]") + "  - {ref: M1, part: meter-96x96, at: [80, 10]}\n"
    assert inspected(text).failed
    assert offered(text) == []


def test_a_clean_spec_has_no_suggestions():
    assert offered(HEAD + "  - {ref: H1, part: screw-m4, at: [80, 40]}\n") == []


def test_edits_on_one_line_do_not_move_each_other():
    text = "a: [1, 22, 3]\nb: 4\n"
    edits = [Edit(where=Where("x", 1, 5), old="1", new="1000"), Edit(where=Where("x", 1, 8), old="22", new="2")]
    assert applied(text, edits) == "a: [1000, 2, 3]\nb: 4\n"
    assert applied(text, reversed(edits)) == "a: [1000, 2, 3]\nb: 4\n"


def test_signs_and_spaces_are_one_edit_of_all_texts():
    text = HEAD + (
        '  - {ref: J1, part: bnc, at: [40, 40], legend: "Out\\n10mA"}\n'
        "  - {ref: S1, part: toggle-12, at: [80, 40], legend: Range SW-12, positions: {up: 5-10 kΩ, down: -5 V}}\n"
        "  - {ref: S2, part: rotary-m10, at: [130, 40], legend: Time, knob: {diameter: 24, height: 16},\n"
        "     positions: {texts: [10ms, 100ms, 1s], index: 30}}\n"
        "texts:\n"
        "  - {text: '+/-5 %', at: [20, 74]}\n"
        "  - {text: PSU 24V, at: [60, 74]}\n"
        "  - {text: 100-240V~ 50/60Hz 2A, style: note, at: [110, 74]}\n"
    )
    before = inspected(text)
    assert [finding.rule for finding in before.findings].count("signs-improvable") == 1
    (found,) = [one for one in offered(text) if one.finding.rule == "signs-improvable"]
    changed = applied(text, found.edits)
    assert [(edit.old, edit.new) for edit in found.edits] == [
        ('"Out\\n10mA"', '"Out\\n10\u00a0mA"'),
        ("5-10 kΩ", "5–10 kΩ"),
        ("-5 V", "\u22125 V"),
        ("10ms", "10\u00a0ms"),
        ("100ms", "100\u00a0ms"),
        ("1s", "1\u00a0s"),
        ("'+/-5 %'", "'±5 %'"),
    ]
    assert "signs-improvable" not in {finding.rule for finding in inspected(changed).findings}
    assert "PSU 24V" in changed
    assert "100-240V~ 50/60Hz 2A" in changed


def test_the_unit_of_a_scale_is_rewritten_where_it_stands():
    text = HEAD + (
        "  - {ref: RV1, part: pot-m10, at: [80, 40], knob: {diameter: 24, height: 16}, legend: Level,\n"
        "     scale: {from: 0, to: 30, major: 5, unit: uA}}\n"
    )
    (found,) = [one for one in offered(text) if one.finding.rule == "signs-improvable"]
    assert [(edit.old, edit.new) for edit in found.edits] == [("uA", "µA")]


def test_signs_that_would_make_another_finding_are_not_suggested():
    # The symbol of direct current has narrower gaps than this process holds.
    text = (
        HEAD.replace("digital-print", "screen-print") + "  - {ref: J1, part: dc-jack, at: [80, 40], legend: 12 V =}\n"
    )
    assert "signs-improvable" in {finding.rule for finding in inspected(text).findings}
    assert "signs-improvable" not in {one.finding.rule for one in offered(text)}


IN_CAPITALS = HEAD.replace("cap_height: 3.5, ", "cap_height: 3.5, case: upper, ", 1)


@pytest.mark.parametrize(
    ("up", "down", "said"),
    [
        ("max", "min", ["{word min}"]),  # opposites: min is the least here
        ("ms", "min", ["{unit min}"]),  # times, both
        ("h", "s", ["{unit h}", "{unit s}"]),
        ("V", "m", []),  # volts tell nothing of metres
        ("Fast", "m", []),
    ],
)
def test_what_a_letter_is_is_suggested_where_the_other_positions_decide(up, down, said):
    # A row of units of one kind, and the pair of the least and the most: common practice.
    text = IN_CAPITALS + (
        f"  - {{ref: S1, part: toggle-12, at: [80, 40], legend: Level, positions: {{up: {up}, down: {down}}}}}\n"
    )
    assert "text-could-be-unit" in {finding.rule for finding in inspected(text).findings}
    found = [one for one in offered(text) if one.finding.rule == "text-could-be-unit"]
    assert sorted(edit.new.strip("'") for one in found for edit in one.edits) == said
    for one in found:
        changed = applied(text, one.edits)
        assert "text-could-be-unit" not in {finding.rule for finding in inspected(changed).findings}


def test_what_a_letter_is_is_not_suggested_where_one_of_them_stays_open():
    text = IN_CAPITALS + (
        "  - {ref: S1, part: toggle-12, at: [40, 40], legend: Level, positions: {up: max, down: min}}\n"
        "  - {ref: S2, part: toggle-12, at: [120, 40], legend: Level 2, positions: {up: Fast, down: m}}\n"
    )
    assert not [one for one in offered(text) if one.finding.rule == "text-could-be-unit"]
