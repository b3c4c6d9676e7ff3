"""One plan to be looked at, and which of its lots hang together."""

from collections.abc import Iterable
from dataclasses import dataclass

from planner.lots.types import Workload
from planner.schedule.assemble import Incumbent
from planner.schedule.tables import Tables, with_needs
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
        return sorted(with_needs(self.tables.problem, jobs, but=self.plan.done))

    def with_needs(self, jobs: Iterable[int]) -> frozenset[int]:
        """These jobs and all they need, and so on."""
        return with_needs(self.tables.problem, jobs)
