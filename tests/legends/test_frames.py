"""Frames come to rest round what they hold: drawn again they are the same, and none ever grows."""

from __future__ import annotations

import math
import random
from itertools import pairwise

import pytest
from msgspec.structs import replace

from panelart.geometry import Box
from panelart.legends import place as placing
from panelart.legends import ways_out
from panelart.lettering.outline import bounds
from panelart.model.panel import Arrow, FlowLine, FrameForm, FrameRequest, FrameSide, FrameSize, Side
from panelart.pipeline import lay_out
from tests.effort import examples, is_full
from tests.panels import HERE, POT, SOCKET, TOGGLE, WHITE, panel, part, request

WORDS = ["OUTPUT", "GAIN", "CURRENT LIMIT", "A", "FINE TUNE", "REF IN", "48 V"]


def crowded(seed: int):
    """Rows of parts so near to each other that names give way to the frames of others, some of them titled."""
    chance = random.Random(seed)
    pitch_x, pitch_y = chance.uniform(19, 27), chance.uniform(27, 36)
    parts, frames = [], []
    for row in range(3):
        refs = []
        for column in range(8):
            kind = chance.choice([SOCKET, TOGGLE, POT])
            ref = f"P{row}{column}"
            positions = {"up": "ON", "down": "OFF"} if kind is TOGGLE and chance.random() < 0.5 else None
            at = (20 + column * pitch_x, 20 + row * pitch_y + chance.choice([0, 0, 0, 1.5, 4]))
            parts.append(part(ref, kind, at, legend=chance.choice(WORDS), positions=positions))
            refs.append(ref)
        start = 0
        while start < len(refs):
            count = chance.randint(1, 4)
            title = request(chance.choice(["IN", "MONITOR"]), "title") if chance.random() < 0.5 else None
            frames.append(
                FrameRequest(
                    around=tuple(refs[start : start + count]),
                    title=title,
                    where=HERE,
                    margin=chance.choice([0.5, 1.0, 1.5]),
                    side=chance.choice([FrameSide.TOP, FrameSide.BOTTOM]),
                    form=chance.choice([FrameForm.FRAME, FrameForm.FRAME, FrameForm.BRACKET]),
                    size=FrameSize.OWN,
                )
            )
            start += count + chance.randint(0, 1)
    if chance.random() < 0.3:
        frames.append(FrameRequest(around=frames[0].around + frames[1].around, title=None, where=HERE, margin=2.0))
    return panel(*parts, size=(240.0, 150.0), cap_height=2.5, frames=tuple(frames))


def with_fields_and_lines(seed: int):
    """The same panels, less crowded, with some frames filled and lines of flow between their parts."""
    made, chance = crowded(seed), random.Random(seed)
    forms = [FrameForm.FRAME, FrameForm.FIELD]
    frames = tuple(replace(frame, form=chance.choice(forms)) for frame in made.frames)
    ends = [chance.sample([one.ref for one in made.parts], 3) for _ in range(3)]
    lines = tuple(
        FlowLine(start=a, end=b, more_ends=(c,), arrow=Arrow.END, width=None, ink=WHITE, where=HERE) for a, b, c in ends
    )
    return replace(made, frames=frames, lines=lines)


def content(layout, refs: tuple[str, ...]) -> Box:
    """What members cover on the written layout: envelopes, openings, legends and lines of marking."""
    boxes = [e.contour.bounds for e in layout.envelopes if e.ref in refs and e.side is Side.FRONT]
    boxes += [o.finished.bounds for o in layout.openings if o.ref in refs]
    boxes += [legend.box for legend in layout.legends if legend.ref in refs]
    boxes += [bounds(mark.shape).grown(mark.width / 2) for mark in layout.marks if mark.ref in refs]
    return Box.around(boxes)


def rounds_of(made, monkeypatch):
    """The layout, and the frames of each round."""
    rounds = []
    draw = placing.frames_round

    def noted(*given):
        rounds.append(draw(*given))
        return rounds[-1]

    with monkeypatch.context() as patched:
        patched.setattr(placing, "frames_round", noted)
        patched.setattr(ways_out, "ways_out", lambda *_: ())  # which places the panel again and again
        return lay_out(made), rounds


