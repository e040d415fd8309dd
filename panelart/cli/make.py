"""`panelart make`: every file of a panel."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, TypeVar

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.cli.declaring import command, option
from panelart.cli.options import Cluster, DateInFiles, Every, IgnorePlacement, Quiet, Shard, Shop, Specs
from panelart.cli.specs import are_several, specs_of
from panelart.cli.usage import refuse
from panelart.cli.values import FOLDER, Kind, text
from panelart.messages import cli as said
from panelart.messages import cli_help
from panelart.messages import cli_help_panel as help_

if TYPE_CHECKING:
    from panelart.cli.several import How, Outcome
    from panelart.model.panel import Panel
    from panelart.pipeline import Built
    from panelart.reports.text import Detail

ALL = "all"
NOTHING: Mapping[Path, Mapping[str, bytes]] = {}


def _names() -> Iterator[str]:
    """The names of documents and of their files."""
    from panelart.documents.installed import documents

    for one in documents():
        yield from () if one.several else (one.name, *one.file_names)


def _listed(text: str) -> tuple[str, ...]:
    return tuple(name.strip() for name in text.split(","))


FILES = Kind(metavar="FILE,...", read=_listed, names=_names)
"""Files of a panel by name, with commas between them."""


@command(help_.make_all_or_none(), cli_help.exit_1_for_errors(), extensions=True)
def make(
    specs: Specs,
    out: Annotated[Path | None, option("-o --out", cli_help.output_folder_or_name(), FOLDER)] = None,
    date: DateInFiles = "",
    language: Annotated[str, option("--language", help_.language(), text("TAG|all"))] = "",
    rear_view: Annotated[bool, option("--rear-view", help_.rear_view())] = False,
    only: Annotated[tuple[str, ...] | None, option("--only", help_.only(), FILES)] = None,
    shop: Shop = None,
    read_back: Annotated[bool, option("--read-back", help_.read_back())] = False,
    save_placement: Annotated[bool, option("--save-placement", help_.save_placement())] = False,
    ignore_placement: IgnorePlacement = False,
    quiet: Quiet = False,
    verbose: Annotated[bool, option("-v --verbose", cli_help.verbose_make())] = False,
    every: Every = False,
    shard: Shard = None,
    cluster: Cluster = "",
) -> None:
    """Write all files of a panel."""
    from panelart.cli.exits import end
    from panelart.cli.findings import detail_of
    from panelart.cli.several import How

    task = _Task(
        spec=specs[0],
        folder=out if out is not None else Path(specs[0].stem),
        date=date,
        language=language,
        rear_view=rear_view,
        only=only or (),
        shop=shop,
        read_back=read_back,
        save_placement=save_placement,
        ignore_placement=ignore_placement,
        detail=detail_of(quiet=quiet, verbose=verbose),
    )
    how = How(every=every, shard=shard, cluster=cluster)
    if are_several(specs) or how.spread:
        _make_several(task, _folders(specs_of(specs), Path() if out is None else out), how)
    elif code := _made(task).code:
        end(code)


def _folders(specs: tuple[Path, ...], below: Path) -> dict[Path, Path]:
    """For each spec the folder that its files go into: as the specs lie in folders, below one. Raises Refused."""
    import os

    from panelart.cli.usage import refuse

    together = os.path.commonpath([spec.absolute().parent for spec in specs])
    folders: dict[Path, Path] = {}
    for spec in specs:
        folder = below / os.path.relpath(spec.absolute().with_name(spec.stem), together)
        if folder in folders:
            told = said.written_to_one_folder(folders[folder].as_posix(), spec.as_posix(), folder.as_posix())
            refuse("SPEC", told, said.give_one_at_a_time())
        folders[folder] = spec
    return {spec: folder for folder, spec in folders.items()}


def _make_several(task: _Task, folders: Mapping[Path, Path], how: How) -> None:
    """Make specs over the cores of this machine, and print what is told of each, in order."""
    from panelart.cli.several import Work, done, print_texts, print_totals

    tasks = [replace(task, spec=spec, folder=folder) for spec, folder in folders.items()]
    work = Work(run=_made, day=task.date)
    print_totals(print_texts(done(work, tasks, how), apart=not task.quiet), quiet=task.quiet)


def _made(task: _Task) -> Outcome:
    """Write the files of a spec, and print what was found; what they rest on. Raises SpecError, OSError."""
    from panelart.spec.read import panel_names

    names = panel_names(task.spec)
    return _make_set(task, names) if names and not task.takes_one else _make_panel(task)


class _Task(Struct, frozen=True, kw_only=True):
    """What is made and told; the names are those of the options."""

    spec: Path
    folder: Path
    date: str
    language: str
    rear_view: bool
    only: tuple[str, ...]
    shop: Path | None
    read_back: bool
    save_placement: bool
    ignore_placement: bool
    detail: Detail

    @property
    def takes_one(self) -> bool:
        """Whether what is asked is of one panel, not of a set."""
        return self.save_placement or bool(self.language)

    @property
    def asked(self) -> _Task:
        """All that decides what is written and told."""
        return self

    @property
    def quiet(self) -> bool:
        """Whether only what must be known is told."""
        from panelart.reports.text import Detail

        return self.detail is Detail.QUIET


def _make_set(task: _Task, names: tuple[str, ...]) -> Outcome:
    """Write every panel of a set and the lists for the set."""
    from panelart.cli.findings import print_set
    from panelart.cli.sets import build_set
    from panelart.pipeline import write_set

    built = build_set(task.spec, names, task.shop, task.date, ignore_placement=task.ignore_placement)
    with _names_refused():
        files = write_set(built, date=task.date, rear=task.rear_view, only=task.only)
    _read_back(task, built, files)
    written = _write({task.folder / name: made for name, made in files.items()})
    print_set(built, str(task.spec), task.detail)
    print_written(written, task.detail, apart=_any(built.values()))
    return _outcome(built.values(), written)


def _make_panel(task: _Task) -> Outcome:
    """Write a panel, in every language if all are wanted."""
    from panelart.cli.findings import print_untranslated
    from panelart.pipeline import placement_path, read, write_each
    from panelart.spec.translations import AS_WRITTEN

    panel = read(task.spec, task.shop, AS_WRITTEN if task.language in ("", ALL) else task.language)
    made = _built(task, panel)
    with _names_refused():
        files = write_each(made, date=task.date, rear=task.rear_view, only=task.only)
    _read_back(task, made, files)
    kept = placement_path(task.spec)
    saved = {kept.parent: {kept.name: next(iter(made.values())).placement}} if task.save_placement else {}
    written = _write(files, saved)
    _print_findings(task, made)
    if task.language:
        print_untranslated(panel, task.detail)
    print_written(written, task.detail, apart=_any(made.values()))
    if task.save_placement and not task.quiet:
        print(said.placement_saved(kept))
    return _outcome(made.values(), written)


def _outcome(built: Iterable[Built], written: Mapping[Path, tuple[str, ...]]) -> Outcome:
    """How making ended: with EXIT_FINDINGS where a panel has a finding at error level."""
    from panelart.cli.exits import EXIT_FINDINGS
    from panelart.cli.several import Outcome

    every = tuple(built)
    return Outcome(
        code=EXIT_FINDINGS if any(one.inspection.failed for one in every) else 0,
        panels=tuple(one.layout.panel for one in every),
        written=tuple(folder / name for folder, names in written.items() for name in names),
    )


Key = TypeVar("Key", Path, str)


def _read_back(task: _Task, built: Mapping[Key, Built], files: Mapping[Key, Mapping[str, bytes]]) -> None:
    """Read the files of each panel and hold them against it, if that is wanted; ends the command where one disagrees.

    Nothing is written then.
    """
    if not task.read_back:
        return
    from time import perf_counter

    from panelart.cli.exits import EXIT_WRITE, end
    from panelart.readback import read_back

    begin = perf_counter()
    found = [one for key, panel in built.items() for one in read_back(panel.layout, panel.inspection, files[key])]
    for one in found:
        print(said.disagrees(one.file, one.says), file=sys.stderr)
    if found:
        print(said.our_defect(len(found)), file=sys.stderr)
        end(EXIT_WRITE)
    if not task.quiet:
        count = sum(len(files[key]) for key in built)
        print(said.read_back(count, round(perf_counter() - begin, 1)))


@contextmanager
def _names_refused() -> Iterator[None]:
    """Within this, names of files that are not made are told as what was typed. Raises Refused."""
    from panelart.documents.choosing import NoSuchDocumentError

    try:
        yield
    except NoSuchDocumentError as error:
        refuse("--only", error.says, error.accepts)


def _write(
    files: Mapping[Path, Mapping[str, bytes]], beside: Mapping[Path, Mapping[str, bytes]] = NOTHING
) -> dict[Path, tuple[str, ...]]:
    """Write files into their folders, all or none; what was written where, without folders that nothing goes into.

    Files of `beside` are written with them and not told.
    """
    from panelart.writers import write_folders

    wanted = {place: made for place, made in files.items() if made}
    write_folders([*wanted.items(), *beside.items()])
    return {place: tuple(made) for place, made in wanted.items()}


def _built(task: _Task, panel: Panel) -> dict[Path, Built]:
    """The panel by the folder that its files go into: one, or one of each language, as it is written first."""
    from panelart.pipeline import build, read, read_placement
    from panelart.spec.translations import AS_WRITTEN
    from panelart.stages import Memory, remembering

    saved = None if task.ignore_placement else read_placement(task.spec)
    if task.language != ALL:
        return {task.folder: build(panel, saved, today=task.date)}
    panels = {AS_WRITTEN: panel} | {name: read(task.spec, task.shop, name) for name in panel.languages}
    with remembering(Memory()):  # the words differ, most else does not
        return {task.folder / name: build(one, saved, today=task.date) for name, one in panels.items()}


def _print_findings(task: _Task, made: Mapping[Path, Built]) -> None:
    """Print the findings; of several languages under the name of each."""
    from panelart.cli.findings import print_built

    for number, (place, built) in enumerate(made.items()):
        if len(made) > 1 and not task.quiet:
            print(f"{'' if number == 0 else chr(10)}{place.name}")
        print_built(built, str(task.spec), task.detail)


def _any(built: Iterable[Built]) -> bool:
    return any(one.inspection.findings for one in built)


def print_written(written: Mapping[Path, tuple[str, ...]], detail: Detail, *, apart: bool) -> None:
    """How many files were written into each folder, and in full which for whom; `apart` from what stands above."""
    from panelart.cli.terminal import terminal
    from panelart.documents.installed import documents
    from panelart.documents.table import by_audience
    from panelart.reports.text import Detail
    from panelart.reports.written import written_text

    if detail is Detail.QUIET:
        return
    if apart:
        print()
    for folder, names in written.items():
        print(said.files_written(len(names), folder))
        if detail is Detail.VERBOSE:
            print(written_text(by_audience(names, documents()), terminal(sys.stdout).width))
