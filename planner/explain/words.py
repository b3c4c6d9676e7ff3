"""Holds and batches in plain sentences with clock times, one sentence each."""

from collections.abc import Callable, Iterator, Mapping
from functools import cached_property

from planner.binding.links import Kind, Link, cleaned_after
from planner.kitchen.document import Kitchen
from planner.lots.types import Part
from planner.plan import Plan
from planner.quantities.compute import kitchenry
from planner.quantities.kitchenry import Kitchenry
from planner.schedule.assemble import Incumbent, incumbent_of
from planner.schedule.problem import Problem
from planner.schedule.tables import Tables, tables_of
from planner.sheet.away import BREAK, ON_LINE, SET_UP, away
from planner.sheet.food_names import food_name
from planner.sheet.outputs import sheet_cut
from planner.sheet.runs import Run, batch_of_task, runs
from planner.sheet.view import PlanView
from planner.troubles.naming import Naming, resource_name
from planner.wording import sentence


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
        what = f"{operation} {food}{self._cut(run, food)}"
        if run.part is Part.CHECK:
            return sentence("Check: {what}", what=what)
        return sentence("Take out: {what}", what=what) if run.part is Part.FINISH else what

    def _cut(self, run: Run, food: str) -> str:
        """``, small dice`` where that is the cut of the batch and the food's name does not say."""
        cuts = {lot.cut for lot in run.lots if lot.cut is not None and run.part is Part.WORK}
        known = (sheet_cut(self.view, cut) for cut in sorted(cuts))
        names = [cut.name.lower() for cut in known if cut is not None]
        return "".join(f", {name}" for name in names if name not in food.lower())

    def batch(self, task: int) -> str:
        """The batch of a task, as others speak of it: ``Dice Onions (batch 12, Ben)``."""
        run = self.run_of[task]
        return sentence(
            "{title} (batch {n}, {cook})",
            title=self.title(run),
            n=run.number,
            cook=run.cook.name,
        )


def hold_sentence(morning: Morning, link: Link) -> str:
    """What holds a task, and until when."""
    because = _REASONS[link.kind](morning, link)
    if link.kind is Kind.FRESH:
        return f"{because}."
    at = morning.clock(link.at)
    if link.kind is Kind.FOLLOWS:
        return sentence("It may not end before {at}: {because}.", at=at, because=because)
    return sentence("Not before {at}: {because}.", at=at, because=because)


def lead_sentences(morning: Morning, task: int) -> Iterator[str]:
    """What the cook must do before a task's own work, and why a surface is cleaned."""
    item = morning.incumbent.by_task[task]
    lead = item.lead
    parts = (
        (sentence("changing over"), lead.changeover),
        (sentence("washing hands"), lead.hand_wash),
        (sentence("cleaning"), lead.clean),
        (sentence("setting up"), lead.set_up),
    )
    named = [
        sentence("{words} {n} min", words=words, n=minutes) for words, minutes in parts if minutes
    ]
    if named:
        begin = morning.clock(item.start - lead.total)
        yield sentence(
            "From {at} first: {list}; the food from {at_2}.",
            at=begin,
            list=", ".join(named),
            at_2=morning.clock(item.start),
        )
    for hold, before in cleaned_after(morning.tables, morning.incumbent, task):
        surface = resource_name(
            morning.kit, morning.problem.resources[morning.problem.holds[hold].resource].id
        )
        if hold not in morning.incumbent.dirty:
            yield sentence(
                "{surface} must be cleaned: it has been in use for long enough.", surface=surface
            )
            continue
        user = morning.problem.holds[before].first
        family = morning.problem.families[morning.problem.tasks[user].family]
        left = [f"raw {family.hygiene.raw_animal}"] if family.hygiene.raw_animal else []
        left += sorted(family.hygiene.allergens)
        yield sentence(
            "{surface} must be cleaned of {list} after {batch}.",
            surface=surface,
            list=" and ".join(left),
            batch=morning.batch(user),
        )


def _food(morning: Morning, link: Link) -> str:
    return sentence("it needs {other}, which is done then", other=_other(morning, link))


def _process(morning: Morning, link: Link) -> str:
    return sentence(
        "{other} is left to itself from {at} until then",
        other=_other(morning, link),
        at=_since(morning, link),
    )


def _vessel(morning: Morning, link: Link) -> str:
    out = sentence("the one that comes out then is of {other}", other=_other(morning, link))
    return sentence(
        "{full} until then; {out}, begun at {at}",
        full=_full(morning, link),
        out=out,
        at=_since(morning, link),
    )


