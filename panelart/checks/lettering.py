"""Lettering as it will be marked: strokes and gaps of every legend against the process, and against the eye."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from pathlib import PurePath

from panelart.checks.findings import Bound, Observation, Spot, place_of, refs_of
from panelart.checks.limits import Basis, Limit
from panelart.checks.marking import gap_limit, of_process
from panelart.checks.mends import enlarged
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey, Words
from panelart.diagnostics import Severity
from panelart.lettering.cuts import cut_of, is_symbols
from panelart.lettering.fonts import file_of, open_font
from panelart.lettering.measures import Widths, gap_within, widths
from panelart.lettering.pens import face_pen
from panelart.lettering.setting import set_words
from panelart.messages import Message
from panelart.messages import checks_limits as of_limits
from panelart.messages import checks_things as things
from panelart.model.light import luminance
from panelart.processes.process import CutterPaths

_STEP = 0.05
"""Cap heights are suggested in steps of this, mm."""


def _stroke_limit(survey: Survey) -> Limit:
    """The thinnest stroke of ink, or the width of the cutter that must enter it."""
    cutter = survey.panel.marking.cutter
    if cutter is None:
        return of_process(survey, "line_minimum")
    return Limit(
        name="",
        what=of_limits.line_width(),
        value=cutter,
        unit="mm",
        source=of_limits.engraving_cutter(),
        basis=Basis.GIVEN,
    )


def _narrow(
    survey: Survey,
    limit: Limit,
    measured: Callable[[Words, Widths], float],
    remedy: Callable[[Sequence[Words], Limit, float], Message],
) -> Iterator[Observation]:
    """One observation for each style, font and height of lettering of which some legend is too fine.

    `remedy` takes the words of one observation, the limit, and the cap height that is enough.
    """
    kinds: dict[tuple[str, str, float], list[tuple[float, Words]]] = {}
    for words in survey.words:
        setting = words.legend.setting
        if setting is None:
            continue
        width = measured(words, widths(setting))
        if width < limit.value - ROUNDING:
            key = (words.kind, words.legend.font, words.cap_height)
            kinds.setdefault(key, []).append((width, words))
    for (_, _, cap_height), found in kinds.items():
        width, worst = min(found, key=lambda one: one[0])
        spots = tuple(Spot(ref=words.owner, place=words.box, where=words.where) for _, words in found)
        enough = math.ceil(cap_height * limit.value / width / _STEP - ROUNDING) * _STEP
        yield Observation(
            refs=refs_of(spots),
            place=place_of(spots),
            where=worst.where,
            subject=survey.named([words for _, words in found]),
            other=remedy([words for _, words in found], limit, enough),
            measured=width,
            limit=limit,
            each=spots,
        )


def _raised(_found: Sequence[Words], _limit: Limit, enough: float) -> Message:
    return things.length(length=enough)


def _raised_or_opened(found: Sequence[Words], limit: Limit, enough: float) -> Message:
    """Letter spacing is told only where all that is too narrow lies between letters."""
    spaced = all(
        not _is_field(words)
        and words.legend.setting is not None
        and gap_within(words.legend.setting) >= limit.value - ROUNDING
        for words in found
    )
    return things.length_or_spacing(length=enough) if spaced else things.length_or_font(length=enough)


def _is_field(words: Words) -> bool:
    """Whether words are knocked out: of a field of their own, or of one round their part."""
    setting = words.legend.setting
    return words.legend.left_out or (setting is not None and setting.plate is not None)


@rule(
    Severity.WARNING,
    says="{subject}: thinnest stroke is {measured} wide; minimum {limit}",
    fix="Raise the cap height to {other}, or choose a bolder font.",
    limits=("process.line_minimum",),
    mends=(enlarged,),
)
def lettering_too_thin(survey: Survey) -> Iterator[Observation]:
    """A stroke of a legend is thinner than the process can hold, or than the cutter that must enter it.

    Measured on the outlines as they will be marked, superscripts and bars included, by the discs that fit between the
    sides of a stroke: it is as thin as the discs are over a length of one stroke width. A shorter neck, as where an
    arch leaves its stem, is held by the ink on both sides of it and does not count. For words knocked out of a field
    the ink between the letters counts. Strokes are measured to 0.002 of the cap height, and rounded to that. The fix
    names the smallest cap height at which these words meet the limit in this font, in steps of 0.05 mm. A warning,
    since printers publish what they recommend and not what only just holds.

    Source: the process's own figure for a line; the width of the cutter in the spec.
    Fix: a larger cap height, a bolder font, or another process.
    Fails: lettering of the light weight at 2 mm, whose strokes are 0.2 mm, where the process holds 0.25 mm.
    Passes: the same at 2.6 mm.
    """
    yield from _narrow(
        survey,
        _stroke_limit(survey),
        lambda words, found: found.gap if _is_field(words) else found.stroke,
        _raised,
    )


lettering_too_thin.cases(
    """
    marking: {viewing_distance: 300}
    texts: [{text: FUSE, at: [40, 50], style: name, cap_height: __, font: {weight: light}}]
    """,
    fails="2.4",
    passes="3",
)
lettering_too_thin.cases(
    """
    marking: {process: engraving, cutter: 0.4, viewing_distance: 300}
    texts: [{text: FUSE, at: [40, 50], style: name, cap_height: __}]
    """,
    fails="3.5",
    passes="5",
)


@rule(
    Severity.WARNING,
    says="{subject}: narrowest gap is {measured} wide; minimum {limit}",
    fix="Raise the cap height to {other}.",
    limits=("process.gap_minimum",),
    mends=(enlarged,),
)
def lettering_gap_too_narrow(survey: Survey) -> Iterator[Observation]:
    """A gap within or between letters is narrower than the process can keep open.

    Counters, the openings of letters and the gaps between neighbours count, and so does what stays bare where words are
    knocked out of a field: there the strokes of the letters are the gaps. Where two strokes only meet at a point, as in
    V, no gap counts; between neighbours a gap is as narrow as it is along two stroke widths of their edges, so that a
    corner near a stroke, as in a kerned pair, does not count by itself. The fix names the smallest cap height at which
    these words meet the limit, and `tracking` where all that is too narrow lies between letters.

    Source: the process's own figure for a line left bare.
    Fix: a larger cap height; `tracking` between letters; within one, a font with wider counters.
    Fails: words in a field at 2 mm, with strokes of 0.2 mm, where the process keeps 0.26 mm open.
    Passes: the same at 2.7 mm.
    """
    yield from _narrow(
        survey,
        gap_limit(survey),
        lambda words, found: found.stroke if _is_field(words) else found.gap,
        _raised_or_opened,
    )


lettering_gap_too_narrow.cases(
    """
    marking: {viewing_distance: 300}
    texts: [{text: FUSE, at: [40, 50], style: name, cap_height: __, font: {weight: light}, reversed: true}]
    """,
    fails="2.55",
    passes="3",
)


def _words_of(words: Words, font: str) -> list[str]:
    """The words of a legend that have letters of a font, in their order."""
    setting = words.legend.setting
    if setting is None:
        return []
    letters = {letter for each in setting.letters if each.font == font for letter in each.text}
    return [word for word in setting.text.split() if letters.intersection(word)]


def _lettered_fonts(words: Words) -> list[str]:
    """The fonts of a legend's letters and figures but for its own; signs may come from anywhere."""
    setting = words.legend.setting
    if setting is None:
        return []
    lettered = (letter.font for letter in setting.letters if any(each.isalnum() for each in letter.text))
    return [font for font in dict.fromkeys(lettered) if font != words.legend.font]


