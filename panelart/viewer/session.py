"""An editing session of a spec: what is on disk, what is shown of it, and the changes made here, to be undone.

The file is the one truth. A change is made to the text that the page showed; where the file has another text by then,
the two are joined, or the conflict is told and nothing is written. One thread lays out; the newest text is what counts.
"""

from __future__ import annotations

import contextvars
import errno
import os
import tempfile
import threading
from collections import OrderedDict
from collections.abc import Callable, Mapping
from contextlib import suppress
from pathlib import Path
from typing import Final, Self

from panelart.canonical import Struct
from panelart.diagnostics import Problem, SpecError, Where
from panelart.messages import Said
from panelart.messages import viewer as said
from panelart.messages.errors import said_by
from panelart.pipeline import placement_path
from panelart.stages import Memory, remembering
from panelart.viewer.merging import difference, merged
from panelart.viewer.stages import BrokenOffError, Shown, Stamp, read_text, revision_of, show, stamp_of

MAX_CHANGES: Final = 200
"""Changes that can be taken back."""

MAX_TEXTS: Final = 64
"""States of the text that a page may still be looking at when it asks for a change."""

MAX_TRIES: Final = 5
"""Times that a change is joined anew because another hand wrote the file in the same moment."""

MAX_SHOWN: Final = 12
"""Pictures kept, so that taking back and doing again are at once."""


