# ruff: noqa: E731  # a table is read a row at a time; a change of one line is a lambda where it stands
"""Kinds of fault that look for their own place: each can be put into any demonstration panel that has what it spoils.

A kind names the first part, text or frame of the panel that has what it needs and stands free enough for the fault to
be the only one; None where the panel has none. What must be found follows from what was done, not from the rules.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import shapely
from msgspec.structs import replace

from panelart.checks.colours import contrast_ratio
from panelart.checks.materials import material
from panelart.checks.survey import Survey, survey
from panelart.cutouts import cut_flanges
from panelart.figure import Figure, Known
from panelart.geometry import Box, Point, circle, rectangle
from panelart.geometry.polygons import polygon
from panelart.lettering.outline import shape_of
from panelart.model.component import EDGE_DISTANCE, Fastening, Hardware, Opening, Role
from panelart.model.layout import CutCountersink, Dimension, Layout, Mark, PlacedEnvelope, PlacedLegend, PlacedMask
from panelart.model.making import Cutting, Punch, PunchForm
from panelart.model.metal import Edge, Flange, FlangeHole, Towards
from panelart.model.motion import MotionKind
from panelart.model.panel import Coat, Ink, Law, Part, Side
from panelart.processes.process import Process
from tests.mutations.faults import (
    Found,
    by,
    component,
    doubled_marks,
    envelope,
    frame_stroke,
    keepout,
    legend,
    marking,
    marks,
    missing,
    of_all,
    opening,
    panel,
    part,
    scale,
    shortened,
    swapped,
    text_turned,
    waiver,
    without_envelopes,
    without_legends,
)

Change = Callable[[Layout], Layout]
Made = tuple[Change, Found]


@dataclass(frozen=True, kw_only=True)
class Kind:
    """What is done, and the places on a panel where it can be done: each a change and what must be found."""

    what: str
    places: Callable[[Layout], Iterator[Made]]
    today: str = ""

    def inject(self, layout: Layout) -> Made | None:
        """The fault put into a panel; None where the panel has no place for it, or waives its rule as a whole."""
        made = next(iter(self.places(layout)), None)
        waived = {waiver.rule for waiver in layout.panel.waivers if not waiver.refs}
        return None if made is None or waived & {rule for rule, _ in made[1]} else made


KINDS: list[Kind] = []


def kind(
    what: str, today: str = ""
) -> Callable[[Callable[[Layout], Iterator[Made]]], Callable[[Layout], Iterator[Made]]]:
    def listed(places: Callable[[Layout], Iterator[Made]]) -> Callable[[Layout], Iterator[Made]]:
        KINDS.append(Kind(what=what, places=places, today=today))
        return places

    return listed


def one(change: Change, rule: str, *refs: str) -> Made:
    return change, {(rule, tuple(sorted(refs)))}


# --- what there is on a panel


_LOOKED: dict[int, tuple[Layout, Survey]] = {}


def looked(layout: Layout) -> Survey:
    """The survey of a demo, made once; layouts cannot be hashed."""
    if id(layout) not in _LOOKED:
        _LOOKED[id(layout)] = (layout, survey(layout))
    return _LOOKED[id(layout)][1]


def words(layout: Layout, style: str, ref: str | None = None) -> Iterator[PlacedLegend]:
    return (word for word in layout.legends if word.style == style and ref in (None, word.ref))


def named(layout: Layout) -> Iterator[tuple[Part, PlacedLegend]]:
    for own in layout.panel.parts:
        for word in words(layout, "name", own.ref):
            yield own, word
            break


def graduated(layout: Layout) -> Iterator[Part]:
    """Parts with one plain scale with long and short marks, round or straight."""
    kinds = {(mark.ref, mark.kind) for mark in layout.marks}
    for own in layout.panel.parts:
        if (
            own.scale is not None
            and own.outer_scale is None
            and (own.ref, "major-mark") in kinds
            and (own.ref, "minor-mark") in kinds
        ):
            yield own


def solids(layout: Layout, ref: str, side: Side = Side.FRONT) -> list[PlacedEnvelope]:
    return [solid for solid in layout.envelopes if solid.ref == ref and solid.side is side]


def free(layout: Layout, box: Box, gap: float = 1.0, *, side: Side = Side.FRONT, but: str = "") -> bool:
    """Whether nothing but the things of one owner lies within a gap of a box, which is on the face."""
    seen = looked(layout)
    ground = square(box)
    face = polygon(layout.panel.outline)
    if not face.buffer(-gap).contains(ground):
        return False
    if side is Side.FRONT:
        things = (
            *seen.front,
            *seen.openings,
            *seen.words,
            *seen.scale_marks,
            *seen.frame_lines,
            *seen.keepouts(Side.FRONT),
        )
    else:
        things = (*seen.rear, *seen.openings, *seen.keepouts(Side.REAR))
    return all(
        thing.owner == but or (thing.box.gap(box) > gap) or shapely.distance(thing.ground, ground) > gap
        for thing in things
    )


def square(box: Box) -> shapely.Polygon:
    return shapely.box(box.left, box.bottom, box.right, box.top)


def spots(around: Box, size: float) -> Iterator[Box]:
    """Small boxes on a grid within a box."""
    steps = 9
    for row in range(steps):
        for column in range(steps):
            x = around.left + (around.width - size) * column / (steps - 1)
            y = around.bottom + (around.height - size) * row / (steps - 1)
            yield Box(x, y, x + size, y + size)


def inside(solid: PlacedEnvelope, layout: Layout, size: float = 1.0) -> Iterator[Box]:
    """Small boxes within an envelope, clear of all openings and of every other part on that side."""
    seen = looked(layout)
    ground = polygon(solid.contour)
    others = [thing for thing in (seen.front if solid.side is Side.FRONT else seen.rear) if thing.owner != solid.ref]
    for box in spots(solid.contour.bounds, size):
        if ground.contains(square(box)) and all(
            shapely.distance(hole.ground, square(box)) > 0.5 for hole in (*seen.openings, *others)
        ):
            yield box


def edges_without_flange(layout: Layout) -> set[Edge]:
    return set(Edge) - {flange.edge for flange in layout.panel.flanges}


def round_holes(layout: Layout) -> Iterator[tuple[str, str, Point, float]]:
    """Name, ref, middle and radius as cut of round holes without a cone, of parts that are no hardware."""
    for hole in layout.openings:
        own = layout.panel.by_ref[hole.ref].component
        if (
            hole.cut.circle is not None
            and hole.countersink is None
            and own.hardware is None
            and "IEC 60297" not in own.standard
        ):
            yield hole.name, hole.ref, *hole.cut.circle


# --- legends and what is in their way


@kind("a name under its knob")
def _(layout):
    for own, word in named(layout):
        for solid in solids(layout, own.ref):
            if solid.what == "knob" and word.box.width < solid.contour.bounds.width:
                yield one(
                    legend(own.ref, "name", word.text, to=solid.contour.bounds.centre), "legend-under-knob", own.ref
                )


@kind("a numeral under its knob")
def _(layout):
    for own in graduated(layout):
        for solid in solids(layout, own.ref):
            for word in words(layout, "numeral", own.ref):
                if solid.what == "knob":
                    yield one(
                        legend(own.ref, "numeral", word.text, to=solid.contour.bounds.centre),
                        "legend-under-knob",
                        own.ref,
                    )


@kind("a knob over its marks")
def _(layout):
    for own in graduated(layout):
        for solid in solids(layout, own.ref):
            if solid.what == "knob" and solid.contour.circle is not None:
                middle, radius = solid.contour.circle
                reach = min(
                    shapely.distance(shapely.Point(middle), mark.ground)
                    for mark in looked(layout).scale_marks
                    if mark.owner == own.ref
                )
                wide = circle(2 * reach + 0.6, middle)
                others = [thing for thing in (*looked(layout).front, *looked(layout).words) if thing.owner != own.ref]
                clear = all(shapely.distance(polygon(wide), thing.ground) > 6.5 for thing in others)
                words_clear = all(
                    shapely.distance(polygon(wide), thing.ground) > 0.1
                    for thing in looked(layout).words
                    if thing.owner == own.ref
                )
                if clear and words_clear and reach > radius:
                    yield one(envelope(own.ref, "knob", contour=wide), "legend-under-knob", own.ref)


@kind("a name under what covers its hole")
def _(layout):
    for own, word in named(layout):
        covers = [
            solid for solid in solids(layout, own.ref) if solid.covers and solid.what not in ("knob", "countersink")
        ]
        if covers and not any(solid.what == "knob" for solid in solids(layout, own.ref)) and own.scale is None:
            middle = max(covers, key=lambda solid: solid.contour.bounds.width).contour.bounds.centre
            if free(layout, moved_box(word, middle), 0.8, but=own.ref) and not list(words(layout, "position", own.ref)):
                yield one(legend(own.ref, "name", word.text, to=middle), "legend-under-part", own.ref)


def moved_box(word: PlacedLegend, middle: Point) -> Box:
    half = word.box.width / 2, word.box.height / 2
    return Box(middle.x - half[0], middle.y - half[1], middle.x + half[0], middle.y + half[1])


@kind("a name over its hole, its bezel gone")
def _(layout):
    for own, word in named(layout):
        holes = [hole for hole in layout.openings if hole.ref == own.ref]
        if len(holes) == 1 and own.scale is None and not own.positions:
            middle = holes[0].finished.bounds.centre
            if free(layout, moved_box(word, middle), 0.8, but=own.ref):
                change = of_all(without_envelopes(own.ref, Side.FRONT), legend(own.ref, "name", word.text, to=middle))
                yield one(change, "legend-over-opening", own.ref)


@kind("a name close to its hole, its bezel gone")
def _(layout):
    alone = {own.ref for own in one_of_its_kind(layout)}  # of a row it would be off the line as well
    for own, word in named(layout):
        if own.ref not in alone:
            continue
        holes = [hole for hole in layout.openings if hole.ref == own.ref]
        if len(holes) == 1 and holes[0].finished.circle is not None and own.scale is None and not own.positions:
            middle, radius = holes[0].finished.circle
            goal = Point(middle.x, middle.y + radius + 0.05 + word.box.height / 2)
            if free(layout, moved_box(word, goal), 0.8, but=own.ref):
                change = of_all(without_envelopes(own.ref, Side.FRONT), legend(own.ref, "name", word.text, to=goal))
                yield one(change, "legend-near-opening", own.ref)


@kind("a position over the name")
def _(layout):
    for own, word in named(layout):
        for position in words(layout, "position", own.ref):
            yield one(legend(own.ref, "position", position.text, to=word.box.centre), "legends-collide", own.ref)


@kind("a numeral run into its mark")
def _(layout):
    seen = looked(layout)
    for own in graduated(layout):
        long = [mark for mark in seen.scale_marks if mark.owner == own.ref and mark.kind == "major-mark"]
        for word in seen.words:
            if word.owner == own.ref and word.kind == "numeral":
                mark = min(long, key=lambda stroke: shapely.distance(stroke.ground, word.ground))
                here, there = shapely.get_coordinates(shapely.shortest_line(word.ground, mark.ground))
                way = (there - here) * (1.0 + 0.4 / max(float(shapely.distance(word.ground, mark.ground)), 1e-9))
                if 0.05 < shapely.distance(word.ground, mark.ground) < 2.5:
                    yield one(legend(own.ref, "numeral", word.text, to=by(*map(float, way))), "legend-on-mark", own.ref)


@kind("a name on the line of a frame")
def _(layout):
    for frame in layout.frames:
        for own, word in named(layout):
            # Through a letter: the white between two of them may be wider than the line.
            goal = Point(frame.box.left + word.box.width / 4, word.box.centre.y)
            line = f"{frame.name}"
            if (
                own.ref in frame.refs
                and free(layout, moved_box(word, goal), 0.6, but=line)
                and own.at.x - frame.box.left < 18
            ):
                yield one(legend(own.ref, "name", word.text, to=goal), "legend-on-frame", own.ref, frame.name)


@kind("a keep-out over a name")
def _(layout):
    for own, word in named(layout):
        if free(layout, word.box.grown(0.2), 0.05, but=own.ref) and not any(
            thing.box.gap(word.box) < 0.3 for thing in (*looked(layout).front, *looked(layout).openings)
        ):
            yield one(keepout(lambda _, box=word.box: box.grown(0.2)), "legend-in-keepout", own.ref)


@kind("a text at the edge")
def _(layout):
    face = layout.panel.outline.bounds
    margin = layout.panel.marking.process.edge_margin.value
    for word in layout.legends:
        if (
            word.style in ("note", "title")
            and word.ref.startswith("text")
            and margin > 0.3
            and Edge.BOTTOM in edges_without_flange(layout)
        ):
            for step in range(12):
                x = face.left + 12 + word.box.width / 2 + step * 15
                box = moved_box(word, Point(x, face.bottom + 0.2 + word.box.height / 2))
                if box.right < face.right - 12 and all(
                    thing.box.gap(box) > 4
                    for thing in (*looked(layout).front, *looked(layout).openings, *looked(layout).legends)
                ):
                    yield one(
                        legend(word.ref, word.style, word.text, to=box.centre), "legend-off-printable-area", word.ref
                    )


@kind("a name without room")
def _(layout):
    for own, word in named(layout):
        yield one(missing(own.ref, word.text), "legend-unplaced", own.ref)


# --- height, line, ink


@kind("a numeral too small to be read")
def _(layout):
    for word in words(layout, "numeral"):
        yield one(legend(word.ref, "numeral", word.text, cap_height=1.0), "legend-too-small", word.ref)


@kind("a note too small to be read")
def _(layout):
    for word in words(layout, "note"):
        yield one(legend(word.ref, "note", word.text, cap_height=1.0), "legend-too-small", word.ref)


@kind("positions too small to be read")
def _(layout):
    for own in layout.panel.parts:
        small = [legend(own.ref, "position", word.text, cap_height=1.0) for word in words(layout, "position", own.ref)]
        if small:
            yield one(of_all(*small), "legend-too-small", own.ref)


@kind("marks too thin to print")
def _(layout):
    for own in graduated(layout):
        yield one(marks(own.ref, width=0.05), "line-too-thin", own.ref)


@kind("a frame too thin to print")
def _(layout):
    for mark in layout.marks:
        if mark.kind == "frame":
            yield one(marks(mark.ref, width=0.05), "line-too-thin", mark.ref)


def lost(layout: Layout) -> Ink:
    """An ink almost of the coat's colour, which no other ink is like."""
    return Ink(name="lost", colour=layout.panel.coat.colour)


