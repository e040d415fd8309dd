"""Verdicts on places: whether other parts and frames are near does not depend on what else was asked, or asked before.

Obstacles and frames are measured by shapely, place by place.
"""

from __future__ import annotations

import numpy as np
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.cutouts import cut, stand
from panelart.geometry import TOLERANCE, Box
from panelart.legends.obstacles import Field, contain, hardware, overlap, printable
from panelart.legends.offers import Offers
from panelart.legends.stand import Stand
from panelart.legends.verdicts import spots
from panelart.legends.wanted import wanted
from panelart.messages import legends as said
from tests.effort import examples
from tests.panels import POT, SOCKET, TOGGLE, panel, part

CROWDED = panel(
    part("J1", SOCKET, (30, 50), legend="CURRENT LIMIT"),
    part("S1", TOGGLE, (44, 50), legend="POWER", positions={"up": "ON", "down": "OFF"}),
    part("J2", SOCKET, (60, 52), legend="OUTPUT"),
    part("R1", POT, (80, 44), legend="LEVEL"),
    part("J3", SOCKET, (118, 50), legend="MIC / LINE"),
)


def offers() -> Offers:
    field = Field(hardware(CROWDED, stand(CROWDED), cut(CROWDED)), printable(CROWDED))
    return Offers(CROWDED, wanted(CROWDED), {each.ref: Stand(each, field) for each in CROWDED.parts}, field)


def test_a_place_has_one_verdict_whatever_is_asked_with_it() -> None:
    made, alone = offers(), offers()
    every = [(index, one) for index in range(len(made.wanted)) for one in made.candidates(index, resorts=True)]
    asked = spots(every)
    together = made.verdicts.of(asked)
    for spot in reversed(asked):
        assert alone.verdicts.of([spot])[spot] == together[spot]
    assert any(together[spot].blockers for spot in asked)
    assert any(together[spot].claim for spot in asked)
    assert any(together[spot].over for spot in asked)


def test_what_is_in_the_way_is_what_shapely_finds_within_the_clearance() -> None:
    made = offers()
    every = [(index, one) for index in range(len(made.wanted)) for one in made.candidates(index, resorts=True)]
    for (_, one), spot in zip(every, spots(every), strict=True):
        words = shapely.box(one.box.left, one.box.bottom, one.box.right, one.box.top)
        owed = [(thing, shapely.distance(words, thing.area) - thing.clearance) for thing in made.field.obstacles]
        told = set(map(str, made.verdicts.of([spot])[spot].blockers))
        # A round corner is a polygon of chords: what is nearer to the limit than these is either.
        assert {str(thing.name) for thing, spare in owed if spare < -0.01} <= told
        inside = made.field.printable.covers(words)
        edge = set() if inside else {str(said.edge())}
        assert told - {str(thing.name) for thing, spare in owed if spare < 0.01} == edge


SIDES = st.floats(-20.0, 20.0)
BOXES = st.tuples(SIDES, SIDES, st.floats(0.0, 15.0), st.floats(0.0, 15.0)).map(
    lambda given: Box(given[0], given[1], given[0] + given[2], given[1] + given[3])
)


@settings(max_examples=examples(400))
@given(one=BOXES, others=st.lists(BOXES, min_size=1, max_size=8))
def test_many_boxes_are_held_against_one_as_shapely_does(one: Box, others: list[Box]) -> None:
    def shape(box: Box, by: float = 0.0) -> shapely.Geometry:
        return shapely.box(box.left - by, box.bottom - by, box.right + by, box.top + by)

    rows = np.array([(box.left, box.bottom, box.right, box.top) for box in others])
    for box, within, meets in zip(others, contain(one, rows), overlap(one, rows), strict=True):
        assert within == shape(one, TOLERANCE).covers(shape(box))
        common = shape(one).intersection(shape(box)).bounds
        wide = [high - low for low, high in zip(common[:2], common[2:], strict=True)] if common[0] == common[0] else [0]
        assert meets == (min(wide) > TOLERANCE)
