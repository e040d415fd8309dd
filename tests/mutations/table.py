"""Print the faults: what was done, to which demo, what was found. `python tests/mutations/table.py`.

First those that belong to one demo, then every kind of fault in every demo that has a place for it.
"""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.mutations.faults import FAULTS, Found, clean
from tests.mutations.kinds import KINDS
from tests.mutations.test_mutations import DEMOS, appeared, expected


def main() -> int:
    wrong = done = 0
    rules: set[str] = set()

    def told(demo: str, what: str, found: Found, wanted: Found) -> None:
        nonlocal wrong, done
        done += 1
        wrong += found != wanted
        rules.update(rule for rule, _ in wanted)
        words = "; ".join(f"{rule} ({', '.join(refs)})" for rule, refs in sorted(found))
        print(f"{'found' if found == wanted else 'WRONG'}  {demo:<13}{what:<52}{words}")

    for fault in FAULTS:
        told(
            fault.demo, fault.what, appeared(fault.demo, fault.change(clean(fault.demo)), fault.today), expected(fault)
        )
    for kind in KINDS:
        for demo in DEMOS:
            made = kind.inject(clean(demo))
            if made is not None:
                told(demo, kind.what, appeared(demo, made[0](clean(demo)), kind.today), made[1])
    print(
        f"{done - wrong} of {done} found by the right rules alone: {len(FAULTS)} faults in one demo each, "
        f"{len(KINDS)} kinds in all of {len(DEMOS)}; {len(rules)} rules"
    )
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
