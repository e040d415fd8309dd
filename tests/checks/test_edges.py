"""Both sides of every limit, to a millionth: what each rule measures on a faulty demo, with its limit put just there.

For every rule with a number a known fault is looked for that it finds by a limit of the table (or of the process). The
limit is then moved to what was measured, a millionth to either side: the finding must go, and must stay. Rules whose
limit is no entry of a table have it from the panel itself; the tests that move the panel past it are named.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from importlib import import_module

import pytest
from msgspec.structs import replace

from panelart.checks import RULES, Finding
from panelart.checks.findings import Bound
from panelart.checks.limits import Limits, standard
from panelart.checks.marking import process_limits
from panelart.checks.registry import BUILT_IN, PANEL_RULES
from panelart.checks.survey import survey
from panelart.model.layout import Layout
from tests.checks.cases import JUST
from tests.checks.making import laid_out
from tests.mutations.faults import FAULTS, clean
from tests.mutations.kinds import KINDS
from tests.mutations.test_mutations import DEMOS, places

ELSEWHERE = {
    "legend-too-small": "test_marking::test_legend_too_small_for_the_process_when_read_from_near",  # and two more
    "legend-in-keepout": "test_legends::test_a_legend_in_a_keepout",
    "part-in-keepout": "test_parts::test_a_part_that_touches_a_keepout",
    "opening-in-keepout": "test_parts::test_an_opening_clear_of_a_keepout",
    "frame-in-keepout": "test_frames::test_frame_in_a_keepout",
    "marking-across-field": "test_frames::test_a_legend_across_the_edge_of_a_field",
    "bodies-meet-in-box": "test_boxes::test_bodies_behind_each_other",
    "body-deeper-than-room": "test_enclosure::test_a_body_deeper_than_the_room",
    "front-higher-than-room": "test_cables::test_a_cable_that_leaves_straight_out_needs_its_bend_in_front",
    "cable-without-way": "test_cables::test_a_part_lower_than_the_bent_cable_is_passed_over",
    "sheet-too-thick": "test_fit::test_sheet_too_thick",
    "sheet-too-thin": "test_fit::test_sheet_too_thin",
    "return-too-long-for-tool": "test_bending::test_return_too_long_for_tool",
    "bend-radius-too-small": "test_bending::test_bend_radius_too_small",
    "hardware-near-edge": "test_bending::test_hardware_near_edge",
    "print-too-large": "test_pads::test_print_too_large",
    "corner-sharper-than-cutter": "test_workshop::test_corner_sharper_than_cutter",
    "part-in-rail-zone": "test_brake::test_a_body_among_the_rails_of_a_rack",
    "hardware-out-of-reach": "test_brake::test_what_is_pressed_after_the_coat_must_be_reached",
    "countersink-breaks-through": "test_countersinks::test_countersink_breaks_through",
    "base-lost": "test_printing::test_base_lost",
    "trap-too-small": "test_printing::test_trap_too_small_between_two_legends",
    "too-many-inks": "test_printing::test_too_many_inks",
    "ink-near-bare-pad": "test_printing::test_ink_near_bare_pad",
    "label-film-web-narrow": "test_printing::test_label_film_web_narrow",  # windows are polygons: to 0.01 mm
    "pitch-too-small": "test_clearances::test_two_push_buttons_at_the_pitch_of_their_standard",
    "more-positions-than-part": "test_turning::test_one_position_more_than_the_part_has",
    "scale-ends-before-turn": "test_turning::test_a_scale_that_ends_before_the_turn",
    "scale-longer-than-turn": "test_turning::test_a_scale_longer_than_the_turn",
    "scale-ends-before-travel": "test_sliding::test_a_scale_against_the_travel_of_its_slide",
    "scale-longer-than-window": "test_sliding::test_a_scale_against_the_window_beside_it",
    "cursor-covers-marks": "test_sliding::test_a_cursor_against_the_gap_of_marks",
    "dial-window-small": "test_dials::test_the_window_shows_a_numeral_with_its_neighbours",
    "dial-ring-narrow": "test_dials::test_the_ring_of_a_skirt",
    "dial-window-under-knob": "test_dials::test_a_knob_over_the_window",
    "scale-longer-than-travel": "test_sliding::test_a_scale_against_the_travel_of_its_slide",
    "legend-near-hardware": "test_registering::test_a_legend_that_the_register_error_and_the_play_of_a_part_may_cover",
    "legend-near-mark": "test_registering::test_a_word_too_near_to_a_line",
    "marking-near-cut": "test_registering::test_ink_that_a_hole_may_take",
    "marking-near-ground": "test_registering::test_ink_that_may_cross_the_edge_of_a_background",
    "board-height-uncertain": "test_boards::test_a_range_is_no_tolerance",
    "code-too-fine": "test_codes::test_modules_are_held_against_line_and_gap",
    "code-not-quiet": "test_codes::test_the_bare_zone_of_a_qr_code",
}
"""Rules that take their limit from the panel or a part, and the test that stands on both sides of it."""

WITHOUT_NUMBER = {
    "parts-to-measure": "a figure's standing is a word",
    "legend-unplaced": "there is no place, or there is",
    "names-unlike": "any difference counts, of a font as of a size",
    "row-unlike": "sides are words",
    "print-on-texture": "a word in the name of the coat",
    "name-repeated": "words are the same or not",
    "control-without-name": "there is a name or none",
    "frame-holds-stranger": "a part is named or not",
    "switch-against-convention": "words and directions",
    "positions-contradict": "words and directions",
    "positions-run-backwards": "an order of whole numbers",
    "unit-misspelt": "letters",
    "abbreviation-unlisted": "a word in a list or not",
    "scale-counts-oddly": "steps are 1, 2 or 5 or they are not",
    "scale-runs-backwards": "a direction",
    "disc-without-room": "a nut or none",
    "dial-numeral-cut": "whole or not; both sides are in test_dials",
    "numeral-upside-down": "figures, and a turn that test_scales has on both sides",
    "mark-without-numeral": "there is one or none",
    "scale-without-unit": "there is a unit or none",
    "earth-terminal-missing": "there is one or none",
    "fuse-rating-missing": "words; how near they must be is tried in test_enclosure",
    "mains-rating-missing": "words",
    "countersink-meets-opening": "they meet or not; test_countersinks moves one past the other",
    "sheet-not-for-laser": "a material",
    "opening-nibbled": "a list of punches",
    "legend-on-mask": "they meet or not",
    "nowhere-to-hang": "there is something covered or not",
    "hook-mark-seen": "it is covered or not",
    "fuse-rating-incomplete": "words",
    "fuse-rating-implausible": "a series of figures; both sides are in test_ratings_printed",
    "fuse-rating-contradictory": "one rating against another; both sides are in test_ratings_printed",
    "supply-rating-contradictory": "words and figures of one text; both sides are in test_ratings_printed",
    "position-off-angle": "angles are the part's or not; both sides are in test_turning",
    "scale-off-detents": "marks are at detents or not; both sides are in test_turning",
    "positions-on-endless-control": "the control has ends or none",
    "board-height-unknown": "the height is stated or not",
    "scale-on-endless-control": "the control has ends or none",
    "position-repeated": "quantities are the same or not",
    "position-step-missing": "a row of steps",
    "positions-unordered": "an order of quantities",
    "scale-unit-unknown": "a unit is known or not",
    "name-misread": "letters",
    "names-look-alike": "letters",
    "signs-improvable": "signs",
    "lettering-in-another-font": "letters",
    "text-could-be-unit": "letters",
    "rack-fixing-missing": "the part stands in the middle or not",
}
"""Rules that measure nothing, and why."""


def faulty() -> Iterator[Layout]:
    for fault in FAULTS:
        yield fault.change(clean(fault.demo))
    for kind in KINDS:
        demo = next(demo for demo in DEMOS if kind.what in places(demo))
        yield places(demo)[kind.what][0](clean(demo))
    for rule in PANEL_RULES.values():
        yield laid_out(rule.examples[0].failing)


def limits_of(layout: Layout) -> Limits:
    return {**standard(), **BUILT_IN.limits, **process_limits(layout.panel.marking.process)}


def found(rule: str, layout: Layout, limits: Limits) -> list[Finding]:
    return list(RULES[rule].findings(survey(layout, limits)))


@cache
def cases() -> dict[str, tuple[Layout, Finding | None]]:
    """For each rule a faulty layout and a finding of it, one with a limit from a table if there is any."""
    best: dict[str, tuple[Layout, Finding | None]] = {}
    for layout in faulty():
        limits = limits_of(layout)
        looked = survey(layout, limits)
        for name, rule in PANEL_RULES.items():
            if name in best and best[name][1] is not None and best[name][1].limit_name:
                continue
            for finding in rule.findings(looked):
                tabled = finding.measured is not None and finding.limit_name in limits
                if tabled or name not in best:
                    best[name] = (layout, finding if finding.measured is not None else None)
                    if tabled:
                        break
    return best


def key(finding: Finding) -> tuple[object, ...]:
    return (finding.refs, finding.subject, finding.other, finding.limit_name)


def with_limit(layout: Layout, finding: Finding, goal: float) -> Limits:
    """The limits with the one of a finding moved so that the finding holds against `goal`.

    A limit may be so many times a size of the panel, and a radius more: how it grows is taken from the rule itself.
    """
    limits = limits_of(layout)
    old = limits[finding.limit_name]
    if abs(finding.limit - old.value) < 1e-12:
        return {**limits, old.name: replace(old, value=goal)}
    worse = 1.01 if finding.bound is Bound.MINIMUM else 0.99
    further = {**limits, old.name: replace(old, value=old.value * worse)}
    (again,) = [one for one in found(finding.rule, layout, further) if key(one) == key(finding)][:1]
    slope = (again.limit - finding.limit) / (old.value * worse - old.value)
    return {**limits, old.name: replace(old, value=old.value + (goal - finding.limit) / slope)}


TABLED = sorted(PANEL_RULES.keys() - ELSEWHERE.keys() - WITHOUT_NUMBER.keys())


@pytest.mark.full
@pytest.mark.parametrize("rule", TABLED)
def test_the_finding_goes_and_stays_with_the_limit_a_millionth_to_either_side(rule):
    layout, finding = cases()[rule]
    away = -JUST if finding.bound is Bound.MINIMUM else JUST
    for goal, stays in ((finding.measured + away, False), (finding.measured - away, True)):
        again = found(rule, layout, with_limit(layout, finding, goal))
        same = [
            one
            for one in again
            if one.limit_name == finding.limit_name
            and (not finding.refs or set(one.refs) & set(finding.refs))
            and abs(one.measured - finding.measured) < 1e-9
        ]
        assert bool(same) is stays


@pytest.mark.full
def test_every_rule_is_tried_on_both_sides_or_says_where_or_why_not():
    assert cases().keys() == PANEL_RULES.keys()
    for rule, (_, finding) in cases().items():
        tabled = finding is not None and bool(finding.limit_name) and rule not in ELSEWHERE  # one with two is there too
        assert (rule in TABLED) is tabled, rule
        assert (rule in WITHOUT_NUMBER) is (finding is None), rule


@pytest.mark.parametrize("rule", ELSEWHERE)
def test_the_tests_named_are_there(rule):
    module, _, function = ELSEWHERE[rule].partition("::")
    assert callable(getattr(import_module(f"tests.checks.{module}"), function))
