"""Webs and edges. The multiples of the sheet thickness are design rules of laser-cutting job shops, common practice:
web at least 1.0 T, hole to edge at least 1.5 T."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart.checks.limits import standard
from panelart.geometry import Point, slot
from tests.checks.builders import block, component, disc, front, layout, opening, part
from tests.checks.cases import JUST, found, measured, refs


def test_the_multiples_are_those_of_the_design_rules():
    assert (standard()["web.minimum"].value, standard()["edge.minimum"].value) == (1.0, 1.5)


@pytest.mark.parametrize("thickness", [1.0, 2.0, 3.0])
@pytest.mark.parametrize(("more", "is_found"), [(-0.5, True), (-JUST, True), (0.0, False), (JUST, False)])
def test_web_between_round_openings_of_two_parts(thickness, more, is_found):
    web = thickness + more
    panel = layout(opening("J1", disc(50, 50, 12)), opening("J2", disc(62 + web, 50, 12)), thickness=thickness)
    assert measured("openings-too-close", panel) == pytest.approx([web] if is_found else [], abs=1e-9)


def test_web_between_corners_is_measured_across_them():
    # Corners at (60, 60) and (61, 61): a web of sqrt(2).
    panel = layout(opening("M1", block(50, 50, 20, 20)), opening("M2", block(71, 71, 20, 20)))
    assert measured("openings-too-close", panel) == pytest.approx([2**0.5])


def test_web_is_measured_on_the_lines_that_are_cut():
    panel = layout(
        opening("J1", disc(50, 50, 12), cut=disc(50, 50, 12.2)), opening("J2", disc(64, 50, 12), cut=disc(64, 50, 12.2))
    )
    assert measured("openings-too-close", panel) == pytest.approx([1.8])


def test_the_limit_names_the_sheet_and_its_source():
    panel = layout(opening("J1", disc(50, 50, 12)), opening("J2", disc(63, 50, 12)))
    (finding,) = found("openings-too-close", panel)
    assert (finding.limit, finding.unit, finding.limit_name) == (2.0, "mm", "web.minimum")
    assert "2 mm" in finding.source
    assert "job shops" in finding.source
    assert finding.place == pytest.approx((56.5, 50.0))


@pytest.mark.parametrize(("web", "width"), [(1.5, [1.5]), (2.0 - JUST, [2.0 - JUST]), (2.0, [])])
def test_thin_web_within_the_cutout_of_one_part(web, width):
    panel = layout(opening("RV1", disc(50, 50, 10), number=1), opening("RV1", disc(56.5 + web, 50, 3), number=2))
    assert measured("thin-web-in-cutout", panel) == pytest.approx(width, abs=1e-9)
    assert found("openings-too-close", panel) == []


def test_thin_webs_of_many_parts_of_a_kind_are_one_finding():
    things = [opening(f"RV{n}", disc(30 * n, 50, 10), number=1) for n in (1, 2, 3)]
    things += [opening(f"RV{n}", disc(30 * n + 8, 50, 3), number=2) for n in (1, 2, 3)]
    (finding,) = found("thin-web-in-cutout", layout(*things))
    assert finding.refs == ("RV1", "RV2", "RV3")
    assert [spot.place for spot in finding.each] == [pytest.approx((30 * n + 5.75, 50)) for n in (1, 2, 3)]


@pytest.mark.parametrize(("apart", "overlap"), [(11.0, [1.0]), (12.0 - JUST, [JUST]), (12.0, [])])
def test_openings_of_two_parts_run_into_each_other(apart, overlap):
    panel = layout(opening("J1", disc(50, 50, 12)), opening("J2", disc(50 + apart, 50, 12)))
    assert measured("openings-collide", panel) == pytest.approx(overlap, abs=1e-9)
    # Openings that merge leave no web; those that touch leave one of 0.
    assert measured("openings-too-close", panel) == ([] if overlap else [pytest.approx(0.0, abs=1e-9)])


@pytest.mark.parametrize("thickness", [1.0, 2.0])
@pytest.mark.parametrize(("more", "is_found"), [(-0.1, True), (-JUST, True), (0.0, False), (JUST, False)])
def test_opening_near_the_edge(thickness, more, is_found):
    margin = 1.5 * thickness + more
    panel = layout(opening("H1", disc(50, margin + 6, 12)), thickness=thickness)
    assert measured("opening-near-edge", panel) == pytest.approx([margin] if is_found else [], abs=1e-9)


def test_a_slot_near_the_edge_is_measured_from_its_flat():
    panel = layout(opening("H1", slot(20, 6, Point(50, 5.5))))
    assert measured("opening-near-edge", panel) == pytest.approx([2.5], abs=1e-9)


@pytest.mark.parametrize(("standard", "count"), [("IEC 60297-3-100; EIA-310", 0), ("IEC 60603-7", 1), ("", 1)])
def test_rack_slots_stand_at_the_edge_by_their_standard(standard, count):
    # IEC 60297-3-100 (from memory): a slot of 6.8 mm, 5.94 mm from the edge, leaves 2.54 mm in any sheet.
    slots = part("FR", replace(component("slots"), standard=standard))
    panel = layout(slots, opening("FR", slot(10.3, 6.8, Point(50, 5.94))), front("FR", disc(50, 5.94, 14)), thickness=3)
    assert len(found("opening-near-edge", panel)) == count
    assert len(found("part-over-edge", panel)) == count
    over = layout(slots, opening("FR", slot(10.3, 6.8, Point(50, 3))))
    assert measured("opening-over-edge", over) == pytest.approx([0.4])


@pytest.mark.parametrize(("y", "beyond"), [(5.0, [1.0]), (6.0 - JUST, [JUST]), (6.0, []), (20.0, [])])
def test_opening_over_the_edge(y, beyond):
    panel = layout(opening("H1", disc(50, y, 12)))
    assert measured("opening-over-edge", panel) == pytest.approx(beyond, abs=1e-9)
    assert refs("opening-near-edge", panel) == ([("H1",)] if y == 6.0 else [])
