"""Shadows against rays: an eye, 100 000 points of ink, and each body as numbers, with none of the code under test.

A ray from the eye to a point of the face is blocked by a round body when it comes nearer to the body's axis than its
radius, by a rectangular one when it passes through the slab of each pair of sides; both between face and top.
"""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from msgspec.structs import replace

from panelart.checks.ink import filled
from panelart.checks.shadows import Eye, Look, casters, hidden_ink, looks
from panelart.checks.survey import survey
from panelart.checks.worst_eye import worst_ink
from panelart.geometry import rectangle
from panelart.messages import checks_things as things
from panelart.model.component import Envelope
from panelart.model.motion import MotionKind
from panelart.model.panel import EyeRange, Operator
from tests.checks.builders import at, block, control, disc, front, knob, layout, legend, part
from tests.checks.cases import found, refs

RAYS = 100_000


def look(x, y, z):
    return Look(height=y - 50, aside=x - 100, eye=Eye(x, y, z))


def points_in(box, count=RAYS):
    """Points spread evenly over a box (left, bottom, right, top)."""
    side = int(np.ceil(np.sqrt(count)))
    left, bottom, right, top = box
    x = left + (np.arange(side) + 0.5) / side * (right - left)
    y = bottom + (np.arange(side) + 0.5) / side * (top - bottom)
    return np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2)


def blocked_by_bar(points, eye, foot, tip, radius, height):
    """Rays that come within a radius of the axis from foot (on the face) to tip (height over it).

    At the share t of the way from the point to the eye the ray is at height t * z; the axis is at its own place there.
    The square of the distance is a quadratic in t, and its least value on 0 .. height / z decides.
    """
    foot, tip, e = np.array(foot), np.array(tip), np.array(eye[:2])
    last = min(height / eye[2], 1.0)
    start = points - foot
    way = (e - points) - (tip - foot) * eye[2] / height
    best = np.clip(-(start * way).sum(1) / np.maximum((way**2).sum(1), 1e-300), 0.0, last)
    return ((start + way * best[:, None]) ** 2).sum(1) <= radius**2


def blocked_by_block(points, eye, middle, w, h, height):
    """Rays that pass through a rectangular block, by the slab test."""
    e = np.array(eye[:2])
    near, far = np.zeros(len(points)), np.full(len(points), min(height / eye[2], 1.0))
    for axis, half in ((0, w / 2), (1, h / 2)):
        start, way = points[:, axis] - middle[axis], e[axis] - points[:, axis]
        with np.errstate(divide="ignore", invalid="ignore"):
            one, two = (-half - start) / way, (half - start) / way
        inside = np.abs(start) <= half
        one = np.where(way == 0, np.where(inside, -np.inf, np.inf), one)
        two = np.where(way == 0, np.where(inside, np.inf, -np.inf), two)
        near, far = np.maximum(near, np.minimum(one, two)), np.minimum(far, np.maximum(one, two))
    return near <= far


def share_hidden(panel, place):
    worst = hidden_ink(survey(panel), [place])
    return max((one.share for one in worst), default=0.0)


TOGGLE = control(
    MotionKind.LEVER,
    "toggle",
    front=(Envelope(what="lever", contour=rectangle(3, 9.5), height=18.8, figures=(), covers=False),),
    positions=("up", "down"),
)
INK = (95.0, 34.0, 105.0, 38.0)
EYES = [(100, 50, 600), (100, 450, 600), (100, 900, 350), (-150, 300, 500), (400, 200, 450), (100, -300, 500)]


@pytest.mark.parametrize("eye", EYES)
def test_the_shadow_of_a_knob(eye):
    panel = layout(knob("RV1", 100, 50, 24), legend("RV1", "GAIN", INK))
    panel = replace(panel, envelopes=tuple(replace(one, height=16.0) for one in panel.envelopes))
    points = points_in(INK)
    expected = blocked_by_bar(points, eye, (100, 50), (100, 50), 12.0, 16.0).mean()
    assert share_hidden(panel, look(*eye)) == pytest.approx(expected, abs=0.01)


@pytest.mark.parametrize("eye", EYES)
def test_the_shadow_of_a_bezel(eye):
    panel = layout(front("M1", block(100, 54, 30, 20)), legend("M1", "VOLTS", INK))
    panel = replace(panel, envelopes=tuple(replace(one, height=8.0) for one in panel.envelopes))
    expected = blocked_by_block(points_in(INK), eye, (100, 54), 30, 20, 8.0).mean()
    assert share_hidden(panel, look(*eye)) == pytest.approx(expected, abs=0.01)


