"""Marking that clears its neighbours on the screen and may not on the piece: register error, play, narrow gaps."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

import shapely
from msgspec.structs import replace

from panelart.checks.findings import Bound, Observation
from panelart.checks.limits import Basis, Limit
from panelart.checks.marking import gap_limit, of_process, own_limit
from panelart.checks.mends import moved_apart, moved_inwards, moved_texts, other_sides
from panelart.checks.printing import background_area, colour_of, inks_of, name_of_ground
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Group, Ink, Solid, Stroke, Survey, Words
from panelart.cutouts.uncertainty import Uncertainty, ink_to_edge, ink_to_hole, ink_to_ink, ink_to_part
from panelart.diagnostics import Severity
from panelart.geometry import Box
from panelart.geometry.polygons import polygon
from panelart.messages import Said
from panelart.messages import checks_limits as of_limits
from panelart.messages import checks_things as things
from panelart.model.component import EnvelopeRole
from panelart.model.layout import CutOpening


@rule(
    Severity.WARNING,
    says="{subject}: clearance to {other} is {measured}; minimum {limit}",
    fix="Move the legend until the clearance is {limit}.",
    mends=(other_sides, moved_texts, moved_apart),
)
def legend_near_hardware(survey: Survey) -> Iterator[Observation]:
    """A legend is so close to a part that the part may cover it on the finished panel.

    Measured from the ink to what hides the face. The minimum is how far the two may be off each other: the register
    error of the marking, the position error of the hole, the play of the part in it, and what the hole may be larger by
    its tolerance and under the thinnest coat; all at once, or as the root of the sum of squares where `making.one_in`
    says so. Legends that are covered as drawn are separate findings.

    Source: the panel's own register and position error, the part's entry, ISO 286-2 for holes without a tolerance of
    their own, and the range of coat thickness.
    Fix: move the legend away.
    Fails: a text 0.2 mm from the head of a screw, where the register error is 0.3 mm.
    Passes: the same text 1.0 mm from it.
    """
    openings: dict[str, list[CutOpening]] = {}
    for opening in survey.layout.openings:
        openings.setdefault(opening.ref, []).append(opening)
    panel = survey.panel
    off = {ref: ink_to_part(panel, own) for ref, own in openings.items()}
    widest = max((one.total for one in off.values()), default=0.0)
    known = {(id(ink), solid.owner) for ink, solid in survey.hidden}
    nearest: dict[tuple[str, str, str], tuple[float, Ink, Solid]] = {}
    for ink, solid in survey.legends.near(survey.covers, widest):
        may = off.get(solid.owner)
        if may is None or solid.role is EnvelopeRole.PLUG or (id(ink), solid.owner) in known:
            continue
        distance = float(shapely.distance(ink.ground, solid.ground))
        key = (ink.owner, ink.kind, solid.owner)
        if may.room(distance) < -ROUNDING and distance < nearest.get(key, (may.total,))[0]:
            nearest[key] = (distance, ink, solid)
    for distance, ink, solid in nearest.values():
        yield _narrow(survey, ink, solid, distance, _limit(off[solid.owner]))


legend_near_hardware.cases(
    """
    parts: [{ref: H1, part: screw-m4, at: [60, 50]}]
    texts: [{text: FUSE, at: [__, 48], style: name}]
    marking: {register: 0.3}
    """,
    fails="64.2",
    passes="65",
)


def _limit(off: Uncertainty) -> Limit:
    return Limit(
        name="",
        what=of_limits.clearance_of_ink(),
        value=off.total,
        unit="mm",
        source=off.words,
        basis=Basis.GIVEN,
    )


def _narrow(survey: Survey, ink: Ink, other: Solid | Stroke, distance: float, limit: Limit) -> Observation:
    words = other.words if isinstance(other, Solid) else survey.named([other])
    refs = other.refs if isinstance(other, Solid) else (other.owner,)
    return _near(survey, ink, refs, words, other.ground, distance, limit)


def _near(
    survey: Survey,
    ink: Ink,
    refs: tuple[str, ...],
    other: Said,
    ground: shapely.Geometry,
    distance: float,
    limit: Limit,
) -> Observation:
    way = shapely.get_coordinates(shapely.shortest_line(ink.ground, ground))
    return Observation(
        refs=(ink.owner, *refs),
        place=Box(*way.min(axis=0).tolist(), *way.max(axis=0).tolist()),
        where=ink.where,
        subject=survey.named([ink]),
        other=other,
        measured=distance,
        limit=limit,
        bound=Bound.MINIMUM,
    )


@rule(
    Severity.WARNING,
    says="{subject}: gap to {other} is {measured}; minimum {limit}",
    fix="Move the legend until the gap is {limit}.",
    limits=("process.gap_minimum",),
    mends=(other_sides, moved_texts),
)
def legend_near_mark(survey: Survey) -> Iterator[Observation]:
    """The gap between a legend and a line or field beside it is narrower than the process keeps open.

    Overlaps are separate findings, and words on a field of another ink are not beside it.

    Source: the process's own figure for the narrowest gap that stays open.
    Fix: move the legend away from the line or field.
    Fails: a text 0.1 mm above a rule, printed where gaps stay open from 0.26 mm.
    Passes: the same text 1 mm above it.
    """
    limit = gap_limit(survey)
    nearest: dict[tuple[str, str, str], tuple[float, Words, Stroke]] = {}
    for word, mark in survey.words.near(survey.scale_marks, limit.value):
        distance = float(shapely.distance(word.ground, mark.ground))
        key = (word.owner, word.kind, mark.owner)
        if ROUNDING < distance < nearest.get(key, (limit.value - ROUNDING,))[0]:
            nearest[key] = (distance, word, mark)
    for distance, word, mark in nearest.values():
        yield _narrow(survey, word, mark, distance, limit)


legend_near_mark.cases(
    """
    art: [{rule: [[20, 50], [100, 50]]}]
    texts: [{text: FUSE, at: [40, __], style: name}]
    """,
    fails="50.3",
    passes="52",
)


@rule(
    Severity.WARNING,
    says="{subject}: clearance to {other} is {measured}; minimum {limit}",
    fix="Move the legend until the clearance is {limit}.",
    limits=("process.edge_margin", "process.opening_margin"),
    mends=(other_sides, moved_texts, moved_apart, moved_inwards),
)
def marking_near_cut(survey: Survey) -> Iterator[Observation]:
    """Marking is so close to an opening or to the edge of the face that some of it may be lost on the finished panel.

    Measured from the ink to the rim of the finished opening or face. The minimum is how far the two may be off each
    other: the register error of the marking, and for an opening its position error, what it may be larger by its
    tolerance, and what it is larger under the thinnest coat; all at once, or as the root of the sum of squares where
    `making.one_in` says so. Reported only beyond the process's own distances from openings and edges, which are
    findings of their own, and not where the opening's part covers its rim.

    Source: the panel's own register and position error, ISO 286-2 for holes without a tolerance of their own, and the
    range of coat thickness.
    Fix: move the legend away, or mark in better register.
    Fails: a text 1 mm from a hole, where the register error is 1.2 mm.
    Passes: the same text 2 mm from it.
    """
    groups = (survey.legends, survey.frame_lines)
    yield from chain.from_iterable(_near_openings(survey, group) for group in groups)
    yield from chain.from_iterable(_near_rim(survey, group) for group in groups)


marking_near_cut.cases(
    """
    parts: [{ref: H1, part: {part: opening-circle, opening: {diameter: 8}}, at: [60, 50]}]
    texts: [{text: FUSE, at: [__, 48], style: name}]
    marking: {register: 1.2}
    """,
    fails="65",
    passes="67",
)
marking_near_cut.cases(
    """
    texts: [{text: FUSE, at: [40, __], style: name}]
    marking: {register: 4}
    """,
    fails="3",
    passes="5",
)


def _near_openings(survey: Survey, group: Group[Words] | Group[Stroke] | Group[Ink]) -> Iterator[Observation]:
    openings = zip(survey.openings, survey.layout.openings, strict=True)
    off = {id(hole): ink_to_hole(survey.panel, opening) for hole, opening in openings}
    known = of_process(survey, "opening_margin").value
    widest = max((one.total for one in off.values()), default=0.0)
    if widest <= known:
        return
    nearest: dict[tuple[str, str, int], tuple[float, Ink, Solid]] = {}
    for ink, hole in group.near(survey.openings, widest):
        may, distance = off[id(hole)], float(shapely.distance(ink.ground, hole.ground))
        if distance < known - ROUNDING or may.room(distance) >= -ROUNDING or _covered(survey, ink, hole, distance):
            continue
        key = (ink.owner, ink.kind, id(hole))
        if key not in nearest or distance < nearest[key][0]:
            nearest[key] = (distance, ink, hole)
    for distance, ink, hole in nearest.values():
        yield _narrow(survey, ink, hole, distance, _limit(off[id(hole)]))


def _covered(survey: Survey, ink: Ink, hole: Solid, distance: float) -> bool:
    """Whether what covers the rim of an opening is nearer to the ink than the rim."""
    return any(
        cover.owner == hole.owner and float(shapely.distance(ink.ground, cover.ground)) < distance
        for cover in survey.covers
    )


def _near_rim(survey: Survey, group: Group[Words] | Group[Stroke] | Group[Ink]) -> Iterator[Observation]:
    off = ink_to_edge(survey.panel)
    known = of_process(survey, "edge_margin").value
    if off.total <= known:
        return
    rim = polygon(survey.panel.outline, side="inside").boundary
    nearest: dict[tuple[str, str], tuple[float, Ink]] = {}
    for ink, sure in zip(group, survey.edge.surely_inside(group.boxes, off.total), strict=True):
        margin = 0.0 if sure else survey.edge.margin(ink.body, ink.ground)
        if sure or margin < known - ROUNDING or off.room(margin) >= -ROUNDING:
            continue
        key = (ink.owner, ink.kind)
        if key not in nearest or margin < nearest[key][0]:
            nearest[key] = (margin, ink)
    for margin, ink in nearest.values():
        yield _near(survey, ink, (), things.panel_edge(), rim, margin, _limit(off))


@rule(
    Severity.WARNING,
    says="{subject}: clearance to the edge of {other} is {measured}; minimum {limit}",
    fix="Move the legend until the clearance is {limit}.",
    limits=("process.ink_register",),
    mends=(moved_texts, other_sides),
)
def marking_near_ground(survey: Survey) -> Iterator[Observation]:
    """Marking is so close to the edge of a field or background of another ink that it may cross that edge when printed.

    Measured from the ink to the edge, on either side of it. The minimum is how far the two inks may be off each other.
    Marking that crosses the edge as drawn is not reported.

    Source: the process's own figure for ink to ink.
    Fix: move the legend away from the edge, or farther over it.
    Fails: a text 0.1 mm inside a background, where inks register within 0.2 mm of each other.
    Passes: the same text 0.4 mm inside it.
    """
    register = own_limit(survey, "ink_register", of_limits.ink_register())
    if register is None:
        return
    off = ink_to_ink(survey.panel.making, register.value)
    nearest: dict[tuple[str, str, str], tuple[float, Ink, Said, shapely.Geometry]] = {}
    for names, ground, name in _grounds(survey):
        edge, (left, bottom, right, top) = ground.boundary, ground.bounds
        around = Box(left, bottom, right, top).grown(off.total)
        for ink in (*survey.legends, *survey.frame_lines):
            if colour_of(ink) in names or not ink.box.overlaps(around):
                continue
            distance = float(shapely.distance(edge, ink.ground))
            key = (ink.owner, ink.kind, str(name))
            if distance <= ROUNDING or off.room(distance) >= -ROUNDING:
                continue
            if key not in nearest or distance < nearest[key][0]:
                nearest[key] = (distance, ink, name, edge)
    for distance, ink, name, edge in nearest.values():
        limit = replace(register, value=off.total)
        yield _near(survey, ink, (), name, edge, distance, limit)


marking_near_ground.cases(
    """
    marking:
      process: screen-print
      inks: [{name: black, colour: "#000000"}, {name: amber, colour: "#F2B84B"}]
      trap: 0.3
      backgrounds: [{ink: amber, area: {rectangle: [20, 40, 60, 40]}}]
    texts: [{text: FUSE, at: [40, __], style: name}]
    """,
    fails="40.1",
    passes="40.4",
)


def _grounds(survey: Survey) -> Iterator[tuple[frozenset[str], shapely.Geometry, Said]]:
    """Areas of ink that marking may lie on or beside: the names of their inks, the area, and what it is called."""
    for ground in survey.panel.marking.printing.backgrounds:
        yield frozenset(inks_of(ground)), background_area(survey, ground), things.background(ink=name_of_ground(ground))
    for field in survey.fields:
        name = field.mark.ink.name
        yield frozenset((name,)), field.ground, things.background(ink=name)
