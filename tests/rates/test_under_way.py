"""Chances of a day under way: closed forms for what runs, facts for what is done."""

import math
from dataclasses import replace
from statistics import NormalDist

import numpy as np
import pytest
from scipy import stats

from planner.plan import Plan
from planner.quantities.compute import kitchenry
from planner.rates.chances import service_chances
from planner.rates.mornings import Doubt, simulate
from planner.rates.network import network_of
from planner.rates.under_way import UnderWay, above
from planner.replan.events import Overran
from planner.replan.replan import Replan, replan
from planner.replan.under_way import under_way_of
from planner.schedule.problem import Rest, Wait, Worker
from planner.schedule.timetable import Assignment, Timetable
from tests.rates.test_mornings import RATE, doubts, problem
from tests.replan.mornings import QUICK
from tests.replan.test_replan import carrots, planned


def law(minutes: float, spread: float) -> NormalDist:
    """Logarithm of a batch's minutes, ``minutes`` on average."""
    return NormalDist(math.log(minutes) - spread**2 / 2, spread)


def still(minutes: float, spread: float, elapsed: float, total: float) -> float:
    """Chance of at most ``total`` minutes, given more than ``elapsed``."""
    of = law(minutes, spread)
    before = of.cdf(math.log(elapsed))
    return (of.cdf(math.log(total)) - before) / (1 - before)


@pytest.mark.parametrize("least", [-3.0, 0.0, 2.5, 6.0, 12.0])
def test_values_above_are_those_of_the_truncated_normal(least: float) -> None:
    rng = np.random.default_rng(3)
    found = above(np.full(20_000, least), rng.random(20_000))
    assert found.min() >= least - 0.01
    expected = stats.truncnorm(least, np.inf)
    for chance in (0.1, 0.5, 0.9):
        assert np.quantile(found, chance) == pytest.approx(expected.ppf(chance), abs=0.02)


@pytest.mark.parametrize("now", [500, 560, 640])
def test_what_runs_ends_as_its_remaining_time_says(now: int) -> None:
    """100 minutes from 480, at 640 well over them: the log-normal, given how long it has taken."""
    timetable = Timetable((Assignment(0, 0, 480, max(580, now + 1)),))
    network = network_of(problem(100), timetable, UnderWay(now, frozenset({0})))
    ends = simulate(network, doubts(1, 0.25), {}, mornings=40_000)
    assert ends.min() >= now - 0.1
    for by in (now + 5, now + 20, now + 60):
        expected = still(100, 0.25, now - 480, by - 480)
        assert float((ends[0] <= by).mean()) == pytest.approx(expected, abs=0.01)


def test_what_is_done_is_done_and_what_follows_starts_no_earlier_than_now() -> None:
    timetable = Timetable((Assignment(0, 0, 480, 520), Assignment(1, 0, 540, 640)))
    network = network_of(problem(100, 100), timetable, UnderWay(540, frozenset({0})))
    ends = simulate(network, doubts(2, 0.25), {}, mornings=40_000)
    assert set(ends[0]) == {520.0}
    by_640 = law(100, 0.25).cdf(math.log(100))
    assert float((ends[1] <= 640).mean()) == pytest.approx(by_640, abs=0.01)
    assert ends[1].min() > 540


def test_a_batch_after_one_that_runs_has_the_sum_of_both() -> None:
    """Mean: remaining of what runs, by the truncated log-normal, and the whole of the next."""
    timetable = Timetable((Assignment(0, 0, 480, 580), Assignment(1, 0, 580, 680)))
    network = network_of(problem(100, 100), timetable, UnderWay(530, frozenset({0})))
    ends = simulate(network, doubts(2, 0.25), {}, mornings=40_000)
    of = law(100, 0.25)
    tail = NormalDist().cdf((of.mean + 0.25**2 - math.log(50)) / 0.25)
    mean = 100 * tail / (1 - of.cdf(math.log(50)))
    assert float(ends[1].mean()) == pytest.approx(480 + mean + 100, abs=0.6)


def test_a_rate_that_is_in_doubt_is_so_for_what_runs_too() -> None:
    timetable = Timetable((Assignment(0, 0, 480, 580),))
    network = network_of(problem(100), timetable, UnderWay(481, frozenset({0})))
    both = [Doubt((RATE,), 0.15)]
    ends = simulate(network, both, {RATE: 0.2}, mornings=40_000)
    # A minute tells nothing: as if it had not begun.
    expected = law(100, math.hypot(0.15, 0.2)).cdf(math.log(120))
    assert float((ends[0] <= 600).mean()) == pytest.approx(expected, abs=0.01)


