"""Parts found by words: 'mains', 'Kippschalter 12 mm', 'pushbutton 22.5', 'toogle switch'.

The vocabulary tells the kind, the figures that are stated tell the entry: an entry whose size, thread or number of
positions is another than the one stated is never among those found, but is told as a near size where no entry has it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from functools import cache, partial
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.catalogue.asked import ALSO, Asked, asked
from panelart.catalogue.installed import component, knob, knob_names, names
from panelart.catalogue.knobs import KnobEntry
from panelart.catalogue.stated import SAME, Stated, in_trade, stated_in
from panelart.catalogue.vocabulary import PartKind, known_words, pieces, vocabulary
from panelart.extensions import kept
from panelart.model.component import Component, Role

OVER_NOMINAL: Final = 0.6
"""Millimetres by which a hole may be larger than the size its part is called by: 22.3 for 22, 30.5 for 30."""

SIDE: Final = 0.35
"""Millimetres by which a side of a rectangle may differ from the one said: openings are called by whole figures."""

MAX_NEAR: Final = 4
"""Entries of other sizes that are told where none has the one stated."""

NEAREST_KINDS: Final = 3

_BEGUN: Final = 5
"""Letters from which the beginning of a word tells the word, as it is typed."""

Entry = Component | KnobEntry


class Found(Struct, frozen=True, kw_only=True):
    """What a search brought: `parts` and `knobs` by name, the best first; `near` have another size than stated.

    `kinds` are those that the words name, `asked` is how they were read.
    """

    parts: tuple[str, ...]
    knobs: tuple[str, ...]
    near: tuple[str, ...]
    kinds: tuple[str, ...]
    asked: Asked


@kept
def _by_kind() -> Mapping[str, tuple[str, ...]]:
    """The names of parts and knobs of each kind."""
    found: dict[str, list[str]] = {}
    for name, entry in _entries():
        for kind in kinds_of(entry):
            found.setdefault(kind, []).append(name)
    return {kind: tuple(listed) for kind, listed in found.items()}


def _entries() -> Iterator[tuple[str, Entry]]:
    for name in names():
        yield name, component(name)
    for name in knob_names():
        yield name, knob(name)


def _entry(name: str) -> Entry:
    try:
        return component(name)
    except KeyError:
        return knob(name)


def has_entries(kind: str) -> bool:
    """Whether the catalogue has an entry of a kind."""
    return bool(_by_kind().get(kind))


def kinds_of(entry: Entry) -> tuple[str, ...]:
    """The kinds that an entry is of."""
    return kinds_named((entry.name, entry.family), entry.title)


def kinds_named(entry_names: Iterable[str], title: str) -> tuple[str, ...]:
    """The kinds by the longest beginning of a name, in whole words, else those that the title names."""
    beginnings = (beginning for name in entry_names for beginning in _beginnings(name))
    for beginning in sorted(beginnings, key=len, reverse=True):
        if beginning in _by_beginning():
            return _by_beginning()[beginning]
    return asked(title).kinds


def _beginnings(name: str) -> Iterator[str]:
    """A name, and what it is without its last words."""
    while name:
        yield name
        name = name.rpartition("-")[0]


@cache
def _by_beginning() -> Mapping[str, tuple[str, ...]]:
    """The kinds by each beginning of names that is theirs."""
    found: dict[str, list[str]] = {}
    for kind in vocabulary().kinds:
        for beginning in kind.entries:
            found.setdefault(beginning, []).append(kind.name)
    return {beginning: tuple(listed) for beginning, listed in found.items()}


def matching(query: str) -> tuple[str, ...]:
    """The names of the parts that a query asks for, the best first; '' fits all. Reads the whole catalogue."""
    return search(query).parts if query.strip() else names()


def search(query: str) -> Found:
    """What a query asks for in the catalogue."""
    wanted = read(query)
    listed = _by_kind()
    members = tuple(dict.fromkeys(name for kind in wanted.kinds for name in listed.get(kind, ())))
    fitting, others = _by_size(wanted.stated, members)
    ranked = _ranked(wanted, _narrowed(wanted, fitting))
    settled = bool(wanted.kinds) and (not members or (wanted.certainty >= 1.0 and bool(ranked)))
    literal = () if settled else _literal(wanted, frozenset(members))
    found = (*ranked, *literal)
    knobs = frozenset(knob_names())
    return Found(
        parts=tuple(name for name in found if name not in knobs),
        knobs=tuple(name for name in found if name in knobs),
        near=() if found else _nearest(wanted.stated, others),
        kinds=wanted.kinds,
        asked=wanted,
    )


def read(query: str) -> Asked:
    """What a query asks for, words that are mistyped put right."""
    return _sure(asked(query, spelling))


def _sure(wanted: Asked) -> Asked:
    """The same, without kinds that only a word said of many suggests beside one that nobody knows: 'scart socket'."""
    if wanted.certainty > ALSO + SAME or all(
        any(one.startswith(word) for one in _spellings()) for word in wanted.telling
    ):
        return wanted
    return replace(wanted, kinds=())


def nearest_kinds(query: str) -> tuple[PartKind, ...]:
    """The kinds whose words are most like a query of which nothing was found."""
    from panelart.catalogue.spelling import nearest_phrases

    by_phrase: dict[str, PartKind] = {}
    for kind in vocabulary().kinds:
        for phrase in kind.phrases:
            by_phrase.setdefault(" ".join(phrase), kind)
    words = " ".join(piece for piece in pieces(query) if piece.isalpha() and piece not in known_words())
    if not words:
        return ()
    found = (by_phrase[phrase] for phrase in nearest_phrases(words, by_phrase, 4 * NEAREST_KINDS))
    return tuple(dict.fromkeys(found))[:NEAREST_KINDS]


def fits(query: str, *texts: str) -> bool:
    """Whether each word of the query begins a word of the texts; '' fits everything."""
    tokens = [token for text in texts for token in pieces(text)]
    return all(any(token.startswith(word) for token in tokens) for word in pieces(query))


# --- the kind's entries, by what is stated


def _by_size(stated: Stated, members: Sequence[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The entries that no stated figure contradicts, and the others.

    A bare number may be a size or not: it leaves entries out where others have it. What is called by a size or has it
    for a hole goes before what has it on the face only.
    """
    lengths = (*stated.lengths, *stated.numbers)
    tests: list[Callable[[Facts], bool]] = [partial(_has, number, counts=True) for number in stated.numbers]
    tests += [partial(called, length) for length in lengths]
    tests += [partial(_has_sides, (first, second)) for first, second, _ in stated.sizes]
    fitting = [name for name in members if not contradicted(stated, _facts(name))]
    for test in tests:
        fitting = [name for name in fitting if test(_facts(name))] or fitting
    left = frozenset(fitting)
    return tuple(fitting), tuple(name for name in members if name not in left)


