"""The questions of a list beside its draft: an answer is written at once, then the panel is drafted anew with it.

A thread of its own drafts. What was changed in the spec since the last draft stays: both are joined, or the conflict is
told, the answer is kept and the spec is as it was.
"""

from __future__ import annotations

import contextvars
import threading
from collections.abc import Callable, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any, Final, Self

from panelart.canonical import Struct
from panelart.diagnostics import SpecError
from panelart.drafting.draft import NO_PLACES
from panelart.drafting.listed import Earlier
from panelart.drawing.representation import Drawing
from panelart.lists.answer_record import Place
from panelart.lists.answered import MEASURE, NOT_ON_PANEL, OPEN
from panelart.messages import Said
from panelart.messages import viewer as said
from panelart.messages.errors import said_by
from panelart.sheets.questions import candidate_picture, scale_for
from panelart.stages import Memory, remembering
from panelart.viewer.changes import BadRequestError
from panelart.viewer.listing import Listing, Read, question_json
from panelart.viewer.merging import ConflictError
from panelart.viewer.session import OutOfDateError, RefusedError, Session
from panelart.viewer.stages import Stamp, read_text, revision_of, stamp_of
from panelart.writers import write_all, write_folders


class Asked(Struct, frozen=True, kw_only=True):
    """What a page is told: a higher `number` is newer.

    `step` is what is being done ('' when nothing is), `trouble` why the panel is not drafted with the answers; `mine`
    and `theirs` are both sides of a conflict.
    """

    number: int = 0
    step: Said = ""
    read: Read | None = None
    rooms: Mapping[str, Place]
    trouble: tuple[Said, ...] = ()
    mine: str = ""
    theirs: str = ""


NOTHING_MORE: Final[Mapping[Path, str]] = MappingProxyType({})


