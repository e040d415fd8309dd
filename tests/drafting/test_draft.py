"""First panels from twelve invented lists: no error, what could not be known is asked, and better than filled rows."""

from __future__ import annotations

import itertools
import math
import re

import pytest

from panelart.checks.emergency import is_emergency
from panelart.checks.limits import standard
from panelart.diagnostics import SpecError
from panelart.drafting.arrange import Request
from panelart.drafting.blocks import Fixing
from panelart.drafting.draft import Heading, drafts
from panelart.drafting.plan import alignments_broken
from panelart.drafting.sized import SIZE_STEP
from panelart.drafting.sizes import size_wish
from panelart.geometry import Box
from panelart.lists.listed import Weight
from panelart.lists.read import read_list
from panelart.pipeline import build
from panelart.source import yaml
from panelart.spec.read import panel_from_text
from tests.drafting.baseline import rows_filled
from tests.drafting.cases import FOLDER, LISTS, MATCHER, SIDES, SIZES, Case, case

NAMES = [path.stem for path in LISTS]

pytestmark = pytest.mark.few(3)

QUESTIONS = {
    "09-attic-find": {*((row, "Description") for row in range(2, 7)), (10, "Qty")},
    "10-double-entries": {(4, "Ref"), (5, "Ref"), (6, "Ref"), (7, "Qty"), (8, "Ref")},
}  # fmt: skip
"""What each list leaves open, by row and header, told by hand from the lists; the others leave nothing open."""


@pytest.fixture(params=NAMES)
def drafted(request: pytest.FixtureRequest) -> Case:
    return case(request.param)


def test_there_are_twelve_lists_of_5_to_120_lines() -> None:
    counts = [len(read_list(path.read_bytes(), path.name, MATCHER).items) for path in LISTS]
    assert len(NAMES) == 12
    assert min(counts) == 5
    assert max(counts) == 120


def test_no_draft_has_a_finding_at_error_level_or_a_legend_without_room(drafted: Case) -> None:
    assert drafted.tried.errors == 0
    assert not drafted.tried.built.layout.unplaced


def test_nothing_is_too_close(drafted: Case) -> None:
    """All rules between parts are held, at warning level too; a hole's own web and names are the designer's."""
    warnings = {
        finding.rule for finding in drafted.tried.built.inspection.findings if finding.severity.value == "warning"
    }
    assert warnings <= {"name-repeated", "thin-web-in-cutout"}


def test_every_known_part_is_on_the_panel_once(drafted: Case) -> None:
    side = SIDES.get(drafted.listed.file.partition(".")[0], "front")
    wanted = {item.ref for item in drafted.listed.known if item.side == side}
    assert {part.ref for part in drafted.panel.parts} == wanted


def test_what_is_not_known_stays_in_the_spec_as_a_question_with_its_place(drafted: Case) -> None:
    text = drafted.tried.arranged.text
    for item in drafted.listed.questions:
        assert f"  # QUESTION ({drafted.listed.file}, row {item.row}): which part is '{item.words}'?" in text
        assert re.search(rf"  # - \{{ref: {item.ref}, part: ", text)


@pytest.mark.parametrize("name", NAMES)
def test_the_messy_lists_say_exactly_what_they_could_not_know(name: str) -> None:
    asked = {(remark.row, remark.column) for remark in case(name).listed.remarks if remark.weight is Weight.QUESTION}
    assert asked == QUESTIONS.get(name, set())


def test_the_spec_says_in_its_head_what_is_to_be_decided(drafted: Case) -> None:
    head = drafted.tried.arranged.text.split("panelart: 1")[0]
    for remark in drafted.listed.remarks:
        assert (str(remark) in head) == (remark.weight is Weight.QUESTION)


def test_drafts_are_smaller_than_filled_rows_and_break_fewer_alignments(drafted: Case) -> None:
    blocks, framed = drafted.blocks()
    width, height = drafted.panel.size
    side = min(
        at.x + block.all_round.left
        for block in blocks
        if block.fixing is Fixing.NONE
        for at in [drafted.panel.by_ref[block.ref].at]
    )
    plain, places = rows_filled(blocks, framed, width, min(side, 20.0), drafted.spacing)
    refs = [block.ref for block in blocks if block.fixing is Fixing.NONE]
    own = {part.ref: part.at for part in drafted.panel.parts}
    # what is not decided has room kept for it, which rows filled with the known parts do not need
    if drafted.listed.questions:
        return
    if drafted.listed.file.partition(".")[0] not in SIZES:
        assert height <= SIZE_STEP * math.ceil(plain / SIZE_STEP)
    assert alignments_broken(own, refs) <= alignments_broken(places, refs)


