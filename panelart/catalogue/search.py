"""Parts found by words: 'mains', 'Kippschalter 12 mm', 'pushbutton 22.5', 'toogle switch'.

The vocabulary tells the kind, the figures that are stated tell the entry: an entry whose size, thread or number of
positions is another than the one stated is never among those found, but is told as a near size where no entry has it.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections import Counter
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from functools import cache, cached_property, partial
from itertools import takewhile
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.catalogue.asked import ALSO, Asked, asked
from panelart.catalogue.installed import component, knob, knob_names, names
from panelart.catalogue.items import INCH, is_number
from panelart.catalogue.knobs import KnobEntry
from panelart.catalogue.stated import SAME, Stated, in_trade, stated_in
from panelart.catalogue.vocabulary import PartKind, known_words, pieces, vocabulary
from panelart.extensions import kept
from panelart.model.circuit import CircuitKind
from panelart.model.component import Component, EnvelopeRole, Opening, Role
from panelart.model.look import Lit

OVER_NOMINAL: Final = 0.6
"""Millimetres by which a hole may be larger than the size its part is called by: 22.3 for 22, 30.5 for 30."""

SIDE: Final = 0.35
"""Millimetres by which a side of a rectangle may differ from the one said: openings are called by whole figures."""

MAX_NEAR: Final = 4
"""Entries of other sizes that are told where none has the one stated."""

NEAREST_KINDS: Final = 3

_ON_BOARD: Final = frozenset({"board", "edge"})
"""Pieces of names and titles of entries that are soldered to a board: at its edge, or behind the panel."""

_LIT: Final = "illuminated"
"""The qualifier of what lights up, or is sold so too."""

NO_FORM: Final = frozenset({"socket", "connector", "jack", "plug"})
"""Qualifiers that choose no form of a kind that is named: a USB C socket is any USB C part."""

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


class Shelf:
    """Entries that are searched together, by name; what is known of them is worked out where a search asks for it."""

    def __init__(self, entries: Iterable[Entry]) -> None:
        self.entries: Final[Mapping[str, Entry]] = {entry.name: entry for entry in entries}
        self._facts: dict[str, Facts] = {}
        self._tokens: dict[str, frozenset[str]] = {}

    @cached_property
    def by_kind(self) -> Mapping[str, tuple[str, ...]]:
        """The names of the entries of each kind."""
        found: dict[str, list[str]] = {}
        for name, entry in self.entries.items():
            for kind in kinds_of(entry):
                found.setdefault(kind, []).append(name)
        return {kind: tuple(listed) for kind, listed in found.items()}

    @cached_property
    def by_use(self) -> tuple[str, ...]:
        """All words, those first that most phrases have: what is mistyped is likelier a common word."""
        return tuple(sorted(self.spellings, key=lambda word: (-_uses()[word], word)))

    @cached_property
    def spellings(self) -> frozenset[str]:
        """All words of the vocabulary and of the entries."""
        return known_words().union(*map(self.tokens, self.entries))

    @cached_property
    def in_order(self) -> tuple[str, ...]:
        """The same in order, so that those with one beginning stand together."""
        return tuple(sorted(self.spellings))

    def facts(self, name: str) -> Facts:
        """The figures that an entry is known by."""
        if name not in self._facts:
            self._facts[name] = facts_of(self.entries[name])
        return self._facts[name]

    def tokens(self, name: str) -> frozenset[str]:
        """The words that an entry is known by."""
        if name not in self._tokens:
            self._tokens[name] = tokens_of(self.entries[name])
        return self._tokens[name]


@kept
def _catalogue() -> Shelf:
    """All parts and knobs of the catalogue."""
    return Shelf((*map(component, names()), *map(knob, knob_names())))


def has_entries(kind: str) -> bool:
    """Whether the catalogue has an entry of a kind."""
    return bool(_catalogue().by_kind.get(kind))


def is_on_board(entry: Entry) -> bool:
    """Whether an entry is soldered to a board, by its title or its name."""
    return not _ON_BOARD.isdisjoint((*_pieces_of(entry.name), *_pieces_of(entry.title)))


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
    return _search(query, _catalogue())


def search_among(query: str, entries: Iterable[Entry]) -> Found:
    """What a query asks for among some entries, as a designer's own; last what only the beginnings of its words fit."""
    shelf = Shelf(entries)
    found = _search(query, shelf)
    brought = frozenset((*found.parts, *found.knobs))
    begun = tuple(name for name, one in shelf.entries.items() if name not in brought and fits(query, *_texts(one)))
    return _found(shelf, (*found.parts, *found.knobs, *begun), found.near, found.asked)


