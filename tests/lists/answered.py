"""What a user does with a kept list, played from its truth: questions answered, what was read wrongly put right.

An answer is one entry of a file of answers, as a user writes it. Where truth names several parts the first is taken;
what the catalogue lacks, and what is no part of the panel, is answered with none. A correction is an answer to a row
that nobody asked about.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import yaml
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.catalogue import names
from panelart.diagnostics import Severity
from panelart.drafting.arrange import Arranged, Request
from panelart.drafting.draft import Heading, drafts
from panelart.drafting.plan import Wish
from panelart.drafting.sides import drafted_alike, set_text, sides_of
from panelart.drafting.tried import Tried, tried
from panelart.lists.answered import NOT_ON_PANEL
from panelart.lists.answers import NONE, Answers, read_answers
from panelart.lists.listed import ComponentList, Item
from panelart.lists.matching import Matcher
from panelart.lists.questions import questions
from panelart.lists.read import read_list
from panelart.pipeline import Built, build
from panelart.spec.read import panel_at_hand

MATCHER: Final = Matcher()


class Answered(Struct, frozen=True, kw_only=True):
    """A list read with the answers of its truth, and what a user had to do for it.

    `answers` to questions, `corrections` of rows that were taken wrongly, `lacking` rows of parts that the catalogue
    lacks and that must be measured, `wrong` rows that no answer puts right: lost ones, and two of the same words.
    """

    listed: ComponentList
    given: Answers
    answers: int
    corrections: int
    lacking: int
    wrong: int


def answered(path: Path) -> Answered:
    """A kept list with its questions answered and its wrong rows put right."""
    truth = _truth(path)
    data = path.read_bytes()
    listed = read_list(data, path.name, MATCHER)
    by_ref = {item.ref: item for item in listed.items}
    entries: list[dict[str, Any]] = []
    answers = 0
    for question in questions(listed.items):
        parts = {ref: _answer(truth, listed, by_ref[ref]) for ref in question.refs}
        answers += len(set(parts.values()))
        entries += [_entry(by_ref[ref], part) for ref, part in parts.items()]
    wrong = {
        (item.sheet, item.row): item
        for item in listed.known
        if item.component not in (_accepted(truth, listed, item) or [NOT_ON_PANEL])
    }
    entries += [_entry(item, _answer(truth, listed, item)) for item in wrong.values()]
    given = _read(entries)
    again = read_list(data, path.name, MATCHER, answers=given)
    return Answered(
        listed=again,
        given=given,
        answers=answers,
        corrections=len(wrong),
        lacking=sum(told.get("panel") == [] and not told.get("repeated") for told in truth.values()),
        wrong=sum(1 for _ in _still_wrong(truth, again)),
    )


def _truth(path: Path) -> dict[tuple[str, int], dict[str, Any]]:
    """The rows of parts by sheet and number."""
    rows = yaml.safe_load(path.with_name(f"{path.stem}.truth.yaml").read_text(encoding="utf-8"))["rows"]
    parts = {key: told for key, told in rows.items() if isinstance(told, dict) and "panel" in told}
    places = {key: str(key).rpartition("!") for key in parts}
    return {(places[key][0], int(places[key][2])): told for key, told in parts.items()}


def _accepted(truth: dict[tuple[str, int], dict[str, Any]], listed: ComponentList, item: Item) -> list[str]:
    """The parts that truth accepts for an item; none for what is no part, or one that the catalogue lacks."""
    told = truth.get((item.sheet or listed.sheet, item.row)) or truth.get((item.sheet, item.row), {})
    return list(told.get("panel", ()))


def _answer(truth: dict[tuple[str, int], dict[str, Any]], listed: ComponentList, item: Item) -> str:
    return next(iter(_accepted(truth, listed, item)), NOT_ON_PANEL)


def _entry(item: Item, part: str) -> dict[str, Any]:
    number = {"numbers": [item.number]} if item.number else {}
    return {"words": [" ".join(item.texts)], **number, "part": part}


def _read(entries: list[dict[str, Any]]) -> Answers:
    if not entries:
        return NONE
    text = yaml.safe_dump({"answers": entries}, allow_unicode=True)
    return read_answers([(text.encode(), "answers.yaml")], names())


def _still_wrong(truth: dict[tuple[str, int], dict[str, Any]], listed: ComponentList) -> Iterator[tuple[str, int]]:
    """The rows whose part is not the one of truth, though all is answered."""
    taken = {(item.sheet or listed.sheet, item.row): item.component for item in listed.items}
    several = any(item.sheet for item in listed.items)
    for (sheet, row), told in truth.items():
        if told.get("repeated") or sheet in listed.others:
            continue
        component = taken.get((sheet if several else listed.sheet, row))
        if (component or NOT_ON_PANEL) not in (told["panel"] or [NOT_ON_PANEL]):
            yield sheet, row


class Drafted(Struct, frozen=True, kw_only=True):
    """A kept list as a first spec: its text, and the panels of its sides as they were built from it."""

    of: Answered
    text: str
    built: dict[str, Built]

    @property
    def errors(self) -> Counter[str]:
        """Findings at error level, by rule."""
        return self._findings(Severity.ERROR)

    @property
    def warnings(self) -> Counter[str]:
        """Findings at warning level, by rule."""
        return self._findings(Severity.WARNING)

    def _findings(self, severity: Severity) -> Counter[str]:
        return Counter(
            finding.rule
            for built in self.built.values()
            for finding in built.inspection.findings
            if finding.severity is severity
        )


def drafted(path: Path, folder: Path) -> Drafted:
    """A kept list, answered, drafted as `panelart draft --answers` does, and read again from what was written."""
    of = answered(path)
    sides = sides_of(of.listed)

    def draft(side: str, wish: Wish | None) -> list[Tried]:
        heading = Heading(title=f"{path.stem}, {side}", side=side, alone=len(sides) == 1)
        request = Request(wish=wish or Wish())

        def make(white: float) -> list[Arranged]:
            found = drafts(of.listed, heading, replace(request, white=white), folder, MATCHER)
            return [one.arranged for one in found]

        return tried(make, f"{path.stem}.yaml", folder)

    found = drafted_alike(draft, sides, ()) if len(sides) > 1 else {sides[0]: draft(sides[0], None)}
    texts = {side: made[0].arranged.text for side, made in found.items()}
    text = set_text(texts) if len(texts) > 1 else texts[sides[0]]
    members = sides if len(texts) > 1 else ("",)
    panels = {side: panel_at_hand(text, folder, member=name) for side, name in zip(sides, members, strict=True)}
    return Drafted(of=of, text=text, built={side: build(panel) for side, panel in panels.items()})
