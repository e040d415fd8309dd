"""What the legibility sheet and its command say: who reads, and what is taken for what."""

from panelart.messages import (
    Clauses,
    Count,
    Degrees,
    Lettering,
    Mm,
    Number,
    Percent,
    Quoted,
    Thing,
    Word,
    counted,
    message,
)


@message
def title(panel: Word) -> None:
    """{panel}: legibility"""


@message
def as_seen(panel: Lettering) -> None:
    """{panel} as the reader sees it"""


@message
def as_printed(text: Lettering) -> None:
    """{text} as printed"""


@message
def both_eyes() -> None:
    """both eyes"""


@message
def one_eye() -> None:
    """one eye"""


@message
def reader(
    acuity: Number,
    age: Number,
    illuminance: Number,
    eyes: Word,
    height: Mm,
    aside: Mm,
    distance: Mm,
    resolved: Number,
) -> None:
    """Reader: acuity {acuity}, {age} years, {illuminance} lx. Eye position ({eyes}): height {height}, aside {aside},
    {distance} from the face. Resolved angle: {resolved} arcmin."""


@counted("{count} of {total} legends have characters that are taken for others in 1 % of readings or more.")
def misread_count(count: Count, total: Number) -> None:
    """{count} of {total} legends has characters that are taken for others in 1 % of readings or more."""


@message
def none_misread(total: Number) -> None:
    """None of {total} legends has characters that are taken for others in 1 % of readings or more."""


@message
def how_to_look() -> None:
    """Look closely: what is lost in these pictures is lost to the reader."""


@message
def scale_bar(length: Mm, angle: Degrees) -> None:
    """{length} on the face, {angle} for the eye"""


@message
def worst_words() -> None:
    """Likely to be misread: as printed, as seen"""


@message
def slip(character: Quoted, taken: Quoted, chance: Percent) -> None:
    """{character} as {taken} {chance}"""


@message
def mix_up(other: Thing, chance: Percent) -> None:
    """as {other} {chance}"""


@message
def legend_seen(what: Thing, height: Mm, angle: Number) -> None:
    """{what}, {height} high, {angle} arcmin"""


@message
def unreadable(size: Number, limit: Number) -> None:
    """too small to be read, {size} × the resolved angle; limit {limit} ×"""


@message
def slips(slips: Clauses) -> None:
    """{slips}"""


@message
def misread(legend: Word, slips: Clauses) -> None:
    """{legend}: {slips}"""
