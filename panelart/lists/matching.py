"""Words of a list matched to parts of the catalogue, with how sure that is: never a silent guess.

A name of the catalogue is sure. Other words are read with the vocabulary of the catalogue: the kind of part, and what
is said beside it, weighed by how few parts know it. What the best part knows of them is the confidence; a part that a
stated figure contradicts is never meant. A part is taken only when it knows nearly all and no other part comes near;
else the candidates are told and the designer decides.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import Final

from msgspec.structs import replace

import panelart.catalogue
from panelart.canonical import Struct
from panelart.catalogue.asked import Asked, asked
from panelart.catalogue.items import is_number, is_thread
from panelart.catalogue.search import (
    NO_FORM,
    OVER_NOMINAL,
    Facts,
    answers,
    called,
    contradicted,
    facts_of,
    has_body,
    is_on_board,
    kinds_of,
    preferences,
    tokens_of,
)
from panelart.catalogue.stated import SAME, Stated
from panelart.catalogue.vocabulary import pieces, vocabulary
from panelart.extensions import kept
from panelart.lists.against import contested
from panelart.lists.footprints import Mount
from panelart.lists.spoken import read
from panelart.lists.words import words
from panelart.messages import Message
from panelart.messages import component_lists as said
from panelart.model.component import Component

SURE: Final = 0.5
"""The least confidence at which words are taken for a part. Tried on the lists of the tests: below it, slips begin."""

LEAD: Final = 0.01
"""How far the best part must be ahead of the next that is no special form of it (toggle-12-3pos of toggle-12)."""

LISTED: Final = 0.3
MAX_CANDIDATES: Final = 4
"""Candidates told: at most so many, none with less confidence."""

_AMOUNT: Final = 0.25
"""The weight of a value that says nothing of the size: less than a word that no part knows, and against all."""

_KIND: Final = 0.5
_GENERAL: Final = 0.2
"""The shares of the weight of a word that tells, and of one that is said of many parts: socket, jack."""

_FOREIGN: Final = 0.1
_FOREIGN_NUMBER: Final = 0.4
_ELSEWHERE: Final = 0.1
"""The weights of words and numbers that no part knows, and of words that only other kinds know: legends, values."""

_NEARLY: Final = 0.95
"""What a size that the part is not called by is worth beside the one in its title or name."""

_TURNED: Final = 0.95
"""What a part is worth whose sides are those that were said, the other way up."""

_OTHERWISE_FIXED: Final = 0.8
"""What a part is worth that is fixed otherwise than is said, where its kind has parts that are fixed so."""

_UNASKED_BOARD: Final = 0.9
"""What a part on a board is worth where no word says so and its kind has parts that are fixed to the panel."""

_OF_PANEL: Final = 0.75
"""What it is worth where words say that it is fixed to the panel."""

_OF_PLACE: Final = frozenset({"panel", "chassis"})
"""Words that say so."""

_UNNAMED: Final = 0.85
"""What words are worth that name no kind of part, as a legend."""

_ANYWHERE: Final = frozenset({"panel", "board", "edge", "jack", "socket"})
"""Words of names that say how a part is fixed, or what all of its kind are."""

_BEGUN: Final = 0.8
"""What the beginning of a word is worth beside the whole."""

_BEGINNING: Final = 4
"""Letters of the shortest beginning."""


class Candidate(Struct, frozen=True, kw_only=True):
    """A part that words may mean: what of them it agrees with and what it does not, and its rank from 0 to 1.

    `answers` says that it has every figure that is stated, `met` and `fixed` how much of the words it knows and how
    well it is fixed as they say, `unsaid` are the words of its name that were not said.
    """

    name: str
    confidence: float
    agrees: tuple[str, ...] = ()
    differs: tuple[str, ...] = ()
    answers: bool = True
    met: float = 1.0
    fixed: float = 1.0
    unsaid: tuple[str, ...] = ()

    @property
    def says(self) -> Message:
        """The same for people."""
        if self.differs and self.agrees:
            return said.candidate_but(name=self.name, agrees=self.agrees, differs=self.differs)
        if self.agrees:
            return said.candidate_agrees(name=self.name, agrees=self.agrees)
        return said.candidate(name=self.name)

    def __str__(self) -> str:
        return str(self.says)

    @property
    def is_supposed(self) -> bool:
        """Whether a part is a form that its name has and nobody said: a window, of a display."""
        return any(word.isalpha() and word not in _ANYWHERE for word in self.unsaid)

    def goes_before(self, other: Candidate) -> bool:
        """Whether words choose this part and not the other: they meet it better, or the other is a special form of it.

        Where each has something in its name that was not said, as the threads of two switches, they choose neither.
        """
        if self.met > other.met + LEAD or self.fixed > other.fixed:
            return True
        return set(self.unsaid) < set(other.unsaid)


class Match(Struct, frozen=True, kw_only=True):
    """What words were taken for: `name` is None when no part is sure enough. `candidates` are the best, first."""

    name: str | None
    confidence: float
    candidates: tuple[Candidate, ...]

    @property
    def exact(self) -> bool:
        """Whether the words were the part's name."""
        return self.name is not None and self.confidence == 1.0