@kind("a word in the colour of the face")
def _(layout):
    if all(contrast_ratio(layout.panel.coat.colour, ink.colour) > 4 for ink in layout.panel.marking.inks):
        for word in layout.legends:
            if word.style in ("note", "numeral"):
                yield one(legend(word.ref, word.style, word.text, ink=lost(layout)), "legend-contrast-low", word.ref)


@kind("marks in the colour of the face")
def _(layout):
    if all(contrast_ratio(layout.panel.coat.colour, ink.colour) > 4 for ink in layout.panel.marking.inks):
        for own in graduated(layout):
            yield one(marks(own.ref, ["major-mark"], ink=lost(layout)), "mark-contrast-low", own.ref)


@kind("two inks that look alike")
def _(layout):
    used = {word.ink.colour for word in layout.legends}
    for word in reversed(layout.legends):
        if len(used) == 1 and word is not layout.legends[0] and word.style in ("title", "note"):
            blue = int(word.ink.colour[5:], 16)
            colour = f"{word.ink.colour[:5]}{blue - 3 if blue > 3 else blue + 3:02X}"
            yield one(
                legend(word.ref, word.style, word.text, ink=Ink(name="other", colour=colour)),
                "inks-look-alike",
                word.ref,
            )


@kind("one name larger than the others")
def _(layout):
    sizes = [word.cap_height for _, word in named(layout)]
    for own, word in named(layout):
        if sizes.count(word.cap_height) >= 4 and own.ref not in {ref for frame in layout.frames for ref in frame.refs}:
            largest = min((other.cap_height for other in words(layout, "title")), default=99.0)
            if 1.3 * word.cap_height * 1.1 < largest or largest == 99.0:
                yield one(legend(own.ref, "name", word.text, cap_height=word.cap_height * 1.3), "names-unlike", own.ref)


