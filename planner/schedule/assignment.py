"""A bound on labor from who does what and what each cook must turn to, without an exact clock.

See ``assignment_bound``; the argument in full is in docs/schedule.md.
"""

from collections import defaultdict
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from planner.schedule.capacity import free_minutes, thinned
from planner.schedule.effort import Effort
from planner.schedule.made import made_and_missing, proven
from planner.schedule.spans import Spans, spans_of
from planner.schedule.tables import Tables
from planner.schedule.timetable import Bound, Score, Term
from planner.schedule.turns import Turns, apart, crews, soiling, turns_of
from planner.schedule.variables import Linear

_ASSIGNMENT = "each task to its cook in its time, what each cook turns to, one clean per soiling"
_STRETCHES = 8
"""Moments looked at as beginnings and ends of stretches of a cook's day, at most, each."""


@dataclass
class _Model:
    """The model as it grows."""

    tables: Tables
    spans: Spans
    turns: Turns
    model: cp_model.CpModel
    does: dict[tuple[int, int], cp_model.IntVar] = field(default_factory=dict)
    opens: dict[tuple[int, int], cp_model.IntVar] = field(default_factory=dict)
    """By (family, cook)."""
    load: dict[int, list[Linear]] = field(default_factory=lambda: defaultdict(list))
    """Minutes by cook."""
    overtime: dict[int, cp_model.IntVar] = field(default_factory=dict)
    turned: dict[tuple[tuple[str, str | None], int], cp_model.IntVar] = field(default_factory=dict)
    """By (operation at a station, or station, and cook)."""

    def any_of(self, literals: list[cp_model.IntVar]) -> cp_model.IntVar:
        """A literal that is true if any of these is; the objective keeps it false otherwise."""
        if len(literals) == 1:
            return literals[0]
        found = self.model.new_bool_var("")
        for literal in literals:
            self.model.add_implication(literal, found)
        return found


def assignment_bound(tables: Tables, score: Score, effort: Effort) -> Bound:
    """Bound on labor from who does what and what each cook turns to, without an order.

    Let x[t, w] say that cook w does task t, which w can do within the task's span. A cook sets up
    every family they work on once, turns once to each family, operation and station (see
    ``turns``), the first of the day apart, and washes hands on leaving each soiling kind of food
    but the last. All this, and in every stretch of the day what must lie in it, fits into the
    shift and overtime. Jobs may be left out as far as ``score.short`` allows.
    """
    problem = tables.problem
    model = cp_model.CpModel()
    spans = spans_of(tables, score)
    made, missing = made_and_missing(model, tables)
    model.add(missing <= score.short)
    for job in spans.certain:
        model.add(made[job] == 1)
    built = _Model(tables, spans, turns_of(tables), model)
    _add_work(built, made)
    for worker in sorted({worker for _, worker in built.does}):
        _add_turns(built, worker)
        _add_washes(built, worker)
        _add_shift(built, worker)
    _add_crews(built)
    total: Linear = sum(sum(parts) for _, parts in sorted(built.load.items()))
    total += sum(built.overtime.values())
    total += problem.changeovers.clean * _cleans(built, made)
    model.minimize(total)
    return Bound(Term.LABOR, score.labor, proven(model, effort, score.labor), _ASSIGNMENT)


def _add_work(built: _Model, made: list[cp_model.IntVar]) -> None:
    """Each task of what is made has one cook; each family a cook works on is set up once."""
    problem, model = built.tables.problem, built.model
    used: dict[tuple[int, int], list[cp_model.IntVar]] = defaultdict(list)
    for index, task in enumerate(problem.tasks):
        does = {w: model.new_bool_var(f"x{index}_{w}") for w in built.spans.by_worker[index]}
        model.add(sum(does.values()) == made[task.lot])
        for worker, literal in does.items():
            built.does[index, worker] = literal
            built.load[worker].append(task.minutes[worker] * literal)
            used[built.turns.alike[task.family], worker].append(literal)
    for (family, worker), literals in used.items():
        opened = built.any_of(literals)
        built.opens[family, worker] = opened
        cost = problem.families[family].set_up + built.turns.family[family]
        built.load[worker].append(cost * opened)


