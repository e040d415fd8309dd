"""What capitals and small capitals leave as it is, and how the words of a language are capitalised.

Units are written as the SI Brochure (9th edition), IEC 80000 and the trade write them; the list is typed here and not
taken from the program's table. Capitals of Greek words are those that dictionaries and CLDR (el-Upper) give.
"""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from panelart.lettering.spans import Manner
from panelart.model.panel import LegendRequest, Panel
from panelart.spec.casing import capitals, kept_as_written
from panelart.spec.read import panel_from_text
from tests.effort import examples

SPEC = """\
panelart: 1
panel:
  title: Trial
  size: [160, 100]
  sheet: {{material: aluminium 5754, thickness: 2}}
  coat: {{kind: none, colour: "#FFFFFF"}}
marking:
  process: digital-print
  ink: {{name: black, colour: "#000000"}}
  lettering: {{cap_height: 3.5, {case}}}
  viewing_distance: 500
"""


def panel(body: str, case: str = "case: upper") -> Panel:
    return panel_from_text(SPEC.format(case=case) + body)


def request(text: str, case: str = "case: upper") -> LegendRequest:
    return panel(f'texts: [{{text: "{text}", at: [60, 50]}}]\n', case).texts[0].request


def in_capitals(text: str, language: str = "") -> str:
    kept = kept_as_written(text, (False,) * len(text), language)
    return "".join(capitals(text, kept.stays, language))


UNITS = (
    # of the issue of what printed wrong
    "mV/div", "ms/div", "µs/div", "mbar", "kN m", "mm²", "nV/√Hz", "mmHg", "kVAr", "lx", "ppm", "rpm",
    # SI Brochure, tables 2, 4, 7 and 8
    "mm", "km", "kg", "mg", "ns", "µA", "mA", "mK", "mol", "mcd", "mrad", "kHz", "MHz", "GHz", "daN", "hPa", "kPa",
    "MPa", "kJ", "mW", "MW", "kW", "µC", "kV", "nF", "pF", "kΩ", "MΩ", "mΩ", "µS", "mWb", "mT", "µH", "°C", "lm", "kBq",
    "mGy", "µSv", "ml", "l/min", "keV", "dB", "m/s²", "N·m", "rad/s", "V/m",
    # IEC 80000-13, IEC 60027, UCUM and common practice
    "kbit/s", "MiB", "kVA", "kWh", "mAh", "dBm", "dBu", "r/min", "psi", "inHg", "mVpp", "Vrms", "°F", "pH", "lbf",
)  # fmt: skip


def test_there_are_sixty_units() -> None:
    assert len(set(UNITS)) == len(UNITS) >= 60


@pytest.mark.parametrize("case", ["as-written", "upper", "small-capitals", "upper, language: tr"])
@pytest.mark.parametrize("unit", UNITS)
def test_a_unit_is_printed_as_it_is_written(unit: str, case: str) -> None:
    asked = request(f"sweep 10 {unit} coarse", f"case: {case}")
    words = {"upper": "SWEEP 10 {} COARSE"}.get(case.split(",", maxsplit=1)[0], "sweep 10 {} coarse")
    assert asked.text == words.format(unit)
    small = [asked.text[span.start : span.stop] for span in asked.spans if span.manner is Manner.SMALL]
    assert small == (["sweep ", " coarse"] if case == "small-capitals" else [])


@pytest.mark.parametrize("unit", UNITS[:10])
def test_a_unit_in_brackets_needs_no_number(unit: str) -> None:
    assert request(f"range ({unit})").text == f"RANGE ({unit})"


