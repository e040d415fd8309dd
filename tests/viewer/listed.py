"""A list of an invented maker, its first draft, and the page that asks about it."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import yaml

from panelart.catalogue import names
from panelart.drafting.arrange import Request
from panelart.drafting.listed import Wishes
from panelart.drafting.sizes import size_wish
from panelart.lists.matching import Matcher
from panelart.viewer.listing import Listing
from tests.commands import run_within
from tests.viewer.running import Running, running

LIST = """\
Ref,Description,Order code,Legend
S1,toggle switch 12 mm,T-12,Power
S2,rotary switch,RS-7,Range
S3,rotary switch,RS-8,Mode
J1,mains inlet,,
M1,panel meter,,Output
"""


def draft(folder: Path) -> None:
    """Write the list into a folder and its first draft by the command, as a person types it."""
    (folder / "list.csv").write_text(LIST, encoding="utf-8")
    done = run_within("draft", "list.csv", cwd=folder)
    assert not done.stderr


def listed(folder: Path) -> Listing:
    """The list of a folder and its draft, for the page."""
    spec = folder / "list.yaml"
    return Listing(
        file=folder / "list.csv",
        answers=folder / "list-answers.yaml",
        given=(),
        columns={},
        wishes=Wishes(
            spec=spec,
            sides=("front",),
            request=Request(wish=size_wish("smallest", ""), grid=1.0, maximum=1),
            stem="list",
        ),
        matcher=Matcher(),
        names=tuple(names()),
    )


@contextmanager
def asking(listing: Listing, *, fresh: bool = True) -> Iterator[Running]:
    """The page at work; of a `fresh` draft it knows the text."""
    spec = listing.wishes.spec
    with running(spec, None, listing, spec.read_text("utf-8") if fresh else None) as served:
        served.settle()
        yield served


def parts(spec: Path) -> dict[str, dict[str, Any]]:
    """The parts of a spec by ref, as PyYAML reads them."""
    return {part["ref"]: part for part in yaml.safe_load(spec.read_bytes())["parts"]}


def answers(listing: Listing) -> dict[str, str]:
    """The answers in the file, as PyYAML reads it, by their words."""
    read = yaml.safe_load(listing.answers.read_bytes())["answers"]
    return {" + ".join(one["words"]): str(one["part"]) for one in read}


def rooms(listing: Listing) -> dict[str, list[float]]:
    """The room kept for open parts, by ref."""
    (one,) = yaml.safe_load(listing.answers.read_bytes())["rooms"]
    assert one["spec"] == listing.wishes.spec.name
    found: dict[str, list[float]] = one["places"]
    return found


def wait(done: Callable[[], bool]) -> None:
    """Waits until something is so."""
    end = time.monotonic() + 20.0
    while not done():
        assert time.monotonic() < end
        time.sleep(0.02)
