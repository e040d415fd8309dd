"""The help of commands: the program, and the arguments and options that several commands have."""

from panelart.messages import Word, message

# --- the program


@message
def program() -> None:
    """Front panels from one YAML spec: checked cutouts, placed legends, artwork and documents."""


@message
def version() -> None:
    """Print the version and exit."""


# --- arguments


@message
def spec() -> None:
    """Spec of the panel (YAML); FILE#NAME selects one panel of several."""


@message
def specs() -> None:
    """Specs of the panels (YAML)."""


@message
def process() -> None:
    """Marking process."""


# --- options


@message
def output_folder() -> None:
    """Output folder."""


@message
def output_folder_or_name() -> None:
    """Output folder (default: the name of the spec)."""


@message
def output_folder_or_dry_run() -> None:
    """Output folder (omit for a dry run)."""


@message
def output_file(formats: Word) -> None:
    """Output file ({formats})."""


@message
def output_drawing() -> None:
    """Output file of the drawing (.svg, .pdf or .png)."""


@message
def date_in_files() -> None:
    """Date in the documents (default: none)."""


@message
def shop() -> None:
    """Shop file; overrides `marking.shop`."""


@message
def ignore_placement() -> None:
    """Ignore the saved placement (.placement.json)."""


@message
def format_of_findings() -> None:
    """Output format: text, or JSON, SARIF or JUnit XML for other programs."""


@message
def format_text_or_json() -> None:
    """Output format: text, or JSON for other programs."""


@message
def quiet() -> None:
    """Print errors and warnings only, one line each; nothing if there are none."""


@message
def verbose() -> None:
    """Print also what was checked, and all notes and waived findings in full."""


@message
def verbose_make() -> None:
    """Print also what was checked, all notes and waived findings in full, and the files for each station."""


@message
def catalogue() -> None:
    """Part file of your own, relative to the spec; may be repeated."""


@message
def grid() -> None:
    """Placement grid: a step in mm, inch or HP."""


@message
def bed() -> None:
    """Bed size in mm, such as 600x400."""


@message
def viewing_distance() -> None:
    """Viewing distance."""


# --- exit codes


@message
def exit_1_for_errors() -> None:
    """Exit code 1 if there are findings at error level."""
