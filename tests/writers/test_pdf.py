from __future__ import annotations

import ctypes
import datetime as dt
import io
import math
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pikepdf
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from lxml import etree
from msgspec.structs import replace

from panelart.drawing.representation import Drawing, Item, Layer, Paint, Step
from panelart.geometry import Box, Line, Point, circle
from panelart.lettering.outline import open_shape, shape_of
from panelart.writers import pdf
from tests.readers import needs_ghostscript, needs_poppler
from tests.writers.readers import MM, Drawn, off_by, pdf_drawn
from tests.writers.sample import BASE, CUTOUTS, OUTLINE, RING, TURNED_SLOT, sample

INK = Paint(colour="#112233")
PAGE = Box(0, 0, 100, 60)
BOX = 1e-4
"""mm; a box over 100 points is written with four decimals of a point, 0.02 um."""


def sheet(*layers: Layer, title: str = "Try", page: Box = PAGE, trim: Box = PAGE) -> Drawing:
    return Drawing(title=title, note="A try.", page=page, trim=trim, layers=layers)


def dot(paint: Paint) -> Item:
    return Item(shape=shape_of(circle(10, Point(50, 30))), fill=paint)


@pytest.fixture(scope="module")
def made() -> bytes:
    return pdf([sample(), sample().only("cutouts", "outline")], date="2031-02-03")


@pytest.fixture
def file(made: bytes) -> Iterator[pikepdf.Pdf]:
    with pikepdf.open(io.BytesIO(made)) as opened:
        yield opened


