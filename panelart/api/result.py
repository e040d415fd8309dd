"""A panel laid out and inspected: its findings, its picture, its files."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cached_property
from pathlib import Path
from typing import overload

from msgspec.structs import replace

from panelart import pipeline
from panelart.api import given
from panelart.api.given import Day, FilePath, Names
from panelart.checks import Finding, Inspection, Waived
from panelart.checks.baseline import Known, baseline_text, read_baseline
from panelart.diagnostics import Problem, Severity, SpecError, Where
from panelart.extensions import leaving_out_too
from panelart.legends.accepted import read_accepted
from panelart.legends.choose import Accepted
from panelart.messages import Message
from panelart.messages import api as of_files
from panelart.messages import reports as said
from panelart.model.layout import Layout
from panelart.model.panel import Panel
from panelart.reprs import brief, counted, mm
from panelart.spec.members import MARK


class Findings(Sequence[Finding]):
    """Findings, most serious first; a list that can be narrowed to one severity. `str` writes a line for each.

    Examples:
        >>> import panelart as pa
        >>> findings = pa.build(pa.load("demo/router-rear.yaml")).findings
        >>> findings
        Findings(3 waived)
        >>> findings.errors, bool(findings.errors)
        (Findings(none), False)
        >>> findings.waived[0].finding.rule
        'thin-web-in-cutout'
    """

    def __init__(
        self, found: Iterable[Finding], *, waived: Iterable[Waived] = (), known: Iterable[Finding] = ()
    ) -> None:
        self._found = tuple(found)
        self.waived: tuple[Waived, ...] = tuple(waived)
        """Findings that the spec accepts, each with its waiver; not among the findings."""
        self.known: tuple[Finding, ...] = tuple(known)
        """Findings that the baseline has; not among the findings."""

    @property
    def errors(self) -> Findings:
        """Those that stop a panel from being made."""
        return self.of(Severity.ERROR)

    @property
    def warnings(self) -> Findings:
        """Those that somebody should decide on."""
        return self.of(Severity.WARNING)

    @property
    def notes(self) -> Findings:
        """Those that are good to know."""
        return self.of(Severity.NOTE)

    def of(self, severity: Severity) -> Findings:
        """Those of one severity."""
        return Findings(finding for finding in self._found if finding.severity is severity)

    def on(self, ref: str) -> Findings:
        """Those that concern one part, by its ref."""
        return Findings(finding for finding in self._found if ref in finding.refs)

    @overload
    def __getitem__(self, index: int) -> Finding: ...

    @overload
    def __getitem__(self, index: slice) -> Findings: ...

    def __getitem__(self, index: int | slice) -> Finding | Findings:
        return Findings(self._found[index]) if isinstance(index, slice) else self._found[index]

    def __len__(self) -> int:
        return len(self._found)

    def __iter__(self) -> Iterator[Finding]:
        return iter(self._found)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Findings):
            return NotImplemented
        return (self._found, self.waived, self.known) == (other._found, other.waived, other.known)

    def __hash__(self) -> int:
        return hash(self._found)

    def __str__(self) -> str:
        lines = (said.finding_line(one.where, one.severity.value, one.rule, one.sentence) for one in self._found)
        return "\n".join(map(str, lines)) or repr(self)

    def __repr__(self) -> str:
        return brief("Findings", *(self.counts or ("none",)))

    @property
    def counts(self) -> tuple[str, ...]:
        """How many there are of each severity, and how many were set apart, in words."""
        open_ = [(severity.value, sum(one.severity is severity for one in self._found)) for severity in Severity]
        words = [counted(number, word) for word, number in open_ if number]
        words += [f"{len(aside)} {word}" for word, aside in (("waived", self.waived), ("known", self.known)) if aside]
        return tuple(words)


class Result:
    """A panel laid out and inspected. In a notebook it shows the picture; nothing is drawn before it is asked for.

    Two results are equal where panels, layouts, findings, placements, rules and what was left out are. One can be
    copied and pickled, for pools of processes; files that were made are then made again when they are asked for.

    Examples:
        >>> import panelart as pa
        >>> result = pa.build(pa.load("demo/router-rear.yaml"))
        >>> result
        Result('Signal router, rear', 482.6 x 132.56 mm, 27 parts, 3 waived)
        >>> result.failed
        False
        >>> opening = result.layout.openings[5]
        >>> opening
        CutOpening('XO1.2', fixing, 3.51 x 3.51 mm, [26.5, 112])
        >>> round(opening.finished.bounds.width, 3), round(opening.cut.bounds.width, 3)
        (3.5, 3.51)
    """

    def __init__(self, built: pipeline.Built, *, without: Sequence[str] = ()) -> None:
        self.built = built
        """The same as the stages have it."""
        self.without = tuple(without)
        """The extensions that were left out."""

    def __getstate__(self) -> dict[str, object]:
        return {"built": self.built, "without": self.without}  # what is worked out from these is left behind

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Result):
            return NotImplemented
        return (self.built, self.without) == (other.built, other.without)

    def __hash__(self) -> int:
        return hash((self.panel, self.placement))

    @property
    def panel(self) -> Panel:
        """What was built."""
        return self.built.layout.panel

    @property
    def layout(self) -> Layout:
        """The panel with its openings cut and its legends placed; all places in mm from the lower-left corner."""
        return self.built.layout

    @cached_property
    def findings(self) -> Findings:
        """What the rules found, most serious first."""
        inspection = self.built.inspection
        return Findings(inspection.findings, waived=inspection.waived, known=inspection.known)

    @property
    def inspection(self) -> Inspection:
        """The same with its panel, as rules and reports take it."""
        return self.built.inspection

    @property
    def failed(self) -> bool:
        """Whether a finding is at error level."""
        return self.built.inspection.failed

    @property
    def placement(self) -> bytes:
        """Where the legends are, as a file that is saved beside the spec holds them; what `build` takes."""
        return self.built.placement

    @property
    def baseline(self) -> str:
        """All open and known findings as the text of a baseline file."""
        return baseline_text((*self.built.inspection.findings, *self.built.inspection.known))

    @cached_property
    def files(self) -> Mapping[str, bytes]:
        """Every file by name, undated; each is made when it is first asked for, and kept."""
        return pipeline.panel_files(self.built)

    def write(self, folder: FilePath, *, only: Names = (), date: Day = "", rear: bool = False) -> tuple[Path, ...]:
        """Write files into a folder, which is made if there is none: all of them, or none.

        Args:
            folder: Files of the same names in it are replaced, others are left.
            only: What is written, instead of every file: names of files (`cutouts.dxf`), of documents in every format
                (`proof`), of families (`film`); a `str` is one name. Nothing is made for the others.
            date: The day that is printed on the proof and kept in the PDFs (YYYY-MM-DD, or a date); "" for none.
            rear: Whether the cut layer is written as seen from behind as well.

        Returns:
            The paths of the files, in the order in which they are made.

        Raises:
            NoSuchDocumentError: The panel has no file of a name; the reason and what is accepted are told.
            OSError: A file could not be written. The folder is then as it was.
            TypeError, ValueError: An argument is of another type, the date is none. Nothing was made then.

        Examples:
            >>> import pathlib, tempfile, panelart as pa
            >>> result = pa.build(pa.load("demo/router-rear.yaml"))
            >>> with tempfile.TemporaryDirectory() as folder:
            ...     [path.name for path in result.write(folder, only=["cutouts", "holes.csv"])]
            ['cutouts.dxf', 'cutouts.svg', 'cutouts.pdf', 'holes.csv']
        """
        from panelart.writers import write_all

        place, day = given.path(folder, "folder"), given.day(date, "date")
        wanted = given.names(only, "only", "cutouts.dxf")
        with leaving_out_too(self.without):
            files = pipeline.write(self.built, date=day, rear=rear, only=wanted)
        write_all(files, place)
        return tuple(place / name for name in files)

    def _repr_svg_(self) -> str:
        """The panel as it will look, for notebooks."""
        return self.files["panel.svg"].decode("utf-8")

    def _repr_png_(self) -> bytes:
        """The same in pixels."""
        return self.files["panel.png"]

    def __repr__(self) -> str:
        counts = self.findings.counts
        return brief("Result", *described(self.panel), *(counts or ("no findings",)))


def described(panel: Panel) -> tuple[str, ...]:
    """What tells a panel apart, in short."""
    width, height = panel.size
    return repr(panel.title), f"{mm(width)} x {mm(height)} mm", counted(len(panel.parts), "part")


def build(
    panel: Panel,
    *,
    placement: FilePath | bytes | None = None,
    ignore_placement: bool = False,
    today: Day = "",
    baseline: FilePath | None = None,
    without: Names = (),
) -> Result:
    """Lay a panel out and inspect it, as `panelart make` does.

    Args:
        panel: What `load` gave; a path, a text or data is loaded first.
        placement: Where its legends were before: a file, or what `Result.placement` gave. Without one, the file that is
            saved beside the spec is taken, if the panel was loaded from a file and there is one.
        ignore_placement: Whether a placement that is saved beside the spec is ignored.
        today: The day that ends waivers whose last day is past (YYYY-MM-DD, or a date); "" ends none.
        baseline: A file of findings that are known, which are set apart.
        without: Names of installed packages whose rules and documents are left out; the proof and the report say so. A
            `str` is one name.

    Raises:
        SpecError: Something cannot be laid out (a letter that a font does not have, a coat that fills an opening), or
            a file of placement or baseline is none. An ExtensionError, which is a SpecError, where an installed package
            with rules of its own cannot be loaded or fails, or one that is to be left out is not there.
        OSError: A file of placement that was given cannot be read, or a path has a null character.
        TypeError, ValueError: An argument is of another type, the date is none.

    Examples:
        The smallest width of a panel at which four sockets have no error:

        >>> import panelart as pa
        >>> def row(width: float) -> dict[str, object]:
        ...     sockets = [
        ...         {"ref": f"J{n}", "part": "socket-4", "at": [width * (2 * n - 1) / 8, 20]} for n in (1, 2, 3, 4)
        ...     ]
        ...     return {
        ...         "panelart": 1,
        ...         "panel": {"title": "Outlets", "size": [width, 40], "sheet": {"material": "steel", "thickness": 2}},
        ...         "marking": {"process": "digital-print", "ink": {"name": "black", "colour": "#000000"}},
        ...         "parts": sockets,
        ...     }
        >>> next(width for width in range(66, 90, 2) if not pa.build(pa.load(row(width))).failed)
        74
    """
    given.panel(panel)
    day, left_out = given.day(today, "today"), given.names(without, "without", "house-rules")
    known = None if baseline is None else _known(given.path(baseline, "baseline"))
    accepted = _accepted(panel, placement, ignore=ignore_placement)
    with leaving_out_too(left_out):
        return Result(pipeline.build(panel, accepted, today=day, baseline=known), without=left_out)


def _known(file: Path) -> Known:
    """The findings of a baseline file. Raises SpecError when it is none, or cannot be read."""
    try:
        text = file.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        reason = (getattr(error, "strerror", None) or str(of_files.not_text())).lower()
        unreadable = of_files.baseline_unreadable(reason)
        where = Where(file.as_posix(), 1, 1)
        raise SpecError([Problem(where=where, says=unreadable, accepts=of_files.accepted_baseline())]) from error
    return read_baseline(text, file.as_posix())


def _accepted(panel: Panel, placement: FilePath | bytes | None, *, ignore: bool) -> Mapping[str, Accepted] | None:
    """Where legends were before, from what was given, else from beside the spec."""
    if isinstance(placement, bytes):
        return _places(placement, Where("placement", 1, 1, "placement"), of_files.accepted_placement())
    if placement is not None:
        saved = given.path(placement, "placement")
        return _places(saved.read_bytes(), Where(saved.as_posix(), 1, 1), of_files.accepted_placement())
    file = Path(panel.where.file)
    if ignore or not file.is_file():
        return None
    spec = file.with_name(f"{file.name}{MARK}{panel.member}") if panel.member else file
    beside = pipeline.placement_path(spec)
    if not beside.is_file():
        return None
    return _places(beside.read_bytes(), Where(beside.as_posix(), 1, 1), of_files.save_or_ignore_placement())


def _places(data: bytes, where: Where, accepts: Message) -> Mapping[str, Accepted]:
    """The places of a placement. Raises SpecError when it is none, with what a program can do about it."""
    try:
        return read_accepted(data, where.file)
    except SpecError as error:
        raise SpecError(replace(one, where=where, accepts=accepts) for one in error.problems) from error
