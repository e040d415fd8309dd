"""What is typed for a part, read with the vocabulary: the kinds it may be, and the figures it states.

Values that say nothing of the size (volts, amperes, ohms, ratings) are told from lengths, threads and counts by the
reader of texts, so that 10k is never ten of anything and 12 V never a diameter.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from decimal import Decimal
from functools import cache
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue.vocabulary import PartKind, Vocabulary, folded, pieces, vocabulary
from panelart.texts.parse import parse
from panelart.texts.quantities import Factor, Number, Quantity, Range, Ratio, Size
from panelart.texts.ratings import Duty, FuseRating, Protection, SupplyRating
from panelart.texts.runs import Designation, Mark, Positions, Space, Symbol
from panelart.texts.units import UNITS

INCH: Final = 25.4

ALSO: Final = 0.3
"""The weight of a word that goes with a kind and with others, beside 1 for one that names it."""

BESIDE: Final = 0.25
"""The weight of a word that stands behind 'with': 'mains inlet with switch' is no switch."""

NUMBER: Final = 0.5
"""The weight of a number or a thread in a phrase: it is said of many kinds."""

SIZED: Final = 0.5
"""What a size that tells kinds of one word apart adds to the one it fits: jack 3.5."""

SAME: Final = 0.06
"""Millimetres by which a size may be rounded when it is said."""

_LENGTH: Final = UNITS["m"].dimension
_INCH_FRACTIONS: Final = frozenset({2, 4, 8, 16, 32, 64})
_LARGE: Final = 10
"""Millimetres from which two sides without a unit are a size; smaller ones may count rows and columns."""

_SHORTEST: Final = 3
"""Letters of the shortest word that a compound is split into."""

_NUMBER_WORDS: Final[Mapping[str, int]] = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6,
    "zwei": 2, "drei": 3, "deux": 2, "trois": 3, "dos": 2, "tres": 3, "due": 2, "tre": 3, "twee": 2, "drie": 3,
}  # fmt: skip


class Stated(Struct, frozen=True, kw_only=True):
    """The figures of some words, in mm: `lengths` with a unit, bare `numbers`, `sizes` of two sides, `threads`.

    `exact` sizes have a unit or are too large to be a count. `counts` are numbers by what they may count (positions,
    poles, ways, digits).
    """

    lengths: tuple[float, ...] = ()
    numbers: tuple[float, ...] = ()
    sizes: tuple[tuple[float, float, bool], ...] = ()
    threads: tuple[str, ...] = ()
    counts: tuple[tuple[tuple[str, ...], int], ...] = ()

    @property
    def dimensions(self) -> tuple[float, ...]:
        """All that may be a length."""
        return (*self.lengths, *self.numbers, *(side for *sides, _ in self.sizes for side in sides))


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
    items = _with_threads(list(_items(text)))
    words, beside = _words(items, corrected)
    stated = _stated(items, known)
    kinds, certainty, told = _kinds(words, beside, stated, known)
    qualified, qualifying = _qualified(words, known)
    passed = known.concepts | known.beside
    plain = [word for word in words if word not in passed and not _is_number(word) and word not in ("mm", "x")]
    return Asked(
        words=tuple(words),
        kinds=tuple(kind.name for kind in kinds),
        certainty=certainty,
        named=told,
        telling=tuple(dict.fromkeys(word for word in plain if word not in qualifying and word not in known.counts)),
        qualified=tuple(qualified),
        stated=_without(stated, kinds, told),
        values=sum(name == "value" for name, _ in items),
    )


def stated_in(text: str) -> Stated:
    """The figures in a text, as the title of an entry."""
    return _stated(_with_threads(list(_items(text))), vocabulary())


def in_trade(length: float) -> tuple[float, ...]:
    """A length as said, and what the trade means by it where that differs, in mm."""
    return (length, *(meant for said, meant in vocabulary().trade_sizes if abs(said - length) < SAME))


# --- items: a word, a figure, one after another


def _items(text: str) -> Iterator[tuple[str, object]]:
    """Words ('word'), and figures by their names: 'length', 'number', 'size', 'thread', 'value'."""
    read = parse(text.replace("_", " ")[:400])
    for run in read.runs:
        means, written = run.means, read.written(run)
        if isinstance(means, Space):
            continue
        if isinstance(means, Mark | Symbol):
            yield "mark", written
        elif isinstance(means, Quantity):
            yield from _of_quantity(means, written)
        elif isinstance(means, Number):
            yield ("value", written) if means.prefix else ("number", float(means.value))
        elif isinstance(means, Size) and len(means.sides) == 2:
            factor = 1.0 if means.unit is None else means.unit.factor * 1000
            first, second = (float(side) * factor for side in means.sides)
            yield "size", (first, second, means.unit is not None or min(first, second) >= _LARGE)
        elif isinstance(means, Ratio):
            yield from _of_ratio(means)
        elif isinstance(means, Factor):
            yield "number", float(means.by)
        elif isinstance(means, Range):
            yield from _of_range(means, written)
        elif isinstance(means, Designation) and means.kind == "thread":
            yield "thread", _thread(means.text)
        elif isinstance(means, FuseRating | SupplyRating | Duty | Protection):
            yield "value", written
        elif isinstance(means, Positions):
            yield "positions", len(means.names)
        else:
            for piece in pieces(written):
                yield from _of_model(piece) if isinstance(means, Designation) else _of_piece(piece)


def _of_piece(piece: str) -> Iterator[tuple[str, object]]:
    """A word, a number or a thread; DB25 and 5polig are a word and a number."""
    if _is_number(piece):
        yield "number", float(piece)
    elif _is_thread(piece):
        yield "thread", piece
    elif piece.startswith("d") and piece.endswith("mm") and _is_number(piece[1:-2]):
        yield "length", float(piece[1:-2])  # D3.0mm, as board programs name sizes
    else:
        yield from _of_mixed(piece)


def _of_model(piece: str) -> Iterator[tuple[str, object]]:
    """A piece of a part number, whose number may have a letter behind it: LED-5G."""
    if piece[-1:].isalpha() and _is_number(piece[:-1]):
        yield "number", float(piece[:-1])
        yield "word", piece[-1]
    else:
        yield from _of_piece(piece)


def _of_mixed(piece: str) -> Iterator[tuple[str, object]]:
    known = _known_words()
    letters = piece.rstrip("0123456789")
    unit = piece.lstrip("0123456789")
    if piece in known or letters == unit:
        yield "word", piece
    elif letters != piece and (letters in known):
        yield "word", letters
        yield "number", float(piece[len(letters) :])
    elif unit != piece and unit in known:
        yield "number", float(piece[: -len(unit)])
        yield "word", unit
    else:
        yield "word", piece


def _of_quantity(means: Quantity, written: str) -> Iterator[tuple[str, object]]:
    if means.dimension == _LENGTH:
        yield "length", round(means.base * 1000, 4)
    elif means.unit.symbol == "r":
        yield from (("word", piece) for piece in pieces(written))  # 2U: units of a rack, not revolutions
    else:
        yield "value", written


def _of_ratio(means: Ratio) -> Iterator[tuple[str, object]]:
    first, second = means.first, means.second
    if means.sign == "/" and first < second and second in _INCH_FRACTIONS:
        yield "inch", (int(first), int(second))
    else:
        yield "number", float(first)
        yield "number", float(second)


def _of_range(means: Range, written: str) -> Iterator[tuple[str, object]]:
    low, high = means.low, means.high
    if isinstance(low, Quantity) or isinstance(high, Quantity):
        yield "value", written
        return
    yield "number", float(low.value)
    yield "to", None
    yield "number", float(high.value)


def _thread(text: str) -> str:
    """A thread by its name and nominal size: m16 of 'M16 x 1.5', pg11 of 'Pg 11'."""
    name = "".join(folded(text).split())
    if name[0].isalpha():
        letters = next((at for at, character in enumerate(name) if not character.isalpha()), len(name))
        number = letters
        while number < len(name) and (name[number].isdecimal() or name[number] in ".,"):
            number += 1
        return name[:number].replace(",", ".")
    return name


def _with_threads(items: list[tuple[str, object]]) -> list[tuple[str, object]]:
    """The same, with inch threads as such: 1/4-40, and 10-32; other fractions are inches without a unit."""
    made: list[tuple[str, object]] = []
    at = 0
    while at < len(items):
        name, value = items[at]
        if name == "inch" and isinstance(value, tuple):
            first, second = value
            marks = [what for what, _ in items[at + 1 : at + 3]]
            if marks == ["mark", "number"] and items[at + 1][1] == "-":
                made.append(("thread", f"{first}-{second}-{_plain(items[at + 2][1])}"))
                at += 3
                continue
            made += [("inches", first * INCH / second), ("word", str(first)), ("word", str(second))]
        else:
            made.append((name, value))
        at += 1
    return made


def _plain(number: object) -> str:
    return f"{number:g}" if isinstance(number, float | int | Decimal) else str(number)


def _is_number(piece: str) -> bool:
    return piece.replace(".", "", 1).isdecimal()


# --- figures


def _stated(items: Sequence[tuple[str, object]], known: Vocabulary) -> Stated:
    lengths: list[float] = []
    numbers: list[float] = []
    counts: list[tuple[tuple[str, ...], int]] = []
    for at, (name, value) in enumerate(items):
        before = str(items[at - 1][1]) if at and items[at - 1][0] == "word" else ""
        after = _word_after(items, at)
        counted = known.counts.get(after, ())
        if name in ("length", "inches") and isinstance(value, float):
            if not {before, after} & known.elsewhere:
                (lengths if name == "length" else numbers).append(value)
        elif name == "number" and isinstance(value, float):
            if counted and value.is_integer():
                counts.append((counted, int(value)))
            elif after == "mm" or _diameter_before(items, at):
                lengths.append(value)
            elif not {before, after} & known.elsewhere:
                numbers.append(value)
        elif name == "positions" and isinstance(value, int):
            counts.append((("positions",), value))
        elif name == "word" and counted and value in _NUMBER_WORDS:
            counts.append((counted, _NUMBER_WORDS[str(value)]))
    counts += _thrown(items, known)
    return Stated(
        lengths=tuple(lengths),
        numbers=tuple(numbers),
        sizes=tuple(value for name, value in items if name == "size" and isinstance(value, tuple)),
        threads=tuple(str(value) for name, value in items if name == "thread"),
        counts=tuple(counts),
    )


def _thrown(items: Sequence[tuple[str, object]], known: Vocabulary) -> Iterator[tuple[tuple[str, ...], int]]:
    """The positions of a switch that are named one after another, on and off by turns."""
    named: list[str] = []
    for name, value in (*items, ("end", None)):
        if name == "mark":
            continue
        if name == "word" and value in known.throws and named[-1:] != [value]:
            named.append(str(value))
            continue
        if len(named) > 1:
            yield ("positions",), len(named)
        named = []


def _word_after(items: Sequence[tuple[str, object]], at: int) -> str:
    """The word behind an item, past a hyphen: 9-pin."""
    for name, value in items[at + 1 : at + 3]:
        if name == "word":
            return str(value)
        if name != "mark":
            break
    return ""


def _diameter_before(items: Sequence[tuple[str, object]], at: int) -> bool:
    return at > 0 and items[at - 1][0] == "mark" and items[at - 1][1] in ("ø", "Ø", "⌀")


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
        sizes=stated.sizes,
        threads=tuple(thread for thread in stated.threads if thread not in told),
        counts=stated.counts,
    )


# --- words


def _words(
    items: Iterable[tuple[str, object]], corrected: Callable[[str], str] | None
) -> tuple[list[str], frozenset[str]]:
    """The words in the vocabulary's spelling with the numbers between, and those that stand behind a 'with'."""
    known = vocabulary()
    words: list[str] = []
    beside: set[str] = set()
    behind = False
    for name, value in items:
        if name == "word":
            found = spelled(str(value), corrected)
        elif name == "thread":
            found = (str(value),)
        elif name == "length" and isinstance(value, float):
            found = (_plain(value), "mm")
        elif name == "number":
            found = (_plain(value),)
        elif name == "size" and isinstance(value, tuple):
            found = (_plain(value[0]), "x", _plain(value[1]))
        else:
            continue
        behind = behind or (bool(words) and any(word in known.beside for word in found))
        words += found
        if behind:
            beside.update(found)
    return words, frozenset(beside)