@kind("positions larger than the name")
def _(layout):
    for own, word in named(layout):
        larger = [
            legend(own.ref, "position", position.text, cap_height=word.cap_height * 1.1)
            for position in words(layout, "position", own.ref)
        ]
        flat = [
            position for position in words(layout, "position", own.ref) if position.cap_height >= word.cap_height * 0.95
        ]
        if larger and not flat:
            yield one(of_all(*larger), "legend-hierarchy-flat", own.ref)


def finer(layout: Layout, name: str, value: float) -> Process:
    """The panel's process with another figure."""
    process = layout.panel.marking.process
    return replace(process, **{name: replace(getattr(process, name), value=value)})


@kind("marks too fine to be seen")
def _(layout):
    for own in graduated(layout):
        fine = lambda made: marking(process=finer(made, "line_minimum", 0.01))(made)
        width = layout.panel.marking.viewing_distance * 0.0001  # a third of a minute of arc
        yield one(of_all(fine, marks(own.ref, ["minor-mark"], width=width)), "mark-too-fine", own.ref)


@kind("marks too short to be read")
def _(layout):
    for own in graduated(layout):
        if own.scale.straight is None:
            yield one(marks(own.ref, ["major-mark"], shape=shortened(0.1)), "mark-too-short", own.ref)


@kind("marks that run together")
def _(layout):
    for own in graduated(layout):
        if own.scale.straight is None:
            yield one(doubled_marks(own.ref, 0.8), "marks-crowded", own.ref)


def of_each_lettering(layout: Layout) -> dict[tuple[str, str, float], set[str]]:
    """Refs of the words of each style, font and height; none where there are single signs, which may have no gap."""
    groups: dict[tuple[str, str, float], set[str]] = {}
    for word in layout.legends:
        groups.setdefault((word.style, word.font, word.cap_height), set()).add(word.ref)
    signs = any(len(word.text.strip()) == 1 or word.setting is None for word in layout.legends)
    return {} if signs or len({word.font for word in layout.legends}) > 1 else groups


@kind("an ink that closes narrow gaps")
def _(layout):
    groups = of_each_lettering(layout)
    closing = lambda made: marking(process=finer(made, "gap_minimum", 30.0))(made)
    if groups:
        yield closing, {("lettering-gap-too-narrow", tuple(sorted(refs))) for refs in groups.values()}


@kind("an ink that does not hold strokes")
def _(layout):
    groups = of_each_lettering(layout)
    breaking = lambda made: marking(process=finer(made, "line_minimum", 30.0))(made)
    if groups and not layout.marks:
        yield breaking, {("lettering-too-thin", tuple(sorted(refs))) for refs in groups.values()}


# --- place and wording


def level_texts(layout):
    """Numbers of the free texts that stand level, on one line of their own."""
    for number, text in enumerate(layout.panel.texts):
        if (
            text.arc is None
            and not text.turn
            and len([word for word in layout.legends if word.ref == f"text {number + 1}"]) == 1
        ):
            yield number


