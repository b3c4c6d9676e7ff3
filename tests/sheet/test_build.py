from dataclasses import replace

import pytest

from planner.plan import Remedy, Trouble
from planner.quantities.types import Alert
from planner.sheet.build import build_sheet
from tests.kitchens.plans import planned_kitchen, tiny_plan
from tests.sheet.changes import without_tasks


@pytest.fixture(scope="module")
def sheet():
    return build_sheet(planned_kitchen(), tiny_plan())


def test_every_cook_has_a_sheet_with_the_shift_and_what_takes_them_away(sheet):
    ana, ben = sheet.cooks
    assert (ana.name, ana.shift_start, ana.shift_end) == ("Ana", 480, 960)
    assert [(one.kind, one.start, one.end) for one in ana.away] == [
        ("station set-up", 480, 490),
        ("break", 720, 750),
    ]
    assert [(one.kind, one.start, one.end) for one in ben.away] == [
        ("station set-up", 600, 610),
        ("on the line", 1020, 1080),
    ]


def test_stretches_away_are_those_the_schedule_keeps_free(sheet):
    workers = tiny_plan().workload.problem.workers
    for cook, worker in zip(sheet.cooks, workers, strict=True):
        rests = ((rest.earliest, rest.earliest + rest.minutes) for rest in worker.rests)
        stretches = tuple(sorted([*worker.blocked, *rests]))
        assert tuple((one.start, one.end) for one in cook.away) == stretches


def test_minutes_of_a_cook_are_those_of_the_batches(sheet):
    ana, ben = sheet.cooks
    assert (ana.hands_on, ana.changeover, ana.finish) == (5 + 7 + 7 + 3, 5 + 7 + 3 + 2, 855)
    assert (ben.hands_on, ben.changeover, ben.finish) == (9 + 14 + 1, 4 + 5, 643)
    assert ana.hands_on + ana.changeover + ben.hands_on + ben.changeover == sheet.labor_minutes


def test_head_keeps_expected_buffer_and_total_apart(sheet):
    (dinner,) = sheet.services
    assert (dinner.name, dinner.covers, dinner.doors, dinner.due) == ("Dinner", 40, 1050, 1020)
    assert dinner.dishes == (("Onion soup", 20.0, 4, 24), ("Chicken plate", 24.0, 2, 26))


def test_objective_terms_carry_their_bounds_in_order(sheet):
    assert [(one.term, one.value, one.bound, one.proven) for one in sheet.objective] == [
        ("short", 0, 0, True),
        ("tardiness", 0, 0, True),
        ("labor", 72, 68, False),
        ("freshness", 0, 0, True),
        ("finish", 375, 300, False),
    ]
    assert sheet.objective[2].gap == pytest.approx(4 / 72)


def test_labor_and_savings_come_from_the_plan(sheet):
    assert sheet.labor == (("Ana", 22, 10, 7, 141, 480, 160.0), ("Ben", 24, 7, 2, 0, 480, 144.0))
    assert (sheet.saved_minutes, sheet.dish_by_dish_minutes, sheet.comparable) == (9, 81, True)


def test_savings_of_unequal_work_are_marked():
    plan = tiny_plan()
    plan = replace(plan, labor=replace(plan.labor, comparable=False))
    assert build_sheet(planned_kitchen(), plan).comparable is False


def test_span_covers_shifts_and_everything_on_the_chart(sheet):
    assert (sheet.start, sheet.end) == (480, 1080)


def test_alerts_troubles_and_remedies_are_told_in_words():
    plan = tiny_plan()
    alert = Alert("missing", "bones", "Bones did not come.", holds_up=("Chicken stock",))
    plan = replace(
        plan,
        quantities=replace(plan.quantities, alerts=(alert,)),
        troubles=(Trouble("short", "stock", "16 portions short", 12, 16, "the one pot"),),
        remedies=(Remedy("buy a pot", 0, 0, solves=True, short_portions_before=16),),
    )
    sheet = build_sheet(planned_kitchen(), plan)
    assert sheet.alerts == ("Bones did not come. Holds up: Chicken stock.",)
    assert sheet.troubles == (
        "16 portions short. What binds: the one pot; 12 hands-on min missing.",
    )
    assert sheet.remedies == ("Buy a pot: 16 portions short → 0.",)


def test_a_cook_without_work_has_an_empty_sheet():
    sheet = build_sheet(planned_kitchen(), without_tasks(tiny_plan(), 0, 1, 2))
    ben = sheet.cooks[1]
    assert (ben.batches, ben.pulls, ben.set_up, ben.finish) == ((), (), (), None)


def test_a_plan_in_which_nothing_is_done_still_has_a_sheet():
    sheet = build_sheet(planned_kitchen(), without_tasks(tiny_plan(), *range(7)))
    assert all(cook.batches == () for cook in sheet.cooks)
    assert [lane.kind for lane in sheet.lanes] == ["cook", "cook"]