class Matcher:
    """Matches words to the built-in catalogue and to a designer's own parts."""

    def __init__(self, own: Mapping[str, Component] | None = None) -> None:
        self._own = dict(own or {})
        self._names = {_bare(name): name for name in (*panelart.catalogue.names(), *self._own)}
        self._known: _Known | None = None

    def component(self, name: str) -> Component:
        """The part of a name that was matched."""
        return self._own[name] if name in self._own else panelart.catalogue.component(name)

    def exact(self, words: str, *, literally: bool = False) -> Match | None:
        """The part of which words are the name, `literally` as the catalogue writes it: lcd-16x2, not LCD 16x2."""
        name = self._names.get(_bare(words))
        if literally and name != words.casefold():
            return None
        return (
            None
            if name is None
            else Match(name=name, confidence=1.0, candidates=(Candidate(name=name, confidence=1.0),))
        )

    def match(self, words: str, mount: Mount = Mount.UNSAID, kinds: frozenset[str] = frozenset()) -> Match:
        """The part that words mean, fixed as is said; of `kinds` where some are known otherwise."""
        exact = self.exact(words)
        if exact is not None:
            return exact
        if self._known is None:
            self._known = _built_in() if not self._own else _Known(self._all())
        wanted = read(words)
        best = self._known.candidates(wanted, mount, kinds)
        if not best or best[0].confidence < SURE:
            return Match(name=None, confidence=best[0].confidence if best else 0.0, candidates=best)
        named = wanted.certainty >= 1.0 or (bool(kinds) and not self._known.is_general(wanted))
        part = self.component(best[0].name)
        chosen = named and _is_chosen(best, mount) and not contested(words, wanted, part, mount)
        return Match(name=best[0].name if chosen else None, confidence=best[0].confidence, candidates=best)

    def _all(self) -> Iterable[tuple[str, Component]]:
        for name in panelart.catalogue.names():
            yield name, panelart.catalogue.component(name)
        yield from self._own.items()


def _is_chosen(candidates: Sequence[Candidate], mount: Mount) -> bool:
    """Whether words choose the first of some candidates: it has all figures, and goes before every other.

    None that is not on a board where words say so and others of its kind are, nor a form that nobody said.
    """
    best, *others = candidates
    if best.is_supposed or (mount is Mount.BOARD and best.fixed < _TURNED):
        return False
    rivals = [one for one in others if not one.name.startswith(f"{best.name}-")]
    return best.answers and all(map(best.goes_before, rivals))


@kept
def _built_in() -> _Known:
    return _Known((name, panelart.catalogue.component(name)) for name in panelart.catalogue.names())


class _Entry(Struct, frozen=True, kw_only=True):
    """What a part is known by: kinds, words, figures; `own` are those of its name, `own_kind` of these the kind's.

    `mount` is how it is fixed, `upright` that it stands on a board, `sheet` the least and most that it holds to, mm.
    """

    kinds: frozenset[str]
    tokens: frozenset[str]
    facts: Facts
    own: frozenset[str]
    own_kind: frozenset[str]
    mount: Mount
    upright: bool
    sheet: tuple[float, float] | None


