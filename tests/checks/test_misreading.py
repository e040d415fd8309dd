"""What is taken for what on real panels: sizes, contexts, conditions that make reading harder, and the two rules."""

from __future__ import annotations

import math

import pytest
from msgspec.structs import replace

from panelart.checks import eyesight, inspect
from panelart.checks.misreading import mix_ups, reading_place, reading_range, seen_words, slips
from panelart.checks.survey import survey
from panelart.model.panel import Sight
from tests.checks.making import laid_out

SPEC = """
panelart: 1
panel:
  title: Trial
  size: [160, 100]
  sheet: {{material: aluminium 5754, thickness: 2}}
  coat: {{kind: none, colour: "{ground}"}}
marking:
  process: {process}
  ink: {{name: own, colour: "{ink}"}}
  lettering: {{font: {font}, cap_height: {height}, case: as-written{more}}}
  viewing_distance: {distance}
operator: {operator}
texts:
{texts}
"""
GOOD = Sight(acuity=1.0, age=20.0, illuminance=eyesight.CHART * math.pi)
"""An eye of acuity 1 in the light of a chart on white."""


def layout(*texts, height=3.5, distance=500, turn=0, **other):
    rows = [
        f"  - {{text: {text}, at: [80, {80 - 20 * row}], style: name, turn: {turn}}}" for row, text in enumerate(texts)
    ]
    usual = {
        "ground": "#FFFFFF",
        "ink": "#000000",
        "process": "digital-print",
        "font": "{weight: light}",
        "more": "",
        "operator": "{}",
    }
    return laid_out(SPEC.format(texts="\n".join(rows), height=height, distance=distance, **(usual | other)))


def read(made, sight=None):
    """The legends as seen, and what each character of each text is taken for, with the chance."""
    panel = made.panel
    seen = seen_words(survey(made), reading_place(panel, reading_range(panel)), sight or panel.operator.sight)
    return seen, {(slip.words.text, slip.character, slip.taken): slip.chance for slip in slips(seen)}


# --- how large


def test_five_minutes_of_arc_are_the_limit_of_an_eye_of_acuity_1_and_half_of_that_is_not_read():
    """A letter of 20/20 is 5 arcmin high: h = 2 d tan(a / 2), 1.454 mm at 1 m."""
    for share, readable in ((1.02, True), (0.5, False)):
        (one,), _ = read(layout("E", height=round(1.4544 * share, 4), distance=1000), GOOD)
        assert one.angle == pytest.approx(5.0 * share, rel=0.01)
        assert one.readable is readable
        assert one.size == pytest.approx(5.0 * share, rel=0.02)


@pytest.mark.parametrize(
    ("height", "distance", "clear"), [(5, 700, True), (1, 2000, False), (3.5, 500, True), (2, 2000, False)]
)
def test_plainly_legible_and_plainly_not(height, distance, clear):
    (one,), found = read(layout("CH 8", height=height, distance=distance))
    assert one.readable is clear
    assert (max(found.values(), default=0.0) < 0.02) is clear


def test_the_handbooks_height_is_enough_for_letters_and_tight_for_8_and_b():
    """NUREG-0700 Rev. 3, 11.4.1.5-1: 15 arcmin at least, 20 preferred; here for the acuity of DIN 1450, 0.7."""
    at = {}
    for angle in (10, 15, 20):
        height = round(2 * 700 * math.tan(math.radians(angle / 60) / 2), 3)
        _, found = read(layout("OUT 8", height=height, distance=700))
        at[angle] = found.get(("OUT 8", "8", "B"), 0.0)
    assert at[10] > 0.2
    assert 0.02 < at[15] < 0.15
    assert at[20] < 0.02


# --- in what context


@pytest.mark.parametrize(
    ("text", "character", "others"),
    [
        ("88", "8", "0123456789"),
        ("5–8", "8", "0123456789"),
        ("BB", "B", "ABCDEFGHIJKLMNOPQRSTUVWXYZ"),
        ("CH 8", "8", ""),
        ("J8", "8", ""),
    ],
)
def test_a_figure_among_figures_is_taken_for_figures(text, character, others):
    _, found = read(layout(f'"{text}"', height=2.0))
    taken = {taken for (_, own, taken) in found if own == character}
    assert taken
    if others:
        assert taken <= set(others)
    else:
        assert taken & set("BRS")
    assert character not in taken


def test_a_slashed_nought_is_less_like_an_o():
    plain, slashed = (read(layout("A0", height=2.2, more=more))[1] for more in ("", ", zero: slashed"))
    worst = [
        max(chance for (_, own, taken), chance in found.items() if own == "0" and taken in "OQDG") for found in (plain,)
    ]
    others = [chance for (_, own, taken), chance in slashed.items() if own == "0" and taken in "OG"]
    assert max(others, default=0.0) < worst[0]


