"""The sous chef's morning in a real browser: enter the day, build, stop, compare, release.

Pictures are left in ``tests/artefacts`` to be looked at.
"""

import re
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx
import pytest
import uvicorn
from playwright.sync_api import Browser, BrowserContext, Page, expect

from service.app import create_app
from service.comparing import MakeComparison
from service.planning import MakePlan
from service.settings import Settings
from tests.browser.looks import ARTEFACTS, sideways, violations
from tests.service import stubs

pytestmark = pytest.mark.browser

_DATE = "2026-03-02"
_DAY = f"/kitchens/test-kitchen/days/{_DATE}"
_SCREENS = {"phone": (360, 740), "tablet": (768, 1024), "laptop": (1366, 768)}


@contextmanager
def _serving(folder: Path, make: MakePlan, compare: MakeComparison) -> Iterator[str]:
    app = create_app(Settings(data_dir=folder), make, compare=compare)
    server = uvicorn.Server(uvicorn.Config(app, port=0, log_level="warning"))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.05)
    port = server.servers[0].sockets[0].getsockname()[1]
    found = f"http://localhost:{port}"
    httpx.post(
        f"{found}/api/v1/kitchens",
        content=stubs.kitchen_bytes(),
        headers={"Content-Type": "application/json"},
    )
    yield found
    server.should_exit = True
    thread.join()


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """A server whose plans get better until they are stopped."""
    folder = tmp_path_factory.mktemp("chef")
    with _serving(folder, stubs.make_until_stopped, stubs.compare_well) as found:
        yield found


def _check(page: Page, name: str) -> None:
    """Leave pictures at all sizes, light and dark; nothing overflows, axe finds nothing."""
    ARTEFACTS.mkdir(exist_ok=True)
    before = page.viewport_size
    for size, (width, height) in _SCREENS.items():
        page.set_viewport_size({"width": width, "height": height})
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
            page.screenshot(path=ARTEFACTS / f"chef-{name}-{size}-{scheme}.png", full_page=True)
        wider = sideways(page)
        assert wider <= 0, f"{name} overflows at {size}"
    if before is not None:
        page.set_viewport_size(before)
    found = violations(page)
    assert found == [], name


def _morning(page: Page, address: str) -> None:
    page.goto(f"{address}{_DAY}")
    _check(page, "day")
    page.get_by_label("Covers", exact=True).fill("many")
    page.get_by_role("button", name="Save", exact=True).click()
    expect(
        page.get_by_role("heading", name="Nothing is saved yet: 1 thing to mend")
    ).to_be_visible()
    _check(page, "day-wrong")
    page.get_by_role("link", name="Covers, Lunch").click()
    page.get_by_label("Covers", exact=True).fill("52")
    page.locator("[name='raw.onion.2026-03-01']").fill("12,5")
    page.get_by_role("button", name="Save and build the plan").click()
    page.wait_for_url("**/build")
    heading = page.locator("#progress h2")
    expect(heading).to_have_text("Looking for a better plan", timeout=60_000)
    work = page.locator(".best dd").nth(2)
    seen = work.inner_text()
    expect(work).not_to_have_text(seen, timeout=60_000)
    _check(page, "build")
    page.get_by_role("button", name="Good enough, stop").click()
    expect(heading).to_have_text("The plan is ready", timeout=60_000)
    expect(page.get_by_role("button", name="Good enough, stop")).to_be_hidden()
    page.get_by_role("link", name="Compare").click()
    page.get_by_role("button", name=re.compile("other covers")).click()
    expect(page.get_by_text("0 → 12")).to_be_visible(timeout=60_000)
    _check(page, "compare")
    page.get_by_role("link", name="Release to the floor").click()
    _check(page, "release")


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport={"width": 360, "height": 740})
    yield context
    context.close()


