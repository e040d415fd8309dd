"""Every sentence that a user reads: an id, typed arguments, one English text. A module of sentences for each room.

Nothing here knows panels. Rules and declared fields have their sentences where they stand, in the same catalogue.
"""

from panelart.messages.arguments import (
    Complete,
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
    Quoted,
    Scale,
    Sentences,
    SizeMm,
    Thing,
    TwoDecimals,
    Word,
    quoted,
)
from panelart.messages.message import CATALOGUE, Declared, Message, Said, Sentence, counted, english, message, speaking

__all__ = [
    "CATALOGUE", "Complete", "Count", "Declared", "Degrees", "Each", "Either", "Listed", "MeasuredMm", "Message", "Mm",
    "Number", "Percent", "PointMm", "Quoted", "Said", "Scale", "Sentence", "Sentences", "SizeMm", "Thing",
    "TwoDecimals", "Word", "counted", "english", "message", "quoted", "speaking",
]  # fmt: skip
