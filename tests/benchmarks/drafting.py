"""First panels compared with filled rows, list by list: python tests/benchmarks/drafting.py.

Filled rows: the same parts with the same room and frames, left to right in the order of the list, at the width of the
draft and as high as the next step of heights. Broken: parts that share no row or no column with another. Close:
findings that more room would cure. Seconds are the processor's; a list that takes longer than the bar makes the exit
status 1.
"""

from __future__ import annotations

import math
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from panelart.drafting.blocks import Fixing
from panelart.drafting.plan import alignments_broken
from panelart.drafting.sized import SIZE_STEP
from tests.drafting.baseline import rows_filled
from tests.drafting.cases import LISTS, case

BAR = 10.0
"""Most seconds for a list of up to 120 parts."""


def main() -> None:
    late = False
    print(f"{'list':<20} {'parts':>5} {'asked':>5} {'draft mm':>16} {'rows mm':>16} {'area':>6}", end="")
    print("  broken  close  errors     s")
    for path in LISTS:
        start = time.process_time()
        made = case(path.stem)
        took = time.process_time() - start
        late |= took > BAR
        blocks, framed = made.blocks()
        width, height = made.panel.size
        inner = [block for block in blocks if block.fixing is Fixing.NONE]
        own = {part.ref: part.at for part in made.panel.parts}
        side = min(20.0, *(own[block.ref].x + block.all_round.left for block in inner))
        plain, places = rows_filled(blocks, framed, width, side, made.spacing)
        plain = SIZE_STEP * math.ceil(plain / SIZE_STEP)
        refs = [block.ref for block in inner]
        broken = f"{alignments_broken(own, refs):>3} /{alignments_broken(places, refs):>3}"
        print(
            f"{path.stem:<20} {len(blocks):>5} {len(made.listed.questions):>5} {f'{width:g} x {height:g}':>16} "
            f"{f'{width:g} x {plain:g}':>16} {100 * height / plain:>5.0f}% {broken:>7} {made.tried.crowded:>6} "
            f"{made.tried.errors:>7} {took:>5.1f}"
        )
    sys.exit(late)


if __name__ == "__main__":
    main()
