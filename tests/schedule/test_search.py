"""The search as a whole on generated mornings: same again, never worse than by hand, in time."""

import pytest

from planner.check.score import score_of
from planner.check.timetable import check_timetable
from planner.schedule.construct import constructive_plans
from planner.schedule.rules import FIRST_RULES, RULES
from planner.schedule.search import SearchOptions, StopSearch, solve
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Progress
from tests.bench.generate import generate
from tests.bench.peers import PEERS

BY_HAND = ("dish by dish", "sous chef")


@pytest.mark.parametrize("size", ["house", "hotel", "commissary"])
@pytest.mark.parametrize("name", BY_HAND)
def test_no_plan_by_hand_is_better_than_the_first_rules(size: str, name: str) -> None:
    """Heard however little time there is: the orders people work in are among them."""
    instance = generate(size, "tight", 1)
    by_hand = PEERS[name].plan(instance, 0.0, 1).timetable
    assert by_hand is not None
    solution = solve(instance.problem, SearchOptions(seconds=0))
    assert check_timetable(instance.problem, solution.timetable) == ()
    assert solution.score <= score_of(instance.problem, by_hand)


def test_with_a_limit_of_work_the_first_rules_are_heard_and_no_more() -> None:
    tables = tables_of(generate("house", "tight", 1).problem)
    plans = list(constructive_plans(tables, most_work=0))
    assert [rule for rule, _, _ in plans] == list(RULES[:FIRST_RULES])
    more = list(constructive_plans(tables, most_work=30_000))
    assert more[:FIRST_RULES] == plans
    assert FIRST_RULES < len(more) < len(list(constructive_plans(tables)))


def test_no_round_of_blame_begins_with_the_plan_that_is_to_blame() -> None:
    tables = tables_of(generate("house", "tight", 1).problem)
    plans = list(constructive_plans(tables))
    for rule in RULES:
        made = [timetable for other, timetable, _ in plans if other is rule]
        assert made[0] not in made[1:2]


@pytest.mark.parametrize(("size", "limit"), [("house", 0.8), ("hotel", 1.0)])
def test_the_same_limit_and_seed_give_the_same_plan(size: str, limit: float) -> None:
    """Both ways of search have their turn: taking out and putting in, and the solver."""
    problem = generate(size, "tight", 2).problem
    options = SearchOptions(deterministic_limit=limit, seed=3, workers=2)
    one, two = solve(problem, options), solve(problem, options)
    assert one.timetable == two.timetable
    assert [step.score for step in one.history] == [step.score for step in two.history]
    assert "taken out and put in again" in {step.origin for step in one.history}
    assert one.bounds == two.bounds


def test_a_wish_to_stop_is_heard_while_work_is_put_in_again() -> None:
    problem = generate("hotel", "tight", 1).problem
    heard: list[Progress] = []

    def stop(progress: Progress) -> None:
        heard.append(progress)
        if progress.origin in ("round", "taken out and put in again"):
            raise StopSearch

    solution = solve(problem, SearchOptions(seconds=60.0), stop)
    assert solution.seconds < 10.0
    assert solution.score == min(progress.score for progress in heard)


def test_what_is_told_of_the_least_labor_holds_of_the_plan_at_the_end() -> None:
    """Each step's bound speaks of all plans that are none worse in what is short or late."""
    told: list[Progress] = []
    options = SearchOptions(deterministic_limit=1.0)
    solution = solve(generate("house", "loose", 2).problem, options, told.append)
    least = [step.least_labor for step in told]
    assert len(told) > 1
    assert solution.score.short == 0
    assert 0 < max(least) <= solution.score.labor
    assert least == sorted(least), "less is short: more is certain; a bound is never taken back"
