"""What stands beside the parts: frames round them, and words at places of their own, in copies and modules too."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.diagnostics import did_you_mean
from panelart.geometry import Point, Vector
from panelart.lettering.setting import line_pitch
from panelart.messages import Said
from panelart.messages import spec as said
from panelart.messages import spec_modules as modules_said
from panelart.model.panel import (
    Anchor,
    ArcLine,
    FrameForm,
    FrameRequest,
    FrameSide,
    FrameSize,
    FreeText,
    Ticks,
)
from panelart.source.facts import Facts, Plain, facts_of
from panelart.source.nouns import keys_of
from panelart.source.problems import Problems
from panelart.source.schema import Value
from panelart.spec import language, mirrored
from panelart.spec.lettered import Letterer
from panelart.spec.names import NO_NAMES, Names
from panelart.spec.places import Carry, Laid
from panelart.spec.templates import filled
from panelart.spec.unroll import Beside


class Refs(Struct, frozen=True, kw_only=True):
    """The refs that can be named."""

    known: Mapping[str, object]
    complete: bool
    problems: Problems

    def spelt_out(self, written: tuple[Value[str], ...], names: Names) -> tuple[Value[str], ...]:
        """The refs named, those that end in * as all that begin so, in the order of the parts."""
        found: list[Value[str]] = []
        for each in written:
            ref = Value(filled(each.value, names, each.where, self.problems), each.where)
            if not ref.value.endswith("*") or names.scoped(ref.value, self.known) in self.known:
                found.append(ref)
                continue
            meant = self._beginning(ref, names)
            if not meant and self.complete:
                self.problems.add(ref.where, said.no_ref_begins(ref.value[:-1]), said.ref_or_beginning())
            found += meant
        return tuple(found)

    def _beginning(self, ref: Value[str], names: Names) -> list[Value[str]]:
        """All refs that begin so, of the innermost module that has one."""
        for prefix in names.prefixes:
            beginning = prefix + ref.value[:-1]
            meant = [Value(known, ref.where) for known in self.known if known.startswith(beginning)]
            if meant:
                return meant
        return []

    def of_a_board(self, written: tuple[Value[str], ...]) -> tuple[str, ...]:
        """The refs named for a circuit board."""
        return self.checked(self.spelt_out(written, NO_NAMES), said.the_board())

    def checked(self, written: tuple[Value[str], ...], owner: Said, names: Names = NO_NAMES) -> tuple[str, ...]:
        """The refs named, each known and named once."""
        seen: dict[str, None] = {}
        for each in written:
            ref = names.scoped(each.value, self.known)
            if ref in seen:
                self.problems.add(each.where, said.ref_named_twice(owner, ref), said.each_once())
            elif ref not in self.known and self.complete:
                hint = did_you_mean(ref, self.known, said.refs())
                self.problems.add(each.where, said.ref_unknown(owner, ref), hint)
            seen[ref] = None
        return tuple(seen)


def frame_requests(
    frames: Iterable[Beside], laid: Laid, refs: Refs, letterer: Letterer
) -> Iterator[FrameRequest | None]:
    """The frames asked for; None for one that has no place."""
    for frame in frames:
        carry = laid.carry(frame.levels)
        with letterer.problems.within(frame.numbers.told):
            made = _frame(frame, refs, letterer)
            yield None if carry is None else _carried_frame(made, carry, frame, letterer.problems)


def _frame(frame: Beside, refs: Refs, letterer: Letterer) -> FrameRequest:
    fields, names = frame.fields, frame.numbers
    assert isinstance(fields, language.Frame)
    title = fields.title
    return FrameRequest(
        around=refs.checked(refs.spelt_out(fields.around or (), names), said.the_frame(), names),
        title=None if title is None else letterer.request(title, fields.where(language.Frame.title), "title", names),
        where=fields.begins,
        margin=fields.margin,
        form=FrameForm(fields.form),
        side=FrameSide(fields.side),
        corner=fields.corner,
        ticks=Ticks(fields.ticks),
        size=FrameSize(fields.size),
        ink=letterer.named_ink(fields.ink, fields.where(language.Frame.ink)),
    )


def _carried_frame(request: FrameRequest, carry: Carry, frame: Beside, problems: Problems) -> FrameRequest:
    """A frame as its copy has it: the side of its title is exchanged with the other; it always lies level."""
    if carry.quarter and request.form is FrameForm.BRACKET:
        where = frame.fields.where(language.Frame.form)
        problems.add(where, modules_said.bracket_turned(), modules_said.frame_instead())
    flips = carry.motion.d < -_HALF
    other = {FrameSide.TOP: FrameSide.BOTTOM, FrameSide.BOTTOM: FrameSide.TOP}
    title = request.title
    return replace(
        request,
        title=None if title is None else replace(title, align=mirrored.end(title.align, carry.motion)),
        side=other[request.side] if flips else request.side,
    )


_HALF: Final = 0.5


def free_texts(texts: Iterable[Beside], laid: Laid, letterer: Letterer) -> Iterator[FreeText | None]:
    """The words at places of their own; None for those that have none."""
    for text in texts:
        carry = laid.carry(text.levels)
        with letterer.problems.within(text.numbers.told):
            made = _free_text(text, letterer)
            yield None if made is None or carry is None else _carried_text(made, carry, letterer)


def _free_text(text: Beside, letterer: Letterer) -> FreeText | None:
    fields = text.fields
    assert isinstance(fields, language.FreeText | language.FreeSymbol)
    request = letterer.request(fields, fields.begins, "title", text.numbers)
    at, arc = fields.at, fields[language.FreeText.arc]
    if request is None or at is None:
        return None
    if arc is not None and fields.written(language.FreeText.turn):
        letterer.problems.add(fields.key_where(language.FreeText.turn), said.arc_with_turn(), said.middle_of_arc())
    return FreeText(
        request=request,
        at=letterer.datum.moved(Vector(*at)),
        anchor=Anchor(fields.anchor),
        turn=fields.turn if arc is None else arc.middle,
        arc=None if arc is None else _arc(arc),
    )


def _arc(fields: language.Arc) -> ArcLine | None:
    radius, feet = fields.radius, fields.feet
    if radius is None:
        return None
    upper = math.sin(math.radians(fields.middle)) > -_LEVEL
    return ArcLine(radius=radius, feet_inward=upper if feet is None else feet == "inward")


_LEVEL: Final = 1e-9


def _carried_text(text: FreeText, carry: Carry, letterer: Letterer) -> FreeText:
    request = text.request
    style = letterer.marking.styles[request.style]
    look = style.look if request.look is None else request.look
    cap_height = style.cap_height if request.cap_height is None else request.cap_height
    pitch = line_pitch(request.text, request.spans) if look.line_pitch is None else look.line_pitch
    return mirrored.free_text(text, carry, below=request.text.count("\n") * pitch * cap_height, above=cap_height)


# --- what is said of them


def written_out(beside: Iterable[Beside], laid: Laid, refs: Refs, datum: Point) -> tuple[Facts, ...]:
    """What the spec says of each, with what a copy or a module makes of its words, refs, place and turn."""
    return tuple(_written_out(one, laid.carry(one.levels), refs, datum) for one in beside)


def _written_out(one: Beside, carry: Carry | None, refs: Refs, datum: Point) -> Facts:
    facts, fields, names = facts_of(one.fields), one.fields, one.numbers
    if carry is None or not one.levels:
        return facts
    scratch = replace(refs, problems=Problems())  # all is told already
    facts = facts.with_words(names)
    if isinstance(fields, language.Frame):
        around = scratch.checked(scratch.spelt_out(fields.around or (), names), "", names)
        return facts.with_value(language.Frame.around.name, around).called(", ".join(around))
    for key in (language.FlowLine.from_, language.FlowLine.to):
        if key in keys_of(type(fields)):
            facts = facts.with_value(key.name, _scoped(facts[key.name], names, refs))
    return _carried_places(facts, carry, datum)


def _scoped(held: Plain, names: Names, refs: Refs) -> Plain:
    """One ref or several as they are on the panel."""
    if isinstance(held, tuple):
        return tuple(_scoped(each, names, refs) for each in held)
    return names.scoped(str(held), refs.known)


def _carried_places(facts: Facts, carry: Carry, datum: Point) -> Facts:
    """The same with places from the datum, and the turn, as they are on the panel."""
    for key, carried in _CARRIED.items():
        held = dict(facts.values).get(key)
        if isinstance(held, tuple):
            facts = facts.with_value(key, carried(held, carry, datum))
    turn = dict(facts.values).get(language.FreeText.turn.name)
    return facts.with_value(language.FreeText.turn.name, carry.turn(turn)) if isinstance(turn, float) else facts


def _carried_place(held: tuple[Any, ...], carry: Carry, datum: Point) -> tuple[float, ...]:
    at = carry.motion.apply(datum.moved(Vector(*held)))
    return round(at.x - datum.x, 6) + 0.0, round(at.y - datum.y, 6) + 0.0


def _carried_points(held: tuple[Any, ...], carry: Carry, datum: Point) -> tuple[Plain, ...]:
    return tuple(_carried_place(each, carry, datum) for each in held)


def _carried_box(held: tuple[Any, ...], carry: Carry, datum: Point) -> tuple[float, ...]:
    """Lower-left corner and size of a rectangle, whose corners change places."""
    x, y, width, height = held
    corners = [_carried_place(corner, carry, datum) for corner in ((x, y), (x + width, y + height))]
    (left, right), (bottom, top) = (sorted(along) for along in zip(*corners, strict=True))
    return left, bottom, round(right - left, 6), round(top - bottom, 6)


_CARRIED: Final[Mapping[str, Callable[[tuple[Any, ...], Carry, Point], tuple[Plain, ...]]]] = {
    language.FreeText.at.name: _carried_place,
    language.DrawnRule.rule.name: _carried_points,
    language.DrawnBox.box.name: _carried_box,
}
"""Keys that hold places from the datum, and how these are carried to the panel."""
