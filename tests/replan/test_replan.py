"""What one event does to one morning, in numbers that can be checked on paper."""

from dataclasses import replace
from typing import Any

import pytest

from planner.kitchen.document import Kitchen
from planner.morning import PlanOptions, plan_morning
from planner.plan import Plan
from planner.replan.changes import Kind
from planner.replan.events import (
    CookGone,
    CoversChanged,
    DeliveryLate,
    Overran,
    Progress,
    Spoiled,
)
from planner.replan.replan import Replan, replan
from tests.kitchens.bench import (
    DATE,
    File,
    bench,
    cook,
    cut_from,
    day,
    delivery,
    dish,
    food,
    raw,
    read,
    stock,
    work,
)
from tests.replan.mornings import QUICK

FIRST_LOOK = PlanOptions(deterministic_limit=0.02, workers=1, remedies=False)


def carrots(*route: str | File, covers: int = 10, cooks: int = 1, **parts: Any) -> File:
    """Carrots at 100 g a guest for dinner at 18:00: peeled for ten minutes a kilo, then cut."""
    operations = [work("peel"), work("cut")]
    file = bench(
        ingredients=[food("carrot")],
        operations=operations,
        components=[cut_from("carrot", "sticks", *(route or ("peel", "cut")))],
        dishes=[dish("plate", {"sticks": "100 g"})],
        cooks=[cook(f"cook{n}") for n in range(cooks)],
        **parts,
    )
    file["services"][0]["covers"] = covers
    return file


def planned(file: File) -> tuple[Kitchen, Plan]:
    kitchen = read(file)
    return kitchen, plan_morning(kitchen, DATE, FIRST_LOOK)


def starts(plan: Plan) -> dict[str, int]:
    problem = plan.workload.problem
    return {problem.tasks[a.task].id: a.start for a in plan.solution.timetable.assignments}


def to_come(found: Replan, step: int) -> float:
    lots = found.workload.lots[: found.new_lots]
    return sum(lot.grams_out for lot in lots if lot.step == step)


def after_peeling(plan: Plan) -> int:
    """The minute in which the peeling is done."""
    return max(a.end for a in plan.solution.timetable.assignments if _step(plan, a.task) == 0)


def _step(plan: Plan, task: int) -> int:
    return plan.workload.lots[plan.workload.problem.tasks[task].lot].step


def test_a_fifth_more_covers_peel_the_difference_and_cut_it_all() -> None:
    """Of 1000 g that are peeled nothing is peeled again: 200 g are, and 1200 g are cut."""
    kitchen, plan = planned(carrots())
    found = replan(kitchen, plan, after_peeling(plan), (CoversChanged("dinner", 12),), QUICK)
    assert to_come(found, 0) == pytest.approx(200, abs=1)
    assert to_come(found, 1) == pytest.approx(1200, abs=1)
    assert found.troubles == ()


def test_fewer_covers_drop_what_is_not_wanted_any_more() -> None:
    kitchen, plan = planned(carrots())
    found = replan(kitchen, plan, after_peeling(plan), (CoversChanged("dinner", 5),), QUICK)
    assert to_come(found, 0) == 0
    assert to_come(found, 1) == pytest.approx(500, abs=1)


def test_covers_of_a_service_that_is_over_change_nothing_and_say_so() -> None:
    kitchen, plan = planned(carrots())
    found = replan(kitchen, plan, 22 * 60, (CoversChanged("dinner", 50),), QUICK)
    assert found.changes == ()
    assert found.troubles == ()
    assert found.notes == ("Dinner is over: its covers change nothing any more.",)


def test_a_par_is_counted_again_as_it_was_counted_at_first() -> None:
    """Tomorrow's breakfast takes 1000 g that are made today, and so are up to a par of 900 g.

    For a fifth more covers 200 g are made, as in a day that is planned for them at once.
    """
    file = carrots("cut")
    file["components"][0]["par"] = "900 g"
    file["services"][0] |= {"date": day(1), "opens": "07:00", "closes": "10:00"}
    file["rules"]["lookahead_days"] = 1
    kitchen, plan = planned(file)
    assert sum(lot.grams_out for lot in plan.workload.lots) == pytest.approx(1000, abs=1)
    now = after_peeling(plan)
    same = replan(kitchen, plan, now, (CoversChanged("dinner", 10),), QUICK)
    assert to_come(same, 0) == 0
    more = replan(kitchen, plan, now, (CoversChanged("dinner", 12),), QUICK)
    assert to_come(more, 0) == pytest.approx(200, abs=1)


