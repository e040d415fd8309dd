"""The documents of this package and those that other packages bring.

Files of extensions have the names that their documents say, as files of this package have: two that would write one
file are an error. What one of them raises while it writes is told with its name (`Document`).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fnmatch import fnmatchcase
from typing import Any, Final

from msgspec.structs import replace

from panelart import extensions
from panelart.documents import needs
from panelart.documents.document import Audience, Document, When
from panelart.documents.manifest import DOCUMENTS, ClashError, with_further
from panelart.documents.needs import DATE, INSPECTION, LAYOUT, PANELS
from panelart.documents.results import Need
from panelart.extensions import Entry, ExtensionError, RefusedError
from panelart.messages import Message
from panelart.messages import extensions as said
from panelart.processes.process import OWN_FILES, Positives, Process
from panelart.processes.registry import processes

GROUP: Final = "panelart.documents"
"""The group of entry points; each names a document, a tuple of them, or a module that has them as DOCUMENTS."""

GIVEN: Final = frozenset({LAYOUT, INSPECTION, DATE, PANELS})
"""The results that are given of a panel or a set, which all others are made from."""

_NAME: Final = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*")
_ENDING: Final = re.compile(r"[a-z0-9]+(?:\.[a-z0-9]+)*")
_OF_PROCESSES: Final = (needs.prints, needs.paths, needs.dots)


@extensions.kept
def documents() -> tuple[Document, ...]:
    """The documents of this package and of all extensions but those that are left out.

    Raises ExtensionError where one cannot be loaded, two would write one file, or a process of an extension calls its
    files as another document does.
    """
    taken: tuple[Document, ...] = DOCUMENTS
    for entry, found in extensions.load(GROUP, _brought).objects:
        # One document may be offered twice: by itself and with its module.
        new = [one for one in found if not any(_same(one, known) for known in taken)]
        try:
            taken = with_further(new, taken)
        except ClashError as error:
            raise ExtensionError([entry.problem(said.two_documents(file=error.file))]) from None
    _require_apart(taken)
    return taken


def _same(one: Document, other: Document) -> bool:
    return other.entry is not None and one.name == other.name and one.of is other.of and one.formats == other.formats


def _brought(entry: Entry, found: object) -> tuple[Entry, tuple[Document, ...]]:
    """The documents that an entry point names. Raises RefusedError."""
    offered = extensions.constant(found, "DOCUMENTS")
    every = tuple(offered) if isinstance(offered, tuple | list) else (offered,)
    for one in every:
        if not isinstance(one, Document):
            raise RefusedError(said.not_a_document(found=type(one).__name__))
    return entry, tuple(_taken(entry, one) for one in every)


def _taken(entry: Entry, one: Document) -> Document:
    """A document with its package. Raises RefusedError for one that could not be written."""
    if not _NAME.fullmatch(one.name.removesuffix("*") if one.several else one.name):
        raise RefusedError(said.not_a_file_name(name=one.name))
    for what, right in _parts(one):
        if not right:
            raise RefusedError(said.document_without(document=one.label, what=what))
    unknown = [need.name for need in one.of.bases - GIVEN]
    if unknown:
        # It would never be written, and nobody would know.
        raise RefusedError(said.result_unknown(document=one.label, result=min(unknown)))
    return replace(one, entry=entry)


def _parts(one: Document) -> Iterator[tuple[str, bool]]:
    """What a document is made of, and whether it is of its kind."""
    yield "says", isinstance(one.says, Message)
    yield "of", isinstance(one.of, Need)
    yield "when", isinstance(one.when, When)
    audience: Any = one.audience
    yield "audience", bool(audience) and all(isinstance(each, Audience) for each in audience)
    formats: Any = one.formats
    endings = bool(formats) and all(_ENDING.fullmatch(ending) for ending in formats)
    yield "formats", endings and all(map(callable, formats.values()))


def _require_apart(documents: tuple[Document, ...]) -> None:
    """Files of a process of an extension are called as those of no other document are."""
    for entry, process in processes().brought:
        for file in _files_of(process):
            for one in documents:
                if not one.open and one.of not in _OF_PROCESSES and fnmatchcase(file, one.name):
                    raise entry.failed(said.two_of_process(process=process.name, file=file))


def _files_of(process: Process) -> Iterator[str]:
    """Names of files of a process, without ending."""
    for output in process.outputs:
        if isinstance(output, Positives):
            yield f"{output.file}-ink"
        elif isinstance(output, OWN_FILES):
            yield output.file
