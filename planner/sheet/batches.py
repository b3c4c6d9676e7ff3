"""One line of the sheet per batch: what, how much, where, with what, until when."""

from collections.abc import Mapping
from typing import TypeVar

from planner.lots.types import Lot, Part
from planner.ready import minutes_alone
from planner.sheet.batch_types import BatchOutput, HeldByHand, SheetBatch, SheetTask, Trimming
from planner.sheet.cautions import allergens, cautions, cools_cooked
from planner.sheet.dishes import dish_names, dish_shares
from planner.sheet.food_names import food_name
from planner.sheet.labels import is_last_part
from planner.sheet.notes import notes
from planner.sheet.outputs import outputs
from planner.sheet.own_figures import own_figures
from planner.sheet.places import HeldTime, equipment, place
from planner.sheet.runs import Run
from planner.sheet.takings import Source, takings, trimmings
from planner.sheet.view import PlanView

_Value = TypeVar("_Value")


def sheet_batch(
    view: PlanView, run: Run, sources: Mapping[int, Source], held: tuple[HeldTime, ...]
) -> SheetBatch:
    """All that the cook must know of one batch."""
    lots, part, lead = run.lots, run.part, run.lead
    operation = view.operation(lots[0])
    given = outputs(view, run)
    number, piece = _pieces_out(given)
    due, late = _due(view, run)
    unattended, unattended_until = _unattended(run)
    return SheetBatch(
        number=run.number,
        cook=run.cook.id,
        cook_name=run.cook.name,
        part=part.value,
        operation=operation.id,
        operation_name=operation.name,
        food_name=food_name(view, lots, part),
        components=tuple(dict.fromkeys(one.name for one in given)),
        station=view.catalog.stations[operation.station].name,
        equipment=equipment(view, [run], held),
        place=place(view, run, held),
        start=run.start,
        work_start=run.assignments[0].start,
        end=run.end,
        set_up=lead.set_up,
        changeover=lead.changeover,
        hand_wash=lead.hand_wash,
        clean=lead.clean,
        hands_on=run.hands_on,
        grams_in=sum(lot.grams_in for lot in lots),
        grams_out=sum(lot.grams_out for lot in lots),
        pieces_out=number,
        piece_out=piece,
        cut=_same([one.cut for one in given]),
        temperature_c=_same([_to_reach(view, part, lot) for lot in lots]),
        unattended=unattended,
        unattended_until=unattended_until,
        takings=takings(view, lots, sources) if part is Part.WORK else (),
        trimmings=_trimmed(view, run),
        label=next((one.label for one in given if one.label is not None), None),
        dishes=dish_names(view, lots),
        due=due,
        late=late,
        cautions=cautions(view, run.family(view), part, lots, lead),
        allergens=allergens(lots),
        guidance=operation.guidance,
        notes=notes(view, run, given),
        tasks=_tasks(view, run),
        outputs=given,
        goes_on=run.goes_on,
        held=_held(view, run),
        yields=own_figures(view, lots) if part is Part.WORK else (),
        dish_shares=dish_shares(view, lots),
    )


def _held(view: PlanView, run: Run) -> HeldByHand | None:
    """What people hold of the lots whose work it is; of several times the first."""
    if run.part is not Part.WORK:
        return None
    pins = [view.pins[lot.id] for lot in run.lots if lot.id in view.pins]
    if not pins:
        return None
    timed = min(
        ((pin.begin, not pin.exactly) for pin in pins if pin.begin is not None), default=None
    )
    return HeldByHand(
        cook=any(pin.cook is not None for pin in pins),
        begin=None if timed is None else timed[0],
        exactly=timed is not None and not timed[1],
    )


def _to_reach(view: PlanView, part: Part, lot: Lot) -> float | None:
    """Temperature at the end of the step; half way through cooling it is not there yet."""
    if part is Part.CHECK and cools_cooked(view, lot):
        return None
    return view.step(lot).temperature_c


def _pieces_out(given: tuple[BatchOutput, ...]) -> tuple[float | None, str | None]:
    if len(given) == 1:
        return given[0].pieces, given[0].piece
    return None, None


def _same(values: list[_Value | None]) -> _Value | None:
    """The value all have in common, or None."""
    first = values[0] if values else None
    return first if all(value == first for value in values) else None


def _due(view: PlanView, run: Run) -> tuple[int | None, int]:
    """When the food of the batch must be ready, and how late its own tasks are.

    A lot's last task is due so much earlier as the food then needs by itself; and what another
    component takes of it must be ready for that.
    """
    ready = [due for lot in run.lots if (due := _ready(view, lot)) is not None]
    late = [
        one.end - due
        for one in run.assignments
        if (due := view.problem.tasks[one.task].due) is not None
    ]
    return min(ready, default=None), max(0, *late, 0)


def _ready(view: PlanView, lot: Lot) -> int | None:
    """When the food of one lot must be ready; None: nobody waits for it."""
    found = [
        min(due + minutes_alone(lot), lot.due) if lot.due > 0 else due + minutes_alone(lot)
        for task in lot.tasks
        if (due := view.problem.tasks[task.task].due) is not None
    ]
    return min(found, default=None)


def _unattended(run: Run) -> tuple[int, int | None]:
    """Longest unattended minutes of a lot, and when the last lot is done by itself."""
    if run.part is not Part.WORK:
        return 0, None
    ends = {one.task: one.end for one in run.assignments}
    done = [
        (lot.unattended, ends[task.task] + lot.unattended)
        for lot in run.lots
        for task in lot.tasks
        if task.part is Part.WORK and task.task in ends and lot.unattended
    ]
    if not done:
        return 0, None
    return max(minutes for minutes, _end in done), max(end for _minutes, end in done)


def _trimmed(view: PlanView, run: Run) -> tuple[Trimming, ...]:
    lots = tuple(lot for lot in run.lots if is_last_part(run.part, lot))
    return trimmings(view, lots) if lots else ()


def _tasks(view: PlanView, run: Run) -> tuple[SheetTask, ...]:
    tasks = []
    for one in run.assignments:
        lot, task = view.lot_tasks[one.task]
        tasks.append(
            SheetTask(
                one.task,
                lot.id,
                task.part.value,
                one.start,
                one.end,
                lot.grams_in,
                lot.grams_out,
                _ready(view, lot),
                view.problem.tasks[one.task].id,
                lot.unattended if task.part is Part.WORK else 0,
            )
        )
    return tuple(tasks)
