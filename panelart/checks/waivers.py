"""Waivers: findings accepted by name with a reason, and waivers that no longer accept anything.

A waiver accepts a finding when it names the finding's rule and every part the finding names. Frames and free texts
may be named too but need not. A waiver without refs accepts every finding of its rule.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from panelart.canonical import Struct
from panelart.checks.findings import Finding, Observation
from panelart.checks.rule import rule
from panelart.diagnostics import Severity, did_you_mean
from panelart.geometry import Point
from panelart.messages import Message, Said
from panelart.messages import checks as said
from panelart.model.panel import Panel, Waiver
from panelart.reprs import brief


class Waived(Struct, frozen=True, kw_only=True):
    """A finding that the designer accepted, and the waiver that says why."""

    finding: Finding
    waiver: Waiver

    def __repr__(self) -> str:
        return brief("Waived", self.finding.rule, repr(self.waiver.why))


class Review(Struct, frozen=True, kw_only=True):
    """A panel's findings and its waivers; what the rules about waivers read.

    `used` holds, for each of the panel's waivers, the refs of the findings it accepted, None where it accepted
    none at all. `rules` are the names of the rules whose findings can be accepted. `today` is the day (YYYY-MM-DD)
    with which the waivers' last days are compared; with '' no waiver expires.
    """

    panel: Panel
    rules: tuple[str, ...]
    found: tuple[Finding, ...]
    open: tuple[Finding, ...]
    waived: tuple[Waived, ...]
    used: tuple[frozenset[str] | None, ...]
    today: str = ""


def expired(waiver: Waiver, today: str) -> bool:
    """Whether a waiver's last day is past; days of the form YYYY-MM-DD sort as texts do."""
    return bool(waiver.until) and waiver.until < today


def review(panel: Panel, found: Sequence[Finding], rules: Sequence[str], today: str = "") -> Review:
    """Take the accepted findings out of those that were found. A waiver whose last day is past accepts nothing."""
    left: list[Finding] = []
    waived: list[Waived] = []
    used: dict[int, set[str]] = {}
    for finding in found:
        rest: Finding | None = finding
        for number, waiver in enumerate(panel.waivers):
            if rest is None:
                break
            if expired(waiver, today):
                continue
            accepted, rest = _accept(rest, waiver, panel)
            if accepted is not None:
                waived.append(Waived(finding=accepted, waiver=waiver))
                used.setdefault(number, set()).update(accepted.refs)
        if rest is not None:
            left.append(rest)
    return Review(
        panel=panel,
        rules=tuple(rules),
        found=tuple(found),
        open=tuple(left),
        waived=tuple(waived),
        used=tuple(frozenset(used[number]) if number in used else None for number in range(len(panel.waivers))),
        today=today,
    )


def _accept(finding: Finding, waiver: Waiver, panel: Panel) -> tuple[Finding | None, Finding | None]:
    """The part of a finding that a waiver accepts, and the part that stays open."""
    if waiver.rule != finding.rule:
        return None, finding
    if not waiver.refs:
        return finding, None
    if finding.each:
        return finding.only(waiver.refs), finding.only(ref for ref in finding.refs if ref not in waiver.refs)
    must = [ref for ref in finding.refs if ref in panel.by_ref] or finding.refs[:1]
    return (finding, None) if all(ref in waiver.refs for ref in must) else (None, finding)


@rule(
    Severity.ERROR,
    says="Waiver of unknown rule {subject}",
    fix="{other}",
)
def waiver_names_unknown_rule(review: Review) -> Iterator[Observation]:
    """A waiver names a rule that does not exist, so that it accepts nothing.

    Source: the list of rules.
    Fix: write the rule's name as in the list of rules.
    Fails: a waiver for `legend-to-small`.
    Passes: a waiver for `legend-too-small`.
    """
    for waiver in review.panel.waivers:
        if waiver.rule not in review.rules:
            yield Observation(
                refs=waiver.refs,
                place=_place(review.panel, waiver.refs),
                where=waiver.where,
                subject=said.waived_rule(rule=waiver.rule),
                other=did_you_mean(waiver.rule, review.rules, said.rules()),
            )