# --- how it is arranged


def test_displays_stand_above_the_controls_of_their_group_and_connectors_below(drafted: Case) -> None:
    blocks, framed = drafted.blocks()
    del blocks
    for zone in framed:
        for one in zone.blocks:
            for two in zone.blocks:
                if one.level < two.level:
                    assert drafted.panel.by_ref[one.ref].at.y >= drafted.panel.by_ref[two.ref].at.y


def test_an_emergency_stop_is_at_an_edge_and_clear(drafted: Case) -> None:
    clear = standard()["emergency.minimum"].value
    width, _ = drafted.panel.size
    blocks = {block.ref: block for block in drafted.blocks()[0]}
    for part in drafted.panel.parts:
        if not is_emergency(part):
            continue
        hand = blocks[part.ref].hands[0][0]
        assert part.at.x + hand.right > width - 60.0 or part.at.y + hand.bottom < 30.0
        for ref, block in blocks.items():
            for box, _ in block.hands if ref != part.ref else ():
                at = drafted.panel.by_ref[ref].at
                dx = abs(part.at.x - at.x) - (hand.width + box.width) / 2
                dy = abs(part.at.y - at.y) - (hand.height + box.height) / 2
                assert max(dx, dy) >= clear - 1.0


def test_mains_stands_on_its_own_side() -> None:
    """The inlet, its fuse and the earth stud lie left of all that carries signals, or on a shelf of their own above."""
    panel = case("07-rear").panel
    mains = [panel.by_ref[ref].at for ref in ("J1", "F1", "E1")]
    signals = [panel.by_ref[ref].at for ref in ("J2", "J3", "J4", "J5", "J6", "J7", "J8")]
    left = max(at.x for at in mains) + 30.0 < min(at.x for at in signals)
    above = min(at.y for at in mains) - 30.0 > max(at.y for at in signals)
    assert left or above


def test_channels_alike_are_arranged_alike() -> None:
    """Every strip has its knobs, switch, fader and socket at the heights of the first, one above the other."""
    panel = case("05-mixing-desk").panel
    for form in ("J{}", "RV{}1", "RV{}2", "RV{}3", "S{}", "RV{}4"):
        places = [panel.by_ref[form.format(channel)].at for channel in range(1, 9)]
        assert len({at.y for at in places}) == 1
        assert [at.x for at in places] == [panel.by_ref[f"J{channel}"].at.x for channel in range(1, 9)]


def test_margins_are_alike_on_both_sides(drafted: Case) -> None:
    blocks = [block for block in drafted.blocks()[0] if block.fixing is Fixing.NONE]
    width, _ = drafted.panel.size
    frames = {frame.box.left for frame in drafted.tried.built.layout.frames}
    rights = {frame.box.right for frame in drafted.tried.built.layout.frames}
    left = min([*(drafted.panel.by_ref[b.ref].at.x + b.all_round.left for b in blocks), *frames])
    right = max([*(drafted.panel.by_ref[b.ref].at.x + b.all_round.right for b in blocks), *rights])
    assert abs(left - (width - right)) <= 2.0


def test_places_are_on_the_grid(drafted: Case) -> None:
    for part in drafted.panel.parts:
        assert abs(part.at.x * 2 - round(part.at.x * 2)) < 1e-6 or part.component.family.startswith("rack")


@pytest.mark.few(2)
def test_the_same_list_gives_the_same_text(drafted: Case) -> None:
    again = case.__wrapped__(drafted.listed.file.partition(".")[0])
    assert again.tried.arranged.text == drafted.tried.arranged.text
    yaml.read(again.tried.arranged.text, "x")