@pytest.mark.few(6)
@pytest.mark.parametrize("turn", [0, 90, 30])
@pytest.mark.parametrize("eye", EYES)
def test_the_shadow_of_a_lever_at_the_position_that_hides_most(eye, turn):
    panel = layout(part("S1", TOGGLE, spot=(100, 44), turn=turn), legend("S1", "OFF", INK))
    way = 3.25 * np.array([-np.sin(np.radians(turn)), np.cos(np.radians(turn))])
    points = points_in(INK)
    expected = max(
        blocked_by_bar(points, eye, (100, 44), np.array((100, 44)) + side * way, 1.5, 18.8).mean() for side in (1, -1)
    )
    assert share_hidden(panel, look(*eye)) == pytest.approx(expected, abs=0.01)


def test_two_shadows_on_one_letter_count_once():
    panel = layout(knob("RV1", 94, 50, 24), knob("RV2", 106, 50, 24), legend("RV1", "GAIN", INK))
    panel = replace(panel, envelopes=tuple(replace(one, height=16.0) for one in panel.envelopes))
    eye, points = (100, 450, 600), points_in(INK)
    expected = (
        blocked_by_bar(points, eye, (94, 50), (94, 50), 12.0, 16.0)
        | blocked_by_bar(points, eye, (106, 50), (106, 50), 12.0, 16.0)
    ).mean()
    assert share_hidden(panel, look(*eye)) == pytest.approx(expected, abs=0.01)


def test_a_hollow_form_hides_what_its_sides_and_top_hide():
    """A U of three blocks, each as a ray would meet it."""
    from panelart.geometry import Point, polygon

    corners = [(80, 40), (120, 40), (120, 70), (110, 70), (110, 50), (90, 50), (90, 70), (80, 70)]
    panel = layout(front("M1", polygon([Point(*corner) for corner in corners])), legend("M1", "A", (92, 52, 108, 69)))
    panel = replace(panel, envelopes=tuple(replace(one, height=20.0) for one in panel.envelopes))
    points, eye = points_in((92, 52, 108, 69)), (300, 50, 500)
    blocks = [((100, 45), 40, 10), ((85, 60), 10, 20), ((115, 60), 10, 20)]
    expected = np.any([blocked_by_block(points, eye, *one, 20.0) for one in blocks], axis=0).mean()
    assert 0.1 < expected < 0.9
    assert share_hidden(panel, look(*eye)) == pytest.approx(expected, abs=0.01)


def test_real_letters_on_a_real_panel():
    """The bench supply: every hidden letter of its scales, from one eye, against rays through every body there is."""
    from pathlib import Path

    from panelart.pipeline import lay_out, read

    made = lay_out(read(Path(__file__).parents[2] / "demo" / "bench-supply.yaml"))
    eye = (130.0, 400.0, 550.0)
    made_survey = survey(made)
    told = {shapely.to_wkb(one.piece): one.share for one in hidden_ink(made_survey, [look(*eye)])}
    random = np.random.default_rng(7)
    compared = 0
    for word in made_survey.words:
        if word.owner != "RV1" or word.kind != "numeral":
            continue
        for piece in shapely.get_parts(filled(word.legend.shape)):
            left, bottom, right, top = piece.bounds
            points = random.uniform((left, bottom), (right, top), (20_000, 2))
            points = points[shapely.contains_xy(piece, points[:, 0], points[:, 1])]
            blocked = np.zeros(len(points), dtype=bool)
            for solid in made_survey.front:
                if solid.owner == "RV1" and solid.hides and solid.contour.circle is not None:
                    centre, radius = solid.contour.circle
                    blocked |= blocked_by_bar(points, eye, centre, centre, radius, solid.height)
            assert told.get(shapely.to_wkb(piece), 0.0) == pytest.approx(blocked.mean(), abs=0.015)
            compared += 1
    assert compared >= 10


# --- where the eye is


def test_the_eye_of_an_upright_panel_is_where_it_is_said():
    seen = EyeRange(distance=600, height=(100, 400), aside=(-50, 50), lean_deg=0, where=at(3))
    places = looks(layout().panel, seen)  # 200 x 100 mm: the middle is (100, 50)
    assert places[0].eye == pytest.approx((50, 150, 600))
    assert places[-1].eye == pytest.approx((150, 450, 600))
    assert len(places) == 25
    one = replace(seen, height=(100, 100), aside=(0, 0))
    assert [place.eye for place in looks(layout().panel, one)] == [pytest.approx((100, 150, 600))]