def spelled(word: str, corrected: Callable[[str], str] | None = None) -> tuple[str, ...]:
    """A folded word as the vocabulary has it: itself, its singular, a compound's words; unknown words as they are."""
    known = _known_words()
    for form in _forms(word):
        if form in known:
            return (form,)
    split = _compound(word, known)
    if split:
        return split
    right = word if corrected is None else corrected(word)
    return (right,) if right in known or right == word else spelled(right)


def _forms(word: str) -> Iterator[str]:
    """A word and what it may be another form of: the singular; ü written ue."""
    yield word
    for ending in ("s", "es", "n", "en", "e", "er"):
        if word.endswith(ending) and len(word) - len(ending) > _SHORTEST:
            yield word[: -len(ending)]
    plain = word.replace("ae", "a").replace("oe", "o").replace("ue", "u")
    if plain != word:
        yield plain
        yield from (plain[: -len(ending)] for ending in ("n", "en", "e") if plain.endswith(ending))


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


@cache
def _known_words() -> frozenset[str]:
    """Every word of the vocabulary."""
    known = vocabulary()
    phrases = [phrase for kind in known.kinds for phrase in (*kind.phrases, kind.also)]
    phrases += [phrase for _, listed in known.qualifiers for phrase in listed]
    words = {word for phrase in phrases for word in phrase}
    return frozenset({*words, *known.concepts, *known.beside, *known.counts, *known.elsewhere})