class RefusedError(Exception):
    """A change that would leave a spec which cannot be read, with what would be wrong with it."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__("; ".join(problem.message for problem in problems))
        self.problems = problems


class OutOfDateError(Exception):
    """The page showed a state that is no longer known here: it must load the spec again."""


class Change(Struct, frozen=True, kw_only=True):
    """One change of the text, in a word: 'move S1'."""

    words: Said
    before: str
    after: str


class State(Struct, frozen=True, kw_only=True):
    """What a page is told: a higher `number` is newer.

    `revision` is that of the text on disk, `step` what is being done about it ('' when nothing is), `shown` the last
    good picture, `problems` why the text on disk has none. `undo` and `redo` are the words of the changes next in turn.
    """

    number: int = 0
    revision: str = ""
    step: Said = ""
    shown: Shown | None = None
    problems: tuple[Problem, ...] = ()
    undo: Said = ""
    redo: Said = ""


class Made(Struct, frozen=True, kw_only=True):
    """What a change did to the file, as a line difference, and the state that came of it."""

    difference: str
    revision: str


class Session:
    """Watches one spec, lays it out in a thread of its own, and writes changes to it. Safe to call from any thread."""

    def __init__(self, path: Path, today: str) -> None:
        """`today` (YYYY-MM-DD) ends waivers whose last day is over."""
        self._path, self._today = path, today
        self._listener: Callable[[], None] | None = None
        self._lock = threading.RLock()
        self._wake = threading.Condition(self._lock)
        self._state = State()
        self._past: list[Change] = []
        self._future: list[Change] = []
        self._texts: OrderedDict[str, str] = OrderedDict()
        self._kept: OrderedDict[str, Shown] = OrderedDict()
        self._memory = Memory()
        self._stamps: dict[Path, Stamp] = {path: None, placement_path(path): None}
        self._wanted: str | None = None
        self._closed = False
        # The thread speaks the language of who opens the session.
        context = contextvars.copy_context()
        self._thread = threading.Thread(target=lambda: context.run(self._work), name="layout", daemon=True)

    def __enter__(self) -> Self:
        """Begin: look at the file and lay it out."""
        self.look()
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        """End the thread."""
        with self._wake:
            self._closed = True
            self._wake.notify_all()
        self._thread.join()

    @property
    def state(self) -> State:
        """The state now."""
        with self._lock:
            return self._state

    def shown(self, revision: object) -> Shown | None:
        """The picture of a state that is still known, None for any other."""
        with self._lock:
            last = self._state.shown
            if last is not None and last.revision == revision:
                return last
            return self._kept.get(revision) if isinstance(revision, str) else None

    @property
    def path(self) -> Path:
        """The spec."""
        return self._path

    def listen(self, listener: Callable[[], None] | None) -> None:
        """Have this called at each new state, from whichever thread made it; None ends it."""
        with self._lock:
            self._listener = listener

    def look(self) -> None:
        """See whether the spec or a file that it names was written, and have it laid out again if so."""
        with self._lock:
            stamps = {path: stamp_of(path) for path in self._stamps}
            written = {path for path, stamp in stamps.items() if stamp != self._stamps[path]}
            if not written and self._state.number:
                return
            if written != {self._path}:
                self._kept.clear()
            self._stamps = stamps
            self._read_again()

    def stop(self) -> None:
        """Give up laying out what is being laid out, at its next stage; what is shown stays."""
        with self._lock:
            if self._wanted is not None:
                self._wanted = None
                self._publish(step="")

    def change(self, revision: str, edit: Callable[[str], str], words: Said) -> Made:
        """Make a change to the state that the page showed.

        `edit` may raise what it likes; nothing is written then. Raises OutOfDateError, RefusedError, ConflictError and
        OSError.
        """
        with self._lock:
            base = self._texts.get(revision)
            if base is None:
                raise OutOfDateError
            before, after = self._join(base, edit(base))
            if after != before:
                self._remember(Change(words=words, before=before, after=after))
            return _made(before, after)

    def _remember(self, change: Change) -> None:
        """Have a change as the one that is taken back next."""
        self._past = [*self._past, change][-MAX_CHANGES:]
        self._future.clear()
        self._tell_history()

    def redraft(self, base: str, mine: str, write: Callable[[str], None], words: Said = "") -> None:
        """Put a draft made anew in the place of the one before, `base`; what else was changed in the file stays.

        `write` writes the text that comes of it, with all that belongs to it; `words` are those of a change that can be
        taken back. Raises what it raises, RefusedError,
        ConflictError and OSError.
        """
        with self._lock:
            now = read_text(self._path)
            after = merged(base, mine, now)
            problems = _problems(after, self._path)
            if problems:
                raise RefusedError(problems)
            write(after)
            self._stamps[self._path] = stamp_of(self._path)
            self._want(after)
            if words and after != now:
                self._remember(Change(words=words, before=now, after=after))

    def undo(self) -> Made | None:
        """Take the last change back, whatever else was written meanwhile; as `change`. None when there is none."""
        with self._lock:
            if not self._past:
                return None
            made = _made(*self._join(self._past[-1].after, self._past[-1].before))
            self._future.append(self._past.pop())
            self._tell_history()
            return made

    def redo(self) -> Made | None:
        """Make again the change last taken back; as `undo`."""
        with self._lock:
            if not self._future:
                return None
            made = _made(*self._join(self._future[-1].before, self._future[-1].after))
            self._past.append(self._future.pop())
            self._tell_history()
            return made

    def _tell_history(self) -> None:
        self._publish(
            undo=self._past[-1].words if self._past else "", redo=self._future[-1].words if self._future else ""
        )

    def _join(self, base: str, mine: str) -> tuple[str, str]:
        """Write a change of `base` on top of what is in the file: the text before and after.

        A spec that was whole is not broken. Another hand that writes meanwhile is joined too.
        """
        for _ in range(MAX_TRIES):
            now = read_text(self._path)
            after = merged(base, mine, now)
            if after == now:
                return now, after
            problems = _problems(after, self._path)
            if problems and not _problems(now, self._path):
                raise RefusedError(problems)
            if _write(self._path, now, after):
                self._stamps[self._path] = stamp_of(self._path)
                self._want(after)
                return now, after
        raise OSError(said.file_busy(file=self._path.name))

    def _read_again(self) -> None:
        try:
            text = read_text(self._path)
        except OSError as error:
            self._fail(said.spec_unreadable(reason=error.strerror.lower() if error.strerror else said.file_missing()))
            return
        except UnicodeDecodeError:
            self._fail(said.spec_not_utf_8())
            return
        self._want(text)

    def _fail(self, says: Said) -> None:
        self._wanted = None
        problem = Problem(where=Where(self._path.name, 1, 1), says=says, accepts=said.accepted_spec())
        self._publish(problems=(problem,), revision="", step="")

    def _want(self, text: str) -> None:
        revision = revision_of(text)
        self._texts[revision] = text
        self._texts.move_to_end(revision)
        while len(self._texts) > MAX_TEXTS:
            self._texts.popitem(last=False)
        known = self._kept.get(revision)
        if known is not None:
            self._kept.move_to_end(revision)
            self._wanted = None
            self._publish(shown=known, problems=(), revision=revision, step="")
            return
        self._wanted = text
        self._publish(revision=revision, step=said.step_waiting())
        self._wake.notify_all()

    def _publish(self, **changed: object) -> None:
        values: Mapping[str, object] = {
            name: getattr(self._state, name) for name in ("revision", "step", "shown", "problems", "undo", "redo")
        }
        self._state = State(number=self._state.number + 1, **{**values, **changed})  # type: ignore[arg-type]
        if self._listener is not None:
            self._listener()

    def _work(self) -> None:
        while True:
            with self._wake:
                self._wake.wait_for(lambda: self._closed or self._wanted is not None)
                if self._closed:
                    return
                text = self._wanted
            if text is not None:
                self._lay_out(text)

    def _lay_out(self, text: str) -> None:
        named: dict[Path, Stamp] = {}

        def step(words: Said) -> None:
            with self._lock:
                if self._closed or self._wanted is not text:
                    raise BrokenOffError
                self._publish(step=words)

        problems: tuple[Problem, ...] = ()
        shown: Shown | None = None
        try:
            with remembering(self._memory):
                shown = show(text, self._path, self._today, step, named)
        except BrokenOffError:
            return
        except SpecError as error:
            problems = tuple(error.problems)
        except OSError as error:
            problems = (Problem(where=Where(self._path.name, 1, 1), says=said_by(error)),)
        except Exception as error:  # noqa: BLE001  a fault of ours must not end the thread and leave the page waiting
            says = said.internal_error(kind=type(error).__name__, error=said_by(error))
            problems = (Problem(where=Where(self._path.name, 1, 1), says=says, accepts=said.undo_the_change()),)
        with self._lock:
            own = (self._path, placement_path(self._path))
            self._stamps = {path: self._stamps[path] for path in own} | named
            if self._wanted is not text:
                return
            self._wanted = None
            if shown is None:
                self._publish(problems=problems, step="")
                return
            self._kept[shown.revision] = shown
            while len(self._kept) > MAX_SHOWN:
                self._kept.popitem(last=False)
            self._publish(shown=shown, problems=(), step="")


def _made(before: str, after: str) -> Made:
    return Made(difference=difference(before, after), revision=revision_of(after))


def _problems(text: str, path: Path) -> tuple[Problem, ...]:
    from panelart.spec.read import panel_from_text

    try:
        panel_from_text(text, path.name, path.parent)
    except SpecError as error:
        return tuple(error.problems)
    return ()


def _write(path: Path, before: str, text: str) -> bool:
    """Replace a file's text at once: a reader sees the old one or the new one. False where it is no longer `before`.

    Keeps the file's rights; a link stays a link. Raises OSError with a reason in words.
    """
    path = path.resolve()
    try:
        if not os.access(path, os.W_OK):
            raise PermissionError(errno.EACCES, str(said.read_only()))
        mode = path.stat().st_mode & 0o7777
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".new")
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(text.encode("utf-8"))
            Path(name).chmod(mode)
            if read_text(path) != before:
                return False
            Path(name).replace(path)
        finally:
            with suppress(OSError):
                Path(name).unlink()
    except OSError as error:
        why = (error.strerror or str(error)).lower()
        raise OSError(said.file_not_writable(file=path.name, reason=why)) from None
    return True
