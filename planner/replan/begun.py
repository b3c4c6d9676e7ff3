"""What of a plan is done or under way at a time of the day, and what is left of it."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from planner.lots.types import Lot, Part
from planner.replan.course import Course
from planner.replan.events import CookGone, CookLate, EquipmentDown, Event, Overran, Spoiled
from planner.schedule.problem import Hold, Problem, Wait
from planner.schedule.rests import slots_of
from planner.schedule.timetable import Assignment

_LEAST_GRAMS = 0.5


@dataclass(frozen=True, slots=True)
class Begun:
    """A lot whose hands-on work, or the set-up for it, has begun.

    Attributes
    ----------
    worker
        Who began it.
    work_end
        When its hands-on work ends, or ended (minutes).
    ready
        When its unattended minutes are over, or when it was taken out.
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

    @property
    def to_take_out(self) -> bool:
        """Whether its food is there only when somebody has taken it out."""
        return any(item.part is Part.FINISH and item.task in self.left for item in self.lot.tasks)


@dataclass(frozen=True, slots=True)
class Standing:
    """The day as it stands at ``now``.

    Attributes
    ----------
    ended
        When each task that has begun ended, or will end: by old task.
    busy
        By worker: until when they are at a task that is under way.
    interrupted
        Lots that lost the equipment they were in: as if they had not begun.
    """

    now: int
    begun: tuple[Begun, ...]
    ended: dict[int, int]
    busy: dict[int, int]
    interrupted: tuple[Lot, ...] = ()

    @property
    def lots(self) -> frozenset[int]:
        """Indexes of the lots that have begun."""
        return frozenset(one.lot.index for one in self.begun)

    @property
    def by_lot(self) -> dict[int, Begun]:
        """The lots that have begun, by index."""
        return {one.lot.index: one for one in self.begun}


def standing(
    course: Course,
    now: int,
    events: tuple[Event, ...] = (),
    on_hand: Mapping[str, float] | None = None,
) -> Standing:
    """Take the day to have gone as ``course`` has it until ``now``, but for what ``events`` say.

    A cook who leaves in the midst of work that needs nothing but hands leaves a part of it done;
    work that goes on by itself afterwards (a pot half filled) counts as not begun. What a cook
    could not begin, being away or still at a batch that overran, has not begun, nor has what takes
    from it. ``on_hand`` says of ingredients that came late how many grams there were.
    """
    walk = _Walk(course, now, events, dict(on_hand or {}))
    for item in sorted(course.timetable.assignments, key=lambda one: (one.start, one.end)):
        if item.start - item.lead.total < now:
            walk.take(item)
    spoiled = {event.lot for event in events if isinstance(event, Spoiled)}
    begun = []
    for lot in course.workload.lots:
        one = walk.begun(lot)
        if one is None:
            continue
        if lot.id in spoiled:
            for part in lot.tasks:
                if walk.ended.get(part.task, now) > now:
                    walk.ended[part.task] = now
            one = replace(one, work_end=min(one.work_end, now), left=(), spoiled=True)
        begun.append(one)
    whole = Standing(now, tuple(begun), walk.ended, {})
    lost = _interrupted(course.workload.problem, whole, events)
    for one in begun:
        if one.lot.index in lost:
            for part in one.lot.tasks:
                walk.ended.pop(part.task, None)
    busy: dict[int, int] = {}
    for item in course.timetable.assignments:
        until = walk.ended.get(item.task, now)
        if until > now:
            busy[item.worker] = max(busy.get(item.worker, 0), until)
    return Standing(
        now,
        tuple(one for one in begun if one.lot.index not in lost),
        walk.ended,
        busy,
        tuple(course.workload.lots[index] for index in sorted(lost)),
    )


