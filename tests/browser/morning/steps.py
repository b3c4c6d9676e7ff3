"""What people do on a morning, in the words of their pages' language."""

import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.browser.morning.kitchen_server import KitchenServer
from web.language import _, speaking

PHONE = {"width": 360, "height": 740}
LAPTOP = {"width": 1366, "height": 768}
WALL = {"width": 1920, "height": 1080}
_PATIENCE = 90_000
"""Milliseconds for a plan on a machine that does other work too."""


Device = Callable[[dict[str, int]], BrowserContext]


@contextmanager
def devices(browser: Browser, kitchen: KitchenServer, locale: str = "en-US") -> Iterator[Device]:
    """Makes devices whose clocks go as the kitchen's; what fails on their pages is an error."""
    contexts: list[BrowserContext] = []
    faults: list[str] = []

    def made(viewport: dict[str, int]) -> BrowserContext:
        context = browser.new_context(
            viewport=viewport,  # type: ignore[arg-type]
            base_url=kitchen.address,
            timezone_id=str(kitchen.wall.zone),
            accept_downloads=True,
            locale=locale,
        )
        context.set_default_timeout(30_000)
        context.clock.install(time=kitchen.wall())
        context.on("weberror", lambda error: faults.append(str(error.error)))
        contexts.append(context)
        return context

    yield made
    for context in contexts:
        context.close()
    assert faults == []


def _nothing(page: Page) -> None:
    del page


@dataclass(frozen=True)
class Steps:
    """The steps that more than one morning takes; ``looked`` is told each page on the way."""

    language: str = "en"
    looked: Callable[[Page], None] = _nothing

    def say(self, text: str, **values: object) -> str:
        """A text of the program as these pages say it."""
        with speaking(self.language):
            return _(text, **values)

    def build(self, page: Page) -> None:
        """Wait for the plan that is being made."""
        page.wait_for_url("**/build")
        ready = self.say("The plan is ready")
        expect(page.locator("#progress h2")).to_have_text(ready, timeout=_PATIENCE)
        self.looked(page)

    def release(self, page: Page, number: int) -> None:
        """Give the plan to the floor."""
        page.get_by_role("link", name=self.say("Release to the floor")).click()
        self.looked(page)
        page.get_by_role("button", name=self.say("Release to the floor")).click()
        self.released(page, number)

    def released(self, page: Page, number: int) -> None:
        """The page says that it is on the floor."""
        heading = self.say("Release %(number)s", number=number)
        expect(page.get_by_role("heading", name=heading, exact=True)).to_be_visible()
        self.looked(page)

    def tap(self, page: Page, act: str) -> None:
        """Tap what a cook taps."""
        page.wait_for_timeout(950)  # a second tap at once is taken for wet fingers
        page.locator(f'[data-act="{act}"]').click()

    def sent(self, page: Page) -> None:
        """All that was tapped has reached the server."""
        words = self.say("All sent")
        expect(page.locator("[data-sending]")).to_have_text(words, timeout=30_000)

    def at_hand(self, page: Page) -> str:
        """The batch that stands large."""
        return str(page.locator(".now [data-job]").get_attribute("data-job"))

    def delivery_is_late(self, page: Page, until: str) -> None:
        """Report that the first delivery comes ``until``, on the page of what may happen."""
        self.looked(page)
        page.get_by_text(self.say("A delivery is late"), exact=True).click()
        late = page.locator("form", has=page.locator("[name=what][value=delivery_late]")).first
        late.get_by_label(re.compile(f"^{self.say('Comes at')}")).fill(until)
        late.get_by_role("button", name=re.compile(f"^{self.say('Comes then')}")).click()
        self.build(page)
