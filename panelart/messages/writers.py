"""What is wrong when files cannot be written."""

from panelart.messages import Complete, Count, Mm, Quoted, Word, message


@message
def folder_loop() -> None:
    """The folder is a link that leads to itself"""


@message
def file_for_folder() -> None:
    """A file of that name exists where the folder should be"""


@message
def same_folder() -> None:
    """Two of the folders to write are the same folder"""


@message
def folder_for_file() -> None:
    """A folder of that name exists"""


@message
def not_plain_name(name: Quoted) -> None:
    """{name} is not a plain file name"""


@message
def same_name(name: Quoted) -> None:
    """{name} is the name of two files where upper and lower case are the same"""


@message
def folder_not_placed(reason: Word) -> None:
    """Cannot put the finished folder in its place: {reason}"""


@message
def file_not_placed(reason: Word) -> None:
    """Cannot put the finished file in its place: {reason}"""


@message
def not_put_back(reason: Word, names: Complete) -> None:
    """{reason}; could not be put back, kept in this folder: {names}; the next command here tries again"""


@message
def folder_busy(process: Count) -> None:
    """Another run (process {process}) is writing to this folder; wait until it ends"""


@message
def folder_busy_elsewhere(host: Quoted, lock: Word) -> None:
    """Computer {host} is writing to this folder. If no run is active there, delete the file {lock}"""


@message
def folder_raced() -> None:
    """Another run wrote to this folder at the same time and its files may be mixed; run the command again"""


@message
def folder_half_written(reason: Word) -> None:
    """An interrupted run left files of two states in this folder, and they cannot be put back: {reason}"""


@message
def folder_not_made(reason: Word) -> None:
    """Cannot make the folder: {reason}"""


@message
def folder_not_writable(reason: Word) -> None:
    """Cannot write to the folder: {reason}"""


@message
def file_not_written(reason: Word) -> None:
    """Cannot write the file: {reason}"""


@message
def page_too_large(title: Quoted, maximum: Mm) -> None:
    """{title}: the page is too large for a PDF; maximum {maximum} on a side"""


@message
def too_many_pixels(width: Count, height: Count) -> None:
    """The picture would have {width} × {height} pixels, which are too many; ask for fewer dpi"""


@message
def plate_name(name: Quoted) -> None:
    """A plate cannot be called {name}"""


@message
def plate_with_two_colours(plate: Quoted, one: Word, other: Word) -> None:
    """Plate {plate} has two colours: {one} and {other}"""
