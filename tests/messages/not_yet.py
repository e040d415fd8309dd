"""What has not been converted yet: modules with sentences in their code, and sentences in their old wording.

The lists in `not_yet.txt` only shrink. After sentences were moved to the catalogue or reworded, take them off with

    python -m tests.messages.not_yet

which lowers the counts of modules, drops what is done, and adds nothing. A room is done when none of its modules and
none of its sentences is in the file.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from panelart.messages.extract import every_sentence
from tests.messages.literals import literals_by_module
from tests.messages.reading import style_faults

FILE: Final = Path(__file__).with_name("not_yet.txt")


@dataclass(frozen=True)
class NotYet:
    """How many sentences each module has in its code, and the ids of sentences in their old wording."""

    literals: Mapping[str, int]
    wording: frozenset[str]


def listed() -> NotYet:
    """What the file lists."""
    rows = [line.split() for line in FILE.read_text(encoding="utf-8").splitlines() if line and line[0] != "#"]
    literals = {row[1]: int(row[2]) for row in rows if row[0] == "literals"}
    return NotYet(literals, frozenset(row[1] for row in rows if row[0] == "wording"))


def found() -> NotYet:
    """What the code and the catalogue have."""
    literals = {module: len(sites) for module, sites in literals_by_module().items()}
    old = (sentence.id for sentence in every_sentence().values() if style_faults(sentence))
    return NotYet(literals, frozenset(old))


def smaller(before: NotYet, now: NotYet) -> NotYet:
    """The list without what is done; nothing is added."""
    literals = {module: min(count, now.literals.get(module, 0)) for module, count in before.literals.items()}
    return NotYet({module: count for module, count in literals.items() if count}, before.wording & now.wording)


def write(what: NotYet) -> None:
    """Write the file."""
    lines = [
        "# Not converted yet: it only shrinks, by `python -m tests.messages.not_yet`.",
        *(f"literals {module} {count}" for module, count in sorted(what.literals.items())),
        *(f"wording {id_}" for id_ in sorted(what.wording)),
    ]
    FILE.write_text("\n".join(lines) + "\n", encoding="utf-8")


def main() -> None:
    """Take what is done off the file."""
    before = listed()
    after = smaller(before, found())
    write(after)
    print(f"literals in code: {sum(before.literals.values())} -> {sum(after.literals.values())}")
    print(f"old wording: {len(before.wording)} -> {len(after.wording)}")


if __name__ == "__main__":
    main()
