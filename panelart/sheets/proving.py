"""Which parts a first-piece inspection proves: every hole measured and in its limits, and the part fitted."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.cutouts.hardware import components
from panelart.messages import Message
from panelart.messages import sheets_lists as said
from panelart.model.component import Component, Opening
from panelart.model.layout import CutOpening, Layout
from panelart.sheets.inspection import Characteristic, Verdict, pitch_measure

_PLACES: Final = frozenset({"x", "y", "along", "back"})
"""Measures of where a hole is on the panel. How far apart the holes of a part are is measured between them."""


class Trial(Struct, frozen=True, kw_only=True):
    """One kind of part that was fitted, and why it is not proved; `why` is None where it is."""

    name: str
    ref: str
    why: Message | None = None


def trials(
    layout: Layout,
    wanted: Sequence[Characteristic],
    verdicts: Iterable[Verdict],
    fitted: Collection[str],
    named: Callable[[str], Component | None],
) -> tuple[Trial, ...]:
    """Each kind of part among the refs that were fitted, proved by the first part of which every hole was measured.

    `named` is the part of a name as the part file will have it, None where there is none: what was cut must be the
    cutout that this part asks for.
    """
    known = {verdict.characteristic.key: verdict for verdict in verdicts}
    found: dict[str, Trial] = {}
    for ref, component, _ in components(layout.panel):
        if ref not in fitted or not component.openings:
            continue
        before = found.get(component.name)
        if before is not None and before.why is None:
            continue
        why = _why_not(layout, ref, component, wanted, known, named(component.name))
        if before is None or why is None:
            found[component.name] = Trial(name=component.name, ref=ref, why=why)
    return tuple(found.values())


def _why_not(
    layout: Layout,
    ref: str,
    component: Component,
    wanted: Sequence[Characteristic],
    known: dict[tuple[str, str], Verdict],
    named: Component | None,
) -> Message | None:
    """Why a part is not proved; None where it is."""
    if named is None:
        return said.not_a_named_part()
    if _cut(named) != _cut(component):
        return said.other_dimensions()
    for opening in layout.every_opening:
        doubt = _doubt_of_hole(opening, wanted, known) if opening.ref == ref else None
        if doubt is not None:
            return doubt
    return None


def _doubt_of_hole(
    opening: CutOpening, wanted: Sequence[Characteristic], known: Mapping[tuple[str, str], Verdict]
) -> Message | None:
    """What of a hole is not measured or out of its limits; None where all of it is measured and in them."""
    needed = [one.key for one in wanted if one.feature == opening.name and one.measure not in _PLACES]
    apart = {(opening.name, pitch_measure(pitch, opening.on)) for pitch in opening.pitches}
    if apart.issuperset(needed):
        return said.opening_filled(opening=opening.name)
    for key in needed:
        verdict = known.get(key)
        if verdict is None:
            return said.size_not_measured(opening=opening.name, measure=key[1])
        if verdict.out:
            return said.size_out_of_limits(opening=opening.name, measure=key[1])
    return None


def _cut(component: Component) -> tuple[Opening, ...]:
    """What is cut for a part, whatever is known of its figures."""
    return tuple(replace(opening, figures=(), passes=None) for opening in component.openings)
