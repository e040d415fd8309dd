"""From spec to panel: places, repeats, names, styles, controls, each against figures worked out by hand."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelart import catalogue
from panelart.diagnostics import SpecError
from panelart.geometry import Point
from panelart.model.panel import Anchor, Case, Knob, Panel, Place, Side
from panelart.spec.read import panel_from_text, read_panel

HEAD = """\
panelart: 1
panel:
  title: T
  size: {size}
  sheet: {{material: steel, thickness: 1.5}}
  datum: {datum}
marking:
  process: digital-print
  inks: [{{name: white, colour: "#ffffff"}}, {{name: red, colour: "#C02020"}}]
  lettering: {lettering}
"""


def panel_of(body: str, *, size: str = "[200, 100]", datum: str = "lower-left", lettering: str = "{}") -> Panel:
    return panel_from_text(HEAD.format(size=size, datum=datum, lettering=lettering) + body)


def places(panel: Panel) -> dict[str, tuple[float, float]]:
    return {part.ref: (round(part.at.x, 9), round(part.at.y, 9)) for part in panel.parts}


# --- the face


@pytest.mark.parametrize(
    ("units", "height", "within"),
    [
        (1, 43.66, 0.005),  # encyclopedia article on the rack unit
        (3, 132.55, 0.015),  # H1 in a public constants file that quotes IEC 60297-3-100
        (2, 88.1, 0.05),  # common practice, as drawings round it
        (4, 177.0, 0.05),  # common practice, as drawings round it
    ],
)
def test_rack_sizes(units: int, height: float, within: float) -> None:
    width, found = panel_of("", size=f"{{rack: {units}}}").size
    assert width == 482.6
    assert found == pytest.approx(height, abs=within)


def test_lengths_are_read_in_their_units_once() -> None:
    panel = panel_of("parts: [{ref: A, part: led-5, at: [1 in, 500 thou]}]", size="[20 cm, 14HP]")
    assert panel.size == pytest.approx((200.0, 14 * 5.08))
    assert places(panel) == {"A": (25.4, 12.7)}


@pytest.mark.parametrize(
    ("datum", "x", "y"),
    [
        ("lower-left", 0, 0),
        ("lower-right", 200, 0),
        ("upper-left", 0, 100),
        ("upper-right", 200, 100),
        ("centre", 100, 50),
        ("[20, 0.5 in]", 20, 12.7),
    ],
)
def test_everything_is_measured_from_the_datum(datum: str, x: float, y: float) -> None:
    dx, dy = 50 - x, 30 - y  # all stand at (50, 30) of the face
    panel = panel_of(
        f"parts: [{{ref: A, part: led-5, at: [{dx}, {dy}]}}]\n"
        f"texts: [{{text: B, at: [{dx}, {dy}]}}]\n"
        f"keepouts: [{{area: {{circle: [{dx}, {dy}, 4]}}, why: c}},\n"
        f"  {{area: {{rectangle: [{dx}, {dy}, 4, 2]}}, why: c}},\n"
        f"  {{area: {{polygon: [[{dx}, {dy}], [{dx + 4}, {dy}], [{dx}, {dy + 2}]]}}, why: c}}]\n",
        datum=datum,
    )
    assert panel.datum == (x, y)
    assert places(panel) == {"A": (50.0, 30.0)}
    assert panel.texts[0].at == pytest.approx((50, 30))
    disc, box, triangle = (keepout.contour for keepout in panel.keepouts)
    assert disc.bounds.centre == pytest.approx((50, 30))
    assert (box.bounds.left, box.bounds.bottom, box.bounds.right, box.bounds.top) == pytest.approx((50, 30, 54, 32))
    assert triangle.area == pytest.approx(4)
    assert triangle.bounds.left == pytest.approx(50)


def test_a_polygon_is_kept_counter_clockwise_whichever_way_it_is_written() -> None:
    panel = panel_of("keepouts: [{area: {polygon: [[0, 0], [0, 9], [9, 0]]}, side: rear, why: a}]")
    assert panel.keepouts[0].contour.area == pytest.approx(40.5)
    assert panel.keepouts[0].side is Side.REAR


def test_what_is_left_out() -> None:
    panel = panel_of("")
    assert (panel.number, panel.revision, panel.coat.kind, panel.coat.thickness) == ("", "", "none", 0.0)
    assert panel.marking.register == panel.marking.process.register.value == 0.3
    assert panel.marking.viewing_distance == 700
    assert panel.parts == panel.frames == panel.texts == panel.keepouts == panel.waivers == ()


# --- repeats


def test_repeats_nest_and_number() -> None:
    panel = panel_of(
        """\
