"""What the operator's eye needs: contrast, order of sizes, horizontal text, and names beside their parts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import combinations
from typing import Final

import numpy as np
import shapely
from msgspec.structs import replace

from panelart.checks.colours import Eyes, contrast_percent, contrast_ratio, difference
from panelart.checks.findings import Bound, Observation, Spot, place_of, refs_of
from panelart.checks.limits import Limit
from panelart.checks.marking import height_at, of_process
from panelart.checks.mends import enlarged, moved_apart, moved_texts, other_sides
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Ink, Stroke, Survey, Words
from panelart.diagnostics import Severity, Where
from panelart.geometry import Box, Point
from panelart.lettering.cuts import is_symbols
from panelart.marking.ground_colours import Seen
from panelart.messages import Message
from panelart.messages import checks as said
from panelart.messages import checks_limits as of_limits
from panelart.messages import checks_things as things
from panelart.model.panel import Ink as Colour

_BARE: Final = frozenset({"none", "zinc", "conversion"})
"""Coats that leave the metal visible: its colour changes with the light, so that findings are notes."""


_VISION: Final = {
    Eyes.COMMON: said.normal_vision(),
    Eyes.PROTAN: said.protanopia(),
    Eyes.DEUTAN: said.deuteranopia(),
    Eyes.TRITAN: said.tritanopia(),
}


def _spots(inks: Iterable[Ink]) -> tuple[Spot, ...]:
    return tuple(Spot(ref=ink.owner, place=ink.box, where=ink.where) for ink in inks)


def _by_colour(survey: Survey, inks: Iterable[Ink]) -> Iterator[tuple[Colour, Seen, list[Ink]]]:
    """Things of one ink and kind on one ground together, as one finding tells them; not those on pictures."""
    groups: dict[tuple[Colour, str, Seen], list[Ink]] = {}
    for ink in inks:
        colour = ink.mark.ink if isinstance(ink, Stroke) else ink.legend.ink
        for ground in survey.seen_against(ink):
            groups.setdefault((colour, ink.kind, ground), []).append(ink)
    yield from ((colour, ground, inks) for (colour, _, ground), inks in groups.items())


def _weak(
    survey: Survey, inks: Iterable[Ink], measures: Sequence[tuple[Limit, Callable[[str, str], float]]]
) -> Iterator[Observation]:
    coat = survey.panel.coat
    for colour, ground, group in _by_colour(survey, inks):
        for limit, contrast in measures:
            measured = contrast(colour.colour, ground.colour)
            if measured < limit.value - ROUNDING:
                yield Observation(
                    refs=refs_of(_spots(group)),
                    place=place_of(_spots(group)),
                    where=group[0].where,
                    subject=survey.named(group),
                    other=said.ink_on_ground(
                        ink=colour.name, ink_colour=colour.colour, ground=ground.words, ground_colour=ground.colour
                    ),
                    measured=measured,
                    limit=limit,
                    severity=Severity.NOTE if ground.coat and coat.kind in _BARE else None,
                    each=_spots(group),
                )
                break


@rule(
    Severity.WARNING,
    says="{subject}: contrast {measured} ({other}); minimum {limit}",
    fix="Choose a lighter or darker ink, or another coat, so that the contrast is {limit}.",
    limits=("contrast.reflectance.minimum", "contrast.text.minimum"),
)
def legend_contrast_low(survey: Survey) -> Iterator[Observation]:
    """Lettering has too little contrast with what it is printed on: the coat, a label film, or a background.

    Two limits apply to the ink and the coat as shown: the ratio of relative luminances, (lighter + 0.05) / (darker +
    0.05), and the share of the lighter reflectance that is lost, 100 (lighter - darker) / lighter. The first that is
    missed is reported. Both take the colours in the spec for the colours on the metal, so this only warns; on bare
    metal, whose lightness depends on the lighting, it is a note.

    Source: WCAG 2, 1.4.3 (4.5 to 1); ADAAG (1991), A4.30.5 (70 percent).
    Fix: another ink or another coat.
    Fails: grey #777777 on white, 4.48 to 1.
    Passes: grey #767676 on white, 4.54 to 1.
    """
    measures = (
        (survey.limits["contrast.text.minimum"], contrast_ratio),
        (survey.limits["contrast.reflectance.minimum"], contrast_percent),
    )
    yield from _weak(survey, survey.words, measures)


legend_contrast_low.cases(
    """
    marking: {ink: {name: grey, colour: "__"}}
    texts: [{text: FUSE, at: [40, 50], style: name}]
    """,
    fails="#777777",
    passes="#606060",
)


@rule(
    Severity.WARNING,
    says="{subject}: contrast {measured} ({other}); minimum {limit}",
    fix="Choose a lighter or darker ink, or another coat, so that the contrast is {limit}.",
    limits=("contrast.mark.minimum",),
)
def mark_contrast_low(survey: Survey) -> Iterator[Observation]:
    """A mark of a scale or a frame has too little contrast with the face.

    Source: WCAG 2.1, 1.4.11 (3 to 1 for graphics), from memory.
    Fix: another ink or another coat.
    Fails: marks of #959595 on white, 2.995 to 1.
    Passes: marks of #949494 on white, 3.03 to 1.
    """
    marks = (*survey.scale_marks, *survey.frame_lines, *survey.fields)
    yield from _weak(survey, marks, ((survey.limits["contrast.mark.minimum"], contrast_ratio),))


mark_contrast_low.cases(
    """
    marking: {ink: {name: grey, colour: "__"}}
    art: [{rule: [[20, 50], [100, 50]]}]
    """,
    fails="#959595",
    passes="#949494",
)


@rule(
    Severity.NOTE,
    says="Colour difference between inks {subject} is {measured} with {other}; minimum {limit}",
    fix="Choose inks that differ in lightness, or state the meaning of the colours in words as well.",
    limits=("inks.difference.minimum",),
)
def inks_look_alike(survey: Survey) -> Iterator[Observation]:
    """Two inks on the panel cannot be distinguished, with normal colour vision or a colour vision deficiency.

    Each pair of inks is simulated for normal colour vision, protanopia, deuteranopia and tritanopia (Machado and others
    2009) and measured as CIEDE2000. The finding names the vision with the smallest difference. About one man in twelve
    sees reds and greens alike.

    Source: from memory; IEC 60073 never has colour as the only code.
    Fix: inks of different lightness, or words beside the colour.
    Fails: red #C03030 beside olive #6A6A20.
    Passes: white beside amber.
    """
    limit = survey.limits["inks.difference.minimum"]
    used: dict[Colour, list[Ink]] = {}
    for ink in (*survey.legends, *survey.frame_lines, *survey.fields):
        used.setdefault(ink.mark.ink if isinstance(ink, Stroke) else ink.legend.ink, []).append(ink)
    for one, two in combinations(used, 2):
        measured, eyes = min(
            ((difference(one.colour, two.colour, eyes), eyes) for eyes in Eyes), key=lambda pair: pair[0]
        )
        if measured < limit.value - ROUNDING:
            yield Observation(
                refs=refs_of(_spots(used[two])),
                place=place_of(_spots(used[two])),
                where=used[two][0].where,
                subject=things.inks(names=(one.name, two.name)),
                other=_VISION[eyes],
                measured=measured,
                limit=limit,
            )


inks_look_alike.cases(
    """
    marking: {inks: [{name: red, colour: "#C03030"}, {name: other, colour: "__"}]}
    texts: [{text: FUSE, at: [40, 50]}, {text: LOAD, at: [40, 70], ink: other}]
    """,
    fails="#6A6A20",
    passes="#000000",
)


# --- sizes


_LEVELS: Final = (("title", "name"), ("name", "position"))


def _levels(survey: Survey) -> Iterator[tuple[Words, Words]]:
    """Each label with one of the level below it that belongs to it: a frame's title and names, a name and positions."""
    by_owner: dict[tuple[str, str], list[Words]] = {}
    for word in survey.words:
        by_owner.setdefault((word.owner, word.kind), []).append(word)
    for frame in survey.layout.frames:
        for title in by_owner.get((frame.name, "title"), ()):
            for ref in frame.refs:
                yield from ((title, name) for name in by_owner.get((ref, "name"), ()))
    for part in survey.panel.parts:
        for name in by_owner.get((part.ref, "name"), ()):
            yield from ((name, position) for position in by_owner.get((part.ref, "position"), ()))


