"""One batch in words."""

from dataclasses import replace

import pytest

from planner.sheet.batch_types import BatchOutput, SheetBatch, SheetCut, Trimming
from planner.sheet.cautions import COLD, KNIFE, TEMPERATURE
from tests.web.example import example_sheet
from web.presenters.batches import batch_view
from web.presenters.cautions import caution_head, caution_views
from web.presenters.cook import cook_view
from web.presenters.outputs import every_label
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


def test_lots_that_lie_apart_or_fill_a_machine_have_their_times_and_due_times(
    batches: dict[str, SheetBatch],
) -> None:
    roast = batches["Roast Veal bones work"]
    tasks = tuple(
        replace(task, due=due) for task, due in zip(roast.tasks[:2], (660, 1020), strict=True)
    )
    first, second = tasks
    apart = (first, replace(second, start=840, end=844))
    bare = replace(roast, unattended=0, equipment=(), tasks=apart)
    assert batch_view(bare, METRIC).rounds == (
        "In 2 lots: 06:14 (6 kg, ready by 11:00), 14:00 (6 kg, ready by 17:00)"
    )
    touching = (first, replace(second, start=first.end, due=first.due))
    assert batch_view(replace(bare, tasks=touching), METRIC).rounds == ""
    blended = replace(bare, tasks=touching, equipment=("Blender",))
    assert batch_view(blended, METRIC).rounds.startswith("In 2 lots: 06:14 (6 kg), ")


def test_work_after_a_break_says_that_it_goes_on(batches: dict[str, SheetBatch]) -> None:
    mince = replace(batches["Mince Garlic work"], goes_on=True)
    assert batch_view(mince, METRIC).title == "Go on: Mince"


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


def test_on_paper_the_lead_is_two_times_and_what_hygiene_asks(
    batches: dict[str, SheetBatch],
) -> None:
    view = batch_view(batches["Mince Garlic work"], METRIC)
    assert (view.hygiene, view.food_from) == ("wash hands, clean and sanitise", "09:56")
    bare = replace(batches["Mince Garlic work"], hand_wash=0, clean=0)
    assert batch_view(bare, METRIC).hygiene == ""
    assert batch_view(batches["Simmer Onion soup base finish"], METRIC).food_from == ""


def test_on_paper_a_batch_does_not_repeat_what_its_figures_say(
    batches: dict[str, SheetBatch],
) -> None:
    roast = replace(batches["Roast Veal bones work"], cautions=(TEMPERATURE, COLD, KNIFE))
    assert batch_view(roast, METRIC).cautions == ("Temperature", "Hold cold", "Knife")
    # No container yet, so holding it cold is said in words.
    assert batch_view(roast, METRIC).caution_words == ("Hold cold", "Knife")
    assert batch_view(replace(roast, temperature_c=None), METRIC).caution_words == (
        "Temperature",
        "Hold cold",
        "Knife",
    )
    chop = replace(batches["Mince Garlic work"], cautions=(COLD, KNIFE))
    assert batch_view(chop, METRIC).caution_words == ("Knife",)


def test_on_paper_the_foot_of_the_page_speaks_for_the_food_code(
    batches: dict[str, SheetBatch],
) -> None:
    cool = replace(
        batches["Mince Garlic work"],
        guidance="57 C to 21 C within 2 h; probe, log; local food code governs.",
    )
    view = batch_view(cool, METRIC)
    assert view.guidance.endswith("local food code governs.")
    assert view.guidance_words == "57 C to 21 C within 2 h; probe, log"


def test_a_single_taking_does_not_repeat_the_batchs_food(batches: dict[str, SheetBatch]) -> None:
    peel = batches["Peel Yellow onion work"]
    assert [(one.name, one.amount, one.origin) for one in batch_view(peel, METRIC).takings] == [
        ("", "79 each", "pulled")
    ]
    two = replace(peel, takings=(peel.takings[0], peel.takings[0]))
    assert batch_view(two, METRIC).takings[0].name == "Yellow onion"


def test_what_all_labels_share_is_said_once_and_only_if_they_do() -> None:
    cook = example_sheet().cooks[0]
    own = [one for one in cook.batches if one.label]
    assert every_label(cook.batches) == "made Tue 9 Mar, IM"
    label = own[0].label
    assert label is not None
    other = replace(own[0], label=replace(label, initials="XY"), outputs=())
    assert every_label([*own, other]) == ""
    assert every_label([]) == ""


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


def test_a_list_does_not_say_a_cut_twice(batches: dict[str, SheetBatch]) -> None:
    dice = batches["Dice Yellow onion work"]
    assert batch_view(dice, METRIC).cut_words == ", medium dice, large dice"
    named = replace(dice, food_name="Onion, large dice")
    assert batch_view(named, METRIC).cut_words == ", medium dice"


def test_what_stays_in_the_bowl_is_not_called_trim(batches: dict[str, SheetBatch]) -> None:
    rest = Trimming(None, 54.0, in_bowl=True)
    view = batch_view(replace(batches["Mince Garlic work"], trimmings=(rest,)), METRIC)
    assert (view.trim, view.in_bowl) == ("", "54 g stays in the bowl")
