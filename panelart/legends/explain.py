"""Why a legend stands where it stands: each of its places with what it costs or what is in the way."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from panelart.legends.candidates import Candidate
from panelart.legends.choose import Chosen
from panelart.legends.solver import HARD
from panelart.model.layout import Unplaced


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One place for a legend.

    `state` is taken, free, in use (another legend's choice stands there) or blocked. `cost` is that of the place with
    all other legends where they are, `reasons` what it is made of, `blockers` what is in the way.
    """

    candidate: Candidate
    state: str
    cost: int
    reasons: tuple[tuple[str, int], ...]
    blockers: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Story:
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
            text=choice.wanted.request.text,
            places=tuple(sorted(_places(chosen, index), key=_order)),
        )
        for index, choice in enumerate(chosen.choices)
        if choice.wanted.part.ref == ref
    )


_STATES = ("taken", "free", "in use", "blocked")


def _order(place: Place) -> tuple[int, int, int]:
    return _STATES.index(place.state), place.candidate.resort, place.cost


def _places(chosen: Chosen, index: int) -> Iterator[Place]:
    choice = chosen.choices[index]
    for value, candidate in enumerate(choice.candidates):
        with_neighbours, rivals = _beside(chosen, index, value)
        reasons = tuple(reason for reason in (*candidate.looks, *candidate.resorts) if reason[1])
        if with_neighbours:
            reasons = (*reasons, ("with its neighbours", with_neighbours))
        taken = chosen.taken[index] == value
        yield Place(
            candidate=candidate,
            state="taken" if taken else "in use" if rivals else "free",
            cost=candidate.cost + with_neighbours,
            reasons=reasons,
            blockers=rivals,
        )
    for candidate, blockers in choice.refused:
        reasons = tuple(reason for reason in (*candidate.looks, *candidate.resorts) if reason[1])
        yield Place(candidate=candidate, state="blocked", cost=candidate.cost, reasons=reasons, blockers=blockers)


def _beside(chosen: Chosen, index: int, value: int) -> tuple[int, tuple[str, ...]]:
    """What a place costs with all others as they are, and the legends that stand there."""
    cost = 0
    rivals: list[str] = []
    for (i, j), table in chosen.looks.pairs.items():
        if index not in (i, j):
            continue
        other = j if index == i else i
        there = chosen.taken[other]
        if there is None:
            continue
        pair = int(table[value, there] if index == i else table[there, value])
        if pair >= HARD:
            want = chosen.choices[other].wanted
            rivals.append(f"'{want.request.text}' of {want.part.ref}")
        else:
            cost += pair
    return cost, tuple(rivals)


def told(chosen: Chosen, ref: str, unplaced: tuple[Unplaced, ...]) -> str:
    """The stories of a part's legends as text for people."""
    lines: list[str] = []
    for story in stories(chosen, ref):
        shown = story.text.replace("\n", " / ")
        taken = next((place for place in story.places if place.state == "taken"), None)
        where = "left out" if taken is None else taken.candidate.place.value
        lines.append(f'{story.kind} "{shown}" of {ref}: {where}; the placement is {chosen.proof.words}')
        for missing in unplaced:
            if (missing.ref, missing.text) == (ref, story.text):
                lines += [f"  a way out: {way}" for way in missing.ways_out]
        for place in story.places:
            lines.append(f"  {place.state:<8} {form_of(place.candidate):<34} {_at(place.candidate):<18} {_cost(place)}")
        lines.append("")
    return "\n".join(lines) if lines else f"{ref} has no legend that a place is chosen for\n"


def form_of(candidate: Candidate) -> str:
    """A place in words: the side, and what is done there to make the words fit."""
    lines = candidate.setting.text.count("\n") + 1
    parts = [candidate.place.value]
    parts += ["with a leader"] if candidate.leader else []
    resorts = [reason for reason, _ in candidate.resorts]
    parts += [short for reason, short in (("tight letters", "tight"), ("narrow face", "narrow")) if reason in resorts]
    parts += [f"{lines} lines"] if lines > 1 else []
    return ", ".join(parts)


def _at(candidate: Candidate) -> str:
    return f"({candidate.box.centre.x:.2f}, {candidate.at.y:.2f})"


def _cost(place: Place) -> str:
    reasons = ", ".join(f"{reason} {cost}" for reason, cost in place.reasons)
    blockers = ", ".join(place.blockers)
    if place.state in ("blocked", "in use"):
        return f"in the way: {blockers}"
    return f"{place.cost:>4}" + (f"  ({reasons})" if reasons else "")
