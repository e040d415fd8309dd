"""The key reference: every key of the tables in Markdown, with its sentence, unit, and default."""

from __future__ import annotations

import functools
from typing import Any, Final, assert_never

from panelart.messages import figures, lists
from panelart.messages import source_reference as said
from panelart.source.schema import (
    Angle,
    AnyNode,
    Choice,
    Colour,
    Field,
    Flag,
    Integer,
    Kind,
    Later,
    Length,
    ListOf,
    MapOf,
    Number,
    OneOf,
    Record,
    ScalarKind,
    Text,
    TupleOf,
)


def key_reference(*tops: Kind[Any]) -> str:
    """Markdown: one table a record, from each top down, each record once."""
    met = {each.name: each for top in tops for each in records(top)}
    return "\n".join(map(_section, met.values()))


def records(top: Kind[Any]) -> tuple[Record, ...]:
    """The record and those below it, each once, in the order in which they are met.

    Raises ValueError when two different records have one name, since a reader could not tell them apart.
    """
    met: dict[str, Record] = {}
    waiting: list[Kind[Any]] = [top]
    while waiting:
        kind = waiting.pop(0)
        match kind:
            case ListOf() | MapOf():
                waiting.insert(0, kind.of)
            case Later():
                waiting.insert(0, kind.kind())
            case OneOf():
                waiting[:0] = kind.kinds
            case Kind(record=Record() as record):
                if record.name not in met:
                    met[record.name] = record
                    waiting[:0] = [field.kind for field in record.fields]
                elif met[record.name] is not record:
                    raise ValueError(f"two records have the name '{record.name}'")
            case _:
                pass
    return tuple(met.values())


def _section(record: Record) -> str:
    rows = [
        f"| `{field.name}` | {_form(field.kind)} | {_default(field)} | {_cell(str(field.doc))} |"
        for field in record.fields
    ]
    doc = [record.doc, ""] if record.doc else []
    return "\n".join(
        [
            f"### {record.name}",
            "",
            *doc,
            f"| {' | '.join(str(heading()) for heading in _HEADINGS)} |",
            "| --- | --- | --- | --- |",
            *rows,
            "",
        ]
    )


_HEADINGS: Final = (said.key, said.value, said.default, said.meaning)


def _cell(text: str) -> str:
    return text.replace("|", "\\|")


def _default(field: Field[Any]) -> str:
    if field.required:
        return str(said.required())
    if field.otherwise:
        return _cell(str(field.otherwise))
    if field.default in (None, (), ""):
        return str(said.no_default())
    if isinstance(field.default, float):
        return figures.in_unit(field.default, field.kind.unit)
    return f"`{field.default}`"


def _form(kind: Kind[Any]) -> str:
    """What a value looks like, as the cell of a table."""
    if isinstance(kind, ScalarKind):
        return _scalar_form(kind)
    match kind:
        case TupleOf():
            items = f"`[{', '.join(name for name, _ in kind.of)}]`"
            return str(said.list_in(items, kind.unit)) if kind.unit else items
        case ListOf() | MapOf() | AnyNode():
            return str(kind.accepts)
        case Later():
            return _form(kind.kind())
        case OneOf():
            return functools.reduce(lambda first, last: str(lists.either(first, last)), map(_form, kind.kinds))
        case Kind(record=Record() as record):
            return f"[{record.name}](#{record.name.replace(' ', '-')})"
        case _:
            raise TypeError(f"no words for {type(kind).__name__}")


def _scalar_form(kind: ScalarKind) -> str:
    match kind:
        case Text():
            return _cell(kind.form) or str(said.text())
        case Length():
            return str(said.length())
        case Angle():
            return str(said.angle())
        case Number():
            return str(said.number_in(kind.unit) if kind.unit else said.number())
        case Integer():
            return str(said.whole_number())
        case Flag():
            return str(said.true_or_false())
        case Choice():
            return ", ".join(f"`{word}`" for word in kind.words)
        case Colour():
            return '`"#RRGGBB"`'
        case _:
            assert_never(kind)
