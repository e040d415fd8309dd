"""Placed legends: nothing overlaps, rows agree, what cannot be placed is named. Measured on the written SVG by shapely,
not on the engine's own boxes."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from panelart.diagnostics import Where
from panelart.drawing.artwork import artwork
from panelart.geometry import Point, circle, rectangle
from panelart.geometry.polygons import polygon
from panelart.legends import ways_out
from panelart.model.panel import Anchor, FrameForm, FrameRequest, FreeText, Keepout, Place, Scale, Side
from panelart.pipeline import lay_out
from panelart.writers import svg
from tests.effort import examples
from tests.legends.test_flow import flow
from tests.panels import HERE, POT, SOCKET, TOGGLE, component, envelope, opening, panel, part, request
from tests.svg_ink import inks_of

WORDS = ["OUTPUT", "INPUT", "GAIN", "LEVEL", "CURRENT LIMIT", "MIC / LINE", "48 V", "PHANTOM", "A", "µF", "Größe"]


def names(layout, kind: str = "name") -> dict[str, object]:
    return {legend.ref: legend for legend in layout.legends if legend.style == kind}


def test_a_name_stands_above_its_part_and_is_centred_on_it() -> None:
    layout = lay_out(panel(part("J1", SOCKET, (60, 50), legend="INPUT")))
    name = names(layout)["J1"]
    assert name.place is Place.ABOVE
    assert name.box.centre.x == pytest.approx(60, abs=0.05)
    # 7.25 flange radius, then half a cap height of white or the clearance owed, whichever is more.
    assert name.baseline.y == pytest.approx(50 + 7.25 + max(0.5 * 3.0, 0.3 + 0.5), abs=0.05)


def test_names_in_a_row_share_one_base_line_though_parts_differ_in_size() -> None:
    row = [part("S1", TOGGLE, (30, 50), legend="POWER"), part("J1", SOCKET, (60, 50), legend="INPUT"),
           part("J2", SOCKET, (90, 50), legend="OUTPUT")]  # fmt: skip
    lines = {round(name.baseline.y, 3) for name in names(lay_out(panel(*row))).values()}
    assert len(lines) == 1


def test_positions_stand_on_the_side_of_the_throw() -> None:
    s1 = part("S1", TOGGLE, (60, 50), legend="POWER", positions={"up": "ON", "down": "OFF"})
    layout = lay_out(panel(s1))
    by_text = {legend.text: legend for legend in layout.legends}
    assert by_text["POWER"].box.bottom > by_text["ON"].box.top > by_text["ON"].box.bottom > 50
    assert by_text["OFF"].box.top < 50
    assert not layout.unplaced


def test_a_turned_toggle_has_its_positions_left_and_right() -> None:
    s1 = part("S1", TOGGLE, (60, 50), positions={"up": "A", "down": "B"}, turn=90.0)
    by_text = {legend.text: legend for legend in lay_out(panel(s1)).legends}
    assert by_text["A"].box.right < 60 < by_text["B"].box.left


@pytest.mark.parametrize("place", list(Place))
def test_the_designers_side_is_taken(place: Place) -> None:
    j1 = part("J1", SOCKET, (60, 50))
    asked = request("INPUT", place=place)
    layout = lay_out(panel(type(j1)(**{**_fields(j1), "legend": asked})))
    assert names(layout)["J1"].place is place


def _fields(thing) -> dict[str, object]:
    return {name: getattr(thing, name) for name in thing.__struct_fields__}


def test_a_legend_without_room_is_named_with_its_blockers_and_not_drawn() -> None:
    big = component(opening(circle(8)), name="big", front=(envelope("bezel", rectangle(40, 40), 3),))
    layout = lay_out(panel(part("M1", big, (22, 22), legend="VOLTAGE"), size=(44, 44)))
    (missing,) = layout.unplaced
    assert (missing.ref, missing.text) == ("M1", "VOLTAGE")
    assert missing.blockers
    assert not names(layout)


def test_a_frame_holds_its_members_and_their_names_and_keeps_others_out() -> None:
    row = [part(f"J{n}", SOCKET, (40 + 22 * n, 40), legend=f"OUT {n}") for n in (1, 2, 3)]
    other = part(
        "J9",
        SOCKET,
        (62, 80),
        legend="SENSE",
    )
    frame = FrameRequest(around=("J1", "J2", "J3"), title=request("OUTPUTS", "title"), where=HERE, margin=3.0)
    layout = lay_out(panel(*row, other, frames=(frame,)))
    (drawn,) = layout.frames
    for ref, name in names(layout).items():
        assert drawn.box.contains(name.box) == (ref != "J9")
    assert not layout.unplaced


def test_scale_marks_lie_on_their_true_angles() -> None:
    """0 to 30 over 300 degrees, straight up in the middle: one volt is ten degrees. Plane trigonometry."""
    import math

    scale = Scale(low=0, high=30, major=5, minor=1, sweep=300, start_deg=240, unit="V", where=HERE)
    rv1 = part("RV1", POT, (80, 50), knob=(24, 16), scale=scale)
    layout = lay_out(panel(rv1))
    degs = []
    for mark in layout.marks:
        (line,) = mark.shape[0].curves
        far = math.degrees(math.atan2(line.end.y - 50, line.end.x - 80))
        near = math.degrees(math.atan2(line.start.y - 50, line.start.x - 80))
        assert far == pytest.approx(near, abs=1e-9)
        degs.append(far % 360)
    expected = [(240 - 10 * volt) % 360 for volt in range(31)]
    assert sorted(degs) == pytest.approx(sorted(expected), abs=1e-9)
    numerals = {legend.text for legend in layout.legends}
    assert numerals == {"0", "5", "10", "15", "20", "25", "30", "V"}


def test_numerals_are_thinned_by_one_two_five_where_they_would_touch() -> None:
    scale = Scale(low=0, high=100, major=2, minor=None, sweep=270, start_deg=225, unit="", where=HERE)
    layout = lay_out(panel(part("RV1", POT, (80, 50), knob=(16, 16), scale=scale)))
    shown = sorted(int(legend.text) for legend in layout.legends)
    assert shown == list(range(0, 101, 10)) or shown == list(range(0, 101, 20))
    assert len([mark for mark in layout.marks if mark.kind == "major-mark"]) == 51


def test_a_free_text_stands_where_it_was_put() -> None:
    text = FreeText(request=request("SUPPLY", "title"), at=Point(130, 100), anchor=Anchor.CENTRE)
    (legend,) = lay_out(panel(texts=(text,))).legends
    assert legend.box.centre.x == pytest.approx(130)
    assert legend.baseline.y == pytest.approx(100)


def test_a_keepout_in_front_is_kept_clear() -> None:
    keepout = Keepout(contour=rectangle(30, 12, Point(60, 62)), side=Side.FRONT, why="badge", where=HERE)
    layout = lay_out(panel(part("J1", SOCKET, (60, 50), legend="INPUT"), keepouts=(keepout,)))
    assert not names(layout)["J1"].box.overlaps(keepout.contour.bounds)


def test_order_of_parts_in_the_spec_moves_no_legend() -> None:
    row = [part(f"J{n}", SOCKET, (20 + 24 * n, 50), legend=WORDS[n]) for n in range(8)]
    forward = {legend.ref: legend.box for legend in lay_out(panel(*row)).legends}
    backward = {legend.ref: legend.box for legend in lay_out(panel(*reversed(row))).legends}
    assert forward == backward


@st.composite
def panels(draw):
    """Rows of sockets, toggles and dials, some with positions, knobs and scales; frames, brackets and flow lines.

    Scales and frames stand where they are asked for, so they are asked for only where the pitch has room for them.
    """
    kinds = {"socket": SOCKET, "toggle": TOGGLE, "pot": POT}
    parts = []
    across, up = draw(st.integers(1, 5)), draw(st.integers(1, 3))
    pitch_x, pitch_y = draw(st.floats(20, 52)), draw(st.floats(32, 40))
    for column in range(across):
        for row in range(up):
            kind = draw(st.sampled_from(sorted(kinds)))
            positions = {"up": "ON", "down": "OFF"} if kind == "toggle" and draw(st.booleans()) else None
            knob = (draw(st.floats(12, 20)), 15) if kind == "pot" and draw(st.booleans()) else None
            scale = None
            if knob is not None and pitch_x > 40 and draw(st.booleans()):
                scale = Scale(low=0, high=draw(st.sampled_from([10, 30, 100])), major=5, minor=1, sweep=270,
                              start_deg=225, unit=draw(st.sampled_from(["", "V"])), where=HERE)  # fmt: skip
            shift = draw(st.sampled_from([0.0, 0.0, 1.5]))
            parts.append(part(f"{kind[0].upper()}{column}{row}", kinds[kind],
                              (24 + column * pitch_x, 24 + row * pitch_y + shift), scale=scale,
                              legend=draw(st.sampled_from(WORDS)), positions=positions, knob=knob))  # fmt: skip
    refs = [one.ref for one in parts]
    frames = []
    if pitch_x > 40 and draw(st.booleans()):
        # One whole column: a line round parts that stand anywhere would be asked for through their neighbours.
        column = draw(st.sampled_from(sorted({ref[1] for ref in refs})))
        members = tuple(ref for ref in refs if ref[1] == column)
        title = request("GROUP", "title") if draw(st.booleans()) else None
        form = draw(st.sampled_from(list(FrameForm)))
        frames.append(FrameRequest(around=members, title=title, where=HERE, margin=draw(st.floats(0.5, 3)), form=form))
    lines = [flow(refs[0], refs[-1])] if len(refs) > 1 and draw(st.booleans()) else []
    return panel(*parts, size=(260.0, 140.0), cap_height=draw(st.sampled_from([2.5, 3.0, 3.5])),
                 frames=tuple(frames), lines=tuple(lines))  # fmt: skip


CHORDS = 0.02
"""mm by which flattened curves may stray."""


@settings(max_examples=examples(300), deadline=None, suppress_health_check=list(HealthCheck))
@given(panels())
def test_no_ink_touches_hardware_openings_or_other_ink(made) -> None:
    """Clearances of the test process: register error 0.3 and bare face 0.5 to hardware for what the engine places,
    the register error for scales, which are part of their dial."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(ways_out, "ways_out", lambda *_: ())  # which places the panel again and again
        layout = lay_out(made)
    art = artwork(layout)
    inks = inks_of(svg(art), art.page)
    words = [(label, area) for label, area, stroked in inks if not stroked and " of " not in label]
    lines = [(label, area) for label, area, stroked in inks if stroked or " of " in label]
    inked = layout.inked_legends  # what is left out of a field has no ink; test_fields adds that up
    assert [label for label, _ in words] == [legend.text.replace("\n", " ") for legend in inked]
    solid = shapely.STRtree(
        [polygon(e.contour) for e in layout.envelopes if e.side is Side.FRONT]
        + [polygon(o.finished) for o in layout.openings]
    )
    for (_, ink), legend in zip(words, inked, strict=True):
        clear = 0.3 + (0.0 if legend.style == "numeral" else 0.5) - CHORDS
        assert not len(solid.query(ink, predicate="dwithin", distance=clear)), legend.text
        assert shapely.box(2, 2, 258, 138).covers(ink)
    areas = np.array([ink for _, ink in words], dtype=object)  # none, where all words are left out of a field
    near = shapely.STRtree(areas).query(areas, predicate="dwithin", distance=0.25)
    assert [pair for pair in near.T.tolist() if pair[0] < pair[1]] == []
    holes = shapely.STRtree([polygon(o.finished) for o in layout.openings])
    for label, line in lines:
        # A field runs under the flange of a part, and never into its opening.
        hard = holes if label.startswith("field of") else solid
        assert not len(hard.query(line, predicate="intersects")), label
        # Numerals belong to their scale's marks, and a title stands where its frame is, which a flow line may enter.
        kept = [a for a, one in zip(areas, inked, strict=True) if one.style in ("name", "position")]
        assert shapely.distance(shapely.GeometryCollection(kept), line) > 0.4 or not kept, label
    of_parts = {one.ref for one in made.parts}
    left_out = sum(missing.ref in of_parts for missing in layout.unplaced)
    chosen = sum(legend.style in ("name", "position") for legend in layout.legends)
    assert chosen + left_out == sum((one.legend is not None) + len(one.positions) for one in made.parts)


def test_where_of_a_legend_is_that_of_its_request() -> None:
    asked = request("INPUT")
    there = Where("x.yaml", 7, 3)
    j1 = part("J1", SOCKET, (60, 50))
    moved = type(asked)(**{**_fields(asked), "where": there})
    assert names(lay_out(panel(type(j1)(**{**_fields(j1), "legend": moved}))))["J1"].where == there
