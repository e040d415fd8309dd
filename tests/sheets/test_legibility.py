"""The legibility sheet, and the optics of its pictures against another library's and against rays worked out here."""

from __future__ import annotations

from io import BytesIO

import numpy as np
import pytest
from PIL import Image
from scipy.ndimage import gaussian_filter, gaussian_filter1d

from panelart.checks.misreading import mix_ups, reading_place, reading_range, seen_words, slips
from panelart.checks.shadows import Eye, Look
from panelart.checks.survey import survey
from panelart.documents.seen import legibility_sheet
from panelart.drawing.as_seen import blurred, gaussian, seen_through, view_of
from panelart.geometry import Box, Point
from panelart.model.panel import Sight
from panelart.sheets.legibility import percent
from panelart.sheets.picture import looked_at
from panelart.writers import png, svg
from tests.checks.builders import knob, layout
from tests.checks.making import laid_out

SPEC = """
panelart: 1
panel:
  title: Trial
  size: [120, 60]
  sheet: {material: aluminium 5754, thickness: 2}
  coat: {kind: none, colour: "#FFFFFF"}
marking:
  process: digital-print
  ink: {name: black, colour: "#000000"}
  lettering: {cap_height: 2.2}
  viewing_distance: 700
parts:
  - {ref: J1, part: bnc, at: [30, 30], legend: CH 3}
  - {ref: J2, part: bnc, at: [80, 30], legend: CH 8}
"""


def sheet(text=SPEC, sight=None):
    made = laid_out(text)
    look = reading_place(made.panel, reading_range(made.panel))
    seen = seen_words(survey(made), look, sight or Sight())
    return legibility_sheet(survey(made), look, sight or Sight(), seen, slips(seen), mix_ups(seen))


# --- the blur


@pytest.mark.parametrize("deviation", [0.8, 2.5, 6.0])
def test_the_blur_against_scipy(deviation):
    light = np.random.default_rng(1).random((60, 80, 3)).astype(np.float32)
    expected = gaussian_filter(light, (deviation, deviation, 0), mode="nearest", truncate=4.0)
    assert np.allclose(gaussian(light, deviation), expected, atol=2e-3)
    inside = np.s_[26:-26, 26:-26]
    assert np.allclose(gaussian(light, deviation)[inside], expected[inside], atol=1e-3)


def test_an_edge_is_blurred_in_light_and_not_in_colours():
    """The middle of an edge of black and white has half the light: sRGB 188 (IEC 61966-2-1), not 128."""
    edge = np.zeros((21, 81, 3), dtype=np.uint8)
    edge[:, 41:] = 255
    edge[:, 40] = 188
    assert blurred(edge, 5.0)[10, 40].tolist() == pytest.approx([188] * 3, abs=1)
    grey = np.full((20, 20, 3), 77, dtype=np.uint8)
    assert (blurred(grey, 3.0) == 77).all()
    light = (np.arange(81) > 40) * 1.0
    light[40] = 0.5
    profile = gaussian_filter1d(light, 5.0, mode="nearest", truncate=4.0)
    found = blurred(edge, 5.0)[10, :, 0] / 255
    back = np.where(found <= 0.04045, found / 12.92, ((found + 0.055) / 1.055) ** 2.4)
    assert np.allclose(back, profile, atol=0.01)


# --- the view


@pytest.mark.parametrize("eye", [(60, 30, 500), (60, 430, 500), (-240, 330, 400)])
def test_places_are_seen_where_sight_lines_cross_the_plane_that_faces_the_eye(eye):
    middle = Point(60, 30)
    view = view_of(Eye(*eye), middle)
    assert view.seen(middle) == pytest.approx((0.0, 0.0), abs=1e-9)
    e, m = np.array(eye, float), np.array((60.0, 30.0, 0.0))
    ahead = (m - e) / np.linalg.norm(m - e)
    for x, y in ((0, 0), (120, 60), (35, 50)):
        ray = np.array((x, y, 0.0)) - e
        crossed = e + ray * ((m - e) @ ahead) / (ray @ ahead)
        off = crossed - m
        seen = view.seen(Point(x, y))
        assert np.hypot(*seen) == pytest.approx(np.linalg.norm(off), abs=1e-9)
        level = np.cross(ahead, (0.0, 0.0, 1.0)) if eye[1] == 30 else None
        assert level is None or abs(off @ ahead) < 1e-9
    right = view.seen(Point(61, 30))
    assert right.x > 0


