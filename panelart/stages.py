"""Stages that remember: what was worked out from something is not worked out again from the same, in one process.

    with remembering(Memory()):
        build(panel)
        build(panel_after_an_edit)  # what the edit does not touch is remembered

A `@stage` is a pure function of a few nouns, remembered by the digest of its arguments. `read` runs a pure function of
a large noun (a panel, a layout) and notes which fields it read; it is remembered as long as just these hold the same.
Both compare canonical bytes, never `==` or `hash`, so that 1 and 1.0 are two things. Outside `remembering` both simply
run. What is counted is counted by name, so that a test can say what an edit cost without a clock. A memory is for one
spoken language: some answers hold words.
"""

from __future__ import annotations

from collections import Counter, OrderedDict
from collections.abc import Callable, Hashable, Iterable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache, cached_property, wraps
from inspect import getattr_static
from types import FunctionType, MethodType
from typing import Any, Final, ParamSpec, TypeVar, cast

from panelart.canonical import Struct, digest

P = ParamSpec("P")
Answer = TypeVar("Answer")
Subject = TypeVar("Subject")

MAX_ANSWERS: Final = 20_000
"""How many answers of stages a memory holds: those of a few dozen states of a large panel."""

MAX_TRACES: Final = 8
"""For how many states of what it reads the answer of a reading function is held: enough to undo and redo."""

_MAX_DIGESTS: Final = 4_000


Way = tuple[str | int, ...]
"""From a noun to what was read of it: names of fields, and the number of one of its `EACH`."""

_COUNT: Final = "#"
"""The last step of a way to how many there are."""


class _Trace(Struct, frozen=True):
    """What was read, by the way to it and its digest, and the answer from it."""

    reads: tuple[tuple[Way, bytes], ...]
    answer: Any


class Memory:
    """What stages and readings worked out, the oldest forgotten first, and how often each did and was spared it."""

    def __init__(self) -> None:
        self.computed: Counter[str] = Counter()
        self.recalled: Counter[str] = Counter()
        self._answers: OrderedDict[tuple[str, bytes], Any] = OrderedDict()
        self._traces: dict[str, list[_Trace]] = {}
        self._digests: dict[int, tuple[object, bytes]] = {}

    def answer(self, name: str, key: bytes, compute: Callable[[], Answer], keep: Callable[[Answer], bool]) -> Answer:
        """The answer under a key, worked out if it is not held; held for later if it is one to `keep`."""
        held = (name, key)
        if held in self._answers:
            self._answers.move_to_end(held)
            self.recalled[name] += 1
            return cast("Answer", self._answers[held])
        self.computed[name] += 1
        answer = compute()
        if keep(answer):
            self._answers[held] = answer
            while len(self._answers) > MAX_ANSWERS:
                self._answers.popitem(last=False)
        return answer

    def reading(self, name: str, function: Callable[[Subject], Answer], subject: Subject | Watched) -> Answer:
        """The answer of a function of a large noun, or of one that is watched for several functions already."""
        watched = subject if isinstance(subject, Watched) else Watched(subject, (), _Log(each=False))
        traces = self._traces.setdefault(name, [])
        for trace in traces:
            if all(self._digest_at(watched, way) == told for way, told in trace.reads):
                self.recalled[name] += 1
                traces.remove(trace)
                traces.insert(0, trace)
                return cast("Answer", trace.answer)
        self.computed[name] += 1
        with watched._log.noting() as noted:  # noqa: SLF001  # the two are one mechanism
            answer = function(cast("Subject", watched))
        reads = tuple((way, self._digest_at(watched, way)) for way in sorted(noted, key=str))
        traces.insert(0, _Trace(reads, answer))
        del traces[MAX_TRACES:]
        return answer

    def _digest_at(self, watched: Watched, way: Way) -> bytes:
        told = watched._told  # noqa: SLF001
        if way not in told:
            told[way] = self._digest(_at(watched._thing, way))  # noqa: SLF001
        return told[way]

    def _digest(self, value: object) -> bytes:
        held = self._digests.get(id(value))
        if held is not None and held[0] is value:
            return held[1]
        made = digest(value)
        if len(self._digests) >= _MAX_DIGESTS:
            self._digests.clear()
        self._digests[id(value)] = (value, made)  # the value is held, so that nothing else comes to have its id
        return made


_MEMORY: Final[ContextVar[Memory | None]] = ContextVar("memory", default=None)


@contextmanager
def remembering(memory: Memory) -> Iterator[Memory]:
    """Within this, stages remember in this memory. It holds for this thread and task alone."""
    token = _MEMORY.set(memory)
    try:
        yield memory
    finally:
        _MEMORY.reset(token)


@contextmanager
def remembering_at_least() -> Iterator[Memory]:
    """As `remembering`, in the memory that there is, or else in one for the time being."""
    memory = _MEMORY.get()
    if memory is not None:
        yield memory
        return
    with remembering(Memory()) as passing:
        yield passing