@rule(
    Severity.WARNING,
    says="{subject}: cap height is {measured} × that of {other}; minimum {limit} ×",
    fix="Raise the cap height of the upper level, or lower that of the lower level, to a ratio of {limit}.",
    limits=("hierarchy.step.minimum",),
)
def legend_hierarchy_flat(survey: Survey) -> Iterator[Observation]:
    """A label is hardly larger than the labels of the level below, or even smaller.

    A frame's title is compared with the names of the parts in it, a part's name with the names of its positions.
    Smaller than the level below is a warning, less than the required step a note. One finding for each pair of heights.

    Source: NUREG-0700 Rev. 2, 11.3.1: each level about 25 percent larger than the next.
    Fix: other cap heights.
    Fails: a title of 3 mm over names of 2.5 mm.
    Passes: a title of 3.2 mm over names of 2.5 mm.
    """
    limit = survey.limits["hierarchy.step.minimum"]
    pairs: dict[tuple[str, float, str, float], list[tuple[Words, Words]]] = {}
    for upper, lower in _levels(survey):
        if upper.cap_height < limit.value * lower.cap_height - ROUNDING:
            pairs.setdefault((upper.kind, upper.cap_height, lower.kind, lower.cap_height), []).append((upper, lower))
    for (kind, height, under, below), found in pairs.items():
        words = tuple(dict.fromkeys(upper for upper, _ in found))
        refs = tuple(dict.fromkeys(word.owner for word in words))
        yield Observation(
            refs=refs,
            place=place_of(_spots(words)),
            where=words[0].where,
            subject=things.style_of(ref=refs[0], style=kind) if len(refs) == 1 else things.legends_of_style(style=kind),
            other=things.lower_level(count=len(found), style=under, height=below),
            measured=height / below,
            limit=limit,
            severity=None if height < below - ROUNDING else Severity.NOTE,
            each=_spots(words),
        )