def _stem(font: str) -> float | None:
    """A font's stroke over its cap height: of our own the pen, of another the thinnest of its H; None without one."""
    cut = cut_of(font)
    if cut is not None:
        return 1.0 / cut.weight
    opened = open_font(font)
    return widths(set_words("H", font, 1.0)).stroke if opened.has("H") else None


def _polarity(words: Words, ground: str) -> str:
    """How lettering stands on a colour under it: `light_on_dark` or `dark_on_light`."""
    lighter = luminance(words.legend.ink.colour) > luminance(ground)
    # Words left out of a field show the ground, round which the ink stands.
    return "light_on_dark" if lighter != _is_field(words) else "dark_on_light"


def _strokes(survey: Survey) -> Iterator[tuple[str, float, list[Words]]]:
    """Lettering of one font, kind and polarity together: the polarity, its stroke over the cap height, the words."""
    kinds: dict[tuple[str, str, str], list[Words]] = {}
    for words in survey.words:
        if words.legend.setting is None or is_symbols(words.legend.font):
            continue
        for ground in survey.seen_against(words)[:1]:
            kinds.setdefault((words.kind, words.legend.font, _polarity(words, ground.colour)), []).append(words)
    for (_, font, polarity), group in kinds.items():
        share = _stem(font)
        if share is not None:
            yield polarity, share, group


def _of_polarity(
    survey: Survey, group: list[Words], polarity: str, share: float, limit: Limit, bound: Bound = Bound.MINIMUM
) -> Observation:
    spots = tuple(Spot(ref=words.owner, place=words.box, where=words.where) for words in group)
    return Observation(
        refs=refs_of(spots),
        place=place_of(spots),
        where=group[0].where,
        subject=survey.named(group),
        other=things.light_on_dark() if polarity == "light_on_dark" else things.dark_on_light(),
        measured=share,
        limit=limit,
        bound=bound,
        each=spots,
    )


