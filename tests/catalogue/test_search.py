"""Searches as people type them, against the kinds and the figures that were written down before (`queries.yaml`)."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import yaml
from msgspec.structs import replace

from panelart import catalogue
from panelart.catalogue.absent import absent
from panelart.catalogue.asked import asked
from panelart.catalogue.colours import not_sold_in
from panelart.catalogue.search import kinds_of, nearest_kinds, search, search_among, tokens_of
from panelart.catalogue.spelling import corrections
from panelart.catalogue.vocabulary import folded, pieces, vocabulary
from panelart.geometry import Box
from panelart.model.component import Component, Role
from panelart.model.look import Lit
from tests.commands import run_within


def table(name: str) -> list[dict[str, Any]]:
    read: list[dict[str, Any]] = yaml.safe_load((Path(__file__).parent / name).read_text("utf-8"))
    return read


QUERIES = table("queries.yaml")
SECOND = table("queries-second.yaml")
THIRD = table("queries-third.yaml")
FOURTH = table("queries-fourth.yaml")
MORE = table("queries-more-languages.yaml")
RIGHT = 0.95
"""The share of searches that must bring the kind that was meant, first, or tell that it is left out."""


def entry(name: str) -> Any:
    return catalogue.knob(name) if name in catalogue.knob_names() else catalogue.component(name)


def kinds_meant(query: dict[str, Any]) -> set[str]:
    return set(query["kind"]) if isinstance(query["kind"], list) else {query["kind"]}


def kinds_told(words: str) -> set[str]:
    """The kinds of what a search tells first: an entry, one of another size, or what is left out."""
    found = search(words)
    for name in (*found.parts, *found.knobs, *found.near):
        return set(kinds_of(entry(name)))
    return set(found.kinds) if absent(words, found) else set()


def holes(part: Component) -> list[Box]:
    bodies = [one.contour.bounds for one in part.openings if one.role in (Role.BODY, Role.APERTURE)]
    return bodies or [one.contour.bounds for one in part.openings]


def is_of_board(part: Component) -> bool:
    return " board" in part.title or part.name.endswith("-board")


def contradiction(part: Component, states: dict[str, Any]) -> str:
    """What of the stated figures the part's own figures and title deny, '' for nothing. Reads nothing of the search."""
    title = part.title.casefold()
    if "hole_mm" in states:
        stated = states["hole_mm"]
        if not any(stated - 0.25 <= side <= stated + 0.6 for box in holes(part) for side in (box.width, box.height)):
            return f"hole of {stated}"
    if "face_mm" in states:
        stated = states["face_mm"]
        sides = [side for one in part.front for side in (one.contour.bounds.width, one.contour.bounds.height)]
        if not any(abs(side - stated) < 1 for side in sides) and f"{stated} x {stated}" not in title:
            return f"face of {stated}"
    if "thread" in states:
        thread = states["thread"].casefold()
        if f" {thread} " not in f" {title.replace('pg ', 'pg').replace(',', ' ')} ":
            return f"thread {thread}"
    if "ways" in states and " way" in title and " to " not in title and f"{states['ways']} way" not in title:
        return f"{states['ways']} ways"
    if "board" in states and not is_of_board(part):
        return "a board"
    if "positions" in states and part.positions and len(part.positions) != states["positions"]:
        return f"{states['positions']} positions"
    return ""


def test_there_are_enough_in_every_language() -> None:
    assert len(QUERIES) >= 300
    by_language = [sum(query["language"] == code for query in QUERIES) for code in ("en", "de", "fr", "es", "it", "nl")]
    assert min(by_language) >= 15
    names = {kind.name for kind in vocabulary().kinds}
    assert set().union(*map(kinds_meant, (*QUERIES, *SECOND, *THIRD))) <= names
    assert len(SECOND) >= 120
    assert len(THIRD) >= 80
    assert {query["language"] for query in THIRD} == {"en", "de", "fr", "es", "it", "nl"}
    more = [sum(query["language"] == code for query in MORE) for code in ("pl", "pt", "sv", "cs", "tr", "ja")]
    assert min(more) >= 60
    assert sum(more) == len(MORE)
    assert set().union(*map(kinds_meant, MORE)) <= names
    every = [query["query"] for query in (*QUERIES, *SECOND, *THIRD, *MORE)]
    assert len(every) == len(set(every))


