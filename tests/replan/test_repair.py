"""The ladder: as little changes as must, and what a search moved goes back where it can."""

from collections import Counter
from dataclasses import replace

from planner.check.timetable import check_timetable
from planner.morning import PlanOptions, plan_morning
from planner.replan.budget import Budget
from planner.replan.calm import Old, calmed
from planner.replan.match import Match
from planner.replan.repair import repair
from planner.schedule.homes import UNCHANGED, Changed, Homes
from planner.schedule.problem import Problem, Wait
from planner.schedule.reinsert import Reinsertion
from planner.schedule.removal import state_of
from planner.schedule.replay import replay
from planner.schedule.run import Run
from planner.schedule.score import score_of
from planner.schedule.search import SearchOptions
from planner.schedule.tables import Tables, tables_of
from planner.schedule.timetable import Assignment, Timetable
from tests.kitchens.bench import DATE, bench, cook, cut_from, dish, food, read, work
from tests.replan.mornings import QUICK, tiny_course


def two_cooks() -> tuple[Problem, Timetable]:
    """Four foods that either of two cooks can cut in ten minutes, and a plan of them."""
    names = ("a", "b", "c", "d")
    file = bench(
        ingredients=[food(name) for name in names],
        operations=[work("cut")],
        components=[cut_from(name, f"cut_{name}", "cut") for name in names],
        dishes=[dish("plate", {f"cut_{name}": "100 g" for name in names})],
        cooks=[cook("ana"), cook("ben")],
    )
    plan = plan_morning(read(file), DATE, PlanOptions(deterministic_limit=0.02, remedies=False))
    return plan.workload.problem, plan.solution.timetable


def swapped(timetable: Timetable, problem: Problem) -> Timetable:
    """The same with the cooks' names changed over."""
    other = {0: 1, 1: 0}
    assert len(problem.workers) == len(other)
    return Timetable(tuple(replace(a, worker=other[a.worker]) for a in timetable.assignments))


def expected(old: Timetable) -> Match:
    by_task: dict[int, Assignment] = {item.task: item for item in old.assignments}
    return Match(by_task)


def homes_of(hands: Tables, known: Match) -> Homes:
    workers = {task: item.worker for task, item in known.old.items()}
    return Homes(hands, workers, {task: item.start for task, item in known.old.items()})


def turned_round(timetable: Timetable) -> Timetable:
    """Each cook's day from back to front; all tasks take as long and need no lead."""
    own: dict[int, list[Assignment]] = {}
    for item in sorted(timetable.assignments, key=lambda one: one.start):
        own.setdefault(item.worker, []).append(item)
    return Timetable(
        tuple(
            replace(item, start=there.start, end=there.end)
            for line in own.values()
            for item, there in zip(line, reversed(line), strict=True)
        )
    )


def hands_and_times(problem: Problem, known: Match) -> tuple[Tables, Tables]:
    tasks = [
        replace(task, minutes={known.old[i].worker: task.minutes[known.old[i].worker]})
        for i, task in enumerate(problem.tasks)
    ]
    timed = [replace(t, release=known.old[i].start) for i, t in enumerate(tasks)]
    return (
        tables_of(replace(problem, tasks=tuple(tasks))),
        tables_of(replace(problem, tasks=tuple(timed))),
    )


def test_a_plan_that_still_stands_is_taken_as_it_is() -> None:
    problem, old = two_cooks()
    found = repair(problem, expected(old), Budget(QUICK))
    assert found.rung == 1
    assert set(found.solution.timetable.assignments) == set(old.assignments)


def test_a_plan_no_worse_than_before_is_good_enough() -> None:
    """All but one minute late: as late as people knew of, so nobody looks for a better one."""
    problem, old = two_cooks()
    late = replace(problem, tasks=tuple(replace(t, due=490) for t in problem.tasks))
    known = score_of(tables_of(late), old)
    assert known.tardiness > 0
    found = repair(late, expected(old), Budget(QUICK), (known.short, known.tardiness))
    assert found.rung == 1


