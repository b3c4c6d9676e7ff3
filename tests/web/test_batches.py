"""One batch in words."""

from dataclasses import replace

import pytest

from planner.sheet.types import BatchOutput, SheetBatch, SheetCut
from tests.web.example import example_sheet
from web.presenters.batches import batch_view, dish_text
from web.presenters.cautions import caution_head, caution_views
from web.presenters.cook import cook_view
from web.presenters.preferences import Preferences
from web.presenters.typography import BY

METRIC = Preferences()


@pytest.fixture(scope="module")
def batches() -> dict[str, SheetBatch]:
    """Work of the example by verb and food."""
    return {
        f"{one.operation_name} {one.food_name} {one.part}": one
        for cook in example_sheet().cooks
        for one in cook.batches
    }


def test_take_and_give_follow_the_readers_units(batches: dict[str, SheetBatch]) -> None:
    peel = batches["Peel Yellow onion work"]
    view = batch_view(peel, METRIC)
    assert (view.take, view.give) == ("9.6 kg", "8.54 kg")
    assert batch_view(peel, Preferences(units="us")).take == "21 lb 3 oz"


def test_pieces_come_before_weight_where_portions_are_made(batches: dict[str, SheetBatch]) -> None:
    view = batch_view(batches["Portion Cod loin work"], METRIC)
    assert view.give_count == "61 each"
    assert view.give == "11 kg"


def test_the_lead_lists_only_what_there_is(batches: dict[str, SheetBatch]) -> None:
    mince = batches["Mince Garlic work"]
    assert batch_view(mince, METRIC).lead == (
        "change over 2, wash hands 1, clean and sanitise 5, set up 1 min; food from 09:56"
    )
    bare = replace(mince, set_up=0, changeover=0, hand_wash=0, clean=0)
    assert batch_view(bare, METRIC).lead == ""


def test_unattended_work_says_when_it_is_done_even_next_day(batches: dict[str, SheetBatch]) -> None:
    view = batch_view(batches["Soak White beans work"], METRIC)
    assert view.alone == "Then 12 h by itself, all done 01:41 next day"


def test_lots_that_go_in_one_after_the_other_have_their_times(
    batches: dict[str, SheetBatch],
) -> None:
    view = batch_view(batches["Roast Veal bones work"], METRIC)
    assert view.rounds == "In 3 lots: 06:14 (6 kg), 06:18 (6 kg), 06:22 (6 kg)"


def test_a_take_out_is_brief_and_named(batches: dict[str, SheetBatch]) -> None:
    view = batch_view(batches["Simmer Onion soup base finish"], METRIC)
    assert view.brief
    assert view.title == "Take out: Simmer"
    assert [label.containers for label in view.labels] == [f"2{BY}bain-marie insert"]


def test_late_work_says_by_how_much(batches: dict[str, SheetBatch]) -> None:
    assert batch_view(batches["Simmer Onion soup base work"], METRIC).late == "Late by 7 min"
    assert batch_view(batches["Peel Carrots work"], METRIC).late == ""


def test_two_cuts_of_one_batch_have_an_amount_each(batches: dict[str, SheetBatch]) -> None:
    view = batch_view(batches["Dice Yellow onion work"], METRIC)
    assert [(line.amount, line.cut.name) for line in view.cuts] == [
        ("1.81 kg", "Medium dice"),
        ("1.1 kg", "Large dice"),
    ]


def test_outputs_of_one_name_are_told_apart_by_their_cut(batches: dict[str, SheetBatch]) -> None:
    dice = batches["Dice Yellow onion work"]
    large = SheetCut("Large dice", (0.75,), "")
    small = SheetCut("Small dice", (0.25,), "")
    outputs = tuple(
        BatchOutput("onion", "Onion", 500, None, None, cut, None) for cut in (large, small)
    )
    view = batch_view(replace(dice, outputs=outputs), METRIC)
    assert [output.name for output in view.outputs] == ["Onion, large dice", "Onion, small dice"]


def test_a_dish_is_named_once_with_all_its_services() -> None:
    dishes = ("Soup (thick) (Lunch)", "Soup (thick) (Dinner)", "Tart")
    assert dish_text(dishes) == "Soup (thick) (Lunch, Dinner); Tart"


def test_a_caution_stands_once_on_the_sheet_and_its_head_beside_each_batch() -> None:
    cook = example_sheet().cooks[0]
    views = caution_views(cook.batches)
    heads = [view.head for view in views]
    assert heads.count("Knife") == 1
    knife = next(view for view in views if view.head == "Knife")
    with_knife = [
        one.number for one in cook.batches if any(t.startswith("Knife") for t in one.cautions)
    ]
    assert knife.batches == f"batches {', '.join(str(number) for number in with_knife)}"
    # Nothing of the wording is lost.
    for text in {t for one in cook.batches for t in one.cautions if not t.startswith("Allergens")}:
        assert any(view.head + view.rest in (text, text.rstrip(".") + ".") for view in views), text


def test_the_head_of_a_caution_ends_at_its_first_stop() -> None:
    assert caution_head("Knife: fingertips curled behind the knuckles") == "Knife"
    assert caution_head("Wash hands.") == "Wash hands"


def test_the_day_runs_in_order_with_breaks_between_the_batches() -> None:
    sheet = example_sheet()
    view = cook_view(sheet, sheet.cooks[0], METRIC)
    starts = [
        str(line.batch.start if line.batch else line.away.start if line.away else "")
        for line in view.day
    ]
    assert starts == sorted(starts)
    assert [line.away.kind for line in view.day if line.away] == [
        "Station set-up",
        "Break",
        "On the line",
    ]
