"""Why pages as people use them: one quantity at a time on a screen, all of it on paper."""

from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.web.example import example_sheet
from tests.web.example.traces import TRACES
from web.links import Links
from web.pages import render_whys

pytestmark = pytest.mark.browser

_LINKS = replace(Links.files(), explained=frozenset(TRACES))


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The file of all quantities, opened without a server."""
    place = tmp_path_factory.mktemp("why") / "why.html"
    place.write_text(
        render_whys(example_sheet(), TRACES, _LINKS, inline_style=True), encoding="utf-8"
    )
    return place


@pytest.fixture
def page(browser: Browser) -> Page:
    return browser.new_page(viewport={"width": 360, "height": 740})


def _shown(page: Page) -> list[str]:
    """Anchors of the quantities whose reasons are on show."""
    return [str(section.get_attribute("id")) for section in page.locator(".picked:visible").all()]


def test_a_screen_shows_the_index_then_the_one_that_is_picked(page: Page, file: Path) -> None:
    page.goto(file.as_uri())
    assert _shown(page) == []
    assert page.locator(".all a:visible").count() == len(TRACES)
    page.get_by_role("link", name="Onions: pull").click()
    assert _shown(page) == ["why-onion"]
    assert page.locator(".all:visible").count() == 0
    page.get_by_role("link", name="All quantities").click()
    assert _shown(page) == []
    page.close()


def test_a_link_from_a_sheet_opens_its_quantity(page: Page, file: Path) -> None:
    page.goto(f"{file.parent.as_uri()}/{_LINKS.why('diced_onion')}")
    assert _shown(page) == ["why-diced_onion"]
    page.close()


def test_a_long_answer_opens_part_by_part(page: Page, file: Path) -> None:
    page.goto(f"{file.as_uri()}#why-deep")
    inner = page.get_by_text("Component 4: make", exact=False)
    assert not inner.is_visible()
    for level in (3, 4):
        page.get_by_text(f"Component {level}: make", exact=False).click()
    assert page.get_by_text("want 4.1", exact=False).is_visible()
    page.close()


def test_paper_shows_all_lines_of_the_one_that_is_picked_and_no_other(
    page: Page, file: Path
) -> None:
    page.goto(f"{file.as_uri()}#why-deep")
    page.emulate_media(media="print")
    assert _shown(page) == ["why-deep"]
    seen = page.evaluate(
        "[...document.querySelectorAll('#why-deep .cause')].map(one => one.checkVisibility())"
    )
    assert len(seen) > 30
    assert all(seen)
    assert page.locator(".all:visible, .nav:visible").count() == 0
    page.close()


def test_paper_shows_every_quantity_where_none_is_picked(page: Page, file: Path) -> None:
    page.goto(file.as_uri())
    page.emulate_media(media="print")
    assert len(_shown(page)) == len(TRACES)
    page.close()
