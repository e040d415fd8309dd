"""What the operator's hand needs: space between controls, round an emergency stop, between plugs, round a nut."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations
from typing import Final

import shapely
import shapely.affinity

from panelart.checks.emergency import is_emergency
from panelart.checks.findings import Observation
from panelart.checks.limits import Limit, limit_of_part
from panelart.checks.mends import moved_apart
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Group, Solid, Survey
from panelart.cutouts.envelopes import gripped
from panelart.diagnostics import Severity
from panelart.geometry import Box, Vector, direction
from panelart.geometry.measures import Gap, gap
from panelart.messages import checks_limits as of_limits
from panelart.model.component import EnvelopeRole
from panelart.model.motion import MotionKind
from panelart.model.panel import Hand, Part

_KEYS: Final = frozenset({"key-switch"})
_SELECTORS: Final = frozenset({"rotary", "rotary-snap", "selector"})
_NOT_WORKED: Final = frozenset({"cam-lock", "trimmer", "breaker"})
"""Turned or pushed with a key or a tool, or once a year: not operated by a finger in use."""

_LATCHES: Final = {"right": 0.0, "up": 90.0, "left": 180.0, "down": 270.0}
"""Which way a finger comes in, in degrees."""


def control_kind(part: Part) -> str | None:
    """The kind of control in the tables of spacing; None for what is not worked by hand."""
    component = part.component
    if component.family in _NOT_WORKED:
        return None
    match component.motion.kind:
        case MotionKind.LEVER:
            return "lever"
        case MotionKind.ROCKER | MotionKind.SLIDE:
            return "rocker"
        case MotionKind.PUSH:
            return "button"
        case MotionKind.TURN:
            if component.family in _KEYS:
                return "key"
            return "selector" if component.family in _SELECTORS else "knob"
        case _:
            return None


def _handled(survey: Survey) -> list[tuple[Solid, str]]:
    """What the hand takes hold of, with the kind of its control."""
    of: dict[str, list[Solid]] = {}
    for solid in survey.front:
        of.setdefault(solid.owner, []).append(solid)
    found: list[tuple[Solid, str]] = []
    for part in survey.panel.parts:
        kind = control_kind(part)
        if kind is not None:
            own = of.get(part.ref, [])
            found += [(solid, kind) for solid in gripped(own) or [solid for solid in own if solid.hides]]
    return found


def _emergency_stops(survey: Survey) -> set[str]:
    """The refs of all emergency stops."""
    return {part.ref for part in survey.panel.parts if is_emergency(part)}


def _nearest(pairs: Iterator[tuple[Solid, Solid]]) -> dict[tuple[str, str], tuple[Gap, Solid, Solid]]:
    """For each pair of owners whose things are apart, the narrowest place."""
    nearest: dict[tuple[str, str], tuple[Gap, Solid, Solid]] = {}
    met: set[tuple[str, str]] = set()
    for one, two in pairs:
        key = (one.owner, two.owner)
        if one.overlaps(two):
            met.add(key)  # a finding of its own
            continue
        between = gap(one.contour, two.contour)
        if key not in nearest or between.distance < nearest[key][0].distance:
            nearest[key] = (between, one, two)
    return {key: found for key, found in nearest.items() if key not in met}


def _narrow(found: tuple[Gap, Solid, Solid], limit: Limit) -> Observation:
    between, one, two = found
    return Observation(
        refs=(two.owner, one.owner),
        place=Box.around((between.here, between.there)),
        where=two.where,
        subject=two.words,
        other=one.words,
        measured=between.distance,
        limit=limit,
    )


@rule(
    Severity.WARNING,
    says="{subject}: clearance to {other} is {measured}; minimum {limit}",
    fix="Move the controls apart until the clearance is {limit}, or fit smaller knobs.",
    limits=("finger.minimum", "glove.minimum", "spacing.*"),
    mends=(moved_apart,),
)
def controls_too_close(survey: Survey) -> Iterator[Observation]:
    """Two controls are so close that a finger on one of them touches the other.

    Measured from edge to edge of what the hand takes hold of: knobs, levers through their travel, rockers, buttons.
    Space for a finger is always required. When the spec names the operator's hand (`operator: {hand: bare}` or
    `gloved`), the standards' tables by kind of control apply too, and for gloves the space for a gloved finger; the
    strictest limit that is missed is reported. Instruments are often closer than the tables, which are for controls
    that must not be mistaken without a look; that is why they apply only on request. Two controls of which the standard
    of their size states the minimum pitch, as of 22 mm push-buttons, may be as close as that.

    Source: MIL-STD-1472E, table VII; NUREG-0700 Rev. 3, table 11.5; limits from memory say so.
    Fix: move the controls apart.
    Fails: two knobs 5 mm apart; with `hand: bare`, a lever 18.9 mm from a knob.
    Passes: two knobs 6 mm apart; with `hand: bare`, a lever 19 mm from a knob.
    """
    handled = _handled(survey)
    kinds = {solid.owner: kind for solid, kind in handled}
    limits = _spacings_between(survey, sorted(set(kinds.values())))
    farthest = max((limit.value for found in limits.values() for limit in found), default=0.0)
    stops = _emergency_stops(survey)
    pairs = (
        (one, two)
        for one, two in Group(solid for solid, _ in handled).near_each_other(farthest)
        if one.owner != two.owner and stops.isdisjoint((one.owner, two.owner))
    )
    by_ref = survey.panel.by_ref
    for (first, second), found in _nearest(pairs).items():
        missed = _missed(limits[kinds[first], kinds[second]], found[0].distance)
        if missed is not None and not _at_own_pitch(by_ref[first], by_ref[second]):
            yield _narrow(found, missed)


controls_too_close.cases(
    """
    parts:
      - {ref: RV1, part: pot-m10, at: [40, 50], knob: {diameter: 24, height: 16}, legend: Gain}
      - {ref: RV2, part: pot-m10, at: [__, 50], knob: {diameter: 24, height: 16}, legend: Bias}
    """,
    fails="69",
    passes="70",
)
controls_too_close.cases(
    """
    operator: {hand: bare}
    parts:
      - {ref: RV1, part: pot-m10, at: [40, 50], knob: {diameter: 24, height: 16}, legend: Gain}
      - {ref: S1, part: toggle-12, at: [__, 50], legend: Load}
    """,
    fails="70",
    passes="90",
)
controls_too_close.cases(
    """
    operator: {hand: gloved}
    parts:
      - {ref: RV1, part: pot-m10, at: [40, 50], knob: {diameter: 24, height: 16}, legend: Gain}
      - {ref: RV2, part: pot-m10, at: [__, 50], knob: {diameter: 24, height: 16}, legend: Bias}
    """,
    fails="85",
    passes="110",
)


def _missed(limits: Iterable[Limit], distance: float) -> Limit | None:
    """The first of the limits that a distance does not keep."""
    return next((limit for limit in limits if distance < limit.value - ROUNDING), None)


def _pitch(one: Part, two: Part) -> tuple[float, float] | None:
    """The minimum distance of two parts across and up, half of each one's own; None where one of them has none."""
    first, second = one.component.pitch, two.component.pitch
    if first is None or second is None:
        return None
    across, up = ((a.value + b.value) / 2 for a, b in zip(first, second, strict=True))
    return across, up


