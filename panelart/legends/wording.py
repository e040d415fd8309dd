"""Whether everything can be lettered at all: fonts that open, and a glyph for every character."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.diagnostics import Problem
from panelart.legends.candidates import style_of
from panelart.lettering.fonts import MissingGlyphError, UnknownFontError
from panelart.lettering.setting import set_words
from panelart.model.panel import LegendRequest, Panel


def lettering_problems(panel: Panel) -> tuple[Problem, ...]:
    """One problem for each legend that its font cannot set; empty when all can be lettered."""
    problems: list[Problem] = []
    for owner, request in _requests(panel):
        style = style_of(request, panel.marking)
        try:
            set_words(request.text, style.font, style.cap_height)
        except MissingGlyphError as missing:
            problems.append(
                Problem(
                    where=request.where,
                    message=f"'{request.text}' of {owner}: {missing}",
                    hint="write it with other characters, or name a font that has the character",
                )
            )
        except UnknownFontError as unknown:
            problems.append(Problem(where=request.where, message=f"'{request.text}' of {owner}: {unknown}"))
    return tuple(dict.fromkeys(problems))


def _requests(panel: Panel) -> Iterator[tuple[str, LegendRequest]]:
    for part in panel.parts:
        if part.legend is not None:
            yield part.ref, part.legend
        for position in part.positions:
            yield part.ref, position.request
        if part.scale is not None and part.scale.unit:
            yield part.ref, LegendRequest(text=part.scale.unit, style="numeral", where=part.scale.where)
    for frame in panel.frames:
        if frame.title is not None:
            yield f"the frame round {', '.join(frame.around)}", frame.title
    for text in panel.texts:
        yield "the free text", text.request
