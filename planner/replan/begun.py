"""What of a plan is done or under way at a time of the day, and what is left of it."""

from collections.abc import Iterable
from dataclasses import dataclass

from planner.lots.types import Lot, Part, Workload
from planner.replan.events import CookGone, EquipmentDown, Event, Overran, Spoiled
from planner.schedule.timetable import Assignment, Timetable


@dataclass(frozen=True, slots=True)
class Begun:
    """A lot whose hands-on work has begun.

    Attributes
    ----------
    worker
        Who began it.
    work_end
        When its hands-on work ends, or ended (minutes).
    ready
        When its unattended minutes are over.
    left
        Tasks of the old problem that are still to be done: checks and the take-out.
    share
        Fraction of the food that was worked on: below 1 where the cook left in the midst of it.
    spoiled
        It gives nothing: the food is discarded.
    """

    lot: Lot
    worker: int
    work_end: int
    ready: int
    left: tuple[int, ...]
    share: float = 1.0
    spoiled: bool = False

    @property
    def under_way(self) -> bool:
        """Whether somebody has still to look at it or take it out."""
        return bool(self.left)


@dataclass(frozen=True, slots=True)
class Standing:
    """The day as it stands at ``now``.

    ``busy`` says by worker until when they are at a task that is under way. ``interrupted`` are
    lots that lost the equipment they were in: as if they had not begun.
    """

    now: int
    begun: tuple[Begun, ...]
    busy: dict[int, int]
    interrupted: tuple[Lot, ...] = ()

    @property
    def lots(self) -> frozenset[int]:
        """Indexes of the lots that have begun."""
        return frozenset(one.lot.index for one in self.begun)


def standing(
    workload: Workload, timetable: Timetable, now: int, events: Iterable[Event] = ()
) -> Standing:
    """Take the plan to have been kept until ``now``, but for what ``events`` say.

    A task has begun if its own minutes have (its lead may be given up). A cook who leaves in the
    midst of work that needs nothing but hands leaves a part of it done; work that goes on by itself
    afterwards (a pot half filled) counts as not begun.
    """
    told = tuple(events)
    by_task = {item.task: item for item in timetable.assignments}
    gone = {event.cook: event.at for event in told if isinstance(event, CookGone)}
    until = {event.lot: event.until for event in told if isinstance(event, Overran)}
    spoiled = {event.lot for event in told if isinstance(event, Spoiled)}
    begun: list[Begun] = []
    busy: dict[int, int] = {}
    for lot in workload.lots:
        work = by_task.get(_work(lot))
        if work is None or work.start >= now:
            continue
        left_at = gone.get(workload.cooks[work.worker], work.end)
        one = _begun(lot, work, by_task, now, until.get(lot.id))
        if left_at < work.end and now < work.end:
            share = max(0.0, (left_at - work.start) / (work.end - work.start))
            if lot.unattended or share <= 0:
                continue
            one = Begun(lot, work.worker, left_at, left_at, (), share)
        elif one.work_end > now:
            busy[work.worker] = max(busy.get(work.worker, 0), one.work_end)
        begun.append(
            Begun(lot, one.worker, one.work_end, one.ready, (), one.share, spoiled=True)
            if lot.id in spoiled
            else one
        )
        for item in lot.tasks:
            other = by_task[item.task]
            if item.part is not Part.WORK and other.start < now < other.end:
                busy[other.worker] = max(busy.get(other.worker, 0), other.end)
    kept = {w: end for w, end in busy.items() if workload.cooks[w] not in gone}
    lost = _interrupted(workload, begun, told)
    still = tuple(one for one in begun if one.lot.index not in lost)
    return Standing(now, still, kept, tuple(workload.lots[index] for index in sorted(lost)))


def _interrupted(workload: Workload, begun: list[Begun], events: tuple[Event, ...]) -> set[int]:
    """Lots under way in equipment that is down, where the rest of it is full; the last begun go."""
    problem = workload.problem
    lost: set[int] = set()
    for event in events:
        if not isinstance(event, EquipmentDown):
            continue
        users: list[tuple[int, int, int]] = []
        room = 0
        for index, resource in enumerate(problem.resources):
            if resource.id != f"equipment:{event.equipment}":
                continue
            room = resource.capacity - event.units
            for one in begun:
                units = sum(
                    hold.units
                    for hold in problem.holds
                    if hold.resource == index and hold.last in one.left
                )
                if units and one.lot.index not in lost:
                    users.append((one.work_end, one.lot.index, units))
        users.sort()
        while users and sum(units for _, _, units in users) > room:
            lost.add(users.pop()[1])
    return lost


def _begun(
    lot: Lot, work: Assignment, by_task: dict[int, Assignment], now: int, until: int | None
) -> Begun:
    left = tuple(
        item.task
        for item in lot.tasks
        if item.part is not Part.WORK and by_task[item.task].start >= now
    )
    work_end = work.end
    ready = work.end + lot.unattended
    if until is not None:
        if now < work.end:
            work_end, ready = until, until + lot.unattended
        else:
            ready = max(ready, until)
    return Begun(lot, work.worker, work_end, ready, left)


def _work(lot: Lot) -> int:
    return next(item.task for item in lot.tasks if item.part is Part.WORK)
