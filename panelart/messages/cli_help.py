"""The help of commands: the program, and the arguments and options that several commands have."""

from panelart.messages import Word, message

# --- the program


@message
def program() -> None:
    """Front panels from one YAML spec: checked cutouts, placed legends, artwork and documents."""


@message
def version() -> None:
    """Print the version and exit."""


@message
def help_option() -> None:
    """Print this help and exit."""


@message
def completion() -> None:
    """Print the completion script for a shell."""


@message
def completion_bash() -> None:
    """For bash, add this line to ~/.bashrc: eval "$(panelart completion bash)"."""


@message
def completion_zsh() -> None:
    """For zsh, add this line to ~/.zshrc, after compinit: eval "$(panelart completion zsh)"."""


@message
def completion_fish() -> None:
    """For fish, type once: panelart completion fish > ~/.config/fish/completions/panelart.fish."""


@message
def shell() -> None:
    """Shell: bash, zsh or fish."""


# --- layout


@message
def usage() -> None:
    """Usage:"""


@message
def usage_options() -> None:
    """[OPTIONS]"""


@message
def usage_command() -> None:
    """COMMAND [ARGUMENTS]"""


@message
def arguments_heading() -> None:
    """Arguments"""


@message
def options_heading() -> None:
    """Options"""


@message
def commands_heading() -> None:
    """Commands"""


@message
def default(says: Word, value: Word) -> None:
    """{says} [default: {value}]"""


@message
def required(says: Word) -> None:
    """{says} [required]"""


# --- arguments


@message
def specs_or_folders() -> None:
    """Specs of panels (YAML), folders of them, or patterns such as 'panels/*.yaml'; FILE#NAME selects one panel."""


@message
def every_spec() -> None:
    """With several specs: work also on those unchanged since the last run."""


@message
def cluster() -> None:
    """With several specs: hand the work to the Dask scheduler at ADDRESS."""


@message
def shard() -> None:
    """With several specs: work on share K of N only, one share for each machine."""


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
def without() -> None:
    """Extension to omit; may be repeated. The proof and the reports name it."""


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
