"""Lists of positions as panels have them: what the rules say of each is what a practitioner says of it."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from msgspec.structs import replace

from panelart.diagnostics import Severity
from panelart.model.motion import MotionKind, Stops
from panelart.model.panel import Position
from tests.checks.builders import control, layout, part, request
from tests.checks.cases import found

LISTS = yaml.safe_load(Path(__file__).with_name("position_lists.yaml").read_text(encoding="utf-8"))
SAYS = {
    "positions-run-backwards": "direction",
    "switch-against-convention": "direction",
    "positions-unordered": "unordered",
    "position-repeated": "repeated",
    "position-step-missing": "step",
    "positions-contradict": "contradict",
}
ENDS = {"lever": ("up", "centre", "down"), "slide": ("left", "centre", "right")}
MOTION = {"turn": MotionKind.TURN, "dial": MotionKind.TURN, "lever": MotionKind.LEVER, "slide": MotionKind.SLIDE}


def switch(motion: str, texts: list[str], ref: str = "S1", *, legend: str = "", stops: str = ""):
    if motion in ENDS:
        ways = ENDS[motion] if len(texts) == 3 else (ENDS[motion][0], ENDS[motion][2])
    else:
        step = 30.0 if motion == "turn" else 360.0 / len(texts)
        first = 90.0 + (step * (len(texts) - 1) / 2 if motion == "turn" else 0.0)
        ways = [(first - step * number) % 360 for number in range(len(texts))]
    named = tuple(
        Position(direction=way, request=request(text, "position")) for way, text in zip(ways, texts, strict=True)
    )
    kind = control(MOTION[motion])
    if stops:
        kind = replace(kind, motion=replace(kind.motion, stops=Stops(stops)))
    return part(ref, kind, positions=named, legend=request(legend) if legend else None)


def said(one: dict) -> set[str]:
    (motion,) = MOTION.keys() & one.keys()
    parts = [switch(motion, one[motion], legend=one.get("legend", ""), stops=one.get("stops", ""))]
    parts += [switch(motion, one["beside"], "S2")] if "beside" in one else []
    panel = layout(*parts, language=one.get("language", "en"))
    return {
        "note " * (rule == "position-repeated" and findings[0].severity is Severity.NOTE) + told
        for rule, told in SAYS.items()
        if (findings := found(rule, panel))
    }


@pytest.mark.parametrize("one", LISTS, ids=lambda one: " ".join(map(str, one.values()))[:60])
def test_a_list_of_positions_is_judged_as_a_practitioner_judges_it(one: dict) -> None:
    assert said(one) == {one["says"]} - {"fine"}


def test_the_table_has_sixty_lists_that_are_in_order() -> None:
    assert len([one for one in LISTS if one["says"] == "fine"]) >= 60
    assert {one["says"] for one in LISTS} == {"fine", "note repeated", *SAYS.values()}
