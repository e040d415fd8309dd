"""What belongs together is set alike: rows, columns, copies, positions of one control, frames of one size.

Base lines are read back from the finished PDF by poppler's pdftotext, which knows nothing of how they were made.
"""

from __future__ import annotations

import itertools
import random
import re
import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest

import panelart as pa
from panelart.legends.groups import groups
from panelart.legends.solver import HARD, Problem, bound, cost_of, solve
from panelart.legends.wanted import NEIGHBOUR_REACH, neighbours, wanted
from panelart.model.layout import Layout, PlacedLegend
from panelart.pipeline import lay_out
from panelart.spec.read import panel_from_text

HEAD = """panelart: 1
panel: {title: Rows, size: [320, 120], sheet: {material: aluminium 5754, thickness: 2}}
marking:
  process: digital-print
  ink: {name: black, colour: "#111111"}
  lettering: {font: plain, cap_height: 3.5, case: upper}
  viewing_distance: 500
"""

WORDS = (
    "Condensate return pump",
    "Boiler recirculation pump",
    "Condensate return pump",
    "Evaporator drainage valve",
    "Acknowledge annunciator",
    "Refrigeration compressor",
)


def row(words=WORDS, part: str = "pushbutton-22", pitch: float = 35.0, at=(50.0, 60.0), more: str = "") -> str:
    lines = [
        f"  - {{ref: S{number}, part: {part}, at: [{at[0] + pitch * number:.2f}, {at[1]:.2f}], legend: {text}}}\n"
        for number, text in enumerate(words)
    ]
    return HEAD + "parts:\n" + "".join(lines) + more


def laid_out(text: str) -> Layout:
    return lay_out(panel_from_text(text))


def names(layout: Layout) -> list[PlacedLegend]:
    return sorted((legend for legend in layout.legends if legend.style == "name"), key=lambda legend: legend.ref)


def last_line(legend: PlacedLegend) -> float:
    assert legend.setting is not None
    return round(legend.baseline.y + legend.setting.baselines[-1], 3)


def centred(layout: Layout) -> list[float]:
    return [round(name.box.centre.x - layout.panel.by_ref[name.ref].at.x, 3) for name in names(layout)]


def test_a_row_of_long_names_is_set_in_one_way() -> None:
    layout = laid_out(row())
    assert not layout.unplaced
    found = names(layout)
    assert len({name.place for name in found}) == 1
    assert len({last_line(name) for name in found}) == 1
    assert centred(layout) == pytest.approx([0.0] * 6, abs=0.02)
    # All words but the short ones have as many lines: no word has fewer than it could.
    lines = {name.text.count("\n") + 1 for name in found if len(re.split(r"\s", name.text)) >= 3}
    assert len(lines) == 1


def test_like_words_are_broken_alike_and_only_where_one_of_them_must_be() -> None:
    narrow = laid_out(row(("Feed pump", "Feed pump", "Return"), pitch=25))
    assert [name.text for name in names(narrow)] == ["FEED\nPUMP", "FEED\nPUMP", "RETURN"]
    wide = laid_out(row(("Feed pump", "Feed pump", "Return"), pitch=45))
    assert [name.text for name in names(wide)] == ["FEED PUMP", "FEED PUMP", "RETURN"]


def test_lights_too_near_for_their_names_have_them_on_two_levels() -> None:
    wall = "keepouts: [{area: {rectangle: [0, 0, 320, 48]}, why: a plate}]\n"
    layout = laid_out(row(("Alarm", "Supply", "Remote", "Standby", "Run"), "led-5", 15.0, more=wall))
    found = names(layout)
    assert not layout.unplaced
    levels = [last_line(name) for name in found]
    assert len(set(levels)) == 2
    assert levels[0::2] == [levels[0]] * 3
    assert levels[1::2] == [levels[1]] * 2
    assert centred(layout) == pytest.approx([0.0] * 5, abs=0.02)


def test_one_name_goes_its_own_way_only_where_it_must_and_a_finding_says_so() -> None:
    from panelart.checks import inspect

    wall = """keepouts:
  - {area: {rectangle: [112, 70, 16, 30]}, why: a plate}
  - {area: {rectangle: [0, 10, 320, 34]}, why: a plate}
"""
    layout = laid_out(row(("Lift", "Lower", "Hold", "Park"), "pushbutton-22", 35.0, more=wall))
    sides = {name.ref: name.place for name in names(layout)}
    assert sorted(side.value for side in sides.values() if side is not None).count("above") in {3, 4}
    unlike = {finding.refs for finding in inspect(layout).findings if finding.rule == "row-unlike"}
    assert unlike == {(ref,) for ref, side in sides.items() if side is not None and side.value != "above"}


def test_a_side_that_was_asked_for_one_is_its_own() -> None:
    spec = row(("Lift", "Lower", "Hold")).replace("legend: Lower", "legend: {text: Lower, place: below}")
    places = [name.place.value for name in names(laid_out(spec)) if name.place is not None]
    assert places == ["above", "below", "above"]


