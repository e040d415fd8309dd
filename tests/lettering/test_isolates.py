"""Quantities, ranges, ratings and designations within text from right to left, read back from the glyphs that are set.

The texts are written as the trade writes them, and the brackets ⟨ ⟩ in them were put in by hand, round what a reader of
that script reads from left to right (UAX #9, 2.4 and 6.1; W3C, Inline markup and bidirectional text in HTML). The order
expected follows from the brackets alone: what stands outside them is read from the right, letter by letter.
"""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.lettering.bidi import Stretches, edges, levels, order_of_runs, runs_right_to_left
from panelart.lettering.fonts import open_font
from panelart.lettering.isolates import isolated_stretches
from panelart.lettering.look import Direction, Look
from panelart.lettering.setting import Setting, set_words
from panelart.lettering.spans import Manner, Span
from tests.effort import examples
from tests.lettering.test_shaping import dejavu as dejavu  # noqa: PLC0414  # a fixture

TEXTS = (
    # Hebrew
    "הספק ⟨100 W⟩",
    "⟨24 V DC⟩ מתח",
    "מתח ⟨24 V DC⟩",
    "התנגדות ⟨5–10 kΩ⟩",
    "תדר ⟨50/60 Hz⟩",
    "נתיך ⟨T 2 A 250 V⟩",
    "נתיך ⟨T1AL250V⟩",
    "יציאה ⟨RS-232⟩",
    "כניסה ⟨100–240 V AC 50/60 Hz 2 A⟩",
    "טמפרטורה ⟨−10…+50 °C⟩",
    "אטימות ⟨IP65⟩",
    "זרם ⟨4–20 mA⟩ כניסה",
    "מתח (⟨24 V DC⟩) יציאה",
    "מומנט ⟨2,5 N·m⟩",
    "רמה ⟨±5 %⟩",
    "שקע ⟨USB-C⟩ טעינה",
    "הברגה ⟨M12×1.5⟩",
    "לחץ ⟨0–10 bar⟩",
    "מהירות ⟨1500 min⁻¹⟩",
    "השהיה ⟨10 µs/div⟩",
    "ערוץ ⟨CH 1⟩",
    "כניסה ⟨IN 2⟩",
    "⟨USB 2.0⟩ כניסה",
    "ערוץ ⟨A 1⟩",
    "נתיך ב-⟨250 V⟩",
    "עד ל-⟨10 A⟩",
    "חיבור ב-⟨USB 2.0⟩",
    "עד ב⟨24 V⟩",
    "⟨2 x 15 W⟩ ב-⟨8 Ω⟩",
    "יציאה ⟨24 V / 2 A⟩",
    "⟨USB-C 5 V/3 A⟩ כניסה",
    "יציאה ⟨OUT 24 V (2 A)⟩ ראשית",
    "מתח ⟨24 V⟩, ⟨12 V⟩",
    "ערוץ 2 / 1",
    "ספק ⟨±12 V / +5 V⟩",
    "מגע ⟨NO 1 / NC 2⟩",
    "מתח ⟨24 V / 2 A DC⟩",
    "מתח ⟨24 V OUT 2⟩ ראשי",
    # Arabic
    "قناة ⟨CH 1⟩",
    "تغذية بـ⟨24 V⟩",
    "ضغط ⟨1.5 bar / 150 kPa⟩",
    "من ⟨5 V⟩ إلى ⟨24 V DC⟩",
    # Arabic
    "مخرج ⟨100 W⟩",
    "⟨24 V DC⟩ مدخل",
    "جهد ⟨230 V AC⟩",
    "مقاومة ⟨5–10 kΩ⟩",
    "تردد ⟨50/60 Hz⟩",
    "مصهر ⟨T 6.3 A 250 V⟩",
    "درجة حرارة ⟨−20…+60 °C⟩",
    "ضغط ⟨0–16 bar⟩ ماء",
    "منفذ ⟨RS-485⟩",
    "حماية ⟨IP54⟩",
    "تيار ⟨4–20 mA⟩",
    "مجال ٥–١٠ فولت",
    "سرعة ⟨3000 rpm⟩",
    "تأخير ⟨5 ms⟩",
    # Persian
    "توان ⟨100 W⟩",
    "ولتاژ ⟨24 V DC⟩",
    "فشار ⟨5–10 bar⟩",
    "فرکانس ⟨50 Hz⟩",
    "جریان ⟨2 A⟩ ورودی",
    "دما ⟨−5 °C⟩",
    "توان ⟨۵ kW⟩",
    "خروجی ⟨100–240 V AC⟩",
    "درگاه ⟨USB-C⟩",
    # A statement of several amounts is read as one; common practice of data sheets.
    "מתח ⟨24 V ±5 %⟩ יציב",
    "עומס ⟨50 Ω || 20 pF⟩",
    "דיוק ⟨0.5 % + 2 digits⟩",
    "יחס ⟨1 : 10⟩",
    "עוצמה ⟨-∞…+10 dB⟩",
    "יחס ⟨∞:1⟩",
    "זמן ⟨00:00:00:00⟩ קוד",
    "שעות ⟨12:30–14:00⟩",
    "שעות ⟨08:00 - 16:00⟩ כל יום",
    "טמפרטורה ⟨21.5 °C ± 0.5 K⟩",
    "מהירות ⟨n = 1450 rpm⟩",
    "זרם ⟨IΔn 30 mA⟩",
    "מדידה ⟨CAT III 600 V⟩",
    "הספק ⟨cosφ 0.9⟩",
    "حمل ⟨50 Ω || 20 pF⟩",
    "جهد ⟨24 V ±5 %⟩",
    # Persian signs stand on the left of their figures (CLDR, fa: a left-to-right mark before the minus; from memory).
    "دما ⟨−۲۰…+۵۰ °C⟩",
    "دما ⟨-۲۰⟩ تا ⟨+۵۰ °C⟩",
    "بازه ⟨−۱۰…+۱۰⟩",
    "رواداری ⟨±۵ %⟩",
    "فشار ⟨۱٫۵ bar⟩",
    "رواداری ⟨±۲٫۵ %⟩",
    "توان ⟨۱٬۵۰۰ W⟩",
    "دما ⟨۲۵ °C⟩",
    # Arabic figures are followed by their unit on the left; the unit itself is read from the left.
    "حرارة ٢٥ ⟨°C⟩",
    "حرارة ٢٥⟨°C⟩ ماء",
    "جهد ٢٣٠ ⟨V⟩ ⟨50 Hz⟩",
    "جهد ٢٣٠ ⟨V⟩ ٥٠ ⟨Hz⟩",
    "ضغط ١٫٥ ⟨bar⟩",
    "سرعة ١٥٠٠ ⟨1/min⟩",
    "رطوبة ٤٥ ⟨% RH⟩",
)

