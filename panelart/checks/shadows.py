"""What the hardware hides from an eye that does not look straight at the face: the exact projection.

From an eye at height z over the face, a point at height h over (x, y) hides the place that lies z / (z - h) times as
far from the foot of the eye. What a straight-sided body hides is its foot, its top so projected, and all between:
for each side of its outline the four-cornered piece from foot to projected top. Circles become polygons that stray at
most CHORD_TOLERANCE. Levers lean: each is a round bar from its middle to its tip, taken at each of its positions, and
counted at the one that hides most; so is the cap of a slide control, anywhere on its way.

Two eyes see past a body on both its sides: what one of them sees is not hidden. Ink is hidden where it lies in the
shadows from both, be it of one body or of two.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from typing import Final, NamedTuple

import numpy as np
import shapely

from panelart.canonical import Struct
from panelart.checks.bodies import Numbers
from panelart.checks.survey import Ink, Solid, Survey
from panelart.geometry import Box, Point, Vector, circle, rectangle
from panelart.geometry.polygons import polygon
from panelart.messages import Message, Said
from panelart.messages import checks_things as things
from panelart.model.component import Envelope, EnvelopeRole
from panelart.model.panel import EyeRange, Panel, Part

"""How the catalogue's names begin for what is plugged in when the panel is used."""

_TRAVEL: Final = " travel"
"""How its name ends for what a cap or a button sweeps."""

_NEAREST: Final = 0.9
"""Bodies that reach nearer to the eye than this share of its height are taken as that high."""

STEPS: Final = 5
"""A range of eye positions is looked at from so many places each way, ends included; worst_eye looks between them."""

_MIN_AREA: Final = 1e-9
"""Square millimetres that come from arithmetic and not from a body."""


_NOT_ASIDE: Final = 0.5
"""Nearer to the middle line than this, in mm, an eye is straight above or below the middle."""

_ASIDE: Final = {
    (True, True): things.eye_above_right,
    (True, False): things.eye_above_left,
    (False, True): things.eye_below_right,
    (False, False): things.eye_below_left,
}


class Eye(NamedTuple):
    """An eye over the face: its foot (x, y) in panel coordinates and its height z over the face, in mm."""

    x: float
    y: float
    z: float


class Look(Struct, frozen=True, kw_only=True):
    """One place to look from: where it is as the operator has it, and where that is over the face.

    `height` is above and `aside` right of the middle of the panel, in mm. `eye` is midway between two eyes that are
    `apart`, mm; with 0 it is the only one.
    """

    height: float
    aside: float
    eye: Eye
    apart: float = 0.0

    @property
    def eyes(self) -> tuple[Eye, ...]:
        """The eyes that look, left before right. The panel leans about a level line, so that both are equally far."""
        if self.apart <= 0.0:
            return (self.eye,)
        half = self.apart / 2.0
        return (self.eye._replace(x=self.eye.x - half), self.eye._replace(x=self.eye.x + half))

    @property
    def words(self) -> Message:
        """The place as sentences name it, to the millimetre."""
        height, aside = float(round(abs(self.height))), float(round(abs(self.aside)))
        above, right = self.height >= 0, self.aside > 0
        if abs(self.aside) < _NOT_ASIDE:
            return things.eye_above(height=height) if above else things.eye_below(height=height)
        return _ASIDE[above, right](height=height, aside=aside)

    def __str__(self) -> str:
        return str(self.words)


