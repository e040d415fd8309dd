"""Texts that a spreadsheet would take for formulas; which these are is common practice against formula injection."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelart.texts.cells import guarded, unguarded


@pytest.mark.parametrize("text", ["=1+1", "+5 V", "-12 V", "@SUM(A1)", "\t=1", "\r=1", "-1,5", "-5_0", "--1", "+e"])
def test_what_a_spreadsheet_works_out_is_guarded(text: str) -> None:
    assert guarded(text) == f"'{text}"
    assert unguarded(guarded(text)) == text


@pytest.mark.parametrize("text", ["", "12", "-12", "+0.5", "-.5", "1e-3", "-1e-3", "S1", "5 V", "a=b", "'n'", " =1"])
def test_numbers_and_plain_texts_stay(text: str) -> None:
    assert guarded(text) == text
    assert unguarded(text) == text


@given(st.text(alphabet="'=+-@1.5 a"))
def test_every_text_comes_back(text: str) -> None:
    assert unguarded(guarded(text)) == text
    assert not guarded(text).startswith(("=", "@"))
