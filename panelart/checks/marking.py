"""What the marking process and the reader need: height, line width, distance from edges and openings."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from enum import Enum
from typing import Final

import shapely
from msgspec.structs import replace

from panelart.checks.findings import Finding, Observation, Spot, place_of, refs_of
from panelart.checks.limits import BASES, Basis, Limit
from panelart.checks.mends import Mend, moved_apart, moved_inwards, moved_texts, other_sides, raised
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, First, Group, Ink, Solid, Stroke, Survey, Words, inked
from panelart.diagnostics import Severity
from panelart.figure import Figure
from panelart.geometry import Box
from panelart.lettering.cuts import is_symbols
from panelart.lettering.ideographs import ideograph_height
from panelart.lettering.scripts import script_of
from panelart.messages import Said
from panelart.messages import checks as said
from panelart.messages import checks_limits as of_limits
from panelart.model.panel import Panel
from panelart.processes.process import Process


def height_at(angle_arcmin: float, distance: float) -> float:
    """Height in mm that fills a visual angle at a distance in mm: 2 d tan(a / 2), plane geometry."""
    return 2.0 * distance * math.tan(math.radians(angle_arcmin / 60.0) / 2.0)


def process_limit(process: Process, name: str, what: Said) -> Limit:
    """One of a process's limits, by the name of its attribute, with its own source and standing."""
    figure: Figure = getattr(process, name)
    return Limit(
        name=f"{process.name}.{name}",
        what=what,
        value=figure.value,
        unit=figure.unit,
        source=of_limits.figure_of(title=process.title, source=figure.source),
        basis=BASES[figure.known],
    )


_PROCESS_LIMITS = {
    "cap_height_minimum": of_limits.cap_height(),
    "line_minimum": of_limits.line_width(),
    "gap_minimum": of_limits.gap_width(),
    "edge_margin": of_limits.edge_distance(),
    "opening_margin": of_limits.opening_distance(),
}


def process_limits(process: Process) -> dict[str, Limit]:
    """The limits of a process under the names that findings have them by: digital-print.line_minimum."""
    limits = (process_limit(process, name, what) for name, what in _PROCESS_LIMITS.items())
    return {limit.name: limit for limit in limits}


def of_process(survey: Survey, name: str) -> Limit:
    """A limit of the panel's process: the house's where it has one."""
    process = survey.panel.marking.process
    own = survey.limits.get(f"{process.name}.{name}")
    return own if own is not None else process_limit(process, name, _PROCESS_LIMITS[name])


def own_limit(survey: Survey, name: str, what: Said) -> Limit | None:
    """A figure that only some processes have; None where the panel's process does not."""
    process = survey.panel.marking.process
    figure = process.own.get(name)
    if figure is None:
        return None
    return Limit(
        name=f"{process.name}.{name}",
        what=what,
        value=figure.value,
        unit=figure.unit,
        source=of_limits.figure_of(title=process.title, source=figure.source),
        basis=BASES[figure.known],
    )


def gap_limit(survey: Survey) -> Limit:
    """The narrowest gap that stays open: the process's figure, or what ink that spreads from both sides closes."""
    gap = of_process(survey, "gap_minimum")
    spread = own_limit(survey, "spread", of_limits.gap_width())
    if spread is None or 2.0 * spread.value <= gap.value:
        return gap
    return replace(
        spread, value=2.0 * spread.value, source=of_limits.twice_spread(spread=spread.value, source=spread.source)
    )


def _reading_limit(survey: Survey, name: str, what: Said) -> Limit:
    angle = survey.limits[name]
    distance = survey.panel.marking.viewing_distance
    return Limit(
        name=angle.name,
        what=what,
        value=height_at(angle.value, distance),
        unit="mm",
        source=of_limits.angle_seen(angle=(angle.value, angle.unit), distance=distance, source=angle.source),
        basis=angle.basis,
    )


class _Drawn(Enum):
    """What of lettering has a height."""

    CAPITALS = 1
    IDEOGRAPHS = 2
    SYMBOL = 3


_NAMED: Final = {
    _Drawn.CAPITALS: said.cap_height,
    _Drawn.IDEOGRAPHS: said.ideograph_height,
    _Drawn.SYMBOL: said.symbol_height,
}


def _heights(words: Words) -> Iterator[tuple[float, _Drawn]]:
    """The heights in mm that are read: of the symbol, or of ideographs and of all other letters."""
    if is_symbols(words.legend.font):
        yield words.cap_height, _Drawn.SYMBOL
        return
    setting = words.legend.setting
    height = None if setting is None else ideograph_height(setting)
    if height is not None:
        yield round(height, 6), _Drawn.IDEOGRAPHS
    if height is None or any(letter.isalnum() and script_of(letter) != "Hani" for letter in words.text):
        yield words.cap_height, _Drawn.CAPITALS


