"""The scripts of characters, which tell how they are shaped and which of them one font must have together."""

from __future__ import annotations

from typing import Final

SHARED: Final = "Zyyy"
_SCRIPTS: Final = (
    ("\u038e", "\u03a1", "Grek"),
    ("\u03a3", "\u03e1", "Grek"),
    ("\u200e", "\u2064", SHARED),
    ("\u20a0", "\u20c0", SHARED),
    ("\u2126", "\u2126", "Grek"),
    ("\u2190", "\u2429", SHARED),
    ("\u2460", "\u27ff", SHARED),
)
"""The scripts of signs and letters that are met with on panels in Latin letters (Unicode, Scripts.txt)."""


def script_of(letter: str) -> str:
    """The script of a character as its ISO 15924 tag, Zyyy for what is of many scripts, of none or not known."""
    if letter < "\u0250":
        return "Latn" if letter.isalpha() and letter != "\u00b5" else SHARED
    known = next((script for first, last, script in _SCRIPTS if first <= letter <= last), "")
    if known:
        return known
    import uharfbuzz as hb  # few legends need it

    buffer = hb.Buffer()
    buffer.add_codepoints([ord(letter)])
    buffer.guess_segment_properties()
    return buffer.script or SHARED


def scripts_of(line: str) -> list[str]:
    """The script of each character as its ISO 15924 tag; what belongs to no script takes that of its neighbour."""
    if all(letter < "\u0250" for letter in line):
        return ["Latn"] * len(line)
    found = [script_of(letter) for letter in line]
    current = next((script for script in found if script != SHARED), "Latn")
    for place, script in enumerate(found):
        current = current if script == SHARED else script
        found[place] = current
    return found
