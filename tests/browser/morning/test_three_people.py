"""Sous chef, cook and manager, each on a device of their own, from covers to labor minutes."""

import csv
import io
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from tests.browser.morning.kitchen_server import KitchenServer, serving
from tests.browser.morning.steps import LAPTOP, PHONE, WALL, Device, Steps, devices

pytestmark = pytest.mark.browser

_DO = Steps()


@pytest.fixture
def kitchen(tmp_path: Path) -> Iterator[KitchenServer]:
    with serving(tmp_path) as served:
        yield served


@pytest.fixture
def device(browser: Browser, kitchen: KitchenServer) -> Iterator[Device]:
    with devices(browser, kitchen) as made:
        yield made


def test_from_covers_to_labor_minutes(device: Device, kitchen: KitchenServer) -> None:
    chef = device(LAPTOP).new_page()
    chef.goto("/")
    chef.get_by_role("link", name="Sous chef: the day").click()
    chef.wait_for_url("**/days/**")
    chef.goto(kitchen.day)
    covers = chef.get_by_label("Covers", exact=True).first
    covers.fill(str(int(covers.input_value()) + 10))
    chef.get_by_role("button", name="Save and build the plan").first.click()
    _DO.build(chef)
    _DO.release(chef, 1)

    # The cook finds the first batch and ticks it; the network goes and comes.
    kitchen.wall.set(6, 5)
    phone = device(PHONE)
    cook = phone.new_page()
    cook.goto(kitchen.floor)
    cook.locator(".name").first.click()
    first = _DO.at_hand(cook)
    _DO.tap(cook, "start")
    _DO.sent(cook)
    phone.set_offline(True)
    _DO.tap(cook, "finish")
    second = _DO.at_hand(cook)
    assert second != first
    _DO.tap(cook, "start")
    expect(cook.locator("[data-sending]")).to_contain_text("2 wait to be sent")
    phone.set_offline(False)
    _DO.sent(cook)

    # The wall shows it, with nothing clicked.
    wall = device(WALL).new_page()
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
    _DO.build(cook)
    cook.get_by_role("link", name="Release to the floor").click()
    gone = named[other].partition(":")[2].strip()
    expect(cook.locator("main")).to_contain_text(gone)
    cook.get_by_role("button", name="Release to the floor").click()
    _DO.released(cook, 2)
    expect(wall.locator("body")).to_contain_text("1 of ")

    # Then a delivery is late, which the sous chef hears on the telephone.
    chef.goto(f"{kitchen.floor}/happened")
    _DO.delivery_is_late(chef, "09:15")
    _DO.release(chef, 3)

    # The batch that runs stays with its cook, and what was ticked stays ticked.
    cook.goto(kitchen.floor)
    cook.get_by_role("link", name=re.compile(re.escape(name))).click()
    expect(cook.locator("[data-now-title]")).to_have_text("Now")
    assert cook.locator(".now .job-what").text_content() == running
    expect(cook.locator("[data-done-count]")).to_have_text("1")
    _DO.tap(cook, "finish")
    _DO.sent(cook)

    # The manager sees planned and ticked minutes, on the page and as a table.
    manager = device(LAPTOP).new_page()
    manager.goto(kitchen.floor)
    manager.get_by_role("link", name="Planned and ticked minutes").click()
    expect(manager.locator("h1")).to_contain_text("minutes")
    with manager.expect_download() as download:
        manager.get_by_role("link", name=re.compile("CSV")).first.click()
    rows = list(csv.DictReader(io.StringIO(Path(download.value.path()).read_text("utf-8"))))
    assert len(rows) > 10
