"""Work handed to the machines of a Dask scheduler that somebody runs: results in the order of what was given.

The machines share a file system with this one, under the same paths: they read specs and write files where this machine
would. A scheduler runs a work again when its worker is lost; files are written whole or not at all, so that a work done
twice leaves the same. Records of what was done are kept by the process that hands the work out, and by no other.

Workers have one thread each: a work catches what it prints, which a process has once.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, Generic, TypeVar

from panelart import __version__
from panelart.cli.usage import refuse
from panelart.extras import require
from panelart.messages import cli_usage as said

if TYPE_CHECKING:
    from distributed import Client

Given = TypeVar("Given")
Result = TypeVar("Result")

_OPTION: Final = "--cluster"
_PATIENCE: Final = 10
"""How many seconds a scheduler has to answer."""

_RETRIES: Final = 2
"""How often a work is done again after its worker was lost; one that loses more of them is at fault itself."""


def over_cluster(
    work: Callable[[Given], Result], given: Sequence[Given], ended: Callable[[Given], Result], address: str
) -> Iterator[Result]:
    """What `work` gives for each, in order; `ended` gives what stands for one that ends every worker that takes it.

    Raises Refused where no scheduler answers, it has no workers, or not such as are needed.
    """
    require("cluster")
    from distributed import Client
    from distributed.scheduler import KilledWorker

    try:
        client = Client(address, timeout=_PATIENCE, set_as_default=False)  # type: ignore[no-untyped-call]
    except (OSError, ValueError):
        refuse(_OPTION, said.no_scheduler(address))
    with client:
        _require_workers(client, address)
        futures = client.map(_There(Path.cwd(), work), given, pure=False, retries=_RETRIES)
        for each, future in zip(given, futures, strict=True):
            try:
                result = future.result()
            except KilledWorker:
                result = ended(each)
            future.release()  # type: ignore[no-untyped-call]
            yield result


class _There(Generic[Given, Result]):
    """A work, done in the folder of the process that hands it out."""

    def __init__(self, folder: Path, work: Callable[[Given], Result]) -> None:
        self._folder, self._work = folder, work

    def __call__(self, given: Given) -> Result:
        os.chdir(self._folder)
        return self._work(given)


def _require_workers(client: Client, address: str) -> None:
    """Raises Refused where there are no workers, some have several threads, or have another version of this program."""
    workers: dict[str, Any] = client.scheduler_info(n_workers=-1)["workers"]
    if not workers:
        refuse(_OPTION, said.no_workers(address), said.start_workers(address))
    threaded = [worker for worker in workers.values() if worker["nthreads"] != 1]
    if threaded:
        refuse(_OPTION, said.workers_of_many_threads(len(threaded)), said.start_workers(address))
    others = sorted(set(client.run(_version).values()) - {__version__})
    if others:
        refuse(_OPTION, said.workers_of_other_versions(others, __version__), said.install_there())


def _version() -> str:
    return __version__
