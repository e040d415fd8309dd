"""What the station that marks the face is told."""

from panelart.messages import Mm, message


@message
def register_error(limit: Mm) -> None:
    """Register error: maximum {limit} from the openings. Check at two corners that are far apart."""


@message
def read_legends() -> None:
    """Compare every legend with the picture. No letter may be broken or filled in."""


# --- plates


@message
def plates() -> None:
    """Plates"""


@message
def column_plate() -> None:
    """plate"""


@message
def column_kind() -> None:
    """kind"""


@message
def column_colour() -> None:
    """colour"""


@message
def column_covered() -> None:
    """covered, cm²"""


@message
def column_solid() -> None:
    """solid ink, cm²"""


@message
def plates_remark() -> None:
    """For one panel. Tints count as their share of solid ink."""


# --- cutters


@message
def cutters() -> None:
    """Cutters"""


@message
def column_cutter() -> None:
    """cutter"""


@message
def column_fill() -> None:
    """fill"""


@message
def column_paths() -> None:
    """paths"""


@message
def column_cut_length() -> None:
    """cut, m"""


@message
def column_travel() -> None:
    """travel, m"""


@message
def column_travel_as_drawn() -> None:
    """travel as drawn, m"""


@message
def cutters_remark() -> None:
    """Paths are the centre line of the cutter."""


# --- label film


@message
def windows() -> None:
    """Windows"""


@message
def column_window() -> None:
    """window"""


@message
def windows_remark() -> None:
    """Centres from the lower-left corner of the label film."""
