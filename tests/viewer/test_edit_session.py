"""An edit session at random: drags, legends, copies, deletions, undo and redo, and another hand on the same file.

A model in plain Python keeps what must be in the file; PyYAML reads the file, and the page's scene must say the same.
"""

from __future__ import annotations

import tempfile
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import httpx
import yaml
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule, run_state_machine_as_test

from tests.effort import examples
from tests.viewer.running import SMALL, Running, running

STEPS = examples(200)
"""Drags, edits and undos of the one long session."""

tenths = st.integers(-60, 60).map(lambda value: value / 10)


class EditSession(RuleBasedStateMachine):
    """What the page would send, against what the file must then say."""

    def __init__(self) -> None:
        super().__init__()
        self.stack = ExitStack()
        folder = self.stack.enter_context(tempfile.TemporaryDirectory())
        spec = Path(folder) / "box.yaml"
        spec.write_bytes(SMALL.encode())
        self.served: Running = self.stack.enter_context(running(spec))
        self.served.settle()
        self.page: httpx.Client = self.stack.enter_context(self.served.client())
        self.model: list[dict[str, Any]] = yaml.safe_load(SMALL)["parts"]
        self.past: list[list[dict[str, Any]]] = []
        self.future: list[list[dict[str, Any]]] = []

    def teardown(self) -> None:
        self.stack.close()

    def send(self, asked: dict[str, Any], wanted: list[dict[str, Any]]) -> None:
        answer = self.page.post("change", json={**asked, "revision": self.served.desk.state.revision})
        assert answer.status_code == 200, answer.text
        if wanted != self.model:
            self.past.append(self.model)
            self.future.clear()
            self.model = wanted
        self.served.settle(revision=answer.json()["revision"])

    def with_(self, ref: str, **changed: Any) -> list[dict[str, Any]]:
        return [{**part, **changed} if part["ref"] == ref else part for part in self.model]

    @rule(data=st.data(), by=st.tuples(tenths, tenths))
    def drag(self, data: st.DataObject, by: tuple[float, float]) -> None:
        part = data.draw(st.sampled_from(self.model))
        at = [round(part["at"][axis] + by[axis], 3) for axis in (0, 1)]
        if not (2 < at[0] < 118 and 2 < at[1] < 58):
            return
        self.send({"do": "move", "refs": [part["ref"]], "by": by}, self.with_(part["ref"], at=at))

    @rule(data=st.data(), words=st.sampled_from(["Power", "On: 1", "#3", "- x", "Ω 12 'a'", 'q"t', "true", "0x10"]))
    def reword(self, data: st.DataObject, words: str) -> None:
        part = data.draw(st.sampled_from(self.model))
        self.send({"do": "legend-text", "refs": [part["ref"]], "text": words}, self.with_(part["ref"], legend=words))

    @precondition(lambda self: len(self.model) < 8)
    @rule(step=st.sampled_from([3.0, 4.5, -2.5]))
    def copy(self, step: float) -> None:
        part = self.model[-1]
        at = [round(part["at"][0] + step, 3), part["at"][1]]
        if not 2 < at[0] < 118:
            return
        stem = part["ref"].rstrip("0123456789")
        taken = {one["ref"] for one in self.model}
        new = next(f"{stem}{n}" for n in range(int(part["ref"][len(stem) :]), 99) if f"{stem}{n}" not in taken)
        wanted = [*self.model, {**part, "ref": new, "at": at}]
        self.send({"do": "array", "refs": [part["ref"]], "count": 1, "step": [step, 0]}, wanted)

    @precondition(lambda self: len(self.model) > 2)
    @rule(data=st.data())
    def delete(self, data: st.DataObject) -> None:
        part = data.draw(st.sampled_from(self.model))
        rest = [one for one in self.model if one["ref"] != part["ref"]]
        self.send({"do": "delete", "refs": [part["ref"]]}, rest)

    @precondition(lambda self: self.past)
    @rule()
    def undo(self) -> None:
        answer = self.page.post("undo")
        assert answer.status_code == 200, answer.text
        self.future.append(self.model)
        self.model = self.past.pop()
        self.served.settle(revision=answer.json()["revision"])

    @precondition(lambda self: self.future)
    @rule()
    def redo(self) -> None:
        answer = self.page.post("redo")
        assert answer.status_code == 200, answer.text
        self.past.append(self.model)
        self.model = self.future.pop()
        self.served.settle(revision=answer.json()["revision"])

    @invariant()
    def the_file_says_what_was_done(self) -> None:
        text = self.served.spec.read_text()
        assert yaml.load(text, yaml.BaseLoader)["parts"] == as_texts(self.model)  # reads texts only
        assert text.startswith("# A small panel of an invented maker.\n")
        assert "size: [120, 60]   # as drawn" in text

    @invariant()
    def the_page_shows_what_the_file_says(self) -> None:
        scene = self.page.get("scene").json()
        assert {part["ref"]: part["at"] for part in scene["parts"]} == {part["ref"]: part["at"] for part in self.model}
        assert {part["ref"]: part["written"] for part in scene["parts"]} == {
            part["ref"]: part.get("legend") for part in self.model
        }


def as_texts(value: Any) -> Any:
    """Numbers as they are written, so that a legend that looks like a number is told from one."""
    match value:
        case dict():
            return {key: as_texts(one) for key, one in value.items()}
        case list():
            return [as_texts(one) for one in value]
        case int() | float():
            return f"{value:g}"
        case _:
            return value


def test_a_long_session_leaves_the_spec_that_the_page_shows() -> None:
    run_state_machine_as_test(  # type: ignore[no-untyped-call]
        EditSession,
        settings=settings(
            max_examples=1,
            stateful_step_count=STEPS,
            deadline=None,
            derandomize=True,
            suppress_health_check=list(HealthCheck),
        ),
    )
