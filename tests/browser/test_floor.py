"""The live pages as cooks use them: with one thumb, with bad wifi, with two devices.

Pictures are left in ``tests/artefacts`` to be looked at.
"""

import gzip
import random
import re
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, expect

from planner.floor.state import Floor, floor_of
from planner.floor.ticks import Act, Tick, Weighed, Weight
from tests.browser.floor_server import FloorServer, serve
from tests.web.floor.example import batch_of, first, floor_sheet, tick, worked_until

pytestmark = pytest.mark.browser

SHEET = floor_sheet()
NOW = 7 * 60 + 12.0
INES, TOMAS = SHEET.cooks[0], SHEET.cooks[1]
_ARTEFACTS = Path(__file__).parent.parent / "artefacts"
_PHONE = {"width": 360, "height": 740}
_SCREENS = {"phone": _PHONE, "tablet": {"width": 768, "height": 1024}}
_SCREENS["wall"] = {"width": 1920, "height": 1080}
_MOST_BYTES = 60_000
"""Compressed, of a cook's page with all it loads."""

expect.set_options(timeout=10_000)  # machines that do other work too

Open = Callable[..., Page]


@pytest.fixture
def server() -> Iterator[FloorServer]:
    """A floor where the morning has gone as planned until 07:12."""
    found = FloorServer(SHEET, NOW, worked_until(SHEET, NOW))
    running, thread = serve(found)
    time.sleep(0.2)
    yield found
    running.should_exit = True
    thread.join(5)


@pytest.fixture
def phone(browser: Browser, server: FloorServer) -> Iterator[Open]:
    """Opens a page of the floor on a device of its own."""
    contexts: list[BrowserContext] = []
    faults: list[str] = []

    def opened(where: str, context: BrowserContext | None = None, **more: object) -> Page:
        if context is None:
            context = browser.new_context(**{"viewport": _PHONE, **more})  # type: ignore[arg-type]
            contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: faults.append(str(error)))
        page.on(
            "console",
            lambda said: faults.append(said.text) if "Content Security" in said.text else None,
        )
        page.goto(server.address + server.base + where)
        return page

    yield opened
    for context in contexts:
        context.close()
    assert faults == []


def _at_hand(page: Page) -> int:
    found = page.locator(".now [data-job]").get_attribute("data-job")
    assert found is not None
    return int(found)


def _tap(page: Page, act: str) -> None:
    page.wait_for_timeout(950)  # a second tap at once is taken for wet fingers
    page.locator(f'[data-act="{act}"]').click()


def _until(met: Callable[[], bool], seconds: float = 10) -> None:
    end = time.monotonic() + seconds
    while not met():
        assert time.monotonic() < end, "it did not happen"
        time.sleep(0.05)


def test_done_start_done_with_one_tap_each(server: FloorServer, phone: Open) -> None:
    page = phone("/cooks/ines")
    at_hand = _at_hand(page)
    _tap(page, "finish")
    following = INES.batches[[one.number for one in INES.batches].index(at_hand) + 1]
    assert _at_hand(page) == following.number
    _tap(page, "start")
    expect(page.locator("[data-now-title]")).to_have_text("Now")
    expect(page.locator("[data-sending]")).to_have_text("All sent")
    _until(lambda: len(server.says(Act.BEGUN)) > 0 and server.ticks[-1].act is Act.BEGUN)
    done, begun = server.ticks[-2:]
    assert (done.act, done.tasks) == (
        Act.DONE,
        tuple(task.id for task in batch_of(SHEET, at_hand).tasks),
    )
    assert begun.tasks == tuple(task.id for task in following.tasks)
    assert begun.cook == "ines"
    assert abs(begun.at - server.minutes(time.time())) < 0.2


