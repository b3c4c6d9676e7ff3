"""Tiny problems at random that can be solved by trying everything: a quarter of an hour, two cooks.

They carry all that makes timetables hard: changeovers and cleans, boards with a state and, if asked
for, to be cleaned after so long in use, an oven held across two tasks, shortest and longest waits,
breaks, overtime, lots that need others, food that is late, of no use, wanted fresh, or out of the
cold for too long.
"""

from dataclasses import dataclass, field, replace

from hypothesis import strategies as st

from planner.schedule.problem import (
    Changeovers,
    Exposure,
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
    Walk,
    Worker,
)

HYGIENE = (
    Hygiene(),
    Hygiene(raw_animal="poultry"),
    Hygiene(raw_animal="fish"),
    Hygiene(allergens=frozenset({"milk"})),
)
BOARD, OVEN = 0, 1


@dataclass
class _Parts:
    """What is drawn so far, and within which limits."""

    start: int
    horizon: int
    families: int
    ovens: int
    tasks: list[Task] = field(default_factory=list)
    waits: list[Wait] = field(default_factory=list)
    holds: list[Hold] = field(default_factory=list)
    jobs: list[Job] = field(default_factory=list)


def _maybe(values: st.SearchStrategy[int]) -> st.SearchStrategy[int | None]:
    return st.none() | values


@st.composite
def _workers(draw: st.DrawFn, number: int, start: int, horizon: int) -> Worker:
    begin = draw(st.integers(start, start + 2))
    end = draw(st.integers(start + 6, horizon))
    latest = draw(st.integers(end, horizon))
    pause = draw(st.integers(start + 1, horizon - 2))
    blocked = ((pause, pause + draw(st.integers(1, 3))),) if draw(st.booleans()) else ()
    return Worker(f"cook {number}", begin, end, latest, blocked)


@st.composite
def _tasks(draw: st.DrawFn, index: int, lot: int, parts: _Parts) -> Task:
    start, horizon = parts.start, parts.horizon
    able = draw(st.sampled_from(((0,), (1,), (0, 1), (0, 1))))
    due = draw(st.sampled_from((None, start + 3, start + 5, start + 8, horizon)))
    until = draw(st.sampled_from((None, None, None, start + 6, start + 8, horizon)))
    fresh = draw(st.sampled_from((None, None, None, start + 3, start + 5)))
    return Task(
        id=f"task {index}",
        lot=lot,
        family=draw(st.integers(0, parts.families - 1)),
        minutes={worker: draw(st.integers(1, 3)) for worker in able},
        release=draw(st.sampled_from((start, start, start + 1, start + 3))),
        earliest_end=fresh,
        due=due,
        due_weight=draw(st.integers(1, 2)),
        until=until,
        fresh_weight=draw(st.integers(0, 1)) if due is not None else 0,
    )


def _lot(draw: st.DrawFn, parts: _Parts, most: int) -> None:
    """Add a lot of one task, or of two with a wait between; perhaps the oven all the while.

    Each task may take a board, or the two keep one from the first to the last.
    """
    lot, first = len(parts.jobs), len(parts.tasks)
    size = draw(st.integers(1, min(2, most)))
    kept = size == 2 and draw(st.integers(0, 4)) == 4
    for index in range(first, first + size):
        parts.tasks.append(draw(_tasks(index, lot, parts)))
        if not kept and draw(st.sampled_from((True, True, False))):
            parts.holds.append(Hold(BOARD, index, index, tail=draw(st.integers(0, 1))))
    if kept:
        parts.holds.append(Hold(BOARD, first, first + 1, tail=draw(st.integers(0, 1))))
    if size == 2:
        least = draw(st.integers(0, 2))
        slack = draw(_maybe(st.integers(0, 2)))
        parts.waits.append(Wait(first, first + 1, least, None if slack is None else least + slack))
    if draw(st.booleans()):
        last = first + size - 1
        units, tail = draw(st.integers(1, parts.ovens)), draw(st.integers(0, 1))
        parts.holds.append(Hold(OVEN, first, last, units, tail))
    needs = draw(st.sampled_from([(), *((other,) for other in range(lot))]))
    if draw(st.booleans()) and needs:
        longest = draw(st.sampled_from((None, None, None, 3, 5)))
        parts.waits.append(Wait(parts.jobs[needs[0]].tasks[-1], first, 0, longest))
    wanted_by: list[tuple[int, ...]] = [(), (0,), (1,), (0, 1), (0, 1)]
    hindrance = [*("" for _ in range(15)), "nothing to make it of"]
    serves = tuple(
        Serving(promise, draw(st.sampled_from(("rice", "sauce"))), draw(st.integers(1, 3)))
        for promise in draw(st.sampled_from(wanted_by))
    )
    parts.jobs.append(
        Job(
            id=f"lot {lot}",
            tasks=tuple(range(first, first + size)),
            needs=needs,
            serves=serves,
            impossible=draw(st.sampled_from(hindrance)),
        )
    )


