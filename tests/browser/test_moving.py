"""Batches moved by hand in a real browser, with the real planner on the small bundled kitchen.

Pictures are left in ``tests/artefacts`` to be looked at.
"""

import threading
import time
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest
import uvicorn
from playwright.sync_api import Browser, Page, expect

import seed_data
from planner.kitchen.reading import read_kitchen
from service.app import create_app
from service.planning import make_plan
from service.settings import Settings
from tests.browser.looks import ARTEFACTS, violations

pytestmark = pytest.mark.browser

_SMALL = Path(seed_data.__file__).parent / "small.json"
_SCREENS = {"phone": (360, 740), "laptop": (1366, 768)}
_LONGEST = 60_000
"""Milliseconds that a plan may take on a machine that others use."""


@pytest.fixture(scope="module")
def plan(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Address of a plan of the small kitchen, on a server of its own."""
    app = create_app(
        Settings(data_dir=tmp_path_factory.mktemp("moving"), plan_seconds=1), make_plan
    )
    server = uvicorn.Server(uvicorn.Config(app, port=0, log_level="warning"))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.05)
    found = f"http://localhost:{server.servers[0].sockets[0].getsockname()[1]}"
    data = _SMALL.read_bytes()
    kitchen = httpx.post(
        f"{found}/api/v1/kitchens", content=data, headers={"Content-Type": "application/json"}
    )
    day = read_kitchen(data).as_of.isoformat()
    run = httpx.post(f"{found}{kitchen.headers['Location']}/plans", json={"date": day})
    address = found + run.headers["Location"]
    while httpx.get(address).json()["state"] not in ("done", "failed"):
        time.sleep(0.2)
    yield address.replace("/api/v1", "")
    server.should_exit = True
    thread.join()


def _check(page: Page, name: str) -> None:
    """Leave pictures, light and dark; nothing overflows, axe finds nothing."""
    ARTEFACTS.mkdir(exist_ok=True)
    for size, (width, height) in _SCREENS.items():
        page.set_viewport_size({"width": width, "height": height})
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
            wide = page.evaluate("document.documentElement.scrollWidth")
            assert wide <= width, f"{name} is {wide} px wide on a {size}"
            page.screenshot(path=ARTEFACTS / f"moving-{name}-{size}-{scheme}.png", full_page=True)
            assert violations(page) == []


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_a_batch_is_given_away_looked_at_and_let_go(
    browser: Browser, plan: str, scripts: bool
) -> None:
    context = browser.new_context(java_script_enabled=scripts)
    page = context.new_page()
    page.set_default_timeout(_LONGEST)
    page.goto(f"{plan}/moving")
    batch = page.locator("details", has_text="Wash")
    batch.locator("summary").click()
    give = batch.get_by_label("Give it to")
    other = give.locator("option:not([value='']):not([selected])").first.inner_text()
    give.select_option(label=other)
    if scripts:
        _check(page, "page")
    batch.get_by_role("button", name="Plan around it").click()
    page.get_by_role("link", name="See what changes for whom").click()
    expect(page.get_by_role("heading", name="What moving changes")).to_be_visible()
    expect(page.locator("main")).to_contain_text(f"To {other}")
    if scripts:
        _check(page, "changes")
    page.get_by_role("link", name="Move more batches").click()
    held = page.locator("details", has_text="Held by hand: with this cook")
    expect(held).to_have_count(1)
    expect(page.locator("main")).to_contain_text("1 batch is held by hand")
    held.locator("summary").click()
    held.get_by_role("button", name="Let it go").click()
    page.get_by_role("link", name="Move batches").click()
    expect(page.locator("main")).to_contain_text("No batch is held by hand")
    context.close()


def test_what_cannot_be_is_said_beside_the_batch(browser: Browser, plan: str) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.goto(f"{plan}/moving")
    batch = page.locator("details").first
    batch.locator("summary").click()
    batch.get_by_label("Its work begins").select_option("at")
    batch.get_by_label("Time, for at and not before").fill("03:00")
    batch.get_by_role("button", name="Plan around it").click()
    expect(page.get_by_role("alert")).to_contain_text("too early")
    expect(page.locator("details[open]")).to_have_count(1)
    _check(page, "refused")
    context.close()
