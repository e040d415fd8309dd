"""The page in a browser that is not ours: Debian's Chromium by Playwright. No request leaves the loopback."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml

from panelart.viewer.stages import revision_of
from tests.readers import needs_chromium
from tests.viewer.running import SMALL, Running, running

playwright = pytest.importorskip("playwright.sync_api")

pytestmark = [
    needs_chromium,
    pytest.mark.xdist_group("browser"),
]

UNMEASURED = SMALL.replace("part: socket-4", "part: led-5-clip")
"""The small panel with a part whose hole is a recalled figure."""


def opened(page: playwright.Page, served: Running) -> None:
    page.goto(served.base)
    page.wait_for_selector("body[data-shown]")


def shown(page: playwright.Page, served: Running) -> None:
    """Waits until the page shows what is on disk."""
    served.settle()
    state = served.desk.state.shown
    assert state is not None
    page.wait_for_selector(f'body[data-shown="{state.revision}"][data-step="done"]')


def follow(page: playwright.Page, served: Running, text: str) -> None:
    """Waits until the page shows a text that another hand wrote."""
    served.settle(revision=revision_of(text))
    page.wait_for_selector(f'body[data-shown="{revision_of(text)}"][data-step="done"]')


def centre(page: playwright.Page, selector: str) -> tuple[float, float]:
    box = page.locator(selector).bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def drag(page: playwright.Page, selector: str, by: tuple[float, float]) -> None:
    x, y = centre(page, selector)
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + by[0] / 2, y + by[1] / 2)
    page.mouse.move(x + by[0], y + by[1])
    page.mouse.up()


def parts(spec: Path) -> dict[str, dict[str, object]]:
    return {part["ref"]: part for part in yaml.safe_load(spec.read_text())["parts"]}


def wait_written(page: playwright.Page, served: Running, before: str) -> str:
    page.wait_for_function("() => !document.querySelector('#undo').disabled || document.querySelector('#dialog').open")
    for _ in range(400):
        if served.spec.read_text() != before:
            break
        page.wait_for_timeout(10)
    shown(page, served)
    return served.spec.read_text()


def test_open_and_see(page: playwright.Page, served: Running) -> None:
    opened(page, served)
    assert page.title() == "Relay box, front"
    assert "NW-900-01" in page.inner_text("#issue")
    assert page.locator("#stage [data-ref]").count() == 3
    label = page.locator('[data-ref="S1"]').get_attribute("aria-label")
    assert label is not None
    assert label.startswith("S1 Power, Toggle")
    drawn = page.locator("#drawing g[id]").evaluate_all("nodes => nodes.map((node) => node.id)")
    assert drawn == ["outline", "cutouts", "legend-white", "parts"]


@pytest.mark.full
@pytest.mark.parametrize("width", [900, 630, 480, 360])
def test_nothing_stands_beside_a_narrow_window(page: playwright.Page, served: Running, width: int) -> None:
    opened(page, served)
    page.set_viewport_size({"width": width, "height": 720})
    edges = page.eval_on_selector_all("header *", "all => all.map(one => one.getBoundingClientRect().right)")
    assert edges
    assert max(edges) <= width


def test_the_picture_is_the_writer_s_own(page: playwright.Page, served: Running) -> None:
    """True proportion: the face on screen is as wide to high as the spec says, within a pixel."""
    opened(page, served)
    box = page.locator("#drawing #outline").bounding_box()
    assert box is not None
    assert box["width"] / box["height"] == pytest.approx(120 / 60, rel=0.01)
    fill = page.locator("#drawing #outline").get_attribute("fill") or page.locator(
        "#drawing #outline *"
    ).first.get_attribute("fill")
    assert fill == "#30343a"


def test_save_and_it_redraws(page: playwright.Page, served: Running) -> None:
    opened(page, served)
    before = centre(page, '[data-ref="J1"]')
    served.spec.write_text(SMALL.replace("at: [95, 30]", "at: [95, 20]"))
    page.wait_for_function(
        "y => { const b = document.querySelector('[data-ref=J1]').getBoundingClientRect();"
        " return b.y + b.height / 2 > y + 5; }",
        arg=before[1],
    )
    after = centre(page, '[data-ref="J1"]')
    scale = page.locator("#drawing #outline").bounding_box()["width"] / 120
    assert after[1] - before[1] == pytest.approx(10 * scale, abs=1.5)


def test_drag_changes_its_own_line_only_and_undo_brings_every_byte_back(page: playwright.Page, served: Running) -> None:
    opened(page, served)
    scale = page.locator("#drawing #outline").bounding_box()["width"] / 120
    drag(page, '[data-ref="DS1"]', (5.3 * scale, 9 * scale))
    after = wait_written(page, served, SMALL)
    pairs = enumerate(zip(SMALL.splitlines(), after.splitlines(), strict=True))
    (line,) = [number for number, (one, other) in pairs if one != other]
    assert "DS1" in SMALL.splitlines()[line]
    assert after.splitlines()[line].endswith("# green")
    x, y = parts(served.spec)["DS1"]["at"]
    assert (x, y) == (pytest.approx(65.3, abs=0.4), pytest.approx(21, abs=0.4))
    assert x * 2 == int(x * 2)  # on the half-millimetre grid
    page.keyboard.press("Control+z")
    page.wait_for_selector("#undo:disabled", state="attached")
    assert served.spec.read_bytes() == SMALL.encode()
    shown(page, served)
    page.keyboard.press("Control+Shift+z")
    page.wait_for_selector("#undo:not(:disabled)")
    assert served.spec.read_text() == after


@pytest.mark.full
def test_a_part_comes_into_line_with_its_neighbours(page: playwright.Page, served: Running) -> None:
    served.spec.write_text(SMALL.replace("at: [60, 30]", "at: [60, 36.3]"))
    served.settle()
    opened(page, served)
    shown(page, served)
    scale = page.locator("#drawing #outline").bounding_box()["width"] / 120
    drag(page, '[data-ref="DS1"]', (0, 6 * scale))
    page.wait_for_selector("#undo:not(:disabled)")
    shown(page, served)
    assert parts(served.spec)["DS1"]["at"] == [60, 30]


@pytest.mark.full
def test_clearances_are_shown_on_the_way(page: playwright.Page, served: Running) -> None:
    """The number on the sign is the gap between the outlines, computed here from radii and centres."""
    opened(page, served)
    scale = page.locator("#drawing #outline").bounding_box()["width"] / 120
    x, y = centre(page, '[data-ref="DS1"]')
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 10 * scale, y)
    page.mouse.move(x + 15 * scale, y)
    tags = [float(one) for one in page.locator("#guides .tag text").all_text_contents()]
    page.keyboard.press("Escape")
    page.mouse.up()
    scene = page.evaluate("() => fetch('scene').then((answer) => answer.json())")
    boxes = {part["ref"]: part["box"] for part in scene["parts"]}
    wanted = boxes["J1"][0] - (boxes["DS1"][2] + 15)
    assert min(abs(tag - wanted) for tag in tags) < 0.6
    assert served.spec.read_text() == SMALL


@pytest.mark.full
def test_arrow_keys_nudge_the_chosen_part_as_one_change(page: playwright.Page, served: Running) -> None:
    opened(page, served)
    page.focus('[data-ref="S1"]')
    page.keyboard.press("Enter")
    for _ in range(4):
        page.keyboard.press("ArrowRight")
    page.keyboard.press("Shift+ArrowUp")
    page.wait_for_selector("#undo:not(:disabled)")
    shown(page, served)
    assert parts(served.spec)["S1"]["at"] == [27, 35]
    page.keyboard.press("Control+z")
    page.wait_for_selector("#undo:disabled", state="attached")
    assert served.spec.read_text() == SMALL


def test_choosing_a_finding_goes_to_it_and_its_edit_clears_it(page: playwright.Page, served: Running) -> None:
    served.spec.write_text(SMALL.replace("at: [60, 30]", "at: [31, 30]"))
    served.settle()
    opened(page, served)
    shown(page, served)
    before = page.get_attribute("#stage", "viewBox")
    errors = page.locator("#findings li.error")
    count = errors.count()
    assert count > 0
    errors.first.locator("button").first.click()
    assert page.get_attribute("#stage", "viewBox") != before
    page.wait_for_selector("#findings li.open .more")
    page.click("#findings li.open summary")
    page.wait_for_function("() => document.querySelector('#findings li.open pre').textContent.includes('Fails:')")
    page.click("#findings li.open .more button:has-text('Line')")
    page.wait_for_selector("#dialog .source .at")
    page.click("#dialog-close")
    offered = 0
    for number in range(count):
        page.keyboard.press("Escape")
        button = page.locator("#findings li.error > button").nth(number)
        if button.get_attribute("aria-expanded") == "false":
            button.click()
        page.click("#findings li.open .more button:has-text('Suggest an edit')")
        page.wait_for_function(
            "() => !document.querySelector('#findings li.open .more [aria-live]').textContent.startsWith('Searching')",
            timeout=60000,
        )
        if page.locator("#findings li.open button.lead").count():
            offered += 1
            break
    assert offered
    page.click("#findings li.open button.lead")
    page.wait_for_selector("#undo:not(:disabled)")
    shown(page, served)
    page.wait_for_function("count => document.querySelectorAll('#findings li.error').length < count", arg=count)


@pytest.mark.full
def test_a_finding_is_marked_on_the_parts_it_names_and_seen_whole(page: playwright.Page, served: Running) -> None:
    """A note on one part has its mark round that part; choosing it leaves what is round it in sight."""
    served.spec.write_text(UNMEASURED)
    opened(page, served)
    follow(page, served, UNMEASURED)
    page.locator("#findings li.note", has_text="J1").first.locator("button").first.click()
    page.wait_for_selector("#spots .open")
    marks = page.locator("#spots .open").evaluate_all("nodes => nodes.map((node) => node.getBoundingClientRect())")
    part = page.locator('[data-ref="J1"]').bounding_box()
    stage = page.locator("#stage").bounding_box()
    assert any(
        mark["x"] <= part["x"]
        and mark["y"] <= part["y"]
        and mark["x"] + mark["width"] >= part["x"] + part["width"]
        and mark["y"] + mark["height"] >= part["y"] + part["height"]
        for mark in marks
    )
    aside = page.locator("aside").bounding_box()
    told = page.locator("#findings li.open").bounding_box()
    assert told["y"] >= aside["y"]
    assert told["y"] + told["height"] <= aside["y"] + aside["height"] + 1
    for mark in marks:
        assert stage["x"] <= mark["x"] <= stage["x"] + stage["width"]
        assert mark["width"] < stage["width"] / 2


@pytest.mark.full
def test_a_bad_spec_dims_the_last_good_picture_and_links_to_the_line(page: playwright.Page, served: Running) -> None:
    opened(page, served)
    served.spec.write_text(SMALL.replace("part: toggle-12", "part: togle-12"))
    page.wait_for_selector("#trouble:not([hidden]):has-text('box.yaml:18:')")
    assert page.locator("body.stale").count() == 1
    assert page.locator("#stage [data-ref]").count() == 3
    page.click("#trouble button")
    assert "togle-12" in page.inner_text("#dialog .source .at")
    page.click("#dialog-close")
    served.spec.write_text(SMALL)
    page.wait_for_selector("#trouble[hidden]", state="attached")
    assert page.locator("body.stale").count() == 0


@pytest.mark.full
def test_a_conflict_is_shown_and_nothing_overwritten(page: playwright.Page, served: Running) -> None:
    opened(page, served)
    scale = page.locator("#drawing #outline").bounding_box()["width"] / 120
    x, y = centre(page, '[data-ref="S1"]')
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 4 * scale, y)
    page.mouse.move(x + 6 * scale, y)
    theirs = SMALL.replace("at: [25, 30]", "at: [25, 41]")
    page.route("**/change", lambda route: (served.spec.write_text(theirs), route.continue_()))
    page.mouse.up()
    page.wait_for_selector("#dialog[open]")
    told = page.inner_text("#dialog")
    assert "nothing was written" in told
    assert "[25, 41]" in told
    assert served.spec.read_text() == theirs


@pytest.mark.full
def test_a_second_tab_follows_the_first(page: playwright.Page, browser: playwright.Browser, served: Running) -> None:
    opened(page, served)
    second = browser.new_page()
    opened(second, served)
    scale = page.locator("#drawing #outline").bounding_box()["width"] / 120
    drag(page, '[data-ref="J1"]', (0, -7 * scale))
    wait_written(page, served, SMALL)
    shown(second, served)
    second.keyboard.press("Control+z")
    second.wait_for_selector("#undo:disabled", state="attached")
    assert served.spec.read_text() == SMALL
    shown(page, served)
    second.close()


@pytest.mark.full
def test_the_page_comes_back_with_the_server(page: playwright.Page, spec: Path) -> None:
    with running(spec) as served:
        served.settle()
        opened(page, served)
        port = served.port
    page.wait_for_function("() => document.querySelector('#status').textContent.includes('not responding')")
    spec.write_text(SMALL.replace("title: Relay box, front", "title: Relay box, second"))
    with running(spec, port) as served:
        served.settle()
        page.wait_for_function("() => document.title === 'Relay box, second'", timeout=20000)


def test_for_looking_only_nothing_can_be_changed(page: playwright.Page, served: Running) -> None:
    page.goto(served.look)
    page.wait_for_selector("body[data-shown][data-mode=look]")
    assert not page.locator("#add").is_visible()
    drag(page, '[data-ref="S1"]', (60, 20))
    page.keyboard.press("Delete")
    page.wait_for_timeout(300)
    assert served.spec.read_text() == SMALL


@pytest.mark.full
def test_other_views_are_the_files_drawings(page: playwright.Page, served: Running) -> None:
    opened(page, served)
    for name in ("cut-front", "cut-rear", "plate-white", "eye", "stations", "finished"):
        with page.expect_response(lambda answer: ".svg" in answer.url) as answered:
            page.select_option("#view", name)
        assert answered.value.status == 200
    page.wait_for_selector("#drawing #legend-white")


@pytest.mark.full
def test_exports_are_what_make_writes(page: playwright.Page, served: Running) -> None:
    from panelart.pipeline import build, read, write

    opened(page, served)
    made = write(build(read(served.spec), today="2026-01-01"))
    names = page.evaluate("() => fetch('files/all').then((answer) => answer.json())")
    assert names == list(made)
    for name in ("artwork.svg", "cutouts.dxf", "holes.csv", "artwork.pdf"):
        got = page.evaluate(
            "async (name) => [...new Uint8Array(await (await fetch(`files/${name}`)).arrayBuffer())]", name
        )
        assert bytes(got) == made[name]


@pytest.mark.full
def test_measure_between_two_features(page: playwright.Page, served: Running) -> None:
    opened(page, served)
    page.keyboard.press("m")
    for ref in ("S1", "J1"):
        page.mouse.click(*centre(page, f'[data-ref="{ref}"]'))
    assert "70.00 mm (x 70.00, y 0.00)" in page.inner_text("#measured")
    assert served.spec.read_text() == SMALL


@pytest.mark.full
def test_a_part_from_the_catalogue_copies_and_delete(page: playwright.Page, served: Running) -> None:
    opened(page, served)
    page.click("#add")
    page.fill("#dialog input[type=search]", "bnc")
    page.click("#dialog .list button:has-text('bnc')")
    after = wait_written(page, served, SMALL)
    assert "part: bnc" in after
    added = next(ref for ref, part in parts(served.spec).items() if part["part"].startswith("bnc"))
    page.wait_for_selector(f'[data-ref="{added}"].chosen')
    page.keyboard.press("Delete")
    page.wait_for_function('ref => !document.querySelector(`[data-ref="${ref}"]`)', arg=added)
    assert served.spec.read_text() == SMALL


@pytest.mark.full
def test_what_the_pointer_rests_on_is_told_beside_it(page: playwright.Page, served: Running) -> None:
    """A part: entry, sources, care. A legend: places with costs, the taken one first and, of these, the cheapest."""
    served.spec.write_text(UNMEASURED)
    opened(page, served)
    follow(page, served, UNMEASURED)
    page.hover('[data-ref="J1"]')
    page.wait_for_selector("#quiet:not([hidden]):has-text('Measure the part before cutting')")
    page.hover('[data-ref="S1"]')
    page.wait_for_selector("#quiet:has-text('Toggle switch')")
    page.wait_for_selector("#quiet:not([hidden])")
    told = page.inner_text("#quiet")
    assert "Toggle switch" in told
    assert "Ø12.2 mm" in told
    assert "major diameter of the thread named in the title" in told
    assert page.get_attribute('[data-ref="S1"]', "aria-describedby") == "quiet"
    page.hover('[aria-label="legend Power of S1"]')
    page.wait_for_selector("#quiet table")
    costs = [float(one) for one in page.locator("#quiet td.number").all_text_contents() if one]
    assert costs[0] == min(costs)
    assert len(costs) > 1
    assert page.locator("#quiet tr.taken td").first.text_content() == "above"
    page.keyboard.press("Escape")
    assert not page.locator("#quiet").is_visible()


@pytest.mark.full
def test_the_keyboard_comes_to_the_same_card_and_past_the_parts(page: playwright.Page, served: Running) -> None:
    opened(page, served)
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.textContent") == "Skip to findings"
    page.focus("#stage")
    page.keyboard.press("Tab")
    page.wait_for_selector("#quiet:not([hidden])")
    ref = page.evaluate("() => document.activeElement.dataset.ref")
    assert page.inner_text("#quiet").startswith(f"{ref}: ")
    page.focus(".skip")
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.closest('#findings') !== null")


@pytest.mark.full
def test_what_a_pattern_makes_says_so_and_stays(page: playwright.Page, served: Running) -> None:
    made = {
        "repeat": "{count: 2, step: [8, 0]}\n    parts: [{ref: 'H{n}', part: led-3, at: [50, 12]}]",
        "row": "{at: [50, 12], pitch: 8}\n    parts: [{ref: H1, part: led-3}, {ref: H2, part: led-3}]",
        "ring": "{at: [75, 16], diameter: 16}\n    parts: [{ref: H1, part: led-3}, {ref: H2, part: led-3}]",
    }
    opened(page, served)
    for kind, pattern in made.items():
        text = f"{SMALL}  - {kind}: {pattern}\n"
        served.spec.write_text(text)
        page.wait_for_selector('[data-ref="H1"]')
        follow(page, served, text)
        drag(page, '[data-ref="H1"]', (30, 10))
        page.wait_for_selector("#notice:not([hidden])")
        assert "H1 is created by a pattern in line 2" in page.inner_text("#notice")
        page.keyboard.press("Delete")
        page.keyboard.press("ArrowLeft")
        page.wait_for_timeout(500)
        assert served.spec.read_text() == text


@pytest.mark.full
def test_words_of_their_own_are_dragged(page: playwright.Page, served: Running) -> None:
    text = SMALL + "\ntexts:\n  - {text: MADE HERE, at: [30, 52]}  # small\n"
    served.spec.write_text(text)
    opened(page, served)
    follow(page, served, text)
    scale = page.locator("#drawing #outline").bounding_box()["width"] / 120
    drag(page, '[aria-label="legend MADE HERE"]', (20 * scale, -2 * scale))
    page.wait_for_selector("#undo:not(:disabled)")
    after = served.spec.read_text()
    assert yaml.safe_load(after)["texts"][0]["at"] == [pytest.approx(50, abs=0.5), pytest.approx(54, abs=0.5)]
    assert after.endswith("# small\n")


@pytest.mark.full
def test_changes_asked_for_quickly_are_all_made(page: playwright.Page, served: Running) -> None:
    """Nothing is dropped because something else is still being laid out."""
    opened(page, served)
    for ref, key in (("S1", "ArrowUp"), ("J1", "ArrowDown"), ("DS1", "ArrowLeft")):
        page.focus(f'[data-ref="{ref}"]')
        page.keyboard.press("Enter")
        page.keyboard.press(key)
        page.wait_for_timeout(360)
    page.wait_for_function("() => document.querySelector('#undo').title.includes('DS1')")
    assert [parts(served.spec)[ref]["at"] for ref in ("S1", "J1", "DS1")] == [[25, 30.5], [95, 29.5], [59.5, 30]]


@pytest.mark.full
def test_two_fingers_zoom_about_what_is_between_them(browser: playwright.Browser, served: Running) -> None:
    context = browser.new_context(viewport={"width": 1024, "height": 768}, has_touch=True)
    page = context.new_page()
    opened(page, served)
    x, y = centre(page, '[data-ref="DS1"]')
    before = page.locator('[data-ref="DS1"]').bounding_box()["width"]
    touch = context.new_cdp_session(page)

    def fingers(kind: str, apart: float) -> None:
        points = [{"x": x - apart, "y": y, "id": 0}, {"x": x + apart, "y": y, "id": 1}]
        touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points if apart else []})

    fingers("touchStart", 40)
    for apart in (50, 60, 70, 80):
        fingers("touchMove", apart)
    fingers("touchEnd", 0)
    page.wait_for_timeout(100)
    assert page.locator('[data-ref="DS1"]').bounding_box()["width"] == pytest.approx(2 * before, rel=0.1)
    assert centre(page, '[data-ref="DS1"]') == pytest.approx((x, y), abs=3)
    assert served.spec.read_text() == SMALL
    context.close()


def test_at_no_size_is_anything_out_of_reach(page: playwright.Page, served: Running) -> None:
    """From the least desk screen to a tablet held upright: every button is on the screen, nothing is wider than it."""
    opened(page, served)
    for width, height in ((1280, 720), (1024, 768), (768, 1024)):
        page.set_viewport_size({"width": width, "height": height})
        page.wait_for_timeout(50)
        for box in page.locator("header button, footer button").evaluate_all(
            "nodes => nodes.map((node) => node.getBoundingClientRect()).map((b) => [b.left, b.top, b.right, b.bottom])"
        ):
            assert box[0] >= 0
            assert box[1] >= 0
            assert box[2] <= width
            assert box[3] <= height


@pytest.mark.full
def test_layers_can_be_put_away(page: playwright.Page, served: Running) -> None:
    opened(page, served)
    page.click("#layers summary")
    page.uncheck("#layers label:has-text('parts') input")
    assert not page.locator("#drawing #parts").is_visible()
    page.check("#layers label:has-text('parts') input")
    assert page.locator("#drawing #parts").is_visible()


@pytest.mark.full
def test_printed_it_is_true_to_size(page: playwright.Page, served: Running) -> None:
    """CSS Values and Units: 96 px are 25.4 mm on paper."""
    opened(page, served)
    page.emulate_media(media="print")
    page.evaluate(
        "() => { window.print = () => { const b = document.querySelector('#drawing #outline').getBoundingClientRect();"
        " window.printed = [b.width, b.height, getComputedStyle(document.querySelector('aside')).display]; }; }"
    )
    page.evaluate("() => document.querySelector('#print').click()")
    width, height, aside = page.evaluate("() => window.printed")
    assert width * 25.4 / 96 == pytest.approx(120.15, abs=0.2)  # the edge of the face is drawn 0.15 wide
    assert height * 25.4 / 96 == pytest.approx(60.15, abs=0.2)
    assert aside == "none"


def test_dialogs_are_in_words_and_copies_are_made(page: playwright.Page, served: Running) -> None:
    opened(page, served)
    for opener, title in (("#keys", "Keyboard shortcuts"), ("#files", "Files"), ("#true-size", "Actual size")):
        page.click(opener)
        page.wait_for_selector("#dialog[open]")
        told = page.inner_text("#dialog")
        assert told.startswith(title)
        assert not re.search(r"undefined|[{}]", told)
        page.click("#dialog-close")
    page.click('[data-ref="S1"]')
    page.click("#chosen button:has-text('Copies')")
    for label, value in (("Number of copies", 2), ("Step to the right, mm", 6), ("Step upwards, mm", -10)):
        page.get_by_label(label).fill(str(value))
    page.click("#dialog button.lead")
    wait_written(page, served, SMALL)
    assert [parts(served.spec)[ref]["at"] for ref in ("S2", "S3")] == [[31, 20], [37, 10]]
    assert not re.search(r"undefined|[{}]", page.inner_text("body"))