class _Known:
    """The words that each part is known by."""

    def __init__(self, parts: Iterable[tuple[str, Component]]) -> None:
        self._entries = {name: _entry(name, part) for name, part in parts}
        self._parts_with = Counter(token for entry in self._entries.values() for token in entry.tokens)
        self._parts_of = Counter(kind for entry in self._entries.values() for kind in entry.kinds)
        self._words_of: dict[str, frozenset[str]] = {}
        for entry in self._entries.values():
            for kind in entry.kinds:
                self._words_of[kind] = self._words_of.get(kind, frozenset()) | entry.tokens

    def candidates(self, wanted: Asked, mount: Mount, known: frozenset[str]) -> tuple[Candidate, ...]:
        """The parts most like the words, best first; none that a stated figure contradicts."""
        if known:
            wanted = replace(wanted, kinds=tuple(sorted(known)), certainty=max(1.0, wanted.certainty))
        asked_words = self._asked(wanted, mount)
        if asked_words is None:
            return ()
        # beside a footprint a bare number may be of a value or a type
        of_board = mount in (Mount.BOARD, Mount.EDGE)
        figures = replace(wanted.stated, numbers=()) if of_board else wanted.stated
        fitting = self._fitting(wanted, replace(figures, threads=()) if of_board else figures)
        if of_board:
            fitting = _threaded(fitting, figures.threads)
        scored = [(-round(_confidence(asked_words, entry), 4), len(name), name) for name, entry in fitting]
        listed = sorted(one for one in scored if -one[0] >= LISTED)[:MAX_CANDIDATES]
        return tuple(self._candidate(name, -minus, asked_words, figures) for minus, _, name in listed)

    def _fitting(self, wanted: Asked, figures: Stated) -> list[tuple[str, _Entry]]:
        """The parts that may be meant, without those that fail what others meet of the figures."""
        fitting = list(self._of(wanted))
        for test in preferences(figures) if wanted.kinds else ():
            fitting = [(name, entry) for name, entry in fitting if test(entry.facts)] or fitting
        return fitting

    def _asked(self, wanted: Asked, mount: Mount) -> _Asked | None:
        """The words with their weights; None where nothing is asked for."""
        kinds = frozenset(wanted.kinds)
        here = frozenset().union(*(self._words_of.get(kind, frozenset()) for kind in kinds))
        by_catalogue = frozenset(
            word for word in wanted.named & here if len(word) > 1 or word not in vocabulary().concepts
        )
        asked_for = dict.fromkeys((*_asked_for(wanted), *sorted(by_catalogue)))
        if not asked_for and not kinds:
            return None
        return _Asked(
            wanted=wanted,
            weights={token: self._weight(token, known_here=token in here or not kinds) for token in asked_for},
            of_kind=self._kind_weight(wanted) if kinds else 0.0,
            in_other_words=not by_catalogue,
            fixed=self._fixed(wanted, mount),
            mount=mount,
        )

    def _candidate(self, name: str, confidence: float, words: _Asked, figures: Stated) -> Candidate:
        """A part with the words and figures that it agrees with and does not; those that no part knows are left out."""
        entry = self._entries[name]
        kinds = [vocabulary().kind(kind).title.lower() for kind in words.wanted.kinds if kind in entry.kinds]
        known = [token for token, weight in words.weights.items() if weight > max(_FOREIGN, _ELSEWHERE)]
        met = [token for token in known if _likeness(token, entry) >= _BEGUN]
        return Candidate(
            name=name,
            confidence=confidence,
            agrees=tuple(dict.fromkeys((*kinds, *met))),
            differs=tuple(token for token in known if token not in met and self._parts_with[token]),
            answers=_answers(figures, entry),
            met=_met(words, entry),
            fixed=_as_fixed(words, entry),
            unsaid=tuple(sorted(entry.own - entry.own_kind - _said(words, entry))),
        )

    def _fixed(self, wanted: Asked, mount: Mount) -> Mapping[Mount, float]:
        """What parts are worth by how they are fixed: less where their kind has others that are fixed as is said."""
        here = {
            entry.mount
            for entry in self._entries.values()
            if not entry.kinds.isdisjoint(wanted.kinds) and not (mount is Mount.EDGE and entry.upright)
        }
        if mount is Mount.UNSAID:
            if "board" in wanted.qualified or Mount.PANEL not in here:
                return {}
            unasked = _UNASKED_BOARD if _OF_PLACE.isdisjoint(wanted.words) else _OF_PANEL
            return {Mount.BOARD: unasked, Mount.EDGE: unasked}
        said = _as_made(mount, here, wanted)
        return {other: _OTHERWISE_FIXED for other in Mount if other is not said} if said in here else {}

    def _of(self, wanted: Asked) -> Iterator[tuple[str, _Entry]]:
        """The parts that may be meant: of a kind that is named, none that a stated figure contradicts."""
        for name, entry in self._entries.items():
            other = wanted.certainty >= 1.0 and entry.kinds.isdisjoint(wanted.kinds)
            if not (wanted.kinds and other) and not contradicted(wanted.stated, entry.facts) and _holds(entry, wanted):
                yield name, entry

    def is_general(self, wanted: Asked) -> bool:
        """Whether words that name no kind tell no part: 'socket', 'switch', a number."""
        told = (token for token in _asked_for(wanted) if self._parts_with[token] and not is_number(token))
        return _SAID_OF_MANY.issuperset(told)

    def _kind_weight(self, wanted: Asked) -> float:
        parts = sum(self._parts_of[kind] for kind in wanted.kinds)
        share = _KIND if wanted.certainty >= 1.0 else _GENERAL
        return math.log(1.0 + len(self._entries) / parts) * share if parts else _FOREIGN

    def _weight(self, token: str, *, known_here: bool) -> float:
        parts = self._parts_with[token]
        if parts == 0:
            return _FOREIGN_NUMBER if is_number(token) else _FOREIGN
        if not known_here:
            return _ELSEWHERE
        return math.log(1.0 + len(self._entries) / parts) * (_GENERAL if token in _SAID_OF_MANY else _KIND)