@kind("a text on its head")
def _(layout):
    for number in level_texts(layout):
        yield one(text_turned(number, 180.0), "legend-turned", f"text {number + 1}")


@kind("a text that climbs")
def _(layout):
    for number in level_texts(layout):
        yield one(text_turned(number, 90.0), "legend-turned", f"text {number + 1}")


@kind("a unit in the wrong letters")
def _(layout):
    for own, word in named(layout):
        if not own.component.cautions and "EARTH" not in word.text:
            yield one(legend(own.ref, "name", word.text, text="47 v"), "unit-misspelt", own.ref)


@kind("an abbreviation of nobody's")
def _(layout):
    for own, word in named(layout):
        if not own.component.cautions and "EARTH" not in word.text:
            yield one(legend(own.ref, "name", word.text, text="STRT"), "abbreviation-unlisted", own.ref)


@kind("two parts of one name")
def _(layout):
    frames = {ref for frame in layout.panel.frames for ref in frame.around}
    found = [(own, word) for own, word in named(layout) if own.ref not in frames and not own.component.cautions]
    for first, word in found:
        if sum(letter.isalpha() for letter in word.text) >= 3:
            for second, other in found:
                if second.ref > first.ref and other.text != word.text:
                    yield one(
                        legend(second.ref, "name", other.text, text=word.text), "name-repeated", first.ref, second.ref
                    )


@kind("a control without a word")
def _(layout):
    alone = {frame.refs[0] for frame in layout.frames if len(frame.refs) == 1}
    for own, _ in named(layout):
        worked = own.component.motion.kind in (MotionKind.LEVER, MotionKind.PUSH, MotionKind.ROCKER, MotionKind.TURN)
        if (
            worked
            and own.scale is None
            and own.ref not in alone
            and "emergency-stop" not in own.component.cautions
            and own.component.family not in ("cam-lock", "trimmer")
        ):
            yield one(
                of_all(part(own.ref, legend=None, positions=()), without_legends(own.ref)),
                "control-without-name",
                own.ref,
            )


@kind("on is down")
def _(layout):
    switches = [
        own
        for own in layout.panel.parts
        if len(own.positions) == 2 and own.component.motion.kind in (MotionKind.LEVER, MotionKind.ROCKER)
    ]
    for own in switches:
        said = [position.request.text.upper() for position in own.positions]
        alone = (
            sum(
                sorted(said) == sorted(position.request.text.upper() for position in other.positions)
                for other in switches
            )
            == 1
        )
        if set(said) == {"ON", "OFF"} and alone:
            yield one(swapped(own.ref), "switch-against-convention", own.ref)


def linear(layout: Layout) -> Iterator[Part]:
    for own in graduated(layout):
        if (
            own.scale.law is Law.LINEAR
            and not own.scale.words
            and not own.scale.numerals
            and own.scale.minor
            and own.scale.major in (1, 2, 5, 10, 20, 50)
        ):
            yield own


@kind("a scale that counts oddly")
def _(layout):
    for own in linear(layout):
        yield one(scale(own.ref, major=own.scale.major * 0.6), "scale-counts-oddly", own.ref)


@kind("marks beyond counting between numerals")
def _(layout):
    for own in linear(layout):
        yield one(
            scale(own.ref, minor=own.scale.major / (20 if own.scale.major in (2, 20) else 25)),
            "scale-marks-uncounted",
            own.ref,
        )


@kind("a scale that runs backwards")
def _(layout):
    for own in linear(layout):
        if own.scale.straight is None:
            yield one(scale(own.ref, clockwise=not own.scale.clockwise), "scale-runs-backwards", own.ref)


@kind("a scale that lost its unit")
def _(layout):
    for own in graduated(layout):
        if own.scale.unit and sum(word.text == own.scale.unit for word in words(layout, "numeral", own.ref)) == 1:
            yield one(legend(own.ref, "numeral", own.scale.unit, text="30"), "scale-without-unit", own.ref)


# --- behind


@kind("a case too shallow")
def _(layout):
    rear = [solid for solid in layout.envelopes if solid.side is Side.REAR]
    if rear and not layout.panel.flanges:
        deep = max(solid.height for solid in rear)
        refs = sorted({solid.ref for solid in rear if solid.height > deep - 0.5})
        yield panel(depth_behind=deep - 0.5), {("body-deeper-than-room", (ref,)) for ref in refs}


@kind("a body past the edge")
def _(layout):
    face = layout.panel.outline.bounds
    if {Edge.LEFT} <= edges_without_flange(layout):
        for own in layout.panel.parts:
            for solid in solids(layout, own.ref, Side.REAR):
                low = Box(face.left, own.at.y - 1, face.left + 3, own.at.y + 1)
                clear = all(
                    thing.box.gap(low) > 3
                    for thing in (*looked(layout).rear, *looked(layout).openings)
                    if thing.owner != own.ref
                )
                if clear and not own.component.cautions and "IEC 60297" not in own.component.standard:
                    yield one(
                        envelope(own.ref, solid.what, contour=circle(4, Point(face.left + 1, own.at.y))),
                        "body-over-edge",
                        own.ref,
                    )


@kind("a bracket where a body stands")
def _(layout):
    for own in layout.panel.parts:
        for solid in solids(layout, own.ref, Side.REAR):
            for box in inside(solid, layout):
                yield one(keepout(lambda _, box=box: box, Side.REAR), "part-in-keepout", own.ref)


@kind("a hole through a bracket")
def _(layout):
    for _name, ref, middle, radius in round_holes(layout):
        box = Box(middle.x - 0.2, middle.y - 0.2, middle.x + 0.2, middle.y + 0.2)
        others = [thing for thing in looked(layout).rear if thing.owner != ref]
        if all(thing.box.gap(box) > 0.5 for thing in others) and radius > 0.5:
            yield one(
                of_all(without_envelopes(ref, Side.REAR), keepout(lambda _, box=box: box, Side.REAR)),
                "opening-in-keepout",
                ref,
            )


@kind("bodies that meet behind")
def _(layout):
    for own in layout.panel.parts:
        for solid in solids(layout, own.ref, Side.REAR):
            for box in inside(solid, layout, 2.0):
                for other in layout.panel.parts:
                    for piece in solids(layout, other.ref, Side.REAR):
                        if other.ref != own.ref and other.component.hardware is None and own.component.hardware is None:
                            yield one(
                                envelope(other.ref, piece.what, contour=circle(1.5, box.centre)),
                                "parts-collide-behind",
                                own.ref,
                                other.ref,
                            )


