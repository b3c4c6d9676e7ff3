"""Pages: well-formed, escaped, complete, and free of what a strict policy forbids."""

import re
from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace
from typing import Any

import pytest

from planner.sheet.types import KitchenSheet
from tests.web.example import example_sheet, one_cook_sheet
from tests.web.markup import read_page
from web.links import Choice, Links
from web.pages import (
    PlanEntry,
    Preferences,
    render_cook,
    render_index,
    render_kitchen,
    render_problem,
    render_wall,
)
from web.presenters.clock import clock

_ATTACK = '<script>alert("x")</script>'
_LINKS = Links.under("/plans/7")


def _pages(
    sheet: KitchenSheet, links: Links, inline: bool = False, preferences: Preferences | None = None
) -> dict[str, str]:
    wanted = preferences or Preferences()
    found = {
        "kitchen": render_kitchen(sheet, links, inline, wanted),
        "wall": render_wall(sheet, links, inline, wanted),
    }
    for cook in sheet.cooks:
        found[cook.cook] = render_cook(sheet, cook.cook, links, inline, wanted)
    return found


def _other_pages() -> dict[str, str]:
    plan = PlanEntry("Kitchen", example_sheet().date, "/plans/7", "ready", "58 batches")
    waiting = replace(plan, href=None, state="being planned", summary="")
    return {
        "index": render_index([plan, waiting]),
        "empty": render_index([], start="Run the demo."),
        "problem": render_problem(404, "No such plan", "Plan 9 is not here.", "Choose another."),
    }


ALL_PAGES = (
    *_pages(example_sheet(), _LINKS).items(),
    *_pages(one_cook_sheet(), Links.files(), inline=True).items(),
    *_other_pages().items(),
)


@pytest.mark.parametrize(("name", "html"), ALL_PAGES, ids=[name for name, _html in ALL_PAGES])
class TestEveryPage:
    def test_is_balanced(self, name: str, html: str) -> None:
        assert read_page(html).faults == [], name

    def test_has_each_id_once(self, name: str, html: str) -> None:
        ids = read_page(html).ids
        assert len(ids) == len(set(ids)), name

    def test_points_only_at_ids_it_has(self, name: str, html: str) -> None:
        page = read_page(html)
        named = [
            one
            for _tag, attribute, value in page.attributes
            if attribute == "aria-labelledby"
            for one in value.split()
        ]
        assert set(named) <= set(page.ids), name

    def test_holds_under_a_strict_policy(self, name: str, html: str) -> None:
        """No script, no inline style attribute, no handler: default-src 'self' blocks them."""
        page = read_page(html)
        assert "<script" not in html, name
        assert not [one for one in page.attributes if one[1] == "style" or one[1].startswith("on")]

    def test_has_one_main_heading_and_says_its_language(self, name: str, html: str) -> None:
        assert html.count("<h1") == 1, name
        assert '<html lang="en">' in html

    def test_has_no_row_shorter_or_longer_than_its_table(self, name: str, html: str) -> None:
        """A cell too many or too few is what gets clipped or misread."""
        rows = read_page(html).rows
        assert all(columns == expected for columns, expected in rows), name


def test_a_page_for_a_file_carries_its_style_and_asks_for_nothing() -> None:
    for html in _pages(example_sheet(), Links.files(), inline=True).values():
        page = read_page(html)
        assert "<style>" in html
        assert not [one for one in page.attributes if one[0] == "link"]
        targets = [value for _tag, name, value in page.attributes if name in ("href", "src")]
        assert all(target.startswith("#") or "/" not in target for target in targets)


def test_a_page_on_a_server_links_its_style() -> None:
    html = render_kitchen(example_sheet(), _LINKS)
    assert re.findall('<link rel="stylesheet" href="([^"]+)">', html) == [
        "/static/screen.css",
        "/static/paper.css",
    ]
    assert "<style" not in html


def _attacked(value: Any) -> Any:
    """``value`` with every text in it replaced by a script element, but for closed words."""
    if is_dataclass(value) and not isinstance(value, type):
        closed = {"kind", "part", "cook", "term", "operation", "currency"}
        changes = {
            field.name: _attacked(getattr(value, field.name))
            for field in fields(value)
            if field.name not in closed
        }
        return replace(value, **changes)
    if isinstance(value, tuple):
        return tuple(_attacked(one) for one in value)
    return _ATTACK if isinstance(value, str) and value else value


@pytest.mark.parametrize("inline", [False, True])
def test_whatever_people_write_is_shown_and_never_run(inline: bool) -> None:
    sheet = _attacked(example_sheet())
    links = replace(_LINKS, more=(Choice(_ATTACK, "/x?a=1&b=2", current=True),))
    for name, html in _pages(sheet, links, inline).items():
        assert "<script" not in html.lower(), name
        assert "&lt;script&gt;" in html, name
        assert read_page(html).faults == [], name


