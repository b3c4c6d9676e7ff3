"""A scheduling problem that is added to, piece by piece."""

from dataclasses import dataclass, replace

from planner.schedule.problem import (
    Family,
    Hold,
    Hygiene,
    Job,
    Problem,
    Promise,
    Resource,
    Serving,
    Task,
    Wait,
    Worker,
)

_MARK = "as it stands"
CLEAN = Hygiene()


def is_mark(task: Task) -> bool:
    """Whether a task only says how things stand."""
    return task.id.endswith(f":{_MARK}")


def marks_of(problem: Problem) -> list[int]:
    """All tasks that only say how things stand, by index."""
    return [index for index, task in enumerate(problem.tasks) if is_mark(task)]


@dataclass
class Board:
    """The rest of a day as it grows, from ``now`` on; indexes are those of the problem to be."""

    now: int
    workers: list[Worker]
    resources: list[Resource]
    families: list[Family]
    tasks: list[Task]
    jobs: list[Job]
    waits: list[Wait]
    holds: list[Hold]
    promises: list[Promise]

    @classmethod
    def of(cls, problem: Problem, now: int) -> "Board":
        """A board that starts from ``problem``, nothing of it before ``now``."""
        return cls(
            now,
            list(problem.workers),
            list(problem.resources),
            list(problem.families),
            [replace(task, release=max(task.release, now)) for task in problem.tasks],
            list(problem.jobs),
            list(problem.waits),
            list(problem.holds),
            list(problem.promises),
        )

    def resource(self, wanted: Resource) -> int:
        """Index of a resource, new or known."""
        for index, known in enumerate(self.resources):
            if known.id == wanted.id:
                return index
        self.resources.append(wanted)
        return len(self.resources) - 1

    def family(self, family: Family) -> int:
        """Index of a family, new or known."""
        if family not in self.families:
            self.families.append(family)
        return self.families.index(family)

    def task(self, task: Task) -> int:
        """Add a task."""
        self.tasks.append(task)
        return len(self.tasks) - 1

    def mark(self, job: int, hygiene: Hygiene) -> int:
        """Add a task of nobody, in the last minute before now: what it holds is held from then on.

        So no two of them hold the same surface, and nobody waits for one that is free now.
        """
        self.workers.append(Worker(_MARK, self.now - 1, self.now, self.now))
        family = self.family(Family(_MARK, "", "", hygiene, 0))
        return self._mark(job, family, len(self.workers) - 1, self.now - 1, 1)

    def mark_hands(self, job: int, family: Family, worker: int) -> int:
        """Add the last minute of what a cook was at when the new plan begins.

        The batch was opened before: its set-up counts as done when the cook begins again.
        """
        here = self.workers[worker]
        self.workers[worker] = replace(here, start=here.start - family.set_up - 1)
        return self._mark(job, self.family(family), worker, here.start - 1, 1)

    def _mark(self, job: int, family: int, worker: int, at: int, minutes: int) -> int:
        name = f"{job}:{_MARK}"
        return self.task(Task(name, job, family, {worker: minutes}, at, until=at + minutes))

    def must(self, name: str, weight: int) -> Serving:
        """A promise of its own for a job that is not to be left out."""
        self.promises.append(Promise(name, 1, weight))
        return Serving(len(self.promises) - 1, _MARK, 1)

    def problem(self, like: Problem) -> Problem:
        """The finished problem; what is not on the board is as in ``like``."""
        return replace(
            like,
            start=min([self.now, *(worker.start for worker in self.workers)]),
            horizon=max(like.horizon, self.now + 1),
            workers=tuple(self.workers),
            resources=tuple(self.resources),
            families=tuple(self.families),
            tasks=tuple(self.tasks),
            jobs=tuple(self.jobs),
            waits=tuple(self.waits),
            holds=tuple(self.holds),
            promises=tuple(self.promises),
        )
