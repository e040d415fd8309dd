"""What differs from piece to piece, as the spec says it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from panelart.model.variables import Check, Counter, Variable
from panelart.source.problems import Problems
from panelart.source.schema import Fields
from panelart.spec import language
from panelart.spec.markup import WORDS

TAKEN: Final = frozenset(WORDS)


def variables(top: Fields, examples: Mapping[str, str], problems: Problems) -> tuple[Variable, ...]:
    """The variables in the order written; `examples` are shown in place of those of the spec."""
    found: dict[str, Variable] = {}
    for key, value in top[language.VARIABLES] or ():
        name = key.value
        if name in TAKEN:
            problems.add(key.where, f"'{name}' in braces stands for something else", "accepted: another name")
            continue
        counter = _counter(value.value)
        example = counter.value(0) if counter is not None else value.value[language.EXAMPLE]
        if example is not None:
            found[name] = Variable(name=name, example=examples.get(name, example), counter=counter)
    return tuple(found.values())


def _counter(fields: Fields) -> Counter | None:
    if fields.record is not language.COUNTED_RECORD:
        return None
    counter = fields[language.COUNTER]
    if counter is None:
        return Counter(first=1)
    return Counter(
        first=counter[language.COUNTER_FIRST] or 0,
        step=counter[language.COUNTER_STEP] or 1,
        digits=counter[language.COUNTER_DIGITS] or 1,
        before=counter[language.COUNTER_BEFORE] or "",
        after=counter[language.COUNTER_AFTER] or "",
        check=Check(counter[language.COUNTER_CHECK]),
    )
