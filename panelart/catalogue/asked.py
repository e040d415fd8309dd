"""What is typed for a part, read with the vocabulary: the kinds it may be, and what is stated beside them."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import cache
from itertools import pairwise
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue.items import Item, is_inch_thread, is_number, is_thread, items_of, plain
from panelart.catalogue.stated import SAME, Stated, in_trade, stated_by
from panelart.catalogue.vocabulary import PartKind, Vocabulary, known_words, vocabulary

ALSO: Final = 0.3
"""The weight of a word that goes with a kind and with others, beside 1 for one that names it."""

BESIDE: Final = 0.25
"""The weight of a word that stands behind 'with': 'mains inlet with switch' is no switch; and of a rating's current."""

NUMBER: Final = 0.5
"""The weight of a number or a thread in a phrase: it is said of many kinds."""

SIZED: Final = 0.5
"""What a size that tells kinds of one word apart adds to the one it fits: jack 3.5."""

_SHORTEST: Final = 3
"""Letters of the shortest word that a compound is split into."""


_HARDENED: Final = {"v": "f", "z": "s"}
"""How Dutch writes what a plural's v and z end as in the singular."""

_JOINING: Final = 2
"""Letters of the longest joining word."""

_PLUG: Final = 5.6
"""Millimetres below which both sides of a size are the two diameters of a coaxial plug: 5.5 x 2.1."""

_END: Final = ("mark", ";")

HELD_BY: Final = frozenset({
    "hole", "holes", "screw", "screws", "bolt", "bolts", "loch", "lochig", "schraube", "schrauben", "trou", "trous",
    "vis",    "agujero", "agujeros", "tornillo", "tornillos", "foro", "fori", "vite", "viti", "gat", "gaten",
    "schroef", "schroeven", "otwor", "otwory", "sruba", "sruby", "furo", "furos", "parafuso", "parafusos",
})  # fmt: skip
"""Words behind a number that it counts: a flange of 4 holes is no socket of 4 mm."""

_HEAD: Final = 6
"""Letters of the shortest known word that tells what a compound with an unknown one is: shorter ones are chance."""


class Asked(Struct, frozen=True, kw_only=True):
    """Words as they were understood: `words` in the vocabulary's spelling, `kinds` the best first and equal, `stated`.

    `named` are the words that named the kinds. `telling` are those that may choose between entries: no joining words,
    colours or numbers. `qualified` are the catalogue's words for qualifiers that were said, `values` the number of
    figures that say nothing of the size.
    """

    words: tuple[str, ...]
    kinds: tuple[str, ...]
    certainty: float
    named: frozenset[str]
    telling: tuple[str, ...]
    qualified: tuple[str, ...]
    stated: Stated
    values: int


def asked(text: str, corrected: Callable[[str], str] | None = None) -> Asked:
    """What a text asks for; `corrected` gives the spelling of a word that the vocabulary does not have."""
    known = vocabulary()
    items = items_of(text)
    words, beside = _words(items, corrected)
    stated = stated_by(items)
    # A rating's current tells a kind where it belongs to its name, as of a DC socket, and says nothing else.
    currents = frozenset(str(value) for name, value in items if name == "current").difference(words)
    telling, counted = _telling(words, items)
    kinds, certainty, told = _kinds([*telling, *sorted(currents)], beside | currents, stated, known)
    if not kinds:
        kinds, certainty, told = _kinds([*counted, *sorted(currents)], beside | currents, stated, known)
    words += sorted(currents & told)
    qualified, qualifying = _qualified(words, known)
    passed = frozenset((*known.concepts, *known.beside))
    left = [word for word in words if word not in passed and not _is_figure(word)]
    return Asked(
        words=tuple(words),
        kinds=tuple(kind.name for kind in kinds),
        certainty=certainty,
        named=told,
        telling=tuple(dict.fromkeys(word for word in left if word not in qualifying and word not in known.counts)),
        qualified=tuple(qualified),
        stated=_without(stated, kinds, told),
        values=sum(name == "value" for name, _ in items),
    )


def _is_figure(word: str) -> bool:
    """Whether a word is a number, an inch thread, or what stands between and behind numbers."""
    return is_number(word) or is_inch_thread(word) or word in ("mm", "x")


def _without(stated: Stated, kinds: Sequence[PartKind], told: frozenset[str]) -> Stated:
    """The figures that are left when the kind was told by some: the thread of M12, the size of jack 3.5."""
    sizes = [size for kind in kinds for size in kind.sizes]

    def left(values: Iterable[float]) -> tuple[float, ...]:
        return tuple(
            value for value in values if not any(abs(one - size) < SAME for one in in_trade(value) for size in sizes)
        )

    of_body = bool(kinds) and all(kind.body for kind in kinds)
    return Stated(
        lengths=() if of_body else left(stated.lengths),
        numbers=left(stated.numbers),
        bodies=left(stated.lengths) if of_body else (),
        elsewhere=stated.elsewhere,
        sizes=_without_plugs(stated.sizes, kinds),
        threads=tuple(thread for thread in stated.threads if thread not in told),
        counts=stated.counts,
        amps=stated.amps,
    )