def test_a_panel_that_leans_back_turns_to_the_eye_above_it():
    # Leaning by 30 degrees, an eye at the height of distance x tan 30 looks straight at the middle.
    seen = EyeRange(distance=600, height=(600 * np.tan(np.radians(30)),) * 2, aside=(0, 0), lean_deg=30, where=at(3))
    (place,) = looks(layout().panel, seen)
    assert place.eye == pytest.approx((100, 50, 600 / np.cos(np.radians(30))))


def test_an_eye_behind_the_face_is_refused():
    seen = EyeRange(distance=10, height=(-900, -900), aside=(0, 0), lean_deg=80, where=at(3))
    with pytest.raises(ValueError, match="behind its face"):
        looks(layout().panel, seen)


# --- the rule


def _seen_from(height):
    eye = EyeRange(distance=600, height=height, aside=(0, 0), lean_deg=0, where=at(3))
    return Operator(eye=eye)


def _panel(operator):
    made = layout(
        knob("RV1", 100, 50, 24),
        legend("RV1", "BELOW", (95, 34, 105, 37.9)),
        legend("RV1", "ABOVE", (95, 62.1, 105, 65), "position"),
        operator=operator,
    )
    return replace(made, envelopes=tuple(replace(one, height=16.0) for one in made.envelopes))


def test_without_an_eye_nothing_is_said():
    assert found("legend-hidden-from-eye", _panel(Operator())) == []


def test_from_above_the_name_below_is_hidden_and_from_below_the_one_above():
    (finding,) = found("legend-hidden-from-eye", _panel(_seen_from((400, 400))))
    assert finding.subject == things.legend(owner="RV1", style="name", text="BELOW")
    assert dict(finding.other.arguments)["eye"] == things.eye_above(height=400.0)
    assert finding.measured > 50
    (finding,) = found("legend-hidden-from-eye", _panel(_seen_from((-300, -300))))
    assert finding.subject == things.legend(owner="RV1", style="position", text="ABOVE")


@pytest.mark.parametrize(("gap", "hidden"), [(1e-6, []), (-1e-6, [("RV1",)])])
def test_the_edge_of_a_shadow(gap, hidden):
    # Eye 400 mm above the middle at 600 mm: a block 20 mm high with its lower edge at y = 40 throws its shadow to
    # 450 - (450 - 40) x 600 / 580 = 25.8620690 mm.
    edge = 450 - (450 - 40) * 600 / 580
    made = layout(
        front("RV1", block(100, 50, 20, 20)),
        legend("RV1", "BELOW", (95, 20, 105, edge - gap)),
        operator=_seen_from((400, 400)),
    )
    made = replace(made, envelopes=tuple(replace(one, height=20.0) for one in made.envelopes))
    assert refs("legend-hidden-from-eye", made) == hidden


def test_what_is_hidden_from_the_front_is_told_once():
    made = _panel(_seen_from((0, 400)))
    covered = replace(made, legends=(legend("RV1", "BELOW", (95, 34, 105, 41)),))
    assert found("legend-hidden-from-eye", covered) == []
    assert refs("legend-under-knob", covered) == [("RV1",)]


def test_plugs_and_caps_cast_and_what_a_cap_sweeps_does_not():
    made = layout(
        front("J1", block(50, 50, 10, 10), "mated plug", covers=False),
        front("RV1", block(90, 50, 12, 84), "cap travel", covers=False),
        part("RV1", SLIDE, spot=(90, 50)),
    )
    plug, cap = casters(survey(made))
    assert (plug.words, cap.words) == (things.piece(ref="J1", what="mated plug"), things.cap(ref="RV1"))
    assert {round(float(foot[:, 1].max() - foot[:, 1].min()), 6) for foot, _ in cap.states} == {24.0}


# --- the worst eye of a range, against a dense sampling by rays

SLIDE = control(
    MotionKind.SLIDE,
    "fader",
    front=(Envelope(what="cap travel", contour=rectangle(12, 84), height=14.0, figures=(), covers=False, travel=60.0),),
)
RANGES = [
    EyeRange(distance=600, height=(0, 500), aside=(-400, 400), lean_deg=0, where=at(3)),
    EyeRange(distance=450, height=(-100, 350), aside=(-250, 90), lean_deg=30, where=at(3)),
    EyeRange(distance=500, height=(150, 150), aside=(-300, 300), lean_deg=0, where=at(3)),
]
DENSE = 41
"""Eyes each way: steps of at most 20 mm, between which the shadow of a lever moves by less than 0.7 mm."""


def _dense(seen):
    """Eyes over the face, worked out here and not by the code under test; the panel is 200 x 100 mm."""
    lean = np.radians(seen.lean_deg)
    for up in np.unique(np.linspace(*seen.height, DENSE)):
        for aside in np.unique(np.linspace(*seen.aside, DENSE)):
            y = 50 + up * np.cos(lean) - seen.distance * np.sin(lean)
            yield 100 + aside, y, seen.distance * np.cos(lean) + up * np.sin(lean)


