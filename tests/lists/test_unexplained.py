"""Words that a part does not explain: the row is asked about, with those words. Beside each a row that is taken.

Which words turn a part into another is common practice of the trade (a button with an illuminated ring, a meter of
another size, a trimmer on a board, a knob for a shaft); sizes of bezels and holes are the catalogue's own.
"""

from __future__ import annotations

import pytest

from panelart.lists.listed import Item
from panelart.lists.matching import Matcher
from panelart.lists.read import read_list

MATCHER = Matcher()


def only(row: str, head: str = "description") -> Item:
    """The item of a list of one row."""
    (item,) = read_list(f"{head};quantity\n{row};1\n".encode(), "list.csv", MATCHER).items
    return item


@pytest.mark.parametrize(
    ("taken", "part", "asked", "word"),
    [
        ("push button 22 mm", "pushbutton-22", "push button 22 mm tandem", "tandem"),
        ("panel meter 48x48", "meter-48x48", "panel meter periscope 48x48", "periscope"),
        ("XLR socket female, panel", "xlr", "XLR socket female, panel, cover", "cover"),
        ("seven segment display 4 digits 10 mm", "digits-10-x4", "seven segment display 4 digits 13 mm", ""),
        ("D-sub 15 male", "dsub-15", "D-sub 15 male with cable 2 m", "cable"),
        ("push button 16 mm", "pushbutton-16", "push button 16 mm for shaft 6", "shaft"),
        ("LED 5 mm in plastic clip", "led-5-clip", "cover for LED 5 mm", "cover for"),
    ],
)
def test_a_word_that_is_not_the_parts_is_asked_about(taken: str, part: str, asked: str, word: str) -> None:
    assert only(taken).component == part
    item = only(asked)
    assert item.component is None
    assert not word or any(word in one for one in item.candidates[0].differs)


@pytest.mark.parametrize(
    "words",
    [
        "push button 22 mm, black",
        "push button 22 mm, brass, nickel plated, IP67",
        "push button 22 mm for the bilge pump",
        "push button 22 mm WXYZ",  # in capitals among small letters: a legend
        "push button 22 mm (remember the periscope)",  # a word that nobody knows, in a clause of its own
        "push button 22 mm momentary SPST 3 A",
        "Drucktaster 22 mm, Messing, Quittieren",
        "bouton poussoir 22 mm affleurant, laiton, marche",
        "push buton 22 mm",  # mistyped
    ],
)
def test_words_that_say_nothing_of_the_opening_do_not_matter(words: str) -> None:
    assert only(words).component == "pushbutton-22"


def test_what_stands_in_a_cell_of_its_own_is_no_form() -> None:
    listed = read_list(b"value;description;quantity\nperiscope;push button 22 mm;1\n", "list.csv", MATCHER)
    assert [item.component for item in listed.items] == ["pushbutton-22"]


@pytest.mark.parametrize(("remark", "part"), [("black", "buzzer-22"), ("12 mm", None), ("pcb edge", None)])
def test_a_column_that_nobody_knows_is_held_against_the_part(remark: str, part: str | None) -> None:
    rows = f"description;zzz;quantity\nbuzzer 22 mm;{remark};1\nresistor;;4\n"
    (item,) = read_list(rows.encode(), "list.csv", MATCHER).items
    assert item.component == part