def _apart(one: Part, two: Part) -> tuple[float, float]:
    """How far two parts are apart along the first one's own width and height."""
    way = Vector(two.at.x - one.at.x, two.at.y - one.at.y).turned(-one.turn)
    return abs(way.x), abs(way.y)


def _at_own_pitch(one: Part, two: Part) -> bool:
    """Whether two controls are as far apart as the standard of their size asks."""
    pitch = _pitch(one, two)
    return pitch is not None and any(
        apart >= least - ROUNDING for apart, least in zip(_apart(one, two), pitch, strict=True)
    )


@rule(
    Severity.WARNING,
    says="{subject}: distance to {other} along the row or column is {measured} between centres; minimum {limit}",
    fix="Move the controls apart until the distance is {limit}, or waive this with the pitch of the part's data sheet.",
    mends=(moved_apart,),
)
def pitch_too_small(survey: Survey) -> Iterator[Observation]:
    """Two controls are closer than the minimum pitch of their size, so that their bodies or legend plates do not fit.

    Each size has a minimum pitch in a row and one in a column. Two controls pass when they keep either of them; of two
    unlike sizes the mean counts. Only controls that share a row or a column are compared: the middle of one lies above,
    below or beside the front of the other.

    Source: IEC 60947-5-1, minimum distances between the centres of mounting holes; the part's catalogue entry.
    Fix: move the controls apart.
    Fails: two 22 mm push-buttons 29.9 mm apart in a row.
    Passes: the same 30 mm apart.
    """
    for one, two in _pitched(survey):
        pitch, apart = _pitch(one, two), _apart(one, two)
        if pitch is not None and max(apart) >= _SAME_PLACE and not _at_own_pitch(one, two):
            along = 0 if apart[0] / pitch[0] >= apart[1] / pitch[1] else 1
            if not _share_a_line(one, two, apart):
                continue
            yield _closer_than_pitch(survey, one, two, apart[along], pitch[along], along)


