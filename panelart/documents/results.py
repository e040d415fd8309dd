"""Needs: what documents are made from, each worked out once for a panel and only if something wants it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any, Generic, TypeVar, overload

from panelart.canonical import Struct

First = TypeVar("First")
Second = TypeVar("Second")
Third = TypeVar("Third")
Fourth = TypeVar("Fourth")
Made = TypeVar("Made")
Made_co = TypeVar("Made_co", covariant=True)


class Need(Struct, Generic[Made_co], frozen=True, kw_only=True, eq=False):
    """An intermediate result: `make` takes what its `needs` give, in their order; without it the result is given.

    Two needs are never equal: what several documents share, they share by naming the same one.
    """

    name: str
    needs: tuple[Need[Any], ...] = ()
    make: Callable[..., Made_co] | None = None

    @property
    def bases(self) -> frozenset[Need[Any]]:
        """What must be given for this to be made: itself, or the bases of what it needs."""
        if self.make is None:
            return frozenset({self})
        return frozenset(base for need in self.needs for base in need.bases)


@overload
def need(first: Need[First], /) -> Callable[[Callable[[First], Made]], Need[Made]]: ...
@overload
def need(first: Need[First], second: Need[Second], /) -> Callable[[Callable[[First, Second], Made]], Need[Made]]: ...
@overload
def need(
    first: Need[First], second: Need[Second], third: Need[Third], /
) -> Callable[[Callable[[First, Second, Third], Made]], Need[Made]]: ...
@overload
def need(
    first: Need[First], second: Need[Second], third: Need[Third], fourth: Need[Fourth], /
) -> Callable[[Callable[[First, Second, Third, Fourth], Made]], Need[Made]]: ...
def need(*needs: Need[Any]) -> Callable[[Callable[..., Made]], Need[Made]]:
    """Make a need of a function, whose arguments are other needs; its name, with spaces, is the function's.

        @need(LAYOUT, PLATES)
        def drilling(layout: Layout, plates: Separations) -> Drawing: ...

    What a function imports within is loaded only where it is wanted.
    """

    def declared(make: Callable[..., Made]) -> Need[Made]:
        return Need(name=make.__name__.strip("_").replace("_", " "), needs=needs, make=make)

    return declared


class Results:
    """What is given of one panel or set, and what was made of it, each result once.

    Not for several threads at once: two of them would make the same thing twice.
    """

    def __init__(self, given: Mapping[Need[Any], object]) -> None:
        self._found: dict[Need[Any], Any] = dict(given)
        self._given = frozenset(given)

    def __getitem__(self, wanted: Need[Made]) -> Made:
        """The result, made on first asking. Raises LookupError for one that would have to be given and is not."""
        if wanted not in self._found:
            if wanted.make is None:
                raise LookupError(f"nothing gives the {wanted.name}")
            self._found[wanted] = wanted.make(*(self[one] for one in wanted.needs))
        found: Made = self._found[wanted]
        return found

    def can_make(self, wanted: Need[Any]) -> bool:
        """Whether everything is given that a result is made from."""
        return wanted.bases <= self._given

    def __iter__(self) -> Iterator[str]:
        """The names of what was given or made so far, in that order."""
        return (one.name for one in self._found)