@pytest.mark.parametrize(
    ("written", "printed"),
    [
        ("Output", "OUTPUT"),
        ("Output 12 mV", "OUTPUT 12 mV"),
        ("5kHz", "5kHz"),
        ("gain dB", "GAIN dB"),
        ("speed m/s²", "SPEED m/s²"),
        ("on/off", "ON/OFF"),
        ("line in", "LINE IN"),
        ("1/2 in.", "1/2 in."),
        ("0.5 uF", "0.5 uF"),
        ("µP reset", "µP RESET"),
        ("10 min max", "10 min MAX"),
        ("2 pm", "2 PM"),
        ("-20dB pad", "-20dB PAD"),
        ("Straße", "STRASSE"),
        ("ON", "ON"),
        ("two\nlines", "TWO\nLINES"),
        ("250 Vac, 50 Hz", "250 Vac, 50 Hz"),
        ("", ""),
        ("contacts 1 to 12", "CONTACTS 1 TO 12"),
        ("1 bis 10 kΩ grob", "1 BIS 10 kΩ GROB"),
        ("10 a 20 mA", "10 a 20 mA"),  # `a` of another language must not become amperes
        ("100–240 V input", "100–240 V INPUT"),
        ("±5 % fine", "±5 % FINE"),
        ("fuse T1AL250V", "FUSE T1AL250V"),
        ("fuse T 315 mA L 250 V", "FUSE T 315 mA L 250 V"),
        ("100–240 V ~ 50/60 Hz 40 W max", "100–240 V ~ 50/60 Hz 40 W MAX"),
        ("IP65 housing", "IP65 HOUSING"),
        ("thread M8x1.25", "THREAD M8x1.25"),
        ("thread 1/4-20 unc", "THREAD 1/4-20 UNC"),
        ("switch 1-0-2", "SWITCH 1-0-2"),
        ("firmware v2.1", "FIRMWARE v2.1"),
        ("10k pot", "10k POT"),
        ("rate 9.81 m/s2", "RATE 9.81 m/s2"),
        ("cos φ meter", "COS φ METER"),
        # a sure unit is kept, a sure word takes capitals (SI Brochure, 5.2; common practice)
        ("Rate in s", "RATE IN s"),
        ("Zeit in min", "ZEIT IN min"),
        ("Temps en ms", "TEMPS EN ms"),
        ("Plug in", "PLUG IN"),
        ("U in V", "U IN V"),
        ("2 in 1 out", "2 IN 1 OUT"),
        ("4 in / 2 out", "4 IN / 2 OUT"),
        ("3 in 1", "3 IN 1"),
        ("3 in", "3 in"),
        ("3 in max", "3 in MAX"),
        ("ch 1 in", "CH 1 IN"),
        ("5 min", "5 min"),
        ("5 Min", "5 MIN"),
        ("10 sec delay", "10 SEC DELAY"),
        ("12 volts", "12 VOLTS"),
        ("10 kohm", "10 kohm"),
        ("5 Kg", "5 Kg"),
        ("min max", "MIN MAX"),
        ("uscita 24 Vcc", "USCITA 24 Vcc"),
        ("ingresso Vca", "INGRESSO Vca"),
        ("rate 1 GSa/s", "RATE 1 GSa/s"),
        ("dose mR/h", "DOSE mR/h"),
        ("jack VΩmA", "JACK VΩmA"),
        ("druck mbar(a)", "DRUCK mbar(a)"),
        ("type A IΔn 30 mA", "TYPE A IΔn 30 mA"),
        ("filter Δp", "FILTER Δp"),
        ("hFE test", "hFE TEST"),
        ("time hh:mm:ss", "TIME hh:mm:ss"),
        ("datum TT.MM.JJJJ", "DATUM TT.MM.JJJJ"),
        ("microSD card", "microSD CARD"),
        ("PoE port", "PoE PORT"),
        ("oUTPUT", "OUTPUT"),
        ("n 1500 obr/min", "n 1500 obr/min"),  # the symbol of rotational speed, ISO 80000-3
        ("weight 3 g", "WEIGHT 3 g"),
        ("0utput", "0UTPUT"),
    ],
)
def test_capitals(written: str, printed: str) -> None:
    assert in_capitals(written) == printed


