"""Words of a list matched to parts of the catalogue, with how sure that is: never a silent guess.

A name of the catalogue is sure. Other words are weighed by how few parts know them ('toggle' says more than
'switch'), and what the best part knows of them is the confidence. A part is taken only when it knows nearly all and
no other part comes near; else the candidates are told and the designer decides.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from string import ascii_lowercase
from typing import Final

import panelart.catalogue
from panelart.canonical import Struct
from panelart.extensions import kept
from panelart.messages import component_lists as said
from panelart.model.component import Component
from panelart.texts.parse import parse
from panelart.texts.quantities import Alternatives, Number, Quantity, Range
from panelart.texts.ratings import Duty, FuseRating, Protection, SupplyRating
from panelart.texts.runs import Certain, Meaning, Space, Unsure
from panelart.texts.units import UNITS

SURE: Final = 0.75
"""The least confidence at which words are taken for a part. Tried on the lists of the tests: below it, slips begin."""

LEAD: Final = 0.03
"""How far the best part must be ahead of the next that is no special form of it (toggle-12-3pos of toggle-12)."""

LISTED: Final = 0.3
MAX_CANDIDATES: Final = 4
"""Candidates told: at most so many, none with less confidence."""

_SPELLINGS: Final[Mapping[str, str]] = {
    "potentiometer": "pot", "pots": "pot", "poti": "pot", "switches": "switch", "sw": "switch", "leds": "led",
    "sockets": "socket", "jacks": "jack", "banana": "socket safety 4", "mains": "mains", "inlet": "inlet",
    "estop": "emergency stop", "pushbutton": "push button", "pushbuttons": "push button", "button": "button",
    "toggles": "toggle", "miniature": "mini", "subminiature": "dsub", "db": "dsub", "de": "dsub", "dsub": "dsub",
    "lights": "lamp", "light": "light", "indicator": "pilot light", "pilotlight": "pilot light", "fuseholder": "fuse",
    "holder": "", "chassis": "", "panel": "", "mount": "", "mounted": "", "mounting": "", "type": "", "way": "",
    "pole": "", "the": "", "a": "", "with": "", "for": "", "and": "", "of": "", "mm": "", "connector": "connector",
    "volts": "", "volt": "", "v": "", "female": "", "male": "", "black": "", "red": "red", "blue": "", "green": "",
    "white": "", "yellow": "", "amber": "", "fan": "fan", "display": "display", "slider": "fader", "slide": "slide",
    "position": "positions", "pos": "positions", "ethernet": "rj45", "lan": "rj45", "phone": "jack", "rca": "phono",
    "cinch": "phono", "powercon": "mains", "voltmeter": "meter", "ammeter": "meter", "instrument": "meter",
}  # fmt: skip
"""Words of lists in the catalogue's own; colours and the like say nothing of the hole."""

_GENERAL: Final = frozenset({"socket", "connector", "jack", "plug", "receptacle", "port", "round", "square"})
"""Words that are often said beside the one that counts; alone they tell no part."""

_LETTERS: Final = frozenset(ascii_lowercase)
_LENGTH: Final = UNITS["m"].dimension
_INCHES: Final = ("in", "″", '"')
_ROUNDED: Final = 0.06
"""Millimetres by which a size may be rounded, and what such a size is worth beside the same one."""

_NEARLY: Final = 0.95

_AMOUNT: Final = 0.25
"""The weight of a value that says nothing of the size: less than a word that no part knows, and against all."""

_NUMBERS: Final[Mapping[str, str]] = {"two": "2", "three": "3", "four": "4"}


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
        general = _GENERAL.issuperset(_tokens(_meant(words)))
        taken = best[0].name if ahead >= LEAD and not general else None
        return Match(name=taken, confidence=best[0].confidence, candidates=best)

    def _all(self) -> Iterable[tuple[str, Component]]:
        for name in panelart.catalogue.names():
            yield name, panelart.catalogue.component(name)
        yield from self._own.items()


@kept
def _built_in() -> _Known:
    return _Known((name, panelart.catalogue.component(name)) for name in panelart.catalogue.names())


