"""Strokes and gaps of legends against the process, on both sides of the limit.

Our own plain face has strokes of a tenth of the cap height (ISO 3098-0, type B) to within a thousandth, so that the
limits can be worked out on paper.
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart.checks import RULES
from panelart.checks.limits import Basis
from panelart.diagnostics import Severity
from panelart.pipeline import build, lay_out
from panelart.spec.read import panel_from_text
from tests.spec.samples import GOOD

LETTERING = "lettering: {cap_height: 3, case: upper}"
LIGHT = "{font: {weight: light}}"
"""A pen of a tenth of the capitals, so that strokes are easily told."""


def panel(process: str, lettering: str, text: str, **more: str):
    spec = GOOD.replace("process: digital-print", f"process: {process}").replace(LETTERING, f"lettering: {lettering}")
    for key, value in more.items():
        spec = spec.replace("marking:\n", f"marking:\n  {key}: {value}\n")
    head = spec.split("parts:\n")[0]
    return panel_from_text(f"{head}texts:\n  - {text}\n")


def found(rule: str, made):
    return [finding for finding in build(made).inspection.findings if finding.rule == rule]


@pytest.mark.parametrize(
    ("process", "cap_height", "thin"),
    [
        ("digital-print", 2.4, True),  # strokes 0.24 where 0.25 holds
        ("digital-print", 2.56, False),
        ("screen-print", 3.4, True),  # 0.34 where 0.35 holds
        ("screen-print", 3.56, False),
        ("laser-marking", 2.0, False),
    ],
)
def test_strokes_are_held_against_the_line_of_the_process(process: str, cap_height: float, *, thin: bool) -> None:
    findings = found(
        "lettering-too-thin", panel(process, LIGHT, f"{{text: HEH, at: [60, 60], cap_height: {cap_height}}}")
    )
    assert [finding.measured for finding in findings] == pytest.approx([cap_height / 10] if thin else [], abs=0.003)


def test_the_height_that_is_suggested_passes_and_a_step_less_does_not() -> None:
    made = panel("digital-print", LIGHT, "{text: Reset 8, at: [60, 60], cap_height: 1.9}")
    (finding,) = found("lettering-too-thin", made)
    enough = dict(finding.other.arguments)["length"]
    assert f"{enough:g} mm" in finding.fix
    for height, count in ((enough, 0), (enough - 0.05, 1)):
        again = panel("digital-print", LIGHT, f"{{text: Reset 8, at: [60, 60], cap_height: {height:.2f}}}")
        assert len(found("lettering-too-thin", again)) == count


def test_words_in_a_field_have_strokes_for_gaps() -> None:
    """Bare strokes of 0.25 where 0.26 stays open; as positive words the same letters have wide gaps."""
    text = "{{text: HEH, at: [60, 60], cap_height: 2.5, reversed: {}}}"
    assert [
        f.measured for f in found("lettering-gap-too-narrow", panel("digital-print", LIGHT, text.format("true")))
    ] == (pytest.approx([0.25], abs=0.003))
    assert not found("lettering-gap-too-narrow", panel("digital-print", LIGHT, text.format("false")))


@pytest.mark.parametrize(("cap_height", "count"), [(2.49, 1), (2.5, 0)])
def test_a_stroke_is_as_wide_as_its_pen_and_not_what_the_outline_strays(cap_height: float, count: int) -> None:
    """The built outline of a pen of 0.1 has strokes of 0.0994 and more: what is known is 0.1, which is 0.25 at 2.5."""
    made = panel("digital-print", LIGHT, f"{{text: HEH, at: [60, 60], cap_height: {cap_height}}}")
    assert len(found("lettering-too-thin", made)) == count


def test_gaps_between_letters_count() -> None:
    tight = "{text: HH, at: [60, 60], cap_height: 3, tracking: -0.15}"  # two strokes apart, less 0.15 of the height
    (finding,) = found("lettering-gap-too-narrow", panel("digital-print", LIGHT, tight))
    assert finding.measured == pytest.approx(3 * (0.2 - 0.15), abs=0.03)
    assert "tracking" in finding.fix
    assert not found(
        "lettering-gap-too-narrow", panel("digital-print", LIGHT, "{text: HH, at: [60, 60], cap_height: 3}")
    )


@pytest.mark.parametrize("text", ["a", "aa", "{super 8}8"])
def test_letter_spacing_is_no_fix_for_a_gap_within_a_letter(text: str) -> None:
    """The white in an a, or in a raised 8, is the letter's own: spacing moves letters, and widens none."""
    made = panel("screen-print", LIGHT, f'{{text: "{text}", at: [60, 60], cap_height: 1.2, tracking: 0.1}}')
    (finding,) = found("lettering-gap-too-narrow", made)
    assert "tracking" not in finding.fix
    assert "choose another font" in finding.fix


