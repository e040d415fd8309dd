"""Which characters of a panel's legends are likely to be taken for which others, from where it is read.

A figure within a number can only be taken for another figure, and a letter within a word for another letter; one that
stands alone or among both for any, but on a scale. Each is compared with all that it could be, in its own font and as
it is turned and foreshortened there. Of a range of eye places the one counts from which the panel looks smallest.
"""

from __future__ import annotations

import math
import string
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cached_property
from typing import Final, NamedTuple

import numpy as np

from panelart.canonical import Struct
from panelart.checks import eyesight, spectra
from panelart.checks.bodies import Numbers
from panelart.checks.colours import luminance
from panelart.checks.shadows import Look, look_from
from panelart.checks.survey import Survey, Words
from panelart.lettering.cuts import is_symbols
from panelart.lettering.fonts import open_font
from panelart.lettering.setting import Letter, Setting
from panelart.model.panel import EYES_APART, EyeRange, Panel, Sight

LARGE: Final = 20.0
"""Capitals so many times as high as what is resolved, at full contrast, are taken for no others."""

SELDOM: Final = 0.15
HALF_AS_LARGE: Final = 12.0
"""Where only a greater chance than the first counts, capitals that are larger than the second need not be looked at."""

LIMIT_OF_READING: Final = 5.0
"""Capitals so many times as high as what is resolved are at the limit of reading: that is what acuity means."""

TOLD: Final = 0.01
"""A smaller chance is not told."""

MOST_TOLD: Final = 3
"""Of one character so many others are told, the likeliest first."""

MOST_UNLIKE: Final = 2
"""Legends that differ in more characters are not taken for each other."""

_NEAR: Final = 0.5
"""Legends of one size, within half as much again, may be taken for each other; others are told by their size."""


class Slip(NamedTuple):
    """A character of a legend, by its number among those set, that may be taken for another, and how likely."""

    words: Words
    number: int
    character: str
    taken: str
    chance: float


class MixUp(NamedTuple):
    """Two legends of one panel that may be taken for each other, and how likely."""

    one: Words
    other: Words
    chance: float


class Seen(Struct, frozen=True, kw_only=True, eq=False, dict=True):
    """A legend as a reader sees it.

    `resolved` is the angle that the reader resolves in that light, in minutes of arc; `contrast` 0 to 1; `angle` the
    height of a capital, in minutes of arc, foreshortened as it is on the face; `spread` how far the ink spreads, mm.
    """

    words: Words
    setting: Setting
    metric: Numbers
    contrast: float
    resolved: float
    noise: float
    spread: float = 0.0

    @cached_property
    def angle(self) -> float:
        """How high a capital looks, in minutes of arc."""
        upright = self._turned(self.words.legend.turn)[1, 1]
        return float(math.sqrt(upright)) * self.words.cap_height / eyesight.ARCMIN

    @property
    def size(self) -> float:
        """The mean of how high and how wide a capital looks over what is resolved, the less the less contrast."""
        mean = math.sqrt(math.sqrt(float(np.linalg.det(self.metric)))) * self.words.cap_height / eyesight.ARCMIN
        return mean / self.resolved * math.sqrt(self.contrast)

    @property
    def readable(self) -> bool:
        """Whether it is large enough for the letters of a chart of that size to be read."""
        return self.size >= LIMIT_OF_READING

    def apart(self, letter: Letter, others: Sequence[spectra.Spectrum]) -> Numbers:
        """How far other glyphs in the place of a letter are from it, over the noise; 0 where it has no spectrum."""
        own = self.spectrum(letter, letter.number)
        if own is None:
            return np.zeros(len(others))
        unit = _cap(letter) / (eyesight.ARCMIN * self.resolved)
        metric = self._turned(self.words.legend.turn + letter.turn) * unit**2
        squares = spectra.apart(own, np.array(others), metric, eyesight.BLUR, eyesight.SLIP)
        found: Numbers = self.contrast / self.noise * np.sqrt(squares)
        return found

    def spectrum(self, letter: Letter, number: int) -> spectra.Spectrum | None:
        """A glyph as it is printed in the place of a letter."""
        return spectra.of_glyph(letter.font, number, round(self.spread / _cap(letter), 3))

    def _turned(self, degrees: float) -> Numbers:
        turn = math.radians(degrees)
        by = np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
        found: Numbers = by.T @ self.metric @ by
        return found


def reading_place(panel: Panel, seen: EyeRange) -> Look:
    """From where legends are read: of a range of places the corner from which the panel looks smallest."""
    corners = [look_from(panel, seen, height, aside) for height in sorted(set(seen.height)) for aside in seen.aside]
    middle = panel.outline.bounds.centre
    return min(corners, key=lambda look: float(np.linalg.det(eyesight.metric(look.eye, middle))))


def reading_range(panel: Panel) -> EyeRange:
    """Where the eyes are by the spec; straight in front of the panel at its viewing distance where it does not say."""
    return panel.operator.eye or EyeRange(
        distance=panel.marking.viewing_distance,
        height=(0.0, 0.0),
        aside=(0.0, 0.0),
        lean_deg=0.0,
        where=panel.where,
        apart=EYES_APART,
    )


