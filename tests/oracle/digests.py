"""Digests of files that say whether an output is what it was, whatever wrote the container round it.

Promised for one set of locked versions of the libraries (.ci/locked.txt): the same bytes. Promised across versions of
Python and of the libraries, and across platforms: the same text files, and of compressed files the same uncompressed
objects and pixels. So these are held:

- DXF, SVG, CSV, JSON and text: byte for byte. A picture within an SVG counts by its pixels; digests of PDF files that a
  file quotes are left out, since those are of compressed bytes.
- PNG: the decoded pixels.
- PDF: the objects, uncompressed, in the order in which a walk from the trailer meets them, so that object numbers do
  not matter; without document IDs, dates and names of programs that wrote it. Embedded fonts count by their content.
- PDF, rendered: every page at 300 dpi by poppler, and for what is printed every plate at 150 dpi by Ghostscript. Pages
  longer than 6000 dots are rendered with less, so that the longest of the file has 6000. They follow from the objects,
  so they are only rendered where the objects have changed, to tell whether that can be seen.
"""

from __future__ import annotations

import base64
import hashlib
import io
import re
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from functools import cache
from pathlib import Path, PurePosixPath

import numpy as np
import pikepdf
from PIL import Image

DPI = 300
PLATE_DPI = 150
MOST_DOTS = 6000
"""The longest side of a rendered page."""

PRINTED = re.compile(r"(artwork|film-|overlay\.|bed-|strip\.)")
"""What the PDF files are called that plates are made from."""

Digests = dict[tuple[str, str], str]
"""Digests by file and kind: bytes, pixels, objects, page N, plate NAME."""

Image.MAX_IMAGE_PIXELS = None


def short(data: bytes) -> str:
    """A digest of some bytes."""
    return hashlib.sha256(data).hexdigest()[:20]


# --- what is always held


def exact(files: dict[str, bytes]) -> Digests:
    """One digest a file: of its bytes, its pixels or its objects."""
    return dict(_exact(name, data) for name, data in files.items())


def _exact(name: str, data: bytes) -> tuple[tuple[str, str], str]:
    match PurePosixPath(name).suffix:
        case ".pdf":
            return (name, "objects"), short(objects(data))
        case ".png":
            return (name, "pixels"), short(_pixels(data))
        case _:
            return (name, "bytes"), short(plain(data))


def plain(data: bytes) -> bytes:
    """A text with pictures in it by their pixels, and without digests of files that are compressed."""

    def shown(found: re.Match[bytes]) -> bytes:
        return b"pixels " + short(_pixels(base64.b64decode(found[1]))).encode()

    data = re.sub(rb"data:image/png;base64,([A-Za-z0-9+/=\s]+)", shown, data)
    return re.sub(rb'(\.pdf": )"[0-9a-f]{64}"', rb"\1", data)


def _pixels(data: bytes) -> bytes:
    with Image.open(io.BytesIO(data)) as image:
        return f"{image.mode} {image.size} {image.info.get('dpi')}\n".encode() + image.convert("RGBA").tobytes()


_UNTOLD = {"/Producer", "/CreationDate", "/ModDate", "/ID", "/Length", "/Filter", "/DecodeParms"}
_XMP = re.compile(
    rb"<(xmp:(?:CreateDate|ModifyDate|MetadataDate)|pdf:Producer|xmpMM:(?:DocumentID|InstanceID))>.*?</\1>\n?",
    re.DOTALL,
)


def objects(data: bytes) -> bytes:
    """The objects of a PDF as text, uncompressed, in the order in which they are met."""
    with pikepdf.open(io.BytesIO(data)) as file:
        met: dict[tuple[int, int], int] = {}
        told = [b"version " + file.pdf_version.encode()]
        for key in ("/Root", "/Info"):
            if key in file.trailer:
                told.append(key.encode())
                told.extend(_told(file.trailer[key], met))
        return b"\n".join(told)


