"""A document: files of one name that `make` writes, what they are made from, when they exist, and for whom they are."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from enum import Enum
from fnmatch import fnmatchcase
from typing import Any, Final, TypeAlias, TypeVar

from panelart.canonical import Struct
from panelart.diagnostics import SpecError
from panelart.documents.results import Need, Results
from panelart.extensions import Entry, ExtensionError, RefusedError, told
from panelart.messages import Message, Said
from panelart.messages import documents as said
from panelart.messages import extensions as extension_said
from panelart.messages.errors import said_by

Content = TypeVar("Content")

Write: TypeAlias = Callable[[Content, Results], bytes]
"""A writer of one format: the content and all results, from which it may take a date or how words are written."""

_PLAIN: Final = re.compile(r"[^\W_][\w.+ -]*")
"""Names that extensions may give to files: words of any script, no signs that a file system takes otherwise."""


class Audience(Enum):
    """Who works from a document, in the order of the work."""

    PRINTER = "printer"
    ENGRAVER = "engraver"
    LABEL_PRINTER = "label-printer"
    CUTTER = "cutter"
    BENDER = "bender"
    COATER = "coater"
    WORKSHOP = "workshop"
    INSPECTOR = "inspector"
    SIGNER = "signer"
    READER = "reader"
    BUYER = "buyer"
    PROGRAMS = "programs"

    @property
    def title(self) -> Message:
        """What is done there, as a heading."""
        return _TITLES[self]


_TITLES: Final[Mapping[Audience, Message]] = {
    Audience.PRINTER: said.printing(),
    Audience.ENGRAVER: said.marking(),
    Audience.LABEL_PRINTER: said.label_film(),
    Audience.CUTTER: said.cutting(),
    Audience.BENDER: said.bending(),
    Audience.COATER: said.coating(),
    Audience.WORKSHOP: said.workshop(),
    Audience.INSPECTOR: said.inspection(),
    Audience.SIGNER: said.approval(),
    Audience.READER: said.reading(),
    Audience.BUYER: said.purchasing(),
    Audience.PROGRAMS: said.other_programs(),
}


def _always(_: Results) -> bool:
    return True


class When(Struct, frozen=True, kw_only=True):
    """For which panels a document exists: in words, as a cheap test, and why a panel that fails it has none.

    A family with no members does not exist either, whatever `holds` says.
    """

    says: Message
    why_not: Callable[[Results], Message]
    holds: Callable[[Results], bool] = _always


ALWAYS: Final = When(says=said.always(), why_not=lambda _: said.nothing_to_show())


class Document(Struct, frozen=True, kw_only=True):
    """One entry of the manifest; `document` and `family` make it.

    `name` is that of the files without ending, of a family a pattern: `film-*`. `of` gives the content, of a family
    contents by name, those that are not within the pattern being another's; it is made once, whatever the number of
    `formats` (writers by ending). `audience` is who works from it, the first before all others. A document with an
    `option` is not among all files unless that option of `make` is given, or the document is named.
    `entry` is where another package offers it, None for this one's.
    """

    name: str
    says: Message
    audience: tuple[Audience, ...]
    of: Need[Any]
    formats: Mapping[str, Write[Any]]
    when: When = ALWAYS
    option: str = ""
    several: bool = False
    entry: Entry | None = None

    @property
    def label(self) -> str:
        """The name that stands for all its files: `film` of `film-*`."""
        return self.name.removesuffix("*").removesuffix("-").removesuffix(".")

    @property
    def open(self) -> bool:
        """Whether its files may have any name: what no other document takes."""
        return self.name == "*"

    @property
    def file_names(self) -> tuple[str, ...]:
        """The names of its files, with the star where it is a family."""
        return tuple(f"{self.name}.{ending}" for ending in self.formats)

    def has(self, file: str) -> bool:
        """Whether a file of this name is one of its files."""
        return any(fnmatchcase(file, name) for name in self.file_names)

    def may_be(self, word: str) -> bool:
        """Whether a word names it, a file of it, or a name of its family, on some panel."""
        names = {self.name, self.label} - {"*", ""}
        stems = [word, *(word.removesuffix(f".{ending}") for ending in self.formats)]
        if any(stem in names for stem in stems):
            return True
        # Where names of a family have a dot, a word with one is a file of it only with the family's ending.
        stems = [stem for stem in stems if stem != word] if "." in self.name else stems
        return self.several and not self.open and any(fnmatchcase(stem, self.name) for stem in stems)

    def names(self, results: Results) -> tuple[str, ...]:
        """The names of its files for a panel, without endings; none where it does not exist.

        Raises ExtensionError where one of another package fails, as the following do.
        """
        if not results.can_make(self.of):
            return ()
        with self._failing_by_name():
            if not self.when.holds(results):
                return ()
            if not self.several:
                return (self.name,)
            names = tuple(name for name in results[self.of] if fnmatchcase(name, self.name))
            if self.entry is not None:
                _require_plain(names)
            return names

    def file(self, name: str, ending: str, results: Results) -> bytes:
        """The bytes of one file. Raises LookupError for a name or ending that it has not."""
        with self._failing_by_name():
            content = results[self.of]
            made = self.formats[ending](content[name] if self.several else content, results)
            if self.entry is not None and not isinstance(made, bytes):
                raise RefusedError(extension_said.not_bytes(file=f"{name}.{ending}", found=type(made).__name__))
            return made

    def why_not(self, results: Results) -> Message:
        """Why a panel has none of its files."""
        with self._failing_by_name():
            return self.when.why_not(results)

    @contextmanager
    def _failing_by_name(self) -> Iterator[None]:
        """Within this, what fails in a document of another package is told with its name."""
        try:
            yield
        except SpecError:
            raise
        except Exception as error:  # whatever a function of another package raises
            if self.entry is None:
                raise
            raise self.failed(said_by(error) if isinstance(error, RefusedError) else told(error), error) from error

    def failed(self, reason: Said, error: Exception | None = None) -> ExtensionError:
        """What is raised when it failed; only for one of another package."""
        assert self.entry is not None
        name = f"{self.entry.extension}/{self.label}"
        error = None if isinstance(error, RefusedError) else error
        return self.entry.failed(extension_said.document_failed(document=name, reason=reason), error)


def _require_plain(names: Sequence[str]) -> None:
    """Names of files that stay in their folder, on every system. Raises RefusedError."""
    for name in names:
        if not _PLAIN.fullmatch(name):
            raise RefusedError(extension_said.not_a_file_name(name=name))


class File(Struct, frozen=True, kw_only=True):
    """One file that is to be written for a panel."""

    document: Document
    stem: str
    ending: str

    @property
    def name(self) -> str:
        """The whole name."""
        return f"{self.stem}.{self.ending}"

    def is_meant_by(self, word: str) -> bool:
        """Whether a word of `only` asks for it: its name with or without ending, or that of its family."""
        document = self.document
        stems = {self.stem} if document.open else {self.stem, document.name, document.label}
        return word in stems or word in {f"{stem}.{self.ending}" for stem in stems}


def document(
    name: str,
    of: Need[Content],
    formats: Mapping[str, Write[Content]],
    *,
    says: Message,
    audience: tuple[Audience, ...],
    when: When = ALWAYS,
    option: str = "",
) -> Document:
    """A document of one name: every ending of `formats` is a file written from the same content."""
    return Document(name=name, says=says, audience=audience, of=of, formats=formats, when=when, option=option)


def family(
    name: str,
    of: Need[Mapping[str, Content]],
    formats: Mapping[str, Write[Content]],
    *,
    says: Message,
    audience: tuple[Audience, ...],
    when: When,
) -> Document:
    """A document of as many names as `of` has within the pattern `name`, often none: what a process yields, say."""
    return Document(name=name, says=says, audience=audience, of=of, formats=formats, when=when, several=True)


def files_of(documents: Sequence[Document], results: Results) -> Iterator[File]:
    """The files that documents have for a panel, in order; an open one has those that no other takes."""
    named = [one for one in documents if not one.open]
    for one in documents:
        for stem in one.names(results):
            for ending in one.formats:
                file = File(document=one, stem=stem, ending=ending)
                if not (one.open and any(other.has(file.name) for other in named)):
                    yield file