def _threaded(fitting: list[tuple[str, _Entry]], threads: Sequence[str]) -> list[tuple[str, _Entry]]:
    """Those of some parts on a board that have the threads, by name or size; all where none has."""
    return [(name, entry) for name, entry in fitting if all(_likeness(one, entry) for one in threads)] or fitting


def _as_made(mount: Mount, here: Collection[Mount], wanted: Asked) -> Mount:
    """How a part is fixed that a kind does not have as is said: at the edge of a board, on a board."""
    if mount is Mount.EDGE and Mount.EDGE not in here:
        on_board = "board" in wanted.qualified or not words().faces.isdisjoint(wanted.kinds)
        return Mount.BOARD if on_board and Mount.BOARD in here else Mount.PANEL
    if mount is Mount.BOARD and Mount.BOARD not in here:
        return Mount.EDGE if Mount.EDGE in here and "upright" not in wanted.qualified else Mount.PANEL
    return mount


def _answers(figures: Stated, entry: _Entry) -> bool:
    """Whether an entry has every figure that is stated."""
    return (
        answers(replace(figures, threads=()), entry.facts)
        and all(_likeness(thread, entry) > 0.0 for thread in figures.threads)
        and all(has_body(body, entry.facts) for body in figures.bodies)
    )


class _Asked(Struct, frozen=True, kw_only=True):
    """Words with the weight of each, and of the kind; `in_other_words` than those of the catalogue it is named.

    `fixed` is what parts are worth by how they are fixed, `mount` what is said of it.
    """

    wanted: Asked
    weights: Mapping[str, float]
    of_kind: float
    in_other_words: bool
    fixed: Mapping[Mount, float]
    mount: Mount


def _confidence(words: _Asked, entry: _Entry) -> float:
    """What a part knows of the words, from 0 to 1."""
    is_kind = not entry.kinds.isdisjoint(words.wanted.kinds)
    named = _named(entry, _asked_words(words), in_other_words=is_kind and words.in_other_words)
    confidence = 0.84 * _met(words, entry) + 0.15 * named
    confidence *= 1.0 if words.wanted.kinds else _UNNAMED
    return confidence * _as_fixed(words, entry)


def _as_fixed(words: _Asked, entry: _Entry) -> float:
    """What a part is worth by how it is fixed, and by which of its sides is up."""
    return words.fixed.get(entry.mount, 1.0) * (_TURNED if _is_turned(words.wanted, entry) else 1.0)


def _met(words: _Asked, entry: _Entry) -> float:
    """The share of the words that a part knows, by their weight."""
    whole = words.of_kind + math.fsum(words.weights.values()) + _AMOUNT * words.wanted.values
    met = math.fsum(weight * _likeness(token, entry) for token, weight in words.weights.items())
    return (met + (0.0 if entry.kinds.isdisjoint(words.wanted.kinds) else words.of_kind)) / whole


def _asked_words(words: _Asked) -> tuple[str, ...]:
    """The words that may be those of a name, how a part is fixed among them."""
    fixed = (words.mount.value,) if words.mount in (Mount.BOARD, Mount.EDGE) else ()
    return (*words.weights, *fixed)


def _said(words: _Asked, entry: _Entry) -> frozenset[str]:
    """The words of a part's name that were said."""
    asked_for = frozenset(_asked_words(words))
    return frozenset(token for token in entry.own if token in words.wanted.words or _is_said(token, asked_for))


