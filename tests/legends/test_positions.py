"""Names of positions: on the side of the throw, in one way for one control, as a draughtsman sets them."""

from __future__ import annotations

import pytest

from panelart.model.panel import Place
from panelart.pipeline import lay_out
from panelart.spec.read import panel_from_text

HEAD = """\
panelart: 1
panel: {title: T, size: [260, 110], sheet: {material: steel, thickness: 1.5}}
marking: {process: digital-print, ink: {name: white, colour: "#ffffff"},
  lettering: {cap_height: 3.5, font: {weight: light}}}
parts:
"""


def places(body: str) -> dict[str, Place | None]:
    layout = lay_out(panel_from_text(HEAD + body))
    assert not layout.unplaced
    return {legend.text: legend.place for legend in layout.legends if legend.style == "position"}


@pytest.mark.parametrize("turn", [90, -90])
def test_the_middle_of_a_level_throw_is_named_under_it(turn: int) -> None:
    found = places(
        f"  - {{ref: S1, part: toggle-12-3pos, at: [130, 55], turn: {turn}, legend: Drive,"
        " positions: {up: FWD, centre: STOP, down: REV}}\n"
    )
    ways = (Place.LEFT, Place.RIGHT) if turn == 90 else (Place.RIGHT, Place.LEFT)
    assert found == {"FWD": ways[0], "STOP": Place.BELOW, "REV": ways[1]}


def test_positions_of_one_control_are_named_in_one_way_beside_others_that_are_not() -> None:
    found = places("""\
  - {ref: S1, part: rocker-19x13-t3, at: [60, 55], legend: Lamp, positions: {up: "I", down: "O"}}
  - {ref: S2, part: slide-switch-3, at: [110, 55], legend: Band, positions: {up: LW, centre: MW, down: SW}}
""")
    assert found == {
        "I": Place.ABOVE, "O": Place.BELOW, "LW": Place.RIGHT, "MW": Place.RIGHT, "SW": Place.RIGHT,
    }  # fmt: skip


@pytest.mark.parametrize(("pitch", "second"), [(24.6, "LEFT\nGAIN"), (24.8, "LEFT GAIN")])
def test_words_side_by_side_keep_a_cap_height_apart(pitch: float, second: str) -> None:
    """Words of 21.22 mm in capitals of 3.5: less than 24.72 apart they would read as one sentence."""
    legend = "{text: LEFT GAIN, place: above}"
    body = "".join(
        f"  - {{ref: J{number}, part: led-5, at: [{x}, 55], legend: {legend}}}\n"
        for number, x in enumerate((60, 60 + pitch))
    )
    texts = [legend.text for legend in lay_out(panel_from_text(HEAD + body)).legends]
    assert texts == [second, second]
