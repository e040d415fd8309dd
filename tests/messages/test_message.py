"""What a message is: a frozen value that is the same however it was made, copied or stored, and written when read."""

from __future__ import annotations

import copy
import gettext
import pickle
import random
import subprocess
import sys
import textwrap
import threading
from contextvars import copy_context
from enum import Enum

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelart.diagnostics import Problem, Where
from panelart.messages import CATALOGUE, Listed, Message, Sentence, Word, counted, english, lists, message, speaking
from panelart.messages import diagnostics as said
from panelart.messages.arguments import MAX_LISTED, Each, Either, Mm, PointMm, Quoted, SizeMm, Thing
from panelart.messages.extract import every_sentence, usual_arguments
from panelart.messages.shown import MAX_QUOTED
from tests.messages.literals import ROOT

ROOM = sys.modules["panelart.messages.message"]
"""The module; in the package its name is that of the function."""

KNOWN = said.accepted_names(what="keys", names=["a", "b"])
NEAR = said.did_you_mean(name="OUT")


class Fake(gettext.NullTranslations):
    """Says every sentence in capitals, by ids."""

    def __init__(self, **texts: str) -> None:
        super().__init__()
        self.texts = {id_.replace("__", ".").replace("_", "-"): text for id_, text in texts.items()}

    def pgettext(self, context: str, message: str) -> str:
        return self.texts.get(context, message)

    def npgettext(self, context: str, msgid1: str, msgid2: str, n: int) -> str:
        return self.texts.get(context, msgid1 if n == 1 else msgid2)


class Side(Enum):
    LEFT = "left"


# --- values


def test_it_is_the_same_whichever_way_its_arguments_were_given():
    assert (
        said.accepted_names("keys", ["a", "b"])
        == said.accepted_names("keys", names=["a", "b"])
        == said.accepted_names(names=("a", "b"), what="keys")
        == KNOWN
    )
    assert hash(said.accepted_names(names=("a", "b"), what="keys")) == hash(KNOWN)


def test_it_differs_where_sentence_or_arguments_differ():
    assert said.accepted_names(what="keys", names=["a"]) != KNOWN
    assert said.accepted_names(what="names", names=["a", "b"]) != KNOWN
    assert said.hint_line(hint="x") != said.error_line(where="x", message="x")
    assert len({KNOWN, NEAR, said.did_you_mean(name="OUT")}) == 2


def test_a_list_that_changes_later_changes_nothing():
    names = ["a", "b"]
    told = said.accepted_names(what="keys", names=names)
    names.append("c")
    assert told == KNOWN
    assert str(told) == "Accepted keys: a, b"


@pytest.mark.parametrize("copied", [copy.copy, copy.deepcopy, lambda told: pickle.loads(pickle.dumps(told))])
@pytest.mark.parametrize("told", [KNOWN, NEAR, said.hint_line(hint=NEAR), lists.more(count=3)])
def test_a_copy_is_the_same(copied, told):
    again = copied(told)
    assert again == told
    assert hash(again) == hash(told)
    assert again.sentence is told.sentence
    assert str(again) == str(told)


def test_every_message_can_be_stored_and_copied():
    for sentence in every_sentence().values():
        told = Message(sentence, tuple(usual_arguments(sentence).items()))
        assert pickle.loads(pickle.dumps(told)) == told
        assert copy.deepcopy(told) == told