def _is_said(token: str, asked_for: Collection[str]) -> bool:
    """Whether a word of a name was said, a size perhaps as the trade calls it."""
    if token in asked_for or not is_number(token):
        return token in asked_for
    return any(-SAME < float(other) - float(token) < OVER_NOMINAL for other in asked_for if is_number(other))


_SAID_OF_MANY: Final = frozenset({"socket", "connector", "jack", "plug", "switch", "female", "male", "round", "square"})
"""Qualifiers of the vocabulary that are often said beside the word that counts."""

_NO_FORM: Final = NO_FORM | {"female", "male"}
"""Those of them that choose no form of a kind that is named."""


def _entry(name: str, part: Component) -> _Entry:
    written = asked(" ".join(name.split("-")))
    return _Entry(
        kinds=frozenset(kinds_of(part)),
        tokens=tokens_of(part),
        facts=facts_of(part),
        own=frozenset((*_asked_for(written), *written.named, *_of_place(written))),
        own_kind=written.named,
        mount=_mount_of(name, part),
        upright=is_on_board(part) and "upright" in pieces(part.title),
        sheet=part.thickness,
    )


def _holds(entry: _Entry, wanted: Asked) -> bool:
    """Whether an entry holds to a sheet of the thickness that is said."""
    if entry.sheet is None or _SHEET.isdisjoint(wanted.words):
        return True
    return any(
        entry.sheet[0] <= thickness <= entry.sheet[1] for thickness in wanted.stated.elsewhere or (entry.sheet[0],)
    )


_SHEET: Final = frozenset({
    "sheet", "panel", "blech", "tole", "chapa", "lamiera", "plaat", "blacha", "blachy", "plech", "plat", "sac",
})  # fmt: skip


def _mount_of(name: str, part: Component) -> Mount:
    """How an entry is fixed, by its name and its title."""
    if not is_on_board(part):
        return Mount.PANEL
    return Mount.EDGE if "edge" in (*name.split("-"), *pieces(part.title)) else Mount.BOARD


def _of_place(written: Asked) -> Iterator[str]:
    """Words of a name that say where a part goes: usb-panel is not all that USB says."""
    yield from (word for word in written.words if word in _OF_PLACE)


def _asked_for(wanted: Asked) -> Iterator[str]:
    """The words, in the catalogue's own, and numbers that are said beside the kind."""
    yield from (word for word in wanted.telling if word not in wanted.named)
    named = wanted.certainty >= 1.0
    yield from (word for word in wanted.qualified if word not in wanted.named and not (named and word in _NO_FORM))
    yield from (f"{number:g}" for number in (*wanted.stated.dimensions, *wanted.stated.bodies))
    yield from wanted.stated.threads


def _named(entry: _Entry, asked_for: Collection[str], *, in_other_words: bool) -> float:
    """The share of a part's name that was said, its kind perhaps in words that the catalogue does not have."""
    own = [_is_said(token, asked_for) or (in_other_words and token in entry.own_kind) for token in entry.own]
    return sum(own) / len(own)


def _is_turned(wanted: Asked, entry: _Entry) -> bool:
    own = {(first, second) for first, second, _ in entry.facts.title.sizes}
    said_so = {(first, second) for first, second, _ in wanted.stated.sizes}
    return bool(own and said_so) and not own & said_so and any((second, first) in own for first, second in said_so)


def _likeness(token: str, entry: _Entry) -> float:
    """What a part knows of a word or number, from 0 to 1."""
    if token in entry.tokens or entry.tokens.issuperset(token.split("-")):
        return 1.0
    if is_number(token):
        return _NEARLY if called(float(token), entry.facts) else 0.0
    if is_thread(token) and token.startswith("m"):
        # a thread, and a bushing that is called by its size
        nominal = float(token[1:])
        return _NEARLY if any(abs(length - nominal) < SAME for length in entry.facts.title.lengths) else 0.0
    return _BEGUN if len(token) >= _BEGINNING and any(_begin(token, other) for other in entry.tokens) else 0.0


def _begin(token: str, other: str) -> bool:
    """Whether one of two words begins the other."""
    return len(other) >= _BEGINNING and (other.startswith(token) or token.startswith(other))


def _bare(name: str) -> str:
    words = name.casefold().replace("_", " ").replace("-", " ")
    return "-".join(words.split())