def test_the_buttons_name_the_batch_they_are_for(phone: Open) -> None:
    """Whoever reads ahead must not start another batch than the one at hand."""
    page = phone("/cooks/ines")
    expect(page.locator('[data-act="finish"]')).to_have_text(f"Done {_at_hand(page)}")
    _tap(page, "finish")
    expect(page.locator('[data-act="start"]')).to_have_text(f"Start {_at_hand(page)}")


def test_a_second_tap_of_wet_fingers_does_nothing(server: FloorServer, phone: Open) -> None:
    page = phone("/cooks/ines")
    before = len(server.says(Act.DONE))
    page.locator('[data-act="finish"]').dblclick()
    page.wait_for_timeout(500)
    assert len(server.says(Act.DONE)) == before + 1


def test_a_tap_is_taken_back_for_a_while(server: FloorServer, phone: Open) -> None:
    page = phone("/cooks/ines")
    at_hand = _at_hand(page)
    _tap(page, "finish")
    assert _at_hand(page) != at_hand
    page.get_by_role("button", name="Undo").click()
    assert _at_hand(page) == at_hand
    _until(lambda: server.ticks[-1].act is Act.TAKEN_BACK)
    assert server.floor.of(batch_of(SHEET, at_hand).tasks[0].id).done is None


def test_done_by_mistake_is_found_in_the_list_and_taken_back(
    server: FloorServer, phone: Open
) -> None:
    page = phone("/cooks/ines")
    done = INES.batches[0]
    page.locator("summary:has([data-done-count])").click()
    page.locator(f'[data-row="{done.number}"] > details > summary').click()
    page.locator(f'[data-job="{done.number}"]').get_by_role(
        "button", name="Not done after all"
    ).click()
    _until(lambda: server.floor.of(done.tasks[0].id).done is None)


def test_without_network_ticks_wait_are_counted_and_go_out_once_in_order(
    server: FloorServer, phone: Open
) -> None:
    page = phone("/cooks/ines")
    expect(page.locator("[data-sending]")).to_have_text("All sent")
    came = len(server.ticks)
    page.context.set_offline(True)
    for act in ("finish", "start", "finish"):
        _tap(page, act)
    expect(page.locator("[data-sending]")).to_contain_text("3 wait to be sent")
    page.screenshot(path=_ARTEFACTS / "floor-cook-offline.png")
    assert len(server.ticks) == came
    page.context.set_offline(False)
    expect(page.locator("[data-sending]")).to_have_text("All sent", timeout=10_000)
    assert [one.act for one in server.ticks[came:]] == [Act.DONE, Act.BEGUN, Act.DONE]
    keys = [one["key"] for post in server.posts for one in post["ticks"]]
    assert len(set(keys)) == 3


def test_a_server_in_trouble_gets_the_ticks_later(server: FloorServer, phone: Open) -> None:
    page = phone("/cooks/ines")
    server.down = True
    _tap(page, "finish")
    expect(page.locator("[data-sending]")).to_contain_text("1 waits to be sent")
    server.down = False
    expect(page.locator("[data-sending]")).to_have_text("All sent", timeout=10_000)
    assert len(server.posts) == 1


def test_the_page_is_read_and_ticked_without_network_after_it_was_closed(phone: Open) -> None:
    page = phone("/cooks/ines")
    expect(page.locator("[data-offline]")).to_have_text("Readable without network")
    page.reload()
    page.wait_for_timeout(500)
    at_hand = _at_hand(page)
    page.context.set_offline(True)
    _tap(page, "finish")
    page.close()
    again = phone("/cooks/ines", page_context := page.context)
    assert _at_hand(again) != at_hand, "what was ticked before stays ticked"
    expect(again.locator("[data-sending]")).to_contain_text("1 waits to be sent")
    expect(again.locator(".now .job-what")).to_be_visible()
    page_context.set_offline(False)
    expect(again.locator("[data-sending]")).to_have_text("All sent", timeout=35_000)


