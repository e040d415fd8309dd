"""The words that sentences for users are made of: `vocabulary.txt`, sorted, in small letters, one a line.

A word that is not in it makes `test_catalogue.py` fail. First see whether a word that is in it says the same; the same
thing has the same word everywhere. If the new one is needed:

    python tests/messages/vocabulary.py          # shows the new words, and those that no sentence has
    python tests/messages/vocabulary.py --add    # adds the new ones and drops the others
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Final

FILE: Final = Path(__file__).with_name("vocabulary.txt")
ROOT: Final = Path(__file__).parents[2]


def allowed() -> set[str]:
    """The words of the file."""
    return set(FILE.read_text(encoding="utf-8").split())


def used() -> dict[str, str]:
    """Every word of the catalogue with the id of a sentence that has it."""
    from panelart.messages.extract import every_sentence
    from tests.messages.reading import words

    return {word: id_ for id_, sentence in every_sentence().items() for word in words(sentence)}


def main() -> None:
    """Show or take over the difference between the file and the catalogue."""
    known = allowed() if FILE.exists() else set()
    now = used()
    for word in sorted(now.keys() - known):
        print(f"+ {word}  ({now[word]})")
    for word in sorted(known - now.keys()):
        print(f"- {word}")
    if "--add" in sys.argv[1:]:
        from tests.messages.banned import banned_in

        refused = [told for word in sorted(now.keys() - known) for told in banned_in(word)]
        if refused:
            raise SystemExit("\n".join(refused))
        FILE.write_text("".join(f"{word}\n" for word in sorted(now)), encoding="utf-8")


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    main()
