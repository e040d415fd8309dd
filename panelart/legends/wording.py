"""Whether everything can be lettered at all: fonts that open, and a glyph for every character."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.diagnostics import Problem, Where
from panelart.legends.candidates import lettered, style_of
from panelart.lettering.bidi import has_controls
from panelart.lettering.cuts import MEDIUM
from panelart.lettering.fonts import MissingGlyphError, UnknownFontError, file_of, open_font
from panelart.lettering.look import Zero
from panelart.lettering.spans import Manner
from panelart.messages import Message, Said
from panelart.messages import legends as said
from panelart.model.panel import ArcLine, Law, LegendRequest, Panel, Part, Scale, Style


def lettering_problems(panel: Panel) -> tuple[Problem, ...]:
    """One problem for each legend that its font cannot set; empty when all can be lettered."""
    problems: list[Problem] = []
    for owner, request, arc in _requests(panel):
        style = style_of(request, panel.marking)
        legend = said.legend_of(text=request.text, owner=owner)

        def add(says: Message, accepts: Said = "", where: Where = request.where) -> None:
            problems.append(Problem(where=where, says=says, accepts=accepts))

        if has_controls(request.text):
            add(said.direction_marks(legend=legend), said.remove_direction_marks())
        try:
            lacking = _without_small_capitals(request, style)
            if lacking is not None:
                add(said.no_small_capitals(legend=legend, font=lacking), said.other_case())
            if _without_other_zero(request, style):
                add(said.no_other_zero(legend=legend, font=style.font), said.plain_zero())
            setting = lettered(request, style)
            if arc is not None:
                setting.bent(arc.radius, 90.0, feet_inward=arc.feet_inward)
        except MissingGlyphError as missing:
            add(said.not_lettered(legend=legend, reason=missing.says), _who_has(missing, panel))
        except UnknownFontError as cannot:
            add(said.font_not_opened(legend=legend, reason=cannot.args[0]))
        except ValueError as cannot:
            add(said.not_lettered(legend=legend, reason=cannot.args[0]))
    return tuple(dict.fromkeys(problems))


def _without_small_capitals(request: LegendRequest, style: Style) -> str | None:
    """The font of a legend that asks for small capitals, if it has none."""
    asked = any(span.manner is Manner.SMALL for span in request.spans)
    return style.font if asked and not open_font(style.font).has_feature("smcp") else None


def _without_other_zero(request: LegendRequest, style: Style) -> bool:
    """Whether a legend has a nought that is to have another form, in a font that has none."""
    asked = style.look.zero is not Zero.PLAIN and "0" in request.text
    if not asked:
        return False
    font = next((font for name in (style.font, *style.look.fallback) if (font := open_font(name)).has("0")), None)
    return font is not None and not font.has_feature("zero")


def _who_has(missing: MissingGlyphError, panel: Panel) -> Message:
    """Which of the fonts that the panel names, and of our own, has the character."""
    lacking = {file_of(name) for name in missing.fonts}
    others = dict.fromkeys(name for name in _fonts(panel) if file_of(name) not in lacking)
    has = list(dict.fromkeys(file_of(name) for name in others if open_font(name).has(missing.character)))
    return said.glyph_elsewhere(fonts=has) if has else said.glyph_nowhere()


def _fonts(panel: Panel) -> tuple[str, ...]:
    styles = [
        *panel.marking.styles.values(),
        *(style_of(request, panel.marking) for _, request, _ in _requests(panel)),
    ]
    named = [name for style in styles for name in (style.font, *style.look.fallback)]
    return tuple(dict.fromkeys((*named, MEDIUM.font)))


def _requests(panel: Panel) -> Iterator[tuple[Said, LegendRequest, ArcLine | None]]:
    for part in panel.parts:
        yield from ((part.ref, request, None) for request in _of_part(part))
    for frame in panel.frames:
        if frame.title is not None:
            yield said.frame_round(refs=frame.around), frame.title, None
    for free in panel.texts:
        yield said.free_text(), free.request, free.arc


def _of_part(part: Part) -> Iterator[LegendRequest]:
    """What is lettered for a part: its name, its positions and their units, and its scales."""
    yield from part.names
    for position in part.positions:
        yield from (one for one in (position.request, position.unit) if one is not None)
    for scale in (part.scale, part.outer_scale):
        if scale is not None:
            yield from (sign for _, sign in scale.signs)
            for text in _scale_texts(scale):
                yield LegendRequest(text=text, style="numeral", where=scale.where, spans=scale.spans(text))


def _scale_texts(scale: Scale) -> Iterator[str]:
    """What a scale prints: its unit, and every figure and sign that its numerals can have."""
    if scale.unit:
        yield scale.unit
    if scale.rest:
        yield scale.rest
    yield from (word for _, word in scale.words)
    minus = "\N{MINUS SIGN}" if scale.low < 0 else ""
    logarithmic = scale.law is Law.LOGARITHMIC
    minus += "+" if scale.signed else ""
    yield f"{minus}0123456789{'.' if scale.decimals or logarithmic else ''}{'kM' if logarithmic else ''}"
