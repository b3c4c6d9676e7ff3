"""How good any plan could be: valid bounds per term, each with the relaxation that gave it.

A bound of a term holds among plans no worse in every earlier term than the plan it is stated for;
every relaxation here keeps the freedom to leave food short as far as that plan does.
"""

from dataclasses import replace

from ortools.sat.python import cp_model

from planner.schedule.assemble import Choice, assemble, incumbent_of
from planner.schedule.capacity import limits
from planner.schedule.effort import Effort
from planner.schedule.made import made_and_missing, proven
from planner.schedule.model import improve
from planner.schedule.problem import Changeovers, Problem
from planner.schedule.score import score_of
from planner.schedule.tables import Tables, tables_of
from planner.schedule.timetable import Bound, Score, Term, Timetable
from planner.schedule.variables import Linear
from planner.wording import sentence

_NO_LEADS = sentence("the same kitchen with free set-ups, changeovers and cleaning")
_CHOICE = sentence(
    "what can be made at the least minutes in each stretch of the day, each chain by itself"
)


def without_leads(
    tables: Tables, timetable: Timetable, score: Score, effort: Effort
) -> list[Bound]:
    """Bounds on short portions and tardiness from the problem without set-ups and changeovers.

    Every plan of the kitchen stays feasible when leads shrink to nothing and units of a resource
    need no names, so the relaxed optimum bounds both terms.
    """
    relaxed = tables_of(_relaxed(tables.problem))
    choices = {i.task: Choice(i.worker, i.start, i.end) for i in timetable.assignments}
    rests = incumbent_of(tables, timetable).rests
    bare = assemble(relaxed, choices, {}, rests)
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


def choice_bounds(tables: Tables, score: Score, effort: Effort) -> list[Bound]:
    """Bounds from the choice of what is made, at the least minutes, without any order or cook.

    For each set of cooks or resource and each stretch of the day, what must lie within it takes no
    more than there is (see ``limits``), which bounds what is short. Among the choices no shorter
    than the plan, each task is late at least as its chain makes it and takes its least minutes.
    """
    model = cp_model.CpModel()
    made, missing = made_and_missing(model, tables)
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
    found = [Bound(Term.SHORT, score.short, proven(model, part, score.short), _CHOICE)]
    model.add(missing <= score.short)
    for term, value in ((Term.TARDINESS, late), (Term.LABOR, labor)):
        model.clear_objective()  # type: ignore[no-untyped-call]
        model.minimize(value)
        found.append(Bound(term, score.term(term), proven(model, part, score.term(term)), _CHOICE))
    return found