@kind("a plug that stands in another part")
def _(layout):
    for own in layout.panel.parts:
        for solid in solids(layout, own.ref):
            for box in inside(solid, layout, 2.0) if solid.covers and solid.what != "knob" else ():
                for other in layout.panel.parts:
                    for piece in solids(layout, other.ref):
                        latched = own.component.latch or other.component.latch
                        if other.ref != own.ref and not latched and piece.what.startswith(("mated", "mating")):
                            yield one(
                                envelope(other.ref, piece.what, contour=circle(1.5, box.centre)),
                                "parts-collide",
                                own.ref,
                                other.ref,
                            )


@kind("a bezel past the edge")
def _(layout):
    face = layout.panel.outline.bounds
    for own in layout.panel.parts:
        for solid in solids(layout, own.ref):
            low = Box(face.left, own.at.y - 2, face.left + 4, own.at.y + 2)
            between = Box(face.left, own.at.y - 2, own.at.x, own.at.y + 2)  # what the part then encloses is its own
            clear = all(
                thing.box.gap(low) > 7
                for thing in (
                    *looked(layout).front,
                    *looked(layout).legends,
                    *looked(layout).frame_lines,
                    *looked(layout).openings,
                )
                if thing.owner != own.ref or thing.box.left < face.left + 8
            )
            if (
                clear
                and all(name.box.gap(between) > 15 for name in looked(layout).legends if name.owner != own.ref)
                and (solid.what.startswith("mated") or not list(words(layout, "name", own.ref)))
                and "IEC 60297" not in own.component.standard
            ):
                yield one(
                    envelope(own.ref, solid.what, contour=circle(4, Point(face.left + 1, own.at.y))),
                    "part-over-edge",
                    own.ref,
                )


# --- metal


def lone(layout: Layout, ref: str, ground: shapely.Geometry, gap: float) -> bool:
    """Whether a hole as drawn is far from the edge, bends and all other openings."""
    face = polygon(layout.cut_outline)
    return face.buffer(-12).contains(ground) and all(
        shapely.distance(ground, hole.ground) > gap for hole in looked(layout).cuts if hole.owner != ref
    )


@kind("two holes with a thin web between them")
def _(layout):
    t = layout.panel.sheet.thickness
    for name, ref, middle, radius in round_holes(layout):
        others = sorted(
            (float(shapely.distance(shapely.Point(middle), hole.ground)), hole.owner)
            for hole in looked(layout).cuts
            if hole.owner != ref
        )
        own = [hole for hole in layout.openings if hole.ref == ref]
        if len(own) == 1 and len(others) > 1:
            reach = others[0][0] - 0.5 * t
            wide = circle(2 * reach, middle)
            if (
                reach > radius
                and others[1][0] - reach > 1.1 * t
                and polygon(layout.cut_outline).buffer(-3.2 * t).contains(polygon(wide))
                and not layout.panel.flanges
            ):
                yield one(opening(name, cut=wide), "openings-too-close", ref, others[0][1])


@kind("two holes in one")
def _(layout):
    t = layout.panel.sheet.thickness
    for name, ref, middle, radius in round_holes(layout):
        others = sorted(
            (float(shapely.distance(shapely.Point(middle), hole.ground)), hole.owner)
            for hole in looked(layout).cuts
            if hole.owner != ref
        )
        own = [hole for hole in layout.openings if hole.ref == ref]
        if len(own) == 1 and len(others) > 1:
            reach = others[0][0] + 0.5
            wide = circle(2 * reach, middle)
            if (
                reach > radius
                and others[1][0] - reach > 1.1 * t
                and polygon(layout.cut_outline).buffer(-3.2 * t).contains(polygon(wide))
                and not layout.panel.flanges
            ):
                yield one(opening(name, cut=wide), "openings-collide", ref, others[0][1])


@kind("a hole near the edge")
def _(layout):
    face, t = layout.cut_outline.bounds, layout.panel.sheet.thickness
    for name, ref, _, _radius in round_holes(layout):
        for x in range(15, int(face.width) - 15, 7):
            moved_to = circle(2.5, Point(face.left + x, face.top - 0.5 * t - 1.25))
            ground = polygon(moved_to)
            if Edge.TOP in edges_without_flange(layout) and all(
                shapely.distance(ground, hole.ground) > 2 * t + 2 for hole in looked(layout).cuts
            ):
                yield one(opening(name, cut=moved_to), "opening-near-edge", ref)


@kind("a hole through the edge")
def _(layout):
    face, t = layout.cut_outline.bounds, layout.panel.sheet.thickness
    for name, ref, _, _radius in round_holes(layout):
        for x in range(15, int(face.width) - 15, 7):
            moved_to = circle(2.5, Point(face.left + x, face.top - 0.5))
            ground = polygon(moved_to)
            if Edge.TOP in edges_without_flange(layout) and all(
                shapely.distance(ground, hole.ground) > 2 * t + 2 for hole in looked(layout).cuts
            ):
                yield one(opening(name, cut=moved_to), "opening-over-edge", ref)


@kind("a hole smaller than what must pass")
def _(layout):
    alone = {own.ref for own in one_of_its_kind(layout)}
    for hole in layout.openings:
        if (
            hole.ref in alone
            and hole.finished.circle is not None
            and hole.passes is not None
            and hole.passes.circle is not None
        ):
            middle, through = hole.finished.circle[0], hole.passes.circle[1]
            yield one(
                opening(hole.name, finished=circle(2 * through - 0.1, middle)), "opening-too-small-after-coat", hole.ref
            )


@kind("a hole with nothing to spare")
def _(layout):
    alone = {own.ref for own in one_of_its_kind(layout) if own.component.hardware is None}
    for hole in layout.openings:
        round_ = hole.finished.circle is not None and hole.passes is not None and hole.passes.circle is not None
        if (
            round_
            and hole.ref in alone
            and not any(of.tolerance for of in hole.dimensions)
            and len([1 for other in layout.openings if other.ref == hole.ref]) == 1
        ):
            middle, radius = hole.finished.circle
            through = hole.passes.circle[1]
            # A tolerance either way takes 0.2, and the film what it may be thicker.
            spare = 0.21 + 2 * (layout.panel.coat.build_maximum - layout.panel.coat.build)
            if radius < 15 and 2 * (radius - through) > spare:
                size, part = 2 * through + 0.02, 2 * through
                tight = Dimension(name="diameter", size=size, tolerance=(-0.2, 0.2), passes=(part, part))
                change = opening(hole.name, finished=circle(size, middle), dimensions=(tight,))
                yield one(change, "fit-lost-in-tolerances", hole.ref)