class Caster(Struct, frozen=True, kw_only=True):
    """A body that hides. Each of its `states` is a foot and a top of like corners, `height` mm apart."""

    owner: str
    words: Said
    height: float
    states: tuple[tuple[Numbers, Numbers], ...]
    convex: bool

    def shadows(self, eye: Eye) -> tuple[shapely.Geometry, ...]:
        """What the body hides of the face, for each of its states."""
        reach = min(self.height, _NEAREST * eye.z)
        stretch = eye.z / (eye.z - reach)
        foot_of_eye = np.array([eye.x, eye.y])
        # A body cut off below the eye keeps its foot; a leaning one is cut off on its way to the tip.
        share = reach / self.height if self.height > 0.0 else 0.0
        return tuple(
            self._between(foot, foot_of_eye + (foot + (top - foot) * share - foot_of_eye) * stretch)
            for foot, top in self.states
        )

    def top(self, eye: Eye) -> shapely.Geometry:
        """What its top hides of the face in its first state, as far as it is below the eye."""
        foot, top = self.states[0]
        reach = min(self.height, _NEAREST * eye.z)
        share = reach / self.height if self.height > 0.0 else 0.0
        foot_of_eye = np.array([eye.x, eye.y])
        return shapely.Polygon(foot_of_eye + (foot + (top - foot) * share - foot_of_eye) * eye.z / (eye.z - reach))

    def _between(self, foot: Numbers, top: Numbers) -> shapely.Geometry:
        if self.convex:
            return shapely.convex_hull(shapely.MultiPoint(np.concatenate([foot, top])))
        onward = np.roll(foot, -1, axis=0), np.roll(top, -1, axis=0)
        sides = [shapely.convex_hull(shapely.MultiPoint(corners)) for corners in np.stack([foot, top, *onward], axis=1)]
        return shapely.union_all([shapely.Polygon(foot), shapely.Polygon(top), *sides])


class Shade(NamedTuple):
    """A body with its shadows: for each of its states, from each eye."""

    body: Caster
    states: tuple[tuple[shapely.Geometry, ...], ...]


class HiddenInk(Struct, frozen=True, kw_only=True):
    """A letter or mark, or a piece of one, that is hidden at worst: its share, from where, and by which bodies.

    `number` is that of the piece among those of its ink; `bodies` are named, the one that hides most first.
    """

    ink: Ink
    number: int
    piece: shapely.Geometry
    share: float
    look: Look
    bodies: tuple[Said, ...]
    owners: tuple[str, ...]

    @property
    def by(self) -> tuple[str, ...]:
        """The names of the bodies, in the language that is spoken."""
        return tuple(str(body) for body in self.bodies)


class InkPiece(NamedTuple):
    """A letter or mark, or one of the pieces that it is made of, by its number."""

    ink: Ink
    number: int
    ground: shapely.Geometry


def ink_pieces(survey: Survey, but: Collection[int]) -> list[InkPiece]:
    """Every piece of ink in the order of the legends; `but` holds the id of legends that are left out."""
    return [
        InkPiece(ink, number, piece)
        for ink in survey.legends
        if id(ink) not in but
        for number, piece in enumerate(shapely.get_parts(ink.ground))
    ]


def hidden_piece(piece: InkPiece, share: float, look: Look, by: Sequence[Caster]) -> HiddenInk:
    """A piece of ink with what hides it from one place, most first."""
    return HiddenInk(
        ink=piece.ink,
        number=piece.number,
        piece=piece.ground,
        share=min(share, 1.0),
        look=look,
        bodies=tuple(body.words for body in by),
        owners=tuple(dict.fromkeys(body.owner for body in by)),
    )


def looks(panel: Panel, seen: EyeRange) -> tuple[Look, ...]:
    """The places of a range that are looked from, lowest and leftmost first.

    The panel leans about its middle. Raises ValueError when an eye would be behind the face; the spec's reader lets
    none through.
    """
    return tuple(
        look_from(panel, seen, height, aside) for height in _steps(seen.height) for aside in _steps(seen.aside)
    )


def look_from(panel: Panel, seen: EyeRange, height: float, aside: float) -> Look:
    """One place to look from, by where it is as the operator has it. Raises ValueError as looks does."""
    middle = panel.outline.bounds.centre
    lean = np.radians(seen.lean_deg)
    z = seen.off_the_face(height)
    if z <= 0.0:
        raise ValueError(f"an eye {height:g} mm above the middle of the panel would be behind its face")
    up = float(height * np.cos(lean) - seen.distance * np.sin(lean))
    return Look(height=height, aside=aside, eye=Eye(middle.x + aside, middle.y + up, z), apart=seen.apart)


