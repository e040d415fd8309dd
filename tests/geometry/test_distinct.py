"""Distinct values and rows are those of numpy."""

from __future__ import annotations

import subprocess
import sys

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from panelart.geometry.distinct import distinct, distinct_rows, distinct_with_places

NUMBERS = st.lists(st.integers(-3, 3) | st.floats(-2, 2), max_size=40)
PAIRS = st.lists(st.tuples(st.integers(-2, 2), st.integers(-2, 2)), max_size=40)


@given(NUMBERS)
def test_values(numbers):
    values = np.array(numbers, dtype=float)
    assert distinct(values).tolist() == np.unique(values).tolist()
    found, places = distinct_with_places(values)
    known, where = np.unique(values, return_inverse=True)
    assert found.tolist() == known.tolist()
    assert places.tolist() == where.tolist()
    assert found[places].tolist() == numbers


@given(PAIRS)
def test_rows(pairs):
    rows = np.array(pairs, dtype=np.int64).reshape(-1, 2)
    assert distinct_rows(rows).tolist() == np.unique(rows, axis=0).tolist()


def test_masked_arrays_stay_away():
    code = (
        "import sys, numpy as np; from panelart.geometry.distinct import *; a = np.array([2, 1, 2]);"
        "distinct(a); distinct_with_places(a); distinct_rows(a.reshape(3, 1)); print('numpy.ma' in sys.modules)"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "False"
