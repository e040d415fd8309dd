"""What marking is seen against."""

from panelart.messages import Word, message


@message
def background(ink: Word) -> None:
    """the background of {ink}"""


@message
def label_film() -> None:
    """the label film"""