class Facts(Struct, frozen=True, kw_only=True):
    """What an entry is known by, in mm: the figures of its `title`, its `holes` and the `faces` over them."""

    title: Stated
    holes: tuple[tuple[float, float], ...]
    faces: tuple[tuple[float, float], ...]
    positions: int


@kept
def _known_facts() -> dict[str, Facts]:
    return {}


def _facts(name: str) -> Facts:
    known = _known_facts()
    if name not in known:
        known[name] = facts_of(_entry(name))
    return known[name]


def facts_of(entry: Entry) -> Facts:
    """The figures that an entry is known by."""
    title = stated_in(" ".join((entry.title, *(word for word in entry.words if word[:1].isdecimal()))))
    if not isinstance(entry, Component):
        return Facts(title=title, holes=(), faces=(), positions=0)
    holes = [one.contour.bounds for one in entry.openings if one.role in (Role.BODY, Role.APERTURE)]
    holes = holes or [one.contour.bounds for one in entry.openings]
    return Facts(
        title=title,
        holes=tuple((box.width, box.height) for box in holes),
        faces=tuple((one.contour.bounds.width, one.contour.bounds.height) for one in entry.front),
        positions=len(entry.positions),
    )


def contradicted(stated: Stated, facts: Facts) -> bool:
    """Whether a stated length, size, thread or count is another than the entry's."""
    return (
        not all(_has(length, facts) for length in stated.lengths)
        or not all(_has_sides((first, second), facts) for first, second, exact in stated.sizes if exact)
        or any(_other_thread(thread, facts) for thread in stated.threads)
        or any(_other_count(what, number, facts) for what, number in stated.counts)
    )


