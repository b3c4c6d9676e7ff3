"""Pages as people see them: on a phone, a tablet, a desk, a wall screen, and on paper.

Pictures are left in ``tests/artefacts`` to be looked at.
"""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from planner.sheet.types import KitchenSheet
from tests.browser.looks import ARTEFACTS, small, violations
from tests.web.example import example_sheet
from tests.web.example.long import BATCHES, long_sheet
from tests.web.example.traces import TRACES
from web.links import Links
from web.pages import (
    PlanEntry,
    Preferences,
    render_cook,
    render_index,
    render_kitchen,
    render_problem,
    render_wall,
    render_why,
    render_whys,
)
from web.presenters.batches import batch_view

pytestmark = pytest.mark.browser

_SCREENS = {
    "phone": (360, 740),
    "tablet": (768, 1024),
    "desktop": (1280, 900),
    "wall": (1920, 1080),
}
_MOST_PAGES = {"cook": 2, "wall": 2, "kitchen": 8}
_MOST_PAGES_OF_LONG = 3
"""A shift of 43 batches on paper; more is not pinned up."""
_MM_PER_PX = 25.4 / 96
"""A CSS pixel is 1/96 in. Source: CSS Values and Units Level 4, absolute lengths."""


def _explained(sheet: KitchenSheet) -> frozenset[str]:
    """All that could have a link to its reasons."""
    batches = [batch for cook in sheet.cooks for batch in cook.batches]
    components = {output.component for batch in batches for output in batch.outputs}
    return frozenset(components | {pull.ingredient for pull in sheet.pulls})


def _pages() -> dict[str, str]:
    sheet = example_sheet()
    links = replace(Links.files(), home="index.html", explained=_explained(sheet))
    found = {
        "kitchen": render_kitchen(sheet, links, inline_style=True),
        "wall": render_wall(sheet, links, inline_style=True),
        "why": render_whys(sheet, TRACES, links, inline_style=True),
        "why-deep": render_why(sheet, "deep", TRACES["deep"], links, inline_style=True),
        "index": render_index(
            [PlanEntry(sheet.kitchen, sheet.date, "kitchen.html", "ready", "58 batches, 3 late")],
            inline_style=True,
        ),
        "empty": render_index([], inline_style=True),
        "problem": render_problem(
            404,
            "No such plan",
            "Plan 9 is not here.",
            "Choose one from the list.",
            inline_style=True,
        ),
    }
    for cook in sheet.cooks:
        found[f"cook-{cook.cook}"] = render_cook(sheet, cook.cook, links, inline_style=True)
    long = long_sheet()
    found["long"] = render_cook(long, "long", links, inline_style=True)
    us = Preferences("us", 12)
    found["long-us"] = render_cook(long, "long", links, inline_style=True, preferences=us)
    return found


