"""An emergency stop as ISO 13850 wants it seen: a red actuator on a yellow background, and no words on either."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from panelart.checks.colours import hue
from panelart.checks.findings import Bound, Observation
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Group, Solid, Survey, Thing, Words, reach
from panelart.diagnostics import Severity
from panelart.model.panel import Part

_CAUTION: Final = "emergency-stop"
RED: Final = 35.0
YELLOW: Final = 90.0
"""Middle hues, degrees in CIELAB: signal reds as screens show them lie from 29 to 40, signal yellows from 76 to 103."""


def is_emergency(part: Part) -> bool:
    """Whether a part is an emergency stop, by what the catalogue cautions of it."""
    return _CAUTION in part.component.cautions


@dataclass(frozen=True, slots=True, kw_only=True)
class _Coloured:
    """One of the two surfaces: in words, its colour ('' where it is not written), the thing itself if it is one."""

    words: str
    colour: str
    thing: Thing | None = None


def _stops(survey: Survey) -> Iterator[tuple[Part, Solid, _Coloured]]:
    """Every emergency stop, the actuator, and the background it stands against.

    The actuator is what stands out farthest. The background is a lower piece of the part that shows round it, else an
    area of ink that it stands on, else the face.
    """
    coloured = {(one.ref, one.what): one.colour for one in survey.layout.envelopes if one.colour}
    stops = [part for part in survey.panel.parts if is_emergency(part)]
    for part in stops:
        own = [solid for solid in survey.front if solid.owner == part.ref]
        if not own:
            continue
        actuator = max(own, key=lambda solid: solid.height)
        wider = [
            one
            for one in own
            if one is not actuator and one.height < actuator.height and one.ground.contains(actuator.ground)
        ]
        areas = [one for one in survey.scale_marks if one.mark.filled and one.ground.contains(actuator.ground)]
        if wider:
            behind = max(wider, key=lambda solid: solid.box.width)
            background = _Coloured(words=behind.words, colour=coloured.get((part.ref, behind.what), ""), thing=behind)
        elif areas:
            background = _Coloured(
                words=f"the area behind {part.ref}", colour=areas[-1].mark.ink.colour, thing=areas[-1]
            )
        else:
            background = _Coloured(words=f"the face behind {part.ref}", colour=survey.panel.coat.colour)
        yield part, actuator, background


@rule(
    Severity.WARNING,
    says="{subject} is {other}",
    fix="take an emergency stop with a red actuator on a yellow background, and write the colour of a part of your own",
)
def emergency_stop_miscoloured(survey: Survey) -> Iterator[Observation]:
    """The actuator of an emergency stop is not red, or what shows round it is not yellow.

    The hue in CIELAB is held against that of signal red and signal yellow; a colour of little chroma is a grey. What
    shows round the actuator is its own disc or plate, an area of ink it stands on (`art`), or the face. A part of your
    own says its colours: `front: [{what: mushroom, colour: "#B81F20", ...}]`; one that does not is asked for with a
    note. The span of hues is the program's; a colorimeter and ISO 3864-4 decide about a shade.

    Source: ISO 13850, recalled: the actuator is red, and the background, as far as there is one, yellow.
    Fix: another actuator, or a yellow disc or plate behind it.
    Fails: a black mushroom; a red one on a grey face without a disc.
    Passes: a red mushroom on a yellow disc.
    """
    coloured = {(one.ref, one.what): one.colour for one in survey.layout.envelopes if one.colour}
    off, chroma_minimum = survey.limits["emergency.hue.maximum"], survey.limits["emergency.chroma.minimum"]
    for part, actuator, background in _stops(survey):
        button = _Coloured(words=actuator.words, colour=coloured.get((part.ref, actuator.what), ""), thing=actuator)
        for surface, middle, wanted in ((button, RED, "red"), (background, YELLOW, "yellow")):
            if not surface.colour:
                yield Observation(
                    refs=(part.ref,),
                    place=actuator.box,
                    where=part.where,
                    subject=surface.words,
                    other=f"of a colour that is not written, and has to be {wanted}",
                    severity=Severity.NOTE,
                )
                continue
            angle, chroma = hue(surface.colour)
            away = abs((angle - middle + 180.0) % 360.0 - 180.0)
            pale = chroma < chroma_minimum.value - ROUNDING
            if pale or away > off.value + ROUNDING:
                yield Observation(
                    refs=(part.ref,),
                    place=actuator.box,
                    where=part.where,
                    subject=surface.words,
                    other=f"{surface.colour}, which is not {wanted}",
                    measured=chroma if pale else away,
                    limit=chroma_minimum if pale else off,
                    bound=Bound.MINIMUM if pale else Bound.MAXIMUM,
                )


@rule(
    Severity.WARNING,
    says="{subject} stands on {other}, which carries no words",
    fix="set it outside the background, or leave it out: red on yellow says what it is",
)
def emergency_stop_lettered(survey: Survey) -> Iterator[Observation]:
    """Words or a symbol stand on the background of an emergency stop.

    That is the yellow area of ink the stop stands on, or a plate of its own that does not hide the face; what lies
    under its disc is told by legend-under-part.

    Source: ISO 13850, recalled: neither actuator nor background is labelled with text or symbols.
    Fix: set the words outside.
    Fails: STOP lettered into the yellow area; words that reach 0.001 mm into it.
    Passes: the same words outside it.
    """
    limit = survey.limits["covered.maximum"]
    for part, _, background in _stops(survey):
        ground = background.thing
        if ground is None or (isinstance(ground, Solid) and ground.hides):
            continue
        near: list[tuple[Words, Thing]] = list(survey.words.near(Group((ground,))))
        for words, _ in near:
            deep = reach(words, ground)
            if deep > limit.value + ROUNDING:
                yield Observation(
                    refs=(words.owner, part.ref),
                    place=words.box,
                    where=words.where,
                    subject=f'"{words.text}"',
                    other=background.words,
                    measured=deep,
                    limit=limit,
                    bound=Bound.MAXIMUM,
                )
