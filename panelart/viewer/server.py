"""The page's server: assets, scene, pictures and files of the state shown, and the stream that tells of new ones."""

from __future__ import annotations

import asyncio
import json
import threading
from collections.abc import AsyncIterator, Callable, Iterable, Mapping
from contextlib import asynccontextmanager
from importlib.resources import files
from itertools import islice
from pathlib import PurePosixPath
from typing import Any, Final, Generic, TypeVar

from anyio import to_thread
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response, StreamingResponse
from starlette.routing import Route

from panelart.catalogue import component, names
from panelart.catalogue.absent import absent
from panelart.catalogue.search import search
from panelart.checks import registry
from panelart.diagnostics import SpecError
from panelart.drawing.representation import Drawing
from panelart.legends.explain import told
from panelart.messages import viewer as said
from panelart.messages.errors import said_by
from panelart.messages.reports_catalogue import absent_instead
from panelart.pipeline import Built, panel_files
from panelart.reports.parts import part_json, part_page
from panelart.reports.rule_reference import rule_page
from panelart.spec.moves import NotHereError
from panelart.suggestions import applied
from panelart.viewer import views
from panelart.viewer.access import Guard, Keys, Right
from panelart.viewer.changes import BadRequestError, change_of, moves_told, nudge, suggested
from panelart.viewer.merging import ConflictError, difference
from panelart.viewer.questions import Asked, Questions
from panelart.viewer.scene import problem, scene, story
from panelart.viewer.session import Made, OutOfDateError, RefusedError, Session, State
from panelart.viewer.stages import Shown, read_text
from panelart.viewer.wording import filled
from panelart.writers import svg

Thing = TypeVar("Thing")

LOOK_EVERY: Final = 0.05
"""Seconds between two looks at the spec on disk."""

ASSETS: Final = {".css": "text/css", ".js": "text/javascript", ".svg": "image/svg+xml"}

SVG: Final = "image/svg+xml"

KINDS: Final = {
    ".svg": SVG,
    ".pdf": "application/pdf",
    ".png": "image/png",
    ".dxf": "image/vnd.dxf",
    ".csv": "text/csv",
    ".json": "application/json",
}


class _Stream:
    """Tells every open page of new states: one event object that all of them wait for."""

    def __init__(self) -> None:
        self.news = asyncio.Event()

    def tell(self) -> None:
        """Wake all that wait; whoever comes later waits for the next."""
        self.news.set()
        self.news = asyncio.Event()


class _Last(Generic[Thing]):
    """What takes long to make of a state, kept for the last one that was asked about."""

    def __init__(self, make: Callable[[Shown], Thing]) -> None:
        self._make = make
        self._lock = threading.Lock()
        self._kept: tuple[Shown, Thing] | None = None

    def of(self, shown: Shown) -> Thing:
        """The thing for a state; who asks while it is made waits for it."""
        with self._lock:
            if self._kept is None or self._kept[0] is not shown:
                self._kept = shown, self._make(shown)
            return self._kept[1]


