"""Where every row of a list ended: taken, asked about, on the board, set aside, refused; the counts add up."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from enum import Enum

from panelart.canonical import Struct
from panelart.messages import Message, Said
from panelart.messages import component_lists_account as said


class Fate(Enum):
    """Where a row of a list ended."""

    TAKEN = "taken"
    ASKED = "asked"
    TO_MEASURE = "to-measure"
    BOARD = "board"
    ASIDE = "aside"
    UNFITTED = "unfitted"
    REPEATED = "repeated"
    REFUSED = "refused"
    NO_PART = "no-part"  # heads, sections, totals, remarks


class Ended(Struct, frozen=True, kw_only=True):
    """One row with its end. `kind` is what it is, in the plural ('resistors'), `why` what says so, `words` its own."""

    row: int
    fate: Fate
    sheet: str = ""
    words: str = ""
    kind: str = ""
    why: Said = ""
    parts: int = 0


class Account(Struct, frozen=True, kw_only=True):
    """All rows of a list that are not blank, in order."""

    rows: tuple[Ended, ...]

    def of(self, fate: Fate) -> tuple[Ended, ...]:
        """The rows that ended so."""
        return tuple(one for one in self.rows if one.fate is fate)

    def kinds(self, fate: Fate) -> tuple[tuple[str, int], ...]:
        """The kinds of the rows that ended so and how many of each, the most first."""
        return tuple(Counter(one.kind for one in self.of(fate)).most_common())

    @property
    def says(self) -> tuple[Message, ...]:
        """The account for people: how many rows ended how, what was left out by kind."""
        return tuple(self._says())

    def _says(self) -> Iterator[Message]:
        counts = []
        for fate, tell in (
            (Fate.TAKEN, said.rows_taken), (Fate.ASKED, said.rows_asked),
            (Fate.TO_MEASURE, said.rows_to_measure), (Fate.BOARD, said.rows_board),
            (Fate.ASIDE, said.rows_aside), (Fate.UNFITTED, said.rows_unfitted), (Fate.REPEATED, said.rows_repeated),
            (Fate.REFUSED, said.rows_refused), (Fate.NO_PART, said.rows_no_part),
        ):  # fmt: skip
            if rows := self.of(fate):
                counts.append(tell(len(rows)))
        yield said.rows(len(self.rows), counts)
        for fate, tell_kinds in ((Fate.BOARD, said.left_on_board), (Fate.ASIDE, said.set_aside)):
            if kinds := self.kinds(fate):
                yield tell_kinds([said.of_kind(kind, count) for kind, count in kinds])
