"""A rule: everything about one check in one place, so that nothing else needs to know its name.

    @rule(
        Severity.ERROR,
        says="{subject}: minimum web to {other} is {measured}; minimum {limit}",
        fix="Move the parts apart until the web is {limit}, or use thinner sheet.",
        limits=("web.minimum",),
        mends=(moved_apart,),
    )
    def openings_too_close(survey):
        \"\"\"The minimum web between the openings of two parts is less than the sheet thickness. ...\"\"\"

    openings_too_close.cases(
        "parts: [{ref: H1, part: screw-m4, at: [40, 40]}, {ref: H2, part: screw-m4, at: [__, 40]}]",
        fails="46.2",
        passes="46.4",
    )

The page, RULES.md, the suggestions, the tests of both sides of its limit and the test of the limits that it reads are
made from that.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterator, Mapping
from typing import Final, Generic, NamedTuple, TypeVar

from msgspec import field

from panelart.canonical import Struct
from panelart.checks.findings import Bound, Finding, Observation
from panelart.checks.limits import Basis, Limit
from panelart.checks.mends import Mends
from panelart.diagnostics import Severity
from panelart.messages import Message, Sentence, figures
from panelart.messages.arguments import THING
from panelart.messages.shown import WORD, Shown
from panelart.reprs import brief, counted

Looked = TypeVar("Looked")
"""What a rule looks at: the survey of a panel, or the review of its waivers."""

GAP: Final = "__"
"""Stands in a case for what differs between the panel that fails and the one that passes."""

_OWN: Final = "panelart."


class Case(NamedTuple):
    """Two panels that differ in one thing: one has the finding, the other has not.

    `text` is a spec, or as much of one as matters (`panelart.checks.cases` adds the rest), with `__` for what differs.
    `today` is the day of the check, '' where it does not matter.
    """

    text: str
    fails: str
    passes: str
    today: str = ""

    @property
    def failing(self) -> str:
        """The text of the panel with the finding."""
        return _written(self.text, self.fails)

    @property
    def passing(self) -> str:
        """The text of the panel without it."""
        return _written(self.text, self.passes)

    def __repr__(self) -> str:
        return brief("Case", repr(self.fails), repr(self.passes))


def _written(text: str, what: str) -> str:
    from textwrap import dedent  # a case is written for a page or a test, never when a panel is checked

    return dedent(text.replace(GAP, what)).strip("\n")


class Rule(Struct, Generic[Looked], frozen=True, kw_only=True, eq=False):
    """One check.

    `says` and `fix` are sentences with {subject}, {other}, {measured} and {limit} to fill in; in `fix` the two
    numbers are rounded to the safe side. `about` is what the rule finds in general: the first line of its manual page,
    `doc`. `limits` are the limits that it reads: names of limits.yaml (a family of them with a `*`), figures of the
    marking process (`process.NAME`), or a Limit of its own. `mends` make changes of the panel that may clear a finding,
    the likeliest first. `examples` are its cases. `extension` is the package that brings it, '' for this one.
    """

    name: str
    severity: Severity
    doc: str
    about: Sentence
    says: Sentence
    fix: Sentence
    check: Callable[[Looked], Iterator[Observation]]
    limits: tuple[str | Limit, ...] = ()
    mends: tuple[Mends, ...] = ()
    extension: str = ""
    examples: list[Case] = field(default_factory=list)

    def cases(self, text: str = GAP, *, fails: str, passes: str, today: str = "") -> None:
        """Add a case: the texts of two panels, or one text with `__` and what stands there in either."""
        self.examples.append(Case(text, fails, passes, today))

    def findings(self, looked: Looked) -> Iterator[Finding]:
        """What the check sees, with the name, severity and sentences of the rule."""
        return (self._finding(seen) for seen in self.check(looked))

    def _finding(self, seen: Observation) -> Finding:
        limit = seen.limit
        unit = "" if limit is None else limit.unit
        found: dict[str, object] = {"subject": seen.subject, "other": seen.other}
        needed = dict(found)
        if limit is not None and seen.measured is not None:
            found["measured"], found["limit"] = figures.compared(seen.measured, limit.value, unit)
            # A remedy to the figure must come out on the right side of the limit.
            safe = figures.at_least if seen.bound is Bound.MINIMUM else figures.at_most
            needed |= {"measured": figures.at_least(seen.measured, unit), "limit": safe(limit.value, unit)}
        return Finding(
            rule=self.name,
            severity=self._severity(seen),
            refs=tuple(dict.fromkeys(ref for ref in seen.refs if ref)),
            place=seen.place,
            where=seen.where,
            subject=seen.subject,
            other=seen.other,
            measured=seen.measured,
            limit=None if limit is None else limit.value,
            unit=unit,
            bound=seen.bound,
            limit_name="" if limit is None else limit.name,
            origin="" if limit is None else limit.source,
            basis=None if limit is None else limit.basis,
            says=Message(self.says, tuple(found.items())),
            cure=Message(self.fix, tuple(needed.items())),
            each=seen.each,
            spellings=seen.spellings,
        )

    def _severity(self, seen: Observation) -> Severity:
        possible = [self.severity]
        if seen.severity is not None:
            possible.append(seen.severity)
        if seen.limit is not None and seen.limit.basis is Basis.MEMORY:
            possible.append(Severity.WARNING)
        return max(possible, key=lambda severity: severity.rank)

    def __repr__(self) -> str:
        return brief("Rule", repr(self.name), self.severity.value, counted(len(self.examples), "case"))


def _arguments() -> Mapping[str, Shown]:
    return {"subject": THING, "other": THING, "measured": WORD, "limit": WORD}


def rule(
    severity: Severity, *, says: str, fix: str, limits: tuple[str | Limit, ...] = (), mends: tuple[Mends, ...] = ()
) -> Callable[[Callable[[Looked], Iterator[Observation]]], Rule[Looked]]:
    """Make a rule of a function. Its name, with hyphens, is the rule's; its docstring the manual page.

    Raises ValueError when the function has no docstring.
    """

    def made(check: Callable[[Looked], Iterator[Observation]]) -> Rule[Looked]:
        doc = inspect.getdoc(check)
        if not doc:
            raise ValueError(f"the rule {check.__name__} has no manual page")
        name = check.__name__.replace("_", "-")
        # Two packages may each have a rule of a name: their sentences are told apart by the module.
        module = check.__module__
        id_ = f"rules.{name}" if module.startswith(_OWN) else f"rules.{module}.{name}"
        return Rule(
            name=name,
            severity=severity,
            doc=doc,
            about=Sentence(f"{id_}.about", doc.splitlines()[0].removesuffix("."), parameters=dict, module=module),
            says=Sentence(id_, says, parameters=_arguments, module=module),
            fix=Sentence(f"{id_}.fix", fix, parameters=_arguments, module=module),
            check=check,
            limits=limits,
            mends=mends,
        )

    return made
