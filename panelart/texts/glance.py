"""Whether a text holds words only, told at a glance: without the tables of units, which take a while to load.

Most legends are words. Who only asks where a line may end, or whether anything may not change, need not wait.
"""

from __future__ import annotations

from typing import Final

from panelart.texts.words import MEASURED, listed

_PUNCTUATION: Final = frozenset(" \n\u00a0&+-/.,:;'’!?()[]")
"""Signs that make no quantity of letters."""

_SYMBOLS: Final = frozenset(
    listed(
        """ah atm bar baud bd bit bpm bps bq btu cd cfm ci cl cm cmhg cn cnm cp cpm cps cℓ dan danm db dba dbc dbd dbfs
    dbi dbm dbmv dbr dbu dbuv dbv dbw dbµ dbµv dbμ dbμv dec div dl dm dℓ ev fa fc ff fps fs ft gal gb gbit gbps
    gbq gev ghz gib gibit gj gpa gpm gs gva gvar gw gwh gy gω ha hl hp hpa hr hrs hz hℓ in inh inhg ka kah kat
    kb kbar kbaud kbd kbit kbps kbq kbtu kcal kcd kev kg kgf khz kib kibit kj klm klx km kmol kn knm koe kp kpa
    kpsi ks kt kv kva kvah kvar kvarh kveff kvp kvpp kvrms kvss kw kwh kω lb lbf lbs lm lu lufs lx ma mah mb
    mbar mbaud mbd mbit mbps mbq mbtu mc mcd mci mev mf mg mgy mh mhz mi mib mibit mil min mj mk mkat ml mlx mm
    mmh mmhg mmol mn mnm mol mp mpa mph mpx mrad ms msv mt mtorr mv mva mvah mvar mvarh mveff mvp mvpp mvrms
    mvss mw mwb mwh mω mℓ na nc nci nf ng ngy nh nkat nl nm nmol np ns nsv nt ntu nv nw nℓ oct oe oz pa pc pf ph
    pp ppb ppm ps psi psig pw px rad rev rh rms rpm sq sr sv tb tbit tev thz tib tibit torr tr tw twh tω ua ubar
    uc uci uf ug ugy uh uj ukat ul um umol un upa urad us usv ut uv uveff uvp uvpp uvrms uvss uw uwb uω uℓ va
    vah var varh veff vp vpp vrms vss vu wb wh yd µa µbar µc µci µf µg µgy µh µj µkat µl µm µmol µn µpa µrad µs
    µsv µt µv µveff µvp µvpp µvrms µvss µw µwb µω µℓ ºc ºf μa μbar μc μci μf μg μgy μh μj μkat μl μm μmol μn μpa
    μrad μs μsv μt μv μveff μvp μvpp μvrms μvss μw μwb μω μℓ бар ва вт гва гвт ггц гдж гл гом гпа гц дб дж зв ка
    кбар кв ква квт кг кгц кдж клк клм км кн ком кпа лк лм ма мбар мв мва мвт мг мгц мдж мзв мин мка мкбар мкв
    мквт мкг мкдж мкзв мкл мкм мкн мком мкпа мкс мкф мл млк мм мн мом мпа мс мф на нв нвт нг нзв нл нм нс нф об
    ом па пвт пс пф сл см сн
        å ω а в г л м н с ф ч ℓ"""
    )
)
"""Letters of symbols of units, in small letters: `texts/units.py` has what they mean."""

_LETTERS: Final = frozenset("abcdfghjklmnoprstuvw")
"""Latin letters that stand alone in symbols of units, and that are names or words as often."""


def words_only(text: str) -> bool:
    """Whether no unit, number or rating can be in a text; False where only the parser could tell."""
    if not all(letter.isalpha() or letter in _PUNCTUATION for letter in text):
        return False
    pieces = "".join(letter if letter.isalpha() else " " for letter in text.lower()).split()
    if not _SYMBOLS.isdisjoint(pieces):
        return False
    letters = sum(piece in _LETTERS for piece in pieces)
    if letters == 0:
        return True
    # A letter is a unit in brackets, behind a stroke, beside another, or behind what it measures.
    return letters == 1 and not any(sign in "/()[]" for sign in text) and MEASURED.keys().isdisjoint(pieces)
