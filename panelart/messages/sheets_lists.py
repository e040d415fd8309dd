"""What the bill of materials and the inspection list say, and what is wrong with a file of measured values."""

from panelart.messages import Complete, Count, Listed, Mm, Number, Quoted, SizeMm, Word, message

# --- bill of materials


@message
def bill_of_materials() -> None:
    """Bill of materials"""


@message
def knob(diameter: Mm, height: Mm) -> None:
    """Knob, diameter {diameter}, top {height} above the face"""


@message
def disc(diameter: Mm) -> None:
    """Disc with scale, diameter {diameter}, made from its own file"""


@message
def screw_for_round(diameter: Mm) -> None:
    """Screw for a hole of {diameter}"""


@message
def screw_for_slot(size: SizeMm) -> None:
    """Screw for a hole of {size}"""


@message
def ask_maker() -> None:
    """supplied with the part or separately: ask the maker"""


@message
def fastener_for(what: Word, thread: Word) -> None:
    """{what} for {thread}"""


@message
def fastener_through(what: Word, diameter: Mm) -> None:
    """{what} for a hole of {diameter}"""


@message
def with_part() -> None:
    """supplied with the part"""


@message
def to_buy() -> None:
    """bought separately"""


@message
def at_front() -> None:
    """front"""


@message
def at_rear() -> None:
    """rear"""


@message
def grams(mass: Number) -> None:
    """{mass} g"""


@message
def kilograms(mass: Number) -> None:
    """{mass} kg"""


@message
def mass_of_parts(mass: Word) -> None:
    """Mass of all parts: {mass}."""


@message
def mass_without(mass: Word, parts: Complete) -> None:
    """Mass of the parts whose mass is known: {mass}; not known: {parts}."""


@message
def sheet(material: Word, thickness: Mm, size: SizeMm) -> None:
    """{material}, {thickness}, face {size}"""


@message
def flanges_extra() -> None:
    """without flanges: the size of the blank is in blank.dxf"""


# --- inspection list


@message
def caliper() -> None:
    """caliper"""


@message
def gauge() -> None:
    """plug gauge or caliper"""


@message
def from_datum() -> None:
    """from the datum"""


@message
def from_bend() -> None:
    """along from the datum, back from the outside of the bend"""


@message
def coat_gauge() -> None:
    """coat thickness gauge"""


@message
def by_part() -> None:
    """the part's tolerance"""


@message
def by_general(grade: Word) -> None:
    """general tolerance ISO 2768-{grade}"""


@message
def by_openings(grade: Word) -> None:
    """general tolerance {grade}"""


@message
def by_openings_coated(grade: Word) -> None:
    """general tolerance {grade} and range of the coat thickness"""


@message
def by_coat() -> None:
    """range of the coat thickness"""


# --- measured values


@message
def not_utf8(byte: Count) -> None:
    """Byte {byte} is not UTF-8; accepted: text in UTF-8"""


@message
def column_missing(column: Quoted, needed: Listed) -> None:
    """Line 1 has no column {column}; accepted: {needed} and piece, with commas, semicolons or tabs between"""


@message
def not_a_length(line: Count, found: Quoted) -> None:
    """Line {line}: found {found}; accepted: millimetres as 12.34"""


@message
def decimal_comma(line: Count, found: Quoted, meant: Quoted) -> None:
    """Line {line}: {found} has a decimal comma; write {meant}, with a decimal point"""


@message
def cells_beyond_columns(line: Count) -> None:
    """Line {line} has more cells than line 1 has columns; write decimals with a point, 12.34, or use semicolons"""


@message
def no_such_size(line: Count, measure: Quoted, feature: Quoted) -> None:
    """Line {line}: the panel has no {measure} of {feature}"""


@message
def measured_twice(line: Count, measure: Quoted, feature: Quoted, piece: Word) -> None:
    """Line {line}: a second value of {measure} of {feature} for piece {piece}"""


# --- what an inspection proves


@message
def not_a_named_part() -> None:
    """it is written out in the spec, or is a part of another file"""


@message
def other_dimensions() -> None:
    """the spec cuts other dimensions than the part of this name has"""


@message
def opening_filled(opening: Word) -> None:
    """{opening} is filled, so its size was not measured"""


@message
def size_not_measured(opening: Word, measure: Word) -> None:
    """{opening} {measure} not measured"""


@message
def size_out_of_limits(opening: Word, measure: Word) -> None:
    """{opening} {measure} out of limits"""
