"""What differs from piece to piece, as the spec says it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from panelart.messages import spec as said
from panelart.model.variables import Check, Counter, Variable
from panelart.source.problems import Problems
from panelart.spec import language
from panelart.spec.markup import WORDS

TAKEN: Final = frozenset(WORDS)


def variables(top: language.Spec, examples: Mapping[str, str], problems: Problems) -> tuple[Variable, ...]:
    """The variables in the order written; `examples` are shown in place of those of the spec."""
    found: dict[str, Variable] = {}
    for key, value in top.variables or ():
        name = key.value
        if name in TAKEN:
            problems.add(key.where, said.variable_name_reserved(name), said.choose_name())
            continue
        counter = _counter(value.value)
        example = counter.value(0) if counter is not None else value.value.example
        if example is not None:
            found[name] = Variable(name=name, example=examples.get(name, example), counter=counter)
    return tuple(found.values())


def _counter(fields: language.CountedVariable | language.TabledVariable) -> Counter | None:
    if not isinstance(fields, language.CountedVariable):
        return None
    counter = fields.counter
    if counter is None:
        return Counter(first=1)
    return Counter(
        first=counter.first,
        step=counter.step,
        digits=counter.digits,
        before=counter.before,
        after=counter.after,
        check=Check(counter.check),
    )
