"""Every sentence of the catalogue, written with extreme arguments and read as an editor reads."""

from __future__ import annotations

import pytest

from panelart.messages import CATALOGUE, Count, Mm, Sentence, Word
from panelart.messages.extract import every_sentence
from panelart.messages.shown import Shown
from tests.messages import vocabulary
from tests.messages.banned import banned_in
from tests.messages.reading import NOUNS_TOO, VERBS, combinations, prose, style_faults, words, written_faults

ALL = every_sentence()


def test_every_sentence_can_be_written_with_whatever_it_is_given():
    faults = {id_: found for id_, sentence in ALL.items() if (found := written_faults(sentence))}
    assert faults == {}


def test_every_sentence_is_in_the_words_and_form_of_the_house():
    faults = {id_: found for id_, sentence in ALL.items() if (found := style_faults(sentence))}
    assert faults == {}


def test_every_word_is_in_the_vocabulary():
    known = vocabulary.allowed()
    new = {word: id_ for word, id_ in vocabulary.used().items() if word not in known}
    assert new == {}, "use a word that is in vocabulary.txt, or run: python tests/messages/vocabulary.py --add"


def test_the_vocabulary_is_sorted_in_small_letters_and_has_each_word_once():
    lines = vocabulary.FILE.read_text(encoding="utf-8").splitlines()
    assert lines == sorted({line.lower() for line in lines})


def test_every_id_is_of_room_and_name():
    wrong = [id_ for id_ in ALL if not all(part and part == part.lower() for part in id_.split("."))]
    assert wrong == []
    assert not [id_ for id_ in ALL if "_" in id_ or " " in id_ or "." not in id_]


def test_no_two_sentences_of_a_room_say_the_same():
    seen: dict[tuple[str, str, tuple[str, ...]], list[str]] = {}
    for id_, sentence in ALL.items():
        # Rules and keys have each their own, which may come to differ.
        if not id_.startswith(("rules.", "keys.")):
            kinds = tuple(sentence.parameters)
            seen.setdefault((id_.partition(".")[0], sentence.english + sentence.plural, kinds), []).append(id_)
    # A word alone may be two things, which are two words in other languages.
    assert [ids for (_, text, _), ids in seen.items() if len(ids) > 1 and len(prose(text).split()) > 3] == []


# --- the editor itself


def _sentence(text: str, plural: str = "", id_: str = "trial.one", **parameters: Shown) -> Sentence:
    """A sentence that is not in the catalogue."""
    made = object.__new__(Sentence)
    made.id, made.english, made.plural, made.module = id_, text, plural, ""
    made.__dict__["parameters"] = parameters
    return made


WORD, COUNT, MM = (kind.__metadata__[0] for kind in (Word, Count, Mm))


@pytest.mark.parametrize(
    ("text", "plural", "parameters", "fault"),
    [
        ("Key {key} is missing", "", {}, "no parameter"),
        ("Key is missing", "", {"key": WORD}, "not used"),
        ("Gap {gap:.2f} mm", "", {"gap": MM}, "formats by itself"),
        ("Gap {gap!r}", "", {"gap": MM}, "formats by itself"),
        ("Gap {gap", "", {"gap": MM}, "braces"),
        ("Gap {}", "", {"gap": MM}, "no parameter"),
        ("{n} part", "{n} parts", {"n": COUNT}, "no count"),
        ("One part of {x}", "{count} parts", {"count": COUNT, "x": WORD}, "x is not used"),
    ],
)
def test_braces_that_are_not_in_order(text, plural, parameters, fault):
    assert any(fault in found for found in written_faults(_sentence(text, plural, **parameters)))


@pytest.mark.parametrize(
    ("text", "plural", "parameters"),
    [
        ("Key {key} is missing", "", {"key": WORD}),
        ("One part", "{count} parts", {"count": COUNT}),
        ("The part {x}", "The parts {x}", {"count": COUNT, "x": WORD}),
        ("A text in {{braces}}", "", {}),
        ("A text in {{braces}} of {key}", "", {"key": WORD}),
        ("A comma or }} after each value", "", {}),
    ],
)
def test_braces_that_are_in_order(text, plural, parameters):
    assert written_faults(_sentence(text, plural, **parameters)) == []


def test_each_argument_is_varied_alone_and_all_are_long_at_once():
    made = list(combinations(_sentence("{a} {b}", a=COUNT, b=WORD)))
    assert made[0] == {"a": 0, "b": "x"}
    assert made[-1] == {"a": 1_000_000, "b": "a-word-of-the-language"}
    assert len(made) == 1 + 3 + 1 + 1