def _one_kind(group: Group[First]) -> Iterator[list[First]]:
    """The things of a group by owner and kind; lines of one kind may come in several widths."""
    kinds: dict[tuple[str, str, float], list[First]] = {}
    for thing in group:
        width = thing.mark.width if isinstance(thing, Stroke) else 0.0
        kind = "" if isinstance(thing, Solid) else thing.kind
        kinds.setdefault((thing.owner, kind, width), []).append(thing)
    yield from kinds.values()


def _raised(finding: Finding, panel: Panel) -> Iterator[Mend]:
    """A larger cap height, or a larger symbol."""
    return raised(finding, panel, symbol=finding.other == said.symbol_height())


@rule(
    Severity.ERROR,
    says="{subject}: {other} {measured}; minimum {limit}",
    fix="Raise the {other} to {limit}.",
    limits=("angle.read.minimum", "angle.ideographs.minimum", "process.cap_height_minimum"),
    mends=(_raised,),
)
def legend_too_small(survey: Survey) -> Iterator[Observation]:
    """Lettering, or a symbol, is smaller than the process can print or the reader can read.

    Two limits apply to the height of the drawn capitals, or of the symbol, and the stricter limit that is missed is
    reported: the minimum height of the marking process, and the height that subtends 15 minutes of arc at the viewing
    distance in the spec, h = 2 d tan(a / 2) exactly. (The multiplier 0.004 d printed beside that figure is rounded down
    and is not used.) Ideographs (Chinese characters, kanji, hanja) have more strokes in the same height and need 25
    minutes of arc, measured on the box that they fill; kana and hangul are held to the height of capitals. Lettering
    that can be printed but is hard to read is a warning. One finding for each style and height, with all the parts
    concerned.

    Source: the process's own figure; NUREG-0700 Rev. 3, 11.4.1.5-1; JIS Z 8513, kanji, as quoted. A kanji needs 0.4
    minutes of arc more for each stroke (Cai 2017), a Chinese character 0.25 (Cai, Chi and You 2001), as their abstracts
    say.
    Fix: raise the cap height, shorten the viewing distance, or waive it with the reason.
    Fails: capitals of 3.0 mm read from 700 mm, where 3.05 mm are needed.
    Passes: capitals of 3.1 mm at the same distance.
    """
    printed = of_process(survey, "cap_height_minimum")
    capitals = _reading_limit(survey, "angle.read.minimum", of_limits.reading_cap_height())
    ideographs = _reading_limit(survey, "angle.ideographs.minimum", of_limits.reading_ideographs())
    kinds: dict[tuple[str, float, _Drawn], list[Words]] = {}
    for legend in (*survey.words, *survey.dial_words):
        for height, drawn in _heights(legend):
            kinds.setdefault((legend.kind, height, drawn), []).append(legend)
    for (_, height, drawn), words in kinds.items():
        limits = sorted((printed, ideographs if drawn is _Drawn.IDEOGRAPHS else capitals), key=lambda one: -one.value)
        missed = next((limit for limit in limits if height < limit.value - ROUNDING), None)
        if missed is not None:
            fails = height < printed.value - ROUNDING and printed.basis is not Basis.MEMORY
            spots = tuple(Spot(ref=word.owner, place=word.box, where=word.where) for word in words)
            yield Observation(
                refs=refs_of(spots),
                place=place_of(spots),
                where=words[0].where,
                subject=survey.named(words),
                other=_NAMED[drawn](),
                measured=height,
                limit=missed,
                severity=None if fails else Severity.WARNING,
                each=spots,
            )


legend_too_small.cases(
    """
    marking: {viewing_distance: 700}
    texts: [{text: FUSE, at: [40, 50], style: name, cap_height: __}]
    """,
    fails="3",
    passes="3.1",
)


@rule(
    Severity.ERROR,
    says="{subject}: line width {measured}; minimum {limit}",
    fix="Draw the line {limit} wide.",
    limits=("process.line_minimum",),
)
def line_too_thin(survey: Survey) -> Iterator[Observation]:
    """A mark or a frame is thinner than the marking process can hold.

    Source: the process's own figure.
    Fix: a wider line, or another process.
    Fails: a mark of 0.15 mm where the process holds 0.2 mm.
    Passes: the same mark of 0.2 mm.
    """
    limit = of_process(survey, "line_minimum")
    for group in (survey.scale_marks, survey.frame_lines):
        for lines in _one_kind(group):
            if not lines[0].mark.filled and lines[0].mark.width < limit.value - ROUNDING:
                yield Observation(
                    refs=(lines[0].owner,),
                    place=Box.around(line.box for line in lines),
                    where=lines[0].where,
                    subject=survey.named(lines),
                    measured=lines[0].mark.width,
                    limit=limit,
                )


line_too_thin.cases(
    """
    art: [{rule: [[20, 50], [100, 50]], width: __}]
    """,
    fails="0.1",
    passes="0.4",
)


def _nearer_than(limit: Limit, things: Iterable[First], survey: Survey) -> Iterator[tuple[float, First]]:
    """What is nearer to the edge of the face than a limit, with how far inside it is."""
    for ink in things:
        margin = survey.edge.margin(ink.body, ink.ground)
        if margin < limit.value - ROUNDING:
            yield margin, ink