@pytest.mark.parametrize("queries", [QUERIES, SECOND, THIRD, MORE], ids=["first", "second", "third", "more languages"])
def test_the_right_kind_comes_first_or_is_told_as_left_out(queries: list[dict[str, Any]]) -> None:
    wrong = [query["query"] for query in queries if not kinds_told(query["query"]) & kinds_meant(query)]
    assert len(wrong) <= (1 - RIGHT) * len(queries), wrong


@pytest.mark.parametrize(
    "query", [one for one in (*QUERIES, *SECOND, *THIRD, *MORE) if "states" in one], ids=lambda query: query["query"]
)
def test_no_first_hit_contradicts_what_is_stated(query: dict[str, Any]) -> None:
    for name in search(query["query"]).parts[:1]:
        assert not contradiction(catalogue.component(name), query["states"]), name


@pytest.mark.parametrize("queries", [QUERIES, SECOND, THIRD, MORE], ids=["first", "second", "third", "more languages"])
def test_a_part_on_a_board_comes_first_only_where_it_is_asked_for_or_nothing_else_is_there(
    queries: list[dict[str, Any]],
) -> None:
    for query in queries:
        for name in search(query["query"]).parts[:1]:
            part = catalogue.component(name)
            if "board" not in query.get("states", {}) and is_of_board(part):
                others = [one for one in search(query["query"]).parts if not is_of_board(catalogue.component(one))]
                assert not others, (query["query"], name, others[0])


@pytest.mark.parametrize("words", [query["query"] for query in (*THIRD, *MORE) if query.get("lit")] + ["lit button"])
def test_what_lights_up_comes_first_where_it_is_asked_for(words: str) -> None:
    first = catalogue.component(search(words).parts[0])
    assert first.look is not None
    assert first.look.lit is not Lit.NEVER
    assert not is_of_board(first)


@pytest.mark.parametrize(
    "words",
    ["M23", "SC fibre", "LC", "SC", "Lichtwellenleiter", "fibre optique", "fibra ottica", "glasvezel", "TOSLINK",
     "optischer Digitalausgang", "sortie optique", "salida óptica", "uscita ottica", "optische uitgang", "DisplayPort",
     "DVI-Buchse", "SMB", "MCX", "C19", "Kaltgerätesteckdose C19", "prise C19", "hinge", "cerniera", "latch",
     "Vorreiber", "loquet", "cierre", "chiusura", "sluiting", "filter mat", "Filtermatte", "hour meter", "contaore",
     "joystick", "Steuerknüppel", "manette"],
)  # fmt: skip
def test_what_has_no_entry_for_the_panel_is_told_with_what_to_measure(words: str) -> None:
    found = search(words)
    told = absent(words, found)
    assert all(is_of_board(catalogue.component(name)) for name in found.parts)
    assert told
    for one in told:
        assert one.why
        assert one.instead


@pytest.mark.parametrize(
    ("words", "colours"),
    [
        ("violet pilot light 22", ("violet",)),
        ("Meldeleuchte violett", ("violet",)),
        ("pilot light 22 red", ()),
        ("Leuchttaster 22 mm rot", ()),
        ("lampje oranje", ()),  # the trade calls amber so
        ("voyant rose 22 mm", ("pink",)),
        ("emergency stop green", ("green",)),
        ("green screw M4", ()),  # nobody says in which colours it is sold
    ],
)
def test_a_colour_that_the_first_part_is_not_sold_in_is_told(words: str, colours: tuple[str, ...]) -> None:
    first = catalogue.component(search(words).parts[0])
    assert not_sold_in(words, first) == colours


def test_the_command_tells_the_colours_that_a_part_is_sold_in(tmp_path: Path) -> None:
    told = run_within("parts", "violet", "pilot", "light", "22", cwd=tmp_path)
    assert "pilot-22 is not sold in violet; it is sold in amber, blue" in told.stdout
    assert "not sold" not in run_within("parts", "red", "pilot", "light", "22", cwd=tmp_path).stdout


