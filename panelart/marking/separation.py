"""Separations: the artwork taken apart into the areas that each plate lays down.

What lies where, from below: backgrounds in the order of the spec, then the legends and marks of each ink in the order
of the inks. An upper colour is left out of every lower one of another ink and no plate relies on the order of
printing; then the lighter of two that touch spreads under the darker by the trap. Whatever no other ink touches stays
exactly as it was drawn.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import combinations
from typing import TypeAlias

import shapely
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.lettering.outline import bounds
from panelart.marking.areas import NOTHING, area_of, gathered, loops_of, mark_area, pieces, square_cm, united
from panelart.marking.base import Laid, base_under
from panelart.marking.free import face_area, kept_off, printable
from panelart.marking.gradients import mean_share
from panelart.marking.overlay import overlay_area
from panelart.marking.pictures import cover
from panelart.marking.trap import ColourArea, spreads
from panelart.model.layout import Layout, Mark, PlacedLegend
from panelart.model.light import lightness
from panelart.model.panel import Ink
from panelart.model.printing import Background, Gloss, Gradient, Photo, Solid
from panelart.reprs import brief, counted

Thing: TypeAlias = Mark | PlacedLegend

NEARLY = 0.01
"""Bounds are taken so much larger, mm: words are flattened a little outside their curves."""

PICTURE_LIGHT = 1000.0
"""A picture has light and dark places; it runs under whatever touches it, as if it were the lightest."""


class Drawn(Struct, frozen=True, kw_only=True):
    """A legend or mark on its plate: as it is drawn, or only `area` of it where an upper ink took something."""

    thing: Thing
    area: shapely.Geometry | None = None

    def __repr__(self) -> str:
        return brief("Drawn", repr(self.thing.ref))


class Colour(Struct, frozen=True, kw_only=True):
    """A background where it is really laid down."""

    background: Background
    area: shapely.Geometry

    def __repr__(self) -> str:
        return brief("Colour", type(self.background.colour).__name__)


class InkPlate(Struct, frozen=True, kw_only=True):
    """What one ink lays down besides backgrounds; `spread` is what it takes of darker inks beside it."""

    ink: Ink
    drawn: tuple[Drawn, ...]
    spread: shapely.Geometry

    def __repr__(self) -> str:
        return brief("InkPlate", repr(self.ink.name), counted(len(self.drawn), "thing"))


class PlateSize(Struct, frozen=True, kw_only=True):
    """One plate for a list: its name, what it is, its colour ('' for none), the cm2 it covers, those of solid ink."""

    name: str
    what: str
    colour: str
    covered: float
    solid: float
    pieces: int


@dataclass(frozen=True, kw_only=True)
class Separations:
    """All plates of a panel. Areas of ink are worked out when they are asked for."""

    layout: Layout
    inks: tuple[InkPlate, ...]
    colours: tuple[Colour, ...]
    known: Mapping[int, shapely.Geometry] = field(default_factory=dict, repr=False)

    def ink_area(self, name: str) -> shapely.Geometry:
        """Everything that an ink covers, however thinly."""
        if name not in self._ink_areas:
            self._ink_areas[name] = united([*self._legend_areas[name], *(area for area, _ in self._colour_areas(name))])
        return self._ink_areas[name]

    def coverage(self, name: str) -> float:
        """The ink used, in cm2 of solid ink: tints count by their share."""
        tinted = math.fsum(share * square_cm(area) for area, share in self._colour_areas(name))
        return square_cm(self._lettered[name]) + tinted

    @cached_property
    def sizes(self) -> tuple[PlateSize, ...]:
        """Every plate that there is: base and varnish first, then the inks in their order."""
        names = self.layout.panel.marking.printing.plates
        found: list[PlateSize] = []
        for name, what, ground in (
            (names.base, "base", self.laid_base.ground),
            (names.varnish, "varnish", self.varnish),
        ):
            if not ground.is_empty:
                found.append(_size(name, what, "", ground, square_cm(ground)))
        for plate in self.inks:
            ink = plate.ink
            covered = gathered([self._lettered[ink.name], *(area for area, _ in self._colour_areas(ink.name))])
            found.append(_size(ink.name, "ink", ink.colour, covered, self.coverage(ink.name)))
        return tuple(found)

    @property
    def printed(self) -> bool:
        """Whether the process lays inks down: engraving and lasers take metal or coat away."""
        return self.layout.panel.marking.process.lays_ink

    @property
    def laid_down(self) -> tuple[Colour, ...]:
        """The backgrounds of which something is left."""
        return tuple(colour for colour in self.colours if loops_of(colour.area))

    @property
    def seen(self) -> tuple[Colour, ...]:
        """The backgrounds as they are seen on the finished panel: on the face, or on the film between its windows."""
        overlay = self.layout.panel.marking.printing.overlay
        face = face_area(self.layout) if overlay is None else overlay_area(self.layout, overlay)
        kept = (replace(colour, area=shapely.intersection(colour.area, face)) for colour in self.colours)
        return tuple(colour for colour in kept if loops_of(colour.area))

    @cached_property
    def laid_base(self) -> Laid:
        """The base, where the spec has one."""
        printing = self.layout.panel.marking.printing
        if printing.base is None:
            return Laid(ground=NOTHING, thin=NOTHING)
        under = [self.ink_area(name) for name in printing.base.under]
        under += [colour.area for colour in self.colours if _ink_of(colour.background) == ""]
        base = printing.base
        free = shapely.difference(self._page, kept_off(self.layout)) if printing.overlay is None else self._page
        return base_under(under, choke=base.choke, hold=base.hold, thin=base.thin, free=free)

    @cached_property
    def varnish(self) -> shapely.Geometry:
        """Where varnish lies: over the face that ink may reach, or over the inks alone."""
        match self.layout.panel.marking.printing.varnish:
            case Gloss.FACE:
                return printable(self.layout, None)
            case Gloss.INKS:
                inks = [self.ink_area(plate.ink.name) for plate in self.inks]
                return united([*inks, *(colour.area for colour in self.colours)])
            case None:
                return NOTHING

    @cached_property
    def _page(self) -> shapely.Geometry:
        """More than anything can cover: the face with the most that runs past it."""
        left, bottom, right, top = united([face_area(self.layout), *(colour.area for colour in self.colours)]).bounds
        return shapely.box(left - 1.0, bottom - 1.0, right + 1.0, top + 1.0)

    @cached_property
    def _ink_areas(self) -> dict[str, shapely.Geometry]:
        return {}

    @cached_property
    def _lettered(self) -> Mapping[str, shapely.Geometry]:
        """What the legends and marks of each ink cover as one area, by the ink's name."""
        return {name: gathered(areas) for name, areas in self._legend_areas.items()}

    @cached_property
    def _legend_areas(self) -> Mapping[str, Sequence[shapely.Geometry]]:
        """What the legends and marks of each ink cover, by the ink's name."""
        return {
            plate.ink.name: [
                *(drawn.area if drawn.area is not None else _area(drawn.thing, self.known) for drawn in plate.drawn),
                plate.spread,
            ]
            for plate in self.inks
        }

    def _colour_areas(self, name: str) -> list[tuple[shapely.Geometry, float]]:
        """Backgrounds with an ink in them, each with the mean share of it."""
        found: list[tuple[shapely.Geometry, float]] = []
        for laid in self.colours:
            colour = laid.background.colour
            match colour:
                case Solid(ink=ink, tint=tint):
                    share = tint if ink == name else 0.0
                case Gradient():
                    share = mean_share(colour, name, laid.area)
                case Photo(ink=ink):
                    share = _darkness(colour) if ink == name else 0.0
            if share:
                found.append((laid.area, share))
        return found

    def __repr__(self) -> str:
        return brief("Separations", *(plate.ink.name for plate in self.inks[:4]))


