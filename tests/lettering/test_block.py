"""Several texts set as one block, and the evenness of broken lines.

Widths are those of single lines, and all breaks are tried one by one.
"""

from __future__ import annotations

import itertools
import math

import pytest

from panelart.lettering.block import Wording, stacked_texts, wrapped
from panelart.lettering.look import PLAIN_LOOK, Align, Look, Plate
from panelart.lettering.setting import set_words

SMALL = Wording("Speisepumpe", "plain-medium", 2.4)
LARGE = Wording("K3", "plain-bold", 5.0)


def block(*texts: Wording, align: Align = Align.CENTRE):
    return stacked_texts(texts, [text.set(align) for text in texts], align)


def test_texts_of_one_size_are_spaced_as_the_lines_of_one_text() -> None:
    one, other = Wording("FEED PUMP", "plain-medium", 3.0), Wording("RETURN", "plain-medium", 3.0)
    whole = set_words("FEED PUMP\nRETURN", "plain-medium", 3.0)
    found = block(one, other)
    assert found.baselines == pytest.approx(whole.baselines)
    assert (found.box.width, found.box.height) == pytest.approx((whole.box.width, whole.box.height))


@pytest.mark.parametrize(
    "texts", [(LARGE, SMALL), (SMALL, LARGE), (LARGE, Wording("NAME", "plain-medium", 3.0), SMALL)]
)
def test_white_between_two_sizes_is_that_of_the_one_that_needs_more(texts: tuple[Wording, ...]) -> None:
    # ISO 3098-0, lettering type B: base lines 1.3 capitals apart, 1.5 with small letters.
    pitch = {"K3": 1.3, "NAME": 1.3, "Speisepumpe": 1.5}
    found = block(*texts)
    for (upper, above), (lower, below) in itertools.pairwise(zip(texts, found.baselines, strict=True)):
        white = max((pitch[one.text] - 1.0) * one.cap_height for one in (upper, lower))
        assert above - below == pytest.approx(white + lower.cap_height)


@pytest.mark.parametrize("align", [Align.LEFT, Align.CENTRE, Align.RIGHT])
def test_texts_are_aligned_by_their_ink(align: Align) -> None:
    found = block(LARGE, SMALL, align=align)
    boxes = [one.box.moved(by) for one, by in found.members]
    edge = {
        Align.LEFT: lambda box: box.left,
        Align.RIGHT: lambda box: box.right,
        Align.CENTRE: lambda box: box.centre.x,
    }
    assert edge[align](boxes[0]) == pytest.approx(edge[align](boxes[1]))
    assert (found.cap_height, found.first_capitals) == (5.0, 5.0)
    assert block(SMALL, LARGE).first_capitals == 2.4


def test_a_text_left_out_of_a_field_keeps_its_white_from_the_edge_of_the_field() -> None:
    field = Wording("K3", "plain-medium", 3.0, Look(plate=Plate(padding=1.0)))
    found = block(field, Wording("NAME", "plain-medium", 3.0))
    (one, above), (other, below) = found.members
    gap = (above.y + one.box.bottom) - (below.y + other.cap_height)
    assert gap == pytest.approx(0.3 * 3.0)


TEXTS = (
    "CIRCULATION OF HOT OIL",
    "EMERGENCY STOP OF MAIN PUMP",
    "TRANSFORMER COOLING OIL LEVEL",
    "HEAT EXCHANGER FLUSHING VALVE",
)


@pytest.mark.parametrize("text", TEXTS)
@pytest.mark.parametrize("lines", [2, 3])
def test_of_breaks_as_narrow_the_most_even_is_taken(text: str, lines: int) -> None:
    words = text.split()
    tried = []
    for cuts in itertools.combinations(range(1, len(words)), lines - 1):
        ends = [0, *cuts, len(words)]
        broken = [" ".join(words[a:b]) for a, b in itertools.pairwise(ends)]
        widths = [set_words(line, "plain-medium", 3.0).box.width for line in broken]
        uneven = math.fsum((max(widths) - width) ** 2 for width in widths)
        tried.append((round(max(widths), 6), round(uneven, 3), "\n".join(broken)))
    found = wrapped((Wording(text, "plain-medium", 3.0, PLAIN_LOOK),), Align.CENTRE)[lines - 1]
    assert found.text == min(tried)[2]


def test_a_block_is_broken_where_that_makes_it_narrower() -> None:
    texts = (Wording("K 3", "plain-medium", 3.0), Wording("CONDENSATE RETURN PUMP", "plain-medium", 3.0))
    found = wrapped(texts, Align.CENTRE)
    assert [one.text for one in found[:2]] == ["K 3\nCONDENSATE RETURN PUMP", "K 3\nCONDENSATE\nRETURN PUMP"]
    assert [len(one.baselines) for one in found] == [2, 3, 4]
    assert found[1].box.width < found[0].box.width
