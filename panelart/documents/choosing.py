"""Which files are written: all that a panel has, or only those that were asked for by name."""

from __future__ import annotations

import threading
from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import TypeVar

from panelart.diagnostics import nearest
from panelart.documents.document import Document, File, files_of
from panelart.documents.results import Results
from panelart.messages import Message
from panelart.messages import documents as said
from panelart.messages import extensions as of_extensions
from panelart.messages.diagnostics import hint_line
from panelart.reprs import brief, some

Key = TypeVar("Key")


class NoSuchDocumentError(LookupError):
    """Files were asked for that are not made: `says` tells all of them, `accepts` what can be asked for instead."""

    def __init__(self, says: Message, accepts: Message) -> None:
        super().__init__(says)
        self.says = says
        self.accepts = accepts

    def __reduce__(self) -> tuple[type[NoSuchDocumentError], tuple[Message, Message]]:
        return type(self), (self.says, self.accepts)

    def __str__(self) -> str:
        return f"{self.says}\n  {hint_line(hint=self.accepts)}"


class Files(Mapping[str, bytes]):
    """Files by name, in order; each is made when it is first asked for, by one thread at a time, and kept.

    Raises ValueError when two of them have one name; ExtensionError where one of these is of an extension.
    """

    def __init__(self, files: Sequence[File], results: Results) -> None:
        self._files = {file.name: file for file in files}
        if len(self._files) < len(files):
            name = next(name for name, count in Counter(file.name for file in files).items() if count > 1)
            for file in files:
                if file.name == name and file.document.entry is not None:
                    raise file.document.failed(of_extensions.two_documents(file=name))
            raise ValueError(f"two documents write {name}")
        self._results = results
        self._made: dict[str, bytes] = {}
        self._lock = threading.Lock()

    def __getitem__(self, name: str) -> bytes:
        file = self._files[name]
        with self._lock:
            if name not in self._made:
                self._made[name] = file.document.file(file.stem, file.ending, self._results)
            return self._made[name]

    def __contains__(self, name: object) -> bool:
        return name in self._files  # without making it

    def __iter__(self) -> Iterator[str]:
        return iter(self._files)

    def __len__(self) -> int:
        return len(self._files)

    def __repr__(self) -> str:
        return brief("Files", *some(tuple(self._files)))


def chosen(
    jobs: Mapping[Key, Results],
    documents: Sequence[Document],
    *,
    only: Sequence[str] = (),
    options: Collection[str] = (),
) -> dict[Key, Files]:
    """The files of several panels, and of the set they make up.

    `only` are names of files (`cutouts.dxf`), of documents in every format (`cutouts`) or of families (`film`): of
    each panel there are those that it has. Without names there are all files, with those of the `options` given.
    Raises NoSuchDocumentError for names that no panel has a file of.
    """
    wanted = {key: tuple(_wanted(results, documents, only, options)) for key, results in jobs.items()}
    every = [file for files in wanted.values() for file in files]
    missing = [word for word in dict.fromkeys(only) if not any(file.is_meant_by(word) for file in every)]
    if missing:
        raise _not_made(missing, list(jobs.values()), documents)
    return {key: Files(wanted[key], results) for key, results in jobs.items()}


def _wanted(
    results: Results, documents: Sequence[Document], only: Sequence[str], options: Collection[str]
) -> Iterator[File]:
    if not only:
        return files_of([one for one in documents if not one.option or one.option in options], results)
    # A name that no document claims may be one that a process gives to a file: only then is the process asked.
    strange = any(not _claimed(word, documents) for word in only)
    named = [one for one in documents if (strange and one.open) or any(map(one.may_be, only))]
    return (file for file in files_of(named, results) if any(map(file.is_meant_by, only)))


def _claimed(word: str, documents: Sequence[Document]) -> tuple[Document, ...]:
    """The documents that a word may name."""
    return tuple(one for one in documents if one.may_be(word))


def _not_made(missing: Sequence[str], jobs: Sequence[Results], documents: Sequence[Document]) -> NoSuchDocumentError:
    """What is wrong with names that brought no file, and what is accepted."""
    files = [file for results in jobs for file in files_of(documents, results)]
    labels = list(dict.fromkeys(file.document.label or file.stem for file in files))
    sayings = [_why_not(word, jobs, documents) for word in missing]
    strange = next((word for word in missing if word and not _claimed(word, documents)), None)
    near = (
        None
        if strange is None
        else nearest(strange, [*labels, *(file.name for file in files), *_other_names(documents)])
    )
    accepts = said.accepted(names=labels)
    return NoSuchDocumentError(
        said.sayings(sayings=sayings), accepts if near is None else said.did_you_mean(name=near, accepted=accepts)
    )


def _why_not(word: str, jobs: Sequence[Results], documents: Sequence[Document]) -> Message:
    """Why there is no file of a name: what there is in its place, or why the panel has none, or that none has ever."""
    claimed = _claimed(word, documents)
    if not claimed:
        return _unknown(word, documents)
    one = claimed[0]
    results = next((job for job in jobs if job.can_make(one.of)), jobs[0])
    members = [file.name for file in files_of([one], results)]
    if members:
        return said.other_files(name=word, names=members)
    return said.not_made(name=word, reason=one.why_not(results))


def _unknown(word: str, documents: Sequence[Document]) -> Message:
    """That there is no such name; of a known one with another ending, with which it is made."""
    if not word:
        return said.empty_name()
    label = word.rpartition(".")[0]
    others = [name for one in documents if label and one.name == label for name in one.file_names]
    return said.other_files(name=word, names=others) if others else said.unknown_document(name=word)


def _other_names(documents: Sequence[Document]) -> Iterator[str]:
    """The names of files and families that other panels have too."""
    for one in documents:
        yield from (one.label,) if one.several and not one.open else () if one.several else one.file_names
