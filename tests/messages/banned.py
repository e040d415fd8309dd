"""Words that no sentence for users has, and what to say instead: rules and glossary of the house's wording.

Each is a pattern that is looked for in a sentence without regard to capitals; names of keys, files and commands (in
quotes or backticks) and placeholders are taken out before. Good uses of the same word pass: that is what the
look-aheads are for, and tables of both are in `test_reading.py`.
"""

from __future__ import annotations

import re
from typing import Final

BANNED: Final[tuple[tuple[str, str], ...]] = (
    # Limits.
    (r"\b(?<!at )least\b|\b(?<!at )(?<!in )most\b", "minimum, maximum"),
    (r"\b(is|are|was|were) to (?!the\b|its\b|scale\b|your\b)[a-z]", "must, must not, should"),
    (r"\bwants?\b", "must, requires"),
    (r"\bbears?\b|\bborne\b", "the plain verb: carries, has, shows"),
    (r"\bstands?\b(?![ -]?offs?\b)|\bstood\b", "the plain verb: is, has, is at"),
    (r"\bcomes? to\b|\bends? up\b(?! to\b)", "is, gives"),
    # Results of checks.
    (r"\bslips?\b|\btroubles?\b", "error, finding"),
    (r"\bproblems?\b", "error (in a file), finding (of a check)"),
    (r"\b(held|hold|holds|holding) against\b", "checked against, compared with"),
    (r"\b(rest|rests|rested) on\b", "is based on; not from a data sheet"),
    (r"\b(of|into|out of) account\b", "ignored, considered"),
    (r"\btold\b|\btells?\b", "reported, shown, stated"),
    (r"\bmend(s|ed|ing)?\b|\bput (it |this |these |that |them )?right\b", "fix, correct"),
    (r"(?<!there )\b(is|are) no (?!longer\b|more\b)[a-z]+", "is not a, there is no"),
    (r"\bsays? (nothing|something|so)\b", "has no legend; states"),
    (r"\btak(e|es|en) (in|up)\b", "overlaps; adopts"),
    (r"\bways? out\b", "possible change, alternative"),
    # Geometry.
    (r"\bpieces? left out\b|\bleft out\b", "cutout, opening; omitted"),
    (r"\bmouths?\b", "countersink diameter"),
    (r"\bwhite (of|between|around|round|space|beside|above|below)\b|\b(no|enough) white\b", "clearance, spacing"),
    (r"\bmetal (left|in it)\b|\bleaves the cutter\b", "minimum web; cut size"),
    (r"\bbridges?\b(?= between)", "minimum web"),
    (r"\brooms?\b", "clearance, space, margin"),
    (r"\bturned by\b(?! -?\d)", "bend angle, rotated by"),
    (r"\bevery deviation\b", "at worst-case tolerances"),
    (r"\blands? off\b", "register error"),
    # Coats and films.
    (
        r"(?<!label )(?<!protective )(?<!overlay )(?<!masking )(?<!adhesive )\bfilms?\b(?! positives?\b| or\b)",
        "coat thickness; label film, protective film, film positive",
    ),
    # Spelling and tone.
    (r"\b(colors?|colored|centers?|centered|aluminum|gray|labeled|thru|millimeters?)\b", "British spelling"),
    (r"n['\N{RIGHT SINGLE QUOTATION MARK}]t\b", "no contraction"),
    (r"\bplease\b|\bsorry\b|\boops\b", "nothing"),
    (r"\breckon(s|ed|ing)?\b|\bto mind\b|\bheed(s|ed)?\b", "calculate; note"),
)
"""Pattern, and what to say."""

STATED: Final[tuple[tuple[str, str], ...]] = ((r"\bat most\b|\bat least\b(?! one\b)", "minimum, maximum"),)
"""As above, of what states a limit; an instruction may say how far to go: "Move the legend by at least 0.3 mm."."""

_COMPILED: Final = tuple((re.compile(pattern, re.IGNORECASE), instead) for pattern, instead in BANNED)
_COMPILED_STATED: Final = tuple((re.compile(pattern, re.IGNORECASE), instead) for pattern, instead in STATED)


def banned_in(prose: str, *, instruction: bool = False) -> list[str]:
    """What the prose has that it must not, each with what to say instead."""
    patterns = _COMPILED if instruction else (*_COMPILED, *_COMPILED_STATED)
    found = ((pattern.search(prose), instead) for pattern, instead in patterns)
    return [f"'{match[0]}': say {instead}" for match, instead in found if match]
