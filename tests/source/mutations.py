# ruff: noqa: E501  # a list that is looked through, not read
"""Random slips: characters and lines lost, doubled, swapped, or replaced by what is known to trouble readers."""

from __future__ import annotations

from hypothesis import strategies as st

NASTY = (
    ".nan", "-.inf", "1e999", "-1", "0", "1_000", "010", "12:30", "true", "null", "~", "ON", "[]", "{}", "[1, 2, 3]", "{a: b}",
    "''", '"\\u0000"', '"\\ud800"', "'{n}'", "{n}", "*a", "&a", "&a x", "!!int 3", "<<: *a", "- ", "? ", ": ", "#", "\t", "\r", "\u2028",
    "%", "@", "`", "|", ">", "'", '"', "é", "Ω", "\ufeff", "9" * 60, "x" * 300, "[" * 50, "{a: " * 50, "- - - -", "---", "...",
    "{from: S1, by: [0, 0]}", "{from: RV1, by: [1e300, 0]}", "{rack: 3}", "5 in", "1/0 in", "'5 mm'", "J{n}", "{{", "}}", "{m}",
)  # fmt: skip

_change = st.tuples(
    st.sampled_from(("drop", "insert", "value", "line out", "line twice", "lines swapped", "indent")),
    st.floats(0, 1, exclude_max=True),
    st.floats(0, 1, exclude_max=True),
    st.sampled_from(NASTY) | st.text(max_size=3),
)


def mutated(text: str, changes: list[tuple[str, float, float, str]]) -> str:
    for kind, here, there, new in changes:
        lines = text.split("\n")
        first, second = int(here * len(lines)), int(there * len(lines))
        at = int(here * len(text))
        match kind:
            case "drop":
                text = text[:at] + text[at + 1 + int(there * 4) :]
            case "insert":
                text = text[:at] + new + text[at:]
            case "value":
                colon = text.find(": ", at)
                if colon >= 0:
                    end = min((i for i in (text.find(c, colon + 2) for c in ",\n}") if i >= 0), default=len(text))
                    text = text[: colon + 2] + new + text[end:]
            case "line out":
                text = "\n".join(lines[:first] + lines[first + 1 :])
            case "line twice":
                text = "\n".join([*lines[:second], lines[first], *lines[second:]])
            case "lines swapped":
                lines[first], lines[second] = lines[second], lines[first]
                text = "\n".join(lines)
            case "indent":
                lines[first] = " " * int(there * 5) + lines[first]
                text = "\n".join(lines)
        if not text:
            return text
    return text


def slips(text: str) -> st.SearchStrategy[str]:
    """The text with one to five slips in it."""
    return st.lists(_change, min_size=1, max_size=5).map(lambda changes: mutated(text, changes))