_SAME_PLACE: Final = 1.0
"""Millimetres below which two parts are one over the other, which is a finding of its own."""


def _share_a_line(one: Part, two: Part, apart: tuple[float, float]) -> bool:
    """Whether two parts are in one row or one column: the middle of one lies beside or above the front of the other."""
    across, up = (max(a, b) / 2 for a, b in zip(_front(one), _front(two), strict=True))
    return apart[0] < across - ROUNDING or apart[1] < up - ROUNDING


def _front(part: Part) -> tuple[float, float]:
    """The width and height of the largest piece of a part on the face, of its holes where it has none there."""
    pieces = [one.contour.bounds for one in part.component.front if one.role is not EnvelopeRole.PLUG]
    boxes = pieces or [one.contour.bounds for one in part.component.openings]
    return max((box.width for box in boxes), default=0.0), max((box.height for box in boxes), default=0.0)


def _pitched(survey: Survey) -> Iterator[tuple[Part, Part]]:
    """Every two parts with a pitch that are near enough for it to count."""
    pitches = [(part, part.component.pitch) for part in survey.panel.parts]
    known = [(part, pitch) for part, pitch in pitches if pitch is not None]
    far = max((max(across.value, up.value) for _, (across, up) in known), default=0.0)
    for one, two in combinations(sorted((part for part, _ in known), key=lambda part: part.at.x), 2):
        if two.at.x - one.at.x <= far:
            yield one, two


def _closer_than_pitch(survey: Survey, one: Part, two: Part, apart: float, least: float, along: int) -> Observation:
    figure = (one.component.pitch or ())[along]
    return Observation(
        refs=(two.ref, one.ref),
        place=Box.around((one.at, two.at)),
        where=two.where,
        subject=survey.part(two.ref),
        other=survey.part(one.ref),
        measured=apart,
        limit=limit_of_part(one.component.title, figure, of_limits.pitch_of_part(), least),
    )


pitch_too_small.cases(
    """
    parts:
      - {ref: S1, part: pushbutton-22, at: [40, 50], legend: Start}
      - {ref: S2, part: pushbutton-22, at: [__, 50], legend: Stop}
    """,
    fails="69.9",
    passes="70",
)


def _spacings_between(survey: Survey, kinds: Sequence[str]) -> dict[tuple[str, str], list[Limit]]:
    """The limits for every two of some kinds of control, either way round."""
    hand = survey.panel.operator.hand
    return {(one, two): _spacings(survey, one, two, hand) for one in kinds for two in kinds}


def _spacings(survey: Survey, one: str, two: str, hand: Hand | None) -> list[Limit]:
    """The limits for two kinds of control, the strictest first."""
    found = [survey.limits["finger.minimum"]]
    if hand is not None:
        first, second = sorted((one, two))
        found.append(survey.limits[f"spacing.{first}.{second}.minimum"])
    if hand is Hand.GLOVED:
        found.append(survey.limits["glove.minimum"])
    return sorted(found, key=lambda limit: -limit.value)


