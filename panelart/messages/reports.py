"""The reports of findings and errors, in text and for other programs."""

from panelart.messages import Count, Each, Listed, PointMm, PointsMm, SizeMm, Word, counted, message

# --- the summary


@counted("{count} errors")
def errors(count: Count) -> None:
    """{count} error"""


@counted("{count} warnings")
def warnings(count: Count) -> None:
    """{count} warning"""


@counted("{count} notes")
def notes(count: Count) -> None:
    """{count} note"""


@counted("{count} waived")
def waived_count(count: Count) -> None:
    """{count} waived"""


@counted("{count} in the baseline")
def known_count(count: Count) -> None:
    """{count} in the baseline"""


@message
def summary(counts: Listed, file: Word) -> None:
    """{counts} in {file}"""


@message
def summary_aside(summary: Word, aside: Listed) -> None:
    """{summary} ({aside})"""


@message
def no_findings(file: Word) -> None:
    """No findings in {file}"""


@message
def errors_in_files(errors: Word, files: Each) -> None:
    """{errors} in {files}"""


@message
def checked(things: Listed) -> None:
    """Checked: {things}"""


@counted("{count} parts")
def parts(count: Count) -> None:
    """{count} part"""


@counted("{count} openings")
def openings(count: Count) -> None:
    """{count} opening"""


@counted("{count} legends")
def legends(count: Count) -> None:
    """{count} legend"""


@counted("{count} rules")
def rules(count: Count) -> None:
    """{count} rule"""


# --- a finding, and what stops a command


@message
def error_in_file(where: Word, severity: Word, message: Word) -> None:
    """{where}: {severity}: {message}"""


@message
def error() -> None:
    """error"""


@message
def warning() -> None:
    """warning"""


@message
def note() -> None:
    """note"""


@message
def waived() -> None:
    """waived"""


@message
def house() -> None:
    """house"""


@message
def finding_line(where: Word, severity: Word, rule: Word, sentence: Word) -> None:
    """{where}: {severity}: {rule}: {sentence}"""


@message
def place_line(place: Word, number: Count) -> None:
    """place: {place} (no. {number} on the proof)"""


@message
def limit_line(bound: Word, limit: Word, origin: Word) -> None:
    """limit: {bound} {limit} ({origin})"""


@message
def fix_line(fix: Word) -> None:
    """fix: {fix}"""


@message
def ref_at(ref: Word, places: PointsMm) -> None:
    """{ref} at {places}"""


@message
def refs_at(refs: Listed, place: PointMm) -> None:
    """{refs} at {place}"""


@message
def refs(refs: Listed) -> None:
    """{refs}"""


@message
def at(place: PointMm) -> None:
    """at {place}"""


@message
def refs_at_box(refs: Listed, place: PointMm, size: SizeMm) -> None:
    """{refs} at {place}, {size}"""


@message
def at_box(place: PointMm, size: SizeMm) -> None:
    """at {place}, {size}"""


@counted("{count} more")
def more_places(count: Count) -> None:
    """{count} more"""


@message
def minimum() -> None:
    """minimum"""


@message
def maximum() -> None:
    """maximum"""


@message
def origin(source: Word, standing: Word) -> None:
    """{source}; {standing}"""


@message
def common_practice() -> None:
    """common practice"""


@message
def from_memory() -> None:
    """from memory"""


@message
def given() -> None:
    """your own"""


# --- waivers and the house


@message
def reason_line(reason: Word, where: Word) -> None:
    """reason: {reason} ({where})"""


@message
def reason_line_signed(reason: Word, where: Word, signed: Listed) -> None:
    """reason: {reason} ({where}, {signed})"""


@message
def waived_line(where: Word, rule: Word, refs: Word, reason: Word) -> None:
    """{where}: waived: {rule}: {refs}: {reason}"""


@message
def waived_line_signed(where: Word, rule: Word, refs: Word, reason: Word, signed: Listed) -> None:
    """{where}: waived: {rule}: {refs}: {reason} ({signed})"""


@message
def waiver_until(day: Word) -> None:
    """until {day}"""


@message
def waiver_by(person: Word) -> None:
    """by {person}"""


@message
def whole_panel() -> None:
    """panel"""


@message
def house_line(where: Word, name: Word, now: Word, was: Word, reason: Word) -> None:
    """{where}: house: {name}: {now}, not {was}: {reason}"""


@message
def part_replaced(file: Word, part: Word, refs: Listed) -> None:
    """{file}: part {part} has figures of its own that replace those of the catalogue ({refs})"""


# --- the table of notes


@message
def rule_column() -> None:
    """rule"""


@message
def count_column() -> None:
    """count"""


@message
def refs_column() -> None:
    """refs"""


@message
def note_column() -> None:
    """note"""


@message
def more_refs(count: Count) -> None:
    """+{count}"""


# --- what was written


@message
def station_line(station: Word, files: Word) -> None:
    """{station}: {files}"""


# --- for other programs


@message
def finding_with_fix(sentence: Word, fix: Word) -> None:
    """{sentence}. Fix: {fix}"""


@message
def finding_log_line(where: Word, severity: Word, sentence: Word, fix: Word) -> None:
    """{where}: {severity}: {sentence}. Fix: {fix}"""


@message
def problem_with_hint(message: Word, hint: Word) -> None:
    """{message}. {hint}"""


@message
def problem_alone(message: Word) -> None:
    """{message}."""


@message
def spec_unreadable() -> None:
    """The spec cannot be read, or names something that does not exist."""


@message
def suite(title: Word) -> None:
    """panelart: {title}"""
