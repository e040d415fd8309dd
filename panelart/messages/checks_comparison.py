"""What changed between two panels."""

from panelart.messages import message


@message
def contents_of_file() -> None:
    """Contents"""