def test_a_refused_tick_is_shown_with_its_remedy_and_not_sent_again(
    server: FloorServer, phone: Open
) -> None:
    page = phone("/cooks/ines")
    server.refuses = True
    _tap(page, "finish")
    refused = page.locator("[data-refused] li")
    expect(refused).to_contain_text("not on this sheet. Load the page again")
    expect(page.locator("[data-sending]")).to_have_text("All sent")
    page.wait_for_timeout(1500)
    assert len(server.posts) == 1
    refused.get_by_role("button").click()
    expect(refused).to_have_count(0)


def test_two_devices_see_one_truth(phone: Open) -> None:
    one, other = phone("/cooks/ines"), phone("/cooks/ines")
    at_hand = _at_hand(one)
    _tap(one, "finish")
    _until(lambda: _at_hand(other) != at_hand)
    assert _at_hand(other) == _at_hand(one)


def test_a_problem_is_told_at_once_and_its_reason_after(server: FloorServer, phone: Open) -> None:
    page, wall = phone("/cooks/ines"), phone("/wall", viewport=_SCREENS["wall"])
    _tap(page, "problem")
    _until(lambda: [one.reason for one in server.floor.problems] == ["Asks for help"])
    page.screenshot(path=_ARTEFACTS / "floor-cook-problem.png")
    page.get_by_role("button", name="Too little food").click()
    _until(lambda: [one.reason for one in server.floor.problems] == ["Too little food"])
    expect(wall.locator("#wall")).to_contain_text("Problem: Too little food")
    page.locator(".now").get_by_role("button", name="Solved").click()
    _until(lambda: server.floor.problems == ())


def test_trim_is_weighed_with_its_tare_which_is_kept(server: FloorServer, phone: Open) -> None:
    page = phone("/cooks/ines")
    page.locator(".now").get_by_role("button", name="Weigh").click()
    page.get_by_label("Scale shows, g").fill("640")
    page.get_by_label("Tare, g").fill("140")
    expect(page.locator("[data-net]")).to_have_text("net 500 g")
    page.screenshot(path=_ARTEFACTS / "floor-cook-weigh.png")
    page.get_by_role("button", name="Keep weight").click()
    _until(lambda: len(server.floor.weighings) == 1)
    weight = server.floor.weighings[0].weight
    assert (weight.kind, weight.grams, weight.tare_grams) == (Weighed.TRIM, 640, 140)
    expect(page.locator(".now [data-reports]")).to_contain_text("500 g")
    page.locator(".now").get_by_role("button", name="Weigh").click()
    expect(page.get_by_label("Tare, g")).to_have_value("140")
    page.get_by_label("Scale shows, g").fill("100")
    page.get_by_role("button", name="Keep weight").click()
    assert page.locator("[data-dialog=weigh]").is_visible(), "less than its container: weigh again"


def test_ounces_are_sent_as_grams(server: FloorServer, phone: Open) -> None:
    page = phone("/cooks/ines?units=us")
    page.locator(".now").get_by_role("button", name="Weigh").click()
    page.get_by_label("Scale shows, oz").fill("10,5")
    page.get_by_role("button", name="Keep weight").click()
    _until(lambda: len(server.floor.weighings) == 1)
    assert server.floor.weighings[0].weight.grams == pytest.approx(297.7, abs=0.05)


def test_lots_run_alone_from_their_own_tap_until_taken_out(
    server: FloorServer, phone: Open
) -> None:
    roast = first(SHEET, "tomas", operation_name="Roast", part="work")
    server.ticks.clear()
    page = phone("/cooks/tomas")
    assert _at_hand(page) == roast.number
    _tap(page, "finish")
    timer = page.locator(".timers .timer")
    expect(timer).to_contain_text("Roast Veal bones")
    left = timer.locator("[data-left]").inner_text()
    assert re.fullmatch(r"(49:\d\d|50:00)", left)
    expect(page.locator('[data-act="finish"]')).to_have_text(f"Done {roast.number}: 2 of 3")
    expect(page.locator("[data-awake]")).not_to_have_text(re.compile("nothing of yours runs"))
    page.get_by_role("button", name="All lots done at once").click()
    _until(lambda: all(server.floor.of(task.id).done for task in roast.tasks))