def _exposures(draw: st.DrawFn, parts: _Parts) -> tuple[Exposure, ...]:
    """Minutes out of the cold of some lots, alone or on top of those of others before."""
    found: list[Exposure] = []
    for job in parts.jobs:
        if draw(st.sampled_from((True, False, False))):
            found.append(
                Exposure(
                    first=job.tasks[0],
                    last=job.tasks[-1],
                    limit=draw(st.integers(2, 9)),
                    after=tuple(other for other in range(len(found)) if draw(st.booleans())),
                    spent=draw(st.sampled_from((0, 0, 2))),
                    since=draw(st.sampled_from((None, None, None, parts.start))),
                )
            )
    return tuple(found)


def _used(draw: st.DrawFn, parts: _Parts) -> list[Hold]:
    """The holds, some of them with a time since when their board has been in use."""
    ago = st.sampled_from((None, None, None, parts.start - 2))
    return [replace(h, since=draw(ago)) if h.resource == BOARD else h for h in parts.holds]


@st.composite
def tiny_problems(
    draw: st.DrawFn, *, minutes: int = 14, most_tasks: int = 4, by_clock: bool = False
) -> Problem:
    """A problem of two cooks and up to ``most_tasks`` tasks within ``minutes``.

    ``by_clock``: boards may have to be cleaned after so long in use, and some have been in use.
    """
    start, horizon = 480, 480 + minutes
    drawn = [
        Family(
            operation=draw(st.sampled_from(("cut", "mix"))),
            food=draw(st.sampled_from(("bean", "egg"))),
            station=draw(st.sampled_from(("bench", "sink"))),
            hygiene=draw(st.sampled_from(HYGIENE)),
            set_up=draw(st.integers(0, 1)),
        )
        for _ in range(draw(st.integers(1, 3)))
    ]
    families = tuple(dict.fromkeys(drawn))  # the same family twice would be two families
    parts = _Parts(start, horizon, len(families), draw(st.integers(1, 2)))
    count = draw(st.integers(min(3, most_tasks), most_tasks))
    while len(parts.tasks) < count:
        _lot(draw, parts, count - len(parts.tasks))
    return Problem(
        start=start,
        horizon=horizon,
        workers=tuple(draw(_workers(number, start, horizon)) for number in range(2)),
        resources=(
            Resource("board", draw(st.integers(1, 2)), contact=True),
            Resource("oven", parts.ovens),
        ),
        families=families,
        tasks=tuple(parts.tasks),
        jobs=tuple(parts.jobs),
        waits=tuple(parts.waits),
        holds=tuple(_used(draw, parts) if by_clock else parts.holds),
        promises=tuple(Promise(f"dish {p}", 6, draw(st.integers(1, 2))) for p in range(2)),
        exposures=_exposures(draw, parts),
        changeovers=Changeovers(
            another_food=draw(st.integers(0, 1)),
            another_operation=draw(st.integers(0, 2)),
            another_station=draw(st.integers(0, 2)),
            walks=draw(st.sampled_from(((), (Walk("sink", "bench", 1), Walk("far", "sink", 9))))),
            hand_wash=draw(st.integers(0, 1)),
            clean=draw(st.integers(1, 2)),
            clean_every=draw(st.sampled_from((None, 3, 4, 6, 8))) if by_clock else None,
        ),
    )
