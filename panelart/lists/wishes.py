"""What a row of a list wishes of its part: legend, knob, positions, scale, side, order; every doubt is told."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, TypeAlias

from panelart.canonical import Struct
from panelart.catalogue import knob, knob_names
from panelart.diagnostics import nearest
from panelart.lists.amounts import ends, sides
from panelart.messages import Said
from panelart.messages import component_lists as said
from panelart.model.component import Component
from panelart.model.motion import MotionKind

KNOB_HEIGHT: Final = 16.0
"""The height taken for a knob that is given by its diameter alone, mm."""

MAX_SCALE: Final = 1e6
"""The largest value on a scale."""

_MAX_FIGURES: Final = 9

_NO_LEGEND: Final = frozenset({"", "none", "n/a"})
_NOTHING: Final = _NO_LEGEND | {"-"}
"""Cells that wish nothing."""

Tell: TypeAlias = Callable[[str, Said], None]
"""Tells what could not be known or was read loosely: the role of the column, the message."""


class ScaleWish(Struct, frozen=True, kw_only=True):
    """A scale as a list gives it."""

    low: float
    high: float
    unit: str = ""


class KnobWish(Struct, frozen=True, kw_only=True):
    """A knob by name, or by diameter and height in mm."""

    name: str = ""
    diameter: float = 0.0
    height: float = 0.0


def legends(text: str, count: int, note: Tell) -> list[str]:
    """The legend of each of the parts of a row; a dash is one: those that stand for none are out (``dashes``)."""
    if text.casefold() in _NO_LEGEND:
        return [""] * count
    if count == 1:
        return [text]
    for mark in ("|", ";", "/", ","):
        pieces = [piece.strip() for piece in text.split(mark)]
        if len(pieces) == count:
            return pieces
    if "{n}" in text:
        return [text.replace("{n}", str(number)) for number in range(1, count + 1)]
    numbered = [f"{text} {number}" for number in range(1, count + 1)]
    note("legend", said.legends_numbered(count=count, first=numbered[0], last=numbered[-1]))
    return numbered


_FRONT: Final = frozenset({
    "", "front", "f", "face", "top", "vorn", "vorne", "vorderseite", "avant", "devant", "frontal", "delante", "fronte",
    "anteriore", "voor", "voorzijde", "przód", "frente", "fram", "framsida", "přední", "vpředu", "ön", "前面", "oben",
})  # fmt: skip
_REAR: Final = frozenset({
    "rear", "r", "back", "b", "behind", "hinten", "rückseite", "arrière", "dos", "trasera", "detrás", "trasero",
    "retro", "posteriore", "achter", "achterzijde", "tył", "traseira", "atrás", "bak", "baksida", "zadní", "vzadu",
    "arka", "背面",
})  # fmt: skip


def side(text: str, ask: Tell) -> str:
    """Front or rear; front where none is said."""
    known = known_side(text)
    if known is None:
        ask("side", said.side_unknown(text=text))
    return known or "front"


def known_side(text: str) -> str | None:
    """Front or rear, front for '', None for any other words."""
    bare = text.casefold().strip(" .")
    if bare in _FRONT:
        return "front"
    return "rear" if bare in _REAR else None


def order(text: str, ask: Tell) -> float | None:
    """A place in the order of the parts."""
    bare = text.replace(",", ".")
    if not bare:
        return None
    figures = bare.removeprefix("-").split(".")
    if len(figures) <= 2 and all(each.isdecimal() and len(each) <= _MAX_FIGURES for each in figures):
        return float(bare)
    ask("order", said.order_not_a_number(text=text))
    return None


def knob_wish(text: str, part: Component | None, ask: Tell, note: Tell) -> KnobWish | None:
    """The knob for a part, if it has a shaft for one."""
    if text.casefold() in _NOTHING:
        return None
    if part is not None and part.shaft is None:
        ask("knob", said.knob_without_shaft(part=part.name))
        return None
    if text in knob_names():
        return KnobWish(name=text, diameter=knob(text).diameter, height=knob(text).height)
    size, height = sides(text)
    if not 4.0 <= size <= 150.0:
        near = nearest(text, knob_names())
        ask("knob", said.knob_unknown_near(text=text, name=near) if near else said.knob_unknown(text=text))
        return None
    if height is None:
        note("knob", said.knob_height_missing(diameter=size, height=KNOB_HEIGHT))
    return KnobWish(diameter=size, height=KNOB_HEIGHT if height is None else height)


def positions(text: str, part: Component | None, ask: Tell) -> tuple[str, ...]:
    """The names of a part's positions, if it has so many."""
    if text.casefold() in _NOTHING:
        return ()
    names = _position_names(text)
    if part is None:
        return names
    if part.motion.kind is MotionKind.TURN:
        return _numbered(int(text)) if len(names) < 2 and text.isdecimal() else names
    if not part.positions:
        ask("positions", said.positions_of_fixed_part(part=part.name))
        return ()
    if text.isdecimal() and int(text) == len(part.positions):
        return ()  # how many, not their names
    if len(names) != len(part.positions):
        ask("positions", said.positions_miscounted(names=len(names), part=part.name, positions=part.positions))
        return ()
    return names


def scale(text: str, part: Component | None, ask: Tell) -> ScaleWish | None:
    """The scale for a part, if it turns or slides."""
    if text.casefold() in _NOTHING:
        return None
    span = ends(text)
    if span is None:
        ask("scale", said.scale_unreadable(text=text))
        return None
    low, high, unit = span
    if low >= high:
        ask("scale", said.scale_backwards(text=text))
        return None
    if max(abs(low), abs(high)) > MAX_SCALE:
        ask("scale", said.scale_too_large(text=text, maximum=MAX_SCALE))
        return None
    turns = part is None or part.motion.kind in (MotionKind.TURN, MotionKind.SLIDE)
    if part is not None and (not turns or part.family == "key-switch"):
        ask("scale", said.scale_of_fixed_part(part=part.name))
        return None
    return ScaleWish(low=low, high=high, unit=unit)


def _position_names(text: str) -> tuple[str, ...]:
    """The names between the marks of a cell, without the numbers that may stand before them: `1 = OFF`."""
    pieces = text.translate(_PARTED).split("/")
    return tuple(name for name in map(_unnumbered, pieces) if name)


_PARTED: Final = str.maketrans("|;,", "///")


def _unnumbered(piece: str) -> str:
    """A name without the number and its sign before it."""
    signs = [at for at in (piece.find("="), piece.find(":")) if at > 0]
    if signs and piece[: min(signs)].strip().replace("_", "").isalnum() and not piece[0].isspace():
        return piece[min(signs) + 1 :].strip()
    return piece.strip()


def _numbered(count: int) -> tuple[str, ...]:
    """Positions of a switch that are only counted, by their numbers."""
    return tuple(str(number) for number in range(1, min(count, 24) + 1))
