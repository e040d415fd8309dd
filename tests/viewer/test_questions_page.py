"""The questions of a list in a browser that is not ours: answered by a click, a key, the keyboard alone."""

from __future__ import annotations

from typing import Any

import pytest

from panelart.viewer.listing import Listing
from tests.readers import needs_chromium
from tests.viewer.listed import answers, asking, parts, rooms, wait
from tests.viewer.running import Running

playwright = pytest.importorskip("playwright.sync_api")

pytestmark = [
    needs_chromium,
    pytest.mark.xdist_group("browser"),
]


def opened(page: playwright.Page, asked: Running) -> None:
    page.goto(asked.base)
    page.wait_for_selector("body[data-shown]")
    page.wait_for_selector("#questions li.open .candidate")


def drawn(page: playwright.Page, asked: Running) -> None:
    """Waits until the page shows the draft with the answers."""
    asked.settle()
    state = asked.desk.state.shown
    assert state is not None
    page.wait_for_selector(f'body[data-shown="{state.revision}"][data-step="done"]')


def open_refs(page: playwright.Page) -> str:
    return page.inner_text("#questions li.open h3 b")


def test_the_first_question_is_open_with_pictures_and_reasons(page: playwright.Page, asked: Running) -> None:
    opened(page, asked)
    assert page.locator("#questions li").count() == 3
    assert open_refs(page) == "S2, S3"
    best = page.locator("#questions .candidate").first
    best.locator("svg").wait_for()
    told = best.inner_text()
    for words in ("rotary-m10", "opening Ø10.5", "For: rotary switch"):
        assert words in told
    last = page.locator("#questions .candidate").all_inner_texts()[-2:]
    assert [text.split("\n")[1] for text in last] == ["None of these: measure", "Not on the panel"]


def test_a_click_answers_saves_and_redraws(page: playwright.Page, listing: Listing, asked: Running) -> None:
    opened(page, asked)
    page.click('#questions [data-part="rotary-snap-12.7"]')
    wait(lambda: answers(listing)["rotary switch"] == "rotary-snap-12.7")
    drawn(page, asked)
    assert page.locator('#stage [data-ref="S2"]').count() == 1
    assert open_refs(page) == "J1", "goes on to the next"
    assert "rotary-snap-12.7" in page.inner_text("#questions li.answered")
    assert "S2, S3: rotary-snap-12.7" in page.inner_text("#notice")


@pytest.mark.few(1)
@pytest.mark.parametrize(("key", "part"), [("1", "rotary-m10"), ("5", "measure"), ("n", "none")])
def test_a_key_answers(page: playwright.Page, listing: Listing, asked: Running, key: str, part: str) -> None:
    opened(page, asked)
    page.keyboard.press(key)
    wait(lambda: answers(listing)["rotary switch"] == part)
    page.wait_for_selector("#questions li.open >> text=J1")
    focus = page.evaluate("document.activeElement.closest('li').querySelector('b').textContent")
    assert focus == "J1", "the keyboard is where the next answer is given"


@pytest.mark.full
def test_keys_pressed_quickly_answer_one_question_each(page: playwright.Page, listing: Listing, asked: Running) -> None:
    """The next key is for the next question, whether or not the server has confirmed the one before."""
    opened(page, asked)
    page.evaluate(
        "for (const key of '123') document.body.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true }))"
    )
    wait(lambda: "?" not in answers(listing).values())
    candidates = {one["refs"][0]: [each["name"] for each in one["candidates"]] for one in told(asked)}
    assert list(answers(listing).values()) == [candidates["S2"][0], candidates["J1"][1], candidates["M1"][2]]


def told(asked: Running) -> list[dict[str, Any]]:
    with asked.client() as client:
        found: list[dict[str, Any]] = client.get("questions").json()["questions"]
        return found


def test_an_answer_that_is_not_saved_is_told_and_its_question_opened_again(
    page: playwright.Page, listing: Listing, asked: Running
) -> None:
    opened(page, asked)
    before = listing.answers.read_bytes()
    page.route("**/answer", lambda route: route.fulfill(status=422, json={"why": "The disk is full"}))
    page.keyboard.press("1")
    page.wait_for_selector("#dialog[open] >> text=The disk is full")
    assert page.inner_text("#dialog-title") == "Answer not saved"
    assert open_refs(page) == "S2, S3"
    assert page.locator("#questions li.answered").count() == 0
    assert listing.answers.read_bytes() == before


