"""Legends in several languages: the table of the spec, what a text is in one of them, what is missing or never used."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from msgspec import field
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.diagnostics import Where, did_you_mean, nearest
from panelart.lettering.cuts import LIGHT
from panelart.lettering.fonts import MissingGlyphError
from panelart.lettering.setting import set_words
from panelart.messages import spec as said
from panelart.model.panel import Marking, Untranslated
from panelart.source.problems import Problems
from panelart.spec import language
from panelart.texts.parse import parse
from panelart.texts.runs import Certain, Meaning, Unsure, Word

AS_WRITTEN: Final = "as-written"
LONGEST: Final = "longest"
"""What may be asked for in place of a language: the spec's own words, and for each text the widest of all languages."""

_BRACES: Final = re.compile(r"\{[^{}]*\}")
_SHORTEST: Final = 2
"""Letters of a word; one letter is a name in any language."""


class Translation(Struct, kw_only=True):
    """The words of a panel in the language asked for; keeps which texts it was asked about."""

    name: str = AS_WRITTEN
    table: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    places: Mapping[tuple[str, str], Where] = field(default_factory=dict)
    asked: dict[str, Where] = field(default_factory=dict)

    def say(self, text: str, where: Where) -> str:
        """The text in the language, or as it is written where that has no word for it."""
        self.asked.setdefault(text, where)
        if self.name == AS_WRITTEN or not self.table:
            return text
        if self.name != LONGEST:
            return self.table[self.name].get(text, text)
        said = dict.fromkeys([text, *(words[text] for words in self.table.values() if text in words)])
        return max(said, key=_width)

    def spoken(self, marking: Marking) -> Marking:
        """The marking with the language in every style that has none, for its capitals and forms of letters."""
        if self.name not in self.table:
            return marking
        styles = {
            name: style if style.look.language else replace(style, look=replace(style.look, language=self.name))
            for name, style in marking.styles.items()
        }
        return replace(marking, styles=styles)

    def unused(self, problems: Problems) -> None:
        """Adds every entry of the table that no text of the panel says."""
        for (name, text), where in self.places.items():
            if text not in self.asked:
                near = nearest(text, self.asked)
                hint = did_you_mean(text, self.asked, said.texts()) if near else said.texts_as_written()
                problems.add(where, said.text_not_on_panel(name, text), hint)

    @property
    def missing(self) -> tuple[Untranslated, ...]:
        """Every text with words in it that a language of the table says nothing for."""
        return tuple(
            Untranslated(language=name, text=text, where=where)
            for name, words in self.table.items()
            for text, where in self.asked.items()
            if text not in words and _has_words(_without_braces(text))
        )


def _without_braces(text: str) -> str:
    """The text without what stands in braces, those within each other too."""
    left = _BRACES.sub("", text)
    return left if left == text else _without_braces(left)


def _has_words(text: str) -> bool:
    """Whether a text has a word of two letters or more; units, ratings and designations are the same in all languages.

    What may be a word and a unit is taken for a word.
    """
    readings = (each for means in parse(text).meanings() for each in _readings(means))
    return any(isinstance(each, Word) and sum(map(str.isalpha, each.text)) >= _SHORTEST for each in readings)


def _readings(means: Meaning) -> tuple[Certain, ...]:
    return means.readings if isinstance(means, Unsure) else (means,)


def translation(top: language.Spec, asked: str, problems: Problems) -> Translation:
    """The table of the spec and the language asked for; one that the table does not have is a problem."""
    table: dict[str, dict[str, str]] = {}
    places: dict[tuple[str, str], Where] = {}
    for key, value in top.languages or ():
        if key.value in (AS_WRITTEN, LONGEST):
            problems.add(key.where, said.not_a_language(key.value), said.language_tag())
            continue
        words = table.setdefault(key.value, {})
        for text, translated in value.value:
            words[text.value] = translated.value
            places[key.value, text.value] = text.where
    if asked not in (AS_WRITTEN, LONGEST, *table):
        problems.add(top.begins, said.unknown_language(asked), did_you_mean(asked, table, said.languages()))
        asked = AS_WRITTEN
    return Translation(name=asked, table=table, places=places)


def _width(text: str) -> float:
    """How wide a text is in our own lettering; by its letters where that cannot set it."""
    plain = text.replace("{", "").replace("}", "")
    try:
        return round(set_words(plain.upper(), LIGHT.font, 1.0).box.width, 6)
    except (MissingGlyphError, ValueError):
        return float(len(plain))
