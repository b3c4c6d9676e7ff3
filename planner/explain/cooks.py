"""Who else could do a batch, what they are at meanwhile, and what it would be with them."""

from collections.abc import Iterator
from dataclasses import dataclass

from planner.binding.changes import given_to
from planner.explain.trials import Outcome, rank, tried
from planner.explain.words import Morning
from planner.kitchen.hours import shift_of
from planner.kitchen.work import Cook, Operation
from planner.schedule.assemble import Choice, assemble
from planner.schedule.search import SearchOptions
from planner.schedule.timetable import Timetable
from planner.sheet.away import away
from planner.sheet.runs import Run
from planner.troubles.change import Change
from planner.wording import sentence

_AWAY = {
    "break": sentence("on a break"),
    "on the line": sentence("on the line"),
    "station set-up": sentence("setting up"),
}


@dataclass(frozen=True, slots=True)
class OtherCook:
    """Somebody who does not have the batch.

    ``able``: has the skill and the station, and is in. ``words`` say why not, or how much slower
    and what they are at in that time. ``outcome``: the morning planned anew with the batch theirs;
    None where it was not tried.
    """

    cook: str
    name: str
    able: bool
    words: str
    outcome: Outcome | None = None


def other_cooks(
    morning: Morning, run: Run, options: SearchOptions | None = None
) -> tuple[tuple[OtherCook, ...], Outcome | None]:
    """Everybody else of the kitchen, and the best that is known of the unchanged morning.

    ``options`` bound each new planning; None: none is tried.
    """
    workers = {cook: index for index, cook in enumerate(morning.plan.workload.cooks)}
    found: list[OtherCook] = []
    for cook in morning.kit.catalog.kitchen.cooks:
        worker = workers.get(cook.id)
        if cook.id == run.cook.id:
            continue
        if worker is None or not _able(morning, run, worker):
            found.append(
                OtherCook(cook.id, cook.name, able=False, words=_unable(morning, run, cook))
            )
            continue
        words = "; ".join((_pace(morning, run, worker), _meanwhile(morning, run, worker, cook)))
        outcome = None if options is None else _given(morning, run, worker, options)
        found.append(OtherCook(cook.id, cook.name, able=True, words=words, outcome=outcome))
    outcomes = [other.outcome for other in found if other.outcome is not None]
    if options is None or not outcomes:
        return tuple(found), None
    same = Change("", morning.problem, morning.plan.solution.timetable)
    # A plan with the batch at another cook is a plan of the unchanged morning too.
    best = min([tried(same, options)[0], *outcomes], key=lambda outcome: rank(outcome.score))
    return tuple(found), best


def _able(morning: Morning, run: Run, worker: int) -> bool:
    return all(worker in morning.problem.tasks[one.task].minutes for one in run.assignments)


def _unable(morning: Morning, run: Run, cook: Cook) -> str:
    if shift_of(cook, morning.plan.date) is None:
        return sentence("is not in")
    if cook.learns_from is not None:
        mentor = morning.kit.catalog.cooks[cook.learns_from]
        return sentence("learns from {mentor} and has no batches alone", mentor=mentor.name)
    operation = morning.view.operation(run.lots[0])
    return sentence("has no {lacks}", lacks=" and no ".join(_lacks(morning, operation, cook)))


def _lacks(morning: Morning, operation: Operation, cook: Cook) -> Iterator[str]:
    if all(own.skill != operation.skill for own in cook.skills):
        yield sentence("skill '{skill}'", skill=operation.skill)
    if cook.stations is not None and operation.station not in cook.stations:
        yield sentence("place at {name}", name=morning.kit.catalog.stations[operation.station].name)


def _pace(morning: Morning, run: Run, worker: int) -> str:
    tasks = [morning.problem.tasks[one.task] for one in run.assignments]
    more = sum(task.minutes[worker] for task in tasks) - run.hands_on
    if not more:
        return sentence("takes as long at it")
    if more > 0:
        return sentence("takes {n} min longer at it", n=more)
    return sentence("takes {n} min less at it", n=-more)


def _meanwhile(morning: Morning, run: Run, worker: int, cook: Cook) -> str:
    """What the cook is at from the batch's start to its end."""
    busy = sorted(_busy(morning, run, worker, cook))
    if not busy:
        return sentence("is free in that time")
    return ", then ".join(text for _start, text in busy)


def _busy(morning: Morning, run: Run, worker: int, cook: Cook) -> Iterator[tuple[int, str]]:
    one = morning.problem.workers[worker]
    clock = morning.clock
    if run.start < one.start:
        yield run.start, sentence("not in before {at}", at=clock(one.start))
    for other in morning.runs:
        if other.worker == worker and other.start < run.end and run.start < other.end:
            yield (
                other.start,
                sentence(
                    "at {title} (batch {n}) until {at}",
                    title=morning.title(other),
                    n=other.number,
                    at=clock(other.end),
                ),
            )
    rests = morning.incumbent.rests[worker]
    for absence in away(cook, morning.plan.date, morning.kit.catalog.kitchen.rules, rests):
        if absence.start < run.end and run.start < absence.end:
            yield (
                absence.start,
                sentence("{away} until {at}", away=_AWAY[absence.kind], at=clock(absence.end)),
            )
    if run.end > one.end:
        yield one.end, sentence("off from {at}, overtime apart", at=clock(one.end))


def _given(morning: Morning, run: Run, worker: int, options: SearchOptions) -> Outcome:
    """The morning planned anew with the batch at another cook."""
    tasks = [one.task for one in run.assignments]
    problem = given_to(morning.problem, tasks, worker)
    start = _handed_over(morning, run, worker)
    return tried(Change(morning.title(run), problem, start), options)[0]


def _handed_over(morning: Morning, run: Run, worker: int) -> Timetable:
    """The plan with the batch at another cook at the same time; it may break a rule."""
    mine = {one.task for one in run.assignments}
    tasks = morning.problem.tasks
    choices = {
        one.task: Choice(worker, one.start, one.start + tasks[one.task].minutes[worker])
        if one.task in mine
        else Choice(one.worker, one.start, one.end)
        for one in morning.plan.solution.timetable.assignments
    }
    now = morning.incumbent
    return assemble(morning.tables, choices, now.unit_of, now.rests, now.cleaned)