def _without_plugs(
    sizes: Sequence[tuple[float, float, bool]], kinds: Sequence[PartKind]
) -> tuple[tuple[float, float, bool], ...]:
    """Sizes without the two diameters of a coaxial plug."""
    if all(kind.name != "dc-jack" for kind in kinds):
        return tuple(sizes)
    return tuple(size for size in sizes if max(size[:2]) >= _PLUG)


# --- words


def _words(items: Iterable[Item], corrected: Callable[[str], str] | None) -> tuple[list[str], frozenset[str]]:
    """The words in the vocabulary's spelling with the numbers between, and those that stand only behind a 'with'.

    What is behind ends at a semicolon.
    """
    known = vocabulary()
    words: list[str] = []
    beside: set[str] = set()
    ahead: set[str] = set()
    behind = False
    for name, value in items:
        found = spelled(str(value), corrected) if name == "word" else _written(name, value)
        behind = (name, value) != _END and (behind or (bool(words) and any(word in known.beside for word in found)))
        words += found
        if behind:
            beside.update(found)
        else:
            ahead.update(found)
    return words, frozenset(beside - ahead)


def _telling(words: Sequence[str], items: Sequence[Item]) -> tuple[list[str], list[str]]:
    """The words that may name kinds: without what is counted, and with it, for where nothing else names one."""
    counting, counted = _counting(items), _counted(items)
    with_counted = [word for word in words if word not in counting]
    return [word for word in with_counted if word not in counted], with_counted


def _counted(items: Sequence[Item]) -> frozenset[str]:
    """The holes and screws that are counted, in the vocabulary's spelling: a socket with 2 screws is no screw."""
    pairs = pairwise(items)
    return frozenset(
        word
        for (name, _), (_, behind) in pairs
        if name == "number" and behind in HELD_BY
        for word in spelled(str(behind))
    )


def _counting(items: Sequence[Item]) -> frozenset[str]:
    """The numbers that are said of holes and screws alone, as they stand in phrases."""
    counts = {at for at, (name, value) in enumerate(items[1:]) if name == "word" and value in HELD_BY}
    written: dict[bool, set[str]] = {True: set(), False: set()}
    for at, (name, value) in enumerate(items):
        if name != "word":
            written[at in counts and name == "number"].update(_written(name, value))
    return frozenset(written[True] - written[False])


def _written(name: str, value: object) -> tuple[str, ...]:
    """A figure as it stands in phrases."""
    match name, value:
        case "thread", str():
            return (value,)
        case "length", float():
            return plain(value), "mm"
        case "number", float():
            return (plain(value),)
        case "size", (first, second, _):
            return plain(first), "x", plain(second)
        case _:
            return ()


def spelled(word: str, corrected: Callable[[str], str] | None = None) -> tuple[str, ...]:
    """A folded word as the vocabulary has it: itself, its singular, a compound's words; unknown words as they are."""
    written_out = vocabulary().short.get(word)
    if written_out is not None:
        return written_out
    known = known_words()
    for form in _forms(word):
        if form in known:
            return (form,)
    split = _compound(word, known)
    if split:
        return split
    right = word if corrected is None else corrected(word)
    if right in known:
        return (right,)
    return spelled(right) if right != word else _headed(word, known)


def _forms(word: str) -> Iterator[str]:
    """A word and what it may be another form of: the singular; ü written ue."""
    yield word
    if word.endswith("s") and len(word) > _SHORTEST:
        yield word[:-1]
    for ending in ("es", "n", "en", "e", "er"):
        if word.endswith(ending) and len(word) - len(ending) > _SHORTEST:
            yield word[: -len(ending)]
    yield from _singulars(word)
    plain = word.replace("ae", "a").replace("oe", "o").replace("ue", "u")
    if plain != word:
        yield plain
        yield from (plain[: -len(ending)] for ending in ("n", "en", "e") if plain.endswith(ending))


def _singulars(word: str) -> Iterator[str]:
    """Singulars that differ in their last letters: Dutch knoppen, schroeven, huizen; Italian spie, pulsanti, tasti."""
    if len(word) <= _SHORTEST:
        return
    stem = word[:-2]
    if word.endswith("en") and len(stem) > _SHORTEST:
        if stem[-1] == stem[-2]:
            yield stem[:-1]
        if stem[-1] in _HARDENED:
            yield stem[:-1] + _HARDENED[stem[-1]]
    if word.endswith("e"):
        yield f"{word[:-1]}a"
    if word.endswith("i"):
        yield f"{word[:-1]}o"
        yield f"{word[:-1]}e"


