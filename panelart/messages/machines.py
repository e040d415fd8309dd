"""What is done on each layer of the DXF files, what a machine's profile may say, and the test file of a machine."""

from panelart.messages import Count, Mm, Quoted, Word, message

# --- the layers


@message
def outline() -> None:
    """Edge of the panel, blank or jig: cut through, last"""


@message
def cutouts() -> None:
    """Openings: cut through"""


@message
def countersinks() -> None:
    """Countersink diameters, from the front: not cut through"""


@message
def countersinks_rear() -> None:
    """Countersink diameters, from the rear: not cut through"""


@message
def bends() -> None:
    """Bend lines, bent away from the viewer: not cut"""


@message
def bends_forward() -> None:
    """Bend lines, bent towards the viewer: not cut"""


@message
def mask() -> None:
    """Masks of areas that stay bare: cut out of masking film"""


@message
def kiss_cut() -> None:
    """Label film: cut through the label film, not through the liner"""


@message
def kiss_cut_mirrored() -> None:
    """Label film printed on its back: the same, mirrored, cut from the rear"""


@message
def pockets() -> None:
    """Pockets of the jig plate: milled"""


@message
def pins() -> None:
    """Holes for the pins of the jig plate: drilled"""


@message
def laser() -> None:
    """Lines of the marking laser"""


@message
def engrave(width: Word) -> None:
    """Middle of the cutter, cutter {width} mm"""


@message
def engrave_wider() -> None:
    """Middle of the cutter, all wider cutters"""


@message
def dial_lines() -> None:
    """Lines of a dial, by their width"""


@message
def dial_areas() -> None:
    """Areas of a dial, by their edge"""


@message
def edge() -> None:
    """Edge of the finished part, to align the file with: not cut"""


@message
def notes() -> None:
    """Notes: not cut; only where the machine profile asks for them"""


@message
def others() -> None:
    """Layers of extensions"""


# --- the table


@message
def column_layer() -> None:
    """layer"""


@message
def column_colour() -> None:
    """colour (contrast on white, on black)"""


@message
def column_line() -> None:
    """line type"""


@message
def column_meaning() -> None:
    """contents"""


# --- the profile


@message
def unknown_layer(name: Quoted) -> None:
    """Unknown layer {name}"""


@message
def layers() -> None:
    """layers"""


@message
def layer_name_unlawful(name: Quoted) -> None:
    """{name} cannot be the name of a DXF layer"""


@message
def layer_name_lawful() -> None:
    """Use other characters than < > / \\ " : ; ? * | = ` and comma."""


@message
def layers_share_a_name(name: Quoted, first: Word, second: Word) -> None:
    """Layers {first} and {second} both get the name {name}, but not the same colour and line type"""


@message
def layers_apart() -> None:
    """Give both the same colour and line, or two names."""


@message
def outline_not_written(layer: Word) -> None:
    """Layer {layer} must be written: without it nothing is cut"""


@message
def remove_written() -> None:
    """Remove `write: false`."""


# --- the test file


@message
def test_title(shop: Word) -> None:
    """Test file for {shop}"""


@message
def test_note() -> None:
    """Corner cut off at the upper right. Measure it in the machine's program before the first panel is cut."""


@message
def test_lettering(shop: Word) -> None:
    """TEST FILE · {shop}"""


@message
def test_outline(width: Mm, height: Mm) -> None:
    """outline {width} × {height}, corner cut off at the upper right"""


@message
def test_circle(diameter: Mm) -> None:
    """circle, diameter {diameter}"""


@message
def test_line(length: Mm) -> None:
    """line, length {length}"""


@message
def test_row(layer: Word, name: Word, colour: Count, line: Word, figure: Word, says: Word) -> None:
    """{layer}: layer {name}, colour {colour}, {line}: {figure}. {says}"""


@message
def test_row_left_out(layer: Word) -> None:
    """{layer}: not written"""


@message
def test_zero(unit: Word, zero: Word) -> None:
    """Unit {unit}, origin: {zero}"""
