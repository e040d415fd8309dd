"""Questions about lists, once a kind; answers by words and numbers; an earlier draft keeps its places."""

from __future__ import annotations

from pathlib import Path

import pytest

from panelart.catalogue import names
from panelart.diagnostics import SpecError
from panelart.drafting.draft import drafted_places
from panelart.lists.account import Fate
from panelart.lists.answer_text import answer_file, with_columns
from panelart.lists.answered import MEASURE
from panelart.lists.answers import read_answers
from panelart.lists.matching import Matcher
from panelart.lists.questions import questions
from panelart.lists.read import read_list
from tests.commands import run_within

LIST = (
    "Ref,Description,Order code\n"
    "S1,toggle switch 12 mm,T-12\n"
    "S2,rotary switch,RS-7\n"
    "S3,rotary switch,RS-8\n"
    "J1,BNC socket,B-1\n"
)


def test_like_rows_are_one_question_with_all_their_words() -> None:
    listed = read_list(LIST.encode(), "list.csv")
    (asked,) = questions(listed.items)
    assert (asked.refs, asked.rows, asked.numbers) == (("S2", "S3"), (3, 4), ("RS-7", "RS-8"))
    matcher = Matcher()
    titles = {one.name: matcher.component(one.name).title for one in asked.candidates}
    sheet = answer_file("list.csv", [asked], titles)
    assert not read_answers([(sheet.encode(), "answers.yaml")], names()).by_words, "an open question answers nothing"


def test_an_answer_holds_by_words_and_by_number_in_every_list() -> None:
    text = b"answers:\n  - words: [rotary switch]\n    part: rotary-m10\n  - numbers: [b-1]\n    part: none\n"
    answers = read_answers([(text, "house.yaml")], names())
    listed = read_list(LIST.encode(), "list.csv", answers=answers)
    assert {item.ref: item.component for item in listed.items} == {
        "S1": "toggle-12", "S2": "rotary-m10", "S3": "rotary-m10",
    }  # fmt: skip
    assert [row.row for row in listed.account.of(Fate.ASIDE)] == [5]
    other = read_list(b"Ref;Part\nX1;rotary switch\n", "other.csv", answers=answers)
    assert other.items[0].component == "rotary-m10"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("answers:\n  - words: [x]\n    part: rotary-m1O\n", "answers.yaml:3:11: error: Unknown part 'rotary-m1O'"),
        ("answers:\n  - words: [x]\n", "answers.yaml:2:5: error: Required key 'part' is missing"),
        ("replies: []\n", "answers.yaml:1:1: error:"),
    ],
)
def test_what_is_no_file_of_answers_is_told_with_its_place(text: str, says: str) -> None:
    with pytest.raises(SpecError) as raised:
        read_answers([(text.encode(), "answers.yaml")], names())
    assert says in str(raised.value)


ASKED = "answers:\n  - words: [rotary switch]\n    candidates: [rotary-m10, rotary-snap-12.7]\n    part: {}\n"


@pytest.mark.parametrize(
    ("number", "part"), [("1", "rotary-m10"), ("2", "rotary-snap-12.7"), ("3", MEASURE), ('"?"', None)]
)
def test_a_candidate_is_answered_by_its_number_and_the_next_is_none_of_them(number: str, part: str | None) -> None:
    answers = read_answers([(ASKED.format(number).encode(), "a.yaml")], names())
    assert answers.of(["rotary switch"], "") == part


@pytest.mark.parametrize("number", ["0", "4", "99999"])
def test_a_number_that_no_candidate_has_is_told_with_its_place(number: str) -> None:
    with pytest.raises(SpecError, match=f"a.yaml:4:11: error: Unknown candidate '{number}'") as raised:
        read_answers([(ASKED.format(number).encode(), "a.yaml")], names())
    assert "1 to 3" in str(raised.value.problems[0].accepts)


