"""What lists have and a panel has not, in the languages that came last: told by its words, and no part by chance."""

from __future__ import annotations

import pytest

from panelart.lists.words import holds, words

BOARD = {
    "resistor": [
        "rezystor 10k 0,25W",
        "resistor 10k 1/4W",
        "motstånd 10k",
        "rezistor 10k 0,6W",
        "direnç 10k",
        "10k 抵抗 1/4W",
    ],
    "capacitor": [
        "kondensator elektrolityczny 100uF",
        "capacitor eletrolítico 100uF",
        "elektrolytkondensator 100 µF",
        "elektrolytický kondenzátor 100uF",
        "elektrolitik kondansatör 100uF",
        "電解コンデンサ 100uF 25V",
    ],
    "diode": [
        "dioda zenera 5V1",
        "ponte retificadora 1A",
        "likriktarbrygga",
        "usměrňovací můstek",
        "köprü diyot",
        "ブリッジダイオード",
    ],
    "chip": [
        "wzmacniacz operacyjny",
        "regulador de tensão",
        "spänningsregulator 5V",
        "operační zesilovač",
        "voltaj regülatörü",
        "オペアンプ",
    ],
    "relay": ["przekaźnik 12V", "relé 12V", "reläer 12V", "relé 24V", "röle 12V", "リレー 12V"],
}
ASIDE = {
    "cable": ["przewód zasilający", "cabo de força", "nätsladd", "síťová šňůra", "güç kablosu", "電源コード 2m"],
    "supply": [
        "zasilacz impulsowy 12V",
        "fonte de alimentação 12V",
        "nätadapter 12V",
        "napájecí zdroj 12V",
        "güç adaptörü",
        "ACアダプター 12V",
    ],
    "enclosure": ["obudowa metalowa", "caixa metálica", "frontpanel", "přístrojová skříň", "ön panel", "アルミケース"],
    "fastener": [
        "podkładka sprężysta M3",
        "arruelas M3",
        "brickor M3",
        "podložky M3",
        "somun M3",
        "六角スペーサ M3 10mm",
    ],
    "accessory": [
        "uchwyt diody LED 5mm",
        "suporte para LED 5mm",
        "lysdiodhållare 5mm",
        "objímka LED 5mm",
        "led yuvası 5mm",
        "LEDホルダー 5mm",
    ],
    "knob": [
        "gałka potencjometru",
        "botão para potenciômetro",
        "vridratt",
        "knoflík na potenciometr",
        "pot düğmesi",
        "ボリュームつまみ",
    ],
}


@pytest.mark.parametrize(
    ("kind", "text"), [(kind, text) for table in (BOARD, ASIDE) for kind, texts in table.items() for text in texts]
)
def test_what_is_no_part_of_a_panel_is_known_in_the_last_languages(kind: str, text: str) -> None:
    (named,) = (one for one in (*words().board, *words().aside) if one.name == kind)
    assert holds(text, named.phrases)


@pytest.mark.parametrize("text", ["nie montować", "não montar", "ej monterad", "neosazovat", "takılmayacak", "未実装"])
def test_what_is_not_fitted_is_told_in_the_last_languages(text: str) -> None:
    assert holds(text, words().unfitted)


@pytest.mark.parametrize(
    "text",
    [
        "cam lock 19 mm",  # lock: Swedish for a lid
        "Not-Aus Taster",  # not: Turkish for a note
        "BNC socket, chassis",  # chassis: Swedish for a housing
        "interruptor de alavanca para painel",  # painel: the place, where nothing else is said
        "ボルトメーター",  # ボルト: a bolt and a volt
        "borne de terra",
        "controlador de temperatura",
        "pulsgivare",  # givare: a sensor
    ],
)
def test_a_word_of_one_language_sets_no_part_of_another_aside(text: str) -> None:
    listed = [(one.name, phrase) for one in (*words().board, *words().aside) for phrase in one.phrases]
    assert [name for name, phrase in listed if holds(text, (phrase,))] == []


def test_a_stop_button_is_no_remark() -> None:
    assert not holds("Not-Aus Taster", words().notes)
