"""Words of a list matched to parts of the catalogue, with how sure that is: never a silent guess.

A name of the catalogue is sure. Other words are read with the vocabulary of the catalogue: the kind of part, and what
is said beside it, weighed by how few parts know it. What the best part knows of them is the confidence; a part that a
stated figure contradicts is never meant. A part is taken only when it knows nearly all and no other part comes near;
else the candidates are told and the designer decides.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import Final

import panelart.catalogue
from panelart.canonical import Struct
from panelart.catalogue.asked import Asked, asked
from panelart.catalogue.items import is_number, is_thread
from panelart.catalogue.search import (
    NO_FORM,
    OVER_NOMINAL,
    Facts,
    called,
    contradicted,
    facts_of,
    is_on_board,
    kinds_of,
    read,
    tokens_of,
)
from panelart.catalogue.stated import SAME
from panelart.extensions import kept
from panelart.messages import component_lists as said
from panelart.model.component import Component

SURE: Final = 0.75
"""The least confidence at which words are taken for a part. Tried on the lists of the tests: below it, slips begin."""

LEAD: Final = 0.03
"""How far the best part must be ahead of the next that is no special form of it (toggle-12-3pos of toggle-12)."""

LISTED: Final = 0.3
MAX_CANDIDATES: Final = 4
"""Candidates told: at most so many, none with less confidence."""

_AMOUNT: Final = 0.25
"""The weight of a value that says nothing of the size: less than a word that no part knows, and against all."""

_KIND: Final = 0.5
_GENERAL: Final = 0.2
"""The shares of the weight of a word that tells, and of one that is said of many parts: socket, jack."""

_FOREIGN: Final = 0.5
_FOREIGN_NUMBER: Final = 0.8
"""The weights of words and numbers that no part knows: they say little about which it is, and something against all."""

_NEARLY: Final = 0.95
"""What a size that the part is not called by is worth beside the one in its title or name."""

_TURNED: Final = 0.95
"""What a part is worth whose sides are those that were said, the other way up."""

_UNASKED_BOARD: Final = 0.9
"""What a part on a board is worth where no word says so and its kind has parts that are fixed to the panel."""

_OF_PANEL: Final = 0.75
"""What it is worth where words say that it is fixed to the panel."""

_OF_PLACE: Final = frozenset({"panel", "chassis"})
"""Words that say so."""

_UNNAMED: Final = 0.85
"""What words are worth that name no kind of part, as a legend."""

_BEGUN: Final = 0.8
"""What the beginning of a word is worth beside the whole."""

_BEGINNING: Final = 4
"""Letters of the shortest beginning."""


class Candidate(Struct, frozen=True, kw_only=True):
    """A part that words may mean, and how sure that is, from 0 to 1."""

    name: str
    confidence: float

    def __str__(self) -> str:
        return str(said.candidate(name=self.name, confidence=round(100 * self.confidence)))


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

    def match(self, words: str) -> Match:
        """The part that words mean."""
        exact = self._names.get(_bare(words))
        if exact is not None:
            return Match(name=exact, confidence=1.0, candidates=(Candidate(name=exact, confidence=1.0),))
        if self._known is None:
            self._known = _built_in() if not self._own else _Known(self._all())
        best = self._known.candidates(words)
        if not best or best[0].confidence < SURE:
            return Match(name=None, confidence=best[0].confidence if best else 0.0, candidates=best)
        rivals = [one for one in best[1:] if not one.name.startswith(f"{best[0].name}-")]
        ahead = best[0].confidence - max((one.confidence for one in rivals), default=0.0)
        taken = best[0].name if ahead >= LEAD and not self._known.is_general(words) else None
        return Match(name=taken, confidence=best[0].confidence, candidates=best)

    def _all(self) -> Iterable[tuple[str, Component]]:
        for name in panelart.catalogue.names():
            yield name, panelart.catalogue.component(name)
        yield from self._own.items()


@kept
def _built_in() -> _Known:
    return _Known((name, panelart.catalogue.component(name)) for name in panelart.catalogue.names())


class _Entry(Struct, frozen=True, kw_only=True):
    """What a part is known by: kinds, words, figures; `own` are those of its name, `own_kind` of these the kind's.

    `on_board` says that it is soldered to a board.
    """

    kinds: frozenset[str]
    tokens: frozenset[str]
    facts: Facts
    own: frozenset[str]
    own_kind: frozenset[str]
    on_board: bool


class _Known:
    """The words that each part is known by."""

    def __init__(self, parts: Iterable[tuple[str, Component]]) -> None:
        self._entries = {name: _entry(name, part) for name, part in parts}
        self._parts_with = Counter(token for entry in self._entries.values() for token in entry.tokens)
        self._parts_of = Counter(kind for entry in self._entries.values() for kind in entry.kinds)
        in_panel = (entry.kinds for entry in self._entries.values() if not entry.on_board)
        self._in_panel = frozenset().union(*in_panel)
        self._words_of: dict[str, frozenset[str]] = {}
        for entry in self._entries.values():
            for kind in entry.kinds:
                self._words_of[kind] = self._words_of.get(kind, frozenset()) | entry.tokens

    def candidates(self, words: str) -> tuple[Candidate, ...]:
        """The parts most like the words, best first; none that a stated figure contradicts."""
        wanted = read(words)
        kinds = frozenset(wanted.kinds)
        by_catalogue = frozenset(
            word for kind in kinds for word in wanted.named & self._words_of.get(kind, frozenset())
        )
        asked_for = dict.fromkeys((*_asked_for(wanted), *sorted(by_catalogue)))
        if not asked_for and not kinds:
            return ()
        asked_words = _Asked(
            wanted=wanted,
            weights={token: self._weight(token) for token in asked_for},
            of_kind=self._kind_weight(wanted) if kinds else 0.0,
            in_other_words=not by_catalogue,
            unasked_board=self._unasked_board(wanted),
        )
        scored = [(-round(_confidence(asked_words, entry), 4), len(name), name) for name, entry in self._of(wanted)]
        listed = sorted(one for one in scored if -one[0] >= LISTED)[:MAX_CANDIDATES]
        return tuple(Candidate(name=name, confidence=-minus) for minus, _, name in listed)

    def _unasked_board(self, wanted: Asked) -> float:
        """What a part on a board is worth for words that do not ask for it, where its kind has others."""
        if "board" in wanted.qualified or self._in_panel.isdisjoint(wanted.kinds):
            return 1.0
        return _UNASKED_BOARD if _OF_PLACE.isdisjoint(wanted.words) else _OF_PANEL

    def _of(self, wanted: Asked) -> Iterator[tuple[str, _Entry]]:
        """The parts that may be meant: of a kind that is named, none that a stated figure contradicts."""
        for name, entry in self._entries.items():
            other = wanted.certainty >= 1.0 and entry.kinds.isdisjoint(wanted.kinds)
            if not (wanted.kinds and other) and not contradicted(wanted.stated, entry.facts):
                yield name, entry

    def is_general(self, words: str) -> bool:
        """Whether words tell no part: 'socket', 'switch', a number."""
        wanted = read(words)
        told = (token for token in _asked_for(wanted) if self._parts_with[token] and not is_number(token))
        return wanted.certainty < 1.0 and _SAID_OF_MANY.issuperset(told)

    def _kind_weight(self, wanted: Asked) -> float:
        parts = sum(self._parts_of[kind] for kind in wanted.kinds)
        share = _KIND if wanted.certainty >= 1.0 else _GENERAL
        return math.log(1.0 + len(self._entries) / parts) * share if parts else _FOREIGN

    def _weight(self, token: str) -> float:
        parts = self._parts_with[token]
        if parts == 0:
            return _FOREIGN_NUMBER if is_number(token) else _FOREIGN
        return math.log(1.0 + len(self._entries) / parts) * (_GENERAL if token in _SAID_OF_MANY else _KIND)


class _Asked(Struct, frozen=True, kw_only=True):
    """Words with the weight of each, and of the kind; `in_other_words` than those of the catalogue it is named.

    `unasked_board` is what a part on a board is worth.
    """

    wanted: Asked
    weights: Mapping[str, float]
    of_kind: float
    in_other_words: bool
    unasked_board: float


def _confidence(words: _Asked, entry: _Entry) -> float:
    """What a part knows of the words, from 0 to 1."""
    is_kind = not entry.kinds.isdisjoint(words.wanted.kinds)
    whole = words.of_kind + math.fsum(words.weights.values()) + _AMOUNT * words.wanted.values
    met = math.fsum(weight * _likeness(token, entry) for token, weight in words.weights.items())
    met += words.of_kind if is_kind else 0.0
    named = _named(entry, words.weights, in_other_words=is_kind and words.in_other_words)
    confidence = 0.88 * met / whole + 0.11 * named
    confidence *= 1.0 if words.wanted.kinds else _UNNAMED
    confidence *= words.unasked_board if entry.on_board else 1.0
    return confidence * (_TURNED if _is_turned(words.wanted, entry) else 1.0)


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
        on_board=is_on_board(part),
    )


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
    numbers = [float(token) for token in asked_for if is_number(token)]
    own = sum(
        token in asked_for
        or (in_other_words and token in entry.own_kind)
        or (is_number(token) and any(-SAME < number - float(token) < OVER_NOMINAL for number in numbers))
        for token in entry.own
    )
    return own / len(entry.own)


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
