"""A layout made ready to be inspected: every thing by name, with its box and its exact form, and pairs that are near.

Boxes are tested first and for all pairs at once; exact forms are made only for the pairs that are left.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property, lru_cache
from typing import Generic, TypeAlias, TypeVar

import numpy as np
import shapely
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.checks.bodies import Body, Edge, Numbers, body_of, depth, hull
from panelart.checks.findings import Spot
from panelart.checks.ink import filled, strokes
from panelart.checks.limits import Basis, Limit, Limits, standard
from panelart.cutouts.hardware import places_of
from panelart.diagnostics import Where
from panelart.geometry import Box, Contour, Line, Point, rectangle
from panelart.geometry.measures import overlaps
from panelart.geometry.polygons import polygon
from panelart.lettering.outline import bounds
from panelart.lettering.reading import read
from panelart.lettering.spans import Span
from panelart.marking.ground_colours import Seen, seen_under
from panelart.messages import Said
from panelart.messages import checks_limits as of_limits
from panelart.messages import checks_things as things
from panelart.messages import marking as grounds_said
from panelart.model.component import Component, EnvelopeRole
from panelart.model.layout import FACE, CutOpening, Layout, Mark, PlacedEnvelope, PlacedLegend
from panelart.model.metal import Edge as FaceEdge
from panelart.model.panel import Keepout, LegendRequest, Panel, Side
from panelart.texts.runs import Text

ROUNDING = 1e-7
"""Millimetres of difference that come from arithmetic and not from the panel."""

_KEEPOUT = "keep-out"
_ART = "art"
_FRAMES = ("frame", "bracket", "field")

_MAX_TITLE = 44
"""Characters of a catalogue title that may stand behind a ref; a longer one does not make the part clearer."""

_MAX_TEXTS = 3
"""Of several legends so many texts are named, of more the first two."""

_RACK_STANDARD = "IEC 60297"
"""Panels of 19-inch racks and subracks: slots of 6.8 mm are 5.94 mm from the edge, whatever the sheet."""

Piece: TypeAlias = tuple[shapely.Geometry, Body]
"""What a thing, or a part of it, covers, and its outer form."""


class Solid(Struct, frozen=True, kw_only=True, eq=False, dict=True):
    """Something with a contour: an envelope, an opening, a keep-out.

    `owner` is a ref, '' for none; `what` the kind of thing; `words` its name in sentences; `hides` whether it hides the
    face from the eye; `height` its distance from the face, in mm. `on` is the face, or the flange whose
    frame it is in; `role` what the hand or a tool does with it.
    """

    owner: str
    what: str
    words: Said
    contour: Contour
    box: Box
    where: Where
    hides: bool = False
    height: float = 0.0
    on: str = FACE
    role: EnvelopeRole = EnvelopeRole.BODY

    @property
    def refs(self) -> tuple[str, ...]:
        """The owner, as findings name it."""
        return (self.owner,) if self.owner else ()

    @cached_property
    def ground(self) -> shapely.Geometry:
        """The polygon that holds it."""
        return polygon(self.contour, side="outside")

    @cached_property
    def body(self) -> Body:
        """Its outer form."""
        return body_of(self.contour)

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """The one piece it is."""
        return ((self.ground, self.body),)

    def overlaps(self, other: Solid) -> bool:
        """Whether the two share ground; touching is not sharing."""
        return overlaps(self.contour, other.contour)

    def surely_clear_of(self, box: Box) -> bool:
        """Whether a round thing cannot touch what is in a box."""
        round_ = self.contour.circle
        if round_ is None:
            return False
        centre, radius = round_
        return Box(centre.x, centre.y, centre.x, centre.y).gap(box) >= radius


class Words(Struct, frozen=True, kw_only=True, eq=False, dict=True):
    """A legend that is read; `kind` is its style."""

    owner: str
    kind: str
    text: str
    cap_height: float
    legend: PlacedLegend
    box: Box
    where: Where

    @property
    def spans(self) -> tuple[Span, ...]:
        """What was said of stretches of the text."""
        return () if self.legend.setting is None else self.legend.setting.spans

    @cached_property
    def ground(self) -> shapely.Geometry:
        """What its ink covers."""
        return filled(self.legend.shape)

    @cached_property
    def body(self) -> Body:
        """Its outer form: the spaces between and within letters belong to the words."""
        return hull(self.ground)

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """The one piece it is."""
        return ((self.ground, self.body),)


class Stroke(Struct, frozen=True, kw_only=True, eq=False, dict=True):
    """A line of marking: a graduation, a leader, a frame."""

    owner: str
    kind: str
    mark: Mark
    box: Box
    where: Where

    @property
    def text(self) -> str:
        """A line has none."""
        return ""

    @cached_property
    def ground(self) -> shapely.Geometry:
        """What its ink covers."""
        return shapely.union_all([ground for ground, _ in self.pieces])

    @cached_property
    def body(self) -> Body:
        """Its outer form, over whatever it goes round."""
        return hull(self.ground)

    @cached_property
    def pieces(self) -> tuple[Piece, ...]:
        """One for each straight piece, since a frame is hollow."""
        if self.mark.filled:
            ground = filled(self.mark.shape)
            return ((ground, hull(ground)),)
        return tuple((ground, hull(ground)) for ground in strokes(self.mark.shape, self.mark.width))


Ink: TypeAlias = Words | Stroke
Thing: TypeAlias = Solid | Words | Stroke
First = TypeVar("First", bound=Thing)
Second = TypeVar("Second", bound=Thing)
Held_co = TypeVar("Held_co", bound=Thing, covariant=True)


class Group(Generic[Held_co]):
    """Things of one kind, ready to be searched by place."""

    def __init__(self, things: Iterable[Held_co]) -> None:
        self.things = tuple(things)

    def __iter__(self) -> Iterator[Held_co]:
        return iter(self.things)

    @cached_property
    def boxes(self) -> Numbers:
        """One row (left, bottom, right, top) a thing."""
        rows = [(thing.box.left, thing.box.bottom, thing.box.right, thing.box.top) for thing in self.things]
        return np.array(rows, dtype=np.float64).reshape(-1, 4)

    @cached_property
    def _tree(self) -> shapely.STRtree:
        return shapely.STRtree(shapely.box(*self.boxes.T))

    def near(self, others: Group[Second], gap: float = 0.0) -> list[tuple[Held_co, Second]]:
        """Pairs of things whose boxes touch, or are no more than a gap apart along x and y, in order."""
        if not self.things or not others.things:
            return []
        asked = others.boxes + np.array([-gap, -gap, gap, gap])
        there, here = self._tree.query(shapely.box(*asked.T))
        order = np.lexsort((there, here))
        return [(self.things[here[k]], others.things[there[k]]) for k in order]

    def near_each_other(self, gap: float = 0.0) -> list[tuple[Held_co, Held_co]]:
        """Pairs of different things of this group, each pair once."""
        place = {id(thing): number for number, thing in enumerate(self.things)}
        return [(one, two) for one, two in self.near(self, gap) if place[id(one)] < place[id(two)]]


class Fitting(Struct, frozen=True, kw_only=True):
    """A part put on the face or into a flange: `place` is where it is shown on the panel."""

    ref: str
    component: Component
    on: str
    place: Point
    where: Where


class Survey(Struct, frozen=True, kw_only=True, eq=False, dict=True):
    """What every rule reads: the layout, the limits, and the things on and behind the face."""

    layout: Layout
    limits: Limits
    abbreviations: frozenset[str] = frozenset()

    @property
    def panel(self) -> Panel:
        """The panel as asked for."""
        return self.layout.panel

    def meaning(self, of: str | Words | LegendRequest) -> Text:
        """What words of the panel mean, with what the writer said of them; a text is one without braces."""
        if isinstance(of, str):
            return _meant(of, (), self.panel.language)
        return _meant(of.text, of.spans, self.panel.language)

    @cached_property
    def front(self) -> Group[Solid]:
        """What parts take in front of the face, levers' travel and mating plugs included."""
        return Group(self._envelopes(Side.FRONT))

    @cached_property
    def covers(self) -> Group[Solid]:
        """What hides the face from the eye."""
        return Group(thing for thing in self.front if thing.hides)

    @cached_property
    def rear(self) -> Group[Solid]:
        """What parts take behind the face."""
        return Group(self._envelopes(Side.REAR))

    @cached_property
    def openings(self) -> Group[Solid]:
        """Openings as the eye and the hand meet them: finished."""
        return Group(_opening(opening, opening.finished) for opening in self.layout.openings)

    @cached_property
    def cuts(self) -> Group[Solid]:
        """Openings as they are cut in the metal."""
        return Group(_opening(opening, opening.cut) for opening in self.layout.openings)

    @cached_property
    def cuts_by_place(self) -> tuple[Group[Solid], ...]:
        """Openings as they are cut, those of the face and of each flange apart: groups in frames of their own."""
        flanges: dict[str, list[Solid]] = {}
        for opening in self.layout.flange_openings:
            flanges.setdefault(opening.on, []).append(_opening(opening, opening.cut))
        return (self.cuts, *(Group(solids) for solids in flanges.values()))

    @cached_property
    def fittings(self) -> tuple[Fitting, ...]:
        """Every part, those in flanges too."""
        return (
            *(
                Fitting(ref=part.ref, component=part.component, on=FACE, place=part.at, where=part.where)
                for part in self.panel.parts
            ),
            *(
                Fitting(
                    ref=hole.ref,
                    component=hole.component,
                    on=on,
                    place=self.edge_point(flange.edge, hole.at.x),
                    where=hole.where,
                )
                for flange in self.panel.flanges
                for on, holes in places_of(flange)
                for hole in holes
                if hole.component is not None
            ),
        )

    @cached_property
    def _components(self) -> dict[str, Component]:
        return {fitting.ref: fitting.component for fitting in self.fittings}

    def component(self, ref: str) -> Component | None:
        """What the part of a ref is; None for a plain hole and for what is no part."""
        return self._components.get(ref)

    def edge_point(self, edge: FaceEdge, along: float) -> Point:
        """The point of an edge of the finished face that lies at an x, or at a y of an upright edge."""
        box = self.panel.outline.bounds
        match edge:
            case FaceEdge.TOP:
                return Point(along, box.top)
            case FaceEdge.BOTTOM:
                return Point(along, box.bottom)
            case FaceEdge.LEFT:
                return Point(box.left, along)
            case FaceEdge.RIGHT:
                return Point(box.right, along)

    def shown(self, on: str, place: Point | Box) -> Point | Box:
        """Where something is shown on the panel: what is in a flange is shown at the edge of that flange."""
        if on == FACE:
            return place
        middle = place.centre if isinstance(place, Box) else place
        return self.edge_point(FaceEdge(on.split(maxsplit=1)[0]), middle.x)

    def place_of(self, opening: CutOpening) -> Point | Box:
        """Where an opening is shown: its box on the face, a point of the edge for one in a flange."""
        return self.shown(opening.on, opening.finished.bounds)

    def spot_of(self, opening: CutOpening) -> Spot:
        """The same as one of several places of a finding."""
        return Spot(ref=opening.ref, place=self.shown(opening.on, opening.finished.bounds.centre), where=opening.where)

    @cached_property
    def words(self) -> Group[Words]:
        """Every legend that is read on the panel."""
        return Group(map(_words, self.layout.legends))

    @cached_property
    def dial_words(self) -> tuple[Words, ...]:
        """What is lettered on knobs and discs, where it stands when they are at the beginning of their scale."""
        return tuple(_words(legend) for dial in self.layout.dials for legend in dial.legends)

    @cached_property
    def dial_marks(self) -> tuple[list[Stroke], ...]:
        """The lines on each knob and disc, where they are as its words are."""
        return tuple([_stroke(mark) for mark in dial.marks if not mark.filled] for dial in self.layout.dials)

    @cached_property
    def scale_marks(self) -> Group[Stroke]:
        """Every line of marking that is not a frame."""
        return Group(_stroke(mark) for mark in self.layout.marks if mark.kind not in {"frame", "field"})

    @cached_property
    def frame_lines(self) -> Group[Stroke]:
        """The lines of frames."""
        return Group(_stroke(mark) for mark in self.layout.marks if mark.kind == "frame")

    @cached_property
    def fields(self) -> Group[Stroke]:
        """Filled fields round parts, without what is left out of them."""
        return Group(_stroke(mark) for mark in self.layout.marks if mark.kind == "field")

    def seen_against(self, ink: Ink) -> tuple[Seen, ...]:
        """What a thing is seen against: a field of another ink round it, else what lies under it, uppermost first."""
        own = ink.mark.ink if isinstance(ink, Stroke) else ink.legend.ink
        for field in self.fields:
            if field.mark.ink != own and field.box.contains(ink.box):
                return (Seen(grounds_said.background(ink=field.mark.ink.name), field.mark.ink.colour),)
        return seen_under(self.panel, ink.box)

    @cached_property
    def legends(self) -> Group[Ink]:
        """All marking that belongs to a part or is by itself: words, then scale marks; frames are apart."""
        return Group((*self.words, *self.scale_marks))

    def keepouts(self, side: Side) -> Group[Solid]:
        """Areas where nothing may be, on one side."""
        return Group(_keepout(keepout) for keepout in self.panel.keepouts if keepout.side is side)

    def may_share(self, name: str, thing: Thing) -> Limit:
        """How far something may lie in another thing: the limit of that name, or the keep-out's own."""
        if not isinstance(thing, Solid) or thing.what != _KEEPOUT:
            return self.limits[name]
        return Limit(
            name="",
            what=of_limits.keepout_reach(),
            value=0.0,
            unit="mm",
            source=of_limits.keepout_at(where=thing.where),
            basis=Basis.GIVEN,
        )

    def at_edge_by_standard(self, ref: str) -> bool:
        """Whether a part is a fixing pattern that its standard puts at the edge of the panel."""
        part = self.panel.by_ref.get(ref)
        return part is not None and _RACK_STANDARD in part.component.standard

    @cached_property
    def edge(self) -> Edge:
        """The edge of the finished face."""
        return Edge(self.panel.outline)

    @cached_property
    def cut_edge(self) -> Edge:
        """The edge of the metal as it is cut; where a flange goes on, the metal has no edge."""
        return Edge(self.cut_edge_line)

    @cached_property
    def cut_edge_line(self) -> Contour:
        """The line of that edge, far away on the side of a flange."""
        bent = {flange.edge for flange in self.panel.flanges}
        if not bent:
            return self.layout.cut_outline
        box = self.layout.cut_outline.bounds
        far = max(box.width, box.height)
        left, right = box.left - far * (FaceEdge.LEFT in bent), box.right + far * (FaceEdge.RIGHT in bent)
        bottom, top = box.bottom - far * (FaceEdge.BOTTOM in bent), box.top + far * (FaceEdge.TOP in bent)
        return rectangle(right - left, top - bottom, Point((left + right) / 2, (bottom + top) / 2))

    def from_edge(self, edge: FaceEdge, thing: Point | Box) -> float:
        """How far a thing lies inside one edge of the face as cut, in mm."""
        around = self.layout.cut_outline.bounds
        box = thing if isinstance(thing, Box) else Box(thing.x, thing.y, thing.x, thing.y)
        match edge:
            case FaceEdge.TOP:
                return around.top - box.top
            case FaceEdge.BOTTOM:
                return box.bottom - around.bottom
            case FaceEdge.LEFT:
                return box.left - around.left
            case FaceEdge.RIGHT:
                return around.right - box.right

    @cached_property
    def hidden(self) -> list[tuple[Ink, Solid]]:
        """Legends whose ink lies under a part, with what covers them."""
        return inked(self.legends.near(self.covers))

    @cached_property
    def colliding(self) -> list[tuple[Solid, Solid]]:
        """Envelopes of different parts that share ground in front of the face."""
        return sharing(self.front.near_each_other())

    def _envelopes(self, side: Side) -> Iterator[Solid]:
        return (_envelope(envelope) for envelope in self.layout.envelopes if envelope.side is side)

    def part(self, ref: str) -> Said:
        """A part by its ref and its title as far as the first comma or bracket: 'S1 (toggle switch)'.

        The ref alone where nothing of the catalogue is there, or its title is long.
        """
        component = self.component(ref)
        title = "" if component is None else _short(component.title)
        return things.part(ref=ref, title=title) if title and len(title) <= _MAX_TITLE else ref

    def kind(self, component: Component, spots: Sequence[Spot]) -> Said:
        """One part by name, several of one kind by the title that they have in common."""
        return self.part(spots[0].ref) if len(spots) == 1 else component.title

    def frame(self, name: str) -> Said:
        """A frame with its title where it has one: "frame 1 ('SUPPLY')"."""
        title = next((legend.text for legend in self.layout.legends if legend.ref == name), "")
        return things.titled_frame(frame=name, title=title) if title else name

    def named(self, inks: Sequence[Ink]) -> Said:
        """Legends or marks of one kind: "RV1 (numerals '0', '5' and 4 more)", 'RV1 (3 minor marks)'.

        Of several owners only the kind is said.
        """
        first = inks[0]
        alone = len({ink.owner for ink in inks}) == 1
        if isinstance(first, Stroke):
            if first.kind in _FRAMES:
                return self.frame(first.owner)
            if first.kind == _ART:
                return first.owner
            kind = first.kind.replace("-", " ")
            return (
                things.marks(count=len(inks), owner=first.owner, kind=kind)
                if alone
                else things.marks_of_kind(kind=kind.removesuffix(" mark"))
            )
        if not alone:
            return things.legends_of_style(style=first.kind)
        texts = list(dict.fromkeys(ink.text for ink in inks))
        if len(texts) == 1:
            return things.legend(owner=first.owner, style=first.kind, text=texts[0])
        shown: list[Said] = [things.text(text=text) for text in texts]
        if len(shown) > _MAX_TEXTS:
            shown = [*shown[: _MAX_TEXTS - 1], things.more_texts(count=len(texts) - _MAX_TEXTS + 1)]
        return things.legends(owner=first.owner, style=first.kind, texts=shown)


