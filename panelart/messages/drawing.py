"""What drawings for machines say of themselves: titles, descriptions, notes beside the outline, labels."""

from panelart.messages import Complete, Count, Degrees, Number, TwoDecimals, Word, message

# --- artwork


@message
def artwork(panel: Word) -> None:
    """{panel}: artwork"""


@message
def artwork_note() -> None:
    """Seen from the front, 1:1, mm. Outline and openings at finished size, not printed."""


@message
def colour_of_face() -> None:
    """colour of the face, not printed"""


@message
def ink_on_process_plate(ink: Word, plate: Word) -> None:
    """Ink {ink} is the process colour of the plate {plate}."""


@message
def finished_outline() -> None:
    """finished outline"""


@message
def opening_finished(name: Word) -> None:
    """opening {name}, finished size"""


@message
def plate_area(layer: Word, area: TwoDecimals) -> None:
    """{layer}, {area} cm²"""


@message
def background(ink: Word, area: TwoDecimals) -> None:
    """background of {ink}, {area} cm²"""


@message
def gradient(inks: Complete, area: TwoDecimals) -> None:
    """background graded through {inks}, {area} cm²"""


@message
def picture(file: Word, area: TwoDecimals) -> None:
    """picture {file}, {area} cm²"""


@message
def trap(ink: Word) -> None:
    """trap of {ink}"""


@message
def feature_of(feature: Word, owner: Word) -> None:
    """{feature} of {owner}"""


# --- cut layer and masks


@message
def cutouts_from_front(panel: Word) -> None:
    """{panel}: cutouts, seen from the front"""


@message
def cutouts_from_rear(panel: Word) -> None:
    """{panel}: cutouts, seen from the rear"""


@message
def view_front() -> None:
    """Seen from the front, 1:1, mm."""


@message
def view_rear() -> None:
    """Seen from the rear, 1:1, mm."""


@message
def no_kerf() -> None:
    """No kerf applied."""


@message
def opening_cut(name: Word) -> None:
    """opening {name}, cut size"""


@message
def outline_cut() -> None:
    """outline, cut size"""


@message
def countersink_from_front(name: Word, angle: Degrees) -> None:
    """countersink {name}, {angle} from the front, not cut through"""


@message
def countersink_from_rear(name: Word, angle: Degrees) -> None:
    """countersink {name}, {angle} from the rear, not cut through"""


@message
def masks_from_front(panel: Word) -> None:
    """{panel}: masks, seen from the front"""


@message
def masks_from_rear(panel: Word) -> None:
    """{panel}: masks, seen from the rear"""


@message
def bare_front() -> None:
    """Areas that stay bare on the front, finished sizes."""


@message
def bare_rear() -> None:
    """Areas that stay bare on the rear, finished sizes."""


@message
def mask(name: Word, reason: Word) -> None:
    """mask {name}: {reason}"""


# --- the blank


@message
def blank_title(panel: Word) -> None:
    """{panel}: blank, seen from the front"""


@message
def blank_note() -> None:
    """Flat blank seen from the front, 1:1, mm."""


@message
def bend_lines_note() -> None:
    """Bend lines are the middle of each bend. No springback applied."""


@message
def opening_in(name: Word, surface: Word) -> None:
    """opening {name} in the {surface}, cut size"""


@message
def outline_of_blank() -> None:
    """outline of the blank"""


@message
def up() -> None:
    """up"""


@message
def down() -> None:
    """down"""


@message
def bend(step: Count, name: Word, angle: Degrees, direction: Word, radius: Number) -> None:
    """{step}. {name}: {angle} {direction}, R{radius}"""


@message
def bend_in_short(step: Count, name: Word) -> None:
    """{step}. {name}"""


@message
def bend_label(bend: Word) -> None:
    """bend {bend}"""


# --- notes beside the outline, in capitals where a mistake costs a panel


@message
def note_front() -> None:
    """SEEN FROM THE FRONT"""


@message
def note_rear() -> None:
    """SEEN FROM THE REAR"""


@message
def note_blank() -> None:
    """BLANK SEEN FROM THE FRONT"""


@message
def note_cut_sizes() -> None:
    """cut sizes"""


@message
def note_masks() -> None:
    """masks"""


@message
def note_bend_lines() -> None:
    """cut sizes, bend lines"""