def test_a_stored_message_is_read_where_its_room_was_not_imported():
    code = (
        "import pickle, sys; told = pickle.loads(bytes.fromhex(sys.argv[1]));"
        "assert 'panelart.diagnostics' not in sys.modules; print(told)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, pickle.dumps(KNOWN).hex()],
        env={"PYTHONPATH": str(ROOT)}, capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert done.stdout == "Accepted keys: a, b\n"


def test_a_problem_with_messages_is_a_value_too():
    problems = [Problem(where=Where("f", 1, 1), says=NEAR, accepts=KNOWN) for _ in range(2)]
    assert problems[0] == problems[1]
    assert len(set(problems)) == 1
    assert copy.deepcopy(problems[0]) == problems[0]


def test_its_looks_for_programmers_are_short():
    assert repr(KNOWN) == "diagnostics.accepted-names(what='keys', names=('a', 'b'))"
    assert repr(KNOWN.sentence) == "<sentence diagnostics.accepted-names>"
    assert repr(said.hint_line(hint=NEAR)) == "diagnostics.hint-line(hint=diagnostics.did-you-mean(name='OUT'))"
    assert repr(said.hint_line) == "<message diagnostics.hint-line>"


def test_it_cannot_be_changed():
    with pytest.raises(AttributeError):
        KNOWN.arguments = ()  # type: ignore[misc]


@pytest.mark.parametrize("call", [
    lambda: said.did_you_mean(nmae="x"),  # type: ignore[call-arg]
    said.did_you_mean,
    lambda: said.did_you_mean("x", "y"),  # type: ignore[call-arg]
    lambda: said.did_you_mean("x", name="y"),  # type: ignore[misc]
])  # fmt: skip
def test_wrong_arguments_are_refused_where_it_is_made(call):
    with pytest.raises(TypeError):
        call()


# --- order


def test_the_order_is_that_of_the_english_texts_whatever_is_spoken():
    told = [said.hint_line(hint="b"), said.did_you_mean(name="a"), said.accepted_names(what="keys", names=["z"]), KNOWN]
    in_english = sorted(told)
    assert [one.english for one in in_english] == sorted(one.english for one in told)
    random.Random(1).shuffle(told)
    with speaking(Fake(diagnostics__hint_line="A {hint}", diagnostics__accepted_names="Z {what} {names}")):
        assert sorted(told) == in_english
        assert max(told) == in_english[-1]


def test_words_and_messages_have_one_order():
    assert sorted(["z", NEAR, "A"]) == ["A", NEAR, "z"]
    assert sorted([("x", NEAR), ("x", "A")]) == [("x", "A"), ("x", NEAR)]
    with pytest.raises(TypeError):
        _ = NEAR < 3


# --- declaring


def test_two_sentences_of_one_id_are_refused():
    with pytest.raises(ValueError, match="two messages have the id"):
        Sentence("diagnostics.did-you-mean", "Something else", parameters=dict)
    with pytest.raises(ValueError, match="two messages have the id"):
        Sentence("lists.more", "{count} more", "{count} others", parameters=dict)
    assert CATALOGUE["diagnostics.did-you-mean"].english == "Did you mean {name}?"


def test_the_same_sentence_may_be_declared_again():
    known = CATALOGUE["lists.more"]
    again = Sentence("lists.more", known.english, known.plural, parameters=lambda: known.parameters)
    assert again == known
    assert CATALOGUE["lists.more"] is known


def test_a_sentence_that_says_nothing_is_refused():
    with pytest.raises(ValueError, match="says nothing"):

        @message
        def nothing_said() -> None: ...


@pytest.fixture
def declared():
    """Declares messages of a made-up room, which are taken from the catalogue again."""
    before = dict(ROOM._CATALOGUE)

    def declare(function, plural=""):
        function.__module__ = "panelart.messages.trial_room"
        function.__annotations__ = {name: kind for name, kind in function.__annotations__.items() if name != "return"}
        return counted(plural)(function) if plural else message(function)

    yield declare
    ROOM._CATALOGUE.clear()
    ROOM._CATALOGUE.update(before)


def _function(doc, **kinds):
    namespace = {}
    exec(f"def told_thing({', '.join(kinds)}): ...", namespace)
    function = namespace["told_thing"]
    function.__doc__, function.__annotations__ = doc, kinds
    return function


def test_the_id_is_room_and_name(declared):
    assert declared(_function("Text")).sentence.id == "trial-room.told-thing"


def test_lines_of_the_source_are_joined(declared):
    assert str(declared(_function("One\n    sentence\n    of three lines."))()) == "One sentence of three lines."


@pytest.mark.parametrize(
    ("doc", "kinds", "values", "text"),
    [
        ("Write {{bold: x}}", {}, {}, "Write {bold: x}"),
        ("Write {{{key}: x}}", {"key": Word}, {"key": "bold"}, "Write {bold: x}"),
        ("Found {text}", {"text": Quoted}, {"text": "{x} {"}, "Found '{x} {'"),
        ("Found {thing}", {"thing": Thing}, {"thing": "{0} %s"}, "Found {0} %s"),
        ("100 % of {x}", {"x": Word}, {"x": "it"}, "100 % of it"),
    ],
)
def test_braces_are_read_where_they_are_doubled_and_never_in_what_is_filled_in(declared, doc, kinds, values, text):
    assert str(declared(_function(doc, **kinds))(**values)) == text


def test_a_parameter_of_no_kind_is_refused_when_it_is_written(declared):
    told = declared(_function("{x}", x=int))(x=1)
    with pytest.raises(TypeError, match="of no kind"):
        str(told)


# --- kinds


def test_a_list_is_joined_and_counted_beyond_its_length(declared):
    for kind, last in [(Listed, ", "), (Either, " or "), (Each, " and ")]:
        told = declared(_function(f"{last}{{x}}", x=kind)).sentence.parameters["x"].write
        del ROOM._CATALOGUE["trial-room.told-thing"]
        assert [told(()), told(("a",)), told(("a", "b")), told("abc")] == ["none", "a", f"a{last}b", f"a, b{last}c"]
        many = told([str(n) for n in range(60)])
        assert many.count(", ") + many.count(" or ") + many.count(" and ") == MAX_LISTED - 1
        assert many.endswith(f"{last}49 more")
        assert told([NEAR, Side.LEFT]) == f"{NEAR}{last}left"


@given(st.text(max_size=80))
def test_a_quotation_is_one_line_of_limited_length_that_drives_no_terminal(text):
    shown = str(said.did_you_mean(name=text)).removeprefix("Did you mean ").removesuffix("?")
    assert len(shown) <= MAX_QUOTED + 2
    assert shown[0] == shown[-1] == "'"
    assert len(shown.splitlines()) == 1
    assert not {character for character in shown if ord(character) < 32 or 0x7F <= ord(character) < 0xA0}
    shown.encode("utf-8")


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("two\nlines", r"'two\nlines'"), ("a\tb", r"'a\tb'"), ("\x1b[31m", r"'\x1b[31m'"), ("\r", r"'\r'"),
        ("a\u202eb", r"'a\u202eb'"), ("\u2028", r"'\u2028'"), ("\ud800", r"'\ud800'"),
        ("10\u00a0kΩ", "'10\u00a0kΩ'"), ("שלום", "'שלום'"), ("می\u200cخواهم", "'می\u200cخواهم'"),
        ("x" * 40, f"'{'x' * 40}'"), ("x" * 41, f"'{'x' * 37}...'"), ("", "''"),
    ],
)  # fmt: skip
def test_quoted(text, shown):
    assert str(said.did_you_mean(name=text)) == f"Did you mean {shown}?"


