"""Several specs in one command: spread over the cores, told in order, and not done again while nothing has changed.

What is told of one is what the command tells of it alone, on both streams. One that fails does not stop the others; the
command ends with the highest of their exit codes.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path
from typing import Any, Final

from msgspec.structs import replace

from panelart import extensions
from panelart.canonical import Struct
from panelart.cli.done import Book, Ended, Record, digests_of, folder
from panelart.cli.exits import EXIT_FINDINGS, EXIT_USAGE, EXIT_WRITE, end
from panelart.cli.terminal import PLAIN, Terminal, Transcript, progress, terminal
from panelart.messages import Message
from panelart.messages import cli as said
from panelart.model.panel import Panel

_COUNTS: Final[Mapping[int, Callable[[int], Message]]] = {
    0: said.specs_clean,
    EXIT_FINDINGS: said.specs_with_errors,
    EXIT_USAGE: said.specs_unread,
    EXIT_WRITE: said.specs_unwritten,
}


class Outcome(Struct, frozen=True, kw_only=True):
    """How the work on one spec ended: the exit code, the panels that were read, the files that were written."""

    code: int
    panels: tuple[Panel, ...]
    written: tuple[Path, ...] = ()


class How(Struct, frozen=True, kw_only=True):
    """How several specs are worked on: also those `every` one that has not changed, which share, on which cluster."""

    every: bool
    shard: tuple[int, int] | None
    cluster: str

    @property
    def spread(self) -> bool:
        """Whether one machine of several is spoken of."""
        return self.shard is not None or bool(self.cluster)


class Done(Struct, frozen=True, kw_only=True):
    """What was told of a spec, and the record for later runs, None where there is none.

    `before` is whether it was told in an earlier run.
    """

    spec: Path
    ended: Ended
    record: Record | None = None
    before: bool = False

    @property
    def told_apart(self) -> Done:
        """What was told beside a report for programs."""
        return replace(self, ended=replace(self.ended, out=""))


class Work(Struct, frozen=True, kw_only=True):
    """The work on one spec: a function of a task with a `spec`, which prints.

    A task's `asked` is all of it that decides what is told, but for the `day` on which waivers are looked at.
    """

    run: Callable[[Any], Outcome]
    day: str
    shown: tuple[Terminal, Terminal] = (PLAIN, PLAIN)
    without: tuple[str, ...] = ()

    def __call__(self, task: Any) -> Done:
        """Do it, in any process; what was told and what it rests on."""
        from panelart.cli.omitted import omitting
        from panelart.pipeline import placement_path
        from panelart.spec.members import split

        spec: Path = task.spec
        files = digests_of([split(spec)[0], placement_path(spec)])
        with omitting(self.without):
            outcome, ended = self._ended(task)
        if outcome is None:
            return Done(spec=spec, ended=ended)
        for panel in outcome.panels:
            files |= {str((spec.parent / name).absolute()): digest for name, digest in panel.files}
        files |= digests_of(outcome.written)
        dated = any(waiver.until for panel in outcome.panels for waiver in panel.waivers)
        return Done(spec=spec, ended=ended, record=Record(ended=ended, files=files, day=self.day if dated else ""))

    def _ended(self, task: Any) -> tuple[Outcome | None, Ended]:
        from click.exceptions import Exit

        from panelart.cli.failures import told
        from panelart.cli.usage import Refused, usage_text

        out, err = map(Transcript, self.shown)
        outcome: Outcome | None = None
        with redirect_stdout(out), redirect_stderr(err):
            try:
                outcome = self.run(task)
                code = outcome.code
            except Exit as ending:
                code = ending.exit_code
            except Refused as error:
                print(usage_text(error), file=err)
                code = EXIT_USAGE
            except Exception as error:  # noqa: BLE001  # told of this spec; the others go on
                failed = told(error)
                if failed is None:
                    print(said.failed_inside(task.spec.as_posix(), repr(error)), file=err)
                code = EXIT_WRITE if failed is None else failed
        return outcome, Ended(out=out.getvalue(), err=err.getvalue(), code=code)


def done(work: Work, tasks: Sequence[Any], how: How) -> Iterator[Done]:
    """What is told of each spec, in order; the share of this machine only, where there are shares."""
    if how.shard is not None:
        number, count = how.shard
        tasks = tasks[number - 1 :: count]
    work = replace(work, shown=(terminal(sys.stdout), terminal(sys.stderr)), without=extensions.left_out())
    book = None if extensions.known() else Book(folder(), work.shown)
    known = {} if book is None or how.every else _known(book, work, tasks)
    left = [task for task in tasks if task.spec not in known]
    with progress(len(tasks), said.working()) as step:
        step(len(known))
        made = _spread(work, left, how.cluster)
        for task in tasks:
            before = known.get(task.spec)
            if before is not None:
                yield Done(spec=task.spec, ended=before, before=True)
                continue
            now = next(made)
            if book is not None and now.record is not None:
                book.keep(task.asked, now.record)
            yield now
            step(1)


def _spread(work: Work, tasks: Sequence[Any], cluster: str) -> Iterator[Done]:
    if cluster:
        from panelart.cli.cluster import over_cluster

        return over_cluster(work, tasks, _ended_by_system, cluster)
    from panelart.cli.cores import over_cores  # the pool's libraries take 14 ms, which one spec has no need of

    return over_cores(work, tasks, _ended_by_system)


def _known(book: Book, work: Work, tasks: Sequence[Any]) -> dict[Path, Ended]:
    found = ((task.spec, book.done(task.asked, work.day)) for task in tasks)
    return {spec: ended for spec, ended in found if ended is not None}


def _ended_by_system(task: Any) -> Done:
    told = str(said.ended_by_system(task.spec.as_posix()))
    return Done(spec=task.spec, ended=Ended(out="", err=f"{told}\n", code=EXIT_WRITE))


def print_texts(results: Iterable[Done], *, apart: bool) -> list[Done]:
    """Print what was told of each, `apart` by an empty line; what was done.

    With a bar on the terminal it is printed once the bar is gone.
    """
    ended: list[Done] = []
    waits = sys.stderr.isatty() and sys.stdout.isatty()
    try:
        for one in results:
            ended.append(one)
            if not waits:
                _print(one, apart=apart and len(ended) > 1)
    finally:
        for number, one in enumerate(ended if waits else ()):
            _print(one, apart=apart and number > 0)
    return ended


def _print(one: Done, *, apart: bool) -> None:
    if apart and one.ended.out:
        print()
    sys.stdout.write(one.ended.out)
    sys.stdout.flush()
    sys.stderr.write(one.ended.err)


def print_totals(ended: Sequence[Done], *, quiet: bool) -> None:
    """Print how many ended how, and end with the highest exit code."""
    codes = Counter(one.ended.code for one in ended)
    if not quiet:
        print()
        print(said.specs_done(len(ended), [_COUNTS[code](codes[code]) for code in sorted(codes)]))
        before = [one for one in ended if one.before]
        if before:
            print(said.specs_unchanged(len(before)), file=sys.stderr)
    if max(codes, default=0):
        end(max(codes))
