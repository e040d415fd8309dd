"""What `only` writes, what it leaves alone, and what is said of a name that there is no file of."""

from __future__ import annotations

import subprocess
import sys
from collections import Counter
from functools import cache
from pathlib import Path

import pytest

from panelart.documents import Audience, NoSuchDocumentError, chosen, document, need
from panelart.documents.manifest import DOCUMENTS, parts
from panelart.documents.needs import DATE, INSPECTION, LAYOUT, PANELS, cut_layer
from panelart.documents.results import Results
from panelart.pipeline import Built, build, read, write, write_each, write_set
from panelart.press.outputs import Outputs
from panelart.spec.read import panel_from_text

ROOT = Path(__file__).parents[2]
HEAD = """
panelart: 1
panel:
  title: Try
  number: NW-8
  size: [80, 50]
  sheet: {material: aluminium, thickness: 2}
  coat: {kind: anodise, thickness: 0.02, colour: "#22262B"}
"""
PARTS = """
parts:
  - {ref: S1, part: toggle-12, at: [25, 25], legend: Power}
"""
PRINTED = "marking:\n  process: digital-print\n  ink: {name: white, colour: '#FFFFFF'}\n"
FILMS = (
    "marking:\n  process: screen-print\n"
    "  inks: [{name: white, colour: '#FFFFFF'}, {name: signal red, colour: '#B02020'}]\n"
    "texts:\n  - {text: STOP, at: [60, 20], ink: signal red}\n"
)
LASER = (
    "marking:\n  process: laser-marking\n"
    "  ink: {name: bleached, colour: '#D8D8D2'}\n  laser: {fill: raster, spacing: 0.1}\n"
)
BENT = "  flanges: {top: {length: 15}}\n"


@cache
def built(marking: str = PRINTED, more: str = "") -> Built:
    return build(panel_from_text(HEAD + more + marking + PARTS))


def names(marking: str, only: str) -> list[str]:
    return list(write(built(marking), only=only.split(",")))


def declared(*, of_a_set: bool = False) -> tuple[str, ...]:
    """The files that the manifest declares for the printed panel, or for a set of panels, in its order."""
    one = built()
    given = {PANELS: {"": one.layout.panel}} if of_a_set else {LAYOUT: one.layout, INSPECTION: one.inspection}
    results = Results({**given, DATE: ""})
    return tuple(
        name
        for entry in DOCUMENTS
        if not entry.several and results.can_make(entry.of) and entry.when.holds(results)
        for name in entry.file_names
    )


ALL = declared()


def test_all_files_are_written_in_their_order_and_each_alone_is_the_same() -> None:
    """Every file asked for by itself has the bytes it has among all, whatever else was made before it."""
    made = write(built(), date="2026-01-31", rear=True)
    assert tuple(made) == ALL
    known = ("artwork.svg", "artwork.pdf", "cutouts.dxf", "cutouts-from-rear.dxf", "proof.pdf", "panel.json")
    assert [name for name in made if name in known] == list(known)
    for name in ALL:
        assert write(built(), date="2026-01-31", only=[name]) == {name: made[name]}


@pytest.mark.parametrize(
    ("marking", "only", "found"),
    [
        (PRINTED, "cutouts.dxf", ["cutouts.dxf"]),
        (PRINTED, "proof,cutouts.dxf", ["cutouts.dxf", "proof.pdf", "proof.png"]),
        (PRINTED, "cutouts", ["cutouts.dxf", "cutouts.svg", "cutouts.pdf"]),
        (PRINTED, "cutouts,cutouts.pdf", ["cutouts.dxf", "cutouts.svg", "cutouts.pdf"]),
        (PRINTED, "cutouts-from-rear.svg", ["cutouts-from-rear.svg"]),
        (PRINTED, "panel", ["panel.svg", "panel.png", "panel.json"]),
        (FILMS, "film", ["film-base.pdf", "film-white.pdf", "film-signal-red.pdf"]),
        (FILMS, "film-*.pdf", ["film-base.pdf", "film-white.pdf", "film-signal-red.pdf"]),
        (FILMS, "film-white", ["film-white.pdf"]),
        (FILMS, "film-signal-red.pdf,plates", ["film-signal-red.pdf", "plates.csv"]),
        (LASER, "laser", ["laser.png"]),
    ],
)
def test_names_of_files_documents_and_families(marking: str, only: str, found: list[str]) -> None:
    assert names(marking, only) == found


