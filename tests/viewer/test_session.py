"""The spec on the desk: followed on disk, changed without overwriting anybody, and taken back."""

from __future__ import annotations

import errno
import os
import stat
import threading
import time
from pathlib import Path
from typing import Any

import pytest

from panelart.messages import viewer as said
from panelart.pipeline import set_legends
from panelart.source import edit
from panelart.viewer import session, stages
from panelart.viewer.merging import ConflictError
from panelart.viewer.session import OutOfDateError, RefusedError
from panelart.viewer.stages import revision_of
from tests.viewer.running import SMALL, Running, running

DEMO = Path(__file__).parents[2] / "demo"


def at(text: str, ref: int, where: tuple[float, float]) -> str:
    return edit.set_value(text, ("parts", ref, "at"), list(where))


def follow(served: Running, text: str) -> None:
    """Waits until the desk shows a text that was written by another hand, or says what is wrong with it."""
    end = time.monotonic() + 20
    while served.desk.state.revision != revision_of(text) and time.monotonic() < end:
        time.sleep(0.01)
    served.settle()


def shown_text(served: Running) -> str:
    shown = served.desk.state.shown
    assert shown is not None
    return shown.text


def test_a_file_written_is_a_new_picture(served: Running) -> None:
    text = at(SMALL, 0, (30, 30))
    served.spec.write_text(text)
    follow(served, text)
    assert shown_text(served) == text


def test_an_editor_that_replaces_the_file_is_followed(served: Running) -> None:
    text = at(SMALL, 0, (31, 30))
    other = served.spec.with_suffix(".tmp")
    other.write_text(text)
    other.replace(served.spec)
    follow(served, text)
    assert shown_text(served) == text


def test_a_bad_spec_keeps_the_last_good_picture_and_says_where(served: Running) -> None:
    text = SMALL.replace("part: led-5-bezel", "part: led-5-bezzel")
    served.spec.write_text(text)
    follow(served, text)
    state = served.desk.state
    assert shown_text(served) == SMALL
    (problem,) = state.problems
    assert problem.where.line == SMALL.splitlines().index(next(one for one in SMALL.splitlines() if "DS1" in one)) + 1
    assert "led-5-bezel" in problem.hint
    served.spec.write_text(SMALL)
    follow(served, SMALL)
    assert not served.desk.state.problems


@pytest.mark.parametrize("data", [b"\xff\xfe\x00", b"", b"[1, 2]", b"a: &x [*x]", b"\x00" * 50, b"panelart: 1\n" * 3])
def test_what_is_no_spec_is_told_and_not_fatal(served: Running, data: bytes) -> None:
    served.spec.write_bytes(data)
    end = time.monotonic() + 10
    while not served.desk.state.problems and time.monotonic() < end:
        time.sleep(0.01)
    assert served.desk.state.problems
    served.spec.write_text(SMALL)
    follow(served, SMALL)
    assert shown_text(served) == SMALL
    assert not served.desk.state.problems


def test_a_file_that_is_gone_and_comes_back(served: Running) -> None:
    served.spec.unlink()
    end = time.monotonic() + 10
    while not served.desk.state.problems and time.monotonic() < end:
        time.sleep(0.01)
    assert "no such file" in served.desk.state.problems[0].message
    served.spec.write_text(SMALL)
    follow(served, SMALL)
    assert not served.desk.state.problems


def test_a_part_file_that_the_spec_names_is_followed_too(served: Running) -> None:
    house = served.spec.parent / "house.yaml"
    house.write_bytes((DEMO / "house-parts.yaml").read_bytes())
    text = SMALL.replace("\nparts:\n", "\ncatalogue: [house.yaml]\n\nparts:\n")
    served.spec.write_text(text)
    follow(served, text)
    assert not served.desk.state.problems
    house.write_text("not: [a part file")
    end = time.monotonic() + 10
    while not served.desk.state.problems and time.monotonic() < end:
        time.sleep(0.01)
    assert served.desk.state.problems[0].where.name == "house.yaml"


def test_a_change_on_top_of_another_hand_s_is_joined(served: Running) -> None:
    """Nothing is overwritten: both changes are in the file."""
    base = served.desk.state.revision
    theirs = SMALL.replace("legend: Out", "legend: Outlet")
    served.spec.write_text(theirs)
    served.desk.change(base, lambda text: at(text, 0, (26, 30)), "move S1")
    assert served.spec.read_text() == at(theirs, 0, (26, 30))


def test_a_change_of_the_same_line_is_a_conflict_and_nothing_is_written(served: Running) -> None:
    base = served.desk.state.revision
    theirs = at(SMALL, 0, (27, 30))
    served.spec.write_text(theirs)
    with pytest.raises(ConflictError):
        served.desk.change(base, lambda text: at(text, 0, (26, 30)), "move S1")
    assert served.spec.read_text() == theirs


