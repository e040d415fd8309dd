"""What is lost between the artwork and the print: inks, base, trap, ink on bare pads, and the label film."""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from panelart.checks.findings import Bound, Observation
from panelart.checks.limits import Basis, Limit
from panelart.checks.marking import gap_limit, of_process, own_limit
from panelart.checks.mends import moved_apart, moved_texts, other_sides
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Ink, Solid, Stroke, Survey
from panelart.diagnostics import Severity, Where
from panelart.geometry import Box, Contour, Point
from panelart.lettering.measures import widths
from panelart.marking.areas import area_of, contour_area
from panelart.marking.overlay import bridges, windows
from panelart.marking.separation import ground_lightness
from panelart.messages import Said
from panelart.messages import checks_limits as of_limits
from panelart.messages import checks_things as things
from panelart.model.light import lightness
from panelart.model.panel import Side
from panelart.model.printing import Background, Gradient, Photo, Thin
from panelart.model.printing import Solid as Flat


def colour_of(ink: Ink) -> str:
    """The name of the ink of words or of a mark."""
    return ink.mark.ink.name if isinstance(ink, Stroke) else ink.legend.ink.name


def _shown(ink: Ink) -> str:
    return ink.mark.ink.colour if isinstance(ink, Stroke) else ink.legend.ink.colour


def _stroke_of(ink: Ink) -> float:
    """The thinnest line of words or of a mark in mm; of a filled shape nothing is known."""
    if isinstance(ink, Stroke):
        return float("inf") if ink.mark.filled else ink.mark.width
    setting = ink.legend.setting
    return float("inf") if setting is None else widths(setting).stroke


def _every(survey: Survey) -> tuple[Ink, ...]:
    return (*survey.legends, *survey.frame_lines)


def _by_kind(inks: list[tuple[float, Ink]]) -> Iterator[tuple[float, list[Ink]]]:
    """Things of one owner and kind together, with the smallest of their measures."""
    kinds: dict[tuple[str, str], list[tuple[float, Ink]]] = {}
    for value, ink in inks:
        kinds.setdefault((ink.owner, ink.kind), []).append((value, ink))
    for group in kinds.values():
        yield min(value for value, _ in group), [ink for _, ink in group]


@rule(
    Severity.ERROR,
    says="Panel has {measured} inks ({subject}); maximum {limit}",
    fix="Reduce the number of inks to {limit}, or choose another process.",
    limits=("process.inks_maximum",),
)
def too_many_inks(survey: Survey) -> Iterator[Observation]:
    """The panel has more inks than its marking process can print.

    Inks in which something is drawn count; base and varnish do not.

    Source: the process's own figure.
    Fix: fewer inks, or another process.
    Fails: two inks for a laser, which burns one colour.
    Passes: one ink.
    """
    limit = own_limit(survey, "inks_maximum", of_limits.ink_count())
    if limit is None:
        return
    used = {colour_of(ink) for ink in _every(survey)}
    used |= {name for ground in survey.panel.marking.printing.backgrounds for name in inks_of(ground)}
    named = [ink.name for ink in survey.panel.marking.inks if ink.name in used]
    if len(named) > limit.value:
        yield Observation(
            refs=(),
            place=survey.panel.outline.bounds,
            where=survey.panel.where,
            subject=things.ink_list(names=named),
            measured=float(len(named)),
            limit=limit,
            bound=Bound.MAXIMUM,
        )


too_many_inks.cases(
    """
    marking: {process: laser-marking, inks: [{name: black, colour: "#000000"}, {name: grey, colour: "#404040"}]}
    texts: [{text: FUSE, at: [40, 50]}, {text: LOAD, at: [40, 70], ink: __}]
    """,
    fails="grey",
    passes="black",
)


def inks_of(ground: Background) -> tuple[str, ...]:
    """The names of the inks of a background; none for a picture in the press's own colours."""
    match ground.colour:
        case Flat(ink=ink):
            return (ink,)
        case Gradient(stops=stops):
            return tuple(dict.fromkeys(stop.ink for stop in stops))
        case Photo(ink=ink):
            return () if ink is None else (ink,)


