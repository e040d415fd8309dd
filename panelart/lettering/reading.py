"""What a lettered text means: its characters, and what the writer said of stretches of them in braces.

Who sets, breaks, capitalises or checks a text asks here, so that `{unit ms}` is a unit and `{word ms}` a word for each
of them, and a raised figure is a power.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Final

from panelart.lettering.spans import Manner, Span

if TYPE_CHECKING:
    from panelart.texts.runs import Text

_POWERS: Final = str.maketrans("0123456789-\N{MINUS SIGN}", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁻")


def read(text: str, spans: Iterable[Span], language: str) -> Text:
    """The runs of a text with what its spans say: which stretches are units, words or powers."""
    from panelart.texts.parse import parse  # takes a while to load, and most legends are words

    said: dict[Manner, list[tuple[int, int]]] = {Manner.UNIT: [], Manner.WORD: [], Manner.SUPER: []}
    for span in spans:
        if span.manner in said and span.start < span.stop:
            said[span.manner].append((span.start, span.stop))
    text = with_powers(text, said[Manner.SUPER])
    return parse(text, language, units=said[Manner.UNIT], words=said[Manner.WORD])


def with_powers(text: str, raised: Iterable[tuple[int, int]]) -> str:
    """The text with raised figures as the signs for powers, so that units that have them are known."""
    for start, stop in raised:
        text = text[:start] + text[start:stop].translate(_POWERS) + text[stop:]
    return text


def is_told(spans: Iterable[Span]) -> bool:
    """Whether the writer says of any stretch what it means."""
    return any(span.manner in (Manner.UNIT, Manner.WORD, Manner.SUPER) for span in spans)
