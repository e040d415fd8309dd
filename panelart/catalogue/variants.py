"""A part of a part file that is like another, with single dimensions changed, measured or proved."""

from __future__ import annotations

from pathlib import PurePosixPath

from msgspec.structs import replace

from panelart.catalogue import table, traits
from panelart.catalogue.context import GIVEN, EntryContext, Pieces, Standing, line_of, lines_of
from panelart.catalogue.covering import uncovered
from panelart.catalogue.overrides import Changing, changed
from panelart.messages import catalogue as said
from panelart.model.component import Component
from panelart.source.schema import Fields


def is_stand_in(fields: Fields, name: str) -> bool:
    """Whether what is written is like the part of its own name, and so takes its place."""
    return fields.record is table.VARIANT and fields[table.LIKE] == name


def variant(fields: Fields, name: str, base: Component, context: EntryContext, file: str) -> Component:
    """The part as another one with what is written in `file` changed. Raises UnusableError.

    What is left empty is not changed. The part is of the family of the other.
    """
    changing = Changing(
        sources=context.sources,
        problems=context.problems,
        entry=context.entry,
        above=context.standing(fields, _measured(fields)),
        blanks=True,
    )
    made = base
    pieces = Pieces()
    for field in table.CHANGES:
        written = fields[field]
        if written is not None:
            with pieces:
                made = changed(made, field.name, fields.key_where(field), written, changing)
    pieces.raise_any()
    bare = uncovered(made)
    if bare is not None:
        raise context.refuse(fields.place, *bare.told)
    figures_changed = made != base
    words = lines_of(fields[table.WORDS], context)
    return replace(
        made,
        name=name,
        title=line_of(fields, table.TITLE, context) or base.title,
        words=tuple(dict.fromkeys((*base.words, *words))),
        note=line_of(fields, table.NOTE, context) or base.note,
        openings=traits.proved(fields, made.openings, context),
        changed_in=PurePosixPath(file).name if figures_changed and is_stand_in(fields, name) else base.changed_in,
    )


def _measured(fields: Fields) -> Standing:
    """The designer's own figures, with who measured them and when as far as that is written."""
    measured = fields[table.MEASURED]
    if measured is None:
        return GIVEN
    by, date = (" ".join((measured[field] or "").split()) for field in (table.MEASURED_BY, table.MEASURED_DATE))
    if by and date:
        source = said.measured_by(by, date)
    elif by or date:
        source = said.measured_by_name(by) if by else said.measured_on(date)
    else:
        return GIVEN
    return replace(GIVEN, sources=(str(source),))