def name_of_ground(ground: Background) -> Said:
    """The ink or inks of a background, or the picture that it is, by name."""
    names = inks_of(ground)
    if len(names) == 1:
        return names[0]
    return things.inks(names=names) if names else things.picture()


@rule(
    Severity.WARNING,
    says="{subject}: no base under lines {measured} wide; minimum {limit}",
    fix="Make the lines {limit} wide, or print the base at the full width of the ink (`thin: full`).",
    limits=("process.base_line_minimum",),
)
def base_lost(survey: Survey) -> Iterator[Observation]:
    """Lines of a legend are too thin for a choked base and have none, so that the coat's colour shows through the ink.

    Reported only where the spec asks for no base under thin ink (`thin: none`). A line must be at least as wide as
    twice the choke plus the narrowest line of base that holds.

    Source: the choke and the process's narrowest line of base.
    Fix: bolder lettering, a smaller choke, or `thin: full`.
    Fails: letters with strokes of 0.25 mm where the choke is 0.1 mm and base holds from 0.1 mm.
    Passes: the same letters with strokes of 0.35 mm.
    """
    base = survey.panel.marking.printing.base
    hold = own_limit(survey, "base_line_minimum", of_limits.base_line_width())
    if base is None or base.thin is not Thin.NONE:
        return
    limit = Limit(
        name="base.line",
        what=of_limits.based_line_width(),
        value=2.0 * base.choke + base.hold,
        unit="mm",
        source=of_limits.twice_choke(choke=base.choke, line=base.hold)
        if hold is None
        else of_limits.twice_choke_by(choke=base.choke, line=base.hold, source=hold.source),
        basis=Basis.COMMON_PRACTICE,
    )
    thin = [
        (stroke, ink)
        for ink in _every(survey)
        if colour_of(ink) in base.under and (stroke := _stroke_of(ink)) < limit.value - ROUNDING
    ]
    for stroke, inks in _by_kind(thin):
        yield _seen(survey, inks, stroke, limit)


base_lost.cases(
    """
    panel: {coat: {kind: powder, thickness: 0.08, colour: "#2B3036"}}
    marking: {ink: {name: amber, colour: "#F2B84B"}, base: {choke: 0.1, thin: __}}
    texts: [{text: FUSE, at: [40, 50], cap_height: 2.8, font: {weight: light}}]
    """,
    fails="none",
    passes="full",
)


def _seen(
    survey: Survey, inks: list[Ink], measured: float, limit: Limit, other: Said = "", refs: tuple[str, ...] = ()
) -> Observation:
    return Observation(
        refs=(inks[0].owner, *refs),
        place=Box.around(ink.box for ink in inks),
        where=inks[0].where,
        subject=survey.named(inks),
        other=other,
        measured=measured,
        limit=limit,
    )


def background_area(survey: Survey, ground: Background) -> shapely.Geometry:
    """What a background covers: all of the face where it says nothing."""
    return contour_area(survey.panel.outline) if ground.area is None else area_of(ground.area)


def _on_grounds(survey: Survey) -> Iterator[tuple[Background, list[Ink]]]:
    """Backgrounds with the legends of other inks that lie on them."""
    for ground in survey.panel.marking.printing.backgrounds:
        names = inks_of(ground)
        area = background_area(survey, ground)
        left, bottom, right, top = area.bounds
        around = Box(left, bottom, right, top)
        near = (ink for ink in _every(survey) if ink.box.overlaps(around))
        others = [ink for ink in near if len(names) != 1 or colour_of(ink) != names[0]]
        lying = [ink for ink in others if shapely.intersects(area, ink.ground)]
        if lying:
            yield ground, lying


