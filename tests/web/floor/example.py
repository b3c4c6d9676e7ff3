"""The example morning as a released sheet, with ids, and ticks of its batches."""

from dataclasses import replace

from planner.floor.ticks import Act, Tick
from planner.sheet.batch_types import SheetBatch
from planner.sheet.types import KitchenSheet
from tests.web.example import example_sheet
from web.floor.links import FloorLinks

BASE = "/floor/copper/2027-03-09"
LINKS = FloorLinks(BASE, f"/api/v1{BASE}/ticks", release=2, version=17)


def floor_sheet() -> KitchenSheet:
    """The example morning with ids."""
    return with_ids(example_sheet())


def batch_of(sheet: KitchenSheet, number: int) -> SheetBatch:
    """The batch with that number."""
    return next(one for cook in sheet.cooks for one in cook.batches if one.number == number)


def first(sheet: KitchenSheet, cook: str, **wanted: object) -> SheetBatch:
    """The cook's first batch whose fields are as wanted."""
    found = next(one for one in sheet.cooks if one.cook == cook)
    return next(
        one
        for one in found.batches
        if all(getattr(one, name) == value for name, value in wanted.items())
    )


def tick(act: Act, batch: SheetBatch, at: float, **more: object) -> Tick:
    """A tick of a whole batch by its cook."""
    tasks = tuple(task.id for task in batch.tasks)
    return Tick(f"{act}-{batch.number}-{at}", act, at, batch.cook, tasks, **more)  # type: ignore[arg-type]


def worked_until(sheet: KitchenSheet, now: float) -> list[Tick]:
    """Ticks of a morning that goes as planned, until ``now``."""
    batches = [one for cook in sheet.cooks for one in cook.batches]
    begun = [tick(Act.BEGUN, one, one.work_start) for one in batches if one.work_start < now]
    return begun + [tick(Act.DONE, one, one.end) for one in batches if one.end < now]


def with_ids(sheet: KitchenSheet) -> KitchenSheet:
    """The sheet with tasks whose ids and lots are told apart over the whole kitchen.

    A take-out takes out the lots that its cook put on under the same name.
    """
    lots = {
        (batch.cook, batch.operation_name, batch.food_name): batch
        for cook in sheet.cooks
        for batch in cook.batches
        if batch.part == "work"
    }
    return replace(
        sheet,
        cooks=tuple(
            replace(cook, batches=tuple(_with_ids(batch, lots) for batch in cook.batches))
            for cook in sheet.cooks
        ),
    )


def _with_ids(batch: SheetBatch, lots: dict[tuple[str, str, str], SheetBatch]) -> SheetBatch:
    of = lots.get((batch.cook, batch.operation_name, batch.food_name), batch)
    source = of if batch.part == "finish" else batch
    tasks = tuple(
        replace(
            task,
            id=f"{batch.number}:{index}",
            lot=f"{source.number}/{index}",
            part=batch.part,
            unattended=batch.unattended if batch.part == "work" else 0,
        )
        for index, task in enumerate(source.tasks)
    )
    return replace(batch, tasks=tasks)
