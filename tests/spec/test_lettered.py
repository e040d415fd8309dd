"""What the spec says of lettering, in the model: styles that inherit, spans, languages, fonts with instances."""

from __future__ import annotations

import io
from pathlib import Path

import pikepdf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelart.diagnostics import SpecError, Where
from panelart.legends.candidates import lettered, style_of
from panelart.legends.wording import lettering_problems
from panelart.lettering.fonts import file_of, open_font
from panelart.lettering.look import Align, Direction, Look, Plate
from panelart.lettering.spans import Manner, Span
from panelart.pipeline import build, lay_out, read, write
from panelart.source.problems import Problems
from panelart.spec.markup import marked
from panelart.spec.read import panel_from_text
from tests.lettering.builders import boxes
from tests.spec.samples import GOOD

HERE = Where("a.yaml", 1, 1)
LETTERING = "lettering: {cap_height: 3, case: upper}"
FREE = "  - {text: PRECISION SUPPLY, at: [130, 100], anchor: centre}\n"


def panel(lettering: str = "{cap_height: 3}", text: str = "{text: A, at: [130, 100]}", folder: Path | None = None):
    spec = GOOD.replace(LETTERING, f"lettering: {lettering}").replace(FREE, f"  - {text}\n")
    assert (lettering == "{cap_height: 3, case: upper}") or LETTERING not in spec
    return panel_from_text(spec, folder=folder)


def free(text: str, lettering: str = "{cap_height: 3}", folder: Path | None = None):
    return panel(lettering, text, folder).texts[0].request


@pytest.mark.parametrize(
    ("written", "text", "spans"),
    [
        ("plain", "plain", []),
        ("U{sub in}", "Uin", [(1, 3, Manner.SUB)]),
        ("{bar RESET} 1", "RESET 1", [(0, 5, Manner.BAR)]),
        ("{bar V{sub cc}}", "Vcc", [(0, 3, Manner.BAR), (1, 3, Manner.SUB)]),
        ("a{super {super 2}}", "a2", [(1, 2, Manner.SUPER), (1, 2, Manner.SUPER)]),
        ("{fraction {n}/4} in", "3/4 in", [(0, 3, Manner.FRACTION)]),
        ("{keep mA}", "mA", []),
        ("{{bar}}", "{bar}", []),
        ("{{{n}}}", "{3}", []),
        ("{ n }", "3", []),
        ("{bar two words}", "two words", [(0, 9, Manner.BAR)]),
        ("{bar  x}", " x", [(0, 2, Manner.BAR)]),
    ],
)
def test_marked_text(written: str, text: str, spans: list) -> None:
    problems = Problems()
    read = marked(written, {"n": "3"}, HERE, problems)
    problems.raise_any()
    assert (read.text, list(read.spans)) == (text, [Span(*span) for span in spans])
    assert len(read.kept) == len(text)


def test_a_number_may_have_the_name_of_a_span() -> None:
    problems = Problems()
    assert marked("{bar} {bar 1}", {"bar": "7"}, HERE, problems).text == "7 1"
    problems.raise_any()


@given(st.text(alphabet="{}a nbrsupe", max_size=14))
def test_no_text_in_braces_breaks_the_reader(text: str) -> None:
    problems = Problems()
    read = marked(text, {"n": "3"}, HERE, problems)
    assert all(0 <= span.start < span.stop <= len(read.text) for span in read.spans)


@pytest.mark.parametrize(
    ("written", "said", "text"),
    [
        ("Straße {keep mit} 3 mV", "case: upper", "STRASSE mit 3 mV"),
        ("istif ısı", "case: upper, language: tr", "İSTİF ISI"),
        ("istif", "case: upper, language: tr-TR", "İSTİF"),
        ("istif", "case: upper, language: de", "ISTIF"),
        ("Τάση εξόδου", "case: upper, language: el", "ΤΑΣΗ ΕΞΟΔΟΥ"),
        ("ϊό", "case: upper, language: el", "ΪΟ"),
        ("Größe ẞ", "case: upper", "GRÖSSE ẞ"),
        ("accel 9.81 m/s{super 2} max", "case: upper", "ACCEL 9.81 m/s2 MAX"),
        ("flow 3 min{super -1}", "case: upper", "FLOW 3 min-1"),
        ("Output", "case: as-written", "Output"),
    ],
)
def test_case_follows_the_language_and_leaves_what_is_kept(written: str, said: str, text: str) -> None:
    assert free(f'{{text: "{written}", at: [130, 100]}}', f"{{{said}}}").text == text


