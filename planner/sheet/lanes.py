"""Lanes of the wall chart: every cook, then equipment that works unattended."""

from collections import defaultdict
from collections.abc import Iterator, Mapping

from planner.schedule.timetable import Assignment
from planner.sheet.batch_types import SheetBatch
from planner.sheet.places import HeldTime
from planner.sheet.runs import Run
from planner.sheet.types import CookSheet, Lane, LaneBlock
from planner.sheet.view import PlanView
from planner.wording import sentence

LEAD, WORK, UNATTENDED = "lead", "work", "unattended"


def cook_lane(sheet: CookSheet, found: tuple[Run, ...]) -> Lane:
    """One cook's row: leads, work and stretches away, by start."""
    blocks = [LaneBlock(one.start, one.end, one.kind, one.kind, None, False) for one in sheet.away]
    by_number = {batch.number: batch for batch in sheet.batches}
    for run in found:
        batch = by_number.get(run.number)
        if batch is not None:
            blocks += _batch_blocks(run, batch)
    return Lane(sheet.name, "cook", tuple(sorted(blocks, key=lambda one: (one.start, one.end))))


def equipment_lanes(
    view: PlanView,
    held: tuple[HeldTime, ...],
    run_of_task: Mapping[int, Run],
    batches: Mapping[int, SheetBatch],
) -> tuple[Lane, ...]:
    """Rows of the equipment that is left unattended at least once.

    Units that are told apart have a row each; of the others, holds that overlap take the first row
    that is free, so rows show how many are in use at once.
    """
    by_resource: dict[int, list[HeldTime]] = defaultdict(list)
    for one in held:
        if view.is_equipment(one.hold):
            by_resource[one.hold.resource].append(one)
    lanes: list[Lane] = []
    for resource in sorted(by_resource):
        holds = by_resource[resource]
        blocks = {one: _held_blocks(view, one, run_of_task, batches) for one in holds}
        if not any(block.kind == UNATTENDED for found in blocks.values() for block in found):
            continue
        rows = _rows(holds)
        name = view.resource_name(holds[0].hold)
        for number, row in enumerate(rows, start=1):
            title = name if len(rows) == 1 else f"{name} {number}"
            lanes.append(
                Lane(title, "equipment", tuple(block for one in row for block in blocks[one]))
            )
    return tuple(lanes)


def _batch_blocks(run: Run, batch: SheetBatch) -> list[LaneBlock]:
    blocks: list[LaneBlock] = []
    late = batch.late > 0
    for one in run.assignments:
        if one.lead.total:
            start = one.start - one.lead.total
            blocks.append(LaneBlock(start, one.start, LEAD, LEAD, run.number, late))
        for begin, end in _worked(one, run.pauses):
            last = blocks[-1] if blocks else None
            if last is not None and last.kind == WORK and last.end == begin:
                # Tasks that touch are one stretch of work to the eye.
                blocks[-1] = LaneBlock(last.start, end, WORK, last.text, run.number, late)
            else:
                blocks.append(LaneBlock(begin, end, WORK, _text(batch), run.number, late))
    return blocks


def _worked(one: Assignment, pauses: tuple[tuple[int, int], ...]) -> Iterator[tuple[int, int]]:
    """Stretches of a task between the breaks that it is put down over."""
    begin = one.start
    for since, until in sorted(pauses):
        if one.start < since and until < one.end:
            yield begin, since
            begin = until
    yield begin, one.end


def _held_blocks(
    view: PlanView,
    held: HeldTime,
    run_of_task: Mapping[int, Run],
    batches: Mapping[int, SheetBatch],
) -> tuple[LaneBlock, ...]:
    """One hold as blocks: hands-on while a task of its lot runs, else unattended."""
    lot, _task = view.lot_tasks[held.first.task]
    own = [view.assignments[task.task] for task in lot.tasks if task.task in view.assignments]
    opening = batches[run_of_task[held.first.task].number]
    blocks: list[LaneBlock] = []

    def add(start: int, end: int, kind: str, batch: SheetBatch) -> None:
        if end > start:
            text = LEAD if kind == LEAD else f"{_units(held)}{_text(batch)}"
            blocks.append(LaneBlock(start, end, kind, text, batch.number, batch.late > 0))

    now = held.start
    for one in sorted(own, key=lambda one: one.start):
        batch = batches[run_of_task[one.task].number]
        lead_start = min(max(now, one.start - one.lead.total), held.end)
        work_start = min(max(lead_start, one.start), held.end)
        end = min(max(work_start, one.end), held.end)
        add(now, lead_start, UNATTENDED, opening)
        add(lead_start, work_start, LEAD, batch)
        add(work_start, end, WORK, batch)
        now = end
    add(now, held.end, UNATTENDED, opening)
    return tuple(blocks)


def _units(held: HeldTime) -> str:
    return f"{held.hold.units} x " if held.hold.units > 1 else ""


def _rows(holds: list[HeldTime]) -> list[list[HeldTime]]:
    named: dict[int, list[HeldTime]] = defaultdict(list)
    free: list[list[HeldTime]] = []
    for one in sorted(holds, key=lambda one: (one.start, one.end)):
        if one.unit is not None:
            named[one.unit].append(one)
            continue
        row = next((row for row in free if row[-1].end <= one.start), None)
        if row is None:
            free.append(row := [])
        row.append(one)
    return [named[unit] for unit in sorted(named)] + free


def _text(batch: SheetBatch) -> str:
    what = f"{batch.operation_name}: {batch.food_name}"
    if batch.part == "check":
        return sentence("Check {what}", what=what)
    return sentence("Take out {what}", what=what) if batch.part == "finish" else what
