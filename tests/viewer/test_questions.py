"""The questions of a list on the page's server: answers are kept at once, the draft follows, nothing else is lost."""

from __future__ import annotations

import errno
from pathlib import Path
from typing import Any

import httpx
import pytest

from panelart.viewer.listing import Listing
from tests.viewer.listed import LIST, answers, asking, parts, rooms, wait
from tests.viewer.running import Running


@pytest.fixture
def served(asked: Running) -> Running:
    return asked


def questions(served: Running) -> dict[str, dict[str, Any]]:
    """The questions by their first ref."""
    with served.client() as page:
        return {one["refs"][0]: one for one in page.get("questions").json()["questions"]}


def answer(served: Running, ref: str, part: str) -> httpx.Response:
    with served.client() as page:
        return page.post("answer", json={"question": questions(served)[ref]["id"], "part": part})


def test_each_question_has_its_rows_and_candidates_best_first(served: Running) -> None:
    asked = questions(served)
    assert {ref: one["rows"] for ref, one in asked.items()} == {"S2": [3, 4], "J1": [5], "M1": [6]}
    assert asked["S2"]["numbers"] == ["RS-7", "RS-8"]
    assert asked["S2"]["candidates"][0]["name"] == "rotary-m10"
    kinds = [kind for kind, _ in asked["S2"]["candidates"][0]["lines"]]
    assert kinds == ["hole", "for", "unsaid"]
    assert asked["S2"]["answer"] is None


def test_every_candidate_is_drawn(served: Running) -> None:
    with served.client() as page:
        for one in questions(served).values():
            for number in range(1, len(one["candidates"]) + 1):
                drawn = page.get(f"candidate/{one['id']}/{number}.svg")
                assert drawn.headers["content-type"] == "image/svg+xml"
                assert drawn.text.count("<path") + drawn.text.count("<circle") > 1
            assert page.get(f"candidate/{one['id']}/99.svg").status_code == 404
        assert page.get("candidate/none/1.svg").status_code == 404


def test_an_answer_is_in_the_file_before_it_is_confirmed_and_then_on_the_panel(
    listing: Listing, served: Running
) -> None:
    before = listing.answers.read_text("utf-8")
    kept = rooms(listing)
    assert answer(served, "S2", "rotary-m10").status_code == 200
    assert answers(listing) == {"rotary switch": "rotary-m10", "mains inlet": "?", "panel meter": "?"}
    served.settle()
    on = parts(served.spec)
    assert {ref: on[ref]["part"] for ref in on} == {"S1": "toggle-12", "S2": "rotary-m10", "S3": "rotary-m10"}
    assert (on["S2"]["at"], on["S3"]["at"]) == (kept["S2"], kept["S3"]), "where room was kept"
    assert set(rooms(listing)) == {"J1", "M1"}
    remarks = [line for line in before.splitlines() if line.lstrip().startswith("#")]
    assert [
        line for line in listing.answers.read_text("utf-8").splitlines() if line.lstrip().startswith("#")
    ] == remarks
    assert questions(served)["S2"]["answer"] == "rotary-m10"


def test_an_answer_can_be_changed_and_taken_back(listing: Listing, served: Running) -> None:
    first = served.spec.read_bytes()
    three = {"S1", "S2", "S3"}
    for part, due in (("rotary-snap-12.7", three), ("measure", {"S1"}), ("?", {"S1"})):
        assert answer(served, "S2", part).status_code == 200
        served.settle()
        assert set(parts(served.spec)) == due
        assert answers(listing)["rotary switch"] == part
    assert served.spec.read_bytes() == first, "all is open again as it was"
    answer(served, "S2", "none")
    served.settle()
    assert set(rooms(listing)) == {"J1", "M1"}
    assert "ref: S2" not in served.spec.read_text("utf-8")


def test_what_else_was_changed_in_the_spec_stays(served: Running) -> None:
    text = served.spec.read_text("utf-8")
    edited = text.replace("thickness: 2}", "thickness: 3}").replace(
        "  viewing_distance: 600", "  viewing_distance: 900"
    )
    assert edited != text
    served.spec.write_text(edited, encoding="utf-8")
    served.settle()
    answer(served, "S2", "rotary-m10")
    served.settle()
    answer(served, "J1", "iec-c14")
    served.settle()
    now = served.spec.read_text("utf-8")
    assert "thickness: 3}" in now
    assert "  viewing_distance: 900" in now
    assert set(parts(served.spec)) == {"S1", "S2", "S3", "J1"}


