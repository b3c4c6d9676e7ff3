from dataclasses import replace

import pytest

from planner.kitchen.document import Kitchen
from planner.lots.types import Part
from planner.schedule.timetable import Lead
from planner.sheet.batch_types import SheetBatch
from planner.sheet.build import build_sheet
from tests.kitchens.plan_food import DUE, ONION_AP, ONION_ENDS, STOCK_ONION
from tests.kitchens.plans import planned_kitchen, tiny_plan
from tests.sheet.changes import with_assignment, with_lot, with_problem, without_tasks


def _batches(plan) -> dict[int, SheetBatch]:
    sheet = build_sheet(planned_kitchen(), plan)
    return {batch.number: batch for cook in sheet.cooks for batch in cook.batches}


@pytest.fixture(scope="module")
def batches():
    return _batches(tiny_plan())


def test_batches_are_numbered_over_the_kitchen_by_start(batches):
    assert [(batches[number].cook, batches[number].operation) for number in range(1, 7)] == [
        ("ben", "peel"),
        ("ben", "dice"),
        ("ana", "simmer"),
        ("ana", "roast"),
        ("ana", "simmer"),
        ("ana", "roast"),
    ]


def test_tasks_of_one_family_in_a_row_are_one_batch_with_one_lead(batches):
    dice = batches[2]
    assert [task.lot for task in dice.tasks] == ["dice-onion-1", "dice-onion-2"]
    assert (dice.start, dice.work_start, dice.end) == (623, 628, 643)
    assert (dice.set_up, dice.changeover, dice.hand_wash, dice.clean) == (3, 2, 0, 0)
    assert dice.hands_on == 15
    assert dice.grams_out == pytest.approx(1740 + STOCK_ONION)


def test_a_family_in_between_opens_a_new_batch():
    plan = with_problem(
        tiny_plan(),
        tasks=tuple(
            replace(task, family=0) if index == 1 else task
            for index, task in enumerate(tiny_plan().workload.problem.tasks)
        ),
    )
    plan = with_assignment(plan, 2, lead=Lead(set_up=3), start=650, end=651)
    ben = [batch for batch in _batches(plan).values() if batch.cook == "ben"]
    assert [len(batch.tasks) for batch in ben] == [2, 1]


def test_work_that_goes_on_after_the_line_is_a_batch_of_its_own_with_its_own_due_time():
    """Ben dices, stands on the line 17:00 to 18:00, and dices on: two lines on his sheet."""
    plan = with_assignment(tiny_plan(), 2, start=1090, end=1091)
    problem = plan.workload.problem
    tasks = tuple(
        replace(task, due=1110, until=1140) if index == 2 else task
        for index, task in enumerate(problem.tasks)
    )
    plan = with_lot(with_problem(plan, tasks=tasks), 2, due=1110, until=1140)
    batches = [one for one in _batches(plan).values() if one.operation == "dice"]
    before, after = sorted(batches, key=lambda one: one.start)
    assert (before.start, before.end, before.goes_on) == (623, 642, False)
    assert (after.start, after.end, after.goes_on) == (1090, 1091, True)
    assert after.due == 1110
    assert before.due is not None
    assert before.due < after.due
    assert before.grams_out == pytest.approx(1740)
    assert after.grams_out == pytest.approx(STOCK_ONION)
    assert (after.set_up, after.changeover) == (0, 0)


def test_a_short_wait_stays_one_batch_whose_lots_say_when_they_are_due():
    plan = with_assignment(tiny_plan(), 2, start=657, end=658)
    dice = _batches(plan)[2]
    assert [(task.start, task.due) for task in dice.tasks] == [(628, DUE), (657, None)]


def test_a_batch_does_not_go_on_over_a_hole_in_the_cooks_day():
    """Ben dices until 642, then from 658: sixteen minutes are no part of a batch."""
    batches = _batches(with_assignment(tiny_plan(), 2, start=658, end=659))
    before, after = [one for one in batches.values() if one.operation == "dice"]
    assert (before.end, after.start) == (642, 658)
    assert (before.goes_on, after.goes_on) == (False, True)
    assert after.set_up == 0


def test_a_clean_by_the_clock_says_since_when_the_board_is_in_use():
    """Ben is at the board from 10:10; cleaned for his dicing, it is not noted for the lot after."""
    plan = tiny_plan()
    costs = replace(plan.workload.problem.changeovers, clean_every=30)
    plan = with_problem(plan, changeovers=costs)
    plan = with_assignment(plan, 1, lead=Lead(3, 2, clean=5), start=633, end=647, cleaned=(1,))
    plan = with_assignment(plan, 2, start=647, end=648)
    noted = [note for note in _batches(plan)[2].notes if note.startswith("Clean")]
    assert noted == [
        "Clean and sanitise at 10:23: Boards 1, in use since 10:10 (FDA Food Code 4-602.11); "
        "the local food code governs."
    ]