def test_an_alarm_is_seen_answered_and_ended_by_taking_out(
    server: FloorServer, phone: Open
) -> None:
    roast = first(SHEET, "tomas", operation_name="Roast", part="work")
    out = first(SHEET, "tomas", operation_name="Roast", part="finish")
    server.ticks[:] = [tick(Act.DONE, roast, NOW - roast.unattended - 2.5)]
    wall = phone("/wall", viewport=_SCREENS["wall"])
    page = phone("/cooks/tomas")
    timer = page.locator(".timers .timer")
    expect(timer).to_have_class(re.compile("is-due"))
    expect(timer.locator("[data-left]")).to_have_text("2 min over")
    expect(wall.locator(".timer.is-due")).to_contain_text("2 min over")
    page.screenshot(path=_ARTEFACTS / "floor-cook-alarm.png")
    timer.get_by_role("button", name="I hear it").click()
    expect(wall.locator(".timer[data-heard]")).to_have_count(1)
    timer.get_by_role("button", name="Taken out").click()
    _until(lambda: all(server.floor.of(task.id).done for task in out.tasks))
    expect(timer).to_have_count(0)
    expect(wall.locator(".timer")).to_have_count(0)


def test_sound_is_turned_on_by_one_tap_and_comes_back_with_the_next(phone: Open) -> None:
    page = phone("/cooks/ines")
    expect(page.locator("[data-sound]")).to_have_text("Sound is off")
    page.locator("[data-sound-on]").click()
    expect(page.locator("[data-sound]")).to_have_text("Sound is on")
    again = phone("/cooks/ines", page.context)
    expect(again.locator("[data-sound]")).to_have_text(re.compile("comes back|is on"))
    again.locator(".now h3").click()
    expect(again.locator("[data-sound]")).to_have_text("Sound is on")


def test_cuts_are_as_large_as_the_card_says(phone: Open) -> None:
    """A card's short side is 53.98 mm (ISO/IEC 7810): as drawn, so are the cuts."""
    page = phone("/cooks/ines")
    page.locator("[data-scale]").click()
    page.locator("[name=size]").evaluate(
        "one => { one.value = 5.3; one.dispatchEvent(new Event('input')); }"
    )
    card = page.locator("[data-card]").bounding_box()
    assert card is not None
    assert card["width"] == pytest.approx(53.98 * 5.3, abs=0.5)
    page.screenshot(path=_ARTEFACTS / "floor-cook-scale.png")
    page.get_by_role("button", name="It matches").click()
    page.locator('[data-act="finish"]').click()
    drawn = page.locator(".now [data-drawn]").first
    box = drawn.locator("svg").bounding_box()
    assert box is not None
    assert box["width"] == pytest.approx(12.7 * 5.3, abs=0.2)
    expect(drawn).to_contain_text("true size")
    page.reload()
    box = page.locator(".now [data-drawn] svg").first.bounding_box()
    assert box is not None
    assert box["width"] == pytest.approx(12.7 * 5.3, abs=0.2)


def test_what_is_got_stays_ticked_on_the_device(phone: Open) -> None:
    page = phone("/cooks/ines")
    page.get_by_text("Pull list").click()
    box = page.locator(".pulls input[type=checkbox]").first
    box.check()
    page.reload()
    page.get_by_text("Pull list").click()
    expect(page.locator(".pulls input[type=checkbox]").first).to_be_checked()
    expect(page.locator(".pulls input[type=checkbox]").nth(1)).not_to_be_checked()


def test_another_release_is_told_before_the_list_changes(server: FloorServer, phone: Open) -> None:
    page = phone("/cooks/ines")
    server.release = 2
    notice = page.locator("[data-release]")
    expect(notice).to_contain_text("The plan has changed (release 2)")
    notice.get_by_role("button").click()
    page.wait_for_load_state()
    expect(page.locator("[data-release]")).to_be_hidden()
    _tap(page, "finish")
    _until(lambda: bool(server.posts))
    assert server.posts[-1]["ticks"][0]["release"] == 2


