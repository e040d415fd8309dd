"""Reads a sentence of the catalogue as an editor would: its braces, its words, its first and last character."""

from __future__ import annotations

import re
from collections.abc import Iterator
from string import Formatter
from typing import Any, Final

from panelart.messages import Message, Sentence
from panelart.messages.extract import usual_arguments
from tests.messages.banned import banned_in

MAX_ENGLISH: Final = 200
MAX_WRITTEN: Final = 400
MAX_PHRASE: Final = 80
"""Characters of a text that begins in small letters, which is an argument of other sentences or a cell of a table."""

LABELS: Final = ("error: ", "warning: ", "note: ", "hint: ")
"""What a line of output may begin with in small letters, as compilers do."""

UNUSED: Final = {
    "rules.": "the two sentences of a rule may use whatever an observation has",
}
"""Ids, by how they begin, whose sentences do not use all their parameters, each with the reason."""

DOCUMENTS: Final = frozenset(
    {"cli", "cutouts", "drafting", "drawing", "keys", "marking", "press", "processes", "reports", "sheets"}
)
"""Rooms whose texts are notes on documents and descriptions of commands: statements there may have a full stop."""

INTERFACES: Final = frozenset({"page"})
"""Rooms whose texts are labels of buttons and fields: an instruction there has no full stop."""

VERBS: Final = frozenset(
    """
    add adjust agree allow ask assign attach avoid begin bring check choose clean close combine compare confirm
    continue convert copy correct create declare define delete derive describe divide do enable enlarge ensure enter
    expand explode export fill fix flatten follow give group hide hold identify ignore include increase inform
    insert install join keep lengthen make merge move omit open order overwrite pass protect provide put quote raise
    read rebuild record reduce refer remove rename repeat replace reverse rotate run save see select send separate
    shorten simplify specify split start state stop swap take tell trim try turn undo use verify widen withdraw wrap
    write
    """.split()  # noqa: SIM905  # a page of words in quotes is read by nobody
)
"""What an instruction begins with. A verb that is missing here is added here, knowingly."""

NOUNS_TOO: Final = frozenset(
    """
    anneal anodise assemble bend break centre change clamp coat colour contact count countersink cover cure cut
    deburr degrease design dim draw drill dry edit engrave etch expose fasten finish fit grind hang heat inspect
    label lay leave level limit list load lock lower mark mask match measure mill mind mount name note number pack
    paint place plan plug position press print punch register repair rest rivet sand seal search set shape show sign
    space spray stack stamp step store supply support test thread tighten tin trace treat view wash weld wipe work
    """.split()  # noqa: SIM905  # as above
)
"""Verbs of instructions that headings and labels begin with as well."""

_STATES: Final = frozenset({"are", "has", "have", "is", "must", "was", "were"})
"""What makes a statement of a word before it: the sheet is, the mark has."""

_DATA: Final = re.compile(
    r"`[^`]*`|(?<!\w)'[^']*'|\"[^\"]*\"|“[^”]*”|--[a-z-]+|\b[\w-]+\.(?:ya?ml|json|csv|pdf|dxf|svg)\b"
)
_TWO_SPACES: Final = re.compile(r"[^\s}_]  +[^\s{_]")
"""Not the gaps of a form to be filled in, nor those between the columns of an output."""

_TWO_STOPS: Final = re.compile(r"\.\.(?=\s|$)")
"""Not a range, LOW..HIGH."""

_STOP_WITHIN: Final = re.compile(r"(?<!\bno)\.(\s+[A-Z]|$)")
_PLACEHOLDER: Final = re.compile(r"\{[^{}]*\}")
_WORD: Final = re.compile(r"[^\W\d_]+(?:['\N{RIGHT SINGLE QUOTATION MARK}][^\W\d_]+)*")
_SENTENCE_END: Final = re.compile(r"(?<=[.?!:])\s+|;\s+")


def texts(sentence: Sentence) -> tuple[str, ...]:
    """Its forms."""
    return (sentence.english, sentence.plural) if sentence.plural else (sentence.english,)


def prose(text: str, instead: str = " ") -> str:
    """A text without placeholders and without what is data: keys, commands and file names."""
    return _PLACEHOLDER.sub(instead, _DATA.sub(instead, text.replace("{{", " ").replace("}}", " ")))


def words(sentence: Sentence) -> set[str]:
    """The words of a sentence in small letters, those of keys and commands not among them; compounds in their parts."""
    return {word.lower() for text in texts(sentence) for word in _WORD.findall(prose(text))}


def combinations(sentence: Sentence) -> Iterator[dict[str, Any]]:
    """Arguments at their extremes: each varied with the others at their first, then all at their longest."""
    shown = sentence.parameters
    first = {name: kind.extremes[0] for name, kind in shown.items()}
    yield first
    for name, kind in shown.items():
        for value in kind.extremes[1:]:
            yield {**first, name: value}
    yield {
        name: max(kind.extremes, key=lambda value, kind=kind: len(kind.write(value))) for name, kind in shown.items()
    }


