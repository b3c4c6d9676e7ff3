"""Seeded scheduling problems like a kitchen's morning; same size, kind and seed, same problem.

``sizes.py`` has the figures, ``menu.py`` what is made; here it becomes cooks, tasks and holds.
"""

import math
import random
from collections import defaultdict
from dataclasses import dataclass, field

from planner.schedule.problem import (
    Changeovers,
    Family,
    Hold,
    Hygiene,
    Job,
    Problem,
    Promise,
    Resource,
    Serving,
    Task,
    Wait,
    Worker,
)
from tests.bench.menu import OPERATIONS, Draft, Menu, draw_menu
from tests.bench.sizes import KINDS, SIZES, Size

_LEAST_MINUTES = 2
_ALL_CAN = ("wash", "pack")


@dataclass(frozen=True)
class Instance:
    """A problem, and what a planner by hand would know of it beyond the problem.

    Attributes
    ----------
    dishes
        Per lot: the dishes (indexes of promises) that take from it, directly or through others.
    due, service
        Per dish: minute it is due, number of its service.
    """

    problem: Problem
    dishes: tuple[tuple[int, ...], ...]
    due: tuple[int, ...]
    service: tuple[int, ...]


def generate(size: str, kind: str, seed: int) -> Instance:
    """Generate one instance.

    Raises
    ------
    ValueError
        Unknown size or kind.
    """
    if size not in SIZES:
        raise ValueError(f"size {size!r} is not known; choose from {', '.join(SIZES)}")
    if kind not in KINDS:
        raise ValueError(f"kind {kind!r} is not known; choose from {', '.join(KINDS)}")
    spec = SIZES[size]
    # Text seeds are hashed the same everywhere.
    rng = random.Random(f"{size} {kind} {seed}")  # noqa: S311 - a draw, not a secret
    workers = _workers(rng, spec)
    start = min(worker.start for worker in workers)
    menu = draw_menu(rng, spec, start)
    board = _Board(rng, spec, workers, start)
    load = spec.load_loose if kind == "loose" else spec.load_tight
    _fill(board, menu, load * sum(map(_minutes_in, workers)))
    problem = Problem(
        start=start,
        horizon=max(worker.latest_end for worker in workers),
        workers=workers,
        resources=tuple(board.resources),
        families=tuple(board.families),
        tasks=tuple(board.tasks),
        jobs=tuple(board.jobs),
        waits=tuple(board.waits),
        holds=tuple(board.holds),
        promises=tuple(
            Promise(f"dish {number}", dish.portions, dish.weight)
            for number, dish in enumerate(menu.dishes)
        ),
        changeovers=Changeovers(*spec.changeovers),
    )
    return Instance(
        problem,
        tuple(tuple(sorted(draft.dishes)) for draft in menu.drafts),
        tuple(dish.due for dish in menu.dishes),
        tuple(dish.service for dish in menu.dishes),
    )


def _workers(rng: random.Random, size: Size) -> tuple[Worker, ...]:
    found = []
    for number in range(size.cooks):
        start = size.shift_starts[number % len(size.shift_starts)]
        end = start + size.shift_minutes
        pause = start + rng.randint(*size.break_after)
        away = ((pause, pause + size.break_minutes),)
        found.append(Worker(f"cook {number}", start, end, end + size.overtime, away))
    return tuple(found)


def _minutes_in(worker: Worker) -> int:
    return worker.end - worker.start - sum(end - begin for begin, end in worker.blocked)


@dataclass
class _Board:
    """The problem as it grows."""

    rng: random.Random
    size: Size
    workers: tuple[Worker, ...]
    start: int
    resources: list[Resource] = field(init=False)
    families: dict[Family, int] = field(default_factory=dict)
    tasks: list[Task] = field(default_factory=list)
    jobs: list[Job] = field(default_factory=list)
    waits: list[Wait] = field(default_factory=list)
    holds: list[Hold] = field(default_factory=list)
    paces: dict[str, dict[int, float]] = field(init=False)
    set_up: dict[str, int] = field(init=False)

    def __post_init__(self) -> None:
        rng, size = self.rng, self.size
        self.resources = [
            Resource("board", size.boards, contact=True),
            Resource("sink", size.sinks, contact=True),
            Resource("stove", size.stove_places),
            Resource("bench", size.bench_places),
            Resource("burner", size.burners),
            Resource("oven", size.ovens),
            Resource("blender", size.blenders, contact=True),
            Resource("chiller", size.chiller_shelves),
        ]
        self.paces = {name: self._paces(name) for name in OPERATIONS}
        self.set_up = {name: rng.randint(*size.set_up) for name in OPERATIONS}

    def _paces(self, operation: str) -> dict[int, float]:
        rng, size = self.rng, self.size
        everybody = range(size.cooks)
        able = {w for w in everybody if operation in _ALL_CAN or rng.random() < size.able}
        others = [w for w in everybody if w not in able]
        able.update(rng.sample(others, max(0, min(size.able_least, size.cooks) - len(able))))
        return {worker: rng.choice(size.paces) for worker in sorted(able)}

    def resource(self, name: str) -> int:
        """Index of a resource."""
        return next(i for i, resource in enumerate(self.resources) if resource.id == name)

    def add_task(self, name: str, lot: int, family: Family, minutes: int, release: int) -> int:
        """Add a task that takes ``minutes`` at pace 1."""
        operation = family.operation.removesuffix(":finish")
        by_worker = {
            worker: math.ceil(minutes / pace) for worker, pace in self.paces[operation].items()
        }
        index = self.families.setdefault(family, len(self.families))
        self.tasks.append(Task(name, lot, index, by_worker, release))
        return len(self.tasks) - 1