def _other_thread(thread: str, facts: Facts) -> bool:
    """Whether an entry has a thread, and neither this one nor its nominal size."""
    own = facts.title.threads
    nominal = thread[1:] if thread.startswith("m") else ""
    by_size = bool(nominal) and any(abs(float(nominal) - length) < SAME for length in facts.title.lengths)
    return bool(own) and thread not in own and not by_size


def _has(length: float, facts: Facts, *, counts: bool = False) -> bool:
    """Whether an entry has a size that is called so, or with `counts` so many of something."""
    if counts and any(number == length for _, number in facts.title.counts):
        return True
    on_face = (side for face in facts.faces for side in face)
    return called(length, facts) or any(abs(side - said) < SAME for side in on_face for said in in_trade(length))


def called(length: float, facts: Facts) -> bool:
    """Whether an entry is called by a size, or its hole is of it."""
    titled = any(abs(said - own) < SAME for said in in_trade(length) for own in facts.title.dimensions)
    return titled or _is_hole(length, facts)


def _is_hole(length: float, facts: Facts) -> bool:
    """Whether a length is that of the hole, or the size its part is called by."""
    sides = [side for hole in facts.holes for side in hole]
    return any(-SAME < side - said < OVER_NOMINAL for said in in_trade(length) for side in sides)


def _has_sides(sides: tuple[float, float], facts: Facts) -> bool:
    """Whether an entry has a rectangle of these sides, either way up."""
    wanted = sorted(sides)
    own = [(first, second) for first, second, _ in facts.title.sizes]
    return any(
        all(abs(one - other) <= SIDE for one, other in zip(wanted, sorted(pair), strict=True))
        for pair in (*own, *facts.holes, *facts.faces)
    )


def _other_count(what: tuple[str, ...], number: int, facts: Facts) -> bool:
    """Whether an entry has a count of the same sort, none of which is the one stated."""
    own = [count for of, count in facts.title.counts if set(of) & set(what)]
    if "positions" in what and facts.positions and not own:
        own = [facts.positions]
    spans = facts.title.numbers  # '3 to 8 way': the lower end has no word beside it
    return bool(own) and number not in own and not any(low <= number <= max(own) for low in spans if low < max(own))


def _nearest(stated: Stated, others: Sequence[str]) -> tuple[str, ...]:
    """Of the entries of another size those that come nearest to the one stated."""
    lengths = (*stated.lengths, *(side for *sides, exact in stated.sizes if exact for side in sides))
    return tuple(sorted(others, key=lambda name: (_away(lengths, _facts(name)), len(name), name))[:MAX_NEAR])


def _away(lengths: Sequence[float], facts: Facts) -> float:
    own = [*facts.title.dimensions, *(side for pair in (*facts.holes, *facts.faces) for side in pair)]
    return math.fsum(min((abs(one - length) for one in own), default=math.inf) for length in lengths)


# --- the order


def _narrowed(wanted: Asked, fitting: Sequence[str]) -> tuple[str, ...]:
    """The entries that have the most of the words that tell entries apart."""
    met = {name: _words_met(wanted, _tokens(name)) for name in fitting}
    most = max(met.values(), default=0)
    return tuple(name for name in fitting if met[name] == most)


def _words_met(wanted: Asked, tokens: Collection[str]) -> int:
    return sum(all(piece in tokens for piece in pieces(word)) for word in wanted.qualified) + sum(
        any(token.startswith(word) for token in tokens) for word in wanted.telling
    )


def _ranked(wanted: Asked, fitting: Sequence[str]) -> tuple[str, ...]:
    places = {kind: place for place, kind in enumerate(wanted.kinds)}
    listed = _by_kind()
    kind_of = {name: kind for kind in reversed(wanted.kinds) for name in listed.get(kind, ())}

    def order(name: str) -> tuple[float | int | str, ...]:
        kind = kind_of[name]
        return (-_likeness(wanted, name), places[kind], _preferred(kind, name), len(name), name)

    return tuple(sorted(fitting, key=order))


