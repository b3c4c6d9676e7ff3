"""One plan to be looked at, and which of its lots hang together."""

from collections.abc import Iterable
from dataclasses import dataclass

from planner.lots.types import Workload
from planner.schedule.assemble import Incumbent
from planner.schedule.tables import Tables
from planner.troubles.naming import Naming


@dataclass(frozen=True, slots=True)
class Case:
    """A day's lots, the plan that was found for them, and words for both."""

    workload: Workload
    tables: Tables
    plan: Incumbent
    naming: Naming

    def unmade(self, jobs: Iterable[int]) -> list[int]:
        """These jobs and all they need that are not made."""
        return sorted(self._with_needs([j for j in jobs if j not in self.plan.done], made=False))

    def with_needs(self, jobs: Iterable[int]) -> set[int]:
        """These jobs and all they need, and so on."""
        return self._with_needs(jobs, made=True)

    def _with_needs(self, jobs: Iterable[int], *, made: bool) -> set[int]:
        found: set[int] = set()
        stack = list(jobs)
        while stack:
            job = stack.pop()
            if job not in found and (made or job not in self.plan.done):
                found.add(job)
                stack.extend(self.tables.problem.jobs[job].needs)
        return found
