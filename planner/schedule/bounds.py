"""How good any plan could be: valid bounds per term, each with the relaxation that gave it.

A bound of a term holds among plans no worse in every earlier term than the plan it is stated for;
every relaxation here keeps the freedom to leave food short as far as that plan does.
"""

from collections import defaultdict
from dataclasses import replace

from ortools.sat.python import cp_model

from planner.schedule.assemble import Choice, assemble, incumbent_of
from planner.schedule.capacity import limits
from planner.schedule.effort import Effort
from planner.schedule.model import improve
from planner.schedule.problem import Changeovers, Problem
from planner.schedule.score import score_of
from planner.schedule.tables import Tables, tables_of
from planner.schedule.timetable import Bound, Score, Term, Timetable
from planner.schedule.variables import Linear

_NO_LEADS = "the same kitchen with free set-ups, changeovers and cleaning"
_CHOICE = "what can be made at the least minutes in each stretch of the day, each chain by itself"
_ASSIGNMENT = "each task to its cook, one set-up and least changeover per cook and family"


def without_leads(
    tables: Tables, timetable: Timetable, score: Score, effort: Effort
) -> list[Bound]:
    """Bounds on short portions and tardiness from the problem without set-ups and changeovers.

    Every plan of the kitchen stays feasible when leads shrink to nothing and units of a resource
    need no names, so the relaxed optimum bounds both terms.
    """
    relaxed = tables_of(_relaxed(tables.problem))
    choices = {i.task: Choice(i.worker, i.start, i.end) for i in timetable.assignments}
    bare = assemble(relaxed, choices, {})
    answer = improve(
        relaxed,
        incumbent_of(relaxed, bare),
        score_of(relaxed, bare),
        range(len(relaxed.problem.jobs)),
        range(len(relaxed.problem.workers)),
        effort,
        ((Term.SHORT,), (Term.TARDINESS,)),
    )
    bounds = []
    held = True
    for level in answer.levels:
        term = level.terms[0]
        if held:
            bounds.append(Bound(term, score.term(term), level.bound, _NO_LEADS))
        # The next level was solved with this one held at what was reached: that says nothing of
        # plans as short as ours unless the two agree.
        held = level.optimal and level.bound == score.term(term)
    return bounds


def _relaxed(problem: Problem) -> Problem:
    return replace(
        problem,
        families=tuple(replace(family, set_up=0) for family in problem.families),
        resources=tuple(replace(resource, contact=False) for resource in problem.resources),
        changeovers=Changeovers(),
    )


def assignment_bound(tables: Tables, score: Score, effort: Effort) -> Bound:
    """Bound on labor from who does what, without any clock.

    Let x[t, w] say that cook w does task t and z[f, w] that w works on family f. A cook opens every
    family at least once: its set-up is due, and its least changeover from any other family except
    for one family, the first of the day. So labor >= sum of minutes x + sum of (set-up + least
    changeover) z - what each cook's first family saves + overtime, where minutes beyond a cook's
    shift less breaks are overtime. Jobs may be left out as far as ``score.short`` allows.
    """
    problem = tables.problem
    model = cp_model.CpModel()
    made, missing = _made(model, tables)
    model.add(missing <= score.short)
    entry = _least_entry(tables)
    used: dict[tuple[int, int], list[cp_model.IntVar]] = defaultdict(list)
    load: dict[int, list[Linear]] = defaultdict(list)
    for index, task in enumerate(problem.tasks):
        does = {w: model.new_bool_var(f"x{index}_{w}") for w in task.minutes}
        model.add(sum(does.values()) == made[task.lot])
        for worker, literal in does.items():
            used[task.family, worker].append(literal)
            load[worker].append(task.minutes[worker] * literal)
    first: dict[int, list[cp_model.IntVar]] = defaultdict(list)
    for (family, worker), literals in used.items():
        opened = model.new_bool_var(f"z{family}_{worker}")
        model.add_max_equality(opened, literals)
        load[worker].append((problem.families[family].set_up + entry[family]) * opened)
        if entry[family]:
            free = model.new_bool_var(f"first{family}_{worker}")
            model.add(free <= opened)
            first[worker].append(free)
            load[worker].append(-entry[family] * free)
    total: Linear = 0
    for worker, parts in sorted(load.items()):
        person = problem.workers[worker]
        if first[worker]:
            model.add_at_most_one(first[worker])
        away = sum(max(0, min(e, person.end) - max(b, person.start)) for b, e in person.blocked)
        most = person.latest_end - person.end
        overtime = model.new_int_var(0, most, f"overtime{worker}")
        model.add(sum(parts) <= person.end - person.start - away + overtime)
        total += sum(parts) + overtime
    model.minimize(total)
    return Bound(Term.LABOR, score.labor, _solved(model, effort, score.labor), _ASSIGNMENT)


