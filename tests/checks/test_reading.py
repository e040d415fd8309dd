"""What the eye needs, each case to a millionth either side of its limit.

Contrast: WCAG 2, 1.4.3 and 1.4.11. Steps of height, spacing: NUREG-0700. Turned words: MIL-STD-1472E, 5.5.2.1.
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart.checks.limits import standard
from panelart.checks.marking import height_at
from panelart.diagnostics import Severity
from panelart.geometry import Box, Point
from panelart.messages import checks as said
from panelart.model.layout import FrameLine
from panelart.model.motion import MotionKind
from panelart.model.panel import Anchor, FreeText, Ink, LegendRequest, Place
from tests.checks.builders import (
    at,
    block,
    control,
    disc,
    frame,
    front,
    layout,
    legend,
    mark,
    opening,
    part,
    request,
)
from tests.checks.cases import JUST, found, measured, refs


def inked(thing, colour, name="ink"):
    return replace(thing, ink=Ink(name=name, colour=colour))


GAIN = legend("RV1", "GAIN", (50, 50, 60, 53))


@pytest.mark.parametrize(("ink", "ratio"), [("#777777", [4.478]), ("#767676", []), ("#000000", [])])
def test_contrast_of_lettering_on_white(ink, ratio):
    panel = layout(inked(GAIN, ink), coat="#FFFFFF", coat_kind="powder")
    assert measured("legend-contrast-low", panel) == pytest.approx(ratio, abs=1e-3)
    assert [one.severity for one in found("legend-contrast-low", panel)] == [Severity.WARNING] * len(ratio)


@pytest.mark.parametrize(("minimum", "count"), [(4.5422 - 1e-3, 0), (4.5422 + 1e-3, 1)])
def test_contrast_keeps_to_the_table(minimum, count):
    limits = {**standard()}
    limits["contrast.text.minimum"] = replace(limits["contrast.text.minimum"], value=minimum)
    panel = layout(inked(GAIN, "#767676"), coat="#FFFFFF", coat_kind="powder")
    assert len(found("legend-contrast-low", panel, limits)) == count


def test_reflectance_speaks_where_a_house_has_a_low_ratio():
    limits = {**standard()}
    limits["contrast.text.minimum"] = replace(limits["contrast.text.minimum"], value=1.5)
    panel = layout(inked(GAIN, "#C0C0C0"), coat="#FFFFFF", coat_kind="powder")
    (finding,) = found("legend-contrast-low", panel, limits)
    # L of #C0C0C0 is 0.527115, so 47.3 percent are lost.
    assert (finding.limit_name, finding.measured) == ("contrast.reflectance.minimum", pytest.approx(47.2885, abs=1e-3))


def test_contrast_on_bare_metal_is_a_note():
    panel = layout(inked(GAIN, "#777777"), coat="#FFFFFF", coat_kind="none")
    assert [one.severity for one in found("legend-contrast-low", panel)] == [Severity.NOTE]


@pytest.mark.parametrize(("ink", "ratio"), [("#959595", [2.995]), ("#949494", [])])
def test_contrast_of_marks_on_white(ink, ratio):
    panel = layout(inked(mark("RV1", (50, 50), (50, 53)), ink), coat="#FFFFFF", coat_kind="powder")
    assert measured("mark-contrast-low", panel) == pytest.approx(ratio, abs=1e-3)
    panel = layout(inked(frame("frame 1", (20, 20, 80, 60)), ink), coat="#FFFFFF", coat_kind="powder")
    assert measured("mark-contrast-low", panel) == pytest.approx(ratio, abs=1e-3)


@pytest.mark.parametrize(
    ("one", "other", "eyes"),
    [
        ("#C03030", "#6A6A20", "deuteranopia"),
        ("#F2F2EE", "#F2A53A", None),
        ("#FFFFFF", "#F8F8F8", "deuteranopia"),
    ],
)
def test_inks_that_some_eyes_take_for_one(one, other, eyes):
    panel = layout(inked(GAIN, one, "red"), inked(legend("RV2", "BIAS", (70, 50, 80, 53)), other, "other"))
    findings = found("inks-look-alike", panel)
    assert len(findings) == (eyes is not None)
    if eyes is not None and one == "#C03030":
        assert findings[0].other in {said.deuteranopia(), said.protanopia()}


# --- sizes


@pytest.mark.parametrize(
    ("name", "severity"),
    [(3.75, None), (3.75 - JUST, Severity.NOTE), (3.0, Severity.NOTE), (3.0 - JUST, Severity.WARNING)],
)
def test_a_name_over_its_positions(name, severity):
    # 3 mm x 1.25 = 3.75 mm: NUREG-0700 Rev. 2, 11.3.1.
    panel = layout(
        legend("S1", "MODE", (50, 60, 60, 63), cap_height=name),
        legend("S1", "ON", (50, 50, 60, 53), "position", cap_height=3.0),
        legend("S1", "OFF", (50, 40, 60, 43), "position", cap_height=3.0),
    )
    assert [one.severity for one in found("legend-hierarchy-flat", panel)] == ([severity] if severity else [])
    assert measured("legend-hierarchy-flat", panel) == ([pytest.approx(name / 3.0)] if severity else [])


def test_a_frame_title_over_the_names_in_it_and_no_others():
    line = FrameLine(name="frame 1", refs=("S1",), box=Box(40, 40, 70, 70), width=0.3, where=at(20))
    things = (
        line,
        legend("frame 1", "INPUT", (50, 69, 60, 71), "title", 3.0),
        legend("S1", "A", (50, 60, 60, 63), cap_height=3.0),
    )
    assert refs("legend-hierarchy-flat", layout(*things)) == [("frame 1",)]
    outside = legend("S2", "B", (80, 60, 90, 63), cap_height=9.0)
    larger = legend("frame 1", "INPUT", (50, 69, 60, 71), "title", 3.75)
    assert refs("legend-hierarchy-flat", layout(line, larger, things[2], outside)) == []


def test_the_name_that_is_unlike_the_others():
    names = [legend(f"J{n}", f"OUT {n}", (20 * n, 50, 20 * n + 10, 53)) for n in range(1, 5)]
    assert found("names-unlike", layout(*names)) == []
    odd = legend("J5", "IN", (120, 50, 130, 53), cap_height=4.0)
    (finding,) = found("names-unlike", layout(*names, odd))
    assert (finding.refs, finding.severity) == (("J5",), Severity.NOTE)
    assert found("names-unlike", layout(names[0], odd)) == []  # neither is the usual way


# --- place


def _text(turn):
    text = FreeText(request=request("FUSE"), at=Point(50, 50), anchor=Anchor.LEFT, turn=turn)
    words = replace(legend("text 1", "FUSE", (50, 50, 60, 53), "title"), where=text.request.where)
    return layout(words, texts=(text,))


@pytest.mark.parametrize(
    ("turn", "severity"),
    [
        (0, None),
        (JUST, Severity.NOTE),
        (90, Severity.NOTE),
        (-90, Severity.NOTE),
        (90 + JUST, Severity.WARNING),
        (180, Severity.WARNING),
        (-180, Severity.WARNING),
        (270, Severity.NOTE),
        (360, None),
    ],
)
def test_words_that_are_turned(turn, severity):
    assert [one.severity for one in found("legend-turned", _text(turn))] == ([severity] if severity else [])


def _row(*places, step=30.0):
    things = []
    for number, place in enumerate(places):
        x = 30 + step * number
        up = 60 if place is Place.ABOVE else 40
        asked = LegendRequest(text=f"N{number}", style="name", where=at(12))
        things += [
            replace(part(f"J{number}", control(MotionKind.NONE, "jack"), spot=(x, 50.0)), legend=asked),
            replace(legend(f"J{number}", f"N{number}", (x - 5, up, x + 5, up + 3)), place=place),
        ]
    return layout(*things)


def test_the_name_on_the_other_side_of_its_row():
    assert found("row-unlike", _row(Place.ABOVE, Place.ABOVE, Place.ABOVE)) == []
    assert refs("row-unlike", _row(Place.ABOVE, Place.BELOW, Place.ABOVE)) == [("J1",)]


@pytest.mark.parametrize(("gap", "ratios"), [(3.0, []), (3.0 + JUST, [1.0]), (5.0, [5 / 3])])
def test_a_name_nearer_to_another_part(gap, ratios):
    # S2 is 3 mm under the name, S1 `gap` over it.
    things = (
        part("S1", control(MotionKind.LEVER), spot=(50, 60)),
        part("S2", control(MotionKind.LEVER), spot=(50, 40)),
        legend("S1", "MODE", (45, 50, 55, 53)),
        front("S1", block(50, 53 + gap + 5, 10, 10), "nut"),
        front("S2", block(50, 42, 10, 10), "nut"),
    )
    assert measured("legend-ambiguous", layout(*things)) == pytest.approx(ratios, abs=1e-6)


def test_a_screw_does_not_make_a_name_ambiguous():
    things = (
        part("S1", control(MotionKind.LEVER), spot=(50, 60)),
        legend("S1", "MODE", (45, 50, 55, 53)),
        front("S1", block(50, 63, 10, 10), "nut"),
        front("H1", disc(50, 47, 5), "head"),
        opening("H1", disc(50, 47, 3)),
    )
    assert found("legend-ambiguous", layout(*things)) == []


@pytest.mark.parametrize(("gap", "gaps"), [(1.5, []), (1.5 - JUST, [1.5 - JUST]), (0.0, [0.0]), (-0.5, [])])
def test_legends_one_above_the_other(gap, gaps):
    # Half of 3 mm: NUREG-0700 Rev. 3, 11.4.1.5-7.
    panel = layout(legend("S1", "GAIN", (50, 50, 60, 53)), legend("S2", "BIAS", (50, 53 + gap, 60, 56 + gap)))
    assert measured("legends-too-close", panel) == pytest.approx(gaps, abs=1e-9)
    beside = layout(legend("S1", "GAIN", (50, 50, 60, 53)), legend("S2", "BIAS", (60, 53 + gap, 70, 56 + gap)))
    assert measured("legends-too-close", beside) == []


# --- marks


SEEN = height_at(1, 700)  # 0.2036 mm


@pytest.mark.parametrize(
    ("width", "widths"), [(SEEN, []), (SEEN - JUST, [SEEN - JUST]), (0.2, [0.2]), (0.2 - JUST, [])]
)
def test_a_mark_too_fine_to_be_seen(width, widths):
    # Thinner than the 0.2 mm that the process holds, line-too-thin speaks instead.
    panel = layout(mark("RV1", (50, 50), (50, 53), width), viewing_distance=700)
    assert measured("mark-too-fine", panel) == widths


FIVE = height_at(5, 700)  # 1.018 mm


@pytest.mark.parametrize(("length", "lengths"), [(FIVE, []), (FIVE - JUST, [FIVE - JUST]), (1.0, [1.0])])
def test_a_mark_too_short_to_be_read(length, lengths):
    panel = layout(mark("RV1", (50, 50), (50, 50 + length)), viewing_distance=700)
    assert measured("mark-too-short", panel) == pytest.approx(lengths, abs=1e-9)


@pytest.mark.parametrize(("step", "white"), [(0.9, []), (0.9 - JUST, [0.6 - JUST]), (0.5, [0.2])])
def test_marks_that_run_together(step, white):
    # Marks 0.3 mm wide want 0.6 mm of white.
    panel = layout(*(mark("RV1", (50 + step * n, 50), (50 + step * n, 53)) for n in range(4)))
    assert measured("marks-crowded", panel) == pytest.approx(white, abs=1e-9)