@rule(
    Severity.WARNING,
    says="Trap between {subject} and {other} is {measured}; minimum {limit}",
    fix="Set a trap of {limit}, or keep the inks apart.",
    limits=("process.ink_register",),
)
def trap_too_small(survey: Survey) -> Iterator[Observation]:
    """Two inks touch, and the trap is smaller than the register error between them.

    The coat may then show between the two inks.

    Source: the process's own figure for ink to ink.
    Fix: a larger `trap`, or inks that do not touch.
    Fails: a trap of 0.1 mm where inks register within 0.2 mm of each other.
    Passes: a trap of 0.2 mm, or inks that do not touch.
    """
    limit = own_limit(survey, "ink_register", of_limits.ink_register())
    printing = survey.panel.marking.printing
    if limit is None or printing.trap >= limit.value - ROUNDING:
        return
    pairs: dict[tuple[str, Said], tuple[Ink, Box]] = {}
    for ground, inks in _on_grounds(survey):
        name = name_of_ground(ground)
        for ink in inks:
            if colour_of(ink) != name:
                pairs.setdefault((colour_of(ink), name), (ink, ink.box))
    if len({colour_of(ink) for ink in survey.legends}) > 1:
        for one, two in survey.legends.near_each_other():
            names = sorted((colour_of(one), colour_of(two)))
            if names[0] != names[1] and shapely.intersects(one.ground, two.ground):
                pairs.setdefault((names[0], names[1]), (one, one.box.union(two.box)))
    for (first, second), (ink, place) in pairs.items():
        yield Observation(
            refs=(ink.owner,),
            place=place,
            where=ink.where,
            subject=first,
            other=second,
            measured=printing.trap,
            limit=limit,
        )


trap_too_small.cases(
    """
    marking:
      process: screen-print
      inks: [{name: black, colour: "#000000"}, {name: amber, colour: "#F2B84B"}]
      trap: __
      backgrounds: [{ink: amber, area: {rectangle: [20, 20, 60, 60]}}]
    texts: [{text: FUSE, at: [40, 50]}]
    """,
    fails="0.1",
    passes="0.3",
)


@rule(
    Severity.WARNING,
    says="{subject}: strokes knocked out of {other} are {measured} wide; minimum {limit}",
    fix="Make the strokes {limit} wide.",
    limits=("process.gap_minimum", "process.line_minimum"),
)
def knockout_too_narrow(survey: Survey) -> Iterator[Observation]:
    """Light letters are knocked out of a darker background with strokes so narrow that its ink closes over them.

    Dark letters on a lighter background overprint its edge and are not checked. Strokes too thin for the process in any
    case are a separate finding.

    Source: the process's own figure for the narrowest line left bare.
    Fix: bolder or larger lettering on the background, or no background behind it.
    Fails: strokes of 0.2 mm knocked out of a field where the process keeps gaps of 0.26 mm open.
    Passes: strokes of 0.3 mm.
    """
    limit = gap_limit(survey)
    colours = {ink.name: ink.colour for ink in survey.panel.marking.inks}
    for ground, inks in _on_grounds(survey):
        other = things.background(ink=name_of_ground(ground))
        lighter = [ink for ink in inks if lightness(_shown(ink)) > ground_lightness(ground, colours)]
        minimum = survey.panel.marking.process.line_minimum.value - ROUNDING
        narrow = [(stroke, ink) for ink in lighter if minimum <= (stroke := _stroke_of(ink)) < limit.value - ROUNDING]
        for stroke, group in _by_kind(narrow):
            yield _seen(survey, group, stroke, limit, other=other)


knockout_too_narrow.cases(
    """
    marking:
      inks: [{name: black, colour: "#000000"}, {name: white, colour: "#FFFFFF"}]
      backgrounds: [{ink: black, area: {rectangle: [20, 20, 60, 60]}}]
    texts: [{text: FUSE, at: [40, 50], ink: white, cap_height: __, font: {weight: light}}]
    """,
    fails="2.55",
    passes="3.5",
)


def _nearer(survey: Survey, contour: Contour, minimum: float) -> list[tuple[float, Ink]]:
    """Marking that is nearer to an area than so many mm, with its distance; 0 where it lies on it."""
    ground, around = contour_area(contour), contour.bounds.grown(minimum)
    near = [ink for ink in _every(survey) if ink.box.overlaps(around)]
    apart = [(float(shapely.distance(ground, ink.ground)), ink) for ink in near]
    return [(distance, ink) for distance, ink in apart if distance < minimum - ROUNDING]


