"""The extras of the distribution, and the libraries that each brings: what `pip install 'panelart[NAME]'` adds."""

from __future__ import annotations

import importlib.util
from collections.abc import Mapping
from typing import Final

EXTRAS: Final[Mapping[str, tuple[str, ...]]] = {
    "page": ("starlette", "uvicorn", "anyio", "merge3"),
    "spreadsheet": ("openpyxl", "xlrd"),
    "codes": ("pystrich",),
    "packing": ("rectpack",),
    "cluster": ("distributed",),
}
"""The names of the libraries as they are imported, by the name of the extra."""


def extra_of(module: str) -> str | None:
    """The extra that brings a module, by the module's full or first name; None when no extra does."""
    library = module.partition(".")[0]
    return next((extra for extra, libraries in EXTRAS.items() if library in libraries), None)


def require(extra: str) -> None:
    """Nothing where an extra is installed. Raises ModuleNotFoundError with the name of its first missing library."""
    for library in EXTRAS[extra]:
        if importlib.util.find_spec(library) is None:
            raise ModuleNotFoundError(library, name=library)
