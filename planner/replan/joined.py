"""The whole day again after a replan: what has begun as it was, the rest as it is planned now."""

from collections import defaultdict
from dataclasses import dataclass, field, replace

from planner.lots.types import Lot, Part, Workload
from planner.replan.begun import Begun, Standing, work_of
from planner.replan.breaks import breaks_of_day
from planner.replan.course import Course
from planner.replan.links import Link
from planner.replan.residual import Residual
from planner.schedule.problem import Family, Hold, Job, Problem, Resource, Task, Wait
from planner.schedule.timetable import Assignment, Timetable


def joined(
    before: Course, day: Standing, links: tuple[Link, ...], rest: Residual, plan: Timetable
) -> tuple[Workload, Timetable, frozenset[int]]:
    """Lots that have begun, then those that have not; and the tasks the floor has told of.

    What new lots take from begun ones is written on them as ``upstream``, as if the whole day had
    been planned like this from the morning on.
    """
    day_again = _Day(before, day, rest)
    return day_again.workload(links), day_again.timetable(plan), day_again.told()


@dataclass(frozen=True, slots=True)
class WholeDay:
    """The lots of the whole day, and where tasks of before and of the rest stand among theirs."""

    workload: Workload
    task_at: dict[int, int]
    new_task_at: dict[int, int]
    carried_at: dict[int, int]


def whole_day(before: Course, day: Standing, rest: Residual, links: tuple[Link, ...]) -> WholeDay:
    """The day as ``joined`` has it, before the rest of it is planned."""
    again = _Day(before, day, rest)
    return WholeDay(again.workload(links), again.task_at, again.new_task_at, again.carried_at)