class Pages:
    """The answers, and what they share: the session, and the stream of its news."""

    def __init__(self, session: Session, questions: Questions | None = None) -> None:
        self._session, self._questions = session, questions
        self._stream = _Stream()
        self._ended = False
        self._stations = _Last(lambda shown: views.station_pages(shown.layout))
        self._files = _Last(lambda shown: panel_files(Built(layout=shown.layout, inspection=shown.inspection)))

    def end(self) -> None:
        """Let go of the pages that listen for news, so that the server can end."""
        self._ended = True
        self._stream.tell()

    def application(self, keys: Keys, hosts: frozenset[str]) -> Guard:
        """The server's application, guarded; the session is to be opened before and closed after."""
        return Guard(app=self._routed(), keys=keys, hosts=hosts)

    def _routed(self) -> Starlette:
        """All routes, each below the token of its address."""
        routes = [
            Route("/{token}/", self.page),
            Route("/{token}/page/{name}", self.asset),
            Route("/{token}/events", self.events),
            Route("/{token}/source", self.source),
            Route("/{token}/scene", self.scene),
            Route("/{token}/picture.svg", self.picture),
            Route("/{token}/view/{name}.svg", self.view),
            Route("/{token}/station/{number:int}.svg", self.station),
            Route("/{token}/shadows.svg", self.shadows),
            Route("/{token}/rule/{name:path}", self.rule),
            Route("/{token}/part/{ref:path}", self.part),
            Route("/{token}/entry/{ref:path}", self.entry),
            Route("/{token}/story/{number:int}", self.story),
            Route("/{token}/why/{ref:path}", self.why),
            Route("/{token}/places/{ref:path}", self.places),
            Route("/{token}/catalogue", self.catalogue),
            Route("/{token}/suggestion/{number:int}", self.suggestion),
            Route("/{token}/nudge", self.nudge),
            Route("/{token}/files/{name}", self.file),
            Route("/{token}/questions", self.questions),
            Route("/{token}/candidate/{question}/{number:int}.svg", self.candidate),
            Route("/{token}/answer", self.answer, methods=["POST"]),
            Route("/{token}/arrange", self.arrange, methods=["POST"]),
            Route("/{token}/change", self.change, methods=["POST"]),
            Route("/{token}/undo", self.undo, methods=["POST"]),
            Route("/{token}/redo", self.redo, methods=["POST"]),
            Route("/{token}/stop", self.stop, methods=["POST"]),
        ]
        return Starlette(routes=routes, lifespan=self._life)

    @asynccontextmanager
    async def _life(self, _: Starlette) -> AsyncIterator[None]:
        loop = asyncio.get_running_loop()

        def tell() -> None:
            loop.call_soon_threadsafe(self._stream.tell)

        self._session.listen(tell)
        if self._questions is not None:
            self._questions.listen(tell)
        watching = asyncio.create_task(self._watch())
        try:
            yield
        finally:
            self._session.listen(None)
            if self._questions is not None:
                self._questions.listen(None)
            watching.cancel()
            self._stream.tell()

    async def _watch(self) -> None:
        while True:
            self._session.look()
            if self._questions is not None:
                await to_thread.run_sync(self._questions.look)
            await asyncio.sleep(LOOK_EVERY)

    # --- the page

    async def page(self, _: Request) -> Response:
        """The page itself, in the language that is spoken."""
        text = (files("panelart.viewer") / "page" / "index.html").read_text(encoding="utf-8")
        return Response(filled(text), media_type="text/html")

    async def asset(self, request: Request) -> Response:
        """A style sheet or module of the page."""
        return _asset(request.path_params["name"])

    async def events(self, request: Request) -> Response:
        """The states as they come, as server-sent events; the newest first of all."""
        return StreamingResponse(self._states(request), media_type="text/event-stream")

    async def _states(self, request: Request) -> AsyncIterator[str]:
        told = (-1, -1)
        may_edit = request.scope["right"] is Right.EDIT
        while not self._ended and not await request.is_disconnected():
            news, state = self._stream.news, self._session.state
            asked = None if self._questions is None else self._questions.state
            number = (state.number, 0 if asked is None else asked.number)
            if number != told:
                told = number
                yield f"data: {json.dumps(_told(state, asked, may_edit=may_edit))}\n\n"
                continue
            try:
                async with asyncio.timeout(15.0):
                    await news.wait()
            except TimeoutError:
                yield ": still here\n\n"

    async def source(self, _: Request) -> Response:
        """The spec's text as it is on disk."""
        try:
            return PlainTextResponse(await to_thread.run_sync(read_text, self._session.path))
        except (OSError, UnicodeDecodeError):
            return _missing()

    # --- what is shown

    async def scene(self, _: Request) -> Response:
        """Parts, legends and findings of the last good state."""
        return await _worked(self._shown(), lambda shown: JSONResponse({**scene(shown), "views": _views(shown)}))

    async def picture(self, _: Request) -> Response:
        """The panel as it will look."""
        shown = self._shown()
        if shown is None:
            return _missing()
        return Response(shown.picture, media_type=SVG, headers={"X-Revision": shown.revision})

    async def view(self, request: Request) -> Response:
        """Another way to look at the panel."""
        name = request.path_params["name"]
        return await _worked(self._shown(), lambda shown: _drawn(views.drawing(shown.layout, name)))

    async def station(self, request: Request) -> Response:
        """A page of the build sheet, counted from 1."""
        number = request.path_params["number"]

        def drawn(shown: Shown) -> Response:
            pages = self._stations.of(shown)
            if not 1 <= number <= len(pages):
                return _missing()
            return _drawn(pages[number - 1], {"X-Pages": str(len(pages))})

        return await _worked(self._shown(), drawn)

    async def shadows(self, request: Request) -> Response:
        """What an eye sees, at the place that the query gives."""
        try:
            eye = {key: float(request.query_params[key]) for key in ("height", "aside", "distance", "lean")}
        except (KeyError, ValueError):
            return PlainTextResponse(str(said.eye_incomplete()), 400)
        return await _worked(self._shown(), lambda shown: _drawn(views.shadows(shown.layout, **eye)))

    # --- what is explained

    async def rule(self, request: Request) -> Response:
        """The page of a rule."""
        rule = registry.installed().every.get(request.path_params["name"])
        return _missing() if rule is None else PlainTextResponse(rule_page(rule, 84))

    async def part(self, request: Request) -> Response:
        """The catalogue's page of a part on the panel, with sources and cautions."""
        ref = request.path_params["ref"]

        def told_of(shown: Shown) -> Response:
            part = shown.layout.panel.by_ref.get(ref)
            return _missing() if part is None else PlainTextResponse(part_page(part.component, 84))

        return await _worked(self._shown(), told_of)

    async def entry(self, request: Request) -> Response:
        """The catalogue's entry of a part on the panel, as data."""
        ref = request.path_params["ref"]

        def told_of(shown: Shown) -> Response:
            part = shown.layout.panel.by_ref.get(ref)
            return _missing() if part is None else Response(part_json(part.component), media_type="application/json")

        return await _worked(self._shown(), told_of)

    async def story(self, request: Request) -> Response:
        """The places that a legend of the scene could have and what each costs; null where none was chosen."""
        number = request.path_params["number"]

        def told_of(shown: Shown) -> Response:
            if number >= len(shown.layout.legends):
                return _missing()
            return JSONResponse(story(shown, shown.layout.legends[number]))

        return await _worked(self._shown(), told_of)

    async def why(self, request: Request) -> Response:
        """Why the legends of a part stand where they do."""
        ref = request.path_params["ref"]
        return await _worked(
            self._shown(), lambda shown: PlainTextResponse(told(shown.chosen, ref, shown.layout.unplaced))
        )

    async def places(self, request: Request) -> Response:
        """The places of a part's legends, drawn."""
        ref = request.path_params["ref"]

        def drawn(shown: Shown) -> Response:
            drawing = views.places(shown, ref)
            return _missing() if drawing is None else _drawn(drawing)

        return await _worked(self._shown(), drawn)

    async def catalogue(self, request: Request) -> Response:
        """What the words of the query ask for in the catalogue: parts, else near sizes, and what it does not have."""

        def found(words: str) -> Response:
            if not words.strip():
                return JSONResponse({"parts": _briefly(names()), "near": [], "absent": []})
            brought = search(words)
            parts, near = _briefly(brought.parts), _briefly(name for name in brought.near if name in names())
            without = [
                {"title": one.title, "told": str(absent_instead(one.why, one.instead))}
                for one in absent(words, brought)
            ]
            return JSONResponse({"parts": parts, "near": near, "absent": without})

        return await to_thread.run_sync(found, request.query_params.get("words", "")[:100])

    # --- what is asked about the list

    async def questions(self, _: Request) -> Response:
        """The questions about the list that the spec is drafted from."""
        if self._questions is None:
            return _missing()
        return JSONResponse(await to_thread.run_sync(self._questions.document))

    async def candidate(self, request: Request) -> Response:
        """A candidate of a question and its hole, at the scale of the question, counted from 1."""
        if self._questions is None:
            return _missing()
        id_, number = request.path_params["question"], request.path_params["number"]
        picture = await to_thread.run_sync(self._questions.picture, id_, number)
        return _missing() if picture is None else _drawn(picture)

    async def answer(self, request: Request) -> Response:
        """Answer a question, as the page asks."""
        asking = self._questions
        if asking is None:
            return _missing()
        try:
            asked = json.loads(await request.body())
        except ValueError:
            return PlainTextResponse(str(said.request_not_json()), 400)

        def answered() -> Made:
            asking.answer(asked)
            return Made(difference="", revision="")

        return await _changing(answered)

    async def arrange(self, _: Request) -> Response:
        """Draft the panel once more, without the places that its parts have."""
        if self._questions is None:
            return _missing()
        self._questions.arrange()
        return JSONResponse({})

    # --- what is written

    async def suggestion(self, request: Request) -> Response:
        """The edit that clears a finding, tried, as a line difference."""
        number = request.path_params["number"]

        def found(shown: Shown) -> Response:
            one = suggested(shown, number)
            if one is None:
                return JSONResponse({"says": ""})
            after = applied(shown.text, one.edits)
            return JSONResponse({"says": str(one.says), "difference": difference(shown.text, after)})

        return await _worked(self._shown(), found)

    async def nudge(self, _: Request) -> Response:
        """The smallest moves of parts that clear the findings together, as a line difference."""

        def found(shown: Shown) -> Response:
            one = nudge(shown)
            if not one.steps:
                return JSONResponse({"says": ""})
            return JSONResponse({"says": str(moves_told(one)), "difference": difference(shown.text, one.text)})

        return await _worked(self._shown(), found)

    async def file(self, request: Request) -> Response:
        """A file of the state shown, as `make` writes it; 'all' lists their names."""
        name = request.path_params["name"]

        def found(shown: Shown) -> Response:
            made = self._files.of(shown)
            if name == "all":
                return JSONResponse(list(made))
            if name not in made:
                return _missing()
            return Response(
                made[name],
                media_type=KINDS.get(PurePosixPath(name).suffix, "application/octet-stream"),
                headers={"Content-Disposition": f'attachment; filename="{name}"'},
            )

        return await _worked(self._shown(), found)

    async def change(self, request: Request) -> Response:
        """Change the spec as the page asks, in the state that it showed."""
        try:
            asked = json.loads(await request.body())
        except ValueError:
            return PlainTextResponse(str(said.request_not_json()), 400)

        def changed() -> Made:
            shown = self._session.shown(asked.get("revision")) if isinstance(asked, dict) else None
            if shown is None:
                raise OutOfDateError
            wanted = change_of(asked, shown)
            return self._session.change(shown.revision, wanted.edit, wanted.words)

        return await _changing(changed)

    async def undo(self, _: Request) -> Response:
        """Take the last change back."""
        return await _changing(self._session.undo)

    async def redo(self, _: Request) -> Response:
        """Make the change last taken back again."""
        return await _changing(self._session.redo)

    async def stop(self, _: Request) -> Response:
        """Give up what is being laid out."""
        self._session.stop()
        return JSONResponse({})

    def _shown(self) -> Shown | None:
        return self._session.state.shown


