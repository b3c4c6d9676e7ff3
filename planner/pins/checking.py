"""Whether a batch can be held as people wish: said before anything is searched, field by field."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from planner.clock import clock
from planner.kitchen.catalog import Catalog
from planner.lots.types import Lot, Workload
from planner.pins.apply import work_task
from planner.pins.types import Pin, PinError
from planner.schedule.problem import Task, Worker
from planner.schedule.rests import walls_of
from planner.schedule.tables import Tables, tables_of
from planner.wording import sentence

_MIDNIGHT = 24 * 60


def check_wishes(catalog: Catalog, workload: Workload, pins: Iterable[Pin]) -> None:
    """Raise PinError for the first pin that no plan of ``workload`` can keep.

    What passes may still be impossible beside all else that is held: that shows in the search.
    """
    for error in wrong_wishes(catalog, workload, pins):
        raise error


def keepable(
    catalog: Catalog, workload: Workload, pins: Iterable[Pin]
) -> tuple[tuple[Pin, ...], tuple[PinError, ...]]:
    """Those of the pins that can be kept, and what is wrong with the others."""
    wishes = tuple(pins)
    errors = tuple(wrong_wishes(catalog, workload, wishes))
    wrong = {error.lot for error in errors}
    return tuple(pin for pin in wishes if pin.lot not in wrong), errors


def wrong_wishes(catalog: Catalog, workload: Workload, pins: Iterable[Pin]) -> Iterator[PinError]:
    """What is wrong with each pin; nothing of those that can be kept."""
    asked = _Asked(catalog, workload, tables_of(workload.problem))
    kept: list[Pin] = []
    for pin in pins:
        error = asked.wrong(pin, kept)
        if error is None:
            kept.append(pin)
        else:
            yield error


@dataclass(frozen=True, slots=True)
class _Asked:
    catalog: Catalog
    workload: Workload
    tables: Tables

    def wrong(self, pin: Pin, before: Iterable[Pin]) -> PinError | None:
        """What is wrong with a pin, beside those that were found to be right."""
        lot = next((lot for lot in self.workload.lots if lot.id == pin.lot), None)
        if lot is None:
            return PinError(
                pin.lot,
                "batch",
                pin.lot,
                sentence("is no batch of the plan"),
                sentence("Open its newest plan"),
            )
        job = self.workload.problem.jobs[lot.index]
        if job.impossible:
            return PinError(
                pin.lot,
                "batch",
                self._title(lot),
                sentence("cannot be made: {impossible}", impossible=job.impossible),
                sentence("Mend that first, and build the day's plan again"),
            )
        task = self.workload.problem.tasks[work_task(lot)]
        return (
            self._wrong_cook(pin, lot, task)
            or self._wrong_time(pin, lot, task)
            or self._in_the_way(pin, task, before)
        )

    def _wrong_cook(self, pin: Pin, lot: Lot, task: Task) -> PinError | None:
        if pin.cook is None:
            return None
        able = ", ".join(self._name(w) for w in task.minutes) or sentence("nobody")
        known = self.catalog.cooks.get(pin.cook)
        if known is None:
            return PinError(
                pin.lot,
                "cook",
                pin.cook,
                sentence("is not in the kitchen file"),
                sentence("Who can do it: {able}", able=able),
            )
        if pin.cook not in self.workload.cooks:
            why = sentence("is not in on this day")
            if known.learns_from is not None:
                why = sentence("works beside another cook, whose batches are theirs too")
            return PinError(
                pin.lot, "cook", known.name, why, sentence("Who can do it: {able}", able=able)
            )
        if self.workload.cooks.index(pin.cook) in task.minutes:
            return None
        operation = self.catalog.operations[lot.operation]
        station = self.catalog.stations[operation.station]
        skilled = any(skill.skill == operation.skill for skill in known.skills)
        lacks = (
            sentence("does not work at the station {station}", station=station.name)
            if skilled
            else sentence("does not have the skill '{skill}'", skill=operation.skill)
        )
        return PinError(
            pin.lot,
            "cook",
            known.name,
            sentence(
                "cannot do {title}: {known} {lacks}",
                title=self._title(lot),
                known=known.name,
                lacks=lacks,
            ),
            sentence("Who can: {able}", able=able),
        )

    def _wrong_time(self, pin: Pin, lot: Lot, task: Task) -> PinError | None:
        if pin.begin is None:
            return None
        if not 0 <= pin.begin < _MIDNIGHT:
            return self._late_or_early(
                pin, sentence("is no time of the day"), sentence("Give one from 00:00 to 23:59")
            )
        index = work_task(lot)
        first = self.tables.earliest[index]
        if pin.exactly and pin.begin < first:
            return self._late_or_early(
                pin,
                sentence(
                    "is too early for {title}: {why_not_sooner}",
                    title=self._title(lot),
                    why_not_sooner=self._why_not_sooner(lot, task, first),
                ),
                sentence("Begin at {at} or later", at=clock(first)),
            )
        end = self.tables.latest[index]
        last = end - self.tables.least[index]
        if pin.begin > last:
            return self._late_or_early(
                pin,
                sentence(
                    "is too late for {title}: it must be done by {at} to be of use, or to be "
                    "in time for what follows at once",
                    title=self._title(lot),
                    at=clock(end),
                ),
                sentence("Begin at {at} or sooner", at=clock(last))
                if last >= first
                else sentence("Leave the time open"),
            )
        workers = task.minutes if pin.cook is None else [self.workload.cooks.index(pin.cook)]
        reasons = [self._not_in(pin, task, worker) for worker in workers]
        if reasons and all(reason is not None for reason in reasons):
            return reasons[0]
        return None

    def _not_in(self, pin: Pin, task: Task, worker: int) -> PinError | None:
        """Why one cook cannot begin then."""
        begin = pin.begin or 0
        person, minutes = self.workload.problem.workers[worker], task.minutes[worker]
        name, last = self._name(worker), person.latest_end - minutes
        if begin > last or (pin.exactly and begin < person.start):
            return self._late_or_early(
                pin,
                sentence(
                    "is outside the hours of {name}, who is in from {at} to {at_2}; it takes "
                    "{n} min",
                    name=name,
                    at=clock(person.start),
                    at_2=clock(person.end),
                    n=minutes,
                ),
                sentence(
                    "Begin from {at} to {at_2}, or give it to another cook",
                    at=clock(person.start),
                    at_2=clock(last),
                ),
            )
        if not pin.exactly:
            return None
        for since, until in _away(person, task):
            if begin < until and since < begin + minutes:
                return self._late_or_early(
                    pin,
                    sentence(
                        "does not go: {name} is away from prep from {at} to {at_2}, and it takes "
                        "{n} min",
                        name=name,
                        at=clock(since),
                        at_2=clock(until),
                        n=minutes,
                    ),
                    sentence(
                        "Begin at {at} or later, or be done by {at_2}",
                        at=clock(until),
                        at_2=clock(since),
                    ),
                )
        return None

    def _in_the_way(self, pin: Pin, task: Task, before: Iterable[Pin]) -> PinError | None:
        """Whether one cook would be held at two batches at once."""
        if pin.cook is None or pin.begin is None or not pin.exactly:
            return None
        worker = self.workload.cooks.index(pin.cook)
        end = pin.begin + task.minutes[worker]
        lots = {lot.id: lot for lot in self.workload.lots}
        for other in before:
            if other.cook != pin.cook or other.begin is None or not other.exactly:
                continue
            known = self.workload.problem.tasks[work_task(lots[other.lot])]
            until = other.begin + known.minutes[worker]
            if pin.begin < until and other.begin < end:
                return self._late_or_early(
                    pin,
                    sentence(
                        "is taken: {name} is held at {title} from {at} to {at_2}",
                        name=self._name(worker),
                        title=self._title(lots[other.lot]),
                        at=clock(other.begin),
                        at_2=clock(until),
                    ),
                    sentence("Begin at {at} or later, or do not hold that one", at=clock(until)),
                )
        return None

    def _why_not_sooner(self, lot: Lot, task: Task, first: int) -> str:
        if task.earliest_end is not None and task.earliest_end - self._least(lot) >= first:
            return sentence(
                "made sooner than for {at} it would not keep", at=clock(task.earliest_end)
            )
        if lot.upstream:
            return sentence("what it is made of is not ready before {at}", at=clock(first))
        if task.release >= first:
            return sentence("its food is not there before {at}", at=clock(first))
        return sentence("nobody who can do it is free before {at}", at=clock(first))

    def _least(self, lot: Lot) -> int:
        return self.tables.least[work_task(lot)]

    def _late_or_early(self, pin: Pin, message: str, remedy: str) -> PinError:
        return PinError(pin.lot, "begin", clock(pin.begin or 0), message, remedy)

    def _title(self, lot: Lot) -> str:
        operation = self.catalog.operations[lot.operation].name
        return f"{operation} {self.catalog.name(lot.food)}"

    def _name(self, worker: int) -> str:
        return self.catalog.cooks[self.workload.cooks[worker]].name


def _away(person: Worker, task: Task) -> Iterator[tuple[int, int]]:
    """When a cook cannot work at it for certain: breaks that can move make way."""
    yield from person.blocked if task.pausable else walls_of(person)
