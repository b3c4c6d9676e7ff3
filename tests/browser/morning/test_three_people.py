"""Sous chef, cook and manager, each on a device of their own, from covers to labor minutes."""

import csv
import io
import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.browser.morning.kitchen_server import KitchenServer, serving

pytestmark = pytest.mark.browser

_PHONE = {"width": 360, "height": 740}
_LAPTOP = {"width": 1366, "height": 768}
_WALL = {"width": 1920, "height": 1080}
_PATIENCE = 90_000
"""Milliseconds for a plan on a machine that does other work too."""

Device = Callable[[dict[str, int]], BrowserContext]


@pytest.fixture
def kitchen(tmp_path: Path) -> Iterator[KitchenServer]:
    with serving(tmp_path) as served:
        yield served


@pytest.fixture
def device(browser: Browser, kitchen: KitchenServer) -> Iterator[Device]:
    """A device whose clock goes as the kitchen's; what fails on its pages fails the test."""
    contexts: list[BrowserContext] = []
    faults: list[str] = []

    def made(viewport: dict[str, int]) -> BrowserContext:
        context = browser.new_context(
            viewport=viewport,  # type: ignore[arg-type]
            base_url=kitchen.address,
            timezone_id=str(kitchen.wall.zone),
            accept_downloads=True,
        )
        context.set_default_timeout(30_000)
        context.clock.install(time=kitchen.wall())
        context.on("weberror", lambda error: faults.append(str(error.error)))
        contexts.append(context)
        return context

    yield made
    for context in contexts:
        context.close()
    assert faults == []


def _build(page: Page) -> None:
    page.wait_for_url("**/build")
    expect(page.locator("#progress h2")).to_have_text("The plan is ready", timeout=_PATIENCE)


def _release(page: Page, number: int) -> None:
    page.get_by_role("link", name="Release to the floor").click()
    page.get_by_role("button", name="Release to the floor").click()
    expect(page.get_by_role("heading", name=f"Release {number}", exact=True)).to_be_visible()


def _tap(page: Page, act: str) -> None:
    page.wait_for_timeout(950)  # a second tap at once is taken for wet fingers
    page.locator(f'[data-act="{act}"]').click()


def _sent(page: Page) -> None:
    expect(page.locator("[data-sending]")).to_have_text("All sent", timeout=30_000)


def _at_hand(page: Page) -> str:
    return str(page.locator(".now [data-job]").get_attribute("data-job"))


def test_from_covers_to_labor_minutes(device: Device, kitchen: KitchenServer) -> None:
    chef = device(_LAPTOP).new_page()
    chef.goto("/")
    chef.get_by_role("link", name="Sous chef: the day").click()
    chef.wait_for_url("**/days/**")
    chef.goto(kitchen.day)
    covers = chef.get_by_label("Covers", exact=True).first
    covers.fill(str(int(covers.input_value()) + 10))
    chef.get_by_role("button", name="Save and build the plan").first.click()
    _build(chef)
    _release(chef, 1)

    # The cook finds the first batch and ticks it; the network goes and comes.
    kitchen.wall.set(6, 5)
    phone = device(_PHONE)
    cook = phone.new_page()
    cook.goto(kitchen.floor)
    cook.locator(".name").first.click()
    first = _at_hand(cook)
    _tap(cook, "start")
    _sent(cook)
    phone.set_offline(True)
    _tap(cook, "finish")
    second = _at_hand(cook)
    assert second != first
    _tap(cook, "start")
    expect(cook.locator("[data-sending]")).to_contain_text("2 wait to be sent")
    phone.set_offline(False)
    _sent(cook)

    # The wall shows it, with nothing clicked.
    wall = device(_WALL).new_page()
    wall.goto(f"{kitchen.floor}/wall")
    name = str(cook.locator("h1").text_content())
    expect(wall.locator("body")).to_contain_text(f"{name.split(maxsplit=1)[0]}")
    expect(wall.locator("body")).to_contain_text("1 of ")

    # A cook calls out, told on the phone: the repaired plan is seen as what changes for whom.
    running = cook.locator(".now .job-what").text_content()
    cook.get_by_role("link", name=f"Not {name}?").click()
    cook.get_by_role("link", name="Something has happened").click()
    leaves = cook.get_by_role("button", name=re.compile("^Leaves now"))
    named = [str(leaves.nth(at).text_content()) for at in range(leaves.count())]
    other = next(at for at, text in enumerate(named) if name not in text)
    leaves.nth(other).click()
    _build(cook)
    cook.get_by_role("link", name="Release to the floor").click()
    gone = named[other].partition(":")[2].strip()
    expect(cook.locator("main")).to_contain_text(gone)
    cook.get_by_role("button", name="Release to the floor").click()
    expect(cook.get_by_role("heading", name="Release 2", exact=True)).to_be_visible()
    expect(wall.locator("body")).to_contain_text("1 of ")

    # Then a delivery is late, which the sous chef hears on the telephone.
    chef.goto(f"{kitchen.floor}/happened")
    chef.get_by_text("A delivery is late", exact=True).click()
    late = chef.locator("form", has=chef.locator("[name=what][value=delivery_late]")).first
    late.get_by_label(re.compile("^Comes at")).fill("09:15")
    late.get_by_role("button", name=re.compile("^Comes then")).click()
    _build(chef)
    _release(chef, 3)

    # The batch that runs stays with its cook, and what was ticked stays ticked.
    cook.goto(kitchen.floor)
    cook.get_by_role("link", name=re.compile(re.escape(name))).click()
    expect(cook.locator("[data-now-title]")).to_have_text("Now")
    assert cook.locator(".now .job-what").text_content() == running
    expect(cook.locator("[data-done-count]")).to_have_text("1")
    _tap(cook, "finish")
    _sent(cook)

    # The manager sees planned and ticked minutes, on the page and as a table.
    manager = device(_LAPTOP).new_page()
    manager.goto(kitchen.floor)
    manager.get_by_role("link", name="Planned and ticked minutes").click()
    expect(manager.locator("h1")).to_contain_text("minutes")
    with manager.expect_download() as download:
        manager.get_by_role("link", name=re.compile("CSV")).first.click()
    rows = list(csv.DictReader(io.StringIO(Path(download.value.path()).read_text("utf-8"))))
    assert len(rows) > 10