def test_work_of_a_cook_who_cannot_is_given_to_another() -> None:
    problem, old = two_cooks()
    left = tuple(replace(t, minutes={1: t.minutes[1]}) for t in problem.tasks)
    changed = replace(problem, tasks=left)
    plan = repair(changed, expected(old), Budget(QUICK)).solution.timetable
    assert check_timetable(changed, plan) == ()
    assert {item.worker for item in plan.assignments} == {1}
    assert len(plan.assignments) == len(old.assignments)


def test_batches_that_changed_hands_for_nothing_go_back() -> None:
    problem, old = two_cooks()
    known = expected(old)
    hands, times = hands_and_times(problem, known)
    run = Run(tables_of(problem), SearchOptions(deterministic_limit=5.0, workers=1), None)
    found = calmed(run, Old(hands, times), swapped(old, problem), known)
    assert check_timetable(problem, found) == ()
    who = {item.task: (item.worker, item.start) for item in found.assignments}
    assert who == {item.task: (item.worker, item.start) for item in old.assignments}


def test_replay_drops_what_cannot_be_kept_and_all_that_takes_from_it() -> None:
    """Nobody may peel any more: neither the dice nor the stock can be."""
    course = tiny_course()
    problem = course.workload.problem
    peel = course.workload.lots[0].tasks[0].task
    tasks = list(problem.tasks)
    tasks[peel] = replace(tasks[peel], minutes={})
    changed = replace(problem, tasks=tuple(tasks))
    plan = replay(tables_of(changed), expected(course.timetable).old)
    assert check_timetable(changed, plan) == ()
    assert {problem.tasks[item.task].id for item in plan.assignments} == {
        "roast-thigh-1",
        "roast-thigh-1:finish",
    }


def test_replay_keeps_work_begun_before_what_only_its_successor_needs() -> None:
    """A, then B; C takes both, A within the hour: A and C hang together, and B comes between."""
    problem, _ = two_cooks()
    jobs = list(problem.jobs)
    jobs[2] = replace(jobs[2], needs=(0, 1))
    changed = replace(problem, jobs=tuple(jobs), waits=(Wait(0, 2, 0, 60), Wait(1, 2, 0)))
    starts = {0: 500, 1: 510, 2: 520, 3: 530}
    old = {task: Assignment(task, 0, at, at + 10) for task, at in starts.items()}
    plan = replay(tables_of(changed), old)
    assert check_timetable(changed, plan) == ()
    assert {item.task: item.start for item in plan.assignments} == starts


def test_a_search_that_knows_of_old_cooks_gives_batches_back_to_them() -> None:
    """Both cooks are as good at everything: nothing but the hands that had it speaks for either."""
    problem, old = two_cooks()
    known = expected(old)
    hands, _ = hands_and_times(problem, known)
    search = Reinsertion(tables_of(problem), swapped(old, problem), 1, homes_of(hands, known))
    assert search.fewest.moved == len(problem.tasks)
    for _ in range(200):
        search.step(0.5)
    assert search.fewest == UNCHANGED
    assert check_timetable(problem, search.timetable()) == ()


def test_pairs_that_changed_places_are_counted_of_each_cook_alone() -> None:
    problem, old = two_cooks()
    known = expected(old)
    hands, _ = hands_and_times(problem, known)
    homes, tables = homes_of(hands, known), tables_of(problem)
    lines = Counter(item.worker for item in old.assignments)
    pairs = sum(n * (n - 1) // 2 for n in lines.values())
    assert pairs > 0
    assert homes.changed(state_of(tables, old)) == UNCHANGED
    assert homes.changed(state_of(tables, turned_round(old))) == Changed(0, pairs)
    assert homes.changed(state_of(tables, swapped(old, problem))) == Changed(
        len(old.assignments), 0
    )


def test_a_search_that_knows_of_old_times_gives_batches_back_their_order() -> None:
    problem, old = two_cooks()
    known = expected(old)
    hands, _ = hands_and_times(problem, known)
    search = Reinsertion(tables_of(problem), turned_round(old), 1, homes_of(hands, known))
    assert search.fewest.turned > 0
    for _ in range(200):
        search.step(0.5)
    assert search.fewest == UNCHANGED
    assert check_timetable(problem, search.timetable()) == ()