@kind("a hole too narrow for the laser")
def _(layout):
    t = layout.panel.sheet.thickness
    for name, ref, middle, radius in round_holes(layout):
        if radius > 0.4 * t:
            yield one(opening(name, cut=circle(1.2 * 0.5 * t, middle)), "opening-too-narrow-to-cut", ref)


def one_of_its_kind(layout: Layout) -> Iterator[Part]:
    names = [own.component.name for own in layout.panel.parts]
    for own in layout.panel.parts:
        if names.count(own.component.name) == 1:
            yield own


@kind("a sheet too thick for a part")
def _(layout):
    for own in one_of_its_kind(layout):
        yield one(component(own.ref, thickness=(0.1, layout.panel.sheet.thickness / 2)), "sheet-too-thick", own.ref)


@kind("a sheet too thin for a part")
def _(layout):
    t = layout.panel.sheet.thickness
    for own in one_of_its_kind(layout):
        yield one(component(own.ref, thickness=(t * 1.5, t * 3)), "sheet-too-thin", own.ref)


@kind("a hole whose size is a memory")
def _(layout):
    for own in one_of_its_kind(layout):
        figures = [figure for hole in own.component.openings for figure in hole.figures]
        if figures and all(
            figure.known in (Known.LOOKED_UP, Known.GIVEN) for figure in figures if not figure.name.startswith("passes")
        ):
            spoilt = tuple(
                replace(hole, figures=tuple(replace(figure, known=Known.MEMORY) for figure in hole.figures))
                for hole in own.component.openings
            )
            if not any(figure.known is Known.MEMORY for figure in figures):
                yield one(component(own.ref, openings=spoilt), "parts-to-measure", own.ref)


@kind("a sheet that poisons the laser's air")
def _(layout):
    if material("PVC foam").laser:
        yield one(panel(sheet=replace(layout.panel.sheet, material="PVC foam")), "sheet-not-for-laser")


@kind("a milling cutter too thick for the corners")
def _(layout):
    making = replace(layout.panel.making, cutting=Cutting.MILL, cutter=0.9)
    sharp = {hole.ref for hole in layout.openings if has_corners(hole.cut, 0.45)}
    if sharp and all(min(hole.cut.bounds.width, hole.cut.bounds.height) >= 0.9 for hole in layout.openings):
        yield panel(making=making), {("corner-sharper-than-cutter", (ref,)) for ref in sharp}


def has_corners(hole, radius: float) -> bool:
    """Whether a disc of that radius, led round inside the hole by shapely, leaves some of it out."""
    ground = polygon(hole, 0.001)
    return ground.difference(ground.buffer(-radius).buffer(radius, quad_segs=64)).area > 0.001


@kind("holes that no punch makes")
def _(layout):
    making = replace(
        layout.panel.making, cutting=Cutting.PUNCH, punches=(Punch(form=PunchForm.ROUND, length=99.0, width=99.0),)
    )
    minimum = 2.0 if material(layout.panel.sheet.material).hard else 1.0
    if all(
        min(hole.cut.bounds.width, hole.cut.bounds.height) > minimum * layout.panel.sheet.thickness
        for hole in layout.every_opening
    ):
        yield panel(making=making), {("opening-nibbled", tuple(sorted({hole.ref for hole in layout.every_opening})))}


@kind("a coat that varies too much")
def _(layout):
    coat = layout.panel.coat
    if coat.kind == "powder" and all(hole.countersink is None for hole in layout.openings) and coat.thickness <= 0.1:
        thin_film: Coat = replace(coat, minimum=max(coat.thickness - 0.07, 0.0), maximum=coat.thickness)
        yield one(panel(coat=thin_film), "opening-loose-at-thin-coat")


def cone(hole, width: float, angle: float, depth: float) -> CutCountersink:
    return CutCountersink(
        centre=hole.cut.circle[0], finished=width, cut=width, angle=angle, depth=depth, side=Side.FRONT
    )


# --- keep-outs and frames


@kind("a frame through a part")
def _(layout):
    for frame in layout.frames:
        for ref in frame.refs:
            for solid in solids(layout, ref):
                for box in inside(solid, layout, 1.5) if solid.covers else ():
                    ends = lambda _, box=box: (Point(box.left, box.centre.y), Point(box.right, box.centre.y))
                    if any(mark.ref == frame.name and mark.kind == "frame" for mark in layout.marks):
                        yield one(frame_stroke(frame.name, ends), "frame-under-part", frame.name, ref)


@kind("a frame over a hole")
def _(layout):
    for frame in layout.frames:
        for hole in layout.openings:
            if hole.ref in frame.refs and hole.finished.circle is not None and hole.finished.circle[1] > 1.0:
                middle = hole.finished.circle[0]
                ends = lambda _, at=middle: (Point(at.x - 0.5, at.y), Point(at.x + 0.5, at.y))
                own = [other for other in layout.openings if other.ref == hole.ref]
                near = [
                    solid
                    for solid in looked(layout).covers
                    if solid.owner != hole.ref and solid.box.gap(Box.around((middle,))) < 2
                ]
                if (
                    len(own) == 1
                    and not near
                    and any(mark.ref == frame.name and mark.kind == "frame" for mark in layout.marks)
                ):
                    yield one(
                        of_all(without_envelopes(hole.ref), frame_stroke(frame.name, ends)),
                        "frame-over-opening",
                        frame.name,
                        hole.ref,
                    )


@kind("a keep-out on a frame")
def _(layout):
    for frame in layout.frames:
        box = frame.box
        for step in range(1, 20):
            y = box.bottom + box.height * step / 20
            small = Box(box.left - 0.3, y - 0.3, box.left + 0.3, y + 0.3)
            on_line = any(
                thing.owner == frame.name and shapely.distance(thing.ground, square(small)) == 0
                for thing in looked(layout).frame_lines
            )
            if on_line and free(layout, small, 0.5, but=frame.name):
                yield one(keepout(lambda _, small=small: small), "frame-in-keepout", frame.name)


