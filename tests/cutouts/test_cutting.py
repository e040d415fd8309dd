"""Finished and cut sizes: one film, applied once."""

from __future__ import annotations

import pytest

from panelart.cutouts import cut, cut_outline, stand
from panelart.cutouts.describe import size_of
from panelart.geometry import (
    Point,
    chamfered_rectangle,
    circle,
    d_hole,
    double_d,
    keyed_circle,
    rectangle,
    slot,
    trapezoid,
)
from panelart.model.component import Role
from tests.panels import component, opening, panel, part


@pytest.mark.parametrize("film", [0.0, 0.06, 0.08, 0.12])
def test_a_hole_is_cut_bigger_by_twice_the_film(film: float) -> None:
    """Plane geometry: a film of f on the wall takes 2 f off a width."""
    s1 = part("S1", component(opening(circle(6.5))), at=(30, 40))
    (hole,) = cut(panel(s1, film=film))
    assert size_of(hole.finished).diameter == pytest.approx(6.5)
    assert size_of(hole.cut).diameter == pytest.approx(6.5 + 2 * film)
    assert hole.cut.bounds.centre == pytest.approx((30, 40))


def test_an_m3_fine_hole_closes_below_the_screw() -> None:
    """ISO 273:1979 fine series: 3.2 mm for M3. A shop that cuts 3.2 and lays 0.12 on each wall ends at 2.96."""
    fine, film = 3.2, 0.12
    assert fine - 2 * film == pytest.approx(2.96)
    h1 = part("H1", component(opening(circle(fine), role=Role.FIXING)), at=(10, 10))
    (hole,) = cut(panel(h1, film=film))
    assert size_of(hole.cut).diameter == pytest.approx(3.44)


def test_the_outline_is_cut_smaller() -> None:
    cut_size = cut_outline(panel(size=(260, 110), corner=3, film=0.08)).bounds
    assert (cut_size.width, cut_size.height) == pytest.approx((259.84, 109.84))


@pytest.mark.parametrize(
    "contour",
    [
        rectangle(92, 92),
        rectangle(92, 45, corner=1),
        slot(10.3, 6.8),
        d_hole(9.7, 8.9),
        trapezoid(20.5, 11.4, 10, 2.6),
        chamfered_rectangle(27.5, 20, 3.5, ("top-left", "top-right")),
    ],
    ids=["square", "rounded", "slot", "d", "trapezoid", "inlet"],
)
def test_every_form_grows_by_the_film_on_each_wall(contour) -> None:
    """Against shapely's buffer with mitred joins."""
    from shapely.geometry import Polygon

    from panelart.geometry.polygons import polygon

    j1 = part("J1", component(opening(contour)), at=(100, 50), turn=30)
    (hole,) = cut(panel(j1, film=0.1))
    finished = polygon(hole.finished, tolerance=0.0005)
    grown = finished.buffer(0.1, join_style="mitre", mitre_limit=10)
    assert isinstance(grown, Polygon)
    assert polygon(hole.cut, tolerance=0.0005).symmetric_difference(grown).area < 0.01 * grown.length


def test_a_part_turned_by_a_quarter_turns_its_openings_and_envelopes() -> None:
    j1 = part("J1", component(opening(slot(10, 4))), at=(50, 50), turn=90)
    (hole,) = cut(panel(j1))
    assert (hole.finished.bounds.width, hole.finished.bounds.height) == pytest.approx((4, 10))


def test_a_flatted_hole_is_measured_to_the_middle_of_its_round() -> None:
    assert size_of(d_hole(9.7, 8.9, "bottom", Point(40, 20))).centre == pytest.approx((40, 20))


def test_a_knob_stands_as_an_envelope_of_its_part() -> None:
    rv1 = part("RV1", component(opening(circle(10.2))), at=(50, 50), knob=(24, 16))
    (knob,) = stand(panel(rv1))
    assert (knob.what, knob.height, knob.covers) == ("knob", 16, True)
    assert knob.contour.circle == (Point(50, 50), 12)


@pytest.mark.parametrize(
    ("contour", "expected"),
    [
        (circle(22.3), "Ø22.30"),
        (rectangle(92, 92), "92.00 × 92.00"),
        (rectangle(92, 45, corner=1.5), "92.00 × 45.00 R1.50"),
        (slot(10.3, 6.8), "10.30 × 6.80 slot"),
        (slot(6.8, 10.3), "6.80 × 10.30 slot"),
        (d_hole(9.7, 8.9, "bottom"), "Ø9.70 × 8.90 flats"),
        (double_d(12.2, 11.0), "Ø12.20 × 11.00 flats"),
        (keyed_circle(22.3, 3.2, 24.1), "Ø22.30 × 24.10 key"),
        (trapezoid(20.5, 11.4, 10, 2.6), "19.50 × 11.40 profile"),
        (rectangle(10, 4).turned(45), "9.90 × 9.90 profile"),
    ],
)
def test_openings_are_named_as_a_hole_table_has_them(contour, expected: str) -> None:
    assert str(size_of(contour)) == expected