def test_members_of_enumerations_are_shown_by_their_values():
    assert str(said.hint_line(hint=Side.LEFT)) == "hint: left"


@pytest.mark.parametrize(
    ("kind", "value", "shown"),
    [
        (Mm, 0.35, "0.35 mm"), (Mm, 2, "2 mm"), (PointMm, (28, 32.5), "[28, 32.5]"), (PointMm, (0, -0.0004), "[0, 0]"),
        (SizeMm, (260.0, 110.0), "260 × 110 mm"), (Thing, "OUTPUT\nLEVEL", "OUTPUT / LEVEL"),
    ],
)  # fmt: skip
def test_kinds(kind, value, shown):
    assert kind.__metadata__[0].write(value) == shown


# --- languages


def test_a_translation_with_a_slip_in_its_braces_gives_the_english_sentence():
    for slip in ("Meinten Sie {nmae}?", "Meinten Sie {name?", "Meinten Sie {}?", "Meinten Sie {name.x}?"):
        with speaking(Fake(diagnostics__did_you_mean=slip)):
            assert str(NEAR) == "Did you mean 'OUT'?"


def test_an_argument_that_is_a_message_is_said_in_the_language_that_is_spoken():
    told = said.hint_line(hint=NEAR)
    german = Fake(diagnostics__did_you_mean="Meinten Sie {name}?", diagnostics__hint_line="Hinweis: {hint}")
    with speaking(german):
        assert str(told) == "Hinweis: Meinten Sie 'OUT'?"
        assert told.english == english(told) == "hint: Did you mean 'OUT'?"
        assert str(told) == "Hinweis: Meinten Sie 'OUT'?"
    assert str(told) == "hint: Did you mean 'OUT'?"


