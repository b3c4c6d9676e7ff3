"""Holds and batches in plain sentences with clock times, one sentence each."""

from collections.abc import Callable, Iterator, Mapping
from functools import cached_property

from planner.binding.links import Kind, Link, cleaned_after
from planner.kitchen.document import Kitchen
from planner.lots.types import Part
from planner.plan import Plan
from planner.quantities.compute import kitchenry
from planner.quantities.making import Kitchenry
from planner.schedule.assemble import Incumbent, incumbent_of
from planner.schedule.problem import Problem
from planner.schedule.tables import Tables, tables_of
from planner.sheet.away import away
from planner.sheet.food_names import food_name
from planner.sheet.outputs import sheet_cut
from planner.sheet.runs import Run, batch_of_task, runs
from planner.sheet.view import PlanView
from planner.troubles.naming import Naming, resource_name

_PARTS = {Part.CHECK: "Check: ", Part.FINISH: "Take out: "}
_AWAY = {
    "break": "has a break",
    "on the line": "is on the line",
    "station set-up": "sets up the station",
}


class Morning:
    """One plan, looked up as explanations need it: its batches by the numbers of the sheet.

    Parameters
    ----------
    kitchen, plan
        The kitchen file and the plan that was made of it.
    """

    def __init__(self, kitchen: Kitchen, plan: Plan) -> None:
        self.plan = plan
        self.kit: Kitchenry = kitchenry(kitchen, plan.date)
        self.view = PlanView(kitchen, plan)
        self.naming = Naming(self.kit, plan.workload, plan.quantities.pulls)

    @property
    def problem(self) -> Problem:
        """What was scheduled."""
        return self.plan.workload.problem

    @cached_property
    def tables(self) -> Tables:
        """Look-ups of the problem."""
        return tables_of(self.problem)

    @cached_property
    def incumbent(self) -> Incumbent:
        """The timetable by task, cook and unit."""
        return incumbent_of(self.tables, self.plan.solution.timetable)

    @cached_property
    def runs(self) -> tuple[Run, ...]:
        """All batches, numbered as on the sheet."""
        return runs(self.view)

    @cached_property
    def run_of(self) -> Mapping[int, Run]:
        """The batch of each task done."""
        return batch_of_task(self.runs)

    def cook(self, worker: int) -> str:
        """Name of a cook by worker index."""
        return self.kit.catalog.cooks[self.plan.workload.cooks[worker]].name

    def clock(self, minutes: int) -> str:
        """Wall-clock time; with its day where that is not the planned one."""
        return self.naming.clock(minutes)

    def title(self, run: Run) -> str:
        """The movement and the food as the sheet calls it: ``Take out: Roast Beef, roasted``."""
        operation = self.view.operation(run.lots[0]).name
        food = food_name(self.view, run.lots, run.part)
        return f"{_PARTS.get(run.part, '')}{operation} {food}{self._cut(run, food)}"

    def _cut(self, run: Run, food: str) -> str:
        """``, small dice`` where that is the cut of the batch and the food's name does not say."""
        cuts = {lot.cut for lot in run.lots if lot.cut is not None and run.part is Part.WORK}
        known = (sheet_cut(self.view, cut) for cut in sorted(cuts))
        names = [cut.name.lower() for cut in known if cut is not None]
        return "".join(f", {name}" for name in names if name not in food.lower())

    def batch(self, task: int) -> str:
        """The batch of a task, as others speak of it: ``Dice Onions (batch 12, Ben)``."""
        run = self.run_of[task]
        return f"{self.title(run)} (batch {run.number}, {run.cook.name})"


def hold_sentence(morning: Morning, link: Link) -> str:
    """What holds a task, and until when."""
    because = _REASONS[link.kind](morning, link)
    if link.kind is Kind.FRESH:
        return f"{because}."
    what = "It may not end before" if link.kind is Kind.FOLLOWS else "Not before"
    return f"{what} {morning.clock(link.at)}: {because}."


def lead_sentences(morning: Morning, task: int) -> Iterator[str]:
    """What the cook must do before a task's own work, and why a surface is cleaned."""
    item = morning.incumbent.by_task[task]
    lead = item.lead
    parts = (
        ("changing over", lead.changeover),
        ("washing hands", lead.hand_wash),
        ("cleaning", lead.clean),
        ("setting up", lead.set_up),
    )
    named = [f"{words} {minutes} min" for words, minutes in parts if minutes]
    if named:
        begin = morning.clock(item.start - lead.total)
        yield f"From {begin} first: {', '.join(named)}; the food from {morning.clock(item.start)}."
    for hold, before in cleaned_after(morning.tables, morning.incumbent, task):
        surface = resource_name(
            morning.kit, morning.problem.resources[morning.problem.holds[hold].resource].id
        )
        if hold not in morning.incumbent.dirty:
            yield f"{surface} must be cleaned: it has been in use for long enough."
            continue
        user = morning.problem.holds[before].first
        family = morning.problem.families[morning.problem.tasks[user].family]
        left = [f"raw {family.hygiene.raw_animal}"] if family.hygiene.raw_animal else []
        left += sorted(family.hygiene.allergens)
        yield f"{surface} must be cleaned of {' and '.join(left)} after {morning.batch(user)}."


