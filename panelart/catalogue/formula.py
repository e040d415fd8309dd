"""Small arithmetic over named values, for part families: `pitch - 4.5`, `(width + 2 * rim) / 2`.

Accepted are decimal numbers, names, `+ - * /`, a leading minus and parentheses. Nothing of it is ever run as code: the
text is read by the grammar below and worked out on the spot.

    sum     = product { ("+" | "-") product }
    product = signed { ("*" | "/") signed }
    signed  = [ "-" ] ( number | name | "(" sum ")" )
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from typing import Final

from panelart.diagnostics import did_you_mean
from panelart.messages import Message
from panelart.messages import catalogue as said

_TOKEN: Final = re.compile(r"\s*(?:(?P<number>\d+\.?\d*|\.\d+)|(?P<name>[A-Za-z_]\w*)|(?P<sign>[-+*/()]))")
_MAX_DEPTH: Final = 40


class FormulaError(ValueError):
    """The formula cannot be worked out: why (`says`), and what is accepted, where that is known."""

    def __init__(self, says: Message, accepts: Message | None = None) -> None:
        super().__init__(says, accepts)
        self.says = says
        self.accepts = accepts

    def __str__(self) -> str:
        return str(self.says)


def worked_out(text: str, values: Mapping[str, float]) -> float:
    """The value of a formula; names stand for `values`.

    Raises FormulaError for anything outside the grammar, an unknown name, a division by zero or a value that is not
    finite.
    """
    reader = _Reader(text, values)
    value = reader.sum(0)
    reader.finish()
    if not math.isfinite(value):
        raise FormulaError(said.formula_not_finite(text))
    return value


class _Reader:
    """One pass over the tokens of a formula, working it out on the way."""

    def __init__(self, text: str, values: Mapping[str, float]) -> None:
        self._text = text
        self._values = values
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
        if self._take("-") is not None:
            return -self._value(depth)
        return self._value(depth)

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
            if token not in self._values:
                accepts = did_you_mean(token, self._values, said.columns()) if self._values else said.no_columns()
                raise FormulaError(said.unknown_column(token), accepts)
            return self._values[token]
        raise self._unexpected()

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