def test_a_morning_with_javascript(context: BrowserContext, address: str) -> None:
    page = context.new_page()
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on(
        "response", lambda one: wrong.append(f"{one.status} {one.url}") if one.status >= 400 else 0
    )
    _morning(page, address)
    page.get_by_role("button", name="Release to the floor").click()
    expect(page.get_by_role("heading", name="Release 1", exact=True)).to_be_visible()
    # The page that says what is wrong is sent with status 422; browsers ask for an icon of old.
    assert [one for one in wrong if one != f"422 {address}{_DAY}" and "favicon" not in one] == []


def test_a_morning_without_javascript(browser: Browser, address: str) -> None:
    context = browser.new_context(viewport={"width": 360, "height": 740}, java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{address}{_DAY}")
    page.get_by_label("Covers", exact=True).fill("61")
    page.get_by_role("button", name="Save and build the plan").click()
    page.wait_for_url("**/build")
    heading = page.locator("#progress h2")
    expect(heading).to_have_text("Looking for a better plan", timeout=60_000)
    page.get_by_role("button", name="Good enough, stop").click()
    expect(heading).to_have_text("The plan is ready", timeout=60_000)
    page.get_by_role("link", name="Release to the floor").click()
    page.get_by_role("button", name="Release to the floor").click()
    expect(page.get_by_role("heading", name="Release", exact=False).first).to_be_visible()
    context.close()


def test_a_page_whose_stream_does_not_come_loads_again(
    context: BrowserContext, address: str
) -> None:
    page = context.new_page()
    page.route("**/stream", lambda route: route.abort())
    page.route("**/vendor/*", lambda route: route.abort())
    page.goto(f"{address}{_DAY}")
    page.get_by_role("button", name="Save and build the plan").click()
    expect(page.locator(".best")).to_be_visible(timeout=60_000)
    page.get_by_role("button", name="Good enough, stop").click()
    expect(page.locator("#progress h2")).to_have_text("The plan is ready", timeout=60_000)


def test_enter_goes_on_to_the_next_figure_instead_of_saving(
    context: BrowserContext, address: str
) -> None:
    page = context.new_page()
    page.goto(f"{address}{_DAY}")
    page.get_by_label("Covers", exact=True).press("Enter")
    assert page.evaluate("document.activeElement.name") == "spread.lunch"
    page.keyboard.press("Enter")
    focused = page.evaluate("document.activeElement.name")
    assert focused == "start.ada", "the mix is folded away; the next figure in sight is the shift"
    assert page.url == f"{address}{_DAY}"


def test_what_ifs_outlast_the_program(context: BrowserContext, tmp_path: Path) -> None:
    page = context.new_page()
    with _serving(tmp_path, stubs.make_with_work, stubs.compare_forever) as first:
        asked = httpx.post(f"{first}/api/v1/kitchens/test-kitchen/plans", json={"date": _DATE})
        plan = asked.json()["id"]
        page.goto(f"{first}/plans/{plan}/build")
        expect(page.locator("#progress h2")).to_have_text("The plan is ready", timeout=60_000)
        page.goto(f"{first}/plans/{plan}/compare")
        expect(page.get_by_text("Nothing tried yet: choose above")).to_be_visible()
        page.get_by_role("button", name=re.compile("other covers")).click()
        expect(page.get_by_text("being planned")).to_be_visible(timeout=30_000)
        page.get_by_role("button", name=re.compile("a cook is out")).click()
        expect(page.get_by_text("waiting")).to_be_visible()
        page.goto("about:blank")
    with _serving(tmp_path, stubs.make_with_work, stubs.compare_well) as second:
        page.goto(f"{second}/plans/{plan}/compare")
        expect(page.get_by_text("The program ended before it was done.")).to_have_count(2)
        _check(page, "what-ifs-cut-off")
        page.get_by_role("button", name=re.compile("Try it again.*20 % covers")).click()
        expect(page.get_by_text("0 → 12")).to_be_visible(timeout=60_000)
        page.get_by_role("button", name=re.compile("Throw away.*Ada is out")).click()
        expect(page.get_by_text("The program ended")).to_have_count(0)
        expect(page.get_by_text("0 → 12")).to_be_visible()
        _check(page, "what-ifs")
        page.goto("about:blank")