@rule(
    Severity.WARNING,
    says="{subject}: clearance to emergency stop {other} is {measured}; minimum {limit}",
    fix="Move the control away from the emergency stop until the clearance is {limit}.",
    limits=("emergency.minimum",),
    mends=(moved_apart,),
)
def emergency_stop_crowded(survey: Survey) -> Iterator[Observation]:
    """Another control is so close to an emergency stop that the palm may hit the other control first.

    Source: MIL-STD-1472F, buttons for thumb or palm (from memory); ISO 13850 requires easy access and operation.
    Fix: move the other control away.
    Fails: a lever 24 mm from the mushroom head.
    Passes: a lever 25 mm from it.
    """
    limit = survey.limits["emergency.minimum"]
    handled = Group(solid for solid, _ in _handled(survey))
    stops = _emergency_stops(survey)
    if not stops:
        return
    pairs = (
        (one, two) if one.owner in stops else (two, one)
        for one, two in handled.near_each_other(limit.value)
        if one.owner != two.owner and (one.owner in stops or two.owner in stops)
    )
    for found in _nearest(pairs).values():
        if found[0].distance < limit.value - ROUNDING:
            yield _narrow(found, limit)


emergency_stop_crowded.cases(
    """
    parts:
      - {ref: S1, part: emergency-stop-22, at: [40, 50]}
      - {ref: RV1, part: pot-m10, at: [__, 50], knob: {diameter: 24, height: 16}, legend: Gain}
    """,
    fails="96",
    passes="97",
)


@rule(
    Severity.WARNING,
    says="{subject}: clearance to {other} is {measured}; minimum {limit}",
    fix="Move the connectors apart until the clearance is {limit}.",
    limits=("plug.gloved.minimum", "plug.minimum"),
    mends=(moved_apart,),
)
def plugs_too_close(survey: Survey) -> Iterator[Observation]:
    """Two mating plugs are so close that fingers do not fit between them.

    Checked only when the spec names the operator's hand; rows of laboratory sockets are closer by custom. Plugs that
    overlap are reported by parts-collide.

    Source: MIL-STD-1472, connectors: 25 mm for bare fingers, 32 mm for gloves (from memory).
    Fix: move the connectors apart.
    Fails: with `hand: bare`, two plugs 24 mm apart.
    Passes: with `hand: bare`, two plugs 25 mm apart.
    """
    hand = survey.panel.operator.hand
    if hand is None:
        return
    limit = survey.limits["plug.gloved.minimum" if hand is Hand.GLOVED else "plug.minimum"]
    plugs = Group(solid for solid in survey.front if solid.role is EnvelopeRole.PLUG)
    pairs = ((one, two) for one, two in plugs.near_each_other(limit.value) if one.owner != two.owner)
    for found in _nearest(pairs).values():
        if found[0].distance < limit.value - ROUNDING:
            yield _narrow(found, limit)


plugs_too_close.cases(
    """
    operator: {hand: bare}
    parts:
      - {ref: J1, part: bnc, at: [40, 50], legend: In}
      - {ref: J2, part: bnc, at: [__, 50], legend: Out}
    """,
    fails="70",
    passes="90",
)
plugs_too_close.cases(
    """
    operator: {hand: gloved}
    parts:
      - {ref: J1, part: bnc, at: [40, 50], legend: In}
      - {ref: J2, part: bnc, at: [__, 50], legend: Out}
    """,
    fails="80",
    passes="100",
)


