"""Two states of a panel against each other, each difference by a change made by hand."""

from __future__ import annotations

import json

import pytest
from msgspec.structs import replace

from panelart.checks import inspect
from panelart.checks.comparison import SAME, About, compare
from panelart.geometry import Box, Point
from panelart.model.layout import FrameLine
from panelart.reports.comparison import comparison_json, comparison_text
from panelart.source.facts import Facts
from tests.checks.builders import at, component, disc, knob, layout, legend, opening, part
from tests.mutations.faults import clean, shifted
from tests.mutations.faults import legend as legend_changed


def differences(old, new):
    return compare((old, inspect(old)), (new, inspect(new)))


def told(old, new):
    return [(one.about, one.name, str(one.what)) for one in differences(old, new)]


BASE = (
    part("S1", component("switch"), spot=(50, 50)),
    opening("S1", disc(50, 50, 12)),
    legend("S1", "MODE", (45, 60, 55, 63)),
)


def test_the_same_panel_has_no_differences():
    assert differences(layout(*BASE), layout(*BASE)) == ()
    assert comparison_text(()) == "No differences"


@pytest.mark.parametrize(("by", "count"), [(SAME / 2, 0), (2 * SAME, 1), (1.0, 1)])
def test_a_part_that_moved(by, count):
    moved = replace(BASE[0], at=Point(50 + by, 50))
    found = differences(layout(*BASE), layout(moved, *BASE[1:]))
    assert [(one.about, one.name) for one in found] == [(About.PART, "S1")] * count
    assert [one.moved.x for one in found] == pytest.approx([by] * count)


def test_parts_that_came_went_and_were_changed():
    other = part("S2", component("lamp", opening=False), spot=(90, 50))
    assert told(layout(*BASE), layout(*BASE, other)) == [(About.PART, "S2", "Part lamp")]
    assert (
        comparison_text(differences(layout(*BASE, other), layout(*BASE))).splitlines()[1] == "  S2: removed: Part lamp"
    )
    (changed,) = differences(layout(*BASE), layout(replace(BASE[0], component=component("lever")), *BASE[1:]))
    assert (changed.what, changed.old, changed.new) == ("part", "Part switch", "Part lever")
    (turned,) = differences(layout(*BASE), layout(replace(BASE[0], turn=90.0), *BASE[1:]))
    assert (turned.what, turned.old, turned.new) == ("turn", "0 deg", "90 deg")


def test_openings_that_moved_and_grew():
    grown = opening("S1", disc(50, 50, 12.5))
    (found,) = differences(layout(*BASE), layout(BASE[0], grown, BASE[2]))
    assert (found.about, found.old, found.new) == (About.OPENING, "Ø12.00", "Ø12.50")
    (found,) = differences(layout(*BASE), layout(BASE[0], opening("S1", disc(51, 48, 12)), BASE[2]))
    assert (found.moved.x, found.moved.y) == pytest.approx((1, -2))


def test_legends_that_moved_grew_and_were_reworded():
    def only(new):
        return differences(layout(*BASE), layout(*BASE[:2], new))

    (found,) = only(legend("S1", "MODE", (46, 60, 56, 63)))
    assert (str(found.what), found.moved.x) == ('name "MODE"', pytest.approx(1))
    (found,) = only(legend("S1", "RANGE", (45, 60, 55, 63)))
    assert (str(found.what), found.old, found.new) == ("name, text", '"MODE"', '"RANGE"')
    (found,) = only(legend("S1", "MODE", (45, 60, 55, 63), cap_height=3.5))
    assert (found.old, found.new) == ("3 mm", "3.5 mm")
    gone = differences(layout(*BASE), layout(*BASE[:2]))
    assert [(one.about, one.old, one.new) for one in gone] == [(About.LEGEND, "there", "")]


def test_a_scale_that_moves_is_one_difference():
    old = clean("bench-supply")
    found = [one for one in differences(old, shifted("RV1", 0.0, 0.5)(old)) if one.about is About.LEGEND]
    assert [one.name for one in found] == ["RV1"]
    assert str(found[0].what).startswith("9 legends")


def sheet_of(thickness):
    inner = Facts("sheet", (("thickness", thickness),), (("thickness", "mm"),))
    return Facts("spec", (("panel", Facts("panel", (("sheet", inner),))),))


def test_frames_and_the_panel_itself():
    line = FrameLine(name="frame 1", refs=("S1",), box=Box(40, 40, 70, 70), width=0.3, where=at(20))
    wider = replace(line, box=Box(40, 40, 72, 70))
    assert told(layout(*BASE, line), layout(*BASE, wider)) == [(About.FRAME, "frame 1", "line")]
    thick, thin = (
        replace(made, panel=replace(made.panel, facts=sheet_of(mm)))
        for made, mm in ((layout(*BASE), 2), (layout(*BASE), 1.5))
    )
    assert told(thick, thin) == [(About.PANEL, "", "panel: sheet: thickness")]


def test_findings_that_came_and_went():
    one, two = knob("RV1", 50, 50, 24), knob("RV2", 73, 50, 24)
    apart = knob("RV2", 80, 50, 24)
    new = [entry for entry in differences(layout(one, apart), layout(one, two)) if entry.about is About.FINDING]
    assert [(entry.name, entry.new) for entry in new] == [("parts-collide", "there")]
    gone = differences(layout(one, two), layout(one, apart))
    assert "gone: parts-collide: error: " in comparison_text(gone)


def test_the_json_has_the_numbers():
    moved = replace(BASE[0], at=Point(51, 50))
    document = json.loads(comparison_json(differences(layout(*BASE), layout(moved, *BASE[1:]))))
    assert document["differences"][0]["moved"] == {"x_mm": 1.0, "y_mm": 0.0}
    assert document["differences"][0]["about"] == "part"


def test_the_overlay_paints_what_was_what_is_and_what_stayed():
    from panelart.sheets.overlay import IS, STAYED, WAS, overlay

    old = clean("bench-supply")
    new = legend_changed("DS1", "name", to=lambda _, box: Point(box.centre.x, box.centre.y + 1))(old)
    (parts,) = [layer for layer in overlay(old, new).layers if layer.name == "parts"]
    colours = {paint.colour: [] for paint in (WAS, IS, STAYED)}
    for item in parts.items:
        colours[(item.fill or item.stroke).colour].append(item.label)
    assert colours[WAS.colour] == colours[IS.colour] == ["READY"]
    assert len(colours[STAYED.colour]) > 50
