"""The pages of parts, knobs and fonts."""

from panelart.messages import Count, Degrees, Each, Listed, Mm, Number, Word, message

# --- lists


@message
def heading(title: Word, count: Count) -> None:
    """{title} ({count})"""


@message
def knobs() -> None:
    """Knobs"""


@message
def symbols() -> None:
    """Symbols"""


@message
def near() -> None:
    """No entry has the size, thread, number or current stated; nearest"""


@message
def not_sold_in(part: Word, asked: Listed, sold: Listed) -> None:
    """{part} is not sold in {asked}; it is sold in {sold}"""


@message
def absent() -> None:
    """Not in the catalogue"""


@message
def absent_instead(why: Word, instead: Word) -> None:
    """{why} Instead: {instead}"""


@message
def number_from_memory(number: Word) -> None:
    """{number} (from memory)"""


@message
def number() -> None:
    """number"""


@message
def note() -> None:
    """note"""


@message
def symbol_heights() -> None:
    """Minimum height beside light, medium and bold lettering:"""


@message
def symbol_height(title: Word, light: Mm, medium: Mm, bold: Mm) -> None:
    """{title}: {light}, {medium}, {bold}"""


# --- the facts of a part


@message
def name() -> None:
    """name"""


@message
def standard() -> None:
    """standard"""


@message
def sheet() -> None:
    """sheet"""


@message
def shaft() -> None:
    """shaft"""


@message
def positions() -> None:
    """positions"""


@message
def on_a_board(offset: Word) -> None:
    """on a board: {offset}"""


@message
def board_offset(x: Number, y: Number) -> None:
    """axis at x {x}, y {y} mm from the origin of the footprint"""


@message
def board_spaced(offset: Word, height: Number) -> None:
    """{offset}; board {height} mm behind the panel"""


@message
def board_edge(x: Number, y: Number) -> None:
    """at right angles to the panel; axis at x {x}, {y} mm above the board"""


@message
def variants() -> None:
    """variants"""


@message
def words() -> None:
    """words"""


@message
def pointer() -> None:
    """pointer"""


@message
def thickness(low: Number, high: Number) -> None:
    """{low} to {high} mm"""


@message
def shaft_size(diameter: Number, length: Number) -> None:
    """Ø{diameter}, {length} long in front of the face"""


@message
def cautions() -> None:
    """Cautions"""


@message
def sources() -> None:
    """Sources"""


@message
def measure(figures: Listed) -> None:
    """Measure the part in hand before cutting: {figures}."""


# --- openings and envelopes


@message
def opening(number: Count, role: Word, size: Word) -> None:
    """opening {number}, {role}: {size}"""


@message
def openings(first: Count, last: Count, role: Word, size: Word) -> None:
    """openings {first} to {last}, {role}: {size}"""


@message
def with_countersink(opening: Word, diameter: Number, angle: Degrees) -> None:
    """{opening}, countersink Ø{diameter} at {angle}"""


@message
def envelope_in_front(what: Word, size: Word, height: Number) -> None:
    """in front, {what}: {size}, height {height} mm"""


@message
def envelope_behind(what: Word, size: Word, depth: Number) -> None:
    """behind, {what}: {size}, depth {depth} mm"""


@message
def with_cable(envelope: Word, cable: Word) -> None:
    """{envelope}, {cable}"""


@message
def size_round(diameter: Number) -> None:
    """Ø{diameter} mm"""


@message
def size_with_flat(diameter: Number, across: Number) -> None:
    """Ø{diameter} x {across} mm, one flat"""


@message
def size_with_flats(diameter: Number, across: Number) -> None:
    """Ø{diameter} x {across} mm, two flats"""


@message
def size_with_key(diameter: Number, across: Number) -> None:
    """Ø{diameter} x {across} mm, key"""


@message
def size_cut_off(diameter: Number, across: Number) -> None:
    """Ø{diameter} x {across} mm, profile"""


@message
def size_rectangle(width: Number, height: Number) -> None:
    """{width} x {height} mm"""


@message
def size_slot(width: Number, height: Number) -> None:
    """{width} x {height} mm, slot"""


@message
def size_trapezoid(width: Number, height: Number) -> None:
    """{width} x {height} mm, trapezoid"""


@message
def size_profile(width: Number, height: Number) -> None:
    """{width} x {height} mm, profile"""


@message
def span(low: Number, high: Number) -> None:
    """{low} to {high}"""


# --- the standing of a figure


