"""Titles of the catalogue's chapters, each named after its data file."""

from panelart.messages import Word, message


@message
def toggles() -> None:
    """Toggle switches"""


@message
def rockers() -> None:
    """Rocker switches"""


@message
def faders() -> None:
    """Slide controls"""


@message
def pushbuttons() -> None:
    """Push-buttons and operators"""


@message
def caps() -> None:
    """Caps of board-mounted buttons"""


@message
def bushings() -> None:
    """Rotary controls"""


@message
def indicators() -> None:
    """Lamps and LEDs"""


@message
def displays() -> None:
    """Windows and displays"""


@message
def meters() -> None:
    """Meters and controllers"""


@message
def mains() -> None:
    """Mains inlets and outlets"""


@message
def fuses() -> None:
    """Fuse holders and breakers"""


@message
def sockets() -> None:
    """Sockets and terminals"""


@message
def coax() -> None:
    """Coaxial connectors"""


@message
def audio() -> None:
    """Audio and lighting connectors"""


@message
def data() -> None:
    """Data connectors"""


@message
def board() -> None:
    """Parts on a circuit board"""


@message
def dsub() -> None:
    """D-subminiature connectors"""


@message
def circular() -> None:
    """Circular connectors"""


@message
def glands() -> None:
    """Cable glands"""


@message
def air() -> None:
    """Fans and vents"""


@message
def rack() -> None:
    """Racks and subracks"""


@message
def hardware() -> None:
    """Handles, fasteners and plugs"""


@message
def screws() -> None:
    """Screws"""


@message
def openings() -> None:
    """Plain openings"""


@message
def of_extension(extension: Word) -> None:
    """Extension {extension}"""
