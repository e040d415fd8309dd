"""What is said of extensions: packages installed beside this one that bring rules, processes, documents or parts."""

from panelart.messages import Listed, Quoted, Word, message

# --- what is wrong with one


@message
def not_loaded(extension: Word, entry: Word, reason: Word) -> None:
    """Extension {extension} cannot be loaded: entry point {entry}: {reason}"""


@message
def leave_out(extension: Word) -> None:
    """Install a version that can be used, or omit it with `--without {extension}`."""


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