@pytest.mark.parametrize(
    ("word", "language", "printed"),
    [
        ("ρεύμα", "", "ΡΕΥΜΑ"),
        ("ρεύμα", "el", "ΡΕΥΜΑ"),
        ("ρεύ\u00b5α", "el", "ΡΕΥΜΑ"),  # the sign for micro where the letter is meant
        (unicodedata.normalize("NFD", "ρεύμα"), "", "ΡΕΥΜΑ"),
        ("Τάση εξόδου", "", "ΤΑΣΗ ΕΞΟΔΟΥ"),
        ("μέγιστο 10 μA", "el", "ΜΕΓΙΣΤΟ 10 μA"),
        ("ισχύς 5 \u00b5W", "", "ΙΣΧΥΣ 5 \u00b5W"),
        ("ρολόι", "", "ΡΟΛΟΪ"),
        ("νεράιδα", "", "ΝΕΡΑΪΔΑ"),
        ("άυλος", "", "ΑΫΛΟΣ"),
        ("ούτε", "", "ΟΥΤΕ"),
        ("προϊόν", "", "ΠΡΟΪΟΝ"),
        ("ΐ", "el", "Ϊ"),
        ("αυτό ή εκείνο", "", "ΑΥΤΟ Ή ΕΚΕΙΝΟ"),
        ("ο διακόπτης", "", "Ο ΔΙΑΚΟΠΤΗΣ"),
        ("giriş", "tr", "GİRİŞ"),
        ("ısı", "tr", "ISI"),
        ("giriş 3 ms", "tr", "GİRİŞ 3 ms"),
        ("çıxış i", "az", "ÇIXIŞ İ"),
        ("giris", "", "GIRIS"),
        ("maß", "de", "MASS"),
        ("Größe ẞ", "de", "GRÖSSE ẞ"),
        ("мощность 5 Вт", "ru", "МОЩНОСТЬ 5 Вт"),
        ("развёртка мкс/дел", "ru", "РАЗВЁРТКА мкс/дел"),
        ("ход, мм", "ru", "ХОД, мм"),
        ("1500 об/хв", "uk", "1500 об/хв"),
        ("мин макс", "ru", "МИН МАКС"),
        ("hız dev/dk", "tr", "HIZ dev/dk"),
        ("gecikme sn", "tr", "GECİKME sn"),
        ("gecikme 5 sn", "tr", "GECİKME 5 sn"),
        ("συντελεστής cos φ", "el", "ΣΥΝΤΕΛΕΣΤΗΣ COS φ"),
        ("γωνία φ", "el", "ΓΩΝΙΑ φ"),
        ("η έξοδος", "el", "Η ΕΞΟΔΟΣ"),
    ],
)
def test_words_are_capitalised_as_their_language_does(word: str, language: str, printed: str) -> None:
    assert in_capitals(word, language) == printed


@given(st.text())
@example("10 μΑ ρεύμα")
@settings(max_examples=examples(150))
def test_white_space_and_what_is_no_word_stay(text: str) -> None:
    kept = kept_as_written(text, (False,) * len(text))
    once = capitals(text, kept.stays)
    assert [letter for letter, stays in zip(once, kept.stays, strict=True) if stays] == [
        letter for letter, stays in zip(text, kept.stays, strict=True) if stays
    ]
    assert [letter for letter in "".join(once) if letter.isspace()] == [letter for letter in text if letter.isspace()]


@given(st.text(alphabet=st.characters(categories=["Ll", "Lu", "Mn"], max_codepoint=0x1FFF), max_size=12))
@settings(max_examples=examples(150))
def test_capitals_of_words_are_capitals(text: str) -> None:
    once = "".join(capitals(text, (False,) * len(text)))
    assert "".join(capitals(once, (False,) * len(once))) == once


# --- what could be either


