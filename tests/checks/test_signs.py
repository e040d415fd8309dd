"""Better signs on a panel: of what its face has, never in ratings, and of the units of scales too."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from panelart.checks import signs
from panelart.lettering.fonts import open_font
from panelart.model.motion import MotionKind
from panelart.model.panel import Scale
from tests.checks.builders import at, component, control, layout, legend, part
from tests.checks.cases import found

THIN, NO_BREAK = "\u202f", "\u00a0"


def offered(text, *cautions):
    panel = layout(part("X1", component(opening=False, cautions=cautions)), legend("X1", text, (20, 10, 60, 13)))
    return [(one.written, one.meant) for finding in found("signs-improvable", panel) for one in finding.spellings]


@pytest.fixture
def faces(monkeypatch):
    """Faces by name: which characters each has; the first is the panel's own, the second its fallback."""

    def chosen(own, fallback):
        sets = {"own": own, "fallback": fallback}
        monkeypatch.setattr(signs, "open_font", lambda name: SimpleNamespace(has=lambda sign: sign in sets[name]))
        return signs._has(SimpleNamespace(font="own", look=SimpleNamespace(fallback=("fallback",))))

    return chosen


def test_a_space_must_be_in_the_face_of_the_panel_and_a_sign_in_any(faces):
    has = faces(NO_BREAK, "\u2003\u2212")
    assert [has(sign) for sign in (NO_BREAK, "\u2003", "\u2212", "×")] == [True, False, True, False]


@pytest.mark.parametrize("text", ["10 mA", "5\u00a0V", "5\u202fV", "0 10 20 dB"])
def test_no_space_that_is_written_is_changed_into_a_narrow_one(text):
    """Our fonts have U+202F, and a panel of usual spaces has nothing to improve."""
    assert open_font("plain-light").has(THIN)
    assert offered(text) == []


def test_a_space_that_is_missing_is_the_usual_one():
    assert offered("10mA") == [("10mA", f"10{NO_BREAK}mA")]


@pytest.mark.parametrize("caution", ["fuse", "breaker", "mains-inlet"])
def test_the_legend_of_a_rated_part_is_left_as_it_is(caution):
    assert offered("-5 V")
    assert offered("-5 V", caution) == []


def test_the_unit_of_a_scale_is_looked_at_and_its_numbers_are_not():
    scale = Scale(
        low=-5.0, high=5.0, major=5.0, minor=1.0, sweep=300.0, start_deg=240.0, unit="uA", where=at(14), numerals=None
    )
    texts = [legend("X1", text, (20 + 9 * n, 10, 22 + 9 * n, 13), "numeral") for n, text in enumerate(("-5", "uA"))]
    (finding,) = found("signs-improvable", layout(part("X1", control(MotionKind.TURN), scale=scale), *texts))
    assert [(one.written, one.meant) for one in finding.spellings] == [("uA", "µA")]