def _search(query: str, shelf: Shelf) -> Found:
    wanted = read(query, shelf)
    members = tuple(dict.fromkeys(name for kind in wanted.kinds for name in shelf.by_kind.get(kind, ())))
    fitting, others = _by_size(wanted.stated, members, shelf)
    ranked = _ranked(wanted, fitting, shelf)
    settled = bool(wanted.kinds) and (not members or (wanted.certainty >= 1.0 and bool(ranked)))
    literal = () if settled else _literal(wanted, frozenset(members), shelf)
    if wanted.kinds == (_OPENING,) and not ranked:
        literal = _by_opening(wanted.stated, shelf)
    answering = _answering(wanted.stated, (*ranked, *literal), shelf)
    left = (*ranked, *others) or literal
    return _found(shelf, answering, _nearest(wanted.stated, others if answering else left, shelf), wanted)


def _answering(stated: Stated, brought: Iterable[str], shelf: Shelf) -> tuple[str, ...]:
    return tuple(name for name in brought if answers(stated, shelf.facts(name)))


_OPENING: Final = "opening"
"""The kind of plain openings, that are drawn in any size."""


def _by_opening(stated: Stated, shelf: Shelf) -> tuple[str, ...]:
    """The entries whose opening has the sides that are stated, of whatever kind: 92 x 92."""
    sides = [sorted(pair) for *pair, exact in stated.sizes if exact]
    return tuple(
        name
        for name in (shelf.entries if sides else ())
        if all(
            any(
                all(abs(a - b) <= SIDE for a, b in zip(pair, sorted(hole), strict=True))
                for hole in shelf.facts(name).holes
            )
            for pair in sides
        )
    )


def _found(shelf: Shelf, brought: Sequence[str], near: Sequence[str], wanted: Asked) -> Found:
    """The same by parts and knobs; the near ones where nothing else was brought."""
    is_part = {name: isinstance(shelf.entries[name], Component) for name in brought}
    return Found(
        parts=tuple(name for name in brought if is_part[name]),
        knobs=tuple(name for name in brought if not is_part[name]),
        near=() if brought else tuple(near),
        kinds=wanted.kinds,
        asked=wanted,
    )


def read(query: str, shelf: Shelf | None = None, spelled_right: Collection[str] = ()) -> Asked:
    """What a query asks for, words that are mistyped put right; the catalogue's words are known where none is given.

    `spelled_right` are words that the catalogue lacks and that are no slips of those it has.
    """
    shelf = _catalogue() if shelf is None else shelf
    spellings: dict[str, tuple[str, ...]] = {}

    def spelled(word: str, choice: int) -> str:
        if word not in spellings:
            spellings[word] = (word,) if word in spelled_right else _spellings(word, shelf)
        return spellings[word][min(choice, len(spellings[word]) - 1)]

    wanted = asked(query, partial(spelled, choice=0))
    choices = max(map(len, spellings.values()), default=1)
    others = (asked(query, partial(spelled, choice=choice)) for choice in range(1, choices))
    return _sure(max((wanted, *others), key=lambda one: one.certainty), shelf)


def _sure(wanted: Asked, shelf: Shelf) -> Asked:
    """The same, without kinds that only a word said of many suggests beside one that nobody knows: 'scart socket'."""
    if wanted.certainty > ALSO + SAME or all(any(_begun(word, shelf.in_order)) for word in wanted.telling):
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


