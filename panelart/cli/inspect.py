"""`panelart inspect`: measured values against the panel: in or out, and how capable the making is."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from panelart.canonical import Struct
from panelart.cli.declaring import command, option
from panelart.cli.exits import EXIT_FINDINGS, end
from panelart.cli.options import Spec
from panelart.cli.tables import reason_of
from panelart.cli.usage import refuse
from panelart.cli.values import file
from panelart.messages import Message, Said
from panelart.messages import cli_help_panel as help_
from panelart.messages import cli_lists as said
from panelart.messages.errors import said_by

if TYPE_CHECKING:
    from panelart.model.panel import Panel
    from panelart.sheets.inspection import Characteristic, Measured, Verdict


@command(help_.inspect_means(), extensions=True)
def inspect(
    spec: Spec,
    measured: Annotated[Path, option("--measured", help_.measured_sizes(), file(".csv"))],
) -> None:
    """Evaluate measured sizes against their limits."""
    from panelart.pipeline import read

    panel = read(spec)
    done = _inspected(panel, measured)
    if done.others:
        print(said.measured_for_others(done.others, panel.fingerprint))
    for verdict in done.verdicts:
        print(_line(verdict))
    left = done.not_measured
    print(said.inspected(said.values(done.count), done.out, len(left), len(done.wanted)))
    if done.count and left:
        print(said.not_measured(left))
    if done.out:
        end(EXIT_FINDINGS)


class _Inspected(Struct, frozen=True, kw_only=True):
    """The verdicts on `count` measured values, and what is `wanted`; `others` are the specs of other panels' values."""

    wanted: Sequence[Characteristic]
    verdicts: Sequence[Verdict]
    count: int
    others: Sequence[str]

    @property
    def out(self) -> int:
        """How many values are out of their limits."""
        return sum(len(verdict.out) for verdict in self.verdicts)

    @property
    def not_measured(self) -> list[str]:
        """The characteristics without a value, by feature and measure."""
        known = {verdict.characteristic.key for verdict in self.verdicts}
        return [" ".join(one.key) for one in self.wanted if one.key not in known]


def _inspected(panel: Panel, measured: Path) -> _Inspected:
    """The panel held against a table of measured values. Raises Refused for a table that cannot be used."""
    from panelart.pipeline import lay_out
    from panelart.sheets.inspection import MeasuredError, characteristics, judged, read_measured, specs_of

    try:
        data = measured.read_bytes()
        values, others = read_measured(data), [spec for spec in specs_of(data) if spec != panel.fingerprint]
        wanted = characteristics(lay_out(panel))
        verdicts = judged(wanted, values)
    except OSError as error:
        refuse("", said.measured_unreadable(measured, reason_of(error)))
    except MeasuredError as error:
        refuse("", said.measured_unusable(measured, said_by(error)))
    return _Inspected(wanted=wanted, verdicts=verdicts, count=len(values), others=others)


def _line(verdict: Verdict) -> Message:
    one = verdict.characteristic
    limits = _limit(one.minimum), _limit(one.maximum)
    mean = f"{verdict.mean:.3f}"
    facts: list[Said] = [said.size_mean_by(mean, *limits, one.by) if verdict.out else said.size_mean(mean, *limits)]
    if len(verdict.values) > 1:
        facts.append(said.pieces(len(verdict.values)))
    if verdict.cp is not None and verdict.cpk is not None:
        facts += [said.capability(f"{verdict.cp:.2f}"), said.capability_of_mean(f"{verdict.cpk:.2f}")]
    if not verdict.out:
        return said.size_within(one.feature, one.measure, facts)
    return said.size_out(one.feature, one.measure, facts, [_piece(one, value) for value in verdict.out])


def _piece(one: Characteristic, value: Measured) -> Message:
    """A value that is out, and by how much."""
    if one.maximum is not None and value.value > one.maximum:
        return said.piece_too_large(value.piece, f"{value.value:g}", f"{value.value - one.maximum:.4g}")
    assert one.minimum is not None, "a value is out of a limit that is known"
    return said.piece_too_small(value.piece, f"{value.value:g}", f"{one.minimum - value.value:.4g}")


def _limit(value: float | None) -> Said:
    return said.limit_open() if value is None else f"{value:g}"
