"""Whether a text holds words only, told at a glance: without the tables of units, which take a while to load.

Most legends are words. Who only asks where a line may end, or whether anything may not change, need not wait.
"""

from __future__ import annotations

from typing import Final

from panelart.texts.words import MEASURED, listed

_PUNCTUATION: Final = frozenset(" \n\u00a0&+-/.,:;'’!?()[]")
"""Signs that make no quantity of letters."""

_SIGNS: Final = frozenset("\u2126\u03a9\u00b5")
"""Ohm and micro: signs of units within a word, such as one that stands twice without a blank."""

_SYMBOLS: Final = frozenset(
    listed(
        """aac abs aca acc adc adet ah atm bar bara bard barg baud bd beat beats bit bpm bps bq btu ca cat cc cd cfh
    cfm ci cicli ciclos cl cm cmce cmh cmhg cmwc cmws cn cnm colpi counts coups cp cph cpm cps cst cts cv
    cyc cycle cycles cycli cykler cykli cℓ dan danm db dba dbc dbd dbfs dbhl dbi dbm dbmv dbr dbspl dbtp dbu
    dbua dbuv dbv dbw dbz dbµ dbµa dbµv dbμ dbμa dbμv dec dev div dk dl dm dpi dℓ ev fa fc ff ford fpm fps
    fs ft gal gauge gb gbit gbps gbq gcal gcm gev ghz gib gibit gio giri gj gm gmm go godz golpes gpa gpm
    gpts gs gsa gsps gva gvar gw gwe gwel gwh gwth gy gω ha hb hl hod hp hpa hr hrs hub hz hübe hℓ ie imp
    impulsi in inh inhg inwc inwg ipm ips iu ka kaac kaca kacc kadc kah kat kb kbar kbaud kbd kbit kbps kbq
    kbtu kcal kcd kcounts kcpm kcps kcts kev kg kgcm kgf kgfcm kgfm kgm kgmm kgs khz kib kibit kie kierr kio
    kiu kj klm klx km kmol kn knm ko koe kohm kohms kp kpa kpaa kpad kpag kpl kpps kpsi kpts ks ksa ksps kt
    kui kv kva kvac kvah kvar kvarh kvca kvcc kvdc kveff kvp kvpk kvpp kvrms kvss kw kwe kwel kwh kwp kwth
    kω kωcm kωm lb lbf lbs lm lpm lu lufs lx ma maac maca macc madc mah mas mb mbar mbara mbard mbarg mbaud
    mbd mbit mbps mbq mbtu mc mcd mce mci mcounts mcps mcts mev mf mg mgs mgy mh mhz mi mib mibit mie mil
    min mio miu mj mk mkat ml mlpm mlx mm mmce mmh mmhg mmol mmwc mmws mn mnm mo mohm mohms mol mp mpa mpas
    mph mpts mpx mr mrad mrem ms msa msec msek msps msv mt mtorr mui mv mva mvac mvah mvar mvarh mvca mvcc
    mvdc mveff mvp mvpk mvpp mvrms mvss mw mwb mwc mwe mwel mwh mwp mws mwth mω mωcm mωm mℓ na nc nci ncm nf
    ng ngy nh nkat nl nm nmm nmol np ns nsec nsek nsv nt ntu nv nw nℓ obr oct oe omdr omw ot oz ozf pa pas
    pc pce pces pcs perc pezzi peças pf ph piezas pièces pp ppb ppbv ppi ppm ppmv pps ps psi psia psid psig
    pts pulse pulses pulsos pw px pz rad rel rem rev rh rms rot rpm sa sccm scfh scfm schläge slag slm slpm
    sn spm sps sq sr st stck std stk stroke strokes stuks stykker stück sv szt takte tb tbit tev thz tib
    tibit tim tio to torr tours tr trs tw twh tω ua uaac uaca uacc uadc ubar uc uci ud uds uf ug ugy uh ui
    uie uiu uj ukat ul um umdr umol un upa ur urad urem us usec usek usv ut uui uv uveff uvp uvpp uvrms uvss
    uw uwb uω uℓ va vac vah var varh varv vca vcc vdc veff vp vpk vpp vrms vrt vss vu wb we wel wh wp wth yd
    zyklen µa µaac µaca µacc µadc µbar µc µci µf µg µgy µh µie µiu µj µkat µl µm µmol µn µpa µr µrad µrem µs
    µsec µsek µsv µt µui µv µveff µvp µvpp µvrms µvss µw µwb µω µℓ ºc ºf å óra α β γ δ δευτ ε θ λ λεπ λεπτό
    μa μaac μaca μacc μadc μbar μc μci μf μg μgy μh μie μiu μj μkat μl μm μmol μn μpa μr μrad μrem μs μsec
    μsek μsv μt μui μv μveff μvp μvpp μvrms μvss μw μwb μω μℓ ρ σ στρ τ φ χ ψ ω ωcm ωm ώρα а атм бар бит бк
    в ва вар вод вт г гбит гбк гва гвар гвт ггц гдж гкал гл гн год гом гпа гц гэв дб дбм дел дж зв имп ка
    кбар кбит кбк кв ква квар квт кг кгс кгсм кгц кдж ккал клк клм км кме кн ком кпа кт кэв л лк лм м ма
    мбар мбит мбк мв мва мвар мвт мг мгн мгц мдж ме мзв мин мка мкбар мкв мквт мкг мкгн мкдж мкзв мкл мкм
    мкме мкн мком мкпа мкс мксм мктл мкф мл млк мм мме мн мом мпа мс мсм мт мтл мф мэв н на нв нвт нг нгн
    нзв нл нм нс нтл нф о об обр ом па пвт пс пф рт с сек сл см сн ст сут т тл ф хв ход ходов цикл циклов ч
    час шт эв ℓ"""
    )
)
"""Letters of symbols of units, in small letters: `texts/units.py` has what they mean."""

_LETTERS: Final = frozenset("abcdfghjklmnoprstuvw")
"""Latin letters that stand alone in symbols of units, and that are names or words as often."""


def words_only(text: str) -> bool:
    """Whether no unit, number or rating can be in a text; False where only the parser could tell."""
    if not _is_plain(text):
        return False
    pieces = "".join(letter if letter.isalpha() else " " for letter in text.lower()).split()
    if not _SYMBOLS.isdisjoint(pieces):
        return False
    letters = sum(piece in _LETTERS for piece in pieces)
    if letters == 0:
        return True
    # A letter is a unit in brackets, behind a stroke, beside another, or behind what it measures.
    return letters == 1 and not any(sign in "/()[]" for sign in text) and MEASURED.keys().isdisjoint(pieces)


def _is_plain(text: str) -> bool:
    """Whether a text has letters and such signs only as make no quantity of them."""
    return _SIGNS.isdisjoint(text) and all(letter.isalpha() or letter in _PUNCTUATION for letter in text)
