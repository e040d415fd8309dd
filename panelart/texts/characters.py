"""Which characters words are made of, for the patterns of this room.

A letter is what Unicode calls one, with the marks that are set on it; raised and lowered figures and fractions are
none, though Python takes them for such.
"""

from __future__ import annotations

import re
import unicodedata
from typing import Final

_NO_LETTERS: Final = "_²³¹¼½¾\u2070-\u209f\u2150-\u218b"
_COMBINED: Final = (
    "\u0300-\u036f\u0483-\u0487\u0591-\u05bd\u05bf\u05c1\u05c2\u05c4\u05c5\u05c7\u0610-\u061a\u064b-\u065f\u0670"
    "\u06d6-\u06dc\u06df-\u06e4\u06e7\u06e8\u0900-\u0963\u0966-\u0dff\u0e00-\u0eff\u0f00-\u109f\u1780-\u17ff"
    "\u200c\u200d\ufe0e\ufe0f"
)
"""Marks on letters of the scripts that have them; whole blocks where letters and marks lie mixed."""

LETTER: Final = rf"[^\W\d{_NO_LETTERS}]"
"""Pattern of one letter."""

LETTER_OR_FIGURE: Final = rf"(?:[^\W{_NO_LETTERS}]|[{_COMBINED}₀-₉])"
"""Pattern of what a word may go on with."""

_CLUSTER: Final = re.compile(rf"{LETTER_OR_FIGURE}+(?:[-'’\u2011\u05f3\u05f4]{LETTER_OR_FIGURE}+)*")


def is_east_asian(character: str) -> bool:
    """Whether a character is kana, Han or Hangul: words of them join figures and Latin letters without a blank.

    The few scripts between their blocks count as well. No class of a pattern has them, since Python takes a millisecond
    to compile each that spans so many characters.
    """
    return "\u3040" <= character <= "\ud7af"


def within_script(pattern: re.Pattern[str], text: str, at: int) -> re.Match[str] | None:
    """What a pattern matches here, up to where letters of East Asia begin or end."""
    found = pattern.match(text, at)
    if found is None or found[0].isascii():
        return found
    first = is_east_asian(text[at])
    for end in range(at + 1, found.end()):
        if is_east_asian(text[end]) is not first:
            return pattern.match(text, at, end)
    return found


def cluster_at(text: str, at: int) -> re.Match[str] | None:
    """A word here, with hyphens and apostrophes within it."""
    return within_script(_CLUSTER, text, at)


JOINED_TO: Final = re.compile(rf"{LETTER_OR_FIGURE}|[-'’]{LETTER}|_")
"""What makes another word of what stands before it."""

SPACE: Final = re.compile(r"\s+")


_ACCENT: Final = re.compile("[\u0300-\u036f]")
_BARE: Final = str.maketrans({"ı": "i", "ł": "l", "ø": "o", "đ": "d"})
"""Letters that people write without their mark where a keyboard lacks them, and that Unicode does not take apart."""


def folded(word: str) -> str:
    """A word by its letters alone, however it is written: in small letters, without accents, ß as ss.

    So capitals without accents, as Greek and French have them, are the same word: ARRET, arrêt; a Greek sigma
    is one letter, whether it ends a word or not.
    """
    plain = _ACCENT.sub("", unicodedata.normalize("NFD", word.casefold()))
    return unicodedata.normalize("NFC", plain).translate(_BARE)


FIRST_RIGHT_TO_LEFT: Final = "\u0590"
"""No letter before the Hebrew block runs from the right (UnicodeData.txt)."""


def is_symbol(character: str) -> bool:
    """Whether a character is a sign of its own: an arrow or a pictogram, and no punctuation."""
    if character in "|<>=^`$¦¬¨´¸¯":
        return False
    return unicodedata.category(character)[0] == "S"


def is_right_to_left(letter: str) -> bool:
    """Whether a letter is of a script that runs from the right."""
    return unicodedata.bidirectional(letter) in ("R", "AL")


def script(word: str) -> str:
    """The script of a word's first letter by Unicode's names: 'LATIN', 'GREEK', 'HEBREW'; '' for none."""
    for character in word:
        if character.isalpha():
            return unicodedata.name(character, "").split(" ")[0]
    return ""