def _by_size(stated: Stated, members: Sequence[str], shelf: Shelf) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The entries that no stated figure contradicts, and the others.

    A bare number may be a size or not: it leaves entries out where others have it. What is called by a size or has it
    for a hole goes before what has it on the face only.
    """
    fitting = [name for name in members if not contradicted(stated, shelf.facts(name))]
    for test in preferences(stated):
        fitting = [name for name in fitting if test(shelf.facts(name))] or fitting
    left = frozenset(fitting)
    return tuple(fitting), tuple(name for name in members if name not in left)


class Facts(Struct, frozen=True, kw_only=True):
    """What an entry is known by, in mm: the figures of its `title`, its `holes` and the outermost of its `faces`.

    `most` is the highest number of positions that it is made with, 0 where nobody has said, `amps` the current of a
    mains connector. `named` are the sizes in its name, by which the trade calls it where its opening has others: 29 x
    14 is 28.57 x 13.97.
    """

    title: Stated
    named: tuple[tuple[float, float, bool], ...]
    holes: tuple[tuple[float, float], ...]
    faces: tuple[tuple[float, float], ...]
    positions: int
    most: int = 0
    amps: float | None = None


def facts_of(entry: Entry) -> Facts:
    """The figures that an entry is known by."""
    title = stated_in(" ".join((entry.title, *(word for word in entry.words if word[:1].isdecimal()))))
    named = stated_in(entry.name.replace("-", " ")).sizes
    if not isinstance(entry, Component):
        return Facts(title=title, named=named, holes=(), faces=(), positions=0)
    holes = [_sides_of(one) for one in entry.openings if one.role in (Role.BODY, Role.APERTURE)]
    holes = holes or [_sides_of(one) for one in entry.openings]
    return Facts(
        title=replace(title, counts=(*title.counts, *_ways_of_rows(title))),
        named=named,
        holes=tuple(holes),
        faces=tuple(_outermost(entry, holes)),
        positions=len(entry.positions),
        most=max((way.most for way in entry.motion.ways if not way.angles), default=0),
        amps=_mains_amps(entry),
    )


def _sides_of(opening: Opening) -> tuple[float, float]:
    """The width and height of an opening; the diameter of a round one with a key or notch, by which it is called."""
    box = opening.contour.bounds
    names = {figure.name: figure.value for figure in opening.figures}
    if "over_key" in names and "diameter" in names:
        return names["diameter"], names["diameter"]
    return box.width, box.height


_BACKGROUND: Final = "disc"
"""What lies behind an actuator to be seen, and does not name the size of the part: the yellow disc of a stop."""


def _outermost(entry: Component, holes: Sequence[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """The largest piece on the face; none that is oblong over a round hole, whose longer side nobody calls it by."""
    pieces = [one for one in entry.front if one.role is not EnvelopeRole.PLUG and _BACKGROUND not in one.what]
    fronts = sorted((one.contour.bounds for one in pieces), key=lambda box: box.width * box.height)
    round_ = bool(holes) and all(abs(width - height) < SAME for width, height in holes)
    for box in fronts[-1:]:
        if not round_ or abs(box.width - box.height) < SIDE or len(entry.openings) > 1:
            yield box.width, box.height


def _ways_of_rows(title: Stated) -> Iterator[tuple[tuple[str, ...], int]]:
    """The ways of a connector in two rows: 10 of 2 x 5."""
    for first, second, exact in title.sizes:
        if first == 2 and not exact:
            yield ("ways",), int(first * second)


def _mains_amps(entry: Component) -> float | None:
    """The most that a connector of the mains carries, in amperes; None for another part."""
    circuit = entry.circuit
    if circuit is None or circuit.kind is not CircuitKind.MAINS or circuit.amps is None or entry.motion.ways:
        return None
    return circuit.amps.value if circuit.amps.span is None else circuit.amps.span[1]


def contradicted(stated: Stated, facts: Facts) -> bool:
    """Whether a stated length, size, thread or count is another than the entry's."""
    return (
        not all(_has(length, facts) for length in stated.lengths)
        or not all(_has_sides((first, second), facts) for first, second, exact in stated.sizes if exact)
        or any(_other_thread(thread, facts) for thread in stated.threads)
        or any(_other_count(what, number, facts) for what, number in stated.counts)
        or any(facts.amps is not None and amps > facts.amps * _ABOVE for amps in stated.amps)
    )


_ABOVE: Final = 1.05
"""The share of its rated current above which a part is not the one that was asked for."""

_SURE_NUMBER: Final = 10
"""From which a bare whole number is a size or a number of ways; a smaller one may say many things."""


