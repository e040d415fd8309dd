"""What sheets of every kind say: titles and descriptions of drawings, table headings that many have, labels."""

from panelart.messages import Complete, Count, Mm, Scale, Sentences, Word, counted, message


@message
def paragraph(sentences: Sentences) -> None:
    """{sentences}"""


@message
def revision(revision: Word) -> None:
    """rev {revision}"""


@message
def spec(fingerprint: Word) -> None:
    """spec {fingerprint}"""


@message
def made_from(fingerprint: Word) -> None:
    """Spec {fingerprint}."""


@message
def page_of(page: Count, pages: Count) -> None:
    """{page} of {pages}"""


# --- columns


@message
def column_surface() -> None:
    """surface"""


@message
def column_side() -> None:
    """side"""


@message
def column_hole() -> None:
    """hole"""


@message
def column_opening() -> None:
    """opening"""


@message
def column_angle() -> None:
    """angle"""


@message
def column_depth() -> None:
    """depth"""


@message
def column_width() -> None:
    """width"""


@message
def column_height() -> None:
    """height"""


@message
def column_tolerance() -> None:
    """tolerance"""


@message
def column_quantity() -> None:
    """quantity"""


@message
def column_description() -> None:
    """description"""


@message
def column_refs() -> None:
    """refs"""


@message
def column_date() -> None:
    """date"""


# --- what the panel is made of


@message
def sheet_metal(material: Word, thickness: Mm) -> None:
    """{material}, {thickness}"""


@message
def no_coat() -> None:
    """uncoated"""


@message
def powder() -> None:
    """powder coat"""


@message
def wet_paint() -> None:
    """wet paint"""


@message
def anodised() -> None:
    """anodised"""


@message
def zinc() -> None:
    """zinc plated"""


@message
def conversion() -> None:
    """conversion coat"""


@message
def named_coat(coat: Word, name: Word) -> None:
    """{coat}, {name}"""


@message
def marking(process: Word, inks: Complete) -> None:
    """{process}, {inks}"""


@message
def general_tolerance(grade: Word, openings: Word) -> None:
    """ISO 2768-{grade}, openings {openings}, unless stated otherwise"""


# --- labels of what is drawn


@message
def panel_face() -> None:
    """panel face"""


@message
def opening(name: Word) -> None:
    """opening {name}"""


@message
def countersink(name: Word) -> None:
    """countersink {name}"""


@message
def label_film() -> None:
    """label film"""


@message
def feature_of(feature: Word, owner: Word) -> None:
    """{feature} of {owner}"""


@message
def feature_in_front(feature: Word, part: Word) -> None:
    """{feature} of {part}, in front"""


@message
def feature_behind(feature: Word, part: Word) -> None:
    """{feature} of {part}, behind"""


@message
def opening_of_part(part: Word, role: Word) -> None:
    """opening of {part}: {role}"""


@message
def qr_code() -> None:
    """QR code: number, revision and fingerprint of the spec"""


# --- the panel alone, several panels, two versions of one


@message
def appearance_note(panel: Word) -> None:
    """{panel}, finished appearance seen from the front."""


@message
def arrangements_note(title: Word, count: Count) -> None:
    """{title}: {count} arrangements side by side, the best at the left."""


@message
def changes_title(panel: Word) -> None:
    """{panel}: changes"""


@message
def changes_note() -> None:
    """Two versions of a panel superimposed, seen from the front. Red: before. Blue: after. Grey: unchanged."""


@message
def version_before(panel: Word) -> None:
    """before: {panel}"""


@message
def version_after(panel: Word) -> None:
    """after: {panel}"""


@message
def unchanged() -> None:
    """unchanged"""


@message
def outline() -> None:
    """outline"""


# --- what the hardware hides


@message
def shadows_title(panel: Word) -> None:
    """{panel}: shadows"""


@message
def shadows_note(panel: Word) -> None:
    """{panel} seen from the front, with what the hardware hides."""


@message
def shadows_from(look: Word, distance: Mm) -> None:
    """Shadows from {look}, {distance} from the face."""


@counted("{count} legends and marks are hidden from this position (red or amber).")
def hidden_from_here(count: Count) -> None:
    """{count} legend or mark is hidden from this position (red or amber)."""


@counted("{count} legends and marks are hidden from some position in the range (red or amber).")
def hidden_in_range(count: Count) -> None:
    """{count} legend or mark is hidden from some position in the range (red or amber)."""


@message
def clear_from_here() -> None:
    """All legends and marks are visible from this position."""


@message
def clear_in_range() -> None:
    """All legends and marks are visible from every position in the range."""


@message
def hidden_ink(owner: Word) -> None:
    """hidden ink of {owner}"""


@message
def hardware_shadows() -> None:
    """shadows of the hardware"""


@message
def shadows_of_one_eye() -> None:
    """shadows of the hardware for one eye"""


@message
def two_eyes(apart: Mm) -> None:
    """Eyes {apart} apart; only one eye sees the lighter areas."""


# --- the places of one part's legends


@message
def places_title(panel: Word, legends: Complete, ref: Word) -> None:
    """{panel}: places for {legends} of {ref}"""


@message
def places_note() -> None:
    """Green: chosen. Blue: free, with its cost. Orange: taken by another legend. Red: blocked."""


@message
def drawn_at(scale: Scale) -> None:
    """Scale {scale}."""


@message
def place_label(state: Word, form: Word) -> None:
    """{state}: {form}"""


@message
def leader_line() -> None:
    """leader"""


@message
def cost_label(cost: Count) -> None:
    """cost {cost}"""


# --- the drill template


@message
def drill_title(panel: Word, tile: Word) -> None:
    """{panel}: drill template, tile {tile}"""


@message
def drill_note_front() -> None:
    """Seen from the front, 1:1, cut sizes. Print at 100 %, not fitted to the page."""


@message
def drill_note_rear() -> None:
    """Seen from the rear, 1:1, cut sizes. Print at 100 %, not fitted to the page."""


@message
def scale_bar(length: Mm) -> None:
    """{length}: measure to check the scale"""


@message
def tile_front(tile: Word, across: Count, up: Count) -> None:
    """Tile {tile} of {across} × {up}, seen from the front"""


@message
def tile_rear(tile: Word, across: Count, up: Count) -> None:
    """Tile {tile} of {across} × {up}, seen from the rear"""


@message
def print_scale() -> None:
    """1:1, cut sizes: print at 100 %"""