@pytest.fixture(scope="module")
def on_disk(made: bytes, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("pdf") / "made.pdf"
    path.write_bytes(made)
    return path


def of_layers(drawn: list[Drawn], *layers: str) -> list[Drawn]:
    return [d for d in drawn if d.layer in layers]


def panel(loop: list[Point]) -> list[Point]:
    """From the page's corner to the panel's."""
    return [Point(p.x - 7, p.y - 3.5) for p in loop]


def test_boxes_are_the_page_the_bleed_and_the_trim(file: pikepdf.Pdf) -> None:
    def mm(box: object) -> list[float]:
        return [float(side) * MM for side in box]  # type: ignore[attr-defined]

    page = file.pages[0]
    assert mm(page.MediaBox) == pytest.approx([0, 0, 254, 127], abs=BOX)
    assert mm(page.CropBox) == pytest.approx([0, 0, 254, 127], abs=BOX)
    assert mm(page.TrimBox) == pytest.approx([7, 3.5, 247, 123.5], abs=BOX)
    assert mm(page.BleedBox) == pytest.approx([5, 1.5, 249, 125.5], abs=BOX)
    assert "/ArtBox" not in page  # PDF/X allows one of trim and art box
    assert "/UserUnit" not in page


def test_bleed_stops_at_the_page() -> None:
    with pikepdf.open(io.BytesIO(pdf([sheet(trim=Box(1, 0, 99.5, 60))]))) as file:
        box = [float(side) * MM for side in file.pages[0].BleedBox]
    assert box == pytest.approx([0, 0, 100, 60], abs=BOX)


def test_pages_of_different_sizes_keep_their_own() -> None:
    other = Box(-50, -50, 160, 247)
    document = pypdfium2.PdfDocument(pdf([sheet(), sheet(page=other, trim=other)]))
    sizes = [tuple(round(side * MM, 4) for side in page.get_size()) for page in document]
    assert sizes == [(100, 60), (210, 297)]


@pytest.mark.parametrize(("page_index", "count"), [(0, 2), (1, 2)])
def test_cut_contours_read_back_to_a_micrometre(made: bytes, page_index: int, count: int) -> None:
    drawn = of_layers(pdf_drawn(made, page_index), "cutouts", "outline")
    assert len({d.layer for d in drawn}) == count
    for found, contour in zip(drawn, (*CUTOUTS, OUTLINE), strict=True):
        assert found.operator == "S"
        assert off_by(panel(found.loops[0]), contour) < 0.001


def test_filled_shapes_read_back_to_a_micrometre(made: bytes) -> None:
    drawn = pdf_drawn(made)
    (base,), (slot,) = of_layers(drawn, "base"), of_layers(drawn, "legend-red")
    assert off_by(panel(base.loops[0]), BASE) < 0.001
    assert off_by(panel(slot.loops[0]), TURNED_SLOT) < 0.001
    ring = of_layers(drawn, "legend-black")[0]
    assert [off_by(panel(loop), contour) < 0.001 for loop, contour in zip(ring.loops, RING, strict=True)]


@pytest.mark.parametrize("r", [5, 40, 400])
def test_a_circle_is_true_to_five_millionths_of_its_radius(r: float) -> None:
    # Eight cubics: 4.2e-6 r (the known bound of k = 4/3 tan(sweep/4)); with four it would be 2.7e-4 r.
    page = Box(-r - 1, -r - 1, r + 1, r + 1)
    made = pdf([sheet(Layer(name="a", items=(Item(shape=shape_of(circle(2 * r)), fill=INK),)), page=page, trim=page)])
    (found,) = pdf_drawn(made)
    error = max(abs(math.hypot(p.x - r - 1, p.y - r - 1) - r) for p in found.loops[0])
    # Beside the curve itself: the last digit of the control points, 0.05 um, and of the page's corner.
    assert error < 4.3e-6 * r + 0.0001


def test_layers_are_optional_content_groups_shared_by_the_pages(file: pikepdf.Pdf) -> None:
    properties = file.Root.OCProperties
    assert [str(group.Name) for group in properties.OCGs] == [layer.name for layer in sample().layers]
    assert list(properties.D.ON) == list(properties.OCGs) == list(properties.D.Order)
    assert len(properties.D.OFF) == 0
    assert "/AS" not in properties.D
    for page in file.pages:
        named = {group.objgen for group in page.Resources.Properties.values()}
        assert named <= {group.objgen for group in properties.OCGs}


def test_processing_steps_are_those_of_iso_19593_1(file: pikepdf.Pdf) -> None:
    # Group and type names: PDF Association's object model (Arlington), which cites the standard's tables 2 and 3.
    found = {
        str(group.Name): {key: str(value) for key, value in group.GTS_Metadata.items()}
        for group in file.Root.OCProperties.OCGs
        if "/GTS_Metadata" in group
    }
    cutting = {"/GTS_ProcStepsGroup": "/Structural", "/GTS_ProcStepsType": "/Cutting"}
    assert found == {"base": {"/GTS_ProcStepsGroup": "/White"}, "cutouts": cutting, "outline": cutting}


@needs_poppler
@pytest.mark.parametrize("layer", ["base", "legend-black", "legend-red", "parts", "cutouts"])
def test_each_layer_shows_alone_in_poppler(made: bytes, tmp_path: Path, layer: str) -> None:
    from PIL import Image, ImageChops

    def picture(data: bytes, name: str) -> Image.Image:
        (tmp_path / f"{name}.pdf").write_bytes(data)
        run = ["pdftoppm", "-r", "50", "-f", "1", "-l", "1", "-png", "-singlefile", f"{name}.pdf", name]
        subprocess.run(run, cwd=tmp_path, check=True)
        return Image.open(tmp_path / f"{name}.png").convert("L")

    with pikepdf.open(io.BytesIO(made)) as file:
        groups = file.Root.OCProperties
        groups.D.OFF = pikepdf.Array([group for group in groups.OCGs if str(group.Name) != layer])
        groups.D.ON = pikepdf.Array([group for group in groups.OCGs if str(group.Name) == layer])
        changed = io.BytesIO()
        file.save(changed)
    alone = picture(changed.getvalue(), "alone")
    only = picture(pdf([sample().only(layer)]), "only")
    assert alone.getextrema()[0] < 255, "something shows"
    assert ImageChops.difference(alone, only).getextrema() == (0, 0)


def test_plates_are_separations_shown_in_the_ink_s_colour(file: pikepdf.Pdf) -> None:
    spaces = list(file.pages[0].Resources.ColorSpace.values())
    assert [str(space[1]) for space in spaces] == ["/White base", "/Black", "/Signal red", "/Cut"]
    assert {(str(space[0]), str(space[2])) for space in spaces} == {("/Separation", "/DeviceRGB")}
    tints = [[round(float(share) * 255) for share in space[3].C1] for space in spaces]
    assert tints == [[0xE9, 0xE9, 0xE4], [0x14] * 3, [0xC8, 0x20, 0x1A], [255, 0, 255]]
    assert all(list(space[3].C0) == [1, 1, 1] for space in spaces)


def test_plates_overprint_and_plain_paint_does_not(made: bytes) -> None:
    for found in pdf_drawn(made):
        overprint = found.state.get("/OP" if found.operator == "S" else "/op", False)
        plate = found.state.get("CS" if found.operator == "S" else "cs")
        if found.layer == "parts":
            assert (plate, overprint) == (None, False)
        else:
            assert plate is not None
            assert overprint is True
            assert found.state["/OPM"] == 1


def test_widths_dashes_and_opacity(made: bytes) -> None:
    fill, stroke = of_layers(pdf_drawn(made), "parts")
    assert (fill.operator, stroke.operator) == ("f", "S")
    assert fill.state["/ca"] == stroke.state["/CA"] == pytest.approx(0.4)
    assert float(stroke.state["w"][0]) == pytest.approx(0.8)
    assert [float(length) for length in stroke.state["d"][0]] == [3, 1.5]
    marks = [d for d in of_layers(pdf_drawn(made), "legend-black") if d.operator == "S"]
    assert {float(mark.state["w"][0]) for mark in marks} == {0.35}
    assert not any("d" in mark.state for mark in marks)


@needs_poppler
def test_no_fonts_and_no_pictures(file: pikepdf.Pdf, on_disk: Path) -> None:
    listed = subprocess.run(["pdffonts", on_disk], capture_output=True, text=True, check=True).stdout
    assert len(listed.splitlines()) == 2, "the heading only"
    listed = subprocess.run(["pdfimages", "-list", on_disk], capture_output=True, text=True, check=True).stdout
    assert len(listed.splitlines()) == 2
    kinds = {str(o.get("/Type")) for o in file.objects if isinstance(o, pikepdf.Dictionary)}
    assert "/Font" not in kinds


@needs_poppler
def test_poppler_reads_it_without_a_complaint(on_disk: Path) -> None:
    told = subprocess.run(["pdfinfo", "-box", on_disk], capture_output=True, text=True, check=True)
    assert told.stderr == ""
    facts = dict(line.split(":", 1) for line in told.stdout.splitlines())
    assert facts["PDF version"].strip() == "1.6"
    assert facts["Title"].strip() == sample().title
    assert facts["Subject"].strip() == sample().note
    assert facts["Tagged"].strip() == "yes"


def test_the_file_has_no_fault_that_qpdf_finds(file: pikepdf.Pdf) -> None:
    assert file.check_pdf_syntax() == []


def test_title_number_and_revision_in_both_places(file: pikepdf.Pdf) -> None:
    info = {key: str(value) for key, value in file.docinfo.items()}
    assert (info["/Title"], info["/Number"], info["/Revision"]) == (sample().title, "BS-210-01", "B")
    assert (info["/CreationDate"], info["/ModDate"]) == ("D:20310203", "D:20310203")
    names = {
        "dc": "http://purl.org/dc/elements/1.1/",
        "xmp": "http://ns.adobe.com/xap/1.0/",
        "xmpMM": "http://ns.adobe.com/xap/1.0/mm/",
        "rdf": "http://www.w3.org/1999/02/22-rdf-syntax-ns#",
    }
    packet = etree.fromstring(file.Root.Metadata.read_bytes())

    def read(path: str) -> list[str]:
        return [element.text or "" for element in packet.iterfind(path, names)]

    assert read(".//dc:title/rdf:Alt/rdf:li") == [sample().title]
    assert read(".//dc:description/rdf:Alt/rdf:li") == [sample().note]
    assert read(".//dc:identifier") == ["BS-210-01"]
    assert read(".//xmpMM:VersionID") == ["B"]
    assert read(".//xmp:CreateDate") == read(".//xmp:ModifyDate") == ["2031-02-03"]
    with file.open_metadata() as metadata:  # pikepdf's own reader of XMP
        assert metadata["dc:title"] == sample().title


def test_no_date_unless_one_is_handed_in() -> None:
    made = pdf([sample()])
    year = str(dt.datetime.now(tz=dt.UTC).year).encode()
    assert b"Date" not in made
    assert b"D:" + year not in made


def test_the_identifier_follows_the_content() -> None:
    def identifier(*pages: Drawing) -> bytes:
        with pikepdf.open(io.BytesIO(pdf(pages))) as file:
            return bytes(file.trailer.ID[1])

    assert identifier(sample()) == identifier(sample())
    assert identifier(sample()) != identifier(sample().only("base"))


def test_prints_at_full_size_and_shows_its_title(file: pikepdf.Pdf) -> None:
    wishes = file.Root.ViewerPreferences
    assert str(wishes.PrintScaling) == "/None"
    assert bool(wishes.DisplayDocTitle) is True


def test_pdfium_reads_the_labels_aloud_in_order(made: bytes) -> None:
    document = pypdfium2.PdfDocument(made)
    page = document[0]
    tree = pdfium.FPDF_StructTree_GetForPage(page)
    (root,) = [
        pdfium.FPDF_StructTree_GetChildAtIndex(tree, i) for i in range(pdfium.FPDF_StructTree_CountChildren(tree))
    ]
    words = []
    for index in range(pdfium.FPDF_StructElement_CountChildren(root)):
        element = pdfium.FPDF_StructElement_GetChildAtIndex(root, index)
        if not element:  # of another page
            continue
        size = pdfium.FPDF_StructElement_GetActualText(element, None, 0)
        text = ctypes.create_string_buffer(size)
        pdfium.FPDF_StructElement_GetActualText(element, text, size)
        words.append(text.raw.decode("utf-16-le").rstrip("\0"))
    pdfium.FPDF_StructTree_Close(tree)
    assert words == ["RING", "O", "STOP Größe"]


def test_every_label_belongs_to_the_path_it_names(made: bytes, file: pikepdf.Pdf) -> None:
    numbered = {d.state["mcid"]: d.layer for d in pdf_drawn(made) if "mcid" in d.state}
    assert numbered == {0: "legend-black", 1: "legend-black", 2: "legend-red"}
    nums = list(file.Root.StructTreeRoot.ParentTree.Nums)
    page = file.pages[0]
    elements = nums[2 * int(page.StructParents) + 1]
    assert [str(element.ActualText) for element in elements] == ["RING", "O", "STOP Größe"]
    assert [int(element.K) for element in elements] == [0, 1, 2]


def test_without_labels_there_is_no_structure() -> None:
    with pikepdf.open(io.BytesIO(pdf([sheet(Layer(name="a", items=(dot(INK),)))]))) as file:
        assert "/StructTreeRoot" not in file.Root


def test_non_ascii_names_of_layers_and_plates() -> None:
    ink = Paint(colour="#102030", plate="Weiß (deckend) #1/2")
    made = pdf([sheet(Layer(name="Übersicht: µ", items=(dot(ink),)))])
    (found,) = pdf_drawn(made)
    assert found.layer == "Übersicht: µ"
    assert found.state["cs"] == "Weiß (deckend) #1/2"


NOWHERE = open_shape((Line(Point(0, 0), Point(math.inf, 1)),))
CUTTING = Layer(name="a", items=(), step=Step.CUTTING)


@pytest.mark.parametrize(
    ("pages", "words"),
    [
        ([], "at least one page"),
        ([sheet(trim=Box(0, 0, 101, 60))], "outside the page"),
        ([sheet(page=Box(0, 0, 5081, 60))], "maximum 5080 mm"),
        ([sheet(Layer(name="a", items=())), sheet(CUTTING)], "two processing steps"),
        (
            [
                sheet(Layer(name="a", items=(dot(Paint(colour="#111111", plate="P")),))),
                sheet(Layer(name="a", items=(dot(Paint(colour="#111112", plate="P")),))),
            ],
            "two colours",
        ),
        ([sheet(Layer(name="a", items=(dot(Paint(colour="#111111", plate="All")),)))], "cannot be called"),
        ([sheet(Layer(name="a", items=(dot(Paint(colour="#111111", plate="None")),)))], "cannot be called"),
        ([sheet(Layer(name="a", items=(dot(Paint(colour="#111111", plate="")),)))], "cannot be called"),
        ([sheet(Layer(name="a", items=(replace(dot(INK), stroke=INK),)))], "0 mm wide"),
        ([sheet(Layer(name="a", items=(replace(dot(INK), shape=NOWHERE),)))], "finite"),
    ],
)
def test_refuses_what_a_pdf_cannot_say(pages: list[Drawing], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        pdf(pages)


@pytest.mark.parametrize("date", ["yesterday", "2031-02-30", "03.02.2031", ""])
def test_refuses_what_is_not_a_date(date: str) -> None:
    with pytest.raises(ValueError, match=r"isoformat|day is out of range"):
        pdf([sheet()], date=date)


@needs_ghostscript
def test_ghostscript_makes_one_plate_for_each_ink_of_the_right_area(made: bytes, tmp_path: Path) -> None:
    import numpy as np
    from PIL import Image
    from shapely import LineString
    from shapely import Point as Spot

    (tmp_path / "made.pdf").write_bytes(made)
    command = "gs -q -dNOPAUSE -dBATCH -dSAFER -sDEVICE=tiffsep -r300 -dLastPage=1 -sOutputFile=plate.tif made.pdf"
    subprocess.run(command.split(), cwd=tmp_path, check=True)
    plates = {path.name.split("(", 1)[1].rsplit(")", 1)[0]: path for path in tmp_path.glob("plate*(*).tif")}
    assert plates.keys() >= {"White base", "Black", "Signal red", "Cut"}

    def area(name: str) -> float:
        # In a plate 0 is full ink; a pixel is 25.4/300 mm wide.
        ink = 1.0 - np.asarray(Image.open(plates[name]).convert("L"), dtype=float) / 255
        return float(ink.sum()) * (25.4 / 300) ** 2

    rounded = Spot(0, 0).buffer(1, quad_segs=256).area
    # The base lies whole under the ring and the letter: inks overprint, they cut nothing out of it.
    assert area("White base") == pytest.approx(80 * 40 - (4 - rounded) * 25, rel=0.005)
    turned = LineString([(0, 0), (22, 0)]).buffer(4, quad_segs=256).area
    assert area("Signal red") == pytest.approx(turned, rel=0.02)
    for process in {"Cyan", "Magenta", "Yellow"} & plates.keys():
        # Only the ghosted part, which has no plate, is separated into process inks.
        assert area(process) < math.pi * 19**2


def test_a_file_of_pages_has_no_page_number_in_its_title() -> None:
    pages = [replace(sample(), title=f"Logger, rear: proof, sheet {number} of 2") for number in (1, 2)]
    with pikepdf.open(io.BytesIO(pdf(pages))) as file:
        assert str(file.docinfo["/Title"]) == "Logger, rear: proof"
        assert file.open_metadata()["dc:title"] == "Logger, rear: proof"
    with pikepdf.open(io.BytesIO(pdf(pages[:1]))) as file:
        assert str(file.docinfo["/Title"]) == pages[0].title
