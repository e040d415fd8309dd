"""What is said of measured points and of the register of one piece: the report, what was found, what to measure."""

from panelart.messages import Count, Each, Either, Listed, MeasuredMm, Mm, Quoted, Word, counted, message
from panelart.messages.fine_arguments import Factor, FineDegrees, FineMm, Ppm

# --- the file of measured points


@message
def accepted_columns() -> None:
    """Accepted columns: feature, x, y (mm on the printer); panel_x, panel_y for marks that are not on the panel"""


@message
def columns_missing(columns: Each) -> None:
    """Missing columns: {columns}"""


@message
def too_many_rows(maximum: Count) -> None:
    """File has more than {maximum} rows"""


@message
def not_utf_8() -> None:
    """File is not text in UTF-8"""


@message
def table_unreadable(reason: Word) -> None:
    """Table cannot be read: {reason}"""


@message
def not_a_number(column: Word, text: Quoted) -> None:
    """{column} is {text}, not a number"""


@message
def coordinate_out_of_range(column: Word, text: Quoted, maximum: Mm) -> None:
    """{column} is {text}; maximum {maximum} from the origin of the printer"""


@message
def feature_missing() -> None:
    """Row has no feature"""


@message
def feature_unknown(name: Quoted) -> None:
    """Unknown feature {name}"""


@message
def accepted_features() -> None:
    """Accepted: corners (lower-left), edges (left), openings by their names in holes.csv"""


@message
def feature_repeated(feature: Word, line: Count) -> None:
    """{feature} is already in line {line}"""


@message
def measure_features_once() -> None:
    """Give each corner, opening and mark once. Edges may be repeated."""


# --- models


@message
def rigid() -> None:
    """translation and rotation"""


@message
def similarity() -> None:
    """translation, rotation and scale"""


@message
def affine() -> None:
    """translation, rotation, two scales and shear"""


# --- why a piece cannot be printed


@message
def too_few_coordinates(model: Word, coordinates: Count) -> None:
    """Fitting {model} needs {coordinates} measured coordinates"""


@message
def features_ambiguous(model: Word) -> None:
    """Measured features do not determine {model}"""


@message
def features_coincide() -> None:
    """Features are all at the same place"""


@message
def points_coincide() -> None:
    """Measured points are all at the same place"""


@message
def measure_more(reason: Word) -> None:
    """{reason}; measure more features"""


@message
def unit_mistaken(unit: Word) -> None:
    """Measured points are in {unit}, not in mm"""


@message
def inches() -> None:
    """inches"""


@message
def centimetres() -> None:
    """centimetres"""


@message
def micrometres() -> None:
    """micrometres"""


@message
def points() -> None:
    """points"""


@message
def mirrored_across() -> None:
    """Measured points are mirrored: the x axis is reversed, or the piece lies face down"""


@message
def mirrored_upright() -> None:
    """Measured points are mirrored: the y axis is reversed, or the piece lies face down"""


@message
def axes_exchanged() -> None:
    """Measured points are mirrored: x and y are exchanged, or the piece lies face down"""


@message
def points_exchanged(pairs: Either) -> None:
    """Two points are exchanged: {pairs}"""


@message
def pair(one: Word, other: Word) -> None:
    """{one} and {other}"""


@message
def size_mismatch() -> None:
    """Measured points do not match the panel size; check the panel and the unit"""


@message
def feature_off(feature: Word, error: MeasuredMm, maximum: Mm) -> None:
    """{feature}: register error {error}; maximum {maximum}"""


@message
def marking_off(marking: Word, error: MeasuredMm, maximum: Mm) -> None:
    """{marking}: register error up to {error}; maximum {maximum}; measure more features, further apart"""


@message
def legend_of(text: Quoted, ref: Word) -> None:
    """{text} of {ref}"""


@message
def mark_of(kind: Word, ref: Word) -> None:
    """{kind} of {ref}"""