@kind("two frames that cross")
def _(layout):
    for frame in layout.frames:
        drawn = [mark for mark in layout.marks if mark.ref == frame.name and mark.kind == "frame"]
        box = frame.box
        for step in range(1, 20):
            y = box.bottom + box.height * step / 20
            small = Box(box.left - 1, y - 1, box.left + 1, y + 1)
            on_line = any(
                thing.owner == frame.name and shapely.distance(thing.ground, square(small)) == 0
                for thing in looked(layout).frame_lines
            )
            if drawn and on_line and free(layout, small, 0.6, but=frame.name):
                crossing: Mark = replace(drawn[0], ref="frame 99", shape=shape_of(rectangle(2, 2, small.centre)))
                yield one(
                    lambda made, crossing=crossing: replace(made, marks=(*made.marks, crossing)),
                    "frames-collide",
                    frame.name,
                    "frame 99",
                )


@kind("a frame at the edge")
def _(layout):
    face = layout.panel.outline.bounds
    if Edge.LEFT in edges_without_flange(layout) and layout.panel.marking.process.edge_margin.value > 0.5:
        for frame in layout.frames:
            for y in range(15, int(face.height) - 20, 5):
                strip = Box(face.left + 0.1, face.bottom + y, face.left + 0.9, face.bottom + y + 5)
                near = [
                    *looked(layout).front,
                    *looked(layout).openings,
                    *looked(layout).legends,
                    *looked(layout).frame_lines,
                ]
                if all(thing.box.gap(strip) > 0.6 for thing in near) and any(
                    mark.ref == frame.name and mark.kind == "frame" for mark in layout.marks
                ):
                    ends = lambda _, strip=strip: (
                        Point(strip.centre.x, strip.bottom),
                        Point(strip.centre.x, strip.top),
                    )
                    yield one(frame_stroke(frame.name, ends), "frame-off-printable-area", frame.name)


# --- bent panels


def bent_edges(layout: Layout) -> Iterator[Flange]:
    yield from layout.panel.flanges


def with_flange(old: Flange, **changes) -> Change:
    """A flange changed, and the openings in flanges cut anew."""

    def change(layout: Layout) -> Layout:
        made = panel(flanges=tuple(replace(one, **changes) if one is old else one for one in layout.panel.flanges))(
            layout
        )
        return replace(made, flange_openings=cut_flanges(made.panel))

    return change


def plain_hole(flange: Flange, at: Point) -> FlangeHole:
    opening_ = Opening(role=Role.FIXING, contour=circle(3), figures=())
    return FlangeHole(ref="F99", at=at, openings=(opening_,), where=flange.where)


@kind("a hole beside a bend")
def _(layout):
    face, t = layout.panel.outline.bounds, layout.panel.sheet.thickness
    for flange in bent_edges(layout):
        for name, ref, _, _radius in round_holes(layout) if flange.edge is Edge.TOP else ():
            for x in range(25, int(face.width) - 25, 7):
                moved_to = circle(2.5, Point(face.left + x, face.top - 2.5 * t - flange.radius - 1.0))
                if all(shapely.distance(polygon(moved_to), hole.ground) > 2 * t + 2 for hole in looked(layout).cuts):
                    yield one(opening(name, cut=moved_to), "hole-near-bend", ref)


@kind("a hole in a flange at its end")
def _(layout):
    t = layout.panel.sheet.thickness
    for flange in bent_edges(layout):
        if flange.second is None and flange.length >= 12 * t:
            middle = layout.panel.outline.bounds.centre
            at = Point(middle.x if flange.edge in (Edge.TOP, Edge.BOTTOM) else middle.y, flange.length - t - 1.5)
            hole = plain_hole(flange, at)
            yield one(with_flange(flange, holes=(*flange.holes, hole)), "flange-hole-near-edge", "F99")


@kind("a hole in a flange beside its bend")
def _(layout):
    t = layout.panel.sheet.thickness
    for flange in bent_edges(layout):
        if flange.second is None and flange.length > 6 * t:
            middle = layout.panel.outline.bounds.centre
            at = Point(middle.x if flange.edge in (Edge.TOP, Edge.BOTTOM) else middle.y, 1.5 * t + flange.radius + 1.5)
            hole = plain_hole(flange, at)
            yield one(with_flange(flange, holes=(*flange.holes, hole)), "hole-near-bend", "F99")


@kind("a flange too short for the die")
def _(layout):
    for flange in bent_edges(layout):
        if not flange.holes and flange.second is None:
            yield one(
                with_flange(flange, length=2.0 * layout.panel.sheet.thickness + flange.radius, corner=0.0),
                "flange-too-short",
            )


@kind("a bend too sharp for the metal")
def _(layout):
    for flange in bent_edges(layout):
        if flange.second is None:
            yield one(with_flange(flange, radius=0.05), "bend-radius-too-small")


@kind("a body where a flange stands")
def _(layout):
    face = layout.panel.outline.bounds
    for flange in bent_edges(layout):
        for own in layout.panel.parts:
            for solid in solids(layout, own.ref, Side.REAR):
                spot = Point(face.centre.x, face.top - 1.0)
                if flange.edge is Edge.TOP and own.component.hardware is None:
                    yield one(envelope(own.ref, solid.what, contour=circle(1.5, spot)), "part-in-flange", own.ref)


@kind("a text on the round of a bend")
def _(layout):
    face = layout.panel.outline.bounds
    margin = layout.panel.marking.process.edge_margin.value
    for flange in bent_edges(layout):
        for own, word in named(layout):
            if flange.edge is Edge.TOP and own.component.motion.kind is MotionKind.NONE:
                goal = Point(word.box.centre.x, face.top - max(margin, 0.0) - 0.05 - word.box.height / 2)
                near = [
                    thing
                    for thing in looked(layout).front
                    if thing.owner != own.ref and thing.box.gap(moved_box(word, goal)) < 25
                ]
                if not near and margin + 0.05 < flange.radius + layout.panel.sheet.thickness:
                    yield one(legend(own.ref, "name", word.text, to=goal), "legend-on-bend", own.ref)


@kind("a return longer than its flange")
def _(layout):
    for flange in bent_edges(layout):
        if flange.second is not None and flange.second.towards is Towards.IN:
            shorter = flange.second.length - 0.5
            behind = [
                solid
                for solid in layout.envelopes
                if solid.side is Side.REAR and solid.contour.bounds.bottom < flange.second.length
            ]
            if not behind and flange.edge is Edge.BOTTOM and not flange.second.holes:
                yield one(with_flange(flange, length=shorter, holes=()), "return-too-long-for-tool")


@kind("hardware at the edge")
def _(layout):
    for own in layout.panel.parts:
        if own.component.hardware is not None and own.component.hardware.edge is not None:
            left = min(
                own.at.x,
                layout.panel.outline.bounds.width - own.at.x,
                own.at.y,
                layout.panel.outline.bounds.height - own.at.y,
            )
            yield one(
                component(own.ref, hardware=replace(own.component.hardware, edge=left + 0.5)),
                "hardware-near-edge",
                own.ref,
            )


