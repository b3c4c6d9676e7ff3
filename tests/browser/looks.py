"""What a page must hold to whatever it shows: room, targets, names, and text of any size."""

import json
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

ARTEFACTS = Path(__file__).parent.parent / "artefacts"
"""Pictures to be looked at."""
PHONE = (360, 740)
"""Pixels of the smallest screen."""

_SMALL = """() => [...document.querySelectorAll('a, label, button, summary, input, select')]
    .filter(one => getComputedStyle(one).display !== 'inline' && one.checkVisibility()
        && !['hidden', 'checkbox', 'radio'].includes(one.type)
        && !one.matches('.skip, .out-of-sight, label:not(:has(input))'))
    .map(one => [one.textContent.trim().slice(0, 40) || one.name, one.getBoundingClientRect()])
    .filter(([, box]) => box.width && (box.height < 47.5 || box.width < 47.5))
    .map(([text, box]) => `${text}: ${box.width} x ${box.height}`)"""


def small(page: Page) -> list[str]:
    """What is tapped and less than 48 px high or wide; links within a line of text are not."""
    found: list[str] = page.evaluate(_SMALL)
    return found


def sideways(page: Page) -> int:
    """Pixels that the page is wider than its window, at least 0."""
    return max(0, page.evaluate("document.documentElement.scrollWidth - innerWidth"))


def violations(page: Page) -> list[str]:
    """What axe finds against WCAG, by its rules' names."""
    return [one["id"] for one in Axe().run(page).response["violations"]]


@dataclass(frozen=True)
class Enlarged:
    """A page on a phone whose owner has set text to 200 %."""

    size: float
    """Pixels of the page's text; 32 where the page heeds its reader."""
    sideways: float
    """Pixels that the page is wider than its window."""
    thumb_top: float | None
    """Where the bar of buttons at the bottom begins, in pixels; None where there is none."""


def enlarged(
    pages: Mapping[str, str], profile: Path, *, locale: str = "en-US"
) -> dict[str, Enlarged]:
    """Open ``pages`` (addresses by the name of their picture) with text at 200 %.

    Only a browser's profile sets that, as people do, and Playwright opens one browser a process,
    so this takes another. ``profile`` is an empty folder.
    """
    folder = profile / "Default"
    folder.mkdir()
    (folder / "Preferences").write_text('{"webkit": {"webprefs": {"default_font_size": 32}}}')
    order = {"profile": str(profile), "pages": dict(pages), "locale": locale}
    order |= {"pictures": str(ARTEFACTS), "width": PHONE[0], "height": PHONE[1]}
    told = subprocess.run(  # noqa: S603
        [sys.executable, "-c", _ENLARGED, json.dumps(order)],
        capture_output=True,
        text=True,
        timeout=180,
        check=True,
    )
    return {name: Enlarged(*found) for name, found in json.loads(told.stdout).items()}


_ENLARGED = """
import json, sys
from playwright.sync_api import sync_playwright
order = json.loads(sys.argv[1])
found = {}
with sync_playwright() as playwright:
    context = playwright.chromium.launch_persistent_context(order["profile"],
        executable_path="/usr/bin/chromium", args=["--no-sandbox"], locale=order["locale"],
        viewport={"width": order["width"], "height": order["height"]})
    page = context.pages[0]
    for name, where in order["pages"].items():
        page.goto(where)
        page.wait_for_timeout(200)
        page.screenshot(path=f"{order['pictures']}/{name}-200.png")
        found[name] = page.evaluate(
            '''[parseFloat(getComputedStyle(document.documentElement).fontSize),
            document.documentElement.scrollWidth - innerWidth,
            document.querySelector("[data-thumb]")?.getBoundingClientRect().top ?? null]''')
    context.close()
print(json.dumps(found))
"""
