"""What an edit costs, by counters, and that whatever is remembered gives the bytes of a cold run.

The oracle is the cold run itself: the same text built by a process, or a build, that remembers nothing.
"""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from panelart.canonical import NotCanonicalError, Struct, canonical, digest
from panelart.diagnostics import Origin, SpecError
from panelart.model.places import nowhere
from panelart.pipeline import Built, build
from panelart.reports.json import json_report
from panelart.spec.read import panel_from_text
from panelart.stages import Memory, remembering, stage, watch
from tests.effort import examples

DEMO = Path(__file__).parents[1] / "demo"
SPECS = ("bench-supply", "monitor-2u", "valve-stand", "relay-tray")


def text_of(name: str) -> str:
    return (DEMO / f"{name}.yaml").read_text(encoding="utf-8")


def built(text: str) -> Built:
    return build(panel_from_text(text, "front.yaml", DEMO))


def everything(text: str) -> tuple[bytes, ...] | str:
    """All that decides the files of a panel, or what is wrong with its spec."""
    try:
        made = built(text)
    except SpecError as error:
        return str(error)
    layout = made.layout
    return (
        made.placement,
        json_report(made.inspection).encode(),
        canonical(made.inspection.findings),
        canonical((layout.panel.parts, layout.panel.marking, layout.panel.facts, layout.panel.places)),
        canonical((layout.cut_outline, layout.every_opening, layout.envelopes, layout.frames, layout.masks)),
        canonical((layout.legends, layout.marks, layout.unplaced, layout.blank, layout.proof)),
    )


def edits(text: str, chance: random.Random) -> Iterator[str]:
    """Texts, each from the one before by a small edit or an undo; some cannot be built."""
    states = [text]
    while True:
        now = states[-1]
        match chance.randrange(6):
            case 0 if len(states) > 1:
                states.pop()
                yield states[-1]
                continue
            case 1:
                new = f"# {chance.random()}\n{now}"
            case 2:  # 3 -> 3.0: another text for the same number
                new = _at_random(r"(?<![\w.#\"'])(\d+)(?![\w.:\"'])", now, chance, lambda found: f"{found[1]}.0")
            case 3 | 4:
                new = _at_random(
                    r"at: \[(-?[\d.]+)",
                    now,
                    chance,
                    lambda found: f"at: [{float(found[1]) + chance.choice((-1, 0.5, 2)):g}",
                )
            case _:
                new = _at_random(r"legend: (\w+)", now, chance, lambda found: f"legend: {found[1]}X")
        states.append(new)
        yield new


def _at_random(pattern: str, text: str, chance: random.Random, new) -> str:
    found = list(re.finditer(pattern, text))
    if not found:
        return text
    one = chance.choice(found)
    return text[: one.start()] + new(one) + text[one.end() :]


@pytest.mark.few(2)
@pytest.mark.parametrize("name", SPECS)
@pytest.mark.parametrize("seed", range(4))
def test_edits_and_undos_give_what_a_cold_run_gives(name: str, seed: int) -> None:
    memory = Memory()
    states = edits(text_of(name), random.Random(f"{name} {seed}"))
    for _ in range(examples(8)):
        text = next(states)
        with remembering(memory):
            warm = everything(text)
        assert warm == everything(text)


@pytest.mark.parametrize("name", SPECS)
def test_a_remark_costs_reading_alone_and_moves_every_place_one_line_on(name: str) -> None:
    text = text_of(name)
    with remembering(Memory()) as memory:
        before = built(text)
        computed = memory.computed.copy()
        after = built(f"# a remark\n{text}")
    assert memory.computed == computed
    assert canonical(after.layout.legends) == canonical(before.layout.legends)
    lines = [finding.where.line for finding in before.inspection.findings]
    assert [finding.where.line for finding in after.inspection.findings] == [line + 1 for line in lines]
    assert lines
    places = before.layout.panel.places
    for part in after.layout.panel.parts:
        assert after.layout.panel.places[part.where].line == places[before.layout.panel.by_ref[part.ref].where].line + 1