def _worst_by_rays(seen, ink, blocked):
    points = points_in(ink, 400)
    return max(blocked(points, eye).mean() for eye in _dense(seen))


@pytest.mark.few(3)
@pytest.mark.parametrize("seen", RANGES)
@pytest.mark.parametrize(
    "ink", [(97.0, 58.0, 99.0, 60.5), (112.0, 40.0, 113.0, 43.0), (103.5, 33.0, 103.9, 36.0), (85.0, 45.0, 87.0, 46.0)]
)
def test_the_worst_eye_for_a_lever_is_found_between_the_places_of_the_grid(seen, ink):
    panel = layout(part("S1", TOGGLE, spot=(100, 50)), legend("S1", "I", ink))

    def blocked(points, eye):
        sides = [blocked_by_bar(points, eye, (100, 50), (100, 50 + side), 1.5, 18.8) for side in (3.25, -3.25)]
        return max(sides, key=lambda rays: rays.mean())

    found_there = worst_ink(survey(panel), seen)
    worst = max((one.share for one in found_there), default=0.0)
    assert worst >= _worst_by_rays(seen, ink, blocked) - 0.01  # none of many eyes is worse
    for one in found_there:  # and that one is as bad as it is said to be
        assert blocked(points_in(ink), one.look.eye).mean() == pytest.approx(one.share, abs=0.01)


@pytest.mark.parametrize("seen", RANGES)
def test_the_worst_eye_for_two_knobs_is_found(seen):
    ink = (99.0, 43.0, 101.5, 46.0)
    panel = layout(knob("RV1", 88, 50, 16), knob("RV2", 112, 50, 16), legend("RV1", "A", ink))
    panel = replace(panel, envelopes=tuple(replace(one, height=40.0) for one in panel.envelopes))

    def blocked(points, eye):
        one, two = (blocked_by_bar(points, eye, (x, 50), (x, 50), 8.0, 40.0) for x in (88, 112))
        return one | two

    (worst,) = worst_ink(survey(panel), seen)
    assert worst.share >= _worst_by_rays(seen, ink, blocked) - 0.01
    assert blocked(points_in(ink), worst.look.eye).mean() == pytest.approx(worst.share, abs=0.01)


def test_a_narrow_shadow_that_the_grid_steps_over_is_found():
    """A thin pin 60 mm high between two of five places aside: no place of the grid sees it before the letter."""
    seen = EyeRange(distance=600, height=(300, 300), aside=(-400, 400), lean_deg=0, where=at(3))
    foot, ink = (100, 60), (108.5, 33.0, 109.0, 34.0)
    panel = layout(front("H1", disc(*foot, 2)), legend("H1", "I", ink))
    panel = replace(panel, envelopes=tuple(replace(one, height=60.0) for one in panel.envelopes))
    made = survey(panel)
    assert hidden_ink(made, looks(made.panel, seen)) == ()
    (worst,) = worst_ink(made, seen)
    assert worst.share == pytest.approx(1.0)
    eye = worst.look.eye
    assert blocked_by_bar(points_in(ink), eye, foot, foot, 1.0, 60.0).mean() == pytest.approx(1.0, abs=0.01)


def test_a_slide_hides_from_wherever_its_cap_is_put():
    """The cap, 12 x 24 mm, at the place that hides most of the letter, which lies beside the middle of its way."""
    ink = (107.0, 52.0, 110.0, 55.0)
    panel = layout(part("RV1", SLIDE, spot=(100, 50)), legend("RV1", "5", ink))
    eye = (-150, 90, 450)
    points = points_in(ink)
    expected = max(
        blocked_by_block(points, eye, (100, 50 + way), 12, 24, 14.0).mean() for way in np.linspace(-30, 30, 241)
    )
    assert expected > 0.3
    assert share_hidden(panel, look(*eye)) == pytest.approx(expected, abs=0.01)
    # Past the ends of its way it hides nothing.
    far = layout(part("RV1", SLIDE, spot=(100, 50)), legend("RV1", "5", (107.0, 94.0, 110.0, 97.0)))
    assert share_hidden(far, look(-150, 50, 450)) == 0.0


# --- two eyes: what one of them sees is not hidden


def both(blocked, eye, apart):
    """Rays that are blocked from the left eye and from the right one, each at its own place."""
    x, y, z = eye
    return blocked((x - apart / 2, y, z)) & blocked((x + apart / 2, y, z))


