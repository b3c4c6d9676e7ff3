"""Scheduling problems that fit on a napkin, each with its best timetable worked out by hand.

Minutes run from 480 (08:00). Each function's docstring tells the story, and why nothing better is
possible; figures in it are minutes after 08:00.
"""

from dataclasses import dataclass

from planner.schedule.problem import (
    Changeovers,
    Family,
    Hold,
    Hygiene,
    Job,
    Problem,
    Promise,
    Resource,
    Serving,
    Task,
    Wait,
    Worker,
)
from planner.schedule.timetable import Assignment, Lead, Score, Timetable

EIGHT = 480
CLEAN = Hygiene()
POULTRY = Hygiene(raw_animal="poultry")


@dataclass(frozen=True)
class Drawn:
    """A problem, a best timetable, and its score."""

    problem: Problem
    timetable: Timetable
    score: Score


def at(minute: int) -> int:
    """Minutes after midnight of ``minute`` after 08:00."""
    return EIGHT + minute


def cook(name: str, minutes: int = 20, *, blocked: tuple[tuple[int, int], ...] = ()) -> Worker:
    """A cook in from 08:00 for ``minutes``, with 10 more of overtime."""
    return Worker(name, EIGHT, at(minutes), at(minutes + 10), blocked)


def serving(*lots: int) -> tuple[tuple[Serving, ...], ...]:
    """For each lot: ten portions of a promise of its own."""
    return tuple((Serving(lot, "all", 10),) for lot in lots)


def promises(count: int) -> tuple[Promise, ...]:
    """``count`` promises of ten portions."""
    return tuple(Promise(f"dish {index + 1}", 10) for index in range(count))


def two_cooks_one_board() -> Drawn:
    """Chicken and lettuce, two cooks, one board: lettuce first needs no clean.

    Lettuce 1-4 after a minute of set-up, then the other cook sets up 4-5 and dices 5-9. Chicken
    first costs the clean (2); the same cook for both costs a changeover (1).
    """
    problem = Problem(
        start=EIGHT,
        horizon=at(30),
        workers=(cook("a"), cook("b")),
        resources=(Resource("board", 1, contact=True),),
        families=(
            Family("dice", "chicken", "board", POULTRY, set_up=1),
            Family("slice", "lettuce", "board", CLEAN, set_up=1),
        ),
        tasks=(
            Task("chicken", 0, 0, {0: 4, 1: 4}, EIGHT),
            Task("lettuce", 1, 1, {0: 3, 1: 3}, EIGHT),
        ),
        jobs=(
            Job("chicken", (0,), serves=serving(0)[0]),
            Job("lettuce", (1,), serves=serving(1)[0]),
        ),
        holds=(Hold(0, 0, 0), Hold(0, 1, 1)),
        promises=promises(2),
        changeovers=Changeovers(another_operation=1, hand_wash=1, clean=2),
    )
    timetable = Timetable(
        (
            Assignment(1, 0, at(1), at(4), Lead(set_up=1), ((1, 0),)),
            Assignment(0, 1, at(5), at(9), Lead(set_up=1), ((0, 0),)),
        )
    )
    return Drawn(problem, timetable, Score(0, 0, labor=9, freshness=0, finish=9))


def raw_then_salad() -> Drawn:
    """Chicken must be done by 6, lettuce comes in at 4: one cook, one board, so a clean between.

    Set-up 0-1, chicken 1-5; set-up 1, changeover 1, hand wash 1 and clean 2 make 5-10; lettuce
    10-13.
    """
    problem = Problem(
        start=EIGHT,
        horizon=at(30),
        workers=(cook("a"),),
        resources=(Resource("board", 1, contact=True),),
        families=(
            Family("dice", "chicken", "board", POULTRY, set_up=1),
            Family("slice", "lettuce", "board", CLEAN, set_up=1),
        ),
        tasks=(
            Task("chicken", 0, 0, {0: 4}, EIGHT, until=at(6)),
            Task("lettuce", 1, 1, {0: 3}, at(4)),
        ),
        jobs=(
            Job("chicken", (0,), serves=serving(0)[0]),
            Job("lettuce", (1,), serves=serving(1)[0]),
        ),
        holds=(Hold(0, 0, 0), Hold(0, 1, 1)),
        promises=promises(2),
        changeovers=Changeovers(another_operation=1, hand_wash=1, clean=2),
    )
    timetable = Timetable(
        (
            Assignment(0, 0, at(1), at(5), Lead(set_up=1), ((0, 0),)),
            Assignment(1, 0, at(10), at(13), Lead(1, 1, 1, 2), ((1, 0),)),
        )
    )
    return Drawn(problem, timetable, Score(0, 0, labor=13, freshness=0, finish=13))