@lru_cache(maxsize=4096)
def _meant(text: str, spans: tuple[Span, ...], language: str) -> Text:
    return read(text, spans, language)


def _short(title: str) -> str:
    """A catalogue title without what qualifies it, as it is written within a sentence."""
    short = title.partition(", ")[0].partition(" (")[0]
    return short[:1].lower() + short[1:] if short[1:2].islower() else short


def survey(layout: Layout, limits: Limits | None = None, abbreviations: frozenset[str] = frozenset()) -> Survey:
    """Make a layout ready; the limits are the program's own when none are given.

    `abbreviations` are words, in capitals, that the reader knows besides those of the program's list.
    """
    return Survey(layout=layout, limits=standard() if limits is None else limits, abbreviations=abbreviations)


def sharing(pairs: Iterable[tuple[Solid, Solid]]) -> list[tuple[Solid, Solid]]:
    """The pairs of different owners that share ground."""
    return [(one, two) for one, two in pairs if one.owner != two.owner and one.overlaps(two)]


def inked(pairs: Iterable[tuple[First, Solid]]) -> list[tuple[First, Solid]]:
    """The pairs where ink lies on the ground of the solid."""
    left = ((ink, solid) for ink, solid in pairs if not solid.surely_clear_of(ink.box))
    return [(ink, solid) for ink, solid in left if reach(ink, solid) > ROUNDING]


