"""Plans and what-ifs side by side: the same figure once, another one with what it was."""

import datetime as dt
from dataclasses import replace

import pytest

from planner.whatif.compare import Comparison, Figures
from planner.whatif.people import BatchMove, BatchSeen, PeopleChanges
from tests.web.example import example_sheet
from web.chef.compare_view import WhatIfView, figures, plans_table, what_if_view
from web.presenters.preferences import Preferences
from web.presenters.typography import MINUS

AS_IT_IS = Figures(0, 0, 30, 600, 0, 480, 120.0)
MOVE = BatchMove("Dice Onion", "Ada", "Ben", 450, 480)


def _what_if(found: Comparison | None, state: str = "done", error: str = "") -> WhatIfView:
    return what_if_view(
        "x",
        key="1",
        state=state,
        asked="06:00",
        error=error,
        found=found,
        preferences=Preferences(),
    )


def _view(changed: Figures, people: PeopleChanges) -> dict[str, tuple[str, str]]:
    found = Comparison(dt.date(2026, 3, 2), "USD", AS_IT_IS, changed, people)
    view = _what_if(found)
    return dict(zip(figures(), view.cells, strict=True))


def test_only_what_differs_shows_both_figures() -> None:
    people = PeopleChanges(4, (MOVE,), (MOVE,), (), (), ())
    cells = _view(replace(AS_IT_IS, short_portions=12, short_kilos=2, labor=545), people)
    assert cells["Portions short"] == ("0 → 12", "par: 0 kg → 2 kg")
    assert cells["Late in all"] == ("30 min", "")
    assert cells["Work"] == ("10 h → 9 h 05", f"{MINUS}55 min")
    assert cells["Wages"] == ("120.00", "USD")
    assert cells["Batches that move"] == ("2", "4 stay")


def test_what_changes_for_people_is_told_batch_by_batch() -> None:
    seen = BatchSeen("Peel Carrot", "Ada", 500)
    stays = replace(MOVE, cook_after="Ada")
    people = PeopleChanges(0, (MOVE,), (), (stays,), (seen,), (seen,))
    found = Comparison(dt.date(2026, 3, 2), "USD", AS_IT_IS, AS_IT_IS, people)
    view = _what_if(found)
    assert view.people == (
        "Dice Onion: Ada 07:30 → Ben 08:00",
        "Dice Onion, Ada: 07:30 → 08:00",
        "Only with the change: Peel Carrot, Ada 08:20",
        "Only as it is: Peel Carrot, Ada 08:20",
    )


@pytest.mark.parametrize(
    ("state", "words", "waits", "again"),
    [
        ("queued", "waiting", True, False),
        ("running", "being planned", True, False),
        ("refused", "not possible", False, False),
        ("failed", "failed", False, True),
        ("cut_off", "cut off", False, True),
    ],
)
def test_what_is_not_there_says_how_it_stands_and_whether_to_try_again(
    state: str, words: str, waits: bool, again: bool
) -> None:
    view = _what_if(None, state)
    assert (view.state, view.waits, view.again, view.cells) == (words, waits, again, ())


def test_the_table_compares_every_plan_with_the_first() -> None:
    sheet = example_sheet()
    cook = next(one for one in sheet.cooks if one.batches)
    moved = replace(cook.batches[0], start=cook.batches[0].start + 60)
    other = replace(
        sheet,
        short_portions=7,
        cooks=tuple(
            replace(one, batches=(moved, *one.batches[1:])) if one is cook else one
            for one in sheet.cooks
        ),
    )
    table = plans_table([("This", "/a", sheet), ("Other", "/b", other)], Preferences())
    first, second = (dict(zip(table.rows, one.cells, strict=True)) for one in table.columns)
    assert first["Batches at another time"] == "\N{EN DASH}"
    assert second["Batches at another time"] == "1"
    assert second["Batches with another cook"] == "0"
    assert (first["Portions short"], second["Portions short"]) == (
        str(sheet.short_portions),
        "7",
    )
    late = [batch.late for one in sheet.cooks for batch in one.batches if batch.late]
    assert first["Batches late"] == str(len(late))
