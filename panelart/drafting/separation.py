"""What parts need of each other, and of the edge, wherever they stand: what a move must keep.

Two parts keep their distances as long as the step from one to the other stays out of some convex areas, one for each
thing that the two must not do: share ground, leave a thin web, hem a finger in. An area is the sum of one outer form,
the other one turned about, and a disc of the room due between them. What holds of hollow forms and of legends is asked
of the rules afterwards (`drafting.nudging`).
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cached_property
from typing import Final, TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray

from panelart.canonical import Struct
from panelart.checks.bodies import Body, body_of, outward
from panelart.checks.clearances import control_kind
from panelart.checks.emergency import is_emergency
from panelart.checks.limits import Limits
from panelart.cutouts import cut, cut_outline, stand
from panelart.cutouts.envelopes import gripped
from panelart.drafting.blocks import Fixing, fixing_of
from panelart.geometry import Box, Contour, Point, Vector, rectangle
from panelart.geometry.polygons import polygon
from panelart.model.component import EnvelopeRole
from panelart.model.layout import FACE, PlacedEnvelope
from panelart.model.metal import Edge as FaceEdge
from panelart.model.panel import Hand, Panel, Part, Side

Numbers: TypeAlias = NDArray[np.float64]

ROUND_WAYS: Final = 32
"""Directions in which a round area is held; it then counts for up to half a percent larger than it is."""

_LOW: Final = 1.0
"""What is no higher than this is cleared by a box spanner, mm, as `nut-without-room-for-spanner` has it."""

_ALIKE: Final = 1e-6


class Area(Struct, frozen=True, eq=False):
    """A convex area that steps from one part to another stay out of: `ways` of length 1, how far it `reaches` in each.

    `within` are corners of an area that lies inside it, by which a solution's bound is found.
    """

    ways: Numbers
    reaches: Numbers
    within: Numbers

    def depth(self, step: Numbers) -> float:
        """How far a step is inside, in mm; negative: how far it is outside at least."""
        return float((self.reaches - self.ways @ step).min())

    def grown(self, by: float) -> Area:
        """The area with so much more room round it."""
        return Area(self.ways, self.reaches + by, self.within)

    def holds(self, other: Area) -> bool:
        """Whether another area lies inside this one."""
        reached = (corners_of(other) @ self.ways.T).max(axis=0)
        return bool((reached <= self.reaches + _ALIKE).all())

    @property
    def inner(self) -> Area:
        """The area with straight sides that lies inside it."""
        hull = Body(shapely.convex_hull(shapely.MultiPoint(self.within)))
        ways = outward(hull)
        return Area(ways, hull.reach(ways), self.within) if len(ways) > 2 else self


def corners_of(area: Area) -> Numbers:
    """Where the lines that hold an area meet, in their order."""
    order = np.argsort(np.arctan2(area.ways[:, 1], area.ways[:, 0]), kind="stable")
    ways, reaches = area.ways[order], area.reaches[order]
    after, more = np.roll(ways, -1, axis=0), np.roll(reaches, -1)
    turn = ways[:, 0] * after[:, 1] - ways[:, 1] * after[:, 0]
    corners: Numbers = np.column_stack(
        [(reaches * after[:, 1] - more * ways[:, 1]) / turn, (ways[:, 0] * more - after[:, 0] * reaches) / turn]
    )
    return corners


def _ways_round(count: int) -> Numbers:
    angles = [2.0 * math.pi * number / count for number in range(count)]
    return np.array([(round(math.cos(angle), 12), round(math.sin(angle), 12)) for angle in angles])


def area_between(one: Body, two: Body, room: float) -> Area:
    """The steps from the one's part to the two's at which the forms are less than `room` mm apart.

    The forms are told from the centres of their parts.
    """
    radius = one.radius + two.radius + room
    square = np.concatenate([outward(one), -outward(two)])
    if radius > 0.0 or len(square) > ROUND_WAYS:
        even = _ways_round(ROUND_WAYS)
        square = np.concatenate([even, square]) if len(square) <= ROUND_WAYS else even
    ways = _distinct(square)
    reaches = one.reach(ways) + two.reach(-ways) + room
    touching = [
        one.corners[(one.corners @ way).argmax()] - two.corners[(two.corners @ way).argmin()] + way * radius
        for way in ways
    ]
    return Area(ways, reaches, np.array(touching))


def _distinct(ways: Numbers) -> Numbers:
    """The directions in their order, each once."""
    order = np.argsort(np.arctan2(ways[:, 1], ways[:, 0]), kind="stable")
    kept: list[Numbers] = []
    for way in ways[order]:
        if not kept or float(way @ kept[-1]) < 1.0 - 1e-9:
            kept.append(way)
    if len(kept) > 1 and float(kept[0] @ kept[-1]) >= 1.0 - 1e-9:
        kept.pop()
    return np.array(kept)


def box_area(one: Box, two: Box, room: float) -> Area:
    """The same of two boxes that are `room` mm apart along one axis at least, as legends and pitches are."""
    ways = np.array([(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)])
    reaches = np.array(
        [
            one.right - two.left + room,
            one.top - two.bottom + room,
            two.right - one.left + room,
            two.top - one.bottom + room,
        ]
    )
    area = Area(ways, reaches, np.empty((0, 2)))
    return Area(ways, reaches, corners_of(area))


def _about(across: float, up: float) -> Area:
    """The steps of less than so many mm across and less than so many up."""
    box = rectangle(across, up).bounds
    return box_area(box, box, 0.0)


def _common(one: Area, two: Area) -> Area:
    """The area that two have in common."""
    hulls = (shapely.convex_hull(shapely.MultiPoint(corners_of(area))) for area in (one, two))
    common = Body(shapely.intersection(*hulls))
    ways = outward(common)
    return Area(ways, common.reach(ways), common.corners)


def _pitch_of(one: Taken, two: Taken) -> tuple[float, float] | None:
    """The minimum distance of two controls across and up, of unlike sizes the mean; None where one has none."""
    if one.pitch is None or two.pitch is None:
        return None
    return (one.pitch[0] + two.pitch[0]) / 2, (one.pitch[1] + two.pitch[1]) / 2


# --- what a part takes


class Taken(Struct, frozen=True, eq=False, kw_only=True):
    """What one part takes, from its centre: in front and what covers the face, behind, its openings.

    `cuts` are these as they are cut, `openings` as they are in the end; `hands` is what the hand takes hold of,
    `standing` what a spanner meets; `breadth` how broad and how high the largest piece on the face is, in mm.
    """

    front: tuple[Body, ...]
    covers: tuple[Body, ...]
    rear: tuple[Body, ...]
    cuts: tuple[Body, ...]
    openings: tuple[Body, ...]
    hands: tuple[Body, ...]
    plugs: tuple[Body, ...]
    nuts: tuple[Body, ...]
    standing: tuple[Body, ...]
    kind: str | None
    stop: bool
    pitch: tuple[float, float] | None
    breadth: tuple[float, float]


class Field(Struct, frozen=True, eq=False, kw_only=True):
    """An area of the panel that parts keep out of, on the panel: on which sides, and what they keep out."""

    body: Body
    front: bool
    rear: bool


class Surroundings:
    """What the parts of a panel need of each other and of what is round them.

    Nothing here depends on where the parts stand, so that it holds while they are moved.
    """

    def __init__(self, panel: Panel, limits: Limits) -> None:
        self.panel = panel
        self.limits = limits
        self._taken = taken(panel)
        self._areas: dict[tuple[str, str], tuple[Area, ...]] = {}

    def of(self, ref: str) -> Taken:
        """What a part takes, from its centre."""
        return self._taken[ref]

    def between(self, one: str, two: str) -> tuple[Area, ...]:
        """The areas that the step from one part to another stays out of; none lies in another of them."""
        if (one, two) not in self._areas:
            self._areas[one, two] = outermost(list(self._kept_between(self._taken[one], self._taken[two])))
        return self._areas[one, two]

    def _kept_between(self, one: Taken, two: Taken) -> Iterator[Area]:
        web = self.limits["web.minimum"].value * self.panel.sheet.thickness
        yield from _each(one.cuts, two.cuts, web)
        yield from _each(one.front, two.front, 0.0)
        yield from _each(one.rear, two.rear, 0.0)
        yield from _each(one.openings, two.covers, 0.0)
        yield from _each(one.covers, two.openings, 0.0)
        spanner = self.limits["spanner.minimum"].value
        yield from _each(one.nuts, two.standing, spanner)
        yield from _each(one.standing, two.nuts, spanner)
        hand = self.panel.operator.hand
        if hand is not None:
            name = "plug.gloved.minimum" if hand is Hand.GLOVED else "plug.minimum"
            yield from _each(one.plugs, two.plugs, self.limits[name].value)
        yield from self._at_pitch(one, two)
        if one.kind is not None and two.kind is not None:
            room = self._for_hands(one, two)
            pitch = None if one.stop or two.stop else _pitch_of(one, two)
            for area in _each(one.hands, two.hands, room):
                yield area if pitch is None else _common(area, _about(*pitch))

    def _at_pitch(self, one: Taken, two: Taken) -> Iterator[Area]:
        """Two controls in one row keep the pitch of a row, or that of a column; in one column the same."""
        pitch = _pitch_of(one, two)
        if pitch is not None:
            across, up = (max(a, b) / 2 for a, b in zip(one.breadth, two.breadth, strict=True))
            yield _about(min(across, pitch[0]), pitch[1])
            yield _about(pitch[0], min(up, pitch[1]))

    def _for_hands(self, one: Taken, two: Taken) -> float:
        """The clearance between two controls, mm."""
        if one.stop or two.stop:
            return self.limits["emergency.minimum"].value
        room = self.limits["finger.minimum"].value
        hand = self.panel.operator.hand
        if hand is None:
            return room
        first, second = sorted((str(one.kind), str(two.kind)))
        room = max(room, self.limits[f"spacing.{first}.{second}.minimum"].value)
        return max(room, self.limits["glove.minimum"].value) if hand is Hand.GLOVED else room

    @cached_property
    def fields(self) -> tuple[Field, ...]:
        """The keep-outs."""
        return tuple(
            Field(
                body=body_of(keepout.contour),
                front=keepout.side is Side.FRONT,
                rear=keepout.side is Side.REAR,
            )
            for keepout in self.panel.keepouts
        )

    def out_of(self, ref: str, field: Field) -> tuple[Area, ...]:
        """The areas that the place of a part stays out of, for one of the fields."""
        own = self._taken[ref]
        things = (*(own.front if field.front else ()), *(own.rear if field.rear else ()), *own.openings)
        return outermost(list(_each((field.body,), things, 0.0)))

    @cached_property
    def _edges(self) -> tuple[tuple[Numbers, Numbers], tuple[Numbers, Numbers]]:
        """The outline and the edge of the metal: directions, and how far the face reaches in each."""
        return _held(self.panel.outline), _held(_metal(self.panel))

    def inside(self, ref: str) -> tuple[Numbers, Numbers]:
        """Directions, and how far the centre of a part may be in each, for it to keep from the edge.

        Exact where the outline is convex; the rules say what a notch takes. What stands at the edge by its standard has
        none.
        """
        if fixing_of(self.panel.by_ref[ref].component) is Fixing.STANDARD:
            return np.empty((0, 2)), np.empty(0)
        own = self._taken[ref]
        (around, reach), (metal, edge) = self._edges
        ways, most = [around, metal], []
        most.append(_inwards(around, reach, (*own.front, *own.rear), 0.0))
        room = self.limits["edge.minimum"].value * self.panel.sheet.thickness
        most.append(_inwards(metal, edge, own.cuts, room))
        known = [np.isfinite(one) for one in most]
        return (
            np.concatenate([one[here] for one, here in zip(ways, known, strict=True)]),
            np.concatenate([one[here] for one, here in zip(most, known, strict=True)]),
        )


_CORNER: Final = 0.05
"""How far inside the corners of an outline are taken, mm: a few straight lines for each."""


def _held(outline: Contour) -> tuple[Numbers, Numbers]:
    body = Body(shapely.convex_hull(polygon(outline, _CORNER, side="inside")))
    ways = outward(body)
    return ways, body.reach(ways)


def _metal(panel: Panel) -> Contour:
    """The edge of the metal as it is cut, far away on the side of a flange."""
    outline = cut_outline(panel)
    bent = {flange.edge for flange in panel.flanges}
    if not bent:
        return outline
    box = outline.bounds
    far = max(box.width, box.height)
    left, right = box.left - far * (FaceEdge.LEFT in bent), box.right + far * (FaceEdge.RIGHT in bent)
    bottom, top = box.bottom - far * (FaceEdge.BOTTOM in bent), box.top + far * (FaceEdge.TOP in bent)
    return rectangle(right - left, top - bottom, Point((left + right) / 2, (bottom + top) / 2))


def _inwards(ways: Numbers, reach: Numbers, bodies: Sequence[Body], room: float) -> Numbers:
    """How far a centre may be in each direction; infinite where nothing is to be kept inside."""
    found: Numbers = np.full(len(ways), np.inf)
    for body in bodies:
        found = np.minimum(found, reach - body.reach(ways) - room)
    return found


def _each(ones: Iterable[Body], twos: Sequence[Body], room: float) -> Iterator[Area]:
    return (area_between(one, two, room) for one in ones for two in twos)


def outermost(areas: Iterable[Area]) -> tuple[Area, ...]:
    """The areas that lie in no other one."""
    kept: list[Area] = []
    for area in sorted(areas, key=lambda area: -float(area.reaches.min())):
        if not any(other.holds(area) for other in kept):
            kept = [other for other in kept if not area.holds(other)]
            kept.append(area)
    return tuple(kept)


# --- parts as they are measured


def taken(panel: Panel) -> Mapping[str, Taken]:
    """What every part of a panel takes, from its centre."""
    envelopes: dict[str, list[PlacedEnvelope]] = defaultdict(list)
    for envelope in stand(panel):
        envelopes[envelope.ref].append(envelope)
    cuts: dict[str, list[tuple[Contour, Contour]]] = defaultdict(list)
    for opening in cut(panel):
        if opening.on == FACE:
            cuts[opening.ref].append((opening.cut, opening.finished))
    return {part.ref: _taken(part, envelopes[part.ref], cuts[part.ref]) for part in panel.parts}


def _taken(part: Part, envelopes: Sequence[PlacedEnvelope], cuts: Sequence[tuple[Contour, Contour]]) -> Taken:
    back = Vector(-part.at.x, -part.at.y)

    def contours(some: Iterable[Contour]) -> tuple[Body, ...]:
        return tuple(body_of(contour.moved(back)) for contour in some)

    def bodies(some: Iterable[PlacedEnvelope]) -> tuple[Body, ...]:
        return contours(one.contour for one in some)

    front = [one for one in envelopes if one.side is Side.FRONT]
    covers = [one for one in front if one.covers]
    kind = control_kind(part)
    hands = [] if kind is None else gripped(front) or covers
    rear = [one for one in envelopes if one.side is Side.REAR]
    lines, finished = zip(*cuts, strict=True) if cuts else ((), ())
    return Taken(
        front=bodies(front),
        covers=bodies(covers),
        rear=bodies(rear),
        cuts=contours(lines),
        openings=contours(finished),
        hands=bodies(hands),
        plugs=bodies(_in_role(front, EnvelopeRole.PLUG)),
        nuts=bodies(_in_role(covers, EnvelopeRole.NUT)),
        standing=bodies(_standing(covers)),
        kind=kind,
        stop=is_emergency(part),
        pitch=_pitch(part),
        breadth=_breadth(front, lines),
    )


def _in_role(envelopes: Iterable[PlacedEnvelope], role: EnvelopeRole) -> list[PlacedEnvelope]:
    return [one for one in envelopes if one.role is role]


def _standing(covers: Iterable[PlacedEnvelope]) -> list[PlacedEnvelope]:
    """What a box spanner meets: knobs are fitted last."""
    return [one for one in covers if one.what != "knob" and one.height > _LOW]


def _pitch(part: Part) -> tuple[float, float] | None:
    """The minimum pitch of a part across and up as it stands."""
    pitch = part.component.pitch
    if pitch is None:
        return None
    turned = round(part.turn / 90.0) % 2
    return pitch[turned].value, pitch[1 - turned].value


def _breadth(front: Sequence[PlacedEnvelope], cuts: Sequence[Contour]) -> tuple[float, float]:
    """How broad and how high the largest piece in front is, plugs left out; the largest opening where there is none."""
    boxes = [one.contour.bounds for one in front if one.role is not EnvelopeRole.PLUG]
    boxes = boxes or [contour.bounds for contour in cuts]
    return max((box.width for box in boxes), default=0.0), max((box.height for box in boxes), default=0.0)
