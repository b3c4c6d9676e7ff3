"""What is printed from the pages: paper sizes, page counts, the code read back, labels in place."""

import io
import threading
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
import uvicorn
import zxingcpp
from PIL import Image
from playwright.sync_api import Browser, Page
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

import web
from service.api.headers import SECURITY_HEADERS
from tests.browser.looks import ARTEFACTS, sideways, violations
from tests.web.example import example_sheet
from tests.web.example.traces import TRACES
from tests.web.printing.reading import open_pdf, sizes_of, text_of
from web.links import Links
from web.pages import render_cook, render_kitchen, render_wall, render_whys
from web.presenters.labels import label_kinds, printed_labels
from web.presenters.preferences import Preferences
from web.printing.files import sheets_pdf
from web.printing.pages import Wanted, render_labels, render_print, render_pull_list
from web.printing.paper import A4
from web.printing.stock import A4_3X8, STOCKS, LabelSheet

pytestmark = pytest.mark.browser

_METRIC = Preferences()
_LINKS = replace(Links.under("/plans/7"), explained=frozenset(TRACES))
_LIVE = "https://192.0.2.20:8443/floor/copper-ladle/2027-03-09/cooks/ines"
_SHEET = example_sheet()
_KINDS = label_kinds(_SHEET, _METRIC)
_LABELS = printed_labels(_KINDS, {})
_PAPER = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
_MOST_PAGES = {"kitchen": 7, "cook": 2, "wall": 2, "pull-list": 1, "why": 4}
_SIDEWAYS = ("wall",)
_STOCKS = list(STOCKS)


def _page(name: str) -> str:
    kind, _, which = name.partition("-")
    if kind == "labels":
        return render_labels(
            _SHEET, _LINKS, kinds=_KINDS, labels=_LABELS, wanted=Wanted(STOCKS[which])
        )
    pages = {
        "kitchen": lambda: render_kitchen(_SHEET, _LINKS),
        "cook": lambda: render_cook(_SHEET, "ines", _LINKS, live=_LIVE),
        "wall": lambda: render_wall(_SHEET, _LINKS),
        "pull-list": lambda: render_pull_list(_SHEET, _LINKS, _METRIC),
        "why": lambda: render_whys(_SHEET, TRACES, _LINKS),
        "print": lambda: render_print(_SHEET, _LINKS, live=True),
    }
    return pages[name]()


@pytest.fixture(scope="module")
def address() -> Iterator[str]:
    """The pages with their style sheets and font, under the policy that the server sends."""

    def answer(request: Request) -> Response:
        return HTMLResponse(_page(request.path_params["name"]), headers=SECURITY_HEADERS)

    static = StaticFiles(directory=Path(web.__file__).parent / "static")
    app = Starlette(routes=[Route("/page/{name}", answer), Mount("/static", static)])
    server = uvicorn.Server(uvicorn.Config(app, port=0, log_level="warning"))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.05)
    ARTEFACTS.mkdir(exist_ok=True)
    yield f"http://127.0.0.1:{server.servers[0].sockets[0].getsockname()[1]}"
    server.should_exit = True
    thread.join()


def _open(browser: Browser, address: str, name: str, width: int = 1280) -> Page:
    page = browser.new_page(viewport={"width": width, "height": 900})
    page.goto(f"{address}/page/{name}")
    _load_font(page)
    return page


def _load_font(page: Page) -> int:
    """How many faces of the labels' font are there; a change of medium drops them for a while."""
    return int(
        page.evaluate(
            """Promise.all(['12px Printed', 'bold 12px Printed'].map(
                one => document.fonts.load(one))).then(found => found.flat().length)"""
        )
    )


def _printed(browser: Browser, address: str, name: str, paper: str) -> bytes:
    page = _open(browser, address, name)
    made = page.pdf(
        path=ARTEFACTS / f"print-{name}-{paper}.pdf",
        format=paper,
        prefer_css_page_size=name.startswith("labels"),
    )
    page.close()
    return made


@pytest.mark.parametrize("paper", list(_PAPER))
@pytest.mark.parametrize("name", list(_MOST_PAGES))
def test_every_page_prints_on_few_pages_of_the_paper_and_none_is_blank(
    browser: Browser, address: str, name: str, paper: str
) -> None:
    made = _printed(browser, address, name, paper)
    sizes = sizes_of(made)
    assert 1 <= len(sizes) <= _MOST_PAGES[name]
    for size in sizes:
        across, down = sorted(size)
        assert (across, down) == pytest.approx(sorted(_PAPER[paper]), abs=1)
    if name in _SIDEWAYS:
        assert all(across > down for across, down in sizes)
    for page in open_pdf(made).pages:
        assert len(page.extract_text()) > 150, "a page with next to nothing on it"


