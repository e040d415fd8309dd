"""What makes a print file PDF/X-4 (ISO 15930-7), as far as that can be attained: intent, identifiers, conditions.

Written only with the profile of a printing condition, which the user names: none is assumed. There is no free program
that proves conformity; what is known of the rules is held to, and the file says that it was not proved.
"""

from __future__ import annotations

import datetime as dt
import hashlib
from typing import Final

from panelart.drawing.representation import Drawing
from panelart.model.printing import Output
from panelart.writers.pdf_objects import Name, ObjectFile, Ref

NO_DAY: Final = dt.date(2000, 1, 1)
"""PDF/X asks for dates; where none is given, one that is nobody's, so that the same spec gives the same bytes."""


def conformity(*, plain: bool, alpha: bool) -> bool:
    """Whether a file with an output intent may be called PDF/X-4: no device RGB, nothing blended without a space.

    Blending would be allowed within a group that names its colour space; production files have none of it.
    """
    return not plain and not alpha


def document_id(drawing: Drawing) -> str:
    """An identifier made of what the file is, the same for the same panel."""
    known = f"{drawing.title}\n{drawing.number}\n{drawing.revision}\n{drawing.spec}"
    digits = hashlib.sha256(known.encode("utf-8")).hexdigest()
    # Version 8 of RFC 9562: an identifier of one's own making.
    return f"uuid:{digits[:8]}-{digits[8:12]}-8{digits[13:16]}-8{digits[17:20]}-{digits[20:32]}"


def put_output_intent(file: ObjectFile, output: Output) -> Ref:
    """Write the printing condition with its whole profile (ISO 32000-1, 14.11.5)."""
    profile = file.stream(output.profile, {"N": 4})
    return file.put(
        {
            "Type": Name("OutputIntent"),
            "S": Name("GTS_PDFX"),
            "OutputConditionIdentifier": output.condition,
            "Info": output.condition,
            "DestOutputProfile": profile,
        }
    )
