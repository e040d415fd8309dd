"""The metadata of a PDF as an XMP packet (ISO 16684-1)."""

from __future__ import annotations

import datetime as dt

from panelart.drawing.representation import Drawing
from panelart.writers.figures import lawful
from panelart.writers.pdf_x import NO_DAY, document_id


def xmp(first: Drawing, day: dt.date | None, *, x4: bool = False) -> str:
    """The packet: title, note, number, revision and fingerprint of a drawing, and the day it was made where it is told.

    What PDF/X-4 asks for beyond that is written where `x4` is set.
    """
    from xml.sax.saxutils import escape

    def words(text: str) -> str:
        return escape(lawful(text))

    def alternatives(text: str) -> str:
        return f'<rdf:Alt><rdf:li xml:lang="x-default">{words(text)}</rdf:li></rdf:Alt>'

    lines = [
        f"<dc:title>{alternatives(first.title)}</dc:title>",
        f"<dc:description>{alternatives(first.note)}</dc:description>",
        "<dc:format>application/pdf</dc:format>",
    ]
    if first.number:
        lines.append(f"<dc:identifier>{words(first.number)}</dc:identifier>")
    if first.revision or x4:
        lines.append(f"<xmpMM:VersionID>{words(first.revision or '1')}</xmpMM:VersionID>")
    if first.spec:
        lines.append(f"<dc:source>spec {words(first.spec)}</dc:source>")
    if x4:
        day = day or NO_DAY
        lines.append(f"<xmpMM:DocumentID>{document_id(first)}</xmpMM:DocumentID>")
        lines.append("<xmpMM:RenditionClass>default</xmpMM:RenditionClass>")
        lines.append("<pdfxid:GTS_PDFXVersion>PDF/X-4</pdfxid:GTS_PDFXVersion>")
        lines.append(f"<xmp:MetadataDate>{day.isoformat()}</xmp:MetadataDate>")
    lines.append("<xmp:CreatorTool>panelart</xmp:CreatorTool>")
    if day is not None:
        lines.extend(f"<xmp:{what}>{day.isoformat()}</xmp:{what}>" for what in ("CreateDate", "ModifyDate"))
    lines.append("<pdf:Trapped>False</pdf:Trapped>")
    body = "\n".join(lines)
    return (
        '<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>\n'
        '<x:xmpmeta xmlns:x="adobe:ns:meta/">\n'
        '<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">\n'
        '<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/"'
        ' xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:xmpMM="http://ns.adobe.com/xap/1.0/mm/"'
        ' xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:pdfxid="http://www.npes.org/pdfx/ns/id/">\n'
        f"{body}\n"
        "</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n"
        '<?xpacket end="r"?>\n'
    )