def test_keys_that_are_no_candidate_answer_nothing(page: playwright.Page, listing: Listing, asked: Running) -> None:
    opened(page, asked)
    before = listing.answers.read_bytes()
    for key in ("6", "9", "Control+1", "x"):
        page.keyboard.press(key)
    page.click("#add")
    page.keyboard.type("12")
    page.wait_for_timeout(200)
    assert listing.answers.read_bytes() == before


def test_by_keyboard_alone_from_the_first_to_the_last(page: playwright.Page, listing: Listing, asked: Running) -> None:
    opened(page, asked)
    page.keyboard.press("q")
    assert page.evaluate("document.activeElement.getAttribute('aria-expanded')") == "true"
    for _ in range(3):
        page.keyboard.press("Tab")
        assert page.evaluate("document.activeElement.className") == "candidate"
        before = open_refs(page)
        page.keyboard.press("Enter")
        page.wait_for_function(
            "(before) => document.querySelector('#questions li.open b')?.textContent !== before", arg=before
        )
    wait(lambda: "?" not in answers(listing).values())
    drawn(page, asked)
    assert set(parts(asked.spec)) == {"S1", "S2", "S3", "J1", "M1"}
    assert "All questions are answered" in page.inner_text("#questions")
    assert page.evaluate("document.activeElement.id") == "questions-head"


@pytest.mark.full
def test_what_a_screen_reader_is_told(page: playwright.Page, asked: Running) -> None:
    """Names and states as the browser hands them over (Accessible Rich Internet Applications 1.2)."""
    opened(page, asked)
    told = page.locator("#questions").aria_snapshot()
    assert '- heading "3 questions about list.csv, 3 open" [level=2]' in told
    assert 'button "S2, S3 rotary switch open" [expanded]' in told
    assert 'group "Part for S2, S3"' in told
    assert 'button "rotary-m10 Rotary switch, bushing M10 x 0.75 opening' in told
    page.keyboard.press("1")
    page.wait_for_selector("#questions li.answered")
    page.click("#questions li.answered h3 button")
    assert page.get_by_role("button", pressed=True).filter(has_text="rotary-m10").count() == 1
    assert page.locator("#notice").get_attribute("role") == "status"


def test_an_answer_is_changed_and_taken_back(page: playwright.Page, listing: Listing, asked: Running) -> None:
    opened(page, asked)
    page.keyboard.press("1")
    page.wait_for_selector("#questions li.answered")
    page.click("#questions li.answered h3 button")
    page.click('#questions li.open [data-part="rotary-snap-12.7"]')
    page.wait_for_selector("#questions li.open >> text=J1")
    wait(lambda: answers(listing)["rotary switch"] == "rotary-snap-12.7")
    page.click("#questions li.answered h3 button")
    page.click('#questions li.open [data-part="?"]')
    wait(lambda: answers(listing)["rotary switch"] == "?")
    page.wait_for_function("() => !document.querySelector('#questions li.answered')")
    assert open_refs(page) == "S2, S3"


@pytest.mark.full
def test_another_part_of_the_catalogue(page: playwright.Page, listing: Listing, asked: Running) -> None:
    opened(page, asked)
    page.click('#questions [data-part="other"]')
    page.fill('#dialog input[type="search"]', "encoder-m7")
    page.click("#dialog .list button:has-text('encoder-m7')")
    wait(lambda: answers(listing)["rotary switch"] == "encoder-m7")


def test_closed_in_the_same_moment_nothing_is_lost(
    browser: playwright.Browser, listing: Listing, asked: Running
) -> None:
    page = browser.new_page()
    opened(page, asked)
    page.keyboard.press("1")
    page.close()
    wait(lambda: answers(listing)["rotary switch"] == "rotary-m10")
    asked.settle()
    assert "S2" in parts(asked.spec)


@pytest.mark.full
def test_opened_again_it_goes_on_where_it_was(page: playwright.Page, listing: Listing) -> None:
    with asking(listing) as first:
        opened(page, first)
        page.keyboard.press("1")
        page.wait_for_selector("#questions li.answered")
        drawn(page, first)
    with asking(listing, fresh=False) as second:
        opened(page, second)
        assert page.locator("#questions li.answered").count() == 1
        assert open_refs(page) == "J1"