def test_copies_of_a_repeat_are_alike_however_far_apart() -> None:
    spec = (
        HEAD
        + """parts:
  - repeat: {count: 3, step: [100, 0]}
    parts:
      - {ref: "F{n}", part: fuse-5x20, at: [30, 60], legend: "Fuse T 3,15 A L 250 V"}
      - {ref: "DS{n}", part: led-5, at: [56, 60], legend: "Run {n}"}
      - {ref: "S{n}", part: toggle-12, at: [76, 60], legend: "Channel {n}", positions: {up: "On", down: "Off"}}
frames:
  - {around: [F1, DS1, S1], title: Feed}
  - {around: [F2, DS2, S2], title: Condensate pump}
  - {around: [F3, DS3, S3], title: Lift}
"""
    )
    layout = laid_out(spec)
    by_ref = {name.ref: name for name in names(layout)}
    for kind in ("F", "DS", "S"):
        copies = [by_ref[f"{kind}{number}"] for number in (1, 2, 3)]
        assert len({name.text.count("\n") for name in copies}) == 1
        offsets = {
            (round(name.box.centre.x - layout.panel.by_ref[name.ref].at.x, 1), last_line(name)) for name in copies
        }
        assert len({y for _, y in offsets}) == 1
    sizes = {(round(frame.box.width, 3), round(frame.box.height, 3)) for frame in layout.frames}
    assert len(sizes) == 1
    own = laid_out(spec.replace("title: Feed}", "title: Feed, size: own}"))
    assert len({round(frame.box.width, 3) for frame in own.frames}) == 2


def test_the_name_of_a_dial_keeps_a_capital_height_from_its_numerals() -> None:
    spec = (
        HEAD
        + """parts:
  - {ref: RV1, part: pot-m10, at: [100, 60], knob: {diameter: 20, height: 14}, legend: Voltage,
     scale: {from: 0, to: 30, major: 5, minor: 1, sweep: 270}}
"""
    )
    layout = laid_out(spec)
    (name,) = names(layout)
    numerals = [legend for legend in layout.legends if legend.style == "numeral"]
    assert len(numerals) == 7
    gaps = [
        max(0.0, name.box.bottom - one.box.top, one.box.bottom - name.box.top)
        for one in numerals
        if one.box.left < name.box.right and name.box.left < one.box.right
    ]
    assert min(gaps) >= 0.98 * name.cap_height  # measured from the base line, which round letters overshoot


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="needs poppler")
@pytest.mark.parametrize(("third", "count"), [("Hold", 1), ("Hold circulation pump", 3)])
def test_a_row_has_one_base_line_in_the_finished_pdf_whatever_is_lengthened_or_moved(
    tmp_path: Path, third: str, count: int
) -> None:
    words = ("Lift", "Lower", third, "Park", "Stop")
    first = base_lines(row(words), tmp_path / "a")
    assert len(first) == count
    lines = row(words).splitlines(keepends=True)
    parts = [line for line in lines if line.startswith("  - {ref")]
    turned = [line for line in lines if line not in parts] + parts[::-1]
    assert base_lines("".join(turned), tmp_path / "b") == first
    moved = base_lines(row(words, at=(50.1, 60.1)), tmp_path / "c")
    assert [round(line - was, 2) for line, was in zip(moved, first, strict=True)] == [-0.1] * len(first)


def base_lines(spec: str, folder: Path) -> list[float]:
    """Heights of the bottoms of words that poppler reads from the artwork, in mm from the top, each once."""
    folder.mkdir()
    path = folder / "front.yaml"
    path.write_text(spec.replace("case: upper", "case: upper, text: live"))
    pa.build(pa.load(path)).write(folder / "out", only=["artwork.pdf"])
    (pdf,) = (folder / "out").glob("**/artwork.pdf")
    told = subprocess.run(["pdftotext", "-bbox", str(pdf), "-"], capture_output=True, text=True, check=True).stdout
    found = {round(float(bottom) * 25.4 / 72, 2) for bottom in re.findall(r'yMax="([\d.]+)"', told)}
    return sorted(found)


@pytest.mark.parametrize("by", [0.0, 0.1, 0.2, 0.3, 0.7])
def test_parts_just_near_enough_are_neighbours_wherever_they_are(by: float) -> None:
    wants = wanted(panel_from_text(row(("Lift", "Lower", "Hold"), pitch=NEIGHBOUR_REACH, at=(40 + by, 60 + by))))
    assert neighbours(wants, 0) == [(0, 1), (1, 2)]
    assert groups(wants) == [(0, 1, 2)]
    farther = wanted(panel_from_text(row(("Lift", "Lower"), pitch=NEIGHBOUR_REACH + 0.01, at=(40 + by, 60 + by))))
    assert neighbours(farther, 0) == []
    assert groups(farther) == []


@pytest.mark.parametrize("by", [0.0, 0.005, 0.01])
def test_parts_off_by_less_than_one_sees_are_in_one_row_wherever_they_are(by: float) -> None:
    spec = row(("Lift", "Lower"), at=(50, 60 + by)).replace(f"85.00, {60 + by:.2f}", f"85.00, {60 + by + 0.008:.3f}")
    assert neighbours(wanted(panel_from_text(spec)), 0) == [(0, 1)]


