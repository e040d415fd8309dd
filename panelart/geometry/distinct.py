"""What values and rows an array holds, each once and in order.

As numpy.unique, which loads numpy's masked arrays when it is first called: that takes longer than a small panel.
"""

from __future__ import annotations

from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

Kind = TypeVar("Kind", bound=np.generic)


def distinct(values: NDArray[Kind]) -> NDArray[Kind]:
    """The values of a flat array, ascending."""
    ordered = np.sort(values)
    return ordered[_first_of_each(ordered)]


def distinct_with_places(values: NDArray[Kind]) -> tuple[NDArray[Kind], NDArray[np.intp]]:
    """The values of a flat array, ascending, and for each element which of them it is."""
    order = values.argsort()
    ordered = values[order]
    new = _first_of_each(ordered)
    places = np.empty(len(values), dtype=np.intp)
    places[order] = np.cumsum(new) - 1
    return ordered[new], places


def distinct_rows(rows: NDArray[Kind]) -> NDArray[Kind]:
    """The rows of a table, ascending by their first element, then by the next."""
    ordered = rows[np.lexsort(rows.T[::-1])]
    new = np.ones(len(ordered), dtype=bool)
    new[1:] = (ordered[1:] != ordered[:-1]).any(axis=1)
    return ordered[new]


def _first_of_each(ordered: NDArray[Any]) -> NDArray[np.bool_]:
    new = np.ones(len(ordered), dtype=bool)
    new[1:] = ordered[1:] != ordered[:-1]
    return new
