from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelart.catalogue.formula import FormulaError, worked_out

VALUES = {"pitch": 24.99, "w": 96.0, "x_1": 2.0}


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("3", 3.0),
        (".5", 0.5),
        ("w", 96.0),
        ("w - 4", 92.0),
        ("pitch/2", 12.495),
        ("-pitch / 2", -12.495),
        ("(w + 2 * x_1) / 2", 50.0),
        ("2 - 3 - 4", -5.0),
        ("8 / 4 / 2", 1.0),
        ("1 + 2 * 3", 7.0),
        ("-(1 + 2) * 3", -9.0),
        ("2 * -3", -6.0),
        ("44.45 * 3 - 0.79", 132.56),
        ("x_1 ^ 3", 8.0),
        ("2 ^ 3 ^ 2", 512.0),
        ("-x_1 ^ 2", -4.0),
        ("2 ^ -1", 0.5),
        ("20 * log10(100)", 40.0),
        ("sqrt(w + 4)", 10.0),
        ("max(x_1, min(3, 4)) + abs(-1) + ln(exp(2))", 6.0),
    ],
)
def test_formula(text: str, value: float) -> None:
    assert worked_out(text, VALUES) == pytest.approx(value)


@pytest.mark.parametrize(
    ("text", "message", "hint"),
    [
        ("", "'' is incomplete", "Accepted: numbers"),
        ("w +", "'w +' is incomplete", "Accepted: numbers"),
        ("w 4", "Unexpected '4' in 'w 4'", "Accepted: numbers"),
        ("(w", "'(w' is incomplete", "Accepted: numbers"),
        ("w)", "Unexpected ')' in 'w)'", "Accepted: numbers"),
        ("w & 2", "Character '&' is not accepted in a formula", "Accepted: numbers"),
        ("w ^", "'w ^' is incomplete", "Accepted: numbers"),
        ("log(10)", "Unknown function 'log'", "Did you mean 'log10'? Accepted: abs, exp, ln, log10, max, min, sqrt"),
        ("min(1)", "Function 'min' with 1 value", "Accepted: 2 values"),
        ("sqrt(1, 2)", "Function 'sqrt' with 2 values", "Accepted: 1 value"),
        ("sqrt(4", "'sqrt(4' is incomplete", "Accepted: numbers"),
        ("sqrt(0 - 1)", "gives no finite number", ""),
        ("ln(0)", "gives no finite number", ""),
        ("(0 - 8) ^ 0.5", "gives no finite number", ""),
        ("9 ^ 9 ^ 9 ^ 9", "gives no finite number", ""),
        ("2" + " ^ 2" * 60, "Parentheses are nested too deep; maximum 40 levels", ""),
        ("__import__('os')", "Character ''' is not accepted in a formula", "Accepted: numbers"),
        ("w.real", "Character '.' is not accepted in a formula", "Accepted: numbers"),
        ("pich", "Unknown column 'pich'", "Did you mean 'pitch'?"),
        ("w / (x_1 - 2)", "'w / (x_1 - 2)' divides by zero", ""),
        ("9" * 200 + "*" + "9" * 200, "gives no finite number", ""),
        ("(" * 60 + "1" + ")" * 60, "Parentheses are nested too deep; maximum 40 levels", ""),
    ],
)
def test_what_is_no_formula(text: str, message: str, hint: str) -> None:
    with pytest.raises(FormulaError) as raised:
        worked_out(text, VALUES)
    assert message in str(raised.value)
    assert str(raised.value.accepts or "").startswith(hint)


@given(st.text(alphabet="0123456789.+-*/() wabc", max_size=30))
def test_any_text_gives_a_number_or_a_formula_error(text: str) -> None:
    try:
        assert isinstance(worked_out(text, {"w": 2.0, "abc": 0.0}), float)
    except FormulaError as error:
        assert str(error)  # noqa: PT017  # either outcome is right, any other exception is not


@given(st.floats(0.001, 1000), st.floats(0.001, 1000), st.floats(0.001, 1000))
def test_formula_agrees_with_the_arithmetic_of_the_language(a: float, b: float, c: float) -> None:
    values = {"a": a, "b": b, "c": c}
    assert worked_out("a - b * (c + 2) / b - -c", values) == a - b * (c + 2) / b - -c
