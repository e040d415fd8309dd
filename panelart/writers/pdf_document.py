"""What makes pages a document: the list of pages, layers, metadata, structure and printing condition."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import BinaryIO, Final

from panelart.drawing.representation import Drawing
from panelart.geometry import Affine, Box
from panelart.messages import writers as said
from panelart.writers.pdf_book import Book
from panelart.writers.pdf_content import Content
from panelart.writers.pdf_objects import PLACES, Entries, Name, ObjectFile, Ref, Value
from panelart.writers.pdf_x import NO_DAY, conformity, put_output_intent
from panelart.writers.xmp import xmp

POINTS_PER_MM: Final = 72.0 / 25.4
MAX_MM: Final = 14400.0 / POINTS_PER_MM
"""The greatest side of a page, 14400 points (ISO 32000-1, annex C): 5080 mm."""

_MITRE: Final = 4.0
"""SVG's default, so that sharp corners look alike in both files (PDF's own is 10)."""


class Document:
    """A file being written: its pages as they come, then what they share.

    Nothing is kept of a page but its place in the file and, where it has labels, theirs.
    """

    def __init__(self, out: BinaryIO) -> None:
        self.file = ObjectFile(out)
        self.book = Book()
        self.resources = self.file.reserve()
        self.pages: list[Ref] = []
        self._tree = self.file.reserve()
        self._structure: _Structure | None = None

    def content(self, page: Box, title: str) -> Content:
        """The operators of a page, begun: in mm, in the frame of the box. Raises ValueError for one over MAX_MM."""
        if max(page.width, page.height) > MAX_MM:
            raise ValueError(said.page_too_large(title=title, maximum=round(MAX_MM)))
        left, bottom = (round(-side * POINTS_PER_MM, PLACES) for side in (page.left, page.bottom))
        content = Content()
        content.map(Affine(POINTS_PER_MM, 0.0, 0.0, POINTS_PER_MM, left, bottom))
        content.mitre(_MITRE)
        return content

    def page(self, content: Content, boxes: Mapping[str, Sequence[float]], labels: Sequence[str] = ()) -> None:
        """Write a page with its boxes, in points, and the labels that its content numbers."""
        entries: dict[str, Value] = {
            "Type": Name("Page"),
            "Parent": self._tree,
            **boxes,
            "Resources": self.resources,
            "Contents": self.file.stream(bytes(content)),
        }
        ref = self.file.reserve()
        if labels:
            self._structure = self._structure or _Structure(self.file)
            entries["StructParents"] = self._structure.add(ref, labels)
        self.pages.append(self.file.put(entries, ref))

    def finish(self, about: Drawing, day: dt.date | None, forms: Entries, fonts: Entries) -> None:
        """Write what the pages share and the end of the file; `about` says whose it is and what it is printed with."""
        file, book, output = self.file, self.book, about.output
        groups = book.put_groups(file)
        more = {"XObject": forms, "Font": fonts}
        book.put_resources(file, self.resources, groups, more, managed=output is not None)
        file.put({"Type": Name("Pages"), "Kids": self.pages, "Count": len(self.pages)}, self._tree)
        x4 = output is not None and conformity(plain=book.plain, alpha=book.alpha)
        packet = file.coded(xmp(about, day, x4=x4).encode("utf-8"), {"Type": Name("Metadata"), "Subtype": Name("XML")})
        root: dict[str, Value] = {
            "Type": Name("Catalog"),
            "Pages": self._tree,
            "PageMode": Name("UseNone"),
            "ViewerPreferences": {"PrintScaling": Name("None"), "DisplayDocTitle": True},
            "OCProperties": _layers(groups, [] if x4 else book.shown_only(groups)),
            "Metadata": packet,
        }
        if self._structure is not None:
            root |= {"StructTreeRoot": self._structure.finish(), "MarkInfo": {"Marked": True}}
        if output is not None:
            root["OutputIntents"] = [put_output_intent(file, output)]
        day = NO_DAY if x4 and day is None else day
        file.close(file.put(root), file.put(_information(about, day)))


class _Structure:
    """A structure tree that holds every label, page by page, in the order of painting."""

    def __init__(self, file: ObjectFile) -> None:
        self._file = file
        self._root, self._document = file.reserve(), file.reserve()
        self._elements: list[Ref] = []
        self._parents: list[Ref] = []

    def add(self, page: Ref, labels: Sequence[str]) -> int:
        """Write the labels of a page; the number of the page in the structure."""
        elements = [
            self._file.put(
                {
                    "Type": Name("StructElem"),
                    "S": Name("Span"),
                    "P": self._document,
                    "Pg": page,
                    "K": number,
                    "ActualText": label,
                }
            )
            for number, label in enumerate(labels)
        ]
        self._elements += elements
        self._parents.append(self._file.put(elements))
        return len(self._parents) - 1

    def finish(self) -> Ref:
        """The root of the tree."""
        file = self._file
        kind = {"Type": Name("StructElem"), "S": Name("Document")}
        file.put({**kind, "P": self._root, "K": self._elements}, self._document)
        by_page: list[Value] = [part for numbered in enumerate(self._parents) for part in numbered]
        tree: dict[str, Value] = {
            "Type": Name("StructTreeRoot"),
            "K": self._document,
            "ParentTree": file.put({"Nums": by_page}),
            "ParentTreeNextKey": len(self._parents),
        }
        return file.put(tree, self._root)


def _layers(groups: Sequence[Ref], only_shown: Sequence[Ref]) -> Entries:
    """All layers are on; those that are `only_shown` are turned off where the file is printed.

    PDF/X-4 knows no such turning off by itself (ISO 15930-7 forbids AS; from memory): there the plate says it alone.
    """
    shown: dict[str, Value] = {"Name": "Layers", "BaseState": Name("ON"), "Order": groups, "ON": groups, "OFF": []}
    if only_shown:
        shown["AS"] = [{"Event": Name("Print"), "Category": [Name("Print")], "OCGs": only_shown}]
    return {"OCGs": groups, "D": shown}


def _information(about: Drawing, day: dt.date | None) -> Entries:
    """The document information dictionary."""
    told: dict[str, Value] = {"Title": about.title, "Subject": about.note, "Creator": "panelart"}
    told |= {"Producer": "panelart", "Trapped": Name("False")}
    own = {"Number": about.number, "Revision": about.revision, "Spec": about.spec}
    told |= {key: text for key, text in own.items() if text}
    if day is not None:
        told |= dict.fromkeys(("CreationDate", "ModDate"), f"D:{day:%Y%m%d}")
    return told


def points(box: Box, page: Box) -> Sequence[float]:
    """A box in points from the page's lower left corner."""
    sides = (box.left - page.left, box.bottom - page.bottom, box.right - page.left, box.top - page.bottom)
    return [side * POINTS_PER_MM for side in sides]
