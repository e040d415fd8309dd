"""What legends say: unique names in letters that are not mistaken, units as in the SI, known abbreviations."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from panelart.checks.abbreviations import known_abbreviations
from panelart.checks.emergency import is_emergency
from panelart.checks.findings import Observation, Spelling, Spot
from panelart.checks.mends import respelt, told
from panelart.checks.rule import rule
from panelart.checks.scales import scales_of
from panelart.checks.survey import Survey, Words
from panelart.diagnostics import Severity
from panelart.geometry import Box
from panelart.messages import Message
from panelart.messages import checks as said
from panelart.model.motion import MotionKind
from panelart.texts.characters import script
from panelart.texts.lookalikes import alike, meant, mixed_scripts, strange_letters
from panelart.texts.opposites import opposite
from panelart.texts.quantities import Quantity, Range
from panelart.texts.runs import Designation, LoneUnit, Meaning, Text, Unsure, Word
from panelart.texts.spellings import misspelt, mistakable, unit_meant
from panelart.texts.units import UNITS, Dimension

# --- names


def _names(survey: Survey) -> dict[str, Words]:
    return {word.owner: word for word in survey.words if word.kind == "name" and word.owner in survey.panel.by_ref}


def _folded(text: str) -> str:
    return " ".join(text.casefold().split())


@rule(
    Severity.WARNING,
    says="{subject}: same name as {other}",
    fix="Give each part its own name, or put the parts in frames with titles.",
)
def name_repeated(survey: Survey) -> Iterator[Observation]:
    """Two parts have the same name, and nothing else distinguishes them.

    Parts in different frames may have the same name, since the frames' titles distinguish them. Names of one or two
    signs that are not letters, such as + and -, may be repeated.

    Source: common practice; NUREG-0700 Rev. 3, 11.4.1, each label is unique.
    Fix: other names, or frames with titles.
    Fails: two sockets that are both OUT.
    Passes: OUT 1 and OUT 2; or one OUT in the frame LEFT and one in the frame RIGHT.
    """
    frames: dict[str, list[str]] = {}
    for frame in survey.panel.frames:
        for ref in frame.around:
            frames.setdefault(ref, []).append(frame.title.text if frame.title is not None else "")
    first: dict[tuple[str, tuple[str, ...]], Words] = {}
    for ref, word in _names(survey).items():
        if not any(letter.isalpha() for letter in word.text):
            continue
        other = first.setdefault((_folded(word.text), tuple(frames.get(ref, ()))), word)
        if other is not word:
            yield Observation(
                refs=(ref, other.owner),
                place=Box.around((word.box, other.box)),
                where=word.where,
                subject=survey.named([word]),
                other=_same_but_for_unit(survey, word, other),
            )


def _same_but_for_unit(survey: Survey, word: Words, other: Words) -> str | Message:
    """The part with the same name, and where the names differ in the case of one unit, which that is."""
    part = survey.part(other.owner)
    texts = [survey.meaning(each) for each in (other, word)]
    written = [[text.written(run) for run in text.runs] for text in texts]
    apart = [at for at, pair in enumerate(zip(*written, strict=False)) if pair[0] != pair[1]]
    if len(written[0]) != len(written[1]) or len(apart) != 1:
        return part
    means = [text.runs[apart[0]].means for text in texts]
    measured = any(map(_measures, means))
    first, second = (each[apart[0]] for each in written)
    return said.but_for_unit(part=part, first=first, second=second) if measured else part


def _measures(means: Meaning) -> bool:
    """Whether a run is or may be a unit or an amount; a name of ohm with a prefix is one too: Mohm."""
    ohms = isinstance(means, Designation) and means.text.lower().endswith("ohm")
    return ohms or isinstance(means, (*_MEASURED, Unsure))


name_repeated.cases(
    """
    parts:
      - {ref: J1, part: bnc, at: [40, 50], legend: Out}
      - {ref: J2, part: bnc, at: [90, 50], legend: __}
    """,
    fails="Out",
    passes="In",
)


@rule(
    Severity.WARNING,
    says="{subject} has no legend",
    fix="Add a legend, or waive this with a reason.",
)
def control_without_name(survey: Survey) -> Iterator[Observation]:
    """A control has no legend of any kind.

    Controls are parts that are switched, pushed, turned or slid; locks and trimmers do not count, nor do emergency
    stops, which are known by their colours. Positions, a scale, and the title of a frame with only this part in it
    count as legends.

    Source: MIL-STD-1472E, 5.5.1, controls are labelled; ISO 13850, which asks for no words on an emergency stop (both
    from memory); common practice.
    Fix: a legend.
    Fails: a toggle switch without a word.
    Passes: a toggle switch with ON and OFF, or with a name.
    """
    alone = {frame.around[0] for frame in survey.panel.frames if len(frame.around) == 1 and frame.title is not None}
    for part in survey.panel.parts:
        quiet = part.legend is None and not part.positions and not scales_of(part) and part.ref not in alone
        worked = part.component.motion.kind is not MotionKind.NONE and part.component.family not in {
            "cam-lock",
            "trimmer",
        }
        if quiet and worked and not is_emergency(part):
            yield Observation(refs=(part.ref,), place=part.at, where=part.where, subject=survey.part(part.ref))


control_without_name.cases(
    """
    parts: [{ref: S1, part: toggle-12, at: [60, 50], __}]
    """,
    fails="turn: 0",
    passes="legend: Load",
)


@rule(
    Severity.WARNING,
    says="{subject} has letters that only look like the right ones: {other}",
    fix="Write the right letters.",
)
def name_misread(survey: Survey) -> Iterator[Observation]:
    """A word has a letter that only looks like the right one.

    Such are lnput for Input, and a Cyrillic letter in a Latin word. Other fonts tell such letters apart, and nobody
    finds the word in a list. The rule knows usual words of panels in English, and letters of the Latin, Greek and
    Cyrillic scripts in one word; Δt is two letters that nobody mistakes.

    Source: Unicode TR 39, confusable characters (from memory); common practice.
    Fix: the right letters.
    Fails: lnput, and LNPUT where capitals were asked for; 0utput; Power with a Cyrillic o.
    Passes: Input; Output; Power.
    """
    for word in survey.words:
        found = (means.text for means in survey.meaning(word).meanings() if isinstance(means, Word | Designation))
        faults = [fault for each in found if (fault := _disguise(each)) is not None]
        faults += _disguised_units(survey, survey.meaning(word)) + _in_or_logarithm(survey, word)
        if faults:
            yield Observation(
                refs=(word.owner,),
                place=word.box,
                where=word.where,
                subject=survey.named([word]),
                other=said.faults(faults=faults),
            )


name_misread.cases(
    """
    texts: [{text: __, at: [60, 50]}]
    """,
    fails="lnput",
    passes="Input",
)
name_misread.cases(
    """
    texts: [{text: __, at: [60, 50]}]
    """,
    fails="P\u043ewer",
    passes="Power",
)


def _mixed(written: str, strange: Iterable[str]) -> Message:
    """Of which scripts the letters are, and which ones are strange, by their numbers in Unicode."""
    letters = [f"'{letter}' (U+{ord(letter):04X}, {script(letter).title()})" for letter in strange]
    return said.scripts_mixed(written=written, scripts=[of.title() for of in mixed_scripts(written)], letters=letters)


def _disguised_units(survey: Survey, text: Text) -> list[Message]:
    """Cyrillic symbols of units where another unit is Latin, or in words of a language without Cyrillic letters."""
    units = "".join(text.written(run) for run in text.runs if isinstance(run.means, _MEASURED))
    rest = "".join(text.written(run) for run in text.runs if not isinstance(run.means, _MEASURED))
    strange = [letter for letter in strange_letters(text.text) if letter in units]
    language = survey.panel.language.lower().split("-")[0]
    latin = "LATIN" in map(script, units)
    if not strange or "CYRILLIC" in map(script, rest) or (not latin and language in {"", *_CYRILLIC}):
        return []
    return [_mixed(text.text, strange)]


_MEASURED: Final = (Quantity, Range, LoneUnit)
_CYRILLIC: Final = frozenset(["be", "bg", "kk", "ky", "mk", "mn", "ru", "sr", "tg", "uk"])
"""Languages that are written in Cyrillic letters (CLDR, from memory)."""


def _in_or_logarithm(survey: Survey, word: Words) -> list[Message]:
    """Of In that is written ln: beside an output; a logarithm stands beside none."""
    name = word.text.strip()
    if name not in ("lN", "ln"):
        return []
    paired = any(each.text.strip().casefold() in ("out", "output") for each in _names(survey).values())
    return [said.read_as(written=name, meant="In")] if name == "lN" or paired else []


def _disguise(word: str) -> Message | None:
    """What a word is rather than what it looks like; None for a word in order."""
    for part in word.split("-"):
        strange = strange_letters(part)
        if strange:
            return _mixed(part, strange)
        right = meant(part)
        if right is not None:
            return said.read_as(written=part, meant=right.upper() if part.isupper() else right.capitalize())
    return None


@rule(
    Severity.NOTE,
    says="{subject}: looks like {other}",
    fix="Give the parts names that differ in more than letters of one shape.",
)
def names_look_alike(survey: Survey) -> Iterator[Observation]:
    """Two parts have names that differ only in letters of one shape.

    Such are CH1 and CHl, Line 1 and Line I.

    Source: Unicode TR 39, confusable characters (from memory); common practice.
    Fix: other names.
    Fails: Line 1 and Line I.
    Passes: Line 1 and Line 2.
    """
    names = _names(survey)
    owners: dict[str, str] = {}
    for ref, word in names.items():
        owners.setdefault(word.text, ref)
    for first, second in alike(owners):
        word = names[owners[second]]
        other = names[owners[first]]
        yield Observation(
            refs=(word.owner, other.owner),
            place=Box.around((word.box, other.box)),
            where=word.where,
            subject=survey.named([word]),
            other=survey.named([other]),
        )


names_look_alike.cases(
    """
    parts:
      - {ref: J1, part: bnc, at: [40, 50], legend: Line 1}
      - {ref: J2, part: bnc, at: [90, 50], legend: __}
    """,
    fails="Line I",
    passes="Line 2",
)


# --- units and abbreviations


@rule(
    Severity.WARNING,
    says="{subject}: unit symbol must be {other}",
    fix="Write {other}.",
    mends=(respelt,),
)
def unit_misspelt(survey: Survey) -> Iterator[Observation]:
    """The symbol of a unit has the wrong small or capital letters.

    The rule checks symbols behind numbers, in brackets and in the units of scales. The case of a letter may change the
    meaning: mW and MW differ by a thousand million; where no other unit has the letters, as in Khz, it is a note. Names
    of units in words are right (10 ohm, 10 sec), and so is u for micro, for which `signs-improvable` offers µ.

    Source: SI Brochure, 9th edition, 5.2 and table 7.
    Fix: the right letters.
    Fails: 100 Mhz, 100 Khz, (KV).
    Passes: 100 MHz, 100 kHz, (kV), 10 uF.
    """
    units = {(part.ref, scale.unit) for part in survey.panel.parts for scale in scales_of(part)}
    for word in survey.words:
        pairs = misspelt(survey.meaning(word))
        if word.kind == "numeral" and (word.owner, word.text) in units:
            meant = unit_meant(word.text)
            pairs = ((word.text, meant),) if meant is not None else ()
        found = [Spelling(written=written, meant=meant) for written, meant in pairs]
        if found:
            yield Observation(
                refs=(word.owner,),
                place=word.box,
                where=word.where,
                subject=survey.named([word]),
                other=said.unit_spellings(
                    spellings=[said.unit_spelling(meant=one.meant, written=one.written) for one in found]
                ),
                severity=None if any(mistakable(one.written, one.meant) for one in found) else Severity.NOTE,
                spellings=tuple(found),
            )


unit_misspelt.cases(
    """
    texts: [{text: 10 __, at: [60, 50]}]
    """,
    fails="Mhz",
    passes="MHz",
)


@rule(
    Severity.NOTE,
    says="Could be a unit or a word, so printed as written: {subject}",
    fix="Write units as {{unit ms}}, words as {{word ms}}.",
    mends=(told,),
)
def text_could_be_unit(survey: Survey) -> Iterator[Observation]:
    """A text in capitals has letters that could be the symbol of a unit or a word.

    They are printed as written, since capitals would make another unit of a symbol. The whole panel is one finding.
    Letters that are printed the same either way, such as A and V, are not reported. Where the other texts of the part
    decide for all of them, as max does for min and s for h, an edit is suggested.

    Source: SI Brochure, 9th edition, 5.2: symbols of units keep their letters, whatever the text around them.
    Fix: `{unit ms}` for a unit, `{word ms}` for a word; `case: as-written` changes neither.
    Fails: a position ms.
    Passes: {unit ms}, which is printed as ms; {word ms}, which is printed as MS.
    """
    unsure = survey.panel.unsure
    if not unsure:
        return
    places = {one.where for one in unsure}
    words = [word for word in survey.words if word.where in places]
    yield Observation(
        refs=tuple(dict.fromkeys(word.owner for word in words)),
        place=Box.around([word.box for word in words]) if words else survey.panel.outline.bounds,
        where=unsure[0].where,
        subject=said.texts_unsure(texts=list(dict.fromkeys(one.written for one in unsure))),
        each=tuple(Spot(ref=word.owner, place=word.box, where=word.where) for word in words),
        spellings=_told_by_others(survey, words),
    )


def _told_by_others(survey: Survey, words: Sequence[Words]) -> tuple[Spelling, ...]:
    """What is unsure in some legends with the braces that other legends of their parts decide on; none unless all."""
    found: dict[str, str] = {}
    for word in words:
        others = [other for other in survey.words if other.owner == word.owner and other.where != word.where]
        for run in survey.meaning(word).unsure():
            written = survey.meaning(word).written(run)
            said_as = _in_braces(survey, written, run.means, others)
            if not said_as or found.setdefault(written, said_as) != said_as:
                return ()
    return tuple(Spelling(written=written, meant=meant) for written, meant in found.items())


def _in_braces(survey: Survey, written: str, means: Meaning, others: Sequence[Words]) -> str:
    """A stretch as the unit or the word that it is by its neighbours; '' where they do not tell."""
    if any(opposite(written, other.text, survey.panel.language) is not None for other in others):
        return f"{{word {written}}}"
    alone = [only for other in others if (only := _only(survey.meaning(other))) is not None]
    dimensions = [each for only in alone if (each := _dimensions(only))]
    if dimensions and all(_dimensions(means) & each for each in dimensions):
        return f"{{unit {written}}}"
    return ""


def _only(text: Text) -> Meaning | None:
    """What a text means that means one thing."""
    meanings = list(text.meanings())
    return meanings[0] if len(meanings) == 1 else None


def _dimensions(means: Meaning) -> set[Dimension]:
    """The dimensions that it has as a unit alone."""
    readings = means.readings if isinstance(means, Unsure) else (means,)
    return {each.unit.dimension for each in readings if isinstance(each, LoneUnit)}


text_could_be_unit.cases(
    """
    marking: {lettering: {case: upper}}
    texts: [{text: __, at: [60, 50]}]
    """,
    fails="MS",
    passes='"{unit ms}"',
)


_VOWELS: Final = frozenset("AEIOUYÆØŒƏ")
_SYLLABIC: Final = {language: frozenset("RL") for language in ("cs", "sk", "hr", "sl", "sr", "bs", "mk")}
"""Consonants that are vowels of a language: vrt, vlk."""

_LEAST: Final = 3
"""Letters of a word without vowels from which it counts as abbreviation."""


def _vowels(word: str, more: frozenset[str]) -> bool:
    """Whether a word has a vowel, whatever its accents."""
    plain = unicodedata.normalize("NFD", word.replace("ı", "i").upper())
    return not (_VOWELS | more).isdisjoint(plain)


def _words(text: Text) -> Iterator[str]:
    """The words of a text, and the parts of those with hyphens; symbols of units and designations are none."""
    for means in text.meanings():
        if isinstance(means, Word):
            yield means.text


def _unlisted(word: str, known: frozenset[str], more: frozenset[str]) -> bool:
    """Whether a Latin word, or a part of it between hyphens, is an abbreviation that is not known."""
    if word.upper() in known:
        return False
    return any(
        len(part) >= _LEAST
        and part.isalpha()
        and script(part) == "LATIN"
        and not _vowels(part, more)
        and part.upper() not in known
        and part not in UNITS
        for part in word.split("-")
    )


@rule(
    Severity.NOTE,
    says="{subject}: unlisted abbreviation: {other}",
    fix="Write the word in full, or add the abbreviation to the house file.",
)
def abbreviation_unlisted(survey: Survey) -> Iterator[Observation]:
    """A name, position or title has a word without vowels that is in no list of abbreviations.

    Only Latin words of three letters and more without a vowel count as abbreviations; shorter ones are too often
    symbols, and other scripts have other vowels, or write none. In Czech and its relatives, R and L are vowels too.
    Numbers, symbols of units, designations and refs are exempt. A house adds its own abbreviations in its house file.

    Source: MIL-STD-1472E, 5.5.3.3: common abbreviations, one for all forms of a word.
    Fix: the whole word, or the house file.
    Fails: THRSHLD.
    Passes: THRESHOLD, or TRIG, which is in the list.
    """
    known = known_abbreviations() | survey.abbreviations
    more = _SYLLABIC.get(survey.panel.language.lower().split("-")[0], frozenset())
    for word in survey.words:
        if word.kind not in {"name", "title", "position"}:
            continue
        odd = [
            found
            for found in _words(survey.meaning(word))
            if _unlisted(found, known, more) and found not in survey.panel.by_ref
        ]
        if odd:
            yield Observation(
                refs=(word.owner,),
                place=word.box,
                where=word.where,
                subject=survey.named([word]),
                other=said.abbreviations_listed(words=tuple(dict.fromkeys(odd))),
            )


abbreviation_unlisted.cases(
    """
    texts: [{text: __, at: [60, 50]}]
    """,
    fails="THRSHLD",
    passes="THRESHOLD",
)
abbreviation_unlisted.cases(
    """
    texts: [{text: __, at: [60, 50]}]
    """,
    fails="STRT",
    passes="ΣΤΡΤ",
)
