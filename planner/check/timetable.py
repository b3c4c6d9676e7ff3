"""Whether a timetable keeps every rule of its problem, decided without any of the solver's code."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise

from planner.check.cleans import check_cleans
from planner.check.exposures import check_exposures
from planner.check.holds import check_holds
from planner.check.leads import expected_leads
from planner.check.rests import Breaks, breaks_of, check_rests, pauses_in
from planner.check.violation import Rule, Violation
from planner.clock import clock
from planner.schedule.problem import Problem
from planner.schedule.timetable import Assignment, Timetable


def check_timetable(problem: Problem, timetable: Timetable) -> tuple[Violation, ...]:
    """Return every rule that ``timetable`` breaks; empty means that it can be worked as it stands.

    Tasks and cooks that do not exist, and second mentions of a task, are reported and left out of
    the rest.
    """
    done, broken = _known(problem, timetable)
    breaks = breaks_of(problem, timetable)
    found = [
        *broken,
        *_check_tasks(problem, breaks, done.values()),
        *_check_cooks(problem, done.values()),
        *check_rests(problem, timetable, breaks, done.values()),
        *_check_leads(problem, tuple(done.values())),
        *_check_waits(problem, done),
        *check_holds(problem, done),
        *check_cleans(problem, done),
        *check_exposures(problem, done),
        *_check_jobs(problem, done),
    ]
    return tuple(found)


def _known(problem: Problem, timetable: Timetable) -> tuple[dict[int, Assignment], list[Violation]]:
    done: dict[int, Assignment] = {}
    broken: list[Violation] = []
    for a in timetable.assignments:
        if not 0 <= a.task < len(problem.tasks):
            broken.append(Violation(Rule.ONCE, str(a.task), f"there is no task {a.task}"))
        elif not 0 <= a.worker < len(problem.workers):
            task = problem.tasks[a.task].id
            broken.append(Violation(Rule.ONCE, task, f"{task}: there is no cook {a.worker}"))
        elif a.task in done:
            task = problem.tasks[a.task].id
            broken.append(
                Violation(
                    Rule.ONCE,
                    task,
                    f"{task} is done twice, at {clock(done[a.task].start)} and {clock(a.start)}",
                )
            )
        else:
            done[a.task] = a
    return done, broken


def _check_tasks(
    problem: Problem, breaks: Breaks, done: Iterable[Assignment]
) -> Iterator[Violation]:
    for a in done:
        pauses = pauses_in(problem, breaks, a)
        task, cook = problem.tasks[a.task], problem.workers[a.worker]
        if a.worker not in task.minutes:
            yield Violation(Rule.ABLE, task.id, f"{cook.id} cannot do {task.id}")
        elif a.end - a.start - pauses != task.minutes[a.worker]:
            yield Violation(
                Rule.DURATION,
                task.id,
                f"{task.id} takes {cook.id} {task.minutes[a.worker]} min, "
                f"not {a.end - a.start - pauses} ({clock(a.start)} to {clock(a.end)})",
            )
        if a.start - a.lead.total < problem.start or a.end > problem.horizon:
            yield Violation(
                Rule.DAY,
                task.id,
                f"{task.id} runs {clock(a.start - a.lead.total)} to {clock(a.end)}, outside the "
                f"day {clock(problem.start)} to {clock(problem.horizon)}",
            )
        if a.start < task.release:
            yield Violation(
                Rule.RELEASE,
                task.id,
                f"{task.id} starts at {clock(a.start)}, before {clock(task.release)}",
            )
        if task.start_by is not None and a.start > task.start_by:
            yield Violation(
                Rule.START_BY,
                task.id,
                f"{task.id} starts at {clock(a.start)}, after {clock(task.start_by)}",
            )
        if task.earliest_end is not None and a.end < task.earliest_end:
            yield Violation(
                Rule.FRESH,
                task.id,
                f"{task.id} ends at {clock(a.end)}, too early to stay fresh: "
                f"not before {clock(task.earliest_end)}",
            )
        if task.until is not None and a.end > task.until:
            yield Violation(
                Rule.UNTIL,
                task.id,
                f"{task.id} ends at {clock(a.end)}, of no use after {clock(task.until)}",
            )


def _check_cooks(problem: Problem, done: Iterable[Assignment]) -> Iterator[Violation]:
    lanes: dict[int, list[Assignment]] = defaultdict(list)
    for a in done:
        lanes[a.worker].append(a)
    for worker, lane in sorted(lanes.items()):
        cook = problem.workers[worker]
        lane.sort(key=lambda a: (a.start - a.lead.total, a.end))
        for a in lane:
            begin, task = a.start - a.lead.total, problem.tasks[a.task].id
            if begin < cook.start or a.end > cook.latest_end:
                yield Violation(
                    Rule.SHIFT,
                    task,
                    f"{cook.id} is at {task} {clock(begin)} to {clock(a.end)}, but is in only "
                    f"{clock(cook.start)} to {clock(cook.latest_end)}",
                )
            for start, end in cook.blocked:
                if begin < end and a.end > start:
                    yield Violation(
                        Rule.BLOCKED,
                        task,
                        f"{cook.id} is at {task} {clock(begin)} to {clock(a.end)}, but is away "
                        f"{clock(start)} to {clock(end)}",
                    )
        for earlier, later in pairwise(lane):
            if later.start - later.lead.total < earlier.end:
                first, second = problem.tasks[earlier.task].id, problem.tasks[later.task].id
                yield Violation(
                    Rule.OVERLAP,
                    second,
                    f"{cook.id} turns to {second} at {clock(later.start - later.lead.total)}, "
                    f"but has {first} until {clock(earlier.end)}",
                )


def _check_leads(problem: Problem, done: tuple[Assignment, ...]) -> Iterator[Violation]:
    for a, (lead, why) in zip(done, expected_leads(problem, done), strict=True):
        if a.lead != lead:
            task = problem.tasks[a.task].id
            parts = ", ".join(
                f"{part.replace('_', ' ')} {getattr(lead, part)} not {getattr(a.lead, part)}"
                for part in ("set_up", "changeover", "hand_wash", "clean")
                if getattr(lead, part) != getattr(a.lead, part)
            )
            yield Violation(Rule.LEAD, task, f"before {task} ({why}): {parts} min")


def _check_waits(problem: Problem, done: Mapping[int, Assignment]) -> Iterator[Violation]:
    for wait in problem.waits:
        before, after = done.get(wait.before), done.get(wait.after)
        if before is None or after is None:
            continue
        minutes = after.start - before.end
        too_long = wait.maximum is not None and minutes > wait.maximum
        if minutes < wait.minimum or too_long:
            first, second = problem.tasks[wait.before].id, problem.tasks[wait.after].id
            limit = f"at most {wait.maximum}" if too_long else f"at least {wait.minimum}"
            yield Violation(
                Rule.WAIT, second, f"{second} starts {minutes} min after {first}; {limit} allowed"
            )


def _check_jobs(problem: Problem, done: Mapping[int, Assignment]) -> Iterator[Violation]:
    made = [all(task in done for task in job.tasks) for job in problem.jobs]
    for job, whole in zip(problem.jobs, made, strict=True):
        started = [problem.tasks[task].id for task in job.tasks if task in done]
        left = [problem.tasks[task].id for task in job.tasks if task not in done]
        if started and left:
            yield Violation(
                Rule.WHOLE_JOB,
                job.id,
                f"{job.id} is half done: {', '.join(left)} missing, {', '.join(started)} done",
            )
        if started and job.impossible:
            yield Violation(Rule.IMPOSSIBLE, job.id, f"{job.id} cannot be made: {job.impossible}")
        if whole:
            for need in job.needs:
                if not made[need]:
                    yield Violation(
                        Rule.NEEDS,
                        job.id,
                        f"{job.id} is made without {problem.jobs[need].id}, which it needs",
                    )
