"""What the digests see and what they do not: containers, numbers, dates and programs are nothing; all else counts."""

from __future__ import annotations

import io

import pikepdf
import pytest
from PIL import Image

from tests.oracle.digests import exact, objects, plain


def pdf(words: str = "one", *, date: str = "2026-01-31", **more: object) -> bytes:
    file = pikepdf.new()
    for name in (words, "two"):
        file.add_blank_page(page_size=(100, 100))
        file.pages[-1].obj.Contents = file.make_stream(f"0 0 m ({name}) Tj".encode())
    file.docinfo["/CreationDate"] = f"D:{date}"
    file.docinfo["/Producer"] = f"program of {date}"
    file.docinfo["/Title"] = "A title"
    data = (
        '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">'
        '<rdf:Description xmlns:xmp="http://ns.adobe.com/xap/1.0/" rdf:about="">'
        f"<xmp:CreateDate>{date}</xmp:CreateDate></rdf:Description></rdf:RDF></x:xmpmeta>"
    ).encode()
    file.Root.Metadata = file.make_stream(data, {"/Type": pikepdf.Name.Metadata, "/Subtype": pikepdf.Name.XML})
    out = io.BytesIO()
    file.save(out, **more)  # type: ignore[arg-type]
    return out.getvalue()


def told(data: bytes) -> bytes:
    """The objects without the first line, the version of PDF, which object streams raise."""
    return objects(data).partition(b"\n")[2]


@pytest.mark.parametrize(
    "other",
    [
        pdf(compress_streams=False),
        pdf(object_stream_mode=pikepdf.ObjectStreamMode.generate),
        pdf(linearize=True),
        pdf(date="2027-02-28"),
    ],
    ids=["uncompressed", "object streams", "linearized, with other numbers", "another day"],
)
def test_a_pdf_in_another_container_has_the_same_objects(other: bytes) -> None:
    assert other != pdf()
    assert told(other) == told(pdf())


def test_a_pdf_that_shows_another_thing_has_other_objects() -> None:
    assert objects(pdf("other")) != objects(pdf())


def test_a_picture_counts_by_its_pixels() -> None:
    def png(level: int, dot: int) -> bytes:
        image = Image.new("RGB", (8, 8), (dot, 0, 0))
        out = io.BytesIO()
        image.save(out, "PNG", compress_level=level)
        return out.getvalue()

    first, packed, other = ({"a.png": png(level, dot)} for level, dot in ((0, 1), (9, 1), (9, 2)))
    assert first != packed
    assert exact(first) == exact(packed) != exact(other)


def test_a_text_counts_byte_for_byte_but_for_digests_of_compressed_files() -> None:
    assert plain(b"a\r\n") != plain(b"a\n")
    assert plain(b'{"bed-1.pdf": "%s"}' % (b"0" * 64)) == plain(b'{"bed-1.pdf": "%s"}' % (b"f" * 64))
    assert plain(b'{"bed.csv": "%s"}' % (b"0" * 64)) != plain(b'{"bed.csv": "%s"}' % (b"f" * 64))