_PAGES = _pages()
_COOKS = [name for name in _PAGES if name.startswith("cook-")]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Pages as files side by side, opened without a server."""
    place = tmp_path_factory.mktemp("sheets")
    for name, html in _PAGES.items():
        (place / f"{name}.html").write_text(html, encoding="utf-8")
    ARTEFACTS.mkdir(exist_ok=True)
    return place


def _open(browser: Browser, folder: Path, name: str, size: tuple[int, int], scheme: str) -> Page:
    page = browser.new_page(
        viewport={"width": size[0], "height": size[1]},
        color_scheme="dark" if scheme == "dark" else "light",
    )
    page.goto((folder / f"{name}.html").as_uri())
    return page


def _on_paper(browser: Browser, folder: Path, name: str) -> Page:
    """The page as it is laid out for Letter, the shorter paper: 8.5 in less its margins."""
    width = round((215.9 - 2 * 8) / _MM_PER_PX)
    page = _open(browser, folder, name, (width, 1000), "light")
    page.emulate_media(media="print")
    return page


@pytest.mark.parametrize("name", list(_PAGES))
@pytest.mark.parametrize("screen", list(_SCREENS))
def test_no_page_scrolls_sideways(browser: Browser, folder: Path, name: str, screen: str) -> None:
    page = _open(browser, folder, name, _SCREENS[screen], "light")
    page.screenshot(path=ARTEFACTS / f"{name}-{screen}.png", full_page=name != "wall")
    wide, room = page.evaluate(
        "[document.documentElement.scrollWidth, document.documentElement.clientWidth]"
    )
    page.close()
    assert wide <= room


@pytest.mark.parametrize("name", list(_PAGES))
@pytest.mark.parametrize("screen", list(_SCREENS))
def test_no_word_leaves_its_box(browser: Browser, folder: Path, name: str, screen: str) -> None:
    """Cells and boxes are never narrower than what stands in them."""
    page = _open(browser, folder, name, _SCREENS[screen], "light")
    spilled = page.evaluate(
        """() => {
            const hidden = one => one.closest('thead')
                && getComputedStyle(one.closest('thead')).clipPath !== 'none';
            return [...document.querySelectorAll('td, th, dd, li, p, h1, h2, h3')]
                .filter(one => one.scrollWidth > one.clientWidth + 1 && one.clientWidth > 1
                    && getComputedStyle(one).display !== 'inline' && !hidden(one))
                .map(one => `${one.tagName}: ${one.textContent.trim().slice(0, 60)}`);
        }"""
    )
    page.close()
    assert spilled == []


@pytest.mark.parametrize("name", list(_PAGES))
@pytest.mark.parametrize(("screen", "scheme"), [("phone", "light"), ("desktop", "dark")])
def test_axe_finds_nothing(
    browser: Browser, folder: Path, name: str, screen: str, scheme: str
) -> None:
    page = _open(browser, folder, name, _SCREENS[screen], scheme)
    wrong = violations(page)
    page.close()
    assert wrong == []


@pytest.mark.parametrize("name", list(_PAGES))
def test_what_is_tapped_is_large_enough(browser: Browser, folder: Path, name: str) -> None:
    """48 px each way, but for links within a line of text."""
    page = _open(browser, folder, name, _SCREENS["phone"], "light")
    found = small(page)
    page.close()
    assert found == []


def test_the_keyboard_reaches_the_content_first_and_shows_where_it_is(
    browser: Browser, folder: Path
) -> None:
    page = _open(browser, folder, "cook-ines", _SCREENS["desktop"], "light")
    page.keyboard.press("Tab")
    text, outline = page.evaluate(
        """() => { const one = document.activeElement;
            return [one.textContent, getComputedStyle(one).outlineWidth]; }"""
    )
    page.close()
    assert text == "Skip to the content"
    assert outline == "3px"


def test_the_wall_shows_all_cooks_at_once(browser: Browser, folder: Path) -> None:
    page = _open(browser, folder, "wall", _SCREENS["wall"], "light")
    bottom = page.locator(".chart-room.screen-only").first.bounding_box()
    size = page.evaluate(
        """() => { const chart = document.querySelector('.screen-only .chart');
            return 18 * chart.getBoundingClientRect().width / chart.viewBox.baseVal.width; }"""
    )
    page.close()
    assert bottom is not None
    assert bottom["y"] + bottom["height"] <= 1080
    assert size >= 14, "words on the wall are too small to be read from a step away"


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("name", ["kitchen", "wall", *_COOKS])
def test_sheets_print_on_few_pages(browser: Browser, folder: Path, name: str, paper: str) -> None:
    page = _open(browser, folder, name, _SCREENS["desktop"], "light")
    target = ARTEFACTS / f"{name}-{paper}.pdf"
    page.pdf(path=target, format=paper)
    page.close()
    pages = len(re.findall(rb"/Type\s*/Page\b", target.read_bytes()))
    assert 1 <= pages <= _MOST_PAGES[name.partition("-")[0]]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("name", ["long", "long-us"])
def test_a_long_shift_prints_on_three_pages(
    browser: Browser, folder: Path, name: str, paper: str
) -> None:
    assert _PAGES[name].count('class="batch') >= BATCHES
    page = _open(browser, folder, name, _SCREENS["desktop"], "light")
    target = ARTEFACTS / f"{name}-{paper}.pdf"
    page.pdf(path=target, format=paper)
    page.close()
    assert len(re.findall(rb"/Type\s*/Page\b", target.read_bytes())) <= _MOST_PAGES_OF_LONG


@pytest.mark.parametrize("name", [*_COOKS, "long-us"])
def test_paper_is_read_at_arms_length(browser: Browser, folder: Path, name: str) -> None:
    """Clock, amounts and the line's work are 12 pt or more, and nothing is below 7.5 pt."""
    page = _on_paper(browser, folder, name)
    sizes = page.evaluate(
        """() => {
            const points = one => parseFloat(getComputedStyle(one).fontSize) * 72 / 96;
            const seen = one => one.getClientRects().length > 0;
            const words = [...document.querySelectorAll('main *')]
                .filter(one => seen(one) && !one.closest('.out-of-sight, .away')
                    && [...one.childNodes].some(n => n.nodeType === 3 && n.data.trim()));
            const large = words.filter(one => one.matches('.batch .time, .amount, .what'));
            return [Math.min(...large.map(points)), Math.min(...words.map(points))];
        }"""
    )
    page.close()
    assert sizes[0] >= 12
    assert sizes[1] >= 7.5


