"""What differs from piece to piece: counters, dates and columns of a table, in words and in codes."""

from __future__ import annotations

from enum import Enum

from panelart.canonical import Struct
from panelart.geometry import Point
from panelart.lettering.codes import CodeKind
from panelart.reprs import brief, spot


class Check(Enum):
    """The check digit at the end of a counter's figures."""

    NONE = "none"
    LUHN = "luhn"  # ISO/IEC 7812-1, annex B
    MOD_97 = "mod-97"  # ISO/IEC 7064, MOD 97-10: two digits


class Counter(Struct, frozen=True, kw_only=True):
    """A number that goes up by `step` from piece to piece, with at least `digits` figures.

    `before` and `after` stand round it; the check digit follows the figures and is reckoned from them alone.
    """

    first: int
    step: int = 1
    digits: int = 1
    before: str = ""
    after: str = ""
    check: Check = Check.NONE

    def value(self, piece: int) -> str:
        """What a piece carries; pieces count from 0."""
        figures = f"{self.first + piece * self.step:0{self.digits}d}"
        return f"{self.before}{figures}{check_digits(figures, self.check)}{self.after}"


def check_digits(figures: str, check: Check) -> str:
    """The digits that a reader checks figures by, '' for none."""
    match check:
        case Check.NONE:
            return ""
        case Check.LUHN:
            total = 0
            for place, figure in enumerate(reversed(figures)):
                doubled = int(figure) * (2 if place % 2 == 0 else 1)
                total += doubled - 9 if doubled > 9 else doubled
            return str(-total % 10)
        case Check.MOD_97:
            return f"{98 - int(figures) * 100 % 97:02d}"


class Variable(Struct, frozen=True, kw_only=True):
    """A name that braces in the spec may hold; `example` is shown where there is no piece yet."""

    name: str
    example: str
    counter: Counter | None = None


class Template(Struct, frozen=True, kw_only=True):
    """Words as written, with variables in them.

    `names` are the variables, `numbers` what other names in braces stand for; `case` is how the words are spelled and
    `language` the language that is done in. `dictionary` says where words may be broken, '' for nowhere; no value of a
    variable is.
    """

    written: str
    names: tuple[str, ...]
    numbers: tuple[tuple[str, str], ...] = ()
    case: str = "as-written"
    language: str = ""
    dictionary: str = ""

    def __repr__(self) -> str:
        return brief("Template", repr(self.written))


class CodeRequest(Struct, frozen=True, kw_only=True):
    """A code for machines on the panel: its middle `at`, its `module` in mm.

    `text` is what it holds, with the examples where it varies; `template` is None where it is always the same. With
    `left_out` its quiet zone is filled and the dark modules are left bare.
    """

    kind: CodeKind
    text: str
    module: float
    at: Point
    turn: float
    left_out: bool
    template: Template | None = None

    def __repr__(self) -> str:
        return brief("CodeRequest", self.kind.value, repr(self.text), spot(*self.at))
