"""A component list read: rows to lines with refs, parts and what is wanted of them; every doubt told with its place.

Nothing is guessed in silence. What was read loosely is a remark; what could not be known is a question, and its line
stays in the list as one.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from enum import Enum
from typing import Final

from msgspec import field
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.catalogue import knob, knob_names
from panelart.catalogue.search import read
from panelart.catalogue.vocabulary import pieces
from panelart.diagnostics import Problem, SpecError, Where, nearest
from panelart.lists.amounts import counted, ends, sides
from panelart.lists.headers import COLUMNS, Headers, headers, known_headers
from panelart.lists.matching import Candidate, Match, Matcher
from panelart.lists.refs import MAX_REFS, continued, expand
from panelart.lists.tables import Row, Table, read_table
from panelart.messages import Message, Said
from panelart.messages import component_lists as said
from panelart.messages.errors import said_by
from panelart.model.component import Component
from panelart.model.motion import MotionKind

MAX_PARTS: Final = 1000
"""The most parts of one list, quantities counted."""

KNOB_HEIGHT: Final = 16.0
"""The height taken for a knob that is given by its diameter alone, mm."""

_MAX_FIGURES: Final = 9

_OF_CIRCUIT: Final = frozenset({"C", "CP", "FB", "IC", "Q", "R", "U", "Y"})
"""Letter codes of parts that stay on the circuit board, in the manner of IEEE 315, recalled. Those that may be lamps,
controls or sockets (D, F, J, K, L, S) are asked about, but for diodes that are called so."""

MAX_SCALE: Final = 1e6
"""The largest value on a scale."""


class Weight(Enum):
    """How much a remark on a list matters."""

    NOTE = "note"  # how something was read
    QUESTION = "question"  # what could not be known: the designer must say

    @property
    def says(self) -> Message:
        """The same for people."""
        return said.note() if self is Weight.NOTE else said.question()


class Remark(Struct, frozen=True, kw_only=True):
    """What was read loosely or could not be known, and where: row as the table counts, the column by its header."""

    weight: Weight
    file: str
    row: int
    column: str
    message: Said

    @property
    def says(self) -> Message:
        """The remark with its place."""
        weight = self.weight.says
        if not self.column:
            return said.remark(file=self.file, row=self.row, weight=weight, message=self.message)
        return said.remark_in_column(
            file=self.file, row=self.row, column=self.column, weight=weight, message=self.message
        )

    def __str__(self) -> str:
        return str(self.says)


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


class Item(Struct, frozen=True, kw_only=True):
    """One part that the list asks for. `component` is None where its line is a question."""

    ref: str
    row: int
    words: str
    component: str | None
    candidates: tuple[Candidate, ...] = ()
    legend: str = ""
    group: str = ""
    side: str = "front"
    order: float | None = None
    knob: KnobWish | None = None
    positions: tuple[str, ...] = ()
    scale: ScaleWish | None = None
    notes: str = ""


class ComponentList(Struct, frozen=True, kw_only=True):
    """What a list says: how it was read, its items in order, its remarks."""

    file: str
    form: Said
    header: Headers
    items: tuple[Item, ...]
    remarks: tuple[Remark, ...]

    @property
    def known(self) -> tuple[Item, ...]:
        """The items whose part is known."""
        return tuple(item for item in self.items if item.component is not None)

    @property
    def questions(self) -> tuple[Item, ...]:
        """The items that the designer must say more about."""
        return tuple(item for item in self.items if item.component is None)


def read_list(data: bytes, file: str, matcher: Matcher | None = None) -> ComponentList:
    """Read a component list. Raises SpecError when it is no table or has no headers that are known."""
    table = read_table(data, file, known_headers)
    top = _header(table)
    reader = _Reader(table=table, header=top, matcher=matcher or Matcher())
    for row in table.rows:
        if row.number > top.row:
            reader.line(row)
    return reader.done()


def _header(table: Table) -> Headers:
    """The first of the rows near the top that has most known headers."""
    near_top = table.rows[:20]
    best = max(near_top, key=lambda row: (known_headers(row.cells), -row.number), default=None)
    found = None if best is None else headers(best.cells, best.number)
    if found is None or not {"ref", "part", "description"} & set(found.columns) or len(found.columns) < 2:
        says = said.headers_missing_in_empty_table()
        if table.rows:
            says = said.headers_missing(row=", ".join(table.rows[0].cells[:6]))
        hint = said.name_the_columns(headers=tuple(COLUMNS))
        raise SpecError([Problem(where=Where(table.file, 1, 1), says=says, accepts=hint)])
    return found


class _Reader(Struct):
    table: Table
    header: Headers
    matcher: Matcher
    items: list[Item] = field(default_factory=list)
    remarks: list[Remark] = field(default_factory=list)
    taken: set[str] = field(default_factory=set)
    rows: dict[tuple[str, ...], int] = field(default_factory=dict)
    of_circuit: list[str] = field(default_factory=list)
    row: Row = field(default_factory=lambda: Row(number=0, cells=()))

    def done(self) -> ComponentList:
        """The list as read."""
        self.items = _with_refs(self.items, self.taken, self._told)
        if self.of_circuit:
            letters = tuple(sorted(frozenset(self.of_circuit)))
            says = said.rows_of_circuit(letters=letters, count=len(self.of_circuit))
            self._told(Weight.NOTE, "", says, self.header.row)
        return ComponentList(
            file=self.table.file,
            form=self.table.form,
            header=self.header,
            items=tuple(self.items),
            remarks=tuple(self.remarks),
        )

    def line(self, row: Row) -> None:
        """Take in one row."""
        self.row = row
        if known_headers(row.cells) >= 2 and row.cells == self._header_cells():
            return  # the headers again, as at the top of a printed page
        self._tell_cells_beyond_headers(row)
        words = self._words()
        refs = self._refs()
        if not self._asks_for_part(row, words, refs):
            return
        count = self._quantity(len(refs))
        if count == 0:
            return
        new = self._new(self._spread(refs, count))
        if refs and not new:
            return
        self._add(words, self._match(words, new), new, count)

    def _asks_for_part(self, row: Row, words: str, refs: Sequence[str]) -> bool:
        """Whether a row is of parts for the panel that no row before it asks for; told where it is not."""
        if not words and not refs:
            text = ", ".join(cell for cell in row.cells if cell)
            self._note("", said.row_without_part(row=text))
            return False
        if self._seen_before(row):
            return False
        if refs and self._is_of_circuit(refs):
            self.of_circuit.append(_letters(refs[0]))
            return False
        return True

    def _is_of_circuit(self, refs: Sequence[str]) -> bool:
        """Whether a row is of parts that stay on the board: its refs say so, and no word names a kind of part."""
        texts = self._texts()
        return (
            bool(texts)
            and (_OF_CIRCUIT.issuperset(map(_letters, refs)) or any(map(_is_diode, texts.values())))
            and not any(read(text).kinds or self.matcher.match(text).name for text in texts.values())
        )

    def _tell_cells_beyond_headers(self, row: Row) -> None:
        beyond = [cell for cell in row.cells[len(self._header_cells()) :] if cell]
        if beyond:
            self._note("", said.cells_without_header(cells=", ".join(beyond)))

    def _seen_before(self, row: Row) -> bool:
        if not self._cell("ref"):
            return False  # two lines without ref are two parts
        first = self.rows.setdefault(row.cells, row.number)
        if first != row.number:
            self._note("", said.row_repeated(first=first))
        return first != row.number

    def _header_cells(self) -> tuple[str, ...]:
        return next(row.cells for row in self.table.rows if row.number == self.header.row)

    def _cell(self, column: str) -> str:
        number = self.header.columns.get(column)
        return self.row.cells[number] if number is not None and number < len(self.row.cells) else ""

    def _told(self, weight: Weight, column: str, message: Said, row: int | None = None) -> None:
        number = self.header.columns.get(column)
        header = self._header_cells()[number] if number is not None else ""
        self.remarks.append(
            Remark(
                weight=weight,
                file=self.table.file,
                row=self.row.number if row is None else row,
                column=header,
                message=message,
            )
        )

    def _note(self, column: str, message: Said) -> None:
        self._told(Weight.NOTE, column, message)

    def _ask(self, column: str, message: Said) -> None:
        self._told(Weight.QUESTION, column, message)

    def _texts(self) -> dict[str, str]:
        """What a row says of its part, by column; an order number only where it is a name of the catalogue."""
        number = self._cell("part")
        named = not self.header.part_numbers or self.matcher.match(number).exact
        texts = {"part": number if named else ""}
        texts |= {column: self._cell(column) for column in ("description", "footprint")}
        told = {column: text for column, text in texts.items() if text}
        return told or ({"part": number} if number else {})

    def _words(self) -> str:
        return next(iter(self._texts().values()), "")

    def _refs(self) -> list[str]:
        try:
            return expand(self._cell("ref"))
        except ValueError as error:
            self._ask("ref", said_by(error))
            return []

    def _quantity(self, refs: int) -> int:
        text = self._cell("quantity")
        if not text:
            return max(refs, 1)
        count = counted(text)
        if count is None:
            self._ask("quantity", said.quantity_not_a_number(text=text, count=max(refs, 1)))
            return max(refs, 1)
        if count == 0:
            self._note("quantity", said.quantity_zero())
            return 0
        if count > MAX_REFS:
            assumed = max(refs, 1)
            self._ask("quantity", said.quantity_too_large(quantity=count, maximum=MAX_REFS, assumed=assumed))
            return assumed
        if refs > 1 and count != refs:
            self._ask("quantity", said.quantity_contradicts_refs(refs=refs, quantity=count))
            return refs
        return count

    def _spread(self, refs: list[str], count: int) -> list[str]:
        if len(refs) == 1 and count > 1:
            spread = continued(refs[0], count, self.taken)
            self._note("ref", said.refs_by_quantity(ref=refs[0], count=count, first=spread[0], last=spread[-1]))
            return spread
        return refs

    def _new(self, refs: list[str]) -> list[str]:
        """The refs that are not on the list yet."""
        twice = [ref for ref in dict.fromkeys(refs) if ref in self.taken or refs.count(ref) > 1]
        for ref in twice:
            self._ask("ref", said.ref_repeated(ref=ref))
        new = [ref for ref in dict.fromkeys(refs) if ref not in self.taken]
        self.taken.update(new)
        return new

    def _match(self, words: str, refs: list[str]) -> Match:
        texts = self._texts()
        if not texts:
            self._ask("part", said.part_missing(refs=refs))
            return Match(name=None, confidence=0.0, candidates=())
        column, words, match = self._best(texts)
        if match.name is None:
            self._ask(column, _uncertain(words, match.candidates))
        elif not match.exact:
            self._note(column, _matched(words, match.candidates))
        return match

    def _best(self, texts: Mapping[str, str]) -> tuple[str, str, Match]:
        """The column whose text tells a part, alone or with the next ones; else that which comes nearest."""
        tried: list[tuple[str, str, Match]] = []
        columns = tuple(texts)
        for at, column in enumerate(columns):
            for end in range(at + 1, len(columns) + 1):
                words = " ".join(_of_board(texts[one]) if one == "footprint" else texts[one] for one in columns[at:end])
                match = self.matcher.match(words)
                if match.name is not None:
                    return column, texts[column], match
                tried.append((column, texts[column], match))
        return max(tried, key=lambda one: one[2].confidence)

    def _add(self, words: str, match: Match, refs: list[str], count: int) -> None:
        part = None if match.name is None else self.matcher.component(match.name)
        named: list[str | None] = [*refs] if refs else [None] * count
        legends = self._legends(len(named))
        base = Item(
            ref="",
            row=self.row.number,
            words=words,
            component=match.name,
            candidates=match.candidates,
            group=self._cell("group"),
            side=self._side(),
            order=self._order(),
            knob=self._knob(part),
            positions=self._positions(part),
            scale=self._scale(part),
            notes=self._cell("notes"),
        )
        for ref, legend in zip(named, legends, strict=True):
            self.items.append(replace(base, ref=ref or "", legend=legend))
        if len(self.items) > MAX_PARTS:
            where = Where(self.table.file, self.row.number, 1)
            says = said.too_many_parts(maximum=MAX_PARTS)
            raise SpecError([Problem(where=where, says=says, accepts=said.divide_the_list())])

    def _legends(self, count: int) -> list[str]:
        text = self._cell("legend")
        if text in ("-", "–", "none", "n/a"):
            return [""] * count
        if count == 1 or not text:
            return [text] * count
        for mark in ("|", ";", "/", ","):
            pieces = [piece.strip() for piece in text.split(mark)]
            if len(pieces) == count:
                return pieces
        if "{n}" in text:
            return [text.replace("{n}", str(number)) for number in range(1, count + 1)]
        numbered = [f"{text} {number}" for number in range(1, count + 1)]
        self._note("legend", said.legends_numbered(count=count, first=numbered[0], last=numbered[-1]))
        return numbered

    def _side(self) -> str:
        text = self._cell("side").casefold()
        if not text or text in ("front", "f", "face", "vorn", "vorne"):
            return "front"
        if text in ("rear", "r", "back", "b", "behind", "hinten"):
            return "rear"
        self._ask("side", said.side_unknown(text=text))
        return "front"

    def _order(self) -> float | None:
        text = self._cell("order").replace(",", ".")
        if not text:
            return None
        figures = text.removeprefix("-").split(".")
        if len(figures) <= 2 and all(each.isdecimal() and len(each) <= _MAX_FIGURES for each in figures):
            return float(text)
        self._ask("order", said.order_not_a_number(text=text))
        return None

    def _knob(self, part: Component | None) -> KnobWish | None:
        text = self._cell("knob")
        if not text or text in ("-", "none"):
            return None
        if part is not None and part.shaft is None:
            self._ask("knob", said.knob_without_shaft(part=part.name))
            return None
        if text in knob_names():
            return KnobWish(name=text, diameter=knob(text).diameter, height=knob(text).height)
        size, height = sides(text)
        if not 4.0 <= size <= 150.0:
            near = nearest(text, knob_names())
            self._ask("knob", said.knob_unknown_near(text=text, name=near) if near else said.knob_unknown(text=text))
            return None
        if height is None:
            self._note("knob", said.knob_height_missing(diameter=size, height=KNOB_HEIGHT))
        return KnobWish(diameter=size, height=KNOB_HEIGHT if height is None else height)

    def _positions(self, part: Component | None) -> tuple[str, ...]:
        text = self._cell("positions")
        if not text or text in ("-", "none"):
            return ()
        names = _position_names(text)
        if part is None:
            return names
        if part.motion.kind is MotionKind.TURN:
            return _numbered(int(text)) if len(names) < 2 and text.isdecimal() else names
        if not part.positions:
            self._ask("positions", said.positions_of_fixed_part(part=part.name))
            return ()
        if text.isdecimal() and int(text) == len(part.positions):
            return ()  # how many, not their names
        if len(names) != len(part.positions):
            says = said.positions_miscounted(names=len(names), part=part.name, positions=part.positions)
            self._ask("positions", says)
            return ()
        return names

    def _scale(self, part: Component | None) -> ScaleWish | None:
        text = self._cell("scale")
        if not text or text in ("-", "none"):
            return None
        span = ends(text)
        if span is None:
            self._ask("scale", said.scale_unreadable(text=text))
            return None
        low, high, unit = span
        if low >= high:
            self._ask("scale", said.scale_backwards(text=text))
            return None
        if max(abs(low), abs(high)) > MAX_SCALE:
            self._ask("scale", said.scale_too_large(text=text, maximum=MAX_SCALE))
            return None
        if part is not None and not (
            part.motion.kind in (MotionKind.TURN, MotionKind.SLIDE) and part.family != "key-switch"
        ):
            self._ask("scale", said.scale_of_fixed_part(part=part.name))
            return None
        return ScaleWish(low=low, high=high, unit=unit)


def _is_diode(text: str) -> bool:
    return any(piece in ("diode", "diodes", "dioden", "diodo", "diodi", "diodos") for piece in pieces(text))


def _of_board(footprint: str) -> str:
    """A footprint as words: it lies on a board, unless it says that the part is fixed to the panel."""
    return f"{footprint} pcb" if footprint and "panel" not in footprint.casefold() else footprint


def _letters(ref: str) -> str:
    """The letter code of a ref: R of R12."""
    return ref.rstrip("0123456789").upper()


_SCALED: Final = (MotionKind.TURN, MotionKind.SLIDE)


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


def _uncertain(words: str, candidates: Sequence[Candidate]) -> Message:
    if not candidates:
        return said.part_unknown(words=words)
    return said.part_uncertain(words=words, candidates=candidates)


def _matched(words: str, candidates: Sequence[Candidate]) -> Message:
    taken, *others = candidates
    if not others:
        return said.part_matched(words=words, part=taken)
    return said.part_matched_of_several(words=words, part=taken, others=others)


_LETTERS: Final[Mapping[str, str]] = {
    "toggles.yaml": "S", "rockers.yaml": "S", "faders.yaml": "RV", "pushbuttons.yaml": "S", "bushings.yaml": "RV",
    "indicators.yaml": "DS", "displays.yaml": "DS", "meters.yaml": "M", "mains.yaml": "J", "fuses.yaml": "F",
    "sockets.yaml": "J", "coax.yaml": "J", "audio.yaml": "J", "data.yaml": "J", "dsub.yaml": "J",
    "circular.yaml": "J", "air.yaml": "B", "caps.yaml": "S",
}  # fmt: skip
"""Letter codes for parts without ref, in the manner of IEEE 315, recalled; H for hardware."""


def letter_of(component: str | None, file_of: Callable[[str], str]) -> str:
    """The letter code of a part by the catalogue file it stands in: 'X' when it is not known."""
    if component is None:
        return "X"
    try:
        return _LETTERS.get(file_of(component), "H")
    except KeyError:
        return "X"


def _with_refs(items: Sequence[Item], taken: set[str], told: Callable[..., None]) -> list[Item]:
    """Items without ref get the next free one of their kind, once all refs of the list are known."""
    from panelart.catalogue.library import file_of

    done: list[Item] = []
    given: dict[int, list[str]] = {}
    for item in items:
        if item.ref:
            done.append(item)
            continue
        letter = letter_of(item.component, file_of)
        number = 1
        while f"{letter}{number}" in taken:
            number += 1
        ref = f"{letter}{number}"
        taken.add(ref)
        given.setdefault(item.row, []).append(ref)
        done.append(replace(item, ref=ref))
    for row, refs in given.items():
        says = said.ref_assigned(ref=refs[0])
        if len(refs) > 1:
            says = said.refs_assigned(first=refs[0], last=refs[-1])
        told(Weight.NOTE, "ref", says, row)
    return done