def test_a_clean_inside_a_run_counts_with_its_lead():
    plan = with_assignment(tiny_plan(), 2, start=648, end=649, lead=Lead(clean=5))
    dice = _batches(plan)[2]
    assert (dice.clean, dice.hands_on, dice.end) == (5, 15, 649)
    assert any(text.startswith("Clean and sanitise") for text in dice.cautions)


def test_pulled_food_is_shown_in_grams_and_whole_pieces(batches):
    (onions,) = batches[1].takings
    assert (onions.kind, onions.name) == ("pull", "Onions")
    assert onions.grams == pytest.approx(ONION_AP)
    assert (onions.pieces, onions.piece) == (13, "each")
    assert 12.95 < ONION_AP / 160 < 12.96


def test_takings_name_the_batch_and_cook_that_hand_over(batches):
    stock = {taking.name: (taking.kind, taking.grams) for taking in batches[3].takings}
    assert stock["Diced onion (batch 2, BE)"] == ("batch", pytest.approx(STOCK_ONION))
    assert stock["Onion ends (batch 1, BE)"] == ("batch", pytest.approx(ONION_ENDS))
    assert stock["Diced onion (use by Tue 4 Mar)"] == ("stock", 60.0)
    assert stock["Chicken bones"] == ("pull", 1880.0)
    (peeled,) = batches[2].takings
    assert peeled.name == "Onions after Peel (batch 1, BE)"


def test_trim_goes_to_its_by_product_and_the_rest_to_waste(batches):
    ends, waste = batches[1].trimmings
    assert (ends.to, ends.grams) == ("Onion ends", pytest.approx(ONION_ENDS))
    assert (waste.to, waste.grams) == (None, pytest.approx(ONION_AP * 0.04))
    assert (ends.item, waste.item) == ("onion_ends", "")


def _with_two_foods(waste):
    """The first lot takes a second food, and loses so many grams."""
    onions = 1000.0
    pulls = (("onion", onions), ("thigh", 1000.0))
    fields = {"pulls": pulls, "trim": (), "grams_in": 2000.0, "grams_out": 2000.0 - waste}
    return with_lot(tiny_plan(), 0, **fields)


@pytest.mark.parametrize(("waste", "told"), [(19.0, []), (21.0, [(None, 21.0, True)])])
def test_what_is_lost_in_mixing_stays_in_the_bowl_and_is_told_from_a_hundredth_on(waste, told):
    """Two kilos of two foods: nothing is trimmed of them."""
    batch = _batches(_with_two_foods(waste))[1]
    assert [(one.to, one.grams, one.in_bowl) for one in batch.trimmings] == told


def test_what_evaporates_in_cooking_is_no_waste(batches):
    roast = batches[6]
    assert roast.grams_in - roast.grams_out == 1170
    assert roast.trimmings == ()


def test_portions_out_are_whole_pieces(batches):
    assert (batches[6].pieces_out, batches[6].piece_out) == (26, "each")
    assert batches[2].pieces_out is None


def test_the_cut_comes_with_its_sides(batches):
    assert (batches[2].cut.name, batches[2].cut.inches) == ("Medium dice", (0.5, 0.5, 0.5))
    assert batches[1].cut is None


def test_two_cuts_in_one_batch_are_told_apart_in_its_outputs():
    dice = _batches(with_lot(tiny_plan(), 2, cut="small_dice"))[2]
    assert dice.cut is None
    assert [(one.cut.name, one.grams) for one in dice.outputs] == [
        ("Medium dice", 1740.0),
        ("Small dice", pytest.approx(STOCK_ONION)),
    ]


def test_unattended_stretch_runs_from_the_end_of_hands_on_work(batches):
    assert (batches[3].unattended, batches[3].unattended_until) == (180, 655 + 180)
    assert (batches[5].unattended, batches[5].unattended_until) == (0, None)


def test_equipment_is_counted_over_what_is_held_at_once(batches):
    assert batches[4].equipment == ("2 x Oven tray",)
    assert batches[6].equipment == ("2 x Oven tray",)
    assert batches[3].equipment == ("Stock pot",)
    assert batches[2].equipment == ()


def test_the_place_at_a_station_is_named_where_places_are_told_apart(batches):
    assert (batches[1].station, batches[1].place) == ("Boards", "place 1")
    assert (batches[3].station, batches[3].place) == ("Stove", "")


def test_dishes_served_are_named_with_their_service(batches):
    assert batches[2].dishes == ("Onion soup (Dinner)", "Chicken plate (Dinner)")