parts:
  - repeat: {count: 2, step: [0, 30], start: 0, as: row}
    parts:
      - {ref: "K{row}", part: led-3, at: [5, 10]}
      - repeat: {count: 3, step: [20, 1], start: 7}
        parts:
          - {ref: "J{row}_{n}", part: led-5, at: [10, 10], legend: "{row}/{ n }", turn: 90}
"""
    )
    assert places(panel) == {
        "K0": (5, 10), "J0_7": (10, 10), "J0_8": (30, 11), "J0_9": (50, 12),
        "K1": (5, 40), "J1_7": (10, 40), "J1_8": (30, 41), "J1_9": (50, 42),
    }  # fmt: skip
    assert [part.legend.text for part in panel.parts if part.legend] == ["0/7", "0/8", "0/9", "1/7", "1/8", "1/9"]
    assert {part.turn for part in panel.parts if part.legend} == {90.0}


@given(st.integers(1, 6), st.integers(1, 6), st.integers(-3, 3))
def test_copies_stand_at_even_steps(rows: int, columns: int, start: int) -> None:
    panel = panel_of(
        f"""\
parts:
  - repeat: {{count: {rows}, step: [0, 7], start: {start}, as: r}}
    parts:
      - repeat: {{count: {columns}, step: [11, 0], start: {start}, as: c}}
        parts: [{{ref: "J{{r}}_{{c}}", part: led-3, at: [10, 10]}}]
"""
    )
    assert places(panel) == {
        f"J{start + r}_{start + c}": (10 + 11 * c, 10 + 7 * r) for r in range(rows) for c in range(columns)
    }


def test_braces_doubled_are_braces() -> None:
    panel = panel_of('parts: [{ref: A, part: led-5, at: [9, 9], legend: "{{a}}"}]\ntexts: [{text: "}}{{", at: [1, 1]}]')
    assert panel.parts[0].legend is not None
    assert panel.parts[0].legend.text == "{a}"
    assert panel.texts[0].request.text == "}{"


# --- relative places


def test_places_from_other_parts_in_any_order() -> None:
    panel = panel_of(
        """\
parts:
  - {ref: C, part: led-5, at: {from: B, by: [0, -5]}}
  - {ref: B, part: led-5, at: {from: A, by: [1 in, 0]}}
  - {ref: A, part: led-5, at: [10, 50]}
""",
        datum="centre",
        size="[200, 200]",
    )
    assert places(panel) == {"C": (135.4, 145), "B": (135.4, 150), "A": (110, 150)}


def test_a_place_from_the_same_copy_follows_it_and_any_other_is_stepped() -> None:
    panel = panel_of(
        """\
parts:
  - {ref: A, part: led-5, at: [10, 10]}
  - repeat: {count: 2, step: [40, 0]}
    parts:
      - {ref: "S{n}", part: led-5, at: [20, 20]}
      - {ref: "T{n}", part: led-5, at: {from: "S{n}", by: [0, 5]}}
      - {ref: "U{n}", part: led-5, at: {from: A, by: [0, 5]}}
      - {ref: "V{n}", part: led-5, at: {from: S1, by: [0, 9]}}
      - repeat: {count: 2, step: [0, 10], as: m}
        parts: [{ref: "W{n}{m}", part: led-5, at: {from: "S{n}", by: [5, 10]}}]
  - {ref: Z, part: led-5, at: {from: W22, by: [1, 1]}}
"""
    )
    assert places(panel) == {
        "A": (10, 10),
        "S1": (20, 20), "T1": (20, 25), "U1": (10, 15), "V1": (20, 29), "W11": (25, 30), "W12": (25, 40),
        "S2": (60, 20), "T2": (60, 25), "U2": (50, 15), "V2": (60, 29), "W21": (65, 30), "W22": (65, 40),
        "Z": (66, 41),
    }  # fmt: skip


# --- lettering


def test_styles_follow_the_lettering_and_say_what_they_do_differently() -> None:
    own = "{note: {cap_height: 1.5, ink: red}, numeral: {font: {weight: bold}}}"
    panel = panel_of("", lettering=f"{{cap_height: 4, case: upper, styles: {own}}}")
    styles = panel.marking.styles
    assert {name: style.cap_height for name, style in styles.items()} == {
        "title": 5.0, "name": 4.0, "position": 3.2, "numeral": 3.2, "note": 1.5
    }  # fmt: skip
    assert [name for name, style in styles.items() if style.case is Case.UPPER] == ["title", "name", "position"]
    assert {name: style.ink.name for name, style in styles.items() if style.ink.name != "white"} == {"note": "red"}
    assert styles["numeral"].font == "plain-bold"
    assert styles["name"].font == "plain-medium"
    assert panel.marking.inks[0].colour == "#FFFFFF"


def test_the_case_is_set_on_names_positions_and_titles_only() -> None:
    panel = panel_of(
        """\
