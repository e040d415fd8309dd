"""Where lines may end: never within what is read as one, at hyphenation points with a hyphen, at no-break spaces never.

The table was written by hand; `|` stands for a space at which a line may end. Sources: SI Brochure, 9th edition, 5.4.3
(the space between number and unit never breaks); ISO 80000-1, 7.1; common practice for the rest.
"""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.diagnostics import Where
from panelart.legends.candidates import wraps
from panelart.lettering.breaks import breaks, breaks_of, broken
from panelart.lettering.look import PLAIN_LOOK, Align, Direction, Look
from panelart.lettering.setting import set_words
from panelart.lettering.spans import Manner, Span
from panelart.model.panel import LegendRequest
from panelart.source.problems import Problems
from panelart.spec.markup import WORDS, Marked, marked
from panelart.texts.parse import parse
from tests.effort import examples
from tests.lettering.builders import installed
from tests.panels import marking
from tests.texts.test_table import TEXTS

NOWHERE = Where("", 1, 1)


@pytest.mark.parametrize(
    "text",
    [
        "CURRENT|LIMIT",
        "BUS|48 V",
        "48 V",
        "24 V DC",
        "24 V DC|OUT",
        "INPUT|100–240 V AC 50/60 Hz 2 A",
        "FUSE|T 2 A 250 V",
        "Range|5 – 10 kΩ",
        "Sweep|10 µs/div",
        "Frequency Hz",
        "Gain dB|Trim",
        "Speed|1500 min⁻¹",
        "Torque|2.5 N m",
        "Level|± 5 %",
        "Thread|M12 × 1.5",
        "Channel|2|on",
        "MIC /|LINE",
        "LOW|PASS|CUTOFF",
        "Line\N{NO-BREAK SPACE}out|left",
        "הספק|100 W",
        "Uscita|24 Vcc",
        "Rate|1 GSa/s",
        "Gecikme|5 sn",
        "Hız|1500 dev/dk",
        "Obroty|1500 obr/min",
        "Давление|5 кгс/см²",
        "RCD|IΔn 30 mA",
        "Leistungsfaktor|cos φ",
        "נתיך|ב-250 V",
        "Supply|24 V ±5 %",
        "Room|21.5 °C ± 0.5 K",
        "Load|50 Ω ∥ 20 pF",
        "Accuracy|0.5 % + 2 digits",
        "cosφ 0.9",
        "Level|94 dB SPL",
        "CAT III 600 V",
        "Alkohol|20 %vol",
        "R ∥ C",
        "n = 1450 rpm",
        "Un 230 V",
        "Current in A",
        "Weg in mm",
        "Height|6′ 2″",
        "PV|10 kWp",
        "10 kWth",
        "10 kWel",
        "Moteur|10 CV",
        "Attenuator|-20 dB",
        "Trim|+3 dB",
        "Trim|−3 dB",
        "Ratio|1 : 10",
        "Daily|12:30 – 14:00",
        "Sensor|Pt 1000",
        "Ventil|DN 50|PN 16",
        "Leitwert|500 µS/cm @ 25 °C",
        "Accuracy|±0.1 % rdg ±3 dgt",
        "Betriebsstunden h",
        "Puls|12 /min",
        "f 50 Hz",
        "Umax = 250 V AC",
        "Ex ia IIC T4 Ga",
        "Level|-∞ … +10 dB",
        "Gain|−∞ dB",
        "IΔn ≤ 30 mA",
        "A +|B",
    ],
)
def test_lines_end_at_these_spaces_only(text: str) -> None:
    plain = text.replace("|", " ")
    assert [each.at for each in breaks(plain, (), "")] == [at for at, letter in enumerate(text) if letter == "|"]


@pytest.mark.parametrize(("text", "at"), [("R || C", []), ("Load 50 Ω || 20 pF", [4])])
def test_lines_do_not_end_beside_two_bars(text: str, at: list[int]) -> None:
    assert [each.at for each in breaks(text, (), "")] == at


def soft(text: str) -> Marked:
    problems = Problems()
    found = marked(text, {"n": "3"}, NOWHERE, problems)
    assert not len(problems)
    return found


def wrapped(text: str) -> list[str]:
    read = soft(text)
    request = LegendRequest(text=read.text, style="name", where=NOWHERE, spans=read.spans)
    return [setting.text for setting in wraps(request, marking(), Align.CENTRE)]


def test_a_soft_hyphen_is_not_printed_where_no_line_ends() -> None:
    read = soft("Tempe\u00adra\u00adtur")
    assert read.text == "Temperatur"
    whole = set_words(read.text, "plain-light", 3.0, spans=read.spans)
    assert whole == set_words("Temperatur", "plain-light", 3.0)


def test_a_word_is_broken_at_a_soft_hyphen_with_a_hyphen() -> None:
    assert wrapped("Temperatur\u00adregelung") == ["Temperaturregelung", "Temperatur-\nregelung"]
    assert wrapped("Temperaturregelung") == ["Temperaturregelung"]


def test_a_space_is_taken_rather_than_a_hyphen_where_it_does() -> None:
    assert wrapped("Output vol\u00adtage")[1] == "Output\nvoltage"


