"""A lot's hands-on tasks: start, checks, take-out; who may do them and for how long."""

import math
from dataclasses import dataclass, field, replace

from planner.kitchen.foods import Component
from planner.kitchen.hours import DAY
from planner.kitchen.work import Operation
from planner.lots.crew import Crew
from planner.lots.draft import Draft
from planner.lots.flow import apportion
from planner.lots.hygiene import HygieneBook
from planner.lots.types import LotTask, Part
from planner.quantities.kitchenry import Kitchenry
from planner.schedule.problem import Family, Hold, Resource, Task, Wait

_CHECK_SLACK = 30
"""A check may come so many minutes early, or half of its interval if less; never late."""


@dataclass
class Board:
    """The scheduling problem as it grows."""

    kit: Kitchenry
    crew: Crew
    hygiene: HygieneBook
    start: int
    families: dict[Family, int] = field(default_factory=dict)
    resources: dict[str, int] = field(default_factory=dict)
    resource_list: list[Resource] = field(default_factory=list)
    tasks: list[Task] = field(default_factory=list)
    waits: list[Wait] = field(default_factory=list)
    holds: list[Hold] = field(default_factory=list)

    def family(self, family: Family) -> int:
        """Index of a family, new or known."""
        return self.families.setdefault(family, len(self.families))

    def station(self, name: str) -> int:
        """Index of a station's places."""
        station = self.kit.catalog.stations[name]
        resource = Resource(f"station:{name}", station.places, station.food_contact)
        return self._resource(resource)

    def equipment(self, name: str) -> int:
        """Index of a kind of equipment."""
        item = self.kit.catalog.equipment[name]
        return self._resource(Resource(f"equipment:{name}", item.count, item.food_contact))

    def _resource(self, resource: Resource) -> int:
        if resource.id not in self.resources:
            self.resources[resource.id] = len(self.resource_list)
            self.resource_list.append(resource)
        return self.resources[resource.id]


@dataclass(frozen=True, slots=True)
class LotWork:
    """What was put on the board for one lot."""

    tasks: tuple[LotTask, ...]
    first: int
    last: int
    unattended: int
    tail: int
    """Unattended minutes after the last task that nobody takes out today."""


def stage_minutes(
    kit: Kitchenry, crew: Crew, drafts: list[Draft]
) -> tuple[list[float], list[dict[int, int]]]:
    """Book minutes of each lot of one stage, and whole minutes by worker.

    Minutes are rounded up once per stage and pace, then shared out, so that splitting a quantity
    into lots costs nothing by itself.
    """
    stage = drafts[0].stage
    effort = kit.efforts.of(stage.component, stage.step)
    book = [effort.hands_on(draft.grams_in) for draft in drafts]
    paces = crew.paces(effort.operation)
    shared = {
        pace: apportion(math.ceil(sum(book) / pace - 1e-9), book) for pace in set(paces.values())
    }
    by_lot = [
        {worker: shared[pace][i] for worker, pace in paces.items()} for i in range(len(drafts))
    ]
    return book, by_lot


def add_tasks(
    board: Board, draft: Draft, book: float, minutes: dict[int, int], closes: int
) -> LotWork:
    """Put a lot's tasks, waits and holds on the board."""
    component, step = draft.stage.component, draft.stage.step
    effort = board.kit.efforts.of(component, step)
    operation = effort.operation
    name = f"{draft.index}:{operation.id}"
    releases = [pair for part in draft.slices for pair in part.need.portion.releases]
    release = max([board.start, *(at for into, at in releases if into == step)])
    food = _food(draft)
    together = _components(board, draft)
    hygiene = board.hygiene.joint(together, step)
    family = Family(operation.id, food, operation.station, hygiene, operation.set_up_minutes)
    work = _add(board, name, draft.index, family, minutes, release)
    if operation.pausable and _may_wait(together):
        board.tasks[work] = replace(board.tasks[work], pausable=True)
    tasks = [LotTask(work, Part.WORK, book)]
    after = board.hygiene.joint(together, step, after=True)
    over_night = _over_night(draft, closes)
    finishes = effort.unattended > 0 and effort.finish > 0 and not over_night
    if effort.unattended and operation.check_every_minutes:
        room = closes - (draft.due - effort.unattended) if over_night else effort.unattended
        family = Family(f"{operation.id}:check", food, operation.station, after, 0)
        tasks += _add_checks(board, draft, operation, family, work, min(room, effort.unattended))
    last = work
    if finishes:
        family = Family(f"{operation.id}:finish", food, operation.station, after, 0)
        by_worker = _paced(board, operation, effort.finish)
        last = _add(board, f"{name}:finish", draft.index, family, by_worker, board.start)
        tasks.append(LotTask(last, Part.FINISH, float(effort.finish)))
        within = operation.finish_within_minutes
        limit = None if within is None else effort.unattended + within
        board.waits.append(Wait(work, last, effort.unattended, limit))
        checks = [t.task for t in tasks if t.part is Part.CHECK]
        board.waits += [Wait(check, last) for check in checks]
    tail = 0 if finishes else effort.unattended
    _add_holds(board, draft, tasks, work, last, tail)
    return LotWork(tuple(tasks), work, last, effort.unattended, tail)


