"""The words of a row that a part does not explain: each may be of a form of it that is another part.

A part is taken when all that a row says beside its name is the part's own, is of the parts of its kind, or says nothing
of an opening: materials, wiring, what it is for, colours, values, codes. A word that is none of these, or a length that
the part has nowhere, may turn a kind into another: a roller switch, a button with ring, a meter of 45 mm. Which words
do cannot be listed, so those that do not are, and the rest is asked about.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from functools import cache
from itertools import pairwise
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue.asked import HELD_BY, asked
from panelart.catalogue.items import is_inch_thread, is_number, is_thread
from panelart.catalogue.search import (
    Facts,
    answers,
    called,
    contradicted,
    facts_of,
    has_body,
    is_on_board,
    kinds_of,
    tokens_of,
)
from panelart.catalogue.stated import Stated
from panelart.catalogue.vocabulary import folded, known_words, pieces, vocabulary
from panelart.lists.footprints import Mount, mount, says_board, says_edge
from panelart.lists.spoken import named_by_lists, read
from panelart.lists.words import words
from panelart.model.component import Component
from panelart.model.motion import MotionKind

_NO_FORM: Final = frozenset({"female", "male", "connector", "socket", "momentary", "latching", "front", "illuminated"})
"""Qualifiers that are said of parts that have no other form, or whose opening they do not change."""

_BEHIND: Final = frozenset({"for", "fur", "pour", "para", "per", "voor", "dla", "pro", "icin"})
"""Words behind which a row says what a part is for."""

_MARKS: Final = ";:()[]"

_OBLONG: Final = 1.0
"""Millimetres by which the sides of an oblong hole differ at least, and to which a size is rounded."""

_LEADS: Final = frozenset({"cable", "kabel", "cabo", "kablo", "przewod", "snoer", "cavo", "ケーブル"})
"""Words for what is on a lead, and on no panel."""

_OF_SHAFTS: Final = frozenset({
    "shaft", "spindle", "achse", "welle", "axe", "eje", "asse", "albero", "perno", "as", "os", "eixo", "axel", "hridel",
})  # fmt: skip
"""Words that a part without a shaft does not explain: a knob for a shaft of 6 mm is no button."""

_SHORTEST: Final = 3
"""Letters of the shortest word that may be of a form: shorter ones are initials."""


def unexplained(cells: Sequence[str], part: Component) -> tuple[str, ...]:
    """The words of cells that a part does not explain, in their order.

    Only of cells that name the part: a cell without its name is a legend or a value. Words that nobody knows count in
    the clause that names it: in another they are remarks, a use or a name.
    """
    wanted = read(" ; ".join(cells))
    own = _own(part)
    found: dict[str, None] = {}
    for cell in cells:
        if wanted.named.isdisjoint(read(cell).words):
            continue
        for clause in _clauses(cell):
            left = _left(clause, wanted.named, own)
            if wanted.named.isdisjoint(read(clause).words):
                left = (word for word in left if word in _known() or word[:1].isdecimal())
            found.update(dict.fromkeys(left))
    return tuple(found)


def unread(cells: Sequence[str], part: Component) -> tuple[str, ...]:
    """What cells of columns without a known head say against a part: words of other forms, figures, how it is fixed."""
    own = _own(part)
    found: dict[str, None] = {}
    for cell in cells:
        fixed = mount((cell,), "")
        if fixed is not Mount.UNSAID and (fixed is not Mount.PANEL) != own.on_board:
            found[cell] = None
        if contradicted(read(cell).stated, own.facts):
            found[cell] = None
        found.update(dict.fromkeys(word for word in _left(cell, frozenset(), own) if word in _known()))
    return tuple(found)


class _Own(Struct, frozen=True, kw_only=True):
    """What a part explains: its own words, those that its kinds are called by, its figures."""

    kinds: frozenset[str]
    tokens: frozenset[str]
    of_kind: frozenset[str]
    facts: Facts
    on_board: bool
    at_edge: bool
    is_screwed: bool
    has_shaft: bool


def _own(part: Component) -> _Own:
    kinds, tokens = frozenset(kinds_of(part)), tokens_of(part)
    pushed = frozenset({"push-button"}) if "encoder" in kinds else frozenset()  # most have a switch that is pushed
    has_shaft = part.shaft is not None or part.motion.kind is MotionKind.TURN
    return _Own(
        kinds=kinds,
        tokens=tokens,
        of_kind=_words_of(kinds | pushed),
        facts=facts_of(part),
        on_board=is_on_board(part),
        at_edge="edge" in tokens or has_shaft or not kinds.isdisjoint(words().faces),
        is_screwed=len(part.openings) > 1,
        has_shaft=has_shaft,
    )


@cache
def _words_of(kinds: frozenset[str]) -> frozenset[str]:
    """All words by which some kinds are called."""
    of = (kind for kind in vocabulary().kinds if kind.name in kinds)
    return frozenset(word for kind in of for phrase in (*kind.phrases, kind.also) for word in phrase)


@cache
def _known() -> frozenset[str]:
    """All words that the vocabulary or the words of lists have."""
    return known_words() | named_by_lists()


@cache
def _silent() -> frozenset[str]:
    """Words that tell no part: of lists, and those of the vocabulary that stand beside parts."""
    known = vocabulary()
    beside = (
        *known.concepts,
        *known.beside,
        *known.counts,
        *known.throws,
        *(one for one in known.elsewhere if one not in _LEADS),
    )
    return frozenset((*beside, *words().silent, *words().numerals, "mm", "x", "mark", ";"))


@cache
def _qualifiers() -> dict[str, frozenset[str]]:
    """The catalogue's words by the words of the vocabulary for them."""
    found: dict[str, set[str]] = {}
    for name, phrases in vocabulary().qualifiers:
        for phrase in phrases:
            for word in phrase:
                found.setdefault(word, set()).add(name)
    return {word: frozenset(names) for word, names in found.items()}


