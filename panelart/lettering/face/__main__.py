"""``python -m panelart.lettering.face``: build the fonts from the strokes, compare them, or draw the specimen."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from functools import partial

from panelart.lettering import skeleton
from panelart.lettering.face import symbols, truetype
from panelart.lettering.fonts import SYMBOL_FONTS

FONTS = skeleton.SOURCE.parent


def main(arguments: list[str] | None = None) -> int:
    """Build all styles. Exit codes: 0 done or equal, 1 a built font differs from the source, 2 the source is bad."""
    parser = argparse.ArgumentParser(prog="python -m panelart.lettering.face", description=__doc__)
    wanted = parser.add_mutually_exclusive_group()
    wanted.add_argument("--check", action="store_true", help="write nothing; exit 1 where a built font differs")
    wanted.add_argument("--specimen", action="store_true", help="draw fonts/specimen.pdf and .png from the built fonts")
    choice = parser.parse_args(arguments)
    if choice.specimen:
        from panelart.lettering.face import specimen  # reportlab is not needed to build

        for path in specimen.write(FONTS):
            sys.stdout.write(f"{path.relative_to(FONTS.parent)}: {path.stat().st_size} bytes\n")
        return 0
    different = 0
    built: dict[str, Callable[[], bytes]] = {
        truetype.file_name(style): partial(_letters, style) for style in skeleton.STYLES
    }
    built |= {file: partial(symbols.build, font.partition("-")[2]) for font, file in SYMBOL_FONTS.items()}
    for name, make in built.items():
        path = FONTS / "built" / name
        try:
            data = make()
        except skeleton.SourceError as fault:
            sys.stderr.write(f"{fault}\n")
            return 2
        if choice.check:
            same = path.is_file() and path.read_bytes() == data
            different += not same
            sys.stdout.write(f"{path.name}: {'as built' if same else 'differs from its source'}\n")
        else:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
            sys.stdout.write(f"{path.name}: {len(data)} bytes\n")
    return 1 if different else 0


def _letters(style: str) -> bytes:
    return truetype.build(skeleton.load(style))


if __name__ == "__main__":
    sys.exit(main())
