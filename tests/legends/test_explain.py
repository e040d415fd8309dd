"""Why a legend stands where it stands, what would make room, and a placement that is kept."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart.cutouts import cut, stand
from panelart.diagnostics import SpecError
from panelart.geometry import Point, circle, rectangle
from panelart.legends.accepted import accepted_file, read_accepted
from panelart.legends.explain import stories, told
from panelart.legends.place import place
from panelart.legends.solver import HARD
from panelart.legends.ways_out import ways_out
from panelart.model.panel import Arrow, FlowLine, Keepout, Place, Side
from panelart.pipeline import lay_out, set_legends
from tests.legends.test_place import WORDS, names
from tests.panels import HERE, SOCKET, TOGGLE, WHITE, component, envelope, opening, panel, part


def crowded():
    row = [part(f"J{n}", SOCKET, (30 + 21 * n, 50), legend=WORDS[n]) for n in range(6)]
    switch = part("S1", TOGGLE, (60, 85), legend="POWER", positions={"up": "ON", "down": "OFF"})
    return panel(*row, switch)


def test_the_taken_place_costs_least_of_the_free_ones_with_all_others_as_they_are() -> None:
    made = crowded()
    chosen = place(made, stand(made), cut(made)).chosen
    for ref in made.by_ref:
        for story in stories(chosen, ref):
            (taken,) = [one for one in story.places if one.state == "taken"]
            free = [one.cost for one in story.places if one.state == "free"]
            assert taken.cost <= min(free, default=HARD)
            assert all(one.blockers for one in story.places if one.state in ("blocked", "occupied"))
            assert all(
                one.cost == sum(cost for _, cost in one.reasons) for one in story.places if one.state != "blocked"
            )


def test_the_story_is_told_for_each_legend() -> None:
    made = crowded()
    text = told(place(made, stand(made), cut(made)).chosen, "S1", ())
    assert text.count("the placement is optimal") == 3
    assert 'name "POWER" of S1: above' in text


def pocket(left: float, right: float, bottom: float, top: float) -> tuple[Keepout, ...]:
    """Keep-outs that leave only one field of a face of 200 x 100 mm to be marked."""
    blocks = [(0, 0, left, 100), (right, 0, 200, 100), (left, 0, right, bottom), (left, top, right, 100)]
    return tuple(
        Keepout(
            contour=rectangle(c - a, d - b, Point((a + c) / 2, (b + d) / 2)), side=Side.FRONT, why="rib", where=HERE
        )
        for a, b, c, d in blocks
    )


def meter(width: float, height: float, at: tuple[float, float]):
    bezel = component(opening(circle(8)), name="meter", front=(envelope("bezel", rectangle(width, height), 3),))
    return part("M1", bezel, at, legend="VOLTAGE")


def test_ways_out_are_found_beside_a_line_that_leads_far_away() -> None:
    far = part("J1", SOCKET, (180, 20))
    line = FlowLine(start="M1", end="J1", arrow=Arrow.END, width=None, ink=WHITE, where=HERE)
    alone = panel(meter(20, 20, (30, 50)), size=(200.0, 100.0), keepouts=pocket(24.6, 35.4, 40, 70))
    made = replace(alone, parts=(*alone.parts, far), lines=(line,))
    missing = next(one for one in lay_out(made).unplaced if one.ref == "M1")
    assert [str(way) for way in missing.ways_out] == [str(way) for way in lay_out(alone).unplaced[0].ways_out]


def test_every_way_out_that_is_named_makes_room() -> None:
    made = panel(meter(20, 20, (30, 50)), size=(200.0, 100.0), keepouts=pocket(24.6, 35.4, 40, 70))
    (missing,) = lay_out(made).unplaced
    assert missing.blockers
    assert missing.ways_out == ways_out(made, missing)
    sizes = [way for way in missing.ways_out if way.startswith("cap height")]
    assert sizes
    size = float(sizes[0].split()[2])
    part_ = made.parts[0]
    smaller = replace(part_, legend=replace(part_.legend, cap_height=size))
    assert not lay_out(replace(made, parts=(smaller,))).unplaced
    # A tenth more would not do: it is the cheapest of its kind.
    larger = replace(part_, legend=replace(part_.legend, cap_height=size + 0.1))
    assert lay_out(replace(made, parts=(larger,))).unplaced


def test_a_move_that_is_named_makes_room() -> None:
    made = panel(meter(34, 50, (60, 46.5)), size=(200.0, 100.0), keepouts=pocket(45, 75, 20, 75.5))
    (missing,) = lay_out(made).unplaced
    (way,) = [way for way in missing.ways_out if way.startswith("move")]
    far = float(way.split()[4])
    assert way.startswith("move M1 down by")
    lower = replace(made.parts[0], at=Point(60, 46.5 - far))
    assert not lay_out(replace(made, parts=(lower,))).unplaced
    assert lay_out(replace(made, parts=(replace(lower, at=Point(60, 46.5 - far + 0.2)),))).unplaced


def test_an_accepted_placement_keeps_what_an_edit_does_not_touch() -> None:
    """Six parts named below, which was accepted. Above is a little cheaper by now, and one name is changed: the others
    stay where they were; without the accepted placement they all go."""
    row = [part(f"J{n}", SOCKET, (30 + 30 * n, 50), legend="GAIN") for n in range(6)]
    below = [replace(one, legend=replace(one.legend, place=Place.BELOW)) for one in row]
    _, placed = set_legends(panel(*below))
    kept = read_accepted(accepted_file(placed.chosen), "a.json")
    edited = replace(row[2], legend=replace(row[2].legend, text="LEVEL"))
    made = panel(*row[:2], edited, *row[3:])
    near = replace(made, marking=replace(made.marking, placing=replace(made.marking.placing, below=1)))
    fresh, stable = names(lay_out(near)), names(lay_out(near, kept))
    assert {name.place for name in fresh.values()} == {Place.ABOVE}
    was = names(lay_out(panel(*below)))
    for ref in ("J0", "J1", "J3", "J4", "J5"):
        assert stable[ref].baseline == was[ref].baseline
    assert (stable["J2"].place, stable["J2"].text) == (Place.BELOW, "LEVEL")


def test_an_accepted_side_is_kept_where_another_would_cost_little_less() -> None:
    j1 = part("J1", SOCKET, (60, 50), legend="INPUT")
    made = panel(j1)
    below = replace(j1, legend=replace(j1.legend, place=Place.BELOW))
    _, placed = set_legends(panel(below))
    kept = read_accepted(accepted_file(placed.chosen), "a.json")
    near = replace(made, marking=replace(made.marking, placing=replace(made.marking.placing, below=1)))
    assert names(lay_out(near))["J1"].place is Place.ABOVE
    assert names(lay_out(near, kept))["J1"].place is Place.BELOW


@pytest.mark.parametrize(
    "data",
    [b"", b"[]", b"{}", b"\xff", b'{"panelart-placement": 2, "legends": {}}',
     b'{"panelart-placement": 1, "legends": [1]}',
     b'{"panelart-placement": 1, "legends": {"a": {"text": "A", "place": "above", "at": [1]}}}'],
)  # fmt: skip
def test_a_file_that_is_no_placement_is_refused(data: bytes) -> None:
    with pytest.raises(SpecError, match="not a saved placement"):
        read_accepted(data, "a.json")


def test_the_file_of_a_placement_is_always_the_same() -> None:
    made = crowded()
    files = {accepted_file(set_legends(made)[1].chosen) for _ in range(2)}
    files.add(accepted_file(set_legends(replace(made, parts=tuple(reversed(made.parts))))[1].chosen))
    assert len(files) == 1