@kind("a part on a bonding pad")
def _(layout):
    for mask in layout.masks:
        if mask.side is Side.REAR and mask.name in layout.panel.by_ref:
            for own in layout.panel.parts:
                for solid in solids(layout, own.ref, Side.REAR):
                    at = mask.contour.bounds
                    spot = Point(at.left + 0.8, at.centre.y)
                    others = [thing for thing in looked(layout).rear if thing.owner not in (own.ref, mask.name)]
                    stud = [
                        thing
                        for thing in looked(layout).rear
                        if thing.owner == mask.name and shapely.distance(thing.ground, shapely.Point(spot)) < 0.5
                    ]
                    if (
                        own.ref != mask.name
                        and own.component.hardware is None
                        and all(thing.box.gap(Box.around((spot,))) > 1 for thing in others)
                    ):
                        pair = tuple(sorted((own.ref, mask.name)))
                        found = {("bonding-pad-covered", pair), *([("parts-collide-behind", pair)] if stud else [])}
                        yield envelope(own.ref, solid.what, contour=circle(1.0, spot)), found


@kind("a bare patch under a name")
def _(layout):
    for own, word in named(layout):
        patch = PlacedMask(
            name="M99", contour=rectangle(1, 1, word.box.centre), side=Side.FRONT, why="a trial", where=word.where
        )
        near = [other for other in layout.legends if other is not word and other.box.overlaps(patch.contour.bounds)]
        if not near:
            yield one(lambda made, patch=patch: replace(made, masks=(*made.masks, patch)), "legend-on-mask", own.ref)


def flat_holes(layout: Layout):
    """Round fixing holes of single kinds of screw, far from everything."""
    t = layout.panel.sheet.thickness
    for name, ref, middle, radius in round_holes(layout):
        own = layout.panel.by_ref[ref]
        hole = next(hole for hole in layout.openings if hole.name == name)
        if (
            own in one_of_its_kind(layout)
            and lone(layout, ref, shapely.Point(middle).buffer(radius + 4 * t), 1.0)
            and len([1 for other in layout.openings if other.ref == ref]) == 1
        ):
            yield hole, ref, radius, t


def with_cone(hole, width: float) -> Change:
    """A square cone; the part's own entry says that width, so that its head is flush."""
    from panelart.model.component import Countersink

    def change(layout: Layout) -> Layout:
        own = layout.panel.by_ref[hole.ref].component
        build = layout.panel.coat.build
        pieces = tuple(
            replace(piece, countersink=Countersink(diameter=width - 2 * build * (2**0.5 - 1))) for piece in own.openings
        )
        sunk = replace(component(hole.ref, openings=pieces)(layout))
        return opening(
            hole.name,
            countersink=cone(hole, width, 90.0, min(width / 2 - hole.cut.circle[1], layout.panel.sheet.thickness)),
        )(sunk)

    return change


@kind("a countersink deeper than the sheet")
def _(layout):
    for hole, ref, radius, t in flat_holes(layout):
        yield one(with_cone(hole, 2 * (radius + t + 0.4)), "countersink-breaks-through", ref)


@kind("a countersink that leaves a knife edge")
def _(layout):
    for hole, ref, radius, t in flat_holes(layout):
        yield one(with_cone(hole, 2 * (radius + t - 0.05)), "countersink-knife-edge", ref)


@kind("hardware on a knife's edge of its neighbours")
def _(layout):
    for own in one_of_its_kind(layout):
        if own.component.hardware is None and own.component.openings:
            left = min(
                own.at.x,
                layout.panel.outline.bounds.width - own.at.x,
                own.at.y,
                layout.panel.outline.bounds.height - own.at.y,
            )
            pressed = Hardware(fastening=Fastening.SCREWED, edge=left + 0.5)
            figure = Figure(name=EDGE_DISTANCE, value=left + 0.5, sources=("made up for this test",), known=Known.GIVEN)
            first, *rest = own.component.openings
            noted = (replace(first, figures=(*first.figures, figure)), *rest)
            if not layout.panel.flanges:
                yield one(component(own.ref, hardware=pressed, openings=noted), "hardware-near-edge", own.ref)


# --- hand and emergency stop


@kind("an emergency stop in black")
def _(layout):
    for own in layout.panel.parts:
        for solid in solids(layout, own.ref):
            if "emergency-stop" in own.component.cautions and solid.what == "mushroom":
                yield one(envelope(own.ref, "mushroom", colour="#1B1D1F"), "emergency-stop-miscoloured", own.ref)


@kind("an emergency stop on grey")
def _(layout):
    for own in layout.panel.parts:
        for solid in solids(layout, own.ref):
            if "emergency-stop" in own.component.cautions and solid.colour and solid.what != "mushroom":
                yield one(envelope(own.ref, solid.what, colour="#A9B0B7"), "emergency-stop-miscoloured", own.ref)


@kind("a post where the finger goes to a latch")
def _(layout):
    for own in layout.panel.parts:
        for plug in solids(layout, own.ref) if own.component.latch == "up" and not own.turn else ():
            box = plug.contour.bounds
            spot = Point(box.centre.x, box.top + 4.0)
            if plug.what.startswith("mated"):
                post = PlacedEnvelope(
                    ref="H99",
                    what="post",
                    contour=circle(1.0, spot),
                    height=10.0,
                    side=Side.FRONT,
                    covers=False,
                    where=own.where,
                )
                yield (
                    lambda made, post=post: replace(made, envelopes=(*made.envelopes, post)),
                    {
                        ("latch-without-room", tuple(sorted((own.ref, "H99")))),
                        ("parts-collide", tuple(sorted((own.ref, "H99")))),
                    },
                )


# --- waivers


@kind("a waiver of no rule")
def _(layout):
    for own in layout.panel.parts:
        yield one(waiver("legend-to-small", own.ref), "waiver-names-unknown-rule", own.ref)


@kind("a waiver of nothing")
def _(layout):
    for own in layout.panel.parts:
        yield one(waiver("legend-unplaced", own.ref), "waiver-matches-nothing", own.ref)


@kind("a waiver that has ended", today="2027-02-01")
def _(layout):
    for own in layout.panel.parts:
        yield one(waiver("legend-unplaced", own.ref, until="2027-01-31"), "waiver-expired", own.ref)
