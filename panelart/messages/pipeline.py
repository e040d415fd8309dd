"""What to change where the metal cannot be laid out."""

from panelart.messages import message


@message
def thinner_coat() -> None:
    """Reduce the coat thickness, or widen the necks and notches to more than twice the coat thickness."""


@message
def flanges_apart() -> None:
    """Change insets, lengths or corners of the flanges so that they do not overlap in the blank."""
