"""From covers to a ticked batch with the keyboard alone."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.morning.kitchen_server import serving

pytestmark = pytest.mark.browser

_MOST_TABS = 400
_FOCUS = """() => {
    const one = document.activeElement;
    if (!one || one === document.body) return null;
    const style = getComputedStyle(one);
    return { text: (one.textContent || one.value || one.name).trim(), name: one.name || "",
        act: one.dataset.act || "", seen: style.outlineStyle !== "none"
        // The button within a date field has its own outline, which scripts cannot ask for.
        && parseFloat(style.outlineWidth) >= 2 || one.type === "date" };
}"""


def _reach(page: Page, *, text: str = "", name: str = "", act: str = "") -> None:
    """Tab until the wanted thing has the focus; wherever the focus is, it is seen."""
    for _ in range(_MOST_TABS):
        page.keyboard.press("Tab")
        at = page.evaluate(_FOCUS)
        if at is None:
            continue
        assert at["seen"], f"nobody sees that the focus is at {at['text'][:60]!r}"
        if (
            (text and re.match(text, at["text"]))
            or (name and at["name"] == name)
            or (act and at["act"] == act)
        ):
            return
    raise AssertionError(f"Tab does not come to {text or name or act!r} on {page.url}")


def test_from_covers_to_a_ticked_batch_by_keyboard(browser: Browser, tmp_path: Path) -> None:
    with serving(tmp_path) as kitchen:
        context = browser.new_context(
            base_url=kitchen.address,
            viewport={"width": 1366, "height": 768},
            timezone_id=str(kitchen.wall.zone),
        )
        context.clock.install(time=kitchen.wall())
        page = context.new_page()
        page.goto("/")
        _reach(page, text="Sous chef: the day")
        page.keyboard.press("Enter")
        page.wait_for_url("**/days/**")
        page.goto(kitchen.day)
        covers = str(page.get_by_label("Covers", exact=True).first.get_attribute("name"))
        _reach(page, name=covers)
        page.keyboard.press("ControlOrMeta+a")
        page.keyboard.type("84")
        _reach(page, text="Save and build the plan")
        page.keyboard.press("Enter")
        page.wait_for_url("**/build")
        expect(page.locator("#progress h2")).to_have_text("The plan is ready", timeout=90_000)
        _reach(page, text="Release to the floor")
        page.keyboard.press("Enter")
        page.wait_for_url("**/release")
        _reach(page, text="Release to the floor")
        page.keyboard.press("Enter")
        expect(page.get_by_role("heading", name="Release 1", exact=True)).to_be_visible()
        kitchen.wall.set(6, 30)
        page.goto(kitchen.floor)
        page.keyboard.press("Tab")
        assert page.evaluate(_FOCUS)["text"] == "Skip to the content"
        _reach(page, text="[A-Z]")
        page.keyboard.press("Enter")
        page.wait_for_url("**/cooks/**")
        _reach(page, act="start")
        page.keyboard.press("Enter")
        expect(page.locator("[data-now-title]")).to_have_text("Now")
        page.wait_for_timeout(1_000)  # a second tap at once is taken for wet fingers
        page.keyboard.press("Shift+Tab")
        _reach(page, act="finish")
        page.keyboard.press("Enter")
        expect(page.locator("[data-done-count]")).to_have_text("1")
        expect(page.locator("[data-sending]")).to_have_text("All sent", timeout=30_000)
        context.close()