legend_hierarchy_flat.cases(
    """
    marking: {lettering: {styles: {title: {cap_height: __}}}}
    parts:
      - {ref: J1, part: bnc, at: [50, 50], legend: In}
      - {ref: J2, part: bnc, at: [90, 50], legend: Out}
    frames: [{around: [J1, J2], title: Signal}]
    """,
    fails="3.6",
    passes="4.5",
)


@rule(
    Severity.NOTE,
    says="{subject}: lettering differs from the other names: {other}",
    fix="Use the style of the other names, or name another style in the spec.",
)
def names_unlike(survey: Survey) -> Iterator[Observation]:
    """The name of a part is lettered differently from the other names on the panel.

    Readers take a difference for a meaning. Height, font and ink count, compared with those of most names. A symbol in
    place of a name is meant to differ and does not count.

    Source: NUREG-0700 Rev. 3, 11.4.1.5: labels of one level have one height.
    Fix: one style for all names.
    Fails: one name of 4 mm among names of 3 mm.
    Passes: all names of 3 mm.
    """
    names = [
        word
        for word in survey.words
        if word.kind == "name" and word.owner in survey.panel.by_ref and not is_symbols(word.legend.font)
    ]
    looks = Counter(_look(name) for name in names)
    if len(looks) < 2:
        return
    ((usual, count), *_) = looks.most_common()
    if count * 2 <= len(names):
        return  # no way is the usual one
    for name in names:
        if _look(name) != usual:
            yield Observation(
                refs=(name.owner,),
                place=name.box,
                where=name.where,
                subject=survey.named([name]),
                other=_difference(_look(name), usual),
            )


names_unlike.cases(
    """
    parts:
      - {ref: J1, part: bnc, at: [30, 50], legend: {text: In, cap_height: __}}
      - {ref: J2, part: bnc, at: [60, 50], legend: Out}
      - {ref: J3, part: bnc, at: [90, 50], legend: Sync}
    """,
    fails="4.5",
    passes="3.5",
)


def _look(name: Words) -> tuple[float, str, str]:
    return (round(name.cap_height, 6), name.legend.font, name.legend.ink.name)


def _difference(one: tuple[float, str, str], usual: tuple[float, str, str]) -> Message:
    height, font, ink = one
    found = [] if height == usual[0] else [said.cap_height_unlike(height=height, usual=usual[0])]
    found += [] if font == usual[1] else [said.font_unlike(font=font, usual=usual[1])]
    found += [] if ink == usual[2] else [said.ink_unlike(ink=ink, usual=usual[2])]
    return said.lettering_unlike(differences=found)


# --- place


@rule(
    Severity.WARNING,
    says="{subject}: rotated by {measured}; maximum {limit}",
    fix="Set the text horizontally or, where space is short, rotated by -90 degrees, to read from top to bottom.",
    limits=("turn.maximum", "upright.maximum"),
)
def legend_turned(survey: Survey) -> Iterator[Observation]:
    """A text is not horizontal.

    Text upside down is a warning. Vertical or sloping text is a note: it is acceptable where space is short and where
    safety does not depend on it.

    Source: MIL-STD-1472E, 5.5.2.1.
    Fix: set the text horizontally.
    Fails: a text turned by 180 degrees; a note for one turned by 90.
    Passes: a text that is not turned.
    """
    level, upright = survey.limits["turn.maximum"], survey.limits["upright.maximum"]
    for text in survey.panel.texts:
        turn = abs((text.turn + 180.0) % 360.0 - 180.0)
        words = [
            word for word in survey.words if word.where == text.request.where and word.owner not in survey.panel.by_ref
        ]
        if not words or turn <= level.value + ROUNDING:
            continue
        on_head = turn > upright.value + ROUNDING
        yield Observation(
            refs=(words[0].owner,),
            place=words[0].box,
            where=words[0].where,
            subject=survey.named(words),
            measured=turn,
            limit=upright if on_head else level,
            bound=Bound.MAXIMUM,
            severity=None if on_head else Severity.NOTE,
        )