def _off_area(group: Group[First], survey: Survey) -> Iterator[Observation]:
    limit = of_process(survey, "edge_margin")
    inside = survey.edge.surely_inside(group.boxes, limit.value)
    clear = {id(thing) for thing, sure in zip(group, inside, strict=True) if sure}
    for things in _one_kind(group):
        short = list(_nearer_than(limit, (ink for ink in things if id(ink) not in clear), survey))
        inks: list[Ink] = [ink for _, ink in short if not isinstance(ink, Solid)]
        if inks:
            yield Observation(
                refs=(inks[0].owner,),
                place=Box.around(ink.box for ink in inks),
                where=inks[0].where,
                subject=survey.named(inks),
                measured=min(margin for margin, _ in short),
                limit=limit,
            )


@rule(
    Severity.ERROR,
    says="{subject}: distance to the edge of the panel is {measured}; minimum {limit}",
    fix="Move the legend inwards until the distance is {limit}.",
    limits=("process.edge_margin",),
    mends=(other_sides, moved_texts, moved_inwards),
)
def legend_off_printable_area(survey: Survey) -> Iterator[Observation]:
    """A legend is closer to the edge than the marking process can print, or beyond it.

    Measured from the ink to the edge of the finished face; negative when the ink is beyond the edge.

    Source: the process's own figure.
    Fix: move the legend inwards.
    Fails: a name 1 mm from the edge where the process needs 1.5 mm.
    Passes: the same name 1.5 mm from the edge.
    """
    yield from _off_area(survey.words, survey)
    yield from _off_area(survey.scale_marks, survey)


legend_off_printable_area.cases(
    """
    texts: [{text: FUSE, at: [40, __], style: name}]
    """,
    fails="1",
    passes="3",
)


@rule(
    Severity.ERROR,
    says="{subject}: distance from line to edge of the panel is {measured}; minimum {limit}",
    fix="Reduce the margin of the frame, or move the parts of the frame inwards.",
    limits=("process.edge_margin",),
)
def frame_off_printable_area(survey: Survey) -> Iterator[Observation]:
    """A frame is closer to the edge than the marking process can print, or beyond it.

    Source: the process's own figure.
    Fix: a smaller margin, or move the parts inwards.
    Fails: a frame 1 mm from the edge where the process needs 1.5 mm.
    Passes: the same frame 1.5 mm from the edge.
    """
    yield from _off_area(survey.frame_lines, survey)
    yield from _off_area(survey.fields, survey)


frame_off_printable_area.cases(
    """
    parts:
      - {ref: J1, part: bnc, at: [50, __], legend: In}
      - {ref: J2, part: bnc, at: [90, __], legend: Out}
    frames: [{around: [J1, J2]}]
    """,
    fails="11",
    passes="30",
)


@rule(
    Severity.WARNING,
    says="{subject}: clearance to {other} is {measured}; minimum {limit}",
    fix="Move the legend until the clearance is {limit}.",
    limits=("process.opening_margin",),
    mends=(other_sides, moved_texts, moved_apart),
)
def legend_near_opening(survey: Survey) -> Iterator[Observation]:
    """A legend is closer to an opening than the marking process can print cleanly.

    Measured from the ink to the finished opening. Not reported where the two overlap or where the opening's part covers
    the legend: those are separate findings.

    Source: the process's own figure; ink thins out and label film lifts at the rim of an opening.
    Fix: move the legend away.
    Fails: a name 0.3 mm from a screw hole where the process needs 0.5 mm.
    Passes: the same name 0.5 mm from the hole.
    """
    limit = of_process(survey, "opening_margin")
    margin = limit.value
    near = survey.legends.near(survey.openings, margin)
    known = {(id(ink), solid.owner) for ink, solid in survey.hidden}
    known |= {(id(ink), hole.owner) for ink, hole in inked(near)}
    groups: dict[tuple[str, str, int], list[tuple[float, Ink, Solid]]] = {}
    for ink, hole in near:
        if (id(ink), hole.owner) in known or hole.surely_clear_of(ink.box.grown(margin)):
            continue
        distance = float(shapely.distance(ink.ground, hole.ground))
        if distance < margin - ROUNDING:
            groups.setdefault((ink.owner, ink.kind, id(hole)), []).append((distance, ink, hole))
    for group in groups.values():
        distance, ink, hole = min(group, key=lambda one: one[0])
        way = shapely.get_coordinates(shapely.shortest_line(ink.ground, hole.ground))
        yield Observation(
            refs=(ink.owner, *hole.refs),
            place=Box(*way.min(axis=0).tolist(), *way.max(axis=0).tolist()),
            where=ink.where,
            subject=survey.named([ink for _, ink, _ in group]),
            other=hole.words,
            measured=distance,
            limit=limit,
        )


legend_near_opening.cases(
    """
    parts: [{ref: H1, part: {part: opening-circle, opening: {diameter: 8}}, at: [60, 50]}]
    texts: [{text: FUSE, at: [__, 48], style: name}]
    """,
    fails="64",
    passes="66",
)
