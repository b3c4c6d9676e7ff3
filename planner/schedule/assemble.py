"""From bare choices (who, when, which unit) to a timetable with exact leads."""

from collections import defaultdict
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from planner.schedule.cleans import cleaned_in, dirty_holds, lines_of, needed
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
    cleaned: Collection[int] = (),
) -> Timetable:
    """Work out each lead from its neighbours on the cook's line and on the units it opens.

    ``units`` names the unit by hold, ``rests`` says per worker where the rests are, ``cleaned``
    which holds are to be cleaned before; of those that no food asks for only the ones that the
    clock does are kept. Leads follow from the order and these, so they never need solving for; a
    caller that reserved more for them than they turn out to be stays feasible.
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
    cleans = _cleans(tables, choices, base, units, cleaned)
    assignments = []
    for task in sorted(choices):
        choice, lead = choices[task], base[task]
        mine = tuple(hold for hold in tables.contact_opens[task] if hold in cleans)
        if mine:
            minutes = len(mine) * problem.changeovers.clean
            lead = Lead(lead.set_up, lead.changeover, lead.hand_wash, minutes)
        named = tuple((h, units[h]) for h in tables.opens[task] if tables.contact(h))
        assignments.append(
            Assignment(task, choice.worker, choice.start, choice.end, lead, named, mine)
        )
    return Timetable(tuple(assignments), starts_of(rests))


def _cleans(
    tables: Tables,
    choices: Mapping[int, Choice],
    base: Mapping[int, Lead],
    units: Mapping[int, int],
    wanted: Collection[int],
) -> frozenset[int]:
    """Holds to be cleaned before: the dirty ones, and of those ``wanted`` what the clock asks."""
    problem = tables.problem
    starts = {task: choice.start for task, choice in choices.items()}
    dirty = dirty_holds(tables, starts, units)
    kept = dirty.union(hold for hold in wanted if hold in units)
    if problem.changeovers.clean_every is None or kept == dirty:
        return dirty
    lines = lines_of(tables, starts, units)
    while True:
        stretches = {}
        for hold in units:
            spec = problem.holds[hold]
            opener = choices[spec.first]
            cleans = sum(other in kept for other in tables.contact_opens[spec.first])
            lead = base[spec.first].total + cleans * problem.changeovers.clean
            end = choices.get(spec.last, opener).end + spec.tail
            stretches[hold] = opener.start - lead, end
        found = needed(tables, lines, stretches, dirty, kept)
        if found == kept:
            return kept
        kept = found  # Leads are shorter now, so runs begin later, and fewer may do.


@dataclass(frozen=True)
class Incumbent:
    """A timetable seen from its lines and units, for a model built around it."""

    timetable: Timetable
    by_task: dict[int, Assignment]
    lines: dict[int, tuple[int, ...]]
    unit_of: dict[int, int]
    cleaned: frozenset[int]
    """Holds whose unit is cleaned before them."""
    dirty: frozenset[int]
    """Those of them whose unit another food has left unclean."""
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
        cleaned=cleaned_in(tables, timetable),
        dirty=dirty_holds(tables, starts, unit_of),
        done=frozenset(tables.problem.tasks[task].lot for task in by_task),
        rests=slots_of(tables.problem, timetable),
    )
