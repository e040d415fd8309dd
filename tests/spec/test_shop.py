"""A shop's own figures: read, put in the place of common practice, and told with their reason."""

from __future__ import annotations

import io
import shutil
from pathlib import Path

import pikepdf
import pytest

from panelart.diagnostics import SpecError
from panelart.figure import Known
from panelart.processes.process import Emulsion
from panelart.processes.registry import processes
from panelart.spec.read import panel_from_text, read_panel
from panelart.spec.shop import shop_text
from tests.spec.samples import GOOD

SHOP = """
panelart-shop: 1
shop: Haldon Marking, bed 2
limits:
  digital-print:
    line_minimum: {value: 0.18, why: strip of 12 March}
    base_choke: {value: 0.2, why: white runs}
plates: {base: White 1, varnish: Gloss, cut: Cut}
emulsion: down
"""


def with_shop(folder: Path, text: str = SHOP, spec: str = GOOD):
    (folder / "shop.yaml").write_text(text, encoding="utf-8")
    return panel_from_text(spec.replace("  lettering:", "  shop: shop.yaml\n  lettering:", 1), folder=folder)


def told(folder: Path, text: str) -> list[str]:
    with pytest.raises(SpecError) as caught:
        with_shop(folder, text)
    return [str(problem) for problem in caught.value.problems]


def test_its_figures_hold_and_say_why(tmp_path: Path) -> None:
    marking = with_shop(tmp_path).marking
    line = marking.process.line_minimum
    assert (line.value, line.known) == (0.18, Known.GIVEN)
    assert "strip of 12 March" in line.source
    assert "common practice: 0.25" in line.source
    assert marking.printing.base is not None
    assert marking.printing.base.choke == 0.2
    assert (marking.printing.plates.base, marking.printing.shop) == ("White 1", "Haldon Marking, bed 2")
    assert marking.printing.emulsion is Emulsion.DOWN
    # What it does not name is common practice.
    assert marking.process.gap_minimum == processes()["digital-print"].gap_minimum


def test_the_option_goes_before_the_spec(tmp_path: Path) -> None:
    (tmp_path / "p.yaml").write_text(GOOD, encoding="utf-8")
    (tmp_path / "other.yaml").write_text(SHOP.replace("0.18", "0.31"), encoding="utf-8")
    assert read_panel(tmp_path / "p.yaml", shop=tmp_path / "other.yaml").marking.process.line_minimum.value == 0.31
    with pytest.raises(SpecError, match=r"none\.yaml:1:1: .*Cannot read the shop file"):
        read_panel(tmp_path / "p.yaml", shop=tmp_path / "none.yaml")


@pytest.mark.parametrize(("change", "message"), [
    (("digital-print:", "digital-prnt:"), "Unknown process 'digital-prnt'"),
    (("line_minimum:", "line_last:"), "Process digital-print has no figure 'line_last'"),
    (("value: 0.18, ", ""), "Required key 'value' is missing in figure"),
    ((", why: strip of 12 March", ""), "Required key 'why' is missing in figure"),
    (("0.18", "-1"), "Found '-1'"),
    (("varnish: Gloss", "varnish: White 1"), "Two plates have the same name"),
    (("base: White 1", "base: All"), "has another meaning in a PDF"),
    (("emulsion: down", "emulsion: left"), "Found 'left'"),
    (("panelart-shop: 1", "panelart-shop: 2"), "Found '2'"),
    (("emulsion: down", "output: {profile: none.icc, condition: x}"), "Cannot read the profile 'none.icc'"),
    (("emulsion: down", "output: {profile: shop.yaml, condition: x}"), "is not an ICC profile"),
])  # fmt: skip
def test_slips_are_told_with_their_place(tmp_path: Path, change: tuple[str, str], message: str) -> None:
    problems = told(tmp_path, SHOP.replace(*change))
    assert any(message in problem and "shop.yaml:" in problem for problem in problems), problems


