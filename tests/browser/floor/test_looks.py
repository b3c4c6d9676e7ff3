"""How the live pages look: names, room, targets, text of any size, weight.

Pictures are left in ``tests/artefacts`` to be looked at.
"""

import gzip
from pathlib import Path

import pytest

from tests.browser.floor.floor_server import FloorServer
from tests.browser.floor.hands import INES, SCREENS, Open
from tests.browser.looks import ARTEFACTS, enlarged, sideways, small, violations

pytestmark = pytest.mark.browser

_MOST_BYTES = 60_000
"""Compressed, of a cook's page with all it loads."""


_WHERE = {"home": "", "ines": "/cooks/ines", "tomas": "/cooks/tomas", "wall": "/wall"}


@pytest.mark.parametrize("name", list(_WHERE))
@pytest.mark.parametrize(
    ("screen", "scheme"),
    [("phone", "light"), ("phone", "dark"), ("tablet", "light"), ("wall", "dark")],
)
def test_axe_finds_nothing_and_nothing_scrolls_sideways(
    phone: Open, name: str, screen: str, scheme: str
) -> None:
    page = phone(_WHERE[name], viewport=SCREENS[screen], color_scheme=scheme)
    page.wait_for_timeout(300)
    full = screen != "wall"
    page.screenshot(path=ARTEFACTS / f"floor-{name}-{screen}-{scheme}.png", full_page=full)
    if name == "ines":
        page.locator(f'[data-row="{INES.batches[-1].number}"] > details > summary').click()
    assert violations(page) == []
    assert sideways(page) == 0


@pytest.mark.parametrize("dialog", ["problem", "weigh", "scale"])
def test_axe_finds_nothing_in_the_dialogs(phone: Open, dialog: str) -> None:
    page = phone("/cooks/ines")
    page.evaluate(
        """name => { if (name === 'weigh') document.querySelector('.now [data-weigh-open]').click();
            else document.querySelector(`[data-dialog=${name}]`).showModal(); }""",
        dialog,
    )
    assert violations(page) == []
    assert small(page) == []


@pytest.mark.parametrize("name", ["home", "ines", "tomas"])
def test_what_is_tapped_is_large_enough(phone: Open, name: str) -> None:
    page = phone(_WHERE[name])
    assert small(page) == []


def test_words_twice_as_large_leave_room_for_the_work(server: FloorServer, tmp_path: Path) -> None:
    where = server.address + server.base + "/cooks/ines"
    found = enlarged({"floor-ines": where}, tmp_path)["floor-ines"]
    assert found.size == 32
    assert found.sideways <= 0
    assert found.thumb_top is not None
    assert found.thumb_top >= 740 * 0.6, "the buttons cover what is to be read"


def test_the_wall_is_read_from_three_metres(phone: Open) -> None:
    """Lists and chart fit a screen of 1080 lines; their words are 27 px or larger."""
    page = phone("/wall", viewport=SCREENS["wall"])
    assert page.evaluate("document.documentElement.scrollHeight") <= 1080
    bottom, size = page.evaluate(
        """() => { const chart = document.querySelector('.chart');
            const box = chart.getBoundingClientRect();
            const scale = Math.min(box.width / chart.viewBox.baseVal.width,
                box.height / chart.viewBox.baseVal.height);
            return [box.bottom, 18 * scale]; }"""
    )
    assert bottom <= 1080
    assert size >= 24
    words = page.evaluate(
        """() => Math.min(...[...document.querySelectorAll('.panel li')]
            .map(one => parseFloat(getComputedStyle(one).fontSize)))"""
    )
    assert words >= 30


def test_a_first_visit_weighs_little(server: FloorServer, phone: Open) -> None:
    """Each file compressed by gzip at its usual level, once."""
    sizes: dict[str, int] = {}
    page = phone("")
    page.on(
        "response",
        lambda found: (
            sizes.setdefault(found.url, len(gzip.compress(found.body())))
            if found.url.startswith(server.address) and "/stream" not in found.url
            else None
        ),
    )
    page.goto(f"{server.address}{server.base}/cooks/ines")
    page.wait_for_timeout(1500)
    print(f"{sum(sizes.values())} bytes in {len(sizes)} files")  # noqa: T201
    assert sum(sizes.values()) <= _MOST_BYTES, sizes
