"""Footprints and number families in words: what they say of the part, and how it is fixed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from enum import Enum
from itertools import groupby
from typing import Final

from panelart.catalogue.vocabulary import folded, pieces
from panelart.lists.words import words


class Mount(Enum):
    """How a part is fixed, by what a row says."""

    PANEL = "panel"  # by a nut, a bushing, screws or clips, with wires behind
    BOARD = "board"  # soldered to a board behind the panel
    EDGE = "edge"  # soldered at the edge of a board that stands square to the panel
    UNSAID = "unsaid"


_PANEL: Final = frozenset({
    "panel", "chassis", "pads", "einbau", "none", "wired", "panelmount", "panelmountable", "mountable", "chasis",
    "pannello", "paneel", "panneau", "encastrable", "incasso", "empotrar", "inbouw", "tablicowy", "tablicowa",
    "tablicowe", "panelowy", "panelowa", "panelowe", "embutir", "painel",
})  # fmt: skip
_THREADED: Final = frozenset({"bushing", "bush", "threaded", "thread", "nut", "gewinde", "mutter"})
_UPRIGHT: Final = frozenset({"vertical", "upright", "vert", "stehend"})
_EDGE: Final = frozenset({
    "horizontal", "angle", "angled", "ra", "edgemount", "edge", "abgewinkelt", "liegend", "winkel", "coude", "acodado",
    "leiterplattenkante", "platinenkante", "platinenrand", "leiterplattenrand", "kante", "bordo", "borde", "krawedzi",
    "angolare", "side", "gewinkelt", "coudee", "acodada", "angolato", "angolata", "haaks", "katowe", "katowy", "lying",
    "poziome", "poziomy", "pozioma", "liggend", "liggande", "lezaty", "lezata", "vodorovny", "printrand", "orizzontale",
    "horizontale", "waagerecht", "rightangle",
})  # fmt: skip
_BOARD: Final = frozenset({"pcb", "tht", "smd", "print", "printmontage", "druku", "dps", "stampato", "impreso"})
"""Words of the trade for it, in the languages that footprints are written in."""

_BOARD_PINS: Final = frozenset(
    {
        "leiterplattenkante",
        "platinenkante",
        "pcb",
        "board",
        "print",
        "printmontage",
        "leiterplatte",
        "platine",
        "imprime",
        "stampato",
    }
)
"""Those of a part that is soldered to a board and held by its bushing besides."""

_WIRES: Final = frozenset({"wire", "wires", "solderwire", "solderpad"})
"""Words of footprints of wires to a part that stands elsewhere."""

_NO: Final = frozenset({"no", "without", "ohne", "sans", "senza", "zonder", "sin", "bez"})

_LOW: Final = 7.0
"""Height in mm of the push of a tactile switch from its board that no panel lets reach a finger. Common practice."""


_BOARD_THICKNESS: Final = "1.6mm"
"""Of most boards: at the edge of one it is no size of the part."""


def own_name(footprint: str) -> str:
    """A footprint without the library that it is from."""
    return footprint.rpartition(":")[2]


def tokens(text: str) -> tuple[str, ...]:
    """The words and figures of a footprint or number, letters and figures apart: JACK35 is jack, 35."""
    return tuple(
        "".join(group)
        for piece in pieces(_apart(text))
        for _, group in groupby(piece, key=lambda character: character.isalpha())
    )


def _apart(text: str) -> str:
    """A footprint with blanks for its underscores and before capitals behind small letters: Barrel Jack."""
    spaced = own_name(text).replace("_", " ").replace("R/A", "RA").replace("r/a", "ra").replace("mm-", "mm ")
    return "".join(
        f" {letter}"
        if at and letter.isupper() and spaced[at - 1].islower() and spaced[at + 1 : at + 2].islower()
        else letter
        for at, letter in enumerate(spaced)
    )


def in_words(footprint: str) -> str:
    """A footprint as words, without the pitch of its pins (P2.54mm), its heights (H13) as figures."""
    return " ".join(_plain(part) for part in _apart(footprint).split() if not _is_pitch(part))


def meant(texts: Iterable[str]) -> tuple[str, ...]:
    """What the families mean that stand in some texts."""
    found: dict[str, None] = {}
    for text in texts:
        said = frozenset((*tokens(text), *pieces(text.replace("_", " "))))
        found.update(dict.fromkeys(means for family, means in words().families if family <= said))
    return tuple(found)


def mount(texts: Iterable[str], footprint: str) -> Mount:
    """How a part is fixed; a footprint that does not say so lies on a board."""
    texts = tuple(texts)
    said = frozenset(token for text in (*texts, footprint) for token in _had(tokens(text)))
    if not _PANEL.isdisjoint(_where(footprint, said)):
        return Mount.PANEL
    if not said.isdisjoint(_UPRIGHT):
        return Mount.BOARD
    at_edge = not said.isdisjoint(_EDGE)
    if not _BOARD_PINS.isdisjoint(said):
        return Mount.EDGE if at_edge else Mount.BOARD
    if not said.isdisjoint(_THREADED) or _has_metric_thread(footprint):
        return Mount.PANEL
    if at_edge:
        return Mount.EDGE
    return Mount.BOARD if _is_soldered(said, footprint) else Mount.UNSAID


def says_board(word: str) -> bool:
    """Whether a word says that a part is soldered to a board, or stands on one."""
    return word in _UPRIGHT or word in _BOARD or word in _BOARD_PINS


def says_edge(word: str) -> bool:
    """Whether a word says that a part is soldered at the edge of a board, square to the panel."""
    return word in _EDGE


def _where(footprint: str, said: frozenset[str]) -> frozenset[str]:
    """The words that may say that a part is fixed to the panel: a footprint's, where it is not that of wires."""
    of_place = frozenset(tokens(footprint))
    return said if not footprint or not _WIRES.isdisjoint(of_place) else of_place


def _is_soldered(said: frozenset[str], footprint: str) -> bool:
    return bool(footprint.strip("-–. ")) or not said.isdisjoint(_BOARD)


def _had(said: tuple[str, ...]) -> Iterator[str]:
    """The words but for those that are denied: no bushing."""
    yield from (word for at, word in enumerate(said) if at == 0 or said[at - 1] not in _NO)


def is_low(footprint: str) -> bool:
    """Whether a footprint is of a push whose stated height does not reach through a panel."""
    parts = own_name(footprint).split("_")
    heights = [part[1:] for part in parts if part[:1] == "H" and part[1:2].isdecimal()]
    heights += [sides[2] for part in parts if len(sides := part.casefold().split("x")) == 3 and sides[0].isdecimal()]
    return any(_number(height) is not None and (_number(height) or 0.0) < _LOW for height in heights)


def _has_metric_thread(footprint: str) -> bool:
    parts = own_name(footprint).upper().replace("-", "_").split("_")
    return any(part in ("M5", "M6", "M7", "M8", "M9", "M10", "M12") for part in parts)


def _is_pitch(part: str) -> bool:
    return (part[:1] == "P" and part[1:2].isdecimal()) or part == _BOARD_THICKNESS


def _plain(part: str) -> str:
    number = _number(part[1:]) if part[:1] == "H" else None
    return part if number is None else part[1:]


def _number(text: str) -> float | None:
    bare = folded(text).removesuffix("mm")
    return float(bare) if bare.replace(".", "", 1).isdecimal() else None
