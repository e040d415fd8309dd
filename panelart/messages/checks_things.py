"""What findings call the things they are about: ref first, then what it is. No articles before a ref."""

from panelart.messages import Count, Each, Lettering, Listed, Mm, Number, Thing, Word, counted, message

# --- parts and what belongs to them


@message
def part(ref: Word, title: Word) -> None:
    """{ref} ({title})"""


@message
def piece(ref: Word, what: Word) -> None:
    """{ref} ({what})"""


@message
def lever(ref: Word) -> None:
    """{ref} (lever)"""


@message
def cap(ref: Word) -> None:
    """{ref} (cap)"""


@message
def pad(ref: Word) -> None:
    """{ref} (bonding pad)"""


@message
def window(ref: Word) -> None:
    """{ref} (label film window)"""


@message
def area_behind(ref: Word) -> None:
    """{ref} (area of ink behind the actuator)"""


@message
def face_behind(ref: Word) -> None:
    """{ref} (face behind the actuator)"""


@message
def piece_on_panel(ref: Word, what: Word, panel: Word) -> None:
    """{ref} ({what}) on panel {panel}"""


@message
def opening(name: Word) -> None:
    """{name} (opening)"""


@message
def no_piece() -> None:
    """hole"""


@message
def dimension_of(piece: Word, name: Word) -> None:
    """{piece}: {name}"""


@message
def dimension_through(piece: Word, name: Word) -> None:
    """{piece}, what passes: {name}"""


@message
def angle_of_scale(name: Word) -> None:
    """scale: {name} angle"""


@message
def travel_of_scale() -> None:
    """scale: travel"""


@message
def horizontal_pitch() -> None:
    """horizontal pitch"""


@message
def vertical_pitch() -> None:
    """vertical pitch"""


@counted("{count} parts have cutout figures")
def cutout_figures(count: Count) -> None:
    """{count} part has cutout figures"""


@counted("{count} parts have scale angles")
def scale_figures(count: Count) -> None:
    """{count} part has scale angles"""


@counted("{count} parts have cutout figures or scale angles")
def cutout_or_scale_figures(count: Count) -> None:
    """{count} part has cutout figures or scale angles"""


@counted("{count} parts have board heights")
def height_figures(count: Count) -> None:
    """{count} part has board heights"""


@counted("{count} parts have cutout figures, board heights or scale angles")
def mixed_figures(count: Count) -> None:
    """{count} part has cutout figures, board heights or scale angles"""


@message
def height_above_board() -> None:
    """height above the board"""


@message
def height_of_entry(ref: Word, height: Mm, lowest: Mm, highest: Mm) -> None:
    """the height of {ref} in its entry, {height} (met {lowest} to {highest})"""


@message
def turns_without_end() -> None:
    """turns without end"""


@message
def turns_times(turns: Number) -> None:
    """turns {turns} times"""


@message
def openings() -> None:
    """openings"""


@message
def scale(ref: Word) -> None:
    """{ref} (scale)"""


@message
def scales(refs: Each) -> None:
    """{refs} (scales)"""


@message
def copied_scales() -> None:
    """Copies of one scale"""


# --- legends and marks


@message
def legend(owner: Word, style: Word, text: Lettering) -> None:
    """{owner} ({style} {text})"""


@message
def legends(owner: Word, style: Word, texts: Each) -> None:
    """{owner} ({style}s {texts})"""


@message
def text(text: Lettering) -> None:
    """{text}"""


@message
def more_texts(count: Count) -> None:
    """{count} more"""


@message
def legends_of_style(style: Word) -> None:
    """Legends of style {style}"""


@message
def style_of(ref: Word, style: Word) -> None:
    """{ref} ({style})"""


@counted("the {style} labels ({height})")
def lower_level(count: Count, style: Word, height: Mm) -> None:
    """the {style} label ({height})"""


@counted("{owner} ({count} {kind}s)")
def marks(count: Count, owner: Word, kind: Word) -> None:
    """{owner} ({kind})"""


@message
def marks_of_kind(kind: Word) -> None:
    """Marks ({kind})"""


@message
def titled_frame(frame: Word, title: Lettering) -> None:
    """{frame} ({title})"""


# --- places on the panel


@message
def panel() -> None:
    """the panel"""


@message
def panel_edge() -> None:
    """the edge of the panel"""


@message
def sheet_edge() -> None:
    """the edge of the sheet"""


@message
def film_edge() -> None:
    """the edge"""


@message
def coat() -> None:
    """the coat"""


@message
def front_keepout(why: Word) -> None:
    """the front keep-out ({why})"""


@message
def rear_keepout(why: Word) -> None:
    """the rear keep-out ({why})"""


@message
def rack_rails() -> None:
    """the rails of the rack (IEC 60297-3-100)"""


@message
def subrack_rails() -> None:
    """the rails of the subrack (IEC 60297-3-101)"""


@message
def rack() -> None:
    """a 19-inch rack"""


@message
def subrack() -> None:
    """a subrack"""


@message
def uncoated_area(name: Word) -> None:
    """the uncoated area {name}"""


@message
def background(ink: Thing) -> None:
    """the background in {ink}"""


@message
def inks(names: Each) -> None:
    """{names}"""


@message
def ink_list(names: Listed) -> None:
    """{names}"""


@message
def picture() -> None:
    """a picture"""


# --- flanges


@message
def top_flange() -> None:
    """the top flange"""


@message
def bottom_flange() -> None:
    """the bottom flange"""


@message
def left_flange() -> None:
    """the left flange"""


@message
def right_flange() -> None:
    """the right flange"""


@message
def return_of(flange: Word) -> None:
    """the return of {flange}"""


@message
def bend_of(flange: Word) -> None:
    """the bend of {flange}"""


@message
def end_of(flange: Word) -> None:
    """the end of {flange}"""


@message
def free_edge_of(flange: Word) -> None:
    """the free edge of {flange}"""


# --- where the eye is


@message
def eye_above(height: Mm) -> None:
    """an eye {height} above the centre of the panel"""


@message
def eye_below(height: Mm) -> None:
    """an eye {height} below the centre of the panel"""


@message
def eye_above_right(height: Mm, aside: Mm) -> None:
    """an eye {height} above and {aside} right of the centre of the panel"""


@message
def eye_above_left(height: Mm, aside: Mm) -> None:
    """an eye {height} above and {aside} left of the centre of the panel"""


@message
def eye_below_right(height: Mm, aside: Mm) -> None:
    """an eye {height} below and {aside} right of the centre of the panel"""


@message
def eye_below_left(height: Mm, aside: Mm) -> None:
    """an eye {height} below and {aside} left of the centre of the panel"""


# --- values


@message
def other_font(font: Word, texts: Listed) -> None:
    """{font} ({texts})"""


@message
def other_font_of_stroke(font: Word, texts: Listed, stroke: Number) -> None:
    """{font} ({texts}; stroke {stroke} × as wide)"""


@message
def length(length: Mm) -> None:
    """{length}"""


@message
def length_or_spacing(length: Mm) -> None:
    """{length}, or increase the letter spacing (`tracking`)"""


@message
def length_or_font(length: Mm) -> None:
    """{length}, or choose another font"""


@message
def span(low: Number, high: Number) -> None:
    """{low} to {high}"""


@message
def light_on_dark() -> None:
    """light on dark"""


@message
def dark_on_light() -> None:
    """dark on light"""


@message
def clearance_less(clearance: Mm, deviations: Word) -> None:
    """clearance {clearance}; {deviations}"""
