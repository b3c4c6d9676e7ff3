"""The quick constructive plan: several priority rules, each placing one cluster after another.

It always gives an answer: what finds no place is left short, and the solver goes on from there.
"""

from collections.abc import Iterator, Sequence
from heapq import heapify, heappop, heappush

from planner.schedule.assemble import Choice, assemble
from planner.schedule.clusters import Clusters, clusters_of, linked
from planner.schedule.rests import Slot
from planner.schedule.rules import (
    FIRST_RULES,
    RULES,
    STEP,
    Classes,
    Key,
    Rule,
    classes_of,
    key_of,
    needs_first,
)
from planner.schedule.run import Run
from planner.schedule.score import score_of
from planner.schedule.state import State
from planner.schedule.tables import Tables, with_needs
from planner.schedule.timetable import Score, Timetable
from planner.schedule.together import place_cluster
from planner.wording import sentence

Rests = Sequence[Sequence[Slot]]
"""Per worker, where the breaks are."""

_BLAME_ROUNDS = 24
_BLAMED_RULES = 3
_MOST_BUMP = 600


def offer_constructive(run: Run, *, within_limit: bool = False) -> None:
    """Offer the constructive plans to a run, until it has heard enough of them.

    ``within_limit``: or until its time is up, though the first rules were not all heard.
    """
    plans = constructive_plans(run.tables, run.constructive_work())
    for number, (rule, timetable, score) in enumerate(plans, 1):
        run.offer(timetable, score, _origin(rule))
        if run.constructed_enough(number) or (within_limit and run.left() <= 0):
            return


def _origin(rule: Rule) -> str:
    match rule.by:
        case "promise":
            return sentence("constructive, by promise")
        case "service":
            return sentence("constructive, by service")
        case "food":
            return sentence("constructive, by food in {n} minutes", n=rule.bucket)
        case _:
            return sentence("constructive, by operation in {n} minutes", n=rule.bucket)


def constructive_plans(
    tables: Tables, most_work: float = float("inf")
) -> Iterator[tuple[Rule, Timetable, Score]]:
    """Yield one plan per rule, the quickest good one first, then what blame makes of the best.

    ``most_work`` is how many cooks may be looked at for a task in all, however slow the machine;
    the first rules are heard in any case.
    """
    clusters = clusters_of(tables)
    links = linked(tables, clusters)
    classes = classes_of(tables)
    found: list[tuple[Score, int, Timetable]] = []
    done = 0
    for index, rule in enumerate(RULES):
        if index >= FIRST_RULES and done >= most_work:
            break
        keys = [key_of(tables, rule, group, 0, classes) for group in clusters]
        timetable, work = _constructed(tables, links, keys, rule.thrift)
        done += work
        score = score_of(tables, timetable)
        found.append((score, index, timetable))
        yield rule, timetable, score
    if done >= most_work:
        return
    found.sort(key=lambda one: one[:2])
    for score, index, timetable in found[:_BLAMED_RULES]:
        if score.short or score.tardiness:
            rule = RULES[index]
            for again, work in _blamed(tables, links, rule, classes, timetable):
                done += work
                yield rule, again, score_of(tables, again)
                if done >= most_work:
                    return


def _blamed(
    tables: Tables,
    links: Clusters,
    rule: Rule,
    classes: Classes,
    timetable: Timetable,
) -> Iterator[tuple[Timetable, int]]:
    """Place everything again and again, what was left out or late so much earlier each time.

    On an over-full morning the order decides what finds no place. Clusters that went short or late
    are taken to be more urgent than their bare minutes say, and so is all they need. Begins with
    what the rule made without blame (``timetable``); yields plans with the work they took.
    """
    clusters = links.jobs
    bump = [0] * len(clusters)
    member = {job: index for index, group in enumerate(clusters) for job in group}
    for _ in range(_BLAME_ROUNDS):
        blame = _blame(tables, timetable)
        if not blame:
            return
        for job, minutes in blame.items():
            for index in {member[j] for j in with_needs(tables.problem, [job])}:
                bump[index] = max(bump[index], min(bump[index] + minutes, _MOST_BUMP))
        keys = [key_of(tables, rule, group, bump[i], classes) for i, group in enumerate(clusters)]
        timetable, work = _constructed(tables, links, keys, rule.thrift)
        yield timetable, work


def _blame(tables: Tables, timetable: Timetable) -> dict[int, int]:
    """Minutes by which jobs should have been taken as more urgent: late ones, and those left."""
    problem = tables.problem
    done = {problem.tasks[item.task].lot for item in timetable.assignments}
    blame = {
        job: STEP
        for job in range(len(problem.jobs))
        if job not in done and job not in tables.impossible and problem.jobs[job].serves
    }
    for item in timetable.assignments:
        task = problem.tasks[item.task]
        if task.due is not None and item.end > task.due:
            blame[task.lot] = max(blame.get(task.lot, 0), min(item.end - task.due, STEP))
    return blame


def construct(
    tables: Tables,
    clusters: list[list[int]],
    keys: Sequence[Key],
    thrift: float,
    rests: Rests = (),
) -> Timetable:
    """Place clusters of jobs, the smallest key first among those whose needs are in place.

    What does not fit is left out, and with it everything that needs it. ``thrift`` is how many
    minutes later a cluster may end to save a minute of work or lead. Where that leaves jobs that
    nobody takes from any more, everything is placed afresh without them: to pull them out of a
    line would lengthen the leads of what comes after. ``rests`` is where breaks are until they must
    make way.
    """
    return _constructed(tables, linked(tables, clusters), keys, thrift, rests)[0]


def _constructed(
    tables: Tables, links: Clusters, keys: Sequence[Key], thrift: float, rests: Rests = ()
) -> tuple[Timetable, int]:
    """``construct``, and the work it took."""
    useless: set[int] = set()
    work = 0
    while True:
        state = State(tables, rests)
        _place_all(state, links, keys, thrift, useless)
        work += state.work
        found = _useless(state)
        if not found:
            return settle(state), work
        useless |= found


def _place_all(
    state: State, links: Clusters, keys: Sequence[Key], thrift: float, useless: set[int]
) -> None:
    waiting = [len(needed) for needed in links.needs]
    ready = [(keys[i], i) for i, count in enumerate(waiting) if count == 0]
    heapify(ready)
    lost: set[int] = set()
    while ready:
        _, index = heappop(ready)
        hopeless = not links.possible[index] or not useless.isdisjoint(links.jobs[index])
        if (
            hopeless
            or not lost.isdisjoint(links.needs[index])
            or not place_cluster(state, links.tasks[index], thrift)
        ):
            lost.add(index)
        for taker in links.takers[index]:
            waiting[taker] -= 1
            if waiting[taker] == 0:
                heappush(ready, (keys[taker], taker))


def _useless(state: State) -> set[int]:
    """Jobs in place that serve nothing themselves and that nothing in place takes from."""
    tables = state.tables
    jobs = tables.problem.jobs
    done = {tables.problem.tasks[task].lot for task in state.entries}
    found: set[int] = set()
    for job in reversed(needs_first(tables)):
        takers = tables.needed_by[job]
        if job in done and takers and not jobs[job].serves and not done.intersection(takers):
            done.discard(job)
            found.add(job)
    return found


def settle(state: State) -> Timetable:
    """Fix the exact leads, which can only have shrunk, and write the timetable out."""
    choices = {
        task: Choice(entry.worker, entry.start, entry.end) for task, entry in state.entries.items()
    }
    return assemble(state.tables, choices, state.unit_of, state.rests, state.cleaned())
