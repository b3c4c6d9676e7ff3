"""The leads that a timetable's own sequence asks for, worked out anew."""

from collections import defaultdict
from collections.abc import Iterable
from itertools import pairwise

from planner.schedule.problem import Hygiene, Problem
from planner.schedule.timetable import Assignment, Lead


def leaves_behind(before: Hygiene, after: Hygiene) -> bool:
    """Whether a surface or cook that had ``before`` must be clean for ``after``.

    So on leaving a species of raw animal food, and on leaving an allergen that ``after`` lacks.
    """
    other_species = before.raw_animal is not None and before.raw_animal != after.raw_animal
    return other_species or bool(before.allergens - after.allergens)


def expected_leads(
    problem: Problem, assignments: tuple[Assignment, ...]
) -> tuple[tuple[Lead, str], ...]:
    """Return for each assignment its lead, and in words what it follows.

    Tasks and workers must exist; each task stands once. Only starts, workers, units and what is
    cleaned are read, never the leads that are stated.
    """
    before = _previous_by_cook(assignments)
    cleans, after = _cleans(problem, assignments)
    return tuple(
        (
            _lead(problem, a, before.get(a.task), len(set(a.cleaned)) or cleans[a.task]),
            "; ".join([_follows(problem, before.get(a.task)), *after[a.task]]),
        )
        for a in assignments
    )


def _previous_by_cook(assignments: tuple[Assignment, ...]) -> dict[int, int]:
    lanes: dict[int, list[Assignment]] = defaultdict(list)
    for a in assignments:
        lanes[a.worker].append(a)
    previous: dict[int, int] = {}
    for lane in lanes.values():
        lane.sort(key=lambda a: (a.start, a.end, a.task))
        for earlier, later in pairwise(lane):
            previous[later.task] = earlier.task
    return previous


def _lead(problem: Problem, a: Assignment, previous: int | None, cleans: int) -> Lead:
    clean = problem.changeovers.clean * cleans
    own = problem.tasks[a.task].family
    family = problem.families[own]
    if previous is None:
        return Lead(set_up=family.set_up, clean=clean)
    other = problem.tasks[previous].family
    if other == own:
        return Lead(clean=clean)
    was = problem.families[other]
    costs = problem.changeovers
    if was.station != family.station:
        pair = {was.station, family.station}
        changeover = next(
            (walk.minutes for walk in costs.walks if {walk.station, walk.other} == pair),
            costs.another_station,
        )
    elif was.operation != family.operation:
        changeover = costs.another_operation
    elif was.food != family.food:
        changeover = costs.another_food
    else:
        changeover = 0
    wash = costs.hand_wash if leaves_behind(was.hygiene, family.hygiene) else 0
    return Lead(set_up=family.set_up, changeover=changeover, hand_wash=wash, clean=clean)


def _follows(problem: Problem, previous: int | None) -> str:
    if previous is None:
        return "first task of its cook"
    return f"after {problem.tasks[previous].id}"


def left_unclean(
    problem: Problem, assignments: Iterable[Assignment]
) -> dict[int, tuple[int, int, int]]:
    """Holds whose unit another food has left unclean: (task, the task before, unit) by hold."""
    users: dict[tuple[int, int], list[tuple[int, int, int]]] = defaultdict(list)
    for a in assignments:
        for hold, unit in a.units:
            known = 0 <= hold < len(problem.holds)
            if known and problem.holds[hold].first == a.task:
                users[problem.holds[hold].resource, unit].append((a.start, a.task, hold))
    found: dict[int, tuple[int, int, int]] = {}
    for (_, unit), holders in users.items():
        holders.sort()
        for (_, earlier, _), (_, later, hold) in pairwise(holders):
            was, now = (problem.families[problem.tasks[t].family].hygiene for t in (earlier, later))
            if leaves_behind(was, now):
                found[hold] = later, earlier, unit
    return found


def _cleans(
    problem: Problem, assignments: tuple[Assignment, ...]
) -> tuple[dict[int, int], dict[int, list[str]]]:
    """Count, for each task, the units it opens that another food has left unclean."""
    count: dict[int, int] = defaultdict(int)
    words: dict[int, list[str]] = defaultdict(list)
    for hold, (later, earlier, unit) in left_unclean(problem, assignments).items():
        count[later] += 1
        name = problem.resources[problem.holds[hold].resource].id
        words[later].append(f"on {name} {unit + 1} after {problem.tasks[earlier].id}")
    return count, words
