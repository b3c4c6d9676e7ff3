"""A bound on tardiness from work poured into stretches of each cook's day.

See ``lateness_bound``; the argument in full is in docs/schedule.md.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field

from planner.schedule.capacity import free_minutes
from planner.schedule.effort import Effort
from planner.schedule.linear import Program, least_value
from planner.schedule.spans import Spans, spans_of
from planner.schedule.tables import Tables
from planner.schedule.timetable import Bound, Score, Term
from planner.schedule.turns import turns_of

_POURED = "work and leads poured into stretches of each cook's day, ends by the middle of the work"


@dataclass
class _Poured:
    """The program as it grows."""

    tables: Tables
    spans: Spans
    length: int
    leads: list[int]
    program: Program = field(default_factory=Program)
    ends: dict[int, int] = field(default_factory=dict)
    """Variable of each task's end."""
    late: dict[int, int] = field(default_factory=dict)
    """Variable of each task's minutes late, where it can be late."""
    poured: dict[int, list[tuple[int, int, int]]] = field(default_factory=lambda: defaultdict(list))
    """Per task: (variable, from when on, minutes of the task and its lead)."""
    cooks: dict[tuple[int, int], int] = field(default_factory=dict)
    """Variable by task and cook: part of the task that the cook does."""
    by_cook: dict[tuple[int, int], list[tuple[int, float]]] = field(
        default_factory=lambda: defaultdict(list)
    )
    """By cook and stretch: (variable, minutes)."""
    by_resource: dict[tuple[int, int], list[tuple[int, float]]] = field(
        default_factory=lambda: defaultdict(list)
    )
    spare: dict[tuple[tuple[str, int], int], list[tuple[int, float]]] = field(
        default_factory=lambda: defaultdict(list)
    )
    """Per cook or resource and its limit: what may be beyond the room in each stretch."""


def lateness_bound(tables: Tables, score: Score, length: int, effort: Effort) -> Bound:
    """Bound on tardiness by stretches of ``length`` minutes; 0 where nothing is known in time.

    Only where nothing is short: then it is certain what is made. Each task, with the lead it must
    have, is poured over the stretches of its cooks' days, as if it could be split; no cook and no
    resource has more minutes than the stretch. A task ends half its length after the middle of its
    minutes at least, and after what it waits for; what it ends after its due time is late.
    """
    spans = spans_of(tables, score)
    value = 0
    if score.short == 0 and score.tardiness and spans.possible:
        built = _Poured(tables, spans, length, _leads(tables))
        _pour(built)
        _add_waits(built)
        _add_steps(built)
        _add_room(built)
        value = max(0, min(least_value(built.program, effort), score.tardiness))
    return Bound(Term.TARDINESS, score.tardiness, value, _POURED)


def size_of(tables: Tables, score: Score, length: int) -> int:
    """Variables of the program with stretches of ``length`` minutes, about."""
    spans = spans_of(tables, score)
    return sum(
        (end - begin) // length + 1
        for index in _sure(tables, spans)
        for begin, end in spans.by_worker[index].values()
    )


def _sure(tables: Tables, spans: Spans) -> list[int]:
    tasks = tables.problem.tasks
    return [index for index, task in enumerate(tasks) if task.lot in spans.certain]


def _leads(tables: Tables) -> list[int]:
    """Minutes of lead that a task has whatever comes before it: alone in its family."""
    problem, turns = tables.problem, turns_of(tables)
    number: dict[int, int] = defaultdict(int)
    for task in problem.tasks:
        number[turns.alike[task.family]] += 1
    return [
        problem.families[task.family].set_up + turns.family[task.family]
        if number[turns.alike[task.family]] == 1
        else 0
        for task in problem.tasks
    ]


def _pour(built: _Poured) -> None:
    """Variables and rows of each task by itself."""
    problem, program, spans = built.tables.problem, built.program, built.spans
    held = defaultdict(list)
    for hold in problem.holds:
        if hold.first == hold.last:
            held[hold.first].append(hold)
    for index in _sure(built.tables, spans):
        task = problem.tasks[index]
        end = built.ends[index] = program.add(spans.soonest[index], spans.latest[index])
        middle: list[tuple[int, float]] = [(end, -1.0)]
        soonest: list[tuple[int, float]] = [(end, -1.0)]
        for worker, (begin, until) in spans.by_worker[index].items():
            whole = task.minutes[worker] + built.leads[index]
            part = built.cooks[index, worker] = program.add(0, 1)
            middle.append((part, whole / 2))
            soonest.append((part, begin + task.minutes[worker]))
            if not whole:
                continue
            poured = [(part, -float(whole))]
            for stretch, low, high in _stretches(built, begin - built.leads[index], until):
                minutes = program.add(0, min(whole, high - low))
                poured.append((minutes, 1.0))
                middle.append((minutes, low / whole))
                built.poured[index].append((minutes, low, whole))
                built.by_cook[worker, stretch].append((minutes, 1.0))
                for hold in held[index]:
                    built.by_resource[hold.resource, stretch].append((minutes, hold.units))
            program.row(poured, equal=0)
        program.row([(built.cooks[index, w], 1.0) for w in spans.by_worker[index]], equal=1)
        program.row(soonest, most=0)
        if all(task.minutes[w] + built.leads[index] for w in spans.by_worker[index]):
            program.row(middle, most=0)
        if task.due is not None and task.due_weight and spans.latest[index] > task.due:
            late = program.add(0, spans.latest[index] - task.due, cost=task.due_weight)
            built.late[index] = late
            program.row([(end, 1.0), (late, -1.0)], most=task.due)


