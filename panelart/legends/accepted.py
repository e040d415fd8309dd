"""An accepted placement as a file: where every legend stood, so that a small edit does not reshuffle the rest."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from panelart.diagnostics import Problem, SpecError, Where
from panelart.geometry import Point
from panelart.legends.choose import Accepted, Chosen
from panelart.messages import legends as said

VERSION = 1


def accepted_file(chosen: Chosen) -> bytes:
    """The places taken, as JSON: one line a legend, in the order of their names, millimetres from the lower-left."""
    rows = []
    for index, choice in enumerate(chosen.choices):
        candidate = chosen.candidate(index)
        if candidate is not None:
            at = [round(candidate.at.x, 4), round(candidate.at.y, 4)]
            row = {"text": candidate.setting.text, "place": candidate.place.value, "at": at}
            rows.append((choice.wanted.name, json.dumps(row, ensure_ascii=False)))
    body = ",\n".join(f"    {json.dumps(name, ensure_ascii=False)}: {row}" for name, row in sorted(rows))
    return f'{{\n  "panelart-placement": {VERSION},\n  "legends": {{\n{body}\n  }}\n}}\n'.encode()


def read_accepted(data: bytes, file: str) -> Mapping[str, Accepted]:
    """The places of an accepted placement by the legends' names. Raises SpecError when the file is none."""
    try:
        return _places(json.loads(data))
    except (ValueError, KeyError, TypeError, IndexError, AttributeError, UnicodeDecodeError) as error:
        problem = Problem(where=Where(file, 1, 1), says=said.not_a_placement(), accepts=said.save_again())
        raise SpecError([problem]) from error


def _places(read: Any) -> dict[str, Accepted]:
    if read["panelart-placement"] != VERSION:
        raise ValueError(f"version {read['panelart-placement']}")
    return {
        name: Accepted(str(row["text"]), str(row["place"]), Point(float(row["at"][0]), float(row["at"][1])))
        for name, row in read["legends"].items()
    }