def _may_wait(components: list[Component]) -> bool:
    """Whether food may lie through a break where it is worked on: none that needs the cold.

    So the minutes that such food is out, or cooling, are those of its work.
    """
    return not any(component.tcs for component in components)


def _components(board: Board, draft: Draft) -> list[Component]:
    """Every component that a lot is worked on for."""
    names = dict.fromkeys(part.need.portion.component for part in draft.slices)
    return [board.kit.catalog.components[name] for name in names]


def _food(draft: Draft) -> str:
    """What a cook sees on the board: the food, and the cut if it is being cut."""
    component, step = draft.stage.component, draft.stage.step
    food = component.id if component.makes is not None else component.inputs[0].item
    cut = component.route[step].cut
    return food if cut is None else f"{food}/{cut}"


def _over_night(draft: Draft, closes: int) -> bool:
    """Whether the step is for a later day, and done by itself after everybody has left."""
    return all(
        part.need.portion.making.last_step == draft.stage.step + 1
        and part.need.due > max(closes, DAY - 1)
        for part in draft.slices
    )


def _add(
    board: Board, name: str, lot: int, family: Family, minutes: dict[int, int], release: int
) -> int:
    board.tasks.append(Task(name, lot, board.family(family), minutes, release))
    return len(board.tasks) - 1


def _paced(board: Board, operation: Operation, minutes: int) -> dict[int, int]:
    return {
        worker: max(1, math.ceil(minutes / pace - 1e-9))
        for worker, pace in board.crew.paces(operation).items()
    }


def _add_checks(
    board: Board, draft: Draft, operation: Operation, family: Family, work: int, unattended: int
) -> list[LotTask]:
    """Looks at what cooks or cools by itself, each at its time or some minutes before."""
    every = operation.check_every_minutes or unattended
    slack = min(_CHECK_SLACK, every // 2)
    found: list[LotTask] = []
    for count in range(1, (unattended - 1) // every + 1):
        minutes = _paced(board, operation, max(1, operation.check_minutes))
        name = f"{draft.index}:{operation.id}:check{count}"
        task = _add(board, name, draft.index, family, minutes, board.start)
        at = count * every
        board.waits.append(Wait(work, task, at - slack, at))
        found.append(LotTask(task, Part.CHECK, float(max(1, operation.check_minutes))))
    return found


def _add_holds(
    board: Board, draft: Draft, tasks: list[LotTask], work: int, last: int, tail: int
) -> None:
    """A place at the station for each task but a glance; equipment until it is taken out."""
    effort = board.kit.efforts.of(draft.stage.component, draft.stage.step)
    station = board.station(effort.operation.station)
    board.holds += [
        Hold(station, item.task, item.task) for item in tasks if item.part is not Part.CHECK
    ]
    for use, unit in zip(effort.operation.equipment, effort.unit_grams, strict=True):
        units = 1 if math.isinf(unit) else max(1, math.ceil(draft.grams_in / unit - 1e-6))
        board.holds.append(Hold(board.equipment(use.equipment), work, last, units, tail))
