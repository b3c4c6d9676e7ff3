"""The yield bench in a real browser: weigh on a phone, be asked, read and print the record.

Pictures are left in ``tests/artefacts`` to be looked at.
"""

import re
import threading
import time
from collections.abc import Iterator

import httpx
import pytest
import uvicorn
from playwright.sync_api import Browser, BrowserContext, Page, expect

from seed_data import demo_bytes
from service.app import create_app
from service.settings import Settings
from tests.browser.looks import ARTEFACTS, sideways, violations
from tests.service import stubs

pytestmark = pytest.mark.browser

_SCREENS = {"phone": (360, 740), "tablet": (768, 1024), "laptop": (1366, 768)}
_SMALLEST = 48
"""Pixels of a target."""


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """A server with the demo kitchen, which plans nothing."""
    app = create_app(Settings(data_dir=tmp_path_factory.mktemp("bench")), stubs.make_well)
    server = uvicorn.Server(uvicorn.Config(app, port=0, log_level="warning"))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.05)
    found = f"http://localhost:{server.servers[0].sockets[0].getsockname()[1]}"
    httpx.put(
        f"{found}/api/v1/kitchens/demo",
        content=demo_bytes(),
        headers={"Content-Type": "application/json"},
    ).raise_for_status()
    yield f"{found}/kitchens/demo"
    server.should_exit = True
    thread.join()


@pytest.fixture
def phone(browser: Browser) -> Iterator[BrowserContext]:
    """A phone without scripts: nothing here may need them."""
    context = browser.new_context(viewport={"width": 360, "height": 740}, java_script_enabled=False)
    yield context
    context.close()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport={"width": 360, "height": 740})
    yield context
    context.close()


def _check(page: Page, name: str) -> None:
    """Leave pictures at all sizes, light and dark; nothing overflows, axe finds nothing."""
    ARTEFACTS.mkdir(exist_ok=True)
    for size, (width, height) in _SCREENS.items():
        page.set_viewport_size({"width": width, "height": height})
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
            page.screenshot(path=ARTEFACTS / f"bench-{name}-{size}-{scheme}.png", full_page=True)
        wider = sideways(page)
        assert wider <= 0, f"{name} overflows at {size}"
    page.set_viewport_size({"width": 360, "height": 740})
    low = page.locator("main button:visible, main select:visible, main input.figure:visible")
    for target in low.all():
        box = target.bounding_box()
        if box and "out-of-sight" not in (target.get_attribute("class") or ""):
            assert box["height"] >= _SMALLEST, target.inner_text()
    found = violations(page)
    assert found == [], name


def _weigh(page: Page, **weights: str) -> None:
    for name, text in weights.items():
        page.locator(f"[name='{name}']").fill(text)
    page.locator(".bar").get_by_role("button", name="Check and keep").click()


def _choose(page: Page, address: str) -> None:
    page.goto(f"{address}/bench")
    page.get_by_label("Food, operation and cut").select_option("onion/peel")
    page.get_by_role("button", name="Weigh this").first.click()
    expect(page.get_by_role("heading", name="Yield test")).to_be_visible()


def test_a_guided_test_on_a_phone_without_scripts(phone: BrowserContext, address: str) -> None:
    page = phone.new_page()
    _choose(page, address)
    for field in ("gross", "gross_tare", "u0", "t0", "division"):
        assert page.locator(f"[name='{field}']").get_attribute("inputmode") == "decimal"
    _weigh(page, division="5", gross="4300", gross_tare="300", t0="900", t0_tare="1000", u0="3400")
    expect(page.get_by_role("heading", name="Nothing is kept yet")).to_be_visible()
    expect(page.locator("[name='t0']")).to_have_attribute("aria-invalid", "true")
    assert page.locator("[name='gross']").input_value() == "4300", "what was typed stays"
    _weigh(page, t0_tare="400")
    expect(page.get_by_role("heading", name="Before it is kept")).to_be_visible()
    expect(page.get_by_text("100 g of what went in are in no part")).to_be_visible()
    _weigh(page, t0="1000")
    expect(page.get_by_role("heading", name=re.compile(r"Yield test \d+"))).to_be_visible()
    expect(page.locator(".of-yield dd")).to_have_text("85 %")


