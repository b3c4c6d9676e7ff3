"""Sheets and live pages in Spanish: no text of the program is left in English."""

import dataclasses
import re
from html.parser import HTMLParser

import pytest

from planner.floor.state import floor_of
from planner.floor.ticks import Act
from planner.sheet.batch_types import SheetBatch, SheetCut
from planner.sheet.types import KitchenSheet
from tests.web.example.traces import TRACES
from tests.web.floor.example import batch_of, floor_sheet, tick, worked_until
from web.floor.happened import Thing, Things, render_happened
from web.floor.links import FloorLinks
from web.floor.pages import render_floor_cook, render_floor_home, render_floor_wall
from web.language import speaking
from web.links import Links
from web.pages import render_cook, render_kitchen, render_wall, render_whys

SHEET = floor_sheet()
NOW = 12 * 60.0
_LIVE = FloorLinks(base="/floor/k/2027-03-09", ticks="/ticks", release=2, version=17)
_SAME = {
    *("Plan", "Total", "No.", "Brunoise", "Chiffonade", "Español", "English"),
    *("min", "kg", "g", "C", "F", "in", "mm", "FDA Food Code"),
}
"""Words that are the same in both languages, and signs."""
_SHOWN = ("aria-label", "title", "data-head", "placeholder", "alt")
_CUT_SHORT = re.compile(r"\S*…")
_WORD = re.compile(r"[^\W\d_]{2,}")


class _Texts(HTMLParser):
    """Every text that is seen or read aloud."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.found: list[str] = []
        self._silent = 0
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._silent += tag in ("style", "script")
        self.found += [value for name, value in attrs if name in _SHOWN and value]

    def handle_endtag(self, tag: str) -> None:
        self._silent -= tag in ("style", "script")

    def handle_data(self, data: str) -> None:
        if not self._silent and data.strip():
            self.found.append(" ".join(data.split()))


def _pages() -> dict[str, str]:
    floor = floor_of(
        [
            *worked_until(SHEET, NOW),
            tick(Act.PROBLEM, batch_of(SHEET, 3), NOW - 5, reason="Too little food"),
        ]
    )
    links = dataclasses.replace(Links.under("/plans/1"), explained=frozenset(TRACES))
    thing = Thing("x", SHEET.cooks[0].name)
    things = Things(*((thing,),) * 4, (), ())
    return {
        "kitchen": render_kitchen(SHEET, links),
        "wall": render_wall(SHEET, links),
        "why": render_whys(SHEET, TRACES, links),
        "home": render_floor_home(SHEET, floor, _LIVE),
        "live wall": render_floor_wall(SHEET, floor, _LIVE, now=NOW),
        "happened": render_happened(SHEET, things, _LIVE),
        **{f"sheet of {one.cook}": render_cook(SHEET, one.cook, links) for one in SHEET.cooks},
        **{
            f"live page of {one.cook}": render_floor_cook(SHEET, one.cook, floor, _LIVE, now=NOW)
            for one in SHEET.cooks
        },
    }


def _kitchens_own(sheet: KitchenSheet) -> str:
    """Everything that people wrote: names and instructions, which nobody translates."""
    found = [sheet.kitchen, sheet.currency]
    for service in sheet.services:
        found += [service.name, *(dish[0] for dish in service.dishes)]
    for lane in sheet.lanes:
        found += [lane.title, *(block.text for block in lane.blocks if block.batch)]
    for cook in sheet.cooks:
        found += [cook.name, cook.initials]
        for batch in cook.batches:
            found += [batch.operation_name, batch.food_name, batch.station, batch.place]
            found += [batch.guidance, *batch.equipment, *batch.dishes, *batch.notes]
            found += [taking.name for taking in batch.takings]
            found += [output.name for output in batch.outputs]
            found += [one.to or "" for one in batch.trimmings]
            labels = [batch.label, *(output.label for output in batch.outputs)]
            found += [f"{label.component} {label.container}" for label in labels if label]
            found += [str(batch.piece_out), *(str(taking.piece) for taking in batch.takings)]
            found += [str(output.piece) for output in batch.outputs]
    for pull in (*sheet.pulls, *(pull for cook in sheet.cooks for pull in cook.pulls)):
        found += [pull.name, pull.unit, pull.pack, pull.storage, pull.note]
    for item in (*sheet.straight, *sheet.left_out):
        found += [item.name, str(item.piece)]
    found += [one.dish for one in sheet.straight]
    found += [use for one in sheet.left_out for use in one.wanted_for]
    found += sheet.ahead
    return "\n".join(found).lower()


def _told(sheet: KitchenSheet) -> str:
    """Sentences that the example has in place of the planner's; saying those has its own tests."""
    found = [*sheet.alerts, *sheet.troubles, *sheet.remedies]
    found += [objective.relaxation for objective in sheet.objective]
    for cook in sheet.cooks:
        found += cook.set_up
        for batch in cook.batches:
            found += [*batch.cautions, *batch.allergens]
            found += [cut.note for cut in _cuts(batch)]
    return " ".join(" ".join(found).split()).lower()


def _cuts(batch: SheetBatch) -> list[SheetCut]:
    cuts = [batch.cut, *(output.cut for output in batch.outputs)]
    return [cut for cut in cuts if cut is not None]


OWN = _kitchens_own(SHEET)
TOLD = _told(SHEET)
_TRACED = {word for trace in TRACES.values() for word in _WORD.findall(str(trace))}


def _left(name: str, english: str, spanish: str) -> list[str]:
    """Texts that stand on both pages and hold a word that is no kitchen's own."""
    same = set(_Texts(english).found) & set(_Texts(spanish).found)
    own = set(_WORD.findall(OWN)) | {word for text in _SAME for word in _WORD.findall(text.lower())}
    if name == "why":
        own |= {word.lower() for word in _TRACED}
    return sorted(
        text
        for text in same
        if not all(part.strip(": .") in TOLD for part in text.lower().split("; "))
        and set(_WORD.findall(_CUT_SHORT.sub("", text.lower()))) - own
    )


@pytest.fixture(scope="module")
def pages() -> dict[str, tuple[str, str]]:
    english = _pages()
    with speaking("es"):
        return {name: (english[name], html) for name, html in _pages().items()}


def test_nothing_but_the_kitchens_own_words_is_the_same_in_both(
    pages: dict[str, tuple[str, str]],
) -> None:
    left = {name: found for name, both in pages.items() if (found := _left(name, *both))}
    assert left == {}


def test_a_page_says_which_language_it_is_in(pages: dict[str, tuple[str, str]]) -> None:
    for english, spanish in pages.values():
        assert '<html lang="en"' in english
        assert '<html lang="es"' in spanish


def test_a_reason_is_kept_in_one_language_and_read_in_another() -> None:
    with speaking("es"):
        html = _pages()[f"live page of {SHEET.cooks[0].cook}"]
    assert 'data-reason="Too little food">Falta alimento<' in html
