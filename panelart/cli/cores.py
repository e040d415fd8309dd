"""Work spread over the cores of this machine: one pool of processes, results in the order of what was given.

A process that the system ends (no memory is left) takes the pool with it: what was not done then is done again, one at
a time, and what ends its process alone is told as such.
"""

from __future__ import annotations

import gc
import multiprocessing
import os
import signal
import sys
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from typing import Final, TypeVar

Given = TypeVar("Given")
Result = TypeVar("Result")

_LOADED_FIRST: Final = ["panelart.cli.failures", "panelart.pipeline", "panelart.reports.text"]
"""What the processes share, imported once in the one that they are made from."""


def cores() -> int:
    """How many cores this process may use."""
    usable = getattr(os, "sched_getaffinity", None)
    return len(usable(0)) if usable is not None else os.cpu_count() or 1


def over_cores(
    work: Callable[[Given], Result], given: Sequence[Given], ended: Callable[[Given], Result]
) -> Iterator[Result]:
    """What `work` gives for each, in order, as it is done; `ended` gives what stands for one that ends its process.

    One alone is done in this process.
    """
    if len(given) == 1:
        yield work(given[0])
        return
    done = 0
    try:
        with _pool(min(cores(), len(given))) as pool:
            for future in [pool.submit(work, each) for each in given]:
                yield future.result()
                done += 1
    except BrokenProcessPool:
        for each in given[done:]:
            yield _alone(work, each, ended)


def _alone(work: Callable[[Given], Result], given: Given, ended: Callable[[Given], Result]) -> Result:
    try:
        with _pool(1) as pool:
            return pool.submit(work, given).result()
    except BrokenProcessPool:
        return ended(given)


@contextmanager
def _pool(count: int) -> Iterator[ProcessPoolExecutor]:
    """A pool whose processes are gone when this is left by an error; what waits then is never begun."""
    pool = ProcessPoolExecutor(count, mp_context=_context(), initializer=_begun)
    try:
        yield pool
    except BaseException:
        for process in list((pool._processes or {}).values()):  # noqa: SLF001  # no public name before Python 3.14
            process.terminate()
        pool.shutdown(wait=True, cancel_futures=True)
        raise
    pool.shutdown()


def _context() -> multiprocessing.context.BaseContext:
    """Processes made from one that has loaded the libraries and has no threads; from nothing where there is no such."""
    if sys.platform == "win32":
        return multiprocessing.get_context("spawn")
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload(_LOADED_FIRST)
    return context


def _begun() -> None:
    """An interrupt is for the process that hands the work out, which ends the others."""
    from panelart.cli import SELDOM

    gc.set_threshold(SELDOM)
    signal.signal(signal.SIGINT, signal.SIG_IGN)
