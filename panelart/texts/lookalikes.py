"""Names that look like others: lnput for Input, a Cyrillic letter within a Latin word.

Shapes are brought to one each (what Unicode TR 39 calls a skeleton); the letters that matter on panels are listed here,
chosen by what sans-serif letters look like (common practice; the Cyrillic and Greek ones after Unicode's
confusables.txt, from memory).
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from panelart.texts.characters import script

_SHAPES: Final = str.maketrans(
    {
        "I": "l",
        "1": "l",
        "|": "l",
        "ı": "i",
        "0": "O",
        # Cyrillic and Greek capitals and small letters that are drawn as Latin ones.
        **dict(zip("АВЕКМНОРСТХУІЅЈ", "ABEKMHOPCTXYlSJ", strict=True)),
        **dict(zip("аеорсхуіѕј", "aeopcxyisj", strict=True)),
        **dict(zip("ΑΒΕΖΗΙΚΜΝΟΡΤΥΧο", "ABEZHlKMNOPTYXo", strict=True)),
    }
)
_LATIN_OF_OTHERS: Final = frozenset("ABEKMHOPCTXYISJZNaeopcxyisjo")
"""Latin letters that Cyrillic or Greek ones look like."""

_KNOWN: Final = """
    input output line mic level gain volume balance bass treble mid filter frequency tune tuning on off power mains fuse
    in out left right mono stereo phase mute solo pan auto manual start stop run reset test alarm fault limit remote
    local main monitor phones headphones speaker aux send return clip signal peak trigger sync clock data control
    current voltage temperature pressure speed time delay rate depth attack decay sustain release low high minimum
    maximum open close closed light lamp display dim bright menu select enter cancel exit hold lock record play pause
    internal external single normal coarse fine zero full scale battery charge link status ready error
    phantom bus memory pump program
""".split()  # noqa: SIM905  # a list of words reads as one


_WORDS: Final = frozenset(_KNOWN)


def is_usual(name: str) -> bool:
    """Whether a name is a usual word of panels in whatever case."""
    return name.casefold() in _WORDS


def skeleton(name: str) -> str:
    """The shape of a name: two names of one shape are taken for each other. Small and capital letters differ."""
    return name.translate(_SHAPES)


def _joined(shape: str) -> str:
    """A shape with small letters that run into each other read as the one that they look like."""
    return shape.replace("rn", "m").replace("vv", "w").replace("cl", "d")


_SHAPED: Final = {skeleton(form): word for word in _KNOWN for form in (word, word.upper(), word.capitalize())}
_IN_CAPITALS: Final = str.maketrans("IL1|0", "llllO")
"""Capitals of letters and figures that look alike as small letters or as capitals: LNPUT was lnput, FAUIT was fauIt."""

_CAPITALS: Final = {word.upper().translate(_IN_CAPITALS): word for word in _KNOWN}
_LEAST_CAPITALS: Final = 4
"""Letters of a name in capitals from which it may be a misread one: MLC is an abbreviation."""

_LEAST: Final = 3
"""Letters of a Latin name from which it may be a misread one: ln is a logarithm."""


def meant(name: str) -> str | None:
    """The usual word that a name has the shape of and is not: 'input' for lnput. None if it is a word, or like none."""
    if name == "1N" or (len(name) < _LEAST and name.isascii() and name.isalpha()):
        return None  # 1N is one pole with neutral, a newton, the diodes; ln a logarithm
    if name.rstrip("0123456789").casefold() in _WORDS:
        return None  # Mic1 is the first of them, and no Mid
    shape = skeleton(name)
    word = _SHAPED.get(shape) or _SHAPED.get(_joined(shape)) or _with_figures(name) or _in_capitals(name)
    return word if word is not None and name.casefold() != word else None


_FIGURES: Final = str.maketrans("0158", "olsb")
_LETTERS_OF: Final = {word.translate(str.maketrans("i", "l")): word for word in _KNOWN}


def _with_figures(name: str) -> str | None:
    """The usual word that a name is with figures for letters: St0p, 5top, Cl0ck; letters outnumber them."""
    figures = sum(map(str.isdecimal, name))
    if not 0 < 2 * figures < len(name):
        return None
    return _LETTERS_OF.get(name.casefold().translate(_FIGURES).replace("i", "l"))


def _in_capitals(name: str) -> str | None:
    """The usual word that a name in capitals was, letters of one shape taken for each other before they were raised."""
    if len(name) < _LEAST_CAPITALS or not name.isupper():
        return None
    return _CAPITALS.get(name.translate(_IN_CAPITALS))


def mixed_scripts(word: str) -> tuple[str, ...]:
    """The scripts of a word's letters if most are of one and the others look like letters of that one.

    Of Latin, Greek and Cyrillic; Δt and ΔT are two letters that nobody mistakes.
    """
    return tuple(sorted({script(letter) for letter in _letters(word)})) if strange_letters(word) else ()


def _letters(word: str) -> list[str]:
    """The letters of the scripts that have look-alikes, without those that are symbols in any script."""
    return [letter for letter in word if letter not in "µμΩ" and script(letter) in ("LATIN", "GREEK", "CYRILLIC")]


def strange_letters(word: str) -> tuple[str, ...]:
    """The letters of a word that look like those of the script that most of its letters are of, each once.

    Of two letters the one that is not Latin is the strange one.
    """
    letters = _letters(word)
    scripts = [script(letter) for letter in letters]
    mixed = sorted(set(scripts))
    if len(mixed) < 2:
        return ()
    main = max(mixed, key=lambda each: (scripts.count(each), each == "LATIN"))
    others = [letter for letter, of in zip(letters, scripts, strict=True) if of != main]
    few = 2 * len(others) < len(letters) + (main == "LATIN")
    return tuple(dict.fromkeys(others)) if few and all(map(_looks_otherwise, others)) else ()


def _looks_otherwise(letter: str) -> bool:
    return letter in _LATIN_OF_OTHERS if letter.isascii() else ord(letter) in _SHAPES


def alike(names: Iterable[str]) -> tuple[tuple[str, str], ...]:
    """Pairs of different names that have one shape, in the order of the names."""
    seen: dict[str, str] = {}
    pairs: list[tuple[str, str]] = []
    for name in names:
        first = seen.setdefault(skeleton(name), name)
        if first != name and first.casefold() != name.casefold():
            pairs.append((first, name))
    return tuple(pairs)