def _fill(board: _Board, menu: Menu, total: float) -> None:
    """Turn every lot into tasks, hands-on minutes scaled so that they add up to ``total``."""
    rng, size = board.rng, board.size
    drafts = menu.drafts
    scale = total / sum(draft.raw_minutes for draft in drafts)
    minutes = [max(_LEAST_MINUTES, round(draft.raw_minutes * scale)) for draft in drafts]
    rooms = _rooms(menu, minutes)
    alone = [lot for lot, draft in enumerate(drafts) if draft.operation.alone]
    count = min(len(alone), round(size.unattended * len(drafts)))
    unattended = frozenset(rng.sample(alone, count))
    takers: dict[int, list[int]] = defaultdict(list)
    for lot, draft in enumerate(drafts):
        for other in draft.before:
            takers[other].append(lot)
    tails: list[int] = []
    for lot, draft in enumerate(drafts):
        alone_for = _unattended(board, rooms[lot]) if lot in unattended else 0
        tasks, tail = _add_lot(board, lot, draft, minutes[lot], alone_for)
        tails.append(tail)
        for other in draft.before:
            limit = _longest_wait(board, draft, len(takers[other]))
            longest = None if limit is None else limit + tails[other]
            last = board.jobs[other].tasks[-1]
            board.waits.append(Wait(last, tasks[0], tails[other], longest))
        serves = tuple(Serving(*serving) for serving in draft.serves)
        board.jobs.append(Job(f"lot {lot}: {draft.operation.name}", tasks, draft.before, serves))
        if serves:
            _set_due(board, menu, draft, tasks[-1], tail, final=not takers[lot])


def _rooms(menu: Menu, minutes: list[int]) -> list[int]:
    """Per lot: minutes from its food's arrival until it is due, less those of its chain's work.

    Lots come after those they take from, so one pass each way finds the longest chain.
    """
    drafts = menu.drafts
    done = [0] * len(drafts)
    for lot, draft in enumerate(drafts):
        begin = max((done[other] for other in draft.before), default=draft.food.release)
        done[lot] = begin + minutes[lot]
    latest = [min(menu.dishes[dish].due for dish in draft.dishes) for draft in drafts]
    for lot in reversed(range(len(drafts))):
        for other in drafts[lot].before:
            latest[other] = min(latest[other], latest[lot] - minutes[lot])
    return [high - low for low, high in zip(done, latest, strict=True)]


def _unattended(board: _Board, room: int) -> int:
    """Draw the minutes a lot does by itself, as there is room: longer ones are another day's."""
    low, high = board.size.unattended_minutes
    most = min(high, max(low, int(room * board.size.unattended_room)))
    return board.rng.randrange(low, most + 1, 15)


def _add_lot(
    board: _Board, lot: int, draft: Draft, minutes: int, alone_for: int
) -> tuple[tuple[int, ...], int]:
    """Add a lot's tasks and holds; return them and the minutes it still takes after the last."""
    rng, size = board.rng, board.size
    operation, food = draft.operation, draft.food
    after = Hygiene(None, food.hygiene.allergens)
    # What is cooked here comes in raw; only later stages find it cooked.
    raw = not draft.cooked or operation.name not in ("chill", "pack")
    hygiene = food.hygiene if raw else after
    name, station = operation.name, operation.station
    family = Family(name, draft.label, station, hygiene, board.set_up[name])
    release = board.start if draft.before else food.release
    work = board.add_task(f"lot {lot}: {name}", lot, family, minutes, release)
    tail = 0
    tasks: tuple[int, ...] = (work,)
    if alone_for:
        family = Family(f"{name}:finish", draft.label, station, after, 0)
        out = rng.randint(*size.take_out)
        finish = board.add_task(f"lot {lot}: {name}:finish", lot, family, out, board.start)
        most = alone_for + rng.randint(*size.take_out_within)
        board.waits.append(Wait(work, finish, alone_for, most))
        tasks = (work, finish)
    elif name == "chill":
        tail = rng.randint(*size.settle)
    board.holds += [Hold(board.resource(station), task, task) for task in tasks]
    if operation.equipment is not None:
        held = board.resource(operation.equipment)
        board.holds.append(Hold(held, work, tasks[-1], 1, tail))
    return tasks, tail


def _longest_wait(board: _Board, after: Draft, takers: int) -> int | None:
    """Minutes that food may stand between two stages, or None; pooled food may stand."""
    rng, size = board.rng, board.size
    if after.operation.name == "chill":
        return size.into_chiller
    if takers == 1 and len(after.before) == 1 and rng.random() < size.longest_wait:
        return rng.randint(*size.longest_wait_minutes)
    return None


def _set_due(board: _Board, menu: Menu, draft: Draft, task: int, tail: int, *, final: bool) -> None:
    """Due for the first dish that wants it, of use until the last, fresh where nothing follows."""
    rng, size = board.rng, board.size
    wanted = [menu.dishes[dish] for dish, _, _ in draft.serves]
    due = min(dish.due for dish in wanted) - tail
    opens = max(dish.opens for dish in wanted)
    spec = board.tasks[task]
    fresh = final and rng.random() < size.fresh
    earliest = min(due, opens - rng.randint(*size.fresh_minutes)) if fresh else None
    board.tasks[task] = Task(
        spec.id,
        spec.lot,
        spec.family,
        spec.minutes,
        spec.release,
        earliest,
        due,
        max(dish.weight for dish in wanted),
        opens + size.service_minutes - tail,
        1 if fresh else 0,
    )