@pytest.mark.parametrize(
    ("text", "unsure"),
    [
        ("MS", ("MS",)),
        ("ma", ("ma",)),
        ("M", ("M",)),
        ("sweep hz", ("hz",)),
        ("in", ("in",)),
        ("A", ()),  # the letter and ampere are printed alike
        ("VAC", ()),
        ("line in", ()),
        ("10 ms", ()),
        ("Rate in s", ()),
        ("Rate s", ("s",)),
        ("Channel s", ()),  # what is counted or told apart by a letter
        ("Time s", ()),
        ("Süre s", ()),
        ("זמן s", ()),
        ("Input 1 in", ("1 in",)),
        ("Shelf 3 g", ("3 g",)),
        ("Row 4 m", ("4 m",)),
        ("Row 4 M", ()),
        ("Input 1 V", ()),  # printed alike
        ("Step 3 s", ("3 s",)),
        ("Weight 3 g", ()),
        ("2 in 1 out", ()),
        ("min", ("min",)),
        ("bar", ("bar",)),
        ("Delay min", ("min",)),
        ("Delay (min)", ()),
        ("Input 1 {unit in}", ()),
        ("Shelf 3 {word g}", ()),
        ("{keep MS}", ()),
        ("{unit ms}", ()),
        ("{word ms}", ()),
    ],
)
def test_what_could_be_a_unit_or_a_word_is_kept_and_told(text: str, unsure: tuple[str, ...]) -> None:
    read = panel(f'texts: [{{text: "{text}", at: [60, 50]}}]\n')
    assert tuple(one.written for one in read.unsure) == unsure
    if unsure:
        assert unsure[0] in read.texts[0].request.text
    assert not panel(f'texts: [{{text: "{text}", at: [60, 50]}}]\n', "case: as-written").unsure


BRACED = """\
parts:
  - {ref: S1, part: toggle-12, at: [40, 50], legend: "mode {word ms}", positions: {up: "{unit ms}", down: "{word ms}"}}
  - ref: S2
    part: rotary-m10
    at: [90, 50]
    knob: {diameter: 24, height: 16}
    legend: Sweep
    positions: {texts: ["10 mV/div", "5 {unit MS}", "{word ma} off"], index: 45}
  - ref: RV1
    part: pot-m10
    at: [130, 50]
    knob: {diameter: 24, height: 16}
    legend: Time
    scale: {from: 0, to: 10, major: 5, unit: "{unit ms}", words: {0: "{word min}", 10: "{unit min}"}}
texts: [{text: "{bar {unit ms}} {word M}", at: [60, 90]}]
languages: {de: {Sweep: "Ablenkung {unit ms}"}}
"""


def test_braces_work_wherever_words_are() -> None:
    read = panel(BRACED)
    lever, rotary, pot = read.parts
    assert lever.legend is not None
    assert pot.scale is not None
    assert lever.legend.text == "MODE MS"
    assert [position.request.text for position in lever.positions] == ["ms", "MS"]
    assert [position.request.text for position in rotary.positions] == ["10 mV/div", "5 MS", "MA OFF"]
    assert (pot.scale.unit, pot.scale.words) == ("ms", ((0.0, "MIN"), (10.0, "min")))
    text = read.texts[0].request
    assert text.text == "ms M"
    assert [(span.start, span.stop, span.manner) for span in text.spans] == [
        (0, 2, Manner.BAR),
        (0, 2, Manner.UNIT),
        (3, 4, Manner.WORD),
    ]
    assert read.unsure == ()


def test_braces_work_in_translations(tmp_path) -> None:
    from panelart.pipeline import read as read_spec

    spec = tmp_path / "panel.yaml"
    spec.write_text(SPEC.format(case="case: upper") + BRACED, encoding="utf-8")
    sweep = read_spec(spec, language="de").parts[1].legend
    assert sweep is not None
    assert sweep.text == "ABLENKUNG ms"


def test_the_unit_of_a_scale_may_have_a_raised_figure() -> None:
    read = panel(BRACED.replace('unit: "{unit ms}"', 'unit: "m/s{super 2}"'))
    scale = read.parts[2].scale
    assert scale is not None
    assert scale.unit == "m/s²"


def test_of_a_unit_and_a_word_within_each_other_the_outer_one_counts() -> None:
    assert request("{unit m{word s}} {word m{unit s}}").text == "ms MS"


