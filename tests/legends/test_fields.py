"""Filled fields: read back from the artwork by lxml and svgpathtools, added up with shapely."""

from __future__ import annotations

import pytest
import shapely

from panelart.checks.inspection import inspect
from panelart.drawing.artwork import artwork
from panelart.marking.areas import area_of
from panelart.marking.separation import separations
from panelart.model.layout import Layout
from panelart.pipeline import lay_out
from panelart.sheets.picture import panel_picture
from panelart.spec.read import panel_from_text
from panelart.writers.svg import svg
from tests.svg_ink import inks_of

HEAD = """panelart: 1
panel: {title: Jacks, size: [160, 100], sheet: {material: aluminium 5754, thickness: 2}}
marking:
  process: digital-print
  inks: [{name: black, colour: "#111111"}, {name: red, colour: "#B01818"}]
  lettering: {cap_height: 4, case: upper, font: {weight: bold}}
  register: 0.3
  viewing_distance: 500
parts:
  - {ref: J1, part: bnc, at: [40, 50], legend: In}
  - {ref: J2, part: bnc, at: [90, 50], legend: Out 1}
  - {ref: J3, part: bnc, at: [115, 50], legend: %s}
frames:
  - {around: [J2, J3], form: field, corner: 3, title: Outputs}
"""


def laid_out(legend: str = "Out 2", more: str = "") -> Layout:
    return lay_out(panel_from_text(HEAD % legend + more))


def ink_by_label(layout: Layout) -> dict[str, shapely.Geometry]:
    art = artwork(layout)
    return {label: area for label, area, _ in inks_of(svg(art), art.page)}


def test_a_field_is_what_is_left_of_its_box_without_words_and_openings() -> None:
    layout = laid_out()
    inks = ink_by_label(layout)
    (label,) = [each for each in inks if "field" in each]
    box = layout.frames[0].box
    whole = shapely.box(box.left, box.bottom, box.right, box.top)
    assert set(inks) == {label, "IN"}  # the words of the field have no ink of their own
    words = shapely.union_all([area_of(one.shape) for one in layout.legends if one.ref != "J1"])
    # A rounded corner of radius r lacks (1 - pi/4) r2.
    lost = whole.area - inks[label].area - words.area - 4 * (1 - 3.141593 / 4) * 9
    margin = 0.3 + layout.panel.marking.process.opening_margin.value
    holes = [opening.finished for opening in layout.openings if opening.ref != "J1"]
    grown = [shapely.Polygon([tuple(p) for p in _points(hole)]).buffer(margin).area for hole in holes]
    assert lost == pytest.approx(sum(grown), rel=0.01)


def _points(contour):
    from panelart.lettering.flat import flattened
    from panelart.lettering.outline import shape_of

    (loop,) = shape_of(contour)
    return flattened(loop, 0.001)


@pytest.mark.parametrize("ref", ["J2", "J3"])
def test_the_opening_of_a_part_in_a_field_is_clear_by_register_and_margin(ref: str) -> None:
    layout = laid_out()
    inks = ink_by_label(layout)
    (field,) = [area for label, area in inks.items() if "field" in label]
    for opening in layout.openings:
        if opening.ref == ref:
            hole = shapely.Polygon([tuple(point) for point in _points(opening.finished)])
            margin = 0.3 + layout.panel.marking.process.opening_margin.value
            assert hole.distance(field) == pytest.approx(margin, abs=0.02)


def test_words_of_another_ink_are_printed_over_the_field() -> None:
    layout = laid_out("{text: Out 2, ink: red}")
    inks = ink_by_label(layout)
    assert "OUT 2" in inks
    assert "OUT 1" not in inks
    left_out = {legend.text for legend in layout.legends if legend.left_out}
    assert left_out == {"OUT 1", "OUTPUTS"}


def test_words_of_an_ink_that_is_printed_before_that_of_the_field_are_not_covered_by_it() -> None:
    # The inks go down in the order of the spec: red after black.
    layout = lay_out(panel_from_text((HEAD % "Out 2").replace("title: Outputs", "title: Outputs, ink: red")))
    plates = {plate.ink.name: plate for plate in separations(layout).inks}
    (field,) = [drawn.area for drawn in plates["red"].drawn]
    words = [legend for legend in layout.legends if legend.ref != "J1"]
    assert [legend.left_out for legend in words] == [False] * 3
    for legend in words:
        assert shapely.intersection(area_of(legend.shape), field).area == pytest.approx(0.0, abs=1e-6)
    assert {drawn.area for drawn in plates["black"].drawn} == {None}
    layers = [layer.name for layer in panel_picture(layout).layers]
    assert layers.index("legend-red") < layers.index("legend-black")


def test_the_title_of_a_field_is_inside_it_and_clear_of_what_it_holds() -> None:
    layout = laid_out()
    box = layout.frames[0].box
    title = next(legend for legend in layout.legends if legend.text == "OUTPUTS")
    assert box.top - title.box.top > 0.5 * title.cap_height
    names = [legend for legend in layout.legends if legend.ref in ("J2", "J3")]
    assert title.baseline.y > max(name.box.top for name in names) + 0.5


def test_a_scale_inside_a_field_is_left_out_of_it() -> None:
    more = "  - {around: [RV1], form: field}\n"
    scale = "{from: 0, to: 10, major: 5}"
    part = f"  - {{ref: RV1, part: pot-m10, at: [40, 20], knob: {{diameter: 16, height: 12}}, scale: {scale}}}\n"
    text = (HEAD % "Out 2").replace("frames:\n", part + "frames:\n") + more
    layout = lay_out(panel_from_text(text.replace("at: [40, 50]", "at: [40, 75]")))
    marks = [mark for mark in layout.marks if mark.ref == "RV1"]
    assert marks
    assert all(mark.left_out for mark in marks)
    inks = ink_by_label(layout)
    field = next(area for label, area in inks.items() if "field 2" in label)
    for mark in marks:
        (loop,) = mark.shape
        for curve in loop.curves:
            assert not field.contains(shapely.Point(curve.start))


@pytest.mark.parametrize(("colour", "is_found"), [("#5A5A5A", True), ("#FFFFFF", False)])
def test_words_over_a_field_are_held_against_its_colour(colour: str, is_found: bool) -> None:  # noqa: FBT001
    """By WCAG 2 black on #5A5A5A has 2.7 to 1, of which 4.5 are needed; #5A5A5A has 6.9 on the bare white panel."""
    text = (HEAD % "{text: Out 2, ink: red}").replace("#B01818", colour)
    text = text.replace("thickness: 2}}", 'thickness: 2}, coat: {kind: powder, thickness: 0.06, colour: "#FFFFFF"}}')
    found = inspect(lay_out(panel_from_text(text))).findings
    assert [one.refs for one in found if one.rule == "legend-contrast-low"] == ([("J3",)] if is_found else [])


def test_a_title_with_a_descender_leaves_room_for_the_names() -> None:
    layout = lay_out(panel_from_text((HEAD % "Out 2").replace("case: upper, ", "")))
    assert not layout.unplaced
    title = next(legend for legend in layout.legends if legend.text == "Outputs")
    for name in (legend for legend in layout.legends if legend.ref in ("J2", "J3")):
        assert title.box.bottom - name.box.top >= 0.35 * title.cap_height - 1e-6