@pytest.mark.parametrize("name", [*_COOKS, "long", "long-us"])
def test_on_paper_nothing_covers_anything_and_nothing_leaves_the_page(
    browser: Browser, folder: Path, name: str
) -> None:
    page = _on_paper(browser, folder, name)
    faults = page.evaluate(
        """() => {
            const over = (a, b) => a.left < b.right - 1 && b.left < a.right - 1
                && a.top < b.bottom - 1 && b.top < a.bottom - 1;
            const faults = [];
            for (const row of document.querySelectorAll('.batch')) {
                const faces = [...row.querySelectorAll('.face')];
                const words = [...row.querySelectorAll('.amount, .what, .bit, .label')];
                for (const face of faces) for (const one of words)
                    for (const box of one.getClientRects())
                        if (over(face.getBoundingClientRect(), box))
                            faults.push(`cut over ${one.textContent.trim()}`);
                for (const one of [...faces, ...words])
                    if (one.getBoundingClientRect().right > document.body.clientWidth + 1)
                        faults.push(`off the page: ${one.textContent.trim()}`);
                const flow = row.querySelector('.flow').getBoundingClientRect();
                for (const box of row.querySelector('.what').getClientRects())
                    if (over(flow, box)) faults.push(`title under amounts, row ${row.id}`);
            }
            return faults;
        }"""
    )
    page.close()
    assert faults == []


@pytest.mark.parametrize("name", [*_COOKS, "long"])
def test_paper_keeps_all_that_a_cook_needs(browser: Browser, folder: Path, name: str) -> None:
    """Of every batch: amounts, cut, container, label, trim, temperature, notes, times."""
    sheet = long_sheet() if name == "long" else example_sheet()
    cook = next(one for one in sheet.cooks if name.endswith(one.cook))
    page = _on_paper(browser, folder, name)
    text = {
        batch.number: page.locator(f"#batch-{batch.number}").inner_text().replace("\n", " ")
        for batch in cook.batches
    }
    page.close()
    for batch in cook.batches:
        view = batch_view(batch, Preferences())
        needed = [
            view.start.time,
            view.until,
            view.give_count or view.give,
            "" if view.brief else view.take,
            view.temperature,
            view.alone,
            view.rounds,
            view.trim,
            view.hygiene,
            view.due,
            view.late,
            *view.notes,
            *view.caution_words,
            *(one.amount for one in view.takings),
            *(part for line in view.cuts for part in (line.cut.name, line.cut.size, line.amount)),
            *(part for one in view.outputs for part in (one.name, one.amount)),
            *(
                part
                for one in view.labels
                for part in (one.component, one.use_by, one.allergens, one.containers, one.storage)
            ),
        ]
        squeezed = " ".join(text[batch.number].split())
        assert [part for part in needed if part not in squeezed] == [], batch.number


@pytest.mark.parametrize("name", _COOKS)
def test_paper_hides_what_only_screens_need(browser: Browser, folder: Path, name: str) -> None:
    page = _open(browser, folder, name, _SCREENS["desktop"], "light")
    page.emulate_media(media="print")
    shown = page.locator(".nav, .skip, .foot, .screen-only").filter(visible=True).count()
    ink = page.evaluate("getComputedStyle(document.body).color")
    page.close()
    assert shown == 0
    assert ink == "rgb(0, 0, 0)"


def test_cuts_are_drawn_at_their_true_size(browser: Browser, folder: Path) -> None:
    page = _open(browser, folder, "cook-ines", _SCREENS["desktop"], "light")
    page.emulate_media(media="print")
    sides = page.evaluate(
        "[...document.querySelectorAll('.face')].map(one => one.getBoundingClientRect().height)"
    )
    page.close()
    millimetres = [side * _MM_PER_PX for side in sides]
    # Medium dice and large dice of the onion, the example's first cuts with a set size.
    assert millimetres[:2] == pytest.approx([12.7, 19.05], abs=0.05)
