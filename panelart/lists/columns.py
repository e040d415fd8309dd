"""What each column of a table is: what its cells hold decides, its head is a hint.

References look like references, 1, 2, 3 is a line number whatever its head says, order numbers are never words. A
column may be asked for by the user; that is taken as it is.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from difflib import get_close_matches
from functools import cache
from itertools import pairwise
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.catalogue.vocabulary import folded, pieces
from panelart.lists.amounts import counted
from panelart.lists.refs import are_refs
from panelart.lists.spoken import read
from panelart.lists.tables import Row
from panelart.lists.words import bare, words
from panelart.messages import component_lists_answers as said

WORDS: Final = ("part", "description", "value", "footprint")
"""The columns that say what a part is, in the order in which their words are read."""

ROLES: Final = (
    "ref", "line", "quantity", *WORDS, "legend", "group", "side", "order", "knob", "positions", "scale", "fitted",
    "unfitted", "notes", "number", "maker", "supplier", "price", "link", "unit",
)  # fmt: skip
"""What a column may be."""

_MANY: Final = frozenset({*WORDS, "legend", "notes", "number", "maker", "supplier", "price", "link", "unit"})
"""Those of which a table may have several."""

_NEAR: Final = 0.84
"""How like a known head another must be: 'quantitiy' and 'refernce' are, 'price' and 'cost' are not."""

_MOST: Final = 0.6
"""The share of cells by which a column is what they look like."""

_SINGLES: Final = 0.3
"""The share of ones in a column of whole numbers without a known head from which it is one of quantities."""

_SAID_TWICE: Final = 2
"""Words of the longest head that is said in two languages."""

_SHORT: Final = frozenset({"no", "id", "number", "text", "part", "name", "not", "set", "place", "opis", "a"})
"""Heads that are words like any other within a longer head."""


class Column(Struct, frozen=True, kw_only=True):
    """One column, `at` from 0: its head as written, what it is ('' for unused), and why that is thought.

    `language` is that of a legend. `by` is 'head', 'cells', 'asked' or 'remembered'.
    """

    at: int
    head: str
    role: str
    language: str = ""
    by: str = "head"


class Columns(Struct, frozen=True, kw_only=True):
    """The columns of a block of rows below one header row (`row`, 0 where there is none)."""

    row: int
    columns: tuple[Column, ...]

    def of(self, role: str) -> tuple[Column, ...]:
        """The columns that are that."""
        return tuple(column for column in self.columns if column.role == role)

    def cell(self, row: Row, role: str) -> str:
        """What a row has in the first such column that is not empty there."""
        return next((text for column in self.of(role) if (text := row.cell(column.at))), "")


class _Looks(Struct, frozen=True, kw_only=True):
    """The shares of the cells of a column that look like something, from 0 to 1; `filled` is how many there are."""

    filled: int
    refs: float
    counts: float
    singles: float
    runs: float
    links: float
    codes: float
    texts: float


def columns(heads: Sequence[str], row: int, below: Sequence[Row], asked: Mapping[str, str]) -> Columns:
    """The columns by their heads, '' for none, and the rows below them.

    `asked` are columns by what they are to be: legend by 'F', '6' or the head 'Text on panel'.
    """
    width = max((len(heads), *(len(one.cells) for one in below)), default=0)
    given = [heads[at] if at < len(heads) else "" for at in range(width)]
    looks = [_looks([one.cell(at) for one in below]) for at in range(width)]
    chosen = _as_asked(given, asked)
    taken = {column.role for column in chosen.values()} - _MANY
    by_head = [_by_head(head) for head in given]
    for at in sorted(set(range(width)) - chosen.keys(), key=lambda at: (*_rank(by_head[at], looks[at]), at)):
        roles, language = by_head[at]
        role, by = _settled(roles, looks[at], taken, has_heads=any(given))
        role = "" if role in taken else role
        spoken = language if role == "legend" else ""
        chosen[at] = Column(at=at, head=given[at], role=role, language=spoken, by=by)
        taken |= {role} - _MANY - {""}
    found = _naming(_remarked(_completed([chosen[at] for at in range(width)], looks)), looks, below)
    return Columns(row=row, columns=_counted(found, looks, below))


def _as_asked(heads: Sequence[str], asked: Mapping[str, str]) -> dict[int, Column]:
    """The columns that are asked for, by their places."""
    places = {role: _asked_for(which, heads) for role, which in asked.items()}
    return {at: Column(at=at, head=heads[at], role=role, by="asked") for role, at in places.items() if at is not None}


def known_heads(cells: Iterable[str]) -> int:
    """How many cells of a row are heads of different columns."""
    return len({roles[0] for cell in cells if (roles := _plainly(cell))})


def _plainly(cell: str) -> tuple[str, ...]:
    """What a head says that is known as it stands, or all of whose words are: 'Legend DE', 'Anz./qty'."""
    whole = _heads().get(bare(cell))
    said = [piece for piece in pieces(cell) if piece not in words().languages]
    if whole or not 0 < len(said) <= _SAID_TWICE:
        return whole or ()
    each = [_heads().get(piece, ()) for piece in said]
    return each[0] if all(one[:1] == each[0][:1] for one in each) else ()


def is_language(text: str) -> bool:
    """Whether a head is the name of a language."""
    return bare(text) in words().languages


def asked_columns(wishes: Sequence[str]) -> dict[str, str]:
    """Columns as they are asked for, `legend=F`. Raises ValueError with what is wrong with one."""
    found: dict[str, str] = {}
    for wish in wishes:
        role, sign, which = wish.partition("=")
        if not sign or not which.strip() or role.strip() not in ROLES:
            raise ValueError(said.column_unreadable(wish))
        found[role.strip()] = which.strip()
    return found


def _asked_for(which: str, heads: Sequence[str]) -> int | None:
    """The place of a column by its letters, its number from 1 or its head."""
    for at, head in enumerate(heads):
        if head and bare(head) == bare(which):
            return at
    if which.isdecimal():
        return int(which) - 1 if 0 < int(which) <= len(heads) else None
    if which.isascii() and which.isalpha() and len(which) <= 2:
        at = 0
        for letter in which.upper():
            at = at * 26 + ord(letter) - ord("A") + 1
        return at - 1 if at <= len(heads) else None
    return None


# --- by the head


@cache
def _heads() -> Mapping[str, tuple[str, ...]]:
    """What may be in a column by its head, the likeliest first."""
    ranked: dict[str, list[tuple[int, str]]] = {}
    for role, heads in words().columns.items():
        for rank, head in enumerate(heads):
            ranked.setdefault(head, []).append((rank, role))
    return {head: tuple(role for _, role in sorted(found)) for head, found in ranked.items()}


def _by_head(head: str) -> tuple[tuple[str, ...], str]:
    """What may be in a column of that head, and the language that it names."""
    whole = bare(head)
    if not whole or whole in _heads():
        return _heads().get(whole, ()), ""
    said = [piece for piece in pieces(head) if not piece.isdecimal()]
    codes = [words().languages.get(piece, "") for piece in said]
    rest = "".join(piece for piece, code in zip(said, codes, strict=True) if not code)
    code = "".join(codes)[:2]
    if code and not rest:
        return ("legend",), code
    return _heads().get(rest) or _within(said) or _alike(whole), code


def _within(said: Sequence[str]) -> tuple[str, ...]:
    """By the longest known head within a longer one: 'panel legend (front)', 'order no. of the shop'."""
    for length in range(len(said) - 1, 0, -1):
        for at in range(len(said) - length + 1):
            part = "".join(said[at : at + length])
            if part in _heads() and part not in _SHORT and len(part) > 2:
                return _heads()[part]
    return ()


def _alike(whole: str) -> tuple[str, ...]:
    """By the known head that is mistyped."""
    close = get_close_matches(whole, _heads(), n=1, cutoff=_NEAR) if len(whole) > 3 else []
    return _heads()[close[0]] if close else ()


# --- by the cells


def _looks(cells: Sequence[str]) -> _Looks:
    filled = [cell for cell in cells if cell]
    counts = [counted(cell) for cell in filled]
    steps = [None not in pair and pair[1] == (pair[0] or 0) + 1 for pair in pairwise(counts)]
    return _Looks(
        filled=len(filled),
        refs=_share(map(are_refs, filled)),
        counts=_share(count is not None for count in counts),
        singles=_share(count == 1 for count in counts),
        runs=_share(steps) if len(steps) > 1 else 0.0,
        links=_share("://" in cell or cell.startswith("www.") for cell in filled),
        codes=_share(map(_is_code, filled)),
        texts=_share(map(_is_text, filled)),
    )


def _share(tests: Iterable[bool]) -> float:
    """How many of some tests are met, from 0 to 1; 0 for none."""
    done = list(tests)
    return sum(done) / len(done) if done else 0.0


def _is_code(cell: str) -> bool:
    """Whether a cell looks like an order number: one word of letters and figures, or many figures."""
    figures = sum(map(str.isdecimal, cell))
    if " " in cell or "_" in cell or not figures:
        return False
    return (len(cell) >= 4 and figures >= 2) or ("-" in cell and cell.isupper())


def _is_text(cell: str) -> bool:
    """Whether a cell has a word of three letters."""
    return any(piece.isalpha() and len(piece) > 2 for piece in pieces(cell))


def _rank(found: tuple[tuple[str, ...], str], looks: _Looks) -> tuple[int, float]:
    """Columns whose head and cells agree go first, those without a known head last."""
    roles, _ = found
    if not roles:
        return 2, -looks.refs
    likely = {"ref": looks.refs, "quantity": looks.counts, "line": looks.runs}.get(roles[0], looks.texts)
    return (0 if likely >= _MOST else 1), -likely


def _settled(roles: Sequence[str], looks: _Looks, taken: set[str], *, has_heads: bool) -> tuple[str, str]:
    """What a column is by what its head may mean and its cells hold, and by which of both."""
    likely = roles[0] if roles else ""
    if looks.filled == 0:
        return likely, "head"
    if "ref" not in taken and looks.refs >= _MOST and _may_be_refs(likely, looks):
        return "ref", "head" if likely == "ref" else "cells"
    if likely in ("ref", "line"):
        return _no_refs(likely, looks, taken)
    held = _held(likely, looks)
    if held is not None:
        return held, "cells"
    return (likely, "head") if likely else (_by_cells(looks, taken, has_heads=has_heads), "cells")


def _held(likely: str, looks: _Looks) -> str | None:
    """What a column is whose cells contradict its head; None where they do not."""
    if likely == "quantity" and looks.counts < _MOST <= looks.texts:
        return "description"
    if likely == "part" and looks.codes >= _MOST > looks.texts:
        return "number"
    if likely in WORDS and looks.links >= _MOST:
        return "link"
    return "line" if likely in WORDS and min(looks.runs, looks.counts) >= _MOST else None


def _by_cells(looks: _Looks, taken: set[str], *, has_heads: bool) -> str:
    """What a column without a known head is by its cells alone; '' for nothing that is used."""
    if looks.links >= _MOST:
        return "link"
    if has_heads:
        return ""
    if looks.runs >= _MOST and "line" not in taken:
        return "line"
    if looks.counts >= 0.9:
        return "quantity"
    return "description" if looks.texts >= 0.3 else ""


def _may_be_refs(likely: str, looks: _Looks) -> bool:
    """Whether cells that look like refs are refs: TL072 and LM358 look so too."""
    return likely in ("ref", "line") or (likely in ("", "description", "part", "value") and looks.refs >= 0.9)


def _no_refs(likely: str, looks: _Looks, taken: set[str]) -> tuple[str, str]:
    """What a column is whose head is that of references or line numbers, and whose cells are no references."""
    if looks.runs >= _MOST:
        return "line", "head" if likely == "line" else "cells"
    if looks.counts >= 0.9:
        return ("line", "head") if likely == "line" and "quantity" in taken else ("quantity", "cells")
    if likely == "ref" and looks.refs >= 0.3:
        return "ref", "head"
    if looks.codes >= _MOST and looks.texts < _MOST:
        return "number", "cells"
    return ("description" if looks.texts >= 0.3 else ""), "cells"


def _completed(found: Sequence[Column], looks: Sequence[_Looks]) -> tuple[Column, ...]:
    """The same, with a column of words where none is: that whose head says so, else the one with most words."""
    if any(column.role in WORDS for column in found):
        return tuple(found)
    for column in found:
        roles = _by_head(column.head)[0]
        if roles and roles[0] in WORDS:
            return _with(found, replace(column, role=roles[0]))
    wordy = [column for column in found if not column.role and looks[column.at].texts >= 0.3]
    if not wordy:
        return tuple(found)
    best = max(wordy, key=lambda column: (looks[column.at].texts, looks[column.at].filled))
    return _with(found, replace(best, role="description", by="cells"))


def _remarked(found: Sequence[Column]) -> tuple[Column, ...]:
    """The same, where nothing is of a board with its comments as remarks: only there they are values."""
    if any(column.role in ("ref", "footprint") for column in found):
        return tuple(found)
    return tuple(
        replace(column, role="notes") if column.role == "value" and "notes" in _by_head(column.head)[0] else column
        for column in found
    )


def _naming(found: Sequence[Column], looks: Sequence[_Looks], below: Sequence[Row]) -> tuple[Column, ...]:
    """The same, with a column that names parts under a head that nobody knows, where the others name few."""

    def share(column: Column) -> float:
        return share_of_parts([row.cell(column.at) for row in below])

    unknown = [column for column in found if not column.role and looks[column.at].texts >= _MOST]
    if not unknown:
        return tuple(found)
    best = max(unknown, key=share)
    named = max((share(column) for column in found if column.role in WORDS), default=0.0)
    if share(best) < max(NAMES_PARTS, 2 * named):
        return tuple(found)
    return _with(found, replace(best, role="description", by="cells"))


def share_of_parts(cells: Sequence[str]) -> float:
    """How many of some cells name a part of a panel, from 0 to 1."""
    return _share(read(cell).certainty >= 1.0 for cell in cells if cell)


NAMES_PARTS: Final = 0.5
"""The share of rows in which a column names parts, from which it does."""


def _counted(found: Sequence[Column], looks: Sequence[_Looks], below: Sequence[Row]) -> tuple[Column, ...]:
    """The same, with a quantity where none is and there are no refs to count: the one column of whole numbers.

    Of two, one of which has so many times what the other has, it is that for one set.
    A third of them are ones, as those of parts of a panel are; voltages, sizes and grades are not.
    """
    if any(column.role == "quantity" or (column.role == "ref" and looks[column.at].refs >= _MOST) for column in found):
        return tuple(found)
    whole = _whole(found, looks)
    if len(whole) == 2:
        whole = [one for one, other in (whole, whole[::-1]) if _is_of_one_set(one, other, below)]
    if len(whole) != 1 or looks[whole[0].at].singles < _SINGLES:
        return tuple(found)
    return _with(found, replace(whole[0], role="quantity", by="cells"))


def _whole(found: Sequence[Column], looks: Sequence[_Looks]) -> list[Column]:
    """The columns without a known head that hold whole numbers, and do not just count on."""
    unknown = (column for column in found if not column.role)
    return [one for one in unknown if min(looks[one.at].counts, 1.0 - looks[one.at].runs) >= _MOST]


def _is_of_one_set(one: Column, other: Column, below: Sequence[Row]) -> bool:
    """Whether a column counts what another counts for several sets: 2 and 36, 1 and 18."""
    pairs = [(counted(row.cell(one.at)), counted(row.cell(other.at))) for row in below]
    both = [(first, second) for first, second in pairs if first and second]
    times = {second / first for first, second in both}
    return len(both) > 1 and len(times) == 1 and min(times) > 1


def _with(found: Sequence[Column], column: Column) -> tuple[Column, ...]:
    return tuple(column if one.at == column.at else one for one in found)


def is_yes(cell: str) -> bool:
    """Whether a cell says yes."""
    return folded(cell.strip()) in words().yes
