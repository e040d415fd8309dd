"""What is lost in print: each rule on both sides of its limit, on layouts that can be added up on paper."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart.figure import Figure, Known
from panelart.lettering.outline import shape_of
from panelart.messages import checks_things as things
from panelart.model.layout import PlacedMask
from panelart.model.panel import Ink, Side
from panelart.model.printing import Background, Base, Overlay, Printing, Solid, Thin
from tests.checks.builders import PROCESS, at, block, disc, frame, front, layout, legend, mark, opening, process_figure
from tests.checks.cases import JUST, found, measured, refs

WHITE, BLUE, RED = (Ink(name=name, colour=colour) for name, colour in
                    (("white", "#F2F2EE"), ("blue", "#1D4E9E"), ("red", "#B02020")))  # fmt: skip


def own(**figures: float):
    made = {name: process_figure(name, value) for name, value in figures.items()}
    if "inks_maximum" in made:
        made["inks_maximum"] = Figure(
            name="inks_maximum",
            value=figures["inks_maximum"],
            sources=("made up",),
            known=Known.LOOKED_UP,
            unit="count",
        )
    return replace(PROCESS, own=made)


def printed(*things, process=PROCESS, inks=(WHITE, BLUE, RED), masks=(), **printing):
    made = layout(*things, process=process)
    marking = replace(made.panel.marking, inks=inks, printing=Printing(**printing))
    return replace(made, panel=replace(made.panel, marking=marking), masks=masks)


def in_ink(thing, ink: Ink):
    return replace(thing, ink=ink)


def ground(ink: str, box: tuple[float, float, float, float]) -> Background:
    left, bottom, right, top = box
    area = block((left + right) / 2, (bottom + top) / 2, right - left, top - bottom)
    return Background(colour=Solid(ink=ink), area=shape_of(area), bleed=None, where=at(3))


NAME = legend("S1", "ON", (40, 40, 50, 43))


@pytest.mark.parametrize(("maximum", "counted"), [(1, [2.0]), (2, [])])
def test_too_many_inks(maximum, counted):
    made = printed(NAME, in_ink(mark("S1", (40, 45), (50, 45)), BLUE), process=own(inks_maximum=maximum))
    assert measured("too-many-inks", made) == counted


def test_inks_of_backgrounds_count_and_unused_ones_do_not():
    made = printed(NAME, backgrounds=(ground("red", (10, 10, 20, 20)),), process=own(inks_maximum=1))
    assert [finding.subject for finding in found("too-many-inks", made)] == [things.ink_list(names=("white", "red"))]


@pytest.mark.parametrize(("width", "thin", "counted"), [
    (0.3 - JUST, Thin.NONE, [0.3 - JUST]),
    (0.3, Thin.NONE, []),
    (0.2, Thin.FULL, []),
])  # fmt: skip
def test_base_lost(width, thin, counted):
    line = in_ink(mark("S1", (40, 45), (50, 45), width), BLUE)
    base = Base(choke=0.1, hold=0.1, thin=thin, under=("blue",))
    assert measured("base-lost", printed(line, base=base)) == pytest.approx(counted)
    assert measured("base-lost", printed(mark("S1", (40, 45), (50, 45), 0.2), base=base)) == []


@pytest.mark.parametrize(("trap", "counted"), [(0.2 - JUST, [0.2 - JUST]), (0.2, [])])
def test_trap_too_small_between_two_legends(trap, counted):
    touching = in_ink(legend("S2", "OFF", (50, 40, 60, 43)), RED)
    made = printed(NAME, touching, process=own(ink_register=0.2), trap=trap)
    assert measured("trap-too-small", made) == pytest.approx(counted)
    apart = in_ink(legend("S2", "OFF", (50.1, 40, 60, 43)), RED)
    assert measured("trap-too-small", printed(NAME, apart, process=own(ink_register=0.2), trap=trap)) == []


def test_trap_too_small_on_a_background():
    fields = (ground("blue", (30, 30, 60, 60)),)
    made = printed(NAME, backgrounds=fields, process=own(ink_register=0.2), trap=0.0)
    assert [(f.subject, f.other, f.refs) for f in found("trap-too-small", made)] == [("white", "blue", ("S1",))]
    same = printed(in_ink(NAME, BLUE), backgrounds=fields, process=own(ink_register=0.2), trap=0.0)
    assert measured("trap-too-small", same) == []


@pytest.mark.parametrize(("width", "counted"), [(0.26 - JUST, [0.26 - JUST]), (0.26, []), (0.2 - JUST, [])])
def test_knockout_too_narrow(width, counted):
    process = replace(PROCESS, gap_minimum=process_figure("gap_minimum", 0.26))
    line = mark("S1", (40, 45), (50, 45), width)
    made = printed(line, backgrounds=(ground("blue", (30, 30, 60, 60)),), process=process)
    assert measured("knockout-too-narrow", made) == pytest.approx(counted)
    dark = printed(in_ink(line, BLUE), backgrounds=(ground("white", (30, 30, 60, 60)),), process=process)
    assert measured("knockout-too-narrow", dark) == []
    beside = printed(line, backgrounds=(ground("blue", (30, 50, 60, 60)),), process=process)
    assert measured("knockout-too-narrow", beside) == []


@pytest.mark.parametrize(("gap", "side", "counted"), [
    (0.5 - JUST, Side.FRONT, [0.5 - JUST]), (0.5, Side.FRONT, []), (-2.0, Side.FRONT, []), (0.1, Side.REAR, []),
])  # fmt: skip
def test_ink_near_bare_pad(gap, side, counted):
    pad = PlacedMask(name="S1", contour=block(55 + gap, 41.5, 10, 10), side=side, why="bonding", where=at(9))
    assert measured("ink-near-bare-pad", printed(NAME, masks=(pad,), process=own(mask_margin=0.5))) == pytest.approx(
        counted, abs=1e-6
    )


FILM = Overlay(
    inset=0.5, corner=2, nut_margin=0.5, window_margin=0.25, adhesive_margin=0.5, free=(), colour="", reverse=False
)


@pytest.mark.parametrize(("gap", "counted"), [(0.5 - 0.002, True), (0.5 + 0.002, False)])
def test_legend_near_window(gap, counted):
    # A nut of 10, its window of 11: the window's edge at 5.5 from the middle.
    nut = front("S2", disc(50 + gap + 5.5, 41.5, 10), "nut", line=11)
    made = printed(NAME, nut, opening("S2", disc(50 + gap + 5.5, 41.5, 6)), overlay=FILM)
    assert bool(measured("legend-near-window", made)) is counted
    assert refs("legend-near-window", made) == ([("S1", "S2")] if counted else [])
    # The same without a film is no matter of windows.
    assert measured("legend-near-window", printed(NAME, nut, opening("S2", disc(56, 41.5, 6)))) == []


@pytest.mark.parametrize(("bridge", "counted"), [(1.99, 1), (2.01, 0)])
def test_label_film_web_narrow(bridge, counted):
    two = opening("S1", disc(30, 50, 6)), opening("S2", disc(36.5 + bridge, 50, 6))
    made = printed(*two, overlay=FILM, process=own(bridge_minimum=2.0))
    assert len(found("label-film-web-narrow", made)) == counted
    if counted:
        assert measured("label-film-web-narrow", made) == pytest.approx([bridge], abs=0.005)


@pytest.mark.parametrize(("gap", "counted"), [(0.5 - JUST, [0.5 - JUST]), (0.5, [])])
def test_frame_near_opening(gap, counted):
    line = frame("frame 1", (20, 20, 60, 60))
    hole = opening("J1", block(60.15 + gap + 5, 40, 10, 10))
    assert measured("frame-near-opening", layout(line, hole)) == pytest.approx(counted, abs=1e-9)
    # Under a flange that covers both, nobody sees it.
    cover = front("J1", block(60.15 + gap + 5, 40, 14, 14), "flange")
    assert measured("frame-near-opening", layout(line, hole, cover)) == []


@pytest.mark.parametrize(("left", "found_there"), [(20, True), (48, True), (49.9, False), (60, False)])
def test_a_legend_is_seen_against_all_that_lies_under_it(left, found_there):
    """White words of which only the end runs over a white field are lost there (WCAG: contrast 1)."""
    fields = (ground("white", (left, 30, left + 40, 60)),)
    seen = measured("legend-contrast-low", printed(NAME, backgrounds=fields))
    assert (1.0 in [round(value, 6) for value in seen]) is found_there