def test_spans_move_with_letters_that_become_two() -> None:
    request = free('{text: "Größe {bar aß}x", at: [130, 100]}', "{case: upper}")
    (span,) = request.spans
    assert request.text[span.start : span.stop] == "ASS"


def test_small_capitals_are_spans_that_leave_units_alone() -> None:
    request = free('{text: "Output 12 mV", at: [130, 100]}', "{case: small-capitals}")
    assert request.text == "Output 12 mV"
    small = [request.text[span.start : span.stop] for span in request.spans]
    assert small == ["Output "]


def test_small_capitals_that_a_font_lacks_are_told() -> None:
    (*_, problem) = lettering_problems(panel("{case: small-capitals}"))
    assert "no small capitals" in problem.message


@pytest.mark.parametrize(
    ("lettering", "name"),
    [
        ("{cap_height: 3}", "zero"),
        ("{zero: slashed}", "zero.zero"),
        ("{zero: dotted}", "zero.dotted"),
        ("{zero: slashed, styles: {title: {zero: plain}}}", "zero"),
        ("{styles: {title: {zero: dotted}}}", "zero.dotted"),
    ],
)
def test_the_form_of_the_zero(lettering: str, name: str) -> None:
    made = panel(lettering, '{text: "10 kΩ", at: [130, 100]}')
    request = made.texts[0].request
    setting = lettered(request, style_of(request, made.marking))
    (zero,) = [letter for letter in setting.letters if letter.text == "0"]
    assert open_font("plain-medium").face.glyph_to_string(zero.number) == name
    assert not lettering_problems(made)


def test_another_zero_that_a_font_lacks_is_told_where_there_is_one(tmp_path: Path) -> None:
    (tmp_path / "boxes.ttf").write_bytes(boxes(dict.fromkeys("0AHabc123", (100, 0, 300, 700))))
    lettering = "{cap_height: 3, styles: {title: {font: boxes.ttf, zero: slashed}}}"
    told = lettering_problems(panel(lettering, "{text: A0, at: [130, 100]}", tmp_path))
    assert ["has no slashed or dotted 0" in problem.message for problem in told if "A0" in problem.message] == [True]
    assert not any("slashed" in each.message for each in lettering_problems(panel(lettering, folder=tmp_path)))


def test_looks_are_inherited_from_lettering_by_styles_and_legends() -> None:
    lettering = """{tracking: 0.1, language: de, line_pitch: 1.7,
      styles: {title: {tracking: 0.2, reversed: true}, note: {reversed: {radius: 0, padding: 2}}}}"""
    made = panel(lettering, "{text: A, at: [130, 100], direction: right-to-left, ranging: decimal-point}")
    styles = made.marking.styles
    assert styles["name"].look == Look(tracking=0.1, language="de", line_pitch=1.7)
    assert styles["title"].look == Look(tracking=0.2, language="de", line_pitch=1.7, plate=Plate())
    assert styles["note"].look.plate == Plate(radius=0.0, padding=2.0)
    assert made.texts[0].request.look == Look(
        tracking=0.2,
        language="de",
        line_pitch=1.7,
        plate=Plate(),
        direction=Direction.LEFTWARD,
        align=Align.POINT,
    )
    assert made.parts[0].legend.look is None


def test_a_legend_may_take_back_what_its_style_has() -> None:
    request = free("{text: A, at: [130, 100], reversed: false}", "{reversed: true}")
    assert request.look == Look()


def test_fonts_of_legends_and_instances_of_variable_fonts(tmp_path: Path) -> None:
    (tmp_path / "own.ttf").write_bytes(boxes({"H": (100, 0, 300, 700), "A": (100, 0, 300, 700)}, wide=True))
    text = "{text: A, at: [130, 100], font: {file: own.ttf, instance: {wght: 650}}, fallback: [{weight: bold}]}"
    request = free(text, folder=tmp_path)
    assert file_of(request.font) == f"{(tmp_path / 'own.ttf').as_posix()} wght=650"
    assert request.look == Look(fallback=("plain-bold",))
    legend = lay_out(panel(text=text, folder=tmp_path)).legends[0]
    placed = next(l for l in lay_out(panel(text=text, folder=tmp_path)).legends if l.text == "A")
    assert placed.box.width / placed.box.height == pytest.approx(300 / 700)
    assert legend.setting is not None


