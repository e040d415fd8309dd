"""How component lists are read and drafted: `python tests/benchmarks/lists.py [--rows] [--drafts]`, by the kept lists.

What is told by form of list: rows taken rightly, asked with the right candidate first, asked uselessly, wrong, lost;
questions and processor time a list. `--rows` adds every row that is not right.

`--drafts` plays the user by the truth of each list: what they must do from the list to a first panel, and what `check`
then says of it. Answers are entries in the file of answers, corrections such entries for rows that were taken wrongly;
parts to measure are those that the catalogue lacks, which are left off the panel. Edits are what is left by hand:
rows that no answer puts right, and findings at error level. Warnings are told, as most are facts that no list has
(a legend, a rating). Minutes of a person are not measured; the processor's seconds are, reading and drafting once
without answers and once with them.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

import yaml

from tests.lists.answered import Drafted, drafted
from tests.lists.judged import LISTS, count_of_questions, counted, judged


def main() -> None:
    """Judge and print."""
    if "--drafts" in sys.argv:
        tell_drafts()
        return
    by_form: dict[str, Counter[str]] = {}
    seconds, questions = [], []
    for path in LISTS:
        form = yaml.safe_load(path.with_name(f"{path.stem}.truth.yaml").read_text(encoding="utf-8"))["form"]
        started = time.process_time()
        listed, rows = judged(path)
        seconds.append(time.process_time() - started)
        questions.append(count_of_questions(listed))
        by_form.setdefault(form, Counter()).update(counted(rows))
        if "--rows" in sys.argv:
            for row in rows:
                if row.end not in ("right", "left", "asked first"):
                    print(f"{row.file}:{row.row}: {row.end}: {row.told}: {row.words[:90]}")
    for form, ends in (*by_form.items(), ("all", sum(by_form.values(), Counter()))):
        print(f"{form}: {ends.total()} rows: {dict(ends)}")
    print(f"questions a list: median {statistics.median(questions)}, most {max(questions)}")
    print(f"CPU s a list: median {statistics.median(seconds):.2f}, most {max(seconds):.2f}")


def tell_drafts() -> None:
    """What each list takes until its panel checks without errors."""
    with tempfile.TemporaryDirectory() as folder:
        done = [_timed(path, Path(folder)) for path in LISTS]
    for path, (made, seconds) in zip(LISTS, done, strict=True):
        print(
            f"{path.name}: {made.of.answers} answers, {made.of.corrections} corrections, {made.of.lacking} to measure, "
            f"{edits(made)} edits; {dict(made.errors)} errors, {made.warnings.total()} warnings; {seconds:.1f} s"
        )
    drafts, seconds = [made for made, _ in done], [taken for _, taken in done]
    for what, amounts in (
        ("answers", [made.of.answers for made in drafts]),
        ("corrections", [made.of.corrections for made in drafts]),
        ("parts to measure", [made.of.lacking for made in drafts]),
        ("edits", [edits(made) for made in drafts]),
        ("CPU s", seconds),
    ):
        print(
            f"{what}: median {statistics.median(amounts):g}, mean {statistics.mean(amounts):.1f}, most {max(amounts):g}"
        )
    clean = [made for made in drafts if not made.errors]
    untouched = [made for made in clean if not (made.of.answers or made.of.corrections or made.of.wrong)]
    print(f"checks without errors once answered: {len(clean)} of {len(drafts)} lists, {len(clean) / len(drafts):.0%}")
    print(f"checks without errors with nothing asked or put right: {len(untouched)} of {len(drafts)} lists")
    print(f"errors: {dict(sum((made.errors for made in drafts), Counter()).most_common())}")
    print(f"warnings: {dict(sum((made.warnings for made in drafts), Counter()).most_common())}")


def edits(made: Drafted) -> int:
    """What is left to be done by hand in the spec."""
    return made.of.wrong + made.errors.total()


def _timed(path: Path, folder: Path) -> tuple[Drafted, float]:
    started = time.process_time()
    made = drafted(path, folder)
    return made, time.process_time() - started


if __name__ == "__main__":
    main()
