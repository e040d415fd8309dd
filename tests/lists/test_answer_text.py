"""The file of answers changed in place: read back by PyYAML; all that stood in it stands in it, line by line."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
import yaml
from msgspec.structs import replace

from panelart.catalogue import component, names
from panelart.diagnostics import SpecError
from panelart.lists.answer_text import with_answer, with_questions, with_rooms
from panelart.lists.answered import MEASURE, OPEN
from panelart.lists.answers import read_answers
from panelart.lists.questions import Question, questions
from panelart.lists.read import read_list

LIST = b"Ref,Description,Order code\nS2,rotary switch,RS-7\nS3,rotary switch,RS-8\nJ1,mains inlet,\n"
ASKED = questions(read_list(LIST, "list.csv").items)
ROTARY, INLET = ASKED
TITLES = {one.name: component(one.name).title for each in ASKED for one in each.candidates}

OURS = """\
# Northwell house list
columns:
  - {heads: [Ref, Part], are: {legend: "3"}}   # by hand

answers:
  # the usual one
  - words: [rotary switch]  # of stock
    part: "?"
  - {numbers: [k-1], part: none}
rooms: []
"""


def lines_kept(before: str, after: str) -> bool:
    """Whether every line of a text stands in another, in the same order."""
    left = iter(after.splitlines())
    return all(line in left for line in before.splitlines())


def answered(text: str, question: Question) -> set[str | None]:
    answers = read_answers([(text.encode(), "a.yaml")], names())
    return {answers.of([words], "") for words in question.words} | {
        answers.of([], number) for number in question.numbers
    }


@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_new_questions_stand_at_the_end_with_their_candidates_as_remarks(end: str) -> None:
    before = OURS.replace("\n", end)
    after = with_questions(before, ASKED, TITLES, "a.yaml")
    read = yaml.safe_load(after)["answers"]
    assert [(one.get("words"), one.get("numbers"), one["part"]) for one in read] == [
        (["rotary switch"], ["RS-7", "RS-8"], "?"), (None, ["k-1"], "none"), (["mains inlet"], None, "?"),
    ]  # fmt: skip
    assert lines_kept(before, after)
    assert after.count("\n") == after.count(end)
    remarks = [line for line in after.splitlines() if line.startswith("  #   ")]
    assert [line.split()[1] for line in remarks] == [str(1 + at) for at in range(len(INLET.candidates) + 1)]
    assert with_questions(after, ASKED, TITLES, "a.yaml") == after, "what is asked is not asked again"


@pytest.mark.parametrize(
    "before",
    [
        "columns: []\n",
        "answers: []\n",
        "{answers: [{words: [x], part: none}]}\n",
        "answers:\n- words: [x]\n  part: none",
        '{"answers": [\n  {"words": ["x"], "part": "none"}  # one\n]}\n',
    ],
)
def test_in_whatever_way_a_file_is_written(before: str) -> None:
    after = with_answer(before, ROTARY, "rotary-m10", TITLES, "a.yaml")
    assert answered(after, ROTARY) == {"rotary-m10"}
    had = yaml.safe_load(before).get("answers") or []
    assert yaml.safe_load(after)["answers"][: len(had)] == had


@pytest.mark.parametrize(
    ("parts", "due"),
    [
        (["rotary-m10"], {"rotary-m10"}),
        ([MEASURE], {MEASURE}),
        (["rotary-m10", MEASURE, "none"], {"none"}),
        (["rotary-m10", OPEN], {None}),
    ],
)
def test_the_last_answer_counts_and_the_others_are_as_they_were(parts: Sequence[str], due: set[str | None]) -> None:
    text = with_questions(OURS, ASKED, TITLES, "a.yaml")
    for part in parts:
        text = with_answer(text, ROTARY, part, TITLES, "a.yaml")
    assert answered(text, ROTARY) == due
    assert answered(text, INLET) == {None}
    assert [one["part"] for one in yaml.safe_load(text)["answers"]][1:] == ["none", "?"]
    assert "  - words: [rotary switch]  # of stock" in text.splitlines()


def test_an_answer_to_other_rows_as_well_stays_theirs() -> None:
    before = "answers:\n  - words: [rotary switch, rotary switch 4 ways]\n    part: none\n"
    after = with_answer(before, ROTARY, "rotary-m10", TITLES, "a.yaml")
    assert answered(after, ROTARY) == {"rotary-m10"}
    assert read_answers([(after.encode(), "a.yaml")], names()).of(["rotary switch 4 ways"], "") == "none"
    assert after.startswith(before)


def test_an_open_question_has_the_candidates_of_now_and_an_answered_one_its_own() -> None:
    """A number answers by the list of candidates beside it, and the sheets are made with those of now."""
    text = with_questions("columns: []\n", ASKED, TITLES, "a.yaml").replace("  # 2: J1", "  # ask Nora\n  # 2: J1")
    fewer = replace(INLET, candidates=INLET.candidates[2:])
    after = with_questions(text, [ROTARY, fewer], TITLES, "a.yaml")
    assert yaml.safe_load(after)["answers"][1]["candidates"] == [one.name for one in fewer.candidates]
    numbered = after.partition("# 2: J1")[2].partition("- words")[0].splitlines()[1:-1]
    assert [line.split()[1:3] for line in numbered[:-1]] == [
        [str(at), f"{one.name}:"] for at, one in enumerate(fewer.candidates, start=1)
    ]
    assert numbered[-1].split()[1] == str(len(fewer.candidates) + 1)
    assert "  # ask Nora" in after.splitlines()
    answered_once = with_answer(text, INLET, "1", TITLES, "a.yaml")
    assert with_questions(answered_once, [ROTARY, fewer], TITLES, "a.yaml") == answered_once


def test_rooms_are_those_of_their_spec() -> None:
    once = with_rooms(OURS, "a.yaml", {"S2": (20.0, 12.5)}, "h.yaml")
    both = with_rooms(once, "b.yaml", {"J1": (5.0, 5.0)}, "h.yaml")
    moved = with_rooms(both, "a.yaml", {"S2": (30.0, 12.5), "S3": (40.0, 12.5)}, "h.yaml")
    assert yaml.safe_load(moved)["rooms"] == [
        {"spec": "a.yaml", "places": {"S2": [30, 12.5], "S3": [40, 12.5]}},
        {"spec": "b.yaml", "places": {"J1": [5, 5]}},
    ]
    assert with_rooms(moved, "a.yaml", {}, "h.yaml") == moved
    assert with_rooms("answers: []\n", "a.yaml", {}, "h.yaml") == "answers: []\n"


def test_what_is_no_file_of_answers_is_told() -> None:
    with pytest.raises(SpecError, match=r"a\.yaml:1:1: error:"):
        with_questions("replies: []\n", ASKED, TITLES, "a.yaml")
