"""Words that matter to the reading of texts: those that look like units, those that name what a unit measures.

All are as they stand on panels (common practice). Keys are in small letters unless the case tells.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final


def listed(words: str) -> tuple[str, ...]:
    """Words parted by spaces, each on its own."""
    return tuple(words.split())


UNIT_WORDS: Final[Mapping[str, Mapping[str, str]]] = MappingProxyType(
    {
        "cs": {"r": "ot", "h": "hod"},
        "da": {"r": "omdr o"},
        "de": {"r": "U Umdr", "h": "Std"},
        "el": {"r": "στρ", "min": "λεπ λεπτό", "s": "δευτ", "h": "ώρα"},
        "fi": {"r": "kierr"},
        "fr": {"r": "tr trs tours", "min": "mn"},
        "hu": {"r": "ford", "min": "perc", "s": "mp", "h": "óra"},
        "it": {"r": "giri"},
        "nb": {"r": "omdr o"},
        "nl": {"r": "omw o"},
        "pl": {"r": "obr", "h": "godz"},
        "pt": {"r": "rot"},
        "ro": {"r": "rot"},
        "ru": {"r": "об", "min": "мин", "s": "с сек", "h": "ч час"},
        "sl": {"r": "vrt"},
        "sr": {"r": "о обр"},
        "sv": {"r": "varv", "h": "tim"},
        "tr": {"r": "dev", "min": "dk", "s": "sn", "h": "sa"},
        "uk": {"r": "об", "min": "хв", "s": "с сек"},
    }
)
"""Words and signs of other languages that stand for units of a revolution and of time: dev/dk, obr/min.

As makers print them (common practice). They are units exactly as they stand here, since SN and SA are names.
"""

WHOLE_WORDS: Final = frozenset(listed("λεπτό ώρα óra tours час"))
"""Those of them that are words when no stroke stands before them."""

COUNT_WORDS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "pcs": "pc pce pces Stk Stck Stück шт ks kpl szt adet ud uds pz pezzi pièces piezas peças stuks stykker",
        "strokes": "stroke Hub Hübe Hb ход ходов coups golpes colpi slag",
        "cycles": "cycle cyc Zyklen Takte cykli cicli ciclos цикл циклов cycli cykler",
        "beats": "beat Schläge",
        "imp": "Imp pulses pulse pulsos impulsi имп",
    }
)
"""Words of many languages for what machines and meters count by the minute, the litre: Stk/min, шт/ч, Imp/l.

As makers print them (common practice). They are units beside a stroke only, but for `pcs` and its short forms.
"""

_SHORT: Final = frozenset(listed("pcs pc pce Stk Stck шт szt"))
"""Short forms that are no words anywhere, so that a number before them is enough."""

COUNTED_THINGS: Final = (
    frozenset(listed("strokes cycles beats")) | {word for words in COUNT_WORDS.values() for word in words.split()}
) - _SHORT

YEARS: Final = frozenset(
    listed("yy yyyy YY YYYY jj jjjj JJ JJJJ aa aaaa AA AAAA rr rrrr RRRR åååå ÅÅÅÅ vvvv VVVV éééé гг гггг ГГГГ εεεε")
)
"""Letters that stand for the figures of a year, in the languages that have their own (common practice)."""

FORMAT: Final = YEARS | frozenset(
    listed(
        "h hh H HH m mm min M MM s ss sec S SS d dd D DD t tt T TT j J a A g gg G GG p pp k kk n nn ff fff Std Min Sek"
    )
    + listed("ss.ms s.ms ч чч ЧЧ м мм ММ с сс СС д дд ДД год хв ω ωω λ λλ δ δδ η ηη μ μμ sa dk sn")
)
"""Letters that stand for the figures of a time or a date."""

MONTHS: Final = frozenset(listed("mm MM мм ММ μμ"))
"""Letters that stand for the figures of a month."""

FUNCTIONS: Final = frozenset(listed("cos sin tan cot ημ συν εφ σφ"))
"""What a small Greek letter behind it is the angle of; the Greek ones as schools in Greece write them."""

EITHER: Final = frozenset(
    listed("in min bar cd mil at as am pm pt div oct dec rad mol var bit baud cal rev gal ha kat sr px lb oz")
    + listed("мин бар бит rem dk sn sa mp mn perc hod godz tim сек хв")
)
"""Symbols of units that are words as well when they stand alone in small letters."""

PLAIN: Final = frozenset(
    listed(
        """in out min max sec bar mil mol rad var bit baud dec div oct rev cal gal mic key lo hi kat px nc na pa pc
    dm as am pm ps fs gs ta mc sr ha lu tr sq hr ch mi kn pn ns kt pf gal fc mp da kp nl sps vcc vca cv mo go
    ko"""
    )
)
"""Words in capitals or with a capital that a unit's letters make by chance."""