def _left(clause: str, named: Collection[str], own: _Own) -> Iterator[str]:
    """The words and lengths of a clause that are left."""
    signs = _signs(clause)
    for word in asked(clause).words:
        if word not in signs and not _is_explained(word, named, own) and not _is_slip(word, named, own):
            yield word
    yield from _is_for(clause, named)
    yield from _other_figures(read(clause).stated, own.facts)


def _other_figures(figures: Stated, facts: Facts) -> Iterator[str]:
    """The figures that a part has not."""
    yield from (f"{one:g} mm" for one in figures.lengths if not _is_size(one, facts))
    yield from (f"{one:g} mm" for one in figures.bodies if not (has_body(one, facts) or called(one, facts)))
    sizes = ((first, second, True) for first, second, _ in figures.sizes)
    yield from (f"{one[0]:g} x {one[1]:g}" for one in sizes if not answers(Stated(sizes=(one,)), facts))
    yield from (one for one in figures.threads if not answers(Stated(threads=(one,)), facts))


def _signs(clause: str) -> frozenset[str]:
    """Unknown words that are written in capitals among others, and those behind a 'for': legends and uses."""
    written = clause.split()
    if all(word.upper() == word for word in written):
        return frozenset()
    capitals = {piece for word in written if word.upper() == word for piece in pieces(word)} - known_words()
    behind = next((at for at, word in enumerate(written) if at and folded(word) in _BEHIND), len(written))
    uses = {piece for word in written[behind:] for piece in pieces(word)}
    return frozenset(capitals | uses) - _OF_SHAFTS


def _is_size(length: float, facts: Facts) -> bool:
    """Whether a part is called by a length; the side of an oblong hole is not what it is called by."""
    lengths = facts.title.lengths
    if lengths and all(abs(first - second) > _OBLONG for first, second in facts.holes):
        return any(abs(one - length) < _OBLONG for one in (*facts.title.dimensions, *facts.title.elsewhere))
    return True


def _is_for(clause: str, named: Collection[str]) -> Iterator[str]:
    """What stands before a 'for' behind which alone the part is named: a cover for an inlet is no inlet."""
    written = clause.split()
    at = next((at for at, word in enumerate(written) if at and folded(word) in _BEHIND), None)
    if at is not None and not set(named).isdisjoint(read(clause).words):
        before = " ".join(written[:at])
        if read(before).certainty < 1.0:
            yield " ".join(written[: at + 1])


def _is_slip(word: str, named: Collection[str], own: _Own) -> bool:
    """Whether a word is mistyped for one that is explained."""
    return word not in _known() and all(_is_explained(one, named, own) for one in read(word).words)


def _is_explained(word: str, named: Collection[str], own: _Own) -> bool:
    if word in _OF_SHAFTS:
        return own.has_shaft
    if word in own.tokens or word in own.of_kind or word in _silent():
        return True
    if word in named and not is_number(word):
        return False  # it names another kind as well: a socket of 4 poles, M8
    return _is_figure(word) or _is_as_fixed(word, own) or (not says_edge(word) and _is_form(word, own))


def _is_as_fixed(word: str, own: _Own) -> bool:
    """Whether a word says how a part is fixed, and it is."""
    return (
        (own.at_edge and says_edge(word))
        or (own.on_board and says_board(word))
        or (own.is_screwed and word in HELD_BY)
    )  # fmt: skip


def _is_form(word: str, own: _Own) -> bool:
    """Whether a word is of a form that the part has, or of none: a code, initials, the beginning of its own word."""
    if word in _qualifiers():
        return any(name in _NO_FORM or own.tokens.issuperset(name.split("-")) for name in _qualifiers()[word])
    if len(word) == 1 or (word not in known_words() and (len(word) < _SHORTEST or any(map(str.isdecimal, word)))):
        return True
    return any(_begin(word, token) for token in own.tokens)


def _is_figure(word: str) -> bool:
    return is_number(word) or is_thread(word) or is_inch_thread(word)


def _begin(word: str, token: str) -> bool:
    """Whether one of two words begins the other."""
    shorter, longer = sorted((word, token), key=len)
    return len(shorter) > _SHORTEST and longer.startswith(shorter)


def _clauses(cell: str) -> Iterator[str]:
    """A cell in its clauses: between marks, commas that are not of figures, dashes with blanks."""
    start = 0
    for at, (before, sign) in enumerate(pairwise(f"{cell} "), 1):
        if before in _MARKS or (before == "," and not sign.isdecimal()):
            yield cell[start : at - 1]
            start = at
    yield cell[start:]