@pytest.mark.parametrize(
    ("marking", "only", "says", "accepts"),
    [
        (PRINTED, "cutout.dxf", "Unknown file 'cutout.dxf'", "Did you mean 'cutouts.dxf'? Accepted: "),
        (
            PRINTED,
            "cutouts.dwg",
            "There is no cutouts.dwg; there is cutouts.dxf, cutouts.svg, cutouts.pdf",
            "Did you mean 'cutouts.",
        ),
        (PRINTED, "prooof", "Unknown file 'prooof'", "Did you mean 'proof'?"),
        (
            PRINTED,
            "qqqq",
            "Unknown file 'qqqq'",
            f"Accepted: {', '.join(dict.fromkeys(name.rpartition('.')[0] for name in ALL))} (each",
        ),
        (PRINTED, "", "Unknown file ''", "Accepted: "),
        (PRINTED, "../proof.pdf", "Unknown file '../proof.pdf'", "Did you mean 'proof.pdf'?"),
        (PRINTED, "blank.dxf", "There is no blank.dxf: the panel has no flanges", "Accepted: "),
        (PRINTED, "mask", "There is no mask: no area of its face stays bare", "Accepted: "),
        (PRINTED, "film", "There is no film: the marking process is 'Digital print'", "Accepted: "),
        (LASER, "plates.csv", "There is no plates.csv: the marking process is 'Laser marking'", "Accepted: "),
        (LASER, "laser.dxf", "There is no laser.dxf: the marking process is 'Laser marking'", "Accepted: "),
        (
            FILMS,
            "film-blue",
            "There is no film-blue; there is film-base.pdf, film-white.pdf, film-signal-red.pdf",
            "Accepted: ",
        ),
        (PRINTED, "panels.csv", "There is no panels.csv: the spec contains only one panel", "Accepted: "),
        (PRINTED, "proof,blank,x", "There is no blank: the panel has no flanges; Unknown file 'x'", "Accepted: "),
    ],
)
def test_a_name_without_a_file_is_refused_with_the_reason(marking: str, only: str, says: str, accepts: str) -> None:
    with pytest.raises(NoSuchDocumentError) as refused:
        names(marking, only)
    assert str(refused.value.says) == says
    assert str(refused.value.accepts).startswith(accepts)


def test_only_what_is_wanted_is_made() -> None:
    one = built()
    for word, made in {"cutouts": ["cut layer"], "holes.csv": [], "artwork.svg": ["plates", "artwork"]}.items():
        results = Results({LAYOUT: one.layout, INSPECTION: one.inspection, DATE: ""})
        files = chosen({"": results}, DOCUMENTS, only=[word])[""]
        assert list(results)[3:] == []  # their names are known before anything is made
        assert dict(files)
        assert list(results)[3:] == made
    results = Results({LAYOUT: one.layout, INSPECTION: one.inspection, DATE: ""})
    with pytest.raises(NoSuchDocumentError):
        chosen({"": results}, DOCUMENTS, only=["cutouts", "blank"])
    assert "cut layer" not in list(results)


def test_what_several_files_share_is_made_once(monkeypatch: pytest.MonkeyPatch) -> None:
    from panelart.drawing import artwork as drawn
    from panelart.drawing import cutlayer
    from panelart.marking import separation
    from panelart.sheets import picture
    from panelart.sheets import proof as sheet

    calls: Counter[str] = Counter()

    def counted(module, name: str) -> None:
        real = getattr(module, name)

        def count(*args, **named):
            calls[name] += 1
            return real(*args, **named)

        monkeypatch.setattr(module, name, count)

    for module, name in (
        (drawn, "artwork"),
        (cutlayer, "cut_layer"),
        (separation, "separations"),
        (picture, "panel_picture"),
        (sheet, "proof"),
    ):
        counted(module, name)
    write(built(), rear=True)
    assert calls == {"artwork": 1, "cut_layer": 2, "separations": 1, "panel_picture": 1, "proof": 1}


def modules_after(code: str, *words: object) -> set[str]:
    script = f"import sys; from pathlib import Path\n{code}\nprint('LOADED', *sys.modules)"
    run = subprocess.run(
        [sys.executable, "-c", script, *map(str, words)], cwd=ROOT, capture_output=True, text=True, check=True
    )
    return set(run.stdout.rpartition("LOADED ")[2].split())