def blanch_to_ice() -> Drawn:
    """Beans and peas, blanched 2 and on ice within 1: the cook goes over at once, each time.

    Blanch 0-2, over 2-3, ice 3-4, back 4-5, blanch 5-7, over 7-8, ice 8-9. Blanching both first
    would save two ways, but the first would wait 3.
    """
    problem = Problem(
        start=EIGHT,
        horizon=at(30),
        workers=(cook("a"),),
        resources=(Resource("pot", 1), Resource("ice bath", 1)),
        families=(
            Family("blanch", "greens", "range", CLEAN, set_up=0),
            Family("shock", "greens", "sink", CLEAN, set_up=0),
        ),
        tasks=(
            Task("blanch beans", 0, 0, {0: 2}, EIGHT),
            Task("ice beans", 0, 1, {0: 1}, EIGHT),
            Task("blanch peas", 1, 0, {0: 2}, EIGHT),
            Task("ice peas", 1, 1, {0: 1}, EIGHT),
        ),
        jobs=(
            Job("beans", (0, 1), serves=serving(0)[0]),
            Job("peas", (2, 3), serves=serving(1)[0]),
        ),
        waits=(Wait(0, 1, 0, 1), Wait(2, 3, 0, 1)),
        holds=(Hold(0, 0, 0), Hold(1, 1, 1), Hold(0, 2, 2), Hold(1, 3, 3)),
        promises=promises(2),
        changeovers=Changeovers(another_station=1),
    )
    over = Lead(changeover=1)
    timetable = Timetable(
        (
            Assignment(0, 0, at(0), at(2)),
            Assignment(1, 0, at(3), at(4), over),
            Assignment(2, 0, at(5), at(7), over),
            Assignment(3, 0, at(8), at(9), over),
        )
    )
    return Drawn(problem, timetable, Score(0, 0, labor=9, freshness=0, finish=9))


def oven_of_two() -> Drawn:
    """Three trays of 1 + 6 + 1 minutes, an oven of two: the third waits until one comes out.

    In 0-1 and 1-2, out 7-8; the third goes in 8-9, the second comes out 9-10, the third 15-16. No
    third tray can go in before 8, so none is out before 16.
    """
    trays = range(3)
    problem = Problem(
        start=EIGHT,
        horizon=at(30),
        workers=(cook("a"),),
        resources=(Resource("oven", 2),),
        families=(
            Family("roast", "roots", "oven", CLEAN, set_up=0),
            Family("roast:finish", "roots", "oven", CLEAN, set_up=0),
        ),
        tasks=tuple(
            task
            for tray in trays
            for task in (
                Task(f"tray {tray + 1} in", tray, 0, {0: 1}, EIGHT),
                Task(f"tray {tray + 1} out", tray, 1, {0: 1}, EIGHT),
            )
        ),
        jobs=tuple(
            Job(f"tray {tray + 1}", (2 * tray, 2 * tray + 1), serves=serving(tray)[0])
            for tray in trays
        ),
        waits=tuple(Wait(2 * tray, 2 * tray + 1, 6) for tray in trays),
        holds=tuple(Hold(0, 2 * tray, 2 * tray + 1) for tray in trays),
        promises=promises(3),
    )
    starts = {0: 0, 2: 1, 1: 7, 4: 8, 3: 9, 5: 15}
    timetable = Timetable(
        tuple(Assignment(task, 0, at(start), at(start + 1)) for task, start in starts.items())
    )
    return Drawn(problem, timetable, Score(0, 0, labor=6, freshness=0, finish=16))


