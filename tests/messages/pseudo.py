"""A pseudo-translation of the whole catalogue: accented, in brackets, 40 % longer, in three plural forms.

It is made of the template that translators get and goes through the same tools: Babel reads it, writes PO and MO, and
gettext of the standard library speaks it. What is then read without brackets and accents was not translated.
"""

from __future__ import annotations

import gettext
import io
import math
import re
from collections.abc import Iterable, Iterator
from string import Formatter
from typing import Final

from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from panelart.messages import Message
from panelart.messages.extract import every_sentence, template
from panelart.messages.shown import quoted

LOCALE: Final = "pl"
"""One, few and many: 1; 2 to 4, 22 to 24 and so on; 0, 5 to 21 and so on."""

FORMS: Final = "①②③"
_ACCENTED: Final = str.maketrans(
    "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ", "áƀçđéƒğĥíĵķĺɱñóþǫřšťúṽŵẋýžÁƁÇĐÉƑĞĤÍĴĶĹṀÑÓÞǪŘŠŤÚṼŴẊÝŽ"
)
_PROSE: Final = re.compile(r"[A-Za-z]{2,} [A-Za-z]{2,}")


def pseudo(text: str, form: int = 0) -> str:
    """A text in pseudo-language, what is to be filled in left alone."""
    parts = []
    for literal, field, _, _ in Formatter().parse(text):
        parts.append(literal.translate(_ACCENTED).replace("{", "{{").replace("}", "}}"))
        parts.append("" if field is None else f"{{{field}}}")
    return f"⟦{FORMS[form]}{''.join(parts)}{'~' * math.ceil(0.4 * len(text))}⟧"


def translated() -> Catalog:
    """The template with every sentence translated."""
    catalog = read_po(io.BytesIO(template(every_sentence())), locale=LOCALE)
    catalog.fuzzy = False
    for entry in catalog:
        if not entry.id:
            continue
        # Babel takes "100 % or" for an instruction to C's printf.
        entry.flags.discard("python-format")
        if isinstance(entry.id, tuple):
            one, others = entry.id
            entry.string = (pseudo(one), pseudo(others, 1), pseudo(others, 2))
        else:
            entry.string = pseudo(entry.id)
    return catalog


def compiled(catalog: Catalog) -> gettext.GNUTranslations:
    """The catalogue as PO, read again, as MO, as the standard library reads it."""
    po = io.BytesIO()
    write_po(po, catalog)
    po.seek(0)
    mo = io.BytesIO()
    write_mo(mo, read_po(po, locale=LOCALE))
    mo.seek(0)
    return gettext.GNUTranslations(mo)


def data_of(told: object) -> Iterator[str]:
    """What a message was given as it is: names, texts of the user's, figures; the longest of them first."""
    yield from sorted(set(_given(told)), key=len, reverse=True)


def _given(told: object) -> Iterator[str]:
    if isinstance(told, Message):
        for _, value in told.arguments:
            yield from _given(value)
    elif isinstance(told, tuple):
        for value in told:
            yield from _given(value)
    elif isinstance(told, str):
        yield from (told, quoted(told)[1:-1], told.replace("\n", " / "))


def english_left(text: str, data: Iterable[str]) -> list[str]:
    """Pieces of two English words or more in a text that should have none but those of the data."""
    for given in data:
        text = text.replace(given, "…") if given else text
    return _PROSE.findall(text)