parts:
  - {ref: a1, part: toggle-12, at: [20, 20], legend: Gain dB, positions: {up: On, down: 5 mV}}
  - ref: b1
    part: led-5
    at: [50, 20]
    legend: {text: Fuse T 1 A, style: note, place: left, cap_height: 2, ink: red}
frames: [{around: [a1, b1], title: Both}]
texts: [{text: Title, at: [9, 9], anchor: right, turn: 90}, {text: Note, at: [9, 9], style: note}]
""",
        lettering="{case: upper}",
    )
    first, second = panel.parts
    assert first.legend is not None
    assert second.legend is not None
    assert first.legend.text == "GAIN dB"
    assert [(position.direction, position.request.text) for position in first.positions] == [
        ("up", "ON"),
        ("down", "5 mV"),
    ]
    note = second.legend
    assert (note.text, note.place, note.cap_height, note.ink and note.ink.name) == (
        "Fuse T 1 A",
        Place.LEFT,
        2.0,
        "red",
    )
    assert panel.frames[0].title is not None
    assert panel.frames[0].title.text == "BOTH"
    assert [text.request.text for text in panel.texts] == ["TITLE", "Note"]
    assert (panel.texts[0].anchor, panel.texts[0].turn, panel.texts[1].anchor) == (Anchor.RIGHT, 90.0, Anchor.LEFT)


@pytest.mark.parametrize(
    "words", ["ON", "OFF", "YES", "no", "Y", "12:30", "010", "1_000", "true", "null", "0x1F", "1e3"]
)
def test_words_are_printed_as_they_are_written(words: str) -> None:
    panel = panel_of(
        f"parts: [{{ref: A, part: toggle-12, at: [9, 9], legend: {words}, positions: {{up: {words}}}}}]\n"
        f"texts: [{{text: {words}, at: [1, 1]}}]"
    )
    part = panel.parts[0]
    assert part.legend is not None
    assert [part.legend.text, part.positions[0].request.text, panel.texts[0].request.text] == [words] * 3


# --- controls


@pytest.mark.parametrize(
    ("written", "directions"),
    [
        # Worked out by hand: written clockwise from straight up, kept counter-clockwise from the right.
        ("{texts: [A, B], angles: [-45, 45]}", [135, 45]),
        ("{texts: [A, B, C], angles: [0, 45 deg, 90]}", [90, 45, 0]),
        ("{texts: [A], angles: [0]}", [90]),
        ("{texts: [A, B, C], index: 30}", [120, 90, 60]),
        ("{texts: [A, B], index: 45}", [112.5, 67.5]),
        ("{texts: [A, B, C, D], index: 90, first: -90}", [180, 90, 0, -90]),
        ("{texts: [A, B, C, D], index: 90}", [225, 135, 45, -45]),
    ],
)
@pytest.mark.parametrize("turn", [0, 30])
def test_positions_of_turning_controls(written: str, directions: list[float], turn: float) -> None:
    panel = panel_of(f"parts: [{{ref: A, part: selector-22, at: [50, 50], turn: {turn}, positions: {written}}}]")
    found = [position.direction for position in panel.parts[0].positions]
    assert found == pytest.approx([direction + turn for direction in directions])


@pytest.mark.parametrize(
    ("written", "start", "decimals"),
    [
        ("{from: 0, to: 30, major: 5}", 225, 0),
        ("{from: 0, to: 10, major: 2.5, sweep: 270}", 225, 1),
        ("{from: -0.25, to: 0.25, major: 0.05, minor: 0.01}", 225, 2),
        ("{from: 0, to: 1, major: 0.1, numerals: [0, 0.5, 1]}", 225, 1),
        ("{from: 0, to: 1, major: 0.1, numerals: []}", 225, 0),
        ("{from: 0, to: 3000, major: 1e3}", 225, 0),
    ],
)
def test_scales(written: str, start: float, decimals: int) -> None:
    panel = panel_of(f"parts: [{{ref: A, part: pot-m10, at: [50, 50], scale: {written}}}]")
    scale = panel.parts[0].scale
    assert scale is not None
    assert (scale.start_deg, scale.decimals) == (start, decimals)


def test_a_scale_turns_with_its_part() -> None:
    panel = panel_of("parts: [{ref: A, part: pot-m10, at: [50, 50], turn: -90, scale: {from: 0, to: 1, major: 1}}]")
    assert panel.parts[0].scale is not None
    assert panel.parts[0].scale.start_deg == 135


def test_steps_that_divide_only_up_to_rounding_are_taken() -> None:
    for step, high in (("0.1", "0.7"), ("0.3", "0.9"), ("0.7", "4.9"), ("0.01", "1")):
        assert panel_of(
            f"parts: [{{ref: A, part: pot-m10, at: [50, 50], scale: {{from: 0, to: {high}, major: {step}}}}}]"
        )


# --- parts of one's own

OWN = """\
panelart-catalogue: 1
parts:
  gauge-20:
    title: Gauge
    openings:
      - {role: body, circle: {diameter: 20}}
