"""From bare choices (who, when, which unit) to a timetable with exact leads."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from planner.schedule.rests import Slot, slots_of, starts_of
from planner.schedule.tables import Tables
from planner.schedule.timetable import Assignment, Lead, Timetable


@dataclass(frozen=True, slots=True)
class Choice:
    """Who does a task, from when to when (minutes), lead apart."""

    worker: int
    start: int
    end: int


def assemble(
    tables: Tables,
    choices: Mapping[int, Choice],
    units: Mapping[int, int],
    rests: Sequence[Sequence[Slot]],
) -> Timetable:
    """Work out each lead from its neighbours on the cook's line and on the units it opens.

    ``units`` names the unit by hold, ``rests`` says per worker where the rests are. Leads
    follow from the order alone, so they never need solving for; a caller that reserved more for
    them than they turn out to be stays feasible.
    """
    problem = tables.problem
    lines: dict[int, list[int]] = defaultdict(list)
    for task, choice in choices.items():
        lines[choice.worker].append(task)
    base: dict[int, Lead] = {}
    for line in lines.values():
        line.sort(key=lambda task: (choices[task].start, choices[task].end))
        before: int | None = None
        for task in line:
            base[task] = tables.lead(before, task)
            before = task
    cleans: dict[int, int] = defaultdict(int)
    starts = {task: choice.start for task, choice in choices.items()}
    for hold in cleaned_holds(tables, starts, units):
        cleans[problem.holds[hold].first] += 1
    assignments = []
    for task in sorted(choices):
        choice, lead = choices[task], base[task]
        if task in cleans:
            minutes = cleans[task] * problem.changeovers.clean
            lead = Lead(lead.set_up, lead.changeover, lead.hand_wash, minutes)
        named = tuple((h, units[h]) for h in tables.opens[task] if tables.contact(h))
        assignments.append(Assignment(task, choice.worker, choice.start, choice.end, lead, named))
    return Timetable(tuple(assignments), starts_of(rests))


def cleaned_holds(
    tables: Tables, starts: Mapping[int, int], units: Mapping[int, int]
) -> frozenset[int]:
    """Holds whose unit must be cleaned before them, from the order on each unit."""
    holds = tables.problem.holds
    uses: dict[tuple[int, int], list[int]] = defaultdict(list)
    for hold, unit in units.items():
        uses[holds[hold].resource, unit].append(hold)
    found: set[int] = set()
    for line in uses.values():
        line.sort(key=lambda hold: starts[holds[hold].first])
        for before, after in pairwise(line):
            if tables.dirty[tables.hold_family(before)][tables.hold_family(after)]:
                found.add(after)
    return frozenset(found)


@dataclass(frozen=True)
class Incumbent:
    """A timetable seen from its lines and units, for a model built around it."""

    timetable: Timetable
    by_task: dict[int, Assignment]
    lines: dict[int, tuple[int, ...]]
    unit_of: dict[int, int]
    cleaned: frozenset[int]
    """Holds whose unit is cleaned before them."""
    done: frozenset[int]
    rests: tuple[tuple[Slot, ...], ...]
    """Per worker: where the rests are."""

    def spanned(self, task: int) -> frozenset[int]:
        """Rests of its cook that a task is put down over."""
        item = self.by_task[task]
        return frozenset(
            index
            for index, (begin, end) in enumerate(self.rests[item.worker])
            if item.start < begin and end < item.end
        )


def incumbent_of(tables: Tables, timetable: Timetable) -> Incumbent:
    """Index a timetable by task, cook and unit."""
    by_task = {item.task: item for item in timetable.assignments}
    lines: dict[int, list[int]] = defaultdict(list)
    for item in sorted(timetable.assignments, key=lambda item: (item.start, item.end)):
        lines[item.worker].append(item.task)
    starts = {task: item.start for task, item in by_task.items()}
    unit_of = {hold: unit for item in timetable.assignments for hold, unit in item.units}
    return Incumbent(
        timetable=timetable,
        by_task=by_task,
        lines={worker: tuple(line) for worker, line in lines.items()},
        unit_of=unit_of,
        cleaned=cleaned_holds(tables, starts, unit_of),
        done=frozenset(tables.problem.tasks[task].lot for task in by_task),
        rests=slots_of(tables.problem, timetable),
    )
