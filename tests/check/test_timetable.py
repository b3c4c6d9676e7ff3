"""The checker passes good timetables, and catches each single thing that can be wrong with one."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from planner.check.timetable import check_timetable
from planner.check.violation import Rule
from planner.schedule.problem import Exposure, Hold, Job, Problem, Rest, Task, Wait
from planner.schedule.timetable import Assignment, Lead, Timetable
from tests.kitchens import problems
from tests.kitchens.problems import Drawn, at


def change(drawn: Drawn, task: int, **fields: Any) -> Drawn:
    """``drawn`` with the assignment of ``task`` altered; ``shift`` moves it whole."""
    shift = fields.pop("shift", 0)
    assignments = tuple(
        replace(a, **{"start": a.start + shift, "end": a.end + shift, **fields})
        if a.task == task
        else a
        for a in drawn.timetable.assignments
    )
    return replace(drawn, timetable=replace(drawn.timetable, assignments=assignments))


def without(drawn: Drawn, task: int) -> Drawn:
    """``drawn`` with ``task`` not done."""
    kept = tuple(a for a in drawn.timetable.assignments if a.task != task)
    return replace(drawn, timetable=Timetable(kept))


def added(drawn: Drawn, *more: Assignment) -> Drawn:
    """``drawn`` with more assignments."""
    return replace(drawn, timetable=Timetable((*drawn.timetable.assignments, *more)))


def stricter(drawn: Drawn, task: int, **fields: Any) -> Drawn:
    """``drawn`` with ``task`` of the problem altered."""
    tasks = list(drawn.problem.tasks)
    tasks[task] = replace(tasks[task], **fields)
    return replace(drawn, problem=replace(drawn.problem, tasks=tuple(tasks)))


def problem_with(drawn: Drawn, **fields: Any) -> Drawn:
    """``drawn`` with fields of the problem altered."""
    return replace(drawn, problem=replace(drawn.problem, **fields))


def cleaning_every(drawn: Drawn, minutes: int) -> Drawn:
    """``drawn`` with surfaces that are cleaned after so many minutes of use."""
    costs = replace(drawn.problem.changeovers, clean_every=minutes)
    return problem_with(drawn, changeovers=costs)


def first_cook(drawn: Drawn, **fields: Any) -> Drawn:
    """``drawn`` with its first cook altered."""
    cook, *rest = drawn.problem.workers
    return problem_with(drawn, workers=(replace(cook, **fields), *rest))


def resting(drawn: Drawn, starts: tuple[tuple[int, ...], ...], *rests: Rest) -> Drawn:
    """``drawn`` with breaks for its first cook, at the times that the timetable then states."""
    rested = first_cook(drawn, rests=rests)
    return replace(rested, timetable=replace(rested.timetable, rests=starts))


def first_resource(drawn: Drawn, **fields: Any) -> Drawn:
    """``drawn`` with its first resource altered."""
    resource, *rest = drawn.problem.resources
    return problem_with(drawn, resources=(replace(resource, **fields), *rest))


def rules(problem: Problem, timetable: Timetable) -> set[Rule]:
    return {violation.rule for violation in check_timetable(problem, timetable)}


@pytest.mark.parametrize("draw", problems.ALL, ids=lambda draw: draw.__name__)
def test_the_timetable_worked_out_by_hand_is_good(draw: Callable[[], Drawn]) -> None:
    drawn = draw()
    assert check_timetable(drawn.problem, drawn.timetable) == ()


def test_doing_nothing_breaks_no_rule() -> None:
    drawn = problems.oven_of_two()
    assert check_timetable(drawn.problem, Timetable(())) == ()


BOARD = problems.two_cooks_one_board()
RAW = problems.raw_then_salad()
ICE = problems.blanch_to_ice()
OVEN = problems.oven_of_two()
ONIONS = problems.onions_for_two_dishes()
HERBS = problems.herbs_before_doors()
STEW = problems.missing_delivery()

OUT_TWICE = Exposure(1, 1, 7, after=(0,))
"""Chicken 1-5 is out for 4 minutes, lettuce 10-13 for 3 more."""

# Each entry: what is done to a good timetable, the one rule that breaks, and words the cook reads.
MUTATIONS: dict[str, tuple[Drawn, set[Rule], str]] = {
    "a task that does not exist": (
        added(HERBS, Assignment(7, 0, at(1), at(2))),
        {Rule.ONCE},
        "no task 7",
    ),
    "a cook who does not exist": (
        added(without(BOARD, 0), Assignment(0, 5, at(5), at(9), Lead(set_up=1), ((0, 0),))),
        {Rule.ONCE},
        "no cook 5",
    ),
    "food out a minute too long": (
        problem_with(RAW, exposures=(Exposure(0, 0, 3),)),
        {Rule.EXPOSURE},
        "out of temperature control for 4 min; at most 3 allowed",
    ),
    "food out too long in all": (
        problem_with(RAW, exposures=(Exposure(0, 0, 4), replace(OUT_TWICE, limit=6))),
        {Rule.EXPOSURE},
        "at the end of lettuce its food has been out of temperature control for 7 min",
    ),
    "food left out between two tasks": (
        problem_with(RAW, exposures=(Exposure(0, 1, 11),)),
        {Rule.EXPOSURE},
        "for 12 min",
    ),
    "food that was out before the day began": (
        problem_with(RAW, exposures=(Exposure(0, 0, 9, spent=6),)),
        {Rule.EXPOSURE},
        "for 10 min",
    ),
    "food that is out since before": (
        problem_with(RAW, exposures=(Exposure(0, 0, 9, since=at(-5)),)),
        {Rule.EXPOSURE},
        "for 10 min",
    ),
    "a task done twice": (
        added(HERBS, Assignment(0, 0, at(9), at(11))),
        {Rule.ONCE},
        "herbs is done twice",
    ),
    "a cook without the skill": (
        stricter(BOARD, 0, minutes={0: 4}),
        {Rule.ABLE},
        "b cannot do chicken",
    ),
    "a minute cut from the work": (change(HERBS, 0, start=at(14)), {Rule.DURATION}, "takes a 2"),
    "a minute more than the work": (change(HERBS, 0, start=at(12)), {Rule.DURATION}, "not 3"),
    "work before the day": (
        problem_with(BOARD, start=at(1)),
        {Rule.DAY},
        "lettuce runs 08:00 to 08:04, outside the day 08:01",
    ),
    "work past the horizon": (problem_with(HERBS, horizon=at(14)), {Rule.DAY}, "to 08:14"),
    "a start before the release": (
        stricter(RAW, 1, release=at(11)),
        {Rule.RELEASE},
        "lettuce starts at 08:10, before 08:11",
    ),
    "herbs cut too early": (
        change(HERBS, 0, shift=-8),
        {Rule.FRESH},
        "not before 08:08",
    ),
    "a start after its minute": (
        stricter(RAW, 0, start_by=at(0)),
        {Rule.START_BY},
        "chicken starts at 08:01, after 08:00",
    ),
    "an end of no use": (
        stricter(RAW, 0, until=at(4)),
        {Rule.UNTIL},
        "chicken ends at 08:05, of no use after 08:04",
    ),
    "a lead before the shift": (
        first_cook(BOARD, start=at(1)),
        {Rule.SHIFT},
        "a is at lettuce 08:00",
    ),
    "work past the legal overtime": (
        first_cook(HERBS, end=at(12), latest_end=at(14)),
        {Rule.SHIFT},
        "is in only 08:00 to 08:14",
    ),
    "a minute into the break": (
        first_cook(STEW, blocked=((at(2), at(9)),)),
        {Rule.BLOCKED},
        "a is at slice bread 08:08 to 08:11, but is away 08:02 to 08:09",
    ),
    "a lead in the break": (
        first_cook(BOARD, blocked=((at(0), at(1)),)),
        {Rule.BLOCKED},
        "lettuce",
    ),
    "a break within the work": (
        first_cook(STEW, blocked=((at(9), at(10)),)),
        {Rule.BLOCKED},
        "slice bread",
    ),
    "a break of an unknown cook": (
        resting(BOARD, ((at(20),), (), ()), Rest(5, at(20), at(20))),
        {Rule.REST},
        "breaks of 3 cooks are stated, not 2",
    ),
    "one break too many": (
        resting(BOARD, ((at(20), at(30)), ()), Rest(5, at(20), at(20))),
        {Rule.REST},
        "a has 1 breaks, not 2",
    ),
    "a break before its window": (
        resting(BOARD, ((at(9),), ()), Rest(5, at(10), at(15))),
        {Rule.REST},
        "a has a break 08:09 to 08:14, but it must start within 08:10 to 08:15",
    ),
    "a break after its window": (
        resting(BOARD, ((at(16),), ()), Rest(5, at(10), at(15))),
        {Rule.REST},
        "must start within 08:10 to 08:15",
    ),
    "a break on the line": (
        first_cook(
            resting(BOARD, ((at(12),), ()), Rest(5, at(10), at(15))), blocked=((at(16), at(20)),)
        ),
        {Rule.REST},
        "is away already 08:16 to 08:20",
    ),
    "two breaks at once": (
        resting(BOARD, ((at(12), at(14)), ()), Rest(5, at(10), at(15)), Rest(5, at(10), at(15))),
        {Rule.REST},
        "is away already 08:14 to 08:19",
    ),
    "a break within work that cannot pause": (
        resting(STEW, (), Rest(1, at(9), at(9))),
        {Rule.REST},
        "a is at slice bread 08:08 to 08:11, but has a break 08:09 to 08:10",
    ),
    "a break within a lead": (
        resting(BOARD, (), Rest(1, at(0), at(0))),
        {Rule.REST},
        "a is at lettuce 08:00 to 08:04, but has a break 08:00 to 08:01",
    ),
    "a pause that was worked through": (
        stricter(resting(STEW, (), Rest(1, at(9), at(9))), 3, pausable=True),
        {Rule.DURATION},
        "slice bread takes a 3 min, not 2",
    ),
    "put down right at the start": (
        change(stricter(resting(STEW, (), Rest(1, at(8), at(8))), 3, pausable=True), 3, end=at(12)),
        {Rule.REST, Rule.DURATION},
        "has a break 08:08 to 08:09",
    ),
    "two things at once": (
        change(OVEN, 2, shift=-1),
        {Rule.OVERLAP},
        "a turns to tray 2 in at 08:00, but has tray 1 in until 08:01",
    ),
    "a lead over earlier work": (
        change(problem_with(ONIONS, holds=()), 1, shift=-1),
        {Rule.OVERLAP},
        "dice 1 at 08:03, but has peel 2 until 08:04",
    ),
    "no set-up": (
        change(BOARD, 1, lead=Lead()),
        {Rule.LEAD},
        "before lettuce (first task of its cook): set up 1 not 0",
    ),
    "no changeover": (
        change(RAW, 1, lead=Lead(1, 0, 1, 2)),
        {Rule.LEAD},
        "changeover 1 not 0",
    ),
    "no hand wash": (change(RAW, 1, lead=Lead(1, 1, 0, 2)), {Rule.LEAD}, "hand wash 1 not 0"),
    "no clean": (
        change(RAW, 1, lead=Lead(1, 1, 1, 0)),
        {Rule.LEAD},
        "before lettuce (after chicken; on board 1 after chicken): clean 2 not 0",
    ),
    "a clean for another surface than the dirty one": (
        change(
            problem_with(RAW, holds=(*RAW.problem.holds, Hold(0, 1, 1))),
            1,
            units=((1, 0), (2, 1)),
            cleaned=(2,),
        ),
        {Rule.CLEAN, Rule.UNIT},
        "board 1 is not cleaned for lettuce after chicken",
    ),
    "a clean for someone else's hold": (
        change(RAW, 1, lead=Lead(1, 1, 1, 4), start=at(12), end=at(15), cleaned=(0, 1)),
        {Rule.CLEAN},
        "lettuce cleans for hold 0, for which it names no unit",
    ),
    "a clean that takes no time": (
        change(BOARD, 0, cleaned=(0,)),
        {Rule.LEAD},
        "before chicken (first task of its cook): clean 2 not 0",
    ),
    "a board in use for too long": (
        cleaning_every(BOARD, 8),
        {Rule.CLEAN},
        "board 1 is in use from 08:00 until 08:09 without a clean, by chicken last; at most 8 min",
    ),
    "a board in use since before the day's plan": (
        problem_with(
            cleaning_every(BOARD, 10),
            holds=(Hold(0, 0, 0), Hold(0, 1, 1, since=at(-2))),
        ),
        {Rule.CLEAN},
        "board 1 is in use from 07:58 until 08:09",
    ),
    "minutes in the wrong part of the lead": (
        change(RAW, 1, lead=Lead(2, 1, 0, 2)),
        {Rule.LEAD},
        "set up 1 not 2, hand wash 1 not 0",
    ),
    "a set-up within a batch": (
        change(ONIONS, 3, shift=1, lead=Lead(set_up=1)),
        {Rule.LEAD},
        "before dice 2 (after dice 1): set up 0 not 1",
    ),
    "ice too late": (
        change(ICE, 3, shift=1),
        {Rule.WAIT},
        "ice peas starts 2 min after blanch peas; at most 1",
    ),
    "out of the oven too soon": (
        change(OVEN, 5, shift=-1),
        {Rule.WAIT},
        "tray 3 out starts 5 min after tray 3 in; at least 6",
    ),
    "diced before it is peeled": (
        problem_with(ONIONS, waits=(Wait(1, 2),)),
        {Rule.WAIT},
        "peel 2 starts -6 min after dice 1",
    ),
    "no board named": (change(BOARD, 1, units=()), {Rule.UNIT}, "does not say which board"),
    "a board that is not there": (
        change(BOARD, 1, units=((1, 1),)),
        {Rule.UNIT},
        "board 2, but there are 1",
    ),
    "a board counted from below zero": (change(BOARD, 1, units=((1, -1),)), {Rule.UNIT}, "board 0"),
    "two boards for one hold": (
        change(first_resource(BOARD, capacity=2), 1, units=((1, 0), (1, 1))),
        {Rule.UNIT},
        "more than one unit of board",
    ),
    "a unit for someone else's hold": (
        change(BOARD, 1, units=((1, 0), (0, 0))),
        {Rule.UNIT},
        "names a unit for hold 0",
    ),
    "two at one board": (
        change(BOARD, 0, shift=-1),
        {Rule.SHARED_UNIT},
        "chicken takes board 1 at 08:03, while lettuce has it until 08:04",
    ),
    "a board not yet free for the next lead": (
        problem_with(
            BOARD, holds=(replace(BOARD.problem.holds[0]), replace(BOARD.problem.holds[1], tail=1))
        ),
        {Rule.SHARED_UNIT},
        "while lettuce has it until 08:05",
    ),
    "three trays in an oven of two": (
        change(OVEN, 4, shift=-6),
        {Rule.CAPACITY},
        "3 of oven are in use at 08:02 by tray 1 in, tray 2 in, tray 3 in; there are 2",
    ),
    "one hold that takes two of two": (
        problem_with(
            OVEN, holds=(replace(OVEN.problem.holds[0], units=2), *OVEN.problem.holds[1:])
        ),
        {Rule.CAPACITY},
        "3 of oven",
    ),
    "a tail that keeps the oven": (
        problem_with(OVEN, holds=(replace(OVEN.problem.holds[0], tail=1), *OVEN.problem.holds[1:])),
        {Rule.CAPACITY},
        "there are 2",
    ),
    "a tray never taken out": (
        without(OVEN, 5),
        {Rule.HOLD, Rule.WHOLE_JOB},
        "tray 3 in takes oven, but tray 3 out that frees it is not done",
    ),
    "half a lot": (
        without(problem_with(OVEN, holds=()), 5),
        {Rule.WHOLE_JOB},
        "tray 3 is half done: tray 3 out missing, tray 3 in done",
    ),
    "diced onions that nobody peeled": (
        without(ONIONS, 2),
        {Rule.NEEDS},
        "dice 2 is made without peel 2",
    ),
    "stock without bones": (
        added(STEW, Assignment(0, 0, at(0), at(1))),
        {Rule.IMPOSSIBLE},
        "stock cannot be made: no bones",
    ),
}


@pytest.mark.parametrize("name", MUTATIONS)
def test_a_single_mutation_breaks_just_its_rule(name: str) -> None:
    drawn, broken, words = MUTATIONS[name]
    found = check_timetable(drawn.problem, drawn.timetable)
    assert {violation.rule for violation in found} == broken
    assert any(words in str(violation) for violation in found), found


LIMITS: dict[str, Drawn] = {
    "ends right when it is fresh": change(HERBS, 0, shift=-7),
    "ends right at the end of use": stricter(RAW, 0, until=at(5)),
    "starts right at the release": stricter(RAW, 1, release=at(10)),
    "starts right after the break": first_cook(STEW, blocked=((at(0), at(8)),)),
    "ends right at the break": first_cook(RAW, blocked=((at(13), at(20)),)),
    "a break between two tasks' stretches": first_cook(BOARD, blocked=((at(4), at(5)),)),
    "ends right at the latest end": first_cook(RAW, end=at(13), latest_end=at(13)),
    "a break right after the work": resting(BOARD, (), Rest(5, at(4), at(4))),
    "put down over a break": change(
        stricter(resting(STEW, (), Rest(2, at(9), at(9))), 3, pausable=True), 3, end=at(13)
    ),
    "fills the day": problem_with(RAW, horizon=at(13)),
    "a board in use for as long as it may be": cleaning_every(BOARD, 9),
    "cleaned of the food before, a board is as new": cleaning_every(RAW, 4),
    "cleaned by the clock, a board is as new": change(
        cleaning_every(BOARD, 8), 0, shift=2, lead=Lead(set_up=1, clean=2), cleaned=(0,)
    ),
    "cleaned for no reason": change(BOARD, 0, shift=2, lead=Lead(1, clean=2), cleaned=(0,)),
    "waits the longest allowed": change(problem_with(ICE, waits=(Wait(2, 3, 2, 2),)), 3, shift=1),
    "out as long as it may be": problem_with(RAW, exposures=(Exposure(0, 0, 4), OUT_TWICE)),
    "a tail past the horizon": problem_with(
        HERBS, resources=OVEN.problem.resources, holds=(Hold(0, 0, 0, tail=600),)
    ),
}


@pytest.mark.parametrize("name", LIMITS)
def test_what_is_right_at_a_limit_is_good(name: str) -> None:
    drawn = LIMITS[name]
    assert check_timetable(drawn.problem, drawn.timetable) == ()


def test_every_rule_of_a_timetable_has_a_mutation() -> None:
    """So that a rule added later is not left untested."""
    # What is held by hand is judged with the lots: tests/pins.
    of_quantities = {Rule.PIN, *list(Rule)[list(Rule).index(Rule.BALANCE) :]}
    assert set().union(*(broken for _, broken, _ in MUTATIONS.values())) == (
        set(Rule) - of_quantities
    )


def test_all_that_is_wrong_is_told_at_once() -> None:
    drawn = change(change(RAW, 0, units=()), 1, lead=Lead(), shift=-8)
    assert rules(drawn.problem, drawn.timetable) >= {Rule.UNIT, Rule.OVERLAP, Rule.LEAD}


def test_nothing_is_given_back_before_it_is_taken() -> None:
    """The first tray comes out 0-1 and goes in 5-6, where no wait forbids it."""
    problem = replace(OVEN.problem, waits=())
    backwards = Timetable((Assignment(1, 0, at(0), at(1)), Assignment(0, 0, at(5), at(6))))
    assert rules(problem, backwards) == {Rule.HOLD}


def test_all_who_come_while_a_unit_is_kept_are_told_of() -> None:
    """The board is kept 0-25; who takes it at 4 and who takes it at 8 both find it taken."""
    problem = replace(
        BOARD.problem,
        workers=tuple(replace(BOARD.problem.workers[0], id=name) for name in "abc"),
        families=(replace(BOARD.problem.families[1], set_up=0),),
        tasks=tuple(Task(f"slice {n}", n, 0, {n: 3}, at(0)) for n in range(3)),
        jobs=tuple(Job(f"lot {n}", (n,)) for n in range(3)),
        holds=(Hold(0, 0, 0, tail=22), Hold(0, 1, 1), Hold(0, 2, 2)),
    )
    crowded = Timetable(
        tuple(Assignment(n, n, at(4 * n), at(4 * n + 3), Lead(), ((n, 0),)) for n in range(3))
    )
    found = [violation.rule for violation in check_timetable(problem, crowded)]
    assert found == [Rule.SHARED_UNIT, Rule.SHARED_UNIT]