@rule(
    Severity.WARNING,
    says="{subject}: clearance from the latch to {other} is {measured}; minimum {limit}",
    fix="Move the parts apart until the clearance is {limit}, or turn the connector by 180 degrees.",
    limits=("latch.minimum", "latch.obstacle.minimum"),
    mends=(moved_apart,),
)
def latch_without_room(survey: Survey) -> Iterator[Observation]:
    """The latch of a mated plug cannot be pressed, because a part is where the finger goes.

    Checked on the side of the plug where its catalogue entry places the latch (`latch: up`), as wide as the plug. Low
    parts, such as flanges and bezels, do not obstruct the finger.

    Source: common practice (from memory); a fingertip is about 8 mm thick.
    Fix: move the parts apart.
    Fails: a knob 7.9 mm above a plug that is released from above.
    Passes: the same knob 8 mm above it.
    """
    limit, low = survey.limits["latch.minimum"], survey.limits["latch.obstacle.minimum"]
    latched = {part.ref: part for part in survey.panel.parts if part.component.latch}
    if not latched:
        return
    high = Group(solid for solid in survey.front if solid.height > low.value)
    plugs = Group(solid for solid in high if solid.owner in latched and solid.role is EnvelopeRole.PLUG)
    # A little farther than the limit, so that what just reaches into the room is met.
    far = limit.value + 1.0
    nearest: dict[str, tuple[float, Solid, Solid]] = {}
    for other, plug in high.near(plugs, far):
        left = _left_for_finger(latched[plug.owner], plug, other, far)
        if left < nearest.get(plug.owner, (limit.value - ROUNDING,))[0]:
            nearest[plug.owner] = (left, plug, other)
    for ref, (left, plug, other) in nearest.items():
        yield Observation(
            refs=(ref, other.owner),
            place=Box.around((plug.box.centre, other.box.centre)),
            where=plug.where,
            subject=survey.part(ref),
            other=other.words,
            measured=left,
            limit=limit,
        )


latch_without_room.cases(
    """
    parts:
      - {ref: J1, part: xlr, at: [60, 40], legend: {text: Mic, place: left}}
      - {ref: RV1, part: pot-m10, at: [60, __], knob: {diameter: 24, height: 16}, legend: Gain}
    """,
    fails="68",
    passes="80",
)


def _left_for_finger(part: Part, plug: Solid, other: Solid, far: float) -> float:
    """How far the finger that presses the latch of a plug can come in beside another part; infinite where it is free.

    What overlaps the plug is a finding of its own.
    """
    if other.owner == plug.owner or other.overlaps(plug):
        return math.inf
    way = direction(_LATCHES[part.component.latch] + part.turn).scaled(far)
    pressed = shapely.affinity.translate(plug.ground, way.x, way.y)
    within = shapely.intersection(shapely.union(plug.ground, pressed).convex_hull, other.ground)
    return float(shapely.distance(plug.ground, within)) if within.area > 0.0 else math.inf


@rule(
    Severity.WARNING,
    says="{subject}: clearance to {other} is {measured}; minimum {limit} for a box spanner",
    fix="Move the parts apart until the clearance is {limit}, or tighten the part from behind.",
    limits=("spanner.minimum",),
    mends=(moved_apart,),
)
def nut_without_room_for_spanner(survey: Survey) -> Iterator[Observation]:
    """A nut in front cannot be reached with a box spanner, because another part is too close.

    Knobs do not count, since they are fitted last; nor does anything lower than a millimetre, which the spanner clears.

    Source: common practice; the wall of a thin box spanner is about 2 mm.
    Fix: move the parts apart.
    Fails: a nut 1.9 mm from a bezel.
    Passes: a nut 2 mm from a bezel.
    """
    limit = survey.limits["spanner.minimum"]
    standing = Group(solid for solid in survey.covers if solid.what != "knob" and solid.height > 1.0)
    pairs = (
        (two, one) if one.role is EnvelopeRole.NUT else (one, two)
        for one, two in standing.near_each_other(limit.value)
        if one.owner != two.owner and EnvelopeRole.NUT in (one.role, two.role)
    )
    for found in _nearest(pairs).values():
        if found[0].distance < limit.value - ROUNDING:
            yield _narrow(found, limit)


nut_without_room_for_spanner.cases(
    """
    parts:
      - {ref: S1, part: toggle-12, at: [40, 50], legend: Load}
      - ref: H1
        part:
          title: Plate
          openings: [{role: body, circle: {diameter: 6}}]
          front: [{what: bezel, rectangle: {width: 20, height: 20}, projection: 4}]
        at: [__, 50]
    """,
    fails="59.5",
    passes="65",
)
