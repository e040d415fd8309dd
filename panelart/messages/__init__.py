"""Every sentence that a user reads: an id, typed arguments, one English text. A module of sentences for each room.

Nothing here knows panels. Rules and declared fields have their sentences where they stand, in the same catalogue.
"""

from panelart.messages.arguments import (
    Count,
    Degrees,
    Each,
    Either,
    Listed,
    MeasuredMm,
    Mm,
    Number,
    Percent,
    PointMm,
    Quantity,
    Quoted,
    SizeMm,
    Thing,
    Word,
    quoted,
)
from panelart.messages.message import CATALOGUE, Declared, Message, Said, Sentence, counted, english, message, speaking

__all__ = [
    "CATALOGUE", "Count", "Declared", "Degrees", "Each", "Either", "Listed", "MeasuredMm", "Message", "Mm", "Number",
    "Percent", "PointMm", "Quantity", "Quoted", "Said", "Sentence", "SizeMm", "Thing", "Word", "counted", "english",
    "message", "quoted", "speaking",
]  # fmt: skip