def _size(name: str, what: str, colour: str, ground: shapely.Geometry, solid: float) -> PlateSize:
    return PlateSize(
        name=name, what=what, colour=colour, covered=square_cm(ground), solid=solid, pieces=len(pieces(ground, 1e-5))
    )


def separations(layout: Layout) -> Separations:
    """The plates of a layout."""
    marking = layout.panel.marking
    things: dict[str, list[Thing]] = {ink.name: [] for ink in marking.inks}
    every: tuple[Thing, ...] = (*layout.inked_marks, *layout.inked_legends)
    for thing in every:
        things.setdefault(thing.ink.name, []).append(thing)
    used = [ink for ink in marking.inks if things[ink.name]]
    # Without a background only what comes near another ink can lose or give anything; the rest need not be looked at.
    near = set(map(id, every)) if marking.printing.backgrounds else _near_another(things, used, marking.printing.trap)
    if not near:
        plain = tuple(_untouched(ink, things[ink.name]) for ink in marking.inks)
        return Separations(layout=layout, inks=plain, colours=())
    known = {id(thing): _area(thing, {}) for thing in every if id(thing) in near}
    return _parted(layout, things, known)


def _untouched(ink: Ink, things: Iterable[Thing]) -> InkPlate:
    return InkPlate(ink=ink, drawn=tuple(Drawn(thing=thing) for thing in things), spread=NOTHING)