@dataclass
class _Walk:
    """Goes through the day task by task and finds out which have really begun."""

    course: Course
    now: int
    events: tuple[Event, ...]
    on_hand: dict[str, float]
    ended: dict[int, int] = field(default_factory=dict)
    shares: dict[int, float] = field(default_factory=dict)
    free: dict[int, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self._gone = {e.cook: e.at for e in self.events if isinstance(e, CookGone)}
        self._late = {e.cook: e.until for e in self.events if isinstance(e, CookLate)}
        self._until = {e.lot: e.until for e in self.events if isinstance(e, Overran)}
        self._before: dict[int, list[Wait]] = defaultdict(list)
        for wait in self.course.workload.problem.waits:
            self._before[wait.after].append(wait)
        self._slots = slots_of(self.course.workload.problem, self.course.timetable)
        self._by_task = {item.task: item for item in self.course.timetable.assignments}

    def take(self, item: Assignment) -> None:
        """Note a task as begun, if it has."""
        problem = self.course.workload.problem
        lot = self.course.workload.lots[problem.tasks[item.task].lot]
        work = item.task == work_of(lot)
        end = item.end
        if not (item.task in self.course.told or self._could(item, lot, work=work)):
            return
        overran = self._until.get(lot.id)
        if work and overran is not None and (not lot.unattended or self.now < item.end):
            end = max(overran, item.start + 1)
        left_at = self._gone.get(self.course.workload.cooks[item.worker], end)
        if left_at < end:
            # Half a pot is no pot, and half a look is none.
            if not work or lot.unattended or left_at <= item.start:
                return
            self.shares[lot.index] = self._worked(item, left_at) / self._worked(item, end)
            end = left_at
        if work:
            for name, grams in lot.pulls:
                if name in self.on_hand:
                    self.on_hand[name] -= grams
        self.ended[item.task] = end
        self.free[item.worker] = max(end, self.free.get(item.worker, 0))

    def _worked(self, item: Assignment, until: int) -> int:
        """Minutes of a task up to a time, breaks that it is put down over apart."""
        minutes = until - item.start
        if not self.course.workload.problem.tasks[item.task].pausable:
            return minutes
        own = self._slots[item.worker]
        inside = [(begin, min(end, until)) for begin, end in own if item.start < begin < until]
        return minutes - sum(end - begin for begin, end in inside)

    def _could(self, item: Assignment, lot: Lot, *, work: bool) -> bool:
        """Whether the cook was there and free, and the food too."""
        cook = self.course.workload.cooks[item.worker]
        if item.start < max(self._late.get(cook, 0), self.free.get(item.worker, 0)):
            return False
        for wait in self._before[item.task]:
            end = self.ended.get(wait.before)
            if end is None:
                # A look that nobody took does not keep food from being taken out.
                if work or not self._is_check(wait.before):
                    return False
            elif end + wait.minimum + self._overran_alone(wait.before) > item.start:
                return False
        return not work or all(
            grams <= self.on_hand[name] + _LEAST_GRAMS
            for name, grams in lot.pulls
            if name in self.on_hand
        )

    def _is_check(self, task: int) -> bool:
        lot = self.course.workload.lots[self.course.workload.problem.tasks[task].lot]
        return any(one.task == task and one.part is Part.CHECK for one in lot.tasks)

    def _overran_alone(self, task: int) -> int:
        """Minutes that a lot's unattended part takes longer than planned, after its work."""
        lot = self.course.workload.lots[self.course.workload.problem.tasks[task].lot]
        until = self._until.get(lot.id)
        if until is None or not lot.unattended or task != work_of(lot):
            return 0
        return max(0, until - self.ended[task] - lot.unattended)

    def begun(self, lot: Lot) -> Begun | None:
        """What is known of a lot, if its work has begun."""
        work = work_of(lot)
        end = self.ended.get(work)
        if end is None:
            return None
        share = self.shares.get(lot.index, 1.0)
        alone = lot.unattended + self._overran_alone(work)
        out = [self.ended[one.task] for one in lot.tasks if self._finished(one.task, one.part)]
        left = tuple(one.task for one in lot.tasks if one.task not in self.ended)
        if out:
            left = ()  # Nobody looks at what has been taken out.
        ready = max(out, default=end + alone)
        return Begun(lot, self._by_task[work].worker, end, ready, left, share)

    def _finished(self, task: int, part: Part) -> bool:
        return part is Part.FINISH and task in self.ended


@dataclass(frozen=True, slots=True)
class Use:
    """A hold that a begun lot took; ``until`` None: until what is left of the lot is done."""

    index: int
    hold: Hold
    until: int | None


def uses_of(problem: Problem, day: Standing) -> list[Use]:
    """Every place and piece of equipment that begun lots took, and when they are out of it."""
    by_lot = day.by_lot
    found = []
    for index, hold in enumerate(problem.holds):
        one = by_lot.get(problem.tasks[hold.first].lot)
        if one is None or hold.first not in day.ended:
            continue
        if hold.last in one.left:
            found.append(Use(index, hold, None))
        elif one.spoiled:
            found.append(Use(index, hold, min(day.now, day.ended[hold.first])))
        else:
            end = day.ended.get(hold.last, day.now)
            found.append(Use(index, hold, max(end + hold.tail, one.ready) if hold.tail else end))
    return found


def _interrupted(problem: Problem, day: Standing, events: tuple[Event, ...]) -> set[int]:
    """Lots in equipment that is down, where the rest of it is full; the last begun go first."""
    lost: set[int] = set()
    down: dict[str, int] = defaultdict(int)
    for event in events:
        if isinstance(event, EquipmentDown) and (event.until is None or event.until > day.now):
            down[event.equipment] += event.units
    begun = day.by_lot
    uses = uses_of(problem, day)
    for index, resource in enumerate(problem.resources):
        units = down.get(resource.id.removeprefix("equipment:"), 0)
        if not units or not resource.id.startswith("equipment:"):
            continue
        held = [
            (begun[lot].work_end, lot, use.hold.units)
            for use in uses
            if use.hold.resource == index and (use.until is None or use.until > day.now)
            for lot in [problem.tasks[use.hold.first].lot]
            if lot not in lost
        ]
        held.sort()
        while held and sum(taken for _, _, taken in held) > max(0, resource.capacity - units):
            lost.add(held.pop()[1])
    return lost


def work_of(lot: Lot) -> int:
    """The task that begins a lot."""
    return next(item.task for item in lot.tasks if item.part is Part.WORK)


def alone_after(lot: Lot) -> int:
    """Unattended minutes after a lot's last task."""
    return 0 if any(item.part is Part.FINISH for item in lot.tasks) else lot.unattended


def on_route(source: Lot, lot: Lot) -> bool:
    """Whether a lot takes its own component from the step before."""
    own = {share.component for share in lot.shares}
    return source.step == lot.step - 1 and any(s.component in own for s in source.shares)