def test_an_ink_and_a_plate_of_the_shop_have_names_of_their_own(tmp_path: Path) -> None:
    with pytest.raises(SpecError, match="Ink 'white' has the name of the shop's plate for base"):
        with_shop(tmp_path, SHOP.replace("White 1", "White"))


def test_what_the_command_prints_is_read_again_and_changes_nothing(tmp_path: Path) -> None:
    marking = with_shop(tmp_path, shop_text(list(processes().values()))).marking
    common = processes()["digital-print"]
    assert marking.process.line_minimum.value == common.line_minimum.value
    assert {name: figure.value for name, figure in marking.process.own.items()} == {
        name: figure.value for name, figure in common.own.items()
    }


PROFILE = Path("/usr/share/color/icc/ghostscript/default_cmyk.icc")


@pytest.mark.skipif(not PROFILE.is_file(), reason="there is no CMYK profile here")
def test_an_output_profile_makes_pdf_x_4(tmp_path: Path) -> None:
    import io

    import pikepdf

    from panelart.pipeline import build, write

    shutil.copy(PROFILE, tmp_path / "bed.icc")
    shop = SHOP + "output: {profile: bed.icc, condition: bed 2 on white}\n"
    files = write(build(with_shop(tmp_path, shop)))
    with pikepdf.open(io.BytesIO(files["artwork.pdf"])) as file:
        assert file.pdf_version == "1.6"
        intent = file.Root.OutputIntents[0]
        assert str(intent.S) == "/GTS_PDFX"
        assert bytes(intent.DestOutputProfile.read_bytes()) == PROFILE.read_bytes()
        packet = file.Root.Metadata.read_bytes().decode()
        for text in ("PDF/X-4", "xmpMM:DocumentID", "xmpMM:RenditionClass", "xmp:MetadataDate", "<pdf:Trapped>False"):
            assert text in packet
        page = file.pages[0]
        # Device colours would mean the condition's own: each plate shows on screen by a profile.
        assert {str(space[2][0]) for space in page.Resources.ColorSpace.values()} == {"/ICCBased"}
        content = page.Contents.read_bytes().decode("latin-1")
        assert " rg" not in content.replace(" rgb", "")
        assert " RG" not in content
        assert "/Encrypt" not in file.trailer
        assert "/ArtBox" not in page
    # A proof is looked at, not printed on that press.
    with pikepdf.open(io.BytesIO(files["proof.pdf"])) as file:
        assert "/OutputIntents" not in file.Root


def test_our_srgb_profile_is_srgb() -> None:
    """Little CMS, by Pillow, turns our colours into its own sRGB and they stay what they were."""
    import io

    from PIL import Image, ImageCms

    from panelart.writers.srgb import srgb_profile

    ours = ImageCms.getOpenProfile(io.BytesIO(srgb_profile()))
    assert ours.profile.version == pytest.approx(2.4)
    picture = Image.new("RGB", (16, 16))
    picture.putdata([(17 * x, 17 * y, (x * y * 13) % 256) for x in range(16) for y in range(16)])
    same = ImageCms.profileToProfile(picture, ours, ImageCms.createProfile("sRGB"))
    apart = max(abs(a - b) for a, b in zip(picture.tobytes(), same.tobytes(), strict=True))
    assert apart <= 1


def test_the_date_of_the_revision_is_that_of_the_files() -> None:
    """In the spec, in PDF/X-4 and in plain files; the run's own date goes before it."""
    from panelart.pipeline import build, write

    spec = GOOD.replace("  size:", "  revised: 2026-03-14\n  size:", 1)
    panel = panel_from_text(spec)
    assert panel.revised == "2026-03-14"
    for date, day in (("", "D:20260314"), ("2026-05-01", "D:20260501")):
        data = write(build(panel), date=date, only=["artwork.pdf"])["artwork.pdf"]
        with pikepdf.open(io.BytesIO(data)) as file:
            assert str(file.docinfo["/CreationDate"]) == day
    with pytest.raises(SpecError, match="2026-02-30"):
        panel_from_text(spec.replace("2026-03-14", "2026-02-30"))