"""


def test_parts_of_ones_own_from_a_file_and_written_out(tmp_path: Path) -> None:
    spec = tmp_path / "panel.yaml"
    inline = "{title: Window, openings: [{role: aperture, circle: {diameter: 12}}]}"
    spec.write_text(
        HEAD.format(size="[200, 100]", datum="lower-left", lettering="{}")
        + f"""\
catalogue: [own.yaml]
parts:
  - {{ref: A, part: gauge-20, at: [30, 30]}}
  - repeat: {{count: 2, step: [40, 0]}}
    parts: [{{ref: "B{{n}}", part: {inline}, at: [80, 30]}}]
""",
        "utf-8",
    )
    (tmp_path / "own.yaml").write_text(OWN, "utf-8")
    asked: list[str] = []

    def read_file(path: Path) -> bytes:
        asked.append(path.name)
        return path.read_bytes()

    panel = read_panel(spec, read_file=read_file)
    assert asked == ["panel.yaml", "own.yaml"]
    sizes = [part.component.openings[0].contour.bounds.width for part in panel.parts]
    assert sizes == pytest.approx([20, 12, 12])
    assert panel.parts[1].component is panel.parts[2].component


OWN_KNOB = (
    OWN
    + """\
knobs:
  wing-30: {title: Wing, diameter: 30, height: 14, bore: 6, pointer: bar}
