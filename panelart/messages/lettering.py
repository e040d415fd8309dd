"""Why a text cannot be lettered or coded, and what is wrong with a font."""

from panelart.messages import Each, Listed, MeasuredMm, Mm, Number, Quoted, Word, message


@message
def missing_glyph(fonts: Each, character: Quoted, code: Word) -> None:
    """font {fonts} has no glyph for {character} ({code})"""


@message
def glyph_missing_everywhere(fonts: Each, character: Quoted, code: Word) -> None:
    """fonts {fonts} have no glyph for {character} ({code})"""


@message
def font_name(name: Word) -> None:
    """'{name}'"""


@message
def not_a_font(font: Word) -> None:
    """'{font}' is not a TrueType or OpenType font"""


@message
def no_axis(font: Word, axis: Quoted, axes: Listed) -> None:
    """'{font}' has no axis {axis}; its axes: {axes}"""


@message
def no_axes(font: Word, axis: Quoted) -> None:
    """'{font}' has no axis {axis}: it is not a variable font"""


@message
def off_axis(font: Word, axis: Quoted, minimum: Number, maximum: Number, place: Number) -> None:
    """'{font}' has axis {axis} from {minimum} to {maximum}, not {place}"""


@message
def no_capital(font: Word) -> None:
    """'{font}' has no H, so its cap height cannot be measured"""


@message
def font_changed(font: Word) -> None:
    """'{font}' was changed while the spec was being read"""


@message
def no_font_file(font: Word, fonts: Listed) -> None:
    """'{font}' is not a font; accepted: {fonts}, or the path of a font file"""


@message
def no_symbol(name: Quoted) -> None:
    """There is no symbol {name}"""


@message
def arc_takes_one_line() -> None:
    """Text on an arc must be one line, without a filled field"""


@message
def longer_than_circle(width: MeasuredMm, radius: Mm) -> None:
    """Text {width} wide does not fit around a circle of radius {radius}"""


@message
def nothing_visible() -> None:
    """The text has no visible character"""


@message
def code_without_text() -> None:
    """A code without text cannot be drawn"""


@message
def no_qr_code(reason: Word) -> None:
    """No QR code holds this text: {reason}"""


@message
def no_data_matrix(reason: Word) -> None:
    """No Data Matrix code holds this text: {reason}"""


@message
def no_code_128(reason: Word) -> None:
    """No Code 128 holds this text: {reason}"""


@message
def code_128_characters() -> None:
    """Code 128 holds only unaccented letters, digits and signs"""


@message
def may_be_embedded() -> None:
    """may be embedded"""


@message
def may_be_embedded_to_view() -> None:
    """may be embedded for viewing and printing"""


@message
def must_not_be_embedded() -> None:
    """must not be embedded"""
