"""What a component list says: its items, how it was read, what was remarked, where every row ended."""

from __future__ import annotations

from enum import Enum

from panelart.canonical import Struct
from panelart.lists.account import Account
from panelart.lists.columns import Columns
from panelart.lists.matching import Candidate
from panelart.lists.tables import Row
from panelart.lists.wishes import KnobWish, ScaleWish
from panelart.messages import Message, Said
from panelart.messages import component_lists as said


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


class Item(Struct, frozen=True, kw_only=True):
    """One part that the list asks for. `component` is None where its line is a question.

    `referenced` says that the list gives its ref. `texts` are all words of its row, `number` its order number, `why`
    says more of a question, `to_measure` that it is answered: none of the catalogue. `guessed` says that its legend
    was found among its words, `legends` are those in other languages by their codes.
    """

    ref: str
    row: int
    words: str
    component: str | None
    referenced: bool = True
    sheet: str = ""
    candidates: tuple[Candidate, ...] = ()
    texts: tuple[str, ...] = ()
    number: str = ""
    why: Said = ""
    to_measure: bool = False
    legend: str = ""
    legends: tuple[tuple[str, str], ...] = ()
    guessed: bool = False
    group: str = ""
    side: str = "front"
    order: float | None = None
    knob: KnobWish | None = None
    positions: tuple[str, ...] = ()
    scale: ScaleWish | None = None
    notes: str = ""


class ComponentList(Struct, frozen=True, kw_only=True):
    """What a list says: how it was read, its items in order, its remarks, and where every row ended.

    `samples` are the first rows of parts, to show the columns by. `others` are sheets of the
    file that were not read, as they have fewer parts.
    """

    file: str
    sheet: str
    form: Said
    columns: Columns
    samples: tuple[Row, ...]
    account: Account
    others: tuple[str, ...]
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