def test_a_cutter_does_not_get_into_a_narrower_stroke() -> None:
    text = "{text: HEH, at: [60, 60], cap_height: 2.9}"
    made = panel("engraving", LIGHT, text, cutter="0.3")
    (finding,) = found("lettering-too-thin", made)
    assert (finding.limit, finding.basis, finding.severity) == (0.3, Basis.GIVEN, Severity.WARNING)
    assert not found("lettering-too-thin", panel("engraving", LIGHT, text, cutter="0.28"))


def test_one_finding_for_all_words_of_one_style_and_height() -> None:
    layout = lay_out(panel_from_text(GOOD.replace(LETTERING, "lettering: {cap_height: 2, font: {weight: light}}")))
    from panelart.checks import inspect

    findings = [f for f in inspect(layout).findings if f.rule == "lettering-too-thin"]
    kinds = {(legend.style, legend.cap_height) for legend in layout.legends if legend.cap_height < 2.5}
    assert len(findings) == len(kinds) > 1
    assert {"S1", "J1", "J2", "J3"} <= {ref for finding in findings for ref in finding.refs}


def test_legends_without_letters_are_passed_over() -> None:
    layout = lay_out(panel("digital-print", LIGHT, "{text: A, at: [60, 60], cap_height: 1.9}"))
    bare = replace(layout, legends=tuple(replace(legend, setting=None) for legend in layout.legends))
    from panelart.checks.survey import survey

    assert not list(RULES["lettering-too-thin"].check(survey(bare)))


# --- strokes as the eye has them


def faced(face: str, ink: str, font: str, *, text: str = "{text: HEH, at: [60, 60]}", process: str = "digital-print"):
    """A panel with a face and an ink of these colours."""
    return panel_from_text(f"""
panelart: 1
panel: {{title: T, size: [120, 90], sheet: {{material: aluminium, thickness: 2}},
  coat: {{kind: powder, thickness: 0.08, colour: "{face}"}}}}
marking: {{process: {process}, ink: {{name: one, colour: "{ink}"}}, lettering: {{cap_height: 4, font: {font}}}}}
texts: [{text}]
""")


BLACK, WHITE = "#101010", "#F8F8F4"


@pytest.mark.parametrize(
    ("face", "ink", "weight", "light", "heavy"),
    [
        # DOD-HDBK-791(AM), 6-5.3.2.3: light on dark 1/8 to 1/7
        (BLACK, WHITE, "h/8.1", True, False),
        (BLACK, WHITE, "h/8", False, False),
        (BLACK, WHITE, "medium", False, False),
        (BLACK, WHITE, "h/7", False, False),
        (BLACK, WHITE, "h/6.9", False, True),
        # DIN 1450, text of signs: stems of 0.17 of the x-height, which is 0.7 h here; the handbook's 1/6 passes
        (WHITE, BLACK, "h/8.5", True, False),
        (WHITE, BLACK, "h/8.4", False, False),
        (WHITE, BLACK, "bold", False, False),
    ],
)
def test_strokes_are_held_against_the_polarity(face: str, ink: str, weight: str, *, light: bool, heavy: bool) -> None:
    made = faced(face, ink, f"{{weight: {weight}}}")
    assert bool(found("lettering-too-light", made)) == light
    assert bool(found("lettering-too-heavy", made)) == heavy


def test_words_left_out_of_a_dark_field_are_light() -> None:
    text = "{text: HEH, at: [60, 60], reversed: true, font: {weight: bold}}"
    (finding,) = found("lettering-too-heavy", faced(WHITE, BLACK, "plain", text=text))
    assert finding.measured == pytest.approx(1 / 6)
    assert finding.other.english == "light on dark"


def test_what_a_cutter_engraves_is_lettering_of_one_stroke() -> None:
    """MIL-STD-1472F (from memory): a tenth for letters of one stroke, whatever the polarity."""
    for weight, count in (("light", 0), ("h/10.5", 1)):
        made = faced(BLACK, WHITE, f"{{weight: {weight}}}", process="engraving")
        assert bool(found("lettering-too-light", made)) == bool(count)
