"""How long the catalogue takes: a search, and all of its parts drawn and written as sheets.

    python tests/benchmarks/catalogue.py

Bars, in seconds of the processor on a desk machine of its own: a search 0.1, the sheets 10.
"""

from __future__ import annotations

import sys
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).parents[2]))

from panelart.catalogue.search import search
from panelart.sheets.catalogue import catalogue_sheets
from panelart.writers import pdf

WORDS = (
    "toogle switch", "potentiometer 10k", "Kippschalter 12 mm", "prise jack 6,35", "led 5 mm bezel", "BNC",
    "fuse holder 5x20", "mains inlet C14", "rotary switch 12 positions", "meter 96x48",
)  # fmt: skip


def main() -> int:
    """Print both; the first search loads what searches share, and is told by itself."""
    start = process_time()
    search(WORDS[0])
    first = process_time()
    for words in WORDS:
        search(words)
    searched = process_time()
    written = pdf(catalogue_sheets("panelart"), live=True)
    drawn = process_time()
    print(f"first search {first - start:.2f} s, each further one {(searched - first) / len(WORDS) * 1000:.1f} ms")
    print(f"sheets of the whole catalogue {drawn - searched:.1f} s, {len(written) / 1e6:.1f} MB")
    return 0


if __name__ == "__main__":
    sys.exit(main())