MAX_FOUND: Final = 60
"""Parts listed for a search."""


def _briefly(listed: Iterable[str]) -> list[dict[str, str]]:
    """Parts as the page lists them."""
    parts = map(component, islice(listed, MAX_FOUND))
    return [{"name": one.name, "title": one.title, "family": one.family} for one in parts]


async def _worked(shown: Shown | None, work: Callable[[Shown], Response]) -> Response:
    """An answer that takes time, made in a thread; 404 where there is nothing yet."""
    if shown is None:
        return _missing()
    try:
        return await to_thread.run_sync(work, shown)
    except views.NoSuchViewError:
        return _missing()
    except BadRequestError as error:
        return PlainTextResponse(str(error), 400)
    except SpecError as error:
        return PlainTextResponse("\n".join(one.message for one in error.problems), 422)
    except ValueError as error:
        return PlainTextResponse(str(said_by(error)), 422)


async def _changing(work: Callable[[], Made | None]) -> Response:
    """What a change did, or why it was not made: 409 with both sides where the file was changed in the same place."""
    try:
        made = await to_thread.run_sync(work)
        if made is None:
            return JSONResponse({"why": str(said.nothing_to_undo())}, 422)
        return JSONResponse({"difference": made.difference, "revision": made.revision})
    except BadRequestError as error:
        return PlainTextResponse(str(error), 400)
    except OutOfDateError:
        return JSONResponse({"why": str(said.page_outdated())}, 409)
    except ConflictError as error:
        return JSONResponse({"why": str(error), "mine": error.mine, "theirs": error.theirs}, 409)
    except (NotHereError, OSError) as error:
        return JSONResponse({"why": str(error)}, 422)
    except (RefusedError, SpecError) as error:
        return JSONResponse({"why": "; ".join(one.message for one in error.problems)}, 422)