def _stretches(built: _Poured, begin: int, end: int) -> Iterable[tuple[int, int, int]]:
    """(stretch, from, to) of the stretches that meet [begin, end)."""
    for stretch in range(begin // built.length, (end - 1) // built.length + 1):
        low = max(begin, stretch * built.length)
        high = min(end, (stretch + 1) * built.length)
        if low < high:
            yield stretch, low, high


def _add_waits(built: _Poured) -> None:
    tasks = built.tables.problem.tasks
    for wait in built.tables.problem.waits:
        if wait.before in built.ends and wait.after in built.ends:
            between = [(built.ends[wait.before], 1.0), (built.ends[wait.after], -1.0)]
            minutes = [
                (built.cooks[wait.after, w], float(tasks[wait.after].minutes[w]))
                for w in built.spans.by_worker[wait.after]
            ]
            built.program.row([*between, *minutes], most=-wait.minimum)
            if wait.maximum is not None:
                swapped = [(variable, -value) for variable, value in [*between, *minutes]]
                # Its start is so much before its end, and sooner yet where it pauses.
                pauses = _longest_pause(built, wait.after)
                built.program.row(swapped, most=wait.maximum + pauses)


def _longest_pause(built: _Poured, task: int) -> int:
    """Minutes of rests that a task may be put down over, at most."""
    problem = built.tables.problem
    if not problem.tasks[task].pausable:
        return 0
    return max(
        (
            sum(rest.minutes for rest in problem.workers[worker].rests)
            for worker in built.spans.by_worker[task]
        ),
        default=0,
    )


def _add_steps(built: _Poured) -> None:
    """Minutes after a due time count once each, those after it by a task's length again, and so on.

    Work of L minutes that ends e minutes after some time has just that count: e of its minutes lie
    behind that time if e <= L, and all of them behind each full L before. So the count is no more
    than the minutes late, also where it is of what the late task waits for, due as much sooner.
    """
    for index, late in built.late.items():
        due = built.tables.problem.tasks[index].due or 0
        for task, tail in _tails(built, index).items():
            counted = [
                (minutes, float((low - due + tail) // whole + 1))
                for minutes, low, whole in built.poured[task]
                if low >= due - tail
            ]
            if counted:
                built.program.row([*counted, (late, -1.0)], most=0)


def _tails(built: _Poured, index: int) -> dict[int, int]:
    """Least minutes from the end of a task that must come before to the end of this one."""
    tables = built.tables
    tails = {index: 0}
    waiting = [index]
    while waiting:
        after = waiting.pop()
        for wait in tables.waits_before[after]:
            if wait.before in built.ends:
                tail = tails[after] + tables.least[after] + wait.minimum
                if tail > tails.get(wait.before, -1):
                    tails[wait.before] = tail
                    waiting.append(wait.before)
    return tails


def _add_room(built: _Poured) -> None:
    """No more in a stretch than there is, but for the turn a cook's first work does not need."""
    problem, program = built.tables.problem, built.program
    turn = max(turns_of(built.tables).family, default=0)
    for (worker, stretch), parts in sorted(built.by_cook.items()):
        begin = stretch * built.length
        free = free_minutes(problem.workers[worker], begin, begin + built.length)
        _limit(built, parts, free, ("cook", worker), turn)
    units = max((hold.units for hold in problem.holds), default=1)
    for (resource, _), parts in sorted(built.by_resource.items()):
        room = problem.resources[resource].capacity * built.length
        if sum(value * program.high[variable] for variable, value in parts) > room:
            # The turns that first work does not need are poured too, at worst of all cooks.
            most = units * turn * len(problem.workers)
            _limit(built, parts, room, ("resource", resource), most)
    for (_, most), parts in sorted(built.spare.items(), key=str):
        program.row(parts, most=most)


def _limit(
    built: _Poured, parts: list[tuple[int, float]], room: int, who: tuple[str, int], spare: int
) -> None:
    """At most ``room``, and ``spare`` more in all stretches of one cook or resource together."""
    if spare:
        more = built.program.add(0, spare)
        built.spare[who, spare].append((more, 1.0))
        parts = [*parts, (more, -1.0)]
    built.program.row(parts, most=room)