def _steps(ends: tuple[float, float]) -> list[float]:
    low, high = ends
    return [low] if low == high else [float(step) for step in np.linspace(low, high, STEPS)]


def casters(survey: Survey) -> tuple[Caster, ...]:
    """Everything that hides: covers, mating plugs, and levers at each of their positions."""
    found: list[Caster] = []
    for solid in survey.front:
        if solid.height <= 0.0:
            continue
        if solid.hides or solid.role is EnvelopeRole.PLUG:
            found.append(_upright(solid))
    for part in survey.panel.parts:
        for envelope in part.component.front:
            if envelope.what == "lever":
                found.append(_lever(part, envelope))
            elif envelope.what.endswith(_TRAVEL):
                found.append(_cap(part, envelope))
    return tuple(found)


def _upright(solid: Solid) -> Caster:
    ground = polygon(solid.contour)
    corners = shapely.get_coordinates(ground.exterior)[:-1]
    convex = bool(np.isclose(ground.area, shapely.convex_hull(ground).area, rtol=1e-9, atol=0.0))
    return Caster(
        owner=solid.owner, words=solid.words, height=solid.height, states=((corners, corners),), convex=convex
    )


def _cap(part: Part, envelope: Envelope) -> Caster:
    """The cap of a slide control, which stays where it is put: the envelope is what it sweeps.

    It is taken at places no farther apart than a quarter of its length, so that a letter shorter than three quarters
    of the shadow of a cap is found under it whole, if the cap can hide it whole. Where the catalogue does not say how
    far it goes it is taken to be as long as wide.
    """
    box = envelope.contour.bounds
    across, along = sorted((box.width, box.height))
    length = along - envelope.travel if envelope.travel else across
    throw = (along - length) / 2.0
    upright = box.height >= box.width
    cap = rectangle(across, length, box.centre) if upright else rectangle(length, across, box.centre)
    way = Vector(0.0, throw) if upright else Vector(throw, 0.0)
    steps = 1 + 2 * math.ceil(throw / (length / 4.0)) if throw else 1
    states = []
    for share in np.linspace(-1.0, 1.0, steps) if steps > 1 else (0.0,):
        ground = polygon(part.on_panel(cap.moved(way.scaled(float(share)))))
        corners: Numbers = shapely.get_coordinates(ground.exterior)[:-1]
        states.append((corners, corners))
    return Caster(
        owner=part.ref,
        words=things.cap(ref=part.ref),
        height=envelope.height,
        states=tuple(states),
        convex=True,
    )


def _lever(part: Part, envelope: Envelope) -> Caster:
    """A lever: the envelope is what its tip sweeps, so the bar is as thick as that is wide."""
    box = envelope.contour.bounds
    thick = min(box.width, box.height)
    throw = (max(box.width, box.height) - thick) / 2.0
    along = Vector(0.0, throw) if box.height >= box.width else Vector(throw, 0.0)
    bar = circle(thick, box.centre)
    shares = (1.0, 0.0, -1.0) if "centre" in part.component.positions else (1.0, -1.0)

    def corners(share: float) -> Numbers:
        moved = part.on_panel(bar.moved(along.scaled(share)))
        rows: Numbers = shapely.get_coordinates(polygon(moved).exterior)[:-1]
        return rows

    foot = corners(0.0)
    return Caster(
        owner=part.ref,
        words=things.lever(ref=part.ref),
        height=envelope.height,
        states=tuple((foot, corners(share)) for share in shares),
        convex=True,
    )


