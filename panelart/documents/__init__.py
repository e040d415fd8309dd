"""Documents: every file that `make` writes as one entry of a manifest, made from results that are worked out once.

What is wanted decides what is computed: for a file that is not written nothing is drawn, parted into plates, imported.
"""

from __future__ import annotations

from panelart.documents.choosing import Files, NoSuchDocumentError, chosen
from panelart.documents.document import ALWAYS, Audience, Document, When, document, family
from panelart.documents.manifest import DOCUMENTS, with_further
from panelart.documents.results import Need, Results, need

__all__ = [
    "ALWAYS",
    "DOCUMENTS",
    "Audience",
    "Document",
    "Files",
    "Need",
    "NoSuchDocumentError",
    "Results",
    "When",
    "chosen",
    "document",
    "family",
    "need",
    "with_further",
]