@pytest.mark.parametrize("stock", _STOCKS)
@pytest.mark.parametrize("paper", list(_PAPER))
def test_labels_print_on_their_own_paper_whatever_the_printer_holds(
    browser: Browser, address: str, stock: str, paper: str
) -> None:
    made = _printed(browser, address, f"labels-{stock}", paper)
    sizes = sizes_of(made)
    found = STOCKS[stock]
    if isinstance(found, LabelSheet):
        assert len(sizes) == -(-len(_LABELS) // found.count)
        for size in sizes:
            assert size == pytest.approx((found.page_width, found.page_height), abs=0.5)
    else:
        assert len(sizes) == len(_LABELS)
        for width, height in sizes:
            assert width == pytest.approx(62, abs=0.5)
            assert 29.5 <= height <= 200
    said = text_of(made)
    for label in _LABELS:
        assert label.kind.food.split()[0] in said


@pytest.mark.parametrize("stock", _STOCKS)
def test_words_on_a_label_take_the_room_that_was_measured(
    browser: Browser, address: str, stock: str
) -> None:
    """Set by the browser, no word reaches further than its label's words may."""
    page = _open(browser, address, f"labels-{stock}")
    page.emulate_media(media="print")
    assert _load_font(page) == 2, "the words stand in the font they were measured in"
    ends = page.evaluate(
        """() => [...document.querySelectorAll('.printed')].flatMap(svg =>
            [...svg.querySelectorAll('text')].map(one => {
                const box = one.getBBox();
                return [box.x, box.x + box.width, box.y + box.height, one.textContent];
            }))"""
    )
    page.close()
    found = STOCKS[stock]
    for left, right, bottom, text in ends:
        if isinstance(found, LabelSheet):
            column = int((left - found.left + 0.01) // (found.width + found.gap))
            x, _y = found.corner(column)
            assert right <= x + found.width - found.inset_x + 0.3, text
            assert bottom <= found.page_height
        else:
            assert right <= 62 - found.inset + 0.3, text


def test_the_code_on_a_cooks_page_is_large_enough_and_reads_as_the_live_page(
    browser: Browser, address: str
) -> None:
    page = browser.new_page(viewport={"width": 755, "height": 1000}, device_scale_factor=3)
    page.goto(f"{address}/page/cook")
    code = page.locator(".live-code .qr")
    assert not code.is_visible(), "a screen has no need of it"
    page.emulate_media(media="print")
    box = code.bounding_box()
    picture = page.screenshot(path=ARTEFACTS / "print-code.png")
    page.close()
    assert box is not None
    side = box["width"] * 25.4 / 96
    assert side >= 27.5
    (read,) = zxingcpp.read_barcodes(Image.open(io.BytesIO(picture)))
    assert read.text == _LIVE
    # The symbol by itself, without its quiet zone.
    corners = read.position
    pixel = 25.4 / 96 / 3
    assert (corners.top_right.x - corners.top_left.x) * pixel >= 20


def test_the_code_in_the_pdf_reads_as_the_live_page(browser: Browser) -> None:
    """Drawn by the browser's own reader of PDFs is not to be had headless, so its modules are."""
    del browser
    content = sheets_pdf(_SHEET, _METRIC, A4, cook="ines", live=lambda _cook: _LIVE)
    assert _LIVE in text_of(content)
    from web.printing.codes import code  # noqa: PLC0415

    drawn = code(_LIVE, 0, 0)
    side = len(drawn.rows)
    picture = Image.new("L", (side, side), 255)
    picture.putdata([0 if dark else 255 for row in drawn.rows for dark in row])
    (read,) = zxingcpp.read_barcodes(picture.resize((side * 6, side * 6), Image.Resampling.NEAREST))
    assert read.text == _LIVE


@pytest.mark.parametrize("name", ["print", "pull-list", f"labels-{A4_3X8.id}", "labels-roll-62"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1280])
def test_pages_to_print_from_hold_on_screens_too(
    browser: Browser, address: str, name: str, scheme: str, width: int
) -> None:
    page = _open(browser, address, name, width)
    page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
    page.screenshot(path=ARTEFACTS / f"print-{name}-{width}-{scheme}.png", full_page=True)
    wider = sideways(page)
    small = page.evaluate(
        """() => [...document.querySelectorAll('main a, main button, main input, main select')]
            .filter(one => !one.closest('.tick'))
            .filter(one => one.checkVisibility() && getComputedStyle(one).display !== 'inline')
            .map(one => [one.textContent.trim().slice(0, 30), one.getBoundingClientRect()])
            .filter(([, box]) => box.height < 48).map(([text]) => text)"""
    )
    wrong = violations(page)
    page.close()
    assert wider <= 0
    assert small == []
    assert wrong == []