@pytest.mark.parametrize(
    ("text", "id_"),
    [
        ("Sheet is missing.", "spec.sheet"),
        ("Write the sheet", "spec.sheet"),
        ("Hole  too small", "spec.sheet"),
        ("Hole too small..", "spec.sheet"),
        ("a sentence of an error that begins with a small letter and is far too long to be an argument", "spec.sheet"),
        ("the hole is too small. Enlarge it", "spec.sheet"),
        ("the hole is too small", "rules.hole-small"),
        ("Enlarge the hole", "rules.hole-small.fix"),
        ("X" * 201, "spec.sheet"),
        ("Accepted: at most 3 parts", "spec.sheet"),
        ("Hole is at least {limit}", "rules.hole-small"),
        ("{subject} leaves {measured} of metal, least {limit}", "rules.hole-small"),
    ],
)
def test_what_an_editor_strikes_out(text, id_):
    kinds = dict.fromkeys(("subject", "measured", "limit"), WORD)
    assert style_faults(_sentence(text, id_=id_, **kinds)) != []


@pytest.mark.parametrize(
    ("text", "id_"),
    [
        ("Sheet is missing", "spec.sheet"),
        ("Write the sheet.", "spec.sheet"),
        ("To print it, write the sheet.", "spec.sheet"),
        ("Accepted: a, b and c", "spec.sheet"),
        ("`size` is missing", "spec.sheet"),
        ("'..' is not a file name", "spec.sheet"),
        ("{subject} is missing", "spec.sheet"),
        ("2 parts have the ref {subject}", "spec.sheet"),
        ("the legend of {subject}", "spec.sheet"),
        ("error: {subject}: {measured}", "cli.os"),
        ("Add part", "page.add-part"),
        ("Delete", "page-parts.delete"),
        ("Undo the last change.", "viewer.undo"),
        ("Ignore the saved placement", "cli.help"),
        ("Did you mean {subject}?", "spec.near"),
        ("Cut size", "reports.heading"),
        ("Quantities for one panel.", "sheets-proof.note"),
        ("Accepted: a number, or LOW..HIGH", "spec.range"),
        ("Done by ______  date ______", "sheets.sign"),
        ("no. 3, 2:1", "sheets.window"),
        ("keep-out at {subject}", "checks.keepout"),
        ("Minimum web of {subject} is {measured}; minimum {limit}", "rules.web-narrow"),
        ("Enlarge the hole to {limit}.", "rules.hole-small.fix"),
        ("Move the hole by at least {limit}.", "rules.hole-small.fix"),
        ("{subject}", "rules.hole-small.fix"),
        ("Use at most 3 parts.", "spec.parts"),
        ("Cutout size not from a data sheet. Measure the part before cutting.", "reports.note"),
    ],
)
def test_what_an_editor_leaves(text, id_):
    kinds = dict.fromkeys(("subject", "measured", "limit"), WORD)
    assert style_faults(_sentence(text, id_=id_, **kinds)) == []


@pytest.mark.parametrize(
    "text",
    [
        "clearance 0.3 mm, least 0.4 mm", "at most 3 parts", "at least 3 parts", "the most parts", "it wants a line",
        "it is to be written in mm", "the metal bears nothing", "marks stand too close", "it stood here",
        "pieces left out", "the mouth of the cone", "white of 0.3 mm", "white between two marks", "film of 0.06 mm",
        "the film is too thick", "a film thickness", "not held against anything", "the opening rests on figures",
        "only told", "a slip in the spec", "the same trouble", "out of account", "taken into account", "2 problems",
        "this is no baseline", "it has no room", "room for a finger", "the frame takes in 3 mm", "metal left at it",
        "every deviation against it", "the colors of inks", "it doesn't fit", "please write it", "a way out",
        "put these right first", "mend the drawing", "the legend says nothing", "it comes to 3 mm",
    ],
)  # fmt: skip
def test_words_that_are_banned(text):
    assert banned_in(text) != []


@pytest.mark.parametrize(
    "text",
    [
        "clearance 0.3 mm; minimum 0.4 mm", "Give at least one part", "is to the left of S2", "is to its left",
        "is to scale", "bearing", "Use a stand-off", "standoffs", "white ink", "the white base", "a white legend",
        "label film", "the film positives", "a film positive", "protective film", "Put protective film on the face",
        "compared with the list", "the rest of the list", "a slot", "mushroom", "headroom", "accounts", "wanted",
        "3 errors", "is no longer on the panel", "are no more", "the coat thickness", "the centre", "colour",
        "a data sheet, a standard, from memory", "almost", "atmost", "the bridge rectifier", "Take the part out",
        "the cutout is 3 mm wide", "There is no symbol", "in most faces", "Ends up to 3 mm apart", "Turned by 90°",
    ],
)  # fmt: skip
def test_good_uses_of_the_same_words(text):
    assert banned_in(text) == []


def test_keys_commands_and_files_are_not_read_as_prose():
    sentence = _sentence("Write `least` or 'most' with --told in room.yaml, “film” of {mouth}.", mouth=WORD)
    assert style_faults(sentence) == []
    assert words(sentence) == {"write", "or", "with", "in", "of"}


def test_no_verb_is_in_both_lists():
    assert set() == VERBS & NOUNS_TOO


def test_the_catalogue_has_what_was_imported():
    assert ALL.keys() == CATALOGUE.keys()
