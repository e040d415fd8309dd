"""A component list read: rows to lines with refs, parts and what is wanted of them; every doubt told with its place.

Nothing is guessed in silence and nothing is lost: every row ends in the account. What was read loosely is a remark;
what could not be known is a question, and its line stays in the list as one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Final

from msgspec import field
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.catalogue import knob_names
from panelart.catalogue.absent import absent
from panelart.catalogue.colours import not_sold_in, sold_in
from panelart.catalogue.search import is_on_board, kinds_of
from panelart.catalogue.vocabulary import known_words, pieces
from panelart.diagnostics import Problem, SpecError, Where
from panelart.lists.account import Account, Ended, Fate
from panelart.lists.amounts import counted, counted_first
from panelart.lists.answered import MEASURE, NOT_ON_PANEL
from panelart.lists.answers import NONE, Answers
from panelart.lists.columns import NAMES_PARTS, ROLES, WORDS, Column, Columns, is_yes, known_heads, share_of_parts
from panelart.lists.dashes import DASHES, LegendCell, divided
from panelart.lists.denied import affirmed
from panelart.lists.footprints import Mount, in_words, meant, mount
from panelart.lists.listed import ComponentList, Item, Remark, Weight
from panelart.lists.matching import Candidate, Match, Matcher
from panelart.lists.refs import MAX_REFS, are_refs, compact, continued, expand
from panelart.lists.rows import Block, RowKind, Sorted, blocks
from panelart.lists.sheets import joined
from panelart.lists.spoken import read
from panelart.lists.tables import Row, Table, read_tables
from panelart.lists.triage import Said as RowSaid
from panelart.lists.triage import is_of_board, no_part
from panelart.lists.unexplained import unexplained, unread
from panelart.lists.wishes import knob_wish, known_side, legends, order, positions, scale, side
from panelart.lists.words import holds, words
from panelart.messages import Message, Said
from panelart.messages import component_lists as said
from panelart.messages import component_lists_account as told
from panelart.messages import component_lists_answers as asking
from panelart.messages.errors import said_by
from panelart.model.component import Component

MAX_PARTS: Final = 1000
"""The most parts of one list, quantities counted."""

_SAMPLES: Final = 3
"""Rows of parts by which the columns are shown."""


def read_list(
    data: bytes,
    file: str,
    matcher: Matcher | None = None,
    asked: Mapping[str, str] | None = None,
    answers: Answers = NONE,
) -> ComponentList:
    """Read a component list, of several sheets the one with most parts.

    `asked` are columns by what they are, as ``columns`` has them; `answers` go before all words. Raises SpecError when
    it is no table, or no column says what parts are.
    """
    tables = read_tables(data, file, known_heads)
    read_in = [_read(table, matcher or Matcher(), asked or {}, answers) for table in tables]
    lists = [one for one in read_in if one is not None]
    if not lists:
        raise SpecError([_without_columns(tables[0])])
    _require(asked or {}, lists)
    return joined(lists, [table.sheet for table in tables])


def _require(asked: Mapping[str, str], lists: Sequence[ComponentList]) -> None:
    """Nothing where some sheet has each column that is asked for. Raises SpecError."""
    found = {column.role for one in lists for column in one.columns.columns if column.by == "asked"}
    missing = [_not_found(role, which, lists[0]) for role, which in asked.items() if role not in found]
    if missing:
        raise SpecError(missing)


def _not_found(role: str, which: str, listed: ComponentList) -> Problem:
    """A column that was asked for, and that no sheet has."""
    heads = [column.head for column in listed.columns.columns if column.head]
    where = Where(listed.file, max(listed.columns.row, 1), 1)
    says = asking.column_not_found(role=role, column=which)
    return Problem(where=where, says=says, accepts=asking.columns_of_list(heads))


def _without_columns(table: Table) -> Problem:
    """Why a table is no list."""
    says = said.headers_missing_in_empty_table()
    if table.rows:
        says = said.headers_missing(row=", ".join(table.rows[0].cells[:6]))
    return Problem(where=Where(table.file, 1, 1), says=says, accepts=said.name_the_columns(headers=ROLES))


def _read(table: Table, matcher: Matcher, asked: Mapping[str, str], answers: Answers) -> ComponentList | None:
    """A sheet as a list; None for one whose columns do not say what parts are."""
    found = blocks(table.rows, asked, answers.columns)
    if not found or not any(found[0].columns.of(role) for role in WORDS):
        return None
    refs = {ref for block in found for one in block.rows for ref in _refs_or_none(block.columns.cell(one.row, "ref"))}
    reader = _Reader(
        table=table,
        matcher=matcher,
        answers=answers,
        of_board=_is_of_board(found),
        written=frozenset(refs),
        has_names=_has_names(found, matcher),
        times=_times(found),
    )
    for block in found:
        reader.begin(block)
        for row in block.rows:
            reader.line(block, row)
    return reader.done(found[0].columns)


def _said_of(columns: Columns, row: Row) -> list[str]:
    """What a row says of its part but for its footprint, the most telling column first."""
    return [text for role in WORDS[:-1] for column in columns.of(role) if (text := row.cell(column.at))]


_FUNCTIONS: Final = 0.75
"""How often a column of words names parts, beside the one that does so most, below which it says what they are for."""


def _named_last(block: Block) -> frozenset[int]:
    """Columns of words that say what parts are for, where another says what they are: water pump, round rocker."""
    at = [column.at for role in WORDS[:-2] for column in block.columns.of(role)]
    if len(at) < 2 or block.columns.of("footprint"):
        return frozenset()
    rows = [one.row for one in block.rows if one.kind is RowKind.PART]
    shares = {one: share_of_parts([row.cell(one) for row in rows]) for one in at}
    best = max(shares.values())
    return frozenset(one for one in at if shares[one] < _FUNCTIONS * best) if best >= NAMES_PARTS else frozenset()


def _in_order(found: list[str], uses: list[str]) -> list[str]:
    """What a row says, what its part is for last where the rest names the part."""
    named_without = not uses or read(" ; ".join(found)).certainty >= 1.0
    return [*found, *uses] if named_without else [*uses, *found]


def _is_of_board(found: Sequence[Block]) -> bool:
    parts = [(block.columns, one.row) for block in found for one in block.rows if one.kind is RowKind.PART]
    footprints = [columns.cell(row, "footprint") for columns, row in parts]
    return is_of_board(
        [one for one in footprints if one], [_refs_or_none(columns.cell(row, "ref")) for columns, row in parts]
    )


def _has_names(found: Sequence[Block], matcher: Matcher) -> bool:
    """Whether a column of parts holds names of the catalogue and nothing else, as a bill of materials does."""
    parts = ((block.columns, one.row) for block in found for one in block.rows if one.kind is RowKind.PART)
    cells = [cell for columns, row in parts if (cell := columns.cell(row, "part"))]
    knobs = knob_names()
    return bool(cells) and all(cell in knobs or matcher.exact(cell, literally=True) for cell in cells)


_FEW_ROWS: Final = 3
"""Rows from which quantities that are all the same multiple of the refs are for several sets, and no mistakes."""


def _times(found: Sequence[Block]) -> int:
    """How many sets the quantities are for: 5 where every row, some of several refs, has five for each of its refs."""
    pairs = [pair for block in found for pair in _refs_and_quantities(block)]
    if len(pairs) < _FEW_ROWS or all(number == 1 for number, _ in pairs):
        return 1
    number, count = pairs[0]
    times = max(count // number, 1)
    return times if all(count == times * number for number, count in pairs) else 1


def _refs_and_quantities(block: Block) -> Iterator[tuple[int, int]]:
    """How many refs a row has and its quantity, where it has both."""
    for row in (one.row for one in block.rows if one.kind is RowKind.PART):
        refs, count = _refs_or_none(block.columns.cell(row, "ref")), counted(block.columns.cell(row, "quantity"))
        if refs and count:
            yield len(refs), count


def _refs_or_none(text: str) -> list[str]:
    try:
        return expand(text)
    except ValueError:
        return []


class _Reader(Struct):
    table: Table
    matcher: Matcher
    answers: Answers
    of_board: bool
    written: frozenset[str]
    has_names: bool
    times: int
    items: list[Item] = field(default_factory=list)
    remarks: list[Remark] = field(default_factory=list)
    ended: list[Ended] = field(default_factory=list)
    taken: dict[str, int] = field(default_factory=dict)
    columns: Columns = field(default_factory=lambda: Columns(row=0, columns=()))
    row: Row = field(default_factory=lambda: Row(number=0, cells=()))
    section: str = ""
    block: int = 0
    sections: dict[int, tuple[int, str]] = field(default_factory=dict)
    cells: dict[int, tuple[str, ...]] = field(default_factory=dict)
    samples: list[Row] = field(default_factory=list)
    signs: dict[int, frozenset[int]] = field(default_factory=dict)
    named: frozenset[int] = frozenset()
    texts: list[str] = field(default_factory=list)

    def done(self, columns: Columns) -> ComponentList:
        """The list as read."""
        if self.times > 1:
            self._told(Weight.NOTE, "quantity", said.quantities_for_several(times=self.times), max(columns.row, 1))
        self.items = _with_refs(self.items, {*self.taken, *self.written}, self._told)
        return ComponentList(
            file=self.table.file,
            sheet=self.table.sheet,
            form=self.table.form,
            columns=columns,
            samples=tuple(self.samples),
            account=Account(rows=tuple(self.ended)),
            others=(),
            items=tuple(self.items),
            remarks=tuple(self.remarks),
        )

    def begin(self, block: Block) -> None:
        """Take in how a block of rows means the dashes in its columns of legends."""
        self.columns, self.signs = block.columns, {}
        self.named = _named_last(block)
        rows = [one.row for one in block.rows if one.kind is RowKind.PART]
        for column in block.columns.of("legend"):
            cells = [
                LegendCell(row=row.number, text=row.cell(column.at), part=" ".join(_said_of(block.columns, row)))
                for row in rows
            ]
            for are_legends, where in divided(cells):
                self._told(
                    Weight.NOTE, "legend", (said.dashes_signs if are_legends else said.dashes_none)(where), where[0]
                )
                if are_legends:
                    self.signs[column.at] = frozenset(where)

    def line(self, block: Block, sorted_row: Sorted) -> None:
        """Take in one row."""
        self.row, self.columns, self.section = sorted_row.row, block.columns, sorted_row.section
        self.block = block.number
        self.sections[self.row.number], self.cells[self.row.number] = (block.number, self.section), self.row.cells
        if not any(self.row.cells):
            return  # the second row of two of heads
        if sorted_row.kind is not RowKind.PART:
            self._end(Fate.NO_PART, kind=sorted_row.kind.value)
            return
        if len(self.samples) < _SAMPLES and block.number == 0:
            self.samples.append(self.row)
        self.texts = self._found_texts()
        refs = self._refs()
        if self._is_left_out(refs):
            return
        answer = self.answers.of([*self.texts, self._cell("footprint")], self._cell("number"))
        if answer == NOT_ON_PANEL:
            self._end(Fate.ASIDE, kind=str(told.answered_none()), why=told.answered())
            return
        row = self._said(refs)
        if answer is not None:
            if answer == MEASURE:
                self._measured(row)
            else:
                self._part(row, self.matcher.exact(answer))
            return
        aside = no_part(row, of_board=self.of_board)
        exact = self._exact()
        if aside is not None and exact is None:
            fate = Fate.BOARD if aside.on_board else Fate.ASIDE
            self._end(fate, kind=aside.kind.title, why=told.by_words(aside.by))
            self.taken.update(dict.fromkeys(refs, self.row.number))
            return
        self._part(row, exact)

    def _said(self, refs: Sequence[str]) -> RowSaid:
        texts, footprint = [affirmed(text) for text in self.texts], self._cell("footprint")
        read_as = read(self._all_words())
        shape = " ".join((in_words(footprint), *meant((footprint,))))
        return RowSaid(
            texts=tuple(texts),
            # 'front' says where a part is, and no part by the name of plug-front
            notes="" if known_side(self._cell("notes")) else self._cell("notes"),
            places=(self._cell("notes"), self._cell("group")),
            footprint=footprint,
            refs=tuple(refs),
            mount=mount(texts, footprint),
            read=read_as,
            shape=read(shape) if footprint else read_as,
        )

    def _is_left_out(self, refs: Sequence[str]) -> bool:
        """Whether a row is of no part that is fitted, or of one that a row before has; told where it is."""
        if not any(self.texts) and not self._cell("footprint") and not refs:
            self._end(Fate.REFUSED, why=told.no_words())
        elif mark := self._unfitted():
            self._end(Fate.UNFITTED, why=told.says_unfitted(mark))
        elif refs and all(ref in self.taken for ref in refs):
            self._again(refs)
        else:
            return False
        return True

    def _again(self, refs: Sequence[str]) -> None:
        """End a row whose refs a row before has: said once more in another section, or twice with unlike words."""
        first = self.taken[refs[0]]
        if self.sections.get(first) != (self.block, self.section) or self.cells.get(first) == self.row.cells:
            self._end(Fate.REPEATED, why=told.repeats_row(first))
            return
        for ref in dict.fromkeys(refs):
            self._ask("ref", said.ref_repeated(ref=ref))
        self._end(Fate.REFUSED, why=told.repeats_row(first))

    def _unfitted(self) -> str:
        """What says that a row is not fitted; '' for one that is."""
        mark = self._cell("unfitted")
        if mark and (is_yes(mark) or holds(mark, words().unfitted)):
            return mark
        if (text := self._cell("fitted")) and _says_not_fitted(text):
            return text
        if self._cell("quantity") and counted(self._cell("quantity")) == 0:
            return self._cell("quantity")
        texts = (*self.texts, self._cell("notes"), self._cell("quantity"))
        return next((text for text in texts if holds(text, words().unfitted)), "")

    def _part(self, row: RowSaid, exact: Match | None) -> None:
        """Take in a row of parts for the panel."""
        count = self._quantity(len(row.refs))
        if count is None:
            self._end(Fate.REFUSED, why=told.quantity_below_zero(self._cell("quantity")))
            return
        new = self._new(self._spread([*row.refs], count))
        match = exact or self._match(row)
        fate = Fate.ASKED if match.name is None else Fate.TAKEN
        self._end(fate, kind=", ".join(row.read.kinds), parts=len(new) or count)
        self._add(match, new, count)

    def _measured(self, row: RowSaid) -> None:
        """Take in a row of parts that are none of the catalogue's; room is kept for the likeliest of these."""
        count = self._quantity(len(row.refs)) or 1
        new = self._new(self._spread([*row.refs], count))
        before = len(self.items)
        self._add(replace(self._matched(self._all_words(), row), name=None), new, count)
        self.items[before:] = [replace(one, to_measure=True, why="") for one in self.items[before:]]
        self._end(Fate.TO_MEASURE, kind=", ".join(row.read.kinds), why=told.answered(), parts=len(new) or count)

    def _end(self, fate: Fate, *, kind: str = "", why: Said = "", parts: int = 0) -> None:
        text = " ".join(dict.fromkeys(cell for cell in self.row.cells if cell))
        self.ended.append(Ended(row=self.row.number, fate=fate, words=text, kind=kind, why=why, parts=parts))

    # --- cells

    def _cell(self, role: str) -> str:
        return self.columns.cell(self.row, role)

    def _found_texts(self) -> list[str]:
        """What a row says of its part but for its footprint, the most telling column first.

        Where nothing in it names a part, the section that it stands in may: 16 mm, pins on the board, below Pots.
        """
        found = [text for role in WORDS[:-1] for column in self.columns.of(role) if (text := self._text(column))]
        uses = [text for at in sorted(self.named) if (text := self.row.cell(at))]
        found = _in_order(found, uses)
        if not self.section or self._cell("footprint") or not found or read(" ; ".join(found)).certainty >= 1.0:
            return found
        with_section = " ".join((self.section, *found))
        return [with_section] if read(with_section).certainty >= 1.0 else found

    def _text(self, column: Column) -> str:
        return "" if column.at in self.named else self.row.cell(column.at)

    def _all_words(self) -> str:
        """All words that a row has for its part, and those that its footprint and numbers mean."""
        texts = [affirmed(text) for text in self.texts]
        footprint = self._cell("footprint")
        said = (*texts, in_words(footprint), *meant((*texts, footprint)))
        return " ; ".join(text for text in dict.fromkeys(said) if text)

    def _told(self, weight: Weight, role: str, message: Said, row: int | None = None) -> None:
        head = next((column.head for column in self.columns.of(role)), "")
        number = self.row.number if row is None else row
        self.remarks.append(Remark(weight=weight, file=self.table.file, row=number, column=head, message=message))

    def _note(self, role: str, message: Said) -> None:
        self._told(Weight.NOTE, role, message)

    def _ask(self, role: str, message: Said) -> None:
        self._told(Weight.QUESTION, role, message)

    # --- refs and quantities

    def _refs(self) -> list[str]:
        """The refs of a row; in a section that lists parts once more they may stand among the line numbers."""
        text = self._cell("ref")
        if not text and are_refs(self._cell("line")):
            text = self._cell("line")
        try:
            return expand(text)
        except ValueError as error:
            self._ask("ref", said_by(error))
            return []

    def _quantity(self, refs: int) -> int | None:
        """How many parts a row is of; None for fewer than none."""
        text = self._cell("quantity")
        if not text:
            return refs or self._counted_first()
        count = counted(text)
        if count is None:
            if text.lstrip().startswith(("-", "−")):
                return None
            self._ask("quantity", said.quantity_not_a_number(text=text, count=max(refs, 1)))
            return max(refs, 1)
        if refs and count == refs * self.times:
            return refs
        if count > MAX_REFS:
            assumed = max(refs, 1)
            self._ask("quantity", said.quantity_too_large(quantity=count, maximum=MAX_REFS, assumed=assumed))
            return assumed
        if refs > 1 and count != refs:
            # A ref is a place in the circuit, a quantity may count spares: a part too few is seen, one too many is cut.
            self._ask("quantity", said.quantity_contradicts_refs(quantity=count, refs=compact(self._refs())))
            return refs
        return count

    def _counted_first(self) -> int:
        """How many a row without a quantity says before what the part is: three more, a pair of."""
        named = read(self._all_words()).named
        return next((count for text in self.texts if (count := counted_first(text, named))), 1)

    def _spread(self, refs: list[str], count: int) -> list[str]:
        if len(refs) == 1 and count > 1:
            spread = continued(refs[0], count, {*self.taken, *(self.written - {refs[0]})})
            self._note("ref", said.refs_by_quantity(ref=refs[0], quantity=count, refs=compact(spread)))
            return spread
        return refs

    def _new(self, refs: list[str]) -> list[str]:
        """The refs that are not on the list yet."""
        for ref in dict.fromkeys(ref for ref in refs if ref in self.taken or refs.count(ref) > 1):
            self._ask("ref", said.ref_repeated(ref=ref))
        new = [ref for ref in dict.fromkeys(refs) if ref not in self.taken]
        self.taken.update(dict.fromkeys(new, self.row.number))
        return new

    # --- the part

    def _exact(self) -> Match | None:
        """The part that a cell names by its name in the catalogue."""
        if self.has_names and (named := self.matcher.exact(self._cell("part"), literally=True)) is not None:
            return named
        roles = (*WORDS[:-1], "number")
        cells = [cell for role in roles for column in self.columns.of(role) if (cell := self.row.cell(column.at))]
        alone = len(cells) == 1 and not self._cell("footprint")
        exact = (self.matcher.exact(cell, literally=not alone) for cell in cells if alone or "-" in cell)
        return next((match for match in exact if match is not None), None)

    def _match(self, row: RowSaid) -> Match:
        text = self._all_words()
        if not text:
            self._ask("part", said.part_missing(refs=row.refs))
            return Match(name=None, confidence=0.0, candidates=())
        match = self._matched(text, row)
        role = next(role for role in WORDS if self._cell(role))
        if match.name is None:
            self._ask(role, _uncertain(self._cell(role), match.candidates))
        else:
            self._note(role, said.part_matched(words=self._cell(role), part=match.candidates[0]))
            self._tell_colours(role, text, self.matcher.component(match.name))
        return match

    def _matched(self, text: str, row: RowSaid) -> Match:
        """The part that a row means; none where it says more than that part is."""
        families = [kind for means in meant((*row.texts, row.footprint)) for kind in read(means).kinds]
        kinds = frozenset(families or (row.read.kinds if row.read.certainty >= 1.0 else ()))
        match = self.matcher.match(f"{text} ; {row.notes}", row.mount, kinds)
        if not match.candidates and kinds and row.read.stated.sizes:
            # a counter, a timer, a thermostat with the bezel of a panel meter (IEC 61554) has its opening
            return replace(self.matcher.match(text, row.mount, _WITH_BEZEL), name=None)
        return match if match.name is None else self._held(match, text, row, kinds, by_family=bool(families))

    def _held(self, match: Match, text: str, row: RowSaid, kinds: frozenset[str], *, by_family: bool) -> Match:
        """A match held against all that the row says: asked about where that is more than its part is."""
        assert match.name is not None
        part = self.matcher.component(match.name)
        left = (*unexplained(row.texts, part), *unread(self._unread(), part))
        if left:
            return _asked_for(match, left)
        others = not by_family and _names_others(row.texts, kinds)
        return replace(match, name=None) if others or self._is_another(match.name, text, row, kinds) else match

    def _unread(self) -> list[str]:
        """The cells of columns that nobody knows."""
        return [text for column in self.columns.of("") if (text := self.row.cell(column.at))]

    def _is_another(self, name: str, text: str, row: RowSaid, kinds: frozenset[str]) -> bool:
        """Whether a part is none of a panel's rows, is named by a remark alone, or is fixed otherwise than is said."""
        of_inside = words().inside.issuperset(kinds_of(self.matcher.component(name)))
        return of_inside or _is_named_in_notes(text, row, kinds) or self._is_absent_form(name, row, kinds)

    def _is_absent_form(self, name: str, row: RowSaid, kinds: frozenset[str]) -> bool:
        """Whether a part at the edge of a board is asked for, and the catalogue has it on panels only.

        Where its opening is not that of a standard's face, nor held by a thread that is said, that is another hole.
        """
        if row.mount is not Mount.EDGE or kinds <= words().faces:
            return False
        return not row.read.stated.threads and not is_on_board(self.matcher.component(name))

    def _tell_colours(self, role: str, text: str, part: Component) -> None:
        colours = not_sold_in(text, part)
        if colours:
            self._note(role, said.not_sold_in(part=part.name, asked=colours, sold=sold_in(part)))

    def _add(self, match: Match, refs: list[str], count: int) -> None:
        named: list[str | None] = [*refs] if refs else [None] * count
        found = self._legend_columns()
        guess = "" if found else self._guessed_legend()
        base = self._item(match, guessed=bool(guess))
        first = legends(self._legend(found[0]) if found else guess, len(named), self._note)
        spoken = {one.language: legends(self._legend(one), len(named), self._note) for one in found[1:]}
        for at, ref in enumerate(named):
            also = tuple((code, texts[at]) for code, texts in spoken.items() if texts[at] and code)
            self.items.append(replace(base, ref=ref or "", legend=first[at], legends=also))
        if len(self.items) > MAX_PARTS:
            where = Where(self.table.file, self.row.number, 1)
            says = said.too_many_parts(maximum=MAX_PARTS)
            raise SpecError([Problem(where=where, says=says, accepts=said.divide_the_list())])

    def _item(self, match: Match, *, guessed: bool) -> Item:
        """What a row says of each of its parts."""
        part = None if match.name is None else self.matcher.component(match.name)
        texts = [text for text in (*self.texts, self._cell("footprint")) if text]
        return Item(
            ref="",
            row=self.row.number,
            words=next(iter(texts), ""),
            component=match.name,
            candidates=match.candidates,
            texts=tuple(texts),
            why="" if part is not None else _why(self._all_words(), match.candidates),
            number=self._cell("number"),
            group=self._cell("group") or self.section,
            side=side(self._cell("side"), self._ask),
            order=order(self._cell("order"), self._ask),
            knob=knob_wish(self._cell("knob"), part, self._ask, self._note),
            positions=positions(self._cell("positions"), part, self._ask),
            scale=scale(self._cell("scale"), part, self._ask),
            guessed=guessed,
            notes=self._cell("notes"),
        )

    def _guessed_legend(self) -> str:
        """A legend among the words of a row of a board, whose footprint says what the part is; '' for none.

        Short words that name no part, no colour and no value: TUNE, OUT L, RANGE 1.
        """
        if not self.of_board or not self._cell("footprint"):
            return ""
        return next((text for text in self.texts if _may_be_legend(text)), "")

    def _legend(self, column: Column) -> str:
        """What a column of legends has; '' for a dash that stands for none."""
        text = self.row.cell(column.at)
        return "" if text in DASHES and self.row.number not in self.signs.get(column.at, ()) else text

    def _legend_columns(self) -> list[Column]:
        """The columns of legends: first that without a language, else the first of all, then those of languages."""
        found = self.columns.of("legend")
        plain = [column for column in found if not column.language]
        main = (plain or list(found))[:1]
        return [*main, *(column for column in found if column not in main and column.language)]


