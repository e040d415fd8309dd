"""The files of a panel by station: each once, in the order of the work."""

from __future__ import annotations

from panelart.reports.written import written_text


def test_every_file_is_named_once_by_its_station() -> None:
    names = ("holes.csv", "cutouts.dxf", "artwork.pdf", "blank.dxf", "mask-front.dxf", "film-white.pdf", "proof.pdf")
    lines = [line.strip() for line in written_text(names, 100).splitlines()]
    stations = dict(line.split(": ") for line in lines)
    assert sorted(name for files in stations.values() for name in files.split(", ")) == sorted(names)
    assert stations["Cutting"] == "cutouts.dxf, blank.dxf"
    assert lines[0].startswith("Printing: artwork.pdf")
    assert lines[-1] == "Other programs: holes.csv"