def test_a_press_nut_of_a_size_that_no_entry_has_is_no_rivet_nut() -> None:
    found = search("press nut M8")
    assert not found.parts
    assert all(name.startswith("press-nut") for name in found.near)
    assert search("nut M8").parts[:1] == ("rivet-nut-m8",)


def test_the_check_for_contradictions_sees_them() -> None:
    assert contradiction(catalogue.component("pushbutton-16"), {"hole_mm": 22.3})
    assert contradiction(catalogue.component("gland-m16"), {"thread": "M20"})
    assert contradiction(catalogue.component("dsub-25"), {"ways": 9})
    assert contradiction(catalogue.component("jack-35"), {"board": True})
    assert contradiction(catalogue.component("meter-48x48"), {"face_mm": 96})
    assert contradiction(catalogue.component("toggle-12"), {"positions": 3})


@pytest.mark.parametrize("words", ["pushbutton 25 mm", "fan 65 mm", "panel meter 55x55", "hole plug 13 mm"])
def test_a_size_that_no_entry_has_brings_near_sizes_and_no_hit(words: str) -> None:
    found = search(words)
    assert not found.parts
    assert 1 <= len(found.near) <= 4


@pytest.mark.parametrize("words", ["gland M18", "standoff M12", "PG13"])
def test_a_thread_that_no_entry_has_is_no_hit(words: str) -> None:
    assert not search(words).parts


@pytest.mark.parametrize(
    ("words", "same_as"),
    [
        ("pushbutton 22.5", "pushbutton 22"),  # the trade's word for the hole of 22.3 mm
        ("potentiometer 10k", "potentiometer"),  # ohms, volts and amperes are no sizes
        ("toggle switch 12 V", "toggle switch"),
        ("toggle switch 6 A 250 V", "toggle switch"),
        ("led 5 mm 20 mA", "led 5 mm"),
        ("BNC 50 ohm", "BNC"),
        ("Schluesselschalter", "Schlüsselschalter"),
        ("ARRET D'URGENCE", "arrêt d'urgence"),
        ("push-button", "push button"),
        ("red chassis mount BNC socket", "BNC"),
    ],
)
def test_two_ways_to_say_it_bring_the_same(words: str, same_as: str) -> None:
    assert search(words).parts == search(same_as).parts != ()


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("IEC C14 with fuse and switch", "iec-c14-switch-fuse"),
        ("Kaltgerätestecker C14 mit Sicherung und Schalter", "iec-c14-switch-fuse"),
        ("embase IEC avec fusible", "iec-c14-fuse"),
        ("toggle on-off-on", "toggle-12-3pos"),
        ("Zehngangpotentiometer", "pot-ten-turn"),
        ("jack 3.5", "jack-35"),
        ('1/4" jack', "jack-635"),
        ("PG11", "gland-pg11"),
        ("meter 48x96", "meter-48x96"),
        ("round rocker", "rocker-round-20"),
        ("fuse 1/4 x 1 1/4", "fuse-6x32"),
        ("ms26482-14", "ms26482-14"),
    ],
)
def test_what_is_said_beside_the_kind_chooses_among_its_entries(words: str, first: str) -> None:
    assert search(words).parts[:1] == (first,)


@pytest.mark.parametrize("words", ["scart socket", "flux capacitor", "10k", "230 V"])
def test_what_nobody_knows_brings_nothing(words: str) -> None:
    assert not search(words).parts


def test_a_kind_without_an_entry_is_told_with_what_to_do() -> None:
    (told,) = absent("thermostat")
    assert told.title == "Thermal switch"
    assert told.why
    assert told.instead


def test_the_nearest_kinds_are_told_where_nothing_is_found() -> None:
    assert "Emergency stop" in [kind.title for kind in nearest_kinds("emergncey stoppp")]
    assert nearest_kinds("10k") == ()


# --- what is soldered to a board, and what is called by its body or its sheet


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("vertical jack 3.5 pcb", "jack-35-board"),
        ("Kippschalter Leiterplatte", "toggle-mini-board"),
        ("jack 3.5", "jack-35"),
        ("usb", "usb-flange"),
        ("16 mm pot 1/4-32", "pot-1-4-32-16"),
        ("potentiometer 1/4-32 UNEF", "pot-1-4-32"),
        ("IEC C14 snap-in for 2 mm sheet", "iec-c14-snap-2.0"),
        ("rocker 29x14", "rocker-29x14"),  # by its trade size; the opening is 28.57 x 13.97
        ("process meter 1/32 DIN", "meter-48x24"),
        ("gland pg13.5", "gland-pg13.5"),
        ("lamp holder", "lamp-8"),
    ],
)
def test_the_form_that_is_said_comes_first(words: str, first: str) -> None:
    assert search(words).parts[:1] == (first,)