def written_faults(sentence: Sentence) -> list[str]:
    """What goes wrong when the sentence is written with extreme arguments, and whether its braces are in order."""
    return [*_brace_faults(sentence), *_rendering_faults(sentence)]


def style_faults(sentence: Sentence) -> list[str]:
    """What an editor would strike out."""
    faults = [fault for text in texts(sentence) for fault in _faults_of(sentence.id, text)]
    if not _brace_faults(sentence):
        length = len(str(Message(sentence, tuple(usual_arguments(sentence).items()))))
        if length > MAX_WRITTEN:
            faults.append(f"{length} characters as usually written, maximum {MAX_WRITTEN}")
    return faults


def _brace_faults(sentence: Sentence) -> list[str]:
    parameters = set(sentence.parameters)
    faults: list[str] = []
    for text in texts(sentence):
        try:
            fields = [(name, form, turn) for _, name, form, turn in Formatter().parse(text) if name is not None]
        except ValueError as error:
            faults.append(f"braces: {error}")
            continue
        named = {name for name, _, _ in fields}
        faults += [f"{{{name}}} formats by itself: its kind decides" for name, form, turn in fields if form or turn]
        faults += [f"{{{name}}} is no parameter" for name in sorted(named - parameters)]
        if not any(sentence.id.startswith(start) for start in UNUSED):
            may_go = {"count"} if sentence.plural else set()  # it chooses the form, shown or not
            faults += [f"{name} is not used" for name in sorted(parameters - named - may_go)]
    if sentence.plural and "count" not in parameters:
        faults.append("two forms, but no count")
    return faults


def _rendering_faults(sentence: Sentence) -> list[str]:
    literal = any("{{" in text or "}}" in text for text in texts(sentence))
    faults: list[str] = []
    for arguments in combinations(sentence):
        try:
            text = str(Message(sentence, tuple(arguments.items())))
        except Exception as error:  # noqa: BLE001  # whatever it is, it is the finding
            faults.append(f"{error!r} with {arguments}")
            continue
        if not literal and ("{" in text or "}" in text):
            faults.append(f"braces left in {text!r}")
    return faults


def _faults_of(id_: str, text: str) -> Iterator[str]:
    # The documentation of a key is a paragraph: each of its sentences counts.
    for sentence in re.split(r"(?<=\.) (?=[A-Z`])|; ", text) if id_.startswith("keys.") else (text,):
        if len(sentence) > MAX_ENGLISH:
            yield f"{len(sentence)} characters, maximum {MAX_ENGLISH}"
    if _TWO_SPACES.search(text):
        yield "two spaces"
    if _TWO_STOPS.search(prose(text, "x")):
        yield "two full stops"
    yield from banned_in(prose(text), instruction=_is_instruction(id_, text))
    yield from _first_faults(id_, text)
    yield from _last_faults(id_, text)


def _first_faults(id_: str, text: str) -> Iterator[str]:
    if not text[0].islower() or text.startswith(LABELS):
        return
    if id_.startswith("rules."):
        yield "begins with a small letter"
    elif len(text) > (2 * MAX_PHRASE if id_.startswith("keys.") else MAX_PHRASE) or _STOP_WITHIN.search(
        prose(text, "x")
    ):
        yield f"begins with a small letter, and is no phrase of up to {MAX_PHRASE} characters without a full stop"


def _last_faults(id_: str, text: str) -> Iterator[str]:
    stopped = text.endswith(".")
    room = id_.partition(".")[0].partition("-")[0]
    if _is_fix(id_):
        if not stopped and _WORD.search(prose(text)):
            yield "an instruction without a full stop"
        return
    last = _WORD.findall(prose(_SENTENCE_END.split(text)[-1]))
    first_word = last[0].lower() if last else ""
    several = len(_SENTENCE_END.split(text)) > 1
    if stopped and last and not (several or room in DOCUMENTS or _instructs(last)):
        yield "a full stop, and no instruction"
    whole = _WORD.match(text)
    begins = bool(whole) and text[0].isupper() and first_word in VERBS
    if begins and not stopped and not several and room not in DOCUMENTS | INTERFACES:
        yield "an instruction without a full stop"


def _is_fix(id_: str) -> bool:
    return id_.startswith("rules.") and id_.endswith(".fix")


def _is_instruction(id_: str, text: str) -> bool:
    return _is_fix(id_) or (text.endswith(".") and _instructs(_WORD.findall(prose(_SENTENCE_END.split(text)[-1]))))


def _instructs(words_: list[str]) -> bool:
    """Whether a sentence has an instruction: at its beginning, or behind a clause that says when or what for."""
    small = [word.lower() for word in words_]
    begins = bool(small) and small[0] in VERBS | NOUNS_TOO and not (len(small) > 1 and small[1] in _STATES)
    return begins or bool(VERBS.intersection(small[1:]))
