"""An emergency stop to ISO 13850: a red actuator on a yellow background, and no text on either."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from panelart.canonical import Struct
from panelart.checks.colours import hue
from panelart.checks.findings import Bound, Observation
from panelart.checks.mends import moved_texts, other_sides
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Group, Solid, Survey, Thing, Words, reach
from panelart.diagnostics import Severity
from panelart.lettering.cuts import is_symbols
from panelart.messages import Said
from panelart.messages import checks as said
from panelart.messages import checks_things as things
from panelart.model.circuit import SafetyFunction
from panelart.model.panel import Part

_CAUTION: Final = "emergency-stop"
RED: Final = 35.0
YELLOW: Final = 90.0
"""Middle hues, degrees in CIELAB: signal reds as screens show them lie from 29 to 40, signal yellows from 76 to 103."""


def is_emergency(part: Part) -> bool:
    """Whether a part is an emergency stop: by the safety function of its circuit, or by what is cautioned of it."""
    circuit = part.component.circuit
    by_function = circuit is not None and circuit.safety is SafetyFunction.EMERGENCY_STOP
    return by_function or _CAUTION in part.component.cautions


class _Coloured(Struct, frozen=True, kw_only=True):
    """One of the two surfaces: its name, its colour ('' where it is not written), the thing itself if it is one."""

    words: Said
    colour: str
    thing: Thing | None = None


def _stops(survey: Survey) -> Iterator[tuple[Part, Solid, _Coloured]]:
    """Every emergency stop, its actuator, and the background of the actuator.

    The actuator is what projects farthest. The background is a lower piece of the part that shows round it, else an
    area of ink behind it, else the face.
    """
    coloured = {(one.ref, one.what): one.colour for one in survey.layout.envelopes if one.colour}
    stops = [part for part in survey.panel.parts if is_emergency(part)]
    for part in stops:
        own = [solid for solid in survey.front if solid.owner == part.ref]
        if not own:
            continue
        actuator = max(own, key=lambda solid: solid.height)
        behind = _widest_behind(actuator, own)
        if behind is not None:
            colour = coloured.get((part.ref, behind.what), "")
            yield part, actuator, _Coloured(words=behind.words, colour=colour, thing=behind)
        else:
            yield part, actuator, _of_face(survey, part, actuator)


def _widest_behind(actuator: Solid, own: list[Solid]) -> Solid | None:
    """The widest of the lower pieces of a part that show all round its actuator."""
    behind = (
        one
        for one in own
        if one is not actuator and one.height < actuator.height and one.ground.contains(actuator.ground)
    )
    return max(behind, key=lambda solid: solid.box.width, default=None)


def _of_face(survey: Survey, part: Part, actuator: Solid) -> _Coloured:
    """The uppermost area of ink behind an actuator, else the face."""
    areas = [one for one in survey.scale_marks if one.mark.filled and one.ground.contains(actuator.ground)]
    if not areas:
        return _Coloured(words=things.face_behind(ref=part.ref), colour=survey.panel.coat.colour)
    return _Coloured(words=things.area_behind(ref=part.ref), colour=areas[-1].mark.ink.colour, thing=areas[-1])


@rule(
    Severity.WARNING,
    says="{subject}: {other}",
    fix="Choose an emergency stop with a red actuator on a yellow background, or give the colours in "
    "your own part file.",
    limits=("emergency.chroma.minimum", "emergency.hue.maximum"),
)
def emergency_stop_miscoloured(survey: Survey) -> Iterator[Observation]:
    """The actuator of an emergency stop is not red, or its visible background is not yellow.

    The hue in CIELAB is compared with that of signal red and signal yellow; a colour of little chroma counts as grey.
    The background is the part's own disc or plate, an area of ink behind it (`art`), or the face. Your own part gives
    its colours as `front: [{what: mushroom, colour: "#B81F20", ...}]`; a part without colours gets a note. The
    permitted range of hues is that of the program; a colorimeter and ISO 3864-4 decide about a shade.

    Source: ISO 13850 (from memory): the actuator is red, and the background, where there is one, yellow.
    Fix: another actuator, or a yellow disc or plate behind it.
    Fails: a black mushroom; a red mushroom on a grey face without a disc.
    Passes: a red mushroom on a yellow disc.
    """
    coloured = {(one.ref, one.what): one.colour for one in survey.layout.envelopes if one.colour}
    off, chroma_minimum = survey.limits["emergency.hue.maximum"], survey.limits["emergency.chroma.minimum"]
    for part, actuator, background in _stops(survey):
        button = _Coloured(words=actuator.words, colour=coloured.get((part.ref, actuator.what), ""), thing=actuator)
        for surface, middle, wanted in ((button, RED, said.red()), (background, YELLOW, said.yellow())):
            if not surface.colour:
                yield Observation(
                    refs=(part.ref,),
                    place=actuator.box,
                    where=part.where,
                    subject=surface.words,
                    other=said.colour_missing(colour=wanted),
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
                    other=said.colour_wrong(found=surface.colour, colour=wanted),
                    measured=chroma if pale else away,
                    limit=chroma_minimum if pale else off,
                    bound=Bound.MINIMUM if pale else Bound.MAXIMUM,
                )


emergency_stop_miscoloured.cases(
    """
    parts:
      - ref: S1
        part:
          title: Emergency stop
          cautions: [emergency-stop]
          openings: [{role: body, circle: {diameter: 22.3}}]
          front:
            - {what: disc, circle: {diameter: 60}, projection: 2, colour: "#F9A800"}
            - {what: mushroom, circle: {diameter: 40}, projection: 30, colour: "__"}
        at: [60, 50]
    """,
    fails="#202020",
    passes="#B81F20",
)


def _is_own_symbol(words: Words) -> bool:
    """Whether it is the symbol of the emergency stop, which may stand on the background."""
    return is_symbols(words.legend.font) and words.text == _CAUTION


@rule(
    Severity.WARNING,
    says="{subject}: printed on the background of emergency stop {other}",
    fix="Move the legend off the background, or remove the legend.",
    limits=("covered.maximum",),
    mends=(other_sides, moved_texts),
)
def emergency_stop_lettered(survey: Survey) -> Iterator[Observation]:
    """A text or symbol is on the background of an emergency stop.

    The background is the yellow area of ink behind the stop, or a plate of its own that does not hide the face; what
    lies under its disc is reported by legend-under-part. The symbol `emergency-stop` is exempt: it is the one that the
    standard names for where a symbol is needed for clarity.

    Source: ISO 13850:2015, 4.3.7 (as quoted elsewhere): neither actuator nor background should be labelled with text
    or symbols; where a symbol is needed for clarification, IEC 60417-5638 is used. Local codes and licensed practice
    decide.
    Fix: move the text outside.
    Fails: STOP printed in the yellow area; text that extends 0.001 mm into it.
    Passes: the same text outside it.
    """
    limit = survey.limits["covered.maximum"]
    for part, _, background in _stops(survey):
        ground = background.thing
        if ground is None or (isinstance(ground, Solid) and ground.hides):
            continue
        near: list[tuple[Words, Thing]] = list(survey.words.near(Group((ground,))))
        for words, _ in near:
            deep = reach(words, ground)
            if deep > limit.value + ROUNDING and not _is_own_symbol(words):
                yield Observation(
                    refs=(words.owner, part.ref),
                    place=words.box,
                    where=words.where,
                    subject=survey.named([words]),
                    other=background.words,
                    measured=deep,
                    limit=limit,
                    bound=Bound.MAXIMUM,
                )


emergency_stop_lettered.cases(
    """
    marking: {inks: [{name: black, colour: "#000000"}, {name: yellow, colour: "#F9A800"}]}
    parts:
      - ref: S1
        part:
          title: Emergency stop
          cautions: [emergency-stop]
          openings: [{role: body, circle: {diameter: 22.3}}]
          front:
            - {what: plate, circle: {diameter: 70}, projection: 2, colour: "#F9A800", covers: false}
            - {what: mushroom, circle: {diameter: 40}, projection: 30, colour: "#B81F20"}
        at: [60, 50]
    texts: [{text: STOP, at: [60, __], anchor: centre, style: name}]
    """,
    fails="18",
    passes="5",
)
