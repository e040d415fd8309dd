"""Colours that words ask for, against those that a part is sold in."""

from __future__ import annotations

from panelart.catalogue.items import items_of
from panelart.catalogue.vocabulary import vocabulary
from panelart.model.component import Component


def colours_asked(text: str) -> tuple[str, ...]:
    """The colours that a text names, each once, by the catalogue's words for them: red of 'Taster rot'."""
    by_word = {word: name for name, words in vocabulary().colours for word in words}
    named = (by_word.get(str(value)) for kind, value in items_of(text) if kind == "word")
    return tuple(dict.fromkeys(name for name in named if name is not None))


def not_sold_in(text: str, part: Component) -> tuple[str, ...]:
    """The colours that a text asks for and a part has neither on itself nor as a lens; none where nobody says which."""
    look = part.look
    sold = () if look is None else (*look.colours, *look.lens)
    return tuple(colour for colour in colours_asked(text) if colour not in sold) if sold else ()


def sold_in(part: Component) -> tuple[str, ...]:
    """The colours of a part and of its lens, each once."""
    return () if part.look is None else tuple(dict.fromkeys((*part.look.colours, *part.look.lens)))