def test_a_part_that_was_moved_stays_where_it_is(served: Running) -> None:
    with served.client() as page:
        body = {"do": "move", "refs": ["S1"], "by": [0.5, 1.0], "revision": served.desk.state.revision}
        assert page.post("change", json=body).status_code == 200
    served.settle()
    at = parts(served.spec)["S1"]["at"]
    answer(served, "S2", "rotary-m10")
    served.settle()
    assert parts(served.spec)["S1"]["at"] == at
    assert "S2" in parts(served.spec)


def test_where_the_same_lines_were_changed_both_are_told_and_the_answer_is_kept(
    listing: Listing, served: Running
) -> None:
    text = served.spec.read_text("utf-8")
    line = next(line for line in text.splitlines() if line.lstrip().startswith("# - {ref: S2"))
    edited = text.replace(line, "  # S2 will come from stock")
    served.spec.write_text(edited, encoding="utf-8")
    served.settle()
    assert answer(served, "S2", "rotary-m10").status_code == 200
    served.settle()
    assert served.spec.read_text("utf-8") == edited
    assert answers(listing)["rotary switch"] == "rotary-m10"
    with served.client() as page:
        told = page.get("questions").json()
    assert told["trouble"]
    assert "S2 will come from stock" in told["theirs"]
    served.spec.write_text(text, encoding="utf-8")
    wait(lambda: "S2" in parts(served.spec))
    served.settle()
    with served.client() as page:
        assert page.get("questions").json()["trouble"] == []


def test_answers_written_in_an_editor_are_followed(listing: Listing, served: Running) -> None:
    text = listing.answers.read_text("utf-8")
    mine = text.replace('part: "?"', "part: 1  # by hand", 1)
    listing.answers.write_text(mine, encoding="utf-8")
    wait(lambda: "S2" in parts(served.spec))
    assert "part: 1  # by hand" in listing.answers.read_text("utf-8")
    assert questions(served)["S2"]["answer"] == "rotary-m10"


def test_a_row_that_comes_to_the_list_is_asked_about(listing: Listing, served: Running) -> None:
    listing.file.write_text(LIST + "H1,pilot light,,Ready\n", encoding="utf-8")
    wait(lambda: "pilot light" in answers(listing))
    assert questions(served)["H1"]["answer"] is None
    served.settle()
    assert "# - {ref: H1," in served.spec.read_text("utf-8")


@pytest.mark.parametrize("written", [b"answers: [\n", b"answers: \xff\n", b"", b"replies: []\n"])
def test_a_file_of_answers_that_cannot_be_read_is_told_and_written_by_nobody(
    listing: Listing, served: Running, written: bytes
) -> None:
    id_ = questions(served)["S2"]["id"]
    listing.answers.write_bytes(written)
    with served.client() as page:
        assert page.post("answer", json={"question": id_, "part": "rotary-m10"}).status_code == 422
    wait(lambda: told(served)["trouble"] != [])
    assert listing.answers.read_bytes() == written


def told(served: Running) -> dict[str, Any]:
    with served.client() as page:
        found: dict[str, Any] = page.get("questions").json()
        return found