def test_glands_of_unlike_size_have_one_base_line() -> None:
    sizes = ("m12", "m32", "m16", "m25", "m12")
    parts = "".join(
        f"  - {{ref: W{number}, part: gland-{size}, at: [{35 + 52 * number}, 60], legend: Pump {number}}}\n"
        for number, size in enumerate(sizes)
    )
    assert len({last_line(name) for name in names(laid_out(HEAD + "parts:\n" + parts))}) == 1


# --- the solver


@pytest.mark.parametrize("seed", range(20))
def test_variables_bound_to_one_value_cost_what_all_of_them_cost(seed: int) -> None:
    """Against every assignment there is."""
    chance = random.Random(seed)
    sizes = [3, 3, 4, 3, 4]
    groups = [(0, 1, 3), (2, 4)]
    unaries = tuple(np.array([chance.randrange(9) for _ in range(size)]) for size in sizes)
    pairs = {
        (i, j): np.array([[chance.choice((0, 0, 3, HARD)) for _ in range(sizes[j])] for _ in range(sizes[i])])
        for i, j in itertools.combinations(range(5), 2)
        if chance.random() < 0.6
    }
    whole = Problem(unaries=unaries, pairs=pairs)
    together = bound(whole, groups)
    costs = {}
    for first, second in itertools.product(range(3), range(4)):
        costs[first, second] = cost_of(whole, [first, first, second, first, second])
        assert cost_of(together, [first, second]) == costs[first, second]
    solution = solve(together)
    assert solution.cost == min(costs.values())


def test_parts_under_a_knob_as_wide_as_their_row_hold_nobody_up() -> None:
    """Three of six lie under a knob of 130 mm; the other three are set as they are by themselves."""
    knob = "  - {ref: RV1, part: pot-m10, at: [85, 60], knob: {diameter: 130, height: 15}}\n"
    layout = laid_out(row(pitch=40.0) + knob)
    assert {missing.ref for missing in layout.unplaced} == {"S0", "S1", "S2"}
    alone = laid_out(row(words=WORDS[3:], pitch=40.0, at=(170.0, 60.0)))
    assert [last_line(name) for name in names(layout)] == [last_line(name) for name in names(alone)]
    assert all(missing.blockers for missing in layout.unplaced)


@pytest.mark.parametrize(("asked", "dx", "dy"), [("offset: [2, 3]", 2.0, 3.0), ("offset: [0, -0.5]", 0.0, -0.5)])
def test_a_name_that_was_moved_wraps_with_its_row_and_stands_where_it_was_put(asked: str, dx: float, dy: float) -> None:
    words = [WORDS[0], WORDS[1], WORDS[3], WORDS[4], "Run"]
    plain = names(laid_out(row(words)))
    moved = names(laid_out(row([*words[:2], f"{{text: {words[2]}, {asked}}}", *words[3:]])))
    assert [name.text.count("\n") for name in moved] == [name.text.count("\n") for name in plain]
    assert moved[2].box.centre.x - plain[2].box.centre.x == pytest.approx(dx, abs=0.02)
    assert last_line(moved[2]) - last_line(plain[2]) == pytest.approx(dy, abs=0.02)
    assert [last_line(name) for name in moved if name.ref != "S2"] == [
        last_line(name) for name in plain if name.ref != "S2"
    ]


@pytest.mark.parametrize("align", ["left", "right"])
def test_a_name_that_was_lined_up_wraps_with_its_row_on_its_base_line(align: str) -> None:
    words = [WORDS[0], WORDS[1], WORDS[3], WORDS[4], "Run"]
    layout = laid_out(row([*words[:2], f"{{text: {words[2]}, align: {align}}}", *words[3:]], pitch=45.0))
    found = names(layout)
    assert len({last_line(name) for name in found}) == 1
    assert [name.text.count("\n") for name in found] == [2, 2, 2, 1, 0]
    assert [round(offset, 1) for number, offset in enumerate(centred(layout)) if number != 2] == [0.0] * 4


def over_its_part(part: str, beside: str) -> float:
    """How high the base line of a name is over the middle of its part, in a row with one of another kind."""
    row_of_two = "".join(
        f"  - {{ref: S{number}, part: {name}, at: [{60 + 60 * number}, 60], legend: Run}}\n"
        for number, name in enumerate((part, beside))
    )
    return last_line(names(laid_out(HEAD + "parts:\n" + row_of_two))[0]) - 60.0


def test_a_lamps_name_stays_at_its_lamp_where_a_shared_line_would_take_it_off_by_more_than_its_height() -> None:
    """A lamp of 5 mm beside a button of 22, and beside a lamp of 8, whose own line is less than a cap height higher."""
    alone = over_its_part("led-5", "led-5")
    assert over_its_part("led-5", "pushbutton-22") == pytest.approx(alone)
    large = over_its_part("lamp-8", "lamp-8")
    assert alone < large <= alone + 3.5
    assert over_its_part("led-5", "lamp-8") == pytest.approx(large)
