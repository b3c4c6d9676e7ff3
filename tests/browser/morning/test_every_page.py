"""Every page on every screen, in both languages: nothing is cut off, small, wrong or unnamed.

Pictures are left in ``tests/artefacts`` to be looked at.
"""

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser

from tests.browser.morning.conftest import Morning

pytestmark = pytest.mark.browser

_ARTEFACTS = Path(__file__).parents[2] / "artefacts"
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
_SMALL = """() => [...document.querySelectorAll('a, label, button, summary, input, select')]
    .filter(one => getComputedStyle(one).display !== 'inline' && one.checkVisibility()
        && !['hidden', 'checkbox', 'radio'].includes(one.type)
        && !one.matches('.skip, .out-of-sight, label:not(:has(input))'))
    .map(one => [one.textContent.trim().slice(0, 40) || one.name, one.getBoundingClientRect()])
    .filter(([, box]) => box.width && (box.height < 47.5 || box.width < 47.5))
    .map(([text, box]) => `${text}: ${box.width} x ${box.height}`)"""
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
            path=_ARTEFACTS / f"morning-{name}-{language}-{screen}-{scheme}.png",
            full_page=screen != "wall",
        )
        # Narrow and wide are laid out in two ways, the same in both languages; a tablet shows one.
        looked = ("phone", "wall") if language == "en" else ("phone",)
        if screen in looked and (wrong := Axe().run(page).response["violations"]):
            found[f"{screen} {scheme}"] = [one["id"] for one in wrong]
        over = page.evaluate("document.documentElement.scrollWidth - innerWidth")
        if over > 0:
            found[f"{screen} scrolls sideways"] = [str(over)]
        if screen == "phone" and (small := page.evaluate(_SMALL)):
            found["small"] = small
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
        target = _ARTEFACTS / f"morning-{name}-{language}-{paper}.pdf"
        page.pdf(path=target, format=paper, prefer_css_page_size=True)
        pages = len(re.findall(rb"/Type\s*/Page\b", target.read_bytes()))
        assert 1 <= pages <= _PAPER[name], paper
    context.close()


@pytest.mark.parametrize("language", ["en", "es"])
def test_words_twice_as_large_stay_on_the_screen(
    morning: Morning, tmp_path: Path, language: str
) -> None:
    """The browser's own text size at 200 %, as people set it.

    Only a profile sets it, and Playwright opens one browser a process, so this takes another.
    """
    profile = tmp_path / "Default"
    profile.mkdir()
    (profile / "Preferences").write_text('{"webkit": {"webprefs": {"default_font_size": 32}}}')
    order = json.dumps(
        {
            "profile": str(tmp_path),
            "pages": {
                name: morning.kitchen.address + where
                for name, where in morning.pages.items()
                if name != "wall"  # a screen that nobody holds
            },
            "locale": f"{language}-US",
            "pictures": str(_ARTEFACTS),
        }
    )
    told = subprocess.run(  # noqa: S603
        [sys.executable, "-c", _LARGE, order],
        capture_output=True,
        text=True,
        timeout=180,
        check=True,
    )
    sizes = json.loads(told.stdout)
    assert {size for size, _ in sizes.values()} == {32}
    assert {name: over for name, (_, over) in sizes.items() if over > 0} == {}


_LARGE = """
import json, sys
from playwright.sync_api import sync_playwright
order = json.loads(sys.argv[1])
found = {}
with sync_playwright() as playwright:
    context = playwright.chromium.launch_persistent_context(order["profile"],
        executable_path="/usr/bin/chromium", args=["--no-sandbox"], locale=order["locale"],
        viewport={"width": 360, "height": 740})
    page = context.pages[0]
    for name, where in order["pages"].items():
        page.goto(where)
        page.wait_for_timeout(200)
        page.screenshot(path=f"{order['pictures']}/morning-{name}-{order['locale'][:2]}-200.png")
        found[name] = page.evaluate(
            '''[parseFloat(getComputedStyle(document.documentElement).fontSize),
            document.documentElement.scrollWidth - innerWidth]''')
    context.close()
print(json.dumps(found))
"""
