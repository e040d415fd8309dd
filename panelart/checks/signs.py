"""Signs and spaces of quantities: words are printed as they are written, better ones are offered once a panel."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

from panelart.checks.findings import Observation, Spelling, Spot, place_of, refs_of
from panelart.checks.mends import rewritten
from panelart.checks.rule import rule
from panelart.checks.survey import Survey, Words
from panelart.diagnostics import Severity
from panelart.lettering.fonts import open_font
from panelart.messages import checks as said
from panelart.model.circuit import SafetyFunction
from panelart.model.component import Component
from panelart.model.panel import Style
from panelart.texts.signs import THIN, better, only_amounts

_TITLE: Final = "title"
_NUMERAL: Final = "numeral"
_RATED: Final = frozenset({"fuse", "breaker", "mains-inlet"})
"""Cautions of parts whose legends are ratings."""

_SHOWN: Final = 5
"""Changes that the sentence names; the suggestion has all."""


@rule(
    Severity.NOTE,
    says="{subject}: signs and spaces can be improved: {other}",
    fix="Write the texts in this way (`panelart check --suggest` offers the edit), or waive this with a reason.",
    mends=(rewritten,),
)
def signs_improvable(survey: Survey) -> Iterator[Observation]:
    """Quantities are written with the signs of a keyboard, or without the space before the unit.

    Reported once a panel, and nothing is changed unless the writer takes the suggestion. Offered are a no-break space
    between a number and its unit, the minus sign, the multiplication sign and the sign of plus or minus, an en dash in
    a range of quantities, the symbol of direct current for `12 V =`, µ for u, raised figures for mm2, and one code for
    µ and Ω each; of these only what the font has. No narrow space is offered: the spaces that the other texts have are
    usual ones, and beside them it would look like a mistake. Words, models,
    references and ratings of fuses and supplies are left as they are, and so are titles with words in them.

    Source: SI Brochure, 9th edition, 5.4.3 and 5.4.7, spaces; 5.4.5 and 5.4.6, signs (from memory); IEC 60417-5031,
    direct current; The Unicode Standard, 6.2 and 22.2, characters; en dashes are common practice.
    Fix: the edit that `panelart check --suggest` offers where no other finding comes of it.
    Fails: 10mA; 5 V with a hyphen for minus.
    Passes: 10 mA; 5 V with a minus sign.
    """
    found = [(word, changes) for word in survey.words if (changes := _changes(survey, word))]
    if not found:
        return
    spots = tuple(Spot(ref=word.owner, place=word.box, where=word.where) for word, _ in found)
    spellings = tuple(dict.fromkeys(change for _, changes in found for change in changes))
    words = [word for word, _ in found]
    yield Observation(
        refs=refs_of(spots),
        place=place_of(spots),
        where=min(word.where for word in words),
        subject=survey.named(words) if len(words) == 1 else said.texts_counted(len(words)),
        other=said.sign_changes([said.sign_change(each.written, each.meant) for each in spellings[:_SHOWN]]),
        each=spots,
        spellings=spellings,
    )


signs_improvable.cases(
    """
    texts: [{text: "__", at: [60, 50]}]
    """,
    fails="10mA",
    passes="10 mA",
)


def _changes(survey: Survey, word: Words) -> tuple[Spelling, ...]:
    """What may be better written in a text; beside fuses and inlets it is a rating, whatever it looks like."""
    owner = survey.panel.by_ref.get(word.owner)
    if owner is not None and _is_rated(owner.component):
        return ()
    if word.kind == _TITLE and not only_amounts(word.text):
        return ()
    if word.kind == _NUMERAL and not _is_written(survey, word):
        return ()
    has = _has(survey.panel.marking.styles[word.kind])
    return tuple(Spelling(written=each.written, meant=each.meant) for each in better(word.text, has=has).changes)


def _is_rated(component: Component) -> bool:
    """Whether the legends of a part are ratings: it protects against overcurrent, or mains enters at it."""
    circuit = component.circuit
    protects = circuit is not None and circuit.safety is SafetyFunction.OVERCURRENT
    return protects or not _RATED.isdisjoint(component.cautions)


def _is_written(survey: Survey, word: Words) -> bool:
    """Whether what stands at a scale is the writer's: its unit or a word, and no number that the program wrote."""
    part = survey.panel.by_ref.get(word.owner)
    scales = () if part is None else (part.scale, part.outer_scale)
    return any(word.text in {scale.unit, *(text for _, text in scale.words)} for scale in scales if scale is not None)


def _has(style: Style) -> Callable[[str], bool]:
    """Whether a character may be offered in a style: one of its fonts has it, and it is no narrow space.

    Another space must be in the style's own font, or it has another font's width.
    """
    own = open_font(style.font)
    others = [open_font(name) for name in style.look.fallback]
    return lambda character: (
        character != THIN
        and (own.has(character) or (not character.isspace() and any(font.has(character) for font in others)))
    )