def test_the_wall_follows_by_itself(server: FloorServer, phone: Open) -> None:
    wall = phone("/wall", viewport=_SCREENS["wall"])
    done = len(server.says(Act.DONE))
    expect(wall.locator(".wall-top")).to_contain_text(f"{done} of")
    page = phone("/cooks/ines")
    _tap(page, "finish")
    expect(wall.locator(".wall-top")).to_contain_text(f"{done + 1} of")


def test_the_wall_follows_also_where_a_script_comes_late(server: FloorServer, phone: Open) -> None:
    page = phone("")
    page.route("**/hx-sse*", lambda route: (page.wait_for_timeout(400), route.continue_())[1])
    page.goto(f"{server.address}{server.base}/wall")
    done = len(server.says(Act.DONE))
    expect(page.locator(".wall-top")).to_contain_text(f"{done} of")
    page.wait_for_timeout(500)
    server.ticks.append(tick(Act.DONE, INES.batches[-1], NOW))
    expect(page.locator(".wall-top")).to_contain_text(f"{done + 1} of", timeout=5000)


def test_the_wall_says_when_it_hears_nothing(server: FloorServer, phone: Open) -> None:
    wall = phone("/wall", viewport=_SCREENS["wall"])
    expect(wall.locator(".wall-top")).to_contain_text("of")
    server.down = True
    with wall.expect_response(re.compile("/wall$")):
        wall.evaluate(
            """htmx.trigger('#stream', 'floor',
                {data: JSON.stringify({now: new Date().toISOString()})})"""
        )
    wall.wait_for_timeout(300)
    expect(wall.locator(".wall-top")).to_contain_text("of")
    wall.evaluate("document.getElementById('stream')._htmx?.sse?.reader?.cancel()")
    expect(wall.locator("[data-notice]")).to_contain_text("No connection since", timeout=15_000)


def test_another_batch_is_picked_out_of_order(server: FloorServer, phone: Open) -> None:
    page = phone("/cooks/ines")
    last = INES.batches[-1]
    page.locator(f'[data-row="{last.number}"] > details > summary').click()
    page.locator(f'[data-job="{last.number}"]').get_by_role(
        "button", name="Do this one now"
    ).click()
    assert _at_hand(page) == last.number
    _tap(page, "finish")
    _until(lambda: server.floor.of(last.tasks[0].id).done is not None)
    assert _at_hand(page) != last.number


def test_by_keyboard_alone(server: FloorServer, phone: Open) -> None:
    page = phone("/cooks/ines")
    for _ in range(80):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.dataset.act") == "finish":
            break
    outline = page.evaluate("getComputedStyle(document.activeElement).outlineWidth")
    assert outline == "3px"
    done = len(server.says(Act.DONE))
    page.keyboard.press("Enter")
    _until(lambda: len(server.says(Act.DONE)) == done + 1)


_WHERE = {"home": "", "ines": "/cooks/ines", "tomas": "/cooks/tomas", "wall": "/wall"}


@pytest.mark.parametrize("name", list(_WHERE))
@pytest.mark.parametrize(
    ("screen", "scheme"),
    [("phone", "light"), ("phone", "dark"), ("tablet", "light"), ("wall", "dark")],
)
def test_axe_finds_nothing_and_nothing_scrolls_sideways(
    phone: Open, name: str, screen: str, scheme: str
) -> None:
    page = phone(_WHERE[name], viewport=_SCREENS[screen], color_scheme=scheme)
    page.wait_for_timeout(300)
    full = screen != "wall"
    page.screenshot(path=_ARTEFACTS / f"floor-{name}-{screen}-{scheme}.png", full_page=full)
    if name == "ines":
        page.locator(f'[data-row="{INES.batches[-1].number}"] > details > summary').click()
    results = Axe().run(page)
    assert results.violations_count == 0, results.generate_report()
    wide = page.evaluate("document.documentElement.scrollWidth - innerWidth")
    assert wide <= 0


