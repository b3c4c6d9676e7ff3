"""What must hold on every sheet, shown on the two seed kitchens as they are really planned."""

from collections import Counter, defaultdict
from itertools import pairwise

import pytest

from planner.sheet.build import build_sheet
from planner.sheet.pieces import whole
from tests.kitchens.seeds import planned_seed


@pytest.fixture(scope="module", params=["small", "demo"])
def planned(request):
    kitchen, plan = planned_seed(request.param)
    return kitchen, plan, build_sheet(kitchen, plan)


def _batches(sheet):
    return [batch for cook in sheet.cooks for batch in cook.batches]


def test_every_task_done_is_on_exactly_one_batch(planned):
    _kitchen, plan, sheet = planned
    shown = Counter(task.task for batch in _batches(sheet) for task in batch.tasks)
    assert shown == Counter(one.task for one in plan.solution.timetable.assignments)


def test_neighbouring_batches_of_a_cook_are_of_different_families_or_a_break_lies_between(planned):
    _kitchen, plan, sheet = planned
    tasks = plan.workload.problem.tasks
    for cook in sheet.cooks:
        for before, after in pairwise(cook.batches):
            family, next_family = (tasks[one.tasks[0].task].family for one in (before, after))
            assert (family == next_family) == after.goes_on


def test_batches_of_a_cook_neither_overlap_nor_run_into_breaks(planned):
    _kitchen, _plan, sheet = planned
    for lane in sheet.lanes:
        if lane.kind == "cook":
            assert all(one.end <= after.start for one, after in pairwise(lane.blocks)), lane.title


def test_minutes_on_the_sheets_add_up_to_the_plans_labor(planned):
    _kitchen, plan, sheet = planned
    assert sum(cook.hands_on + cook.changeover for cook in sheet.cooks) == plan.labor.total
    alone = [cook for cook in plan.labor.cooks if not cook.beside]
    for cook, minutes in zip(sheet.cooks, alone, strict=True):
        assert cook.hands_on == minutes.hands_on
        assert cook.changeover == minutes.set_up + minutes.changeover


def test_what_a_batch_gives_adds_up_over_components(planned):
    _kitchen, _plan, sheet = planned
    for batch in _batches(sheet):
        given = sum(output.grams for output in batch.outputs)
        assert given == pytest.approx(batch.grams_out, abs=1e-3), batch.number


def test_what_a_batch_takes_adds_up_to_what_goes_in(planned):
    """But for recipes, whose measured output stands for what goes in."""
    kitchen, plan, sheet = planned
    recipes = {one.id for one in kitchen.components if one.makes is not None}
    lots = {lot.id: lot for lot in plan.workload.lots}
    for batch in _batches(sheet):
        if batch.part != "work" or lots[batch.tasks[0].lot].component in recipes:
            continue
        taken = sum(taking.grams for taking in batch.takings)
        assert taken == pytest.approx(batch.grams_in, abs=1e-3), batch.number


def test_trim_never_exceeds_the_loss(planned):
    _kitchen, _plan, sheet = planned
    for batch in _batches(sheet):
        if batch.trimmings:
            kept = sum(trimming.grams for trimming in batch.trimmings)
            assert kept <= batch.grams_in - batch.grams_out + 1, batch.number


def test_cooks_pull_what_their_lots_take_and_no_more_units_than_the_kitchen(planned):
    _kitchen, plan, sheet = planned
    taken: dict[str, float] = defaultdict(float)
    done = {one.task for one in plan.solution.timetable.assignments}
    for lot in plan.workload.lots:
        if lot.tasks[0].task in done:
            for item, grams in lot.pulls:
                taken[item] += grams
    shares: dict[str, list[float]] = defaultdict(lambda: [0.0, 0.0])
    kitchen_wide = {item.ingredient: item for item in sheet.pulls}
    for cook in sheet.cooks:
        for item in cook.pulls:
            if item.ingredient in kitchen_wide:
                shares[item.ingredient][0] += item.grams
                shares[item.ingredient][1] += item.units
    for ingredient, (grams, units) in shares.items():
        assert grams == pytest.approx(taken[ingredient]), ingredient
        assert units <= kitchen_wide[ingredient].units, ingredient


def test_the_kitchens_pull_list_is_whole_units_with_what_is_left(planned):
    _kitchen, plan, sheet = planned
    assert {item.ingredient for item in sheet.pulls} == {
        line.ingredient for line in plan.quantities.pulls
    }
    assert all(item.units == whole(item.units) for item in sheet.pulls)


def test_no_label_outlives_the_component_or_the_stock_in_it(planned):
    kitchen, plan, sheet = planned
    lives = {one.id: one.shelf_life_days for one in kitchen.components}
    labels = [output for batch in _batches(sheet) for output in batch.outputs if output.label]
    assert labels
    for output in labels:
        days = (output.label.use_by - plan.date).days
        begun = "part-made" in output.label.component  # keeps until it is finished, and longer
        assert 0 <= days < lives[output.component] + begun, output.name


def test_finished_food_is_always_labelled(planned):
    _kitchen, plan, sheet = planned
    labelled = {
        task.lot
        for batch in _batches(sheet)
        if all(output.label for output in batch.outputs)
        for task in batch.tasks
    }
    done = {one.task for one in plan.solution.timetable.assignments}
    finished = {
        lot.id
        for lot in plan.workload.lots
        if lot.finishes and all(task.task in done for task in lot.tasks)
    }
    assert finished <= labelled


def test_rows_of_equipment_never_outnumber_its_units(planned):
    kitchen, _plan, sheet = planned
    rows = Counter(
        next(one.name for one in kitchen.equipment if lane.title.startswith(one.name))
        for lane in sheet.lanes
        if lane.kind == "equipment"
    )
    for one in kitchen.equipment:
        assert rows[one.name] <= one.count


def test_late_batches_are_those_the_plan_calls_late(planned):
    _kitchen, plan, sheet = planned
    problem = plan.workload.problem
    late = {
        one.task
        for one in plan.solution.timetable.assignments
        if problem.tasks[one.task].due is not None and one.end > problem.tasks[one.task].due
    }
    shown = {task.task for batch in _batches(sheet) if batch.late for task in batch.tasks}
    assert late <= shown
    assert bool(late) == bool(shown)