class Questions:
    """Asks about a list, keeps what is answered and drafts the spec of a session with it. Safe from any thread."""

    def __init__(self, listing: Listing, session: Session, drafted: str | None = None) -> None:
        """`drafted` is the spec as it was drafted just now; None where it is of an earlier day and may be edited."""
        self.listing = listing
        self._session = session
        self._last = drafted
        self._told: Read | None = None
        self._listener: Callable[[], None] | None = None
        self._lock = threading.RLock()
        self._wake = threading.Condition(self._lock)
        self._state = Asked(rooms=NO_PLACES)
        self._stamps: dict[Path, Stamp] = {}
        self._rooms: dict[str, Mapping[str, Place]] = {}
        self._owed = False
        self._anew = False
        self._working = False
        self._closed = False
        self._memory = Memory()
        context = contextvars.copy_context()
        self._thread = threading.Thread(target=lambda: context.run(self._work), name="drafting", daemon=True)

    def __enter__(self) -> Self:
        """Begin: read the list, and draft what is not drafted yet."""
        self._read_again()
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        """End the thread."""
        with self._wake:
            self._closed = True
            self._wake.notify_all()
        self._thread.join()

    @property
    def state(self) -> Asked:
        """The state now."""
        with self._lock:
            return self._state

    @property
    def busy(self) -> bool:
        """Whether something is still to be drafted."""
        with self._lock:
            return self._owed or self._working

    def listen(self, listener: Callable[[], None] | None) -> None:
        """Have this called at each new state, from whichever thread made it; None ends it."""
        with self._lock:
            self._listener = listener

    def look(self) -> None:
        """See whether the list, its spec or a file of answers was written by another hand, and draft with it if so."""
        with self._lock:
            if self._stamps != self._stamped():
                self._read_again()

    def document(self) -> dict[str, Any]:
        """The questions and how things stand with them, in plain values."""
        state = self.state
        asked = () if state.read is None else state.read.questions
        return {
            "number": state.number,
            "file": self.listing.file.name,
            "answers": self.listing.answers.name,
            "trouble": [str(one) for one in state.trouble],
            "mine": state.mine,
            "theirs": state.theirs,
            "questions": [question_json(self.listing, one, state.rooms) for one in asked],
        }

    def picture(self, id_: str, number: int) -> Drawing | None:
        """A candidate of a question, counted from 1, with its hole; None where there is none."""
        read = self.state.read
        question = None if read is None else read.by_id.get(id_)
        if question is None or not 1 <= number <= len(question.candidates):
            return None
        parts = self.listing.parts(question)
        return candidate_picture(parts[number - 1], scale_for(parts))

    def answer(self, asked: object) -> None:
        """Write an answer, and draft with it when that is done.

        Raises BadRequestError, OutOfDateError for a question that is not asked any more, SpecError and OSError.
        """
        if not isinstance(asked, dict):
            raise BadRequestError(said.request_invalid(field="question"))
        id_, part = asked.get("question"), asked.get("part")
        if not isinstance(id_, str):
            raise BadRequestError(said.request_invalid(field="question"))
        if not isinstance(part, str) or part not in {MEASURE, NOT_ON_PANEL, OPEN, *self.listing.names}:
            raise BadRequestError(said.part_unknown(str(part)[:80]))
        with self._lock:
            read = self.listing.read(self._state.read)
            question = read.by_id.get(id_)
            if question is None:
                raise OutOfDateError
            text = self.listing.answered(read.text, question, part, read.questions)
            path = self.listing.answers.resolve()
            try:
                write_all({path.name: text.encode("utf-8")}, path.parent)
            except OSError as error:
                reason = (error.strerror or str(error)).lower()
                raise OSError(said.file_not_writable(file=path.name, reason=reason)) from None
            self._read_again()

    def arrange(self) -> None:
        """Draft once more without the places that parts have."""
        with self._wake:
            self._owed = self._anew = True
            self._wake.notify_all()

    def _stamped(self) -> dict[Path, Stamp]:
        own = (self.listing.file, self.listing.answers, self.listing.wishes.spec)
        return {path: stamp_of(path) for path in (*own, *self.listing.given)}

    def _rooms_of(self, read: Read, spec: str) -> Mapping[str, Place]:
        """The room kept for the open parts of a state of the spec: undo brings that of an earlier draft back."""
        return self._rooms.get(revision_of(spec), self.listing.rooms(read))

    def _read_again(self) -> None:
        with self._lock:
            self._stamps = self._stamped()
            try:
                read = self.listing.read(self._state.read)
                rooms = self._rooms_of(read, read_text(self.listing.wishes.spec))
            except Exception as error:  # noqa: BLE001  a fault of ours must not end who looks, and the page with it
                self._publish(trouble=_reasons(error), mine="", theirs="")
                return
            self._publish(read=read, rooms=rooms, trouble=(), mine="", theirs="")
            if self._told is None and self._last is not None:
                self._told = read
            self._owed = True
            self._wake.notify_all()

    def _publish(self, **changed: object) -> None:
        values = {name: getattr(self._state, name) for name in ("step", "read", "rooms", "trouble", "mine", "theirs")}
        self._state = Asked(number=self._state.number + 1, **{**values, **changed})
        if self._listener is not None:
            self._listener()

    def _work(self) -> None:
        while True:
            with self._wake:
                self._wake.wait_for(lambda: self._closed or self._owed)
                if self._closed:
                    return
                anew, self._owed, self._anew = self._anew, False, False
                self._working = True
                read = self._state.read
            if read is not None:
                self._draft(read, anew=anew)
            with self._lock:
                self._working = False

    def _draft(self, read: Read, *, anew: bool) -> None:
        """Draft the panel with what is answered; what keeps it from being drafted is told."""
        told: dict[str, object] = {}
        try:
            with remembering(self._memory):
                told = {"rooms": self._redraft(read, anew=anew), "trouble": (), "mine": "", "theirs": ""}
        except ConflictError as error:
            told = {"trouble": (said.spec_edited_otherwise(),), "mine": error.mine, "theirs": error.theirs}
        except RefusedError as error:
            told = {"trouble": tuple(one.message for one in error.problems)}
        except Exception as error:  # noqa: BLE001  a fault of ours must not end the thread and leave the page waiting
            told = {"trouble": _reasons(error)}
        with self._lock:
            if self._state.step or any(getattr(self._state, name) != value for name, value in told.items()):
                self._publish(step="", **told)

    def _redraft(self, read: Read, *, anew: bool) -> Mapping[str, Place]:
        """Write the draft of a state of the answers, and the places it keeps for open parts, which are given."""
        spec = self.listing.wishes.spec
        now = read_text(spec)
        rooms = self._rooms_of(read, now)
        if self._told is None:
            self._told = read.on(now, spec.as_posix())
        if self._told.drafts_like(read) and not anew:
            self._keep(read, rooms)
            return rooms
        self._publish(step=said.step_drafting())
        earlier = Earlier(text=now, rooms=rooms)
        made = self.listing.drafted(read, None if anew else earlier)
        text, kept = made.texts[spec.name], made.rooms[spec.name]
        base = now if now == self._last else self.listing.drafted(self._told, earlier).texts[spec.name]

        def write(after: str) -> None:
            self._rooms |= {revision_of(now): rooms, revision_of(after): kept}
            self._keep(read, kept, {spec.resolve(): after})

        self._session.redraft(base, text, write, said.change_arrange() if anew else "")
        self._last, self._told = text, read
        return kept

    def _keep(self, read: Read, rooms: Mapping[str, Place], more: Mapping[Path, str] = NOTHING_MORE) -> None:
        """Write the room kept for open parts, and questions that are new, with `more` files or none of them."""
        with self._lock:
            answers = self.listing.answers.resolve()
            before = read_text(answers) if answers.exists() else ""
            after = self.listing.kept(before, read.questions, rooms)
            files = {**more, **({answers: after} if after != before else {})}
            write_folders([(one.parent, {one.name: data.encode("utf-8")}) for one, data in files.items()])


def _reasons(error: Exception) -> tuple[Said, ...]:
    """Why something cannot be read or drafted."""
    if isinstance(error, SpecError):
        return tuple(f"{one.where.short}: {one.message}" for one in error.problems)
    if isinstance(error, OSError) and error.filename and error.strerror:
        return (f"{Path(error.filename).name}: {error.strerror.lower()}",)
    if isinstance(error, OSError | UnicodeDecodeError):
        return (said_by(error),)
    return (said.internal_error(kind=type(error).__name__, error=said_by(error)),)
