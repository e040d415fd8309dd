"""Braces in the words of legends: numbers of repeats, and stretches that are lettered in a way of their own.

    {n}              the number of the copy that a repeat makes
    {super 2}        raised and smaller            {sub in}      lowered and smaller
    {bar RESET}      with a bar over it, for a signal that is active when low
    {fraction 1/4}   as one fraction               {small Volts} in small capitals of the font
    {keep mA}        spelled as it stands, whatever `case` says
    {unit ms}        a unit, and no word         {word ms}   a word, and no unit
    {{  }}           a brace itself

A word, one space, then what it applies to; such stretches may stand within each other, and a number may stand in
them. Of a unit and a word within each other the outer one counts. Within a stretch the next brace closes it, so that a
closing brace cannot be a letter there.

A soft hyphen (U+00AD) is a place where a word may be broken, a zero-width space (U+200B) one where a line may end
without a hyphen; they become spans of no characters.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import accumulate
from typing import Final

from msgspec import field
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.diagnostics import Where, nearest
from panelart.lettering.spans import POINTS, Manner, Span
from panelart.messages import spec_lettering as said
from panelart.source.problems import Problems
from panelart.spec.templates import names_in_braces

KEEP: Final = "keep"
WORDS: Final = (*(manner.value for manner in Manner if manner not in POINTS), KEEP)
"""The words that may stand after an opening brace."""

_TOLD: Final = (Manner.UNIT.value, Manner.WORD.value)
_POINTS: Final = {"\u00ad": Manner.HYPHENATION, "\u200b": Manner.OPENING}
"""Characters of no width that say where a line may end."""


class Marked(Struct, frozen=True):
    """A text without its braces.

    `spans` are the stretches with a manner of lettering and those that the writer says are a unit or a word, `kept`
    says of each character whether it is to stay as written, `filled` whether a name in braces stands for it.
    """

    text: str
    spans: tuple[Span, ...] = ()
    kept: tuple[bool, ...] = ()
    filled: tuple[bool, ...] = ()


class _Reader(Struct):
    text: str
    numbers: Mapping[str, str]
    where: Where
    problems: Problems
    at: int = 0
    letters: list[str] = field(default_factory=list)
    kept: list[bool] = field(default_factory=list)
    filled: list[bool] = field(default_factory=list)
    spans: list[Span] = field(default_factory=list)
    telling: bool = False

    def run(self, depth: int, *, keep: bool) -> None:
        """Read up to the brace that closes this stretch, or to the end at depth 0."""
        while self.at < len(self.text):
            two = self.text[self.at : self.at + 2]
            if two == "{{" or (two == "}}" and depth == 0):
                self._add(two[0], keep=keep)
                self.at += 2
            elif two[0] == "{":
                self._open(depth, keep=keep)
            elif two[0] == "}" and depth > 0:
                self.at += 1
                return
            else:
                self._add(two[0], keep=keep)
                self.at += 1
        if depth > 0:
            self._unclosed()

    def _add(self, letters: str, *, keep: bool, filled: bool = False) -> None:
        self.letters += letters
        self.kept += [keep] * len(letters)
        self.filled += [filled] * len(letters)

    def _open(self, depth: int, *, keep: bool) -> None:
        inside = self.text[self.at + 1 :]
        word, space, rest = inside.partition(" ")
        if space and word in WORDS and rest.lstrip()[:1] != "}":
            self.at += len(word) + 2
            self._stretch(word, depth, keep=keep)
            return
        name, closed, _ = inside.partition("}")
        if not closed or "{" in name:
            self._unclosed()
            return
        self.at += len(name) + 2
        number = self.numbers.get(name.strip())
        if number is None:
            self._refuse(name)
            self._add("{" + name + "}", keep=keep)
        else:
            self._add(number, keep=keep, filled=True)

    def _stretch(self, word: str, depth: int, *, keep: bool) -> None:
        """What a word applies to."""
        start = len(self.letters)
        within, self.telling = self.telling, self.telling or word in _TOLD
        self.run(depth + 1, keep=keep or word == KEEP)
        self.telling = within
        end = len(self.letters)
        if word != KEEP and end > start and not (within and word in _TOLD):
            self.spans.append(Span(start, end, Manner(word)))

    def _unclosed(self) -> None:
        self.problems.add(self.where, said.unclosed_brace(self.text), said.write_brace())
        self._add(self.text[self.at :], keep=False)
        self.at = len(self.text)

    def _refuse(self, name: str) -> None:
        word, space, _ = name.strip().partition(" ")
        braces = f"{{{name}}}"
        if word in WORDS and not space:
            self.problems.add(self.where, said.brace_without_text(braces, self.text), said.text_in_brace(word))
            return
        if not space:
            found = said.unknown_brace_name(braces, self.text)
            self.problems.add(self.where, found, names_in_braces(name.strip(), self.numbers))
            return
        near = nearest(word, WORDS)
        hint = said.words_or_brace(WORDS) if near is None else said.near_or_brace(near)
        self.problems.add(self.where, said.unknown_brace_word(braces, self.text), hint)


def marked(text: str, numbers: Mapping[str, str], where: Where, problems: Problems) -> Marked:
    """The text with its numbers filled in and its stretches told apart; what is wrong is added to the problems."""
    if "{" not in text and "}" not in text:
        return _pointed(Marked(text, (), (False,) * len(text), (False,) * len(text)))
    reader = _Reader(text, numbers, where, problems)
    reader.run(0, keep=False)
    return _pointed(
        Marked(
            text="".join(reader.letters),
            spans=tuple(sorted(reader.spans)),
            kept=tuple(reader.kept),
            filled=tuple(reader.filled),
        )
    )


def _pointed(written: Marked) -> Marked:
    """The text without soft hyphens and zero-width spaces, and spans where they were."""
    if not _POINTS.keys() & set(written.text):
        return written
    soft = [letter in _POINTS for letter in written.text]
    places = [0, *accumulate(not each for each in soft)]
    spans = [replace(span, start=places[span.start], stop=places[span.stop]) for span in written.spans]
    marks = zip(written.text, places, strict=False)
    points = {Span(place, place, _POINTS[letter]) for letter, place in marks if letter in _POINTS}
    return Marked(
        text=written.text.translate(dict.fromkeys(map(ord, _POINTS))),
        spans=tuple(sorted((*spans, *points))),
        kept=tuple(kept for kept, each in zip(written.kept, soft, strict=True) if not each),
        filled=tuple(filled for filled, each in zip(written.filled, soft, strict=True) if not each),
    )