def test_what_somebody_says_it_takes_is_taken_for_its_mean() -> None:
    timetable = Timetable((Assignment(0, 0, 480, 680),))
    network = network_of(problem(100), timetable, UnderWay(490, frozenset({0})))
    ends = simulate(network, doubts(1, 0.1), {}, mornings=20_000)
    assert float(ends[0].mean()) == pytest.approx(680, abs=1)


def test_breaks_that_are_over_are_not_taken_again_and_one_that_runs_ends() -> None:
    ana = Worker(
        "ana", 480, 1000, 1000, rests=(Rest(30, 500, 500), Rest(30, 560, 560), Rest(20, 640, 640))
    )
    timetable = Timetable(
        (Assignment(0, 0, 480, 500), Assignment(1, 0, 600, 640), Assignment(2, 0, 660, 670))
    )
    at = UnderWay(570, frozenset({0}))
    network = network_of(problem(20, 40, 10, workers=(ana,)), timetable, at)
    ends = simulate(network, doubts(3, 0.0), {}, mornings=1)[:, 0]
    # The second break ends at 590, 40 minutes of work, the third from 640: it begins no sooner.
    assert ends.tolist() == [500, 630, 670]


def test_food_waits_for_what_runs_and_a_cook_who_comes_later_is_not_there() -> None:
    both = (Worker("ana", 480, 1000, 1000), Worker("ben", 480, 1000, 1000))
    work = problem(100, 10, 10, workers=both, waits=(Wait(0, 1, 5),))
    timetable = Timetable(
        (Assignment(0, 0, 480, 580), Assignment(1, 0, 585, 595), Assignment(2, 1, 600, 610))
    )
    at = UnderWay(550, frozenset({0}), free={1: 600})
    ends = simulate(network_of(work, timetable, at), doubts(3, 0.0), {}, mornings=1)[:, 0]
    assert ends.tolist() == [580, 595, 610]


def test_an_oven_that_is_on_is_not_ready_before_it_was_told() -> None:
    work = problem(10, 5, waits=(Wait(0, 1, 60),))
    timetable = Timetable((Assignment(0, 0, 480, 490), Assignment(1, 0, 570, 575)))
    at = UnderWay(500, frozenset({0}), ready={1: 570})
    ends = simulate(network_of(work, timetable, at), doubts(2, 0.0), {}, mornings=1)[:, 0]
    assert ends.tolist() == [490, 575]


def _whole(found: Replan) -> Plan:
    course = found.course
    return replace(
        course.plan,
        workload=course.workload,
        solution=replace(found.solution, timetable=course.timetable),
    )


def _chance(found: Replan) -> float:
    kit = kitchenry(found.course.counted, found.course.plan.date)
    (only,) = service_chances(kit, _whole(found), mornings=4000, under_way=under_way_of(found))
    assert only.since == found.now
    return only.chance


def test_a_service_is_surer_the_more_of_it_is_done_and_certain_when_it_is() -> None:
    """Sixty guests' carrots by 18:00, peeled then cut by one cook, with little room."""
    file = carrots(covers=600)
    file["services"][0]["plating_set_up_minutes"] = 0
    kitchen, plan = planned(file)
    course_end = max(item.end for item in plan.solution.timetable.assignments)
    begin = min(item.start for item in plan.solution.timetable.assignments)
    due = min(demand.due for demand in plan.demands)
    assert course_end <= due
    done = replan(kitchen, plan, course_end + 1, options=QUICK)
    assert _chance(done) == 1.0
    early = _chance(replan(kitchen, plan, begin, options=QUICK))
    late = replan(kitchen, plan, (begin + course_end) // 2, options=QUICK)
    assert 0.0 <= early <= 1.0
    assert _chance(late) >= early - 0.02


def test_a_batch_that_overruns_makes_the_service_less_sure() -> None:
    file = carrots(covers=600)
    kitchen, plan = planned(file)
    items = sorted(plan.solution.timetable.assignments, key=lambda one: one.start)
    now = items[0].start + 1
    first = plan.workload.lots[plan.workload.problem.tasks[items[0].task].lot].id
    calm = replan(kitchen, plan, now, options=QUICK)
    due = min(demand.due for demand in plan.demands)
    slack = due - max(item.end for item in items)
    over = replan(kitchen, plan, now, [Overran(first, items[0].end + max(slack, 0))], options=QUICK)
    assert _chance(over) < _chance(calm) + 1e-9


def test_services_that_are_over_have_no_chance() -> None:
    kitchen, plan = planned(carrots())
    until = max(demand.until for demand in plan.demands)
    found = replan(kitchen, plan, until + 1, options=QUICK)
    kit = kitchenry(found.course.counted, found.course.plan.date)
    assert service_chances(kit, _whole(found), under_way=under_way_of(found)) == ()
