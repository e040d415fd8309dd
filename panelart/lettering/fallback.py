"""Which of several fonts each character of a line is set in: the first that has it, but never two in one word.

The letters and figures of one script that stand in a line are set in one font, the first that has them all. Where none
has, each word by itself is set in the first that has all of it, and a word of several scripts, such as a unit with a
Greek letter, where no font has all of it, script by script. Below that nothing is parted: a word of which one letter is
of another face looks like an error. Signs, arrows and punctuation come from the font of their neighbours where it has
them and else from the first that has them, since they are in no face's manner.
"""

from __future__ import annotations

import unicodedata
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Final

from panelart.canonical import Struct
from panelart.lettering.fonts import Font, MissingGlyphError
from panelart.lettering.scripts import SHARED, script_of

_SPACES: Final = frozenset(map(chr, (0xA0, *range(0x2000, 0x200B), 0x202F, 0x205F)))
"""Spaces that the shaper makes of the plain one at their own widths, where a font lacks them (HarfBuzz,
hb-ot-shape-normalize): thin spaces and narrow no-break ones are in few fonts."""

_LETTERS: Final = frozenset("LMN")
"""First letters of the general categories of what words are made of (Unicode, chapter 4.5)."""


class _Cluster(Struct, frozen=True):
    """A character with the marks that stand on it and with what is joined to it."""

    text: str
    script: str
    word: int

    @property
    def lettered(self) -> bool:
        """Whether it is a letter or a figure, so that its neighbours must be of the same face."""
        return unicodedata.category(self.text[0])[0] in _LETTERS


def fonts_of(line: str, fonts: Sequence[Font]) -> list[Font]:
    """For each character its font. Raises MissingGlyphError for what no font has, or none has together."""
    main = fonts[0]
    if line.isascii() and all(main.has(letter) for letter in line):
        return [main] * len(line)
    texts = _texts(line)
    if all(covers(main, text) for text in texts):
        return [main] * len(line)
    clusters = _clusters(texts)
    found = zip(clusters, _signed(clusters, fonts, _lettered(clusters, fonts)), strict=True)
    return [font for cluster, font in found for _ in cluster.text]


def _lettered(clusters: Sequence[_Cluster], fonts: Sequence[Font]) -> list[Font | None]:
    """The fonts of letters and figures, None for signs and spaces."""
    chosen: list[Font | None] = [None] * len(clusters)
    lettered = [place for place, cluster in enumerate(clusters) if cluster.lettered]
    for script in dict.fromkeys(clusters[place].script for place in lettered):
        _choose([place for place in lettered if clusters[place].script == script], clusters, fonts, chosen)
    for _, group in groupby(lettered, key=lambda place: clusters[place].word):
        word = list(group)
        if len({clusters[place].script for place in word}) > 1 and _differ(word, chosen):
            _unite(word, clusters, fonts, chosen)
    return chosen


def _choose(
    places: Sequence[int], clusters: Sequence[_Cluster], fonts: Sequence[Font], chosen: list[Font | None]
) -> None:
    """Choose the font of all that a line has of one script, else of each word. Raises MissingGlyphError."""
    if _unite(places, clusters, fonts, chosen):
        return
    for _, group in groupby(places, key=lambda place: clusters[place].word):
        word = list(group)
        if not _unite(word, clusters, fonts, chosen):
            raise _missing([clusters[place].text for place in word], fonts)


def _unite(
    places: Sequence[int], clusters: Sequence[_Cluster], fonts: Sequence[Font], chosen: list[Font | None]
) -> bool:
    """Choose the first font that has all of some clusters, if there is one."""
    font = next((font for font in fonts if all(covers(font, clusters[place].text) for place in places)), None)
    if font is None:
        return False
    for place in places:
        chosen[place] = font
    return True


def _differ(places: Sequence[int], chosen: Sequence[Font | None]) -> bool:
    return len({font.name for place in places if (font := chosen[place]) is not None}) > 1


def _signed(clusters: Sequence[_Cluster], fonts: Sequence[Font], chosen: Sequence[Font | None]) -> Iterator[Font]:
    """The font of each cluster; signs and spaces have that of what is before them, if it has them."""
    beside = next((font for font in chosen if font is not None), fonts[0])
    for cluster, own in zip(clusters, chosen, strict=True):
        if own is not None:
            beside = own
            yield own
            continue
        font = next((font for font in (beside, *fonts) if covers(font, cluster.text)), None)
        if font is None:
            raise _missing([cluster.text], fonts)
        yield font


def _missing(word: Sequence[str], fonts: Sequence[Font]) -> MissingGlyphError:
    """What a word lacks: a character that no font has, else the first that the font lacks that has most of it."""
    names = [font.name for font in fonts]
    for cluster in word:
        if not any(covers(font, cluster) for font in fonts):
            lacking = next((c for c in cluster if not any(font.has(c) for font in fonts)), cluster[0])
            return MissingGlyphError(lacking, *names)
    best = max(fonts, key=lambda font: sum(covers(font, cluster) for cluster in word))
    lacking = next(cluster for cluster in word if not covers(best, cluster))
    return MissingGlyphError(lacking[0], best.name, word="".join(word))


def _texts(line: str) -> list[str]:
    """Characters, each with the marks that are on it and what is joined to it."""
    texts: list[str] = []
    for letter in line:
        before = texts[-1] if texts else ""
        if before and (unicodedata.category(letter)[0] == "M" or "\u200d" in (letter, before[-1])):
            texts[-1] += letter
        else:
            texts.append(letter)
    return texts


def _clusters(texts: Sequence[str]) -> list[_Cluster]:
    """With their scripts: figures, and letters of no script, are of their word's, else of that of most of the line."""
    scripts = [script_of(text[0]) for text in texts]
    told = Counter(script for script in scripts if script != SHARED)
    most = max(told, key=told.__getitem__, default=SHARED)
    found: list[_Cluster] = []
    words = groupby(zip(texts, scripts, strict=True), key=lambda each: each[0].isspace())
    for word, (_, group) in enumerate(words):
        members = list(group)
        own = next((script for _, script in members if script != SHARED), most)
        found += [_Cluster(text, own if script == SHARED else script, word) for text, script in members]
    return found


def covers(font: Font, cluster: str) -> bool:
    """Whether a font can draw a cluster as written, composed or taken apart; unseen characters need no glyph."""
    forms = (cluster, unicodedata.normalize("NFC", cluster), unicodedata.normalize("NFD", cluster))
    return any(all(_draws(font, letter) for letter in form) for form in forms)


def _draws(font: Font, letter: str) -> bool:
    return font.has(letter) or _unseen(letter) or (letter in _SPACES and font.has(" "))


def _unseen(letter: str) -> bool:
    return unicodedata.category(letter) == "Cf" or "\ufe00" <= letter <= "\ufe0f"