@pytest.mark.parametrize(
    ("font", "message"),
    [
        ("{file: own.ttf, instance: {wdth: 50}}", "no axis 'wdth'; its axes: wght"),
        ("{file: own.ttf, instance: {weight: 50}}", "Found text of 6 characters; maximum 4"),
        ("{file: own.ttf, instance: {wght: 50}}", "from 100 to 900, not 50"),
        ("{file: still.ttf, instance: {wght: 500}}", "it is not a variable font"),
    ],
)
def test_instances_that_do_not_exist(tmp_path: Path, font: str, message: str) -> None:
    letters = {"H": (100, 0, 300, 700)}
    (tmp_path / "own.ttf").write_bytes(boxes(letters, wide=True))
    (tmp_path / "still.ttf").write_bytes(boxes(letters))
    with pytest.raises(SpecError) as caught:
        panel(f"{{font: {font}}}", folder=tmp_path)
    assert [message in problem.message for problem in caught.value.problems] == [True]


def test_a_font_that_may_not_be_embedded_is_refused_for_live_text_only(tmp_path: Path) -> None:
    (tmp_path / "own.ttf").write_bytes(boxes({"H": (100, 0, 300, 700)}, fs_type=2))
    assert not panel("{font: own.ttf}", folder=tmp_path).marking.live_text
    with pytest.raises(SpecError, match="forbid embedding"):
        panel("{font: own.ttf, text: live}", folder=tmp_path)


def test_a_lacking_character_is_told_with_the_font_that_has_it(tmp_path: Path) -> None:
    (tmp_path / "own.ttf").write_bytes(boxes(dict.fromkeys("HABCDEFGIJKLMNOPQRSTUVWXYZ", (100, 0, 300, 700))))
    made = panel("{styles: {title: {font: own.ttf}}}", "{text: AΩ, at: [130, 100]}", folder=tmp_path)
    (problem,) = [problem for problem in lettering_problems(made) if "Ω" in problem.message]
    assert "'AΩ' of the free text" in problem.message
    assert "'Ω' (U+03A9)" in problem.message
    assert "own.ttf" in problem.message
    assert problem.accepts.id == "legends.glyph-elsewhere"
    assert "It is in plain." in problem.hint
    fallback = panel("{styles: {title: {font: own.ttf, fallback: [plain]}}}", "{text: AΩ, at: [130, 100]}", tmp_path)
    assert not lettering_problems(fallback)


def test_unseen_characters_that_steer_direction_are_refused() -> None:
    (problem,) = lettering_problems(panel(text='{text: "A\\u202eB", at: [130, 100]}'))
    assert "steer the direction" in problem.message


def test_text_round_an_arc_stands_where_it_is_asked() -> None:
    layout = lay_out(panel(text="{text: HAVAH, at: [130, 55], arc: {radius: 15}}"))
    (legend,) = [legend for legend in layout.legends if legend.text == "HAVAH"]
    assert legend.box.top == pytest.approx(55 + 15 + legend.cap_height, abs=0.05)
    assert legend.box.centre.x == pytest.approx(130, abs=0.2)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("{text: A LONG LEGEND, at: [130, 55], arc: {radius: 1}}", "does not fit around a circle"),
        ('{text: "A\\nB", at: [130, 55], arc: {radius: 9}}', "one line"),
        ("{text: A, at: [130, 55], arc: {radius: 9}, reversed: true}", "without a filled field"),
    ],
)
def test_what_cannot_go_round_an_arc_is_told(text: str, message: str) -> None:
    (problem,) = lettering_problems(panel(text=text))
    assert message in problem.message


def test_anchored_lines_are_in_line_at_their_anchor() -> None:
    for anchor in ("left", "right"):
        layout = lay_out(panel(text=f'{{text: "CURRENT\\nLIMIT", at: [130, 55], anchor: {anchor}}}'))
        (legend,) = [legend for legend in layout.legends if "CURRENT" in legend.text]
        assert (legend.box.left if anchor == "left" else legend.box.right) == pytest.approx(130)


# --- weight and width of the program's own font