@pytest.mark.parametrize("apart", [50.0, 63.0, 75.0])  # Dodgson 2004: nearly all adults; 63 their mean
@pytest.mark.parametrize("eye", EYES)
def test_two_eyes_see_past_a_knob_on_both_its_sides(eye, apart):
    panel = layout(knob("RV1", 100, 50, 24), legend("RV1", "GAIN", INK))
    panel = replace(panel, envelopes=tuple(replace(one, height=16.0) for one in panel.envelopes))
    points = points_in(INK)
    expected = both(lambda at_: blocked_by_bar(points, at_, (100, 50), (100, 50), 12.0, 16.0), eye, apart).mean()
    assert share_hidden(panel, replace(look(*eye), apart=apart)) == pytest.approx(expected, abs=0.01)


@pytest.mark.parametrize("turn", [0, 90, 30])
def test_two_eyes_and_a_lever_at_the_position_that_hides_most_from_both(turn):
    panel = layout(part("S1", TOGGLE, spot=(100, 44), turn=turn), legend("S1", "OFF", INK))
    way = 3.25 * np.array([-np.sin(np.radians(turn)), np.cos(np.radians(turn))])
    points, eye = points_in(INK), (100.0, 400.0, 600.0)

    def by(side):
        return lambda at_: blocked_by_bar(points, at_, (100, 44), np.array((100, 44)) + side * way, 1.5, 18.8)

    one = max(by(side)(eye).mean() for side in (1, -1))
    expected = max(both(by(side), eye, 63.0).mean() for side in (1, -1))
    assert expected < one  # the two eyes do see more
    assert share_hidden(panel, replace(look(*eye), apart=63.0)) == pytest.approx(expected, abs=0.01)


def test_two_pins_hide_together_what_neither_hides_from_both_eyes():
    """A letter in the shadow of one pin from the left eye and in that of the other from the right one.

    A ray from an eye at (x, y, z) to the letter passes over the face at half the height of the pins at one place.
    """
    letter, z, height = np.array((100.0, 30.0)), 600.0, 60.0
    eyes = [np.array((100 - 31.5, 330.0)), np.array((100 + 31.5, 330.0))]
    pins = [letter + (eye - letter) * (height / 2) / z for eye in eyes]
    pin_discs = [front(f"H{n}", disc(*pin, 2.2)) for n, pin in enumerate(pins)]
    ink = (99.8, 29.8, 100.2, 30.2)
    place = replace(look(100.0, 330.0, z), apart=63.0)
    for shown, share in ((pin_discs, 1.0), (pin_discs[:1], 0.0), (pin_discs[1:], 0.0)):
        panel = layout(*shown, legend("H0", "I", ink))
        panel = replace(panel, envelopes=tuple(replace(one, height=height) for one in panel.envelopes))
        assert share_hidden(panel, place) == pytest.approx(share, abs=1e-6)
        rays = [
            np.any([blocked_by_bar(points_in(ink), (*eye, z), pin, pin, 1.1, height) for pin in pins[: len(shown)]], 0)
            for eye in eyes
        ]
        if shown is pin_discs:
            assert (rays[0] & rays[1]).all()


@pytest.mark.parametrize("seen", RANGES)
def test_the_worst_place_of_two_eyes_for_two_knobs_is_found(seen):
    seen = replace(seen, apart=63.0)
    ink = (99.0, 43.0, 101.5, 46.0)
    panel = layout(knob("RV1", 88, 50, 16), knob("RV2", 112, 50, 16), legend("RV1", "A", ink))
    panel = replace(panel, envelopes=tuple(replace(one, height=40.0) for one in panel.envelopes))

    def blocked(points, eye):
        def from_one(at_):
            one, two = (blocked_by_bar(points, at_, (x, 50), (x, 50), 8.0, 40.0) for x in (88, 112))
            return one | two

        return both(from_one, eye, 63.0)

    found_there = worst_ink(survey(panel), seen)
    share = max((one.share for one in found_there), default=0.0)
    assert share >= _worst_by_rays(seen, ink, blocked) - 0.01
    for one in found_there:
        assert blocked(points_in(ink), one.look.eye).mean() == pytest.approx(one.share, abs=0.01)


def test_one_eye_is_what_two_at_one_place_are():
    panel = layout(knob("RV1", 100, 50, 24), legend("RV1", "GAIN", INK))
    panel = replace(panel, envelopes=tuple(replace(one, height=16.0) for one in panel.envelopes))
    eye = look(100, 450, 600)
    assert share_hidden(panel, replace(eye, apart=1e-6)) == pytest.approx(share_hidden(panel, eye), abs=1e-6)
