"""A component list to first specs of all its sides: built, inspected, with the places of an earlier draft."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.drafting.arrange import Arranged, Request
from panelart.drafting.draft import NO_PLACES, Heading, drafted_places, drafts
from panelart.drafting.plan import Wish
from panelart.drafting.sides import drafted_alike, set_text, with_room
from panelart.drafting.tried import Tried, tried
from panelart.lists.answer_record import Place
from panelart.lists.listed import ComponentList
from panelart.lists.matching import Matcher
from panelart.messages import drafting as said


class Wishes(Struct, frozen=True, kw_only=True):
    """What is wished of the specs of a list: `title` is "" where none is given, `stem` stands for it then.

    `sides` are those that are drafted, `spec` is the file, `catalogue` are part files as the spec names them.
    """

    spec: Path
    sides: tuple[str, ...]
    request: Request
    stem: str
    title: str = ""
    hand: str | None = None
    catalogue: tuple[str, ...] = ()


class Earlier(Struct, frozen=True, kw_only=True):
    """An earlier draft that answers are to keep: its text, and the places it kept for open parts, by ref."""

    text: str
    rooms: Mapping[str, Place] = NO_PLACES


class Drafted(Struct, frozen=True, kw_only=True):
    """First specs: the arrangements of each side, the best first, and what was remarked, of the list first.

    `texts` are the specs by their files, `rooms` the places kept for open parts by file and ref.
    """

    title: str
    found: Mapping[str, Sequence[Tried]]
    remarks: tuple[str, ...]
    texts: Mapping[str, str]
    rooms: Mapping[str, Mapping[str, Place]]


def drafted(listed: ComponentList, wishes: Wishes, matcher: Matcher, earlier: Earlier | None = None) -> Drafted:
    """First specs of a list. Raises SpecError when its parts do not fit, or the earlier draft is no spec."""
    headings = [_heading(wishes, side) for side in wishes.sides]
    if earlier is not None:
        headings = [_kept(one, earlier, listed, wishes) for one in headings]
    found, remarks = _sides(listed, headings, wishes, matcher)
    names = _names(wishes.spec, max(map(len, found.values())))
    return Drafted(
        title=headings[0].title,
        found=found,
        remarks=tuple(remarks),
        texts={name: _text(found, number) for number, name in enumerate(names)},
        rooms={name: _rooms(found, number) for number, name in enumerate(names)},
    )


def _heading(wishes: Wishes, side: str) -> Heading:
    """The heading of one side; the title that is given names the side only where there are two."""
    alone = len(wishes.sides) == 1
    title = wishes.title if wishes.title and alone else str(said.draft_title(wishes.title or wishes.stem, side))
    return Heading(title=title, hand=wishes.hand, side=side, alone=alone, catalogue=wishes.catalogue)


def _kept(heading: Heading, earlier: Earlier, listed: ComponentList, wishes: Wishes) -> Heading:
    """A heading with the places and the size of an earlier draft."""
    size, places = drafted_places(earlier.text, wishes.spec.as_posix(), heading.side)
    refs = {item.ref for item in listed.items if item.side == heading.side}
    own = {ref: at for ref, at in {**earlier.rooms, **places}.items() if ref in refs}
    return replace(heading, size=size, places=own) if own or heading.alone else heading


def _sides(
    listed: ComponentList, headings: Sequence[Heading], wishes: Wishes, matcher: Matcher
) -> tuple[dict[str, list[Tried]], list[str]]:
    """First specs of each side, and what was remarked, of the list first."""
    told = [*map(str, listed.remarks)]
    remarks: dict[str, list[str]] = {}
    by_side = {one.side: one for one in headings}

    def draft_side(side: str, wish: Wish | None) -> list[Tried]:
        asked, heading = wishes, by_side[side]
        if wish is not None:
            size = (wish.width, wish.height) if heading.places else heading.size
            asked = replace(wishes, request=replace(wishes.request, wish=wish))
            heading = replace(heading, size=size)
        made, remarked = _side(listed, heading, asked, matcher)
        remarks[side] = remarked[len(told) :]
        return made

    if len(headings) == 1:
        found = {headings[0].side: draft_side(headings[0].side, None)}
    else:
        found = drafted_alike(draft_side, tuple(by_side), [one.side for one in headings if one.places])
    return found, [*told, *dict.fromkeys(line for side in found for line in remarks[side])]


def _side(listed: ComponentList, heading: Heading, wishes: Wishes, matcher: Matcher) -> tuple[list[Tried], list[str]]:
    """First specs of one side, built, and what was remarked at the last of them."""
    remarks: list[str] = []
    folder = wishes.spec.parent

    def make(white: float) -> list[Arranged]:
        asked = replace(wishes.request, white=white)
        made = with_room(lambda size: drafts(listed, replace(heading, size=size), asked, folder, matcher), heading.size)
        remarks[:] = made[0].remarks
        return [one.arranged for one in made]

    return tried(make, wishes.spec.as_posix(), folder), remarks


def _names(spec: Path, count: int) -> list[str]:
    """The files of a draft and its alternatives."""
    return [spec.name, *(f"{spec.stem}-{number}{spec.suffix}" for number in range(2, count + 1))]


def _text(found: Mapping[str, Sequence[Tried]], number: int) -> str:
    """One arrangement as a spec, of two sides as one of both."""
    texts = {side: _nth(made, number).arranged.text for side, made in found.items()}
    return set_text(texts) if len(texts) > 1 else next(iter(texts.values()))


def _rooms(found: Mapping[str, Sequence[Tried]], number: int) -> dict[str, Place]:
    """The places kept for parts that are not decided."""
    return {ref: at for made in found.values() for ref, at in _nth(made, number).arranged.rooms.items()}


def _nth(made: Sequence[Tried], number: int) -> Tried:
    """A draft by its number; the last of a side that has fewer than the other."""
    return made[min(number, len(made) - 1)]
