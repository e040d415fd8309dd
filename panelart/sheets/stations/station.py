"""What a station of the workshop is, and what the build sheet says of one."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from typing import Final

from panelart.canonical import Struct
from panelart.marking.separation import Separations
from panelart.messages import Message, Said
from panelart.messages import sheets_build as pictures
from panelart.model.layout import Layout
from panelart.sheets.listing import Listing


class View(Enum):
    """What the picture of a station shows."""

    BLANK = "blank"
    FACE = "face"
    BEHIND = "behind"
    BENT = "bent"
    LOOK = "look"

    @property
    def caption(self) -> Message:
        """What is written over the picture."""
        return _CAPTIONS[self]


_CAPTIONS: Final = {
    View.BLANK: pictures.picture_blank(),
    View.FACE: pictures.picture_face(),
    View.BEHIND: pictures.picture_behind(),
    View.BENT: pictures.picture_bent(),
    View.LOOK: pictures.picture_look(),
}


class Section(Struct, frozen=True, kw_only=True):
    """What one station is told: its name, what is done there step by step, what it works from, what it must know.

    `marked` names the features that its picture shows dark; all others are pale.
    """

    name: Said
    steps: tuple[Said, ...]
    listings: tuple[Listing, ...] = ()
    cautions: tuple[Said, ...] = ()
    views: tuple[View, ...] = ()
    marked: frozenset[str] = frozenset()
    files: tuple[str, ...] = ()


class Given(Struct, frozen=True, kw_only=True):
    """What stations are given: the layout, and its plates where they are parted already."""

    layout: Layout
    plates: Separations | None = None


class Station(Struct, frozen=True, kw_only=True):
    """One station: its key, when it has something to do (`there`), and what it is told.

    `told` is only asked where the station is there.
    """

    key: str
    there: Callable[[Given], bool]
    told: Callable[[Given], Section]


def always(_: Given) -> bool:
    """For a station that no panel goes without."""
    return True
