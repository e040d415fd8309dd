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
        "lettering-too-thin", panel(process, "{}", f"{{text: HEH, at: [60, 60], cap_height: {cap_height}}}")
    )
    assert [finding.measured for finding in findings] == pytest.approx([cap_height / 10] if thin else [], abs=0.003)


def test_the_height_that_is_suggested_passes_and_a_step_less_does_not() -> None:
    made = panel("digital-print", "{}", "{text: Reset 8, at: [60, 60], cap_height: 1.9}")
    (finding,) = found("lettering-too-thin", made)
    enough = dict(finding.other.arguments)["length"]
    assert f"{enough:.2f} mm" in finding.fix
    for height, count in ((enough, 0), (enough - 0.05, 1)):
        again = panel("digital-print", "{}", f"{{text: Reset 8, at: [60, 60], cap_height: {height:.2f}}}")
        assert len(found("lettering-too-thin", again)) == count


def test_words_in_a_field_have_strokes_for_gaps() -> None:
    """Bare strokes of 0.25 where 0.26 stays open; as positive words the same letters have wide gaps."""
    text = "{{text: HEH, at: [60, 60], cap_height: 2.5, reversed: {}}}"
    assert [
        f.measured for f in found("lettering-gap-too-narrow", panel("digital-print", "{}", text.format("true")))
    ] == (pytest.approx([0.25], abs=0.003))
    assert not found("lettering-gap-too-narrow", panel("digital-print", "{}", text.format("false")))


def test_gaps_between_letters_count() -> None:
    tight = "{text: HH, at: [60, 60], cap_height: 3, tracking: -0.15}"  # two strokes apart, less 0.15 of the height
    (finding,) = found("lettering-gap-too-narrow", panel("digital-print", "{}", tight))
    assert finding.measured == pytest.approx(3 * (0.2 - 0.15), abs=0.03)
    assert not found(
        "lettering-gap-too-narrow", panel("digital-print", "{}", "{text: HH, at: [60, 60], cap_height: 3}")
    )


def test_a_cutter_does_not_get_into_a_narrower_stroke() -> None:
    text = "{text: HEH, at: [60, 60], cap_height: 2.9}"
    made = panel("engraving", "{}", text, cutter="0.3")
    (finding,) = found("lettering-too-thin", made)
    assert (finding.limit, finding.basis, finding.severity) == (0.3, Basis.GIVEN, Severity.WARNING)
    assert not found("lettering-too-thin", panel("engraving", "{}", text, cutter="0.28"))


def test_one_finding_for_all_words_of_one_style_and_height() -> None:
    layout = lay_out(panel_from_text(GOOD.replace(LETTERING, "lettering: {cap_height: 2}")))
    from panelart.checks import inspect

    findings = [f for f in inspect(layout).findings if f.rule == "lettering-too-thin"]
    kinds = {(legend.style, legend.cap_height) for legend in layout.legends if legend.cap_height < 2.52}
    assert len(findings) == len(kinds) > 1
    assert {"S1", "J1", "J2", "J3"} <= {ref for finding in findings for ref in finding.refs}


def test_legends_without_letters_are_passed_over() -> None:
    layout = lay_out(panel("digital-print", "{}", "{text: A, at: [60, 60], cap_height: 1.9}"))
    bare = replace(layout, legends=tuple(replace(legend, setting=None) for legend in layout.legends))
    from panelart.checks.survey import survey

    assert not list(RULES["lettering-too-thin"].check(survey(bare)))
