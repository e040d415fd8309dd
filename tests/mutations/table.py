"""Print the table of faults: what was done, to which demo, what was found. `python tests/mutations/table.py`."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.mutations.faults import FAULTS
from tests.mutations.test_mutations import appeared


def main() -> int:
    wrong = 0
    for fault in FAULTS:
        found = appeared(fault)
        right = found == fault.found
        wrong += not right
        told = "; ".join(f"{rule} ({', '.join(refs)})" for rule, refs in sorted(found))
        print(f"{'found' if right else 'WRONG'}  {fault.demo:<13}{fault.what:<52}{told}")
    rules = {rule for fault in FAULTS for rule, _ in fault.found}
    print(f"{len(FAULTS) - wrong} of {len(FAULTS)} faults found by the right rules alone; {len(rules)} rules")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
