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
        """aac abs aca acc adc ah atm bar bara bard barg baud bd bit bpm bps bq btu ca cc cd cfh cfm ci cl cm cmce cmh
    cmhg cmwc cmws cn cnm counts cp cpm cps cst cts cℓ dan danm db dba dbc dbd dbfs dbi dbm dbmv dbr dbu dbuv
    dbv dbw dbµ dbµv dbμ dbμv dec dev div dk dl dm dℓ ev fa fc ff ford fps fs ft gal gauge gb gbit gbps gbq gcm
    gev ghz gib gibit giri gj gm gmm godz gpa gpm gpts gs gsa gsps gva gvar gw gwh gy gω ha hl hod hp hpa hr hrs
    hz hℓ in inh inhg inwc inwg ka kaac kaca kacc kadc kah kat kb kbar kbaud kbd kbit kbps kbq kbtu kcal kcd
    kcounts kcpm kcps kcts kev kg kgcm kgf kgfcm kgfm kgm kgmm kgs khz kib kibit kierr kj klm klx km kmol kn knm
    koe kp kpa kpaa kpad kpag kpsi kpts ks ksa ksps kt kv kva kvac kvah kvar kvarh kvca kvcc kvdc kveff kvp kvpk
    kvpp kvrms kvss kw kwh kω kωcm kωm lb lbf lbs lm lpm lu lufs lx ma maac maca macc madc mah mas mb mbar mbara
    mbard mbarg mbaud mbd mbit mbps mbq mbtu mc mcd mce mci mcounts mcps mcts mev mf mg mgs mgy mh mhz mi mib
    mibit mil min mj mk mkat ml mlpm mlx mm mmce mmh mmhg mmol mmwc mmws mn mnm mol mp mpa mpas mph mpts mpx mr
    mrad mrem ms msa msps msv mt mtorr mv mva mvac mvah mvar mvarh mvca mvcc mvdc mveff mvp mvpk mvpp mvrms mvss
    mw mwb mwc mwh mws mω mωcm mωm mℓ na nc nci ncm nf ng ngy nh nkat nl nm nmm nmol np ns nsv nt ntu nv nw nℓ
    obr oct oe omdr omw ot oz ozf pa pas pc perc pf ph pp ppb ppbv ppm ppmv ps psi psia psid psig pts pw px rad
    rel rem rev rh rms rot rpm sa sccm scfh scfm slm slpm sn sps sq sr st std sv tb tbit tev thz tib tibit tim
    torr tours tr trs tw twh tω ua uaac uaca uacc uadc ubar uc uci uf ug ugy uh uj ukat ul um umdr umol un upa
    ur urad urem us usv ut uv uveff uvp uvpp uvrms uvss uw uwb uω uℓ va vac vah var varh varv vca vcc vdc veff
    vp vpk vpp vrms vss vu wb wh yd µa µaac µaca µacc µadc µbar µc µci µf µg µgy µh µj µkat µl µm µmol µn µpa µr
    µrad µrem µs µsv µt µv µveff µvp µvpp µvrms µvss µw µwb µω µℓ ºc ºf å óra α β γ δ δευτ ε θ λ λεπ λεπτό μa
    μaac μaca μacc μadc μbar μc μci μf μg μgy μh μj μkat μl μm μmol μn μpa μr μrad μrem μs μsv μt μv μveff μvp
    μvpp μvrms μvss μw μwb μω μℓ ρ σ στρ τ φ χ ψ ω ωcm ωm ώρα а атм бар бит бк в ва вар вод вт г гбит гбк гва
    гвар гвт ггц гдж гл гн год гом гпа гц гэв дб дбм дел дж зв ка кбар кбит кбк кв ква квар квт кг кгс кгсм кгц
    кдж клк клм км кн ком кпа кэв л лк лм м ма мбар мбит мбк мв мва мвар мвт мг мгн мгц мдж мзв мин мка мкбар
    мкв мквт мкг мкгн мкдж мкзв мкл мкм мкн мком мкпа мкс мксм мктл мкф мл млк мм мн мом мпа мс мсм мтл мф мэв н
    на нв нвт нг нгн нзв нл нм нс нтл нф об ом па пвт пс пф рт с сек сл см сн ст сут тл ф хв ч час эв ℓ"""
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
