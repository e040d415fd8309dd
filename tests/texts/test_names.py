"""Opposite names in many languages and which is more; names that look like others."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelart.texts.lookalikes import alike, meant, mixed_scripts
from panelart.texts.opposites import LANGUAGES, opposite
from panelart.texts.parse import parse
from panelart.texts.runs import Designation, Word

# Words of switches as makers print them (common practice), written for this test: less first.
PAIRS = [
    ("en", "OFF", "ON"),
    ("en", "Stop", "Start"),
    ("en", "MIN", "MAX"),
    ("en", "Down", "Up"),
    ("en", "REV", "FWD"),
    ("de", "AUS", "EIN"),
    ("de", "Links", "Rechts"),
    ("de", "ZURÜCK", "VOR"),
    ("fr", "ARRÊT", "MARCHE"),
    ("fr", "Gauche", "Droite"),
    ("es", "Apagado", "Encendido"),
    ("es", "BAJAR", "SUBIR"),
    ("it", "Spento", "Acceso"),
    ("pt", "Desligado", "Ligado"),
    ("nl", "UIT", "AAN"),
    ("sv", "FRÅN", "TILL"),
    ("da", "FRA", "TIL"),
    ("nb", "AV", "PÅ"),
    ("fi", "ALAS", "YLÖS"),
    ("pl", "WYŁ.", "ZAŁ."),
    ("cs", "VYP", "ZAP"),
    ("hu", "LE", "FEL"),
    ("tr", "KAPALI", "AÇIK"),
    ("tr", "GERİ", "İLERİ"),
    ("el", "ΚΆΤΩ", "ΠΆΝΩ"),
    ("ru", "ВЫКЛ", "ВКЛ"),
    ("ru", "СТОП", "ПУСК"),
    ("he", "כבוי", "פועל"),
    ("ar", "إيقاف", "تشغيل"),
    ("ja", "切", "入"),
    ("zh", "关", "开"),
    ("en", "Disable", "Enable"),
    ("en", "DISARM", "ARM"),
    ("en", "Disarmed", "Armed"),
    ("fr", "HORS SERVICE", "EN SERVICE"),
    ("fr", "Hors", "En service"),
    ("fr", "Désactivé", "Activé"),
    ("de", "Gesperrt", "Freigegeben"),
    ("pt", "DESL", "LIG"),
    ("pt", "DESL.", "LIG."),
    ("es", "Apag.", "Enc."),
    ("sk", "VYP", "ZAP"),
    ("sk", "Menej", "Viac"),
    ("uk", "ВИМК", "УВІМК"),
    ("uk", "Вниз", "Вгору"),
    ("uk", "Ліворуч", "Праворуч"),
    ("uk", "Стоп", "Пуск"),
    ("uk", "Менше", "Більше"),
    ("bg", "ИЗКЛ", "ВКЛ"),
    ("bg", "Надолу", "Нагоре"),
    ("bg", "Ляво", "Дясно"),
    ("bg", "Стоп", "Старт"),
    ("bg", "По-малко", "Повече"),
    ("ro", "Oprit", "Pornit"),
    ("ro", "Jos", "Sus"),
    ("ro", "Stânga", "Dreapta"),
    ("ro", "Oprire", "Pornire"),
    ("ro", "Mai puțin", "Mai mult"),
    ("hr", "ISKLJ", "UKLJ"),
    ("hr", "Dolje", "Gore"),
    ("hr", "Lijevo", "Desno"),
    ("hr", "Manje", "Više"),
    ("sl", "IZKLOP", "VKLOP"),
    ("sl", "Navzdol", "Navzgor"),
    ("sl", "Levo", "Desno"),
    ("sl", "Manj", "Več"),
    ("sr", "ИСКЉ", "УКЉ"),
    ("sr", "Доле", "Горе"),
    ("sr", "Лево", "Десно"),
    ("sr", "Мање", "Више"),
    ("sr", "Dole", "Gore"),
    ("ko", "꺼짐", "켜짐"),
    ("ko", "아래", "위"),
    ("ko", "좌", "우"),
    ("ko", "정지", "시작"),
    ("ko", "감소", "증가"),
    ("fa", "خاموش", "روشن"),
    ("fa", "پایین", "بالا"),
    ("fa", "چپ", "راست"),
    ("fa", "توقف", "شروع"),
    ("fa", "کمتر", "بیشتر"),
    ("he", "פחות", "יותר"),
    ("ar", "أقل", "أكثر"),
    ("ar", "توقف", "بدء"),
    ("hi", "बंद", "चालू"),
    ("hi", "नीचे", "ऊपर"),
    ("hi", "बाएँ", "दाएँ"),
    ("hi", "रोकें", "शुरू"),
    ("hi", "कम", "अधिक"),
    ("", "0", "1"),
    ("", "O", "I"),
    ("", "−", "+"),
    ("", "▼", "▲"),
]


@pytest.mark.parametrize(("language", "less", "more"), PAIRS)
def test_the_two_are_opposites_and_the_second_is_more(language: str, less: str, more: str) -> None:
    forwards, backwards = opposite(less, more, language), opposite(more, less, language)
    assert forwards is not None
    assert backwards is not None
    assert forwards[0].language == language
    assert (forwards[1], backwards[1]) == (1, -1)
    assert opposite(less, more) is not None


def test_there_are_more_than_ten_languages() -> None:
    assert len(LANGUAGES) >= 20
    assert {language for language, _, _ in PAIRS} - {""} == set(LANGUAGES)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("IN", "OUT"),
        ("MAN", "AUTO"),
        ("Local", "Remote"),
        ("Eingang", "Ausgang"),
        # A valve closes clockwise and a tap opens to the left: open and closed have no order of their own (IEC 60447).
        ("Closed", "Open"),
        ("AUF", "ZU"),
        ("INLET", "OUTLET"),
        ("In", "Uit"),
        ("Закрито", "Відкрито"),
        ("Затворено", "Отворено"),
        ("Închis", "Deschis"),
        ("Zatvoreno", "Otvoreno"),
        ("Zaprto", "Odprto"),
        ("닫힘", "열림"),
        ("بسته", "باز"),
        ("סגור", "פתוח"),
        ("बंद", "खुला"),
    ],
)
def test_opposites_without_an_order(one: str, other: str) -> None:
    for first, second in ((one, other), (other, one)):
        found = opposite(first, second)
        assert found is not None
        assert found[1] == 0


@pytest.mark.parametrize(("one", "other"), [("ON", "ON"), ("ON", "LEFT"), ("GAIN", "LEVEL"), ("", ""), ("UP", "OFF")])
def test_others_are_no_opposites(one: str, other: str) -> None:
    assert opposite(one, other) is None


@given(st.text(max_size=12), st.text(max_size=12))
def test_any_two_names_are_taken(first: str, second: str) -> None:
    there, back = opposite(first, second), opposite(second, first)
    assert (there is None) == (back is None)
    assert there is None or there[1] == -back[1] or first == second


@pytest.mark.parametrize(
    ("name", "word"),
    [
        ("lnput", "input"),
        ("0utput", "output"),
        ("OUTPUT", None),
        ("Input", None),
        ("Ievel", "level"),
        ("VOlUME", None),
        ("Pоwer", "power"),
        ("ΟΝ", "on"),
        ("Aiarm", None),
        ("Alarrn", "alarm"),
        ("GAIN", None),
        ("Gewinn", None),
        ("1N", None),  # one pole and neutral, one newton, the diodes
        ("0N", "on"),
    ],
)
def test_a_name_that_looks_like_a_usual_word(name: str, word: str | None) -> None:
    assert meant(name) == word


@pytest.mark.parametrize(
    ("name", "word"),
    [
        ("LNPUT", "input"),  # lnput, raised
        ("FAUIT", "fault"),  # fauIt, raised
        ("0UTPUT", "output"),
        ("SlGNAl".upper(), "signal"),
        ("INPUT", None),
        ("FAULT", None),
        ("CLIP", None),
        ("LINE", None),
        ("HORN", None),
        ("MLC", None),
    ],
)
def test_names_that_were_misread_before_they_took_capitals(name: str, word: str | None) -> None:
    assert meant(name) == word


def test_a_word_with_a_figure_for_a_letter_is_a_word() -> None:
    assert [type(means) for means in parse("0utput").meanings()] == [Word]
    assert [type(means) for means in parse("1N4148").meanings()] == [Designation]


@pytest.mark.parametrize(
    ("word", "scripts"),
    [
        ("Pоwer", ("CYRILLIC", "LATIN")),
        ("POWER", ()),
        ("МОЩНОСТЬ", ()),
        ("Αlpha", ("GREEK", "LATIN")),
        ("µA", ()),
        ("kΩ", ()),
        ("電源A", ()),
    ],
)
def test_letters_of_two_scripts_in_one_word(word: str, scripts: tuple[str, ...]) -> None:
    assert mixed_scripts(word) == scripts


def test_different_names_of_one_shape() -> None:
    assert alike(["Input", "Output", "lnput", "INPUT", "CH1", "CHl"]) == (("Input", "lnput"), ("CH1", "CHl"))
