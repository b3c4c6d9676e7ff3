"""The CP-SAT model of a morning, or of the part of it that is free to change."""

import time
from collections.abc import Iterable, Mapping, Sequence

from ortools.sat.python import cp_model

from planner.schedule.assemble import Choice, Incumbent, assemble
from planner.schedule.effort import Answer, Effort, Level
from planner.schedule.exposures import add_exposures
from planner.schedule.mend import mended
from planner.schedule.objective import Expressions, add_objective
from planner.schedule.places import add_places
from planner.schedule.sequences import add_lines, close_leads, end_of, start_of
from planner.schedule.tables import Tables
from planner.schedule.timetable import Score, Term, Timetable
from planner.schedule.variables import Linear, Variables, add_variables

_LEVELS: tuple[tuple[Term, ...], ...] = (
    (Term.SHORT,),
    (Term.TARDINESS,),
    (Term.LABOR,),
    (Term.FRESHNESS,),
    (Term.FINISH,),
)
ROUGH_LEVELS: tuple[tuple[Term, ...], ...] = (
    (Term.SHORT, Term.TARDINESS),
    (Term.LABOR, Term.FRESHNESS, Term.FINISH),
)
"""For a neighbourhood: two solves instead of five. Terms solved together are weighed so that one
step of an earlier term outweighs the whole range of the later ones (see ``_weigh``)."""


