"""The files of a panel by station, in lines of a width."""

from __future__ import annotations

from panelart.messages import documents as said
from panelart.reports.written import written_text


def test_a_station_has_its_line_and_a_long_one_is_folded() -> None:
    files = tuple(f"film-{number}.pdf" for number in range(8))
    lines = written_text([(said.printing(), files), (said.cutting(), ("cutouts.dxf",))], 50).splitlines()
    assert lines[-1] == "  Cutting: cutouts.dxf"
    assert lines[0].startswith("  Printing: film-0.pdf, film-1.pdf")
    assert all(len(line) <= 50 for line in lines)
    assert ", ".join(files) in " ".join(line.strip() for line in lines)
