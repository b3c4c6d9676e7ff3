"""Mornings by chance: closed forms where there are any; the plan where nothing varies."""

import math
from statistics import NormalDist

import numpy as np
import pytest

from planner.rates.mornings import Doubt, simulate
from planner.rates.network import network_of
from planner.rates.types import Key, Kind
from planner.schedule.problem import (
    Family,
    Hold,
    Hygiene,
    Job,
    Problem,
    Resource,
    Rest,
    Task,
    Wait,
    Worker,
)
from planner.schedule.timetable import Assignment, Lead, Timetable
from tests.kitchens.plans import tiny_plan

RATE = Key(Kind.RATE, operation="dice", food="onion")


def problem(
    *minutes: int,
    workers: tuple[Worker, ...] = (Worker("ana", 480, 1000, 1000),),
    waits: tuple[Wait, ...] = (),
    holds: tuple[Hold, ...] = (),
    places: int = 1,
) -> Problem:
    """Tasks of one food and family each, which cook 0 and cook 1 can do."""
    return Problem(
        start=480,
        horizon=1000,
        workers=workers,
        resources=(Resource("station:board", places),),
        families=tuple(
            Family(f"o{i}", f"f{i}", "board", Hygiene(), 0) for i in range(len(minutes))
        ),
        tasks=tuple(Task(f"t{i}", i, i, {0: each, 1: each}, 480) for i, each in enumerate(minutes)),
        jobs=tuple(Job(f"t{i}", (i,)) for i in range(len(minutes))),
        waits=waits,
        holds=holds,
    )


def doubts(count: int, spread: float) -> list[Doubt]:
    return [Doubt((), spread)] * count


def test_one_batch_is_late_as_often_as_the_log_normal_says() -> None:
    network = network_of(problem(100), Timetable((Assignment(0, 0, 480, 580),)))
    ends = simulate(network, doubts(1, 0.25), {}, mornings=40_000)
    # Mean 100: log-normal with median 100 exp(-variance / 2).
    by_580 = NormalDist(math.log(100) - 0.25**2 / 2, 0.25).cdf(math.log(100))
    assert float((ends[0] <= 580).mean()) == pytest.approx(by_580, abs=0.01)
    assert float(ends[0].mean()) == pytest.approx(580, abs=0.5)


def test_two_cooks_are_both_on_time_with_the_product_of_chances() -> None:
    both = (Worker("ana", 480, 1000, 1000), Worker("ben", 480, 1000, 1000))
    timetable = Timetable((Assignment(0, 0, 480, 580), Assignment(1, 1, 480, 580)))
    network = network_of(problem(100, 100, workers=both), timetable)
    ends = simulate(network, doubts(2, 0.25), {}, mornings=40_000)
    alone = float((ends[0] <= 590).mean())
    assert float((ends.max(axis=0) <= 590).mean()) == pytest.approx(alone**2, abs=0.01)


def test_a_rate_that_is_guessed_wrong_is_wrong_all_morning() -> None:
    timetable = Timetable((Assignment(0, 0, 480, 580), Assignment(1, 0, 580, 680)))
    network = network_of(problem(100, 100), timetable)
    shared = [Doubt((RATE,), 0.0)] * 2
    ends = simulate(network, shared, {RATE: 0.2}, mornings=40_000)
    apart = simulate(network, doubts(2, 0.2), {}, mornings=40_000)
    one = 100**2 * (math.exp(0.2**2) - 1)
    assert float(ends[1].var()) == pytest.approx(4 * one, rel=0.05)
    assert float(apart[1].var()) == pytest.approx(2 * one, rel=0.05)


def test_what_is_late_holds_up_cook_place_and_food_after_it() -> None:
    both = (Worker("ana", 480, 1000, 1000), Worker("ben", 480, 1000, 1000))
    work = problem(
        20, 10, 10, 10, workers=both, waits=(Wait(0, 2, 15),), holds=(Hold(0, 0, 0), Hold(0, 3, 3))
    )
    timetable = Timetable(
        (
            Assignment(0, 0, 480, 500),
            Assignment(1, 0, 505, 515, Lead(changeover=5)),
            Assignment(2, 1, 515, 525),
            Assignment(3, 1, 525, 535),
        )
    )
    network = network_of(work, timetable)
    late = [Doubt((), 0.0, ratio=2.0 if node.task == 0 else 1.0) for node in network.nodes]
    ends = {
        node.task: simulate(network, late, {}, mornings=1)[at, 0]
        for at, node in enumerate(network.nodes)
    }
    # Task 0 takes 40: ana goes on at 520 + 5; food is there at 520 + 15; the board is free at 520.
    assert ends == {0: 520, 1: 535, 2: 545, 3: 555}


def test_one_board_is_waited_for_by_the_next_cook_clean_and_all() -> None:
    both = (Worker("ana", 480, 1000, 1000), Worker("ben", 480, 1000, 1000))
    work = problem(20, 10, workers=both, holds=(Hold(0, 0, 0, tail=3), Hold(0, 1, 1)))
    timetable = Timetable((Assignment(0, 0, 480, 500), Assignment(1, 1, 508, 518, Lead(clean=5))))
    network = network_of(work, timetable)
    late = [Doubt((), 0.0, ratio=2.0 if node.task == 0 else 1.0) for node in network.nodes]
    # Ana is done at 520, the board is free at 523, ben cleans it until 528.
    assert simulate(network, late, {}, mornings=1)[:, 0].tolist() == [520, 538]


def test_a_break_moves_with_the_cook_and_the_line_does_not() -> None:
    ana = Worker("ana", 480, 1000, 1000, ((480, 490), (600, 620)), rests=(Rest(30, 530, 530),))
    timetable = Timetable(
        (Assignment(0, 0, 490, 520), Assignment(1, 0, 560, 570), Assignment(2, 0, 620, 630))
    )
    network = network_of(problem(30, 10, 10, workers=(ana,)), timetable)
    late = [Doubt((), 0.0, ratio=2.0 if node.task == 0 else 1.0) for node in network.nodes]
    # 490 + 60 = 550, the break to 580, done at 590; the line is from 600 to 620 all the same.
    assert simulate(network, late, {}, mornings=1)[:, 0].tolist() == [550, 590, 630]


def test_where_nothing_varies_nothing_is_later_than_planned() -> None:
    plan = tiny_plan()
    network = network_of(plan.workload.problem, plan.solution.timetable)
    ends = simulate(network, doubts(len(network.nodes), 0.0), {}, mornings=1)[:, 0]
    planned = {item.task: item.end for item in plan.solution.timetable.assignments}
    assert all(ends[at] <= planned[node.task] for at, node in enumerate(network.nodes))


def test_one_seed_gives_one_answer_however_many_are_side_by_side() -> None:
    network = network_of(problem(100), Timetable((Assignment(0, 0, 480, 580),)))
    first = simulate(network, doubts(1, 0.2), {}, mornings=5000, seed=4)
    assert first.shape == (1, 5000)
    assert np.array_equal(first, simulate(network, doubts(1, 0.2), {}, mornings=5000, seed=4))


def test_no_morning_or_a_task_without_a_doubt_is_refused() -> None:
    network = network_of(problem(100), Timetable((Assignment(0, 0, 480, 580),)))
    with pytest.raises(ValueError, match="at least one morning"):
        simulate(network, doubts(1, 0.2), {}, mornings=0)
    with pytest.raises(ValueError, match="1 tasks need a doubt each, not 2"):
        simulate(network, doubts(2, 0.2), {}, mornings=1)
