"""Texts where they stand on panels: what the rules say of each is what a practitioner says of it."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from msgspec.structs import replace

from panelart.diagnostics import Severity
from panelart.figure import Figure, Known
from panelart.model.circuit import Circuit, CircuitKind
from panelart.model.component import Envelope, EnvelopeRole
from panelart.model.motion import MotionKind
from panelart.model.panel import Scale
from panelart.texts.signs import THIN, better
from tests.checks.builders import at, control, disc, layout, legend, part
from tests.checks.cases import found

SECTIONS = yaml.safe_load(Path(__file__).with_name("judged_texts.yaml").read_text(encoding="utf-8"))
OF_FUSES = ("fuse-rating-missing", "fuse-rating-incomplete", "fuse-rating-implausible", "fuse-rating-contradictory")
OF_PLATES = ("mains-rating-missing", "supply-rating-contradictory")
GRADES = {Severity.WARNING: "meaning", Severity.NOTE: "style"}


def rated(volts: float, amps: float, most: float | None = None) -> dict[str, Figure]:
    def figure(name: str, value: float, span: tuple[float, float] | None = None) -> Figure:
        return Figure(name=name, value=value, sources=("made up for this test",), known=Known.MEMORY, span=span)

    return {"volts": figure("volts", volts), "amps": figure("amps", amps, most and (amps, most))}


def entry(title: str, caution: str, circuit: Circuit | None):
    component = control(MotionKind.NONE, title.lower().replace(" ", "-"), cautions=(caution,) if caution else ())
    return replace(component, title=title, circuit=circuit)


MAINS = Circuit(kind=CircuitKind.MAINS, **rated(250, 10))
PARTS = {
    "fuse": control(MotionKind.NONE, "fuse-5x20", cautions=("fuse",)),
    "breaker": control(MotionKind.PUSH, "breaker", cautions=("breaker",)),
    "plate": entry("Appliance inlet C14, screw flange", "mains-inlet", MAINS),
    "jack": replace(
        entry("Low-voltage supply socket", "", Circuit(kind=CircuitKind.LOW_VOLTAGE, **rated(24, 3))),
        front=(Envelope(what="mated plug", contour=disc(0, 0, 10), height=35.0, figures=(), role=EnvelopeRole.PLUG),),
    ),
    "output": control(MotionKind.NONE, "output"),
    "holder": entry("Fuse holder 5 x 20", "fuse", Circuit(kind=CircuitKind.MAINS, **rated(250, 6.3, 10))),
    "outlet": entry("Appliance outlet, sheet F", "mains-outlet", MAINS),
    "text": control(MotionKind.NONE, "socket"),
}
OF_A_DEVICE = "-of-a-tenth-of-an-ampere"


def of_part(kind: str, text: str):
    things = [part("X1", PARTS[kind.removesuffix(OF_A_DEVICE)], spot=(50, 50)), legend("X1", text, (50, 60, 90, 63))]
    if kind.endswith(OF_A_DEVICE):
        rating = legend("J1", "230 V ~ 50 Hz 0.1 A", (150, 60, 190, 63))
        things += [part("J1", PARTS["plate"], spot=(150, 50)), rating]
    return layout(*things)


def of_scale(unit: str):
    scale = Scale(
        low=0.0, high=30.0, major=5.0, minor=1.0, sweep=300.0, start_deg=240.0, unit=unit, where=at(14), numerals=None
    )
    dial = part("X1", control(MotionKind.TURN), scale=scale)
    return layout(dial, legend("X1", "0", (50, 60, 52, 63), "numeral"), legend("X1", unit, (60, 60, 70, 63), "numeral"))


def spelt(panel) -> list[str] | None:
    findings = found("unit-misspelt", panel)
    return None if not findings else [GRADES[findings[0].severity], findings[0].spellings[0].meant]


def short(rule: str) -> str:
    return rule.rpartition("-")[2]


def said(place: str, text: str):
    if place == "sign":
        offered = better(text, has=lambda character: character != THIN)
        return offered.text.replace("\u00a0", " ") if offered.changes else None
    if place == "unit":
        panel = of_scale(text)
        return "unknown" if found("scale-unit-unknown", panel) else spelt(panel)
    panel = of_part(place, text)
    if place == "text":
        return spelt(panel)
    rules = OF_FUSES if place.startswith(("fuse", "breaker", "holder")) else OF_PLATES
    told = [short(rule) for rule in rules if found(rule, panel)]
    # What lacks a piece as well as being wrong is told both; what is wrong is what matters.
    return told[-1] if told else None


RIGHT = [(section["at"], str(text)) for section in SECTIONS for text in section["right"]]
WRONG = [(section["at"], str(text), told) for section in SECTIONS for text, told in section["wrong"].items()]


@pytest.mark.parametrize(("place", "text"), RIGHT, ids=str)
def test_of_a_right_text_nothing_is_said(place: str, text: str) -> None:
    assert said(place, text) is None


@pytest.mark.parametrize(("place", "text", "told"), WRONG, ids=str)
def test_of_a_wrong_text_it_is_said_what_is_wrong(place: str, text: str, told: object) -> None:
    assert said(place, text) == told


def test_there_are_sixty_of_each() -> None:
    assert len(set(RIGHT)) >= 60
    assert len({each[:2] for each in WRONG}) >= 60
