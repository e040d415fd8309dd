"""What is told of a command line that cannot be used: what was typed, and what is accepted."""

from panelart.messages import Count, Either, Listed, Mm, Quoted, Word, counted, message


@message
def usage_error(message: Word) -> None:
    """error: {message}"""


@message
def help_line(command: Word) -> None:
    """Help: {command} --help"""


@message
def with_hint(message: Word, hint: Word) -> None:
    """{message}. {hint}"""


@message
def of_option(option: Word, message: Word) -> None:
    """{option}: {message}"""


@message
def unknown_command(name: Quoted) -> None:
    """Unknown command {name}"""


@message
def unknown_command_near(name: Quoted, near: Quoted) -> None:
    """Unknown command {name}. Did you mean {near}?"""


@message
def unknown_option(name: Quoted) -> None:
    """Unknown option {name}"""


@message
def unknown_option_near(name: Quoted, near: Quoted) -> None:
    """Unknown option {name}. Did you mean {near}?"""


@message
def option_missing(name: Word) -> None:
    """Option {name} is required"""


@message
def argument_missing(name: Word) -> None:
    """Argument {name} is required"""


@message
def no_scheduler(address: Word) -> None:
    """No Dask scheduler answers at {address}"""


@message
def no_workers(address: Word) -> None:
    """The Dask scheduler at {address} has no workers"""


@message
def start_workers(address: Word) -> None:
    """Start workers: dask worker {address} --nworkers auto --nthreads 1"""


@counted("{count} of the Dask workers have several threads each")
def workers_of_many_threads(count: Count) -> None:
    """{count} of the Dask workers has several threads"""


@message
def workers_of_other_versions(versions: Listed, own: Word) -> None:
    """Dask workers with other versions of panelart: {versions}; here {own}"""


@message
def install_there() -> None:
    """Accepted: the same version everywhere, so that the same bytes are written"""


@message
def not_a_share(value: Quoted) -> None:
    """{value} is not a share"""


@message
def accepted_share() -> None:
    """Accepted: K/N, such as 2/8 for the second of eight"""


@message
def value_missing(option: Word) -> None:
    """Option {option} requires a value"""


@message
def value_unexpected(option: Word) -> None:
    """Option {option} takes no value"""


@message
def arguments_unexpected(words: Quoted) -> None:
    """Unexpected arguments: {words}"""


@message
def library_missing(library: Word, wanted: Quoted) -> None:
    """The Python library {library} is not installed. Install it with: pip install {wanted}"""


# --- values


@message
def either(names: Either) -> None:
    """{names}"""


@message
def accepted(names: Listed) -> None:
    """Accepted: {names}"""


@message
def options() -> None:
    """options"""


@message
def unknown_value(value: Quoted) -> None:
    """Unknown value {value}"""


@message
def not_a_length(value: Quoted) -> None:
    """{value} is not an accepted length"""


@message
def accepted_length(maximum: Mm) -> None:
    """Accepted: a length in mm, greater than 0, maximum {maximum}"""


@message
def accepted_length_with_zero(maximum: Mm) -> None:
    """Accepted: a length in mm, 0 to {maximum}"""


@message
def not_a_whole_number(value: Quoted) -> None:
    """{value} is not an accepted number"""


@message
def accepted_whole_number(minimum: Count, maximum: Count) -> None:
    """Accepted: a whole number from {minimum} to {maximum}"""


@message
def not_a_date(value: Quoted) -> None:
    """{value} is not a date"""


@message
def accepted_date() -> None:
    """Accepted: YYYY-MM-DD"""


@message
def not_a_bed(value: Quoted) -> None:
    """{value} is not a bed size"""


@message
def accepted_bed(maximum: Mm) -> None:
    """Accepted: width x height in mm, such as 600x400; maximum {maximum} a side"""


@message
def path_not_utf_8(path: Quoted) -> None:
    """The name {path} is not text in UTF-8"""


@message
def rename_file() -> None:
    """Rename the file or folder; the files made from a spec carry its name."""


@message
def wrong_ending(file: Quoted) -> None:
    """{file} has an unknown file name extension"""


@message
def exclusive(other: Word) -> None:
    """Not accepted together with {other}"""


@message
def text_only() -> None:
    """Accepted with --format text only"""


@message
def needs(other: Word) -> None:
    """Requires {other}"""