class _Known:
    """The words that each part is known by."""

    def __init__(self, parts: Iterable[tuple[str, Component]]) -> None:
        self._tokens: dict[str, tuple[frozenset[str], frozenset[str]]] = {}
        for name, part in parts:
            own = frozenset(_tokens(name))
            text = " ".join((name, _meant(part.title), part.family, " ".join(part.words), part.standard))
            self._tokens[name] = (own, frozenset((*_tokens(text), *own)))
        self._parts_with = Counter(token for _, tokens in self._tokens.values() for token in tokens)

    def candidates(self, words: str) -> tuple[Candidate, ...]:
        """The parts most like the words, best first."""
        asked = dict.fromkeys(_tokens(_meant(words)))
        if not asked:
            return ()
        weights = {token: self._weight(token) for token in asked}
        whole = math.fsum(weights.values()) + _AMOUNT * _amounts(words)
        scored = []
        for name, (own, tokens) in self._tokens.items():
            met = math.fsum(weight * self._likeness(token, tokens) for token, weight in weights.items())
            named = sum(token in asked for token in own) / len(own)
            confidence = 0.88 * met / whole + 0.11 * named
            if confidence >= LISTED:
                scored.append((-round(confidence, 4), len(name), name))
        return tuple(Candidate(name=name, confidence=-minus) for minus, _, name in sorted(scored)[:MAX_CANDIDATES])

    def _weight(self, token: str) -> float:
        parts = self._parts_with[token]
        if parts == 0:
            # '10k', 'ACME': a word that no part knows says little about which it is, and something against all.
            return 0.5 if not token.isdecimal() else 0.8
        return math.log(1.0 + len(self._tokens) / parts) * (0.2 if token in _GENERAL else 0.5)

    def _likeness(self, token: str, tokens: frozenset[str]) -> float:
        if token in tokens:
            return 1.0
        if len(token) >= 4 and any(
            other.startswith(token) or token.startswith(other) for other in tokens if len(other) >= 4
        ):
            return 0.8
        return _NEARLY if "." in token and any(_near(token, other) for other in tokens if "." in other) else 0.0


def _near(size: str, other: str) -> bool:
    """Whether two sizes with decimals are one, as people round it: 6.3 and 6.35 mm."""
    return abs(float(size) - float(other)) < _ROUNDED


def _meant(words: str) -> str:
    """Words without what says nothing of the size of a hole: volts, amperes, ohms, watts, ratings; lengths in mm."""
    read = parse(words)
    return " ".join("".join(_sized(run.means, read.written(run)) for run in read.runs).split())


def _amounts(words: str) -> int:
    """How many values the words have that say nothing of the size."""
    read = parse(words)
    return sum(_sized(run.means, "x") == " " for run in read.runs if not isinstance(run.means, Space))


def _sized(means: Meaning, written: str) -> str:
    """What of a run may tell the size."""
    if isinstance(means, Unsure):
        return written if any(_tells(each) for each in means.readings) else " "
    if isinstance(means, Quantity) and means.dimension == _LENGTH and means.unit.symbol in _INCHES:
        return f" {means.base * 1000:.6g} "
    return written if _tells(means) else " "


def _tells(means: Certain) -> bool:
    """Whether a run is words, a name, a bare number, a thread or a length."""
    if isinstance(means, Number):
        return not means.prefix
    if isinstance(means, Quantity):
        return means.dimension == _LENGTH
    if isinstance(means, Range):
        return _tells(means.low)
    if isinstance(means, Alternatives):
        return _tells(means.values[0])
    return not isinstance(means, FuseRating | SupplyRating | Duty | Protection)


def _pieces(text: str) -> Iterator[str]:
    """Numbers, with decimals behind a point, and words of plain letters."""
    piece = ""
    for at, character in enumerate(f"{text} "):
        if character == "." and piece.isdecimal() and text[at + 1 : at + 2].isdecimal():
            piece += character
            continue
        kind = character.isdecimal() if piece[:1].isdecimal() else character in _LETTERS
        if piece and not kind:
            yield piece
            piece = ""
        if character.isdecimal() or character in _LETTERS:
            piece += character


def _tokens(words: str) -> list[str]:
    """Words and numbers, in the catalogue's spelling."""
    found: list[str] = []
    text = f" {words.casefold()}".replace("e-stop", "estop").replace("e stop", "estop")
    for token in _pieces(text.replace(" d-sub", " dsub").replace(" d sub", " dsub")):
        found += _SPELLINGS.get(token, _NUMBERS.get(token, token)).split()
    return found


def _bare(name: str) -> str:
    words = name.casefold().replace("_", " ").replace("-", " ")
    return "-".join(words.split())