_OPENS, _CLOSES = "⟨⟩"


def plain(marked: str) -> str:
    return marked.replace(_OPENS, "").replace(_CLOSES, "")


def expected(marked: str) -> str:
    """The characters from left to right: what is in brackets as it is, the rest turned round."""
    pieces = marked.replace(_OPENS, _CLOSES).split(_CLOSES)
    turned = [piece if number % 2 else _turned(piece) for number, piece in enumerate(pieces)]
    return "".join(reversed(turned))


def _turned(piece: str) -> str:
    """From the right, but figures of the Arabic script, which run from the left within it."""
    found, figures = "", ""
    for letter in piece:
        if unicodedata.bidirectional(letter) == "AN":
            figures += letter
            continue
        found, figures = letter + figures + found, ""
    return figures + found


def read_back(setting: Setting) -> str:
    """What stands there from left to right, by the glyphs' own characters where the font has one for them."""
    found: list[str] = []
    for letter in sorted(setting.letters, key=lambda letter: letter.x):
        font = open_font(letter.font)
        if len(letter.text) == 1 and unicodedata.bidirectional(letter.text) not in ("R", "AL", "ON"):
            assert font.number(letter.text) == letter.number
        right = any(unicodedata.bidirectional(each) in ("R", "AL") for each in letter.text)
        found.append(letter.text[::-1] if right else letter.text)
    return "".join(found)


def ordered(text: str, isolated: Stretches, *, right_to_left: bool) -> str:
    """The characters from left to right, each taken as a run of its own."""
    found = levels(text, right_to_left=right_to_left, isolated=isolated)
    at_edges = edges(text, right_to_left=right_to_left, isolated=isolated)
    return "".join(text[place] for place in order_of_runs(range(len(text)), found, at_edges))


@pytest.mark.parametrize("marked", TEXTS)
def test_what_is_read_from_the_left_stands_as_written(marked: str, dejavu: str) -> None:
    assert read_back(set_words(plain(marked), dejavu, 4.0)) == expected(marked)


@pytest.mark.parametrize("marked", TEXTS)
def test_an_independent_library_puts_isolates_in_the_same_order(marked: str, dejavu: str) -> None:
    """python-bidi, given the isolates LRI and PDI at the brackets."""
    bidi = pytest.importorskip("bidi", reason="python-bidi is not installed")
    marks = marked.replace(_OPENS, "\u2066").replace(_CLOSES, "\u2069")
    theirs = plain(bidi.get_display(marks, base_dir="R").replace("\u2066", "").replace("\u2069", ""))
    assert read_back(set_words(plain(marked), dejavu, 4.0)) == theirs