@rule(
    Severity.WARNING,
    says="{subject}: clearance to {other} is {measured}; minimum {limit}",
    fix="Move the legend until the clearance is {limit}.",
    limits=("process.mask_margin",),
    mends=(other_sides, moved_texts, moved_apart),
)
def ink_near_bare_pad(survey: Survey) -> Iterator[Observation]:
    """Ink is closer to an area that must stay bare than the process permits.

    These areas are those on the front that are masked during coating. Not reported where ink lies on the area: that is
    a separate finding.

    Source: the process's own figure.
    Fix: move the legend away from the area.
    Fails: a name 0.3 mm from a bonding pad where the process needs 0.5 mm.
    Passes: the same name 0.5 mm from it.
    """
    limit = own_limit(survey, "mask_margin", of_limits.bare_pad_distance())
    if limit is None:
        return
    for mask in survey.layout.masks:
        if mask.side is not Side.FRONT:
            continue
        near = _nearer(survey, mask.contour, limit.value)
        for distance, inks in _by_kind([(distance, ink) for distance, ink in near if distance > 0.0]):
            refs = (mask.name,) if mask.name in survey.panel.by_ref else ()
            yield _seen(survey, inks, distance, limit, other=things.uncoated_area(name=mask.name), refs=refs)


ink_near_bare_pad.cases(
    """
    panel: {coat: {kind: powder, thickness: 0.08, colour: "#FFFFFF"}}
    masks: [{area: {rectangle: [20, 20, 30, 20]}, why: bonding pad}]
    texts: [{text: FUSE, at: [30, __], style: name}]
    """,
    fails="40.3",
    passes="42",
)


@rule(
    Severity.WARNING,
    says="{subject}: clearance to {other} is {measured}; minimum {limit}",
    fix="Move the legend until the clearance is {limit}.",
    limits=("process.opening_margin",),
    mends=(other_sides, moved_texts, moved_apart),
)
def legend_near_window(survey: Survey) -> Iterator[Observation]:
    """A legend on a label film is too close to the cut edge of a window, or in the window.

    Windows are larger than openings: they clear nuts and screw heads by a margin. A clearance of 0 means that the
    window cuts the legend. Not reported where a part hides the legend, or where it is too close to the opening itself:
    those are separate findings.

    Source: the process's own distance from openings.
    Fix: move the legend away, or reduce the margin of the window.
    Fails: a name 0.2 mm from the window of a nut where the process needs 0.5 mm.
    Passes: the same name 0.5 mm from it.
    """
    overlay = survey.panel.marking.printing.overlay
    if overlay is None:
        return
    limit = of_process(survey, "opening_margin")
    known = {(id(ink), solid.owner) for ink, solid in survey.hidden}
    known |= {
        (id(ink), hole.owner)
        for group in (survey.legends, survey.frame_lines)
        for ink, hole in group.near(survey.openings, limit.value)
        if shapely.distance(ink.ground, hole.ground) < limit.value
    }
    for window in windows(survey.layout, overlay):
        near = [
            (distance, ink)
            for distance, ink in _nearer(survey, window.contour, limit.value)
            if (id(ink), window.ref) not in known
        ]
        for distance, inks in _by_kind(near):
            yield _seen(survey, inks, distance, limit, other=things.window(ref=window.ref), refs=(window.ref,))


legend_near_window.cases(
    """
    marking: {process: overlay}
    parts: [{ref: S1, part: toggle-12, at: [60, 50], legend: Load}]
    texts: [{text: FUSE, at: [__, 48], style: name}]
    """,
    fails="70",
    passes="75",
)


