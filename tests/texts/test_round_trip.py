"""Any text is read without a word of complaint, and its runs are that text again, character by character."""

from __future__ import annotations

import time

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from panelart.canonical import canonical
from panelart.texts.parse import parse
from panelart.texts.quantities import Quantity
from panelart.texts.ratings import SupplyRating
from panelart.texts.runs import Unsure, Word
from panelart.texts.units import UNITS
from tests.effort import examples
from tests.texts.test_table import TEXTS

PIECES = st.sampled_from(
    [
        *TEXTS,
        *UNITS,
        *"0123456789.,-–−+±×/:~=()[] \n\t'\"½²⁻⁹",
        "\u202f",
        "10⁹⁹",
        "1e99",
        "T",
        "IP",
        "S3",
        "ED",
        "V",
        "٣",
        "é",
        "e\u0301",
    ]
)
ANY = st.one_of(
    st.text(max_size=40), st.lists(PIECES, max_size=8).map("".join), st.lists(PIECES, max_size=6).map(" ".join)
)


def check(text: str, **marked: list[tuple[int, int]]) -> None:
    read = parse(text, **marked)
    assert "".join(map(read.written, read.runs)) == text
    assert all(run.start < run.end for run in read.runs)
    assert [run.start for run in read.runs[1:]] == [run.end for run in read.runs[:-1]]
    assert all(len(run.means.readings) > 1 for run in read.unsure())
    if text.isprintable():  # half a surrogate pair has no bytes at all
        canonical(read)


@settings(max_examples=examples(2000))
@given(ANY)
@example("10⁻⁻³ V")
@example("3 × 10⁹⁹ V")
@example("1/0 in")
@example("\ud800 10 V")
@example("x" * 2000)
@example("1" * 2000)
@example("1/" * 500)
@example("N·" * 500 + "m")
def test_runs_cover_any_text(text: str) -> None:
    check(text)


@pytest.mark.parametrize("text", TEXTS)
def test_runs_cover_every_text_of_the_table(text: str) -> None:
    check(text)


@settings(max_examples=examples(1000))
@given(ANY, st.data())
def test_runs_cover_texts_with_marked_stretches(text: str, data: st.DataObject) -> None:
    ends = sorted(data.draw(st.lists(st.integers(0, len(text)), max_size=6, unique=True)))
    spans = list(zip(ends[::2], ends[1::2], strict=False))
    check(text, units=spans[::2], words=spans[1::2])


@settings(max_examples=examples(2000))
@given(st.decimals(min_value=0, max_value=10**6, places=2), st.sampled_from(sorted(UNITS)))
def test_a_number_with_a_unit_of_the_table_is_a_quantity_of_it_or_unsure(value, symbol: str) -> None:
    written = f"{value:f} {symbol}"
    (means,) = list(parse(written).meanings())[:1]
    read = means.readings if isinstance(means, Unsure) else (means,)
    if isinstance(means, SupplyRating):  # 24 Vcc says the kind of current as well
        assert means.nature is not None
        read = (means.voltage,)
    known = [each for each in read if isinstance(each, Quantity) and each.value == value]
    if symbol.rstrip(".") in ALONE_NO_UNIT:
        return
    assert known, written
    printed = {UNITS[symbol].symbol, symbol[:-2] if isinstance(means, SupplyRating) else symbol}
    assert printed & {each.unit.symbol for each in known}


ALONE_NO_UNIT = {"r", "U", "tr", "об", "rev", "□", "sq", "B", "G", "P", "cal", "R", "Sa", "St", "год", "counts"} | set(
    "pces Stück ks kpl adet ud uds pz pezzi pièces piezas peças stuks stykker stroke strokes Hub Hübe Hb ход ходов"  # noqa: SIM905
    " coups golpes colpi slag cycle cycles cyc Zyklen Takte cykli cicli ciclos цикл циклов cycli cykler beat beats"
    " Schläge"
    " imp Imp pulses pulse pulsos impulsi имп We To о обр vrt dev obr ot varv giri o omdr omw ford rot στρ kierr Umdr"
    " trs tours λεπτό ώρα óra час".split()
)
"""Symbols that are units only beside others."""


def test_what_case_direction_and_breaking_ask() -> None:
    text = parse("GAIN dB\n10 µs/div MS הספק 100 W, IN")
    spans = {
        name: [text.text[start:end] for start, end in getattr(text, name)()]
        for name in ("kept", "isolated", "unbroken")
    }
    assert spans["kept"] == ["dB", "10 µs/div", "MS", "100 W"]
    assert spans["isolated"] == ["dB", "10 µs/div", "MS", "100 W"]
    assert spans["unbroken"] == ["GAIN dB", "10 µs/div", "MS", "100 W"]
    assert [(run.start, run.end) for run in parse("MS\nIN").unsure()] == [(0, 2)]
    words = [run.means.text for run in text.runs if isinstance(run.means, Word)]
    assert words == ["GAIN", "הספק", "IN"]


@pytest.mark.few(3)
@pytest.mark.parametrize(
    "piece", ["A ", "1/", "1-", "1", "1 000", "V·", "10 V, ", "W/(", "1 1/2 ", "10 min ", "1,000", "x"]
)
def test_a_long_text_takes_no_more_than_its_length(piece: str) -> None:
    """Twenty times the text in less than a hundred times the time: what is quadratic takes four hundred times."""

    def seconds(times: int) -> float:
        begun = time.process_time()
        check(piece * times)
        return time.process_time() - begun

    short = min(seconds(250) for _ in range(5))
    assert min(seconds(5000) for _ in range(2)) < 100 * short + 0.05