def test_a_socket_on_a_board_is_found_by_its_german_word() -> None:
    name, *_ = search("Printbuchse").parts
    assert is_of_board(catalogue.component(name))


# --- parts of one's own


def test_own_parts_are_searched_with_the_same_words() -> None:
    part = replace(catalogue.component("bnc"), name="house-7", family="house", title="Hour meter, 52 mm", words=())
    other = replace(part, name="house-8", title="Hour meter, 60 mm")
    for words in ("Betriebsstundenzähler", "hourmeter 52 mm", "compteur horaire", "house-7"):
        assert search_among(words, (part, other)).parts[:1] == ("house-7",)
    assert search_among("hour meter 60 mm", (part, other)).parts == ("house-8",)
    assert search_among("hour meter 70 mm", (part, other)).near
    assert search_among("toggle", (part, other)).parts == ()


# --- words


def test_words_are_compared_without_accents_and_capitals() -> None:
    assert folded("Potentiomètre Größe") == "potentiometre grosse"
    assert pieces("D-Sub 9, 19x13mm M2.5") == ("d", "sub", "9", "19", "x", "13", "mm", "m2.5")


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("toogle", "toggle"), ("swicth", "switch"), ("pushbuton", "pushbutton"), ("potentoimeter", "potentiometer"),
     ("red", "red"), ("qqqq", "qqqq"), ("10k", "10k")],
)  # fmt: skip
def test_slips_are_forgiven_and_nothing_else(typed: str, meant: str) -> None:
    assert corrections(typed, ("toggle", "switch", "pushbutton", "potentiometer", "rod")) == (meant,)


def test_of_words_as_near_the_one_is_meant_that_makes_more_of_the_others() -> None:
    assert set(corrections("potentiometr", ("potentiometre", "potentiometer"))) == {"potentiometre", "potentiometer"}
    assert search("slide potentiometr 100 mm").parts[:1] == ("fader-100",)


def test_figures_are_told_apart() -> None:
    stated = asked("panel fuse M12 12 mm 250 V 10k 4 pin 19x13 ø 8 shaft").stated
    assert stated.threads == ("m12",)
    assert 12.0 in stated.lengths
    assert 250.0 not in stated.dimensions
    assert 10.0 not in stated.dimensions
    assert [number for _, number in stated.counts] == [4]
    assert stated.sizes == ((19.0, 13.0, True),)


def test_entries_that_the_vocabulary_does_not_name_are_of_the_kind_their_title_names() -> None:
    part = catalogue.component("bnc")
    assert kinds_of(replace(part, name="house-7", family="house", title="Hour meter, 52 mm")) == ("hour-meter",)


def test_every_entry_is_of_a_kind() -> None:
    assert [name for name in catalogue.names() if not kinds_of(catalogue.component(name))] == []


# --- the command


def test_the_command_tells_near_sizes_and_nearest_kinds(tmp_path: Path) -> None:
    near = run_within("parts", "pushbutton", "25", "mm", cwd=tmp_path)
    assert near.returncode == 0
    assert "nearest" in near.stdout
    assert "pushbutton-22" in near.stdout
    nothing = run_within("parts", "emergncey", "stoppp", cwd=tmp_path)
    assert nothing.returncode == 0 or "Emergency stop" in nothing.stderr