@pytest.mark.parametrize("dialog", ["problem", "weigh", "scale"])
def test_axe_finds_nothing_in_the_dialogs(phone: Open, dialog: str) -> None:
    page = phone("/cooks/ines")
    page.evaluate(
        """name => { if (name === 'weigh') document.querySelector('.now [data-weigh-open]').click();
            else document.querySelector(`[data-dialog=${name}]`).showModal(); }""",
        dialog,
    )
    results = Axe().run(page)
    assert results.violations_count == 0, results.generate_report()
    assert _small(page) == []


@pytest.mark.parametrize("name", ["home", "ines", "tomas"])
def test_what_is_tapped_is_large_enough(phone: Open, name: str) -> None:
    page = phone(_WHERE[name])
    assert _small(page) == []


def _small(page: Page) -> list[str]:
    found: list[str] = page.evaluate(
        """() => [...document.querySelectorAll('a, label, button, summary, input[type=text]')]
            .filter(one => getComputedStyle(one).display !== 'inline'
                && one.checkVisibility() && !one.classList.contains('skip'))
            .map(one => [one.textContent.trim().slice(0, 40), one.getBoundingClientRect()])
            .filter(([, box]) => box.height < 48 || box.width < 48)
            .map(([text, box]) => `${text}: ${box.width} x ${box.height}`)"""
    )
    return found


def test_words_twice_as_large_leave_room_for_the_work(server: FloorServer, tmp_path: Path) -> None:
    """The browser's own text size at 200 %, as people set it.

    Only a profile sets it, and Playwright opens one browser a process, so this takes another.
    """
    profile = tmp_path / "Default"
    profile.mkdir()
    (profile / "Preferences").write_text('{"webkit": {"webprefs": {"default_font_size": 32}}}')
    script = f"""
from playwright.sync_api import sync_playwright
with sync_playwright() as playwright:
    context = playwright.chromium.launch_persistent_context({str(tmp_path)!r},
        executable_path="/usr/bin/chromium", args=["--no-sandbox"],
        viewport={_PHONE!r})
    page = context.pages[0]
    page.goto({server.address + server.base + "/cooks/ines"!r})
    page.wait_for_timeout(500)
    page.screenshot(path={str(_ARTEFACTS / "floor-ines-200.png")!r})
    print(page.evaluate('''JSON.stringify([parseFloat(getComputedStyle(document.documentElement).fontSize),
        document.documentElement.scrollWidth - innerWidth,
        document.querySelector("[data-thumb]").getBoundingClientRect().top])'''))
    context.close()
"""
    told = subprocess.run(  # noqa: S603
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, timeout=60
    )
    size, wide, top = map(float, re.findall(r"-?[\d.]+", told.stdout))
    assert size == 32
    assert wide <= 0
    assert top >= 740 * 0.6, "the buttons cover what is to be read"


def test_the_wall_is_read_from_three_metres(phone: Open) -> None:
    """Lists and chart fit a screen of 1080 lines; their words are 27 px or larger."""
    page = phone("/wall", viewport=_SCREENS["wall"])
    assert page.evaluate("document.documentElement.scrollHeight") <= 1080
    bottom, size = page.evaluate(
        """() => { const chart = document.querySelector('.chart');
            const box = chart.getBoundingClientRect();
            const scale = Math.min(box.width / chart.viewBox.baseVal.width,
                box.height / chart.viewBox.baseVal.height);
            return [box.bottom, 18 * scale]; }"""
    )
    assert bottom <= 1080
    assert size >= 24
    words = page.evaluate(
        """() => Math.min(...[...document.querySelectorAll('.panel li')]
            .map(one => parseFloat(getComputedStyle(one).fontSize)))"""
    )
    assert words >= 30