def _asked_for(match: Match, left: Sequence[str]) -> Match:
    """A match that is asked about, for what its best part does not explain."""
    best, *rest = match.candidates
    best = replace(best, differs=tuple(dict.fromkeys((*best.differs, *left))))
    return replace(match, name=None, candidates=(best, *rest))


def _says_not_fitted(text: str) -> bool:
    """Whether a cell of the column of what is fitted says that a part is not."""
    return holds(text, words().unfitted) or (not is_yes(text) and counted(text) in (None, 0))


def _names_others(texts: Sequence[str], kinds: frozenset[str]) -> bool:
    """Whether a clause of the words plainly names another kind: 'panel socket 4 mm, binding post'."""
    clauses = (read(clause) for text in texts for clause in text.split(","))
    return any(
        one.certainty >= 2.0 and kinds.isdisjoint(one.kinds) and sum(map(str.isalpha, one.named)) > 1 for one in clauses
    )


def _is_named_in_notes(text: str, row: RowSaid, kinds: frozenset[str]) -> bool:
    """Whether the remark of a row alone names a kind."""
    return not kinds and row.read.kinds != read(f"{text} ; {row.notes}").kinds


_WITH_BEZEL: Final = frozenset({"panel-meter"})


def _may_be_legend(text: str) -> bool:
    """Whether a text is short, in capitals or beginning with them, and names no part, no value, no colour."""
    said = pieces(text)
    spoken = [piece for piece in said if piece.isalpha()]
    if len(text) > _LONGEST_LEGEND or not any(len(piece) > 1 for piece in spoken):
        return False
    in_capitals = not any(word[:1].islower() for word in text.split())
    return in_capitals and all(piece.isalpha() or len(piece) == 1 for piece in said) and all(map(_is_signal, spoken))