AFTER_NUMBERS: Final = frozenset(listed("in out dec oct rev cal at as am pm pc na nc pa tr ch CV"))
"""Those of them that are words behind a number too, unless they are written as the unit is."""

TO: Final = frozenset(listed("to bis til till tot do до até à"))
"""Words between two values that make a range of them; `a` is left out, since its capital is an ampere."""

AFTER_NUMBERS_ONLY: Final = frozenset(
    listed("Go Mo ko To Kio Mio Gio Tio CV ips spm cph dpi ppi pps PPS IU IE UI МЕ pcs pc pce Stk Stck шт szt Wth Wel")
)
"""Symbols that are words or names where no number, bracket or stroke stands beside them: Go."""

OF_LANGUAGE: Final[Mapping[str, tuple[str, str]]] = MappingProxyType(
    {
        "год": ("uk", "h"),
        "To": ("fr", "To"),
        "ch": ("fr", "CV"),
        "cv": ("es fr it pt", "CV"),
        "hk": ("da nb sv", "PS"),
        "pk": ("nl", "PS"),
        "KM": ("pl", "PS"),
        "LE": ("hu", "PS"),
        "BG": ("tr", "PS"),
    }
)
"""What is a unit behind a number in some languages only, and which: in Russian год is a year, in English To a word.

Horsepower by the short forms of its names (common practice).
"""

LABELS: Final = frozenset(
    listed(
        """ch chan channel kanal canal canale kanaal port slot bank zone no nr step preset program prog scene track bus
    group page sensor mic mikrofon micro phase mode class klasse position pos stage axis relay"""
    )
)
"""Words that a number behind them counts: CH 1."""

COUNTED: Final = frozenset(
    listed(
        """in input out output aux eingang ausgang entrée sortie ingresso uscita entrada shelf row column line level
        rack bay tray drawer bin floor room door lane field tier fach reihe spalte zeile ebene regal feld étage rangée
        ligne fila línea nivel riga livello rad nivå sıra kat είσοδος έξοδος σειρά"""
    )
)
"""Words that a number behind them may count or measure: INPUT 1 V, SHELF 3 g."""

WITHIN: Final = frozenset(listed("in en w v i σε"))
"""What leads from the name of a value to its unit: Rate in s, Temps en s."""

SPELT: Final = frozenset(
    listed("min sec bar mol mil bit baud")
    + listed("ohm ohms volt volts amp amps ampere watt watts secs sek mins deg inch inches feet hertz bits")
)
"""Names and short forms of units, which capitals take when they are written as words: 5 Min, 12 volts."""

PAIRED: Final = frozenset(listed("out outs aus"))
"""What stands beside a number of inputs: 2 in 1 out."""

FUSE: Final = frozenset(
    listed(
        """fuse fuses sicherung sicherungen fusible fusibles fusibile fusibili zekering säkring sulake pojistka
    bezpiecznik"""
    )
) | {"предохранитель", "ασφάλεια", "sikring", "fusível"}
"""The word fuse."""

MAINS: Final = frozenset(
    listed(
        """mains power line netz secteur réseau alimentation red alimentación rete alimentazione rede nät nett net
    verkko sieć zasilanie síť hálózat şebeke δίκτυο сеть питание רשת"""
    )
)
"""What the switch of the mains is named."""

OUTPUT: Final = frozenset(
    listed(
        """output outputs out outlet outlets ausgang ausgänge abgabe sekundär secondary sortie sorties salida salidas
    uscita uscite saída saídas utgång utgang udgang uitgang lähtö wyjście výstup kimenet ieșire çıkış έξοδος выход вихід
    出力 输出 輸出 출력 יציאה"""
    )
)
"""What stands before the rating of what a device gives."""

INPUT: Final = frozenset(
    listed(
        """input inputs in inlet eingang primär primary entrée entrées entrada entradas ingresso ingressi ingång inngang
    indgang ingang tulo wejście vstup bemenet intrare giriş είσοδος вход вхід 入力 输入 輸入 입력 כניסה"""
    )
)
"""What stands before the rating of what a device takes."""

EARTH: Final = frozenset(
    listed(
        """earth ground gnd pe protective ⏚ erde schutzleiter schutzerde terre tierra terra aarde jord maa uziemienie
    zem uzemnění föld toprak γείωση земля заземление הארקה"""
    )
)
"""What a terminal of the protective conductor is named, and its symbol (IEC 60417-5017)."""