def test_frames_only_move_inward_until_they_are_the_same(monkeypatch) -> None:
    moved, count = 0, examples(20)
    for seed in range(count):
        layout, rounds = rounds_of(crowded(seed), monkeypatch)
        for before, after in pairwise(rounds):
            for was, now in zip(before, after, strict=True):
                outward = 0.0 if was.closed else 1000.0  # a bracket's room is all that lies on its members' side
                low = was.box.bottom - (outward if was.request.side is FrameSide.TOP else 0.0)
                high = was.box.top + (outward if was.request.side is FrameSide.BOTTOM else 0.0)
                assert Box(was.box.left, low, was.box.right, high).grown(1e-9).contains(now.box)
        if rounds[-1] != rounds[-2]:
            # A title that went along stood in a legend's way: the round before is the answer.
            assert [line.box for line in layout.frames] == [frame.box for frame in rounds[-2]]
            continue
        assert [line.box for line in layout.frames] == [frame.box for frame in rounds[-1]]
        moved += rounds[0] != rounds[-1]
        for frame in rounds[-1]:
            if frame.closed:
                # A leader's words stand with their line in the frame, a name with its part.
                assert frame.inside.contains(content(layout, frame.request.around))
    assert moved >= count // 6, "the panels were meant to be so crowded that frames are drawn more than once"


def test_fields_and_frames_among_lines_only_move_inward_too(monkeypatch) -> None:
    laid = 0
    for seed in range(6 if is_full() else 2):
        layout, rounds = rounds_of(with_fields_and_lines(seed), monkeypatch)
        laid += sum(mark.kind == "flow-line" for mark in layout.marks)
        for before, after in pairwise(rounds):
            for was, now in zip(before, after, strict=True):
                assert was.box.grown(1e-9).contains(now.box)
        assert [line.box for line in layout.frames] in ([frame.box for frame in each] for each in rounds[-2:])
    assert laid, "lines were meant to find ways"


@pytest.mark.full
def test_without_titles_that_move_nothing_is_left_out_from_one_round_to_the_next(monkeypatch) -> None:
    for seed in range(15):
        made = crowded(seed)
        bare = replace(made, frames=tuple(replace(frame, title=None) for frame in made.frames))
        _, rounds = rounds_of(bare, monkeypatch)
        assert rounds[-1] == rounds[-2]


@pytest.mark.few(3)
@pytest.mark.parametrize("seed", range(8))
def test_every_edge_is_owed_to_what_the_frame_holds_its_title_or_a_neighbour(seed: int, monkeypatch) -> None:
    layout, rounds = rounds_of(crowded(seed), monkeypatch)
    if rounds[-1] != rounds[-2]:
        pytest.skip("a title that went along stood in a legend's way")
    untitled = [
        line
        for line, asked in zip(layout.frames, layout.panel.frames, strict=True)
        if asked.form is FrameForm.FRAME and asked.title is None and len(asked.around) <= 4
    ]
    for line in untitled:
        asked = next(f for f in layout.panel.frames if f.around == line.refs and f.form is FrameForm.FRAME)
        held = content(layout, line.refs)
        # What legends keep clear of lines: 0.6 mm, also from the corner rounded by 2 mm.
        clear = 0.6 + line.width / 2
        room = max(asked.margin, 2.0 - (2.0 - clear) / math.sqrt(2))
        assert line.box.left == pytest.approx(held.left - room, abs=0.03)
        assert line.box.right == pytest.approx(held.right + room, abs=0.03)
        others = [other.box for other in layout.frames if other is not line]
        for edge, own, name in (
            (line.box.top, held.top + room, "top"),
            (line.box.bottom, held.bottom - room, "bottom"),
        ):
            shared = any(abs(getattr(other, name) - edge) < 1e-6 for other in others)
            assert shared or edge == pytest.approx(own, abs=0.03)
