"""Drafts beside layouts made by hand from the same lists: never much larger, nothing to move, no room given up.

The layouts in `tests/benchmarks/layouts` were made before a draft of their lists was seen; the bar of 1.10 is the
panel's own, and a designer's moves are counted as `tests/benchmarks/by_hand.py` tells.
"""

from __future__ import annotations

from collections import defaultdict

import pytest

from panelart.drafting.blocks import Fixing, fixing_of
from panelart.lists.read import read_list
from panelart.pipeline import build
from panelart.spec.read import panel_from_text
from tests.benchmarks.by_hand import FIXED, FOLDER, Figures, drafted, figures
from tests.drafting.cases import MATCHER

NAMES = sorted(path.stem for path in FOLDER.glob("*.csv"))
AREA = 1.10
MOVED = 0.115
"""One part of nine, the stop or the fan that stands by itself, as by hand."""

pytestmark = pytest.mark.few(3)


def both(name: str) -> tuple[Figures, Figures, set[str]]:
    """What the draft and the hand's layout measure, and the rules that the draft breaks."""
    listed = read_list((FOLDER / f"{name}.csv").read_bytes(), f"{name}.csv", MATCHER)
    groups: dict[str, list[str]] = defaultdict(list)
    for item in listed.items:
        if fixing_of(MATCHER.component(item.component)) is Fixing.NONE:
            groups[item.group].append(item.ref)
    made = drafted(listed, FIXED.get(name, "smallest"), MATCHER)
    assert made is not None
    hand = build(panel_from_text((FOLDER / f"{name}.yaml").read_text("utf-8"), name, FOLDER))
    broken = {one.rule for one in made.built.inspection.findings if one.severity.value != "note"}
    return figures(made.built, groups), figures(hand, groups), broken


@pytest.mark.parametrize("name", NAMES)
def test_a_draft_is_as_good_as_the_layout_made_by_hand(name: str) -> None:
    draft, hand, broken = both(name)
    assert draft.size[0] * draft.size[1] <= AREA * hand.size[0] * hand.size[1]
    assert draft.moved <= MOVED
    assert draft.errors == 0
    assert not broken & {"controls-too-close", "emergency-stop-crowded", "pitch-too-small", "plugs-too-close"}


def test_twenty_layouts_are_compared() -> None:
    assert len(NAMES) == 20