@pytest.mark.parametrize(
    ("rows", "size", "row", "said"),
    [
        ("S1,toggle-12,A\nS2,toggle-12,漢\n", "smallest", 3, "has no glyph"),
        pytest.param(
            "S1,toggle-12,A\n",
            "20x20",
            1,
            "do not fit on 20 × 20 mm",
            id="S1,toggle-12,A\n-20x20-1-do not fit on 20 x 20 mm",
        ),
    ],
)
def test_what_stops_a_draft_is_told_at_its_row_of_the_list(rows: str, size: str, row: int, said: str) -> None:
    listed = read_list(f"ref,part,legend\n{rows}".encode(), "parts.csv", MATCHER)
    with pytest.raises(SpecError, match=said) as refused:
        drafts(listed, Heading(title="Trial"), Request(wish=size_wish(size)), FOLDER, MATCHER)
    assert refused.value.problems[0].where[:3] == ("parts.csv", row, 1)


def test_the_tables_of_the_standards_are_held_for_a_bare_hand() -> None:
    """MIL-STD-1472: 25 mm between knobs, edge to edge; the rule itself judges."""
    listed = read_list(b"ref,part,knob\nRV1-RV4,pot-m10,22x16\n", "parts.csv", MATCHER)
    (made,) = drafts(listed, Heading(title="Trial", hand="bare"), Request(wish=size_wish("smallest")), FOLDER, MATCHER)
    panel = panel_from_text(made.arranged.text)
    steps = sorted(part.at.x for part in panel.parts)
    rows = sorted({part.at.y for part in panel.parts})
    assert min(b - a for a, b in itertools.pairwise(sorted(set(steps)))) >= 22 + 25
    assert all(b - a >= 22 + 25 for a, b in itertools.pairwise(rows))
    assert {finding.rule for finding in build(panel).inspection.findings} & {"controls-too-close"} == set()


def test_the_smallest_of_given_sizes_is_taken() -> None:
    listed = read_list(b"ref,part\nRV1-RV4,pot-m10\n", "parts.csv", MATCHER)
    wish = size_wish("", "400x300, 60x40, 160x60, 90x90")
    (made,) = drafts(listed, Heading(title="Trial"), Request(wish=wish), FOLDER, MATCHER)
    assert made.arranged.plan.size in ((90.0, 90.0), (160.0, 60.0))


WAITING = """\
ref,part,legend,group
S1,toggle-12,Power,Mains
H1,pilot-22,On,Mains
P1,pilot light,Alarm,Mains
X1,bnc,Out,Data
X2,pilot light,Host,Data
X3,pilot light,Trigger,Spare
X4,pilot light,Clock,Spare
"""


def test_parts_that_wait_for_an_answer_have_their_room_in_the_frame_of_their_group() -> None:
    """With the likeliest parts filled in, by hand, every frame holds its parts and no other, and no rule is broken."""
    listed = read_list(WAITING.encode(), "parts.csv", MATCHER)
    (made,) = drafts(listed, Heading(title="Trial"), Request(wish=size_wish("smallest")), FOLDER, MATCHER)
    text = made.arranged.text
    drawn = panel_from_text(text)
    assert [frame.around for frame in drawn.frames] == [("S1", "H1"), ("X1",)]
    assert {part.ref for part in drawn.parts} == {"S1", "H1", "X1"}
    filled_in = re.sub(r"^  # - \{", "  - {", text, flags=re.MULTILINE).replace("[S1, H1]", "[S1, H1, P1]")
    filled_in = filled_in.replace("around: [X1]", "around: [X1, X2]")
    built = build(panel_from_text(filled_in))
    assert {frame.around for frame in built.layout.panel.frames} == {("S1", "H1", "P1"), ("X1", "X2"), ("X3", "X4")}
    assert not [finding for finding in built.inspection.findings if finding.severity.value == "error"]
    own = {part.ref: part.at for part in built.layout.panel.parts}
    for frame, line in zip(built.layout.panel.frames, built.layout.frames, strict=True):
        assert {ref for ref, at in own.items() if line.box.contains(Box(at.x, at.y, at.x, at.y))} == {*frame.around}


def test_a_group_of_which_nothing_is_decided_has_no_frame_yet() -> None:
    listed = read_list(b"ref,part,group\nS1,toggle-12,A\nX3,pilot light,B\nX4,pilot light,B\n", "parts.csv", MATCHER)
    (made,) = drafts(listed, Heading(title="Trial"), Request(wish=size_wish("smallest")), FOLDER, MATCHER)
    assert "\nframes:" not in made.arranged.text
    assert not panel_from_text(made.arranged.text).frames
