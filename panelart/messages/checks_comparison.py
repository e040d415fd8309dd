"""What changed between two panels."""

from panelart.messages import Count, TwoDecimals, Word, message


@message
def contents_of_file() -> None:
    """Contents"""


@message
def cut_size() -> None:
    """cut size"""


@message
def legend(style: Word, text: Word) -> None:
    """{style} "{text}\""""


@message
def legends_moved(number: Count, first: Word) -> None:
    """{number} legends, the first {first},"""


@message
def text_of(style: Word) -> None:
    """{style}, text"""


@message
def cap_height_of(legend: Word) -> None:
    """{legend}, cap height"""


@message
def font_of(legend: Word) -> None:
    """{legend}, font"""


@message
def ink_of(legend: Word) -> None:
    """{legend}, ink"""


@message
def size_at(width: TwoDecimals, height: TwoDecimals, left: TwoDecimals, bottom: TwoDecimals) -> None:
    """{width} × {height} mm at ({left}, {bottom})"""