_DESIGNATION: Final = 1000
"""From which a bare number is that of a standard: 26482."""


def answers(stated: Stated, facts: Facts) -> bool:
    """Whether an entry has all that is stated for sure: threads, sizes, turns, and numbers that are not small.

    One that is silent on a figure does not answer it: a switch without a thread in its title is no switch M6.
    """
    return (
        all(_has_thread(thread, facts) or _is_nominal(thread, facts) for thread in stated.threads)
        and all(_has_sides((first, second), facts) for first, second, _ in stated.sizes)
        and all(_has_number(number, facts) for number in stated.numbers)
        and all(_has_turns(what, number, facts) for what, number in stated.counts if _TURNS in what)
        and not any(_is_silent(what, number, facts) for what, number in stated.counts)
    )


_TURNS: Final = "turns"
_POSITIONS: Final = "positions"


def _is_silent(what: tuple[str, ...], number: int, facts: Facts) -> bool:
    """Whether many positions are stated, and nothing is known of an entry's."""
    known = facts.most or facts.positions or any(_POSITIONS in of for of, _ in facts.title.counts)
    return _POSITIONS in what and number >= _SURE_NUMBER and not known


def _is_nominal(thread: str, facts: Facts) -> bool:
    """Whether an entry without a thread is called by the nominal diameter of a metric one."""
    return not facts.title.threads and any(called(size, facts) for size in _nominal((thread,)))


def _has_number(number: float, facts: Facts) -> bool:
    if (number.is_integer() and number < _SURE_NUMBER) or number >= _DESIGNATION:
        return True
    titled = (*facts.title.numbers, *facts.title.elsewhere)
    return (
        _has(number, facts, counts=True)
        or _is_inch_thread(number, facts)
        or any(abs(number - own) < SAME or abs(number * INCH - own) < SAME for own in (*titled, *facts.title.lengths))
    )


def _is_inch_thread(length: float, facts: Facts) -> bool:
    """Whether the thread of an entry has a nominal diameter in inches: 3/8 of 3/8-32."""
    return any(abs(length - own) < SAME for own in _inches(facts.title.threads))


def _inches(threads: Iterable[str]) -> Iterator[float]:
    """The nominal diameters of inch threads, in mm: 9.525 of 3-8-32."""
    for thread in threads:
        parts = thread.split("-")
        if len(parts) == 3 and all(part.isdecimal() for part in parts):
            yield int(parts[0]) / int(parts[1]) * INCH


def _counts_so(number: float, facts: Facts) -> bool:
    return any(own == number for _, own in facts.title.counts)


def _has_turns(what: tuple[str, ...], number: int, facts: Facts) -> bool:
    return (what, number) in facts.title.counts


def _is_in_name(length: float, facts: Facts) -> bool:
    """Whether a whole length is what a length of the title is called by: 14 of 14.2."""
    return any(-SAME < own - length < _ROUNDED for own in facts.title.lengths)


_ROUNDED: Final = 0.3
"""Millimetres by which a length of a title may be more than the whole figure that it is called by."""


def _other_thread(thread: str, facts: Facts) -> bool:
    """Whether an entry has a thread, and neither this one nor its nominal size."""
    own = facts.title.threads
    nominal = thread[1:] if thread.startswith("m") else ""
    metric = any(one[:1] == "m" for one in own)
    by_size = bool(nominal) and not metric and any(abs(float(nominal) - one) < SAME for one in facts.title.lengths)
    return bool(own) and thread not in own and not by_size


def _has(length: float, facts: Facts, *, counts: bool = False) -> bool:
    """Whether an entry has a size that is called so, or with `counts` so many of something."""
    if counts and any(number == length for _, number in facts.title.counts):
        return True
    on_face = (side for face in facts.faces for side in face)
    return (
        called(length, facts)
        or _is_in_name(length, facts)
        or _has_elsewhere(length, facts)
        or _is_inch_thread(length, facts)
        or any(abs(side - said) < SAME for side in on_face for said in in_trade(length))
    )