def test_a_first_visit_weighs_little(server: FloorServer, phone: Open) -> None:
    """Each file compressed by gzip at its usual level, once."""
    sizes: dict[str, int] = {}
    page = phone("")
    page.on(
        "response",
        lambda found: (
            sizes.setdefault(found.url, len(gzip.compress(found.body())))
            if found.url.startswith(server.address) and "/stream" not in found.url
            else None
        ),
    )
    page.goto(f"{server.address}{server.base}/cooks/ines")
    page.wait_for_timeout(1500)
    print(f"{sum(sizes.values())} bytes in {len(sizes)} files")  # noqa: T201
    assert sum(sizes.values()) <= _MOST_BYTES, sizes


def _days(dice: random.Random) -> list[Tick]:
    acts = [Act.BEGUN, Act.DONE, Act.HEARD, Act.PROBLEM, Act.WEIGHED, Act.TAKEN_BACK]
    found = []
    for number in range(dice.randrange(14)):
        act = dice.choice(acts)
        found.append(
            Tick(
                key=f"k{number:02}",
                act=act,
                at=float(dice.randrange(400, 408)),
                cook=dice.choice(["ana", "ben"]),
                tasks=tuple(sorted(dice.sample("abc", dice.randrange(1, 4)))),
                reason="knife" if act is Act.PROBLEM else "",
                weight=Weight(Weighed.TRIM, 500, 100) if act is Act.WEIGHED else None,
                takes_back=f"k{dice.randrange(14):02}" if act is Act.TAKEN_BACK else "",
            )
        )
    return found


def test_the_device_folds_ticks_as_the_server_does(server: FloorServer, phone: Open) -> None:
    """Whatever of a day is known to the server and what only to the device: one truth."""
    dice = random.Random(7)  # noqa: S311
    days = [_days(dice) for _ in range(300)]
    page = phone("/cooks/ines")
    sent = [[_plain(one) for one in day] for day in days]
    folder = server.links().assets
    found = page.evaluate(
        """async ([days, folder]) => {
            const { fold } = await import(`${folder}/floor/fold.js`);
            const none = { tasks: {}, problems: [], weighings: [] };
            return days.map(day => {
                const half = Math.floor(day.length / 2);
                const kept = day.slice(0, half).filter(one => one.act !== 'taken back');
                const known = fold(none, kept, Number);
                return [fold(none, day, Number), fold(known, day, Number)];
            });
        }""",
        [sent, folder],
    )
    for day, (whole, on_top) in zip(days, found, strict=True):
        assert _told(whole) == _floor(floor_of(day)), day
        assert _told(on_top) == _floor(floor_of(day)), day


def _plain(one: Tick) -> dict[str, object]:
    weight = one.weight
    return {
        "key": one.key,
        "act": one.act.value,
        "at": str(one.at),
        "cook": one.cook,
        "tasks": list(one.tasks),
        "reason": one.reason,
        "weight": {"kind": "trim", "grams": weight.grams} if weight else None,
        "takes_back": one.takes_back,
    }


def _told(found: dict[str, dict[str, dict[str, dict[str, str] | None]]]) -> object:
    states = {
        task: tuple(
            said["key"] if (said := state[act]) else None for act in ("begun", "done", "heard")
        )
        for task, state in found["tasks"].items()
    }
    kept = {task: state for task, state in states.items() if any(state)}
    return (
        kept,
        sorted(one["said"]["key"] for one in found["problems"]),  # type: ignore[index]
        sorted(one["said"]["key"] for one in found["weighings"]),  # type: ignore[index]
    )


def _floor(floor: Floor) -> object:
    return (
        {
            task: tuple(
                said.key if said else None for said in (state.begun, state.done, state.heard)
            )
            for task, state in floor.tasks.items()
        },
        sorted(one.said.key for one in floor.problems),
        sorted(one.said.key for one in floor.weighings),
    )
