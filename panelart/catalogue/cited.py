"""The sources of the figures of a part, each told once and named by a letter beside the figures that are from it."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.figure import Figure

_ALPHABET = 26


class Cited:
    """Sources in the order in which they are met."""

    def __init__(self) -> None:
        self._letters: dict[str, str] = {}

    def letters(self, figure: Figure) -> str:
        """The letters of a figure's sources: a; a, c. After z comes aa."""
        return ", ".join(dict.fromkeys(map(self._letter, figure.sources)))

    def _letter(self, source: str) -> str:
        count = len(self._letters)
        first = chr(96 + count // _ALPHABET) if count >= _ALPHABET else ""
        return self._letters.setdefault(source, f"{first}{chr(97 + count % _ALPHABET)}")

    def __iter__(self) -> Iterator[tuple[str, str]]:
        """Each letter with its source."""
        return ((letter, source) for source, letter in self._letters.items())

    def __len__(self) -> int:
        return len(self._letters)
