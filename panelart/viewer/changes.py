"""What the page may ask for, and each as a small edit of the spec's text."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path as FilePath
from typing import Any, Final, TypeAlias

from panelart import catalogue
from panelart.canonical import Struct
from panelart.checks import Inspection
from panelart.drafting.nudging import Nudged, nudged
from panelart.messages import Said
from panelart.messages import viewer as said
from panelart.pipeline import build
from panelart.source import edit, yaml
from panelart.source.nodes import Mapping as MappingNode
from panelart.source.nodes import Node, Scalar
from panelart.source.nodes import Sequence as SequenceNode
from panelart.source.written import Written
from panelart.spec.moves import NotHereError, items_of, moves, moves_of_text
from panelart.spec.part_paths import path_of_part
from panelart.spec.read import panel_from_text
from panelart.suggestions import Suggestion, applied, suggestion
from panelart.viewer.stages import Shown

Path: TypeAlias = tuple[str | int, ...]
Edit: TypeAlias = Callable[[str], str]

MAX_PARTS: Final = 200
"""Parts that one change may move, delete or add."""

MAX_LETTERS: Final = 400
MAX_CAP_HEIGHT: Final = 100.0
"""Characters of a text, and mm of a cap height, that the page may ask for."""

_OF_BLOCKS: Final = frozenset({"place", "at", "offset"})
"""Settings that a block of several texts has as a whole."""

PLACES: Final = ("above", "below", "left", "right")
"""Sides that the page offers for a legend; 'auto' takes the spec's word away."""


class BadRequestError(ValueError):
    """A request that the page never makes."""


class Asked(Struct, frozen=True, kw_only=True):
    """A change of the text, and what it is in words."""

    words: Said
    edit: Edit


def change_of(request: Any, shown: Shown) -> Asked:
    """The change that a request asks for. Raises BadRequestError and NotHereError; the edit may raise SpecError."""
    if not isinstance(request, dict) or not isinstance(request.get("do"), str):
        raise BadRequestError(said.request_invalid(field="do"))
    make = _KINDS.get(request["do"])
    if make is None:
        raise BadRequestError(said.change_unknown(name=request["do"]))
    return make(request, shown)


# --- each kind of change


def _move(request: Mapping[str, Any], shown: Shown) -> Asked:
    refs, by = _refs(request, shown), _pair(request, "by")

    def moved(text: str) -> str:
        return edit.put_all(text, moves(text, refs, by))

    return Asked(words=said.change_move(refs=refs), edit=moved)


def _text_move(request: Mapping[str, Any], shown: Shown) -> Asked:
    number, by = int(_number(request, "text")), _pair(request, "by")
    texts = shown.layout.panel.texts
    if not 1 <= number <= len(texts):
        raise BadRequestError(said.text_unknown(number=number))

    def moved(text: str) -> str:
        return edit.put_all(text, moves_of_text(text, number, by))

    return Asked(words=said.change_move_text(text=texts[number - 1].request.text), edit=moved)


def _turn(request: Mapping[str, Any], shown: Shown) -> Asked:
    (ref,) = _refs(request, shown, maximum=1)
    turn = _number(request, "turn") % 360.0

    def turned(text: str) -> str:
        path, node = _part(text, ref)
        if not turn and node.get("turn") is not None:
            return edit.remove(text, (*path, "turn"))
        return edit.put(text, (*path, "turn"), _mm(turn), after="at")

    return Asked(words=said.change_rotate(ref=ref), edit=turned)


def _legend_text(request: Mapping[str, Any], shown: Shown) -> Asked:
    (ref,) = _refs(request, shown, maximum=1)
    words = _text(request, "text")

    def reworded(text: str) -> str:
        path, node = _part(text, ref)
        legend = node.get("legend")
        if not words:
            return text if legend is None else edit.remove(text, (*path, "legend"))
        _refuse_block(legend, ref)
        if isinstance(legend, MappingNode):
            return edit.put(text, (*path, "legend", "text"), words)
        return edit.put(text, (*path, "legend"), words)

    return Asked(words=said.change_legend(ref=ref), edit=reworded)


def _refuse_block(legend: Node | None, ref: str) -> None:
    """Several texts are edited in the spec: a single value says nothing of them all."""
    if isinstance(legend, SequenceNode) or (isinstance(legend, MappingNode) and legend.get("texts") is not None):
        raise NotHereError(said.legend_not_editable(ref=ref))