@rule(
    Severity.WARNING,
    says="{subject}: stroke is {measured} of the cap height ({other}); minimum {limit}",
    fix="Choose a bolder weight of the font.",
    limits=("stroke.light_on_dark.minimum", "stroke.dark_on_light.minimum", "stroke.cut.minimum"),
)
def lettering_too_light(survey: Survey) -> Iterator[Observation]:
    """The strokes of lettering are too thin for its height to be read well on this face.

    The polarity is that of the ink and of what it is printed on, by their relative luminances; words left out of a
    field of ink are light where the field is dark. Of the program's own font the stroke is its weight, of another the
    thinnest stroke of its H. Symbols have rules of their own. What a tool cuts is single-stroke lettering, for which
    a tenth is enough.

    Source: DOD-HDBK-791(AM), 6-5.3.2.3, for light on dark; DIN 1450 for dark on light; MIL-STD-1472F for letters of
    one stroke.
    Fix: a bolder weight (`font: {weight: medium}`), or another font.
    Fails: white lettering of h/10 on a dark face.
    Passes: the same of h/8.
    """
    for polarity, share, group in _strokes(survey):
        cut = survey.panel.marking.process.gives(CutterPaths) is not None
        limit = survey.limits["stroke.cut.minimum" if cut else f"stroke.{polarity}.minimum"]
        if share < limit.value - ROUNDING:
            yield _of_polarity(survey, group, polarity, share, limit)


lettering_too_light.cases(
    """
    panel: {coat: {kind: powder, thickness: 0.08, colour: "#202428"}}
    marking: {ink: {name: white, colour: "#F4F4F0"}, lettering: {font: {weight: __}}}
    texts: [{text: FUSE, at: [40, 50], style: name}]
    """,
    fails="light",
    passes="h/8",
)
lettering_too_light.cases(
    """
    marking: {lettering: {font: {weight: __}}}
    texts: [{text: FUSE, at: [40, 50], style: name}]
    """,
    fails="h/9",
    passes="medium",
)
lettering_too_light.cases(
    """
    marking: {process: engraving, lettering: {font: {weight: __}}}
    texts: [{text: FUSE, at: [40, 50], style: name}]
    """,
    fails="h/12",
    passes="light",
)


@rule(
    Severity.NOTE,
    says="{subject}: letters that the font lacks are from {other}",
    fix="Set the whole panel in one font that has all its letters, or choose a fallback of the same stroke.",
)
def lettering_in_another_font(survey: Survey) -> Iterator[Observation]:
    """Letters or figures of a legend are not in its font and are set in a fallback.

    A word is always set in one font, and so are all words of one script on a line if a font has them; a variable
    fallback gets the weight of the main font. The note names the fallback, the words, and how wide its stroke is beside
    that of the main font, where both have letters to compare. Signs and arrows from another font are not told.

    Source: common practice: one panel, one face.
    Fix: a font that has all letters, or a fallback of the same stroke.
    Fails: NGUỒN in a house font without Vietnamese letters, set in the plain face.
    Passes: NGUON in the house font.
    """
    kinds: dict[tuple[str, str, str], list[Words]] = {}
    for words in survey.words:
        for font in _lettered_fonts(words):
            kinds.setdefault((words.kind, words.legend.font, font), []).append(words)
    for (_, main, font), found in kinds.items():
        spots = tuple(Spot(ref=words.owner, place=words.box, where=words.where) for words in found)
        yield Observation(
            refs=refs_of(spots),
            place=place_of(spots),
            where=found[0].where,
            subject=survey.named(found),
            other=_compared(main, font, [word for words in found for word in _words_of(words, font)]),
            each=spots,
        )


def _compared(main: str, font: str, texts: list[str]) -> Message:
    name = PurePath(file_of(font)).name
    own, other = face_pen(main), face_pen(font)
    if own is None or other is None:
        return things.other_font(font=name, texts=tuple(dict.fromkeys(texts)))
    return things.other_font_of_stroke(font=name, texts=tuple(dict.fromkeys(texts)), stroke=round(other / own, 2))


lettering_in_another_font.cases(
    """
    marking: {lettering: {font: house.ttf, fallback: [plain], cap_height: 4}}
    texts: [{text: __, at: [40, 50], style: name}]
    """,
    fails="NGUỒN",
    passes="NGUON",
)


@rule(
    Severity.NOTE,
    says="{subject}: stroke is {measured} of the cap height ({other}); maximum {limit}",
    fix="Choose a lighter weight of the font, or increase the letter spacing (`tracking`).",
    limits=("stroke.light_on_dark.maximum",),
)
def lettering_too_heavy(survey: Survey) -> Iterator[Observation]:
    """The strokes of light lettering on a dark face are so thick that it spreads and its counters close to the eye.

    Dark letters on a light face do not spread and may be thicker. Measured as in lettering-too-light.

    Source: DOD-HDBK-791(AM), 6-5.3.2.3.
    Fix: a lighter weight (`font: {weight: medium}`), or `tracking`.
    Fails: white lettering of h/6 on a dark face.
    Passes: the same of h/7.
    """
    limit = survey.limits["stroke.light_on_dark.maximum"]
    for polarity, share, group in _strokes(survey):
        if polarity == "light_on_dark" and share > limit.value + ROUNDING:
            yield _of_polarity(survey, group, polarity, share, limit, Bound.MAXIMUM)


lettering_too_heavy.cases(
    """
    panel: {coat: {kind: powder, thickness: 0.08, colour: "#202428"}}
    marking: {ink: {name: white, colour: "#F4F4F0"}, lettering: {font: {weight: __}}}
    texts: [{text: FUSE, at: [40, 50], style: name}]
    """,
    fails="bold",
    passes="medium",
)