def _told(state: State, asked: Asked | None, *, may_edit: bool) -> dict[str, Any]:
    """A state as a page follows it; `asked` is the state of the questions, null where none are asked."""
    return {
        "asked": None if asked is None else asked.number,
        "number": state.number,
        "shown": None if state.shown is None else state.shown.revision,
        "on_disk": state.revision,
        "step": str(state.step),
        "drafting": "" if asked is None else str(asked.step),
        "problems": [problem(one) for one in state.problems],
        "undo": str(state.undo),
        "redo": str(state.redo),
        "may_edit": may_edit,
    }


def _views(shown: Shown) -> list[dict[str, str]]:
    return [{"name": name, "words": str(words)} for name, words in views.names(shown.layout)]


def _drawn(drawing: Drawing, more: Mapping[str, str] | None = None) -> Response:
    """A drawing as SVG; `X-Page` is its page in the drawing's own mm: left, bottom, right, top."""
    page = drawing.page
    box = ",".join(f"{side:.4f}" for side in (page.left, page.bottom, page.right, page.top))
    return Response(svg(drawing), media_type=SVG, headers={"X-Page": box, **(more or {})})


def _asset(name: str) -> Response:
    """A file of the page: only what lies flat in its folder has a name here."""
    kind = ASSETS.get(PurePosixPath(name).suffix)
    path = files("panelart.viewer") / "page" / name
    if kind is None or PurePosixPath(name).name != name or not path.is_file():
        return _missing()
    return Response(path.read_bytes(), media_type=kind)


def _missing() -> Response:
    return PlainTextResponse(str(said.not_found()), 404)