def test_the_matcher_of_mistyped_words_waits_until_it_is_needed() -> None:
    program = (
        "import sys; from panelart.catalogue.search import search\n"
        "search('toggle switch 12 mm'); print('rapidfuzz' in sys.modules)\n"
        "search('toogle switch'); print('rapidfuzz' in sys.modules)\n"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["False", "True"]


@pytest.mark.parametrize("query", FOURTH, ids=lambda query: query["query"])
def test_what_no_entry_has_is_not_answered_with_another(query: dict[str, Any]) -> None:
    """The right entry first, or told that none has what is stated, or what is left out and what to measure."""
    words = query["query"]
    found = search(words)
    brought = (*found.parts, *found.knobs)

    def one_of(key: str) -> list[str]:
        return query[key] if isinstance(query[key], list) else [query[key]]

    if "first" in query:
        assert brought[0] in one_of("first")
    else:
        assert not brought
    if "near" in query:
        assert found.near[0] in one_of("near")
    if "absent" in query:
        (told, *_) = absent(words, found)
        assert told.name == query["absent"]
        assert told.instead


@pytest.mark.parametrize("query", [one for one in MORE if "first" in one], ids=lambda query: query["query"])
def test_the_entry_that_was_meant_comes_first_in_more_languages(query: dict[str, Any]) -> None:
    found = search(query["query"])
    meant = query["first"] if isinstance(query["first"], list) else [query["first"]]
    assert (*found.parts, *found.knobs)[0] in meant


@pytest.mark.parametrize("code", ["pl", "pt", "sv", "cs", "tr", "ja"])
def test_each_of_the_further_languages_alone_is_right(code: str) -> None:
    queries = [query for query in MORE if query["language"] == code]
    wrong = [query["query"] for query in queries if not kinds_told(query["query"]) & kinds_meant(query)]
    assert len(wrong) <= (1 - RIGHT) * len(queries), wrong


@pytest.mark.parametrize(
    ("words", "same_as"),
    [
        ("przełączniki dźwigniowe", "przełącznik dźwigniowy"),
        ("przelacznika dzwigniowego", "przełącznik dźwigniowy"),
        ("gniazda bananowe", "gniazdo bananowe"),
        ("botões de emergência", "botão de emergência"),
        ("tryckknappar", "tryckknapp"),
        ("páčkových přepínačů", "páčkový přepínač"),
        ("butonları", "buton"),
        ("isikli buton", "ışıklı buton"),
        ("ﾄｸﾞﾙｽｲｯﾁ", "トグルスイッチ"),
        ("ロータリーエンコーダ", "ロータリーエンコーダー"),
        ("BNCｺﾈｸﾀ", "BNC コネクタ"),
        ("１２ｍｍトグルスイッチ", "トグルスイッチ 12 mm"),
    ],
)
def test_other_forms_of_a_word_bring_the_same(words: str, same_as: str) -> None:
    assert search(words).parts == search(same_as).parts != ()


@pytest.mark.parametrize(
    ("words", "same_as"),
    [
        ("black COM banana socket", "black banana socket"),  # com: Portuguese for with
        ("RS232 COM port", "RS232 port"),
        ("mini din s video", "mini din video"),  # s: Czech for with
        ("4 mm socket DO red", "4 mm socket red"),  # do: Polish and Czech for to
        ("pushbutton 22 NO", "pushbutton 22"),  # no: Portuguese for in the; a normally open contact
        ("on off switch", "off on switch"),  # on: Turkish for ten
        ("knob med grey", "knob grey"),  # med: Swedish for with
        ("SMA jack", "SMA"),  # små: Swedish for small
        ("interruptor de palanca para panel", "interruptor palanca panel"),  # para: Polish for a pair
    ],
)
def test_a_joining_word_of_another_language_changes_nothing(words: str, same_as: str) -> None:
    assert search(words).parts == search(same_as).parts
    assert search(words).kinds == search(same_as).kinds


def test_the_other_forms_of_words_are_no_words_of_entries() -> None:
    written = {word for name in catalogue.names() for word in tokens_of(catalogue.component(name))}
    assert {form for form in vocabulary().short if form in written} <= {"conn", "ind"}


def test_japanese_is_parted_where_its_scripts_change() -> None:
    assert pieces("LEDブラケット φ8") == ("led", folded("ブラケット"), "8")
    assert pieces("非常停止用押ボタン") == ("非常停止用", "押", folded("ボタン"))
    assert pieces("9ピン") == ("9", folded("ピン"))
    assert folded("ﾎﾞﾘｭｰﾑ") == folded("ボリューム")


def test_there_are_enough_that_few_entries_have() -> None:
    assert len(FOURTH) >= 40