def test_a_moved_part_cuts_one_part_and_solves_what_is_connected_to_it() -> None:
    text = text_of("bench-supply")
    first = re.search(r"at: \[(-?[\d.]+)", text)
    assert first
    moved = text[: first.start(1)] + f"{float(first[1]) + 0.5:g}" + text[first.end(1) :]
    with remembering(Memory()) as memory:
        built(text)
        all_of = memory.computed.copy()
        built(moved)
    cost = memory.computed - all_of
    assert cost["cut part"] == 1 < all_of["cut part"]
    assert cost["envelopes of"] == 1
    # The one that it is connected to, in each of two rounds of frames.
    assert cost["component of legends"] <= 2 < all_of["component of legends"]
    # What is written beside parts is not read from where they stand.
    assert not any(
        cost[f"rule {name}"] for name in ("positions-contradict", "control-without-name", "switch-against-convention")
    )
    assert sum(cost[name] for name in cost if name.startswith("rule ")) < sum(
        count for name, count in all_of.items() if name.startswith("rule ")
    )


def test_another_revision_solves_no_legend_and_cuts_nothing() -> None:
    text = text_of("bench-supply")
    other = re.sub(r"revision: *\S+", "revision: Z9", text)
    assert other != text
    with remembering(Memory()) as memory:
        built(text)
        before = memory.computed.copy()
        built(other)
    assert not any("legends" in name or name == "cut part" for name in memory.computed - before)


def test_numbers_that_are_equal_but_print_otherwise_are_two_things() -> None:
    things = (1, 1.0, True, "1", b"1", 0.0, -0.0, None, (1,), (1.0,), ((1,),))
    assert len({canonical(thing) for thing in things}) == len(things)
    ran: list[object] = []

    @stage
    def told(thing: object) -> str:
        ran.append(thing)
        return repr(thing)

    with remembering(Memory()):
        assert [told(thing) for thing in things] == [repr(thing) for thing in things]
        assert [told(thing) for thing in things] == [repr(thing) for thing in things]
    assert len(ran) == len(things)


def test_nouns_of_the_same_fields_are_told_apart() -> None:
    class Slot(Struct, frozen=True):
        width: float

    class Gap(Struct, frozen=True):
        width: float

    assert canonical(Slot(1.0)) != canonical(Gap(1.0))
    assert digest(Slot(1.0)) == digest(Slot(1.0)) != digest(Slot(1))


def test_what_has_no_canonical_bytes_is_refused() -> None:
    with pytest.raises(NotCanonicalError, match="object"):
        canonical((1, object()))


def test_parts_are_the_same_wherever_they_stand_in_the_file() -> None:
    text = text_of("bench-supply")
    one, other = (panel_from_text(each, "front.yaml", DEMO) for each in (text, f"# one\n# two\n{text}"))
    assert one.parts == other.parts
    assert all(isinstance(part.where, Origin) for part in one.parts)
    assert len({part.where for part in one.parts}) == len(one.parts)
    assert nowhere(one.parts) != one.parts


def test_a_watched_noun_notes_what_cached_properties_read_for_all_who_ask() -> None:
    layout = built(text_of("bench-supply")).layout
    with remembering(Memory()) as memory:
        seen = watch(layout)
        for _ in range(2):
            memory.reading("size", lambda one: one.panel.size, seen)
            memory.reading("parts", lambda one: len(one.panel.by_ref), seen)
            memory.reading("parts again", lambda one: len(one.panel.by_ref), seen)
        assert memory.computed == {"size": 1, "parts": 1, "parts again": 1}
        assert memory.recalled == {"size": 1, "parts": 1, "parts again": 1}


def test_a_font_file_that_has_other_letters_letters_otherwise(tmp_path: Path) -> None:
    """All that is kept by a font's name is kept by what is in it: caches, and the memory of stages."""
    from tests.lettering.builders import boxes

    text = text_of("bench-supply").replace("font: plain", "font: own.ttf, fallback: [plain]", 1)
    assert "own.ttf" in text
    letters = "HABCDEFGIJKLMNOPQRSTUVWXYZ"
    fonts = [boxes(dict.fromkeys(letters, (100, 0, right, 700))) for right in (300, 500)]
    made: list[tuple[bytes, str]] = []
    with remembering(Memory()):
        for number in (0, 1, 0):
            (tmp_path / "own.ttf").write_bytes(fonts[number])
            one = build(panel_from_text(text, "front.yaml", tmp_path))
            made.append((canonical(one.layout.legends), one.layout.panel.fingerprint))
    assert made[0] == made[2]
    assert made[0][0] != made[1][0]
    assert made[0][1] != made[1][1]
