"""Why a legend is where it is: each of its places with what it costs or what is in the way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from panelart.canonical import Struct
from panelart.legends.candidates import Candidate
from panelart.legends.choose import Chosen
from panelart.legends.solver import HARD
from panelart.messages import Said
from panelart.messages import legends as said
from panelart.model.layout import Unplaced


class Place(Struct, frozen=True, kw_only=True):
    """One place for a legend.

    `state` is taken, free, occupied (another legend's choice stands there) or blocked. `cost` is that of the place with
    all other legends where they are, `reasons` what it is made of, `blockers` what is in the way.
    """

    candidate: Candidate
    state: str
    cost: int
    reasons: tuple[tuple[Said, int], ...]
    blockers: tuple[str, ...]

    @property
    def words(self) -> Said:
        """The state for people."""
        return _STATES[self.state]


class Story(Struct, frozen=True, kw_only=True):
    """One legend with all its places, the taken one first, then by cost; blocked ones last."""

    ref: str
    kind: str
    text: str
    places: tuple[Place, ...]


def stories(chosen: Chosen, ref: str) -> tuple[Story, ...]:
    """The legends of a part that had a choice."""
    return tuple(
        Story(
            ref=ref,
            kind=choice.wanted.kind,
            text=choice.wanted.request.whole,
            places=tuple(sorted(_places(chosen, index), key=_order)),
        )
        for index, choice in enumerate(chosen.choices)
        if choice.wanted.part.ref == ref
    )


_STATES = {
    "taken": said.state_taken(),
    "free": said.state_free(),
    "occupied": said.state_occupied(),
    "blocked": said.state_blocked(),
}
"""The states in the order that they are listed in."""

_REASONS = {
    "wrap": said.reason_wrap(),
    "slide": said.reason_slide(),
    "farther-off": said.reason_farther_off(),
    "corner": said.reason_corner(),
    "tight-letters": said.reason_tight(),
    "narrow-face": said.reason_narrow(),
    "hyphenated": said.reason_hyphenated(),
    "over-the-throw": said.reason_over_throw(),
    "beside-the-throw": said.reason_beside_throw(),
    "side": said.reason_side(),
    "leader": said.reason_leader(),
    "length-of-the-leader": said.reason_leader_length(),
    "slant": said.reason_slant(),
    "another-part-as-near": said.reason_ambiguous(),
    "overhang": said.reason_overhang(),
    "parted": said.reason_parted(),
    "staggered": said.reason_staggered(),
    "between": said.reason_between(),
    "moved": said.reason_moved(),
}
"""What a cost of a candidate is for; sides are called as in the spec."""


def _order(place: Place) -> tuple[int, int, int]:
    return list(_STATES).index(place.state), place.candidate.resort, place.cost


def _places(chosen: Chosen, index: int) -> Iterator[Place]:
    choice = chosen.choices[index]
    unit = chosen.unit(index)
    for value, candidate in enumerate(choice.candidates):
        with_neighbours, rivals = _beside(chosen, unit, value)
        alike = sum(chosen.choices[other].candidates[value].cost for other in unit if other != index)
        reasons = _reasons(candidate)
        reasons = (*reasons, (said.reason_alike(count=len(unit) - 1), alike)) if alike else reasons
        reasons = (*reasons, (said.reason_neighbours(), with_neighbours)) if with_neighbours else reasons
        taken = chosen.taken[index] == value
        yield Place(
            candidate=candidate,
            state="taken" if taken else "occupied" if rivals else "free",
            cost=candidate.cost + alike + with_neighbours,
            reasons=reasons,
            blockers=rivals,
        )
    for candidate, names in choice.refused:
        blockers = tuple(map(str, names))
        yield Place(
            candidate=candidate, state="blocked", cost=candidate.cost, reasons=_reasons(candidate), blockers=blockers
        )


def _reasons(candidate: Candidate) -> tuple[tuple[Said, int], ...]:
    return tuple((_REASONS.get(key, key), cost) for key, cost in (*candidate.looks, *candidate.resorts) if cost)


def _beside(chosen: Chosen, unit: Sequence[int], value: int) -> tuple[int, tuple[str, ...]]:
    """What a place of all that are placed as one costs with others as they are, and the legends that stand there."""
    cost = 0
    rivals: dict[str, None] = {}
    for (i, j), table in chosen.looks.pairs.items():
        if i not in unit and j not in unit:
            continue
        one, other = (value if index in unit else chosen.taken[index] for index in (i, j))
        if one is None or other is None:
            continue
        pair = int(table[one, other])
        if pair >= HARD:
            want = chosen.choices[i if j in unit else j].wanted
            rivals[str(said.legend_of(text=want.request.whole, owner=want.part.ref))] = None
        else:
            cost += pair
    return cost, tuple(rivals)


def told(chosen: Chosen, ref: str, unplaced: tuple[Unplaced, ...]) -> str:
    """The stories of a part's legends as text for people."""
    lines: list[str] = []
    for story in stories(chosen, ref):
        taken = next((place for place in story.places if place.state == "taken"), None)
        facts = {"kind": story.kind, "text": story.text, "ref": ref, "proof": chosen.proof.words}
        heading = (
            said.not_placed(**facts) if taken is None else said.placement(**facts, place=taken.candidate.place.value)
        )
        lines.append(str(heading))
        for missing in unplaced:
            if (missing.ref, missing.text) == (ref, story.text):
                lines += [f"  {said.possible_change(change=way)}" for way in missing.ways_out]
        for place in story.places:
            lines.append(
                f"  {place.words!s:<8} {form_of(place.candidate):<34} {_at(place.candidate):<18} {_cost(place)}"
            )
        lines.append("")
    return "\n".join(lines) if lines else f"{said.no_choice(ref=ref)}\n"


def form_of(candidate: Candidate) -> str:
    """A place in words: the side, and what is done there to make the words fit."""
    lines = candidate.setting.text.count("\n") + 1
    parts: list[Said] = [candidate.place.value]
    parts += [said.with_leader()] if candidate.leader else []
    resorts = [reason for reason, _ in candidate.resorts]
    short = (("tight-letters", said.tight()), ("narrow-face", said.narrow()), ("hyphenated", said.hyphenated()))
    parts += [word for reason, word in short if reason in resorts]
    parts += [said.lines(count=lines)] if lines > 1 else []
    return str(said.form(parts=parts))


def _at(candidate: Candidate) -> str:
    return f"({candidate.box.centre.x:.2f}, {candidate.at.y:.2f})"


def _cost(place: Place) -> str:
    if place.state in ("blocked", "occupied"):
        return str(said.blocked_by(blockers=place.blockers))
    reasons = [said.reason(reason=reason, cost=cost) for reason, cost in place.reasons]
    return f"{place.cost:>4}" + (f"  {said.reasons(reasons=reasons)}" if reasons else "")