def _told(thing: object, met: dict[tuple[int, int], int]) -> Iterator[bytes]:
    if not isinstance(thing, pikepdf.Object):
        yield repr(thing).encode()
        return
    if thing.is_indirect:
        if thing.objgen in met:
            yield b"as %d" % met[thing.objgen]
            return
        met[thing.objgen] = len(met)
        yield b"is %d" % met[thing.objgen]
    if isinstance(thing, pikepdf.Stream):
        yield from _dictionary(thing, met)
        yield b"stream"
        yield _content(thing)
        yield b"endstream"
    elif isinstance(thing, pikepdf.Dictionary):
        yield from _dictionary(thing, met)
    elif isinstance(thing, pikepdf.Array):
        yield b"["
        for item in thing:  # type: ignore[attr-defined]
            yield from _told(item, met)
        yield b"]"
    else:
        yield thing.unparse()


def _dictionary(thing: pikepdf.Object, met: dict[tuple[int, int], int]) -> Iterator[bytes]:
    yield b"<<"
    for key in sorted(thing.keys()):
        if key not in _UNTOLD:
            yield key.encode()
            yield from _told(thing[key], met)
    yield b">>"


def _content(stream: pikepdf.Object) -> bytes:
    try:
        content = stream.read_bytes()
    except pikepdf.PdfError:  # a filter that is a picture's own
        return repr(stream.get("/Filter")).encode() + stream.read_raw_bytes()
    return _XMP.sub(b"", content) if stream.get("/Type") == "/Metadata" else content


# --- what is rendered


@cache
def poppler() -> str:
    """The version of poppler here, '' where there is none."""
    return _version("pdftoppm", "-v")


@cache
def ghostscript() -> str:
    """The version of Ghostscript here, '' where there is none."""
    return _version("gs", "--version")


def _version(*command: str) -> str:
    if shutil.which(command[0]) is None:
        return ""
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    found = re.search(r"\d+[.\d]*", done.stdout + done.stderr)
    return found[0] if found else ""


def rendered(name: str, data: bytes, *, pages: bool = True, plates: bool = True) -> Digests:
    """A digest of every page of a PDF, and of every plate of one that is printed."""
    found: Digests = {}
    if pages:
        for number, page in enumerate(page_pictures(data), 1):
            found[name, f"page {number}"] = short(f"{page.shape}".encode() + page.tobytes())
    if plates and PRINTED.match(PurePosixPath(name).name):
        for plate, ink in plate_pictures(data).items():
            found[name, f"plate {plate}"] = short(f"{ink.shape}".encode() + ink.tobytes()) if ink.any() else "blank"
    return found


def page_pictures(data: bytes) -> Iterator[np.ndarray]:
    """Every page as poppler shows it."""
    with pikepdf.open(io.BytesIO(data)) as file:
        longest = max(
            float(abs(box[n + 2] - box[n])) for page in file.pages for box in (page.mediabox,) for n in (0, 1)
        )
    dpi = min(float(DPI), MOST_DOTS * 72.0 / longest)
    with tempfile.TemporaryDirectory() as place:
        path = Path(place) / "file.pdf"
        path.write_bytes(data)
        subprocess.run(["pdftoppm", "-r", f"{dpi:.3f}", path, path.with_suffix("")], check=True, capture_output=True)
        for page in sorted(Path(place).glob("*.ppm"), key=lambda path: int(path.stem.rpartition("-")[2])):
            with Image.open(page) as image:
                yield np.asarray(image.convert("RGB"))


def plate_pictures(data: bytes) -> dict[str, np.ndarray]:
    """Every plate as Ghostscript parts it, with the ink that lies on it, 0 to 255."""
    with tempfile.TemporaryDirectory() as place:
        path = Path(place) / "file.pdf"
        path.write_bytes(data)
        command = ["gs", "-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=tiffsep", f"-r{PLATE_DPI}"]
        subprocess.run([*command, "-o", Path(place) / "page%d.tif", path], check=True, capture_output=True)
        found: dict[str, np.ndarray] = {}
        for plate in sorted(Path(place).glob("page*(*).tif")):
            number, name = re.fullmatch(r"page(\d+)\((.*)\)", plate.stem).groups()  # type: ignore[union-attr]
            with Image.open(plate) as image:
                found[name if number == "1" else f"{name} of page {number}"] = 255 - np.asarray(image.convert("L"))
        return found