# --- remarks


@message
def outlier(feature: Word, line: Count, error: MeasuredMm) -> None:
    """{feature} (line {line}) deviates {error} from the other points and is not used; measure {feature} again"""


@message
def not_redundant() -> None:
    """Measurement has no redundancy: an incorrect value cannot be detected; measure one more feature"""


@message
def checked_by_distance_only() -> None:
    """Two points are checked by their distance only; measure a third point"""


@message
def scatter(found: MeasuredMm, expected: MeasuredMm) -> None:
    """Points scatter by {found} instead of {expected}; check the piece and the measurement (errors include {found})"""


@message
def outline_larger(growth: FineMm) -> None:
    """Outline is {growth} larger all round than the finished size; check the coat thickness"""


@message
def outline_smaller(growth: FineMm) -> None:
    """Outline is {growth} smaller all round than the finished size; check the coat thickness"""


@message
def scale_across(deviation: Ppm) -> None:
    """Horizontal scale is off by {deviation}; check the scale of the printer and the unit"""


@message
def scale_upright(deviation: Ppm) -> None:
    """Vertical scale is off by {deviation}; check the scale of the printer and the unit"""


@message
def bare_size(dimension: Word, measured: MeasuredMm, cut: MeasuredMm, finished: MeasuredMm) -> None:
    """Measured {dimension} is {measured}: cut size {cut}, finished size {finished}; check that the piece is coated"""


@message
def width() -> None:
    """width"""


@message
def height() -> None:
    """height"""


# --- the report


@counted("Fitted: {model}, from {count} features")
def fitted(model: Word, count: Count) -> None:
    """Fitted: {model}, from {count} feature"""


@counted("Fitted: {model} and outline growth, from {count} features")
def fitted_with_growth(model: Word, count: Count) -> None:
    """Fitted: {model} and outline growth, from {count} feature"""


@message
def origin(x: FineMm, y: FineMm, rotation: FineDegrees) -> None:
    """Lower-left corner at x {x}, y {y}; rotation {rotation}"""


@message
def scales(across: Factor, upright: Factor) -> None:
    """Scale: horizontal {across}, vertical {upright}"""


@message
def scales_and_shear(across: Factor, upright: Factor, shear: FineDegrees) -> None:
    """Scale: horizontal {across}, vertical {upright}; shear {shear}"""


@message
def heading_feature() -> None:
    """feature"""


@message
def heading_error_x() -> None:
    """error x"""


@message
def heading_error_y() -> None:
    """error y"""


@message
def heading_error() -> None:
    """error"""


@message
def not_used() -> None:
    """not used"""


@message
def errors_of_points(rms: FineMm, maximum: FineMm) -> None:
    """RMS error {rms}, maximum {maximum}"""


@message
def length(dimension: Word, measured: MeasuredMm, finished: MeasuredMm, cut: MeasuredMm) -> None:
    """{dimension}: measured {measured}, finished size {finished}, cut size {cut}"""


@message
def marking_error(marking: Word, error: FineMm) -> None:
    """{marking}: register error {error} (95 %)"""


@message
def note_line(remark: Word) -> None:
    """note: {remark}"""


@message
def error_line(refusal: Word) -> None:
    """error: {refusal}"""


@message
def in_register(maximum: Mm) -> None:
    """Piece is in register: register error within {maximum}"""


@message
def not_in_register() -> None:
    """NOT IN REGISTER: do not print this piece"""


# --- advice


@message
def advice(uncertainty: Mm, maximum: Mm) -> None:
    """Register error at the worst legend (95 %) with coordinates measured to ±{uncertainty}; maximum {maximum}:"""


@counted("{count} features: {error} ({features})")
def advised(count: Count, error: FineMm, features: Listed) -> None:
    """{count} feature: {error} ({features})"""


@message
def too_few_features() -> None:
    """Too few corners and openings to locate this panel"""