def test_what_is_eaten_today_is_no_part_of_a_par_that_is_full_tomorrow() -> None:
    """Sticks brine for a night and have a par of 2 kg. The 1 kg on the shelf goes into tonight's
    salad before the van comes; counted again then, there are still 2 kg to brine.
    """
    file = carrots({"operation": "brine"}, "cut")
    file["operations"].append(work("brine", unattended_minutes=900))
    file["components"][0]["par"] = "2 kg"
    file["components"].append(cut_from("sticks", "salad", "cut"))
    file["dishes"] = [dish("plate", {"salad": "100 g"})]
    file["prepared"] = [stock("sticks", "1 kg")]
    file["raw_stock"], file["deliveries"] = [], [delivery("carrot", "10 kg", "12:00")]
    file["rules"]["lookahead_days"] = 1
    kitchen, plan = planned(file)
    brined = [lot for lot in plan.workload.lots if lot.component == "sticks"]
    assert sum(lot.grams_out for lot in brined) == pytest.approx(2000, abs=1)
    now = 11 * 60
    assert min(plan.solution.timetable.assignments, key=lambda a: a.start).end < now
    found = replan(kitchen, plan, now, (CoversChanged("dinner", 10),), QUICK)
    to_brine = [lot for lot in found.workload.lots[: found.new_lots] if lot.component == "sticks"]
    assert sum(lot.grams_out for lot in to_brine) == pytest.approx(2000, abs=1)


def test_spoiled_food_is_discarded_and_made_again() -> None:
    kitchen, plan = planned(carrots())
    peeled = next(lot for lot in plan.workload.lots if lot.step == 0)
    found = replan(kitchen, plan, after_peeling(plan), (Spoiled(peeled.id),), QUICK)
    assert to_come(found, 0) == pytest.approx(1000, abs=1)
    assert "Discard 1.00 kg" in found.notes[0]
    assert "made again" in found.notes[0]


def test_food_past_its_longest_wait_is_discarded_and_remade() -> None:
    """Peeled carrots are cut within 20 minutes; their cook leaves, and the other comes later."""
    hurried = {"operation": "peel", "max_wait_minutes": 20}
    file = carrots(hurried, "cut")
    file["cooks"] = [cook("ana", "08:00", "12:00"), cook("ben", "13:00", "17:00")]
    kitchen, plan = planned(file)
    now = after_peeling(plan)
    assert now < 12 * 60
    gone = replan(kitchen, plan, now, (CookGone("ana", now),), QUICK)
    assert "nobody can go on with it by" in gone.notes[0]
    assert to_come(gone, 0) == pytest.approx(1000, abs=1)
    assert gone.solution.score.short == 0
    later = replan(kitchen, gone, now + 30, (), QUICK)
    assert (later.notes, later.changes) == ((), ())


def test_food_whose_time_has_passed_unnoticed_is_discarded() -> None:
    """Nobody cut the peeled carrots: the floor says so an hour later."""
    kitchen, plan = planned(carrots({"operation": "peel", "max_wait_minutes": 20}, "cut"))
    cut = next(lot for lot in plan.workload.lots if lot.step == 1).tasks[0].task
    now = after_peeling(plan) + 60
    found = replan(kitchen, plan, now, (), QUICK, progress=[Progress(cut, "cook0", now + 1)])
    assert "it had to go on by" in found.notes[0]
    assert to_come(found, 0) == pytest.approx(1000, abs=1)


def test_food_that_nobody_was_to_go_on_with_changes_nothing_when_its_time_has_passed() -> None:
    """The plan peels carrots and never cuts them: peeling them again would help nobody."""
    kitchen, plan = planned(carrots({"operation": "peel", "max_wait_minutes": 20}, "cut"))
    peeling = {t.task for lot in plan.workload.lots if lot.step == 0 for t in lot.tasks}
    kept = tuple(a for a in plan.solution.timetable.assignments if a.task in peeling)
    timetable = replace(plan.solution.timetable, assignments=kept)
    idle = replace(plan, solution=replace(plan.solution, timetable=timetable))
    now = after_peeling(plan) + 60
    found = replan(kitchen, idle, now, (), QUICK)
    assert (found.changes, to_come(found, 0)) == ((), 0)
    (note,) = found.notes
    assert "it had to go on by" in note
    assert "nobody was to go on with it" in note
    assert replan(kitchen, found, now + 30, (), QUICK).notes == ()
    more = replan(kitchen, found, now + 30, (CoversChanged("dinner", 12),), QUICK)
    assert to_come(more, 0) == pytest.approx(1200, abs=1)


def test_what_was_taken_of_prepared_stock_was_in_date() -> None:
    """400 g of peeled carrots are past their use-by, 1 kg is cut: none of that is left."""
    file = carrots()
    old = stock("sticks", "400 g", after_step=1, made=day(-3), use_by=day(-1))
    file["prepared"] = [old, stock("sticks", "1 kg", after_step=1)]
    kitchen, plan = planned(file)
    (cut,) = plan.workload.lots
    assert dict(cut.stock)["sticks"] == pytest.approx(1000, abs=1)
    now = max(a.end for a in plan.solution.timetable.assignments)
    found = replan(kitchen, plan, now, (CoversChanged("dinner", 12),), QUICK)
    assert to_come(found, 0) == pytest.approx(200, abs=1)
    assert to_come(found, 1) == pytest.approx(200, abs=1)


