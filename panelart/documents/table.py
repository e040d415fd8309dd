"""Files told by who works from them: README's table, and the list that `make --verbose` prints."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from panelart.documents.document import Audience, Document
from panelart.documents.manifest import DOCUMENTS
from panelart.messages import Message
from panelart.messages import documents as said


def by_audience(
    names: Iterable[str], documents: Sequence[Document] = DOCUMENTS
) -> Iterator[tuple[Message, tuple[str, ...]]]:
    """Files by who works from them first, in the order of the work; files of no document come last."""
    readers = {name: _reader(name, documents) for name in names}
    for audience in Audience:
        files = tuple(name for name, reader in readers.items() if reader is audience)
        if files:
            yield audience.title, files


def _reader(name: str, documents: Sequence[Document]) -> Audience:
    found = (one.audience[0] for one in sorted(documents, key=lambda one: one.open) if one.has(name))
    return next(found, Audience.PROGRAMS)


def table(documents: Sequence[Document] = DOCUMENTS) -> str:
    """README's table of files in Markdown: the files, for whom, what they are, when they are made."""
    rows = [(said.column_files(), said.column_audience(), said.column_contents(), said.column_when())]
    lines = [_row(*rows[0]), "| --- | --- | --- | --- |"]
    for one in documents:
        if not one.open:
            audiences = said.audiences(titles=[audience.title for audience in one.audience])
            lines.append(_row(_names(one), audiences, one.says, one.when.says))
    return "\n".join(lines)


def _names(one: Document) -> str:
    """The first file by its whole name, the others by their endings."""
    first, *others = one.formats
    return ", ".join([f"`{one.name}.{first}`", *(f"`.{ending}`" for ending in others)])


def _row(*cells: object) -> str:
    return f"| {' | '.join(str(cell) for cell in cells)} |"
