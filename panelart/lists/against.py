"""What speaks against a part that words choose: they say something of it that it is not, so that it is asked about.

Figures that contradict are left out before; here are words: how it is fixed, its shape, what else is named.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from panelart.catalogue.asked import Asked, asked, spelled
from panelart.catalogue.items import is_number
from panelart.catalogue.search import OVER_NOMINAL, is_on_board, kinds_of, tokens_of
from panelart.catalogue.stated import SAME
from panelart.catalogue.vocabulary import pieces, vocabulary
from panelart.geometry.contour import Arc, Contour
from panelart.lists.footprints import Mount
from panelart.model.component import Component

_BORE: Final = frozenset({
    "hole", "loch", "bohrung", "trou", "percage", "agujero", "taladro", "foro", "gat", "boorgat", "otwor", "furo",
    "hal", "otvor", "delik",
})  # fmt: skip
"""Words beside the diameter of a round hole."""

_LEAST_BORE: Final = 6.0
"""Millimetres from which a number beside these is a diameter: smaller ones count holes, of a flange."""

_SMALLER: Final = frozenset({"sub", "subminiature"})
"""Words for what is smaller than miniature."""

_ROUND: Final = 0.4
"""The share of its width that the radius of a round contour has: half of it, less where it has two flats."""

_MEASURING: Final = "panel-meter"


def contested(text: str, wanted: Asked, part: Component, mount: Mount) -> bool:
    """Whether words say what a part is not: `wanted` is how `text` was read, `mount` how they say that it is fixed."""
    return (
        (mount is Mount.PANEL and is_on_board(part))
        or _is_other_shape(wanted, part)
        or _is_other_size(wanted, part)
        or ("switch" in wanted.qualified and _MEASURING in kinds_of(part))  # what chooses the phase that is measured
        or _is_two_in_one(text, part)
        or _is_guess(text, wanted)
    )


def _is_other_size(wanted: Asked, part: Component) -> bool:
    return not _SMALLER.isdisjoint(wanted.words) and _SMALLER.isdisjoint(tokens_of(part))


def _is_other_shape(wanted: Asked, part: Component) -> bool:
    """Whether a part is said to be round, or a round hole is, and nothing of it is."""
    contours = [*(one.contour for one in part.openings), *(one.contour for one in part.front)]
    if "round" in wanted.qualified and not any(map(_is_round, contours)):
        return True
    sides = [sorted((box.width, box.height)) for box in (one.contour.bounds for one in part.openings)]
    return any(
        all(not -SAME < longer - bore < OVER_NOMINAL or longer - shorter > bore / 4 for shorter, longer in sides)
        for bore in bores(wanted.words)
    )


def _is_round(contour: Contour) -> bool:
    """Whether most of a contour is one arc: a circle, one with a flat or a key."""
    width = contour.bounds.width
    return any(isinstance(one, Arc) and one.radius > _ROUND * width for one in contour.segments)


def bores(said: Sequence[str]) -> Iterator[float]:
    """The diameters of holes, as words and numbers stand: 29 mm hole, trou 22."""
    for at, word in enumerate(said):
        if word not in _BORE or "x" in said[max(0, at - 3) : at + 3]:
            continue
        near = said[max(0, at - 2) : at + 2]
        yield from (float(one) for one in near if is_number(one) and float(one) > _LEAST_BORE)


def _is_two_in_one(text: str, part: Component) -> bool:
    """Whether a word joined of two names the kind of a part and another kind: 'Drehschalter-Taster'."""
    own = frozenset(kinds_of(part))
    for word in text.split():
        halves = [_kinds_of_word(half) for half in word.strip(",;:()").split("-")]
        if (
            len(halves) == 2
            and all(halves)
            and halves[0].isdisjoint(halves[1])
            and not own.isdisjoint(halves[0] | halves[1])
        ):
            return True
    return False


def _kinds_of_word(word: str) -> frozenset[str]:
    """The kinds that a single word names."""
    said = frozenset(form for piece in pieces(word) for form in spelled(piece))
    return frozenset(kind.name for kind in vocabulary().kinds if len(said) == 1 and tuple(said) in kind.phrases)


def _is_guess(text: str, wanted: Asked) -> bool:
    """Whether the kind is named only by words that were put right by more than one letter: 'aardbus', 'aardbout'."""
    as_written = asked(text)
    if as_written.certainty >= 1.0 or not wanted.named:
        return False
    from rapidfuzz.distance import OSA  # only here: most words are spelled right

    put_right = wanted.named - frozenset(as_written.words)
    return any(all(OSA.distance(word, one) > 1 for one in as_written.words) for word in put_right)
