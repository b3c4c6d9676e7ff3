"""The same morning in Spanish, in US units and by the 12 h clock: no page on the way forgets it."""

import csv
import io
import json
import re
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.morning.kitchen_server import KitchenServer, serving
from tests.browser.morning.steps import LAPTOP, PHONE, WALL, Device, Steps, devices
from tests.web.texts import kitchen_words, left_in_english, read_texts

pytestmark = pytest.mark.browser

_KITCHEN = "small.json"
_METRIC = re.compile(r"\d\s(?:kg|g)\b")
_AFTERNOON = re.compile(r"\b(?:1[3-9]|2[0-3]):[0-5]\d\b")
_US = re.compile(r"\d\s(?:lb|oz)\b")
_TWELVE = re.compile(r"\b1?\d:[0-5]\d\s[ap]m\b")


class Seen:
    """Looks at every page on the way, and remembers what was wrong where."""

    def __init__(self, data: set[str]) -> None:
        self.pages: list[str] = []
        self.wrong: dict[str, list[str]] = {}
        self.us: set[str] = set()
        self.twelve: set[str] = set()
        self._data = data

    def __call__(self, page: Page) -> None:
        where = re.sub(r"[0-9a-f]{8}-[0-9a-f-]{27}", "ID", page.url.partition("//")[2])
        where = where.partition("/")[2]
        self.pages.append(where)
        text = page.content()
        found = left_in_english(text, self._data, "es")
        if (lang := page.locator("html").get_attribute("lang")) != "es":
            found.append(f"lang={lang}")
        # The reading's own choices name units and clocks of all kinds.
        page_said = [one for one in read_texts(text) if one not in ("24 h", "12 h")]
        for one in page_said:
            if _METRIC.search(one) or _AFTERNOON.search(one):
                found.append(one)
            if _US.search(one):
                self.us.add(where)
            if _TWELVE.search(one):
                self.twelve.add(where)
        if found:
            self.wrong[where] = found


@pytest.fixture
def kitchen(tmp_path: Path) -> Iterator[KitchenServer]:
    with serving(tmp_path, _KITCHEN, seconds=0.5) as served:
        yield served


@pytest.fixture
def device(browser: Browser, kitchen: KitchenServer) -> Iterator[Device]:
    with devices(browser, kitchen, "es-US") as made:
        yield made


@pytest.fixture
def seen() -> Seen:
    return Seen(kitchen_words(json.loads(files("seed_data").joinpath(_KITCHEN).read_bytes())))


def _reading(page: Page, do: Steps) -> None:
    """Choose units and clock at the foot of the page, once for this device."""
    for way in ("US units", "12 h"):
        page.locator(".reading").get_by_role("link", name=do.say(way), exact=True).click()


def test_from_covers_to_labor_minutes(device: Device, kitchen: KitchenServer, seen: Seen) -> None:
    do = Steps("es", seen)
    chef = device(LAPTOP).new_page()
    chef.goto("/")
    _reading(chef, do)
    seen(chef)
    chef.goto(kitchen.day)
    seen(chef)
    covers = chef.get_by_label(do.say("Covers"), exact=True).first
    covers.fill("muchos")
    chef.get_by_role("button", name=do.say("Save"), exact=True).first.click()
    expect(chef.get_by_role("alert")).to_be_visible()
    seen(chef)
    covers = chef.get_by_label(do.say("Covers"), exact=True).first
    covers.fill("46")
    chef.get_by_role("button", name=do.say("Save and build the plan")).first.click()
    do.build(chef)
    do.release(chef, 1)

    # The network goes and comes while the cook ticks.
    kitchen.wall.set(8, 5)
    phone = device(PHONE)
    cook = phone.new_page()
    cook.goto(kitchen.floor)
    _reading(cook, do)
    seen(cook)
    cook.locator(".name").first.click()
    first = do.at_hand(cook)
    seen(cook)
    do.tap(cook, "start")
    do.sent(cook)
    phone.set_offline(True)
    do.tap(cook, "finish")
    assert do.at_hand(cook) != first
    do.tap(cook, "start")
    waiting = do.say("{count} wait to be sent").format(count=2)
    expect(cook.locator("[data-sending]")).to_contain_text(waiting)
    expect(cook.locator("[data-sending]")).to_contain_text(do.say("no network"))
    seen(cook)
    phone.set_offline(False)
    do.sent(cook)

    wall = device(WALL).new_page()
    wall.goto(f"{kitchen.floor}/wall?units=us&clock=12")
    name = str(cook.locator("h1").text_content())
    expect(wall.locator("body")).to_contain_text(name.split(maxsplit=1)[0])
    seen(wall)

    # What was reported is seen as what changes for whom, and accepted.
    running = cook.locator(".now .job-what").text_content()
    cook.get_by_role("link", name=do.say("Not %(cook)s?", cook=name)).click()
    cook.get_by_role("link", name=do.say("Something has happened")).click()
    do.delivery_is_late(cook, "09:30")
    do.release(cook, 2)
    cook.goto(kitchen.floor)
    cook.get_by_role("link", name=re.compile(re.escape(name))).click()
    assert cook.locator(".now .job-what").text_content() == running
    expect(cook.locator("[data-done-count]")).to_have_text("1")
    seen(cook)
    do.tap(cook, "finish")
    do.sent(cook)

    manager = device(LAPTOP).new_page()
    manager.goto(f"{kitchen.floor}?units=us&clock=12")
    manager.get_by_role("link", name=do.say("Planned and ticked minutes")).click()
    seen(manager)
    with manager.expect_download() as download:
        manager.get_by_role("link", name=re.compile("CSV")).first.click()
    rows = list(csv.DictReader(io.StringIO(Path(download.value.path()).read_text("utf-8"))))
    assert rows

    assert seen.wrong == {}
    assert len(seen.pages) >= 15
    assert any("/cooks/" in page for page in seen.us & seen.twelve)
    assert any(page.endswith("/wall?units=us&clock=12") for page in seen.twelve)
