"""Which files are written: all that a panel has, or only those that were asked for by name."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import TypeVar

from panelart.diagnostics import nearest
from panelart.documents.document import Document, File, files_of
from panelart.documents.results import Results
from panelart.messages import Message
from panelart.messages import documents as said

Key = TypeVar("Key")


class NoSuchDocumentError(LookupError):
    """Files were asked for that are not made: `says` tells all of them, `accepts` what can be asked for instead."""

    def __init__(self, says: Message, accepts: Message) -> None:
        super().__init__(says)
        self.says = says
        self.accepts = accepts


def written(
    jobs: Mapping[Key, Results],
    documents: Sequence[Document],
    *,
    only: Sequence[str] = (),
    options: Collection[str] = (),
) -> dict[Key, dict[str, bytes]]:
    """The files of several panels, and of the set they make up, by name.

    `only` are names of files (`cutouts.dxf`), of documents in every format (`cutouts`) or of families (`film`). Of
    each panel those are written that it has. Without names, all files are, with those of the `options` that are given.
    Only what is written is made. Raises NoSuchDocumentError for names that no panel has a file of.
    """
    chosen = {key: tuple(_chosen(results, documents, only, options)) for key, results in jobs.items()}
    made = [file for files in chosen.values() for file in files]
    missing = [word for word in dict.fromkeys(only) if not any(file.is_meant_by(word) for file in made)]
    if missing:
        raise _not_made(missing, list(jobs.values()), documents)
    return {key: _bytes(chosen[key], results) for key, results in jobs.items()}


def _chosen(
    results: Results, documents: Sequence[Document], only: Sequence[str], options: Collection[str]
) -> Iterator[File]:
    if not only:
        yield from files_of([one for one in documents if not one.option or one.option in options], results)
        return
    # A name that no document claims may be one that a process gives to a file: only then is the process asked.
    claimed = [one for one in documents if any(one.may_be(word) for word in only)]
    strange = any(not any(one.may_be(word) for one in documents) for word in only)
    wanted = [one for one in documents if one in claimed or (one.open and strange)]
    for file in files_of(wanted, results):
        if any(file.is_meant_by(word) for word in only):
            yield file


def _bytes(files: Sequence[File], results: Results) -> dict[str, bytes]:
    found: dict[str, bytes] = {}
    for file in files:
        if file.name in found:
            raise ValueError(f"two documents write {file.name}")
        found[file.name] = file.document.file(file.stem, file.ending, results)
    return found


def _not_made(missing: Sequence[str], jobs: Sequence[Results], documents: Sequence[Document]) -> NoSuchDocumentError:
    """What is wrong with names that brought no file, and what is accepted."""
    labels = list(dict.fromkeys(one.label for one in documents if one.label))
    sayings = [_why_not(word, jobs, documents) for word in missing]
    strange = [word for word in missing if not any(one.may_be(word) for one in documents)]
    near = nearest(strange[0], [*labels, *_file_names(documents)]) if strange else None
    accepts = said.accepted(names=labels)
    return NoSuchDocumentError(
        said.sayings(sayings=sayings), accepts if near is None else said.did_you_mean(name=near, accepted=accepts)
    )


def _why_not(word: str, jobs: Sequence[Results], documents: Sequence[Document]) -> Message:
    """Why there is no file of a name: what there is in its place, why the panel has none, or that none has ever."""
    one = next((document for document in documents if document.may_be(word)), None)
    if one is None:
        label = word.rpartition(".")[0]
        others = [name for document in documents if document.label == label != "" for name in document.file_names]
        return said.other_files(name=word, names=others) if others else said.unknown_document(name=word)
    results = next((job for job in jobs if job.can_make(one.of)), jobs[0])
    members = [f"{stem}.{ending}" for stem in one.names(results) for ending in one.formats]
    if members:
        return said.other_files(name=word, names=members)
    return said.not_made(name=word, reason=one.when.why_not(results))


def _file_names(documents: Sequence[Document]) -> Iterator[str]:
    return (name for one in documents if not one.several for name in one.file_names)
