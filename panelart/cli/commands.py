"""The table of commands. Nothing of a command is imported before it is typed: help needs no more than this."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, NamedTuple

from panelart.messages import Declared, cli_help
from panelart.messages import cli_help_lists as of_lists
from panelart.messages import cli_help_panel as of_panels
from panelart.messages import cli_help_press as of_press


class Entry(NamedTuple):
    """The module of this package that has the command as a function of its name, and what help says of it."""

    module: str
    says: Declared[[]]


COMMANDS: Final[Mapping[str, Entry]] = {
    "draft": Entry("draft", of_lists.draft),
    "arrange": Entry("draft", of_lists.arrange),
    "check": Entry("check", of_panels.check),
    "make": Entry("make", of_panels.make),
    "view": Entry("view", of_panels.view),
    "compare": Entry("compare", of_panels.compare),
    "outdated": Entry("outdated", of_panels.outdated),
    "sightlines": Entry("sightlines", of_panels.sightlines),
    "legibility": Entry("legibility", of_panels.legibility),
    "bom": Entry("bom", of_panels.bom),
    "drill-template": Entry("drill_template", of_panels.drill_template),
    "inspect": Entry("inspect", of_panels.inspect),
    "register": Entry("register", of_press.register),
    "bed": Entry("bed", of_press.bed),
    "test-strip": Entry("test_strip", of_press.test_strip),
    "test-cut": Entry("test_cut", of_press.test_cut),
    "shop-file": Entry("shop_file", of_press.shop_file),
    "parts": Entry("parts", of_lists.parts),
    "fonts": Entry("fonts", of_lists.fonts),
    "rules": Entry("reference", of_panels.rules),
    "schema": Entry("reference", of_panels.schema),
    "completion": Entry("completion", cli_help.completion),
}
"""In the order of help: from the first spec to the finished piece, then what is looked up."""

RETIRED_COMMANDS: Final[Mapping[str, str]] = {
    "list": "bom",
    "same": "outdated",
    "strip": "test-strip",
    "fit": "register",
    "shop": "shop-file",
    "template": "drill-template",
    "shadows": "sightlines",
}
"""Names that were given up, kept for one purpose only: that who types one is told the name it has now."""

RETIRED_OPTIONS: Final[Mapping[tuple[str, str], str]] = {
    ("check", "--fresh"): "--ignore-placement",
    ("check", "--list"): "--components",
    ("check", "--why"): "--explain",
    ("make", "--accept"): "--save-placement",
    ("make", "--fresh"): "--ignore-placement",
    ("make", "--rear"): "--rear-view",
    ("bed", "--data"): "--rows",
    ("bed", "--clearance"): "--pocket-clearance",
    ("bed", "--cutter"): "--cutter-diameter",
    ("bed", "--pin"): "--pin-diameter",
    ("register", "--json"): "--format",
    ("register", "--noise"): "--uncertainty",
    ("test-strip", "--measured"): "--limits",
    ("test-strip", "--why"): "--reason",
    ("drill-template", "--from"): "--side",
    ("draft", "--sizes"): "--stock-sizes",
    ("fonts", "--distance"): "--viewing-distance",
    ("parts", "--sheet"): "--all",
    ("schema", "--keys"): "--markdown",
}
"""As above, of options by their command."""
