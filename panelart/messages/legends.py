"""What is said of legends: why one cannot be lettered, where it is and why, and what would make space for it."""

from panelart.messages import Complete, Count, Each, Mm, Thing, Word, counted, message

# --- names


@message
def legend_of(text: Thing, owner: Thing) -> None:
    """'{text}' of {owner}"""


@message
def frame_round(refs: Each) -> None:
    """the frame round {refs}"""


@message
def free_text() -> None:
    """the free text"""


@message
def feature_of(feature: Word, owner: Thing) -> None:
    """{feature} of {owner}"""


@message
def opening(name: Word) -> None:
    """opening {name}"""


@message
def keep_out(reason: Word) -> None:
    """keep-out ({reason})"""


@message
def edge() -> None:
    """edge of the area that can be marked"""


# --- what cannot be lettered


@message
def font_not_opened(legend: Thing, reason: Word) -> None:
    """{legend}: {reason}"""


@message
def not_lettered(legend: Thing, reason: Word) -> None:
    """{legend}: {reason}"""


@message
def direction_marks(legend: Thing) -> None:
    """{legend} contains invisible characters that steer the direction of the text"""


@message
def remove_direction_marks() -> None:
    """Remove them and set 'direction'."""


@message
def no_small_capitals(legend: Thing, font: Word) -> None:
    """{legend}: font '{font}' has no small capitals"""


@message
def other_case() -> None:
    """Write it in another case, or name a font with small capitals."""


@message
def no_other_zero(legend: Thing, font: Word) -> None:
    """{legend}: font '{font}' has no slashed or dotted 0"""


@message
def plain_zero() -> None:
    """Leave out 'zero' here, or name a font that has one; plain does."""


@message
def glyph_nowhere() -> None:
    """No font that the spec names has it. Write it with other characters, or name a font that has it."""


@message
def glyph_elsewhere(fonts: Each) -> None:
    """It is in {fonts}. List one of them under 'fallback', or make it the font of this legend."""


# --- saved placements


@message
def not_a_placement() -> None:
    """The file is not a saved placement"""


@message
def save_again() -> None:
    """Save the placement again with 'make --save-placement', or ignore it with '--ignore-placement'."""


# --- what would make space


@message
def other_side() -> None:
    """another side of the part"""


@message
def cap_height(height: Mm) -> None:
    """cap height {height}"""


@message
def moved_up(ref: Word, distance: Mm) -> None:
    """move {ref} up by {distance}"""


@message
def moved_down(ref: Word, distance: Mm) -> None:
    """move {ref} down by {distance}"""


@message
def moved_right(ref: Word, distance: Mm) -> None:
    """move {ref} to the right by {distance}"""


@message
def moved_left(ref: Word, distance: Mm) -> None:
    """move {ref} to the left by {distance}"""


# --- why a legend is where it is


@message
def placement(kind: Word, text: Thing, ref: Word, place: Word, proof: Word) -> None:
    """{kind} "{text}" of {ref}: {place}; the placement is {proof}"""


@message
def not_placed(kind: Word, text: Thing, ref: Word, proof: Word) -> None:
    """{kind} "{text}" of {ref}: not placed; the placement is {proof}"""


@message
def possible_change(change: Word) -> None:
    """possible change: {change}"""


@message
def no_choice(ref: Word) -> None:
    """{ref} has no legend with a choice of places"""


@message
def state_taken() -> None:
    """taken"""


@message
def state_free() -> None:
    """free"""


@message
def state_occupied() -> None:
    """occupied"""


@message
def state_blocked() -> None:
    """blocked"""


@message
def blocked_by(blockers: Complete) -> None:
    """blocked by {blockers}"""


@message
def reasons(reasons: Complete) -> None:
    """({reasons})"""


@message
def reason(reason: Word, cost: Count) -> None:
    """{reason} {cost}"""


@message
def form(parts: Complete) -> None:
    """{parts}"""


@message
def with_leader() -> None:
    """with a leader"""


@message
def tight() -> None:
    """tight"""


@message
def narrow() -> None:
    """narrow"""


@message
def hyphenated() -> None:
    """hyphenated"""


@counted("{count} lines")
def lines(count: Count) -> None:
    """{count} line"""


# --- what the cost of a place is made of


@message
def reason_wrap() -> None:
    """word wrap"""


@message
def reason_slide() -> None:
    """off centre"""


@message
def reason_farther_off() -> None:
    """farther off"""


@message
def reason_corner() -> None:
    """at a corner"""


@message
def reason_tight() -> None:
    """tight letters"""


@message
def reason_narrow() -> None:
    """narrow face"""


@message
def reason_hyphenated() -> None:
    """broken word"""


@message
def reason_over_throw() -> None:
    """over the throw"""


@message
def reason_beside_throw() -> None:
    """beside the throw"""


@message
def reason_side() -> None:
    """side"""


@message
def reason_leader() -> None:
    """leader"""


@message
def reason_leader_length() -> None:
    """length of the leader"""


@message
def reason_slant() -> None:
    """slant of the leader"""


@message
def reason_ambiguous() -> None:
    """another part as near"""


@message
def nearer_part(ref: Word) -> None:
    """nearness to {ref}"""


@message
def reason_overhang() -> None:
    """reaches beyond the middle to the next part"""


@message
def reason_parted() -> None:
    """number parted from its word"""


@message
def reason_staggered() -> None:
    """on the second level of a staggered row"""


@message
def reason_between() -> None:
    """beside another part about as near"""


@message
def reason_moved() -> None:
    """moved from the saved placement"""


@message
def reason_alike(count: Count) -> None:
    """like {count} others"""


@message
def reason_neighbours() -> None:
    """with its neighbours"""
