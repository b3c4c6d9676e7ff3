"""A solution: who does which task when and where, with what it costs."""

from dataclasses import dataclass
from enum import StrEnum


@dataclass(frozen=True, slots=True)
class Lead:
    """Minutes of a cook right before a task's own work, all of them hands-on changeover."""

    set_up: int = 0
    changeover: int = 0
    hand_wash: int = 0
    clean: int = 0

    @property
    def total(self) -> int:
        """Minutes of the whole lead."""
        return self.set_up + self.changeover + self.hand_wash + self.clean


@dataclass(frozen=True, slots=True)
class Assignment:
    """One task done: the lead runs from ``start - lead.total`` to ``start``, the work to ``end``.

    ``units`` names, for each hold on a contact resource that opens with this task, the unit:
    (hold index, unit from 0). ``cleaned`` are those of these holds whose unit is cleaned in the
    lead; left out, those whose unit another food has left unclean.
    """

    task: int
    worker: int
    start: int
    end: int
    lead: Lead = Lead()
    units: tuple[tuple[int, int], ...] = ()
    cleaned: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Timetable:
    """All tasks that are done, by task index; what is missing is short.

    ``rests``: when each rest of each worker starts (minutes), in the order of the problem. Left
    out, also of single workers, every rest starts as early as it may.
    """

    assignments: tuple[Assignment, ...]
    rests: tuple[tuple[int, ...], ...] = ()


class Term(StrEnum):
    """Terms of the objective, in strict order."""

    SHORT = "short"
    TARDINESS = "tardiness"
    LABOR = "labor"
    FRESHNESS = "freshness"
    FINISH = "finish"


TERMS: tuple[Term, ...] = tuple(Term)


@dataclass(frozen=True, slots=True, order=True)
class Score:
    """The objective, compared term by term in the order of the fields.

    Attributes
    ----------
    short
        Weighted portions short: per promise, those of its shortest component.
    tardiness
        Weighted minutes late, over tasks with a due time.
    labor
        Minutes of work, leads and overtime.
    freshness
        Weighted minutes that fresh work lies before it is due.
    finish
        Minutes from the problem's start to the end of the last task.
    """

    short: int
    tardiness: int
    labor: int
    freshness: int
    finish: int

    def term(self, term: Term) -> int:
        """The value of one term."""
        return int(getattr(self, term.value))


class Status(StrEnum):
    """How good the timetable is known to be."""

    OPTIMAL = "optimal"
    FEASIBLE = "feasible"


@dataclass(frozen=True, slots=True)
class Bound:
    """A term's value and the least it can be among plans no worse in every earlier term.

    ``relaxation`` says which argument gave the bound.
    """

    term: Term
    value: int
    bound: int
    relaxation: str

    @property
    def gap(self) -> float:
        """(value - bound) / value as a fraction; absolute minutes where the bound is zero."""
        if self.value <= self.bound:
            return 0.0
        return (self.value - self.bound) / self.value if self.bound > 0 else float(self.value)

    @property
    def proven(self) -> bool:
        """No plan that is as good in the earlier terms does better in this one."""
        return self.value <= self.bound


@dataclass(frozen=True, slots=True)
class Progress:
    """An improving solution, as it is found."""

    seconds: float
    score: Score
    origin: str
    least_labor: int = 0
    """Minutes that no plan of these lots has less than, none worse in what is short or late."""


@dataclass(frozen=True, slots=True)
class Solution:
    """A timetable with its score, what is proven of it, and how it was found."""

    timetable: Timetable
    score: Score
    status: Status
    bounds: tuple[Bound, ...]
    history: tuple[Progress, ...]
    seconds: float
    deterministic_time: float
    seed: int