def preferences(stated: Stated) -> Sequence[Callable[[Facts], bool]]:
    """Tests of entries by what is stated: each leaves out those that fail it, where others meet it; in order."""
    lengths = (*stated.lengths, *stated.numbers)
    tests = _of_numbers(stated)
    tests += [partial(_has_thread, thread) for thread in stated.threads]
    tests += [partial(_is_nominal, thread) for thread in stated.threads]
    tests += [partial(has_body, body) for body in stated.bodies]
    tests += [partial(called, length) for length in lengths]
    tests += [partial(_has_elsewhere, figure) for figure in (*stated.elsewhere, *stated.lengths)]
    tests += [partial(_has_sides, (first, second)) for first, second, _ in stated.sizes]
    return tests


def _of_numbers(stated: Stated) -> list[Callable[[Facts], bool]]:
    """The same by counts and bare numbers, which are threads in inches, then counts, then sizes."""
    inches = (*stated.numbers, *stated.lengths, *stated.bodies, *stated.elsewhere)
    tests: list[Callable[[Facts], bool]] = [partial(_is_inch_thread, number) for number in inches]
    tests += [partial(_has_turns, what, number) for what, number in stated.counts if _TURNS in what]
    tests += [partial(_counts_so, number) for number in stated.numbers]
    tests += [partial(_is_in_name, length) for length in stated.lengths]
    tests += [partial(_has, number, counts=True) for number in stated.numbers]
    return tests


def _has_thread(thread: str, facts: Facts) -> bool:
    return thread in facts.title.threads


def _has_elsewhere(figure: float, facts: Facts) -> bool:
    """Whether a figure of the sheet or the shaft is that of the entry."""
    return any(abs(own - figure) < SAME for own in facts.title.elsewhere)


def has_body(body: float, facts: Facts) -> bool:
    """Whether the body behind the panel is called by a length."""
    return any(abs(own - body) < SAME for own in facts.title.lengths)


def called(length: float, facts: Facts) -> bool:
    """Whether an entry is called by a size, or its hole is of it."""
    titled = any(abs(said - own) < SAME for said in in_trade(length) for own in facts.title.dimensions)
    return titled or _is_hole(length, facts)


def _is_hole(length: float, facts: Facts) -> bool:
    """Whether a length is that of the hole, or the size its part is called by.

    A part whose title gives both sides of an oblong hole is not called by one of them.
    """
    titled = [sorted((first, second)) for first, second, _ in facts.title.sizes if abs(first - second) > SIDE]
    sides = [side for hole in facts.holes if sorted(hole) not in titled for side in hole]
    return any(-SAME < side - said < OVER_NOMINAL for said in in_trade(length) for side in sides)


def _has_sides(sides: tuple[float, float], facts: Facts) -> bool:
    """Whether an entry has a rectangle of these sides, either way up."""
    wanted = sorted(sides)
    own = [(first, second) for first, second, _ in (*facts.title.sizes, *facts.named)]
    return any(
        all(abs(one - other) <= SIDE for one, other in zip(wanted, sorted(pair), strict=True))
        for pair in (*own, *facts.holes, *facts.faces)
    )


def _other_count(what: tuple[str, ...], number: int, facts: Facts) -> bool:
    """Whether an entry has a count of the same sort, none of which is the one stated."""
    own = [count for of, count in facts.title.counts if set(of) & set(what)]
    if not own and _POSITIONS in what:
        if facts.most:
            return number > facts.most
        own = [facts.positions] if facts.positions else []
    return bool(own) and number not in own and not _is_between(number, own, facts)


def _is_between(number: int, own: Sequence[int], facts: Facts) -> bool:
    """Whether a count lies in a range of a title: in '3 to 8 way' the lower end has no word beside it."""
    return any(low <= number <= max(own) for low in facts.title.numbers if low < max(own))


def _nearest(stated: Stated, others: Sequence[str], shelf: Shelf) -> tuple[str, ...]:
    """Of the entries of another size those that come nearest to the one stated."""
    return tuple(sorted(others, key=lambda name: (_apart(stated, shelf.facts(name)), len(name), name))[:MAX_NEAR])


def _apart(stated: Stated, facts: Facts) -> float:
    """How far the figures of an entry are from those stated, in mm, more for figures that it has not at all."""
    turns = [2 * _FAR for what, number in stated.counts if _TURNS in what and not _has_turns(what, number, facts)]
    return math.fsum((*turns, *(min(_away(one, own), _FAR) for one, own in _compared(stated, facts))))