# --- what makes reading harder


def chance_of_b(**how):
    sight = how.pop("sight", None)
    _, found = read(layout("CH 8", **({"height": 2.2} | how)), sight)
    return found.get(("CH 8", "8", "B"), 0.0)


@pytest.mark.parametrize(
    ("better", "worse"),
    [
        ({}, {"distance": 700}),
        ({}, {"sight": Sight(acuity=0.5)}),
        ({"sight": Sight(illuminance=50, age=25)}, {"sight": Sight(illuminance=50, age=75)}),
        ({}, {"sight": Sight(illuminance=20)}),
        ({}, {"ink": "#909090"}),
        ({"font": "{weight: bold}"}, {"font": "{weight: light}"}),
        ({"font": "{weight: light}"}, {"font": "{weight: light, width: narrow}"}),
        ({}, {"operator": "{eye: {height: 400}}"}),
        ({"operator": "{eye: {height: 0}}"}, {"operator": "{eye: {height: 0, apart: 0}}"}),
    ],
)
def test_harder(better, worse):
    assert chance_of_b(**better) < chance_of_b(**worse)


def test_ink_of_pads_spreads():
    """0.05 mm at each edge by the process's own figure (memory)."""
    (one,), _ = read(layout("CH 8", height=2.2, process="pad-print"))
    assert one.spread == 0.05
    assert chance_of_b(process="pad-print") != chance_of_b()


def test_of_a_range_the_place_counts_from_which_the_panel_looks_smallest():
    made = layout("CH 8", operator="{eye: {height: [-100, 500], aside: [-200, 300]}}")
    look = reading_place(made.panel, reading_range(made.panel))
    assert (look.height, look.aside) == (500, 300)
    assert look.apart == 63.0


def test_a_turned_legend_looks_as_large_straight_in_front():
    upright, turned = (read(layout("CH 8", height=2.2, turn=turn))[1] for turn in (0, 90))
    assert upright.keys() == turned.keys()
    for key, chance in upright.items():
        assert turned[key] == pytest.approx(chance, abs=0.01)


# --- legends of one panel


def pairs(made, sight=None):
    seen, _ = read(made, sight)
    return {frozenset((pair.one.text, pair.other.text)): pair.chance for pair in mix_ups(seen)}


def test_names_that_differ_in_one_character_and_in_two():
    found = pairs(layout("CH 8", "CH 6", "CX 6", "IN", height=2.0))
    assert found[frozenset(("CH 8", "CH 6"))] > 0.05
    assert found.get(frozenset(("CH 8", "CX 6")), 0.0) < found[frozenset(("CH 8", "CH 6"))]
    assert all("IN" not in pair for pair in found)


def test_two_differences_add_up_as_squares():
    """Independent noise: distances d1 and d2 make the root of the sum of their squares."""
    one = pairs(layout("A8", "A6", height=1.6))[frozenset(("A8", "A6"))]
    both = pairs(layout("88", "66", height=1.6))[frozenset(("88", "66"))]

    def distance(chance):
        low, high = 0.0, 20.0
        for _ in range(60):
            middle = (low + high) / 2
            low, high = (middle, high) if eyesight.taken_for(middle) > chance else (low, middle)
        return low

    assert distance(both) == pytest.approx(math.sqrt(2) * distance(one), rel=0.02)


# --- the rules


def found(made, rule):
    return [finding for finding in inspect(made).findings if finding.rule == rule]


@pytest.mark.parametrize(("acuity", "told"), [(0.3, True), (0.35, True), (0.45, False), (1.0, False)])
def test_legends_easily_confused(acuity, told):
    made = layout("CH 3", "CH 8", operator=f"{{sight: {{acuity: {acuity}}}}}")
    findings = found(made, "legends-easily-confused")
    assert bool(findings) is told
    for finding in findings:
        assert finding.measured > finding.limit == 5.0


@pytest.mark.parametrize(("lux", "told"), [(0.5, True), (3, True), (50, False), (500, False)])
def test_legend_easily_misread(lux, told):
    made = layout("OUTPUT", operator=f"{{sight: {{illuminance: {lux}}}}}")
    assert bool(found(made, "legend-easily-misread")) is told


def test_the_rule_looks_no_further_than_it_must():
    """Legends that the rule leaves out for their size have no chance as high as its limit: narrow lettering."""
    made = layout("CH 8", height=2.4, font="{weight: light, width: narrow}")
    seen, chances = read(made)
    assert min(one.size for one in seen) < 12.5
    sized = [replace(one, resolved=one.resolved * one.size / 12.0) for one in seen]
    assert max(slip.chance for slip in slips(sized)) < 0.15
    assert max(chances.values()) < 0.25
