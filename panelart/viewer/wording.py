"""The words of the page: its sentences as one catalogue for the browser, and its HTML with them filled in."""

from __future__ import annotations

import html
import json
import re
from collections.abc import Mapping
from typing import Final, TypeAlias

from panelart.messages import CATALOGUE, Sentence, page, page_parts

Form: TypeAlias = str | tuple[str, str]
"""A sentence with {slots}; one that counts in its two forms, for one and for more."""

_ROOMS: Final = tuple(f"{module.__name__.rpartition('.')[2].replace('_', '-')}." for module in (page, page_parts))
_PLACE: Final = re.compile(r"\{\{([a-z.-]+)\}\}")


class _Slot(int):
    """A number that is written as the place where a number goes; its value chooses the form."""

    def __str__(self) -> str:
        return "{count}"


def sentences() -> dict[str, Form]:
    """The page's sentences by id, in the language that is spoken."""
    return {id_: _form(sentence) for id_, sentence in CATALOGUE.items() if id_.startswith(_ROOMS)}


def filled(page_html: str) -> str:
    """The page with its words, and with the catalogue as JSON where its scripts look for it."""
    found = sentences()
    # No tag can begin inside the element that holds the catalogue.
    words: Mapping[str, str] = {"sentences": json.dumps(found, ensure_ascii=False).replace("<", "\\u003c")}

    def word(place: re.Match[str]) -> str:
        name = place[1]
        return words[name] if name in words else html.escape(_only(found[name]))

    return _PLACE.sub(word, page_html)


def _only(form: Form) -> str:
    return form if isinstance(form, str) else form[0]


def _form(sentence: Sentence) -> Form:
    slots: dict[str, object] = {name: f"{{{name}}}" for name in sentence.parameters}
    if not sentence.plural:
        return sentence.written(slots)
    return sentence.written({**slots, "count": _Slot(1)}), sentence.written({**slots, "count": _Slot(2)})
