"""What is said of backgrounds, pictures, drawings, codes, plates and the shop file."""

from panelart.messages import Count, Mm, Number, Quoted, Word, message


@message
def ink_named_as_plate(ink: Quoted, plate: Word) -> None:
    """Ink {ink} has the name of the shop's plate for {plate}"""


@message
def rename_ink_or_plate() -> None:
    """Rename the ink, or the plate in the shop file."""


@message
def short_with_bleed() -> None:
    """The background stops short of the edge, but has a 'bleed'"""


@message
def bleed_or_short() -> None:
    """Accepted: edge: bleed, or no 'bleed'"""


@message
def run_without_gradient(key: Quoted) -> None:
    """Background of one colour has {key}"""


@message
def only_with_to(key: Quoted) -> None:
    """Accepted: {key} together with 'to'"""


@message
def box_outside() -> None:
    """The box is outside the panel"""


@message
def box_on_panel() -> None:
    """Accepted: a box on the panel"""


@message
def picture_without_ink(process: Word) -> None:
    """{process} needs an ink for the picture"""


@message
def name_of_ink() -> None:
    """Accepted: ink: the name of an ink"""


@message
def picture_too_large(file: Quoted, width: Count, height: Count) -> None:
    """Picture {file} has {width} x {height} pixels"""


@message
def png_picture(maximum: Count) -> None:
    """Accepted: a PNG picture, maximum {maximum} million pixels"""


@message
def picture_not_png(file: Quoted) -> None:
    """{file} is not a readable PNG picture"""


@message
def cutter_and_cutters() -> None:
    """The marking has both 'cutter' and 'cutters'"""


@message
def inset_leaves_no_film(inset: Mm, size: Mm) -> None:
    """Inset {inset} leaves no label film on a face {size} across"""


@message
def line_to_itself(ref: Word) -> None:
    """The line leads from {ref} to itself"""


@message
def another_part() -> None:
    """Accepted: another part"""


@message
def rule_without_length() -> None:
    """The rule has no length"""


@message
def two_points() -> None:
    """Accepted: two or more different points"""


@message
def code_unmade(code: Word) -> None:
    """The text cannot be encoded as {code}"""


@message
def plain_text() -> None:
    """Use letters of the English alphabet, digits and signs only, or another code."""


@message
def shorter_text() -> None:
    """Use a shorter text, or another code."""


@message
def plates_with_one_name() -> None:
    """Two plates have the same name"""


@message
def name_for_each_plate() -> None:
    """Accepted: a different name for each plate"""


@message
def plate_name_reserved(name: Quoted) -> None:
    """{name} has another meaning in a PDF and cannot name a plate"""


@message
def unknown_process(name: Quoted) -> None:
    """Unknown process {name}"""


@message
def figures_by_name() -> None:
    """Accepted: a mapping of figures by name"""


@message
def unknown_figure(process: Word, name: Quoted) -> None:
    """Process {process} has no figure {name}"""


@message
def profile_too_large(file: Quoted, count: Count, maximum: Count) -> None:
    """Profile {file} has {count} bytes; maximum {maximum}"""


@message
def printer_profile() -> None:
    """Accepted: an ICC profile of a printer (class prtr) for CMYK"""


@message
def not_a_profile(file: Quoted) -> None:
    """{file} is not an ICC profile"""


@message
def profile_of_class(file: Quoted, class_: Quoted) -> None:
    """{file} is a profile of the class {class_}"""


@message
def profile_for_colours(file: Quoted, colours: Word) -> None:
    """{file} is a profile for {colours}"""


@message
def shop_file_unreadable(file: Quoted, why: Word) -> None:
    """Cannot read the shop file {file}: {why}"""


@message
def picture_unreadable(file: Quoted, why: Word) -> None:
    """Cannot read the picture {file}: {why}"""


@message
def profile_unreadable(file: Quoted, why: Word) -> None:
    """Cannot read the profile {file}: {why}"""


@message
def relative_to_file() -> None:
    """Accepted: a file name relative to the file that names it"""


@message
def figure_of_shop(why: Word, where: Word, value: Number, source: Word) -> None:
    """{why} ({where}); common practice: {value} ({source})"""


@message
def figures_of_one_shop() -> None:
    """Figures of one shop. Change the figures that differ, give the reason, and remove the rest."""


@message
def name_of_shop() -> None:
    """name of the shop and of its machine"""


@message
def common_practice() -> None:
    """common practice"""


@message
def as_published() -> None:
    """as published"""


@message
def too_many_curves(maximum: Count) -> None:
    """The drawing has too many curves; maximum {maximum}"""


@message
def filled_paths_only() -> None:
    """Accepted: filled paths only; convert text and lines to paths and remove everything else"""


@message
def no_filled_path() -> None:
    """The drawing has no filled path"""


@message
def filled_paths() -> None:
    """Accepted: a drawing of filled paths"""


@message
def stroked_path() -> None:
    """The drawing has a stroked path"""


@message
def even_odd_fill() -> None:
    """The drawing has a path with the fill rule even-odd"""


@message
def shop_file_not_text() -> None:
    """The shop file is not text in UTF-8"""
