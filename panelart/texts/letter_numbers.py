"""Numbers written as capital letters, as columns of spreadsheets and copies of parts are."""

from __future__ import annotations


def in_letters(number: int) -> str:
    """A number from 0 as letters: A to Z, then AA, AB and so on."""
    more, letter = divmod(number, 26)
    return (in_letters(more - 1) if more else "") + chr(ord("A") + letter)