def _compared(stated: Stated, facts: Facts) -> Iterator[tuple[float, Sequence[float]]]:
    """Each stated figure with those of an entry that it is compared with: sizes, numbers, threads."""
    sides = [*facts.title.dimensions, *(side for pair in (*facts.holes, *facts.faces) for side in pair)]
    for length in (*stated.lengths, *(side for *pair, _ in stated.sizes for side in pair)):
        yield length, sides
    many = [count for _, count in facts.title.counts] or sides
    yield from ((number, many) for number in stated.numbers if number >= _SURE_NUMBER)
    own = (*_nominal(facts.title.threads), *_inches(facts.title.threads), *facts.title.lengths)
    yield from ((size, own) for size in (*_nominal(stated.threads), *_inches(stated.threads)))


_FAR: Final = 1000.0
"""Millimetres that stand for a figure that an entry has not at all."""


def _away(length: float, own: Iterable[float]) -> float:
    return min((abs(one - length) for one in own), default=math.inf)


def _nominal(threads: Iterable[str]) -> tuple[float, ...]:
    """The nominal diameters of metric and conduit threads in mm: 8 of M8, 37 of Pg 29."""
    metric = (float(one[1:]) for one in threads if one[:1] == "m" and is_number(one[1:]))
    return (*metric, *(_CONDUIT[one[2:]] for one in threads if one[:2] == "pg" and one[2:] in _CONDUIT))


_CONDUIT: Final[Mapping[str, float]] = {
    "7": 12.5, "9": 15.2, "11": 18.6, "13.5": 20.4, "16": 22.5, "21": 28.3, "29": 37.0, "36": 47.0, "42": 54.0
}  # fmt: skip
"""Major diameters in mm of the conduit threads of DIN 40430 (from memory)."""


# --- the order


def _ranked(wanted: Asked, fitting: Sequence[str], shelf: Shelf) -> tuple[str, ...]:
    """The entries that have the most of the words that tell entries apart, of the panel's and of the board's.

    What is soldered to a board goes last, but where the words ask for it, or say what only such entries have.
    """
    on_board = [name for name in fitting if is_on_board(shelf.entries[name])]
    in_panel = [name for name in fitting if not is_on_board(shelf.entries[name])]
    told = [_most_titled(wanted, listed, shelf) for listed in (in_panel, on_board)]
    first_on_board = "board" in wanted.qualified or told[1] > told[0]
    groups = (on_board, in_panel) if first_on_board else (in_panel, on_board)
    return tuple(name for group in groups for name in _in_order(wanted, _narrowed(wanted, group, shelf), shelf))


def _most_titled(wanted: Asked, listed: Iterable[str], shelf: Shelf) -> int:
    """The most that the title of one of some entries has of the words that tell entries apart, besides the kind."""
    besides = replace(wanted, telling=tuple(word for word in wanted.telling if word not in wanted.named))
    return max((_words_met(besides, _titled(shelf.entries[name])) for name in listed), default=0)


def _titled(entry: Entry) -> frozenset[str]:
    """The words of a title; and that the part may light up, which titles of buttons do not say."""
    return _pieces_of(f"{entry.title} {_LIT}") if _may_light(entry) else _pieces_of(entry.title)


def _narrowed(wanted: Asked, fitting: Sequence[str], shelf: Shelf) -> tuple[str, ...]:
    met = {name: _words_met(wanted, shelf.tokens(name)) for name in fitting}
    most = max(met.values(), default=0)
    return tuple(name for name in fitting if met[name] == most)


def _words_met(wanted: Asked, tokens: Collection[str]) -> int:
    """How many words an entry has, in the catalogue's own for what was said or as they were said."""
    named = wanted.certainty >= 1.0
    in_own = sum(
        all(piece in tokens for piece in pieces(qualifier)) or _as_said(wanted, qualifier, tokens)
        for qualifier in wanted.qualified
        if not (named and qualifier in NO_FORM)
    )
    return in_own + sum(any(token.startswith(word) for token in tokens) for word in wanted.telling)