ATTENUATION: Final = frozenset(
    listed(
        """attenuation attenuator atten att attn pad abschwächung abschwächer dämpfung atténuation atténuateur
    atenuación atenuador attenuazione attenuatore atenuação verzwakking verzwakker dämpning dempning dæmpning vaimennus
    tłumienie tłumik útlum csillapítás zayıflatma εξασθένηση ослабление аттенюатор 減衰 衰减 衰減"""
    )
)
"""What attenuates: less of it is more of what comes through."""

DUTY: Final = frozenset(["duty", "betriebsart", "service", "servizio", "servicio", "drift"])
"""What stands before a duty type that has no duration."""

BLOWS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "slow-blow": "T",
        "slow": "T",
        "slo-blo": "T",
        "slowblow": "T",
        "sb": "T",
        "time-lag": "T",
        "timelag": "T",
        "anti-surge": "T",
        "antisurge": "T",
        "träge": "T",
        "traege": "T",
        "temporisé": "T",
        "lent": "T",
        "ritardato": "T",
        "retardado": "T",
        "fast": "F",
        "fast-blow": "F",
        "fast-acting": "F",
        "quick": "F",
        "quick-blow": "F",
        "quick-acting": "F",
        "flink": "F",
        "rapide": "F",
        "rapido": "F",
        "rápido": "F",
        "pomalá": "T",
        "rychlá": "F",
        "zwłoczny": "T",
        "zwłoczna": "T",
        "szybki": "F",
        "szybka": "F",
        "trög": "T",
        "snabb": "F",
        "træg": "T",
        "hurtig": "F",
        "traag": "T",
        "snel": "F",
        "hidas": "T",
        "nopea": "F",
        "gecikmeli": "T",
        "lento": "T",
        "superflink": "FF",
        "mittelträge": "M",
    }
)
"""Words for the characteristics of fuses (IEC 60127-1 has the letters)."""

_MEASURED: Final = {
    "A": (
        "current áram virta curent струм strom courant corriente corrente ström stroom prąd proud ρεύμα ток akım "
        "זרם تيار amps amperes"
    ),
    "V": (
        "voltage volts feszültség jännite tensiune напруга spannung tension tensión tensione spänning spanning "
        "napięcie napětí τάση напряжение gerilim voltaj מתח جهد ولتاژ"
    ),
    "W": (
        "power teljesítmény teho putere потужність watts leistung puissance potencia potenza effekt vermogen moc "
        "výkon ισχύς мощность güç הספק قدرة توان"
    ),
    "s": (
        "time timp aika zeit temps tiempo tempo tid tijd czas čas χρόνος ώρα süre zaman время час זמן השהיה زمن "
        "وقت hours stunden "
        "betriebsstunden heures ore horas delay verzögerung période period attack release gecikme idő opóźnienie "
        "zpoždění задержка затримка"
    ),
    "Hz": (
        "frequency freq frequenz fréquence frecuencia frequenza frekvens frequentie частота częstotliwość "
        "kmitočet συχνότητα frekans תדר تردد فرکانس"
    ),
    "Pa": (
        "oil brake boost öl bremse huile frein olio freno aceite olej óleo масло тормоз yağ fren "
        "pressure nyomás paine presiune тиск press druck pression presión pressione tryck druk ciśnienie tlak "
        "πίεση давление basınç לחץ ضغط فشار"
    ),
    "°C": (
        "temperature hőmérséklet lämpötila temperatură temp temperatur température temperatura θερμοκρασία "
        "температура sıcaklık טמפרטורה حرارة دما"
    ),
    "m": "length länge longueur distance abstand height width depth travel длина ход довжина",
    "m/s": (
        "speed sebesség nopeus viteză швидкість velocity geschwindigkeit vitesse velocidad velocità hız ταχύτητα "
        "скорость מהירות سرعة"
    ),
    "Ω": (
        "resistance impedance widerstand résistance resistencia resistenza direnç αντίσταση сопротивление התנגדות "
        "مقاومة"
    ),
    "F": "capacitance kapazität capacité",
    "H": "inductance induktivität",
    "N": "force kraft fuerza forza",
    "kg": "weight mass gewicht masse масса вес маса вага",
    "l": "volume menge объём объем обʼєм",
    "°": "angle winkel azimuth elevation heading γωνία угол kąt úhel açı ângulo ángulo angolo vinkel",
    "T": "field flux feld",
}

MEASURED: Final[Mapping[str, str]] = MappingProxyType(
    {word: symbol for symbol, words in _MEASURED.items() for word in words.split()}
)
"""Words that name what is measured, and a unit of that."""

ENGLISH_COMMAS: Final = frozenset(listed("en ja zh ko th he hi bn mr ta te gu kn ml pa ne ur fa ms"))
"""Languages that part thousands by commas (CLDR, from memory)."""