@message
def proved() -> None:
    """proved on a panel"""


@message
def read_in_source() -> None:
    """from the cited source"""


@message
def typical() -> None:
    """typical, makers differ"""


@message
def from_memory() -> None:
    """from memory"""


@message
def given() -> None:
    """given"""


# --- fonts


@message
def no_capitals(font: Word) -> None:
    """Font '{font}' has no capitals and no figures"""


@message
def font_heading(font: Word, embedding: Word) -> None:
    """{font} ({embedding})"""


@message
def shares_of_height() -> None:
    """Relative to the cap height, measured on the outlines:"""


@message
def published(value: Word) -> None:
    """({value})"""


@message
def minimum_heights() -> None:
    """Minimum cap height of capitals and figures:"""


@message
def figures() -> None:
    """figures"""


@message
def small_letters() -> None:
    """small letters"""


@message
def ascender() -> None:
    """ascender above the base line"""


@message
def descender() -> None:
    """descender below the base line"""


@message
def thinnest_stroke(letter: Word) -> None:
    """thinnest stroke, of {letter}"""


@message
def width_of(letter: Word) -> None:
    """width of {letter}"""


@message
def narrowest_gap(letter: Word) -> None:
    """narrowest gap within letters, of {letter}"""


@message
def gap_between() -> None:
    """narrowest gap between capitals"""


@message
def usual_figures() -> None:
    """1 in most faces"""


@message
def usual_small_letters() -> None:
    """0.7 in ISO 3098-0, type B"""


@message
def usual_ascender() -> None:
    """1.0 in ISO 3098-0, type B"""


@message
def usual_descender() -> None:
    """0.3 in ISO 3098-0, type B"""


@message
def usual_stroke() -> None:
    """0.1 in ISO 3098-0, type B"""


@message
def usual_upright() -> None:
    """1/6 dark on light, 1/8 to 1/7 light on dark: DOD-HDBK-791(AM), 6-5.3.2.3"""


@message
def usual_round() -> None:
    """0.6 to 1.0: NUREG-0700 Rev. 2, 11.3.1.5-4"""


@message
def usual_gap_between() -> None:
    """a stroke: NUREG-0700 Rev. 3, 11.4.1.5-7"""


@message
def reader(distance: Number) -> None:
    """a reader at {distance} mm"""


@message
def reader_height(minimum: Word, preferred: Word, source: Word) -> None:
    """{minimum} mm, preferred {preferred} mm (15 and 20 minutes of arc: {source})"""


# --- the page of rules


@message
def rules_title() -> None:
    """The rules"""


@message
def rules_generated() -> None:
    """Generated from the rules by `panelart rules --markdown`; a test compares the two."""


@message
def rules_severity() -> None:
    """The severity is given behind the name of a rule; single cases may be less severe."""


@message
def rules_memory() -> None:
    """A limit known from memory causes warnings, never errors."""


@message
def rules_house() -> None:
    """Limits and severities can be changed in a file of your own: see README."""


@message
def rule_column() -> None:
    """rule"""


@message
def severity_column() -> None:
    """severity"""


@message
def severity_line(severity: Word) -> None:
    """Severity: {severity}."""


@message
def limits() -> None:
    """Limits"""


@message
def rule_limits(names: Each) -> None:
    """Limits: {names}."""


@message
def rule_limit(name: Word, what: Word, value: Word, standing: Word, source: Word) -> None:
    """{name}: {what}: {value} ({standing}; {source})"""


@message
def process_figure(name: Word, process: Word, value: Word, standing: Word, source: Word) -> None:
    """{name}: {process} {value} ({standing}; {source})"""


@message
def process_figures() -> None:
    """Figures of the marking processes"""


@message
def process_column() -> None:
    """process"""


@message
def case_fails() -> None:
    """Example that fails:"""


@message
def case_passes(passes: Word, fails: Word) -> None:
    """With `{passes}` in place of `{fails}` it passes."""


@message
def case_passes_on(passes: Word, fails: Word, day: Word) -> None:
    """With `{passes}` in place of `{fails}` it passes on {day}."""


@message
def rule_of_extension(extension: Word) -> None:
    """From extension {extension}."""


@message
def what_column() -> None:
    """what"""


@message
def limit_column() -> None:
    """limit"""


@message
def standing_column() -> None:
    """standing"""


@message
def source_column() -> None:
    """source"""


@message
def looked_up() -> None:
    """looked up"""


@message
def common_practice() -> None:
    """common practice"""
