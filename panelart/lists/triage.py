"""What of a list stands on the panel: what lives on a board behind it, and what is bought beside it, is set aside.

Words decide in the order of speech: of 'potentiometer knob' the last noun says what it is, of 'knob for potentiometer'
the first. A footprint that nothing else has decides before words, since values are often names of signals ('sensor',
'battery'); the letters of refs decide last.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from functools import cache
from itertools import takewhile
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue.asked import HELD_BY, Asked, spelled
from panelart.catalogue.items import is_thread
from panelart.catalogue.stated import is_count
from panelart.catalogue.vocabulary import known_words, pieces, vocabulary
from panelart.lists.against import bores
from panelart.lists.footprints import Mount, in_words, is_low, own_name, tokens
from panelart.lists.words import NoPart, holds, words
from panelart.texts.parse import parse
from panelart.texts.quantities import Number, Quantity
from panelart.texts.runs import Meaning, Space, Unsure
from panelart.texts.units import UNITS

_JOINS: Final = frozenset({
    "for", "with", "w", "on", "from", "incl", "including", "fur", "fuer", "mit", "ohne", "zu", "zum", "pour",
    "avec", "de", "du", "des", "d", "en", "a", "para", "con", "del", "per", "da", "di", "della", "dei", "voor", "met",
    "van", "dla", "do", "z", "ze", "na", "com", "med", "till", "pro", "se", "s", "k", "icin", "ile", "as", "and", "und",
    "et", "y", "e", "i",
})  # fmt: skip
"""Words behind which something else is named."""

_LOOSE: Final = frozenset({
    "sma", "smb", "smc", "socket", "conn", "module", "sensor", "battery", "pin", "hole", "symbol", "cap", "radial",
    "axial", "chip",
})  # fmt: skip
"""First words of footprints that parts of a panel have too."""

_WIRED: Final = frozenset({"wire", "solderwire", "solderpad", "wires"})
"""First words of footprints of what is wired to the board and stands elsewhere."""

_AMBIGUOUS: Final = frozenset({
    "K", "X", "P", "CN", "CON", "H", "T", "L", "G", "N", "A", "RE", "BT", "MOD", "D", "MH", "TR", "J", "R", "VR",
})  # fmt: skip
"""Letters of refs that are of a board only in a list that is of one."""

_COMPOUND: Final = 5
"""Letters of the shortest word that tells a compound by its end: Einbaugehäuse is a Gehäuse."""

_MARKS: Final = str.maketrans(dict.fromkeys(",;()[]|:", "\n"))


_LEAST_FACE: Final = 20.0
"""Millimetres of the least side of a face: chips are told by none."""

_SAID_TWICE: Final = 2.0
"""The certainty of a kind that two words name."""


class Aside(Struct, frozen=True, kw_only=True):
    """Why a row is of no part of the panel: the kind, on a board or not, and the word, footprint or ref that tells."""

    kind: NoPart
    on_board: bool
    by: str


class Said(Struct, frozen=True, kw_only=True):
    """What a row says of its part: its texts, the most telling first, notes, footprint, refs, how it is fixed.

    `read` is all of it, and `shape` the footprint alone, as the catalogue reads them. `places` are cells that may tell
    where it goes.
    """

    texts: tuple[str, ...]
    notes: str
    places: tuple[str, ...]
    footprint: str
    refs: tuple[str, ...]
    mount: Mount
    read: Asked
    shape: Asked


class _Named(Struct, frozen=True, kw_only=True):
    """Words of a text that name something: in which clause, where the last of them stands, how many they are."""

    clause: int
    end: int
    count: int
    kind: NoPart | None
    written: str


def no_part(said: Said, *, of_board: bool) -> Aside | None:
    """Why a row is of no part of a panel; None for one that may be.

    `of_board` says that the list is of a circuit board.
    """
    elsewhere = _elsewhere(said)
    if elsewhere is not None:
        return elsewhere
    if not _OF_FACE.isdisjoint(tokens(said.footprint)) and _is_named(said.read):
        return None
    on_board = _by_package((said.footprint, *said.texts)) or _by_shape(said)
    if on_board is not None:
        return on_board
    if of_board and said.footprint and _is_named(said.shape):
        return None
    told = _by_texts(said)
    if told is not None:
        return told if isinstance(told, Aside) else None
    return None if _is_named(said.read) else _unnamed(said, of_board=of_board)


def _elsewhere(said: Said) -> Aside | None:
    """Why a row is of what is behind a panel, or on a cable, by where its words say that it is."""
    place = next((place for place in said.places if pieces(place) in words().within), None)
    place = place or next((text for text in (*said.texts, said.notes) if holds(text, words().behind)), None)
    if place is not None:
        return Aside(kind=_inside(), on_board=False, by=place)
    mates = next((text for text in (*said.texts, said.notes) if holds(text, words().mates)), None)
    return None if mates is None else Aside(kind=_plug(), on_board=False, by=mates)


def _unnamed(said: Said, *, of_board: bool) -> Aside | None:
    """Why a row whose words name nothing that stands on panels is of no part of one."""
    if _is_of_inside(said):
        return Aside(kind=_inside(), on_board=False, by=" ".join(sorted(said.read.named)))
    if "smd" in tokens(said.footprint) and (of_board or said.refs):
        return Aside(kind=_kind_of(said.footprint) or _other(), on_board=True, by=said.footprint)
    return _by_footprint(said.footprint) or _by_letters_of(said, of_board=of_board) or _by_value(said)


def _is_of_inside(said: Said) -> bool:
    """Whether words name what stands inside, and nothing says that it is in the face or has poles."""
    return said.read.certainty >= 1.0 and not _say(said.texts, _FACE) and not _has_poles(said.read)


def _by_letters_of(said: Said, *, of_board: bool) -> Aside | None:
    """What is on a board by its letters; not by those of no kind, where a size is said: a slider of 60 mm."""
    found = _by_letters(said.refs, of_board=of_board)
    return None if found is not None and found.kind == _other() and said.read.stated.lengths else found


def _say(texts: Sequence[str], some: frozenset[str]) -> bool:
    """Whether one of some words stands in the texts."""
    return any(not some.isdisjoint(pieces(text)) for text in texts)


def is_of_board(footprints: Sequence[str], refs: Sequence[Sequence[str]]) -> bool:
    """Whether a list is of a circuit board: it has resistors and capacitors by their refs, or their footprints."""
    passive = sum(bool(names) and letters(names[0]) in ("R", "C", "U") for names in refs)
    return (
        passive >= 3
        or sum(_by_package((one,)) is not None or _by_footprint(one) is not None for one in footprints) >= 3
    )


def letters(ref: str) -> str:
    """The letter code of a ref: R of R12, R12A and R_2."""
    return "".join(takewhile(str.isalpha, ref.lstrip("{"))).upper()


def _is_named(read: Asked) -> bool:
    """Whether words name a kind that stands on panels."""
    return read.certainty >= 1.0 and not words().inside.issuperset(read.kinds)


# --- words


def _by_texts(said: Said) -> Aside | bool | None:
    """What the texts name, the first that names anything; True for a part of a panel."""
    connects = bool(said.refs) and letters(said.refs[0]) in words().connector_letters
    for text in said.texts:
        told = _told(text, said.read)
        if told is None:
            continue
        if told.kind is None:
            return True
        if told.kind in words().board and _say((*said.texts, said.notes), _TURNED):
            return True  # a variable capacitor is set from the panel
        if _is_of_panel(told.kind, text, said) or _is_regulator(told, said.read):
            return True
        if connects and told.kind in words().aside:
            continue  # 'battery', 'motor' beside J1: what is connected there
        return Aside(kind=told.kind, on_board=told.kind in words().board, by=told.written)
    return None


def _is_of_panel(kind: NoPart, text: str, said: Said) -> bool:
    """Whether what mostly stands on no panel stands on this one, or is said of what does."""
    if kind.name == "fastener" and _has_poles(said.read):
        return True
    if kind.name == "cable" and any(map(is_thread, said.read.words)):
        return True  # what has a thread is its gland
    return _is_set_through(kind, said.mount) or _is_held_by_panel(kind, said) or _is_fitted(kind, text, said)


def _has_poles(read: Asked) -> bool:
    """Whether poles are counted: no screw has any, a connector that is screwed has."""
    return any(not {"poles", "ways"}.isdisjoint(what) for what, _ in read.stated.counts)


def _is_fitted(kind: NoPart, text: str, said: Said) -> bool:
    """Whether an accessory is that of a part which another cell names: fan; 120 mm, finger guard outside."""
    others = (other for other in said.texts if other != text and pieces(other)[:1] and pieces(other)[0] not in _JOINS)
    return kind.name == "accessory" and any(
        (named := _told(other, said.read)) is not None and named.kind is None for other in others
    )


def _is_held_by_panel(kind: NoPart, said: Said) -> bool:
    """Whether words say that a panel holds what mostly stands behind one: a thermostat in the door."""
    if kind.name in _HELD_BY_PANEL and said.mount is Mount.PANEL:
        return True
    opens = any(bores(said.read.words)) or _say(said.texts, _FACE)
    return kind.name in (*_HELD_BY_PANEL, "capacitor", "pin-header") and opens


_HELD_BY_PANEL: Final = frozenset({"machine-part", "resistor", "relay"})
"""Kinds of which some are made for a panel."""


def _is_set_through(kind: NoPart, mount: Mount) -> bool:
    """Whether a trimmer is set through the panel, held by its bush."""
    return kind.name == "trimmer" and mount is Mount.PANEL


def _is_regulator(told: _Named, read: Asked) -> bool:
    """Whether a word for a chip is that of a part of panels, named by two words or by its face: a regulator 96x96."""
    is_chip = told.kind is not None and told.kind.name == "chip"
    named_twice = told.written in read.named and read.certainty >= _SAID_TWICE
    return is_chip and (named_twice or any(min(sides) >= _LEAST_FACE for *sides, _ in read.stated.sizes))


def _told(text: str, read: Asked) -> _Named | None:
    """What a text names: the first clause that names anything decides, in it the words that end last.

    Of words that are part of longer ones that name something, the longer count: a cable gland is no cable. A single
    word that stands before others is said of them, where a part is named: pcb pins of a potentiometer.
    """
    said, clauses = _clauses(text)
    others = (one for one in _not_on_panel(said, clauses, read) if not _holds(one))
    found = [*others, *_on_panel(said, clauses, read)]
    if not found:
        return None
    first = min(one.clause for one in found)
    whole = _longest([one for one in found if one.clause == first])
    parts = [one for one in whole if one.kind is None]
    last = len(clauses) - 1 - clauses[::-1].index(first)
    return _deciding(whole, parts, last) if parts else max(whole, key=_place)


def _deciding(whole: Sequence[_Named], parts: Sequence[_Named], last: int) -> _Named:
    """What decides in a clause that names parts of a panel and ends at `last`."""
    ends = {last, *(part.end for part in parts)}
    best = max((one for one in whole if one.kind is None or _counts(one, ends)), key=_place)
    if best.kind is None or all(part.end != best.end for part in parts):
        return best
    # one word names both: what else the clause names decides
    return next((part for part in parts if part.end != best.end), best)


def _place(one: _Named) -> tuple[int, int, bool]:
    """Where words end, how many they are; of two that are alike those that name no part."""
    return one.end, one.count, one.kind is not None


def _longest(found: Sequence[_Named]) -> list[_Named]:
    """Of words that end in one place those that are most."""
    longest: dict[int, int] = {}
    for one in found:
        longest[one.end] = max(one.count, longest.get(one.end, 0))
    return [one for one in found if one.count == longest[one.end]]


def _counts(one: _Named, ends: Collection[int]) -> bool:
    """Whether words for what is no part count beside a part that is named: several, or where the clause ends."""
    return not _is_place(one) and (one.count > 1 or one.end in ends)


_TURNED: Final = frozenset({"shaft", "spindle", "achse", "welle", "axe", "eje", "albero", "perno"})
_OF_FACE: Final = frozenset({"panel", "chassis", "panelmount"})
"""Words in the place of a footprint that say that a part is on no board."""

_FACE: Final = frozenset({
    "face", "panel", "frontplatte", "facade", "cutout", "ausschnitt", "einbauausschnitt", "decoupe", "recorte",
    "foratura", "uitsparing", "wyciecie", "schalloffnung", "schalloffnungen",
})  # fmt: skip

_PLACES: Final = frozenset({
    "pcb", "print", "platine", "leiterplatte", "screw", "screws", "schraubklemme", "nut", "mutter",
})  # fmt: skip
"""Words that say how a part is held or wired, where one is named."""

_ENDS: Final = frozenset({"lug", "lugs", "tag", "tags", "terminal", "terminals"})
"""What wires end at, behind the word for how: solder lug, screw terminal."""


def _holds(one: _Named) -> bool:
    """Whether a word behind the first clause says what holds a part: slider, with two screws; lever, pcb."""
    return one.clause > 0 and (one.written in _PLACES or one.written in HELD_BY)


def _is_place(one: _Named) -> bool:
    """Whether a word may say where a part goes, or how it is wired: 'toggle switch, pcb', 'conector painel'."""
    first, _, end = one.written.partition(" ")
    return one.kind is not None and (one.written in _PLACES or (first in ("solder", "screw") and end in _ENDS))


def _clauses(text: str) -> tuple[list[str], list[int]]:
    """The words of a text, and the clause that each is in."""
    said: list[str] = []
    clauses: list[int] = []
    clause = 0
    for part in text.translate(_MARKS).split("\n"):
        for piece in pieces(part):
            clause += piece in _JOINS
            said.append(piece)
            clauses.append(clause)
        clause += 1
    return said, clauses


def _not_on_panel(said: Sequence[str], clauses: Sequence[int], read: Asked) -> Iterator[_Named]:
    """What is no part of a panel, by its words; figures may stand between them: DIP-8 socket."""
    spoken = [at for at, word in enumerate(said) if not word.replace(".", "").isdecimal()]
    for place, at in enumerate(spoken):
        for phrase, kind in _by_last().get(said[at], ()):
            before = spoken[max(0, place - len(phrase) + 1) : place + 1]
            counts = at > 1 and is_count(said[at - 1]) and kind.name == "fastener"  # held by 2 screws
            if not counts and tuple(said[one] for one in before) == phrase:
                yield _Named(clause=clauses[before[0]], end=at, count=len(phrase), kind=kind, written=" ".join(phrase))
        kind_by_end = None if _names(said[at], read) else _by_end(said[at])
        if kind_by_end is not None:
            yield _Named(clause=clauses[at], end=at, count=1, kind=kind_by_end, written=said[at])


def _by_end(word: str) -> NoPart | None:
    """What a compound is by its end; None for a word that is known as it stands."""
    if word in _by_last() or word in known_words():
        return None
    ends = (word[at:] for at in range(2, len(word) - _COMPOUND + 1))
    return next((kind for end in ends for phrase, kind in _by_last().get(end, ()) if len(phrase) == 1), None)


def _on_panel(said: Sequence[str], clauses: Sequence[int], read: Asked) -> Iterator[_Named]:
    """The kinds of the catalogue that stand on panels, by the words that name them; a socket of any kind."""
    named = _is_named(read)
    at = 0
    while at < len(said):
        end = at
        while (
            end < len(said)
            and clauses[end] == clauses[at]
            and (_is_general(said[end]) or (named and _names(said[end], read)))
        ):
            end += 1
        # figures tell kinds apart and name none: a fuse 5x20 is no fuse holder
        in_letters = [place for place in range(at, end) if said[place][:1].isalpha() and said[place] != "x"]
        if in_letters:
            last = in_letters[-1]
            yield _Named(clause=clauses[at], end=last, count=len(in_letters), kind=None, written=said[last])
        at = max(end, at + 1)


def _names(piece: str, read: Asked) -> bool:
    return any(word in read.named for word in spelled(piece))


def _is_general(piece: str) -> bool:
    """Whether a word is said of many parts of panels: socket, connector, switch."""
    return any(word in _general() for word in spelled(piece))


def _says_general(text: str) -> bool:
    return any(map(_is_general, pieces(text)))


@cache
def _general() -> frozenset[str]:
    names = ("socket", "connector", "jack", "switch")
    known = dict(vocabulary().qualifiers)
    return frozenset(phrase[0] for name in names for phrase in known[name] if len(phrase) == 1)


@cache
def _by_last() -> dict[str, tuple[tuple[tuple[str, ...], NoPart], ...]]:
    """The phrases by their last words."""
    found: dict[str, list[tuple[tuple[str, ...], NoPart]]] = {}
    for kind in (*words().board, *words().aside):
        for phrase in kind.phrases:
            found.setdefault(phrase[-1], []).append((phrase, kind))
    return {last: tuple(phrases) for last, phrases in found.items()}


# --- footprints, letters, values


def _by_package(texts: Sequence[str]) -> Aside | None:
    """What is on a board by the size of its package: R_0805, C0603, LED_1206."""
    for text in texts:
        if not words().packages.isdisjoint((*pieces(in_words(text)), *tokens(text))):
            return Aside(kind=_kind_of(texts[0]) or _other(), on_board=True, by=text)
    return None


def _by_shape(said: Said) -> Aside | None:
    """What is on a board by a footprint that no part of a panel has."""
    kind = _kind_of_shape(said.footprint)
    if kind is None or _stands_elsewhere(said, kind) or (kind.name == "resistor" and _SEES in said.read.kinds):
        return None
    first = pieces(in_words(said.footprint))[0]
    if (len(first) == 1 or first in _LOOSE) and _is_named(said.shape) and _names(first, said.shape):
        of_kind = bool(said.refs) and letters(said.refs[0]) in kind.letters
        return Aside(kind=kind, on_board=True, by=said.footprint) if of_kind else None
    return Aside(kind=kind, on_board=True, by=said.footprint)


_SEES: Final = "light-sensor"
"""The kind of a resistor that looks through the panel, wherever on a board it is soldered."""


def _kind_of_shape(footprint: str) -> NoPart | None:
    """The kind on a board by the first word of a footprint, or by a trimmer's or a coded switch's anywhere."""
    said = tokens(footprint)
    if is_low(footprint) and not _PUSHED.isdisjoint(said):
        return _kind_of(footprint) or _named("board-switch")
    anywhere = (_named("trimmer"), _named("board-switch"))
    return next((one for one in anywhere if not one.footprints.isdisjoint(said)), _kind_of(footprint))


def _stands_elsewhere(said: Said, kind: NoPart) -> bool:
    """Whether a footprint on the board is that of wires to a part on the panel, or of a socket at its edge."""
    if _has_shaft(said, kind) or (kind.name == "pin-header" and _is_wired(said)):
        return True
    first = pieces(in_words(said.footprint))[0]
    may_be = said.mount is Mount.PANEL and (kind.name == "trimmer" or first in _WIRED or len(first) > 2)
    return may_be and (_is_named(said.read) or _is_named(said.shape))


def _has_shaft(said: Said, kind: NoPart) -> bool:
    """Whether a trimmer has a shaft, and is set by hand."""
    return kind.name == "trimmer" and not _TURNED.isdisjoint(tokens(said.footprint))


def _is_wired(said: Said) -> bool:
    """Whether pins on the board are those of a socket at its edge, or of a part that is wired: a fan, a lamp."""
    if said.mount is Mount.EDGE and any(map(_says_general, said.texts)):
        return True
    return _is_named(said.read) and not _is_named(said.shape) and not _says_connector(said)


_PUSHED: Final = frozenset({"sw", "push", "tact", "tactile", "button"})


def _says_connector(said: Said) -> bool:
    """Whether the texts of a row say that it is the connector on the board."""
    return _say(said.texts, _CONNECTOR)


_CONNECTOR: Final = frozenset(
    {"conn", "connector", "header", "hdr", "plug", "terminal", "stecker", "stiftleiste", "connecteur"}
)


def _by_footprint(footprint: str) -> Aside | None:
    kind = _kind_of(footprint)
    return None if kind is None else Aside(kind=kind, on_board=True, by=footprint)


def _kind_of(footprint: str) -> NoPart | None:
    """The kind on a board by the first word of a footprint, its figures left out."""
    said = pieces(own_name(footprint).replace("_", " "))
    if not said:
        return None
    first = (said[0], said[0].rstrip("0123456789"))
    return next((kind for kind in words().board if not kind.footprints.isdisjoint(first)), None)


def _by_letters(refs: Sequence[str], *, of_board: bool) -> Aside | None:
    said = {letters(ref) for ref in refs}
    if not said or (not of_board and not said.isdisjoint(_AMBIGUOUS)):
        return None
    may_be_of_panel = not said.isdisjoint(words().panel_letters)
    if of_board and may_be_of_panel:
        return None
    kind = next((kind for kind in words().board if said <= kind.letters), _other() if of_board else None)
    return None if kind is None else Aside(kind=kind, on_board=True, by=refs[0])


def _by_value(said: Said) -> Aside | None:
    """What is on a board by its value or its type: 10k, 100n film, 22u 25V, 2N3904."""
    first = said.texts[0] if said.texts else ""
    if first and _is_semiconductor(first):
        return Aside(kind=_named("transistor"), on_board=True, by=first)
    if not said.refs and first and _is_value(first):
        return Aside(
            kind=_named("resistor" if "u" not in first and "n" not in first else "capacitor"), on_board=True, by=first
        )
    return None


def _is_semiconductor(text: str) -> bool:
    """Whether a text is the type of a diode or transistor by EIA-370 (2N3904) or Pro Electron (BC547)."""
    token = text.split(maxsplit=1)[0].casefold()
    if token[:2] in ("1n", "2n"):
        return token[2:].rstrip("abc").isdecimal()
    figures = token[2:].rstrip("abc")
    return len(figures) == 3 and figures.isdecimal() and token[:1] in ("a", "b") and token[1:2].isalpha()


_ELECTRIC: Final = frozenset(UNITS[unit].dimension for unit in ("Ω", "F", "H"))


def _is_value(text: str) -> bool:
    """Whether a text begins with the value of a resistor, a capacitor or a coil."""
    runs = [run for run in parse(text).runs if not isinstance(run.means, Space)]
    return bool(runs) and len(runs) <= 4 and _is_electric(runs[0].means)


def _is_electric(means: Meaning) -> bool:
    match means:
        case Number(prefix=prefix):
            return bool(prefix)
        case Quantity(dimension=dimension):
            return dimension in _ELECTRIC
        case Unsure(readings=readings):
            return any(map(_is_electric, readings))
        case _:
            return False


@cache
def _named(name: str) -> NoPart:
    return next(kind for kind in words().board if kind.name == name)


@cache
def _inside() -> NoPart:
    return next(kind for kind in words().aside if kind.name == "inside")


@cache
def _plug() -> NoPart:
    return next(kind for kind in words().aside if kind.name == "plug")


def _other() -> NoPart:
    return _named("other")
