"""Parts found by words: 'mains', 'audio socket', 'push 22'."""

from __future__ import annotations

import re
from typing import Final

from panelart.catalogue.installed import component, names
from panelart.model.component import Component

_WORD: Final = re.compile(r"[a-z0-9.]+")


def matching(query: str) -> tuple[str, ...]:
    """The names of the parts that every word of the query fits, the best first; '' fits all.

    A word fits where a word of the part begins with it: in its name, title, family, standard or search words, of
    which those of the name count most. Reads the whole catalogue.
    """
    wanted = _WORD.findall(query.casefold())
    scored = ((_score(component(name), wanted), name) for name in names())
    return tuple(name for score, name in sorted((-score, name) for score, name in scored if score > 0))


def fits(query: str, *texts: str) -> bool:
    """Whether each word of the query begins a word of the texts; '' fits everything."""
    tokens = [token for text in texts for token in _WORD.findall(text.casefold())]
    return all(any(token.startswith(word) for token in tokens) for word in _WORD.findall(query.casefold()))


def _score(part: Component, wanted: list[str]) -> int:
    """0 when a word is not met; else more for words met in the name, and whole."""
    weighted = (
        (8, part.name),
        (4, part.family),
        (3, part.title),
        (2, " ".join(part.words)),
        (1, part.standard),
    )
    tokens = [(weight, token) for weight, text in weighted for token in _WORD.findall(text.casefold())]
    total = 1
    for word in wanted:
        best = max(
            (2 * weight if token == word else weight for weight, token in tokens if token.startswith(word)), default=0
        )
        if best == 0:
            return 0
        total += best
    return total