def _is_signal(word: str) -> bool:
    """Whether a word may be the name of a signal or a function: no part, no colour, no short form of these."""
    return word in _SIGNALS or (word not in known_words() and word not in _NO_LEGENDS)


_LONGEST_LEGEND: Final = 16
_NO_LEGENDS: Final = frozenset({"sw", "conn", "ec", "dcj", "btn", "pot", "enc", "batt"})
_SIGNALS: Final = frozenset({"in", "out", "on", "off", "up", "down", "start", "stop", "reset"})


def _why(text: str, candidates: Sequence[Candidate]) -> Said:
    """What more is to be said of a question: why the catalogue has no such part."""
    left_out = absent(text)
    if left_out:
        one = left_out[0]
        return asking.absent_because(title=one.title, why=one.why, instead=one.instead)
    return "" if candidates else asking.not_in_catalogue()


def _uncertain(words: str, candidates: Sequence[Candidate]) -> Message:
    if not candidates:
        return said.part_unknown(words=words)
    return said.part_uncertain(words=words, candidates=[one.name for one in candidates])


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
        # an answer is mostly the likeliest part or one of its kind: the ref, and its place in a draft, stay the same
        likeliest = next((one.name for one in item.candidates), None)
        letter = letter_of(item.component or likeliest, file_of)
        number = 1
        while f"{letter}{number}" in taken:
            number += 1
        ref = f"{letter}{number}"
        taken.add(ref)
        given.setdefault(item.row, []).append(ref)
        done.append(replace(item, ref=ref, referenced=False))
    for row, refs in given.items():
        says = said.ref_assigned(ref=refs[0])
        if len(refs) > 1:
            says = said.refs_assigned(first=refs[0], last=refs[-1])
        told(Weight.NOTE, "ref", says, row)
    return done