def choice_bounds(tables: Tables, score: Score, effort: Effort) -> list[Bound]:
    """Bounds from the choice of what is made, at the least minutes, without any order or cook.

    For each set of cooks or resource and each stretch of the day, what must lie within it takes no
    more than there is (see ``limits``), which bounds what is short. Among the choices no shorter
    than the plan, each task is late at least as its chain makes it and takes its least minutes.
    """
    model = cp_model.CpModel()
    made, missing = _made(model, tables)
    for limit in limits(tables):
        model.add(sum(minutes * made[job] for job, minutes in limit.parts) <= limit.most)
    late: Linear = 0
    labor: Linear = 0
    for index, task in enumerate(tables.problem.tasks):
        labor += tables.least[index] * made[task.lot]
        if task.due is not None and tables.soonest[index] > task.due:
            late += task.due_weight * (tables.soonest[index] - task.due) * made[task.lot]
    part = replace(effort, seconds=effort.seconds / 3, deterministic=effort.deterministic / 3)
    model.minimize(missing)
    found = [Bound(Term.SHORT, score.short, _solved(model, part, score.short), _CHOICE)]
    model.add(missing <= score.short)
    for term, value in ((Term.TARDINESS, late), (Term.LABOR, labor)):
        model.clear_objective()  # type: ignore[no-untyped-call]
        model.minimize(value)
        found.append(Bound(term, score.term(term), _solved(model, part, score.term(term)), _CHOICE))
    return found


def _solved(model: cp_model.CpModel, effort: Effort, most: int) -> int:
    """What the solver proves of the least value, within ``most``."""
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = effort.threads
    solver.parameters.interleave_search = effort.threads > 1
    solver.parameters.random_seed = effort.seed
    solver.parameters.catch_sigint_signal = False
    solver.parameters.max_time_in_seconds = effort.seconds
    solver.parameters.max_deterministic_time = effort.deterministic
    status = solver.solve(model)
    known = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    bound = int(-(-(solver.best_objective_bound - 1e-6) // 1)) if known else 0
    return max(0, min(bound, most))


def _made(model: cp_model.CpModel, tables: Tables) -> tuple[list[cp_model.IntVar], Linear]:
    """A literal per job that it is made, with what it needs, and the weighted portions short."""
    problem = tables.problem
    made = [
        model.new_constant(0) if j in tables.impossible else model.new_bool_var(f"made{j}")
        for j in range(len(problem.jobs))
    ]
    parts: dict[int, dict[str, list[Linear]]] = defaultdict(lambda: defaultdict(list))
    most: dict[int, int] = defaultdict(int)
    for index, job in enumerate(problem.jobs):
        for need in job.needs:
            model.add(made[index] <= made[need])
        for serving in job.serves:
            parts[serving.promise][serving.component].append(serving.portions * (1 - made[index]))
            most[serving.promise] += serving.portions
    total: Linear = 0
    for promise, by_component in sorted(parts.items()):
        missing = model.new_int_var(0, most[promise], f"short{promise}")
        for items in by_component.values():
            model.add(missing >= sum(items))
        total += problem.promises[promise].weight * missing
    return made, total


def _least_entry(tables: Tables) -> list[int]:
    """Per family: the least changeover and hand-wash from any other family."""
    *rows, _ = tables.leads
    set_up = [family.set_up for family in tables.problem.families]
    return [
        max(0, min((row[f] for g, row in enumerate(rows) if g != f), default=set_up[f]) - set_up[f])
        for f in range(len(set_up))
    ]