def test_what_is_written_in_the_very_moment_of_a_change_is_joined_too(
    served: Running, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An editor saves after the change was joined and before it is written: both are in the file."""
    theirs = SMALL.replace("legend: Out", "legend: Outlet")
    whole = session._problems

    def saved_meanwhile(text: str, path: Path) -> Any:
        monkeypatch.setattr(session, "_problems", whole)
        served.spec.write_text(theirs)
        return whole(text, path)

    monkeypatch.setattr(session, "_problems", saved_meanwhile)
    served.desk.change(served.desk.state.revision, lambda text: at(text, 0, (26, 30)), "move S1")
    assert served.spec.read_text() == at(theirs, 0, (26, 30))
    served.desk.undo()
    assert served.spec.read_text() == theirs


def test_undo_takes_back_its_own_change_only(served: Running) -> None:
    base = served.desk.state.revision
    served.desk.change(base, lambda text: at(text, 0, (26, 30)), "move S1")
    theirs = served.spec.read_text().replace("legend: Out", "legend: Outlet")
    served.spec.write_text(theirs)
    served.desk.undo()
    assert served.spec.read_text() == SMALL.replace("legend: Out", "legend: Outlet")
    served.desk.redo()
    assert served.spec.read_text() == theirs


def test_undo_of_what_another_hand_changed_since_is_a_conflict(served: Running) -> None:
    served.desk.change(served.desk.state.revision, lambda text: at(text, 0, (26, 30)), "move S1")
    theirs = at(SMALL, 0, (40, 30))
    served.spec.write_text(theirs)
    with pytest.raises(ConflictError):
        served.desk.undo()
    assert served.spec.read_text() == theirs


def test_a_change_that_breaks_the_spec_is_refused(served: Running) -> None:
    text = SMALL + "frames:\n  - {around: [S1, DS1], title: Box}\n"
    served.spec.write_text(text)
    follow(served, text)
    with pytest.raises(RefusedError):
        served.desk.change(revision_of(text), lambda one: edit.remove(one, ("parts", 1)), "delete DS1")
    assert served.spec.read_text() == text


def test_work_that_is_stopped_leaves_what_was_shown(served: Running, monkeypatch: pytest.MonkeyPatch) -> None:
    """The stage that runs comes to its end, the next does not begin; the next text is laid out as ever."""
    began = threading.Event()
    go_on = threading.Event()

    def slow(*all_: Any, **named: Any) -> Any:
        began.set()
        go_on.wait(10)
        return set_legends(*all_, **named)

    monkeypatch.setattr(stages, "set_legends", slow)
    text = at(SMALL, 0, (30, 30))
    served.spec.write_text(text)
    assert began.wait(10)
    assert served.desk.state.step == said.step_placing()
    served.desk.stop()
    go_on.set()
    assert served.desk.state.step == ""
    time.sleep(0.2)
    assert shown_text(served) == SMALL
    text = at(SMALL, 0, (31, 30))
    served.spec.write_text(text)
    follow(served, text)
    assert shown_text(served) == text


def test_a_state_long_gone_is_out_of_date(served: Running) -> None:
    with pytest.raises(OutOfDateError):
        served.desk.change("0" * 16, lambda text: text + "#", "nothing")


def test_undo_brings_back_every_byte_and_history_has_an_end(served: Running) -> None:
    for x in range(6):
        served.desk.change(served.desk.state.revision, lambda text, x=x: at(text, 0, (30 + x, 30)), f"move {x}")  # type: ignore[misc]
    assert served.desk.state.undo == "move 5"
    for _ in range(6):
        assert served.desk.undo() is not None
    assert served.spec.read_bytes() == SMALL.encode()
    assert served.desk.undo() is None
    assert served.desk.state.redo == "move 0"


@pytest.mark.skipif(os.name != "posix", reason="rights as POSIX has them")
def test_the_file_keeps_its_rights_and_nothing_is_left_beside_it(served: Running) -> None:
    served.spec.chmod(0o640)
    served.desk.change(served.desk.state.revision, lambda text: at(text, 0, (26, 30)), "move S1")
    assert stat.S_IMODE(served.spec.stat().st_mode) == 0o640
    assert not list(served.spec.parent.glob(".*.new"))


@pytest.mark.skipif(os.name != "posix", reason="links as POSIX has them")
def test_a_link_stays_a_link(tmp_path: Path) -> None:
    real = tmp_path / "kept" / "real.yaml"
    real.parent.mkdir()
    real.write_text(SMALL)
    link = tmp_path / "box.yaml"
    link.symlink_to(real)
    with running(link) as served:
        served.settle()
        served.desk.change(served.desk.state.revision, lambda text: at(text, 0, (26, 30)), "move S1")
        assert link.is_symlink()
        assert real.read_text() == at(SMALL, 0, (26, 30))
        text = at(SMALL, 0, (27, 30))
        real.write_text(text)
        follow(served, text)
        assert shown_text(served) == text


@pytest.mark.parametrize("what", ["folder", "file"])
def test_what_is_for_reading_only_is_told_and_left_alone(
    served: Running, monkeypatch: pytest.MonkeyPatch, what: str
) -> None:
    """As the system refuses it: whoever runs the tests may have every right."""
    if what == "file":
        monkeypatch.setattr(os, "access", lambda path, _: Path(path) != served.spec)
    else:

        def refused(**_: Any) -> Any:
            raise PermissionError(errno.EACCES, "Permission denied", "/somewhere/.box.yaml.new")

        monkeypatch.setattr("tempfile.mkstemp", refused)
    with served.client() as page:
        body = {"do": "move", "refs": ["S1"], "by": [1, 0], "revision": served.desk.state.revision}
        answer = page.post("change", json=body)
    assert answer.status_code == 422
    assert answer.json()["why"].startswith("box.yaml cannot be written: ")
    assert "/" not in answer.json()["why"]
    assert served.spec.read_text() == SMALL
    assert [path.name for path in served.spec.parent.iterdir()] == ["box.yaml"]
    assert not served.desk.state.undo


def test_a_fault_while_laying_out_is_told_and_the_next_text_is_laid_out(
    served: Running, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: Any, **__: Any) -> Any:
        raise ZeroDivisionError("no such luck")

    monkeypatch.setattr(stages, "set_legends", broken)
    served.spec.write_text(at(SMALL, 0, (30, 30)))
    follow(served, at(SMALL, 0, (30, 30)))
    assert "no such luck" in served.desk.state.problems[0].message
    monkeypatch.undo()
    text = at(SMALL, 0, (31, 30))
    served.spec.write_text(text)
    follow(served, text)
    assert shown_text(served) == text
    assert not served.desk.state.problems