legend_turned.cases(
    """
    texts: [{text: FUSE, at: [40, 50], style: name, turn: __}]
    """,
    fails="180",
    passes="0",
)


@rule(
    Severity.WARNING,
    says="{subject}: vertical gap to {other} is {measured}; minimum {limit}",
    fix="Move one of the legends until the gap is {limit}.",
    limits=("words.gap.minimum",),
    mends=(other_sides, moved_texts, moved_apart),
)
def legends_too_close(survey: Survey) -> Iterator[Observation]:
    """Two legends are so close above each other that they read as one text.

    Measured between the ink of legends one above the other. Overlapping legends, numerals and legends of one part are
    not reported.

    Source: NUREG-0700 Rev. 3, 11.4.1.5-7: half a height between lines.
    Fix: move one of the two.
    Fails: a name of 3 mm, 1.4 mm below the name of another part.
    Passes: the same names 1.5 mm apart.
    """
    share = survey.limits["words.gap.minimum"]
    maximum = share.value * max((word.cap_height for word in survey.words), default=0.0)
    for one, two in survey.words.near_each_other(maximum):
        if one.owner == two.owner or "numeral" in (one.kind, two.kind):
            continue
        across = min(one.box.right, two.box.right) - max(one.box.left, two.box.left)
        gap = max(one.box.bottom, two.box.bottom) - min(one.box.top, two.box.top)
        limit = share.times(min(one.cap_height, two.cap_height), of_limits.cap_height())
        if across > ROUNDING and -ROUNDING <= gap < limit.value - ROUNDING:
            yield Observation(
                refs=(two.owner, one.owner),
                place=Box.around((one.box, two.box)),
                where=two.where,
                subject=survey.named([two]),
                other=survey.named([one]),
                measured=gap,
                limit=limit,
            )


legends_too_close.cases(
    """
    texts:
      - {text: FUSE, at: [40, 50], style: name}
      - {text: LOAD, at: [40, __], style: name}
    """,
    fails="45.5",
    passes="43",
)


# --- marks


def _at_distance(survey: Survey, name: str) -> Limit:
    """A visual angle as millimetres at the viewing distance."""
    angle, distance = survey.limits[name], survey.panel.marking.viewing_distance
    source = of_limits.angle_seen(angle=(angle.value, angle.unit), distance=distance, source=angle.source)
    return replace(angle, value=height_at(angle.value, distance), unit="mm", source=source)


def _ends(mark: Stroke) -> tuple[Point, Point]:
    curves = mark.mark.shape[0].curves
    return curves[0].start, curves[-1].end


def _graduations(survey: Survey) -> list[Stroke]:
    """The straight marks of scales: no leaders, bands or dots."""
    return [mark for mark in survey.scale_marks if mark.kind.endswith("-mark") and not mark.mark.filled]


def _by_owner(marks: Iterable[Stroke]) -> Iterator[list[Stroke]]:
    groups: dict[tuple[str, str, float], list[Stroke]] = {}
    for mark in marks:
        groups.setdefault((mark.owner, mark.kind, mark.mark.width), []).append(mark)
    yield from groups.values()


@rule(
    Severity.WARNING,
    says="{subject}: width {measured} is not visible at the viewing distance; minimum {limit}",
    fix="Make the marks {limit} wide by a larger cap height, or choose another process.",
    limits=("angle.mark.width.minimum", "process.line_minimum"),
    mends=(enlarged,),
)
def mark_too_fine(survey: Survey) -> Iterator[Observation]:
    """A mark of a scale or a frame is too thin to be seen at the viewing distance in the spec.

    Not reported where the marking process cannot hold the line either: line-too-thin reports that.

    Source: one minute of arc, the resolution of an eye of acuity 1; h = 2 d tan(a / 2).
    Fix: wider marks.
    Fails: marks of 0.20 mm seen from 700 mm, where 0.204 mm are needed.
    Passes: marks of 0.21 mm at the same distance.
    """
    limit = _at_distance(survey, "angle.mark.width.minimum")
    held = of_process(survey, "line_minimum").value
    lines = (mark for mark in (*survey.scale_marks, *survey.frame_lines) if not mark.mark.filled)
    for marks in _by_owner(lines):
        if held - ROUNDING <= marks[0].mark.width < limit.value - ROUNDING:
            yield Observation(
                refs=(marks[0].owner,),
                place=Box.around(mark.box for mark in marks),
                where=marks[0].where,
                subject=survey.named(marks),
                measured=marks[0].mark.width,
                limit=limit,
            )