def _likeness(wanted: Asked, name: str) -> int:
    """How many of the figures are in the name itself, are the hole's, and stand in the same order of the sides."""
    own, facts, stated = frozenset(pieces(name)), _facts(name), wanted.stated
    titled = [(first, second) for first, second, _ in facts.title.sizes]
    ordered = sum((first, second) in titled for first, second, _ in stated.sizes)
    of_hole = sum(_is_hole(length, facts) for length in stated.lengths)
    return 2 * ordered + of_hole + sum(f"{number:g}" in own for number in stated.dimensions)


def _preferred(kind: str, name: str) -> int:
    """The place of a name among those of a kind to name first."""
    entries = vocabulary().kind(kind).first
    whole = next((place for place, beginning in enumerate(entries) if name == beginning), None)
    if whole is not None:
        return whole
    begun = frozenset(_beginnings(name))
    return next((place for place, one in enumerate(entries) if one in begun), len(entries)) + len(entries)


# --- words as they stand


@cache
def _pieces_of(text: str) -> frozenset[str]:
    return frozenset(pieces(text))


def _tokens(name: str) -> frozenset[str]:
    return tokens_of(_entry(name))


def tokens_of(entry: Entry) -> frozenset[str]:
    """The words of an entry's name, title, family, standard and search words."""
    standard = entry.standard if isinstance(entry, Component) else ""
    return _pieces_of(" ".join((entry.name, entry.title, entry.family, standard, *entry.words)))


def _literal(wanted: Asked, besides: frozenset[str]) -> tuple[str, ...]:
    """The parts and knobs that every word fits as it stands, and no figure contradicts: 'haldon warning'."""
    known = vocabulary()
    words = [
        word
        for word in wanted.words
        if word not in known.concepts and word not in known.beside and word not in ("mm", "x")
    ]
    if not words:
        return ()
    scored = [
        (-_literal_score(name, words), name)
        for name in (*names(), *knob_names())
        if name not in besides and all(_says(word, _tokens(name)) for word in words)
    ]
    return tuple(name for _, name in sorted(scored) if not contradicted(wanted.stated, _facts(name)))


def _says(word: str, tokens: Collection[str]) -> bool:
    """Whether an entry has a word, the beginning of one, or the catalogue's word for it."""
    return any(token.startswith(word) for token in tokens) or any(
        one in tokens for one in _in_catalogue().get(word, ())
    )


@cache
def _in_catalogue() -> Mapping[str, tuple[str, ...]]:
    """The catalogue's words by the single words of other languages for them."""
    found: dict[str, list[str]] = {}
    for name, phrases in vocabulary().qualifiers:
        for phrase in phrases:
            if len(phrase) == 1:
                found.setdefault(phrase[0], []).append(name)
    return {word: tuple(names_) for word, names_ in found.items()}


def _literal_score(name: str, words: Iterable[str]) -> int:
    """More for words met in the name, and whole."""
    own, all_ = _pieces_of(name), _tokens(name)
    return sum((word in own) * 8 + (word in all_) * 2 + any(one.startswith(word) for one in own) for word in words)


@kept
def _spellings() -> frozenset[str]:
    """All words of the vocabulary and of the entries."""
    return known_words().union(*(_tokens(name) for name in (*names(), *knob_names())))


def spelling(word: str) -> str:
    """How a word that the vocabulary does not have is spelled: one that is not written out, or mistyped.

    Words of entries are theirs, and so are their beginnings.
    """
    if any(one.startswith(word) for one in _spellings() - known_words()):
        return word
    if len(word) >= _BEGUN:
        nearly = (one for one in known_words() if one.startswith(word) and len(one) <= 2 * len(word))
        begun = sorted(nearly, key=lambda one: (len(one), one))
        if begun:
            return begun[0]
    from panelart.catalogue.spelling import corrected

    return corrected(word, _spellings())