def test_lists_are_joined_in_the_language_that_is_spoken():
    joined = Fake(lists__in_turn="{first}、{last}", lists__nothing="無", lists__more="他{count}件")
    with speaking(joined):
        assert str(said.accepted_names(what="x", names=["a", "b", "c"])) == "Accepted x: a、b、c"
        assert str(said.accepted_names(what="x", names=[])) == "Accepted x: 無"
        assert str(said.accepted_names(what="x", names=["a"] * 20)).endswith("、他9件")


def test_threads_that_speak_different_languages_do_not_mix():
    meet = threading.Barrier(3)
    heard = {}

    def speak(language, text):
        with speaking(Fake(diagnostics__did_you_mean=text)):
            said_ = []
            for _ in range(200):
                meet.wait()
                said_.append(str(NEAR))
            heard[language] = set(said_)

    threads = [
        threading.Thread(target=speak, args=("de", "Meinten Sie {name}?")),
        threading.Thread(target=speak, args=("fr", "Vouliez-vous dire {name} ?")),
    ]
    for thread in threads:
        thread.start()
    here = set()
    for _ in range(200):
        meet.wait()
        here.add(str(NEAR))
    for thread in threads:
        thread.join()
    assert heard == {"de": {"Meinten Sie 'OUT'?"}, "fr": {"Vouliez-vous dire 'OUT' ?"}}
    assert here == {"Did you mean 'OUT'?"}


def test_a_thread_speaks_english_unless_it_is_given_the_context():
    heard = []
    with speaking(Fake(diagnostics__did_you_mean="Meinten Sie {name}?")):
        context = copy_context()
        for run in (lambda: heard.append(str(NEAR)), lambda: context.run(lambda: heard.append(str(NEAR)))):
            thread = threading.Thread(target=run)
            thread.start()
            thread.join()
    assert heard == ["Did you mean 'OUT'?", "Meinten Sie 'OUT'?"]


# --- types


@pytest.mark.full
def test_the_type_checker_knows_the_arguments_of_each_message(tmp_path, monkeypatch):
    from mypy import api

    monkeypatch.chdir(ROOT)

    trial = tmp_path / "trial.py"
    trial.write_text(
        textwrap.dedent(
            """\
            from panelart.messages import Message, lists
            from panelart.messages import diagnostics as said

            good: Message = said.accepted_names(what="keys", names=["a"])
            good = said.did_you_mean("OUT")
            good = lists.more(count=3)
            said.did_you_mean(nmae="OUT")
            said.did_you_mean()
            said.did_you_mean(name=3)
            lists.more(count="three")
            said.accepted_names(what="keys", names={"a"})
            reveal_type(said.did_you_mean)
            reveal_type(said.did_you_mean.sentence)
            """
        ),
        encoding="utf-8",
    )
    told, _, _ = api.run(["--no-error-summary", str(trial)])
    lines = [line.partition("trial.py:")[2] for line in told.splitlines() if "trial.py:" in line]
    kinds = {(int(line.partition(":")[0]), line.rpartition("[")[2].rstrip("]")) for line in lines if ": error:" in line}
    assert kinds == {
        (7, "call-arg"), (8, "call-arg"), (9, "arg-type"), (10, "arg-type"), (11, "arg-type"),
    }  # fmt: skip
    revealed = [line for line in lines if "Revealed" in line]
    assert "Declared[[name: " in revealed[0]
    assert "Sentence" in revealed[1]