waiver_names_unknown_rule.cases(
    """
    waivers: [{rule: __, on: H1, why: agreed}]
    parts: [{ref: H1, part: {part: opening-circle, opening: {diameter: 4}}, at: [4, 50]}]
    """,
    fails="opening-near-egde",
    passes="opening-near-edge",
)


@rule(
    Severity.WARNING,
    says="Waiver of {subject}: {other}",
    fix="Remove the waiver, or correct the refs in it.",
)
def waiver_matches_nothing(review: Review) -> Iterator[Observation]:
    """A waiver, or one of the refs in it, no longer accepts any finding.

    Either the fault is gone and the waiver should go too, before it hides another; or it names only some of the parts
    of the finding, which is then reported.

    Source: common practice; an old waiver hides the next fault.
    Fix: remove the waiver or the ref, or name every part of the finding.
    Fails: a waiver of `legend-too-small` on a part whose legends are large enough.
    Passes: a waiver of `legend-too-small` on a part with a legend that is too small.
    """
    for waiver, used in zip(review.panel.waivers, review.used, strict=True):
        idle = waiver.refs if used is None else tuple(ref for ref in waiver.refs if ref not in used)
        if waiver.rule not in review.rules or expired(waiver, review.today) or (used is not None and not idle):
            continue
        yield Observation(
            refs=idle,
            place=_place(review.panel, idle),
            where=waiver.where,
            subject=_named(waiver.rule, idle),
            other=_why_idle(waiver, idle, review),
        )


waiver_matches_nothing.cases(
    """
    waivers: [{rule: opening-near-edge, on: H1, why: agreed}]
    parts: [{ref: H1, part: {part: opening-circle, opening: {diameter: 4}}, at: [__, 50]}]
    """,
    fails="40",
    passes="4",
)


@rule(
    Severity.WARNING,
    says="Waiver of {subject} has expired; last day {other}",
    fix="Fix the finding, or have the waiver signed again with a later date.",
)
def waiver_expired(review: Review) -> Iterator[Observation]:
    """The last day of a waiver is past: what it accepted is open again.

    The day is that of the run: today for `panelart check`, the given date for `panelart make`. Without a date no waiver
    expires.

    Source: the waiver's `until` in the spec.
    Fix: correct the fault, or sign the waiver again.
    Fails: a waiver until 2027-01-31, checked on 2027-02-01.
    Passes: the same waiver, checked on 2027-01-31.
    """
    for waiver in review.panel.waivers:
        if waiver.rule in review.rules and expired(waiver, review.today):
            yield Observation(
                refs=waiver.refs,
                place=_place(review.panel, waiver.refs),
                where=waiver.where,
                subject=_named(waiver.rule, waiver.refs),
                other=waiver.until,
            )


waiver_expired.cases(
    """
    waivers: [{rule: opening-near-edge, on: H1, why: agreed, until: __}]
    parts: [{ref: H1, part: {part: opening-circle, opening: {diameter: 4}}, at: [4, 50]}]
    """,
    fails="2027-01-31",
    passes="2027-02-01",
    today="2027-02-01",
)


def _place(panel: Panel, refs: Sequence[str]) -> Point:
    """Where the first part is that a waiver names; the upper left corner of the face where it names none."""
    face = panel.outline.bounds
    named = (panel.by_ref[ref].at for ref in refs if ref in panel.by_ref)
    return next(named, Point(face.left, face.top))


def _named(name: str, refs: Sequence[str]) -> Said:
    return said.waiver_of(rule=name, refs=refs) if refs else name


def _why_idle(waiver: Waiver, idle: Sequence[str], review: Review) -> Message:
    """Whether an open finding names an idle ref together with others, or none names it."""
    for finding in review.open:
        if finding.rule == waiver.rule and any(ref in finding.refs for ref in idle):
            return said.finding_names_more(refs=finding.refs)
    return said.no_finding_matches()