def test_nothing_is_loaded_for_files_that_are_not_wanted(tmp_path: Path) -> None:
    spec = tmp_path / "try.yaml"
    spec.write_text(HEAD + PRINTED + PARTS, encoding="utf-8")
    code = "from panelart.pipeline import *\nbuilt = build(read(Path(sys.argv[1])))\n"
    checked = modules_after(code, spec)
    assert not any(name.startswith("panelart.documents") for name in checked)
    cut = modules_after(code + "write(built, only=['cutouts.dxf'])", spec)
    assert {"panelart.documents", "panelart.writers.dxf", "ezdxf"} <= cut
    drawn = {"panelart.sheets.proof", "panelart.sheets.build", "panelart.press.outputs", "panelart.drawing.artwork"}
    assert not cut & {*drawn, "reportlab", "pikepdf", "svgwrite", "resvg_py", "segno"}


# --- several panels


def test_of_several_panels_each_gives_what_it_has() -> None:
    both = {"bent": built(more=BENT), "flat": built()}
    made = write_each(both, only=["blank.dxf", "holes"])
    assert {key: list(files) for key, files in made.items()} == {
        "bent": ["blank.dxf", "holes.csv"],
        "flat": ["holes.csv"],
    }
    with pytest.raises(NoSuchDocumentError, match="mask"):
        write_each(both, only=["mask", "holes"])


def test_of_a_set_the_lists_are_asked_for_like_other_files() -> None:
    spec = ROOT / "demo" / "sets" / "level-monitor.yaml"
    both = {name: build(read(spec.with_name(f"{spec.name}#{name}"))) for name in ("front", "rear")}
    whole = write_set(both)
    assert tuple(whole[""]) == declared(of_a_set=True)
    assert {"panels.csv", "parts.csv"} <= set(whole[""])
    assert {key: list(files) for key, files in write_set(both, only=["cutouts.dxf"]).items()} == {
        "front": ["cutouts.dxf"],
        "rear": ["cutouts.dxf"],
        "": [],
    }
    parts = write_set(both, only=["parts", "panels"])
    assert {key: list(files) for key, files in parts.items()} == {
        "front": ["parts.csv"],
        "rear": ["parts.csv"],
        "": ["panels.csv", "parts.csv"],
    }
    assert parts[""] == whole[""]


# --- what others add


def test_a_further_document_is_written_and_asked_for_like_our_own() -> None:
    @need(LAYOUT)
    def refs(layout):
        return [part.ref for part in layout.panel.parts]

    own = document(
        "stickers",
        refs,
        {"txt": lambda refs, results: f"{' '.join(refs)} {results[DATE]}".encode()},
        says=parts(),
        audience=(Audience.WORKSHOP,),
    )
    assert write(built(), date="2026-01-31", only=["stickers"], further=[own]) == {"stickers.txt": b"S1 2026-01-31"}
    assert list(write(built(), rear=True, further=[own])) == [*ALL, "stickers.txt"]
    with pytest.raises(NoSuchDocumentError):
        write(built(), only=["stickers"])


def test_two_documents_never_write_one_file() -> None:
    own = document("film-white", LAYOUT, {"pdf": lambda *_: b""}, says=parts(), audience=(Audience.WORKSHOP,))
    with pytest.raises(ValueError, match=r"film-white\.pdf"):
        write(built(FILMS), further=[own])


def test_whatever_a_process_yields_is_written(monkeypatch: pytest.MonkeyPatch) -> None:
    """A process that names its files as no document does loses none of them, and they can be asked for."""
    from panelart.press import outputs

    drawing = Results({LAYOUT: built().layout})[cut_layer]
    monkeypatch.setattr(
        outputs, "outputs", lambda _: Outputs(prints={"cliche-white": drawing}, paths={"laser": drawing})
    )
    assert [name for name in write(built()) if name not in ALL] == ["cliche-white.pdf", "laser.dxf", "laser.svg"]
    assert list(write(built(), only=["cliche-white"])) == ["cliche-white.pdf"]
    assert list(write(built(), only=["cliche-white.pdf", "laser.svg"])) == ["cliche-white.pdf", "laser.svg"]
    with pytest.raises(NoSuchDocumentError, match="cliche-black"):
        write(built(), only=["cliche-black"])