def reach(one: Thing, two: Thing) -> float:
    """How far two things overlap, in mm: the shortest move that separates those of their pieces that meet.

    0 where they share no more than a line. Taken by the pieces' outer forms.
    """
    there = np.array([ground for ground, _ in two.pieces], dtype=object)[np.newaxis, :]
    around = shapely.box(one.box.left, one.box.bottom, one.box.right, one.box.top)
    if not shapely.intersects(around, there).any():
        return 0.0  # before letters are drawn out
    here = np.array([ground for ground, _ in one.pieces], dtype=object)[:, np.newaxis]
    meeting = shapely.intersects(here, there)
    meeting[meeting] = ~shapely.touches(*(grounds[meeting] for grounds in np.broadcast_arrays(here, there)))
    depths = (depth(one.pieces[row][1], two.pieces[column][1]) for row, column in np.argwhere(meeting))
    return max(depths, default=0.0)


def shared_place(one: Thing, two: Thing) -> Box:
    """The box round what two things share; between their middles when that is too little to be found."""
    common = shapely.intersection(one.ground, two.ground)
    if common.is_empty:
        middle = one.box.centre.middle(two.box.centre)
        return Box(middle.x, middle.y, middle.x, middle.y)
    return Box(*(float(side) for side in common.bounds))