mark_too_fine.cases(
    """
    marking: {viewing_distance: 900}
    art: [{rule: [[20, 50], [100, 50]], width: __}]
    """,
    fails="0.25",
    passes="0.3",
)


@rule(
    Severity.WARNING,
    says="{subject}: length {measured} is not readable at the viewing distance; minimum {limit}",
    fix="Raise the cap height of the names until the marks are {limit} long.",
    limits=("angle.mark.length.minimum",),
    mends=(enlarged,),
)
def mark_too_short(survey: Survey) -> Iterator[Observation]:
    """The marks of a scale are too short to be distinguished at the viewing distance in the spec.

    With `mark_sizes` of a source the marks have its lengths, which are all above this minimum.

    Source: five minutes of arc, the height of a letter that an eye of acuity 1 reads; common practice.
    Fix: longer marks, or `mark_sizes` of a source.
    Fails: marks of 1.0 mm seen from 700 mm, where 1.018 mm are needed.
    Passes: marks of 1.1 mm at the same distance.
    """
    limit = _at_distance(survey, "angle.mark.length.minimum")
    for marks in _by_owner(_graduations(survey)):
        length = min(_ends(mark)[0].distance(_ends(mark)[1]) for mark in marks)
        if length < limit.value - ROUNDING:
            yield Observation(
                refs=(marks[0].owner,),
                place=Box.around(mark.box for mark in marks),
                where=marks[0].where,
                subject=survey.named(marks),
                measured=length,
                limit=limit,
            )


mark_too_short.cases(
    """
    marking: {viewing_distance: __}
    parts:
      - ref: RV1
        part: pot-m10
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Level
        scale: {from: 0, to: 10, major: 1, minor: 0.5}
    """,
    fails="1100",
    passes="1000",
)


@rule(
    Severity.WARNING,
    says="{subject}: spacing between marks is {measured}; minimum {limit}",
    fix="Leave out marks, or draw the scale on a larger circle.",
    limits=("marks.white.minimum",),
)
def marks_crowded(survey: Survey) -> Iterator[Observation]:
    """The marks of a scale are so close that they run together.

    Measured is the gap between the ends of the two marks nearest to each other; the minimum is twice the width of the
    wider mark.

    Source: common practice; lines that nearly touch are one grey band at arm's length.
    Fix: fewer marks, or a larger circle.
    Fails: marks of 0.3 mm with gaps of 0.5 mm.
    Passes: marks of 0.3 mm with gaps of 0.6 mm.
    """
    share = survey.limits["marks.white.minimum"]
    # Two scales on one arc share it: marks of one that meet marks of the other are meant to.
    scales: dict[tuple[str, Where], list[Stroke]] = {}
    for mark in _graduations(survey):
        scales.setdefault((mark.owner, mark.where), []).append(mark)
    for marks in (*scales.values(), *survey.dial_marks):
        ends = np.array([_ends(mark) for mark in marks])
        if len(ends) < 2:
            continue
        widths = np.array([mark.mark.width for mark in marks])
        tree = shapely.STRtree(shapely.linestrings(ends))
        reach = float((share.value + 1.0) * widths.max())
        one, two = tree.query(tree.geometries, predicate="dwithin", distance=reach)
        kept = one < two
        one, two = one[kept], two[kept]
        if not len(one):
            continue
        white = shapely.distance(tree.geometries[one], tree.geometries[two]) - (widths[one] + widths[two]) / 2
        short = white - share.value * np.maximum(widths[one], widths[two])
        worst = int(np.argmin(short))
        if short[worst] < -ROUNDING:
            limit = share.times(float(max(widths[one[worst]], widths[two[worst]])), of_limits.mark_width())
            yield Observation(
                refs=(marks[0].owner,),
                place=Box.around((marks[one[worst]].box, marks[two[worst]].box)),
                where=marks[0].where,
                subject=things.scale(ref=marks[0].owner),
                measured=float(white[worst]),
                limit=limit,
            )


marks_crowded.cases(
    """
    parts:
      - ref: RV1
        part: pot-m10
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Level
        scale: {from: 0, to: 10, major: 1, minor: __}
    """,
    fails="0.05",
    passes="0.5",
)
