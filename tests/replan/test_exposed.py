"""Minutes out of temperature control before a replan count on after it."""

from typing import Any

from planner.check.timetable import check_timetable
from planner.lots.types import Workload
from planner.plan import Plan
from planner.replan.events import CookGone, CoversChanged
from planner.replan.replan import Replan, replan
from tests.kitchens.bench import File, bench, cook, cut_from, delivery, dish, food, work
from tests.replan.mornings import QUICK
from tests.replan.test_replan import planned


def kitchen(second: str, limit: int, **parts: Any) -> File:
    """A kilo of ham: cut from 08:00 for ten minutes, left at room temperature, tied for ten."""
    cut = {"operation": "cut", "hold": "ambient", "max_wait_minutes": 240}
    return bench(
        ingredients=[food("pork")],
        operations=[work("cut"), work("tie")],
        components=[cut_from("pork", "ham", cut, "tie", tcs=True)],
        dishes=[dish("plate", {"ham": "100 g"})],
        cooks=[cook("ana"), cook("ben", second)],
        rules={"out_of_control_minutes": limit},
        **parts,
    )


def cut_by(plan: Plan) -> int:
    (lot,) = [one for one in plan.workload.lots if (one.component, one.step) == ("ham", 0)]
    return next(a.end for a in plan.solution.timetable.assignments if a.task == lot.tasks[0].task)


def relieved(second: str, limit: int) -> Replan:
    """Ana leaves when the ham is cut."""
    kitchen_, plan = planned(kitchen(second, limit))
    now = cut_by(plan)
    assert now == 8 * 60 + 10
    return replan(kitchen_, plan, now, (CookGone("ana", now),), QUICK)


def test_food_that_is_still_in_time_goes_on() -> None:
    """Ben ties from 09:00 to 09:10: seventy minutes since 08:00."""
    found = relieved("09:00", 70)
    assert [lot.step for lot in found.workload.lots[: found.new_lots]] == [1]
    assert (found.solution.score.short, found.notes) == (0, ())


def test_food_that_would_be_out_a_minute_too_long_is_not_tied() -> None:
    found = relieved("09:00", 69)
    done = {found.workload.problem.tasks[a.task].lot for a in found.solution.timetable.assignments}
    first = [lot for lot in found.workload.lots[: found.new_lots] if lot.step == 0]
    assert first or not done, "made again, or left"


def test_the_clock_holds_where_food_is_counted_anew() -> None:
    kitchen_, plan = planned(kitchen("08:00", 70))
    now = cut_by(plan)
    found = replan(kitchen_, plan, now, (CoversChanged("dinner", 20),), QUICK)
    tied = [lot for lot in found.workload.lots[: found.new_lots] if lot.step == 1 and lot.stock]
    assert tied
    end = {a.task: a.end for a in found.solution.timetable.assignments}
    assert all(end[lot.tasks[0].task] <= 8 * 60 + 70 for lot in tied)
    (bound,) = {one.since for one in found.workload.problem.exposures if one.since is not None}
    assert bound == 8 * 60


def test_the_day_joined_again_says_of_the_same_food_how_long_it_may_be_out() -> None:
    """Sticks are the first lot and, as carrots come at noon, the last to begin: numbers change."""
    file = kitchen("08:00", 70)
    file["ingredients"].insert(0, food("carrot"))
    file["operations"].append(work("slice"))
    file["components"].insert(0, cut_from("carrot", "sticks", "slice"))
    file["dishes"].append(dish("bowl", {"sticks": "100 g"}))
    file["services"][0]["mix"].append({"dish": "bowl", "per_cover": 1})
    file["deliveries"] = [delivery("carrot", "5 kg", "12:00")]
    kitchen_, plan = planned(file)
    now = cut_by(plan)
    course = replan(kitchen_, plan, now, (), QUICK).course

    def exposed(workload: Workload) -> set[tuple[str, str, int]]:
        tasks = workload.problem.tasks
        return {
            (tasks[one.first].id, tasks[one.last].id, one.limit)
            for one in workload.problem.exposures
        }

    assert exposed(plan.workload)
    assert exposed(course.workload) == exposed(plan.workload)
    assert check_timetable(course.workload.problem, course.timetable) == ()


def test_minutes_before_a_wait_in_the_cold_are_added_to_those_after_it() -> None:
    """Cut for ten minutes, kept cold, then pressed for forty-two in all: 52 of 60, and no more."""
    file = kitchen("08:00", 60)
    file["components"][0]["route"] = [{"operation": "cut"}, {"operation": "press"}]
    file["operations"].append(work("press", unattended_minutes=30, finish_minutes=2))
    kitchen_, plan = planned(file)
    now = cut_by(plan)
    found = replan(kitchen_, plan, now, (CookGone("ana", now),), QUICK)
    (pressed,) = found.workload.problem.exposures
    assert (pressed.spent, pressed.since, pressed.limit) == (10, None, 60)
    start = {a.task: a.start for a in found.solution.timetable.assignments}
    end = {a.task: a.end for a in found.solution.timetable.assignments}
    assert end[pressed.last] - start[pressed.first] <= 50


def test_what_is_under_way_is_taken_out_however_long_it_has_been_out() -> None:
    """Pressed from 08:00 on, and Ben comes only at ten: it is there, so somebody takes it out."""
    file = kitchen("10:00", 60)
    file["components"][0]["route"] = [{"operation": "press"}]
    file["operations"].append(work("press", unattended_minutes=30, finish_minutes=2))
    kitchen_, plan = planned(file)
    found = replan(kitchen_, plan, 495, (CookGone("ana", 495),), QUICK)
    (out,) = found.workload.problem.exposures
    assert (out.since, out.limit > 1000) == (480, True)
    (end,) = {a.end for a in found.solution.timetable.assignments if a.task == out.last}
    assert end >= 602
    assert f"out of temperature control for {end - 480} min when it is taken out" in found.notes[0]
    assert "60 are allowed: discard it" in found.notes[0]
