"""Every page on every screen, in both languages: nothing is cut off, small, wrong or unnamed.

Pictures are left in ``tests/artefacts`` to be looked at.
"""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser
from pypdf import PdfReader

from tests.browser.looks import ARTEFACTS, enlarged, sideways, small, violations
from tests.browser.morning.conftest import Morning

pytestmark = pytest.mark.browser

_SCREENS = {"phone": (360, 740), "tablet": (768, 1024), "wall": (1920, 1080)}
_NAMES = (
    "index",
    "enrol",
    "day",
    "build",
    "release",
    "compare",
    "sheets",
    "sheet",
    "chart",
    "whys",
    "floor",
    "live",
    "wall",
    "happened",
    "review",
    "moving",
    "print",
    "pulls",
    "labels",
    "labor",
    "week",
    "bench",
    "yields",
    "rates",
    "costs",
    "sales",
    "missing",
)
_PAPER = {"sheets": 11, "sheet": 5, "chart": 2, "review": 9, "costs": 4, "sales": 2}
"""Most A4 pages each takes for the bundled kitchen's whole day."""


def test_every_page_is_looked_at(morning: Morning) -> None:
    assert tuple(morning.pages) == _NAMES


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("name", _NAMES)
def test_a_page_is_whole_on_every_screen(
    browser: Browser, morning: Morning, name: str, language: str
) -> None:
    context = browser.new_context(base_url=morning.kitchen.address, locale=f"{language}-US")
    page = context.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on(
        "console",
        lambda said: faults.append(said.text) if "Content Security" in said.text else None,
    )
    page.goto(morning.pages[name])
    assert page.locator("html").get_attribute("lang") == language
    found = {}
    for screen, (width, height) in _SCREENS.items():
        scheme = "light" if (screen == "phone") == (language == "en") else "dark"
        page.set_viewport_size({"width": width, "height": height})
        page.emulate_media(color_scheme=scheme)
        page.wait_for_timeout(100)
        page.screenshot(
            path=ARTEFACTS / f"morning-{name}-{language}-{screen}-{scheme}.png",
            full_page=screen != "wall",
        )
        # Narrow and wide are laid out in two ways, the same in both languages; a tablet shows one.
        looked = ("phone", "wall") if language == "en" else ("phone",)
        if screen in looked and (wrong := violations(page)):
            found[f"{screen} {scheme}"] = wrong
        if over := sideways(page):
            found[f"{screen} scrolls sideways"] = [str(over)]
        if screen == "phone" and (tight := small(page)):
            found["small"] = tight
    context.close()
    assert found == {}
    assert faults == []


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("name", list(_PAPER))
def test_a_page_prints_on_few_sheets(
    browser: Browser, morning: Morning, name: str, language: str
) -> None:
    context = browser.new_context(base_url=morning.kitchen.address, locale=f"{language}-US")
    page = context.new_page()
    page.goto(morning.pages[name])
    for paper in ("A4", "Letter"):
        target = ARTEFACTS / f"morning-{name}-{language}-{paper}.pdf"
        page.pdf(path=target, format=paper, prefer_css_page_size=True, tagged=True)
        pages = len(re.findall(rb"/Type\s*/Page\b", target.read_bytes()))
        assert 1 <= pages <= _PAPER[name], paper
        # Where a page is saved as PDF, screen readers have its headings and tables.
        root = PdfReader(target).root_object
        assert root["/MarkInfo"]["/Marked"]
        assert root["/Lang"] == language
    context.close()


@pytest.mark.parametrize("language", ["en", "es"])
def test_words_twice_as_large_stay_on_the_screen(
    morning: Morning, tmp_path: Path, language: str
) -> None:
    where = {
        f"morning-{name}-{language}": morning.kitchen.address + path
        for name, path in morning.pages.items()
        if name != "wall"  # a screen that nobody holds
    }
    found = enlarged(where, tmp_path, locale=f"{language}-US")
    assert {one.size for one in found.values()} == {32}
    assert {name: one.sideways for name, one in found.items() if one.sideways > 0} == {}
