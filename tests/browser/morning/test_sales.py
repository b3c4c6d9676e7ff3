"""From a file of the till to the day's plan: brought, asked about, answered, taken over, saved."""

import datetime as dt
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.looks import ARTEFACTS, PHONE, sideways, small, violations
from tests.browser.morning.conftest import sales_lines
from tests.browser.morning.kitchen_server import DATE, KitchenServer, serving

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def kitchen(tmp_path_factory: pytest.TempPathFactory) -> Iterator[KitchenServer]:
    with serving(tmp_path_factory.mktemp("sales")) as kitchen:
        yield kitchen


@pytest.fixture(params=[True, False], ids=["script", "no-script"])
def page(
    browser: Browser, kitchen: KitchenServer, request: pytest.FixtureRequest
) -> Iterator[Page]:
    """A phone, with scripts and without."""
    context = browser.new_context(
        base_url=kitchen.address,
        viewport={"width": PHONE[0], "height": PHONE[1]},
        java_script_enabled=bool(request.param),
    )
    yield context.new_page()
    context.close()


def till_file(folder: Path, dinner: str = "Evening") -> Path:
    """A file as a till would write it: it calls dinner otherwise."""
    lines = ["date,service,dish,count"]
    for one in sales_lines():
        service = dinner if one["service"] == "Dinner" else one["service"]
        lines.append(f"{one['date']},{service},{one['dish']},{one['count']}")
    path = folder / "till.csv"
    path.write_text("\n".join(lines), encoding="utf-8")
    return path


def test_a_till_s_file_becomes_the_usual_covers_of_the_day(
    page: Page, kitchen: KitchenServer, tmp_path: Path
) -> None:
    sales = f"/kitchens/{kitchen.slug}/sales"
    page.goto(kitchen.day)
    first = page.get_by_text("No sales are kept yet").count() > 0
    page.goto(sales)
    if first:
        expect(page.get_by_role("heading", name="No sales are kept yet")).to_be_visible()
        page.get_by_label("File of sales, CSV").set_input_files(till_file(tmp_path))
        page.get_by_role("button", name="Check and keep").click()
        expect(page.get_by_role("heading", name="Before this is kept")).to_be_visible()
        page.screenshot(path=ARTEFACTS / "sales-asked-phone.png", full_page=True)
        page.get_by_label("Service “Evening”").select_option(label="is Dinner")
        page.get_by_role("button", name="Keep these sales").click()
        expect(page.get_by_text("counts are kept.")).to_be_visible()
    else:
        page.get_by_label("File of sales, CSV").set_input_files(till_file(tmp_path))
        page.get_by_role("button", name="Check and keep").click()
        expect(page.get_by_text("Nothing new")).to_be_visible()
    page.goto(kitchen.day)
    dinner = page.get_by_role("group", name="Dinner")
    said = dinner.get_by_text("Usually").first.inner_text()
    usual = re.findall(r"Usually (\d+), give or take \d+\.", said)[0]
    covers = dinner.get_by_label("Covers", exact=True)
    stood = covers.input_value()
    dinner.get_by_role("button", name=f"Take over {usual}").click()
    expect(covers).to_have_value(usual)
    expect(page.get_by_text("Nothing is saved yet: look it over and save.")).to_be_visible()
    if stood != usual:
        expect(dinner.get_by_text(f"Saved: {stood}")).to_be_visible()
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.get_by_text("Saved, version")).to_be_visible()
    expect(covers).to_have_value(usual)


def test_what_is_asked_is_whole_on_a_phone(
    browser: Browser, kitchen: KitchenServer, tmp_path: Path
) -> None:
    for language in ("en", "es"):
        context = browser.new_context(
            base_url=kitchen.address,
            viewport={"width": PHONE[0], "height": PHONE[1]},
            locale=f"{language}-US",
        )
        page = context.new_page()
        page.goto(f"/kitchens/{kitchen.slug}/sales")
        path = tmp_path / "other.csv"
        day = DATE - dt.timedelta(1)
        path.write_text(
            f"date,service,dish,count\n{day},Lunch,covers,500\n"
            f"{day},Lunch,A dish that nobody knows and whose name is long,4\n",
            encoding="utf-8",
        )
        page.locator("#file").set_input_files(path)
        page.locator(".bring button").first.click()
        page.locator(".answers").wait_for()
        assert violations(page) == []
        assert (sideways(page), small(page)) == (0, [])
        page.screenshot(path=ARTEFACTS / f"sales-asked-{language}.png", full_page=True)
        path.write_text("date,service,dish,count\nsoon,Lunch,covers,-5\n", encoding="utf-8")
        page.goto(f"/kitchens/{kitchen.slug}/sales")
        page.locator("#file").set_input_files(path)
        page.locator(".bring button").first.click()
        page.get_by_role("alert").wait_for()
        assert violations(page) == []
        page.screenshot(path=ARTEFACTS / f"sales-wrong-{language}.png", full_page=True)
        context.close()
