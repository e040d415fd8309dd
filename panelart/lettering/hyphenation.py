"""Where the words of a language may be broken, by the dictionaries of patterns that the library pyphen brings.

Only words are: never what is read as a quantity, a rating or a designation, no words in capitals, which are
abbreviations as often, and none that the writer has marked a place in.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import groupby
from typing import Final, Protocol

from panelart.lettering.reading import read
from panelart.lettering.spans import Manner, Span
from panelart.texts.runs import Word

FEWEST: Final = 6
"""Letters of a word that may be broken, so that no scrap is left (common practice)."""

BEFORE: Final = 2
AFTER: Final = 3
"""Letters that stay before and behind a hyphen at least (common practice)."""


class _Patterns(Protocol):
    def positions(self, word: str) -> Sequence[int]: ...


def languages() -> tuple[str, ...]:
    """The languages that there are dictionaries for, as language tags without their regions."""
    import pyphen

    return tuple(sorted({name.partition("_")[0] for name in pyphen.LANGUAGES}))


def dictionary(language: str) -> str:
    """The dictionary for a language tag: that of its region, else the first of its language; '' for none."""
    import pyphen

    names: dict[str, str] = {name.casefold(): name for name in sorted(pyphen.LANGUAGES)}
    tag = language.replace("-", "_").casefold()
    while "_" in tag and tag not in names:
        tag = tag.rpartition("_")[0]
    return names.get(tag) or next((name for folded, name in names.items() if folded.startswith(f"{tag}_")), "")


@lru_cache(maxsize=8)
def _patterns(name: str) -> _Patterns:
    import pyphen

    patterns: _Patterns = pyphen.Pyphen(lang=name, left=BEFORE, right=AFTER)
    return patterns


def divisions(text: str, spans: Sequence[Span], kept: Sequence[bool], language: str, name: str) -> tuple[Span, ...]:
    """Spans of no characters where the dictionary of that name lets words be broken.

    `kept` says of each character whether it is to stay as written; a word with such a one is not broken. What changes
    its letters when it is broken, as Hungarian asszony does, is not broken there.
    """
    marked = {span.start for span in spans if span.manner is Manner.HYPHENATION}
    found: list[Span] = []
    for start, end in _words(text, spans, language):
        if any(kept[start:end]) or any(start < at < end for at in marked):
            continue
        plain = (at for at in _patterns(name).positions(text[start:end]) if getattr(at, "data", None) is None)
        found += (Span(start + int(at), start + int(at), Manner.DIVISION) for at in plain)
    return tuple(found)


def _words(text: str, spans: Sequence[Span], language: str) -> Iterator[tuple[int, int]]:
    """The words that may be broken, as start and before end."""
    for run in read(text, spans, language).runs:
        if not isinstance(run.means, Word):
            continue
        at = run.start
        for letters, members in groupby(text[run.start : run.end], key=str.isalpha):
            end = at + len(list(members))
            if letters and end - at >= FEWEST and not text[at:end].isupper():
                yield at, end
            at = end


def divided(spans: Sequence[Span]) -> tuple[Span, ...]:
    """The spans with the dictionary's places as those that the writer marks; () where it has none."""
    if not any(span.manner is Manner.DIVISION for span in spans):
        return ()
    return tuple(
        Span(span.start, span.stop, Manner.HYPHENATION) if span.manner is Manner.DIVISION else span for span in spans
    )