def _near_another(things: Mapping[str, Sequence[Thing]], inks: Sequence[Ink], trap: float) -> set[int]:
    """The ids of what has its bounds within the trap of something in another ink."""
    found: set[int] = set()
    if len(inks) < 2:
        return found
    boxes = {ink.name: [_bounds(thing) for thing in things[ink.name]] for ink in inks}
    for one, other in combinations(boxes, 2):
        tree = shapely.STRtree(boxes[one])
        there, here = tree.query(boxes[other], predicate="dwithin", distance=trap + NEARLY)
        found.update(id(things[other][index]) for index in there)
        found.update(id(things[one][index]) for index in here)
    return found


def _bounds(thing: Thing) -> shapely.Geometry:
    box = thing.box if isinstance(thing, PlacedLegend) else bounds(thing.shape).grown(thing.width / 2)
    return shapely.box(box.left, box.bottom, box.right, box.top)


def _parted(
    layout: Layout, things: Mapping[str, Sequence[Thing]], known: Mapping[int, shapely.Geometry]
) -> Separations:
    """The plates, of which only what is `known` can touch another ink."""
    marking = layout.panel.marking
    printing = marking.printing
    drawn, covered = _cut_out(marking.inks, things, known)
    areas = _background_areas(layout, covered)
    colours = {ink.name: ink.colour for ink in marking.inks}
    grounds = [
        ColourArea(ink=_ink_of(background), area=area, light=ground_lightness(background, colours))
        for background, area in zip(printing.backgrounds, areas, strict=True)
    ]
    grounds += [ColourArea(ink=ink.name, area=covered[ink.name], light=lightness(ink.colour)) for ink in marking.inks]
    taken = spreads(grounds, printing.trap)
    count = len(printing.backgrounds)
    return Separations(
        layout=layout,
        inks=tuple(
            InkPlate(ink=ink, drawn=drawn[ink.name], spread=spread)
            for ink, spread in zip(marking.inks, taken[count:], strict=True)
        ),
        colours=tuple(
            Colour(background=background, area=shapely.union(area, spread))
            for background, area, spread in zip(printing.backgrounds, areas, taken[:count], strict=True)
        ),
        known=known,
    )


