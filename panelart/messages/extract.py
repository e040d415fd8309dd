"""All sentences as a template for translators: `python -m panelart.messages.extract -o FILE.pot`.

The template is the same for the same sentences: in order of their ids, without a date. It is written by Babel, which
only who translates needs; the compiled catalogues are read by gettext of the standard library:

    with open("panelart.mo", "rb") as file, speaking(gettext.GNUTranslations(file)):
        ...
"""

from __future__ import annotations

import argparse
import importlib
import io
import pkgutil
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final, get_args

import panelart
from panelart.messages import arguments
from panelart.messages.message import CATALOGUE, Message, Sentence
from panelart.messages.shown import Shown

_HEADER: Final = b"""\
# Sentences of panelart. The context of each is its id; what stands in braces is filled in and stays as it is.
msgid ""
msgstr ""
"Project-Id-Version: panelart\\n"
"MIME-Version: 1.0\\n"
"Content-Type: text/plain; charset=utf-8\\n"
"Content-Transfer-Encoding: 8bit\\n"

"""
_WIDTH: Final = 120


def every_sentence() -> Mapping[str, Sentence]:
    """The catalogue with all modules of the package imported, by id; extensions have catalogues of their own."""
    for module in pkgutil.walk_packages(panelart.__path__, f"{panelart.__name__}."):
        importlib.import_module(module.name)
    own = f"{panelart.__name__}."
    return {id_: sentence for id_, sentence in sorted(CATALOGUE.items()) if sentence.module.startswith(own)}


def usual_arguments(sentence: Sentence) -> dict[str, Any]:
    """Values as the sentence usually has them."""
    return {name: shown.usual for name, shown in sentence.parameters.items()}


def template(sentences: Mapping[str, Sentence]) -> bytes:
    """A POT file of the sentences."""
    from babel.messages.catalog import Catalog
    from babel.messages.pofile import write_po

    catalog = Catalog()
    for sentence in sentences.values():
        entry = catalog.add(
            (sentence.english, sentence.plural) if sentence.plural else sentence.english,
            locations=[(f"{sentence.module.replace('.', '/')}.py", 1)] if sentence.module else [],
            auto_comments=_comments(sentence),
            context=sentence.id,
        )
        # "100 % of" is no instruction to C's printf.
        entry.flags.discard("python-format")
    written = io.BytesIO()
    write_po(written, catalog, width=_WIDTH, omit_header=True, include_lineno=False)
    return _HEADER + written.getvalue()


def _comments(sentence: Sentence) -> list[str]:
    shown = [f"{{{name}}}: {_kind(kind)}" for name, kind in sentence.parameters.items() if _used(sentence, name)]
    example = str(Message(sentence, tuple(usual_arguments(sentence).items())))
    return [*shown, f"Example: {example}"] if shown else []


def _used(sentence: Sentence, name: str) -> bool:
    return f"{{{name}}}" in sentence.english + sentence.plural


def _kind(shown: Shown) -> str:
    """A kind's name as `messages.arguments` has it."""
    kinds = (name for name, kind in vars(arguments).items() if any(extra is shown for extra in get_args(kind)[1:]))
    return next(kinds, "Word")


def main(words: list[str] | None = None) -> None:
    """Write the template to a file or to the standard output."""
    parser = argparse.ArgumentParser(prog="python -m panelart.messages.extract", description=template.__doc__)
    parser.add_argument("-o", "--output", type=Path, help="File to write (default standard output)")
    output = parser.parse_args(words).output
    data = template(every_sentence())
    if output is None:
        sys.stdout.buffer.write(data)
    else:
        output.write_bytes(data)


if __name__ == "__main__":
    main()