def known_words() -> frozenset[str]:
    """Every word of the vocabulary, folded."""
    return _known_words()


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
    named: dict[int, set[str]] = {}
    for word in said:
        for place, phrase in _by_word().get(word, ()):
            if phrase <= said:
                named.setdefault(place, set()).update(phrase)
    scores = {place: math.fsum(_weight(word, beside) for word in covered) for place, covered in named.items()}
    for word in said:
        for place in _also_by_word().get(word, ()):
            if word not in named.get(place, ()):
                scores[place] = scores.get(place, 0.0) + ALSO * (BESIDE if word in beside else 1.0)
                named.setdefault(place, set()).add(word)
    for place in list(scores):
        fits = _size_fits(known.kinds[place], stated)
        if fits is False:
            del scores[place]
        elif fits:
            scores[place] += SIZED
    if not scores:
        return [], 0.0, frozenset()
    best = max(scores.values())
    places = sorted(place for place, score in scores.items() if score > best - 1e-9)
    told = frozenset(word for place in places for word in named[place] if word not in known.kinds[place].also)
    return [known.kinds[place] for place in places], best, told


def _weight(word: str, beside: frozenset[str]) -> float:
    weight = NUMBER if _is_number(word) or _is_thread(word) else 1.0
    return weight * (BESIDE if word in beside else 1.0)


def _is_thread(word: str) -> bool:
    return any(word.startswith(name) and _is_number(word[len(name) :]) for name in ("m", "pg"))


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