def test_lists_and_errors_are_escaped_too() -> None:
    entry = PlanEntry(_ATTACK, example_sheet().date, '/p"><script>', _ATTACK, _ATTACK)
    for html in (
        render_index([entry], start=_ATTACK),
        render_problem(400, _ATTACK, _ATTACK, _ATTACK),
    ):
        assert "<script" not in html
        assert read_page(html).faults == []


@pytest.mark.parametrize("preferences", [Preferences(), Preferences("us", 12)])
def test_every_batch_is_on_its_cooks_sheet_and_on_the_kitchens(preferences: Preferences) -> None:
    sheet = example_sheet()
    pages = _pages(sheet, _LINKS, preferences=preferences)
    kitchen = read_page(pages["kitchen"]).text
    for cook in sheet.cooks:
        text = read_page(pages[cook.cook]).text
        for batch in cook.batches:
            time = str(clock(batch.start, preferences))
            assert f"{time} to " in text, (cook.name, batch.number)
            assert f"{batch.number} {time} to " in kitchen, batch.number
            assert batch.food_name in text
            assert f"Done: batch {batch.number} " in text


def test_a_cooks_sheet_says_what_has_to_be_known() -> None:
    text = read_page(render_cook(example_sheet(), "ines", _LINKS)).text
    for part in (
        "Ines Marlo",
        "Tuesday 9 March 2027",
        "Board on a damp towel",
        "79 each",
        "Medium dice 1/2 in (13 mm)",
        "190 g to Vegetable trim for stock",
        "Use by Thu 11 Mar",
        "Allergens celery",
        "ready by 14:00",
        "fingertips curled behind the knuckles",
        "local food code",
    ):
        assert part in text, part


def test_a_dice_is_drawn_in_millimetres() -> None:
    html = render_cook(example_sheet(), "ines", _LINKS)
    assert '<svg class="face" width="12.70mm" height="12.70mm"' in html
    assert '<svg class="face" width="19.05mm" height="19.05mm"' in html


def test_a_drawn_cut_says_that_it_is_no_box_to_tick() -> None:
    html = render_cook(example_sheet(), "ines", _LINKS)
    drawn = html.count('<div class="faces')
    assert drawn
    assert html.count('<span class="print-only">actual size</span>') == drawn


def test_overtime_is_named_on_the_cooks_sheet_and_the_kitchen_page() -> None:
    sheet = example_sheet()
    cook = sheet.cooks[0]
    finish = cook.finish
    assert finish is not None
    long = replace(sheet, cooks=(replace(cook, shift_end=finish - 37), *sheet.cooks[1:]))
    assert "Overtime37 min" in read_page(render_cook(long, cook.cook, _LINKS)).text
    assert "overtime 37 min" in read_page(render_kitchen(long, _LINKS)).text
    on_time = replace(sheet, cooks=(replace(cook, shift_end=finish),))
    assert "Overtime" not in read_page(render_cook(on_time, cook.cook, _LINKS)).text


def test_later_days_are_lists_by_day() -> None:
    sheet = replace(example_sheet(), ahead=("Thu 26 Nov: Croutons; Dill, picked.",))
    text = read_page(render_kitchen(sheet, _LINKS)).text
    assert "Thu 26 Nov, 2 components to start Croutons Dill, picked" in text


def test_the_kitchen_page_says_what_the_morning_is_about() -> None:
    text = read_page(render_kitchen(example_sheet(), _LINKS)).text
    for part in (
        "Short or late",
        "What would help",
        "Know before you start",
        "For later days",
        "90 covers, on the line 11:00, doors 11:30",
        "31.5 → 32 +5 37",
        "Batching saves 4 h 14",
        "How sure the plan is",
        "All cooks",
    ):
        assert part in text, part


def test_a_kitchen_without_trouble_shows_no_empty_boxes() -> None:
    text = read_page(render_kitchen(one_cook_sheet(), _LINKS)).text
    for heading in ("Short or late", "What would help", "Services", "Pull list", "Labor minutes"):
        assert heading not in text


def test_links_lead_where_they_are_told() -> None:
    html = render_kitchen(example_sheet(), Links.under("/plans/7"))
    assert 'href="/plans/7/cooks/ines"' in html
    assert 'href="/plans/7/wall"' in html
    assert 'href="cook-ines.html"' in render_wall(example_sheet(), Links.files())


def test_the_empty_list_says_what_to_do() -> None:
    text = read_page(render_index([], start="Run the demo.")).text
    assert "No plan yet" in text
    assert "Run the demo." in text


def test_an_unknown_cook_is_an_error_that_names_the_known_ones() -> None:
    with pytest.raises(LookupError, match="choose one of: ines, tomas"):
        render_cook(example_sheet(), "nobody", _LINKS)


@pytest.mark.parametrize("render", [render_kitchen, render_wall])
def test_rendering_twice_gives_the_same_page(render: Callable[..., str]) -> None:
    assert render(example_sheet(), _LINKS) == render(example_sheet(), _LINKS)
