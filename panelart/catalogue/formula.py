"""Small arithmetic over named values, for part families and the laws of scales: `pitch - 4.5`, `20 * log10(v)`.

Accepted are decimal numbers, names, `+ - * / ^`, a leading minus, parentheses and a few functions. Nothing of it is
ever run as code: the text is read by the grammar below and worked out on the spot.

    sum     = product { ("+" | "-") product }
    product = signed { ("*" | "/") signed }
    signed  = [ "-" ] power
    power   = value [ "^" signed ]
    value   = number | name | function "(" sum { "," sum } ")" | "(" sum ")"
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from typing import Final

from panelart.canonical import Struct
from panelart.diagnostics import did_you_mean, one_of
from panelart.messages import Message
from panelart.messages import catalogue as said

_TOKEN: Final = re.compile(r"\s*(?:(?P<number>\d+\.?\d*|\.\d+)|(?P<name>[A-Za-z_]\w*)|(?P<sign>[-+*/^(),]))")
_MAX_DEPTH: Final = 40

FUNCTIONS: Final[Mapping[str, tuple[int, Callable[..., float]]]] = {
    "abs": (1, abs),
    "exp": (1, math.exp),
    "ln": (1, math.log),
    "log10": (1, math.log10),
    "max": (2, max),
    "min": (2, min),
    "sqrt": (1, math.sqrt),
}
"""Each function with how many values it takes."""


class FormulaError(ValueError):
    """The formula cannot be worked out: why (`says`), and what is accepted, where that is known."""

    def __init__(self, says: Message, accepts: Message | None = None) -> None:
        super().__init__(says, accepts)
        self.says = says
        self.accepts = accepts

    def __str__(self) -> str:
        return str(self.says)


class Names(Struct, frozen=True, kw_only=True):
    """What is said of a name that a formula does not know: how it is refused, and what is accepted."""

    unknown: Callable[[str], Message]
    accepted: Callable[[str], Message]


def _columns(values: Mapping[str, float]) -> Names:
    """The names of a family: columns of its table."""

    def accepted(name: str) -> Message:
        return did_you_mean(name, values, said.columns()) if values else said.no_columns()

    return Names(unknown=said.unknown_column, accepted=accepted)


def worked_out(text: str, values: Mapping[str, float], names: Names | None = None) -> float:
    """The value of a formula; names stand for `values`, columns of a table unless `names` says what else.

    Raises FormulaError for anything outside the grammar, an unknown name, a division by zero or a value that is not
    finite.
    """
    reader = _Reader(text, values, names or _columns(values))
    try:
        value = reader.sum(0)
    except (ValueError, OverflowError) as error:
        if isinstance(error, FormulaError):
            raise
        raise FormulaError(said.formula_not_finite(text)) from None
    reader.finish()
    if not math.isfinite(value):
        raise FormulaError(said.formula_not_finite(text))
    return value


class _Reader:
    """One pass over the tokens of a formula, working it out on the way."""

    def __init__(self, text: str, values: Mapping[str, float], names: Names) -> None:
        self._text = text
        self._values = values
        self._names = names
        self._tokens = _tokens(text)
        self._next = 0

    def sum(self, depth: int) -> float:
        if depth > _MAX_DEPTH:
            raise FormulaError(said.formula_too_deep(maximum=_MAX_DEPTH))
        value = self._product(depth)
        while (sign := self._take("+", "-")) is not None:
            other = self._product(depth)
            value = value + other if sign == "+" else value - other
        return value

    def finish(self) -> None:
        if self._next < len(self._tokens):
            raise self._unexpected()

    def _product(self, depth: int) -> float:
        value = self._signed(depth)
        while (sign := self._take("*", "/")) is not None:
            other = self._signed(depth)
            if sign == "/" and other == 0:
                raise FormulaError(said.formula_divides_by_zero(self._text))
            value = value * other if sign == "*" else value / other
        return value

    def _signed(self, depth: int) -> float:
        return -self._power(depth) if self._take("-") is not None else self._power(depth)

    def _power(self, depth: int) -> float:
        base = self._value(depth)
        if self._take("^") is None:
            return base
        if depth > _MAX_DEPTH:
            raise FormulaError(said.formula_too_deep(maximum=_MAX_DEPTH))
        return math.pow(base, self._signed(depth + 1))

    def _value(self, depth: int) -> float:
        if self._take("(") is not None:
            value = self.sum(depth + 1)
            if self._take(")") is None:
                raise self._unexpected()
            return value
        if self._next >= len(self._tokens):
            raise self._unexpected()
        token = self._tokens[self._next]
        if token[0].isdigit() or token[0] == ".":
            self._next += 1
            return float(token)
        if token[0].isalpha() or token[0] == "_":
            self._next += 1
            return self._called(token, depth) if self._take("(") is not None else self._named(token)
        raise self._unexpected()

    def _named(self, name: str) -> float:
        if name not in self._values:
            raise FormulaError(self._names.unknown(name), self._names.accepted(name))
        return self._values[name]

    def _called(self, name: str, depth: int) -> float:
        if name not in FUNCTIONS:
            raise FormulaError(said.unknown_function(name), one_of(name, sorted(FUNCTIONS)))
        count, function = FUNCTIONS[name]
        given = [self.sum(depth + 1)]
        while self._take(",") is not None:
            given.append(self.sum(depth + 1))
        if self._take(")") is None:
            raise self._unexpected()
        if len(given) != count:
            raise FormulaError(said.function_values(name, len(given)), said.values_of_function(count))
        return float(function(*given))

    def _take(self, *signs: str) -> str | None:
        if self._next < len(self._tokens) and self._tokens[self._next] in signs:
            self._next += 1
            return self._tokens[self._next - 1]
        return None

    def _unexpected(self) -> FormulaError:
        if self._next < len(self._tokens):
            unexpected = said.formula_unexpected(self._tokens[self._next], self._text)
            return FormulaError(unexpected, said.accepted_in_formula())
        return FormulaError(said.formula_incomplete(self._text), said.accepted_in_formula())


def _tokens(text: str) -> tuple[str, ...]:
    found: list[str] = []
    place = 0
    end = len(text.rstrip())
    while place < end:
        match = _TOKEN.match(text, place)
        if match is None:
            raise FormulaError(said.formula_character(text[place:].strip()[:1]), said.accepted_in_formula())
        found.append(match.group(match.lastgroup or 0))
        place = match.end()
    return tuple(found)