def hidden_ink(survey: Survey, places: Sequence[Look], but: Collection[int] = ()) -> tuple[HiddenInk, ...]:
    """Every piece of ink that is hidden from some of these places, at its worst; in the order of the legends.

    `but` holds the id of legends that are left out.
    """
    pieces = ink_pieces(survey, but)
    bodies = casters(survey)
    if not pieces or not bodies:
        return ()
    grounds = np.array([piece.ground for piece in pieces], dtype=object)
    areas = shapely.area(grounds)
    tree = shapely.STRtree(grounds)
    worst: dict[int, HiddenInk] = {}
    for look in places:
        for number, area, by in _hidden_from(look, bodies, grounds, tree):
            share = area / float(areas[number])
            if number not in worst or share > worst[number].share + 1e-9:
                worst[number] = hidden_piece(pieces[number], share, look, by)
    return tuple(worst[number] for number in sorted(worst))


def _hidden_from(
    look: Look, bodies: Sequence[Caster], grounds: np.ndarray[tuple[int], np.dtype[np.object_]], tree: shapely.STRtree
) -> Iterator[tuple[int, float, list[Caster]]]:
    """Pieces hidden from one place: their number, the hidden area in square mm, and what hides, most first."""
    over: dict[int, list[Shade]] = {}
    for shade in shades(bodies, look):
        shadows = [shadow for state in shade.states for shadow in state]
        _, numbers = tree.query(np.array(shadows, dtype=object), predicate="intersects")
        for number in np.unique(numbers):
            over.setdefault(int(number), []).append(shade)
    for number, found in over.items():
        area, by = shaded(grounds[number], found)
        if area > _MIN_AREA:
            yield number, area, by


def shades(bodies: Sequence[Caster], look: Look) -> list[Shade]:
    """The shadows of bodies from each eye of a place."""
    eyes = look.eyes
    return [Shade(body, tuple(zip(*(body.shadows(eye) for eye in eyes), strict=True))) for body in bodies]


def shaded(piece: shapely.Geometry, over: Sequence[Shade]) -> tuple[float, list[Caster]]:
    """How much of a piece of ink no eye sees, in square mm, and by which bodies, most first.

    A body that moves is taken in the state in which it hides most from all eyes by itself, and where it hides nothing
    so, in the one in which it hides most from one eye and the other.
    """
    found = list(_cut(piece, over))
    if not found:
        return 0.0, []
    lost = _common([shapely.union_all(grounds) for grounds in zip(*(cut for _, cut in found), strict=True)])
    parts = [float(shapely.intersection(lost, shapely.union_all(cut)).area) for _, cut in found]
    order = sorted((index for index, area in enumerate(parts) if area > _MIN_AREA), key=lambda at: (-parts[at], at))
    return float(lost.area), [found[index][0] for index in order]


def _cut(piece: shapely.Geometry, over: Sequence[Shade]) -> Iterator[tuple[Caster, list[shapely.Geometry]]]:
    """Each body that hides some of a piece, in one of its states, with what it hides from each eye."""
    for body, states in over:
        cut = max(([shapely.intersection(piece, shadow) for shadow in state] for state in states), key=_hides)
        if any(ground.area > _MIN_AREA for ground in cut):
            yield body, cut


def _common(seen: Sequence[shapely.Geometry]) -> shapely.Geometry:
    return seen[0] if len(seen) == 1 else shapely.intersection(*seen)


def _hides(cut: Sequence[shapely.Geometry]) -> tuple[float, float]:
    """How much is hidden from all eyes at once, and from one and the other."""
    return (float(_common(cut).area), math.fsum(float(ground.area) for ground in cut))


def boxes(found: Sequence[HiddenInk]) -> Box:
    """The box round pieces of ink."""
    return Box.around(
        Point(x, y) for one in found for x, y in shapely.get_coordinates(shapely.envelope(one.piece)).tolist()
    )


def worst_look(survey: Survey, places: Sequence[Look]) -> Look:
    """The one of these places from which most ink is hidden; the first of several alike."""

    def hidden_area(look: Look) -> float:
        return round(math.fsum(one.share * float(one.piece.area) for one in hidden_ink(survey, [look])), 6)

    return max(places, key=hidden_area)
