"""The chain of causes behind a task, read from a timetable made by hand."""

from typing import Any

from planner.schedule.assemble import incumbent_of
from planner.schedule.problem import (
    Family,
    Hold,
    Hygiene,
    Job,
    Problem,
    Resource,
    Task,
    Wait,
    Worker,
)
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Assignment, Lead, Timetable
from planner.troubles.causes import Cause, causes_of, heaviest

ANA, BEN = 0, 1


def chain(
    *worked: tuple[int, int, int],
    waits: tuple[Wait, ...] = (),
    holds: tuple[Hold, ...] = (),
    release: int = 480,
    blocked: tuple[tuple[int, int], ...] = (),
    capacity: int = 1,
) -> tuple[Cause, ...]:
    """Causes of the last task of (cook, start, end), minutes after 08:00; one family each."""
    workers = (
        Worker("ana", 480, 1020, 1020, tuple((480 + a, 480 + b) for a, b in blocked)),
        Worker("ben", 480, 1020, 1020),
    )
    tasks = tuple(
        Task(
            f"t{n}",
            n,
            n,
            {ANA: end - start, BEN: end - start},
            release if n == len(worked) - 1 else 480,
        )
        for n, (_, start, end) in enumerate(worked)
    )
    problem = Problem(
        start=480,
        horizon=1020,
        workers=workers,
        resources=(Resource("equipment:oven", capacity),),
        families=tuple(Family(f"op{n}", "pork", "board", Hygiene(), 0) for n in range(len(tasks))),
        tasks=tasks,
        jobs=tuple(Job(f"j{n}", (n,)) for n in range(len(tasks))),
        waits=waits,
        holds=holds,
    )
    timetable = Timetable(
        tuple(
            Assignment(n, cook, 480 + start, 480 + end, Lead())
            for n, (cook, start, end) in enumerate(worked)
        )
    )
    tables = tables_of(problem)
    return causes_of(tables, incumbent_of(tables, timetable), len(tasks) - 1)


def kinds(causes: tuple[Cause, ...]) -> list[tuple[str, int, int]]:
    return [(cause.kind, cause.what, cause.minutes) for cause in causes]


def test_work_that_starts_with_the_day_has_only_its_own_minutes() -> None:
    assert kinds(chain((ANA, 0, 20))) == [("cook", ANA, 20)]


def test_a_cooks_line_is_followed_back_to_the_start_of_the_day() -> None:
    causes = chain((ANA, 0, 20), (ANA, 20, 50), (ANA, 50, 60))
    assert kinds(causes) == [("cook", ANA, 10), ("cook", ANA, 30), ("cook", ANA, 20)]
    assert heaviest(causes) == Cause("cook", ANA, 60)


def test_food_that_was_not_ready_leads_to_the_cook_who_made_it() -> None:
    causes = chain((BEN, 0, 40), (ANA, 40, 50), waits=(Wait(0, 1),))
    assert kinds(causes) == [("cook", ANA, 10), ("cook", BEN, 40)]
    assert heaviest(causes) == Cause("cook", BEN, 40)


def test_unattended_minutes_are_the_processes_own() -> None:
    causes = chain((BEN, 0, 10), (ANA, 100, 105), waits=(Wait(0, 1, 90),))
    assert kinds(causes) == [("cook", ANA, 5), ("process", 0, 90), ("cook", BEN, 10)]
    assert heaviest(causes) == Cause("process", 0, 90)


def test_an_absence_holds_up_what_follows_it() -> None:
    causes = chain((ANA, 0, 20), (ANA, 80, 90), blocked=((20, 80),))
    assert kinds(causes) == [("cook", ANA, 10), ("away", ANA, 60), ("cook", ANA, 20)]


def test_a_delivery_holds_up_what_starts_with_it() -> None:
    assert kinds(chain((ANA, 90, 100), release=480 + 90)) == [
        ("cook", ANA, 10),
        ("delivery", 0, 90),
    ]


OVEN = (Hold(0, 0, 0, tail=60), Hold(0, 1, 1, tail=60))
"""Each of two tasks fills the oven for an hour."""


def test_a_vessel_in_use_holds_up_the_next_to_use_it() -> None:
    causes = chain((BEN, 0, 10), (ANA, 70, 80), holds=OVEN)
    assert kinds(causes) == [("cook", ANA, 10), ("resource", 0, 70), ("cook", BEN, 10)]


def test_a_vessel_binds_even_if_the_cook_who_empties_it_fills_it_again() -> None:
    """Ana fills the oven, empties it an hour later and fills it again at once."""
    causes = chain(
        (ANA, 0, 10),
        (ANA, 70, 75),
        (ANA, 75, 85),
        waits=(Wait(0, 1, 60),),
        holds=(Hold(0, 0, 1), Hold(0, 2, 2)),
    )
    assert heaviest(causes) == Cause("resource", 0, 75)


def test_a_vessel_of_which_another_is_free_does_not_bind() -> None:
    causes = chain((BEN, 0, 10), (ANA, 70, 80), holds=OVEN, capacity=2)
    assert kinds(causes) == [("cook", ANA, 10)]


def test_a_place_that_only_hands_fill_binds_another_cook_but_not_the_same() -> None:
    bench = (Hold(0, 0, 0), Hold(0, 1, 1))
    assert kinds(chain((BEN, 0, 40), (ANA, 40, 50), holds=bench)) == [
        ("cook", ANA, 10),
        ("resource", 0, 40),
        ("cook", BEN, 40),
    ]
    assert kinds(chain((ANA, 0, 40), (ANA, 40, 50), holds=bench)) == [
        ("cook", ANA, 10),
        ("cook", ANA, 40),
    ]


def test_nothing_weighs_nothing() -> None:
    nothing: tuple[Any, ...] = ()
    assert heaviest(nothing) is None