def usual_resolution(seen: Sequence[Seen], sight: Sight) -> float:
    """What the reader resolves on most of the panel's legends, in minutes of arc; without any at a chart's light."""
    found = sorted(one.resolved for one in seen)
    return found[len(found) // 2] if found else eyesight.resolved(sight, eyesight.CHART)


def worst_first(
    seen: Sequence[Seen], slips: Sequence[Slip], mixed: Sequence[MixUp]
) -> list[tuple[Seen, tuple[Slip | MixUp, ...]]]:
    """The legends that may be misread, the likeliest first, each text of a kind once, with all that is said of it."""
    by_words = {id(one.words): one for one in seen}
    said: dict[int, list[Slip | MixUp]] = {}
    everything: list[Slip | MixUp] = [*slips, *mixed]
    for each in sorted(everything, key=lambda found: -found.chance):
        for words in (each.words,) if isinstance(each, Slip) else (each.one, each.other):
            said.setdefault(id(words), []).append(each)
    texts: dict[tuple[str, str], int] = {}
    for key in said:
        words = by_words[key].words
        texts.setdefault((words.text, words.kind), key)
    # Another legend of the panel first: that it is there makes the slip matter.
    return [(by_words[key], tuple(sorted(said[key], key=lambda one: isinstance(one, Slip)))) for key in texts.values()]


def seen_words(survey: Survey, look: Look, sight: Sight) -> list[Seen]:
    """All legends that are set from a font, as they are seen; none on a picture, which has no one colour."""
    found = []
    spread = survey.panel.marking.process.own.get("spread")
    noise = eyesight.NOISE if look.apart > 0.0 else eyesight.NOISE * eyesight.BOTH_EYES
    for words in survey.words:
        setting = words.legend.setting
        if setting is None or is_symbols(words.legend.font):
            continue
        ink = words.legend.ink.colour
        grounds = [ground.colour for ground in survey.seen_against(words)]
        if not grounds:
            continue
        ground = min(grounds, key=lambda colour: eyesight.contrast(ink, colour))
        lighter = max((ink, ground), key=luminance)
        found.append(
            Seen(
                words=words,
                setting=setting,
                metric=eyesight.metric(look.eye, words.box.centre),
                contrast=eyesight.contrast(ink, ground),
                resolved=eyesight.resolved(sight, eyesight.luminance_of(lighter, sight.illuminance)),
                noise=noise,
                spread=0.0 if spread is None else spread.value,
            )
        )
    return found


def slips(seen: Sequence[Seen], least: float = TOLD) -> list[Slip]:
    """Every character that is taken for another with more than a chance, the likeliest of a panel first."""
    glyphs = _Glyphs(seen)
    found = [slip for one in seen if one.size < _large(least) for slip in _slips_of(one, glyphs, least)]
    return sorted(found, key=lambda slip: -slip.chance)


def _large(chance: float) -> float:
    """How large capitals are, over what is resolved, that are not taken for others with such a chance.

    Found with faces from narrow to bold: at 12 none of their characters reaches a chance of 15 percent.
    """
    return LARGE if chance < SELDOM else HALF_AS_LARGE


def _slips_of(one: Seen, glyphs: _Glyphs, least: float) -> Iterator[Slip]:
    for number, letter, others in _candidates(one.setting, scale=one.words.kind == "numeral"):
        drawn = glyphs.drawn(one, letter, others)
        if not drawn or one.spectrum(letter, letter.number) is None:
            continue
        far = one.apart(letter, list(drawn.values()))
        likely = sorted(zip(far.tolist(), drawn, strict=True))[:MOST_TOLD]
        for distance, taken in likely:
            chance = eyesight.taken_for(distance)
            if chance > least:
                yield Slip(one.words, number, letter.text, taken, chance)


def mix_ups(seen: Sequence[Seen]) -> list[MixUp]:
    """Legends of one kind on one panel that may be taken for each other, the likeliest first.

    Names and titles of all parts, the positions of one part. What tells them apart adds up over their characters.
    """
    groups: dict[tuple[str, str, int], list[Seen]] = {}
    for one in seen:
        if one.size < LARGE and one.words.kind in {"name", "title", "position"}:
            owner = one.words.owner if one.words.kind == "position" else ""
            groups.setdefault((one.words.kind, owner, len(one.setting.letters)), []).append(one)
    found = []
    for group in groups.values():
        near = list(_nearly_alike(group))
        squares = _squares(group, near)
        for one, other, unlike in near:
            there = (squares[id(one)], other.setting), (squares[id(other)], one.setting)
            distance = min(_distance(far, setting, unlike) for far, setting in there)
            if (chance := eyesight.taken_for(distance)) >= TOLD:
                found.append(MixUp(one.words, other.words, chance))
    return sorted(found, key=lambda mixed: -mixed.chance)


Places = tuple[int, ...]
"""The numbers of the letters in which two settings of one length differ."""


def _nearly_alike(group: Sequence[Seen]) -> Iterator[tuple[Seen, Seen, Places]]:
    """Pairs of about one size, of one length, that differ in few letters, of one font each; and in which."""
    numbers = np.array([[letter.number for letter in one.setting.letters] for one in group], dtype=np.int64)
    with np.errstate(divide="ignore"):  # what has no contrast has no size
        sizes = np.log([one.size for one in group])
    for first, one in enumerate(group):
        differ = numbers[first + 1 :] != numbers[first]
        counts = differ.sum(axis=1)
        few = (counts > 0) & (counts <= MOST_UNLIKE)
        with np.errstate(invalid="ignore"):
            few &= np.abs(sizes[first + 1 :] - sizes[first]) < math.log(1.0 + _NEAR)
        for row in np.flatnonzero(few).tolist():
            other = group[first + 1 + row]
            unlike = tuple(np.flatnonzero(differ[row]).tolist())
            here, there = one.setting.letters, other.setting.letters
            if one.setting.text != other.setting.text and all(here[at].font == there[at].font for at in unlike):
                yield one, other, unlike


Squares = dict[tuple[int, int], float]
"""How far the glyph of a number is from a letter of a legend, squared, over the noise: by the number of the letter."""


def _squares(group: Sequence[Seen], near: Iterable[tuple[Seen, Seen, Places]]) -> dict[int, Squares]:
    """For each legend, by its id, all glyphs that it is held against: the same few in many pairs."""
    wanted: dict[int, dict[int, dict[int, None]]] = {id(one): {} for one in group}
    for first, second, unlike in near:
        for one, other in ((first, second), (second, first)):
            for at in unlike:
                wanted[id(one)].setdefault(at, {})[other.setting.letters[at].number] = None
    return {id(one): _held_against(one, wanted[id(one)]) for one in group}


def _held_against(one: Seen, wanted: Mapping[int, Iterable[int]]) -> Squares:
    """For one legend the glyphs of some numbers in the place of its letters."""
    found: Squares = {}
    for at, numbers in wanted.items():
        letter = one.setting.letters[at]
        drawn = {number: one.spectrum(letter, number) for number in numbers}
        known = {number: spectrum for number, spectrum in drawn.items() if spectrum is not None}
        if known and one.spectrum(letter, letter.number) is not None:
            far = one.apart(letter, list(known.values())).tolist()
            found |= {(at, number): square**2 for number, square in zip(known, far, strict=True)}
    return found


def _distance(squares: Squares, other: Setting, unlike: Places) -> float:
    """How far another legend is from one over the noise, as the one is seen; infinite where a glyph has no ink."""
    return math.sqrt(math.fsum(squares.get((at, other.letters[at].number), math.inf) for at in unlike))


class _Glyphs:
    """Glyphs as they are printed: the panel's own form of a character first, such as a slashed nought."""

    def __init__(self, seen: Sequence[Seen]) -> None:
        self._own = {
            (letter.font, letter.text): letter.number
            for one in seen
            for letter in one.setting.letters
            if len(letter.text) == 1
        }

    def drawn(self, one: Seen, letter: Letter, others: str) -> dict[str, spectra.Spectrum]:
        """Those of other characters that the font has."""
        font = open_font(letter.font)
        found = {}
        for character in others:
            number = self._own.get((letter.font, character), font.number(character))
            spectrum = None if number is None else one.spectrum(letter, number)
            if spectrum is not None:
                found[character] = spectrum
        return found


def _cap(letter: Letter) -> float:
    """The cap height that a letter is set at, mm: raised and lowered ones are smaller than their line's."""
    return letter.scale * open_font(letter.font).cap_units


_FIGURES: Final = string.digits


def _candidates(setting: Setting, *, scale: bool) -> Iterator[tuple[int, Letter, str]]:
    """Each letter or figure of a setting with what it could be taken for, by what it stands among."""
    for run in _runs(setting.letters):
        texts = "".join(setting.letters[number].text for number in run)
        for number in run:
            letter = setting.letters[number]
            if letter.text.isascii():
                others = _FIGURES if scale and letter.text.isdigit() else _could_be(letter.text, texts)
                yield number, letter, others.replace(letter.text, "")


def _could_be(character: str, among: str) -> str:
    letters = string.ascii_lowercase if character.islower() else string.ascii_uppercase
    if len(among) > 1 and among.isdigit():
        return _FIGURES
    if len(among) > 1 and among.isalpha():
        return letters
    return _FIGURES + letters


def _runs(letters: Sequence[Letter]) -> Iterator[list[int]]:
    """The numbers of letters and figures that stand between spaces; 5-6 and 1.5 are figures alone."""
    run: list[int] = []
    for number, letter in enumerate(letters):
        if len(letter.text) == 1 and letter.text.isalnum():
            run.append(number)
        elif letter.text.isspace() and run:
            yield run
            run = []
    if run:
        yield run