@rule(
    Severity.WARNING,
    says="{subject}: web of the label film to {other} is {measured}; minimum {limit}",
    fix="Move the parts apart until {limit} of label film remains, or make one window of the two.",
    limits=("process.bridge_minimum",),
    mends=(moved_apart,),
)
def label_film_web_narrow(survey: Survey) -> Iterator[Observation]:
    """Between two windows of a label film, or a window and its edge, the label film is so narrow that it stretches.

    Source: the process's own figure.
    Fix: smaller margins round the windows, parts farther apart, or one window for both.
    Fails: 1.5 mm of film between two windows where 2 mm are needed.
    Passes: 2 mm.
    """
    overlay = survey.panel.marking.printing.overlay
    limit = own_limit(survey, "bridge_minimum", of_limits.overlay_web_width())
    if overlay is None or limit is None:
        return
    for bridge in bridges(survey.layout, overlay, limit.value):
        yield Observation(
            refs=bridge.refs,
            place=Box.around(bridge.ends),
            where=_where(survey, bridge.refs),
            subject=things.window(ref=bridge.refs[0]),
            other=things.window(ref=bridge.refs[-1]) if bridge.other else things.film_edge(),
            measured=bridge.width,
            limit=limit,
        )


label_film_web_narrow.cases(
    """
    marking: {process: overlay}
    parts:
      - {ref: H1, part: pilot-16, at: [40, 50], legend: Run}
      - {ref: H2, part: pilot-16, at: [__, 50], legend: Jam}
    """,
    fails="58.4",
    passes="70",
)


def _where(survey: Survey, refs: tuple[str, ...]) -> Where:
    part = survey.panel.by_ref.get(refs[0])
    return survey.panel.where if part is None else part.where


@rule(
    Severity.WARNING,
    says="{subject}: clearance from line to {other} is {measured}; minimum {limit}",
    fix="Change the margin of the frame until the clearance is {limit}.",
    limits=("process.opening_margin",),
)
def frame_near_opening(survey: Survey) -> Iterator[Observation]:
    """The line of a frame is closer to an opening than the marking process can print cleanly.

    Not reported where a part covers both, or where the line crosses the opening: that is a separate finding.

    Source: the process's own figure; ink thins out at the rim of an opening.
    Fix: another margin for the frame.
    Fails: a line 0.3 mm from a screw hole where the process needs 0.5 mm.
    Passes: the same line 0.5 mm from it.
    """
    limit = of_process(survey, "opening_margin")
    covered = {(id(ink), solid.owner) for ink, solid in survey.frame_lines.near(survey.covers)}
    groups: dict[tuple[str, int], tuple[float, Stroke, Solid]] = {}
    for line, hole in survey.frame_lines.near(survey.openings, limit.value):
        if (id(line), hole.owner) in covered and not _clear_of_covers(survey, line, hole):
            continue
        distance = float(shapely.distance(line.ground, hole.ground))
        if 0.0 < distance < limit.value - ROUNDING:
            known = groups.get((line.owner, id(hole)))
            if known is None or distance < known[0]:
                groups[line.owner, id(hole)] = (distance, line, hole)
    for distance, line, hole in groups.values():
        way = shapely.get_coordinates(shapely.shortest_line(line.ground, hole.ground))
        ends = [Point(float(x), float(y)) for x, y in way]
        yield Observation(
            refs=(line.owner, *hole.refs),
            place=Box.around(ends),
            where=line.where,
            subject=survey.frame(line.owner),
            other=hole.words,
            measured=distance,
            limit=limit,
        )


frame_near_opening.cases(
    """
    parts:
      - {ref: J1, part: bnc, at: [50, 50], legend: In}
      - {ref: J2, part: bnc, at: [90, 50], legend: Out}
      - {ref: H1, part: {part: opening-circle, opening: {diameter: 4}}, at: [__, 50]}
    frames: [{around: [J1, J2]}]
    """,
    fails="103.6",
    passes="130",
)


def _clear_of_covers(survey: Survey, line: Stroke, hole: Solid) -> bool:
    """Whether no cover of the hole's part lies over the line."""
    return not any(
        solid.owner == hole.owner and shapely.intersects(solid.ground, line.ground) for solid in survey.covers
    )
