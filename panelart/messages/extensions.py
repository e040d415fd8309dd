"""What is said of extensions: packages installed beside this one that bring rules, processes, documents or parts."""

from panelart.messages import Listed, Quoted, Word, message

# --- what is wrong with one


@message
def not_loaded(extension: Word, entry: Word, reason: Word) -> None:
    """Extension {extension} cannot be loaded: entry point {entry}: {reason}"""


@message
def leave_out(extension: Word) -> None:
    """Install a version that can be used, or omit it with `--without {extension}`, in a program with `without`."""


@message
def entries_unreadable(extension: Word, reason: Word) -> None:
    """Entry points of {extension} cannot be read: {reason}"""


@message
def entry_without_value(extension: Word, line: Quoted) -> None:
    """Entry points of {extension}: {line} is not of the form `name = module:object`"""


@message
def raised(kind: Word, reason: Word) -> None:
    """{kind}: {reason}"""


@message
def no_constant_in_module(module: Word, name: Word) -> None:
    """module {module} has no {name}"""


@message
def no_rule_in_module(module: Word) -> None:
    """module {module} has no rule"""


@message
def not_a_rule(found: Word) -> None:
    """{found} is neither a rule nor a module with rules"""


@message
def two_rules(rule: Word) -> None:
    """two rules have the name {rule}"""


@message
def two_limits(limit: Word) -> None:
    """two limits have the name {limit}"""


@message
def limit_unknown(rule: Word, limit: Quoted) -> None:
    """rule {rule} reads limit {limit}, which is unknown"""


@message
def not_a_process(found: Word) -> None:
    """{found} is neither a process nor a module with PROCESS"""


@message
def not_a_name(name: Quoted) -> None:
    """name {name} is not of small letters, digits and hyphens"""


@message
def not_a_figure(name: Word) -> None:
    """{name} is not a figure of 0 or more"""


@message
def not_an_output(found: Word) -> None:
    """{found} is not an output, or is given twice"""


@message
def figures_missing(output: Word, figures: Listed) -> None:
    """{output} needs figures that are not given: {figures}"""


@message
def two_processes(process: Word) -> None:
    """two processes have the name {process}"""


@message
def not_a_document(found: Word) -> None:
    """{found} is neither a document nor a module with DOCUMENTS"""


@message
def not_a_file_name(name: Quoted) -> None:
    """name {name} cannot be the name of a file"""


@message
def document_without(document: Word, what: Word) -> None:
    """document {document} has no valid {what}"""


@message
def result_unknown(document: Word, result: Word) -> None:
    """document {document} is made from {result}, which nothing gives"""


@message
def two_documents(file: Word) -> None:
    """another document writes {file}"""


@message
def two_of_process(process: Word, file: Word) -> None:
    """files of process {process} are called {file}, as those of another document are"""


@message
def not_a_part_file(found: Word) -> None:
    """{found} is neither a path of a part file nor a module with PARTS"""


@message
def part_file_unreadable(file: Word, reason: Word) -> None:
    """part file {file} cannot be read: {reason}"""


@message
def part_file_wrong(file: Quoted) -> None:
    """part file {file} has errors"""


@message
def part_taken(file: Quoted, part: Word) -> None:
    """part file {file} defines {part}, which the catalogue has"""


@message
def part_of_other(file: Quoted, part: Word, extension: Word) -> None:
    """part file {file} defines {part}, which extension {extension} has"""


@message
def process_failed(process: Word, reason: Word) -> None:
    """Process {process} failed: {reason}"""


@message
def document_failed(document: Word, reason: Word) -> None:
    """Document {document} failed: {reason}"""


@message
def not_a_sentence(found: Word) -> None:
    """{found} is not a sentence"""


@message
def not_a_purchase(found: Word) -> None:
    """{found} is not a purchase"""


@message
def not_bytes(file: Word, found: Word) -> None:
    """{file} is {found}, not bytes"""


@message
def rule_failed(rule: Word, reason: Word) -> None:
    """Rule {rule} failed: {reason}"""


@message
def unknown(name: Quoted) -> None:
    """Unknown extension {name}"""


@message
def extensions() -> None:
    """extensions"""


# --- what was omitted


@message
def checked_without(extensions: Listed) -> None:
    """Checked without {extensions} (omitted by `--without`)"""
