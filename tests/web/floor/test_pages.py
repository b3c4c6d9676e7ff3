"""Live pages: well-formed, escaped, under a strict policy, and with what a cook needs."""

import json
import re
from dataclasses import replace
from typing import Any

import pytest

from planner.floor.state import Floor, floor_of
from planner.floor.ticks import Act
from planner.sheet.types import KitchenSheet
from tests.web.example import one_cook_sheet
from tests.web.floor.example import LINKS, floor_sheet, tick, with_ids, worked_until
from tests.web.markup import read_page
from web.floor.pages import render_floor_cook, render_floor_home, render_floor_wall
from web.presenters.preferences import Preferences

SHEET = floor_sheet()
NOW = 432.0
FLOOR = floor_of(worked_until(SHEET, NOW))
_ATTACK = '</script><script>alert("x")</script>'


def _pages(sheet: KitchenSheet, floor: Floor, how: Preferences | None = None) -> dict[str, str]:
    wanted = how or Preferences()
    found = {
        "home": render_floor_home(sheet, floor, LINKS, preferences=wanted),
        "wall": render_floor_wall(sheet, floor, LINKS, now=NOW, preferences=wanted),
    }
    for cook in sheet.cooks:
        found[cook.cook] = render_floor_cook(
            sheet, cook.cook, floor, LINKS, now=NOW, preferences=wanted
        )
    return found


ALL = (
    *_pages(SHEET, FLOOR).items(),
    *((f"{name}-us", html) for name, html in _pages(SHEET, FLOOR, Preferences("us", 12)).items()),
    *((f"{name}-one", html) for name, html in _pages(with_ids(one_cook_sheet()), Floor()).items()),
    ("nobody", render_floor_home(replace(SHEET, cooks=(), lanes=()), Floor(), LINKS)),
)


@pytest.mark.parametrize(("name", "html"), ALL, ids=[name for name, _html in ALL])
class TestEveryPage:
    def test_is_balanced_and_has_each_id_once(self, name: str, html: str) -> None:
        page = read_page(html)
        assert page.faults == [], name
        assert len(page.ids) == len(set(page.ids)), name

    def test_points_only_at_ids_it_has(self, name: str, html: str) -> None:
        page = read_page(html)
        named = [
            one
            for _tag, attribute, value in page.attributes
            if attribute in ("aria-labelledby", "aria-describedby")
            for one in value.split()
        ]
        assert set(named) <= set(page.ids), name

    def test_holds_under_a_strict_policy(self, name: str, html: str) -> None:
        """Scripts are files of our own or data; no inline style, no handler."""
        page = read_page(html)
        assert not [one for one in page.attributes if one[1] == "style" or one[1].startswith("on")]
        for attributes in re.findall(r"<script([^>]*)>", html):
            assert 'type="application/json"' in attributes or 'src="/static/' in attributes, name

    def test_has_one_main_heading_and_says_its_language(self, name: str, html: str) -> None:
        assert html.count("<h1") == 1, name
        assert '<html lang="en"' in html


def test_what_people_wrote_stays_text() -> None:
    cook = SHEET.cooks[0]
    batch = replace(cook.batches[0], food_name=_ATTACK, notes=(_ATTACK,))
    cook = replace(cook, name=_ATTACK, batches=(batch, *cook.batches[1:]))
    sheet = replace(SHEET, kitchen=_ATTACK, cooks=(cook, *SHEET.cooks[1:]))
    said = tick(Act.PROBLEM, batch, 400, reason=_ATTACK)
    for html in _pages(sheet, floor_of([said])).values():
        assert "<script>alert" not in html
        assert read_page(html).faults == []


def test_an_unknown_cook_is_told_who_there_is() -> None:
    with pytest.raises(LookupError, match="choose one of: ines, tomas"):
        render_floor_cook(SHEET, "nobody", FLOOR, LINKS, now=NOW)


@pytest.mark.parametrize("cook", [cook.cook for cook in SHEET.cooks])
def test_a_cook_sees_own_batches_only_each_once(cook: str) -> None:
    html = render_floor_cook(SHEET, cook, FLOOR, LINKS, now=NOW)
    own = next(one for one in SHEET.cooks if one.cook == cook)
    numbers = [str(batch.number) for batch in own.batches]
    assert sorted(re.findall(r'data-job="(\d+)"', html), key=int) == numbers
    assert sorted(re.findall(r'data-row="(\d+)"', html), key=int) == numbers


def test_the_batch_at_hand_stands_above_the_list_with_all_that_is_needed() -> None:
    """Quantity, cut, container, label, trim, caution; temperature where there is one."""
    html = render_floor_cook(SHEET, "ines", Floor(), LINKS, now=NOW)
    batch = SHEET.cooks[0].batches[0]
    above = html[html.index('class="now"') : html.index('id="next"')]
    assert f'data-job="{batch.number}"' in above
    assert above.count("data-job=") == 1
    text = read_page(f"<div>{html}</div>").text
    for needed in (
        "Trim 180 g to Vegetable trim for stock",
        "Caution: Knife; Hold cold",
        "Use by",
        "about",
    ):
        assert needed in text
    hot = render_floor_cook(SHEET, "tomas", Floor(), LINKS, now=NOW)
    assert "220 °C" in hot


def test_when_all_is_done_the_page_says_so() -> None:
    cook = SHEET.cooks[0]
    done = floor_of(tick(Act.DONE, batch, 700) for batch in cook.batches)
    html = render_floor_cook(SHEET, cook.cook, done, LINKS, now=NOW)
    assert f"{len(cook.batches)} batches, all done" in html
    assert "data-all-done hidden" not in html


def test_home_leads_to_everybody_and_to_the_wall() -> None:
    html = render_floor_home(SHEET, FLOOR, LINKS)
    for cook in SHEET.cooks:
        assert f'href="{LINKS.cook(cook.cook)}"' in html
    assert f'href="{LINKS.wall}"' in html
    assert "Release 2" in html


def _state(html: str) -> dict[str, Any]:
    found = re.search(r'<script type="application/json" id="state">(.*?)</script>', html, re.S)
    assert found is not None
    return dict(json.loads(found[1]))


def test_the_script_starts_from_the_same_tasks_release_and_version() -> None:
    cook = SHEET.cooks[1]
    state = _state(render_floor_cook(SHEET, cook.cook, FLOOR, LINKS, now=NOW))
    assert (state["release"], state["version"], state["ticks"]) == (2, 17, LINKS.ticks)
    assert [one["tasks"] for one in state["batches"]] == [
        [task.id for task in batch.tasks] for batch in cook.batches
    ]
    assert set(state["floor"]["tasks"]) <= {
        task for one in state["batches"] for task in one["tasks"]
    }


def test_every_word_the_scripts_ask_for_is_given() -> None:
    from pathlib import Path  # noqa: PLC0415

    import web  # noqa: PLC0415
    from web.floor.words import cook_words, wall_words  # noqa: PLC0415

    folder = Path(web.__file__).parent / "static" / "floor"
    asked = {
        word
        for file in folder.glob("*.js")
        for word in re.findall(r"\bwords\.(\w+)", file.read_text(encoding="utf-8"))
    }
    asked |= set(re.findall(r'named\("(\w+)"', (folder / "taps.js").read_text(encoding="utf-8")))
    assert asked - cook_words().keys() - wall_words().keys() == set()
    wall = re.findall(r"\bwords\.(\w+)", (folder / "wall.js").read_text(encoding="utf-8"))
    assert set(wall) <= wall_words().keys()