def _cut_out(
    inks: Sequence[Ink], things: Mapping[str, Sequence[Thing]], known: Mapping[int, shapely.Geometry]
) -> tuple[dict[str, tuple[Drawn, ...]], dict[str, shapely.Geometry]]:
    """What each ink draws once the inks above it are cut out, and the ground that it covers.

    Fields lie under the words and lines of every ink.
    """
    drawn: dict[str, tuple[Drawn, ...]] = {}
    covered: dict[str, shapely.Geometry] = {ink.name: NOTHING for ink in inks}
    above: shapely.Geometry = NOTHING
    for fields in (False, True):
        for ink in reversed(inks):
            here = tuple(
                _left_of(thing, known[id(thing)], above) if id(thing) in known else Drawn(thing=thing)
                for thing in things[ink.name]
                if _is_field(thing) is fields
            )
            ground = united(
                one.area if one.area is not None else known[id(one.thing)] for one in here if id(one.thing) in known
            )
            drawn[ink.name] = (*here, *drawn.get(ink.name, ()))  # fields first, as they were
            covered[ink.name] = shapely.union(covered[ink.name], ground)
            above = shapely.union(above, ground)
    return drawn, covered


def _is_field(thing: Thing) -> bool:
    return isinstance(thing, Mark) and thing.kind == "field"


def _background_areas(layout: Layout, covered: Mapping[str, shapely.Geometry]) -> list[shapely.Geometry]:
    """What is left of each background once what is printed over it in other inks is cut out."""
    areas: list[shapely.Geometry] = []
    higher: dict[str, shapely.Geometry] = dict(covered)
    for background in reversed(layout.panel.marking.printing.backgrounds):
        own_ink = _ink_of(background)
        wanted = printable(layout, background.bleed)
        if background.area is not None:
            wanted = shapely.intersection(wanted, _asked(background))
        # What is of the same ink need not be left out: both are on one plate.
        over = united(ground for name, ground in higher.items() if name != own_ink)
        areas.append(shapely.difference(wanted, over))
        higher[own_ink] = shapely.union(higher.get(own_ink, NOTHING), areas[-1])
    areas.reverse()
    return areas


def _asked(background: Background) -> shapely.Geometry:
    """The area that a background is asked for; of a picture what it covers."""
    shape = background.area or ()
    colour = background.colour
    return cover(colour, bounds(shape)) if isinstance(colour, Photo) else area_of(shape)


def _left_of(thing: Thing, area: shapely.Geometry, above: shapely.Geometry) -> Drawn:
    if above.is_empty or not shapely.intersects(area, above) or shapely.touches(area, above):
        return Drawn(thing=thing)
    return Drawn(thing=thing, area=shapely.difference(area, above))


def _area(thing: Thing, known: Mapping[int, shapely.Geometry]) -> shapely.Geometry:
    found = known.get(id(thing))
    if found is not None:
        return found
    return mark_area(thing) if isinstance(thing, Mark) else area_of(thing.shape)


def _ink_of(background: Background) -> str:
    """The one ink of a background, '' for the press's own colours; of several the first, which bounds it."""
    match background.colour:
        case Solid(ink=ink):
            return ink
        case Gradient(stops=stops):
            return stops[0].ink if len({stop.ink for stop in stops}) == 1 else "+".join(stop.ink for stop in stops)
        case Photo(ink=ink):
            return ink or ""


def ground_lightness(background: Background, colours: Mapping[str, str]) -> float:
    """How light a background is, L* from 0 to 100; of a gradient in the mean of its stops."""
    match background.colour:
        case Solid(ink=ink, tint=tint):
            return _tinted(colours[ink], tint)
        case Gradient(stops=stops):
            return math.fsum(_tinted(colours[stop.ink], stop.tint) for stop in stops) / len(stops)
        case Photo():
            return PICTURE_LIGHT


def _tinted(colour: str, tint: float) -> float:
    return 100.0 - tint * (100.0 - lightness(colour))


def _darkness(photo: Photo) -> float:
    """The mean share of ink of a picture printed in one ink: its dark parts, as far as they cover."""
    import numpy as np

    pixels = np.frombuffer(photo.pixels, dtype=np.uint8).reshape(-1, 4).astype(np.float64) / 255.0
    grey = pixels[:, :3] @ np.array([0.2126, 0.7152, 0.0722])
    return float(((1.0 - grey) * pixels[:, 3]).mean())