def _food(morning: Morning, link: Link) -> str:
    return f"it needs {_other(morning, link)}, which is done then"


def _process(morning: Morning, link: Link) -> str:
    return f"{_other(morning, link)} is left to itself from {_since(morning, link)} until then"


def _vessel(morning: Morning, link: Link) -> str:
    out = f"the one that comes out then is of {_other(morning, link)}"
    return f"{_full(morning, link)} until then; {out}, begun at {_since(morning, link)}"


def _place(morning: Morning, link: Link) -> str:
    if link.other is None:
        return _full(morning, link)
    since = morning.clock(morning.run_of[link.other].start)
    return f"{_full(morning, link)} until then; {_other(morning, link)} is there from {since}"


def _line(morning: Morning, link: Link) -> str:
    return f"{_cook(morning, link)} is at {_own(morning, link)} until then"


def _absence(morning: Morning, link: Link) -> str:
    text = f"{_cook(morning, link)} {_away(morning, link)} from {_since(morning, link)} until then"
    return f"{text}, and had time for it before" if link.room else text


def _arrival(morning: Morning, link: Link) -> str:
    worker = morning.problem.workers[morning.incumbent.by_task[link.task].worker]
    if worker.start == link.at:
        return f"{_cook(morning, link)}'s shift begins then"
    return "the day begins then"


def _follows(morning: Morning, link: Link) -> str:
    within = "at once" if link.since == link.at else f"within {link.since - link.at} min"
    after = f"{_other(morning, link)} begins at {_since(morning, link)}"
    return f"{after} and must follow {within}"


def _exposed(_morning: Morning, _link: Link) -> str:
    return "begun earlier, its food would be out of temperature control for too long"


def _clean(morning: Morning, link: Link) -> str:
    every = morning.problem.changeovers.clean_every
    name = "its surface"
    if link.resource is not None:
        name = resource_name(morning.kit, morning.problem.resources[link.resource].id)
    return (
        f"begun earlier, {name} would be in use for more than {every} min without a clean, "
        f"other work on it being done at {_since(morning, link)}"
    )


def _own(morning: Morning, link: Link) -> str:
    """The same cook's batch, without the cook's name once more."""
    if link.other is None:
        return "other work"
    run = morning.run_of[link.other]
    if run is morning.run_of[link.task]:
        return "the same batch"
    return f"{morning.title(run)} (batch {run.number})"


def _full(morning: Morning, link: Link) -> str:
    if link.resource is None:
        return "no place is free"
    resource = morning.problem.resources[link.resource]
    name = resource_name(morning.kit, resource.id)
    free = (
        f"no place is free at {name}"
        if resource.id.startswith("station:")
        else f"no {name} is free"
    )
    if resource.capacity == 1 or resource.contact:
        return free
    return f"{free} ({resource.capacity} of {resource.capacity} in use)"


def _away(morning: Morning, link: Link) -> str:
    item = morning.incumbent.by_task[link.task]
    cook = morning.kit.catalog.cooks[morning.plan.workload.cooks[item.worker]]
    rests = morning.incumbent.rests[item.worker]
    for one in away(cook, morning.plan.date, morning.kit.catalog.kitchen.rules, rests):
        if one.end == link.at:
            return _AWAY.get(one.kind, "is away from prep")
    return "is away from prep"


def _delivered(morning: Morning, link: Link) -> str:
    """The food of the lot, or of one of its batch, that is delivered right then."""
    lot = morning.plan.workload.lots[morning.problem.tasks[link.task].lot]
    pulled = {item for item, _grams in lot.pulls}
    names = [
        morning.kit.catalog.name(one.item)
        for one in morning.kit.catalog.kitchen.deliveries
        if one.item in pulled and one.date == morning.plan.date
    ]
    what = " and ".join(dict.fromkeys(names))
    return f"its delivery comes then ({what})" if what else "its food comes then"


def _fresh(morning: Morning, link: Link) -> str:
    item = morning.incumbent.by_task[link.task]
    task = morning.problem.tasks[item.task]
    if task.earliest_end == item.end:
        return f"It must not be done before {morning.clock(item.end)}, to be fresh at service"
    due = "" if task.due is None else f" at {morning.clock(task.due)}"
    return f"Moved earlier it would wait longer, and it is to be fresh when it is due{due}"


def _cook(morning: Morning, link: Link) -> str:
    return morning.cook(morning.incumbent.by_task[link.task].worker)


def _since(morning: Morning, link: Link) -> str:
    return morning.clock(link.since)


def _other(morning: Morning, link: Link) -> str:
    return "other work" if link.other is None else morning.batch(link.other)


_REASONS: Mapping[Kind, Callable[[Morning, Link], str]] = {
    Kind.FOOD: _food,
    Kind.PROCESS: _process,
    Kind.VESSEL: _vessel,
    Kind.PLACE: _place,
    Kind.COOK: _line,
    Kind.AWAY: _absence,
    Kind.ARRIVAL: _arrival,
    Kind.DELIVERY: _delivered,
    Kind.FOLLOWS: _follows,
    Kind.EXPOSED: _exposed,
    Kind.CLEAN: _clean,
    Kind.FRESH: _fresh,
}