def test_an_answer_that_cannot_be_written_is_not_confirmed(
    listing: Listing, served: Running, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The disk is stood in for, since root writes everywhere."""

    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device", "list-answers.yaml")

    monkeypatch.setattr("panelart.viewer.questions.write_all", full)
    before = listing.answers.read_bytes()
    refused = answer(served, "S2", "rotary-m10")
    assert (refused.status_code, "no space left" in refused.json()["why"]) == (422, True)
    assert listing.answers.read_bytes() == before
    monkeypatch.undo()
    monkeypatch.setattr("panelart.viewer.questions.write_folders", full)
    spec = served.spec.read_bytes()
    assert answer(served, "S2", "rotary-m10").status_code == 200
    wait(lambda: told(served)["trouble"] != [])
    assert served.spec.read_bytes() == spec
    assert answers(listing)["rotary switch"] == "rotary-m10", "what is answered is kept all the same"


def test_the_list_taken_away_is_told_and_the_page_goes_on(listing: Listing, served: Running) -> None:
    rows = listing.file.read_bytes()
    listing.file.unlink()
    wait(lambda: told(served)["trouble"] != [])
    assert len(told(served)["questions"]) == 3
    listing.file.write_bytes(rows)
    wait(lambda: told(served)["trouble"] == [])
    assert answer(served, "S2", "rotary-m10").status_code == 200


@pytest.mark.parametrize(
    ("body", "status"),
    [
        ({"question": "none", "part": "rotary-m10"}, 409),
        ({"question": "S2", "part": "rotary-m1O"}, 400),
        ({"question": "S2"}, 400),
        ({"question": 3, "part": "none"}, 400),
        ({"part": "none"}, 400),
        ([], 400),
        ("text", 400),
        ({"question": "S2", "part": ["none"]}, 400),
    ],
)
def test_an_answer_that_is_none_changes_nothing(listing: Listing, served: Running, body: Any, status: int) -> None:
    before = listing.answers.read_bytes(), served.spec.read_bytes()
    if isinstance(body, dict) and body.get("question") == "S2":
        body = {**body, "question": questions(served)["S2"]["id"]}
    with served.client() as page:
        assert page.post("answer", json=body).status_code == status
        assert page.post("answer", content=b"{").status_code == 400
    assert (listing.answers.read_bytes(), served.spec.read_bytes()) == before


def test_for_looking_only_questions_are_shown_and_nothing_is_answered(listing: Listing, served: Running) -> None:
    before = listing.answers.read_bytes()
    headers = {"Origin": f"http://127.0.0.1:{served.port}"}
    (first, *_) = httpx.get(f"{served.look}questions").json()["questions"]
    body = {"question": first["id"], "part": "none"}
    for path in ("answer", "arrange"):
        assert httpx.post(f"{served.look}{path}", headers=headers, json=body).status_code == 403
    assert (
        httpx.post(f"{served.base}answer", headers={"Origin": "http://elsewhere.example"}, json=body).status_code == 403
    )
    assert listing.answers.read_bytes() == before


def test_the_next_day_it_goes_on_with_answers_and_edits(listing: Listing) -> None:
    spec = listing.wishes.spec
    with asking(listing) as served:
        answer(served, "J1", "iec-c14")
        served.settle()
    text = spec.read_text("utf-8").replace("thickness: 2}", "thickness: 3}")
    spec.write_text(text, encoding="utf-8")
    listing.answers.write_text(
        listing.answers.read_text("utf-8").replace('part: "?"', "part: rotary-m10", 1), encoding="utf-8"
    )
    with asking(listing, fresh=False) as served:
        assert {ref: one["answer"] for ref, one in questions(served).items()} == {
            "S2": "rotary-m10", "J1": "iec-c14", "M1": None,
        }  # fmt: skip
        assert set(parts(spec)) == {"S1", "S2", "S3", "J1"}, "what was answered in between is drafted"
        assert "thickness: 3}" in spec.read_text("utf-8")


def test_opened_again_with_nothing_new_it_writes_nothing(listing: Listing) -> None:
    with asking(listing) as served:
        answer(served, "J1", "iec-c14")
        served.settle()
    before = {path.name: path.stat().st_mtime_ns for path in listing.file.parent.iterdir()}
    with asking(listing, fresh=False):
        pass
    assert {path.name: path.stat().st_mtime_ns for path in listing.file.parent.iterdir()} == before


def test_arranged_again_all_parts_find_room_and_undo_brings_every_byte_back(listing: Listing, served: Running) -> None:
    answer(served, "M1", "meter-144x144")
    served.settle()
    before, kept = served.spec.read_bytes(), rooms(listing)
    assert errors(served) > 0, "room was kept for a smaller one"
    with served.client() as page:
        assert page.post("arrange", json={}).status_code == 200
        served.settle()
        assert errors(served) == 0
        assert rooms(listing) != kept
        assert page.post("undo", json={}).status_code == 200
    served.settle()
    assert served.spec.read_bytes() == before
    wait(lambda: rooms(listing) == kept)


def errors(served: Running) -> int:
    with served.client() as page:
        return sum(one["severity"] == "error" for one in page.get("scene").json()["report"]["findings"])


def test_without_a_list_nothing_is_asked(spec: Path) -> None:
    from tests.viewer.running import running

    with running(spec) as plain:
        plain.settle()
        with plain.client() as page:
            assert page.get("questions").status_code == 404
            assert page.get("candidate/x/1.svg").status_code == 404
            assert page.post("answer", json={}).status_code == 404
            assert page.post("arrange", json={}).status_code == 404
