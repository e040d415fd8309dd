"""Several texts set under each other as one block, each in its own font and size, and where their lines break.

White between the last line of a text and the first of the next is that of the one that needs more, as in its own line
spacing. A field that words are left out of keeps the same white from its edge.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from typing import Final, TypeAlias

from panelart.canonical import Struct
from panelart.geometry import Box, Vector
from panelart.lettering.breaks import breaks, broken
from panelart.lettering.look import PLAIN_LOOK, Align, Look
from panelart.lettering.setting import Setting, line_pitch, set_words
from panelart.lettering.spans import Span

HYPHENATED: Final = 1.0
"""How much narrower, over the cap height, lines must get for each word that is broken, before it is. Our choice."""

PARTED: Final = 0.5
"""The same for a number or letter that is parted from its word, as a share of that of a broken word. Our choice."""

TAG: Final = 2
"""No more characters has the number or letter that belongs to the word before it: FEED PUMP 1, TAPE L, BUS 2B."""

MORE_LINES: Final = 2
"""At most so many lines more than are written are made of a legend."""

_SAME: Final = 1e-6
"""mm. What differs by no more is the same."""

_Torn: TypeAlias = tuple[float, Setting]
"""A setting, and how much is torn in it, in broken words."""


class Wording(Struct, frozen=True):
    """A text with all that it is set by but the alignment of its lines."""

    text: str
    font: str
    cap_height: float
    look: Look = PLAIN_LOOK
    spans: tuple[Span, ...] = ()

    def set(self, align: Align) -> Setting:
        """The words set as they are written."""
        return set_words(self.text, self.font, self.cap_height, align, self.look, self.spans)

    @property
    def white(self) -> float:
        """White between its lines, from the base line of one to the capitals of the next, mm."""
        pitch = line_pitch(self.text, self.spans) if self.look.line_pitch is None else self.look.line_pitch
        return (pitch - 1.0) * self.cap_height


def stacked_texts(texts: Sequence[Wording], settings: Sequence[Setting], align: Align) -> Setting:
    """The settings of some texts under each other, aligned by their ink; one is returned as it is.

    Decimal points are in line within each text only: numbers of two sizes make no column.
    """
    if len(settings) == 1:
        return settings[0]
    lines = _first_lines(texts, settings)
    lefts = _lefts(settings, texts[0].look.align or align)
    members = tuple(
        (one, Vector(left - one.box.left, base)) for one, left, base in zip(settings, lefts, lines, strict=True)
    )
    return Setting(
        text="\n".join(one.text for one in settings),
        font="+".join(one.font for one in settings),
        cap_height=max(one.cap_height for one in settings),
        box=Box.around(one.box.moved(by) for one, by in members),
        baselines=tuple(line + by.y for one, by in members for line in one.baselines),
        letters=(),
        members=members,
    )


def _first_lines(texts: Sequence[Wording], settings: Sequence[Setting]) -> list[float]:
    """The height of the first base line of each text, that of the first being 0."""
    lines = [0.0]
    for (upper, above), (lower, below) in itertools.pairwise(zip(texts, settings, strict=True)):
        foot = above.box.bottom if above.plate else above.baselines[-1]
        head = below.box.top if below.plate else below.cap_height
        lines.append(lines[-1] + foot - max(upper.white, lower.white) - head)
    return lines


def _lefts(settings: Sequence[Setting], align: Align) -> list[float]:
    """Where the ink of each text begins, so that they are in line as asked."""
    widest = max(one.box.width for one in settings)
    share = {Align.LEFT: 0.0, Align.RIGHT: 1.0}.get(align, 0.5)
    return [share * (widest - one.box.width) for one in settings]


@lru_cache(maxsize=4096)
def wrapped(texts: tuple[Wording, ...], align: Align) -> tuple[Setting, ...]:
    """A legend as it is written, then on one line more and on two more, even where it gets no narrower by that.

    Of the breaks into as many lines that tear as much only the narrowest counts: the others are as high and wider. Of
    several as narrow it is the one whose lines differ least in length. What tears least is first.
    """
    forms = [_broken(one, align) for one in texts]
    found: list[list[_Torn]] = [[] for _ in range(MORE_LINES + 1)]
    for shares in itertools.product(*(range(len(form)) for form in forms)):
        if sum(shares) <= MORE_LINES:
            found[sum(shares)] += _taken(texts, [form[extra] for form, extra in zip(forms, shares, strict=True)], align)
    return tuple(setting for settings in found for setting in _worth_tearing(_narrowest(settings)))


def _taken(texts: Sequence[Wording], forms: Sequence[Sequence[_Torn]], align: Align) -> Iterator[_Torn]:
    """Every block that takes one setting of each text."""
    for taken in itertools.product(*forms):
        whole = stacked_texts(texts, [setting for _, setting in taken], align)
        yield round(math.fsum(torn for torn, _ in taken), 6), whole


def _worth_tearing(settings: Iterable[_Torn]) -> Iterator[Setting]:
    """Of settings by how much is torn in them, the least first, those that get narrower by it."""
    narrowest = math.inf
    for _, setting in settings:
        if setting.box.width + HYPHENATED * setting.cap_height <= narrowest:
            yield setting
            narrowest = setting.box.width


def parted(setting: Setting) -> int:
    """How many lines are nothing but the number or letter of the word before them; texts of a block are apart."""
    texts = [one.text for one, _ in setting.members] or [setting.text]
    return sum(is_tag(line) for text in texts for line in text.split("\n")[1:])


def is_tag(word: str) -> bool:
    """Whether a word is a single letter, or short and has a figure."""
    return len(word) == 1 or (len(word) <= TAG and any(letter.isdecimal() for letter in word))


def _broken(one: Wording, align: Align) -> list[list[_Torn]]:
    """A text as written and broken into one and two lines more, the narrowest by how much is torn."""
    found = [[(0.0, one.set(align))]]
    places = () if "\n" in one.text else breaks(one.text, one.spans, one.look.language)
    for ends_made in range(1, MORE_LINES + 1):
        settings: list[_Torn] = []
        for ends in itertools.combinations(places, ends_made):
            words, moved = broken(one.text, one.spans, ends)
            setting = set_words(words, one.font, one.cap_height, align, one.look, moved)
            torn = sum(end.hyphen for end in ends) + PARTED * parted(setting)
            settings.append((torn, setting))
        if not settings:
            break
        found.append(_narrowest(settings))
    return found


def _narrowest(settings: Iterable[_Torn]) -> list[_Torn]:
    """The best of those that tear as much, what tears least first."""
    by_tears: dict[float, list[Setting]] = {}
    for torn, setting in settings:
        by_tears.setdefault(torn, []).append(setting)
    return [(torn, _best(by_tears[torn])) for torn in sorted(by_tears)]


def _best(settings: Sequence[Setting]) -> Setting:
    """The narrowest; of those that are as narrow the one with the most even lines."""
    narrowest = min(setting.box.width for setting in settings)
    near = [setting for setting in settings if setting.box.width <= narrowest + _SAME]
    return min(near, key=lambda setting: (round(_unevenness(setting), 4), setting.text))


def _unevenness(setting: Setting) -> float:
    """Sum of the squares of what the lines lack to the longest, mm2."""
    widths = setting.line_widths
    return math.fsum((max(widths) - width) ** 2 for width in widths)