def test_a_part_to_be_measured_is_asked_about_no_more_and_keeps_its_room(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_text(LIST, encoding="utf-8")
    (tmp_path / "a.yaml").write_text(ASKED.format(3), encoding="utf-8")
    done = run_within("draft", "list.csv", "-o", "front.yaml", "--answers", "a.yaml", cwd=tmp_path)
    assert done.stdout.splitlines()[0].startswith("5 rows: 2 taken, 2 to be measured")
    text = (tmp_path / "front.yaml").read_text("utf-8")
    assert "  # MEASURE (list.csv, row 3): 'rotary switch' is none of the catalogue" in text
    assert "  # - {ref: S2, part: rotary-m10, at: [" in text
    assert not list(tmp_path.glob("front-answers.*")), "nothing is left to ask"


# --- columns


HEADS = ("Ref", "Part", "Remark")


def test_columns_once_confirmed_hold_for_lists_with_these_headings() -> None:
    text = answer_file("first.csv", [], {}, [(HEADS, {"legend": "Remark"})])
    answers = read_answers([(text.encode(), "a.yaml")], names())
    listed = read_list(b"REF;part; remark\nS1;toggle-12;POWER\n", "other.csv", answers=answers)
    assert listed.items[0].legend == "POWER"
    assert [(one.role, one.by) for one in listed.columns.columns][-1] == ("legend", "remembered")
    unlike = read_list(b"Ref;Part;Remark;Row\nS1;toggle-12;POWER;1\n", "unlike.csv", answers=answers)
    assert unlike.items[0].legend == ""
    asked = read_list(b"Ref;Part;Remark\nS1;toggle-12;POWER\n", "o.csv", asked={"notes": "Remark"}, answers=answers)
    assert asked.items[0].notes == "POWER", "what is asked for now goes first"


def test_columns_are_added_to_a_file_of_answers_and_all_else_stays() -> None:
    text = "# ours\nanswers:\n  - {words: [bnc socket], part: none}  # never\n"
    once = with_columns(text, HEADS, {"legend": "Remark"}, "a.yaml")
    assert once.startswith(text)
    twice = with_columns(once, HEADS, {"notes": "2"}, "a.yaml")
    third = with_columns(twice, ("Ref", "Name"), {"part": "Name"}, "a.yaml")
    columns = read_answers([(third.encode(), "a.yaml")], names()).columns
    assert {heads: dict(one.are) for heads, one in columns.items()} == {
        ("ref", "part", "remark"): {"legend": "Remark", "notes": "2"}, ("ref", "name"): {"part": "Name"},
    }  # fmt: skip


def test_a_column_asked_for_is_kept_beside_the_spec_and_told_when_it_is_used(tmp_path: Path) -> None:
    for name in ("a.csv", "b.csv"):
        (tmp_path / name).write_text("Ref,Part,Remark\nS1,toggle-12,POWER\nS2,toggle-12,\n", encoding="utf-8")
    done = run_within("draft", "a.csv", "--column", "legend=C", cwd=tmp_path)
    assert "a-answers.yaml: columns kept for lists with these headings" in done.stdout
    shown = [line.split() for line in done.stdout.splitlines() if line.startswith("  ")]
    assert shown == [
        ["A", "ref", "Ref", "S1", "|", "S2"], ["B", "part", "Part", "toggle-12", "|", "toggle-12"],
        ["C", "legend", "Remark", "POWER", "|"],
    ]  # fmt: skip
    again = run_within("draft", "b.csv", "--answers", "a-answers.yaml", cwd=tmp_path)
    assert "Columns kept for these headings in a-answers.yaml: legend=Remark" in again.stdout
    assert "legend: POWER" in (tmp_path / "b.yaml").read_text("utf-8")


# --- the earlier draft


def test_an_answered_draft_keeps_its_places_and_puts_the_part_where_room_was_kept(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_text(LIST, encoding="utf-8")
    done = run_within("draft", "list.csv", "-o", "front.yaml", cwd=tmp_path)
    assert (
        done.stdout.startswith("5 rows: 3 taken, 2 to be answered") or "to be answered" in done.stdout.splitlines()[0]
    )
    before = (tmp_path / "front.yaml").read_text("utf-8")
    assert "part: rotary" not in "\n".join(line for line in before.splitlines() if not line.lstrip().startswith("#"))
    size, places = drafted_places(before, "front.yaml")
    assert set(places) == {"S1", "J1"}
    answers = read_answers([((tmp_path / "front-answers.yaml").read_bytes(), "front-answers.yaml")], names())
    places |= answers.rooms["front.yaml"]
    assert set(places) == {"S1", "S2", "S3", "J1"}
    sheet = (tmp_path / "front-answers.yaml").read_text("utf-8").replace('part: "?"', "part: rotary-m10")
    (tmp_path / "front-answers.yaml").write_text(sheet, encoding="utf-8")
    again = run_within(
        "draft", "list.csv", "-o", "front.yaml", "--answers", "front-answers.yaml", "--force", cwd=tmp_path
    )
    assert again.returncode in (0, 1), again.stderr
    after = drafted_places((tmp_path / "front.yaml").read_text("utf-8"), "front.yaml")
    assert after[0] == size
    assert {ref: after[1][ref] for ref in places} == places
    assert (tmp_path / "front-answers.yaml").read_text("utf-8") == sheet, "given answers are not written over"


def test_answers_that_are_not_given_are_not_written_over(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_text(LIST, encoding="utf-8")
    (tmp_path / "front-answers.yaml").write_text(ASKED.format(1), encoding="utf-8")
    done = run_within("draft", "list.csv", "-o", "front.yaml", cwd=tmp_path)
    assert "front-answers.yaml has answers and is kept" in done.stdout
    assert (tmp_path / "front-answers.yaml").read_text("utf-8") == ASKED.format(1)


def test_a_legend_like_a_mark_of_ours_leaves_its_part_in_place(tmp_path: Path) -> None:
    """Parts that are not decided are known by their refs, not by what stands in the text."""
    rows = 'Ref,Part,Notes\nS1,toggle-12,check this # ?\nS2,rotary switch,"{ref: S1, # ?"\n'
    (tmp_path / "list.csv").write_text(rows, encoding="utf-8")
    run_within("draft", "list.csv", "-o", "front.yaml", cwd=tmp_path)
    assert set(drafted_places((tmp_path / "front.yaml").read_text("utf-8"), "front.yaml")[1]) == {"S1"}