def improve(
    tables: Tables,
    incumbent: Incumbent,
    score: Score,
    free: Iterable[int],
    workers: Iterable[int],
    effort: Effort,
    levels: Sequence[tuple[Term, ...]] = _LEVELS,
    reach: int | None = None,
    least: Mapping[Term, int] | None = None,
) -> Answer:
    """Re-solve the free jobs around the incumbent, level by level in strict order.

    Each level is minimised with all earlier ones held at what they reached. Returns a timetable no
    worse than the incumbent, or None where nothing at least as good was found in time. The model of
    a part of the jobs knows of cleans by the clock only those that are there: others are put into
    its plans afterwards, which can make them worse, or else these are given up. ``reach``
    keeps free tasks within so many minutes of where they are, which makes a smaller model.
    ``least`` is what is known of terms beforehand (0 where nothing is): a level at which the
    incumbent has that already is held there and not solved.
    """
    model = cp_model.CpModel()
    out = add_variables(model, tables, incumbent, free, workers, reach)
    _add_waits(out)
    _add_needs(out)
    add_exposures(out)
    add_lines(out)
    add_places(out)
    close_leads(out)
    expressions = add_objective(out)
    if effort.thorough:
        # Without circuits the solver has a plan of its own sooner than it gets on from ours.
        model.clear_hints()  # type: ignore[no-untyped-call]
    best: Timetable | None = None
    solved: list[Level] = []
    spent = 0.0
    as_before = True  # no earlier level has become better than the incumbent
    began = time.monotonic()
    for position, terms in enumerate(levels):
        target = _weigh(expressions, terms)
        weights = _weights(expressions, terms)
        known = sum(weight * score.term(term) for term, weight in weights.items())
        floor = sum(weight * (least or {}).get(term, 0) for term, weight in weights.items())
        if known <= floor and as_before:  # nothing beats nothing short and nothing late
            model.add(target <= known)
            solved.append(Level(terms, known, optimal=True))
            continue
        model.minimize(target)
        share = 1.0 if position == len(levels) - 1 else 0.5
        solver = _solver(
            effort,
            share * (effort.seconds - (time.monotonic() - began)),
            share * (effort.deterministic - spent),
        )
        status = solver.solve(model)
        spent += float(solver.response_proto.deterministic_time)
        if status == cp_model.MODEL_INVALID:
            raise RuntimeError(f"the model is not well-formed: {model.validate()}")
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            solved.append(Level(terms, 0, optimal=False))
            break
        optimal = status == cp_model.OPTIMAL
        reached = round(solver.objective_value)
        bound = reached if optimal else max(0, int(-(-solver.best_objective_bound // 1)))
        solved.append(Level(terms, bound, optimal))
        best = _read(out, solver) or best
        model.clear_objective()  # type: ignore[no-untyped-call]
        model.add(target <= reached)
        as_before = as_before and reached == known
        _hint_from(model, solver)
    return Answer(best, tuple(solved), spent)


def _solver(effort: Effort, seconds: float, deterministic: float) -> cp_model.CpSolver:
    solver = cp_model.CpSolver()
    parameters = solver.parameters
    parameters.num_workers = effort.threads
    parameters.random_seed = effort.seed
    parameters.catch_sigint_signal = False  # Ctrl-C is for the program to answer
    parameters.max_time_in_seconds = max(0.01, seconds)
    parameters.max_deterministic_time = max(1e-4, deterministic)
    parameters.interleave_search = effort.threads > 1 and effort.repeatable
    if not effort.thorough:
        # Small models, many of them: presolve beyond the first pass costs more than it saves.
        parameters.cp_model_probing_level = 0
        parameters.symmetry_level = 0
        parameters.max_presolve_iterations = 1
        parameters.linearization_level = 0 if effort.threads == 1 else 1
    return solver


def _weights(expressions: Expressions, terms: Sequence[Term]) -> dict[Term, int]:
    """Weights that keep the order strict.

    The weight of a term is one more than the most that all later terms together can reach, weighed:
    giving up one unit of it can never be made good by the later ones.
    """
    weights: dict[Term, int] = {}
    reach = 0
    for term in reversed(terms):
        weights[term] = reach + 1
        reach += weights[term] * expressions.most[term]
    return weights


def _weigh(expressions: Expressions, terms: Sequence[Term]) -> Linear:
    weights = _weights(expressions, terms)
    return sum(weight * expressions.terms[term] for term, weight in weights.items())


def _add_waits(out: Variables) -> None:
    """``minimum <= start[after] - end[before] <= maximum`` where both are done."""
    tasks = out.tables.problem.tasks
    for wait in out.tables.problem.waits:
        jobs = {tasks[wait.before].lot, tasks[wait.after].lot}
        if not jobs & out.free:
            continue
        done = [out.done(job) for job in jobs]
        if any(literal is False for literal in done):
            continue
        literals = [literal for literal in done if literal is not True]
        before, after = end_of(out, wait.before), start_of(out, wait.after)
        limits = [out.model.add(after >= before + wait.minimum)]
        if wait.maximum is not None:
            limits.append(out.model.add(after <= before + wait.maximum))
        if literals:
            for limit in limits:
                limit.only_enforce_if(literals)


def _add_needs(out: Variables) -> None:
    """A job that is made needs those it takes from."""
    for index, job in enumerate(out.tables.problem.jobs):
        done = out.done(index)
        for need in job.needs:
            if index in out.free or need in out.free:
                needed = out.done(need)
                if done is not False and needed is not True:
                    out.model.add(done <= needed)


def _hint_from(model: cp_model.CpModel, solver: cp_model.CpSolver) -> None:
    """Start the next level from the whole solution of this one."""
    model.clear_hints()  # type: ignore[no-untyped-call]
    for index, value in enumerate(solver.response_proto.solution):
        model.proto.solution_hint.vars.append(index)
        model.proto.solution_hint.values.append(value)


def _read(out: Variables, solver: cp_model.CpSolver) -> Timetable | None:
    """The solver's plan; None where surfaces would be in use for too long and cannot be cleaned."""
    choices = {
        task: Choice(item.worker, item.start, item.end)
        for task, item in out.incumbent.by_task.items()
        if out.tables.problem.tasks[task].lot not in out.free
    }
    units = {hold: unit for hold, unit in out.incumbent.unit_of.items() if hold not in out.units}
    for shown in out.free_tasks():
        for worker, literal in shown.does.items():
            if solver.boolean_value(literal):
                choices[shown.task] = Choice(
                    worker, solver.value(shown.start), solver.value(shown.end)
                )
    for hold, by_unit in out.units.items():
        for unit, literal in by_unit.items():
            if solver.boolean_value(literal):
                units[hold] = unit
    rests = [list(slots) for slots in out.incumbent.rests]
    for (worker, number), start in out.rests.items():
        begin = solver.value(start)
        rests[worker][number] = (
            begin,
            begin + out.tables.problem.workers[worker].rests[number].minutes,
        )
    cleaned = {hold for hold, one in out.upkeep.items() if solver.boolean_value(one.cleaned)}
    if not out.is_whole():  # Minutes are kept for these.
        now = out.incumbent
        cleaned.update(
            h for h in now.cleaned & units.keys() if h not in out.units or h not in now.dirty
        )
    return mended(out.tables, assemble(out.tables, choices, units, rests, cleaned))
