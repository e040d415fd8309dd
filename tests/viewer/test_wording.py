"""The words of the page: one catalogue, all of it used, nothing said past it, and in the language that is spoken."""

from __future__ import annotations

import gettext
import html
import json
import re
from html.parser import HTMLParser
from importlib.resources import files

import pytest

from panelart.messages import CATALOGUE, speaking
from panelart.viewer.wording import filled, sentences
from tests.viewer.running import Running

PAGE = files("panelart.viewer") / "page"
INDEX = (PAGE / "index.html").read_text(encoding="utf-8")
SCRIPTS = {one.name: one.read_text(encoding="utf-8") for one in PAGE.iterdir() if one.name.endswith(".js")}
CODE = "\n".join(re.sub(r"(?s:/\*.*?\*/)|(?m:^\s*//.*$)", "", text) for text in SCRIPTS.values())

NAMED = set(re.findall(r'"(page(?:-parts)?\.[a-z-]+)"', CODE)) | set(re.findall(r"\{\{(page[a-z.-]+)\}\}", INDEX))
MADE = [re.sub(r"\$\{[^}]*\}", "[a-z-]+", name) for name in re.findall(r"`(page(?:-parts)?\.[^`]+)`", CODE)]
"""Ids that a script writes out, and those that it puts together, as patterns."""


def test_every_sentence_that_is_named_is_there() -> None:
    known = sentences()
    assert sorted(name for name in NAMED if name not in known) == []
    assert [pattern for pattern in MADE if not any(re.fullmatch(pattern, name) for name in known)] == []


def test_every_sentence_is_used() -> None:
    unused = [
        name for name in sentences() if name not in NAMED and not any(re.fullmatch(pattern, name) for pattern in MADE)
    ]
    assert unused == []


def test_the_slots_of_a_sentence_are_given_where_it_is_said() -> None:
    missing = []
    for name, given in re.findall(r'said\("(page[a-z.-]+)", \{([^}]*)\}\)', CODE):
        names = {part.split(":")[0].strip() for part in given.split(",") if part.strip()}
        missing += [(name, slot) for slot in CATALOGUE[name].parameters if slot not in names]
    bare = {name for name in re.findall(r'said\("(page[a-z.-]+)"\)', CODE) if CATALOGUE[name].parameters}
    assert (missing, bare) == ([], set())


def test_no_script_says_a_sentence_of_its_own() -> None:
    texts = [one or other for one, other in re.findall(r'"((?:[^"\\\n]|\\.)*)"|`((?:[^`\\]|\\.)*)`', CODE)]
    prose = [text for text in texts if re.search(r"[A-Za-z]{3,} [A-Za-z]{2,} [A-Za-z]{2,}|[A-Z][a-z]{2,} [a-z]", text)]
    assert prose == []


class _Texts(HTMLParser):
    """What a reader sees or hears of a page: its texts, labels and tooltips."""

    def __init__(self) -> None:
        super().__init__()
        self.texts: list[str] = []
        self._data = False

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        self._data = tag == "script"
        self.texts += [value or "" for name, value in attributes if name in ("aria-label", "title", "placeholder")]

    def handle_endtag(self, tag: str) -> None:  # noqa: ARG002
        self._data = False

    def handle_data(self, data: str) -> None:
        if not self._data and data.strip():
            self.texts.append(data.strip())


def _texts(page: str) -> list[str]:
    parser = _Texts()
    parser.feed(page)
    return parser.texts


def test_the_page_itself_says_nothing_past_the_catalogue() -> None:
    own = [text for text in _texts(INDEX) if not re.fullmatch(r"(\{\{[a-z.-]+\}\}\s*)+", text)]
    assert [text for text in own if re.search(r"[A-Za-z]{3}", text)] == ["panelart", "panelart"]


def test_every_place_is_filled() -> None:
    page = filled(INDEX)
    assert "{{" not in page
    assert set(_texts(page)) >= {"Undo", "Undo (Ctrl+Z)", "Skip to findings", "Findings"}
    told = page.split('id="sentences">')[1].split("</script>")[0]
    assert json.loads(told) == {
        name: form if isinstance(form, str) else list(form) for name, form in sentences().items()
    }


def test_a_count_has_two_forms_with_its_place() -> None:
    assert sentences()["page-parts.errors"] == ("{count} error", "{count} errors")
    assert sentences()["page.revision"] == "rev. {revision}"


class _Shouted(gettext.NullTranslations):
    """A language of capitals, with markup in it."""

    def pgettext(self, context: str, message: str) -> str:  # noqa: ARG002
        return f"<b>{re.sub('[^{}]+(?![^{]*})', lambda found: found[0].upper(), message)}</b>"

    def npgettext(self, context: str, msgid1: str, msgid2: str, n: int) -> str:
        return self.pgettext(context, msgid1 if n == 1 else msgid2)


def test_another_language_reaches_the_browser_whole_and_as_text() -> None:
    with speaking(_Shouted()):
        known, page = sentences(), filled(INDEX)
    assert known["page.undo"] == "<b>UNDO</b>"
    assert known["page.page-of"] == "<b>{page} OF {pages}</b>"
    assert known["page-parts.errors"] == ("<b>{count} ERROR</b>", "<b>{count} ERRORS</b>")
    assert "<b>" not in page
    assert html.escape("<b>UNDO</b>") in page


@pytest.mark.parametrize("path", ["", "page/said.js"])
def test_page_and_words_are_served(served: Running, path: str) -> None:
    with served.client() as page:
        answer = page.get(path)
    assert answer.status_code == 200
    assert "{{" not in answer.text


def test_the_bare_page_is_not_served(served: Running) -> None:
    with served.client() as page:
        assert page.get("page/index.html").status_code == 404