def _as_said(wanted: Asked, qualifier: str, tokens: Collection[str]) -> bool:
    """Whether an entry has the very word that was said for a qualifier: holder, where others have a bezel."""
    return any(word in tokens and qualifier in _in_catalogue().get(word, ()) for word in wanted.words)


def _in_order(wanted: Asked, fitting: Sequence[str], shelf: Shelf) -> tuple[str, ...]:
    places = {kind: place for place, kind in enumerate(wanted.kinds)}
    kind_of = {name: kind for kind in reversed(wanted.kinds) for name in shelf.by_kind.get(kind, ())}

    def order(name: str) -> tuple[float | int | str, ...]:
        kind = kind_of[name]
        return (
            -_likeness(wanted, name, shelf.facts(name)),
            -sum(_as_said(wanted, qualifier, shelf.tokens(name)) for qualifier in wanted.qualified),
            places[kind],
            _preferred(kind, name),
            len(name),
            name,
        )

    return tuple(sorted(fitting, key=order))


def _likeness(wanted: Asked, name: str, facts: Facts) -> int:
    """How many of the figures are in the name itself, are the hole's, and stand in the same order of the sides."""
    own, stated = frozenset(pieces(name)), wanted.stated
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
def _uses() -> Counter[str]:
    """How many phrases of the vocabulary have a word."""
    return Counter(word for kind in vocabulary().kinds for phrase in kind.phrases for word in phrase)


@cache
def _pieces_of(text: str) -> frozenset[str]:
    return frozenset(pieces(text))


def tokens_of(entry: Entry) -> frozenset[str]:
    """The words of an entry's name, title, family, standard and search words; and that it may be illuminated."""
    return _pieces_of(" ".join((*_texts(entry), _LIT if _may_light(entry) else "")))


def _may_light(entry: Entry) -> bool:
    return isinstance(entry, Component) and entry.look is not None and entry.look.lit is not Lit.NEVER


def _texts(entry: Entry) -> tuple[str, ...]:
    standard = entry.standard if isinstance(entry, Component) else ""
    return entry.name, entry.title, entry.family, standard, *entry.words


def _literal(wanted: Asked, besides: frozenset[str], shelf: Shelf) -> tuple[str, ...]:
    """The parts and knobs that every word fits as it stands, and no figure contradicts: 'haldon warning'."""
    known = vocabulary()
    words = [
        word
        for word in wanted.words
        if word not in known.concepts and word not in known.beside and word not in ("mm", "x", *wanted.stated.threads)
    ]
    if not words:
        return ()
    scored = [
        (-_literal_score(name, words, shelf.tokens(name)), name)
        for name in shelf.entries
        if name not in besides and all(_says(word, shelf.tokens(name)) for word in words)
    ]
    return tuple(name for _, name in sorted(scored) if not contradicted(wanted.stated, shelf.facts(name)))


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


def _literal_score(name: str, words: Iterable[str], all_: Collection[str]) -> int:
    """More for words met in the name, and whole."""
    own = _pieces_of(name)
    return sum((word in own) * 8 + (word in all_) * 2 + any(one.startswith(word) for one in own) for word in words)


@cache
def _known_in_order() -> tuple[str, ...]:
    return tuple(sorted(known_words()))


def _begun(word: str, in_order: Sequence[str]) -> Iterator[str]:
    """The words of an ordered list that begin with one."""
    following = map(in_order.__getitem__, range(bisect_left(in_order, word), len(in_order)))
    return takewhile(lambda one: one.startswith(word), following)


def _spellings(word: str, shelf: Shelf) -> tuple[str, ...]:
    """How a word that the vocabulary does not have may be spelled: one that is not written out, or mistyped.

    Words of entries are theirs, and so are their beginnings.
    """
    if any(one not in known_words() for one in _begun(word, shelf.in_order)):
        return (word,)
    if len(word) >= _BEGUN:
        nearly = (one for one in _begun(word, _known_in_order()) if len(word) + 1 < len(one) <= 2 * len(word))
        begun = tuple(sorted(nearly, key=lambda one: (len(one), one)))
        if begun:
            return begun[:1]
    from panelart.catalogue.spelling import corrections

    return corrections(word, shelf.by_use)
