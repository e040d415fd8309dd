"""How often the stated error of register holds, on 10,000 made-up pieces: `python -m tests.benchmarks.registering`."""

from __future__ import annotations

import time

from tests.press.pieces_on_bed import MEASURED, held

PIECES = 2_500
"""Of each set of measured features."""


def main() -> None:
    for name, features in MEASURED.items():
        began = time.process_time()
        share = held(features, PIECES, 7)
        print(
            f"{name}: {100 * share:.1f} % of {PIECES} held; {(time.process_time() - began) / PIECES * 1e3:.1f} ms each"
        )


if __name__ == "__main__":
    main()
