"""Why a text cannot be lettered or coded, and what is wrong with a font."""

from panelart.messages import Count, Each, Listed, MeasuredMm, Mm, Number, Quoted, Thing, Word, message


@message
def missing_glyph(fonts: Each, character: Quoted, code: Word) -> None:
    """font {fonts} has no glyph for {character} ({code})"""


@message
def glyph_missing_everywhere(fonts: Each, character: Quoted, code: Word) -> None:
    """fonts {fonts} have no glyph for {character} ({code})"""


@message
def word_in_no_font(word: Quoted, fonts: Each, character: Quoted, code: Word) -> None:
    """no font has all characters of {word}; font {fonts} lacks {character} ({code})"""


@message
def font_name(name: Word) -> None:
    """'{name}'"""


@message
def not_a_font(font: Word) -> None:
    """'{font}' is not a TrueType or OpenType font"""


@message
def font_empty(font: Word) -> None:
    """'{font}' is an empty file"""


@message
def font_of_another_form(font: Word, form: Thing) -> None:
    """'{font}' is {form}, not a TrueType or OpenType font"""


@message
def form_woff() -> None:
    """a compressed font for web pages (WOFF)"""


@message
def form_zip() -> None:
    """a ZIP archive"""


@message
def form_gzip() -> None:
    """a compressed file (gzip)"""


@message
def form_pdf() -> None:
    """a PDF"""


@message
def form_type_1() -> None:
    """a PostScript Type 1 font"""


@message
def form_image() -> None:
    """an image"""


@message
def form_page() -> None:
    """a web page or XML file"""


@message
def form_pointer() -> None:
    """a Git LFS pointer"""


@message
def font_of_zeros(font: Word) -> None:
    """'{font}' contains only zeros"""


@message
def font_cut_off_at_once(font: Word, size: Count) -> None:
    """'{font}' is truncated: its table directory does not fit in the {size} bytes of the file"""


@message
def font_cut_off(font: Word, table: Quoted, end: Count, size: Count) -> None:
    """'{font}' is truncated: table {table} ends at byte {end}, but the file has {size} bytes"""


@message
def font_lacks_tables(font: Word, tables: Listed) -> None:
    """'{font}' is not a complete font: missing tables: {tables}"""


@message
def font_without_outlines(font: Word) -> None:
    """'{font}' has no outlines (no table 'glyf' or 'CFF')"""


@message
def font_table_damaged(font: Word, table: Quoted) -> None:
    """'{font}' is damaged: table {table} does not match its checksum"""


@message
def font_without_glyphs(font: Word) -> None:
    """'{font}' has no glyphs"""


@message
def no_face_of_collection(font: Word, index: Count, last: Count) -> None:
    """'{font}' has no font with index {index}; its indexes are 0 to {last}"""


@message
def collection_without_index(font: Word, faces: Listed) -> None:
    """'{font}' is a collection of several fonts: {faces}"""


@message
def index_of_single_font(font: Word) -> None:
    """'{font}' is a single font, not a collection, so it has no index"""


@message
def face_of_collection(index: Count, name: Word) -> None:
    """{index} {name}"""


@message
def capital_out_of_scale(font: Word, letter: Quoted) -> None:
    """'{font}': the height of {letter} is not plausible for its em"""


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
    """'{font}' has no H, no letter of another script to measure instead, and no figures"""


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
