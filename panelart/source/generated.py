"""Parts of pages that are made from the program: printed, or put between their marks.

<!-- keys -->
...
<!-- /keys -->
"""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path


def put_between_marks(page: str, mark: str, made: str) -> str:
    """A page with what was made between its lines `<!-- mark -->` and `<!-- /mark -->`.

    Raises ValueError when the page has not each of them once, in this order.
    """
    begin, end = f"<!-- {mark} -->\n", f"<!-- /{mark} -->"
    before, _, rest = page.partition(begin)
    _, found, after = rest.partition(end)
    if not found or begin in after or end in before + after:
        raise ValueError(f"{begin.strip()} and {end} do not stand in the page once each")
    return f"{before}{begin}{made}\n{end}{after}"


def print_or_write(program: str, mark: str, make: Callable[[], str]) -> None:
    """The command `program [--write PAGE]`. Raises ValueError for a page without the marks."""
    parser = argparse.ArgumentParser(prog=program, description=make.__doc__)
    parser.add_argument("--write", type=Path, metavar="PAGE", help=f"page with the marks <!-- {mark} -->")
    page: Path | None = parser.parse_args().write
    if page is None:
        print(make())  # noqa: T201  # the command is there to print it
    else:
        page.write_text(put_between_marks(page.read_text("utf-8"), mark, make()), encoding="utf-8")