def stage(function: Callable[P, Answer]) -> Callable[P, Answer]:
    """Make a stage of a pure function; its name counts. Raises NotCanonicalError where an argument has no bytes."""
    name = function.__name__.strip("_").replace("_", " ")

    @wraps(function)
    def staged(*args: P.args, **named: P.kwargs) -> Answer:
        memory = _MEMORY.get()
        if memory is None:
            return function(*args, **named)
        given = tuple(_whole(each) for each in args)
        key = digest((given, sorted(named.items())))
        # A stage reads its arguments and nothing else, so what it is given need not be watched.
        return memory.answer(name, key, lambda: function(*cast("Any", given), **named), lambda _: True)

    return staged


def recalled(
    name: str, key: bytes, compute: Callable[[], Answer], keep: Callable[[Answer], bool] = lambda _: True
) -> Answer:
    """What a stage with a key of its own gives; `keep` says whether an answer may be given again."""
    memory = _MEMORY.get()
    return compute() if memory is None else memory.answer(name, key, compute, keep)


def read(name: str, function: Callable[[Subject], Answer], subject: Subject) -> Answer:
    """What a pure function of a large noun gives. Raises NotCanonicalError where it reads what has no bytes."""
    memory = _MEMORY.get()
    return function(subject) if memory is None else memory.reading(name, function, subject)


# --- watching what is read


class _Log:
    """The ways to the fields that were read, noted for every function that is running."""

    def __init__(self, *, each: bool) -> None:
        self.each = each
        self._running: list[set[Way]] = []

    def add(self, ways: Iterable[Way]) -> None:
        if self._running:
            self._running[-1].update(ways)

    @contextmanager
    def noting(self) -> Iterator[set[Way]]:
        """A set of what is read within; whoever runs it has read it too."""
        noted: set[Way] = set()
        self._running.append(noted)
        try:
            yield noted
        finally:
            self._running.pop()
            self.add(noted)


@cache
def _declared(kind: Hashable, name: str) -> Any:
    """The property or method of a kind of noun that has a name; None for a field."""
    found = getattr_static(kind, name, None)
    return found if isinstance(found, property | FunctionType | cached_property) else None


class Watched:
    """Stands in for a noun and notes which of its fields are read. Nouns that `WATCHED` names are watched too.

    Properties and methods run on the watched noun; what a cached property has read counts for all who ask for it.
    """

    def __init__(self, thing: object, way: Way, log: _Log) -> None:
        self._thing: Any = thing
        self._way = way
        self._log = log
        self._made: dict[str, tuple[Any, frozenset[Way]]] = {}
        self._told: dict[Way, bytes] = {}

    def __getattr__(self, name: str) -> Any:
        if name in self._made:
            value, ways = self._made[name]
            self._log.add(ways)
            return value
        declared = _declared(cast("Hashable", type(self._thing)), name)
        if declared is None:
            return self._field(name)
        if isinstance(declared, FunctionType):
            return MethodType(declared, self)
        get: Any = declared.fget if isinstance(declared, property) else declared.func
        return self._worked_out(name, get)

    def _worked_out(self, name: str, get: Callable[[Any], Any]) -> Any:
        with self._log.noting() as noted:
            value = get(self)
        self._made[name] = (value, frozenset(noted))
        return value

    def _field(self, name: str) -> Any:
        value, way = getattr(self._thing, name), (*self._way, name)
        if type(value).__name__ in WATCHED:
            value = Watched(value, way, self._log)
            self._made[name] = (value, frozenset())
            return value
        noted = way
        if self._log.each and isinstance(value, tuple) and value and type(value[0]).__name__ in EACH:
            value, noted = tuple(Watched(one, (*way, n), self._log) for n, one in enumerate(value)), (*way, _COUNT)
            self._made[name] = (value, frozenset([noted]))
        else:
            self._made[name] = (value, frozenset([noted]))
        self._log.add([noted])
        return value

    def __repr__(self) -> str:
        return f"<watched {type(self._thing).__name__}>"


WATCHED: Final = frozenset({"Panel", "Layout", "Marking", "Inspection"})
"""Nouns of which only the fields that are read count, not the whole."""


EACH: Final = frozenset({"Part"})
"""Nouns that are watched one by one where they stand in a row, so that a part that moves is no other knob or scale."""


def _whole(argument: object) -> object:
    """An argument of a stage: of a watched noun the noun itself, all of which counts as read."""
    if isinstance(argument, Watched):
        argument._log.add([argument._way])  # noqa: SLF001
        return argument._thing  # noqa: SLF001
    return argument


def _at(thing: object, way: Way) -> Any:
    """What is at the end of a way; None where there are fewer than there were."""
    for step in way:
        if step == _COUNT:
            return len(cast("tuple[object, ...]", thing))
        if isinstance(step, int):
            row = cast("tuple[object, ...]", thing)
            thing = row[step] if step < len(row) else None
        else:
            thing = getattr(thing, step, None)
    return thing


def watch(subject: Subject) -> Subject:
    """A noun whose reading is noted, for several functions that share what its cached properties work out.

    Each of its parts is watched by itself, so what these functions give must not hold a part. Outside `remembering` it
    is the noun itself.
    """
    return subject if _MEMORY.get() is None else cast("Subject", Watched(subject, (), _Log(each=True)))