def _compound(word: str, known: frozenset[str]) -> tuple[str, ...]:
    """Two known words that a word is made of, the longest last one first; none for a word that is not."""
    for at in range(_SHORTEST, len(word) - _SHORTEST + 1):
        first, last = word[:at], word[at:]
        head = next((form for form in _forms(last) if form in known and len(form) >= _SHORTEST), None)
        if head is None:
            continue
        for start in (first, *(first[: -len(link)] for link in ("s", "n", "en", "e") if first.endswith(link))):
            if len(start) >= _SHORTEST and start in known and not start.isdecimal():
                return start, head
    return ()


def _headed(word: str, known: frozenset[str]) -> tuple[str, ...]:
    """The last part of a compound whose first part is unknown: Kühllüfter is a Lüfter; the word itself else."""
    heads = (form for at in range(_SHORTEST, len(word) - _HEAD + 1) for form in _forms(word[at:]) if form in known)
    head = next((form for form in heads if len(form) >= _HEAD), None)
    return (word,) if head is None else (word[: -len(head)], head)


# --- kinds


@cache
def _by_word() -> Mapping[str, tuple[tuple[int, frozenset[str]], ...]]:
    """The phrases by each of their words, each with the place of its kind."""
    found: dict[str, list[tuple[int, frozenset[str]]]] = {}
    for place, kind in enumerate(vocabulary().kinds):
        for phrase in kind.phrases:
            members = frozenset(phrase)
            found.setdefault(min(members, key=_rarity), []).append((place, members))
    return {word: tuple(phrases) for word, phrases in found.items()}


def _rarity(word: str) -> tuple[int, str]:
    return -len(word), word


@cache
def _also_by_word() -> Mapping[str, tuple[int, ...]]:
    found: dict[str, list[int]] = {}
    for place, kind in enumerate(vocabulary().kinds):
        for word in kind.also:
            found.setdefault(word, []).append(place)
    return {word: tuple(places) for word, places in found.items()}


def _kinds(
    words: Sequence[str], beside: frozenset[str], stated: Stated, known: Vocabulary
) -> tuple[list[PartKind], float, frozenset[str]]:
    """The kinds that the words name best, how well, and the words that name them."""
    said = frozenset(words)
    named = _named(said)
    scores = _sized(_scores(said, named, beside), stated, known)
    if not scores:
        return [], 0.0, frozenset()
    best = max(scores.values())
    places = sorted(place for place, score in scores.items() if score > best - 1e-9)
    told = frozenset().union(*(named.get(place, frozenset()) for place in places))
    return [known.kinds[place] for place in places], best, told


def _named(said: frozenset[str]) -> dict[int, frozenset[str]]:
    """The words that name kinds, by the places of the kinds: those of all phrases that were said."""
    named: dict[int, frozenset[str]] = {}
    for word in said:
        for place, phrase in _by_word().get(word, ()):
            if phrase <= said:
                named[place] = named.get(place, frozenset()) | phrase
    return named


def _scores(said: frozenset[str], named: Mapping[int, frozenset[str]], beside: frozenset[str]) -> dict[int, float]:
    """How well kinds are named, by their places."""
    scores = {place: math.fsum(_weight(word, beside) for word in covered) for place, covered in named.items()}
    for word in sorted(said):
        for place in _also_by_word().get(word, ()):
            if word not in named.get(place, ()):
                scores[place] = scores.get(place, 0.0) + ALSO * (BESIDE if word in beside else 1.0)
    return scores


def _sized(scores: Mapping[int, float], stated: Stated, known: Vocabulary) -> dict[int, float]:
    """The same, where a size tells kinds of one word apart: without those of another size."""
    fits = {place: _size_fits(known.kinds[place], stated) for place in scores}
    return {
        place: score + (SIZED if fits[place] else 0.0) for place, score in scores.items() if fits[place] is not False
    }


def _weight(word: str, beside: frozenset[str]) -> float:
    if word == "mm" or (len(word) <= _JOINING and word in vocabulary().concepts):
        return 0.0  # the number before it counts, and of 'coup de poing' the two nouns
    weight = NUMBER if is_number(word) or is_thread(word) else 1.0
    return weight * (BESIDE if word in beside else 1.0)


def _size_fits(kind: PartKind, stated: Stated) -> bool | None:
    """Whether a size that tells the kind is said; None where none is, or the kind is not told by its size."""
    if not kind.sizes:
        return None
    said = [each for length in (*stated.lengths, *stated.numbers) for each in in_trade(length)]
    if any(abs(each - size) < SAME for each in said for size in kind.sizes):
        return True
    return False if stated.lengths else None


def _qualified(words: Sequence[str], known: Vocabulary) -> tuple[list[str], frozenset[str]]:
    """The catalogue's words for qualifiers that were said, and the words that said them."""
    said = frozenset(words)
    found: list[str] = []
    used: set[str] = set()
    for name, phrases in known.qualifiers:
        met = [phrase for phrase in phrases if said.issuperset(phrase)]
        if met:
            found.append(name)
            used.update(word for phrase in met for word in phrase)
    return found, frozenset(used)
