"""Where each part stands: measured from the datum, or from another part, in a chain that must end."""

from __future__ import annotations

from collections.abc import Mapping

from panelart.diagnostics import did_you_mean
from panelart.geometry import Point, Vector
from panelart.source.problems import Problems
from panelart.source.schema import Fields
from panelart.spec import language
from panelart.spec.templates import filled
from panelart.spec.unroll import Draft


def places(drafts: Mapping[str, Draft], datum: Point, problems: Problems, *, complete: bool) -> dict[str, Point]:
    """The centre of each part by ref, from the lower-left corner; parts without a readable place are left out.

    A relative place that names no part, or leads back to itself, is a problem. When the refs are not `complete`, a
    part that is not there is passed over, since its own problem is told already.
    """
    found: dict[str, Point | None] = {}
    parents = {ref: _parent(draft, drafts, problems, complete=complete) for ref, draft in drafts.items()}
    for ref in drafts:
        chain: list[str] = []
        on_chain: set[str] = set()
        here: str | None = ref
        while here is not None and here not in found and here not in on_chain:
            chain.append(here)
            on_chain.add(here)
            here = parents[here]
        if here is not None and here in on_chain:
            ring = chain[chain.index(here) :]
            _report(ring, drafts, problems)
            found.update(dict.fromkeys(ring))
        for link in reversed(chain):
            if link not in found:
                found[link] = _place(drafts[link], parents[link], drafts, found, datum)
    return {ref: place for ref, place in found.items() if place is not None}


def _parent(draft: Draft, drafts: Mapping[str, Draft], problems: Problems, *, complete: bool) -> str | None:
    """The ref that a draft is measured from, if that part is there."""
    at = draft.fields[language.AT]
    if not isinstance(at, Fields):
        return None
    written = at[language.FROM]
    if written is None:
        return None
    where = at.where(language.FROM)
    ref = filled(written, draft.numbers, where, problems)
    if ref in drafts:
        return ref
    if complete:
        problems.add(
            where,
            f"{draft.ref} is measured from '{ref}', which is not on the panel",
            did_you_mean(ref, drafts, "refs"),
        )
    return None


def _report(ring: list[str], drafts: Mapping[str, Draft], problems: Problems) -> None:
    """A ring is told once, at its member that is written first."""
    first = min(ring, key=lambda ref: drafts[ref].where)
    turn = ring.index(first)
    chain = [*ring[turn:], *ring[:turn], first]
    at = drafts[first].fields[language.AT]
    assert isinstance(at, Fields)
    told = " > ".join(chain) if len(chain) <= 12 else " > ".join([*chain[:6], "...", *chain[-5:]])
    problems.add(
        at.where(language.FROM),
        f"the places of parts go round in a circle: {told}",
        "accepted: a chain of 'from' that ends at a part with a place of its own, at: [x, y]",
    )


def _place(
    draft: Draft,
    parent: str | None,
    drafts: Mapping[str, Draft],
    found: Mapping[str, Point | None],
    datum: Point,
) -> Point | None:
    at = draft.fields[language.AT]
    if isinstance(at, tuple):
        start = datum.moved(Vector(*at))
        return start.moved(steps_of(draft, 0))
    if not isinstance(at, Fields) or parent is None:
        return None
    by, start_or_none = at[language.BY], found[parent]
    if by is None or start_or_none is None:
        return None
    return start_or_none.moved(Vector(*by)).moved(steps_of(draft, _shared(draft, drafts[parent])))


def _shared(draft: Draft, parent: Draft) -> int:
    """In how many repeats, from the outermost, both stand in the same copy."""
    same = 0
    for own, other in zip(draft.levels, parent.levels, strict=False):
        if (own.where, own.copy) != (other.where, other.copy):
            break
        same += 1
    return same


def steps_of(draft: Draft, after: int = 0) -> Vector:
    """How far the repeats below the first `after` of them move the draft."""
    total = Vector(0.0, 0.0)
    for level in draft.levels[after:]:
        total = total.plus(level.moved)
    return total