def test_what_was_taken_off_the_shelf_was_in_date() -> None:
    """Of 500 g past their use-by and a kilo that keeps, the kilo was peeled: there is no more."""
    gone = raw("carrot", "500 g", received=day(-3), use_by=day(-1))
    file = carrots(raw_stock=[gone, raw("carrot", "1 kg", use_by=day(1))])
    kitchen, plan = planned(file)
    found = replan(kitchen, plan, after_peeling(plan), (CoversChanged("dinner", 12),), QUICK)
    assert [(trouble.kind, trouble.portions) for trouble in found.troubles] == [("short", 2)]


def test_a_board_that_has_just_come_free_is_used_at_once_unclean_or_not() -> None:
    """Carrots with an allergen leave it on the only board, and are cut there at that minute."""
    file = carrots()
    file["ingredients"] = [food("carrot", allergens=["celery"])]
    file["stations"] = [{"id": "board", "name": "Board", "places": 1}]
    kitchen, plan = planned(file)
    now = after_peeling(plan)
    cut = next(lot for lot in plan.workload.lots if lot.step == 1).tasks[0].task
    assert next(a.start for a in plan.solution.timetable.assignments if a.task == cut) == now
    found = replan(kitchen, plan, now, (), QUICK)
    (at,) = {a.start for a in found.course.timetable.assignments if a.start >= now}
    assert at == now


def test_a_cook_who_leaves_half_way_leaves_half_the_work() -> None:
    """One cook peels a kilo in ten minutes and leaves after five: 500 g are left to the other."""
    kitchen, plan = planned(carrots(cooks=2))
    first = min(plan.solution.timetable.assignments, key=lambda a: a.start)
    name = plan.workload.cooks[first.worker]
    at = first.start + 5
    found = replan(kitchen, plan, at, (CookGone(name, at),), QUICK)
    assert to_come(found, 0) == pytest.approx(500, abs=1)
    assert to_come(found, 1) == pytest.approx(1000, abs=1)
    assert "50% of it is done" in found.notes[0]
    cooks = {change.cook for change in found.changes if change.kind is not Kind.DROPPED}
    assert name not in cooks


def test_who_overruns_is_not_at_the_next_batch_meanwhile() -> None:
    kitchen, plan = planned(carrots())
    peeled = next(lot for lot in plan.workload.lots if lot.step == 0)
    end = after_peeling(plan)
    found = replan(kitchen, plan, end, (Overran(peeled.id, end + 25),), QUICK)
    (late,) = found.changes
    assert (late.kind, late.start) == (Kind.LATER, end + 25)


def test_a_delivery_that_does_not_come_leaves_its_food_short() -> None:
    file = carrots(raw_stock=[raw("carrot", "1 g")])
    file["deliveries"] = [delivery("carrot", "10 kg", "09:00")]
    kitchen, plan = planned(file)
    assert plan.troubles == ()
    late = replan(kitchen, plan, 600, (DeliveryLate("carrot", 660),), QUICK)
    assert to_come(late, 0) == pytest.approx(999, abs=1)
    assert min(change.start for change in late.changes if change.start is not None) >= 660
    never = replan(kitchen, late, 620, (DeliveryLate("carrot", None),), QUICK)
    assert [trouble.kind for trouble in never.troubles] == ["short"]
    assert never.troubles[0].portions == 10


def test_the_first_plan_is_told_before_any_search() -> None:
    kitchen, plan = planned(carrots(cooks=2))
    told: list[int] = []
    found = replan(
        kitchen, plan, 485, (CookGone("cook0", 485),), QUICK,
        on_first=lambda changes, _score: told.append(len(changes)),
    )  # fmt: skip
    assert len(told) == 1
    assert found.rung >= 1


def test_batches_keep_their_names_over_events() -> None:
    kitchen, plan = planned(carrots())
    now = after_peeling(plan)
    found = replan(kitchen, plan, now, (CoversChanged("dinner", 12),), QUICK)
    ids = [lot.id for lot in found.course.workload.lots]
    assert len(ids) == len(set(ids))
    assert {lot.id for lot in plan.workload.lots} <= set(ids)


def test_what_is_under_way_since_the_evening_before_leaves_nothing_short() -> None:
    """Then a shelf is taken, which is told by the minute before now; no day has one before 0."""
    slow = work("thaw", unattended_minutes=300, equipment=[{"equipment": "shelf"}])
    shelf = {"id": "shelf", "name": "Shelf", "count": 2, "holds": "5 kg"}
    file = bench(
        ingredients=[food("carrot")],
        operations=[slow, work("cut")],
        equipment=[shelf],
        components=[cut_from("carrot", "sticks", "thaw", "cut")],
        dishes=[dish("plate", {"sticks": "100 g"})],
    )
    kitchen, plan = planned(file)
    first = min(plan.solution.timetable.assignments, key=lambda item: item.start)
    done = Progress(first.task, "ana", -120, -110)
    for now in (-60, 0, 1):
        found = replan(kitchen, plan, now, (), QUICK, progress=(done,))
        assert found.solution.score.short == 0
        assert found.troubles == ()
