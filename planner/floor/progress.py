"""How far a released sheet has come: batches, what a cook is at, what runs by itself."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from planner.floor.state import Floor, Said
from planner.sheet.batch_types import SheetBatch, SheetTask
from planner.sheet.types import CookSheet, KitchenSheet


class Stage(StrEnum):
    """Where a batch stands."""

    TO_DO = "to do"
    UNDER_WAY = "under way"
    DONE = "done"


@dataclass(frozen=True, slots=True)
class BatchProgress:
    """A batch and where it stands; ``problems`` are what cooks report of it."""

    batch: SheetBatch
    stage: Stage
    begun: Said | None
    done: Said | None
    problems: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Timer:
    """Food that runs by itself, until ``due`` (minutes).

    ``task`` is what put it on; ``take_out`` the task that ends it, or None: it may be left.
    """

    task: str
    batch: int
    cook: str
    cook_name: str
    what: str
    place: str
    due: float
    take_out: str | None


def progress_of(cook: CookSheet, floor: Floor) -> tuple[BatchProgress, ...]:
    """Every batch of a cook's sheet, in its order, with where it stands."""
    return tuple(_progress(batch, floor) for batch in cook.batches)


def current(batches: tuple[BatchProgress, ...]) -> BatchProgress | None:
    """What a cook is at, or does next: the first under way, else the first to do."""
    for stage in (Stage.UNDER_WAY, Stage.TO_DO):
        for one in batches:
            if one.stage is stage:
                return one
    return None


def _progress(batch: SheetBatch, floor: Floor) -> BatchProgress:
    tasks = {task.id for task in batch.tasks}
    states = [floor.of(task) for task in tasks]
    dones = [state.done for state in states]
    told = [said for state in states for said in (state.begun, state.done) if said is not None]
    begun = min(told, key=lambda said: said.at, default=None)
    done = None
    if dones and None not in dones:
        done = max((said for said in dones if said is not None), key=lambda said: said.at)
    stage = Stage.DONE if done else Stage.UNDER_WAY if begun else Stage.TO_DO
    reports = tuple(
        problem.reason for problem in floor.problems if not tasks.isdisjoint(problem.tasks)
    )
    return BatchProgress(batch, stage, begun, done, reports)


@dataclass(frozen=True, slots=True)
class Alone:
    """Food that the sheet lets run by itself, for so many ``minutes`` after its work.

    ``task`` puts it on; ``take_out`` is the task that ends it, by the cook ``taken_out_by``; both
    None: it may be left.
    """

    task: str
    batch: int
    cook: str
    cook_name: str
    what: str
    place: str
    minutes: int
    take_out: str | None
    taken_out_by: str | None


def alone_of(sheet: KitchenSheet) -> tuple[Alone, ...]:
    """All that runs by itself at some time of the day, in the order of the sheets."""
    finishes = {
        task.lot: (task.id, batch.cook) for batch, task in _tasks(sheet) if task.part == "finish"
    }
    return tuple(
        Alone(
            task=task.id,
            batch=batch.number,
            cook=batch.cook,
            cook_name=batch.cook_name,
            what=f"{batch.operation_name} {batch.food_name}",
            place=", ".join(batch.equipment) or batch.station,
            minutes=task.unattended,
            take_out=take_out,
            taken_out_by=by,
        )
        for batch, task in _tasks(sheet)
        if task.part == "work" and task.unattended > 0
        for take_out, by in (finishes.get(task.lot, (None, None)),)
    )


def timers_of(sheet: KitchenSheet, floor: Floor) -> tuple[Timer, ...]:
    """What runs by itself now, the next to be done first.

    It runs from when its hands-on start was ticked done, for as long as the plan says, until it is
    taken out, or its alarm was answered where nobody takes it out.
    """
    running = (timer for one in alone_of(sheet) if (timer := _timer(one, floor)) is not None)
    return tuple(sorted(running, key=lambda timer: (timer.due, timer.task)))


def _timer(one: Alone, floor: Floor) -> Timer | None:
    state = floor.of(one.task)
    over = state.heard if one.take_out is None else floor.of(one.take_out).done
    if state.done is None or over is not None:
        return None
    return Timer(
        task=one.task,
        batch=one.batch,
        cook=one.cook,
        cook_name=one.cook_name,
        what=one.what,
        place=one.place,
        due=state.done.at + one.minutes,
        take_out=one.take_out,
    )


def _tasks(sheet: KitchenSheet) -> Iterator[tuple[SheetBatch, SheetTask]]:
    for cook in sheet.cooks:
        for batch in cook.batches:
            for task in batch.tasks:
                yield batch, task
