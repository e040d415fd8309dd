"""What is said of inks, fonts, legends and the braces in their words."""

from panelart.messages import Either, Listed, Quoted, TwoDecimals, Word, message


@message
def fonts() -> None:
    """fonts"""


@message
def key_of_other_process(key: Quoted, process: Word) -> None:
    """Key {key} is not accepted with the process {process}"""


@message
def processes_with_key(processes: Either) -> None:
    """Accepted: process: {processes}"""


@message
def ink_and_inks() -> None:
    """The marking has both 'ink' and 'inks'"""


@message
def ink_or_inks() -> None:
    """Accepted: ink: {{name, colour}}, or inks: a list of them"""


@message
def no_ink() -> None:
    """The marking has neither 'ink' nor 'inks'"""


@message
def ink_twice(name: Quoted) -> None:
    """Two inks have the name {name}"""


@message
def each_ink_once() -> None:
    """Accepted: each name once"""


@message
def ink_name_reserved(name: Quoted) -> None:
    """{name} has another meaning in the files and cannot name an ink"""


@message
def reserved_names(names: Listed) -> None:
    """Reserved names: {names}"""


@message
def ink_named_as_process_colour(name: Quoted, plate: Word, colour: Word) -> None:
    """{name} names the process colour {plate}, but {colour} is another colour: the press would print {plate}"""


@message
def rename_ink_or_colour() -> None:
    """Rename the ink (`signal yellow`) for a spot colour, or give it the process colour's colour."""


@message
def inks_on_one_layer(first: Quoted, second: Quoted, layer: Word) -> None:
    """Inks {first} and {second} would share the layer {layer}"""


@message
def distinct_names() -> None:
    """Accepted: names that differ by more than capitals, spaces and hyphens"""


@message
def unknown_ink(name: Quoted) -> None:
    """Unknown ink {name}"""


@message
def legend_at_and(key: Quoted) -> None:
    """The legend has both 'at' and {key}"""


@message
def at_or_place() -> None:
    """Accepted: 'at' alone, or 'place' and 'offset'"""


@message
def guide_without_side() -> None:
    """The legend has a 'guide', but no 'place' at a side of its part"""


@message
def places_with_guide(places: Either) -> None:
    """Accepted: place: {places}"""


@message
def no_hyphenation(language: Quoted) -> None:
    """No hyphenation dictionary for language {language}"""


@message
def hyphenation_without_language() -> None:
    """Hyphenation without a language"""


@message
def hyphenated_languages(languages: Listed) -> None:
    """Languages with a dictionary: {languages}. For other languages, use soft hyphens."""


@message
def language_for_hyphenation() -> None:
    """Set lettering.language, or list one language in hyphenate."""


@message
def unclosed_brace(text: Quoted) -> None:
    """Unclosed brace in {text}"""


@message
def write_brace() -> None:
    """Write {{{{ for a brace."""


@message
def unknown_brace_word(braces: Quoted, text: Quoted) -> None:
    """Unknown word at the start of {braces} in {text}"""


@message
def near_or_brace(name: Quoted) -> None:
    """Did you mean {name}? Write {{{{ for a brace."""


@message
def words_or_brace(words: Listed) -> None:
    """Accepted words: {words}. Write {{{{ for a brace."""


@message
def brace_without_text(braces: Quoted, text: Quoted) -> None:
    """Nothing behind the word in {braces} in {text}"""


@message
def text_in_brace(word: Word) -> None:
    """Write what it applies to behind the word and a space, as in {{{word} ms}}. Write {{{{ for a brace."""


@message
def unknown_brace_name(braces: Quoted, text: Quoted) -> None:
    """Unknown name {braces} in {text}"""


@message
def names_or_brace(names: Listed) -> None:
    """Accepted names: {names}. Write {{{{ for a brace."""


@message
def no_names_here() -> None:
    """No name is defined for braces here. Write {{{{ for a brace."""


@message
def unknown_font(name: Quoted) -> None:
    """Unknown font {name}"""


@message
def near_or_font_file(name: Quoted) -> None:
    """Did you mean {name}? A font file ends in .ttf, .otf or .ttc."""


@message
def choose_of_collection() -> None:
    """Write which one, as in {{file: house.ttc, index: 2}}"""


@message
def fonts_or_file(name: Word) -> None:
    """Accepted: {name}, {{weight: bold, width: narrow}}, or a font file (.ttf, .otf, .ttc) relative to the spec"""


@message
def write_as_pen(pen: Word) -> None:
    """Write `font: {pen}`."""


@message
def weight_off_axis(weight: Word) -> None:
    """Weight {weight} is outside the range of the font"""


@message
def weights() -> None:
    """Accepted: light (h/10), medium (h/7.5), bold (h/6), or any from h/14 to h/6"""


@message
def width_off_axis(width: Word) -> None:
    """Width {width} is outside the range of the font"""


@message
def widths(narrowest: TwoDecimals) -> None:
    """Accepted: normal, narrow, or any from {narrowest} to 1"""


@message
def font_file_missing(file: Quoted) -> None:
    """Cannot read the font file {file}: no such file"""


@message
def font_unreadable(why: Word) -> None:
    """{why}"""


@message
def font_not_embeddable(name: Quoted) -> None:
    """The licence bits of the font {name} forbid embedding, which 'text: live' needs"""


@message
def other_font_or_outlines() -> None:
    """Use another font, or 'text: outlines'."""