def _legend_place(request: Mapping[str, Any], shown: Shown) -> Asked:
    place = _text(request, "place")
    if place not in (*PLACES, "auto"):
        raise BadRequestError(said.request_invalid(field="place"))
    return _legend_key(request, shown, "place", None if place == "auto" else place, drops=("at", "offset"))


def _legend_size(request: Mapping[str, Any], shown: Shown) -> Asked:
    size = _number(request, "cap_height")
    if not 0.0 <= size <= MAX_CAP_HEIGHT:
        raise BadRequestError(said.cap_height_out_of_range(height=size, maximum=MAX_CAP_HEIGHT))
    return _legend_key(request, shown, "cap_height", _mm(size) or None)


def _legend_at(request: Mapping[str, Any], shown: Shown) -> Asked:
    at, datum = _pair(request, "at"), shown.layout.panel.datum
    written = [_mm(at[0] - datum.x), _mm(at[1] - datum.y)]
    return _legend_key(request, shown, "at", written, drops=("place", "offset"))


def _legend_key(request: Mapping[str, Any], shown: Shown, key: str, value: Any, drops: Sequence[str] = ()) -> Asked:
    (ref,) = _refs(request, shown, maximum=1)

    def changed(text: str) -> str:
        path, node = _part(text, ref)
        legend = node.get("legend")
        if legend is None:
            raise NotHereError(said.legend_missing(ref=ref))
        if isinstance(legend, Scalar):
            if value is None:
                return text
            return edit.set_value(text, (*path, "legend"), {"text": legend.text, key: value})
        if not isinstance(legend, MappingNode):
            raise NotHereError(said.legend_not_editable(ref=ref))
        if key not in _OF_BLOCKS:
            _refuse_block(legend, ref)
        for dropped in drops:
            if legend.get(dropped) is not None:
                text = edit.remove(text, (*path, "legend", dropped))
        if value is not None:
            return edit.put(text, (*path, "legend", key), value)
        return text if legend.get(key) is None else edit.remove(text, (*path, "legend", key))

    return Asked(words=said.change_legend(ref=ref), edit=changed)


def _add(request: Mapping[str, Any], shown: Shown) -> Asked:
    name, at, datum = _text(request, "part"), _pair(request, "at"), shown.layout.panel.datum
    if name not in catalogue.names():
        raise BadRequestError(said.part_unknown(name=name))
    ref = _free(_text(request, "ref") or "P1", set(shown.layout.panel.by_ref))
    item: Written = {"ref": ref, "part": name, "at": [_mm(at[0] - datum.x), _mm(at[1] - datum.y)]}

    def added(text: str) -> str:
        top = yaml.read(text, "")
        if top.get("parts") is None:
            return edit.add_key(text, (), "parts", [item])
        return edit.append_item(text, ("parts",), item)

    return Asked(words=said.change_add(ref=ref), edit=added)


def _delete(request: Mapping[str, Any], shown: Shown) -> Asked:
    refs = _refs(request, shown)

    def without(text: str) -> str:
        for ref in refs:
            text = edit.remove(text, _part(text, ref)[0])
        return text

    return Asked(words=said.change_delete(refs=refs), edit=without)


def _array(request: Mapping[str, Any], shown: Shown) -> Asked:
    (ref,) = _refs(request, shown, maximum=1)
    step, count = _pair(request, "step"), _number(request, "count")
    if count != int(count) or not 1 <= count <= MAX_PARTS:
        raise BadRequestError(said.copies_out_of_range(copies=count, maximum=MAX_PARTS))

    def arrayed(text: str) -> str:
        path, node = _part(text, ref)
        if not isinstance(node.get("at"), SequenceNode):
            raise NotHereError(said.position_to_copy_calculated(ref=ref))
        taken = set(shown.layout.panel.by_ref)
        stood, datum = shown.layout.panel.by_ref[ref].at, shown.layout.panel.datum
        index = int(path[-1])
        for number in range(1, int(count) + 1):
            new = _free(ref, taken)
            taken.add(new)
            at = [_mm(stood.x + number * step[0] - datum.x), _mm(stood.y + number * step[1] - datum.y)]
            text = edit.duplicate_item(text, ("parts", index + number - 1))
            copy = ("parts", index + number)
            text = edit.put_all(text, {(*copy, "ref"): new, (*copy, "at"): at})
        return text

    return Asked(words=said.change_copy(ref=ref), edit=arrayed)