def test_without_isolates_most_of_the_texts_would_be_garbled() -> None:
    """That the table can fail: the order by the characters alone."""
    garbled = 0
    for marked in TEXTS:
        text = plain(marked)
        alone = ordered(text, (), right_to_left=True)
        garbled += alone != expected(marked)
    assert garbled > len(TEXTS) / 2


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        # From the right: the figures of the first value, the dash, those of the second, then the unit on the left.
        ("مقاومة ٥–١٠ kΩ", "kΩ ١٠–٥ ةمواقم"),
        ("٥–١٠ kΩ", "kΩ ١٠–٥"),
        ("جهد ٢٣٠ V", "V ٢٣٠ دهج"),
        ("٢٫٥ N·m", "N·m ٢٫٥"),
    ],
)
def test_arabic_figures_with_a_latin_unit_are_read_from_the_right(text: str, printed: str, dejavu: str) -> None:
    bidi = pytest.importorskip("bidi", reason="python-bidi is not installed")
    found = read_back(set_words(text, dejavu, 4.0, look=Look(direction=Direction.LEFTWARD)))
    assert found == printed == bidi.get_display(text, base_dir="R")


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        ("24 V DC", "24 V DC"),
        ("5–10 kΩ", "5–10 kΩ"),
        ("T 2 A 250 V", "T 2 A 250 V"),
        ("Power (100 W)", "Power (100 W)"),
        ("24 V DC / 5 V DC:", ":24 V DC / 5 V DC"),
        ("Power!", "!Power"),
    ],
)
def test_a_legend_from_the_right_may_be_a_quantity_alone(text: str, printed: str, dejavu: str) -> None:
    leftward = set_words(text, dejavu, 4.0, look=Look(direction=Direction.LEFTWARD))
    assert read_back(leftward) == printed


def test_a_line_of_its_own_is_isolated_as_it_is_within_one(dejavu: str) -> None:
    lines = set_words("מתח 5 V DC\n24 V DC", dejavu, 4.0, look=Look(direction=Direction.LEFTWARD)).letters
    upper, lower = ([letter for letter in lines if (letter.y < 0.0) is below] for below in (False, True))
    assert "".join(letter.text for letter in upper).startswith("5 V DC")
    assert "".join(letter.text for letter in lower) == "24 V DC"


@pytest.mark.parametrize("text", ["OUT 24 V DC", "Ausgang 5–10 kΩ", "24 V DC", "", "Вход 5 А"])
def test_text_from_the_left_has_no_isolates(text: str) -> None:
    assert isolated_stretches(text, (), "", right_to_left=None) == ()


def test_what_the_writer_says_is_a_unit_or_a_word_decides() -> None:
    number_and_letters = "מתח 12 foo"
    unit, word = Span(7, 10, Manner.UNIT), Span(4, 10, Manner.WORD)
    assert isolated_stretches(number_and_letters, (), "", right_to_left=None) == [(4, 6)]
    assert isolated_stretches(number_and_letters, (unit,), "", right_to_left=None) == [(4, 10)]
    assert isolated_stretches("מתח RS-232", (), "", right_to_left=None) == [(4, 10)]
    assert isolated_stretches("מתח RS-232", (word,), "", right_to_left=None) == []


# --- the algorithm, against an independent library and the annex


_LETTERS = st.sampled_from("aBc אבגדبتد019 ٠١+-,.:/()[]!% é\u0300")


@settings(max_examples=examples(300), deadline=None)
@given(pieces=st.lists(st.lists(_LETTERS, min_size=1, max_size=6).map("".join), max_size=5), leftward=st.booleans())
def test_isolates_stand_where_an_independent_library_has_them(*, pieces: list[str], leftward: bool) -> None:
    """Every second piece is an isolate; python-bidi is given the characters for it, ours the places."""
    bidi = pytest.importorskip("bidi", reason="python-bidi is not installed")
    isolated, at = [], 0
    for number, piece in enumerate(pieces):
        if number % 2:
            isolated.append((at, at + len(piece)))
        at += len(piece)
    text = "".join(pieces)
    marked = "".join(f"\u2066{piece}\u2069" if number % 2 else piece for number, piece in enumerate(pieces))
    ours = ordered(text, isolated, right_to_left=leftward)
    theirs = bidi.get_display(marked, base_dir="R" if leftward else "L")
    assert ours == theirs.replace("\u2066", "").replace("\u2069", "")


def test_the_annexs_own_case_of_a_number_beside_foreign_text() -> None:
    """UAX #9, 2.7: a name in Hebrew before ' - 3 reviews' takes the number over to its other side, unless isolated."""
    name, rest = "פיצה סגולה", " - 3 reviews"
    text = name + rest

    assert ordered(text, (), right_to_left=False) == "3 - " + name[::-1] + " reviews"
    # An isolate of the number keeps it in order with the words from the left that follow.
    assert ordered(text, [(len(name) + 3, len(text))], right_to_left=False) == name[::-1] + rest


def test_isolates_do_not_decide_the_direction_of_a_line() -> None:
    """UAX #9, P2: letters between an isolate initiator and its match are skipped."""
    assert not runs_right_to_left("24 V אב")
    assert runs_right_to_left("24 V אב", [(0, 4)])
    assert not runs_right_to_left("24 V ab", [(0, 4)])
    assert not runs_right_to_left("24 V", [(0, 4)])