@pytest.mark.full
def test_an_answer_in_another_window_is_seen(
    page: playwright.Page, browser: playwright.Browser, asked: Running
) -> None:
    opened(page, asked)
    other = browser.new_page()
    opened(other, asked)
    other.keyboard.press("1")
    page.wait_for_selector("#questions li.answered")
    assert open_refs(page) == "S2, S3", "what is open here stays open"
    other.close()


def test_kept_room_is_drawn_where_the_file_says(page: playwright.Page, listing: Listing, asked: Running) -> None:
    opened(page, asked)
    assert page.locator("#rooms text").all_text_contents() == ["S2?", "S3?", "J1?", "M1?"]
    x, y = rooms(listing)["J1"]
    at = page.locator("#rooms text", has_text="J1?").bounding_box()
    outline = page.locator("#drawing #outline").bounding_box()
    assert at is not None
    assert outline is not None
    size = page.evaluate("fetch('scene').then((one) => one.json()).then((one) => one.face)")
    scale = outline["width"] / (size[2] - size[0])
    assert (at["x"] + at["width"] / 2 - outline["x"]) / scale == pytest.approx(x, abs=2)
    assert (outline["y"] + outline["height"] - at["y"] - at["height"] / 2) / scale == pytest.approx(y, abs=2)
    page.keyboard.press("1")
    drawn(page, asked)
    page.wait_for_function("() => document.querySelectorAll('#rooms rect').length === 2")


@pytest.mark.full
def test_parts_that_are_too_large_for_their_room_are_arranged_again(page: playwright.Page, asked: Running) -> None:
    opened(page, asked)
    page.click("#questions li:last-child h3 button")
    page.click('#questions [data-part="meter-144x144"]')
    drawn(page, asked)
    page.wait_for_selector(".arranging button.lead")
    page.click(".arranging button")
    page.wait_for_selector(".arranging button:not(.lead)")
    assert page.get_attribute("#undo", "title") == "Undo: arrange the panel (Ctrl+Z)"


def test_for_looking_only_no_answer_can_be_given(page: playwright.Page, listing: Listing, asked: Running) -> None:
    before = listing.answers.read_bytes()
    page.goto(asked.look)
    page.wait_for_selector("#questions li.open .candidate")
    assert page.locator("#questions .candidate:not(:disabled)").count() == 0
    assert page.locator('#questions [data-part="other"]').count() == 0
    page.keyboard.press("1")
    page.wait_for_timeout(200)
    assert listing.answers.read_bytes() == before


def test_a_file_of_answers_that_cannot_be_read_is_told(page: playwright.Page, listing: Listing, asked: Running) -> None:
    opened(page, asked)
    listing.answers.write_text("answers: [\n", encoding="utf-8")
    page.wait_for_selector("#questions [role=alert]")
    assert page.inner_text("#questions [role=alert]").startswith("list-answers.yaml:2:1: ")


def test_words_of_the_list_are_words_on_the_page(page: playwright.Page, listing: Listing) -> None:
    """A list comes from anywhere: what it says is never markup."""
    hostile = "Ref,Description,Order code\nS2,rotary switch <img src=x onerror=alert(1)>,<b>7</b>\nS1,toggle-12,\n"
    listing.file.write_text(hostile, encoding="utf-8")
    with asking(listing, fresh=False) as served:
        opened(page, served)
        page.wait_for_selector("#questions >> text=onerror")
        assert page.locator("#questions img, #questions .refs b").count() == 0


@pytest.mark.few(1)
@pytest.mark.parametrize("size", [(1280, 720), (1000, 700), (760, 900)])
def test_at_no_size_is_anything_out_of_reach(page: playwright.Page, asked: Running, size: tuple[int, int]) -> None:
    page.set_viewport_size({"width": size[0], "height": size[1]})
    opened(page, asked)
    page.locator("#questions .candidate svg").first.wait_for()
    wide = page.evaluate("document.documentElement.scrollWidth")
    assert wide <= size[0]
    inner = page.evaluate(
        "[...document.querySelectorAll('#questions *')].map((one) => one.getBoundingClientRect().right)"
    )
    assert max(inner) <= size[0]
