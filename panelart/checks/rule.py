"""A rule: one small function with a name in words, a severity, and a docstring that is its manual page."""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterator, Mapping
from typing import Generic, TypeVar

from panelart.canonical import Struct
from panelart.checks.findings import Bound, Finding, Observation
from panelart.checks.limits import Basis
from panelart.diagnostics import Severity
from panelart.messages import Message, Sentence, figures
from panelart.messages.arguments import THING
from panelart.messages.shown import WORD, Shown

Looked = TypeVar("Looked")
"""What a rule looks at: the survey of a panel, or the review of its waivers."""


class Rule(Struct, Generic[Looked], frozen=True, kw_only=True):
    """One check.

    `says` and `fix` are sentences with {subject}, {other}, {measured} and {limit} to fill in; in `fix` the two
    numbers are rounded to the safe side. `about` is what the rule finds in general: the first line of its manual page.
    """

    name: str
    severity: Severity
    doc: str
    about: Sentence
    says: Sentence
    fix: Sentence
    check: Callable[[Looked], Iterator[Observation]]

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


def _arguments() -> Mapping[str, Shown]:
    return {"subject": THING, "other": THING, "measured": WORD, "limit": WORD}


def rule(
    severity: Severity, *, says: str, fix: str
) -> Callable[[Callable[[Looked], Iterator[Observation]]], Rule[Looked]]:
    """Make a rule of a function. Its name, with hyphens, is the rule's; its docstring the manual page.

    Raises ValueError when the function has no docstring.
    """

    def made(check: Callable[[Looked], Iterator[Observation]]) -> Rule[Looked]:
        doc = inspect.getdoc(check)
        if not doc:
            raise ValueError(f"the rule {check.__name__} has no manual page")
        name = check.__name__.replace("_", "-")
        return Rule(
            name=name,
            severity=severity,
            doc=doc,
            about=Sentence(f"rules.{name}.about", doc.splitlines()[0].removesuffix("."), parameters=dict),
            says=Sentence(f"rules.{name}", says, parameters=_arguments),
            fix=Sentence(f"rules.{name}.fix", fix, parameters=_arguments),
            check=check,
        )

    return made