"""
)


def _read_beside(tmp_path: Path, own: str, parts: str) -> Panel:
    spec = tmp_path / "panel.yaml"
    head = HEAD.format(size="[200, 100]", datum="lower-left", lettering="{}")
    spec.write_text(f"{head}catalogue: [own.yaml]\nparts:\n  - {parts}\n", "utf-8")
    (tmp_path / "own.yaml").write_text(own, "utf-8")
    return read_panel(spec)


def test_a_knob_by_name_has_the_dimensions_of_the_catalogue() -> None:
    panel = panel_of("parts: [{ref: A, part: pot-m10, at: [50, 50], knob: knob-21-skirt}]")
    entry = catalogue.knob("knob-21-skirt")
    assert panel.parts[0].knob == Knob(diameter=entry.diameter, height=entry.height, name="knob-21-skirt")


def test_a_knob_of_ones_own_by_name(tmp_path: Path) -> None:
    panel = _read_beside(tmp_path, OWN_KNOB, "{ref: A, part: encoder-m7, at: [50, 50], knob: wing-30}")
    assert panel.parts[0].knob == Knob(diameter=30.0, height=14.0, name="wing-30")


def test_a_knob_without_a_bore_goes_on_any_shaft(tmp_path: Path) -> None:
    own = OWN_KNOB.replace(" bore: 6,", "")
    panel = _read_beside(tmp_path, own, "{ref: A, part: pot-m7, at: [50, 50], knob: wing-30}")
    assert panel.parts[0].knob == Knob(diameter=30.0, height=14.0, name="wing-30")


def test_a_knob_of_ones_own_may_not_hide_another(tmp_path: Path) -> None:
    with pytest.raises(SpecError) as caught:
        _read_beside(tmp_path, OWN_KNOB.replace("wing-30", "knob-21"), "{ref: A, part: gauge-20, at: [50, 50]}")
    (problem,) = caught.value.problems
    assert problem.says.id == "spec.knob-built-in"
    assert dict(problem.says.arguments) == {"file": "own.yaml", "name": "knob-21"}
    assert problem.accepts.id == "spec.rename-knob"


def test_a_part_of_ones_own_with_one_dimension_changed(tmp_path: Path) -> None:
    changed = "{part: gauge-20, opening: {diameter: 20.6}}"
    panel = _read_beside(tmp_path, OWN, f"{{ref: A, part: {changed}, at: [50, 50]}}")
    (part,) = panel.parts
    assert part.component.name == "gauge-20"
    assert part.component.openings[0].contour.bounds.width == pytest.approx(20.6)


@pytest.mark.parametrize(
    ("changed", "message", "hint"),
    [
        ("{part: gauge-21, opening: {diameter: 20}}", "Unknown part 'gauge-21'", "Did you mean 'gauge-20'?"),
        ("{part: gauge-20, fixing: {diameter: 3}}", "'gauge-20' has no fixing openings", "Openings of this part: body"),
        ("{part: gauge-20, opening: {width: 3}}", "Unknown dimension 'width' of the opening of 'gauge-20'", "diameter"),
    ],
)
def test_what_cannot_be_changed_of_a_part_of_ones_own(tmp_path: Path, changed: str, message: str, hint: str) -> None:
    with pytest.raises(SpecError) as caught:
        _read_beside(tmp_path, OWN, f"{{ref: A, part: {changed}, at: [50, 50]}}")
    (problem,) = caught.value.problems
    assert message in problem.message
    assert hint in problem.hint


def test_a_part_of_ones_own_may_not_hide_another(tmp_path: Path) -> None:
    spec = tmp_path / "panel.yaml"
    head = HEAD.format(size="[200, 100]", datum="lower-left", lettering="{}")
    spec.write_text(head + "catalogue: [a.yaml, b.yaml]\n", "utf-8")
    (tmp_path / "a.yaml").write_text(OWN.replace("gauge-20", "led-5"), "utf-8")
    (tmp_path / "b.yaml").write_text(OWN.replace("gauge-20", "led-5"), "utf-8")
    with pytest.raises(SpecError) as caught:
        read_panel(spec)
    assert [problem.says.id for problem in caught.value.problems] == ["spec.part-built-in"] * 2


# --- what stands beside


def test_frames_and_waivers_keep_what_they_name() -> None:
    panel = panel_of(
        """\
parts: [{ref: A, part: led-5, at: [30, 30]}, {ref: B, part: led-5, at: [60, 30]}]
frames: [{around: [B, A], margin: 0}, {around: [A]}]
waivers: [{rule: x, on: A, why: "two\\n  lines"}, {rule: y, on: [B, A], why: b}, {rule: z, why: c}]
"""
    )
    assert [(frame.around, frame.margin, frame.title) for frame in panel.frames] == [
        (("B", "A"), 0.0, None),
        (("A",), 3.0, None),
    ]
    assert [(waiver.rule, waiver.refs) for waiver in panel.waivers] == [("x", ("A",)), ("y", ("B", "A")), ("z", ())]
    assert panel.waivers[0].why == "two lines"
    assert panel.places[panel.waivers[0].where][1:3] == (13, 11)


def test_the_edge_belongs_to_the_panel() -> None:
    assert places(panel_of("parts: [{ref: A, part: led-5, at: [200, 50]}]")) == {"A": (200, 50)}
    with pytest.raises(SpecError, match="outside the panel"):
        panel_of("parts: [{ref: A, part: led-5, at: [200.001, 50]}]")


def test_a_point_is_a_point() -> None:
    assert isinstance(panel_of("").datum, Point)


@pytest.mark.parametrize(
    ("material", "thickness"),
    [("mild steel", 1.519), ("aluminium 5052", 1.290), ("stainless 304", 1.588), ("galvanised steel", 1.613)],
)
def test_sixteen_gauge_is_as_thick_as_its_material_makes_it(material: str, thickness: float) -> None:
    """Charts of sheet gauges; 16 gauge is 0.0598, 0.0508, 0.0625 and 0.0635 in."""
    panel = panel_from_text(
        f"""\
panelart: 1
panel: {{title: T, size: [10, 10], sheet: {{material: {material}, gauge: 16}}}}
marking: {{process: overlay, ink: {{name: black, colour: "#000000"}}}}
"""
    )
    assert panel.sheet.thickness == pytest.approx(thickness, abs=0.0006)
