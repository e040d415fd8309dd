"""What suggested edits of a spec do."""

from panelart.messages import Count, Each, Mm, Number, Word, counted, message


@message
def part_moved(ref: Word, x: Number, y: Number) -> None:
    """Move {ref} by [{x}, {y}] mm."""


@message
def hole_enlarged(ref: Word, diameter: Mm) -> None:
    """Enlarge the opening of {ref} to a diameter of {diameter}."""


@message
def text_moved(x: Number, y: Number) -> None:
    """Move the text by [{x}, {y}] mm."""


@message
def name_placed(ref: Word, side: Word) -> None:
    """Place the name of {ref} {side}."""


@message
def cap_height_raised(height: Mm) -> None:
    """Raise the cap height of the legend to {height}."""


@message
def symbol_raised(height: Mm) -> None:
    """Raise the height of the symbol to {height}."""


@message
def style_raised(style: Word, height: Mm) -> None:
    """Raise the cap height of style {style} to {height}."""


@message
def lettering_raised(height: Mm) -> None:
    """Raise the cap height of the lettering to {height}."""


@message
def sheet_chosen(thickness: Mm) -> None:
    """Use sheet of {thickness}."""


@message
def units_respelled(symbols: Each) -> None:
    """Write {symbols}."""


@message
def units_told(stretches: Each) -> None:
    """Write {stretches}."""


@counted("Use better signs and spaces in {count} texts.")
def signs_improved(count: Count) -> None:
    """Use better signs and spaces in one text."""
