"""The main job end to end: the same plan every time, no rule broken, and a word on what fails."""

import json
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from planner.check.quantities import check_quantities
from planner.check.score import score_of
from planner.check.timetable import check_timetable
from planner.kitchen.document import Kitchen
from planner.kitchen.reading import read_kitchen
from planner.morning import BrokenPlanError, PlanOptions, plan_morning
from planner.plan import Plan
from planner.schedule.search import StopSearch
from planner.schedule.timetable import Progress

File = dict[str, Any]
OPTIONS = PlanOptions(deterministic_limit=0.1, seed=3, workers=2, remedy_seconds=0.03)
SMALL = Path(__file__).parents[1] / "seed_data" / "small.json"


def small_file() -> File:
    file: File = json.loads(SMALL.read_text(encoding="utf-8"))
    return file


def come_at(start: str) -> File:
    """Both cooks come later, and Mara is on the line from 11:45 as ever."""
    file = small_file()
    for cook in file["cooks"]:
        cook["shifts"][0] |= {"start": start, "breaks": []}
    return file


MORNINGS = {"ready": small_file(), "late": come_at("09:25"), "short": come_at("11:00")}
OVER_FULL = ["late", "short"]


@cache
def planned(name: str) -> tuple[Kitchen, Plan]:
    kitchen = read_kitchen(json.dumps(MORNINGS[name]).encode())
    return kitchen, plan_morning(kitchen, kitchen.as_of, OPTIONS)


def undated(plan: Plan) -> Plan:
    """The plan without what a clock on the wall says."""
    solution = replace(plan.solution, seconds=0.0, history=())
    return replace(plan, solution=solution)


@pytest.mark.parametrize("name", ["ready", "late"])
def test_the_same_seed_and_limit_give_the_same_plan(name: str) -> None:
    kitchen, plan = planned(name)
    again = plan_morning(kitchen, kitchen.as_of, OPTIONS)
    assert undated(again) == undated(plan)
    assert [p.score for p in again.solution.history] == [p.score for p in plan.solution.history]


def test_the_order_of_the_file_does_not_touch_quantities() -> None:
    _, plan = planned("ready")
    file = small_file()
    for part in ("ingredients", "components", "dishes", "operations", "raw_stock"):
        file[part].reverse()
    kitchen = read_kitchen(json.dumps(file).encode())
    again = plan_morning(kitchen, kitchen.as_of, replace(OPTIONS, deterministic_limit=0.01))
    needs = {line.ingredient: round(line.need.grams, 6) for line in plan.quantities.pulls}
    assert {line.ingredient: round(line.need.grams, 6) for line in again.quantities.pulls} == needs


@pytest.mark.parametrize("name", MORNINGS)
def test_no_rule_is_broken(name: str) -> None:
    kitchen, plan = planned(name)
    problem, timetable = plan.workload.problem, plan.solution.timetable
    assert check_timetable(problem, timetable) == ()
    assert check_quantities(kitchen, plan) == ()
    assert score_of(problem, timetable) == plan.solution.score


def test_the_small_kitchen_is_ready_for_lunch() -> None:
    _, plan = planned("ready")
    assert plan.troubles == ()
    assert plan.remedies == ()
    assert (plan.solution.score.short, plan.solution.score.tardiness) == (0, 0)
    assert plan.labor.comparable


def test_batching_saves_work_against_dish_by_dish() -> None:
    assert planned("ready")[1].labor.saved > 0


@pytest.mark.parametrize("name", OVER_FULL)
def test_an_over_full_morning_says_what_fails_by_how_much_and_what_binds(name: str) -> None:
    _, plan = planned(name)
    assert plan.troubles
    for trouble in plan.late:
        assert trouble.minutes > 0
        assert f"{trouble.minutes} min late" in trouble.text
    for trouble in plan.short:
        assert trouble.portions > 0
        assert f"{trouble.portions} portion" in trouble.text or "kg short" in trouble.text
    assert all(trouble.binding and trouble.portions for trouble in plan.troubles)
    score = plan.solution.score
    assert bool(plan.short) == (score.short > 0)
    assert bool(plan.late) == (score.tardiness > 0)


def test_a_morning_that_begins_too_late_is_told_what_would_put_it_right() -> None:
    _, plan = planned("late")
    assert [trouble.kind for trouble in plan.troubles] == ["late"]
    assert plan.remedies[0].solves


def test_a_morning_that_no_hands_can_save_is_told_to_start_the_day_before() -> None:
    """Two pots of an hour together do not fit between 11:00 and the line at 11:45."""
    _, plan = planned("short")
    short = sum(trouble.portions for trouble in plan.short if trouble.unit == "portions")
    assert short > 0
    assert all(remedy.short_portions_before == short for remedy in plan.remedies)
    solving = [remedy.text for remedy in plan.remedies if remedy.solves]
    assert solving, "begun the day before, it fits"
    assert all(text.startswith("start ") for text in solving)


def test_what_can_be_made_is_made() -> None:
    _, plan = planned("short")
    done = {plan.workload.problem.tasks[a.task].lot for a in plan.solution.timetable.assignments}
    assert 0 < len(done) < len(plan.workload.lots)
    made = {plan.workload.lots[lot].component for lot in done}
    assert {"leaves_washed", "carrot_julienne", "vinaigrette"} <= made


def test_without_remedies_none_are_tried() -> None:
    kitchen, plan = planned("short")
    quick = plan_morning(kitchen, kitchen.as_of, replace(OPTIONS, remedies=False))
    assert quick.remedies == ()
    assert quick.troubles == plan.troubles


def test_every_improvement_is_told_and_the_last_one_is_the_plan() -> None:
    kitchen, _ = planned("ready")
    told: list[Progress] = []
    plan = plan_morning(kitchen, kitchen.as_of, OPTIONS, told.append)
    scores = [progress.score for progress in told]
    assert scores == sorted(scores, reverse=True)
    assert scores[-1] == plan.solution.score


def test_a_search_that_is_stopped_gives_the_best_so_far() -> None:
    def stop(_: Progress) -> None:
        raise StopSearch

    kitchen, _ = planned("ready")
    plan = plan_morning(kitchen, kitchen.as_of, OPTIONS, stop)
    assert check_timetable(plan.workload.problem, plan.solution.timetable) == ()
    assert plan.solution.timetable.assignments


def test_a_day_without_service_or_cooks_is_a_plan_of_nothing() -> None:
    file = small_file()
    file["services"][0]["date"] = "2026-12-24"
    file["components"][-1]["par"] = None
    for cook in file["cooks"]:
        cook["shifts"][0]["date"] = "2026-12-24"
    kitchen = read_kitchen(json.dumps(file).encode())
    plan = plan_morning(kitchen, kitchen.as_of, OPTIONS)
    assert plan.workload.lots == ()
    assert plan.labor.cooks == ()
    assert plan.troubles == ()


def test_a_broken_plan_is_shown_to_nobody(monkeypatch: pytest.MonkeyPatch) -> None:
    """Should planner and checker ever disagree, the error names the rule."""
    kitchen, _ = planned("ready")
    monkeypatch.setattr("planner.check.balance.near", lambda *_: False)
    with pytest.raises(BrokenPlanError, match="balance"):
        plan_morning(kitchen, kitchen.as_of, replace(OPTIONS, deterministic_limit=0.01))