def test_the_pages_at_all_sizes(context: BrowserContext, address: str) -> None:
    page = context.new_page()
    page.goto(f"{address}/bench")
    _check(page, "start")
    _choose(page, address)
    _check(page, "form")
    _weigh(page, division="5", gross="4000", u0="4.4", t0="600")
    _check(page, "asked")
    _weigh(page, u0="4400", t0="0")
    _check(page, "wrong")


def test_a_butchers_test_prints_as_its_record(context: BrowserContext, address: str) -> None:
    page = context.new_page()
    for whole in ("28", "28.5"):
        page.goto(f"{address}/bench?food=Beef rib")
        page.locator("[name='unit']").select_option("lb")
        page.get_by_text("More kinds of trim").click()
        for row, (name, kind, value) in enumerate(
            (
                ("fat", "credited", "0.10"),
                ("bones", "credited", "0.30"),
                ("trim", "credited", "1.30"),
            )
        ):
            page.locator(f"[name='t{row}_name']").fill(name)
            page.locator(f"[name='t{row}_kind']").select_option(kind)
            page.locator(f"[name='t{row}_value']").fill(value)
        page.locator("[name='price_unit']").select_option("lb")
        page.locator("[name='portion_unit']").select_option("oz")
        usable = str(float(whole) - 12)
        _weigh(
            page, division="0.05", gross=whole, t0="3", t1="4", t2="5", u0=usable, price="1.30",
            portion="8", operation="Trim", cut="roast ready", supplier="A butcher",
            scale="Bench scale 2",
        )  # fmt: skip
        expect(page.get_by_role("heading", name=re.compile(r"Yield test \d+"))).to_be_visible()
    # 28.5 lb at 1.30 less 8.00 over 16.5 lb; the sums of the first are in tests/yields.
    expect(page.get_by_text("1.76 USD", exact=True)).to_be_visible()
    expect(page.get_by_text("All 2 together: 57.5 %")).to_be_visible()
    _check(page, "record")
    path = ARTEFACTS / "bench-record.pdf"
    page.pdf(path=path, format="A4", prefer_css_page_size=True)
    assert path.read_bytes().count(b"/Type /Page\n") <= 1
    page.emulate_media(media="print")
    expect(page.get_by_text("Checked by")).to_be_visible()


def test_yields_are_taken_and_put_back_without_scripts(
    phone: BrowserContext, browser: Browser, address: str
) -> None:
    page = phone.new_page()
    for number in range(7):
        page.goto(f"{address}/bench?of=carrot/peel")
        usable = 3280 + number * 12
        _weigh(page, division="5", gross="4000", u0=str(usable), t0=str(4000 - usable))
    page.goto(f"{address}/bench?of=carrot/peel")
    _weigh(page, division="5", gross="4000", u0="2000", t0="2000")
    page.goto(f"{address}/yields")
    card = page.locator("#carrot-peel")
    expect(card.get_by_text("where all else leads to expect")).to_be_visible()
    seen = browser.new_context(viewport={"width": 360, "height": 740})
    looked = seen.new_page()
    looked.goto(f"{address}/yields")
    _check(looked, "yields")
    seen.close()
    card.get_by_role("button", name=re.compile("Leave it out: the test of .*, 50 %")).click()
    expect(card.get_by_text("waits for an answer")).to_have_count(0)
    card.get_by_role("button", name=re.compile("Use 8.* from the tests")).click()
    expect(page.get_by_text("is kept. The next plan pulls by it.")).to_be_visible()
    expect(card.get_by_text("usual 89 %, yours 83 % (7 tests)")).to_be_visible()
    card.get_by_text("What was decided").click()
    card.get_by_role("button", name="Put back").click()
    expect(
        page.locator("#carrot-peel").get_by_text("usual 89 %", exact=False).first
    ).to_be_visible()
    expect(page.locator("#carrot-peel .facts dd").first).to_have_text("89 %")
