"""Names that are opposites, in many languages, and which of the two is more.

What is more is up, to the right or clockwise (IEC 60447, from memory; the words by common practice). Pairs without that
order are opposites all the same.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from panelart.canonical import Struct
from panelart.texts.characters import folded


class Opposite(Struct, frozen=True):
    """Two names that are opposites: `less` and `more` in the order that hands expect, if the pair has one."""

    kind: str
    less: str
    more: str
    language: str
    directed: bool = True


_DIRECTED: Final = frozenset(
    ["power", "run", "amount", "level", "side", "height", "speed", "heat", "light", "change", "figure", "travel"]
)

_WORDS: Final[Mapping[str, str]] = {
    # kind less/more, parted by commas; several words for one by |
    "en": """power off|disable|disabled|disarm|disarmed|inactive/on|enable|enabled|arm|armed|active,
    run stop/start|run|go, amount min|minimum/max|maximum, level lo|low/hi|high, side left|l/right|r,
    height down|lower/up|raise, speed slow/fast, heat cold|cool/hot|warm, light dark|dim/bright,
    change decrease|less/increase|more, travel reverse|rev|back/forward|fwd, gate close|closed|shut/open,
    mode man|manual|hand/auto|automatic, place local/remote, way in|input|inlet|intake/out|output|outlet|exhaust,
    lock unlock|unlocked/lock|locked""",
    "de": """power aus|gesperrt|inaktiv|deaktiviert|unscharf/ein|an|freigegeben|aktiv|aktiviert|scharf,
    run halt|stopp/start|lauf, amount min|kleinst/max|größt, level niedrig|tief/hoch, side links/rechts,
    height ab|senken|unten/auf|heben|oben, speed langsam/schnell, heat kalt/warm|heiß, light dunkel/hell,
    change weniger/mehr, travel rückwärts|zurück/vorwärts|vor, gate zu|geschlossen/offen|auf,
    mode hand|manuell/automatik, place vor ort/fern, way eingang|einlass|zulauf/ausgang|auslass|ablauf,
    lock entriegeln/verriegeln""",
    "fr": """power arrêt|hors|hors service|hors tension|désactivé|éteint/marche|en service|sous tension|activé|allumé,
    amount min/max, level bas|faible/haut|fort|élevé, side gauche/droite,
    height descendre|descente|baisser|abaisser/monter|montée|lever, speed lent/rapide, heat froid/chaud,
    light sombre/clair, change moins/plus, travel arrière/avant, gate fermé|fermer/ouvert|ouvrir,
    mode manuel|manu/automatique, way entrée|arrivée|admission/sortie|départ|échappement""",
    "es": """power apagado|apag|desconectado|desact|desactivado/encendido|enc|conectado|act|activado,
    run parada|paro/marcha, amount mín/máx, level bajo/alto, side izquierda/derecha, height bajar|abajo/subir|arriba,
    speed lento/rápido, heat frío/caliente, change menos/más, travel atrás/adelante, gate cerrado|cerrar/abierto|abrir,
    mode manual/automático, way entrada/salida""",
    "it": """power spento|off|escluso|disattivato/acceso|inserito|attivato, run arresto|fermo/marcia|avvio,
    amount min/max, level basso/alto, side sinistra/destra, height giù|scende/su|sale, speed lento/veloce,
    heat freddo/caldo, change meno/più, travel indietro/avanti, gate chiuso|chiudi/aperto|apri,
    mode manuale/automatico, way ingresso/uscita""",
    "pt": """power desligado|desliga|desl|desativado/ligado|liga|lig|ativado, run parar/partir|arrancar,
    level baixo/alto, side esquerda/direita, height descer|baixo/subir|cima, speed lento|devagar/rápido,
    heat frio/quente, change menos/mais, travel atrás|ré/frente, gate fechado|fechar/aberto|abrir,
    way entrada/saída""",
    "nl": """power uit/aan, run stop/start, level laag/hoog, side links/rechts, height omlaag|neer/omhoog|op,
    speed langzaam/snel, heat koud/warm, change minder/meer, travel achteruit/vooruit, gate dicht|gesloten/open,
    way in|ingang|inlaat/uit|uitgang|uitlaat, mode hand/automatisch""",
    "sv": """power från|av/till|på, run stopp/start, level låg|lågt/hög|högt, side vänster/höger, height ned|ner/upp,
    speed långsam|långsamt/snabb|snabbt, heat kall/varm, change minska/öka, travel bakåt|back/framåt|fram,
    gate stängd/öppen, way ingång/utgång""",
    "da": """power fra|slukket/til|tændt, run stop/start, level lav/høj, side venstre/højre, height ned/op,
    speed langsom/hurtig, heat kold/varm, change mindre/mere, travel baglæns/frem, gate lukket/åben,
    way indgang/udgang""",
    "nb": """power av/på, run stopp/start, level lav/høy, side venstre/høyre, height ned/opp, speed sakte/hurtig,
    heat kald/varm, travel bakover/forover, gate lukket|stengt/åpen, way inngang/utgang""",
    "fi": """power pois|seis/päällä|päälle, run seis/käy|käynnistys, level matala/korkea, side vasen/oikea,
    height alas/ylös, speed hidas/nopea, heat kylmä/kuuma|lämmin, change vähemmän/enemmän, travel taakse/eteen,
    gate kiinni/auki, way tulo/lähtö""",
    "pl": """power wył|wyłączony|wyłącz/zał|wł|włączony|włącz, run stop/start, level niski/wysoki,
    side lewo|lewy/prawo|prawy, height dół|w dół/góra|w górę, speed wolno/szybko, heat zimny|zimno/gorący|ciepło,
    change mniej/więcej, travel wstecz/naprzód, gate zamknięty/otwarty, way wejście/wyjście,
    mode ręczny/automatyczny""",
    "cs": """power vyp|vypnuto/zap|zapnuto, run stop/start, level nízký|nízká/vysoký|vysoká,
    side vlevo|levý/vpravo|pravý, height dolů/nahoru, speed pomalu/rychle, heat studený|studená/horký|teplá,
    change méně/více, travel vzad/vpřed, gate zavřeno/otevřeno, way vstup/výstup""",
    "hu": """power ki/be, run állj/indul|start, level alacsony/magas, side bal/jobb, height le/fel, speed lassú/gyors,
    heat hideg/meleg, change kevesebb/több, travel hátra/előre, gate zárt|zárva/nyitott|nyitva, way bemenet/kimenet""",
    "tr": """power kapalı/açık, run dur|durdur/başla|başlat, level düşük|alçak/yüksek, side sol/sağ,
    height aşağı/yukarı, speed yavaş/hızlı, heat soğuk/sıcak, change azalt|az/artır|çok, travel geri/ileri,
    way giriş/çıkış""",
    "el": """power κλειστό|εκτός|off/ανοικτό|εντός, run στάση/εκκίνηση, level χαμηλό|χαμηλή/υψηλό|υψηλή,
    side αριστερά/δεξιά, height κάτω/πάνω|άνω, speed αργά/γρήγορα, heat κρύο/ζεστό, change λιγότερο/περισσότερο,
    travel πίσω/εμπρός, way είσοδος/έξοδος""",
    "ru": """power выкл|выключено|откл/вкл|включено, run стоп/пуск, amount мин/макс, level низкий/высокий,
    side лево|влево/право|вправо, height вниз/вверх, speed медленно/быстро, heat холодно|холод/тепло|горячо,
    change меньше/больше, travel назад/вперёд|вперед, gate закрыто/открыто, way вход/выход,
    mode ручной|руч/автоматический|авт""",
    "uk": """power вимк|вимкнено/увімк|ввімк|вкл|увімкнено|ввімкнено, run стоп/пуск|старт, amount мін/макс,
    level низький/високий, side ліворуч|вліво|ліво/праворуч|вправо|право, height вниз|униз/вгору|угору|вверх,
    speed повільно/швидко, heat холодно/тепло|гаряче, change менше/більше, travel назад/вперед|уперед,
    gate закрито/відкрито, way вхід/вихід, mode ручний|ручн/автоматичний|авт""",
    "bg": """power изкл|изключено/вкл|включено, run стоп/старт|пуск, amount мин/макс, level ниско|нисък/високо|висок,
    side ляво|наляво/дясно|надясно, height долу|надолу/горе|нагоре, speed бавно/бързо, heat студено/топло|горещо,
    change по-малко|малко/повече, travel назад/напред, gate затворено/отворено, way вход/изход,
    mode ръчно|ръчен/автоматично|автоматичен""",
    "sr": """power искљ|искључено|isklj|isključeno/укљ|укључено|uklj|uključeno, run стоп|stop/старт|start,
    level ниско|nisko/високо|visoko, side лево|levo/десно|desno, height доле|dole/горе|gore,
    speed споро|sporo/брзо|brzo, heat хладно|hladno/топло|toplo, change мање|manje/више|više,
    travel назад|nazad/напред|napred, gate затворено|zatvoreno/отворено|otvoreno, way улаз|ulaz/излаз|izlaz,
    mode ручно|ručno/аутоматски|automatski""",
    "hr": """power isklj|isključeno/uklj|uključeno, run stop|stani/start|kreni, level nisko/visoko, side lijevo/desno,
    height dolje/gore, speed sporo/brzo, heat hladno/toplo|vruće, change manje/više, travel natrag/naprijed,
    gate zatvoreno/otvoreno, way ulaz/izlaz, mode ručno/automatski""",
    "sl": """power izklop|izklj|izklopljeno/vklop|vklj|vklopljeno, run stop|ustavi/start|zaženi, level nizko/visoko,
    side levo/desno, height dol|navzdol/gor|navzgor, speed počasi/hitro, heat hladno/toplo|vroče, change manj/več,
    travel nazaj/naprej, gate zaprto/odprto, way vhod/izhod, mode ročno/samodejno|avtomatsko""",
    "sk": """power vyp|vypnuté/zap|zapnuté, run stop/štart, level nízky|nízka/vysoký|vysoká,
    side vľavo|ľavý/vpravo|pravý, height dole|nadol/hore|nahor, speed pomaly/rýchlo, heat studený|studená/horúci|teplá,
    change menej/viac, travel vzad/vpred, gate zatvorené/otvorené, way vstup/výstup, mode ručne/automaticky""",
    "ro": """power oprit|dezactivat/pornit|activat, run oprire|stop/pornire|start, level scăzut|jos/ridicat|înalt,
    side stânga/dreapta, height jos|coborâre/sus|urcare, speed lent|încet/rapid|repede, heat rece/cald|fierbinte,
    change mai puțin|puțin/mai mult|mult, travel înapoi/înainte, gate închis/deschis, way intrare/ieșire,
    mode manual/automat""",
    "ko": """power 꺼짐|끔/켜짐|켬, run 정지/시작|기동|운전, amount 최소/최대, level 저|낮음/고|높음,
    side 좌|왼쪽/우|오른쪽, height 하|아래|하강/상|위|상승, speed 저속|느리게/고속|빠르게, heat 냉/온,
    change 감소|적게/증가|많게, travel 후진/전진, gate 닫힘/열림, way 입력/출력, mode 수동/자동""",
    "fa": """power خاموش/روشن, run توقف|ایست/شروع|راه‌اندازی, amount کمینه|حداقل/بیشینه|حداکثر, level پایین/بالا,
    side چپ/راست, height پایین/بالا, speed کند/تند|سریع, heat سرد/گرم|داغ, change کمتر|کم/بیشتر|زیاد, travel عقب/جلو,
    gate بسته/باز, way ورودی/خروجی, mode دستی/خودکار""",
    "hi": """power बंद/चालू, run रोकें|बंद/शुरू|चलाएँ, amount न्यूनतम/अधिकतम, level निम्न/उच्च,
    side बाएँ|बायाँ|बाएं/दाएँ|दायाँ|दाएं, height नीचे/ऊपर, speed धीमा/तेज़, heat ठंडा/गरम|गर्म, change कम/अधिक|ज़्यादा,
    travel पीछे/आगे, gate बंद/खुला, way इनपुट|निवेश/आउटपुट|निर्गम""",
    "he": """power כבוי/פועל|מופעל, run עצור/התחל, level נמוך/גבוה, side שמאל/ימין, height מטה/מעלה, speed איטי/מהיר,
    heat קר/חם, change פחות/יותר, travel אחורה/קדימה, gate סגור/פתוח, way כניסה/יציאה, mode ידני/אוטומטי""",
    "ar": """power إيقاف/تشغيل, run توقف|قف/بدء|ابدأ, change أقل|خفض/أكثر|زيادة, travel خلف/أمام,
    level منخفض/مرتفع|عالي, side يسار/يمين, height أسفل/أعلى, speed بطيء/سريع, heat بارد/ساخن|حار, gate مغلق/مفتوح,
    way دخل/خرج""",
    "ja": """power 切|オフ/入|オン, run 停止/始動|運転, amount 最小/最大, level 低/高, side 左/右, height 下/上,
    speed 低速/高速, heat 冷/温|熱, change 減/増, gate 閉/開, way 入力|入口/出力|出口, mode 手動/自動""",
    "zh": """power 关|关闭/开|开启, run 停止/启动, amount 最小/最大, level 低/高, side 左/右, height 下|下降/上|上升,
    speed 慢|低速/快|高速, heat 冷/热, change 减/增, travel 后退/前进, gate 关闭|闭/打开|开启, way 输入|入口/输出|出口,
    mode 手动/自动""",
    "": "power 0|○|o/1|i, change -|−/+, height ▼|↓|▽/▲|↑|△, side ◀|←|◁/▶|→|▷",
}


_TRANSCRIBED: Final = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "å": "aa", "ø": "oe", "æ": "ae"})
"""What German and the Scandinavian languages write where the letter is not at hand (common practice)."""


def _spellings(word: str) -> tuple[str, ...]:
    """The letters of a word as people type it: without marks, or with two letters for one."""
    return tuple(dict.fromkeys((folded(word), folded(word.translate(_TRANSCRIBED)))))


def _pairs() -> dict[tuple[str, str], tuple[Opposite, ...]]:
    found: dict[tuple[str, str], list[Opposite]] = {}
    for language, written in _WORDS.items():
        for pair in written.split(","):
            kind, _, words = pair.strip().partition(" ")
            less, _, more = words.partition("/")
            for one in less.split("|"):
                for other in more.split("|"):
                    opposite = Opposite(kind, one, other, language, kind in _DIRECTED)
                    for names in itertools.product(_spellings(one), _spellings(other)):
                        found.setdefault(names, []).append(opposite)
    return {words: tuple(opposites) for words, opposites in found.items()}


_PAIRS: Final[Mapping[tuple[str, str], tuple[Opposite, ...]]] = MappingProxyType(_pairs())

LANGUAGES: Final = tuple(language for language in _WORDS if language)
"""Languages whose opposites are known."""


def _plain(name: str) -> str:
    """A name by its letters, whatever their case and marks."""
    return folded(" ".join(name.split()).rstrip("."))


def opposite(first: str, second: str, language: str = "") -> tuple[Opposite, int] | None:
    """The pair that two names are, and 1 where the second is more, -1 where the first is; 0 for pairs without order.

    Capitals and accents make no difference. None if they are no opposites, or are pairs of which some say one order and
    some the other: a pair of the language outweighs others then.
    """
    one, other = _plain(first), _plain(second)
    found = [(each, 1) for each in _PAIRS.get((one, other), ())]
    found += [(each, -1) for each in _PAIRS.get((other, one), ())]
    of_language = [each for each in found if each[0].language == language.lower().split("-")[0]]
    chosen = of_language or found
    if not chosen or len({turn for _, turn in chosen}) > 1:
        return None
    pair, turn = chosen[0]
    return pair, turn if pair.directed else 0


_BETWEEN: Final[Mapping[str, str]] = {
    "en": "med|medium|mid|middle|normal|norm|nominal|moderate",
    "de": "mittel|mitte|normal",
    "fr": "moy|moyen|moyenne|milieu|normal",
    "es": "medio|media|med|normal",
    "it": "medio|media|med|normale",
    "pt": "médio|média|normal",
    "nl": "midden|gemiddeld|normaal",
    "sv": "mellan|medel|mitten|normal",
    "da": "mellem|middel|midten|normal",
    "nb": "middels|midten|normal",
    "fi": "keski|keskitaso|normaali",
    "pl": "średni|średnia|średnio|środek",
    "cs": "střed|střední|středně",
    "hu": "közép|közepes",
    "tr": "orta",
    "el": "μεσαίο|μεσαία|μέση|μέτριο",
    "ru": "средний|средне|сред|норма",
    "uk": "середній|середньо|норма",
    "bg": "средно|среден|нормално",
    "sr": "средње|средња|srednje|нормално",
    "hr": "srednje|srednja|normalno",
    "sl": "srednje|srednja|normalno",
    "sk": "stred|stredný|stredne",
    "ro": "mediu|mijloc|normal",
    "ko": "중|중간|보통",
    "fa": "متوسط|میانه|وسط",
    "hi": "मध्यम|मध्य|सामान्य",
    "he": "בינוני|אמצע",
    "ar": "متوسط|وسط",
    "ja": "中|標準",
    "zh": "中|中等",
}
"""Words for what lies between less and more."""

_MIDDLES: Final = frozenset(
    spelling for words in _BETWEEN.values() for word in words.split("|") for spelling in _spellings(word)
)


def is_middle(name: str) -> bool:
    """Whether a position of this name lies between less and more, in any language: Medium, Mittel."""
    return _plain(name) in _MIDDLES


_AT_REST: Final = frozenset(
    less for (less, _), pairs in _PAIRS.items() if any(pair.kind in {"power", "run"} for pair in pairs)
)


def at_rest(name: str) -> bool:
    """Whether a position of this name is the one at rest, in any language: Off, 0, Stop."""
    return _plain(name) in _AT_REST