def _suggested(request: Mapping[str, Any], shown: Shown) -> Asked:
    found = suggested(shown, int(_number(request, "number")))
    if found is None:
        raise NotHereError(said.no_verified_edit())

    def followed(text: str) -> str:
        return applied(text, found.edits)

    return Asked(words=found.says, edit=followed)


def suggested(shown: Shown, number: int) -> Suggestion | None:
    """The edit, tried, that clears a finding, counted from 1. Raises BadRequestError where there is none such."""
    findings = shown.inspection.findings
    if not 1 <= number <= len(findings):
        raise BadRequestError(said.finding_unknown(number=number))
    panel = shown.layout.panel
    folder = FilePath(panel.where.file).parent

    def inspected(text: str) -> Inspection:
        return build(panel_from_text(text, panel.where.file, folder), today=shown.today).inspection

    return suggestion(shown.text, shown.inspection, findings[number - 1], inspected)


def _nudge(_: Mapping[str, Any], shown: Shown) -> Asked:
    found = nudge(shown)
    if not found.steps:
        raise NotHereError(said.no_moves())
    return Asked(words=moves_told(found), edit=lambda _: found.text)


def nudge(shown: Shown) -> Nudged:
    """The smallest moves of parts that clear the findings of what is shown together."""
    file = shown.layout.panel.where.file
    return nudged(shown.text, file, FilePath(file).parent, today=shown.today)


def moves_told(found: Nudged) -> Said:
    """What moves do, in one sentence."""
    return said.moves_found([ref for step in found.steps for ref in step.refs], found.cost, len(found.left))


# --- what a request holds


def _refs(request: Mapping[str, Any], shown: Shown, maximum: int = MAX_PARTS) -> tuple[str, ...]:
    refs = request.get("refs")
    if not isinstance(refs, list) or not 1 <= len(refs) <= maximum or not all(isinstance(ref, str) for ref in refs):
        raise BadRequestError(said.request_invalid(field="refs"))
    for ref in refs:
        if ref not in shown.layout.panel.by_ref:
            raise BadRequestError(said.ref_unknown(ref=ref))
    return tuple(dict.fromkeys(refs))


def _number(request: Mapping[str, Any], key: str) -> float:
    value = request.get(key)
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value) or abs(value) > 1e5:
        raise BadRequestError(said.not_a_number(field=key))
    return float(value)


def _pair(request: Mapping[str, Any], key: str) -> tuple[float, float]:
    value = request.get(key)
    if not isinstance(value, list) or len(value) != 2:
        raise BadRequestError(said.not_two_numbers(field=key))
    x, y = (_number({"n": one}, "n") for one in value)
    return x, y


def _text(request: Mapping[str, Any], key: str) -> str:
    value = request.get(key, "")
    if not isinstance(value, str) or len(value) > MAX_LETTERS:
        raise BadRequestError(said.text_too_long(field=key, maximum=MAX_LETTERS))
    return value


def _mm(value: float) -> float:
    """A length as it is written: to a thousandth, -0 as 0."""
    return round(value, 3) + 0.0


# --- where things are in the text


def _part(text: str, ref: str) -> tuple[Path, MappingNode]:
    """A part's own item in the list of parts. Raises SpecError where it has none."""
    path = path_of_part(text, ref)
    return path, items_of(text, {ref: path})[ref]


_NUMBERED: Final = re.compile(r"^(.*?)(\d+)$")


def _free(like: str, taken: set[str]) -> str:
    """A ref like one that nobody has: S3 after S1 and S2."""
    match = _NUMBERED.match(like)
    stem, number = (match[1], int(match[2])) if match else (f"{like}-", 1)
    while f"{stem}{number}" in taken:
        number += 1
    return f"{stem}{number}"


_KINDS: Final[Mapping[str, Callable[[Mapping[str, Any], Shown], Asked]]] = {
    "move": _move,
    "text-move": _text_move,
    "turn": _turn,
    "legend-text": _legend_text,
    "legend-place": _legend_place,
    "legend-size": _legend_size,
    "legend-at": _legend_at,
    "add": _add,
    "delete": _delete,
    "array": _array,
    "suggestion": _suggested,
    "nudge": _nudge,
}
