"""The catalogue as a book: chapters, families within them, sizes within those, each in an order a reader expects."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from itertools import takewhile
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue.installed import brought
from panelart.catalogue.library import component, file_of, names
from panelart.extensions import kept
from panelart.messages import Message, Said
from panelart.messages import catalogue_chapters as said
from panelart.model.component import Component

CHAPTERS: Final[dict[str, Message]] = {
    "toggles.yaml": said.toggles(),
    "rockers.yaml": said.rockers(),
    "faders.yaml": said.faders(),
    "pushbuttons.yaml": said.pushbuttons(),
    "caps.yaml": said.caps(),
    "bushings.yaml": said.bushings(),
    "indicators.yaml": said.indicators(),
    "displays.yaml": said.displays(),
    "meters.yaml": said.meters(),
    "mains.yaml": said.mains(),
    "fuses.yaml": said.fuses(),
    "sockets.yaml": said.sockets(),
    "coax.yaml": said.coax(),
    "audio.yaml": said.audio(),
    "data.yaml": said.data(),
    "board.yaml": said.board(),
    "dsub.yaml": said.dsub(),
    "circular.yaml": said.circular(),
    "glands.yaml": said.glands(),
    "air.yaml": said.air(),
    "rack.yaml": said.rack(),
    "hardware.yaml": said.hardware(),
    "screws.yaml": said.screws(),
    "openings.yaml": said.openings(),
}
"""The data files that hold parts, in the order of a book, and what their chapters are called."""

_LINKS: Final = frozenset({"of", "no.", "for", "a", "sheet", "with", "in", "x"})
_LEADS: Final = frozenset({"with", "behind", "on", "in", "for"})

_NUMBER: Final = re.compile(r"(\d+(?:\.\d+)?)")


class Family(Struct, frozen=True, kw_only=True):
    """Parts of one kind, the smaller sizes first; `title` is what their titles have in common."""

    name: str
    title: str
    parts: tuple[Component, ...]


class Chapter(Struct, frozen=True, kw_only=True):
    """Families of one trade."""

    title: Message
    families: tuple[Family, ...]


@kept
def chapters() -> tuple[Chapter, ...]:
    """The whole catalogue of parts, those of extensions last. Reads every file.

    Raises KeyError for a file that has no chapter, ExtensionError.
    """
    parts: dict[str, dict[str, list[Component]]] = {file: {} for file in CHAPTERS}
    for name in sorted(names(), key=_natural):
        part = component(name)
        parts[file_of(name)].setdefault(part.family, []).append(part)
    own: dict[str, dict[str, list[Component]]] = {}
    for name, part in sorted(brought().components.items(), key=lambda item: _natural(item[0])):
        own.setdefault(brought().files[name].extension, {}).setdefault(part.family, []).append(part)
    return (
        *(_chapter(CHAPTERS[file], families) for file, families in parts.items()),
        *(_chapter(said.of_extension(extension=name), own[name]) for name in sorted(own)),
    )


def _chapter(title: Message, families: Mapping[str, list[Component]]) -> Chapter:
    return Chapter(title=title, families=tuple(_family(name, tuple(members)) for name, members in families.items()))


def chapter_of(part: Component) -> Said:
    """The title of the chapter of a part of the catalogue or an extension; '' for any other part."""
    file = brought().files.get(part.name)
    if file is not None:
        return said.of_extension(extension=file.extension)
    return CHAPTERS[file_of(part.name)] if part.name in names() else ""


def variants(part: Component) -> tuple[str, ...]:
    """The names of the other parts of a part's family, the smaller sizes first; none for a part of a user's own."""
    families = [family for chapter in chapters() for family in chapter.families]
    own = next((family for family in families if any(one.name == part.name for one in family.parts)), None)
    return () if own is None else tuple(one.name for one in own.parts if one.name != part.name)


def _family(name: str, parts: tuple[Component, ...]) -> Family:
    return Family(name=name, title=_shared([part.title for part in parts]), parts=parts)


def _shared(titles: list[str]) -> str:
    """What titles begin and end with alike, to whole words: 'Cable gland with lock nut'.

    Titles that begin with different words are told by their first words: 'Box header; Pin header'.
    """
    if len(titles) == 1:
        return titles[0]
    kinds: dict[str, list[str]] = {}
    for title in titles:
        kinds.setdefault(title.partition(" ")[0], []).append(title)
    if len(kinds) > 1:
        return "; ".join(map(_shared, kinds.values()))
    words = [title.split(" ") for title in titles]
    ahead = _head(words)
    behind = _tail([each[len(ahead) :] for each in words])
    front = " ".join(ahead).rstrip(",:")
    if not behind:
        return front
    return f"{front}{' ' if _leads_on(behind) else ', '}{' '.join(behind)}"


def _head(titles: Sequence[Sequence[str]]) -> list[str]:
    """What titles begin with alike, without a word at its end that leads on to what differs."""
    ahead = _alike(titles)
    while ahead and ahead[-1].casefold() in _LINKS:
        size = ahead.pop() == "x"
        if size and ahead and _NUMBER.fullmatch(ahead[-1]):
            ahead.pop()
    return ahead


def _tail(titles: Sequence[Sequence[str]]) -> list[str]:
    """What titles end with alike.

    It starts after a comma or with a word that leads on, else it hangs on what differs: '5' of '5 mm holes'.
    """
    behind = _alike([each[::-1] for each in titles])[::-1]
    while behind and not (_leads_on(behind) or all(each[-len(behind) - 1].endswith(",") for each in titles)):
        behind.pop(0)
    return behind


def _alike(lists: Sequence[Sequence[str]]) -> list[str]:
    """What lists begin with alike."""
    return [words[0] for words in takewhile(lambda words: len(set(words)) == 1, zip(*lists, strict=False))]


def _leads_on(words: Sequence[str]) -> bool:
    return len(words) > 1 and words[0] in _LEADS


def _natural(name: str) -> tuple[object, ...]:
    """Numbers in a name in the order of their size: gland-m12, gland-m16, gland-m20."""
    return tuple(
        (1, float(piece), "") if _NUMBER.fullmatch(piece) else (0, 0.0, piece) for piece in _NUMBER.split(name)
    )
