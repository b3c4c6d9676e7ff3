"""Cooks read by when cooked food must be cold, and the plan leaves the time for it."""

import re

from planner.clock import clock
from planner.kitchen.base import clock_minutes
from planner.morning import PlanOptions, plan_morning
from planner.sheet.build import build_sheet
from tests.kitchens.bench import DATE, bench, cut_from, dish, food, read, work
from tests.kitchens.seeds import planned_seed

BY = re.compile(r"At (?:5|21) C .* or below by (\+1 )?(\d\d:\d\d);")


def _minutes(said):
    return clock_minutes(said[2]) + (1440 if said[1] else 0)


def test_every_batch_that_cools_on_the_demos_sheet_says_by_when_and_keeps_to_it():
    kitchen, plan = planned_seed("demo")
    lots = {lot.id: lot for lot in plan.workload.lots}
    told = 0
    for cook in build_sheet(kitchen, plan).cooks:
        for batch in cook.batches:
            said = [found for note in batch.notes if (found := BY.match(note))]
            if batch.part != "work" or batch.operation not in ("cool_stock", "chill"):
                assert not said or batch.operation in ("fill", "chill_through")
                continue
            assert said, batch.number
            told += 1
            ends = [task.end + lots[task.lot].unattended for task in batch.tasks]
            assert min(ends) <= max(_minutes(one) for one in said)
    assert told


def test_the_stocks_second_stage_counts_from_the_pot_and_not_from_the_ice():
    kitchen, plan = planned_seed("demo")
    end = {one.task: one.end for one in plan.solution.timetable.assignments}
    pot, through = (
        next(
            lot
            for lot in plan.workload.lots
            if lot.component == "chicken_stock" and lot.operation == operation
        )
        for operation in ("simmer_stock", "chill_through")
    )
    by = end[pot.tasks[-1].task] + 360
    batch = next(
        batch
        for cook in build_sheet(kitchen, plan).cooks
        for batch in cook.batches
        if through.id in {task.lot for task in batch.tasks} and batch.part == "work"
    )
    assert any(f"At 5 C (41 F) or below by {clock(by)}" in note for note in batch.notes)


def test_food_out_for_longer_than_one_wait_says_how_long_in_all():
    """Cut for ten minutes, forty-five at room temperature at the least, tied for ten."""
    warm = {
        "operation": "cut",
        "hold": "ambient",
        "min_wait_minutes": 45,
        "max_wait_minutes": 45,
    }
    file = bench(
        ingredients=[food("pork")],
        operations=[work("cut"), work("tie")],
        components=[cut_from("pork", "ham", warm, "tie", tcs=True)],
        dishes=[dish("plate", {"ham": "100 g"})],
    )
    kitchen = read(file)
    options = PlanOptions(deterministic_limit=0.02, workers=1, remedies=False)
    (ana,) = build_sheet(kitchen, plan_morning(kitchen, DATE, options)).cooks
    cut, tie = ana.batches
    assert not any("Out of the cold" in note for note in cut.notes), "ten minutes are nothing"
    assert "Out of the cold so far: 65 min of 240." in tie.notes