@pytest.mark.parametrize(
    ("font", "opened"),
    [
        ("plain", "plain-medium"),
        ("{weight: bold}", "plain-bold"),
        ("{weight: h/7.5}", "plain-medium"),
        ("{width: narrow}", "plain-medium-narrow"),
        ("{weight: h/8, width: 0.9}", "plain-h/8-0.9"),
        ("{weight: h/14, width: .76}", "plain-h/14-narrow"),
        ("{}", "plain-medium"),
    ],
)
def test_weight_and_width_choose_the_cut(font: str, opened: str) -> None:
    assert panel(f"{{font: {font}}}", "{text: A, at: [130, 100]}").marking.styles["name"].font == opened


def test_a_symbol_has_the_pen_of_the_lettering() -> None:
    made = panel("{font: {weight: h/8, width: narrow}}", "{symbol: standby, at: [130, 100]}")
    assert made.texts[0].request.font == "symbols-h/8"


@pytest.mark.parametrize("content", [b"no font", b"\0" * 400, None], ids=["no font", "zeros", "no file"])
def test_a_font_that_cannot_be_read_is_told_once_where_it_is_named(content, tmp_path) -> None:
    if content is not None:
        (tmp_path / "own.ttf").write_bytes(content)
    spec = tmp_path / "front.yaml"
    spec.write_text(
        "panelart: 1\n"
        "panel: {title: T, number: N-1, revision: A, size: [100, 80], sheet: {material: aluminium, thickness: 2}}\n"
        "marking: {process: digital-print, ink: {name: black, colour: '#101010'}, lettering: {font: own.ttf}}\n"
        "texts: [{text: ABC, at: [20, 40]}, {text: DEF, at: [20, 60]}]\n",
        encoding="utf-8",
    )
    with pytest.raises(SpecError) as refused:
        read(spec)
    assert [problem.where.line for problem in refused.value.problems] == [3]


# --- inks that are process colours, and names that are taken


@pytest.mark.few(2)
@pytest.mark.parametrize(
    ("ink", "plate"),
    [
        ('{name: black, colour: "#101010"}', "Black"),
        ('{name: BLACK, colour: "#2A2A2A"}', "Black"),
        ('{name: Cyan, colour: "#00FFFF"}', "Cyan"),
        ('{name: magenta, colour: "#FF00FF"}', "Magenta"),
        ('{name: yellow, colour: "#FFD800"}', "Yellow"),
        ('{name: signal yellow, colour: "#F2B84B"}', "signal yellow"),
    ],
)
def test_an_ink_that_is_a_process_colour_is_on_its_plate(ink: str, plate: str) -> None:
    text = GOOD.replace('ink: {name: white, colour: "#F2F2EE"}', f"ink: {ink}")
    assert text != GOOD
    panel = panel_from_text(text)
    assert panel.marking.inks[0].plate == plate
    data = write(build(panel), only=["artwork.pdf"])["artwork.pdf"]
    with pikepdf.open(io.BytesIO(data)) as file:
        spaces = file.pages[0].Resources.ColorSpace.values()
        names = {str(space[1])[1:] for space in spaces if space[0] == "/Separation"}
        assert plate in names
        assert (f"plate {plate}" in str(file.docinfo["/Subject"])) == (plate != "signal yellow")


@pytest.mark.parametrize(
    ("inks", "says"),
    [
        ('[{name: black, colour: "#F1F1EC"}]', "'black' names the process colour Black, but #F1F1EC is another colour"),
        ('[{name: Yellow, colour: "#1D4E9E"}]', "'Yellow' names the process colour Yellow"),
        ('[{name: CYAN, colour: "#B3261E"}]', "'CYAN' names the process colour Cyan"),
        ('[{name: Sky, colour: "#1D4E9E"}, {name: sky, colour: "#1D4E9F"}]', "'Sky' and 'sky' would share the layer"),
        ('[{name: adhesive, colour: "#1D4E9E"}]', "'adhesive' has another meaning in the files"),
        ('[{name: Adhesive, colour: "#1D4E9E"}]', "'Adhesive' has another meaning in the files"),
    ],
)
def test_an_ink_whose_name_is_taken_is_refused(inks: str, says: str) -> None:
    with pytest.raises(SpecError) as caught:
        panel_from_text(GOOD.replace('ink: {name: white, colour: "#F2F2EE"}', f"inks: {inks}"))
    assert any(says in str(problem) for problem in caught.value.problems)