def _add_turns(built: _Model, worker: int) -> None:
    """What turning to another operation or station costs beyond another family, first one free."""
    turns, model = built.turns, built.model
    own = [family for family, w in built.opens if w == worker]
    by_task = {index: literal for (index, w), literal in built.does.items() if w == worker}
    tasks = built.tables.problem.tasks
    free = []
    by_station: dict[str, list[cp_model.IntVar]] = defaultdict(list)
    saved: dict[str, int] = defaultdict(int)
    for group in sorted({turns.group_of[family] for family in own}):
        station = group[0]
        literals = [lit for i, lit in by_task.items() if turns.group_of[tasks[i].family] == group]
        turned = built.any_of(literals)
        built.turned[group, worker] = turned
        built.load[worker].append(turns.group[group] * turned)
        by_station[station].append(turned)
    for family in own:
        station = turns.group_of[family][0]
        saved[station] = max(saved[station], turns.entry(family))
    for station, literals in sorted(by_station.items()):
        turned = built.any_of(literals)
        built.turned[(station, None), worker] = turned
        built.load[worker].append(turns.station[station] * turned)
        first = model.new_bool_var(f"first{station}_{worker}")
        model.add_implication(first, turned)
        built.load[worker].append(-saved[station] * first)
        free.append(first)
    if free:
        model.add_at_most_one(free)


def _add_washes(built: _Model, worker: int) -> None:
    """Hands are washed on leaving each soiling kind of food, but the last of the day."""
    problem = built.tables.problem
    wash = problem.changeovers.hand_wash
    own = {family: literal for (family, w), literal in built.opens.items() if w == worker}
    found = []
    if wash:
        for kind in apart({problem.families[family].hygiene for family in own}):
            literals = [
                literal
                for family, literal in own.items()
                if problem.families[family].hygiene == kind
            ]
            found.append(built.any_of(literals))
    if found:
        washes = built.model.new_int_var(0, len(found), f"washes{worker}")
        built.model.add(washes >= sum(found) - 1)
        built.load[worker].append(wash * washes)


def _add_shift(built: _Model, worker: int) -> None:
    """What a cook does fits into the shift and overtime, in every stretch of the day."""
    problem, model, spans = built.tables.problem, built.model, built.spans
    person = problem.workers[worker]
    over = model.new_int_var(0, person.latest_end - person.end, f"overtime{worker}")
    built.overtime[worker] = over
    model.add(sum(built.load[worker]) <= free_minutes(person, person.start, person.end) + over)
    own = {index: literal for (index, w), literal in built.does.items() if w == worker}
    _add_stretches(built, worker, own)
    for index, literal in own.items():
        beyond = (
            spans.by_worker[index][worker][0] + problem.tasks[index].minutes[worker] - person.end
        )
        if beyond > 0:
            model.add(over >= beyond * literal)


def _add_stretches(built: _Model, worker: int, own: dict[int, cp_model.IntVar]) -> None:
    """What must lie within a stretch of a cook's day is no more than the minutes there."""
    problem, spans = built.tables.problem, built.spans
    person = problem.workers[worker]
    at = {index: spans.by_worker[index][worker] for index in own}
    within: dict[int, list[int]] = defaultdict(list)
    for index in own:
        within[built.turns.alike[problem.tasks[index].family]].append(index)
    begins = thinned({begin for begin, _ in at.values()}, _STRETCHES)
    ends = thinned({end for _, end in at.values()}, _STRETCHES)
    for begin in begins:
        for end in ends:
            inside = {i for i, (low, high) in at.items() if low >= begin and high <= end}
            parts: list[Linear] = [problem.tasks[i].minutes[worker] * own[i] for i in inside]
            whole = [f for f, tasks in within.items() if inside.issuperset(tasks)]
            leads = {f: problem.families[f].set_up + built.turns.family[f] for f in whole}
            parts += [leads[f] * built.opens[f, worker] for f in whole]
            most = free_minutes(person, begin, end) + max(leads.values(), default=0)
            if sum(problem.tasks[i].minutes[worker] for i in inside) + sum(leads.values()) > most:
                built.model.add(sum(parts) <= most)


def _add_crews(built: _Model) -> None:
    """As many cooks turn to an operation, or to a station, as its work needs in some stretch."""
    by_key: dict[tuple[str, str | None], list[cp_model.IntVar]] = defaultdict(list)
    for (key, _), literal in built.turned.items():
        by_key[key].append(literal)
    for key, least in sorted(crews(built.tables, built.spans, built.turns).items(), key=str):
        if least > 1:
            built.model.add(sum(by_key[key]) >= least)


def _cleans(built: _Model, made: list[cp_model.IntVar]) -> Linear:
    """Surfaces cleaned: a unit is cleaned after each soiling kind of food but its last."""
    problem, model = built.tables.problem, built.model
    total: Linear = 0
    for number, resource in enumerate(problem.resources):
        if not resource.contact:
            continue
        kinds = soiling(built.tables, number).values()
        found = [built.any_of([made[job] for job in sorted(jobs)]) for jobs in kinds]
        if len(found) > resource.capacity:
            cleans = model.new_int_var(0, len(found), f"cleans{number}")
            model.add(cleans >= sum(found) - resource.capacity)
            total += cleans
    return total