def test_a_line_ends_at_a_zero_width_space_without_a_hyphen() -> None:
    # Unicode Standard Annex 14: U+200B (class ZW) is a place to break a line, with nothing printed.
    assert wrapped("INPUT/\u200bOUTPUT") == ["INPUT/OUTPUT", "INPUT/\nOUTPUT"]
    assert wrapped("INPUT/OUTPUT") == ["INPUT/OUTPUT"]
    read = soft("{bar IN}/\u200b{bar OUT}")
    text, spans = broken(read.text, read.spans, breaks(read.text, read.spans, ""))
    assert [text[span.start : span.stop] for span in spans if span.manner is Manner.BAR] == ["IN", "OUT"]
    assert breaks_of(text, read.text) == breaks(read.text, read.spans, "")
    assert set_words(soft("A\u200bB").text, "plain-medium", 3.0) == set_words("AB", "plain-medium", 3.0)


def test_no_word_within_a_quantity_is_broken() -> None:
    assert wrapped("10\u00ad0 V") == ["100 V"]
    assert not breaks("RS-232", (Span(3, 3, Manner.HYPHENATION),), "")


def test_spans_keep_to_their_letters_where_a_word_is_broken() -> None:
    read = soft("Mess\u00ad{bar wert} U{sub {n}}")
    assert read.text == "Messwert U3"
    point, *_ = [each for each in breaks(read.text, read.spans, "") if each.hyphen]
    text, spans = broken(read.text, read.spans, (point,))
    assert text == "Mess-\nwert U3"
    held = {span.manner: text[span.start : span.stop] for span in spans}
    assert held == {Manner.BAR: "wert", Manner.SUB: "3", Manner.HYPHENATION: ""}
    within = soft("{bar Mess\u00adwert}")
    text, spans = broken(within.text, within.spans, breaks(within.text, within.spans, ""))
    assert [text[span.start : span.stop] for span in spans if span.manner is Manner.BAR] == ["Mess-\nwert"]
    assert set_words(text, "plain-light", 3.0, spans=spans).baselines[1:] != ()


def test_what_the_writer_says_is_a_unit_is_never_parted_from_its_number() -> None:
    assert "10\nfoo" not in "|".join(wrapped("Coarse 10 {unit foo} fine"))
    assert any("10\nfoo" in each for each in wrapped("Coarse 10 foo fine"))
    # ... and a word is: ms is no unit of the number before it here.
    assert not breaks("48 ms", (), "")
    assert [each.at for each in breaks("48 ms", (Span(3, 5, Manner.WORD),), "")] == [2]


def test_what_case_keeps_stays_with_its_letters() -> None:
    read = soft("a\u00adb{keep c\u00add}")
    assert (read.text, read.kept) == ("abcd", (False, False, True, True))


def test_no_brace_stands_for_a_hyphenation_point() -> None:
    assert "hyphenation" not in WORDS


# --- nothing that is set loses or changes a character


PIECES = st.one_of(
    st.sampled_from(sorted(TEXTS)),
    st.sampled_from(["הספק", "مخرج", "توان", "Out", "Level", "(", ")", "/", "5–10 kΩ", "24 V DC"]),
)


@settings(max_examples=examples(300), deadline=None)
@given(
    pieces=st.lists(PIECES, min_size=1, max_size=4),
    direction=st.sampled_from([None, Direction.LEFTWARD, Direction.RIGHTWARD]),
    points=st.sets(st.integers(1, 30), max_size=3),
)
def test_setting_never_changes_a_quantitys_characters(
    *, pieces: list[str], direction: Direction | None, points: set[int]
) -> None:
    """Parsed, broken in each way, set: every quantity's letters stand on one line, from left to right, as written."""
    dejavu = installed("truetype/dejavu/DejaVuSans.ttf", "fonts-dejavu-core")
    text = " ".join(" ".join(pieces).split())
    if not text or not text.isprintable() or any(not set_in(dejavu, letter) for letter in text):
        return
    look = PLAIN_LOOK if direction is None else Look(direction=direction)
    spans = tuple(Span(at, at, Manner.HYPHENATION) for at in sorted(points) if at < len(text))
    places = breaks(text, spans, "")
    for at in ((), places[:1], places[-1:], places[:2]):
        words, moved = broken(text, spans, at)
        letters = set_words(words, dejavu, 3.0, look=look, spans=moved).letters
        rows = {
            y: sorted((one for one in letters if one.y == y), key=lambda one: one.x) for y in {one.y for one in letters}
        }
        lines = ["".join(one.text for one in row) for row in rows.values()]
        assert sorted("".join(lines)) == sorted(words.replace("\n", ""))
        read = parse(text)
        for start, stop in read.isolated():
            if all(unicodedata.bidirectional(letter) not in ("R", "AL", "AN") for letter in text[start:stop]):
                assert any(text[start:stop] in line for line in lines)


def set_in(font: str, letter: str) -> bool:
    from panelart.lettering.fonts import open_font

    return open_font(font).has(letter)