def onions_for_two_dishes() -> Drawn:
    """Peel and dice for two dishes: peeling both, then dicing both, pays each set-up once.

    Set-up 0-2, peel 2-4, changeover and set-up 4-7, dice 7-11.
    """
    lots = range(2)
    problem = Problem(
        start=EIGHT,
        horizon=at(30),
        workers=(cook("a"),),
        resources=(Resource("board", 1),),
        families=(
            Family("peel", "onion", "board", CLEAN, set_up=2),
            Family("dice", "onion", "board", CLEAN, set_up=2),
        ),
        tasks=tuple(
            task
            for lot in lots
            for task in (
                Task(f"peel {lot + 1}", 2 * lot, 0, {0: 1}, EIGHT),
                Task(f"dice {lot + 1}", 2 * lot + 1, 1, {0: 2}, EIGHT),
            )
        ),
        jobs=tuple(
            job
            for lot in lots
            for job in (
                Job(f"peel {lot + 1}", (2 * lot,)),
                Job(f"dice {lot + 1}", (2 * lot + 1,), (2 * lot,), serving(lot)[0]),
            )
        ),
        waits=tuple(Wait(2 * lot, 2 * lot + 1) for lot in lots),
        holds=tuple(Hold(0, task, task) for task in range(4)),
        promises=promises(2),
        changeovers=Changeovers(another_operation=1),
    )
    timetable = Timetable(
        (
            Assignment(0, 0, at(2), at(3), Lead(set_up=2)),
            Assignment(2, 0, at(3), at(4)),
            Assignment(1, 0, at(7), at(9), Lead(set_up=2, changeover=1)),
            Assignment(3, 0, at(9), at(11)),
        )
    )
    return Drawn(problem, timetable, Score(0, 0, labor=11, freshness=0, finish=11))


def herbs_before_doors() -> Drawn:
    """Herbs (2) due at 15 and fresh only from 8: chopped 13-15, though the cook is free at 0."""
    problem = Problem(
        start=EIGHT,
        horizon=at(30),
        workers=(cook("a"),),
        resources=(),
        families=(Family("chop", "herbs", "board", CLEAN, set_up=0),),
        tasks=(Task("herbs", 0, 0, {0: 2}, EIGHT, earliest_end=at(8), due=at(15), fresh_weight=1),),
        jobs=(Job("herbs", (0,), serves=serving(0)[0]),),
        promises=promises(1),
    )
    timetable = Timetable((Assignment(0, 0, at(13), at(15)),))
    return Drawn(problem, timetable, Score(0, 0, labor=2, freshness=0, finish=15))


def missing_delivery() -> Drawn:
    """No bones: no stock, so no stew; and the break is kept.

    The stew's dish (weight 2) wants 10 portions of stock, 10 of stew and 4 of salad; it is 10
    short, not 20 or 24: a plate misses once whatever it misses. So its salad would save no portion
    and is left. Bread (3) does not fit before the break 2-8, so it goes 8-11.
    """
    problem = Problem(
        start=EIGHT,
        horizon=at(30),
        workers=(cook("a", blocked=((at(2), at(8)),)),),
        resources=(),
        families=(
            Family("cook", "stew", "range", CLEAN, set_up=0),
            Family("mix", "salad", "board", CLEAN, set_up=0),
        ),
        tasks=(
            Task("simmer stock", 0, 0, {0: 1}, EIGHT),
            Task("cook stew", 1, 0, {0: 1}, EIGHT),
            Task("mix salad", 2, 1, {0: 2}, EIGHT),
            Task("slice bread", 3, 1, {0: 3}, EIGHT),
        ),
        jobs=(
            Job("stock", (0,), serves=(Serving(0, "stock", 10),), impossible="no bones"),
            Job("stew", (1,), needs=(0,), serves=(Serving(0, "stew", 10),)),
            Job("salad", (2,), serves=(Serving(0, "salad", 4),)),
            Job("bread", (3,), serves=(Serving(1, "bread", 10),)),
        ),
        promises=(Promise("stew", 10, weight=2), Promise("bread", 10)),
    )
    timetable = Timetable((Assignment(3, 0, at(8), at(11)),))
    return Drawn(problem, timetable, Score(short=20, tardiness=0, labor=3, freshness=0, finish=11))


ALL = (
    two_cooks_one_board,
    raw_then_salad,
    blanch_to_ice,
    oven_of_two,
    onions_for_two_dishes,
    herbs_before_doors,
    missing_delivery,
)
