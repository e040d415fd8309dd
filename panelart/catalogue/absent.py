"""What the catalogue leaves out on purpose, told to who looks for it: why, and what to do instead."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue import table
from panelart.catalogue.installed import component, names
from panelart.catalogue.search import Found, fits, has_entries, is_on_board, kinds_named, search
from panelart.catalogue.vocabulary import pieces, vocabulary
from panelart.messages import catalogue as said
from panelart.source.problems import Problems
from panelart.source.schema import Field, Fields, MapOf, Record, Text, read
from panelart.source.yaml import read as read_yaml

_BEGINS: Final = 3
"""Letters from which the beginning of a word tells the word."""

_TITLE: Final = Field("title", Text(), required=True, doc="What it is.")
_WHY: Final = Field("why", Text(prose=True), required=True, doc="Why no figures are given.")
_INSTEAD: Final = Field("instead", Text(prose=True), required=True, doc="What to use instead.")
_ABSENT: Final = Field(
    "absent",
    MapOf(
        keys=table.NAME, of=Record("an absent part", (_TITLE, table.WORDS, _WHY, _INSTEAD)), what="names and reasons"
    ),
    required=True,
    doc="Parts that are left out, by name.",
)


class Absent(Struct, frozen=True, kw_only=True):
    """A kind of part that is left out: `why` no figures are given, what to take `instead`."""

    name: str
    title: str
    words: tuple[str, ...]
    why: str
    instead: str


def absent(query: str, found: Found | None = None) -> tuple[Absent, ...]:
    """What is left out of that which a query asks for, of the kinds that it names first; '' gives all that is left out.

    A kind of which the catalogue has no entry is always told; what is left out of a kind that it has, where a word of
    the query says so. `found` is what a search brought, where that was made already.
    """
    if not query.strip():
        return _entries()
    found = search(query) if found is None else found
    without = [kind for kind in found.kinds if not has_entries(kind)]
    told = [one for one in _entries() if _meant(query, found, one)]
    told.sort(key=lambda one: _kinds(one).isdisjoint(without))
    unexplained = [kind for kind in without if all(kind not in _kinds(one) for one in told)]
    return (*told, *map(_unmeasured, unexplained))


def _meant(query: str, found: Found, one: Absent) -> bool:
    """Whether what is left out is asked for."""
    kinds = _kinds(one).intersection(found.kinds)
    if any(not has_entries(kind) for kind in kinds) or (kinds and _only_on_boards(found)):
        return True
    if not _says(query, one):
        return False
    # 'toggle switch' asks for no special form; 'round meter' does
    titles = [vocabulary().kind(kind).title for kind in found.kinds]
    return not found.parts or not fits(" ".join(found.asked.words), *titles)


def _says(query: str, one: Absent) -> bool:
    """Whether its words fit what is left out; short ones must stand there whole: SC begins screw."""
    texts = (one.name, one.title, *one.words)
    whole = {word for text in texts for word in pieces(text)}
    return fits(query, *texts) and all(word in whole for word in pieces(query) if len(word) < _BEGINS)


def _only_on_boards(found: Found) -> bool:
    """Whether all that was brought is soldered to a board, and the words ask for no such part."""
    brought = found.parts or tuple(name for name in found.near if name in names())
    if "board" in found.asked.qualified or not brought:
        return False
    return all(is_on_board(component(name)) for name in brought)


@cache
def _kinds(one: Absent) -> frozenset[str]:
    """The kinds that what is left out is of, by its name and by its title: SMB, SMC and MCX are one entry."""
    return frozenset((*kinds_named((one.name,), one.title), *kinds_named((), one.title)))


def _unmeasured(kind: str) -> Absent:
    """A kind that nothing is known of but its name."""
    title = vocabulary().kind(kind).title
    why, instead = f"{said.kind_not_measured()}.", str(said.measure_and_define())
    return Absent(name=kind, title=title, words=(), why=why, instead=instead)


@cache
def _entries() -> tuple[Absent, ...]:
    file = Path(__file__).with_name("absent.yaml")
    problems = Problems()
    record = read(read_yaml(file.read_bytes(), file.name), Record("what is left out", (_ABSENT,)), problems)
    problems.raise_any()
    listed = None if record is None else record.value[_ABSENT]
    return tuple(_entry(name.value, fields.value) for name, fields in listed or ())


def _entry(name: str, fields: Fields) -> Absent:
    return Absent(
        name=name,
        title=fields[_TITLE] or "",
        words=tuple(word.value for word in fields[table.WORDS] or ()),
        why=fields[_WHY] or "",
        instead=fields[_INSTEAD] or "",
    )