@dataclass
class _Day:
    before: Course
    day: Standing
    rest: Residual
    resources: list[Resource] = field(default_factory=list)
    families: list[Family] = field(default_factory=list)

    def __post_init__(self) -> None:
        new, old = self.rest.workload.problem, self.before.workload.problem
        begun = self.day.begun
        self.resources, self.families = list(new.resources), list(new.families)
        self.count = len(begun)
        self.lot_at = {one.lot.index: at for at, one in enumerate(begun)}
        tasks = [t for t, task in enumerate(old.tasks) if task.lot in self.lot_at]
        self.task_at = {task: at for at, task in enumerate(tasks)}
        fresh = [t for t, task in enumerate(new.tasks) if task.lot < self.rest.new_lots]
        self.new_task_at = {task: len(tasks) + at for at, task in enumerate(fresh)}
        # Marks and the rest of what is under way are known as what they were before.
        self.carried_at = {t: self.task_at[o] for t, o in self.rest.old_task.items()}

    def workload(self, links: tuple[Link, ...]) -> Workload:
        """Lots and problem of the whole day."""
        old, new = self.before.workload, self.rest.workload
        lots = [self._begun_lot(one) for one in self.day.begun]
        lots += self._new_lots(links)
        problem = replace(
            old.problem,
            horizon=max(old.problem.horizon, new.problem.horizon),
            tasks=(
                *(self._old_task(old.problem, task) for task in self.task_at),
                *(
                    replace(new.problem.tasks[t], lot=new.problem.tasks[t].lot + self.count)
                    for t in self.new_task_at
                ),
            ),
            jobs=(*(self._begun_job(one) for one in self.day.begun), *self._new_jobs(links)),
            waits=tuple(self._waits(links)),
            holds=tuple(self._holds()),
            promises=new.problem.promises,
            resources=tuple(self.resources),
            families=tuple(self.families),
            exposures=(),
        )
        return Workload(tuple(lots), problem, old.cooks)

    def _old_task(self, problem: Problem, task: int) -> Task:
        known = problem.tasks[task]
        family = problem.families[known.family]
        if family not in self.families:
            self.families.append(family)
        return replace(known, lot=self.lot_at[known.lot], family=self.families.index(family))

    def _begun_lot(self, one: Begun) -> Lot:
        lot = one.lot
        return replace(
            lot,
            index=self.lot_at[lot.index],
            tasks=tuple(replace(item, task=self.task_at[item.task]) for item in lot.tasks),
            upstream=tuple((self.lot_at[i], g) for i, g in lot.upstream if i in self.lot_at),
        )

    def _new_lots(self, links: tuple[Link, ...]) -> list[Lot]:
        taken: dict[int, dict[int, float]] = defaultdict(lambda: defaultdict(float))
        counted: dict[int, dict[str, float]] = defaultdict(lambda: defaultdict(float))
        for link in links:
            if link.grams > 0:
                taken[link.lot][self.lot_at[link.begun.lot.index]] += link.grams
            if link.item is not None:
                counted[link.lot][link.item] += link.grams
        found = []
        for lot in self.rest.workload.lots[: self.rest.new_lots]:
            upstream = {i + self.count: g for i, g in lot.upstream} | taken[lot.index]
            stock = [(item, grams - counted[lot.index][item]) for item, grams in lot.stock]
            found.append(
                replace(
                    lot,
                    index=lot.index + self.count,
                    tasks=tuple(replace(t, task=self.new_task_at[t.task]) for t in lot.tasks),
                    upstream=tuple(sorted(upstream.items())),
                    stock=tuple((item, grams) for item, grams in stock if grams > 1e-6),
                )
            )
        return found

    def _begun_job(self, one: Begun) -> Job:
        job = self.before.workload.problem.jobs[one.lot.index]
        return replace(
            job,
            tasks=tuple(self.task_at[task] for task in job.tasks),
            needs=tuple(sorted(self.lot_at[n] for n in job.needs if n in self.lot_at)),
            serves=(),
        )

    def _new_jobs(self, links: tuple[Link, ...]) -> list[Job]:
        needs: dict[int, set[int]] = defaultdict(set)
        for link in links:
            needs[link.lot].add(self.lot_at[link.begun.lot.index])
        found = []
        for index, job in enumerate(self.rest.workload.problem.jobs[: self.rest.new_lots]):
            own = {need + self.count for need in job.needs if need < self.rest.new_lots}
            found.append(
                replace(
                    job,
                    tasks=tuple(self.new_task_at[task] for task in job.tasks),
                    needs=tuple(sorted(own | needs[index])),
                )
            )
        return found

    def _waits(self, links: tuple[Link, ...]) -> list[Wait]:
        old, new = self.before.workload.problem, self.rest.workload
        found = [
            replace(w, before=self.task_at[w.before], after=self.task_at[w.after])
            for w in old.waits
            if w.before in self.task_at and w.after in self.task_at
        ]
        found += [
            replace(w, before=self.new_task_at[w.before], after=self.new_task_at[w.after])
            for w in new.problem.waits
            if w.before in self.new_task_at and w.after in self.new_task_at
        ]
        for link in links:
            lot = link.begun.lot
            first = work_of(new.lots[link.lot])
            if link.since is not None:
                since = self.task_at[link.since]
                found.append(Wait(since, self.new_task_at[first], 0, link.most))
                continue
            taken_out = [item.task for item in lot.tasks if item.part is Part.FINISH]
            last = taken_out[0] if taken_out else work_of(lot)
            alone = 0 if taken_out else lot.unattended
            most = None if link.most is None else alone + link.most
            found.append(
                Wait(self.task_at[last], self.new_task_at[first], alone + link.least, most)
            )
        return found

    def _holds(self) -> list[Hold]:
        old, new = self.before.workload.problem, self.rest.workload.problem
        self.old_hold_at: dict[int, int] = {}
        self.new_hold_at: dict[int, int] = {}
        found: list[Hold] = []
        for index, hold in enumerate(old.holds):
            if hold.first in self.task_at:
                self.old_hold_at[index] = len(found)
                found.append(
                    replace(
                        hold,
                        resource=self._resource(old.resources[hold.resource]),
                        first=self.task_at[hold.first],
                        last=self.task_at[hold.last],
                    )
                )
        for index, hold in enumerate(new.holds):
            if hold.first in self.new_task_at:
                self.new_hold_at[index] = len(found)
                found.append(
                    replace(
                        hold,
                        first=self.new_task_at[hold.first],
                        last=self.new_task_at[hold.last],
                    )
                )
        return found

    def _resource(self, wanted: Resource) -> int:
        if wanted not in self.resources:
            self.resources.append(wanted)
        return self.resources.index(wanted)

    def timetable(self, plan: Timetable) -> Timetable:
        """Assignments of the whole day; ``workload`` comes first."""
        units = self._units(plan)
        halves = {work_of(one.lot) for one in self.day.begun if one.share < 1}
        old_holds = self.before.workload.problem.holds
        old_resources = self.before.workload.problem.resources
        found = []
        for item in self.before.timetable.assignments:
            end = self.day.ended.get(item.task)
            if item.task in self.task_at and end is not None:
                if item.task in halves:
                    end = item.end  # The event that broke it off says so again.
                named = tuple(
                    (self.old_hold_at[hold], units.get((name, unit), unit))
                    for hold, unit in item.units
                    for name in [old_resources[old_holds[hold].resource].id]
                )
                cleaned = tuple(self.old_hold_at[hold] for hold in item.cleaned)
                task = self.task_at[item.task]
                found.append(replace(item, task=task, end=end, units=named, cleaned=cleaned))
        for item in plan.assignments:
            found += self._planned(item)
        rests = breaks_of_day(self.before, self.rest.breaks, plan)
        return Timetable(tuple(sorted(found, key=lambda one: one.task)), rests)

    def _planned(self, item: Assignment) -> list[Assignment]:
        if item.task in self.carried_at:
            task = self.carried_at[item.task]
            old = {at: hold for hold, at in self.old_hold_at.items()}
            problem = self.before.workload.problem
            opened = [
                at
                for at, hold in old.items()
                if self.task_at[problem.holds[hold].first] == task
                and problem.resources[problem.holds[hold].resource].contact
            ]
            # One hold opens with what is left, its station; the new plan says which unit.
            both = tuple(zip(opened, item.units, strict=False))
            named = tuple((at, unit) for at, (_, unit) in both)
            cleaned = tuple(at for at, (hold, _) in both if hold in item.cleaned)
            return [replace(item, task=task, units=named, cleaned=cleaned)]
        if item.task in self.new_task_at:
            named = tuple((self.new_hold_at[hold], unit) for hold, unit in item.units)
            cleaned = tuple(self.new_hold_at[hold] for hold in item.cleaned)
            return [replace(item, task=self.new_task_at[item.task], units=named, cleaned=cleaned)]
        return []

    def _units(self, plan: Timetable) -> dict[tuple[str, int], int]:
        """The new plan's number of each unit that had another one before."""
        chosen = dict(pair for item in plan.assignments for pair in item.units)
        found: dict[tuple[str, int], int] = {}
        for hold, key in self.rest.old_unit.items():
            if hold in chosen:
                found[key] = chosen[hold]
        for resource in self.before.workload.problem.resources:
            used = {unit for (name, _), unit in found.items() if name == resource.id}
            free = [unit for unit in range(resource.capacity) if unit not in used]
            for unit in range(resource.capacity if resource.contact else 0):
                if (resource.id, unit) not in found:
                    found[resource.id, unit] = free.pop(0)
        return found

    def told(self) -> frozenset[int]:
        """Tasks that have begun, and so are facts from now on."""
        return frozenset(self.task_at[t] for t in self.day.ended if t in self.task_at)