def _place(morning: Morning, link: Link) -> str:
    if link.other is None:
        return _full(morning, link)
    since = morning.clock(morning.run_of[link.other].start)
    return sentence(
        "{full} until then; {other} is there from {at}",
        full=_full(morning, link),
        other=_other(morning, link),
        at=since,
    )


def _line(morning: Morning, link: Link) -> str:
    return sentence(
        "{cook} is at {own} until then", cook=_cook(morning, link), own=_own(morning, link)
    )


def _absence(morning: Morning, link: Link) -> str:
    text = _away(_away_kind(morning, link), _cook(morning, link), _since(morning, link))
    return sentence("{text}, and had time for it before", text=text) if link.room else text


def _away(kind: str, cook: str, at: str) -> str:
    if kind == BREAK:
        return sentence("{cook} has a break from {at} until then", cook=cook, at=at)
    if kind == ON_LINE:
        return sentence("{cook} is on the line from {at} until then", cook=cook, at=at)
    if kind == SET_UP:
        return sentence("{cook} sets up the station from {at} until then", cook=cook, at=at)
    return sentence("{cook} is away from prep from {at} until then", cook=cook, at=at)


def _arrival(morning: Morning, link: Link) -> str:
    worker = morning.problem.workers[morning.incumbent.by_task[link.task].worker]
    if worker.start == link.at:
        return sentence("{cook}'s shift begins then", cook=_cook(morning, link))
    return sentence("the day begins then")


def _follows(morning: Morning, link: Link) -> str:
    within = (
        sentence("at once")
        if link.since == link.at
        else sentence("within {n} min", n=link.since - link.at)
    )
    after = sentence(
        "{other} begins at {at}", other=_other(morning, link), at=_since(morning, link)
    )
    return sentence("{after} and must follow {within}", after=after, within=within)


def _exposed(_morning: Morning, _link: Link) -> str:
    return sentence("begun earlier, its food would be out of temperature control for too long")


def _clean(morning: Morning, link: Link) -> str:
    every = morning.problem.changeovers.clean_every
    name = sentence("its surface")
    if link.resource is not None:
        name = resource_name(morning.kit, morning.problem.resources[link.resource].id)
    return sentence(
        "begun earlier, {name} would be in use for more than {every} min without a "
        "clean, other work on it being done at {at}",
        name=name,
        every=every,
        at=_since(morning, link),
    )


def _own(morning: Morning, link: Link) -> str:
    """The same cook's batch, without the cook's name once more."""
    if link.other is None:
        return sentence("other work")
    run = morning.run_of[link.other]
    if run is morning.run_of[link.task]:
        return sentence("the same batch")
    return sentence("{title} (batch {n})", title=morning.title(run), n=run.number)


def _full(morning: Morning, link: Link) -> str:
    if link.resource is None:
        return sentence("no place is free")
    resource = morning.problem.resources[link.resource]
    name = resource_name(morning.kit, resource.id)
    free = (
        sentence("no place is free at {name}", name=name)
        if resource.id.startswith("station:")
        else sentence("no {name} is free", name=name)
    )
    if resource.capacity == 1 or resource.contact:
        return free
    return sentence(
        "{free} ({capacity} of {capacity} in use)", free=free, capacity=resource.capacity
    )


def _away_kind(morning: Morning, link: Link) -> str:
    item = morning.incumbent.by_task[link.task]
    cook = morning.kit.catalog.cooks[morning.plan.workload.cooks[item.worker]]
    rests = morning.incumbent.rests[item.worker]
    for one in away(cook, morning.plan.date, morning.kit.catalog.kitchen.rules, rests):
        if one.end == link.at:
            return one.kind
    return ""


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
    return (
        sentence("its delivery comes then ({what})", what=what)
        if what
        else sentence("its food comes then")
    )


def _fresh(morning: Morning, link: Link) -> str:
    item = morning.incumbent.by_task[link.task]
    task = morning.problem.tasks[item.task]
    if task.earliest_end == item.end:
        return sentence(
            "It must not be done before {at}, to be fresh at service", at=morning.clock(item.end)
        )
    if task.due is None:
        return sentence("Moved earlier it would wait longer, and it is to be fresh when it is due")
    return sentence(
        "Moved earlier it would wait longer, and it is to be fresh when it is due at {at}",
        at=morning.clock(task.due),
    )


def _cook(morning: Morning, link: Link) -> str:
    return morning.cook(morning.incumbent.by_task[link.task].worker)


def _since(morning: Morning, link: Link) -> str:
    return morning.clock(link.since)


def _other(morning: Morning, link: Link) -> str:
    return sentence("other work") if link.other is None else morning.batch(link.other)


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