# Letter symbols, formulae, rates and words of ranges: IEC 60027-1 and IEC 60947-1 (letter symbols), IUPAC (formulae),
# IEC 80000-13 (octet), from memory; common practice of the languages for the rest.
@pytest.mark.parametrize(
    ("written", "language", "printed"),
    [
        ("I\u2206n", "", "I\u2206n"),
        ("trip Idn", "", "TRIP Idn"),
        ("Un Ui Ie Uimp", "", "Un Ui Ie Uimp"),
        ("Vin", "en", "Vin"),
        ("Vout max", "en", "Vout MAX"),
        ("Tamb", "", "Tamb"),
        ("Hmax", "", "Hmax"),
        ("n = 1450", "", "n = 1450"),
        ("k = 2", "", "k = 2"),
        ("t₁ delay", "", "t₁ DELAY"),
        ("hız 1450 d/dk", "tr", "HIZ 1450 d/dk"),
        ("ккал/ч", "ru", "ккал/ч"),
        ("Масса т", "ru", "МАССА т"),
        ("disque 10 Go", "fr", "DISQUE 10 Go"),
        ("mémoire 512 ko", "fr", "MÉMOIRE 512 ko"),
        ("débit 5 Mo/s", "fr", "DÉBIT 5 Mo/s"),
        ("disque 2 To", "fr", "DISQUE 2 To"),
        ("go", "en", "GO"),
        ("delay 10 usec", "", "DELAY 10 usec"),
        ("delay 5 msec", "", "DELAY 5 msec"),
        ("30 spm", "", "30 spm"),
        ("humid 45 % r.h.", "", "HUMID 45 % r.h."),
        ("1450 о/мин", "sr", "1450 о/мин"),
        ("час 5 год", "uk", "ЧАС 5 год"),
        ("1500 σ.α.λ", "el", "1500 σ.α.λ"),
        ("takt 100 Stk/min", "de", "TAKT 100 Stk/min"),
        ("length in mm", "en", "LENGTH IN mm"),
        ("Weg in mm", "de", "WEG IN mm"),
        ("1 to 10 V", "en", "1 TO 10 V"),
        ("5 bis 10 V", "de", "5 BIS 10 V"),
        ("1 à 10 V", "fr", "1 À 10 V"),
        ("de 1 a 10 V", "es", "DE 1 a 10 V"),  # a capital would be an ampere
        ("HCl alarm", "", "HCl ALARM"),
        ("Cl₂", "", "Cl₂"),
        ("Pt 1000", "", "Pt 1000"),
        ("Pt100 sensor", "", "Pt100 SENSOR"),
        ("Ni-Cd", "", "Ni-Cd"),
        ("NiMH charge", "", "NiMH CHARGE"),
        ("Li-ion", "", "Li-ion"),
        ("NOx", "", "NOx"),
        ("出力5kV", "ja", "出力5kV"),
        ("20 %vol", "", "20 %vol"),
        ("f 12 /min", "", "f 12 /min"),
        ("Drehzahl n in min⁻¹", "de", "DREHZAHL n IN min⁻¹"),
        ("Zeit t in s", "de", "ZEIT t IN s"),
        ("velocidad 1500 r. p. m.", "es", "VELOCIDAD 1500 r. p. m."),
        ("мощность 5 л.с.", "ru", "МОЩНОСТЬ 5 л.с."),
        ("5 kW / 7 ch", "fr", "5 kW / 7 ch"),
        ("oil bar", "en", "OIL bar"),
        ("Ex ia IIC T4 Ga", "", "Ex ia IIC T4 Ga"),
        ("PL e", "", "PL e"),
        ("Ca²⁺ mg/l", "", "Ca²⁺ mg/l"),
        ("Na+ mmol/l", "", "Na+ mmol/l"),
        ("Ag/AgCl", "", "Ag/AgCl"),
        ("20 °Bx", "", "20 °Bx"),
        ("f/2.8", "", "f/2.8"),
        ("Ra 0.8", "", "Ra 0.8"),
        ("in/out", "en", "IN/OUT"),
        ("Co-Pilot", "en", "CO-PILOT"),
        ("10 kWp", "", "10 kWp"),
    ],
)
def test_symbols_formulae_and_rates_stand_as_written(written: str, language: str, printed: str) -> None:
    meant = kept_as_written(written, (False,) * len(written), language)
    assert "".join(capitals(written, meant.stays, language)) == printed