def test_straight_in_front_the_view_is_the_face():
    view = view_of(Eye(60, 30, 500), Point(60, 30))
    for x, y in ((0, 0), (120, 60), (35, 50)):
        assert view.seen(Point(x, y)) == pytest.approx((x - 60, y - 30), abs=1e-9)


def test_a_picture_is_seen_where_its_places_are():
    """A dot on the face comes out at the place that the view says."""
    per_mm, page = 8, Box(0, 0, 120, 60)
    pixels = np.full((60 * per_mm, 120 * per_mm, 3), 255, dtype=np.uint8)
    dot = Point(90, 40)
    row, column = int((60 - dot.y) * per_mm), int(dot.x * per_mm)
    pixels[row - 4 : row + 4, column - 4 : column + 4] = 0
    view = view_of(Eye(-240, 330, 400), Point(60, 30))
    seen = view.box(page)
    out = seen_through(view, pixels, page, seen, per_mm)
    dark = np.argwhere(out[:, :, 0] < 128).mean(0)
    place = view.seen(dot)
    assert dark[1] / per_mm + seen.left == pytest.approx(place.x, abs=0.15)
    assert seen.top - dark[0] / per_mm == pytest.approx(place.y, abs=0.15)


def test_what_stands_before_the_face_for_one_eye_is_half_clear():
    made = survey(layout(knob("RV1", 100, 50, 24)))
    look = Look(height=0, aside=-300, eye=Eye(-200, 50, 500), apart=63.0)
    *_, hardware = looked_at(made, look)
    fills = {item.fill.opacity for item in hardware.items}
    assert fills == {0.45, 1.0}
    alone = Look(height=0, aside=-300, eye=Eye(-200, 50, 500))
    areas = [item.fill.colour for item in looked_at(made, alone)[-1].items]
    assert len(areas) >= 2


# --- the sheet


def test_the_sheet_says_who_reads_and_what_is_misread():
    text = " ".join(item.label for layer in sheet().layers for item in layer.items)
    for words in (
        "acuity 0.7, 60 years, 500 lx. Eye position (both eyes)",
        "'CH 8'",
        "'8' as 'B'",
        "50 mm on the face, 4.1°",
    ):
        assert words in text
    assert "as J1 (name 'CH 3')" in text or "as J2 (name 'CH 8')" in text


def test_the_sheet_of_a_clear_panel_says_so():
    drawing = sheet(SPEC.replace("cap_height: 2.2", "cap_height: 6"))
    labels = [item.label for layer in drawing.layers for item in layer.items]
    assert any("None of 2 legends" in label for label in labels)
    assert len(drawing.layers[0].items) == 1  # the panel alone


def test_the_same_bytes_every_time():
    assert svg(sheet()) == svg(sheet())


def test_a_word_loses_contrast_as_seen_and_keeps_its_place():
    drawing = sheet()
    before, after = (item.picture for item in drawing.layers[0].items[1:3])
    levels = [
        np.frombuffer(one.pixels, dtype=np.uint8).reshape(one.height, one.width, 3).astype(int)
        for one in (before, after)
    ]
    assert levels[0].min() < 40
    assert 60 < levels[1].min() < 230
    assert before.box.height == pytest.approx(after.box.height, rel=0.02)
    darkest = [np.argwhere(one[:, :, 0] < (one.min() + 255) / 2).mean(0) / one.shape[:2] for one in levels]
    assert darkest[0] == pytest.approx(darkest[1], abs=0.06)


def test_a_better_eye_sees_more():
    """The darkest ink of the panel as it is seen, by acuity."""

    def darkest(acuity):
        (whole, *_), _ = (layer.items for layer in sheet(sight=Sight(acuity=acuity)).layers)
        pixels = np.frombuffer(whole.picture.pixels, dtype=np.uint8).reshape(
            whole.picture.height, whole.picture.width, 3
        )
        top = pixels[: whole.picture.height // 2, :, 0]
        return np.percentile(top, 0.2)

    assert darkest(1.5) < darkest(0.3)


def test_the_picture_opens_and_is_as_large_as_the_page():
    drawing = sheet()
    with Image.open(BytesIO(png(drawing, 100))) as picture:
        assert picture.size[0] == pytest.approx(drawing.page.width / 25.4 * 100, abs=1)


@pytest.mark.parametrize(("chance", "told"), [(0.0123, 1.2), (0.0999, 10.0), (0.1, 10), (0.256, 26), (0.5, 50)])
def test_chances_are_told_to_the_digit_that_matters(chance, told):
    assert percent(chance) == told