def test_a_service_of_another_day_is_named_with_its_day():
    """Food of today for tomorrow's dinner must not read as if it were for tonight's."""
    document = planned_kitchen().model_dump(mode="json")
    for service in document["services"]:
        service["date"] = "2025-03-05"
    sheet = build_sheet(Kitchen.model_validate(document), tiny_plan())
    dishes = {dish for cook in sheet.cooks for batch in cook.batches for dish in batch.dishes}
    assert dishes == {"Onion soup (Dinner, Wed 5 Mar)", "Chicken plate (Dinner, Wed 5 Mar)"}


def test_food_left_to_itself_is_due_when_it_is_ready_not_when_hands_leave_it():
    plan = tiny_plan()
    simmer = next(lot for lot in plan.workload.lots if lot.operation == "simmer")
    work = next(item for item in simmer.tasks if item.part is Part.WORK)
    tasks = tuple(
        replace(task, due=800 if index == work.task else None)
        for index, task in enumerate(plan.workload.problem.tasks)
    )
    alone = with_lot(with_problem(plan, tasks=tasks), simmer.index, tasks=(work,), unattended=120)
    finish = {item.task for item in simmer.tasks} - {work.task}
    sheet = build_sheet(planned_kitchen(), without_tasks(alone, *finish))
    (batch,) = (one for cook in sheet.cooks for one in cook.batches if one.operation == "simmer")
    assert (batch.due, batch.late) == (920, 0)


def test_food_is_ready_by_the_first_of_all_that_wants_it():
    """Of onions for tonight's plates some go into the stock, hours before."""
    plan = with_problem(
        tiny_plan(),
        tasks=tuple(
            replace(task, due=1020 if index == 1 else None)
            for index, task in enumerate(tiny_plan().workload.problem.tasks)
        ),
    )
    assert _batches(with_lot(plan, 1, due=700))[2].due == 700


def test_work_and_take_out_of_a_lot_name_the_same_due(batches):
    for number, batch in batches.items():
        others = [one.due for one in batches.values() if one.operation == batch.operation]
        if batch.operation in ("simmer", "roast"):
            assert set(others) == {batch.due}, number
            assert batch.due is not None


def test_due_is_the_earliest_and_late_the_worst_of_its_tasks():
    plan = with_problem(
        tiny_plan(),
        tasks=tuple(
            replace(task, due=630 if index == 1 else 640) if index in (1, 2) else task
            for index, task in enumerate(tiny_plan().workload.problem.tasks)
        ),
    )
    dice = _batches(plan)[2]
    assert (dice.due, dice.late) == (630, 642 - 630)


def test_on_time_is_not_late(batches):
    assert (batches[6].due, batches[6].late) == (1020, 0)
    assert (batches[1].due, batches[1].late) == (None, 0)


def test_a_lot_that_is_not_done_is_on_no_sheet():
    left = _batches(without_tasks(tiny_plan(), 5, 6))
    assert {batch.operation for batch in left.values()} == {"peel", "dice", "simmer"}


def test_a_missed_start_is_said_on_the_batch():
    peel = _batches(with_lot(tiny_plan(), 0, missed=True))[1]
    assert "Should have been started on an earlier day." in peel.notes


def test_part_made_stock_is_named_by_the_step_it_has_been_through():
    plan = with_lot(tiny_plan(), 1, stock=(("diced_onion", 100.0),))
    stock = [one for one in _batches(plan)[2].takings if one.kind == "stock"]
    assert [one.name for one in stock] == ["Diced onion after Peel (use by Tue 4 Mar)"]


def test_a_by_product_on_hand_is_stock_and_one_of_today_names_its_board():
    on_hand = with_problem(
        tiny_plan(),
        jobs=tuple(
            replace(job, needs=(2,)) if index == 3 else job
            for index, job in enumerate(tiny_plan().workload.problem.jobs)
        ),
    )
    names = {one.name: one.kind for one in _batches(on_hand)[3].takings}
    assert names["Onion ends"] == "stock"
    today = {one.name: one.kind for one in _batches(tiny_plan())[3].takings}
    assert today["Onion ends (batch 1, BE)"] == "batch"


def test_food_with_older_food_in_it_says_whose_use_by_it_keeps():
    """The date may come from the carrots as well as from a stock: the note names neither."""
    kitchen = planned_kitchen().model_dump(mode="json")
    for stock in kitchen["prepared"]:
        stock["use_by"] = "2025-03-04"
    for component in kitchen["components"]:
        if component["id"] == "stock":
            component["shelf_life_days"] = 5
    sheet = build_sheet(Kitchen.model_validate(kitchen), tiny_plan())
    notes = {
        note
        for cook in sheet.cooks
        for batch in cook.batches
        if any(output.component == "stock" for output in batch.outputs)
        for note in batch.notes
    }
    assert "Keeps the earliest use-by of what is in it." in notes
