"""`panelart inspect`: measured values against the panel: in or out, and how capable the making is."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from panelart.canonical import Struct
from panelart.cli.declaring import command, option
from panelart.cli.exits import EXIT_FINDINGS, end
from panelart.cli.options import YAML, Spec
from panelart.cli.tables import reason_of
from panelart.cli.usage import refuse, refuse_name
from panelart.cli.values import DAY, file, text
from panelart.messages import Message, Said, cli_usage
from panelart.messages import cli_help_panel as help_
from panelart.messages import cli_lists as said
from panelart.messages.errors import said_by

if TYPE_CHECKING:
    from panelart.model.component import Component
    from panelart.model.panel import Panel
    from panelart.sheets.inspection import Characteristic, Measured, Verdict
    from panelart.sheets.proving import Trial


@command(help_.inspect_means(), extensions=True)
def inspect(
    spec: Spec,
    measured: Annotated[Path, option("--measured", help_.measured_sizes(), file(".csv"))],
    prove: Annotated[Path | None, option("--prove", help_.prove(), file(*YAML))] = None,
    by: Annotated[str, option("--by", help_.proved_by(), text("NAME"))] = "",
    fitted: Annotated[str, option("--fitted", help_.fitted(), text("REFS|all"))] = "",
    date: Annotated[str, option("--date", help_.date_of_proof(), DAY)] = "",
) -> None:
    """Evaluate measured sizes against their limits."""
    from panelart.pipeline import read

    if prove is None:
        _refuse_without_part_file(by, fitted, date)
    else:
        _refuse_unsigned(by, fitted)
    panel = read(spec)
    done = _inspected(panel, measured)
    _print_verdicts(panel, done)
    if prove is not None:
        _prove(panel, done, prove, _refs(panel, fitted), by.strip(), date or _today())
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


def _refuse_unsigned(by: str, fitted: str) -> None:
    """A part is proved by somebody, who says what was fitted. Raises Refused where one of them is not told."""
    if not (by.strip() and fitted.strip()):
        refuse("--prove", cli_usage.needs("--by" if not by.strip() else "--fitted"))


def _refuse_without_part_file(by: str, fitted: str, date: str) -> None:
    """What only a proof needs is of no use where none is written. Raises Refused."""
    if by or fitted or date:
        refuse("--by" if by else "--fitted" if fitted else "--date", cli_usage.needs("--prove"))


def _print_verdicts(panel: Panel, done: _Inspected) -> None:
    """Tell each measure with its limits, then how many were in, out and not measured."""
    if done.others:
        print(said.measured_for_others(done.others, panel.fingerprint))
    for verdict in done.verdicts:
        print(_line(verdict))
    left = done.not_measured
    print(said.inspected(said.values(done.count), done.out, len(left), len(done.wanted)))
    if done.count and left:
        print(said.not_measured(left))


def _today() -> str:
    return dt.datetime.now(tz=dt.UTC).astimezone().date().isoformat()


def _refs(panel: Panel, fitted: str) -> frozenset[str]:
    """The refs that were fitted. Raises Refused for one that the panel does not have."""
    from panelart.cutouts.hardware import components

    known = [ref for ref, _, _ in components(panel)]
    if fitted.strip() == "all":
        return frozenset(known)
    refs = [ref.strip() for ref in fitted.split(",") if ref.strip()]
    for ref in refs:
        if ref not in known:
            refuse_name(said.unknown_ref(ref), ref, known, said.refs_of_panel())
    return frozenset(refs)


def _prove(panel: Panel, done: _Inspected, file: Path, fitted: frozenset[str], by: str, date: str) -> None:
    """Mark the parts that the inspection proves in a part file, and say of the others why not."""
    from panelart import catalogue
    from panelart.catalogue.proving import Proof, rows_of_families, with_proved
    from panelart.pipeline import lay_out
    from panelart.sheets.proving import trials
    from panelart.writers import write_all

    if done.out or done.others:
        print(said.nothing_proved_out() if done.out else said.nothing_proved_other_state())
        return
    before = _part_file(file)
    own = _own_parts(before, file)
    rows = rows_of_families(before, file, catalogue.component)

    def named(name: str) -> Component | None:
        if name in own:
            return own[name]
        return catalogue.component(name) if name in catalogue.names() else None

    tried = trials(lay_out(panel), done.wanted, done.verdicts, fitted, named)
    proved = [trial for trial in tried if trial.why is None and trial.name not in rows]
    _print_trials(tried, proved)
    if not proved:
        print(said.nothing_proved())
        return
    proof = Proof(by=by, panel=_panel_of_proof(panel), date=date)
    after = with_proved(before, file, [trial.name for trial in proved], proof, catalogue.component)
    write_all({file.name: after.encode("utf-8")}, file.parent)
    print(said.proved_written(len(proved), file.as_posix()))


def _own_parts(before: str, file: Path) -> Mapping[str, Component]:
    """The parts that a part file has already, by name. Raises SpecError."""
    from panelart import catalogue

    if not before.strip():
        return {}
    return catalogue.read_contents(before.encode(), file.as_posix(), catalogue.component).components


def _print_trials(tried: Sequence[Trial], proved: Sequence[Trial]) -> None:
    """Tell of each part that was fitted whether it is proved, and why where it is not."""
    for trial in tried:
        if trial in proved:
            print(said.part_proved(trial.name, trial.ref))
        else:
            print(said.part_not_proved(trial.name, trial.ref, trial.why or said.row_of_family()))


def _panel_of_proof(panel: Panel) -> str:
    """What a proof calls the panel that it was made on: its number and revision, else its title."""
    return " ".join(text for text in (panel.number, panel.revision) if text) or panel.title


def _part_file(file: Path) -> str:
    """The text of the part file, '' where there is none yet. Raises SpecError and OSError."""
    try:
        return file.read_bytes().decode("utf-8") if file.exists() else ""
    except UnicodeDecodeError:
        from panelart.diagnostics import Problem, SpecError, Where

        raise SpecError([Problem(where=Where(file.as_posix(), 1, 1), says=said.part_file_not_text())]) from None


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
