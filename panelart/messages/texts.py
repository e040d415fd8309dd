"""What is said of ratings: what is missing, what contradicts itself, what is implausible."""

from panelart.messages import Either, Quoted, Word, message


@message
def no_characteristic() -> None:
    """characteristic missing (FF, F, M, T or TT)"""


@message
def no_current() -> None:
    """current missing"""


@message
def no_breaking_capacity() -> None:
    """breaking capacity missing (L, H or E)"""


@message
def no_voltage() -> None:
    """voltage missing"""


@message
def no_nature() -> None:
    """kind of current missing (~ or ⎓)"""


@message
def no_frequency() -> None:
    """frequency missing"""


@message
def no_power_or_current() -> None:
    """power or current missing"""


@message
def current_not_in_series(current: Quoted, near: Either, source: Word) -> None:
    """{current} is not in the current series of {source}; nearest: {near}"""


@message
def current_too_high(current: Quoted, limit: Word, source: Word) -> None:
    """current {current} is above the {limit} of {source}"""


@message
def current_too_high_near(current: Quoted, limit: Word, source: Word, near: Quoted) -> None:
    """current {current} is above the {limit} of {source}; perhaps {near}"""


@message
def current_too_low(current: Quoted, limit: Word, source: Word) -> None:
    """current {current} is below the {limit} of {source}"""


@message
def voltage_not_plausible(voltage: Quoted, limit: Word) -> None:
    """voltage {voltage} is implausible; maximum {limit}"""


@message
def voltage_below_any_fuse(voltage: Quoted, limit: Word) -> None:
    """voltage {voltage} is implausible for a fuse; minimum {limit}"""


@message
def breaking_capacity_unknown(letter: Quoted) -> None:
    """breaking capacity {letter} is not L, H or E"""


@message
def series_by_type(series: Quoted) -> None:
    """{series} is a series by type, not by IEC 60127: characteristic and breaking capacity are in its data sheet"""


@message
def voltage_is_zero(voltage: Quoted) -> None:
    """voltage {voltage} is implausible"""


@message
def dc_with_frequency(frequency: Quoted) -> None:
    """direct current has no frequency, but {frequency} is given"""


@message
def dc_with_phases(phases: Word) -> None:
    """direct current has no phases, but {phases} are given"""


@message
def range_reversed(written: Quoted) -> None:
    """the range {written} is reversed"""


@message
def frequency_not_plausible(frequency: Quoted) -> None:
    """frequency {frequency} is implausible for mains (16.7, 50, 60 or 400 Hz)"""


@message
def power_not_plausible(power: Quoted, current: Quoted, voltage: Quoted, limit: Word) -> None:
    """power {power} contradicts current {current} at {voltage}; maximum {limit}"""


@message
def phases_not_plausible(voltage: Quoted) -> None:
    """three phases at {voltage} are implausible; minimum 190 V"""


@message
def no_such_numeral(numeral: Quoted, place: Word, accepted: Word) -> None:
    """numeral {numeral} in {place} place is unknown; accepted: {accepted}"""


@message
def first_place() -> None:
    """first"""


@message
def second_place() -> None:
    """second"""


@message
def nine_without_k() -> None:
    """K follows 9 only, or 4 and 6 of ISO 20653"""


@message
def letters_out_of_order(letters: Quoted) -> None:
    """letters {letters} are out of order (first one of A to D, then H, M, S, W)"""


@message
def nothing_said() -> None:
    """neither numeral is given"""


@message
def no_duration(kind: Word) -> None:
    """duration missing; duty type {kind} needs it, such as S2 30 min"""


@message
def no_duration_factor(kind: Word) -> None:
    """cyclic duration factor missing; duty type {kind} needs it, such as S3 25 %"""


@message
def duration_without_need(kind: Word) -> None:
    """duty type {kind} has neither duration nor cyclic duration factor"""


@message
def duration_factor_too_high(factor: Quoted) -> None:
    """cyclic duration factor {factor} is above 100 %"""
