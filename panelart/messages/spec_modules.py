"""What is said of modules: their parameters, where they are placed, and what repeats and modules hold."""

from panelart.messages import Count, Degrees, Listed, Quoted, Word, message


@message
def modules() -> None:
    """modules"""


@message
def in_module(message: Word, module: Quoted, where: Word) -> None:
    """{message} (in module {module} placed at {where})"""


@message
def of_parameter(message: Word, parameter: Quoted, module: Quoted, where: Word) -> None:
    """{message} (parameter {parameter} of module {module}, declared at {where})"""


@message
def unknown_module(module: Quoted) -> None:
    """Unknown module {module}"""


@message
def no_modules() -> None:
    """The spec has no modules. Write them under 'modules', by name."""


@message
def module_not_in_file(file: Quoted, module: Quoted) -> None:
    """File {file} has no module {module}"""


@message
def module_file_unreadable(file: Quoted, reason: Word) -> None:
    """Module file {file} cannot be read: {reason}"""


@message
def files_in_circle(file: Quoted, module: Quoted) -> None:
    """Module files name each other for module {module}: {file} again"""


@message
def write_module_there() -> None:
    """Write the module in one of the files."""


@message
def module_in_itself(chain: Listed) -> None:
    """Module placed within itself: {chain}"""


@message
def other_module() -> None:
    """Remove this module from its own parts, or place another one."""


@message
def modules_too_deep(maximum: Count) -> None:
    """More than {maximum} modules within each other"""


@message
def fewer_modules_within() -> None:
    """Place modules side by side."""


@message
def unknown_parameter(module: Quoted, parameter: Quoted) -> None:
    """Module {module} has no parameter {parameter}"""


@message
def parameters() -> None:
    """parameters"""


@message
def no_parameters(module: Quoted) -> None:
    """Module {module} has no parameters; remove 'with'."""


@message
def parameter_twice(parameter: Quoted) -> None:
    """Parameter {parameter} is written twice"""


@message
def missing_parameters(module: Quoted, parameters: Listed, where: Word) -> None:
    """Module {module} needs a value for {parameters}, declared at {where}"""


@message
def write_with(written: Word) -> None:
    """Add `with: {written}`."""


@message
def parameter_name_reserved(name: Quoted) -> None:
    """Parameter {name} has the name of a way to set words"""


@message
def name_of_parameter(name: Quoted) -> None:
    """{name} is a parameter of the module"""


@message
def parameter_without_quotes(name: Word) -> None:
    """Braces without quotes: {{{name}}}"""


@message
def quote_parameter(name: Word) -> None:
    """Write "{{{name}}}", in quotes."""


@message
def names_of_module(module: Quoted, names: Listed) -> None:
    """In module {module}, accepted names in braces: {names}; a number of a copy outside must be a parameter."""


@message
def turn_not_quarter(turn: Degrees) -> None:
    """Rotation of the module is {turn}"""


@message
def quarter_turns() -> None:
    """Accepted: 0, 90, 180, 270 and -90 degrees"""


@message
def module_beside_part(way: Quoted) -> None:
    """Module placed by {way}, which needs the area that it covers"""


@message
def module_by_origin() -> None:
    """A module is placed by its origin: use `from` and `by`."""


@message
def edge_within_module(edge: Quoted) -> None:
    """Position in a module is measured from {edge}, which is of the panel"""


@message
def within_module() -> None:
    """Accepted: positions from the origin of the module, or from its parts"""


@message
def ref_of_copies(ref: Quoted, module: Quoted, places: Listed) -> None:
    """Ref {ref} of module {module} on several parts: placed at {places}"""


@message
def prefix_or_parameter(prefix: Word) -> None:
    """Give each place a `prefix` such as `{prefix}`, or the refs of the module a parameter, such as a number."""


@message
def ref_unusable(ref: Quoted, maximum: Count) -> None:
    """Ref {ref} is longer than {maximum} characters or has several lines"""


@message
def shorter_ref() -> None:
    """Shorten the prefix, the values of parameters or the ref."""


@message
def holds_nothing(what: Quoted) -> None:
    """{what} holds nothing"""


@message
def hold_something(keys: Listed) -> None:
    """Accepted: one or more of {keys}"""


@message
def too_many_things(things: Word, maximum: Count) -> None:
    """Copies and modules make more than {maximum} {things}"""


@message
def fewer_copies_or_modules() -> None:
    """Reduce the number of copies and modules."""


@message
def copies() -> None:
    """copies"""


@message
def module_in_turned_ring() -> None:
    """Module in a ring that rotates its members"""


@message
def ring_facing_up() -> None:
    """Accepted: a ring with `facing: up`, or parts"""


@message
def bracket_turned() -> None:
    """Bracket in a module with a rotation of 90°"""


@message
def frame_instead() -> None:
    """Use a frame, or no rotation."""


@message
def legend_at_turned() -> None:
    """Legend with 'at' in a module with a rotation of 90°"""


@message
def side_instead() -> None:
    """Use 'place' instead of 'at'."""


@message
def part_of_module(ref: Quoted) -> None:
    """Part {ref} is written in a module, with no line of its own"""
