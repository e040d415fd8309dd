"""Words that were mistyped: the word that was meant, where there is one near enough."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import Final

SHORTEST: Final = 5
"""Letters of the shortest word that is corrected: of four, most are near another."""

LONG: Final = 7
"""Letters from which two slips are forgiven instead of one."""


NEAREST: Final = 4
"""Words that a mistyped one may be."""

ALIKE: Final = 60
"""Per cent of letters in common from which a phrase is told as the nearest."""


def corrections(word: str, known: Collection[str]) -> tuple[str, ...]:
    """The known words that a mistyped one is nearest to, in the order of these; the word itself where none is near.

    One slip (a letter too many, too few, another, or two changed over) makes no other word of at least five letters,
    two none of at least seven; the first letter is seldom wrong. Numbers and words with digits are never corrected.
    """
    if len(word) < SHORTEST or not word.isalpha():
        return (word,)
    from rapidfuzz.distance import OSA  # only here: most words are spelled right
    from rapidfuzz.process import extract

    slips = 2 if len(word) >= LONG else 1
    near = extract(
        word,
        [one for one in known if one[:1] == word[0] and abs(len(one) - len(word)) <= slips and one.isalpha()],
        scorer=OSA.distance,
        score_cutoff=slips,
        limit=NEAREST,
    )
    return tuple(str(found[0]) for found in near if found[1] == near[0][1]) or (word,)


def nearest_phrases(words: str, phrases: Iterable[str], count: int) -> tuple[str, ...]:
    """The phrases most like some words, the best first; none where nothing is alike."""
    from rapidfuzz.fuzz import ratio
    from rapidfuzz.process import extract

    return tuple(
        str(found[0]) for found in extract(words, list(phrases), scorer=ratio, score_cutoff=ALIKE, limit=count)
    )
