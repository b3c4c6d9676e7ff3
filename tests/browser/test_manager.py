"""The manager's pages in a real browser: a range of days, a week on paper, light and dark.

Pictures are left in ``tests/artefacts`` to be looked at.
"""

import datetime as dt
import threading
import time
from collections.abc import Iterator

import pytest
import uvicorn
from playwright.sync_api import Browser, Page, expect

from service.app import create_app
from service.settings import Settings
from service.usecases.kitchens import store_kitchen
from tests.browser.looks import ARTEFACTS, sideways, violations
from tests.service import stubs
from tests.service.worked import SLUG, add_day, moment

pytestmark = pytest.mark.browser

_MONDAY = dt.date(2026, 3, 2)
_BASE = f"/kitchens/{SLUG}/labor"
_SCREENS = {"phone": (360, 740), "laptop": (1366, 768)}


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """A server of a kitchen whose days were worked, and of one that has none."""
    app = create_app(
        Settings(data_dir=tmp_path_factory.mktemp("manager")),
        now=lambda: moment(_MONDAY + dt.timedelta(7), 600),
    )
    database = app.state.services.database
    for at in range(6):
        add_day(database, _MONDAY + dt.timedelta(at), took=18 + 2 * at, ticked=at != 4)
    store_kitchen(
        database,
        stubs.kitchen_bytes("New Kitchen"),
        actor="test",
        now=lambda: moment(_MONDAY, 0),
    )
    server = uvicorn.Server(uvicorn.Config(app, port=0, log_level="warning"))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.05)
    yield f"http://localhost:{server.servers[0].sockets[0].getsockname()[1]}"
    server.should_exit = True
    thread.join()


def _check(browser: Browser, href: str, name: str) -> None:
    """Pictures at all sizes, light and dark; nothing overflows, all is drawn, axe finds nothing."""
    ARTEFACTS.mkdir(exist_ok=True)
    for size, (width, height) in _SCREENS.items():
        for scheme in ("light", "dark"):
            context = browser.new_context(
                viewport={"width": width, "height": height},
                color_scheme=scheme,  # type: ignore[arg-type]
                java_script_enabled=True,
            )
            page = context.new_page()
            wrong: list[str] = []
            page.on("console", lambda one, wrong=wrong: wrong.append(one.text))
            page.goto(href)
            page.wait_for_load_state("networkidle")
            page.screenshot(path=ARTEFACTS / f"manager-{name}-{size}-{scheme}.png", full_page=True)
            over = sideways(page)
            assert over <= 0, f"{name} overflows at {size}"
            undrawn = page.evaluate("[...document.images].filter(one => !one.naturalWidth).length")
            assert undrawn == 0, name
            assert violations(page) == [], name
            assert [one for one in wrong if "favicon" not in one and "404" not in one] == []
            context.close()


@pytest.mark.parametrize(
    ("path", "name"),
    [
        (f"{_BASE}/2026-03-02/2026-03-08", "range"),
        (f"{_BASE}/week/2026-03-04", "week"),
        (f"{_BASE}/2025-03-02/2025-03-08", "other-days"),
        ("/kitchens/new-kitchen/labor", "empty"),
        (f"/floor/{SLUG}/2026-03-02/review", "day"),
    ],
)
def test_pages_are_fit_to_be_seen(browser: Browser, address: str, path: str, name: str) -> None:
    _check(browser, f"{address}{path}", name)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_week_is_one_sheet_of_paper(
    browser: Browser, address: str, paper: str, scheme: str
) -> None:
    page = browser.new_page(color_scheme=scheme)  # type: ignore[arg-type]
    page.goto(f"{address}{_BASE}/week/2026-03-04")
    page.wait_for_load_state("networkidle")
    pdf = page.pdf(path=ARTEFACTS / f"manager-week-{paper}-{scheme}.pdf", format=paper)
    assert pdf.count(b"/Type /Page\n") + pdf.count(b"/Type /Page ") == 1
    page.close()


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("language", ["en", "es"])
def test_a_day_is_filed_on_three_sheets_of_paper(
    browser: Browser, address: str, paper: str, language: str
) -> None:
    page = browser.new_page()
    page.goto(f"{address}/floor/{SLUG}/2026-03-02/review?language={language}")
    page.wait_for_load_state("networkidle")
    pdf = page.pdf(path=ARTEFACTS / f"manager-day-{paper}-{language}.pdf", format=paper)
    assert pdf.count(b"/Type /Page\n") + pdf.count(b"/Type /Page ") <= 3
    page.close()


def _range(page: Page, address: str) -> None:
    page.goto(f"{address}{_BASE}")
    page.get_by_label("From", exact=True).fill("2026-03-03")
    page.get_by_label("To", exact=True).fill("2026-03-05")
    page.get_by_role("button", name="Show").click()
    page.wait_for_url("**/labor/2026-03-03/2026-03-05")
    expect(page.get_by_role("img", name="Bars of the minutes").first).to_be_visible()
    with page.expect_download() as download:
        page.get_by_role("link", name="Every batch as CSV").click()
    assert download.value.suggested_filename.endswith("2026-03-03-2026-03-05.csv")


@pytest.mark.parametrize("script", [True, False])
def test_a_range_is_picked_and_taken_away_without_scripts_too(
    browser: Browser, address: str, script: bool
) -> None:
    context = browser.new_context(java_script_enabled=script)
    _range(context.new_page(), address)
    context.close()


def test_pictures_turn_light_in_the_dark_and_stay_black_on_paper(
    browser: Browser, address: str
) -> None:
    page = browser.new_page(color_scheme="dark")
    page.goto(f"{address}{_BASE}/2026-03-02/2026-03-08")
    filtered = "getComputedStyle(document.querySelector('.picture img')).filter"
    assert page.evaluate(filtered) == "invert(1)"
    page.emulate_media(media="print", color_scheme="dark")
    assert page.evaluate(filtered) == "none"
    page.close()