def _envelope(envelope: PlacedEnvelope) -> Solid:
    return Solid(
        owner=envelope.ref,
        what=envelope.what,
        words=things.piece(ref=envelope.ref, what=envelope.what),
        contour=envelope.contour,
        box=_box_of(envelope.contour),
        where=envelope.where,
        hides=envelope.covers,
        height=envelope.height,
        role=envelope.role,
    )


def _opening(opening: CutOpening, contour: Contour) -> Solid:
    return Solid(
        owner=opening.ref,
        what="opening",
        words=things.opening(name=opening.name),
        contour=contour,
        box=_box_of(contour),
        where=opening.where,
        on=opening.on,
    )


def zone(area: Keepout, words: Said) -> Solid:
    """What a standard keeps free for rails, named by whose they are."""
    return replace(_keepout(area), words=words)


def _keepout(keepout: Keepout) -> Solid:
    named = things.front_keepout if keepout.side is Side.FRONT else things.rear_keepout
    return Solid(
        owner="",
        what=_KEEPOUT,
        words=named(why=keepout.why),
        contour=keepout.contour,
        box=keepout.contour.bounds,
        where=keepout.where,
    )


def _words(legend: PlacedLegend) -> Words:
    return Words(
        owner=legend.ref,
        kind=legend.style,
        text=legend.text,
        cap_height=legend.cap_height,
        legend=legend,
        box=legend.box,
        where=legend.where,
    )


def _stroke(mark: Mark) -> Stroke:
    return Stroke(
        owner=mark.ref,
        kind=mark.kind,
        mark=mark,
        box=_box_of_line(mark),
        where=mark.where,
    )


def _box_of(contour: Contour) -> Box:
    round_ = contour.circle
    if round_ is None:
        return contour.bounds
    centre, radius = round_
    return Box(centre.x - radius, centre.y - radius, centre.x + radius, centre.y + radius)


def _box_of_line(mark: Mark) -> Box:
    half = mark.width / 2
    curves = [curve for loop in mark.shape for curve in loop.curves]
    if not all(isinstance(curve, Line) for curve in curves):
        return bounds(mark.shape).grown(half)
    # Graduations come by the thousand, and their ends say it all.
    x = [end.x for curve in curves for end in (curve.start, curve.end)]
    y = [end.y for curve in curves for end in (curve.start, curve.end)]
    return Box(min(x) - half, min(y) - half, max(x) + half, max(y) + half)
